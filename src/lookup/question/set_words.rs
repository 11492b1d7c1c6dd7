//! Bearings that are made to work together, in words: `set of 2`, `matched set`, `Satz`; and that they are not: `single`,
//! `not a matched set`. Of parts that come in no sets it is how many are wanted.

use std::sync::LazyLock;

use super::Question;
use super::any_of::AnyOf;
use super::need_words::{PAIR, is_set};

/// Words in front of a set that say what set it is.
const KINDS: [&str; 8] = [
    "matched",
    "duplex",
    "paired",
    "universal",
    "abgestimmter",
    "abgestimmten",
    "zusammengepasster",
    "gepaarter",
];
/// Words for a set; `pair` by itself is read elsewhere.
const SETS: [&str; 4] = ["set", "sets", "satz", "lagersatz"];
const PAIRS: [&str; 4] = ["pair", "pairs", "paar", "paarweise"];
const OF: [&str; 5] = ["of", "von", "aus", "mit", "de"];
const NOT: [&str; 8] = [
    "not", "no", "kein", "keine", "keinen", "nicht", "without", "ohne",
];
const ARTICLES: [&str; 5] = ["a", "an", "the", "ein", "als"];
const COUNTS: [(&str, u32); 9] = [
    ("one", 1),
    ("two", 2),
    ("three", 3),
    ("four", 4),
    ("zwei", 2),
    ("drei", 3),
    ("vier", 4),
    ("deux", 2),
    ("trois", 3),
];
/// Words for one bearing by itself.
const SINGLES: [&str; 4] = ["single", "singly", "einzeln", "einzelnes"];
/// What stands in every word for a set or for one bearing by itself.
const PIECES: [&str; 6] = ["set", "satz", "pair", "paar", "singl", "einzeln"];
/// Words that `single` may stand before without saying something of them, as `single row` does.
const BEHIND_SINGLE: [&str; 9] = [
    "bearing",
    "lager",
    "kugellager",
    "instead",
    "not",
    "and",
    "or",
    "und",
    "kein",
];

/// Words for a set at some place of a text.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Set {
    /// How many words.
    words: usize,
    is_denied: bool,
    /// How many bearings it has, where that is said.
    count: Option<u32>,
}

