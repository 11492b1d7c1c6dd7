//! Records by themselves: clocks of time zones, long lists of offers kept by columns.

mod clocks;
mod offer_lists;
