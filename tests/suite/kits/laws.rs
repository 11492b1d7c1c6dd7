//! Laws of arrival joined: against every combination of moments, and quantiles of the last of several waits by halving.

use std::sync::Arc;

use proptest::prelude::*;
use sparewright::plan::{
    ArrivalLaw, GammaWait, Giver, Lateness, Wait, enough_of, quantile_of_last, share_complete,
};

/// Steps of a law: gaps in hours and parts of the probability.
fn steps() -> impl Strategy<Value = Vec<(i64, f64)>> {
    prop::collection::vec((1_i64..60, 0.05_f64..1.0), 1..6).prop_map(|parts| {
        let whole: f64 = parts.iter().map(|(_, part)| part).sum();
        let (mut moment, mut share) = (0, 0.0);
        let steps = parts.iter().map(|(gap, part)| {
            moment += gap * 3_600;
            share += part / whole;
            (moment, share)
        });
        steps.collect()
    })
}

/// Moments with the probability of each.
fn points(steps: &[(i64, f64)]) -> Vec<(i64, f64)> {
    let mut before = 0.0;
    steps
        .iter()
        .map(|(moment, share)| {
            let part = share - before;
            before = *share;
            (*moment, part)
        })
        .collect()
}

/// Share of all pairs of moments in which a rule of both is at most `until`.
fn of_pairs(a: &[(i64, f64)], b: &[(i64, f64)], rule: fn(i64, i64) -> i64, until: i64) -> f64 {
    let mut sum = 0.0;
    for (x, p) in points(a) {
        for (y, q) in points(b) {
            if rule(x, y) <= until {
                sum += p * q;
            }
        }
    }
    sum
}

/// The earlier of two, each of which is enough.
fn first_of(a: &ArrivalLaw, b: &ArrivalLaw, how: Lateness) -> ArrivalLaw {
    let giver = |whose: &str, law: &ArrivalLaw| Giver {
        quantity: 1.0,
        whose: Some(whose.to_owned()),
        law: Arc::new(law.clone()),
    };
    enough_of(&[giver("a", a), giver("b", b)], 1.0, how).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn the_later_and_the_earlier_of_two_are_those_of_every_pair(a in steps(), b in steps()) {
        let (law_a, law_b) = (ArrivalLaw::new(a.clone()), ArrivalLaw::new(b.clone()));
        let last = ArrivalLaw::last_of(&[&law_a, &law_b]);
        let first = first_of(&law_a, &law_b, Lateness::Apart);
        for (until, _) in a.iter().chain(&b) {
            prop_assert!((last.share_by(*until) - of_pairs(&a, &b, i64::max, *until)).abs() < 1e-9);
            prop_assert!((first.share_by(*until) - of_pairs(&a, &b, i64::min, *until)).abs() < 1e-9);
        }
        // E max + E min = E a + E b, whatever the laws.
        let sums = last.mean_s() + first.mean_s() - law_a.mean_s() - law_b.mean_s();
        prop_assert!(sums.abs() < 1e-3, "{sums}");
    }

    #[test]
    fn late_together_is_the_draw_of_one_number(a in steps(), b in steps(), uniform in 0.001_f64..0.999) {
        let (law_a, law_b) = (ArrivalLaw::new(a), ArrivalLaw::new(b));
        let last = ArrivalLaw::last_together(&[&law_a, &law_b]);
        let first = first_of(&law_a, &law_b, Lateness::Together);
        let (x, y) = (law_a.quantile(uniform), law_b.quantile(uniform));
        prop_assert_eq!(last.quantile(uniform), x.max(y));
        prop_assert_eq!(first.quantile(uniform), x.min(y));
        // Alike lateness never makes the last of two later on average than lateness of their own.
        let apart = ArrivalLaw::last_of(&[&law_a, &law_b]);
        prop_assert!(last.mean_s() <= apart.mean_s() + 1e-3);
    }

    #[test]
    fn quantiles_means_and_shares_fit_each_other(a in steps(), share in 0.01_f64..1.0) {
        let law = ArrivalLaw::new(a.clone());
        let at = law.quantile(share);
        prop_assert!(law.share_by(at) >= share - 1e-9);
        prop_assert!(law.share_by(at - 1) < share);
        let mean: f64 = points(&a).iter().map(|(moment, part)| *moment as f64 * part).sum();
        prop_assert!((law.mean_s() - mean).abs() < 1e-3);
        let moments: Vec<i64> = law.moments().collect();
        prop_assert!(moments.windows(2).all(|pair| pair[0] < pair[1]));
        prop_assert!((law.share_by(moments[moments.len() - 1]) - 1.0).abs() < 1e-12);
        prop_assert!(law.share_by(moments[0] - 1).abs() < 1e-12);
    }

    #[test]
    fn a_grid_of_moments_gives_the_shares_of_each(a in steps(), grid in prop::collection::btree_set(0_i64..400_000, 0..20)) {
        let law = ArrivalLaw::new(a);
        let grid: Vec<i64> = grid.into_iter().collect();
        let shares = law.on(&grid);
        prop_assert_eq!(shares.len(), grid.len());
        for (moment, share) in grid.iter().zip(&shares) {
            prop_assert!((law.share_by(*moment) - share).abs() < 1e-15);
        }
        let moved = law.mapped(|moment| Some(moment + 7_200)).unwrap();
        for moment in &grid {
            prop_assert!((moved.share_by(moment + 7_200) - law.share_by(*moment)).abs() < 1e-12);
        }
        prop_assert!((moved.mean_s() - law.mean_s() - 7_200.0).abs() < 1e-3);
        prop_assert_eq!(law.mapped(|moment| (moment < 3_600).then_some(moment)), None);
    }

    #[test]
    fn the_order_and_number_of_calls_decide_nothing(a in steps(), b in steps(), c in steps()) {
        let [a, b, c] = [a, b, c].map(ArrivalLaw::new);
        let all = ArrivalLaw::last_of(&[&a, &b, &c]);
        let turned = ArrivalLaw::last_of(&[&c, &a, &b]);
        let step_by_step = ArrivalLaw::last_of(&[&ArrivalLaw::last_of(&[&a, &b]), &c]);
        for moment in all.moments() {
            for other in [&turned, &step_by_step] {
                prop_assert!((other.share_by(moment) - all.share_by(moment)).abs() < 1e-9);
            }
        }
        let now = ArrivalLaw::certain(0);
        prop_assert!((ArrivalLaw::last_of(&[&a, &now]).mean_s() - a.mean_s()).abs() < 1e-3, "what is there holds nobody up");
        prop_assert!(first_of(&a, &now, Lateness::Apart).mean_s().abs() < 1e-9);
    }

    #[test]
    fn the_last_of_several_waits_is_found_by_halving(means in prop::collection::vec((0.5_f64..60.0, 0.1_f64..1.5), 1..7), share in 0.05_f64..0.99, start in 0.01_f64..500.0) {
        let lines: Vec<GammaWait> = means.iter().map(|(mean, cv)| GammaWait::new(*mean, *cv).unwrap()).collect();
        let found = quantile_of_last(&lines, share, start).unwrap();
        let (mut low, mut high) = (0.0, 1e6);
        for _ in 0..200 {
            let middle = f64::midpoint(low, high);
            if share_complete(&lines, middle) < share { low = middle } else { high = middle }
        }
        prop_assert!((found / high - 1.0).abs() < 1e-5, "{found} {high}");
        // One line more never makes it earlier.
        let mut more = lines.clone();
        more.push(GammaWait::new(10.0, 0.5).unwrap());
        prop_assert!(quantile_of_last(&more, share, start).unwrap() >= found * (1.0 - 1e-6));
    }

    #[test]
    fn a_guess_at_a_gamma_quantile_is_near_it(mean in 1.0_f64..90.0, cv in 0.05_f64..0.7, share in 0.1_f64..0.95) {
        let wait = GammaWait::new(mean, cv).unwrap();
        let exact = quantile_of_last(std::slice::from_ref(&wait), share, mean).unwrap();
        prop_assert!((wait.about(share) / exact - 1.0).abs() < 0.06, "{} {exact}", wait.about(share));
    }
}

