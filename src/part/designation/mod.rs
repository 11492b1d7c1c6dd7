//! Reads standard designations (DIN 623-1 and the ISO standards of each family).
//!
//! Only what the text itself says; the sizes behind the numbers are in [`standard`](crate::standard).

mod bearing;
mod bore_code;
pub(crate) mod closure_lists;
pub(crate) mod closure_words;
mod cone_cup;
mod elastomer;
mod in_words;
mod iso_355;
mod lip_seal;
mod lock_nut;
mod o_ring;
mod parsed;
mod pin;
mod read;
mod retaining_ring;
mod series;
mod size_text;
mod suffix;
mod text;
pub mod trade_words;
mod unmarked;

pub use bore_code::bore_mm;
pub use elastomer::{elastomer, seal_elastomer};
pub use parsed::Designation;
pub use suffix::{close_a_face_each, contradict};
