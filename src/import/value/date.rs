//! Dates as people write them; which of the numbers is the month, and which the year, is for the column or the settings to say.

use std::collections::HashMap;
use std::sync::OnceLock;

use chrono::{Duration, Months, NaiveDate};

use crate::import::fold::fold;
use crate::import::shipped::lines;
use crate::record::DateOrder;

/// Why a text is not a date.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum DateError {
    /// No date.
    #[error("`{found}` is not a date; expected one such as `2026-03-09` or `9 March 2026`")]
    NotADate {
        /// As found.
        found: String,
    },
    /// The column holds dates of both orders, so that a doubtful one cannot be told.
    #[error(
        "`{found}` is either {one} or {other}, and the column holds dates of both orders; expected `2026-03-09`"
    )]
    Ambiguous {
        /// As found.
        found: String,
        /// Day first.
        one: NaiveDate,
        /// Month first.
        other: NaiveDate,
    },
}

/// First and last year taken for real; beyond them a number is a slip.
const YEARS: std::ops::RangeInclusive<i32> = 1950..=2100;

/// Reads a date; `order` comes from [`DateEvidence::order`](super::DateEvidence::order). A time of day behind the date is left out.
///
/// With dots the day comes first, as every language that writes dots does.
///
/// # Errors
/// [`DateError::Ambiguous`] for `03/04/2026` where `order` is `None`.
///
/// # Example
/// ```
/// use sparewright::import::value::read_date;
/// use sparewright::record::DateOrder;
/// let date = read_date("03/04/2026", Some(DateOrder::Mdy))?;
/// assert_eq!(date.to_string(), "2026-03-04");
/// # Ok::<(), sparewright::import::value::DateError>(())
/// ```
pub fn read_date(text: &str, order: Option<DateOrder>) -> Result<NaiveDate, DateError> {
    let text = text.trim();
    let not_a_date = || DateError::NotADate {
        found: text.to_owned(),
    };
    if let Some((a, b, c, sign)) = three_numbers(text) {
        if a > 31 {
            // `32.1.20` is no day of 2032: with dots the day comes first.
            let is_year = sign != '.' || a > 99;
            return is_year
                .then(|| date(a, b, c))
                .flatten()
                .ok_or_else(not_a_date);
        }
        let (dmy, mdy) = (date(c, b, a), date(c, a, b));
        if sign == '.' {
            return dmy.ok_or_else(not_a_date);
        }
        // Only a year of two figures may stand in front of what could be a day.
        let ymd = date(a, b, c);
        let (asked, other) = match order {
            Some(DateOrder::Dmy) => (dmy, mdy),
            Some(DateOrder::Mdy) => (mdy, dmy),
            Some(DateOrder::Ymd) => (ymd, None),
            None => (None, None),
        };
        if let Some(found) = asked.or(other) {
            return Ok(found);
        }
        let mut readings = [dmy, mdy, ymd].into_iter().flatten();
        let one = readings.next().ok_or_else(not_a_date)?;
        return match readings.find(|other| *other != one) {
            None => Ok(one),
            Some(other) => Err(DateError::Ambiguous {
                found: text.to_owned(),
                one,
                other,
            }),
        };
    }
    compact(text)
        .or_else(|| with_month_name(text))
        .or_else(|| text.parse::<f64>().ok().and_then(serial))
        .ok_or_else(not_a_date)
}

/// Reads a date that may be a month or a quarter alone, as cure dates are marked: `03/2018`, `2018-03`, `1Q18`.
///
/// Gives the first day, so that goods count as older rather than younger. Quarters as SAE AS5316 marks them, from memory.
///
/// # Errors
/// As [`read_date`].
pub fn read_month_or_date(text: &str, order: Option<DateOrder>) -> Result<NaiveDate, DateError> {
    let bare = text.trim();
    if let Some(found) = first_of_quarter(bare) {
        return Ok(found);
    }
    match first_of_month(bare) {
        Some(found) => Ok(found),
        None => read_date(text, order),
    }
}

