//! What the standards say of a bearing that is not marked otherwise.

use super::parsed::Designation;
use crate::part::{BoreForm, Clearance, Closure, ToleranceClass, Unmarked};

/// Fills in what an unmarked bearing is, unless a suffix is unknown: that suffix might be the mark.
///
/// # Source
/// DIN 623-1 (no closure, groove or taper suffix: open, none, cylindrical), ISO 5753-1 (unmarked: CN), ISO 492 and
/// ISO 199 (unmarked: Normal class).
pub(super) fn fill(designation: &mut Designation) {
    let Some(family) = designation.family else {
        return;
    };
    let traits = &mut designation.traits;
    if !traits.unknown_suffixes.is_empty() {
        return;
    }
    let marks = &family.facts().marks;
    if marks.radial_clearance.holds(traits.rows) {
        traits.clearance.get_or_insert(Clearance::Normal);
    }
    for unmarked in marks.unmarked {
        match unmarked {
            Unmarked::NormalClass => {
                traits.tolerance_class.get_or_insert(ToleranceClass::Normal);
            }
            Unmarked::Open => {
                traits.closure.get_or_insert(Closure::Open);
            }
            Unmarked::CylindricalBore => {
                traits.bore_form.get_or_insert(BoreForm::Cylindrical);
            }
            Unmarked::NoGroove => {
                traits.has_snap_ring_groove.get_or_insert(false);
            }
        }
    }
}
