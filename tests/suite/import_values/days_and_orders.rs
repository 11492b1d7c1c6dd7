//! Day numbers of spreadsheets, years of two digits, times behind dates, and the order of day and month.

use chrono::{Datelike, NaiveDate};
use proptest::prelude::*;
use sparewright::import::value::{DateEvidence, read_date, read_month_or_date};
use sparewright::record::DateOrder::{self, Dmy, Mdy};

fn iso(text: &str, order: Option<DateOrder>) -> Option<String> {
    read_date(text, order).ok().map(|date| date.to_string())
}

#[test]
fn day_numbers_are_those_of_the_1900_system() {
    // ECMA-376, part 1, 18.17.4.1: day 1 is 1900-01-01 and the 29 February 1900 that never was is counted, so that day 61 is
    // 1900-03-01; days by the function DATE of LibreOffice. Only days of 1950 to 2100 are taken.
    for (text, expected) in [
        ("18264", Some("1950-01-01")),
        ("25569", Some("1970-01-01")),
        ("36526", Some("2000-01-01")),
        ("36585", Some("2000-02-29")),
        ("39448", Some("2008-01-01")),
        ("43831", Some("2020-01-01")),
        ("45000", Some("2023-03-15")),
        ("45292", Some("2024-01-01")),
        ("45351", Some("2024-02-29")),
        ("46090", Some("2026-03-09")),
        ("46090.5", Some("2026-03-09")),
        ("46090.99", Some("2026-03-09")),
        ("73415", Some("2100-12-31")),
        ("18263", None),
        ("73416", None),
        ("1", None),
        ("60", None),
        ("0", None),
        ("-46090", None),
        ("99999", None),
        ("460900", None),
        ("1e5", None),
    ] {
        for order in [None, Some(Dmy), Some(Mdy)] {
            assert_eq!(iso(text, order).as_deref(), expected, "{text}");
        }
    }
}

#[test]
fn years_of_two_digits_lie_from_1980_to_2079() {
    // Common practice, no source: the dates of a shop lie near today.
    for (text, expected) in [
        ("09.03.26", Some("2026-03-09")),
        ("09.03.00", Some("2000-03-09")),
        ("09.03.79", Some("2079-03-09")),
        ("09.03.80", Some("1980-03-09")),
        ("09.03.99", Some("1999-03-09")),
        ("9/3/26", Some("2026-03-09")),
        ("9-3-26", Some("2026-03-09")),
        ("9 March 26", Some("2026-03-09")),
        ("9 March 80", Some("1980-03-09")),
        ("09.03.126", None),
        ("09.03.1949", None),
        ("09.03.1950", Some("1950-03-09")),
        ("09.03.2100", Some("2100-03-09")),
        ("09.03.2101", None),
        ("1949-12-31", None),
        ("2101-01-01", None),
    ] {
        assert_eq!(iso(text, Some(Dmy)).as_deref(), expected, "{text}");
    }
}

#[test]
fn with_dots_the_day_comes_first_and_a_day_beyond_31_is_no_year() {
    for (text, expected) in [
        ("04.03.2026", Some("2026-03-04")),
        ("4.3.2026", Some("2026-03-04")),
        ("4.3.26", Some("2026-03-04")),
        ("4. 3. 2026", Some("2026-03-04")),
        ("04.03.2026.", Some("2026-03-04")),
        ("2026.03.04", Some("2026-03-04")),
        ("31.12.2026", Some("2026-12-31")),
        ("13.13.2026", None),
        ("32.01.2026", None),
        ("32.1.20", None),
        ("45.03.12", None),
        ("99.12.31", None),
        ("12.31.2026", None),
    ] {
        for order in [None, Some(Dmy), Some(Mdy)] {
            assert_eq!(iso(text, order).as_deref(), expected, "{text} by {order:?}");
        }
    }
}

