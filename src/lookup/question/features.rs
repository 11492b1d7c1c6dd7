//! Features of a bearing that are named in words: closed on one side, a snap ring, a tapered bore, back to back, a class;
//! and what it must not have.
//!
//! They are taken out of the text before a number and figures are looked for, since their words mean something else of other
//! parts: `tapered` names rollers, `snap ring` a ring for a shaft, `seal` a seal.

use super::figure::is_figure;
use super::{Question, kind, vocabulary};
use crate::import::family_in;
use crate::part::designation::Designation;
use crate::part::designation::trade_words::{self, Said};
use crate::part::{BoreForm, Clearance, Closure, Family, PartClass, ToleranceClass};

/// What words say of a bearing.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Feature {
    Closure(Closure),
    /// Closed, but nobody said on which side.
    ClosedSomewhere,
    Said(Said),
    Class(ToleranceClass),
    FilletMm(f64),
    /// Something that must not be, which no trait can say.
    Unsaid,
}

/// Features with the words that named them.
#[derive(Debug, Default)]
pub(super) struct Features(Vec<(String, Feature)>);

/// True for what features say in the words that also name a part; other words of those are needs or halves.
fn is_feature(said: Said) -> bool {
    matches!(
        said,
        Said::Bore(_)
            | Said::Groove
            | Said::SnapRing
            | Said::Arrangement(_)
            | Said::Variant("stainless")
    )
}

/// How a closure is called.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Noun {
    word: &'static str,
    is_seal: bool,
    /// One of them, which leaves open whether there is a second.
    is_one: bool,
    /// `sealed` tells how the bearing is, `seals` what it has.
    is_state: bool,
}

const fn noun(word: &'static str, is_seal: bool, is_one: bool, is_state: bool) -> Noun {
    Noun {
        word,
        is_seal,
        is_one,
        is_state,
    }
}

const NOUNS: [Noun; 19] = [
    noun("sealed", true, false, true),
    noun("abgedichtet", true, false, true),
    noun("abgedichtetes", true, false, true),
    noun("gedichtet", true, false, true),
    noun("étanche", true, false, true),
    noun("seals", true, false, false),
    noun("seal", true, true, false),
    noun("dichtscheiben", true, false, false),
    noun("dichtscheibe", true, true, false),
    noun("dichtungen", true, false, false),
    noun("dichtung", true, true, false),
    noun("shielded", false, false, true),
    noun("gedeckelt", false, false, true),
    noun("shields", false, false, false),
    noun("shield", false, true, false),
    noun("deckscheiben", false, false, false),
    noun("deckscheibe", false, true, false),
    noun("flasques", false, false, false),
    noun("flasque", false, true, false),
];
const ONE: [&str; 12] = [
    "one",
    "single",
    "1",
    "einer",
    "eine",
    "einseitig",
    "un",
    "une",
    "only",
    "1x",
    "half",
    "einem",
];
const TWO: [&str; 13] = [
    "both",
    "two",
    "2",
    "double",
    "each",
    "either",
    "beidseitig",
    "beiden",
    "beide",
    "zwei",
    "deux",
    "twin",
    "2x",
];
/// Of these words one stands by itself, beside a state too: `double sealed`, `einseitig abgedichtet`.
const WHOLE_COUNTS: [&str; 5] = ["single", "double", "einseitig", "beidseitig", "half"];
const SIDES: [&str; 8] = [
    "side", "sides", "end", "ends", "seite", "seiten", "côté", "côtés",
];
/// Words between a closure and how many there are.
const LINKS: [&str; 17] = [
    "on", "at", "the", "to", "a", "an", "auf", "der", "with", "mit", "rubber", "metal", "steel",
    "contact", "only", "des", "gummi",
];
/// Words for a seal that does not touch.
const NO_CONTACT: [&str; 6] = [
    "non-contact",
    "noncontact",
    "contactless",
    "low-friction",
    "berührungsfrei",
    "berührungslos",
];
/// In front of these a seal is one for a shaft.
const OTHER_SEALS: [&str; 5] = ["oil", "lip", "shaft", "rotary", "radial"];
const NOT: [&str; 10] = [
    "not", "no", "without", "w/o", "ohne", "kein", "keine", "nicht", "sans", "non",
];

