//! Every sheet of the report of one small shop, worked out by hand, and what one changed cell does to them.
//!
//! The shop is invented; what its sheets must say follows from its few rows by arithmetic and the calendar.

mod advice;
mod as_workbook;
mod changed;
mod edges;
mod hurried;
mod late_lines;
mod lots_and_orders;
mod machines_and_receipts;
mod open_lines;
mod same_shop;
mod service_ends;
mod settings_at_work;
mod small_shop;
mod told;
mod worked;

pub use small_shop::SmallShop;
