//! Small shops for tests, built row by row; every figure is invented.

use chrono::{NaiveDate, NaiveDateTime};
use sparewright::catalogue::Shop;
use sparewright::catalogue::card_index::CardIndex;
use sparewright::import::read_folder;
use sparewright::part::designation::Designation;
use sparewright::part::{Family, SizeKey, Traits};
use sparewright::place::Place;
use sparewright::record::{
    ApprovalOutcome, ApprovalRecord, Condition, KitLine, OfferRecord, PartFacts, PartRecord,
    QuotedLeadTime, Records, ShopSettings, StockRecord,
};
use sparewright::standard;
use sparewright::units::{Currency, Price, UnitOfCount};

/// Monday, 9 March 2026, 07:30.
pub fn monday() -> NaiveDateTime {
    NaiveDate::from_ymd_opt(2026, 3, 9)
        .unwrap()
        .and_hms_opt(7, 30, 0)
        .unwrap()
}

pub fn place(row: u32) -> Place {
    Place::row(&"sample.xlsx".into(), &"Sheet1".into(), row)
}

/// Family, size and traits of a standard designation.
pub fn identity(designation: &str) -> (Option<Family>, Option<SizeKey>, Traits) {
    let Some(parsed) = Designation::parse(designation) else {
        return (None, None, Traits::default());
    };
    let row = standard::resolve(&parsed);
    let size = parsed.size.or_else(|| row.map(|row| row.size));
    (
        size.map(|size| size.family()).or(parsed.family),
        size,
        parsed.traits,
    )
}

pub fn part(own_number: &str, designation: &str) -> PartRecord {
    let (family, size, traits) = identity(designation);
    PartRecord {
        own_number: own_number.to_owned(),
        facts: PartFacts {
            aliases: Vec::new(),
            designation: Some(designation.to_owned()),
            description: None,
            family,
            size,
            size_notes: Vec::new(),
            traits,
            ratings: None,
            speed_limit_rpm: None,
            shelf_life_months: None,
            unit_of_count: Some(UnitOfCount::Piece),
            machines: Vec::new(),
            own_min_stock: None,
            own_min_reason: None,
            own_min_date: None,
        },
        place: place(1),
    }
}

pub fn offer(
    supplier: &str,
    designation: &str,
    price: f64,
    lead_time: Option<QuotedLeadTime>,
) -> OfferRecord {
    let (family, size, traits) = identity(designation);
    OfferRecord {
        supplier: supplier.into(),
        own_number: None,
        supplier_number: None,
        designation: Some(designation.into()),
        description: None,
        family,
        size,
        size_notes: Vec::new(),
        traits: traits.into(),
        ratings: None,
        maker: None,
        condition: Condition::New,
        price: Some(Price::from_units(price, 1, Currency::EUR).unwrap()),
        unit_of_count: Some(UnitOfCount::Piece),
        breaks: Vec::new(),
        minimum_quantity: None,
        pack_quantity: None,
        quantity_available: None,
        lead_time,
        expedite: Vec::new(),
        cancellation_charge_share: None,
        quote_date: monday().date().pred_opt(),
        valid_until: None,
        place: place(2),
    }
}

pub fn stock(part: &str, bin: &str, on_hand: f64) -> StockRecord {
    StockRecord {
        facts: None,
        part: part.to_owned(),
        bin: Some(bin.to_owned()),
        lot: None,
        cure_date: None,
        usable_until: None,
        is_blocked: false,
        on_hand: Some(on_hand),
        reserved: None,
        on_order: None,
        due_date: None,
        unit_of_count: Some(UnitOfCount::Piece),
        is_in_packs: false,
        counted_on: monday().date().pred_opt(),
        place: place(3),
    }
}

pub fn kit_line(kit: &str, line: &str, part: Option<&str>, quantity: f64) -> KitLine {
    let (family, size, traits) = part.map(identity).unwrap_or_default();
    KitLine {
        kit: kit.to_owned(),
        machine: None,
        assembly: None,
        line: line.to_owned(),
        part: part.map(str::to_owned),
        description: None,
        family,
        size,
        traits,
        quantity: Some(quantity),
        unit_of_count: Some(UnitOfCount::Piece),
        task: None,
        note: None,
        no_substitutes: false,
        place: place(4),
    }
}

pub fn approval(
    kit: &str,
    line: &str,
    substitute: &str,
    outcome: ApprovalOutcome,
) -> ApprovalRecord {
    ApprovalRecord {
        kit: kit.to_owned(),
        line: line.to_owned(),
        substitute: substitute.to_owned(),
        outcome,
        checks: Some("ring faces and shaft seat measured".to_owned()),
        by: "M. Feld".to_owned(),
        date: monday().date().pred_opt(),
        place: place(5),
    }
}

pub fn shop(records: Records) -> Shop {
    Shop::new(records, ShopSettings::default(), monday())
}

/// What `match` asks of a shop whose only file is this table of parts, read as any stranger's file is.
pub fn index_of_file(parts: &str) -> CardIndex {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("parts.csv"), parts).unwrap();
    let imported = read_folder(folder.path()).unwrap();
    CardIndex::of_shop(&shop(imported.records))
}
