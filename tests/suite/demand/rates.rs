//! Rates, classes, smoothing and groups: by hand, by closed forms and by what must hold for any history.

use proptest::prelude::*;
use sparewright::part::PartClass;
use sparewright::plan::{
    ClassFigures, Counted, DemandClass, Discount, EventRate, GroupPrior, GroupSizes, Grouped,
    Groups, LogSizes, MONTH_DAYS, Smoothed, price_bands,
};

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn smoothing_is_what_its_recursion_says(series in prop::collection::vec(prop_oneof![3 => Just(0.0), 2 => 1.0_f64..9.0], 1..40), share in 0.02_f64..0.6) {
        let smoothed = Smoothed::new(&series, share, share);
        // Exponential smoothing as a weighted sum: the first value keeps (1 - a)^n, the k-th from the end a (1 - a)^k.
        let used: Vec<(usize, f64)> = series.iter().copied().enumerate().filter(|(_, q)| *q > 0.0).collect();
        prop_assert_eq!(smoothed.is_none(), used.is_empty());
        let Some(smoothed) = smoothed else { return Ok(()) };
        let weighted = |values: &[f64]| -> f64 {
            let n = values.len() - 1;
            values.iter().enumerate().map(|(at, value)| {
                let kept = (1.0 - share).powi((n - at) as i32);
                value * if at == 0 { kept } else { share * kept }
            }).sum()
        };
        let sizes: Vec<f64> = used.iter().map(|(_, q)| *q).collect();
        let mut last = 0;
        let intervals: Vec<f64> = used.iter().map(|(at, _)| { let gap = at + 1 - last; last = at + 1; gap as f64 }).collect();
        let seen: Vec<f64> = series.iter().map(|q| f64::from(u8::from(*q > 0.0))).collect();
        prop_assert!((smoothed.size - weighted(&sizes)).abs() < 1e-9);
        prop_assert!((smoothed.interval_periods - weighted(&intervals)).abs() < 1e-9);
        prop_assert!((smoothed.probability_share - weighted(&seen)).abs() < 1e-9);
        prop_assert!((smoothed.sba(share) / smoothed.croston() - (1.0 - share / 2.0)).abs() < 1e-12);
    }

    #[test]
    fn periods_without_use_lower_the_probability_and_nothing_else(series in prop::collection::vec(0.0_f64..3.0, 1..20), quiet in 1_usize..12) {
        let mut longer = series.clone();
        longer.extend(vec![0.0; quiet]);
        let (Some(now), Some(later)) = (Smoothed::new(&series, 0.1, 0.1), Smoothed::new(&longer, 0.1, 0.1)) else { return Ok(()) };
        prop_assert!((now.croston() - later.croston()).abs() < 1e-12);
        prop_assert!((later.tsb() - now.tsb() * 0.9_f64.powi(quiet as i32)).abs() < 1e-12);
    }

    #[test]
    fn a_class_does_not_change_with_the_unit(series in prop::collection::vec(prop_oneof![Just(0.0), 1.0_f64..20.0], 1..30), times in 0.01_f64..100.0) {
        let scaled: Vec<f64> = series.iter().map(|q| q * times).collect();
        let (a, b) = (ClassFigures::of(&series), ClassFigures::of(&scaled));
        prop_assert_eq!(a.is_some(), b.is_some());
        if let (Some(a), Some(b)) = (a, b) {
            prop_assert!((a.squared_cv - b.squared_cv).abs() < 1e-9);
            prop_assert!((a.interval_periods - b.interval_periods).abs() < 1e-12);
            prop_assert!(a.interval_periods >= 1.0);
        }
    }

    #[test]
    fn usages_learn_from_group_and_part_by_their_days(shape in 0.05_f64..8.0, days in 10.0_f64..4_000.0, events in 0.0_f64..30.0, own in 1.0_f64..4_000.0, ahead in 1.0_f64..400.0) {
        let prior = GroupPrior { shape, exposure_days: days };
        let rate = prior.posterior(Counted { events, exposure_days: own });
        // A mean weighed by days, between the two.
        let weighed = (prior.mean_per_day() * days + events) / (days + own);
        prop_assert!((rate.mean_per_day() - weighed).abs() < 1e-12);
        let (low, high) = (prior.mean_per_day().min(events / own), prior.mean_per_day().max(events / own));
        prop_assert!(rate.mean_per_day() >= low - 1e-12 && rate.mean_per_day() <= high + 1e-12);
        let (mean, variance) = rate.events_over(ahead);
        prop_assert!(variance >= mean - 1e-12);
        let table = rate.events_distribution(ahead).moments();
        prop_assert!((table.0 - mean).abs() < 1e-9 && (table.1 - variance).abs() < 1e-6 * (1.0 + variance));
        // A time that does not vary is the plain case.
        let (same_mean, same) = rate.events_over_random(ahead, 0.0);
        prop_assert!((same_mean - mean).abs() < 1e-9 && (same - variance).abs() < 1e-6 * (1.0 + variance));
        let (_, wider) = rate.events_over_random(ahead, ahead * ahead);
        prop_assert!(wider >= same);
        // Two counts one after the other teach as much as their sum.
        let half = Counted { events: events / 2.0, exposure_days: own / 2.0 };
        let first = prior.posterior(half);
        let twice = GroupPrior { shape: first.shape, exposure_days: first.exposure_days }.posterior(half);
        prop_assert!((twice.mean_per_day() - rate.mean_per_day()).abs() < 1e-12);
    }

    #[test]
    fn a_quantile_of_a_rate_leaves_its_share_below(shape in 0.3_f64..60.0, days in 1.0_f64..2_000.0, share in 0.01_f64..0.99) {
        let rate = EventRate { shape, exposure_days: days };
        let at = rate.quantile_per_day(share);
        // Gamma share below by Simpson's rule, on x, or on u = x^shape where that takes a pole at 0 away.
        let top = at * days;
        let (top, density): (f64, Box<dyn Fn(f64) -> f64>) = if shape >= 1.0 {
            let scale = statrs::function::gamma::ln_gamma(shape);
            (top, Box::new(move |x: f64| if x > 0.0 { ((shape - 1.0) * x.ln() - x - scale).exp() } else { 0.0 }))
        } else {
            let scale = statrs::function::gamma::ln_gamma(shape + 1.0);
            (top.powf(shape), Box::new(move |u: f64| (-u.powf(1.0 / shape) - scale).exp()))
        };
        let steps = 4_000;
        let mut sum = density(0.0) + density(top);
        for step in 1..steps {
            sum += density(top * f64::from(step) / f64::from(steps)) * if step % 2 == 1 { 4.0 } else { 2.0 };
        }
        let found = sum * top / f64::from(steps) / 3.0;
        prop_assert!((found - share).abs() < 2e-3, "{found} {share}");
    }

    #[test]
    fn a_discount_of_one_keeps_every_day(old in 10.0_f64..3_000.0, new in 0.0_f64..10.0, month in 0.5_f64..0.999) {
        let none = Discount::per_month(1.0);
        prop_assert!((none.days_between(old, new) - (old - new)).abs() < 1e-9);
        let some = Discount::per_month(month);
        // The integral of the weight, by the midpoint rule.
        let steps = 2_000;
        let step = (old - new) / f64::from(steps);
        let sum: f64 = (0..steps).map(|at| some.weight(new + (f64::from(at) + 0.5) * step) * step).sum();
        prop_assert!((some.days_between(old, new) - sum).abs() < 1e-3 * sum, "{} {sum}", some.days_between(old, new));
        prop_assert!((some.weight(MONTH_DAYS) - month).abs() < 1e-12);
    }

    #[test]
    fn price_bands_are_in_order_and_alike(prices in prop::collection::vec(prop_oneof![Just(5.0), 0.1_f64..900.0], 0..200)) {
        let bands = price_bands(&prices);
        prop_assert_eq!(bands.len(), prices.len());
        for (a, band_a) in prices.iter().zip(&bands) {
            for (b, band_b) in prices.iter().zip(&bands).take(30) {
                prop_assert!(a < b || band_a >= band_b);
                prop_assert!(a.total_cmp(b).is_ne() || band_a == band_b);
            }
        }
        prop_assert!(bands.iter().all(|band| *band < 10));
        prop_assert!(prices.len() >= 60 || bands.iter().all(|band| *band == 0));
    }

    #[test]
    fn sizes_are_drawn_to_the_group_and_keep_to_its_unit(sizes in prop::collection::vec(prop::collection::vec(1.0_f64..40.0, 1..8), 2..8), times in 0.01_f64..100.0) {
        let logs = |times: f64| -> Vec<LogSizes> {
            sizes.iter().map(|part| {
                let mut logs = LogSizes::default();
                part.iter().for_each(|q| logs.add(q * times));
                logs
            }).collect()
        };
        let (plain, scaled) = (logs(1.0), logs(times));
        let group = GroupSizes::fit(plain.iter()).unwrap();
        let other = GroupSizes::fit(scaled.iter()).unwrap();
        for (a, b) in plain.iter().zip(&scaled) {
            let (a, b) = (group.shrink(a), other.shrink(b));
            prop_assert!((a.mean_pieces * times / b.mean_pieces - 1.0).abs() < 1e-6);
            prop_assert!((a.squared_cv - b.squared_cv).abs() < 1e-6 * (1.0 + a.squared_cv));
        }
    }
}

