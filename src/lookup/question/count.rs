//! How many are wanted of a part that is named in words: `2 lip seals 40x62x7`, `2 x bearing 25x52x15`, `40x62x7 x2`. Such a
//! figure is no dimension.

use super::binding::{is_length, is_role};
use super::figure::{goes_on, is_figure, is_size};
use super::one_figure::{self, is_thread_at};
use super::whole_part::{begins_whole, may_be_thickness, whole_row};
use super::{kind, letters, tidy};
use crate::import::family_in;

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
const PIECES: [&str; 30] = [
    "pc", "pcs", "pce", "pces", "piece", "pieces", "stk", "stck", "stück", "stueck", "st", "off",
    "ea", "each", "no", "nos", "unit", "units", "times", "mal", "pièce", "pièces", "pieza", "szt",
    "more", "further", "needed", "wanted", "required", "weitere",
];
/// Words between a count and the part that say how it is made or how old it is.
const ADJECTIVES: [&str; 16] = [
    "new",
    "old",
    "steel",
    "hardened",
    "stainless",
    "black",
    "brown",
    "green",
    "nbr",
    "fkm",
    "epdm",
    "vmq",
    "neue",
    "alte",
    "gehärtete",
    "schwarze",
];
/// Sets of parts: of bearings they say something, of other parts they are pieces.
const SETS: [&str; 9] = [
    "set", "sets", "satz", "sätze", "saetze", "pair", "pairs", "paar", "paare",
];
/// Words between the pieces and the part.
const OF: [&str; 3] = ["of", "von", "de"];
/// Words in front of a count that say only that something is wanted.
const ORDERS: [&str; 18] = [
    "order",
    "need",
    "needs",
    "want",
    "please",
    "get",
    "find",
    "bestellen",
    "bestelle",
    "brauche",
    "benötige",
    "bitte",
    "commander",
    "i",
    "we",
    "send",
    "buy",
    "stock",
];
/// Largest count that stands in front of a number without a word between: from ten on it may be a bore that was measured.
const MOST_BEFORE_NUMBER: u32 = 9;
/// Most words of a designation.
const MOST_WORDS: usize = 3;
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
/// Those of them that name the part where nothing follows but its size or number.
const NAMES: [&str; 11] = [
    "dowel",
    "ball",
    "roller",
    "needle",
    "groove",
    "tapered",
    "taper",
    "thrust",
    "contact",
    "spherical",
    "cylindrical",
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
    let asked = words.iter().take_while(|word| is_order(word)).count();
    let start = behind_count(&words[asked..]).map(|start| asked + start);
    let left = start.map_or(&words[..], |start| &words[start..]);
    let end = left.len() - words_of_count_behind(left);
    (start.is_some() || end < left.len()).then(|| left[..end].join(" "))
}

/// True for a word that says only that something is wanted.
pub(super) fn is_order(word: &str) -> bool {
    ORDERS.contains(&bare(word).as_str())
}

/// How many words in front are a count: `2`, `2x`, `2 x`, `2 pcs`, `2 pcs of`; none where there is none.
pub(super) fn words_of_count(words: &[&str]) -> usize {
    let Some((first, rest)) = words.split_first() else {
        return 0;
    };
    if first.strip_suffix(CROSS).is_some_and(is_count) {
        1
    } else if is_count(first) {
        1 + words_of_pieces(rest)
    } else {
        0
    }
}

/// How many words name pieces: `x`, `pcs`, `off`, `pcs of`.
fn words_of_pieces(words: &[&str]) -> usize {
    let is = |at: usize, list: &[&str]| {
        words
            .get(at)
            .is_some_and(|word| list.contains(&bare(word).as_str()))
    };
    if is(0, &CROSSES) {
        return 1;
    }
    let pieces = usize::from(is(0, &PIECES));
    pieces + usize::from(is(pieces, &OF))
}

