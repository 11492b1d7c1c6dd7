//! test
