//! The shipped tables and what was read from each.

use std::sync::LazyLock;

use super::part::StandardPart;
use super::row::{Row, RowError};
use crate::part::Family;

/// Name and text of every shipped table, in the order of the families.
fn tables() -> impl Iterator<Item = (&'static str, &'static str)> {
    let of = |family: Family| family.facts().shape.tables.iter().copied();
    Family::ALL.into_iter().flat_map(of)
}

/// A row of a shipped table that cannot be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadRow {
    /// Line in the file, the first being 1.
    pub line: u64,
    /// Why.
    pub error: RowError,
}

/// What was read from one shipped table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableReport {
    /// File name without ending.
    pub table: &'static str,
    /// Rows read.
    pub rows: usize,
    /// Rows that could not be read; empty in a sound build.
    pub bad_rows: Vec<BadRow>,
}

/// All parts and the reports, in the order of the tables.
pub(super) struct Loaded {
    pub(super) parts: Vec<StandardPart>,
    reports: Vec<TableReport>,
}

pub(super) static LOADED: LazyLock<Loaded> = LazyLock::new(|| {
    let mut loaded = Loaded {
        parts: Vec::new(),
        reports: Vec::new(),
    };
    for (table, text) in tables() {
        let mut bad_rows = Vec::new();
        let parts = read_table(text, &mut bad_rows);
        loaded.reports.push(TableReport {
            table,
            rows: parts.len(),
            bad_rows,
        });
        loaded.parts.extend(parts);
    }
    loaded
});

/// What was read from each shipped table, for checking the tables themselves.
pub fn table_reports() -> &'static [TableReport] {
    &LOADED.reports
}

/// A sum of all shipped tables: what was derived from others is stale.
pub fn edition() -> String {
    let texts: String = tables().map(|(_, text)| text).collect();
    crate::digest::sha256(texts.as_bytes())
}

fn read_table(text: &str, bad_rows: &mut Vec<BadRow>) -> Vec<StandardPart> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes());
    let not_csv = |error: csv::Error| BadRow {
        line: error.position().map_or(0, csv::Position::line),
        error: RowError::NotCsv {
            reason: error.to_string(),
        },
    };
    let header = match reader.headers() {
        Ok(header) => header.clone(),
        Err(error) => {
            bad_rows.push(not_csv(error));
            return Vec::new();
        }
    };
    let mut parts = Vec::new();
    for record in reader.records() {
        let cells = match record {
            Ok(cells) => cells,
            Err(error) => {
                bad_rows.push(not_csv(error));
                continue;
            }
        };
        let row = Row {
            header: &header,
            cells: &cells,
        };
        match row.read() {
            Ok(part) => parts.push(part),
            Err(error) => bad_rows.push(BadRow {
                line: cells.position().map_or(0, csv::Position::line),
                error,
            }),
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_of_every_table_is_read() {
        let counts: Vec<(&str, usize)> =
            table_reports().iter().map(|r| (r.table, r.rows)).collect();
        // Rows counted in the files by another program; a change to a table changes this list.
        let expected = [
            ("deep_groove_ball", 323),
            ("deep_groove_ball_double_row", 19),
            ("deep_groove_ball_inch", 60),
            ("angular_contact_ball", 103),
            ("self_aligning_ball", 84),
            ("cylindrical_roller", 498),
            ("tapered_roller", 90),
            ("tapered_roller_inch", 14),
            ("spherical_roller", 57),
            ("needle_roller", 20),
            ("needle_roller_no_inner_ring", 20),
            ("drawn_cup_needle", 49),
            ("needle_cage", 224),
            ("thrust_ball", 125),
            ("thrust_needle", 30),
            ("combined_needle_thrust", 24),
            ("lip_seal", 174),
            ("o_ring_as568", 369),
            ("o_ring_metric", 424),
            ("shaft_retaining_ring", 121),
            ("bore_retaining_ring", 132),
            ("lock_nut", 21),
            ("dowel_pin", 688),
            ("dowel_pin_inch", 134),
        ];
        assert_eq!(counts, expected);
        for report in table_reports() {
            assert_eq!(report.bad_rows, [], "{}", report.table);
        }
    }

    #[test]
    fn a_bad_row_is_reported_with_its_line() {
        let text = "# head\nfamily,designation,shaft_diameter_mm,standard,source,confidence\n\
                    shaft_retaining_ring,DIN 471-40,40,DIN 471,BDW,B\n\
                    shaft_retaining_ring,DIN 471-42,,DIN 471,BDW,B\n";
        let mut bad_rows = Vec::new();
        assert_eq!(read_table(text, &mut bad_rows).len(), 1);
        assert_eq!(bad_rows.len(), 1);
        assert_eq!(bad_rows[0].line, 4);
    }
}
