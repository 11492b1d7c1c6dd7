//! Laws of a lead time: quantiles, means, what is still to come, and fits, by closed forms and by quadrature.

use proptest::prelude::*;
use sparewright::plan::{LeadTime, LogSample, gamma_fit, is_gamma_better, minus_log_likelihood};

fn laws() -> impl Strategy<Value = LeadTime> {
    prop_oneof![
        (-1.0_f64..4.0, 0.05_f64..1.2)
            .prop_map(|(log_mean, log_sd)| LeadTime::Lognormal { log_mean, log_sd }),
        (-1.0_f64..4.0, 0.05_f64..0.8, 2.0_f64..30.0)
            .prop_map(|(location, scale, freedom)| LeadTime::log_student(location, scale, freedom)),
        (0.3_f64..20.0, 0.2_f64..10.0).prop_map(|(shape, scale)| LeadTime::Gamma { shape, scale }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, ..ProptestConfig::default() })]

    #[test]
    fn quantiles_and_shares_undo_each_other(law in laws(), share in 0.01_f64..0.99) {
        let at = law.quantile(share);
        prop_assert!((law.cdf(at) - share).abs() < 1e-6, "{law:?}: {at}, {}", law.cdf(at));
        prop_assert!((law.cdf(at) + law.exceeds(at) - 1.0).abs() < 1e-12);
        prop_assert!((law.exceeded_by(1.0 - share) / at - 1.0).abs() < 1e-9);
        prop_assert!(law.quantile((share + 1.0) / 2.0) >= at);
        prop_assert!((law.exceeds(0.0) - 1.0).abs() < 1e-12 && (law.exceeds(-3.0) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_lead_time_times_a_factor_is_a_change_of_unit(law in laws(), factor in 0.05_f64..20.0, share in 0.05_f64..0.95) {
        let times = law.times(factor);
        prop_assert!((times.quantile(share) / law.quantile(share) / factor - 1.0).abs() < 1e-7);
        prop_assert!((times.mean(365.0 * factor) / law.mean(365.0) / factor - 1.0).abs() < 1e-9);
        let back = times.times(1.0 / factor);
        prop_assert!((back.quantile(share) / law.quantile(share) - 1.0).abs() < 1e-7);
    }

    #[test]
    fn more_doubt_makes_late_later_and_leaves_the_middle(law in laws(), more in 0.01_f64..1.0) {
        let wider = law.widened(more);
        prop_assert!(wider.quantile(0.9) >= law.quantile(0.9) * (1.0 - 1e-9));
        if !matches!(law, LeadTime::Gamma { .. }) {
            prop_assert!((wider.quantile(0.5) / law.quantile(0.5) - 1.0).abs() < 1e-6);
            prop_assert!(wider.quantile(0.1) <= law.quantile(0.1) * (1.0 + 1e-9));
        }
    }

    #[test]
    fn what_is_still_to_come_is_that_of_the_part_beyond_the_age(law in laws(), age in 0.1_f64..60.0, share in 0.05_f64..0.95) {
        let open = law.exceeds(age);
        let rest = law.remaining(age, share);
        if open > 1e-6 {
            let rest = rest.unwrap();
            // P(X <= age + rest | X > age) = share.
            let reached = 1.0 - law.exceeds(age + rest) / open;
            prop_assert!((reached - share).abs() < 1e-5, "{law:?} {age}: {rest}, {reached}");
        }
        prop_assert!((law.remaining(0.0, share).unwrap() - law.quantile(share)).abs() < 1e-6 * law.quantile(share));
    }

    #[test]
    fn the_mean_of_what_is_still_to_come_is_that_of_its_quantiles(log_mean in 0.0_f64..3.0, log_sd in 0.1_f64..0.7, shape in 0.8_f64..9.0, scale in 0.5_f64..6.0, age in 0.0_f64..15.0) {
        for law in [LeadTime::Lognormal { log_mean, log_sd }, LeadTime::Gamma { shape, scale }] {
            if law.exceeds(age) < 1e-3 {
                continue;
            }
            let points = 4_000;
            let sum: f64 = (0..points)
                .map(|at| law.remaining(age, (f64::from(at) + 0.5) / f64::from(points)).unwrap())
                .sum();
            let mean = sum / f64::from(points);
            let found = law.mean_remaining(age, 365.0).unwrap();
            prop_assert!((found / mean - 1.0).abs() < 1e-2, "{law:?} {age}: {found} {mean}");
        }
    }

    #[test]
    fn a_sample_is_its_logarithms_and_forgets_their_order(days in prop::collection::vec(0.5_f64..90.0, 2..12), times in 0.1_f64..10.0) {
        let sample = LogSample::new(&days).unwrap();
        let n = days.len() as f64;
        let mean = days.iter().map(|d| d.ln()).sum::<f64>() / n;
        let variance = days.iter().map(|d| (d.ln() - mean).powi(2)).sum::<f64>() / (n - 1.0);
        prop_assert!((sample.log_mean - mean).abs() < 1e-9 && (sample.log_sd - variance.sqrt()).abs() < 1e-9);
        prop_assert!((sample.log_sd_of_likelihood().powi(2) * n - variance * (n - 1.0)).abs() < 1e-9);
        let mut turned = days.clone();
        turned.reverse();
        let other = LogSample::new(&turned).unwrap();
        prop_assert!((other.predictive(0.9) / sample.predictive(0.9) - 1.0).abs() < 1e-9);
        let scaled: Vec<f64> = days.iter().map(|d| d * times).collect();
        let scaled = LogSample::new(&scaled).unwrap();
        prop_assert!((scaled.predictive(0.9) / sample.predictive(0.9) / times - 1.0).abs() < 1e-6);
        prop_assert!(sample.rounded_to_days().log_sd >= sample.log_sd);
    }

    #[test]
    fn an_open_order_never_makes_the_next_one_earlier_than_an_open_one_of_less_age(days in prop::collection::vec(2.0_f64..60.0, 4..9), age in 1.0_f64..60.0, more in 1.0_f64..60.0) {
        let young = LogSample::with_open(&days, &[age]).unwrap();
        let old = LogSample::with_open(&days, &[age + more]).unwrap();
        prop_assert!(old.log_mean >= young.log_mean - 1e-7, "{young:?} {old:?}");
        prop_assert_eq!(old.count, days.len());
    }

    #[test]
    fn a_gamma_fit_is_likelier_than_its_neighbours(days in prop::collection::vec(0.5_f64..60.0, 3..14), open in prop::collection::vec(1.0_f64..80.0, 0..3)) {
        let Some(fit) = gamma_fit(&days, &open) else { return Ok(()) };
        let LeadTime::Gamma { shape, scale } = fit else { panic!("a gamma") };
        let best = minus_log_likelihood(&fit, &days, &open);
        for (a, b) in [(1.02, 1.0), (0.98, 1.0), (1.0, 1.02), (1.0, 0.98), (1.05, 1.0 / 1.05)] {
            let near = LeadTime::Gamma { shape: shape * a, scale: scale * b };
            prop_assert!(minus_log_likelihood(&near, &days, &open) >= best - 1e-6, "{fit:?} {near:?}");
        }
        if open.is_empty() {
            let mean = days.iter().sum::<f64>() / days.len() as f64;
            prop_assert!((shape * scale / mean - 1.0).abs() < 1e-9, "its mean is that of the sample");
        }
    }
}

#[test]
fn late_is_the_quoted_time_times_the_late_factor_in_one_case_of_ten() {
    for (median, factor) in [(10.0, 2.0), (0.5, 1.5), (45.0, 1.0), (3.0, 4.0)] {
        let law = LeadTime::by_late_factor(median, factor);
        assert!((law.quantile(0.5) / median - 1.0).abs() < 1e-9);
        assert!(
            (law.quantile(0.9) / (median * factor) - 1.0).abs() < 1e-6,
            "{median} {factor}"
        );
    }
    // A factor below one makes nothing early.
    let fixed = LeadTime::by_late_factor(10.0, 0.5);
    assert!(matches!(fixed, LeadTime::Fixed { .. }), "{fixed:?}");
    assert!((fixed.quantile(0.99) - 10.0).abs() < 1e-9);
}

#[test]
fn a_fixed_time_is_over_or_it_is_not() {
    let fixed = LeadTime::Fixed { amount: 7.0 };
    assert!((fixed.mean(3.0) - 7.0).abs() < 1e-12);
    for (amount, share) in [(6.999, 0.0), (7.0, 1.0), (8.0, 1.0), (-1.0, 0.0)] {
        assert!((fixed.cdf(amount) - share).abs() < 1e-12, "{amount}");
    }
    assert_eq!(fixed.remaining(5.0, 0.5), Some(2.0));
    assert_eq!(
        fixed.remaining(7.0, 0.5),
        None,
        "nothing ever takes as long"
    );
    assert_eq!(fixed.mean_remaining(3.0, 365.0), Some(4.0));
    assert_eq!(fixed.mean_remaining(7.0, 365.0), None);
    assert_eq!(fixed.times(3.0), LeadTime::Fixed { amount: 21.0 });
}

#[test]
fn an_exponential_time_does_not_remember_its_age() {
    // Gamma of shape 1: what is still to come has the same law at any age.
    let law = LeadTime::Gamma {
        shape: 1.0,
        scale: 12.0,
    };
    for age in [0.5, 6.0, 30.0, 100.0] {
        for share in [0.1, 0.5, 0.9] {
            let rest = law.remaining(age, share).unwrap();
            let exact = -12.0 * (1.0_f64 - share).ln();
            assert!(
                (rest - exact).abs() < 1e-6 * (1.0 + age),
                "{age} {share}: {rest}"
            );
        }
        assert!(
            (law.mean_remaining(age, 365.0).unwrap() - 12.0).abs() < 1e-6,
            "{age}"
        );
    }
}

#[test]
fn too_little_gives_no_fit() {
    for few in [&[][..], &[4.0], &[4.0, 4.0, 4.0]] {
        assert_eq!(gamma_fit(few, &[]), None, "{few:?}");
    }
    assert_eq!(LogSample::new(&[4.0]), None);
    assert_eq!(LogSample::of_few(&[], &[5.0]), None);
    let one = LogSample::of_few(&[4.0], &[]).unwrap();
    assert_eq!((one.count, one.rounded_to_days()), (1, one));
    assert!((one.log_mean.exp() - 4.0).abs() < 1e-12);
}

#[test]
fn the_likelier_law_is_taken() {
    // Quantiles of the two laws as samples: each must be known again.
    let shares = (0..60).map(|at| (f64::from(at) + 0.5) / 60.0);
    for (law, is_gamma) in [
        (
            LeadTime::Gamma {
                shape: 0.7,
                scale: 10.0,
            },
            true,
        ),
        (
            LeadTime::Gamma {
                shape: 3.0,
                scale: 4.0,
            },
            true,
        ),
        (
            LeadTime::Lognormal {
                log_mean: 2.0,
                log_sd: 0.9,
            },
            false,
        ),
        (
            LeadTime::Lognormal {
                log_mean: 3.0,
                log_sd: 0.5,
            },
            false,
        ),
    ] {
        let days: Vec<f64> = shares.clone().map(|share| law.quantile(share)).collect();
        let gamma = gamma_fit(&days, &[]).unwrap();
        let sample = LogSample::new(&days).unwrap();
        assert_eq!(
            is_gamma_better(&sample, &gamma, &days, &[]),
            is_gamma,
            "{law:?}"
        );
    }
}
