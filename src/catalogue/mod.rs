//! Parts by number and by dimension, and everything a shop keeps, resolved to those parts.
//!
//! Nothing here judges exchange or plans anything.

pub mod card_index;
mod counted;
#[cfg(feature = "tables")]
pub mod frame;
mod index;
mod kits;
mod likeness;
mod merge;
mod names;
mod odd_offers;
mod offered_numbers;
mod own_numbering;
mod part;
mod presumption;
mod price_ladder;
mod resolve;
mod shelf_life;
mod shop;
mod spelling;
mod told_twice;
mod usage;

pub use crate::part::NameKey;
pub use index::Catalogue;
pub use part::{CataloguePart, PartId};
pub use shelf_life::{ShelfLife, ShelfLifeBasis, last_day, usable_until};
pub use shop::{
    Kit, KitLineOf, OfferOf, Presumption, ReceiptOf, Shop, StockOf, Unresolved, UsageOf,
};
pub use usage::UsageOfYear;
