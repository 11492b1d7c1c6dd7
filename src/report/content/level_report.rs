//! The levels alone, as a report of their own.

use super::{Inputs, few_sheets, levels, levels_compared, service_curve, year_ahead};
use crate::catalogue::PartId;
use crate::caution;
use crate::report::model::Report;

/// Makes the report of the command `levels`; `parts` keeps only the rows of these parts, without what is the whole shop's.
pub fn level_report(inputs: &Inputs<'_>, parts: &[PartId]) -> Report {
    let mut sheets = vec![levels_compared::sheet(inputs), levels::sheet(inputs)];
    if parts.is_empty() {
        sheets.push(service_curve::sheet(inputs));
        sheets.push(year_ahead::sheet(inputs));
    } else {
        let numbers: Vec<&str> = parts
            .iter()
            .map(|part| &*inputs.shop.catalogue.part(*part).number)
            .collect();
        for sheet in &mut sheets {
            sheet
                .rows
                .retain(|row| numbers.contains(&&*row.cells[0].in_words(sheet.columns[0].kind)));
        }
    }
    few_sheets(
        inputs,
        "Stock levels".to_owned(),
        &[caution::REPORT],
        sheets,
    )
}
