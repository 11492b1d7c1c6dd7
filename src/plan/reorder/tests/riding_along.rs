//! Lines that ride along with the freight of others.

use proptest::prelude::*;

use crate::plan::Reorder;
use crate::plan::sample::{Sample, euros, price, workdays};

#[test]
fn a_line_rides_along_where_a_later_one_pays_the_freight() {
    // B comes from Far alone, 10.00 and 15.00 of freight. A, chosen before it, would pay the freight itself: 25.00 against
    // 12.00 next door, 37.00 in all. With B it is 10.00, 35.00 in all; at 9.00 next door 34.00 in all stand.
    for (next_door, supplier, goods) in [(12.0, "Far", 20.0), (9.0, "Near", 10.0)] {
        let mut sample = Sample::new("");
        sample.supplier("Far", |supplier| supplier.freight = Some(euros(15.0)));
        sample.supplier("Near", |_| {});
        sample.machine("M1", None, None);
        let (a, b) = (sample.part("A"), sample.part("B"));
        sample.offer(a, "Far", workdays(3.0), |_| {});
        sample.offer(a, "Near", workdays(3.0), |offer| {
            offer.price = price(next_door)
        });
        sample.offer(b, "Far", workdays(3.0), |_| {});
        sample.kit("K");
        sample.line(Some(a), 1.0, &[], |_| {});
        sample.line(Some(b), 1.0, &[], |_| {});
        sample.planned("2026-03-20");
        // So near that both lines must be ordered today.
        sample.shop.kits[0].planned[0].date = sample.shop.as_of.date();
        let reorder = sample.plan().reorder;
        assert_eq!(reorder.lines[0].buy.supplier, supplier);
        let far = reorder.orders.iter().find(|order| order.supplier == "Far");
        let far = far.unwrap();
        assert_eq!(
            (far.goods, far.freight),
            (Some(euros(goods)), Some(euros(15.0)))
        );
        // Told once, with the first line from there.
        let told = reorder.lines.iter().map(|line| line.buy.freight.to_units());
        assert!((told.sum::<f64>() - 15.0).abs() < 1e-9);
        let next = reorder.lines[0].next_best.as_ref().unwrap();
        let rides = next.freight.to_units();
        assert!(rides.abs() < 1e-9 || supplier == "Near", "{rides}");
    }
}

/// One of each part for a rebuild of today, each sold by North and South at these prices, with their freights.
fn from_two(freights: [u32; 2], prices: &[(u32, u32)]) -> Reorder {
    let mut sample = Sample::new("");
    for (name, freight) in ["North", "South"].iter().zip(freights) {
        sample.supplier(name, |of| of.freight = Some(euros(f64::from(freight))));
    }
    sample.machine("M1", None, None);
    sample.kit("K");
    for (at, (north, south)) in prices.iter().enumerate() {
        let part = sample.part(&format!("P{at}"));
        for (name, each) in [("North", north), ("South", south)] {
            sample.offer(part, name, workdays(3.0), |offer| {
                offer.price = price(f64::from(*each));
            });
        }
        sample.line(Some(part), 1.0, &[], |_| {});
    }
    sample.planned("2026-03-20");
    sample.shop.kits[0].planned[0].date = sample.shop.as_of.date();
    sample.plan().reorder
}

/// Goods and freight of all orders.
fn in_all(reorder: &Reorder) -> f64 {
    let each = reorder.orders.iter();
    each.map(|order| order.goods.unwrap().to_units() + order.freight.unwrap().to_units())
        .sum()
}

/// The least of all ways to share the parts out, by trying each.
fn least(freights: [u32; 2], prices: &[(u32, u32)]) -> u32 {
    let ways = 0_u32..1 << prices.len();
    let cost = |way: u32| {
        let south = |at: usize| (way >> at) & 1 == 1;
        let goods = prices.iter().enumerate();
        let goods = goods.map(|(at, of)| if south(at) { of.1 } else { of.0 });
        let is_any = |wanted: bool| (0..prices.len()).any(|at| south(at) == wanted);
        let freight =
            u32::from(is_any(false)) * freights[0] + u32::from(is_any(true)) * freights[1];
        goods.sum::<u32>() + freight
    };
    ways.map(cost).min().unwrap()
}

#[test]
fn lines_that_only_pay_the_freight_together_come_together() {
    // Each saves 6 in the South, whose freight is 10: both do for it, one does not.
    let reorder = from_two([0, 10], &[(20, 14), (20, 14)]);
    assert!(
        reorder
            .lines
            .iter()
            .all(|line| line.buy.supplier == "South")
    );
    assert!((in_all(&reorder) - 38.0).abs() < 1e-9);
    assert!((in_all(&from_two([0, 10], &[(20, 14), (20, 20)])) - 40.0).abs() < 1e-9);
    // The first is 1 dearer in the South and the second 12 cheaper: the order to the North is saved by moving the first.
    let reorder = from_two([10, 10], &[(20, 21), (30, 18)]);
    assert_eq!(reorder.orders.len(), 1);
    assert!((in_all(&reorder) - 49.0).abs() < 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn no_way_to_share_lines_between_two_suppliers_is_cheaper(
        north in 0_u32..30,
        south in 0_u32..30,
        prices in proptest::collection::vec((20_u32..40, 20_u32..40), 1..5),
    ) {
        let found = in_all(&from_two([north, south], &prices));
        let by_hand = f64::from(least([north, south], &prices));
        prop_assert!((found - by_hand).abs() < 1e-9, "{} {}", found, by_hand);
    }
}
