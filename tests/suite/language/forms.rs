//! How a language writes figures, days and moments: against a table by hand, and back again.

use chrono::{Datelike, NaiveDate, NaiveDateTime};
use proptest::prelude::*;
use sparewright::import::value::{DecimalSign, read_number};
use sparewright::language::{Language, Translator};

fn german() -> Language {
    Language::of_code("de").unwrap()
}

fn moment(text: &str) -> NaiveDateTime {
    NaiveDateTime::parse_from_str(text, "%Y-%m-%dT%H:%M").unwrap()
}

#[test]
fn figures_have_the_signs_of_din_1333() {
    // DIN 1333 and DIN 5008: a comma before decimals, groups of three by a point.
    for (english, german_form) in [
        ("0", "0"),
        ("7", "7"),
        ("0.5", "0,5"),
        ("1,234", "1.234"),
        ("1,234,567.89", "1.234.567,89"),
        ("-1,234.5", "-1.234,5"),
        ("12.0 %", "12,0 %"),
        ("1e-6", "1e-6"),
        ("", ""),
    ] {
        assert_eq!(german().number(english), german_form, "{english}");
        assert_eq!(Language::ENGLISH.number(english), english);
    }
    let signs = |language: Language| (language.decimal_sign(), language.group_sign());
    assert_eq!(signs(german()), (',', '.'));
    assert_eq!(signs(Language::ENGLISH), ('.', ','));
}

#[test]
fn a_share_alone_has_the_sign_of_its_language_and_other_figures_stay() {
    for (english, german_form) in [
        ("0.1 %", "0,1 %"),
        ("12 %", "12 %"),
        ("1,234.5 %", "1.234,5 %"),
        ("under 0.1 %", "unter 0,1 %"),
        ("over 99.9 %", "über 99,9 %"),
        // What a shop wrote is no share of ours.
        ("12.5", "12.5"),
        ("1-2 %", "1-2 %"),
        ("2026-03-09", "09.03.2026"),
        (" %", " %"),
    ] {
        assert_eq!(german().text(english), german_form, "{english}");
        assert_eq!(Language::ENGLISH.text(english), english);
    }
}

#[test]
fn days_and_moments_have_their_form_and_day_of_the_week() {
    // 9 March 2026 is a Monday, 29 February 2028 a Tuesday, 1 January 2000 was a Saturday.
    for (at, english, german_form) in [
        (
            "2026-03-09T07:30",
            "Mon 2026-03-09 07:30",
            "Mo 09.03.2026 07:30",
        ),
        (
            "2028-02-29T23:59",
            "Tue 2028-02-29 23:59",
            "Di 29.02.2028 23:59",
        ),
        (
            "2000-01-01T00:00",
            "Sat 2000-01-01 00:00",
            "Sa 01.01.2000 00:00",
        ),
    ] {
        assert_eq!(Language::ENGLISH.moment_on_weekday(moment(at)), english);
        assert_eq!(german().moment_on_weekday(moment(at)), german_form);
        assert_eq!(Language::ENGLISH.moment(moment(at)), english[4..]);
        assert_eq!(german().moment(moment(at)), german_form[3..]);
        assert_eq!(german().date(moment(at).date()), german_form[3..13]);
    }
    let short = german().short_moment(moment("2026-03-09T07:30"));
    assert!(
        short.contains("09.03.") && short.contains("07:30") && !short.contains("2026"),
        "{short}"
    );
}

