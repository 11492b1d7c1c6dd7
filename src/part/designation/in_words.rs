//! Reads the words of the trade in the name of a part: behind its number as marks are, or in front of it.

use super::parsed::Designation;
use super::trade_words::{self, Half, Said};
use crate::part::{PartClass, ToleranceClass};

/// What a word or phrase of a name says.
#[derive(Clone, Copy)]
enum Word {
    Said(Said),
    Class(ToleranceClass),
}

impl Word {
    /// The longest phrase at a place, with how many words it takes.
    fn at(words: &[String], at: usize) -> Option<(usize, Self)> {
        // `1:12` alone is two numbers among the pieces of a name.
        let is_word = words[at].starts_with(char::is_alphabetic);
        let said = || trade_words::at(words, at).map(|(count, said)| (count, Self::Said(said)));
        let class =
            || trade_words::class_at(words, at).map(|(count, class)| (count, Self::Class(class)));
        class().or_else(said).filter(|_| is_word)
    }

    /// Writes it into the traits; false where they say otherwise or the part cannot be so.
    fn set(self, designation: &mut Designation) -> bool {
        let (traits, family) = (&mut designation.traits, designation.family);
        match self {
            Self::Said(said) => said.set(traits, family),
            Self::Class(class) => {
                let is_bearing = family.is_some_and(|of| of.class() == PartClass::Bearings);
                let known = traits.tolerance_class;
                let is_free =
                    known.is_none_or(|known| known == ToleranceClass::Normal || known == class);
                if is_bearing && is_free {
                    traits.tolerance_class = Some(class);
                }
                is_bearing && is_free
            }
        }
    }
}

/// Shortest word that may say something, but for those of stainless steel.
const SHORTEST: usize = 3;
/// Marks of stainless steel in the trade: common practice, no source.
const STEELS: [&str; 3] = ["SS", "V2A", "V4A"];

fn may_begin(token: &str) -> bool {
    let is_word = token.chars().all(char::is_alphabetic) && token.len() >= SHORTEST;
    let is_class = token.starts_with("ABEC");
    if !is_word && !is_class && !STEELS.contains(&token) {
        return false;
    }
    let lower = token.to_lowercase();
    trade_words::is_class_word(&lower) || trade_words::may_begin(&lower, |_| true)
}

/// Reads the pieces behind a number in their order: words that are understood, and by `other` those that are none; `None`
/// as soon as that gives it.
pub(super) fn each<'a>(
    designation: &mut Designation,
    tokens: &[&'a str],
    mut other: impl FnMut(&mut Designation, &'a str) -> Option<()>,
) -> Option<()> {
    if !tokens.iter().any(|token| may_begin(token)) {
        return tokens
            .iter()
            .try_for_each(|token| other(designation, token));
    }
    let lower: Vec<String> = tokens.iter().map(|token| token.to_lowercase()).collect();
    let is_whole = names_both_halves(&lower);
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        // `only inner ring` says the same as `inner ring only`.
        let is_only = trade_words::says_only(&lower[at]);
        if is_only && matches!(trade_words::at(&lower, at + 1), Some((_, Said::Half(_)))) {
            at += 1;
            continue;
        }
        let word = Word::at(&lower, at).filter(|(_, word)| {
            let is_half = matches!(word, Word::Said(Said::Half(_)));
            !is_half || !is_whole && !is_measured(&lower, at)
        });
        match word {
            Some((count, word)) if word.set(designation) => {
                designation.is_in_words |= !is_own_name(word, &lower[at..at + count]);
                at += count;
            }
            _ => {
                other(designation, token)?;
                at += 1;
            }
        }
    }
    Some(())
}

/// True where both halves are named, which makes the whole bearing.
fn names_both_halves(lower: &[String]) -> bool {
    let names = |half: Half| {
        (0..lower.len())
            .any(|at| trade_words::at(lower, at).is_some_and(|(_, said)| said == Said::Half(half)))
    };
    names(Half::Inner) && names(Half::Outer)
}

/// True where a figure stands behind the name of a half, which was only measured.
fn is_measured(lower: &[String], at: usize) -> bool {
    let end = trade_words::at(lower, at).map_or(at, |(count, _)| at + count);
    lower
        .get(end)
        .is_some_and(|next| next.starts_with(|c: char| c.is_ascii_digit()))
}

/// True where a single word is the name that the part goes by: it may stand in an order as it is written.
fn is_own_name(word: Word, lower: &[String]) -> bool {
    match (word, lower) {
        (Word::Said(Said::Variant(name)), [one]) => name.split(' ').any(|piece| piece == one),
        _ => false,
    }
}

/// Reads a bearing with words in front of its number: `cone 30205`, `Innenring NU205`.
pub(super) fn in_front(
    text: &str,
    read: impl Fn(&str) -> Option<Designation>,
) -> Option<Designation> {
    let (first, _) = text.split_once(' ')?;
    if !may_begin(first.split('-').next()?) {
        return None;
    }
    let words: Vec<&str> = text.split(' ').collect();
    let lower: Vec<String> = words.iter().map(|word| word.to_lowercase()).collect();
    let (count, word) = Word::at(&lower, 0)?;
    let mut designation = read(&words[count..].join(" "))?;
    let is_bearing = designation
        .family
        .is_some_and(|family| family.class() == PartClass::Bearings);
    let is_whole = names_both_halves(&lower) && matches!(word, Word::Said(Said::Half(_)));
    if !is_bearing || is_whole || !word.set(&mut designation) {
        return None;
    }
    designation.is_in_words = true;
    Some(designation)
}

