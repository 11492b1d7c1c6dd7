//! Orders that are placed and not here yet.

use std::collections::BTreeMap;

use chrono::{NaiveDate, NaiveDateTime};

use super::issue::PlanIssue;
use super::lead_time::{Arrival, LeadTimes, OpenQuestion, supplier_key};
use super::stock::FreeStock;
use crate::catalogue::{PartId, Shop};
use crate::place::Place;
use crate::record::{OfferRecord, QuotedLeadTime};
use crate::units::{UnitOfCount, without_rounding_residue};

/// One open order of one part.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenOrder {
    /// The part.
    pub part: PartId,
    /// Quantity still to come, in `unit`.
    pub quantity: f64,
    /// What is counted.
    pub unit: UnitOfCount,
    /// Supplier, where the row names one.
    pub supplier: Option<String>,
    /// Day of the order, where the row says.
    pub ordered: Option<NaiveDate>,
    /// Day promised or due.
    pub due: Option<NaiveDate>,
    /// True where the due day has passed.
    pub is_overdue: bool,
    /// When it will be here, given that it is not; `None` where it is undated, or open for longer than anything that
    /// receipts and promises tell of.
    pub arrival: Option<Arrival>,
    /// True where it is open for so long that it must have come or been cancelled: it counts nowhere, but is chased.
    pub is_forgotten: bool,
    /// The row.
    pub place: Place,
}

/// Some open orders that come late.
pub struct LateOrders<'o> {
    /// The orders; at least one.
    pub orders: Vec<&'o OpenOrder>,
    /// What they bring together.
    pub quantity: f64,
    /// When the first of them is here.
    pub first: Arrival,
}

/// Those of some orders that are likely here only after so many days from now; `None` where there are none. An order whose day
/// nobody knows is none of them.
pub fn likely_after<'o>(
    orders: &[&'o OpenOrder],
    now: NaiveDateTime,
    days: f64,
) -> Option<LateOrders<'o>> {
    let away_days = |arrival: Arrival| (arrival.likely - now).num_minutes() as f64 / 1440.0;
    let is_late = |order: &&&OpenOrder| order.arrival.is_some_and(|of| away_days(of) > days);
    let late: Vec<&OpenOrder> = orders.iter().filter(is_late).copied().collect();
    let arrivals = late.iter().filter_map(|order| order.arrival);
    let first = arrivals.min_by_key(|arrival| arrival.likely)?;
    Some(LateOrders {
        quantity: late.iter().map(|order| order.quantity).sum(),
        orders: late,
        first,
    })
}

/// Open orders by part, in the order of their rows.
///
/// Orders come from the receipts table (rows without a day of receipt); "on order" in a stock list counts only for
/// parts that have no open order there, because both usually speak of the same order.
pub fn open_orders(
    shop: &Shop,
    lead_times: &LeadTimes<'_>,
    stock: &FreeStock,
    issues: &mut Vec<PlanIssue>,
) -> BTreeMap<PartId, Vec<OpenOrder>> {
    let today = shop.as_of.date();
    let mut orders: BTreeMap<PartId, Vec<OpenOrder>> = BTreeMap::new();
    let mut offers_of: BTreeMap<PartId, Vec<&OfferRecord>> = BTreeMap::new();
    if shop.receipts.iter().any(|of| of.record.received.is_none()) {
        for offer in &shop.offers {
            offers_of.entry(offer.part).or_default().push(&offer.record);
        }
    }
    for receipt in &shop.receipts {
        let record = &receipt.record;
        let (None, Some(part)) = (record.received, receipt.part) else {
            continue;
        };
        if record.ordered > today {
            issues.push(PlanIssue::InTheFuture {
                place: record.place.clone(),
                date: record.ordered,
            });
            continue;
        }
        let Some(quantity) = record.quantity.filter(|quantity| *quantity > 0.0) else {
            issues.push(PlanIssue::NoQuantity {
                place: record.place.clone(),
                part: shop.catalogue.part(part).number.clone(),
            });
            continue;
        };
        // A promise for a day before the order is listed with the receipts, and none.
        let due = record.promised.filter(|due| *due >= record.ordered);
        let quoted = newest_quote(offers_of.get(&part), &supplier_key(&record.supplier));
        let arrival = lead_times.still_to_come(&OpenQuestion {
            supplier: Some(&record.supplier),
            record: shop.suppliers.get(&supplier_key(&record.supplier)),
            part,
            ordered: Some(record.ordered),
            due,
            quoted,
            now: shop.as_of,
        });
        let is_overdue = due.is_some_and(|due| due < today);
        // Its receipts say so, or its promise is broken for longer than any is believed.
        let is_forgotten =
            lead_times.is_forgotten(&record.place) || (is_overdue && arrival.is_none());
        orders.entry(part).or_default().push(OpenOrder {
            part,
            quantity,
            unit: unit_of(shop, stock, part),
            supplier: Some(record.supplier.to_string()),
            ordered: Some(record.ordered),
            due,
            is_overdue,
            arrival: arrival.filter(|_| !is_forgotten),
            is_forgotten,
            place: record.place.clone(),
        });
    }
    add_stock_list_orders(shop, lead_times, stock, &mut orders, issues);
    orders
}

