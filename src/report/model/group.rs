//! Sheets that are handed over together, because one reads another.

use std::ops::Deref;
use std::sync::Arc;

use super::sheet::Sheet;

/// Sheets of which formulas read each other and no other; several writers may hold them at a time.
#[derive(Debug, Clone)]
pub struct Group(Arc<Vec<Sheet>>);

impl Group {
    /// Takes the sheets.
    pub fn new(sheets: Vec<Sheet>) -> Self {
        Self(Arc::new(sheets))
    }
}

impl Deref for Group {
    type Target = [Sheet];

    fn deref(&self) -> &[Sheet] {
        &self.0
    }
}
