//! Every rule that compares two parts, by itself: all pairs in both directions, boundaries, and what is not stated.

use sparewright::interchange::{Judgement, Subject, Verdict, judge};
use sparewright::part::{
    BoreForm, Clearance, Closure, ContactAngle, Family, FitClass, LoadRatings, RibForm, SealForm,
    ToleranceClass, Traits,
};

use super::marks::{ball, bare, is_unknown, mark, names, ring, seal, square};
use super::subject;

#[test]
fn clearance_may_be_one_group_larger_and_never_smaller() {
    // ISO 5753-1: the groups in order; the direction is common practice, no source.
    use Clearance::{C2, C3, C4, C5, Normal};
    square(
        "clearance",
        &[C2, Normal, C3, C4, C5],
        &["=cxxx", "x=cxx", "xx=cx", "xxx=c", "xxxx="],
        |clearance| {
            let mut part = ball();
            part.traits.clearance = Some(clearance);
            part
        },
    );
}

#[test]
fn a_closure_may_keep_out_more_or_less_but_never_fewer_sides() {
    // DIN 623-1: Z shield, RS contact seal, RZ low-friction seal, 2 for both sides.
    square(
        "closure",
        &[
            Closure::Open,
            Closure::ShieldOneSide,
            Closure::ShieldBothSides,
            Closure::LowFrictionSealOneSide,
            Closure::LowFrictionSealBothSides,
            Closure::SealOneSide,
            Closure::SealBothSides,
        ],
        &[
            "=cccccc", "x=ccccc", "xx=xcxc", "xcc=ccc", "xxcx=xc", "xcccc=c", "xxcxcx=",
        ],
        |closure| {
            let mut part = ball();
            part.traits.closure = Some(closure);
            part
        },
    );
}

#[test]
fn a_finer_tolerance_class_is_no_bar_and_a_coarser_one_is() {
    // ISO 492: P0 (normal), P6, P5, P4, P2, each finer than the one before.
    use ToleranceClass::{Normal, P2, P4, P5, P6};
    square(
        "tolerance class",
        &[Normal, P6, P5, P4, P2],
        &["=....", "x=...", "xx=..", "xxx=.", "xxxx="],
        |class| {
            let mut part = ball();
            part.traits.tolerance_class = Some(class);
            part
        },
    );
}

#[test]
fn ribs_decide_whether_the_shaft_is_located() {
    // DIN 5412-1 from memory; IS 6457:1972: NU and N non-locating, NJ in one direction, NUP in both.
    use RibForm::{N, Nj, Nu, Nup};
    square(
        "axial location",
        &[N, Nu, Nj, Nup],
        &["=cxx", "c=xx", "xx=c", "xxx="],
        |rib| {
            let mut part = subject("NU205");
            part.confidence = None;
            part.traits.rib_form = Some(rib);
            part
        },
    );
}

#[test]
fn bores_of_another_form_never_do() {
    // DIN 623-1: K is a bore of taper 1:12, K30 of 1:30.
    square(
        "bore",
        &[BoreForm::Cylindrical, BoreForm::Taper12, BoreForm::Taper30],
        &["=xx", "x=x", "xx="],
        |form| {
            let mut part = subject("22208");
            part.confidence = None;
            part.traits.bore_form = Some(form);
            part
        },
    );
}

#[test]
fn contact_angles_never_stand_in_for_each_other() {
    // Published type descriptions: C 15, AC 25, A 30, B 40 degrees.
    square(
        "contact angle",
        &[15, 25, 30, 40],
        &["=xxx", "x=xx", "xx=x", "xxx="],
        |angle| {
            let mut part = subject("7205B");
            part.confidence = None;
            part.traits.contact_angle = Some(ContactAngle(angle));
            part
        },
    );
}

