//! What spreadsheet programs do to values while they are typed or opened, and what may have stood there before.
//!
//! A program turns `7/16` into a day of July, `6-8` into a day of June or August, `6203E2` into 620300, `006` into 6,
//! and keeps 15 digits of a long number. The evidence there is: that a cell is a date is known in every kind of
//! workbook; that a number is shown in powers of ten (the format a program gives to a typed `6203E2`) is known in xlsx
//! and xlsm only, the reader tells no formats of plain numbers for xls, xlsb and ods; a text file holds what the
//! program showed (`16-Jul`, `6.2E+05`). The other evidence is the rest of the column. Where both agree on one
//! original it is read, with a note; else the value is not taken, and the likely originals are named.

use chrono::{Datelike, NaiveDate};

use crate::part::designation::Designation;
use crate::standard;

use super::cell::{Cell, number_text};
use super::field::Field;
use super::fold::fold;
use super::grid::Grid;
use super::issue::Problem;
use crate::language::in_backticks;

/// Cells of a column that are looked at; a long column is the same all through.
const CELLS_LOOKED_AT: usize = 200;
/// Least share of neighbours that must be of one form. Common practice, no source.
const LEAST_SHARE: f64 = 0.6;
/// From here on a number has more than the 15 digits that spreadsheet programs keep.
const FIRST_OF_16_DIGITS: f64 = 1e15;
/// Largest denominator of inch fractions on rules and drawings. Common practice, no source.
const MAX_DENOMINATOR: u32 = 64;
/// Expected in place of a number that lost its form.
const EXPECTED_TEXT: &str = "a cell formatted as text before the value is typed";

/// What the cells of a column are, as evidence on a damaged one among them.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Neighbours {
    /// Filled cells that are no dates.
    filled: usize,
    /// Whole designations.
    designations: usize,
    /// Dash numbers of SAE AS568.
    dash_numbers: usize,
    /// Inch fractions.
    fractions: usize,
    /// Spans such as `6-8`.
    spans: usize,
    /// True where the header says that the column holds dash numbers.
    is_dash_column: bool,
}

/// What became of a damaged value.
#[derive(Debug, Clone, PartialEq)]
pub enum Damage {
    /// The original is not certain: the value is not taken.
    Lost(Problem),
    /// The original is certain by format and neighbours.
    Read {
        /// What stood there.
        text: String,
        /// What is said about it.
        note: Option<Problem>,
    },
}

impl Neighbours {
    /// Looks through a column of a table, where damage to it is known.
    pub fn of(grid: &Grid, rows: (u32, u32), column: u32, field: Field, printed: &str) -> Self {
        let mut found = Self {
            is_dash_column: field == Field::Designation && is_dash_header(printed),
            ..Self::default()
        };
        let is_lead_time = matches!(field, Field::LeadTime | Field::ExpediteLeadTime);
        if !(field == Field::Designation || field.is_length() || is_lead_time) {
            return found;
        }
        for row in rows.0..rows.1 {
            match grid.cell(row, column) {
                Cell::Empty | Cell::Date(_) => continue,
                Cell::Text(text) if field == Field::Designation => {
                    found.designations += usize::from(Designation::parse(text).is_some());
                    found.dash_numbers += usize::from(dash_number_of(text).is_some());
                }
                Cell::Text(text) if is_lead_time => found.spans += usize::from(is_span(text)),
                Cell::Text(text) => found.fractions += usize::from(text.contains('/')),
                Cell::Number(value) if field == Field::Designation => {
                    let text = number_text(value);
                    found.designations += usize::from(standard::find(&text).is_some());
                }
                _ => {}
            }
            found.filled += 1;
            if found.filled == CELLS_LOOKED_AT {
                break;
            }
        }
        found
    }

    fn are_mostly(&self, count: usize) -> bool {
        count > 0 && count as f64 >= LEAST_SHARE * self.filled as f64
    }

    /// True where most others are inch fractions.
    pub fn are_fractions(&self) -> bool {
        self.are_mostly(self.fractions)
    }

