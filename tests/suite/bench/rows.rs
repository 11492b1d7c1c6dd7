//! Every checked row of the shipped tables by its number, by its size, and beside the other parts of its envelope.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use sparewright::catalogue::card_index::CardIndex;
use sparewright::interchange::Verdict;
use sparewright::lookup::{Answer, Answers, Question, answer};
use sparewright::part::{Closure, Dimension, Family};
use sparewright::standard::{self, StandardPart};
use sparewright::units::Length;

use super::names;
use crate::sample::index_of_file;

/// Bearings that the table has closed only, because the open form of JIS B 1521 and DIN 625-1 is narrower: 692, 602, 673,
/// 683, 693, 603, 674 to 678, 684 to 689, 6700. A bare number is the open bearing (DIN 623-1), which is another row or none.
const CLOSED_ONLY: usize = 18;
/// O-rings P3 to P11.2 of JIS B 2401: alone, P5 is a class of ISO 492 and P7 one of ISO 286, so that they want their word.
const WANT_THEIR_WORD: usize = 11;

fn checked() -> impl Iterator<Item = &'static StandardPart> {
    let rows = standard::parts().iter();
    rows.filter(|row| row.confidence.is_cross_checked())
}

fn is_closed_only(row: &StandardPart) -> bool {
    row.traits
        .closure
        .is_some_and(|closure| closure != Closure::Open)
}

fn wants_its_word(row: &StandardPart) -> bool {
    row.standard.starts_with("JIS B 2401")
}

/// The number to ask for at the counter: with its closure, where the width is that of the closed form only.
fn ordered(row: &StandardPart) -> String {
    if is_closed_only(row) && !row.designation.ends_with("2Z") {
        format!("{}-2Z", row.designation)
    } else {
        row.designation.clone()
    }
}

/// Words that ask for the number of a row.
fn by_number(row: &StandardPart) -> String {
    if wants_its_word(row) {
        format!("O-ring {}", row.designation)
    } else {
        ordered(row)
    }
}

/// True where the number of an O-ring is its size: other parts have those figures too, a pin of 1.5 x 4 mm for one.
fn is_its_size(row: &StandardPart) -> bool {
    row.size.family() == Family::ORing && row.designation.starts_with(|c: char| c.is_ascii_digit())
}

fn ask(text: &str, index: Option<&CardIndex>) -> Answers {
    let question =
        Question::read_in(text, index).unwrap_or_else(|error| panic!("`{text}`: {error}"));
    answer(&question, index)
}

fn shown(answers: &Answers) -> Vec<(Vec<&str>, f64)> {
    let list = answers.answers.iter().take(4);
    list.map(|one| (names(one).map(String::as_str).collect(), one.probability))
        .collect()
}

/// By its number a row comes back alone and under exactly this name; the two kinds that do not are named above and counted.
#[test]
fn every_checked_row_comes_back_alone_by_its_number() {
    let (mut closed, mut worded, mut alone) = (0, 0, 0);
    let mut wrong = Vec::new();
    for row in checked() {
        closed += usize::from(ordered(row) != row.designation);
        worded += usize::from(wants_its_word(row));
        let text = by_number(row);
        let found = ask(&text, None);
        let is_it = found.answers.first().is_some_and(|first| {
            first.designation == ordered(row)
                && first.twins.is_empty()
                && first.size == Some(row.size)
                && first.probability > 0.5
        });
        let is_alone = found.answers.len() == 1 && found.refused.is_empty();
        alone += usize::from(is_alone);
        if !is_it || !(is_alone || is_its_size(row)) {
            wrong.push(format!("{text}: {:?}", shown(&found)));
        }
    }
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
    assert_eq!((closed, worded), (CLOSED_ONLY, WANT_THEIR_WORD));
    assert!(alone > 1400, "{alone}");
}

/// A bare number is never the closed bearing of another width, nor a class a ring.
#[test]
fn a_bare_number_is_not_the_row_that_wants_more_words() {
    for row in checked().filter(|row| ordered(row) != row.designation) {
        let found = ask(&row.designation, None);
        for one in &found.answers {
            assert!(one.size != Some(row.size), "{}: {one:?}", row.designation);
        }
        // Where the open bearing is in no table, the answer names the closed one.
        let names_it = |warning: &String| warning.ends_with(&ordered(row));
        assert!(
            !found.answers.is_empty() || found.warnings.iter().any(names_it),
            "{}: {:?}",
            row.designation,
            found.warnings
        );
    }
    for row in checked().filter(|row| wants_its_word(row)) {
        assert!(
            Question::read(&row.designation).is_err(),
            "{}",
            row.designation
        );
    }
}

/// What else a part is called (`6804`, `AS568A-214`, `T2FB015`, `DIN 472-40`) gives the same size.
#[test]
fn every_other_name_of_a_checked_row_gives_its_size() {
    let mut asked = 0;
    for row in checked() {
        for name in &row.synonyms {
            asked += 1;
            let found = ask(name, None);
            let is_it = found
                .answers
                .first()
                .is_some_and(|first| first.size == Some(row.size));
            assert!(is_it, "{name} of {}: {:?}", row.designation, shown(&found));
        }
    }
    assert!(asked > 600, "{asked}");
}

