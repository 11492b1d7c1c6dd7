//! What one figure, taken as one dimension in one unit, says of a size: how likely it is there, as printed and as measured,
//! and on a special that differs from the size in just this.

use std::collections::HashMap;
use std::ops::Deref;

use super::super::reading::{Reading, Role};
use super::candidate::Candidate;
use super::curves;
use super::expected::{Ways, basic_diameter, expected, hangs_on};
use super::mixed::Mixing;
use super::near::Dealt;
use super::special;
use crate::part::{Family, ToleranceClass};
use crate::standard::{self, StandardPart};
use crate::units::{Length, ReadLength};

/// A whole number is meant as it stands; only finer printing is undone, mm.
const COARSEST_PRINTED_MM: f64 = 0.13;

/// Densities of one figure under the size, and under a special that differs from it here.
#[derive(Debug, Clone, Copy)]
pub(super) struct Densities {
    pub(super) own: f64,
    pub(super) changed: f64,
}

/// Densities of a figure as a printed size and as a measured one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Said {
    pub(super) printed: Densities,
    pub(super) measured: Densities,
}

/// A figure in a role and unit, with what it said of the dimensions met so far.
///
/// Many sizes share a bore, an outside or a width: each is weighed once a family.
#[derive(Debug)]
pub(super) struct Figure<'a> {
    dealt: Dealt<'a>,
    said: HashMap<(i64, i64, i64), Said, Mixing>,
    /// Of each way to come about.
    last: [curves::Last; 2],
}

impl<'a> Figure<'a> {
    pub(super) fn new(family: Family, reading: &'a Reading, role: Role, is_inch: bool) -> Self {
        Self {
            dealt: Dealt::new(family, reading, role, is_inch),
            said: HashMap::default(),
            last: Default::default(),
        }
    }

    /// What it says of a size.
    pub(super) fn said(&mut self, candidate: &Candidate, class: ToleranceClass) -> Said {
        let nominal = self.dealt.nominal(&candidate.size);
        let row = candidate.rows.first().copied();
        let [one, other] = hangs_on(&candidate.size, row, self.dealt.role);
        let key = (nominal.map_or(0, Length::as_nm), one, other);
        *self.said.entry(key).or_insert_with(|| {
            let ways = expected(&candidate.size, row, self.dealt.role, class);
            Said {
                printed: printed(self.dealt.read, self.dealt.role, nominal, row),
                measured: measured(&self.dealt, nominal, &ways, &mut self.last),
            }
        })
    }
}

impl<'a> Deref for Figure<'a> {
    type Target = Dealt<'a>;

    fn deref(&self) -> &Dealt<'a> {
        &self.dealt
    }
}

/// Density of a printed figure: all of it on the size that prints so.
fn printed(
    read: &ReadLength,
    role: Role,
    nominal: Option<Length>,
    row: Option<&StandardPart>,
) -> Densities {
    let is_coarse = read.half_digit_nm as f64 / 1e6 > COARSEST_PRINTED_MM;
    let Some(nominal) = nominal.filter(|_| !role.is_free()) else {
        return Densities {
            own: 0.0,
            changed: 0.0,
        };
    };
    let is_own = role == Role::Section && standard::is_own_section(read.length);
    let prints = if is_coarse || is_own {
        read.length == nominal
    } else {
        let basic = || basic_diameter(row, role, nominal);
        read.may_be(nominal) || basic().is_some_and(|basic| read.may_be(basic))
    };
    Densities {
        own: if prints {
            0.5 / curves::half_mm(read)
        } else {
            0.0
        },
        changed: special::printed(nominal.to_mm(), read.length.to_mm(), curves::half_mm(read)),
    }
}

