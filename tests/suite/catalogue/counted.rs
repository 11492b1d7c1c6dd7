//! Usages and orders in other units than their parts: packs and pairs open into pieces by arithmetic, all else is told.

use sparewright::catalogue::Shop;
use sparewright::record::{CountedIn, OfferRecord, ReceiptRecord, Records, UsageRecord};
use sparewright::units::UnitOfCount;

use super::usage;
use crate::sample::{monday, offer, part, place, shop, stock};

const PACK: Option<CountedIn> = Some(CountedIn::Pack);

fn in_unit(unit: UnitOfCount) -> Option<CountedIn> {
    Some(CountedIn::Unit(unit))
}

fn used(quantity: f64, counted_in: Option<CountedIn>) -> UsageRecord {
    UsageRecord {
        counted_in,
        ..usage("B-1", 10, quantity)
    }
}

/// Offers of `B-1` in packs of these sizes.
fn offers_in(packs: &[f64]) -> impl Iterator<Item = OfferRecord> {
    packs.iter().map(|pack| {
        let mut offer = offer("North", "6305-2RS", 5.0, None);
        offer.own_number = Some("B-1".to_owned());
        offer.pack_quantity = Some(*pack);
        offer
    })
}

/// A shop with `B-1` by the piece and offers of it in packs of these sizes.
fn with(packs: &[f64], usage: UsageRecord) -> Shop {
    shop(Records {
        parts: vec![part("B-1", "6305-2RS")],
        offers: offers_in(packs).collect(),
        usages: vec![usage],
        ..Records::default()
    })
}

fn told(shop: &Shop) -> Vec<&str> {
    shop.unresolved
        .iter()
        .map(|one| one.reason.as_str())
        .collect()
}

#[test]
fn a_usage_in_packs_and_pairs_is_one_of_so_many_pieces() {
    for (packs, quantity, unit, pieces) in [
        (&[10.0][..], 2.0, PACK, 20.0),
        (&[10.0, 10.0], 2.0, PACK, 20.0),
        (&[], 3.0, in_unit(UnitOfCount::Pair), 6.0),
        (&[], -1.0, in_unit(UnitOfCount::Pair), -2.0),
        (&[], 2.0, in_unit(UnitOfCount::Pack { pieces: 25 }), 50.0),
        (&[], 2.0, in_unit(UnitOfCount::Piece), 2.0),
        (&[10.0], 2.0, None, 2.0),
    ] {
        let shop = with(packs, used(quantity, unit));
        assert_eq!(told(&shop), Vec::<&str>::new(), "{unit:?}");
        let found = shop.usages[0].record.quantity;
        assert!((found - pieces).abs() < 1e-12, "{unit:?}: {found}");
    }
}

#[test]
fn a_usage_that_nobody_can_count_is_told_and_left_out() {
    for (packs, unit, why) in [
        (
            &[][..],
            PACK,
            "no offer of `B-1` says how many are in a pack",
        ),
        (
            &[10.0, 25.0],
            PACK,
            "offers of `B-1` have packs of 10 and of 25",
        ),
        (
            &[10.0],
            in_unit(UnitOfCount::Metre),
            "metre cannot be counted as piece: a length is not a number of pieces",
        ),
        (
            &[],
            in_unit(UnitOfCount::MatchedSet { pieces: 2 }),
            "matched set of 2 cannot be counted as piece: a matched set is never split",
        ),
    ] {
        let shop = with(packs, used(2.0, unit));
        assert!(shop.usages.is_empty(), "{why}");
        assert_eq!(
            told(&shop),
            [format!("the quantity 2 is not counted: {why}")]
        );
        assert_eq!(shop.unresolved[0].place, place(9));
    }
}

#[test]
fn stock_in_packs_of_unsaid_size_takes_that_of_the_offers_and_says_so() {
    for (packs, on_hand, said) in [
        (
            &[10.0, 10.0][..],
            Some(30.0),
            "packs of a size that the row does not say are taken as `pack of 10`, the only one that is known of `B-1`",
        ),
        (
            &[],
            None,
            "the stock in packs is not counted: no offer of `B-1` says how many are in a pack; write the pieces, or the size as in `pack of 10`",
        ),
        (
            &[10.0, 25.0],
            None,
            "the stock in packs is not counted: offers of `B-1` have packs of 10 and of 25; write the pieces, or the size as in `pack of 10`",
        ),
    ] {
        let mut shelf = stock("B-1", "A1", 3.0);
        (shelf.unit_of_count, shelf.is_in_packs) = (None, true);
        shelf.reserved = Some(1.0);
        let shop = shop(Records {
            parts: vec![part("B-1", "6305-2RS")],
            offers: offers_in(packs).collect(),
            stock: vec![shelf],
            ..Records::default()
        });
        assert_eq!(told(&shop), [said]);
        let row = &shop.stock[0].record;
        assert_eq!((row.on_hand, row.is_in_packs), (on_hand, false));
        assert_eq!(row.reserved, on_hand.map(|pieces| pieces / 3.0));
    }
}

#[test]
fn the_unit_of_a_part_is_its_own_else_that_of_its_stock() {
    let mut bare = part("B-1", "6305-2RS");
    bare.facts.unit_of_count = None;
    let mut shelf = stock("B-1", "A1", 12.0);
    shelf.unit_of_count = Some(UnitOfCount::Metre);
    let records = |stock: &[sparewright::record::StockRecord]| Records {
        parts: vec![bare.clone()],
        stock: stock.to_vec(),
        usages: vec![used(2.5, in_unit(UnitOfCount::Metre))],
        ..Records::default()
    };
    let by_stock = shop(records(&[shelf]));
    assert_eq!(told(&by_stock), Vec::<&str>::new());
    assert!((by_stock.usages[0].record.quantity - 2.5).abs() < 1e-12);
    let unsaid = shop(records(&[]));
    assert!(unsaid.usages.is_empty());
    assert_eq!(
        told(&unsaid),
        [
            "the quantity 2.5 is not counted: it is in metre, and no table says what `B-1` is counted in"
        ]
    );
}

#[test]
fn an_order_counts_in_the_unit_of_its_part_or_its_quantity_is_unknown() {
    let order = |counted_in| ReceiptRecord {
        supplier: "North".into(),
        part: "B-1".into(),
        ordered: monday().date(),
        promised: None,
        received: None,
        quantity: Some(2.0),
        still_open: None,
        is_closed: false,
        counted_in,
        place: place(8),
    };
    for (unit, pieces) in [
        (in_unit(UnitOfCount::Pack { pieces: 10 }), Some(20.0)),
        (None, Some(2.0)),
        (in_unit(UnitOfCount::Metre), None),
    ] {
        let shop = shop(Records {
            parts: vec![part("B-1", "6305-2RS")],
            receipts: vec![order(unit)],
            ..Records::default()
        });
        assert_eq!(shop.receipts[0].record.quantity, pieces, "{unit:?}");
        assert_eq!(told(&shop).is_empty(), pieces.is_some(), "{unit:?}");
    }
}
