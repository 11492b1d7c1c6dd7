//! The year ahead: two policies or two shops beside each other, with bands.

use super::runs::{Runs, ShopTotals};
use super::shop_year::{SEED, ShopYear};
use crate::catalogue::{PartId, Shop};
use crate::plan::shop_plan::Plan;

/// Replications of a small shop.
const MOST_REPLICATIONS: usize = 400;

/// Fewest replications that a band is read from.
const FEWEST_REPLICATIONS: usize = 20;

/// Part years of one policy in a report; a larger shop has fewer replications, the largest none.
const MOST_PART_YEARS: usize = 400_000;

/// What replications of one figure say.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Band {
    /// Mean.
    pub mean: f64,
    /// Standard error of the mean.
    pub standard_error: f64,
    /// Not exceeded in one year of ten.
    pub p10: f64,
    /// Not exceeded in every other year.
    pub p50: f64,
    /// Exceeded in one year of ten.
    pub p90: f64,
}

/// One machine before and after.
#[derive(Debug, Clone, PartialEq)]
pub struct MachineYear {
    /// Name.
    pub name: String,
    /// How many, after.
    pub installed: u32,
    /// False where no part with a level and no rebuild with a date is known to be used on it, before or after: its hours
    /// are then unknown, whatever the bands say.
    pub is_used: bool,
    /// True where nobody knows after the change how often one of its parts is used: its hours then are unknown.
    pub is_untold: bool,
    /// Production hours down a machine, before; `None` where it is new.
    pub before: Option<Band>,
    /// The same, after; `None` where it is gone.
    pub after: Option<Band>,
    /// After less before, the same luck in both; `None` where one of them is missing.
    pub change: Option<Band>,
}

/// Totals of the shop.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct YearOf {
    /// Production hours down.
    pub down_h: Band,
    /// Production hours that usages without a machine waited.
    pub unplaced_h: Band,
    /// Cost of the hours down.
    pub down_cost: Band,
    /// Share of usages whose whole quantity was on the shelf, over all replications.
    pub met_share: f64,
    /// Mean value of the stock.
    pub stock_value: Band,
    /// Orders placed.
    pub orders: Band,
    /// Surcharges of orders for which a machine waited, by the quickest way.
    pub surcharges: Band,
}

/// Two simulations of a year beside each other.
#[derive(Debug, Clone, PartialEq)]
pub struct YearAhead {
    /// Seed of the random numbers.
    pub seed: u64,
    /// Replications.
    pub replications: usize,
    /// Parts simulated.
    pub parts: usize,
    /// Parts that are used but not simulated, because no lead time or rate is known.
    pub left_out: Vec<PartId>,
    /// Parts that nobody sells after the change: simulated with what is there.
    pub lost: Vec<PartId>,
    /// Parts whose rate is known before the change and not after: sums over the shop are then unknown.
    pub untold: Vec<PartId>,
    /// Machines.
    pub machines: Vec<MachineYear>,
    /// The whole shop before.
    pub before: YearOf,
    /// The whole shop after.
    pub after: YearOf,
    /// After less before, the same luck in both.
    pub change: YearOf,
}

impl Band {
    /// Of replications; all zero for none.
    pub fn of(values: &[f64]) -> Self {
        if values.is_empty() {
            return Self::default();
        }
        let count = values.len() as f64;
        let mean = values.iter().sum::<f64>() / count;
        let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
        let mut sorted = values.to_vec();
        sorted.sort_by(f64::total_cmp);
        let at = |share: f64| sorted[((share * count).ceil() as usize).clamp(1, sorted.len()) - 1];
        Self {
            mean,
            standard_error: (squares / (count - 1.0).max(1.0) / count).sqrt(),
            p10: at(0.1),
            p50: at(0.5),
            p90: at(0.9),
        }
    }
}

