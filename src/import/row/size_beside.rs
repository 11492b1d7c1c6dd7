//! Sizes in the words of a row: one beside a designation that names another, and two in one text.
//!
//! `6308`, described as `45x100x25` or `bore 45`, is no 6308 for certain; a part of two sizes has none.

use crate::import::family_words::family_in;
use crate::import::other_thing::{is_mention, names_another_thing};
use crate::part::{Dimension, Family, InSets, SizeKey};
use crate::units::{Length, LengthUnit};

use super::named_length::{Named, named_lengths, names_length, place_of};
use super::piece_beside::is_packing;
use super::printed_size::{Printed, contradicts, size_of_word, sizes_in};
use super::remark::names_place;

/// Bearings of one set.
const SETS: std::ops::RangeInclusive<i64> = 2..=4;
/// A bare figure further off than this is of something else.
const FARTHEST: i64 = 2;
/// Words for the unit behind a size.
const INCHES: [&str; 4] = ["in", "inch", "inches", "zoll"];

/// What words say of the size of a part beside its designation.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum SizeBeside {
    /// Another size, for certain of the part.
    Other(Printed),
    /// Words that may name another size.
    Doubtful(String),
}

/// A size in the words beside a designation that is not the one the designation names: `6308`, described as `45x100x25`,
/// `bore 45 mm` or `d=45 D=100 B=25`. `Bore 45` may be of something near the part and is doubted.
///
/// Of families that lists tell in whole figures only: O-rings are also called by their nominal inches.
pub(super) fn other_size(
    text: &str,
    standard: &SizeKey,
    unit: LengthUnit,
    is_set: bool,
) -> Option<SizeBeside> {
    let family = standard.family();
    let is_told = family.facts().exchange.listed.is_size_told;
    if !is_told || text.contains('/') || !may_hold_size(text) || names_another_thing(text) {
        return None;
    }
    let pieces = words_of_part(text, family);
    let words = pieces.join(" ");
    let wanted = family.key_dimensions().len();
    let sizes = sizes_in(&words, wanted, unit);
    let is_other = |found: &Printed| contradicts(&without_ring_width(found, family), standard);
    let only = sizes.len() == 1 && !says_inches(&words);
    let other = sizes.iter().find(|(word, found)| {
        // Beside the size itself, or with the unit behind it, the same in inches is no other one.
        let inches = || size_of_word(word, wanted, LengthUnit::Inch);
        is_other(found) && (only || inches().is_none_or(|inches| is_other(&inches)))
    });
    if let Some((word, found)) = other {
        return match without_set_width(found, standard).filter(|one| !is_other(one)) {
            Some(_) if is_set => None,
            Some(_) => Some(SizeBeside::Doubtful(word.clone())),
            None => Some(SizeBeside::Other(*found)),
        };
    }
    let named: Vec<Named> = (pieces.iter())
        .flat_map(|piece| named_lengths(piece, family, unit))
        .collect();
    other_length(&named, standard, is_set)
}

/// What lengths that words name say beside the size of the designation.
fn other_length(named: &[Named], standard: &SizeKey, is_set: bool) -> Option<SizeBeside> {
    let of_one = |one: &Named| {
        let mut printed: Printed = [None; 4];
        printed[one.place] = Some(one.length);
        printed
    };
    let is_other = |one: &&Named| contradicts(&of_one(one), standard);
    let is_of_set = |one: &Named| without_set_width(&of_one(one), standard).is_some();
    let is_near = |one: &Named| {
        let known = standard.length_at(one.place).map_or(0, Length::as_nm);
        let told = one.length.length.as_nm();
        one.length.is_unit_stated || told <= FARTHEST * known && known <= FARTHEST * told
    };
    // `ID 45` and `B=4` may be any number, unless another length stands with it.
    let is_alone = named.len() == 1;
    let is_read = |one: &&Named| {
        let is_vague = one.is_vague && is_alone && !one.length.is_unit_stated;
        !is_vague && (is_near(one) || is_of_set(one)) && !(is_set && is_of_set(one))
    };
    let others: Vec<&Named> = named.iter().filter(is_read).filter(is_other).collect();
    let first = others.first()?;
    let is_sure = others.len() > 1
        || first.length.is_unit_stated
        || first.is_letter && named.iter().filter(|one| one.is_letter).count() > 1;
    if !is_sure || is_of_set(first) {
        return Some(SizeBeside::Doubtful(first.words.clone()));
    }
    let mut printed: Printed = [None; 4];
    for one in named.iter().filter(is_read) {
        printed[one.place] = printed[one.place].or(Some(one.length));
    }
    Some(SizeBeside::Other(printed))
}

