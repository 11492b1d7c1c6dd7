//! Two parts in one question, `6205/6206`, `40x62x7 or 40x62x8`, `40x62x7/8`: the first is answered, and the other told.

use std::sync::LazyLock;

use super::Question;
use super::any_of::AnyOf;
use super::figure::{CROSS, is_of_figures};
use super::place_words::may_be_lip_seal;
use super::whole_part::{self, FIGURES_OF_SIZE};

/// What stands between them.
const BETWEEN: [&str; 8] = [
    "/", " or ", " oder ", " ou ", " and ", " und ", " et ", " & ",
];
const LINKS: [&str; 7] = ["or", "oder", "ou", "and", "und", "et", "&"];
/// Largest bore that is written in whole inches, in: what is larger is in millimetres (common practice, no source).
const MOST_IN: f64 = 12.0;

/// What was taken off a text.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct SecondPart {
    /// What is left in its place.
    first: String,
    /// The part that was taken off.
    other: String,
    /// The size with both widths, and the second of them, where no more than that was written.
    widths: Option<(String, String)>,
}

/// Takes the second part off a text; gives what is left, and what was taken.
pub(super) fn split(text: &str) -> (String, Option<SecondPart>) {
    // Most questions have neither a stroke nor such a word: they are not taken apart.
    static ANY: LazyLock<AnyOf> = LazyLock::new(|| BETWEEN.into_iter().collect());
    if !ANY.stands_in(text) {
        return (text.to_owned(), None);
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let found = (0..words.len()).find_map(|at| {
        let word = bare(words[at]);
        let part = in_one(word).or_else(|| of_two_widths(word))?;
        Some((part, at..at + 1))
    });
    let found = found.or_else(|| (1..words.len()).find_map(|at| linked(&words, at)));
    let Some((part, range)) = found else {
        return (text.to_owned(), None);
    };
    let before = words[..range.start].iter().copied();
    let left = before
        .chain([part.first.as_str()])
        .chain(words[range.end..].iter().copied());
    (left.collect::<Vec<_>>().join(" "), Some(part))
}

impl SecondPart {
    /// Tells of it; of a lip seal two widths may be those of one part, which is then not understood.
    pub(super) fn apply(self, question: &mut Question) {
        let Self {
            first,
            other,
            widths,
        } = self;
        let of_seal = widths.filter(|_| may_be_lip_seal(question));
        let note = match of_seal {
            Some((written, second)) => {
                question.not_understood.push(format!("/{second}"));
                format!(
                    "`{written}` may be two seals, of which `{first}` is answered, or one stepped seal with two widths, in its housing and over all (common practice, from memory): measure both"
                )
            }
            None => {
                format!("`{first}` is answered; `{other}` is another part: ask for it by itself")
            }
        };
        question.notes.push(note);
    }
}

/// Two parts in one word with a stroke between.
fn in_one(word: &str) -> Option<SecondPart> {
    let (first, other) = word.split_once('/')?;
    let is_of_two = |piece: &str| whole_part::is_whole(piece) || is_size_of(piece, FIGURES_OF_SIZE);
    let are_two = is_of_two(first) && is_of_two(other) && !whole_part::is_whole(word);
    are_two.then(|| SecondPart {
        first: first.to_owned(),
        other: other.to_owned(),
        widths: None,
    })
}

/// A size with the second of two widths behind a stroke.
fn of_two_widths(word: &str) -> Option<SecondPart> {
    let (first, other) = word.split_once('/')?;
    let pieces: Vec<&str> = first.split(CROSS).collect();
    let [bore, outside, width] = pieces[..] else {
        return None;
    };
    let is_mm = bore.parse().is_ok_and(|bore: f64| bore > MOST_IN);
    let are_widths = [width, other]
        .into_iter()
        .all(|piece| (1..=2).contains(&piece.len()) && piece.bytes().all(|b| b.is_ascii_digit()));
    (is_mm && are_widths && width != other).then(|| SecondPart {
        first: first.to_owned(),
        other: format!("{bore}x{outside}x{other}"),
        widths: Some((word.to_owned(), other.to_owned())),
    })
}

/// Two sizes of as many figures with a word between them that stands at a place.
fn linked(words: &[&str], at: usize) -> Option<(SecondPart, std::ops::Range<usize>)> {
    let (before, link, behind) = (words[at - 1], words[at], words.get(at + 1)?);
    let (first, other) = (bare(before), bare(behind));
    let figures = first.split(CROSS).count();
    let are_two = LINKS.contains(&link.to_lowercase().as_str())
        && figures > 1
        && is_size_of(first, figures)
        && is_size_of(other, figures)
        && first != other;
    are_two.then(|| {
        let part = SecondPart {
            first: first.to_owned(),
            other: other.to_owned(),
            widths: None,
        };
        (part, at - 1..at + 2)
    })
}

fn is_size_of(word: &str, figures: usize) -> bool {
    !word.contains('/') && is_of_figures(word, figures)
}

fn bare(word: &str) -> &str {
    word.trim_end_matches([',', ';', '.', ')'])
        .trim_start_matches('(')
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::Verdict;
    use crate::lookup::answer;

    #[test]
    fn the_second_of_two_parts_is_told() {
        for (text, left, other) in [
            ("6205/6206", "6205", "6206"),
            ("6205-2RS/6206-2RS C3", "6205-2RS C3", "6206-2RS"),
            ("bearing 6205/6206", "bearing 6205", "6206"),
            ("40x62x7/40x62x8", "40x62x7", "40x62x8"),
            ("40x62x7/8", "40x62x7", "40x62x8"),
            ("lip seal 40x62x7/8 NBR", "lip seal 40x62x7 NBR", "40x62x8"),
            ("25x52x15/16", "25x52x15", "25x52x16"),
            ("40x62x7 or 40x62x8", "40x62x7", "40x62x8"),
            ("25x52x15 oder 30x62x16", "25x52x15", "30x62x16"),
            ("O-ring 25x3 and 30x3 NBR", "O-ring 25x3 NBR", "30x3"),
        ] {
            let (read, part) = split(text);
            assert_eq!(read, left, "{text}");
            assert_eq!(part.unwrap().other, other, "{text}");
        }
        // Inches, one number with a stroke, a pair of halves, two numbers of which it may be either, other words.
        for text in [
            "1x2x7/8",
            "3/4x1 5/8x7/16",
            "LM11949/LM11910",
            "60/22",
            "62/28",
            "6205/2RS",
            "6206-2RS/C3",
            "6205 or 6206",
            "25x52x15 and grease",
            "40x62x7 or 62x40",
            "AS568-214/NBR",
        ] {
            assert_eq!(split(text), (text.to_owned(), None), "{text}");
        }
    }

    /// ISO 15: 6205; DIN 3760: 40 x 62 x 7 mm. A stepped seal has two widths: common practice, from memory.
    #[test]
    fn the_first_of_two_parts_is_found() {
        for (text, name, left) in [
            ("lip seal 40x62x7/8", "40x62x7", &["/8"][..]),
            ("6205/6206", "6205", &[]),
            ("lip seal 35x52x7/10 NBR", "35x52x7", &["/10"]),
            ("lip seal 40x62x7 or 40x62x8", "40x62x7", &[]),
            ("deep groove 25x52x15/16", "6205", &[]),
            ("deep groove 25x52x15 or 30x62x16", "6205", &[]),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let first = &answer(&question, None).answers[0];
            assert!(first.designation.starts_with(name), "{text}: {first:?}");
            assert_eq!(question.not_understood, left, "{text}");
            let notes = question.notes.join("; ");
            let [other, stepped] = ["is another part", "or one stepped seal"];
            assert_eq!(notes.contains(other), left.is_empty(), "{text}: {notes}");
            assert_eq!(notes.contains(stepped), !left.is_empty(), "{text}: {notes}");
            let is_sure = first.judgement.verdict == Verdict::AsItIs;
            assert!(left.is_empty() || !is_sure, "{text}");
        }
    }
}
