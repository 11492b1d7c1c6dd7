//! What must hold for any length, price and unit of count.

mod counts;
mod lengths;
mod prices;
mod sizes;

use proptest::prelude::*;
use sparewright::units::{
    Currency, Length, LengthUnit, Money, Price, UnitOfCount, read_length, read_size,
};

/// One inch is 25.4 mm exactly (international yard and pound agreement, 1959).
const INCH_NM: i64 = 25_400_000;

fn unit_of_count() -> impl Strategy<Value = UnitOfCount> {
    prop_oneof![
        Just(UnitOfCount::Piece),
        Just(UnitOfCount::Pair),
        Just(UnitOfCount::Metre),
        (2_u32..9).prop_map(|pieces| UnitOfCount::MatchedSet { pieces }),
        (2_u32..200).prop_map(|pieces| UnitOfCount::Pack { pieces }),
    ]
}

proptest! {
    #[test]
    fn inch_fractions_are_exact_to_the_sixty_fourth(whole in 0_i64..40, power in 1_u32..7, part in 1_i64..64) {
        let parts = 2_i64.pow(power);
        let numerator = part % parts;
        prop_assume!(numerator > 0);
        let expected_nm = (whole * parts + numerator) * INCH_NM / parts;
        let text = if whole == 0 {
            format!("{numerator}/{parts}")
        } else {
            format!("{whole} {numerator}/{parts}")
        };
        // The unit that holds otherwise does not matter: fractions are inches.
        for (text, unit) in [(text.clone(), LengthUnit::Mm), (format!("{text}\""), LengthUnit::Mm), (text, LengthUnit::Inch)] {
            let read = read_length(&text, unit).unwrap();
            prop_assert_eq!(read.length.as_nm(), expected_nm, "{}", text);
            prop_assert_eq!(read.unit, LengthUnit::Inch);
        }
    }

    #[test]
    fn a_printed_length_is_read_back(micrometres in 1_i64..2_000_000) {
        let length = Length::from_nm(micrometres * 1_000).unwrap();
        let printed = length.to_string();
        for text in [printed.clone(), printed.replace('.', ","), printed.trim_end_matches(" mm").to_owned(), format!("Ø{printed}")] {
            prop_assert_eq!(read_length(&text, LengthUnit::Mm).unwrap().length, length, "{}", text);
        }
        prop_assert!((length.to_inch() * 25.4 - length.to_mm()).abs() < 1e-9);
    }

    #[test]
    fn what_was_printed_coarsely_may_be_what_rounds_to_it(nanometres in 1_000_000_i64..900_000_000, decimals in 0_usize..4) {
        let exact = Length::from_nm(nanometres).unwrap();
        let printed = format!("{:.decimals$}", exact.to_mm());
        let read = read_length(&printed, LengthUnit::Mm).unwrap();
        prop_assert!(read.may_be(exact), "{exact} printed {printed}");
        // And not what is a whole last digit away.
        let far_nm = nanometres + 2 * 10_i64.pow(6 - decimals as u32);
        prop_assert!(!read.may_be(Length::from_nm(far_nm).unwrap()));
    }

    #[test]
    fn a_size_keeps_its_lengths_and_their_order(
        figures in prop::collection::vec(1_u32..9_999, 2..5),
        sign in prop::sample::select(vec!["x", " x ", "×", "*", " X "]),
        unit in prop::sample::select(vec!["", " mm", "mm"]),
    ) {
        let printed: Vec<String> = figures.iter().map(|f| format!("{}.{}", f / 10, f % 10)).collect();
        let read = read_size(&format!("{}{unit}", printed.join(sign)), LengthUnit::Mm).unwrap();
        let found: Vec<i64> = read.iter().map(|read| read.length.as_nm()).collect();
        let expected: Vec<i64> = figures.iter().map(|f| i64::from(*f) * 100_000).collect();
        prop_assert_eq!(found, expected);
        prop_assert!(read.iter().all(|read| read.is_unit_stated != unit.is_empty()));
    }

    #[test]
    fn any_text_is_a_length_or_refused(text in any::<String>()) {
        if let Ok(read) = read_length(&text, LengthUnit::Mm) {
            prop_assert!(read.length.as_nm() > 0, "{text}");
        }
        let _ = read_size(&text, LengthUnit::Inch);
        let _ = UnitOfCount::read(&text);
    }

    #[test]
    fn money_keeps_whole_cents(cents in 0_i64..10_000_000_000) {
        let money = Money::from_units(cents as f64 / 100.0, Currency::EUR).unwrap();
        prop_assert_eq!(money.cents, cents);
        prop_assert!((money.to_units() - cents as f64 / 100.0).abs() < 1e-9);
    }

    #[test]
    fn a_price_per_many_costs_as_much_one_by_one(
        cents in 1_u32..10_000_000,
        per in prop::sample::select(vec![1_u32, 10, 100, 1_000]),
        quantity in 1_u32..5_000,
    ) {
        let amount = f64::from(cents) / 100.0;
        let price = Price::from_units(amount, per, Currency::EUR).unwrap();
        prop_assert!((price.unit_price() * f64::from(per) - amount).abs() < 1e-6 * amount.max(1.0));
        let exact = amount * f64::from(quantity) / f64::from(per);
        let cost = price.cost_of(f64::from(quantity)).to_units();
        prop_assert!((cost - exact).abs() <= 0.005 + 1e-9 * exact, "{cost} {exact}");
        prop_assert!(price.less(0.25).unit_price() <= price.unit_price() + 1e-9);
    }

    /// What opens one way closes the other; what may not be exchanged may not either way.
    #[test]
    fn units_of_count_turn_back(have in unit_of_count(), want in unit_of_count()) {
        match (have.in_units_of(want), want.in_units_of(have)) {
            (Ok(there), Ok(back)) => prop_assert!((there * back - 1.0).abs() < 1e-9),
            (Err(_), Err(_)) => {
                let is_apart = |unit| matches!(unit, UnitOfCount::MatchedSet { .. } | UnitOfCount::Metre);
                prop_assert!(have != want && (is_apart(have) || is_apart(want)));
            }
            (there, back) => prop_assert!(false, "{have} {want}: {there:?} {back:?}"),
        }
        prop_assert_eq!(UnitOfCount::read(&have.to_string()).ok(), Some(have));
    }
}
