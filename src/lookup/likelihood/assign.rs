//! Which figure is of which dimension: the ways unnamed figures can be dealt out.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use super::super::reading::{Reading, Role};
use super::mixed::Mixing;
use crate::part::{Family, Measured};

/// Share of questions that give the figures in another order than the family's own (common practice, no source).
const OTHER_ORDER_SHARE: f64 = 0.05;
/// Share of the questions with fewer figures than dimensions that give the first dimensions.
const FIRST_ONES_SHARE: f64 = 0.6;

/// Sets of ways that are remembered; with more, all are forgotten.
const MOST_KEPT: usize = 256;
/// Figures of a question whose ways are remembered at most: a byte of the key each.
const MOST_FIGURES: usize = 8;

/// One way: a role for every figure, and how usual it is.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Assignment {
    pub(super) roles: Rc<[Role]>,
    /// Place of each figure among the key dimensions of the family; `None` for what is none of them.
    pub(super) places: Rc<[Option<u8>]>,
    pub(super) share: f64,
}

thread_local! {
    /// Ways by family and by what the figures are named, which is all that they hang on.
    static KEPT: RefCell<HashMap<[u64; 2], Rc<Vec<Assignment>>, Mixing>> = RefCell::default();
}

/// The [`assignments`] for a family, remembered from question to question.
pub(super) fn ways(family: Family, readings: &[Reading]) -> Rc<Vec<Assignment>> {
    let new = || Rc::new(assignments(family, readings));
    if readings.len() > MOST_FIGURES {
        return new();
    }
    let name = |reading: &Reading| reading.role.map_or(1, |role| role as u64 + 2);
    let names = readings.iter().fold(0, |key, one| key << 8 | name(one));
    KEPT.with_borrow_mut(|kept| {
        if kept.len() >= MOST_KEPT {
            kept.clear();
        }
        Rc::clone(kept.entry([family as u64, names]).or_insert_with(new))
    })
}

/// Most dimensions that a family has.
const MOST: usize = 4;

/// Which of the open roles each unnamed figure takes; only the first places count, one a figure.
type Order = [u8; MOST];

/// Every way to deal the figures out for a family; none where a named figure is of a dimension it has not.
pub(super) fn assignments(family: Family, readings: &[Reading]) -> Vec<Assignment> {
    let named = || readings.iter().filter_map(|reading| reading.role);
    let is_of_family = |role: Role| role.place(family).is_some() || is_ring_outside(family, role);
    if !named().all(is_of_family) {
        return Vec::new();
    }
    let is_taken = |at: usize| named().any(|role| role.place(family) == Some(at));
    let dimensions = family.key_dimensions().iter().enumerate();
    let open: Vec<Role> = dimensions
        .filter(|(at, _)| !is_taken(*at))
        .map(|(_, dimension)| Role::of(family, *dimension))
        .collect();
    let unnamed = readings.len() - named().count();
    if unnamed > open.len() {
        return Vec::new();
    }
    let orders = orders(open.len(), unnamed);
    let usual = usual(&open, unnamed);
    let rising = orders
        .iter()
        .filter(|order| is_rising(order, unnamed))
        .count();
    let falling = orders.len() - rising;
    let in_order = 1.0 - if falling > 0 { OTHER_ORDER_SHARE } else { 0.0 };
    orders
        .iter()
        .map(|order| {
            let share = if !is_rising(order, unnamed) {
                OTHER_ORDER_SHARE / falling as f64
            } else if rising == 1 {
                in_order
            } else if *order == usual {
                in_order * FIRST_ONES_SHARE
            } else {
                in_order * (1.0 - FIRST_ONES_SHARE) / (rising - 1) as f64
            };
            let roles = fill(readings, &open, &order[..unnamed]);
            let place = |role: &Role| role.place(family).map(|at| at as u8);
            Assignment {
                places: roles.iter().map(place).collect(),
                roles,
                share,
            }
        })
        .collect()
}

/// True for the outside of a rubber ring, which is none of its dimensions and is measured sometimes.
pub(super) const fn is_ring_outside(family: Family, role: Role) -> bool {
    matches!(family.facts().bench.measured, Measured::RubberRing) && matches!(role, Role::Outer)
}

/// The dimensions people give when they give too few: the first ones, and of a thrust ball bearing d, D, T.
fn usual(open: &[Role], count: usize) -> Order {
    let has_too_few = count < open.len();
    let given = open
        .iter()
        .zip(0..)
        .filter(|(role, _)| !has_too_few || **role != Role::WasherBore);
    let mut order = Order::default();
    for (place, (_, at)) in order.iter_mut().zip(given).take(count) {
        *place = at;
    }
    order
}

