//! Checks that a report fits together before any renderer touches it: a slip here is our defect, not the shop's.

use std::collections::BTreeSet;

use super::column::{Column, ColumnKind};
use super::cover::Report;
use super::formula::RowFormula;
use super::sheet::{Emphasis, MARK_HEADER, MARK_KEY, Sheet};
use crate::language::Language;

/// Characters in a sheet name (limit of the workbook format).
const MAX_TITLE: usize = 31;
/// Signs that a sheet name must not hold (limit of the workbook format).
const TITLE_REFUSES: &str = "[]:*?/\\";
/// Sheet names that are taken by the cover or by the format itself.
const TAKEN_TITLES: [&str; 2] = ["Cover", "History"];
/// Ending of the fields that give reasons in the JSON report.
const UNKNOWN_ENDING: &str = "_unknown";
/// Actions that fit on a cover and into one shift.
const MAX_ACTIONS: usize = 5;

/// Why a report cannot be written: its parts do not fit.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ModelError {
    /// A key that is not in snake case, is taken, or appears twice.
    #[error("report key `{key}` must be in snake case and unique")]
    Key {
        /// The key.
        key: String,
    },
    /// A sheet name that a workbook cannot have.
    #[error(
        "sheet title `{title}` must be 1 to {MAX_TITLE} characters, unique, and free of {TITLE_REFUSES}"
    )]
    Title {
        /// The title.
        title: String,
    },
    /// A sheet without columns.
    #[error("sheet `{sheet}` has no columns")]
    NoColumns {
        /// The sheet's key.
        sheet: String,
    },
    /// A header that appears twice.
    #[error("sheet `{sheet}`: header `{header}` must be given and unique")]
    Header {
        /// The sheet's key.
        sheet: String,
        /// The header.
        header: String,
    },
    /// A key that does not say the unit of its column.
    #[error("sheet `{sheet}`: key `{key}` must end in `{ending}`")]
    KeyWithoutUnit {
        /// The sheet's key.
        sheet: String,
        /// The column's key.
        key: String,
        /// The ending that says the unit.
        ending: String,
    },
    /// A row with too few or too many cells.
    #[error("sheet `{sheet}`, row {row}: {found} cells, but {expected} columns")]
    CellCount {
        /// The sheet's key.
        sheet: String,
        /// The row, from 1.
        row: usize,
        /// Cells found.
        found: usize,
        /// Columns.
        expected: usize,
    },
    /// A value that does not belong into its column, or is not finite.
    #[error("sheet `{sheet}`, row {row}: {value} does not fit column `{key}` of kind {kind}")]
    WrongKind {
        /// The sheet's key.
        sheet: String,
        /// The row, from 1.
        row: usize,
        /// The column's key.
        key: String,
        /// The column's kind.
        kind: &'static str,
        /// The value.
        value: String,
    },
    /// An emphasis in a sheet that shows no marks.
    #[error("sheet `{sheet}`, row {row}: has an emphasis, but the sheet shows no marks")]
    NoMarks {
        /// The sheet's key.
        sheet: String,
        /// The row, from 1.
        row: usize,
    },
    /// A reference to a sheet or a column that does not exist, or cannot be used so.
    #[error("`{found}` in {used_in} of `{sheet}` names no sheet or column that can be used so")]
    Reference {
        /// The sheet's key, or `cover`.
        sheet: String,
        /// What refers to it.
        used_in: &'static str,
        /// The key.
        found: String,
    },
    /// A planned figure that the live formula would not give.
    #[error("sheet `{sheet}`, row {row}: `{key}` is {planned}, but its formula gives {computed}")]
    FormulaDisagrees {
        /// The sheet's key.
        sheet: String,
        /// The row, from 1.
        row: usize,
        /// The column's key.
        key: String,
        /// The planned figure.
        planned: f64,
        /// What the formula gives.
        computed: f64,
    },
    /// Too many actions on the cover.
    #[error("the cover has {found} actions, but at most {MAX_ACTIONS} can be done now")]
    Actions {
        /// Number found.
        found: usize,
    },
}

