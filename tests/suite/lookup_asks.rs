//! What is asked next, what is said of none of the answers, and what every answer must hold, over many questions.
//!
//! Information is counted by its definition (Shannon 1948): an answer tells at most the logarithm of the number of things it
//! tells apart. Sizes come from the shipped tables; which question a technician would ask is common practice.

use std::collections::BTreeSet;

use sparewright::interchange::Verdict;
use sparewright::lookup::{Answer, Answers, Matched, Question, answer, certainty, percent};
use sparewright::part::{Family, NameKey};
use sparewright::standard;

use super::table;

fn ask(text: &str) -> Answers {
    answer(
        &Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}")),
        None,
    )
}

/// The question that is asked next; empty for none.
fn next(text: &str) -> String {
    ask(text)
        .ask_next
        .map_or_else(String::new, |next| next.question)
}

#[test]
fn what_is_open_is_asked_for() {
    for (text, begins) in [
        // Types of one envelope (ISO 15) are told apart by looking.
        ("25 x 52 x 15", "What type is it"),
        ("20 47 14", "What type is it"),
        // Sizes of one bore by their other dimensions.
        ("bore 30 deep groove", "Measure the"),
        ("od 62 deep groove", "Measure the"),
        ("shaft 40 oil seal", "Measure the"),
        // One size: what the tables leave open.
        ("30 x 62 x 16 deep groove", "Is it open, shielded"),
        ("30 x 62 x 16 deep groove 2RS", "Is a clearance marked"),
        (
            "30 x 62 x 16 deep groove open C3",
            "Is a tolerance class marked",
        ),
        ("30 62 17.25 tapered", "Is a tolerance class marked"),
        ("oil seal 40 62 8 NBR", "Is the outside rubber"),
        ("o-ring 40 x 3", "Which fluid and which temperature"),
        ("dowel pin 6 x 24", "Is the pin hardened"),
        ("circlip 40", "Does the ring sit on a shaft"),
    ] {
        assert!(next(text).starts_with(begins), "{text}: {}", next(text));
    }
}

#[test]
fn a_shaft_that_needles_or_a_lip_run_on_is_looked_at() {
    // Published description (hardened, ground), 58 HRC from memory; public notes citing DIN 3760 and ISO 6194-1; beside the
    // old track: common practice, no source.
    for (text, words, has_not) in [
        ("HK2016", "58 HRC", "track"),
        ("K20x24x10", "58 HRC", "track"),
        ("HK2016 60 HRC", "", "58 HRC"),
        ("RNA4905", "58 HRC", "track"),
        ("oil seal 40 x 62 x 8", "h11, ground without lead", "track"),
        (
            "oil seal 40 x 62 x 8 worn",
            "track of the old lip",
            "58 HRC",
        ),
        ("6206", "", "HRC"),
        ("NA4905", "", "HRC"),
    ] {
        let answers = ask(text).answers;
        assert!(!answers.is_empty(), "{text}");
        for one in &answers {
            let checks = one.judgement.checks.join(", ");
            assert!(checks.contains(words), "{text}: {checks}");
            assert!(!checks.contains(has_not), "{text}: {checks}");
        }
    }
    for text in ["HK2016", "K20x24x10", "RNA4905"] {
        assert!(
            next(text).starts_with("Is the raceway on the shaft"),
            "{text}"
        );
    }
    // It has an inner ring.
    assert!(!next("NA4905").starts_with("Is the raceway"));
}

#[test]
fn what_is_told_is_not_asked_again() {
    for (text, has_not) in [
        ("30 x 62 x 16 deep groove open CN P0", "open, shielded"),
        ("30 x 62 x 16 deep groove open CN P0", "clearance marked"),
        ("oil seal 40 62 8 AS NBR", "outside rubber"),
        ("o-ring 40 x 3 NBR", "Which fluid"),
        ("o-ring 40 x 3 oil 80 C", "Which fluid"),
        ("25 x 52 x 15 NU", "What type is it"),
    ] {
        assert!(!next(text).contains(has_not), "{text}: {}", next(text));
    }
    // All that there is to tell was told.
    assert_eq!(next("6206 open CN P0"), "");
    assert_eq!(next("KM8"), "");
}

