//! The only test binary: one module per folder of `src`.
#![allow(
    clippy::unwrap_used,
    reason = "a failing test should stop where it fails"
)]

mod acceptance;
mod bench;
mod catalogue;
mod cli;
mod demo;
mod designation;
mod import;
mod import_damage;
mod import_limits;
mod import_maps;
mod import_rows;
mod interchange;
mod layout;
mod lookup;
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
