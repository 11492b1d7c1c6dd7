//! How the load comes on a bearing: across the shaft, on the ring that turns, with shocks.

use super::super::needs::{Need, Turning};
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::{Carries, Family, PartClass};

/// Seats of a bearing whose inner ring turns; published seat tables of ISO 286 classes.
const INNER_TURNS: &str = "the inner ring turns against the load: it needs the tight seat (shaft k5, k6 or m6), the outer ring the sliding one (housing H7 or J7), as the documentation of the machine states them";
/// Seats of a bearing whose outer ring turns; published seat tables of ISO 286 classes.
const OUTER_TURNS: &str = "the outer ring turns against the load: it needs the tight seat (housing N7 or P7), the inner ring the sliding one (shaft g6, h6 or j6), as the documentation of the machine states them";
/// Common practice, no source.
const SHOCKS: &str = "shocks and vibration: the cage, the clearance and the seats that the documentation of the machine states for them";

/// Published type descriptions, from memory: these types carry load along the shaft besides one across it.
const ALONG_ALONE: &str = "load along the shaft alone: this type is made for load across the shaft and carries only part of its rating along it; have the load checked against the static rating, or take a thrust or angular contact bearing";

/// Compares how the load comes with what the part at hand carries.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let needs = &want.needs;
    let Some(family) = have.family else { return };
    if family.class() != PartClass::Bearings {
        // A lip runs on a shaft that turns: that is what it is made for.
        if family.facts().exchange.has_lip() && needs.turning == Some(Turning::InnerRing) {
            findings.looks_at(Need::Turning);
        }
        return;
    }
    if needs.has_radial_load {
        findings.looks_at(Need::RadialLoad);
        radial(family, findings);
    }
    if needs.is_axial_alone {
        findings.looks_at(Need::AxialAlone);
        if family.facts().exchange.carries == Carries::MostlyAcross {
            findings.check(ALONG_ALONE);
        }
    }
    if let Some(turning) = needs.turning {
        findings.looks_at(Need::Turning);
        findings.check(match turning {
            Turning::InnerRing => INNER_TURNS,
            Turning::OuterRing => OUTER_TURNS,
        });
    }
    if needs.has_shocks {
        findings.looks_at(Need::Shocks);
        findings.check(SHOCKS);
    }
}

fn radial(family: Family, findings: &mut Findings) {
    if family.facts().exchange.carries != Carries::Along {
        findings.agrees("carries load across the shaft");
        return;
    }
    findings.differs(
        Bar::Never,
        Difference {
            what: "radial load",
            have: "carries load along the shaft only".to_owned(),
            want: "load across the shaft".to_owned(),
            effect: "thrust bearings take no radial load: another bearing must carry it".to_owned(),
            source: "ISO 104; published type descriptions",
        },
    );
}
