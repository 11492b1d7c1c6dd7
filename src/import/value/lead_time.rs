//! Lead times as quoted: `6-8 weeks`, `ex stock`, `10 AT`, `auf Anfrage`, a date.

use std::collections::HashMap;
use std::sync::OnceLock;

use chrono::{Datelike, NaiveDate};

use crate::import::fold::fold;
use crate::import::shipped::lines;
use crate::record::{DateOrder, LeadUnit, QuotedLeadTime};

use super::date::read_date;
use super::date_evidence::leaves_year_open;
use super::number::read_number;

/// Words for lead times without a number.
const LEAD_TIME_WORDS_CSV: &str = include_str!("../../../data/import/lead_time_words.csv");
/// Days in a week, on the calendar.
const DAYS_PER_WEEK: f64 = 7.0;
/// Days taken for a quoted month. Common practice, no source.
const DAYS_PER_MONTH: f64 = 30.0;
/// Longest lead time taken for real, days.
const MAX_DAYS: f64 = 3_650.0;

/// Unit of a quoted lead time, before the settings say what a day is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LeadTimeUnit {
    /// Hours.
    Hours,
    /// Days, of which the settings say whether they are working days.
    Days,
    /// Days said to be working days.
    Workdays,
    /// Days said to be calendar days.
    CalendarDays,
    /// Weeks of the calendar.
    Weeks,
    /// Months.
    Months,
}

/// Why a text is not a lead time.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum LeadTimeError {
    /// Not readable.
    #[error(
        "`{found}` is not a lead time; expected one such as `5 days`, `6-8 weeks`, `ex stock` or a date"
    )]
    NotALeadTime {
        /// As found.
        found: String,
    },
    /// A number without a unit in cell or header.
    #[error(
        "`{found}` has no unit, and its header names none; expected days, working days, weeks or hours"
    )]
    NoUnit {
        /// As found.
        found: String,
    },
    /// A date among lead times of another form.
    #[error(
        "the cell holds the date {date} among lead times of another form, perhaps `{likely}` that the spreadsheet turned into a date; expected a lead time as text"
    )]
    TurnedIntoDate {
        /// The date.
        date: NaiveDate,
        /// What may have been typed.
        likely: String,
    },
    /// A week of an unknown year.
    #[error(
        "`{found}` is a week, and neither its cell nor the date of the list says of which year; expected one such as `week 14/2026`"
    )]
    WeekOfNoYear {
        /// As found.
        found: String,
    },
    /// Negative or beyond ten years.
    #[error("{found} is out of range; expected a lead time of 0 to 10 years")]
    OutOfRange {
        /// As found.
        found: String,
    },
}

impl LeadTimeUnit {
    /// The unit that a word of a header or a cell names.
    pub fn of_word(word: &str) -> Option<Self> {
        Some(match word {
            "h" | "hr" | "hrs" | "hour" | "hours" | "std" | "stunden" | "stunde" | "heures"
            | "heure" | "horas" | "hora" | "ore" | "godz" | "godzin" | "godziny" => Self::Hours,
            "d" | "day" | "days" | "tag" | "tage" | "tagen" | "jour" | "jours" | "j" | "dia"
            | "dias" | "giorno" | "giorni" | "gg" | "dni" | "dzien" | "días" | "día" => {
                Self::Days
            }
            "wd" | "bd" | "workday" | "workdays" | "at" | "arbeitstag" | "arbeitstage"
            | "arbeitstagen" | "werktag" | "werktage" | "werktagen" | "wt" | "jo" | "habiles"
            | "hábiles" | "habil" | "hábil" | "lavorativi" | "lavorativo" | "lav" | "roboczych"
            | "robocze" | "roboczy" | "rob" | "ouvres" | "ouvrables" | "ouvrés" | "ouvre"
            | "ouvré" | "ouvrable" | "laborables" | "laborable" | "uteis" | "úteis" | "util"
            | "útil" => Self::Workdays,
            "w" | "wk" | "wks" | "week" | "weeks" | "wo" | "woche" | "wochen" | "sem"
            | "semaine" | "semaines" | "semana" | "semanas" | "settimana" | "settimane"
            | "sett" | "tydz" | "tydzien" | "tygodni" | "tygodnie" | "tyg" => Self::Weeks,
            "month" | "months" | "mth" | "mths" | "mo" | "monat" | "monate" | "monaten"
            | "mois" | "mes" | "meses" | "mese" | "mesi" | "miesiac" | "miesiace" | "miesiecy" => {
                Self::Months
            }
            _ => return None,
        })
    }