/// Ordered choices of `count` out of so many open roles; what the last figure takes changes fastest.
fn orders(open: usize, count: usize) -> Vec<Order> {
    let mut all = vec![Order::default()];
    for place in 0..count {
        let longer = all.iter().flat_map(|order| {
            let is_free = |next: &u8| !order[..place].contains(next);
            (0..open as u8).filter(is_free).map(|next| {
                let mut longer = *order;
                longer[place] = next;
                longer
            })
        });
        all = longer.collect();
    }
    all
}

fn is_rising(order: &Order, count: usize) -> bool {
    order[..count].is_sorted()
}

fn fill(readings: &[Reading], open: &[Role], order: &[u8]) -> Rc<[Role]> {
    let mut rest = order.iter().map(|at| open[usize::from(*at)]);
    readings
        .iter()
        .filter_map(|reading| reading.role.or_else(|| rest.next()))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{LengthUnit, read_length};

    fn readings(roles: &[Option<Role>]) -> Vec<Reading> {
        roles
            .iter()
            .map(|role| Reading {
                role: *role,
                length: read_length("40", LengthUnit::Mm).unwrap(),
                as_inches: None,
                instrument: None,
                is_worn: false,
                is_measured: false,
                is_nominal_inch: false,
            })
            .collect()
    }

    #[test]
    fn shares_add_up_and_the_own_order_leads() {
        for (family, roles) in [
            (Family::DeepGrooveBall, vec![None, None, None]),
            (Family::DeepGrooveBall, vec![None, None]),
            (Family::ThrustBall, vec![None, None, None]),
            (Family::LipSeal, vec![Some(Role::FreeLip), None]),
            (Family::ShaftRetainingRing, vec![None]),
        ] {
            let all = assignments(family, &readings(&roles));
            let sum: f64 = all.iter().map(|a| a.share).sum();
            assert!((sum - 1.0).abs() < 1e-9, "{family} {roles:?}: {sum}");
        }
        let three = assignments(Family::ThrustBall, &readings(&[None, None, None]));
        let best = three
            .iter()
            .max_by(|a, b| a.share.total_cmp(&b.share))
            .unwrap();
        assert_eq!(*best.roles, [Role::Inner, Role::Outer, Role::Width]);
    }

    #[test]
    fn remembered_ways_are_those_worked_out_anew() {
        let named = [None, Some(Role::Inner), Some(Role::Shaft), Some(Role::Room)];
        for family in Family::ALL {
            for first in named {
                for second in named {
                    let readings = readings(&[first, second, None]);
                    for _ in 0..2 {
                        assert_eq!(*ways(family, &readings), assignments(family, &readings));
                    }
                }
            }
            // One figure more or less is another question, and so many are not remembered.
            for count in [1, 2, 3, 4, 9] {
                let readings = readings(&vec![None; count]);
                assert_eq!(*ways(family, &readings), assignments(family, &readings));
            }
        }
    }

    #[test]
    fn orders_are_every_choice_once() {
        // Arithmetic: n! / (n - k)! ordered choices of k out of n.
        for (open, count, choices) in [
            (4, 3, 24),
            (3, 3, 6),
            (3, 2, 6),
            (2, 1, 2),
            (1, 1, 1),
            (4, 0, 1),
            (0, 0, 1),
        ] {
            let all = orders(open, count);
            assert_eq!(all.len(), choices, "{open} {count}");
            assert!(all.is_sorted() && all.windows(2).all(|pair| pair[0] != pair[1]));
            for order in &all {
                let taken = &order[..count];
                assert!(taken.iter().all(|at| usize::from(*at) < open));
                let is_once = |at| taken.iter().filter(|other| *other == at).count() == 1;
                assert!(taken.iter().all(is_once), "{order:?}");
            }
        }
    }

    #[test]
    fn a_named_figure_keeps_its_name_and_a_strange_one_bars_the_family() {
        let all = assignments(
            Family::DeepGrooveBall,
            &readings(&[Some(Role::Outer), Some(Role::Width)]),
        );
        assert_eq!(all.len(), 1);
        assert_eq!(*all[0].roles, [Role::Outer, Role::Width]);
        assert!(assignments(Family::DeepGrooveBall, &readings(&[Some(Role::Section)])).is_empty());
        assert!(assignments(Family::ShaftRetainingRing, &readings(&[None, None])).is_empty());
    }
}
