use super::*;
use crate::plan::Source;
use crate::plan::sample::{Sample, at, euros, price, workdays};
use crate::record::PriceBreak;

/// A kit of one line of `quantity` pieces and one offer; gives quantity ordered and cost.
fn bought(
    settings: &str,
    quantity: f64,
    change: impl FnOnce(&mut OfferRecord),
) -> Option<(f64, Option<Money>)> {
    let mut sample = Sample::new(settings);
    sample.supplier("North", |_| {});
    let part = sample.part("A");
    sample.offer(part, "North", workdays(2.0), change);
    sample.kit("K");
    sample.line(Some(part), quantity, &[], |_| {});
    let plan = sample.plan();
    let supply = plan.kits[0].accepted.lines[0].supplies.first()?;
    match supply.source {
        Source::Offer { ordered, .. } => Some((ordered, supply.cost)),
        _ => None,
    }
}

#[test]
fn price_breaks_count_from_the_quantity_that_is_ordered() {
    let breaks = |offer: &mut OfferRecord| {
        offer.breaks = [(5.0, 9.0), (10.0, 7.5)]
            .map(|(from_quantity, amount)| PriceBreak {
                from_quantity,
                price: price(amount).unwrap(),
            })
            .to_vec();
    };
    for (quantity, cost) in [(4.0, 40.0), (5.0, 45.0), (9.0, 75.0), (10.0, 75.0)] {
        // Nine at 9.00 cost more than ten at 7.50: ten are bought.
        let ordered = if quantity > 8.0 { 10.0 } else { quantity };
        assert_eq!(
            bought("", quantity, breaks),
            Some((ordered, Some(euros(cost))))
        );
    }
}

#[test]
fn packs_and_minimum_round_up_and_a_pack_as_unit_opens() {
    let pack_of_three = |offer: &mut OfferRecord| offer.pack_quantity = Some(3.0);
    assert_eq!(
        bought("", 4.0, pack_of_three),
        Some((6.0, Some(euros(60.0))))
    );
    let at_least_seven = |offer: &mut OfferRecord| {
        offer.pack_quantity = Some(3.0);
        offer.minimum_quantity = Some(7.0);
    };
    assert_eq!(
        bought("", 1.0, at_least_seven),
        Some((9.0, Some(euros(90.0))))
    );
    // Sold by the pack of ten at 10.00 a pack: twelve pieces are two packs.
    let by_the_pack = |offer: &mut OfferRecord| {
        offer.unit_of_count = Some(UnitOfCount::Pack { pieces: 10 });
    };
    assert_eq!(
        bought("", 12.0, by_the_pack),
        Some((2.0, Some(euros(20.0))))
    );
}

#[test]
fn a_matched_set_is_not_sold_as_singles() {
    let sets = |offer: &mut OfferRecord| {
        offer.unit_of_count = Some(UnitOfCount::MatchedSet { pieces: 2 });
    };
    assert_eq!(bought("", 2.0, sets), None);
}

#[test]
fn other_currencies_are_converted_and_a_missing_price_stays_unknown() {
    let dollars = |offer: &mut OfferRecord| {
        let usd = Currency::new("USD").unwrap();
        offer.price = Some(Price::from_units(10.0, 1, usd).unwrap());
    };
    assert_eq!(
        bought("[exchange_rates]\nUSD = 0.9", 2.0, dollars),
        Some((2.0, Some(euros(18.0))))
    );
    assert_eq!(bought("", 2.0, dollars), None);
    assert_eq!(
        bought("", 2.0, |offer| offer.price = None),
        Some((2.0, None))
    );
}

#[test]
fn no_more_is_taken_than_the_supplier_has() {
    let mut sample = Sample::new("");
    sample.supplier("North", |_| {});
    let part = sample.part("A");
    sample.offer(part, "North", workdays(2.0), |offer| {
        offer.quantity_available = Some(3.0);
    });
    sample.kit("K");
    sample.line(Some(part), 2.0, &[], |_| {});
    sample.line(Some(part), 2.0, &[], |_| {});
    let plan = sample.plan();
    let uncovered: Vec<f64> = plan.kits[0]
        .accepted
        .lines
        .iter()
        .map(|line| line.uncovered)
        .collect();
    assert!(uncovered[0].abs() < 1e-9 && (uncovered[1] - 1.0).abs() < 1e-9);
    sample.offer(part, "North", workdays(9.0), |_| {});
    let plan = sample.plan();
    assert_eq!(plan.kits[0].accepted.lines[1].supplies.len(), 2);
}

