//! Numbers that a description only mentions: `Housing for 6205`, `Spacer between 2x 6208`, `Puller 6206`.
//!
//! Who takes them for the part itself puts a housing on the shelf as a bearing.

use std::collections::HashSet;
use std::sync::OnceLock;

use crate::part::{Family, PartClass};

use super::family_words::{family_in, names_parts, singulars};
use super::fold::fold;
use super::shipped::lines;

/// The table as shipped.
const OTHER_THINGS_CSV: &str = include_str!("../../data/import/other_things.csv");
/// A word this much longer than its ending is a compound.
const LEAST_BEFORE_ENDING: usize = 3;

/// The words of one kind.
struct Words {
    thing: HashSet<&'static str>,
    ending: HashSet<&'static str>,
    mention: HashSet<&'static str>,
    place: HashSet<&'static str>,
    bearing: HashSet<&'static str>,
}

fn words() -> &'static Words {
    static WORDS: OnceLock<Words> = OnceLock::new();
    WORDS.get_or_init(|| {
        let of = |kind: &str| {
            lines(OTHER_THINGS_CSV)
                .filter(|(of, ..)| *of == kind)
                .flat_map(|(.., terms)| terms.split('|'))
                .collect()
        };
        Words {
            thing: of("thing"),
            ending: of("ending"),
            mention: of("mention"),
            place: of("place"),
            bearing: of("bearing"),
        }
    })
}

/// True where a row is named by the number that stands in its text between `before` and `behind`, which is one of `family`.
///
/// It is not where the words name another thing than a part of that family, or say that the number is what the part goes
/// with: `Circlip for bearing 6206` is no bearing, `Bearing for main pump 6206` is one.
pub fn is_the_part(before: &str, behind: &str, family: Option<Family>) -> bool {
    let (before, behind) = (fold(before), fold(behind));
    let before: Vec<&str> = before.split(' ').filter(|word| !word.is_empty()).collect();
    let behind: Vec<&str> = behind.split(' ').collect();
    let head = before_mention(&before);
    if names_thing(head) || starts_with_thing(&behind) {
        return false;
    }
    head.len() == before.len() || names(head, family)
}

/// True for a text whose words, as far as they tell what it is, name another thing than a part with a number.
pub fn names_another_thing(text: &str) -> bool {
    let folded = fold(text);
    let all: Vec<&str> = folded.split(' ').collect();
    names_thing(before_mention(&all))
}

