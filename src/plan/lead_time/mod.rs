//! When goods arrive if ordered at a given moment: a distribution, and what it rests on.
//!
//! [`spread`] holds distributions of days or hours, `log_sample` and `gamma` fit them to receipts and open orders,
//! `shrinkage`, `peers` and `leaning` let few receipts lean on those of others, `receipt_history` keeps what the shop's
//! receipts say. A [`course`] takes a lead time through the calendars to moments; [`LeadTimes`] chooses the evidence.

mod basis;
mod beside_quote;
mod course;
mod distribution;
mod gamma;
mod leaning;
mod log_sample;
mod peers;
mod placing;
mod receipt_history;
mod remembered;
mod shrinkage;
mod spread;

use chrono::{NaiveDate, NaiveDateTime, NaiveTime};

pub use basis::{LeadBasis, Receipts};
pub use course::{Course, HourClock};
pub use distribution::ArrivalDistribution;
pub use gamma::{gamma_fit, is_gamma_better, minus_log_likelihood};
pub use log_sample::LogSample;
pub use placing::Placing;
pub use receipt_history::{
    ENOUGH_ALONE, ENOUGH_RECEIPTS, LONGEST_DAYS, ReceiptHistory, supplier_key,
};
pub use spread::LeadTime;

use super::calendar::Calendars;
use crate::catalogue::PartId;
use crate::place::Place;
use crate::record::{LeadUnit, QuotedLeadTime, SameDay, SupplierRecord};
use log_sample::days_or_half;
use receipt_history::Evidence;

/// How much longer than quoted the late case takes where no promise in the shop tells how quotes are kept.
///
/// # Source
/// As wide as lead times of one supplier are: 2,660 orders of 22 suppliers in open purchasing data have a median
/// coefficient of variation of 0.57; a lognormal with that one exceeds its median by exp(1.2816 * 0.531) = 1.97 in one
/// case of ten.
pub const QUOTE_LATE_FACTOR: f64 = 2.0;

/// How much longer than estimated the late case of own or outside work and of a way takes.
///
/// Common practice, no source.
pub const WORK_LATE_FACTOR: f64 = 1.5;

/// Working days from a supplier's shelf to the gate, where "in stock" is all the quote says.
///
/// Common practice, no source.
pub const SHELF_TO_GATE_WORKDAYS: f64 = 1.0;

/// Share of cases in which goods come no later than the late date.
pub const LATE_SHARE: f64 = 0.9;

/// Share of cases in which goods come no later than the fairly sure date.
pub const FAIRLY_SHARE: f64 = 0.8;

/// Fewest receipts of a part that date it: one alone is no record.
///
/// Common practice, no source.
pub const FEWEST_RECEIPTS: usize = 2;

/// Least share of orders that took as long as an open one, for its promise still to say when it comes.
///
/// Common practice, no source.
const STILL_BELIEVED: f64 = 0.01;

/// When something arrives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrival {
    /// As likely before as after (P50).
    pub likely: NaiveDateTime,
    /// Later in one case of five (P80).
    pub fairly: NaiveDateTime,
    /// Later in one case of ten (P90).
    pub late: NaiveDateTime,
    /// Mean calendar days from the order to the shelf; of an open order, from now.
    pub mean_days: f64,
    /// What it rests on.
    pub basis: LeadBasis,
    /// How the moment comes about.
    pub course: Course,
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

/// An order that is placed and not here.
#[derive(Debug, Clone, Copy)]
pub struct OpenQuestion<'a> {
    /// Supplier as printed, where the row names one.
    pub supplier: Option<&'a str>,
    /// Its row, where there is one.
    pub record: Option<&'a SupplierRecord>,
    /// The part.
    pub part: PartId,
    /// Day of the order, where the row says.
    pub ordered: Option<NaiveDate>,
    /// Day promised or due.
    pub due: Option<NaiveDate>,
    /// What the supplier quotes for the part now; asked last.
    pub quoted: Option<QuotedLeadTime>,
    /// The moment of planning.
    pub now: NaiveDateTime,
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
            fairly: moment,
            late: moment,
            mean_days: 0.0,
            basis: LeadBasis::OnShelf,
            course: Course::Certain { moment },
        }
    }

    /// An arrival by its course; `since` is the moment that mean days count from.
    pub fn by_course(
        calendars: &Calendars,
        course: Course,
        since: NaiveDateTime,
        basis: LeadBasis,
    ) -> Option<Self> {
        Some(Self {
            likely: course.quantile(calendars, 0.5)?,
            fairly: course.quantile(calendars, FAIRLY_SHARE)?,
            late: course.quantile(calendars, LATE_SHARE)?,
            mean_days: course.mean_days(calendars, since)?,
            basis,
            course,
        })
    }

    /// Work or a way of so many hours, late case [`WORK_LATE_FACTOR`] times as long.
    pub fn of_hours(
        calendars: &Calendars,
        hours: f64,
        from: NaiveDateTime,
        clock: HourClock,
        basis: LeadBasis,
    ) -> Option<Self> {
        let lead = if hours > 0.0 {
            LeadTime::by_late_factor(hours, WORK_LATE_FACTOR)
        } else {
            LeadTime::Fixed { amount: 0.0 }
        };
        Self::by_course(calendars, Course::Hours { lead, from, clock }, from, basis)
    }

    /// The moments it may come at, with their probabilities.
    pub fn distribution(&self, calendars: &Calendars) -> ArrivalDistribution {
        self.course
            .distribution(calendars)
            .unwrap_or_else(|| ArrivalDistribution::certain(self.late))
    }
}

