//! Load rating and speed limit, compared only where both figures share a source.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::engineering::{LifeRatio, life_ratio};

/// A rating this share below the wanted one is the same figure, rounded otherwise.
const SAME_WITHIN_SHARE: f64 = 0.005;

/// The exponent of the life hangs on the rolling elements.
const NO_TYPE: &str = "the type of the two is not known";

/// Compares dynamic load ratings and speed limits.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    if findings.is_barred() || want.family != have.family {
        return;
    }
    if let (Some(a), Some(b)) = (&want.ratings, &have.ratings)
        && let (Some(wanted), Some(at_hand)) = (a.dynamic_kn, b.dynamic_kn)
        && a.source.is_some()
        && a.source == b.source
        && at_hand < wanted * (1.0 - SAME_WITHIN_SHARE)
    {
        let ratio = match want.family {
            Some(family) => life_ratio((a, family), (b, family), None),
            None => LifeRatio::NotComparable { why: NO_TYPE },
        };
        let effect = match ratio {
            LifeRatio::Share(share) => {
                format!(
                    "basic rating life falls to {:.0} % at the same load",
                    share * 100.0
                )
            }
            LifeRatio::NotComparable { why } => format!("lower, and not comparable: {why}"),
        };
        findings.differs(
            Bar::Check,
            Difference {
                what: "load rating C",
                have: format!("{at_hand} kN"),
                want: format!("{wanted} kN"),
                effect,
                source: "ISO 281: L10 = (C/P)^p, p 3 for balls, 10/3 for rollers",
            },
        );
        findings.check("load on this bearing against the lower rating");
    }
    if let (Some(wanted), Some(at_hand)) = (want.speed_limit_rpm, have.speed_limit_rpm)
        && at_hand < wanted
    {
        findings.differs(
            Bar::Check,
            Difference {
                what: "speed limit",
                have: format!("{at_hand} rev/min"),
                want: format!("{wanted} rev/min"),
                effect: "runs hot or fails above its limit".to_owned(),
                source: "figures of the tables read",
            },
        );
        findings.check("highest speed of the shaft against the lower limit");
    }
}
