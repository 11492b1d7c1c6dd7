//! What a word by itself says of a part beside its designation: marks of DIN 623-1, an angle of contact, the number of another part.

use crate::import::other_thing::names_bearings;
use crate::part::designation::Designation;
use crate::part::designation::trade_words::{self, Said};
use crate::part::{AlongAxis, ContactAngle, Family, ToleranceClass, Traits, UNSAID_SET};

use super::closed_beside::Closed;
use super::described::{family_of, is_standard, listed};
use super::piece_beside::{
    LEAST_DIGITS, LETTERS, NEGATIONS, OF_TRADE, Piece, TELLING, has_figure, is_bearing,
};
use super::seal_beside::OfSeal;

/// Longest mark: `2RS`, `K30`, `P63`.
const LONGEST_MARK: usize = 4;
/// Letters that are a mark where they stand alone or close the name of a bearing; elsewhere they may be a machine's, or the
/// word for a number.
const TAPERED: &str = "K";
const SNAP_RING: &str = "NR";
/// Words for the bore, beside which `K` is its form.
const BORES: [&str; 3] = ["bore", "bohrung", "alésage"];
/// Contact angles of angular contact ball bearings, degrees: DIN 628 and published type descriptions.
const ANGLES: [u8; 7] = [15, 25, 30, 35, 40, 45, 60];
/// Words for the unit of an angle; a temperature has its scale behind it.
const DEGREES: [&str; 3] = ["deg", "degree", "degrees"];
/// Scales of temperatures.
const SCALES: [&str; 6] = ["c", "°c", "celsius", "f", "°f", "fahrenheit"];

/// Something that words say of a part.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Word {
    /// A phrase of the trade.
    Phrase(Said),
    /// A class of tolerances.
    Class(ToleranceClass),
    /// Marks behind the number, with what the number says without any.
    Marks(Box<(Traits, Traits)>),
    /// Shields or seals.
    Closed(Closed),
    /// Hardness, elastomer or cover of a seal.
    Seal(OfSeal),
    /// It speaks of the part and is not understood.
    Unread,
}

/// What a word says: a mark, an angle, the number of another part, or that the part is not the plain one; with how many words
/// say it.
pub(super) fn single(
    piece: &Piece<'_>,
    at: usize,
    parsed: &Designation,
    family: Option<Family>,
) -> (usize, Option<Word>) {
    let lower = piece.lower[at].as_str();
    if trade_words::says_only(lower) {
        // `only inner ring` says the same as `inner ring only`, `only for pump 3` nothing of the part.
        let says_nothing = piece.is_half(at + 1) || piece.is_mention(at + 1);
        return (1, (!says_nothing).then_some(Word::Unread));
    }
    if piece.is_hot(at) {
        return (2, Some(Word::Unread));
    }
    let next = piece.lower(at + 1);
    let is_of_trade = next.is_some_and(|next| OF_TRADE.contains(&next));
    let is_other = TELLING.contains(&lower) && !is_of_trade;
    if is_other || is_without_ring(piece.words[at], parsed, family) {
        return (1, Some(Word::Unread));
    }
    let Some(family) = family.filter(|of| is_bearing(Some(*of))) else {
        return (1, None);
    };
    match angle(piece, at, family) {
        Some((count, told)) => (count, angle_beside(told, parsed)),
        None => (1, marked(piece, at, parsed, family)),
    }
}

