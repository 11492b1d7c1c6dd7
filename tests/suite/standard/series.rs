//! Tables of sizes against the rules that their standards make the designations by: a wrong figure breaks its series.

use std::collections::BTreeMap;

use sparewright::part::{Dimension, Family};
use sparewright::standard::{self, StandardPart};
use sparewright::units::Length;

fn of(family: Family) -> impl Iterator<Item = &'static StandardPart> {
    standard::parts()
        .iter()
        .filter(move |part| part.size.family() == family)
}

fn mm(part: &StandardPart, dimension: Dimension) -> f64 {
    let length = part.size.get(dimension);
    length
        .unwrap_or_else(|| panic!("{}: no {dimension:?}", part.designation))
        .to_mm()
}

/// Bore by its code: 00 to 03 are 10, 12, 15 and 17 mm, from 04 on five times the code (DIN 623-1).
fn bore_of_code(code: u32) -> f64 {
    match code {
        0 => 10.0,
        1 => 12.0,
        2 => 15.0,
        3 => 17.0,
        other => 5.0 * f64::from(other),
    }
}

/// Series and bore code of a designation of digits behind letters.
fn taken_apart(designation: &str) -> Option<(String, u32)> {
    let digits = designation.trim_start_matches(|sign: char| sign.is_ascii_alphabetic());
    let is_plain = digits.len() >= 3 && digits.bytes().all(|byte| byte.is_ascii_digit());
    let at = digits.len().checked_sub(2)?;
    is_plain.then(|| (digits[..at].to_owned(), digits[at..].parse().unwrap()))
}

#[test]
fn bores_are_those_of_their_codes_in_every_family() {
    let mut compared = BTreeMap::new();
    for (family, series) in [
        (Family::ThrustBall, &["511", "512", "513", "514"][..]),
        (
            Family::TaperedRoller,
            &[
                "302", "303", "313", "320", "322", "323", "330", "331", "332",
            ],
        ),
        (Family::SelfAligningBall, &["12", "13", "22", "23"]),
        (
            Family::SphericalRoller,
            &["213", "222", "223", "230", "231", "232", "240", "241"],
        ),
        (
            Family::CylindricalRoller,
            &["2", "3", "4", "10", "22", "23"],
        ),
        (
            Family::DeepGrooveBall,
            &["60", "62", "63", "64", "618", "619", "160"],
        ),
    ] {
        for part in of(family) {
            let Some((of_series, code)) = taken_apart(&part.designation) else {
                continue;
            };
            if !series.contains(&of_series.as_str()) {
                continue;
            }
            // Codes of one digit and inch sizes are written otherwise.
            let bore = mm(part, Dimension::Bore);
            assert!(
                (bore - bore_of_code(code)).abs() < 1e-9,
                "{}: {bore}",
                part.designation
            );
            *compared.entry(family).or_insert(0) += 1;
        }
    }
    assert_eq!(compared.len(), 6, "{compared:?}");
    assert!(compared.values().sum::<usize>() > 500, "{compared:?}");
}

#[test]
fn within_a_bore_the_series_grow_and_within_a_series_the_bores() {
    // ISO 15: diameter series 8, 9, 0, 2, 3, 4 in rising order.
    let mut sizes: BTreeMap<(String, u32), (f64, f64)> = BTreeMap::new();
    for part in of(Family::DeepGrooveBall) {
        if let Some(key) = taken_apart(&part.designation) {
            let size = (
                mm(part, Dimension::OutsideDiameter),
                mm(part, Dimension::Width),
            );
            sizes.insert(key, size);
        }
    }
    let mut pairs = 0;
    for code in 0..40 {
        let outside: Vec<f64> = ["618", "619", "60", "62", "63", "64"]
            .iter()
            .filter_map(|series| sizes.get(&((*series).to_owned(), code)).map(|size| size.0))
            .collect();
        assert!(
            outside.windows(2).all(|pair| pair[0] < pair[1]),
            "{code}: {outside:?}"
        );
        pairs += outside.len().saturating_sub(1);
    }
    assert!(pairs > 60, "{pairs}");
    for series in ["60", "62", "63", "64"] {
        let rising: Vec<(f64, f64)> = (0..40)
            .filter_map(|code| sizes.get(&(series.to_owned(), code)).copied())
            .collect();
        assert!(rising.len() > 8, "{series}");
        assert!(
            rising
                .windows(2)
                .all(|pair| pair[0].0 < pair[1].0 && pair[0].1 <= pair[1].1),
            "{series}: {rising:?}"
        );
    }
}

