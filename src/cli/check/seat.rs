//! Check of a seat: interference of shaft or housing with the ring, and the clearance left.

use super::bearing::family_that_rolls;
use crate::cli::refusal::Refusal;
use crate::engineering as eng;
use crate::limit::{self, Deviation};
use crate::lookup::{
    Instrument, LOOSE_ON_SHAFT, LOOSER_THAN_CLASS, Role, TIGHTER_THAN_CLASS, WorkedOut,
    against_clearance, expanded_uncertainty_mm, likely_in_words,
};
use crate::part::{Clearance, Family, ToleranceClass};

/// Fit of a bearing's ring on its seat, and the clearance that it leaves.
pub fn seat_fit(
    diameter: f64,
    seat_class: &str,
    class: &str,
    measured: Option<f64>,
    uncertainty_um: Option<f64>,
    clearance: (Option<&str>, Option<&str>, Option<f64>),
) -> Result<WorkedOut, Refusal> {
    let class = ToleranceClass::from_code(class)
        .ok_or_else(|| format!("`{class}` is no tolerance class; expected P0, P6, P5 or P4"))?;
    let is_shaft = seat_class.starts_with(|c: char| c.is_ascii_lowercase());
    let seat = if is_shaft {
        eng::Seat::Shaft
    } else {
        eng::Seat::Housing
    };
    let role = if is_shaft { Role::Shaft } else { Role::Housing };
    let uncertainty_um = uncertainty_um
        .unwrap_or_else(|| expanded_uncertainty_mm(Instrument::Micrometer, role) * 1000.0);
    let by_class = eng::bearing_seat(seat, diameter, class, seat_class)
        .ok_or_else(|| format!("no limits here for `{seat_class}` at {diameter} mm"))?;
    let fit = match measured {
        Some(measured) => {
            near_its_diameter(measured, diameter)?;
            let off_um = (measured - diameter) * 1000.0;
            let of_seat = Deviation {
                lower_um: off_um - uncertainty_um,
                upper_um: off_um + uncertainty_um,
            };
            eng::ring_deviation(seat, diameter, class)
                .map(|ring| eng::interference(seat, ring, of_seat))
                .ok_or("no limits for this ring here")?
        }
        None => by_class,
    };
    let before = ClearanceBefore::read(clearance, seat, diameter)?;
    let left = (before.as_ref()).and_then(|before| before.left(seat, (diameter, class), fit));
    let mut against = Vec::new();
    if let (Some(_), Some(ring)) = (measured, eng::ring_deviation(seat, diameter, class)) {
        let of_class = limit::fit(seat_class, diameter);
        let finding = eng::seat_finding((seat, ring, of_class), fit, uncertainty_um);
        against.extend(finding.map(|finding| finding_in_words(&finding, uncertainty_um)));
    }
    let mut says = vec!["negative interference is play".to_owned()];
    says.extend(before.map(|before| before.in_words(left.is_some())));
    if let Some((left, likely)) = left {
        says.extend(likely_in_words(left, likely));
        against.extend(against_clearance(likely).map(str::to_owned));
    }
    let (left, likely) = left.unzip();
    Ok(WorkedOut {
        of: String::new(),
        check: "seat",
        values: vec![
            ("least_interference_um", Some(fit.least_um)),
            ("greatest_interference_um", Some(fit.greatest_um)),
            ("least_clearance_left_um", left.map(|left| left.lower_um)),
            ("greatest_clearance_left_um", left.map(|left| left.upper_um)),
            (
                "likely_least_clearance_left_um",
                likely.map(|left| left.lower_um),
            ),
            (
                "likely_greatest_clearance_left_um",
                likely.map(|left| left.upper_um),
            ),
        ],
        says,
        against,
    })
}

