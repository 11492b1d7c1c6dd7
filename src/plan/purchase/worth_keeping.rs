//! Covers that another betters, and the open orders that come besides any of them.

use std::collections::BTreeSet;

use super::cover::{Cover, LineCover};
use super::line_need::LineNeed;
use crate::plan::freight::Freight;
use crate::plan::lead_time::supplier_key;
use crate::plan::sourcing::Sourcing;
use crate::plan::supply::{Drawn, Need, Source, Supply};

/// Covers kept for one group.
const MOST_COVERS: usize = 240;

/// Open orders of one line that count besides what is chosen for it.
const MOST_OPEN: usize = 8;

/// Open orders of what may be fitted on a line that is alone with its sources, the earliest where they are many; none where
/// the shelf is enough.
pub fn open_for(sourcing: &Sourcing<'_>, need: &LineNeed<'_>) -> Vec<Supply> {
    let today = sourcing.shop.as_of.date();
    let (mut drawn, mut left) = (Drawn::default(), need.needed);
    for part in &need.accepted {
        if left > 1e-9 {
            let taken = drawn.take_stock(sourcing, *part, left, (need.unit, today));
            left -= taken.map_or(0.0, |of| of.quantity);
        }
    }
    if left <= 1e-9 {
        return Vec::new();
    }
    let asks = Need {
        accepted: &need.accepted,
        ways: &[],
        assumed: &[],
        unit: need.unit,
        is_unknown_part: need.is_unknown_part,
    };
    let mut open = drawn.candidates(sourcing, &asks, left);
    open.retain(|of| matches!(of.source, Source::OpenOrder { .. }) && of.quantity > 1e-9);
    if open.len() > MOST_OPEN {
        open.sort_by_key(|of| (of.arrival.likely, of.arrival.late));
        open.truncate(MOST_OPEN);
    }
    open
}

/// Leaves out covers that another betters in cost, in what is paid of it, freight and every arrival; true where some more
/// were cut.
///
/// An order besides `open` ones is worth what it may come before them: one of a supplier who has none of them is bettered
/// only by another such.
pub fn without_bettered(
    sourcing: &Sourcing<'_>,
    freight: &[Freight],
    mut covers: Vec<Cover>,
    open: &[Supply],
) -> (Vec<Cover>, bool) {
    let late_together: BTreeSet<String> = open
        .iter()
        .filter_map(|of| match &of.source {
            Source::OpenOrder { part, place } => sourcing.open_order(*part, place),
            _ => None,
        })
        .filter_map(|order| Some(supplier_key(order.supplier.as_ref()?)))
        .collect();
    let is_apart = |cover: &Cover| {
        let order = cover.single_order().map(|of| &of.source);
        matches!(order, Some(Source::Offer { supplier, .. })
            if !open.is_empty() && !late_together.contains(&supplier_key(supplier)))
    };
    covers.sort_by_key(|cover| cover.cents);
    let mut kept: Vec<Cover> = Vec::new();
    for cover in covers {
        let is_single = cover.single_order().is_some();
        let needs_apart = is_apart(&cover);
        let better = kept
            .iter()
            .filter(|other| !needs_apart || other.single_order().is_none() || is_apart(other))
            .filter(|other| {
                other.paid_cents() <= cover.paid_cents()
                    && !needs_more_freight(freight, other, &cover)
                    && comes_no_later(other, &cover)
            })
            .count();
        // The second best single order stays: it may be worth placing both.
        if better <= usize::from(is_single) {
            kept.push(cover);
        }
    }
    let is_cut = kept.len() > MOST_COVERS;
    kept.truncate(MOST_COVERS);
    (kept, is_cut)
}

fn needs_more_freight(freight: &[Freight], a: &Cover, b: &Cover) -> bool {
    let costs = |supplier: usize| freight[supplier].cents > 0;
    let waives = |supplier: usize| costs(supplier) && freight[supplier].free_from_cents.is_some();
    let of = |cover: &Cover, supplier: usize| {
        let found = cover.goods.iter().find(|(of, _)| *of == supplier);
        found.map(|(_, value)| *value)
    };
    a.goods
        .iter()
        .any(|(supplier, value)| match of(b, *supplier) {
            None => costs(*supplier),
            Some(other) => waives(*supplier) && *value < other,
        })
        || b.goods
            .iter()
            .any(|(supplier, _)| waives(*supplier) && of(a, *supplier).is_none())
}

fn comes_no_later(a: &Cover, b: &Cover) -> bool {
    let last = |line: &LineCover| {
        let likely = line.supplies.iter().map(|of| of.arrival.likely).max();
        let late = line.supplies.iter().map(|of| of.arrival.late).max();
        (likely, late)
    };
    a.lines.iter().zip(&b.lines).all(|(a, b)| {
        let ((likely, late), (other_likely, other_late)) = (last(a), last(b));
        // A line put together from several sources is the later of them: only single sources compare by two moments.
        likely <= other_likely && late <= other_late && a.supplies.len() <= b.supplies.len().max(1)
    })
}
