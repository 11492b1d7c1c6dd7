//! Dates among the words of a line beside a table, or in a name: the day of a list, and the last one on which it holds.

use chrono::NaiveDate;

use super::fold::fold;
use super::value::{leaves_year_open, read_date};
use crate::record::DateOrder;

/// Words before a date that make it an end, folded.
const ENDS: [&str; 17] = [
    "until", "to", "till", "through", "bis", "zum", "jusqu au", "au", "hasta", "al", "a", "do",
    "ate", "expires", "due", "expiry", "ablauf",
];
/// Words that may stand between such a word and the date, folded.
const BETWEEN: [&str; 10] = [
    "einschliesslich",
    "einschl",
    "inkl",
    "incl",
    "including",
    "on",
    "am",
    "zum",
    "le",
    "el",
];
/// Words that say that something holds for a time, folded.
const HOLDS: [&str; 28] = [
    "valid",
    "validity",
    "gultig",
    "gultigkeit",
    "gilt",
    "gelten",
    "preisbindung",
    "bindefrist",
    "bindend",
    "gebunden",
    "binding",
    "expires",
    "expiry",
    "valable",
    "valables",
    "validite",
    "valido",
    "valida",
    "validos",
    "validas",
    "validi",
    "valide",
    "validez",
    "validade",
    "wazna",
    "wazne",
    "wazny",
    "waznosc",
];
/// Words that put a later end in place of one, folded.
const EXTENDS: [&str; 9] = [
    "verlangert",
    "verlangerung",
    "extended",
    "prolonged",
    "prolonge",
    "prolongee",
    "prorrogado",
    "prorogato",
    "przedluzono",
];
/// Most words of one date: `the 9th of March 2026`.
const MOST_WORDS: usize = 5;

/// The first date among the words of a text, unless a word before it makes it an end: `valid until 30.06.2026`.
pub fn date_within(text: &str, order: DateOrder) -> Option<NaiveDate> {
    let words = words_of(text);
    (0..words.len()).find_map(|at| match is_end(&words, at) {
        true => None,
        false => date_at(&words, at, order).map(|(date, _)| date),
    })
}

/// The last day on which what a text says holds: the date behind such a word, or the later one of two. `None` where no word
/// says that something holds. `Lieferung bis 31.03.2026, Preise gültig ab 01.01.2026` names no such day.
///
/// Behind a word such as `verlängert` stands a later day in place of the first one.
pub fn end_within(text: &str, order: DateOrder) -> Option<NaiveDate> {
    let end = clauses(text)
        .into_iter()
        .find_map(|clause| end_of_clause(clause, order))?;
    let later = extension_within(text, order).filter(|later| *later > end);
    Some(later.unwrap_or(end))
}

/// The first end behind a word that says that it is put off: `verlängert bis 30.04.2026`.
fn extension_within(text: &str, order: DateOrder) -> Option<NaiveDate> {
    let words = words_of(text);
    let from = (words.iter()).position(|word| EXTENDS.contains(&&*fold(word)))?;
    (from..words.len())
        .filter(|at| is_end(&words, *at))
        .find_map(|at| date_at(&words, at, order).map(|(date, _)| date))
}

/// True for a text that puts off until when something holds.
pub fn extends(text: &str, order: DateOrder) -> bool {
    extension_within(text, order).is_some()
}

/// True for a folded word that says that something holds for a time.
pub fn says_that_it_holds(word: &str) -> bool {
    HOLDS.contains(&word)
}

/// True where a text names the end of something that is not what [`end_within`] gives: `Bestellungen bis 28.02.2026`. The end
/// of a span, as in `Verbrauch 01.01.2025 bis 31.12.2025`, is none.
pub fn names_another_end(text: &str, order: DateOrder) -> bool {
    let words = words_of(text);
    let is_end_date = |at: &usize| is_end(&words, *at) && date_at(&words, *at, order).is_some();
    end_within(text, order).is_none()
        && date_within(text, order).is_none()
        && (0..words.len()).any(|at| is_end_date(&at))
}

