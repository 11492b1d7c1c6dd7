//! What a level serves where stock reaches the end of its shelf life before anybody needs it.
//!
//! The oldest is used first, and what ends is ordered anew when it has ended. An order is one of two kinds: it finds pieces of
//! the order before it, or all of that has ended and it finds an empty shelf. Of a piece of either kind a usage takes in time
//! what it can while lead time and life last; the measures of both kinds are weighed by the pieces of them that are used.
//!
//! # Source
//! One for one, single pieces, a fixed lead time: the age of the oldest piece since its order has the density
//! `C x^(S - 1) exp(-l x)` up to lead time and life (shown by putting it into the equations of the ages; so Olsson and Tydesjö,
//! European Journal of Operational Research 202:131-137, 2010, from memory), by which the share that goes without is that of
//! stock that lasts over the probability that the piece is used at all. Single pieces with a reorder point of 0 or -1: every
//! order begins where the last one has ended, a renewal. Both are exact for Poisson usages. All else is an own approximation,
//! compared with simulated shelves: shares met and waits within some 0.03 and a fifth of the wait, pieces that end up to two
//! fifths too few where several are ordered at a reorder point of one or more. Of usages of several at a reorder point of as
//! much as an order of several nothing good enough is known, nor of single pieces at one where orders mostly end before they are
//! used ([`is_known`](Ending::is_known)). A reorder point that holds less or lets less end than a lower one is taken to do as much.

use super::demand_table::DemandTable;
use super::job_steps::JobSteps;
use super::lead_time_demand::LeadTimeDemand;
use shelf::{Shelf, mean_by_use};

mod shelf;

/// Probability that a level outlasts its life below which nothing is counted of it.
const LEAST_SHARE: f64 = 0.002;

/// Share of lead times up to whose demand levels are looked at.
const SURE: f64 = 0.9999;

/// Reorder points times positions up to which a part is counted out.
const MOST_WORK: i64 = 4_000_000;

/// Share of orders that end before as much as one of them is used, from which on two orders side by side end together too often
/// for the measures of a reorder point of as much as an order (12 months, 4 used a year, 20 at a time: 88 % met at 20, not all).
const ENDS_TOGETHER: f64 = 0.2;

/// Money a year, and share of a cost, by which nobody can tell two reorder points apart: rates and lives are not known that well.
/// Common practice, no source.
const TOLD: (f64, f64) = (0.01, 0.005);

/// Reorder points beyond those looked at of which each is held against the one below.
const MOST_BEYOND: i64 = 1000;

/// Stock of one part that may end.
#[derive(Debug, Clone, PartialEq)]
pub struct Ending {
    /// Demand of lead time and life together.
    long: LeadTimeDemand,
    /// Demand of the lead time and half the life, where usages take several.
    middle: Option<LeadTimeDemand>,
    stock: EndingStock,
    /// Mean units of a usage.
    mean_size: f64,
    /// Units that the order after a usage brings at least.
    step: i64,
    /// Each reorder point from -1 on.
    points: Vec<EndingService>,
    /// True where single pieces come by several of which most end, so that a reorder point of as much as an order is not known.
    ends_together: bool,
}

/// What is kept, used and ordered of it.
#[derive(Debug, Clone, PartialEq)]
pub struct EndingStock {
    /// Units of an order.
    pub quantity: i64,
    /// Units that usages take, with their shares; empty: 1 unit.
    pub sizes: Vec<(u32, f64)>,
    /// Units used a year.
    pub yearly: f64,
    /// Years from the shelf to the end of the life.
    pub life_years: f64,
}

/// Measures of a reorder point.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct EndingService {
    /// Share of units that go without.
    pub units_without: f64,
    /// Share of usages that do not find their whole quantity.
    pub usages_without: f64,
    /// Units waited for at a random moment.
    pub waiting: f64,
    /// Usages that wait at a random moment, each until it has all it takes.
    pub jobs_waiting: f64,
    /// Units on the shelf at a random moment.
    pub on_hand: f64,
    /// Units that end, a year.
    pub expired: f64,
    /// Share of orders that find pieces of the one before them.
    pub renewed_share: f64,
}

/// A demand in the lead time, and usages that wait where they take several units.
#[derive(Clone, Copy)]
pub struct InLeadTime<'a> {
    /// The demand.
    pub table: &'a DemandTable,
    /// The usages.
    pub jobs: Option<&'a JobSteps>,
}

