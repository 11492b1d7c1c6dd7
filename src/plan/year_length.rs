//! How long a year is, as everywhere in the plan: no leap day, so that a rate is the same in each.

/// Days of a year.
pub const YEAR_DAYS: f64 = 365.0;

/// Hours of a year.
pub const YEAR_H: f64 = 24.0 * YEAR_DAYS;
