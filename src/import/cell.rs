//! One cell as its file holds it.

use chrono::NaiveDateTime;

/// One cell as its file holds it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cell<'g> {
    /// Nothing, or blanks only.
    Empty,
    /// Text, without blanks at its ends.
    Text(&'g str),
    /// A number.
    Number(f64),
    /// A date or a moment.
    Date(NaiveDateTime),
    /// True or false.
    Bool(bool),
    /// An error value of a formula, such as `#N/A`.
    Error(&'g str),
    /// A formula whose result the file does not hold.
    NoResult,
}

impl Cell<'_> {
    /// The cell as a person would read it; dates as year, month, day.
    pub fn to_text(self) -> String {
        match self {
            Self::Empty => String::new(),
            Self::Text(text) | Self::Error(text) => text.to_owned(),
            Self::Number(value) => number_text(value),
            Self::Date(moment) if moment.time() == chrono::NaiveTime::MIN => {
                moment.date().to_string()
            }
            Self::Date(moment) => moment.format("%Y-%m-%d %H:%M").to_string(),
            Self::Bool(true) => "yes".to_owned(),
            Self::Bool(false) => "no".to_owned(),
            Self::NoResult => "=?".to_owned(),
        }
    }
}

/// Error values of formulas as spreadsheet programs write them into text files, English and German.
const ERROR_WORDS: [&str; 13] = [
    "#N/A",
    "#NV",
    "#REF!",
    "#BEZUG!",
    "#VALUE!",
    "#WERT!",
    "#DIV/0!",
    "#NAME?",
    "#NUM!",
    "#ZAHL!",
    "#NULL!",
    "#GETTING_DATA",
    "#SPILL!",
];

/// True for a text that is the error value of a formula.
pub(super) fn is_error_word(text: &str) -> bool {
    // Nearly no text begins so.
    let is_worth_it = text
        .as_bytes()
        .first()
        .is_some_and(|first| *first <= b'#' || *first >= 0x80);
    is_worth_it && text.trim_start().starts_with('#') && ERROR_WORDS.contains(&text.trim())
}

/// A number without a trailing `.0` and without an exponent up to 10^15.
///
/// Spreadsheets keep 15 digits; more are an artefact of arithmetic (0.1 + 0.2).
pub fn number_text(value: f64) -> String {
    if value.abs() < 1e15 {
        let whole_digits = (value.abs().max(1.0).log10().floor() as usize) + 1;
        let text = format!("{value:.*}", 15usize.saturating_sub(whole_digits));
        if text.contains('.') {
            text.trim_end_matches('0').trim_end_matches('.').to_owned()
        } else {
            text
        }
    } else {
        format!("{value}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_print_with_the_digits_a_spreadsheet_keeps() {
        for (value, text) in [
            (0.1 + 0.2, "0.3"),
            (25.0, "25"),
            (22.23, "22.23"),
            (1e6, "1000000"),
            (0.0, "0"),
            (-3.5, "-3.5"),
            (123_456_789_012.0, "123456789012"),
        ] {
            assert_eq!(number_text(value), text);
        }
    }
}
