//! Stock levels of own parts: when to order again and how much, each with its reason.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::NaiveDate;

use super::candidate::{Candidate, candidate};
use super::kit_fill::{JobLine, job_fill, raise_to_job_fill};
use super::order_quantity::YEAR_DAYS;
use super::part_use::{PartUses, money};
use super::reason::{Level, LevelBasis, LevelRule, ServiceGoal, WhyNoLevel};
use super::service::on_hand_at_least;
use super::stock_out_price::{
    CurvePoint, curve, factor_for_service, measure, reorder_points, reorder_points_for_budget,
};
use crate::catalogue::{CataloguePart, Kit, NameKey, PartId, Shop, UsageOf};
use crate::parallel;
use crate::plan::demand::Demand;
use crate::plan::issue::PlanIssue;
use crate::plan::sourcing::Sourcing;
use crate::record::LevelsBy;
use crate::units::UnitOfCount;

/// Levels of own parts, and parts without.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Levels {
    /// Levels by part.
    pub by_part: BTreeMap<PartId, Level>,
    /// Own parts without a level, and why.
    pub without: Vec<(PartId, WhyNoLevel)>,
    /// Service against money over the whole shop, cheapest first; empty where no part has a price.
    pub curve: Vec<CurvePoint>,
    /// What the levels of priced parts give in all, by the rule alone.
    pub chosen: Option<CurvePoint>,
    /// Kits with the share of rebuilds that find every line on the shelf.
    pub kits: Vec<KitFill>,
    /// Day on which the last machine that uses a part leaves service, for parts all of whose machines have one.
    pub in_use_until: BTreeMap<PartId, NaiveDate>,
}

/// What the levels mean for one kit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KitFill {
    /// Position in [`Shop::kits`].
    pub kit: usize,
    /// Share of rebuilds that find every line, lines taken as independent.
    pub job_share: f64,
    /// Mean share of its lines that are there.
    pub line_share: f64,
    /// Lines without a level, which count as never there.
    pub without_level: usize,
}

impl Levels {
    /// Sets the level of every own part that has a rate and an offer with a lead time.
    pub fn new(
        sourcing: &Sourcing<'_>,
        demands: &BTreeMap<PartId, Demand>,
        issues: &mut Vec<PlanIssue>,
    ) -> Self {
        let shop = sourcing.shop;
        let uses = PartUses::new(shop, sourcing.exchange());
        let today = shop.as_of.date();
        let year_h = production_h(sourcing);
        let mut levels = Self {
            in_use_until: uses.last_days(),
            ..Self::default()
        };
        let mut candidates = Vec::new();
        let own: Vec<(&CataloguePart, &Demand)> = shop
            .catalogue
            .parts()
            .iter()
            .filter(|part| part.is_own)
            .filter_map(|part| Some((part, demands.get(&part.id)?)))
            .collect();
        let judged = parallel::each(&own, |(part, demand)| {
            let part_use = uses.of(part.id);
            if let Some(since) = part_use.in_use_until.filter(|until| *until <= today) {
                return Judged::Retired(since);
            }
            let mut issues = Vec::new();
            let found = candidate(sourcing, part, demand, part_use, &mut issues);
            Judged::InUse(found.map(Box::new), issues)
        });
        for ((part, _), judged) in own.into_iter().zip(judged) {
            let found = match judged {
                Judged::Retired(since) => {
                    let level = retired(sourcing, part, since);
                    levels.by_part.insert(part.id, level);
                    continue;
                }
                Judged::InUse(found, of_part) => {
                    issues.extend(of_part);
                    found
                }
            };
            match found {
                Ok(found) => candidates.push(*found),
                Err(not_computed) => match part.own_min_stock.filter(|own| *own > 0.0) {
                    Some(min_stock) => {
                        let level = own_minimum(sourcing, part, min_stock, not_computed);
                        levels.by_part.insert(part.id, level);
                    }
                    None => levels.without.push((part.id, not_computed)),
                },
            }
        }
        levels.choose(shop, year_h, &mut candidates);
        raise_for_kits(shop, &mut candidates);
        levels.kits = kit_fills(shop, &candidates);
        let usages = usages_by_part(shop);
        let computed = parallel::each_of(candidates, |candidate| {
            let past = usages
                .get(&candidate.part.id)
                .map_or(&[][..], Vec::as_slice);
            let level = candidate.level(sourcing, year_h, past);
            (level.part, level)
        });
        levels.by_part.extend(computed);
        levels
    }

