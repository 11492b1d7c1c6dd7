//! Stock that reaches the end of its shelf life before a new order could be there, and that nobody uses until then.
//!
//! A stock position says what can serve the demand of the lead time. A lot that ends within it serves only what is taken
//! before its last day: the lots go out oldest first, at the mean usage and in whole units, and the rest of it is lost. What
//! planned rebuilds take of a lot is no longer in it.

use std::collections::BTreeMap;

use chrono::{Days, NaiveDate};

use super::{FreeLot, PartStock};
use crate::catalogue::PartId;
use crate::place::Place;
use crate::plan::rebuild_need::RebuildNeed;
use crate::plan::supply::Source;
use crate::plan::tolerance::TOLERANCE;
use crate::units::UnitOfCount;

/// What is lost of the lots of one or more parts kept as one before `lead_days` from today are over, at so many used a day.
///
/// `drawn` is what rebuilds take of each row; lots without a last day lose nothing.
pub fn lost_within(
    stocks: &[&PartStock],
    drawn: &BTreeMap<&Place, f64>,
    (today, lead_days, per_day): (NaiveDate, f64, f64),
) -> f64 {
    let Some(arrives) = today.checked_add_days(Days::new(lead_days.max(0.0).ceil() as u64)) else {
        return 0.0;
    };
    let ends = |lot: &&FreeLot| !lot.is_fit_on(arrives);
    let mut lots: Vec<&FreeLot> = stocks.iter().flat_map(|of| &of.lots).filter(ends).collect();
    lots.sort_by_key(|lot| lot.usable_until);
    let (mut used, mut lost) = (0.0, 0.0);
    for lot in lots {
        let Some(until) = lot.usable_until else {
            continue;
        };
        let left = (lot.free - drawn.get(&lot.place).copied().unwrap_or(0.0)).max(0.0);
        // Its last day is one on which it may be fitted.
        let days = (until - today).num_days() + 1;
        let by_then = (per_day.max(0.0) * days as f64 + TOLERANCE).floor();
        let of_lot = (by_then - used).clamp(0.0, left);
        used += of_lot;
        lost += left - of_lot;
    }
    lost
}

/// What needs take of each row of a part's stock, from the oldest lot of each on, in `unit`.
pub fn drawn_by_row<'n>(
    needs: impl Iterator<Item = (PartId, &'n RebuildNeed)>,
    stocks: &[&PartStock],
    unit: UnitOfCount,
) -> BTreeMap<&'n Place, f64> {
    let lots = stocks.iter().flat_map(|of| &of.lots);
    let free: BTreeMap<&Place, f64> = lots.map(|lot| (&lot.place, lot.free)).collect();
    let mut drawn: BTreeMap<&Place, f64> = BTreeMap::new();
    for (of_part, need) in needs {
        let factor = need.unit.in_units_of(unit).unwrap_or(0.0);
        for supply in &need.supplies {
            let Source::Stock { part, lots } = &supply.source else {
                continue;
            };
            let mut left = supply.quantity * factor;
            for row in lots.iter().filter(|_| *part == of_part) {
                let taken = drawn.entry(row).or_default();
                let here = (free.get(row).copied().unwrap_or(0.0) - *taken).clamp(0.0, left);
                *taken += here;
                left -= here;
            }
        }
    }
    drawn
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::ReorderReason;
    use crate::plan::sample::{Sample, day};

    const TODAY: &str = "2026-03-04";

    /// Lots of so many, each with the days from today to its last day.
    fn stock(lots: &[(f64, Option<i64>)]) -> PartStock {
        let today = day(TODAY);
        let mut rows = Sample::new("");
        let lot = |(free, days): &(f64, Option<i64>)| FreeLot {
            place: rows.place(),
            bin: None,
            lot: None,
            cure_date: None,
            usable_until: days.map(|days| today + chrono::Duration::days(days)),
            free: *free,
        };
        PartStock {
            unit: UnitOfCount::Piece,
            is_unit_assumed: false,
            has_unknown: false,
            lots: lots.iter().map(lot).collect(),
        }
    }

    #[test]
    fn what_ends_in_the_lead_time_is_lost_but_for_what_is_used_before() {
        // Arithmetic, at one used every ten days and 40 days of lead time.
        for (lots, lost) in [
            // Ends with the arrival or later, or never.
            (vec![(5.0, Some(40)), (5.0, Some(90)), (5.0, None)], 0.0),
            (vec![(5.0, Some(39))], 1.0),
            // Two in the first 20 days; the day counts on which it may still be fitted.
            (vec![(5.0, Some(19))], 3.0),
            (vec![(5.0, Some(18))], 4.0),
            // Used up by then, and the later lot is used from then on: 2 of the first, 1 of the 3 of the second by day 30.
            (vec![(2.0, Some(19)), (3.0, Some(29))], 2.0),
            // Nothing of the first is left to be used after its last day: 3 are lost, then one of four is used.
            (vec![(5.0, Some(19)), (4.0, Some(29))], 6.0),
            (vec![], 0.0),
        ] {
            let stock = stock(&lots);
            let found = lost_within(&[&stock], &BTreeMap::new(), (day(TODAY), 40.0, 0.1));
            assert!((found - lost).abs() < 1e-9, "{lots:?}: {found}");
        }
        // Of what a rebuild takes nothing is lost.
        let stock = stock(&[(5.0, Some(18))]);
        let drawn = BTreeMap::from([(&stock.lots[0].place, 3.0)]);
        let found = lost_within(&[&stock], &drawn, (day(TODAY), 40.0, 0.1));
        assert!((found - 1.0).abs() < 1e-9, "{found}");
    }

    #[test]
    fn a_shelf_that_ends_before_an_order_could_come_asks_for_one() {
        // Four used in two years, 60 working days of lead time: about 84 days in which 0.46 are used, none in the first ten.
        let reasons = |cured: &str| {
            let (sample, _) = Sample::with_shelf_cured(cured);
            let lines = sample.plan().reorder.lines;
            let needs = lines.iter().flat_map(|line| &line.needs);
            needs.map(|need| need.reason).collect::<Vec<_>>()
        };
        assert!(reasons("2025-03-04").is_empty());
        // Five years are over ten days from now.
        let found = reasons("2021-03-14");
        let [
            ReorderReason::AtReorderPoint {
                free,
                expiring,
                position,
                ..
            },
        ] = found[..]
        else {
            panic!("{found:?}");
        };
        assert!(free.abs() < 1e-9 && position.abs() < 1e-9, "{found:?}");
        assert!((expiring - 9.0).abs() < 1e-9);
        let said = found[0].to_string();
        assert!(
            said.ends_with("; besides 9 that reach the end of their shelf life before an order could be here, not counted"),
            "{said}"
        );
    }
}
