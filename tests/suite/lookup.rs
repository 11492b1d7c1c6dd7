//! Questions at the bench, answered from the standard tables.

use sparewright::catalogue::card_index::CardIndex;
use sparewright::interchange::Verdict;
use sparewright::lookup::{Answers, Question, answer};
use sparewright::part::{Family, SizeKey, Traits};
use sparewright::record::Records;
use sparewright::units::Length;

use super::sample::{offer, part, shop};

fn ask(text: &str) -> Answers {
    answer(
        &Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}")),
        None,
    )
}

fn designations(text: &str) -> Vec<String> {
    ask(text)
        .answers
        .iter()
        .map(|answer| answer.designation.clone())
        .collect()
}

/// Sizes and the designation their standard gives them: ISO 15 and the tables named in each family's file.
#[test]
fn a_size_gives_its_standard_part() {
    for (question, expected) in [
        ("30 x 62 x 16 deep groove", "6206"),
        ("30x62x16 deep groove ball bearing", "6206"),
        ("25 52 16.25 tapered", "30205"),
        ("1/2 x 1 1/8 x 1/4 deep groove", "R8"),
        ("deep groove .5 1.125 .25", "R8"),
        ("o-ring 31.34 x 3.53", "AS568-218"),
    ] {
        let found = designations(question);
        let is_expected = |name: &String| name == expected;
        if expected == "AS568-218" {
            // 1.234 in x 0.139 in is AS568-218: SAE AS568.
            assert!(found.iter().any(is_expected), "{question}: {found:?}");
        } else {
            assert_eq!(
                found.first().map(String::as_str),
                Some(expected),
                "{question}: {found:?}"
            );
        }
    }
}

#[test]
fn worn_measurements_give_the_nearest_size_after_checks() {
    // ISO 15: 6209 is 45 x 85 x 19; a worn one measures a little less on every dimension.
    let answers = ask("44.96 84.9 19 worn deep groove");
    assert_eq!(answers.answers[0].designation, "6209");
    assert_eq!(answers.answers[0].judgement.verdict, Verdict::AfterChecks);
    assert!((0.001..0.5).contains(&answers.none_of_these.probability));
}

#[test]
fn types_of_one_envelope_are_all_shown_and_none_is_sure() {
    // ISO 15: 6205, 7205, NU205, 1205 share 25 x 52 x 15.
    let answers = ask("25 x 52 x 15");
    let found: Vec<&str> = answers
        .answers
        .iter()
        .flat_map(|answer| std::iter::once(&answer.designation).chain(&answer.twins))
        .map(String::as_str)
        .collect();
    for designation in ["6205", "1205", "NU205"] {
        assert!(found.contains(&designation), "{designation} in {found:?}");
    }
    assert!(
        answers
            .answers
            .iter()
            .all(|answer| answer.judgement.verdict != Verdict::AsItIs)
    );
    assert!(answers.ask_next.unwrap().question.contains("type"));
}

#[test]
fn a_size_no_standard_lists_is_said_to_be_none() {
    let answers = ask("31 x 63 x 16 deep groove");
    assert!(answers.answers.is_empty());
    assert!(
        answers.none_of_these.why.contains("no standard size")
            && answers.none_of_these.probability > 0.9
    );
}

#[test]
fn a_full_designation_goes_in_as_it_is_and_its_size_is_told() {
    let answers = ask("6206-2RS C3");
    assert_eq!(answers.answers[0].judgement.verdict, Verdict::AsItIs);
    assert_eq!(
        answers.answers[0].size.unwrap().to_string(),
        "30 x 62 x 16 mm"
    );
}

#[test]
fn words_without_a_size_are_refused_with_an_example() {
    let error = Question::read("the big one").unwrap_err().to_string();
    assert!(
        error.contains("no size and no standard designation in `the big one`"),
        "{error}"
    );
    assert!(
        Question::read("  ")
            .unwrap_err()
            .to_string()
            .contains("empty")
    );
}

/// DIN 3760 lists 40 x 62 x 8; the shipped row is from memory (D). Two suppliers that print the size lift the check.
#[test]
fn a_row_from_memory_rises_when_two_suppliers_print_its_size() {
    let of = |suppliers: &[&str]| {
        let offers = suppliers
            .iter()
            .map(|supplier| offer(supplier, "40x62x8 AS NBR", 3.0, None))
            .collect();
        let records = Records {
            parts: vec![part("S-1", "40x62x8 AS NBR")],
            offers,
            ..Records::default()
        };
        let shop = shop(records);
        let index = CardIndex::of_shop(&shop);
        let question = Question::read("40x62x8 AS NBR").unwrap();
        answer(&question, Some(&index))
    };
    let one = of(&["East"]);
    assert_eq!(one.answers[0].judgement.verdict, Verdict::AfterChecks);
    let two = of(&["East", "West"]);
    let first = &two.answers[0];
    assert_eq!(first.judgement.verdict, Verdict::AsItIs, "{first:?}");
    assert!(
        first
            .judgement
            .agrees
            .iter()
            .any(|text| text.contains("East and West")),
        "{first:?}"
    );
    assert_eq!(first.offers.len(), 2);
}

/// A size in no table that the shop keeps is found by its figures.
#[test]
fn a_size_of_the_shops_own_is_found() {
    let records = Records {
        parts: vec![part("S-2", "41x63x9 AS NBR")],
        ..Records::default()
    };
    let shop = shop(records);
    let index = CardIndex::of_shop(&shop);
    let question = Question::read("oil seal 41 x 63 x 9").unwrap();
    let found = answer(&question, Some(&index));
    assert_eq!(found.answers[0].number.as_deref(), Some("S-2"));
}

/// ISO 15: 6308 is 40 x 90 x 23. One figure of it is a figure of very many sizes in a large catalogue, and no conflict.
#[test]
fn one_figure_of_a_number_is_no_conflict_however_many_sizes_share_it() {
    let mm = |value: f64| Length::from_mm(value).unwrap();
    let parts = (0..300).map(|at| {
        let (bore, width) = (f64::from(20 + at % 30), f64::from(10 + at / 30));
        let lengths = [mm(bore + 0.5), mm(90.0), mm(width + 0.5)];
        let mut own = part(&format!("OWN-{at}"), "6205");
        own.facts.designation = None;
        own.facts.family = Some(Family::DeepGrooveBall);
        own.facts.size = SizeKey::new(Family::DeepGrooveBall, &lengths).ok();
        own.facts.traits = Traits::default();
        own
    });
    let shop = shop(Records {
        parts: parts.collect(),
        ..Records::default()
    });
    let index = CardIndex::of_shop(&shop);
    let ask = |text: &str| answer(&Question::read(text).unwrap(), Some(&index));
    for (text, is_conflict) in [
        ("6308 90 mm od", false),
        ("6308 od 90", false),
        ("6308 bore 40 od 90", false),
        ("6308 bore 90", true),
        ("6308 od 95", true),
        ("6308 bore 40 od 90 w 24", true),
    ] {
        let answers = ask(text);
        let is_said = answers
            .warnings
            .iter()
            .any(|line| line.contains("contradict"));
        assert_eq!(is_said, is_conflict, "{text}: {:?}", answers.warnings);
        let names: Vec<&str> = answers
            .answers
            .iter()
            .map(|one| one.designation.as_str())
            .collect();
        assert!(names.contains(&"6308"), "{text}: {names:?}");
        if !is_conflict {
            assert!(answers.answers[0].probability > 0.99, "{text}");
        }
    }
}
