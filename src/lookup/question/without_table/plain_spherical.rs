//! Numbers of spherical plain bearings: `GE 30 ES`, `bearing GE30-DO`.

/// The kind, as it is told.
pub(super) const NAME: &str = "spherical plain bearing";

/// True where a text in lower case names one by its number in front of every other figure.
///
/// # Source
/// GE with the bore in mm, as the designations of ISO 12240-1 sizes are commonly written; from memory.
pub(super) fn is_numbered(lower: &str) -> bool {
    let words: Vec<&str> = lower
        .split_whitespace()
        .map(|word| word.trim_matches([',', ';', '(', ')']))
        .collect();
    let has_digit = |word: &&str| word.contains(|c: char| c.is_ascii_digit());
    let Some(first) = words.iter().position(has_digit) else {
        return false;
    };
    let bore = match words[first].strip_prefix("ge") {
        Some(glued) => glued.trim_start_matches('-'),
        None if first > 0 && words[first - 1] == "ge" => words[first],
        None => return false,
    };
    let marks = bore.trim_start_matches(|c: char| c.is_ascii_digit());
    let digits = bore.len() - marks.len();
    (1..=3).contains(&digits) && !marks.starts_with(['x', '×', '.', ',', '/'])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    #[test]
    fn numbers_of_spherical_plain_bearings_are_told() {
        for text in [
            "ge 30 es",
            "ge30es",
            "ge 30",
            "ge-30 do",
            "bearing ge30-es-2rs, shaft 30",
        ] {
            assert!(is_numbered(text), "{text}");
        }
        for text in [
            "6206 ge 30",
            "ge",
            "ge 30x47",
            "ge 3000",
            "gear 30",
            "age 30",
            "30 ge",
        ] {
            assert!(!is_numbered(text), "{text}");
        }
    }

    /// ISO 12240-1: 30 x 47 x 22 mm, no rolling bearing of that bore.
    #[test]
    fn a_spherical_plain_bearing_is_no_rolling_bearing() {
        for text in [
            "spherical plain bearing GE 30 ES",
            "Gelenklager GE 30",
            "GE 30 ES",
            "30x47x22 spherical plain bearing",
            "rotule lisse 30x47x22",
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let kind = question.without_table.map(|kind| kind.name);
            assert_eq!(kind, Some(NAME), "{text}");
        }
        for text in [
            "spherical roller bearing 40x80x23",
            "22206 spherical",
            "6206 for rod end",
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert!(question.without_table.is_none(), "{text}");
        }
    }
}
