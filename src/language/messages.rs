//! The messages of one language, read from its file and found by their English text.
//!
//! A file is lines of `English<tab>translation`; lines that begin with `#` are remarks, those that begin with `#:` its
//! head (see [`Form`]). A file is part of the program: one that cannot be read is a defect, which the tests find.

use std::collections::HashMap;

use aho_corasick::AhoCorasick;

use super::form::Form;
use super::template::Template;

/// One language.
#[derive(Debug)]
pub(super) struct Messages {
    pub(super) form: Form,
    whole: HashMap<&'static str, &'static str>,
    /// Templates, those with most words first.
    templates: Vec<Template>,
    /// Finds the longest words of every template in one go through a text, so that a long report stays quick; large
    /// letters count as small ones, because a text may begin with one where its message does not.
    longest: AhoCorasick,
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
        let longest = AhoCorasick::builder()
            .ascii_case_insensitive(true)
            .build(templates.iter().map(|template| template.longest))
            .expect("the words of a message file are far below the limit of the search");
        let messages = Self {
            form: form(file),
            whole,
            templates,
            longest,
        };
        (messages, faults)
    }

    /// The translation of a text without holes.
    pub(super) fn whole(&self, english: &str) -> Option<&'static str> {
        self.whole.get(english).copied()
    }

    /// Templates that a text may match, those with most words first.
    pub(super) fn candidates(&self, text: &str) -> Vec<&Template> {
        let found = self.longest.find_overlapping_iter(text);
        let mut places: Vec<usize> = found.map(|found| found.pattern().as_usize()).collect();
        places.sort_unstable();
        places.dedup();
        places.into_iter().map(|at| &self.templates[at]).collect()
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
        short_date: said("short_date "),
        weekdays: said("weekdays "),
        workbook_date: said("workbook_date "),
    }
}
