//! How often and in what quantities parts are used, with the exposure behind every rate.
//!
//! Belongs here: histories, rates and their spread, lives in running hours, which parts' demand may be pooled. Does not:
//! how much to stock for it (`levels`), when goods come (`lead_time`).

mod class;
#[cfg(test)]
mod coverage_tests;
mod croston;
mod discount;
mod estimate;
mod exposure;
mod gamma_poisson;
mod group;
mod history;
mod life;
mod life_forecast;
mod likely_sizes;
mod moments;
mod of_part;
mod planned;
mod pool;
mod pooling_gain;
mod renewal;
mod size;
mod weibull;
mod why_not_by_age;

pub use class::{ClassFigures, DemandClass};
pub use croston::Smoothed;
pub use discount::{Discount, MONTH_DAYS, USUAL_DISCOUNT, best_discount};
pub(super) use exposure::{dates_contradict, last_day_in_service};
pub use gamma_poisson::{Counted, EventRate, GroupPrior};
pub use group::{GroupOf, Grouped, Groups, price_bands};
pub use history::History;
pub use life::{FittedPosition, PartLife, lives};
pub use life_forecast::LifeForecast;
pub use moments::{DemandRate, LeadTimeDemandMoments, RateBasis};
pub use of_part::{Demand, Rate, SizesInParts, demands};
pub use pool::{DemandPool, pools};
pub use pooling_gain::{PoolSaving, PoolingGain, pool_savings};
pub use renewal::{AgeReplacement, expected_renewals, failures_of_aged, renewals_at_most};
pub use size::{GroupSizes, LogSizes, SizeMoments};
pub use weibull::{ENOUGH_FAILURES, Weibull, WeibullFit, failures_among};
pub use why_not_by_age::{WhyNotByAge, failures_by_hours, why_not_by_age};
