//! Grades of O-rings beside the name of their standard: `ISO 3601 N`, `grade CS`.

use super::{Question, standard_name};
use crate::part::Family;

/// Grades of how few flaws a ring may have.
///
/// # Source
/// ISO 3601-3: N for general use, S for special use, CS for critical use; from memory.
const GRADES: [&str; 3] = ["N", "S", "CS"];
/// The grade of every ring that nobody asks more of.
const USUAL: &str = "N";
/// Words in front of a grade.
const NAMES: [&str; 6] = [
    "grade",
    "sorte",
    "sortenmerkmal",
    "güte",
    "gütegrad",
    "classe",
];
/// Number of the standard that has the grades.
const STANDARD: &str = "3601";

/// In front of a grade that no table has.
const GRADE: &str = "grade ";

/// True for a grade that a note tells.
pub(super) fn is_told(question: &Question, word: &str) -> bool {
    word.strip_prefix(GRADE).is_some_and(|grade| {
        let says = format!("grade `{grade}` of ISO 3601-3");
        question.notes.iter().any(|note| note.starts_with(&says))
    })
}

/// Takes the grade of an O-ring out of a text; gives what is left. One that asks for more than is usual is told, since no
/// table has it.
pub(super) fn take(question: &mut Question, text: &str) -> String {
    let family = question.family.or_else(|| {
        let designation = question.designation.as_ref();
        designation.and_then(|read| read.family)
    });
    let is_of_standard = |family: Family| family.facts().asked.standards.contains(&STANDARD);
    if !family.is_some_and(is_of_standard) {
        return text.to_owned();
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let bare = |at: usize| {
        words
            .get(at)
            .map_or("", |word| word.trim_matches([',', ';', ':']))
    };
    let is_grade = |at: usize| GRADES.contains(&bare(at));
    let is_name = |at: usize| NAMES.contains(&bare(at).to_lowercase().as_str());
    let named = (0..words.len()).find(|at| is_name(*at) && is_grade(at + 1));
    let of_standard = || {
        (0..words.len())
            .any(|at| standard_name::number_at(&words, at).is_some_and(|of| of == STANDARD))
    };
    let found = match named {
        Some(at) => Some((at, at + 2)),
        None => (0..words.len())
            .find(|at| is_grade(*at))
            .filter(|_| of_standard())
            .map(|at| (at, at + 1)),
    };
    let Some((start, end)) = found else {
        return text.to_owned();
    };
    let grade = bare(end - 1);
    if grade != USUAL {
        question.not_understood.push(format!("{GRADE}{grade}"));
        question.notes.push(format!(
            "grade `{grade}` of ISO 3601-3 (how few flaws a ring may have) is in no table here: ask the supplier for it"
        ));
    }
    let left = words[..start].iter().chain(&words[end..]).copied();
    left.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 3601-3, from memory: N is the grade for general use.
    #[test]
    fn the_grade_of_a_ring_is_no_load_and_no_mark_of_a_bearing() {
        for (text, left) in [
            ("O-ring 20x2,65 ISO 3601 N", &[][..]),
            ("O-ring 20x2.65 ISO 3601-1 N", &[]),
            ("O-ring ISO 3601-1 20 x 2.65 grade N", &[]),
            ("O-ring 20x2.65 grade N", &[]),
            ("O-ring 20x2.65 ISO 3601 CS", &["grade CS"]),
            ("O-ring 20x2.65 grade S", &["grade S"]),
            ("O-ring 20x2.65 ISO 3601-1 S", &["grade S"]),
            ("O-ring 20x2.65 ISO 3601-3 S", &["grade S"]),
            ("O-ring 20x2.65 ISO 3601", &[]),
        ] {
            let question = Question::read(text).unwrap();
            assert_eq!(question.not_understood, left, "{text}");
            let told = question.notes.join("; ");
            assert_eq!(
                told.contains("ask the supplier"),
                !left.is_empty(),
                "{text}"
            );
            assert!(question.untold().is_empty(), "{text}: {question:?}");
            assert!(question.not_looked_at.is_empty(), "{text}: {question:?}");
            assert_eq!(question.traits.rib_form, None, "{text}");
            assert!(
                question.traits.unknown_suffixes.is_empty(),
                "{text}: {question:?}"
            );
        }
        // DIN 5412-1: an N is a cylindrical roller bearing.
        let bearing = Question::read("DIN 5412 N 210").unwrap();
        assert!(bearing.not_looked_at.is_empty(), "{bearing:?}");
    }
}
