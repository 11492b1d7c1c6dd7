//! Offers in order of reading, as rows or by columns, whichever they came as.

use std::ops::{Deref, Range};
use std::sync::{Arc, OnceLock};

use chrono::NaiveDate;

use super::offer::OfferRecord;
use super::offer_columns::OfferColumns;
use crate::place::Place;

/// Offers in order of reading. Looked at as a slice, those that came by columns are laid out as rows once; iterated by
/// value, or piece by piece, never more than one at a time is.
#[derive(Debug, Clone, Default)]
pub struct OfferList {
    pieces: Vec<Piece>,
    laid_out: OnceLock<Vec<OfferRecord>>,
}

#[derive(Debug, Clone)]
enum Piece {
    Rows(Vec<OfferRecord>),
    Columns(Box<OfferColumns>),
}

impl Piece {
    fn len(&self) -> usize {
        match self {
            Self::Rows(rows) => rows.len(),
            Self::Columns(columns) => columns.len(),
        }
    }

    fn quote_date(&self, at: usize) -> Option<(Place, Option<NaiveDate>)> {
        match self {
            Self::Rows(rows) => rows
                .get(at)
                .map(|offer| (offer.place.clone(), offer.quote_date)),
            Self::Columns(columns) => columns.quote_date(at),
        }
    }

    fn record(&self, at: usize) -> Option<OfferRecord> {
        match self {
            Self::Rows(rows) => rows.get(at).cloned(),
            Self::Columns(columns) => columns.record(at),
        }
    }
}

impl OfferList {
    /// Number of offers.
    pub fn len(&self) -> usize {
        self.pieces.iter().map(Piece::len).sum()
    }

    /// True without any offer.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Adds an offer.
    pub fn push(&mut self, record: OfferRecord) {
        self.laid_out.take();
        match self.pieces.last_mut() {
            Some(Piece::Rows(rows)) => rows.push(record),
            _ => self.pieces.push(Piece::Rows(vec![record])),
        }
    }

    /// Adds offers by columns.
    pub fn push_columns(&mut self, columns: OfferColumns) {
        if !columns.is_empty() {
            self.laid_out.take();
            self.pieces.push(Piece::Columns(Box::new(columns)));
        }
    }

    /// Takes the offers of another behind its own.
    pub fn append(&mut self, other: &mut Self) {
        self.laid_out.take();
        other.laid_out.take();
        for piece in std::mem::take(&mut other.pieces) {
            match (self.pieces.last_mut(), piece) {
                (Some(Piece::Rows(rows)), Piece::Rows(mut more)) => {
                    rows.append(&mut more);
                    // Its room serves the next rows.
                    if other.pieces.is_empty() {
                        other.pieces.push(Piece::Rows(more));
                    }
                }
                (_, piece) => self.pieces.push(piece),
            }
        }
    }

    /// Names the supplier of the offers from one to another.
    pub fn set_supplier(&mut self, offers: &Range<usize>, supplier: &str) {
        self.laid_out.take();
        let mut start = 0;
        for piece in &mut self.pieces {
            let end = start + piece.len();
            let (from, to) = (offers.start.max(start), offers.end.min(end));
            // One name for each piece, so that counting its users needs no talk between cores.
            let shared: Arc<str> = Arc::from(supplier);
            match piece {
                _ if from >= to => {}
                Piece::Columns(columns) if (from, to) == (start, end) => {
                    columns.set_supplier(&shared);
                }
                piece => {
                    let mut rows: Vec<OfferRecord> =
                        (0..end - start).filter_map(|at| piece.record(at)).collect();
                    for offer in &mut rows[from - start..to - start] {
                        offer.supplier = Arc::clone(&shared);
                    }
                    *piece = Piece::Rows(rows);
                }
            }
            start = end;
        }
    }

    /// Place and date of each offer.
    pub fn quote_dates(&self) -> impl Iterator<Item = (Place, Option<NaiveDate>)> {
        (self.pieces.iter())
            .flat_map(|piece| (0..piece.len()).filter_map(|at| piece.quote_date(at)))
    }

    /// Every offer as a record of its own, one at a time.
    pub fn records(&self) -> impl Iterator<Item = OfferRecord> {
        self.pieces
            .iter()
            .flat_map(|piece| (0..piece.len()).filter_map(|at| piece.record(at)))
    }
}

impl Deref for OfferList {
    type Target = [OfferRecord];

    fn deref(&self) -> &[OfferRecord] {
        match self.pieces.as_slice() {
            [] => &[],
            [Piece::Rows(rows)] => rows,
            _ => self.laid_out.get_or_init(|| self.records().collect()),
        }
    }
}

impl PartialEq for OfferList {
    fn eq(&self, other: &Self) -> bool {
        self.len() == other.len() && self.records().eq(other.records())
    }
}

impl From<Vec<OfferRecord>> for OfferList {
    fn from(rows: Vec<OfferRecord>) -> Self {
        Self {
            pieces: vec![Piece::Rows(rows)],
            laid_out: OnceLock::new(),
        }
    }
}

impl FromIterator<OfferRecord> for OfferList {
    fn from_iter<I: IntoIterator<Item = OfferRecord>>(offers: I) -> Self {
        Vec::from_iter(offers).into()
    }
}

impl IntoIterator for OfferList {
    type Item = OfferRecord;
    type IntoIter = Box<dyn Iterator<Item = OfferRecord>>;

    fn into_iter(self) -> Self::IntoIter {
        Box::new(self.pieces.into_iter().flat_map(
            |piece| -> Box<dyn Iterator<Item = OfferRecord>> {
                match piece {
                    Piece::Rows(rows) => Box::new(rows.into_iter()),
                    Piece::Columns(columns) => {
                        Box::new((0..columns.len()).map_while(move |at| columns.record(at)))
                    }
                }
            },
        ))
    }
}

impl<'l> IntoIterator for &'l OfferList {
    type Item = &'l OfferRecord;
    type IntoIter = std::slice::Iter<'l, OfferRecord>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}
