//! One price of a stock-out for the whole shop: each part gets its own level from it.

use std::sync::Arc;

use super::budget::{BudgetItem, best_set};
use super::demand_table::DemandTable;
use super::ending::{Ending, EndingService, InLeadTime};
use super::job_steps::{JobSteps, steps_that_save_most};
use super::reorder_quantity::{reorder_point_by_cost, unit_fill_of_sizes};
use crate::parallel;

/// Least and most price that a sweep looks at, as factors of the downtime cost.
pub(super) const FACTORS: (f64, f64) = (1e-9, 1e6);

/// Halvings of the sweep; the range above is then divided more finely than a double can tell.
const HALVINGS: usize = 60;

/// A part whose reorder point follows from the price.
#[derive(Debug, Clone)]
pub struct PricedPart {
    /// Demand in the lead time.
    pub table: Arc<DemandTable>,
    /// Jobs that wait, of a part whose usages take several units at a time; `None` where as many wait as units do.
    pub jobs: Option<Arc<JobSteps>>,
    /// Units that usages take (size, share); empty: 1 unit.
    pub sizes: Vec<(u32, f64)>,
    /// Units of an order.
    pub quantity: i64,
    /// Price of a unit, money.
    pub price: f64,
    /// Holding a unit, money a year.
    pub holding: f64,
    /// An hour of waiting at a factor of 1, money.
    pub waiting_per_h: f64,
    /// Hours of a year in which waiting counts.
    pub year_h: f64,
    /// Usages a year, weighted by criticality.
    pub weighted_yearly: f64,
    /// Share of units that the coming year finds with a reorder point of -1 and a shelf that is empty now; `None` where it is
    /// not, so that the long run tells it.
    pub fill_if_none: Option<f64>,
    /// Stock that ends on the shelf; `None` where as good as none does.
    pub ending: Option<Arc<Ending>>,
}

/// What one price gives for the whole shop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurvePoint {
    /// Price of an hour of waiting, as a factor of each machine's downtime cost.
    pub factor: f64,
    /// Value of the stock when everything is there, half-way between the minimum stock and a whole order above the reorder
    /// point, money.
    pub stock_value: f64,
    /// Share of weighted usages met from the shelf.
    pub fill_share: f64,
    /// Hours of waiting a year over all parts.
    pub waiting_h: f64,
    /// Cost of these hours at a factor of 1, money a year.
    pub waiting_cost: f64,
}

impl PricedPart {
    /// Reorder point at a price.
    pub fn reorder_point(&self, factor: f64) -> i64 {
        let waiting = factor * self.waiting_per_h * self.year_h;
        if let Some(ending) = &self.ending {
            return ending.reorder_point(self.holding, self.price, waiting);
        }
        if let Some(jobs) = &self.jobs {
            return jobs.reorder_point(waiting / self.holding);
        }
        reorder_point_by_cost(&self.table, self.quantity, self.holding, waiting)
    }

    /// Reorder point at a price if nothing that ends on the shelf were lost.
    pub fn reorder_point_without_waste(&self, factor: f64) -> Option<i64> {
        let waiting = factor * self.waiting_per_h * self.year_h;
        let ending = self.ending.as_ref()?;
        Some(ending.reorder_point(self.holding, 0.0, waiting))
    }

    /// Measures of a reorder point where stock ends on the shelf; `None` where as good as none does.
    fn ending_at(&self, reorder_point: i64) -> Option<EndingService> {
        let lead = InLeadTime {
            table: &self.table,
            jobs: self.jobs.as_deref(),
        };
        Some(self.ending.as_ref()?.at(reorder_point, lead))
    }

    /// Share of units met from the shelf, 0 or more.
    pub fn fill(&self, reorder_point: i64) -> f64 {
        let long_run = match self.ending_at(reorder_point) {
            Some(of) => 1.0 - of.units_without,
            None => {
                unit_fill_of_sizes(&self.table, reorder_point, self.quantity, &self.sizes).max(0.0)
            }
        };
        match self.fill_if_none {
            Some(of_year) if reorder_point < 0 => long_run.min(of_year),
            _ => long_run,
        }
    }

    /// Usages that wait at a random moment, each until it has all it takes: so long an hour of waiting stops its machine.
    pub fn waiting(&self, reorder_point: i64) -> f64 {
        if let Some(of) = self.ending_at(reorder_point) {
            return of.jobs_waiting;
        }
        if let Some(jobs) = &self.jobs {
            return jobs.waiting(reorder_point);
        }
        let (first, last) = (reorder_point + 1, reorder_point + self.quantity);
        self.table.shortfall_sum(first, last) / self.quantity as f64
    }

