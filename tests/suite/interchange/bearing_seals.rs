//! Contact seals of bearings: their rubber against temperatures, fluids and each other, and what they keep out.

use sparewright::interchange::{Fluid, Verdict, judge};

use super::marks::{mark, square};
use super::subject;

#[test]
fn contact_seals_are_asked_about_where_published_limits_differ() {
    // Published closure description: nitrile -40 to +110 °C, fluoroelastomer -40 to +230 °C; published ranges: -30 to +100
    // and -20 to +200 °C. Grease below -30 °C: common practice, from memory.
    for (name, material, celsius, mark_of_cold, is_asked, asks_grease) in [
        ("6305-2RS", None, 100.0, '=', false, false),
        ("6305-2RS", None, 100.5, '=', true, false),
        ("6305-2RS", None, 110.0, '=', true, false),
        ("6305-2RS", Some("FKM"), 200.0, '=', false, false),
        ("6305-2RS", Some("fpm"), 210.0, '=', true, false),
        ("6305-2RS", None, -30.0, '=', false, false),
        ("6305-2RS", None, -30.5, '=', true, true),
        ("6305-2RS", None, -40.0, '=', true, true),
        ("6305-2RS", None, -40.5, 'x', false, true),
        ("6305-RS", None, -50.0, 'x', false, true),
        ("6305-2RS", Some("FKM"), -25.0, '=', true, false),
        ("6305-2RS", Some("FKM"), -41.0, 'x', false, true),
        ("6305-2RS", Some("VMQ"), -50.0, '=', false, true),
        ("6305-2Z", None, -50.0, '=', false, true),
        ("6305", None, -30.0, '=', false, false),
        ("NU205", None, -60.0, '=', false, true),
    ] {
        let mut part = subject(name);
        part.confidence = None;
        part.traits.material = material.map(str::to_owned);
        let mut want = part.clone();
        if celsius < 0.0 {
            want.needs.lowest_c = Some(celsius);
        } else {
            want.needs.highest_c = Some(celsius);
        }
        let judgement = judge(&want, &part);
        let says = |words: &str| judgement.checks.iter().any(|check| check.contains(words));
        let case = format!("{name} {material:?} at {celsius}: {judgement:?}");
        assert_eq!(mark(&judgement, "cold"), mark_of_cold, "{case}");
        assert_eq!(says("contact seals of"), is_asked, "{case}");
        assert_eq!(says("grease and cage"), asks_grease, "{case}");
    }
}

#[test]
fn fluids_reach_the_rubber_the_grease_and_the_rings_of_a_bearing() {
    // Published media lists for the rubber; rust and grease are common practice, no source.
    use Fluid::{BrakeFluid, Fuel, MineralOil, PhosphateEster, Steam, Water};
    for (name, material, variant, fluid, expected, verdict) in [
        ("6305", None, None, MineralOil, '=', Verdict::AsItIs),
        ("6305-2RS", None, None, MineralOil, '=', Verdict::AsItIs),
        (
            "6305-2RS",
            Some("EPDM"),
            None,
            MineralOil,
            'x',
            Verdict::MustNot,
        ),
        ("6305-2RS", None, None, Fuel, '=', Verdict::AfterChecks),
        ("6305-2RS", None, None, Water, '=', Verdict::AfterChecks),
        (
            "6305-2RS",
            None,
            Some("stainless"),
            Water,
            '=',
            Verdict::AsItIs,
        ),
        ("6305-2RS", None, None, Steam, 'x', Verdict::MustNot),
        ("6305-2RS", Some("FKM"), None, Steam, 'x', Verdict::MustNot),
        (
            "6305-2RS",
            Some("HNBR"),
            None,
            Steam,
            '=',
            Verdict::AfterChecks,
        ),
        ("6305-RS", None, None, BrakeFluid, 'x', Verdict::MustNot),
        (
            "6305-2RS",
            None,
            None,
            PhosphateEster,
            'x',
            Verdict::MustNot,
        ),
        ("6305-2Z", None, None, BrakeFluid, '=', Verdict::AfterChecks),
        ("6305", None, None, Steam, '=', Verdict::AfterChecks),
        ("6305", None, None, Water, '=', Verdict::AfterChecks),
    ] {
        let mut part = subject(name);
        part.traits.material = material.map(str::to_owned);
        part.traits.variant = variant.map(str::to_owned);
        let mut want = part.clone();
        want.needs.fluid = Some(fluid);
        let judgement = judge(&want, &part);
        let case = format!("{name} {material:?} {variant:?} in {fluid:?}: {judgement:?}");
        assert_eq!(mark(&judgement, "elastomer"), expected, "{case}");
        assert_eq!(judgement.verdict, verdict, "{case}");
    }
}

#[test]
fn a_bearing_in_dirt_wants_contact_seals_or_a_housing_that_has_them() {
    // Published closure descriptions: a shield leaves a gap, a contact seal none; seals of the housing: common practice, no
    // source.
    for (want, have, verdict, words) in [
        ("6305", "6305", Verdict::AfterChecks, "open to dirt"),
        ("NU205", "NU205", Verdict::AfterChecks, "open to dirt"),
        ("51205", "51205", Verdict::AfterChecks, "open to dirt"),
        (
            "6305-2Z",
            "6305-2Z",
            Verdict::AfterChecks,
            "let fine dirt in",
        ),
        (
            "6305-RS",
            "6305-RS",
            Verdict::AfterChecks,
            "let fine dirt in",
        ),
        ("6305-2RS", "6305-2RS", Verdict::AsItIs, "keep the dirt out"),
        (
            "6305",
            "6305-2RS",
            Verdict::AfterChecks,
            "keep the dirt out",
        ),
        (
            "6305-2RS",
            "6305-2Z",
            Verdict::MustNot,
            "contact seals kept out",
        ),
        (
            "6305-2RS",
            "6305",
            Verdict::MustNot,
            "contact seals kept out",
        ),
    ] {
        let (mut want, mut have) = (subject(want), subject(have));
        (want.confidence, have.confidence) = (None, None);
        want.needs.is_dirty = true;
        let judgement = judge(&want, &have);
        let said = format!("{judgement:?}");
        assert!(
            said.contains(words),
            "{} by {}: {said}",
            want.label,
            have.label
        );
        assert_eq!(
            judgement.verdict, verdict,
            "{} by {}",
            want.label, have.label
        );
    }
}

#[test]
fn rubber_of_contact_seals_is_nitrile_where_none_is_marked() {
    // Published closure description; published media lists.
    square(
        "elastomer",
        &[None, Some("NBR"), Some("HNBR"), Some("FKM"), Some("EPDM")],
        &["==ccx", "==ccx", "xx=cx", "xxx=x", "xxxx="],
        |material| {
            let mut part = subject("6305-2RS");
            part.traits.material = material.map(str::to_owned);
            part
        },
    );
    // Where nothing rubs, the material is that of rings or cage.
    for name in ["6305", "6305-2Z"] {
        let mut marked = subject(name);
        marked.traits.material = Some("FKM".to_owned());
        let judgement = judge(&marked, &subject(name));
        assert_eq!(mark(&judgement, "elastomer"), '=', "{name}");
    }
    let mut steel = subject("6305-2RS");
    steel.traits.material = Some("chrome steel".to_owned());
    let judgement = judge(&steel, &subject("6305-2RS"));
    assert_eq!(judgement.verdict, Verdict::AsItIs, "{judgement:?}");
}
