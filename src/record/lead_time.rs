//! Lead times as quoted.

use std::fmt;

use chrono::NaiveDate;

/// What a quoted lead time counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum LeadUnit {
    /// Hours on the clock.
    Hours,
    /// Working days of the supplier.
    Workdays,
    /// Calendar days.
    Days,
}

/// A lead time as quoted; a missing one is `None` in the record, never 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum QuotedLeadTime {
    /// On the supplier's shelf: leaves with the next order cut-off.
    InStock,
    /// A span, from `least` to `most`; equal where one number was quoted.
    Span {
        /// Shortest, in `unit`.
        least: f64,
        /// Longest, in `unit`.
        most: f64,
        /// What is counted.
        unit: LeadUnit,
    },
    /// A promised date.
    By(NaiveDate),
    /// "On request": the supplier has not said.
    OnRequest,
}

impl QuotedLeadTime {
    /// One number of the given unit.
    pub const fn exactly(amount: f64, unit: LeadUnit) -> Self {
        Self::Span {
            least: amount,
            most: amount,
            unit,
        }
    }
}

impl fmt::Display for QuotedLeadTime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (least, most, unit) = match self {
            Self::InStock => return f.write_str("in stock"),
            Self::By(date) => return write!(f, "by {date}"),
            Self::OnRequest => return f.write_str("on request"),
            Self::Span { least, most, unit } => (least, most, unit),
        };
        let unit = match unit {
            LeadUnit::Hours => "h",
            LeadUnit::Workdays => "working days",
            LeadUnit::Days => "days",
        };
        if least < most {
            write!(f, "{least} to {most} {unit}")
        } else {
            write!(f, "{most} {unit}")
        }
    }
}
