//! The ways to deal the figures of a question out for a family, each in either unit.

use std::rc::Rc;

use super::super::reading::{Reading, Role};
use super::assign::Assignment;
use super::figure::Figure;
use super::near::Ways;
use crate::part::{Family, SizeKey};

/// One way to deal the figures out, in one unit.
#[derive(Debug)]
pub(super) struct Deal {
    /// What each figure is of.
    pub(super) roles: Rc<[Role]>,
    pub(super) is_inch: bool,
    /// How usual the unit and the way are.
    pub(super) share: f64,
}

/// Every way in either unit, the first unit first, over the figures as they occur in them.
///
/// Three figures in six orders are nine figures as dimensions, not eighteen: each is looked at once a size.
#[derive(Debug)]
pub(super) struct Deals<'a> {
    pub(super) dealt: Vec<Figure<'a>>,
    pub(super) ways: Vec<Deal>,
    /// Positions of the figures of each way, one way after the other.
    pub(super) figures: Figures,
    /// The ways whose figures are here.
    made: Ways,
}

/// Positions of the figures of each way, in the order of the question.
#[derive(Debug, Default)]
pub(super) struct Figures {
    positions: Vec<u8>,
    /// Figures of a way.
    count: usize,
}

impl Figures {
    /// Those of one way.
    pub(super) fn of(&self, way: usize) -> impl Iterator<Item = usize> {
        let start = way * self.count;
        let positions = self.positions.get(start..start + self.count);
        let positions = positions.unwrap_or_default().iter();
        positions.map(|at| usize::from(*at))
    }
}

impl<'a> Deals<'a> {
    /// Of a family; `inch_share` is the share of figures without a unit that are inches. Figures are looked at in those ways
    /// only in which a size comes near.
    pub(super) fn new(
        readings: &'a [Reading],
        family: Family,
        (ways, made): (&[Assignment], Ways),
        inch_share: f64,
    ) -> Self {
        let has_inch = readings.iter().all(|reading| reading.as_inches.is_some());
        let units = [
            (false, if has_inch { 1.0 - inch_share } else { 1.0 }),
            (true, inch_share),
        ];
        let mut deals = Self {
            dealt: Vec::new(),
            ways: Vec::with_capacity(2 * ways.len()),
            figures: Figures {
                positions: Vec::with_capacity(2 * ways.len() * readings.len()),
                count: readings.len(),
            },
            made,
        };
        let mut bit: Ways = 1;
        for (is_inch, unit_share) in units.into_iter().take(if has_inch { 2 } else { 1 }) {
            // Where each figure of this unit is dealt as each role.
            let mut known = vec![[None::<usize>; Role::COUNT]; readings.len()];
            for way in ways {
                let is_made = made & bit != 0;
                bit <<= 1;
                for ((reading, known), role) in
                    readings.iter().zip(&mut known).zip(way.roles.iter())
                {
                    if !is_made {
                        deals.figures.positions.push(u8::MAX);
                        continue;
                    }
                    let at = known[*role as usize].get_or_insert_with(|| {
                        let figure = Figure::new(family, reading, *role, is_inch);
                        deals.dealt.push(figure);
                        deals.dealt.len() - 1
                    });
                    deals.figures.positions.push(*at as u8);
                }
                deals.ways.push(Deal {
                    roles: Rc::clone(&way.roles),
                    is_inch,
                    share: unit_share * way.share,
                });
            }
        }
        deals
    }
}

impl Deals<'_> {
    /// True where the figures of all these ways are here.
    pub(super) const fn hold(&self, ways: Ways) -> bool {
        ways & !self.made == 0
    }

    /// Those of some ways in which a size is near every figure: of a fourth dimension the windows know nothing.
    pub(super) fn ways_near(&self, size: &SizeKey, among: Ways) -> Ways {
        let (mut left, mut near) = (among, 0);
        while left != 0 {
            let at = left.trailing_zeros();
            left &= left - 1;
            let mut figures = self.figures.of(at as usize);
            let is_near = figures.all(|figure| self.dealt[figure].is_near(size));
            near |= Ways::from(is_near) << at;
        }
        near
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;
    use crate::lookup::likelihood::assign::assignments;

    #[test]
    fn a_figure_that_stands_in_many_ways_is_dealt_once() {
        // Arithmetic: three figures as three dimensions, in one unit or two; three as four dimensions in 24 orders.
        for (text, family, figures, ways) in [
            ("40 mm x 80 mm x 18 mm", Family::DeepGrooveBall, 9, 6),
            ("4 x 8 x 3", Family::DeepGrooveBall, 18, 12),
            ("4 mm x 8 mm x 3 mm", Family::ThrustBall, 12, 24),
            ("bore 40 mm od 80 mm 18 mm", Family::DeepGrooveBall, 3, 1),
            ("40 mm x 80 mm", Family::ShaftRetainingRing, 0, 0),
        ] {
            let question = Question::read(text).unwrap();
            let assigned = assignments(family, &question.readings);
            let deals = Deals::new(&question.readings, family, (&assigned, Ways::MAX), 0.15);
            assert_eq!(
                (deals.dealt.len(), deals.ways.len()),
                (figures, ways),
                "{text} {family}"
            );
            let share: f64 = deals.ways.iter().map(|deal| deal.share).sum();
            assert!(ways == 0 || (share - 1.0).abs() < 1e-12, "{text}: {share}");
            for (way, deal) in deals.ways.iter().enumerate() {
                assert_eq!(deals.figures.of(way).count(), deal.roles.len());
                for (at, role) in deals.figures.of(way).zip(deal.roles.iter()) {
                    assert_eq!(deals.dealt[at].role, *role);
                }
            }
        }
    }
}