    /// The lead time of `least` to `most` of this unit; `day` is what a plain day counts.
    fn span(self, least: f64, most: f64, day: LeadUnit) -> QuotedLeadTime {
        let (factor, unit) = match self {
            Self::Hours => (1.0, LeadUnit::Hours),
            Self::Days => (1.0, day),
            Self::Workdays => (1.0, LeadUnit::Workdays),
            Self::CalendarDays => (1.0, LeadUnit::Days),
            Self::Weeks => (DAYS_PER_WEEK, LeadUnit::Days),
            Self::Months => (DAYS_PER_MONTH, LeadUnit::Days),
        };
        QuotedLeadTime::Span {
            least: least * factor,
            most: most * factor,
            unit,
        }
    }
}

/// Reads a lead time.
///
/// `header` is the unit that the header states, `day` what a plain "day" counts, `order` the order of day and
/// month in dates.
///
/// # Errors
/// [`LeadTimeError::NoUnit`] for a bare number where the header states no unit: a guess could be wrong by
/// a factor of seven.
pub fn read_lead_time(
    text: &str,
    header: Option<LeadTimeUnit>,
    day: LeadUnit,
    order: Option<DateOrder>,
) -> Result<QuotedLeadTime, LeadTimeError> {
    let text = text.trim();
    if let Some(number) = number_only(text) {
        return of_number(number, text, header, day);
    }
    let folded = fold(text);
    if let Some(words) = fixed_words(&folded) {
        return Ok(words);
    }
    if let Some(date) = date_within(text, order) {
        return Ok(QuotedLeadTime::By(date));
    }
    let not_a_lead_time = || LeadTimeError::NotALeadTime {
        found: text.to_owned(),
    };
    let (least, most, behind) = span_of(text).ok_or_else(not_a_lead_time)?;
    let unit = unit_of(&fold(behind));
    let unit = match unit {
        Some(unit) => unit,
        None if fold(behind).is_empty() => header.ok_or_else(|| LeadTimeError::NoUnit {
            found: text.to_owned(),
        })?,
        None => return Err(not_a_lead_time()),
    };
    checked(unit.span(least, most, day), text)
}

/// What may have been typed where a spreadsheet made a date of a span such as `2-3`; `None` for days beyond 12.
pub fn span_turned_into_date(
    date: NaiveDate,
    order: DateOrder,
    are_spans: bool,
) -> Option<LeadTimeError> {
    let (day, month) = (date.day(), date.month());
    // `10-14` becomes a day of October where the month comes first; a date that is one looks the same.
    if day > 12 && !are_spans {
        return None;
    }
    let (first, second) = match order {
        DateOrder::Dmy => (day, month),
        DateOrder::Mdy | DateOrder::Ymd => (month, day),
    };
    // Spans rise.
    let likely = format!("{}-{}", first.min(second), first.max(second));
    Some(LeadTimeError::TurnedIntoDate { date, likely })
}

/// A bare number from a cell of numbers.
///
/// # Errors
/// As [`read_lead_time`].
pub fn of_number(
    number: f64,
    text: &str,
    header: Option<LeadTimeUnit>,
    day: LeadUnit,
) -> Result<QuotedLeadTime, LeadTimeError> {
    let unit = header.ok_or_else(|| LeadTimeError::NoUnit {
        found: text.to_owned(),
    })?;
    checked(unit.span(number, number, day), text)
}

fn checked(lead_time: QuotedLeadTime, text: &str) -> Result<QuotedLeadTime, LeadTimeError> {
    let QuotedLeadTime::Span { least, most, unit } = lead_time else {
        return Ok(lead_time);
    };
    let max = if unit == LeadUnit::Hours {
        24.0 * MAX_DAYS
    } else {
        MAX_DAYS
    };
    if least >= 0.0 && least <= most && most <= max {
        Ok(lead_time)
    } else {
        Err(LeadTimeError::OutOfRange {
            found: format!("`{text}`"),
        })
    }
}

fn number_only(text: &str) -> Option<f64> {
    read_number(text, None).ok()
}

/// Words without a number.
fn fixed_words(folded: &str) -> Option<QuotedLeadTime> {
    if matches!(folded, "24h" | "24 h") {
        return Some(QuotedLeadTime::exactly(24.0, LeadUnit::Hours));
    }
    static WORDS: OnceLock<HashMap<&'static str, QuotedLeadTime>> = OnceLock::new();
    let words = WORDS.get_or_init(|| {
        let meant = |(meaning, _, words): (&str, &str, &'static str)| {
            let lead_time = match meaning {
                "in_stock" => QuotedLeadTime::InStock,
                "next_day" => QuotedLeadTime::exactly(1.0, LeadUnit::Workdays),
                _ => QuotedLeadTime::OnRequest,
            };
            words.split('|').map(move |word| (word, lead_time))
        };
        lines(LEAD_TIME_WORDS_CSV).flat_map(meant).collect()
    });
    words.get(folded).copied()
}

