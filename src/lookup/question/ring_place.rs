//! A retaining ring that is said to sit on a shaft and in a bore: `DIN 471 52 bore`. Neither is dropped in silence.

use super::figure::is_figure;
use super::vocabulary::FREE;
use super::{Question, kind, retaining_ring, standard_name};
use crate::import::family_in;
use crate::lookup::reading::Role;
use crate::part::{Family, PartKind};

/// Words that are of the ring's own inside and outside as well.
const SIDES: [&str; 13] = [
    "internal",
    "int",
    "innen",
    "intérieur",
    "interieur",
    "interior",
    "external",
    "ext",
    "außen",
    "aussen",
    "extérieur",
    "exterieur",
    "exterior",
];
/// Words for the hole of a free ring too.
const HOLES: [&str; 4] = ["bore", "bohrung", "bohrungen", "alésage"];

/// Tells a ring that is said to be of either kind; where no number says which it is, both are left.
pub(super) fn note(question: &mut Question) {
    if !retaining_ring::is_asked_for(question) {
        return;
    }
    let said = said(question);
    let Some((first, family)) = said.first() else {
        return;
    };
    let Some((other, _)) = said.iter().find(|(_, of)| of != family) else {
        return;
    };
    question.notes.push(format!(
        "`{first}` and `{other}` contradict each other: see whether the ring sits on a shaft or in a bore, and ask again with the one that is right"
    ));
    let suffixes = &mut question.traits.unknown_suffixes;
    suffixes.retain(|suffix| suffix.to_lowercase() != other.to_lowercase());
    if !question.not_understood.contains(other) {
        question.not_understood.push(other.clone());
    }
    if question.designation.is_some() || !question.partial.is_empty() {
        return;
    }
    question.family = None;
    question.families = kind::families_of(PartKind::Ring);
    for reading in &mut question.readings {
        let is_seat = |role: &Role| {
            matches!(
                role,
                Role::Shaft | Role::Housing | Role::Inner | Role::Outer
            )
        };
        reading.role = reading.role.filter(|role| !is_seat(role));
    }
}

/// What the text says of the kind of ring, and by which words: its standard first, then the words in their order.
fn said(question: &Question) -> Vec<(String, Family)> {
    let number = question.designation.as_ref().and_then(|designation| {
        let (standard, _) = designation.basic.split_once('-')?;
        Some((standard.to_owned(), designation.family?))
    });
    let standard = number.or_else(|| standard_name::first_in(&question.text));
    let mut said: Vec<(String, Family)> = standard
        .filter(|(_, family)| retaining_ring::is_ring(*family))
        .into_iter()
        .collect();
    let words: Vec<&str> = question
        .text
        .split_whitespace()
        .map(|word| word.trim_matches([',', ';', ':', '.', '(', ')']))
        .collect();
    let is_free = words
        .iter()
        .any(|word| FREE.contains(&word.to_lowercase().as_str()));
    for (at, word) in words.iter().enumerate() {
        let lower = word.to_lowercase();
        let (is_side, is_hole) = (
            SIDES.contains(&lower.as_str()),
            HOLES.contains(&lower.as_str()),
        );
        // `DIN 472-40 außen 43.5`: the ring itself was measured.
        let is_measured =
            question.designation.is_some() && words.get(at + 1).is_some_and(|next| is_figure(next));
        let is_of_ring = is_free && (is_side || is_hole) || is_measured && is_side;
        if let Some(family) = place_of(&lower).filter(|_| !is_of_ring) {
            said.push(((*word).to_owned(), family));
        }
    }
    said
}

/// The kind of ring that a word in lower case is of.
fn place_of(lower: &str) -> Option<Family> {
    let has_word = |family: &Family| {
        let mut lists = family.facts().asked.seat_words.iter();
        lists.any(|list| list.contains(&lower))
    };
    (Family::ALL.into_iter().find(has_word))
        .or_else(|| family_in(lower).filter(|family| retaining_ring::is_ring(*family)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::Verdict;
    use crate::lookup::answer;

    /// DIN 471 is for shafts, DIN 472 for bores.
    #[test]
    fn a_ring_that_is_said_to_sit_in_two_places_is_told() {
        for (text, says, is_open) in [
            ("DIN 471 52 bore", "`DIN 471` and `bore`", false),
            ("DIN 472 25 shaft", "`DIN 472` and `shaft`", false),
            ("DIN 472 52 shaft", "`DIN 472` and `shaft`", false),
            ("DIN 472-62 für Welle", "`DIN 472` and `Welle`", false),
            ("DIN 471-52 housing", "`DIN 471` and `housing`", false),
            (
                "Sicherungsring DIN 471 für Bohrung 40",
                "`DIN 471` and `Bohrung`",
                true,
            ),
            ("circlip shaft 52 bore", "`shaft` and `bore`", true),
            ("internal circlip 25 shaft", "`internal` and `shaft`", true),
            (
                "Wellensicherungsring DIN 472 40",
                "`DIN 472` and `Wellensicherungsring`",
                true,
            ),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let told = question.notes.join("; ");
            assert!(
                told.contains(&format!("{says} contradict")),
                "{text}: {told}"
            );
            let other = says.rsplit('`').nth(1).unwrap_or_default();
            assert_eq!(question.not_understood, [other], "{text}");
            assert_eq!(question.family.is_none(), is_open, "{text}");
            let answers = answer(&question, None);
            assert!(!answers.answers.is_empty(), "{text}");
            for one in &answers.answers {
                let verdict = one.judgement.verdict;
                assert!(verdict > Verdict::AsItIs, "{text}: {}", one.designation);
            }
        }
    }

    /// DIN 471-52 and DIN 472-52 are both in the tables.
    #[test]
    fn both_kinds_are_shown_where_no_number_says_which() {
        let question = Question::read("circlip shaft 52 bore").unwrap();
        let answers = answer(&question, None).answers;
        for standard in ["DIN 471-52", "DIN 472-52"] {
            let mut names = answers.iter().map(|one| one.designation.as_str());
            assert!(names.any(|name| name.starts_with(standard)), "{standard}");
        }
    }

    #[test]
    fn what_agrees_or_is_of_the_free_ring_is_not_told() {
        for text in [
            "DIN 471 52 shaft",
            "DIN 472 52 bore",
            "Sicherungsring innen 40",
            "circlip for 62 bore",
            "external circlip for shaft 25",
            "external circlip free bore 23.2",
            "DIN 472-40 außen 43.5",
            "circlip 40",
            "6205 shaft 25 housing 52",
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let told = question.notes.join("; ");
            assert!(!told.contains("contradict"), "{text}: {told}");
        }
    }
}
