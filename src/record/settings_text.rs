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
    read_moment(&text).map(Some).ok_or_else(|| {
        serde::de::Error::custom(format!(
            "`{text}` is not a moment; expected \"2026-03-09T07:30\" or \"2026-03-09\""
        ))
    })
}

/// Reads `2026-03-09T07:30`, `2026-03-09 07:30` or `2026-03-09` (midnight).
pub fn read_moment(text: &str) -> Option<NaiveDateTime> {
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
