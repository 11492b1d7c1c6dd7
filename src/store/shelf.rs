//! The stock table.

use super::identity::{put_facts, put_place, take_facts, take_place};
use super::table::{RowIn, RowOut, Stored, TableError};
use crate::record::{CountedIn, PartFacts, StockRecord};

impl Stored for StockRecord {
    const TABLE: &'static str = "stock";

    fn put(&self, row: &mut RowOut<'_>) {
        row.text("part", Some(&self.part));
        row.text("bin", self.bin.as_deref());
        row.text("lot", self.lot.as_deref());
        row.date("cure_date", self.cure_date);
        row.date("usable_until", self.usable_until);
        row.flag("is_blocked", Some(self.is_blocked));
        row.number("on_hand", self.on_hand);
        row.number("reserved", self.reserved);
        row.number("on_order", self.on_order);
        row.date("due_date", self.due_date);
        let packs = self.is_in_packs.then_some(CountedIn::Pack);
        let counted_in = self.unit_of_count.map(CountedIn::Unit).or(packs);
        let text = counted_in.map(|unit| unit.to_string());
        row.text("unit_of_count", text.as_deref());
        row.date("counted_on", self.counted_on);
        row.flag("describes_part", Some(self.facts.is_some()));
        put_facts(row, self.facts.as_deref().unwrap_or(&PartFacts::default()));
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let part = row.required_text("part")?;
        let (bin, lot) = (row.text("bin")?, row.text("lot")?);
        let cure_date = row.date("cure_date")?;
        // Tables of earlier versions end a lot by its cure date alone, and have no status.
        let usable_until = match row.is_next("usable_until") {
            true => row.date("usable_until")?,
            false => None,
        };
        let is_blocked = match row.is_next("is_blocked") {
            true => row.flag("is_blocked")?.unwrap_or(false),
            false => false,
        };
        let on_hand = row.number("on_hand")?;
        let reserved = row.number("reserved")?;
        let on_order = row.number("on_order")?;
        let due_date = row.date("due_date")?;
        let counted_in = row.coded("unit_of_count", |text| CountedIn::read(text).ok())?;
        let unit_of_count = match counted_in {
            Some(CountedIn::Unit(unit)) => Some(unit),
            Some(CountedIn::Pack) | None => None,
        };
        let counted_on = row.date("counted_on")?;
        let describes_part = row.flag("describes_part")?.unwrap_or(false);
        let facts = take_facts(row, unit_of_count)?;
        Ok(Self {
            part,
            bin,
            lot,
            cure_date,
            usable_until,
            is_blocked,
            on_hand,
            reserved,
            on_order,
            due_date,
            unit_of_count,
            is_in_packs: counted_in == Some(CountedIn::Pack),
            counted_on,
            facts: describes_part.then(|| Box::new(facts)),
            place: take_place(row)?,
        })
    }
}
