//! Reports: what is written can be read back, value by value, by programs that know nothing of this one.

mod files;
mod page;
mod sample;
mod text;
mod workbook;
