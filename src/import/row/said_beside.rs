//! What the words of a row say of its part beside a designation of its own: `51108`, described as `shaft washer only`.
//!
//! The words are those that name parts elsewhere, and marks of DIN 623-1. What contradicts the designation, or speaks of
//! the part and is not understood, leaves open what it may say; plain words change nothing.

use std::ops::Range;

use crate::import::family_words::family_in;
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::part::designation::closure_words::may_close;
use crate::part::designation::trade_words::{self, Half, Said};
use crate::part::designation::{Designation, contradict};
use crate::part::{Closure, Family, ToleranceClass, Traits};
use crate::standard;

use super::closed_beside::{Beside, Closed, closed_at};
use super::described::{family_of, listed};
use super::hedges::{is_hedged, is_negated};
use super::mark_beside::{Word, add_marks, single};
use super::piece_beside::{NEGATIONS, Piece, has_figure, is_bearing, pieces};
use super::reader::RowReader;
use super::remark::parted;
use super::seal_beside::{self, OfSeal};
use super::traits::{closed_as, is_of_elastomer};

/// A word with its text.
struct Item {
    word: Word,
    text: String,
    /// False where it may be said of a machine or of something else near the part, or is denied, wished for or a choice.
    is_sure: bool,
    doubt: Doubt,
}

/// What the words beside an item leave of it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Doubt {
    None,
    /// A wish, a choice or a place.
    Hedged,
    Denied,
}

impl Doubt {
    fn at(piece: &Piece<'_>, of: &Range<usize>) -> Self {
        if is_negated(&piece.lower, of) {
            Self::Denied
        } else if is_hedged(&piece.lower, of) {
            Self::Hedged
        } else {
            Self::None
        }
    }
}

/// Reads what texts of a row say of the part beside its designation.
pub(super) fn read(row: &mut RowReader<'_, '_>, parsed: &mut Designation, fields: &[Field]) {
    let family = family_of(parsed);
    for field in fields {
        let Some(text) = row.text_of(*field) else {
            continue;
        };
        let items = items_of(&text, parsed, family);
        if items.is_empty() {
            continue;
        }
        // What the table says of the number in words holds beside what the row adds.
        if parsed.traits.variant.is_none()
            && let Some(of_table) = standard::resolve(parsed)
        {
            parsed.traits.variant.clone_from(&of_table.traits.variant);
        }
        for item in items {
            add(row, *field, parsed, family, item);
        }
    }
}

/// Adds what one item says, or leaves open what it may say.
fn add(
    row: &mut RowReader<'_, '_>,
    field: Field,
    parsed: &mut Designation,
    family: Option<Family>,
    item: Item,
) {
    let mut said = parsed.traits.clone();
    let other = match &item.word {
        Word::Closed(closed) => {
            add_closure(row, field, parsed, *closed, item);
            return;
        }
        Word::Seal(of) => {
            add_seal(row, field, parsed, *of, item);
            return;
        }
        Word::Phrase(of) => agrees(*of, &said) || of.set(&mut said, family),
        Word::Class(class) => {
            let known = said.tolerance_class;
            let is_free = known.is_none_or(|of| of == ToleranceClass::Normal || of == *class);
            said.tolerance_class = Some(*class).filter(|_| is_free).or(known);
            is_free
        }
        Word::Marks(of) => {
            let (unmarked, marked) = &**of;
            let against = add_marks(&mut said, unmarked, marked, &parsed.printed);
            if let Some((column, says)) = against.filter(|_| item.is_sure) {
                parsed.traits = said;
                add_contrary(parsed, &says, &column);
                tell_against(row, field, parsed, column, says);
                return;
            }
            true
        }
        Word::Unread => false,
    };
    if other && (item.is_sure || said == parsed.traits) {
        parsed.traits = said;
        return;
    }
    if matches!(item.word, Word::Phrase(Said::Cage(_))) {
        parsed.traits.cage = None;
    }
    unread(row, field, parsed, item.text);
}

