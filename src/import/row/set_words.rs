//! Words that say that bearings stand together: `pair`, `set of 2`, `matched`, `2 x` in front of a number.

use crate::import::fold::fold;
use crate::import::other_thing::names_bearings;

/// Words for a set that stand by themselves, folded.
const ALONE: [&str; 10] = [
    "pair",
    "pairs",
    "paar",
    "paarweise",
    "paire",
    "coppia",
    "matched",
    "gepaart",
    "satz",
    "set",
];
/// Of these the pieces may be counted: `set of 2`.
const COUNTED: [&str; 3] = ["set", "satz", "pair"];
/// How many of these are also said of the rings of one bearing.
const ONE_BEARING: usize = 2;
/// Words between them.
const OF: [&str; 3] = ["of", "von", "aus"];
/// In these the part is used; it is one of them.
const USED: [&str; 10] = [
    "used",
    "mounted",
    "fitted",
    "installed",
    "works",
    "work",
    "runs",
    "verwendet",
    "eingebaut",
    "verbaut",
];
/// One of them.
const ONE: [&str; 5] = ["1", "one", "eins", "eines", "half"];
/// Behind these words stands what several bearings go into.
const PER: [&str; 4] = ["per", "je", "pro", "par"];
/// Behind these words a set is none of bearings.
const OTHER_SETS: [&str; 2] = ["screw", "collar"];

/// A text without the words for a set, and whether there was any.
pub fn without_set_words(text: &str) -> (String, bool) {
    let words: Vec<&str> = text.split_whitespace().collect();
    let folded: Vec<String> = words.iter().map(|word| fold(word)).collect();
    let is = |list: &[&str], at: usize| {
        (folded.get(at)).is_some_and(|word| list.contains(&word.as_str()))
    };
    // `Two bearings per pump, set`: how many a machine takes.
    let is_per_machine = (1..words.len()).any(|at| {
        is(&PER, at) && names_bearings(words[at - 1]) && at + 1 < words.len() && !is(&ALONE, at + 1)
    });
    if is_per_machine {
        return (text.to_owned(), false);
    }
    let (mut kept, mut is_set, mut at) = (Vec::with_capacity(words.len()), false, 0);
    while at < words.len() {
        let back = |list: &[&str], by: usize| at.checked_sub(by).is_some_and(|at| is(list, at));
        // `Used in pairs`, `1 of a pair`: a single part.
        let is_used = back(&["in", "as"], 1) && back(&USED, 2)
            || back(&["a", "as"], 1) && back(&["in", "as"], 2) && back(&USED, 3)
            || is(&["paarweise"], at) && is(&USED, at + 1);
        let is_one_of = back(&OF, 1) && back(&ONE, 2)
            || back(&["a", "the", "einem"], 1) && back(&OF, 2) && back(&ONE, 3);
        let is_single = is_used || is_one_of;
        if !is(&ALONE, at) || is_single || is(&OTHER_SETS, at + 1) {
            kept.push(words[at]);
            at += 1;
            continue;
        }
        is_set = true;
        let is_count = folded
            .get(at + 2)
            .is_some_and(|word| word.len() == 1 && word.parse::<u8>().is_ok());
        at += if is(&COUNTED, at) && is(&OF, at + 1) && is_count {
            3
        } else {
            1
        };
    }
    (kept.join(" "), is_set)
}

/// True for a text with a word for a set.
pub fn says_set(text: &str) -> bool {
    without_set_words(text).1
}

/// True for a text that says that bearings stand in pairs; the cone and the cup of one bearing are a set as well.
pub fn says_pair(text: &str) -> bool {
    let is_pair = |word: String| {
        ALONE.contains(&word.as_str()) && !COUNTED[..ONE_BEARING].contains(&word.as_str())
    };
    text.split_whitespace().map(fold).any(is_pair) && says_set(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sets_are_told_by_their_words() {
        // Common practice, no source.
        for (text, plain, is_set) in [
            ("7208 B pair, DB", "7208 B DB", true),
            ("set of 2 x 7208 B", "x 7208 B", true),
            ("7208 B DB Satz", "7208 B DB", true),
            ("7208 B Set von 4", "7208 B", true),
            ("7208 B matched pair", "7208 B", true),
            ("6308 with set screw", "6308 with set screw", false),
            ("7208 B used in pairs", "7208 B used in pairs", false),
            ("7208 B 1 of a pair", "7208 B 1 of a pair", false),
            ("7208 B sold in pairs", "7208 B sold in", true),
            (
                "two bearings per pump, set",
                "two bearings per pump, set",
                false,
            ),
            ("2 bearings per set", "2 bearings per", true),
            ("7208 B used, pair", "7208 B used,", true),
            ("6308 C3", "6308 C3", false),
            ("Dichtsatz 6308", "Dichtsatz 6308", false),
        ] {
            assert_eq!(says_set(text), is_set, "{text}");
            assert_eq!(
                without_set_words(text),
                (plain.to_owned(), is_set),
                "{text}"
            );
        }
    }

    #[test]
    fn the_rings_of_one_bearing_are_no_pair() {
        // Common practice, no source: cone and cup are sold as a bearing set.
        for (text, is_pair) in [
            ("7208 B pair", true),
            ("2 matched", true),
            ("Taper roller bearing set", false),
            ("Satz", false),
            ("set of 2, matched", true),
        ] {
            assert_eq!(says_pair(text), is_pair, "{text}");
        }
    }
}
