//! Suffixes that no standard explains: kept, shown, never matched on.

use super::super::subject::Subject;
use super::finding::Findings;

/// Lists the unexplained suffixes of both parts, and the variants of parts that are no bearings.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    for subject in [want, have] {
        for suffix in &subject.traits.unknown_suffixes {
            findings.unknown(format!(
                "suffix `{suffix}` of {} is in no standard: ask what it means",
                subject.label
            ));
        }
    }
    let is_bearing = |subject: &Subject| {
        subject
            .family
            .is_some_and(|family| family.is_radial_bearing())
    };
    if want.family == have.family && !is_bearing(want) && want.traits.variant != have.traits.variant
    {
        let name = |subject: &Subject| {
            subject
                .traits
                .variant
                .clone()
                .unwrap_or_else(|| "not stated".to_owned())
        };
        findings.differs(
            super::finding::Bar::Never,
            super::super::verdict::Difference {
                what: "variant",
                have: name(have),
                want: name(want),
                effect: "a variant of the same size is another part".to_owned(),
                source: "the standard of the family lists them apart",
            },
        );
    }
}
