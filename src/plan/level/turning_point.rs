//! The usage, lead time and downtime cost at which a level changes.

/// Factor up to which a change is looked for; beyond it none is near enough to matter.
const FARTHEST: f64 = 100.0;

/// Difference of the logarithms of two factors that no printed figure shows.
const NO_DIFFERENCE: f64 = 1e-7;

/// The same where each factor takes a whole demand counted out anew: a tenth of the last figure printed.
const LITTLE_DIFFERENCE: f64 = 1e-4;

/// Steps of a search; halving alone would be done after 26.
const MOST_STEPS: usize = 60;

/// Share below which no logarithm is taken.
const LEAST_SHARE: f64 = 1e-300;

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
///
/// `over` is the share of the time in which a level is exceeded, at a factor, and `limit` the most of it that the rule
/// takes: more is needed from where the level's own share is above the limit, less is enough from where that of one less
/// is not. `None` where the share is not known.
pub fn factors(
    over: impl Fn(f64) -> Option<f64>,
    over_one_less: impl Fn(f64) -> Option<f64>,
    limit: f64,
) -> (Option<f64>, Option<f64>) {
    let more = changes_from(&[FARTHEST], NO_DIFFERENCE, |factor| {
        excess(over(factor)?, limit)
    });
    let less = changes_from(&[1.0 / FARTHEST], NO_DIFFERENCE, |factor| {
        // At the limit itself one less is enough, so that the sign is turned and 0 counts.
        Some(-excess(over_one_less(factor)?, limit)?)
            .map(|left| if left == 0.0 { f64::MIN_POSITIVE } else { left })
    });
    (more, less)
}

/// The same where functions tell by how much more pays at a factor, and by how much less does; at 0 less is enough.
///
/// Nearer factors are looked at first: at the farthest a demand may be long to count out.
pub fn factors_where(
    more_pays: impl Fn(f64) -> Option<f64>,
    less_pays: impl Fn(f64) -> Option<f64>,
) -> (Option<f64>, Option<f64>) {
    const FAR: [f64; 4] = [1.5, 4.0, 20.0, FARTHEST];
    let more = changes_from(&FAR, LITTLE_DIFFERENCE, more_pays);
    let less = changes_from(&FAR.map(f64::recip), LITTLE_DIFFERENCE, |factor| {
        less_pays(factor).map(|left| if left == 0.0 { f64::MIN_POSITIVE } else { left })
    });
    (more, less)
}

/// How far a share is above the limit, by the logarithm, on which shares of rare demand are nearly straight lines.
fn excess(over: f64, limit: f64) -> Option<f64> {
    (over.is_finite() && limit > 0.0).then(|| over.max(LEAST_SHARE).ln() - limit.ln())
}

/// The factor nearest to 1 at which a function rises above 0, between 1 and the last of some farther and farther ones; `None`
/// where it is above 0 at none of them.
///
/// # Source
/// Inverse quadratic interpolation where the last three points allow it, else halving (Chandrupatla, Advances in Engineering
/// Software 28:145-149, 1997), on the logarithm of the factor.
fn changes_from(
    fars: &[f64],
    no_difference: f64,
    above: impl Fn(f64) -> Option<f64>,
) -> Option<f64> {
    let mut same = Point {
        at: 0.0,
        value: above(1.0)?,
    };
    if same.value > 0.0 {
        return Some(1.0);
    }
    let point = |at: f64| {
        Some(Point {
            at,
            value: above(at.exp())?,
        })
    };
    let mut changed = None;
    for far in fars {
        let reached = point(far.ln())?;
        if reached.value > 0.0 {
            changed = Some(reached);
            break;
        }
        same = reached;
    }
    // The newest point, and the one on the other side of 0.
    let (mut newest, mut other) = (changed?, same);
    let mut share = newest.value / (newest.value - other.value);
    for _ in 0..MOST_STEPS {
        let width = (other.at - newest.at).abs();
        if width < no_difference {
            break;
        }
        // Kept off the ends by what does not show, so that the bracket closes from both sides.
        let least = (0.5 * no_difference / width).min(0.5);
        let share_kept = share.clamp(least, 1.0 - least);
        let next = point(newest.at + share_kept * (other.at - newest.at))?;
        let left = if (next.value > 0.0) == (newest.value > 0.0) {
            newest
        } else {
            std::mem::replace(&mut other, newest)
        };
        newest = next;
        share = next_share(newest, other, left);
    }
    let end = if newest.value > 0.0 { newest } else { other };
    Some(end.at.exp())
}