/// What a word of a bearing says as a mark or as a number.
fn marked(piece: &Piece<'_>, at: usize, parsed: &Designation, family: Family) -> Option<Word> {
    let word = piece.words[at];
    let closing = closing_mark(piece, at, family);
    if !has_figure(word) && !LETTERS.contains(&word) && closing.is_none() {
        return None;
    }
    let before = at.checked_sub(1);
    let is_not = before
        .and_then(|at| piece.lower(at))
        .is_some_and(|word| NEGATIONS.contains(&word));
    let marks = marks(closing.unwrap_or(word), parsed);
    if let Some(Word::Marks(of)) = marks.as_ref().filter(|_| is_not) {
        // `Not ZZ` says nothing new, unless the designation says that it is.
        let (mut said, (unmarked, marked)) = (parsed.traits.clone(), &**of);
        let against = add_marks(&mut said, unmarked, marked, &parsed.printed);
        return (against.is_none() && said == parsed.traits).then_some(Word::Unread);
    }
    let marks = marks.or_else(|| is_new_choice(word, parsed).then_some(Word::Unread));
    marks.or_else(|| {
        let before = before.map(|before| piece.words[before]);
        is_other_number(before, word, parsed, Some(family)).then_some(Word::Unread)
    })
}

/// True for marks with a stroke between them, `C3/C4`, of which the designation does not say each: both, or one of them.
fn is_new_choice(word: &str, parsed: &Designation) -> bool {
    let is_new = |of: &str| match marks(of, parsed) {
        Some(Word::Marks(of)) => {
            let (mut said, (unmarked, marked)) = (parsed.traits.clone(), &*of);
            let against = add_marks(&mut said, unmarked, marked, &parsed.printed);
            against.is_some() || said != parsed.traits
        }
        _ => false,
    };
    word.contains('/') && word.split('/').any(is_new)
}

/// Adds what marks say over what a number says without any; the first that contradicts a mark of the designation, with what
/// that says: neither is known then.
pub(super) fn add_marks(
    traits: &mut Traits,
    unmarked: &Traits,
    marked: &Traits,
    printed: &str,
) -> Option<(String, String)> {
    let mut against = None;
    let upper = printed.to_uppercase();
    let mut words = upper.split(|c: char| !c.is_alphanumeric());
    let is_marked_normal = words.any(|word| ["CN", "C0"].contains(&word));
    macro_rules! add_each {
        ($($field:ident),+) => { $(
            if marked.$field.is_some() && marked.$field != unmarked.$field {
                let slot = &mut traits.$field;
                let is_said = stringify!($field) == "clearance" && is_marked_normal;
                let mark = marked.$field.as_ref().map(ToString::to_string);
                // It contradicted the designation before.
                let is_known = |of: &String| Some(of) == mark.as_ref();
                let is_contested = slot.is_none() && traits.unknown_suffixes.iter().any(is_known);
                let is_free = slot.is_none() || *slot == unmarked.$field && !is_said;
                if is_free && !is_contested {
                    slot.clone_from(&marked.$field);
                } else if slot.is_some() && *slot != marked.$field {
                    let says = slot.take().map(|of| of.to_string());
                    against = against.or(mark.zip(says));
                }
            }
        )+ };
    }
    add_each!(
        closure,
        clearance,
        tolerance_class,
        contact_angle,
        bore_form,
        has_snap_ring_groove,
        arrangement
    );
    if marked.arrangement.is_some() && traits.arrangement.is_none() {
        // Two arrangements that contradict each other are no single bearing.
        traits.arrangement = Some(UNSAID_SET.to_owned());
    }
    for variant in marked.variants().filter(|of| !unmarked.has_variant(of)) {
        traits.add_variant(variant);
    }
    against
}

/// What a mark says (`C3`, `2RS`), or the number of the designation once more with marks of its own (`6308-2RS`).
fn marks(word: &str, parsed: &Designation) -> Option<Word> {
    let is_written_so = !word.contains(|c: char| c.is_lowercase());
    let is_mark = is_written_so
        && word.len() <= LONGEST_MARK
        && word.contains(|c: char| c.is_ascii_uppercase());
    let marked = match is_mark {
        true => Designation::parse(&format!("{} {word}", parsed.basic))?,
        false => Designation::parse(word)?,
    };
    let bare = Designation::parse(&parsed.basic)?;
    let is_read = marked.basic == bare.basic && marked.traits.unknown_suffixes.is_empty();
    (is_read && marked.traits != bare.traits)
        .then(|| Word::Marks(Box::new((bare.traits, marked.traits))))
}

