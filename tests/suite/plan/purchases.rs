//! Plans for fixed lead times: what must hold whatever the offers, against trying every combination.

use proptest::prelude::*;
use sparewright::plan::{BestInTotal, Choice, Freight, MOST_NODES, Problem, best_in_total};

const SUPPLIERS: usize = 3;

fn choice() -> impl Strategy<Value = Choice> {
    let one =
        (100_i64..9_000, 0_usize..SUPPLIERS, 0_usize..6).prop_map(|(cents, supplier, level)| {
            Choice {
                cents,
                goods: vec![(supplier, cents)],
                level,
            }
        });
    // From the shelf: free, at once, no supplier.
    let shelf = Just(Choice {
        cents: 0,
        goods: Vec::new(),
        level: 0,
    });
    // One pack here and the rest there.
    let two = (100_i64..9_000, 100_i64..9_000, 0_usize..6).prop_map(|(a, b, level)| Choice {
        cents: a + b,
        goods: vec![(0, a), (1, b)],
        level,
    });
    prop_oneof![8 => one, 1 => shelf, 2 => two]
}

fn problems() -> impl Strategy<Value = Problem> {
    let lines = prop::collection::vec(prop::collection::vec(choice(), 1..5), 1..5);
    let freight = prop::collection::vec(
        (0_i64..4_000, prop::option::of(2_000_i64..20_000)),
        SUPPLIERS,
    );
    let still = prop::collection::vec(0_i64..5_000, 6);
    (lines, freight, still).prop_map(|(lines, freight, steps)| {
        let mut sum = 0;
        let level_cents = steps
            .iter()
            .map(|step| {
                sum += step;
                sum
            })
            .collect();
        let freight = freight
            .into_iter()
            .map(|(cents, free_from_cents)| Freight {
                cents,
                free_from_cents,
            })
            .collect();
        Problem {
            lines,
            freight,
            level_cents,
        }
    })
}

fn solved(problem: &Problem) -> BestInTotal {
    best_in_total(problem, MOST_NODES).unwrap()
}

/// The least total, every combination added up here.
fn tried(problem: &Problem) -> i64 {
    fn next(problem: &Problem, line: usize, taken: &mut Vec<usize>, least: &mut i64) {
        if line < problem.lines.len() {
            for at in 0..problem.lines[line].len() {
                taken.push(at);
                next(problem, line + 1, taken, least);
                taken.pop();
            }
            return;
        }
        let chosen: Vec<&Choice> = taken
            .iter()
            .zip(&problem.lines)
            .map(|(at, line)| &line[*at])
            .collect();
        let mut sum: i64 = chosen.iter().map(|choice| choice.cents).sum();
        for (supplier, freight) in problem.freight.iter().enumerate() {
            let goods = chosen.iter().flat_map(|choice| &choice.goods);
            let of: Vec<i64> = goods
                .filter(|(of, _)| *of == supplier)
                .map(|(_, value)| *value)
                .collect();
            let is_free = freight
                .free_from_cents
                .is_some_and(|from| of.iter().sum::<i64>() >= from);
            if !of.is_empty() && !is_free {
                sum += freight.cents;
            }
        }
        let level = chosen.iter().map(|choice| choice.level).max().unwrap_or(0);
        *least = (*least).min(sum + problem.level_cents[level]);
    }
    let mut least = i64::MAX;
    next(problem, 0, &mut Vec::new(), &mut least);
    least
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 250, ..ProptestConfig::default() })]

    #[test]
    fn the_least_total_is_that_of_adding_up_every_combination(problem in problems()) {
        let best = solved(&problem);
        prop_assert!(best.is_proved());
        prop_assert_eq!(best.total_cents, tried(&problem));
        prop_assert_eq!(problem.total_cents(&best.picked), best.total_cents);
        let again = problem.pick(best.picked.choices.clone());
        prop_assert_eq!(&again, &best.picked);
    }

    #[test]
    fn the_order_of_lines_offers_and_suppliers_decides_nothing(problem in problems()) {
        let mut turned = problem.clone();
        turned.lines.reverse();
        for line in &mut turned.lines {
            line.reverse();
            for choice in line {
                for (supplier, _) in &mut choice.goods {
                    *supplier = SUPPLIERS - 1 - *supplier;
                }
            }
        }
        turned.freight.reverse();
        prop_assert_eq!(solved(&turned).total_cents, solved(&problem).total_cents);
    }

    #[test]
    fn an_offer_more_never_costs_and_one_less_never_saves(problem in problems(), more in choice()) {
        let own = solved(&problem).total_cents;
        let mut wider = problem.clone();
        wider.lines[0].push(more);
        prop_assert!(solved(&wider).total_cents <= own);
        let mut narrower = problem.clone();
        if narrower.lines[0].len() > 1 {
            narrower.lines[0].pop();
            prop_assert!(solved(&narrower).total_cents >= own);
        }
    }

    #[test]
    fn dearer_freight_or_standing_still_never_saves(problem in problems(), more in 1_i64..3_000) {
        let own = solved(&problem).total_cents;
        for supplier in 0..SUPPLIERS {
            let mut dearer = problem.clone();
            dearer.freight[supplier].cents += more;
            let total = solved(&dearer).total_cents;
            prop_assert!((own..=own + more).contains(&total), "{own} {total}");
        }
        let mut slower = problem.clone();
        slower.level_cents.iter_mut().for_each(|cents| *cents += more);
        prop_assert_eq!(solved(&slower).total_cents, own + more);
    }

    #[test]
    fn all_figures_times_a_number_give_the_total_times_it(problem in problems(), times in 2_i64..9) {
        let mut larger = problem.clone();
        for choice in larger.lines.iter_mut().flatten() {
            choice.cents *= times;
            choice.goods.iter_mut().for_each(|(_, value)| *value *= times);
        }
        for freight in &mut larger.freight {
            freight.cents *= times;
            freight.free_from_cents = freight.free_from_cents.map(|from| from * times);
        }
        larger.level_cents.iter_mut().for_each(|cents| *cents *= times);
        prop_assert_eq!(solved(&larger).total_cents, times * solved(&problem).total_cents);
    }

    #[test]
    fn without_freight_and_downtime_each_line_takes_its_cheapest(problem in problems()) {
        let mut plain = problem.clone();
        plain.freight.iter_mut().for_each(|freight| freight.cents = 0);
        plain.level_cents.iter_mut().for_each(|cents| *cents = 0);
        let least: i64 = plain.lines.iter()
            .map(|line| line.iter().map(|choice| choice.cents).min().unwrap()).sum();
        prop_assert_eq!(solved(&plain).total_cents, least);
    }

    #[test]
    fn a_line_from_the_shelf_changes_nothing(problem in problems(), at in 0_usize..5) {
        let mut more = problem.clone();
        let at = at.min(more.lines.len());
        more.lines.insert(at, vec![Choice { cents: 0, goods: Vec::new(), level: 0 }]);
        prop_assert_eq!(solved(&more).total_cents, solved(&problem).total_cents);
    }
}

