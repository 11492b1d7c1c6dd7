//! Order lines chosen again once it is known which suppliers get an order anyhow.
//!
//! Lines are chosen one after another, and the first one from a supplier is weighed with all of the freight: it may go
//! elsewhere although a later line must be bought there and would have taken it along for nothing. So the list is made a
//! second time with the freight of every supplier of the first one taken as paid, and the list that costs less in all,
//! freight and runs once each, goods and waiting with it, is the one that holds. It is never dearer than the first.
//!
//! Nor does a line by itself see what several would save together: two of them may each be too little for the freight of a
//! cheaper supplier, and enough for it both; or stay with one whose freight would be saved if all went. So the list is made
//! again with such a supplier's freight paid beforehand, alone and with the others, and without that of each that gets an
//! order; where one is cheaper in all it holds. Of two suppliers that finds the best of all ways to share the lines, of more
//! it never finds a dearer list.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::choice::{OfferChoice, OrderedBefore, freight};
use super::freight::Carriage;
use super::order_line::ReorderLine;
use super::sourcing::Sourcing;
use crate::catalogue::PartId;

/// Suppliers tried of each kind: each is one more list.
const MOST_TRIED: usize = 4;
/// Lines of a list up to which further lists are tried: of more no single freight is what decides, and each list takes long.
pub const MOST_LINES: usize = 4_000;

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

/// Freights of every supplier in the table that takes any.
pub fn all_freights(sourcing: &Sourcing<'_>) -> BTreeSet<Carriage> {
    let keys = sourcing.shop.suppliers.keys();
    let each = keys.map(|key| Carriage {
        supplier: key.clone(),
        run: None,
    });
    each.filter(|paid| sourcing.freights.of_carriage(paid).cents > 0)
        .collect()
}

/// Suppliers without an order that lines due today would go to if no freight were asked, as far as that may pay it, the most
/// promising first: what goods and waiting cost less there, and one order elsewhere that may then be saved.
pub fn may_open(
    sourcing: &Sourcing<'_>,
    lines: &[ReorderLine],
    free: &[ReorderLine],
) -> Vec<Carriage> {
    let today = sourcing.shop.as_of.date();
    let paid = paid_anyhow(sourcing, lines);
    let cents = |paid: &Carriage| sourcing.freights.of_carriage(paid).cents;
    let saved_elsewhere = paid.iter().map(cents).max().unwrap_or(0);
    let mut now: BTreeMap<PartId, i64> = BTreeMap::new();
    for line in lines.iter().filter(|line| line.is_due(today)) {
        *now.entry(line.part()).or_default() += goods_and_waiting(line);
    }
    let mut gains: BTreeMap<Carriage, i64> = BTreeMap::new();
    for line in free.iter().filter(|line| line.is_due(today)) {
        let of = pays(line, today).filter(|of| of.run.is_none() && !paid.contains(of));
        if let Some((of, now)) = of.zip(now.get(&line.part())) {
            let gain = now.saturating_sub(goods_and_waiting(line)).max(0);
            *gains.entry(of).or_default() += gain;
        }
    }
    let worth = |(of, gain): (Carriage, i64)| (gain + saved_elsewhere - cents(&of), of);
    let mut found: Vec<(i64, Carriage)> = gains.into_iter().map(worth).collect();
    found.retain(|(worth, _)| *worth > 0);
    found.sort_by(|a, b| b.0.cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
    let found = found.into_iter().map(|(_, of)| of);
    found.take(MOST_TRIED).collect()
}

/// Consignments of today without which another list may be cheaper, the dearest freight first; empty where there is one alone.
pub fn may_close(sourcing: &Sourcing<'_>, lines: &[ReorderLine]) -> Vec<Carriage> {
    let paid = paid_anyhow(sourcing, lines).into_iter();
    let mut found: Vec<Carriage> = paid.filter(|of| of.run.is_none()).collect();
    found.sort_by_key(|of| std::cmp::Reverse(sourcing.freights.of_carriage(of).cents));
    if found.len() < 2 {
        found.clear();
    }
    found.truncate(MOST_TRIED);
    found
}

/// Cents of a line without freight; 0 without a price, which no list is weighed with.
fn goods_and_waiting(line: &ReorderLine) -> i64 {
    let cost = line.buy.cost.map_or(0, |cost| cost.cents);
    cost.saturating_add(line.buy.waiting.map_or(0, |waiting| waiting.cents))
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
