//! The chamfer of a ring must clear the fillet of its shoulder.

use super::super::needs::Need;
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};

const SOURCE: &str = "ISO 582, from memory; fillet radii of textbook bearing tables";

/// Compares the smallest chamfer with the fillet, or with the smallest chamfer of the wanted part.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let is_bearing = have.family.is_some_and(|family| family.is_radial_bearing());
    if !is_bearing || findings.is_barred() {
        return;
    }
    findings.looks_at(Need::Fillet);
    match (want.needs.fillet_mm, have.chamfer_mm, want.chamfer_mm) {
        (Some(fillet_mm), Some(chamfer_mm), _) => {
            if chamfer_mm > fillet_mm {
                findings.agrees(format!(
                    "chamfer {chamfer_mm} mm clears the fillet of {fillet_mm} mm"
                ));
                return;
            }
            findings.differs(
                Bar::Never,
                Difference {
                    what: "chamfer",
                    have: format!("{chamfer_mm} mm at least"),
                    want: format!("more than the fillet of {fillet_mm} mm"),
                    effect: "rides on the fillet and does not sit against its shoulder".to_owned(),
                    source: SOURCE,
                },
            );
        }
        (Some(_), None, _) => {
            findings.unknown("smallest chamfer, against the fillet of the shoulder")
        }
        (None, Some(chamfer_mm), Some(old_mm)) if chamfer_mm < old_mm - 1e-9 => {
            findings.differs(
                Bar::Check,
                Difference {
                    what: "chamfer",
                    have: format!("{chamfer_mm} mm at least"),
                    want: format!("{old_mm} mm at least"),
                    effect: "a smaller chamfer may ride on the fillet of the shoulder".to_owned(),
                    source: SOURCE,
                },
            );
            findings.check("fillet radius of shaft and housing against the smaller chamfer");
        }
        _ => {}
    }
}
