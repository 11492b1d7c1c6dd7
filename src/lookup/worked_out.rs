//! The engineering checks that the figures of a question allow, worked out for each size that may be meant.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::answers::{Answers, WorkedOut};
use super::clearance_left::clearance_left;
use super::likelihood::expanded_uncertainty_mm;
use super::question::Question;
use super::reading::{Instrument, Reading, Role};
use crate::engineering::{
    Interference, Seat, SeatFinding, against_stretch, bearing_seat, interference, o_ring_in_gland,
    ring_deviation, seat_finding, surface_speed,
};
use crate::interchange::Verdict;
use crate::limit::{self, Deviation, Duty};
use crate::part::{Dimension, Measured, SizeKey, ToleranceClass};

/// Sizes less likely than this are not worked out.
const LEAST_LIKELY: f64 = 0.05;

/// Works out what the question's figures allow, and puts what speaks against a part into its checks.
pub(super) fn work_out(question: &Question, answers: &mut Answers) {
    let mut seen = BTreeSet::new();
    let mut all: Vec<(SizeKey, WorkedOut)> = Vec::new();
    for answer in &answers.answers {
        let Some(size) = answer.size.filter(|_| answer.probability >= LEAST_LIKELY) else {
            continue;
        };
        if seen.insert(size) {
            for mut worked in of_size(question, &size) {
                worked.of.clone_from(&answer.designation);
                all.push((size, worked));
            }
        }
    }
    for (size, worked) in &all {
        let same = answers
            .answers
            .iter_mut()
            .filter(|one| one.size == Some(*size));
        for answer in same {
            if !worked.against.is_empty() {
                let judgement = Arc::make_mut(&mut answer.judgement);
                judgement.checks.extend(worked.against.iter().cloned());
                judgement.verdict = judgement.verdict.max(Verdict::AfterChecks);
            }
        }
    }
    // Types of one size share seat and figures: one line for all of them.
    for (_, worked) in all {
        let same =
            |known: &&mut WorkedOut| known.check == worked.check && known.values == worked.values;
        match answers.worked_out.iter_mut().find(same) {
            Some(known) => known.of = format!("{}, {}", known.of, worked.of),
            None => answers.worked_out.push(worked),
        }
    }
}

fn of_size(question: &Question, size: &SizeKey) -> Vec<WorkedOut> {
    let family = size.family();
    let mut all = Vec::new();
    if family.is_radial_bearing() {
        let seats = seats_of(question, size);
        all.extend(
            seats
                .iter()
                .filter_map(|seat| seat_of(question, size, seat)),
        );
    }
    match family.facts().bench.measured {
        Measured::RubberRing => all.extend(groove_of(question, size)),
        Measured::LipAndCase => all.extend(lip_of(question, size)),
        _ => {}
    }
    all
}

/// The seats of a question: their figures, and the size's own diameter where only the class of a seat is named.
pub(super) fn seats_of(question: &Question, size: &SizeKey) -> Vec<Reading> {
    let is_of = |reading: &Reading, role: Role| reading.role == Some(role);
    let is_seat = |of: &&Reading| is_of(of, Role::Shaft) || is_of(of, Role::Housing);
    let seats = question.readings.iter().filter(is_seat);
    let mut seats: Vec<Reading> = seats.map(|seat| seat.as_read_of(size)).collect();
    let bore_and_outside = [
        (Role::Shaft, Dimension::Bore),
        (Role::Housing, Dimension::OutsideDiameter),
    ];
    for (role, dimension) in bore_and_outside {
        let is_shaft = role == Role::Shaft;
        let mut classes = question.fit_classes.iter();
        let has_class = classes.any(|fit| fit.starts_with(char::is_lowercase) == is_shaft);
        let has_figure = seats.iter().any(|seat| is_of(seat, role));
        if let Some(diameter) = size.get(dimension).filter(|_| has_class && !has_figure) {
            seats.push(Reading::nominal(role, diameter));
        }
    }
    seats
}

