//! The radial clearance that a fit on the shaft leaves: between the ends of all tolerances, and as it is likely.

use super::answers::WorkedOut;
use super::question::Question;
use super::reading::{Reading, Role};
use super::worked_out::{seat_of, seats_of};
use crate::engineering::{
    Interference, Seat, clearance_after_fit, clearance_taken, likely_clearance_after_fits,
    likely_interference,
};
use crate::limit::Deviation;
use crate::part::{Clearance, Dimension, SizeKey, ToleranceClass};

/// A fit that leaves no clearance, in words.
pub const TAKES_CLEARANCE: &str = "the fit takes all clearance away";

/// A fit that leaves none to the tightest of its parts, in words.
pub const MAY_TAKE_CLEARANCE: &str = "the fit may take all clearance away";

/// Said where only the ends of the tolerances leave none.
const ONLY_AT_THE_ENDS: &str = "none would be left only where shaft, bore and clearance all lie at the ends of their tolerances: this is not likely";

/// What speaks against a fit that is likely to leave this clearance; judged in whole micrometres, as it is told.
pub fn against_clearance(likely: Deviation) -> Option<&'static str> {
    if is_lost(likely.upper_um) {
        Some(TAKES_CLEARANCE)
    } else {
        is_lost(likely.lower_um).then_some(MAY_TAKE_CLEARANCE)
    }
}

/// True for a clearance below nothing, in whole micrometres.
fn is_lost(um: f64) -> bool {
    um.round() < -0.5
}

/// What is likely of the clearance left, in words.
pub fn likely_in_words(left: Deviation, likely: Deviation) -> Vec<String> {
    let mut says = vec![format!(
        "likely {} µm (root of the sum of the squares of the tolerances: common practice, no source)",
        range(likely)
    )];
    if is_lost(left.lower_um) && !is_lost(likely.lower_um) {
        says.push(ONLY_AT_THE_ENDS.to_owned());
    }
    says
}

/// `-8 to 12`, without a sign before nothing.
pub(super) fn range(of: Deviation) -> String {
    let whole = |um: f64| um.round() + 0.0;
    format!("{:.0} to {:.0}", whole(of.lower_um), whole(of.upper_um))
}

/// Clearance that the fit leaves; of the normal group, and said so, where none was asked for.
pub(super) fn clearance_left(
    question: &Question,
    size: &SizeKey,
    fit: Interference,
    worked: &mut WorkedOut,
) {
    let group = question.traits.clearance.unwrap_or(Clearance::Normal);
    let Some((left, likely)) = left_of(question, size, group, fit) else {
        return;
    };
    worked.values.extend([
        ("least_clearance_left_um", Some(left.lower_um)),
        ("greatest_clearance_left_um", Some(left.upper_um)),
        ("likely_least_clearance_left_um", Some(likely.lower_um)),
        ("likely_greatest_clearance_left_um", Some(likely.upper_um)),
    ]);
    let asked = if question.traits.clearance.is_some() {
        ""
    } else {
        ", were it one of normal clearance"
    };
    let seats = if fit_on(question, size, Role::Housing).is_some() {
        "on the shaft and in the housing"
    } else {
        "on the shaft"
    };
    worked.says.push(format!(
        "radial clearance left {seats}{asked}: {} µm ({group}, ISO 5753-1)",
        range(left)
    ));
    worked.says.extend(likely_in_words(left, likely));
    worked
        .against
        .extend(against_clearance(likely).map(str::to_owned));
}

/// What the fit on the shaft leaves, with that in the housing where it is given: between the ends of the tolerances, and what
/// is likely.
fn left_of(
    question: &Question,
    size: &SizeKey,
    group: Clearance,
    fit: Interference,
) -> Option<(Deviation, Deviation)> {
    let mm = |dimension| size.get(dimension).map(|length| length.to_mm());
    let bore_mm = mm(Dimension::Bore)?;
    let class = question.traits.tolerance_class;
    let class = class.unwrap_or(ToleranceClass::Normal);
    let mut left = clearance_after_fit(size.family(), group, bore_mm, fit)?;
    let mut likely = vec![likely_interference(Seat::Shaft, (bore_mm, class), fit)?];
    if let Some(fit) = fit_on(question, size, Role::Housing) {
        let outside_mm = mm(Dimension::OutsideDiameter)?;
        let taken = clearance_taken(fit);
        left.lower_um -= taken.upper_um;
        left.upper_um -= taken.lower_um;
        likely.push(likely_interference(
            Seat::Housing,
            (outside_mm, class),
            fit,
        )?);
    }
    let likely = likely_clearance_after_fits(size.family(), group, bore_mm, &likely)?;
    Some((left, likely))
}

