//! Checks against sources outside the project, one module per folder of `src`.
#![allow(clippy::unwrap_used)]

mod plan;
