//! What a new part may measure: tolerances of bearings, seats, O-rings and lip seals, and O-ring glands, from
//! `data/limit/`, each table with its source.
//!
//! Tables are read once, on first use. Nothing here knows instruments or wear.

mod bearing;
mod clearance;
mod deviation;
mod fit;
mod gland;
mod lip_seal;
mod o_ring;

pub use bearing::{BearingFeature, bearing};
pub use clearance::{clearance, clearance_groups};
pub use deviation::Deviation;
pub use fit::{fit, fit_classes};
pub use gland::{Duty, Gland, gland};
pub use lip_seal::{SealFeature, lip_seal};
pub use o_ring::{OringTolerance, o_ring};
