//! Lists that say what a part is and how many of it lie where, in one table: parts and stock at once.

use sparewright::catalogue::Shop;
use sparewright::import::Imported;
use sparewright::part::{Closure, Family};
use sparewright::record::ShopSettings;

use super::shops::{Bench, moment, read};

/// One list for both; the bearing lies in two bins.
const INVENTORY: (&str, &str) = (
    "inventory.csv",
    "part no,description,designation,stock,bin,min stock\n\
     A-1,bearing drive end,6205-2RS,2,B1,1\n\
     A-1,bearing drive end,6205-2RS,3,B7,1\n\
     A-2,shaft seal,35x52x7,0,B2,\n\
     A-3,guide bush,,4,B3,2\n",
);

fn shop(imported: Imported) -> Shop {
    let as_of = moment(11, 20);
    Shop::new(imported.records, ShopSettings::default(), as_of)
}

fn told(shop: &Shop) -> Vec<String> {
    (shop.unresolved.iter())
        .map(|one| format!("row {}: {}", one.place.row + 1, one.reason))
        .collect()
}

fn on_hand(shop: &Shop, number: &str) -> Vec<(Option<String>, Option<f64>)> {
    let id = shop.catalogue.find(number).unwrap();
    (shop.stock.iter())
        .filter(|stock| stock.part == id)
        .map(|stock| (stock.record.bin.clone(), stock.record.on_hand))
        .collect()
}

#[test]
fn one_list_of_parts_and_stock_gives_both() {
    let shop = shop(read(&[INVENTORY]));
    assert_eq!(told(&shop), Vec::<String>::new());
    assert_eq!(shop.catalogue.parts().len(), 3);
    let part = |number: &str| shop.catalogue.part(shop.catalogue.find(number).unwrap());
    let bearing = part("A-1");
    assert!(bearing.is_own);
    assert_eq!(bearing.designation.as_deref(), Some("6205-2RS"));
    assert_eq!(bearing.description.as_deref(), Some("bearing drive end"));
    assert_eq!(bearing.family, Some(Family::DeepGrooveBall));
    assert_eq!(bearing.traits.closure, Some(Closure::SealBothSides));
    assert_eq!(bearing.own_min_stock, Some(1.0));
    // ISO 15: 25 x 52 x 15.
    assert_eq!(bearing.size.unwrap().to_string(), "25 x 52 x 15 mm");
    assert_eq!(part("A-2").family, Some(Family::LipSeal));
    assert_eq!(part("A-3").description.as_deref(), Some("guide bush"));
    assert_eq!(part("A-3").own_min_stock, Some(2.0));
    assert_eq!(
        on_hand(&shop, "A-1"),
        [
            (Some("B1".to_owned()), Some(2.0)),
            (Some("B7".to_owned()), Some(3.0))
        ]
    );
    // Nothing there is a count, not an unknown.
    assert_eq!(on_hand(&shop, "A-2"), [(Some("B2".to_owned()), Some(0.0))]);
}

#[test]
fn a_german_list_gives_the_same() {
    let shop = shop(read(&[(
        "Bestand.csv",
        "Teilenr.;Benennung;Bestand;Lagerplatz;Mindestbestand\n\
         A-1;Rillenkugellager 6205-2RS;5;B1;1\n",
    )]));
    let part = shop.catalogue.part(shop.catalogue.find("A-1").unwrap());
    assert!(part.is_own);
    assert_eq!(part.size.unwrap().to_string(), "25 x 52 x 15 mm");
    assert_eq!(part.own_min_stock, Some(1.0));
    assert_eq!(on_hand(&shop, "A-1").len(), 1);
}

