//! The name of a list without what changes from one edition to the next, and the day that a name means.

use chrono::NaiveDate;

/// Years up to this one may be lengths and numbers of other kinds.
const FIRST_YEAR: u32 = 2000;

/// Name of a file or sheet without folder, ending, dates, years and the `(1)` of a second download; lower case.
///
/// Other numbers stay: `hall 1` and `hall 2` are two lists. A name of nothing but dates gives the empty text.
pub(super) fn list_name(name: &str) -> String {
    let lower = stem(name).to_lowercase();
    let mut kept: Vec<&str> = Vec::new();
    let (words, signs) = words_and_signs(&lower);
    let mut at = 0;
    while at < words.len() {
        match date_length(&words[at..], &signs[at..]) {
            0 => {
                kept.push(words[at]);
                at += 1;
            }
            length => at += length,
        }
    }
    if kept.last().copied() == copy_number(&lower) {
        kept.pop();
    }
    kept.join(" ")
}

/// The first day that a name of a list may mean by the latest year, month or day in it: `prices 2026` is none before
/// 1 January 2026.
pub(super) fn first_day_in(name: &str) -> Option<NaiveDate> {
    days_in(name).into_iter().max()
}

/// The first day of each year, month or day in a name.
pub(super) fn days_in(name: &str) -> Vec<NaiveDate> {
    let lower = stem(name).to_lowercase();
    let (words, signs) = words_and_signs(&lower);
    let mut days = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let length = date_length(&words[at..], &signs[at..]);
        if length > 0 {
            let is_day_first = length == 3 && signs[at] == ".";
            days.extend(first_day(&words[at..at + length], is_day_first));
        }
        at += length.max(1);
    }
    days
}

/// The first day of a year, of a month of a year, or the day itself. Of a day and a month that could change places only the
/// year is taken, unless dots say that the day comes first.
fn first_day(date: &[&str], is_day_first: bool) -> Option<NaiveDate> {
    let number = |text: &str| text.parse::<u32>().ok();
    let (year, month, day) = match date {
        [whole] if whole.len() == 8 => (&whole[..4], number(&whole[4..6])?, number(&whole[6..])?),
        [year] => (*year, 1, 1),
        [year, month] if year.len() == 4 => (*year, number(month)?, 1),
        [month, year] => (*year, number(month)?, 1),
        [year, month, day] if year.len() == 4 => (*year, number(month)?, number(day)?),
        [one, two, year] => match (number(one)?, number(two)?) {
            (day, month) if is_day_first || day > 12 => (*year, month, day),
            (month, day) if day > 12 => (*year, month, day),
            _ => (*year, 1, 1),
        },
        _ => return None,
    };
    let year = number(year).filter(|year| *year > FIRST_YEAR)?;
    NaiveDate::from_ymd_opt(year as i32, month, day)
}

/// A file name without its ending.
fn stem(name: &str) -> &str {
    name.rsplit_once('.')
        .filter(|(_, ending)| is_ending(ending))
        .map_or(name, |(stem, _)| stem)
}

/// The words of a name, each with what stands behind it.
fn words_and_signs(name: &str) -> (Vec<&str>, Vec<&str>) {
    let (mut words, mut signs) = (Vec::new(), Vec::new());
    let mut rest = name.trim_start_matches(|c: char| !c.is_alphanumeric());
    while !rest.is_empty() {
        let end = rest
            .find(|c: char| !c.is_alphanumeric())
            .unwrap_or(rest.len());
        let (word, behind) = rest.split_at(end);
        let next = behind.find(char::is_alphanumeric).unwrap_or(behind.len());
        words.push(word);
        signs.push(&behind[..next]);
        rest = &behind[next..];
    }
    (words, signs)
}

/// The `1` of `stock (1)`: a number in brackets at the end. The year of `hall 1 (2026)` is none.
fn copy_number(lower: &str) -> Option<&str> {
    let (_, inside) = lower.trim_end().strip_suffix(')')?.rsplit_once('(')?;
    let number = inside.trim();
    ((1..=3).contains(&number.len()) && is_number(number)).then_some(number)
}

/// `xlsx`, `csv` and the like; `03` in `stock 02.03` is none.
fn is_ending(ending: &str) -> bool {
    (1..=4).contains(&ending.len()) && ending.starts_with(|c: char| c.is_ascii_alphabetic())
}

