//! What a part's level is counted in.

use crate::catalogue::CataloguePart;
use crate::plan::sourcing::Sourcing;
use crate::units::UnitOfCount;

/// Unit a part's level is counted in: that of its stock, else its own, else pieces.
pub fn stock_unit(sourcing: &Sourcing<'_>, part: &CataloguePart) -> UnitOfCount {
    sourcing
        .stock
        .by_part
        .get(&part.id)
        .map(|stock| stock.unit)
        .or(part.unit_of_count)
        .unwrap_or(UnitOfCount::Piece)
}
