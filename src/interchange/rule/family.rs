//! Another type in the same envelope is another part: it carries other loads in other directions.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{AlongAxis, Family, RibForm};

/// Compares the families.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let (Some(wanted), Some(at_hand)) = (want.family, have.family) else {
        findings.unknown("the type of one of the two is not known");
        return;
    };
    if wanted == at_hand {
        findings.agrees(format!("type: {wanted}"));
        return;
    }
    let (effect, source) = effect(wanted, want.traits.rib_form, at_hand);
    findings.differs(
        Bar::Never,
        Difference {
            what: "type",
            have: at_hand.to_string(),
            want: wanted.to_string(),
            effect,
            source,
        },
    );
}

/// What goes wrong, and who says so.
fn effect(want: Family, rib: Option<RibForm>, have: Family) -> (String, &'static str) {
    const PLAN: &str = "ISO 15 general plan: one bore and dimension series, whatever the type";
    const PRACTICE: &str = "handbook practice, from memory";
    const RIBS: &str = "DIN 5412-1, from memory";
    let (wanted, at_hand) = (&want.facts().exchange, &have.facts().exchange);
    let has_ribs = wanted.along_axis == AlongAxis::ByRibs;
    let floats = has_ribs && matches!(rib, Some(RibForm::N | RibForm::Nu));
    let known = || wanted.instead.iter().find(|known| known.of == have);
    if floats && !at_hand.lets_the_shaft_slide() && !at_hand.aligns_itself {
        let effect = "would hold a shaft that must be free to grow with heat";
        (effect.to_owned(), RIBS)
    } else if let Some(known) = known() {
        (known.effect.to_owned(), known.source)
    } else if wanted.aligns_itself {
        let effect = "a rigid bearing in a self-aligning seat is overloaded by the misalignment the seat allows";
        (effect.to_owned(), PRACTICE)
    } else if at_hand.aligns_itself {
        let effect = "a self-aligning bearing lets the shaft tilt where it was held straight";
        (effect.to_owned(), PRACTICE)
    } else if at_hand.along_axis == AlongAxis::ByRibs {
        let effect = format!("a {have} locates the shaft otherwise, or not at all");
        (effect, RIBS)
    } else if want.is_radial_bearing() && !have.is_radial_bearing() {
        let effect = "takes no radial load in this seat";
        (effect.to_owned(), "ISO 104 and ISO 15, published tables")
    } else {
        let effect = "same envelope, but another type: other loads, speed and location";
        (effect.to_owned(), PLAN)
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::judge::judge;
    use super::*;
    use crate::part::designation::Designation;
    use crate::standard;

    fn said(want: &str, have: &str) -> String {
        let [want, have] = [want, have].map(|name| {
            let designation = Designation::parse(name).unwrap();
            let row = standard::resolve(&designation).unwrap_or_else(|| panic!("{name}"));
            Subject {
                traits: designation.traits,
                ..Subject::of_standard(row)
            }
        });
        let judgement = judge(&want, &have);
        let mut differs = judgement.differs.into_iter();
        let of_type = differs.find(|of| of.what == "type");
        of_type.map_or_else(String::new, |of| of.effect)
    }

    /// DIN 5412-1: NU and N float, NJ and NUP hold the shaft; ISO 15: one envelope of two types.
    #[test]
    fn the_reason_is_that_of_the_two_types() {
        for (want, have, says) in [
            ("NU208", "6208", "free to grow with heat"),
            ("N208", "6208", "free to grow with heat"),
            ("NJ208", "6208", "balls carry far less"),
            ("NUP208", "6208", "balls carry far less"),
            ("NUP208", "7208B", "balls carry far less"),
            ("22208", "2208", "aligns itself too"),
            ("2208", "22208", "aligns itself too"),
            ("1208", "6208", "a rigid bearing"),
            ("6208", "1208", "lets the shaft tilt"),
            ("6208", "NU208", "locates the shaft otherwise"),
        ] {
            let effect = said(want, have);
            assert!(effect.contains(says), "{have} for {want}: {effect}");
        }
    }
}
