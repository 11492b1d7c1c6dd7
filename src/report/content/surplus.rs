//! Surplus, dead and expiring stock, with what each line rests on.

use std::cmp::Reverse;

use super::Inputs;
use super::words::{designation, money, number};
use crate::plan::{KEPT_SHARE, KEPT_YEARS, SurplusBasis, UNUSED_YEARS, surplus};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value};

/// Key of this sheet.
pub const KEY: &str = "surplus";

/// The sheet, one row per part or lot, by value.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let mut sheet = Sheet::new(
        KEY,
        "Surplus, dead, expiring stock",
        "What is on the shelf for nothing?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("kind", "Kind"),
        Column::text("number", "Our number"),
        Column::text("designation", "Designation").wrapped(26),
        Column::new(ColumnKind::Quantity, "quantity", "Not needed"),
        Column::text("unit_of_count", "Unit"),
        Column::new(
            ColumnKind::Money(currency),
            format!("value_{code}"),
            "Value",
        )
        .totalled(),
        Column::text("bin", "Bin"),
        Column::new(ColumnKind::Date, "since", "Since"),
        Column::text("basis", "Basis").wrapped(70),
    ];
    // What ties up most comes first, on paper too; what has no price comes last, else in the order of the plan.
    let mut lines = surplus(inputs.shop, inputs.plan);
    lines.sort_by_key(|line| Reverse(line.value.map(|value| value.cents)));
    for line in lines {
        let (kind, emphasis) = match line.basis {
            SurplusBasis::Expired { .. } => ("expired", Emphasis::Stop),
            SurplusBasis::Expiring { .. } => ("expiring", Emphasis::Attention),
            SurplusBasis::NoMachine { .. } => ("no machine left", Emphasis::None),
            SurplusBasis::NotUsed { .. } => ("dead", Emphasis::None),
            SurplusBasis::MoreThanUsed { .. } => ("surplus", Emphasis::None),
        };
        sheet.rows.push(
            Row::new(vec![
                Value::text(kind),
                Value::text(number(inputs.shop, line.part)),
                designation(inputs.shop, line.part),
                Value::Number(line.pieces),
                Value::text(line.unit.to_string()),
                money(line.value, "no price"),
                if line.bins.is_empty() {
                    Value::unknown("no bin in the stock table")
                } else {
                    Value::text(line.bins.join(", "))
                },
                line.since.map_or(Value::Empty, Value::Date),
                Value::text(line.basis.to_string()),
            ])
            .with(emphasis),
        );
    }
    sheet.notes = vec![
        format!(
            "Surplus: more than the level and what is used in {KEPT_YEARS} years in {:.0} % of cases. Dead: not used for {UNUSED_YEARS} recorded years; what its level keeps of it, or one rebuild takes for a machine in service, is an insurance and not listed.",
            100.0 * KEPT_SHARE
        ),
        "A kit counts where its machine is in service and weighs no less than one by its criticality.".to_owned(),
        "Value: at the price the level was set with, else the lowest price offered.".to_owned(),
        "A spare that is seldom needed may be worth its shelf: before anything is sold or scrapped ask who keeps the machine. Lots past their shelf life are not fitted.".to_owned(),
    ];
    sheet.empty_text = "Nothing is on the shelf for nothing, as far as records tell.".to_owned();
    sheet
}
