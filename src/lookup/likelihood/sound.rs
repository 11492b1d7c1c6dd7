//! What the figures say of the part's state: outside what a sound part can have, or beyond what the instrument can tell.

use super::super::reading::{Instrument, Reading, Role};
use super::expected::{Expected, expected, usual_seat};
use super::instrument::expanded_uncertainty_mm;
use super::near::figure;
use super::posterior::Scored;
use crate::part::{Family, Measured, ToleranceClass, Traits};

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

/// How far a figure lies outside what a sound part of a size, or a seat of it, can have, mm; `None` where the size has no such
/// figure.
pub fn outside_mm(
    of: &Scored,
    reading: &Reading,
    role: Role,
    class: ToleranceClass,
) -> Option<f64> {
    let x_mm = figure(reading, of.is_inch).length.to_mm();
    let family = of.candidate.size.family();
    let row = of.candidate.rows.first().copied();
    let ways = expected(&of.candidate.size, row, role, class);
    let outside = ways.iter().flatten().map(|way| {
        let (low_mm, high_mm) = limits_mm(family, role, way);
        (low_mm - x_mm).max(x_mm - high_mm).max(0.0)
    });
    outside.min_by(f64::total_cmp)
}

/// Least and greatest that a sound part, or a seat to any usual class, can have, mm.
fn limits_mm(family: Family, role: Role, way: &Expected) -> (f64, f64) {
    let band = usual_seat(family, role, way);
    (
        way.base_mm + band.lower_um / 1000.0,
        way.base_mm + band.upper_um / 1000.0,
    )
}

fn of_figure(best: &Scored, reading: &Reading, role: Role, way: &Expected) -> Option<String> {
    let read = figure(reading, best.is_inch);
    let x_mm = read.length.to_mm();
    let family = best.candidate.size.family();
    let (low_mm, high_mm) = limits_mm(family, role, way);
    let instrument = reading.likely_instrument(read);
    let sure_mm = uncertainty_mm(instrument, (family, role)) + 2.0 * way.soft_mm;
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
const fn meaning(family: Family, role: Role, is_below: bool) -> &'static str {
    let unsound = &family.facts().bench.unsound;
    match (role, is_below) {
        (Role::Inner, false) => unsound.inner_above,
        (Role::Outer, true) => unsound.outer_below,
        (Role::Outer, false) => unsound.outer_above,
        (Role::Width, true) => unsound.width_below,
        (Role::Section, true) => unsound.section_below,
        (Role::Shaft, true) => unsound.shaft_below,
        (Role::Shaft, false) => unsound.shaft_above,
        (Role::Housing, true) => unsound.housing_below,
        (Role::Housing, false) => unsound.housing_above,
        _ => unsound.other,
    }
}

/// What an instrument is sure to, mm: the diameter of a pin is measured over its outside.
fn uncertainty_mm(instrument: Instrument, (family, role): (Family, Role)) -> f64 {
    let role = match (family.facts().bench.measured, role) {
        (Measured::Pin, Role::Inner) => Role::Outer,
        _ => role,
    };
    expanded_uncertainty_mm(instrument, role)
}

/// The instrument rule of thumb: its uncertainty at most a third of the band that is judged.
fn cannot_tell(
    way: &Expected,
    (family, role): (Family, Role),
    instrument: Instrument,
    says_so: bool,
) -> Option<String> {
    let band_mm = way.band.band_mm();
    let of = |instrument| uncertainty_mm(instrument, (family, role));
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
