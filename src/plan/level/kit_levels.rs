//! What the levels mean for kits: the share of rebuilds that find every line, and levels raised for it.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::candidate::Candidate;
use super::kit_fill::{JobLine, job_fill, raise_to_job_fill};
use crate::catalogue::{Kit, PartId, Shop};

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

/// Raises the levels of a kit's lines until enough rebuilds find every line.
///
/// A planner's own figure with reason and date stays; where it leaves the target out of reach, raising the other lines only
/// ties up money, and they stay as well.
pub fn raise_for_kits(shop: &Shop, candidates: &mut [Candidate<'_>]) {
    let Some(target) = shop.settings.planning.kit_target_share else {
        return;
    };
    let position_of = positions_of(candidates);
    for kit in &shop.kits {
        let mut at_line = Vec::new();
        let mut lines = Vec::new();
        let mut share_of_fixed = 1.0;
        let parts = kit.lines.iter().filter_map(|line| line.part);
        // Two numbers of one stock are one line of so many more.
        let known: BTreeSet<usize> = parts
            .filter_map(|part| position_of.get(&part).copied())
            .collect();
        for (at, candidate) in known.into_iter().map(|at| (at, &candidates[at])) {
            let needed = needed_by(kit, candidate);
            if needed > 0 && candidate.last_day.is_none() {
                let line = job_line(candidate, needed);
                if candidate.is_fixed() {
                    share_of_fixed *= line.share();
                } else {
                    at_line.push(at);
                    lines.push(line);
                }
            }
        }
        // Lines are taken as independent: what the fixed ones leave is for the others to reach.
        let of_others = target / share_of_fixed;
        if of_others > 1.0 || !raise_to_job_fill(&mut lines, of_others) {
            continue;
        }
        for (at, line) in at_line.into_iter().zip(lines) {
            if line.reorder_point > candidates[at].reorder_point {
                candidates[at].reorder_point = line.reorder_point;
                candidates[at].raised_for_kit = Some(kit.name.clone());
            }
        }
    }
}

/// Positions of the candidates by number, those of a shared stock under each of its numbers.
fn positions_of(candidates: &[Candidate<'_>]) -> BTreeMap<PartId, usize> {
    let all = candidates.iter().enumerate();
    all.flat_map(|(at, candidate)| candidate.stocked().map(move |part| (part, at)))
        .collect()
}

fn needed_by(kit: &Kit, candidate: &Candidate<'_>) -> i64 {
    kit.lines
        .iter()
        .filter(|line| {
            line.part
                .is_some_and(|part| candidate.stocked().any(|own| own == part))
        })
        .map(|line| line.record.quantity.unwrap_or(0.0).max(0.0).ceil() as i64)
        .sum()
}

fn job_line(candidate: &Candidate<'_>, needed: i64) -> JobLine {
    JobLine {
        table: Arc::clone(&candidate.table),
        // What is bought once more is told as if it were reordered until then.
        reorder_point: match candidate.last_day {
            Some(_) => candidate.reorder_point,
            None => candidate.held(),
        },
        quantity: candidate.quantity,
        needed,
        price: candidate.unit_price().unwrap_or(1.0),
        share_if_none: candidate.share_if_none(needed),
        ending: candidate.ending.clone(),
    }
}

/// Shares of rebuilds and of lines found on the shelf, kit by kit.
pub fn kit_fills(shop: &Shop, candidates: &[Candidate<'_>]) -> Vec<KitFill> {
    let position_of = positions_of(candidates);
    let fill = |(position, kit): (usize, &Kit)| {
        let parts: BTreeSet<Option<PartId>> = kit.lines.iter().map(|line| line.part).collect();
        let at = |part: &Option<PartId>| part.and_then(|part| position_of.get(&part).copied());
        let without_level = parts.iter().filter(|part| at(part).is_none()).count();
        let known: BTreeSet<usize> = parts.iter().filter_map(at).collect();
        let lines: Vec<JobLine> = known
            .into_iter()
            .map(|at| job_line(&candidates[at], needed_by(kit, &candidates[at])))
            .collect();
        let count = (lines.len() + without_level).max(1) as f64;
        let found = lines.iter().map(JobLine::share);
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
