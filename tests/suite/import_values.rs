//! Values as people write them in seven languages: numbers, prices, lead times, weeks, dates, words of choice.
//!
//! What a text means is common practice, no source, where no other is named.

use chrono::NaiveDate;
use proptest::prelude::*;
use sparewright::import::value::{
    CalendarWeek, DateEvidence, DecimalSign, LeadTimeError, LeadTimeUnit, NumberError,
    NumberEvidence, PriceError, is_count_word, is_placeholder, is_total_word, plain_number,
    read_condition, read_date, read_flag, read_lead_time, read_month_or_date, read_number,
    read_outcome, read_price, read_reason, read_way_kind, span_turned_into_date,
};
use sparewright::record::{
    ApprovalOutcome, Condition, DateOrder, LeadUnit, OtherWayKind, UsageReason,
};

const POINT: Option<DecimalSign> = Some(DecimalSign::Point);
const COMMA: Option<DecimalSign> = Some(DecimalSign::Comma);

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * b.abs().max(1.0)
}

#[test]
fn numbers_mean_what_their_own_signs_prove() {
    for (text, expected) in [
        ("0", 0.0),
        ("7", 7.0),
        ("007", 7.0),
        ("25.4", 25.4),
        ("25,4", 25.4),
        (".5", 0.5),
        (",5", 0.5),
        ("1.234.567", 1_234_567.0),
        ("1,234,567", 1_234_567.0),
        ("1.234,56", 1_234.56),
        ("1,234.56", 1_234.56),
        ("12 345,6", 12_345.6),
        ("12\u{a0}345,6", 12_345.6),
        ("12\u{202f}345", 12_345.0),
        ("12'345.60", 12_345.6),
        ("12’345", 12_345.0),
        ("0,125", 0.125),
        ("0.125", 0.125),
        ("1250,000", 1_250.0),
        ("1250.000", 1_250.0),
        ("-3", -3.0),
        ("−3,5", -3.5),
        ("–3", -3.0),
        ("- 3", -3.0),
        ("3-", -3.0),
        ("(3.5)", -3.5),
        ("+4", 4.0),
        (" 12 ", 12.0),
    ] {
        let read = read_number(text, None).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert!(
            close(read, expected),
            "{text}: {read} instead of {expected}"
        );
    }
}

#[test]
fn one_group_of_three_is_what_its_column_proves() {
    for (text, as_point, as_comma) in [
        ("1.250", 1.25, 1_250.0),
        ("1,250", 1_250.0, 1.25),
        ("12.500", 12.5, 12_500.0),
        ("999,001", 999_001.0, 999.001),
        ("-1.250", -1.25, -1_250.0),
    ] {
        assert!(
            close(read_number(text, POINT).unwrap(), as_point),
            "{text} with points"
        );
        assert!(
            close(read_number(text, COMMA).unwrap(), as_comma),
            "{text} with commas"
        );
        assert!(
            matches!(read_number(text, None), Err(NumberError::Ambiguous { .. })),
            "{text} alone"
        );
    }
}

#[test]
fn what_is_no_number_is_refused_and_never_cut_to_one() {
    for text in [
        "",
        "-",
        "+",
        ".",
        ",",
        "abc",
        "1a",
        "12x",
        "1.2.3",
        "1,2,3",
        "1 2",
        "12 34",
        "1'23",
        "--3",
        "-3-",
        "1e5",
        "NaN",
        "inf",
        "0x10",
        "12 345 6",
        "1..2",
        "½",
        "1.234,567.8",
        "()",
    ] {
        for column in [None, POINT, COMMA] {
            let read = read_number(text, column);
            assert!(read.is_err(), "`{text}` read as {read:?}");
        }
    }
}

#[test]
fn columns_prove_their_sign_by_every_telling_cell() {
    for (cells, expected) in [
        (&["1.5", "2"][..], POINT),
        (&["1,5", "2"], COMMA),
        (&["1.250", "2"], None),
        (&["1.250", "2.5"], POINT),
        (&["1.250", "2,5"], COMMA),
        (&["1.234.567"], COMMA),
        (&["1,234,567"], POINT),
        (&["0,125"], COMMA),
        (&["1250,000"], COMMA),
        (&["1.5", "1,5"], None),
        (&["12.03.2026"], None),
        (&["6305-2RS", "n/a", ""], None),
        (&["12,50 EUR"], COMMA),
        (&["€ 12.50"], POINT),
    ] {
        let mut evidence = NumberEvidence::default();
        cells.iter().for_each(|cell| evidence.add(cell));
        assert_eq!(evidence.sign(), expected, "{cells:?}");
    }
}