/// Takes the words for sets out of a text; gives what is left, or nothing where there are none.
pub(super) fn take(question: &mut Question, text: &str) -> Option<String> {
    // Most questions have no such word: they are not taken apart.
    static ANY: LazyLock<AnyOf> = LazyLock::new(|| PIECES.into_iter().collect());
    if !ANY.may_stand_in(text) {
        return None;
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let lower: Vec<String> = words.iter().map(|word| bare(word)).collect();
    let mut left: Vec<&str> = Vec::with_capacity(words.len());
    let mut at = 0;
    while let Some(word) = words.get(at) {
        let set = set_at(&lower, at);
        let is_single = is_single(&words, &lower, at);
        let count = set.map_or(1, |set| set.words);
        let phrase = lower[at..at + count].join(" ");
        let is_known = question.traits.arrangement.is_some();
        match set {
            // Denied, or as the number says.
            Some(set) if set.is_denied != is_known && may_be_two(set) => {}
            Some(set) if !set.is_denied && !is_known && !may_be_set(question) => {
                // `6206 set of 4` are four; a matched set of them may be anything.
                if set.count.is_none() {
                    question.not_understood.push(phrase);
                }
            }
            Some(set) => {
                question.not_understood.push(phrase);
                if !set.is_denied && !is_known && !question.notes.iter().any(|note| note == PAIR) {
                    question.notes.push(PAIR.to_owned());
                }
            }
            None if is_single && is_known => question.not_understood.push(phrase),
            None if is_single => {}
            None => left.push(word),
        }
        at += count;
    }
    (left.len() < words.len()).then(|| left.join(" "))
}

/// Once every word is read: the arrangement says what set it is, and the words for the set say it again.
pub(super) fn settle(question: &mut Question) {
    if question.traits.arrangement.is_none() {
        return;
    }
    let says_it_again = |phrase: &String| {
        let words: Vec<String> = phrase.split(' ').map(bare).collect();
        let is_pair = words.last().is_some_and(|word| is_of(&PAIRS, word)) && words.len() <= 2;
        let set = set_at(&words, 0).filter(|set| set.words == words.len() && !set.is_denied);
        is_pair && !is_of(&NOT, &words[0]) || set.is_some_and(may_be_two)
    };
    let count = question.not_understood.len();
    question
        .not_understood
        .retain(|phrase| !says_it_again(phrase));
    if question.not_understood.len() < count {
        question.notes.retain(|note| note != PAIR);
    }
}

/// True for words for a set of which a note says that its arrangement is open.
pub(super) fn is_told(question: &Question, phrase: &str) -> bool {
    let words: Vec<String> = phrase.split(' ').map(bare).collect();
    let set = set_at(&words, 0).filter(|set| set.words == words.len() && !set.is_denied);
    set.is_some() && question.notes.iter().any(|note| note == PAIR)
}

/// True for a word in lower case for a set, which is no suffix of a number.
pub(super) fn is_word(lower: &str) -> bool {
    lower
        .rsplit('-')
        .next()
        .is_some_and(|word| is_of(&SETS, word))
}

/// The arrangements of the standards are of two bearings.
fn may_be_two(set: Set) -> bool {
    set.is_denied || set.count.is_none_or(|count| count == 2)
}

/// True where the bearings asked for come in sets.
fn may_be_set(question: &Question) -> bool {
    question.family.is_some_and(is_set)
}

/// The words for a set that begin at a place.
fn set_at(lower: &[String], start: usize) -> Option<Set> {
    let is = |at: usize, list: &[&str]| lower.get(at).is_some_and(|word| is_of(list, word));
    let mut at = start;
    let is_denied = is(at, &NOT);
    at += usize::from(is_denied);
    if is_denied && is(at, &ARTICLES) {
        at += 1;
    }
    let noun = at + usize::from(is(at, &KINDS));
    // `2er-Satz`
    let of_two = lower
        .get(noun)
        .and_then(|word| word.strip_suffix("er-satz"))
        .map(|count| count.parse().ok());
    let is_noun = is(noun, &SETS) || of_two.is_some() || is_denied && is(noun, &PAIRS);
    // `set screw`, `set collar`
    let is_of_other = is(noun + 1, &["screw", "screws", "collar", "point"]);
    if !is_noun || is_of_other {
        return None;
    }
    // `set of 2`; the word between may be gone with a number in front of it, and then nothing else stands behind.
    let counted = noun + 1 + usize::from(is(noun + 1, &OF));
    let is_told = counted > noun + 1 || counted + 1 == lower.len();
    let count = lower.get(counted).filter(|_| is_told);
    let count = count.and_then(|word| count_of(word));
    let end = if count.is_some() {
        counted + 1
    } else {
        noun + 1
    };
    Some(Set {
        words: end - start,
        is_denied,
        count: count.or(of_two.flatten()),
    })
}

/// `single` by itself, which is not that of `single row`.
fn is_single(words: &[&str], lower: &[String], at: usize) -> bool {
    let ends = words[at].ends_with([',', ';']) || at + 1 == words.len();
    let is_behind = lower
        .get(at + 1)
        .is_some_and(|next| is_of(&BEHIND_SINGLE, next));
    is_of(&SINGLES, &lower[at]) && (ends || is_behind)
}

fn count_of(word: &str) -> Option<u32> {
    let named = COUNTS.iter().find(|(name, _)| *name == word);
    let count = named.map(|(_, count)| *count);
    count.or_else(|| word.parse().ok().filter(|_| word.len() <= 2))
}

fn is_of(list: &[&str], word: &str) -> bool {
    list.contains(&word)
}

fn bare(word: &str) -> String {
    word.trim_matches([',', ';', '.', '(', ')']).to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_piece_stands_in_every_word_for_sets() {
        for word in SETS
            .into_iter()
            .chain(PAIRS)
            .chain(SINGLES)
            .chain(["2er-satz"])
        {
            assert!(PIECES.iter().any(|piece| word.contains(piece)), "{word}");
        }
    }

    fn read(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    /// DIN 628-1: angular contact ball bearings come in sets; DB, DF, DT by common practice, no source.
    #[test]
    fn a_set_asks_for_its_arrangement() {
        for (text, left) in [
            ("7206 B set of 2", "set of 2"),
            ("7206 B matched set", "matched set"),
            ("7206 matched set of two", "matched set of two"),
            ("7206 B 2er-Satz", "2er-satz"),
            ("30206 Satz", "satz"),
        ] {
            let question = read(text);
            assert_eq!(question.not_understood, [left], "{text}");
            assert!(question.untold().is_empty(), "{text}: {question:?}");
            assert!(question.notes.iter().any(|note| note == PAIR), "{text}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
        }
        for (text, arrangement) in [
            ("7206 C DT set of 2", "DT"),
            ("7206 set of 2 DB", "DB"),
            ("7206 matched set of two, O arrangement", "DB"),
            ("7206 B pair, X arrangement", "DF"),
            ("7206 B matched pair back to back", "DB"),
        ] {
            let question = read(text);
            let known = question.traits.arrangement.as_deref();
            assert_eq!(known, Some(arrangement), "{text}");
            let left = &question.not_understood;
            assert!(left.is_empty(), "{text}: {left:?}");
            assert!(question.notes.iter().all(|note| note != PAIR), "{text}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
        }
        // Two arrangements of three or four are none of these.
        let four = read("7206 B DB set of 4");
        assert_eq!(four.not_understood, ["set of 4"]);
    }

    #[test]
    fn what_is_no_set_is_one_bearing() {
        for text in [
            "6212 2RS single, not a matched set",
            "7206 B single",
            "7206 B not a pair",
            "7206 B kein Satz",
            "6206 2RS set of 4",
            "6212 single",
        ] {
            let question = read(text);
            let left = &question.not_understood;
            assert!(left.is_empty(), "{text}: {left:?}");
            assert!(question.traits.arrangement.is_none(), "{text}");
            assert!(question.notes.is_empty(), "{text}: {question:?}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
        }
        for (text, left) in [
            ("7206 B DB single", "single"),
            ("7206 B DB not a matched set", "not a matched set"),
            ("6212 2RS matched set", "matched set"),
        ] {
            assert_eq!(read(text).not_understood, [left], "{text}");
        }
    }

    #[test]
    fn other_words_keep_theirs() {
        let at = |text: &str| {
            let lower: Vec<String> = text.split(' ').map(bare).collect();
            set_at(&lower, 0).map(|set| (set.words, set.is_denied, set.count))
        };
        assert_eq!(at("set screw"), None);
        assert_eq!(at("single row"), None);
        assert_eq!(at("no ribs"), None);
        assert_eq!(at("pair"), None);
        assert_eq!(at("set of two"), Some((3, false, Some(2))));
        assert_eq!(at("not a matched set of 4"), Some((6, true, Some(4))));
        assert_eq!(at("set of seals"), Some((1, false, None)));
    }
}
