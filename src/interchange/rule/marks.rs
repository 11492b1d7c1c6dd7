//! Suffixes that no standard explains, and those that contradict each other: kept, shown, never matched on.

use super::super::subject::Subject;
use super::finding::Findings;
use crate::part::designation::{close_a_face_each, contradict};
use crate::part::{Clearance, Closure, ToleranceClass};

/// Lists the unexplained and the contrary suffixes of both parts.
pub fn judge(want: &Subject, have: &Subject, findings: &mut Findings) {
    for subject in [want, have] {
        let (marks, label) = (&subject.traits.unknown_suffixes, &subject.label);
        for (at, mark) in marks.iter().enumerate() {
            let mut before = marks[..at].iter();
            let mut behind = marks[at + 1..].iter();
            if let Some(first) = before.find(|first| contradict(first, mark)) {
                findings.unknown(contrary(first, mark, label));
            } else if !behind.any(|other| contradict(mark, other)) {
                findings.unknown(not_understood(mark, label));
            }
        }
    }
}

/// What is said of a mark that is not understood, or of words beside the designation that are not.
fn not_understood(mark: &str, label: &str) -> String {
    let is_in_label = label.to_uppercase().contains(&mark.to_uppercase());
    let are_words = mark.contains(|c: char| c.is_lowercase() || c.is_whitespace());
    let is_number = mark.bytes().all(|byte| byte.is_ascii_digit());
    let is_of_standard = Closure::from_code(mark).is_some()
        || Clearance::from_code(mark).is_some()
        || ToleranceClass::from_code(mark).is_some();
    if !is_in_label && (are_words || is_number || is_of_standard) {
        return format!(
            "words `{mark}` beside {label} leave open what part it is: ask what they mean"
        );
    }
    format!("suffix `{mark}` of {label} is in no standard: ask what it means")
}

/// What is said of two marks of one matter.
fn contrary(first: &str, other: &str, label: &str) -> String {
    if close_a_face_each(first, other) {
        format!(
            "marks `{first}` and `{other}` of {label} close one face each: look at both faces of the bearing, and have one made so offered"
        )
    } else {
        format!(
            "marks `{first}` and `{other}` of {label} contradict each other: read them on the part again, which of the two is right is not known"
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standard;

    /// DIN 623-1: a bearing has one clearance, one class and one closure; RS and Z close a face each.
    #[test]
    fn marks_that_contradict_each_other_are_told_as_such() {
        for (marks, says) in [
            (
                &["C2", "C3"][..],
                &["`C2` and `C3` of 6205 contradict each other"][..],
            ),
            (
                &["P6", "P5"],
                &["`P6` and `P5` of 6205 contradict each other"],
            ),
            (&["RS", "Z"], &["`RS` and `Z` of 6205 close one face each"]),
            (
                &["2RS", "ZZ"],
                &["`2RS` and `ZZ` of 6205 contradict each other"],
            ),
            (&["XY7"], &["suffix `XY7` of 6205 is in no standard"]),
            (&["cone"], &["words `cone` beside 6205 leave open"]),
            (&["P6"], &["words `P6` beside 6205 leave open"]),
            (&["6309"], &["words `6309` beside 6205 leave open"]),
            (
                &["C2", "XY7", "C3"],
                &["suffix `XY7`", "`C2` and `C3` of 6205 contradict"],
            ),
            (&["C2", "C3", "C4"], &["`C2` and `C3`", "`C2` and `C4`"]),
        ] {
            let have = Subject::of_standard(standard::find("6205").unwrap());
            let mut want = have.clone();
            want.traits.unknown_suffixes = marks.iter().map(|mark| (*mark).to_owned()).collect();
            let mut findings = Findings::default();
            judge(&want, &have, &mut findings);
            let told = findings.into_judgement().unknown;
            assert_eq!(told.len(), says.len(), "{marks:?}: {told:?}");
            for (told, says) in told.iter().zip(says) {
                assert!(told.contains(says), "{marks:?}: {told}");
            }
        }
    }
}