impl Ending {
    /// Of a demand over days, the mean days of an order and those of the shelf life; levels up to `at_least` are looked at
    /// whatever the demand. `None` where as good as nothing ends.
    pub fn new(
        stock: EndingStock,
        lead: InLeadTime<'_>,
        at_least: i64,
        days: (f64, f64),
        law_over: impl Fn(f64) -> Option<LeadTimeDemand>,
    ) -> Option<Self> {
        let (lead_days, life_days) = days;
        let highest = lead.table.quantile(SURE).max(at_least);
        let law = law_over(lead_days + life_days).filter(|_| stock.yearly > 0.0)?;
        let most = u64::try_from(highest.saturating_add(stock.quantity)).unwrap_or(0);
        if law.at_most(most) < LEAST_SHARE {
            return None;
        }
        // Beyond what a lead time asks for more is kept only so that two orders end apart: nothing is known well enough for that.
        let last = highest + 1;
        if last.saturating_mul(last.saturating_add(stock.quantity)) > MOST_WORK {
            return None;
        }
        let takes_several = stock.sizes.iter().any(|(size, _)| *size > 1);
        let middle = match takes_several {
            true => Some(law_over(lead_days + life_days / 2.0)?),
            false => None,
        };
        let terms = stock.sizes.iter();
        let mean: f64 = terms.map(|(size, share)| f64::from(*size) * share).sum();
        let of_an_order = u64::try_from(stock.quantity - 1).unwrap_or(0);
        let ends_whole = law.at_most(of_an_order) >= ENDS_TOGETHER;
        let mut found = Self {
            ends_together: stock.quantity > 1 && !takes_several && ends_whole,
            long: law,
            middle,
            stock,
            mean_size: mean.max(1.0),
            step: (mean.round() as i64).max(1),
            points: Vec::new(),
        };
        let shelf = Shelf::of(&found);
        let mut before: Option<EndingService> = None;
        let each = (-1..=last).map(|point| {
            let of = shelf.reckoned(point, lead).above(before.as_ref());
            before = Some(of);
            of
        });
        found.points = each.collect();
        Some(found)
    }

    /// False where no measure of a reorder point comes near enough to what is seen.
    pub fn is_known(&self, reorder_point: i64) -> bool {
        let quantity = self.stock.quantity;
        let is_any_known = match self.middle {
            None => !self.ends_together,
            Some(_) => quantity == 1,
        };
        is_any_known || reorder_point < quantity.max(self.step)
    }

    /// Measures of a reorder point.
    pub fn at(&self, reorder_point: i64, lead: InLeadTime<'_>) -> EndingService {
        let known = usize::try_from(reorder_point + 1);
        let known = known.ok().and_then(|at| self.points.get(at));
        let beyond = || {
            let shelf = Shelf::of(self);
            match self.points.last() {
                Some(last) if reorder_point >= 0 => {
                    let first = self.points.len() as i64 - 1;
                    let points = first.max(reorder_point - MOST_BEYOND)..=reorder_point;
                    points.fold(*last, |of, point| {
                        shelf.reckoned(point, lead).above(Some(&of))
                    })
                }
                _ => shelf.reckoned(reorder_point, lead),
            }
        };
        known.map_or_else(beyond, |of| *of)
    }

    /// Share of usages of so many units that do not find all of them.
    pub fn usages_without(&self, reorder_point: i64, lead: InLeadTime<'_>, units: u32) -> f64 {
        let kinds = Shelf::of(self).kinds(reorder_point, lead, &[(units, 1.0)]);
        mean_by_use(&kinds, |of| of.usages_without).clamp(0.0, 1.0)
    }

    /// Lowest reorder point whose cost a year nobody can tell from the least: `holding` of a unit, `price` of one that ends, `waiting`
    /// of a usage that waits all year.
    ///
    /// It never falls as waiting costs more: no reorder point holds less or lets less end than a lower one, or has more waiting.
    pub fn reorder_point(&self, holding: f64, price: f64, waiting: f64) -> i64 {
        let points = (-1..).zip(&self.points);
        // What is not known of single pieces is a promise that they do not keep.
        let points = points.filter(|(point, _)| !self.ends_together || self.is_known(*point));
        let costs = points.map(|(point, of)| {
            let held = holding.mul_add(of.on_hand, price * of.expired);
            (point, waiting.mul_add(of.jobs_waiting, held))
        });
        lowest_of_least_cost(costs).unwrap_or(-1)
    }

    /// Lowest reorder point from `least` on that meets a share of units; `None` where none that is looked at does.
    pub fn first_that_meets(&self, least: i64, share: f64) -> Option<i64> {
        let from = (-1..).zip(&self.points);
        let mut from = from.filter(|(point, _)| *point >= least && self.is_known(*point));
        from.find(|(_, of)| 1.0 - of.units_without >= share)
            .map(|(point, _)| point)
    }
}

impl EndingService {
    /// No less held and ended and no more waiting than one reorder point lower: where the two kinds of orders meet, the measures
    /// of one may be a little off those of the other.
    fn above(self, lower: Option<&Self>) -> Self {
        let Some(lower) = lower else {
            return self;
        };
        Self {
            jobs_waiting: self.jobs_waiting.min(lower.jobs_waiting),
            on_hand: self.on_hand.max(lower.on_hand),
            expired: self.expired.max(lower.expired),
            ..self
        }
    }
}

/// Lowest of the rising reorder points whose cost nobody can tell from the least; `None` of none.
pub(super) fn lowest_of_least_cost(costs: impl Iterator<Item = (i64, f64)> + Clone) -> Option<i64> {
    let least = costs.clone().map(|(_, cost)| cost);
    let least = least.min_by(f64::total_cmp)?;
    let most = least + TOLD.0.max(TOLD.1 * least);
    let mut costs = costs;
    costs
        .find(|(_, cost)| *cost <= most)
        .map(|(point, _)| point)
}

#[cfg(test)]
mod tests;
