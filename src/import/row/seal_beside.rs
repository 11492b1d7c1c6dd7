//! What words beside the designation of an O-ring or a lip seal say of it: hardness, elastomer, a covered ring, form, rotation.

use crate::import::family_words::names_parts;
use crate::part::designation::elastomer;
use crate::part::{Family, SealForm};

/// Hardnesses of elastomers, Shore A: ISO 48-4, the range that designations are read in.
const SHORE: std::ops::RangeInclusive<u8> = 30..=98;
/// Words for the scale.
const SCALE: [&str; 4] = ["shore", "sh", "sha", "shorea"];
/// Behind these a figure is no hardness.
const OTHER_UNITS: [&str; 15] = [
    "bar", "rpm", "c", "°c", "°", "f", "°f", "deg", "mm", "pcs", "pc", "stk", "stück", "x", "m/s",
];
/// A ring of more than its elastomer: common practice, no source.
const COVERED: [&str; 10] = [
    "fep",
    "pfa",
    "encapsulated",
    "ummantelt",
    "ummantelter",
    "gekapselt",
    "coated",
    "beschichtet",
    "fep-ummantelt",
    "ptfe-beschichtet",
];
/// Words in front of a form of DIN 3760.
const FORMS: [&str; 4] = ["form", "bauform", "typ", "type"];
/// Longest form: `AS`.
const LONGEST_FORM: usize = 2;
/// Words for a rotation, beside which its side stands.
const ROTATIONS: [&str; 6] = [
    "drehrichtung",
    "drehsinn",
    "rotation",
    "rotating",
    "drehend",
    "laufend",
];
const RIGHT: [&str; 5] = ["right", "rechts", "right-hand", "clockwise", "cw"];
const LEFT: [&str; 7] = [
    "left",
    "links",
    "left-hand",
    "anticlockwise",
    "counterclockwise",
    "anti-clockwise",
    "ccw",
];
/// Words that say both.
const TURNING: [(&str, bool); 4] = [
    ("rechtslaufend", true),
    ("rechtsdrehend", true),
    ("linkslaufend", false),
    ("linksdrehend", false),
];
/// Shortest symbol that is no other word.
const SHORTEST_SYMBOL: usize = 3;

/// What words say of a seal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum OfSeal {
    /// Shore A.
    Hardness(u8),
    /// Symbol of ISO 1629.
    Elastomer(&'static str),
    /// More than its elastomer.
    Covered,
    /// Form of DIN 3760.
    Form(SealForm),
    /// The shaft turns one way only: it may have ribs for that.
    Turns {
        /// Right-hand.
        is_right: bool,
    },
}

impl OfSeal {
    /// True where a seal of the family can be so.
    pub(super) const fn is_of(self, family: Family) -> bool {
        match self {
            Self::Hardness(_) | Self::Elastomer(_) | Self::Covered => true,
            Self::Form(_) => family.facts().marks.has_seal_forms,
            Self::Turns { .. } => family.facts().exchange.has_lip(),
        }
    }
}

/// What stands at a place among words, with how many words it takes.
pub(super) fn said_at(words: &[&str], lower: &[String], at: usize) -> Option<(usize, OfSeal)> {
    let word = |at: usize| lower.get(at).map_or("", String::as_str);
    let is_scale = |at: usize| SCALE.contains(&word(at));
    let end_of_scale = |at: usize| at + 1 + usize::from(word(at + 1) == "a");
    if COVERED.contains(&word(at)) {
        return Some((1, OfSeal::Covered));
    }
    if let Some(found) = form_at(words, lower, at).or_else(|| rotation_at(lower, at)) {
        return Some(found);
    }
    let (letters, figure) = parted(word(at));
    if let Some(shore) = figure.filter(|_| SCALE.contains(&letters)) {
        return Some((1, OfSeal::Hardness(shore)));
    }
    if let Some(shore) = figure.filter(|_| letters.is_empty() && is_scale(at + 1)) {
        return Some((end_of_scale(at + 1) - at, OfSeal::Hardness(shore)));
    }
    if is_scale(at) {
        let end = end_of_scale(at);
        let (letters, figure) = parted(word(end));
        let shore = figure.filter(|_| letters.is_empty())?;
        return Some((end + 1 - at, OfSeal::Hardness(shore)));
    }
    // `NBR90`: the symbol was read by itself or is to be.
    let of_glued = elastomer(letters).and(figure);
    if let Some(shore) = of_glued {
        return Some((1, OfSeal::Hardness(shore)));
    }
    let (before, _) = at
        .checked_sub(1)
        .map_or(("", None), |before| parted(word(before)));
    if let Some(shore) = figure.filter(|_| letters.is_empty() && elastomer(before).is_some()) {
        let is_other = OTHER_UNITS.contains(&word(at + 1));
        return (!is_other).then_some((1, OfSeal::Hardness(shore)));
    }
    let symbol = words.get(at)?;
    let is_symbol =
        symbol.len() >= SHORTEST_SYMBOL && symbol.bytes().all(|byte| byte.is_ascii_uppercase());
    let found = elastomer(symbol).filter(|_| is_symbol)?;
    Some((1, OfSeal::Elastomer(found)))
}

