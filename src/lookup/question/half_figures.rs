//! Sizes of which a figure cannot be read: `ISO 8734 6x3?`, `40x6?x8 oil seal`, `O-ring 31.?x3.53`.

use super::partial::{GAPS, Partial, unreadable};
use super::{Question, kind, other_part, standard_name};
use crate::part::Family;
use crate::standard::{self, StandardPart};

/// Figures are whole millimetres where they differ by less, mm.
const SAME_MM: f64 = 1e-6;

/// The half-read size of a text, and the words beside it.
#[derive(Debug, PartialEq, Eq)]
struct Split {
    /// As written, without blanks.
    size: String,
    rest: String,
}

/// Rows of the kind that the words name whose sizes agree with what is readable, and the words beside the size; the standard
/// of a pin is kept with what it says. `None` where the text holds no half-read size, or none of the tables agrees.
pub(super) fn read(question: &mut Question, text: &str) -> Option<(Partial, String, String)> {
    let Split { size, rest } = split(text)?;
    let mut said = Question::of(text);
    said.family = other_part::family_named(&rest);
    let left = standard_name::take(&mut said, &rest);
    let families = match said.family {
        Some(family) => vec![family],
        None => kind::families_in(&rest),
    };
    // Nobody named a kind: of three figures it may be any.
    let families = match families[..] {
        [] => Family::ALL.to_vec(),
        _ => families,
    };
    let pieces: Vec<&str> = size.split(['x', 'X', '×']).collect();
    let rows: Vec<&'static StandardPart> = standard::parts()
        .iter()
        .filter(|row| families.contains(&row.size.family()) && agrees(&said, row, &pieces))
        .collect();
    if rows.is_empty() {
        return None;
    }
    question.family = said.family;
    question.traits = said.traits;
    question.fit_classes = said.fit_classes;
    question.not_understood = said.not_understood;
    let found = Partial {
        read_as: unreadable(&size, rows.len()),
        unlisted: unlisted(&size, rows.len()),
        rows,
        half: None,
    };
    Some((found, size, left))
}

impl Question {
    /// True where a size stands in the text of which a figure cannot be read.
    pub(in crate::lookup) fn is_half_size(&self) -> bool {
        !self.partial.is_empty() && split(&self.text).is_some()
    }
}

/// Sizes that digits in the gaps make and that are in no table: as many as are thinkable, not made.
fn unlisted(size: &str, listed: usize) -> usize {
    const MOST_GAPS: u32 = 2;
    let gaps = size.matches(GAPS).count() as u32;
    10usize.pow(gaps.min(MOST_GAPS)).saturating_sub(listed)
}

/// The one run of words that is a size with a gap.
fn split(text: &str) -> Option<Split> {
    let is_piece = |word: &str| {
        let is_sign = |c: char| c.is_ascii_digit() || GAPS.contains(&c) || "xX×.,".contains(c);
        word.chars().all(is_sign)
    };
    let words: Vec<&str> = text
        .split_whitespace()
        .map(|word| word.trim_end_matches([',', ';']))
        .flat_map(standard_apart)
        .collect();
    let is_cross = |c: char| matches!(c, 'x' | 'X' | '×');
    let joins = |at: usize| {
        let pair = words.get(at).zip(words.get(at + 1));
        pair.is_some_and(|(one, other)| {
            is_piece(one)
                && is_piece(other)
                && (one.ends_with(is_cross) || other.starts_with(is_cross))
        })
    };
    let mut start = 0;
    while start < words.len() {
        let mut end = start + 1;
        while joins(end - 1) {
            end += 1;
        }
        let size = words[start..end].concat();
        let pieces: Vec<&str> = size.split(is_cross).collect();
        let is_size = is_piece(&size)
            && size.contains(GAPS)
            && (2..=3).contains(&pieces.len())
            && pieces
                .iter()
                .all(|piece| piece.contains(|c: char| c.is_ascii_digit()));
        if is_size {
            let rest = words[..start].iter().chain(&words[end..]).copied();
            let rest = rest.collect::<Vec<_>>().join(" ");
            return Some(Split { size, rest });
        }
        start = end;
    }
    None
}

