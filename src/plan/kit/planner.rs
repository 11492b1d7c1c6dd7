//! Plans one kit as if it alone were rebuilt at the moment of planning.
//!
//! Lines of one kit never share a piece, two kits may. Each line may be covered by what may be fitted on it; the plan is
//! the one with the least expected cost of purchases and downtime, or the fastest where an hour down has no cost.

use std::sync::Arc;

use super::arrival_law::ArrivalLaw;
use super::chosen::{Chosen, same_source};
use super::coming_anyway::besides;
use super::fixed_plans::curve_levels;
use super::line_value::{Lateness, LineValues};
use super::outcome::{
    Completion, Downtime, KitOutcome, LinePlan, NextBest, Proof, Running, Spread,
};
use super::planned::{KitPlanner, Planned, SHARES};
use super::stakes::Weighed;
use crate::catalogue::PartId;
use crate::plan::lead_time::Arrival;
use crate::plan::offer::UsableOffer;
use crate::plan::other_way::ways_of;
use crate::plan::purchase::{
    BestExpected, Cover, Covered, LineNeed, MOST_NODES, MOST_PARTS, best_in_total, curve,
};
use crate::plan::supply::{Source, Supply};
use crate::record::OtherWay;
use crate::units::Money;

/// How much of a plan is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    /// The plan with the best ones for fixed lead times beside it.
    Whole,
    /// The plan; the others only where it is not proved best without them.
    PlanAlone,
}

