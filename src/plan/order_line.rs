//! One line of the order list: what is bought, and every need that it serves.

use std::collections::BTreeMap;
use std::fmt;

use chrono::NaiveDate;

use super::choice::OfferChoice;
use super::late_for_last::LateForLast;
use super::late_for_level::LateForLevel;
use super::late_hours::WaitsFrom;
use super::level::{NeverUsed, UnsignedMinimum};
use super::made_instead::WayLeft;
use super::share_of_cases::share_of_cases;
use super::when_missed::WhenMissed;
use crate::catalogue::PartId;
use crate::units::{Money, UnitOfCount, without_rounding_residue};

/// Why something is ordered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ReorderReason {
    /// The stock position is at or below the reorder point.
    AtReorderPoint {
        /// Free on the shelf, without what expires before a new order could be here.
        free: f64,
        /// Reaches the end of its shelf life before that, and is not counted.
        expiring: f64,
        /// On order, without what nobody closed.
        on_order: f64,
        /// Ordered, and open for so long that it is not counted; the first of these days.
        forgotten: Option<(f64, NaiveDate)>,
        /// On order besides, but not counted, because a new order is here before it.
        too_late: Option<LateForLevel>,
        /// Left over, by pack or minimum, of what is bought for planned rebuilds.
        left_over: f64,
        /// Taken from the first two by planned rebuilds within the lead time.
        for_rebuilds: f64,
        /// Stock position: free, on order and left over, less what the rebuilds take.
        position: f64,
        /// Order again at or below this.
        reorder_point: f64,
    },
    /// A rebuild with a date needs more than there is.
    Rebuild {
        /// Position of the need in the plan's list of needs.
        need: usize,
        /// Planned day.
        date: NaiveDate,
        /// Quantity needed.
        needed: f64,
        /// Quantity missing.
        short: f64,
        /// Number of the stop of its machine.
        stop: usize,
    },
    /// Bought once and for all before the last machine that uses it leaves service.
    LastBuy {
        /// Last day in service.
        until: NaiveDate,
        /// Usage expected until then.
        expected: f64,
        /// Units that should be there in all.
        wanted: f64,
        /// Share of cases in which that many are enough.
        enough_share: f64,
        /// On order besides, but likely here only after that day.
        too_late: f64,
        /// On order besides, but so late that what is bought serves the time until then only.
        bridged: Option<LateForLast>,
    },
}

/// One need that an order line serves.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderedFor {
    /// The part that is wanted; what is bought may be another number accepted for it.
    pub part: PartId,
    /// Parts that may be bought for it.
    pub accepted: Vec<PartId>,
    /// Quantity wanted, in the unit of its line, before pack and minimum.
    pub wanted: f64,
    /// Quantity that it counts on besides, because another need of its line leaves so much over; in the unit of its line.
    pub left_over: f64,
    /// Day by which goods must be there; `None` where nothing is dated.
    pub needed_by: Option<NaiveDate>,
    /// What an hour of its machine down costs, in the shop's currency; `None` where nothing is dated or no table says it.
    pub hour: Option<Money>,
    /// Last day to order; today where it is a matter of the stock level or already late.
    pub order_by: NaiveDate,
    /// Why.
    pub reason: ReorderReason,
    /// What speaks for a part that was never used and only its group's rate or a minimum without a reason asks for; not due
    /// without an insurance that pays.
    pub never_used: Option<NeverUsed>,
    /// The minimum without reason or date that nothing else bears out; `None` where something does.
    pub only_by_minimum: Option<UnsignedMinimum>,
    /// The best way other than buying, where there is one and it is not taken; with the first of the lines that it is for.
    pub way_left: Option<Box<WayLeft>>,
    /// What would be ordered on the day of a rebuild if nobody did before; `None` where nobody can tell, and without a day.
    pub missed: Option<WhenMissed>,
}

