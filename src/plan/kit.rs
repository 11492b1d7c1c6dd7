//! When a kit is complete and how long its machine would stand, if it went down at the moment of planning.
//!
//! Every kit is planned as if it alone were rebuilt now: lines of one kit never share a piece, two kits may.
//! Each line takes the earliest of what may be fitted on it; lines with fewer choices choose first. With offers of
//! limited quantity this need not be the best split between lines.

use std::collections::BTreeMap;

use chrono::NaiveDateTime;

use super::downtime::{Downtime, TaskNet, downtime, hourly_cost};
use super::issue::PlanIssue;
use super::lead_time::Arrival;
use super::sourcing::Sourcing;
use super::supply::{Drawn, Need, Supply, is_pair_or_set, is_way_allowed};
use crate::catalogue::{Kit, KitLineOf, PartId};
use crate::interchange::{AcceptedBecause, LineAcceptance};
use crate::record::OtherWay;
use crate::units::{Money, UnitOfCount};

/// How one line of a kit is covered.
#[derive(Debug, Clone, PartialEq)]
pub struct LinePlan {
    /// Position of the line in its kit.
    pub line: usize,
    /// The part asked for; `None` where no table knows it.
    pub part: Option<PartId>,
    /// Unit of count of the line.
    pub unit: UnitOfCount,
    /// Quantity a rebuild needs.
    pub needed: f64,
    /// Quantity on the shelf.
    pub from_stock: f64,
    /// Quantity not on the shelf.
    pub short: f64,
    /// Where the quantity comes from, shelf first, then by arrival.
    pub supplies: Vec<Supply>,
    /// Quantity for which no source with a known arrival was found.
    pub uncovered: f64,
    /// When the whole line is there; `None` where some of it has no known arrival.
    pub arrival: Option<Arrival>,
    /// Production hours the machine would stand if this line alone held it up: wait and rebuild.
    pub holds_down_h: Option<f64>,
}

/// When a kit is complete.
#[derive(Debug, Clone, PartialEq)]
pub enum Completion {
    /// Every line has a known arrival.
    Known {
        /// Likely moment (P50 of the line that is last).
        likely: NaiveDateTime,
        /// Late moment: the latest of the lines' own late moments.
        late: NaiveDateTime,
        /// Line that is last to come; `None` where everything is on the shelf.
        last_line: Option<usize>,
        /// Hours on the clock by which the next-last line comes earlier; `None` for a single line.
        ahead_h: Option<f64>,
    },
    /// Lines without a known arrival hold it up; set a lead time for them.
    Unknown {
        /// Positions of the lines.
        lines: Vec<usize>,
    },
}

/// Lines, completion and downtime for one choice of accepted parts.
#[derive(Debug, Clone, PartialEq)]
pub struct KitOutcome {
    /// Lines, in the order of the kit; those without a quantity are left out.
    pub lines: Vec<LinePlan>,
    /// When everything is there.
    pub completion: Completion,
    /// Downtime in the likely case.
    pub likely: Option<Downtime>,
    /// Downtime in the late case.
    pub late: Option<Downtime>,
    /// Cost of what has to be bought or made, freight left out; `None` where a price is missing.
    pub purchase_cost: Option<Money>,
}

/// What approving one substitute for one line would gain.
#[derive(Debug, Clone, PartialEq)]
pub struct ApprovalGain {
    /// Position of the line in its kit.
    pub line: usize,
    /// The substitute.
    pub part: PartId,
    /// Moment the machine would run again.
    pub up: NaiveDateTime,
    /// Production hours saved; `None` where the downtime without it is unknown.
    pub saved_h: Option<f64>,
    /// Downtime cost saved; `None` where hours or cost are unknown.
    pub saved: Option<Money>,
}

/// The plan of one kit.
#[derive(Debug, Clone, PartialEq)]
pub struct KitPlan {
    /// Position in [`Shop::kits`](crate::catalogue::Shop::kits).
    pub kit: usize,
    /// With the parts that are accepted.
    pub accepted: KitOutcome,
    /// With every open substitute approved as well; `None` where there is none.
    pub with_all_approvals: Option<KitOutcome>,
    /// What each open approval alone would gain, best first; those that gain nothing are left out.
    pub approvals: Vec<ApprovalGain>,
}

