//! Order lines chosen again once it is known which suppliers get an order anyhow.
//!
//! Lines are chosen one after another, and the first one from a supplier is weighed with all of the freight: it may go
//! elsewhere although a later line must be bought there and would have taken it along for nothing. So the list is made a
//! second time with the freight of every supplier of the first one taken as paid, and the list that costs less in all,
//! freight and runs once each, goods and waiting with it, is the one that holds. It is never dearer than the first.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::choice::{OfferChoice, OrderedBefore, freight};
use super::freight::Carriage;
use super::order_line::ReorderLine;
use super::sourcing::Sourcing;

/// Freight or run that is paid for a line; `None` for what is fetched or held back.
fn pays(line: &ReorderLine, today: NaiveDate) -> Option<Carriage> {
    let paid = line.buy.carriage(line.order_by.max(today));
    paid.filter(|_| !line.is_held_back())
}

/// Freights and runs that some line due today pays; empty where no other line could ride along.
pub fn paid_anyhow(sourcing: &Sourcing<'_>, lines: &[ReorderLine]) -> BTreeSet<Carriage> {
    if lines.len() < 2 {
        return BTreeSet::new();
    }
    let today = sourcing.shop.as_of.date();
    let due = lines.iter().filter(|line| line.is_due(today));
    due.filter_map(|line| pays(line, today))
        .filter(|paid| sourcing.freights.of_carriage(paid).cents > 0)
        .collect()
}

/// Goods, surcharges, waiting, and freight and runs once for each supplier and day of ordering, cents; `None` where a line has no price.
pub fn in_all_cents(sourcing: &Sourcing<'_>, lines: &[ReorderLine]) -> Option<i64> {
    let today = sourcing.shop.as_of.date();
    let mut goods: BTreeMap<(Carriage, NaiveDate), i64> = BTreeMap::new();
    let mut sum = 0_i64;
    for line in lines.iter().filter(|line| !line.is_held_back()) {
        let cost = line.buy.cost?.cents;
        let waiting = line.buy.waiting.map_or(0, |waiting| waiting.cents);
        sum = sum.saturating_add(cost).saturating_add(waiting);
        if let Some(paid) = pays(line, today) {
            *goods.entry((paid, line.order_by.max(today))).or_default() += cost;
        }
    }
    let freight = goods.iter();
    let freight = freight.map(|((paid, _), goods)| sourcing.freights.of_carriage(paid).of(*goods));
    Some(sum.saturating_add(freight.sum()))
}

/// Gives each choice the freight that it adds in this list: all of it to the first line of a supplier, nothing to the others,
/// and to a next best what it would add beside the other lines.
pub fn tell_freight(sourcing: &Sourcing<'_>, lines: &mut [ReorderLine]) {
    let today = sourcing.shop.as_of.date();
    let mut orders: BTreeMap<Carriage, usize> = BTreeMap::new();
    for paid in lines.iter().filter_map(|line| pays(line, today)) {
        *orders.entry(paid).or_default() += 1;
    }
    let mut before = OrderedBefore::default();
    for line in lines {
        let own = pays(line, today);
        let day = line.order_by.max(today);
        let others = |choice: &OfferChoice| {
            let paid = choice.carriage(day);
            let of_this = usize::from(own.is_some() && own == paid);
            let is_paid = |paid: &Carriage| orders.get(paid).is_some_and(|count| *count > of_this);
            OrderedBefore {
                carriages: paid.into_iter().filter(is_paid).collect(),
                ..OrderedBefore::default()
            }
        };
        let of_others = others(&line.buy);
        let beside = if own.is_some() { &before } else { &of_others };
        line.buy.freight = freight(sourcing, &line.buy, day, beside);
        if let Some(next) = &mut line.next_best {
            next.freight = freight(sourcing, next, day, &others(next));
        }
        before.carriages.extend(own);
    }
}
