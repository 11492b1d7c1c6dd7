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

// The form of the page is the only reader.
#[cfg(feature = "tables")]
pub(crate) use family::FormFigures;
pub(crate) use family::{
    AlongAxis, Band, Carries, ClassBeside, ClosedWidth, Element, HousingBand, InSets, KindWord,
    MadeClosed, Measured, NamedBy, OnShaft, OtherWidth, PartKind, Pressure, RingAway, Rings,
    RoomLeft, ShaftBand, Span, Spans, StandardSays, StaticLoad, Teardown, Unmarked, Way, Which,
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
