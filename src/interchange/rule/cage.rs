//! Cage material against temperature and speed, where it is marked.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};

const POLYAMIDE: &str = "polyamide cages stand about 120 °C; brass and steel stand more";
const METAL: &str = "cages of brass and of pressed or machined steel differ in the speed, shaking and lubrication they stand";

/// True for the letters of a polyamide cage (`T`, `TN`, ...): common practice, from memory.
pub fn is_polyamide(cage: &str) -> bool {
    cage.trim_start().starts_with(['T', 't'])
}

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
                    effect: if is_polyamide(a) || is_polyamide(b) {
                        POLYAMIDE
                    } else {
                        METAL
                    }
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