#[test]
fn a_dust_lip_is_never_left_out_and_case_and_rubber_are_checked() {
    // DIN 3760: A rubber outside, B metal, C metal with inner case; S with dust lip (DIN 3761-2).
    use SealForm::{A, As, B, Bs, C, Cs};
    square(
        "seal form",
        &[A, As, B, Bs, C, Cs],
        &["=ccccc", "x=xcxc", "cc=ccc", "xcx=xc", "cccc=c", "xcxcx="],
        |form| seal(form, "NBR"),
    );
}

#[test]
fn an_elastomer_is_another_part_but_for_what_stands_all_that_it_stood() {
    // ISO 1629 symbols; published media lists.
    square(
        "elastomer",
        &["NBR", "HNBR", "FKM", "EPDM", "VMQ", "CR"],
        &["=ccxxx", "x=cxxx", "xx=xxx", "xxx=xx", "xxxx=x", "xxxxx="],
        |material| seal(SealForm::A, material),
    );
}

#[test]
fn fpm_is_the_older_symbol_of_fkm() {
    // ISO 1629 before 1995, from memory.
    square(
        "elastomer",
        &["FKM", "FPM", "fpm", " fkm "],
        &["====", "====", "====", "===="],
        |material| seal(SealForm::A, material),
    );
    let judgement = judge(&seal(SealForm::A, "NBR"), &seal(SealForm::A, "FPM"));
    assert_eq!(mark(&judgement, "elastomer"), 'c', "{judgement:?}");
}

#[test]
fn a_groove_for_a_snap_ring_is_never_missing() {
    // DIN 623-1 and ISO 464, from memory.
    for (want, have, expected, unknown) in [
        (Some(true), Some(true), '=', false),
        (Some(true), Some(false), 'x', false),
        (Some(true), None, '=', true),
        (Some(false), Some(true), 'c', false),
        (Some(false), Some(false), '=', false),
        (Some(false), None, '=', false),
        (None, Some(true), 'c', false),
        (None, Some(false), '=', false),
        (None, None, '=', false),
    ] {
        let with = |groove| {
            let mut part = ball();
            part.traits.has_snap_ring_groove = groove;
            part
        };
        let judgement = judge(&with(want), &with(have));
        assert_eq!(
            mark(&judgement, "snap-ring groove"),
            expected,
            "{want:?} by {have:?}"
        );
        assert_eq!(
            is_unknown(&judgement, "snap-ring"),
            unknown,
            "{want:?} by {have:?}"
        );
    }
}

#[test]
fn a_cage_that_is_asked_for_is_checked() {
    for (want, have, expected, verdict) in [
        (None, None, '=', Verdict::AsItIs),
        (Some("M"), Some("m"), '=', Verdict::AsItIs),
        (Some("M"), Some("TN9"), 'c', Verdict::AfterChecks),
        (Some("TN9"), Some("M"), 'c', Verdict::AfterChecks),
        (Some("M"), None, '=', Verdict::AfterChecks),
        (None, Some("TN9"), '=', Verdict::AfterChecks),
    ] {
        let with = |cage: Option<&str>| {
            let mut part = ball();
            part.traits.cage = cage.map(str::to_owned);
            part
        };
        let judgement = judge(&with(want), &with(have));
        assert_eq!(mark(&judgement, "cage"), expected, "{want:?} by {have:?}");
        assert_eq!(
            judgement.verdict, verdict,
            "{want:?} by {have:?}: {judgement:?}"
        );
    }
}