/// Takes the words that are understood out of the suffixes that no standard explains.
pub(super) fn understand(designation: &mut Designation) {
    let unknown = std::mem::take(&mut designation.traits.unknown_suffixes);
    let tokens: Vec<&str> = unknown.iter().map(String::as_str).collect();
    let _: Option<()> = each(designation, &tokens, |designation, token| {
        designation.add_unknown(token);
        Some(())
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::part::SealForm;

    fn read(text: &str) -> Designation {
        Designation::parse(text).unwrap_or_else(|| panic!("{text}"))
    }

    #[test]
    fn names_say_what_questions_ask_for() {
        // DIN 623-1, DIN 3760 and ISO 8734 leave these designs to words; terms of ISO 5593 and common practice.
        for (text, variant) in [
            ("NU205 inner ring", "inner ring only"),
            ("NU205 C3 inner ring only", "inner ring only"),
            ("NU205 only inner ring", "inner ring only"),
            (
                "NU2206 E inner ring",
                "increased capacity design (E), inner ring only",
            ),
            ("30205 cone", "cone only"),
            ("cone 30205", "cone only"),
            ("Innenring NU205", "inner ring only"),
            ("only cup 30205", ""),
            ("51205 shaft washer", "shaft washer only"),
            ("6316 current insulated", "current insulated"),
            ("6316 C3 insulated", "current insulated"),
            ("6205 ceramic", "hybrid"),
            ("6205 ceramic balls", "hybrid"),
            ("hybrid 6205", "hybrid"),
            ("6205-2RS food grade", "food-grade grease"),
            ("22208 split", "split"),
            (
                "40x62x8 A NBR right-hand helix",
                "ribs for right-hand rotation",
            ),
            (
                "40x62x8 A ribs for both rotations",
                "ribs for both rotations",
            ),
            ("40x62x8 Rechtsdrall", "ribs for right-hand rotation"),
            ("40x62x8 A pressure profile", "pressure profile"),
            ("KM10 stainless", "stainless"),
            ("ISO 8734 6x30 hardened", "hardened"),
            ("dowel pin 6x30 hardened", "hardened"),
        ] {
            let Some(read) = Designation::parse(text) else {
                assert!(variant.is_empty(), "{text}");
                continue;
            };
            assert_eq!(read.traits.variant.as_deref(), Some(variant), "{text}");
            assert!(read.traits.unknown_suffixes.is_empty(), "{text}: {read:?}");
            assert_eq!(read.printed, text);
        }
    }

    #[test]
    fn words_that_cannot_be_said_of_the_part_stay_unknown() {
        for (text, unknown) in [
            ("6205 cone", &["CONE"][..]),
            ("30205 cone and cup", &["CONE", "AND", "CUP"]),
            ("NA4904 without inner ring", &["WITHOUT", "INNER", "RING"]),
            ("6308 left-hand helix", &["LEFT", "HAND", "HELIX"]),
            ("6205 hardened", &["HARDENED"]),
            ("ISO 2338 6m6x30 hardened", &["HARDENED"]),
            ("6205 J brass cage", &["BRASS", "CAGE"]),
            ("6205 class 7", &["CLASS", "7"]),
            ("40x62x8 NBR double lip", &["DOUBLE", "LIP"]),
        ] {
            assert_eq!(read(text).traits.unknown_suffixes, unknown, "{text}");
        }
    }

    #[test]
    fn a_name_in_words_has_what_a_marked_one_has() {
        // ABMA 20 and ISO 492; DIN 623-1; DIN 3760.
        for (text, marked) in [
            ("6205 ABEC 5", "6205 P5"),
            ("6205 ABEC-7", "6205 P4"),
            ("6205 C3 class 5", "6205 C3 P5"),
            ("22208 tapered bore", "22208 K"),
            ("7205 B back-to-back", "7205 B DB"),
            ("6205 snap ring groove", "6205 N"),
            ("6205 with-snap-ring", "6205 with NR"),
            ("6205 brass cage", "6205 M"),
        ] {
            assert_eq!(read(text).traits, read(marked).traits, "{text}");
        }
        let lip = read("40x62x8 B dust lip").traits;
        assert_eq!(lip.seal_form, Some(SealForm::Bs));
    }

    #[test]
    fn an_elastomer_behind_a_seal_is_the_seals() {
        let fkm = read("6205-2RS FKM").traits;
        assert_eq!(fkm.material.as_deref(), Some("FKM"));
        assert!(fkm.unknown_suffixes.is_empty());
        // An open or shielded bearing has no seal that could be of it.
        assert_eq!(read("6205 FKM").traits.unknown_suffixes, ["FKM"]);
        assert_eq!(read("6205-2Z NBR").traits.unknown_suffixes, ["NBR"]);
        assert_eq!(read("6205-2RZ FKM").traits.unknown_suffixes, ["FKM"]);
    }

    #[test]
    fn names_that_need_no_translation_are_told_from_those_that_do() {
        for (text, is_in_words) in [
            ("6205 hybrid", false),
            ("6205 insulated C3", false),
            ("6205 ceramic", true),
            ("NU205 inner ring", true),
            ("hybrid 6205", true),
            ("6205-2RS C3", false),
        ] {
            assert_eq!(read(text).is_in_words, is_in_words, "{text}");
        }
    }
}