/// A date, perhaps behind a word: `by 15.04.2026`, `ab 15.04.2026`.
fn date_within(text: &str, order: Option<DateOrder>) -> Option<NaiveDate> {
    if !text.contains(|c: char| c.is_ascii_digit()) || text.len() < 6 {
        return None;
    }
    let is_date = |text: &str| {
        text.contains(['.', '/', '-', ' '])
            .then(|| read_date(text, order).ok())
            .flatten()
            .filter(|_| !leaves_year_open(text, order))
    };
    is_date(text).or_else(|| {
        let (word, rest) = text.split_once(char::is_whitespace)?;
        matches!(
            fold(word).as_str(),
            "by" | "on"
                | "from"
                | "ab"
                | "am"
                | "bis"
                | "zum"
                | "per"
                | "le"
                | "el"
                | "il"
                | "do"
                | "od"
                | "eta"
        )
        .then(|| is_date(rest.trim()))
        .flatten()
    })
}

/// One or two numbers at the start, past words like `ca.`, with the text behind them.
fn span_of(text: &str) -> Option<(f64, f64, &str)> {
    let start = text.find(|c: char| c.is_ascii_digit())?;
    let before = fold(&text[..start]);
    let is_about = before.split(' ').all(|word| {
        matches!(
            word,
            "" | "ca"
                | "circa"
                | "about"
                | "approx"
                | "approximately"
                | "env"
                | "environ"
                | "aprox"
                | "etwa"
                | "c"
                | "approximativement"
                | "ok"
                | "okolo"
                | "lead"
                | "time"
                | "lieferzeit"
                | "delivery"
                | "within"
                | "in"
                | "binnen"
                | "innerhalb"
        )
    });
    // `> 6 weeks` and `6+ weeks` have no end, and are no six weeks.
    if !is_about || text[..start].contains(['-', '−', '>', '<', '≥', '≤']) {
        return None;
    }
    let (least, rest) = leading_number(&text[start..])?;
    let trimmed = rest.trim_start();
    if trimmed.starts_with('+') {
        return None;
    }
    let joined = [
        "-", "–", "—", "/", "to ", "bis ", "à ", "a ", "do ", "hasta ", "até ", "..", "…",
    ]
    .iter()
    .find_map(|sign| trimmed.strip_prefix(sign));
    let second = joined.and_then(|after| leading_number(after.trim_start_matches(['.', ' '])));
    Some(match second {
        Some((most, behind)) => (least, most, behind),
        None => (least, least, rest),
    })
}

fn leading_number(text: &str) -> Option<(f64, &str)> {
    let end = text
        .char_indices()
        .find(|(at, c)| {
            let is_decimal =
                matches!(c, '.' | ',') && text[at + 1..].starts_with(|c: char| c.is_ascii_digit());
            !(c.is_ascii_digit() || is_decimal)
        })
        .map_or(text.len(), |(at, _)| at);
    read_number(&text[..end], None)
        .ok()
        .map(|number| (number, &text[end..]))
}

