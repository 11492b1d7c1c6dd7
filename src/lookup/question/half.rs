//! Half bearings: the cone or cup of a tapered bearing, a ring of a cylindrical one, a washer of a thrust bearing.

use super::Question;
use super::figure::is_figure;
use super::vocabulary::WORN;
use crate::part::designation::Designation;
use crate::part::{Family, PartClass};

/// Which half.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Half {
    /// Cone, inner ring, shaft washer.
    Inner,
    /// Cup, outer ring, housing washer.
    Outer,
}

/// Names of a half, in words.
const NAMES: [(&[&str], Half); 18] = [
    (&["inner", "ring"], Half::Inner),
    (&["inner", "race"], Half::Inner),
    (&["shaft", "washer"], Half::Inner),
    (&["bague", "intérieure"], Half::Inner),
    (&["bague", "interieure"], Half::Inner),
    (&["cone"], Half::Inner),
    (&["innenring"], Half::Inner),
    (&["wellenscheibe"], Half::Inner),
    (&["cône"], Half::Inner),
    (&["outer", "ring"], Half::Outer),
    (&["outer", "race"], Half::Outer),
    (&["housing", "washer"], Half::Outer),
    (&["bague", "extérieure"], Half::Outer),
    (&["bague", "exterieure"], Half::Outer),
    (&["cup"], Half::Outer),
    (&["außenring"], Half::Outer),
    (&["aussenring"], Half::Outer),
    (&["gehäusescheibe"], Half::Outer),
];
/// Before these words a ring only tells the whole bearing, or the cup is another kind of bearing.
const BEFORE: [&str; 11] = [
    "with", "without", "no", "w/o", "incl", "mit", "ohne", "avec", "sans", "both", "drawn",
];
/// Behind these words the half was only measured or looked at.
const BEHIND: [&str; 8] = [
    "bore", "id", "od", "is", "has", "measures", "turns", "spins",
];
/// Words that say again that it is only this half.
const ONLY: [&str; 6] = ["only", "alone", "just", "nur", "seul", "seule"];

/// Reads a question for half a bearing; `None` where it is for a whole part, or no bearing's number is in it.
pub(super) fn read(text: &str) -> Option<Question> {
    let (half, rest) = split(text)?;
    let mut question = Question::read_whole(&rest).ok()?;
    let family = question
        .family
        .filter(|of| of.class() == PartClass::Bearings)?;
    if question.designation.is_none() && question.partial.is_empty() {
        return None;
    }
    text.trim().clone_into(&mut question.text);
    match variant(half, family) {
        Some(variant) => add(&mut question, variant),
        None => question.read_as.push(format!(
            "the rings of a {family} are not parted: the whole bearing is exchanged"
        )),
    }
    Some(question)
}

/// Notes that only a half is wanted.
pub(super) fn add(question: &mut Question, variant: &str) {
    let known = &mut question.traits.variant;
    let is_said = |known: &String| known.split(", ").any(|piece| piece.ends_with(" only"));
    if !known.as_ref().is_some_and(is_said) {
        *known = Some(match known.take() {
            Some(others) => format!("{others}, {variant}"),
            None => variant.to_owned(),
        });
    }
}

/// What the half of a family is called; `None` where rings are not parted.
const fn variant(half: Half, family: Family) -> Option<&'static str> {
    use Family as F;
    Some(match (family, half) {
        (F::TaperedRoller, Half::Inner) => "cone only",
        (F::TaperedRoller, Half::Outer) => "cup only",
        (F::CylindricalRoller | F::NeedleRoller, Half::Inner) => "inner ring only",
        (F::CylindricalRoller | F::NeedleRoller, Half::Outer) => "outer ring only",
        (F::ThrustBall | F::ThrustNeedle, Half::Inner) => "shaft washer only",
        (F::ThrustBall | F::ThrustNeedle, Half::Outer) => "housing washer only",
        _ => return None,
    })
}

/// The half that a text names, and the text without its name.
fn split(text: &str) -> Option<(Half, String)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let bare = |word: &str| {
        word.trim_matches([',', ';', '.', ':', '(', ')'])
            .to_lowercase()
    };
    let lower: Vec<String> = words.iter().map(|word| bare(word)).collect();
    let has = |list: &[&str], at: Option<usize>| {
        at.and_then(|at| lower.get(at))
            .is_some_and(|word| list.contains(&word.as_str()))
    };
    let found = NAMES.iter().find_map(|(name, half)| {
        let at = lower
            .windows(name.len())
            .position(|window| window.iter().eq(name.iter()))?;
        Some((at, at + name.len(), *half))
    });
    let (mut start, mut end, half) = found?;
    if has(&BEFORE, start.checked_sub(1)) {
        return None;
    }
    while has(&ONLY, Some(end)) {
        end += 1;
    }
    while has(&ONLY, start.checked_sub(1)) {
        start -= 1;
    }
    let is_number = |word: &str| {
        Designation::parse(word).is_some_and(|read| crate::standard::resolve(&read).is_some())
    };
    let is_measured = words
        .get(end)
        .is_some_and(|next| is_figure(next) && !is_number(next));
    if is_measured || has(&BEHIND, Some(end)) || has(WORN, Some(end)) {
        return None;
    }
    let rest = words[..start].iter().chain(&words[end..]).copied();
    Some((half, rest.collect::<Vec<_>>().join(" ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_are_told_from_whole_bearings() {
        for (text, rest) in [
            ("30206 cone", Some("30206")),
            ("cup 30206", Some("30206")),
            ("inner ring only NU208 E", Some("NU208 E")),
            ("NU208 inner ring", Some("NU208")),
            ("51205 housing washer only", Some("51205")),
            ("Innenring NU205", Some("NU205")),
            ("30206 (cone)", Some("30206")),
            // The whole bearing is meant, or the ring was only measured.
            ("NA4904 without inner ring", None),
            ("6206 inner ring worn", None),
            ("inner ring 30.02 outer 62", None),
            ("6206 outer ring turns in its housing", None),
            ("drawn cup 20 x 26 x 20", None),
            ("30206", None),
        ] {
            let found = split(text).map(|(_, rest)| rest);
            assert_eq!(found.as_deref(), rest, "{text}");
        }
    }

    #[test]
    fn a_half_is_called_as_its_family_calls_it() {
        // ISO 5593 calls the rings of tapered roller bearings cone and cup, of thrust bearings washers.
        for (text, variant) in [
            ("30206 cone", Some("cone only")),
            ("30206 inner ring", Some("cone only")),
            ("30206 outer ring", Some("cup only")),
            ("NU205 inner ring", Some("inner ring only")),
            (
                "NU 2206 E outer ring",
                Some("increased capacity design (E), outer ring only"),
            ),
            ("51205 shaft washer", Some("shaft washer only")),
            // A deep groove ball bearing cannot be taken apart.
            ("6206 inner ring", None),
        ] {
            let question = read(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(question.traits.variant.as_deref(), variant, "{text}");
            assert_eq!(question.text, text);
            assert_eq!(variant.is_none(), !question.read_as.is_empty(), "{text}");
        }
        // Figures alone name no bearing that a half could be of.
        assert!(read("cone 30 x 62").is_none());
        assert!(read("cup of tea").is_none());
    }
}