#[test]
fn languages_are_found_by_code_and_by_what_a_browser_asks_for() {
    let codes: Vec<&str> = Language::all().map(Language::code).collect();
    assert_eq!(codes[0], "en");
    assert!(codes.contains(&"de"));
    for language in Language::all() {
        assert_eq!(Language::of_code(language.code()), Some(language));
        assert!(!language.name().is_empty());
    }
    // A region and capitals are no other language.
    for (code, language) in [("EN", "en"), ("de-AT", "de"), ("de_CH", "de"), ("DE", "de")] {
        assert_eq!(
            Language::of_code(code).map(Language::code),
            Some(language),
            "{code}"
        );
    }
    for none in ["", "xx", "german", "d e", "en\0"] {
        assert_eq!(Language::of_code(none), None, "{none:?}");
    }
    // RFC 9110, 12.5.4: by weight, a more special tag stands for its language, weight 0 is "not acceptable".
    for (header, code) in [
        ("de", "de"),
        ("de-CH", "de"),
        ("fr;q=0.9, de;q=0.8, en;q=0.7", "de"),
        ("en;q=0.8, de;q=0.9", "de"),
        ("de;q=0.1, en", "en"),
        ("de;q=0, en;q=0.1", "en"),
        ("ja, ko", "en"),
        ("", "en"),
    ] {
        assert_eq!(Language::accepted(header).code(), code, "{header}");
    }
}

#[test]
fn english_is_said_as_it_stands() {
    let mut english = Translator::new(Language::ENGLISH);
    for text in ["Order now", "2 of 7", "no message at all", "", "§ 9"] {
        assert_eq!(english.say(text), text);
        assert_eq!(Language::ENGLISH.text(text), text);
    }
    assert!(english.missing().is_empty());
}

#[test]
fn a_text_without_a_message_stays_english_and_is_remembered() {
    let mut words = Translator::new(german());
    for text in ["xyzzy plugh", "Nobody wrote this sentence.", "軸受"] {
        assert_eq!(words.say(text), text);
    }
    assert_eq!(words.missing().len(), 3);
    let known = words.remembered();
    words.say("xyzzy plugh");
    assert_eq!(
        (words.missing().len(), words.remembered()),
        (3, known),
        "said twice is missing once"
    );
    assert_ne!(words.say("Order now"), "Order now");
    assert_eq!(words.missing().len(), 3);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn a_figure_reads_back_in_the_signs_of_its_language(cents in -1_000_000_000_i64..1_000_000_000) {
        let plain = format!("{:.2}", cents as f64 / 100.0);
        let german_form = german().number(&plain);
        let read = read_number(&german_form, Some(DecimalSign::Comma)).unwrap();
        prop_assert!((read - cents as f64 / 100.0).abs() < 1e-9, "{german_form}");
        prop_assert_eq!(german_form.replace(',', "."), plain);
    }

    #[test]
    fn a_day_reads_back_from_its_form(days in 0_i64..80_000) {
        let day = NaiveDate::from_ymd_opt(1950, 1, 1).unwrap() + chrono::Duration::days(days);
        let said = german().date(day);
        let back = NaiveDate::parse_from_str(&said, "%d.%m.%Y").unwrap();
        prop_assert_eq!(back, day);
        prop_assert_eq!(Language::ENGLISH.date(day), day.to_string());
        // The same day of the week in both languages, by its place in the week.
        let at = day.and_hms_opt(12, 0, 0).unwrap();
        let of = |language: Language| language.moment_on_weekday(at).split(' ').next().unwrap().to_owned();
        let week = ["Mo", "Di", "Mi", "Do", "Fr", "Sa", "So"];
        prop_assert_eq!(of(german()), week[day.weekday().num_days_from_monday() as usize]);
        prop_assert_eq!(of(Language::ENGLISH), day.weekday().to_string());
    }

    #[test]
    fn any_text_is_said_without_a_panic_and_the_same_twice(text in "[ -~äöüß„“–]{0,60}") {
        let mut words = Translator::new(german());
        let once = words.say(&text);
        prop_assert_eq!(words.say(&text), once.clone());
        prop_assert_eq!(german().text(&text), once);
    }

    #[test]
    fn digits_are_never_lost(figures in prop::collection::vec(0_u32..100_000, 1..4)) {
        let text = figures.iter().map(ToString::to_string).collect::<Vec<_>>().join(" of ");
        let said = german().text(&text);
        let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
        prop_assert_eq!(digits(&said), digits(&text), "{}", said);
    }
}
