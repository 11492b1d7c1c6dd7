//! Half bearings: the cone or cup of a tapered bearing, a ring of a cylindrical one, a washer of a thrust bearing.

use super::Question;
use super::figure::is_figure;
use super::vocabulary::WORN;
use crate::language::with_article;
use crate::part::PartClass;
use crate::part::designation::Designation;
use crate::part::designation::trade_words::{self, Half, Said};

/// Reads a question for half a bearing; `None` where it is for a whole part, or no bearing's number is in it.
pub(super) fn read(text: &str) -> Option<Question> {
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
        None => question.read_as.push(format!(
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

/// The half that a text names, and the text without its name.
fn split(text: &str) -> Option<(Half, String)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let bare = |word: &str| {
        word.trim_matches([',', ';', '.', ':', '(', ')'])
            .to_lowercase()
    };
    let lower: Vec<String> = words.iter().map(|word| bare(word)).collect();
    let (at, (count, half)) =
        (0..lower.len()).find_map(|at| match trade_words::at(&lower, at)? {
            (count, Said::Half(half)) => Some((at, (count, half))),
            _ => None,
        })?;
    let end = at + count;
    let mut start = at;
    while start > 0 && trade_words::says_only(&lower[start - 1]) {
        start -= 1;
    }
    let is_number = |word: &str| {
        Designation::parse(word).is_some_and(|read| crate::standard::resolve(&read).is_some())
    };
    let is_measured = words
        .get(end)
        .is_some_and(|next| is_figure(next) && !is_number(next));
    let is_worn = lower
        .get(end)
        .is_some_and(|next| WORN.contains(&next.as_str()));
    if is_measured || is_worn {
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
            // A deep groove ball bearing cannot be taken apart.
            ("6206 inner ring", None),
        ] {
            let question = read(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(question.traits.variant.as_deref(), variant, "{text}");
            assert_eq!(question.text, text);
            assert_eq!(variant.is_none(), !question.read_as.is_empty(), "{text}");
        }
        // Figures alone name no bearing that a half could be of.
        assert!(read("cone 30 x 62").is_none());
        assert!(read("cup of tea").is_none());
    }
}