/// Reads the last day of a lot: a month (`01/2026`) or a quarter alone means its last day. Common practice, no source.
///
/// # Errors
/// As [`read_date`].
pub fn read_last_day(text: &str, order: Option<DateOrder>) -> Result<NaiveDate, DateError> {
    let bare = text.trim();
    if let Some(found) = last_of_quarter(bare) {
        return Ok(found);
    }
    let of_month = first_of_month(bare).and_then(|first| {
        let next = first.checked_add_months(Months::new(1))?;
        next.pred_opt()
    });
    match of_month {
        Some(found) => Ok(found),
        None => read_date(text, order),
    }
}

/// The first day of a month written in figures with a year of four: `01/2026`, `2026-01`.
fn first_of_month(bare: &str) -> Option<NaiveDate> {
    let (one, other) = bare.split_once(['/', '-', '.'])?;
    let (first, second) = (one.parse::<u32>().ok()?, other.parse::<u32>().ok()?);
    let month_first = (other.len() == 4).then(|| date(second, first, 1));
    let year_first = (one.len() == 4).then(|| date(first, second, 1));
    month_first.or(year_first).flatten()
}

/// The first day of a quarter: `1Q18`, `Q2 2026`, `2026-Q2`, `2. Quartal 2026`; `None` for any other text.
pub fn first_of_quarter(text: &str) -> Option<NaiveDate> {
    let may_be_one = text.len() <= 20 && text.contains(['q', 'Q']);
    let folded = may_be_one.then(|| fold(text))?;
    let words: Vec<&str> = folded.split(' ').collect();
    let bare = |word: &'_ str| {
        let rest = word.strip_prefix('q').or_else(|| word.strip_suffix('q'));
        rest.map(str::to_owned)
    };
    let (quarter, year) = match words.as_slice() {
        [one] => match one.split_once('q')? {
            (year, quarter) if year.len() == 4 => (quarter.to_owned(), year),
            (quarter, year) => (quarter.to_owned(), year),
        },
        [one, other] => match bare(one) {
            Some(quarter) => (quarter, *other),
            None => (bare(other)?, *one),
        },
        [quarter, "q" | "quartal" | "quarter", year]
        | ["q" | "quartal" | "quarter", quarter, year] => ((*quarter).to_owned(), *year),
        _ => return None,
    };
    let is_whole = quarter.len() == 1 && matches!(year.len(), 2 | 4);
    let quarter = quarter.parse::<u32>().ok().filter(|_| is_whole)?;
    let month = (1..=4).contains(&quarter).then_some(quarter * 3 - 2)?;
    date(year.parse().ok()?, month, 1)
}

/// The last day of a quarter, as [`first_of_quarter`] reads it.
pub fn last_of_quarter(text: &str) -> Option<NaiveDate> {
    first_of_quarter(text)?
        .checked_add_months(Months::new(3))?
        .pred_opt()
}

/// A spreadsheet's day number (1900 system), for columns of dates that lost their format.
///
/// Day 60 is the 29 February 1900 that never was; only days of [`YEARS`] are taken, all beyond it.
pub fn serial(value: f64) -> Option<NaiveDate> {
    if !(18_264.0..73_416.0).contains(&value) {
        return None;
    }
    NaiveDate::from_ymd_opt(1899, 12, 30)?.checked_add_signed(Duration::days(value.floor() as i64))
}

