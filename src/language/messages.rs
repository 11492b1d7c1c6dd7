//! The messages of one language, read from its file and found by their English text.
//!
//! A file is lines of `English<tab>translation`; lines that begin with `#` are remarks, those that begin with `#:` its
//! head (see [`Form`]). A file is part of the program: one that cannot be read is a defect, which the tests find.

use std::collections::HashMap;

use super::form::Form;
use super::template::{Piece, Template};

/// Key of templates that begin with a number.
const NUMBER: &str = "#";
/// Key of templates that begin with other holes, or with less than a whole word.
const ANY: &str = "";

/// One language.
#[derive(Debug)]
pub(super) struct Messages {
    pub(super) form: Form,
    whole: HashMap<&'static str, &'static str>,
    /// Templates, those with most words first.
    templates: Vec<Template>,
    /// Positions of templates by the word they begin with, in lower case.
    by_word: HashMap<String, Vec<usize>>,
}

impl Messages {
    /// Reads a file.
    pub(super) fn read(file: &'static str) -> Self {
        let (messages, faults) = Self::read_checking(file);
        debug_assert!(faults.is_empty(), "{faults:?}");
        messages
    }

    /// Reads a file, with what is wrong with it line by line; such lines are left out.
    pub(super) fn read_checking(file: &'static str) -> (Self, Vec<String>) {
        let mut faults = Vec::new();
        let mut whole = HashMap::new();
        let mut templates = Vec::new();
        for (line, number) in file.lines().zip(1..) {
            if line.starts_with('#') || line.trim().is_empty() {
                continue;
            }
            let Some((english, other)) = line.split_once('\t') else {
                faults.push(format!("line {number}: no tab"));
                continue;
            };
            // A final full stop is put back by the translator, so that a text has one message with and without.
            let (english, other) = match (english.strip_suffix('.'), other.strip_suffix('.')) {
                (Some(english), Some(other)) => (english, other),
                _ => (english, other),
            };
            if other.trim().is_empty() || other.contains('\t') {
                faults.push(format!("line {number}: no translation, or several"));
            } else if english.contains('{') {
                match Template::read(english, other) {
                    Ok(template) => templates.push(template),
                    Err(why) => faults.push(format!("line {number}: {why}")),
                }
            } else if whole.insert(english, other).is_some() {
                faults.push(format!("line {number}: `{english}` stands twice"));
            }
        }
        templates.sort_by_key(|template| std::cmp::Reverse(template.weight));
        let mut by_word: HashMap<String, Vec<usize>> = HashMap::new();
        for (at, template) in templates.iter().enumerate() {
            by_word.entry(key(template)).or_default().push(at);
        }
        let messages = Self {
            form: form(file),
            whole,
            templates,
            by_word,
        };
        (messages, faults)
    }

    /// The translation of a text without holes.
    pub(super) fn whole(&self, english: &str) -> Option<&'static str> {
        self.whole.get(english).copied()
    }

    /// Templates that a text may match, those with most words first.
    pub(super) fn candidates(&self, text: &str) -> Vec<&Template> {
        let word = text.split(' ').next().unwrap_or_default().to_lowercase();
        let starts_number = text.starts_with(|c: char| c.is_ascii_digit() || c == '-');
        let mut places: Vec<usize> = [word.as_str(), if starts_number { NUMBER } else { ANY }, ANY]
            .iter()
            .filter_map(|key| self.by_word.get(*key))
            .flatten()
            .copied()
            .collect();
        places.sort_unstable();
        places.dedup();
        places.into_iter().map(|at| &self.templates[at]).collect()
    }
}

fn key(template: &Template) -> String {
    match template.english.first() {
        Some(Piece::Words(words)) => match words.split_once(' ') {
            Some((word, _)) => word.to_lowercase(),
            None => ANY.to_owned(),
        },
        Some(Piece::Hole(super::template::Kind::Number, _)) => NUMBER.to_owned(),
        _ => ANY.to_owned(),
    }
}

/// The head: `#: decimal ,`.
fn form(file: &'static str) -> Form {
    let said = |name: &str| {
        file.lines()
            .filter_map(|line| line.strip_prefix("#:"))
            .find_map(|line| line.trim().strip_prefix(name))
            .map_or("", str::trim)
    };
    let sign = |name: &str, otherwise| said(name).chars().next().unwrap_or(otherwise);
    Form {
        code: said("code "),
        name: said("name "),
        decimal: sign("decimal ", '.'),
        group: sign("group ", ','),
        date: said("date "),
        workbook_date: said("workbook_date "),
    }
}
