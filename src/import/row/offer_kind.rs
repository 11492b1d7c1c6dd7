//! A kind of offer: what rows of a long list share.

use std::sync::Arc;

use crate::record::OfferRecord;
use crate::units::Currency;

/// What earlier rows with the same shared texts gave.
#[derive(Debug, Clone)]
pub struct OfferKind {
    pub(super) record: Arc<OfferRecord>,
    /// Currency and number of units of prices whose cell names neither.
    pub(super) terms: Option<(Currency, u32)>,
    /// First row of the piece that holds it last, and its number there.
    pub(super) at: (u32, u32),
}