/// A size without its width, where that is the width of several bearings of the size side by side.
fn without_set_width(size: &Printed, standard: &SizeKey) -> Option<Printed> {
    let family = standard.family();
    if family.facts().exchange.in_sets == InSets::Alone {
        return None;
    }
    let at = place_of(family, Dimension::Width).or_else(|| cone_and_cup(family))?;
    let (told, one) = ((*size.get(at)?)?, standard.length_at(at)?);
    let is_of = |count: i64| {
        let together = Length::from_nm(count * one.as_nm());
        together.is_ok_and(|together| told.may_be(together))
    };
    let mut rest = *size;
    rest[at] = None;
    SETS.into_iter().any(is_of).then_some(rest)
}

/// True where the unit of a size in a text is the inch.
fn says_inches(text: &str) -> bool {
    let mut words = text.split([' ', ',', ')']);
    words.any(|word| INCHES.contains(&word.to_lowercase().as_str()))
}

/// True for a text in which a size may stand.
fn may_hold_size(text: &str) -> bool {
    let has_figure = text.bytes().any(|byte| byte.is_ascii_digit());
    let mut words = text.split([' ', ',', ':', ';']);
    has_figure && (text.contains(['x', 'X', '×', '*', '=']) || words.any(names_length))
}

/// Two sizes of so many lengths in one text that are not the same in millimetres and inches.
pub(super) fn two_sizes(text: &str, wanted: usize, unit: LengthUnit) -> Option<(String, String)> {
    let sizes = sizes_in(text, wanted, unit);
    let ((first, size), others) = sizes.split_first()?;
    let is_other = |(word, other): &&(String, Printed)| {
        let in_inches = |word: &str| size_of_word(word, wanted, LengthUnit::Inch);
        !may_be_one(size, other)
            && !in_inches(word).is_some_and(|inches| may_be_one(&inches, size))
            && !in_inches(first).is_some_and(|inches| may_be_one(&inches, other))
    };
    let (other, _) = others.iter().find(is_other)?;
    Some((first.clone(), other.clone()))
}

/// True where two printed sizes may be of one part, by the digits that they have.
fn may_be_one(one: &Printed, other: &Printed) -> bool {
    one.iter().zip(other).all(|lengths| match lengths {
        (Some(one), Some(other)) => one.may_be(other.length) || other.may_be(one.length),
        (None, None) => true,
        _ => false,
    })
}

/// The words of a text that are said of a part of the family: not of its packing, its place, another part or what it goes with.
fn words_of_part(text: &str, family: Family) -> Vec<String> {
    // `62,5` is one figure.
    let pieces = text.split(';').flat_map(|part| part.split(", "));
    let is_of_part = |piece: &String| {
        let mut words = piece.split_whitespace();
        let is_elsewhere = words.any(|word| names_place(word) || is_packing(&word.to_lowercase()));
        !is_elsewhere && family_in(piece).is_none_or(|of| of == family)
    };
    pieces.map(before_mention).filter(is_of_part).collect()
}

/// The words of a text before the first that says what a part goes with.
fn before_mention(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let is_mention = |at: &usize| is_mention(words[*at], words.get(at + 1).copied());
    let end = (0..words.len()).find(is_mention).unwrap_or(words.len());
    words[..end].join(" ")
}

/// A size without T of a tapered roller bearing: B of its cone is told as often.
fn without_ring_width(size: &Printed, family: Family) -> Printed {
    let mut sure = *size;
    if let Some(at) = cone_and_cup(family) {
        sure[at] = None;
    }
    sure
}