/// One line to order: one part from one supplier by one delivery.
#[derive(Debug, Clone, PartialEq)]
pub struct ReorderLine {
    /// What it is ordered for; never empty, the need that was planned first comes first.
    pub needs: Vec<OrderedFor>,
    /// Quantity wanted by all needs, in `unit`, before pack and minimum.
    pub wanted: f64,
    /// What is counted.
    pub unit: UnitOfCount,
    /// What to buy: pack and price break by the sum of the needs.
    pub buy: OfferChoice,
    /// The next best, for comparison.
    pub next_best: Option<OfferChoice>,
    /// Earliest day by which goods must be there; `None` where nothing is dated.
    pub needed_by: Option<NaiveDate>,
    /// Earliest of the last days to order.
    pub order_by: NaiveDate,
    /// True where no table says that the supplier is approved, and the settings let the shop buy there all the same.
    pub is_supplier_unapproved: bool,
}

impl OrderedFor {
    /// Quantity to order besides [`wanted`](Self::wanted) where so much that it counts on is not there after all, all in
    /// one unit.
    pub fn besides(&self, missing: f64) -> f64 {
        if missing <= 0.0 {
            return 0.0;
        }
        match self.reason {
            // The quantity of an order may be more than what is short of the minimum.
            ReorderReason::AtReorderPoint {
                position,
                reorder_point,
                ..
            } => (reorder_point + 1.0 - position + missing - self.wanted).clamp(0.0, missing),
            ReorderReason::LastBuy { .. } => missing,
            ReorderReason::Rebuild { .. } => 0.0,
        }
    }

    /// From when on it waits and what that costs; `None` where nothing is dated or nobody knows.
    pub fn waits_from(&self) -> Option<WaitsFrom> {
        Some(WaitsFrom {
            needed_by: self.needed_by?,
            hour: self.hour.filter(|hour| hour.cents > 0)?,
            stop: self.stop()?,
        })
    }

    /// Number of the stop of the machine whose rebuild it is for; `None` for what no rebuild needs.
    pub const fn stop(&self) -> Option<usize> {
        match self.reason {
            ReorderReason::Rebuild { stop, .. } => Some(stop),
            ReorderReason::AtReorderPoint { .. } | ReorderReason::LastBuy { .. } => None,
        }
    }

    /// Last day on which it is of use; `None` where it always is.
    pub const fn until(&self) -> Option<NaiveDate> {
        match self.reason {
            ReorderReason::LastBuy { until, .. } => Some(until),
            ReorderReason::AtReorderPoint { .. } | ReorderReason::Rebuild { .. } => None,
        }
    }

    /// True for a part that was never used and that no critical machine's downtime pays: nobody need order it.
    pub fn is_held_back(&self) -> bool {
        self.never_used
            .as_ref()
            .is_some_and(|never_used| !never_used.is_insured())
    }
}

impl ReorderLine {
    /// The part that is wanted first; `buy.part` may be another number accepted for it.
    pub fn part(&self) -> PartId {
        self.needs.first().map_or(self.buy.part, |need| need.part)
    }

    /// What pack and minimum leave over when every need has what it wants and counts on, in `unit`.
    pub fn left_over(&self) -> f64 {
        let needs = self.needs.iter();
        let claimed: f64 = needs.map(|need| need.wanted + need.left_over).sum();
        (self.buy.gives - claimed).max(0.0)
    }

    /// True where the last day to order is not after `today`.
    pub fn is_due(&self, today: NaiveDate) -> bool {
        self.order_by <= today && !self.is_held_back()
    }

    /// True where nothing but parts that nobody need order stands behind it.
    pub fn is_held_back(&self) -> bool {
        self.needs.iter().all(OrderedFor::is_held_back)
    }

    /// Positions of its needs for rebuilds, those of one stop together.
    pub fn by_stop(&self) -> BTreeMap<usize, Vec<usize>> {
        let mut stops: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (at, need) in self.needs.iter().enumerate() {
            if let Some(stop) = need.stop() {
                stops.entry(stop).or_default().push(at);
            }
        }
        stops
    }

    /// True where one of its needs is a last buy.
    pub fn is_last_buy(&self) -> bool {
        let mut needs = self.needs.iter();
        needs.any(|need| matches!(need.reason, ReorderReason::LastBuy { .. }))
    }
}