/// Adds what words say of a seal.
fn add_seal(
    row: &mut RowReader<'_, '_>,
    field: Field,
    parsed: &mut Designation,
    of: OfSeal,
    item: Item,
) {
    let mut said = parsed.traits.clone();
    if item.doubt != Doubt::None {
        // `Not FKM` beside one of NBR says nothing new.
        let is_told = match (of, &said.material) {
            (OfSeal::Elastomer(symbol), Some(known)) => {
                (known == symbol) != (item.doubt == Doubt::Denied)
            }
            _ => false,
        };
        if !is_told {
            unread(row, field, parsed, item.text);
        }
        return;
    }
    let (slot, value) = match of {
        OfSeal::Form(form) => {
            let says = said.seal_form.replace(form).filter(|says| *says != form);
            if let Some(says) = says {
                parsed.traits.seal_form = None;
                tell_against(row, field, parsed, form.to_string(), says.to_string());
            } else {
                parsed.traits = said;
            }
            return;
        }
        OfSeal::Turns { is_right } if has_ribs_for(&said, is_right) => return,
        OfSeal::Hardness(shore) => (&mut said.hardness, format!("{shore} Shore A")),
        OfSeal::Elastomer(symbol) => (&mut said.material, symbol.to_owned()),
        OfSeal::Turns { .. } | OfSeal::Covered => {
            return unread(row, field, parsed, item.text);
        }
    };
    match slot.take() {
        Some(says) if says != value => {
            parsed.traits = said;
            tell_against(row, field, parsed, value, says);
        }
        _ => {
            *slot = Some(value);
            parsed.traits = said;
        }
    }
}

/// True where a seal is known to have ribs for this rotation, or for both.
fn has_ribs_for(traits: &Traits, is_right: bool) -> bool {
    let side = if is_right { "right" } else { "left" };
    let mut variants = traits.variants();
    variants.any(|of| {
        let ribs = of.strip_prefix("ribs for ");
        ribs.is_some_and(|ribs| ribs.starts_with(side) || ribs.starts_with("both"))
    })
}

/// Leaves open what words may say of the part.
pub(super) fn unread(
    row: &mut RowReader<'_, '_>,
    field: Field,
    parsed: &mut Designation,
    unread: String,
) {
    parsed.traits.forget_unmarked();
    parsed.traits.unknown_suffixes.push(unread.clone());
    let number = parsed.printed.clone();
    let problem = Problem::UnreadBeside { number, unread };
    row.issue(Severity::Doubtful, Some(field), problem);
}

/// Says that words contradict the designation.
fn tell_against(
    row: &mut RowReader<'_, '_>,
    field: Field,
    parsed: &Designation,
    column: String,
    says: String,
) {
    let designation = parsed.printed.clone();
    let problem = Problem::TraitContradicts {
        column,
        designation,
        says,
    };
    row.issue(Severity::Doubtful, Some(field), problem);
}

/// Keeps two marks that contradict each other, as two behind one number.
fn add_contrary(parsed: &mut Designation, says: &str, other: &str) {
    if contradict(says, other) {
        let marks = [says.to_owned(), other.to_owned()];
        parsed.traits.unknown_suffixes.extend(marks);
    }
}

/// Adds what words say of shields and seals; a column for them goes before.
fn add_closure(
    row: &mut RowReader<'_, '_>,
    field: Field,
    parsed: &mut Designation,
    closed: Closed,
    item: Item,
) {
    let is_mark = |of: &String| Closure::from_code(of).is_some();
    if parsed.traits.unknown_suffixes.iter().any(is_mark) {
        return;
    }
    let has_column = row.has_words(Field::Closure);
    let known = closed_as(row, parsed).traits.closure;
    match closed.beside(known) {
        Beside::Same => {}
        Beside::New(closure) if item.is_sure && !has_column => {
            parsed.traits.closure = Some(closure);
        }
        Beside::Against(says, wanted) if item.is_sure && !has_column => {
            parsed.traits.closure = None;
            add_contrary(parsed, says.code(), wanted.code());
            tell_against(row, field, parsed, item.text, says.to_string());
        }
        _ => unread(row, field, parsed, item.text),
    }
}