impl<'s> KitPlanner<'s, '_> {
    /// Plans with some parts accepted on each line; `None` where a calendar is closed for good.
    pub fn planned<'p>(
        &'p self,
        accepted: &[Vec<PartId>],
        assumed: &'p [UsableOffer<'p>],
        depth: Depth,
    ) -> Option<Planned<'p>>
    where
        's: 'p,
    {
        self.planned_where(accepted, assumed, depth, |_| Covered::Anyhow)
    }

    /// The same with only some of the ways of covering a line, by its position in the kit; `None` too where none is left.
    pub fn planned_where<'p>(
        &'p self,
        accepted: &[Vec<PartId>],
        assumed: &'p [UsableOffer<'p>],
        depth: Depth,
        covered: impl Fn(usize) -> Covered,
    ) -> Option<Planned<'p>>
    where
        's: 'p,
    {
        let mut lines = Vec::new();
        let mut needs = Vec::new();
        let mut tails = Vec::new();
        for (line, of) in self.kit.lines.iter().enumerate() {
            let Some(needed) = super::needed_of(of) else {
                continue;
            };
            lines.push(line);
            tails.push(self.stakes.tail_s(of.record.task.as_deref()));
            needs.push(LineNeed {
                ways: self.ways(line, &accepted[line]),
                accepted: accepted[line].clone(),
                assumed,
                unit: super::line_unit(self.stakes.sourcing, of),
                needed,
                is_unknown_part: of.part.is_none(),
                covered: covered(line),
            });
        }
        let figures = self.stakes.figures(&needs, &tails)?;
        if figures.chances.lines.iter().any(Vec::is_empty) {
            return None;
        }
        // The search that proves a plan needs no good start, and most are proved.
        let proved = (depth == Depth::PlanAlone)
            .then(|| figures.chances.best(&[], MOST_PARTS))
            .flatten()
            .filter(BestExpected::is_proved);
        if let Some(best) = proved {
            return Some(Planned {
                lines,
                needs,
                tails,
                figures,
                fixed: Vec::new(),
                best,
            });
        }
        let mut starts = Vec::new();
        let mut fixed = Vec::new();
        for share in SHARES {
            let (problem, moments) =
                self.stakes
                    .fixed(&figures, &tails, share, Weighed::PaidAndDonors)?;
            if let Some(best) = best_in_total(&problem, MOST_NODES) {
                starts.push(best.picked.choices.clone());
                fixed.push((share, moments[best.picked.level], best));
            }
            if share <= SHARES[0] {
                let levels = curve_levels(&moments);
                let points = curve(&problem, &levels, MOST_NODES / 20);
                starts.extend(points.into_iter().map(|point| point.picked.choices));
            }
        }
        starts.sort();
        starts.dedup();
        let best = figures.chances.best(&starts, MOST_PARTS)?;
        Some(Planned {
            lines,
            needs,
            tails,
            figures,
            fixed,
            best,
        })
    }

    /// Everything the plan says.
    pub fn outcome(&self, planned: &Planned<'_>) -> KitOutcome {
        let figures = &planned.figures;
        let chosen = planned.chosen();
        let values = LineValues::new(self, planned, &chosen);
        let lines = self.line_plans(planned, &chosen, &values);
        let spend = figures.chances.spend(&planned.best.choices);
        let is_covered =
            self.without_quantity() == 0 && lines.iter().all(|line| line.uncovered <= 1e-9);
        let goods: i64 = planned
            .best
            .choices
            .iter()
            .enumerate()
            .fold(0, |sum, (group, choice)| {
                figures.chances.lines[group][*choice]
                    .cents
                    .saturating_add(sum)
            });
        let donor_cents = figures.donor_cents(&planned.best.choices);
        let apart = figures.chances.product(&planned.best.choices);
        let is_dated = is_covered && self.stakes.tasks.is_some();
        KitOutcome {
            completion: self.completion(&chosen, &lines),
            running: is_dated.then(|| self.running(&figures.grid, &apart)),
            running_together: is_dated.then(|| {
                let (grid, shares) = values.running_together();
                self.running(grid, shares)
            }),
            purchase_cost: self
                .stakes
                .money(goods)
                .filter(|_| is_covered)
                .map(|goods| Money {
                    cents: goods.cents - donor_cents,
                    currency: goods.currency,
                }),
            freight: Money {
                cents: spend.saturating_sub(goods),
                currency: self.stakes.sourcing.shop.settings.currency,
            },
            freight_assumed_of: figures.covers.freight_assumed_of(
                planned
                    .best
                    .choices
                    .iter()
                    .enumerate()
                    .flat_map(|(group, choice)| &figures.chances.lines[group][*choice].goods),
            ),
            freight_doubt: self.freight_doubt(planned),
            proof: self.proof(planned).filter(|_| is_dated),
            // Without a line of unknown end the rest may be done best, but the machine does not run by it.
            fixed: planned
                .fixed
                .iter()
                .filter(|_| is_dated)
                .filter_map(|fixed| self.fixed_best(planned, fixed))
                .collect(),
            sets: if is_dated {
                values.sets(&planned.lines)
            } else {
                Vec::new()
            },
            lines,
        }
    }

    /// Downtime in the likely case; `None` where a line or the end of the tasks is unknown.
    pub fn likely(&self, planned: &Planned<'_>) -> Option<Downtime> {
        Some(self.runs_again(planned)?.p50)
    }

    /// When the machine runs again; `None` where a line or the end of the tasks is unknown.
    pub fn runs_again(&self, planned: &Planned<'_>) -> Option<Running> {
        self.stakes.tasks?;
        let chosen = planned.chosen();
        if self.without_quantity() > 0 || !chosen.iter().all(|of| of.cover.is_covered()) {
            return None;
        }
        let shares = planned.figures.chances.product(&planned.best.choices);
        Some(self.running(&planned.figures.grid, &shares))
    }

    /// Lines of which nobody can say how many they need: with one of them the kit has no known end.
    fn without_quantity(&self) -> usize {
        let lines = self.kit.lines.iter();
        lines.filter(|of| super::needed_of(of).is_none()).count()
    }

    fn proof(&self, planned: &Planned<'_>) -> Option<Proof> {
        self.stakes.hourly?;
        let best = &planned.best;
        let cents = self.expected_cents(&planned.figures, &planned.figures.chances, &best.choices);
        // What lies between the plan and the bound, in whole cents away from the plan.
        let gap = match best.is_proved() {
            true => 0,
            false => (best.cents - best.bound_cents).max(0.0).ceil() as i64,
        };
        let covers = &planned.figures.covers;
        Some(Proof {
            expected: self.stakes.money(cents)?,
            bound: covers
                .bound_cents(cents - gap)
                .and_then(|cents| self.stakes.money(cents)),
            proved: covers.proved(best.is_proved()),
        })
    }

    /// Ways of the line, then those of the parts accepted on it.
    pub fn ways(&self, line: usize, accepted: &[PartId]) -> Vec<&'s OtherWay> {
        ways_of(self.stakes.sourcing.shop, &self.kit.lines[line], accepted)
    }

    fn line_plans(
        &self,
        planned: &Planned<'_>,
        chosen: &[Chosen<'_>],
        values: &LineValues,
    ) -> Vec<LinePlan> {
        let mut plans: Vec<LinePlan> = Vec::new();
        for (group, of) in chosen.iter().enumerate() {
            for cover in &of.cover.lines {
                let at = cover.at;
                let line = planned.lines[at];
                let from_stock = cover
                    .supplies
                    .iter()
                    .filter(|supply| matches!(supply.source, Source::Stock { .. }))
                    .map(|supply| supply.quantity)
                    .fold(0.0, |sum, quantity| sum + quantity);
                let needed = planned.needs[at].needed;
                let also = of.also.and_then(Cover::single_order);
                let arrival = (cover.uncovered <= 1e-9)
                    .then(|| self.arrival(&cover.supplies, of))
                    .flatten();
                plans.push(LinePlan {
                    line,
                    part: self.kit.lines[line].part,
                    unit: planned.needs[at].unit,
                    needed,
                    from_stock,
                    short: (needed - from_stock).max(0.0),
                    holds_down_h: arrival.filter(|_| self.stakes.tasks.is_some()).and_then(
                        |arrival| {
                            let likely = self.stakes.clock.seconds(arrival.likely);
                            let up = self.stakes.up(likely, planned.tails[at])?;
                            Some(self.stakes.clock.production_h(up))
                        },
                    ),
                    holds_share: values.holds_share(at, Lateness::Apart),
                    holds_share_together: values.holds_share(at, Lateness::Together),
                    on_shelf: values.on_shelf(at, Lateness::Apart),
                    on_shelf_together: values.on_shelf(at, Lateness::Together),
                    next_best: self.next_best(planned, group, of),
                    supplies: cover.supplies.clone(),
                    also: also.cloned().into_iter().collect(),
                    anyway: besides(of.cover, of.open).cloned().collect(),
                    uncovered: cover.uncovered,
                    arrival,
                });
            }
        }
        plans.sort_by_key(|plan| plan.line);
        plans
    }

    /// The last of several supplies, or the first of several orders for the same.
    fn arrival(&self, supplies: &[Supply], of: &Chosen<'_>) -> Option<Arrival> {
        let last = supplies
            .iter()
            .map(|supply| supply.arrival)
            .max_by_key(|arrival| (arrival.likely, arrival.late))?;
        let law = match self.laws_of(of) {
            Some([apart, _]) => apart,
            None if supplies.len() == 1 => return Some(last),
            None => {
                let laws = supplies.iter().map(|of| self.stakes.law(&of.arrival));
                let laws: Vec<Arc<ArrivalLaw>> = laws.collect();
                let laws: Vec<&ArrivalLaw> = laws.iter().map(Arc::as_ref).collect();
                ArrivalLaw::last_of(&laws)
            }
        };
        Some(Arrival {
            likely: self.stakes.clock.moment(law.quantile(0.5)),
            fairly: self.stakes.clock.moment(law.quantile(0.8)),
            late: self.stakes.clock.moment(law.quantile(0.9)),
            ..last
        })
    }

    /// The best other way for a group of one line, by expected cost.
    fn next_best(
        &self,
        planned: &Planned<'_>,
        group: usize,
        chosen: &Chosen<'_>,
    ) -> Option<NextBest> {
        let [line] = &chosen.cover.lines[..] else {
            return None;
        };
        let chances = &planned.figures.chances;
        let is_in = |supplies: &[Supply], supply: &Supply| {
            supplies.iter().any(|of| same_source(of, supply))
        };
        let is_open = |of: &Supply| is_in(chosen.open, of);
        let is_bought = |of: &Supply| !is_open(of) && !matches!(of.source, Source::Stock { .. });
        let is_other = |cover: &Cover| {
            let supplies = &cover.lines[0].supplies;
            let mut more = supplies.iter().filter(|of| !is_open(of));
            // Another of the open orders comes too; to wait for them alone is another way where something is bought.
            let is_waiting = line.supplies.iter().any(is_bought) && !supplies.iter().any(is_bought);
            cover.is_covered() && (is_waiting || more.any(|of| !is_in(&line.supplies, of)))
        };
        let mut choices = planned.best.choices.clone();
        let mut best: Option<(f64, usize)> = None;
        for (at, cover) in planned.figures.covers.groups[group].iter().enumerate() {
            if !is_other(cover) {
                continue;
            }
            choices[group] = at;
            let cents = chances.expected(&choices);
            if best.is_none_or(|(least, _)| cents < least) {
                best = Some((cents, at));
            }
        }
        let (cents, at) = best?;
        let cover = &planned.figures.covers.groups[group][at];
        let dearer = (cents - planned.best.cents).round() as i64;
        let is_priced = self.stakes.money(cover.cents).is_some()
            && self.stakes.money(chosen.cover.cents).is_some();
        Some(NextBest {
            supplies: cover.lines[0].supplies.clone(),
            dearer: self
                .stakes
                .hourly
                .filter(|_| is_priced)
                .and_then(|_| self.stakes.money(dearer)),
        })
    }

    fn completion(&self, chosen: &[Chosen<'_>], lines: &[LinePlan]) -> Completion {
        let mut unknown: Vec<usize> = lines
            .iter()
            .filter(|line| line.arrival.is_none())
            .map(|line| line.line)
            .collect();
        let kit = self.kit.lines.iter().enumerate();
        unknown.extend(
            kit.filter(|(_, of)| super::needed_of(of).is_none())
                .map(|(line, _)| line),
        );
        unknown.sort_unstable();
        if !unknown.is_empty() {
            return Completion::Unknown { lines: unknown };
        }
        let (mut apart, mut together) = (Vec::new(), Vec::new());
        for of in chosen {
            match self.laws_of(of) {
                Some([one, other]) => {
                    apart.push(Arc::new(one));
                    together.push(Arc::new(other));
                }
                None => {
                    for (arrival, _) in of.cover.arrivals() {
                        let law = self.stakes.law(&arrival);
                        apart.push(Arc::clone(&law));
                        together.push(law);
                    }
                }
            }
        }
        let now = ArrivalLaw::certain(0);
        let with_now = |laws: &[Arc<ArrivalLaw>], last: fn(&[&ArrivalLaw]) -> ArrivalLaw| {
            let laws: Vec<&ArrivalLaw> = laws.iter().map(Arc::as_ref).chain([&now]).collect();
            last(&laws)
        };
        let spread = |law: &ArrivalLaw| {
            let at = |share| self.stakes.clock.moment(law.quantile(share));
            Spread {
                p50: at(SHARES[0]),
                p80: at(SHARES[1]),
                p90: at(SHARES[2]),
            }
        };
        let now = self.stakes.clock.moment(0);
        let arrivals = lines
            .iter()
            .filter_map(|line| Some((line.arrival?.likely, line.line)));
        let last = arrivals.max_by(|a, b| a.0.cmp(&b.0).then(b.1.cmp(&a.1)));
        Completion::Known {
            apart: spread(&with_now(&apart, ArrivalLaw::last_of)),
            together: spread(&with_now(&together, ArrivalLaw::last_together)),
            last_line: last
                .filter(|(moment, _)| *moment > now)
                .map(|(_, line)| line),
        }
    }
}
