//! What is asked for and no rule looks at is a check: it may be what decides.

use super::super::subject::Subject;
use super::finding::Findings;
use crate::part::PartClass;

/// Looks for marks that parts of the family asked for do not have.
pub fn judge(want: &Subject, _: &Subject, findings: &mut Findings) {
    let Some(family) = want.family else { return };
    let is_bearing = family.class() == PartClass::Bearings;
    if let Some(rows) = want.traits.rows.filter(|_| !is_bearing) {
        not_looked_at(&format!("rows {rows}"), findings);
    }
    // Shore is the hardness of rubber.
    let hardness = want.traits.hardness.as_deref();
    if let Some(hardness) = hardness.filter(|text| is_bearing && text.contains("Shore")) {
        not_looked_at(hardness, findings);
    }
}

/// Looks at the needs of the place that are left when every rule has run; a part that is barred needs no more checks.
pub fn what_is_left(want: &Subject, findings: &mut Findings) {
    if want.needs.is_empty() || findings.is_barred() {
        return;
    }
    for (need, words) in want.needs.asked() {
        if !findings.has_looked_at(need) {
            not_looked_at(&words, findings);
        }
    }
}

/// Notes something that was asked for and that nothing here judges.
pub fn not_looked_at(what: &str, findings: &mut Findings) {
    findings.check(format!("asked for, and not looked at: {what}"));
}
