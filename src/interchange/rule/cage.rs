//! Cage material against temperature and speed, where it is marked.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};

/// Compares the cages, where the wanted part names one.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    if want.family != have.family {
        return;
    }
    match (&want.traits.cage, &have.traits.cage) {
        (Some(a), Some(b)) if a.eq_ignore_ascii_case(b) => findings.agrees(format!("cage: {a}")),
        (Some(a), Some(b)) => {
            findings.differs(
                Bar::Check,
                Difference {
                    what: "cage",
                    have: b.clone(),
                    want: a.clone(),
                    effect: "polyamide cages stand about 120 °C; brass and steel stand more"
                        .to_owned(),
                    source: "common practice, from memory",
                },
            );
            findings.check("highest temperature and speed against the cage");
        }
        (Some(a), None) => {
            findings.unknown(format!("cage `{a}` is asked for, the other does not say"))
        }
        (None, Some(b)) => findings.check(format!("cage `{b}`: highest temperature and speed")),
        (None, None) => {}
    }
}
