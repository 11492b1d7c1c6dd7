//! What the plan of a kit says: lines, completion, running again, cost.

use std::cmp::Ordering;

use chrono::NaiveDateTime;

use super::freight_doubt::FreightDoubt;
use crate::catalogue::PartId;
use crate::place::Place;
use crate::plan::lead_time::Arrival;
use crate::plan::offer::WhyUnusable;
use crate::plan::purchase::Proved;
use crate::plan::supply::Supply;
use crate::record::OtherWayKind;
use crate::units::{Currency, Money, UnitOfCount};

/// How one line of a kit is covered.
#[derive(Debug, Clone, PartialEq)]
pub struct LinePlan {
    /// Position of the line in its kit.
    pub line: usize,
    /// The part asked for; `None` where no table knows it.
    pub part: Option<PartId>,
    /// Unit of count of the line.
    pub unit: UnitOfCount,
    /// Quantity a rebuild needs.
    pub needed: f64,
    /// Quantity on the shelf.
    pub from_stock: f64,
    /// Quantity not on the shelf.
    pub short: f64,
    /// Where the quantity comes from, shelf first.
    pub supplies: Vec<Supply>,
    /// A second new order for the same quantity, the later cancelled where it may be; empty where it does not pay.
    pub also: Vec<Supply>,
    /// Open orders besides those in `supplies` that come anyway and may be here first, each with what it can give.
    pub anyway: Vec<Supply>,
    /// Quantity for which no source with a known arrival was found.
    pub uncovered: f64,
    /// When the whole line is there; `None` where some of it has no known arrival.
    pub arrival: Option<Arrival>,
    /// Production hours the machine would stand if this line alone held it up, likely case: wait and rebuild.
    pub holds_down_h: Option<f64>,
    /// Share of cases in which this line is the last to let the machine run; ties are shared.
    pub holds_share: Option<f64>,
    /// The same where all lines are late together.
    pub holds_share_together: Option<f64>,
    /// What it would have saved on the average to have the line on the shelf: the most that hurrying it is worth.
    pub on_shelf: Option<Saving>,
    /// The same where all lines are late together.
    pub on_shelf_together: Option<Saving>,
    /// The next best way for this line and how much more the plan would cost with it.
    pub next_best: Option<NextBest>,
}

/// Hours and money, on the average.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saving {
    /// Production hours.
    pub hours: f64,
    /// Cost of these hours; `None` where the machine has no cost of an hour down.
    pub cost: Option<Money>,
}

/// The best plan with another way for one line.
#[derive(Debug, Clone, PartialEq)]
pub struct NextBest {
    /// Where the line would come from.
    pub supplies: Vec<Supply>,
    /// Expected cost above that of the plan; `None` where a price or the cost of an hour is missing.
    pub dearer: Option<Money>,
}

/// Several lines that must be hurried together to save what they save.
#[derive(Debug, Clone, PartialEq)]
pub struct SetSaving {
    /// Positions of the lines in their kit.
    pub lines: Vec<usize>,
    /// What it would save to have all of them at once.
    pub together: Saving,
    /// What the best smaller choice of them would save.
    pub less_one: Saving,
}

/// Moments of three shares of cases.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spread {
    /// As likely before as after.
    pub p50: NaiveDateTime,
    /// Later in one case of five.
    pub p80: NaiveDateTime,
    /// Later in one case of ten.
    pub p90: NaiveDateTime,
}

/// When a kit is complete.
#[derive(Debug, Clone, PartialEq)]
pub enum Completion {
    /// Every line has a known arrival.
    Known {
        /// Lines late independently of each other: the exact spread of the last of them.
        apart: Spread,
        /// All lines late together: each at the same share of its own cases.
        together: Spread,
        /// Line that is last to come, likely case; `None` where everything is on the shelf.
        last_line: Option<usize>,
    },
    /// Lines without a known arrival hold it up; set a lead time for them.
    Unknown {
        /// Positions of the lines.
        lines: Vec<usize>,
    },
}

/// When the machine runs again.
#[derive(Debug, Clone, PartialEq)]
pub struct Downtime {
    /// Moment it went down: the moment of planning.
    pub down: NaiveDateTime,
    /// Moment it runs again.
    pub up: NaiveDateTime,
    /// Production hours lost.
    pub production_h: f64,
    /// Hours of work in the tasks; 0 where the kit has no tasks, and the downtime is then the wait for parts only.
    pub work_h: f64,
    /// Cost of the lost hours; `None` where the machine has none.
    pub cost: Option<Money>,
}

/// Downtime at three shares of cases.
#[derive(Debug, Clone, PartialEq)]
pub struct Running {
    /// Likely.
    pub p50: Downtime,
    /// Four cases of five.
    pub p80: Downtime,
    /// Nine cases of ten.
    pub p90: Downtime,
    /// Production hours lost on the average.
    pub mean_h: f64,
    /// Their cost; `None` where the machine has none.
    pub mean_cost: Option<Money>,
}

