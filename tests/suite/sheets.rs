//! Every sheet of the report of one small shop, worked out by hand, and what one changed cell does to them.
//!
//! The shop is invented; what its sheets must say follows from its few rows by arithmetic and the calendar.

mod advice;
mod changed;
mod small_shop;
mod worked;