#[test]
fn sets_and_preloads_are_replaced_by_their_like_only() {
    // DIN 623-1 practice, from memory: DB back to back, DF face to face, DT tandem.
    let pair = |arrangement: Option<&str>, preload: Option<&str>, rows: Option<u8>| {
        let mut part = subject("7205B");
        part.confidence = None;
        part.traits.arrangement = arrangement.map(str::to_owned);
        part.traits.preload_class = preload.map(str::to_owned);
        part.traits.rows = rows;
        part
    };
    for (want, have, what, expected) in [
        (
            (Some("DB"), None, None),
            (Some("db"), None, None),
            "arrangement",
            '=',
        ),
        (
            (Some("DB"), None, None),
            (Some("DF"), None, None),
            "arrangement",
            'x',
        ),
        (
            (Some("DB"), None, None),
            (Some("DT"), None, None),
            "arrangement",
            'x',
        ),
        (
            (Some("DB"), None, None),
            (None, None, None),
            "arrangement",
            'x',
        ),
        (
            (None, None, None),
            (Some("DB"), None, None),
            "arrangement",
            'x',
        ),
        (
            (None, Some("A"), None),
            (None, Some("A"), None),
            "preload class",
            '=',
        ),
        (
            (None, Some("A"), None),
            (None, Some("B"), None),
            "preload class",
            'x',
        ),
        (
            (None, Some("A"), None),
            (None, None, None),
            "preload class",
            'x',
        ),
        (
            (None, None, None),
            (None, Some("A"), None),
            "preload class",
            'x',
        ),
        ((None, None, Some(1)), (None, None, Some(1)), "rows", '='),
        ((None, None, Some(1)), (None, None, Some(2)), "rows", 'x'),
        ((None, None, Some(2)), (None, None, Some(1)), "rows", 'x'),
    ] {
        let judgement = judge(&pair(want.0, want.1, want.2), &pair(have.0, have.1, have.2));
        assert_eq!(
            mark(&judgement, what),
            expected,
            "{want:?} by {have:?}: {judgement:?}"
        );
    }
}

#[test]
fn what_is_not_stated_is_unknown_on_either_side_and_never_agrees() {
    type Forget = fn(&mut Traits);
    let cases: [(&str, Subject, Forget); 8] = [
        ("clearance", ball(), |traits| traits.clearance = None),
        ("closure", ball(), |traits| traits.closure = None),
        ("tolerance class", ball(), |traits| {
            traits.tolerance_class = None
        }),
        ("rib form", subject("NU205"), |traits| {
            traits.rib_form = None
        }),
        ("tapered bore", subject("22208K"), |traits| {
            traits.bore_form = None
        }),
        ("contact angle", subject("7205B"), |traits| {
            traits.contact_angle = None
        }),
        ("seal form", seal(SealForm::A, "NBR"), |traits| {
            traits.seal_form = None
        }),
        ("elastomer", seal(SealForm::A, "NBR"), |traits| {
            traits.material = None
        }),
    ];
    for (what, mut whole, forget) in cases {
        whole.confidence = None;
        let mut part = whole.clone();
        forget(&mut part.traits);
        assert!(
            !is_unknown(&judge(&whole, &whole), what),
            "{what} is stated by both"
        );
        for (want, have) in [(&whole, &part), (&part, &whole), (&part, &part)] {
            let judgement = judge(want, have);
            assert!(is_unknown(&judgement, what), "{what}: {judgement:?}");
            assert!(
                judgement.verdict >= Verdict::AfterChecks,
                "{what}: {judgement:?}"
            );
            let agrees = judgement.agrees.iter().any(|text| text.starts_with(what));
            assert!(!agrees, "{what}: {judgement:?}");
        }
    }
}

#[test]
fn hardness_is_checked_where_both_state_it_and_unknown_where_one_does() {
    for (want, have, expected, unknown) in [
        (None, None, '=', false),
        (Some("70 Shore A"), Some("70 Shore A"), '=', false),
        (Some("70 Shore A"), Some("90 Shore A"), 'c', false),
        (Some("90 Shore A"), Some("70 Shore A"), 'c', false),
        (Some("70 Shore A"), None, '=', true),
        (None, Some("70 Shore A"), '=', true),
    ] {
        let judgement = judge(&ring("NBR", want), &ring("NBR", have));
        assert_eq!(
            mark(&judgement, "hardness"),
            expected,
            "{want:?} by {have:?}"
        );
        assert_eq!(
            is_unknown(&judgement, "hardness"),
            unknown,
            "{want:?} by {have:?}"
        );
    }
}

