//! Values as people write them in seven languages: numbers, prices, lead times, weeks, dates, words of choice.
//!
//! What a text means is common practice, no source, where no other is named.

mod dates;
mod days_and_orders;
mod figures;
mod lead_time_bounds;
mod lead_times;
mod prices;
mod reasons;
mod words;

use chrono::NaiveDate;
use proptest::prelude::*;
use sparewright::import::value::{
    CalendarWeek, DecimalSign, is_count_word, is_placeholder, is_total_word, plain_number,
    read_condition, read_date, read_flag, read_lead_time, read_month_or_date, read_number,
    read_outcome, read_price, read_reason, read_way_kind,
};
use sparewright::record::{DateOrder, LeadUnit};

const POINT: Option<DecimalSign> = Some(DecimalSign::Point);

const COMMA: Option<DecimalSign> = Some(DecimalSign::Comma);

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * b.abs().max(1.0)
}

proptest! {
    #[test]
    fn a_plain_number_is_what_the_reader_of_numbers_reads(whole in 0_u64..100_000_000, decimals in "[0-9]{0,6}") {
        let text = if decimals.is_empty() { whole.to_string() } else { format!("{whole}.{decimals}") };
        if let Some(plain) = plain_number(&text) {
            for column in [None, POINT, COMMA] {
                prop_assert_eq!(read_number(&text, column), Ok(plain), "{}", text);
            }
            prop_assert_eq!(Ok(plain), text.parse::<f64>());
        }
    }

    #[test]
    fn a_number_reads_back_with_either_sign_and_groups(cents in 0_i64..10_000_000_000) {
        let (whole, rest) = (cents / 100, cents % 100);
        let grouped = |sign: &str| {
            let digits = whole.to_string();
            let mut groups: Vec<&str> = digits.as_bytes().rchunks(3).map(|g| std::str::from_utf8(g).unwrap()).collect();
            groups.reverse();
            groups.join(sign)
        };
        let expected = cents as f64 / 100.0;
        for text in [
            format!("{}.{rest:02}", grouped(",")),
            format!("{},{rest:02}", grouped(".")),
            format!("{},{rest:02}", grouped(" ")),
            format!("{}.{rest:02}", grouped("'")),
        ] {
            let read = read_number(&text, None);
            prop_assert!(read.as_ref().is_ok_and(|read| close(*read, expected)), "{}: {:?}", text, read);
        }
    }

    #[test]
    fn a_day_reads_back_however_it_is_printed(days in 0_i64..50_000) {
        let day = NaiveDate::from_ymd_opt(1951, 1, 1).unwrap() + chrono::Duration::days(days);
        for form in ["%Y-%m-%d", "%Y/%m/%d", "%Y%m%d", "%d.%m.%Y", "%d %B %Y", "%B %d, %Y", "%Y-%m-%dT%H:%M"] {
            let text = day.and_time(chrono::NaiveTime::MIN).format(form).to_string();
            prop_assert_eq!(read_date(&text, None).ok(), Some(day), "{}", text);
        }
        for (form, order) in [("%d/%m/%Y", DateOrder::Dmy), ("%m/%d/%Y", DateOrder::Mdy)] {
            let text = day.format(form).to_string();
            prop_assert_eq!(read_date(&text, Some(order)).ok(), Some(day), "{}", text);
        }
    }

    #[test]
    fn any_text_gives_a_value_or_an_error_and_never_a_panic(text in ".{0,40}") {
        let _ = read_number(&text, None);
        let _ = read_price(&text, None);
        let _ = read_lead_time(&text, None, LeadUnit::Days, None);
        let _ = read_date(&text, None);
        let _ = read_month_or_date(&text, None);
        let _ = CalendarWeek::read(&text);
        let _ = (read_flag(&text), read_condition(&text), read_outcome(&text), read_reason(&text), read_way_kind(&text));
        let _ = (is_placeholder(&text), is_total_word(&text), is_count_word(&text));
    }
}
