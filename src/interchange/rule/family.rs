//! Another type in the same envelope is another part: it carries other loads in other directions.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{Family, RibForm};

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

/// True for a type that lets the shaft move along its axis.
const fn floats(family: Family) -> bool {
    use Family as F;
    matches!(
        family,
        F::CylindricalRoller
            | F::NeedleRoller
            | F::NeedleRollerNoInnerRing
            | F::DrawnCupNeedle
            | F::NeedleCage
    )
}

/// What goes wrong, and who says so.
fn effect(want: Family, rib: Option<RibForm>, have: Family) -> (String, &'static str) {
    use Family as F;
    const PLAN: &str = "ISO 15 general plan: one bore and dimension series, whatever the type";
    let is_floating = matches!(rib, Some(RibForm::N | RibForm::Nu));
    match (want, have) {
        (F::DeepGrooveBall, F::AngularContactBall) => (
            "carries axial load one way only and must be set against a second bearing".to_owned(),
            "published type descriptions",
        ),
        (F::AngularContactBall, F::DeepGrooveBall) => {
            ("cannot be preloaded as half of a pair".to_owned(), "published type descriptions")
        }
        (F::SphericalRoller, F::SelfAligningBall) => (
            "aligns itself too, but balls carry far less than barrel-shaped rollers of one size".to_owned(),
            "published type descriptions",
        ),
        (F::SelfAligningBall, F::SphericalRoller) => (
            "aligns itself too, but barrel-shaped rollers run slower and need more load than balls".to_owned(),
            "published type descriptions",
        ),
        (F::SelfAligningBall | F::SphericalRoller, _) => (
            "a rigid bearing in a self-aligning seat is overloaded by the misalignment the seat allows".to_owned(),
            "handbook practice, from memory",
        ),
        (_, F::SelfAligningBall | F::SphericalRoller) => (
            "a self-aligning bearing lets the shaft tilt where it was held straight".to_owned(),
            "handbook practice, from memory",
        ),
        (_, F::CylindricalRoller) => (
            "a cylindrical roller bearing locates the shaft otherwise, or not at all".to_owned(),
            "DIN 5412-1, from memory",
        ),
        (F::CylindricalRoller, have) if is_floating && !floats(have) => {
            ("would hold a shaft that must be free to grow with heat".to_owned(), "DIN 5412-1, from memory")
        }
        (F::CylindricalRoller, F::DeepGrooveBall | F::AngularContactBall) => (
            "balls carry far less than cylindrical rollers of one size".to_owned(),
            "published type descriptions",
        ),
        (F::DrawnCupNeedle, F::NeedleCage) => (
            "a cage assembly has no ring: it needs a hardened and ground housing".to_owned(),
            "ISO 3030 and ISO 3245, published tables",
        ),
        (F::NeedleCage, F::DrawnCupNeedle) => (
            "a drawn cup needs a press seat in the housing, not a raceway".to_owned(),
            "ISO 3030 and ISO 3245, published tables",
        ),
        (F::NeedleRoller, F::NeedleRollerNoInnerRing) | (F::NeedleRollerNoInnerRing, F::NeedleRoller) => (
            "with or without inner ring: the other runs on another shaft diameter and needs a hardened shaft".to_owned(),
            "ISO 1206, published tables",
        ),
        (F::ShaftRetainingRing, F::BoreRetainingRing) | (F::BoreRetainingRing, F::ShaftRetainingRing) => (
            "rings for shafts and rings for bores of one nominal size are different rings".to_owned(),
            "DIN 471 and DIN 472, published tables",
        ),
        (w, h) if w.is_radial_bearing() && !h.is_radial_bearing() => {
            ("takes no radial load in this seat".to_owned(), "ISO 104 and ISO 15, published tables")
        }
        _ => ("same envelope, but another type: other loads, speed and location".to_owned(), PLAN),
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
