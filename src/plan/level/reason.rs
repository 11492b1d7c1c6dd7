//! What a level is and why it is this number and not one less.

use std::sync::Arc;

use chrono::NaiveDate;

use super::finite_source::FewMachines;
use super::last_buy::LastBuy;
use super::lead_time_demand::LeadTimeDemand;
use super::lead_time_law::LeadTimeLaw;
use super::never_used::NeverUsed;
use super::offer_behind::Preferred;
use super::order_quantity::QuantityReason;
use super::replay::Replay;
use super::service::Service;
use super::waiting_basis::WaitingBasis;
use crate::catalogue::PartId;
use crate::plan::demand::Demand;
use crate::units::{Money, UnitOfCount};

/// Stock level of one part.
#[derive(Debug, Clone, PartialEq)]
pub struct Level {
    /// The part.
    pub part: PartId,
    /// Other numbers of the same stock: what is there and on order of any of them counts for this level.
    pub shares_with: Vec<PartId>,
    /// What is counted.
    pub unit: UnitOfCount,
    /// Order again at or below this stock position; -1: order when somebody waits, keep none.
    pub reorder_point: f64,
    /// Stock to come up to: the reorder point and one more.
    pub min_stock: f64,
    /// Quantity to order at a time, in `unit`: a multiple of the pack and at least the minimum.
    pub order_quantity: f64,
    /// What the reorder point rests on.
    pub why: LevelBasis,
    /// Numbers behind the order quantity; `None` where no offer says how the part is sold.
    pub why_quantity: Option<QuantityReason>,
}

