//! Lengths: inch fractions, what is out of range and how it is said, and what a printed figure may stand for.

use proptest::prelude::*;
use sparewright::units::{Length, LengthError, LengthUnit, read_length};

#[test]
fn inch_fractions_are_the_millimetres_of_the_drill_charts() {
    // ASME B94.11M, fraction drills with their millimetres; 25.4 mm to the inch exactly.
    for (text, mm) in [
        ("1/64", "0.396875 mm"),
        ("1/32", "0.79375 mm"),
        ("3/64", "1.190625 mm"),
        ("1/16", "1.5875 mm"),
        ("5/64", "1.984375 mm"),
        ("3/32", "2.38125 mm"),
        ("7/64", "2.778125 mm"),
        ("1/8", "3.175 mm"),
        ("9/64", "3.571875 mm"),
        ("5/32", "3.96875 mm"),
        ("11/64", "4.365625 mm"),
        ("3/16", "4.7625 mm"),
        ("13/64", "5.159375 mm"),
        ("7/32", "5.55625 mm"),
        ("15/64", "5.953125 mm"),
        ("1/4", "6.35 mm"),
        ("17/64", "6.746875 mm"),
        ("9/32", "7.14375 mm"),
        ("19/64", "7.540625 mm"),
        ("5/16", "7.9375 mm"),
        ("21/64", "8.334375 mm"),
        ("11/32", "8.73125 mm"),
        ("23/64", "9.128125 mm"),
        ("3/8", "9.525 mm"),
        ("25/64", "9.921875 mm"),
        ("13/32", "10.31875 mm"),
        ("27/64", "10.715625 mm"),
        ("7/16", "11.1125 mm"),
        ("29/64", "11.509375 mm"),
        ("15/32", "11.90625 mm"),
        ("31/64", "12.303125 mm"),
        ("1/2", "12.7 mm"),
        ("33/64", "13.096875 mm"),
        ("9/16", "14.2875 mm"),
        ("5/8", "15.875 mm"),
        ("11/16", "17.4625 mm"),
        ("3/4", "19.05 mm"),
        ("13/16", "20.6375 mm"),
        ("7/8", "22.225 mm"),
        ("15/16", "23.8125 mm"),
        ("63/64", "25.003125 mm"),
        ("1 1/8", "28.575 mm"),
        ("1 3/8", "34.925 mm"),
        ("2 1/2", "63.5 mm"),
        ("12 7/8", "327.025 mm"),
    ] {
        let read = read_length(text, LengthUnit::Mm).unwrap();
        assert_eq!(read.length.to_string(), mm, "{text}");
        assert_eq!(read.half_digit_nm, 0, "{text} is exact");
        assert!(read.is_unit_stated, "{text} is in inches by its form");
    }
}

#[test]
fn a_fraction_is_an_inch_fraction_by_its_denominator_only() {
    // Rules of the trade: halves to hundred and twenty-eighths; 7/12 and 3/10 are no rule's marks. Common practice.
    for text in [
        "1/3", "7/12", "3/10", "1/100", "5/6", "1/256", "1/1", "2/2", "5/4", "0/8", "/8", "3/",
        "3/8/4", "1 2 3/8x", "-3/8", "3/-8", "3,5/8", "1.5/8", "3/8 mm", "3/8 cm", "1 3/8 mm",
    ] {
        let read = read_length(text, LengthUnit::Mm);
        assert!(
            matches!(read, Err(LengthError::NotALength { .. })),
            "{text}: {read:?}"
        );
    }
}

#[test]
fn one_figure_is_the_same_length_in_any_unit_that_is_named() {
    for (text, nm) in [
        ("25.4 mm", 25_400_000),
        ("25,4mm", 25_400_000),
        ("2.54 cm", 25_400_000),
        ("2,54cm", 25_400_000),
        ("1 in", 25_400_000),
        ("1in.", 25_400_000),
        ("1\"", 25_400_000),
        ("1″", 25_400_000),
        ("1”", 25_400_000),
        ("1''", 25_400_000),
        ("1 inch", 25_400_000),
        ("1 INCH", 25_400_000),
        ("1 Zoll", 25_400_000),
        ("1.0 inches", 25_400_000),
        ("25.4 Millimeter", 25_400_000),
        ("Ø25.4", 25_400_000),
        ("ø 25.4", 25_400_000),
        ("⌀25.4 mm", 25_400_000),
        ("\u{2009}25.4\u{202f}mm", 25_400_000),
        ("025.40", 25_400_000),
        ("25.400000", 25_400_000),
        ("25.", 25_000_000),
        (".5", 500_000),
        (",5", 500_000),
        ("0.000001", 1),
        ("100000", 100_000_000_000),
    ] {
        let read =
            read_length(text, LengthUnit::Mm).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert_eq!(read.length.as_nm(), nm, "{text}");
    }
}

