//! The letter of a retaining ring's form in front of its size: `circlip A25 DIN 471`, `J 52 DIN 472`.

use super::figure::is_figure;
use super::{Question, kind, other_part, retaining_ring, standard_name};
use crate::part::Family;

/// Letters of the forms, their standard, and what is said of them.
///
/// # Source
/// Older editions of DIN 471 and DIN 472, and common practice of drawings: A outside on a shaft, J (I) inside in a bore; from
/// memory.
const FORMS: [(char, Family, &str, &str); 2] = [
    (
        'A',
        Family::ShaftRetainingRing,
        "DIN 471",
        "form A is the ring for a shaft (DIN 471)",
    ),
    (
        'J',
        Family::BoreRetainingRing,
        "DIN 472",
        "form J is the ring for a bore (DIN 472)",
    ),
];

/// The text without the letter, and with its standard where none was named; `None` where there is no such letter.
pub(super) fn take(question: &mut Question, text: &str) -> Option<String> {
    let letter_of = |word: &str| {
        let first = word.chars().next()?;
        FORMS.iter().find(|(letter, ..)| *letter == first)
    };
    let words: Vec<&str> = text.split_whitespace().collect();
    let standard = standard_name::first_in(text).map(|(_, family)| family);
    let is_size = |word: &str| word.starts_with(|c: char| c.is_ascii_digit()) && is_figure(word);
    let (at, count, size) = (0..words.len()).find_map(|at| {
        letter_of(words[at])?;
        let glued = &words[at][1..];
        if is_size(glued) {
            return Some((at, 1, glued));
        }
        // `A 25 mm circlip` begins with an article.
        let next = words.get(at + 1).filter(|next| is_size(next))?;
        (glued.is_empty() && standard.is_some()).then_some((at, 2, *next))
    })?;
    let (letter, family, name, says) = letter_of(words[at])?;
    let named = standard.or_else(|| other_part::family_named(text));
    let kinds = kind::families_in(text);
    let is_ring = match named {
        Some(named) => retaining_ring::is_ring(named),
        None => !kinds.is_empty() && kinds.into_iter().all(retaining_ring::is_ring),
    };
    if !is_ring {
        return None;
    }
    let mut left: Vec<&str> = words[..at].to_vec();
    left.push(size);
    left.extend(&words[at + count..]);
    let written = words[at..at + count].join(" ");
    let written = written.trim_end_matches([',', ';']);
    if named.is_some_and(|named| named != *family) {
        // `A25 DIN 472` is one or the other.
        question.not_understood.push(letter.to_string());
        return Some(left.join(" "));
    }
    question.notes.push(format!("`{written}`: {says}"));
    if standard.is_none() {
        left.push(name);
    }
    Some(left.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// DIN 471 and DIN 472; the letters from memory.
    #[test]
    fn the_letter_of_a_form_is_no_part_of_the_size() {
        for (text, family, says) in [
            ("circlip A25 DIN 471", Family::ShaftRetainingRing, "form A"),
            ("circlip J52 DIN 472", Family::BoreRetainingRing, "form J"),
            (
                "Sicherungsring J 52 DIN 472",
                Family::BoreRetainingRing,
                "form J",
            ),
            ("DIN 471 A25", Family::ShaftRetainingRing, "form A"),
            ("circlip A25", Family::ShaftRetainingRing, "form A"),
            ("retaining ring J52", Family::BoreRetainingRing, "form J"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(question.family, Some(family), "{text}");
            let left = &question.not_understood;
            assert!(left.is_empty(), "{text}: {left:?}");
            assert!(question.notes.iter().any(|of| of.contains(says)), "{text}");
            let size_mm = match (question.designated_size(), question.readings.first()) {
                (Some(size), _) => size.dimensions().next().map(|(_, of)| of.to_mm()),
                (None, reading) => reading.map(|of| of.length.length.to_mm()),
            };
            let expected = if text.contains("52") { 52.0 } else { 25.0 };
            assert!(
                size_mm.is_some_and(|mm| (mm - expected).abs() < 1e-9),
                "{text}"
            );
        }
    }

    #[test]
    fn a_letter_that_contradicts_its_standard_is_told() {
        let question = Question::read("circlip A52 DIN 472").unwrap();
        assert_eq!(question.not_understood, ["A"]);
        assert_eq!(question.family, Some(Family::BoreRetainingRing));
    }

    #[test]
    fn letters_of_other_parts_stay() {
        for text in ["oil seal A25x40x7", "A25", "A 25 mm circlip", "circlip 25"] {
            let mut question = Question::of(text);
            assert_eq!(take(&mut question, text), None, "{text}");
        }
    }
}
