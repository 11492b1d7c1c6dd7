//! Sizes in the words of a row: one beside a designation that names another, and two in one text.
//!
//! `6308`, described as `45x100x25` or `bore 45`, is no 6308 for certain; a part of two sizes has none.

use crate::import::family_words::family_in;
use crate::import::other_thing::{is_mention, names_another_thing};
use crate::part::{Dimension, Family, SizeKey};
use crate::units::{LengthUnit, ReadLength, read_length};

use super::piece_beside::is_packing;
use super::printed_size::{Printed, contradicts, size_of_word, sizes_in};
use super::remark::names_place;

/// Words in front of a diameter inside, and of one outside.
const INSIDE: [&str; 5] = ["bore", "bohrung", "id", "innendurchmesser", "alésage"];
const OUTSIDE: [&str; 4] = ["od", "außendurchmesser", "aussendurchmesser", "outside"];
/// Words in front of a width.
const WIDTHS: [&str; 3] = ["width", "breite", "largeur"];

/// A size in the words beside a designation that is not the one the designation names: `6308`, described as `45x100x25`,
/// `bore 45` or `d=45 D=100 B=25`.
///
/// Of families that lists tell in whole figures only: O-rings are also called by their nominal inches.
pub(super) fn other_size(text: &str, standard: &SizeKey, unit: LengthUnit) -> Option<Printed> {
    let family = standard.family();
    let is_told = family.facts().exchange.listed.is_size_told;
    if !is_told || text.contains('/') || !may_hold_size(text) || names_another_thing(text) {
        return None;
    }
    let words = words_of_part(text, family);
    let wanted = family.key_dimensions().len();
    let sizes = sizes_in(&words, wanted, unit);
    let is_other = |found: &Printed| contradicts(&without_ring_width(found, family), standard);
    let only = sizes.len() == 1;
    let other = sizes.iter().find(|(word, found)| {
        // Beside the size itself the same in inches is no other one.
        let inches = || size_of_word(word, wanted, LengthUnit::Inch);
        is_other(found) && (only || inches().is_none_or(|inches| is_other(&inches)))
    });
    if let Some((_, found)) = other {
        return Some(*found);
    }
    let named = named_lengths(&words, family, unit);
    contradicts(&named, standard).then_some(named)
}

/// True for a text in which a size may stand.
fn may_hold_size(text: &str) -> bool {
    let has_figure = text.bytes().any(|byte| byte.is_ascii_digit());
    let names_length = |word: &str| {
        let lists = [&INSIDE[..], &OUTSIDE, &WIDTHS];
        let mut words = lists.into_iter().flatten();
        words.any(|of| of.eq_ignore_ascii_case(word))
    };
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
fn words_of_part(text: &str, family: Family) -> String {
    // `62,5` is one figure.
    let pieces = text.split(';').flat_map(|part| part.split(", "));
    let is_of_part = |piece: &String| {
        let mut words = piece.split_whitespace();
        let is_elsewhere = words.any(|word| names_place(word) || is_packing(&word.to_lowercase()));
        !is_elsewhere && family_in(piece).is_none_or(|of| of == family)
    };
    let of_part: Vec<String> = pieces.map(before_mention).filter(is_of_part).collect();
    of_part.join(" ")
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

fn place_of(family: Family, dimension: Dimension) -> Option<usize> {
    let mut key = family.key_dimensions().iter();
    key.position(|of| *of == dimension)
}

/// Lengths that words or letters of ISO 15 name: `bore 45`, `45 mm bore`, `d=45 D=100 B=25`.
fn named_lengths(text: &str, family: Family, unit: LengthUnit) -> Printed {
    let text = text.replace(" = ", "=");
    let words: Vec<&str> = text
        .split_whitespace()
        .map(|word| word.trim_matches([',', '.', ':', '(', ')']))
        .collect();
    let mut named: Printed = [None; 4];
    for at in 0..words.len() {
        let found = match words[at].split_once('=') {
            Some((letter, figure)) => of_letter(letter, family).zip(whole(figure, unit)),
            None => {
                let place = of_word(&words, at, family);
                place.zip(figure_beside(&words, at, unit))
            }
        };
        if let Some((place, length)) = found {
            named[place] = named[place].or(Some(length));
        }
    }
    named
}

/// The place of what a letter stands for: d and D, B of one ring, T of two, H of a thrust bearing.
fn of_letter(letter: &str, family: Family) -> Option<usize> {
    use Dimension as D;
    match letter {
        "d" => place_of(family, D::Bore),
        "D" => place_of(family, D::OutsideDiameter),
        "B" | "b" => place_of(family, D::Width),
        "T" | "H" => place_of(family, D::AssembledWidth).or(place_of(family, D::Height)),
        _ => None,
    }
}

/// The place of what a word stands for; a bore of the housing is none of the bearing.
fn of_word(words: &[&str], at: usize, family: Family) -> Option<usize> {
    let lower = words[at].to_lowercase();
    let is = |list: &[&str]| list.contains(&lower.as_str());
    let is_of_other = || {
        let before = at.checked_sub(1).map(|before| words[before]);
        before.is_some_and(names_another_thing)
    };
    let dimension = if is(&INSIDE) {
        Dimension::Bore
    } else if is(&OUTSIDE) {
        Dimension::OutsideDiameter
    } else if is(&WIDTHS) {
        Dimension::Width
    } else {
        return None;
    };
    place_of(family, dimension).filter(|_| !is_of_other())
}

/// The whole figure behind a word, or before it with its unit.
fn figure_beside(words: &[&str], at: usize, unit: LengthUnit) -> Option<ReadLength> {
    let word = |back: usize| at.checked_sub(back).map(|at| words[at]);
    if let Some(length) = words.get(at + 1).and_then(|next| whole(next, unit)) {
        return Some(length);
    }
    match (word(1), word(2)) {
        (Some("mm"), Some(figure)) => whole(figure, LengthUnit::Mm),
        (Some(glued), _) if glued.ends_with("mm") => whole(glued, LengthUnit::Mm),
        _ => None,
    }
}

/// A whole figure, perhaps with its unit: what has decimals may be measured.
fn whole(text: &str, unit: LengthUnit) -> Option<ReadLength> {
    let (figure, unit) = match text.strip_suffix("mm") {
        Some(figure) => (figure, LengthUnit::Mm),
        None => (text, unit),
    };
    let is_whole = !figure.is_empty() && figure.bytes().all(|byte| byte.is_ascii_digit());
    read_length(figure, unit).ok().filter(|_| is_whole)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standard;

    fn told(number: &str, text: &str) -> Option<Vec<String>> {
        let size = standard::find(number).unwrap().size;
        let found = other_size(text, &size, LengthUnit::Mm)?;
        let lengths = found.iter().flatten();
        Some(lengths.map(|read| format!("{:#}", read.length)).collect())
    }

    #[test]
    fn another_size_is_told_in_figures_by_words_and_by_letters() {
        // ISO 15: 6308 is 40 x 90 x 23, 6309 45 x 100 x 25 mm; ISO 355: 30210 is 50 x 90 x 21.75 mm with B 20; ISO 104: 51210
        // is 50 x 78 x 22 mm; DIN 3760: 40 x 62 x 7 mm.
        for (number, text, other) in [
            ("6308", "ball bearing 45x100x25", &["45", "100", "25"][..]),
            ("6308", "40x90x23, 45x100x25", &["45", "100", "25"]),
            ("6308", "bearing bore 45", &["45"]),
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
}