/// Fit of a bearing of a size on a seat of the question, where one is worked out.
fn fit_on(question: &Question, size: &SizeKey, seat: Role) -> Option<Interference> {
    let of_seat = |reading: &&Reading| reading.role == Some(seat);
    let seats = seats_of(question, size);
    seats.iter().filter(of_seat).find_map(|reading| {
        let worked = seat_of(question, size, reading)?;
        let of = |name: &str| {
            let found = worked.values.iter().find(|(known, _)| *known == name);
            found.and_then(|(_, value)| *value)
        };
        Some(Interference {
            least_um: of("least_interference_um")?,
            greatest_um: of("greatest_interference_um")?,
        })
    })
}

/// Clearance that the seats of a question are likely to leave a bearing of a size and group; `None` where no fit on its shaft
/// is worked out.
pub(super) fn likely_on_shaft(
    question: &Question,
    size: &SizeKey,
    group: Clearance,
) -> Option<Deviation> {
    let fit = fit_on(question, size, Role::Shaft)?;
    let (_, likely) = left_of(question, size, group, fit)?;
    Some(likely)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::Verdict;
    use crate::lookup::answer;

    /// ISO 492 Normal at 25 mm: 0/-10 µm; ISO 286-2: k6 +2/+15; ISO 5753-1 at 25 mm: CN 5 to 20, C3 13 to 28, C4 23 to 41 µm;
    /// four fifths of the interference go off (handbook practice, from memory). Arithmetic: on k6 the likely interference is
    /// 13.5 +- 8.2, of which 10.8 +- 6.6 go off: 1.7 +- 10.0 are left of CN, 9.7 +- 10.0 of C3, 21.2 +- 11.1 of C4.
    #[test]
    fn the_likely_range_decides_and_the_ends_are_told() {
        for (text, against, ends) in [
            ("6205 shaft 25 k6", Some(MAY_TAKE_CLEARANCE), false),
            ("6205 C3 shaft 25 k6", None, true),
            ("6205 C4 shaft 25 k6", None, false),
            // A comparator is sure to 2 µm: 11 +- 5.4 tight, 3.7 +- 8.6 left.
            (
                "6205 shaft 25.006 comparator",
                Some(MAY_TAKE_CLEARANCE),
                false,
            ),
            // 4 +- 5.4 tight, of which up to 7.5 go off: 8.8 +- 8.4 left; at the ends 5 - 0.8 x 11.
            ("6205 shaft 24.999 comparator", None, true),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let answers = answer(&question, None);
            let worked = &answers.worked_out[0];
            let found = (worked.against.iter()).find(|one| one.contains("all clearance"));
            assert_eq!(found.map(String::as_str), against, "{text}: {worked:?}");
            let says_ends = worked.says.iter().any(|one| one == ONLY_AT_THE_ENDS);
            assert_eq!(says_ends, ends, "{text}: {worked:?}");
            assert!(
                worked.says.iter().any(|one| one.starts_with("likely ")),
                "{text}: {worked:?}"
            );
            assert!(answers.answers[0].judgement.verdict <= Verdict::AfterChecks);
        }
    }
    /// ISO 286-2: N7 at 52 mm -39/-9, H7 0/+30 µm; ISO 492: outside 0/-13. Arithmetic: in N7 the outer ring is 17.5 +- 16.3 µm
    /// tight, of which 14 +- 13.1 go off beside the 10.8 +- 6.6 of k6; in H7 it has play.
    #[test]
    fn a_tight_housing_takes_its_share() {
        let likely = |text: &str| {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let answers = answer(&question, None);
            let of = |name: &str| {
                let mut values = answers.worked_out.iter().flat_map(|one| one.values.clone());
                let found = values.find(|(known, _)| *known == name);
                found.and_then(|(_, value)| value).unwrap()
            };
            (
                of("likely_least_clearance_left_um"),
                of("least_clearance_left_um"),
            )
        };
        let spread = 7.5_f64.hypot(0.8 * 6.5_f64.hypot(5.0));
        let (alone, end) = likely("6205 C3 shaft 25 k6");
        assert!((alone - (20.5 - 10.8 - spread)).abs() < 1e-6, "{alone}");
        assert!((end - (13.0 - 20.0)).abs() < 1e-6, "{end}");
        let (tight, end) = likely("6205 C3 shaft 25 k6 housing 52 N7");
        let spread = spread.hypot(0.8 * 15.0_f64.hypot(6.5));
        assert!(
            (tight - (20.5 - 10.8 - 14.0 - spread)).abs() < 1.0,
            "{tight}"
        );
        assert!((end - (13.0 - 20.0 - 31.2)).abs() < 1e-6, "{end}");
        let (loose, _) = likely("6205 C3 shaft 25 k6 housing 52 H7");
        assert!((loose - alone).abs() < 1e-6, "{loose} {alone}");
    }
}
