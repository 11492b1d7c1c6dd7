//! Features of a bearing that are named in words: closed on one side, a snap ring, a tapered bore, back to back, a class;
//! and what it must not have.
//!
//! They are taken out of the text before a number and figures are looked for, since their words mean something else of other
//! parts: `tapered` names rollers, `snap ring` a ring for a shaft, `seal` a seal.

use std::sync::LazyLock;

use super::figure::is_figure;
use super::plain::plain;
use super::{Question, contrary, count, kind, short_words, without_table};
use crate::import::family_in;
use crate::part::designation::trade_words::{self, Said};
use crate::part::designation::{Designation, closure_lists, closure_words};
use crate::part::{
    BoreForm, Clearance, ClosedBy, Closure, Family, PartClass, ToleranceClass, WordSet,
};

/// What words say of a bearing.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Feature {
    /// No shield and no seal.
    Open,
    Closed(Closed),
    /// One side is open, and nobody said what closes the other.
    OneSideOpen,
    /// Closed by what no mark says: a felt or labyrinth seal, covers of nobody knows what.
    OtherwiseClosed,
    Said(Said),
    Class(ToleranceClass),
    FilletMm(f64),
    /// Something that must not be, which no trait can say.
    Unsaid,
}

/// How a bearing is closed.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Closed {
    by: ClosedBy,
    /// Both sides or one; `None` where nobody said.
    is_both: Option<bool>,
    is_touch_told: bool,
    is_by_material: bool,
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

const NOT: [&str; 13] = [
    "not", "no", "without", "w/o", "ohne", "kein", "keine", "nicht", "sans", "non", "sin", "sem",
    "senza",
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
    split_for(text, false)
}

/// The same of words beside the number of a part of the shop, whose family is known.
pub(super) fn split_beside(text: &str, family: Option<Family>) -> (String, Features) {
    split_for(text, family.is_some_and(is_bearing))
}

