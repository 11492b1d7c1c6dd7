//! Net prices of offers: discounts, price units, tax, currencies and breaks.

use proptest::prelude::*;
use sparewright::record::OfferRecord;
use sparewright::units::UnitOfCount;

use super::{import, problems};

/// The offer of one row with the problems said of it.
fn offer(header: &str, row: &str) -> (OfferRecord, Vec<String>) {
    let imported = import("nordlager.csv", &format!("{header}\n{row}\n"));
    let said = problems(&imported);
    assert_eq!(imported.records.offers.len(), 1, "{header} {row}: {said:?}");
    (imported.records.offers[0].clone(), said)
}

/// Cost of a thousand, which shows fractions of a cent.
fn of_a_thousand(offer: &OfferRecord) -> Option<String> {
    offer.price.map(|price| price.cost_of(1_000.0).to_string())
}

#[test]
fn a_list_price_less_its_discount_is_the_net_price() {
    let header = "Art no;Designation;List price EUR;Discount %";
    // Arithmetic; chained discounts are each of what the one before has left.
    for (row, thousand) in [
        ("N1;6305-2RS;10,00;0", "10,000.00 EUR"),
        ("N1;6305-2RS;10,00;", "10,000.00 EUR"),
        ("N1;6305-2RS;10,00;-", "10,000.00 EUR"),
        ("N1;6305-2RS;10,00;35", "6,500.00 EUR"),
        ("N1;6305-2RS;10,00;35 %", "6,500.00 EUR"),
        ("N1;6305-2RS;10,00;35%", "6,500.00 EUR"),
        ("N1;6305-2RS;10,00;35,5 %", "6,450.00 EUR"),
        ("N1;6305-2RS;10,00;0,5 %", "9,950.00 EUR"),
        ("N1;6305-2RS;10,00;1", "9,900.00 EUR"),
        ("N1;6305-2RS;10,00;99", "100.00 EUR"),
        ("N1;6305-2RS;10,00;40+10", "5,400.00 EUR"),
        ("N1;6305-2RS;10,00;40 % + 10 %", "5,400.00 EUR"),
        ("N1;6305-2RS;10,00;40+10+5", "5,130.00 EUR"),
        ("N1;6305-2RS;10,00;10+40", "5,400.00 EUR"),
        ("N1;6305-2RS;22,77;35", "14,800.50 EUR"),
    ] {
        let (offer, said) = offer(header, row);
        assert_eq!(of_a_thousand(&offer).as_deref(), Some(thousand), "{row}");
        assert_eq!(said, [""; 0], "{row}");
    }
}

#[test]
fn a_discount_below_one_among_percents_is_one_of_percents_in_doubt() {
    let read = |discounts: &[&str]| {
        let mut text = "Art no;Designation;List price EUR;Discount %\n".to_owned();
        for (at, discount) in discounts.iter().enumerate() {
            text.push_str(&format!("N{at};6305-2RS;10,00;{discount}\n"));
        }
        let imported = import("nordlager.csv", &text);
        let prices: Vec<String> = imported
            .records
            .offers
            .iter()
            .filter_map(of_a_thousand)
            .collect();
        (prices, problems(&imported))
    };
    // Arithmetic: 0.05 % of 10,000.00 are 5.00; as a share they would be 500.00.
    for others in ["20", "10+5"] {
        let (prices, said) = read(&[others, "0,05"]);
        assert_eq!(prices[1], "9,995.00 EUR", "{others}");
        assert_eq!(
            said,
            [
                "D3: `0.05` is read as 0.05 %, as other discounts of the column are in percent; expected a sign of percent here, or the percents themselves"
            ],
            "{others}"
        );
    }
    // With its sign it is no doubt, and nothing but shares are shares.
    let (prices, said) = read(&["20", "0,05 %", "0"]);
    assert_eq!(prices, ["8,000.00 EUR", "9,995.00 EUR", "10,000.00 EUR"]);
    assert_eq!(said, [""; 0]);
    let (prices, said) = read(&["0,2", "0,05"]);
    assert_eq!(prices, ["8,000.00 EUR", "9,500.00 EUR"]);
    assert_eq!(said, [""; 0]);
}

