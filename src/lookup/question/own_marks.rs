//! The marks of two numbers in one question: those of `6206 2RS or 6306 ZZ` are kept for each, while of two numbers of one size
//! that differ in their marks nobody knows which is right.

use std::borrow::Cow;

use super::Question;
use crate::part::Traits;
use crate::part::designation::Designation;
use crate::standard::{self, StandardPart};

/// What stands between two numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Between {
    /// `or`, `and`, a comma, nothing.
    Or,
    /// `instead of`: the second is written as it is by itself.
    InsteadOf,
}

/// One of several numbers.
#[derive(Debug, Clone)]
pub(super) struct Number {
    /// As written.
    pub(super) name: String,
    pub(super) row: &'static StandardPart,
    /// True where nothing is marked on it.
    pub(super) is_bare: bool,
    pub(super) traits: Traits,
}

/// Several numbers of one question, each with its marks, and what all of them say alike; none where there is one number.
#[derive(Debug, Clone, Default)]
pub(in crate::lookup) struct OwnMarks {
    numbers: Vec<Number>,
    common: Traits,
}

/// Marks without ribs and rows, which are the number's own.
pub(super) fn without_own(traits: &Traits) -> Traits {
    Traits {
        rib_form: None,
        rows: None,
        ..traits.clone()
    }
}

/// What the bare number says.
pub(super) fn unmarked(of: &Designation) -> Traits {
    Designation::parse(&of.basic).map_or_else(Traits::default, |bare| without_own(&bare.traits))
}

/// Adds the marks of a second number to those of the first, or of the rows that a half-read one may be. What all say alike stays
/// in the question. Marks behind the second of two bare numbers of different size are of both: `6308 or 6309 C3`.
pub(super) fn settle(
    question: &mut Question,
    first: Option<&Designation>,
    second: &Number,
    between: Between,
) {
    let mut numbers = std::mem::take(&mut question.own_marks.numbers);
    if numbers.is_empty() {
        numbers = of_known(question, first);
    }
    let is_one_size = |of: &Number| of.row.size == second.row.size;
    let is_one_size = numbers.iter().any(is_one_size);
    let are_bare = numbers.iter().all(|of| of.is_bare);
    let is_of_both = are_bare
        && !second.is_bare
        && !is_one_size
        && between == Between::Or
        && numbers.iter().all(|of| may_have(of, second));
    let own = without_own(&second.traits);
    let are_alike = numbers.iter().all(|of| without_own(&of.traits) == own)
        || are_bare && (is_of_both || second.is_bare);
    if is_of_both {
        let with_marks = |traits: &Traits| Traits {
            rib_form: traits.rib_form,
            rows: traits.rows,
            ..second.traits.clone()
        };
        for number in &mut numbers {
            number.traits = with_marks(&number.traits);
            number.is_bare = false;
        }
        question.traits = with_marks(&question.traits);
    }
    question.traits.keep_common(&second.traits);
    if !are_alike {
        tell(question, &numbers, second, is_one_size);
    }
    numbers.push(second.clone());
    question.own_marks = OwnMarks {
        numbers,
        common: question.traits.clone(),
    };
}

/// The number that is known, or each row that a half-read one may be.
fn of_known(question: &Question, first: Option<&Designation>) -> Vec<Number> {
    let own = without_own(&question.traits);
    let is_bare = first.is_some_and(|first| own == unmarked(first));
    let rows = question.partial.iter().map(|row| Number {
        name: first.map_or_else(|| row.designation.clone(), |first| first.printed.clone()),
        row,
        is_bare,
        traits: question.traits.clone(),
    });
    rows.collect()
}

/// True where the marks of the second number are marks of the other one too: `3206 B` is none of a standard.
fn may_have(of: &Number, second: &Number) -> bool {
    let basic = Designation::parse(&second.name).map_or_else(String::new, |read| read.basic);
    let marks = marks_behind(&second.name, &basic);
    let marked = Designation::parse(&format!("{} {marks}", of.row.designation));
    marked.is_some_and(|read| {
        let is_row = standard::resolve(&read).is_some_and(|row| row.size == of.row.size);
        is_row && read.traits.unknown_suffixes.is_empty()
    })
}

/// Of numbers of one size nobody knows which marks are right; of others each keeps its own.
fn tell(question: &mut Question, numbers: &[Number], second: &Number, is_one_size: bool) {
    let own = without_own(&second.traits);
    let is_other = |of: &&Number| without_own(&of.traits) != own;
    let Some(known) = numbers.iter().find(is_other) else {
        return;
    };
    let names = format!(
        "`{}` and `{}` have different marks",
        known.name, second.name
    );
    if !is_one_size {
        question.notes.push(format!(
            "{names}: each number is taken with its own, and without any where none stands behind it"
        ));
        return;
    }
    let marks = |of: &Number| {
        let basic = Designation::parse(&of.name).map_or_else(String::new, |read| read.basic);
        marks_behind(&of.name, &basic).to_owned()
    };
    let left = [marks(second), marks(known), second.name.clone()];
    let left = left.into_iter().find(|marks| !marks.is_empty());
    question.not_understood.extend(left);
    question.notes.push(format!(
        "{names}, and what they say differently is left open: read the marks of the old bearing, and ask again with the one that is right"
    ));
}

/// What stands behind the basic number: `C` of `7206 C`, `2RS C3` of `6206-2RS C3`.
fn marks_behind<'a>(printed: &'a str, basic: &str) -> &'a str {
    let count = basic.chars().filter(|c| c.is_alphanumeric()).count();
    let mut signs = printed.char_indices().filter(|(_, c)| c.is_alphanumeric());
    signs.nth(count).map_or("", |(at, _)| &printed[at..])
}

impl Question {
    /// The question for one row of its numbers: with the marks of that number alone. What words behind the numbers say otherwise
    /// than its marks is open.
    pub(in crate::lookup) fn with_marks_of(&self, row: &StandardPart) -> Cow<'_, Self> {
        let OwnMarks { numbers, common } = &self.own_marks;
        let is_of_size = |of: &&Number| of.row.size == row.size;
        let mut of_size = numbers.iter().filter(is_of_size);
        // Of two numbers of one size neither is known to be right.
        let (Some(number), None) = (of_size.next(), of_size.next()) else {
            return Cow::Borrowed(self);
        };
        let mut own = number.traits.clone();
        own.forget_same(common);
        let variant = own.variant.take();
        let mut asked = self.clone();
        let traits = &mut asked.traits;
        traits.take_gaps(&own);
        traits.unknown_suffixes.append(&mut own.unknown_suffixes);
        own.forget_unmarked();
        traits.forget_contrary(&own);
        for piece in variant.iter().flat_map(|text| text.split(", ")) {
            traits.add_variant(piece);
        }
        Cow::Owned(asked)
    }
}

#[cfg(test)]
mod tests;
