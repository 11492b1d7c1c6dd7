//! What each address shows: one file per address or pair of addresses.

mod answer_shown;
pub(super) mod asset;
pub(super) mod download;
mod fields;
mod frame;
pub(super) mod import;
pub(super) mod kit;
pub(super) mod kits;
pub(super) mod levels;
pub(super) mod look_up;
pub(super) mod overview;
mod rebuild_chart;
pub(super) mod table;

pub(super) use frame::Failure;
