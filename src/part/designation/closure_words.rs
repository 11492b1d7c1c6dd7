//! Words for how a bearing is closed: `shielded`, `metal shields both sides`, `beidseitig Gummidichtung`, `deux flasques`.
//!
//! What closes it, and on how many sides. Marks are those of DIN 623-1; that a disc of sheet metal is a shield and one of
//! rubber a contact seal is common practice, no source.

use std::ops::Range;

use super::closure_lists::{
    CONTACT, FOR, Kind, LINKS, Material, NO, NO_CONTACT, NON, Number, ONE, ONE_SIDED, OPEN,
    OTHER_IN_ONE, OTHER_KINDS, OTHER_PARTS, OTHER_SEALS, OTHER_SIDE, OTHERS, RUBBER, SIDES, TWO,
    TWO_SIDED, WHOLE_COUNTS, begins, has, material, noun,
};
use crate::part::{ClosedBy, Family, Which};

/// Most words between `open` and how many sides are: `ouvert des deux côtés`.
const MOST_LINKS: usize = 3;
/// How far words of a closure stand from it.
const REACH: usize = 6;

/// What words say of a closure, and which words they are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Said {
    pub(crate) range: Range<usize>,
    pub(crate) by: ClosedBy,
    /// Both sides or one; `None` where nobody said.
    pub(crate) is_both: Option<bool>,
    /// True where the words say that it touches, or does not.
    pub(crate) is_touch_told: bool,
    /// True where its material makes it another closure than its name: `metal seals`.
    pub(crate) is_by_material: bool,
}

/// True for the types of bearings of which some come with shields or seals.
pub(crate) const fn may_close(family: Family) -> bool {
    !matches!(family.facts().marks.closures, Which::None)
}

/// `metal-shielded`, `double-sealed`: a closure and what is said of it, as words of their own.
pub(crate) fn apart(word: &str) -> Vec<&str> {
    let pieces = word.split_once('-').filter(|(of, name)| {
        let (of, name) = (of.to_lowercase(), name.to_lowercase());
        let says = material(&of).is_some() || has(ONE, &of) || has(TWO, &of);
        says && noun(name.trim_end_matches([',', ';']), true).is_some()
    });
    pieces.map_or_else(|| vec![word], |(of, name)| vec![of, name])
}

/// The end of the name of a closure that begins behind a negation, with at most its material or `contact` in front; what is
/// `non contact` is none.
pub(crate) fn end_of_name(lower: &[String], at: usize) -> Option<usize> {
    const MOST_BEFORE: usize = 2;
    let word = |at: usize| lower.get(at).map_or("", String::as_str);
    let is_non = at > 0 && has(NON, word(at - 1));
    let is_before = |word: &str| material(word).is_some() || !is_non && begins(&CONTACT, word);
    let name = (at..=at + MOST_BEFORE).find(|place| !is_before(word(*place)))?;
    noun(word(name), true).map(|_| name + 1)
}

/// What the words around a place say of a closure that is named there; `is_bearing` where the text surely is for one.
pub(crate) fn named_at(
    lower: &[String],
    is_taken: &[bool],
    at: usize,
    is_bearing: bool,
) -> Option<Said> {
    let around = Around { lower, is_taken };
    let (kind, number) = noun(around.word(at), is_bearing).filter(|_| around.is_open(at))?;
    let before = at.checked_sub(1).map_or("", |before| around.word(before));
    let is_part = number != Number::State;
    let is_other = has(OTHER_SEALS, before) || has(OTHER_PARTS, around.word(at + 1));
    if is_part && is_other {
        return None;
    }
    around.read(at, kind, number, None)
}

/// A seal of another kind, by its name: it is no shield and no contact seal.
pub(crate) fn other_seal(lower: &[String], at: usize) -> Option<Range<usize>> {
    let word = |at: usize| lower.get(at).map_or("", String::as_str);
    let is_seal = |word: &str| {
        matches!(noun(word, true), Some((Kind::Seal, _))) || matches!(word, "ring" | "rings")
    };
    if begins(&OTHER_IN_ONE, word(at)) {
        return Some(at..at + 1);
    }
    if has(OTHER_KINDS, word(at)) && is_seal(word(at + 1)) {
        return Some(at..at + 2);
    }
    // `joint à labyrinthe`, `joint feutre`
    let end = at + 1 + usize::from(matches!(word(at + 1), "à" | "en" | "de"));
    (is_seal(word(at)) && has(OTHER_KINDS, word(end))).then_some(at..end + 1)
}