    /// Reorder points of all candidates by the rule of the settings.
    fn choose(&mut self, shop: &Shop, year_h: f64, candidates: &mut [Candidate<'_>]) {
        let planning = &shop.settings.planning;
        let targets = targets(shop);
        let of_target = |candidate: &Candidate<'_>| {
            let found = targets.get(&candidate.part.id);
            LevelRule::ServiceTarget {
                share: found.map_or(planning.service_target_share, |(share, _)| *share),
                from: found.map(|(_, from)| from.clone()),
            }
        };
        let mut positions = Vec::new();
        let mut parts = Vec::new();
        for (at, candidate) in candidates.iter_mut().enumerate() {
            candidate.rule = of_target(candidate);
            let LevelRule::ServiceTarget { share, .. } = candidate.rule else {
                continue;
            };
            candidate.reorder_point = candidate.table.quantile(share);
            if let Some(priced) = candidate.priced_part(shop, year_h) {
                positions.push(at);
                parts.push(priced);
            }
        }
        let (found, factor, goal) = match (planning.levels_by, planning.stock_budget) {
            (LevelsBy::ServiceTarget, _) => {
                let found = positions.iter().map(|at| candidates[*at].reorder_point);
                (found.collect(), 1.0, None)
            }
            (LevelsBy::DowntimeCost, _) => (reorder_points(&parts, 1.0), 1.0, None),
            (LevelsBy::StockOutPrice, Some(budget)) => {
                let (found, factor) = reorder_points_for_budget(&parts, budget);
                (
                    found,
                    factor,
                    Some(ServiceGoal::Budget(money(shop, budget))),
                )
            }
            (LevelsBy::StockOutPrice, None) => {
                let share = planning.service_target_share;
                let factor = factor_for_service(&parts, share);
                let found = reorder_points(&parts, factor);
                (found, factor, Some(ServiceGoal::Share(share)))
            }
        };
        if planning.levels_by != LevelsBy::ServiceTarget {
            for (at, reorder_point) in positions.iter().zip(&found) {
                candidates[*at].reorder_point = *reorder_point;
                candidates[*at].rule = match goal {
                    Some(goal) => LevelRule::StockOutPrice { factor, goal },
                    None => LevelRule::DowntimeCost,
                };
            }
        }
        if !parts.is_empty() {
            self.curve = curve(&parts);
            self.chosen = Some(measure(&parts, &found, factor));
        }
    }
}

/// What was found of an own part.
enum Judged<'a> {
    /// Its machines have left service.
    Retired(NaiveDate),
    /// What a level can be computed from, or why not, with what is wrong with its rows.
    InUse(Result<Box<Candidate<'a>>, WhyNoLevel>, Vec<PlanIssue>),
}

/// The level a planner asks for where nothing can be computed.
fn own_minimum(
    sourcing: &Sourcing<'_>,
    part: &CataloguePart,
    min_stock: f64,
    not_computed: WhyNoLevel,
) -> Level {
    let unit = stock_unit(sourcing, part);
    let least = sourcing
        .offers_of(part.id)
        .iter()
        .find_map(|offer| offer.lot_for(1.0, unit, 0.0));
    Level {
        part: part.id,
        unit,
        reorder_point: (min_stock - 1.0).max(0.0),
        min_stock,
        order_quantity: least.map_or(1.0, |lot| lot.gives),
        why: LevelBasis::OwnMinimum {
            min_stock,
            not_computed,
        },
        why_quantity: None,
    }
}

/// A part that no machine in service uses is not reordered.
fn retired(sourcing: &Sourcing<'_>, part: &CataloguePart, since: NaiveDate) -> Level {
    Level {
        part: part.id,
        unit: stock_unit(sourcing, part),
        reorder_point: -1.0,
        min_stock: 0.0,
        order_quantity: 0.0,
        why: LevelBasis::Retired { since },
        why_quantity: None,
    }
}