#[test]
fn dash_numbers_say_the_section_of_their_hundred() {
    // SAE AS568: 0xx 0.070 in (from -004 on), 1xx 0.103, 2xx 0.139, 3xx 0.210, 4xx 0.275.
    let sections = [70, 103, 139, 210, 275];
    let mut inside: BTreeMap<(usize, u32), i64> = BTreeMap::new();
    for part in of(Family::ORing) {
        let Some(dash) = part
            .designation
            .strip_prefix("AS568-")
            .and_then(|dash| dash.parse::<u32>().ok())
        else {
            continue;
        };
        let (hundred, rest) = ((dash / 100) as usize, dash % 100);
        if hundred == 9 || hundred == 0 && rest < 4 {
            continue;
        }
        let section = part.size.get(Dimension::Section).unwrap();
        // A thousandth of an inch is 25,400 nm.
        assert_eq!(
            section,
            Length::from_nm(sections[hundred] * 25_400).unwrap(),
            "{}",
            part.designation
        );
        let width = part.size.get(Dimension::InsideDiameter).unwrap().as_nm();
        assert_eq!(
            width % 25_400,
            0,
            "{}: whole thousandths of an inch",
            part.designation
        );
        inside.insert((hundred, rest), width);
    }
    assert!(inside.len() > 300, "{}", inside.len());
    for hundred in 0..5 {
        let rising: Vec<i64> = inside
            .iter()
            .filter(|((of, _), _)| *of == hundred)
            .map(|(_, width)| *width)
            .collect();
        assert!(
            rising.windows(2).all(|pair| pair[0] < pair[1]),
            "{hundred}xx"
        );
    }
}

#[test]
fn lock_nuts_have_the_threads_of_iso_2982() {
    let mut nuts = 0;
    for part in of(Family::LockNut) {
        let Some(code) = part
            .designation
            .strip_prefix("KM")
            .and_then(|code| code.parse::<u32>().ok())
        else {
            continue;
        };
        let thread = mm(part, Dimension::ThreadDiameter);
        assert!(
            (thread - bore_of_code(code)).abs() < 1e-9,
            "{}: M{thread}",
            part.designation
        );
        let pitch = match code {
            0 => 0.75,
            1..=4 => 1.0,
            5..=10 => 1.5,
            _ => 2.0,
        };
        assert!(
            (mm(part, Dimension::ThreadPitch) - pitch).abs() < 1e-9,
            "{}",
            part.designation
        );
        nuts += 1;
    }
    assert!(nuts > 18, "{nuts}");
}

#[test]
fn names_that_are_sizes_are_their_sizes() {
    let figures = |text: &str| -> Vec<f64> {
        text.split('x')
            .filter_map(|figure| figure.parse().ok())
            .collect()
    };
    let mut compared = 0;
    for (family, prefix) in [(Family::NeedleCage, "K"), (Family::LipSeal, "")] {
        for part in of(family) {
            let Some(name) = part.designation.strip_prefix(prefix) else {
                continue;
            };
            let named = figures(name.split_whitespace().next().unwrap());
            if named.len() != 3 {
                continue;
            }
            let lengths: Vec<f64> = part
                .size
                .dimensions()
                .map(|(_, length)| length.to_mm())
                .collect();
            assert_eq!(named, lengths, "{}", part.designation);
            compared += 1;
        }
    }
    assert!(compared > 350, "{compared}");
}

#[test]
fn a_row_that_leans_on_memory_says_so_for_its_washer() {
    // ISO 104: 51322 is 110 x 113 x 190 x 63, from memory; the open table has the shaft washer's bore twice.
    let row = standard::find("51322").expect("a row");
    let figures: Vec<f64> = row.size.dimensions().map(|(_, of)| of.to_mm()).collect();
    assert_eq!(figures, [110.0, 113.0, 190.0, 63.0]);
    assert!(!row.confidence.is_cross_checked() && row.note.contains("memory"));
}

#[test]
fn washers_rings_and_pins_have_sizes_that_can_be_made() {
    for part in of(Family::ThrustBall) {
        // ISO 104: the housing washer clears the shaft, and so is wider than the washer on it.
        let (bore, washer) = (
            mm(part, Dimension::Bore),
            mm(part, Dimension::HousingWasherBore),
        );
        assert!(
            bore < washer && washer < mm(part, Dimension::OutsideDiameter),
            "{}",
            part.designation
        );
    }
    for part in of(Family::TaperedRoller) {
        let (bore, outside) = (
            mm(part, Dimension::Bore),
            mm(part, Dimension::OutsideDiameter),
        );
        let ring = (outside - bore) / 2.0;
        assert!(ring > 5.0 && ring < outside / 2.0, "{}", part.designation);
    }
    for part in of(Family::LipSeal) {
        // A lip seal needs at least three millimetres of ring around its shaft.
        let ring = (mm(part, Dimension::HousingBore) - mm(part, Dimension::ShaftDiameter)) / 2.0;
        assert!(ring >= 3.0, "{}: {ring}", part.designation);
    }
    for part in of(Family::NeedleCage) {
        // Ew - Fw is two rollers: 1.5 to 20 mm in these series.
        let rollers =
            mm(part, Dimension::OuterRacewayDiameter) - mm(part, Dimension::InnerRacewayDiameter);
        assert!(
            (1.5..=24.0).contains(&rollers),
            "{}: {rollers}",
            part.designation
        );
    }
}