#[test]
fn a_discount_that_cannot_be_read_leaves_no_price_and_no_break() {
    for (discount, problem) in [
        ("oops", "D2: `oops` is not a number"),
        (
            "100",
            "D2: `100` is out of range; expected a discount of 0 to 99 %",
        ),
        (
            "-5",
            "D2: `-5` is out of range; expected a discount of 0 to 99 %",
        ),
        (
            "120 %",
            "D2: `120` is out of range; expected a discount of 0 to 99 %",
        ),
        ("40++10", "D2: `40++10` is not a number"),
        ("40+x", "D2: `40+x` is not a number"),
    ] {
        let (found, said) = offer(
            "Art no;Designation;List price EUR;Discount %",
            &format!("N1;6305-2RS;10,00;{discount}"),
        );
        assert_eq!(found.price, None, "{discount}");
        assert_eq!(said, [problem], "{discount}");
        let problem = problem.replace("D2", "E2");
        let (found, said) = offer(
            "Art no;Designation;1+;10+;Discount %",
            &format!("N1;6305-2RS;10,00;9,00;{discount}"),
        );
        assert_eq!((found.price, found.breaks.len()), (None, 0), "{discount}");
        assert!(said.contains(&problem), "{discount}: {said:?}");
    }
}

#[test]
fn a_net_price_is_net_whatever_discount_stands_beside_it() {
    // Where list price, discount and net price are all there, the discount is how the net price came about.
    for (header, row, thousand) in [
        (
            "Art no;Designation;Price EUR",
            "N1;6305-2RS;6,50",
            "6,500.00 EUR",
        ),
        (
            "Art no;Designation;List price EUR;Discount %;Net price EUR",
            "N1;6305-2RS;10,00;35;6,50",
            "6,500.00 EUR",
        ),
        (
            "Art no;Designation;List price EUR;Net price EUR;Discount %",
            "N1;6305-2RS;10,00;6,54;35",
            "6,540.00 EUR",
        ),
        (
            "Art no;Designation;List price EUR;Discount %;Net price EUR",
            "N1;6305-2RS;10,00;35;",
            "6,500.00 EUR",
        ),
        (
            "Art no;Designation;Price EUR;Discount %",
            "N1;6305-2RS;10,00;35",
            "6,500.00 EUR",
        ),
    ] {
        let (offer, said) = offer(header, row);
        assert_eq!(
            of_a_thousand(&offer).as_deref(),
            Some(thousand),
            "{header}: {row}"
        );
        assert_eq!(said, [""; 0], "{header}");
    }
}

#[test]
fn a_net_price_that_list_price_and_discount_do_not_give_is_told() {
    // Arithmetic: 10 less 30 % are 7; 10 less 33.3 % are 6.67, which whole percents print as 33.
    let told = |net: &str, list: &str, percent: &str| {
        format!(
            "D2: the net price of {net} is not the list price of {list} less {percent} %; the net price is planned with"
        )
    };
    let header = "Art no;Designation;List price EUR;Net price EUR;Discount %";
    for (row, thousand, expected) in [
        (
            "N1;6305;10,00;8,00;30",
            "8,000.00 EUR",
            Some(told("8", "10", "30")),
        ),
        (
            "N1;6305;10,00;6,60;35",
            "6,600.00 EUR",
            Some(told("6.6", "10", "35")),
        ),
        (
            "N1;6305;10,00;6,00;40+10",
            "6,000.00 EUR",
            Some(told("6", "10", "46")),
        ),
        ("N1;6305;10,00;5,40;40+10", "5,400.00 EUR", None),
        ("N1;6305;10,00;6,67;33", "6,670.00 EUR", None),
        ("N1;6305;;8,00;30", "8,000.00 EUR", None),
        ("N1;6305;10,00;8,00;", "8,000.00 EUR", None),
        ("N1;6305;10,00 USD;8,00 EUR;30", "8,000.00 EUR", None),
        ("N1;6305;1000,00 /100;8,00;30", "8,000.00 EUR", None),
    ] {
        let (offer, said) = offer(header, row);
        assert_eq!(of_a_thousand(&offer).as_deref(), Some(thousand), "{row}");
        assert_eq!(said, expected.into_iter().collect::<Vec<_>>(), "{row}");
    }
}

