use statrs::distribution::{Beta, Exp, LogNormal, Triangular};

use super::*;

/// The waits of the reference kits.
enum Law {
    Gamma(GammaWait),
    LogNormal(LogNormal),
    Exp(Exp),
    Fixed(f64),
    Triangular(Triangular),
    Pert(Beta, f64, f64),
    Stock(f64, Box<Law>),
    Min(Vec<Law>),
}

impl Law {
    fn read(value: &serde_json::Value) -> Self {
        let row = value.as_array().unwrap();
        let number = |at: usize| row[at].as_f64().unwrap();
        match row[0].as_str().unwrap() {
            "gamma" => Self::Gamma(GammaWait::new(number(1), number(2)).unwrap()),
            "lognormal" => {
                let (mean, cv) = (number(1), number(2));
                let spread = (1.0 + cv * cv).ln();
                Self::LogNormal(LogNormal::new(mean.ln() - spread / 2.0, spread.sqrt()).unwrap())
            }
            "exponential" => Self::Exp(Exp::new(1.0 / number(1)).unwrap()),
            "fixed" => Self::Fixed(number(1)),
            "triangular" => {
                Self::Triangular(Triangular::new(number(1), number(3), number(2)).unwrap())
            }
            "pert" => {
                let (a, m, b) = (number(1), number(2), number(3));
                let beta = Beta::new(1.0 + 4.0 * (m - a) / (b - a), 1.0 + 4.0 * (b - m) / (b - a));
                Self::Pert(beta.unwrap(), a, b)
            }
            "stock" => Self::Stock(number(1), Box::new(Self::read(&row[2]))),
            "min" => Self::Min(row[1..].iter().map(Self::read).collect()),
            other => panic!("no law {other}"),
        }
    }
}

impl Wait for Law {
    fn share_by(&self, time: f64) -> f64 {
        match self {
            Self::Gamma(law) => law.share_by(time),
            Self::LogNormal(law) => law.cdf(time),
            Self::Exp(law) => law.cdf(time),
            Self::Fixed(at) => f64::from(u8::from(time >= *at)),
            Self::Triangular(law) => law.cdf(time),
            Self::Pert(law, a, b) => law.cdf(((time - a) / (b - a)).clamp(0.0, 1.0)),
            Self::Stock(share, law) => share + (1.0 - share) * law.share_by(time),
            Self::Min(laws) => {
                1.0 - laws
                    .iter()
                    .map(|law| 1.0 - law.share_by(time))
                    .product::<f64>()
            }
        }
    }

    fn density(&self, time: f64) -> Option<f64> {
        match self {
            Self::Gamma(law) => law.density(time),
            Self::LogNormal(law) => Some(law.pdf(time)),
            _ => None,
        }
    }
}

/// Mean of the last by Simpson's rule on the share of cases still waiting.
fn mean(lines: &[Law], jumps: &[f64]) -> f64 {
    let upper = quantile_of_last(lines, 1.0 - 1e-13, 10.0).unwrap();
    let mut edges = vec![0.0, upper];
    edges.extend(jumps);
    edges.sort_by(f64::total_cmp);
    let waiting = |time: f64| 1.0 - share_complete(lines, time);
    let mut sum = 0.0;
    for edge in edges.windows(2) {
        let steps = 40_000;
        let width = (edge[1] - edge[0]) / f64::from(steps);
        // The share jumps at the edges: the inner side counts.
        let (from, until) = (edge[0] + 1e-12, edge[1] - 1e-12);
        let mut part = waiting(from) + waiting(until);
        for step in 1..steps {
            let weight = if step % 2 == 1 { 4.0 } else { 2.0 };
            part += weight * waiting(edge[0] + f64::from(step) * width);
        }
        sum += part * width / 3.0;
    }
    sum
}

#[test]
fn every_reference_kit_is_reproduced() {
    // tests/tables/planning/oracle_kit.json: scipy 1.17.1 distributions, quantiles by bisection, means by the
    // trapezoid on 400,001 points.
    let table: serde_json::Value = serde_json::from_str(include_str!(
        "../../../../tests/tables/planning/oracle_kit.json"
    ))
    .unwrap();
    let kits = table["kits"].as_object().unwrap();
    assert_eq!(kits.len(), 9);
    for (name, kit) in kits {
        let rows = kit["lines"].as_array().unwrap();
        let lines: Vec<Law> = rows.iter().map(Law::read).collect();
        for (share, key) in [(0.5, "P50"), (0.8, "P80"), (0.9, "P90"), (0.95, "P95")] {
            let expected = kit[key].as_f64().unwrap();
            let found = quantile_of_last(&lines, share, 10.0).unwrap();
            assert!(
                (found - expected).abs() <= 1e-6 * expected.max(1.0),
                "{name} {key}: {found} {expected}"
            );
        }
        let jumps: Vec<f64> = lines
            .iter()
            .filter_map(|law| {
                if let Law::Fixed(at) = law {
                    Some(*at)
                } else {
                    None
                }
            })
            .collect();
        let expected = kit["mean"].as_f64().unwrap();
        let found = mean(&lines, &jumps);
        // The reference's trapezoid is good to its step of 2.5e-3 where a share jumps, much better elsewhere.
        let tolerance = if jumps.is_empty() {
            2e-6 * expected
        } else {
            1e-3
        };
        assert!(
            (found - expected).abs() <= tolerance,
            "{name}: mean {found} {expected}"
        );
        // Simulation of the same kit, 400,000 draws.
        let simulated = kit["mc_mean"].as_f64().unwrap();
        let error = kit["mc_se"].as_f64().unwrap();
        assert!(
            (found - simulated).abs() < 4.0 * error,
            "{name}: {found} {simulated}"
        );
        // The mean of the last is never below the last of the means.
        assert!(found >= kit["naive_max_of_means"].as_f64().unwrap() - 1e-3);
    }
}