/// Three numbers joined by one sign, perhaps with a time behind: `2026-03-09T07:30`, `9.3.26`.
pub(super) fn three_numbers(text: &str) -> Option<(u32, u32, u32, char)> {
    let text = text.trim();
    let end = text.find([' ', 'T', '\u{a0}']).unwrap_or(text.len());
    let (mut day, mut tail) = (
        text[..end].trim_end_matches(','),
        text[end..].trim_start_matches(['T', ' ', '\u{a0}']),
    );
    // `9. 3. 2026`
    let joined;
    if !tail.is_empty() && day.ends_with('.') {
        joined = text.split_whitespace().collect::<String>();
        (day, tail) = (&joined, "");
    }
    let is_time = tail.bytes().all(|b| {
        b.is_ascii_digit() || matches!(b, b':' | b'.' | b'Z' | b'A' | b'P' | b'M' | b' ' | b'+')
    }) && (tail.is_empty() || tail.contains(':'));
    if !is_time {
        return None;
    }
    let sign = day.chars().find(|c| matches!(c, '.' | '/' | '-'))?;
    let mut parts = day.trim_end_matches('.').split(sign);
    let mut next = || {
        parts
            .next()
            .filter(|part| {
                (1..=4).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_digit())
            })
            .and_then(|part| part.parse::<u32>().ok())
    };
    let found = (next()?, next()?, next()?, sign);
    parts.next().is_none().then_some(found)
}

pub(super) fn date(year: u32, month: u32, day: u32) -> Option<NaiveDate> {
    let year = match year {
        // Two digits: a shop's dates lie near today; 80 and above are of the last century.
        0..=79 => 2000 + year as i32,
        80..=99 => 1900 + year as i32,
        _ => year as i32,
    };
    YEARS
        .contains(&year)
        .then(|| NaiveDate::from_ymd_opt(year, month, day))
        .flatten()
}

/// `20260309`
fn compact(text: &str) -> Option<NaiveDate> {
    if text.len() != 8 || !text.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    date(
        text[..4].parse().ok()?,
        text[4..6].parse().ok()?,
        text[6..].parse().ok()?,
    )
}

/// `9 March 2026`, `9. März 2026`, `Mar 9, 2026`, `9-mar-26`, `marzec 2026` is none: the day is missing.
fn with_month_name(text: &str) -> Option<NaiveDate> {
    if text.len() > 40 || !text.contains(char::is_alphabetic) {
        return None;
    }
    let folded = fold(text);
    let (mut month, mut numbers) = (None, Vec::with_capacity(2));
    for word in folded.split(' ') {
        let digits = word
            .trim_end_matches("st")
            .trim_end_matches("nd")
            .trim_end_matches("rd")
            .trim_end_matches("th")
            .trim_end_matches("er");
        if let Ok(number) = digits.parse::<u32>() {
            numbers.push(number);
        } else if let Some(found) = month_of(word) {
            if month.replace(found).is_some() {
                return None;
            }
        } else if !matches!(word, "de" | "del" | "the" | "of" | "r") {
            return None;
        }
    }
    match (numbers.as_slice(), month) {
        ([day, year], Some(month)) if *day <= 31 => date(*year, month, *day),
        ([year, day], Some(month)) => date(*year, month, *day),
        _ => None,
    }
}

/// Names of the months, by `data/import/month_names.csv`.
const MONTH_NAMES_CSV: &str = include_str!("../../../data/import/month_names.csv");