/// Plans one kit at a time.
struct KitPlanner<'s, 'a> {
    sourcing: &'s Sourcing<'a>,
    kit: &'s Kit,
    tasks: Option<TaskNet>,
    hourly: Option<Money>,
}

/// Plans every kit of the shop, each as if it alone were rebuilt at the moment of planning.
pub fn plan_kits(
    sourcing: &Sourcing<'_>,
    acceptances: &[LineAcceptance],
    issues: &mut Vec<PlanIssue>,
) -> Vec<KitPlan> {
    let by_line: BTreeMap<(usize, usize), &LineAcceptance> = acceptances
        .iter()
        .map(|acceptance| ((acceptance.kit, acceptance.line), acceptance))
        .collect();
    let shop = sourcing.shop;
    let plans = shop.kits.iter().enumerate().map(|(position, kit)| {
        let acceptance = |line: usize| by_line.get(&(position, line)).copied();
        let planner = KitPlanner {
            sourcing,
            kit,
            tasks: TaskNet::new(kit, issues),
            hourly: hourly_cost(shop, kit, sourcing, issues),
        };
        planner.list_line_issues(issues);
        let accepted: Vec<Vec<PartId>> = (0..kit.lines.len())
            .map(|line| accepted_parts(&kit.lines[line], acceptance(line)))
            .collect();
        let open: Vec<Vec<PartId>> = (0..kit.lines.len())
            .map(|line| open_parts(&kit.lines[line], acceptance(line)))
            .collect();
        planner.plan(position, &accepted, &open)
    });
    plans.collect()
}

/// Parts that may be fitted on a line: only the one asked for where the line wants no substitutes.
pub fn accepted_parts(line: &KitLineOf, acceptance: Option<&LineAcceptance>) -> Vec<PartId> {
    let mut parts: Vec<PartId> = line.part.into_iter().collect();
    for accepted in acceptance.iter().flat_map(|line| &line.accepted) {
        let is_allowed =
            !line.record.no_substitutes || accepted.because == AcceptedBecause::AskedFor;
        if is_allowed && !parts.contains(&accepted.part) {
            parts.push(accepted.part);
        }
    }
    parts
}

/// Parts that a person might yet approve for a line.
fn open_parts(line: &KitLineOf, acceptance: Option<&LineAcceptance>) -> Vec<PartId> {
    if line.record.no_substitutes {
        return Vec::new();
    }
    acceptance
        .iter()
        .flat_map(|line| &line.open)
        .map(|open| open.part)
        .collect()
}

impl KitPlanner<'_, '_> {
    fn plan(&self, position: usize, accepted: &[Vec<PartId>], open: &[Vec<PartId>]) -> KitPlan {
        let base = self.outcome(accepted);
        let mut approvals = Vec::new();
        for (line, parts) in open.iter().enumerate() {
            let is_short = base
                .lines
                .iter()
                .any(|plan| plan.line == line && plan.short > 0.0);
            for part in parts.iter().filter(|_| is_short) {
                let mut with = accepted.to_vec();
                with[line].push(*part);
                approvals.extend(self.gain(&base, &with, line, *part));
            }
        }
        approvals.sort_by(|a, b| {
            let hours = |gain: &ApprovalGain| gain.saved_h.unwrap_or(f64::INFINITY);
            hours(b)
                .total_cmp(&hours(a))
                .then_with(|| (a.up, a.line, a.part).cmp(&(b.up, b.line, b.part)))
        });
        let with_all_approvals = open.iter().any(|parts| !parts.is_empty()).then(|| {
            let all: Vec<Vec<PartId>> = accepted
                .iter()
                .zip(open)
                .map(|(accepted, open)| {
                    let mut parts = accepted.clone();
                    parts.extend(open.iter().filter(|part| !accepted.contains(part)));
                    parts
                })
                .collect();
            self.outcome(&all)
        });
        KitPlan {
            kit: position,
            accepted: base,
            with_all_approvals,
            approvals,
        }
    }

    fn gain(
        &self,
        base: &KitOutcome,
        with: &[Vec<PartId>],
        line: usize,
        part: PartId,
    ) -> Option<ApprovalGain> {
        let after = self.downtime_of(&self.cover_lines(with), |arrival| arrival.likely)?;
        let saved_h = base
            .likely
            .as_ref()
            .map(|before| before.production_h - after.production_h);
        if saved_h.is_some_and(|hours| hours <= 1e-9) {
            return None;
        }
        Some(ApprovalGain {
            line,
            part,
            up: after.up,
            saved_h,
            saved: saved_h
                .zip(self.hourly)
                .map(|(hours, hourly)| super::downtime::cost_of_hours(hourly, hours)),
        })
    }