/// Fit of the ring on a measured seat.
pub(super) fn seat_of(question: &Question, size: &SizeKey, reading: &Reading) -> Option<WorkedOut> {
    let is_tapered = question.traits.has_tapered_bore();
    if is_tapered && reading.role == Some(Role::Shaft) {
        // What the bore sits on is a sleeve or a taper, and neither is judged by a diameter.
        return None;
    }
    let (seat, dimension) = match reading.role? {
        Role::Shaft => (Seat::Shaft, Dimension::Bore),
        Role::Housing => (Seat::Housing, Dimension::OutsideDiameter),
        _ => return None,
    };
    let nominal = size.get(dimension)?;
    let class = question
        .traits
        .tolerance_class
        .unwrap_or(ToleranceClass::Normal);
    let ring = ring_deviation(seat, nominal.to_mm(), class)?;
    let is_shaft = seat == Seat::Shaft;
    let fits = &question.fit_classes;
    let stated = fits
        .iter()
        .find(|fit| fit.starts_with(char::is_lowercase) == is_shaft);
    let instrument = reading.likely_instrument(&reading.length);
    let of_class = stated.and_then(|fit| limit::fit(fit, nominal.to_mm()));
    let is_nominal = reading.length.length == nominal && !reading.is_measured;
    let mut worked = WorkedOut::new("seat");
    // `on a 40 shaft` names the seat and `shaft 40 k6` its class; neither was measured.
    let fit = if is_nominal {
        let fit = bearing_seat(seat, nominal.to_mm(), class, stated?)?;
        worked
            .says
            .push(format!("seat as {} allows, not measured", stated?));
        fit
    } else {
        let off_um = reading.length.length.difference_mm(nominal) * 1000.0;
        let role = if is_shaft { Role::Shaft } else { Role::Housing };
        let sure_um = expanded_uncertainty_mm(instrument, role) * 1000.0;
        let measured = Deviation {
            lower_um: off_um - sure_um,
            upper_um: off_um + sure_um,
        };
        let fit = interference(seat, ring, measured);
        judge_seat(
            &mut worked,
            (seat, ring, of_class, fit),
            (instrument, sure_um),
        );
        fit
    };
    worked.values = vec![
        ("least_interference_um", Some(fit.least_um)),
        ("greatest_interference_um", Some(fit.greatest_um)),
    ];
    worked.says.insert(
        0,
        format!(
            "{} of {} class {class} by ISO 492 on its {}: {}",
            if is_shaft { "bore" } else { "outside" },
            nominal,
            if is_shaft { "shaft" } else { "housing" },
            in_words(fit)
        ),
    );
    if is_shaft {
        clearance_left(question, size, fit, &mut worked);
    }
    Some(worked)
}

/// Least and greatest interference in words; play is what a negative one is.
fn in_words(fit: Interference) -> String {
    let of = |um: f64| {
        if um < 0.0 {
            format!("{:.0} µm play", -um)
        } else {
            format!("{um:.0} µm interference")
        }
    };
    format!("from {} to {}", of(fit.least_um), of(fit.greatest_um))
}

fn judge_seat(
    worked: &mut WorkedOut,
    (seat, ring, of_class, fit): (Seat, Deviation, Option<Deviation>, Interference),
    (instrument, sure_um): (Instrument, f64),
) {
    let finding = seat_finding((seat, ring, of_class), fit, sure_um);
    worked.against.extend(finding.map(|finding| match finding {
            SeatFinding::TooCoarse { band_um } => format!(
                "the seat was read with a {} (sure to {sure_um:.0} µm, the band is {band_um:.0} µm): this instrument cannot tell; use {}",
                instrument.words(),
                better(instrument, seat)
            ),
            SeatFinding::LooserThanClass => LOOSER_THAN_CLASS.to_owned(),
            SeatFinding::TighterThanClass => TIGHTER_THAN_CLASS.to_owned(),
            SeatFinding::LooseOnShaft => LOOSE_ON_SHAFT.to_owned(),
            SeatFinding::NotProved => format!(
                "the seat was read with a {} (sure to {sure_um:.0} µm), and a limit of its class lies nearer than that: it is proved neither right nor wrong (ISO 14253-1); measure again with {}",
                instrument.words(),
                better(instrument, seat)
            ),
    }));
}

/// A worn seat, in words.
pub const LOOSER_THAN_CLASS: &str =
    "the seat is looser than its class allows: worn, repair it before a new bearing goes on";

