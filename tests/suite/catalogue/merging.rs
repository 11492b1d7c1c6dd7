//! Rows of one part, supplier or machine in several tables: what fills gaps, what contradicts, and that no order of rows
//! settles a contradiction by itself.

use proptest::prelude::*;
use sparewright::catalogue::Shop;
use sparewright::record::{MachineRecord, PartRecord, Records, SupplierRecord};
use sparewright::units::{Currency, Money, UnitOfCount};

use crate::sample::{kit_line, offer, part, place, shop, stock};

fn reasons(shop: &Shop) -> Vec<&str> {
    shop.unresolved
        .iter()
        .map(|one| one.reason.as_str())
        .collect()
}

fn of_parts(parts: Vec<PartRecord>) -> Shop {
    shop(Records {
        parts,
        ..Records::default()
    })
}

/// A part in a table of its own, so that no number is used twice in one.
fn row(number: &str, designation: &str, file: &str) -> PartRecord {
    let mut part = part(number, designation);
    part.place.file = file.into();
    part
}

fn size(shop: &Shop, number: &str) -> Option<String> {
    let id = shop.catalogue.find(number)?;
    shop.catalogue.part(id).size.map(|size| size.to_string())
}

#[test]
fn a_size_that_two_rows_contradict_stays_unknown_whatever_a_third_says() {
    // ISO 15: 6205 is 25 x 52 x 15, 6206 is 30 x 62 x 16 mm.
    for (designations, expected) in [
        (&["6205"][..], Some("25 x 52 x 15 mm")),
        (&["6205", "6205"], Some("25 x 52 x 15 mm")),
        (&["6205", "no size"], Some("25 x 52 x 15 mm")),
        (&["no size", "6205"], Some("25 x 52 x 15 mm")),
        (&["6205", "6206"], None),
        (&["6205", "6206", "6205"], None),
        (&["6205", "6206", "6206"], None),
        (&["6205", "6206", "no size"], None),
        (&["6205", "6206", "6205", "6205"], None),
        (&["no size", "6205", "6206", "6205"], None),
    ] {
        let rows = designations.iter().enumerate();
        let parts = rows
            .map(|(at, designation)| row("A", designation, &format!("{at}.csv")))
            .collect();
        let shop = of_parts(parts);
        assert_eq!(shop.catalogue.parts().len(), 1, "{designations:?}");
        assert_eq!(size(&shop, "A").as_deref(), expected, "{designations:?}");
        let is_told = reasons(&shop)
            .iter()
            .any(|reason| reason.contains("its size is unknown until one of them is mended"));
        assert_eq!(
            is_told,
            expected.is_none(),
            "{designations:?}: {:?}",
            reasons(&shop)
        );
    }
}

#[test]
fn a_later_row_fills_gaps_and_never_overwrites() {
    let mut first = row("A", "6205-2RS", "a.csv");
    first.description = Some("first".to_owned());
    first.own_min_stock = Some(2.0);
    let mut second = row("A", "6205-2RS", "b.csv");
    second.description = Some("second".to_owned());
    second.speed_limit_rpm = Some(9_000.0);
    second.shelf_life_months = Some(60.0);
    second.aliases = vec!["OLD-7".to_owned()];
    let shop = of_parts(vec![first, second]);
    let id = shop.catalogue.find("A").unwrap();
    let part = shop.catalogue.part(id);
    assert_eq!(part.description.as_deref(), Some("first"));
    assert_eq!(part.own_min_stock, Some(2.0));
    assert_eq!(part.speed_limit_rpm, Some(9_000.0));
    assert_eq!(part.shelf_life_months, Some(60.0));
    assert_eq!(
        shop.catalogue.find("old 7"),
        Some(id),
        "an alias of the second row finds the part"
    );
    assert_eq!(part.places.len(), 2);
    assert_eq!(reasons(&shop), [""; 0]);
}

