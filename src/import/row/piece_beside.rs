//! The pieces of a text beside a designation, and what of them is said of another part or of the whole bearing.

use std::ops::Range;

use crate::import::other_thing::{is_mention, names_another_thing};
use crate::part::designation::trade_words::{self, Half, Said};
use crate::part::{Family, PartClass};

use super::remark::names_place;

/// Before these words something is just not there.
pub(super) const NEGATIONS: [&str; 10] = [
    "without", "no", "not", "nicht", "w/o", "ohne", "kein", "keine", "sans", "non",
];
/// Words that say that the part is not the plain one, and no more: common practice, no source.
pub(super) const TELLING: [&str; 11] = [
    "vibration",
    "special",
    "spezial",
    "speziell",
    "sonderausführung",
    "modified",
    "modifiziert",
    "hochtemperatur",
    "high-temperature",
    "hightemp",
    "high-temp",
];
/// Behind these the word before says nothing of the part: `special price`.
pub(super) const OF_TRADE: [&str; 6] = ["price", "offer", "order", "preis", "angebot", "tool"];
/// Marks of DIN 623-1 that are a word without a figure; others of letters alone may be anything.
pub(super) const LETTERS: [&str; 4] = ["ZZ", "DB", "DF", "DT"];
/// What is insulated or stainless besides the part: common practice, no source.
const THINGS: [&str; 18] = [
    "box",
    "boxes",
    "bag",
    "bags",
    "packing",
    "packaging",
    "package",
    "carton",
    "container",
    "room",
    "raum",
    "halle",
    "cable",
    "wire",
    "karton",
    "kiste",
    "verpackung",
    "behälter",
];
/// Behind these words a part is named that this one takes the place of, or that takes its place.
const REPLACED: [&str; 13] = [
    "replaces",
    "replacing",
    "replaced",
    "ersetzt",
    "instead",
    "statt",
    "anstatt",
    "anstelle",
    "remplace",
    "formerly",
    "previously",
    "vormals",
    "früher",
];
/// The same in front of a number, or of a word for one.
const OLD: [&str; 8] = [
    "old", "alt", "alte", "altes", "former", "previous", "ex", "ancien",
];
const NUMBERS: [&str; 11] = [
    "number",
    "no",
    "nr",
    "type",
    "ref",
    "designation",
    "nummer",
    "typ",
    "bezeichnung",
    "artikel",
    "article",
];
/// In front of a number: the part is another.
const NOT: [&str; 3] = ["not", "nicht", "pas"];
/// Behind these words a half belongs to the whole bearing.
const WITH: [&str; 7] = ["with", "mit", "incl", "inkl", "including", "avec", "w/"];
/// Ribs are told of the rings of a whole bearing: `two ribs inner ring`.
const RIBS: [&str; 10] = [
    "rib",
    "ribs",
    "flange",
    "flanges",
    "shoulder",
    "shoulders",
    "bord",
    "borde",
    "borden",
    "bordscheibe",
];
/// So are rings that come off.
const SEPARABLE: [&str; 8] = [
    "separable",
    "removable",
    "detachable",
    "abnehmbar",
    "abnehmbarer",
    "abnehmbarem",
    "abziehbar",
    "séparable",
];
/// So are rings of which the ribs are told behind them.
const RIBLESS: [&str; 6] = [
    "bordlos",
    "bordlose",
    "bordloser",
    "bordlosem",
    "ribless",
    "flangeless",
];
/// A half that is not there.
const MISSING: [&str; 6] = ["missing", "gone", "lost", "fehlt", "fehlend", "manque"];
/// Fewest digits of a number of a bearing that stands in words.
pub(super) const LEAST_DIGITS: usize = 4;

/// The words of a piece of a text, as written and in lower case.
pub(super) struct Piece<'a> {
    pub(super) words: Vec<&'a str>,
    pub(super) lower: Vec<String>,
}

