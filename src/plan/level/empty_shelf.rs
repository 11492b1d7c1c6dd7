//! What the coming year finds of a part that is ordered only when somebody waits, where the shelf is empty now.
//!
//! Measures of service are those of a random moment, after very many orders. A part with nothing there, nothing on order
//! and a reorder point of -1 is at the worst moment of its cycle, and where it is used once in years it stays there for
//! most of the year: whoever needs it first waits, and nobody finds what the order of that moment leaves over before it
//! has come.
//!
//! # Source
//! The stock at a moment is the position one lead time before, less what is used in between (Hadley & Whitin, Analysis of
//! Inventory Systems, 1963, ch. 4). The position follows from how many usages there were: 0, and after a usage of `s` units
//! as much less, with an order of `Q` added wherever that is below 0. A usage finds the position of after `n` usages in
//! `P(N >= n + 1)` of the cases, `N` being the usages in the year less one lead time; over the usages expected in the year
//! that is the share of usages that find it. Nothing is found before the first order has come, so that `n` begins at 1.
//! Exact for a known rate, single units and a fixed lead time; as the year grows it is the steady state.

use super::demand_table::DemandTable;
use crate::plan::demand::Demand;
use crate::plan::year_length::YEAR_DAYS;

/// Usages a year above which the beginning of the year no longer counts.
const MOST_USAGES: f64 = 500.0;

/// Units of an order up to which positions are told apart.
const MOST_UNITS: i64 = 5_000;

/// Share of usages that may be left out.
const TAIL: f64 = 1e-9;

/// Shares of the usages of the coming year by the stock position that they find.
#[derive(Debug, Clone, PartialEq)]
pub struct EmptyShelf {
    /// Share of usages that find an ordered position of 0, 1, ... units; all others find nothing.
    positions: Vec<f64>,
    sizes: Vec<(u32, f64)>,
}

impl EmptyShelf {
    /// From a demand, its mean lead time and the quantity of an order; `None` without a rate and where the part is used so
    /// often that the steady state is there at once.
    pub fn new(demand: &Demand, lead_days: f64, quantity: i64) -> Option<Self> {
        let usages = demand.usages()?;
        let yearly = usages.mean_per_day() * YEAR_DAYS;
        let is_rare = yearly > 0.0 && yearly <= MOST_USAGES;
        if !is_rare || !(1..=MOST_UNITS).contains(&quantity) {
            return None;
        }
        let sizes = sizes(demand)?;
        let mut found = Self {
            positions: vec![0.0; quantity as usize],
            sizes,
        };
        let days = YEAR_DAYS - lead_days;
        if days <= 0.0 {
            return Some(found);
        }
        let ahead = usages.events_distribution(days);
        let most = ahead.reorder_point(1.0 - TAIL)?;
        // Before the first usage the position is 0, and nothing was ordered for it.
        let mut at = vec![0.0; quantity as usize];
        at[0] = 1.0;
        for used in 1..=most {
            at = found.after_a_usage(&at);
            let share = (1.0 - ahead.at_most(used)) / yearly;
            for (sum, of) in found.positions.iter_mut().zip(&at) {
                *sum += share * of;
            }
        }
        Some(found)
    }

    /// Probabilities of the positions after one more usage: at or below -1 is ordered until that is no longer so.
    fn after_a_usage(&self, at: &[f64]) -> Vec<f64> {
        let quantity = at.len() as i64;
        let mut next = vec![0.0; at.len()];
        for (position, share) in at.iter().enumerate().filter(|(_, share)| **share > 0.0) {
            for (size, of_sizes) in &self.sizes {
                let left = (position as i64 - i64::from(*size)).rem_euclid(quantity);
                next[left as usize] += share * of_sizes;
            }
        }
        next
    }

    /// Share of usages that find at least so many units on the shelf.
    pub fn on_hand_at_least(&self, table: &DemandTable, units: i64) -> f64 {
        let each = self.positions.iter().zip(0_i64..);
        each.map(|(share, position)| share * table.at_most(position - units))
            .sum()
    }

