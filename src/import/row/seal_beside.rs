//! What words beside the designation of an O-ring or a lip seal say of it: hardness, elastomer, a covered ring.

use crate::part::designation::elastomer;

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
}

/// What stands at a place among words, with how many words it takes.
pub(super) fn said_at(words: &[&str], lower: &[String], at: usize) -> Option<(usize, OfSeal)> {
    let word = |at: usize| lower.get(at).map_or("", String::as_str);
    let is_scale = |at: usize| SCALE.contains(&word(at));
    let end_of_scale = |at: usize| at + 1 + usize::from(word(at + 1) == "a");
    if COVERED.contains(&word(at)) {
        return Some((1, OfSeal::Covered));
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
            ("25x3", &[]),
        ] {
            assert_eq!(said(text), all, "{text}");
        }
    }
}