#[test]
fn strokes_and_hyphens_need_an_order_where_both_readings_are_days() {
    for (text, dmy, mdy) in [
        ("03/04/2026", Some("2026-04-03"), Some("2026-03-04")),
        ("3-4-26", Some("2026-04-03"), Some("2026-03-04")),
        ("12/11/2026", Some("2026-11-12"), Some("2026-12-11")),
        ("05/05/2026", Some("2026-05-05"), Some("2026-05-05")),
        ("13/04/2026", Some("2026-04-13"), Some("2026-04-13")),
        ("04/13/2026", Some("2026-04-13"), Some("2026-04-13")),
        ("31/04/2026", None, None),
        ("04/31/2026", None, None),
        ("30/02/2026", None, None),
        ("2026/04/03", Some("2026-04-03"), Some("2026-04-03")),
        ("2026-04-03", Some("2026-04-03"), Some("2026-04-03")),
    ] {
        assert_eq!(iso(text, Some(Dmy)).as_deref(), dmy, "{text}");
        assert_eq!(iso(text, Some(Mdy)).as_deref(), mdy, "{text}");
        let expected = if dmy == mdy { dmy } else { None };
        assert_eq!(iso(text, None).as_deref(), expected, "{text}");
    }
    assert_eq!(
        read_date("03/04/2026", None).unwrap_err().to_string(),
        "`03/04/2026` is either 2026-04-03 or 2026-03-04, and the column holds dates of both orders; expected `2026-03-09`"
    );
    assert_eq!(
        read_date("soon", None).unwrap_err().to_string(),
        "`soon` is not a date; expected one such as `2026-03-09` or `9 March 2026`"
    );
}

#[test]
fn a_time_behind_a_date_is_left_out_and_other_words_are_not() {
    for (text, expected) in [
        ("2026-03-09T07:30", Some("2026-03-09")),
        ("2026-03-09T07:30:15", Some("2026-03-09")),
        ("2026-03-09T07:30:15.250", Some("2026-03-09")),
        ("2026-03-09T07:30:15Z", Some("2026-03-09")),
        ("2026-03-09T07:30+01:00", Some("2026-03-09")),
        ("2026-03-09 07:30", Some("2026-03-09")),
        ("09.03.2026 07:30", Some("2026-03-09")),
        ("09.03.2026, 07:30", Some("2026-03-09")),
        ("3/9/2026 7:30 AM", Some("2026-03-09")),
        ("3/9/2026 7:30:00 PM", Some("2026-03-09")),
        ("2026-03-09\u{a0}07:30", Some("2026-03-09")),
        ("2026-03-09 soon", None),
        ("2026-03-09 7", None),
        ("2026-03-09 to 2026-03-12", None),
        ("2026-03-09/10", None),
        ("from 2026-03-09", None),
    ] {
        assert_eq!(iso(text, Some(Mdy)).as_deref(), expected, "{text}");
    }
}

#[test]
fn a_column_proves_its_order_by_every_telling_day_and_only_by_them() {
    for (cells, proved, either) in [
        (&["25/03/2026", "03/04/2026"][..], Some(Dmy), 1),
        (&["03/25/2026", "03/04/2026"], Some(Mdy), 1),
        (&["25/03/2026", "03/25/2026"], None, 0),
        (&["03/04/2026", "05/06/2026"], None, 2),
        (&["05/05/2026"], None, 0),
        // Dots have their own order, years in front too: neither says anything of strokes.
        (&["25.03.2026", "03/04/2026"], None, 1),
        (&["2026-03-25", "03/04/2026"], None, 1),
        (&["9 March 2026", "n/a", "", "46090"], None, 0),
        // Both figures beyond twelve are no date at all.
        (&["25/26/2026", "03/04/2026"], None, 1),
        (&["25-03-2026"], Some(Dmy), 0),
        (&["25/03/26 07:30"], Some(Dmy), 0),
    ] {
        let mut evidence = DateEvidence::default();
        cells.iter().for_each(|cell| evidence.add(cell));
        assert_eq!(evidence.proved(), proved, "{cells:?}");
        assert_eq!(evidence.either, either, "{cells:?}");
        // The order of the cells, and by which of two columns they stand, says nothing.
        let (mut one, mut other) = (DateEvidence::default(), DateEvidence::default());
        for (at, cell) in cells.iter().rev().enumerate() {
            if at % 2 == 0 {
                one.add(cell)
            } else {
                other.add(cell)
            }
        }
        one.join(other);
        assert_eq!(one, evidence, "{cells:?}");
        // Settings decide only what nothing proves.
        for settings in [Dmy, Mdy] {
            let is_contradictory = cells.contains(&"25/03/2026") && cells.contains(&"03/25/2026");
            let expected = (!is_contradictory).then(|| proved.unwrap_or(settings));
            assert_eq!(evidence.order(settings), expected, "{cells:?}");
        }
        assert_eq!(
            evidence.is_by_settings(),
            either > 0 && proved.is_none(),
            "{cells:?}"
        );
    }
}

