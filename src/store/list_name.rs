//! The name of a list without what changes from one edition to the next.

/// Name of a file or sheet without folder, ending, dates, years and the `(1)` of a second download; lower case.
///
/// Other numbers stay: `hall 1` and `hall 2` are two lists. A name of nothing but dates gives the empty text.
pub(super) fn list_name(name: &str) -> String {
    let stem = name.rsplit_once('.').filter(|(_, ending)| is_ending(ending)).map_or(name, |(stem, _)| stem);
    let lower = stem.to_lowercase();
    let mut kept: Vec<&str> = Vec::new();
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let is_number = |word: &str| word.chars().all(|c| c.is_ascii_digit());
    let mut at = 0;
    while at < words.len() {
        let end = (at..words.len()).find(|i| !is_number(words[*i])).unwrap_or(words.len());
        // A run of numbers with a year in it is a date; so is one number of eight digits that begins with a year.
        if words[at..end].iter().any(|word| is_year(word) || is_day(word)) {
            at = end;
        } else {
            kept.push(words[at]);
            at += 1;
        }
    }
    if lower.trim_end().ends_with(')') && kept.last().is_some_and(|word| is_number(word)) {
        kept.pop();
    }
    kept.join(" ")
}

/// `xlsx`, `csv` and the like; `03` in `stock 02.03` is none.
fn is_ending(ending: &str) -> bool {
    (1..=4).contains(&ending.len()) && ending.starts_with(|c: char| c.is_ascii_alphabetic())
}

fn is_year(word: &str) -> bool {
    word.len() == 4 && (word.starts_with("19") || word.starts_with("20"))
}

fn is_day(word: &str) -> bool {
    word.len() == 8 && (word.starts_with("19") || word.starts_with("20"))
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
            ("quote_26-0188.xlsx", "quote 26 0188"),
            ("2026-03-02", ""),
            ("", ""),
        ] {
            assert_eq!(list_name(name), same, "{name}");
        }
    }
}