impl<'a> LeadTimes<'a> {
    /// Takes the calendars and the receipts of a shop.
    pub const fn new(calendars: &'a Calendars, history: &'a ReceiptHistory) -> Self {
        Self { calendars, history }
    }

    /// When goods arrive; `None` where neither a quote nor receipts of the part say.
    ///
    /// Five receipts of the part come first, then the quote of a supplier with five promises on record, corrected by
    /// them; then two to four receipts of the part, leaning on those of others, then the quote corrected by what promises
    /// there are, then five receipts of the supplier in place of a quoted span, then the quote corrected by how others
    /// kept theirs, then the quote with one or two promises or receipts of the part, then the quote alone. Receipts of other parts never stand in for a missing quote.
    pub fn estimate(&self, question: &LeadQuestion<'_>) -> Option<Arrival> {
        let has_quote = !matches!(question.quoted, None | Some(QuotedLeadTime::OnRequest));
        let keeps_record = self.history.promises_of(question.supplier) >= ENOUGH_RECEIPTS;
        let fewest = if has_quote && keeps_record {
            ENOUGH_RECEIPTS
        } else {
            FEWEST_RECEIPTS
        };
        if !question.is_hurried
            && let Some(evidence) = self
                .history
                .of_part(question.supplier, question.part, fewest)
        {
            return self.by_receipts(question, evidence);
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
        // A quote of 0 is a field nobody filled in: what is on the shelf is quoted as in stock.
        if span.most <= 0.0 {
            return None;
        }
        let is_span = matches!(question.quoted, Some(QuotedLeadTime::Span { .. }));
        if is_span
            && !question.is_hurried
            && span.unit != LeadUnit::Hours
            && self.history.promises_of(question.supplier) == 0
            && let Some(evidence) = self.history.of_supplier(question.supplier)
            && matches!(evidence.basis, LeadBasis::SupplierReceipts(_))
        {
            return self.by_receipts(question, evidence);
        }
        let middle = f64::midpoint(span.least, span.most);
        let few = match span.unit {
            LeadUnit::Hours => None,
            _ if !is_span => None,
            unit => {
                let of = (question.supplier, question.part);
                self.history
                    .few_beside(of, middle, unit == LeadUnit::Workdays)
            }
        };
        let (lead, basis) = self.kept(question.supplier, question.is_hurried, (middle, few), span);
        self.by_span(question, lead, span.unit, basis)
    }

    /// True for the row of an order that is open for so long that nobody closed it.
    pub fn is_forgotten(&self, row: &Place) -> bool {
        self.history.is_forgotten(row)
    }

    /// When goods of an open order arrive, given that they are not here; `None` where nothing ever took as long, or
    /// nothing says how long it takes.
    ///
    /// The promise corrected by the supplier's record comes first, then receipts of the part or the supplier, then the
    /// promise corrected by the record of others or by nothing, and last what the supplier quotes for the part now. A promise
    /// for a day to come also stands before receipts that were all here much sooner.
    pub fn still_to_come(&self, question: &OpenQuestion<'_>) -> Option<Arrival> {
        let age_days = question
            .ordered
            .map(|ordered| (question.now.date() - ordered).num_days());
        let own_promises = question
            .supplier
            .map_or(0, |supplier| self.history.promises_of(supplier));
        if own_promises > 0
            && let Some(arrival) = self.by_due_date(question)
        {
            return Some(arrival);
        }
        let by_receipts = question
            .supplier
            .zip(age_days)
            .and_then(|(supplier, age_days)| {
                let evidence = self
                    .history
                    .of_part(supplier, question.part, FEWEST_RECEIPTS)
                    .or_else(|| self.history.of_supplier(supplier))?;
                if self.is_promised_past_belief(question, &evidence) {
                    return None;
                }
                let course = Course::Days {
                    lead: evidence.lead,
                    is_workdays: true,
                    calendar: self.calendars.id_of_supplier(question.record),
                    from: question.ordered?,
                    not_before: question.ordered?.and_time(NaiveTime::MIN),
                    not_by: Some(question.now),
                };
                let basis = LeadBasis::OpenOrderByAge {
                    receipts: evidence.basis.receipts(),
                    age_days,
                };
                Arrival::by_course(self.calendars, course, question.now, basis)
            });
        by_receipts
            .or_else(|| self.by_due_date(question))
            .or_else(|| self.by_quote(question))
    }

    /// True for an order with a promise for a day to come that is open for longer than its receipts would believe: it is
    /// another kind of order, and the promise says when it comes.
    fn is_promised_past_belief(&self, question: &OpenQuestion<'_>, evidence: &Evidence) -> bool {
        let today = question.now.date();
        let calendar = self.calendars.of_supplier(question.record);
        let age = question
            .ordered
            .and_then(|ordered| calendar.workdays_between(ordered, today));
        let is_past =
            age.is_some_and(|age| evidence.lead.exceeds(f64::from(age)) <= STILL_BELIEVED);
        is_past && question.due.is_some_and(|due| due >= today)
    }

    /// Goods that the supplier brings on the day of the order, or the next working day after its hour.
    pub fn on_the_same_day(
        &self,
        record: &SupplierRecord,
        same_day: SameDay,
        ordered_at: NaiveDateTime,
    ) -> Option<Arrival> {
        let placing = Placing::same_day(self.calendars, record, same_day);
        // The stated hour is the supplier's promise; it is kept or missed as deliveries within hours are.
        let start = placing.starts(self.calendars, ordered_at)?;
        let hours = placing.stated_h(self.calendars, start)?;
        let lead = if hours > 0.0 {
            LeadTime::by_late_factor(hours, WORK_LATE_FACTOR)
        } else {
            LeadTime::Fixed { amount: 0.0 }
        };
        let course = Course::Hours {
            lead,
            from: start,
            clock: HourClock::Received,
        };
        Arrival::by_course(self.calendars, course, ordered_at, LeadBasis::SameDay)
    }

    /// The lead time of a quote: as promises are kept, as `few` receipts of the part took that are more than such promises, or
    /// as wide as lead times are.
    fn kept(
        &self,
        supplier: &str,
        is_hurried: bool,
        (middle, few): (f64, Option<Evidence>),
        span: Span,
    ) -> (LeadTime, LeadBasis) {
        let middle = middle.max(f64::MIN_POSITIVE);
        // A span quoted from least to most: as if every value between them were as likely, on the logarithm.
        let width = (span.most / span.least.max(span.most / 10.0)).ln();
        let quoted = width.powi(2) / 12.0;
        let known = (!is_hurried)
            .then(|| {
                let kept = self.history.lateness(supplier);
                let is_less = |kept: &Evidence| {
                    matches!(kept.basis, LeadBasis::QuoteAndFew { .. })
                        && few.is_some_and(|few| few.basis.receipts() > kept.basis.receipts())
                };
                kept.filter(|kept| !is_less(kept)).or(few)
            })
            .flatten();
        let (ratio, basis) = known.map_or_else(
            || {
                (
                    LeadTime::by_late_factor(1.0, QUOTE_LATE_FACTOR),
                    LeadBasis::QuoteOnly,
                )
            },
            |evidence| (evidence.lead, evidence.basis),
        );
        (ratio.widened(quoted).times(middle), basis)
    }

    fn by_receipts(&self, question: &LeadQuestion<'_>, evidence: Evidence) -> Option<Arrival> {
        self.by_span(question, evidence.lead, LeadUnit::Workdays, evidence.basis)
    }

    fn by_span(
        &self,
        question: &LeadQuestion<'_>,
        lead: LeadTime,
        unit: LeadUnit,
        basis: LeadBasis,
    ) -> Option<Arrival> {
        let placing = Placing::at_desk(self.calendars, question.record);
        let course = if unit == LeadUnit::Hours {
            Course::Hours {
                lead,
                from: placing.starts(self.calendars, question.ordered_at)?,
                clock: HourClock::Received,
            }
        } else {
            Course::Days {
                lead,
                is_workdays: unit == LeadUnit::Workdays,
                calendar: self.calendars.id_of_supplier(question.record),
                from: placing.counts_from(self.calendars, question.ordered_at)?,
                not_before: question.ordered_at,
                not_by: None,
            }
        };
        Arrival::by_course(self.calendars, course, question.ordered_at, basis)
    }

    fn by_promise(&self, question: &LeadQuestion<'_>, promised: NaiveDate) -> Option<Arrival> {
        let today = question.ordered_at.date();
        if promised < today {
            return None;
        }
        let days = days_or_half((promised - today).num_days());
        let span = Span {
            least: days,
            most: days,
            unit: LeadUnit::Days,
        };
        let (lead, basis) = self.kept(question.supplier, question.is_hurried, (days, None), span);
        let course = Course::Days {
            lead,
            is_workdays: false,
            calendar: self.calendars.id_of_supplier(question.record),
            from: today,
            not_before: question.ordered_at,
            not_by: None,
        };
        Arrival::by_course(self.calendars, course, question.ordered_at, basis)
    }

    /// From what the supplier quotes now, as if it had been quoted so on the day of the order.
    ///
    /// Only where the row has no promise: one that is broken for longer than is believed is not mended by a quote.
    fn by_quote(&self, question: &OpenQuestion<'_>) -> Option<Arrival> {
        let (ordered, supplier) = question.ordered.zip(question.supplier)?;
        let is_span = matches!(
            question.quoted,
            Some(QuotedLeadTime::Span { .. } | QuotedLeadTime::InStock)
        );
        if question.due.is_some() || !is_span {
            return None;
        }
        let noon = NaiveTime::from_hms_opt(12, 0, 0)?;
        let ordered_at = ordered.and_time(noon).min(question.now);
        let of_quote = self.estimate(&LeadQuestion {
            supplier,
            record: question.record,
            part: question.part,
            quoted: question.quoted,
            is_hurried: false,
            ordered_at,
        })?;
        let Course::Days {
            lead,
            is_workdays,
            calendar,
            from,
            not_before,
            ..
        } = of_quote.course
        else {
            return None; // quoted in hours: it would be here, or somebody would have rung
        };
        let age_days = (question.now.date() - ordered).num_days();
        let age = if is_workdays {
            let calendar = self.calendars.of_supplier(question.record);
            f64::from(calendar.workdays_between(from, question.now.date())?)
        } else {
            (question.now.date() - from).num_days().max(0) as f64
        };
        if lead.exceeds(age) <= STILL_BELIEVED {
            return None;
        }
        let course = Course::Days {
            lead,
            is_workdays,
            calendar,
            from,
            not_before,
            not_by: Some(question.now),
        };
        let basis = LeadBasis::OpenOrderByQuote { age_days };
        Arrival::by_course(self.calendars, course, question.now, basis)
    }

    /// From the due date of an open order; one without a day of order counts from now.
    fn by_due_date(&self, question: &OpenQuestion<'_>) -> Option<Arrival> {
        let due = question.due?;
        let today = question.now.date();
        let from = question.ordered.unwrap_or(today);
        let is_overdue_without_age = question.ordered.is_none() && due < today;
        if due < from || is_overdue_without_age {
            return None;
        }
        let days = days_or_half((due - from).num_days());
        let span = Span {
            least: days,
            most: days,
            unit: LeadUnit::Days,
        };
        let supplier = question.supplier.unwrap_or_default();
        let (lead, basis) = self.kept(supplier, false, (days, None), span);
        let basis = match basis {
            LeadBasis::QuoteCorrected {
                receipts, others, ..
            } => LeadBasis::OpenOrderByPromise {
                receipts,
                others,
                age_days: question.ordered.map(|ordered| (today - ordered).num_days()),
            },
            LeadBasis::QuoteAndFew { receipts, .. } => LeadBasis::OpenOrderByPromise {
                receipts,
                others: 0,
                age_days: question.ordered.map(|ordered| (today - ordered).num_days()),
            },
            _ => LeadBasis::OpenOrderByDueDate,
        };
        let course = Course::Days {
            lead,
            is_workdays: false,
            calendar: self.calendars.id_of_supplier(question.record),
            from,
            not_before: match question.ordered {
                Some(ordered) => ordered.and_time(NaiveTime::MIN),
                None => question.now,
            },
            not_by: question.ordered.map(|_| question.now),
        };
        // Past this the default width is no evidence, and the order is one to be chased.
        let open = lead.exceeds(f64::from((today - from).num_days().max(0) as i32));
        if open <= STILL_BELIEVED {
            return None;
        }
        Arrival::by_course(self.calendars, course, question.now, basis)
    }
}

#[cfg(test)]
mod tests;
