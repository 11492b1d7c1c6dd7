//! Rows of stock lists.

use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::{StockStatus, read_stock_status};
use crate::record::{CountedIn, StockRecord};

use super::counted::Counting;
use super::parts;
use super::reader::{Rejected, RowReader};

/// Reads the stock of one bin or lot; of how many an open pack is, its part's offers say later. Negative stock is a slip and not taken, and neither is a quantity of a unit that is not read.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<StockRecord, Rejected> {
    let own_number = row.first_text(&[Field::OwnNumber, Field::PartNumber]);
    let mut facts = (own_number
        .as_deref()
        .filter(|_| row.table.describes_parts()))
    .map(|number| Box::new(parts::facts(row, number)));
    let part = match own_number {
        Some(number) => number,
        None => row.required_part("stock row")?,
    };
    let on_hand = if row.table.has(Field::OnHand) {
        Field::OnHand
    } else {
        Field::Quantity
    };
    let mut counting = Counting::in_packs_too(row, Severity::Doubtful);
    let [on_hand, reserved, on_order] =
        [on_hand, Field::Reserved, Field::OnOrder].map(|field| counting.not_below_zero(row, field));
    if let Some(facts) = &mut facts {
        facts.unit_of_count = counting.unit_of_count();
    }
    Ok(StockRecord {
        part,
        bin: row.text(Field::Bin),
        lot: row.text(Field::Lot),
        cure_date: row.date(Field::CureDate),
        usable_until: row.date(Field::UsableUntil),
        is_blocked: is_blocked(row, on_hand),
        on_hand,
        reserved,
        on_order,
        due_date: row.date(Field::DueDate),
        unit_of_count: counting.unit_of_count(),
        is_in_packs: counting.unit() == Some(CountedIn::Pack),
        facts,
        counted_on: row
            .date(Field::CountedOn)
            .or_else(|| row.date(Field::Date))
            .or(row.table.dated),
        place: row.place.clone(),
    })
}

/// True where the status of the row keeps what lies there from being used, which is told; so is a word that is not understood.
fn is_blocked(row: &mut RowReader<'_, '_>, on_hand: Option<f64>) -> bool {
    let Some(found) = row.text(Field::Status) else {
        return false;
    };
    let status = row.word(
        Field::Status,
        &found,
        "free or blocked (what lies there counts as free)",
        read_stock_status,
    );
    let is_blocked = status == Some(StockStatus::Blocked);
    if is_blocked && on_hand.is_none_or(|there| there > 0.0) {
        let problem = Problem::Blocked { found };
        row.issue(Severity::Note, Some(Field::Status), problem);
    }
    is_blocked
}