#[test]
fn each_figure_that_two_rows_tell_differently_is_named_with_both_sides() {
    type Change = fn(&mut PartRecord);
    let cases: [(Change, &str); 5] = [
        (
            |part| part.own_min_stock = Some(3.0),
            "minimum stock 2 there, 3 here",
        ),
        (
            |part| part.shelf_life_months = Some(84.0),
            "shelf life in months 60 there, 84 here",
        ),
        (
            |part| part.unit_of_count = Some(UnitOfCount::Pair),
            "unit of count piece there, pair here",
        ),
        (
            |part| part.designation = Some("6205-2Z".to_owned()),
            "designation `62052RS` there, `62052Z` here",
        ),
        (
            |part| part.traits.clearance = Some(sparewright::part::Clearance::C4),
            "clearance C3 there, C4 here",
        ),
    ];
    for (change, expected) in cases {
        let mut first = row("A", "6205-2RS", "a.csv");
        first.own_min_stock = Some(2.0);
        first.shelf_life_months = Some(60.0);
        first.traits.clearance = Some(sparewright::part::Clearance::C3);
        let mut second = first.clone();
        second.place.file = "b.csv".into();
        change(&mut second);
        let shop = of_parts(vec![first, second]);
        let said = reasons(&shop);
        assert_eq!(said.len(), 1, "{expected}: {said:?}");
        assert!(said[0].contains(expected), "{expected}: {said:?}");
        assert!(said[0].ends_with("what stands there is used"), "{said:?}");
    }
}

#[test]
fn an_offer_finds_its_part_by_own_number_alias_and_designation_in_this_order() {
    let mut known = row("A-1", "6205-2RS", "a.csv");
    known.aliases = vec!["N-77".to_owned()];
    let other = row("A-2", "6206-2RS", "a.csv");
    type Change = fn(&mut sparewright::record::OfferRecord);
    let cases: [(&str, Change, Option<&str>); 8] = [
        ("6205-2RS", |_| {}, Some("A-1")),
        ("6205 2RS", |_| {}, Some("A-1")),
        ("6206-2RS", |_| {}, Some("A-2")),
        (
            "6205-2RS",
            |offer| offer.own_number = Some("a 1".to_owned()),
            Some("A-1"),
        ),
        (
            "6205-2RS",
            |offer| offer.supplier_number = Some("n 77".to_owned()),
            Some("A-1"),
        ),
        // The own number says A-2, the size is that of A-1: nobody's, and told.
        (
            "6205-2RS",
            |offer| offer.own_number = Some("A-2".to_owned()),
            None,
        ),
        (
            "6206-2RS",
            |offer| offer.supplier_number = Some("N-77".to_owned()),
            None,
        ),
        // Another clearance is another part (ISO 5753-1).
        ("6205-2RS C3", |_| {}, Some("6205-2RS C3")),
    ];
    for (designation, change, expected) in cases {
        let mut offered = offer("East", designation, 8.0, None);
        change(&mut offered);
        let shop = shop(Records {
            parts: vec![known.clone(), other.clone()],
            offers: vec![offered].into(),
            ..Records::default()
        });
        let found = shop
            .offers
            .first()
            .map(|offer| shop.catalogue.part(offer.part).number.as_str());
        assert_eq!(found, expected, "{designation}: {:?}", reasons(&shop));
        assert_eq!(
            shop.unresolved.len(),
            usize::from(expected.is_none()),
            "{designation}"
        );
    }
}

#[test]
fn a_name_of_two_parts_is_nobodys_until_a_person_says_which() {
    let first = row("A-1", "6205", "a.csv");
    let mut second = row("A-2", "6206", "a.csv");
    second.aliases = vec!["6205".to_owned()];
    let shop = shop(Records {
        parts: vec![first, second],
        stock: vec![
            stock("6205", "R1", 2.0),
            stock("A-1", "R1", 2.0),
            stock("A-2", "R2", 3.0),
        ],
        kit_lines: vec![
            kit_line("Pump", "10", Some("6205"), 1.0),
            kit_line("Pump", "20", Some("A-2"), 1.0),
        ],
        ..Records::default()
    });
    assert_eq!(
        shop.catalogue.parts().len(),
        2,
        "no third part is made of the name"
    );
    assert_eq!(shop.catalogue.find("6205"), None);
    assert_eq!(shop.stock.len(), 2);
    assert_eq!(shop.kits[0].lines[0].part, None);
    assert_eq!(shop.kits[0].lines[1].part, shop.catalogue.find("A-2"));
    let why =
        "`6205` is the designation of `A-1` and another number of `A-2`; write the own number";
    assert_eq!(
        reasons(&shop),
        [why, why],
        "of the stock row and of the kit line"
    );
}