#[test]
fn laws_are_put_in_order_and_end_at_one() {
    // Two shares at one moment: the greater; a share that does not rise says nothing; the last becomes 1.
    let law = ArrivalLaw::new([(10, 0.2), (10, 0.4), (20, 0.4), (30, 0.9)]);
    assert_eq!(law.moments().collect::<Vec<_>>(), [10, 30]);
    assert!((law.share_by(10) - 0.4).abs() < 1e-12);
    assert!((law.share_by(30) - 1.0).abs() < 1e-12);
    let nothing = ArrivalLaw::new([]);
    assert_eq!(nothing, ArrivalLaw::certain(0));
    assert_eq!(ArrivalLaw::certain(5).quantile(0.0), 5);
    assert_eq!(ArrivalLaw::certain(5).quantile(1.0), 5);
}

#[test]
fn waits_that_are_none_have_no_law_and_no_lines_are_complete_at_once() {
    for (mean, cv) in [(0.0, 0.5), (-1.0, 0.5), (10.0, 0.0), (10.0, f64::NAN)] {
        assert!(GammaWait::new(mean, cv).is_none(), "{mean} {cv}");
    }
    assert_eq!(quantile_of_last::<GammaWait>(&[], 0.9, 1.0), Some(0.0));
    struct Never;
    impl Wait for Never {
        fn share_by(&self, _: f64) -> f64 {
            0.3
        }
    }
    assert_eq!(quantile_of_last(&[Never], 0.2, 1.0), Some(0.0));
    assert_eq!(
        quantile_of_last(&[Never], 0.9, 1.0),
        None,
        "it never comes in more than three cases of ten"
    );
    // Exponential waits: the last of n by t in (1 - e^(-t/m))^n.
    let exponential = vec![GammaWait::new(8.0, 1.0).unwrap(); 5];
    let exact = -8.0 * (1.0_f64 - 0.9_f64.powf(0.2)).ln();
    let found = quantile_of_last(&exponential, 0.9, 1.0).unwrap();
    assert!((found - exact).abs() < 1e-6, "{found} {exact}");
}
