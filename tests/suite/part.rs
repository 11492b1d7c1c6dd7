//! What a part is: names as keys, sizes of every family, codes of traits, and places as a spreadsheet names them.

mod families;
mod names;
mod sizes;
mod traits;
