//! Another type in the same envelope is another part: it carries other loads in other directions.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::Family;

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
    let (effect, source) = effect(wanted, at_hand);
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
fn effect(want: Family, have: Family) -> (String, &'static str) {
    use Family as F;
    const PLAN: &str = "ISO 15 general plan: one bore and dimension series, whatever the type";
    match (want, have) {
        (F::DeepGrooveBall, F::AngularContactBall) => (
            "carries axial load one way only and must be set against a second bearing".to_owned(),
            "published type descriptions",
        ),
        (F::AngularContactBall, F::DeepGrooveBall) => {
            ("cannot be preloaded as half of a pair".to_owned(), "published type descriptions")
        }
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
        (F::CylindricalRoller, _) => {
            ("would hold a shaft that must be free to grow with heat".to_owned(), "DIN 5412-1, from memory")
        }
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
