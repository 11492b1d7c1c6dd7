//! Which figure is of which dimension: the ways unnamed figures can be dealt out.

use std::rc::Rc;

use super::super::reading::{Reading, Role};
use crate::part::Family;

/// Share of questions that give the figures in another order than the family's own (common practice, no source).
const OTHER_ORDER_SHARE: f64 = 0.05;
/// Share of the questions with fewer figures than dimensions that give the first dimensions.
const FIRST_ONES_SHARE: f64 = 0.6;

/// One way: a role for every figure, and how usual it is.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Assignment {
    pub(super) roles: Rc<[Role]>,
    pub(super) share: f64,
}

/// Every way to deal the figures out for a family; none where a named figure is of a dimension it has not.
pub(super) fn assignments(family: Family, readings: &[Reading]) -> Vec<Assignment> {
    let named: Vec<Role> = readings.iter().filter_map(|reading| reading.role).collect();
    if named
        .iter()
        .any(|role| role.dimension(family).is_none() && !is_ring_outside(family, *role))
    {
        return Vec::new();
    }
    let taken: Vec<_> = named
        .iter()
        .filter_map(|role| role.dimension(family))
        .collect();
    let open: Vec<Role> = family
        .key_dimensions()
        .iter()
        .filter(|dimension| !taken.contains(dimension))
        .map(|dimension| Role::of(family, *dimension))
        .collect();
    let unnamed = readings.len() - named.len();
    if unnamed > open.len() {
        return Vec::new();
    }
    let orders = orders(&open, unnamed);
    let usual = usual(family, &open, unnamed);
    let rising = orders
        .iter()
        .filter(|order| is_rising(&open, order))
        .count();
    let falling = orders.len() - rising;
    orders
        .into_iter()
        .map(|order| {
            let in_order = 1.0 - if falling > 0 { OTHER_ORDER_SHARE } else { 0.0 };
            let share = if !is_rising(&open, &order) {
                OTHER_ORDER_SHARE / falling as f64
            } else if rising == 1 {
                in_order
            } else if order == usual {
                in_order * FIRST_ONES_SHARE
            } else {
                in_order * (1.0 - FIRST_ONES_SHARE) / (rising - 1) as f64
            };
            Assignment {
                roles: fill(readings, &order),
                share,
            }
        })
        .collect()
}

fn is_ring_outside(family: Family, role: Role) -> bool {
    family == Family::ORing && role == Role::Outer
}

/// The dimensions people give when they give too few: the first ones, and of a thrust ball bearing d, D, T.
fn usual(family: Family, open: &[Role], count: usize) -> Vec<Role> {
    let rest: Vec<Role> = if family == Family::ThrustBall && count < open.len() {
        open.iter()
            .copied()
            .filter(|role| *role != Role::WasherBore)
            .collect()
    } else {
        open.to_vec()
    };
    rest.into_iter().take(count).collect()
}

/// Ordered choices of `count` out of the open roles.
fn orders(open: &[Role], count: usize) -> Vec<Vec<Role>> {
    if count == 0 {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for role in open {
        let rest: Vec<Role> = open.iter().copied().filter(|other| other != role).collect();
        for mut order in orders(&rest, count - 1) {
            order.insert(0, *role);
            all.push(order);
        }
    }
    all
}

fn is_rising(open: &[Role], order: &[Role]) -> bool {
    let at = |role: &Role| open.iter().position(|other| other == role);
    order.windows(2).all(|pair| at(&pair[0]) < at(&pair[1]))
}

fn fill(readings: &[Reading], order: &[Role]) -> Rc<[Role]> {
    let mut rest = order.iter().copied();
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
