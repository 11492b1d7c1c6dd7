//! What cells gave that were read before: long lists say the same thing many times.
//!
//! Only what was read without any issue is kept, and only under everything it was read from, so that a row gives the
//! same with and without.

use std::collections::HashMap;
use std::hash::Hash;
use std::sync::Arc;

use foldhash::fast::RandomState;

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::record::QuotedLeadTime;
use crate::units::UnitOfCount;

use super::context::TableContext;
use super::identity::Identity;
use super::offer_kind::OfferKind;

/// Most values of one sort that are kept; beyond them a list does not repeat itself.
const MOST_KEPT: usize = 65_536;
/// Looks after which a sort of value that is rarely found again is given up.
const TRIAL: usize = 4_096;
/// Least share of looks that find something.
const LEAST_FOUND_SHARE: f64 = 0.2;

/// Fields whose cells were looked at, a bit a field, in as many words as there are fields for.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct LookedAt([u64; WORDS]);

/// Words of the bits.
const WORDS: usize = Field::COUNT.div_ceil(BITS);
/// Bits of a word.
const BITS: usize = u64::BITS as usize;

impl LookedAt {
    /// Notes a field.
    pub const fn add(&mut self, field: Field) {
        let at = field as usize;
        self.0[at / BITS] |= 1 << (at % BITS);
    }

    /// Notes those of another reader of the same table.
    pub fn join(&mut self, other: Self) {
        for (word, other) in self.0.iter_mut().zip(other.0) {
            *word |= other;
        }
    }

    /// True for a field that was looked at in a row.
    pub const fn has(self, field: Field) -> bool {
        let at = field as usize;
        self.0[at / BITS] >> (at % BITS) & 1 == 1
    }
}

/// What repeated cells of one table gave, and the places that its records share; one for each worker.
#[derive(Debug)]
pub struct Memo<'g> {
    /// Name of the file, apart from other workers' so that counting its users needs no talk between cores.
    pub file: Arc<str>,
    /// Name of the sheet.
    pub sheet: Arc<str>,
    /// Supplier of the whole list.
    pub supplier: Option<Arc<str>>,
    /// Names of suppliers by their text.
    pub suppliers: Kept<&'g str, Arc<str>>,
    /// Lead times by their column and text.
    pub lead_times: Kept<(u32, &'g str), QuotedLeadTime>,
    /// Units of count by their text.
    pub units: Kept<&'g str, UnitOfCount>,
    /// Identities by the cells that may say something about them.
    pub identities: Kept<Box<[u8]>, Identity>,
    /// Fields that a reader of rows asked for.
    pub looked_at: LookedAt,
    /// Kinds of offer by the texts that rows of a kind share.
    pub offer_kinds: Kept<Box<[u8]>, OfferKind>,
    offer_key: Vec<u8>,
    identity_columns: Vec<u32>,
    key: Vec<u8>,
}

/// Values kept under what they were read from.
#[derive(Debug)]
pub struct Kept<K, V> {
    values: HashMap<K, V, RandomState>,
    looks: usize,
    found: usize,
    is_open: bool,
}

impl<K: Hash + Eq, V> Kept<K, V> {
    /// An empty store; one that is not open keeps nothing.
    fn new(is_open: bool) -> Self {
        Self {
            values: HashMap::default(),
            looks: 0,
            found: 0,
            is_open,
        }
    }

    /// What was kept under a key.
    pub fn get<Q: ?Sized + Hash + Eq>(&mut self, key: &Q) -> Option<&V>
    where
        K: std::borrow::Borrow<Q>,
    {
        if !self.is_worth_it() {
            return None;
        }
        let value = self.values.get(key);
        self.found += usize::from(value.is_some());
        value
    }

    /// As [`get`](Self::get), to be changed.
    pub fn get_mut<Q: ?Sized + Hash + Eq>(&mut self, key: &Q) -> Option<&mut V>
    where
        K: std::borrow::Borrow<Q>,
    {
        if !self.is_worth_it() {
            return None;
        }
        let value = self.values.get_mut(key);
        self.found += usize::from(value.is_some());
        value
    }

    /// As [`get_mut`](Self::get_mut), for a key that was looked for already.
    pub fn again<Q: ?Sized + Hash + Eq>(&mut self, key: &Q) -> Option<&mut V>
    where
        K: std::borrow::Borrow<Q>,
    {
        self.values.get_mut(key)
    }

    /// True while looks find something; counts a look.
    fn is_worth_it(&mut self) -> bool {
        if self.is_open {
            self.looks += 1;
            if self.looks.is_multiple_of(TRIAL) {
                self.is_open = self.found as f64 >= LEAST_FOUND_SHARE * self.looks as f64;
            }
        }
        self.is_open
    }

    /// True unless values are rarely found again.
    pub const fn is_open(&self) -> bool {
        self.is_open
    }