/// `8734-6x3?`: the number of a standard and the size behind its stroke.
fn standard_apart(word: &str) -> impl Iterator<Item = &str> {
    let is_digits = |head: &str| head.bytes().all(|b| b.is_ascii_digit());
    let is_size = |size: &str| size.contains(GAPS) && size.contains(['x', 'X', '×']);
    let apart = word
        .split_once('-')
        .filter(|(head, size)| !head.is_empty() && is_digits(head) && is_size(size));
    let (head, size) = apart.unzip();
    [head, size, apart.is_none().then_some(word)]
        .into_iter()
        .flatten()
}

/// True where every dimension of a row agrees with what is readable of its figure, and a pin is as hard as its standard says.
fn agrees(said: &Question, row: &StandardPart, pieces: &[&str]) -> bool {
    let hardness = said.traits.variants().find(|of| of.ends_with("hardened"));
    let is_as_hard = hardness.is_none_or(|hardness| row.traits.has_variant(hardness));
    let lengths: Vec<f64> = row
        .size
        .dimensions()
        .map(|(_, length)| length.to_mm())
        .collect();
    let mut pairs = pieces.iter().zip(&lengths);
    is_as_hard && pieces.len() == lengths.len() && pairs.all(|(piece, mm)| fits(piece, *mm))
}