/// True where the designation says the same by a mark of its own: `TN9` is a polyamide cage.
fn agrees(said: Said, traits: &Traits) -> bool {
    match said {
        Said::Cage(letters) => {
            let known = traits.cage.as_deref();
            known.is_some_and(|known| known.to_uppercase().starts_with(letters))
        }
        // What most bearings are anyway.
        Said::Rows(1) => traits.rows.is_none(),
        _ => false,
    }
}

fn items_of(text: &str, parsed: &Designation, family: Option<Family>) -> Vec<Item> {
    let (outside, inside) = parted(text);
    let text = format!("{outside}, {inside}");
    let pieces = pieces(&text);
    let names = |half: Half| {
        let mut pieces = pieces.iter();
        pieces.any(|piece| (0..piece.lower.len()).any(|at| piece.half_at(at) == Some(half)))
    };
    // Both halves make the whole bearing.
    let is_whole = names(Half::Inner) && names(Half::Outer);
    // The elastomer of a seal that is named is read with its columns.
    let is_named = family_in(&text).is_some_and(is_of_elastomer);
    let is_symbol = |item: &Item| matches!(item.word, Word::Seal(OfSeal::Elastomer(_)));
    let mut items: Vec<Item> = (pieces.iter())
        .flat_map(|piece| items_of_piece(piece, parsed, family, is_whole))
        .filter(|item| !is_named || !is_symbol(item))
        .collect();
    // `EPDM not NBR`: what is denied or wished for is none of two.
    let is_fact = |item: &Item| is_symbol(item) && item.doubt == Doubt::None;
    if items.iter().any(is_fact) {
        items.retain(|item| !is_symbol(item) || is_fact(item));
    }
    let first = items.iter().position(is_symbol);
    let is_other =
        |item: &Item| is_symbol(item) && first.is_some_and(|first| items[first].word != item.word);
    // Which of two it is of, is not told.
    if items.iter().any(is_other) {
        items.retain(|item| !is_symbol(item));
    }
    items
}

fn items_of_piece(
    piece: &Piece<'_>,
    parsed: &Designation,
    family: Option<Family>,
    is_whole: bool,
) -> Vec<Item> {
    let (mut items, mut at) = (Vec::new(), 0);
    while at < piece.words.len() && !piece.is_of_another(at) {
        let mut add = |word: Word, range: Range<usize>| {
            let doubt = Doubt::at(piece, &range);
            // `Sealed housing`: it may be the housing that is.
            let is_of_thing = matches!(word, Word::Closed(_)) && piece.is_thing(range.end);
            items.push(Item {
                word,
                text: piece.words[range.clone()].join(" "),
                is_sure: doubt == Doubt::None && !is_of_thing && !piece.is_of_place(&range),
                doubt,
            });
        };
        let missing = family.filter(|_| !is_whole);
        if let Some(count) = missing.and_then(|family| piece.missing_half(at, family)) {
            add(Word::Unread, at..at + count);
            at += count;
            continue;
        }
        let found = phrase_at(piece, at)
            .filter(|(_, word)| !is_whole || !matches!(word, Word::Phrase(Said::Half(_))));
        if let Some((count, word)) = found {
            items.extend(phrase(piece, at..at + count, word, family));
            at += count;
            continue;
        }
        // What follows is what the part goes with.
        if piece.is_mention(at) {
            break;
        }
        if let Some((range, closed)) = closure_at(piece, at, family) {
            at = range.end;
            let is_not = range.start.checked_sub(1).and_then(|at| piece.lower(at));
            let known = parsed.traits.closure;
            let is_said = closed.is_some_and(|of| of.beside(known) == Beside::Same);
            if !is_not.is_some_and(|word| NEGATIONS.contains(&word)) {
                add(closed.map_or(Word::Unread, Word::Closed), range);
            } else if is_said {
                // `6308 2RS`, described as `without seals`.
                add(Word::Unread, range.start - 1..range.end);
            }
            continue;
        }
        if let Some(family) = family.filter(|family| is_of_elastomer(*family))
            && let Some((count, said)) = seal_beside::said_at(&piece.words, &piece.lower, at)
            && said.is_of(family)
        {
            add(Word::Seal(said), at..at + count);
            at += count;
            continue;
        }
        let (count, word) = single(piece, at, parsed, family);
        if let Some(word) = word {
            add(word, at..at + count);
        }
        at += count;
    }
    items
}

