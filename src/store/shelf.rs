//! The stock table.

use super::identity::{put_facts, put_place, put_unit, take_facts, take_place, take_unit};
use super::table::{RowIn, RowOut, Stored, TableError};
use crate::record::{PartFacts, StockRecord};

impl Stored for StockRecord {
    const TABLE: &'static str = "stock";

    fn put(&self, row: &mut RowOut<'_>) {
        row.text("part", Some(&self.part));
        row.text("bin", self.bin.as_deref());
        row.text("lot", self.lot.as_deref());
        row.date("cure_date", self.cure_date);
        row.number("on_hand", self.on_hand);
        row.number("reserved", self.reserved);
        row.number("on_order", self.on_order);
        row.date("due_date", self.due_date);
        put_unit(row, self.unit_of_count);
        row.date("counted_on", self.counted_on);
        row.flag("describes_part", Some(self.facts.is_some()));
        put_facts(row, self.facts.as_deref().unwrap_or(&PartFacts::default()));
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let part = row.required_text("part")?;
        let (bin, lot) = (row.text("bin")?, row.text("lot")?);
        let cure_date = row.date("cure_date")?;
        let on_hand = row.number("on_hand")?;
        let reserved = row.number("reserved")?;
        let on_order = row.number("on_order")?;
        let due_date = row.date("due_date")?;
        let unit_of_count = take_unit(row)?;
        let counted_on = row.date("counted_on")?;
        let describes_part = row.flag("describes_part")?.unwrap_or(false);
        let facts = take_facts(row, unit_of_count)?;
        Ok(Self {
            part,
            bin,
            lot,
            cure_date,
            on_hand,
            reserved,
            on_order,
            due_date,
            unit_of_count,
            counted_on,
            facts: describes_part.then(|| Box::new(facts)),
            place: take_place(row)?,
        })
    }
}