#[test]
fn ratings_of_one_source_give_the_share_of_life_that_is_left() {
    // ISO 281: L10 = (C/P)^p with p = 3 for balls and 10/3 for rollers: 0.9^3 = 0.729, 0.9^(10/3) = 0.704.
    let rated = |name: &str, dynamic_kn: f64, source: Option<&str>| {
        let mut part = subject(name);
        part.confidence = None;
        part.ratings = Some(LoadRatings {
            dynamic_kn: Some(dynamic_kn),
            static_kn: None,
            source: source.map(str::to_owned),
        });
        part
    };
    let one = Some("list 2025");
    for (name, want_kn, have_kn, sources, words) in [
        ("6305", 20.0, 18.0, (one, one), Some("73 %")),
        ("NU205", 20.0, 18.0, (one, one), Some("70 %")),
        ("6305", 20.0, 22.0, (one, one), None),
        ("6305", 20.0, 19.95, (one, one), None),
        ("6305", 20.0, 18.0, (one, Some("list 2019")), None),
        ("6305", 20.0, 18.0, (None, None), None),
    ] {
        let (want, have) = (
            rated(name, want_kn, sources.0),
            rated(name, have_kn, sources.1),
        );
        let judgement = judge(&want, &have);
        let found = judgement
            .differs
            .iter()
            .find(|differs| differs.what == "load rating C");
        match words {
            Some(words) => assert!(
                found.is_some_and(|found| found.effect.contains(words)),
                "{name} {have_kn}: {judgement:?}"
            ),
            None => assert_eq!(found, None, "{name} {have_kn} {sources:?}"),
        }
    }
}

#[test]
fn ratings_of_an_unknown_type_give_no_share_of_life() {
    // ISO 281: the exponent is 3 for balls and 10/3 for rollers.
    let rated = |dynamic_kn: f64| {
        let mut part = subject("6305");
        (part.family, part.size) = (None, None);
        part.ratings = Some(LoadRatings {
            dynamic_kn: Some(dynamic_kn),
            static_kn: None,
            source: Some("list 2025".to_owned()),
        });
        part
    };
    let judgement = judge(&rated(20.0), &rated(18.0));
    let mut differs = judgement.differs.iter();
    let found = differs.find(|differs| differs.what == "load rating C");
    let effect = found.map(|found| found.effect.as_str());
    let says = "lower, and not comparable: the type of the two is not known";
    assert_eq!(effect, Some(says), "{judgement:?}");
}

#[test]
fn a_lower_speed_limit_is_checked_and_a_higher_one_is_not() {
    for (want_rpm, have_rpm, expected) in [
        (Some(9_000.0), Some(8_999.0), 'c'),
        (Some(9_000.0), Some(9_000.0), '='),
        (Some(9_000.0), Some(15_000.0), '='),
        (None, Some(8_000.0), '='),
        (Some(9_000.0), None, '='),
    ] {
        let with = |limit_rpm| {
            let mut part = ball();
            part.speed_limit_rpm = limit_rpm;
            part
        };
        let judgement = judge(&with(want_rpm), &with(have_rpm));
        assert_eq!(
            mark(&judgement, "speed limit"),
            expected,
            "{want_rpm:?} by {have_rpm:?}"
        );
    }
}

