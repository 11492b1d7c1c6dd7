//! Words that name a kind of part and no single family: a circlip for a shaft or a bore, a bearing of any type.

use super::figure::is_figure;
use crate::part::{Family, PartClass};

/// Retaining rings sit on a shaft or in a bore.
const RINGS: [Family; 2] = [Family::ShaftRetainingRing, Family::BoreRetainingRing];
/// Seals are read from their figures: two of an O-ring, three of a lip seal.
const SEALS: [Family; 2] = [Family::LipSeal, Family::ORing];
const BALLS: [Family; 4] = [
    Family::DeepGrooveBall,
    Family::AngularContactBall,
    Family::SelfAligningBall,
    Family::ThrustBall,
];
const ROLLERS: [Family; 3] = [
    Family::CylindricalRoller,
    Family::TaperedRoller,
    Family::SphericalRoller,
];

const NEEDLES: [Family; 4] = [
    Family::NeedleRoller,
    Family::NeedleRollerNoInnerRing,
    Family::DrawnCupNeedle,
    Family::NeedleCage,
];

/// A word, the word before it that belongs to it (empty for none), and the kind.
const WORDS: [(&str, &str, Kind); 36] = [
    ("circlip", "", Kind::Ring),
    ("circlips", "", Kind::Ring),
    ("snap-ring", "", Kind::Ring),
    ("sicherungsring", "", Kind::Ring),
    ("circlip-ring", "", Kind::Ring),
    ("ring", "retaining", Kind::Ring),
    ("ring", "snap", Kind::Ring),
    ("ring", "seeger", Kind::Ring),
    ("ball", "", Kind::Balls),
    ("balls", "", Kind::Balls),
    ("billes", "", Kind::Balls),
    ("kugeln", "", Kind::Balls),
    ("kugellager", "", Kind::Balls),
    ("roller", "", Kind::Rollers),
    ("rollers", "", Kind::Rollers),
    ("rouleaux", "", Kind::Rollers),
    ("rollen", "", Kind::Rollers),
    ("rollenlager", "", Kind::Rollers),
    ("needle", "", Kind::Needles),
    ("needles", "", Kind::Needles),
    ("nadeln", "", Kind::Needles),
    ("nadellager", "", Kind::Needles),
    ("bearing", "", Kind::Bearing),
    ("bearings", "", Kind::Bearing),
    ("lager", "", Kind::Bearing),
    ("wälzlager", "", Kind::Bearing),
    ("roulement", "", Kind::Bearing),
    ("roulements", "", Kind::Bearing),
    ("rodamiento", "", Kind::Bearing),
    ("cuscinetto", "", Kind::Bearing),
    ("rolamento", "", Kind::Bearing),
    ("łożysko", "", Kind::Bearing),
    ("seal", "", Kind::Seal),
    ("seals", "", Kind::Seal),
    ("dichtung", "", Kind::Seal),
    ("dichtungen", "", Kind::Seal),
];

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Ring,
    Balls,
    Rollers,
    Needles,
    Bearing,
    Seal,
}

/// Families of the kind of part that a text names first; none where it names none.
pub(super) fn families_in(text: &str) -> Vec<Family> {
    let words: Vec<String> = text
        .split_whitespace()
        .map(|word| word.trim_matches([',', ';', '.', ':']).to_lowercase())
        .collect();
    let kind = words.iter().enumerate().find_map(|(at, word)| {
        let before = at.checked_sub(1).map_or("", |at| words[at].as_str());
        let is_it = |(known, with, _): &&(&str, &str, Kind)| {
            known == word && (with.is_empty() || *with == before)
        };
        // `conveyor roller`, `ball valve` are places: one alone names a kind beside figures or before its bearing.
        let is_one = matches!(word.as_str(), "ball" | "roller");
        let next = words.get(at + 1).map_or("", String::as_str);
        let is_alone = at == 0 || is_figure(before) && next.is_empty();
        if is_one && !is_alone && !next.starts_with("bearing") {
            return None;
        }
        WORDS.iter().find(is_it).map(|(.., kind)| *kind)
    });
    match kind {
        None => Vec::new(),
        Some(Kind::Ring) => RINGS.to_vec(),
        Some(Kind::Seal) => SEALS.to_vec(),
        Some(Kind::Balls) => BALLS.to_vec(),
        Some(Kind::Rollers) => ROLLERS.to_vec(),
        Some(Kind::Needles) => NEEDLES.to_vec(),
        Some(Kind::Bearing) => Family::ALL
            .into_iter()
            .filter(|family| family.class() == PartClass::Bearings)
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_kind_leaves_its_families_open() {
        for (text, families) in [
            ("circlip 40", &RINGS[..]),
            ("retaining ring 40 mm", &RINGS),
            ("Sicherungsring 40", &RINGS),
            ("ball bearing 20 x 47 x 14", &BALLS),
            ("roller bearing 20 x 47 x 14", &ROLLERS),
            ("30 62 16 rollers", &ROLLERS),
            ("30 62 16 roller", &ROLLERS),
            ("roller 30 62 16", &ROLLERS),
            ("30 62 16 balls", &BALLS),
            ("30 62 20 needle", &NEEDLES),
            ("needle roller bearing 20 x 37 x 17", &NEEDLES),
            ("40x80x18 conveyor roller", &[]),
            ("40x80x18 ball valve", &[]),
            ("seal, 40 x 62 x 8", &SEALS),
            // What stands first is asked for.
            ("seal for the bearing 40 x 62 x 8", &SEALS),
            ("40x80x18", &[]),
            ("ring 40", &[]),
        ] {
            assert_eq!(families_in(text), families, "{text}");
        }
        let bearings = families_in("20 mm bearing");
        assert!(bearings.contains(&Family::NeedleCage) && !bearings.contains(&Family::LipSeal));
        assert_eq!(bearings, families_in("Lager 20 x 47 x 14"));
    }
}