    /// Keeps a value.
    pub fn keep(&mut self, key: impl FnOnce() -> K, value: impl FnOnce() -> V) {
        if self.is_open && self.values.len() < MOST_KEPT {
            self.values.insert(key(), value());
        }
    }
}

impl<'g> Memo<'g> {
    /// Starts without anything.
    pub fn new(table: &TableContext<'g>) -> Self {
        let grid = table.grid;
        // Whether a number is shown in powers of ten, or is crossed out, is no part of its cell.
        let is_open = !grid.has_powers() && !grid.has_crossed_out();
        let columns = table.columns.iter();
        let mut identity_columns: Vec<u32> = columns
            .filter(|column| !is_beside_identity(column.field))
            .map(|column| column.index)
            .collect();
        identity_columns.sort_unstable();
        identity_columns.dedup();
        Self {
            file: Arc::from(&*grid.file),
            sheet: Arc::from(&*grid.sheet),
            supplier: table.supplier.as_deref().map(Arc::from),
            suppliers: Kept::new(true),
            lead_times: Kept::new(true),
            units: Kept::new(true),
            identities: Kept::new(is_open),
            looked_at: LookedAt::default(),
            offer_kinds: Kept::new(true),
            offer_key: Vec::new(),
            identity_columns,
            key: Vec::new(),
        }
    }

    /// A blank key of the texts that a row of offers shares with others.
    pub fn new_offer_key(&mut self) -> &mut Vec<u8> {
        self.offer_key.clear();
        &mut self.offer_key
    }

    /// That key and the kinds of offer kept under such keys.
    pub fn offer_kind(&mut self) -> (&[u8], &mut Kept<Box<[u8]>, OfferKind>) {
        (&self.offer_key, &mut self.offer_kinds)
    }

    /// The identity that the same cells gave in an earlier row.
    pub fn identity(&mut self, table: &TableContext<'g>, row: u32) -> Option<Identity> {
        if !self.identities.is_open {
            return None;
        }
        self.key.clear();
        for column in &self.identity_columns {
            push_cell(&mut self.key, table.grid.cell(row, *column));
        }
        self.identities.get(self.key.as_slice()).cloned()
    }

    /// Keeps the identity of the row that [`identity`](Self::identity) was asked for last.
    pub fn keep_identity(&mut self, identity: &Identity) {
        let key = &self.key;
        self.identities
            .keep(|| key.as_slice().into(), || identity.clone());
    }
}

/// Writes a cell so that no two rows of different cells are written alike.
fn push_cell(key: &mut Vec<u8>, cell: Cell<'_>) {
    let (mark, text): (u8, &[u8]) = match cell {
        Cell::Empty => (0, &[]),
        Cell::Text(text) => (1, text.as_bytes()),
        Cell::Error(text) => (2, text.as_bytes()),
        Cell::Number(value) => {
            key.push(3);
            key.extend(value.to_bits().to_le_bytes());
            return;
        }
        Cell::Date(moment) => {
            key.push(4);
            let moment = moment.and_utc();
            key.extend(moment.timestamp().to_le_bytes());
            key.extend(moment.timestamp_subsec_nanos().to_le_bytes());
            return;
        }
        Cell::Bool(value) => (5 + u8::from(value), &[]),
        Cell::NoResult => (7, &[]),
    };
    key.push(mark);
    if mark == 1 || mark == 2 {
        key.extend((text.len() as u32).to_le_bytes());
        key.extend(text);
    }
}

/// True for fields that say nothing about what a part is. Should reading an identity touch one all the same, that
/// identity is not kept.
pub const fn is_beside_identity(field: Field) -> bool {
    use Field as F;
    matches!(
        field,
        F::OwnNumber
            | F::PartNumber
            | F::Alias
            | F::SupplierNumber
            | F::Maker
            | F::UnitOfCount
            | F::MinStock
            | F::Supplier
            | F::Price
            | F::ListPrice
            | F::Discount
            | F::PricePer
            | F::VatRate
            | F::PriceFrom
            | F::HoldsFrom
            | F::Currency
            | F::MinimumQuantity
            | F::PackQuantity
            | F::Available
            | F::LeadTime
            | F::ExpediteLeadTime
            | F::ExpediteSurcharge
            | F::QuoteDate
            | F::ValidUntil
            | F::Condition
            | F::OnHand
            | F::Date
            | F::Quantity
            | F::Kit
            | F::Line
            | F::Task
            | F::Note
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Beside a list of the same fields, which no bits can spoil.
    #[test]
    fn every_field_has_a_bit_of_its_own() {
        for field in Field::ALL.iter().copied() {
            let mut looked_at = LookedAt::default();
            looked_at.add(field);
            let mut joined = LookedAt::default();
            joined.join(looked_at);
            for of in [looked_at, joined] {
                let found: Vec<Field> = Field::ALL
                    .iter()
                    .copied()
                    .filter(|other| of.has(*other))
                    .collect();
                assert_eq!(found, [field]);
            }
        }
    }
}