/// Checks keys, titles, headers, values, formulas and references.
///
/// # Errors
/// The first [`ModelError`] in order of the sheets.
pub fn check_report(report: &Report) -> Result<(), ModelError> {
    let mut known = KnownSheets::default();
    known.check(&report.sheets, report.language)?;
    known.check_cover(report)
}

/// Sheets that were checked, where they come one after another.
#[derive(Debug, Default)]
pub struct KnownSheets {
    keys: BTreeSet<String>,
    titles: BTreeSet<String>,
}

impl KnownSheets {
    /// Checks sheets whose formulas read each other only, beside those that came before.
    ///
    /// # Errors
    /// As [`check_report`].
    pub fn check(&mut self, sheets: &[Sheet], language: Language) -> Result<(), ModelError> {
        for sheet in sheets {
            if !is_snake_case(&sheet.key) || !self.keys.insert(sheet.key.clone()) {
                return Err(ModelError::Key {
                    key: sheet.key.clone(),
                });
            }
            let lower = sheet.title.to_lowercase();
            if !is_title(&sheet.title) || is_taken(&lower, language) || !self.titles.insert(lower) {
                return Err(ModelError::Title {
                    title: sheet.title.clone(),
                });
            }
            check_columns(sheet, sheets)?;
            check_rows(sheet, sheets)?;
        }
        Ok(())
    }

    /// Checks the cover, when all sheets are known.
    ///
    /// # Errors
    /// As [`check_report`].
    pub fn check_cover(&self, report: &Report) -> Result<(), ModelError> {
        check_cover(report, &self.keys)
    }
}

fn check_cover(report: &Report, keys: &BTreeSet<String>) -> Result<(), ModelError> {
    if report.cover.actions.len() > MAX_ACTIONS {
        return Err(ModelError::Actions {
            found: report.cover.actions.len(),
        });
    }
    let linked = report.cover.actions.iter().filter_map(|a| a.sheet.as_ref());
    for key in linked {
        if !keys.contains(key.as_str()) {
            return Err(reference("cover", "an action", key));
        }
    }
    Ok(())
}

fn is_taken(lower: &str, language: Language) -> bool {
    let mut taken = TAKEN_TITLES.iter();
    taken.any(|title| {
        [title.to_lowercase(), language.text(title).to_lowercase()].contains(&lower.to_owned())
    })
}

fn check_columns(sheet: &Sheet, sheets: &[Sheet]) -> Result<(), ModelError> {
    if sheet.columns.is_empty() {
        return Err(ModelError::NoColumns {
            sheet: sheet.key.clone(),
        });
    }
    let mut keys = BTreeSet::from([MARK_KEY]);
    // Tables of a workbook take headers that differ only in case for the same.
    let mut headers = BTreeSet::from([sheet.language.text(MARK_HEADER).to_lowercase()]);
    for column in &sheet.columns {
        let is_taken = column.key.ends_with(UNKNOWN_ENDING) || !keys.insert(&column.key);
        if !is_snake_case(&column.key) || is_taken {
            return Err(ModelError::Key {
                key: column.key.clone(),
            });
        }
        let label = column.label();
        if column.header.trim().is_empty() || !headers.insert(label.to_lowercase()) {
            return Err(ModelError::Header {
                sheet: sheet.key.clone(),
                header: label,
            });
        }
        if let Some(ending) = column.kind.key_ending()
            && !column.key.ends_with(&ending)
        {
            return Err(ModelError::KeyWithoutUnit {
                sheet: sheet.key.clone(),
                key: column.key.clone(),
                ending,
            });
        }
        check_references(sheet, column, sheets)?;
    }
    for chart in &sheet.charts {
        for (key, fits) in chart.picture.columns() {
            let is_usable = sheet
                .column_at(key)
                .is_some_and(|place| fits(sheet.columns[place].kind));
            if !is_usable {
                return Err(reference(&sheet.key, "a chart", key));
            }
        }
    }
    Ok(())
}

