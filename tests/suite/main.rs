//! The only test binary: one module per folder of `src`.
#![allow(
    clippy::unwrap_used,
    reason = "a failing test should stop where it fails"
)]

mod acceptance;
mod bench;
mod card_index;
mod catalogue;
mod cli;
mod demand;
mod demo;
mod designation;
mod import;
mod import_damage;
mod import_limits;
mod import_long;
mod import_maps;
mod import_rows;
mod interchange;
mod language;
mod layout;
mod lead_time;
mod levels;
mod lookup;
mod match_json;
mod plan;
mod rejects;
mod replay;
mod report;
mod sample;
mod simulation;
mod standard;
mod store;
mod store_records;
mod table;
mod web;
mod workbooks;