/// Raises the levels of a kit's lines until enough rebuilds find every line.
fn raise_for_kits(shop: &Shop, candidates: &mut [Candidate<'_>]) {
    let Some(target) = shop.settings.planning.kit_target_share else {
        return;
    };
    let position_of: BTreeMap<PartId, usize> = candidates
        .iter()
        .enumerate()
        .map(|(at, candidate)| (candidate.part.id, at))
        .collect();
    for kit in &shop.kits {
        let mut at_line = Vec::new();
        let mut lines = Vec::new();
        let parts: BTreeSet<PartId> = kit.lines.iter().filter_map(|line| line.part).collect();
        let known = parts.iter().filter_map(|part| position_of.get(part));
        for (at, candidate) in known.map(|at| (*at, &candidates[*at])) {
            let needed = needed_by(kit, candidate.part.id);
            if needed > 0 && candidate.last_day.is_none() {
                at_line.push(at);
                lines.push(job_line(candidate, needed));
            }
        }
        raise_to_job_fill(&mut lines, target);
        for (at, line) in at_line.into_iter().zip(lines) {
            if line.reorder_point > candidates[at].reorder_point {
                candidates[at].reorder_point = line.reorder_point;
                candidates[at].raised_for_kit = Some(kit.name.clone());
            }
        }
    }
}

fn needed_by(kit: &Kit, part: PartId) -> i64 {
    kit.lines
        .iter()
        .filter(|line| line.part == Some(part))
        .map(|line| line.record.quantity.max(0.0).ceil() as i64)
        .sum()
}

fn job_line(candidate: &Candidate<'_>, needed: i64) -> JobLine {
    JobLine {
        table: Arc::clone(&candidate.table),
        reorder_point: candidate.reorder_point,
        quantity: candidate.quantity,
        needed,
        price: candidate.unit_price().unwrap_or(1.0),
    }
}

/// Shares of rebuilds and of lines found on the shelf, kit by kit.
fn kit_fills(shop: &Shop, candidates: &[Candidate<'_>]) -> Vec<KitFill> {
    let by_part: BTreeMap<PartId, &Candidate<'_>> = candidates
        .iter()
        .map(|candidate| (candidate.part.id, candidate))
        .collect();
    let fill = |(position, kit): (usize, &Kit)| {
        let mut parts: Vec<Option<PartId>> = kit.lines.iter().map(|line| line.part).collect();
        parts.sort_unstable();
        parts.dedup();
        let mut lines = Vec::new();
        let mut without_level = 0;
        for part in parts {
            match part.and_then(|part| by_part.get(&part)) {
                Some(candidate) => {
                    lines.push(job_line(candidate, needed_by(kit, candidate.part.id)));
                }
                None => without_level += 1,
            }
        }
        let count = (lines.len() + without_level).max(1) as f64;
        let found = lines.iter().map(|line| {
            on_hand_at_least(&line.table, line.reorder_point, line.quantity, line.needed)
        });
        KitFill {
            kit: position,
            line_share: found.sum::<f64>() / count,
            job_share: if without_level > 0 {
                0.0
            } else {
                job_fill(&lines)
            },
            without_level,
        }
    };
    shop.kits.iter().enumerate().map(fill).collect()
}

/// Unit a part's level is counted in: that of its stock, else its own, else pieces.
pub fn stock_unit(sourcing: &Sourcing<'_>, part: &CataloguePart) -> UnitOfCount {
    sourcing
        .stock
        .by_part
        .get(&part.id)
        .map(|stock| stock.unit)
        .or(part.unit_of_count)
        .unwrap_or(UnitOfCount::Piece)
}

/// Usages by part, oldest first.
fn usages_by_part(shop: &Shop) -> BTreeMap<PartId, Vec<&UsageOf>> {
    let mut usages: BTreeMap<PartId, Vec<&UsageOf>> = BTreeMap::new();
    for usage in &shop.usages {
        usages.entry(usage.part).or_default().push(usage);
    }
    for list in usages.values_mut() {
        list.sort_by_key(|usage| usage.record.date);
    }
    usages
}

/// Production hours of the year after the moment of planning.
fn production_h(sourcing: &Sourcing<'_>) -> f64 {
    let from = sourcing.shop.as_of;
    let until = from + chrono::Duration::days(YEAR_DAYS as i64);
    sourcing
        .calendars
        .production()
        .hours_between(from, until)
        .max(1.0)
}

/// Highest service target among the machines whose kits ask for a part, with the criticality it comes from.
fn targets(shop: &Shop) -> BTreeMap<PartId, (f64, String)> {
    let by_criticality = &shop.settings.planning.service_targets_by_criticality;
    let mut targets: BTreeMap<PartId, (f64, String)> = BTreeMap::new();
    for kit in &shop.kits {
        let criticality = kit
            .machine
            .as_ref()
            .and_then(|name| shop.machines.get(NameKey::new(name).as_str()))
            .and_then(|machine| machine.criticality.as_ref());
        let found = criticality.and_then(|found| {
            by_criticality
                .iter()
                .find(|(name, _)| name.trim().eq_ignore_ascii_case(found.trim()))
        });
        let Some((criticality, share)) = found else {
            continue;
        };
        for part in kit.lines.iter().filter_map(|line| line.part) {
            let target = targets
                .entry(part)
                .or_insert_with(|| (*share, criticality.clone()));
            if *share > target.0 {
                *target = (*share, criticality.clone());
            }
        }
    }
    targets
}

#[cfg(test)]
#[path = "levels_tests.rs"]
mod tests;
