//! Variants of one size, by themselves and against each other.

use sparewright::interchange::{Subject, Verdict, judge};
use sparewright::part::{SealForm, UNSAID_SET};

use super::marks::{ball, mark, seal, square};
use super::subject;

#[test]
fn grades_of_stabilised_rings_have_an_order() {
    // DIN 623-1, from memory: S0 150, S1 200, S2 250, S3 300, S4 350 °C.
    square(
        "variant",
        &["S0", "S1", "S2", "S3", "S4"],
        &["=....", "c=...", "cc=..", "ccc=.", "cccc="],
        |grade| {
            let mut part = ball();
            part.traits.variant = Some(format!("dimensionally stabilised ({grade})"));
            part
        },
    );
    let with = |variant: &str| {
        let mut part = ball();
        part.traits.variant = Some(variant.to_owned());
        part
    };
    // A grade that is not told is not equal to any.
    let judgement = judge(
        &with("dimensionally stabilised (S0)"),
        &with("dimensionally stabilised"),
    );
    assert_eq!(mark(&judgement, "variant"), 'c', "{judgement:?}");
    assert_eq!(judgement.differs.len(), 1, "{judgement:?}");
}

#[test]
fn a_ring_of_another_inner_design_never_goes_in() {
    // Raceway diameters of an open table: NJ 204 of the E design has another than the old one.
    let with = |variant: &str| {
        let mut part = subject("NU205");
        part.confidence = None;
        part.traits.variant = (!variant.is_empty()).then(|| variant.to_owned());
        part
    };
    let ring = "inner ring only";
    let e = "increased capacity design (E)";
    let e_ring = "increased capacity design (E), inner ring only";
    for (want, have, expected) in [
        (ring, ring, '='),
        (e_ring, e_ring, '='),
        (e_ring, ring, 'x'),
        (ring, e_ring, 'x'),
        // The whole bearing brings its own rings.
        (ring, e, 'c'),
        (e_ring, "", 'c'),
        (e_ring, e, 'c'),
        (e, "", 'c'),
        ("", e, '.'),
        ("", e_ring, 'x'),
    ] {
        let judgement = judge(&with(want), &with(have));
        assert_eq!(
            mark(&judgement, "variant"),
            expected,
            "`{want}` by `{have}`: {judgement:?}"
        );
    }
    // What is alike of both is no part of the difference.
    let judgement = judge(&with(e_ring), &with(ring));
    let differs: Vec<(&str, &str)> = judgement
        .differs
        .iter()
        .map(|differs| (&*differs.have, &*differs.want))
        .collect();
    assert_eq!(differs, [("not marked", e)]);
}

#[test]
fn a_variant_that_does_the_work_of_another_is_told_as_that() {
    // Common practice, no source.
    let with = |variant: &str| {
        let mut part = ball();
        part.traits.variant = Some(variant.to_owned());
        part
    };
    for (want, have, expected, words) in [
        ("current insulated", "hybrid", 'c', "insulate as well"),
        ("hybrid", "current insulated", 'x', "insulates as well"),
        (
            "current insulated",
            "stainless",
            'x',
            "currents of an inverter",
        ),
        ("hybrid", "hybrid, current insulated", '.', "does no harm"),
    ] {
        let judgement = judge(&with(want), &with(have));
        assert_eq!(mark(&judgement, "variant"), expected, "{want} by {have}");
        assert!(judgement.against().contains(words), "{want}: {judgement:?}");
    }
    let judgement = judge(&with("current insulated"), &with("hybrid"));
    assert_eq!(judgement.differs.len(), 1, "{judgement:?}");
    let lip = |variant: &str| {
        let mut part = seal(SealForm::A, "NBR");
        part.traits.variant = Some(variant.to_owned());
        part
    };
    let both = "ribs for both rotations";
    for one in [
        "ribs for right-hand rotation",
        "ribs for left-hand rotation",
    ] {
        assert_eq!(mark(&judge(&lip(one), &lip(both)), "variant"), 'c', "{one}");
        assert_eq!(mark(&judge(&lip(both), &lip(one)), "variant"), 'c', "{one}");
    }
}

