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
    /// Tighter than the seat's class allows, even at the loosest that the reading allows.
    TighterThanClass,
    /// The ring has play on this shaft at any rate.
    LooseOnShaft,
    /// A limit of the seat's class lies within what the reading is unsure of: neither conformity nor the want of it is proved.
    NotProved,
}

/// Differences below this are those of the arithmetic, µm.
const ARITHMETIC_UM: f64 = 1e-6;

/// Judges the fit on a seat that was read with an uncertainty; `of_class` are the deviations that its class allows, where
/// one is known, else the ring's own band is what the reading is held against.
///
/// # Source
/// A third of the band: common practice, no source. Neither proved: ISO 14253-1, uncertainty range.
pub fn seat_finding(
    (seat, ring, of_class): (Seat, Deviation, Option<Deviation>),
    fit: Interference,
    uncertainty_um: f64,
) -> Option<SeatFinding> {
    let of_seat = seat_deviation(seat, ring, fit);
    let outside = of_class.and_then(|of_class| {
        let is_below = of_seat.upper_um < of_class.lower_um;
        let is_above = of_seat.lower_um > of_class.upper_um;
        // A small shaft and a large housing are loose.
        let (loose, tight) = match seat {
            Seat::Shaft => (is_below, is_above),
            Seat::Housing => (is_above, is_below),
        };
        let looser = loose.then_some(SeatFinding::LooserThanClass);
        looser.or_else(|| tight.then_some(SeatFinding::TighterThanClass))
    });
    let is_loose = seat == Seat::Shaft && fit.greatest_um < 0.0;
    if let Some(sure) = outside.or_else(|| is_loose.then_some(SeatFinding::LooseOnShaft)) {
        // What holds for every diameter that the reading allows is told, however coarse the instrument.
        return Some(sure);
    }
    let band = of_class.unwrap_or(ring);
    let band_um = band.upper_um - band.lower_um;
    if uncertainty_um > band_um / 3.0 {
        return Some(SeatFinding::TooCoarse { band_um });
    }
    let is_within = |of_class: Deviation| {
        of_seat.lower_um >= of_class.lower_um - ARITHMETIC_UM
            && of_seat.upper_um <= of_class.upper_um + ARITHMETIC_UM
    };
    of_class
        .is_some_and(|of_class| !is_within(of_class))
        .then_some(SeatFinding::NotProved)
}

/// Deviation of the seat behind a fit: the reverse of [`interference`].
fn seat_deviation(seat: Seat, ring: Deviation, fit: Interference) -> Deviation {
    match seat {
        Seat::Shaft => Deviation {
            lower_um: fit.least_um + ring.upper_um,
            upper_um: fit.greatest_um + ring.lower_um,
        },
        Seat::Housing => Deviation {
            lower_um: ring.upper_um - fit.greatest_um,
            upper_um: ring.lower_um - fit.least_um,
        },
    }
}

/// Share of the interference by which the raceway of a ring on a solid steel shaft grows.
const GROWTH: f64 = 0.8;

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
    let before = limit::clearance(family, group, bore_mm)?;
    let taken = clearance_taken(on_shaft);
    Some(Deviation {
        lower_um: before.lower_um - taken.upper_um,
        upper_um: before.upper_um - taken.lower_um,
    })
}

/// Clearance that a fit takes away, µm; play widens no clearance.
///
/// # Source
/// As [`clearance_after_fit`]; that an outer ring in a solid steel housing gives way by the same share is handbook practice, from
/// memory.
pub fn clearance_taken(fit: Interference) -> Deviation {
    Deviation {
        lower_um: GROWTH * fit.least_um.max(0.0),
        upper_um: GROWTH * fit.greatest_um.max(0.0),
    }
}

/// The interference that is likely of a fit known between its ends: the means, and the root of the sum of the squares of the
/// bands of ring and seat, which are made without regard to each other; `None` outside the table of the ring.
pub fn likely_interference(
    seat: Seat,
    (diameter_mm, class): (f64, ToleranceClass),
    fit: Interference,
) -> Option<Interference> {
    let ring = ring_deviation(seat, diameter_mm, class)?;
    let of_seat = seat_deviation(seat, ring, fit);
    let mean = (fit.least_um + fit.greatest_um) / 2.0;
    let spread = half_band(of_seat).hypot(half_band(ring));
    Some(Interference {
        least_um: mean - spread,
        greatest_um: mean + spread,
    })
}

/// The clearance that is likely to be left where fits are likely to take so much each; `None` outside the table.
///
/// # Source
/// As [`clearance_after_fit`]; that independent tolerances add up by their squares is common practice, no source.
pub fn likely_clearance_after_fits(
    family: Family,
    group: Clearance,
    bore_mm: f64,
    likely: &[Interference],
) -> Option<Deviation> {
    let before = limit::clearance(family, group, bore_mm)?;
    let middle = |of: Deviation| (of.upper_um + of.lower_um) / 2.0;
    let (mut mean, mut squares) = (middle(before), half_band(before).powi(2));
    for fit in likely {
        let taken = clearance_taken(*fit);
        mean -= middle(taken);
        squares += half_band(taken).powi(2);
    }
    Some(Deviation {
        lower_um: mean - squares.sqrt(),
        upper_um: mean + squares.sqrt(),
    })
}