/// A seat that is too tight, in words.
pub const TIGHTER_THAN_CLASS: &str = "the seat is tighter than its class allows: it strains the ring and takes its clearance; find out its class, or machine it";

/// A ring without hold, in words.
pub const LOOSE_ON_SHAFT: &str =
    "the ring is loose on this shaft at any rate: it turns under a turning load";

const fn better(instrument: Instrument, seat: Seat) -> &'static str {
    match (instrument, seat) {
        (Instrument::Comparator, _) => "a measuring room",
        (Instrument::Micrometer, Seat::Shaft) => "a comparator set to gauge blocks",
        (Instrument::Micrometer, Seat::Housing) => "a bore gauge set to a ring",
        (_, Seat::Shaft) => "a micrometer",
        (_, Seat::Housing) => "an inside micrometer or bore gauge",
    }
}

fn groove_of(question: &Question, size: &SizeKey) -> Option<WorkedOut> {
    let groove = question.groove;
    let (inside, section) = (
        size.get(Dimension::InsideDiameter)?.to_mm(),
        size.get(Dimension::Section)?.to_mm(),
    );
    let mut worked = WorkedOut::new("oring");
    let Some(depth_mm) = groove.depth_mm else {
        let floor_mm = groove.floor_mm?;
        let stretch_share = (floor_mm - inside) / inside;
        worked.values = vec![("stretch_share", Some(stretch_share))];
        worked.says.push(format!(
            "stretch {:.1} % on the groove floor",
            stretch_share * 100.0
        ));
        worked.against.extend(against_stretch(stretch_share));
        worked
            .says
            .push("squeeze and fill need the depth of the groove to its counterface".to_owned());
        return Some(worked);
    };
    let duty = groove.duty.unwrap_or(Duty::StaticRadial);
    let of = o_ring_in_gland(
        inside,
        section,
        groove.floor_mm,
        depth_mm,
        groove.width_mm,
        duty,
    );
    worked.values = vec![
        ("stretch_share", of.stretch_share),
        ("section_mm", Some(of.section_mm)),
        ("squeeze_share", Some(of.squeeze_share)),
        ("fill_share", of.fill_share),
    ];
    let percent = |share: Option<f64>| {
        share.map_or_else(
            || "unknown".to_owned(),
            |share| format!("{:.1} %", share * 100.0),
        )
    };
    let assumed = if groove.duty.is_some() {
        ""
    } else {
        " (taken for it; say `face` or `reciprocating`)"
    };
    worked.says.push(format!(
        "stretch {}, squeeze {}, fill {}, as {}{assumed}",
        percent(of.stretch_share),
        percent(Some(of.squeeze_share)),
        percent(of.fill_share),
        match duty {
            Duty::StaticRadial => "a ring at rest between bore and rod",
            Duty::StaticFace => "a ring at rest between two faces",
            Duty::Reciprocating => "a ring on a moving rod or piston",
        },
    ));
    worked.says.extend(of.notes);
    worked.against = of.against;
    Some(worked)
}