/// The dated ones of some needs with what their waiting costs; none where nobody knows it of one of them.
pub fn waits_of<'n>(needs: impl Iterator<Item = &'n OrderedFor>) -> Vec<WaitsFrom> {
    let dated = needs.filter(|need| need.needed_by.is_some());
    let waits: Option<Vec<WaitsFrom>> = dated.map(OrderedFor::waits_from).collect();
    waits.unwrap_or_default()
}

impl ReorderReason {
    /// What there is besides, but is not counted toward a stock position or a last buy, in clauses; none without any.
    pub fn not_counted(&self) -> Vec<String> {
        let (expiring, forgotten, too_late, after_service) = match self {
            Self::AtReorderPoint {
                expiring,
                forgotten,
                too_late,
                ..
            } => {
                let too_late = too_late.map(|of| (of.quantity, of.first));
                (*expiring, *forgotten, too_late, 0.0)
            }
            Self::LastBuy {
                bridged, too_late, ..
            } => {
                let bridged = bridged.map(|of| (of.quantity, of.first));
                (0.0, None, bridged, *too_late)
            }
            Self::Rebuild { .. } => return Vec::new(),
        };
        let expiring = (expiring > 0.0).then(|| {
            let expiring = without_rounding_residue(expiring);
            format!("besides {expiring} that reach the end of their shelf life before an order could be here, not counted")
        });
        let forgotten = forgotten.map(|(quantity, ordered)| {
            let quantity = without_rounding_residue(quantity);
            format!("besides {quantity} ordered on {ordered} and not counted: chase or close it")
        });
        let too_late = too_late.map(|(quantity, first)| {
            let quantity = without_rounding_residue(quantity);
            format!("besides {quantity} on order, likely here on {first}, too late to be counted: hurry it")
        });
        let after_service = (after_service > 0.0).then(|| {
            let quantity = without_rounding_residue(after_service);
            format!("besides {quantity} on order that come after that: hurry or cancel them")
        });
        let all = [expiring, forgotten, too_late, after_service];
        all.into_iter().flatten().collect()
    }

    /// True where it is to bridge the time until open orders come that are too late.
    pub const fn is_bridge(&self) -> bool {
        matches!(
            self,
            Self::AtReorderPoint {
                too_late: Some(_),
                ..
            } | Self::LastBuy {
                bridged: Some(_),
                ..
            }
        )
    }
}

impl fmt::Display for ReorderReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::AtReorderPoint {
                free,
                on_order,
                left_over,
                for_rebuilds,
                position,
                reorder_point,
                ..
            } => {
                let (free, on_order, position) = (
                    without_rounding_residue(*free),
                    without_rounding_residue(*on_order),
                    without_rounding_residue(*position),
                );
                write!(f, "{free} free and {on_order} on order")?;
                if *left_over > 0.0 {
                    let left_over = without_rounding_residue(*left_over);
                    write!(f, ", {left_over} left over of orders for rebuilds")?;
                }
                if *for_rebuilds > 0.0 {
                    let for_rebuilds = without_rounding_residue(*for_rebuilds);
                    write!(f, ", of which {for_rebuilds} for planned rebuilds")?;
                }
                write!(
                    f,
                    ": {position} is at or below the reorder point of {reorder_point}"
                )?;
            }
            Self::Rebuild {
                date,
                needed,
                short,
                ..
            } => {
                let (needed, short) = (
                    without_rounding_residue(*needed),
                    without_rounding_residue(*short),
                );
                write!(f, "rebuild on {date} needs {needed}, {short} missing")?;
            }
            Self::LastBuy {
                until,
                expected,
                wanted,
                enough_share,
                ..
            } => {
                write!(
                    f,
                    "last buy: its machines leave service by {until}, {expected:.1} are expected to be used until then, {} in all are enough in {} of cases",
                    without_rounding_residue(*wanted),
                    share_of_cases(*enough_share)
                )?;
            }
        }
        for of in self.not_counted() {
            write!(f, "; {of}")?;
        }
        Ok(())
    }
}