fn half_band(of: Deviation) -> f64 {
    (of.upper_um - of.lower_um) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a seat reads, µm from its diameter, by an instrument that is sure to so many.
    fn measured_at(off_um: f64, sure_um: f64) -> Deviation {
        Deviation {
            lower_um: off_um - sure_um,
            upper_um: off_um + sure_um,
        }
    }

    fn ring_of(seat: Seat, mm: f64) -> Deviation {
        ring_deviation(seat, mm, ToleranceClass::Normal).unwrap()
    }

    /// What is found of a seat of a class, and its fit.
    fn finding_of(
        (seat, mm, class): (Seat, f64, &str),
        measured: Deviation,
    ) -> (Option<SeatFinding>, Interference) {
        let ring = ring_of(seat, mm);
        let fit = interference(seat, ring, measured);
        let sure_um = (measured.upper_um - measured.lower_um) / 2.0;
        let found = seat_finding((seat, ring, limit::fit(class, mm)), fit, sure_um);
        (found, fit)
    }

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

    #[test]
    fn a_reading_is_held_against_its_class_on_both_sides() {
        use SeatFinding as S;
        let coarse = |band_um| Some(S::TooCoarse { band_um });
        // ISO 286-2: k6 at 25 mm +2/+15, J7 at 52 mm -12/+18, N7 at 52 mm -39/-9 µm. Ring: ISO 492 Normal, 0/-10 and 0/-13.
        for (seat, mm, class, off_um, sure_um, expected) in [
            (Seat::Shaft, 25.0, "k6", 8.0, 4.0, None),
            (Seat::Shaft, 25.0, "k6", 8.0, 4.4, coarse(13.0)),
            (
                Seat::Shaft,
                25.0,
                "k6",
                20.1,
                4.0,
                Some(S::TighterThanClass),
            ),
            (Seat::Shaft, 25.0, "k6", 18.9, 4.0, Some(S::NotProved)),
            (
                Seat::Shaft,
                25.0,
                "k6",
                100.0,
                44.0,
                Some(S::TighterThanClass),
            ),
            (Seat::Shaft, 25.0, "k6", -3.0, 4.0, Some(S::LooserThanClass)),
            (Seat::Shaft, 25.0, "k6", -1.0, 4.0, Some(S::NotProved)),
            // 34 to 56 µm of play on a band of 13: sure, though the instrument is coarse.
            (
                Seat::Shaft,
                25.0,
                "k6",
                -50.0,
                6.0,
                Some(S::LooserThanClass),
            ),
            (Seat::Housing, 52.0, "J7", 0.0, 10.0, None),
            (Seat::Housing, 52.0, "J7", 0.0, 10.1, coarse(30.0)),
            (
                Seat::Housing,
                52.0,
                "J7",
                29.0,
                10.0,
                Some(S::LooserThanClass),
            ),
            (
                Seat::Housing,
                52.0,
                "J7",
                -23.0,
                10.0,
                Some(S::TighterThanClass),
            ),
            (
                Seat::Housing,
                52.0,
                "N7",
                -50.0,
                10.0,
                Some(S::TighterThanClass),
            ),
            (
                Seat::Housing,
                52.0,
                "N7",
                2.0,
                10.0,
                Some(S::LooserThanClass),
            ),
        ] {
            let (found, fit) = finding_of((seat, mm, class), measured_at(off_um, sure_um));
            assert_eq!(found, expected, "{class} {off_um} {sure_um}");
            let (ring, measured) = (ring_of(seat, mm), measured_at(off_um, sure_um));
            let back = seat_deviation(seat, ring, fit);
            assert!(
                (back.lower_um - measured.lower_um).abs() < 1e-9
                    && (back.upper_um - measured.upper_um).abs() < 1e-9
            );
        }
    }

    /// ISO 14253-1: inside or outside is proved where the reading lies beyond the limit by what it is unsure of. ISO 286-2: k6
    /// at 25 mm +2/+15, H7 at 52 mm 0/+30 µm.
    #[test]
    fn a_reading_near_a_limit_proves_neither() {
        use SeatFinding as S;
        for (seat, mm, class, off_um, sure_um, expected) in [
            (Seat::Shaft, 25.0, "k6", 4.0, 2.0, None),
            (Seat::Shaft, 25.0, "k6", 3.9, 2.0, Some(S::NotProved)),
            (Seat::Shaft, 25.0, "k6", 0.1, 2.0, Some(S::NotProved)),
            (Seat::Shaft, 25.0, "k6", -0.1, 2.0, Some(S::LooserThanClass)),
            (Seat::Shaft, 25.0, "k6", 13.0, 2.0, None),
            (Seat::Shaft, 25.0, "k6", 13.1, 2.0, Some(S::NotProved)),
            (Seat::Housing, 52.0, "H7", 38.0, 10.0, Some(S::NotProved)),
            (Seat::Housing, 52.0, "H7", 15.0, 10.0, None),
        ] {
            let (found, _) = finding_of((seat, mm, class), measured_at(off_um, sure_um));
            assert_eq!(found, expected, "{class} {off_um} {sure_um}");
        }
    }

    #[test]
    fn without_a_class_only_play_on_the_shaft_is_sure() {
        let ring = ring_deviation(Seat::Shaft, 25.0, ToleranceClass::Normal).unwrap();
        let of = |off_um: f64, sure_um: f64| {
            let measured = Deviation {
                lower_um: off_um - sure_um,
                upper_um: off_um + sure_um,
            };
            seat_finding(
                (Seat::Shaft, ring, None),
                interference(Seat::Shaft, ring, measured),
                sure_um,
            )
        };
        assert_eq!(of(-50.0, 6.0), Some(SeatFinding::LooseOnShaft));
        assert_eq!(of(0.0, 6.0), Some(SeatFinding::TooCoarse { band_um: 10.0 }));
        assert_eq!(of(0.0, 3.0), None);
    }
}
