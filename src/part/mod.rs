//! What a part is: its family, its size, and the traits that decide whether it may replace another.
//!
//! No spreadsheets, no stock and no prices here.

pub mod designation;
mod envelope;
mod family;
mod name;
mod ratings;
mod size;
mod traits;
mod word_map;

pub(crate) use family::{
    Band, ClosedWidth, HousingBand, Measured, OtherWidth, Rings, RoomLeft, ShaftBand, Span, Spans,
};
pub use family::{Dimension, Family, PartClass};
pub use name::NameKey;
pub use ratings::LoadRatings;
pub use size::{FitClass, SizeError, SizeKey};
pub use traits::{
    BoreForm, Clearance, ClosedBy, Closure, ContactAngle, RibForm, SealForm, ToleranceClass,
    Traits, UNSAID_SET,
};
pub use word_map::{WordMap, WordSet};