fn supplier(file: &str, change: impl Fn(&mut SupplierRecord)) -> SupplierRecord {
    let mut place = place(1);
    place.file = file.into();
    let mut supplier = SupplierRecord::named("Nordlager", place);
    change(&mut supplier);
    supplier
}

#[test]
fn a_supplier_told_twice_is_never_approved_by_one_row_against_the_other() {
    for (one, other, expected, is_told) in [
        (Some(true), Some(true), Some(true), false),
        (Some(false), Some(false), Some(false), false),
        (Some(true), None, Some(true), false),
        (None, Some(true), Some(true), false),
        (None, None, None, false),
        (Some(true), Some(false), Some(false), true),
        (Some(false), Some(true), Some(false), true),
    ] {
        let shop = shop(Records {
            suppliers: vec![
                supplier("a.csv", |supplier| supplier.is_approved = one),
                supplier("b.csv", |supplier| {
                    supplier.is_approved = other;
                    supplier.name = "NORD-LAGER".to_owned();
                    supplier.calendar = Some("east".to_owned());
                }),
            ],
            ..Records::default()
        });
        assert_eq!(shop.suppliers.len(), 1);
        let found = shop.suppliers.values().next().unwrap();
        assert_eq!(found.is_approved, expected, "{one:?} and {other:?}");
        assert_eq!(found.name, "Nordlager", "the first row names it");
        assert_eq!(
            found.calendar.as_deref(),
            Some("east"),
            "the second fills its gaps"
        );
        assert_eq!(
            shop.unresolved.len(),
            usize::from(is_told),
            "{one:?} and {other:?}"
        );
    }
}

#[test]
fn figures_of_a_machine_told_twice_are_those_of_the_first_row_and_the_difference_is_told() {
    let euro = |amount: f64| Money::from_units(amount, Currency::EUR).ok();
    let machine = |file: &str, cost: f64, installed: Option<f64>| MachineRecord {
        machine: "P-1".to_owned(),
        description: None,
        downtime_cost_per_hour: euro(cost),
        installed,
        in_use_from: None,
        in_use_until: None,
        running_hours: None,
        criticality: None,
        place: {
            let mut place = place(1);
            place.file = file.into();
            place
        },
    };
    for (rows, cost, installed, told) in [
        (
            vec![
                machine("a.csv", 100.0, None),
                machine("b.csv", 100.0, Some(2.0)),
            ],
            100.0,
            Some(2.0),
            None,
        ),
        (
            vec![
                machine("a.csv", 100.0, Some(1.0)),
                machine("b.csv", 120.0, Some(1.0)),
            ],
            100.0,
            Some(1.0),
            Some("cost of an hour down 100.00 EUR there, 120.00 EUR here"),
        ),
        (
            vec![
                machine("a.csv", 100.0, Some(1.0)),
                machine("b.csv", 100.0, Some(2.0)),
            ],
            100.0,
            Some(1.0),
            Some("installed 1 there, 2 here"),
        ),
    ] {
        let shop = shop(Records {
            machines: rows,
            ..Records::default()
        });
        let found = shop.machines.values().next().unwrap();
        assert_eq!(
            (found.downtime_cost_per_hour, found.installed),
            (euro(cost), installed)
        );
        match told {
            None => assert_eq!(reasons(&shop), [""; 0]),
            Some(words) => assert!(reasons(&shop)[0].contains(words), "{:?}", reasons(&shop)),
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Whether a part has a size, and which, hangs on its rows and not on their order.
    #[test]
    fn the_order_of_rows_never_decides_a_size(
        designations in prop::collection::vec(prop::sample::select(vec!["6205", "6206", "no size"]), 1..6),
        shuffle in any::<prop::sample::Index>(),
    ) {
        let of = |designations: &[&str]| {
            let rows = designations.iter().enumerate();
            size(&of_parts(rows.map(|(at, designation)| row("A", designation, &format!("{at}.csv"))).collect()), "A")
        };
        let mut turned = designations.clone();
        turned.rotate_left(shuffle.index(designations.len()));
        prop_assert_eq!(of(&designations), of(&turned), "{:?}", designations);
        turned.reverse();
        prop_assert_eq!(of(&designations), of(&turned), "{:?}", designations);
    }
}
