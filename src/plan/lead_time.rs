//! When goods arrive if ordered at a given moment, and what that rests on.

use std::fmt;

use chrono::{Days, Duration, NaiveDate, NaiveDateTime};

use super::calendar::Calendars;
use super::lognormal::LogSample;
use super::receipt_history::{Lateness, ReceiptHistory};
use crate::catalogue::PartId;
use crate::record::{LeadUnit, QuotedLeadTime, SupplierRecord};

/// How much longer than quoted the late case takes where nothing but a quote (or an estimate of own work) is known.
///
/// Common practice, no source.
pub const QUOTE_LATE_FACTOR: f64 = 1.5;

/// Working days from a supplier's shelf to the gate, where "in stock" is all the quote says.
///
/// Common practice, no source.
pub const SHELF_TO_GATE_WORKDAYS: f64 = 1.0;

/// Share of cases in which goods come no later than the late date.
pub const LATE_SHARE: f64 = 0.9;

/// What an arrival rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LeadBasis {
    /// It is on the own shelf.
    OnShelf,
    /// Receipts of this part from this supplier.
    PartReceipts {
        /// How many.
        receipts: usize,
    },
    /// Receipts of any part from this supplier.
    SupplierReceipts {
        /// How many.
        receipts: usize,
    },
    /// The quote times what this supplier's promises turned out to be.
    QuoteCorrected {
        /// Receipts with a promised day.
        receipts: usize,
        /// Typical ratio of actual to promised days.
        ratio: f64,
    },
    /// The quote, late case [`QUOTE_LATE_FACTOR`] times as long.
    QuoteOnly,
    /// An open order, from the receipts and its age.
    OpenOrderByAge {
        /// Receipts behind it.
        receipts: usize,
        /// Days since it was ordered.
        age_days: i64,
    },
    /// An open order, from its due date.
    OpenOrderByDueDate,
    /// Fetched from the supplier's counter, which has it in stock by its quote.
    FromCounter,
    /// An estimate of own or outside work, late case [`QUOTE_LATE_FACTOR`] times as long.
    WorkEstimate,
}

/// When something arrives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrival {
    /// As likely before as after (P50).
    pub likely: NaiveDateTime,
    /// Later in one case of ten (P90).
    pub late: NaiveDateTime,
    /// Mean calendar days from the order to the shelf.
    pub mean_days: f64,
    /// What it rests on.
    pub basis: LeadBasis,
}

/// Estimates lead times of offers.
#[derive(Debug)]
pub struct LeadTimes<'a> {
    calendars: &'a Calendars,
    history: &'a ReceiptHistory,
}

/// Everything an estimate for one offer looks at.
#[derive(Debug, Clone, Copy)]
pub struct LeadQuestion<'a> {
    /// Supplier as printed.
    pub supplier: &'a str,
    /// Its row, where there is one.
    pub record: Option<&'a SupplierRecord>,
    /// The part.
    pub part: PartId,
    /// The quote; `None` where there is none.
    pub quoted: Option<QuotedLeadTime>,
    /// True for a hurried delivery: ordinary receipts say nothing about it.
    pub is_hurried: bool,
    /// Moment of the order.
    pub ordered_at: NaiveDateTime,
}

/// Least and most of a quote in one unit.
#[derive(Debug, Clone, Copy)]
struct Span {
    least: f64,
    most: f64,
    unit: LeadUnit,
}

impl Arrival {
    /// Something that is here at a moment for sure.
    pub const fn on_shelf(moment: NaiveDateTime) -> Self {
        Self {
            likely: moment,
            late: moment,
            mean_days: 0.0,
            basis: LeadBasis::OnShelf,
        }
    }
}

impl<'a> LeadTimes<'a> {
    /// Takes the calendars and the receipts of a shop.
    pub const fn new(calendars: &'a Calendars, history: &'a ReceiptHistory) -> Self {
        Self { calendars, history }
    }

