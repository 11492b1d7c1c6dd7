//! What is wrong or doubtful with one row: collected with its place, never thrown.

use crate::place::Place;
use crate::units::{CountError, LengthError};

use super::field::Field;
use super::value::{DateError, LeadTimeError, NumberError, PriceError};

/// What an issue did to its row.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The row was not taken.
    Rejected,
    /// The row was taken without the value.
    Doubtful,
    /// The value was taken; the reader should know how.
    Note,
}

/// One problem of one row.
#[derive(Debug, Clone, PartialEq)]
pub struct RowIssue {
    /// Cell, or the row where no single cell is to blame.
    pub place: Place,
    /// What it did to the row.
    pub severity: Severity,
    /// Field, where one is concerned.
    pub field: Option<Field>,
    /// What was found and what would be right.
    pub problem: Problem,
    /// Cells of a rejected row as they were; empty for rows that were taken.
    pub original_cells: Vec<String>,
}

/// What is wrong with a value or a row.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Problem {
    /// A value without which the row means nothing.
    #[error("{field} is missing; a {record} needs one")]
    Missing {
        /// The field.
        field: Field,
        /// What the row would be.
        record: &'static str,
    },
    /// An error value of a formula.
    #[error("the cell shows the error {found}; expected a value")]
    ErrorValue {
        /// The error.
        found: String,
    },
    /// Not a number, or one with two readings.
    #[error(transparent)]
    Number(#[from] NumberError),
    /// Outside its range.
    #[error("{found} is out of range; expected {expected}")]
    OutOfRange {
        /// As found.
        found: String,
        /// What would be right.
        expected: &'static str,
    },
    /// Not a date, or one with two readings.
    #[error(transparent)]
    Date(#[from] DateError),
    /// Not a lead time.
    #[error(transparent)]
    LeadTime(#[from] LeadTimeError),
    /// Not a price.
    #[error(transparent)]
    Price(#[from] PriceError),
    /// Not a length.
    #[error(transparent)]
    Length(#[from] LengthError),
    /// Not a unit of count.
    #[error(transparent)]
    Count(#[from] CountError),
    /// A word that is not among the known ones.
    #[error("`{found}` is not known; expected {expected}")]
    UnknownWord {
        /// As found.
        found: String,
        /// What would be right.
        expected: &'static str,
    },
    /// Printed dimensions and designation differ.
    #[error(
        "dimensions {printed} contradict designation `{designation}`, which is {standard}; no size was taken"
    )]
    SizeContradicts {
        /// As printed.
        printed: String,
        /// Designation as printed.
        designation: String,
        /// Size of that designation.
        standard: String,
    },
    /// The width of a cone without the width of the whole bearing.
    #[error(
        "no size: width {found} of a tapered roller bearing is that of its cone (B); expected the assembled width T"
    )]
    ConeWidthOnly {
        /// As printed.
        found: String,
    },
    /// Two columns name different families.
    #[error("`{one}` names a {one_family}, `{other}` a {other_family}; no family was taken")]
    FamilyContradicts {
        /// Text of one side.
        one: String,
        /// Its family.
        one_family: crate::part::Family,
        /// Text of the other side.
        other: String,
        /// Its family.
        other_family: crate::part::Family,
    },
    /// A column and the designation differ in something besides size.
    #[error(
        "`{column}` contradicts designation `{designation}`, which says {says}; neither was taken"
    )]
    TraitContradicts {
        /// As in the column.
        column: String,
        /// Designation as printed.
        designation: String,
        /// What the designation says.
        says: String,
    },
    /// Dimensions that do not make a size.
    #[error("no size: {0}")]
    Size(#[from] crate::part::SizeError),
    /// Dimensions without a family to give them a meaning.
    #[error(
        "dimensions {found} belong to no known family; expected a type, a description or a standard designation that names one"
    )]
    NoFamily {
        /// The dimensions as printed.
        found: String,
    },
    /// The price includes value added tax.
    #[error("the price includes value added tax at an unknown rate; expected a net price")]
    PriceWithTax,
    /// Quantities of price breaks that do not rise, or prices that rise with quantity.
    #[error("price breaks are out of order: {found}; expected prices that fall as quantities rise")]
    BreaksOutOfOrder {
        /// The breaks.
        found: String,
    },
    /// A problem of an import that is already in a workspace, in the words it was told in then.
    #[error("{words}")]
    Recorded {
        /// The words.
        words: String,
    },
    /// A price without a number: the supplier has to be asked.
    #[error("the price is on request")]
    PriceOnRequest,
}

impl RowIssue {
    /// True where the row was not taken.
    pub fn is_rejected(&self) -> bool {
        self.severity == Severity::Rejected
    }
}
