//! The economic order quantity, and the cheapest whole number of units at it.

/// Economic order quantity `sqrt(2 D K / (h c))`.
///
/// # Units
/// `yearly` in units a year, `order_cost` in money an order, `holding_cost` in money a unit and year.
/// # Source
/// Harris, How many parts to make at once (1913); Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed., 2019,
/// section 3.2.
pub fn economic_quantity(yearly: f64, order_cost: f64, holding_cost: f64) -> Option<f64> {
    (holding_cost > 0.0).then(|| (2.0 * yearly * order_cost / holding_cost).sqrt())
}

/// Cheapest whole number of units at an economic quantity: the smallest Q with `Q (Q + 1) >= EOQ^2`.
///
/// Ordering and holding cost `E / Q + Q` for E = EOQ^2, up to a factor, so that one more pays while `E > Q (Q + 1)`.
pub fn whole_economic_quantity(economic: f64) -> f64 {
    let square = economic * economic;
    // The positive root of Q (Q + 1) = E; a hair below it a whole root is not rounded up.
    ((0.25 + square).sqrt() - 0.5 - 1e-9).ceil().max(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_whole_quantity_is_the_cheapest_of_all() {
        for economic in [
            0.2, 0.9, 1.054, 1.4, 1.42, 2.0, 2.44, 2.46, 7.07, 7.49, 19.5, 333.3,
        ] {
            let cost = |quantity: f64| economic * economic / quantity + quantity;
            let best = (1..1000)
                .map(f64::from)
                .min_by(|a, b| cost(*a).total_cmp(&cost(*b)))
                .unwrap();
            let found = whole_economic_quantity(economic);
            assert!(
                (cost(found) - cost(best)).abs() < 1e-9,
                "{economic}: {found} {best}"
            );
        }
        // 1,800 each, eight a year, 25 an order, a fifth a year: 1 costs 200 + 180, 2 cost 100 + 360.
        let economic = economic_quantity(8.0, 25.0, 360.0).unwrap();
        assert!((whole_economic_quantity(economic) - 1.0).abs() < 1e-9);
    }
}