/// The words of a text while features are taken out of it.
struct Words<'a> {
    written: Vec<&'a str>,
    lower: Vec<String>,
    is_taken: Vec<bool>,
    features: Features,
}

/// Takes the features out of a text for a bearing; gives what is left and them.
pub(super) fn split(text: &str) -> (String, Features) {
    let written: Vec<&str> = text.split_whitespace().collect();
    let lower: Vec<String> = written
        .iter()
        .map(|word| word.trim_matches([',', ';', '.', '(', ')']).to_lowercase())
        .collect();
    let may_name = |word: &String| {
        let word = word.as_str();
        trade_words::may_begin(word, is_feature)
            || NOUNS.iter().any(|noun| noun.word == word)
            || NOT.contains(&word)
            || trade_words::is_class_word(word)
            || FILLETS.contains(&word)
    };
    if !lower.iter().any(may_name) || !is_of_bearing(text, &written) {
        return (text.to_owned(), Features::default());
    }
    let mut words = Words {
        is_taken: vec![false; written.len()],
        written,
        lower,
        features: Features::default(),
    };
    words.take_negations();
    words.take_names();
    words.take_closures();
    words.take_classes();
    words.take_fillets();
    let left = words
        .written
        .iter()
        .zip(&words.is_taken)
        .filter(|(_, is_taken)| !**is_taken);
    let left: Vec<&str> = left.map(|(word, _)| *word).collect();
    (left.join(" "), words.features)
}

/// True where the text is for a bearing: by a number in it, by the name of a type, or where it names no kind of part.
fn is_of_bearing(text: &str, written: &[&str]) -> bool {
    let is_number = |name: &str| {
        Designation::parse(name).is_some_and(|read| {
            read.family
                .is_some_and(|family| family.class() == PartClass::Bearings)
        })
    };
    let has_number = written.iter().enumerate().any(|(at, word)| {
        let digits = word.bytes().filter(u8::is_ascii_digit).count();
        let is_letters = word.len() <= 3 && word.chars().all(|c| c.is_ascii_alphabetic());
        digits >= 3 && is_number(word)
            || is_letters
                && written
                    .get(at + 1)
                    .is_some_and(|next| is_number(&format!("{word}{next}")))
    });
    if has_number {
        return true;
    }
    let is_class = |family: Family| family.class() == PartClass::Bearings;
    match family_in(text).or_else(|| vocabulary::short_family(text)) {
        Some(family) => is_class(family),
        None => kind::families_in(text).into_iter().all(is_class),
    }
}

const FILLETS: [&str; 6] = [
    "fillet",
    "radius",
    "hohlkehle",
    "hohlkehlradius",
    "congé",
    "fillets",
];

