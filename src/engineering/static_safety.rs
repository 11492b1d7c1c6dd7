//! Static safety (ISO 76).

use crate::part::{Family, StaticLoad};

/// Static load and safety.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct StaticSafety {
    /// Equivalent static load P0, kN.
    pub load_kn: f64,
    /// C0 / P0.
    pub safety: f64,
}

/// Less is no load, kN.
const NO_LOAD_KN: f64 = 1e-9;

/// Static safety s0 of a bearing; `None` for families whose factors are not kept here, or without load.
///
/// # Units
/// Forces and rating in kN; a force counts alike from either side.
///
/// # Source
/// ISO 76, from memory: deep groove X0 0.6, Y0 0.5; cylindrical and needle rollers of 0° radial load only. P0 is nowhere below
/// Fr, and X0 nowhere above 1: without an axial load it is Fr for every radial bearing.
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
    let load_kn = match family.facts().rolling.static_load {
        StaticLoad::Factors { radial, axial } => {
            (radial * radial_kn + axial * axial_kn).max(radial_kn)
        }
        StaticLoad::FactorOfSheet { .. } | StaticLoad::FactorsOfAngle | StaticLoad::RadialAlone
            if axial_kn < NO_LOAD_KN =>
        {
            radial_kn
        }
        StaticLoad::AxialAlone if radial_kn < NO_LOAD_KN => axial_kn,
        StaticLoad::FactorOfSheet { .. }
        | StaticLoad::FactorsOfAngle
        | StaticLoad::RadialAlone
        | StaticLoad::AxialAlone
        | StaticLoad::Unknown => return None,
    };
    safety_of(load_kn, static_kn).filter(|_| is_usable)
}

/// Static safety s0 of a bearing whose axial factor Y0 its data sheet states; `None` for families that have none, or without
/// load.
///
/// # Units
/// Forces and rating in kN; a force counts alike from either side.
///
/// # Source
/// ISO 76, from memory: X0 0.5 for the single row of a tapered roller bearing, 1 for the two rows of self-aligning ball and
/// spherical roller bearings, and P0 at least Fr.
///
/// # Example
/// ```
/// use sparewright::engineering::axial_factor_static_safety;
/// use sparewright::part::Family;
/// // Y0 0.9: 0.5 * 10 + 0.9 * 20 = 23 kN.
/// let of = axial_factor_static_safety(Family::TaperedRoller, 0.9, 46.0, 10.0, 20.0);
/// assert!(of.is_some_and(|of| (of.load_kn - 23.0).abs() < 1e-9 && (of.safety - 2.0).abs() < 1e-9));
/// ```
pub fn axial_factor_static_safety(
    family: Family,
    axial_factor: f64,
    static_kn: f64,
    radial_kn: f64,
    axial_kn: f64,
) -> Option<StaticSafety> {
    let StaticLoad::FactorOfSheet {
        radial: radial_factor,
    } = family.facts().rolling.static_load
    else {
        return None;
    };
    let (radial_kn, axial_kn) = (radial_kn.abs(), axial_kn.abs());
    let figures = [axial_factor, radial_kn, axial_kn];
    let is_usable = figures.iter().all(|figure| figure.is_finite()) && axial_factor > 0.0;
    let load_kn = (radial_factor * radial_kn + axial_factor * axial_kn).max(radial_kn);
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

    /// ISO 76, from memory: P0 = Fr without an axial load.
    #[test]
    fn a_radial_load_alone_needs_no_factor() {
        for family in Family::ALL {
            let of = static_safety(family, 200.0, 20.0, 0.0);
            let rolls_under_it = family.is_radial_bearing()
                || matches!(
                    family,
                    Family::NeedleRollerNoInnerRing | Family::DrawnCupNeedle
                );
            assert_eq!(of.is_some(), rolls_under_it, "{family}");
            if let Some(of) = of {
                assert!((of.load_kn - 20.0).abs() < 1e-9, "{family}: {of:?}");
                assert!((of.safety - 10.0).abs() < 1e-9, "{family}: {of:?}");
            }
        }
    }

    /// ISO 76, from memory; arithmetic: 1 x 10 + 2 x 5 = 20, 0.5 x 30 + 0.8 x 5 = 19 is below Fr.
    #[test]
    fn an_axial_load_takes_the_factor_of_the_data_sheet() {
        let of = |family, factor, radial, axial| {
            axial_factor_static_safety(family, factor, 60.0, radial, axial).map(|of| of.load_kn)
        };
        for (family, factor, radial, axial, load) in [
            (Family::SphericalRoller, 2.0, 10.0, 5.0, 20.0),
            (Family::SelfAligningBall, 2.0, 10.0, -5.0, 20.0),
            (Family::TaperedRoller, 0.8, 30.0, 5.0, 30.0),
            (Family::TaperedRoller, 0.8, 10.0, 20.0, 21.0),
        ] {
            let found = of(family, factor, radial, axial).unwrap();
            assert!((found - load).abs() < 1e-9, "{family}: {found}");
        }
        assert_eq!(of(Family::CylindricalRoller, 2.0, 10.0, 5.0), None);
        assert_eq!(of(Family::SphericalRoller, 0.0, 10.0, 5.0), None);
        assert_eq!(of(Family::SphericalRoller, f64::NAN, 10.0, 5.0), None);
        assert_eq!(of(Family::SphericalRoller, 2.0, 0.0, 0.0), None);
    }
}