fn measured(
    dealt: &Dealt<'_>,
    nominal: Option<Length>,
    ways: &Ways,
    last: &mut [curves::Last; 2],
) -> Densities {
    let mut densities = Densities {
        own: 0.0,
        changed: 0.0,
    };
    let ways = ways.iter().zip(last);
    for (way, last) in ways.filter_map(|(way, last)| Some((way.as_ref()?, last))) {
        let (own, changed) = curves::of(dealt, nominal, way, last);
        densities.own += way.share * own;
        densities.changed += way.share * changed;
    }
    densities
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;
    use crate::lookup::likelihood::assign::assignments;
    use crate::lookup::likelihood::candidate::of_family;
    use crate::part::SizeKey;

    /// Questions with every kind of figure: printed, measured, worn, inches, free, with an instrument.
    const QUESTIONS: [&str; 12] = [
        "40x80x18",
        "44.96 84.9 19 worn",
        "1.181 2.441 .63",
        "3/4 x 1 5/8 x 7/16",
        "O-ring 31.34 x 3.53",
        "O-ring od 38.4 x 3.5 worn",
        "oil seal 62 x 40 x 8",
        "lip free id 33.6 on 35 shaft",
        "internal circlip 40",
        "external circlip free id 23.2",
        "lock nut thread measured 38.4 pitch 1.5",
        "dowel pin 6 x 24 micrometer",
    ];

    /// Every figure of a question in every role it may have in a family.
    fn figures(question: &Question, family: Family) -> Vec<(usize, Role, bool)> {
        let mut all = Vec::new();
        for way in assignments(family, &question.readings) {
            for (at, role) in way.roles.iter().enumerate() {
                let has_inch = question.readings[at].as_inches.is_some();
                all.push((at, *role, false));
                all.extend(has_inch.then_some((at, *role, true)));
            }
        }
        all.sort();
        all.dedup();
        all
    }

    fn bits(said: Said) -> [u64; 4] {
        let Said { printed, measured } = said;
        [printed.own, printed.changed, measured.own, measured.changed].map(f64::to_bits)
    }

    #[test]
    fn what_is_remembered_is_what_is_worked_out_anew() {
        let mut compared = 0;
        for text in QUESTIONS {
            let question = Question::read(text).unwrap();
            for family in Family::ALL {
                for (at, role, is_inch) in figures(&question, family) {
                    let new = || Figure::new(family, &question.readings[at], role, is_inch);
                    let mut remembers = new();
                    // Sizes of the tables with their rows, and the same as a shop's own would be.
                    let of_tables = of_family(family).iter().step_by(11);
                    let own = of_tables.clone().map(|candidate| Candidate {
                        rows: &[],
                        ..*candidate
                    });
                    for candidate in of_tables.copied().chain(own) {
                        if role == Role::Room {
                            continue;
                        }
                        let class = ToleranceClass::Normal;
                        let said = remembers.said(&candidate, class);
                        curves::forget();
                        let anew = new().said(&candidate, class);
                        assert_eq!(
                            bits(said),
                            bits(anew),
                            "{text}: {role:?} of {}",
                            candidate.size
                        );
                        let densities = [said.printed, said.measured];
                        let sound = |one: Densities| {
                            one.own.is_finite() && one.own >= 0.0 && one.changed >= 0.0
                        };
                        assert!(
                            densities.into_iter().all(sound),
                            "{text}: {}",
                            candidate.size
                        );
                        compared += 1;
                    }
                }
            }
        }
        assert!(compared > 10_000, "{compared}");
    }

    #[test]
    fn sizes_that_agree_in_what_a_figure_hangs_on_are_expected_alike() {
        let mut seen = std::collections::BTreeMap::new();
        for family in Family::ALL {
            let sizes = || of_family(family).iter();
            let rows = sizes().map(|candidate| (candidate.size, candidate.rows.first().copied()));
            let own = sizes().map(|candidate| (candidate.size, None));
            for (size, row) in rows.chain(own) {
                for dimension in family.key_dimensions() {
                    let role = Role::of(family, *dimension);
                    let nominal = size.get(*dimension);
                    let ways = expected(&size, row, role, ToleranceClass::Normal);
                    let key = (family, role, nominal, hangs_on(&size, row, role));
                    let known = seen.entry(key).or_insert((size, ways));
                    assert_eq!(known.1, ways, "{family} {role:?}: {} and {size}", known.0);
                }
            }
        }
        assert!(seen.len() > 3_000, "{}", seen.len());
    }

    /// ASME B18.8.2, from memory: the basic diameter of the 1/4 in pin is 0.2502 in.
    #[test]
    fn an_inch_pin_may_be_printed_by_its_basic_diameter() {
        let own = |text: &str, pin: &str| {
            let question = Question::read(text).unwrap();
            let row = standard::find(pin).unwrap();
            let candidates = of_family(Family::DowelPin).iter();
            let mut candidates = candidates.filter(|of| of.size == row.size);
            let reading = &question.readings[0];
            let mut figure = Figure::new(Family::DowelPin, reading, Role::Inner, true);
            figure
                .said(candidates.next().unwrap(), ToleranceClass::Normal)
                .printed
                .own
        };
        let quarter = "ASME B18.8.2-1/4x1";
        assert!(own("dowel pin 0.2502 x 1", quarter) > 0.0);
        assert!(own("dowel pin 0.2500 x 1", quarter) > 0.0);
        // An oversize pin is none of the standard series.
        assert!(own("dowel pin 0.2510 x 1", quarter) < 1e-12);
        assert!(own("dowel pin 0.2502 x 1", "ASME B18.8.2-3/8x1") < 1e-12);
        let asked = |text: &str| crate::lookup::answer(&Question::read(text).unwrap(), None);
        for text in ["dowel pin 0.2502 x 1", ".3752 x 1.5 dowel pin"] {
            let answers = asked(text);
            let first = &answers.answers[0];
            assert!(first.probability > 0.8, "{text}: {}", first.probability);
        }
    }

    #[test]
    fn a_printed_figure_is_the_size_that_prints_so() {
        // Definition: 12.7 mm prints as 12.7 and as 12.70; a whole number is meant as it stands.
        let said = |text: &str, family: Family, mm: [f64; 3]| {
            let question = Question::read(text).unwrap();
            let lengths = mm.map(|mm| Length::from_mm(mm).unwrap());
            let candidate = Candidate {
                size: SizeKey::new(family, &lengths).unwrap(),
                rows: &[],
            };
            let mut figure = Figure::new(family, &question.readings[0], Role::Inner, false);
            figure.said(&candidate, ToleranceClass::Normal)
        };
        let ball = Family::DeepGrooveBall;
        let own = |text: &str, mm: f64| said(text, ball, [mm, 60.0, 12.0]).printed.own;
        assert!(own("12.7 60 12", 12.7) > 0.0 && own("12.70 60 12", 12.7) > 0.0);
        assert!(own("12.7 60 12", 12.72) > 0.0 && own("12.70 60 12", 12.72).abs() < 1e-12);
        assert!(own("12 60 12", 12.3).abs() < 1e-12);
        // The finer a figure is printed, the more it says.
        assert!(own("12.70 60 12", 12.7) > own("12.7 60 12", 12.7));
        // A measured figure is likeliest on its size, and falls off to both sides.
        let measured = |mm: f64| said("40.0 80 18", ball, [mm, 80.0, 18.0]).measured.own;
        assert!(measured(40.0) > measured(40.2) && measured(40.0) > measured(39.8));
        assert!(measured(40.2) > measured(40.5) && measured(39.8) > measured(39.5));
    }
}
