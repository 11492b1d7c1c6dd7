//! Rows of a long offer list, kept by columns: what many rows share once, what is each row's own in columns.

use std::sync::Arc;

use super::lead_time::QuotedLeadTime;
use super::offer::OfferRecord;
use crate::units::Price;

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
    price: Values<Price>,
    minimum_quantity: Values<f64>,
    pack_quantity: Values<f64>,
    quantity_available: Values<f64>,
    lead_time: Values<QuotedLeadTime>,
    /// Supplier of all of them, where it was settled after they were read.
    supplier: Option<Arc<str>>,
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

impl<T> Default for Values<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T: Copy> Values<T> {
    fn set(&mut self, at: usize, value: Option<T>) {
        if value.is_some() {
            self.0.resize(at, None);
            self.0.push(value);
        }
    }

    fn get(&self, at: usize) -> Option<T> {
        self.0.get(at).copied().flatten()
    }
}

impl Texts {
    fn set(&mut self, at: usize, text: Option<&str>) {
        if let Some(text) = text {
            self.ends.resize(at, self.text.len() as u32);
            self.text.push_str(text);
            self.ends.push(self.text.len() as u32);
        }
    }

    fn get(&self, at: usize) -> Option<&str> {
        let end = *self.ends.get(at)? as usize;
        let start = at.checked_sub(1).map_or(0, |before| self.ends[before]) as usize;
        self.text
            .get(start..end)
            .filter(|text| !text.is_empty())
    }
}

impl OfferColumns {
    /// Starts with room for a number of offers.
    pub fn with_room(offers: usize) -> Self {
        let mut columns = Self::default();
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
        self.own_number.set(at, own.own_number);
        self.supplier_number.set(at, own.supplier_number);
        self.price.set(at, own.price);
        self.minimum_quantity.set(at, own.minimum_quantity);
        self.pack_quantity.set(at, own.pack_quantity);
        self.quantity_available.set(at, own.quantity_available);
        self.lead_time.set(at, own.lead_time);
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

    /// Names the supplier of all offers.
    pub fn set_supplier(&mut self, supplier: &Arc<str>) {
        self.supplier = Some(Arc::clone(supplier));
    }
}