#[test]
fn classes_change_at_the_published_borders() {
    // Syntetos, Boylan & Croston (2005): interval 1.32 periods, squared coefficient of variation 0.49.
    for (interval, squared_cv, class) in [
        (1.0, 0.0, DemandClass::Smooth),
        (1.31, 0.48, DemandClass::Smooth),
        (1.31, 0.49, DemandClass::Erratic),
        (1.32, 0.48, DemandClass::Intermittent),
        (1.32, 0.49, DemandClass::Lumpy),
        (50.0, 9.0, DemandClass::Lumpy),
    ] {
        let figures = ClassFigures {
            interval_periods: interval,
            squared_cv,
        };
        assert_eq!(figures.class(), class, "{interval} {squared_cv}");
    }
    // 0, 3, 0, 1: two of four periods, mean 2, variance 1.
    let by_hand = ClassFigures::of(&[0.0, 3.0, 0.0, 1.0]).unwrap();
    assert!((by_hand.interval_periods - 2.0).abs() < 1e-12);
    assert!((by_hand.squared_cv - 0.25).abs() < 1e-12);
    assert_eq!(ClassFigures::of(&[]), None);
    assert_eq!(ClassFigures::of(&[0.0; 24]), None);
    // What came back is no demand.
    assert_eq!(ClassFigures::of(&[-2.0, 0.0]), None);
}

