//! The only test binary: one module per folder of `src`.
#![allow(
    clippy::unwrap_used,
    reason = "a failing test should stop where it fails"
)]

mod acceptance;
mod bad_input;
mod bench;
mod card_index;
mod catalogue;
mod cli;
mod cli_check;
mod cli_german;
mod cli_native;
mod cli_planning;
mod demand;
mod demand_ahead;
mod demo;
mod designation;
mod designation_marks;
mod engineering;
mod german_words;
mod import;
mod import_damage;
mod import_limits;
mod import_long;
mod import_maps;
mod import_rows;
mod import_values;
mod imported;
mod interchange;
mod kits;
mod language;
mod layout;
mod lead_time;
mod levels;
mod limits;
mod lookup;
mod lookup_asks;
mod lookup_mixed;
mod lookup_named;
mod lookup_shop;
mod lookup_words;
mod match_json;
mod outside;
mod plan;
mod records;
mod rejects;
mod replay;
mod report;
mod rows;
mod rule_words;
mod sample;
mod settings;
mod sheets;
mod shops;
mod simulation;
mod standard;
mod store;
mod store_records;
mod table;
mod text_files;
mod units;
mod web;
mod workbook_forms;
mod workbooks;