#[test]
fn prices_name_currency_and_units_before_or_behind() {
    for (text, amount, currency, per) in [
        ("12.50", 12.5, None, None),
        ("12,50 €", 12.5, Some("EUR"), None),
        ("€12.50", 12.5, Some("EUR"), None),
        ("EUR 12,50", 12.5, Some("EUR"), None),
        ("12,50 EUR/100", 12.5, Some("EUR"), Some(100)),
        ("850 EUR/1000", 850.0, Some("EUR"), Some(1000)),
        ("850 € per 1000 pcs", 850.0, Some("EUR"), Some(1000)),
        ("12,50 / 100 St.", 12.5, None, Some(100)),
        ("12,50 pro Stk.", 12.5, None, None),
        ("12,50 € je Stück", 12.5, Some("EUR"), None),
        ("12.50 $ each", 12.5, Some("USD"), None),
        ("US$ 12.50", 12.5, Some("USD"), None),
        ("£12.50", 12.5, Some("GBP"), None),
        ("12,50 zł/szt", 12.5, Some("PLN"), None),
        ("12,50 zł za 100 szt", 12.5, Some("PLN"), Some(100)),
        ("CHF 12.50", 12.5, Some("CHF"), None),
        ("R$ 12,50", 12.5, Some("BRL"), None),
        ("12,50 € par 100", 12.5, Some("EUR"), Some(100)),
        ("12,50 € por unidad", 12.5, Some("EUR"), None),
        ("12,50 € par pièce", 12.5, Some("EUR"), None),
        ("12,50 € per pezzo", 12.5, Some("EUR"), None),
        ("R$ 12,50 por peça", 12.5, Some("BRL"), None),
        ("1.234,50 €", 1_234.5, Some("EUR"), None),
        ("1 234,50 €", 1_234.5, Some("EUR"), None),
        ("12,-", 12.0, None, None),
        ("12,-- €", 12.0, Some("EUR"), None),
        ("-3,50 €", -3.5, Some("EUR"), None),
    ] {
        let read = read_price(text, None);
        let read = read.unwrap_or_else(|error| panic!("{text}: {error}"));
        assert!(close(read.amount, amount), "{text}: {read:?}");
        let code = read.currency.map(|currency| currency.code().to_owned());
        assert_eq!(code.as_deref(), currency, "{text}");
        assert_eq!(read.per, per, "{text}");
    }
}

#[test]
fn a_price_on_request_is_known_in_words_and_is_no_zero() {
    for text in [
        "on request",
        "auf Anfrage",
        "sur demande",
        "su richiesta",
        "na zapytanie",
    ] {
        assert_eq!(read_price(text, None), Err(PriceError::OnRequest), "{text}");
    }
    for text in [
        "",
        "cheap",
        "EUR",
        "12 EUR 13 USD",
        "12 EUR USD",
        "12 EUR/100/1000",
    ] {
        assert!(read_price(text, None).is_err(), "{text}");
    }
}

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

#[test]
fn weeks_of_the_year_are_those_of_iso_8601() {
    // Fridays by `date.fromisocalendar(year, week, 5)` of Python's standard library; 2026 has 53 weeks, 2025 has 52.
    for (text, listed, expected) in [
        ("week 1/2026", None, Some("2026-01-02")),
        ("KW 53/2026", None, Some("2027-01-01")),
        ("KW 53/2025", None, None),
        ("2026-W01", None, Some("2026-01-02")),
        ("KW 1", Some("2026-12-20"), Some("2027-01-08")),
        ("KW 10", None, None),
    ] {
        let listed = listed.map(|listed: &str| listed.parse().unwrap());
        let day = CalendarWeek::read(text).and_then(|week| week.last_workday(listed));
        assert_eq!(
            day.map(|day| day.to_string()).as_deref(),
            expected,
            "{text}"
        );
    }
}

