//! Money and prices: codes of currencies, rounding to cents, prices per hundred and thousand, discounts.

use proptest::prelude::*;
use sparewright::units::{Currency, Money, MoneyError, Price};

fn currency(code: &str) -> Currency {
    Currency::new(code).unwrap()
}

#[test]
fn a_currency_is_three_letters_of_iso_4217() {
    for (text, code) in [
        ("EUR", "EUR"),
        ("eur", "EUR"),
        (" Chf ", "CHF"),
        ("pln", "PLN"),
        ("USD", "USD"),
        ("jpy", "JPY"),
    ] {
        let read = Currency::new(text).unwrap();
        assert_eq!(read.code(), code, "{text}");
        assert_eq!(read.to_string(), code, "{text}");
        let json = serde_json::to_string(&read).unwrap();
        assert_eq!(json, format!("\"{code}\""));
        assert_eq!(serde_json::from_str::<Currency>(&json).unwrap(), read);
    }
    for text in [
        "",
        "EU",
        "EURO",
        "E R",
        "E1R",
        "€",
        "€€€",
        "978",
        "ÄUR",
        "eu€",
        "EUR,",
    ] {
        let error = Currency::new(text).unwrap_err();
        let expected = MoneyError::NotACurrency {
            found: text.to_owned(),
        };
        assert_eq!(error, expected);
        assert_eq!(
            error.to_string(),
            format!("`{text}` is not a currency; expected three letters such as `EUR`")
        );
        assert!(serde_json::from_str::<Currency>(&format!("\"{text}\"")).is_err());
    }
    assert_eq!(Currency::EUR, currency("EUR"));
    // In order of their letters, for lists that must not change from run to run.
    let mut codes = ["USD", "CHF", "PLN", "EUR"].map(currency);
    codes.sort();
    assert_eq!(
        codes.map(|code| code.to_string()),
        ["CHF", "EUR", "PLN", "USD"]
    );
}

#[test]
fn amounts_are_rounded_once_to_whole_cents() {
    for (amount, cents, words) in [
        (0.0, 0, "0.00 EUR"),
        (0.004, 0, "0.00 EUR"),
        (0.006, 1, "0.01 EUR"),
        (0.01, 1, "0.01 EUR"),
        (0.1 + 0.2, 30, "0.30 EUR"),
        (1.0, 100, "1.00 EUR"),
        (12.345_6, 1_235, "12.35 EUR"),
        (19.99, 1_999, "19.99 EUR"),
        (1_234.5, 123_450, "1,234.50 EUR"),
        (
            99_999_999_999.99,
            9_999_999_999_999,
            "99,999,999,999.99 EUR",
        ),
        (1e11, 10_000_000_000_000, "100,000,000,000.00 EUR"),
    ] {
        let money = Money::from_units(amount, Currency::EUR).unwrap();
        assert_eq!(money.cents, cents, "{amount}");
        assert_eq!(money.to_string(), words);
        assert!((money.to_units() - amount).abs() <= 0.005 + 1e-12 * amount);
    }
    // Amounts below 0 come from sums and differences only, and keep their sign below one unit.
    for (cents, words) in [
        (-1, "-0.01 EUR"),
        (-99, "-0.99 EUR"),
        (-12_345, "-123.45 EUR"),
        (i64::MIN, "-92,233,720,368,547,758.08 EUR"),
    ] {
        let money = Money {
            cents,
            currency: Currency::EUR,
        };
        assert_eq!(money.to_string(), words);
    }
}

#[test]
fn what_is_no_amount_is_refused_with_its_figure() {
    for (amount, found) in [
        (-0.01, "-0.01 EUR"),
        (-5.0, "-5 EUR"),
        (1.01e11, "101000000000 EUR"),
        (f64::NAN, "NaN EUR"),
        (f64::INFINITY, "inf EUR"),
        (f64::NEG_INFINITY, "-inf EUR"),
    ] {
        let error = Money::from_units(amount, Currency::EUR).unwrap_err();
        assert_eq!(
            error.to_string(),
            format!("{found} is not an amount of money; expected 0 or more and at most 10^11")
        );
        let error = Price::from_units(amount, 100, Currency::EUR).unwrap_err();
        assert!(
            error
                .to_string()
                .starts_with(&format!("{found} per 100 is not")),
            "{error}"
        );
    }
    assert!(Price::from_units(1.0, 0, Currency::EUR).is_err());
}

