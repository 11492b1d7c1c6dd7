//! Questions at the bench against published tables; every row of the shipped tables both ways; fits against a package.

use sparewright::interchange::Verdict;
use sparewright::limit;
use sparewright::lookup::{Answer, Answers, Question, answer};
use sparewright::part::designation::Designation;
use sparewright::part::{BoreForm, Closure, NameKey, SealForm, ToleranceClass};
use sparewright::standard::{self, Confidence};

use super::{outside, table};

fn names(answer: &Answer) -> impl Iterator<Item = &String> {
    std::iter::once(&answer.designation).chain(&answer.twins)
}

/// A name holds the expected one, whatever closure, thickness or elastomer follows.
fn is_named(name: &str, expected: &str) -> bool {
    let (name, expected) = (NameKey::new(name), NameKey::new(expected));
    name.as_str().starts_with(expected.as_str())
        && !name.as_str()[expected.as_str().len()..].starts_with(|c: char| {
            c.is_ascii_digit()
                && !expected.as_str().contains('X')
                && name.as_str().len() == expected.as_str().len() + 1
        })
}

fn is_met(kind: &str, expected: &str, answers: &Answers) -> bool {
    let among = |list: &[Answer]| {
        list.iter()
            .any(|one| names(one).any(|name| is_named(name, expected)))
    };
    match kind {
        "first" => answers
            .answers
            .first()
            .is_some_and(|first| names(first).any(|name| is_named(name, expected))),
        "among" => among(&answers.answers),
        "refused" => among(&answers.refused) && !among(&answers.answers),
        "none" => answers.none_of_these.probability > 0.5,
        "warns" => answers
            .warnings
            .iter()
            .any(|warning| warning.contains(expected)),
        "asks" => answers
            .ask_next
            .as_ref()
            .is_some_and(|ask| ask.question.contains(expected)),
        other => panic!("kind `{other}`"),
    }
}

#[test]
pub fn every_case_of_the_bench_comes_out() {
    let cases = table::read("bench_cases");
    assert!(cases.len() >= 300, "{}", cases.len());
    let mut wrong = Vec::new();
    for case in &cases {
        let (question, kind, expected) = (&case["question"], &case["kind"], &case["expected"]);
        let read = Question::read(question);
        // What is refused or asked says nothing of a size.
        let is_of_size = matches!(kind.as_str(), "first" | "among");
        let named = Designation::parse(expected).filter(|_| is_of_size);
        match named.and_then(|named| named.family) {
            Some(family) => outside::compared_of_by(family, &case["source"]),
            None => outside::compared_by(&case["source"]),
        }
        let is_right = match (&read, kind.as_str()) {
            (Err(_), "error") => true,
            (Ok(_), "error") | (Err(_), _) => false,
            (Ok(read), kind) => is_met(kind, expected, &answer(read, None)),
        };
        if !is_right {
            let got = read.map(|read| answer(&read, None));
            let shown = got.as_ref().map_or_else(ToString::to_string, |got| {
                let list = |list: &[Answer]| -> Vec<String> {
                    list.iter()
                        .take(4)
                        .map(|one| {
                            format!(
                                "{} {:.3}",
                                names(one).cloned().collect::<Vec<_>>().join("|"),
                                one.probability
                            )
                        })
                        .collect()
                };
                format!(
                    "{:?} refused {:?} none {:.3} {:?} {:?}",
                    list(&got.answers),
                    list(&got.refused),
                    got.none_of_these.probability,
                    got.warnings,
                    got.ask_next
                )
            });
            wrong.push(format!("{question} | {kind} {expected} | {shown}"));
        }
    }
    assert!(
        wrong.is_empty(),
        "{} wrong of {}:\n{}",
        wrong.len(),
        cases.len(),
        wrong.join("\n")
    );
}