    /// When goods arrive; `None` where neither a quote nor enough receipts of the part say.
    ///
    /// Receipts of the part come first, then the quote corrected by how the supplier kept its promises, then
    /// receipts of the supplier in place of a quoted span, then the quote alone. Receipts of other parts never
    /// stand in for a missing quote.
    pub fn estimate(&self, question: &LeadQuestion<'_>) -> Option<Arrival> {
        if !question.is_hurried
            && let Some(fit) = self.history.of_part(question.supplier, question.part)
        {
            let receipts = fit.count;
            return self.by_fit(question, fit, LeadBasis::PartReceipts { receipts });
        }
        let span = match question.quoted? {
            QuotedLeadTime::OnRequest => return None,
            QuotedLeadTime::By(date) => return self.by_promise(question, date),
            QuotedLeadTime::InStock => Span {
                least: SHELF_TO_GATE_WORKDAYS,
                most: SHELF_TO_GATE_WORKDAYS,
                unit: LeadUnit::Workdays,
            },
            QuotedLeadTime::Span { least, most, unit } => Span { least, most, unit },
        };
        let ratio = self.lateness(question);
        let is_span = matches!(question.quoted, Some(QuotedLeadTime::Span { .. }));
        if ratio.is_none()
            && is_span
            && !question.is_hurried
            && span.unit != LeadUnit::Hours
            && let Some(fit) = self
                .history
                .of_supplier(question.supplier)
                .and_then(|history| history.fit)
        {
            let receipts = fit.count;
            return self.by_fit(question, fit, LeadBasis::SupplierReceipts { receipts });
        }
        self.by_span(question, span, ratio)
    }

    /// Day on which the order counts: the same, or the next working day after the cut-off or on a day off.
    pub fn counts_from(&self, question: &LeadQuestion<'_>) -> Option<NaiveDate> {
        let calendar = self.calendars.of_supplier(question.record);
        let day = question.ordered_at.date();
        let is_after_cutoff = question
            .record
            .and_then(|record| record.order_cutoff)
            .is_some_and(|cutoff| question.ordered_at.time() > cutoff);
        if is_after_cutoff && calendar.is_working_day(day) {
            calendar.next_working_day(day)
        } else {
            Some(day)
        }
    }

    fn by_fit(
        &self,
        question: &LeadQuestion<'_>,
        fit: LogSample,
        basis: LeadBasis,
    ) -> Option<Arrival> {
        let from = self.counts_from(question)?;
        let arrive = |days: f64| {
            let date = from.checked_add_days(Days::new(days.ceil() as u64))?;
            self.calendars.received(date, question.ordered_at)
        };
        Some(Arrival {
            likely: arrive(fit.predictive(0.5))?,
            late: arrive(fit.predictive(LATE_SHARE))?,
            mean_days: fit.mean(),
            basis,
        })
    }

    fn by_span(
        &self,
        question: &LeadQuestion<'_>,
        span: Span,
        ratio: Option<Lateness>,
    ) -> Option<Arrival> {
        let middle = f64::midpoint(span.least, span.most);
        let (likely, late, mean, basis) = match ratio {
            Some(Lateness {
                likely,
                late,
                mean,
                receipts,
            }) => (
                middle * likely,
                span.most * late,
                mean,
                LeadBasis::QuoteCorrected {
                    receipts,
                    ratio: likely,
                },
            ),
            None => (
                middle,
                span.most * QUOTE_LATE_FACTOR,
                1.0,
                LeadBasis::QuoteOnly,
            ),
        };
        let likely = self.after_span(question, to_likely_days(likely, span.unit), span.unit)?;
        let late = self.after_span(question, late, span.unit)?;
        let days = days_between(question.ordered_at, likely);
        let scale = ratio.map_or(1.0, |ratio| mean / ratio.likely.max(f64::MIN_POSITIVE));
        Some(Arrival {
            likely,
            late: late.max(likely),
            mean_days: days * scale,
            basis,
        })
    }

