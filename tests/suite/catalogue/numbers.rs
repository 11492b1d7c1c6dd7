//! Which numbers tie rows to parts: a supplier's holds at that supplier only, and what a row says of itself decides.
//!
//! That clearance and closure make another part: ISO 5753-1 and the suffixes of DIN 623-1. That each supplier has numbers of
//! its own: common practice, no source.

use sparewright::catalogue::{PartId, Shop};
use sparewright::record::{OfferRecord, ReceiptRecord, Records, UsageRecord};

use crate::sample::{kit_line, monday, offer, part, place, shop, stock};

fn theirs(supplier: &str, number: &str, designation: &str, price: f64) -> OfferRecord {
    OfferRecord {
        supplier_number: Some(number.to_owned()),
        ..offer(supplier, designation, price, None)
    }
}

fn offered(offers: Vec<OfferRecord>) -> Records {
    Records {
        offers: offers.into(),
        ..Records::default()
    }
}

/// What each offer is taken for, by supplier and price.
fn taken_for(shop: &Shop) -> Vec<(String, f64, String)> {
    let said = |of: &sparewright::catalogue::OfferOf| {
        let price = of.record.price.map_or(0.0, |price| price.unit_price());
        let number = shop.catalogue.part(of.part).number.clone();
        (of.record.supplier.to_string(), price, number)
    };
    let mut said: Vec<_> = shop.offers.iter().map(said).collect();
    said.sort_by(|a, b| a.partial_cmp(b).unwrap());
    said
}

fn line(supplier: &str, price: f64, number: &str) -> (String, f64, String) {
    (supplier.to_owned(), price, number.to_owned())
}

fn number(shop: &Shop, part: Option<PartId>) -> Option<&str> {
    part.map(|id| shop.catalogue.part(id).number.as_str())
}

#[test]
fn equal_numbers_of_two_suppliers_are_two_parts_in_any_order_of_the_lists() {
    let lists = [
        theirs("Hagedorn", "1001", "6204-2RS", 3.5),
        theirs("Hagedorn", "1002", "6206", 5.5),
        theirs("Brinkhoff", "1001", "Kabelbinder schwarz", 0.12),
        theirs("Brinkhoff", "1002", "Putzlappen Karton", 2.4),
    ];
    for turn in 0..lists.len() {
        for own in [false, true] {
            let mut offers = lists.to_vec();
            offers.rotate_left(turn);
            let parts = [part("T-1", "6204-2RS"), part("T-3", "6206")];
            let shop = shop(Records {
                parts: if own { parts.to_vec() } else { Vec::new() },
                kit_lines: vec![kit_line("G1", "10", Some("6204-2RS"), 2.0)],
                ..offered(offers)
            });
            let (first, second) = if own {
                ("T-1", "T-3")
            } else {
                ("6204-2RS", "6206")
            };
            let expected = [
                line("Brinkhoff", 0.12, "Kabelbinder schwarz"),
                line("Brinkhoff", 2.4, "Putzlappen Karton"),
                line("Hagedorn", 3.5, first),
                line("Hagedorn", 5.5, second),
            ];
            assert_eq!(taken_for(&shop), expected, "turned by {turn}, own {own}");
            assert_eq!(number(&shop, shop.kits[0].lines[0].part), Some(first));
            assert!(shop.unresolved.is_empty(), "{:?}", shop.unresolved);
        }
    }
}

#[test]
fn a_number_ties_no_offers_of_another_clearance_or_closure() {
    for (offers, own, expected, told) in [
        (
            vec![("A", "6206 C3", 5.8), ("B", "6206", 5.2)],
            None,
            vec![line("A", 5.8, "6206 C3"), line("B", 5.2, "6206")],
            0,
        ),
        // One supplier with one number for two parts: told, because its number alone orders neither.
        (
            vec![("A", "6206 C3", 5.8), ("A", "6206-2RS", 4.2)],
            None,
            vec![line("A", 4.2, "6206-2RS"), line("A", 5.8, "6206 C3")],
            1,
        ),
        (
            vec![("A", "6206 C3", 5.8), ("A", "6206", 5.2)],
            Some("6206"),
            vec![line("A", 5.2, "T-3"), line("A", 5.8, "6206 C3")],
            1,
        ),
        // Another spelling of one part under one number is that part.
        (
            vec![("A", "6206-2RS C3", 5.8), ("A", "6206 C3/2RS", 5.2)],
            None,
            vec![line("A", 5.2, "6206-2RS C3"), line("A", 5.8, "6206-2RS C3")],
            0,
        ),
        // Words without a size are no evidence for one.
        (
            vec![("A", "6206 C3", 5.8), ("A", "Kabelbinder", 0.1)],
            None,
            vec![line("A", 0.1, "Kabelbinder"), line("A", 5.8, "6206 C3")],
            1,
        ),
    ] {
        let rows = offers.iter();
        let rows = rows
            .map(|(supplier, designation, price)| theirs(supplier, "1001", designation, *price));
        let shop = shop(Records {
            parts: own.map(|own| part("T-3", own)).into_iter().collect(),
            ..offered(rows.collect())
        });
        assert_eq!(taken_for(&shop), expected, "{offers:?}");
        assert_eq!(shop.unresolved.len(), told, "{:?}", shop.unresolved);
        for one in &shop.unresolved {
            let is_told = one
                .reason
                .ends_with("they are taken for two parts, each for what its row says");
            assert!(is_told, "{}", one.reason);
        }
    }
}