    /// True where the header says that the column holds dash numbers.
    pub const fn is_dash_column(&self) -> bool {
        self.is_dash_column
    }

    /// True where most others are spans.
    pub fn are_spans(&self) -> bool {
        self.are_mostly(self.spans)
    }

    /// Damage to a number or a designation that names a part.
    pub fn damage_to_name(&self, cell: Cell<'_>, field: Field, is_power: bool) -> Option<Damage> {
        match cell {
            Cell::Date(moment) => {
                let likely = [
                    format!("{}-{}", moment.day(), moment.month()),
                    format!("{}-{}", moment.month(), moment.day()),
                ];
                Some(Damage::Lost(turned_into_date(
                    moment.date(),
                    &likely,
                    EXPECTED_TEXT,
                )))
            }
            Cell::Number(value) if field == Field::Designation => {
                self.damaged_designation(value, is_power)
            }
            Cell::Number(value) => digits_lost(value),
            Cell::Text(text) => self.damaged_text(text, field),
            _ => None,
        }
    }

    fn damaged_designation(&self, value: f64, is_power: bool) -> Option<Damage> {
        let number = value.abs();
        let is_whole = number.fract().abs() < 1e-9;
        if is_whole
            && (1.0..1000.0).contains(&number)
            && (self.is_dash_column || self.are_mostly(self.dash_numbers))
        {
            // SAE AS568 writes every dash number with three digits, so that 6 is 006 and nothing else.
            let read = format!("AS568-{number:03.0}");
            standard::find(&read)?;
            // Under its own header a number of three digits is what it says.
            let is_plain = self.is_dash_column && value >= 100.0;
            return Some(Damage::Read {
                note: (!is_plain).then(|| Problem::ReadFromNumber {
                    found: number_text(value),
                    read: read.clone(),
                    why: "the column holds dash numbers of three digits",
                }),
                text: read,
            });
        }
        if !is_whole || !(is_power || self.are_mostly(self.designations)) {
            return None;
        }
        let found = number_text(value);
        let likely = of_power(&found)?;
        Some(if is_power {
            Damage::Read {
                note: Some(Problem::ReadFromNumber {
                    found,
                    read: likely.clone(),
                    why: "the cell is formatted in powers of ten",
                }),
                text: likely,
            }
        } else {
            Damage::Lost(Problem::TurnedIntoNumber {
                found,
                likely: perhaps_power(&likely),
            })
        })
    }

    /// Numbers that a program wrote into a text file as it showed them.
    fn damaged_text(&self, text: &str, field: Field) -> Option<Damage> {
        let value = shown_in_powers(text)?;
        let likely = (field == Field::Designation)
            .then(|| of_power(&number_text(value)))
            .flatten();
        Some(Damage::Lost(Problem::TurnedIntoNumber {
            found: text.to_owned(),
            likely: likely.map_or_else(
                || "a long number of which the spreadsheet has dropped digits".to_owned(),
                |likely| perhaps_power(&likely),
            ),
        }))
    }
}

fn perhaps_power(likely: &str) -> String {
    format!("perhaps `{likely}` that the spreadsheet turned into a number")
}

/// The problem of a date where none belongs.
pub fn turned_into_date(date: NaiveDate, likely: &[String], expected: &'static str) -> Problem {
    let mut named: Vec<&String> = likely.iter().collect();
    named.dedup();
    let words = in_backticks(named);
    Problem::TurnedIntoDate {
        date,
        likely: words.join(" or "),
        expected,
    }
}

/// Inch fractions that a program turns into this date: `7/16` is a day of July, `3/64` the first of a month of 1964.
pub fn fractions_of(date: NaiveDate) -> Vec<String> {
    let (day, month) = (date.day(), date.month());
    let short_year = date.year().rem_euclid(100).unsigned_abs();
    let mut found = Vec::new();
    let mut add = |numerator: u32, denominator: u32| {
        let is_fraction = denominator.is_power_of_two()
            && (2..=MAX_DENOMINATOR).contains(&denominator)
            && numerator % 2 == 1
            && numerator < denominator;
        let text = format!("{numerator}/{denominator}");
        if is_fraction && !found.contains(&text) {
            found.push(text);
        }
    };
    add(month, day);
    add(day, month);
    if day == 1 {
        add(month, short_year);
    }
    found
}