#[test]
fn what_is_no_length_is_refused_with_its_text() {
    for text in [
        "", " ", "Ø", "mm", "\"", ".", ",", "-5", "+5", "5-6", "1e3", "1.2.3", "1,2,3", "1 250",
        "5 m", "5 min", "5 mm mm", "five", "NaN", "inf", "0x10", "5°", "5%", "5±0.1", "٣",
    ] {
        match read_length(text, LengthUnit::Mm) {
            Err(LengthError::NotALength { found }) => assert_eq!(found, text.trim(), "{text}"),
            other => panic!("{text}: {other:?}"),
        }
    }
    let said = read_length("wide", LengthUnit::Mm).unwrap_err().to_string();
    assert_eq!(
        said,
        "`wide` is not a length; expected a number such as `25.4`, `25,4`, `7/16\"` or `1 3/8\"`"
    );
}

#[test]
fn nothing_and_more_than_a_hundred_metres_are_out_of_range() {
    for (text, unit, found) in [
        ("0", LengthUnit::Mm, "0 mm"),
        ("0.0", LengthUnit::Inch, "0 in"),
        ("0.0000004", LengthUnit::Mm, "0.0000004 mm"),
        ("100000.1", LengthUnit::Mm, "100000.1 mm"),
        ("10001", LengthUnit::Cm, "10001 cm"),
        ("3938", LengthUnit::Inch, "3938 in"),
        (
            "99999999999999999999",
            LengthUnit::Mm,
            "100000000000000000000 mm",
        ),
    ] {
        let error = read_length(text, unit).unwrap_err();
        assert_eq!(
            error.to_string(),
            format!("{found} is out of range; a length must be above 0 and at most 100 m"),
            "{text}"
        );
    }
    // The last lengths on either side.
    assert_eq!(Length::from_nm(1).map(Length::as_nm), Ok(1));
    assert_eq!(
        Length::from_nm(100_000_000_000).map(Length::to_mm),
        Ok(100_000.0)
    );
    for nm in [0, -1, 100_000_000_001, i64::MIN, i64::MAX] {
        assert!(Length::from_nm(nm).is_err(), "{nm}");
    }
    assert!(Length::from_mm(0.000_000_4).is_err());
    assert_eq!(Length::from_mm(0.000_000_6).map(Length::as_nm), Ok(1));
    for mm in [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        -0.0,
        f64::MIN_POSITIVE,
    ] {
        assert!(Length::from_mm(mm).is_err(), "{mm}");
    }
}

#[test]
fn inches_by_parts_are_exact_or_refused_and_never_wrap_around() {
    for (whole, numerator, denominator, nm) in [
        (0, 1, 2, 12_700_000),
        (1, 0, 1, 25_400_000),
        (1, 3, 8, 34_925_000),
        (0, 1, 64, 396_875),
        (0, 64, 64, 25_400_000),
        // Half a nanometre is rounded up.
        (0, 1, 128, 198_438),
        (3_937, 0, 1, 99_999_800_000),
    ] {
        let length = Length::from_inch_fraction(whole, numerator, denominator);
        assert_eq!(
            length.map(Length::as_nm),
            Ok(nm),
            "{whole} {numerator}/{denominator}"
        );
    }
    for (whole, numerator, denominator) in [
        (0, 0, 1),
        (0, 1, 0),
        (3_938, 0, 1),
        (u32::MAX, 0, 1),
        (u32::MAX, 1, u32::MAX),
        (4_000_000, 7, 1_000_000),
        (1_000_000, 1, 1_000_000_000),
        (0, 1, u32::MAX),
    ] {
        let error = Length::from_inch_fraction(whole, numerator, denominator).unwrap_err();
        assert_eq!(
            error.to_string(),
            format!(
                "{whole} {numerator}/{denominator} in is out of range; a length must be above 0 and at most 100 m"
            )
        );
    }
}