/// By size and type a row is the first answer or one of its twins, by exactly its name.
#[test]
fn every_checked_row_comes_first_by_its_size() {
    let mut wrong = Vec::new();
    for row in checked() {
        let figures: Vec<String> = row
            .size
            .dimensions()
            .map(|(_, length)| format!("{length:#}"))
            .collect();
        let text = format!("{} mm {}", figures.join(" x "), row.size.family().name());
        let found = ask(&text, None);
        let is_first = found.answers.first().is_some_and(|first| {
            names(first).any(|name| *name == row.designation || *name == ordered(row))
        });
        if !is_first {
            wrong.push(format!(
                "{} by `{text}`: {:?}",
                row.designation,
                shown(&found)
            ));
        }
    }
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
}

/// Bore, outside diameter and width (T of a tapered roller bearing).
fn envelope(row: &StandardPart) -> Option<[Length; 3]> {
    let size = &row.size;
    let width = size
        .get(Dimension::Width)
        .or_else(|| size.get(Dimension::AssembledWidth))?;
    let (bore, outside) = (
        size.get(Dimension::Bore)?,
        size.get(Dimension::OutsideDiameter)?,
    );
    Some([bore, outside, width])
}

/// Rows that share an envelope, where one of them is checked (ISO 15: bearings of one bore and series have one, of any type).
fn envelopes() -> Vec<([Length; 3], Vec<&'static StandardPart>)> {
    let mut sets: BTreeMap<[Length; 3], Vec<&'static StandardPart>> = BTreeMap::new();
    for row in standard::parts() {
        if let Some(envelope) = envelope(row) {
            sets.entry(envelope).or_default().push(row);
        }
    }
    let is_shared = |rows: &[&StandardPart]| {
        rows.len() > 1 && rows.iter().any(|row| row.confidence.is_cross_checked())
    };
    sets.into_iter()
        .filter(|(_, rows)| is_shared(rows))
        .collect()
}

/// Asked for by its envelope alone, every part of it is shown, and what tells the types apart is said to be unknown.
#[test]
fn an_envelope_shows_every_part_that_has_it() {
    let sets = envelopes();
    assert!(sets.len() > 100, "{}", sets.len());
    for ([bore, outside, width], rows) in sets {
        let text = format!("{bore:#} x {outside:#} x {width:#}");
        let found = ask(&text, None);
        let shown: BTreeSet<&String> = found.answers.iter().flat_map(names).collect();
        for row in &rows {
            assert!(
                shown.contains(&row.designation) || shown.contains(&ordered(row)),
                "{text}: {} is not among {shown:?}",
                row.designation
            );
        }
        let families: BTreeSet<Family> = rows.iter().map(|row| row.size.family()).collect();
        let is_open = |one: &Answer| {
            let unknown = &one.judgement.unknown;
            unknown.iter().any(|text| text.contains("type was not"))
        };
        assert!(
            families.len() == 1 || found.answers.iter().all(is_open),
            "{text}"
        );
    }
}

/// Two names of one part: `619/4` of ISO 15 is `694` of JIS B 1521.
fn is_same_part(a: &StandardPart, b: &StandardPart) -> bool {
    a.synonyms.contains(&b.designation) || b.synonyms.contains(&a.designation)
}

/// Of 7200 nobody knows whether it is 7200B: the letter of the contact angle is left out (DIN 628-1).
fn is_of_unknown_angle(a: &StandardPart, b: &StandardPart) -> bool {
    let is_angular = |row: &StandardPart| row.size.family() == Family::AngularContactBall;
    is_angular(a)
        && is_angular(b)
        && (a.traits.contact_angle.is_none() || b.traits.contact_angle.is_none())
}

/// What is wrong with how another part of the envelope is shown beside the one asked for.
fn fault(row: &StandardPart, other: &StandardPart, shown: &Answer) -> Option<&'static str> {
    let judgement = &shown.judgement;
    let (is_free, differs) = (
        judgement.verdict == Verdict::AsItIs,
        !judgement.differs.is_empty(),
    );
    let is_itself = std::ptr::eq(row, other);
    if is_itself || is_same_part(row, other) {
        return differs.then_some("differs from itself");
    }
    if is_of_unknown_angle(row, other) {
        let unknown = &judgement.unknown;
        let says_so = unknown.iter().any(|text| text.contains("contact angle"));
        return (is_free || !says_so).then_some("does not say that the angle is unknown");
    }
    match (is_free, differs) {
        (true, _) => Some("goes in as it is"),
        (_, false) => Some("shows no difference"),
        _ => None,
    }
}

/// In a shop that has them all, each part asked for by its number is shown with every other part of its envelope, and with
/// what that differs in.
#[test]
fn every_other_part_of_an_envelope_is_shown_with_its_difference() {
    let sets = envelopes();
    let members = || sets.iter().flat_map(|(_, rows)| rows).copied();
    let mut file = String::from("Part number;Designation\n");
    let mut numbers = BTreeMap::new();
    for (at, row) in members().enumerate() {
        let number = format!("S-{at}");
        let _ = writeln!(file, "{number};{}", ordered(row));
        numbers.insert(std::ptr::from_ref(row), number);
    }
    let index = index_of_file(&file);
    let (mut wrong, mut compared) = (Vec::new(), 0);
    for (_, rows) in &sets {
        for row in rows.iter().filter(|row| row.confidence.is_cross_checked()) {
            let text = ordered(row);
            let found = ask(&text, Some(&index));
            for other in rows {
                compared += 1;
                let number = &numbers[&std::ptr::from_ref(*other)];
                let mut listed = found.answers.iter().chain(&found.refused);
                let shown = listed.find(|one| one.number.as_ref() == Some(number));
                let fault = shown.map_or(Some("is not shown"), |shown| fault(row, other, shown));
                if let Some(fault) = fault {
                    wrong.push(format!("{text}: {} {fault}", other.designation));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(compared > 1800, "{compared}");
}