fn split_for(text: &str, is_of_bearing: bool) -> (String, Features) {
    let written: Vec<&str> = text
        .split_whitespace()
        .flat_map(closure_words::apart)
        .collect();
    let lower: Vec<String> = written
        .iter()
        .map(|word| plain(word).into_owned())
        .collect();
    if !(0..lower.len()).any(|at| may_name(&lower, at)) {
        return (text.to_owned(), Features::default());
    }
    let is_named = is_of_bearing || has_bearing_number(&written);
    // A number says which part it is: only without one the words for families are looked for.
    let family = (!is_named).then(|| family_of(text)).flatten();
    let is_named = is_named || family.is_some_and(is_bearing);
    if !is_named && (family.is_some() || !may_be_bearing(text)) {
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
    words.take_closures(is_named);
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

/// Words that may name a feature by themselves.
static NAMES: LazyLock<WordSet> = LazyLock::new(|| {
    let words = NOT.into_iter().chain(FILLETS).chain(closure_lists::names());
    words.collect()
});

/// True where a word among others in lower case may name a feature, or begin its name.
fn may_name(lower: &[String], at: usize) -> bool {
    let word = lower[at].as_str();
    NAMES.has(word)
        || trade_words::at(lower, at).is_some_and(|(_, said)| is_feature(said))
        || trade_words::is_class_word(word)
        || closure_lists::begins(&closure_lists::OTHER_IN_ONE, word)
}

/// True where a bearing's number stands among the words.
fn has_bearing_number(written: &[&str]) -> bool {
    let is_number = |name: &str| {
        Designation::parse(name).is_some_and(|read| {
            read.family
                .is_some_and(|family| family.class() == PartClass::Bearings)
        })
    };
    // `seal 100 x 120 x 12`: three digits beside other figures are a length.
    let digits = |word: &str| word.bytes().filter(u8::is_ascii_digit).count();
    let lengths = written
        .iter()
        .filter(|word| is_figure(word) && digits(word) >= 2);
    let has_lengths = lengths.count() > 1;
    written.iter().enumerate().any(|(at, word)| {
        let is_letters = word.len() <= 3 && word.chars().all(|c| c.is_ascii_alphabetic());
        let least = if has_lengths && is_figure(word) { 4 } else { 3 };
        digits(word) >= least && is_number(word)
            || is_letters
                && written
                    .get(at + 1)
                    .is_some_and(|next| is_number(&format!("{word}{next}")))
    })
}

/// True where a text that names no family names no other part either that is no bearing.
fn may_be_bearing(text: &str) -> bool {
    without_table::asked_for(text).is_none() && kind::families_in(text).into_iter().all(is_bearing)
}

fn family_of(text: &str) -> Option<Family> {
    family_in(text).or_else(|| short_words::family_in_short(text))
}

fn is_bearing(family: Family) -> bool {
    family.class() == PartClass::Bearings
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
            if !NOT.contains(&self.word(at)) || count::are_pieces(&self.written, at) {
                continue;
            }
            let next = self.word(at + 1);
            let is_mark_of_closure =
                Closure::from_code(next).is_some_and(|closure| closure != Closure::Open);
            let closure_end = closure_words::end_of_name(&self.lower, at + 1)
                .or_else(|| is_mark_of_closure.then_some(at + 2));
            let is_mark = next.len() >= 2
                && (Clearance::from_code(next).is_some()
                    || ToleranceClass::from_code(next).is_some()
                    || matches!(next, "insulated" | "hybrid" | "open" | "ceramic"))
                || next != "back" && trade_words::may_begin(next, is_feature);
            if let Some(end) = closure_end {
                self.take(at..end, Feature::Open);
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

    /// A closure with the words around it that tell how many there are, and of which kind; then what a material alone tells.
    fn take_closures(&mut self, is_bearing: bool) {
        for at in 0..self.lower.len() {
            let open = closure_words::open_at(&self.lower, at).filter(|_| self.is_open(at));
            if let Some(open) = open {
                let feature = if open.is_one_side {
                    Feature::OneSideOpen
                } else {
                    Feature::Open
                };
                self.take(open.range, feature);
            }
            if self.is_open(at) && is_bearing && closure_words::is_wanted_itself(&self.lower, at) {
                self.take(at..at + 1, Feature::Unsaid);
            }
            let other = closure_words::other_seal(&self.lower, at);
            if let Some(range) = other.filter(|_| self.is_open(at) && is_bearing) {
                self.take(range, Feature::OtherwiseClosed);
            }
            let said = closure_words::named_at(&self.lower, &self.is_taken, at, is_bearing);
            self.take_closure(said);
            let covers = closure_words::covers_at(&self.lower, &self.is_taken, at);
            if let Some(range) = covers.filter(|_| is_bearing) {
                self.take(range, Feature::OtherwiseClosed);
            }
        }
        for at in 0..self.lower.len() {
            let said = closure_words::material_at(&self.lower, &self.is_taken, at);
            self.take_closure(said.filter(|_| is_bearing));
            // Rubber of something else would be passed over: it says nothing to the search for other parts.
            if is_bearing && self.is_open(at) && closure_words::says_rubber(self.word(at)) {
                self.take(at..at + 1, Feature::Unsaid);
            }
        }
    }

    fn take_closure(&mut self, said: Option<closure_words::Said>) {
        if let Some(said) = said {
            let closed = Closed {
                by: said.by,
                is_both: said.is_both,
                is_touch_told: said.is_touch_told,
                is_by_material: said.is_by_material,
            };
            self.take(said.range, Feature::Closed(closed));
        }
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
        let is_said = |feature: &Feature| {
            !is_slim || *feature != Feature::Said(Said::Bore(BoreForm::Taper12))
        };
        let said = self.0.into_iter().filter(|(_, feature)| is_said(feature));
        let mut said: Vec<(String, Feature)> = said.collect();
        // What closes the other side may stand behind the one that is open.
        said.sort_by_key(|(_, feature)| *feature == Feature::OneSideOpen);
        for (words, feature) in said {
            // Words that name a part say themselves of which families.
            let may_be = is_bearing || matches!(feature, Feature::Said(_));
            if may_be && set(question, feature, &words) {
                continue;
            }
            let known = question.traits.closure;
            match known.filter(|known| *known != Closure::Open) {
                Some(known) if matches!(feature, Feature::Open | Feature::Closed(_)) => {
                    contrary::tell(question, known, &words);
                }
                _ => question.not_understood.push(words),
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
fn set(question: &mut Question, feature: Feature, words: &str) -> bool {
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
        Feature::Open => put(&mut traits.closure, Closure::Open, Closure::Open),
        Feature::Closed(closed) => close(question, closed, words),
        Feature::OneSideOpen => {
            if traits.closure == Some(Closure::Open) {
                traits.closure = None;
            }
            // `6206-Z one side open` says nothing new.
            traits
                .closure
                .is_some_and(|closure| !closure.code().starts_with('2'))
        }
        Feature::OtherwiseClosed => {
            if traits.closure == Some(Closure::Open) {
                traits.closure = None;
            }
            question.notes.push(format!(
                "`{words}` is no mark of a bearing: see whether it sits in the bearing or beside it, and for the bearing name what closes it (Z and 2Z of sheet metal, RS and 2RS of rubber)"
            ));
            false
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

/// Closes the bearing as words say it; false where it is closed otherwise. What closes it, and on nobody knows how many sides,
/// is a need that nothing closed is equal to.
fn close(question: &mut Question, closed: Closed, words: &str) -> bool {
    if question
        .family
        .is_some_and(|family| !closure_words::may_close(family))
    {
        return false;
    }
    let traits = &mut question.traits;
    let known = traits.closure.filter(|known| *known != Closure::Open);
    let wanted = closed.is_both.map(|is_both| closed.by.on(is_both));
    let is_right = match (known, wanted) {
        (Some(known), Some(wanted)) => known == wanted,
        // `6206-2RS with seal` says nothing new.
        (Some(known), None) => {
            let is_seal = known.closed_by() != Some(ClosedBy::Shield);
            known.closed_by() == Some(closed.by)
                || is_seal && closed.by == ClosedBy::ContactSeal && !closed.is_touch_told
        }
        (None, _) => {
            traits.closure = wanted;
            true
        }
    };
    if !is_right {
        return false;
    }
    if closed.is_by_material {
        let read = closed.by.words();
        question.notes.push(format!(
            "`{words}` read as {read}: of sheet metal it is a shield, of rubber a seal"
        ));
    }
    if known.is_none() && wanted.is_none() {
        question.needs.closed_by = Some(closed.by);
        question.notes.push(format!(
            "`{words}` is {}, and nobody said whether on one side or on both: look at both faces of the old bearing",
            closed.by.words()
        ));
    }
    true
}

#[cfg(test)]
mod tests;
