//! Heat of the place against rings, cage and seals of a bearing.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{Closure, PartClass};

/// Polyamide cages stand about this, °C.
const POLYAMIDE_C: f64 = 120.0;
/// Contact seals of nitrile stand about this, °C.
const NITRILE_SEAL_C: f64 = 110.0;
/// Rings that are not stabilised keep their size up to about this, °C.
const UNSTABILISED_C: f64 = 120.0;

/// Compares the highest temperature with what a bearing stands.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let is_bearing = have
        .family
        .is_some_and(|family| family.class() == PartClass::Bearings);
    let Some(highest_c) = want.needs.highest_c.filter(|_| is_bearing) else {
        return;
    };
    let difference = |have: String, effect: &str, source| Difference {
        what: "heat",
        have,
        want: format!("stands {highest_c} °C"),
        effect: effect.to_owned(),
        source,
    };
    let traits = &have.traits;
    let is_polyamide = traits
        .cage
        .as_deref()
        .is_some_and(|cage| cage.starts_with('T'));
    if highest_c > POLYAMIDE_C && is_polyamide {
        findings.differs(
            Bar::Never,
            difference(
                "polyamide cage".to_owned(),
                "the cage softens and breaks",
                "common practice, from memory",
            ),
        );
    }
    let is_sealed = matches!(
        traits.closure,
        Some(Closure::SealOneSide | Closure::SealBothSides)
    );
    if highest_c > NITRILE_SEAL_C && is_sealed {
        let is_fkm = traits.material.as_deref() == Some("FKM");
        if !is_fkm {
            findings.differs(
                Bar::Never,
                difference(
                    "contact seals, nitrile unless marked".to_owned(),
                    "nitrile seals harden and crack above about 110 °C",
                    "published closure description (nitrile -40 to +110 °C)",
                ),
            );
        }
    }
    if highest_c > UNSTABILISED_C {
        let is_stabilised = traits
            .variant
            .as_deref()
            .is_some_and(|text| text.contains("stabilised"));
        if is_stabilised {
            findings.agrees("dimensionally stabilised rings");
        } else {
            findings.check(
                "rings stabilised for the temperature (S0 and up), or a bearing known to be",
            );
        }
        findings.check("grease for the temperature, and clearance left when hot");
    }
}