#[test]
fn the_units_a_price_is_for_come_from_cell_row_and_header_in_this_order() {
    for (header, row, thousand) in [
        (
            "Art no;Designation;Price EUR",
            "N1;6305;8,50",
            Some("8,500.00 EUR"),
        ),
        (
            "Art no;Designation;Price EUR/100",
            "N1;6305;850,00",
            Some("8,500.00 EUR"),
        ),
        (
            "Art no;Designation;Price EUR per 1000",
            "N1;6305;8,50",
            Some("8.50 EUR"),
        ),
        (
            "Art no;Designation;Price EUR",
            "N1;6305;850,00/100",
            Some("8,500.00 EUR"),
        ),
        (
            "Art no;Designation;Price EUR;Price per",
            "N1;6305;850,00;100",
            Some("8,500.00 EUR"),
        ),
        (
            "Art no;Designation;Price EUR;Price per",
            "N1;6305;850,00;1.000",
            Some("850.00 EUR"),
        ),
        (
            "Art no;Designation;Price EUR;Price per",
            "N1;6305;8,50;",
            Some("8,500.00 EUR"),
        ),
        (
            "Art no;Designation;Price EUR/100;Price per",
            "N1;6305;850,00;1000",
            Some("850.00 EUR"),
        ),
        (
            "Art no;Designation;Price EUR;Price per",
            "N1;6305;850,00;0",
            None,
        ),
        (
            "Art no;Designation;Price EUR;Price per",
            "N1;6305;850,00;2,5",
            None,
        ),
        (
            "Art no;Designation;Price EUR;Price per",
            "N1;6305;850,00;100000",
            None,
        ),
        (
            "Art no;Designation;Price EUR;Price per",
            "N1;6305;850,00;box",
            None,
        ),
    ] {
        let (offer, said) = offer(header, row);
        assert_eq!(
            of_a_thousand(&offer).as_deref(),
            thousand,
            "{header}: {row}"
        );
        assert_eq!(
            said.len(),
            usize::from(thousand.is_none()),
            "{header} {row}: {said:?}"
        );
    }
}

#[test]
fn the_currency_comes_from_cell_row_and_header_and_an_unknown_one_is_no_price() {
    for (header, row, thousand) in [
        (
            "Art no;Designation;Price",
            "N1;6305;8,50",
            Some("8,500.00 EUR"),
        ),
        (
            "Art no;Designation;Price USD",
            "N1;6305;8,50",
            Some("8,500.00 USD"),
        ),
        (
            "Art no;Designation;Price (CHF)",
            "N1;6305;8,50",
            Some("8,500.00 CHF"),
        ),
        (
            "Art no;Designation;Price USD",
            "N1;6305;8,50 CHF",
            Some("8,500.00 CHF"),
        ),
        (
            "Art no;Designation;Price;Currency",
            "N1;6305;8,50;PLN",
            Some("8,500.00 PLN"),
        ),
        (
            "Art no;Designation;Price EUR;Currency",
            "N1;6305;8,50;£",
            Some("8,500.00 GBP"),
        ),
        (
            "Art no;Designation;Price;Currency",
            "N1;6305;8,50 €;PLN",
            Some("8,500.00 EUR"),
        ),
        (
            "Art no;Designation;Price;Currency",
            "N1;6305;8,50;",
            Some("8,500.00 EUR"),
        ),
        (
            "Art no;Designation;Price;Currency",
            "N1;6305;8,50;thalers",
            None,
        ),
    ] {
        let (offer, _) = offer(header, row);
        assert_eq!(
            of_a_thousand(&offer).as_deref(),
            thousand,
            "{header}: {row}"
        );
    }
}

#[test]
fn tax_is_taken_out_where_its_rate_is_said_and_is_no_guess_else() {
    // Arithmetic: 11.90 with 19 % is 10.00 without.
    for (header, row, thousand, problem) in [
        (
            "Art no;Designation;Price EUR incl. VAT;VAT rate",
            "N1;6305;11,90;19",
            Some("10,000.00 EUR"),
            None,
        ),
        (
            "Art no;Designation;Price EUR incl. VAT;VAT",
            "N1;6305;11,90;19 %",
            Some("10,000.00 EUR"),
            None,
        ),
        (
            "Art no;Designation;Preis EUR brutto;MwSt-Satz",
            "N1;6305;10,70;7",
            Some("10,000.00 EUR"),
            None,
        ),
        (
            "Art no;Designation;Price EUR incl. VAT;VAT rate",
            "N1;6305;12,00;20 %",
            Some("10,000.00 EUR"),
            None,
        ),
        (
            "Art no;Designation;Price EUR incl. VAT;VAT rate",
            "N1;6305;10,00;0 %",
            Some("10,000.00 EUR"),
            None,
        ),
        (
            "Art no;Designation;Price EUR excl. VAT;VAT rate",
            "N1;6305;10,00;19",
            Some("10,000.00 EUR"),
            None,
        ),
        (
            "Art no;Designation;Price EUR;VAT rate",
            "N1;6305;10,00;19",
            Some("10,000.00 EUR"),
            None,
        ),
        (
            "Art no;Designation;Price EUR incl. VAT",
            "N1;6305;11,90",
            None,
            Some("C2"),
        ),
        (
            "Art no;Designation;Price EUR incl. VAT;VAT",
            "N1;6305;11,90;1,90",
            None,
            Some("C2"),
        ),
        (
            "Art no;Designation;Price EUR incl. VAT;VAT rate",
            "N1;6305;11,90;",
            None,
            Some("C2"),
        ),
        (
            "Art no;Designation;Price EUR incl. VAT;VAT rate",
            "N1;6305;11,90;80",
            None,
            Some("D2"),
        ),
    ] {
        let (offer, said) = offer(header, row);
        assert_eq!(
            of_a_thousand(&offer).as_deref(),
            thousand,
            "{header}: {row} {said:?}"
        );
        match problem {
            None => assert_eq!(said, [""; 0], "{header}: {row}"),
            Some(cell) => assert!(
                said.iter().any(|said| said.starts_with(cell)),
                "{header}: {said:?}"
            ),
        }
    }
}

