//! Sizes of every family: order of dimensions, printing, envelopes, and tolerance classes of pins.

use proptest::prelude::*;
use sparewright::part::{Dimension, Family, FitClass, PartClass, SizeError, SizeKey};
use sparewright::standard;
use sparewright::units::Length;

fn mm(value: f64) -> Length {
    Length::from_mm(value).unwrap()
}

fn size(family: Family, values: &[f64]) -> Result<SizeKey, SizeError> {
    let lengths: Vec<Length> = values.iter().map(|value| mm(*value)).collect();
    SizeKey::new(family, &lengths)
}

#[test]
fn each_family_has_its_dimensions_and_no_other_number_of_them() {
    // Dimensions as the standards of the families letter them.
    for (family, values, text) in [
        (
            Family::DeepGrooveBall,
            &[30.0, 62.0, 16.0][..],
            "30 x 62 x 16 mm",
        ),
        (
            Family::TaperedRoller,
            &[25.0, 52.0, 16.25],
            "25 x 52 x 16.25 mm",
        ),
        (
            Family::NeedleRollerNoInnerRing,
            &[25.0, 37.0, 17.0],
            "25 x 37 x 17 mm",
        ),
        (Family::NeedleCage, &[20.0, 24.0, 13.0], "20 x 24 x 13 mm"),
        (
            Family::ThrustBall,
            &[20.0, 22.0, 40.0, 14.0],
            "20 x 22 x 40 x 14 mm",
        ),
        (Family::ThrustNeedle, &[20.0, 35.0, 2.0], "20 x 35 x 2 mm"),
        (Family::LipSeal, &[40.0, 62.0, 8.0], "40 x 62 x 8 mm"),
        (Family::ORing, &[31.34, 3.53], "31.34 x 3.53 mm"),
        (Family::ShaftRetainingRing, &[25.0], "25 mm"),
        (Family::BoreRetainingRing, &[40.0], "40 mm"),
        (Family::LockNut, &[40.0, 1.5], "M40 x 1.5 mm"),
        (Family::DowelPin, &[6.0, 24.0], "6 x 24 mm"),
    ] {
        let key = size(family, values).unwrap();
        assert_eq!(key.to_string(), text);
        assert_eq!(key.family(), family);
        assert_eq!(key.dimensions().count(), values.len());
        for (at, (dimension, length)) in key.dimensions().enumerate() {
            assert_eq!(dimension, family.key_dimensions()[at]);
            assert_eq!(length, mm(values[at]));
            assert_eq!(
                (key.get(dimension), key.length_at(at)),
                (Some(length), Some(length))
            );
        }
        assert_eq!(key.length_at(values.len()), None);
        let one_less = size(family, &values[..values.len() - 1]).unwrap_err();
        assert_eq!(
            one_less,
            SizeError::WrongCount {
                family,
                found: values.len() - 1
            }
        );
        assert!(
            one_less
                .to_string()
                .contains(&format!("found {} values", values.len() - 1))
        );
        let more = [values, &[99.0]].concat();
        assert!(
            matches!(size(family, &more), Err(SizeError::WrongCount { .. })),
            "{family}"
        );
    }
}

#[test]
fn an_inner_diameter_is_below_its_outer_one_in_every_family() {
    for (family, values, larger) in [
        (
            Family::DeepGrooveBall,
            &[62.0, 62.0, 16.0][..],
            "outside diameter",
        ),
        (
            Family::SphericalRoller,
            &[90.0, 40.0, 23.0],
            "outside diameter",
        ),
        (
            Family::ThrustBall,
            &[40.0, 22.0, 40.0, 14.0],
            "outside diameter",
        ),
        (
            Family::ThrustBall,
            &[20.0, 45.0, 40.0, 14.0],
            "outside diameter",
        ),
        (Family::NeedleCage, &[24.0, 20.0, 13.0], "raceway"),
        (Family::LipSeal, &[62.0, 40.0, 8.0], "bore"),
        (Family::LockNut, &[1.5, 40.0], "thread"),
    ] {
        let error = size(family, values).unwrap_err();
        assert!(matches!(error, SizeError::OutOfOrder { .. }), "{family}");
        assert!(error.to_string().contains("must be larger than"), "{error}");
        assert!(error.to_string().contains(larger), "{error}");
    }
    // A cord may be thicker than its ring is wide, a pin shorter than it is thick.
    assert!(size(Family::ORing, &[1.0, 5.0]).is_ok());
    assert!(size(Family::DowelPin, &[10.0, 4.0]).is_ok());
}

#[test]
fn the_envelope_is_what_a_calliper_goes_round() {
    for (family, values, envelope) in [
        (
            Family::DeepGrooveBall,
            &[30.0, 62.0, 16.0][..],
            Some((30.0, 62.0, 16.0)),
        ),
        (
            Family::TaperedRoller,
            &[25.0, 52.0, 16.25],
            Some((25.0, 52.0, 16.25)),
        ),
        (
            Family::ThrustBall,
            &[20.0, 22.0, 40.0, 14.0],
            Some((20.0, 40.0, 14.0)),
        ),
        (
            Family::NeedleCage,
            &[20.0, 24.0, 13.0],
            Some((20.0, 24.0, 13.0)),
        ),
        (
            Family::ThrustNeedle,
            &[20.0, 35.0, 2.0],
            Some((20.0, 35.0, 2.0)),
        ),
        (Family::LipSeal, &[40.0, 62.0, 8.0], Some((40.0, 62.0, 8.0))),
        (Family::ORing, &[31.34, 3.53], None),
        (Family::ShaftRetainingRing, &[25.0], None),
        (Family::DowelPin, &[6.0, 24.0], None),
    ] {
        let found = size(family, values).unwrap().envelope();
        let expected = envelope.map(|(a, b, c)| (mm(a), mm(b), mm(c)));
        assert_eq!(found, expected, "{family}");
    }
    // An O-ring is two cords wider outside than inside: 31.34 + 2 x 3.53.
    let ring = size(Family::ORing, &[31.34, 3.53]).unwrap();
    assert_eq!(ring.diameters(), Some((mm(31.34), mm(38.4))));
    // Types of one dimension series share their envelope (ISO 15): 6206, NU 206.
    let (ball, roller) = (
        size(Family::DeepGrooveBall, &[30.0, 62.0, 16.0]).unwrap(),
        size(Family::CylindricalRoller, &[30.0, 62.0, 16.0]).unwrap(),
    );
    assert!(ball.has_envelope_of(&roller) && roller.has_envelope_of(&ball));
    assert_ne!(ball, roller);
    assert!(
        !ring.has_envelope_of(&ring),
        "without a width there is none to share"
    );
}