/// Of how many words the date is that these words begin with: `2026 03 06`, `06 03 2026`, `03 2026`, `2026`, `20260306`;
/// 0 for none. A single digit before a year is no month: `hall 1 2026`.
///
/// The signs within a date that begins with its day are alike: `1 (03-2026)` is a hall and a month.
fn date_length(words: &[&str], signs: &[&str]) -> usize {
    let word = |at: usize| words.get(at).copied().unwrap_or_default();
    let is_up_to = |text: &str, most: u32| {
        text.len() <= 2 && text.parse().is_ok_and(|n: u32| (1..=most).contains(&n))
    };
    let (one, two, three) = (word(0), word(1), word(2));
    if is_year(one, 8) {
        1
    } else if is_year(one, 4) {
        let has_month = is_up_to(two, 12);
        1 + usize::from(has_month) + usize::from(has_month && is_up_to(three, 31))
    } else if is_up_to(one, 31)
        && is_up_to(two, 31)
        && is_year(three, 4)
        && signs.first() == signs.get(1)
    {
        3
    } else if one.len() == 2 && is_up_to(one, 12) && is_year(two, 4) {
        2
    } else {
        0
    }
}

/// A number of so many digits that begins with a year of 1900 to 2099.
fn is_year(word: &str, digits: usize) -> bool {
    word.len() == digits && is_number(word) && (word.starts_with("19") || word.starts_with("20"))
}

fn is_number(word: &str) -> bool {
    word.chars().all(|c| c.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn editions_of_one_list_meet_and_other_lists_do_not() {
        // Common ways of naming files, no source.
        for (name, same) in [
            ("Stock_2026-03-06.xls", "stock"),
            ("stock 06.03.2026.xlsx", "stock"),
            ("stock20260306.csv", "stock20260306"),
            ("stock-20260306 (1).csv", "stock"),
            ("STOCK.ods", "stock"),
            ("usages_2021-2026.csv", "usages"),
            ("prices 2026 new.xlsx", "prices new"),
            ("hall 1.xlsx", "hall 1"),
            ("hall 2.xlsx", "hall 2"),
            ("hall 1 2026-01-31.xlsx", "hall 1"),
            ("hall 1 31.01.2026.xlsx", "hall 1"),
            ("hall_2_2026.xlsx", "hall 2"),
            ("stock 03-2026.xlsx", "stock"),
            ("quote_26-0188.xlsx", "quote 26 0188"),
            ("hall 1 (2026).xlsx", "hall 1"),
            ("hall 2 (03-2026).xlsx", "hall 2"),
            ("hall (1) 2026.xlsx", "hall 1"),
            ("hall 1 (2).xlsx", "hall 1"),
            ("hall 1 (annex).xlsx", "hall 1 annex"),
            ("line 7 (1000).xlsx", "line 7 1000"),
            ("2026-03-02", ""),
            ("", ""),
        ] {
            assert_eq!(list_name(name), same, "{name}");
        }
    }
    #[test]
    fn a_name_means_the_first_day_of_what_it_says() {
        // Common ways of naming files, no source.
        for (name, day) in [
            ("Preise 2026", Some("2026-01-01")),
            ("preise_2025.xlsx", Some("2025-01-01")),
            ("usages_2021-2026.csv", Some("2026-01-01")),
            ("stock 2026-03.csv", Some("2026-03-01")),
            ("stock 03-2026.xlsx", Some("2026-03-01")),
            ("stock 06.03.2026.xlsx", Some("2026-03-06")),
            ("stock 2026-03-06", Some("2026-03-06")),
            ("stock 20260306.csv", Some("2026-03-06")),
            // Which of them is the month, nobody knows.
            ("stock 06-03-2026.xlsx", Some("2026-01-01")),
            ("stock 31-01-2026.xlsx", Some("2026-01-31")),
            ("belts 1900.xlsx", None),
            ("hall 1.xlsx", None),
            ("Tabelle1", None),
            ("", None),
        ] {
            let found = first_day_in(name).map(|day| day.to_string());
            assert_eq!(found.as_deref(), day, "{name}");
        }
    }
}
