//! A year of the shop, simulated event by event: usages, orders, receipts, rebuilds with a date, machines that wait.
//!
//! `dice` draws, `usage` and `receipts` say what is drawn, `policy` when is ordered, `shop_year` puts a shop together,
//! `event` and `one_year` run it once, `runs` many times, `ahead` compares. The same seed gives the same usages and the
//! same lateness to every policy, so that differences are those of the policies; results do not depend on threads.

mod ahead;
mod dice;
mod event;
mod machine_weights;
mod one_year;
mod policy;
mod production_clock;
mod receipts;
mod runs;
mod shop_year;
mod usage;
mod way;

#[cfg(test)]
mod tests;

pub use ahead::{Band, MachineYear, YearAhead, YearOf, compare, replications_for, year_ahead};
pub use machine_weights::machine_weights;
pub use policy::{OrderPolicy, PolicyBasis};
pub use runs::{Runs, ShopTotals};
pub use shop_year::{SEED, ShopYear, loses_rate};