#[test]
fn a_bare_figure_of_tax_is_read_where_it_can_mean_one_thing_only() {
    // 19 is 19 % of the net price of 119 as well as its rate; of 200 it may be either; of 45 it would be a rate of 73 %. 0.80 is
    // no rate of a hundredth, and of 5.00 the 19 % of 4.20.
    let header = "Art no;Designation;Price EUR incl. VAT;VAT";
    for (gross, tax, net, told) in [
        ("119,00", "19", Some(100.0), None),
        (
            "200,00",
            "19",
            None,
            Some("`19` may be a rate of VAT in percent or an amount"),
        ),
        ("45,00", "19", Some(45.0 / 1.19), None),
        ("5,00", "0,80", Some(4.2), None),
        ("5,00", "0", Some(5.0), None),
        (
            "5,00",
            "80",
            None,
            Some("`80` is out of range; expected a rate of VAT"),
        ),
    ] {
        let (found, said) = offer(header, &format!("N1;6305;{gross};{tax}"));
        let price = found.price.map(|price| price.unit_price());
        match (price, net) {
            (Some(price), Some(net)) => {
                assert!((price - net).abs() < 1e-4, "{gross} {tax}: {price}")
            }
            (price, net) => assert_eq!(price.is_some(), net.is_some(), "{gross} {tax}: {said:?}"),
        }
        let of_tax: Vec<&String> = said
            .iter()
            .filter(|said| said.starts_with("D2: "))
            .collect();
        assert_eq!(of_tax.len(), usize::from(told.is_some()), "{said:?}");
        assert!(told.is_none_or(|told| of_tax[0].contains(told)), "{said:?}");
    }
    // An amount is that of the price of one, and no break's.
    let (found, said) = offer(
        "Prices incl. VAT\n\nArt no;Designation;Price EUR;VAT;10+",
        "N1;6305;5,00;0,80;4,00",
    );
    let price = found.price.map(|price| price.unit_price());
    assert!(
        price.is_some_and(|price| (price - 4.2).abs() < 1e-4),
        "{said:?}"
    );
    assert!(found.breaks.is_empty(), "{:?} {said:?}", found.breaks);
}

#[test]
fn a_break_dearer_than_the_plain_price_is_told_and_not_planned_with() {
    let header = "Art no;Designation;Price EUR;10+;50+";
    let (taken, said) = offer(header, "N1;6305;4,00;3,50;3,00");
    assert_eq!((taken.breaks.len(), said.len()), (2, 0), "{said:?}");
    let (taken, said) = offer(header, "N1;6305;4,00;4,50;3,00");
    assert_eq!(of_a_thousand(&taken).as_deref(), Some("4,000.00 EUR"));
    assert!(taken.breaks.is_empty());
    assert_eq!(
        said,
        [
            "D2: price breaks are out of order: from 1 4, from 10 4.5; expected prices that fall as quantities rise"
        ]
    );
    // What francs cost against euros no list says.
    let (taken, said) = offer("Art no;Designation;Price EUR;10+", "N1;6305;4,00;4,50 CHF");
    assert_eq!((taken.breaks.len(), said.len()), (1, 0), "{said:?}");
}

