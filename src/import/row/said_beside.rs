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
use crate::part::{Closure, Family, ToleranceClass, Traits, UNSAID_SET};
use crate::standard;

use super::closed_beside::{Beside, Closed, closed_at};
use super::described::{family_of, is_standard, listed};
use super::piece_beside::{
    LEAST_DIGITS, LETTERS, NEGATIONS, OF_TRADE, Piece, TELLING, has_figure, is_bearing, pieces,
};
use super::reader::RowReader;
use super::remark::parted;
use super::seal_beside::{self, OfSeal};
use super::traits::{closed_as, is_of_elastomer};

/// Longest mark: `2RS`, `K30`, `P63`.
const LONGEST_MARK: usize = 4;
/// Something that words say of a part.
#[derive(Debug, Clone, PartialEq)]
enum Word {
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

/// A word with its text.
struct Item {
    word: Word,
    text: String,
    /// False where it may be said of a machine or of something else near the part.
    is_sure: bool,
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
            let (slot, value) = match of {
                OfSeal::Hardness(shore) => (&mut said.hardness, format!("{shore} Shore A")),
                OfSeal::Elastomer(symbol) => (&mut said.material, (*symbol).to_owned()),
                OfSeal::Covered => return unread(row, field, parsed, item.text),
            };
            match slot.take() {
                Some(says) if says != value => {
                    parsed.traits = said;
                    tell_against(row, field, parsed, value, says);
                    return;
                }
                _ => *slot = Some(value),
            }
            true
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

/// Leaves open what words may say of the part.
fn unread(row: &mut RowReader<'_, '_>, field: Field, parsed: &mut Designation, unread: String) {
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

/// Adds what marks say over what a number says without any; the first that contradicts a mark of the designation, with what
/// that says: neither is known then.
fn add_marks(
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
            items.push(Item {
                word,
                text: piece.words[range.clone()].join(" "),
                is_sure: !piece.is_of_place(&range),
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
        if family.is_some_and(is_of_elastomer)
            && let Some((count, said)) = seal_beside::said_at(&piece.words, &piece.lower, at)
        {
            add(Word::Seal(said), at..at + count);
            at += count;
            continue;
        }
        let word = single(piece, at, parsed, family);
        let count = if piece.is_hot(at) { 2 } else { 1 };
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
        return (is_half && is_only).then_some(Item {
            word: Word::Unread,
            text,
            is_sure: true,
        });
    }
    // `Cone crusher` is a machine; `cone`, `cone C3` and `cone 30309` are parts.
    let is_told = || {
        is_only
            || piece.words.get(of.end).is_none_or(|next| {
                next.starts_with(char::is_alphabetic) && has_figure(next) || listed(next).is_some()
            })
    };
    let is_sure = !piece.is_of_place(&of) && (!is_half || is_told());
    Some(Item {
        word,
        text,
        is_sure,
    })
}

/// What a word by itself says: a mark, the number of another part, or that the part is not the plain one.
fn single(
    piece: &Piece<'_>,
    at: usize,
    parsed: &Designation,
    family: Option<Family>,
) -> Option<Word> {
    let (word, lower, next) = (
        piece.words[at],
        piece.lower[at].as_str(),
        piece.lower(at + 1),
    );
    if trade_words::says_only(lower) {
        // `only inner ring` says the same as `inner ring only`, `only for pump 3` nothing of the part.
        let says_nothing = piece.is_half(at + 1) || piece.is_mention(at + 1);
        return (!says_nothing).then_some(Word::Unread);
    }
    let is_of_trade = next.is_some_and(|next| OF_TRADE.contains(&next));
    if piece.is_hot(at) || TELLING.contains(&lower) && !is_of_trade {
        return Some(Word::Unread);
    }
    if !is_bearing(family) || !has_figure(word) && !LETTERS.contains(&word) {
        return None;
    }
    let before = at.checked_sub(1);
    let is_not = before
        .and_then(|at| piece.lower(at))
        .is_some_and(|word| NEGATIONS.contains(&word));
    let marks = marks(word, parsed);
    if let Some(Word::Marks(of)) = marks.as_ref().filter(|_| is_not) {
        // `Not ZZ` says nothing new, unless the designation says that it is.
        let (mut said, (unmarked, marked)) = (parsed.traits.clone(), &**of);
        let against = add_marks(&mut said, unmarked, marked, &parsed.printed);
        return (against.is_none() && said == parsed.traits).then_some(Word::Unread);
    }
    marks.or_else(|| {
        let before = before.map(|before| piece.words[before]);
        is_other_number(before, word, parsed, family).then_some(Word::Unread)
    })
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