/// Covers that are counted and of which nobody said what they are made of: `dos tapas`, `two covers`.
pub(crate) fn covers_at(lower: &[String], is_taken: &[bool], at: usize) -> Option<Range<usize>> {
    let around = Around { lower, is_taken };
    let (kind, number) = noun(around.word(at), true).filter(|_| around.is_open(at))?;
    if kind != Kind::Cover {
        return None;
    }
    let said = around.read(at, kind, number, Some(Material::Metal))?;
    let is_count = |word: &String| has(ONE, word) || has(TWO, word);
    lower[said.range.clone()]
        .iter()
        .any(is_count)
        .then_some(said.range)
}

/// True for a word that says open.
pub(crate) fn says_open(word: &str) -> bool {
    has(OPEN, word)
}

/// True for a word that says rubber.
pub(crate) fn says_rubber(word: &str) -> bool {
    has(RUBBER, word)
}

/// What words around one that says open say: of one side or of the bearing, and which words they are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Open {
    pub(crate) range: Range<usize>,
    pub(crate) is_one_side: bool,
}

/// Words around a place that says open: `one side open`, `einseitig offen`, `open on one side`, `open both sides`.
pub(crate) fn open_at(lower: &[String], at: usize) -> Option<Open> {
    let word = |at: usize| lower.get(at).map_or("", String::as_str);
    if !says_open(word(at)) {
        return None;
    }
    let open = |range: Range<usize>, is_one_side: bool| Some(Open { range, is_one_side });
    let is_one = |word: &str| has(ONE, word) || has(OTHER_SIDE, word);
    // `one side`, `both sides`: one side or all of them.
    let pair = |first: usize| {
        let is_pair = has(SIDES, word(first + 1)) && (is_one(word(first)) || has(TWO, word(first)));
        is_pair.then(|| is_one(word(first)))
    };
    let before = at.checked_sub(1).map_or("", word);
    let first = at.checked_sub(2);
    if let Some((first, is_one_side)) = first.and_then(|first| Some((first, pair(first)?))) {
        return open(first..at + 1, is_one_side);
    }
    if has(ONE_SIDED, before) || has(TWO_SIDED, before) {
        return open(at - 1..at + 1, has(ONE_SIDED, before));
    }
    let behind = (at + 1..at + 1 + MOST_LINKS)
        .take_while(|place| *place == at + 1 || has(LINKS, word(place - 1)))
        .find_map(|place| Some((place, pair(place)?)));
    if let Some((place, is_one_side)) = behind {
        return open(at..place + 2, is_one_side);
    }
    let is_one_side = has(ONE_SIDED, word(at + 1)) || matches!(word(at + 1), "side" | "seite");
    let has_sides = is_one_side || has(TWO_SIDED, word(at + 1)) || has(SIDES, word(at + 1));
    open(at..at + 1 + usize::from(has_sides), is_one_side)
}

/// True where the closure itself is wanted, and not the bearing: `seal for 6206`.
pub(crate) fn is_wanted_itself(lower: &[String], at: usize) -> bool {
    let has_figure = |words: &[String]| {
        words
            .iter()
            .any(|word| word.contains(|c: char| c.is_ascii_digit()))
    };
    let next = lower.get(at + 1).map_or("", String::as_str);
    let is_part = noun(&lower[at], true).is_some_and(|(_, number)| number != Number::State);
    is_part && has(FOR, next) && !has_figure(&lower[..at]) && has_figure(&lower[at + 1..])
}

/// What a material alone says of a closure: `rubber both sides`; metal only where sides are named.
pub(crate) fn material_at(lower: &[String], is_taken: &[bool], at: usize) -> Option<Said> {
    let around = Around { lower, is_taken };
    let of = material(around.word(at)).filter(|_| around.is_open(at))?;
    if has(OTHERS, around.word(at + 1)) {
        return None;
    }
    let said = around.read(at, Kind::Cover, Number::One, Some(of))?;
    // `6206 rubber C3`, but not `rubber mount`.
    let next = around.word(said.range.end);
    let is_alone = next.is_empty() || next.contains(|c: char| c.is_ascii_digit());
    (said.is_both.is_some() || of == Material::Rubber && is_alone).then_some(said)
}

/// The words of a text, and which of them were taken.
struct Around<'a> {
    lower: &'a [String],
    is_taken: &'a [bool],
}

/// What is found while the words around a closure go by.
struct Found {
    start: usize,
    end: usize,
    is_both: Option<bool>,
    has_count: bool,
    touches: Option<bool>,
    material: Option<Material>,
}

