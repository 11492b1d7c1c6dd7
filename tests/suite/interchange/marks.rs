//! Parts to judge, and what a judgement says of one thing as a mark.
//!
//! Rows of a square are what is wanted, columns what is at hand: `=` no difference, `.` a difference that bars nothing,
//! `c` only after checks, `x` must not be used. Where a square has no source of its own beside it, its directions are
//! common practice, no source.

use sparewright::interchange::{Judgement, Needs, Subject, Verdict, judge};
use sparewright::part::{Family, SealForm, SizeKey, Traits};
use sparewright::units::Length;

use super::subject;

pub fn mm(value: f64) -> Length {
    Length::from_mm(value).unwrap()
}

/// A part of a size of which nothing else is known.
pub fn bare(family: Family, lengths_mm: &[f64]) -> Subject {
    let lengths: Vec<Length> = lengths_mm.iter().map(|value| mm(*value)).collect();
    Subject {
        label: family.to_string(),
        size: Some(SizeKey::new(family, &lengths).unwrap()),
        family: Some(family),
        traits: Traits::default(),
        needs: Needs::default(),
        chamfer_mm: None,
        ratings: None,
        speed_limit_rpm: None,
        confidence: None,
    }
}

/// An open 6305 of which everything is stated (ISO 15: 25 x 62 x 17).
pub fn ball() -> Subject {
    subject("6305")
}

pub fn seal(form: SealForm, material: &str) -> Subject {
    let mut seal = bare(Family::LipSeal, &[40.0, 62.0, 8.0]);
    seal.traits.seal_form = Some(form);
    seal.traits.material = Some(material.to_owned());
    seal
}

pub fn ring(material: &str, hardness: Option<&str>) -> Subject {
    let mut ring = bare(Family::ORing, &[37.69, 3.53]);
    ring.traits.material = Some(material.to_owned());
    ring.traits.hardness = hardness.map(str::to_owned);
    ring
}

pub fn names(judgement: &Judgement, what: &str) -> bool {
    judgement.differs.iter().any(|differs| differs.what == what)
}

pub fn is_unknown(judgement: &Judgement, what: &str) -> bool {
    judgement.unknown.iter().any(|text| text.contains(what))
}

/// What a judgement says of one thing, where nothing else differs.
pub fn mark(judgement: &Judgement, what: &str) -> char {
    match (names(judgement, what), judgement.verdict) {
        (false, _) => '=',
        (true, Verdict::AsItIs) => '.',
        (true, Verdict::AfterChecks) => 'c',
        (true, Verdict::WithRework) => 'r',
        (true, Verdict::MustNot) => 'x',
        (true, Verdict::Near) => 'n',
    }
}

/// Compares every pair of values with a square of marks.
pub fn square<T: Copy + std::fmt::Debug>(
    what: &str,
    values: &[T],
    expected: &[&str],
    make: impl Fn(T) -> Subject,
) {
    assert_eq!(values.len(), expected.len(), "{what}: a row for each value");
    for (want, row) in values.iter().zip(expected) {
        let marks: String = values
            .iter()
            .map(|have| mark(&judge(&make(*want), &make(*have)), what))
            .collect();
        assert_eq!(&marks, row, "{what}: wanted {want:?}, by {values:?}");
    }
}
