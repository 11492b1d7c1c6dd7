//! The radial clearance that a fit on the shaft leaves: between the ends of all tolerances, and as it is likely.

use super::answers::WorkedOut;
use super::question::Question;
use super::reading::Role;
use super::worked_out::seat_of;
use crate::engineering::{Interference, clearance_after_fit, likely_clearance_after_fit};
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
    worked.says.push(format!(
        "radial clearance left on the shaft{asked}: {} µm ({group}, ISO 5753-1)",
        range(left)
    ));
    worked.says.extend(likely_in_words(left, likely));
    worked
        .against
        .extend(against_clearance(likely).map(str::to_owned));
}

/// What a fit leaves between the ends of the tolerances, and what is likely.
fn left_of(
    question: &Question,
    size: &SizeKey,
    group: Clearance,
    fit: Interference,
) -> Option<(Deviation, Deviation)> {
    let bore_mm = size.get(Dimension::Bore)?.to_mm();
    let class = question.traits.tolerance_class;
    let class = class.unwrap_or(ToleranceClass::Normal);
    let left = clearance_after_fit(size.family(), group, bore_mm, fit)?;
    let likely = likely_clearance_after_fit(size.family(), group, (bore_mm, class), fit)?;
    Some((left, likely))
}

/// Clearance that the shaft of a question is likely to leave a bearing of a size and group; `None` where none is worked out.
pub(super) fn likely_on_shaft(
    question: &Question,
    size: &SizeKey,
    group: Clearance,
) -> Option<Deviation> {
    let mut seats = question.readings.iter().filter_map(|reading| {
        let worked = seat_of(question, size, reading)?;
        let of = |name: &str| {
            let found = worked.values.iter().find(|(known, _)| *known == name);
            found.and_then(|(_, value)| *value)
        };
        let fit = Interference {
            least_um: of("least_interference_um")?,
            greatest_um: of("greatest_interference_um")?,
        };
        let is_on_shaft = reading.role == Some(Role::Shaft);
        is_on_shaft.then_some(fit)
    });
    let (_, likely) = left_of(question, size, group, seats.next()?)?;
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
}