#[test]
fn known_variants_bar_by_what_they_mean() {
    // Variant; verdict where only the wanted part has it; verdict where only the one at hand has it.
    use Verdict::{AfterChecks, AsItIs, MustNot};
    for (name, variant, missing, extra) in [
        (
            "NU205",
            "increased capacity design (E)",
            AfterChecks,
            AsItIs,
        ),
        ("6305", "dimensionally stabilised S1", AfterChecks, AsItIs),
        ("6305", "filling slot", AfterChecks, AfterChecks),
        ("6305", "stainless", MustNot, AfterChecks),
        ("6305", "current insulated", MustNot, AsItIs),
        ("6305", "hybrid", MustNot, AfterChecks),
        ("6305", "food-grade grease", MustNot, AfterChecks),
        ("6305", "high-temperature grease", MustNot, AfterChecks),
        ("30205", "cone only", AfterChecks, MustNot),
        ("30205", "cup only", AfterChecks, MustNot),
        ("NU205", "inner ring only", AfterChecks, MustNot),
        ("NU205", "outer ring only", AfterChecks, MustNot),
        ("22208", "split", MustNot, AfterChecks),
        ("22208", "vibration design", MustNot, AfterChecks),
        // A variant that is not listed is another part.
        ("6305", "some other design", MustNot, MustNot),
    ] {
        let mut plain = subject(name);
        plain.confidence = None;
        plain.traits.variant = None;
        let mut marked = plain.clone();
        marked.traits.variant = Some(variant.to_owned());
        let verdict = |want: &Subject, have: &Subject| judge(want, have).verdict;
        // What else is unknown of a part keeps the verdict from being the first.
        let least = verdict(&plain, &plain);
        assert_eq!(
            verdict(&marked, &plain),
            missing.max(least),
            "{name} {variant} missing"
        );
        assert_eq!(
            verdict(&plain, &marked),
            extra.max(least),
            "{name} {variant} extra"
        );
        assert_eq!(verdict(&marked, &marked), least, "{name} {variant} on both");
    }
}

#[test]
fn pumping_ribs_and_pressure_lips_have_a_direction() {
    use Verdict::{AfterChecks, AsItIs, MustNot};
    let with = |variant: Option<&str>| {
        let mut part = seal(SealForm::A, "NBR");
        part.traits.variant = variant.map(str::to_owned);
        part
    };
    let (right, left) = (
        Some("ribs for right-hand rotation"),
        Some("ribs for left-hand rotation"),
    );
    let both = Some("ribs for both rotations");
    for (want, have, expected) in [
        (right, right, AsItIs),
        (right, left, MustNot),
        (left, right, MustNot),
        (right, None, MustNot),
        (None, right, AfterChecks),
        (both, None, AfterChecks),
        (None, both, AsItIs),
        (Some("pressure profile"), None, MustNot),
        (None, Some("pressure profile"), AfterChecks),
        (Some("split"), None, MustNot),
        (None, Some("split"), AfterChecks),
    ] {
        assert_eq!(
            judge(&with(want), &with(have)).verdict,
            expected,
            "{want:?} by {have:?}"
        );
    }
}

#[test]
fn a_set_of_unsaid_arrangement_is_no_single_bearing_and_equal_to_no_set() {
    // Common practice, no source: sets are replaced as sets.
    let single = subject("7208 B");
    let mut set = single.clone();
    set.traits.arrangement = Some(UNSAID_SET.to_owned());
    let pair = subject("7208 B DB");
    for (want, have, verdict) in [
        (&single, &set, Verdict::MustNot),
        (&set, &single, Verdict::MustNot),
        (&set, &pair, Verdict::AfterChecks),
        (&pair, &set, Verdict::AfterChecks),
        (&set, &set, Verdict::AfterChecks),
    ] {
        let judgement = judge(want, have);
        let arrangements = [want, have].map(|part| part.traits.arrangement.clone());
        assert_eq!(
            judgement.verdict, verdict,
            "{arrangements:?}: {judgement:?}"
        );
    }
}