/// True for headers of columns of dash numbers.
pub fn is_dash_header(printed: &str) -> bool {
    let folded = fold(printed);
    folded
        .split(' ')
        .any(|word| matches!(word, "dash" | "as568" | "as568a"))
}

/// `218`, `-218` and `AS568-218` as AS568-218, where the standard lists it.
fn dash_number_of(text: &str) -> Option<String> {
    let text = text.trim();
    let digits = text.trim_start_matches("AS568").trim_start_matches('-');
    if digits.len() != 3 || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let name = format!("AS568-{digits}");
    standard::find(&name).map(|_| name)
}

/// A dash number in a column that its header says holds them.
pub fn as_dash_number(text: &str) -> Option<String> {
    dash_number_of(text)
}

/// `6203E2` for `620300`: a standard designation with a power of ten behind, where the number itself is none.
fn of_power(found: &str) -> Option<String> {
    if standard::find(found).is_some() {
        return None;
    }
    let zeros = found.len() - found.trim_end_matches('0').len();
    (1..=zeros).find_map(|power| {
        let base = &found[..found.len() - power];
        // Shorter numbers are no designations of four and more figures but chance.
        (base.len() >= 4 && standard::find(base).is_some()).then(|| format!("{base}E{power}"))
    })
}

/// A long number of which a program has kept 15 digits.
fn digits_lost(value: f64) -> Option<Damage> {
    if value.abs() < FIRST_OF_16_DIGITS {
        return None;
    }
    // The shortest digits that give the number, which are those a program has kept.
    let text = format!("{}", value.abs());
    let is_cut = text.bytes().skip(15).all(|digit| digit == b'0');
    is_cut.then_some(Damage::Lost(Problem::DigitsLost { found: text }))
}

/// The value of `6.2E+05`, as programs show large numbers.
fn shown_in_powers(text: &str) -> Option<f64> {
    // Nearly no text holds the sign, and looking for one sign is far cheaper than for two.
    if !text.contains('+') {
        return None;
    }
    let (mantissa, power) = text.split_once("E+").or_else(|| text.split_once("e+"))?;
    let is_number = |part: &str| {
        !part.is_empty()
            && part
                .bytes()
                .all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b','))
    };
    if !is_number(mantissa) || power.len() < 2 || !power.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    let mantissa: f64 = mantissa.replace(',', ".").parse().ok()?;
    let value = mantissa * 10_f64.powi(power.parse().ok()?);
    value.is_finite().then_some(value)
}

