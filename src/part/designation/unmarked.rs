//! What the standards say of a bearing that is not marked otherwise.

use super::parsed::Designation;
use crate::part::{BoreForm, Clearance, Closure, Family, ToleranceClass};

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
    let has_radial_clearance = match family {
        Family::DeepGrooveBall
        | Family::SelfAligningBall
        | Family::CylindricalRoller
        | Family::SphericalRoller
        | Family::NeedleRoller => true,
        // Single row angular contact bearings get their clearance when mounted.
        Family::AngularContactBall => traits.rows == Some(2),
        Family::TaperedRoller
        | Family::NeedleRollerNoInnerRing
        | Family::DrawnCupNeedle
        | Family::NeedleCage
        | Family::ThrustBall
        | Family::ThrustNeedle
        | Family::CombinedNeedleThrust
        | Family::LipSeal
        | Family::ORing
        | Family::ShaftRetainingRing
        | Family::BoreRetainingRing
        | Family::LockNut
        | Family::DowelPin => false,
    };
    let is_radial = family.is_radial_bearing();
    if has_radial_clearance {
        traits.clearance.get_or_insert(Clearance::Normal);
    }
    if is_radial || family == Family::ThrustBall {
        traits.tolerance_class.get_or_insert(ToleranceClass::Normal);
    }
    if is_radial
        || matches!(
            family,
            Family::NeedleRollerNoInnerRing | Family::DrawnCupNeedle
        )
    {
        traits.closure.get_or_insert(Closure::Open);
    }
    if is_radial {
        traits.bore_form.get_or_insert(BoreForm::Cylindrical);
        traits.has_snap_ring_groove.get_or_insert(false);
    }
}
