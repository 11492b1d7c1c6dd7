//! Needles without an inner ring run on the shaft: it must be hard and ground.

use super::super::needs::Need;
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::Family;

/// Least hardness of a raceway, HRC.
const LEAST_HRC: f64 = 58.0;
/// What the shaft must be where it is the raceway.
pub const RACEWAY: &str = "hardness (58 HRC or more) and grinding of the shaft as a raceway";
const SOURCE: &str = "published description (hardened, ground); 58 HRC handbook value, from memory";

/// True for types whose needles run on the shaft itself.
pub const fn runs_on_shaft(family: Family) -> bool {
    use Family as F;
    matches!(
        family,
        F::NeedleRollerNoInnerRing | F::DrawnCupNeedle | F::NeedleCage | F::CombinedNeedleThrust
    )
}

/// Looks at parts that run on the shaft, where its hardness is given or the old part had a ring of its own.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let Some(family) = have.family else { return };
    let has_inner_ring = family.is_radial_bearing() || family == Family::ThrustBall;
    if has_inner_ring && want.needs.shaft_hrc.is_some() {
        findings.looks_at(Need::ShaftHardness);
        findings.agrees("has a ring of its own on the shaft, which need not be hard");
    }
    if !runs_on_shaft(family) {
        return;
    }
    findings.looks_at(Need::ShaftHardness);
    match want.needs.shaft_hrc {
        Some(hrc) if hrc < LEAST_HRC => findings.differs(
            Bar::Never,
            Difference {
                what: "shaft hardness",
                have: "runs on the shaft".to_owned(),
                want: format!("a part for a shaft of {hrc} HRC"),
                effect: "needles roll a soft shaft to pieces; a bearing with inner ring does not need it hard".to_owned(),
                source: SOURCE,
            },
        ),
        Some(hrc) => findings.agrees(format!("shaft of {hrc} HRC is hard enough as a raceway")),
        None if want.family.is_some() && want.family != have.family => {
            findings.check(RACEWAY);
        }
        None => {}
    }
}
