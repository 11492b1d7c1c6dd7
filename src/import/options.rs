//! What the caller says about columns: mappings given on the command line or remembered for tables of one shape.

use std::fmt;
use std::str::FromStr;

use super::field::Field;
use super::fold::fold;
use super::header::How;
use super::reading::TableRead;
use super::shape::Shape;
use super::table::Table;

/// What an import is told besides the folder.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct ImportOptions {
    /// Meanings of columns; where two fit one column, the first holds.
    pub maps: Vec<ColumnMap>,
}

/// Which tables a mapping holds for.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MapScope {
    /// Every table.
    Everywhere,
    /// Tables of files with such a name; `*` stands for any letters, `?` for one, and case does not matter.
    Files(String),
    /// Tables of this shape, whatever their file.
    Shape(Shape),
}

/// The column that a mapping means.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MappedColumn {
    /// By its header, whatever its case, accents and dots.
    Header(String),
    /// By its position from 0.
    Position(u32),
}

/// The meaning of one column, given by people.
///
/// # Example
/// ```
/// use sparewright::import::{ColumnMap, Field, MapScope};
/// let map: ColumnMap = "prices*.xlsx!Netto EK=price".parse()?;
/// assert_eq!(map.field, Some(Field::Price));
/// assert_eq!(map.scope, MapScope::Files("prices*.xlsx".to_owned()));
/// assert!("Netto EK=prise".parse::<ColumnMap>().is_err());
/// # Ok::<(), sparewright::import::MapError>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct ColumnMap {
    /// Where it holds.
    pub scope: MapScope,
    /// Name of the sheets it holds for, as a pattern; `None` for every sheet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sheet: Option<String>,
    /// Which table of a sheet, from 1; `None` for every table, and where the column is meant by its position for the
    /// first, since the letters of a column say nothing about a table further down.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub table: Option<u32>,
    /// Which column.
    pub column: MappedColumn,
    /// What it holds; `None` for a column that is not to be read.
    pub field: Option<Field>,
}

/// Why a text is no mapping.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum MapError {
    /// No `=`, or nothing on one of its sides.
    #[error(
        "`{found}` is not a mapping; expected `FILE!COLUMN=FIELD` or `FILE!SHEET!COLUMN=FIELD`, such as `prices*.xlsx!$C=price`"
    )]
    NotAMap {
        /// As found.
        found: String,
    },
    /// Letters that are no column.
    #[error(
        "`{found}` is not a column; expected letters such as `$C`, or `$C#2` in the second table of a sheet"
    )]
    NotAColumn {
        /// As found.
        found: String,
    },
    /// Not the code of a field.
    #[error("`{found}` is not a field{}; expected a code such as `lead_time`, or `-` for a column that is not read", meant(.likely))]
    NotAField {
        /// As found.
        found: String,
        /// The field with the most similar code.
        likely: Option<Field>,
    },
}

fn meant(likely: &Option<Field>) -> String {
    likely.map_or_else(String::new, |field| {
        format!(", perhaps `{}` is meant", field.code())
    })
}

/// Least likeness of a misspelt code to be named.
const LEAST_LIKENESS: f64 = 0.6;

impl ImportOptions {
    /// The mappings that may hold for a sheet of a file.
    pub(super) fn for_sheet(&self, file: &str, sheet: &str) -> Vec<&ColumnMap> {
        self.maps
            .iter()
            .filter(|map| map.holds_for_sheet(file, sheet))
            .collect()
    }
}

impl ColumnMap {
    /// The given mappings that a table used, each for tables of its shape.
    pub(super) fn used_in(table: &Table) -> Vec<Self> {
        let given = table
            .columns
            .iter()
            .filter(|column| column.header.how == How::Given)
            .map(|column| (column.index, &column.printed, Some(column.header.field)));
        let left_out = table
            .unread
            .iter()
            .filter(|(index, _)| table.left_out.contains(index))
            .map(|(index, printed)| (*index, printed, None));
        given
            .chain(left_out)
            .map(|(index, printed, field)| Self {
                scope: MapScope::Shape(table.shape.clone()),
                sheet: None,
                table: None,
                column: if printed.is_empty() {
                    MappedColumn::Position(index)
                } else {
                    MappedColumn::Header(printed.clone())
                },
                field,
            })
            .collect()
    }

