//! What single rows become, cell by cell: prices less discount and tax, hours of suppliers, quantities and days, and every
//! problem with its cell. Layouts and words are common practice, no source.

mod counts_and_days;
mod hours;
mod issued_below_zero;
mod named_in_text;
mod odd_values;
mod offer_prices;
mod offer_tax;
mod orders_in_part;
mod slipped;
mod titles;
mod totals;
mod units;
mod year_first;

use sparewright::import::{Imported, read_folder};

/// Imports one text table.
fn import(name: &str, text: &str) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join(name), text).unwrap();
    read_folder(folder.path()).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

/// Problems as `cell: words`.
fn problems(imported: &Imported) -> Vec<String> {
    let said = imported.issues.iter();
    said.map(|issue| format!("{}: {}", issue.place.cell(), issue.problem))
        .collect()
}
