//! Speed of a shaft under the lip of a seal.

use crate::part::designation;

/// Surface speed and what the elastomer stands.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct SurfaceSpeed {
    /// Surface speed, m/s.
    pub speed_m_s: f64,
    /// What the elastomer stands without pressure, in oil, m/s; `None` where it is not known.
    pub limit_m_s: Option<f64>,
    /// True where the speed is within the limit; `None` where that is not known.
    pub is_within: Option<bool>,
}

/// Surface speed of a shaft, and whether an elastomer stands it.
///
/// # Source
/// Speed is arithmetic. Limits of a lip without pressure in mineral oil: NBR 14, ACM 18, FKM 35, VMQ 35 m/s, from memory of
/// DIN 3760; data sheets of the seal go before.
///
/// # Example
/// ```
/// // 40 mm at 3,000 rev/min: pi * 0.040 * 50 = 6.28 m/s.
/// let speed = sparewright::engineering::surface_speed(40.0, 3000.0, Some("NBR"));
/// assert!((speed.speed_m_s - 6.283).abs() < 0.001);
/// assert_eq!(speed.is_within, Some(true));
/// ```
pub fn surface_speed(shaft_mm: f64, speed_rpm: f64, elastomer: Option<&str>) -> SurfaceSpeed {
    // Either sense of rotation is as fast.
    let speed_m_s = (std::f64::consts::PI * shaft_mm / 1000.0 * speed_rpm / 60.0).abs();
    let symbol = elastomer.and_then(|word| designation::seal_elastomer(word.trim()));
    let limit_m_s = symbol.and_then(|symbol| match symbol {
        "NBR" | "HNBR" => Some(14.0),
        "ACM" => Some(18.0),
        "FKM" | "VMQ" => Some(35.0),
        _ => None,
    });
    SurfaceSpeed {
        speed_m_s,
        limit_m_s,
        is_within: limit_m_s
            .filter(|_| speed_m_s.is_finite())
            .map(|limit| speed_m_s <= limit),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn older_symbols_and_plain_names_have_the_same_limit() {
        // ISO 1629: FPM is FKM, MVQ is VMQ; nitrile is NBR (common practice, no source).
        for (name, symbol) in [
            ("FPM", "FKM"),
            ("fpm", "FKM"),
            ("MVQ", "VMQ"),
            ("nitrile", "NBR"),
            (" NBR ", "NBR"),
        ] {
            let limit = |name| surface_speed(120.0, 3000.0, Some(name)).is_within;
            assert!(limit(symbol).is_some(), "{symbol}");
            assert_eq!(limit(name), limit(symbol), "{name}");
        }
        assert_eq!(surface_speed(80.0, 3000.0, Some("rubber")).limit_m_s, None);
    }

    #[test]
    fn an_unknown_elastomer_has_no_limit() {
        assert_eq!(surface_speed(80.0, 3000.0, Some("EPDM")).is_within, None);
        assert_eq!(surface_speed(80.0, 3000.0, None).limit_m_s, None);
        // 120 mm at 3,000 rev/min: 18.85 m/s, over nitrile's 14, under the fluoroelastomer's 35.
        assert_eq!(
            surface_speed(120.0, 3000.0, Some("NBR")).is_within,
            Some(false)
        );
        assert_eq!(
            surface_speed(120.0, 3000.0, Some("fkm")).is_within,
            Some(true)
        );
    }
}