/// The month that a folded word begins: full names and the usual three and four letters.
fn month_of(word: &str) -> Option<u32> {
    static MONTHS: OnceLock<HashMap<&'static str, u32>> = OnceLock::new();
    let months = MONTHS.get_or_init(|| {
        let mut months = HashMap::new();
        for (month, language, names) in lines(MONTH_NAMES_CSV) {
            let Ok(month) = month.parse() else { continue };
            for name in names.split('|') {
                months.insert(name, month);
                // Three letters of the English, German and French names are unmistakable except `mar`, `jui`.
                let short = name.get(..3).filter(|short| *short != "jui");
                if let Some(short) = short.filter(|_| matches!(language, "en" | "de" | "fr")) {
                    months.insert(short, month);
                }
            }
        }
        months
    });
    months.get(word).copied()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::value::DateEvidence;

    fn iso(text: &str, order: DateOrder) -> String {
        read_date(text, Some(order)).map_or_else(|e| e.to_string(), |date| date.to_string())
    }

    #[test]
    fn reads_dates_that_mean_one_day() {
        for text in [
            "2026-03-09",
            "2026/03/09",
            "2026-03-09T07:30",
            "2026-03-09 07:30:00",
            "20260309",
            "9.3.2026",
            "09.03.26",
            "9. 3. 2026",
            "9 March 2026",
            "March 9, 2026",
            "9. März 2026",
            "9 mars 2026",
            "9 de marzo de 2026",
            "9 marzo 2026",
            "9 marca 2026",
            "9-Mar-26",
            "9th of March 2026",
        ] {
            assert_eq!(iso(text, DateOrder::Mdy), "2026-03-09", "{text}");
        }
    }

    #[test]
    fn strokes_are_read_in_the_given_order_unless_only_one_is_a_date() {
        assert_eq!(iso("03/04/2026", DateOrder::Dmy), "2026-04-03");
        assert_eq!(iso("03/04/2026", DateOrder::Mdy), "2026-03-04");
        assert_eq!(iso("13/04/2026", DateOrder::Mdy), "2026-04-13");
        assert_eq!(iso("04/13/2026", DateOrder::Dmy), "2026-04-13");
        assert!(matches!(
            read_date("03/04/2026", None),
            Err(DateError::Ambiguous { .. })
        ));
        assert!(read_date("13/04/2026", None).is_ok());
    }

    #[test]
    fn day_numbers_are_those_of_the_1900_system() {
        // ECMA-376 part 1, 18.17.4.1: serial 45,000 is 2023-03-15 (checked with LibreOffice).
        assert_eq!(iso("45000", DateOrder::Dmy), "2023-03-15");
        assert!(serial(12.0).is_none());
    }

    #[test]
    fn refuses_what_is_no_date() {
        for text in [
            "",
            "31.02.2026",
            "2026",
            "March 2026",
            "12",
            "1.2",
            "2026-13-01",
            "9 foo 2026",
            "99/99/99",
            "1-2-3-4",
            "é-1-2",
        ] {
            assert!(read_date(text, Some(DateOrder::Dmy)).is_err(), "{text}");
        }
    }

    #[test]
    fn the_column_decides_before_the_settings() {
        let evidence = |texts: &[&str]| {
            let mut evidence = DateEvidence::default();
            texts.iter().for_each(|text| evidence.add(text));
            evidence
        };
        assert_eq!(
            evidence(&["03/04/2026", "03/25/2026"]).order(DateOrder::Dmy),
            Some(DateOrder::Mdy)
        );
        assert_eq!(
            evidence(&["03/04/2026", "25/03/2026"]).order(DateOrder::Mdy),
            Some(DateOrder::Dmy)
        );
        assert_eq!(
            evidence(&["25/03/2026", "03/25/2026"]).order(DateOrder::Mdy),
            None
        );
        let doubtful = evidence(&["03/04/2026"]);
        assert!(doubtful.is_by_settings());
        assert_eq!(doubtful.order(DateOrder::Mdy), Some(DateOrder::Mdy));
    }

    #[test]
    fn cure_dates_may_be_months_or_quarters_and_count_from_their_first_day() {
        let read = |text: &str| read_month_or_date(text, None).map(|date| date.to_string());
        for (text, expected) in [
            ("03/2018", "2018-03-01"),
            ("2018-03", "2018-03-01"),
            ("11.2023", "2023-11-01"),
            ("1Q18", "2018-01-01"),
            ("4Q2019", "2019-10-01"),
            ("2024-05-17", "2024-05-17"),
        ] {
            assert_eq!(read(text).as_deref(), Ok(expected), "{text}");
        }
        for text in ["13/2018", "5Q18", "03/18", "spring"] {
            assert!(read(text).is_err(), "{text}");
        }
    }
}
