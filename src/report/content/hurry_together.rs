//! Lines that save something only if they are hurried together.

use super::Inputs;
use super::words::{asked_for, money};
use crate::report::model::{Column, ColumnKind, Row, Sheet, Value};

/// The sheet, one row per set of lines.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let mut sheet = Sheet::new(
        "hurry_together",
        "Lines to hurry together",
        "Which lines save more together than one by one?",
    );
    sheet.columns = vec![
        Column::text("kit", "Kit").wrapped(30),
        Column::text("lines", "Lines").wrapped(70),
        Column::new(ColumnKind::Hours, "together_h", "All here at once saves")
            .with_help("Production hours on the average."),
        Column::new(
            ColumnKind::Money(currency),
            format!("together_{code}"),
            "Cost of these hours",
        )
        .with_help("The most that hurrying all of them is worth."),
        Column::new(ColumnKind::Hours, "less_one_h", "Without one of them"),
    ];
    for plan in &inputs.plan.kits {
        let lines = &inputs.shop.kits[plan.kit].lines;
        for set in &plan.accepted.sets {
            let names: Vec<String> = set
                .lines
                .iter()
                .map(|line| {
                    let of = &lines[*line];
                    format!("line {}: {}", of.record.line, asked_for(inputs.shop, of))
                })
                .collect();
            sheet.rows.push(Row::new(vec![
                Value::text(inputs.shop.kits[plan.kit].name.clone()),
                Value::text(names.join("; ")),
                Value::Number(set.together.hours),
                money(set.together.cost, "no downtime cost for the machine"),
                Value::Number(set.less_one.hours),
            ]));
        }
    }
    sheet.notes = vec![
        "Sets of two and three among the eight lines that hold the machine most often; listed where the set saves at least half an hour and a twentieth of all it saves more than any part of it and than its lines one by one.".to_owned(),
    ];
    sheet.empty_text = "No lines save more together than one by one.".to_owned();
    sheet
}
