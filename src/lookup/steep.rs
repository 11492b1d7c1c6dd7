//! Tapered roller bearings of one envelope and two contact angles: 30306 and 31306.

use crate::standard::StandardPart;

/// How a row says that its angle is steep.
const STEEP: &str = "steep contact angle (series 313)";

/// True for a row of the steep series.
pub(super) fn is_steep(row: &StandardPart) -> bool {
    let variant = row.traits.variant.as_deref();
    variant.is_some_and(|variant| variant.contains(STEEP))
}

/// What tells two rows of one size apart by their angle; `None` where both are steep or neither is.
///
/// # Source
/// ISO 355, contact angle series 7: 27 to 30 degrees; from memory.
pub(super) fn told_apart(one: &str, other: &str) -> Option<String> {
    let is_steep = |name: &str| crate::standard::find(name).is_some_and(is_steep);
    let (steep, slight) = match (is_steep(one), is_steep(other)) {
        (true, false) => (one, other),
        (false, true) => (other, one),
        _ => return None,
    };
    Some(format!(
        "{steep} has a steep contact angle (27 to 30°, ISO 355, from memory) and {slight} a slight one: neither stands in for the other, look at the slant of the rollers and at the number of the bearing opposite"
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::{Question, answer};

    /// ISO 355: 30306 is T2FB030 and 31306 T7FB030, both 30 x 72 x 20.75 mm.
    #[test]
    fn the_steep_one_of_two_is_named() {
        for (one, other) in [("30306", "31306"), ("31306", "30306")] {
            let told = told_apart(one, other).unwrap();
            assert!(told.starts_with("31306 has a steep"), "{told}");
            assert!(told.contains("and 30306 a slight one"), "{told}");
        }
        assert_eq!(told_apart("30306", "30306"), None);
        assert_eq!(told_apart("6206", "N206"), None);
    }

    #[test]
    fn an_envelope_of_two_angles_asks_for_the_angle() {
        let question = Question::read("tapered roller 30 x 72 x 20.75").unwrap();
        let answers = answer(&question, None);
        let first = &answers.answers[0];
        let names: Vec<&String> = std::iter::once(&first.designation)
            .chain(&first.twins)
            .collect();
        assert_eq!(names.len(), 2, "{names:?}");
        let is_told = |check: &String| check.contains("31306 has a steep contact angle");
        let checks = &first.judgement.checks;
        assert!(checks.iter().any(is_told), "{checks:?}");
        let asked = answers.ask_next.map(|ask| ask.question);
        let asked = asked.unwrap_or_default();
        assert!(!asked.contains("letter behind the number"), "{asked}");
    }
}
