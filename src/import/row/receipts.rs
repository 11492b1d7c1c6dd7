//! Rows of order and receipt lists.

use chrono::NaiveDate;

use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::{OrderStatus, read_order_status};
use crate::record::ReceiptRecord;

use super::counted::Counting;
use super::reader::{Rejected, RowReader};

/// What the record is called in messages.
const RECORD: &str = "receipt";
/// Quantities that differ by less are equal.
const TOLERANCE: f64 = 1e-9;

/// Reads one order line.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<ReceiptRecord, Rejected> {
    let supplier = match row
        .text(Field::Supplier)
        .or_else(|| row.table.title.supplier.clone())
    {
        Some(supplier) => supplier,
        None => return Err(row.missing(Field::Supplier, RECORD)),
    };
    let part = row.required_part(RECORD)?;
    let ordered = row.required_date(Field::Ordered, RECORD)?;
    let received = row.date(Field::Received);
    if let Some(received) = received.filter(|received| *received < ordered) {
        let found = format!("received on {received}, ordered on {ordered}");
        let problem = Problem::OutOfRange {
            found,
            expected: "a receipt on or after the order",
        };
        row.issue(Severity::Rejected, Some(Field::Received), problem);
        return Err(Rejected);
    }
    let mut counting = Counting::in_packs_too(row, Severity::Doubtful);
    let amounts = Amounts::read(row, &mut counting);
    let status = Status::read(row);
    let of = match received {
        Some(_) => amounts.of_receipt(row, &status),
        None => amounts.of_open(row, &status),
    };
    let quantity = of.quantity.filter(|quantity| {
        let is_above = *quantity > 0.0;
        // Of what has come nothing is still to come.
        let is_done = (received.is_some() || of.is_closed) && *quantity >= 0.0;
        if !is_above && !is_done {
            let field = amounts.field();
            row.out_of_range(Severity::Doubtful, field, *quantity, "more than 0");
        }
        is_above
    });
    Ok(ReceiptRecord {
        supplier: supplier.into(),
        part: part.into(),
        ordered,
        promised: promised(row),
        received,
        quantity,
        still_open: of.still_open,
        is_closed: of.is_closed,
        counted_in: counting.unit(),
        place: row.place.clone(),
    })
}

/// `Liefertermin`, `due`: of an order that is the day it was promised for.
fn promised(row: &mut RowReader<'_, '_>) -> Option<NaiveDate> {
    row.date(Field::Promised)
        .or_else(|| row.date(Field::DueDate))
}

/// What a row says of how far its order is.
struct Status {
    known: Option<OrderStatus>,
    printed: String,
}

impl Status {
    /// A word that is not understood is told.
    fn read(row: &mut RowReader<'_, '_>) -> Self {
        let printed = row.text(Field::Status).unwrap_or_default();
        let expected =
            "open, partly delivered, closed or cancelled (its quantities and days count)";
        let known = (!printed.is_empty())
            .then(|| row.word(Field::Status, &printed, expected, read_order_status))
            .flatten();
        Self { known, printed }
    }

    fn is_over(&self) -> bool {
        matches!(
            self.known,
            Some(OrderStatus::Closed | OrderStatus::Cancelled)
        )
    }
}

/// What came of a row.
struct Outcome {
    quantity: Option<f64>,
    still_open: Option<f64>,
    is_closed: bool,
}

/// How many a row says were ordered, have come, and are still to come.
struct Amounts {
    ordered: Option<f64>,
    received: Option<f64>,
    open: Option<f64>,
}

impl Amounts {
    fn read(row: &mut RowReader<'_, '_>, counting: &mut Counting) -> Self {
        let ordered = counting.told(row, Field::Quantity);
        let received = counting.not_below_zero(row, Field::ReceivedQuantity);
        let open = counting.not_below_zero(row, Field::OpenQuantity);
        if let (Some(ordered), Some(received), Some(open)) = (ordered, received, open)
            && (ordered - received - open).abs() > TOLERANCE * ordered.abs().max(1.0)
        {
            let problem = Problem::QuantitiesDiffer {
                ordered,
                received,
                open,
            };
            row.issue(Severity::Doubtful, Some(Field::OpenQuantity), problem);
        }
        Self {
            ordered,
            received,
            open,
        }
    }

    /// The field that says how many are to come.
    const fn field(&self) -> Field {
        match self.open {
            Some(_) => Field::OpenQuantity,
            None => Field::Quantity,
        }
    }

    /// What is left of the order by what has come; `None` where the row does not say both.
    fn left(&self) -> Option<f64> {
        let left = self.ordered? - self.received?;
        Some(if left > TOLERANCE { left } else { 0.0 })
    }

    /// Of a row with a day of receipt: what came then, and what is still to come of it.
    fn of_receipt(&self, row: &mut RowReader<'_, '_>, status: &Status) -> Outcome {
        let rest = self.open.or_else(|| self.left());
        let by_rest = self.ordered.zip(rest).map(|(ordered, rest)| ordered - rest);
        // Without a word for a part all of it came.
        let is_whole = status.known != Some(OrderStatus::InPart);
        let whole = self.ordered.filter(|_| is_whole);
        let has_left = self.left().is_some_and(|left| left > 0.0);
        let is_in_part = matches!(status.known, Some(OrderStatus::InPart | OrderStatus::Open));
        let still_open = match self.open {
            _ if status.is_over() => None,
            Some(open) => Some(open),
            None if status.known.is_some() && has_left => self.left(),
            None => {
                if has_left || is_in_part && self.left().is_none() {
                    let problem = match self.ordered.zip(self.received) {
                        Some((ordered, received)) => Problem::RestUnknown { received, ordered },
                        None => Problem::PartOfUnknown {
                            found: status.printed.clone(),
                        },
                    };
                    row.issue(Severity::Doubtful, Some(Field::Quantity), problem);
                }
                None
            }
        };
        Outcome {
            quantity: self.received.or(by_rest).or(whole),
            still_open: still_open.filter(|open| *open > 0.0),
            is_closed: false,
        }
    }

    /// Of a row without a day of receipt: what is still to come.
    fn of_open(&self, row: &mut RowReader<'_, '_>, status: &Status) -> Outcome {
        if status.is_over() {
            let found = status.printed.clone();
            row.issue(
                Severity::Note,
                Some(Field::Status),
                Problem::NothingToCome { found },
            );
        }
        let rest = self.open.or_else(|| self.left());
        let has_come = self.received.is_some_and(|came| came > 0.0);
        // Nothing is open: the line is closed, by whatever it does not say.
        let is_none_open = self.open.is_some_and(|open| open <= 0.0);
        let is_all_here = rest.is_some_and(|rest| rest <= 0.0) && (has_come || is_none_open);
        let could_say_when = has_come || row.table.has(Field::Received);
        if is_all_here && could_say_when && !status.is_over() {
            row.lacks(Field::Received, RECORD);
        }
        let is_part_unknown = status.known == Some(OrderStatus::InPart) && rest.is_none();
        if is_part_unknown {
            let found = status.printed.clone();
            row.issue(
                Severity::Doubtful,
                Some(Field::Quantity),
                Problem::PartOfUnknown { found },
            );
        }
        Outcome {
            quantity: rest.or(self.ordered.filter(|_| !is_part_unknown)),
            still_open: None,
            is_closed: status.is_over() || is_all_here,
        }
    }
}