/// Where a text goes on behind the count that it begins with.
fn behind_count(words: &[&str]) -> Option<usize> {
    let (first, rest) = words.split_first()?;
    if let Some(count) = first.strip_suffix(CROSS) {
        return (is_count(count) && (begins_part(rest) || begins_whole(rest))).then_some(1);
    }
    if !is_count(first) {
        return None;
    }
    if let [set, behind @ ..] = rest
        && SETS.contains(&bare(set).as_str())
    {
        // `2 sets of 7206 B DB` are bearings that go together.
        let behind = &behind[words_of_pieces(behind)..];
        return match begins_whole(behind) {
            true => Some(1),
            false => begins_part(behind).then(|| words.len() - behind.len()),
        };
    }
    let pieces = words_of_pieces(rest);
    let behind = &rest[pieces..];
    if pieces > 0 {
        let is_part = begins_part(behind) || begins_whole(behind);
        return is_part.then_some(1 + pieces);
    }
    let is_adjective = |word: &&&str| ADJECTIVES.contains(&bare(word).as_str());
    let adjectives = rest.iter().take_while(is_adjective).count();
    let is_kind = |word: &&&str| KINDS.contains(&bare(word).as_str()) || is_adjective(word);
    let kinds = rest.iter().take_while(is_kind).count();
    let is_part = |word: &&str| PARTS.contains(&bare(word).as_str());
    let is_named = rest.get(kinds).is_some_and(is_part);
    let named = rest.get(kinds + 1..).unwrap_or_default();
    let is_counted = is_named && (has_size(named) || begins_whole(named) || is_thread_at(named));
    let is_one = || begins_one(first, rest, kinds) || one_figure::begins_it(first, rest, kinds);
    // `2 1/2x3x1/4` is a length of two inches and a half.
    let is_number = || is_small(first) && begins_whole(&rest[adjectives..]);
    let is_apart = || !goes_on(first, rest[0]) && (is_number() || begins_joined(first, rest));
    (is_counted || !rest.is_empty() && (is_one() || is_apart())).then_some(1)
}

/// `2 25x3 o-ring`, `2 M25x1.5`: a joined size has all the figures of the part that is named, or a thread has its pitch, and the
/// figure in front is none of them.
fn begins_joined(count: &str, words: &[&str]) -> bool {
    let size = words[0].trim_end_matches([',', ';']);
    let figures = size.split(CROSS).count();
    if is_thread_at(words) {
        return figures > 1 && is_small(count);
    }
    is_size(size) && figures > 1 && figures_named(words) == Some(figures)
}

/// How many figures the sizes have of the kind of part that words name.
fn figures_named(words: &[&str]) -> Option<usize> {
    let text = words.join(" ");
    let families = match family_in(&text) {
        Some(family) => vec![family],
        None => kind::families_in(&text),
    };
    let mut counts = families.iter().map(|family| family.key_dimensions().len());
    let first = counts.next()?;
    counts.all(|count| count == first).then_some(first)
}

/// True for words that say how many and nothing else: `x2`, `x 2`, `2 pcs`, `2 off`.
pub(super) fn is_alone(words: &[&str]) -> bool {
    match *words {
        [cross, count] if CROSSES.contains(&cross) => is_count(count),
        [count, pieces] => is_count(count) && PIECES.contains(&bare(pieces).as_str()),
        [one] => {
            one.strip_prefix(CROSS).is_some_and(is_count)
                || one.strip_suffix(CROSS).is_some_and(is_count)
        }
        _ => false,
    }
}

