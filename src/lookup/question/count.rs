//! How many are wanted of a part that is named in words: `2 lip seals 40x62x7`, `2 x bearing 25x52x15`, `40x62x7 x2`. Such a
//! figure is no dimension.

use super::binding::{is_length, is_role};
use super::figure::{is_figure, is_size};
use super::{letters, tidy};

/// Names of parts, more than one of them; in the singular `2 lip seal` may be one seal of two lips.
const PARTS: [&str; 29] = [
    "bearings",
    "seals",
    "o-rings",
    "orings",
    "rings",
    "circlips",
    "pins",
    "dowels",
    "nuts",
    "cages",
    "lager",
    "kugellager",
    "wälzlager",
    "nadellager",
    "dichtungen",
    "wellendichtringe",
    "radialwellendichtringe",
    "simmerringe",
    "o-ringe",
    "sicherungsringe",
    "stifte",
    "zylinderstifte",
    "passstifte",
    "wellenmuttern",
    "roulements",
    "joints",
    "goupilles",
    "rodamientos",
    "cuscinetti",
];
/// Names of one part, and how many figures its size has: one more figure in front is a count.
const ONES: [(&str, usize); 22] = [
    ("bearing", 3),
    ("seal", 3),
    ("lager", 3),
    ("kugellager", 3),
    ("wälzlager", 3),
    ("nadellager", 3),
    ("dichtung", 3),
    ("wellendichtring", 3),
    ("radialwellendichtring", 3),
    ("simmerring", 3),
    ("roulement", 3),
    ("joint", 3),
    ("rodamiento", 3),
    ("cuscinetto", 3),
    ("o-ring", 2),
    ("oring", 2),
    ("pin", 2),
    ("dowel", 2),
    ("stift", 2),
    ("zylinderstift", 2),
    ("passstift", 2),
    ("goupille", 2),
];
/// Words for pieces behind a count.
const PIECES: [&str; 11] = [
    "pc", "pc.", "pcs", "pcs.", "pce", "piece", "pieces", "stk", "stk.", "stück", "off",
];
/// Words in front of them that say which.
const KINDS: [&str; 27] = [
    "lip",
    "oil",
    "shaft",
    "rotary",
    "radial",
    "rubber",
    "ball",
    "roller",
    "needle",
    "deep",
    "groove",
    "tapered",
    "taper",
    "thrust",
    "angular",
    "contact",
    "spherical",
    "cylindrical",
    "dowel",
    "retaining",
    "snap",
    "lock",
    "external",
    "internal",
    "sealed",
    "new",
    "spare",
];
const CROSS: [char; 3] = ['x', 'X', '×'];
const CROSSES: [&str; 3] = ["x", "X", "×"];
/// Figures of a size, apart from each other.
const FIGURES_OF_SIZE: usize = 3;
/// Fewest digits of a bearing's number that is no length.
const LEAST_DIGITS: usize = 4;

/// A text without the count of parts before or behind it; `None` where it has none.
pub(super) fn taken_off(text: &str) -> Option<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let start = behind_count(&words);
    let left = start.map_or(&words[..], |start| &words[start..]);
    let end = left.len() - usize::from(ends_with_count(left));
    (start.is_some() || end < left.len()).then(|| left[..end].join(" "))
}

/// How many words in front are a count: `2`, `2x`, `2 x`, `2 pcs`; none where there is none.
pub(super) fn words_of_count(words: &[&str]) -> usize {
    let Some((first, rest)) = words.split_first() else {
        return 0;
    };
    let is_piece = |word: &&str| CROSSES.contains(word) || PIECES.contains(&bare(word).as_str());
    if first.strip_suffix(CROSS).is_some_and(is_count) {
        1
    } else if is_count(first) {
        1 + usize::from(rest.first().is_some_and(is_piece))
    } else {
        0
    }
}

