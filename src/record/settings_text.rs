//! Times, dates and moments as the settings write them.

use chrono::{NaiveDate, NaiveDateTime, NaiveTime};
use serde::Deserialize;

/// Longest range of days off.
const LONGEST_CLOSURE_DAYS: i64 = 366;

pub(super) fn hour(hour: u32) -> NaiveTime {
    NaiveTime::from_hms_opt(hour, 0, 0).unwrap_or_default()
}

pub(super) fn time_of_day<'de, D: serde::Deserializer<'de>>(
    deserializer: D,
) -> Result<NaiveTime, D::Error> {
    let text = String::deserialize(deserializer)?;
    read_time(&text)
}

/// As [`time_of_day`], and `24:00` for the midnight at which a day ends.
pub(super) fn end_of_shift<'de, D: serde::Deserializer<'de>>(
    deserializer: D,
) -> Result<NaiveTime, D::Error> {
    let text = String::deserialize(deserializer)?;
    match text.as_str() {
        "24:00" => Ok(NaiveTime::MIN),
        _ => read_time(&text),
    }
}

fn read_time<E: serde::de::Error>(text: &str) -> Result<NaiveTime, E> {
    NaiveTime::parse_from_str(text, "%H:%M").map_err(|_| {
        E::custom(format!(
            "`{text}` is not a time of day; expected hours and minutes such as \"07:30\""
        ))
    })
}

pub(super) fn read_date<E: serde::de::Error>(text: &str) -> Result<NaiveDate, E> {
    NaiveDate::parse_from_str(text, "%Y-%m-%d").map_err(|_| {
        E::custom(format!(
            "`{text}` is not a date; expected year, month, day such as \"2026-03-09\""
        ))
    })
}

pub(super) fn dates<'de, D: serde::Deserializer<'de>>(
    deserializer: D,
) -> Result<Vec<NaiveDate>, D::Error> {
    let mut days = Vec::new();
    for text in Vec::<String>::deserialize(deserializer)? {
        let Some((first, last)) = text.split_once(" to ") else {
            days.push(read_date(&text)?);
            continue;
        };
        let (first, last) = (read_date(first.trim())?, read_date(last.trim())?);
        let length = (last - first).num_days();
        if !(0..=LONGEST_CLOSURE_DAYS).contains(&length) {
            return Err(serde::de::Error::custom(format!(
                "`{text}` is not a range of days; expected the first and the last day, a year apart at most"
            )));
        }
        days.extend(first.iter_days().take(length as usize + 1));
    }
    Ok(days)
}

pub(super) fn optional_date<'de, D: serde::Deserializer<'de>>(
    deserializer: D,
) -> Result<Option<NaiveDate>, D::Error> {
    Option::<String>::deserialize(deserializer)?
        .map(|text| read_date(&text))
        .transpose()
}

pub(super) fn optional_moment<'de, D: serde::Deserializer<'de>>(
    deserializer: D,
) -> Result<Option<NaiveDateTime>, D::Error> {
    let Some(text) = Option::<String>::deserialize(deserializer)? else {
        return Ok(None);
    };
    read_iso(&text).map(Some).ok_or_else(|| {
        serde::de::Error::custom(format!(
            "`{text}` is not a moment; expected \"2026-03-09T07:30\" or \"2026-03-09\""
        ))
    })
}

/// Reads `2026-03-09T07:30`, `2026-03-09 07:30` or `2026-03-09` (midnight), and with points as German reports write it,
/// `09.03.2026 07:30`: points stand between day, month and year in this order (DIN 5008); strokes leave the order open.
pub fn read_moment(text: &str) -> Option<NaiveDateTime> {
    let text = text.trim().replace(' ', "T");
    read_iso(&with_points(&text).unwrap_or(text))
}

/// As a settings file has it, year first.
fn read_iso(text: &str) -> Option<NaiveDateTime> {
    let text = text.trim().replace(' ', "T");
    NaiveDateTime::parse_from_str(&text, "%Y-%m-%dT%H:%M")
        .or_else(|_| NaiveDateTime::parse_from_str(&text, "%Y-%m-%dT%H:%M:%S"))
        .ok()
        .or_else(|| {
            text.parse::<NaiveDate>()
                .ok()
                .map(|date| date.and_time(NaiveTime::MIN))
        })
}

/// `10.4.2026T14:00` with its year first; `None` where it is no date with points and four figures of the year.
fn with_points(text: &str) -> Option<String> {
    let (date, time) = text.split_at(text.find('T').unwrap_or(text.len()));
    let pieces: Vec<&str> = date.split('.').collect();
    let [day, month, year] = pieces[..] else {
        return None;
    };
    let is_plain = |piece: &str, digits: std::ops::RangeInclusive<usize>| {
        digits.contains(&piece.len()) && piece.bytes().all(|b| b.is_ascii_digit())
    };
    let is_date = is_plain(day, 1..=2) && is_plain(month, 1..=2) && is_plain(year, 4..=4);
    is_date.then(|| format!("{year}-{month:0>2}-{day:0>2}{time}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moment_is_read_as_reports_write_it() {
        // ISO 8601, and DIN 5008 with points: day, month, year.
        let april = read_moment("2026-04-10");
        assert!(april.is_some());
        for same in ["10.04.2026", "10.4.2026", " 10.04.2026 "] {
            assert_eq!(read_moment(same), april, "{same}");
        }
        let afternoon = read_moment("2026-04-10T14:30");
        for same in ["10.04.2026 14:30", "10.04.2026T14:30", "2026-04-10 14:30"] {
            assert_eq!(read_moment(same), afternoon, "{same}");
        }
        for none in [
            "04/10/2026",
            "10.04.26",
            "2026.04.10",
            "32.01.2026",
            "10.13.2026",
            "10.04",
            "10.04.2026 25:00",
            "",
        ] {
            assert_eq!(read_moment(none), None, "{none}");
        }
    }
}