/// A form at a place: `Form AS`, `oil seal AS NBR`. `A` by itself may be anything.
fn form_at(words: &[&str], lower: &[String], at: usize) -> Option<(usize, OfSeal)> {
    let form = |at: usize| {
        let code = words.get(at).filter(|code| code.len() <= LONGEST_FORM);
        let code = code.filter(|code| code.bytes().all(|byte| byte.is_ascii_uppercase()));
        code.and_then(|code| SealForm::from_code(code))
    };
    if FORMS.contains(&lower[at].as_str()) {
        return Some((2, OfSeal::Form(form(at + 1)?)));
    }
    let found = form(at)?;
    let before = at.checked_sub(1).map(|before| names_parts(words[before]));
    let behind = lower.get(at + 1).map(|next| elastomer(next).is_some());
    let is_told = match words[at].len() {
        LONGEST_FORM => before != Some(false) && behind != Some(false),
        _ => before == Some(true) && behind == Some(true),
    };
    is_told.then_some((1, OfSeal::Form(found)))
}

/// A rotation at a place: `Drehrichtung rechts`, `right hand rotation`.
fn rotation_at(lower: &[String], at: usize) -> Option<(usize, OfSeal)> {
    let word = |at: usize| lower.get(at).map_or("", String::as_str);
    let is_rotation = |at: usize| ROTATIONS.contains(&word(at));
    let side = |at: usize| {
        let is_right = RIGHT.contains(&word(at));
        (is_right || LEFT.contains(&word(at))).then_some(is_right)
    };
    let found = |count: usize, is_right: bool| (count, OfSeal::Turns { is_right });
    let mut both = TURNING.iter();
    if let Some((_, is_right)) = both.find(|(of, _)| *of == word(at)) {
        return Some(found(1, *is_right));
    }
    if is_rotation(at) {
        return side(at + 1).map(|is_right| found(2, is_right));
    }
    let is_right = side(at)?;
    let behind = at + 1 + usize::from(word(at + 1) == "hand");
    is_rotation(behind).then(|| found(behind + 1 - at, is_right))
}

/// The letters of a word and its figure, which may be a hardness: `nbr90`, `90sh`.
fn parted(word: &str) -> (&str, Option<u8>) {
    let is_digit = |c: char| c.is_ascii_digit();
    let letters = word.trim_matches(is_digit);
    let digits = word.strip_prefix(letters).or(word.strip_suffix(letters));
    let figure = digits.and_then(|digits| digits.parse().ok());
    (letters, figure.filter(|figure| SHORE.contains(figure)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(text: &str) -> Vec<OfSeal> {
        let words: Vec<&str> = text.split(' ').collect();
        let lower: Vec<String> = words.iter().map(|word| word.to_lowercase()).collect();
        let (mut found, mut at) = (Vec::new(), 0);
        while at < words.len() {
            let here = said_at(&words, &lower, at);
            found.extend(here.map(|(_, of)| of));
            at += here.map_or(1, |(count, _)| count);
        }
        found
    }

    /// ISO 48-4 (Shore A) and ISO 1629; that a ring may be covered is common practice, no source.
    #[test]
    fn hardness_and_elastomer_are_told_from_other_figures() {
        use OfSeal as S;
        for (text, all) in [
            ("O-ring NBR 90", &[S::Elastomer("NBR"), S::Hardness(90)][..]),
            ("O-ring NBR90", &[S::Hardness(90)]),
            ("90 Shore", &[S::Hardness(90)]),
            ("ring 90 Shore A black", &[S::Hardness(90)]),
            ("Shore A 75", &[S::Hardness(75)]),
            ("80sh", &[S::Hardness(80)]),
            ("FEP encapsulated", &[S::Covered, S::Covered]),
            ("FKM", &[S::Elastomer("FKM")]),
            ("NBR 90 °C", &[S::Elastomer("NBR")]),
            ("NBR 50 pcs", &[S::Elastomer("NBR")]),
            ("NBR 120", &[S::Elastomer("NBR")]),
            ("bin 90", &[]),
            ("silicone grease", &[]),
            // Forms of DIN 3760; which way a shaft turns is told in many ways.
            ("Form AS", &[S::Form(SealForm::As)]),
            (
                "Wellendichtring AS NBR",
                &[S::Form(SealForm::As), S::Elastomer("NBR")],
            ),
            (
                "Wellendichtring B FKM",
                &[S::Form(SealForm::B), S::Elastomer("FKM")],
            ),
            ("CS", &[S::Form(SealForm::Cs)]),
            ("same AS before", &[]),
            ("BS 1399", &[]),
            ("hall A", &[]),
            ("Drehrichtung rechts", &[S::Turns { is_right: true }]),
            ("left hand rotation", &[S::Turns { is_right: false }]),
            ("linksdrehend", &[S::Turns { is_right: false }]),
            ("right side", &[]),
            ("25x3", &[]),
        ] {
            assert_eq!(said(text), all, "{text}");
        }
    }
}
