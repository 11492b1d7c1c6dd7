//! A tapered bore sits on a sleeve or a tapered shaft; a cylindrical one does not.

use super::super::subject::Subject;
use super::super::verdict::Difference;
use super::finding::{Bar, Findings};
use crate::part::BoreForm;

/// Compares the bore forms of families that come with a tapered bore.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    let may_be_tapered =
        (want.family).is_some_and(|family| family.facts().exchange.is_often_tapered);
    let is_marked = [want, have].iter().any(|subject| {
        subject
            .traits
            .bore_form
            .is_some_and(|form| form != BoreForm::Cylindrical)
    });
    if want.family != have.family || !(may_be_tapered || is_marked) {
        return;
    }
    match (want.traits.bore_form, have.traits.bore_form) {
        (Some(a), Some(b)) if a == b => findings.agrees(format!("bore: {a}")),
        (Some(a), Some(b)) => findings.differs(
            Bar::Never,
            Difference {
                what: "bore",
                have: b.to_string(),
                want: a.to_string(),
                effect: "a tapered bore needs its sleeve, and the shaft is smaller".to_owned(),
                source: "DIN 623-1 (K 1:12, K30 1:30)",
            },
        ),
        _ => findings.unknown("cylindrical or tapered bore"),
    }
}
