//! Prices that are spans, credits or for so many units, and their messages.

use proptest::prelude::*;
use sparewright::import::value::{PriceError, currency_of_sign, read_price};

use super::{COMMA, POINT, close};

#[test]
fn signs_and_codes_name_their_currency_of_iso_4217() {
    // ISO 4217 codes; what the signs stand for in the countries of these shops: common practice, no source.
    for (word, code) in [
        ("€", Some("EUR")),
        ("EUR", Some("EUR")),
        ("eur", Some("EUR")),
        ("Euro", Some("EUR")),
        ("euros", Some("EUR")),
        ("$", Some("USD")),
        ("US$", Some("USD")),
        ("USD", Some("USD")),
        ("£", Some("GBP")),
        ("GBP", Some("GBP")),
        ("zł", Some("PLN")),
        ("zl", Some("PLN")),
        ("PLN", Some("PLN")),
        ("CHF", Some("CHF")),
        ("SFr.", Some("CHF")),
        ("Kč", Some("CZK")),
        ("kč", Some("CZK")),
        ("Kc", Some("CZK")),
        ("CZK", Some("CZK")),
        ("HUF", Some("HUF")),
        ("SEK", Some("SEK")),
        ("NOK", Some("NOK")),
        ("DKK", Some("DKK")),
        ("R$", Some("BRL")),
        ("r$", Some("BRL")),
        ("BRL", Some("BRL")),
        ("₹", Some("INR")),
        ("JPY", Some("JPY")),
        ("CAD", Some("CAD")),
        ("MXN", Some("MXN")),
        (" EUR ", Some("EUR")),
        ("EUR.", Some("EUR")),
        ("kr", None),
        ("XXX", None),
        ("pcs", None),
        ("%", None),
        ("", None),
    ] {
        let found = currency_of_sign(word).map(|currency| currency.code().to_owned());
        assert_eq!(found.as_deref(), code, "{word}");
    }
}

#[test]
fn prices_as_they_stand_in_lists_of_several_countries() {
    // SI brochure, 5.4.4: thin spaces may separate groups of three figures; the other forms are common practice, no source.
    for (text, amount, code) in [
        ("1.234,56 €", 1234.56, Some("EUR")),
        ("€ 1.234,56", 1234.56, Some("EUR")),
        ("1'234.50 CHF", 1234.5, Some("CHF")),
        ("CHF 1’234.50", 1234.5, Some("CHF")),
        ("12,-", 12.0, None),
        ("EUR 12.–", 12.0, Some("EUR")),
        ("12.-- EUR", 12.0, Some("EUR")),
        ("1 234,56", 1234.56, None),
        ("1\u{a0}234,56", 1234.56, None),
        ("1\u{202f}234,56", 1234.56, None),
        ("1\u{2009}234,56 €", 1234.56, Some("EUR")),
        // Once a price of 1 for 234.
        ("1\u{2009}234", 1234.0, None),
        ("12\u{2007}500 PLN", 12500.0, Some("PLN")),
    ] {
        let read = read_price(text, None).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert!(close(read.amount, amount), "{text}: {}", read.amount);
        let found = read.currency.map(|currency| currency.code().to_owned());
        assert_eq!((found.as_deref(), read.per), (code, None), "{text}");
    }
    // A bracket is a loss in accounts, and letters are no figures.
    for text in [
        "(12.50)",
        "(12,50) €",
        "12.5O",
        "1O.50",
        "l2.50",
        "12.50 €/VE",
    ] {
        let read = read_price(text, None);
        assert!(
            matches!(read, Err(PriceError::NotAPrice { .. })),
            "{text}: {read:?}"
        );
    }
}

#[test]
fn a_span_of_prices_is_none_of_them_and_never_a_price_for_so_many() {
    for text in [
        "12-14 EUR",
        "12 - 14 EUR",
        "12–14 €",
        "12.50-14.00 EUR",
        "12,50-14,00 €",
        "EUR 12,50 – 14,00",
        "12.50 EUR - 14.00 EUR",
        "12.50 EUR 14.00",
        "12,50 € 13,00",
        "12 EUR to 14 EUR",
        "from 12 EUR",
        "ab 12 EUR",
        "12.50/14.00 EUR",
    ] {
        let read = read_price(text, None);
        let expected = PriceError::NotAPrice {
            found: text.to_owned(),
        };
        assert_eq!(read, Err(expected), "{text}");
    }
    assert_eq!(
        read_price("12-14 EUR", None).unwrap_err().to_string(),
        "`12-14 EUR` is not a price; expected one such as `12.50 EUR` or `850 EUR/1000`"
    );
}

