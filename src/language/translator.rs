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

    /// A joined text is first taken apart, since words of the shop inside a template would take in what follows; only
    /// where a piece has no message is the whole tried, and what is left is the text with the pieces that have one.
    fn looked_up(&mut self, messages: &Messages, text: &str, depth: usize) -> Said {
        if depth > DEEPEST {
            return unknown(text);
        }
        let joined = |template: &&Template| template.is_joined();
        if let Some(said) = self.by_template(messages, text, depth, joined)
            && said.is_whole
        {
            return said;
        }
        let mut partly = None;
        for joint in ["\n", "; ", ". "] {
            let pieces = apart(text, joint);
            if pieces.len() > 1 {
                let said = self.joined(messages, &pieces, joint, depth);
                if said.is_whole {
                    return said;
                }
                partly = partly.or(Some(said));
            }
        }
        let one = self.one(messages, text, depth);
        match one {
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

    /// One text: as it stands, without its full stop, or with a small first letter.
    fn one(&mut self, messages: &Messages, text: &str, depth: usize) -> Option<Said> {
        let said = self.by_template(messages, text, depth, |_| true);
        if said.as_ref().is_some_and(|said| said.is_whole) {
            return said;
        }
        if let Some(bare) = text.strip_suffix('.').filter(|bare| !bare.is_empty()) {
            let inner = self.piece(messages, bare, depth + 1);
            if inner.is_whole {
                return Some(whole(inner.words + "."));
            }
        }
        if let Some(small) =
            first_letter(text, |c| c.is_uppercase(), |c| c.to_lowercase().collect())
        {
            let inner = self.piece(messages, &small, depth + 1);
            let large = first_letter(
                &inner.words,
                |c| c.is_lowercase(),
                |c| c.to_uppercase().collect(),
            );
            if inner.is_whole {
                return Some(whole(large.unwrap_or(inner.words)));
            }
        }
        said
    }

    /// By the template with most words whose inner texts all have messages, else by the first that matches.
    fn by_template(
        &mut self,
        messages: &Messages,
        text: &str,
        depth: usize,
        is_asked: impl Fn(&&Template) -> bool,
    ) -> Option<Said> {
        let mut partly = None;
        for template in messages.candidates(text).into_iter().filter(is_asked) {
            if let Some(found) = template.find(text) {
                let said = self.filled(messages, template, &found, depth);
                if said.is_whole {
                    return Some(said);
                }
                partly = partly.or(Some(said));
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
                Kind::Shop => whole(text.to_owned()),
                Kind::Text => self.piece(messages, text, depth + 1),
                Kind::Mixed => whole(self.piece(messages, text, depth + 1).words),
                Kind::List => self.joined(messages, &apart(text, ", "), ", ", depth),
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
