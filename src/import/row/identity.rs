//! What a row says its part is.

use std::sync::Arc;

use crate::part::{Family, LoadRatings, SizeKey, Traits};

/// What a row says its part is.
#[derive(Debug, Clone, Default)]
pub struct Identity {
    /// Designation as printed.
    pub designation: Option<Arc<str>>,
    /// Description as printed.
    pub description: Option<String>,
    /// Family, where one is named and none contradicts it.
    pub family: Option<Family>,
    /// Size, where it is whole and nothing contradicts it.
    pub size: Option<SizeKey>,
    /// How the size differs from what was printed.
    pub size_notes: Vec<String>,
    /// What is known besides size.
    pub traits: Arc<Traits>,
    /// Load ratings with source.
    pub ratings: Option<Box<LoadRatings>>,
}
