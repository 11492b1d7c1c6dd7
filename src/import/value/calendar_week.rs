//! Deliveries told by the week of the year: `KW 14`, `week 14/2026`, `2026-W14`.

use chrono::{Datelike, Days, NaiveDate, Weekday};

use crate::import::fold::fold;

/// Farthest day ahead that a week without a year is taken for; one farther ahead may as well be just past. Common
/// practice, no source.
const MOST_DAYS_AHEAD: i64 = 280;

/// A week of ISO 8601.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CalendarWeek {
    week: u32,
    year: Option<i32>,
}

impl CalendarWeek {
    /// Reads a week; `None` for any other text. `14 weeks` is a span and no week, and a year has four figures, since
    /// `14/15` may be two weeks.
    pub fn read(text: &str) -> Option<Self> {
        if text.len() > 40 || !text.contains(|c: char| c.is_ascii_digit()) {
            return None;
        }
        // `14. KW`: the point makes it the week of that number.
        let in_front = text.split_once('.').filter(|(figures, behind)| {
            let word = fold(behind);
            week_of(figures.trim()).is_some() && word.split(' ').next() == Some("kw")
        });
        let turned = in_front.map(|(figures, behind)| {
            let folded = fold(behind);
            let year = folded.split_once(' ').map_or("", |(_, year)| year);
            format!("kw {} {year}", figures.trim())
                .trim_end()
                .to_owned()
        });
        let folded = turned.unwrap_or_else(|| fold(text));
        let mut words = folded.split(' ');
        let mut first = words.next()?;
        if let Some(year) = year_of(first) {
            // `2026-W14`
            let week = words.next()?.strip_prefix('w').and_then(week_of)?;
            let year = Some(year);
            return words.next().is_none().then_some(Self { week, year });
        }
        if first == "calendar" {
            first = words.next()?;
        }
        let letters = first.trim_end_matches(|c: char| c.is_ascii_digit());
        let is_week = matches!(
            letters,
            "kw" | "week" | "wk" | "cw" | "semaine" | "semana" | "settimana" | "tydzien"
        );
        let figures = match &first[letters.len()..] {
            "" => words.next()?,
            figures => figures,
        };
        let (week, year) = (week_of(figures)?, words.next().map(year_of));
        let is_whole = is_week && year != Some(None) && words.next().is_none();
        is_whole.then_some(Self {
            week,
            year: year.flatten(),
        })
    }

    /// The Monday of the week, by the same rules.
    pub fn first_workday(self, listed: Option<NaiveDate>) -> Option<NaiveDate> {
        self.last_workday(listed)?.checked_sub_days(Days::new(4))
    }

    /// The Friday of the week, which is when all of it has passed at the goods-in gate (common practice, no source). A
    /// week without a year is the next one from the day on that the list is of; `None` where that is unknown or too far
    /// ahead to be sure.
    pub fn last_workday(self, listed: Option<NaiveDate>) -> Option<NaiveDate> {
        let friday = |year| NaiveDate::from_isoywd_opt(year, self.week, Weekday::Fri);
        if let Some(year) = self.year {
            return friday(year);
        }
        let listed = listed?;
        let year = listed.iso_week().year();
        [year, year + 1]
            .into_iter()
            .filter_map(friday)
            .find(|day| *day >= listed)
            .filter(|day| (*day - listed).num_days() <= MOST_DAYS_AHEAD)
    }
}

fn year_of(word: &str) -> Option<i32> {
    let year = (word.len() == 4).then(|| word.parse().ok()).flatten()?;
    (2000..2100).contains(&year).then_some(year)
}

fn week_of(word: &str) -> Option<u32> {
    let week = (word.len() <= 2).then(|| word.parse().ok()).flatten()?;
    (1..=53).contains(&week).then_some(week)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str, listed: Option<&str>) -> Option<String> {
        let listed = listed.map(|listed| listed.parse().unwrap());
        CalendarWeek::read(text)?
            .last_workday(listed)
            .map(|day| day.to_string())
    }

    #[test]
    fn weeks_are_those_of_iso_8601() {
        // Days by `date.fromisocalendar(year, week, 5)` of Python's standard library.
        for (text, listed, friday) in [
            ("KW 14", "2026-03-02", "2026-04-03"),
            ("KW14", "2026-04-03", "2026-04-03"),
            ("week 14/2026", "2027-01-01", "2026-04-03"),
            ("2026-W14", "2027-01-01", "2026-04-03"),
            ("Calendar week 53", "2026-11-26", "2027-01-01"),
            ("wk 2", "2026-11-26", "2027-01-15"),
            ("Semaine 14", "2026-11-26", "2027-04-09"),
            ("14. KW", "2026-03-02", "2026-04-03"),
            ("14. KW 2026", "2027-01-01", "2026-04-03"),
            ("14.KW/2026", "2027-01-01", "2026-04-03"),
            ("KW 12/2026", "2027-01-01", "2026-03-20"),
        ] {
            assert_eq!(day(text, Some(listed)).as_deref(), Some(friday), "{text}");
        }
    }

    #[test]
    fn spans_and_doubtful_weeks_are_no_day() {
        let listed = Some("2026-04-10");
        for text in [
            "14 weeks",
            "KW 14/15",
            "KW 54",
            "KW 0",
            "KW",
            "week 14 or 15",
            "weekly 2",
            "KW 14-16",
            "14 KW",
            "14. KW 15",
            "54. KW 2026",
        ] {
            assert_eq!(day(text, listed), None, "{text}");
        }
        // Just past, or next year's: nobody knows.
        assert_eq!(day("KW 14", listed), None);
        assert_eq!(day("KW 14", None), None);
    }
}
