//! A supplier that lists spell in several ways has one spelling. Common practice, no source.

use sparewright::record::{OfferRecord, ReceiptRecord, Records, SupplierRecord};

use crate::sample::{monday, offer, part, place, shop};

fn offers(names: &[&str]) -> Vec<OfferRecord> {
    let row = |name: &&str| offer(name, "6206", 5.0, None);
    names.iter().map(row).collect()
}

fn receipt(supplier: &str) -> ReceiptRecord {
    ReceiptRecord {
        supplier: supplier.into(),
        part: "T-3".into(),
        ordered: monday().date(),
        promised: None,
        received: Some(monday().date()),
        quantity: Some(4.0),
        still_open: None,
        is_closed: false,
        counted_in: None,
        place: place(8),
    }
}

#[test]
fn the_suppliers_table_spells_a_name_else_most_rows_do_and_of_equals_the_first() {
    for (offered, received, listed, expected) in [
        (vec!["Hagedorn", "HAGEDORN"], "hagedorn", None, "Hagedorn"),
        (
            vec!["HAGEDORN", "Hagedorn", "Hagedorn"],
            "Hagedorn",
            None,
            "Hagedorn",
        ),
        (vec!["HAGEDORN", "Hagedorn"], "Hagedorn", None, "Hagedorn"),
        (
            vec!["HAGEDORN", "HAGEDORN"],
            "hagedorn",
            Some("Hagedorn"),
            "Hagedorn",
        ),
        (
            vec!["Hage-Dorn", "HAGEDORN"],
            "HAGEDORN",
            Some("hagedorn"),
            "hagedorn",
        ),
    ] {
        let listed = listed.map(|name| SupplierRecord::named(name, place(1)));
        let shop = shop(Records {
            parts: vec![part("T-3", "6206")],
            suppliers: listed.into_iter().collect(),
            offers: offers(&offered).into(),
            receipts: vec![receipt(received)],
            ..Records::default()
        });
        assert_eq!(shop.offers.len(), offered.len());
        for offer in &shop.offers {
            assert_eq!(&*offer.record.supplier, expected, "{offered:?}");
        }
        assert_eq!(&*shop.receipts[0].record.supplier, expected, "{offered:?}");
    }
}

#[test]
fn other_firms_keep_their_names() {
    let names = ["Hagedorn", "Hagedorn Technik", "Nordlager", "—", "?"];
    let shop = shop(Records {
        parts: vec![part("T-3", "6206")],
        offers: offers(&names).into(),
        ..Records::default()
    });
    let kept: Vec<&str> = shop.offers.iter().map(|of| &*of.record.supplier).collect();
    assert_eq!(kept, names);
}
