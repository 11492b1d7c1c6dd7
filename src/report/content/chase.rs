//! Orders on their way, the overdue ones first.

use super::Inputs;
use super::words::{designation, number};
use crate::catalogue::{NameKey, Shop};
use crate::plan::{OpenOrder, OrderDoubt, Plan, order_doubts};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value};

/// Key of this sheet.
pub const KEY: &str = "chase";

/// The sheet, one row per open order.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        KEY,
        "Open orders to chase",
        "What is on its way, and what is late?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("supplier", "Supplier"),
        Column::text("number", "Our number"),
        Column::text("designation", "Designation").wrapped(26),
        Column::new(ColumnKind::Quantity, "quantity", "Quantity"),
        Column::text("unit_of_count", "Unit"),
        Column::new(ColumnKind::Date, "ordered", "Ordered"),
        Column::new(ColumnKind::Date, "due", "Promised"),
        Column::new(ColumnKind::Days, "overdue_days", "Overdue"),
        Column::new(ColumnKind::Moment, "here_likely", "Here, likely"),
        Column::new(ColumnKind::Moment, "here_fairly", "Here, four of five"),
        Column::new(ColumnKind::Moment, "here_late", "Here, late (1 in 10)"),
        Column::text("what_to_do", "What to do").wrapped(34),
        Column::text("rests_on", "Dates rest on").wrapped(30),
        Column::text("where_read", "Read at").wrapped(34),
    ];
    let today = inputs.shop.as_of.date();
    let doubts = order_doubts(inputs.plan, today);
    let mut orders: Vec<_> = inputs.plan.open_orders.iter().collect();
    orders.sort_by_key(|order| {
        (
            !order.is_forgotten,
            !order.is_overdue,
            !doubts.contains_key(&order.place),
            order.due,
            order.part,
        )
    });
    for order in orders {
        let overdue = order
            .due
            .filter(|_| order.is_overdue)
            .map(|due| (today - due).num_days());
        let unknown = || {
            Value::unknown(if order.is_forgotten {
                "open for longer than any order of this supplier: not counted as on order"
            } else {
                "overdue or undated, and too few receipts of this supplier"
            })
        };
        let arrival = order.arrival.as_ref();
        let doubt = doubts.get(&order.place);
        sheet.rows.push(
            Row::new(vec![
                order
                    .supplier
                    .clone()
                    .map_or_else(|| Value::unknown("not in the stock list"), Value::text),
                Value::text(number(inputs.shop, order.part)),
                designation(inputs.shop, order.part),
                Value::Number(order.quantity),
                Value::text(order.unit.to_string()),
                order
                    .ordered
                    .map_or_else(|| Value::unknown("not in the stock list"), Value::Date),
                order
                    .due
                    .map_or_else(|| Value::unknown("no day was promised"), Value::Date),
                overdue.map_or(Value::Empty, |days| Value::Number(days as f64)),
                arrival.map_or_else(unknown, |arrival| Value::Moment(arrival.likely)),
                arrival.map_or_else(unknown, |arrival| Value::Moment(arrival.fairly)),
                arrival.map_or_else(unknown, |arrival| Value::Moment(arrival.late)),
                doubt.map_or(Value::Empty, |doubt| {
                    Value::text(what_to_do(inputs.shop, inputs.plan, order, *doubt))
                }),
                arrival.map_or(Value::Empty, |arrival| {
                    Value::text(arrival.basis.to_string())
                }),
                Value::text(order.place.to_string()),
            ])
            .with(
                if order.is_overdue || order.is_forgotten || doubt.is_some() {
                    Emphasis::Attention
                } else {
                    Emphasis::None
                },
            ),
        );
    }
    sheet.empty_text = "No open orders in any table.".to_owned();
    sheet
}

/// What to do about an order that does not come when it is counted on.
fn what_to_do(shop: &Shop, plan: &Plan, order: &OpenOrder, doubt: OrderDoubt) -> String {
    match doubt {
        OrderDoubt::LeftService { until } => format!(
            "Cancel it: its last machine left service on {until}{}.",
            charge(shop, order)
        ),
        OrderDoubt::AfterService { until } => format!(
            "Hurry or cancel it: its last machine leaves service on {until}{}.",
            charge(shop, order)
        ),
        OrderDoubt::MayMissRebuild { need } => {
            let need = &plan.needs[need];
            let (kit, date) = (&shop.kits[need.kit].name, need.date);
            format!("Ask for its day: the rebuild of {kit} on {date} waits for it.")
        }
        OrderDoubt::TooLateForRebuild { need } => {
            let need = &plan.needs[need];
            let (kit, date) = (&shop.kits[need.kit].name, need.date);
            format!("Hurry it: the rebuild of {kit} on {date} is short of it.")
        }
        OrderDoubt::ShortBefore => "Hurry it: the shelf may run short before it comes.".to_owned(),
    }
}

/// What cancelling an order costs, where the supplier's offers of the part say it.
fn charge(shop: &Shop, order: &OpenOrder) -> String {
    let supplier = order.supplier.as_deref().map(NameKey::new);
    let offers = shop.offers.iter().rev().filter(|of| {
        let key = NameKey::new(&of.record.supplier);
        of.part == order.part && supplier.as_ref().is_some_and(|of| *of == key)
    });
    let mut shares = offers.filter_map(|of| of.record.cancellation_charge_share);
    shares.next().map_or_else(String::new, |share| {
        format!(", and cancelling costs {:.0} %", 100.0 * share)
    })
}
