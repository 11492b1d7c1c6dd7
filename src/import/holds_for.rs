//! For how long a line beside a list says that its offers hold: `Angebot gültig 30 Tage`, `valid for 4 weeks`.

use chrono::{Days, Months, NaiveDate};

use super::dates_in_lines::says_that_it_holds;
use super::fold::fold;

/// A time from the day of a list on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Span {
    /// Calendar days.
    Days(u32),
    /// Calendar months.
    Months(u32),
}

/// Words between one that says that something holds and the time, folded.
const BEFORE_THE_TIME: [&str; 7] = ["for", "fur", "fuer", "noch", "is", "ist", "of"];
/// Words behind the time that let it begin on another day than that of the list, folded.
const FROM_ANOTHER_DAY: [&str; 6] = ["ab", "nach", "from", "after", "vor", "before"];

impl Span {
    /// The last day where the first is that of the list.
    pub fn from(self, dated: NaiveDate) -> Option<NaiveDate> {
        match self {
            Self::Days(days) => dated.checked_add_days(Days::new(days.into())),
            Self::Months(months) => dated.checked_add_months(Months::new(months)),
        }
    }
}

/// The time for which a text says that something holds; `None` where it begins on another day than the list's.
pub fn span_within(text: &str) -> Option<Span> {
    let folded = fold(text);
    let words: Vec<&str> = folded.split(' ').collect();
    (0..words.len()).find_map(|at| {
        let (span, next) = span_at(&words, at)?;
        let before = (words[..at].iter().rev()).find(|word| !BEFORE_THE_TIME.contains(*word));
        let behind = words.get(next);
        let is_of_list = behind.is_none_or(|word| !FROM_ANOTHER_DAY.contains(word));
        let holds = |word: Option<&&str>| word.is_some_and(|word| says_that_it_holds(word));
        (is_of_list && (holds(before) || holds(behind))).then_some(span)
    })
}

/// `30 tage`: the time that begins at a word, and the word behind it.
fn span_at(words: &[&str], at: usize) -> Option<(Span, usize)> {
    let count: u32 = (words[at].parse().ok()).filter(|count| (1..=1_000).contains(count))?;
    let span = match *words.get(at + 1)? {
        "tag" | "tage" | "tagen" | "day" | "days" => Span::Days(count),
        "woche" | "wochen" | "week" | "weeks" => Span::Days(count * 7),
        "monat" | "monate" | "monaten" | "month" | "months" => Span::Months(count),
        _ => return None,
    };
    Some((span, at + 2))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::find_table::only_table;

    #[test]
    fn a_line_says_for_how_long_it_holds() {
        // Wordings are common practice, no source.
        for (text, span) in [
            ("Angebot gültig 30 Tage", Some(Span::Days(30))),
            ("Angebot 30 Tage gültig", Some(Span::Days(30))),
            ("Bindefrist: 4 Wochen", Some(Span::Days(28))),
            ("Quote valid for 2 months", Some(Span::Months(2))),
            ("Angebot gültig 30 Tage ab Rechnung", None),
            ("Zahlbar in 30 Tagen", None),
            ("Preise gültig ab 01.03.2026, Zahlung 30 Tage netto", None),
            ("gültig bis 30.04.2026", None),
        ] {
            assert_eq!(span_within(text), span, "{text}");
        }
    }

    #[test]
    fn the_time_begins_on_the_day_of_the_list() {
        let table = |title: &str| {
            only_table(&format!(
                "{title}\n\nArt-Nr;Bezeichnung;Preis EUR\nN1;6305;11,90\n"
            ))
        };
        // By a calendar: February 2026 has 28 days.
        for (title, until) in [
            ("Stand 15.02.2026\nAngebot gültig 30 Tage", "2026-03-17"),
            ("Angebot vom 15.02.2026, gültig 30 Tage", "2026-03-17"),
            ("Angebot gültig 2 Monate\nStand 15.02.2026", "2026-04-15"),
        ] {
            let found = table(title).title.valid_until.map(|date| date.to_string());
            assert_eq!(found.as_deref(), Some(until), "{title}");
        }
        let undated = table("Angebot gültig 30 Tage");
        assert_eq!(undated.title.valid_until, None);
        let told = "not read: line `Angebot gültig 30 Tage` in A1";
        assert!(
            undated.why.iter().any(|why| why == told),
            "{:?}",
            undated.why
        );
    }
}
