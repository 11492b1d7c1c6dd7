//! Words that name a kind of part and no single family: a circlip for a shaft or a bore, a bearing of any type.

use super::figure::is_figure;
use super::rolls_on;
use crate::part::designation::closure_words;
use crate::part::{Closure, Element, Family, PartKind as Kind};

/// A word, the word before it that belongs to it (empty for none), and the kind.
const WORDS: [(&str, &str, Kind); 43] = [
    ("circlip", "", Kind::Ring),
    ("circlips", "", Kind::Ring),
    ("snap-ring", "", Kind::Ring),
    ("sicherungsring", "", Kind::Ring),
    ("circlip-ring", "", Kind::Ring),
    ("ring", "retaining", Kind::Ring),
    ("ring", "snap", Kind::Ring),
    ("rings", "retaining", Kind::Ring),
    ("rings", "snap", Kind::Ring),
    ("élastique", "anneau", Kind::Ring),
    ("d'arrêt", "anneau", Kind::Ring),
    ("d'arrêt", "segment", Kind::Ring),
    ("seguridad", "de", Kind::Ring),
    ("retención", "de", Kind::Ring),
    ("elástico", "anillo", Kind::Ring),
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

/// The kind of bearing that rolls on these.
const fn rolling_on(element: Element) -> Kind {
    match element {
        Element::Balls => Kind::Balls,
        Element::Rollers => Kind::Rollers,
        Element::Needles => Kind::Needles,
    }
}

/// Families of the kind of part that a text names first; none where it names none.
pub(super) fn families_in(text: &str) -> Vec<Family> {
    let words: Vec<String> = text
        .split_whitespace()
        .map(|word| word.trim_matches([',', ';', '.', ':']).to_lowercase())
        .collect();
    let found = words.iter().enumerate().find_map(|(at, word)| {
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
        let kind = WORDS.iter().find(is_it).map(|(.., kind)| *kind)?;
        if kind == Kind::Seal && is_closure(&words, at) {
            return None;
        }
        let element = rolls_on::behind(&words, at).filter(|_| kind == Kind::Bearing);
        let kind = element.map_or(kind, rolling_on);
        Some((kind, carries(&words, at)))
    });
    let Some((kind, carries)) = found else {
        return Vec::new();
    };
    let mut families = families_of(kind);
    families.retain(|family| carries.is_none_or(|along| along == family.is_along_shaft()));
    families
}

/// True for seals that close a bearing: `17x40x12 2 seals`, `seals both sides`; two seals in front of a size are two parts.
fn is_closure(words: &[String], at: usize) -> bool {
    const TWO: [&str; 9] = [
        "2",
        "2x",
        "two",
        "both",
        "zwei",
        "beide",
        "beiden",
        "beidseitig",
        "beidseitige",
    ];
    const ONE: [&str; 7] = ["1", "1x", "one", "single", "ein", "eine", "une"];
    const LINKS: [&str; 7] = ["on", "at", "an", "auf", "the", "den", "der"];
    const COUNTS: [&str; 8] = [
        "one", "both", "each", "two", "beiden", "beide", "einer", "jeder",
    ];
    const SIDES: [&str; 6] = ["side", "sides", "seite", "seiten", "ends", "faces"];
    const SIDED: [&str; 4] = ["beidseitig", "beidseits", "einseitig", "einseits"];
    let word = |at: usize| words.get(at).map_or("", String::as_str);
    let is_of_seal = |word: &str| closure_words::says_rubber(word) || word == "contact";
    let first = (0..at).rev().find(|before| !is_of_seal(word(*before)));
    let has_size = |before: usize| {
        let mut words = words[..before].iter();
        words.any(|word| word.contains(|c: char| c.is_ascii_digit()))
    };
    // `17x40x12 1 seal`, `25x52x15 RS seal`
    let says = |word: &str| {
        let mark = Closure::from_code(&word.to_uppercase());
        let is_mark = mark.is_some_and(|closure| closure != Closure::Open);
        TWO.contains(&word) || ONE.contains(&word) || is_mark
    };
    let is_counted = first.is_some_and(|count| says(word(count)) && has_size(count));
    let mut end = at + 1;
    while LINKS.contains(&word(end)) {
        end += 1;
    }
    let has_sides = COUNTS.contains(&word(end)) && SIDES.contains(&word(end + 1));
    is_counted || has_sides || SIDED.contains(&word(end))
}

/// True for `axial` beside the name of a kind of bearing, false for `radial`: along the shaft, or across it.
fn carries(words: &[String], at: usize) -> Option<bool> {
    const FURTHEST: usize = 2;
    let way = |word: &str| match word {
        "axial" | "thrust" => Some(true),
        "radial" => Some(false),
        _ => None,
    };
    let before = words[..at].iter().rev().take(FURTHEST);
    // `rodamiento axial`, but not `bearing axial load`.
    let behind = words.get(at + 1).filter(|_| {
        let next = words.get(at + 2).map_or("", String::as_str);
        next.is_empty() || is_figure(next)
    });
    before.chain(behind).find_map(|word| way(word))
}

/// The families of a kind, in their order.
pub(super) fn families_of(kind: Kind) -> Vec<Family> {
    let families = Family::ALL.into_iter();
    families.filter(|family| family.is_of(kind)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    /// Terms of ISO 5593: a ball bearing rolls on balls, a roller bearing on rollers that are no needles.
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
    const RINGS: [Family; 2] = [Family::ShaftRetainingRing, Family::BoreRetainingRing];
    const SEALS: [Family; 2] = [Family::LipSeal, Family::ORing];

    #[test]
    fn a_kind_leaves_its_families_open() {
        for (text, families) in [
            ("circlip 40", &RINGS[..]),
            ("retaining ring 40 mm", &RINGS),
            ("Sicherungsring 40", &RINGS),
            ("anneau élastique 40", &RINGS),
            ("segment d'arrêt 40", &RINGS),
            ("anillo de seguridad 40", &RINGS),
            ("anillo elástico 40", &RINGS),
            ("ball bearing 20 x 47 x 14", &BALLS),
            ("roller bearing 20 x 47 x 14", &ROLLERS),
            ("30 62 16 rollers", &ROLLERS),
            ("30 62 16 roller", &ROLLERS),
            ("roller 30 62 16", &ROLLERS),
            ("30 62 16 balls", &BALLS),
            ("30 62 20 needle", &NEEDLES),
            ("needle roller bearing 20 x 37 x 17", &NEEDLES),
            ("roulement à rouleaux 40x80x18", &ROLLERS),
            ("roulement à billes 30x62x16", &BALLS),
            ("roulement à aiguilles 20x37x17", &NEEDLES),
            ("rodamiento de rodillos 40x80x18", &ROLLERS),
            ("bearing, ball 30x62x16", &BALLS),
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
        // DIN 623-1: 2RS is a seal on each side; a count behind the size is of what closes it (common practice, no source).
        for text in [
            "17x40x12 2 seals",
            "17 40 12 2 seals",
            "17x40x12 with 2 rubber seals",
            "17x40x12 seals both sides",
            "17x40x12 seal on one side",
            "bore 17 od 40 width 12, 2 seals",
            "17x40x12 mit zwei Dichtungen",
            "17x40x12 Dichtung beidseitig",
            "17x40x12 1 seal",
            "17x40x12 one rubber seal",
            "17x40x12 eine Dichtung",
            "25x52x15 RS seal",
            "25x52x15 2RS seals",
        ] {
            assert!(families_in(text).is_empty(), "{text}");
        }
        for text in [
            "2 seals 40x62x8",
            "two rubber seals 40 x 62 x 8",
            "40x62x8 seals",
            "40x62x8 NBR seal",
            "1 seal 40x62x8",
        ] {
            assert_eq!(families_in(text), SEALS, "{text}");
        }
        // DIN 623-1: RS closes one side, 2RS both. ISO 15: 6203 is 17 x 40 x 12 mm, 6205 is 25 x 52 x 15.
        for (text, closure) in [
            ("17x40x12 1 seal", Closure::SealOneSide),
            ("25x52x15 RS seal", Closure::SealOneSide),
            ("25x52x15 2RS seals", Closure::SealBothSides),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(question.traits.closure, Some(closure), "{text}");
            let left = &question.not_understood;
            assert!(left.is_empty(), "{text}: {left:?}");
            assert_eq!(question.readings.len(), 3, "{text}: {question:?}");
        }
        // A word for the way of the load in front of the kind is part of its name (ISO 5593).
        for text in ["radial bearing 20 47 14", "radial roller bearing 20 47 14"] {
            let families = families_in(text);
            assert!(families.contains(&Family::CylindricalRoller), "{text}");
            assert!(!families.contains(&Family::ThrustBall), "{text}");
        }
        for text in ["axial bearing 20 40 14", "rodamiento axial 20 40 14"] {
            let along = families_in(text);
            assert!(along.contains(&Family::ThrustBall), "{text}");
            assert!(!along.contains(&Family::DeepGrooveBall), "{text}");
        }
        let bearings = families_in("20 mm bearing");
        assert!(bearings.contains(&Family::NeedleCage) && !bearings.contains(&Family::LipSeal));
        assert_eq!(bearings, families_in("Lager 20 x 47 x 14"));
    }
}
