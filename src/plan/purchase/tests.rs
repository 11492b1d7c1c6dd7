use proptest::prelude::*;

use super::*;
use crate::plan::freight::Freight;

/// Small numbers that look random, the same in every run.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, below: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % below
    }
}

fn random(seed: u64, lines: usize, offers: usize, suppliers: usize, free: bool) -> Problem {
    let mut dice = Dice(seed);
    let levels = 40;
    let freight = (0..suppliers)
        .map(|_| Freight {
            cents: 500 + dice.roll(4_500) as i64,
            free_from_cents: (free && dice.roll(2) == 0).then(|| 8_000 + dice.roll(20_000) as i64),
        })
        .collect();
    let lines = (0..lines)
        .map(|_| {
            let price = 500 + dice.roll(12_000);
            (0..offers)
                .map(|_| {
                    let level = dice.roll(levels) as usize;
                    let slow = levels - level as u64;
                    let cents = (price + price * dice.roll(60 + 2 * slow) / 100) as i64;
                    let mut goods = vec![(dice.roll(suppliers as u64) as usize, cents)];
                    if dice.roll(8) == 0 {
                        let second = dice.roll(suppliers as u64) as usize;
                        if second != goods[0].0 {
                            goods.push((second, cents / 3));
                            goods[0].1 -= cents / 3;
                        }
                    }
                    Choice {
                        cents,
                        goods,
                        level,
                    }
                })
                .collect()
        })
        .collect();
    Problem {
        lines,
        freight,
        level_cents: (0..levels as i64).map(|level| level * 900).collect(),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn the_best_plan_is_that_of_trying_everything(seed in any::<u64>(), lines in 1_usize..6, offers in 1_usize..5, suppliers in 1_usize..5, free in any::<bool>()) {
        let problem = random(seed, lines, offers, suppliers, free);
        let tried = problem.try_all(100_000).unwrap();
        let best = best_in_total(&problem, MOST_NODES).unwrap();
        prop_assert!(best.is_proved());
        prop_assert_eq!(best.total_cents, problem.total_cents(&tried));
        prop_assert_eq!(best.picked.clone(), problem.pick(best.picked.choices.clone()));
    }

    #[test]
    fn every_point_of_the_curve_is_that_of_trying_everything(seed in any::<u64>(), lines in 1_usize..5, offers in 1_usize..5, suppliers in 1_usize..4, free in any::<bool>()) {
        let problem = random(seed, lines, offers, suppliers, free);
        let levels: Vec<usize> = (0..problem.level_cents.len()).collect();
        let points = curve(&problem, &levels, MOST_NODES);
        for level in levels {
            let mut cut = problem.clone();
            for line in &mut cut.lines {
                line.retain(|choice| choice.level <= level);
            }
            cut.level_cents.fill(0);
            let tried = cut.try_all(100_000).map(|picked| picked.spend_cents);
            let of_curve = points.iter().filter(|point| point.picked.level <= level).map(|point| point.picked.spend_cents).min();
            prop_assert_eq!(tried, of_curve);
        }
    }

    #[test]
    fn a_cheaper_or_faster_choice_never_makes_the_best_plan_dearer(seed in any::<u64>(), lines in 1_usize..9, which in any::<(usize, usize)>(), cheaper in 0_i64..3_000, faster in 0_usize..20) {
        let problem = random(seed, lines, 5, 4, false);
        let before = best_in_total(&problem, MOST_NODES).unwrap();
        let mut better = problem.clone();
        let choice = &mut better.lines[which.0 % lines][which.1 % 5];
        choice.cents = (choice.cents - cheaper).max(1);
        choice.level = choice.level.saturating_sub(faster);
        let after = best_in_total(&better, MOST_NODES).unwrap();
        prop_assert!(after.total_cents <= before.total_cents);
    }
}

#[test]
fn sixty_lines_of_twelve_offers_are_proved() {
    for (seed, suppliers) in [(1, 12), (2, 20), (3, 30), (4, 8)] {
        let problem = random(seed, 60, 12, suppliers, seed == 4);
        let best = best_in_total(&problem, MOST_NODES).unwrap();
        assert!(best.is_proved(), "{suppliers} suppliers");
    }
}

#[test]
fn a_search_that_is_cut_short_states_its_gap() {
    let problem = random(7, 40, 8, 25, true);
    let whole = best_in_total(&problem, MOST_NODES).unwrap();
    let cut = best_in_total(&problem, 1).unwrap();
    assert!(cut.bound_cents <= whole.total_cents && whole.total_cents <= cut.total_cents);
}

#[test]
fn a_budget_buys_the_earliest_moment_it_can() {
    let problem = random(11, 5, 5, 3, false);
    let levels: Vec<usize> = (0..problem.level_cents.len()).collect();
    for point in curve(&problem, &levels, MOST_NODES) {
        let picked = within_budget(&problem, point.picked.spend_cents, MOST_NODES).unwrap();
        assert_eq!(picked.level, point.picked.level);
    }
    assert_eq!(within_budget(&problem, 0, MOST_NODES), None);
}

fn random_chances(seed: u64, lines: usize, offers: usize) -> Chances {
    let problem = random(seed, lines, offers, 4, seed.is_multiple_of(2));
    let mut dice = Dice(seed ^ 77);
    let count = problem.level_cents.len();
    Chances {
        lines: problem
            .lines
            .iter()
            .map(|line| {
                line.iter()
                    .map(|choice| {
                        let spread = 1.0 + dice.roll(12) as f64;
                        Chance {
                            cents: choice.cents,
                            goods: choice.goods.clone(),
                            shares: (0..count)
                                .map(|at| {
                                    let late = (at as f64 - choice.level as f64) / spread;
                                    if at + 1 == count {
                                        1.0
                                    } else {
                                        1.0 / (1.0 + (-3.0 * late).exp())
                                    }
                                })
                                .collect(),
                        }
                    })
                    .collect()
            })
            .collect(),
        freight: problem.freight.clone(),
        still_cents: problem
            .level_cents
            .iter()
            .map(|cents| 3.0 * *cents as f64)
            .collect(),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    #[test]
    fn the_best_by_expected_cost_is_that_of_trying_everything(seed in any::<u64>(), lines in 1_usize..6, offers in 1_usize..5) {
        let chances = random_chances(seed, lines, offers);
        let best = chances.best(&[], 1_000_000).unwrap();
        prop_assert!(best.is_proved());
        prop_assert!((best.cents - chances.try_all()).abs() < 1e-3);
        let cut = chances.best(&[], 2).unwrap();
        prop_assert!(cut.bound_cents <= best.cents + 1e-3 && best.cents <= cut.cents + 1e-3);
    }
}
