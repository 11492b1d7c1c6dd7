//! The order list of one moment: everything to order in the order of what it saves, and what must be set first.

use super::shop_figures::counted;
use super::words::{designation, how, money, number};
use super::{Inputs, few_sheets};
use super::{chase, last_buys, made_instead, order_now, orders, surplus, unplanned};
use crate::caution;
use crate::plan::{OrderWorth, ReorderLine, WhyNoLevel, order_worths};
use crate::report::model::{Column, ColumnKind, Report, Row, Sheet, Value};

/// Makes the report of the command `reorder`.
pub fn order_report(inputs: &Inputs<'_>) -> Report {
    few_sheets(
        inputs,
        "Order list".to_owned(),
        &[caution::REPORT],
        vec![
            by_saving(inputs),
            orders::sheet(inputs),
            order_now::later_sheet(inputs),
            made_instead::sheet(inputs),
            last_buys::sheet(inputs),
            chase::sheet(inputs),
            surplus::sheet(inputs),
            set_first(inputs),
            unplanned::sheet(inputs),
        ],
    )
}

/// All order lines, what is due first, then by what each saves.
fn by_saving(inputs: &Inputs<'_>) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let mut sheet = Sheet::new(
        "by_saving",
        "Order, by what it saves",
        "What to order, in the order of what it saves?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("when", "When"),
        Column::text("buy", "Our number"),
        Column::text("supplier", "Supplier").wrapped(20),
        Column::new(ColumnKind::Quantity, "quantity", "Quantity"),
        Column::new(ColumnKind::Money(currency), format!("cost_{code}"), "Cost"),
        Column::new(ColumnKind::Date, "order_by", "Order by"),
    ];
    sheet.columns.extend(order_now::saving_columns(currency));
    sheet.columns.push(Column::text("why", "Why").wrapped(50));
    let today = inputs.shop.as_of.date();
    let lines: Vec<&ReorderLine> = inputs.plan.reorder.lines.iter().collect();
    let worths = order_worths(inputs.shop, inputs.plan, &lines);
    let around = order_now::Around::without_sets(inputs);
    let mut lines: Vec<(&ReorderLine, Option<OrderWorth>)> =
        lines.into_iter().zip(worths).collect();
    lines.sort_by(|a, b| {
        let turn = |line: &ReorderLine| (!line.is_due(today), line.is_held_back());
        (turn(a.0).cmp(&turn(b.0))).then_with(|| order_now::most_saved_first(a.1, b.1))
    });
    for (line, worth) in lines {
        let buy = &line.buy;
        let is_due = line.is_due(today);
        let is_held_back = line.is_held_back();
        let mut cells = vec![
            Value::text(match (is_due, is_held_back) {
                (true, _) => "now",
                (false, false) => "can wait",
                (false, true) => "no need yet",
            }),
            Value::text(number(inputs.shop, buy.part)),
            Value::text(format!("{}{}", buy.supplier, how(buy.delivery))),
            Value::Number(buy.ordered),
            money(buy.cost, "no price in the offer"),
            if is_held_back {
                Value::Empty
            } else {
                Value::Date(line.order_by)
            },
        ];
        cells.extend(order_now::saving(worth));
        cells.push(Value::text(order_now::why(inputs, line, &around)));
        let row = Row::new(cells).with(order_now::mark(line));
        sheet.rows.push(row);
    }
    let begin = made_instead::due(inputs).count();
    if begin > 0 {
        sheet.notes.push(format!(
            "To begin today, made, repaired or fetched and so not on this list: {}, on the sheet `{}`.",
            counted(begin, "line"),
            made_instead::TITLE
        ));
    }
    sheet.notes.extend([
        order_now::SAVING_NOTE.to_owned(),
        "`no need yet`: never used, asked for only by the rate of its group or a minimum without a reason, and no critical machine's hour down pays it.".to_owned(),
    ]);
    sheet.empty_text = "Nothing has to be ordered.".to_owned();
    sheet
}

/// Used parts that nothing is advised on before a lead time or a rate is set, and machines whose hour down nobody prices.
fn set_first(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        "set_first",
        "Set these first",
        "Which data is missing before anything can be advised?",
    );
    sheet.columns = vec![
        Column::text("number", "Our number"),
        Column::text("designation", "Designation").wrapped(30),
        Column::text("set", "To set").wrapped(40),
        Column::new(ColumnKind::Integer, "usages", "Usages in the records"),
    ];
    let mut without: Vec<_> = inputs
        .plan
        .levels
        .without
        .iter()
        .filter(|(_, why)| *why != WhyNoLevel::NeverUsed)
        .map(|(part, why)| {
            let demand = inputs.plan.demands.get(part);
            (demand.map_or(0, |demand| demand.events), *part, *why)
        })
        .collect();
    without.sort_by_key(|(events, part, _)| (std::cmp::Reverse(*events), *part));
    let lead_times = without
        .iter()
        .filter(|(_, _, why)| *why == WhyNoLevel::NoLeadTime);
    let lead_times = lead_times.count();
    let usable = unplanned::with_lead_time(inputs);
    for (events, part, why) in &without {
        let first = match why {
            WhyNoLevel::NoLeadTime => "a lead time",
            WhyNoLevel::NoUsableOffer => "an offer",
            WhyNoLevel::RateUnknown | WhyNoLevel::NoExposure => "records_from in the settings",
            WhyNoLevel::NoUsages => "a table of usages",
            WhyNoLevel::NoneCounts => "usages of machines in service",
            WhyNoLevel::NeverUsed => "",
        };
        let is_of_offer = matches!(why, WhyNoLevel::NoLeadTime | WhyNoLevel::NoUsableOffer);
        let then = match usable.get(part) {
            None if !is_of_offer => "; an offer",
            Some(false) if !is_of_offer => "; a lead time",
            _ => "",
        };
        sheet.rows.push(Row::new(vec![
            Value::text(number(inputs.shop, *part)),
            designation(inputs.shop, *part),
            Value::text(format!("{first}{then}")),
            Value::Integer(*events as i64),
        ]));
    }
    for machine in &inputs.plan.levels.without_hour_cost {
        let name = &machine.name;
        sheet.rows.push(Row::new(vec![
            Value::Empty,
            Value::Empty,
            Value::text(if machine.is_listed {
                format!("a cost of an hour down of machine `{name}`")
            } else {
                format!("a row of machine `{name}` in a table of machines, with its cost of an hour down")
            }),
            Value::Integer(machine.usages as i64),
        ]));
    }
    if lead_times > 0 {
        sheet.notes.push(format!(
            "Set a lead time for these {lead_times} parts first: nothing is advised on one that is not known."
        ));
    }
    sheet.empty_text = "Every used part has a rate, an offer and a lead time.".to_owned();
    sheet
}
