//! What an answer is made of: parts with their verdicts, why it may be none of them, what to ask next.

use std::sync::Arc;

use super::ask::AskNext;
use super::found::{Matched, certainty};
use crate::catalogue::card_index::{OfferLine, StockLine};
use crate::interchange::Judgement;
use crate::part::SizeKey;
use crate::standard::Confidence;

/// Why it may be none of the answers, and how likely.
#[derive(Debug, Clone, PartialEq, Default, serde::Serialize)]
pub struct NoneOfThese {
    /// Probability; never 0.
    pub probability: f64,
    /// Why.
    pub why: String,
}

/// The whole answer.
#[derive(Debug, Clone, Default)]
pub struct Answers {
    /// Parts that go in, likeliest and best first.
    pub answers: Vec<Answer>,
    /// Parts that tempt but must not be used.
    pub refused: Vec<Answer>,
    /// How many more parts the shop has of these sizes and near them that are not listed.
    pub not_listed: u32,
    /// A special, or a part outside the tables: always possible.
    pub none_of_these: NoneOfThese,
    /// What to ask next.
    pub ask_next: Option<AskNext>,
    /// Engineering checks that the figures allow.
    pub worked_out: Vec<WorkedOut>,
    /// Warnings.
    pub warnings: Vec<String>,
}

/// One part and what is to be said of it.
#[derive(Debug, Clone)]
pub struct Answer {
    /// What to ask for at the counter.
    pub designation: String,
    /// Other designations of this size that nothing read so far tells apart.
    pub twins: Vec<String>,
    /// The shop's or supplier's number, where it is a part of the shop's tables.
    pub number: Option<String>,
    /// Family and size.
    pub size: Option<SizeKey>,
    /// Standard the size comes from, where there is one.
    pub standard: Option<String>,
    /// How the size was matched.
    pub matched: Matched,
    /// Probability that the size asked for is the one this answer was judged against.
    pub probability: f64,
    /// How far the standard row was cross-checked.
    pub confidence: Option<Confidence>,
    /// Verdict and reasons; parts that no rule tells apart share theirs.
    pub judgement: Arc<Judgement>,
    /// Stock.
    pub stock: Vec<StockLine>,
    /// Offers.
    pub offers: Vec<OfferLine>,
}

/// What a check found.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkedOut {
    /// Designation of the part it was worked out for; empty where the numbers alone were given.
    pub of: String,
    /// Name of the check: `seat`, `oring`, `lip`, ...
    pub check: &'static str,
    /// Values by name with its unit; `None` is unknown.
    pub values: Vec<(&'static str, Option<f64>)>,
    /// What the values rest on and mean.
    pub says: Vec<String>,
    /// What speaks against fitting.
    pub against: Vec<String>,
}

impl Answer {
    /// Certainty of the size in words.
    pub fn certainty(&self) -> &'static str {
        certainty(self.probability)
    }

    /// True where neither table nor list gives its size: it was found by the shop's own name.
    pub const fn is_by_name_only(&self) -> bool {
        self.size.is_none()
    }

    /// True where some of it is free on the shelf.
    pub(super) fn is_in_stock(&self) -> bool {
        self.stock.iter().any(StockLine::is_free)
    }
}

impl WorkedOut {
    /// A check without values yet.
    pub const fn new(check: &'static str) -> Self {
        Self {
            of: String::new(),
            check,
            values: Vec::new(),
            says: Vec::new(),
            against: Vec::new(),
        }
    }
}