    /// Share of units that are on the shelf when they are needed.
    pub fn unit_fill(&self, table: &DemandTable) -> f64 {
        let found = |size: u32| -> f64 {
            (1..=i64::from(size))
                .map(|units| self.on_hand_at_least(table, units))
                .sum()
        };
        let (mut met, mut mean) = (0.0, 0.0);
        for (size, share) in &self.sizes {
            met += share * found(*size);
            mean += share * f64::from(*size);
        }
        met / mean
    }

    /// Share of usages whose whole quantity is on the shelf.
    pub fn whole_job(&self, table: &DemandTable) -> f64 {
        let each = self.sizes.iter();
        each.map(|(size, share)| share * self.on_hand_at_least(table, i64::from(*size)))
            .sum()
    }
}

/// Quantities of a usage with their shares: those of the demand's law, else as they were where these are whole, else the mean.
fn sizes(demand: &Demand) -> Option<Vec<(u32, f64)>> {
    if let Some(sizes) = demand.quantities() {
        return Some(sizes.to_vec());
    }
    if !demand.sizes.is_empty() {
        return Some(demand.sizes.clone());
    }
    let mean = demand.estimate.as_ref()?.size.mean_pieces;
    Some(vec![(mean.round().max(1.0) as u32, 1.0)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::LeadTimeDemand;
    use crate::plan::demand::{DemandRate, EventRate, Rate, RateBasis, SizeMoments};
    use crate::plan::level::unit_fill;

    /// Single units at a known rate a year.
    fn single(yearly: f64) -> Demand {
        let per_day = yearly / YEAR_DAYS;
        Demand {
            rate: Rate::Known {
                pieces_per_day: per_day,
            },
            exposure_days: 3_650.0,
            events: 10,
            net_quantity: 10.0,
            mean_size: 1.0,
            mean_square_size: 1.0,
            sizes: vec![(1, 1.0)],
            likely_sizes: Vec::new(),
            before_records: 0,
            for_planned_rebuilds: 0,
            in_parts: None,
            left_out_above: None,
            class: None,
            estimate: Some(DemandRate {
                events: EventRate::certain(per_day),
                size: SizeMoments {
                    mean_pieces: 1.0,
                    squared_cv: 0.0,
                },
                basis: RateBasis::Plain,
            }),
            by_lives: None,
        }
    }

    fn table(yearly: f64, days: f64) -> DemandTable {
        let mean = yearly * days / YEAR_DAYS;
        DemandTable::new(&LeadTimeDemand::Poisson { mean })
    }

    #[test]
    fn of_an_order_that_lasts_for_years_only_the_first_usage_and_its_lead_time_wait() {
        // The first usage comes at an exponential moment t and waits with all usages of the lead time L after it. With D usages
        // a year and l of them in L, 1 - e^-D + E[l min(1, (T - t)/L)] = 1 + l - e^-(D - l) wait: 0.6828 of 1 where l is 30/365.
        for (yearly, days) in [(1.0_f64, 30.0_f64), (0.2, 30.0), (3.0, 100.0)] {
            let within = yearly * days / YEAR_DAYS;
            let waits = 1.0 + within - (within - yearly).exp();
            let year = EmptyShelf::new(&single(yearly), days, 400).unwrap();
            let fill = year.unit_fill(&table(yearly, days));
            assert!((fill - (1.0 - waits / yearly)).abs() < 1e-6, "{fill}");
            assert!((year.whole_job(&table(yearly, days)) - fill).abs() < 1e-12);
        }
    }

    #[test]
    fn many_usages_a_year_are_the_long_run() {
        let (yearly, days, quantity) = (300.0, 1.0, 5);
        let table = table(yearly, days);
        let year = EmptyShelf::new(&single(yearly), days, quantity).unwrap();
        let long_run = unit_fill(&table, -1, quantity);
        let fill = year.unit_fill(&table);
        assert!(
            fill < long_run && fill > long_run - 0.02,
            "{fill} {long_run}"
        );
    }

    #[test]
    fn nothing_is_found_of_single_orders_nor_before_the_first_has_come() {
        for (days, quantity) in [(30.0, 1), (365.0, 5), (900.0, 5)] {
            let year = EmptyShelf::new(&single(1.0), days, quantity).unwrap();
            assert!(
                year.unit_fill(&table(1.0, days)).abs() < 1e-12,
                "{days} {quantity}"
            );
        }
        assert_eq!(EmptyShelf::new(&single(5_000.0), 30.0, 50), None);
    }
}
