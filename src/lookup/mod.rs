//! Answers a question at the bench: a size, a designation or measured values in; standard parts, the shop's own
//! parts and offers out, each with a verdict and its reasons.

mod answer;
mod measured;
mod question;
mod unknown;

pub use answer::{Answer, Answers, OfferLine, StockLine, answer};
pub use measured::{Match, Matched, match_size};
pub use question::{Question, QuestionError};
