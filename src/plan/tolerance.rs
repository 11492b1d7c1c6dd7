//! How close two computed figures are the same.

/// Quantities, in units of count, and hours that differ by less are equal: sums of parts of a metre leave last bits.
pub const TOLERANCE: f64 = 1e-9;

/// Shares of 1: a quantile is met by a share this little below it, because sums are rounded.
pub const SHARE_TOLERANCE: f64 = 1e-9;
