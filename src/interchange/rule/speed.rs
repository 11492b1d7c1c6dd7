//! Speed of the shaft, where it is given, against the limit of a bearing or the lip of a seal.

use super::super::needs::Need;
use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::engineering::{SurfaceSpeed, speed_check, surface_speed};
use crate::part::{Dimension, PartClass};

/// Compares the speed asked for.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let has_lip = (have.family).is_some_and(|family| family.facts().exchange.has_lip());
    if let Some(lip_m_s) = want.needs.lip_m_s.filter(|_| has_lip) {
        findings.looks_at(Need::LipSpeed);
        // Any shaft will do that turns so fast: a metre a turn.
        let of = surface_speed(METRE_ROUND_MM, lip_m_s * 60.0, material(have));
        lip(of, findings);
    }
    let Some(speed_rpm) = want.needs.speed_rpm else {
        return;
    };
    if has_lip {
        let shaft = have
            .size
            .and_then(|size| size.get(Dimension::ShaftDiameter));
        let Some(shaft) = shaft else { return };
        findings.looks_at(Need::Speed);
        lip(
            surface_speed(shaft.to_mm(), speed_rpm, material(have)),
            findings,
        );
    } else if (have.family).is_some_and(|family| family.class() == PartClass::Bearings) {
        findings.looks_at(Need::Speed);
        bearing(speed_rpm, have, findings);
    }
}

fn bearing(speed_rpm: f64, have: &Subject, findings: &mut Findings) {
    let checked = have
        .speed_limit_rpm
        .and_then(|limit| speed_check(speed_rpm, limit, None, false));
    match checked {
        Some(checked) if checked.is_within => {
            findings.agrees(format!(
                "{speed_rpm} rev/min is below the limit of {} rev/min",
                checked.limit_rpm
            ));
        }
        Some(checked) => findings.differs(
            Bar::Never,
            Difference {
                what: "speed",
                have: format!("limit {} rev/min", checked.limit_rpm),
                want: format!("{speed_rpm} rev/min"),
                effect: "runs hot or fails above its limit".to_owned(),
                source: "figures of the tables read",
            },
        ),
        None => findings.check(format!(
            "speed limit of the bearing at hand against {speed_rpm} rev/min"
        )),
    }
}

/// Diameter of a shaft of one metre round, mm.
const METRE_ROUND_MM: f64 = 1_000.0 / std::f64::consts::PI;

fn material(have: &Subject) -> Option<&str> {
    have.traits.material.as_deref()
}

fn lip(speed: SurfaceSpeed, findings: &mut Findings) {
    let words = format!("{:.1} m/s at the lip", speed.speed_m_s);
    match (speed.is_within, speed.limit_m_s) {
        (Some(true), _) => findings.agrees(words),
        (Some(false), Some(limit)) => findings.differs(
            Bar::Never,
            Difference {
                what: "lip speed",
                have: format!("{limit} m/s at most"),
                want: words,
                effect: "the lip burns".to_owned(),
                source: "DIN 3760 limits, from memory; arithmetic",
            },
        ),
        _ => findings.check(format!("{words} against the elastomer's limit")),
    }
}