/// Names of the twelve months by language, as Unicode CLDR has them (format form), from memory.
const MONTHS: [(&str, [&str; 12]); 7] = [
    (
        "en",
        [
            "January",
            "February",
            "March",
            "April",
            "May",
            "June",
            "July",
            "August",
            "September",
            "October",
            "November",
            "December",
        ],
    ),
    (
        "de",
        [
            "Januar",
            "Februar",
            "März",
            "April",
            "Mai",
            "Juni",
            "Juli",
            "August",
            "September",
            "Oktober",
            "November",
            "Dezember",
        ],
    ),
    (
        "fr",
        [
            "janvier",
            "février",
            "mars",
            "avril",
            "mai",
            "juin",
            "juillet",
            "août",
            "septembre",
            "octobre",
            "novembre",
            "décembre",
        ],
    ),
    (
        "es",
        [
            "enero",
            "febrero",
            "marzo",
            "abril",
            "mayo",
            "junio",
            "julio",
            "agosto",
            "septiembre",
            "octubre",
            "noviembre",
            "diciembre",
        ],
    ),
    (
        "it",
        [
            "gennaio",
            "febbraio",
            "marzo",
            "aprile",
            "maggio",
            "giugno",
            "luglio",
            "agosto",
            "settembre",
            "ottobre",
            "novembre",
            "dicembre",
        ],
    ),
    (
        "pl",
        [
            "stycznia",
            "lutego",
            "marca",
            "kwietnia",
            "maja",
            "czerwca",
            "lipca",
            "sierpnia",
            "września",
            "października",
            "listopada",
            "grudnia",
        ],
    ),
    (
        "pt",
        [
            "janeiro",
            "fevereiro",
            "março",
            "abril",
            "maio",
            "junho",
            "julho",
            "agosto",
            "setembro",
            "outubro",
            "novembro",
            "dezembro",
        ],
    ),
];

#[test]
fn dates_with_the_name_of_a_month_are_read_in_seven_languages() {
    for (language, names) in MONTHS {
        for (at, name) in names.into_iter().enumerate() {
            let expected = NaiveDate::from_ymd_opt(2026, at as u32 + 1, 9);
            for text in [
                format!("9 {name} 2026"),
                format!("9. {name} 2026"),
                format!("9-{name}-26"),
                format!("{} {}", name.to_uppercase(), "9, 2026"),
                format!("9 de {name} de 2026"),
            ] {
                assert_eq!(read_date(&text, None).ok(), expected, "{language}: {text}");
            }
            // A month by itself is no day.
            assert!(
                read_date(&format!("{name} 2026"), None).is_err(),
                "{language}: {name}"
            );
        }
    }
}

#[test]
fn short_names_of_months_are_read_where_they_are_unmistakable() {
    for (short, month) in [
        ("Jan", 1),
        ("Feb", 2),
        ("Fév", 2),
        ("Mar", 3),
        ("Mär", 3),
        ("Mrz", 3),
        ("Apr", 4),
        ("Avr", 4),
        ("Abr", 4),
        ("Kwi", 4),
        ("May", 5),
        ("Mai", 5),
        ("Maj", 5),
        ("Jun", 6),
        ("Cze", 6),
        ("Jul", 7),
        ("Juil", 7),
        ("Lip", 7),
        ("Lug", 7),
        ("Aug", 8),
        ("Ago", 8),
        ("Aoû", 8),
        ("Sie", 8),
        ("Sep", 9),
        ("Sept", 9),
        ("Set", 9),
        ("Wrz", 9),
        ("Oct", 10),
        ("Okt", 10),
        ("Ott", 10),
        ("Paź", 10),
        ("Nov", 11),
        ("Lis", 11),
        ("Dec", 12),
        ("Dez", 12),
        ("Dic", 12),
        ("Déc", 12),
        ("Gru", 12),
        ("Sty", 1),
        ("Ene", 1),
        ("Gen", 1),
        ("Lut", 2),
    ] {
        let expected = NaiveDate::from_ymd_opt(2026, month, 9);
        assert_eq!(
            read_date(&format!("9 {short} 2026"), None).ok(),
            expected,
            "{short}"
        );
    }
    // `jui` is June or July in French.
    for short in ["jui", "ju", "ma", "xyz", "j"] {
        assert!(
            read_date(&format!("9 {short} 2026"), None).is_err(),
            "{short}"
        );
    }
}

#[test]
fn days_that_are_none_are_refused_and_never_moved() {
    for text in [
        "30.02.2026",
        "29.02.2026",
        "31.04.2026",
        "31/06/2026",
        "2026-02-30",
        "00.01.2026",
        "2026-00-10",
        "32 March 2026",
        "9 March 26 27",
        "March",
        "9",
        "9/3",
        "09.03.1949",
        "09.03.2101",
        "20261340",
    ] {
        assert!(read_date(text, Some(DateOrder::Dmy)).is_err(), "{text}");
    }
    // 2024 is a leap year.
    assert!(read_date("29.02.2024", None).is_ok());
}

