//! Puts texts of the program into another language: whole, by its templates, or piece by piece.

use std::collections::{BTreeSet, HashMap};

use super::Language;
use super::messages::Messages;
use super::template::{Kind, Piece, Template};

/// Texts kept at most; the memory starts anew when they are more.
const MOST_KEPT: usize = 200_000;
/// Templates within templates at most.
const DEEPEST: usize = 6;

/// Translates many texts, each distinct one once, and remembers which it had no message for.
///
/// # Example
/// ```
/// use sparewright::language::{Language, Translator};
/// let mut german = Translator::new(Language::of_code("de").unwrap());
/// assert_eq!(german.say("2 of 7"), "2 von 7");
/// german.say("No file has this text.");
/// assert!(german.missing().contains("No file has this text."));
/// ```
#[derive(Debug)]
pub struct Translator {
    language: Language,
    kept: HashMap<String, Said>,
    missing: BTreeSet<String>,
}

/// A translated text.
#[derive(Debug, Clone)]
struct Said {
    words: String,
    /// Every piece of it had a message.
    is_whole: bool,
}

impl Translator {
    /// A translator into `language`.
    pub fn new(language: Language) -> Self {
        Self {
            language,
            kept: HashMap::new(),
            missing: BTreeSet::new(),
        }
    }

    /// The language that is translated into.
    pub const fn language(&self) -> Language {
        self.language
    }

    /// Texts that are remembered, with or without a message.
    pub fn remembered(&self) -> usize {
        self.kept.len() + self.missing.len()
    }

    /// Texts that had no message, or a piece without one.
    pub fn missing(&self) -> &BTreeSet<String> {
        &self.missing
    }

    /// The text in the language, as far as there are messages for it.
    pub fn say(&mut self, english: &str) -> String {
        match self.language.messages() {
            None => english.to_owned(),
            Some(messages) => self.say_with(messages, english),
        }
    }

    /// As [`say`](Self::say), for texts with commas between that need not all be the program's.
    pub fn say_each(&mut self, english: &str) -> String {
        let items: Vec<String> = apart(english, ", ")
            .into_iter()
            .map(|item| self.say(item))
            .collect();
        items.join(", ")
    }

    pub(super) fn say_with(&mut self, messages: &Messages, english: &str) -> String {
        let said = self.piece(messages, english, 0);
        if !said.is_whole {
            self.missing.insert(english.to_owned());
        }
        said.words
    }

    fn piece(&mut self, messages: &Messages, text: &str, depth: usize) -> Said {
        if !text.contains(char::is_alphabetic) {
            return whole(messages.form.without_letters(text));
        }
        if let Some(known) = messages.whole(text) {
            return whole(known.to_owned());
        }
        if let Some(kept) = self.kept.get(text) {
            return kept.clone();
        }
        let said = self.looked_up(messages, text, depth);
        if self.kept.len() >= MOST_KEPT {
            self.kept.clear();
        }
        self.kept.insert(text.to_owned(), said.clone());
        said
    }

    /// A joined text is taken apart, since words of the shop inside a template would take in what follows; what is left
    /// is the text with the pieces that have a message.
    fn looked_up(&mut self, messages: &Messages, text: &str, depth: usize) -> Said {
        if depth > DEEPEST {
            return unknown(text);
        }
        let candidates = messages.candidates(text);
        let joined: Vec<&Template> = candidates
            .iter()
            .copied()
            .filter(|template| template.is_joined)
            .collect();
        if let Some(said) = self.one(messages, text, depth, &joined)
            && said.is_whole
        {
            return said;
        }
        if let Some((place, words)) = placed(text) {
            let said = self.joined(messages, &[place, words], ": ", depth);
            if said.is_whole {
                return said;
            }
        }
        let by = |joint| Some(apart(text, joint)).filter(|pieces| pieces.len() > 1);
        if let Some(lines) = by("\n") {
            return self.joined(messages, &lines, "\n", depth);
        }
        // Sentences before their parts: one of them may have a message as a whole, joint included. A full stop may also end
        // a short form in a name.
        let partly = by(". ").map(|sentences| self.joined(messages, &sentences, ". ", depth));
        if let Some(said) = partly.clone().filter(|said| said.is_whole) {
            return said;
        }
        if let Some(parts) = by("; ") {
            return self.joined(messages, &parts, "; ", depth);
        }
        match self.one(messages, text, depth, &candidates) {
            Some(said) if said.is_whole => said,
            said => partly.or(said).unwrap_or_else(|| unknown(text)),
        }
    }

    fn joined(&mut self, messages: &Messages, pieces: &[&str], joint: &str, depth: usize) -> Said {
        let said: Vec<Said> = pieces
            .iter()
            .map(|piece| self.piece(messages, piece, depth + 1))
            .collect();
        let words: Vec<&str> = said.iter().map(|said| said.words.as_str()).collect();
        Said {
            words: words.join(joint),
            is_whole: said.iter().all(|said| said.is_whole),
        }
    }