/// Where a text goes on behind the count that it begins with.
fn behind_count(words: &[&str]) -> Option<usize> {
    let (first, rest) = words.split_first()?;
    if let Some(count) = first.strip_suffix(['x', 'X', '×']) {
        return (is_count(count) && begins_part(rest)).then_some(1);
    }
    if !is_count(first) {
        return None;
    }
    if let [cross, rest @ ..] = rest
        && (CROSSES.contains(cross) || PIECES.contains(&cross.to_lowercase().as_str()))
    {
        return begins_part(rest).then_some(2);
    }
    let is_kind = |word: &&&str| KINDS.contains(&bare(word).as_str());
    let kinds = rest.iter().take_while(is_kind).count();
    let is_part = |word: &&str| PARTS.contains(&bare(word).as_str());
    let is_named = rest.get(kinds).is_some_and(is_part);
    let is_counted = is_named && has_size(&rest[kinds + 1..]);
    (is_counted || begins_one(first, rest, kinds)).then_some(1)
}

/// `1 lip seal 40x62x7`, `3 bearing 6206`: the name of one part whose size is whole without the count; `2 lip seal` may be a
/// seal of two lips.
fn begins_one(count: &str, rest: &[&str], kinds: usize) -> bool {
    let Some(name) = rest.get(kinds).map(|word| bare(word)) else {
        return false;
    };
    let Some((_, figures)) = ONES.iter().find(|(one, _)| *one == name) else {
        return false;
    };
    let may_be_lips = count != "1" && rest[..kinds].iter().any(|word| bare(word) == "lip");
    let behind = &rest[kinds + 1..];
    let is_whole = |word: &&str| {
        let word = word.trim_end_matches([',', ';']);
        is_size(word) && word.split(['x', 'X', '×']).count() == *figures
    };
    let lengths = (0..behind.len())
        .filter(|at| is_length(behind, *at))
        .count();
    let is_number = |at: usize| {
        let word = bare(behind[at]);
        let digits = word.bytes().filter(u8::is_ascii_digit).count();
        letters::number_at(behind, at).is_some()
            || digits >= LEAST_DIGITS && tidy::is_whole_number(&word)
    };
    let is_bearing = *figures == FIGURES_OF_SIZE;
    !may_be_lips
        && (behind.iter().any(is_whole)
            || lengths >= *figures
            || is_bearing && (0..behind.len()).any(is_number))
}

/// True for a size of three figures in one word, or for words that name a part with its size behind: `25x52x15`, `lip seal 40 62 7`.
fn begins_part(words: &[&str]) -> bool {
    let Some((first, rest)) = words.split_first() else {
        return false;
    };
    if is_whole_size(first) {
        return true;
    }
    let lower = bare(first);
    let has_digit = |word: &str| word.contains(|c: char| c.is_ascii_digit());
    // `lip seal` names a part, `lip 38` a diameter.
    let is_kind =
        KINDS.contains(&lower.as_str()) && rest.first().is_some_and(|next| !has_digit(next));
    let is_word = lower.len() > 1 && !has_digit(first) && lower != "mm";
    is_word && (is_kind || !is_role(&lower)) && has_size(rest)
}

/// `40x62x7 x2`: a count behind a size that is whole without it.
fn ends_with_count(words: &[&str]) -> bool {
    let [.., size, last] = words else {
        return false;
    };
    let count = last.strip_prefix(['x', 'X', '×']);
    count.is_some_and(is_count) && is_whole_size(size)
}

fn is_count(word: &str) -> bool {
    (1..=2).contains(&word.len()) && word.bytes().all(|b| b.is_ascii_digit())
}

fn bare(word: &str) -> String {
    word.trim_matches([',', ';', '.', ':']).to_lowercase()
}

fn is_whole_size(word: &str) -> bool {
    let word = word.trim_end_matches([',', ';']);
    is_size(word) && word.split(['x', 'X', '×']).count() == FIGURES_OF_SIZE
}

