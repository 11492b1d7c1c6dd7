//! Reads what was measured of an O-ring's groove: `groove floor 38.1 depth 2.87 width 4.6`, `groove 4.6 x 2.87`.

use super::{Question, vocabulary};
use crate::import::family_in;
use crate::limit::Duty;
use crate::part::Family;
use crate::units::{LengthUnit, read_size};

/// Words that begin the description of a groove.
const BEGINS: [&str; 5] = ["groove", "gland", "nut", "einstich", "gorge"];
const FLOOR: [&str; 8] = [
    "floor", "dia", "diameter", "ø", "on", "bottom", "grund", "fond",
];
const DEPTH: [&str; 6] = ["depth", "deep", "tiefe", "tief", "profondeur", "t"];
const WIDTH: [&str; 7] = ["width", "wide", "breite", "breit", "largeur", "b", "w"];

/// What the ring does, by the words of the bench.
const DUTIES: [(&str, Duty); 9] = [
    ("face", Duty::StaticFace),
    ("flange", Duty::StaticFace),
    ("reciprocating", Duty::Reciprocating),
    ("moving", Duty::Reciprocating),
    ("dynamic", Duty::Reciprocating),
    ("piston", Duty::Reciprocating),
    ("rod", Duty::Reciprocating),
    ("static", Duty::StaticRadial),
    ("radial", Duty::StaticRadial),
];

/// Which figure of the groove a word names.
#[derive(Clone, Copy, PartialEq)]
enum Named {
    Floor,
    Depth,
    Width,
}

/// Takes the groove out of the text of an O-ring; gives what is left.
pub(super) fn take(question: &mut Question, text: &str) -> String {
    let family = family_in(text).or_else(|| vocabulary::short_family(text));
    let is_ring = family == Some(Family::ORing) || text.to_uppercase().contains("AS568");
    if !is_ring {
        return text.to_owned();
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let bare = |word: &str| word.trim_matches([',', ';', ':', '=']).to_lowercase();
    let begin = words
        .iter()
        .position(|word| BEGINS.contains(&bare(word).as_str()));
    let Some(begin) = begin else {
        return text.to_owned();
    };
    let mut pending = None;
    let mut open = Vec::new();
    let mut end = begin + 1;
    while let Some(word) = words.get(end) {
        let lower = bare(word);
        if let Some(named) = named(&lower) {
            // `2.87 deep`: the figure stands before its name.
            match open.pop() {
                Some(mm) => set(question, named, mm),
                None => pending = Some(named),
            }
        } else if let Some((_, duty)) = DUTIES.iter().find(|(known, _)| *known == lower) {
            question.groove.duty = Some(*duty);
        } else if let Some(figures) = figures(&lower) {
            for mm in figures {
                match pending.take() {
                    Some(named) => set(question, named, mm),
                    None => open.push(mm),
                }
            }
        } else if !matches!(
            lower.as_str(),
            "x" | "by" | "mm" | "is" | "of" | "and" | "seal"
        ) {
            break;
        }
        end += 1;
    }
    // Unnamed: a groove is written width by depth, and the floor is the large one.
    open.sort_by(f64::total_cmp);
    let order = [Named::Depth, Named::Width, Named::Floor];
    let free = order.into_iter().filter(|named| is_free(question, *named));
    let pairs: Vec<(Named, f64)> = free.zip(open).collect();
    for (named, mm) in pairs {
        set(question, named, mm);
    }
    let begin = match begin.checked_sub(1).map(|before| bare(words[before])) {
        Some(before) if ["in", "im", "dans", "with"].contains(&before.as_str()) => begin - 1,
        _ => begin,
    };
    let rest = words[..begin].iter().chain(&words[end..]).copied();
    rest.collect::<Vec<_>>().join(" ")
}

fn named(lower: &str) -> Option<Named> {
    let is = |words: &[&str]| words.contains(&lower);
    if is(&FLOOR) {
        Some(Named::Floor)
    } else if is(&DEPTH) {
        Some(Named::Depth)
    } else if is(&WIDTH) {
        Some(Named::Width)
    } else {
        None
    }
}

fn figures(word: &str) -> Option<Vec<f64>> {
    if !word.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
        return None;
    }
    let lengths = read_size(word, LengthUnit::Mm).ok()?;
    Some(lengths.iter().map(|read| read.length.to_mm()).collect())
}

const fn is_free(question: &Question, named: Named) -> bool {
    let groove = &question.groove;
    match named {
        Named::Floor => groove.floor_mm.is_none(),
        Named::Depth => groove.depth_mm.is_none(),
        Named::Width => groove.width_mm.is_none(),
    }
}

const fn set(question: &mut Question, named: Named, mm: f64) {
    let groove = &mut question.groove;
    match named {
        Named::Floor => groove.floor_mm = Some(mm),
        Named::Depth => groove.depth_mm = Some(mm),
        Named::Width => groove.width_mm = Some(mm),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_groove_is_no_size_of_the_ring() {
        for (text, floor, depth, width) in [
            (
                "o-ring 37.69 x 3.53 groove floor 38.1 depth 2.87 width 4.6",
                Some(38.1),
                Some(2.87),
                Some(4.6),
            ),
            (
                "o-ring 37.69 x 3.53 in groove 4.6 x 2.87",
                None,
                Some(2.87),
                Some(4.6),
            ),
            (
                "o-ring 37.69x3.53 groove 2,87 deep 4,6 wide static",
                None,
                Some(2.87),
                Some(4.6),
            ),
            (
                "O-Ring 40x3 Nut Tiefe 2.3 Breite 4",
                None,
                Some(2.3),
                Some(4.0),
            ),
        ] {
            let question = Question::read(text).unwrap();
            let groove = question.groove;
            assert_eq!(
                (groove.floor_mm, groove.depth_mm, groove.width_mm),
                (floor, depth, width),
                "{text}"
            );
            let has_size = question.readings.len() == 2 || question.designation.is_some();
            assert!(has_size, "{text}: {question:?}");
        }
    }
}