    /// Texts with commas between, which may hold commas themselves: where each piece has a message, they are those; else the
    /// longest that has a message comes first, since words of the shop in it would take in what follows.
    fn list(&mut self, messages: &Messages, text: &str, depth: usize) -> Said {
        if let Some(known) = messages.whole(text) {
            return whole(known.to_owned());
        }
        let items = apart(text, ", ");
        if items.len() > 1 {
            let said = self.joined(messages, &items, ", ", depth);
            if said.is_whole {
                return said;
            }
        }
        let mut said = whole(String::new());
        let mut next = 0;
        while next < items.len() {
            let ends = (next + 1..=items.len()).rev();
            let found =
                ends.map(|end| (end, items[next..end].join(", ")))
                    .find_map(|(end, item)| {
                        let item = self.piece(messages, &item, depth + 1);
                        (item.is_whole || end == next + 1).then_some((end, item))
                    });
            let Some((end, item)) = found else { break };
            said.words.push_str(if next > 0 { ", " } else { "" });
            said.words.push_str(&item.words);
            said.is_whole &= item.is_whole;
            next = end;
        }
        said
    }

    /// One text by its message: as it stands, without its full stop, with a small first letter, or both.
    fn one(
        &mut self,
        messages: &Messages,
        text: &str,
        depth: usize,
        candidates: &[&Template],
    ) -> Option<Said> {
        let bare = text.strip_suffix('.').filter(|bare| !bare.is_empty());
        let (body, stop) = bare.map_or((text, ""), |bare| (bare, "."));
        let small = first_letter(body, char::is_uppercase, |c| c.to_lowercase().collect());
        let mut partly = None;
        for (form, is_small) in [(Some(body), false), (small.as_deref(), true)] {
            let Some(form) = form else { continue };
            let found = messages.whole(form).map(|known| whole(known.to_owned()));
            let found = found.or_else(|| self.by_template(messages, form, depth, candidates));
            let Some(mut said) = found else { continue };
            if is_small {
                let large = first_letter(&said.words, char::is_lowercase, |c| {
                    c.to_uppercase().collect()
                });
                said.words = large.unwrap_or(said.words);
            }
            said.words.push_str(stop);
            if said.is_whole {
                return Some(said);
            }
            partly = partly.or(Some(said));
        }
        partly
    }

    /// By the template with most words whose inner texts all have messages, else by the first that matches.
    fn by_template(
        &mut self,
        messages: &Messages,
        text: &str,
        depth: usize,
        candidates: &[&Template],
    ) -> Option<Said> {
        let mut partly = None;
        for template in candidates {
            let mut taken = None;
            template.find(text, |found| {
                let said = self.filled(messages, template, found, depth);
                if said.is_whole {
                    taken = Some(said);
                } else if partly.is_none() {
                    partly = Some(said);
                }
                taken.is_some()
            });
            if taken.is_some() {
                return taken;
            }
        }
        partly
    }

    fn filled(
        &mut self,
        messages: &Messages,
        template: &Template,
        found: &[&str],
        depth: usize,
    ) -> Said {
        let mut filled = whole(String::new());
        for piece in &template.other {
            let name = match piece {
                Piece::Words(words) => {
                    filled.words.push_str(words);
                    continue;
                }
                Piece::Hole(_, name) => name,
            };
            let Some((kind, at)) = template.hole(name) else {
                continue;
            };
            let text = found[at];
            let said = match kind {
                Kind::Number => whole(messages.form.number(text)),
                Kind::Date => whole(messages.form.date(text)),
                Kind::Shop | Kind::Remark => whole(text.to_owned()),
                Kind::Text => self.piece(messages, text, depth + 1),
                Kind::Mixed => whole(self.piece(messages, text, depth + 1).words),
                Kind::List => self.list(messages, text, depth),
            };
            filled.words.push_str(&said.words);
            filled.is_whole &= said.is_whole;
        }
        filled
    }
}

const fn whole(words: String) -> Said {
    Said {
        words,
        is_whole: true,
    }
}

fn unknown(text: &str) -> Said {
    Said {
        words: text.to_owned(),
        is_whole: false,
    }
}

/// The text with its first letter changed; `None` where that is no letter of the kind asked for.
fn first_letter(
    text: &str,
    is_asked: impl Fn(char) -> bool,
    change: impl Fn(char) -> String,
) -> Option<String> {
    let mut letters = text.chars();
    let first = letters.next().filter(|c| is_asked(*c))?;
    Some(change(first) + letters.as_str())
}

/// A row or cell of a file, and what is said of it: `stock.csv, row 7: ...` or `stock.xlsx, sheet `A`, C7: ...`. What is said
/// may hold joints, by which it must not be taken apart before its place is.
fn placed(text: &str) -> Option<(&str, &str)> {
    let (place, words) = text.split_once(": ")?;
    let (_, last) = place.rsplit_once(", ")?;
    let number = match last.strip_prefix("row ") {
        Some(number) => number,
        None => last.trim_start_matches(|sign: char| sign.is_ascii_uppercase()),
    };
    let is_number = !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit());
    (is_number && number.len() < last.len()).then_some((place, words))
}

/// The pieces between joints that stand outside of brackets and quotes. A full stop stays with its sentence.
fn apart<'t>(text: &'t str, joint: &str) -> Vec<&'t str> {
    let mut pieces = Vec::new();
    let (mut start, mut depth, mut is_quoted) = (0, 0_i32, false);
    for (at, sign) in text.char_indices() {
        match sign {
            '(' if !is_quoted => depth += 1,
            ')' if !is_quoted => depth -= 1,
            '`' => is_quoted = !is_quoted,
            _ => {}
        }
        let is_free = depth <= 0 && !is_quoted;
        if is_free && at >= start && text[at..].starts_with(joint) {
            pieces.push(&text[start..at]);
            start = at + joint.len();
        }
    }
    pieces.push(&text[start..]);
    pieces
}