#[test]
fn other_tables_find_the_parts_of_such_a_list() {
    let shop = shop(read(&[
        INVENTORY,
        (
            "prices.csv",
            "supplier,designation,price EUR,lead time\nNorth,6205 2RS,4.20,3 days\n",
        ),
        (
            "usages.csv",
            "date,part no,quantity,machine\n2026-03-02,A-1,1,Press\n2026-04-02,A-3,1,Press\n",
        ),
        (
            "kits.csv",
            "kit,line,part no,quantity,task\nPress head,10,A-1,2,fit\nPress head,20,A-2,1,fit\n",
        ),
    ]));
    assert_eq!(told(&shop), Vec::<String>::new());
    let bearing = shop.catalogue.find("A-1").unwrap();
    assert_eq!(shop.offers.len(), 1);
    assert_eq!(shop.offers[0].part, bearing);
    assert_eq!(shop.usages.len(), 2);
    assert_eq!(shop.usages[0].part, bearing);
    let lines = &shop.kits[0].lines;
    assert_eq!(lines[0].part, Some(bearing));
    assert_eq!(lines[1].part, shop.catalogue.find("A-2"));
}

#[test]
fn a_parts_table_comes_first_and_the_list_fills_gaps_only() {
    let shop = shop(read(&[
        (
            "parts.csv",
            "part no,designation,description,min stock\nA-1,6205-2RS C3,fan bearing,\nA-9,6206,spare,4\n",
        ),
        INVENTORY,
    ]));
    let part = shop.catalogue.part(shop.catalogue.find("A-1").unwrap());
    assert_eq!(part.designation.as_deref(), Some("6205-2RS C3"));
    assert_eq!(part.description.as_deref(), Some("fan bearing"));
    // What only the stock list says.
    assert_eq!(part.own_min_stock, Some(1.0));
    // A list's short words are no contradiction.
    assert_eq!(told(&shop).len(), 2, "{:?}", told(&shop));
    for number in ["A-2", "A-3"] {
        let reason =
            format!("part `{number}` is in no parts table; what this list says of it is used");
        assert!(told(&shop).iter().any(|line| line.ends_with(&reason)));
        assert!(shop.catalogue.find(number).is_some());
    }
}

#[test]
fn a_size_that_the_list_says_otherwise_is_told_and_the_parts_table_is_used() {
    let shop = shop(read(&[
        ("parts.csv", "part no,designation\nA-1,6305-2RS\n"),
        INVENTORY,
    ]));
    let part = shop.catalogue.part(shop.catalogue.find("A-1").unwrap());
    assert_eq!(part.size.unwrap().to_string(), "25 x 62 x 17 mm");
    // Both rows of the list, with both sizes.
    let lies: Vec<String> = (told(&shop).into_iter())
        .filter(|line| line.contains("lies here as"))
        .collect();
    assert_eq!(lies.len(), 2, "{lies:?}");
    assert!(
        lies[0].contains("25 x 62 x 17 mm at parts.csv") && lies[0].contains("25 x 52 x 15"),
        "{lies:?}"
    );
}

#[test]
fn a_contested_size_stays_unknown_whatever_a_third_row_says() {
    for table in [
        "part no,designation\nA-1,6205\nA-1,6206\nA-1,6205\n",
        "part no,designation,stock,bin\nA-1,6205,1,B1\nA-1,6206,1,B2\nA-1,6205,1,B3\n",
    ] {
        let shop = shop_of(table);
        let part = shop.catalogue.part(shop.catalogue.find("A-1").unwrap());
        assert_eq!(part.size, None, "{table}");
        assert!(
            told(&shop)[0].contains("its size is unknown"),
            "{:?}",
            told(&shop)
        );
    }
}

#[test]
fn bins_of_one_part_that_say_it_twice_are_no_number_used_twice() {
    let shop = shop(read(&[INVENTORY]));
    assert!(
        !(told(&shop).iter()).any(|line| line.contains("used twice")),
        "{:?}",
        told(&shop)
    );
    // Two different bearings under one number are told.
    let mixed = shop_of("part no,designation,stock,bin\nA-1,6205,2,B1\nA-1,6206,3,B7\n");
    let told = told(&mixed);
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].contains("its size is unknown"), "{told:?}");
}

fn shop_of(text: &str) -> Shop {
    shop(read(&[("inventory.csv", text)]))
}

