//! Words of the names of families: one is swallowed only where it names the part that the question is for.

use super::Question;
use crate::import::family_in;
use crate::part::{Family, PartClass};

/// True for the families whose name a word may belong to.
type Names = fn(Family) -> bool;

const fn has_balls(family: Family) -> bool {
    use Family as F;
    matches!(
        family,
        F::DeepGrooveBall
            | F::AngularContactBall
            | F::SelfAligningBall
            | F::ThrustBall
            | F::CombinedNeedleThrust
    )
}

const fn has_needles(family: Family) -> bool {
    use Family as F;
    matches!(
        family,
        F::NeedleRoller
            | F::NeedleRollerNoInnerRing
            | F::DrawnCupNeedle
            | F::NeedleCage
            | F::ThrustNeedle
            | F::CombinedNeedleThrust
    )
}

const fn has_rollers(family: Family) -> bool {
    use Family as F;
    let is_roller = matches!(
        family,
        F::CylindricalRoller | F::TaperedRoller | F::SphericalRoller
    );
    is_roller || has_needles(family)
}

/// True for the bearings that carry load along the shaft.
pub(super) const fn is_thrust(family: Family) -> bool {
    use Family as F;
    matches!(
        family,
        F::ThrustBall | F::ThrustNeedle | F::CombinedNeedleThrust
    )
}

const fn is_ring(family: Family) -> bool {
    use Family as F;
    matches!(family, F::ShaftRetainingRing | F::BoreRetainingRing)
}

fn is_bearing(family: Family) -> bool {
    family.class() == PartClass::Bearings
}

/// Words in lower case and the families they name. Terms of ISO 5593, ISO 6194-1, ISO 3601-1, DIN 471, DIN 981 and ISO 2338.
const WORDS: [(&[&str], Names); 22] = [
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
        is_bearing,
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
        has_balls,
    ),
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
        has_rollers,
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
        has_needles,
    ),
    (&["deep", "dgbb", "rillenkugellager"], |family| {
        family == Family::DeepGrooveBall
    }),
    (&["groove"], |family| {
        matches!(family, Family::DeepGrooveBall | Family::ORing) || is_ring(family)
    }),
    (&["angular", "contact"], |family| {
        matches!(
            family,
            Family::AngularContactBall | Family::CombinedNeedleThrust
        )
    }),
    (&["self-aligning", "aligning"], |family| {
        matches!(family, Family::SelfAligningBall | Family::SphericalRoller)
    }),
    (
        &[
            "tapered",
            "taper",
            "kegelrollenlager",
            "conique",
            "coniques",
        ],
        |family| family == Family::TaperedRoller,
    ),
    (&["cylindrical", "cylindriques"], |family| {
        matches!(family, Family::CylindricalRoller | Family::DowelPin)
    }),
    (&["spherical", "barrel", "barrel-shaped"], |family| {
        family == Family::SphericalRoller
    }),
    (&["drawn"], |family| family == Family::DrawnCupNeedle),
    (&["cup"], |family| {
        matches!(family, Family::DrawnCupNeedle | Family::TaperedRoller)
    }),
    (&["cage", "assembly"], |family| {
        matches!(family, Family::NeedleCage | Family::ThrustNeedle)
    }),
    (
        &["thrust", "axial", "axiallager", "axialkugellager", "butée"],
        is_thrust,
    ),
    (&["combined"], |family| {
        family == Family::CombinedNeedleThrust
    }),
    (&["oil", "rotary", "wellendichtring"], |family| {
        family == Family::LipSeal
    }),
    // Radial bearings and radial shaft seals.
    (&["radial"], |family| {
        family == Family::LipSeal || is_bearing(family) && !is_thrust(family)
    }),
    (
        &["o-ring", "oring", "o-rings", "orings", "torique", "o"],
        |family| family == Family::ORing,
    ),
    (
        &[
            "circlip",
            "circlips",
            "retaining",
            "sicherungsring",
            "snap",
            "anneau",
            "segment",
            "d'arrêt",
            "élastique",
            "anillo",
            "seguridad",
            "retención",
            "elástico",
            "internal",
            "external",
            "int",
            "ext",
        ],
        is_ring,
    ),
    (
        &[
            "lock",
            "locknut",
            "nut",
            "nuts",
            "mutter",
            "nutmutter",
            "wellenmutter",
        ],
        |family| family == Family::LockNut,
    ),
    (
        &[
            "dowel",
            "dowels",
            "pin",
            "pins",
            "parallel",
            "zylinderstift",
            "goupille",
        ],
        |family| family == Family::DowelPin,
    ),
];

/// True for a word of a name, so that it is not taken for a suffix.
pub(super) fn is_one(lower: &str) -> bool {
    WORDS.iter().any(|(words, _)| words.contains(&lower))
}

/// True where a word in lower case belongs to the name of a family.
pub(super) fn names(lower: &str, family: Family) -> bool {
    let is_word = WORDS
        .iter()
        .any(|(words, names)| words.contains(&lower) && names(family));
    is_word
        || lower == "rings" && (is_ring(family) || family == Family::ORing)
        || family_in(lower) == Some(family)
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
        for (words, names) in WORDS {
            assert!(Family::ALL.into_iter().any(names), "{words:?}");
            assert!(words.iter().all(|word| is_one(word)));
        }
    }
}
