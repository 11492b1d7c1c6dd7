//! Dirt, misalignment, inverter currents, food, washing and pressure at the place.

use super::super::needs::Need;
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{Closure, Family, PartClass, Pressure};

/// What keeps a bearing where water comes: common practice, no source.
pub const AGAINST_WATER: &str = "stainless rings, or seals that keep water and washing out";
const PRACTICE: &str = "common practice, no source";
/// O-rings of 70 Shore A are pressed into common gaps above about this, bar.
const SOFT_ORING_BAR: f64 = 100.0;

/// Below this even a soft O-ring of unknown hardness stays out of common gaps, bar.
const ANY_ORING_BAR: f64 = 30.0;
/// Least hardness of an O-ring above [`SOFT_ORING_BAR`], Shore A.
const HARD_SHORE: f64 = 90.0;
/// Least hardness of an O-ring up to [`SOFT_ORING_BAR`], Shore A.
const SOFT_SHORE: f64 = 70.0;
const OPEN_IN_DIRT: &str =
    "open to dirt: seals in the housing, or a bearing with contact seals on both sides (2RS)";
const GAP_IN_DIRT: &str = "shields, gaps and an open side let fine dirt in: seals in the housing, or contact seals on both sides (2RS)";

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
        dirt((want, have), family, findings);
    }
    if needs.is_misaligned && family.is_radial_bearing() {
        findings.looks_at(Need::Misalignment);
        misalignment(family, findings);
    }
    if needs.has_inverter && is_bearing {
        findings.looks_at(Need::Inverter);
        if has("insulated") || has("hybrid") {
            findings.agrees("insulates against the currents of an inverter");
        } else {
            findings.check("inverter currents: an insulated bearing, or a shaft that is grounded, on at least one side");
        }
    }
    if needs.is_food && (is_bearing || family.facts().exchange.is_of_elastomer) {
        findings.looks_at(Need::Food);
        if has("food") {
            findings.agrees("food-grade grease");
        } else {
            findings.check("grease and elastomer registered for contact with food");
        }
    }
    if needs.is_corrosive && is_bearing {
        findings.looks_at(Need::Corrosion);
        if has("stainless") {
            findings.agrees("stainless");
        } else {
            findings.check(AGAINST_WATER);
        }
    }
    if let Some(bar) = needs.pressure_bar {
        pressure(bar, have, family, has("pressure"), findings);
    }
}

fn dirt((want, have): (&Subject, &Subject), family: Family, findings: &mut Findings) {
    if family.class() == PartClass::Bearings {
        findings.looks_at(Need::Dirt);
        bearing_in_dirt(want, have, findings);
        return;
    }
    if !family.facts().marks.has_seal_forms {
        return;
    }
    findings.looks_at(Need::Dirt);
    match have.traits.seal_form {
        Some(form) if form.has_dust_lip() => findings.agrees("dust lip"),
        Some(form) => findings.differs(
            Bar::Never,
            Difference {
                what: "dust lip",
                have: form.to_string(),
                want: "a form with dust lip (AS, BS, CS)".to_owned(),
                effect: "dirt reaches the sealing lip and grinds lip and shaft".to_owned(),
                source: "DIN 3760 and DIN 3761-2; common practice, no source, for the direction",
            },
        ),
        None => findings.unknown("dust lip (form AS, BS or CS)"),
    }
}

/// An open bearing that was asked for may stand behind seals of the housing; one for a sealed bearing does not.
fn bearing_in_dirt(want: &Subject, have: &Subject, findings: &mut Findings) {
    let seals = |closure: Option<Closure>| match closure {
        Some(Closure::SealBothSides) => 2,
        Some(Closure::SealOneSide) => 1,
        _ => 0,
    };
    let (wanted, at_hand) = (want.traits.closure, have.traits.closure);
    match at_hand {
        Some(Closure::SealBothSides) => findings.agrees("contact seals keep the dirt out"),
        Some(closure) if seals(at_hand) < seals(wanted) => findings.differs(
            Bar::Never,
            Difference {
                what: "dirt",
                have: closure.words().to_owned(),
                want: wanted.map(Closure::words).unwrap_or_default().to_owned(),
                effect: "lets in the dirt that contact seals kept out".to_owned(),
                source: "published closure descriptions; common practice, no source, for the direction",
            },
        ),
        None | Some(Closure::Open) => findings.check(OPEN_IN_DIRT),
        Some(_) => findings.check(GAP_IN_DIRT),
    }
}

fn misalignment(family: Family, findings: &mut Findings) {
    if family.facts().exchange.aligns_itself {
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
    match family.facts().exchange.pressure {
        Pressure::Untold => {}
        Pressure::OnLip { most_bar } => {
            findings.looks_at(Need::Pressure);
            pressure_on_lip(bar, most_bar, is_pressure_seal, findings);
        }
        Pressure::IntoGap => {
            findings.looks_at(Need::Pressure);
            pressure_into_gap(bar, have, findings);
        }
    }
}

fn pressure_on_lip(bar: f64, most_bar: f64, is_pressure_seal: bool, findings: &mut Findings) {
    if is_pressure_seal {
        findings.check("pressure and speed that the maker of the pressure profile allows");
    } else if bar <= most_bar {
        findings.agrees(format!("stands {bar} bar"));
    } else {
        findings.differs(
            Bar::Never,
            Difference {
                what: "pressure",
                have: format!("about {most_bar} bar"),
                want: format!("{bar} bar"),
                effect: "the lip is pressed on the shaft, wears and burns".to_owned(),
                source: "DIN 3760 covers seals without pressure, from memory",
            },
        );
    }
}

fn pressure_into_gap(bar: f64, have: &Subject, findings: &mut Findings) {
    let shore = have
        .traits
        .hardness
        .as_deref()
        .and_then(|text| text.split_whitespace().next()?.parse::<f64>().ok());
    let least_shore = if bar > SOFT_ORING_BAR {
        HARD_SHORE
    } else {
        SOFT_SHORE
    };
    match shore {
        _ if bar <= ANY_ORING_BAR => findings.agrees(format!("stands {bar} bar")),
        Some(shore) if shore >= least_shore => {
            findings.agrees(format!("{shore} Shore A at {bar} bar"))
        }
        Some(_) => findings.differs(
            Bar::Check,
            Difference {
                what: "hardness",
                have: have.traits.hardness.clone().unwrap_or_default(),
                want: format!("{least_shore} Shore A or a backup ring at {bar} bar"),
                effect: "is pressed into the gap".to_owned(),
                source: PRACTICE,
            },
        ),
        None => findings.unknown("hardness, at this pressure"),
    }
    if bar > SOFT_ORING_BAR {
        findings.check("gap and backup ring for the pressure");
    }
}