fn check_references(sheet: &Sheet, column: &Column, sheets: &[Sheet]) -> Result<(), ModelError> {
    if column.is_totalled && !column.kind.can_be_totalled() {
        return Err(reference(&sheet.key, "the totals", &column.key));
    }
    let Some(formula) = &column.formula else {
        return Ok(());
    };
    for key in formula.operands() {
        let is_usable = sheet.column_at(key).is_some_and(|place| {
            formula.reads(sheet.columns[place].kind) && sheet.columns[place].key != column.key
        });
        if !is_usable {
            return Err(reference(&sheet.key, "a formula", key));
        }
    }
    let RowFormula::SumWhere(of) = formula else {
        return Ok(());
    };
    let other = sheets.iter().find(|other| other.key == of.sheet);
    for (key, is_number) in [(&of.amounts, true), (&of.names, false)] {
        let is_usable = other.is_some_and(|other| {
            let place = other.column_at(key);
            place.is_some_and(|place| other.columns[place].kind.is_number() == is_number)
        });
        if !is_usable {
            return Err(reference(&sheet.key, "a formula", key));
        }
    }
    Ok(())
}

fn check_rows(sheet: &Sheet, sheets: &[Sheet]) -> Result<(), ModelError> {
    for (row, number) in sheet.rows.iter().zip(1..) {
        if row.cells.len() != sheet.columns.len() {
            return Err(ModelError::CellCount {
                sheet: sheet.key.clone(),
                row: number,
                found: row.cells.len(),
                expected: sheet.columns.len(),
            });
        }
        if row.emphasis != Emphasis::None && !sheet.has_marks {
            return Err(ModelError::NoMarks {
                sheet: sheet.key.clone(),
                row: number,
            });
        }
        for (column, value) in sheet.columns.iter().zip(&row.cells) {
            let is_finite = value.as_number().is_none_or(f64::is_finite);
            if !is_finite || !column.kind.holds(value) {
                return Err(ModelError::WrongKind {
                    sheet: sheet.key.clone(),
                    row: number,
                    key: column.key.clone(),
                    kind: column.kind.name(),
                    value: format!("{value:?}"),
                });
            }
            let computed = column
                .formula
                .as_ref()
                .and_then(|formula| formula.result(column.kind, (sheet, row), sheets));
            if let (Some(planned), Some(computed)) = (value.as_number(), computed)
                && !agrees(planned, computed, column.kind)
            {
                return Err(ModelError::FormulaDisagrees {
                    sheet: sheet.key.clone(),
                    row: number,
                    key: column.key.clone(),
                    planned,
                    computed,
                });
            }
        }
    }
    Ok(())
}

/// Money may differ by one cent, where two roundings meet at half a cent; other figures by one in 10^9.
fn agrees(planned: f64, computed: f64, kind: ColumnKind) -> bool {
    let slack = match kind {
        ColumnKind::Money(_) => 0.0101,
        _ => 1e-9 * planned.abs().max(1.0),
    };
    (planned - computed).abs() <= slack
}

fn is_snake_case(key: &str) -> bool {
    key.starts_with(|c: char| c.is_ascii_lowercase())
        && key.len() <= 60
        && key
            .bytes()
            .all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_')
}

fn is_title(title: &str) -> bool {
    !title.trim().is_empty()
        && title.encode_utf16().count() <= MAX_TITLE
        && !title.contains(|c: char| TITLE_REFUSES.contains(c) || c.is_control())
        && !title.starts_with('\'')
        && !title.ends_with('\'')
}

