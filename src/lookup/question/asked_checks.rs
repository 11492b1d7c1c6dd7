//! Words that ask for what a check of its own works out: the spacer and preload of a set, life, static safety. A question
//! answers none of these from nominal or calliper figures; it says what to measure, and which command works it out.

use super::figure::is_figure;
use super::{Question, need_words};
use crate::engineering::spacer_first;
use crate::part::{Family, PartClass};
use crate::standard;

/// Words that speak of the preload of a set.
const PRELOAD: [&str; 15] = [
    "spacer",
    "spacers",
    "preload",
    "preloaded",
    "preloading",
    "distanzring",
    "distanzringe",
    "distanzringen",
    "distanzhülse",
    "vorspannung",
    "vorspannen",
    "entretoise",
    "entretoises",
    "précharge",
    "precharge",
];

/// Words that go on from them, beside figures.
const GOES_ON: [&str; 46] = [
    "from",
    "width",
    "widths",
    "inner",
    "outer",
    "ring",
    "rings",
    "how",
    "much",
    "many",
    "grind",
    "grinding",
    "ground",
    "to",
    "of",
    "the",
    "for",
    "and",
    "by",
    "amount",
    "measure",
    "measured",
    "offset",
    "offsets",
    "face",
    "faces",
    "length",
    "lengths",
    "set",
    "adjust",
    "mm",
    "µm",
    "μm",
    "um",
    "aus",
    "breite",
    "breiten",
    "innen",
    "außen",
    "aussen",
    "und",
    "für",
    "schleifen",
    "schleifmaß",
    "messen",
    "pour",
];

/// Units of what the place asks: a figure in front of one is of no spacer.
const OF_PLACE: [&str; 9] = ["c", "°c", "°", "f", "°f", "rpm", "bar", "kn", "n"];

/// What is said of the spacers of a set.
const NO_AMOUNT: &str = "a spacer of a preloaded pair sets the preload: no amount to grind follows from nominal or calliper widths";

/// Words that ask for a life or a static safety, which no figure here is held against.
const LIFE: [&str; 12] = [
    "life",
    "lifetime",
    "l10",
    "l10h",
    "lebensdauer",
    "load",
    "loads",
    "static",
    "safety",
    "statisch",
    "statische",
    "tragsicherheit",
];

/// Where life and static safety are worked out.
const WORKED_OUT_BY: &str = "life and static safety hang on the load and on the ratings C and C0 of the data sheet: `sparewright check life` and `sparewright check static` work them out";

fn bare(word: &str) -> String {
    let is_mark = |c: char| matches!(c, ',' | ';' | '?' | '!' | '(' | ')' | ':');
    word.trim_matches(is_mark).to_lowercase()
}

fn is_of(words: &[&str], at: usize, list: &[&str]) -> bool {
    let word = words.get(at).map(|word| bare(word));
    word.is_some_and(|word| list.contains(&word.as_str()))
}

/// True for a word or figure that is still of the spacers.
fn goes_on(words: &[&str], at: usize) -> bool {
    let word = words[at].trim_end_matches([',', ';']);
    let is_number = word.len() >= 4 && standard::is_designation(word);
    let is_length = is_figure(word) && !is_number && !is_of(words, at + 1, &OF_PLACE);
    is_length || is_of(words, at, &GOES_ON) || is_of(words, at, &PRELOAD)
}

/// True for a word in lower case that asks for a check, in a text that would else be read as a suffix.
pub(super) fn is_word(lower: &str) -> bool {
    PRELOAD.contains(&lower) || LIFE.contains(&lower)
}

/// The text without what it says of spacers and preload, and that; `None` where it says nothing of either.
fn without_preload(text: &str) -> Option<(String, String)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let start = (0..words.len()).find(|at| is_of(&words, *at, &PRELOAD))?;
    let mut end = start + 1;
    while end < words.len() && goes_on(&words, end) {
        end += 1;
    }
    let rest = [&words[..start], &words[end..]].concat().join(" ");
    Some((rest, words[start..end].join(" ")))
}

