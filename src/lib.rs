//! Finds the standard part, the cheapest way back to running and the stock to keep, from the spreadsheets a
//! maintenance shop already has.
//!
//! A row travels through the modules in this order, and each module may use only those before it:
//!
//! 1. [`caution`], [`language`], [`digest`], `parallel` and `quick_map`: what to beware of; messages of other
//!    languages; sums of files; work on all cores with the results in order; maps of our own tables.
//! 2. [`place`] and [`units`]: where a value came from; exact lengths, money, counts.
//! 3. [`part`], [`standard`] and [`limit`]: what a part is; the sizes that standards list; what a new part may measure.
//!    [`engineering`]: life, static safety, speed, fits, glands and preload by published formulas.
//! 4. [`record`]: one checked row of each kind of table, and the shop's settings.
//! 5. [`import`]: a folder of spreadsheets in, records and row issues out.
//! 6. [`store`]: records of many imports kept in a workspace, with their history.
//! 7. [`catalogue`]: records merged to parts by number and by dimension; the [`catalogue::Shop`].
//! 8. [`interchange`]: which part may replace which, and what is accepted on each kit line.
//! 9. [`lookup`]: questions at the bench and their answers.
//! 10. [`plan`]: lead times, calendars, kits, stock levels, what to order: numbers, and their reasons in words.
//! 11. [`report`]: the same tables as workbook, page, CSV and JSON.
//! 12. [`job`]: the main job in one piece; [`web`]: the local page; [`cli`]: the commands.
//!
//! ```no_run
//! use sparewright::job::Job;
//! let job = Job::read("data/demo".as_ref(), None)?;
//! let planned = job.plan()?;
//! for order in &planned.plan.reorder.orders {
//!     println!("{}: {} lines", order.supplier, order.lines.len());
//! }
//! # Ok::<(), sparewright::job::JobError>(())
//! ```
//!
//! Without the default feature `tables`, which brings polars, the crate has no workspace, job and commands.
//!
//! Lengths are whole nanometres inside ([`units::Length`]); floats carry their unit in their name.

#![cfg_attr(test, allow(clippy::unwrap_used))]

pub mod catalogue;
pub mod caution;
#[cfg(feature = "tables")]
pub mod cli;
pub mod digest;
pub mod engineering;
pub mod import;
pub mod interchange;
#[cfg(feature = "tables")]
pub mod job;
pub mod language;
pub mod limit;
pub mod lookup;
mod parallel;
pub mod part;
pub mod place;
pub mod plan;
mod quick_map;
pub mod record;
pub mod report;
pub mod standard;
#[cfg(feature = "tables")]
pub mod store;
pub mod units;
#[cfg(feature = "tables")]
pub mod web;
