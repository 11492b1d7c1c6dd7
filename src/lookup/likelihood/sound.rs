//! What the figures say of the part's state: outside what a sound part can have, or beyond what the instrument can tell.

use super::super::reading::{Instrument, Reading, Role};
use super::expected::{Expected, expected};
use super::instrument::expanded_uncertainty_mm;
use super::posterior::Scored;
use crate::part::{Family, ToleranceClass, Traits};

/// Remarks on the figures, taken for the likeliest size; nothing where they were printed, not measured.
pub fn remarks(best: &Scored, readings: &[Reading], traits: &Traits) -> Vec<String> {
    if best.is_printed && readings.iter().all(|reading| !reading.is_worn) {
        return Vec::new();
    }
    let class = traits.tolerance_class.unwrap_or(ToleranceClass::Normal);
    let row = best.candidate.rows.first().copied();
    let mut remarks = Vec::new();
    for (reading, role) in readings.iter().zip(best.roles.iter()) {
        let ways = expected(&best.candidate.size, row, *role, class);
        // Two ways to come about leave nothing to judge.
        if let [Some(way), None] = ways {
            remarks.extend(of_figure(best, reading, *role, &way));
        }
    }
    remarks
}

fn of_figure(best: &Scored, reading: &Reading, role: Role, way: &Expected) -> Option<String> {
    let read = match (&reading.as_inches, best.is_inch) {
        (Some(inches), true) => inches,
        _ => &reading.length,
    };
    let x_mm = read.length.to_mm();
    let (low_mm, high_mm) = (
        way.base_mm + way.band.lower_um / 1000.0,
        way.base_mm + way.band.upper_um / 1000.0,
    );
    let instrument = reading.likely_instrument(read);
    let sure_mm = expanded_uncertainty_mm(instrument, role) + 2.0 * way.soft_mm;
    let family = best.candidate.size.family();
    if x_mm < low_mm - sure_mm || x_mm > high_mm + sure_mm {
        let is_below = x_mm < low_mm;
        return Some(format!(
            "{} {:.3} mm lies {} the {:.3} to {:.3} mm that a sound part of {} can have: {}",
            role.words_of(family),
            x_mm,
            if is_below { "below" } else { "above" },
            low_mm,
            high_mm,
            best.candidate.size,
            meaning(family, role, is_below)
        ));
    }
    let says_so = reading.is_worn || reading.is_measured || reading.instrument.is_some();
    cannot_tell(way, (family, role), instrument, says_so)
}

/// What a figure outside the band of a sound part means.
fn meaning(family: Family, role: Role, is_below: bool) -> &'static str {
    match (family, role, is_below) {
        (Family::ORing, Role::Inner | Role::Outer, false) => {
            "the ring is stretched; measure the groove instead"
        }
        (Family::ORing, Role::Section, true) => {
            "the ring is flattened (compression set); measure the groove instead"
        }
        (Family::ORing, _, _) => "the ring has shrunk or swollen; measure the groove instead",
        (_, Role::Outer, true) => {
            "the ring has crept in its housing (creep wear); measure the housing bore before a new one goes in"
        }
        (Family::DowelPin, Role::Inner, false) => {
            "a pin wears thinner and never thicker: measure again, or it is another part"
        }
        (
            Family::DrawnCupNeedle
            | Family::NeedleRollerNoInnerRing
            | Family::NeedleCage
            | Family::CombinedNeedleThrust,
            Role::Inner,
            false,
        ) => {
            "the needles or their raceway are worn, or a drawn cup lies free and is not round: measure the shaft"
        }
        (_, Role::Inner, false) => {
            "the ring has turned on its shaft; measure the shaft before a new one goes in"
        }
        (_, Role::Shaft, true) => "the seat is worn; repair it or sleeve it",
        (_, Role::Housing, false) => "the seat is worn; repair it or sleeve it",
        (_, Role::Width, true) => "the faces are worn, or it is another part",
        _ => "measure again on a clean place, or it is another part",
    }
}

/// The instrument rule of thumb: its uncertainty at most a third of the band that is judged.
fn cannot_tell(
    way: &Expected,
    (family, role): (Family, Role),
    instrument: Instrument,
    says_so: bool,
) -> Option<String> {
    let band_mm = way.band.band_mm();
    let of = |instrument| expanded_uncertainty_mm(instrument, role);
    if !says_so || band_mm <= 0.0 || of(instrument) <= band_mm / 3.0 {
        return None;
    }
    let better = [
        Instrument::Calliper,
        Instrument::Micrometer,
        Instrument::Comparator,
    ];
    let better = better
        .into_iter()
        .find(|better| *better > instrument && of(*better) <= band_mm / 3.0)
        .map_or("a measuring room", |better| match better {
            Instrument::Comparator => "a comparator set to gauge blocks",
            Instrument::Micrometer => "a micrometer",
            _ => "a calliper",
        });
    Some(format!(
        "{}: a new part varies by {:.0} µm and a {} is sure to {:.0} µm only, so this instrument cannot tell worn from sound; use {better}",
        role.words_of(family),
        band_mm * 1000.0,
        instrument.words(),
        of(instrument) * 1000.0,
    ))
}
