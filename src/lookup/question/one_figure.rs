//! Parts that are named by one figure, a ring by its diameter and a nut by its thread: one more in front is how many.

use super::figure::{is_figure, is_thread};
use super::part_names::bare;
use super::whole_part::begins_whole;
use crate::part::Family;
use crate::standard::{self, StandardPart};

/// Parts that are named by one diameter.
const BY_ONE_FIGURE: [&str; 8] = [
    "circlip",
    "circlips",
    "ring",
    "rings",
    "sicherungsring",
    "sicherungsringe",
    "snap-ring",
    "snap-rings",
];
/// `1 circlip 25`, `2 circlips 25`, `1 nut M12`: parts that are named by one figure. A figure in front of a ring is its
/// thickness where a ring of that diameter is so thick (DIN 471, DIN 472).
pub(super) fn begins_it(figure: &str, words: &[&str], kinds: usize) -> bool {
    let name = words.get(kinds).map(|word| bare(word)).unwrap_or_default();
    let behind = words.get(kinds + 1..).unwrap_or_default();
    if matches!(name.as_str(), "nut" | "locknut" | "mutter" | "nutmutter") {
        return is_thread_at(behind) || begins_whole(behind);
    }
    if !BY_ONE_FIGURE.contains(&name.as_str()) {
        return false;
    }
    let names_ring = |word: &&str| matches!(bare(word).as_str(), "snap" | "retaining");
    let is_ring = !name.starts_with("ring") || words[..kinds].iter().any(names_ring);
    let mut figures = behind.iter().filter(|word| is_figure(word));
    let (Some(only), None) = (figures.next(), figures.next()) else {
        return is_ring && begins_whole(behind);
    };
    let is_thick = |row: &StandardPart| {
        let mut lengths = row.size.dimensions();
        let is_of_it = lengths.any(|(_, of)| format!("{of:#}") == bare(only));
        let thick = format!("thickness {figure} mm");
        is_of_it && row.traits.variant.as_deref() == Some(thick.as_str())
    };
    let mut rings = Family::ALL
        .into_iter()
        .filter(|family| family.facts().bench.measured.lies_in_groove())
        .flat_map(|family| standard::of_family(family).iter());
    let is_plain = bare(only).bytes().all(|b| b.is_ascii_digit());
    is_ring && (begins_whole(behind) || is_plain && !rings.any(is_thick))
}

/// True for words that begin with a thread: `M12`, `M25x1.5`.
pub(super) fn is_thread_at(words: &[&str]) -> bool {
    words.first().is_some_and(|word| {
        let word = word.trim_end_matches([',', ';']);
        let digits = word.strip_prefix(['M', 'm']).unwrap_or_default();
        is_thread(word) || !digits.is_empty() && digits.bytes().all(|b| b.is_ascii_digit())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// DIN 471: a ring of 52 mm is 2 mm thick, one of 25 mm 1.2 mm.
    #[test]
    fn a_figure_before_a_ring_or_nut_is_a_count() {
        for (text, is_it) in [
            ("1 circlip 25", true),
            ("2 circlips 25", true),
            ("2 retaining ring 25", true),
            ("2 circlip 52", false),
            ("2 circlip 25 1.2", false),
            ("2 ring 25", false),
            ("1 nut M12", true),
            ("1 nut M25x1.5", true),
            ("1 nut 12", false),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            let kinds = usize::from(words[1] == "retaining");
            assert_eq!(begins_it(words[0], &words[1..], kinds), is_it, "{text}");
        }
    }
}
