//! Sizes of two to four lengths: signs between them, one unit for all, inch and metric forms of one bearing.

use proptest::prelude::*;
use sparewright::units::{LengthError, LengthUnit, read_size};

fn mm(text: &str, unit: LengthUnit) -> Vec<f64> {
    let read = read_size(text, unit).unwrap_or_else(|error| panic!("{text}: {error}"));
    read.iter().map(|read| read.length.to_mm()).collect()
}

#[test]
fn inch_bearings_are_their_millimetres_as_fractions_and_as_decimals() {
    // ABMA standard 12.2 (R series), bore, outside and width of open bearings, by the open library BOSL2.
    for (name, fractions, expected) in [
        ("R2", "1/8 x 3/8 x 5/32", [3.175, 9.525, 3.968_75]),
        ("R3", "3/16 x 1/2 x 5/32", [4.762_5, 12.7, 3.968_75]),
        ("R6", "3/8 x 7/8 x 7/32", [9.525, 22.225, 5.556_25]),
        ("R8", "1/2 x 1 1/8 x 1/4", [12.7, 28.575, 6.35]),
        ("R10", "5/8 x 1 3/8 x 9/32", [15.875, 34.925, 7.143_75]),
        ("R12", "3/4 x 1 5/8 x 5/16", [19.05, 41.275, 7.937_5]),
        ("R14", "7/8 x 1 7/8 x 3/8", [22.225, 47.625, 9.525]),
        ("R16", "1\" x 2\" x 3/8\"", [25.4, 50.8, 9.525]),
        ("R18", "1 1/8 x 2 1/8 x 3/8", [28.575, 53.975, 9.525]),
        ("R20", "1 1/4 x 2 1/4 x 3/8", [31.75, 57.15, 9.525]),
        ("R22", "1 3/8 x 2 1/2 x 7/16", [34.925, 63.5, 11.112_5]),
        ("R24", "1 1/2 x 2 5/8 x 7/16", [38.1, 66.675, 11.112_5]),
    ] {
        assert_eq!(mm(fractions, LengthUnit::Mm), expected, "{name}");
        assert_eq!(mm(fractions, LengthUnit::Inch), expected, "{name}");
        // Hyphens between whole and fraction, as older lists print them.
        let hyphened = fractions
            .split(" x ")
            .map(|piece| piece.replacen(' ', "-", 1))
            .collect::<Vec<_>>()
            .join("x");
        assert_eq!(mm(&hyphened, LengthUnit::Mm), expected, "{hyphened}");
    }
}

#[test]
fn any_sign_between_the_lengths_gives_one_size() {
    for text in [
        "30x62x16",
        "30X62X16",
        "30 x 62 x 16",
        "30×62×16",
        "30 × 62 × 16",
        "30*62*16",
        "30/62/16",
        "30х62х16",
        "30 x62 X 16 mm",
        "30x62x16mm",
        "30 mm x 62 mm x 16 mm",
        "Ø30 x Ø62 x 16",
        "30,0x62,0x16,0",
        " 30x62x16 ",
        "3x6.2x1.6 cm",
    ] {
        assert_eq!(mm(text, LengthUnit::Mm), [30.0, 62.0, 16.0], "{text}");
    }
}

#[test]
fn a_unit_written_once_holds_for_all_lengths_and_one_of_its_own_for_itself() {
    for (text, default_unit, expected) in [
        ("1x2x.5 in", LengthUnit::Mm, &[25.4, 50.8, 12.7][..]),
        ("1x2x.5\"", LengthUnit::Mm, &[25.4, 50.8, 12.7]),
        ("1x2x.5", LengthUnit::Inch, &[25.4, 50.8, 12.7]),
        ("25.4x50.8x12.7 mm", LengthUnit::Inch, &[25.4, 50.8, 12.7]),
        ("1\" x 30 mm", LengthUnit::Inch, &[25.4, 30.0]),
        ("1 in x 2 in", LengthUnit::Mm, &[25.4, 50.8]),
        ("40x62x7/10", LengthUnit::Mm, &[]),
        ("6x40", LengthUnit::Mm, &[6.0, 40.0]),
        ("6", LengthUnit::Mm, &[6.0]),
        ("3/8", LengthUnit::Mm, &[9.525]),
        ("3/8 x 1 1/2", LengthUnit::Mm, &[9.525, 38.1]),
        ("20x47x14x0.6", LengthUnit::Mm, &[20.0, 47.0, 14.0, 0.6]),
    ] {
        match read_size(text, default_unit) {
            Ok(read) => {
                let found: Vec<f64> = read.iter().map(|read| read.length.to_mm()).collect();
                assert_eq!(found, expected, "{text}");
            }
            Err(error) => assert!(expected.is_empty(), "{text}: {error}"),
        }
    }
}

