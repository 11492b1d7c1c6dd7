//! What a level counts of its shelf: what is still good when a new order could be here.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::level::Level;
use super::rebuild_need::RebuildNeed;
use super::reorder::drawn_by_needs;
use super::shop_plan::Plan;
use super::stock::{PartStock, drawn_by_row, lost_within};
use crate::catalogue::PartId;

/// What reaches the end of its shelf life before a new order for a level could be here, and that nobody uses until then; 0
/// where nothing says how long that takes.
///
/// `needs` are the rebuilds that take of its stock, each with the number that it takes.
pub fn expiring_of<'n>(
    level: &Level,
    stocks: &[&PartStock],
    needs: impl Iterator<Item = (PartId, &'n RebuildNeed)>,
    today: NaiveDate,
) -> f64 {
    level.wait_for_order().map_or(0.0, |(lead_days, per_day)| {
        let drawn = drawn_by_row(needs, stocks, level.unit);
        lost_within(stocks, &drawn, (today, lead_days, per_day))
    })
}

/// The shelves of all levels of a plan.
#[derive(Debug)]
pub struct LevelShelves<'p> {
    plan: &'p Plan,
    drawn: BTreeMap<PartId, Vec<&'p RebuildNeed>>,
    today: NaiveDate,
}

/// What is free on the shelf of a level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LevelShelf {
    /// What the level counts.
    pub counted: f64,
    /// Free besides, but past its shelf life before a new order could be here.
    pub expiring: f64,
    /// True where a row of it was not taken and nobody knows how many there are.
    pub has_unknown: bool,
}

impl<'p> LevelShelves<'p> {
    /// Takes the plan of a day.
    pub fn new(plan: &'p Plan, today: NaiveDate) -> Self {
        Self {
            plan,
            drawn: drawn_by_needs(&plan.needs),
            today,
        }
    }

    /// The shelf of one level, under all its numbers.
    pub fn of(&self, level: &Level) -> LevelShelf {
        let by_part = &self.plan.stock.by_part;
        let stocks: Vec<&PartStock> = level
            .stocked()
            .filter_map(|part| by_part.get(&part))
            .collect();
        // As the order list has it: rebuilds within the lead time.
        let within_days = level.lead_days().unwrap_or(f64::INFINITY);
        let in_days = |day: NaiveDate| (day - self.today).num_days() as f64;
        let needs = level.stocked().flat_map(|part| {
            let of_part = self.drawn.get(&part).into_iter().flatten();
            of_part.copied().map(move |need| (part, need))
        });
        let needs = needs.filter(|(_, need)| in_days(need.date) <= within_days);
        let expiring = expiring_of(level, &stocks, needs, self.today);
        let free = stocks.iter().map(|of| of.free()).sum::<f64>() + 0.0;
        LevelShelf {
            counted: free - expiring,
            expiring,
            has_unknown: stocks.iter().any(|of| of.has_unknown),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::{Sample, day};

    #[test]
    fn what_ends_before_an_order_could_be_here_is_not_counted() {
        // Four used in two years, 60 working days of lead time; five years are over in 2030, or ten days from now.
        for (cured, counted, expiring) in [("2025-03-04", 9.0, 0.0), ("2021-03-14", 0.0, 9.0)] {
            let (sample, part) = Sample::with_shelf_cured(cured);
            let plan = sample.plan();
            let shelf = LevelShelves::new(&plan, day("2026-03-04")).of(&plan.levels.by_part[&part]);
            assert!((shelf.counted - counted).abs() < 1e-9, "{cured}: {shelf:?}");
            assert!(
                (shelf.expiring - expiring).abs() < 1e-9,
                "{cured}: {shelf:?}"
            );
            assert!(!shelf.has_unknown);
        }
    }
}