#[test]
fn a_coarse_print_may_be_every_size_that_rounds_to_it_and_no_other() {
    // A last digit of a tenth leaves five hundredths on either side: arithmetic.
    for (printed, unit, exact_mm, may_be) in [
        ("22.2", LengthUnit::Mm, 22.225, true),
        ("22.23", LengthUnit::Mm, 22.225, true),
        ("22.22", LengthUnit::Mm, 22.225, true),
        ("22.225", LengthUnit::Mm, 22.225, true),
        ("22.3", LengthUnit::Mm, 22.225, false),
        ("22", LengthUnit::Mm, 22.225, true),
        ("23", LengthUnit::Mm, 22.225, false),
        ("0.875", LengthUnit::Inch, 22.225, true),
        ("0.88", LengthUnit::Inch, 22.225, true),
        ("0.87", LengthUnit::Inch, 22.225, true),
        ("0.9", LengthUnit::Inch, 22.225, true),
        ("0.8", LengthUnit::Inch, 22.225, false),
        ("7/8", LengthUnit::Mm, 22.225, true),
        ("7/8", LengthUnit::Mm, 22.2251, false),
        ("30.0", LengthUnit::Mm, 30.05, true),
        ("30.0", LengthUnit::Mm, 30.051, false),
        ("30.00", LengthUnit::Mm, 30.05, false),
        ("3.0", LengthUnit::Cm, 30.5, true),
        ("3.0", LengthUnit::Cm, 30.6, false),
    ] {
        let read = read_length(printed, unit).unwrap();
        let exact = Length::from_mm(exact_mm).unwrap();
        assert_eq!(read.may_be(exact), may_be, "{printed} {unit} for {exact}");
    }
}

#[test]
fn lengths_are_kept_in_files_as_millimetres() {
    for (mm, json) in [(30.0, "30.0"), (0.396_875, "0.396875"), (22.225, "22.225")] {
        let length = Length::from_mm(mm).unwrap();
        assert_eq!(serde_json::to_string(&length).unwrap(), json);
        assert_eq!(serde_json::from_str::<Length>(json).unwrap(), length);
    }
    for json in ["0", "-1", "1e9", "\"30\"", "null", "[30]"] {
        assert!(serde_json::from_str::<Length>(json).is_err(), "{json}");
    }
    for (unit, json) in [
        (LengthUnit::Mm, "\"mm\""),
        (LengthUnit::Cm, "\"cm\""),
        (LengthUnit::Inch, "\"inch\""),
    ] {
        assert_eq!(serde_json::to_string(&unit).unwrap(), json);
        assert_eq!(serde_json::from_str::<LengthUnit>(json).unwrap(), unit);
    }
}

proptest! {
    /// A size in inches and the same in millimetres and centimetres are one length.
    #[test]
    fn the_unit_does_not_change_the_length(thousandths in 1_i64..40_000) {
        let inches = format!("{}.{:03}\"", thousandths / 1_000, thousandths % 1_000);
        let nm = thousandths * 25_400;
        let mm = format!("{}.{:06} mm", nm / 1_000_000, nm % 1_000_000);
        let cm = format!("{}.{:07} cm", nm / 10_000_000, nm % 10_000_000);
        let read = |text: &str| read_length(text, LengthUnit::Mm).map(|read| read.length.as_nm());
        prop_assert_eq!(read(&inches), Ok(nm), "{}", inches);
        prop_assert_eq!(read(&mm), Ok(nm), "{}", mm);
        prop_assert_eq!(read(&cm), Ok(nm), "{}", cm);
    }

    /// Lengths are in the order of their nanometres, and a difference turned round changes its sign.
    #[test]
    fn lengths_are_in_order_and_differences_have_a_side(a in 1_i64..100_000_000_000, b in 1_i64..100_000_000_000) {
        let (one, other) = (Length::from_nm(a).unwrap(), Length::from_nm(b).unwrap());
        prop_assert_eq!(one.cmp(&other), a.cmp(&b));
        prop_assert_eq!(one == other, a == b);
        prop_assert!((one.difference_mm(other) + other.difference_mm(one)).abs() < 1e-9);
        prop_assert!((one.difference_mm(other) - (one.to_mm() - other.to_mm())).abs() < 1e-6);
    }

    /// Parts of an inch never give another length than their exact value, or none.
    #[test]
    fn parts_of_an_inch_are_exact_or_none(whole in any::<u32>(), numerator in any::<u32>(), denominator in 1_u32..) {
        let parts = i128::from(whole) * i128::from(denominator) + i128::from(numerator);
        let exact_nm = parts * 25_400_000;
        match Length::from_inch_fraction(whole, numerator, denominator) {
            Ok(length) => {
                let off = (i128::from(length.as_nm()) * i128::from(denominator) - exact_nm).abs();
                prop_assert!(2 * off <= i128::from(denominator), "{length}");
            }
            Err(_) => {
                let nm = exact_nm / i128::from(denominator);
                prop_assert!(!(1..100_000_000_000).contains(&nm), "{nm}");
            }
        }
    }
}