impl Level {
    /// The part and the other numbers of its stock.
    pub fn stocked(&self) -> impl Iterator<Item = PartId> + '_ {
        std::iter::once(self.part).chain(self.shares_with.iter().copied())
    }

    /// Mean days of the offer that it rests on; `None` where it is not computed.
    pub fn lead_days(&self) -> Option<f64> {
        match &self.why {
            LevelBasis::Computed(reason) => Some(reason.lead.mean_days),
            LevelBasis::OwnMinimum { .. }
            | LevelBasis::KeptUnder { .. }
            | LevelBasis::Retired { .. } => None,
        }
    }

    /// Mean days until a new order is there, and pieces used a day; `None` where they are not computed.
    pub fn wait_for_order(&self) -> Option<(f64, f64)> {
        match &self.why {
            LevelBasis::Computed(reason) => {
                let per_day = reason.demand.per_day().unwrap_or(0.0);
                Some((reason.lead.mean_days, per_day))
            }
            LevelBasis::OwnMinimum { .. }
            | LevelBasis::KeptUnder { .. }
            | LevelBasis::Retired { .. } => None,
        }
    }

    /// The number that is bought for it.
    pub fn buys(&self) -> PartId {
        match &self.why {
            LevelBasis::Computed(reason) => reason.buys,
            LevelBasis::OwnMinimum { .. }
            | LevelBasis::KeptUnder { .. }
            | LevelBasis::Retired { .. } => self.part,
        }
    }

    /// What speaks for a part that was never used, where nothing but the rate of its group or a minimum without a reason
    /// sets the level: no planner who says why and no kit.
    pub fn is_never_asked_for(&self) -> Option<NeverUsed> {
        match &self.why {
            LevelBasis::Computed(reason) => {
                let own = reason.own.as_ref();
                let is_asked_for =
                    reason.raised_for_kit.is_some() || own.is_some_and(|own| own.reason.is_some());
                let never_used = reason.never_used.as_ref().filter(|_| !is_asked_for)?;
                Some(NeverUsed {
                    minimum: own.map(|own| own.min_stock),
                    ..NeverUsed::clone(never_used)
                })
            }
            LevelBasis::OwnMinimum {
                min_stock,
                has_reason: false,
                not_computed: WhyNoLevel::NeverUsed,
                exposure_days,
            } => Some(NeverUsed {
                exposure_days: *exposure_days,
                minimum: Some(*min_stock),
                pays_from: None,
                first: 1.0,
                critical: None,
            }),
            LevelBasis::OwnMinimum { .. }
            | LevelBasis::KeptUnder { .. }
            | LevelBasis::Retired { .. } => None,
        }
    }

    /// True for a minimum without a reason of a part that nobody ever used and nothing is computed for: it orders nothing.
    pub fn orders_nothing(&self) -> bool {
        matches!(self.why, LevelBasis::OwnMinimum { .. }) && self.is_never_asked_for().is_some()
    }

    /// Minimum stock that orders keep: 0 where it orders nothing.
    pub fn kept_min_stock(&self) -> f64 {
        if self.orders_nothing() {
            0.0
        } else {
            self.min_stock
        }
    }

    /// Reorder point that orders go by: of a part that was never used and whose minimum has no reason, what the rule keeps and
    /// at least the first ones, which its insurance pays for; else the one that holds.
    pub fn ordered_at(&self) -> f64 {
        let is_insured = |of: &NeverUsed| of.minimum.is_some() && of.is_insured();
        let LevelBasis::Computed(reason) = &self.why else {
            return self.reorder_point;
        };
        match self.is_never_asked_for().filter(is_insured) {
            Some(never_used) => {
                let insured = reason.computed_reorder_point.max(never_used.first - 1.0);
                insured.min(self.reorder_point)
            }
            None => self.reorder_point,
        }
    }

    /// The minimum without reason or date that alone asks for an order at a stock position; `None` where the computed level
    /// does as well, or a planner stands behind it.
    pub fn only_by_minimum(&self, position: f64) -> Option<UnsignedMinimum> {
        match &self.why {
            LevelBasis::Computed(reason) => {
                let own = reason.own.as_ref()?;
                let is_signed = OwnFigure::is_signed(own.reason.as_ref(), own.date);
                let is_alone = position > reason.computed_reorder_point + 1e-9;
                (is_alone && !is_signed).then_some(UnsignedMinimum {
                    min_stock: own.min_stock,
                    has_reason: own.reason.is_some(),
                    computed: Some(reason.computed_reorder_point + 1.0),
                })
            }
            LevelBasis::OwnMinimum {
                min_stock,
                has_reason: false,
                ..
            } => Some(UnsignedMinimum {
                min_stock: *min_stock,
                has_reason: false,
                computed: None,
            }),
            LevelBasis::OwnMinimum { .. }
            | LevelBasis::KeptUnder { .. }
            | LevelBasis::Retired { .. } => None,
        }
    }
}

/// A minimum that no planner signed with reason and date, and that asks for an order nothing else asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnsignedMinimum {
    /// The minimum.
    pub min_stock: f64,
    /// True where it has a reason and lacks its date.
    pub has_reason: bool,
    /// Minimum stock by the rule of the levels; `None` where nothing is computed.
    pub computed: Option<f64>,
}

/// What a reorder point rests on.
#[derive(Debug, Clone, PartialEq)]
pub enum LevelBasis {
    /// Demand in the lead time.
    Computed(Box<LevelReason>),
    /// A planner's own minimum, because nothing can be computed.
    OwnMinimum {
        /// The minimum.
        min_stock: f64,
        /// True where the parts table gives a reason for it.
        has_reason: bool,
        /// Why nothing is computed.
        not_computed: WhyNoLevel,
        /// Days of records.
        exposure_days: f64,
    },
    /// Another number goes in for it and it for that: both are one stock, kept under the other.
    KeptUnder {
        /// The other.
        holder: PartId,
        /// As the shop calls it.
        number: String,
    },
    /// Every machine that uses the part has left service.
    Retired {
        /// Last day in service.
        since: NaiveDate,
    },
}

