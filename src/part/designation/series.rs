//! Bearing series of DIN 623-1: which numbers are bearings, and of which family.

use crate::part::{Family, RibForm};

/// A bearing series.
#[derive(Debug, Clone, Copy)]
pub(super) struct Series {
    /// Digits before the bore code.
    pub(super) digits: &'static str,
    /// Family; `None` for types the crate keeps no sizes of.
    pub(super) family: Option<Family>,
    /// Largest two-digit bore code that is taken for a bearing, so that years and own numbers are not.
    pub(super) last_code: u8,
    /// Rows of rolling elements.
    pub(super) rows: Option<u8>,
    /// What the series says besides family and size.
    pub(super) variant: Option<&'static str>,
    /// False where the bore code is that of another part (double direction thrust bearings).
    pub(super) has_own_bore: bool,
}

const fn series(digits: &'static str, family: Family, last_code: u8, rows: u8) -> Series {
    Series {
        digits,
        family: Some(family),
        last_code,
        rows: Some(rows),
        variant: None,
        has_own_bore: true,
    }
}

const fn thrust(
    digits: &'static str,
    family: Option<Family>,
    variant: Option<&'static str>,
) -> Series {
    Series {
        digits,
        family,
        last_code: 96,
        rows: None,
        variant,
        has_own_bore: true,
    }
}

const fn double_direction(digits: &'static str) -> Series {
    Series {
        has_own_bore: false,
        ..thrust(digits, Some(Family::ThrustBall), Some("double direction"))
    }
}

const STEEP: Option<&str> = Some("steep contact angle (series 313)");
const BALL: Family = Family::DeepGrooveBall;
const ANGULAR: Family = Family::AngularContactBall;
const SELF_ALIGNING: Family = Family::SelfAligningBall;
const SPHERICAL: Family = Family::SphericalRoller;
const TAPERED: Family = Family::TaperedRoller;

/// Series of numbers without a letter in front.
const NUMERIC: &[Series] = &[
    series("60", BALL, 96, 1),
    series("62", BALL, 64, 1),
    series("63", BALL, 64, 1),
    series("64", BALL, 30, 1),
    series("67", BALL, 40, 1),
    series("68", BALL, 96, 1),
    series("69", BALL, 96, 1),
    series("42", BALL, 22, 2),
    series("43", BALL, 22, 2),
    series("160", BALL, 96, 1),
    series("161", BALL, 4, 1),
    series("617", BALL, 96, 1),
    series("618", BALL, 96, 1),
    series("619", BALL, 96, 1),
    series("622", BALL, 30, 1),
    series("623", BALL, 30, 1),
    series("628", BALL, 30, 1),
    series("630", BALL, 30, 1),
    series("638", BALL, 30, 1),
    series("70", ANGULAR, 60, 1),
    series("72", ANGULAR, 60, 1),
    series("73", ANGULAR, 60, 1),
    series("74", ANGULAR, 20, 1),
    series("718", ANGULAR, 60, 1),
    series("719", ANGULAR, 60, 1),
    series("32", ANGULAR, 22, 2),
    series("33", ANGULAR, 22, 2),
    series("12", SELF_ALIGNING, 30, 2),
    series("13", SELF_ALIGNING, 30, 2),
    series("22", SELF_ALIGNING, 24, 2),
    series("23", SELF_ALIGNING, 24, 2),
    series("213", SPHERICAL, 30, 2),
    series("222", SPHERICAL, 96, 2),
    series("223", SPHERICAL, 96, 2),
    series("230", SPHERICAL, 96, 2),
    series("231", SPHERICAL, 96, 2),
    series("232", SPHERICAL, 96, 2),
    series("238", SPHERICAL, 96, 2),
    series("239", SPHERICAL, 96, 2),
    series("240", SPHERICAL, 96, 2),
    series("241", SPHERICAL, 96, 2),
    series("302", TAPERED, 60, 1),
    series("303", TAPERED, 60, 1),
    Series {
        variant: STEEP,
        ..series("313", TAPERED, 40, 1)
    },
    series("320", TAPERED, 96, 1),
    series("322", TAPERED, 60, 1),
    series("323", TAPERED, 60, 1),
    series("329", TAPERED, 96, 1),
    series("330", TAPERED, 60, 1),
    series("331", TAPERED, 60, 1),
    series("332", TAPERED, 60, 1),
    thrust("511", Some(Family::ThrustBall), None),
    thrust("512", Some(Family::ThrustBall), None),
    thrust("513", Some(Family::ThrustBall), None),
    thrust("514", Some(Family::ThrustBall), None),
    double_direction("522"),
    double_direction("523"),
    double_direction("524"),
    thrust(
        "532",
        Some(Family::ThrustBall),
        Some("spherical housing washer"),
    ),
    thrust(
        "533",
        Some(Family::ThrustBall),
        Some("spherical housing washer"),
    ),
    thrust(
        "534",
        Some(Family::ThrustBall),
        Some("spherical housing washer"),
    ),
    thrust("811", None, Some("cylindrical roller thrust bearing")),
    thrust("812", None, Some("cylindrical roller thrust bearing")),
    thrust("893", None, Some("cylindrical roller thrust bearing")),
    thrust("894", None, Some("cylindrical roller thrust bearing")),
    thrust("292", None, Some("spherical roller thrust bearing")),
    thrust("293", None, Some("spherical roller thrust bearing")),
    thrust("294", None, Some("spherical roller thrust bearing")),
];

/// The numeric series of exactly these digits.
pub(super) fn numeric(digits: &str) -> Option<Series> {
    NUMERIC
        .iter()
        .copied()
        .find(|series| series.digits == digits)
}

/// Dimension series of single row cylindrical roller bearings, DIN 5412-1.
const CYLINDRICAL: [&str; 7] = ["2", "3", "4", "10", "19", "22", "23"];
/// Dimension series of double row cylindrical roller bearings, DIN 5412-4.
const CYLINDRICAL_DOUBLE: [&str; 4] = ["30", "31", "49", "48"];

/// Rib form and rows of a cylindrical roller bearing by its letters and series digits.
pub(super) fn cylindrical(letters: &str, digits: &str) -> Option<(Option<RibForm>, u8)> {
    let single = |form| CYLINDRICAL.contains(&digits).then_some((Some(form), 1));
    match letters {
        "N" => single(RibForm::N),
        "NU" => single(RibForm::Nu),
        "NJ" => single(RibForm::Nj),
        "NUP" => single(RibForm::Nup),
        "NN" | "NNU" => CYLINDRICAL_DOUBLE.contains(&digits).then_some((None, 2)),
        _ => None,
    }
}
