//! Economic order quantities with waiting allowed, with price breaks, over dated demand, of lines that share an order.

use super::super::economic::economic_quantity;

/// A quantity with its cost a year, goods included where prices have breaks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EconomicQuantity {
    /// Units of an order.
    pub quantity: f64,
    /// Money a year.
    pub cost: f64,
}

/// Economic quantity where demand may wait at `waiting_cost` money a unit and year, and the share that waits.
///
/// # Source
/// Snyder & Shen, section 3.5: `sqrt(2 D K (h + p) / (h p))`, share `h / (h + p)`.
pub fn economic_quantity_with_waiting(
    yearly: f64,
    order_cost: f64,
    holding_cost: f64,
    waiting_cost: f64,
) -> (EconomicQuantity, f64) {
    let both = holding_cost + waiting_cost;
    let product = holding_cost * waiting_cost;
    let quantity = (2.0 * yearly * order_cost * both / (product)).sqrt();
    let cost = (2.0 * yearly * order_cost * product / both).sqrt();
    (EconomicQuantity { quantity, cost }, holding_cost / both)
}

/// Cheapest quantity where the price of the whole order depends on its quantity: `(from, price)`, smallest first.
///
/// # Units
/// `holding_share` of the price a year.
/// # Source
/// Snyder & Shen, section 3.4.1 (all-units discounts): the economic quantity of each price where it may be bought at it,
/// else the break.
pub fn with_all_units_breaks(
    yearly: f64,
    order_cost: f64,
    holding_share: f64,
    breaks: &[(f64, f64)],
) -> Option<EconomicQuantity> {
    let candidates = breaks.iter().enumerate().filter_map(|(at, (from, price))| {
        let holding = holding_share * price;
        let free = economic_quantity(yearly, order_cost, holding)?;
        let quantity = free.max(*from);
        if breaks
            .get(at + 1)
            .is_some_and(|(next, _)| quantity >= *next)
        {
            return None;
        }
        let cost = yearly * price + order_cost * yearly / quantity + holding * quantity / 2.0;
        Some(EconomicQuantity { quantity, cost })
    });
    candidates.min_by(|a, b| a.cost.total_cmp(&b.cost))
}

/// Cheapest quantity where each price holds for the units between its break and the next.
///
/// # Source
/// Snyder & Shen, section 3.4.2 (incremental discounts).
pub fn with_incremental_breaks(
    yearly: f64,
    order_cost: f64,
    holding_share: f64,
    breaks: &[(f64, f64)],
) -> Option<EconomicQuantity> {
    let mut above = 0.0;
    let mut candidates = Vec::new();
    for (at, (from, price)) in breaks.iter().enumerate() {
        // Money paid above this price for the units below the break.
        if let Some((_, before)) = at.checked_sub(1).and_then(|at| breaks.get(at)) {
            above += from * (before - price);
        }
        let holding = holding_share * price;
        let Some(quantity) = economic_quantity(yearly, order_cost + above, holding) else {
            continue;
        };
        let next = breaks.get(at + 1).map_or(f64::INFINITY, |(next, _)| *next);
        if quantity < *from || quantity >= next {
            continue;
        }
        let cost = yearly * price
            + (order_cost + above) * yearly / quantity
            + holding * quantity / 2.0
            + holding_share * above / 2.0;
        candidates.push(EconomicQuantity { quantity, cost });
    }
    candidates
        .into_iter()
        .min_by(|a, b| a.cost.total_cmp(&b.cost))
}

/// Orders that meet dated demands at the least cost of orders and holding; one quantity a period.
///
/// # Units
/// `holding_cost` money a unit and period.
/// # Source
/// Wagner & Whitin, Dynamic version of the economic lot size model, Management Science 5:89-96 (1958); Snyder & Shen,
/// section 3.7.
pub fn dated_orders(demands: &[f64], order_cost: f64, holding_cost: f64) -> (Vec<f64>, f64) {
    let periods = demands.len();
    let mut best = vec![(0.0_f64, periods); periods + 1];
    for from in (0..periods).rev() {
        let mut holding = 0.0;
        best[from] = (f64::INFINITY, periods);
        for until in from + 1..=periods {
            holding += holding_cost * (until - 1 - from) as f64 * demands[until - 1];
            let cost = order_cost + holding + best[until].0;
            if cost < best[from].0 {
                best[from] = (cost, until);
            }
        }
    }
    let mut orders = vec![0.0; periods];
    let mut from = 0;
    while from < periods {
        let until = best[from].1;
        orders[from] = demands[from..until].iter().sum();
        from = until;
    }
    (orders, best[0].0)
}

/// A line of an order that several lines share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SharedLine {
    /// Cost of adding this line to an order.
    pub line_cost: f64,
    /// Holding cost, money a unit and period.
    pub holding_cost: f64,
    /// Units used a period.
    pub rate: f64,
}

/// Time between orders and how many of them each line skips, with the cost a period.
///
/// # Source
/// Silver, A simple method of determining order quantities in joint replenishments, Management Science 22:1351-1361
/// (1976).
pub fn shared_orders(order_cost: f64, lines: &[SharedLine]) -> Option<(f64, Vec<f64>, f64)> {
    let ratio = |line: &SharedLine| line.line_cost / (line.holding_cost * line.rate);
    let leader = lines.iter().min_by(|a, b| ratio(a).total_cmp(&ratio(b)))?;
    let scale = leader.holding_cost * leader.rate / (order_cost + leader.line_cost);
    let multiples: Vec<f64> = lines
        .iter()
        .map(|line| {
            if std::ptr::eq(line, leader) {
                1.0
            } else {
                (ratio(line) * scale).sqrt().round().max(1.0)
            }
        })
        .collect();
    let both = || lines.iter().zip(&multiples);
    let fixed = order_cost
        + both()
            .map(|(line, each)| line.line_cost / each)
            .sum::<f64>();
    let held: f64 = both()
        .map(|(line, each)| line.holding_cost * line.rate * each)
        .sum();
    let between = (2.0 * fixed / held).sqrt();
    Some((between, multiples, fixed / between + between * held / 2.0))
}
