//! Names of dimensions that mean another one of some kinds of part: the thickness of an O-ring is its section, and a pin has
//! one diameter, whatever it is called.

use super::Question;
use crate::lookup::reading::{Reading, Role};
use crate::part::{Dimension, Family};

/// Words for the diameter of a pin that say nothing, or something else, of other parts.
const PIN_DIAMETER: [&str; 10] = [
    "diameter",
    "durchmesser",
    "diamètre",
    "diametre",
    "diam",
    "thick",
    "thickness",
    "dick",
    "dicke",
    "épaisseur",
];

/// True for parts with a thread.
pub(super) fn has_thread(family: Family) -> bool {
    family.has_dimension(Dimension::ThreadDiameter)
}

/// True for rings that are measured by their section, and lie in a gland.
pub(super) fn has_section(family: Family) -> bool {
    family.has_dimension(Dimension::Section)
}

/// True for a part with one diameter, that of itself.
fn is_pin(family: Family) -> bool {
    family.has_dimension(Dimension::PinDiameter)
}

/// What a word in lower case is of a pin that is asked for; `None` where it is what it is of any part.
pub(super) fn role(question: &Question, lower: &str) -> Option<Role> {
    let is_pin = question.family.is_some_and(is_pin);
    (is_pin && PIN_DIAMETER.contains(&lower)).then_some(Role::Inner)
}

/// Gives the figures of an O-ring or a pin the names that they have there.
pub(super) fn settle(family: Option<Family>, readings: &mut [Reading]) {
    let Some(family) = family else {
        return;
    };
    let (other, own) = if has_section(family) {
        (Role::Width, Role::Section)
    } else if is_pin(family) {
        (Role::Outer, Role::Inner)
    } else {
        return;
    };
    let has = |role: Role| readings.iter().any(|reading| reading.role == Some(role));
    if has(own) || readings.len() > 2 {
        return;
    }
    let named = readings
        .iter_mut()
        .find(|reading| reading.role == Some(other));
    if let Some(reading) = named {
        reading.role = Some(own);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::answer;

    /// SAE AS568-218 is 31.34 x 3.53 mm (1.234 x 0.139 in); ISO 3601-1 writes d1 x d2.
    #[test]
    fn a_ring_is_as_thick_as_its_section() {
        for text in [
            "o-ring id 31.34 thickness 3.53",
            "o-ring bore 31.34 width 3.53",
            "o-ring 31.34 mm id 3.53 mm thick",
            "O-Ring innen 31,34 Dicke 3,53",
            "o-ring inside 31.34 section 3.53",
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let roles: Vec<Option<Role>> = question.readings.iter().map(|of| of.role).collect();
            assert_eq!(roles, [Some(Role::Inner), Some(Role::Section)], "{text}");
            let answers = answer(&question, None).answers;
            let first = answers.first().map(|one| one.designation.as_str());
            assert_eq!(first, Some("AS568-218"), "{text}");
        }
    }

    /// ISO 8734 and ISO 2338: pins by diameter and length.
    #[test]
    fn a_pin_has_one_diameter() {
        for text in [
            "dowel diameter 6 long 24",
            "Zylinderstift Durchmesser 6 Länge 24",
            "dowel dia 6 length 24",
            "dowel pin od 6 width 24",
            "dowel outside diameter 6 length 24",
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let figures: Vec<_> = (question.readings.iter())
                .map(|of| (format!("{:#}", of.length.length), of.role))
                .collect();
            let expected = [
                ("6".to_owned(), Some(Role::Inner)),
                ("24".to_owned(), Some(Role::Width)),
            ];
            assert_eq!(figures, expected, "{text}");
            let answers = answer(&question, None).answers;
            assert!(!answers.is_empty(), "{text}");
            let is_it = |name: &str| name.ends_with("6x24") || name.ends_with("6m6x24");
            let mut names = (answers.iter())
                .flat_map(|one| std::iter::once(&one.designation).chain(&one.twins));
            assert!(names.any(|name| is_it(name)), "{text}");
        }
    }

    #[test]
    fn names_of_other_parts_stay() {
        let roles = |text: &str| -> Vec<Option<Role>> {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            question.readings.iter().map(|of| of.role).collect()
        };
        let bearing = roles("bearing bore 25 thickness 15");
        assert_eq!(bearing, [Some(Role::Inner), Some(Role::Width)]);
        let ring = roles("internal circlip bore 52 thickness 2");
        assert!(!ring.contains(&Some(Role::Section)), "{ring:?}");
    }
}