#[test]
fn a_measured_dimension_is_asked_for_again_only_with_a_better_instrument() {
    for text in ["o-ring 33.2 x 3.1 worn", "o-ring id 34.2 cs 2.95 worn"] {
        let asked = next(text);
        assert!(
            !asked.starts_with("Measure") || asked.contains("again, with a micrometer"),
            "{text}: {asked}"
        );
    }
}

#[test]
fn an_answer_tells_no_more_than_there_is_to_tell() {
    let mut asked = 0;
    for case in table::read("bench_cases") {
        let Ok(question) = Question::read(&case["question"]) else {
            continue;
        };
        let answers = answer(&question, None);
        let Some(next) = &answers.ask_next else {
            continue;
        };
        asked += 1;
        let things: usize = answers
            .answers
            .iter()
            .chain(&answers.refused)
            .map(|one| 1 + one.twins.len())
            .sum();
        // Closure, clearance, class, form and elastomer have up to four answers each, whatever the size.
        let most = (things.max(4) as f64).log2().max(2.0);
        assert!(
            next.bits > 0.0 && next.bits <= most + 1e-3,
            "{}: {} bits of {things}",
            question.text,
            next.bits
        );
        assert!(
            next.question.ends_with(['?', '.']) && !next.why.is_empty(),
            "{}",
            question.text
        );
    }
    assert!(asked > 250, "{asked}");
}

/// All that an answer says of one part.
fn is_whole(one: &Answer, text: &str) {
    assert!(!one.designation.trim().is_empty(), "{text}");
    assert!(
        (0.0..=1.0).contains(&one.probability),
        "{text}: {}",
        one.probability
    );
    assert_eq!(one.certainty(), certainty(one.probability), "{text}");
    let judgement = &one.judgement;
    let is_clear = judgement.differs.is_empty()
        && judgement.unknown.is_empty()
        && judgement.checks.is_empty()
        && judgement.rework.is_empty();
    match judgement.verdict {
        // What is unknown is never taken for equal, and a check is a condition.
        Verdict::AsItIs => assert!(
            judgement.unknown.is_empty()
                && judgement.checks.is_empty()
                && judgement.rework.is_empty(),
            "{text}: {} {judgement:?}",
            one.designation
        ),
        Verdict::AfterChecks | Verdict::WithRework => {
            assert!(!is_clear, "{text}: {} needs a reason", one.designation);
        }
        Verdict::MustNot | Verdict::Near => {
            assert!(
                !judgement.differs.is_empty(),
                "{text}: {} is refused without a reason",
                one.designation
            );
        }
    }
    for difference in &judgement.differs {
        assert!(
            !difference.effect.is_empty() && !difference.source.is_empty(),
            "{text}: {difference:?}"
        );
        assert_ne!(
            difference.have, difference.want,
            "{text}: {} differs from itself: {difference:?}",
            one.designation
        );
    }
    for lines in [
        &judgement.agrees,
        &judgement.unknown,
        &judgement.checks,
        &judgement.rework,
    ] {
        let once: BTreeSet<&String> = lines.iter().collect();
        assert_eq!(
            once.len(),
            lines.len(),
            "{text}: {} says one thing twice: {lines:?}",
            one.designation
        );
    }
}

#[test]
fn every_answer_gives_its_reasons() {
    let mut seen = 0;
    for case in table::read("bench_cases") {
        let Ok(question) = Question::read(&case["question"]) else {
            continue;
        };
        let answers = answer(&question, None);
        for one in answers.answers.iter().chain(&answers.refused) {
            is_whole(one, &question.text);
            seen += 1;
        }
        let goes_in = |one: &Answer| one.judgement.verdict <= Verdict::WithRework;
        assert!(answers.answers.iter().all(goes_in), "{}", question.text);
        assert!(!answers.refused.iter().any(goes_in), "{}", question.text);
        // A part is named once.
        let names = answers
            .answers
            .iter()
            .flat_map(|one| std::iter::once(&one.designation).chain(&one.twins));
        let names: Vec<&String> = names.collect();
        let once: BTreeSet<&&String> = names.iter().collect();
        assert_eq!(once.len(), names.len(), "{}: {names:?}", question.text);
        // The likeliest first.
        let shares: Vec<f64> = answers.answers.iter().map(|one| one.probability).collect();
        assert!(
            shares.is_sorted_by(|a, b| a >= b),
            "{}: {shares:?}",
            question.text
        );
        let none = &answers.none_of_these;
        assert!(
            none.probability >= 0.001 && none.probability <= 1.0 && !none.why.is_empty(),
            "{}",
            question.text
        );
    }
    assert!(seen > 750, "{seen}");
}

