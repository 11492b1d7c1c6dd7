//! Words of the names of families: one is swallowed only where it names the part that the question is for.

use std::sync::LazyLock;

use super::Question;
use crate::import::family_in;
use crate::part::{Element, Family, PartKind, Way, WordMap};

/// True for the families whose name a word may belong to.
type Names = fn(Family) -> bool;

/// Words in lower case that follow from what a family is, and the families they name; what is a family's own is among its facts.
/// Terms of ISO 5593 and ISO 6194-1.
const GENERAL: [(&[&str], Names); 6] = [
    (
        &[
            "bearings",
            "wälzlager",
            "roulements",
            "rodamiento",
            "rodamientos",
            "cuscinetto",
            "rolamento",
        ],
        |family| family.is_of(PartKind::Bearing),
    ),
    (
        &[
            "balls",
            "kugeln",
            "billes",
            "kugellager",
            "bolas",
            "sfere",
            "esferas",
            "kulkowe",
        ],
        |family| family.rolls_on(Element::Balls),
    ),
    // A needle is a roller too.
    (
        &[
            "rollers",
            "rollen",
            "rouleaux",
            "rollenlager",
            "rodillos",
            "rulli",
            "rolos",
            "wałeczkowe",
        ],
        |family| family.rolls_on(Element::Rollers) || family.rolls_on(Element::Needles),
    ),
    (
        &[
            "needle",
            "needles",
            "nadeln",
            "aiguilles",
            "nadellager",
            "agujas",
            "rullini",
            "agulhas",
            "igiełkowe",
        ],
        |family| family.rolls_on(Element::Needles),
    ),
    (
        &["thrust", "axial", "axiallager", "axialkugellager", "butée"],
        Family::is_along_shaft,
    ),
    // Radial bearings and radial shaft seals.
    (&["radial"], |family| {
        family.facts().asked.way == Some(Way::Across)
    }),
];

/// A family's place in a set of them.
const fn bit(family: Family) -> u32 {
    1 << family as u32
}

const _: () = assert!(Family::ALL.len() <= u32::BITS as usize);

/// Words of names, with the families they name.
static NAMES: LazyLock<WordMap<u32>> = LazyLock::new(|| {
    WordMap::of_lists(Family::ALL.into_iter().flat_map(|family| {
        let is_of = move |(_, names): &(&[&str], Names)| names(family);
        let general = GENERAL.into_iter().filter(is_of);
        let own = family.facts().asked.words;
        let words = general.flat_map(|(words, _)| words).chain(own);
        words.map(move |word| (bit(family), *word))
    }))
});

/// True for a word of a name, so that it is not taken for a suffix.
pub(super) fn is_one(lower: &str) -> bool {
    NAMES.has(lower)
}

/// True where a word in lower case belongs to the name of a family.
pub(super) fn names(lower: &str, family: Family) -> bool {
    let is_word = NAMES.get(lower).is_some_and(|of| of & bit(family) != 0);
    is_word || family.facts().asked.loose_words.contains(&lower) || family_in(lower) == Some(family)
}

/// True where a word belongs to the name of the part that the question is for, or of a kind of part that it leaves open.
pub(super) fn names_part(question: &Question, lower: &str) -> bool {
    // A tapered bore is what the number says already.
    let is_bore =
        matches!(lower, "tapered" | "taper" | "conique") && question.traits.has_tapered_bore();
    let is_of = |family: Family| names(lower, family);
    let is_of_row = || question.partial.iter().any(|row| is_of(row.size.family()));
    is_bore
        || match question.family {
            Some(family) => is_of(family),
            None => question.families.iter().copied().any(is_of) || is_of_row(),
        }
}

/// Forgets words that name the part where what was read behind them tells which part it is: `nut M40 x 1.5`.
pub(super) fn drop_names_of_part(question: &mut Question) {
    let mut words = std::mem::take(&mut question.not_understood);
    words.retain(|word| {
        !is_one(&word.to_lowercase()) || !names_part(question, &word.to_lowercase())
    });
    question.not_understood = words;
}

#[cfg(test)]
mod tests {
    use super::*;

    fn not_understood(text: &str) -> Vec<String> {
        let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        question.not_understood
    }

    #[test]
    fn a_name_of_the_part_asked_for_is_swallowed() {
        for text in [
            "30 x 62 x 16 deep groove",
            "radial ball bearing 30 x 62 x 16",
            "roulement à rouleaux 40x80x18",
            "roulement à billes 30x62x16",
            "rodamiento de bolas 30x62x16",
            "radial shaft seal 40 x 62 x 8",
            "30 62 16 balls",
            "30206 taper roller",
            "needle roller bearing 20 x 37 x 17",
            "circlip 40",
            "6206 radial",
            "KM8 nut",
            "nut M40 x 1.5",
            "22208 K tapered",
        ] {
            assert_eq!(not_understood(text), Vec::<String>::new(), "{text}");
        }
    }

    /// ISO 15: 6206 is a deep groove ball bearing; ISO 104: 51105 a thrust ball bearing.
    #[test]
    fn a_name_of_another_part_is_told() {
        for (text, words) in [
            ("6206 contact", "contact"),
            ("6206 rotary", "rotary"),
            ("6206 cage", "cage"),
            ("6206 internal", "internal"),
            ("6206 parallel", "parallel"),
            ("51105 radial", "radial"),
            ("30 x 62 x 16 contact", "contact"),
            ("NU206 deep", "deep"),
        ] {
            assert_eq!(not_understood(text), [words], "{text}");
        }
    }

    #[test]
    fn every_word_names_some_family() {
        for (words, is_of) in GENERAL {
            assert!(Family::ALL.into_iter().any(is_of), "{words:?}");
            assert!(words.iter().all(|word| is_one(word)));
        }
        for family in Family::ALL {
            for word in family.facts().asked.words {
                assert!(is_one(word) && names(word, family), "{family}: {word}");
            }
        }
    }

    /// ISO 5593: needle rollers are rollers, the axial load of a bearing goes along its shaft; ISO 6194-1 is of radial shaft seals.
    #[test]
    fn words_for_elements_and_ways_are_of_every_family_that_has_them() {
        for (word, named, other) in [
            ("rollers", Family::DrawnCupNeedle, Family::ThrustBall),
            ("needles", Family::ThrustNeedle, Family::CylindricalRoller),
            ("balls", Family::ThrustBall, Family::NeedleCage),
            ("axial", Family::ThrustNeedle, Family::NeedleRoller),
            ("radial", Family::LipSeal, Family::ThrustBall),
            ("bearings", Family::CombinedNeedleThrust, Family::LockNut),
            ("cylindrical", Family::DowelPin, Family::TaperedRoller),
            ("rings", Family::ORing, Family::LipSeal),
        ] {
            assert!(names(word, named), "{word}: {named}");
            assert!(!names(word, other), "{word}: {other}");
        }
        // `rings` behind a number may be of anything.
        assert!(!is_one("rings"));
    }
}
