//! What fitted parts ask for by their lives, and what one stock for several numbers takes, against reference values made
//! with scipy; see `tests/tables/planning/README.md`.

use serde_json::Value;
use sparewright::plan::{
    Demand, DemandRate, EventRate, FittedPosition, LifeForecast, Rate, RateBasis, SizeMoments,
    Weibull, WeibullFit,
};

use super::demand::{YEAR_DAYS, agrees, numbers, rows};
use super::plan::{number, table};

/// What positions of one kind of life ask for, a day's work an hour long, so that hours of the reference are days.
fn forecast(life: Weibull, ages_h: &[f64], planned_per_day: f64) -> LifeForecast {
    let position = |age_h: &f64| FittedPosition {
        age_h: *age_h,
        hours_per_day: 1.0,
        pieces: 1.0,
    };
    LifeForecast {
        fit: WeibullFit {
            life,
            failures: 5,
            running: ages_h.len(),
            shape_range: (life.shape, life.shape),
            negative_log_likelihood: 0.0,
        },
        positions: ages_h.iter().map(position).collect(),
        planned_per_day,
        sizes: vec![(1, 1.0)],
        pieces_per_day: 0.0,
    }
}

fn life_of(row: &Value) -> Weibull {
    Weibull {
        shape: number(&row["shape"]),
        scale_h: number(&row["scale"]),
    }
}

#[test]
pub fn fitted_parts_ask_for_what_their_renewals_and_ages_say() {
    let table = table("oracle_weibull.json");
    for row in rows(&table["weibull_renewals"], 7) {
        let (life, hours, what) = (life_of(row), number(&row["hours"]), row.to_string());
        let renewals = number(&row["expected_renewals"]);
        let one = forecast(life, &[0.0], 0.0).demand(hours);
        agrees(one.moments().0, renewals, 2e-3, &what);
        agrees(1.0 - one.at_most(0), number(&row["P_N>=1"]), 1e-6, &what);
        // Three positions know nothing of each other: means and variances add up, and none fails only if none of them does.
        let three = forecast(life, &[0.0; 3], 0.0).demand(hours);
        agrees(three.moments().0, 3.0 * one.moments().0, 1e-9, &what);
        agrees(three.moments().1, 3.0 * one.moments().1, 1e-7, &what);
        agrees(three.at_most(0), one.at_most(0).powi(3), 1e-9, &what);
        // Poisson changes beside them.
        let planned = forecast(life, &[0.0], 2.0 / hours).demand(hours);
        agrees(planned.moments().0, one.moments().0 + 2.0, 1e-9, &what);
        agrees(
            planned.at_most(0),
            one.at_most(0) * (-2.0_f64).exp(),
            1e-9,
            &what,
        );
    }
    for row in rows(&table["conditional_failure"], 4) {
        let aged = forecast(life_of(row), &[number(&row["age_h"])], 0.0);
        let found = 1.0 - aged.demand(number(&row["next_h"])).at_most(0);
        agrees(found, number(&row["P_fail"]), 1e-9, &row.to_string());
    }
}

#[test]
fn a_lead_time_that_varies_keeps_the_mean_and_widens_what_fitted_parts_ask_for() {
    // An exponential life asks for a Poisson number: over a lognormal time of mean m and variation c it has mean r m and
    // variance r m + (r m c)^2 (law of total variance).
    let life = Weibull {
        shape: 1.0,
        scale_h: 1000.0,
    };
    for (mean_days, cv) in [(800.0, 0.2), (800.0, 0.5), (2_000.0, 0.3)] {
        let asked = forecast(life, &[0.0, 400.0], 0.0).demand_over_lognormal(mean_days, cv);
        let (mean, variance) = asked.moments();
        let expected = 2.0 * mean_days / 1000.0;
        agrees(mean, expected, 2e-3, "mean");
        agrees(
            variance,
            expected + (expected * cv).powi(2),
            0.03,
            "variance",
        );
    }
    let certain = forecast(life, &[0.0], 0.0);
    assert_eq!(
        certain.demand_over_lognormal(500.0, 0.0),
        certain.demand(500.0)
    );
}

/// A demand of single pieces at a certain rate.
fn single(per_year: f64) -> Demand {
    Demand {
        rate: Rate::Known {
            pieces_per_day: per_year / YEAR_DAYS,
        },
        exposure_days: 5.0 * YEAR_DAYS,
        events: (5.0 * per_year).round() as usize,
        net_quantity: (5.0 * per_year).round(),
        mean_size: 1.0,
        mean_square_size: 1.0,
        sizes: vec![(1, 1.0)],
        likely_sizes: Vec::new(),
        before_records: 0,
        for_planned_rebuilds: 0,
        in_parts: None,
        left_out_above: None,
        class: None,
        estimate: Some(DemandRate {
            events: EventRate::certain(per_year / YEAR_DAYS),
            size: SizeMoments {
                mean_pieces: 1.0,
                squared_cv: 0.0,
            },
            basis: RateBasis::Plain,
        }),
        by_lives: None,
    }
}

#[test]
pub fn one_stock_for_several_numbers_is_that_of_scipy() {
    let table = table("oracle_bayes.json");
    for row in rows(&table["pooling"], 4) {
        let days = number(&row["lead_years"]) * YEAR_DAYS;
        let target = number(&row["target_fill"]);
        let parts: Vec<Demand> = numbers(&row["rates_per_year"])
            .into_iter()
            .map(single)
            .collect();
        let stock = |demand: &Demand| {
            let law = demand.distribution(days).unwrap();
            law.reorder_point(target).unwrap() + 1
        };
        let apart: Vec<u64> = parts.iter().map(stock).collect();
        let expected: Vec<u64> = numbers(&row["S_separate"])
            .iter()
            .map(|s| *s as u64)
            .collect();
        assert_eq!(apart, expected, "{row}");
        let together = Demand::together(&parts.iter().collect::<Vec<_>>()).unwrap();
        assert_eq!(Some(stock(&together)), row["S_pooled"].as_u64(), "{row}");
        let rates: f64 = numbers(&row["rates_per_year"]).iter().sum();
        agrees(together.per_day().unwrap() * YEAR_DAYS, rates, 1e-9, "rate");
    }
}
