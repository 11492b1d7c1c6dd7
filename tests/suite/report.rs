//! Reports: what is written can be read back, value by value, by programs that know nothing of this one.

mod files;
mod hostile;
mod outside;
mod page;
mod rebuild_page;
mod recalculation;
mod sample;
mod schema;
mod second_reader;
mod sheets_agree;
mod sorting;
mod text;
mod workbook;
