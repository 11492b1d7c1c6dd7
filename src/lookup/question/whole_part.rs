//! Parts that are whole by themselves, a designation of the tables or a size of three figures: what stands before or behind one is
//! none of its figures.

use super::figure::is_of_figures;
use super::part_names::{bare, names_part};
use crate::part::Closure;
use crate::part::designation::Designation;
use crate::standard::{self, StandardPart};

/// Fewest digits of a bearing's number that is no length.
pub(super) const LEAST_DIGITS: usize = 4;
/// Most words of a designation.
pub(super) const MOST_WORDS: usize = 3;
/// Figures of a size that names a part by itself.
pub(super) const FIGURES_OF_SIZE: usize = 3;

/// True for words that begin with a part that is whole by itself: a size of three figures, or a designation of the tables.
pub(super) fn begins_whole(words: &[&str]) -> bool {
    let Some(first) = words.first() else {
        return false;
    };
    let name = bare(first);
    // `2 RS 6206` is sealed on both sides, and `2 lip seal 40x62x7` may have two lips.
    if names_part(&name) || Closure::from_code(&name.to_uppercase()).is_some() {
        return false;
    }
    is_whole_size(first)
        || (1..=words.len().min(MOST_WORDS)).any(|end| is_whole(&words[..end].join(" ")))
}

/// True for a size of three figures in one word.
pub(super) fn is_whole_size(word: &str) -> bool {
    is_of_figures(word.trim_end_matches([',', ';']), FIGURES_OF_SIZE)
}

/// True for a number of the tables that is no size alone: `6205`, `KM5`, `DIN 471-25`, `32010 X`.
pub(super) fn is_whole(text: &str) -> bool {
    let text = text.trim_end_matches([',', ';', '.']);
    let is_letters_first = text.starts_with(|c: char| c.is_ascii_alphabetic());
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    (is_letters_first || digits >= LEAST_DIGITS)
        && Designation::may_begin(text)
        && Designation::parse(text).is_some_and(|read| {
            read.traits.unknown_suffixes.is_empty()
                && !read.is_in_words
                && standard::resolve(&read).is_some()
        })
}

/// The row of a designation with letters that is whole.
pub(super) fn whole_row(text: &str) -> Option<&'static StandardPart> {
    let is_letters_first = text.starts_with(|c: char| c.is_ascii_alphabetic());
    let read = (is_letters_first && is_whole(text)).then(|| Designation::parse(text))??;
    standard::resolve(&read)
}

/// `DIN 471-25 x 2` may be a ring of the heavy type, twice as thick as the plain one at most (from memory).
pub(super) fn may_be_thickness(row: &StandardPart, count: &str) -> bool {
    const MOST_TIMES: f64 = 2.0;
    let is_ring = row.size.family().facts().bench.measured.lies_in_groove();
    let variant = row.traits.variant.as_deref().unwrap_or_default();
    let plain = variant.split(' ').find_map(|word| word.parse::<f64>().ok());
    let count: f64 = count.parse().unwrap_or_default();
    is_ring && plain.is_none_or(|mm| count <= MOST_TIMES * mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 15, ISO 2982-2, DIN 471, DIN 3760.
    #[test]
    fn whole_parts_are_told_from_lengths_and_names() {
        for (text, is_it) in [
            ("6205 C3", true),
            ("KM5", true),
            ("DIN 471-25", true),
            ("25x52x15 NBR", true),
            ("52 15", false),
            ("52x15", false),
            ("608", false),
            ("RS 6206", false),
            ("lip seal 40x62x7", false),
            ("DIN 471", false),
            ("", false),
        ] {
            let words: Vec<&str> = text.split_whitespace().collect();
            assert_eq!(begins_whole(&words), is_it, "{text}");
        }
    }

    /// DIN 471: a ring of 25 mm is 1.2 mm thick, the heavy type 2 mm (from memory).
    #[test]
    fn a_figure_behind_a_ring_may_be_its_thickness() {
        let ring = whole_row("DIN 471-25").unwrap();
        assert!(may_be_thickness(ring, "2") && !may_be_thickness(ring, "4"));
        let nut = whole_row("KM5").unwrap();
        assert!(!may_be_thickness(nut, "2"));
    }
}