    /// Units not waited for that the unit that makes this the reorder point saves: it is in use so much of the time.
    fn in_use(&self, reorder_point: i64) -> f64 {
        // The positions of one less, and those of this one: only the ends differ.
        let fewer = self.table.shortfall(reorder_point)
            - self.table.shortfall(reorder_point + self.quantity);
        fewer / self.quantity as f64
    }

    /// What the unit that makes this the reorder point saves a year at a factor of 1.
    pub(super) fn gain(&self, reorder_point: i64) -> f64 {
        if self.ending.is_some() {
            let fewer = self.waiting(reorder_point - 1) - self.waiting(reorder_point);
            return fewer.max(0.0) * self.waiting_per_h * self.year_h;
        }
        let fewer = self.jobs.as_ref().map_or_else(
            || self.in_use(reorder_point),
            |jobs| jobs.waiting_fewer(reorder_point),
        );
        fewer * self.waiting_per_h * self.year_h
    }

    /// Price above which the unit that makes this the reorder point is kept, as a factor of the downtime cost.
    ///
    /// It saves waiting for the share of the time in which it is in use, and is held for the rest: what
    /// [`reorder_point`](Self::reorder_point) weighs.
    pub fn pays_from(&self, reorder_point: i64) -> f64 {
        self.step_pays_from(reorder_point - 1, (1, self.gain(reorder_point)))
    }

    /// The same of several units above a reorder point that gain so much together.
    fn step_pays_from(&self, above: i64, (units, gain): (i64, f64)) -> f64 {
        self.held_more(above, units) / gain
    }

    /// What some units above a reorder point cost more a year, as far as they are not in use, with what ends of them.
    pub(super) fn held_more(&self, above: i64, units: i64) -> f64 {
        if let Some((less, more)) = self.ending_at(above).zip(self.ending_at(above + units)) {
            let held = self.holding * (more.on_hand - less.on_hand);
            return self
                .price
                .mul_add(more.expired - less.expired, held)
                .max(0.0);
        }
        let points = above + 1..=above + units;
        let held: f64 = points.map(|point| 1.0 - self.in_use(point)).sum();
        self.holding * held.max(0.0)
    }

    /// Units that are bought one after another between two reorder points, and what they gain a year at a factor of 1: one by
    /// one, and several at once where usages take several.
    fn steps(&self, range: BudgetRange) -> Vec<(i64, f64)> {
        if self.ending.is_some() {
            let gains = (range.least + 1..=range.most).map(|point| self.gain(point));
            return steps_that_save_most(gains);
        }
        match &self.jobs {
            None => (range.least + 1..=range.most)
                .map(|reorder_point| (1, self.gain(reorder_point)))
                .take_while(|(_, gain)| *gain > 0.0)
                .collect(),
            Some(jobs) => jobs
                .steps_between(range.least, range.most)
                .into_iter()
                .map(|(units, fewer)| (units, fewer * self.waiting_per_h * self.year_h))
                .collect(),
        }
    }

    /// Value of the part's stock: the mean of the positions above the reorder point, one to a whole order above it; never below 0.
    pub fn stock_value(&self, reorder_point: i64) -> f64 {
        self.price * (reorder_point as f64 + (self.quantity as f64 + 1.0) / 2.0).max(0.0)
    }
}

/// Measures of the shop for reorder points of its parts.
pub fn measure(parts: &[PricedPart], reorder_points: &[i64], factor: f64) -> CurvePoint {
    let mut sums = Sums::at(factor);
    // Summed in the order of the parts, so that the same shop gives the same figures on any number of cores.
    for (part, reorder_point) in parts.iter().zip(reorder_points) {
        sums.add(part, &Kept::of(part, *reorder_point));
    }
    sums.point()
}

/// What a part does at a reorder point.
#[derive(Debug, Clone, Copy)]
struct Kept {
    reorder_point: i64,
    waiting: f64,
    fill: f64,
}

impl Kept {
    fn of(part: &PricedPart, reorder_point: i64) -> Self {
        Self {
            reorder_point,
            waiting: part.waiting(reorder_point),
            fill: part.fill(reorder_point),
        }
    }
}

/// Measures of the shop, one part after another.
#[derive(Debug, Clone, Copy)]
struct Sums {
    point: CurvePoint,
    weights: f64,
}

impl Sums {
    const fn at(factor: f64) -> Self {
        Self {
            point: CurvePoint {
                factor,
                stock_value: 0.0,
                fill_share: 0.0,
                waiting_h: 0.0,
                waiting_cost: 0.0,
            },
            weights: 0.0,
        }
    }

