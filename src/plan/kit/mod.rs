//! When a kit is complete, when its machine runs again and at what cost, if it went down at the moment of planning.
//!
//! [`KitsToPlan`] plans every kit, [`study_kit`] one in depth. Arrivals are laws of steps ([`ArrivalLaw`]); the last of
//! several lines is their product, and since all tasks work on one calendar the moment of running again is too.

mod arrival_law;
mod chosen;
mod coming_anyway;
mod enough;
mod fixed_plans;
mod freight_doubt;
mod hurried;
mod last_line;
mod line_value;
mod open_way;
mod outcome;
mod planned;
mod planner;
mod second_order;
mod settling;
mod stakes;
mod study;
mod task_course;
mod task_net;
mod work_clock;

pub use arrival_law::ArrivalLaw;
pub use enough::{Giver, enough_of};
pub use freight_doubt::{FreightCase, FreightDoubt};
pub use last_line::{GammaWait, Wait, quantile_of_last, share_complete};
pub use line_value::Lateness;
pub use open_way::list_ways_of_parts;
pub use outcome::{
    ApprovalGain, Completion, CurveMoment, Downtime, FixedBest, Gained, HurriedWay, KitOutcome,
    KitPlan, LinePlan, NextBest, Proof, Running, Saving, SetSaving, Settling, SettlingGain, Spread,
    WayGain, WithApprovals,
};
pub use study::{AskFirst, KitStudy, Question, StudyAsk, study_kit};
pub use task_course::{Stretch, TaskCourse, task_courses};
pub use task_net::{TaskNet, cost_of_hours, has_whole_work};

use std::collections::BTreeMap;
use std::ops::Range;

use self::arrival_law::{KnownLaws, ShopLaws};
use self::hurried::hurried_ways;
use self::open_way::{kit_with_way, list_way_issue};
use self::planned::{KitPlanner, Planned};
use self::planner::Depth;
use self::settling::{WaitingOffers, settling_gains};
use self::stakes::Stakes;
use self::task_net::hourly_cost;
use self::work_clock::WorkClock;
use super::issue::PlanIssue;
use super::other_way::is_way_allowed;
use super::rebuild_need::service_ends;
use super::sourcing::Sourcing;
use super::supply::is_pair_or_set;
use crate::catalogue::{Kit, KitLineOf, PartId};
use crate::interchange::{AcceptedBecause, LineAcceptance, is_to_come};
use crate::parallel;
use crate::units::{Money, UnitOfCount};

/// The kits of a shop, each to be planned as if it alone were rebuilt at the moment of planning.
pub struct KitsToPlan<'s, 'a> {
    sourcing: &'s Sourcing<'a>,
    clock: WorkClock,
    by_line: BTreeMap<(usize, usize), &'s LineAcceptance>,
    laws: ShopLaws,
    waiting: WaitingOffers<'s>,
}

/// The plan of a kit, and the rows that could not be taken as they stand.
pub type PlannedKit = (KitPlan, Vec<PlanIssue>);

impl<'s, 'a> KitsToPlan<'s, 'a> {
    /// What all kits are planned with.
    pub fn new(sourcing: &'s Sourcing<'a>, acceptances: &'s [LineAcceptance]) -> Self {
        let by_line = acceptances
            .iter()
            .map(|acceptance| ((acceptance.kit, acceptance.line), acceptance))
            .collect();
        Self {
            sourcing,
            clock: WorkClock::new(&sourcing.calendars, sourcing.shop.as_of),
            by_line,
            laws: ShopLaws::default(),
            waiting: WaitingOffers::new(sourcing),
        }
    }

    /// Plans the kits at some positions in [`Shop::kits`].
    pub fn planned(&self, positions: Range<usize>) -> Vec<PlannedKit> {
        let positions: Vec<usize> = positions.collect();
        parallel::each(&positions, |position| self.of_kit(*position))
    }

    fn of_kit(&self, position: usize) -> PlannedKit {
        let (sourcing, mut issues) = (self.sourcing, Vec::new());
        let kit = &sourcing.shop.kits[position];
        let acceptance = |line: usize| self.by_line.get(&(position, line)).copied();
        let tasks = TaskNet::new(kit, &mut issues);
        let hourly = hourly_cost(sourcing.shop, kit, sourcing, &mut issues);
        list_line_issues(sourcing, kit, &mut issues);
        let laws = KnownLaws::new(&self.laws);
        let planner = KitPlanner {
            stakes: Stakes {
                sourcing,
                clock: &self.clock,
                tasks: tasks.as_ref(),
                hourly,
                laws: &laws,
            },
            kit,
        };
        let accepted: Vec<Vec<PartId>> = (0..kit.lines.len())
            .map(|line| accepted_parts(&kit.lines[line], acceptance(line)))
            .collect();
        let open: Vec<Vec<PartId>> = (0..kit.lines.len())
            .map(|line| open_parts(&kit.lines[line], acceptance(line)))
            .collect();
        let plan = plan_kit(&planner, position, (&accepted, &open), &self.waiting);
        (plan, issues)
    }
}