    fn by_promise(&self, question: &LeadQuestion<'_>, promised: NaiveDate) -> Option<Arrival> {
        let today = question.ordered_at.date();
        if promised < today {
            return None;
        }
        let days = (promised - today).num_days() as f64;
        let ratio = self.lateness(question);
        let (likely, late, basis) = ratio.map_or(
            (days, days * QUOTE_LATE_FACTOR, LeadBasis::QuoteOnly),
            |ratio| {
                let basis = LeadBasis::QuoteCorrected {
                    receipts: ratio.receipts,
                    ratio: ratio.likely,
                };
                (days * ratio.likely, days * ratio.late, basis)
            },
        );
        let arrive = |days: f64| {
            let date = today.checked_add_days(Days::new(days.ceil().max(0.0) as u64))?;
            self.calendars.received(date, question.ordered_at)
        };
        let likely = to_likely_days(likely, LeadUnit::Days);
        let (likely, late) = (arrive(likely)?, arrive(late)?);
        let mean = days_between(question.ordered_at, likely);
        Some(Arrival {
            likely,
            late: late.max(likely),
            mean_days: mean,
            basis,
        })
    }

    /// How this supplier keeps its promises, where enough receipts tell.
    fn lateness(&self, question: &LeadQuestion<'_>) -> Option<Lateness> {
        if question.is_hurried {
            return None;
        }
        self.history.of_supplier(question.supplier)?.lateness
    }

    /// The moment of receipt after so many hours, working days or days.
    fn after_span(
        &self,
        question: &LeadQuestion<'_>,
        amount: f64,
        unit: LeadUnit,
    ) -> Option<NaiveDateTime> {
        let calendar = self.calendars.of_supplier(question.record);
        let from = self.counts_from(question)?;
        let whole = amount.ceil().clamp(0.0, 36_500.0);
        let date = match unit {
            LeadUnit::Hours => {
                let start = if from > question.ordered_at.date() {
                    from.and_time(chrono::NaiveTime::MIN)
                } else {
                    question.ordered_at
                };
                let start = calendar.after(start, 0.0)?;
                let here = start + Duration::seconds((amount * 3600.0).round() as i64);
                return self.calendars.receiving().after(here, 0.0);
            }
            LeadUnit::Workdays => calendar.add_workdays(from, whole as u32)?,
            LeadUnit::Days => {
                calendar.roll_forward(from.checked_add_days(Days::new(whole as u64))?)?
            }
        };
        self.calendars.received(date, question.ordered_at)
    }
}

fn days_between(from: NaiveDateTime, until: NaiveDateTime) -> f64 {
    ((until - from).num_seconds() as f64 / 86_400.0).max(0.0)
}

impl fmt::Display for LeadBasis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OnShelf => f.write_str("on the shelf"),
            Self::PartReceipts { receipts } => write!(f, "{receipts} receipts of this part"),
            Self::SupplierReceipts { receipts } => {
                write!(f, "{receipts} receipts of this supplier, any part")
            }
            Self::QuoteCorrected { receipts, ratio } => write!(
                f,
                "quote, corrected by {receipts} receipts of this supplier (took {ratio:.2} times as long as promised)"
            ),
            Self::QuoteOnly => write!(
                f,
                "quote only; late case {QUOTE_LATE_FACTOR} times as long by common practice"
            ),
            Self::OpenOrderByAge { receipts, age_days } => {
                write!(f, "order open for {age_days} days, {receipts} receipts")
            }
            Self::OpenOrderByDueDate => f.write_str("due date of the open order"),
            Self::FromCounter => f.write_str("in stock at the counter by the quote, fetched"),
            Self::WorkEstimate => write!(
                f,
                "estimate of the work; late case {QUOTE_LATE_FACTOR} times as long by common practice"
            ),
        }
    }
}

/// The whole days of a likely case: the nearest, so that 2 days kept to within a tenth stay 2; never 0 of a part day.
///
/// The late case rounds up. Hours stay as they are.
fn to_likely_days(amount: f64, unit: LeadUnit) -> f64 {
    match unit {
        LeadUnit::Hours => amount,
        LeadUnit::Workdays | LeadUnit::Days if amount < 1.0 => amount.ceil(),
        LeadUnit::Workdays | LeadUnit::Days => amount.round(),
    }
}

#[cfg(test)]
mod tests;
