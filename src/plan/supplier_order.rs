//! Due lines summed up by the supplier who gets the order.

use std::collections::{BTreeMap, BTreeSet};

use super::freight::{AssumedFreight, Carriage};
use super::lead_time::supplier_key;
use super::order_line::ReorderLine;
use super::sourcing::Sourcing;
use crate::units::Money;

/// Everything to order from one supplier, with the freight once.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplierOrder {
    /// Supplier as printed in its first line.
    pub supplier: String,
    /// Positions in [`Reorder::lines`](super::Reorder::lines).
    pub lines: Vec<usize>,
    /// Goods and surcharges, in the shop's currency; `None` where a price is missing.
    pub goods: Option<Money>,
    /// Freight, with each run of a courier or of the same day once; `None` where the suppliers table does not say or its
    /// currency has no rate.
    pub freight: Option<Money>,
    /// What its lines were chosen by in place of a freight that is not known.
    pub freight_assumed: Option<AssumedFreight>,
}

/// Due lines by supplier, in order of first appearance, freight and runs once each.
pub fn supplier_orders(sourcing: &Sourcing<'_>, lines: &[ReorderLine]) -> Vec<SupplierOrder> {
    let mut orders: Vec<SupplierOrder> = Vec::new();
    let mut at_key: BTreeMap<String, usize> = BTreeMap::new();
    let currency = sourcing.shop.settings.currency;
    let today = sourcing.shop.as_of.date();
    let due = lines
        .iter()
        .enumerate()
        .filter(|(_, line)| line.is_due(today));
    for (position, line) in due {
        let key = supplier_key(&line.buy.supplier);
        let at = *at_key.entry(key).or_insert_with(|| {
            orders.push(SupplierOrder {
                supplier: line.buy.supplier.clone(),
                lines: Vec::new(),
                goods: Some(Money { cents: 0, currency }),
                freight: None,
                freight_assumed: None,
            });
            orders.len() - 1
        });
        let order = &mut orders[at];
        order.lines.push(position);
        order.goods = order.goods.zip(line.buy.cost).map(|(sum, cost)| Money {
            cents: sum.cents + cost.cents,
            currency,
        });
    }
    for order in &mut orders {
        let sent = order.lines.iter().map(|at| &lines[*at].buy);
        let sent = sent.filter(|buy| buy.delivery.bears_freight());
        let sent: Vec<Option<Money>> = sent.map(|buy| buy.cost).collect();
        let runs = order.lines.iter().map(|at| &lines[*at].buy);
        let runs: BTreeSet<Carriage> = runs
            .filter_map(|buy| buy.carriage(today))
            .filter(|paid| paid.run.is_some())
            .collect();
        let runs: i64 = runs
            .iter()
            .map(|run| sourcing.freights.of_carriage(run).cents)
            .sum();
        if sent.is_empty() {
            let cents = runs;
            order.freight = Some(Money { cents, currency });
            continue;
        }
        // Goods without a price reach no value from which freight is free, and neither do those that are fetched.
        let goods = sent
            .iter()
            .try_fold(0, |sum, cost| Some(sum + cost.as_ref()?.cents));
        let known = sourcing.freights.known(&supplier_key(&order.supplier));
        order.freight = known.map(|freight| Money {
            cents: runs + goods.map_or(freight.cents, |goods| freight.of(goods)),
            currency,
        });
        order.freight_assumed = known.is_none().then(|| sourcing.freights.assumed());
    }
    orders
}