#[test]
fn breaks_are_in_the_order_of_their_quantities_and_never_rise() {
    for (header, row, price, breaks) in [
        (
            "Art no;Designation;1+;10+;50+",
            "N1;6305;4,00;3,50;3,00",
            Some(4.0),
            &[(1.0, 4.0), (10.0, 3.5), (50.0, 3.0)][..],
        ),
        (
            "Art no;Designation;50+;1+;10+",
            "N1;6305;3,00;4,00;3,50",
            Some(4.0),
            &[(1.0, 4.0), (10.0, 3.5), (50.0, 3.0)],
        ),
        (
            "Art no;Designation;Price EUR;from 10;from 50",
            "N1;6305;4,00;3,50;3,00",
            Some(4.0),
            &[(10.0, 3.5), (50.0, 3.0)],
        ),
        (
            "Art no;Designation;Price EUR;10-49;50-99",
            "N1;6305;4,00;3,50;3,00",
            Some(4.0),
            &[(10.0, 3.5), (50.0, 3.0)],
        ),
        (
            "Art no;Designation;Price EUR;ab 10;ab 50",
            "N1;6305;4,00;3,50;",
            Some(4.0),
            &[(10.0, 3.5)],
        ),
        (
            "Art no;Designation;Price EUR;ab 10;ab 50",
            "N1;6305;4,00;;",
            Some(4.0),
            &[],
        ),
        (
            "Art no;Designation;1+;10+;50+",
            "N1;6305;4,00;4,00;4,00",
            Some(4.0),
            &[(1.0, 4.0), (10.0, 4.0), (50.0, 4.0)],
        ),
        (
            "Art no;Designation;Price EUR;10+;50+",
            "N1;6305;4,00;3,00;3,50",
            Some(4.0),
            &[],
        ),
        (
            "Art no;Designation;List price EUR;10+;Discount %",
            "N1;6305;10,00;8,00;50",
            Some(5.0),
            &[(10.0, 4.0)],
        ),
    ] {
        let (offer, said) = offer(header, row);
        let found: Vec<(f64, f64)> = offer
            .breaks
            .iter()
            .map(|b| (b.from_quantity, b.price.unit_price()))
            .collect();
        assert_eq!(found.len(), breaks.len(), "{header}: {row}: {found:?}");
        for ((from, unit), (expected_from, expected_unit)) in found.iter().zip(breaks) {
            assert!(
                (from - expected_from).abs() < 1e-9 && (unit - expected_unit).abs() < 1e-9,
                "{header}: {found:?}"
            );
        }
        let unit = offer.price.map(|price| price.unit_price());
        assert!(
            unit.zip(price).is_some_and(|(a, b)| (a - b).abs() < 1e-9),
            "{header}: {unit:?}"
        );
        let rises = row == "N1;6305;4,00;3,00;3,50";
        assert_eq!(!said.is_empty(), rises, "{header}: {said:?}");
        if rises {
            assert!(said[0].contains("from 10 3, from 50 3.5"), "{said:?}");
        }
    }
}