/// How good a plan is against the best there could be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Proof {
    /// Expected cost of the plan: spend, mean downtime, and what robbed machines stand for.
    pub expected: Money,
    /// No plan's expected cost is below this; `None` where not every way was looked at.
    pub bound: Option<Money>,
    /// How far it is proved that nothing better exists.
    pub proved: Proved,
}

/// The best plan if every lead time were what it is in one share of cases.
#[derive(Debug, Clone, PartialEq)]
pub struct FixedBest {
    /// The share: 0.5, 0.8 or 0.9.
    pub share: f64,
    /// Goods, surcharges, work and freight; `None` where a price is missing.
    pub spend: Option<Money>,
    /// Suppliers whose freight is not known but assumed in the spend.
    pub freight_assumed_of: Vec<String>,
    /// Moment of running again.
    pub up: NaiveDateTime,
    /// Production hours lost.
    pub production_h: f64,
    /// Spend, downtime, and what robbed machines stand for; `None` where a price or the cost of an hour is missing.
    pub total: Option<Money>,
    /// No plan costs less in total; `None` where not every way was looked at.
    pub bound: Option<Money>,
    /// How far it is proved that nothing cheaper exists.
    pub proved: Proved,
}

/// One point of the curve of spend against the moment of running again, every lead time at one share of its cases.
#[derive(Debug, Clone, PartialEq)]
pub struct CurveMoment {
    /// Moment of running again.
    pub up: NaiveDateTime,
    /// Production hours lost.
    pub production_h: f64,
    /// Share of cases in which the machine runs by the moment that was asked for, else by `up`, lines late independently of
    /// each other.
    pub kept_share: f64,
    /// When it runs by this plan, lead times as likely as they are.
    pub running: Running,
    /// Least spend for it; `None` where a price is missing.
    pub spend: Option<Money>,
    /// Spend, downtime, and what robbed machines stand for.
    pub total: Option<Money>,
    /// How each line is covered: position in the kit and its sources.
    pub lines: Vec<(usize, Vec<Supply>)>,
    /// How far it is proved that nothing cheaper is as early.
    pub proved: Proved,
}

/// Lines, completion and downtime for one choice of accepted parts.
#[derive(Debug, Clone, PartialEq)]
pub struct KitOutcome {
    /// Lines, in the order of the kit; those of unknown quantity stand in `completion` alone.
    pub lines: Vec<LinePlan>,
    /// When everything is there.
    pub completion: Completion,
    /// Downtime, lines late independently of each other; `None` where a line or the end of the tasks is unknown.
    pub running: Option<Running>,
    /// Downtime, all lines late together.
    pub running_together: Option<Running>,
    /// Goods, surcharges and own work; `None` where a price is missing.
    pub purchase_cost: Option<Money>,
    /// Freight of the suppliers that are ordered from, known or assumed.
    pub freight: Money,
    /// Suppliers that are ordered from and whose freight is not known but assumed.
    pub freight_assumed_of: Vec<String>,
    /// What the plan would be with another freight in place of the assumed one; `None` where no offer asks for it.
    pub freight_doubt: Option<FreightDoubt>,
    /// How good the plan is; `None` where a price or the cost of an hour is missing.
    pub proof: Option<Proof>,
    /// Best plans for fixed lead times, P50, P80 and P90.
    pub fixed: Vec<FixedBest>,
    /// Sets of lines that only save something together.
    pub sets: Vec<SetSaving>,
}

impl KitOutcome {
    /// Downtime in the likely case.
    pub fn likely(&self) -> Option<&Downtime> {
        self.running.as_ref().map(|running| &running.p50)
    }

    /// Downtime in the late case: one in ten is later.
    pub fn late(&self) -> Option<&Downtime> {
        self.running.as_ref().map(|running| &running.p90)
    }
}

/// What a kit gains by somebody's word.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gained {
    /// When the machine would run again.
    pub running: Spread,
    /// Production hours saved on the average; `None` where the downtime without it is unknown.
    pub saved_h: Option<f64>,
    /// Expected cost saved, purchases and downtime; `None` where a price or the cost of an hour is missing.
    pub saved: Option<Money>,
}

impl Gained {
    /// Order of worth, best first: where the kit has no end at all without it, then by money, then by hours.
    pub fn by_worth(&self, other: &Self) -> Ordering {
        let cents = |gain: &Self| gain.saved.map_or(i64::MIN, |saved| saved.cents);
        let hours = |gain: &Self| gain.saved_h.unwrap_or(f64::INFINITY);
        (self.saved_h.is_some())
            .cmp(&other.saved_h.is_some())
            .then(cents(other).cmp(&cents(self)))
            .then(hours(other).total_cmp(&hours(self)))
    }
}