#[test]
fn every_checked_row_is_found_by_its_number_and_by_its_size() {
    let mut wrong = Vec::new();
    for row in standard::parts()
        .iter()
        .filter(|row| row.confidence != Confidence::D)
    {
        let named = Question::read(&row.designation)
            .ok()
            .and_then(|question| question.designated_size());
        // A pin's class and an R number's closure are not in every number; the size must be there if the number is whole.
        let is_called = |other: &&standard::StandardPart| {
            other.designation == row.designation || other.synonyms.contains(&row.designation)
        };
        let shares_name = standard::parts().iter().filter(is_called).count() > 1;
        if !shares_name && named.is_some_and(|size| size != row.size) {
            wrong.push(format!(
                "{}: number gives {}",
                row.designation,
                named.unwrap()
            ));
        }
        let figures: Vec<String> = row
            .size
            .dimensions()
            .map(|(_, length)| format!("{length:#}"))
            .collect();
        let text = format!("{} mm {}", figures.join(" x "), row.size.family().name());
        let found = Question::read(&text).map(|question| answer(&question, None));
        let has_it = found.as_ref().is_ok_and(|found| {
            found
                .answers
                .iter()
                .any(|one| names(one).any(|name| name.starts_with(&row.designation)))
        });
        if !has_it {
            wrong.push(format!(
                "{}: not among the answers to `{text}`",
                row.designation
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

/// No row from memory goes in as it is while no supplier prints its size.
#[test]
fn a_row_from_memory_never_goes_in_as_it_is() {
    let mut asked = 0;
    for row in standard::parts()
        .iter()
        .filter(|row| row.confidence == Confidence::D)
    {
        let Ok(question) = Question::read(&row.designation) else {
            continue;
        };
        asked += 1;
        for one in answer(&question, None).answers {
            let is_free = one.judgement.verdict == Verdict::AsItIs;
            assert!(
                !is_free || one.confidence != Some(Confidence::D),
                "{}: {}",
                row.designation,
                one.designation
            );
        }
    }
    assert!(asked > 1000, "{asked}");
}

/// A number and figures that contradict each other, or a type nobody named, never give the first verdict.
#[test]
fn what_is_not_sure_never_goes_in_as_it_is() {
    for text in [
        "6308 40x80x18",
        "40 x 80 x 18 P0 CN open",
        "63?6",
        "3/8 dowel",
    ] {
        let answers = answer(&Question::read(text).unwrap(), None);
        assert!(!answers.answers.is_empty(), "{text}");
        for one in &answers.answers {
            assert!(
                one.judgement.verdict > Verdict::AsItIs,
                "{text}: {} {}",
                one.designation,
                one.probability
            );
        }
    }
}

/// While a word is not understood, no part goes in without a check that names it, whatever else the question says.
#[test]
fn a_word_not_understood_is_a_check_of_every_answer() {
    let mut told = 0;
    for case in table::read("bench_cases") {
        for text in [
            case["question"].clone(),
            format!("{} wobbly", case["question"]),
        ] {
            let Ok(question) = Question::read(&text) else {
                continue;
            };
            // Words that a note on the question tells of are asked to be settled, the others are named.
            let untold = question.untold();
            let is_told = |check: &String| match untold[..] {
                [] => check.starts_with("settle first what the notes say"),
                _ => untold.iter().all(|word| check.contains(*word)),
            };
            if question.not_understood.is_empty() {
                continue;
            }
            for one in answer(&question, None).answers {
                told += 1;
                let judgement = &one.judgement;
                assert!(judgement.verdict > Verdict::AsItIs, "{text}: {one:?}");
                assert!(judgement.checks.iter().any(is_told), "{text}: {one:?}");
            }
        }
    }
    assert!(told > 300, "{told}");
}

/// What words ask for is in the designation to order: read again, it asks for the same.
#[test]
fn the_designation_to_order_asks_for_what_the_words_did() {
    for text in [
        "6206 sealed one side",
        "6206 shielded one side C3",
        "6206 with rubber seals",
        "6206 non-contact seals",
        "6206 snap ring groove",
        "6206 with snap ring",
        "6206 tapered bore",
        "22208 taper bore 1:12 C3",
        "6206 brass cage C3",
        "7206 40°",
        "7206 B back-to-back",
        "7206 15 degrees face to face",
        "6206 ABEC 5",
        "oil seal 40x62x8 dust lip",
        "30 x 62 x 16 deep groove sealed one side C4 class 6",
    ] {
        let asked = Question::read(text).unwrap();
        assert!(asked.not_understood.is_empty(), "{text}");
        let first = &answer(&asked, None).answers[0].designation.clone();
        let again = Question::read(first).unwrap();
        let (wanted, ordered) = (&asked.traits, &again.traits);
        let closure = wanted.closure.filter(|closure| *closure != Closure::Open);
        assert!(
            closure.is_none() || ordered.closure == closure,
            "{text}: {first}"
        );
        assert_eq!(
            ordered.contact_angle, wanted.contact_angle,
            "{text}: {first}"
        );
        assert_eq!(ordered.arrangement, wanted.arrangement, "{text}: {first}");
        assert_eq!(ordered.cage, wanted.cage, "{text}: {first}");
        // DIN 3760: a dust lip leaves the outside open, and each form with it is offered.
        let lip = asked.needs.has_dust_lip;
        let of_order = ordered.seal_form.map(SealForm::has_dust_lip);
        assert!(lip.is_none() || of_order == lip, "{text}: {first}");
        let is_form = lip.is_some() || ordered.seal_form == wanted.seal_form;
        assert!(is_form, "{text}: {first}");
        for (of_order, of_words) in [
            (
                ordered.has_snap_ring_groove == Some(true),
                wanted.has_snap_ring_groove == Some(true),
            ),
            (
                ordered.bore_form == Some(BoreForm::Taper12),
                wanted.bore_form == Some(BoreForm::Taper12),
            ),
            (ordered.variant.is_some(), wanted.variant.is_some()),
        ] {
            assert_eq!(of_order, of_words, "{text}: {first}");
        }
        let class = wanted.tolerance_class.unwrap_or(ToleranceClass::Normal);
        let of_order = ordered.tolerance_class.unwrap_or(ToleranceClass::Normal);
        assert_eq!(of_order, class, "{text}: {first}");
    }
}

/// Probabilities of the sizes and of none of them add up to one at most, whatever is asked.
#[test]
fn probabilities_add_up() {
    for case in table::read("bench_cases") {
        let Ok(question) = Question::read(&case["question"]) else {
            continue;
        };
        let answers = answer(&question, None);
        let mut sizes: Vec<_> = answers
            .answers
            .iter()
            .chain(&answers.refused)
            .filter_map(|one| one.size.map(|size| (size, one.probability)))
            .collect();
        sizes.sort_by_key(|(size, _)| *size);
        sizes.dedup_by(|a, b| a.0 == b.0 || a.0.fit().is_some() && b.0.fit().is_some());
        let sum: f64 = sizes.iter().map(|(_, probability)| probability).sum();
        assert!(
            sum + answers.none_of_these.probability < 1.01,
            "{question:?}: {sum}"
        );
        assert!(answers.none_of_these.probability >= 0.001);
    }
}

#[test]
pub fn limits_of_fits_agree_with_another_package() {
    // ISO 286-2 by the open package pressfit; the shipped table comes from another one.
    let rows = table::read("iso286_pressfit");
    assert!(rows.len() >= 400, "{}", rows.len());
    outside::compared(rows.len());
    for row in &rows {
        let number = |column: &str| row[column].parse::<f64>().unwrap();
        let of = limit::fit(&row["tolerance_class"], number("diameter_mm")).unwrap();
        assert!(
            (of.lower_um - number("lower_um")).abs() < 0.6
                && (of.upper_um - number("upper_um")).abs() < 0.6,
            "{row:?}: {of:?}"
        );
    }
}