#[test]
fn an_own_number_holds_against_a_short_designation_but_not_against_another_one() {
    // The part is 6206-2RS C3 throughout.
    for (designation, is_used, told) in [
        ("6206-2RS C3", true, None),
        (
            "6206",
            true,
            Some("differs in closure; the offer goes by its number"),
        ),
        (
            "6206-2RS",
            true,
            Some("differs in clearance; the offer goes by its number"),
        ),
        (
            "6206-2Z C3",
            false,
            Some("differs in closure; the offer is not used"),
        ),
        (
            "6206-2RS C4",
            false,
            Some("differs in clearance; the offer is not used"),
        ),
        ("6207-2RS C3", false, Some("the offer is not used")),
        ("Kugellager Antriebsseite", true, None),
    ] {
        let mut row = offer("East", designation, 8.0, None);
        row.own_number = Some("T-2".to_owned());
        let shop = shop(Records {
            parts: vec![part("T-2", "6206-2RS C3")],
            ..offered(vec![row])
        });
        assert_eq!(shop.offers.len(), usize::from(is_used), "{designation}");
        let said: Vec<&str> = shop
            .unresolved
            .iter()
            .map(|one| one.reason.as_str())
            .collect();
        assert_eq!(
            said.len(),
            usize::from(told.is_some()),
            "{designation}: {said:?}"
        );
        if let Some(told) = told {
            assert!(said[0].contains(told), "{designation}: {said:?}");
        }
    }
}

#[test]
fn a_finer_class_of_tolerances_under_an_own_number_is_used_and_a_coarser_one_is_not_silently() {
    // ISO 492: class 6 (P6) is finer than Normal, class 5 (P5) finer than class 6.
    for (own, offered_as, is_used, is_told) in [
        ("6310 C3", "6310 P6 C3", true, false),
        ("6310 P6 C3", "6310 P5 C3", true, false),
        ("6310 P5 C3", "6310 P6 C3", false, true),
        ("6310 P6 C3", "6310 C3", true, true),
    ] {
        let mut row = offer("East", offered_as, 8.0, None);
        row.own_number = Some("T-2".to_owned());
        let shop = shop(Records {
            parts: vec![part("T-2", own)],
            ..offered(vec![row])
        });
        assert_eq!(shop.offers.len(), usize::from(is_used), "{offered_as}");
        let told = shop.unresolved.len();
        assert_eq!(told, usize::from(is_told), "{:?}", shop.unresolved);
    }
}

#[test]
fn own_numbers_that_no_parts_table_has_tie_only_what_fits() {
    let row = |supplier: &str, designation: &str, price: f64| OfferRecord {
        own_number: Some("1001".to_owned()),
        ..offer(supplier, designation, price, None)
    };
    let shop = shop(Records {
        usages: vec![usage("1001")],
        ..offered(vec![
            row("Hagedorn", "6204-2RS", 3.5),
            row("Ostmann", "6204-2RS", 3.6),
            row("Brinkhoff", "Kabelbinder schwarz", 0.12),
        ])
    });
    let expected = [
        line("Brinkhoff", 0.12, "Kabelbinder schwarz"),
        line("Hagedorn", 3.5, "6204-2RS"),
        line("Ostmann", 3.6, "6204-2RS"),
    ];
    assert_eq!(taken_for(&shop), expected);
    assert!(shop.usages.is_empty(), "the number is one of two parts now");
    assert_eq!(shop.catalogue.find("1001"), None);
    assert_eq!(shop.unresolved.len(), 2, "{:?}", shop.unresolved);
}

