//! The levels alone, as a report of their own.

use super::{Inputs, levels, levels_compared, service_curve, year_ahead};
use crate::catalogue::PartId;
use crate::caution;
use crate::language::Language;
use crate::report::model::{Cover, MadeBy, Report};

/// Makes the report of the command `levels`; `parts` keeps only the rows of these parts.
pub fn level_report(inputs: &Inputs<'_>, parts: &[PartId]) -> Report {
    let mut sheets = vec![
        levels_compared::sheet(inputs),
        levels::sheet(inputs),
        service_curve::sheet(inputs),
        year_ahead::sheet(inputs),
    ];
    if !parts.is_empty() {
        let numbers: Vec<&str> = parts
            .iter()
            .map(|part| &*inputs.shop.catalogue.part(*part).number)
            .collect();
        for sheet in sheets
            .iter_mut()
            .filter(|sheet| sheet.key.starts_with("levels"))
        {
            sheet
                .rows
                .retain(|row| numbers.contains(&&*row.cells[0].in_words(sheet.columns[0].kind)));
        }
    }
    Report {
        title: "Stock levels".to_owned(),
        shop: inputs.shop.settings.shop.clone(),
        as_of: inputs.shop.as_of,
        made_by: MadeBy::this_program(),
        language: Language::ENGLISH,
        cover: Cover {
            cautions: caution::REPORT
                .iter()
                .map(|text| (*text).to_owned())
                .collect(),
            ..Cover::default()
        },
        sheets,
    }
}
