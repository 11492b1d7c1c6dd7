//! The stock table.

use super::identity::{put_place, put_unit, take_place, take_unit};
use super::table::{RowIn, RowOut, Stored, TableError};
use crate::record::StockRecord;

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
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        Ok(Self {
            part: row.required_text("part")?,
            bin: row.text("bin")?,
            lot: row.text("lot")?,
            cure_date: row.date("cure_date")?,
            on_hand: row.number("on_hand")?,
            reserved: row.number("reserved")?,
            on_order: row.number("on_order")?,
            due_date: row.date("due_date")?,
            unit_of_count: take_unit(row)?,
            counted_on: row.date("counted_on")?,
            place: take_place(row)?,
        })
    }
}