/// The words before the first that says what a part goes with; all where none does.
fn before_mention<'a>(of: &'a [&'a str]) -> &'a [&'a str] {
    let is_mention = |at: &usize| is_folded_mention(of[*at], of.get(at + 1).copied());
    let end = (0..of.len()).find(is_mention).unwrap_or(of.len());
    &of[..end]
}

fn is_folded_mention(word: &str, next: Option<&str>) -> bool {
    let mention = &words().mention;
    let two = next.map(|next| format!("{word} {next}"));
    mention.contains(word) || two.is_some_and(|two| mention.contains(two.as_str()))
}

/// True for a word, with the next one, that says what a part goes with: `for`, `to suit`.
pub fn is_mention(word: &str, next: Option<&str>) -> bool {
    let next = next.map(fold);
    is_folded_mention(&fold(word), next.as_deref())
}

/// True where the words are for parts of the family, or for bearings where it is one.
fn names(head: &[&str], family: Option<Family>) -> bool {
    let text = head.join(" ");
    let (Some(of), Some(named)) = (family, family_in(&text)) else {
        let is_bearing = head.iter().any(|word| is_bearing_word(word));
        let is_asked_bearing = family.is_none_or(|family| family.class() == PartClass::Bearings);
        return if is_asked_bearing {
            is_bearing
        } else {
            !is_bearing && head.iter().any(|word| names_parts(word))
        };
    };
    of == named
}

/// True where a word of a text is one for bearings of any kind, or the text names a family of them.
pub fn names_bearings(text: &str) -> bool {
    fold(text).split(' ').any(is_bearing_word)
        || family_in(text).is_some_and(|family| family.class() == PartClass::Bearings)
}

fn is_bearing_word(word: &str) -> bool {
    singulars(word).any(|bare| {
        words().bearing.contains(bare) || bare.len() > "lager".len() && bare.ends_with("lager")
    })
}

/// True where a word names a thing and not, with the next one, where a part sits: `housing side`.
fn names_thing(of: &[&str]) -> bool {
    (0..of.len()).any(|at| starts_with_thing(&of[at..]))
}

fn starts_with_thing(of: &[&str]) -> bool {
    let Words {
        thing,
        ending,
        place,
        ..
    } = words();
    let Some(first) = of.first() else {
        return false;
    };
    // `Housing side` is a place, `shaft seal` and `coupling bearing` are parts.
    let is_told_otherwise = |next: &&str| {
        place.contains(next) || names_parts(next) || family_in(&format!("{first} {next}")).is_some()
    };
    if of.get(1).is_some_and(is_told_otherwise) || family_in(first).is_some() {
        return false;
    }
    let is_compound = |bare: &str| {
        ending
            .iter()
            .any(|end| bare.len() >= end.len() + LEAST_BEFORE_ENDING && bare.ends_with(end))
    };
    let two = of.get(1).map(|second| format!("{first} {second}"));
    two.is_some_and(|two| singulars(&two).any(|bare| thing.contains(bare)))
        || singulars(first).any(|bare| thing.contains(bare) || is_compound(bare))
}

#[cfg(test)]
mod tests {
    use super::*;

    const BALL: Option<Family> = Some(Family::DeepGrooveBall);

    /// Text before the number, behind it, and whether the number is the part (common practice, no source).
    const CASES: [(&str, &str, bool); 40] = [
        ("", "", true),
        ("Deep groove ball bearing ", "", true),
        ("Bearing ", " C3", true),
        ("Rillenkugellager ", "-2RS", true),
        ("Roulement ", "", true),
        ("Motor DE ", "-2RS C3", true),
        ("Bearing for main pump ", "", true),
        ("Pump bearing for line 3 ", "", true),
        ("Lager für Pumpe ", "", true),
        ("Roulement pour pompe ", "", true),
        ("Bearing, housing side, ", "", true),
        ("Bearing coupling side ", "", true),
        ("Bearing ", " housing side", true),
        ("Bearing ", " high temperature grease", true),
        ("Kugellager ", " Gehäuseseite", true),
        ("Housing for ", "", false),
        ("Housings for ", "", false),
        ("Bearing housing ", "", false),
        ("Bearing housing for ", "", false),
        ("Grease for ", " 2RS", false),
        ("Puller for ", "", false),
        ("Circlip for bearing ", "", false),
        ("Seal for bearing ", "", false),
        ("Oil seal for ", "", false),
        ("Seat washer, ", "", false),
        ("Spacer between 2x ", "", false),
        ("Adapter sleeve for 50 mm shaft, ", "", false),
        ("Lagergehäuse für ", "", false),
        ("Lagergehaeuse ", "", false),
        ("Spannhülse ", "", false),
        ("Abziehhülse für ", "", false),
        ("Ersatz für ", "", false),
        ("Palier pour roulement ", "", false),
        ("Soporte para rodamiento ", "", false),
        ("Supporto per cuscinetto ", "", false),
        ("Oprawa do lozyska ", "", false),
        ("Mancal para rolamento ", "", false),
        ("", " housing", false),
        ("", " puller", false),
        ("", " Gehäuse", false),
    ];

    #[test]
    fn a_number_that_is_only_mentioned_is_not_the_part() {
        for (before, behind, is) in CASES {
            let said = is_the_part(before, behind, BALL);
            assert_eq!(said, is, "{before}6205{behind}");
        }
    }

    #[test]
    fn a_ring_or_a_nut_for_something_is_of_its_own_family() {
        for (before, family, is) in [
            ("Circlip for shaft ", Family::ShaftRetainingRing, true),
            ("O-ring for cover ", Family::ORing, true),
            ("O-ring for valve ", Family::ORing, true),
            ("Lock nut for main shaft end ", Family::LockNut, true),
            ("Bearing for ", Family::ORing, false),
            ("Nadelhülse ", Family::DrawnCupNeedle, true),
        ] {
            assert_eq!(is_the_part(before, "", Some(family)), is, "{before}");
        }
    }

    #[test]
    fn types_that_name_another_thing() {
        for (text, is) in [
            ("housing", true),
            ("Gehäuse", true),
            ("Stehlagergehäuse", true),
            ("pillow block", true),
            ("bearing", false),
            ("Nadelhülse", false),
            ("deep groove ball bearing", false),
            ("ball bearing for shaft", false),
            ("shaft seal", false),
            ("coupling bearing", false),
            ("guide bush", true),
        ] {
            assert_eq!(names_another_thing(text), is, "{text}");
        }
    }
}
