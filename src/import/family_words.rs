//! Part families named in words: type columns and descriptions of several languages.

use std::sync::OnceLock;

use crate::part::Family;

use super::fold::{fold, join_umlauts};
use super::synonyms::lines;

/// The table as shipped.
const FAMILY_WORDS_CSV: &str = include_str!("../../data/import/family_words.csv");

/// Folded words with their family; `None` for part words that name no single family. Longest first.
fn words() -> &'static [(String, Option<Family>)] {
    static WORDS: OnceLock<Vec<(String, Option<Family>)>> = OnceLock::new();
    WORDS.get_or_init(|| {
        let mut words: Vec<(String, Option<Family>)> = lines(FAMILY_WORDS_CSV)
            .flat_map(|(family, _, words)| {
                words
                    .split('|')
                    .map(move |word| (fold(word), Family::from_code(family)))
            })
            .collect();
        words.sort_by(|a, b| b.0.len().cmp(&a.0.len()).then_with(|| a.cmp(b)));
        words.dedup();
        words
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

fn of_folded(folded: &str) -> Option<Family> {
    words()
        .iter()
        .find(|(word, _)| holds_word(folded, word))
        .and_then(|(_, family)| *family)
}

/// True where `word` stands in `text` as whole words, perhaps in the plural.
fn holds_word(text: &str, word: &str) -> bool {
    let mut from = 0;
    while let Some(at) = text[from..].find(word).map(|at| from + at) {
        let before = text[..at].chars().next_back();
        let behind = text[at + word.len()..]
            .split(' ')
            .next()
            .unwrap_or_default();
        let is_plural = matches!(behind, "" | "s" | "e" | "es" | "n" | "en");
        if before.is_none_or(|c| c == ' ') && is_plural {
            return true;
        }
        from = at + word.len();
    }
    false
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
    fn every_family_has_words_in_six_languages() {
        for family in Family::ALL {
            for language in ["en", "de", "fr", "es", "it", "pl"] {
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
