//! The shape of a table: its headers with their columns.

use super::fold::fold;

/// The headers of a table with their columns, folded to one spelling: tables of one shape are read alike.
#[derive(
    Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
)]
pub struct Shape(String);

impl Shape {
    /// The shape of a table with these headers at these positions.
    pub fn of<'h>(headers: impl IntoIterator<Item = (u32, &'h str)>) -> Self {
        let mut columns: Vec<(u32, String)> = headers
            .into_iter()
            .map(|(column, header)| (column, fold(header)))
            .collect();
        columns.sort();
        let texts: Vec<String> = columns
            .into_iter()
            .map(|(column, header)| format!("{}:{header}", crate::place::column_letters(column)))
            .collect();
        Self(texts.join("|"))
    }

    /// The shape as text, for storing.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shape_is_the_same_in_any_spelling_and_another_in_another_column() {
        let one = Shape::of([(0, "Art.-Nr."), (2, "Preis")]);
        assert_eq!(one, Shape::of([(2, "PREIS"), (0, "art nr")]));
        assert_ne!(one, Shape::of([(0, "Art.-Nr."), (1, "Preis")]));
    }
}
