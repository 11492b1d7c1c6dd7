//! Elastomer and hardness: the same size in another compound is another part.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::PartClass;
use crate::part::designation::elastomer;

const SOURCE: &str =
    "ISO 1629 symbols; published media lists; common practice, no source, for the direction";

/// Compares the elastomers of seals.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    if want.family != have.family || !is_of_rubber(want) && !is_of_rubber(have) {
        return;
    }
    let symbol = |subject: &Subject| {
        subject.traits.material.as_deref().map(|text| {
            match text.trim().to_ascii_uppercase().as_str() {
                // The older symbol (ISO 1629 before 1995, from memory).
                "FPM" => "FKM".to_owned(),
                symbol => symbol.to_owned(),
            }
        })
    };
    match (symbol(want), symbol(have)) {
        (Some(a), Some(b)) if a == b => findings.agrees(format!("elastomer: {a}")),
        (Some(a), Some(b)) => {
            let (bar, effect) = effect(&a, &b);
            let effect = effect.to_owned();
            findings.differs(
                bar,
                Difference {
                    what: "elastomer",
                    have: b,
                    want: a,
                    effect,
                    source: SOURCE,
                },
            );
            if bar == Bar::Check {
                findings.check(
                    "fluid, highest and lowest temperature against the compound's data sheet",
                );
            }
        }
        _ => findings.unknown("elastomer"),
    }
    match (&want.traits.hardness, &have.traits.hardness) {
        (Some(a), Some(b)) if a == b => findings.agrees(format!("hardness: {a}")),
        (Some(a), Some(b)) => {
            findings.differs(
                Bar::Check,
                Difference {
                    what: "hardness",
                    have: b.clone(),
                    want: a.clone(),
                    effect: "softer extrudes under pressure, harder seals less at low pressure"
                        .to_owned(),
                    source: "common practice, no source",
                },
            );
            findings.check("pressure and gap the ring must stand");
        }
        (None, None) => {}
        _ => findings.unknown("hardness"),
    }
}

/// True for a seal, and for a bearing whose seals are marked with their elastomer.
fn is_of_rubber(part: &Subject) -> bool {
    let material = part.traits.material.as_deref();
    match part.family.map(|family| family.class()) {
        Some(PartClass::Seals) => true,
        Some(PartClass::Bearings) => material.is_some_and(|of| elastomer(of).is_some()),
        _ => false,
    }
}

fn effect(want: &str, have: &str) -> (Bar, &'static str) {
    match (want, have) {
        ("EPDM", _) | (_, "EPDM") => (
            Bar::Never,
            "EPDM swells in mineral oil, and oil-proof rubbers fail in brake fluid and steam",
        ),
        ("FKM", _) => (
            Bar::Never,
            "stands less heat and fewer fluids than the fluoroelastomer asked for",
        ),
        ("NBR" | "HNBR", "FKM") => (
            Bar::Check,
            "stands more heat, but stiffens in the cold (about -20 °C) and costs more",
        ),
        ("NBR", "HNBR") => (Bar::Check, "stands more heat and wear than nitrile"),
        _ => (
            Bar::Never,
            "another compound stands other fluids and temperatures",
        ),
    }
}