impl Around<'_> {
    fn word(&self, at: usize) -> &str {
        self.lower.get(at).map_or("", String::as_str)
    }

    fn is_open(&self, at: usize) -> bool {
        self.is_taken.get(at).is_some_and(|taken| !taken)
    }

    fn read(&self, at: usize, kind: Kind, number: Number, of: Option<Material>) -> Option<Said> {
        let mut found = Found {
            start: at,
            end: at + 1,
            is_both: (number != Number::One).then_some(true),
            has_count: false,
            touches: None,
            material: of,
        };
        self.backward(at, kind, number, &mut found);
        self.forward(at, &mut found);
        let is_seal = match (found.material, kind) {
            (Some(Material::Rubber), _) | (None, Kind::Seal) => true,
            (Some(Material::Metal), _) | (None, Kind::Shield) => false,
            (None, Kind::Cover) => return None,
        };
        let by = match (is_seal, found.touches) {
            (false, _) => ClosedBy::Shield,
            (true, Some(false)) => ClosedBy::LowFrictionSeal,
            (true, _) => ClosedBy::ContactSeal,
        };
        Some(Said {
            range: found.start..found.end,
            by,
            is_both: found.is_both,
            is_touch_told: found.touches.is_some(),
            is_by_material: kind == Kind::Seal && !is_seal || kind == Kind::Shield && is_seal,
        })
    }

    /// `one rubber seal`, `both sides sealed`, `2 shields`.
    fn backward(&self, at: usize, kind: Kind, number: Number, found: &mut Found) {
        let mut has_side = false;
        for step in (at.saturating_sub(REACH)..at).rev() {
            let word = self.word(step);
            let before = step.checked_sub(1).map_or("", |before| self.word(before));
            let counts = number != Number::State || has_side || has(WHOLE_COUNTS, word);
            if !self.is_open(step) {
                return;
            } else if word == "friction" && matches!(before, "low" | "reduced") {
                (found.touches, found.start) = (Some(false), step - 1);
            } else if matches!(word, "low" | "reduced") && found.start == step {
                // Taken with its friction.
            } else if begins(&NO_CONTACT, word) {
                (found.touches, found.start) = (Some(false), step);
            } else if begins(&CONTACT, word) && before != "angular" {
                let has_none = has(NON, before);
                found.touches = Some(!has_none);
                found.start = step - usize::from(has_none);
            } else if has(NON, word) {
                // Taken with the contact that there is not.
                if found.start > step {
                    return;
                }
            } else if counts && (has(ONE, word) || has(TWO, word)) {
                found.is_both = Some(has(TWO, word));
                (found.start, found.has_count) = (step, true);
                return;
            } else if has(SIDES, word) {
                has_side = true;
            } else if let Some(of) = material(word) {
                found.material = found.material.or(Some(of));
                found.start = step;
            } else if word == "dust" && kind != Kind::Seal {
                // A dust shield or cover is of sheet metal.
                found.material = found.material.or(Some(Material::Metal));
                found.start = step;
            } else if !has(LINKS, word) {
                return;
            }
        }
    }

    /// `sealed on one side only`, `seal at both ends`, `flasques métalliques des deux côtés`.
    fn forward(&self, at: usize, found: &mut Found) {
        let mut count = None;
        for step in at + 1..(at + 1 + REACH).min(self.lower.len()) {
            let word = self.word(step);
            let next = self.word(step + 1);
            // `2 seals both sides` says it twice.
            let says_again = has(TWO, word) && found.is_both == Some(true);
            let is_side = has(SIDES, word) && count.is_some();
            if !self.is_open(step) {
                break;
            } else if let Some(of) = material(word).filter(|_| !has(OTHERS, next)) {
                found.material = found.material.or(Some(of));
                found.end = step + 1;
            } else if begins(&CONTACT, word) || begins(&NO_CONTACT, word) {
                let has_none = has(NO, self.word(step - 1)) || begins(&NO_CONTACT, word);
                (found.touches, found.end) = (Some(!has_none), step + 1);
            } else if found.has_count && !says_again && !is_side && !has(LINKS, word) {
                break;
            } else if is_side {
                (found.is_both, found.end, found.has_count) = (count, step + 1, true);
            } else if word.ends_with("seitig") || word.ends_with("seits") {
                found.is_both = Some(!word.starts_with("einseit"));
                (found.end, found.has_count) = (step + 1, true);
            } else if has(TWO, word) {
                count = Some(true);
            } else if has(ONE, word) && word != "only" {
                count = Some(false);
            } else if !(has(LINKS, word) || has(NO, word) && begins(&CONTACT, next)) {
                break;
            }
        }
        while found.has_count
            && matches!(self.word(found.end), "only" | "nur" | "seulement" | "solo")
        {
            found.end += 1;
        }
    }
}