/// What a reading says against the seat, in words.
fn finding_in_words(finding: &eng::SeatFinding, uncertainty_um: f64) -> String {
    match finding {
        eng::SeatFinding::TooCoarse { band_um } => format!(
            "the reading is sure to {uncertainty_um:.0} µm and the band is {band_um:.0} µm: this instrument cannot tell; use one that is sure to a third of the band"
        ),
        eng::SeatFinding::LooserThanClass => LOOSER_THAN_CLASS.to_owned(),
        eng::SeatFinding::TighterThanClass => TIGHTER_THAN_CLASS.to_owned(),
        eng::SeatFinding::LooseOnShaft => LOOSE_ON_SHAFT.to_owned(),
        eng::SeatFinding::NotProved => format!(
            "a limit of the seat's class lies nearer than the {uncertainty_um:.0} µm that the reading is sure to: it is proved neither right nor wrong (ISO 14253-1); measure again with a finer instrument"
        ),
    }
}

/// Furthest that a measured seat lies from its diameter, as a share of it and mm at least: worn or turned down further, it is a
/// seat for another bearing (common practice, no source).
const FURTHEST_SEAT: (f64, f64) = (0.02, 1.0);

/// Refuses a seat that no ring of the diameter was ever on: a slip of the pen, inches, or micrometres.
fn near_its_diameter(measured: f64, diameter: f64) -> Result<(), Refusal> {
    let off_mm = (measured - diameter).abs();
    let (share, least_mm) = FURTHEST_SEAT;
    if off_mm <= (share * diameter).max(least_mm) {
        return Ok(());
    }
    let off_mm = (off_mm * 1e3).round() / 1e3;
    Err(Refusal::new(format!(
        "`--measured {measured}` lies {off_mm} mm beside the diameter of {diameter} mm: no seat for it does; give both in mm and look at the figures again"
    )))
}

fn clearance_group(code: &str) -> Result<Clearance, Refusal> {
    let group = Clearance::from_code(code);
    Ok(group
        .ok_or_else(|| format!("`{code}` is no clearance group; expected C2, CN, C3, C4 or C5"))?)
}

/// The clearance of a bearing before it is fitted.
struct ClearanceBefore {
    group: Clearance,
    family: Family,
    /// Unknown of a bearing in a housing where nobody said it.
    bore_mm: Option<f64>,
}

impl ClearanceBefore {
    /// Reads what was asked for; `None` where no clearance was.
    fn read(
        (group, family, bore_mm): (Option<&str>, Option<&str>, Option<f64>),
        seat: eng::Seat,
        diameter_mm: f64,
    ) -> Result<Option<Self>, Refusal> {
        let Some(group) = group.map(clearance_group).transpose()? else {
            return Ok(None);
        };
        let on_shaft = seat == eng::Seat::Shaft;
        if on_shaft && bore_mm.is_some() {
            return Err("`--bore` is of a bearing in a housing; on a shaft the diameter of the seat is the bore".into());
        }
        Ok(Some(Self {
            group,
            family: family.map_or(Ok(Family::DeepGrooveBall), family_that_rolls)?,
            bore_mm: bore_mm.or(on_shaft.then_some(diameter_mm)),
        }))
    }

    /// Clearance left between the ends of all tolerances, and as it is likely, on one seat.
    fn left(
        &self,
        seat: eng::Seat,
        ring: (f64, ToleranceClass),
        fit: eng::Interference,
    ) -> Option<(Deviation, Deviation)> {
        let bore_mm = self.bore_mm?;
        let left = eng::clearance_after_fit(self.family, self.group, bore_mm, fit)?;
        let fit = eng::likely_interference(seat, ring, fit)?;
        let likely = eng::likely_clearance_after_fits(self.family, self.group, bore_mm, &[fit])?;
        Some((left, likely))
    }

    /// What the clearance left is of, or why it is not worked out.
    fn in_words(&self, is_known: bool) -> String {
        let (group, family) = (self.group, self.family);
        match self.bore_mm {
            None => {
                "the clearance left in a housing goes by the bearing's bore: give it with --bore"
                    .to_owned()
            }
            Some(_) if is_known => format!(
                "clearance {group} of a {family} (ISO 5753-1), on this seat alone: the seat of the other ring takes its share as well"
            ),
            Some(bore_mm) => format!(
                "no limits of clearance {group} (ISO 5753-1) here for a bore of {bore_mm} mm of a {family}"
            ),
        }
    }
}
