//! Rows to records: one file per kind of table, and the reader of one row that they share.
//!
//! A reader that cannot get what identifies its row returns [`Rejected`]; a bad value that the record can do
//! without becomes an issue and `None`.

mod approvals;
mod closed_beside;
mod context;
mod counted;
mod counts;
mod described;
mod evidence;
mod figures;
mod hedges;
mod identity;
mod inches;
mod kind_by_size;
mod kit_lines;
mod lead_times;
mod machines;
mod mark_beside;
mod memo;
mod money;
mod named_length;
mod named_part;
mod net_price;
mod offer_kind;
mod offers;
mod other_ways;
mod parts;
mod piece_beside;
mod pieces;
mod planned_rebuilds;
mod price_step;
mod price_tax;
mod price_unit;
mod printed_size;
mod quick_offers;
mod reader;
mod receipts;
mod remark;
mod row_kind;
mod said_beside;
mod seal_beside;
mod set_words;
mod signs;
mod size;
mod size_beside;
mod slipped;
mod stock;
mod suppliers;
mod table;
mod tasks;
mod traits;
mod usages;

pub use context::{InchDoubt, ReadColumn, TableContext};
pub use counts::TableCounts;
pub use memo::LookedAt;
pub use table::read_table;
