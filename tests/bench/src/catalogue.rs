//! A catalogue of many invented parts: half on the sizes of the standard tables, half on sizes in no table.

use sparewright::part::designation::Designation;
use sparewright::part::{Closure, Family, PartClass, SizeKey, Traits};
use sparewright::place::Place;
use sparewright::record::{
    Condition, LeadUnit, OfferRecord, PartFacts, PartRecord, QuotedLeadTime, Records, StockRecord,
};
use sparewright::standard;
use sparewright::units::{Currency, Length, Price, UnitOfCount};

use crate::accuracy::SplitMix;

/// Seed of the catalogue; another one gives another catalogue of the same make.
pub const SEED: u64 = 20_261_125;
/// Of a hundred parts, how many have a standard size.
const STANDARD_IN_100: u64 = 40;
/// Of a hundred parts, how many have an offer, and how many lie on a shelf.
const OFFERED_IN_100: u64 = 60;
const STOCKED_IN_100: u64 = 30;
/// Suppliers.
const SUPPLIERS: u64 = 60;

/// Numbers that look random and are the same for one seed.
pub struct Dice(SplitMix);

impl Dice {
    pub const fn new(seed: u64) -> Self {
        Self(SplitMix(seed))
    }

    fn next(&mut self) -> u64 {
        self.0.next()
    }

    /// A number below `end`.
    pub fn below(&mut self, end: u64) -> u64 {
        self.next() % end
    }

    /// One of several.
    pub fn of<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[self.below(all.len() as u64) as usize]
    }

    /// True in so many of a hundred cases.
    fn is_in_100(&mut self, share: u64) -> bool {
        self.below(100) < share
    }
}

/// The records of a catalogue of `count` parts.
pub fn records(count: usize) -> Records {
    let mut dice = Dice::new(SEED);
    let (file, sheet) = ("parts.csv".into(), "".into());
    let (offer_file, stock_file) = ("offers.csv".into(), "stock.csv".into());
    let mut records = Records::default();
    for at in 0..count as u32 {
        let part = part(&mut dice, at, Place::row(&file, &sheet, at + 1));
        if dice.is_in_100(OFFERED_IN_100) {
            let place = Place::row(&offer_file, &sheet, records.offers.len() as u32 + 1);
            records.offers.push(offer(&mut dice, &part, place));
        }
        if dice.is_in_100(STOCKED_IN_100) {
            let place = Place::row(&stock_file, &sheet, records.stock.len() as u32 + 1);
            records.stock.push(StockRecord {
                facts: None,
                part: part.own_number.clone(),
                bin: Some(format!("{}-{:02}", dice.below(90) + 10, dice.below(40))),
                lot: None,
                cure_date: None,
                usable_until: None,
                is_blocked: false,
                on_hand: Some(dice.below(12) as f64),
                reserved: None,
                on_order: None,
                due_date: None,
                unit_of_count: Some(UnitOfCount::Piece),
                is_in_packs: false,
                counted_on: None,
                place,
            });
        }
        records.parts.push(part);
    }
    records
}

fn part(dice: &mut Dice, at: u32, place: Place) -> PartRecord {
    let row = dice.of(standard::parts());
    let is_standard = dice.is_in_100(STANDARD_IN_100);
    let suffix = suffix(dice, row.size.family());
    let (designation, size, traits) = if is_standard {
        let designation = format!("{}{suffix}", row.designation);
        let parsed = Designation::parse(&designation);
        let traits = parsed.map_or_else(|| row.traits.clone(), |parsed| parsed.traits);
        (Some(designation), row.size, traits)
    } else {
        let traits = Traits {
            closure: Some(*dice.of(Closure::ALL))
                .filter(|_| row.size.family() == Family::DeepGrooveBall),
            ..Traits::default()
        };
        (None, special(dice, &row.size), traits)
    };
    PartRecord {
        own_number: format!("P-{at:07}"),
        facts: PartFacts {
            aliases: if dice.is_in_100(20) {
                vec![format!("OLD {:07}", at * 7)]
            } else {
                Vec::new()
            },
            description: Some(size.family().name().to_owned()).filter(|_| designation.is_none()),
            designation,
            family: Some(size.family()),
            size: Some(size),
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
        place,
    }
}

/// What follows the basic designation.
fn suffix(dice: &mut Dice, family: Family) -> String {
    match family {
        Family::LipSeal => {
            let (form, material) = (dice.of(&["A", "AS", "B", "BS"]), dice.of(&["NBR", "FKM"]));
            format!(" {form} {material}")
        }
        Family::ORing => {
            let (material, hardness) = (dice.of(&["NBR", "FKM", "EPDM"]), dice.of(&["70", "90"]));
            format!(" {material} {hardness}")
        }
        family if family.class() != PartClass::Bearings => String::new(),
        family => {
            let closure = match family {
                Family::DeepGrooveBall => *dice.of(&["", "-2RS", "-2Z", "-Z", "-RS"]),
                _ => "",
            };
            let clearance = dice.of(&["", "", " C3", " C4", " C2"]);
            let class = dice.of(&["", "", "", " P6", " P5"]);
            format!("{closure}{clearance}{class}")
        }
    }
}

/// A standard size with every dimension up to 8 mm off, in steps of half a millimetre (a tenth for sections and pitches).
fn special(dice: &mut Dice, size: &SizeKey) -> SizeKey {
    loop {
        let lengths: Vec<Length> = size
            .dimensions()
            .filter_map(|(_, length)| {
                let step_nm = if length.to_mm() < 10.0 {
                    100_000
                } else {
                    500_000
                };
                let nm = length.as_nm() + (dice.below(33) as i64 - 16) * step_nm;
                Length::from_nm(nm).ok()
            })
            .collect();
        if let Ok(special) = SizeKey::new(size.family(), &lengths) {
            return special;
        }
    }
}

fn offer(dice: &mut Dice, part: &PartRecord, place: Place) -> OfferRecord {
    let price = (dice.below(20_000) + 50) as f64 / 100.0;
    OfferRecord {
        supplier: format!("Supplier {:02}", dice.below(SUPPLIERS)).into(),
        own_number: Some(part.own_number.clone()),
        supplier_number: None,
        designation: part.designation.as_deref().map(Into::into),
        description: None,
        family: part.family,
        size: part.size,
        size_notes: Vec::new(),
        traits: part.traits.clone().into(),
        ratings: None,
        maker: None,
        condition: Condition::New,
        price: Price::from_units(price, 1, Currency::EUR).ok(),
        unit_of_count: Some(UnitOfCount::Piece),
        breaks: Vec::new(),
        minimum_quantity: None,
        pack_quantity: None,
        quantity_available: None,
        // One list in five does not say.
        lead_time: Some(dice.below(30))
            .filter(|days| *days >= 6)
            .map(|days| QuotedLeadTime::exactly(days as f64, LeadUnit::Workdays)),
        expedite: Vec::new(),
        cancellation_charge_share: None,
        quote_date: None,
        valid_until: None,
        place,
    }
}
