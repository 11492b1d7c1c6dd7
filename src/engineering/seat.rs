//! Fit of a bearing ring on its seat: ISO 286 seats with ISO 492 rings.

use crate::limit::{self, BearingFeature, Deviation};
use crate::part::{Clearance, Family, ToleranceClass};

/// Which ring sits on which seat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seat {
    /// Inner ring on a shaft.
    Shaft,
    /// Outer ring in a housing.
    Housing,
}

/// Least and greatest interference, µm; negative is clearance.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Interference {
    /// Least.
    pub least_um: f64,
    /// Greatest.
    pub greatest_um: f64,
}

/// Interference of a ring on a seat of an ISO 286 class; `None` where a table ends.
///
/// # Source
/// ISO 492 and ISO 286-2 (see [`limit`]).
///
/// # Example
/// ```
/// use sparewright::engineering::{bearing_seat, Seat};
/// use sparewright::part::ToleranceClass;
/// // 25 mm bore 0/-10 µm on k6 +2/+15 µm: 2 to 25 µm interference.
/// let fit = bearing_seat(Seat::Shaft, 25.0, ToleranceClass::Normal, "k6");
/// assert!(fit.is_some_and(|fit| (fit.least_um - 2.0).abs() < 1e-9 && (fit.greatest_um - 25.0).abs() < 1e-9));
/// ```
pub fn bearing_seat(
    seat: Seat,
    diameter_mm: f64,
    class: ToleranceClass,
    seat_class: &str,
) -> Option<Interference> {
    let is_shaft_class = seat_class.starts_with(|c: char| c.is_ascii_lowercase());
    if is_shaft_class != (seat == Seat::Shaft) {
        return None;
    }
    let ring = ring_deviation(seat, diameter_mm, class)?;
    Some(interference(
        seat,
        ring,
        limit::fit(seat_class, diameter_mm)?,
    ))
}

/// Deviation of the ring that sits on the seat, by ISO 492.
pub fn ring_deviation(seat: Seat, diameter_mm: f64, class: ToleranceClass) -> Option<Deviation> {
    let feature = match seat {
        Seat::Shaft => BearingFeature::Bore,
        Seat::Housing => BearingFeature::OutsideDiameter,
    };
    limit::bearing(feature, class, diameter_mm)
}

/// Interference of a ring and a seat whose deviations are known; of a measured seat, both deviations are the measured one
/// less and more the instrument's uncertainty.
pub fn interference(seat: Seat, ring: Deviation, of_seat: Deviation) -> Interference {
    let (inner, outer) = match seat {
        // The shaft is inside the ring.
        Seat::Shaft => (of_seat, ring),
        Seat::Housing => (ring, of_seat),
    };
    Interference {
        least_um: inner.lower_um - outer.upper_um,
        greatest_um: inner.upper_um - outer.lower_um,
    }
}

/// What a reading of a seat says against putting a ring on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SeatFinding {
    /// The reading is surer than a third of the band to be judged by less: it tells neither way.
    TooCoarse {
        /// Width of the band, µm.
        band_um: f64,
    },
    /// Looser than the seat's class allows, even at the tightest that the reading allows.
    LooserThanClass,
    /// The ring has play on this shaft at any rate.
    LooseOnShaft,
}

/// Judges the fit on a seat that was read with an uncertainty; `of_class` are the deviations that its class allows, where
/// one is known, else the ring's own band is what the reading is held against.
///
/// # Source
/// A third of the band: common practice, no source.
pub fn seat_findings(
    (seat, ring, of_class): (Seat, Deviation, Option<Deviation>),
    fit: Interference,
    uncertainty_um: f64,
) -> Vec<SeatFinding> {
    let mut findings = Vec::new();
    let band = of_class.unwrap_or(ring);
    let band_um = band.upper_um - band.lower_um;
    if uncertainty_um > band_um / 3.0 {
        findings.push(SeatFinding::TooCoarse { band_um });
    }
    let by_class = of_class.map(|of_class| interference(seat, ring, of_class));
    if by_class.is_some_and(|by_class| fit.greatest_um < by_class.least_um) {
        findings.push(SeatFinding::LooserThanClass);
    } else if seat == Seat::Shaft && fit.greatest_um < 0.0 {
        findings.push(SeatFinding::LooseOnShaft);
    }
    findings
}

/// Radial clearance left after the inner ring is pressed on; `None` outside the table.
///
/// # Source
/// ISO 5753-1 for the clearance; that a ring's raceway grows by about 80 % of the interference on a solid steel shaft is
/// handbook practice, from memory.
pub fn clearance_after_fit(
    family: Family,
    group: Clearance,
    bore_mm: f64,
    on_shaft: Interference,
) -> Option<Deviation> {
    const GROWTH: f64 = 0.8;
    let before = limit::clearance(family, group, bore_mm)?;
    Some(Deviation {
        lower_um: before.lower_um - GROWTH * on_shaft.greatest_um.max(0.0),
        upper_um: before.upper_um - GROWTH * on_shaft.least_um.max(0.0),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn worked_fits() {
        // ISO 492 Normal with ISO 286 (limits by an open package): the four rings of the worked table.
        for (seat, mm, class, least, greatest) in [
            (Seat::Shaft, 25.0, "k6", 2.0, 25.0),
            (Seat::Shaft, 40.0, "m6", 9.0, 37.0),
            (Seat::Shaft, 17.0, "j6", -3.0, 16.0),
            (Seat::Housing, 52.0, "N7", -4.0, 39.0),
        ] {
            let fit = bearing_seat(seat, mm, ToleranceClass::Normal, class).unwrap();
            assert!(
                (fit.least_um - least).abs() < 1e-9 && (fit.greatest_um - greatest).abs() < 1e-9,
                "{class} {mm}: {fit:?}"
            );
        }
        assert_eq!(
            bearing_seat(Seat::Housing, 52.0, ToleranceClass::Normal, "k6"),
            None
        );
    }

    #[test]
    fn a_tight_fit_takes_clearance_away() {
        // ISO 5753-1 CN at 40 mm, 6 to 20 µm; on m6 up to 37 µm interference may leave none.
        let fit = bearing_seat(Seat::Shaft, 40.0, ToleranceClass::Normal, "m6").unwrap();
        let left =
            clearance_after_fit(Family::DeepGrooveBall, Clearance::Normal, 40.0, fit).unwrap();
        assert!(left.lower_um < 0.0 && left.upper_um > 0.0, "{left:?}");
        let wider = clearance_after_fit(Family::DeepGrooveBall, Clearance::C3, 40.0, fit).unwrap();
        assert!(wider.lower_um > left.lower_um);
    }
}