    fn outcome(&self, accepted: &[Vec<PartId>]) -> KitOutcome {
        let mut lines = self.cover_lines(accepted);
        for plan in &mut lines {
            plan.holds_down_h = plan.arrival.and_then(|arrival| {
                let gate = [(self.task_of(plan), arrival.likely)];
                Some(self.downtime(&gate)?.production_h)
            });
        }
        let completion = completion(self.sourcing.shop.as_of, &lines);
        let likely = self.downtime_of(&lines, |arrival| arrival.likely);
        let late = self.downtime_of(&lines, |arrival| arrival.late);
        let mut cents = Some(0);
        for supply in lines.iter().flat_map(|line| &line.supplies) {
            cents = cents.zip(supply.cost).map(|(sum, cost)| sum + cost.cents);
        }
        let is_covered = lines.iter().all(|line| line.uncovered <= 1e-9);
        KitOutcome {
            completion,
            likely,
            late,
            purchase_cost: cents.filter(|_| is_covered).map(|cents| Money {
                cents,
                currency: self.sourcing.shop.settings.currency,
            }),
            lines,
        }
    }

    /// Covers all lines from one pool: shelf first, the part asked for before others, fewest choices first.
    fn cover_lines(&self, accepted: &[Vec<PartId>]) -> Vec<LinePlan> {
        let mut plans: Vec<LinePlan> = (0..self.kit.lines.len())
            .filter(|line| self.kit.lines[*line].record.quantity > 0.0)
            .map(|line| self.empty_plan(line))
            .collect();
        let mut turn: Vec<usize> = (0..plans.len()).collect();
        turn.sort_by_key(|at| (accepted[plans[*at].line].len(), *at));
        let mut drawn = Drawn::default();
        let most = accepted.iter().map(Vec::len).max().unwrap_or(0);
        for choice in 0..most {
            for at in &turn {
                let plan = &mut plans[*at];
                if let Some(part) = accepted[plan.line].get(choice)
                    && plan.short > 1e-9
                    && let Some(supply) =
                        drawn.take_stock(self.sourcing, *part, plan.short, plan.unit)
                {
                    plan.from_stock += supply.quantity;
                    plan.short = (plan.short - supply.quantity).max(0.0);
                    plan.supplies.push(supply);
                }
            }
        }
        for at in &turn {
            let plan = &mut plans[*at];
            let ways = self.ways(plan.line, &accepted[plan.line]);
            let need = Need {
                accepted: &accepted[plan.line],
                ways: &ways,
                unit: plan.unit,
                is_unknown_part: plan.part.is_none(),
            };
            let (supplies, uncovered) = drawn.take_elsewhere(self.sourcing, &need, plan.short);
            plan.supplies.extend(supplies);
            plan.uncovered = uncovered;
            plan.arrival = arrival_of(&plan.supplies).filter(|_| uncovered <= 1e-9);
        }
        plans
    }

    fn empty_plan(&self, line: usize) -> LinePlan {
        let of = &self.kit.lines[line];
        LinePlan {
            line,
            part: of.part,
            unit: line_unit(self.sourcing, of),
            needed: of.record.quantity,
            from_stock: 0.0,
            short: of.record.quantity,
            supplies: Vec::new(),
            uncovered: of.record.quantity,
            arrival: None,
            holds_down_h: None,
        }
    }

    /// Ways of the line, then those of the parts accepted on it.
    fn ways(&self, line: usize, accepted: &[PartId]) -> Vec<&OtherWay> {
        let of_parts = self
            .sourcing
            .shop
            .other_ways
            .iter()
            .filter(|(part, _)| accepted.contains(part))
            .map(|(_, way)| way);
        let mut ways: Vec<&OtherWay> = self.kit.lines[line].other_ways.iter().collect();
        for way in of_parts {
            if !ways.iter().any(|known| known.place == way.place) {
                ways.push(way);
            }
        }
        ways
    }

    fn task_of(&self, plan: &LinePlan) -> Option<&str> {
        self.kit.lines[plan.line].record.task.as_deref()
    }