/// `6-8`, `6 - 8`, `6–8 wks`.
fn is_span(text: &str) -> bool {
    let digits_behind = |part: &str| part.trim_start().starts_with(|c: char| c.is_ascii_digit());
    text.split_once(['-', '–']).is_some_and(|(low, high)| {
        low.trim_end().ends_with(|c: char| c.is_ascii_digit())
            && digits_behind(high)
            && !high.contains(['-', '–'])
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(year: i32, month: u32, day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(year, month, day).unwrap()
    }

    fn cell(year: i32, month: u32, date: u32) -> Cell<'static> {
        Cell::Date(day(year, month, date).and_hms_opt(0, 0, 0).unwrap())
    }

    fn designations() -> Neighbours {
        Neighbours {
            filled: 5,
            designations: 4,
            ..Neighbours::default()
        }
    }

    #[test]
    fn a_day_of_july_may_have_been_seven_sixteenths() {
        // What spreadsheet programs make of typed fractions, tried by hand; common knowledge, no source.
        for (date, expected) in [
            (day(2026, 7, 16), vec!["7/16"]),
            (day(2026, 3, 8), vec!["3/8"]),
            (day(2026, 8, 3), vec!["3/8"]),
            (day(2026, 1, 4), vec!["1/4"]),
            (day(1964, 3, 1), vec!["3/64"]),
            (day(2032, 5, 1), vec!["5/32"]),
            (day(2026, 7, 20), vec![]),
            (day(2026, 2, 2), vec![]),
        ] {
            assert_eq!(fractions_of(date), expected, "{date}");
        }
    }

    #[test]
    fn a_power_of_ten_is_read_by_its_format_and_else_only_named() {
        // ISO 15: 6203 is a bearing, 620300 is none.
        let number = Cell::Number(620_300.0);
        let Some(Damage::Read { text, .. }) =
            designations().damage_to_name(number, Field::Designation, true)
        else {
            panic!()
        };
        assert_eq!(text, "6203E2");
        let Some(Damage::Lost(problem)) =
            designations().damage_to_name(number, Field::Designation, false)
        else {
            panic!()
        };
        assert!(
            problem.to_string().contains("perhaps `6203E2`"),
            "{problem}"
        );
        // Without designations around it, a number is a number; 61800 and 6200 are bearings themselves.
        let alone = Neighbours::default();
        assert_eq!(
            alone.damage_to_name(number, Field::Designation, false),
            None
        );
        for whole in [61_800.0, 6_200.0, 6_305.0] {
            let cell = Cell::Number(whole);
            assert_eq!(
                designations().damage_to_name(cell, Field::Designation, true),
                None,
                "{whole}"
            );
        }
        assert_eq!(
            designations().damage_to_name(number, Field::OwnNumber, true),
            None
        );
    }

    #[test]
    fn dash_numbers_get_their_zeros_back_only_in_their_column() {
        let dashes = Neighbours {
            filled: 3,
            dash_numbers: 3,
            ..Neighbours::default()
        };
        for (value, expected) in [
            (6.0, "AS568-006"),
            (-218.0, "AS568-218"),
            (12.0, "AS568-012"),
        ] {
            let Some(Damage::Read { text, .. }) =
                dashes.damage_to_name(Cell::Number(value), Field::Designation, false)
            else {
                panic!("{value}")
            };
            assert_eq!(text, expected);
        }
        // SAE AS568 has no dash number 100.
        assert_eq!(
            dashes.damage_to_name(Cell::Number(100.0), Field::Designation, false),
            None
        );
        assert_eq!(
            designations().damage_to_name(Cell::Number(6.0), Field::Designation, false),
            None
        );
    }

    #[test]
    fn long_numbers_that_lost_digits_name_nothing() {
        // Spreadsheet programs keep 15 significant digits (IEEE 754 binary64 shown in decimal).
        let none = Neighbours::default();
        let of = |value| none.damage_to_name(Cell::Number(value), Field::OwnNumber, false);
        assert!(matches!(
            of(4_006_381_333_931_230_000.0),
            Some(Damage::Lost(Problem::DigitsLost { .. }))
        ));
        assert_eq!(of(123_456_789_012_345.0), None);
        assert_eq!(of(1_234_567_890_123_456.0), None, "16 digits and all there");
        let text = Cell::Text("4.00638E+18");
        assert!(matches!(
            none.damage_to_name(text, Field::OwnNumber, false),
            Some(Damage::Lost(Problem::TurnedIntoNumber { .. }))
        ));
        for text in ["12E4", "E+12", "AE+12", "1E+x"] {
            let cell = Cell::Text(text);
            assert_eq!(
                none.damage_to_name(cell, Field::OwnNumber, false),
                None,
                "{text}"
            );
        }
    }

    #[test]
    fn a_part_number_that_is_a_date_names_what_may_have_been_typed() {
        let Some(Damage::Lost(problem)) =
            Neighbours::default().damage_to_name(cell(2026, 3, 12), Field::PartNumber, false)
        else {
            panic!()
        };
        let words = problem.to_string();
        assert!(words.contains("`12-3` or `3-12`"), "{words}");
    }

    #[test]
    fn spans_are_told_from_dates_and_words() {
        for (text, expected) in [
            ("6-8", true),
            ("6 – 8 wks", true),
            ("ex stock", false),
            ("2026-03-01", false),
            ("5 days", false),
        ] {
            assert_eq!(is_span(text), expected, "{text}");
        }
    }
}
