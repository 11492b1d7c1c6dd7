//! A second number in one question, `7206 C or 7206 B`, `NU 210 and NJ 210`: it is either of them, and what their marks say
//! differently is open; and the number of a part that goes with the bearing, `22210 K with H 310`, which is another question.

use std::ops::RangeInclusive;

use super::own_marks::{self, Between, Number, unmarked, without_own};
use super::{Question, amount, figure, letters, need_words, tidy, vocabulary};
use crate::part::PartClass;
use crate::part::designation::Designation;
use crate::standard::{self, StandardPart};

/// Fewest digits of a number without letters.
const LEAST_DIGITS: usize = 4;
/// Most marks behind a number that are looked at.
const MOST_MARKS: usize = 3;
/// Letters of sleeves, nuts, washers and angle rings that go with a bearing, and how many digits follow (ISO 2982, ISO 246).
const COMPANIONS: [(&str, RangeInclusive<usize>); 10] = [
    ("H", 3..=4),
    ("AH", 3..=4),
    ("AHX", 3..=4),
    ("HE", 3..=4),
    ("HJ", 3..=4),
    ("HM", 2..=4),
    ("KM", 1..=2),
    ("KML", 1..=2),
    ("MB", 1..=2),
    ("MBL", 1..=2),
];

/// Takes further numbers out of the words beside a known one; gives what is left.
pub(super) fn take(question: &mut Question, text: &str) -> String {
    if question.designation.is_none() && question.partial.is_empty() {
        return text.to_owned();
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut left: Vec<&str> = Vec::with_capacity(words.len());
    let mut at = 0;
    while let Some(word) = words.get(at) {
        if is_companion(&words, at) {
            tell_companion(question, &bare(&words[at..at + 2]));
            at += 2;
        } else if let Some(end) = end_of_number(&words, at) {
            drop_count(&mut left);
            let between = drop_instead(&mut left);
            add_behind(question, &bare(&words[at..end]), between);
            at = end;
        } else {
            left.push(word);
            at += 1;
        }
    }
    left.join(" ")
}

/// `DIN 471-25 or DIN 472-25`: a second designation by its standard is another part, and is told; gives what is left.
pub(super) fn take_by_standard(question: &mut Question, text: &str) -> String {
    const BODIES: [&str; 2] = ["din", "iso"];
    let first = question.designation.as_ref().and_then(standard::resolve);
    let Some(first) = first.filter(|_| question.partial.is_empty()) else {
        return text.to_owned();
    };
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut left: Vec<&str> = Vec::with_capacity(words.len());
    let mut at = 0;
    while let Some(word) = words.get(at) {
        let is_body = BODIES.contains(&word.to_lowercase().as_str()) && at + 1 < words.len();
        let is_inch_ring = word.to_lowercase().starts_with("as568-");
        let end = at + 1 + usize::from(is_body);
        let name = bare(&words[at..end]);
        let read = (is_body || is_inch_ring).then(|| Designation::parse(&name));
        let other = read.flatten().filter(|read| {
            // `6206 DIN 625-1` names the standard of the bearing.
            let is_bearing = class_of(read).is_none_or(|class| class == PartClass::Bearings);
            let row = standard::resolve(read).filter(|_| !is_bearing);
            row.is_some_and(|row| !std::ptr::eq(row, first))
        });
        if other.is_some() {
            tell_companion(question, &name);
            at = end;
        } else {
            left.push(word);
            at += 1;
        }
    }
    left.join(" ")
}

/// Adds a number to the one that is known: it is either of them.
pub(super) fn add(question: &mut Question, name: &str) {
    add_behind(question, name, Between::Or);
}

fn add_behind(question: &mut Question, name: &str, between: Between) {
    let Some(second) = Designation::parse(name) else {
        return;
    };
    let Some(row) = standard::resolve(&second) else {
        return;
    };
    let first = question.designation.take();
    let of_first = first.as_ref().and_then(standard::resolve);
    if let Some(first) = &first
        && (of_first.is_none() || class_of(first) != class_of(&second))
    {
        question.designation = Some(first.clone());
        tell_companion(question, name);
        return;
    }
    let is_same_row = of_first.is_some_and(|of| std::ptr::eq(of, row));
    if is_same_row && question.traits == second.traits {
        question.designation = first;
        return;
    }
    keep(question, of_first);
    let is_first_known = !question.partial.is_empty();
    if is_first_known {
        let second = Number {
            name: name.to_owned(),
            row,
            is_bare: without_own(&second.traits) == unmarked(&second),
            traits: second.traits.clone(),
        };
        own_marks::settle(question, first.as_ref(), &second, between);
    }
    if is_first_known {
        settle_family(question, &second);
    }
    keep(question, Some(row));
    let note = "two numbers in one question: it is taken for either of them".to_owned();
    if question.partial.len() > 1 && !question.notes.contains(&note) {
        question.notes.push(note);
    }
}

/// Rows of which the part may be any, each once.
fn keep(question: &mut Question, row: Option<&'static StandardPart>) {
    let known = &mut question.partial;
    known.extend(row.filter(|row| !known.iter().any(|of| std::ptr::eq(*of, *row))));
}

fn class_of(designation: &Designation) -> Option<PartClass> {
    designation.family.map(|family| family.class())
}

/// Two types leave the type open.
fn settle_family(question: &mut Question, second: &Designation) {
    let Some(other) = second.family.filter(|of| question.family != Some(*of)) else {
        return;
    };
    let known = question.family.take();
    if known.is_some() || !question.families.is_empty() {
        question.families.extend(known);
        question.families.push(other);
    }
}

/// Where the number of a bearing that begins at a place ends, with its marks.
pub(super) fn end_of_number(words: &[&str], at: usize) -> Option<usize> {
    let word = words[at].trim_start_matches('(');
    let digits = word.bytes().take_while(u8::is_ascii_digit).count();
    let is_number = digits >= LEAST_DIGITS && !word.contains(['.', 'x', 'X', '×']);
    let least = match letters::number_at(words, at) {
        Some(count) => count,
        None if is_number && !is_measured(words, at) => 1,
        None => return None,
    };
    let most = words.len().min(at + least + MOST_MARKS);
    (at + least..=most).rev().find(|end| {
        let (inner, marks) = (&words[at..*end - 1], &words[at + least..*end]);
        inner.iter().all(|word| !word.ends_with([',', ';', ')']))
            && marks.iter().all(|word| is_mark(word))
            && tidy::is_whole_number(&bare(&words[at..*end]))
    })
}

/// True for what stands behind a number and is no mark of it but another number: `NJ210` of `NU210 NJ210`.
pub(super) fn is_one(mark: &str) -> bool {
    let digits = mark.bytes().filter(u8::is_ascii_digit).count();
    let least = match mark.starts_with(|c: char| c.is_ascii_digit()) {
        true => LEAST_DIGITS,
        false => LEAST_DIGITS - 1,
    };
    digits >= least && tidy::is_whole_number(mark)
}

/// True for a figure with a unit, or of a size.
fn is_measured(words: &[&str], at: usize) -> bool {
    let next = words.get(at + 1).copied().unwrap_or_default();
    // `7206 C` is a number with its mark.
    let is_letter = matches!(next, "C" | "c" | "F" | "f");
    let with_unit = format!("{}{next}", words[at]);
    amount::is_one(words, at) || !is_letter && need_words::is_quantity(&with_unit)
}

/// True for a word that may be a mark: in small letters it is a word first.
fn is_mark(word: &str) -> bool {
    let word = word.trim_end_matches([',', ';', ')']);
    let is_small = word.contains(char::is_lowercase);
    let is_word = || need_words::is_word(word) || vocabulary::is_filler(word);
    !figure::is_figure(word) && !(is_small && (word == "a" || is_word()))
}

/// True for the letters of a part that goes with a bearing, with its digits as the next word.
fn is_companion(words: &[&str], at: usize) -> bool {
    let Some(digits) = words.get(at + 1) else {
        return false;
    };
    let digits = digits.trim_end_matches([',', ';', ')', '.']);
    let counts = (COMPANIONS.iter())
        .find(|(letters, _)| letters.eq_ignore_ascii_case(words[at].trim_start_matches('(')))
        .map(|(_, counts)| counts);
    counts.is_some_and(|counts| {
        counts.contains(&digits.len())
            && amount::is_digits(digits)
            && !amount::is_one(words, at + 1)
    })
}

/// The first is answered, the other is a part of its own.
fn tell_companion(question: &mut Question, other: &str) {
    let first = match &question.designation {
        Some(first) => Some(first.printed.trim_end_matches([',', ';']).to_owned()),
        None => (question.partial.first()).map(|row| row.designation.clone()),
    };
    let note = format!(
        "`{}` is answered; `{other}` is another part: ask for it by itself",
        first.unwrap_or_default()
    );
    question.notes.push(note);
}

/// `and 1 x 6309`: how many are wanted of the second.
fn drop_count(left: &mut Vec<&str>) {
    let is_count = |word: &str| (1..=2).contains(&word.len()) && amount::is_digits(word);
    let is_cross = |word: &str| matches!(word, "x" | "X" | "×");
    let count = match left[..] {
        [.., count, cross] if is_cross(cross) && is_count(count) => 2,
        [.., count] if count.strip_suffix(['x', 'X', '×']).is_some_and(is_count) => 1,
        _ => 0,
    };
    left.truncate(left.len() - count);
}

/// `7206 B instead of 3206`: what the old one was called stands behind these words, and they say nothing else.
fn drop_instead(left: &mut Vec<&str>) -> Between {
    const INSTEAD: [&str; 5] = ["instead", "statt", "anstatt", "anstelle", "lieu"];
    const LINKS: [&str; 4] = ["of", "von", "de", "d'un"];
    let is = |list: &[&str], word: &str| list.contains(&word.to_lowercase().as_str());
    let count = match left[..] {
        [.., "au", instead, link] if is(&INSTEAD, instead) && is(&LINKS, link) => 3,
        [.., instead, link] if is(&INSTEAD, instead) && is(&LINKS, link) => 2,
        [.., instead] if is(&INSTEAD, instead) => 1,
        _ => return Between::Or,
    };
    left.truncate(left.len() - count);
    Between::InsteadOf
}

/// Words as one name, without the signs around them.
fn bare(words: &[&str]) -> String {
    let name = words.join(" ");
    name.trim_start_matches('(')
        .trim_end_matches([',', ';', ')', '.'])
        .to_owned()
}

#[cfg(test)]
mod tests;