impl YearOf {
    fn of(totals: &[ShopTotals]) -> Self {
        let band = |of: fn(&ShopTotals) -> f64| {
            let values: Vec<f64> = totals.iter().map(of).collect();
            Band::of(&values)
        };
        let sum = |of: fn(&ShopTotals) -> f64| totals.iter().map(of).sum::<f64>();
        Self {
            down_h: band(|of| of.down_h),
            unplaced_h: band(|of| of.unplaced_h),
            down_cost: band(|of| of.down_cost),
            met_share: sum(|of| of.met_whole) / sum(|of| of.usages).max(1.0),
            stock_value: band(|of| of.stock_value),
            orders: band(|of| of.orders),
            surcharges: band(|of| of.surcharges),
        }
    }
}

/// Puts two simulations with the same seed side by side.
pub fn compare(before: &Runs, after: &Runs, seed: u64, shop: &ShopYear) -> YearAhead {
    let mut names: Vec<&String> = after.machines.iter().map(|machine| &machine.name).collect();
    let gone = before.machines.iter().map(|machine| &machine.name);
    names.extend(gone.filter(|name| after.machines.iter().all(|of| of.name != **name)));
    let hours = |runs: &Runs, name: &str| {
        let at = runs.machines.iter().position(|of| of.name == name)?;
        let installed = f64::from(runs.machines[at].installed);
        let of = runs.down_h.iter().map(|down_h| down_h[at] / installed);
        Some((runs.machines[at].installed, of.collect::<Vec<f64>>()))
    };
    let machines = names.into_iter().map(|name| {
        let (was, is) = (hours(before, name), hours(after, name));
        let machines = [before, after].map(|runs| runs.machines.iter());
        let mut machines = machines.into_iter().flatten();
        let pair = was.as_ref().zip(is.as_ref());
        MachineYear {
            name: name.clone(),
            installed: is.as_ref().map_or(0, |(installed, _)| *installed),
            is_untold: shop.untold_machines.contains(name),
            is_used: machines.any(|of| of.name == *name && of.is_used),
            change: pair.map(|((_, was), (_, is))| Band::of(&less(is, was))),
            before: was.map(|(_, of)| Band::of(&of)),
            after: is.map(|(_, of)| Band::of(&of)),
        }
    });
    let (of_before, of_after) = (YearOf::of(&before.totals), YearOf::of(&after.totals));
    let changes: Vec<ShopTotals> = after
        .totals
        .iter()
        .zip(&before.totals)
        .map(|(after, before)| ShopTotals {
            down_h: after.down_h - before.down_h,
            unplaced_h: after.unplaced_h - before.unplaced_h,
            down_cost: after.down_cost - before.down_cost,
            usages: 0.0,
            met_whole: 0.0,
            stock_value: after.stock_value - before.stock_value,
            orders: after.orders - before.orders,
            surcharges: after.surcharges - before.surcharges,
        })
        .collect();
    YearAhead {
        seed,
        replications: after.totals.len(),
        parts: shop.parts.len(),
        left_out: shop.left_out.clone(),
        lost: shop.lost.clone(),
        untold: shop.untold.clone(),
        machines: machines.collect(),
        before: of_before,
        after: of_after,
        change: YearOf {
            met_share: of_after.met_share - of_before.met_share,
            ..YearOf::of(&changes)
        },
    }
}

fn less(after: &[f64], before: &[f64]) -> Vec<f64> {
    after.iter().zip(before).map(|(a, b)| a - b).collect()
}

/// Replications for a shop of so many parts; `None` where a report would wait too long for them.
pub fn replications_for(parts: usize) -> Option<usize> {
    let most = MOST_PART_YEARS / parts.max(1);
    (most >= FEWEST_REPLICATIONS).then(|| most.min(MOST_REPLICATIONS))
}

