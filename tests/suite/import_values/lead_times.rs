//! Lead times in words and spans.

use chrono::NaiveDate;
use sparewright::import::value::{
    LeadTimeError, LeadTimeUnit, read_lead_time, span_turned_into_date,
};
use sparewright::record::{DateOrder, LeadUnit};

fn lead_time(text: &str) -> String {
    read_lead_time(text, None, LeadUnit::Workdays, Some(DateOrder::Dmy))
        .map_or_else(|error| format!("error: {error}"), |read| read.to_string())
}

#[test]
fn lead_times_are_read_in_seven_languages() {
    for (language, texts) in [
        (
            "en",
            [
                ("6 weeks", "42 days"),
                ("2 months", "60 days"),
                ("3 working days", "3 working days"),
                ("48 hours", "48 h"),
                ("ex stock", "in stock"),
                ("on request", "on request"),
            ],
        ),
        (
            "de",
            [
                ("6 Wochen", "42 days"),
                ("2 Monate", "60 days"),
                ("3 Werktage", "3 working days"),
                ("48 Std.", "48 h"),
                ("sofort lieferbar", "in stock"),
                ("auf Anfrage", "on request"),
            ],
        ),
        (
            "fr",
            [
                ("6 semaines", "42 days"),
                ("2 mois", "60 days"),
                ("3 jours ouvrés", "3 working days"),
                ("48 heures", "48 h"),
                ("sur stock", "in stock"),
                ("à la demande", "on request"),
            ],
        ),
        (
            "es",
            [
                ("6 semanas", "42 days"),
                ("2 meses", "60 days"),
                ("3 días hábiles", "3 working days"),
                ("48 horas", "48 h"),
                ("entrega inmediata", "in stock"),
                ("a consultar", "on request"),
            ],
        ),
        (
            "it",
            [
                ("6 settimane", "42 days"),
                ("2 mesi", "60 days"),
                ("3 giorni lavorativi", "3 working days"),
                ("48 ore", "48 h"),
                ("pronta consegna", "in stock"),
                ("su richiesta", "on request"),
            ],
        ),
        (
            "pl",
            [
                ("6 tygodni", "42 days"),
                ("2 miesiące", "60 days"),
                ("3 dni robocze", "3 working days"),
                ("48 godzin", "48 h"),
                ("na stanie", "in stock"),
                ("na zapytanie", "on request"),
            ],
        ),
        (
            "pt",
            [
                ("6 semanas", "42 days"),
                ("2 meses", "60 days"),
                ("3 dias úteis", "3 working days"),
                ("48 horas", "48 h"),
                ("pronta entrega", "in stock"),
                ("sob consulta", "on request"),
            ],
        ),
    ] {
        for (text, expected) in texts {
            assert_eq!(lead_time(text), expected, "{language}: {text}");
        }
    }
}

#[test]
fn spans_of_lead_times_are_read_with_any_dash_and_word() {
    for text in [
        "6-8 weeks",
        "6 - 8 weeks",
        "6–8 weeks",
        "6—8 weeks",
        "6 to 8 weeks",
        "6/8 weeks",
        "6..8 weeks",
        "6 bis 8 Wochen",
        "6 à 8 semaines",
        "6 a 8 semanas",
        "6 do 8 tygodni",
        "6 hasta 8 semanas",
        "6 até 8 semanas",
        "ca. 6-8 weeks",
        "approx. 6-8 weeks ARO",
        "Lieferzeit 6-8 Wochen",
        "okolo 6-8 tygodni",
    ] {
        assert_eq!(lead_time(text), "42 to 56 days", "{text}");
    }
}

#[test]
fn the_day_after_is_a_working_day_and_24_hours_are_hours() {
    for (text, expected) in [
        ("next day", "1 working days"),
        ("overnight", "1 working days"),
        ("nächster Tag", "1 working days"),
        ("24h", "24 h"),
        ("24 h", "24 h"),
        ("24 hours", "24 h"),
    ] {
        assert_eq!(lead_time(text), expected, "{text}");
    }
}

#[test]
fn a_plain_day_counts_what_the_settings_say_and_a_named_one_what_it_names() {
    for (text, settings, expected) in [
        ("5 days", LeadUnit::Workdays, "5 working days"),
        ("5 days", LeadUnit::Days, "5 days"),
        ("5 working days", LeadUnit::Days, "5 working days"),
        ("5 calendar days", LeadUnit::Workdays, "5 days"),
        ("5 Kalendertage", LeadUnit::Workdays, "5 days"),
        ("5 jours calendaires", LeadUnit::Workdays, "5 days"),
        ("5 días naturales", LeadUnit::Workdays, "5 days"),
        ("5 dni kalendarzowych", LeadUnit::Workdays, "5 days"),
        ("5 business days", LeadUnit::Days, "5 working days"),
    ] {
        let read = read_lead_time(text, None, settings, None).unwrap();
        assert_eq!(read.to_string(), expected, "{text}");
    }
}

#[test]
fn lead_times_that_could_be_anything_are_refused() {
    for text in [
        "",
        "soon",
        "6",
        "6-8",
        "weeks",
        "-3 days",
        "8-6 weeks",
        "6 weeks 2 days",
        "6 fortnights",
        "4000 days",
        "600 weeks",
        "about weeks",
        "6 weeks?!x",
    ] {
        assert!(
            lead_time(text).starts_with("error"),
            "`{text}`: {}",
            lead_time(text)
        );
    }
    let unit = Some(LeadTimeUnit::Weeks);
    let read = |text| read_lead_time(text, unit, LeadUnit::Workdays, None);
    assert_eq!(read("6-8").unwrap().to_string(), "42 to 56 days");
    assert_eq!(read("6").unwrap().to_string(), "42 days");
    // The cell's own unit holds before that of the header.
    assert_eq!(read("6 days").unwrap().to_string(), "6 working days");
    assert!(matches!(
        read_lead_time("6", None, LeadUnit::Days, None),
        Err(LeadTimeError::NoUnit { .. })
    ));
}

#[test]
fn a_span_that_became_a_date_is_named_with_the_smaller_figure_first() {
    let day = |month, day| NaiveDate::from_ymd_opt(2026, month, day).unwrap();
    for (date, order, are_spans, expected) in [
        (day(8, 6), DateOrder::Dmy, false, Some("6-8")),
        (day(6, 8), DateOrder::Mdy, false, Some("6-8")),
        (day(3, 2), DateOrder::Dmy, true, Some("2-3")),
        (day(10, 14), DateOrder::Mdy, true, Some("10-14")),
        (day(10, 14), DateOrder::Mdy, false, None),
    ] {
        let found = span_turned_into_date(date, order, are_spans);
        let likely = found.map(|error| match error {
            LeadTimeError::TurnedIntoDate { likely, .. } => likely,
            other => panic!("{other}"),
        });
        assert_eq!(likely.as_deref(), expected, "{date}");
    }
}