/// The unit in the folded text behind the numbers; any other word there makes it unreadable.
fn unit_of(folded: &str) -> Option<LeadTimeUnit> {
    let mut unit = None;
    let mut before = "";
    for word in folded.split(' ').filter(|word| !word.is_empty()) {
        let place = std::mem::replace(&mut before, word);
        // Weeks stay weeks, whatever days a word behind them speaks of.
        let are_days = matches!(
            unit,
            None | Some(LeadTimeUnit::Days | LeadTimeUnit::Workdays)
        );
        match word {
            // `6 Wochen ab Werk`: where, and no working days.
            "werk" | "work" if matches!(place, "ab" | "ex" | "frei" | "from" | "vom") => {}
            "working" | "business" | "work" | "arbeits" | "werk" | "bank" if are_days => {
                unit = Some(LeadTimeUnit::Workdays)
            }
            "calendar" | "kalender" | "kalendertage" | "kalendertagen" | "kt" | "calendaires"
            | "naturales" | "kalendarzowych" | "calendario" | "solari"
                if are_days =>
            {
                unit = Some(LeadTimeUnit::CalendarDays);
            }
            "aro" | "after" | "order" | "from" | "receipt" | "of" | "nach" | "auftragseingang"
            | "ab" | "bestellung" | "ca" | "approx" | "ex" | "works" | "frei" | "vom" | "lead"
            | "time" | "delivery" | "lieferzeit" => {}
            word => {
                let found = LeadTimeUnit::of_word(word)?;
                let is_said = matches!(
                    unit,
                    Some(LeadTimeUnit::Workdays | LeadTimeUnit::CalendarDays)
                );
                let qualifies = matches!(found, LeadTimeUnit::Workdays);
                if unit.is_none() || (qualifies && unit == Some(LeadTimeUnit::Days)) {
                    unit = Some(found);
                } else if !(is_said && found == LeadTimeUnit::Days) {
                    return None;
                }
            }
        }
    }
    unit
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> String {
        read_lead_time(text, None, LeadUnit::Workdays, Some(DateOrder::Dmy))
            .map_or_else(|error| error.to_string(), |lead_time| lead_time.to_string())
    }

    #[test]
    fn reads_what_suppliers_write() {
        for (text, expected) in [
            ("6 wks", "42 days"),
            ("6-8 weeks", "42 to 56 days"),
            ("6 weeks ARO", "42 days"),
            ("ca. 4-6 Wochen", "28 to 42 days"),
            ("2-3 AT", "2 to 3 working days"),
            ("6 Wochen ab Werk", "42 days"),
            ("6 weeks ex works", "42 days"),
            ("10 Arbeitstage ab Werk", "10 working days"),
            ("2 days working", "2 working days"),
            ("ab Werk sofort", "in stock"),
            ("sofort ab Lager", "in stock"),
            ("Immediately ex works", "in stock"),
            ("6 to 8 weeks", "42 to 56 days"),
            ("ca. 6 - 8 Wochen", "42 to 56 days"),
            ("2 days", "2 working days"),
            ("2 calendar days", "2 days"),
            ("10 AT", "10 working days"),
            ("10 Werktage", "10 working days"),
            ("5 working days", "5 working days"),
            ("5 jours ouvrés", "5 working days"),
            ("5 días hábiles", "5 working days"),
            ("48 h", "48 h"),
            ("48h", "48 h"),
            ("1,5 Wochen", "10.5 days"),
            ("2 semaines", "14 days"),
            ("3 tygodnie", "21 days"),
            ("3 gg lav.", "3 working days"),
            ("10 gg lavorativi", "10 working days"),
            ("10 giorni lavorativi", "10 working days"),
            ("8 j ouvrés", "8 working days"),
            ("5 jours ouvrables", "5 working days"),
            ("5 días laborables", "5 working days"),
            ("5 dni roboczych", "5 working days"),
            ("5 dias úteis", "5 working days"),
            ("3-4 semaines", "21 to 28 days"),
            ("pronta consegna", "in stock"),
            ("de stock", "in stock"),
            ("a richiesta", "on request"),
            ("sur demande", "on request"),
            ("ex stock", "in stock"),
            ("ab Lager", "in stock"),
            ("En stock", "in stock"),
            ("od ręki", "in stock"),
            ("on request", "on request"),
            ("a. A.", "on request"),
            ("auf Anfrage", "on request"),
            ("15.04.2026", "by 2026-04-15"),
            ("ab 15.04.2026", "by 2026-04-15"),
            ("2026-04-15", "by 2026-04-15"),
        ] {
            assert_eq!(read(text), expected, "{text}");
        }
    }

    #[test]
    fn a_bare_number_takes_the_unit_of_its_header_or_none() {
        let with = |unit| {
            read_lead_time("6", unit, LeadUnit::Days, None).map(|lead_time| lead_time.to_string())
        };
        assert_eq!(with(Some(LeadTimeUnit::Weeks)).as_deref(), Ok("42 days"));
        assert_eq!(with(Some(LeadTimeUnit::Days)).as_deref(), Ok("6 days"));
        assert_eq!(
            with(None),
            Err(LeadTimeError::NoUnit {
                found: "6".to_owned()
            })
        );
        assert!(read_lead_time("6-8", None, LeadUnit::Days, None).is_err());
    }

    #[test]
    fn refuses_what_it_cannot_tell() {
        for text in [
            "",
            "soon",
            "6 foo",
            "-3 days",
            "99999 weeks",
            "KW 14",
            "8-6 weeks",
            "ab Werk",
            "6 weeks working",
            "6 weeks calendar",
            "6 weeks 2 days",
        ] {
            assert!(
                read_lead_time(text, None, LeadUnit::Days, Some(DateOrder::Dmy)).is_err(),
                "{text}"
            );
        }
    }
}