fn reference(sheet: &str, used_in: &'static str, found: &str) -> ModelError {
    ModelError::Reference {
        sheet: sheet.to_owned(),
        used_in,
        found: found.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::cover::{Action, Cover, MadeBy};
    use super::super::sheet::Row;
    use super::super::value::Value;
    use super::*;
    use crate::units::Currency;

    /// A report that fits together: one sheet of a name, hours, and twice the hours.
    fn sound() -> Report {
        let mut sheet = Sheet::new("kits", "Kits", "How long?");
        sheet.columns = vec![
            Column::text("kit", "Kit"),
            Column::new(ColumnKind::Hours, "wait_h", "Wait"),
            Column::new(ColumnKind::Hours, "twice_h", "Twice")
                .with_formula(RowFormula::Sum(vec!["wait_h".into(), "wait_h".into()])),
        ];
        sheet.rows = vec![Row::new(vec![
            Value::text("A"),
            Value::Number(1.5),
            Value::Number(3.0),
        ])];
        Report {
            title: "Report".into(),
            shop: "Shop".into(),
            as_of: chrono::NaiveDateTime::default(),
            made_by: MadeBy::this_program(),
            language: Language::ENGLISH,
            cover: Cover::default(),
            sheets: vec![sheet],
        }
    }

    /// What the check says after one change.
    fn said(change: impl FnOnce(&mut Report)) -> String {
        let mut report = sound();
        change(&mut report);
        check_report(&report).unwrap_err().to_string()
    }

    #[test]
    fn a_sound_report_passes() {
        assert_eq!(check_report(&sound()), Ok(()));
    }

    #[test]
    fn columns_must_say_their_unit_and_differ() {
        assert_eq!(
            said(|r| r.sheets[0].columns[1].key = "wait".into()),
            "sheet `kits`: key `wait` must end in `_h`"
        );
        assert_eq!(
            said(|r| r.sheets[0].columns[2].header = "WAIT".into()),
            "sheet `kits`: header `WAIT (h)` must be given and unique"
        );
        for key in ["Kit", "mark", "kit_unknown", "", "wait_h"] {
            let text = said(|r| r.sheets[0].columns[0].key = key.into());
            assert!(text.contains("in snake case and unique"), "{key}: {text}");
        }
        assert_eq!(
            said(|r| r.sheets[0].columns.clear()),
            "sheet `kits` has no columns"
        );
    }

    #[test]
    fn rows_must_fit_their_columns() {
        assert_eq!(
            said(|r| r.sheets[0].rows[0].cells.truncate(1)),
            "sheet `kits`, row 1: 1 cells, but 3 columns"
        );
        for value in [
            Value::text("1.5"),
            Value::Number(f64::NAN),
            Value::Number(f64::INFINITY),
            Value::Flag(true),
        ] {
            let text = said(|r| r.sheets[0].rows[0].cells[1] = value);
            assert!(
                text.contains("does not fit column `wait_h` of kind hours"),
                "{text}"
            );
        }
        assert_eq!(
            said(|r| r.sheets[0].rows[0].emphasis = Emphasis::Stop),
            "sheet `kits`, row 1: has an emphasis, but the sheet shows no marks"
        );
        assert_eq!(
            said(|r| r.sheets[0].rows[0].cells[2] = Value::Number(3.1)),
            "sheet `kits`, row 1: `twice_h` is 3.1, but its formula gives 3"
        );
    }

    #[test]
    fn an_unknown_figure_is_never_compared_with_its_formula() {
        let mut report = sound();
        report.sheets[0].rows[0].cells[1] = Value::unknown("no lead time");
        assert_eq!(check_report(&report), Ok(()));
        report.sheets[0].rows[0].cells[2] = Value::unknown("no lead time");
        assert_eq!(check_report(&report), Ok(()));
    }

    #[test]
    fn references_must_lead_somewhere() {
        for (text, expected) in [
            (
                said(|r| {
                    let formula = RowFormula::product("wait_h", "kit");
                    r.sheets[0].columns[2].formula = Some(formula);
                }),
                "`kit` in a formula of `kits`",
            ),
            (
                said(|r| r.sheets[0].columns[0].is_totalled = true),
                "`kit` in the totals of `kits`",
            ),
            (
                said(|r| {
                    r.sheets[0].charts =
                        vec![super::super::chart::Chart::bars("", "", "kit", "kit")];
                }),
                "`kit` in a chart of `kits`",
            ),
            (
                said(|r| {
                    r.cover.actions = vec![Action {
                        text: String::new(),
                        detail: String::new(),
                        sheet: Some("none".into()),
                    }];
                }),
                "`none` in an action of `cover`",
            ),
        ] {
            assert!(text.starts_with(expected), "{text}");
        }
    }

    #[test]
    fn money_may_differ_by_the_cent_that_two_roundings_make() {
        let money = ColumnKind::Money(Currency::EUR);
        assert!(agrees(2.13, 2.12, money));
        assert!(!agrees(2.15, 2.13, money));
        assert!(!agrees(2.13, 2.12, ColumnKind::Hours));
    }
}