#[test]
fn a_series_by_hand() {
    // 0 2 0 0 4 with 0.5: sizes 2 then 3; intervals 2 then 2.5; probability 0, .5, .25, .125, .5625.
    let smoothed = Smoothed::new(&[0.0, 2.0, 0.0, 0.0, 4.0], 0.5, 0.5).unwrap();
    assert!((smoothed.size - 3.0).abs() < 1e-12);
    assert!((smoothed.interval_periods - 2.5).abs() < 1e-12);
    assert!((smoothed.probability_share - 0.5625).abs() < 1e-12);
    assert!((smoothed.croston() - 1.2).abs() < 1e-12);
    assert!((smoothed.sba(0.5) - 0.9).abs() < 1e-12);
    assert!((smoothed.tsb() - 1.6875).abs() < 1e-12);
    for none in [&[][..], &[0.0, 0.0][..]] {
        assert_eq!(Smoothed::new(none, 0.1, 0.1), None);
    }
}

#[test]
fn several_usages_in_one_period_are_seen_as_one() {
    // Half of the periods empty: rate ln 2; all of them with demand: half a period is taken as empty.
    let half = Counted::of_periods(12.0, 24.0);
    assert!((half.events - 24.0 * 2.0_f64.ln()).abs() < 1e-9);
    let all = Counted::of_periods(24.0, 24.0);
    assert!((all.events - 24.0 * 48.0_f64.ln()).abs() < 1e-9);
    assert!(Counted::of_periods(0.0, 24.0).events.abs() < 1e-12);
    let mut before = -1.0;
    for with_demand in 0..=24 {
        let events = Counted::of_periods(f64::from(with_demand), 24.0).events;
        assert!(events > before && events >= f64::from(with_demand) - 1e-9);
        before = events;
    }
}

#[test]
fn a_group_without_usages_or_days_says_nothing() {
    let none = Counted {
        events: 0.0,
        exposure_days: 900.0,
    };
    assert_eq!(GroupPrior::fit(&[]), None);
    assert_eq!(GroupPrior::fit(&[none; 5]), None);
    assert_eq!(
        GroupPrior::fit(&[Counted {
            events: 2.0,
            exposure_days: 0.0
        }]),
        None
    );
    let some = [
        none,
        none,
        Counted {
            events: 3.0,
            exposure_days: 900.0,
        },
    ];
    let prior = GroupPrior::fit(&some).unwrap();
    // The mean stays that of the pool: 3 in 2,700 days.
    assert!((prior.mean_per_day() - 3.0 / 2_700.0).abs() < 1e-12);
    // Quantities of nothing and below are no usages.
    let mut logs = LogSizes::default();
    [0.0, -4.0].iter().for_each(|q| logs.add(*q));
    assert_eq!(logs, LogSizes::default());
    assert_eq!(GroupSizes::fit([logs].iter()), None);
}

#[test]
fn every_part_has_a_group_and_every_group_enough_to_learn_from() {
    let class = [
        PartClass::Bearings,
        PartClass::Seals,
        PartClass::Fasteners,
        PartClass::Other,
    ];
    for count in [0_usize, 1, 9, 10, 45, 200] {
        let parts: Vec<Grouped> = (0..count)
            .map(|at| Grouped {
                class: class[at % 7 % 4],
                unit_price: (at % 5 != 0).then_some(1.5 * at as f64),
                events: at % 3,
            })
            .collect();
        let groups = Groups::new(&parts);
        assert_eq!(groups.of_part.len(), count);
        for (part, group) in parts.iter().zip(&groups.of_part) {
            let (of, members) = &groups.groups[*group];
            assert!(of.class.is_none_or(|class| class == part.class));
            if let Some((low, high)) = of.prices {
                let price = part.unit_price.unwrap();
                assert!((low..=high).contains(&price), "{price} in {of}");
            }
            let is_whole = of.class.is_none() && of.prices.is_none();
            assert!(is_whole || members.len() >= 10, "{of}: {}", members.len());
        }
    }
}