#[test]
fn a_list_of_numbers_and_bins_alone_makes_no_parts() {
    let shop = shop_of("part no,bin,on hand\nA-1,B1,2\n6205-2RS,B2,1\n");
    // A standard designation on the shelf is a part; a number that nothing describes is not.
    assert_eq!(shop.catalogue.parts().len(), 1);
    assert!(shop.catalogue.find("6205-2RS").is_some());
    assert!(told(&shop)[0].contains("`A-1` is in no parts table"));
}

#[test]
fn an_other_number_of_the_parts_table_leads_to_its_part() {
    let shop = shop(read(&[
        (
            "parts.csv",
            "own number,other numbers,designation\nB-7,A-1; OLD-9,6205-2RS\n",
        ),
        INVENTORY,
    ]));
    assert_eq!(shop.catalogue.find("A-1"), shop.catalogue.find("B-7"));
    assert_eq!(on_hand(&shop, "B-7").len(), 2);
    let part = shop.catalogue.part(shop.catalogue.find("B-7").unwrap());
    assert_eq!(part.number, "B-7");
    assert_eq!(part.own_min_stock, Some(1.0));
}

#[test]
fn a_workspace_keeps_what_such_a_list_says_and_its_next_edition_replaces_it() {
    let parts = (
        "parts.csv",
        "part no,designation,shelf life months\nA-9,6206,24\n",
    );
    let first = (
        "inventory_2026-10-01.csv",
        "part no,designation,stock,bin\nA-1,6205-2RS,2,B1\nA-9,6206,1,B2\n",
    );
    let second = (
        "inventory_2026-11-01.csv",
        "part no,designation,stock,bin\nA-1,6205-2Z,2,B1\nA-9,6206,1,B2\n",
    );
    let bench = Bench::of(&[&[parts, first]]);
    let shop_now = || shop(bench.workspace.load(None).unwrap());
    let designation = |shop: &Shop, number: &str| {
        let id = shop.catalogue.find(number).unwrap();
        shop.catalogue.part(id).designation.clone().unwrap()
    };
    assert_eq!(designation(&shop_now(), "A-1"), "6205-2RS");
    bench.import(&[second]);
    let after = shop_now();
    assert_eq!(designation(&after, "A-1"), "6205-2Z");
    // The parts table's own word is not replaced by a stock list.
    let kept = after.catalogue.part(after.catalogue.find("A-9").unwrap());
    assert_eq!(kept.shelf_life_months, Some(24.0));
    assert_eq!(
        told(&after),
        ["row 2: part `A-1` is in no parts table; what this list says of it is used"]
    );
}

#[test]
fn the_order_of_the_files_changes_nothing() {
    let parts = ("parts.csv", "part no,designation\nA-1,6205-2RS\nA-4,6304\n");
    let prices = (
        "prices.csv",
        "supplier,part no,designation,price EUR\nNorth,A-2,,2.10\nNorth,A-4,6304,7.50\n",
    );
    let of = |folders: &[&[(&str, &str)]]| {
        let shop = shop(Bench::of(folders).workspace.load(None).unwrap());
        let mut parts: Vec<String> = (shop.catalogue.parts().iter())
            .map(|part| format!("{} {:?} {:?}", part.number, part.designation, part.size))
            .collect();
        parts.sort();
        (parts, told(&shop))
    };
    let whole = of(&[&[parts, prices, INVENTORY]]);
    assert_eq!(whole, of(&[&[INVENTORY], &[prices], &[parts]]));
    assert_eq!(whole, of(&[&[prices], &[parts], &[INVENTORY]]));
}

/// One list for everything.
const EVERYTHING: (&str, &str) = (
    "spares.csv",
    "Part no,Description,Designation,Bin,On hand,Min,Supplier,Price EUR,Lead time\n\
     A-1,drive bearing,6205-2RS,B1,0,2,North,4.20,3 days\n\
     A-2,shaft seal,35x52x7,B2,4,1,North,2.10,1 week\n\
     A-3,guide bush,,B3,1,1,,,\n",
);