#[test]
fn every_number_of_the_tables_differs_from_nothing_when_it_is_asked_for() {
    let mut asked = 0;
    for row in standard::parts().iter().step_by(3) {
        let Ok(question) = Question::read(&row.designation) else {
            continue;
        };
        let Some(designation) = &question.designation else {
            continue;
        };
        if standard::resolve(designation).is_none_or(|found| found.designation != row.designation) {
            continue;
        }
        asked += 1;
        let answers = answer(&question, None);
        let first = answers
            .answers
            .first()
            .unwrap_or_else(|| panic!("{}", row.designation));
        assert_eq!(first.judgement.differs, Vec::new(), "{}", row.designation);
        assert_eq!(first.size, Some(row.size), "{}", row.designation);
        let (name, own) = (
            NameKey::new(&first.designation),
            NameKey::new(&row.designation),
        );
        assert!(
            name.as_str().starts_with(own.as_str()),
            "{}: {}",
            row.designation,
            first.designation
        );
        assert!(
            matches!(first.matched, Matched::Exact | Matched::Rounded),
            "{}",
            row.designation
        );
    }
    assert!(asked > 1_000, "{asked}");
}

#[test]
fn the_same_question_is_answered_alike_whatever_was_asked_before() {
    let texts = [
        "40x80x18",
        "44.96 84.9 19 worn",
        "oil seal 62 x 40 x 8",
        "o-ring 33.2 x 3.1 worn",
        "KM8",
        "3/4 x 1 5/8 x 7/16",
    ];
    let first: Vec<String> = texts
        .iter()
        .map(|text| format!("{:?}", ask(text)))
        .collect();
    for case in table::read("bench_cases").iter().step_by(5) {
        if let Ok(question) = Question::read(&case["question"]) {
            answer(&question, None);
        }
    }
    for (text, first) in texts.iter().zip(&first) {
        assert_eq!(&format!("{:?}", ask(text)), first, "{text}");
    }
    // Another thread has remembered nothing yet.
    let anew = std::thread::spawn(move || texts.map(|text| format!("{:?}", ask(text))).to_vec());
    assert_eq!(anew.join().unwrap(), first);
}

#[test]
fn the_order_of_the_figures_changes_no_first_answer() {
    // ISO 15: 6208 is 40 x 80 x 18; DIN 3760: 40 x 62 x 8; six orders of three figures.
    for (figures, kind, first) in [
        (["40", "80", "18"], "deep groove", "6208"),
        (["30", "62", "16"], "deep groove", "6206"),
        (["30", "62", "17.25"], "tapered", "30206"),
        (["40", "62", "8"], "oil seal", "40x62x8"),
        (["20", "24", "10"], "needle cage", "K20x24x10"),
    ] {
        for order in [
            [0, 1, 2],
            [0, 2, 1],
            [1, 0, 2],
            [1, 2, 0],
            [2, 0, 1],
            [2, 1, 0],
        ] {
            let text = format!("{} {}", kind, order.map(|at| figures[at]).join(" x "));
            let answers = ask(&text).answers;
            assert_eq!(
                answers.first().map(|one| one.designation.as_str()),
                Some(first),
                "{text}"
            );
        }
    }
}

