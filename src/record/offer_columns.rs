//! Rows of a long offer list, kept by columns: what many rows share once, what is each row's own in columns.

use std::sync::Arc;

use chrono::NaiveDate;

use super::lead_time::QuotedLeadTime;
use super::offer::OfferRecord;
use crate::place::Place;
use crate::units::{Currency, Price};

/// Bytes of a part's number, as a first guess.
const USUAL_BYTES: usize = 10;

/// What an offer has of its own in a list that says the same of many parts.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct OwnOfOffer<'t> {
    /// The shop's own number.
    pub own_number: Option<&'t str>,
    /// The supplier's number.
    pub supplier_number: Option<&'t str>,
    /// Net price.
    pub price: Option<Price>,
    /// Least quantity sold.
    pub minimum_quantity: Option<f64>,
    /// Sold in multiples of this.
    pub pack_quantity: Option<f64>,
    /// Quantity the supplier has.
    pub quantity_available: Option<f64>,
    /// Lead time as quoted.
    pub lead_time: Option<QuotedLeadTime>,
}

/// Offers by columns, in order. Any offer goes in and comes out unchanged; those that share what is not a column take a
/// fifth of the memory of a row.
#[derive(Debug, Clone, Default)]
pub struct OfferColumns {
    /// What offers share, in which columns are blank and the row is 0.
    kinds: Vec<Arc<OfferRecord>>,
    /// The one of each offer.
    kind: Vec<u32>,
    /// Row of each offer in its sheet.
    row: Vec<u32>,
    own_number: Texts,
    supplier_number: Texts,
    price: Prices,
    minimum_quantity: Numbers,
    pack_quantity: Numbers,
    quantity_available: Numbers,
    lead_time: Values<QuotedLeadTime>,
    /// Supplier of all of them, where it was settled after they were read.
    supplier: Option<Arc<str>>,
    /// Offers that columns are made for.
    room: usize,
}

/// A column of texts in one buffer.
#[derive(Debug, Clone, Default)]
struct Texts {
    text: String,
    /// End of each text; `None` is one of no length, since no text of a cell is blank. Texts behind the last given one
    /// are `None`.
    ends: Vec<u32>,
}

/// A column of values; those behind the last given one are `None`.
#[derive(Debug, Clone)]
struct Values<T>(Vec<Option<T>>);

/// A column of numbers, NaN where there is none.
#[derive(Debug, Clone, Default)]
struct Numbers(Vec<f64>);

/// A column of prices: amounts, and the currency and number of units that most lists have in common.
#[derive(Debug, Clone, Default)]
struct Prices {
    /// Hundredths of a cent; the least number where there is no price.
    amounts: Vec<i64>,
    /// Each with the first offer it holds for, up to the next.
    terms: Vec<(u32, Currency, u32)>,
}

/// No price.
const NO_AMOUNT: i64 = i64::MIN;

impl<T> Default for Values<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T: Copy> Values<T> {
    fn set(&mut self, at: usize, value: Option<T>, room: usize) {
        if value.is_some() {
            make_room(&mut self.0, room);
            self.0.resize(at, None);
            self.0.push(value);
        }
    }

    fn get(&self, at: usize) -> Option<T> {
        self.0.get(at).copied().flatten()
    }
}

impl Numbers {
    fn set(&mut self, at: usize, value: Option<f64>, room: usize) {
        if let Some(value) = value {
            make_room(&mut self.0, room);
            self.0.resize(at, f64::NAN);
            self.0.push(value);
        }
    }

    fn get(&self, at: usize) -> Option<f64> {
        self.0.get(at).copied().filter(|value| !value.is_nan())
    }
}

impl Prices {
    fn set(&mut self, at: usize, price: Option<Price>, room: usize) {
        let Some(price) = price else {
            return;
        };
        make_room(&mut self.amounts, room);
        self.amounts.resize(at, NO_AMOUNT);
        self.amounts.push(price.amount_cents_e2);
        let is_alike = (self.terms.last())
            .is_some_and(|(_, currency, per)| (*currency, *per) == (price.currency, price.per));
        if !is_alike {
            self.terms.push((at as u32, price.currency, price.per));
        }
    }

    fn get(&self, at: usize) -> Option<Price> {
        let amount_cents_e2 = *self.amounts.get(at)?;
        let behind = (self.terms).partition_point(|(first, _, _)| *first as usize <= at);
        let (_, currency, per) = *self.terms.get(behind.checked_sub(1)?)?;
        (amount_cents_e2 != NO_AMOUNT).then_some(Price {
            amount_cents_e2,
            per,
            currency,
        })
    }
}

/// Makes room for all offers of the piece in a column that gets its first value.
fn make_room<T>(column: &mut Vec<T>, room: usize) {
    if column.capacity() == 0 {
        column.reserve_exact(room);
    }
}

impl Texts {
    fn set(&mut self, at: usize, text: Option<&str>, room: usize) {
        if let Some(text) = text {
            if self.ends.is_empty() {
                self.text.reserve(room * USUAL_BYTES);
            }
            make_room(&mut self.ends, room);
            self.ends.resize(at, self.text.len() as u32);
            self.text.push_str(text);
            self.ends.push(self.text.len() as u32);
        }
    }