#[test]
fn a_fraction_in_millimetres_is_refused_in_a_size_as_it_is_alone() {
    // No metric size is written as a fraction: inches and millimetres contradict each other.
    for text in [
        "3/8 x 7/8 x 7/32 mm",
        "1/2x1 1/8x1/4 mm",
        "30 x 62 x 1/2 mm",
        "1/2 x 1 cm",
    ] {
        let read = read_size(text, LengthUnit::Inch);
        assert!(
            matches!(read, Err(LengthError::NotALength { .. })),
            "{text}: {read:?}"
        );
    }
}

#[test]
fn a_size_with_a_piece_that_is_no_length_is_refused_as_a_whole() {
    for text in [
        "",
        "x",
        "30x",
        "x62",
        "30xx16",
        "30x62xB",
        "30x0x16",
        "30x-62x16",
        "1x2x3x4x5",
        "30/62/16/4",
        "30 / 62 / 16 / 4",
        "30by62",
        "30x62 x16mmx",
        "M10x1.5",
    ] {
        assert!(read_size(text, LengthUnit::Mm).is_err(), "{text}");
    }
    let error = read_size("1x2x3x4x5", LengthUnit::Mm)
        .unwrap_err()
        .to_string();
    assert!(error.starts_with("`1x2x3x4x5` is not a length"), "{error}");
    // The piece at fault is named, not the whole size.
    let error = read_size("30x62xB", LengthUnit::Mm)
        .unwrap_err()
        .to_string();
    assert!(error.starts_with("`B` is not a length"), "{error}");
}

proptest! {
    /// The same size in inches and in millimetres.
    #[test]
    fn a_size_in_inches_is_that_in_millimetres(sixteenths in prop::collection::vec(1_u32..96, 2..5)) {
        let fraction = |n: &u32| match (n / 16, n % 16) {
            (whole, 0) => format!("{whole}\""),
            (0, part) => format!("{}\"", lowest(part)),
            (whole, part) => format!("{whole} {}\"", lowest(part)),
        };
        let inches: Vec<String> = sixteenths.iter().map(fraction).collect();
        let metric: Vec<String> = sixteenths.iter().map(|n| format!("{}", f64::from(*n) * 1.5875)).collect();
        let read = |text: &str| -> Vec<i64> {
            read_size(text, LengthUnit::Mm).unwrap().iter().map(|read| read.length.as_nm()).collect()
        };
        prop_assert_eq!(read(&inches.join(" x ")), read(&metric.join(" x ")));
    }

    /// A pair of lengths in the other order is the other size, never the same.
    #[test]
    fn the_order_of_the_lengths_is_kept(a in 1_u32..500, b in 1_u32..500) {
        let read = |text: String| -> Vec<i64> {
            read_size(&text, LengthUnit::Mm).unwrap().iter().map(|read| read.length.as_nm()).collect()
        };
        let mut turned = read(format!("{b}x{a}"));
        turned.reverse();
        prop_assert_eq!(read(format!("{a}x{b}")), turned);
    }
}

/// A number of sixteenths in its lowest terms.
fn lowest(sixteenths: u32) -> String {
    let shift = sixteenths.trailing_zeros();
    format!("{}/{}", sixteenths >> shift, 16 >> shift)
}
