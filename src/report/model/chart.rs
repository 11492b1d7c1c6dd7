//! Charts over the rows of a sheet: bars, a line of one figure against another, bands from a likely to a late moment.
//!
//! What is unknown is named, not drawn: drawn, it would read as zero.

use chrono::NaiveDateTime;

use super::column::ColumnKind;
use super::sheet::{Emphasis, Row, Sheet};
use super::value::Value;
use crate::language::Language;

/// Bars or bands drawn at most; more can be read from the table only.
const MAX_BARS: usize = 30;

/// A chart of a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chart {
    /// Title, which says what is drawn.
    pub title: String,
    /// One sentence on what to see in it, also read out in place of the picture.
    pub description: String,
    /// Which columns are drawn, and how.
    pub picture: Picture,
}

/// What a chart is made of; columns by key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Picture {
    /// A bar for each row.
    Bars {
        /// Column that names the bars.
        names: String,
        /// Column of numbers that gives their length.
        lengths: String,
    },
    /// A line through the rows in order of the figure across; rows marked good are points of their own, through which it does
    /// not run.
    Line {
        /// Column of numbers drawn across.
        across: String,
        /// Column of numbers drawn upwards.
        up: String,
    },
    /// A band for each row from one moment to another; where the sheet shows marks, for marked rows only.
    Bands {
        /// Column that names the bands.
        names: String,
        /// Column of moments at which they begin.
        from: String,
        /// Column of moments at which they end.
        to: String,
        /// Column and its words that a row must have to be drawn; `None` draws all.
        only: Option<(String, String)>,
    },
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

/// A point of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Figure across.
    pub across: f64,
    /// Figure upwards.
    pub up: f64,
    /// True where the row is marked good: what the report stands on.
    pub is_chosen: bool,
}

/// One band.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Its name.
    pub name: String,
    /// Begin and end; `None` where one of them is unknown.
    pub span: Option<(NaiveDateTime, NaiveDateTime)>,
}

/// What a chart draws.
#[derive(Debug, Clone, PartialEq)]
pub enum Drawn {
    /// Bars in order of the rows, with the kind of their figure.
    Bars(ColumnKind, Vec<Bar>),
    /// Points with header and kind of both axes.
    Line {
        /// Axis across.
        across: (String, ColumnKind),
        /// Axis upwards.
        up: (String, ColumnKind),
        /// The points of the line from left to right, and behind them those that stand by themselves.
        points: Vec<Point>,
    },
    /// Bands in order of the rows.
    Bands(Vec<Band>),
}

impl Chart {
    /// A bar for each row.
    pub fn bars(
        title: impl Into<String>,
        description: impl Into<String>,
        names: impl Into<String>,
        lengths: impl Into<String>,
    ) -> Self {
        let (names, lengths) = (names.into(), lengths.into());
        Self::of(title, description, Picture::Bars { names, lengths })
    }

    /// A line of one figure against another.
    pub fn line(
        title: impl Into<String>,
        description: impl Into<String>,
        across: impl Into<String>,
        up: impl Into<String>,
    ) -> Self {
        let (across, up) = (across.into(), up.into());
        Self::of(title, description, Picture::Line { across, up })
    }

    /// A chart of any picture.
    pub fn of(title: impl Into<String>, description: impl Into<String>, picture: Picture) -> Self {
        Self {
            title: title.into(),
            description: description.into(),
            picture,
        }
    }

    /// Reads what is drawn from the rows of the sheet, and what the picture cannot show, in words. `None` where there
    /// is nothing to draw or to name.
    pub fn drawn(&self, sheet: &Sheet) -> Option<(Drawn, Option<String>)> {
        match &self.picture {
            Picture::Bars { names, lengths } => bars(sheet, names, lengths),
            Picture::Line { across, up } => line(sheet, across, up),
            Picture::Bands {
                names,
                from,
                to,
                only,
            } => bands(sheet, (names, from, to), only.as_ref()),
        }
    }
}

/// Whether a chart can read columns of a kind.
type KindCheck = fn(ColumnKind) -> bool;

impl Picture {
    /// The columns it reads, each with the check that its kind must pass.
    pub(super) fn columns(&self) -> Vec<(&str, KindCheck)> {
        let is_any = |_| true;
        let is_number = |kind: ColumnKind| kind.is_number();
        let is_moment = |kind| kind == ColumnKind::Moment;
        match self {
            Self::Bars { names, lengths } => vec![(names, is_any), (lengths, is_number)],
            Self::Line { across, up } => vec![(across, is_number), (up, is_number)],
            Self::Bands {
                names,
                from,
                to,
                only,
            } => {
                let mut columns: Vec<(&str, KindCheck)> =
                    vec![(names, is_any), (from, is_moment), (to, is_moment)];
                columns.extend(only.iter().map(|(key, _)| (key.as_str(), is_any as _)));
                columns
            }
        }
    }
}

fn bars(sheet: &Sheet, names: &str, lengths: &str) -> Option<(Drawn, Option<String>)> {
    let (names, lengths) = (sheet.column_at(names)?, sheet.column_at(lengths)?);
    let kind = sheet.columns[lengths].kind;
    let rows = sheet
        .rows
        .iter()
        .filter(|row| !matches!(row.cells.get(lengths), None | Some(Value::Empty)));
    let mut bars: Vec<Bar> = rows
        .map(|row| Bar {
            name: name(sheet, row, names),
            length: row.cells[lengths].as_number(),
            words: row.cells[lengths].with_unit(kind, sheet.language),
        })
        .collect();
    let left_out = cut(&mut bars);
    let unknown = bars.iter().filter(|bar| bar.length.is_none());
    let unknown = unknown.map(|bar| bar.name.as_str());
    let remark = remark(unknown, left_out, sheet.language);
    (!bars.is_empty()).then_some((Drawn::Bars(kind, bars), remark))
}