/// Plans of kits in their order; their issues are added.
pub fn told_kits(
    planned: impl Iterator<Item = PlannedKit>,
    issues: &mut Vec<PlanIssue>,
) -> Vec<KitPlan> {
    planned
        .map(|(plan, of_kit)| {
            for issue in of_kit {
                // The row of a machine is one, however many kits it has.
                let is_told = matches!(issue, PlanIssue::NoExchangeRate { .. });
                if !is_told || !issues.contains(&issue) {
                    issues.push(issue);
                }
            }
            plan
        })
        .collect()
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

fn plan_kit(
    planner: &KitPlanner<'_, '_>,
    position: usize,
    (accepted, open): (&[Vec<PartId>], &[Vec<PartId>]),
    waiting: &WaitingOffers<'_>,
) -> KitPlan {
    let Some(base) = planner.planned(accepted, &[], Depth::Whole) else {
        return closed_for_good(planner, position);
    };
    let outcome = planner.outcome(&base);
    let mut approvals = Vec::new();
    for (line, parts) in open.iter().enumerate() {
        let is_short = outcome
            .lines
            .iter()
            .any(|plan| plan.line == line && plan.short > 0.0);
        for part in parts.iter().filter(|_| is_short) {
            let mut with = accepted.to_vec();
            with[line].push(*part);
            if let Some(after) = planner.planned(&with, &[], Depth::PlanAlone) {
                approvals.extend(gain(planner, (&base, &outcome), &after, line, *part));
            }
        }
    }
    approvals.sort_by(|a, b| {
        let turn = |gain: &ApprovalGain| (gain.gained.running.p50, gain.line, gain.part);
        (a.gained.by_worth(&b.gained)).then_with(|| turn(a).cmp(&turn(b)))
    });
    let open_ways = way_gains(planner, (&base, &outcome), accepted);
    let settling = settling_gains(planner, (&base, &outcome), accepted, waiting);
    let hurried = hurried_ways(planner, (&base, &outcome), accepted);
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
        let planned = planner.planned(&all, &[], Depth::PlanAlone)?;
        Some(WithApprovals {
            likely: planner.likely(&planned),
        })
    });
    KitPlan {
        kit: position,
        accepted: outcome,
        with_all_approvals: with_all_approvals.flatten(),
        approvals,
        open_ways,
        settling,
        hurried,
    }
}

