//! Part families named in words: type columns and descriptions of several languages.

use std::collections::HashMap;
use std::sync::OnceLock;

use crate::part::{Family, WordMap};

use super::fold::{fold, join_umlauts};
use super::shipped::lines;

/// The table as shipped.
const FAMILY_WORDS_CSV: &str = include_str!("../../data/import/family_words.csv");
/// Endings of plurals, and none.
const PLURALS: [&str; 6] = ["", "s", "e", "es", "n", "en"];

/// A folded word or several, with the family it names; `None` for part words that name no single family.
type Term = (String, Option<Family>);

/// Terms by their first word, the longest first.
fn terms() -> &'static WordMap<Vec<Term>> {
    static TERMS: OnceLock<WordMap<Vec<Term>>> = OnceLock::new();
    TERMS.get_or_init(|| {
        let mut terms: HashMap<String, Vec<Term>> = HashMap::new();
        for (family, _, words) in lines(FAMILY_WORDS_CSV) {
            for term in words.split('|').map(fold) {
                let first = term.split(' ').next().unwrap_or_default().to_owned();
                terms
                    .entry(first)
                    .or_default()
                    .push((term, Family::from_code(family)));
            }
        }
        for of_one_word in terms.values_mut() {
            of_one_word.sort_by(|a, b| b.0.len().cmp(&a.0.len()).then_with(|| a.cmp(b)));
        }
        terms.into_iter().collect()
    })
}

/// The family that a text names; `None` where it names none, a class only, or two.
///
/// The longest known word wins, so that a needle roller bearing with inner ring is not just a needle bearing.
pub fn family_in(text: &str) -> Option<Family> {
    if text.len() > 400 || !text.contains(char::is_alphabetic) {
        return None;
    }
    let folded = fold(text);
    if let Some(family) = Family::from_code(&folded.replace(' ', "_")) {
        return Some(family);
    }
    of_folded(&folded).or_else(|| join_umlauts(&folded).and_then(|joined| of_folded(&joined)))
}

/// A word as it stands and without each ending that may make it a plural.
pub fn singulars(word: &str) -> impl Iterator<Item = &str> {
    (PLURALS.iter()).filter_map(move |ending| word.strip_suffix(ending))
}

/// True for a text that is a word for parts, of one family or of several: `O-ring`, `bearings`.
pub fn names_parts(text: &str) -> bool {
    let folded = fold(text);
    let first = folded.split(' ').next().unwrap_or_default();
    let is_whole = |(term, _): &Term| {
        let behind = folded.strip_prefix(term.as_str());
        behind.is_some_and(|behind| PLURALS.contains(&behind))
    };
    singulars(first)
        .filter_map(|bare| terms().get(bare))
        .any(|of_word| of_word.iter().any(is_whole))
}

fn of_folded(folded: &str) -> Option<Family> {
    let mut longest: Option<&Term> = None;
    let mut at = 0;
    for word in folded.split(' ') {
        for of_word in singulars(word).filter_map(|bare| terms().get(bare)) {
            let found = of_word
                .iter()
                .find(|(term, _)| starts_with_term(&folded[at..], term));
            if let Some(found) =
                found.filter(|found| longest.is_none_or(|longest| found.0.len() > longest.0.len()))
            {
                longest = Some(found);
            }
        }
        at += word.len() + 1;
    }
    longest.and_then(|(_, family)| *family)
}

/// True where a text begins with a term as whole words, perhaps in the plural.
fn starts_with_term(text: &str, term: &str) -> bool {
    text.strip_prefix(term)
        .is_some_and(|behind| PLURALS.contains(&behind.split(' ').next().unwrap_or_default()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_names_a_family_or_none() {
        for (family, _, _) in lines(FAMILY_WORDS_CSV) {
            assert!(
                family == "-" || Family::from_code(family).is_some(),
                "{family}"
            );
        }
    }

    #[test]
    fn every_family_has_words_in_seven_languages() {
        for family in Family::ALL {
            for language in ["en", "de", "fr", "es", "it", "pl", "pt"] {
                let has =
                    lines(FAMILY_WORDS_CSV).any(|(f, l, _)| f == family.code() && l == language);
                assert!(has, "{family} has no word in {language}");
            }
        }
    }

    #[test]
    fn families_are_found_in_descriptions() {
        for (text, family) in [
            (
                "Deep groove ball bearing 6305-2RS",
                Some(Family::DeepGrooveBall),
            ),
            ("Rillenkugellager", Some(Family::DeepGrooveBall)),
            ("RILLENKUGELLAGER 6305", Some(Family::DeepGrooveBall)),
            ("Roulement rigide à billes", Some(Family::DeepGrooveBall)),
            ("Schraegkugellager", Some(Family::AngularContactBall)),
            ("O-Rings NBR", Some(Family::ORing)),
            ("Wellendichtringe", Some(Family::LipSeal)),
            ("thrust ball bearing", Some(Family::ThrustBall)),
            ("Łożysko stożkowe", Some(Family::TaperedRoller)),
            ("needle roller bearing", None),
            ("ball bearing", None),
            ("pump impeller", None),
            ("deep_groove_ball", Some(Family::DeepGrooveBall)),
        ] {
            assert_eq!(family_in(text), family, "{text}");
        }
    }
}