/// A function at one place.
#[derive(Debug, Clone, Copy)]
struct Point {
    at: f64,
    value: f64,
}

/// How far the next point lies from the newest towards the one on the other side of 0; `left` is the last that was left.
fn next_share(newest: Point, other: Point, left: Point) -> f64 {
    let [a, b, c] = [newest, other, left];
    let place = (a.at - b.at) / (c.at - b.at);
    let rise = (a.value - b.value) / (c.value - b.value);
    if rise.powi(2) < place && (1.0 - rise).powi(2) < 1.0 - place {
        a.value / (b.value - a.value) * c.value / (b.value - c.value)
            + (c.at - a.at) / (b.at - a.at) * a.value / (c.value - a.value) * b.value
                / (c.value - b.value)
    } else {
        0.5
    }
}

/// Prices of waiting, money a year, between which a level by cost holds.
///
/// `over` is the mean share of the time that a unit more would lie idle no less: the level holds while
/// `over <= h / (h + p)`, and one less does from there on.
pub fn prices(holding: f64, over: f64, over_one_less: f64) -> (Option<f64>, Option<f64>) {
    let price = |over: f64| (over > 1e-12 && over < 1.0).then(|| holding * (1.0 - over) / over);
    (price(over), price(over_one_less))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_factor_of_a_poisson_tail_is_found() {
        // P(X > 0) = 1 - exp(-m f) is 0.1 at f = -ln 0.9 / m, and P(X > -1) is 1 always.
        for mean in [0.002, 0.05, 0.1] {
            let over = |factor: f64| Some(-(-mean * factor).exp_m1());
            let (more, less) = factors(over, |_| Some(1.0), 0.1);
            let exact = -(0.9_f64.ln()) / mean;
            assert!(
                (more.unwrap() / exact - 1.0).abs() < 1e-6,
                "{mean}: {more:?}"
            );
            assert_eq!(less, None);
        }
        // One less is enough below the same factor.
        let over = |factor: f64| Some(-(-0.4 * factor).exp_m1());
        let (_, less) = factors(|_| Some(0.01), over, 0.1);
        assert!((less.unwrap() / (-(0.9_f64.ln()) / 0.4) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn the_factor_from_which_more_pays_is_found_near_and_far() {
        // A straight line through 0 at the factor itself.
        for exact in [1.5, 7.0, 60.0] {
            let (more, less) = factors_where(|factor| Some(factor - exact), |_| None);
            assert!((more.unwrap() / exact - 1.0).abs() < 1e-4, "{more:?}");
            assert_eq!(less, None);
        }
        let (more, less) = factors_where(|_| Some(-1.0), |factor| Some(0.25 - factor));
        assert_eq!(more, None);
        assert!((less.unwrap() / 0.25 - 1.0).abs() < 1e-6);
    }

    #[test]
    fn nothing_changes_where_the_far_end_does_not() {
        assert_eq!(factors(|_| Some(0.05), |_| Some(0.2), 0.1), (None, None));
        assert_eq!(factors(|_| None, |_| None, 0.1), (None, None));
    }

    #[test]
    fn a_level_that_is_off_by_its_own_rule_changes_at_once() {
        // A level by the best set for a budget need not be that of the price it amounts to.
        assert_eq!(factors(|_| Some(0.2), |_| Some(0.3), 0.1).0, Some(1.0));
    }
}
