//! What to buy, make or fetch for a kit: the cheapest way to be running soonest, with proof or gap.
//!
//! [`problem`] and the files after it know figures only; what a line can be covered by is worked out in `cover`.

mod cheapest;
mod deadline;
mod dual_bound;
mod problem;

pub use cheapest::MOST_NODES;
pub use deadline::{BestInTotal, CurvePoint, best_in_total, curve, within_budget};
pub use problem::{Choice, Freight, Picked, Problem};

#[cfg(test)]
mod tests;
