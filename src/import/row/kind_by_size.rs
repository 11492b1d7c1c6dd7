//! The family of a bearing that a description names by a word for bearings and its three lengths: `Kugellager 30x62x23.8`.
//!
//! ISO 15 gives bearings of several families one envelope, so that mostly the type stays open; that is told.

use crate::import::family_words::family_in;
use crate::import::field::Field;
use crate::import::fold::fold;
use crate::import::issue::{Problem, Severity};
use crate::import::other_thing::{names_another_thing, names_bearings};
use crate::part::{Family, KindWord, SizeKey};
use crate::record::TableKind;
use crate::standard;
use crate::units::{Length, LengthUnit};

use super::printed_size::lengths_in;
use super::reader::RowReader;
use super::size_beside::two_sizes;
use crate::language::in_backticks;

/// Pieces of words, folded, and what rolls in the bearings that they leave.
const KINDS: [(&[&str], KindWord); 2] = [
    (
        &["ball", "kugel", "bille", "bola", "sfere", "esfera", "kulk"],
        KindWord::Ball,
    ),
    (
        &["roller", "rollen", "rouleau", "rodillo", "rulli", "rolos"],
        KindWord::Roller,
    ),
];
/// Bore, outside diameter and width.
const LENGTHS: usize = 3;
/// Longest run of digits of a length in whole figures.
const MOST_DIGITS: usize = 4;
/// Words for seals of shafts among others, folded, and for those of other places: common practice, no source.
const SEALS: [&str; 4] = ["seal", "seals", "dichtring", "dichtringe"];
const OTHER_SEALS: [&str; 12] = [
    "rod",
    "piston",
    "mechanical",
    "hydraulic",
    "gland",
    "flat",
    "stangen",
    "kolben",
    "valve",
    "flansch",
    "flange",
    "cover",
];
/// Words for rings in a groove, folded, and for where they sit.
const RINGS: [&str; 4] = ["circlip", "circlips", "sicherungsring", "sicherungsringe"];
const ON_SHAFTS: [&str; 3] = ["shaft", "welle", "wellen"];
const IN_BORES: [&str; 5] = ["bore", "housing", "bohrung", "bohrungen", "gehause"];
/// Words that say nothing of which ring it is.
const PLAIN: [&str; 5] = ["for", "fur", "mm", "dia", "a"];

/// The only family of which the tables have a bearing of the size in a text; where they have several, an issue names them.
pub fn family_by_size(row: &mut RowReader<'_, '_>, description: Option<&str>) -> Option<Family> {
    let text = description?;
    if let Some(ring) = ring_in(text) {
        return Some(ring);
    }
    let unit = row.table.unit;
    if names_another_thing(text) {
        return None;
    }
    if is_lip_seal(text, unit) {
        return Some(Family::LipSeal);
    }
    if !names_bearings(text) {
        return None;
    }
    if let Some((one, other)) = two_sizes(text, LENGTHS, unit) {
        let problem = Problem::TwoNumbers { one, other };
        row.issue(Severity::Doubtful, Some(Field::Description), problem);
        return None;
    }
    let printed = lengths_in(text, LENGTHS, unit)?;
    let [Some(bore), Some(outside), Some(width), None] = printed else {
        return None;
    };
    let (folded, mut found) = (fold(text), Vec::<(Family, &str)>::new());
    let of_kind = KINDS
        .iter()
        .find(|(pieces, _)| pieces.iter().any(|piece| folded.contains(piece)));
    for part in standard::of_envelope(bore.length, outside.length, width.length) {
        let family = part.size.family();
        let kind = family.facts().exchange.listed.kind;
        let is_of_kind = of_kind.is_none_or(|(_, of)| kind == Some(*of));
        if is_of_kind && !found.iter().any(|(of, _)| *of == family) {
            found.push((family, &part.designation));
        }
    }
    if let [(only, _)] = found[..] {
        return Some(only);
    }
    if !found.is_empty() {
        let named = in_backticks(found.iter().map(|(_, name)| name));
        let problem = Problem::KindOpen {
            found: text.to_owned(),
            likely: named.join(", "),
        };
        row.issue(Severity::Doubtful, Some(Field::Description), problem);
    }
    None
}

/// The ring that words say sits on a shaft or in a bore, `circlip 25 shaft`, where they say no more.
fn ring_in(text: &str) -> Option<Family> {
    let folded = fold(text);
    let words: Vec<&str> = folded.split(' ').collect();
    let has = |list: &[&str]| words.iter().any(|word| list.contains(word));
    let is_known = |word: &&str| {
        let lists = [&RINGS[..], &ON_SHAFTS, &IN_BORES, &PLAIN];
        let is_figure = word.bytes().all(|byte| byte.is_ascii_digit());
        is_figure || lists.iter().any(|list| list.contains(word))
    };
    if !has(&RINGS) || !words.iter().all(is_known) {
        return None;
    }
    match (has(&ON_SHAFTS), has(&IN_BORES)) {
        (true, false) => Some(Family::ShaftRetainingRing),
        (false, true) => Some(Family::BoreRetainingRing),
        _ => None,
    }
}