/// `1 lip seal 40x62x7`, `3 bearing 6206`: the name of one part whose size is whole without the count; `2 lip seal` may be a
/// seal of two lips.
fn begins_one(count: &str, rest: &[&str], kinds: usize) -> bool {
    let Some((figures, kinds)) = figures_of_one(rest, kinds, is_small(count)) else {
        return false;
    };
    let may_be_lips = count != "1" && rest[..kinds].iter().any(|word| bare(word) == "lip");
    let behind = &rest[kinds + 1..];
    let is_whole = |word: &&str| {
        let word = word.trim_end_matches([',', ';']);
        is_size(word) && word.split(CROSS).count() == figures
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
    let is_bearing = figures == FIGURES_OF_SIZE;
    !may_be_lips
        && (behind.iter().any(is_whole)
            || lengths >= figures
            || begins_whole(behind)
            || is_bearing && (0..behind.len()).any(is_number))
}

/// How many figures the size has of the part that words name, and how many words stand before the last of its name: `seal`,
/// `dowel`, `deep groove`, `Zylinderrollenlager`.
fn figures_of_one(words: &[&str], kinds: usize, is_small: bool) -> Option<(usize, usize)> {
    let of = |name: &str| {
        let known = ONES.iter().find(|(one, _)| *one == name);
        known.map(|(_, figures)| *figures)
    };
    let name = words.get(kinds).map(|word| bare(word))?;
    if let Some(figures) = of(&name) {
        return Some((figures, kinds));
    }
    // A kind alone is a name: `1 dowel 6x30`.
    if let Some(last) = kinds.checked_sub(1) {
        let kind = bare(words[last]);
        let figures = of(&kind).unwrap_or(FIGURES_OF_SIZE);
        return (NAMES.contains(&kind.as_str()) && is_small).then_some((figures, last));
    }
    let is_word = name.chars().count() > MOST_WORDS && name.chars().all(char::is_alphabetic);
    let family = is_word.then(|| family_in(&name)).flatten()?;
    Some((family.key_dimensions().len(), kinds))
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

/// How many words behind are a count of what is whole without it: `40x62x7 x2`, `25x52x15 x 2`, `DIN 471-25 x 4`.
fn words_of_count_behind(words: &[&str]) -> usize {
    let (part, count, taken) = match *words {
        [ref part @ .., cross, count] if CROSSES.contains(&cross) => (part, count, 2),
        [ref part @ .., last] => match last.strip_prefix(CROSS) {
            Some(count) => (part, count, 1),
            None => return 0,
        },
        [] => return 0,
    };
    // `lock nut M30 x 2` has its pitch behind, and `M30x2 x 2` has it.
    let is_thread = |last: &&&str| is_thread_at(&[**last]);
    let has_pitch = part
        .last()
        .filter(is_thread)
        .map(|last| last.contains(CROSS));
    let may_count = is_count(count) && has_pitch != Some(false);
    let Some(size) = part.last().filter(|_| may_count) else {
        return 0;
    };
    let first = part.len().saturating_sub(MOST_WORDS);
    let whole = || (first..part.len()).find_map(|at| whole_row(&part[at..].join(" ")));
    let is_it = has_pitch.is_some()
        || is_whole_size(size)
        || whole().is_some_and(|row| !may_be_thickness(row, count));
    if is_it { taken } else { 0 }
}

fn is_count(word: &str) -> bool {
    (1..=2).contains(&word.len()) && word.bytes().all(|b| b.is_ascii_digit())
}

/// True for a word in lower case that names a part or says which.
pub(super) fn names_part(name: &str) -> bool {
    let is_one = |(one, _): &(&str, usize)| *one == name;
    PARTS.contains(&name) || KINDS.contains(&name) || ONES.iter().any(is_one)
}

/// True for a count that is no bore.
fn is_small(count: &str) -> bool {
    let count: Option<u32> = count.parse().ok();
    count.is_some_and(|count| count <= MOST_BEFORE_NUMBER)
}

pub(super) fn bare(word: &str) -> String {
    word.trim_matches([',', ';', '.', ':']).to_lowercase()
}

pub(super) fn is_whole_size(word: &str) -> bool {
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

    #[test]
    fn a_count_behind_an_order_or_before_a_whole_part_is_left_out() {
        for (text, left) in [
            ("need 2 O-ring 25x3", Some("O-ring 25x3")),
            ("need 2 dowel pin 6x30", Some("dowel pin 6x30")),
            ("please order 2 pcs of O-ring 25x3", Some("O-ring 25x3")),
            ("2 each O-ring 25x3", Some("O-ring 25x3")),
            ("2 st. O-ring 25x3", Some("O-ring 25x3")),
            ("2 sets of 7206 B DB", Some("sets of 7206 B DB")),
            ("1 set 7206 B DB", Some("set 7206 B DB")),
            ("2 pairs 7206 B", Some("pairs 7206 B")),
            ("1 nut M12", Some("nut M12")),
            ("2 lock nuts M25x1.5", Some("lock nuts M25x1.5")),
            ("1 dowel 6x30", Some("dowel 6x30")),
            ("1 circlip 25", Some("circlip 25")),
            ("2 circlips 25", Some("circlips 25")),
            ("1 circlip DIN 471-25", Some("circlip DIN 471-25")),
            ("4 St DIN 471-25", Some("DIN 471-25")),
            ("DIN 471-25 x 4", Some("DIN 471-25")),
            ("25x52x15 x 2", Some("25x52x15")),
            ("KM5 x 2", Some("KM5")),
            ("1 KM5", Some("KM5")),
            ("5 HK2016", Some("HK2016")),
            ("2 x RLS 8", Some("RLS 8")),
            ("2 LM11949/LM11910", Some("LM11949/LM11910")),
            ("1 taper roller 32010 X", Some("taper roller 32010 X")),
            (
                "2 tapered roller bearings 32010 X",
                Some("tapered roller bearings 32010 X"),
            ),
            (
                "1 Zylinderrollenlager NU 210",
                Some("Zylinderrollenlager NU 210"),
            ),
            ("1 deep groove 25 52 15", Some("deep groove 25 52 15")),
            ("2 40x62x7 NBR", Some("40x62x7 NBR")),
            ("1 no. 6206", Some("6206")),
            ("4 of 6205", Some("6205")),
            ("2 6206", Some("6206")),
            ("2 6x30 pin", Some("6x30 pin")),
            ("need 2 25x3 o-ring", Some("25x3 o-ring")),
            ("order 5 40x3 o-ring", Some("40x3 o-ring")),
            ("2 8x20 pins", Some("8x20 pins")),
            ("2 M25x1.5", Some("M25x1.5")),
            ("4 M20x1 lock nut", Some("M20x1 lock nut")),
            ("M20x1 x 4", Some("M20x1")),
            (
                "2 hardened dowel pins 6x30",
                Some("hardened dowel pins 6x30"),
            ),
            ("2 old O-rings 25x3", Some("old O-rings 25x3")),
            ("we need 2 NBR O-ring 25x3", Some("NBR O-ring 25x3")),
            ("2 new 6205", Some("new 6205")),
            ("2 more 6205", Some("6205")),
            // Two figures of three, and two lengths of a size apart.
            ("25 52x15 ball bearing", None),
            ("2 1/4x1 dowel", None),
            ("40 new 6206", None),
            // A thickness, a bore that may have been measured, a length in inches, two seals of a bearing.
            ("2 circlips 52", None),
            ("40 6206", None),
            ("2 1/2x3x1/4", None),
            ("2 RS 6206", None),
            ("DIN 471-25 x 2", None),
            ("lock nut M30 x 2", None),
            ("O-ring 25 x 3", None),
            ("K 18 x 24 x 12", None),
            ("35 shaft 52 housing 7 wide 0.5 mm", None),
            ("need 25 52 15", None),
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
            ("need 2 O-ring 25x3", "25x3"),
            ("1 KM5", "KM5"),
            ("2 25x3 o-ring", "25x3"),
            ("order 5 40x3 o-ring", "40x3"),
            ("2 new 6205", "6205"),
            ("2 more 6205", "6205"),
            ("4 St DIN 471-25", "DIN 471-25x1.2"),
            ("1 deep groove 25 52 15", "6205"),
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
