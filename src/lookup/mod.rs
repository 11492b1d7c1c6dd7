//! Answers a question at the bench: a size, a designation or measured values in; standard parts, the shop's own
//! parts and offers out, each with a verdict, its reasons and its probability.

mod answer;
mod answers;
mod ask;
mod beside_number;
mod by_groove;
mod clearance_left;
mod failing_groove;
mod found;
mod groove;
mod likelihood;
mod lost_clearance;
mod pin_class;
mod question;
mod reading;
mod ring_width;
mod steep;
mod worked_out;

pub use crate::catalogue::card_index::{OfferLine, StockLine};
pub use answer::answer;
pub use answers::{Answer, Answers, NoneOfThese, WorkedOut};
pub use ask::AskNext;
pub use clearance_left::{against_clearance, likely_in_words};
pub use found::{Found, Matched, certainty, percent};
pub use groove::Groove;
pub use likelihood::{Asked, Candidate, Posterior, Scored, expanded_uncertainty_mm, posterior};
pub use question::{Question, QuestionError};
pub use reading::{Instrument, Reading, Role};
pub use worked_out::{LOOSE_ON_SHAFT, LOOSER_THAN_CLASS, TIGHTER_THAN_CLASS};
