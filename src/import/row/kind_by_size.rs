//! The family of a bearing that a description names by a word for bearings and its three lengths: `Kugellager 30x62x23.8`.
//!
//! ISO 15 gives bearings of several families one envelope, so that mostly the type stays open; that is told.

use crate::import::field::Field;
use crate::import::fold::fold;
use crate::import::issue::{Problem, Severity};
use crate::import::other_thing::{names_another_thing, names_bearings};
use crate::part::{Family, KindWord};
use crate::record::TableKind;
use crate::standard;

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

/// The only family of which the tables have a bearing of the size in a text; where they have several, an issue names them.
pub fn family_by_size(row: &mut RowReader<'_, '_>, description: Option<&str>) -> Option<Family> {
    let text = description?;
    if !names_bearings(text) || names_another_thing(text) {
        return None;
    }
    let unit = row.table.unit;
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
    let is_ring = || {
        let folded = fold(text);
        ["circlip", "retaining ring", "sicherungsring"]
            .iter()
            .any(|word| folded.contains(word))
    };
    let is_part = || family.is_some() || names_bearings(text) || is_ring();
    if is_shops && row.is_without_issue() && is_part() && !names_another_thing(text) {
        let found = text.to_owned();
        row.issue(
            Severity::Note,
            Some(Field::Description),
            Problem::NoWholeSize { found },
        );
    }
}