fn usage(part: &str) -> UsageRecord {
    UsageRecord {
        date: monday().date(),
        part: part.into(),
        quantity: 1.0,
        counted_in: None,
        machine: None,
        reason: None,
        place: place(9),
    }
}

fn open_order(supplier: &str, part: &str) -> ReceiptRecord {
    ReceiptRecord {
        supplier: supplier.into(),
        part: part.into(),
        ordered: monday().date(),
        promised: None,
        received: None,
        quantity: Some(4.0),
        still_open: None,
        is_closed: false,
        counted_in: None,
        place: place(8),
    }
}

#[test]
fn an_order_goes_by_the_number_of_its_supplier_and_a_row_without_a_supplier_by_a_number_of_one_part_only()
 {
    let shop = shop(Records {
        receipts: vec![
            open_order("HAGEDORN", "1001"),
            open_order("Brinkhoff", "1001"),
            open_order("Brinkhoff", "2002"),
            open_order("Brinkhoff", "6204-2RS"),
        ],
        usages: vec![usage("1001"), usage("2002"), usage("6206")],
        stock: vec![
            stock("1001", "R1", 3.0),
            stock("2002", "R2", 5.0),
            stock("6206", "R3", 7.0),
        ],
        kit_lines: vec![
            kit_line("G1", "10", Some("1001"), 2.0),
            kit_line("G1", "20", Some("2002"), 2.0),
        ],
        ..offered(vec![
            theirs("Hagedorn", "1001", "6204-2RS", 3.5),
            theirs("Hagedorn", "2002", "6207", 6.5),
            theirs("Brinkhoff", "1001", "Kabelbinder schwarz", 0.12),
            // By chance a designation of ISO 15, and no bearing.
            theirs("Brinkhoff", "6206", "Putzlappen Karton", 2.4),
        ])
    });
    let receipts: Vec<_> = shop
        .receipts
        .iter()
        .map(|of| number(&shop, of.part))
        .collect();
    let expected = [
        Some("6204-2RS"),
        Some("Kabelbinder schwarz"),
        None,
        Some("6204-2RS"),
    ];
    assert_eq!(receipts, expected, "in the order of their rows");
    let stocked: Vec<_> = shop
        .stock
        .iter()
        .map(|of| number(&shop, Some(of.part)))
        .collect();
    assert_eq!(stocked, [Some("6207"), Some("6206")]);
    let used: Vec<_> = shop
        .usages
        .iter()
        .map(|of| number(&shop, Some(of.part)))
        .collect();
    assert_eq!(used, [Some("6207"), Some("6206")]);
    let lines: Vec<_> = shop.kits[0]
        .lines
        .iter()
        .map(|of| number(&shop, of.part))
        .collect();
    assert_eq!(lines, [None, Some("6207")]);
    let several = "`1001` is a supplier's number of `6204-2RS` and of `Kabelbinder schwarz`; write the own number or the designation";
    let told = shop
        .unresolved
        .iter()
        .filter(|one| one.reason == several)
        .count();
    assert_eq!(
        told, 3,
        "of usage, stock and kit line: {:?}",
        shop.unresolved
    );
    let unknown = shop
        .unresolved
        .iter()
        .filter(|one| one.reason.contains("part `2002` is in no parts table"));
    assert_eq!(unknown.count(), 1, "an open order of nothing known is told");
    assert_eq!(shop.unresolved.len(), 4, "{:?}", shop.unresolved);
}

#[test]
fn a_part_without_words_is_called_by_its_number_and_a_second_one_by_its_supplier_too() {
    let bare = |supplier: &str, price: f64| OfferRecord {
        designation: None,
        ..theirs(supplier, "1001", "no words", price)
    };
    let shop = shop(offered(vec![
        bare("A", 1.0),
        bare("B", 2.0),
        bare("a", 3.0),
        bare("B", 4.0),
    ]));
    let expected = [
        // One supplier, two spellings.
        line("A", 1.0, "1001"),
        line("A", 3.0, "1001"),
        line("B", 2.0, "B 1001"),
        line("B", 4.0, "B 1001"),
    ];
    assert_eq!(taken_for(&shop), expected);
    assert!(shop.unresolved.is_empty(), "{:?}", shop.unresolved);
}

