//! Order lines chosen again once it is known which suppliers get an order anyhow.
//!
//! Lines are chosen one after another, and the first one from a supplier is weighed with all of the freight: it may go
//! elsewhere although a later line must be bought there and would have taken it along for nothing. So the list is made a
//! second time with the freight of every supplier of the first one taken as paid, and the list that costs less in all,
//! freight once for each supplier, goods and waiting with it, is the one that holds. It is never dearer than the first.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::choice::{OfferChoice, OrderedBefore, freight};
use super::lead_time::supplier_key;
use super::order_line::ReorderLine;
use super::sourcing::Sourcing;

/// Key of the supplier who is paid freight for a line; `None` for what is fetched or held back.
fn pays(line: &ReorderLine) -> Option<String> {
    let is_sent = !line.is_held_back() && line.buy.delivery.bears_freight();
    is_sent.then(|| supplier_key(&line.buy.supplier))
}

/// Suppliers with freight that some line due today pays; empty where no other line could ride along.
pub fn paid_anyhow(sourcing: &Sourcing<'_>, lines: &[ReorderLine]) -> BTreeSet<String> {
    if lines.len() < 2 {
        return BTreeSet::new();
    }
    let today = sourcing.shop.as_of.date();
    let due = lines.iter().filter(|line| line.is_due(today));
    due.filter_map(pays)
        .filter(|key| sourcing.freights.to_choose_by(key).cents > 0)
        .collect()
}

/// Goods, surcharges, waiting, and freight once for each supplier and day of ordering, cents; `None` where a line has no price.
pub fn in_all_cents(sourcing: &Sourcing<'_>, lines: &[ReorderLine]) -> Option<i64> {
    let today = sourcing.shop.as_of.date();
    let mut goods: BTreeMap<(String, NaiveDate), i64> = BTreeMap::new();
    let mut sum = 0_i64;
    for line in lines.iter().filter(|line| !line.is_held_back()) {
        let cost = line.buy.cost?.cents;
        let waiting = line.buy.waiting.map_or(0, |waiting| waiting.cents);
        sum = sum.saturating_add(cost).saturating_add(waiting);
        if let Some(key) = pays(line) {
            *goods.entry((key, line.order_by.max(today))).or_default() += cost;
        }
    }
    let freight = goods.iter();
    let freight = freight.map(|((key, _), goods)| sourcing.freights.to_choose_by(key).of(*goods));
    Some(sum.saturating_add(freight.sum()))
}

/// Gives each choice the freight that it adds in this list: all of it to the first line of a supplier, nothing to the others,
/// and to a next best what it would add beside the other lines.
pub fn tell_freight(sourcing: &Sourcing<'_>, lines: &mut [ReorderLine]) {
    let mut orders: BTreeMap<String, usize> = BTreeMap::new();
    for key in lines.iter().filter_map(pays) {
        *orders.entry(key).or_default() += 1;
    }
    let mut before = OrderedBefore::default();
    for line in lines {
        let own = pays(line);
        let others = |choice: &OfferChoice| {
            let key = supplier_key(&choice.supplier);
            let of_this = usize::from(own.as_ref() == Some(&key));
            let is_paid = orders.get(&key).is_some_and(|count| *count > of_this);
            let suppliers = is_paid.then_some(key).into_iter().collect();
            OrderedBefore {
                suppliers,
                ..OrderedBefore::default()
            }
        };
        let of_others = others(&line.buy);
        let beside = if own.is_some() { &before } else { &of_others };
        line.buy.freight = freight(sourcing, &line.buy, beside);
        if let Some(next) = &mut line.next_best {
            next.freight = freight(sourcing, next, &others(next));
        }
        before.suppliers.extend(own);
    }
}