#[test]
fn one_list_for_everything_gives_parts_stock_and_offers() {
    let imported = read(&[EVERYTHING]);
    assert_eq!(imported.rows_read, 3, "each row counts once");
    assert_eq!(imported.rows_rejected, 0);
    let kinds: Vec<&str> = (imported.tables.iter())
        .map(|table| table.kind.name())
        .collect();
    assert_eq!(kinds, ["stock", "offers"]);
    let shop = shop(imported);
    assert_eq!(told(&shop), Vec::<String>::new());
    let numbers: Vec<&str> = (shop.catalogue.parts().iter())
        .map(|part| part.number.as_str())
        .collect();
    assert_eq!(numbers, ["A-1", "A-2", "A-3"]);
    assert!(shop.catalogue.parts().iter().all(|part| part.is_own));
    // Nobody sells the bush: a row without supplier, price and lead time has no offer and is no defect.
    assert_eq!(shop.offers.len(), 2);
    let bearing = shop.catalogue.find("A-1").unwrap();
    let offer = shop
        .offers
        .iter()
        .find(|offer| offer.part == bearing)
        .unwrap();
    assert_eq!(&*offer.record.supplier, "North");
    assert!((offer.record.price.unwrap().unit_price() - 4.20).abs() < 1e-9);
    assert_eq!(
        offer.record.quantity_available, None,
        "what lies here is not what the supplier has"
    );
    assert_eq!(on_hand(&shop, "A-1"), [(Some("B1".to_owned()), Some(0.0))]);
    assert_eq!(shop.catalogue.part(bearing).own_min_stock, Some(2.0));
}

#[test]
fn a_cell_that_both_readings_stumble_over_is_told_once() {
    let (name, text) = EVERYTHING;
    let imported = read(&[(name, &text.replace("6205-2RS", "#N/A"))]);
    let told = (imported.issues.iter())
        .filter(|issue| issue.place.row == 1)
        .count();
    assert_eq!(told, 1, "{:?}", imported.issues);
    // A count that is none is the stock's defect alone; a price that is none the offer's.
    let imported = read(&[(name, &text.replace(",4.20,", ",free,"))]);
    assert_eq!(imported.records.stock.len(), 3);
}

#[test]
fn a_workspace_keeps_both_readings_and_explains_each_value() {
    let bench = Bench::of(&[&[EVERYTHING]]);
    let loaded = bench.workspace.load(None).unwrap();
    assert_eq!(loaded.rows_read, 3, "each row counts once");
    let shop = shop(loaded);
    assert_eq!((shop.stock.len(), shop.offers.len()), (3, 2));
    let values = bench.workspace.explain("A-1").unwrap();
    let place_of = |table: &str, column: &str| {
        let value = values
            .iter()
            .find(|value| value.table == table && value.column == column);
        value.unwrap().place.to_string()
    };
    assert_eq!(place_of("stock", "on_hand"), "spares.csv, E2");
    assert_eq!(place_of("stock", "own_min_stock"), "spares.csv, F2");
    assert_eq!(place_of("stock", "designation"), "spares.csv, C2");
    assert_eq!(place_of("offers", "price_cents_e2"), "spares.csv, H2");
    // The next edition replaces what the first said, in both.
    let (_, text) = EVERYTHING;
    bench.import(&[(
        "spares.csv",
        &text.replace(",4.20,", ",4.80,").replace("B1,0,", "B1,7,"),
    )]);
    let after = self::shop(bench.workspace.load(None).unwrap());
    assert_eq!((after.stock.len(), after.offers.len()), (3, 2));
    assert_eq!(on_hand(&after, "A-1")[0].1, Some(7.0));
}

#[test]
fn a_suppliers_list_with_its_own_stock_stays_an_offer() {
    let imported = read(&[(
        "quotes.csv",
        "supplier,part no,designation,price EUR,lead time,stock\nNorth,A-1,6205-2RS,4.20,3 days,900\n",
    )]);
    assert!(
        imported.records.stock.is_empty(),
        "900 lie at the supplier's"
    );
    assert_eq!(imported.records.offers.len(), 1);
}