    /// True where the mapping holds for tables of this shape.
    pub(super) fn holds_for(&self, shape: &Shape) -> bool {
        !matches!(&self.scope, MapScope::Shape(of) if of != shape)
    }

    /// True where the mapping holds for a sheet of a file.
    fn holds_for_sheet(&self, file: &str, sheet: &str) -> bool {
        let is_named = |pattern: &str, name: &str| {
            matches_pattern(&pattern.to_lowercase(), &name.to_lowercase())
        };
        let is_file = match &self.scope {
            MapScope::Files(pattern) => is_named(pattern, file),
            MapScope::Everywhere | MapScope::Shape(_) => true,
        };
        is_file
            && self
                .sheet
                .as_deref()
                .is_none_or(|pattern| is_named(pattern, sheet))
    }

    /// True where the mapping holds for the table with this number, from 1, on its sheet.
    pub(super) fn holds_for_table(&self, number: u32) -> bool {
        match (self.table, &self.scope, &self.column) {
            (Some(table), _, _) => table == number,
            // Tables of one shape are read alike, wherever they stand.
            (None, MapScope::Shape(_), _) | (None, _, MappedColumn::Header(_)) => true,
            (None, _, MappedColumn::Position(_)) => number == 1,
        }
    }

    /// True where the mapping means the column with this header at this position.
    pub(super) fn means(&self, position: u32, printed: &str) -> bool {
        match &self.column {
            MappedColumn::Header(header) => !printed.is_empty() && fold(header) == fold(printed),
            MappedColumn::Position(at) => *at == position,
        }
    }

    /// True where the mapping was used on a table that was read.
    pub(super) fn is_used_in(&self, table: &TableRead, number: u32) -> bool {
        let is_there = self.holds_for(&table.shape)
            && self.holds_for_sheet(&table.file, &table.sheet)
            && self.holds_for_table(number);
        let read = || {
            table
                .columns
                .iter()
                .any(|read| read.how == How::Given && self.means(read.column, &read.header))
        };
        let left_out = || {
            table
                .unread
                .iter()
                .any(|unread| self.means(unread.column, &unread.header))
        };
        is_there
            // A column that was given a meaning of no use to the table is told as not read, and the mapping was heard.
            && (left_out() || self.field.is_some() && read())
    }
}

impl FromStr for ColumnMap {
    type Err = MapError;

    /// Reads `FILE!COLUMN=FIELD` or `FILE!SHEET!COLUMN=FIELD`; file and sheet may be left out (`!SHEET!COLUMN`), `$C` is a
    /// column of the first table by its letters, `$C#2` one of the second, and the field `-` means a column that is not
    /// read.
    fn from_str(text: &str) -> Result<Self, MapError> {
        let not_a_map = || MapError::NotAMap {
            found: text.to_owned(),
        };
        let (left, field) = text.rsplit_once('=').ok_or_else(not_a_map)?;
        let pieces: Vec<&str> = left.splitn(3, '!').map(str::trim).collect();
        let (file, sheet, column) = match pieces[..] {
            [column] => ("", "", column),
            [file, column] if !file.is_empty() => (file, "", column),
            [file, sheet, column] if !sheet.is_empty() => (file, sheet, column),
            _ => return Err(not_a_map()),
        };
        if column.is_empty() {
            return Err(not_a_map());
        }
        let scope = if file.is_empty() {
            MapScope::Everywhere
        } else {
            MapScope::Files(file.to_owned())
        };
        let (column, table) = match column.strip_prefix('$') {
            Some(letters) => {
                let (position, table) =
                    position_and_table(letters).ok_or_else(|| MapError::NotAColumn {
                        found: column.to_owned(),
                    })?;
                (MappedColumn::Position(position), table)
            }
            None => (MappedColumn::Header(column.to_owned()), None),
        };
        let field = match field.trim() {
            "-" => None,
            code => Some(Field::from_code(code).ok_or_else(|| MapError::NotAField {
                found: code.to_owned(),
                likely: likely_field(code),
            })?),
        };
        Ok(Self {
            scope,
            sheet: (!sheet.is_empty()).then(|| sheet.to_owned()),
            table,
            column,
            field,
        })
    }
}

