//! Lines that ride along with the freight of others.

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