#[test]
fn marks_of_cure_are_months_and_quarters_and_count_from_their_first_day() {
    // Quarters as SAE AS5316 marks them, from memory.
    for (text, expected) in [
        ("1Q26", Some("2026-01-01")),
        ("2Q26", Some("2026-04-01")),
        ("3Q26", Some("2026-07-01")),
        ("4Q26", Some("2026-10-01")),
        ("1q2026", Some("2026-01-01")),
        ("2Q/26", Some("2026-04-01")),
        ("2Q-2026", Some("2026-04-01")),
        ("2Q 26", Some("2026-04-01")),
        ("01/2026", Some("2026-01-01")),
        ("12/2026", Some("2026-12-01")),
        ("12-2026", Some("2026-12-01")),
        ("12.2026", Some("2026-12-01")),
        ("2026-12", Some("2026-12-01")),
        ("2026/12", Some("2026-12-01")),
        ("2026-12-24", Some("2026-12-24")),
        ("24.12.2026", Some("2026-12-24")),
        ("24 December 2026", Some("2026-12-24")),
        ("46090", Some("2026-03-09")),
        ("0Q26", None),
        ("5Q26", None),
        ("12Q26", None),
        ("Q126", None),
        ("1Q", None),
        ("00/2026", None),
        ("13/2026", None),
        ("2026-13", None),
        ("12/26", None),
        ("2026", None),
        ("1Q1949", None),
        ("01/1949", None),
        ("", None),
    ] {
        let found = read_month_or_date(text, None)
            .ok()
            .map(|date| date.to_string());
        assert_eq!(found.as_deref(), expected, "{text}");
    }
}

proptest! {
    /// A day in either order reads back under that order, and under none where the other reading is a day as well.
    #[test]
    fn a_day_reads_back_in_the_order_it_was_written(days in 0_i64..55_000, sign in prop::sample::select(vec!['/', '-'])) {
        let day = NaiveDate::from_ymd_opt(1950, 1, 1).unwrap() + chrono::Duration::days(days);
        prop_assume!(day.year() <= 2100);
        let (d, m, y) = (day.day(), day.month(), day.year());
        let dmy = format!("{d:02}{sign}{m:02}{sign}{y}");
        let mdy = format!("{m:02}{sign}{d:02}{sign}{y}");
        prop_assert_eq!(read_date(&dmy, Some(Dmy)).ok(), Some(day), "{}", dmy);
        prop_assert_eq!(read_date(&mdy, Some(Mdy)).ok(), Some(day), "{}", mdy);
        let is_certain = d > 12 || d == m;
        prop_assert_eq!(read_date(&dmy, None).is_ok(), is_certain, "{}", dmy);
        prop_assert_eq!(read_date(&mdy, None).is_ok(), is_certain, "{}", mdy);
    }

    /// A day number is as many days after another as the days are apart.
    #[test]
    fn day_numbers_count_days(a in 18_264_i64..73_416, b in 18_264_i64..73_416) {
        let day = |number: i64| read_date(&number.to_string(), None).unwrap();
        prop_assert_eq!((day(b) - day(a)).num_days(), b - a);
    }

    /// A mark of a month is the first of its days, and of a quarter the first of its three months.
    #[test]
    fn a_mark_is_never_later_than_what_it_marks(year in 1950_i32..2100, month in 1_u32..13, day in 1_u32..29) {
        let date = NaiveDate::from_ymd_opt(year, month, day).unwrap();
        let of_month = read_month_or_date(&format!("{month:02}/{year}"), None).unwrap();
        let of_quarter = read_month_or_date(&format!("{}Q{year}", (month - 1) / 3 + 1), None).unwrap();
        prop_assert!(of_quarter <= of_month && of_month <= date);
        prop_assert!((date - of_month).num_days() < 31 && (date - of_quarter).num_days() < 92);
    }
}
