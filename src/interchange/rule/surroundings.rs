//! Dirt, misalignment, inverter currents, food, washing and pressure at the place.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{Family, PartClass};

const PRACTICE: &str = "common practice, no source";
/// Lip seals of DIN 3760 stand about this, bar.
const LIP_SEAL_BAR: f64 = 0.3;
/// O-rings of 70 Shore A are pressed into common gaps above about this, bar.
const SOFT_ORING_BAR: f64 = 100.0;

/// Looks at what the place does to the part.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let needs = &want.needs;
    if needs.is_empty() {
        return;
    }
    let Some(family) = have.family else { return };
    let is_bearing = family.class() == PartClass::Bearings;
    let has = |text: &str| {
        have.traits
            .variant
            .as_deref()
            .is_some_and(|variant| variant.to_lowercase().contains(text))
    };
    if needs.is_dirty {
        dirt(have, family, findings);
    }
    if needs.is_misaligned && family.is_radial_bearing() {
        misalignment(family, findings);
    }
    if needs.has_inverter && is_bearing && !has("insulated") && !has("hybrid") {
        findings.check("inverter currents: an insulated bearing, or a shaft that is grounded, on at least one side");
    }
    if needs.is_food && (is_bearing || family.class() == PartClass::Seals) && !has("food") {
        findings.check("grease and elastomer registered for contact with food");
    }
    if needs.is_corrosive && is_bearing {
        if has("stainless") {
            findings.agrees("stainless");
        } else {
            findings.check("stainless rings, or seals that keep water and washing out");
        }
    }
    if let Some(bar) = needs.pressure_bar {
        pressure(bar, have, family, has("pressure"), findings);
    }
}

fn dirt(have: &Subject, family: Family, findings: &mut Findings) {
    match (family, have.traits.seal_form) {
        (Family::LipSeal, Some(form)) if form.has_dust_lip() => findings.agrees("dust lip"),
        (Family::LipSeal, Some(form)) => findings.differs(
            Bar::Never,
            Difference {
                what: "dust lip",
                have: form.to_string(),
                want: "a form with dust lip (AS, BS, CS)".to_owned(),
                effect: "dirt reaches the sealing lip and grinds lip and shaft".to_owned(),
                source: "DIN 3760 and DIN 3761-2; common practice, no source, for the direction",
            },
        ),
        (Family::LipSeal, None) => findings.unknown("dust lip (form AS, BS or CS)"),
        _ => {}
    }
}

fn misalignment(family: Family, findings: &mut Findings) {
    if matches!(family, Family::SelfAligningBall | Family::SphericalRoller) {
        findings.agrees("takes misalignment");
        return;
    }
    findings.differs(
        Bar::Never,
        Difference {
            what: "misalignment",
            have: "rigid".to_owned(),
            want: "self-aligning, about 1.5 to 3 degrees".to_owned(),
            effect: "a rigid bearing is overloaded where the shaft tilts".to_owned(),
            source: "handbook practice, from memory",
        },
    );
}

fn pressure(
    bar: f64,
    have: &Subject,
    family: Family,
    is_pressure_seal: bool,
    findings: &mut Findings,
) {
    if family == Family::LipSeal && bar > LIP_SEAL_BAR && !is_pressure_seal {
        findings.differs(
            Bar::Never,
            Difference {
                what: "pressure",
                have: format!("about {LIP_SEAL_BAR} bar"),
                want: format!("{bar} bar"),
                effect: "the lip is pressed on the shaft, wears and burns".to_owned(),
                source: "DIN 3760 covers seals without pressure, from memory",
            },
        );
    }
    let shore = have
        .traits
        .hardness
        .as_deref()
        .and_then(|text| text.split_whitespace().next()?.parse::<f64>().ok());
    if family == Family::ORing && bar > SOFT_ORING_BAR {
        match shore {
            Some(shore) if shore >= 90.0 => {
                findings.agrees(format!("{shore} Shore A at {bar} bar"))
            }
            Some(_) => findings.differs(
                Bar::Check,
                Difference {
                    what: "hardness",
                    have: have.traits.hardness.clone().unwrap_or_default(),
                    want: format!("90 Shore A or a backup ring at {bar} bar"),
                    effect: "is pressed into the gap".to_owned(),
                    source: PRACTICE,
                },
            ),
            None => findings.unknown("hardness, at this pressure"),
        }
        findings.check("gap and backup ring for the pressure");
    }
}