/// Lead time of the newest quote of one supplier; of rows without a date the first.
fn newest_quote(offers: Option<&Vec<&OfferRecord>>, supplier: &str) -> Option<QuotedLeadTime> {
    let of_supplier = offers?
        .iter()
        .filter(|offer| supplier_key(&offer.supplier) == supplier && offer.lead_time.is_some());
    let newest = of_supplier.rev().max_by_key(|offer| offer.quote_date);
    newest.and_then(|offer| offer.lead_time)
}

fn add_stock_list_orders(
    shop: &Shop,
    lead_times: &LeadTimes<'_>,
    stock: &FreeStock,
    orders: &mut BTreeMap<PartId, Vec<OpenOrder>>,
    issues: &mut Vec<PlanIssue>,
) {
    let today = shop.as_of.date();
    let from_receipts: BTreeMap<PartId, f64> = orders
        .iter()
        .map(|(part, orders)| {
            (
                *part,
                orders
                    .iter()
                    .map(|order| order.quantity)
                    .fold(0.0, |sum, quantity| sum + quantity),
            )
        })
        .collect();
    for row in &shop.stock {
        let record = &row.record;
        let Some(on_order) = record.on_order.filter(|quantity| *quantity > 0.0) else {
            continue;
        };
        let unit = unit_of(shop, stock, row.part);
        let Ok(factor) = record.unit_of_count.unwrap_or(unit).in_units_of(unit) else {
            continue; // listed as a conflict when the stock was added up
        };
        let on_order = on_order * factor;
        if let Some(open) = from_receipts.get(&row.part) {
            if (open - on_order).abs() > 1e-9 {
                issues.push(PlanIssue::OnOrderTwice {
                    place: record.place.clone(),
                    part: shop.catalogue.part(row.part).number.clone(),
                    on_order,
                    open: *open,
                });
            }
            continue;
        }
        orders.entry(row.part).or_default().push(OpenOrder {
            part: row.part,
            quantity: on_order,
            unit,
            supplier: None,
            ordered: None,
            due: record.due_date,
            is_overdue: record.due_date.is_some_and(|due| due < today),
            arrival: lead_times.still_to_come(&OpenQuestion {
                supplier: None,
                record: None,
                part: row.part,
                ordered: None,
                due: record.due_date,
                quoted: None,
                now: shop.as_of,
            }),
            is_forgotten: false,
            place: record.place.clone(),
        });
    }
}

fn unit_of(shop: &Shop, stock: &FreeStock, part: PartId) -> UnitOfCount {
    stock
        .by_part
        .get(&part)
        .map(|stock| stock.unit)
        .or(shop.catalogue.part(part).unit_of_count)
        .unwrap_or(UnitOfCount::Piece)
}

/// In words: open orders that count toward a stock position, and when the first of them is likely here; `None` without any.
pub fn what_comes(orders: &[&OpenOrder]) -> Option<String> {
    let quantity = orders.iter().map(|order| order.quantity).sum::<f64>();
    if quantity <= 0.0 {
        return None;
    }
    let dated = orders.iter().filter_map(|order| order.arrival.as_ref());
    let first = dated.map(|arrival| arrival.likely.date()).min();
    let quantity = without_rounding_residue(quantity);
    Some(match (first, orders.len()) {
        (None, _) => format!("on order and counted: {quantity}, nobody says when it comes"),
        (Some(day), 1) => format!("on order and counted: {quantity}, likely here on {day}"),
        (Some(day), count) => format!(
            "on order and counted: {quantity} in {count} orders, the first likely here on {day}"
        ),
    })
}

/// In words: open orders that come too late to count toward a stock position; `None` without any.
pub fn what_comes_late(orders: &[&OpenOrder]) -> Option<String> {
    let quantity = orders.iter().map(|order| order.quantity).sum::<f64>();
    let dated = orders.iter().filter_map(|order| order.arrival.as_ref());
    let first = dated.map(|arrival| arrival.likely.date()).min()?;
    let quantity = without_rounding_residue(quantity);
    Some(format!(
        "on order and too late to be counted: {quantity}, the first likely here on {first}"
    ))
}

#[cfg(test)]
mod tests;