/// What the words of a bearing say of its closure at a place; `None` in it where no mark says it of the family.
fn closure_at(
    piece: &Piece<'_>,
    at: usize,
    family: Option<Family>,
) -> Option<(Range<usize>, Option<Closed>)> {
    let family = family.filter(|_| is_bearing(family))?;
    let (range, closed) = closed_at(&piece.lower, at)?;
    Some((range, closed.filter(|_| may_close(family))))
}

/// The phrase of the trade at a place, with how many words it takes.
fn phrase_at(piece: &Piece<'_>, at: usize) -> Option<(usize, Word)> {
    let Piece { words, lower } = piece;
    // A class may be one of anything; one of tolerances is said outright or by itself.
    let is_class = at == 0 || lower[at].starts_with("abec");
    if is_class && let Some((count, class)) = trade_words::class_at(lower, at) {
        return Some((count, Word::Class(class)));
    }
    if lower[at] == "ss" && words[at] != "SS" {
        return None;
    }
    let (count, said) = trade_words::at(lower, at)?;
    Some((count, Word::Phrase(said)))
}

/// What a phrase says of a part of the family; nothing where such a part cannot be so.
fn phrase(piece: &Piece<'_>, of: Range<usize>, word: Word, family: Option<Family>) -> Option<Item> {
    let text = piece.words[of.clone()].join(" ");
    let before = of.start.checked_sub(1).and_then(|at| piece.lower(at));
    if before.is_some_and(|word| NEGATIONS.contains(&word)) {
        return None;
    }
    let is_only = [before, piece.lower(of.end - 1)]
        .into_iter()
        .flatten()
        .any(trade_words::says_only);
    let is_half = matches!(word, Word::Phrase(Said::Half(_)));
    if is_half && piece.is_of_whole(&of) {
        return is_only.then_some(Item {
            word: Word::Unread,
            text,
            is_sure: true,
            doubt: Doubt::None,
        });
    }
    if matches!(word, Word::Phrase(Said::Variant(_))) && piece.is_thing(of.end) {
        return None;
    }
    let is_of_family = match word {
        Word::Phrase(said) => said.is_of(family),
        _ => is_bearing(family),
    };
    if !is_of_family {
        // Rings and pins of stainless steel are made, and hold less than those of the standard: common practice, no source.
        let is_steel = matches!(word, Word::Phrase(Said::Variant("stainless")))
            && family.is_some_and(|family| !is_of_elastomer(family));
        return (is_half && is_only || is_steel).then_some(Item {
            word: Word::Unread,
            text,
            is_sure: true,
            doubt: Doubt::None,
        });
    }
    // `Cone crusher` is a machine; `cone`, `cone C3` and `cone 30309` are parts.
    let is_told = || {
        is_only
            || piece.words.get(of.end).is_none_or(|next| {
                next.starts_with(char::is_alphabetic) && has_figure(next) || listed(next).is_some()
            })
    };
    let doubt = Doubt::at(piece, &of);
    let is_said = doubt == Doubt::None && !piece.is_of_place(&of);
    Some(Item {
        word,
        text,
        is_sure: is_said && (!is_half || is_told()),
        doubt,
    })
}
