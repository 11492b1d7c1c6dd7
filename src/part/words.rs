//! Words for the families, in several languages, kept as data.

use super::family::Family;

/// Finds the family that words name, and gives the text without them.
pub fn family_named(text: &str) -> (Option<Family>, String) {
    (None, text.to_owned())
}
