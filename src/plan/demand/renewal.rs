//! How often a position is renewed in some hours when each part lasts as long as its distribution says.

use super::super::LeadTimeDemand;
use super::weibull::Weibull;

/// Steps of the coarse grid; the fine one has twice as many.
const STEPS: usize = 2000;

/// Steps of the grid for the distribution of the number of renewals.
const COUNT_STEPS: usize = 1000;

/// Expected renewals within `hours` of a position with a new part.
///
/// # Source
/// Renewal equation `m(t) = F(t) + integral of m(t - u) dF(u)` by the midpoint scheme of Xie, Commun. Stat. Simul.
/// Comput. 18:281-293 (1989), from memory, with one Richardson step.
pub fn expected_renewals(fails_by: impl Fn(f64) -> f64, hours: f64) -> f64 {
    if hours <= 0.0 {
        return 0.0;
    }
    let coarse = midpoint_scheme(&fails_by, hours, STEPS);
    let fine = midpoint_scheme(&fails_by, hours, 2 * STEPS);
    fine + (fine - coarse) / 3.0
}

fn midpoint_scheme(fails_by: &impl Fn(f64) -> f64, hours: f64, steps: usize) -> f64 {
    let step = hours / steps as f64;
    let middles: Vec<f64> = (0..steps)
        .map(|at| fails_by((at as f64 + 0.5) * step))
        .collect();
    let first = middles[0];
    // Growth of m in each step so far.
    let mut growth: Vec<f64> = Vec::with_capacity(steps);
    let mut before = 0.0;
    for at in 1..=steps {
        let earlier: f64 = growth
            .iter()
            .zip(middles[1..at].iter().rev())
            .map(|(growth, middle)| growth * middle)
            .sum();
        let now = (fails_by(at as f64 * step) + earlier - first * before) / (1.0 - first);
        growth.push(now - before);
        before = now;
    }
    before
}

/// Probability of at most `count` renewals within `hours` of a position with a new part.
///
/// # Source
/// `P(N <= n) = 1 - F^(n+1)(hours)` with F^(k) the k-fold convolution of the life, on a grid with the mass of each step
/// at its middle.
pub fn renewals_at_most(fails_by: impl Fn(f64) -> f64, hours: f64, count: usize) -> f64 {
    if hours <= 0.0 {
        return 1.0;
    }
    let step = hours / COUNT_STEPS as f64;
    let edges: Vec<f64> = (0..=COUNT_STEPS)
        .map(|at| fails_by(at as f64 * step))
        .collect();
    let mass: Vec<f64> = edges.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let mut reached = edges;
    for _ in 0..count {
        // With the mass in the middle of its step, the time left lies halfway between two edges.
        let halves: Vec<f64> = reached
            .windows(2)
            .map(|pair| f64::midpoint(pair[0], pair[1]))
            .collect();
        reached = (0..=COUNT_STEPS)
            .map(|at| {
                mass[..at]
                    .iter()
                    .zip(halves[..at].iter().rev())
                    .map(|(mass, left)| mass * left)
                    .sum()
            })
            .collect();
    }
    1.0 - reached[COUNT_STEPS]
}

/// Steps of the grid for a part of some age; its first failure is exact, only those after it rest on the grid.
const AGED_STEPS: usize = 200;

/// Mean lives beyond which failures are as good as spread evenly.
const MANY_LIVES: f64 = 12.0;

/// Probabilities of 0, 1, 2, ... failures within `hours` of a position whose part has already run for `age_h`, each
/// followed by a new part.
///
/// Over more than a dozen mean lives they are taken as Poisson, which is on the safe side for parts that wear out.
///
/// # Source
/// Delayed renewal process: the first life given the age reached, `1 - S(age + t) / S(age)`, then whole lives; each
/// further failure by one more convolution, the mass of each step at its middle.
pub fn failures_of_aged(life: &Weibull, age_h: f64, hours: f64) -> Vec<f64> {
    const LEAST: f64 = 1e-12;
    if hours <= 0.0 {
        return vec![1.0];
    }
    if hours > MANY_LIVES * life.mean_h() {
        let (mut shares, mut left) = (Vec::new(), 1.0);
        LeadTimeDemand::Poisson {
            mean: hours / life.mean_h(),
        }
        .walk(|share| {
            shares.push(share);
            left -= share;
            left < LEAST
        });
        return shares;
    }
    let step = hours / AGED_STEPS as f64;
    let edge = |at: usize| at as f64 * step;
    let mass: Vec<f64> = (0..AGED_STEPS)
        .map(|at| life.fails_within(0.0, edge(at + 1)) - life.fails_within(0.0, edge(at)))
        .collect();
    // Probability of at least so many failures by each edge.
    let mut reached: Vec<f64> = (0..=AGED_STEPS)
        .map(|at| life.fails_within(age_h, edge(at)))
        .collect();
    let mut shares = Vec::new();
    let mut at_least = 1.0;
    loop {
        let more = reached[AGED_STEPS];
        shares.push((at_least - more).max(0.0));
        if more < LEAST {
            break;
        }
        at_least = more;
        let halves: Vec<f64> = reached
            .windows(2)
            .map(|pair| f64::midpoint(pair[0], pair[1]))
            .collect();
        reached = (0..=AGED_STEPS)
            .map(|at| {
                let left = halves[..at].iter().rev();
                mass[..at].iter().zip(left).map(|(m, left)| m * left).sum()
            })
            .collect();
    }
    shares
}