/// True for the number of another part of the family, where a standard lists both.
fn is_other_number(
    before: Option<&str>,
    word: &str,
    parsed: &Designation,
    family: Option<Family>,
) -> bool {
    let digits = word.bytes().filter(u8::is_ascii_digit).count();
    if digits < LEAST_DIGITS || before.is_some_and(is_standard) {
        return false;
    }
    let is_listed = || listed(&parsed.basic).is_some();
    listed(word).is_some_and(|read| {
        let is_of_it = parsed.basic.contains(&read.basic) || read.basic.contains(&parsed.basic);
        !is_of_it && family_of(&read) == family && is_listed()
    })
}

/// `K` or `NR` as a mark: by itself, behind a word for bearings at the end, `K` beside the bore.
fn closing_mark(piece: &Piece<'_>, at: usize, family: Family) -> Option<&'static str> {
    let is_often_tapered = family.facts().exchange.is_often_tapered;
    if is_often_tapered && piece.lower[at] == "k-bohrung" {
        return Some(TAPERED);
    }
    let mark = [TAPERED, SNAP_RING]
        .into_iter()
        .find(|mark| *mark == piece.words[at])?;
    let is_bore = |word: Option<&str>| word.is_some_and(|word| BORES.contains(&word));
    let before = at.checked_sub(1);
    let is_last = at + 1 == piece.words.len();
    let ends_name = is_last && before.is_none_or(|before| names_bearings(piece.words[before]));
    let is_told = if mark == TAPERED {
        let before = before.and_then(|before| piece.lower(before));
        is_often_tapered && (ends_name || is_bore(before) || is_bore(piece.lower(at + 1)))
    } else {
        ends_name
    };
    is_told.then_some(mark)
}

/// A contact angle at a place, with how many words tell it, of a family that is made with several.
fn angle(piece: &Piece<'_>, at: usize, family: Family) -> Option<(usize, ContactAngle)> {
    if !family.facts().marks.has_angles() {
        return None;
    }
    let is = |list: &[&str], at: usize| piece.lower(at).is_some_and(|word| list.contains(&word));
    let (figure, count) = match piece.lower[at].strip_suffix('°') {
        Some(figure) => (figure, 1),
        None if is(&DEGREES, at + 1) => (piece.lower[at].as_str(), 2),
        None => return None,
    };
    let degrees = figure
        .parse()
        .ok()
        .filter(|figure| ANGLES.contains(figure))?;
    (!is(&SCALES, at + count)).then_some((count, ContactAngle(degrees)))
}

/// What an angle says beside the designation: nothing where that says the same, and what cannot be read where it says another.
fn angle_beside(told: ContactAngle, parsed: &Designation) -> Option<Word> {
    match parsed.traits.contact_angle {
        Some(known) => (known != told).then_some(Word::Unread),
        None => {
            let marked = Traits {
                contact_angle: Some(told),
                ..Traits::default()
            };
            Some(Word::Marks(Box::new((Traits::default(), marked))))
        }
    }
}

/// `RNU`, `RN210`: the bearing of these ribs without its loose ring (DIN 5412-1).
fn is_without_ring(word: &str, parsed: &Designation, family: Option<Family>) -> bool {
    let has_ribs =
        family.is_some_and(|family| family.facts().exchange.along_axis == AlongAxis::ByRibs);
    let ribs = parsed.traits.rib_form.filter(|_| has_ribs);
    ribs.is_some_and(|ribs| {
        let rest = word.strip_prefix('R');
        let rest = rest.and_then(|rest| rest.strip_prefix(&*ribs.to_string()));
        rest.is_some_and(|rest| rest.bytes().all(|byte| byte.is_ascii_digit()))
    })
}
