//! What must hold of judgements of any two parts: nothing known less, nothing asked more ever makes a verdict better.

use proptest::prelude::*;
use sparewright::interchange::{AxialNeed, Fluid, Needs, Subject, Turning, Verdict, judge};
use sparewright::part::{Clearance, Closure, ToleranceClass, Traits};
use sparewright::standard;

use super::marks::{ring, seal};
use super::subject;
use sparewright::part::SealForm;

/// What may be forgotten of a part at hand.
type Blank = (&'static str, fn(&mut Traits));

const BLANKS: [Blank; 7] = [
    ("closure", |traits| traits.closure = None),
    ("clearance", |traits| traits.clearance = None),
    ("tolerance class", |traits| traits.tolerance_class = None),
    ("bore form", |traits| traits.bore_form = None),
    ("snap ring groove", |traits| {
        traits.has_snap_ring_groove = None
    }),
    ("seal form", |traits| traits.seal_form = None),
    ("material", |traits| traits.material = None),
];

fn bearing() -> impl Strategy<Value = Subject> {
    let closures = prop::sample::select(Closure::ALL.to_vec());
    let clearances = prop::sample::select(Clearance::ALL.to_vec());
    let classes = prop::sample::select(ToleranceClass::ALL.to_vec());
    let names = prop::sample::select(vec!["6206", "62206", "6306", "6006"]);
    (names, closures, clearances, classes).prop_map(|(name, closure, clearance, class)| {
        let mut subject = subject(name);
        subject.traits.closure = Some(closure);
        subject.traits.clearance = Some(clearance);
        subject.traits.tolerance_class = Some(class);
        subject
    })
}

fn lip_seal() -> impl Strategy<Value = Subject> {
    let forms = prop::sample::select(vec![
        SealForm::A,
        SealForm::As,
        SealForm::B,
        SealForm::Bs,
        SealForm::C,
        SealForm::Cs,
    ]);
    let materials = prop::sample::select(vec!["NBR", "FKM", "HNBR", "ACM", "VMQ", "EPDM"]);
    (forms, materials).prop_map(|(form, material)| seal(form, material))
}

fn o_ring() -> impl Strategy<Value = Subject> {
    let materials = prop::sample::select(vec!["NBR", "FKM", "EPDM", "VMQ"]);
    let hardness = prop::option::of(prop::sample::select(vec!["70 Shore A", "90 Shore A"]));
    (materials, hardness).prop_map(|(material, hardness)| ring(material, hardness))
}

/// Two parts of one kind.
fn pair() -> impl Strategy<Value = (Subject, Subject)> {
    prop_oneof![
        3 => (bearing(), bearing()),
        2 => (lip_seal(), lip_seal()),
        1 => (o_ring(), o_ring()),
    ]
}

fn needs() -> impl Strategy<Value = Needs> {
    (
        prop::option::of(prop::sample::select(vec![
            Fluid::MineralOil,
            Fluid::Fuel,
            Fluid::Water,
            Fluid::Steam,
        ])),
        prop::option::of(40.0_f64..250.0),
        prop::option::of(-60.0_f64..0.0),
        prop::option::of(10.0_f64..20_000.0),
        prop::option::of(0.0_f64..50.0),
        prop::option::of(prop::sample::select(vec![
            AxialNeed::Floats,
            AxialNeed::OneWay,
            AxialNeed::BothWays,
        ])),
        any::<[bool; 8]>(),
    )
        .prop_map(
            |(fluid, highest_c, lowest_c, speed_rpm, pressure_bar, axial, flags)| Needs {
                fluid,
                highest_c,
                lowest_c,
                speed_rpm,
                pressure_bar,
                axial,
                is_dirty: flags[0],
                is_misaligned: flags[1],
                has_inverter: flags[2],
                is_food: flags[3],
                is_corrosive: flags[4],
                has_radial_load: flags[5],
                has_shocks: flags[6],
                turning: flags[7].then_some(Turning::OuterRing),
                ..Needs::default()
            },
        )
}

#[test]
fn every_standard_part_differs_from_itself_in_nothing() {
    let mut judged = 0;
    for row in standard::parts() {
        let (want, have) = (Subject::of_standard(row), Subject::of_standard(row));
        let judgement = judge(&want, &have);
        assert_eq!(judgement.differs, [], "{}", row.designation);
        assert!(
            matches!(judgement.verdict, Verdict::AsItIs | Verdict::AfterChecks),
            "{}: {:?}",
            row.designation,
            judgement
        );
        judged += 1;
    }
    assert!(judged > 1_000, "{judged}");
}

#[test]
fn a_part_of_another_size_is_never_it_whatever_else_agrees() {
    // Every fifth standard part against the next of its family.
    let parts = standard::parts();
    let mut judged = 0;
    for at in (0..parts.len() - 1).step_by(5) {
        let (one, other) = (&parts[at], &parts[at + 1]);
        if one.size == other.size {
            continue;
        }
        let judgement = judge(&Subject::of_standard(one), &Subject::of_standard(other));
        assert_ne!(
            judgement.verdict,
            Verdict::AsItIs,
            "{} by {}",
            one.designation,
            other.designation
        );
        assert!(
            !judgement.differs.is_empty(),
            "{} by {}",
            one.designation,
            other.designation
        );
        judged += 1;
    }
    assert!(judged > 200, "{judged}");
}

#[test]
fn verdicts_are_in_order_and_have_words_and_codes_of_their_own() {
    let all = [
        Verdict::AsItIs,
        Verdict::AfterChecks,
        Verdict::WithRework,
        Verdict::MustNot,
        Verdict::Near,
    ];
    for two in all.windows(2) {
        assert!(two[0] < two[1], "{two:?}");
    }
    let words: std::collections::BTreeSet<String> = all.iter().map(ToString::to_string).collect();
    let codes: std::collections::BTreeSet<&str> =
        all.iter().map(|verdict| verdict.code()).collect();
    assert_eq!((words.len(), codes.len()), (5, 5));
    for verdict in all {
        assert_eq!(
            serde_json::to_string(&verdict).unwrap(),
            format!("\"{}\"", verdict.code())
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// What is forgotten of the part at hand never makes it one that goes in as it is.
    #[test]
    fn forgetting_never_helps((want, have) in pair(), which in 0_usize..7) {
        let (what, blank) = BLANKS[which];
        let mut less = have.clone();
        blank(&mut less.traits);
        if judge(&want, &less).verdict == Verdict::AsItIs {
            prop_assert_eq!(judge(&want, &have).verdict, Verdict::AsItIs, "without its {}: {:?}", what, have.traits);
        }
    }

    /// A size that is not known is never the size that is wanted.
    #[test]
    fn a_part_without_a_size_never_goes_in_as_it_is((want, have) in pair()) {
        let mut less = have;
        less.size = None;
        prop_assert_ne!(judge(&want, &less).verdict, Verdict::AsItIs);
    }

    /// What the place asks for besides never makes a verdict better.
    #[test]
    fn asking_more_never_helps((want, have) in pair(), needs in needs()) {
        let plain = judge(&want, &have);
        let asked = Subject { needs, ..want.clone() };
        let judgement = judge(&asked, &have);
        prop_assert!(judgement.verdict >= plain.verdict, "{:?}: {:?} after {:?}", asked.needs, judgement, plain);
        for difference in &plain.differs {
            prop_assert!(judgement.differs.contains(difference), "{difference:?} is forgotten");
        }
    }

    /// What a part is called decides nothing, and the same question has the same answer.
    #[test]
    fn names_decide_nothing((want, have) in pair(), name in "[A-Z]{1,4}-[0-9]{1,5}") {
        let renamed = Subject { label: name, ..have.clone() };
        let (one, other) = (judge(&want, &have), judge(&want, &renamed));
        prop_assert_eq!(one.verdict, other.verdict);
        prop_assert_eq!(one.differs.len(), other.differs.len());
        prop_assert_eq!(&judge(&want, &have), &one);
    }

    /// A verdict other than the best has a reason that can be read, and the best has none against it.
    #[test]
    fn a_verdict_says_why((want, have) in pair(), needs in needs()) {
        let want = Subject { needs, ..want };
        let judgement = judge(&want, &have);
        match judgement.verdict {
            Verdict::AsItIs => {
                prop_assert!(judgement.unknown.is_empty() && judgement.checks.is_empty() && judgement.rework.is_empty(), "{judgement:?}");
            }
            Verdict::AfterChecks => {
                let reasons = judgement.checks.len() + judgement.unknown.len() + judgement.differs.len();
                prop_assert!(reasons > 0, "{judgement:?}");
            }
            Verdict::WithRework => prop_assert!(!judgement.rework.is_empty(), "{judgement:?}"),
            Verdict::MustNot | Verdict::Near => prop_assert!(!judgement.differs.is_empty(), "{judgement:?}"),
        }
        for difference in &judgement.differs {
            prop_assert!(!difference.effect.is_empty() && !difference.source.is_empty());
        }
    }

    /// Goes in both ways, or by way of a third, where each step goes in as it is: what is equal is equal.
    #[test]
    fn as_it_is_goes_by_way_of_a_third(a in bearing(), b in bearing(), c in bearing()) {
        let goes = |want: &Subject, have: &Subject| judge(want, have).verdict == Verdict::AsItIs;
        if goes(&a, &b) && goes(&b, &c) {
            prop_assert!(goes(&a, &c), "{:?} {:?} {:?}", a.traits, b.traits, c.traits);
        }
    }
}
