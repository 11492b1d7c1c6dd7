//! Suffixes that no standard explains: kept, shown, never matched on.

use super::super::subject::Subject;
use super::finding::Findings;

/// Lists the unexplained suffixes of both parts.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    for subject in [want, have] {
        for suffix in &subject.traits.unknown_suffixes {
            findings.unknown(format!(
                "suffix `{suffix}` of {} is in no standard: ask what it means",
                subject.label
            ));
        }
    }
}
