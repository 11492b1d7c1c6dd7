//! Reorder points and quantities for fast movers, demand taken as normal: approximations beside which the exact
//! figures stand.

use statrs::distribution::{Continuous, ContinuousCDF, Normal};

use super::super::economic::economic_quantity;
use super::economic::economic_quantity_with_waiting;

/// Steps until a fixed point counts as not found.
const MOST_STEPS: usize = 10_000;

/// Demand and money of a fast mover.
///
/// # Units
/// Rates and money in the same time unit as `lead_time`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NormalPart {
    /// Units used.
    pub mean: f64,
    /// Standard deviation of that.
    pub sd: f64,
    /// Lead time.
    pub lead_time: f64,
    /// A unit on the shelf.
    pub holding: f64,
    /// A unit short: once for each where expected shortages are counted, else for the time it waits.
    pub short: f64,
    /// One order.
    pub order: f64,
}

impl NormalPart {
    fn lead_time_demand(&self) -> (f64, f64) {
        (self.mean * self.lead_time, self.sd * self.lead_time.sqrt())
    }

    fn standard(&self, units: f64) -> f64 {
        let (mean, sd) = self.lead_time_demand();
        (units - mean) / sd
    }

    /// Expected demand beyond `units`.
    pub fn shortfall(&self, units: f64) -> Option<f64> {
        let normal = Normal::new(0.0, 1.0).ok()?;
        let z = self.standard(units);
        Some(self.lead_time_demand().1 * (normal.pdf(z) - z * normal.sf(z)))
    }

    /// Half the expected square of the demand beyond `units`.
    fn second_shortfall(&self, units: f64) -> Option<f64> {
        let normal = Normal::new(0.0, 1.0).ok()?;
        let z = self.standard(units);
        let sd = self.lead_time_demand().1;
        Some(sd * sd / 2.0 * ((z * z + 1.0) * normal.sf(z) - z * normal.pdf(z)))
    }

    /// Reorder point, quantity and cost where every unit short costs once, found as a fixed point.
    ///
    /// # Source
    /// Hadley & Whitin's expected-inventory-level approximation (Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd
    /// ed., 2019, Example 5.2): `1 - F(r) = Q h / (p D)`, `Q = sqrt(2 D (K + p n(r)) / h)`.
    pub fn by_units_short(&self) -> Option<(f64, f64, f64)> {
        let normal = Normal::new(0.0, 1.0).ok()?;
        let (mean, sd) = self.lead_time_demand();
        let mut quantity = economic_quantity(self.mean, self.order, self.holding)?;
        let mut reorder_point = f64::NEG_INFINITY;
        for _ in 0..MOST_STEPS {
            let over = quantity * self.holding / (self.short * self.mean);
            if over >= 1.0 {
                return None;
            }
            let point = mean - sd * normal.inverse_cdf(over);
            let short = self.shortfall(point)?;
            let next = economic_quantity(self.mean, self.order + self.short * short, self.holding)?;
            let moved = (next - quantity).abs() + (point - reorder_point).abs();
            (quantity, reorder_point) = (next, point);
            if moved < 1e-11 * quantity {
                let short = self.shortfall(point)?;
                let cost = self.holding * (point - mean + quantity / 2.0)
                    + (self.order + self.short * short) * self.mean / quantity;
                return Some((reorder_point, quantity, cost));
            }
        }
        None
    }

    /// The economic quantity with waiting, and the best reorder point for it.
    ///
    /// # Source
    /// Snyder & Shen, Example 5.4 (EOQB): r where the cost rates at r and r + Q are equal.
    pub fn by_economic_quantity(&self) -> Option<(f64, f64)> {
        let (economic, _) =
            economic_quantity_with_waiting(self.mean, self.order, self.holding, self.short);
        let quantity = economic.quantity;
        let (mean, _) = self.lead_time_demand();
        let rate = |units: f64| -> Option<f64> {
            let both = self.holding + self.short;
            Some(self.holding * (units - mean) + both * self.shortfall(units)?)
        };
        bisect(
            |point| Some(rate(point + quantity)? - rate(point)?),
            mean - 2.0 * quantity - 20.0 * self.lead_time_demand().1,
            mean + 20.0 * self.lead_time_demand().1,
        )
        .map(|point| (point, quantity))
    }

    /// The plain economic quantity, and a safety stock by the critical ratio.
    ///
    /// # Source
    /// Snyder & Shen, Example 5.5 (EOQ and safety stock).
    pub fn by_safety_stock(&self) -> Option<(f64, f64)> {
        let normal = Normal::new(0.0, 1.0).ok()?;
        let (mean, sd) = self.lead_time_demand();
        let z = normal.inverse_cdf(self.short / (self.short + self.holding));
        let quantity = economic_quantity(self.mean, self.order, self.holding)?;
        Some((z.mul_add(sd, mean), quantity))
    }

    /// Reorder point and quantity by loss functions of first and second order, found as a fixed point.
    ///
    /// # Source
    /// Snyder & Shen, section 5.3 (loss-function approximation): `n(r) = h Q / (h + p)`,
    /// `Q = sqrt(2 (K D + (h + p) n2(r)) / h)`.
    pub fn by_loss_function(&self) -> Option<(f64, f64)> {
        let (mean, sd) = self.lead_time_demand();
        let both = self.holding + self.short;
        let mut quantity = economic_quantity(self.mean, self.order, self.holding)?;
        let mut reorder_point = f64::NEG_INFINITY;
        for _ in 0..MOST_STEPS {
            let aim = self.holding * quantity / both;
            let point = bisect(
                |point| Some(aim - self.shortfall(point)?),
                mean - aim - 20.0 * sd,
                mean + 20.0 * sd,
            )?;
            let second = both * self.second_shortfall(point)?;
            let next = (2.0 * (self.order * self.mean + second) / self.holding).sqrt();
            let moved = (next - quantity).abs() + (point - reorder_point).abs();
            (quantity, reorder_point) = (next, point);
            if moved < 1e-11 * quantity {
                return Some((reorder_point, quantity));
            }
        }
        None
    }
}

/// Where a rising function is 0, between two bounds.
fn bisect(f: impl Fn(f64) -> Option<f64>, low: f64, high: f64) -> Option<f64> {
    let (mut low, mut high) = (low, high);
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if f(middle)? < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(f64::midpoint(low, high))
}