#[test]
fn columns_of_dates_prove_their_order_only_by_telling_days() {
    for (cells, settings, order, proved) in [
        (
            &["25/03/2026"][..],
            DateOrder::Mdy,
            Some(DateOrder::Dmy),
            Some(DateOrder::Dmy),
        ),
        (
            &["03/25/2026"],
            DateOrder::Dmy,
            Some(DateOrder::Mdy),
            Some(DateOrder::Mdy),
        ),
        (&["03/04/2026"], DateOrder::Dmy, Some(DateOrder::Dmy), None),
        (&["03/04/2026"], DateOrder::Mdy, Some(DateOrder::Mdy), None),
        (&["25/03/2026", "03/25/2026"], DateOrder::Dmy, None, None),
        (&["2026-03-25"], DateOrder::Dmy, Some(DateOrder::Dmy), None),
    ] {
        let mut evidence = DateEvidence::default();
        cells.iter().for_each(|cell| evidence.add(cell));
        assert_eq!(evidence.order(settings), order, "{cells:?}");
        assert_eq!(evidence.proved(), proved, "{cells:?}");
    }
}

#[test]
fn cure_dates_count_from_the_first_day_of_month_or_quarter() {
    for (text, expected) in [
        ("1Q18", Some("2018-01-01")),
        ("2Q18", Some("2018-04-01")),
        ("3q2018", Some("2018-07-01")),
        ("4Q/18", Some("2018-10-01")),
        ("03/2018", Some("2018-03-01")),
        ("3-2018", Some("2018-03-01")),
        ("2018-03", Some("2018-03-01")),
        ("2018.03", Some("2018-03-01")),
        ("12.03.2018", Some("2018-03-12")),
        ("0Q18", None),
        ("5Q18", None),
        ("00/2018", None),
        ("13/2018", None),
        ("Q18", None),
    ] {
        let read = read_month_or_date(text, None)
            .ok()
            .map(|date| date.to_string());
        assert_eq!(read.as_deref(), expected, "{text}");
    }
}

#[test]
fn yes_and_no_are_known_in_seven_languages_and_nothing_is_guessed() {
    for (yes, no) in [
        ("yes", "no"),
        ("ja", "nein"),
        ("oui", "non"),
        ("sí", "no"),
        ("sì", "no"),
        ("tak", "nie"),
        ("sim", "não"),
        ("TRUE", "FALSE"),
        ("✓", "✗"),
        ("1", "0"),
    ] {
        assert_eq!(read_flag(yes), Some(true), "{yes}");
        assert_eq!(read_flag(no), Some(false), "{no}");
    }
    for text in ["", "maybe", "2", "yes?no", "pending", "-"] {
        assert_eq!(read_flag(text), None, "{text}");
    }
}

#[test]
fn conditions_are_known_in_seven_languages() {
    use Condition::{New, Reconditioned, Used};
    for (new, reconditioned, used) in [
        ("new", "reconditioned", "used"),
        ("neu", "aufgearbeitet", "gebraucht"),
        ("neuf", "reconditionné", "d'occasion"),
        ("nuevo", "reacondicionado", "usado"),
        ("nuovo", "ricondizionato", "usato"),
        ("nowy", "regenerowany", "używany"),
        ("novo", "recondicionado", "usado"),
    ] {
        assert_eq!(read_condition(new), Some(New), "{new}");
        assert_eq!(
            read_condition(reconditioned),
            Some(Reconditioned),
            "{reconditioned}"
        );
        assert_eq!(read_condition(used), Some(Used), "{used}");
    }
    for text in ["", "as new", "fair", "nearly new", "B-stock"] {
        assert_eq!(read_condition(text), None, "{text}");
    }
}

#[test]
fn outcomes_of_trials_are_known_in_seven_languages() {
    use ApprovalOutcome::{Approved, DidNotFit};
    for (approved, refused) in [
        ("approved", "did not fit"),
        ("freigegeben", "passt nicht"),
        ("approuvé", "ne convient pas"),
        ("aprobado", "no encaja"),
        ("approvato", "non va bene"),
        ("zatwierdzony", "nie pasuje"),
        ("aprovado", "não serve"),
    ] {
        assert_eq!(read_outcome(approved), Some(Approved), "{approved}");
        assert_eq!(read_outcome(refused), Some(DidNotFit), "{refused}");
        assert_eq!(
            read_outcome(&format!("tried, {refused}")),
            Some(DidNotFit),
            "{refused}"
        );
        // Consent is the whole text: with words around it, it may be taken back by them.
        assert_eq!(
            read_outcome(&format!("{approved} perhaps")),
            None,
            "{approved}"
        );
    }
}