/// The pieces of a sentence between semicolons, commas and full stops that are not within a date.
fn clauses(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut from = 0;
    for (at, sign) in text.match_indices([';', '|', ',', '.']) {
        let (before, after) = (&text[..at], &text[at + 1..]);
        let next = after.trim_start();
        let ends = match sign {
            "," => !next.starts_with(|c: char| c.is_ascii_digit()),
            // Behind a day stands its month, behind a year nothing of the date.
            "." => {
                let digits = before.bytes().rev().take_while(u8::is_ascii_digit).count();
                after.starts_with(' ') && (digits == 0 || digits == 4)
            }
            _ => true,
        };
        if ends {
            found.push(&text[from..at]);
            from = at + 1;
        }
    }
    found.push(&text[from..]);
    found
}

fn end_of_clause(text: &str, order: DateOrder) -> Option<NaiveDate> {
    let folded = fold(text);
    if !folded.split(' ').any(|word| HOLDS.contains(&word)) {
        return None;
    }
    let words = words_of(text);
    let (mut at, mut first) = (0, None);
    while at < words.len() {
        let Some((date, count)) = date_at(&words, at, order) else {
            at += 1;
            continue;
        };
        if is_end(&words, at) || first.is_some_and(|first| date > first) {
            return Some(date);
        }
        first = first.or(Some(date));
        at += count;
    }
    None
}

fn words_of(text: &str) -> Vec<&str> {
    text.split_whitespace()
        .map(|word| word.trim_matches(['(', ')', ',', ';', ':', '[', ']', '—', '–']))
        .filter(|word| !word.is_empty())
        .collect()
}

/// True where the word before a position, or the one before that, makes a date an end.
fn is_end(words: &[&str], at: usize) -> bool {
    let word = |back: usize| {
        let word = at.checked_sub(back).and_then(|at| words.get(at));
        word.map(|word| fold(word)).unwrap_or_default()
    };
    let one = word(1);
    ENDS.contains(&&*one) || BETWEEN.contains(&&*one) && ENDS.contains(&&*word(2))
}

/// The date that begins at a word, the longest one, and how many words it takes.
fn date_at(words: &[&str], at: usize, order: DateOrder) -> Option<(NaiveDate, usize)> {
    let has_digit = |text: &str| text.contains(|c: char| c.is_ascii_digit());
    // `March 9, 2026` begins with its month.
    let is_word = words[at].chars().all(|c| c.is_alphabetic() || c == '.');
    if !has_digit(words[at]) && !is_word {
        return None;
    }
    (1..=MOST_WORDS.min(words.len() - at))
        .rev()
        .find_map(|count| {
            let part = words[at..at + count].join(" ");
            // The sentence may end with it.
            let part = part.trim_end_matches(['.', '!']);
            let is_whole = part.contains(['.', '-', '/', ' ']) && has_digit(part);
            let date = is_whole
                .then(|| read_date(part, Some(order)).ok())
                .flatten();
            date.filter(|_| !leaves_year_open(part, Some(order)))
                .map(|date| (date, count))
        })
}

