//! How many are wanted of a part that is named in words: `2 lip seals 40x62x7`, `2 x bearing 25x52x15`, `40x62x7 x2`. Such a
//! figure is no dimension.

use super::binding::{is_length, is_role};
use super::figure::{CROSS, goes_on, is_figure, is_of_figures, is_size};
use super::one_figure::{self, is_thread_at};
use super::part_names::{KINDS, NAMES, PARTS, bare, figures_of};
use super::whole_part::{
    FIGURES_OF_SIZE, LEAST_DIGITS, MOST_WORDS, begins_whole, is_whole_size, may_be_thickness,
    whole_row,
};
use super::{kind, letters, tidy};
use crate::import::family_in;

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
/// Fewest letters of a word that is the name of a family.
const SHORTEST_NAME: usize = 4;
const CROSSES: [&str; 3] = ["x", "X", "×"];

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

/// True for a `no` behind the count that a text begins with, which are pieces: `2 no NBR O-rings 25x3`. Behind the last figure of
/// a size it says what is not wanted: `O-ring 25 3 no NBR`.
pub(super) fn are_pieces(words: &[&str], at: usize) -> bool {
    let Some((count, asked)) = words[..at].split_last() else {
        return false;
    };
    is_count(count) && bare(words[at]) == "no" && asked.iter().all(|word| is_order(word))
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
    // `pin` and `pins` name a size of two, and no family.
    let of_word = |word: &&str| {
        let name = bare(word);
        figures_of(&name).or_else(|| figures_of(name.strip_suffix('s')?))
    };
    if let Some(figures) = words.iter().find_map(of_word) {
        return Some(figures);
    }
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
    let is_whole = |word: &&str| is_of_figures(word.trim_end_matches([',', ';']), figures);
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
    let name = words.get(kinds).map(|word| bare(word))?;
    if let Some(figures) = figures_of(&name) {
        return Some((figures, kinds));
    }
    // A kind alone is a name: `1 dowel 6x30`.
    if let Some(last) = kinds.checked_sub(1) {
        let kind = bare(words[last]);
        let figures = figures_of(&kind).unwrap_or(FIGURES_OF_SIZE);
        return (NAMES.contains(&kind.as_str()) && is_small).then_some((figures, last));
    }
    let is_word = name.chars().count() >= SHORTEST_NAME && name.chars().all(char::is_alphabetic);
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

/// True for a count that is no bore.
fn is_small(count: &str) -> bool {
    let count: Option<u32> = count.parse().ok();
    count.is_some_and(|count| count <= MOST_BEFORE_NUMBER)
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
mod tests;