impl Words<'_> {
    fn word(&self, at: usize) -> &str {
        self.lower.get(at).map_or("", String::as_str)
    }

    fn is_open(&self, at: usize) -> bool {
        self.is_taken.get(at).is_some_and(|taken| !taken)
    }

    /// Takes the words of a range that are not taken yet.
    fn take(&mut self, range: std::ops::Range<usize>, feature: Feature) {
        let words: Vec<&str> = range
            .clone()
            .filter(|at| self.is_open(*at))
            .map(|at| self.written[at].trim_end_matches([',', ';']))
            .collect();
        self.features.0.push((words.join(" "), feature));
        self.is_taken[range].fill(true);
    }

    /// `not C3`, `without seals`: what has no closure is open, anything else is told as not understood.
    fn take_negations(&mut self) {
        for at in 0..self.lower.len() {
            if !NOT.contains(&self.word(at)) {
                continue;
            }
            let next = self.word(at + 1);
            let is_closure = NOUNS.iter().any(|noun| noun.word == next)
                || Closure::from_code(next).is_some_and(|closure| closure != Closure::Open);
            let is_mark = next.len() >= 2
                && (Clearance::from_code(next).is_some()
                    || ToleranceClass::from_code(next).is_some()
                    || matches!(next, "insulated" | "hybrid" | "open" | "ceramic"))
                || next != "back" && trade_words::may_begin(next, is_feature);
            if is_closure {
                self.take(at..at + 2, Feature::Closure(Closure::Open));
            } else if is_mark {
                let count = self.name_at(at + 1).map_or(1, |(count, _)| count);
                self.take(at..at + 1 + count, Feature::Unsaid);
            }
        }
    }

    /// The words for a feature at a place, none of which is taken: how many, and what they say.
    fn name_at(&self, at: usize) -> Option<(usize, Said)> {
        let named = trade_words::at(&self.lower, at).filter(|(_, said)| is_feature(*said));
        named.filter(|(count, _)| (at..at + count).all(|at| self.is_open(at)))
    }

    fn take_names(&mut self) {
        for at in 0..self.lower.len() {
            if let Some((count, said)) = self.name_at(at) {
                self.take(at..at + count, Feature::Said(said));
            }
        }
    }

    fn take_closures(&mut self) {
        for at in 0..self.lower.len() {
            let noun = NOUNS.iter().find(|noun| noun.word == self.word(at));
            let Some(noun) = noun.filter(|_| self.is_open(at)) else {
                continue;
            };
            let before = at.checked_sub(1).map_or("", |before| self.word(before));
            if !noun.is_state && OTHER_SEALS.contains(&before) {
                continue;
            }
            self.take_closure(*noun, at);
        }
    }

    /// A closure with the words around it that tell how many there are, and of which kind.
    fn take_closure(&mut self, noun: Noun, at: usize) {
        let mut is_two = (!noun.is_one).then_some(true);
        let mut has_count = false;
        let mut start = at;
        let mut is_touching = true;
        let mut has_side = false;
        // Backward: `one rubber seal`, `both sides sealed`, `2 shields`.
        for step in (at.saturating_sub(4)..at).rev() {
            let word = self.word(step).to_owned();
            let counts = !noun.is_state || has_side || WHOLE_COUNTS.contains(&word.as_str());
            if !self.is_open(step) {
                break;
            } else if NO_CONTACT.contains(&word.as_str()) {
                (is_touching, start) = (false, step);
            } else if counts && (ONE.contains(&word.as_str()) || TWO.contains(&word.as_str())) {
                (is_two, start, has_count) = (Some(TWO.contains(&word.as_str())), step, true);
                break;
            } else if SIDES.contains(&word.as_str()) {
                has_side = true;
            } else if !LINKS.contains(&word.as_str()) {
                break;
            } else if word == "rubber" || word == "metal" {
                start = step;
            }
        }
        // Forward: `sealed on one side only`, `seal at both ends`.
        let mut end = at + 1;
        let mut count = None;
        for step in at + 1..(at + 7).min(self.lower.len()) {
            let word = self.word(step).to_owned();
            if has_count || !self.is_open(step) {
                break;
            } else if SIDES.contains(&word.as_str()) && count.is_some() {
                (is_two, end, has_count) = (count, step + 1, true);
            } else if matches!(word.as_str(), "einseitig" | "beidseitig") {
                (is_two, end, has_count) = (Some(word == "beidseitig"), step + 1, true);
            } else if TWO.contains(&word.as_str()) {
                count = Some(true);
            } else if ONE.contains(&word.as_str()) && word != "only" {
                count = Some(false);
            } else if !LINKS.contains(&word.as_str()) {
                break;
            }
        }
        while has_count && matches!(self.word(end), "only" | "nur" | "seulement") {
            end += 1;
        }
        let feature = match (noun.is_seal, is_touching, is_two) {
            (_, _, None) => Feature::ClosedSomewhere,
            (false, _, Some(false)) => Feature::Closure(Closure::ShieldOneSide),
            (false, _, Some(true)) => Feature::Closure(Closure::ShieldBothSides),
            (true, true, Some(false)) => Feature::Closure(Closure::SealOneSide),
            (true, true, Some(true)) => Feature::Closure(Closure::SealBothSides),
            (true, false, Some(false)) => Feature::Closure(Closure::LowFrictionSealOneSide),
            (true, false, Some(true)) => Feature::Closure(Closure::LowFrictionSealBothSides),
        };
        self.take(start..end, feature);
    }

    /// `ABEC 5`, `ABEC-7`, `class 6`.
    fn take_classes(&mut self) {
        for at in 0..self.lower.len() {
            let class = trade_words::class_at(&self.lower, at);
            if let Some((count, class)) = class.filter(|_| self.is_open(at)) {
                self.take(at..at + count, Feature::Class(class));
            }
        }
    }

    /// `fillet radius 1 mm`, `1.5 mm fillet`, `Hohlkehle R1`.
    fn take_fillets(&mut self) {
        let mm = |word: &str| -> Option<f64> {
            let figure = word.trim_start_matches(['r', '=']).trim_end_matches("mm");
            (is_figure(figure) && !figure.contains(['x', '/']))
                .then(|| figure.replace(',', ".").parse().ok())?
        };
        let mut at = 0;
        while at < self.lower.len() {
            let first = at;
            at += 1;
            if !self.is_open(first) || !FILLETS.contains(&self.word(first)) {
                continue;
            }
            let mut end = first + 1;
            while FILLETS.contains(&self.word(end)) || matches!(self.word(end), "r" | "of" | "=") {
                end += 1;
            }
            if let Some(value) = mm(self.word(end)) {
                end += 1;
                end += usize::from(self.word(end) == "mm");
                self.take(first..end, Feature::FilletMm(value));
            } else {
                let unit = usize::from(first > 0 && self.word(first - 1) == "mm");
                let figure = first.checked_sub(1 + unit);
                if let Some((figure, value)) = figure.and_then(|at| Some((at, mm(self.word(at))?)))
                {
                    self.take(figure..end, Feature::FilletMm(value));
                }
            }
            at = end.max(at);
        }
    }
}