/// The place of T, the width of cone and cup together, among the key dimensions of a family.
pub(super) fn cone_and_cup(family: Family) -> Option<usize> {
    place_of(family, Dimension::AssembledWidth)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standard;

    /// The lengths of another size, or the words that are doubted.
    fn told(number: &str, text: &str) -> Option<Vec<String>> {
        let size = standard::find(number).unwrap().size;
        Some(match other_size(text, &size, LengthUnit::Mm, false)? {
            SizeBeside::Other(found) => {
                let lengths = found.iter().flatten();
                lengths.map(|read| format!("{:#}", read.length)).collect()
            }
            SizeBeside::Doubtful(words) => vec![words],
        })
    }

    #[test]
    fn another_size_is_told_in_figures_by_words_and_by_letters() {
        // ISO 15: 6308 is 40 x 90 x 23, 6309 45 x 100 x 25 mm; ISO 355: 30210 is 50 x 90 x 21.75 mm with B 20; ISO 104: 51210
        // is 50 x 78 x 22 mm; DIN 3760: 40 x 62 x 7 mm.
        for (number, text, other) in [
            ("6308", "ball bearing 45x100x25", &["45", "100", "25"][..]),
            ("6308", "40x90x23, 45x100x25", &["45", "100", "25"]),
            ("6308", "bearing bore 45", &["bore 45"]),
            ("6308", "bore 45, OD 100", &["45", "100"]),
            ("6308", "bore 40, OD 100", &["OD 100"]),
            ("6308", "ID 45 OD 100", &["45", "100"]),
            ("6308", "d=45", &["d=45"]),
            ("6308", "bore 3 in", &["76.2"]),
            ("6308", "Bohrung 45 mm", &["45"]),
            ("6308", "45 mm bore", &["45"]),
            ("6308", "d=45 D=100 B=25", &["45", "100", "25"]),
            ("6308", "d = 40, D = 100", &["40", "100"]),
            ("6308", "OD 100mm", &["100"]),
            ("30210", "d=50 D=90 T=23", &["50", "90", "23"]),
            ("51210", "d=50 D=80 H=22", &["50", "80", "22"]),
            ("40x62x7", "oil seal 45x62x8", &["45", "62", "8"]),
        ] {
            let other: Vec<String> = other.iter().map(|of| (*of).to_owned()).collect();
            assert_eq!(told(number, text), Some(other), "{number}: {text}");
        }
        for (number, text) in [
            ("6308", "ball bearing 40x90x23"),
            ("6308", "40x90x23 (1.575x3.543x0.906)"),
            ("6308", "bore 40, OD 90, width 23"),
            ("6308", "d=40 D=90 B=23"),
            ("6308", "housing bore 90"),
            ("6308", "1.575 x 3.543 x 0.906 in"),
            ("6308", "equipment ID 45"),
            ("6308", "ID 45"),
            ("6308", "ID: 55"),
            ("6308", "ID 4711"),
            ("6308", "outside 3"),
            ("6308", "OD 2"),
            ("6308", "B=4"),
            ("6308", "belt width 50"),
            ("6308", "cylinder bore 80"),
            ("6308", "bore 39.98 measured"),
            ("6308", "box 100x100x50"),
            ("6308", "40x90x23, oil seal 45x62x8"),
            ("6308", "for seal 45x100x25"),
            ("6308", "bin 45"),
            ("30210", "50x90x20"),
            ("30210", "d=50 D=90 B=20"),
            ("AS568-214", "O-ring 1x1.25"),
        ] {
            assert_eq!(told(number, text), None, "{number}: {text}");
        }
    }

    #[test]
    fn two_sizes_of_one_text_are_two_parts_unless_one_is_the_other_in_inches() {
        let two = |text: &str| two_sizes(text, 3, LengthUnit::Mm);
        let names = |one: &str, other: &str| Some((one.to_owned(), other.to_owned()));
        let found = two("ball bearing 40x90x23, 45x100x25");
        assert_eq!(found, names("40x90x23", "45x100x25"));
        let found = two("40x90x23 or 40x80x18");
        assert_eq!(found, names("40x90x23", "40x80x18"));
        // Arithmetic: 40, 90 and 23 mm are 1.575, 3.543 and 0.906 in.
        for text in [
            "ball bearing 40x90x23",
            "40x90x23 = 40 x 90 x 23",
            "40x90x23 (1.575x3.543x0.906)",
            "1.575x3.543x0.906 (40x90x23)",
            "ball bearing",
        ] {
            assert_eq!(two(text), None, "{text}");
        }
    }

    #[test]
    fn the_width_of_a_set_is_that_of_several_bearings() {
        // ISO 15: 7206 is 30 x 62 x 16 mm, two of them are 32 mm wide and four 64 mm.
        let size = standard::find("7206").unwrap().size;
        let told = |text: &str, is_set| other_size(text, &size, LengthUnit::Mm, is_set);
        for text in ["width 32", "30x62x32", "B=64 mm", "Breite 32 mm"] {
            assert_eq!(told(text, true), None, "{text}");
            let found = told(text, false);
            assert!(
                matches!(found, Some(SizeBeside::Doubtful(_))),
                "{text}: {found:?}"
            );
        }
        for text in ["width 40 mm", "30x62x40"] {
            let found = told(text, true);
            assert!(
                matches!(found, Some(SizeBeside::Other(_))),
                "{text}: {found:?}"
            );
        }
    }
}
