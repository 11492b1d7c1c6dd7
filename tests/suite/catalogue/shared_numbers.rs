//! Numbers that two suppliers use for different things, one of them an own part. That each supplier has numbers of its own:
//! common practice, no source.

use sparewright::record::{OfferRecord, Records};

use crate::sample::{kit_line, offer, part, shop, stock};

#[test]
fn a_number_in_no_parts_table_without_words_is_not_the_part_of_another_supplier() {
    let row = |supplier: &str, designation: Option<&str>, price: f64| {
        let of = offer(supplier, designation.unwrap_or_default(), price, None);
        OfferRecord {
            own_number: Some("1001".to_owned()),
            designation: designation.map(Into::into),
            ..of
        }
    };
    let shop = shop(Records {
        parts: vec![part("T-1", "6204-2RS")],
        offers: vec![
            row("Hagedorn", Some("6204-2RS"), 3.5),
            row("Brinkhoff", None, 0.12),
            row("Ostmann", Some("6204-2RS"), 3.6),
        ]
        .into(),
        ..Records::default()
    });
    let offered: Vec<&str> = (shop.offers.iter())
        .map(|of| &*of.record.supplier)
        .collect();
    assert_eq!(offered, ["Hagedorn", "Ostmann"]);
    assert_eq!(shop.unresolved.len(), 1, "{:?}", shop.unresolved);
    let told = "own number `1001` is in no parts table, and the row gives no designation";
    assert_eq!(shop.unresolved[0].reason, told);
}

#[test]
fn a_number_of_an_own_part_and_of_another_one_names_neither() {
    let theirs = |supplier: &str, designation: &str| OfferRecord {
        supplier_number: Some("1001".to_owned()),
        ..offer(supplier, designation, 1.0, None)
    };
    let offers = [
        theirs("Hagedorn", "6204-2RS"),
        theirs("Brinkhoff", "Kabelbinder schwarz"),
    ];
    let shop = shop(Records {
        parts: vec![part("T-1", "6204-2RS")],
        offers: offers.to_vec().into(),
        kit_lines: vec![kit_line("G1", "10", Some("1001"), 2.0)],
        stock: vec![stock("1001", "R1", 3.0)],
        ..Records::default()
    });
    assert_eq!(shop.kits[0].lines[0].part, None);
    assert!(shop.stock.is_empty());
    let told = "`1001` is a supplier's number of `T-1` and of `Kabelbinder schwarz`; write the own number or the designation";
    let found = shop.unresolved.iter().filter(|one| one.reason == told);
    assert_eq!(found.count(), 2, "{:?}", shop.unresolved);
}

#[test]
fn own_numbers_with_shorter_names_are_own_and_other_things_are_not() {
    let own = [
        part("T-1", "Schauglas oben"),
        part("T-2", "Keilriemensatz"),
        part("T-3", "Abstreifer"),
    ];
    let list = |words: [&str; 3]| -> Vec<OfferRecord> {
        let numbers = ["T-1", "T-2", "T-3"];
        let rows = numbers.iter().zip(words);
        rows.map(|(number, words)| OfferRecord {
            supplier_number: Some((*number).to_owned()),
            ..offer("Hagedorn", words, 1.0, None)
        })
        .collect()
    };
    for (words, are_own) in [
        (["Schauglas", "Riemen", "Lippe"], true),
        (["Schauglas", "Gummiband", "Lippe"], true),
        (["Kabelbinder", "Putzlappen", "Handschuh"], false),
    ] {
        let shop = shop(Records {
            parts: own.to_vec(),
            offers: list(words).into(),
            ..Records::default()
        });
        let taken: Vec<&str> = (shop.offers.iter())
            .map(|of| shop.catalogue.part(of.part).number.as_str())
            .collect();
        let expected = if are_own {
            ["T-1", "T-2", "T-3"]
        } else {
            words
        };
        assert_eq!(taken, expected);
        let told = (shop.notes.len(), shop.unresolved.len());
        assert_eq!(told, if are_own { (1, 0) } else { (0, 1) }, "{words:?}");
    }
}
