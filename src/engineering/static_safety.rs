//! Static safety (ISO 76).

use crate::part::Family;

/// Static load and safety.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct StaticSafety {
    /// Equivalent static load P0, kN.
    pub load_kn: f64,
    /// C0 / P0.
    pub safety: f64,
}

/// Static safety s0 of a bearing; `None` for families whose factors are not kept here, or without load.
///
/// # Units
/// Forces and rating in kN; a force counts alike from either side.
///
/// # Source
/// ISO 76, from memory: deep groove X0 0.6, Y0 0.5; cylindrical and needle rollers of 0° radial load only, P0 = Fr.
///
/// # Example
/// ```
/// use sparewright::engineering::static_safety;
/// use sparewright::part::Family;
/// // 6205, C0 7.8 kN (Mott), 3 kN radial and 2 kN axial: P0 3.00 kN, s0 2.60.
/// let s0 = static_safety(Family::DeepGrooveBall, 7.8, 3.0, 2.0).map(|of| of.safety);
/// assert!(s0.is_some_and(|s0| (s0 - 2.6).abs() < 1e-9));
/// ```
pub fn static_safety(
    family: Family,
    static_kn: f64,
    radial_kn: f64,
    axial_kn: f64,
) -> Option<StaticSafety> {
    // A force counts from either side.
    let (radial_kn, axial_kn) = (radial_kn.abs(), axial_kn.abs());
    let is_usable = [static_kn, radial_kn, axial_kn]
        .iter()
        .all(|figure| figure.is_finite());
    let load_kn = match family {
        Family::DeepGrooveBall => (0.6 * radial_kn + 0.5 * axial_kn).max(radial_kn),
        Family::CylindricalRoller
        | Family::NeedleRoller
        | Family::NeedleRollerNoInnerRing
        | Family::DrawnCupNeedle
            if axial_kn < 1e-9 =>
        {
            radial_kn
        }
        Family::ThrustBall if radial_kn < 1e-9 => axial_kn,
        _ => return None,
    };
    safety_of(load_kn, static_kn).filter(|_| is_usable)
}

/// Static safety s0 of a single row angular contact ball bearing; `None` for other angles than 15, 20, 25, 30, 35 and 40°,
/// or without load.
///
/// # Units
/// Forces and rating in kN; a force counts alike from either side.
///
/// # Source
/// ISO 76, from memory: X0 0.5, Y0 0.46, 0.42, 0.38, 0.33, 0.29 and 0.26, and P0 at least Fr.
///
/// # Example
/// ```
/// use sparewright::engineering::angular_static_safety;
/// // 40°: 0.5 * 2 + 0.26 * 10 = 3.6 kN.
/// let of = angular_static_safety(40, 7.2, 2.0, 10.0);
/// assert!(of.is_some_and(|of| (of.load_kn - 3.6).abs() < 1e-9 && (of.safety - 2.0).abs() < 1e-9));
/// assert_eq!(angular_static_safety(12, 7.2, 2.0, 10.0), None);
/// ```
pub fn angular_static_safety(
    angle_deg: u8,
    static_kn: f64,
    radial_kn: f64,
    axial_kn: f64,
) -> Option<StaticSafety> {
    let axial_factor = match angle_deg {
        15 => 0.46,
        20 => 0.42,
        25 => 0.38,
        30 => 0.33,
        35 => 0.29,
        40 => 0.26,
        _ => return None,
    };
    let (radial_kn, axial_kn) = (radial_kn.abs(), axial_kn.abs());
    let load_kn = (0.5 * radial_kn + axial_factor * axial_kn).max(radial_kn);
    safety_of(load_kn, static_kn).filter(|_| radial_kn.is_finite() && axial_kn.is_finite())
}

fn safety_of(load_kn: f64, static_kn: f64) -> Option<StaticSafety> {
    let is_usable = load_kn.is_finite() && static_kn.is_finite();
    (is_usable && load_kn > 0.0 && static_kn > 0.0).then(|| StaticSafety {
        load_kn,
        safety: static_kn / load_kn,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_large_axial_force_leads_and_other_families_say_nothing() {
        // ISO 76: P0 = 0.6 * 1 + 0.5 * 6 = 3.6 kN.
        let of = static_safety(Family::DeepGrooveBall, 7.2, 1.0, 6.0).unwrap();
        assert!((of.load_kn - 3.6).abs() < 1e-9 && (of.safety - 2.0).abs() < 1e-9);
        assert_eq!(static_safety(Family::ThrustBall, 20.0, 1.0, 2.0), None);
        assert_eq!(static_safety(Family::TaperedRoller, 20.0, 1.0, 2.0), None);
        assert_eq!(static_safety(Family::NeedleRoller, 20.0, 1.0, 2.0), None);
        assert_eq!(static_safety(Family::DeepGrooveBall, 7.2, 0.0, 0.0), None);
    }
}
