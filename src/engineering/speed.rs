//! Speed of the shaft against a limit.

use crate::part::Closure;

/// Share of the open bearing's limit that contact seals leave.
const CONTACT_SEAL_SHARE: f64 = 0.6;

/// A speed against its limit.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct SpeedCheck {
    /// Limit that holds for the closure, rev/min.
    pub limit_rpm: f64,
    /// Speed over limit.
    pub share: f64,
    /// True where the speed is below the limit.
    pub is_within: bool,
}

/// Compares a speed with a limit; `None` unless both are above 0.
///
/// `is_limit_of_open` says that the limit is the open bearing's; contact seals leave about 60 % of it.
///
/// # Source
/// Published closure description (contact seals cut the top speed by about 40 %).
pub fn speed_check(
    speed_rpm: f64,
    limit_rpm: f64,
    closure: Option<Closure>,
    is_limit_of_open: bool,
) -> Option<SpeedCheck> {
    let has_contact_seal = matches!(closure, Some(Closure::SealOneSide | Closure::SealBothSides));
    let share = if has_contact_seal && is_limit_of_open {
        CONTACT_SEAL_SHARE
    } else {
        1.0
    };
    let limit_rpm = limit_rpm * share;
    (speed_rpm > 0.0 && limit_rpm > 0.0).then(|| SpeedCheck {
        limit_rpm,
        share: speed_rpm / limit_rpm,
        is_within: speed_rpm <= limit_rpm,
    })
}

/// Speed factor n d_m, mm/min: speed by mean diameter.
///
/// # Example
/// ```
/// // 6205 (25 and 52 mm) at 12,000 rev/min: 462,000.
/// assert!((sparewright::engineering::speed_factor(12_000.0, 25.0, 52.0) - 462_000.0).abs() < 1e-6);
/// ```
pub fn speed_factor(speed_rpm: f64, bore_mm: f64, outside_mm: f64) -> f64 {
    speed_rpm * (bore_mm + outside_mm) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn contact_seals_lower_an_open_limit() {
        // Published: about 40 % less.
        let sealed = speed_check(7_000.0, 10_000.0, Some(Closure::SealBothSides), true).unwrap();
        assert!(!sealed.is_within && (sealed.limit_rpm - 6_000.0).abs() < 1e-9);
        assert!(
            speed_check(7_000.0, 10_000.0, Some(Closure::ShieldBothSides), true)
                .unwrap()
                .is_within
        );
        assert!(
            speed_check(7_000.0, 10_000.0, Some(Closure::SealBothSides), false)
                .unwrap()
                .is_within
        );
        assert_eq!(speed_check(0.0, 10_000.0, None, true), None);
    }
}
