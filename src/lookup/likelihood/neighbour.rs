//! The standard sizes beside figures that are none: what a slip in one figure, or a narrower part, would make of them.

use super::super::reading::{Reading, Role};
use super::assign::assignments;
use super::candidate::{Candidate, of_family};
use super::near::figure;
use crate::part::{Family, SizeKey};
use crate::units::Length;

/// Most sizes named.
const MOST: usize = 3;
/// No figure of a neighbour lies further off than this, mm, or than this share of it (common practice, no source).
const REACH_MM: f64 = 1.5;
const REACH_SHARE: f64 = 0.06;

/// A size of the tables beside the figures.
#[derive(Debug, Clone, Copy)]
pub struct Neighbour {
    /// The size that the figures say.
    pub asked: SizeKey,
    /// The size of the tables.
    pub candidate: &'static Candidate,
    /// Differences as shares of what is allowed, summed: the order they are named in.
    off: f64,
}

/// The nearest sizes of the tables, nearest first; none where a dimension was not read, or not as the part has it.
///
/// Figures without a unit are millimetres, and inches only where nothing lies beside them so.
///
/// Of the families given, of any where none are.
pub fn neighbours(families: &[Family], readings: &[Reading]) -> Vec<Neighbour> {
    let is_of_part = |reading: &Reading| {
        reading
            .role
            .is_none_or(|role| role != Role::Room && !role.is_free())
    };
    if !readings.iter().all(is_of_part) {
        return Vec::new();
    }
    let has_inch = readings.iter().all(|reading| reading.as_inches.is_some());
    [false, true]
        .into_iter()
        .take(if has_inch { 2 } else { 1 })
        .map(|is_inch| of_unit(families, readings, is_inch))
        .find(|found| !found.is_empty())
        .unwrap_or_default()
}

fn of_unit(families: &[Family], readings: &[Reading], is_inch: bool) -> Vec<Neighbour> {
    let mut all: Vec<Neighbour> = Vec::new();
    for of in Family::ALL {
        let is_whole = of.key_dimensions().len() == readings.len();
        let may_be = families.is_empty() || families.contains(&of);
        if !may_be || !is_whole {
            continue;
        }
        let sizes: Vec<SizeKey> = assignments(of, readings)
            .iter()
            .filter_map(|way| asked(of, readings, &way.roles, is_inch))
            .collect();
        for candidate in of_family(of) {
            let nearest = sizes
                .iter()
                .filter_map(|asked| Some((off(asked, &candidate.size)?, asked)))
                .min_by(|a, b| a.0.total_cmp(&b.0));
            all.extend(nearest.map(|(off, asked)| Neighbour {
                asked: *asked,
                candidate,
                off,
            }));
        }
    }
    all.sort_by(|a, b| {
        let by_size = || a.candidate.size.cmp(&b.candidate.size);
        a.off.total_cmp(&b.off).then_with(by_size)
    });
    all.truncate(MOST);
    all
}

/// The size that the figures say, dealt out one way; `None` where it cannot be one.
fn asked(family: Family, readings: &[Reading], roles: &[Role], is_inch: bool) -> Option<SizeKey> {
    let lengths: Option<Vec<Length>> = family
        .key_dimensions()
        .iter()
        .map(|dimension| {
            let of_it = |role: &Role| role.dimension(family) == Some(*dimension);
            let at = roles.iter().position(of_it)?;
            Some(figure(&readings[at], is_inch).length)
        })
        .collect();
    SizeKey::new(family, &lengths?).ok()
}

/// How far two sizes are apart; `None` where one dimension is too far off.
fn off(asked: &SizeKey, size: &SizeKey) -> Option<f64> {
    asked
        .dimensions()
        .zip(size.dimensions())
        .map(|((_, asked), (_, nominal))| {
            let reach = REACH_MM.max(REACH_SHARE * nominal.to_mm());
            let share = asked.difference_mm(nominal).abs() / reach;
            (share <= 1.0).then_some(share)
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    fn beside(text: &str) -> Vec<String> {
        let question = Question::read(text).unwrap();
        neighbours(question.family.as_slice(), &question.readings)
            .iter()
            .map(|neighbour| neighbour.candidate.size.to_string())
            .collect()
    }

    #[test]
    fn sizes_beside_a_figure_that_slipped() {
        // ISO 15: series 62 with bore 08 is 40 x 80 x 18 mm, series 60 with bore 08 40 x 68 x 15 mm.
        for (text, nearest) in [
            ("40 x 80 x 19 deep groove", "40 x 80 x 18 mm"),
            ("41 x 80 x 18 deep groove", "40 x 80 x 18 mm"),
            ("40 x 69 x 15 deep groove", "40 x 68 x 15 mm"),
            ("18 x 40 x 81 deep groove", "40 x 80 x 18 mm"),
        ] {
            let found = beside(text);
            assert!(
                found.first().is_some_and(|size| size.ends_with(nearest)),
                "{text}: {found:?}"
            );
            assert!(found.len() <= MOST, "{text}: {found:?}");
        }
    }

    #[test]
    fn nothing_is_beside_figures_far_from_every_size_or_not_of_the_part() {
        for text in [
            "40 x 80 x 60 deep groove",
            "bore 40 od 80 room for 19 deep groove",
            "40 x 80 deep groove",
            "lip free id 33.6 on 35 shaft 52 x 7 oil seal",
        ] {
            assert!(beside(text).is_empty(), "{text}");
        }
    }
}
