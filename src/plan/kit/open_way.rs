//! Ways other than buying that lack something: hours, a name, or what they cost, and what knowing the cost would save.

use super::outcome::KitPlan;
use super::planned::{KitPlanner, Planned};
use super::planner::Depth;
use super::study::{AskFirst, Question, mean_h};
use crate::catalogue::{Kit, PartId};
use crate::plan::issue::PlanIssue;
use crate::plan::other_way::{brings_used, donor_cost, is_way_allowed};
use crate::plan::sourcing::Sourcing;
use crate::record::{OtherWay, OtherWayKind};
use crate::units::Money;

/// The kit with another row for one way to a line, which comes before the same row as a way of its part.
pub(super) fn kit_with_way(kit: &Kit, line: usize, way: OtherWay) -> Kit {
    let mut kit = kit.clone();
    let ways = &mut kit.lines[line].other_ways;
    ways.retain(|of| of.place != way.place);
    ways.push(way);
    kit
}

/// Ways to lines that are short whose cost nobody states, each planned with as if it were nothing: more than that no answer
/// saves.
pub(super) fn cost_questions(
    planner: &KitPlanner<'_, '_>,
    accepted: &[Vec<PartId>],
    base: &Planned<'_>,
    plan: &KitPlan,
) -> Vec<AskFirst> {
    let base_h = mean_h(planner, base);
    let mut calls = Vec::new();
    for short in plan.accepted.lines.iter().filter(|line| line.short > 0.0) {
        let (line, part) = (short.line, planner.kit.lines[short.line].part);
        let ways = planner.ways(line, &accepted[line]).into_iter();
        let unstated = ways.filter(|way| way.cost.is_none() && is_way_allowed(way, part.is_none()));
        for way in unstated {
            let mut free = way.clone();
            free.cost = Some(Money {
                cents: 0,
                currency: planner.stakes.sourcing.shop.settings.currency,
            });
            let kit = kit_with_way(planner.kit, line, free);
            let with = KitPlanner {
                stakes: planner.stakes,
                kit: &kit,
            };
            let Some(after) = with.planned(accepted, &[], Depth::PlanAlone) else {
                continue;
            };
            let cents = (base.best.cents - after.best.cents).round() as i64;
            let has_end = plan.accepted.running.is_some();
            calls.push(AskFirst {
                question: Question::WayCost,
                line,
                part: part.or(accepted[line].first().copied()),
                supplier: String::new(),
                way: Some(way.kind),
                place: way.place.clone(),
                saved_h: if has_end {
                    base_h - mean_h(&with, &after)
                } else {
                    f64::INFINITY
                },
                saved: planner
                    .stakes
                    .hourly
                    .and_then(|_| planner.stakes.money(cents)),
            });
        }
    }
    calls
}

/// Ways of parts, whatever kit fits them, that cannot be planned with as they stand.
pub fn list_ways_of_parts(sourcing: &Sourcing<'_>, issues: &mut Vec<PlanIssue>) {
    for (part, way) in &sourcing.shop.other_ways {
        list_way_issue(sourcing, way, Some(*part), issues);
    }
}

/// A way that cannot be planned with, and why.
pub(super) fn list_way_issue(
    sourcing: &Sourcing<'_>,
    way: &OtherWay,
    part: Option<PartId>,
    issues: &mut Vec<PlanIssue>,
) {
    if !is_way_allowed(way, part.is_none()) {
        issues.push(PlanIssue::WayWithoutName {
            place: way.place.clone(),
        });
        return;
    }
    let parts: Vec<PartId> = part.into_iter().collect();
    if brings_used(sourcing, way, &parts) {
        let named = part.map(|part| sourcing.shop.catalogue.part(part).number.clone());
        issues.push(PlanIssue::Used {
            place: way.place.clone(),
            part: named.unwrap_or_else(|| way.part.clone()),
        });
        return;
    }
    let missing = if way.hours.is_none() {
        Some("hours")
    } else if way.kind == OtherWayKind::OtherMachine && way.quantity.is_none() {
        Some("quantity")
    } else if way.kind == OtherWayKind::OtherMachine && donor_cost(sourcing, way, &parts).is_none()
    {
        Some("cost of an hour down of the machine it comes from, or a priced replacement,")
    } else {
        None
    };
    if let Some(missing) = missing {
        issues.push(PlanIssue::OtherWayIncomplete {
            place: way.place.clone(),
            missing,
        });
    } else if way.cost.is_none() {
        issues.push(PlanIssue::WayWithoutCost {
            place: way.place.clone(),
        });
    }
}
