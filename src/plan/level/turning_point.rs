//! The usage, lead time and downtime cost at which a level changes.

/// Factor up to which a change is looked for; beyond it none is near enough to matter.
const FARTHEST: f64 = 100.0;

/// Halvings between the nearest factor and the farthest: the result is right to better than 1 in 1,000.
const HALVINGS: usize = 22;

/// Values at which a level changes by one or more; `None` where no change is near.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TurningPoints {
    /// Factor on usage or lead time, above 1, from which on more is needed.
    pub more_from: Option<f64>,
    /// Factor on usage or lead time, below 1, from which on less is enough.
    pub less_from: Option<f64>,
    /// Price of an hour of waiting from which on more is kept, units of currency.
    pub more_from_price: Option<f64>,
    /// Price of an hour of waiting below which less is kept.
    pub less_from_price: Option<f64>,
}

/// Factors at which a level that rises with usage and lead time changes.
pub fn factors(level: i64, at: impl Fn(f64) -> Option<i64>) -> (Option<f64>, Option<f64>) {
    let changes = |factor: f64| at(factor).is_some_and(|found| found != level);
    let search = |far: f64| {
        if !changes(far) {
            return None;
        }
        let (mut same, mut changed) = (0.0, far.ln());
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(same, changed);
            if changes(middle.exp()) {
                changed = middle;
            } else {
                same = middle;
            }
        }
        Some(changed.exp())
    };
    (search(FARTHEST), search(1.0 / FARTHEST))
}

/// Prices of waiting, money a year, between which a level by cost holds.
///
/// `over` is the mean share of the time that a unit more would lie idle no less: the level holds while
/// `over <= h / (h + p)`, and one less does from there on.
pub fn prices(holding: f64, over: f64, over_one_less: f64) -> (Option<f64>, Option<f64>) {
    let price = |over: f64| (over > 1e-12 && over < 1.0).then(|| holding * (1.0 - over) / over);
    (price(over), price(over_one_less))
}