#[test]
fn a_credit_keeps_its_sign_and_a_dash_for_no_cents_is_none() {
    // A minus behind the figure is how accounts print a credit; a dash behind comma or point stands for no cents.
    for (text, amount) in [
        ("12.50-", Some(-12.5)),
        ("12,50- EUR", Some(-12.5)),
        ("EUR 12,50-", Some(-12.5)),
        ("-12.50", Some(-12.5)),
        ("−12,50 €", Some(-12.5)),
        ("€ -12.50", Some(-12.5)),
        ("EUR -0,50", Some(-0.5)),
        ("-.50", None),
        ("12,-", Some(12.0)),
        ("12.-", Some(12.0)),
        ("12,--", Some(12.0)),
        ("12.– CHF", Some(12.0)),
        ("CHF 12.--", Some(12.0)),
        ("12,-/100", Some(12.0)),
        ("-12.50-", None),
        ("--12.50", None),
    ] {
        let read = read_price(text, None).ok().map(|price| price.amount);
        match (read, amount) {
            (Some(read), Some(amount)) => assert!(close(read, amount), "{text}: {read}"),
            (read, amount) => assert_eq!(read, amount, "{text}"),
        }
    }
}

#[test]
fn the_column_decides_a_doubtful_price_and_both_readings_are_named() {
    for (text, column, amount) in [
        ("1.250 €", COMMA, 1_250.0),
        ("1.250 €", POINT, 1.25),
        ("EUR 1,250", POINT, 1_250.0),
        ("EUR 1,250", COMMA, 1.25),
        ("1.250,00 €", POINT, 1_250.0),
        ("1.250/100", COMMA, 1_250.0),
    ] {
        let read = read_price(text, column).unwrap();
        assert!(close(read.amount, amount), "{text}: {read:?}");
    }
    assert_eq!(
        read_price("1.250 €", None).unwrap_err().to_string(),
        "`1.250` is either 1.25 or 1250, and no other cell of the column decides; expected an unmistakable number"
    );
}

#[test]
fn words_for_a_price_on_request_are_known_in_any_case() {
    for text in [
        "on request",
        "ON REQUEST",
        "upon request",
        "P.O.A.",
        "POA",
        "price on application",
        "call",
        "TBA",
        "tbc",
        "a. A.",
        "Auf Anfrage",
        "Anfrage",
        "sur demande",
        "a consultar",
        "su richiesta",
        "a richiesta",
        "na zapytanie",
        "sob consulta",
        " on request ",
    ] {
        let read = read_price(text, None);
        assert_eq!(read, Err(PriceError::OnRequest), "{text}");
    }
    assert_eq!(PriceError::OnRequest.to_string(), "the price is on request");
    // A figure with such a word beside it is neither.
    for text in ["12 EUR on request", "call 12 EUR"] {
        assert!(
            matches!(read_price(text, None), Err(PriceError::NotAPrice { .. })),
            "{text}"
        );
    }
}

proptest! {
    /// Sign or code, in front or behind, with either decimal sign: one price.
    #[test]
    fn the_look_of_a_price_changes_nothing(cents in 1_u32..10_000_000, per in prop::sample::select(vec![1_u32, 10, 100, 1_000])) {
        let (whole, rest) = (cents / 100, cents % 100);
        for text in [
            format!("{whole}.{rest:02} EUR/{per}"),
            format!("{whole},{rest:02} EUR/{per}"),
            format!("€ {whole},{rest:02} / {per} St."),
            format!("EUR {whole}.{rest:02} per {per} pcs"),
            format!("{whole}.{rest:02}€ je {per}"),
            format!("{whole},{rest:02} € za {per} szt."),
        ] {
            let read = read_price(&text, None).unwrap();
            prop_assert!(close(read.amount, f64::from(cents) / 100.0), "{}: {:?}", text, read);
            let code = read.currency.map(|currency| currency.code().to_owned());
            prop_assert_eq!(code.as_deref(), Some("EUR"), "{}", text);
            prop_assert_eq!(read.per, Some(per), "{}", text);
        }
    }

    /// Two figures in one cell are never one price.
    #[test]
    fn two_figures_are_no_price(a in 1_u32..100_000, b in 1_u32..100_000, sign in prop::sample::select(vec!["-", " - ", "–", " to ", " EUR - "])) {
        let text = format!("{}.{:02}{sign}{}.{:02} EUR", a / 100, a % 100, b / 100, b % 100);
        prop_assert!(read_price(&text, None).is_err(), "{}", text);
    }
}