/// What approving one substitute for one line would gain.
#[derive(Debug, Clone, PartialEq)]
pub struct ApprovalGain {
    /// Position of the line in its kit.
    pub line: usize,
    /// The substitute.
    pub part: PartId,
    /// What it would gain.
    pub gained: Gained,
}

/// What a name behind a way other than buying would gain.
#[derive(Debug, Clone, PartialEq)]
pub struct WayGain {
    /// Position of the line in its kit.
    pub line: usize,
    /// The way.
    pub kind: OtherWayKind,
    /// Its row.
    pub place: Place,
    /// What it would gain.
    pub gained: Gained,
}

/// A word that offers wait for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Settling {
    /// That a supplier of the suppliers table is approved, by his name there.
    Supplier(String),
    /// The rate of exchange of a currency.
    Rate(Currency),
}

/// What such a word would gain. A rate is valued at the lowest price of another offer.
#[derive(Debug, Clone, PartialEq)]
pub struct SettlingGain {
    /// The word.
    pub settling: Settling,
    /// Positions in the kit of the lines that its offers are for.
    pub lines: Vec<usize>,
    /// Why the first of its offers is not bought from.
    pub why: WhyUnusable,
    /// What it would gain.
    pub gained: Gained,
}

/// What a hurried delivery that an offer names at a price would save on one line: the best plan of the kit with it against the
/// best one without it.
#[derive(Debug, Clone, PartialEq)]
pub struct HurriedWay {
    /// Position of the line in its kit.
    pub line: usize,
    /// The part offered.
    pub part: PartId,
    /// Supplier as printed.
    pub supplier: String,
    /// Position among the offer's deliveries.
    pub way: usize,
    /// The row of the offer.
    pub place: Place,
    /// What hurrying costs, once per order.
    pub surcharge: Money,
    /// When it would be there, if ordered at the moment of planning.
    pub arrival: Arrival,
    /// When the machine runs with it; `None` where a line or the end of the tasks is unknown even then.
    pub running: Option<Spread>,
    /// Production hours saved on the average, below 0 where others come sooner; `None` where one of both plans has no end.
    pub saved_h: Option<f64>,
    /// Cost of these hours; `None` where the machine has no cost of an hour down.
    pub saved_cost: Option<Money>,
    /// What is paid more with it, goods, surcharge and freight; `None` where a price is missing.
    pub more: Option<Money>,
    /// What it saves in all, below 0 where it costs more than it saves.
    pub saved: Option<Money>,
    /// True where the plan hurries the line so.
    pub is_planned: bool,
}

/// A kit with every open approval given.
#[derive(Debug, Clone, PartialEq)]
pub struct WithApprovals {
    /// Downtime in the likely case; `None` where a line or the end of the tasks is unknown.
    pub likely: Option<Downtime>,
}

/// The plan of one kit.
#[derive(Debug, Clone, PartialEq)]
pub struct KitPlan {
    /// Position in [`Shop::kits`](crate::catalogue::Shop::kits).
    pub kit: usize,
    /// With the parts that are accepted.
    pub accepted: KitOutcome,
    /// With every open substitute approved as well; `None` where there is none.
    pub with_all_approvals: Option<WithApprovals>,
    /// What each open approval alone would gain, best first; those that gain nothing are left out.
    pub approvals: Vec<ApprovalGain>,
    /// What a name behind each way that waits for one would gain, best first; those that gain nothing are left out.
    pub open_ways: Vec<WayGain>,
    /// What an approved supplier or a rate of exchange would gain, best first; those that gain nothing are left out.
    pub settling: Vec<SettlingGain>,
    /// What each hurried delivery at a price saves on its line, in the order of the lines.
    pub hurried: Vec<HurriedWay>,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::at;

    #[test]
    fn one_order_of_worth_holds_for_every_sort_of_word() {
        let euros = |amount: f64| Money::from_units(amount, Currency::EUR).ok();
        let day = at("2026-03-04T10:30");
        let running = Spread {
            p50: day,
            p80: day,
            p90: day,
        };
        let each = [
            (Some(5.0), euros(10.0)),
            (Some(9.0), None),
            (Some(1.0), euros(300.0)),
            (Some(8.0), euros(10.0)),
            (None, euros(1.0)),
        ];
        let mut all = each.map(|(saved_h, saved)| Gained {
            running,
            saved_h,
            saved,
        });
        all.sort_by(Gained::by_worth);
        let hours = all.map(|of| of.saved_h);
        assert_eq!(hours, [None, Some(1.0), Some(8.0), Some(5.0), Some(9.0)]);
    }
}
