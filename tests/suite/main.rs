//! The suite: everything that is larger than a unit test, in one binary.

#![allow(clippy::unwrap_used)]

mod report;
