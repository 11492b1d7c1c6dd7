//! What instruments add to a reading.

use super::super::reading::{Instrument, Role};

/// Standard uncertainty of a reading, mm, above and below the true value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spread {
    /// When it reads too small.
    pub(super) below_mm: f64,
    /// When it reads too large.
    pub(super) above_mm: f64,
}

/// Standard uncertainty of an instrument in a workshop.
///
/// # Source
/// Common practice, no source: a steel rule is read to half a millimetre; a calliper is within 0.02 to 0.03 mm (its limits of
/// error and the hand), and its inside jaws read a bore small because their faces are flat; a micrometer within 0.004 mm; a
/// comparator set to gauge blocks, or a bore gauge set to a ring, within 0.001 mm.
pub(super) fn spread(instrument: Instrument, role: Role) -> Spread {
    let (below_mm, above_mm) = match (instrument, role) {
        (Instrument::Rule, _) => (0.30, 0.30),
        (Instrument::Calliper, Role::Inner | Role::Housing | Role::WasherBore | Role::FreeLip) => {
            (0.035, 0.02)
        }
        (Instrument::Calliper, _) => (0.022, 0.022),
        (Instrument::Micrometer, Role::Inner | Role::Housing) => (0.005, 0.005),
        (Instrument::Micrometer, _) => (0.003, 0.003),
        (Instrument::Comparator, _) => (0.001, 0.001),
    };
    Spread { below_mm, above_mm }
}

/// Expanded uncertainty (about 95 of 100 readings) of an instrument, mm.
pub fn expanded_uncertainty_mm(instrument: Instrument, role: Role) -> f64 {
    let spread = spread(instrument, role);
    2.0 * spread.below_mm.max(spread.above_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finer_instruments_are_surer_of_every_figure() {
        for role in [Role::Inner, Role::Outer, Role::Width] {
            let of = |instrument| expanded_uncertainty_mm(instrument, role);
            assert!(of(Instrument::Micrometer) * 5.0 < of(Instrument::Calliper));
            assert!(of(Instrument::Calliper) * 5.0 < of(Instrument::Rule));
            assert!(of(Instrument::Comparator) * 2.5 < of(Instrument::Micrometer));
        }
    }
}
