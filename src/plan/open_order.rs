//! Orders that are placed and not here yet.

use std::collections::BTreeMap;

use chrono::{Days, NaiveDate};

use super::calendar::Calendars;
use super::issue::PlanIssue;
use super::lead_time::{Arrival, LATE_SHARE, LeadBasis, QUOTE_LATE_FACTOR};
use super::receipt_history::ReceiptHistory;
use super::stock::FreeStock;
use crate::catalogue::{PartId, Shop};
use crate::place::Place;
use crate::units::UnitOfCount;

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
    /// When it will be here; `None` where it is overdue or undated and no receipts tell more.
    pub arrival: Option<Arrival>,
    /// The row.
    pub place: Place,
}

/// Open orders by part, in the order of their rows.
///
/// Orders come from the receipts table (rows without a day of receipt); "on order" in a stock list counts only for
/// parts that have no open order there, because both usually speak of the same order.
pub fn open_orders(
    shop: &Shop,
    calendars: &Calendars,
    history: &ReceiptHistory,
    stock: &FreeStock,
    issues: &mut Vec<PlanIssue>,
) -> BTreeMap<PartId, Vec<OpenOrder>> {
    let today = shop.as_of.date();
    let mut orders: BTreeMap<PartId, Vec<OpenOrder>> = BTreeMap::new();
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
        let age_days = (today - record.ordered).num_days();
        let arrival = by_age(shop, calendars, history, &record.supplier, part, age_days)
            .or_else(|| by_due_date(shop, calendars, Some(record.ordered), record.promised?));
        orders.entry(part).or_default().push(OpenOrder {
            part,
            quantity,
            unit: unit_of(shop, stock, part),
            supplier: Some(record.supplier.clone()),
            ordered: Some(record.ordered),
            due: record.promised,
            is_overdue: record.promised.is_some_and(|due| due < today),
            arrival,
            place: record.place.clone(),
        });
    }
    add_stock_list_orders(shop, calendars, stock, &mut orders, issues);
    orders
}

fn add_stock_list_orders(
    shop: &Shop,
    calendars: &Calendars,
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
            arrival: record
                .due_date
                .and_then(|due| by_due_date(shop, calendars, None, due)),
            place: record.place.clone(),
        });
    }
}

/// From the receipts, given how old the order is; never "promised less today".
fn by_age(
    shop: &Shop,
    calendars: &Calendars,
    history: &ReceiptHistory,
    supplier: &str,
    part: PartId,
    age_days: i64,
) -> Option<Arrival> {
    let fit = history
        .of_part(supplier, part)
        .or_else(|| history.of_supplier(supplier)?.fit)?;
    let arrive = |share: f64| {
        let days = fit.remaining(age_days as f64, share)?.ceil().max(0.0);
        let date = shop
            .as_of
            .date()
            .checked_add_days(Days::new(days.min(36_500.0) as u64))?;
        calendars.received(date, shop.as_of)
    };
    Some(Arrival {
        likely: arrive(0.5)?,
        late: arrive(LATE_SHARE)?,
        mean_days: fit.mean(),
        basis: LeadBasis::OpenOrderByAge {
            receipts: fit.count,
            age_days,
        },
    })
}

/// From the due date; `None` where it has passed, because nothing then says when the goods come.
fn by_due_date(
    shop: &Shop,
    calendars: &Calendars,
    ordered: Option<NaiveDate>,
    due: NaiveDate,
) -> Option<Arrival> {
    let today = shop.as_of.date();
    if due < today {
        return None;
    }
    let lead_days = (due - ordered.unwrap_or(today)).num_days().max(0);
    let slack = (lead_days as f64 * (QUOTE_LATE_FACTOR - 1.0)).ceil() as u64;
    Some(Arrival {
        likely: calendars.received(due, shop.as_of)?,
        late: calendars.received(due.checked_add_days(Days::new(slack))?, shop.as_of)?,
        mean_days: lead_days as f64,
        basis: LeadBasis::OpenOrderByDueDate,
    })
}

fn unit_of(shop: &Shop, stock: &FreeStock, part: PartId) -> UnitOfCount {
    stock
        .by_part
        .get(&part)
        .map(|stock| stock.unit)
        .or(shop.catalogue.part(part).unit_of_count)
        .unwrap_or(UnitOfCount::Piece)
}

#[cfg(test)]
mod tests;
