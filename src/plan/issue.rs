//! What is wrong or doubtful in the rows a plan rests on; every one names its place.

use chrono::{NaiveDate, NaiveTime};

use crate::place::Place;
use crate::record::QuotedLeadTime;
use crate::units::{Currency, UnitOfCount, without_rounding_residue};

/// An order open for longer than this many times the longest receipt of its supplier was closed elsewhere or
/// forgotten, and says nothing about lead times.
///
/// Common practice, no source.
pub const FORGOTTEN_FACTOR: f64 = 4.0;

/// One row that a plan could not take as it stands.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PlanIssue {
    /// Two tables count one part in units that must not be converted.
    #[error(
        "{place}: `{part}` is counted in {have}, but {other} counts it in {want}; the row is not used until one of them is right"
    )]
    UnitConflict {
        /// The row that is not used.
        place: Place,
        /// The row it disagrees with.
        other: Place,
        /// The part.
        part: String,
        /// Unit of the row.
        have: UnitOfCount,
        /// Unit of the other.
        want: UnitOfCount,
    },
    /// Nobody says what is counted.
    #[error(
        "{place}: no unit of count for `{part}` here or in the parts table; pieces are assumed"
    )]
    UnitAssumed {
        /// The row.
        place: Place,
        /// The part.
        part: String,
    },
    /// Nobody says what is counted, and the kit line asks for a pair or a set.
    #[error(
        "{place}: line asks for a {want} of `{part}`, but {other} does not say what it counts; it is not used for this line"
    )]
    UnitUnknownForSet {
        /// The kit line.
        place: Place,
        /// The stock row or offer.
        other: Place,
        /// The part.
        part: String,
        /// What the line asks for.
        want: UnitOfCount,
    },
    /// Less than nothing on the shelf.
    #[error("{place}: stock of `{part}` is {found}, expected 0 or more; it counts as 0")]
    NegativeStock {
        /// The row.
        place: Place,
        /// The part.
        part: String,
        /// What was found.
        found: f64,
    },
    /// A part of one on the shelf, of what is counted in pieces or sets.
    #[error(
        "{place}: {found} of `{part}` free, which is counted in {}, expected a whole number; {whole} planned with", .unit.noun(2.0)
    )]
    PartOfAPiece {
        /// The row.
        place: Place,
        /// The part.
        part: String,
        /// What was found, less what is reserved.
        found: f64,
        /// What is counted.
        unit: UnitOfCount,
        /// What is planned with.
        whole: f64,
    },
    /// More reserved than there is.
    #[error("{place}: {reserved} of `{part}` are reserved, but only {on_hand} are there")]
    ReservedTooMuch {
        /// The row.
        place: Place,
        /// The part.
        part: String,
        /// Reserved.
        reserved: f64,
        /// On hand.
        on_hand: f64,
    },
    /// No quantity.
    #[error("{place}: no quantity for `{part}`; the row counts as nothing")]
    NoQuantity {
        /// The row.
        place: Place,
        /// The part.
        part: String,
    },
    /// A part with a shelf life and a lot without a date.
    #[error(
        "{place}: `{part}` has a shelf life, but the lot has no cure or pack date; check its age before fitting"
    )]
    AgeUnknown {
        /// The row.
        place: Place,
        /// The part.
        part: String,
    },
    /// A lot cured or packed on a day to come.
    #[error(
        "{place}: a lot of `{part}` is dated {date}, after the moment of planning; it counts as stock of unknown age, check it before fitting"
    )]
    CuredInTheFuture {
        /// The row.
        place: Place,
        /// The part.
        part: String,
        /// Its cure or pack date.
        date: NaiveDate,
    },
    /// On order in the stock list and in the list of orders, with different quantities.
    #[error(
        "{place}: {on_order} of `{part}` on order here, but {open} in the open orders; the open orders are used", on_order = without_rounding_residue(*.on_order), open = without_rounding_residue(*.open)
    )]
    OnOrderTwice {
        /// The stock row.
        place: Place,
        /// The part.
        part: String,
        /// In the stock list.
        on_order: f64,
        /// In the open orders.
        open: f64,
    },
    /// A usage or receipt dated after the moment of planning.
    #[error("{place}: dated {date}, after the moment of planning; it is left out")]
    InTheFuture {
        /// The row.
        place: Place,
        /// Its date.
        date: NaiveDate,
    },
    /// Stock counted after the moment of planning.
    #[error(
        "{place}: counted on {date}, after the moment of planning; it counts as it stands, its age unknown, and so for {count} such rows in all"
    )]
    CountedInTheFuture {
        /// The first such row of its sheet.
        place: Place,
        /// Its date.
        date: NaiveDate,
        /// How many there are in the sheet.
        count: usize,
    },
    /// An approval dated after the moment of planning.
    #[error(
        "{place}: `{substitute}` is approved as of {date}, after the moment of planning; until then it is not planned with"
    )]
    ApprovedInTheFuture {
        /// The row.
        place: Place,
        /// The substitute as printed.
        substitute: String,
        /// Its date.
        date: NaiveDate,
    },
    /// More returned than was ever used.
    #[error(
        "{place}: {excess} of `{part}` returned beyond what was used before; the excess is left out", excess = without_rounding_residue(*.excess)
    )]
    ReturnedTooMuch {
        /// The return.
        place: Place,
        /// The part.
        part: String,
        /// Quantity beyond what was used.
        excess: f64,
    },
    /// A machine that left service before it came.
    #[error(
        "{place}: machine `{machine}` leaves service before it enters it; both dates are left out"
    )]
    RetiredBeforeUse {
        /// The machine's row.
        place: Place,
        /// The machine.
        machine: String,
    },
    /// A receipt before its order.
    #[error("{place}: received {received}, before it was ordered on {ordered}; it is left out")]
    ReceivedBeforeOrdered {
        /// The row.
        place: Place,
        /// Ordered.
        ordered: NaiveDate,
        /// Received.
        received: NaiveDate,
    },
    /// A receipt that took longer than anything is taken to.
    #[error(
        "{place}: received {days} days after it was ordered, expected ten years at most; it is left out"
    )]
    TookTooLong {
        /// The row.
        place: Place,
        /// Days from the order to the receipt.
        days: i64,
    },
    /// An order that nobody closed.
    #[error(
        "{place}: ordered on {ordered} and open for {age_days} days, over {FORGOTTEN_FACTOR} times the longest receipt of this supplier; if it has come or was cancelled, close it; it tells nothing about lead times"
    )]
    OpenForTooLong {
        /// The row.
        place: Place,
        /// Day of the order.
        ordered: NaiveDate,
        /// Days since then.
        age_days: i64,
    },
    /// Promised for a day before the order.
    #[error(
        "{place}: promised for {promised}, before it was ordered on {ordered}; the promise is left out"
    )]
    PromisedBeforeOrdered {
        /// The row.
        place: Place,
        /// Ordered.
        ordered: NaiveDate,
        /// Promised.
        promised: NaiveDate,
    },
    /// A quoted lead time of nothing.
    #[error(
        "{place}: lead time is 0, which is taken as not filled in; write `in stock` for what the supplier has on the shelf"
    )]
    QuotedZero {
        /// The offer.
        place: Place,
    },
    /// Same-day goods that would be there before they are ordered.
    #[error(
        "{place}: same-day delivery is ordered until {order_by} and there by {there_by}, which is no later; it is not planned with"
    )]
    SameDayBackwards {
        /// The supplier's row.
        place: Place,
        /// Latest hour of the order.
        order_by: NaiveTime,
        /// Hour of the delivery.
        there_by: NaiveTime,
    },
    /// A receiving hour at which nobody receives.
    #[error(
        "settings: `receiving_hour` is {hour}, but calendar `{calendar}` of goods receiving is closed then on {closed}; goods wait until it opens"
    )]
    ReceivingClosed {
        /// The settings.
        place: Place,
        /// The hour.
        hour: NaiveTime,
        /// Name of the calendar.
        calendar: String,
        /// Days on which it is closed at that hour.
        closed: String,
    },
    /// A calendar the settings do not define.
    #[error(
        "{place}: calendar `{name}` is not defined in the settings; the calendar for suppliers is used"
    )]
    NoSuchCalendar {
        /// The supplier's row.
        place: Place,
        /// The name.
        name: String,
    },
    /// A kit line of which nobody can say how many it asks for.
    #[error(
        "{place}: how many line `{line}` of kit `{kit}` needs is unknown, and the kit has no end until its quantity and unit can be read"
    )]
    LineWithoutQuantity {
        /// The line's row.
        place: Place,
        /// The line.
        line: String,
        /// The kit.
        kit: String,
    },
    /// A task that must be done before itself.
    #[error("{place}: task `{task}` of kit `{kit}` waits for itself; the downtime is unknown")]
    TaskCycle {
        /// A task of the cycle.
        place: Place,
        /// The kit.
        kit: String,
        /// The task.
        task: String,
    },
    /// A kit without tasks: how long the work takes is not known.
    #[error(
        "{place}: no table gives tasks with hours for kit `{kit}`, so that its downtime is the wait for parts alone"
    )]
    NoTasks {
        /// The first line that names a task, else the first.
        place: Place,
        /// The kit.
        kit: String,
    },
    /// A task that waits for one without a row, which may have been rejected.
    #[error(
        "{place}: kit `{kit}` has no task `{task}`, for which this one waits; the downtime is unknown"
    )]
    NoSuchPredecessor {
        /// The task that waits.
        place: Place,
        /// The kit.
        kit: String,
        /// The name.
        task: String,
    },
    /// A line whose task no row has.
    #[error(
        "{place}: kit `{kit}` has no task `{task}`; the line is taken to hold the first tasks, as one without a task does"
    )]
    NoSuchTask {
        /// The row that names it.
        place: Place,
        /// The kit.
        kit: String,
        /// The name.
        task: String,
    },
    /// A machine no row has.
    #[error(
        "{place}: machine `{machine}` is in no machines table; the cost of its downtime is unknown"
    )]
    NoSuchMachine {
        /// The row that names it.
        place: Place,
        /// The name.
        machine: String,
    },
    /// A machine that usages or parts name and no row has.
    #[error(
        "{place}: machine `{machine}` is in no machines table; nothing says its criticality or what an hour down costs, so that the other machines or the settings stand in"
    )]
    MachineNotListed {
        /// The first row that names it.
        place: Place,
        /// The name.
        machine: String,
    },
    /// A usage before the day since when usages are recorded.
    #[error(
        "{place}: dated {date}, before the records begin on {from}; no rate counts it, and so for {count} such usages in all"
    )]
    BeforeRecords {
        /// The first such row.
        place: Place,
        /// Its date.
        date: NaiveDate,
        /// Day since when usages are recorded.
        from: NaiveDate,
        /// How many there are.
        count: usize,
    },
    /// Money in a currency without a rate.
    #[error("{place}: no exchange rate for {currency}; add it to exchange_rates in the settings")]
    NoExchangeRate {
        /// The row.
        place: Place,
        /// The currency.
        currency: Currency,
    },
    /// A planned rebuild whose day has passed.
    #[error(
        "{place}: planned for {date}, which has passed; it is left out, set a new date if it is still to come"
    )]
    PlannedInThePast {
        /// The row.
        place: Place,
        /// Its date.
        date: NaiveDate,
    },
    /// A rebuild planned for a day on which its machine is no longer there.
    #[error(
        "{place}: planned for {date}, after machine `{machine}` leaves service on {until}, it is left out until one of the two days is mended"
    )]
    PlannedAfterService {
        /// The row.
        place: Place,
        /// Its date.
        date: NaiveDate,
        /// The machine.
        machine: String,
        /// The machine's last day in service.
        until: NaiveDate,
    },
    /// One rebuild in two rows.
    #[error("{place}: planned for {date}, as in {other}, and one of the two rows is left out")]
    PlannedTwice {
        /// The row.
        place: Place,
        /// Its date.
        date: NaiveDate,
        /// The first row of the same kit, machine and day.
        other: Place,
    },
    /// A kit of a machine that is no longer there.
    #[error(
        "{place}: machine `{machine}` of kit `{kit}` left service on {until}, and its downtime is no longer the shop's"
    )]
    KitOutOfService {
        /// The kit's first line.
        place: Place,
        /// The kit.
        kit: String,
        /// The machine.
        machine: String,
        /// Its last day in service.
        until: NaiveDate,
    },
    /// A way that needs a name and has none.
    #[error(
        "{place}: no name of who approved it, so that this way is not planned with before somebody has"
    )]
    WayWithoutName {
        /// The row.
        place: Place,
    },
    /// Another way whose cost nobody states.
    #[error(
        "{place}: cost not given; this way is taken only where nothing with a price will do: say what it costs, 0 where that is nothing"
    )]
    WayWithoutCost {
        /// The row.
        place: Place,
    },
    /// Another way that lacks what a plan needs.
    #[error("{place}: {missing} not given; this way is not planned with")]
    OtherWayIncomplete {
        /// The row.
        place: Place,
        /// `hours` or `quantity`.
        missing: &'static str,
    },
    /// A way that would bring what is never fitted used.
    #[error(
        "{place}: a used {part} is not planned with; bearings, seals and tab washers are fitted new, unless the settings allow reconditioned goods and they are repaired outside"
    )]
    Used {
        /// The row.
        place: Place,
        /// The part.
        part: String,
    },
    /// A usage far above every other one of its part.
    #[error(
        "{place}: {quantity} of `{part}` used at once, over 100 times the most that any other usage took ({most}); it is left out; where it is right, in several rows it counts"
    )]
    FarAboveOthers {
        /// The usage.
        place: Place,
        /// The part.
        part: String,
        /// Its quantity.
        quantity: f64,
        /// The most that another usage took.
        most: f64,
    },
    /// A quote of a day to come.
    #[error(
        "{place}: quoted on {date}, after the moment of planning; its age is unknown, and it is planned with although it may not be valid yet"
    )]
    QuotedInTheFuture {
        /// The offer.
        place: Place,
        /// The day.
        date: NaiveDate,
    },
    /// A hurried delivery whose surcharge nobody states.
    #[error(
        "{place}: hurried in {lead_time}, surcharge not given; ask for it, before that the goods come as quoted"
    )]
    HurriedUnpriced {
        /// The offer.
        place: Place,
        /// The part.
        part: String,
        /// Lead time when hurried.
        lead_time: QuotedLeadTime,
    },
    /// A least order that outlasts the shelf life.
    #[error(
        "{place}: the least order of {least} of `{part}` outlasts its shelf life, in which about {used:.1} are used"
    )]
    OutlastsShelfLife {
        /// The offer.
        place: Place,
        /// The part.
        part: String,
        /// Least quantity that can be ordered.
        least: f64,
        /// Usage in the shelf life.
        used: f64,
    },
}