#[test]
fn pins_of_another_fit_are_no_inch_and_metric_trap() {
    // ISO 286-2: m6 lies above the nominal diameter, h8 and h6 below.
    let pin = |fit: &str| {
        let mut pin = bare(Family::DowelPin, &[6.0, 20.0]);
        pin.size = pin
            .size
            .map(|size| size.with_fit(FitClass::read(fit).unwrap()));
        pin
    };
    square("fit", &["m6", "h8", "h6"], &["=xx", "x=x", "xx="], pin);
    let judgement = judge(&pin("m6"), &pin("h8"));
    let said = judgement.against();
    assert!(said.contains("h8 instead of m6"), "{said}");
    assert!(!said.contains("inch"), "{said}");
    let unknown = bare(Family::DowelPin, &[6.0, 20.0]);
    for (want, have) in [(&pin("m6"), &unknown), (&unknown, &pin("m6"))] {
        let judgement = judge(want, have);
        assert!(is_unknown(&judgement, "class of the pin"), "{judgement:?}");
        assert_eq!(judgement.verdict, Verdict::AfterChecks, "{judgement:?}");
    }
    // Two of which nobody said the class are not known to be of one.
    let judgement = judge(&unknown, &unknown);
    assert!(is_unknown(&judgement, "class of the pin"), "{judgement:?}");
    assert!(is_unknown(&judgement, "hardened"), "{judgement:?}");
    assert_eq!(judgement.verdict, Verdict::AfterChecks);
    // ASME B18.8.2 pins are hardened and of one class.
    let inch = super::subject("ASME B18.8.2-1/4x1");
    assert!(!is_unknown(&judge(&inch, &inch), "class of the pin"));
    // Another length stays another size, whatever its fit.
    let longer = bare(Family::DowelPin, &[6.0, 24.0]);
    assert_eq!(judge(&pin("m6"), &longer).verdict, Verdict::Near);
}

#[test]
fn polyamide_is_told_only_where_a_cage_is_of_it() {
    let with = |cage: &str| {
        let mut part = ball();
        part.traits.cage = Some(cage.to_owned());
        part
    };
    for (want, have, is_told) in [
        ("M", "J", false),
        ("J", "F", false),
        ("M", "TN9", true),
        ("tn", "M", true),
    ] {
        let said = judge(&with(want), &with(have)).against();
        assert_eq!(said.contains("polyamide"), is_told, "{want} {have}: {said}");
    }
}

#[test]
fn a_narrower_bearing_may_take_a_spacer_up_to_ten_millimetres() {
    let part = |width: f64| {
        let mut part = bare(Family::DeepGrooveBall, &[25.0, 62.0, width]);
        part.traits = ball().traits;
        part
    };
    for (want_mm, have_mm, expected) in [
        (17.0, 17.0, Verdict::AsItIs),
        (24.0, 17.0, Verdict::WithRework),
        (27.0, 17.0, Verdict::WithRework),
        (27.001, 17.0, Verdict::Near),
        (17.0, 17.001, Verdict::Near),
        (17.0, 24.0, Verdict::Near),
    ] {
        let verdict = judge(&part(want_mm), &part(have_mm)).verdict;
        assert_eq!(verdict, expected, "{have_mm} for {want_mm}");
    }
    // ISO 355: T of a tapered roller bearing is set at assembly; no spacer beside it.
    let tapered = |width: f64| bare(Family::TaperedRoller, &[25.0, 52.0, width]);
    assert_eq!(
        judge(&tapered(18.0), &tapered(16.25)).verdict,
        Verdict::Near
    );
}

#[test]
fn lip_seals_of_another_width_are_checked_and_of_another_shaft_are_not_it() {
    // DIN 3760 lists several widths for one shaft and bore.
    let part = |lengths: [f64; 3]| {
        let mut part = bare(Family::LipSeal, &lengths);
        part.traits = seal(SealForm::A, "NBR").traits;
        part
    };
    let want = part([40.0, 62.0, 8.0]);
    for (have, expected, word) in [
        ([40.0, 62.0, 7.0], Verdict::AfterChecks, "narrower"),
        ([40.0, 62.0, 10.0], Verdict::AfterChecks, "wider"),
        ([42.0, 62.0, 8.0], Verdict::Near, "another size"),
        ([40.0, 60.0, 8.0], Verdict::Near, "another size"),
        ([40.0, 62.4, 8.0], Verdict::Near, "trap"),
    ] {
        let judgement = judge(&want, &part(have));
        assert_eq!(judgement.verdict, expected, "{have:?}");
        assert!(
            judgement.against().contains(word),
            "{have:?}: {}",
            judgement.against()
        );
    }
}

