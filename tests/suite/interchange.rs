//! May one part stand in for another? Cases with their sources, and properties of the rules.

mod asked;
mod bearing_seals;
mod by_shop;
mod marks;
mod metamorphic;
mod place;
mod rules;
mod variants;

use std::path::Path;

use proptest::prelude::*;
use sparewright::interchange::{Subject, Verdict, judge};
use sparewright::lookup::Question;
use sparewright::part::designation::Designation;
use sparewright::part::{BoreForm, Clearance, Closure, ToleranceClass};
use sparewright::standard;

/// Reads a table below `tests/tables`, without its comment lines.
pub fn table(name: &str) -> Vec<csv::StringRecord> {
    super::outside::reads(name);
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/tables")
        .join(name);
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(&path)
        .unwrap();
    reader.records().map(Result::unwrap).collect()
}

/// The part a designation names, with the meaning of what it leaves out.
///
/// Behind `;` stand variants (`6205; stainless`) and, behind `need`, what the place asks for.
pub fn subject(text: &str) -> Subject {
    let mut pieces = text.split(';').map(str::trim);
    let text = pieces.next().unwrap();
    let mut subject = named(text);
    for piece in pieces {
        if let Some(words) = piece.strip_prefix("need ") {
            let question = Question::read(&format!("40 {words}")).unwrap();
            assert_eq!(question.not_understood, Vec::<String>::new(), "{words}");
            subject.needs = question.needs;
        } else if let Some(mm) = piece.strip_prefix("fillet ") {
            subject.needs.fillet_mm = Some(mm.parse().unwrap());
        } else if let Some(mm) = piece.strip_prefix("chamfer ") {
            subject.chamfer_mm = Some(mm.parse().unwrap());
        } else {
            let variant = &mut subject.traits.variant;
            *variant = Some(
                variant
                    .take()
                    .map_or_else(|| piece.to_owned(), |known| format!("{known}, {piece}")),
            );
        }
    }
    subject
}

fn named(text: &str) -> Subject {
    let designation = Designation::parse(text).unwrap_or_else(|| panic!("`{text}` must parse"));
    let row = standard::resolve(&designation);
    let size = designation.size.or_else(|| row.map(|row| row.size));
    let mut traits = designation.traits.clone();
    if designation
        .family
        .is_some_and(|family| family.is_radial_bearing())
    {
        traits.bore_form = traits.bore_form.or(Some(BoreForm::Cylindrical));
        traits.has_snap_ring_groove = traits.has_snap_ring_groove.or(Some(false));
    }
    Subject {
        label: text.to_owned(),
        size: Some(size.unwrap_or_else(|| panic!("`{text}` must have a size"))),
        family: designation.family,
        traits,
        needs: sparewright::interchange::Needs::default(),
        chamfer_mm: None,
        ratings: None,
        speed_limit_rpm: None,
        confidence: row.map(|row| row.confidence),
    }
}

/// What a case expects: the verdict of its part, and the one that it had were its size cross-checked.
///
/// A row from memory never gives the first verdict, whatever the rules say: such a case says `from_memory`.
pub fn expected(case: &csv::StringRecord) -> (&str, &str) {
    match &case[2] {
        "from_memory" => ("after_checks", "as_it_is"),
        other => (other, other),
    }
}

#[test]
pub fn every_case_gets_its_verdict_and_its_reason() {
    let cases = table("exchange_cases.csv");
    assert_eq!(cases.len(), 180);
    let mut wrong = Vec::new();
    for case in &cases {
        super::outside::compared_by(&case[4]);
        let (want, have) = (subject(&case[0]), subject(&case[1]));
        let judgement = judge(&want, &have);
        let names_it = case[3].is_empty()
            || judgement
                .differs
                .iter()
                .any(|difference| difference.what == &case[3]);
        // The check of a row from memory may not stand for the one that the case is of.
        let mut checked = have.clone();
        checked.confidence = None;
        let by_rules = judge(&want, &checked).verdict;
        let (shipped, cross_checked) = expected(case);
        let is_right =
            judgement.verdict.code() == shipped && by_rules.code() == cross_checked && names_it;
        if !is_right {
            wrong.push(format!(
                "{} by {}: {by_rules:?}, {judgement:?}",
                &case[0], &case[1]
            ));
        }
    }
    assert!(
        wrong.is_empty(),
        "{} wrong:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}

/// Only rows of confidence A to C stand for the first verdict, and only rows D for what is from memory.
#[test]
fn the_first_verdict_is_shown_by_checked_rows() {
    let (mut free, mut remembered) = (0, 0);
    for case in table("exchange_cases.csv") {
        let confidence = subject(&case[1]).confidence;
        let is_checked = confidence.is_some_and(|confidence| confidence.is_cross_checked());
        match &case[2] {
            "as_it_is" => {
                free += 1;
                assert!(is_checked, "{case:?}");
            }
            "from_memory" => {
                remembered += 1;
                assert!(!is_checked && confidence.is_some(), "{case:?}");
            }
            _ => {}
        }
    }
    assert!(free >= 20 && remembered >= 8, "{free} {remembered}");
}

#[test]
fn a_size_without_marks_is_never_an_unconditional_yes() {
    let row = standard::find("6206").unwrap();
    let (want, have) = (Subject::of_standard(row), Subject::of_standard(row));
    let judgement = judge(&want, &have);
    assert_eq!(judgement.verdict, Verdict::AfterChecks);
    assert!(
        judgement
            .unknown
            .iter()
            .any(|text| text.contains("clearance")),
        "{judgement:?}"
    );
}

#[test]
fn every_difference_names_its_source() {
    for case in table("exchange_cases.csv") {
        for difference in judge(&subject(&case[0]), &subject(&case[1])).differs {
            assert!(
                !difference.source.is_empty() && !difference.effect.is_empty(),
                "{difference:?}"
            );
        }
    }
}

fn bearing() -> impl Strategy<Value = Subject> {
    let closures = prop::option::of(prop::sample::select(Closure::ALL.to_vec()));
    let clearances = prop::option::of(prop::sample::select(Clearance::ALL.to_vec()));
    let classes = prop::option::of(prop::sample::select(ToleranceClass::ALL.to_vec()));
    (closures, clearances, classes, any::<bool>()).prop_map(
        |(closure, clearance, class, is_wide)| {
            let mut subject = subject(if is_wide { "62206" } else { "6206" });
            subject.traits.closure = closure;
            subject.traits.clearance = clearance;
            subject.traits.tolerance_class = class;
            subject
        },
    )
}

proptest! {
    #[test]
    fn unknown_never_gives_the_first_verdict(want in bearing(), have in bearing()) {
        let is_unknown = |subject: &Subject| {
            let traits = &subject.traits;
            traits.closure.is_none() || traits.clearance.is_none() || traits.tolerance_class.is_none()
        };
        let verdict = judge(&want, &have).verdict;
        prop_assert!(verdict != Verdict::AsItIs || !(is_unknown(&want) || is_unknown(&have)));
    }

    #[test]
    fn equal_size_is_symmetric_and_a_part_goes_in_for_itself_unless_unknown(part in bearing(), other in bearing()) {
        let near = |a: &Subject, b: &Subject| judge(a, b).differs.iter().any(|d| d.what == "width" || d.what == "size");
        prop_assert_eq!(near(&part, &other), near(&other, &part));
        let own = judge(&part, &part);
        prop_assert!(own.differs.is_empty(), "{:?}", own);
    }
}