/// Why a reorder point is what it is. A large shop holds a hundred thousand of them: what few have is boxed.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelReason {
    /// Why it does not rest on the offer with the lowest price of a unit; `None` where it does.
    pub preferred: Option<Box<Preferred>>,
    /// Time from the order to the shelf.
    pub lead: LeadTimeLaw,
    /// Demand behind it.
    pub demand: Arc<Demand>,
    /// The number whose offer it rests on: the part, or another that may be bought for all of its stock.
    pub buys: PartId,
    /// Distribution of the demand in the lead time.
    pub lead_time_demand: LeadTimeDemand,
    /// Whole units of an order, as the methods reckon.
    pub quantity: i64,
    /// Reorder point by the rule alone.
    pub computed_reorder_point: f64,
    /// The rule.
    pub rule: LevelRule,
    /// Money behind it; `None` where no price is known.
    pub priced: Option<PricedAt>,
    /// Measures of service of the level that holds.
    pub service: Service,
    /// Share of units met in the long run where none is kept and none is there or on order, so that the coming year meets fewer;
    /// `None` elsewhere.
    pub long_run_fill_share: Option<f64>,
    /// The same with one less; `None` where none is kept.
    pub service_one_less: Option<Service>,
    /// What the last one is good for; `None` where none is kept or no price is known.
    pub one_less: Option<OneLess>,
    /// The first units that would pay where none is kept: several where usages take several at a time and one alone says nothing;
    /// `None` where some are kept or no price is known.
    pub first_that_pay: Option<Box<FirstThatPay>>,
    /// Minimum stock if an hour of waiting counted the downtime cost in full; `None` where no price is known.
    pub in_full: Option<f64>,
    /// Units a year that would reach the end of their shelf life; `None` without one.
    pub expired_a_year: Option<f64>,
    /// True where more would be kept but for what would expire.
    pub is_cut_for_shelf_life: bool,
    /// Where stock ends on the shelf so that all measures count it; `None` where as good as none does.
    pub ending: Option<StockEnds>,
    /// Reorder point at the price of the rule, where a budget set that price: what it leaves over buys more of some parts, and
    /// others have fewer for it.
    pub at_price: Option<f64>,
    /// Machines counted one by one, where they are few and orders are one for one.
    pub few_machines: Option<FewMachines>,
    /// Places where the part sits, over all machines; `None` where one does not say.
    pub places: Option<u32>,
    /// The kit that raised the level, where one did.
    pub raised_for_kit: Option<String>,
    /// Other numbers kept in the same stock.
    pub kept_for: Vec<String>,
    /// True where a planner signed for as many as are computed.
    pub is_own_the_same: bool,
    /// A planner's own figure that holds in place of the computed one.
    pub own: Option<Box<OwnFigure>>,
    /// What speaks for keeping it although it was never used; `None` for a part that was.
    pub never_used: Option<Box<NeverUsed>>,
    /// The last buy to think of, where every machine leaves service soon.
    pub last_buy: Option<Box<LastBuy>>,
    /// What the level would have done over the recorded past.
    pub replay: Replay,
    /// The same with one less, where one is kept.
    pub replay_one_less: Option<Replay>,
}

/// That stock ends on the shelf.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockEnds {
    /// False where no measure of service comes near enough to be told.
    pub is_known: bool,
    /// What that leaves of a service target of the part, which looks at lead times alone; `None` under another rule.
    pub of_target: Option<TargetWhereStockEnds>,
}

/// Units met by the level of a service target where stock ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TargetWhereStockEnds {
    /// Share of units met by the level of the rule.
    pub met_share: f64,
    /// Lowest minimum stock that meets the share of the target; `None` where none does that is looked at.
    pub met_from: Option<f64>,
}

