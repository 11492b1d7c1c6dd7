//! Figures of the whole shop that its cover and the summary tell alike.

use super::Inputs;
use super::words::is_complete_from_shelf;
use crate::plan::{KitPlan, service_ends};
use crate::units::Money;

/// The kit that would hold its machine down longest; kits without an end come first.
pub fn worst_kit<'a>(inputs: &Inputs<'a>) -> Option<&'a KitPlan> {
    inputs
        .plan
        .kits
        .iter()
        .filter(|plan| !inputs.shop.kits[plan.kit].lines.is_empty() && is_in_service(inputs, plan))
        .max_by(|a, b| {
            let hours = |plan: &KitPlan| {
                plan.accepted
                    .likely()
                    .map_or(f64::INFINITY, |downtime| downtime.production_h)
            };
            // The first of equals wins, so that the order of the tables decides.
            hours(a)
                .total_cmp(&hours(b))
                .then_with(|| b.kit.cmp(&a.kit))
        })
}

/// The longest downtime that is known.
pub fn worst_known_kit<'a>(inputs: &Inputs<'a>) -> Option<&'a KitPlan> {
    let known = inputs
        .plan
        .kits
        .iter()
        .filter(|plan| plan.accepted.running.is_some() && is_in_service(inputs, plan));
    known.max_by(|a, b| {
        let hours = |plan: &KitPlan| {
            plan.accepted
                .likely()
                .map_or(0.0, |downtime| downtime.production_h)
        };
        hours(a)
            .total_cmp(&hours(b))
            .then_with(|| b.kit.cmp(&a.kit))
    })
}

/// False for the kit of a machine that has left service: nobody waits for it.
fn is_in_service(inputs: &Inputs<'_>, plan: &KitPlan) -> bool {
    let machine = inputs.shop.kits[plan.kit].machine.as_deref();
    let last_day = service_ends(inputs.shop, machine);
    last_day.is_none_or(|until| until >= inputs.shop.as_of.date())
}

/// Kits of which every line is on the shelf.
pub fn kits_from_shelf(inputs: &Inputs<'_>) -> usize {
    inputs
        .plan
        .kits
        .iter()
        .filter(|plan| is_complete_from_shelf(&plan.accepted))
        .count()
}

/// Cost of all orders, freight included, as far as prices and freights are known, and whether every part of it is known.
pub fn order_total(inputs: &Inputs<'_>) -> (Money, bool) {
    let mut total = Money {
        cents: 0,
        currency: inputs.shop.settings.currency,
    };
    let mut is_whole = true;
    let reorder = &inputs.plan.reorder;
    for order in &reorder.orders {
        let goods = order.lines.iter().map(|at| reorder.lines[*at].buy.cost);
        // A line without a price takes nothing from what is known of the others.
        for amount in goods.chain([order.freight]) {
            total.cents += amount.map_or(0, |amount| amount.cents);
            is_whole &= amount.is_some();
        }
    }
    (total, is_whole)
}

/// Order lines that are due at the moment of planning.
pub fn due_count(inputs: &Inputs<'_>) -> usize {
    inputs
        .plan
        .reorder
        .due_lines(inputs.shop.as_of.date())
        .count()
}

/// A count with its noun: `1 line`, `3 lines`.
pub(super) fn counted(count: usize, noun: &str) -> String {
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} {noun}{plural}")
}