    fn add(&mut self, part: &PricedPart, kept: &Kept) {
        let waiting_h = kept.waiting * part.year_h;
        self.point.stock_value += part.stock_value(kept.reorder_point);
        self.point.waiting_h += waiting_h;
        self.point.waiting_cost += waiting_h * part.waiting_per_h;
        self.point.fill_share += part.weighted_yearly * kept.fill;
        self.weights += part.weighted_yearly;
    }

    fn point(mut self) -> CurvePoint {
        if self.weights > 0.0 {
            self.point.fill_share /= self.weights;
        }
        self.point
    }
}

/// Reorder points of all parts at one price.
pub fn reorder_points(parts: &[PricedPart], factor: f64) -> Vec<i64> {
    parallel::each(parts, |part| part.reorder_point(factor))
}

/// Smallest price at which the share of weighted usages met from the shelf reaches the target.
pub fn factor_for_service(parts: &[PricedPart], target_share: f64) -> f64 {
    let weights: f64 = parts.iter().map(|part| part.weighted_yearly).sum();
    // Each part's reorder point, and the weighted usages a year that it meets.
    let met_at = |part: &PricedPart, point: i64| (point, part.weighted_yearly * part.fill(point));
    let at = |factor: f64| -> Vec<(i64, f64)> {
        parallel::each(parts, |part| met_at(part, part.reorder_point(factor)))
    };
    let reaches = |met: &[(i64, f64)]| {
        weights <= 0.0 || met.iter().map(|(_, met)| met).sum::<f64>() >= target_share * weights
    };
    let (mut low, mut high) = (FACTORS.0.ln(), FACTORS.1.ln());
    let (mut met_low, mut met_high) = (at(low.exp()), at(high.exp()));
    let mut open: Vec<usize> = (0..parts.len()).collect();
    for _ in 0..HALVINGS {
        // A reorder point never falls as the price rises: where both ends agree, all between them do.
        open.retain(|part| met_low[*part].0 != met_high[*part].0);
        let middle = f64::midpoint(low, high);
        let factor = middle.exp();
        let between = parallel::each(&open, |part| {
            let (low, high) = (met_low[*part], met_high[*part]);
            match parts[*part].reorder_point(factor) {
                point if point == low.0 => low,
                point if point == high.0 => high,
                point => met_at(&parts[*part], point),
            }
        });
        let mut met = met_low.clone();
        for (part, of_part) in open.iter().zip(between) {
            met[*part] = of_part;
        }
        if reaches(&met) {
            (high, met_high) = (middle, met);
        } else {
            (low, met_low) = (middle, met);
        }
    }
    high.exp()
}

/// How far a sum of money may go on one part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BudgetRange {
    /// Reorder point that is kept in any case: -1, or that of a planner's own figure.
    pub least: i64,
    /// Reorder point beyond which no unit pays; `least` where the planner's figure stands.
    pub most: i64,
}

impl BudgetRange {
    /// Of a part of which any number may be kept, up to what its downtime in full pays.
    ///
    /// Where no hour has a cost, nobody can say what pays: up to a minute of waiting saved a year.
    pub fn of(part: &PricedPart, is_hour_priced: bool) -> Self {
        let most = if is_hour_priced {
            part.reorder_point(1.0)
        } else {
            let all = Self {
                least: -1,
                most: part.table.end() - 1,
            };
            let minute = part.waiting_per_h / 60.0;
            let steps = part.steps(all).into_iter();
            let enough = steps.take_while(|(units, gain)| *gain >= minute * *units as f64);
            all.least + enough.map(|(units, _)| units).sum::<i64>()
        };
        Self { least: -1, most }
    }

    /// Of a part of which a planner keeps at least so many.
    pub fn from(self, own: i64) -> Self {
        Self {
            least: own,
            most: self.most.max(own),
        }
    }

    /// Of a part of which a planner keeps just so many.
    pub const fn just(own: i64) -> Self {
        Self {
            least: own,
            most: own,
        }
    }
}

/// Whole amounts to a unit of money in the search for a budget: hundredths of a cent, in which small parts have a price.
const AMOUNTS: f64 = 10_000.0;

/// The best that a sum of money does.
#[derive(Debug, Clone, PartialEq)]
pub struct ForBudget {
    /// Reorder points.
    pub reorder_points: Vec<i64>,
    /// The highest price of an hour whose levels the sum pays for, as a factor of each machine's downtime cost; it never
    /// falls as the sum rises. What it leaves goes into units that pay at a higher price only, so that the levels are not
    /// all those of this price.
    pub factor: f64,
    /// True where every unit that pays is there, so that money may be left.
    pub is_all_that_pays: bool,
    /// What is tied up whatever the sum: half of each order and planners' own figures, money.
    pub least: f64,
}

