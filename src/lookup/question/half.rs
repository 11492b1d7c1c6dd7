//! Half bearings: the cone or cup of a tapered bearing, a ring of a cylindrical one, a washer of a thrust bearing.

use super::Question;
use super::figure::is_figure;
use super::vocabulary::WORN;
use super::{binding, missing_ring, ring_alone};
use crate::language::with_article;
use crate::part::PartClass;
use crate::part::designation::trade_words::{self, Half, Said};
use crate::standard::is_designation;

/// Reads a question for half a bearing; `None` where it is for a whole part, or no bearing's number is in it.
pub(super) fn read(text: &str) -> Option<Question> {
    if let Some(question) = missing_ring::read(text).or_else(|| ring_alone::read(text)) {
        return Some(question);
    }
    let (half, rest) = split(text)?;
    let mut question = Question::read_whole(&rest).ok()?;
    let family = question
        .family
        .filter(|of| of.class() == PartClass::Bearings)?;
    if question.designation.is_none() && question.partial.is_empty() {
        return None;
    }
    text.trim().clone_into(&mut question.text);
    match half.of(family) {
        Some(variant) => add(&mut question, variant),
        None => question.notes.push(format!(
            "the rings of {} are not parted: the whole bearing is exchanged",
            with_article(family)
        )),
    }
    Some(question)
}

/// Notes that only a half is wanted.
pub(super) fn add(question: &mut Question, variant: &str) {
    let traits = &mut question.traits;
    if !traits.variants().any(|piece| piece.ends_with(" only")) {
        traits.add_variant(variant);
    }
}

/// What words name at a place; a half that a figure follows is asked for where it is of a number: `outer ring od 80 of 32208`.
fn named_at(words: &[&str], lower: &[String], at: usize) -> Option<(usize, Said)> {
    const MOST_WORDS: usize = 2;
    let measured = || {
        let ends = (at + 1..=lower.len().min(at + MOST_WORDS)).rev();
        let mut named = ends.filter_map(|end| trade_words::at(&lower[..end], at));
        named.find(|(count, _)| is_measure_of_number(words, lower, at + count))
    };
    trade_words::at(lower, at).or_else(measured)
}

/// True where a figure stands at a place, with or without its name, and behind it the number that it is of.
fn is_measure_of_number(words: &[&str], lower: &[String], start: usize) -> bool {
    const OF: [&str; 7] = ["of", "for", "from", "von", "vom", "für", "pour"];
    let is_measure = |at: &usize| {
        let word = words[*at];
        lower[*at] == "mm" || binding::is_role(word) || is_figure(word) && !is_designation(word)
    };
    let end = (start..words.len()).find(|at| !is_measure(at));
    end.is_some_and(|end| {
        words[start..end].iter().any(|word| is_figure(word))
            && OF.contains(&lower[end].as_str())
            && words[end + 1..].iter().any(|word| is_designation(word))
    })
}

/// The half that a text names, and the text without its name.
fn split(text: &str) -> Option<(Half, String)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let bare = |word: &str| {
        word.trim_matches([',', ';', '.', ':', '(', ')'])
            .to_lowercase()
    };
    let lower: Vec<String> = words.iter().map(|word| bare(word)).collect();
    let may_be_half =
        |at: &usize| trade_words::may_begin(&lower[*at], |said| matches!(said, Said::Half(_)));
    let (at, (count, half)) =
        (0..lower.len()).filter(may_be_half).find_map(|at| {
            match named_at(&words, &lower, at)? {
                (count, Said::Half(half)) => Some((at, (count, half))),
                _ => None,
            }
        })?;
    let end = at + count;
    let mut start = at;
    while start > 0 && trade_words::says_only(&lower[start - 1]) {
        start -= 1;
    }
    let is_measured = words
        .get(end)
        .is_some_and(|next| is_figure(next) && !is_designation(next));
    let is_worn = lower
        .get(end)
        .is_some_and(|next| WORN.contains(&next.as_str()));
    if (is_measured || is_worn) && !is_measure_of_number(&words, &lower, end) {
        return None;
    }
    let rest = words[..start].iter().chain(&words[end..]).copied();
    Some((half, rest.collect::<Vec<_>>().join(" ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_are_told_from_whole_bearings() {
        for (text, rest) in [
            ("30206 cone", Some("30206")),
            ("cup 30206", Some("30206")),
            ("inner ring only NU208 E", Some("NU208 E")),
            ("NU208 inner ring", Some("NU208")),
            ("51205 housing washer only", Some("51205")),
            ("Innenring NU205", Some("NU205")),
            ("30206 (cone)", Some("30206")),
            (
                "outer ring od 80 of tapered 32208",
                Some("od 80 of tapered 32208"),
            ),
            ("inner ring 40 mm of NU208", Some("40 mm of NU208")),
            // The whole bearing is meant, or the ring was only measured.
            ("NA4904 without inner ring", None),
            ("6206 inner ring worn", None),
            ("inner ring 30.02 outer 62", None),
            ("6206 outer ring turns in its housing", None),
            ("NU205 rotating outer ring", None),
            ("NU205 inner ring rotating", None),
            ("drawn cup 20 x 26 x 20", None),
            ("30206", None),
        ] {
            let found = split(text).map(|(_, rest)| rest);
            assert_eq!(found.as_deref(), rest, "{text}");
        }
    }

    #[test]
    fn a_half_is_called_as_its_family_calls_it() {
        // ISO 5593 calls the rings of tapered roller bearings cone and cup, of thrust bearings washers.
        for (text, variant) in [
            ("30206 cone", Some("cone only")),
            ("30206 inner ring", Some("cone only")),
            ("30206 outer ring", Some("cup only")),
            ("NU205 inner ring", Some("inner ring only")),
            (
                "NU 2206 E outer ring",
                Some("increased capacity design (E), outer ring only"),
            ),
            ("51205 shaft washer", Some("shaft washer only")),
            ("outer ring od 80 of tapered 32208", Some("cup only")),
            // A deep groove ball bearing cannot be taken apart.
            ("6206 inner ring", None),
        ] {
            let question = read(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(question.traits.variant.as_deref(), variant, "{text}");
            assert_eq!(question.text, text);
            assert_eq!(variant.is_none(), !question.notes.is_empty(), "{text}");
        }
        // Figures alone name no bearing that a half could be of.
        assert!(read("cone 30 x 62").is_none());
        assert!(read("cup of tea").is_none());
    }
}