fn line(sheet: &Sheet, across: &str, up: &str) -> Option<(Drawn, Option<String>)> {
    let (across, up) = (sheet.column_at(across)?, sheet.column_at(up)?);
    let mut points: Vec<Point> = sheet
        .rows
        .iter()
        .filter_map(|row| {
            Some(Point {
                across: row.cells.get(across)?.as_number()?,
                up: row.cells.get(up)?.as_number()?,
                is_chosen: row.emphasis == Emphasis::Good,
            })
        })
        .collect();
    points.sort_by(|a, b| {
        let places = a.across.total_cmp(&b.across).then(a.up.total_cmp(&b.up));
        a.is_chosen.cmp(&b.is_chosen).then(places)
    });
    let unknown = sheet.rows.len() - points.len();
    let remark = (unknown > 0).then(|| {
        let words = format!("Unknown, so not drawn: {unknown} rows.");
        sheet.language.text(&words)
    });
    let axis = |place: usize| {
        let column = &sheet.columns[place];
        (column.header.clone(), column.kind)
    };
    // One point is no line, and a table of one row says it as well.
    (points.len() > 1).then(|| {
        let drawn = Drawn::Line {
            across: axis(across),
            up: axis(up),
            points,
        };
        (drawn, remark)
    })
}

fn bands(
    sheet: &Sheet,
    (names, from, to): (&str, &str, &str),
    only: Option<&(String, String)>,
) -> Option<(Drawn, Option<String>)> {
    let (names, from, to) = (
        sheet.column_at(names)?,
        sheet.column_at(from)?,
        sheet.column_at(to)?,
    );
    let only = match only {
        None => None,
        Some((key, words)) => Some((sheet.column_at(key)?, words)),
    };
    let moment = |row: &Row, place: usize| match row.cells.get(place) {
        Some(Value::Moment(moment)) => Some(*moment),
        _ => None,
    };
    let mut bands: Vec<Band> = sheet
        .rows
        .iter()
        .filter(|row| only.is_none_or(|(place, words)| name(sheet, row, place) == *words))
        .filter(|row| !sheet.has_marks || row.emphasis != Emphasis::None)
        .filter(|row| !matches!(row.cells.get(from), None | Some(Value::Empty)))
        .map(|row| Band {
            name: name(sheet, row, names),
            span: moment(row, from).zip(moment(row, to)),
        })
        .collect();
    let left_out = cut(&mut bands);
    let unknown = bands.iter().filter(|band| band.span.is_none());
    let unknown = unknown.map(|band| band.name.as_str());
    let remark = remark(unknown, left_out, sheet.language);
    // Names alone are no picture.
    let is_drawn = bands.iter().any(|band| band.span.is_some());
    is_drawn.then_some((Drawn::Bands(bands), remark))
}

fn name(sheet: &Sheet, row: &Row, place: usize) -> String {
    let value = row.cells.get(place);
    value.map_or_else(String::new, |value| {
        sheet.columns[place].words(value).into_owned()
    })
}

/// Leaves the first that can be drawn and says how many are left out.
fn cut<T>(all: &mut Vec<T>) -> usize {
    let left_out = all.len().saturating_sub(MAX_BARS);
    all.truncate(MAX_BARS);
    left_out
}

/// What the picture cannot show, in words; `None` where it shows everything.
fn remark<'a>(
    unknown: impl Iterator<Item = &'a str>,
    left_out: usize,
    language: Language,
) -> Option<String> {
    let unknown: Vec<&str> = unknown.collect();
    let mut parts = Vec::new();
    if !unknown.is_empty() {
        let words = format!("Unknown, so not drawn: {}.", unknown.join(", "));
        parts.push(language.text(&words));
    }
    if left_out > 0 {
        let words =
            format!("The first {MAX_BARS} rows are drawn, {left_out} more are in the table.");
        parts.push(language.text(&words));
    }
    (!parts.is_empty()).then(|| parts.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::model::Column;

    fn sheet(rows: &[(f64, f64, Emphasis)]) -> Sheet {
        let mut sheet = Sheet::new("a", "A", "?");
        sheet.has_marks = true;
        sheet.columns = vec![
            Column::new(ColumnKind::Quantity, "across", "Across"),
            Column::new(ColumnKind::Quantity, "up", "Up"),
        ];
        let row = |(across, up, emphasis): &(f64, f64, Emphasis)| {
            Row::new(vec![Value::Number(*across), Value::Number(*up)]).with(*emphasis)
        };
        sheet.rows = rows.iter().map(row).collect();
        sheet
    }

    #[test]
    fn a_line_runs_through_no_point_that_stands_by_itself() {
        let (plain, good) = (Emphasis::None, Emphasis::Good);
        // The marked row lies between the others and below their line.
        let sheet = sheet(&[(3.0, 3.0, plain), (2.0, 1.0, good), (1.0, 1.5, plain)]);
        let chart = Chart::line("T", "D", "across", "up");
        let Some((Drawn::Line { points, .. }, None)) = chart.drawn(&sheet) else {
            panic!("a line");
        };
        let places: Vec<(f64, bool)> = points.iter().map(|of| (of.across, of.is_chosen)).collect();
        assert_eq!(places, [(1.0, false), (3.0, false), (2.0, true)]);
    }
}