impl PlanIssue {
    /// The row concerned.
    pub const fn place(&self) -> &Place {
        match self {
            Self::UnitConflict { place, .. }
            | Self::UnitAssumed { place, .. }
            | Self::UnitUnknownForSet { place, .. }
            | Self::NegativeStock { place, .. }
            | Self::PartOfAPiece { place, .. }
            | Self::ReservedTooMuch { place, .. }
            | Self::NoQuantity { place, .. }
            | Self::AgeUnknown { place, .. }
            | Self::CuredInTheFuture { place, .. }
            | Self::OnOrderTwice { place, .. }
            | Self::InTheFuture { place, .. }
            | Self::CountedInTheFuture { place, .. }
            | Self::ApprovedInTheFuture { place, .. }
            | Self::ReturnedTooMuch { place, .. }
            | Self::RetiredBeforeUse { place, .. }
            | Self::ReceivedBeforeOrdered { place, .. }
            | Self::TookTooLong { place, .. }
            | Self::OpenForTooLong { place, .. }
            | Self::PromisedBeforeOrdered { place, .. }
            | Self::QuotedZero { place }
            | Self::SameDayBackwards { place, .. }
            | Self::ReceivingClosed { place, .. }
            | Self::NoSuchCalendar { place, .. }
            | Self::LineWithoutQuantity { place, .. }
            | Self::TaskCycle { place, .. }
            | Self::NoTasks { place, .. }
            | Self::NoSuchPredecessor { place, .. }
            | Self::NoSuchTask { place, .. }
            | Self::NoSuchMachine { place, .. }
            | Self::MachineNotListed { place, .. }
            | Self::BeforeRecords { place, .. }
            | Self::NoExchangeRate { place, .. }
            | Self::PlannedInThePast { place, .. }
            | Self::PlannedAfterService { place, .. }
            | Self::PlannedTwice { place, .. }
            | Self::KitOutOfService { place, .. }
            | Self::WayWithoutName { place }
            | Self::WayWithoutCost { place }
            | Self::OtherWayIncomplete { place, .. }
            | Self::Used { place, .. }
            | Self::FarAboveOthers { place, .. }
            | Self::QuotedInTheFuture { place, .. }
            | Self::HurriedUnpriced { place, .. }
            | Self::OutlastsShelfLife { place, .. } => place,
        }
    }

