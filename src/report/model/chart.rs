//! Bar charts over the rows of a sheet; a bar of unknown length is named, not drawn as zero.

use super::sheet::Sheet;
use super::value::Value;
use crate::language::Language;

/// Bars drawn at most; more can be read from the table only.
const MAX_BARS: usize = 30;

/// Which columns of its sheet a bar chart draws.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chart {
    /// Title, which says what is drawn.
    pub title: String,
    /// One sentence on what to see in it, also read out in place of the picture.
    pub description: String,
    /// Key of the column that names the bars.
    pub names: String,
    /// Key of the column that gives their length.
    pub lengths: String,
}

/// One bar.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// Its name.
    pub name: String,
    /// Its length in the unit of the column; `None` where it is unknown.
    pub length: Option<f64>,
    /// The figure in words with its unit.
    pub words: String,
}

/// What a chart draws.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// Bars in order of the rows.
    pub bars: Vec<Bar>,
    /// Rows that the chart leaves out because there are too many.
    pub left_out: usize,
    /// Language of what is said about it.
    pub language: Language,
}

impl Chart {
    /// Reads the bars from the rows of the sheet.
    pub fn bars(&self, sheet: &Sheet) -> Drawn {
        let (Some(names), Some(lengths)) =
            (sheet.column_at(&self.names), sheet.column_at(&self.lengths))
        else {
            return Drawn {
                bars: Vec::new(),
                left_out: 0,
                language: sheet.language,
            };
        };
        let (name, kind) = (&sheet.columns[names], sheet.columns[lengths].kind);
        let mut bars: Vec<Bar> = sheet
            .rows
            .iter()
            .filter(|row| !matches!(row.cells.get(lengths), None | Some(Value::Empty)))
            .map(|row| Bar {
                name: name.words(&row.cells[names]).into_owned(),
                length: row.cells[lengths].as_number(),
                words: row.cells[lengths].with_unit(kind, sheet.language),
            })
            .collect();
        let left_out = bars.len().saturating_sub(MAX_BARS);
        bars.truncate(MAX_BARS);
        Drawn {
            bars,
            left_out,
            language: sheet.language,
        }
    }
}

impl Drawn {
    /// What the picture cannot show, in words; `None` where it shows everything.
    pub fn remark(&self) -> Option<String> {
        let unknown: Vec<&str> = self
            .bars
            .iter()
            .filter(|bar| bar.length.is_none())
            .map(|bar| bar.name.as_str())
            .collect();
        let mut parts = Vec::new();
        if !unknown.is_empty() {
            let note = format!("Unknown, so not drawn: {}.", unknown.join(", "));
            parts.push(self.language.text(&note));
        }
        if self.left_out > 0 {
            parts.push(self.language.text(&format!(
                "The first {MAX_BARS} rows are drawn, {} more are in the table.",
                self.left_out
            )));
        }
        (!parts.is_empty()).then(|| parts.join(" "))
    }
}