#[test]
fn who_fetches_must_be_there_before_the_counter_closes() {
    let hour = |hour| chrono::NaiveTime::from_hms_opt(hour, 0, 0);
    let fetched = |as_of: &str| {
        let mut sample = Sample::new("");
        sample.shop.as_of = at(as_of);
        sample.supplier("North", |north| {
            north.counter_hours = hour(8).zip(hour(16));
            north.collection_h = Some(2.0);
        });
        let part = sample.part("A");
        sample.offer(part, "North", Some(QuotedLeadTime::InStock), |_| {});
        let plan = sample.plan();
        let ways = &plan.offers[0].deliveries;
        let way = ways.iter().find(|way| way.kind == DeliveryKind::Collected);
        way.unwrap().arrival.unwrap().likely
    };
    // By hand, 4 March 2026 being a Wednesday: two hours there and back, so that one is there an hour after one leaves; at 16:00
    // nobody opens any more, and who leaves when it opens at 8:00 is back at 10:00.
    for (as_of, back) in [
        ("2026-03-04T10:30", "2026-03-04T12:30"),
        ("2026-03-04T14:59", "2026-03-04T16:59"),
        ("2026-03-04T15:00", "2026-03-05T10:00"),
        ("2026-03-04T15:59", "2026-03-05T10:00"),
        ("2026-03-04T16:30", "2026-03-05T10:00"),
        ("2026-03-06T15:30", "2026-03-09T10:00"),
    ] {
        assert_eq!(fetched(as_of), at(back), "{as_of}");
    }
}

#[test]
fn an_offer_of_fewer_than_a_pack_or_the_minimum_is_left_out_with_its_figures() {
    let why = |pack: Option<f64>, minimum: Option<f64>, available: f64| {
        let mut sample = Sample::new("");
        sample.supplier("North", |_| {});
        let part = sample.part("A");
        sample.offer(part, "North", workdays(2.0), |offer| {
            offer.pack_quantity = pack;
            offer.minimum_quantity = minimum;
            offer.quantity_available = Some(available);
        });
        let unusable = sample.plan().unusable_offers;
        unusable.first().map(|of| of.why.to_string())
    };
    let said = |available: &str, least: &str| {
        Some(format!(
            "the supplier has {available}, and pack and minimum quantity allow no order below {least}"
        ))
    };
    // By hand: packs of ten and three there; at least seven in packs of three are nine; half a piece is none.
    assert_eq!(why(Some(10.0), None, 3.0), said("3", "10"));
    assert_eq!(why(Some(3.0), Some(7.0), 8.0), said("8", "9"));
    assert_eq!(why(None, Some(4.0), 3.0), said("3", "4"));
    assert_eq!(why(None, None, 0.5), said("0.5", "1"));
    for (pack, minimum, available) in [
        (Some(10.0), None, 10.0),
        (Some(3.0), Some(7.0), 9.5),
        (None, None, 1.0),
    ] {
        assert_eq!(why(pack, minimum, available), None);
    }
}

#[test]
fn a_supply_tells_what_is_bought_in_the_unit_of_the_line() {
    let gives = |unit: UnitOfCount, quantity: f64, change: &dyn Fn(&mut OfferRecord)| {
        let mut sample = Sample::new("");
        sample.supplier("North", |_| {});
        let part = sample.part_with("A", |part| part.unit_of_count = Some(unit));
        sample.offer(part, "North", workdays(2.0), change);
        sample.kit("K");
        sample.line(Some(part), quantity, &[], |line| {
            line.unit_of_count = Some(unit);
        });
        let plan = sample.plan();
        match plan.kits[0].accepted.lines[0].supplies[0].source {
            Source::Offer { ordered, gives, .. } => (ordered, gives),
            _ => panic!("bought"),
        }
    };
    // By hand: one pair of two single pieces is one pair; ten pairs are the least; two packs of ten are twenty pieces; 9.5 m
    // in lengths of 5 m are 10 m.
    let (pair, metre, piece) = (UnitOfCount::Pair, UnitOfCount::Metre, UnitOfCount::Piece);
    let singles = |offer: &mut OfferRecord| offer.unit_of_count = Some(UnitOfCount::Piece);
    assert_eq!(gives(pair, 1.0, &singles), (2.0, 1.0));
    let ten = |offer: &mut OfferRecord| {
        offer.unit_of_count = Some(UnitOfCount::Pair);
        offer.minimum_quantity = Some(10.0);
    };
    assert_eq!(gives(pair, 1.0, &ten), (10.0, 10.0));
    let packs = |offer: &mut OfferRecord| {
        offer.unit_of_count = Some(UnitOfCount::Pack { pieces: 10 });
    };
    assert_eq!(gives(piece, 12.0, &packs), (2.0, 20.0));
    let lengths = |offer: &mut OfferRecord| {
        offer.unit_of_count = Some(UnitOfCount::Metre);
        offer.pack_quantity = Some(5.0);
    };
    assert_eq!(gives(metre, 9.5, &lengths), (10.0, 10.0));
}

#[test]
fn the_same_shop_gives_the_same_plan() {
    let mut sample = Sample::new("records_from = \"2024-03-04\"");
    sample.supplier("North", |_| {});
    let parts = ["A", "B"].map(|number| sample.part(number));
    for part in parts {
        sample.offer(part, "North", workdays(2.0), |_| {});
        sample.usage(part, "2025-03-04", 2.0);
        sample.stock(part, -1.0, |_| {});
    }
    sample.kit("K");
    sample.line(Some(parts[0]), 2.0, &[parts[1]], |_| {});
    sample.planned("2026-06-01");
    assert_eq!(
        format!("{:?}", sample.plan()),
        format!("{:?}", sample.plan())
    );
}