/// True for the words for a seal with a size of DIN 3760, as one that names its elastomer is read.
fn is_lip_seal(text: &str, unit: LengthUnit) -> bool {
    let folded = fold(text);
    let is_other = folded.split(' ').any(|word| OTHER_SEALS.contains(&word));
    if !is_seal(&folded) || is_other || family_in(text).is_some() {
        return false;
    }
    let printed = lengths_in(text, LENGTHS, unit).unwrap_or_default();
    let lengths: Vec<Length> = printed.iter().flatten().map(|of| of.length).collect();
    let size = SizeKey::new(Family::LipSeal, &lengths);
    size.is_ok_and(|size| !standard::of_size(&size).is_empty())
}

/// True where folded words name a seal, and no bearing before it, which may have seals.
fn is_seal(folded: &str) -> bool {
    let words: Vec<&str> = folded.split(' ').collect();
    let at = words.iter().position(|word| SEALS.contains(word));
    at.is_some_and(|at| !names_bearings(&words[..at].join(" ")))
}

/// True for words for a bearing of no family that they name.
pub fn is_any_bearing(text: &str) -> bool {
    names_bearings(text)
        && family_in(text).is_none()
        && !names_another_thing(text)
        && !is_seal(&fold(text))
}

/// True for a designation of lengths alone: `25x52x15`, `40 62 7`, `40/62/7`.
pub fn is_bare_size(designation: &str) -> bool {
    let text = designation.trim();
    let is_sign = |c: char| "xX×*/- ".contains(c);
    let is_bare = |c: char| c.is_ascii_digit() || is_sign(c) || ".,".contains(c);
    let figures: Vec<&str> = text.split(is_sign).filter(|of| !of.is_empty()).collect();
    let is_short = figures.iter().all(|figure| {
        let mut runs = figure.split(['.', ',']);
        runs.all(|run| (1..=MOST_DIGITS).contains(&run.len()))
    });
    let is_joined = figures.len() > 1 && text.contains(['x', 'X', '×', '*']);
    text.chars().all(is_bare) && is_short && (is_joined || figures.len() == LENGTHS)
}

/// Says that a part of the shop has no size, where its text names what it is and holds a figure.
pub fn tell_no_size(
    row: &mut RowReader<'_, '_>,
    family: Option<Family>,
    description: Option<&str>,
) {
    let Some(text) = description.filter(|text| text.contains(|c: char| c.is_ascii_digit())) else {
        return;
    };
    let is_shops = matches!(row.table.kind, TableKind::Parts | TableKind::Stock);
    let folded = fold(text);
    let is_ring = || {
        ["circlip", "retaining ring", "sicherungsring"]
            .iter()
            .any(|word| folded.contains(word))
    };
    // A figure may count seals; a size of three lengths is one's own.
    let is_sized_seal = || is_seal(&folded) && lengths_in(text, LENGTHS, row.table.unit).is_some();
    let is_part = || family.is_some() || names_bearings(text) || is_ring() || is_sized_seal();
    if is_shops && row.is_without_issue() && is_part() && !names_another_thing(text) {
        let found = text.to_owned();
        row.issue(
            Severity::Note,
            Some(Field::Description),
            Problem::NoWholeSize { found },
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bare_sizes_are_told_from_numbers() {
        for (text, is) in [
            ("25x52x15", true),
            ("40x62x7.5", true),
            ("40 62 7", true),
            ("40/62/7", true),
            ("40-62-8", true),
            ("6x30", true),
            ("4711-12", false),
            ("10045-200-3", false),
            ("6205", false),
            ("40x62x7 NBR", false),
        ] {
            assert_eq!(is_bare_size(text), is, "{text}");
        }
    }

    #[test]
    fn rings_and_seals_are_of_the_kind_that_their_words_leave() {
        // DIN 471 is for shafts, DIN 472 for bores.
        for (text, ring) in [
            ("circlip 25 shaft", Some(Family::ShaftRetainingRing)),
            ("circlip for shaft 25", Some(Family::ShaftRetainingRing)),
            ("Sicherungsring Welle 25", Some(Family::ShaftRetainingRing)),
            ("circlip 25 bore", Some(Family::BoreRetainingRing)),
            ("circlip 25", None),
            ("circlip shaft 25 housing 52", None),
            ("circlip pliers shaft 25", None),
        ] {
            assert_eq!(ring_in(text), ring, "{text}");
        }
        // DIN 3760: 40 x 62 x 7 mm is a size of its lip seals, 41 x 63 x 7 mm is none.
        for (text, is) in [
            ("seal 40x62x7", true),
            ("seal for bearing 40x62x7", true),
            ("seal 41x63x7", false),
            ("rod seal 40x62x7", false),
            ("bearing with two seals 40x62x7", false),
        ] {
            assert_eq!(is_lip_seal(text, LengthUnit::Mm), is, "{text}");
        }
    }
}