/// What an approval gains; `None` where it gains nothing.
fn gain(
    planner: &KitPlanner<'_, '_>,
    before: (&Planned<'_>, &KitOutcome),
    planned: &Planned<'_>,
    line: usize,
    part: PartId,
) -> Option<ApprovalGain> {
    let gained = gained_by(planner, before, planned)?;
    Some(ApprovalGain { line, part, gained })
}

/// When the machine runs again with another plan, and the hours and money that it saves; `None` where it saves nothing.
fn gained_by(
    planner: &KitPlanner<'_, '_>,
    (base, before): (&Planned<'_>, &KitOutcome),
    planned: &Planned<'_>,
) -> Option<Gained> {
    let after = planner.runs_again(planned)?;
    let running = before.running.as_ref();
    let saved_h = running.map(|before| before.mean_h - after.mean_h);
    let spend = planned.figures.chances.spend(&planned.best.choices);
    let is_priced = before.purchase_cost.is_some() && planner.stakes.money(spend).is_some();
    let cents = (base.best.cents - planned.best.cents).round() as i64;
    let saved = planner
        .stakes
        .hourly
        .filter(|_| is_priced)
        .and_then(|_| planner.stakes.money(cents));
    let gains_hours = saved_h.is_none_or(|hours| hours > 1e-9);
    // What costs more than it saves is left out, and so is what only rounding tells apart.
    let pays = saved.map_or(gains_hours, |saved| saved.cents >= 100);
    pays.then_some(Gained {
        running: Spread {
            p50: after.p50.up,
            p80: after.p80.up,
            p90: after.p90.up,
        },
        saved_h,
        saved,
    })
}

/// What it would gain to have a name behind each way that waits for one, best first; those that gain nothing are left out.
fn way_gains(
    planner: &KitPlanner<'_, '_>,
    before: (&Planned<'_>, &KitOutcome),
    accepted: &[Vec<PartId>],
) -> Vec<WayGain> {
    let mut gains = Vec::new();
    for plan in before.1.lines.iter().filter(|plan| plan.short > 0.0) {
        let line = plan.line;
        let is_unknown_part = planner.kit.lines[line].part.is_none();
        let ways = planner.ways(line, &accepted[line]).into_iter();
        for way in ways.filter(|way| !is_way_allowed(way, is_unknown_part)) {
            let mut named = way.clone();
            named.approved_by = Some(ASSUMED_NAME.to_owned());
            let kit = kit_with_way(planner.kit, line, named);
            let with = KitPlanner {
                stakes: planner.stakes,
                kit: &kit,
            };
            let after = with.planned(accepted, &[], Depth::PlanAlone);
            let gained = after.and_then(|after| gained_by(&with, before, &after));
            gains.extend(gained.map(|gained| WayGain {
                line,
                kind: way.kind,
                place: way.place.clone(),
                gained,
            }));
        }
    }
    gains.sort_by(|a, b| {
        let turn = |gain: &WayGain| (gain.gained.running.p50, gain.line);
        (a.gained.by_worth(&b.gained))
            .then_with(|| turn(a).cmp(&turn(b)))
            .then_with(|| a.place.cmp(&b.place))
    });
    gains
}

/// Stands for the name that a way waits for; never shown.
const ASSUMED_NAME: &str = "assumed";

/// A kit whose calendars never open: nothing can be dated.
fn closed_for_good(planner: &KitPlanner<'_, '_>, position: usize) -> KitPlan {
    let lines = (0..planner.kit.lines.len()).collect();
    KitPlan {
        kit: position,
        accepted: KitOutcome {
            lines: Vec::new(),
            completion: Completion::Unknown { lines },
            running: None,
            running_together: None,
            purchase_cost: None,
            freight: Money {
                cents: 0,
                currency: planner.stakes.sourcing.shop.settings.currency,
            },
            freight_assumed_of: Vec::new(),
            freight_doubt: None,
            proof: None,
            fixed: Vec::new(),
            sets: Vec::new(),
        },
        with_all_approvals: None,
        approvals: Vec::new(),
        open_ways: Vec::new(),
        settling: Vec::new(),
        hurried: Vec::new(),
    }
}

fn list_line_issues(sourcing: &Sourcing<'_>, kit: &Kit, issues: &mut Vec<PlanIssue>) {
    let shop = sourcing.shop;
    let last_day = service_ends(shop, kit.machine.as_deref());
    if let Some(until) = last_day.filter(|until| *until < shop.as_of.date())
        && let (Some(machine), Some(line)) = (&kit.machine, kit.lines.first())
    {
        issues.push(PlanIssue::KitOutOfService {
            place: line.record.place.clone(),
            kit: kit.name.clone(),
            machine: machine.clone(),
            until,
        });
    }
    for line in &kit.lines {
        let record = &line.record;
        if needed_of(line).is_none() {
            issues.push(PlanIssue::LineWithoutQuantity {
                place: record.place.clone(),
                line: record.line.clone(),
                kit: record.kit.clone(),
            });
        }
        for way in &line.other_ways {
            list_way_issue(sourcing, way, line.part, issues);
        }
        let today = sourcing.shop.as_of.date();
        let approvals = line.approvals.iter().map(|(_, approval)| approval);
        issues.extend(
            approvals
                .filter(|approval| is_to_come(approval, today))
                .filter_map(|approval| {
                    Some(PlanIssue::ApprovedInTheFuture {
                        place: approval.place.clone(),
                        substitute: approval.substitute.clone(),
                        date: approval.date?,
                    })
                }),
        );
        list_unit_conflict(sourcing, line, issues);
        list_split_sets(sourcing, line, issues);
    }
}

/// Offers that cannot be counted as the line counts: single pieces for a pair or a set, or sets for single pieces.
fn list_split_sets(sourcing: &Sourcing<'_>, line: &KitLineOf, issues: &mut Vec<PlanIssue>) {
    let Some(part) = line.part else {
        return;
    };
    let want = line_unit(sourcing, line);
    for offer in sourcing.offers_of(part) {
        let name = sourcing.shop.catalogue.part(part).number.clone();
        if offer.is_unit_assumed && is_pair_or_set(want) {
            issues.push(PlanIssue::UnitUnknownForSet {
                place: line.record.place.clone(),
                other: offer.record.place.clone(),
                part: name,
                want,
            });
        } else if offer.unit.in_units_of(want).is_err() {
            issues.push(PlanIssue::UnitConflict {
                place: offer.record.place.clone(),
                other: line.record.place.clone(),
                part: name,
                have: offer.unit,
                want,
            });
        }
    }
}

/// Stock of the part asked for that cannot be counted as the line counts.
fn list_unit_conflict(sourcing: &Sourcing<'_>, line: &KitLineOf, issues: &mut Vec<PlanIssue>) {
    let Some((id, want)) = line.part.zip(line.record.unit_of_count) else {
        return;
    };
    let Some(stock) = sourcing.stock.by_part.get(&id) else {
        return;
    };
    let Some(lot) = stock.lots.first() else {
        return;
    };
    let part = sourcing.shop.catalogue.part(id).number.clone();
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

/// How many a line needs; `None` where its quantity or unit cannot be read, so that no stock covers it for sure.
pub(super) fn needed_of(line: &KitLineOf) -> Option<f64> {
    line.record.quantity.filter(|needed| *needed > 0.0)
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

#[cfg(test)]
mod tests;
