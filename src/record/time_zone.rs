//! The shop's time zone: how many hours really pass between two readings of its clock.

use std::str::FromStr;

use chrono::{Duration, NaiveDateTime, Offset, TimeZone as _};
use chrono_tz::Tz;
use serde::Deserialize;

/// Longest step of a clock that is looked back over to find the time before it: no zone ever stepped further.
const LONGEST_STEP_H: i64 = 25;

/// A zone of the IANA time zone database, such as `Europe/Berlin`.
///
/// Moments of a plan are readings of the shop's clock. A reading that the clock skips in spring counts as the same
/// distance past the step; one it shows twice in autumn counts as the first of the two.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TimeZone(Tz);

/// Why a text names no time zone.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "`{0}` is not a time zone; expected a name of the IANA database such as `Europe/Berlin` or `America/Chicago`"
)]
pub struct NoSuchTimeZone(String);

impl FromStr for TimeZone {
    type Err = NoSuchTimeZone;

    fn from_str(name: &str) -> Result<Self, Self::Err> {
        let zone = name.trim().parse();
        zone.map(Self).map_err(|_| NoSuchTimeZone(name.to_owned()))
    }
}

impl<'de> Deserialize<'de> for TimeZone {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let name = String::deserialize(deserializer)?;
        name.parse().map_err(serde::de::Error::custom)
    }
}

impl TimeZone {
    /// Seconds that pass between two readings of the clock; negative where `until` is the earlier one.
    pub fn seconds_between(self, from: NaiveDateTime, until: NaiveDateTime) -> i64 {
        (self.universal(until) - self.universal(from)).num_seconds()
    }

    /// Reading of the clock so many seconds after `from`.
    pub fn after(self, from: NaiveDateTime, seconds: i64) -> NaiveDateTime {
        let moment = self.universal(from) + Duration::seconds(seconds);
        self.0.from_utc_datetime(&moment).naive_local()
    }

    fn universal(self, reading: NaiveDateTime) -> NaiveDateTime {
        let offset_at = |reading: NaiveDateTime| {
            let offset = self.0.offset_from_local_datetime(&reading).earliest()?;
            Some(i64::from(offset.fix().local_minus_utc()))
        };
        let offset = offset_at(reading)
            .or_else(|| offset_at(reading - Duration::hours(LONGEST_STEP_H)))
            .unwrap_or(0);
        reading - Duration::seconds(offset)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::read_moment;

    fn at(text: &str) -> NaiveDateTime {
        read_moment(text).unwrap()
    }

    #[test]
    fn a_spring_night_is_an_hour_shorter_and_an_autumn_night_an_hour_longer() {
        // Directive 2000/84/EC: summer time begins on the last Sunday of March and ends on the last Sunday of October,
        // each at 01:00 universal time; in 2026 on 29 March and 25 October.
        let berlin: TimeZone = "Europe/Berlin".parse().unwrap();
        let hours = |from, until| berlin.seconds_between(at(from), at(until)) / 3600;
        assert_eq!(hours("2026-03-28T22:00", "2026-03-29T06:00"), 7);
        assert_eq!(hours("2026-10-24T22:00", "2026-10-25T06:00"), 9);
        assert_eq!(hours("2026-06-06T22:00", "2026-06-07T06:00"), 8);
        assert_eq!(
            berlin.after(at("2026-03-29T01:30"), 3600),
            at("2026-03-29T03:30")
        );
    }

    #[test]
    fn a_reading_the_clock_skips_lies_past_the_step() {
        let berlin: TimeZone = "Europe/Berlin".parse().unwrap();
        assert_eq!(
            berlin.seconds_between(at("2026-03-29T02:30"), at("2026-03-29T03:30")),
            0
        );
    }

    #[test]
    fn a_misspelt_zone_is_refused_with_an_example() {
        let error = "Europe/Berln".parse::<TimeZone>().unwrap_err();
        assert!(error.to_string().contains("such as `Europe/Berlin`"));
    }
}