#[test]
fn classes_of_pins_are_a_letter_and_a_grade() {
    for (text, printed) in [
        ("m6", Some("m6")),
        (" h8 ", Some("h8")),
        ("h11", Some("h11")),
        ("a1", Some("a1")),
    ] {
        assert_eq!(
            FitClass::read(text).map(|fit| fit.to_string()).as_deref(),
            printed,
            "{text}"
        );
    }
    for none in [
        "", "m", "6", "M6", "m0", "m19", "m6.5", "mm6", "ß6", "m-6", "h 8", "h256",
    ] {
        assert_eq!(FitClass::read(none), None, "{none:?}");
    }
    let pin = size(Family::DowelPin, &[6.0, 24.0]).unwrap();
    let (m6, h8) = ("m6", "h8");
    let with = |fit: &str| pin.with_fit(FitClass::read(fit).unwrap());
    assert_ne!(with(m6), with(h8));
    assert_ne!(with(m6), pin);
    assert_eq!(with(m6).without_fit(), with(h8).without_fit());
    assert_eq!(with(m6).to_string(), "6 x 24 mm m6");
    assert_eq!(
        with(m6).fit().map(|fit| fit.to_string()).as_deref(),
        Some("m6")
    );
}

#[test]
fn codes_and_names_of_families_are_their_own_and_lead_back() {
    let mut names = std::collections::BTreeSet::new();
    for family in Family::ALL {
        assert_eq!(Family::from_code(family.code()), Some(family));
        assert!(
            names.insert(family.name()) && names.insert(family.code()),
            "{family}"
        );
        assert!(!family.key_dimensions().is_empty());
        if family.is_radial_bearing() {
            assert_eq!(family.class(), PartClass::Bearings);
            assert!(family.key_dimensions().contains(&Dimension::Bore));
        }
        assert!(
            !family.has_radial_clearance() || family.is_radial_bearing(),
            "{family}"
        );
    }
    for none in [
        "",
        "ball",
        "Deep_Groove_Ball",
        "deep groove ball",
        "deep_groove_ball ",
    ] {
        assert_eq!(Family::from_code(none), None, "{none:?}");
    }
    assert_eq!(Family::LipSeal.class(), PartClass::Seals);
    assert_eq!(Family::LockNut.class(), PartClass::Fasteners);
}

#[test]
fn every_row_of_the_tables_has_a_size_that_reads_back() {
    let mut rows = 0;
    for part in standard::parts() {
        let lengths: Vec<Length> = part.size.dimensions().map(|(_, length)| length).collect();
        let again = SizeKey::new(part.size.family(), &lengths).unwrap();
        assert_eq!(again, part.size.without_fit(), "{}", part.designation);
        assert!(
            standard::of_size(&part.size)
                .iter()
                .any(|of| of.designation == part.designation),
            "{}",
            part.designation
        );
        if let (Some((inner, outer)), false) = (
            part.size.diameters(),
            part.size.family() == Family::DowelPin,
        ) {
            assert!(inner <= outer, "{}", part.designation);
        }
        rows += 1;
    }
    assert!(rows > 3_000, "{rows}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn sizes_are_in_the_order_of_their_lengths(a in 1_u32..200, b in 1_u32..200, more in 1_u32..100) {
        let of = |bore: u32| size(Family::DeepGrooveBall, &[f64::from(bore), f64::from(bore + more), 10.0]).unwrap();
        prop_assert_eq!(of(a).cmp(&of(b)), a.cmp(&b));
    }

    #[test]
    fn near_sizes_are_those_within_the_tolerance(at in 0_usize..3_000, tolerance in 0.0_f64..1.5) {
        let all = standard::parts();
        let part = &all[at % all.len()];
        let family = part.size.family();
        let found = standard::near(family, &part.size, tolerance);
        let lengths = |key: &SizeKey| -> Vec<f64> { key.dimensions().map(|(_, length)| length.to_mm()).collect() };
        let own = lengths(&part.size);
        let is_near = |other: &&standard::StandardPart| {
            other.size.family() == family
                && lengths(&other.size).iter().zip(&own).all(|(a, b)| (a - b).abs() <= tolerance + 1e-6)
        };
        let walked = all.iter().filter(is_near).count();
        let surely = all.iter().filter(|other| other.size.family() == family
            && lengths(&other.size).iter().zip(&own).all(|(a, b)| (a - b).abs() <= tolerance - 1e-6)).count();
        prop_assert!((surely..=walked).contains(&found.len()), "{}: {} of {surely} to {walked}", part.designation, found.len());
        prop_assert!(tolerance < 1e-6 || found.iter().any(|other| other.designation == part.designation));
    }
}