#[test]
fn a_price_for_many_costs_what_the_invoice_would_say() {
    // Arithmetic: amount times quantity over the units it is for, rounded once at the end, halves up.
    for (amount, per, quantity, cents) in [
        (12.5, 1, 1.0, 1_250),
        (12.5, 1, 4.0, 5_000),
        (8.5, 1_000, 1.0, 1),
        (8.5, 1_000, 250.0, 213),
        (8.5, 1_000, 1_000.0, 850),
        (850.0, 100, 3.0, 2_550),
        (0.335, 1, 1.0, 34),
        (0.335, 1, 3.0, 101),
        (0.004_9, 1, 1.0, 0),
        (0.004_9, 1, 1_000.0, 490),
        (1.99, 10, 25.0, 498),
        (3.2, 1, 4.5, 1_440),
        (99.99, 1, 10_000.0, 99_990_000),
        (12.5, 1, 0.0, 0),
    ] {
        let price = Price::from_units(amount, per, Currency::EUR).unwrap();
        assert_eq!(
            price.cost_of(quantity).cents,
            cents,
            "{quantity} at {amount} per {per}"
        );
        assert_eq!(price.cost_of(quantity).currency, Currency::EUR);
    }
}

#[test]
fn prices_keep_a_hundredth_of_a_cent() {
    for (amount, e2) in [
        (0.000_1, 1),
        (0.000_04, 0),
        (0.335, 3_350),
        (8.5, 85_000),
        (1e11, 1_000_000_000_000_000),
    ] {
        let price = Price::from_units(amount, 1, Currency::EUR).unwrap();
        assert_eq!(price.amount_cents_e2, e2, "{amount}");
        assert!((price.unit_price() - e2 as f64 / 10_000.0).abs() < 1e-9);
    }
    // 8.50 a thousand is 0.0085 each, which a price in whole cents would make 0.01.
    let each = Price::from_units(8.5, 1_000, Currency::EUR)
        .unwrap()
        .unit_price();
    assert!((each - 0.008_5).abs() < 1e-12);
}

#[test]
fn a_discount_is_a_share_of_the_list_price() {
    for (list, share, net_e2) in [
        (100.0, 0.0, 1_000_000),
        (100.0, 0.35, 650_000),
        (100.0, 1.0, 0),
        (22.769_23, 0.35, 148_000),
        (10.0, 0.333_333, 66_667),
        // More than everything and less than nothing off are cut: a discount never makes a price rise or turn.
        (100.0, 1.5, 0),
        (100.0, -0.1, 1_000_000),
    ] {
        let price = Price::from_units(list, 1, Currency::EUR).unwrap();
        assert_eq!(
            price.less(share).amount_cents_e2,
            net_e2,
            "{list} less {share}"
        );
        assert_eq!(price.less(share).per, 1);
    }
    let per_hundred = Price::from_units(100.0, 100, currency("CHF"))
        .unwrap()
        .less(0.5);
    assert_eq!((per_hundred.per, per_hundred.currency.code()), (100, "CHF"));
}

proptest! {
    /// A price for a hundred and the hundredth part of it each cost the same, to the cent.
    #[test]
    fn per_hundred_or_each_is_one_price(e2 in 1_i64..10_000_000, quantity in 1_u32..100_000) {
        let per_hundred = Price { amount_cents_e2: e2 * 100, per: 100, currency: Currency::EUR };
        let each = Price { amount_cents_e2: e2, per: 1, currency: Currency::EUR };
        prop_assert_eq!(per_hundred.cost_of(f64::from(quantity)), each.cost_of(f64::from(quantity)));
    }

    /// More pieces never cost less, and a bigger discount never costs more.
    #[test]
    fn cost_rises_with_the_quantity_and_falls_with_the_discount(
        e2 in 0_i64..100_000_000,
        per in prop::sample::select(vec![1_u32, 10, 100, 1_000]),
        few in 0_u32..1_000,
        more in 0_u32..1_000,
        small in 0.0_f64..1.0,
        big in 0.0_f64..1.0,
    ) {
        let price = Price { amount_cents_e2: e2, per, currency: Currency::EUR };
        let (few, many) = (f64::from(few), f64::from(few + more));
        prop_assert!(price.cost_of(few).cents <= price.cost_of(many).cents);
        let (small, big) = (small.min(big), small.max(big));
        prop_assert!(price.less(big).amount_cents_e2 <= price.less(small).amount_cents_e2);
    }

    /// Printing loses nothing: the digits are the cents.
    #[test]
    fn money_prints_its_cents(cents in any::<i64>()) {
        let printed = Money { cents, currency: Currency::EUR }.to_string();
        let digits: String = printed.chars().filter(|c| c.is_ascii_digit() || *c == '-').collect();
        prop_assert_eq!(digits.parse::<i64>().ok(), Some(cents), "{}", printed);
    }
}