impl Features {
    /// Writes the features into the question; what contradicts its number, or is of no bearing, is not understood.
    pub(super) fn apply(self, question: &mut Question) {
        let is_bearing = question
            .family
            .is_none_or(|family| family.class() == PartClass::Bearings);
        // `tapered bore 1:30` names the slimmer taper.
        let is_slim = self
            .0
            .iter()
            .any(|(_, feature)| *feature == Feature::Said(Said::Bore(BoreForm::Taper30)));
        let said = self.0.into_iter().filter(|(_, feature)| {
            !is_slim || *feature != Feature::Said(Said::Bore(BoreForm::Taper12))
        });
        for (words, feature) in said {
            // Words that name a part say themselves of which families.
            let may_be = is_bearing || matches!(feature, Feature::Said(_));
            if !may_be || !set(question, feature) {
                question.not_understood.push(words);
            }
        }
        close_number(question);
    }
}

/// `R8 sealed` is R8-2RS, which is wider than the open R8: where the size hangs on the closure, the number gets its mark.
fn close_number(question: &mut Question) {
    let asked = question.traits.closure;
    let Some(closure) = asked.filter(|closure| *closure != Closure::Open) else {
        return;
    };
    let closed = question
        .designation
        .as_ref()
        .filter(|read| matches!(read.traits.closure, None | Some(Closure::Open)))
        .and_then(|read| {
            let closed = Designation::parse(&format!("{}-{}", read.basic, closure.code()))?;
            let row = crate::standard::resolve(&closed)?;
            let is_other = crate::standard::resolve(read).is_some_and(|open| open.size != row.size);
            is_other.then_some(closed)
        });
    if closed.is_some() {
        question.designation = closed;
    }
}

/// Sets a trait; false where the question says another, or no trait can say it.
fn set(question: &mut Question, feature: Feature) -> bool {
    /// Sets a value where none or the unmarked one is there.
    fn put<T: PartialEq + Copy>(slot: &mut Option<T>, value: T, unmarked: T) -> bool {
        let is_free = slot.is_none_or(|known| known == unmarked || known == value);
        if is_free {
            *slot = Some(value);
        }
        is_free
    }
    let traits = &mut question.traits;
    match feature {
        Feature::Closure(closure) => put(&mut traits.closure, closure, Closure::Open),
        Feature::ClosedSomewhere => {
            if traits.closure == Some(Closure::Open) {
                traits.closure = None;
            }
            // `6206-2RS with seal` says nothing new.
            traits.closure.is_some()
        }
        Feature::Class(class) => put(&mut traits.tolerance_class, class, ToleranceClass::Normal),
        Feature::Said(said) => said.set(traits, question.family),
        Feature::FilletMm(mm) => {
            question.needs.fillet_mm = Some(mm);
            true
        }
        Feature::Unsaid => false,
    }
}

#[cfg(test)]
mod tests;
