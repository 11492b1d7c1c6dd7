//! Numbers and prices.

use sparewright::import::value::{
    NumberError, NumberEvidence, PriceError, read_number, read_price,
};

use super::{COMMA, POINT, close};

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
        ("12,50 pro Stk.", 12.5, None, Some(1)),
        ("12,50 € je Stück", 12.5, Some("EUR"), Some(1)),
        ("12.50 $ each", 12.5, Some("USD"), Some(1)),
        ("US$ 12.50", 12.5, Some("USD"), None),
        ("£12.50", 12.5, Some("GBP"), None),
        ("12,50 zł/szt", 12.5, Some("PLN"), Some(1)),
        ("12,50 zł za 100 szt", 12.5, Some("PLN"), Some(100)),
        ("CHF 12.50", 12.5, Some("CHF"), None),
        ("R$ 12,50", 12.5, Some("BRL"), None),
        ("12,50 € par 100", 12.5, Some("EUR"), Some(100)),
        ("12,50 € por unidad", 12.5, Some("EUR"), Some(1)),
        ("12,50 € par pièce", 12.5, Some("EUR"), Some(1)),
        ("12,50 € per pezzo", 12.5, Some("EUR"), Some(1)),
        ("R$ 12,50 por peça", 12.5, Some("BRL"), Some(1)),
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
