//! Days, months and weeks.

use chrono::NaiveDate;
use sparewright::import::value::{CalendarWeek, DateEvidence, read_date, read_month_or_date};
use sparewright::record::DateOrder;

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
        ("Q2 2026", Some("2026-04-01")),
        ("Q2/26", Some("2026-04-01")),
        ("2026-Q2", Some("2026-04-01")),
        ("2026Q2", Some("2026-04-01")),
        ("2. Quartal 2026", Some("2026-04-01")),
        ("Q5 2026", None),
        ("Q2", None),
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