fn lip_of(question: &Question, size: &SizeKey) -> Option<WorkedOut> {
    let rpm = question.needs.speed_rpm?;
    let shaft = size.get(Dimension::ShaftDiameter)?;
    let of = surface_speed(shaft.to_mm(), rpm, question.traits.material.as_deref());
    let mut worked = WorkedOut::new("lip");
    worked.values = vec![
        ("speed_m_s", Some(of.speed_m_s)),
        ("limit_m_s", of.limit_m_s),
    ];
    let limit = of.limit_m_s.map_or_else(
        || "no limit known: name the elastomer (NBR, FKM, ...)".to_owned(),
        |limit| format!("the elastomer stands {limit} m/s (DIN 3760, from memory)"),
    );
    worked.says.push(format!(
        "{rpm} rev/min on a {shaft} shaft is {:.1} m/s at the lip; {limit}",
        of.speed_m_s
    ));
    if of.is_within == Some(false) {
        worked
            .against
            .push("faster than the elastomer stands".to_owned());
    }
    Some(worked)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::answer;

    fn worked(text: &str) -> Vec<WorkedOut> {
        let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        answer(&question, None).worked_out
    }

    fn value(worked: &WorkedOut, name: &str) -> f64 {
        let found = worked.values.iter().find(|(known, _)| *known == name);
        found.and_then(|(_, value)| *value).unwrap_or(f64::NAN)
    }

    #[test]
    fn a_measured_shaft_gives_interference_and_clearance_left() {
        // ISO 492 Normal, 25 mm bore: 0/-10 µm. Shaft 25.008 by micrometer, sure to 6 µm: 2 to 24 µm.
        let all = worked("6205 C3 shaft 25.008 micrometer");
        let seat = &all[0];
        assert_eq!(
            (seat.check, seat.of.as_str()),
            ("seat", "6205 C3"),
            "{all:?}"
        );
        assert!(
            (value(seat, "least_interference_um") - 2.0).abs() < 0.5,
            "{seat:?}"
        );
        assert!((value(seat, "greatest_interference_um") - 24.0).abs() < 0.5);
        // ISO 5753-1 C3 at 25 mm: 13 to 28 µm less 0.8 of the interference.
        assert!((value(seat, "least_clearance_left_um") - (13.0 - 0.8 * 24.0)).abs() < 0.5);
    }

    /// Definition of the inch: 1.126 in is 28.6004 mm and 0.985 in 25.019 mm; R8 is 1.125 in over its outside (ANSI/ABMA 20), 6205
    /// has a bore of 25 mm (ISO 15). Limits of the rings are within 20 µm (ISO 492), a calliper is sure to some hundredths.
    #[test]
    fn a_seat_in_inches_is_judged_in_inches_where_its_unit_is_left_out() {
        for (text, off_um) in [
            ("R8 in bore 1.126", -25.4),
            ("R8 housing 1.126 in", -25.4),
            ("6205 shaft 0.985", 19.0),
            ("R16 shaft 0.9998", -5.08),
            ("6205 shaft 25.019", 19.0),
        ] {
            let all = worked(text);
            let seat = all.first().unwrap_or_else(|| panic!("{text}"));
            for name in ["least_interference_um", "greatest_interference_um"] {
                let um = value(seat, name);
                assert!((um - off_um).abs() < 150.0, "{text}: {seat:?}");
            }
        }
    }

    #[test]
    fn a_calliper_on_a_seat_cannot_tell() {
        let all = worked("6205 shaft 24.98 calliper");
        assert!(
            all[0]
                .against
                .iter()
                .any(|line| line.contains("cannot tell; use a micrometer")),
            "{all:?}"
        );
        let housing = worked("6205 housing 52.03 calliper");
        assert!(housing[0].against[0].contains("bore gauge"), "{housing:?}");
    }

    #[test]
    fn a_class_that_is_only_named_gives_its_own_limits() {
        // ISO 286: k6 at 25 mm +2/+15; with a bore of 0/-10: 2 to 25 µm.
        let all = worked("6205 shaft 25 k6");
        assert!(
            (value(&all[0], "greatest_interference_um") - 25.0).abs() < 1e-9,
            "{all:?}"
        );
        // Nothing measured and no class: nothing to work out.
        assert!(worked("6205 on 25 shaft").is_empty());
        // 24.960 is below k6 by far more than a micrometer's 6 µm.
        let worn = worked("6205 shaft 24.960 k6 micrometer");
        assert!(
            worn[0].against.iter().any(|line| line.contains("worn")),
            "{worn:?}"
        );
    }

    #[test]
    fn the_measured_seat_is_judged_and_not_its_nominal_diameter() {
        // Arithmetic: 25.010 by a micrometer, sure to 6 µm, on a bore of 0/-10 µm (ISO 492): 4 to 26 µm.
        for text in [
            "6205 shaft 25 k6 measured 25.01 micrometer",
            "6205 shaft k6 25.01 micrometer",
        ] {
            let all = worked(text);
            let (least, greatest) = (
                value(&all[0], "least_interference_um"),
                value(&all[0], "greatest_interference_um"),
            );
            assert!((least - 4.0).abs() < 0.5, "{text}: {all:?}");
            assert!((greatest - 26.0).abs() < 0.5, "{text}: {all:?}");
        }
    }

    #[test]
    fn a_seat_beyond_its_class_is_told_on_both_sides() {
        // ISO 286: k6 at 25 mm +2/+15 µm; a micrometer is sure to 6 µm.
        for (text, says, never) in [
            (
                "6205 shaft 25.3 k6 micrometer",
                "tighter than its class",
                "cannot tell",
            ),
            (
                "6205 shaft 24.950 k6 micrometer",
                "looser than its class",
                "cannot tell",
            ),
            (
                "6205 shaft 25.008 k6 micrometer",
                "cannot tell",
                "its class allows",
            ),
        ] {
            let all = worked(text);
            let against = all[0].against.join("; ");
            assert!(
                against.contains(says) && !against.contains(never),
                "{text}: {all:?}"
            );
        }
    }

    #[test]
    fn a_groove_gives_stretch_squeeze_and_fill() {
        // Arithmetic: AS568-222 is 1.484 in, 37.694 mm, on a floor of 38.1 mm: 1.08 % stretch.
        let all = worked("AS568-222 groove floor 38.1 depth 2.87 width 4.57");
        assert!(
            (value(&all[0], "stretch_share") - 0.0108).abs() < 0.0001,
            "{all:?}"
        );
        assert!(value(&all[0], "fill_share") < 0.85 && all[0].against.is_empty());
        let thin = worked("o-ring 40 x 3 groove depth 2.87");
        assert!(
            thin[0].against.iter().any(|line| line.contains("leaks")),
            "{thin:?}"
        );
        // Arithmetic: 45 mm on a floor of 45.2 mm is 0.44 %, on 50 mm 11.1 %; the depth says nothing of either.
        for (text, share, is_told) in [
            ("o-ring 45 x 3 groove floor 45.2", 0.0044, false),
            ("o-ring 45 x 3 groove floor 50", 0.1111, true),
            ("o-ring 45 x 3 groove floor 44", -0.0222, true),
        ] {
            let all = worked(text);
            assert!(
                (value(&all[0], "stretch_share") - share).abs() < 0.0001,
                "{all:?}"
            );
            assert!(all[0].says[0].starts_with("stretch "), "{all:?}");
            assert_eq!(all[0].against.len(), usize::from(is_told), "{all:?}");
        }
    }

    /// Published gland table: 3.53 mm at rest in 2.79 to 2.95 mm, 5.33 mm moving in 4.65 to 4.78 mm.
    #[test]
    fn a_depth_outside_the_published_gland_is_a_check() {
        for (text, words) in [
            (
                "o-ring 37.69 x 3.53 NBR groove floor 38.1 depth 3.00 width 4.6",
                "more than the published 2.79 to 2.95 mm",
            ),
            (
                "o-ring 37.69 x 3.53 NBR groove floor 38.1 depth 2.72 width 4.6",
                "less than the published 2.79 to 2.95 mm",
            ),
            (
                "o-ring 37.69 x 3.53 NBR groove floor 38.1 depth 2.9 width 4.6",
                "",
            ),
        ] {
            let answers = answer(&Question::read(text).unwrap(), None);
            let first = &answers.answers[0].judgement;
            let checks = first.checks.join("; ");
            assert!(checks.contains(words), "{text}: {checks}");
            assert_eq!(checks.contains("published"), !words.is_empty(), "{text}");
            if !words.is_empty() {
                assert!(first.verdict >= Verdict::AfterChecks, "{text}");
            }
        }
    }

    #[test]
    fn a_speed_gives_metres_per_second_at_the_lip() {
        // Arithmetic: 120 mm at 3,000 rev/min is 18.85 m/s, nitrile stands 14.
        let all = worked("oil seal 120 x 150 x 12 NBR 3000 rpm");
        assert!(all.is_empty() || (value(&all[0], "speed_m_s") - 18.85).abs() < 0.01);
        let all = worked("oil seal 40 x 62 x 8 NBR 3000 rpm");
        // 40 mm at 50 turns a second.
        assert!(
            (value(&all[0], "speed_m_s") - std::f64::consts::PI * 0.04 * 50.0).abs() < 1e-9,
            "{all:?}"
        );
    }
}