#[test]
fn reasons_of_usages_are_known_in_seven_languages() {
    use UsageReason::{Failure, Planned, Rebuild};
    for (failure, planned, rebuild) in [
        ("breakdown", "preventive maintenance", "rebuild"),
        ("Ausfall", "Wartung", "Überholung"),
        ("panne", "entretien", "révision"),
        ("avería", "mantenimiento programado", "revisión"),
        ("guasto", "manutenzione", "revisione"),
        ("awaria", "przegląd", "remont"),
        ("avaria", "manutenção", "revisão"),
    ] {
        assert_eq!(read_reason(failure), Some(Failure), "{failure}");
        assert_eq!(read_reason(planned), Some(Planned), "{planned}");
        assert_eq!(read_reason(rebuild), Some(Rebuild), "{rebuild}");
    }
    assert_eq!(read_reason("unplanned"), Some(Failure));
    assert_eq!(read_reason("who knows"), None);
}

#[test]
fn ways_other_than_buying_are_known_in_seven_languages() {
    use OtherWayKind::{MakeInHouse, OtherBin, OtherMachine, RepairOutside, ReworkInHouse};
    for (make, rework, repair, bin, machine) in [
        (
            "make in house",
            "rework",
            "repair outside",
            "other bin",
            "other machine",
        ),
        (
            "Eigenfertigung",
            "Nacharbeit",
            "Reparatur",
            "anderes Lager",
            "andere Maschine",
        ),
        (
            "fabrication",
            "retouche",
            "réparation",
            "autre magasin",
            "autre machine",
        ),
        (
            "fabricar",
            "retrabajo",
            "reparación",
            "otro almacén",
            "otra máquina",
        ),
        (
            "produzione interna",
            "rilavorazione",
            "riparazione",
            "altro magazzino",
            "altra macchina",
        ),
        (
            "wykonanie",
            "przeróbka",
            "naprawa",
            "inny magazyn",
            "inna maszyna",
        ),
        (
            "fabrico",
            "retrabalho",
            "reparação",
            "outro armazém",
            "outra máquina",
        ),
    ] {
        for (text, kind) in [
            (make, MakeInHouse),
            (rework, ReworkInHouse),
            (repair, RepairOutside),
            (bin, OtherBin),
            (machine, OtherMachine),
        ] {
            assert_eq!(read_way_kind(text), Some(kind), "{text}");
        }
    }
    assert_eq!(read_way_kind("magic"), None);
}

#[test]
fn rows_of_totals_are_known_in_seven_languages_and_parts_are_none() {
    for text in [
        "Total",
        "Subtotal",
        "Grand total",
        "Sum:",
        "Summe",
        "Zwischensumme",
        "Gesamtsumme",
        "Totaux",
        "Sous-total",
        "Suma",
        "Totale",
        "Somma",
        "Razem",
        "Podsuma",
        "Soma",
        "Σ",
        "TOTAL EUR",
    ] {
        assert!(is_total_word(text), "{text}");
    }
    for text in [
        "",
        "6305",
        "Totaliser spring",
        "Seal 40x62",
        "Gasket",
        "Sommer",
        "Pump",
        "Ring",
        "Zahnrad",
    ] {
        assert!(!is_total_word(text), "{text}");
    }
    for text in [
        "Number of items",
        "Anzahl",
        "Nombre d'articles",
        "Liczba pozycji",
    ] {
        assert!(is_count_word(text), "{text}");
    }
    for text in ["6305", "Counter bore", "Ring"] {
        assert!(!is_count_word(text), "{text}");
    }
}

#[test]
fn placeholders_say_nothing_and_values_are_never_taken_for_one() {
    for text in [
        "-",
        "--",
        "—",
        "?",
        "...",
        "n/a",
        "N/A",
        "n.a.",
        "k.A.",
        "keine",
        "unbekannt",
        "inconnu",
        "brak",
        "n.d.",
        "null",
    ] {
        assert!(is_placeholder(text), "{text}");
    }
    for text in [
        "0", "1", "x", "✓", "✗", "NBR", "NU205", "NA4905", "no", "nein", "in stock", "black", "K",
        "\"",
    ] {
        assert!(!is_placeholder(text), "{text}");
    }
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