/// Reorder points that save most waiting for a sum of money, each within its range.
pub fn reorder_points_for_budget(
    parts: &[PricedPart],
    ranges: &[BudgetRange],
    budget: f64,
) -> ForBudget {
    let both = || parts.iter().zip(ranges);
    let least: f64 = both()
        .map(|(part, range)| part.stock_value(range.least))
        .sum();
    let steps: Vec<Vec<(i64, f64)>> = both().map(|(part, range)| part.steps(*range)).collect();
    let priced = parts.iter().zip(&steps);
    let items: Vec<BudgetItem> = priced
        .map(|(part, steps)| BudgetItem {
            cents: (part.price * AMOUNTS).round() as i64,
            gains: steps.iter().map(|(_, gain)| *gain).collect(),
            units: steps.iter().map(|(units, _)| *units).collect(),
        })
        .collect();
    // A sum that is just enough is enough, whatever its last bit.
    let left = ((budget - least).max(0.0) * AMOUNTS + 1e-4).floor() as i64;
    let set = best_set(&items, left);
    let chosen = || both().zip(items.iter().zip(&set.units));
    let prices = both().zip(&items).flat_map(|((part, range), item)| {
        let mut above = range.least;
        let steps = item.units.iter().zip(&item.gains);
        steps.map(move |(units, gain)| {
            let pays_from = part.step_pays_from(above, (*units, *gain));
            above += units;
            (pays_from, units * item.cents)
        })
    });
    ForBudget {
        factor: highest_price(prices.collect(), left),
        reorder_points: chosen()
            .map(|((_, range), (_, units))| range.least + units)
            .collect(),
        is_all_that_pays: chosen()
            .all(|(_, (item, units))| *units == item.units.iter().sum::<i64>()),
        least,
    }
}

/// The highest price whose units a sum of cents pays for; `steps` are the price above which each step is kept, and its cents.
fn highest_price(mut steps: Vec<(f64, i64)>, mut cents: i64) -> f64 {
    /// A unit is kept above its price, not at it.
    const ABOVE: f64 = 1.0 + 1e-9;
    steps.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut highest = 0.0;
    for (price, unit_cents) in steps {
        cents -= unit_cents;
        if cents < 0 {
            break;
        }
        highest = price;
    }
    highest * ABOVE
}

/// The curve of service against money: from next to nothing to the full downtime cost and beyond.
///
/// `held` says what is kept of the part at a position in `parts` where its price gives a reorder point: a planner's own
/// figure, or that point. It may not fall as the point rises.
pub fn curve(
    parts: &[PricedPart],
    held: impl Fn(usize, i64) -> i64 + Send + Sync,
) -> Vec<CurvePoint> {
    const POWERS: std::ops::RangeInclusive<i32> = -12..=2;
    /// Parts that are measured before their figures are added up: what stands between is small.
    const AT_ONCE: usize = 4096;
    let mut sums: Vec<Sums> = POWERS
        .map(|power| Sums::at(10.0_f64.powf(f64::from(power) / 2.0)))
        .collect();
    let factors: Vec<f64> = sums.iter().map(|sums| sums.point.factor).collect();
    let numbered: Vec<(usize, &PricedPart)> = parts.iter().enumerate().collect();
    for some in numbered.chunks(AT_ONCE) {
        let kept = parallel::each(some, |(at, part)| {
            let mut last: Option<Kept> = None;
            let each = factors.iter().map(|factor| {
                let point = held(*at, part.reorder_point(*factor));
                let kept = last.filter(|last| last.reorder_point == point);
                *last.insert(kept.unwrap_or_else(|| Kept::of(part, point)))
            });
            each.collect::<Vec<Kept>>()
        });
        for ((_, part), of_part) in some.iter().zip(&kept) {
            for (sums, kept) in sums.iter_mut().zip(of_part) {
                sums.add(part, kept);
            }
        }
    }
    let measured = sums.into_iter().map(Sums::point);
    let mut points: Vec<CurvePoint> = Vec::new();
    for point in measured {
        let is_new = points
            .last()
            .is_none_or(|last| (last.stock_value - point.stock_value).abs() > 0.005);
        if is_new {
            points.push(point);
        } else if (point.factor - 1.0).abs() < 1e-9 {
            // The same stock: of these prices the downtime in full is the one that is looked for.
            points.pop();
            points.push(point);
        }
    }
    points
}
