//! Lives in running hours: closed forms, moments by quadrature, and what must hold for any life.

use proptest::prelude::*;
use sparewright::plan::{
    AgeReplacement, Weibull, expected_renewals, failures_among, failures_of_aged, renewals_at_most,
};

fn lives() -> impl Strategy<Value = Weibull> {
    (0.6_f64..5.0, 200.0_f64..20_000.0).prop_map(|(shape, scale_h)| Weibull { shape, scale_h })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    #[test]
    fn quantile_and_survival_undo_each_other(life in lives(), share in 0.001_f64..0.999) {
        let at = life.quantile_h(share);
        prop_assert!((1.0 - life.survival(at) - share).abs() < 1e-9);
        // 63.2 of 100 do not reach the scale, whatever the shape.
        prop_assert!((life.survival(life.scale_h) - (-1.0_f64).exp()).abs() < 1e-12);
        prop_assert!((life.survival(-5.0) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn mean_and_spread_are_those_of_the_quantiles(life in lives()) {
        // Mean of the quantile function over the share, midpoints; the far end is put right by many points.
        let points = 200_000;
        let (mut first, mut second) = (0.0, 0.0);
        for point in 0..points {
            let at = life.quantile_h((f64::from(point) + 0.5) / f64::from(points));
            first += at;
            second += at * at;
        }
        let mean = first / f64::from(points);
        let deviation = (second / f64::from(points) - mean * mean).sqrt();
        prop_assert!((life.mean_h() / mean - 1.0).abs() < 2e-3, "{} {mean}", life.mean_h());
        prop_assert!((life.deviation_h() / deviation - 1.0).abs() < 1e-2, "{} {deviation}", life.deviation_h());
    }

    #[test]
    fn a_part_that_wears_out_fails_sooner_the_older_it_is(life in lives(), age in 1.0_f64..9_000.0, next in 1.0_f64..3_000.0) {
        let exact = 1.0 - life.survival(age + next) / life.survival(age);
        if life.survival(age) > 1e-9 {
            prop_assert!((life.fails_within(age, next) - exact).abs() < 1e-6);
        }
        let older = life.fails_within(age * 1.5, next);
        if life.shape > 1.0 {
            prop_assert!(older >= life.fails_within(age, next) - 1e-12);
        } else {
            prop_assert!(older <= life.fails_within(age, next) + 1e-12);
        }
        prop_assert!(life.fails_within(age, 0.0).abs() < 1e-15);
    }

    #[test]
    fn a_fit_moves_with_the_unit_and_keeps_its_shape(hours in prop::collection::vec(50.0_f64..4_000.0, 3..12), running in prop::collection::vec(50.0_f64..4_000.0, 0..4), times in 0.01_f64..60.0) {
        let scaled = |lives: &[f64]| -> Vec<f64> { lives.iter().map(|life| life * times).collect() };
        let plain = Weibull::fit(&hours, &running);
        let other = Weibull::fit(&scaled(&hours), &scaled(&running));
        prop_assert_eq!(plain.is_some(), other.is_some());
        if let (Some(plain), Some(other)) = (plain, other) {
            prop_assert!((plain.life.shape / other.life.shape - 1.0).abs() < 1e-6);
            prop_assert!((plain.life.scale_h * times / other.life.scale_h - 1.0).abs() < 1e-6);
            prop_assert_eq!((plain.failures, plain.running), (hours.len(), running.len()));
            prop_assert!(plain.shape_range.0 <= plain.life.shape && plain.life.shape <= plain.shape_range.1);
            // No neighbour is likelier.
            let cost = |life: Weibull| -> f64 {
                let dead: f64 = hours.iter().map(|t| {
                    let z = t / life.scale_h;
                    (life.shape / life.scale_h).ln() + (life.shape - 1.0) * z.ln() - z.powf(life.shape)
                }).sum();
                let alive: f64 = running.iter().map(|t| (t / life.scale_h).powf(life.shape)).sum();
                alive - dead
            };
            let best = cost(plain.life);
            prop_assert!((best - plain.negative_log_likelihood).abs() < 1e-6 * (1.0 + best.abs()));
            for (a, b) in [(1.01, 1.0), (0.99, 1.0), (1.0, 1.01), (1.0, 0.99)] {
                let near = Weibull { shape: plain.life.shape * a, scale_h: plain.life.scale_h * b };
                prop_assert!(cost(near) >= best - 1e-9);
            }
        }
    }

    #[test]
    fn parts_that_still_run_make_lives_longer(hours in prop::collection::vec(50.0_f64..2_000.0, 4..10), age in 2_000.0_f64..9_000.0) {
        if let (Some(alone), Some(with)) = (Weibull::fit(&hours, &[]), Weibull::fit(&hours, &[age])) {
            prop_assert!(with.life.scale_h > alone.life.scale_h, "{with:?} {alone:?}");
        }
    }

    #[test]
    fn failures_among_parts_add_up_and_have_their_mean(chances in prop::collection::vec(0.0_f64..1.0, 0..12)) {
        let counts = failures_among(&chances);
        prop_assert_eq!(counts.len(), chances.len() + 1);
        prop_assert!((counts.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        let mean: f64 = counts.iter().enumerate().map(|(n, share)| n as f64 * share).sum();
        let variance: f64 = counts.iter().enumerate().map(|(n, share)| (n as f64 - mean).powi(2) * share).sum();
        prop_assert!((mean - chances.iter().sum::<f64>()).abs() < 1e-9);
        prop_assert!((variance - chances.iter().map(|p| p * (1.0 - p)).sum::<f64>()).abs() < 1e-9);
        let mut turned = chances.clone();
        turned.reverse();
        for (a, b) in counts.iter().zip(failures_among(&turned)) {
            prop_assert!((a - b).abs() < 1e-12);
        }
    }

    #[test]
    fn renewals_of_a_life_that_does_not_age_are_poisson(scale in 100.0_f64..2_000.0, many in 0.05_f64..4.0) {
        let hours = many * scale;
        let fails_by = |t: f64| 1.0 - (-t / scale).exp();
        prop_assert!((expected_renewals(fails_by, hours) - many).abs() < 1e-4);
        let mut share = (-many).exp();
        let mut sum = share;
        for count in 0..5_usize {
            let found = renewals_at_most(fails_by, hours, count);
            prop_assert!((found - sum).abs() < 1e-3, "{count}: {found} {sum}");
            share *= many / (count + 1) as f64;
            sum += share;
        }
    }

    #[test]
    fn a_fitted_parts_first_failure_is_that_of_its_age(life in lives(), age in 0.0_f64..6_000.0, part in 0.05_f64..2.0) {
        let hours = part * life.mean_h();
        let counts = failures_of_aged(&life, age, hours);
        prop_assert!((counts[0] - (1.0 - life.fails_within(age, hours))).abs() < 1e-9);
        prop_assert!((counts.iter().sum::<f64>() - 1.0).abs() < 1e-6);
        // Between what its renewals and one more say.
        let mean: f64 = counts.iter().enumerate().map(|(n, share)| n as f64 * share).sum();
        let new = expected_renewals(|t| 1.0 - life.survival(t), hours);
        if life.shape > 1.0 {
            prop_assert!(mean >= new - 2e-2 * (1.0 + new) && mean <= new + 1.0 + 2e-2, "{mean} {new}");
        }
    }

    #[test]
    fn a_planned_change_pays_only_for_what_wears_out(life in lives(), planned in 10.0_f64..500.0, times in 1.0_f64..40.0) {
        let found = AgeReplacement::new(&life, planned, planned * times);
        prop_assert!((found.run_to_failure_cost_per_h - planned * times / life.mean_h()).abs() < 1e-9 * found.run_to_failure_cost_per_h);
        prop_assert!(found.cost_per_h <= found.run_to_failure_cost_per_h + 1e-12);
        if life.shape <= 1.0 {
            prop_assert_eq!(found.age_h, None);
        }
        if let Some(age) = found.age_h {
            // The cost of that age by a fine sum, and of ages beside it.
            let cost = |age: f64| {
                let steps = 4_000;
                let step = age / f64::from(steps);
                let hours: f64 = (0..steps).map(|at| life.survival((f64::from(at) + 0.5) * step) * step).sum();
                let alive = life.survival(age);
                (planned * alive + planned * times * (1.0 - alive)) / hours
            };
            prop_assert!((cost(age) / found.cost_per_h - 1.0).abs() < 1e-4);
            for other in [0.7, 0.9, 1.1, 1.4] {
                prop_assert!(cost(age * other) >= cost(age) * (1.0 - 1e-6));
            }
        }
    }
}

#[test]
fn a_weibull_of_shape_two_is_rayleighs() {
    // Rayleigh with sigma = scale / sqrt 2: mean sigma sqrt(pi / 2), variance (2 - pi / 2) sigma^2.
    let life = Weibull {
        shape: 2.0,
        scale_h: 1_000.0,
    };
    let sigma = 1_000.0 / 2.0_f64.sqrt();
    let pi = std::f64::consts::PI;
    assert!((life.mean_h() - sigma * (pi / 2.0).sqrt()).abs() < 1e-6);
    assert!((life.deviation_h() - sigma * (2.0 - pi / 2.0).sqrt()).abs() < 1e-6);
    let median = 1_000.0 * 2.0_f64.ln().sqrt();
    assert!((life.quantile_h(0.5) - median).abs() < 1e-9);
}

#[test]
fn lives_that_cannot_be_used_are_left_out_of_a_fit() {
    let good = [400.0, 900.0, 1_500.0, 2_100.0, 700.0];
    let clean = Weibull::fit(&good, &[]).unwrap();
    let mut dirty = good.to_vec();
    dirty.extend([0.0, -20.0, f64::NAN, f64::INFINITY]);
    let fit = Weibull::fit(&dirty, &[f64::NAN, -1.0, 0.0]).unwrap();
    assert_eq!((fit.life, fit.failures, fit.running), (clean.life, 5, 0));
    assert!(fit.is_enough());
    assert!(!Weibull::fit(&good[..4], &[]).unwrap().is_enough());
    for none in [&[][..], &[500.0], &[500.0, 500.0, 500.0], &[f64::NAN, 0.0]] {
        assert_eq!(Weibull::fit(none, &[800.0]), None, "{none:?}");
    }
}

#[test]
fn no_time_brings_no_renewals() {
    let fails_by = |t: f64| (t / 500.0).min(1.0);
    for hours in [0.0, -10.0] {
        assert!(expected_renewals(fails_by, hours).abs() < 1e-15);
        assert!((renewals_at_most(fails_by, hours, 0) - 1.0).abs() < 1e-15);
        let life = Weibull {
            shape: 2.0,
            scale_h: 500.0,
        };
        assert_eq!(failures_of_aged(&life, 300.0, hours), [1.0]);
    }
    // Uniform lives on 0 to a: m(t) = e^(t/a) - 1 up to a (Cox, Renewal Theory, 1962, from memory).
    for t in [100.0, 250.0, 499.0] {
        let exact = (t / 500.0_f64).exp() - 1.0;
        let found = expected_renewals(fails_by, t);
        assert!((found - exact).abs() < 1e-5, "{t}: {found} {exact}");
    }
}