/// Today's levels against the planned ones; `None` for a shop that is too large for a report, or without levels.
pub fn year_ahead(shop: &Shop, plan: &Plan) -> Option<YearAhead> {
    if plan.levels.by_part.is_empty() {
        return None;
    }
    let replications = replications_for(plan.levels.by_part.len())?;
    let year = ShopYear::new(shop, plan);
    let today = Runs::new(&year, &year.today, SEED, replications);
    let planned = Runs::new(&year, &year.planned, SEED, replications);
    Some(compare(&today, &planned, SEED, &year))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::sample::{Sample, workdays};

    /// Parts of one press, each with its own usage, whose rows stand in this order.
    fn year(order: &[&str]) -> YearAhead {
        let mut sample = Sample::new("records_from = \"2021-03-04\"");
        sample.supplier("S", |_| {});
        sample.machine("M1", Some(50.0), None);
        for number in order {
            let part = sample.part(number);
            let months: &[u32] = match *number {
                "A" => &[2, 9],
                "B" => &[1, 3, 5, 7, 9, 11],
                _ => &[6],
            };
            sample.offer(part, "S", workdays(10.0 + months.len() as f64), |_| {});
            sample.stock(part, 2.0, |_| {});
            for year in 2021..2026 {
                for month in months {
                    let day = if year == 2021 && *month < 4 { 28 } else { 1 };
                    let month = (*month).max(if year == 2021 { 4 } else { 1 });
                    sample.usage(part, &format!("{year}-{month:02}-{day:02}"), 1.0);
                }
            }
        }
        let plan = sample.plan();
        year_ahead(&sample.built(), &plan).unwrap()
    }

    #[test]
    fn a_machine_that_nothing_ties_to_a_part_is_unknown_and_not_zero() {
        let mut sample = Sample::new("records_from = \"2021-03-04\"");
        sample.supplier("S", |_| {});
        for name in ["M1", "M2", "ST"] {
            sample.machine(name, Some(50.0), None);
        }
        let part = sample.part("A");
        sample.offer(part, "S", workdays(10.0), |_| {});
        for year in 2021..2026 {
            sample.usage(part, &format!("{year}-06-01"), 1.0);
            let usage = sample.shop.usages.last_mut().unwrap();
            usage.record.machine = Some("M2".into());
        }
        // The kit of M1 asks for a part that nobody offers; with a rebuild of the other one it has a place in the year.
        let unknown = sample.part("B");
        sample.kit("K");
        sample.line(Some(unknown), 1.0, &[], |_| {});
        let used = |sample: &Sample| {
            let year = year_ahead(&sample.built(), &sample.plan()).unwrap();
            let machines = year.machines.into_iter();
            let mut used: Vec<(String, bool)> = machines.map(|of| (of.name, of.is_used)).collect();
            used.sort();
            used.into_iter().map(|(_, used)| used).collect::<Vec<_>>()
        };
        assert_eq!(used(&sample), [false, true, false]);
        sample.line(Some(part), 1.0, &[], |_| {});
        sample.planned("2026-09-16");
        assert_eq!(used(&sample), [true, true, false]);
    }

    #[test]
    fn the_order_of_rows_changes_no_year_and_a_part_of_another_number_has_other_luck() {
        let figures = |year: &YearAhead| {
            let of = |of: &YearOf| {
                [
                    of.down_h.mean,
                    of.down_h.p90,
                    of.down_cost.mean,
                    of.unplaced_h.mean,
                    of.met_share,
                    of.stock_value.mean,
                    of.orders.mean,
                ]
            };
            [of(&year.before), of(&year.after)].concat()
        };
        let as_first = figures(&year(&["A", "B", "C"]));
        for order in [["B", "A", "C"], ["C", "B", "A"], ["B", "C", "A"]] {
            let again = figures(&year(&order));
            for (one, other) in as_first.iter().zip(&again) {
                // Sums in another order differ in their last digits.
                let scale = one.abs().max(1.0);
                assert!(
                    (one - other).abs() < 1e-9 * scale,
                    "{order:?}: {one} {other}"
                );
            }
        }
        assert!(as_first.iter().any(|figure| *figure > 0.0));
        // The third part as before, under another number.
        let renamed = figures(&year(&["A", "B", "D"]));
        assert_ne!(as_first, renamed);
    }
}