    /// The part concerned, by its number; `None` where the row says something of no part.
    pub fn part(&self) -> Option<&str> {
        match self {
            Self::UnitConflict { part, .. }
            | Self::UnitAssumed { part, .. }
            | Self::UnitUnknownForSet { part, .. }
            | Self::NegativeStock { part, .. }
            | Self::PartOfAPiece { part, .. }
            | Self::ReservedTooMuch { part, .. }
            | Self::NoQuantity { part, .. }
            | Self::AgeUnknown { part, .. }
            | Self::CuredInTheFuture { part, .. }
            | Self::OnOrderTwice { part, .. }
            | Self::ReturnedTooMuch { part, .. }
            | Self::Used { part, .. }
            | Self::HurriedUnpriced { part, .. }
            | Self::OutlastsShelfLife { part, .. } => Some(part),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_conflict_names_both_places_and_both_units() {
        let row = |file: &str| Place::row(&file.into(), &"".into(), 4);
        let issue = PlanIssue::UnitConflict {
            place: row("stock.csv").at(2),
            other: row("parts.csv").at(5),
            part: "BRG-7".to_owned(),
            have: UnitOfCount::Piece,
            want: UnitOfCount::MatchedSet { pieces: 2 },
        };
        assert_eq!(
            issue.to_string(),
            "stock.csv, C5: `BRG-7` is counted in piece, but parts.csv, F5 counts it in matched set of 2; \
             the row is not used until one of them is right"
        );
    }
}
