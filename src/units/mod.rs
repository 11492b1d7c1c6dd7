//! Quantities with their units: lengths, money, counts. The only place that converts between units.
//!
//! Nothing here knows what a part or a spreadsheet is.

mod count;
mod grouped;
mod length;
mod money;
mod read_length;

pub use count::{CountError, Quantity, UnitOfCount, is_pack, without_rounding_residue};
pub use grouped::grouped;
pub use length::{Length, LengthError, LengthUnit};
pub use money::{Currency, Money, MoneyError, Price, UnitPrice, cents_of};
pub use read_length::{ReadLength, read_length, read_size};
