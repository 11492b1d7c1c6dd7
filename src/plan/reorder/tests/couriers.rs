//! What a courier costs on the order list.

use super::*;

#[test]
fn a_courier_is_paid_once_for_the_lines_that_come_with_him_on_one_day() {
    let mut sample = Sample::new("");
    sample.supplier("North", |north| {
        north.freight = Some(euros(12.0));
        north.courier_h = Some(2.0);
        north.courier_cost = Some(euros(60.0));
    });
    sample.kit("K");
    for (number, each) in [("A", 6.0), ("B", 1.13)] {
        let part = sample.part(number);
        let in_stock = Some(QuotedLeadTime::InStock);
        sample.offer(part, "North", in_stock, |offer| offer.price = price(each));
        sample.line(Some(part), 1.0, &[], |_| {});
    }
    // Planned today: nothing comes in time, so that the fastest way is taken.
    let today = sample.shop.as_of.date();
    sample.planned(&today.to_string());
    let plan = sample.plan();
    let lines = &plan.reorder.lines;
    assert_eq!(lines.len(), 2);
    for (line, freight) in lines.iter().zip([60.0, 0.0]) {
        assert_eq!(line.buy.delivery, crate::plan::DeliveryKind::Courier);
        assert_eq!(line.buy.freight, euros(freight));
        assert_eq!(line.buy.surcharge, euros(0.0));
    }
    // By hand: 6.00 and 1.13 of goods, and 60.00 for the courier, no freight of a consignment.
    let order = &plan.reorder.orders[0];
    assert_eq!(
        (order.goods, order.freight),
        (Some(euros(7.13)), Some(euros(60.0)))
    );
}
