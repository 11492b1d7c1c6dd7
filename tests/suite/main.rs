//! Checks against published standards and other people's tables.

mod designation;
mod standard;
mod table;
