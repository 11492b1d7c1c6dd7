//! Needles without an inner ring run on the shaft: it must be hard and ground.

use super::super::needs::Need;
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{Family, OnShaft, Traits};

/// Least hardness of a raceway, HRC.
const LEAST_HRC: f64 = 58.0;
/// What the shaft must be where it is the raceway.
pub const RACEWAY: &str = "hardness (58 HRC or more) and grinding of the shaft as a raceway";
const SOURCE: &str = "published description (hardened, ground); 58 HRC handbook value, from memory";

/// True for types whose needles run on the shaft itself; some of one type have a ring of their own, which their traits tell.
pub fn runs_on_shaft(family: Family, traits: Option<&Traits>) -> bool {
    match family.facts().exchange.on_shaft {
        OnShaft::Raceway => true,
        OnShaft::RacewayUnless(variant) => !has_variant(traits, variant),
        OnShaft::OwnRing | OnShaft::Lip | OnShaft::Nothing => false,
    }
}

/// True for parts with a ring or washer of their own on the shaft.
fn has_inner_ring(family: Family, traits: Option<&Traits>) -> bool {
    match family.facts().exchange.on_shaft {
        OnShaft::OwnRing => true,
        OnShaft::RacewayUnless(variant) => has_variant(traits, variant),
        OnShaft::Raceway | OnShaft::Lip | OnShaft::Nothing => false,
    }
}

fn has_variant(traits: Option<&Traits>, variant: &str) -> bool {
    traits.is_some_and(|traits| traits.has_variant(variant))
}

/// Looks at parts that run on the shaft, where its hardness is given or the old part had a ring of its own.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let Some(family) = have.family else { return };
    let is_on_shaft = runs_on_shaft(family, Some(&have.traits));
    let has_inner_ring = has_inner_ring(family, Some(&have.traits));
    if has_inner_ring && want.needs.shaft_hrc.is_some() {
        findings.looks_at(Need::ShaftHardness);
        findings.agrees("has a ring of its own on the shaft, which need not be hard");
    }
    if !is_on_shaft {
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