impl fmt::Display for ColumnMap {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.scope, &self.sheet) {
            (MapScope::Files(pattern), None) => write!(f, "{pattern}!")?,
            (MapScope::Files(pattern), Some(sheet)) => write!(f, "{pattern}!{sheet}!")?,
            (_, Some(sheet)) => write!(f, "!{sheet}!")?,
            (_, None) => {}
        }
        match &self.column {
            MappedColumn::Header(header) => f.write_str(header)?,
            MappedColumn::Position(at) => write!(f, "${}", crate::place::column_letters(*at))?,
        }
        if let Some(table) = self.table {
            write!(f, "#{table}")?;
        }
        write!(f, "={}", self.field.map_or("-", Field::code))
    }
}

/// `C` or `C#2`: the position of a column, and which table of its sheet.
fn position_and_table(text: &str) -> Option<(u32, Option<u32>)> {
    match text.split_once('#') {
        Some((letters, number)) => {
            let number = number.parse().ok().filter(|number| *number > 0)?;
            Some((position_of(letters)?, Some(number)))
        }
        None => Some((position_of(text)?, None)),
    }
}

/// Position from 0 of a column's letters, up to the last column of the format.
fn position_of(letters: &str) -> Option<u32> {
    if !(1..=3).contains(&letters.len()) {
        return None;
    }
    let mut position = 0_u32;
    for letter in letters.to_ascii_uppercase().bytes() {
        if !letter.is_ascii_uppercase() {
            return None;
        }
        position = position * 26 + u32::from(letter - b'A') + 1;
    }
    Some(position - 1)
}

fn likely_field(code: &str) -> Option<Field> {
    Field::ALL
        .iter()
        .map(|field| (strsim::jaro_winkler(code, field.code()), *field))
        .filter(|(likeness, _)| *likeness >= LEAST_LIKENESS)
        .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)))
        .map(|(_, field)| field)
}

/// True where `text` is what `pattern` says; `*` stands for any letters, `?` for one.
fn matches_pattern(pattern: &str, text: &str) -> bool {
    let (pattern, text): (Vec<char>, Vec<char>) =
        (pattern.chars().collect(), text.chars().collect());
    let (mut at, mut of) = (0, 0);
    // Where to go on when the last star takes one letter more.
    let mut star: Option<(usize, usize)> = None;
    while at < text.len() {
        match pattern.get(of) {
            Some('*') => {
                star = Some((of, at));
                of += 1;
            }
            Some(c) if *c == '?' || *c == text[at] => {
                at += 1;
                of += 1;
            }
            _ => match star {
                Some((star_of, star_at)) => {
                    star = Some((star_of, star_at + 1));
                    of = star_of + 1;
                    at = star_at + 1;
                }
                None => return false,
            },
        }
    }
    pattern[of..].iter().all(|c| *c == '*')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn mappings_are_read_as_they_print() {
        for text in [
            "prices*.xlsx!Netto EK=price",
            "$C=lead_time",
            "a.csv!$AA=-",
            "a.xlsx!Offers*!$C#2=price",
            "!Offers!Netto EK=price",
            "Our no.=own_number",
        ] {
            let map: ColumnMap = text.parse().unwrap();
            assert_eq!(map.to_string(), text);
            let json = serde_json::to_string(&map).unwrap();
            assert_eq!(serde_json::from_str::<ColumnMap>(&json).unwrap(), map);
        }
        let error = "Netto=lead_tme".parse::<ColumnMap>().unwrap_err();
        assert!(error.to_string().contains("perhaps `lead_time` is meant"));
        for text in [
            "",
            "price",
            "=price",
            "!C=price",
            "a!=price",
            "$C1=price",
            "$=price",
            "$C#=price",
            "$C#0=price",
            "a!!$C=price",
            "a!b!=price",
        ] {
            assert!(text.parse::<ColumnMap>().is_err(), "{text}");
        }
    }

    #[test]
    fn stars_and_question_marks_stand_for_letters() {
        for (pattern, text, expected) in [
            ("*.csv", "a.csv", true),
            ("pr*es*.xlsx", "prices_2026.xlsx", true),
            ("price?.csv", "prices.csv", true),
            ("price?.csv", "price.csv", false),
            ("*", "", true),
            ("a*b", "acbd", false),
            ("", "a", false),
        ] {
            assert_eq!(matches_pattern(pattern, text), expected, "{pattern} {text}");
        }
    }
}