/// The rule that set a reorder point.
#[derive(Debug, Clone, PartialEq)]
pub enum LevelRule {
    /// One price of a stock-out for the whole shop.
    StockOutPrice {
        /// The price, as a factor of the part's downtime cost.
        factor: f64,
        /// What the price was set for.
        goal: ServiceGoal,
    },
    /// The part's own downtime cost in full.
    DowntimeCost,
    /// A service target of the part.
    ServiceTarget {
        /// Share of lead times without anyone waiting, the usage that sets the order off included.
        share: f64,
        /// Criticality the target comes from; `None` for the target of the settings.
        from: Option<String>,
    },
}

/// What the price of a stock-out was set for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ServiceGoal {
    /// Share of usages met from the shelf, over the whole shop.
    Share(f64),
    /// The same where no price of an hour reaches it.
    OutOfReach {
        /// The share that is asked for.
        share: f64,
        /// The share that the highest price would meet.
        most: f64,
    },
    /// Value of the stock, over the whole shop.
    Budget(Money),
}

/// Money behind a level.
#[derive(Debug, Clone, PartialEq)]
pub struct PricedAt {
    /// Price of a unit.
    pub unit_price: Money,
    /// Holding a unit, a year.
    pub holding: Money,
    /// An hour of waiting in full, weighted by criticality.
    pub waiting_per_h: Money,
    /// The same hour as the machines cost it, without criticality.
    pub cost_per_h: Money,
    /// What that rests on.
    pub basis: WaitingBasis,
    /// Share of it that the rule counts.
    pub factor: f64,
    /// Hours of a year in which waiting counts: production hours.
    pub year_h: f64,
}

/// What the last unit of a level is good for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OneLess {
    /// Hours a year that machines would wait more without it.
    pub waiting_h_more: f64,
    /// What these hours count by the rule, a year; `None` where nothing says what an hour costs.
    pub waiting_cost_more: Option<Money>,
    /// What holding it costs a year, with what expires for it.
    pub holding_saved: Money,
    /// Units a year fewer that would reach the end of their shelf life without it.
    pub expired_fewer: f64,
}

/// The first units that a level of none goes without: one, or several that are worth something only together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FirstThatPay {
    /// How many.
    pub units: f64,
    /// Hours a year that machines would wait less with them.
    pub saves_h: f64,
    /// What holding them costs a year, as far as they are not in use, with what expires of them.
    pub holding: Money,
    /// Units of them a year that reach the end of their shelf life.
    pub expired: f64,
}

/// A planner's own figure.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnFigure {
    /// Minimum stock the planner wants.
    pub min_stock: f64,
    /// Why; `None` where the table does not say.
    pub reason: Option<String>,
    /// Since when.
    pub date: Option<NaiveDate>,
    /// Minimum stock that is ordered up to where it has no reason and nobody ever used the part, 0 for nothing; `None` where all
    /// of it is.
    pub ordered: Option<f64>,
    /// What it costs more a year than the computed level, holding and waiting; `None` without a price.
    pub costs_more: Option<Money>,
    /// The same with the downtime cost in full, where the rule counts a share of it: at that share a level that pays just so
    /// costs no less than another, whatever its machines stand.
    pub costs_more_in_full: Option<Money>,
}

impl OwnFigure {
    /// True where reason and date are given: then it holds even where it is lower than computed.
    pub const fn is_signed(reason: Option<&String>, date: Option<NaiveDate>) -> bool {
        reason.is_some() && date.is_some()
    }
}

/// Why a part has no computed level.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WhyNoLevel {
    /// No day since when usages were recorded.
    RateUnknown,
    /// Records or machines begin at or after the moment of planning.
    NoExposure,
    /// No table gives a usage of any part.
    NoUsages,
    /// Usages are recorded, but none that counts: machines out of service, before the records, planned rebuilds.
    NoneCounts,
    /// No usage in all the days of records: a rate of 0 is no reason to stock, nor one not to insure.
    NeverUsed,
    /// No offer that may be bought from.
    NoUsableOffer,
    /// Offers, but none with a lead time.
    NoLeadTime,
}