/// A question for a set of bearings that asks for its spacers or its preload; `None` for any other.
pub(super) fn of_preload(text: &str) -> Option<Question> {
    let (rest, said) = without_preload(text)?;
    let mut question = Question::read_whole(&rest).ok()?;
    question.designation.as_ref()?;
    let is_set = question.traits.arrangement.is_some();
    let is_preloaded = match question.family? {
        family if need_words::is_set(family) => true,
        family => is_set && family.is_radial_bearing(),
    };
    if !is_preloaded {
        return None;
    }
    let notes = &mut question.notes;
    notes.push(format!(
        "`{said}` is of the preload: `sparewright check spacer` works the spacers out from offsets measured under load"
    ));
    notes.push(NO_AMOUNT.to_owned());
    notes.extend(spacer_first().iter().map(|step| (*step).to_owned()));
    Some(question)
}

/// Says where life and static safety are worked out, where a load or one of them was named beside a bearing.
pub(super) fn note_life(question: &mut Question) {
    let is_bearing = |family: Family| family.class() == PartClass::Bearings;
    if !question.family.is_some_and(is_bearing) {
        return;
    }
    let (asked, left): (Vec<String>, Vec<String>) = std::mem::take(&mut question.not_understood)
        .into_iter()
        .partition(|word| LIFE.contains(&bare(word).as_str()));
    question.not_understood = left;
    if !asked.is_empty() {
        question.notes.push(format!(
            "a load, power or life is no size and is not looked at here: {}",
            asked.join(", ")
        ));
        question.not_looked_at.extend(asked);
    }
    if !question.not_looked_at.is_empty() {
        question.notes.push(WORKED_OUT_BY.to_owned());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::Verdict;
    use crate::lookup::answer;

    fn read(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    /// Preload goes by offsets under load, never by widths (common practice, no source).
    #[test]
    fn spacers_of_a_set_say_what_to_measure_and_no_amount() {
        for text in [
            "7208 C DB spacer from widths inner 18.01 outer 17.99",
            "7208 C DB spacer 18.01 and 17.99, how much to grind?",
            "7208 C DB preload",
            "preload spacer for 7208 C DB",
            "7208 C DB Vorspannung",
            "7208 C DB Distanzringe aus Breiten innen 18,01 außen 17,99",
        ] {
            let question = read(text);
            assert_eq!(question.not_understood, [""; 0], "{text}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
            let told = question.notes.join("; ");
            for words in [
                "no amount to grind",
                "`sparewright check spacer`",
                "comparator",
            ] {
                assert!(told.contains(words), "{text}: {told}");
            }
            assert!(!told.contains("contradict"), "{text}: {told}");
            let answers = answer(&question, None);
            assert_eq!(answers.answers[0].designation, "7208 C DB", "{text}");
            assert!(answers.answers[0].probability > 0.9, "{text}");
            assert!(
                answers.answers[0].judgement.verdict > Verdict::AsItIs,
                "{text}"
            );
        }
    }

    #[test]
    fn what_the_place_asks_is_kept_beside_the_spacers() {
        let question = read("7208 C DB spacer 18.01 120 C");
        assert_eq!(question.needs.highest_c, Some(120.0), "{question:?}");
        // Of a bearing that is preloaded in no set nothing is said.
        let single = read("6208 spacer");
        assert_eq!(single.not_understood, ["spacer"]);
        // A spacer itself has no number.
        let spacer = read("spacer 40x50x5");
        assert!(spacer.without_table.is_some_and(|kind| kind.is_spacer()));
    }

    #[test]
    fn a_load_or_a_life_leads_to_its_check() {
        for (text, said) in [
            ("6208 3 kN", "3 kN"),
            ("6208 life", "life"),
            ("6208 static safety", "static, safety"),
            ("22212 Lebensdauer", "Lebensdauer"),
        ] {
            let question = read(text);
            assert_eq!(question.not_looked_at.join(", "), said, "{text}");
            assert_eq!(question.not_understood, [""; 0], "{text}");
            let told = question.notes.join("; ");
            assert!(told.contains("`sparewright check life`"), "{text}: {told}");
            let answers = answer(&question, None);
            assert!(
                answers.answers[0].judgement.verdict > Verdict::AsItIs,
                "{text}"
            );
        }
        let none = read("o-ring 40x3 NBR static");
        assert!(none.notes.iter().all(|note| note != WORKED_OUT_BY));
    }
}
