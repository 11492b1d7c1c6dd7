//! Reads the tables in `tests/tables`.

use std::collections::BTreeMap;

/// One row by column name.
pub type Row = BTreeMap<String, String>;

/// Reads a table; the first line is a comment on its source.
pub fn read(name: &str) -> Vec<Row> {
    super::outside::reads(&format!("{name}.csv"));
    let path = format!("{}/tests/tables/{name}.csv", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(&path)
        .unwrap_or_else(|error| panic!("{path}: {error}"));
    reader
        .deserialize()
        .map(|row| row.unwrap_or_else(|error| panic!("{path}: {error}")))
        .collect()
}