/// True where words hold a size or a number by themselves.
fn has_size(words: &[&str]) -> bool {
    let figures = words.iter().filter(|word| is_figure(word)).count();
    let has_cross = words.iter().any(|word| CROSSES.contains(word));
    figures >= FIGURES_OF_SIZE
        || has_cross && figures > 1
        || words
            .iter()
            .any(|word| is_size(word) || tidy::is_whole_number(bare(word).as_str()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::{Question, answer};

    #[test]
    fn a_count_before_or_behind_a_part_is_left_out() {
        for (text, left) in [
            ("2 lip seals 40x62x7", Some("lip seals 40x62x7")),
            ("2 lip seals 40 62 7", Some("lip seals 40 62 7")),
            ("4 O-rings 25x3", Some("O-rings 25x3")),
            ("2 bearings 6206", Some("bearings 6206")),
            (
                "2 Wellendichtringe 40x62x7",
                Some("Wellendichtringe 40x62x7"),
            ),
            ("2 x lip seal 40x62x7", Some("lip seal 40x62x7")),
            ("2x lip seal 40 x 62 x 7", Some("lip seal 40 x 62 x 7")),
            ("2 x 25x52x15", Some("25x52x15")),
            ("lip seal 40x62x7 x2", Some("lip seal 40x62x7")),
            ("1 lip seal 40x62x7", Some("lip seal 40x62x7")),
            ("1 seal 40x62x7", Some("seal 40x62x7")),
            ("1 bearing 25x52x15", Some("bearing 25x52x15")),
            ("1 bearing 25 52 15", Some("bearing 25 52 15")),
            ("1 O-ring 25x3", Some("O-ring 25x3")),
            ("1 dowel pin 8x30", Some("dowel pin 8x30")),
            ("3 bearing 6206", Some("bearing 6206")),
            ("1 bearing NU 208 C3", Some("bearing NU 208 C3")),
            ("2 pcs 25x52x15", Some("25x52x15")),
            // A size of which the first figure is one, in millimetres and in inches.
            ("1 bearing 3 1", None),
            ("1 bearing 2 x 1/2", None),
            ("1 O-ring 1/8", None),
            ("1 circlip 25", None),
            ("25 bearing 52 15", None),
            // Lengths, two lips of one seal, and figures that are a size only together.
            ("2 lip seal 40x62x7", None),
            ("8 dowel pins 30", None),
            ("25 bearings 52 15", None),
            ("2 x 40x3 o-ring", None),
            ("12 x od 28 x 8", None),
            ("12 x 28 x 8 bearings", None),
            ("25 x 52 x 15", None),
            ("o-ring 40 x3", None),
            ("lip seals 40x62x7", None),
            ("8 mm pins 8x30", None),
        ] {
            assert_eq!(taken_off(text).as_deref(), left, "{text}");
        }
    }

    /// ISO 15: 6205 is 25 x 52 x 15 mm; DIN 3760: 40 x 62 x 7.
    #[test]
    fn parts_that_are_counted_are_found() {
        for (text, name) in [
            ("2 lip seals 40x62x7", "40x62x7"),
            ("2 seals 40x62x7", "40x62x7"),
            ("2 x lip seal 40x62x7", "40x62x7"),
            ("2 bearings 25x52x15 deep groove", "6205"),
            ("2 O-rings 25x3", "25x3"),
            ("2 bearings 6206", "6206"),
            ("1 lip seal 40x62x7", "40x62x7"),
            ("1 bearing 25x52x15 deep groove", "6205"),
            ("1 O-ring 25x3", "25x3"),
            ("3 bearing 6206", "6206"),
            ("1 pc 6206", "6206"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let answers = answer(&question, None).answers;
            let first = answers.first().map(|one| one.designation.as_str());
            assert_eq!(first, Some(name), "{text}");
            let left = &question.not_understood;
            assert!(left.is_empty(), "{text}: {left:?}");
        }
    }
}
