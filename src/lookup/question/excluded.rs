//! What is not wanted, `O-ring 25x3 not NBR`, and what the wish stands in for, `FKM instead of NBR`: neither is a wish.

use std::sync::LazyLock;

use super::any_of::AnyOf;
use super::old_part::bare;
use super::{Question, count};
use crate::part::designation::elastomer;
use crate::part::{Clearance, Closure};

/// What the words below begin with.
const BEGINNINGS: [&str; 18] = [
    "not", "no ", "non", "kein", "nicht", "without", "ohne", "but", "instead", "statt", "stelle",
    "lieu", "except", "other", "rather", "place of", "pas de", "außer",
];
/// Words in front of a mark that say that it is not wanted, with those of more words first.
const PHRASES: [&[&str]; 29] = [
    &["anything", "but"],
    &["any", "but"],
    &["other", "than"],
    &["rather", "than"],
    &["instead", "of"],
    &["in", "place", "of"],
    &["an", "stelle", "von"],
    &["anstelle", "von"],
    &["au", "lieu", "de"],
    &["alles", "außer"],
    &["must", "not", "be"],
    &["may", "not", "be"],
    &["should", "not", "be"],
    &["do", "not", "want"],
    &["not", "in"],
    &["not", "of"],
    &["not", "made", "of"],
    &["not", "from"],
    &["nicht", "aus"],
    &["pas", "de"],
    &["except"],
    &["not"],
    &["no"],
    &["non"],
    &["without"],
    &["kein"],
    &["keine"],
    &["nicht"],
    &["ohne"],
];
/// Words in front of what the wish stands in for that say it alone.
const INSTEAD: [&str; 4] = ["statt", "anstatt", "anstelle", "außer"];
/// Words that go on with the next mark, and such as lead back to what is wanted.
const LINKS: [&str; 5] = ["or", "nor", "oder", "noch", "ou"];
const BACK: [&str; 4] = ["but", "sondern", "mais", "rather"];

/// What was taken off a text.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Excluded {
    /// As written, piece by piece.
    said: Vec<String>,
    /// Symbols of elastomers, where no other one is asked for.
    elastomers: Vec<&'static str>,
}