    fn get(&self, at: usize) -> Option<&str> {
        let end = *self.ends.get(at)? as usize;
        let start = at.checked_sub(1).map_or(0, |before| self.ends[before]) as usize;
        self.text.get(start..end).filter(|text| !text.is_empty())
    }
}

impl OfferColumns {
    /// Starts with room for a number of offers.
    pub fn with_room(offers: usize) -> Self {
        let mut columns = Self {
            room: offers,
            ..Self::default()
        };
        columns.kind.reserve_exact(offers);
        columns.row.reserve_exact(offers);
        columns
    }

    /// Number of offers.
    pub fn len(&self) -> usize {
        self.kind.len()
    }

    /// True without any offer.
    pub fn is_empty(&self) -> bool {
        self.kind.is_empty()
    }

    /// Adds what offers share and says under which number they find it.
    pub fn add_kind(&mut self, kind: Arc<OfferRecord>) -> u32 {
        self.kinds.push(kind);
        (self.kinds.len() - 1) as u32
    }

    /// Adds an offer.
    pub fn push(&mut self, kind: u32, row: u32, own: &OwnOfOffer<'_>) {
        let at = self.kind.len();
        self.kind.push(kind);
        self.row.push(row);
        self.own_number.set(at, own.own_number, self.room);
        self.supplier_number.set(at, own.supplier_number, self.room);
        self.price.set(at, own.price, self.room);
        self.minimum_quantity
            .set(at, own.minimum_quantity, self.room);
        self.pack_quantity.set(at, own.pack_quantity, self.room);
        self.quantity_available
            .set(at, own.quantity_available, self.room);
        self.lead_time.set(at, own.lead_time, self.room);
    }

    /// Adds the columns of an offer that is otherwise alike to what others share.
    pub fn push_alike(&mut self, kind: u32, record: &OfferRecord) {
        let own = OwnOfOffer {
            own_number: record.own_number.as_deref(),
            supplier_number: record.supplier_number.as_deref(),
            price: record.price,
            minimum_quantity: record.minimum_quantity,
            pack_quantity: record.pack_quantity,
            quantity_available: record.quantity_available,
            lead_time: record.lead_time,
        };
        self.push(kind, record.place.row, &own);
    }

    /// Adds an offer that shares nothing yet and gives what others may share with it, and under which number.
    pub fn push_record(&mut self, mut record: OfferRecord) -> (Arc<OfferRecord>, u32) {
        let row = std::mem::take(&mut record.place.row);
        let (own_number, supplier_number) =
            (record.own_number.take(), record.supplier_number.take());
        let own = OwnOfOffer {
            own_number: own_number.as_deref(),
            supplier_number: supplier_number.as_deref(),
            price: record.price.take(),
            minimum_quantity: record.minimum_quantity.take(),
            pack_quantity: record.pack_quantity.take(),
            quantity_available: record.quantity_available.take(),
            lead_time: record.lead_time.take(),
        };
        let kind = Arc::new(record);
        let at = self.add_kind(Arc::clone(&kind));
        self.push(at, row, &own);
        (kind, at)
    }

    /// The columns of an offer.
    pub fn own(&self, at: usize) -> OwnOfOffer<'_> {
        OwnOfOffer {
            own_number: self.own_number.get(at),
            supplier_number: self.supplier_number.get(at),
            price: self.price.get(at),
            minimum_quantity: self.minimum_quantity.get(at),
            pack_quantity: self.pack_quantity.get(at),
            quantity_available: self.quantity_available.get(at),
            lead_time: self.lead_time.get(at),
        }
    }

    /// An offer as a record.
    pub fn record(&self, at: usize) -> Option<OfferRecord> {
        let kind = self.kinds.get(*self.kind.get(at)? as usize)?;
        let own = self.own(at);
        let mut record = OfferRecord {
            own_number: own.own_number.map(str::to_owned),
            supplier_number: own.supplier_number.map(str::to_owned),
            price: own.price,
            minimum_quantity: own.minimum_quantity,
            pack_quantity: own.pack_quantity,
            quantity_available: own.quantity_available,
            lead_time: own.lead_time,
            ..OfferRecord::clone(kind)
        };
        record.place.row = *self.row.get(at)?;
        if let Some(supplier) = &self.supplier {
            record.supplier = Arc::clone(supplier);
        }
        Some(record)
    }

    /// Place and date of an offer.
    pub fn quote_date(&self, at: usize) -> Option<(Place, Option<NaiveDate>)> {
        let kind = self.kinds.get(*self.kind.get(at)? as usize)?;
        let mut place = kind.place.clone();
        place.row = *self.row.get(at)?;
        Some((place, kind.quote_date))
    }

    /// Names the supplier of all offers.
    pub fn set_supplier(&mut self, supplier: &Arc<str>) {
        self.supplier = Some(Arc::clone(supplier));
    }
}
