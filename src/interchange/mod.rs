//! Which part may replace which, and why not.
//!
//! Rules judge two parts; acceptance belongs to the kit line and adds what people approved for it.

mod acceptance;
mod verdict;

pub use acceptance::{Accepted, AcceptedBecause, LineAcceptance, OpenSubstitute};
pub use verdict::{Difference, Judgement, Verdict};
