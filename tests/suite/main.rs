//! The only test binary: one module per folder of `src`.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on must fail")]

mod import;