/// Takes what is not wanted off a text; gives what is left.
pub(super) fn split(text: &str) -> (String, Excluded) {
    // Most questions have no such word: they are not taken apart.
    static ANY: LazyLock<AnyOf> = LazyLock::new(|| BEGINNINGS.into_iter().collect());
    let mut found = Excluded::default();
    if !ANY.stands_in(text) {
        return (text.to_owned(), found);
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let (mut kept, mut phrases) = (Vec::with_capacity(words.len()), Vec::new());
    let mut at = 0;
    while let Some(word) = words.get(at) {
        if let Some((first, end)) = phrase_at(&words, at) {
            phrases.push((at, first, end));
            at = end;
        } else {
            kept.push(*word);
            at += 1;
        }
    }
    let pieces: Vec<&str> = kept
        .iter()
        .flat_map(|word| {
            let parts = word.split(['-', '/']).map(bare);
            [bare(word)].into_iter().chain(parts)
        })
        .collect();
    // A wish of its kind is enough: `EPDM not NBR`, `6206 2RS not ZZ`.
    let is_asked = |mark: &str| pieces.iter().any(|piece| kind_of(piece) == kind_of(mark));
    let mut left: Vec<&str> = Vec::with_capacity(words.len());
    let mut behind = 0;
    for (start, first, end) in phrases {
        let all = || words[first..end].iter().map(|word| bare(word));
        let marks = || all().filter(|word| is_mark(word));
        // Another mark that is not wanted is told by the reader of features.
        if !marks().all(|mark| elastomer(mark).is_some() || is_asked(mark)) {
            continue;
        }
        let elastomers = marks().filter(|mark| !is_asked(mark));
        found.elastomers.extend(elastomers.filter_map(elastomer));
        found
            .said
            .push(bare(&words[start..end].join(" ")).to_owned());
        left.extend(&words[behind..start]);
        behind = end + usize::from(is_one_of(&words, end, &BACK));
    }
    left.extend(&words[behind..]);
    (left.join(" "), found)
}

impl Excluded {
    /// Keeps it in the question.
    pub(super) fn apply(self, question: &mut Question) {
        if self.said.is_empty() {
            return;
        }
        question.needs.no_elastomers.extend(self.elastomers);
        question.notes.push(format!(
            "read as what is not wanted: `{}`",
            self.said.join("`, `")
        ));
    }
}

/// Where the marks begin and end behind words that exclude them, which begin at a place.
fn phrase_at(words: &[&str], at: usize) -> Option<(usize, usize)> {
    if count::are_pieces(words, at) {
        return None;
    }
    let is = |phrase: &&&[&str]| {
        let mut pairs = phrase.iter().enumerate();
        pairs.all(|(of, word)| is_one_of(words, at + of, &[*word]))
    };
    let first = match PHRASES.iter().find(is) {
        Some(phrase) => at + phrase.len(),
        None => at + usize::from(is_one_of(words, at, &INSTEAD)),
    };
    if first == at {
        return None;
    }
    let mut end = first;
    while words.get(end).is_some_and(|word| is_mark(bare(word))) {
        let is_rubber = elastomer(bare(words[end])).is_some();
        let ends = words[end].ends_with([',', ';', '.', ')']);
        end += 1;
        // `not NBR 70`
        let is_shore = |word: &&str| {
            let digits = bare(word);
            digits.len() == 2 && digits.bytes().all(|b| b.is_ascii_digit())
        };
        if !ends && is_rubber && words.get(end).is_some_and(is_shore) {
            end += 1;
        }
        let goes_on = is_one_of(words, end, &LINKS)
            && words.get(end + 1).is_some_and(|word| is_mark(bare(word)));
        match goes_on {
            true => end += 1,
            false => break,
        }
    }
    (end > first).then_some((first, end))
}

fn is_one_of(words: &[&str], at: usize, list: &[&str]) -> bool {
    let word = words.get(at).map(|word| bare(word));
    word.is_some_and(|word| list.contains(&word.to_lowercase().as_str()))
}

/// Of which kind a mark is; no mark is of none.
#[derive(Debug, PartialEq, Eq)]
enum Kind {
    Elastomer,
    Closure,
    Clearance,
}

fn kind_of(word: &str) -> Option<Kind> {
    let is_closure = || {
        let of = Closure::from_code(word).is_some_and(|closure| closure != Closure::Open);
        of || matches!(word.to_lowercase().as_str(), "sealed" | "shielded" | "zz")
    };
    if word.is_empty() {
        None
    } else if elastomer(word).is_some() {
        Some(Kind::Elastomer)
    } else if is_closure() {
        Some(Kind::Closure)
    } else {
        Clearance::from_code(word).map(|_| Kind::Clearance)
    }
}

fn is_mark(word: &str) -> bool {
    kind_of(word).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::Verdict;
    use crate::lookup::answer;

    #[test]
    fn what_is_not_wanted_is_taken_off() {
        for (text, left, elastomers) in [
            ("O-ring 25x3 not NBR", "O-ring 25x3", &["NBR"][..]),
            ("O-ring 25x3 no NBR", "O-ring 25x3", &["NBR"]),
            ("O-ring 25 3 no NBR", "O-ring 25 3", &["NBR"]),
            ("O-ring 25x3 kein NBR", "O-ring 25x3", &["NBR"]),
            ("O-ring 25x3 without NBR 70", "O-ring 25x3", &["NBR"]),
            ("O-ring 25x3 anything but NBR", "O-ring 25x3", &["NBR"]),
            (
                "not EPDM or NBR, O-ring 25x3",
                "O-ring 25x3",
                &["EPDM", "NBR"],
            ),
            ("O-ring 25x3 not NBR but FKM", "O-ring 25x3 FKM", &[]),
            ("O-ring 25x3 EPDM not NBR", "O-ring 25x3 EPDM", &[]),
            ("O-ring 25x3 FKM instead of NBR", "O-ring 25x3 FKM", &[]),
            ("O-ring 25x3 FKM statt NBR", "O-ring 25x3 FKM", &[]),
            ("AS568-214 FKM au lieu de NBR", "AS568-214 FKM", &[]),
            ("6206 2RS not ZZ", "6206 2RS", &[]),
            ("6206-2RS not ZZ", "6206-2RS", &[]),
        ] {
            let (read, found) = split(text);
            assert_eq!(read, left, "{text}");
            assert_eq!(found.elastomers, elastomers, "{text}");
        }
        for text in [
            "6206 without seals",
            "6206 not ZZ",
            "6206 2RS not C3",
            "6206 no. 5",
            "no 6206",
            "4 no NBR O-rings 25x3",
            "2 no. NBR O-ring 25x3",
            "need 12 No NBR O-rings 25x3",
            "nonstandard 25x52x15",
            "7206 B instead of 3206",
            "6206 2RS must not creep",
            "button 25x3 NBR",
            "O-ring 25x3 NBR",
        ] {
            assert_eq!(
                split(text),
                (text.to_owned(), Excluded::default()),
                "{text}"
            );
        }
    }

    #[test]
    fn pieces_of_an_elastomer_are_a_wish_for_it() {
        for text in ["4 no NBR O-rings 25x3", "need 2 no. NBR O-ring 25x3"] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(question.traits.material.as_deref(), Some("NBR"), "{text}");
            assert!(question.needs.no_elastomers.is_empty(), "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
        for [no, pcs] in [
            ["2 no sealed 6206 bearings", "2 pcs sealed 6206 bearings"],
            ["2 no. 2RS bearings 6206", "2 pcs 2RS bearings 6206"],
        ] {
            let read = |text: &str| Question::read(text).unwrap().traits.closure;
            assert_eq!(read(no), read(pcs), "{no}");
            assert_ne!(read(no), Some(Closure::Open), "{no}");
        }
    }

    /// ISO 1629: NBR, FKM and EPDM are three elastomers.
    #[test]
    fn an_excluded_elastomer_is_not_proposed() {
        for text in ["O-ring 25x3 not NBR", "O-ring 25x3 kein NBR"] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(question.traits.material, None, "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
            let answers = answer(&question, None).answers;
            let first = &answers[0];
            assert_eq!(first.designation, "25x3", "{text}");
            assert!(first.judgement.verdict >= Verdict::AfterChecks, "{text}");
            let checks = first.judgement.checks.join("; ");
            assert!(checks.contains("it must not be NBR"), "{text}: {checks}");
        }
        for (text, wish) in [
            ("O-ring 25x3 FKM instead of NBR", "FKM"),
            ("O-ring 25x3 EPDM not NBR", "EPDM"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(question.traits.material.as_deref(), Some(wish), "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
            let told = question.notes.join("; ");
            assert!(
                told.contains("read as what is not wanted"),
                "{text}: {told}"
            );
            assert!(!told.contains("contradict"), "{text}: {told}");
        }
    }
}