#[test]
fn o_rings_of_paired_sections_are_checked_within_the_tolerance_of_their_diameter() {
    // AS568 and ISO 3601-1:1988 sections; class B tolerance 0.009 d^0.95 + 0.11: at 37.69 mm 0.393 mm.
    let part = |inside: f64, section: f64| {
        let mut part = bare(Family::ORing, &[inside, section]);
        part.traits = ring("NBR", Some("70 Shore A")).traits;
        part
    };
    for (want, have, expected) in [
        ((37.69, 3.53), (37.69, 3.53), Verdict::AsItIs),
        ((37.69, 3.53), (37.7, 3.55), Verdict::AfterChecks),
        ((37.69, 3.53), (38.08, 3.55), Verdict::AfterChecks),
        ((37.69, 3.53), (38.09, 3.55), Verdict::Near),
        ((37.69, 3.53), (37.69, 3.6), Verdict::Near),
        ((10.0, 1.78), (10.0, 1.8), Verdict::AfterChecks),
        ((20.0, 2.62), (20.0, 2.65), Verdict::AfterChecks),
        ((50.0, 5.33), (50.0, 5.3), Verdict::AfterChecks),
        ((120.0, 6.99), (120.0, 7.0), Verdict::AfterChecks),
        // 3.5 mm is a section of the trade, 3 and 4 mm have no gland beside them (common practice, no source).
        ((25.0, 3.5), (25.0, 3.55), Verdict::AfterChecks),
        ((24.99, 3.53), (25.0, 3.5), Verdict::AfterChecks),
        ((25.0, 3.0), (25.0, 3.55), Verdict::Near),
        ((25.0, 4.0), (25.0, 3.55), Verdict::Near),
        // Two metric sections without an inch pair: 2 and 2.5 mm.
        ((20.0, 2.0), (20.0, 2.5), Verdict::Near),
    ] {
        let there = judge(&part(want.0, want.1), &part(have.0, have.1)).verdict;
        assert_eq!(there, expected, "{have:?} for {want:?}");
        let back = judge(&part(have.0, have.1), &part(want.0, want.1)).verdict;
        assert_eq!(back, expected, "{want:?} for {have:?}");
    }
}

#[test]
fn another_type_is_never_it_in_either_direction() {
    // ISO 15 general plan: 6205, 7205, NU205, N205 and 1205 share 25 x 52 x 15.
    let names = ["6205", "7205B", "NU205", "1205"];
    for want in names {
        for have in names.into_iter().filter(|have| *have != want) {
            let judgement = judge(&subject(want), &subject(have));
            assert!(names_type(&judgement), "{have} for {want}: {judgement:?}");
            assert_eq!(judgement.verdict, Verdict::MustNot, "{have} for {want}");
        }
    }
    let mut unknown = ball();
    unknown.family = None;
    for (want, have) in [(&ball(), &unknown), (&unknown, &ball())] {
        let judgement = judge(want, have);
        assert!(is_unknown(&judgement, "type"), "{judgement:?}");
        assert_ne!(judgement.verdict, Verdict::AsItIs);
    }
}

fn names_type(judgement: &Judgement) -> bool {
    names(judgement, "type")
}

#[test]
fn a_size_that_is_not_known_is_never_taken_for_equal() {
    let mut unknown = ball();
    unknown.size = None;
    for (want, have) in [
        (&ball(), &unknown),
        (&unknown, &ball()),
        (&unknown, &unknown),
    ] {
        let judgement = judge(want, have);
        assert!(is_unknown(&judgement, "size"), "{judgement:?}");
        assert_ne!(judgement.verdict, Verdict::AsItIs);
    }
}

#[test]
fn suffixes_that_no_standard_explains_are_asked_about() {
    let mut odd = ball();
    odd.traits.unknown_suffixes = vec!["XQ7".to_owned()];
    for (want, have) in [(&ball(), &odd), (&odd, &ball())] {
        let judgement = judge(want, have);
        assert!(is_unknown(&judgement, "XQ7"), "{judgement:?}");
        assert_eq!(judgement.verdict, Verdict::AfterChecks);
    }
}
