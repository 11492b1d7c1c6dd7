//! Tolerances of O-rings: those a table row states, else the formula of ISO 3601-1.

/// Tolerances to either side, mm.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct OringTolerance {
    /// Inside diameter.
    pub inside_mm: f64,
    /// Section.
    pub section_mm: f64,
}

/// Tolerances of an O-ring; `note` is the note of its table row, which may state them.
///
/// # Source
/// The row itself (SAE AS568, ISO 3601-1 class A); without it ISO 3601-1 class B, ±(0.009 d^0.95 + 0.11) mm on the inside
/// diameter, and ±0.08 to ±0.15 mm on the section by its size, published pages.
pub fn o_ring(inside_mm: f64, section_mm: f64, note: &str) -> OringTolerance {
    stated(note).unwrap_or_else(|| OringTolerance {
        inside_mm: 0.009 * inside_mm.powf(0.95) + 0.11,
        section_mm: match section_mm {
            s if s < 2.3 => 0.08,
            s if s < 3.2 => 0.09,
            s if s < 4.5 => 0.10,
            s if s < 6.3 => 0.13,
            _ => 0.15,
        },
    })
}

/// `tolerances inside diameter 0.1, section 0.08 mm`.
fn stated(note: &str) -> Option<OringTolerance> {
    let (_, rest) = note.split_once("tolerances inside diameter ")?;
    let (inside, rest) = rest.split_once(", section ")?;
    let section = rest.split_whitespace().next()?;
    Some(OringTolerance {
        inside_mm: inside.parse().ok()?,
        section_mm: section.parse().ok()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_row_speaks_before_the_formula() {
        let of_row = o_ring(
            31.34,
            3.53,
            "tolerances inside diameter 0.3, section 0.1 mm; x",
        );
        assert!((of_row.inside_mm - 0.3).abs() < 1e-12);
        // ISO 3601-1 class B by its formula at 20 mm: 0.009 * 20^0.95 + 0.11 = 0.265 mm.
        let by_formula = o_ring(20.0, 1.8, "");
        assert!(
            (by_formula.inside_mm - 0.265).abs() < 0.001,
            "{by_formula:?}"
        );
        assert!((by_formula.section_mm - 0.08).abs() < 1e-12);
    }
}
