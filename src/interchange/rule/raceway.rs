//! Needles without an inner ring run on the shaft: it must be hard and ground.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::Family;

/// Least hardness of a raceway, HRC.
const LEAST_HRC: f64 = 58.0;
const SOURCE: &str = "published description (hardened, ground); 58 HRC handbook value, from memory";

/// Looks at parts that run on the shaft, where its hardness is given or the old part had a ring of its own.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    use Family as F;
    let runs_on_shaft = matches!(
        have.family,
        Some(
            F::NeedleRollerNoInnerRing
                | F::DrawnCupNeedle
                | F::NeedleCage
                | F::CombinedNeedleThrust
        )
    );
    if !runs_on_shaft {
        return;
    }
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
            findings.check("hardness (58 HRC or more) and grinding of the shaft as a raceway");
        }
        None => {}
    }
}
