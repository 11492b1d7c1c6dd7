//! What one stock for several of our numbers would save, at the same service.

use std::collections::BTreeMap;

use super::Inputs;
use super::words::number;
use crate::catalogue::PartId;
use crate::plan::{OneWaySaving, PoolSaving, SharedStock};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value};
use crate::units::Money;

/// The sheet, one row per pool of two numbers or more.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        "one_stock",
        "One stock for several",
        "What would one stock for numbers that go in for each other save?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("numbers", "Our numbers").wrapped(40),
        Column::text("one_way", "Served one way only")
            .wrapped(30)
            .with_help("The others go in for these, but not the reverse."),
        Column::new(ColumnKind::Quantity, "apart", "Stock kept apart"),
        Column::new(ColumnKind::Quantity, "pooled", "One stock"),
        Column::new(ColumnKind::Quantity, "saved", "Saved")
            .with_help("Below 0 one stock would have to be larger."),
        Column::new(ColumnKind::Share, "target_share", "Demands met"),
        Column::text("each", "Kept apart").wrapped(50),
        Column::text("kept_as", "The levels keep").wrapped(50),
        Column::text("served", "Served one way, each by itself").wrapped(50),
    ];
    let stocks = inputs.plan.levels.shared.by_part();
    let savings = inputs.plan.pool_savings.iter();
    sheet.rows = savings.map(|saving| row(inputs, &stocks, saving)).collect();
    sheet.notes = vec![
        "Both sides are computed for the same demand, lead times and share of demands met. Numbers stand together only where every kit line that asks for one accepts the other, by the rules or by approval.".to_owned(),
        "What serving a number one way would come to is worked out, not planned: the stock of the other would have to hold it, at its price and lead time, and pieces of the number served that are there serve only itself.".to_owned(),
    ];
    sheet.empty_text =
        "No two own numbers that go in for each other have both a usage rate and a lead time."
            .to_owned();
    sheet
}

/// What a number served from the stock of another would come to.
fn served(inputs: &Inputs<'_>, saving: &OneWaySaving) -> String {
    let currency = inputs.shop.settings.currency;
    let amount = |amount: f64| Money::rounded(amount.abs(), currency);
    let pieces = format!(
        "{} from the stock of {}: {} instead of {} kept",
        number(inputs.shop, saving.served),
        number(inputs.shop, saving.holder),
        saving.together_pieces,
        saving.apart_pieces
    );
    let Some(money) = saving.money else {
        return format!("{pieces}, a price is missing");
    };
    let (holding, goods) = (amount(money.holding_saved), amount(money.goods_more));
    let less = if money.holding_saved < 0.0 {
        "more"
    } else {
        "less"
    };
    let dearer = if money.goods_more < 0.0 {
        "cheaper"
    } else {
        "dearer"
    };
    let pays = if money.pays() { "pays" } else { "does not pay" };
    format!(
        "{pieces}, {holding} a year {less} for holding, goods {goods} a year {dearer}: this {pays}"
    )
}

/// What the levels make of the numbers: one stock, and those that stay apart.
fn kept_as(
    inputs: &Inputs<'_>,
    stocks: &BTreeMap<PartId, &SharedStock>,
    parts: &[PartId],
) -> String {
    let names = |parts: &mut dyn Iterator<Item = PartId>| -> String {
        let names: Vec<String> = parts.map(|part| number(inputs.shop, part)).collect();
        names.join(", ")
    };
    let mut said = Vec::new();
    // A stock is told once, in the order in which the levels found them.
    let mut of_parts: Vec<&SharedStock> = parts
        .iter()
        .filter_map(|part| stocks.get(part).copied())
        .filter(|stock| parts.contains(&stock.holder))
        .collect();
    of_parts.sort_by_key(|stock| &stock.parts);
    of_parts.dedup_by_key(|stock| stock.holder);
    for stock in of_parts {
        said.push(format!(
            "{} as one stock under {}",
            names(&mut stock.parts.iter().copied()),
            number(inputs.shop, stock.holder)
        ));
    }
    let apart = &inputs.plan.levels.shared.apart;
    for part in parts {
        if let Some(why) = apart.get(part) {
            said.push(format!("{} apart: {why}", number(inputs.shop, *part)));
        }
    }
    let is_untold = |part: &&PartId| !stocks.contains_key(part) && !apart.contains_key(part);
    let others = names(&mut parts.iter().filter(is_untold).copied());
    if !others.is_empty() {
        said.push(format!(
            "{others} apart: served one way only, or serving so"
        ));
    }
    said.join("; ")
}

fn row(inputs: &Inputs<'_>, stocks: &BTreeMap<PartId, &SharedStock>, saving: &PoolSaving) -> Row {
    let both_ways = saving.parts.len() - saving.one_way;
    let names = |parts: &[PartId]| {
        let names: Vec<String> = parts
            .iter()
            .map(|part| number(inputs.shop, *part))
            .collect();
        names.join(", ")
    };
    let each: Vec<String> = saving
        .parts
        .iter()
        .zip(&saving.gain.apart_pieces)
        .zip(&saving.lead_days)
        .map(|((part, pieces), days)| {
            format!(
                "{}: {pieces} for {days:.0} days",
                number(inputs.shop, *part)
            )
        })
        .collect();
    let of_pool = inputs.plan.one_way_savings.iter();
    let of_pool = of_pool.filter(|of| of.pool == saving.pool);
    let one_way: Vec<String> = of_pool.map(|of| served(inputs, of)).collect();
    let apart: u64 = saving.gain.apart_pieces.iter().sum();
    let saved = saving.gain.saved_pieces();
    Row::new(vec![
        Value::text(names(&saving.parts[..both_ways])),
        Value::text(names(&saving.parts[both_ways..])),
        Value::Number(apart as f64),
        Value::Number(saving.gain.pooled_pieces as f64),
        Value::Number(saved as f64),
        Value::Number(saving.target_share),
        Value::text(each.join("; ")),
        Value::text(kept_as(inputs, stocks, &saving.parts)),
        Value::text(one_way.join("; ")),
    ])
    .with(if saved > 0 {
        Emphasis::Good
    } else {
        Emphasis::None
    })
}
