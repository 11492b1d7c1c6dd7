//! Which figure a word for a dimension is of, where it stands between two: `25 od 52`, `20 id 47 od`.

use super::figure::{goes_on, is_figure, is_inch_fraction};
use super::inch;
use super::quantity;
use super::vocabulary::{WORN, role_of};
use crate::lookup::reading::Role;
use crate::units::{LengthUnit, read_length};

/// True for a word that names a dimension.
pub(super) fn is_role(word: &str) -> bool {
    let lower = word.trim_end_matches([',', ';']).to_lowercase();
    role_of(&lower).is_some()
}

/// True for the second word of one name, which names nothing more: `housing bore`, `shaft dia`, `outer dia`.
pub(super) fn is_second_name(words: &[&str], at: usize) -> bool {
    const SECOND: [&str; 3] = ["dia", "bore", "bohrung"];
    const FIRST: [&str; 10] = [
        "housing", "shaft", "outer", "outside", "inner", "inside", "gehäuse", "welle", "bore",
        "journal",
    ];
    let bare = |word: &str| word.trim_end_matches([',', ';']).to_lowercase();
    let before = at.checked_sub(1).map(|before| bare(words[before]));
    before.is_some_and(|before| {
        FIRST.contains(&before.as_str()) && SECOND.contains(&bare(words[at]).as_str())
    })
}

/// True for a bore that something sits in, with its figure: `25x52x15 in bore 52`, `in a bore of 52`, `in 52 bore` name the
/// housing.
pub(super) fn is_in_bore(words: &[&str], at: usize) -> bool {
    const BORES: [&str; 3] = ["bore", "bohrung", "alésage"];
    const IN: [&str; 4] = ["in", "im", "into", "dans"];
    const ARTICLES: [&str; 5] = ["the", "a", "der", "einer", "un"];
    let is = |at: usize, list: &[&str]| list.contains(&words[at].to_lowercase().as_str());
    let Some(before) = at.checked_sub(1).filter(|_| is(at, &BORES)) else {
        return false;
    };
    const OF: [&str; 3] = ["of", "von", "de"];
    let has_figure = |at: usize| words.get(at).is_some_and(|word| is_figure(word));
    let is_of = words.get(at + 1).is_some() && is(at + 1, &OF) && has_figure(at + 2);
    let follows = follows_at_once(words, at) || is_of;
    let before = match !follows && is_figure(words[before]) {
        true => before.checked_sub(1),
        false => Some(before).filter(|_| follows),
    };
    let before = match before {
        Some(article) if is(article, &ARTICLES) => article.checked_sub(1),
        _ => before,
    };
    before.is_some_and(|before| is(before, &IN) && !inch::is_inch(words, before))
}

/// True for a figure that is a length: `3000 rpm` and `80 °C` tell of the place.
pub(super) fn is_length(words: &[&str], at: usize) -> bool {
    let next = words.get(at + 1).copied().unwrap_or_default();
    let is_heat = matches!(next.trim_end_matches([',', ';']), "°C" | "°F");
    is_figure(words[at]) && !is_heat && !quantity::is_apart(words, at + 1)
}

/// True where a figure follows the name of a dimension, at once or behind words that go with the name: `shaft diameter 30`.
pub(super) fn follows_at_once(words: &[&str], at: usize) -> bool {
    const WITH_NAME: [&str; 6] = ["diameter", "dia", "dia.", "durchmesser", "diamètre", "is"];
    let is_with_name = |word: &&&str| WITH_NAME.contains(&word.to_lowercase().as_str());
    // `25 bore, of 52 x 15`
    let behind = match words[at].ends_with([',', ';']) {
        true => &[][..],
        false => &words[at + 1..],
    };
    // `housing bore 62`, `housing bore worn 62`
    let second = (at + 1..at + 1 + behind.len()).take_while(|of| is_second_name(words, *of));
    let second = second.count();
    let is_worn = |word: &&&str| WORN.contains(&word.to_lowercase().as_str());
    let second = second
        + behind[second..]
            .iter()
            .take_while(is_worn)
            .count()
            .min(second);
    let between = behind[second..].iter().take_while(is_with_name).count();
    let next = words.get(at + 1 + second + between);
    next.is_some_and(|word| is_figure(word))
}

/// True for a name that cannot be that of the last of three figures: they stand as bore, outside and width, and the last is the
/// least (arithmetic of a ring).
pub(super) fn is_none_of_last(role: Role, words: &[&str], at: usize) -> bool {
    let before = figures(&words[..at]);
    let is_in_order = matches!(before[..], [(_, bore), (_, outside), (_, width)]
        if width < bore && bore < outside);
    is_in_order && matches!(role, Role::Inner | Role::Outer)
}