/// A date in a file or sheet name: `stock_2026-03-02.xlsx`, `Preise 20260302`.
pub fn date_in_name(name: &str) -> Option<NaiveDate> {
    let bytes = name.as_bytes();
    let is_digits = |at: usize, count: usize| {
        bytes
            .get(at..at + count)
            .is_some_and(|part| part.iter().all(u8::is_ascii_digit))
    };
    (0..bytes.len()).find_map(|at| {
        let is_start = at == 0 || !bytes[at - 1].is_ascii_digit();
        if !is_start || !is_digits(at, 4) {
            return None;
        }
        let sign = *bytes.get(at + 4)?;
        let (text, end) = if is_digits(at, 8) {
            (name.get(at..at + 8)?.to_owned(), at + 8)
        } else if matches!(sign, b'-' | b'_' | b'.')
            && is_digits(at + 5, 2)
            && bytes.get(at + 7) == Some(&sign)
            && is_digits(at + 8, 2)
        {
            (name.get(at..at + 10)?.replace(['_', '.'], "-"), at + 10)
        } else {
            return None;
        };
        let ends = bytes.get(end).is_none_or(|byte| !byte.is_ascii_digit());
        ends.then(|| read_date(&text, None).ok()).flatten()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_says_until_when_it_holds() {
        // Wordings are common practice, no source.
        for (text, end) in [
            ("Angebot gültig bis 28.02.2026", Some("2026-02-28")),
            (
                "Preise gültig bis einschließlich 28.02.2026.",
                Some("2026-02-28"),
            ),
            ("Quote valid until 2026-02-28", Some("2026-02-28")),
            ("Prices valid through 28 February 2026", Some("2026-02-28")),
            ("This offer expires on 28.02.2026", Some("2026-02-28")),
            ("Offre valable jusqu'au 28/02/2026", Some("2026-02-28")),
            ("Oferta válida hasta el 28/02/2026", Some("2026-02-28")),
            ("Gültig 01.01.2026 – 31.03.2026", Some("2026-03-31")),
            ("gültig vom 01.01.2026 bis 31.03.2026", Some("2026-03-31")),
            ("Preisliste 2026, gültig ab 01.01.2026; netto", None),
            (
                "Angebot 4711 vom 01.02.2026, gültig bis 28.02.2026",
                Some("2026-02-28"),
            ),
            ("Prices net, valid until March 9, 2026", Some("2026-03-09")),
            (
                "Lieferung bis 31.03.2026, Preise gültig ab 01.01.2026",
                None,
            ),
            (
                "Angebot gültig bis 15.02.2026, verlängert bis 30.04.2026",
                Some("2026-04-30"),
            ),
            (
                "Quote valid until 2026-02-15 (extended to 2026-04-30)",
                Some("2026-04-30"),
            ),
            ("Gültigkeit verlängert bis 30.04.2026", Some("2026-04-30")),
            (
                "Preise gültig bis 15.02.2026, Lieferung bis 30.04.2026",
                Some("2026-02-15"),
            ),
            ("Bitte um Antwort bis 28.02.2026", None),
            ("Angebot gültig bis auf Widerruf", None),
            ("gültig bis 26-03-09", None),
        ] {
            let found = end_within(text, DateOrder::Dmy).map(|date| date.to_string());
            assert_eq!(found.as_deref(), end, "{text}");
        }
    }

    #[test]
    fn an_end_of_something_else_is_one_too() {
        for (text, is_one) in [
            (
                "Bestellungen bis 28.02.2026 werden bis 31.03.2026 geliefert",
                true,
            ),
            ("Bitte um Antwort bis 28.02.2026", true),
            ("Angebot gültig bis 28.02.2026", false),
            ("Preisliste 2026, gültig ab 01.01.2026", false),
            ("Verbrauch 01.01.2025 bis 31.12.2025", false),
            ("Preise gültig bis auf Widerruf, Stand 28.02.2026", false),
        ] {
            assert_eq!(names_another_end(text, DateOrder::Dmy), is_one, "{text}");
        }
    }

    #[test]
    fn the_end_is_not_the_day_of_the_list() {
        for (text, date) in [
            ("Gültig 01.01.2026 – 31.03.2026", Some("2026-01-01")),
            ("Preise gültig bis einschließlich 28.02.2026", None),
            ("This offer expires on 28.02.2026", None),
        ] {
            let found = date_within(text, DateOrder::Dmy).map(|date| date.to_string());
            assert_eq!(found.as_deref(), date, "{text}");
        }
    }

    #[test]
    fn reads_dates_in_file_names() {
        for (name, date) in [
            ("stock_2026-03-02.xlsx", Some("2026-03-02")),
            ("Preise 20260302", Some("2026-03-02")),
            ("2026_03_02 bins", Some("2026-03-02")),
            ("part 123456789", None),
            ("v20269902", None),
            ("é20260302é", Some("2026-03-02")),
        ] {
            assert_eq!(
                date_in_name(name).map(|d| d.to_string()).as_deref(),
                date,
                "{name}"
            );
        }
    }
}
