//! What may be fitted on one kit line: what goes in as it is, and what a person approved for that line.

use chrono::NaiveDate;

use super::verdict::Judgement;
use crate::catalogue::PartId;

/// Why a part is accepted on a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum AcceptedBecause {
    /// It is the part the line asks for.
    AskedFor,
    /// It is the same standard part under another number, and goes in as it is.
    GoesInAsItIs,
    /// A person approved it for this line.
    ApprovedBy {
        /// Who.
        by: String,
        /// When.
        date: Option<NaiveDate>,
    },
}

/// A part that may be planned, pooled and bought for a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Accepted {
    /// The part.
    pub part: PartId,
    /// Why.
    pub because: AcceptedBecause,
}

/// A part that might be fitted if a person approved it for the line; never planned before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenSubstitute {
    /// The part.
    pub part: PartId,
    /// What speaks for and against it.
    pub judgement: Judgement,
}

/// Everything that may, might or must not be fitted on one kit line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineAcceptance {
    /// Position of the kit in [`Shop::kits`](crate::catalogue::Shop::kits).
    pub kit: usize,
    /// Position of the line in its kit.
    pub line: usize,
    /// What may be fitted, the part asked for first.
    pub accepted: Vec<Accepted>,
    /// What an approval would add.
    pub open: Vec<OpenSubstitute>,
    /// Same size, but must not be used, or tried and did not fit.
    pub refused: Vec<OpenSubstitute>,
}
