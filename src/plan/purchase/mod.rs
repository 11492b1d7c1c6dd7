//! What to buy, make or fetch for a kit: the cheapest way to be running soonest, with proof or gap.
//!
//! [`problem`] and the files after it know figures only; what a line can be covered by is worked out in `cover`.

mod cheapest;
mod cover;
mod deadline;
mod dual_bound;
mod expected;
mod line_need;
mod problem;
mod proved;
mod split;
mod twice;
mod worth_keeping;

pub use cheapest::{MOST_NODES, cheapest};
pub use cover::{Cover, Covers, NO_PRICE_CENTS};
pub use deadline::{BestInTotal, best_in_total, curve, within_budget};
pub use expected::{BestExpected, Chance, Chances, MOST_PARTS};
pub use line_need::{Covered, LineNeed, OfferedWay};
pub use problem::{Choice, Picked, Problem};
pub use proved::Proved;
pub use twice::{Single, both};

#[cfg(test)]
mod tests;
