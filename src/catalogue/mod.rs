//! Parts by number and by dimension, and everything a shop keeps, resolved to those parts.
//!
//! Nothing here judges exchange or plans anything.

mod index;
mod part;
mod shop;

pub use crate::part::NameKey;
pub use index::Catalogue;
pub use part::{CataloguePart, PartId};
pub use shop::{Kit, KitLineOf, OfferOf, ReceiptOf, Shop, StockOf, Unresolved, UsageOf};