    /// Downtime with every line gating its task; `None` where a line has no known arrival.
    fn downtime_of(
        &self,
        lines: &[LinePlan],
        pick: fn(&Arrival) -> NaiveDateTime,
    ) -> Option<Downtime> {
        let gates: Option<Vec<_>> = lines
            .iter()
            .map(|plan| Some((self.task_of(plan), pick(plan.arrival.as_ref()?))))
            .collect();
        self.downtime(&gates?)
    }

    fn downtime(&self, gates: &[(Option<&str>, NaiveDateTime)]) -> Option<Downtime> {
        let tasks = self.tasks.as_ref()?;
        let up = tasks.done(&self.sourcing.calendars, self.sourcing.shop.as_of, gates)?;
        Some(downtime(self.sourcing, up, tasks.work_h(), self.hourly))
    }

    fn list_line_issues(&self, issues: &mut Vec<PlanIssue>) {
        for line in &self.kit.lines {
            let record = &line.record;
            if record.quantity.is_nan() || record.quantity <= 0.0 {
                issues.push(PlanIssue::LineWithoutQuantity {
                    place: record.place.clone(),
                    found: record.quantity,
                });
            }
            for way in &line.other_ways {
                if is_way_allowed(way, line.part.is_none()) && way.hours.is_none() {
                    issues.push(PlanIssue::OtherWayIncomplete {
                        place: way.place.clone(),
                        missing: "hours",
                    });
                }
            }
            self.list_unit_conflict(line, issues);
        }
    }

    /// Stock of the part asked for that cannot be counted as the line counts.
    fn list_unit_conflict(&self, line: &KitLineOf, issues: &mut Vec<PlanIssue>) {
        let Some((id, want)) = line.part.zip(line.record.unit_of_count) else {
            return;
        };
        let Some(stock) = self.sourcing.stock.by_part.get(&id) else {
            return;
        };
        let Some(lot) = stock.lots.first() else {
            return;
        };
        let part = self.sourcing.shop.catalogue.part(id).number.clone();
        if stock.is_unit_assumed && is_pair_or_set(want) {
            issues.push(PlanIssue::UnitUnknownForSet {
                place: line.record.place.clone(),
                other: lot.place.clone(),
                part,
                want,
            });
        } else if stock.unit.in_units_of(want).is_err() {
            issues.push(PlanIssue::UnitConflict {
                place: lot.place.clone(),
                other: line.record.place.clone(),
                part,
                have: stock.unit,
                want,
            });
        }
    }
}

/// Unit a line is counted in: its own, else the part's, else that of the stock, else pieces.
pub fn line_unit(sourcing: &Sourcing<'_>, line: &KitLineOf) -> UnitOfCount {
    let of_part = || sourcing.shop.catalogue.part(line.part?).unit_of_count;
    let of_stock = || Some(sourcing.stock.by_part.get(&line.part?)?.unit);
    line.record
        .unit_of_count
        .or_else(of_part)
        .or_else(of_stock)
        .unwrap_or(UnitOfCount::Piece)
}

/// The last of several supplies.
fn arrival_of(supplies: &[Supply]) -> Option<Arrival> {
    let last = supplies
        .iter()
        .map(|supply| supply.arrival)
        .max_by_key(|arrival| (arrival.likely, arrival.late))?;
    let late = supplies.iter().map(|supply| supply.arrival.late).max()?;
    Some(Arrival { late, ..last })
}

fn completion(now: NaiveDateTime, lines: &[LinePlan]) -> Completion {
    let unknown: Vec<usize> = lines
        .iter()
        .filter(|line| line.arrival.is_none())
        .map(|line| line.line)
        .collect();
    if !unknown.is_empty() {
        return Completion::Unknown { lines: unknown };
    }
    let mut arrivals: Vec<(NaiveDateTime, usize)> = lines
        .iter()
        .filter_map(|line| Some((line.arrival?.likely, line.line)))
        .collect();
    arrivals.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(&b.1)));
    let late = lines
        .iter()
        .filter_map(|line| Some(line.arrival?.late))
        .max()
        .unwrap_or(now);
    let last = arrivals.first().copied();
    Completion::Known {
        likely: last.map_or(now, |(moment, _)| moment),
        late,
        last_line: last
            .filter(|(moment, _)| *moment > now)
            .map(|(_, line)| line),
        ahead_h: last
            .zip(arrivals.get(1))
            .map(|(last, next)| (last.0 - next.0).num_seconds() as f64 / 3600.0),
    }
}

#[cfg(test)]
mod tests;
