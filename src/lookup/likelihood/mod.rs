//! From measured figures to nominal sizes: how likely each standard size is, and how likely none of them.
//!
//! A figure is the middle of a new part's band (see [`limit`](crate::limit)), plus one-sided wear, plus what the instrument
//! adds. Constants without a published source say so where they stand.

mod assign;
mod candidate;
mod curves;
mod deal;
mod density;
mod expected;
mod figure;
mod instrument;
mod mixed;
mod near;
mod neighbour;
mod outside;
mod posterior;
mod sound;
mod special;

pub use candidate::Candidate;
pub use instrument::expanded_uncertainty_mm;
pub use neighbour::neighbours;
pub use posterior::{Asked, FILLS_ROOM_MM, OVER_ROOM_MM, Posterior, Scored, posterior, priors};
pub use sound::{outside_mm, remarks};