/// Whether the word at a place is of the figure before it; `None` where the figures leave it open.
///
/// The outside is the largest figure of a part, the bore is not, the width and a section are none the largest: arithmetic of
/// a ring.
pub(super) fn is_of_figure_before(role: Role, words: &[&str], at: usize) -> Option<bool> {
    // The inside of an O-ring is larger than its section.
    let is_o_ring = words.iter().any(|word| {
        let lower = word.trim_end_matches([',', ';']).to_lowercase();
        let is_section = role_of(&lower) == Some(Role::Section);
        lower.starts_with("o-ring") || lower.starts_with("oring") || is_section
    });
    if is_o_ring && matches!(role, Role::Inner | Role::Shaft) {
        return None;
    }
    let figures = figures(words);
    let before = figures.iter().rposition(|(place, _)| *place < at)?;
    let after = before + 1;
    let fits = |this: usize| {
        let (_, mm) = figures[this];
        let others = || {
            let rest = figures.iter().enumerate();
            rest.filter(move |(at, _)| *at != this)
                .map(|(_, (_, other))| *other)
        };
        match role {
            Role::Outer | Role::Housing => others().all(|other| other <= mm),
            Role::Inner | Role::Shaft | Role::Width => others().any(|other| other > mm),
            Role::Section => others().all(|other| other >= mm),
            _ => true,
        }
    };
    if after >= figures.len() {
        return None;
    }
    match (fits(before), fits(after)) {
        (true, false) => Some(true),
        (false, true) => Some(false),
        _ => None,
    }
}

/// Whether of the two figures around a place the one before it is the larger; `None` where there are no two.
pub(super) fn is_larger_before(words: &[&str], at: usize) -> Option<bool> {
    let figures = figures(words);
    let before = figures.iter().rposition(|(place, _)| *place < at)?;
    let (_, after_mm) = figures.get(before + 1)?;
    Some(figures[before].1 > *after_mm)
}

