//! The orders by supplier, with freight.

use super::words::money;
use super::{Inputs, order_now};
use crate::catalogue::NameKey;
use crate::plan::SupplierOrder;
use crate::report::model::{Column, ColumnKind, Row, RowFormula, Sheet, SumWhere, Value};
use crate::units::Money;

/// The sheet, one row per supplier.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let kind = ColumnKind::Money(currency);
    let (goods, freight) = (format!("goods_{code}"), format!("freight_{code}"));
    let mut sheet = Sheet::new(
        "orders",
        "Orders by supplier",
        "What does each order cost, freight included?",
    );
    sheet.columns = vec![
        Column::text("supplier", "Supplier"),
        Column::new(ColumnKind::Integer, "lines", "Lines"),
        Column::new(kind, goods.clone(), "Goods")
            .with_formula(RowFormula::SumWhere(SumWhere {
                sheet: order_now::KEY.to_owned(),
                amounts: format!("cost_{code}"),
                names: "supplier".to_owned(),
                name: "supplier".to_owned(),
            }))
            .totalled()
            .with_help("Follows quantities and prices on the sheet `Order now`."),
        Column::new(kind, freight.clone(), "Freight")
            .totalled()
            .with_help("As planned. With what a courier or a run on the same day costs, once for all lines that come with it."),
        Column::new(kind, format!("together_{code}"), "Together")
            .with_formula(RowFormula::Sum(vec![goods, freight]))
            .totalled()
            .with_help("Goods and freight as far as they are known: `Assumed` says what is missing."),
        Column::text("order_cutoff", "Order cut-off"),
        Column::text("assumed", "Assumed")
            .wrapped(40)
            .with_help("What its lines were chosen by; it is in no sum."),
    ];
    let reorder = &inputs.plan.reorder;
    for order in &reorder.orders {
        let costs = order.lines.iter().map(|at| reorder.lines[*at].buy.cost);
        let unpriced = costs.clone().filter(Option::is_none).count();
        // A line without a price takes nothing from what is known of the others.
        let known = costs.flatten().map(|cost| cost.cents).sum();
        let known = (unpriced < order.lines.len()).then_some(Money {
            cents: known,
            currency,
        });
        let supplier = inputs
            .shop
            .suppliers
            .get(NameKey::new(&order.supplier).as_str());
        // What is known of both: `Assumed` says what is missing.
        let together = [known, order.freight].into_iter().flatten();
        let together = together.reduce(|goods, freight| Money {
            cents: goods.cents + freight.cents,
            currency: goods.currency,
        });
        sheet.rows.push(Row::new(vec![
            Value::text(order.supplier.clone()),
            Value::Integer(order.lines.len() as i64),
            money(known, "a price is missing"),
            money(order.freight, "freight is not in the suppliers table"),
            money(together, "goods or freight are unknown"),
            supplier
                .and_then(|supplier| supplier.order_cutoff)
                .map_or(Value::Empty, |time| {
                    Value::text(time.format("%H:%M").to_string())
                }),
            assumed(order, unpriced),
        ]));
        if unpriced > 0 && known.is_some() {
            sheet.count_in_part(format!("goods_{code}"));
        }
        if (unpriced > 0 || order.freight.is_none()) && together.is_some() {
            sheet.count_in_part(format!("together_{code}"));
        }
    }
    sheet.notes = vec![
        "Freight is as planned: it does not follow when quantities on the sheet `Order now` are changed, not even across the value of goods from which a supplier delivers free.".to_owned(),
    ];
    sheet.empty_text = "No orders today.".to_owned();
    sheet
}

/// What stands in no sum of an order: the freight that its lines were chosen by, and lines without a price.
fn assumed(order: &SupplierOrder, unpriced: usize) -> Value {
    let freight = order.freight_assumed;
    let freight = freight.map(|assumed| format!("freight of {assumed}"));
    let lines = match unpriced {
        0 => None,
        1 => Some("1 line without a price is in no sum".to_owned()),
        _ => Some(format!("{unpriced} lines without a price are in no sum")),
    };
    let words: Vec<String> = freight.into_iter().chain(lines).collect();
    if words.is_empty() {
        Value::Empty
    } else {
        Value::text(words.join("; "))
    }
}