impl Piece<'_> {
    /// True where it speaks of a machine or of a place on the shelf too, by the words beside those at some places.
    pub(super) fn is_of_place(&self, beside: &Range<usize>) -> bool {
        let words = self.lower.iter().enumerate();
        let mut others = words.filter(|(at, _)| !beside.contains(at));
        others.any(|(_, word)| names_place(word))
    }

    pub(super) fn lower(&self, at: usize) -> Option<&str> {
        self.lower.get(at).map(String::as_str)
    }

    pub(super) fn is_mention(&self, at: usize) -> bool {
        self.lower(at)
            .is_some_and(|word| is_mention(word, self.lower(at + 1)))
    }

    pub(super) fn is_hot(&self, at: usize) -> bool {
        (self.lower(at), self.lower(at + 1)) == (Some("high"), Some("temperature"))
    }

    /// True where another part is named from here on: one that this one goes with, or takes the place of.
    pub(super) fn is_of_another(&self, at: usize) -> bool {
        let is = |list: &[&str], at: usize| self.lower(at).is_some_and(|word| list.contains(&word));
        let next_has_figure = self.lower(at + 1).is_some_and(has_figure);
        let digits = |word: &str| word.bytes().filter(u8::is_ascii_digit).count();
        let is_number = self
            .lower(at + 1)
            .is_some_and(|next| digits(next) >= LEAST_DIGITS);
        is(&REPLACED, at)
            || is(&OLD, at) && (next_has_figure || is(&NUMBERS, at + 1))
            || is(&NOT, at) && is_number
    }

    /// True for a word for another thing than the part: `insulated box`, `stainless steel shaft`.
    pub(super) fn is_thing(&self, at: usize) -> bool {
        self.lower(at)
            .is_some_and(|word| is_packing(word) || names_another_thing(word))
    }

    /// The half that is named at a place, behind `with` too.
    pub(super) fn half_at(&self, at: usize) -> Option<Half> {
        let is_with = |word: &String| WITH.contains(&word.as_str());
        let behind = self.lower[..at]
            .iter()
            .any(is_with)
            .then(|| &self.lower[at..]);
        let said = trade_words::at(&self.lower, at)
            .or_else(|| trade_words::at(behind?, 0))
            .map(|(_, said)| said);
        match said? {
            Said::Half(half) => Some(half),
            _ => None,
        }
    }

    /// True for the name of a half that only tells of the whole bearing: `with separable inner ring`, `two ribs inner ring`.
    pub(super) fn is_of_whole(&self, of: &Range<usize>) -> bool {
        let is = |list: &[&str], word: &String| list.contains(&word.as_str());
        let (before, behind) = (&self.lower[..of.start], &self.lower[of.end..]);
        let is_told = |word: &String| is(&SEPARABLE, word) || is(&RIBLESS, word);
        before.iter().any(|word| is(&WITH, word) || is(&RIBS, word))
            || before.last().is_some_and(is_told)
            || behind.first().is_some_and(is_told)
            || behind.iter().any(|word| is(&RIBS, word))
    }

    /// How many words say that a half of a bearing of the family is not there: `without inner ring`.
    pub(super) fn missing_half(&self, at: usize, family: Family) -> Option<usize> {
        let half = |words: &[String]| match trade_words::at(words, 0) {
            Some((count, Said::Half(half))) => half.of(family).map(|_| count),
            _ => None,
        };
        let rest = self.lower.get(at..)?;
        if NEGATIONS.contains(&rest.first()?.as_str()) {
            return half(rest.get(1..)?).map(|count| 1 + count);
        }
        (1..=2).find_map(|count| {
            let is_all = half(rest.get(..count)?) == Some(count);
            let next = rest.get(count)?;
            (is_all && MISSING.contains(&next.as_str())).then_some(count + 1)
        })
    }

    pub(super) fn is_half(&self, at: usize) -> bool {
        matches!(trade_words::at(&self.lower, at), Some((_, Said::Half(_))))
    }
}

/// True for a word in lower case for what parts are packed in, or what is insulated besides them.
pub(super) fn is_packing(word: &str) -> bool {
    THINGS.contains(&word)
}

pub(super) fn pieces(text: &str) -> Vec<Piece<'_>> {
    let is_sign = |word: &&str| !word.contains(char::is_alphanumeric);
    let mut found = Vec::new();
    for part in text.split([',', ';', '|', '\n']) {
        let all: Vec<&str> = part
            .split_whitespace()
            .map(|word| word.trim_matches(['.', ':', '!', '?', '"', '(', ')']))
            .collect();
        for words in all.split(is_sign).filter(|words| !words.is_empty()) {
            found.push(Piece {
                words: words.to_vec(),
                lower: words.iter().map(|word| word.to_lowercase()).collect(),
            });
        }
    }
    found
}

pub(super) fn has_figure(word: &str) -> bool {
    word.contains(|c: char| c.is_ascii_digit())
}

/// True for a family of bearings.
pub(super) fn is_bearing(family: Option<Family>) -> bool {
    family.is_some_and(|family| family.class() == PartClass::Bearings)
}