fn line(offers: &[(i64, usize, usize)]) -> Vec<Choice> {
    let choice = |(cents, supplier, level): &(i64, usize, usize)| Choice {
        cents: *cents,
        goods: vec![(*supplier, *cents)],
        level: *level,
    };
    offers.iter().map(choice).collect()
}

#[test]
fn free_freight_is_worth_a_dearer_offer_just_where_it_pays() {
    // One line at 90 from the first or 94 from the second; another of 110 from the second only, which sends for 10 and
    // from 200 on for nothing. With both there: 204. With one each: 90 + 110 + 5 + 10 = 215.
    let mut problem = Problem {
        lines: vec![
            line(&[(9_000, 0, 0), (9_400, 1, 0)]),
            line(&[(11_000, 1, 0)]),
        ],
        freight: vec![
            Freight {
                cents: 500,
                free_from_cents: None,
            },
            Freight {
                cents: 1_000,
                free_from_cents: Some(20_000),
            },
        ],
        level_cents: vec![0],
    };
    let best = solved(&problem);
    assert_eq!(
        (best.total_cents, best.picked.choices),
        (20_400, vec![1, 0])
    );
    // A cent short of the value from which it is free: 90 + 110 + 15 = 215 against 93.99 + 106.00 + 10 = 209.99.
    problem.lines[0][1] = line(&[(9_399, 1, 0)]).remove(0);
    problem.lines[1] = line(&[(10_600, 1, 0)]);
    let best = solved(&problem);
    assert_eq!(
        (best.total_cents, best.picked.choices),
        (20_999, vec![1, 0])
    );
}

#[test]
fn the_slowest_line_alone_decides_how_long_the_machine_stands() {
    // Hurrying the one line does not help while the other takes as long: the cheap and slow offer of both.
    let slow_or_quick = line(&[(1_000, 0, 3), (4_000, 1, 1)]);
    let problem = |other: Vec<Choice>| Problem {
        lines: vec![slow_or_quick.clone(), other],
        freight: vec![
            Freight {
                cents: 0,
                free_from_cents: None
            };
            2
        ],
        level_cents: vec![0, 5_000, 9_000, 12_000],
    };
    let held = solved(&problem(line(&[(500, 0, 3)])));
    assert_eq!(
        (held.picked.choices, held.total_cents),
        (vec![0, 0], 13_500)
    );
    let free = solved(&problem(line(&[(500, 0, 1)])));
    assert_eq!((free.picked.choices, free.total_cents), (vec![1, 0], 9_500));
}

#[test]
fn a_line_without_an_offer_has_no_plan_and_no_lines_cost_nothing() {
    let empty = Problem {
        lines: vec![line(&[(100, 0, 0)]), Vec::new()],
        freight: vec![Freight {
            cents: 0,
            free_from_cents: None,
        }],
        level_cents: vec![0],
    };
    assert_eq!(best_in_total(&empty, MOST_NODES), None);
    assert_eq!(empty.try_all(1_000), None);
    let nothing = Problem {
        lines: Vec::new(),
        ..empty
    };
    let best = solved(&nothing);
    assert_eq!((best.total_cents, best.picked.choices), (0, Vec::new()));
    let one = Problem {
        lines: vec![line(&[(1, 0, 0), (2, 0, 0)]); 12],
        ..nothing
    };
    assert_eq!(one.try_all(4_095), None, "2^12 combinations are one more");
    assert!(one.try_all(4_096).is_some());
}
