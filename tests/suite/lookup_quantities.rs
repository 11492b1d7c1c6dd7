//! Speeds, pressures and fluids in a question, as people write them: they are never read as another figure.

use sparewright::interchange::{Fluid, Verdict};
use sparewright::lookup::{Answers, Question, answer};

fn read(text: &str) -> Question {
    Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn ask(text: &str) -> Answers {
    answer(&read(text), None)
}

/// Arithmetic: 4,000 turns a minute of 80 mm are pi x 0.08 x 4000 / 60 = 16.8 m/s, above the 14 m/s of NBR (DIN 3760 as in
/// `data`).
#[test]
fn marks_between_thousands_make_no_speed_small() {
    for text in [
        "oil seal 80x100x10 NBR 4000 rpm",
        "oil seal 80x100x10 NBR 4,000 rpm",
        "oil seal 80x100x10 NBR 4 000 rpm",
        "oil seal 80x100x10 NBR 4.000 U/min",
        "Wellendichtring 80x100x10 NBR 4'000 U/min",
    ] {
        let question = read(text);
        assert_eq!(question.needs.speed_rpm, Some(4_000.0), "{text}");
        let answers = ask(text);
        let goes_in = answers
            .answers
            .iter()
            .find(|answer| answer.designation.contains("80x100x10"));
        assert!(
            goes_in.is_none_or(|answer| answer.judgement.verdict >= Verdict::MustNot),
            "{text}: {goes_in:?}"
        );
    }
    let question = read("6206 2RS 30 000 rpm");
    assert_eq!(question.needs.speed_rpm, Some(30_000.0));
    assert!(question.readings.is_empty());
}

#[test]
fn pounds_and_megapascals_are_pressures_and_no_hardness() {
    // 1 psi = 0.0689476 bar, 1 MPa = 10 bar (ISO 80000-4).
    for (text, bar) in [
        ("RWDR 40x62x7 NBR 70 psi", 4.83),
        ("o-ring 20x2.5 NBR 30 MPa", 300.0),
        ("RWDR 40x62x7 NBR 0,5 MPa", 5.0),
        ("o-ring 20x2.5 NBR 1.000 bar", 1_000.0),
        ("o-ring 20x2.5 NBR 50 bar", 50.0),
        ("oil seal 40x62x7 NBR 50 psi", 3.45),
    ] {
        let question = read(text);
        let found = question.needs.pressure_bar;
        assert!(
            found.is_some_and(|of| (of - bar).abs() < 0.01),
            "{text}: {found:?}"
        );
        assert_eq!(question.traits.hardness, None, "{text}");
    }
    let notes = read("RWDR 40x62x7 NBR 70 psi").notes;
    assert!(
        notes.contains(&"`70 psi` read as 4.83 bar".to_owned()),
        "{notes:?}"
    );
}

#[test]
fn silicone_oil_is_a_fluid_and_no_rubber() {
    for text in [
        "o-ring 20x2.5 silicone oil",
        "o-ring 20x2.5 silikon öl",
        "o-ring 20x2.5 silicone grease",
    ] {
        let question = read(text);
        assert_eq!(question.needs.fluid, Some(Fluid::SiliconeFluid), "{text}");
        let designated = question.designation.and_then(|of| of.traits.material);
        assert_eq!(designated.or(question.traits.material), None, "{text}");
    }
    let rubber = ask("o-ring 20x2.5 VMQ silicone oil");
    let rubber = rubber
        .answers
        .iter()
        .find(|of| of.designation.contains("VMQ"));
    assert!(
        rubber.is_none_or(|of| of.judgement.verdict >= Verdict::MustNot),
        "{rubber:?}"
    );
}

#[test]
fn a_figure_with_a_unit_behind_an_elastomer_is_no_hardness() {
    // ISO 48-4: a hardness is told in Shore A or bare; any other unit says something else.
    for text in [
        "o-ring 20x2.5 NBR 80 \u{b0}C",
        "o-ring 20x2.5 NBR 90 C",
        "o-ring 20x2.5 NBR 50 bar",
        "o-ring 20x2.5 FKM 60 rpm",
    ] {
        let answers = ask(text);
        let hard = answers
            .answers
            .iter()
            .find(|of| of.designation.contains("Shore"));
        assert!(hard.is_none(), "{text}: {hard:?}");
    }
    let answers = ask("o-ring 20x2.5 NBR 90");
    assert!(answers.answers[0].designation.contains("90 Shore A"));
}

/// ISO 80000-3 and DIN 1301: r/min, min to the minus one and `UpM` are all turns a minute.
#[test]
fn every_way_to_write_turns_a_minute_is_one() {
    for text in [
        "6205 3000 r/min",
        "6205 3,000 r/min",
        "6205 3000 UpM",
        "6205 3.000 Upm",
        "6205 3000 min⁻¹",
        "6205 3000 min-1",
        "6205 3000min−1",
        "6205 Drehzahl 3000 UpM",
    ] {
        let question = read(text);
        assert_eq!(question.needs.speed_rpm, Some(3_000.0), "{text}");
        assert!(question.readings.is_empty(), "{text}: {question:?}");
        assert!(question.not_understood.is_empty(), "{text}: {question:?}");
    }
}

/// Arithmetic: twenty thousand hours are no size and no twenty hours.
#[test]
fn marks_between_thousands_make_no_life_short() {
    for text in ["6205 20,000 h", "6205 20.000 h", "6205 20 000 h"] {
        let question = read(text);
        assert!(question.readings.is_empty(), "{text}: {question:?}");
        assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        assert!(
            question
                .notes
                .iter()
                .any(|note| note.contains("is not looked at here")),
            "{text}: {question:?}"
        );
    }
}

/// ISO 281 reckons lives from loads, and nothing here does: what nobody looked at is a check, and never goes in as it is.
#[test]
fn a_load_a_power_or_a_life_is_a_check() {
    for (text, said) in [
        ("6205 load 60 kN", "60 kN"),
        ("6205 2RS radial load 30 kN", "30 kN"),
        ("6205 20000 h", "20000 h"),
        ("50000 hours 6205", "50000 hours"),
        ("6205 motor 5.5 kW", "5.5 kW"),
    ] {
        let answers = ask(text);
        let first = &answers.answers[0];
        assert!(first.designation.starts_with("6205"), "{text}");
        assert_eq!(first.judgement.verdict, Verdict::AfterChecks, "{text}");
        let is_told = |check: &String| check.ends_with(&format!("looked at here: {said}"));
        assert!(
            first.judgement.checks.iter().any(is_told),
            "{text}: {first:?}"
        );
    }
    let plain = ask("6205");
    assert_eq!(plain.answers[0].judgement.verdict, Verdict::AsItIs);
}

/// DIN 3760, from memory: nitrile stands 14 m/s.
#[test]
fn a_lip_faster_than_its_elastomer_stands_is_refused() {
    let fast = ask("lip seal 40x62x7 NBR 20 m/s");
    let is_it = |of: &sparewright::lookup::Answer| of.designation.contains("40x62x7");
    assert!(!fast.answers.iter().any(is_it), "{:?}", fast.answers);
    assert!(fast.refused.iter().any(is_it), "{:?}", fast.refused);
    let slow = ask("lip seal 40x62x7 NBR 12 m/s");
    assert!(!slow.answers.is_empty(), "{slow:?}");
}