/// True where a dimension is printed so, as finely as it was written; rounded or cut off where it is finer.
fn fits(piece: &str, mm: f64) -> bool {
    let piece = piece.replace(',', ".");
    let decimals = piece
        .split_once('.')
        .map_or(0, |(_, digits)| digits.chars().count());
    if decimals == 0 && (mm - mm.round()).abs() > SAME_MM {
        return false;
    }
    let scale = 10f64.powi(decimals.min(4) as i32);
    let alike = |mm: f64| {
        let printed = format!("{mm:.decimals$}");
        printed.chars().count() == piece.chars().count()
            && printed
                .chars()
                .zip(piece.chars())
                .all(|(one, sign)| one == sign || one != '.' && GAPS.contains(&sign))
    };
    alike(mm) || piece.contains(GAPS) && alike((mm * scale + SAME_MM).floor() / scale)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::answer;

    fn names(text: &str) -> Vec<String> {
        let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        let rows = question.partial.iter();
        rows.map(|row| row.designation.clone()).collect()
    }

    /// ISO 8734: lengths of 6 mm pins, in the thirties 30, 32 and 35; DIN 3760: 60 and 62 mm for a shaft of 40; SAE AS568: -218 is
    /// 31.34 x 3.53 mm. All as the tables have them.
    #[test]
    fn sizes_that_agree_with_what_is_readable_are_found() {
        for (text, begins, among) in [
            ("ISO 8734 6x3?", "ISO 8734-6x3", "ISO 8734-6x30"),
            ("pin ISO 8734 6 x 3?", "ISO 8734-6x3", "ISO 8734-6x30"),
            ("ISO 8734-6x3?", "ISO 8734-6x3", "ISO 8734-6x30"),
            ("40x6?x8 oil seal", "40x6", "40x62x8"),
            ("oil seal 40 x 6? x 8 NBR", "40x6", "40x62x8"),
            ("Wellendichtring 40x6?x8", "40x6", "40x62x8"),
            ("O-ring 31.?x3.53", "AS568-", "AS568-218"),
            ("o-ring 31,? x 3,53", "AS568-", "AS568-218"),
        ] {
            let found = names(text);
            assert!(found.iter().any(|name| name == among), "{text}: {found:?}");
            assert!(
                found.iter().all(|name| name.starts_with(begins)),
                "{text}: {found:?}"
            );
            let question = Question::read(text).unwrap();
            assert!(question.readings.is_empty(), "{text}: {question:?}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
        let seal = Question::read("oil seal 40 x 6? x 8 NBR").unwrap();
        assert_eq!(seal.traits.material.as_deref(), Some("NBR"));
        // Nine other sizes are thinkable, and one of them may be on the bench.
        let answers = answer(&Question::read("40x6?x8 oil seal").unwrap(), None);
        assert_eq!(answers.answers[0].designation, "40x62x8");
        assert!(answers.none_of_these.probability > 0.1, "{answers:?}");
        // DIN 471 has a ring for every whole shaft from 40 to 42, and 45.
        assert!(
            names("DIN 471 4?")
                .iter()
                .any(|name| name == "DIN 471-40x1.75")
        );
    }

    /// ISO 15: 6208 is 40 x 80 x 18 mm, and no bearing of the tables is 60 to 69 x 80 x 18.
    #[test]
    fn a_half_read_size_without_a_kind_may_be_of_any() {
        for (text, among) in [
            ("4?x80x18", "6208"),
            ("40x80x1?", "6208"),
            ("40x6?x8", "40x62x8"),
        ] {
            let found = names(text);
            assert!(found.iter().any(|name| name == among), "{text}: {found:?}");
            let question = Question::read(text).unwrap();
            assert!(question.readings.is_empty(), "{text}: {question:?}");
            let answers = answer(&question, None).answers;
            let is_checked = |of: &crate::lookup::Answer| {
                of.judgement.verdict >= crate::interchange::Verdict::AfterChecks
            };
            assert!(answers.iter().all(is_checked), "{text}");
        }
    }

    /// ISO 15: 6205, 7205 and N205 are all 25 x 52 x 15 mm; which kind is the likelier does not hang on a digit.
    #[test]
    fn kinds_are_weighed_as_those_of_a_whole_size() {
        let share = |text: &str, name: &str| {
            let answers = answer(&Question::read(text).unwrap(), None).answers;
            let one = answers.iter().find(|one| one.designation == name);
            one.map(|one| one.probability)
        };
        for text in ["25x52x1?", "25x5?x15"] {
            let ball = share(text, "6205").unwrap();
            let angular = share(text, "7205").unwrap();
            assert!(ball > 2.0 * angular, "{text}: {ball} {angular}");
            let roller = share(text, "N205").unwrap_or(0.0);
            assert!(ball > roller, "{text}: {ball} {roller}");
            let whole = share("25x52x15", "6205").unwrap() / share("25x52x15", "7205").unwrap();
            let ratio = ball / angular / whole;
            assert!((0.5..2.0).contains(&ratio), "{text}: {ratio}");
            let answers = answer(&Question::read(text).unwrap(), None).answers;
            assert_eq!(answers[0].designation, "6205", "{text}");
        }
    }

    #[test]
    fn a_figure_agrees_as_it_is_printed() {
        // Definition; 1.234 in is 31.3436 mm, 0.139 in 3.5306 mm.
        for (piece, mm, is_it) in [
            ("31.?", 31.343_6, true),
            ("31.3?", 31.343_6, true),
            ("31.4?", 31.343_6, false),
            ("3.53", 3.530_6, true),
            ("3.54", 3.530_6, false),
            ("6?", 62.0, true),
            ("6?", 6.0, false),
            ("6?", 61.91, false),
            ("?2", 62.0, true),
            // Rounded it would be 32.0.
            ("31.?", 31.96, true),
        ] {
            assert_eq!(fits(piece, mm), is_it, "{piece} {mm}");
        }
    }

    #[test]
    fn only_sizes_with_a_gap_are_half_read() {
        let of = |text: &str| split(text).map(|found| (found.size, found.rest));
        let some = |size: &str, rest: &str| Some((size.to_owned(), rest.to_owned()));
        assert_eq!(of("6205 40 x 6? x 8 seal"), some("40x6?x8", "6205 seal"));
        assert_eq!(of("40x6?x8 oil seal"), some("40x6?x8", "oil seal"));
        for text in [
            "63?6",
            "40x62x8 oil seal",
            "what is 40 x 62 x 8 ?",
            "x?x",
            "seal ?",
        ] {
            assert_eq!(of(text), None, "{text}");
        }
    }

    /// ISO 355 writes 32010 X; ABMA 19.2 names cone and cup.
    #[test]
    fn a_letter_or_a_cup_behind_the_gap_belongs_to_the_number() {
        for (text, among) in [
            ("3201?", "32010X"),
            ("3201? X", "32010X"),
            ("3201?X worn", "32010X"),
            ("L4464?/L44610", "L44649/L44610"),
        ] {
            let found = names(text);
            assert!(found.iter().any(|name| name == among), "{text}: {found:?}");
        }
        // A cross behind a gap parts two figures.
        assert!(!names("4?x62x7 oil seal").is_empty());
    }
}
