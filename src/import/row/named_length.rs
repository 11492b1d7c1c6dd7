//! Lengths that words of a row name: `bore 45`, `45 mm bore`, `d=45 D=100 B=25`.
//!
//! Most lengths in the words of a row are those of a belt, a wheel or a place: only what stands beside nothing but words
//! for the part is of the part, and a bare `ID 45` is a number of the shop. Common practice, no source.

use crate::import::family_words::names_parts;
use crate::import::other_thing::{names_another_thing, names_bearings};
use crate::part::{Dimension, Family};
use crate::units::{LengthUnit, ReadLength, read_length};

use super::piece_beside::has_figure;

/// Words in front of a diameter inside, and of one outside.
const INSIDE: [&str; 5] = ["bore", "bohrung", "id", "innendurchmesser", "alésage"];
const OUTSIDE: [&str; 4] = ["od", "außendurchmesser", "aussendurchmesser", "outside"];
/// Words in front of a width.
const WIDTHS: [&str; 3] = ["width", "breite", "largeur"];
/// Of these a figure without its unit may be a number or a place.
const VAGUE: [&str; 2] = ["id", "outside"];
/// Units behind a figure.
const MM: &str = "mm";
const INCHES: [&str; 4] = ["in", "inch", "inches", "zoll"];
/// What a figure counts in front of these is no length that a list tells.
const OTHER_UNITS: [&str; 13] = [
    "m", "cm", "µm", "um", "thou", "kg", "g", "%", "pcs", "pc", "stk", "x", "°c",
];
/// Words between two lengths of one part.
const JOINING: [&str; 8] = ["with", "mit", "avec", "and", "und", "et", "&", "x"];
/// Most words of a term for parts.
const MOST_WORDS: usize = 3;

/// A length that words name.
#[derive(Debug, Clone)]
pub(super) struct Named {
    /// Its place among the key dimensions of the family.
    pub(super) place: usize,
    pub(super) length: ReadLength,
    /// The words, as written.
    pub(super) words: String,
    /// True for a letter of ISO 15.
    pub(super) is_letter: bool,
    /// True where the words may be a number or a place as well.
    pub(super) is_vague: bool,
}

/// True for a word in front of a length.
pub(super) fn names_length(word: &str) -> bool {
    let lists = [&INSIDE[..], &OUTSIDE, &WIDTHS];
    let lower = word.to_lowercase();
    let mut words = lists.into_iter().flatten();
    words.any(|of| *of == lower)
}

/// The place of a dimension among the key dimensions of a family.
pub(super) fn place_of(family: Family, dimension: Dimension) -> Option<usize> {
    let mut key = family.key_dimensions().iter();
    key.position(|of| *of == dimension)
}

/// Lengths of the part that words or letters of ISO 15 name in one piece of a text.
pub(super) fn named_lengths(piece: &str, family: Family, unit: LengthUnit) -> Vec<Named> {
    let text = piece.replace(" = ", "=");
    let words: Vec<&str> = text
        .split_whitespace()
        .map(|word| word.trim_matches([',', '.', ':', '(', ')']))
        .collect();
    let found = (0..words.len()).filter_map(|at| match words[at].split_once('=') {
        Some((letter, figure)) => of_letter(&words, at, letter, figure, family, unit),
        None => of_word(&words, at, family, unit),
    });
    found.collect()
}

/// A length by its letter: d and D, B of one ring, T of two, H of a thrust bearing.
fn of_letter(
    words: &[&str],
    at: usize,
    letter: &str,
    figure: &str,
    family: Family,
    unit: LengthUnit,
) -> Option<Named> {
    use Dimension as D;
    let place = match letter {
        "d" => place_of(family, D::Bore),
        "D" => place_of(family, D::OutsideDiameter),
        "B" | "b" => place_of(family, D::Width),
        "T" | "H" => place_of(family, D::AssembledWidth).or(place_of(family, D::Height)),
        _ => None,
    };
    let (length, _) = with_unit(figure, &words[at + 1..], unit)?;
    is_of_part(&words[..at]).then_some(Named {
        place: place?,
        length,
        words: words[at].to_owned(),
        is_letter: true,
        is_vague: !matches!(letter, "d" | "D"),
    })
}