#[test]
fn a_price_that_is_none_is_said_at_its_cell_and_the_offer_stands_without_one() {
    for (price, problem) in [
        ("0", "C2: `0` is out of range; expected a price above 0"),
        (
            "-3,50",
            "C2: `-3.5` is out of range; expected a price above 0",
        ),
        (
            "3,50-",
            "C2: `-3.5` is out of range; expected a price above 0",
        ),
        (
            "cheap",
            "C2: `cheap` is not a price; expected one such as `12.50 EUR` or `850 EUR/1000`",
        ),
        (
            "12-14",
            "C2: `12-14` is not a price; expected one such as `12.50 EUR` or `850 EUR/1000`",
        ),
        (
            "3,50 EUR 3,10",
            "C2: `3,50 EUR 3,10` is not a price; expected one such as `12.50 EUR` or `850 EUR/1000`",
        ),
        ("auf Anfrage", "C2: the price is on request"),
    ] {
        let (offer, said) = offer(
            "Art no;Designation;Price EUR",
            &format!("N1;6305-2RS;{price}"),
        );
        assert_eq!(offer.price, None, "{price}");
        let said: Vec<&str> = said.iter().map(String::as_str).collect();
        assert_eq!(said.len(), 1, "{price}: {said:?}");
        assert!(said[0].starts_with(problem), "{price}: {said:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// A net price that was worked out from list price and discount is what the import makes of both.
    #[test]
    fn list_less_discount_is_what_a_hand_reckons(cents in 100_u32..1_000_000, percent in 0_u32..99, per in prop::sample::select(vec![1_u32, 100, 1_000])) {
        let of = if per == 1 { String::new() } else { format!("/{per}") };
        let header = format!("Art no;Designation;List price EUR{of};Discount %");
        let row = format!("N1;6305;{},{:02};{percent}", cents / 100, cents % 100);
        let (offer, said) = offer(&header, &row);
        prop_assert_eq!(said, Vec::<String>::new());
        let expected = f64::from(cents) / 100.0 / f64::from(per) * (1.0 - f64::from(percent) / 100.0);
        let found = offer.price.unwrap().unit_price();
        // Prices keep a hundredth of a cent for all the units they are for.
        prop_assert!((found - expected).abs() <= 0.000_051 / f64::from(per), "{found} {expected}");
    }
}

#[test]
fn a_price_each_below_a_header_per_hundred_is_that_of_one() {
    // Arithmetic: 4.50 each are 4,500.00 for a thousand, 4.50 for a hundred are 45.00.
    let told = |per: &str, other: u32| {
        format!(
            "the price is for {per}, as its cell says, where the rest of the list says for {other}; expected one of the two"
        )
    };
    for (header, row, thousand, problem) in [
        (
            "Preis EUR / 100 St",
            "4,50 €/Stk",
            "4,500.00 EUR",
            Some(told("1", 100)),
        ),
        (
            "Preis EUR / 100 St",
            "4.50 each",
            "4,500.00 EUR",
            Some(told("1", 100)),
        ),
        (
            "Preis EUR / 100 St",
            "4,50 EUR/1000",
            "4.50 EUR",
            Some(told("1000", 100)),
        ),
        ("Preis EUR / 100 St", "4,50 EUR/100 Stk", "45.00 EUR", None),
        ("Preis EUR / 100 St", "4,50 EUR", "45.00 EUR", None),
        // A bare unit says what is counted and not for how many the price is.
        ("Preis EUR / 100 St", "4,50 EUR St", "45.00 EUR", None),
        ("Preis EUR", "4,50 EUR St", "4,500.00 EUR", None),
        ("PE;Preis EUR", "100;4,50 EUR St", "45.00 EUR", None),
        ("Preis EUR", "4,50 €/Stk", "4,500.00 EUR", None),
    ] {
        let (offer, said) = offer(
            &format!("Art.-Nr.;Bezeichnung;{header}"),
            &format!("N1;6305-2RS;{row}"),
        );
        assert_eq!(of_a_thousand(&offer).as_deref(), Some(thousand), "{row}");
        let expected: Vec<String> = problem
            .map(|said| format!("C2: {said}"))
            .into_iter()
            .collect();
        assert_eq!(said, expected, "{header} {row}");
    }
    let (offer, said) = offer(
        "Art.-Nr.;Bezeichnung;Preis;PE",
        "N1;6305-2RS;4,50 EUR/Stk;100",
    );
    assert_eq!(of_a_thousand(&offer).as_deref(), Some("4,500.00 EUR"));
    assert_eq!(said, [format!("C2: {}", told("1", 100))]);
}

#[test]
fn a_price_of_a_metre_is_one_of_metres() {
    let (cord, said) = offer(
        "Art.-Nr.;Bezeichnung;Preis EUR",
        "N1;Rundschnur 5,7;4,50 €/m",
    );
    assert_eq!(cord.unit_of_count, Some(UnitOfCount::Metre));
    assert_eq!(of_a_thousand(&cord).as_deref(), Some("4,500.00 EUR"));
    assert!(
        said.contains(&"C2: read as sold by the metre, as the price says".to_owned()),
        "{said:?}"
    );
    let (cord, said) = offer(
        "Art.-Nr.;Bezeichnung;Preis EUR;ME",
        "N1;Rundschnur 5,7;450 €/100 m;m",
    );
    assert_eq!(of_a_thousand(&cord).as_deref(), Some("4,500.00 EUR"));
    assert!(!said.iter().any(|said| said.contains("metre")), "{said:?}");
    // A row of pieces at the price of a metre is a price of nobody knows what.
    let (cord, said) = offer(
        "Art.-Nr.;Bezeichnung;Preis EUR;ME",
        "N1;Rundschnur 5,7;4,50 €/m;Stk",
    );
    assert_eq!(cord.price, None);
    assert!(
        said.iter().any(|said| said.contains("is another unit")),
        "{said:?}"
    );
}