/// Age at which changing a part before it fails costs least.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgeReplacement {
    /// Age, hours; `None` where running to failure costs no more.
    pub age_h: Option<f64>,
    /// Cost an hour of running at that age.
    pub cost_per_h: f64,
    /// Cost an hour of running when every part runs until it fails.
    pub run_to_failure_cost_per_h: f64,
}

/// Least gain of planned changes that is worth calling one: less than the thousandth part is within what no life is known to.
const LEAST_GAIN_SHARE: f64 = 1e-3;
/// Characteristic lives up to which an age is sought: of what wears out at all, fewer than one in 100,000 reach it, and a later
/// change gains less than [`LEAST_GAIN_SHARE`].
const MOST_LIVES: f64 = 12.0;

impl AgeReplacement {
    /// Finds the age for the cost of a planned change and of a failure, downtime included.
    ///
    /// # Source
    /// Barlow & Hunter, Oper. Res. 8:90-100 (1960), from memory: least
    /// `(planned S(T) + failure F(T)) / integral of S from 0 to T`.
    pub fn new(life: &Weibull, planned_cost: f64, failure_cost: f64) -> Self {
        let scale = life.scale_h;
        let cost = |age: f64| {
            let alive = life.survival(age);
            (planned_cost * alive + failure_cost * (1.0 - alive)) / running_h(life, age)
        };
        let log_age = super::gamma_poisson::lowest(
            |log| cost(log.exp()),
            ((scale * 0.02).ln(), (scale * MOST_LIVES).ln()),
        );
        let age = log_age.exp();
        let run = failure_cost / life.mean_h();
        let best = cost(age);
        let pays = best < run * (1.0 - LEAST_GAIN_SHARE);
        Self {
            age_h: pays.then_some(age),
            cost_per_h: best.min(run),
            run_to_failure_cost_per_h: run,
        }
    }
}

/// Mean hours until failure or a change at `age_h`: the integral of the survival function, by Simpson's rule.
fn running_h(life: &Weibull, age_h: f64) -> f64 {
    const PARTS: usize = 2000;
    // In u with t = age u^2, so that a steep start of the survival function does no harm.
    let at = |part: usize| {
        let u = part as f64 / PARTS as f64;
        2.0 * u * life.survival(age_h * u * u)
    };
    let inner: f64 = (1..PARTS)
        .map(|part| at(part) * if part % 2 == 1 { 4.0 } else { 2.0 })
        .sum();
    age_h * (at(0) + inner + at(PARTS)) / (3.0 * PARTS as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_that_does_not_age_fails_as_a_poisson_process_at_any_age() {
        // Shape 1 is the exponential life: counts are Poisson whatever the age (memoryless; any textbook of renewal).
        let life = Weibull {
            shape: 1.0,
            scale_h: 1000.0,
        };
        for age_h in [0.0, 500.0, 9000.0] {
            for hours in [50.0, 1000.0, 3000.0] {
                let counts = failures_of_aged(&life, age_h, hours);
                let poisson = LeadTimeDemand::Poisson {
                    mean: hours / 1000.0,
                };
                let mut sum = 0.0;
                for (count, share) in counts.iter().enumerate() {
                    sum += share;
                    let exact = poisson.at_most(count as u64);
                    assert!(
                        (sum - exact).abs() < 2e-4,
                        "{age_h} {hours} {count}: {sum} {exact}"
                    );
                }
            }
        }
    }

    #[test]
    fn counts_of_a_new_part_are_those_of_the_finer_grid() {
        let life = Weibull {
            shape: 2.3,
            scale_h: 1500.0,
        };
        for hours in [200.0, 1500.0, 6000.0] {
            let counts = failures_of_aged(&life, 0.0, hours);
            let mut sum = 0.0;
            for (count, share) in counts.iter().take(4).enumerate() {
                sum += share;
                let exact = renewals_at_most(|t| life.fails_within(0.0, t), hours, count);
                assert!((sum - exact).abs() < 1e-3, "{hours} {count}: {sum} {exact}");
            }
        }
    }

    #[test]
    fn no_hours_bring_no_failure_and_very_many_are_spread_evenly() {
        let life = Weibull {
            shape: 3.0,
            scale_h: 100.0,
        };
        assert_eq!(failures_of_aged(&life, 40.0, 0.0), [1.0]);
        let counts = failures_of_aged(&life, 40.0, 100_000.0);
        let mean: f64 = counts
            .iter()
            .enumerate()
            .map(|(n, share)| n as f64 * share)
            .sum();
        assert!((mean * life.mean_h() / 100_000.0 - 1.0).abs() < 1e-6);
    }
}