#[test]
fn a_finer_instrument_never_makes_a_sound_size_less_likely() {
    for (figures, kind) in [
        ("40.00 79.99 17.95", "deep groove"),
        ("25.00 51.99 14.95", "deep groove"),
        ("30.00 62.00 17.3", "tapered"),
    ] {
        let share = |instrument: &str| {
            let answers = ask(&format!("{figures} {kind} {instrument}")).answers;
            answers.first().map_or(0.0, |one| one.probability)
        };
        let (rule, calliper, micrometer) = (share("rule"), share("calliper"), share("micrometer"));
        assert!(
            rule <= calliper + 1e-9 && calliper <= micrometer + 1e-3,
            "{figures}: {rule} {calliper} {micrometer}"
        );
    }
}

#[test]
fn percentages_are_for_people() {
    for (share, words) in [
        (0.0, "under 0.1 %"),
        (0.004, "0.4 %"),
        (0.25, "25 %"),
        (0.991, "99.1 %"),
        (0.9999, "over 99.9 %"),
    ] {
        assert_eq!(percent(share), words);
    }
    for (share, words) in [
        (0.995, "practically certain"),
        (0.95, "very likely"),
        (0.7, "likely"),
        (0.3, "one of few"),
        (0.1, "possible"),
        (0.01, "unlikely"),
    ] {
        assert_eq!(certainty(share), words);
    }
}

#[test]
fn figures_of_no_table_lead_to_what_lies_beside_them() {
    // ISO 15 lists 40 x 80 x 18; DIN 3760 lists 35 x 52 x 8, and 7 before 1996.
    for (text, beside, family) in [
        ("40 x 80 x 19 deep groove", "6208", Family::DeepGrooveBall),
        ("35x52x9 oil seal", "35x52x8", Family::LipSeal),
        ("rotary seal 35/52/9", "35x52x8", Family::LipSeal),
    ] {
        let answers = ask(text);
        let all: Vec<&Answer> = answers.answers.iter().chain(&answers.refused).collect();
        let one = all
            .iter()
            .find(|one| one.designation.starts_with(beside))
            .unwrap_or_else(|| panic!("{text}"));
        assert_eq!(one.matched, Matched::Neighbour, "{text}");
        assert!(one.judgement.verdict > Verdict::AsItIs, "{text}");
        assert!(
            all.iter()
                .all(|one| one.size.map(|size| size.family()) == Some(family)),
            "{text}"
        );
        assert!(answers.none_of_these.probability > 0.5, "{text}");
    }
}

/// DIN 3760: the S is a dust lip; A has an outside of rubber, B one of metal.
#[test]
fn a_dust_lip_that_was_named_is_not_asked_for() {
    for (text, asks) in [
        ("oil seal 40x62x8 NBR", "second, outer dust lip"),
        (
            "oil seal 40x62x8 NBR dust lip",
            "Is the outside rubber (A) or metal (B)?",
        ),
        (
            "oil seal 40x62x8 NBR without dust lip",
            "Is the outside rubber (A) or metal (B)?",
        ),
        ("oil seal 40x62x8 NBR double lip", "second, outer dust lip"),
    ] {
        let question = Question::read(text).unwrap();
        let next = answer(&question, None).ask_next.unwrap();
        assert!(next.question.contains(asks), "{text}: {next:?}");
        let has_lip = next.question.contains("dust lip");
        assert_eq!(has_lip, asks.contains("dust lip"), "{text}: {next:?}");
    }
}

/// ISO 8734, from memory: type A is hardened through, type B in its case; ISO 2338 has neither.
#[test]
fn the_type_of_a_hardened_pin_is_unknown_where_nobody_named_it() {
    for (text, is_open) in [
        ("ISO 8734 8x40", true),
        ("dowel 6 x 30 hardened", true),
        ("pin ISO 8734 8x40 A", false),
        ("ISO 8734 6x30 type B", false),
        ("dowel 6 x 30 soft", false),
    ] {
        let answers = answer(&Question::read(text).unwrap(), None);
        let unknown = &answers.answers[0].judgement.unknown;
        let is_told = unknown.iter().any(|one| one.contains("type A"));
        assert_eq!(is_told, is_open, "{text}: {unknown:?}");
    }
}
