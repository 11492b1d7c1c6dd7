//! Working days, hours and holidays as the settings write them.

use chrono::{NaiveDate, NaiveTime};
use serde::Deserialize;

use super::settings_text::{dates, end_of_shift, hour, time_of_day};

/// Day of the week, as written in the settings (`mon` to `sun`).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
#[expect(missing_docs, reason = "the names say it")]
pub enum Weekday {
    Mon,
    Tue,
    Wed,
    Thu,
    Fri,
    Sat,
    Sun,
}

/// Opening hours on some days of the week.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shift {
    /// Days it holds for.
    pub days: Vec<Weekday>,
    /// Start, `07:00`.
    #[serde(deserialize_with = "time_of_day")]
    pub from: NaiveTime,
    /// End, `15:30`; `24:00` and `00:00` mean the end of the day.
    #[serde(deserialize_with = "end_of_shift")]
    pub until: NaiveTime,
}

/// Working days, hours and holidays of one calendar.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CalendarSettings {
    /// Shifts; the days named in them are the working days.
    pub shifts: Vec<Shift>,
    /// Days off; `2026-08-03 to 2026-08-21` names every day from the first to the last.
    #[serde(default, deserialize_with = "dates")]
    pub holidays: Vec<NaiveDate>,
}

impl CalendarSettings {
    /// Monday to Friday, 07:00 to 15:00, no holidays: what holds where the settings say nothing.
    pub fn day_shift() -> Self {
        use Weekday::{Fri, Mon, Thu, Tue, Wed};
        let days = vec![Mon, Tue, Wed, Thu, Fri];
        Self {
            shifts: vec![Shift {
                days,
                from: hour(7),
                until: hour(15),
            }],
            holidays: Vec::new(),
        }
    }
}