/// The single figures of a text, each with its place, in one unit.
fn figures(words: &[&str]) -> Vec<(usize, f64)> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let word = words[at].trim_end_matches([',', ';']);
        if !is_figure(word) {
            at += 1;
            continue;
        }
        let next = words.get(at + 1).copied().unwrap_or_default();
        let is_mixed = goes_on(word, next) && is_inch_fraction(next.trim_end_matches([',', ';']));
        let text = if is_mixed {
            format!("{word} {}", next.trim_end_matches([',', ';']))
        } else {
            word.to_owned()
        };
        if let Ok(read) = read_length(&text, LengthUnit::Inch) {
            found.push((at, read.length.to_mm()));
        }
        at += 1 + usize::from(is_mixed);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sizes_decide_where_a_word_stands_between_two() {
        for (text, role, is_before) in [
            ("25 od 52", Role::Outer, Some(false)),
            ("52 od 25", Role::Outer, Some(true)),
            ("3/4 od 1 5/8", Role::Outer, Some(false)),
            ("20 id 47 od", Role::Inner, Some(true)),
            ("47 id 20", Role::Inner, Some(false)),
            ("40 bore 80 18", Role::Inner, Some(true)),
            ("20 47 od 14", Role::Outer, Some(true)),
            ("62 w 16", Role::Width, Some(false)),
            ("3/32 section 1 id", Role::Section, Some(true)),
            ("40 cs 3.5", Role::Section, Some(false)),
            ("nut thread 25.1 od 38 7 wide", Role::Outer, Some(false)),
            ("40 x 80 wide", Role::Width, None),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            let at = words.iter().position(|word| is_role(word)).unwrap();
            assert_eq!(is_of_figure_before(role, &words, at), is_before, "{text}");
        }
    }

    #[test]
    fn a_bore_that_something_sits_in_is_told_from_its_own() {
        for (text, is_it) in [
            ("6205 in bore 52.03", true),
            ("6205 in a bore of 52.03", true),
            ("6205 in bore of 52.03", true),
            ("6205 in 52.03 bore", true),
            ("6205 in a 52.03 bore", true),
            ("6205 im Gehäuse Bohrung", false),
            ("25 bore 52 od", false),
            ("bore 25", false),
            ("bore of 25", false),
            ("2 in bore 4 in od", false),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            let at = words
                .iter()
                .position(|word| matches!(*word, "bore" | "Bohrung"));
            assert_eq!(is_in_bore(&words, at.unwrap()), is_it, "{text}");
        }
    }

    /// A pin has one diameter, and a nut its thread: neither has a housing (ISO 8734, ISO 2982-2).
    #[test]
    fn the_bore_that_a_pin_or_nut_sits_in_is_its_own() {
        use crate::lookup::{Question, answer};
        for (text, ends) in [
            ("pin 6x30 in bore 6.02", "6h8x30"),
            ("dowel pin in bore 6 length 30", "x30"),
            ("lock nut in bore 25", "KM5"),
            // Of a ring without another figure for its inside, too.
            ("O-ring in bore 45 section 3", "45x3"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let answers = answer(&question, None).answers;
            let first = answers.first().map(|one| one.designation.as_str());
            assert!(
                first.is_some_and(|name| name.ends_with(ends)),
                "{text}: {first:?}"
            );
        }
    }

    #[test]
    fn a_figure_with_a_unit_of_the_place_is_no_length() {
        for (text, at, is_it) in [
            ("25 52 15 shaft 3000 rpm", 4, false),
            ("25 52 15 5 bar", 3, false),
            ("25 52 15 shaft 30 mm", 4, true),
            ("shaft 30", 1, true),
            ("o-ring id 25 NBR", 2, true),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            assert_eq!(is_length(&words, at), is_it, "{text}");
        }
    }

    /// Arithmetic of a ring: of 25, 52 and 15 mm the last is no bore, as 52 mm would be the outside and 25 mm the width.
    #[test]
    fn the_least_of_three_figures_in_order_is_no_diameter() {
        for (text, role, is_it) in [
            ("25 52 15 bore", Role::Inner, true),
            ("25 52 15 od", Role::Outer, true),
            ("25 52 15 wide", Role::Width, false),
            ("15 52 25 bore", Role::Inner, false),
            ("15 25 52 od", Role::Outer, false),
            ("25 52 bore", Role::Inner, false),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            let at = words.len() - 1;
            assert_eq!(is_none_of_last(role, &words, at), is_it, "{text}");
        }
    }

    #[test]
    fn words_that_go_with_a_name_stand_before_its_figure() {
        for (text, at, follows) in [
            ("30 62 16 shaft diameter 30", 3, true),
            ("shaft dia 40", 0, true),
            ("shaft 40", 0, true),
            ("shaft, dia 40", 0, false),
            ("shaft speed 40", 0, false),
            ("25 shaft", 1, false),
            ("25 52 15 housing bore 52.05", 3, true),
            ("25 52 15 housing bore worn 52.05", 3, true),
            ("25 52 15 housing worn 52.05", 3, false),
            ("25 52 15 housing bore", 3, false),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            assert_eq!(follows_at_once(&words, at), follows, "{text}");
        }
    }

    /// DIN 3760: 40 x 62 x 7 mm; ISO 15: 6208 is 40 x 80 x 18 mm, 6205 25 x 52 x 15 mm, 6206 30 x 62 x 16 mm.
    #[test]
    fn the_last_of_three_figures_is_no_shaft() {
        use crate::lookup::{Question, answer};
        for (text, name) in [
            ("lip seal 40-62-7 shaft speed 6000 rpm", "40x62x7"),
            ("lip seal 40 62 7 shaft speed 6000", "40x62x7"),
            ("deep groove 40 80 18 shaft speed 3000 rpm", "6208"),
            ("deep groove 25 52 15 shaft 3000 rpm", "6205"),
            ("deep groove 30 62 16 shaft diameter 30", "6206"),
            ("deep groove 25 52 15 bore worn", "6205"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let left = &question.not_understood;
            assert!(left.is_empty(), "{text}: {left:?}");
            let answers = answer(&question, None).answers;
            let first = answers.first().map(|one| one.designation.as_str());
            assert_eq!(first, Some(name), "{text}");
        }
        let question = Question::read("deep groove 25 52 15 bore").unwrap();
        assert_eq!(question.not_understood, ["bore"]);
    }

    #[test]
    fn a_bore_behind_in_is_that_of_the_housing() {
        use crate::lookup::{Question, answer};
        for (text, name) in [
            ("deep groove 25 52 15 housing bore 52.05", "6205"),
            ("deep groove 25 52 15 housing bore worn 52.05", "6205"),
            ("deep groove 25x52x15 in bore 52", "6205"),
            ("6205 in bore 52.02", "6205"),
            ("lip seal 40 in bore 62 wide 7", "40x62x7"),
            ("lip seal 40 x 62 x 7 in bore 62", "40x62x7"),
            ("lip seal 40 x 62 x 7 in the bore 62", "40x62x7"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let roles: Vec<Option<Role>> = question.readings.iter().map(|of| of.role).collect();
            assert!(roles.contains(&Some(Role::Housing)), "{text}: {roles:?}");
            let answers = answer(&question, None).answers;
            let first = answers.first().map(|one| one.designation.as_str());
            assert_eq!(first, Some(name), "{text}");
        }
    }

    #[test]
    fn a_name_of_two_words_is_one() {
        for (text, is_second) in [
            ("housing bore 62", true),
            ("shaft dia 40", true),
            ("outer dia 62", true),
            ("62 bore", false),
            ("lip bore", false),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            assert_eq!(is_second_name(&words, 1), is_second, "{text}");
        }
    }
}