/// A length by the word in front of it, or behind it and its unit.
fn of_word(words: &[&str], at: usize, family: Family, unit: LengthUnit) -> Option<Named> {
    let lower = words[at].to_lowercase();
    let is = |list: &[&str]| list.contains(&lower.as_str());
    let dimension = if is(&INSIDE) {
        Dimension::Bore
    } else if is(&OUTSIDE) {
        Dimension::OutsideDiameter
    } else if is(&WIDTHS) {
        Dimension::Width
    } else {
        return None;
    };
    let place = place_of(family, dimension)?;
    let next = words.get(at + 1);
    let ahead = next.and_then(|next| with_unit(next, &words[at + 2..], unit));
    let (start, end, length) = match ahead {
        Some((length, count)) => (at, at + 2 + count, length),
        None => {
            let (start, length) = figure_before(words, at)?;
            (start, at + 1, length)
        }
    };
    is_of_part(&words[..start]).then(|| Named {
        place,
        length,
        words: words[start..end].join(" "),
        is_letter: false,
        is_vague: is(&VAGUE),
    })
}

/// The whole figure with its unit before a word, with the place where it begins.
fn figure_before(words: &[&str], at: usize) -> Option<(usize, ReadLength)> {
    let word = |back: usize| at.checked_sub(back).map(|at| words[at]);
    match (word(1), word(2)) {
        (Some(MM), Some(figure)) => Some((at - 2, whole(figure, LengthUnit::Mm, true)?)),
        (Some(glued), _) if glued.ends_with(MM) => {
            Some((at - 1, whole(glued, LengthUnit::Mm, true)?))
        }
        _ => None,
    }
}

/// A whole figure with the unit behind it, if one is there, and how many words that takes.
fn with_unit(figure: &str, behind: &[&str], unit: LengthUnit) -> Option<(ReadLength, usize)> {
    let next = behind.first().map(|next| next.to_lowercase());
    match next.as_deref() {
        Some(MM) => Some((whole(figure, LengthUnit::Mm, true)?, 1)),
        // `45 in stock`.
        Some("in") if behind.len() > 1 => None,
        Some(next) if INCHES.contains(&next) => Some((whole(figure, LengthUnit::Inch, true)?, 1)),
        Some(next) if OTHER_UNITS.contains(&next) => None,
        _ => Some((whole(figure, unit, false)?, 0)),
    }
}

/// A whole figure, perhaps with its unit: what has decimals may be measured.
fn whole(text: &str, unit: LengthUnit, is_stated: bool) -> Option<ReadLength> {
    let (figure, unit, is_glued) = match text.strip_suffix(MM) {
        Some(figure) => (figure, LengthUnit::Mm, true),
        None => (text, unit, false),
    };
    let is_whole = !figure.is_empty() && figure.bytes().all(|byte| byte.is_ascii_digit());
    let read = read_length(figure, unit).ok().filter(|_| is_whole)?;
    Some(ReadLength {
        is_unit_stated: is_stated || is_glued,
        ..read
    })
}

/// True where the words in front of a length leave it to the part: none, words for parts, another length of it.
fn is_of_part(before: &[&str]) -> bool {
    let Some(last) = before.last() else {
        return true;
    };
    let lower = last.to_lowercase();
    let is_told = has_figure(&lower)
        || lower == MM
        || JOINING.contains(&lower.as_str())
        || names_length(&lower)
        || names_bearings(last);
    let names = |count: usize| {
        let start = before.len().checked_sub(count);
        start.is_some_and(|start| names_parts(&before[start..].join(" ")))
    };
    (is_told || (1..=MOST_WORDS).any(names)) && !names_another_thing(last)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(text: &str) -> Vec<(usize, String, bool)> {
        let found = named_lengths(text, Family::DeepGrooveBall, LengthUnit::Mm);
        let told = found.into_iter().map(|of| {
            let length = format!("{:#}", of.length.length);
            (of.place, length, of.length.is_unit_stated)
        });
        told.collect()
    }

    #[test]
    fn lengths_are_the_parts_where_no_other_noun_stands_before_them() {
        // Places: bore 0, outside diameter 1, width 2. An inch is 25.4 mm.
        for (text, place, length, is_stated) in [
            ("bore 45", 0, "45", false),
            ("ball bearing bore 45", 0, "45", false),
            ("Rillenkugellager Bohrung 45 mm", 0, "45", true),
            ("45 mm bore", 0, "45", true),
            ("OD 100mm", 1, "100", true),
            ("bore 1 in", 0, "25.4", true),
            ("D=100", 1, "100", false),
            ("B = 25 mm", 2, "25", true),
        ] {
            let expected = vec![(place, length.to_owned(), is_stated)];
            assert_eq!(named(text), expected, "{text}");
        }
        for text in [
            "belt width 50",
            "Band Breite 800",
            "gear bore 30",
            "wheel bore 30 mm",
            "cylinder 80 mm bore",
            "tube OD 89",
            "tolerance width 5",
            "asset ID 45",
            "rack B=4",
            "width 5 m",
            "bore 45 in stock",
            "bore 39.98",
        ] {
            assert_eq!(named(text), [], "{text}");
        }
    }
}
