//! What quantities of usages, orders, stock and offers count in. Words are common practice, no source.

use sparewright::record::CountedIn;
use sparewright::units::UnitOfCount;

use super::{import, problems};

/// A usage of so many as its row says, with what it counts in.
fn used(header: &str, row: &str) -> (Option<(f64, Option<CountedIn>)>, Vec<String>) {
    let imported = import("usages.csv", &format!("{header}\n{row}\n"));
    let usage = imported.records.usages.first();
    let said = problems(&imported);
    (usage.map(|usage| (usage.quantity, usage.counted_in)), said)
}

#[test]
fn usages_keep_what_they_count_in_and_a_unit_that_is_not_read_counts_for_nothing() {
    use UnitOfCount::{Metre, Pack, Pair, Piece};
    let of = |unit| Some(CountedIn::Unit(unit));
    let header = "Date;Part no;Quantity;Unit";
    for (quantity, unit, expected) in [
        ("2", "pack of 10", Some((2.0, of(Pack { pieces: 10 })))),
        ("2", "Karton", Some((2.0, Some(CountedIn::Pack)))),
        ("2", "VE", Some((2.0, Some(CountedIn::Pack)))),
        ("2", "", Some((2.0, None))),
        ("-1", "Paar", Some((-1.0, of(Pair)))),
        ("2 Paar", "", Some((2.0, of(Pair)))),
        ("3 m", "", Some((3.0, of(Metre)))),
        ("4 pcs", "Stk", Some((4.0, of(Piece)))),
        ("1.000,5 m", "", Some((1000.5, of(Metre)))),
        ("2", "kg", None),
        ("1 Satz", "", None),
        ("1/2 Karton", "", None),
        ("2 Paar", "Stk", None),
        ("", "Stk", None),
    ] {
        let (found, said) = used(header, &format!("2026-01-05;B-1;{quantity};{unit}"));
        assert_eq!(found, expected, "{quantity} {unit}: {said:?}");
        assert_eq!(
            said.len(),
            usize::from(expected.is_none()),
            "{quantity} {unit}: {said:?}"
        );
    }
    let (_, said) = used(header, "2026-01-05;B-1;2 Paar;Stk");
    assert_eq!(
        said,
        [
            "C2: `pair` behind the figure is another unit than that of the rest of the row; expected one unit a row"
        ]
    );
}

#[test]
fn an_order_of_a_unit_that_is_not_read_is_one_of_an_unknown_quantity() {
    let header = "Supplier;Part no;Ordered;Received;Quantity;Unit";
    for (quantity, unit, expected) in [
        ("2", "pack of 10", Some(2.0)),
        ("2 Paar", "", Some(2.0)),
        ("2", "kg", None),
        ("-2", "pcs", None),
    ] {
        let row = format!("North;B-1;2026-01-05;;{quantity};{unit}");
        let imported = import("receipts.csv", &format!("{header}\n{row}\n"));
        let receipt = &imported.records.receipts[0];
        assert_eq!(receipt.quantity, expected, "{row}");
        let is_told = !problems(&imported).is_empty();
        assert_eq!(
            is_told,
            expected.is_none(),
            "{row}: {:?}",
            problems(&imported)
        );
    }
}

#[test]
fn stock_may_name_its_unit_behind_the_figure() {
    let header = "Part no;Bin;On hand;Reserved;Unit";
    for (row, on_hand, reserved, unit) in [
        (
            "B-1;A1;3 m;1;",
            Some(3.0),
            Some(1.0),
            Some(UnitOfCount::Metre),
        ),
        (
            "B-1;A1;3 m;1 m;m",
            Some(3.0),
            Some(1.0),
            Some(UnitOfCount::Metre),
        ),
        ("B-1;A1;2 Paar;;", Some(2.0), None, Some(UnitOfCount::Pair)),
        ("B-1;A1;3;1 m;", Some(3.0), None, None),
        ("B-1;A1;3 m;;pcs", None, None, Some(UnitOfCount::Piece)),
    ] {
        let imported = import("stock.csv", &format!("{header}\n{row}\n"));
        let stock = &imported.records.stock[0];
        let found = (stock.on_hand, stock.reserved, stock.unit_of_count);
        assert_eq!(
            found,
            (on_hand, reserved, unit),
            "{row}: {:?}",
            problems(&imported)
        );
    }
}

#[test]
fn an_offer_by_the_pack_is_priced_by_the_pack_and_by_an_unknown_unit_not_at_all() {
    let header = "Art no;Designation;Price EUR;Unit;Pack quantity";
    for (row, price, unit, pack) in [
        (
            "N1;6305;20,00;VE;10",
            Some(20.0),
            Some(UnitOfCount::Pack { pieces: 10 }),
            None,
        ),
        (
            "N1;6305;20,00;pcs;10",
            Some(20.0),
            Some(UnitOfCount::Piece),
            Some(10.0),
        ),
        ("N1;6305;20,00;VE;", None, None, None),
        ("N1;6305;20,00;kg;10", None, None, Some(10.0)),
        ("N1;6305;20,00;;10", Some(20.0), None, Some(10.0)),
    ] {
        let imported = import("nordlager.csv", &format!("{header}\n{row}\n"));
        let offer = &imported.records.offers[0];
        let found = offer.price.map(|price| price.unit_price());
        assert_eq!(found, price, "{row}");
        assert_eq!(
            (offer.unit_of_count, offer.pack_quantity),
            (unit, pack),
            "{row}"
        );
    }
}