#[test]
fn a_list_whose_numbers_are_mostly_own_ones_is_numbered_by_the_shop() {
    let own = [
        part("T-1", "6204-2RS"),
        part("T-3", "6206"),
        part("T-5", "7206"),
    ];
    let bare = |number: &str, price: f64| OfferRecord {
        designation: None,
        ..theirs("Hagedorn", number, "no words", price)
    };
    let own_words = "they are taken for the shop's own";
    let their_words = "they are taken for the supplier's";
    for (offers, expected, told) in [
        // Nothing but number and price, as a quote answers an inquiry.
        (
            vec![bare("T-1", 3.2), bare("t 3", 5.2)],
            vec![line("Hagedorn", 3.2, "T-1"), line("Hagedorn", 5.2, "T-3")],
            vec![own_words],
        ),
        // A row that contradicts its number is told and not used, as with any own number.
        (
            vec![
                bare("T-1", 3.2),
                bare("T-3", 5.2),
                theirs("Hagedorn", "T-5", "6208", 9.0),
            ],
            vec![line("Hagedorn", 3.2, "T-1"), line("Hagedorn", 5.2, "T-3")],
            vec![own_words, "the offer is not used"],
        ),
        // By chance: the supplier's T-1 is something else, and what it is decides.
        (
            vec![
                theirs("Hagedorn", "T-1", "Kabelbinder", 0.1),
                theirs("Hagedorn", "T-2", "6204-2RS", 3.5),
            ],
            vec![
                line("Hagedorn", 0.1, "Kabelbinder"),
                line("Hagedorn", 3.5, "T-1"),
            ],
            vec![their_words],
        ),
        // One of many: told, and not taken.
        (
            vec![bare("T-1", 3.2), bare("X-8", 8.0), bare("X-9", 9.0)],
            vec![
                line("Hagedorn", 3.2, "Hagedorn T-1"),
                line("Hagedorn", 8.0, "X-8"),
                line("Hagedorn", 9.0, "X-9"),
            ],
            vec![their_words],
        ),
        (
            vec![bare("X-8", 8.0)],
            vec![line("Hagedorn", 8.0, "X-8")],
            vec![],
        ),
    ] {
        let shop = shop(Records {
            parts: own.to_vec(),
            ..offered(offers)
        });
        assert_eq!(taken_for(&shop), expected);
        for of in shop
            .offers
            .iter()
            .filter(|_| told.first() == Some(&own_words))
        {
            let record = &of.record;
            assert_eq!(record.supplier_number, None, "{:?}", record.own_number);
        }
        let said: Vec<&str> = (shop.notes.iter().chain(&shop.unresolved))
            .map(|one| one.reason.as_str())
            .collect();
        assert_eq!(said.len(), told.len(), "{said:?}");
        for words in told {
            assert!(
                said.iter().any(|reason| reason.contains(words)),
                "{words}: {said:?}"
            );
        }
    }
}

#[test]
fn an_own_number_that_only_an_offer_has_finds_its_part() {
    let row = OfferRecord {
        own_number: Some("E-17".to_owned()),
        ..theirs("Hagedorn", "1001", "6204-2RS", 3.5)
    };
    let shop = shop(Records {
        usages: vec![usage("e 17"), usage("1001")],
        ..offered(vec![row])
    });
    let found = shop.catalogue.find("E-17");
    assert_eq!(number(&shop, found), Some("6204-2RS"));
    let used: Vec<_> = shop.usages.iter().map(|of| Some(of.part)).collect();
    assert_eq!(used, [found, found]);
}

#[test]
fn an_alias_of_two_parts_is_that_which_an_offer_fits_and_nobodys_elsewhere() {
    let named = |number: &str, designation: &str| {
        let mut part = part(number, designation);
        part.aliases = vec!["1001".to_owned()];
        part
    };
    let bare = OfferRecord {
        designation: None,
        ..theirs("Ostmann", "1001", "no words", 9.0)
    };
    let shop = shop(Records {
        parts: vec![named("T-1", "6204-2RS"), named("T-3", "6206")],
        stock: vec![stock("1001", "R1", 3.0)],
        ..offered(vec![
            theirs("Hagedorn", "1001", "6204-2RS", 3.5),
            theirs("Brinkhoff", "1001", "6206", 5.5),
            bare,
        ])
    });
    let expected = [line("Brinkhoff", 5.5, "T-3"), line("Hagedorn", 3.5, "T-1")];
    assert_eq!(taken_for(&shop), expected);
    assert!(shop.stock.is_empty());
    let why =
        "`1001` is another number of `T-1` and of `T-3`; write the own number or the designation";
    let said: Vec<&str> = shop
        .unresolved
        .iter()
        .map(|one| one.reason.as_str())
        .collect();
    assert_eq!(said, [why, why], "of the offer and of the stock row");
    assert_eq!(shop.catalogue.find("1001"), None);
}
