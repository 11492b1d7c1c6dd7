//! One message with holes: `{n} free, {n2} on order`.
//!
//! The first letter of a hole says what goes in: `n` a number and `d` a day or moment, both put into the form of the
//! language; `s` words of the shop, left as they are; `t` a text of the program, translated in its turn; `w` either of the
//! two; `l` several texts with commas between; `a` all that a person wrote, whatever joints are in it. Holes of one letter are told apart by what follows it, and the translation uses them in
//! any order. A number takes as many digits as there are, words as few letters as the rest allows.

/// Ways to fit one text that are looked at; words of the shop may hold any of ours.
const MOST_WAYS: usize = 24;

/// What goes into a hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Number,
    Date,
    Shop,
    Text,
    Mixed,
    List,
    Remark,
}

/// A piece of a message.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Piece {
    Words(&'static str),
    Hole(Kind, &'static str),
}

/// A message with holes and its translation.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Template {
    pub(super) english: Vec<Piece>,
    pub(super) other: Vec<Piece>,
    /// Letters outside of holes: the more, the more certain the match.
    pub(super) weight: usize,
    /// A joint at which other texts are taken apart may stand in it.
    pub(super) is_joined: bool,
    /// Longest words between holes; a text without them cannot match.
    pub(super) longest: &'static str,
}

impl Template {
    /// Reads both sides; the reason where they do not fit.
    pub(super) fn read(english: &'static str, other: &'static str) -> Result<Self, String> {
        let (english, other) = (pieces(english)?, pieces(other)?);
        for pair in english.windows(2) {
            if let [Piece::Hole(..), Piece::Hole(..)] = pair {
                return Err("two holes need words between them".to_owned());
            }
        }
        if !english.iter().any(|piece| matches!(piece, Piece::Words(_))) {
            return Err("holes alone are no message".to_owned());
        }
        let named = |name: &str| {
            let is_it = |piece: &&Piece| matches!(piece, Piece::Hole(_, of) if *of == name);
            english.iter().filter(is_it).count()
        };
        for piece in english.iter().chain(&other) {
            if let Piece::Hole(_, name) = piece
                && named(name) != 1
            {
                return Err(format!("hole `{name}` must stand once on the English side"));
            }
        }
        let words = || {
            english.iter().filter_map(|piece| match piece {
                Piece::Words(words) => Some(*words),
                Piece::Hole(..) => None,
            })
        };
        let is_joint = |words: &str| ["; ", ". ", "\n"].iter().any(|joint| words.contains(joint));
        let is_joined = english.iter().any(|piece| match piece {
            Piece::Words(words) => is_joint(words),
            Piece::Hole(kind, _) => *kind == Kind::Remark,
        });
        Ok(Self {
            is_joined,
            weight: words().map(str::len).sum(),
            longest: words().max_by_key(|words| words.len()).unwrap_or_default(),
            english,
            other,
        })
    }

    /// Hands over what stands in the holes, in the order of the English side, for one way after the other in which the
    /// text fits, until `is_taken` says yes; false where none was taken.
    pub(super) fn find<'t>(
        &self,
        text: &'t str,
        mut is_taken: impl FnMut(&[&'t str]) -> bool,
    ) -> bool {
        let mut search = Search {
            found: Vec::new(),
            ways_left: MOST_WAYS,
            is_taken: &mut is_taken,
        };
        search.take(&self.english, text)
    }

    /// Kind and place of the hole of this name on the English side.
    pub(super) fn hole(&self, name: &str) -> Option<(Kind, usize)> {
        let holes = self.english.iter().filter_map(|piece| match piece {
            Piece::Hole(kind, name) => Some((*kind, *name)),
            Piece::Words(_) => None,
        });
        let mut placed = holes.zip(0..);
        placed.find_map(|((kind, of), at)| (of == name).then_some((kind, at)))
    }
}

fn pieces(text: &'static str) -> Result<Vec<Piece>, String> {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        let (name, after) = after.split_once('}').ok_or("a hole has no end")?;
        if !before.is_empty() {
            pieces.push(Piece::Words(before));
        }
        let kind = match name.chars().next() {
            Some('n') => Kind::Number,
            Some('d') => Kind::Date,
            Some('s') => Kind::Shop,
            Some('t') => Kind::Text,
            Some('w') => Kind::Mixed,
            Some('l') => Kind::List,
            Some('a') => Kind::Remark,
            _ => {
                return Err(format!(
                    "hole `{name}` must begin with n, d, s, t, w, l or a"
                ));
            }
        };
        pieces.push(Piece::Hole(kind, name));
        rest = after;
    }
    if !rest.is_empty() {
        pieces.push(Piece::Words(rest));
    }
    Ok(pieces)
}

/// A search for ways to fit a text.
struct Search<'t, 'a> {
    found: Vec<&'t str>,
    ways_left: usize,
    is_taken: &'a mut dyn FnMut(&[&'t str]) -> bool,
}

impl<'t> Search<'t, '_> {
    fn take(&mut self, pieces: &[Piece], text: &'t str) -> bool {
        let Some((first, rest)) = pieces.split_first() else {
            if !text.is_empty() || self.ways_left == 0 {
                return false;
            }
            self.ways_left -= 1;
            return (self.is_taken)(&self.found);
        };
        let kind = match first {
            Piece::Words(words) => {
                let after = text.strip_prefix(words);
                return after.is_some_and(|text| self.take(rest, text));
            }
            Piece::Hole(kind, _) => *kind,
        };
        match kind {
            Kind::Number => number_end(text).is_some_and(|end| self.fill(rest, text, end)),
            Kind::Date => date_end(text).is_some_and(|end| self.fill(rest, text, end)),
            Kind::Shop | Kind::Text | Kind::Mixed | Kind::List | Kind::Remark => match rest.first()
            {
                Some(Piece::Words(words)) => text
                    .match_indices(words)
                    .filter(|(at, _)| *at > 0)
                    .any(|(at, _)| self.fill(rest, text, at)),
                _ => !text.is_empty() && self.fill(rest, text, text.len()),
            },
        }
    }

    fn fill(&mut self, rest: &[Piece], text: &'t str, end: usize) -> bool {
        self.found.push(&text[..end]);
        let is_taken = self.take(rest, &text[end..]);
        self.found.pop();
        is_taken
    }
}

/// Where a number at the start of the text ends.
fn number_end(text: &str) -> Option<usize> {
    let digits = text.strip_prefix('-').unwrap_or(text);
    let is_inside = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
    let end = digits.find(|c| !is_inside(c)).unwrap_or(digits.len());
    let end = digits[..end].trim_end_matches(['.', ',']).len();
    (digits.starts_with(|c: char| c.is_ascii_digit()) && end > 0)
        .then_some(end + text.len() - digits.len())
}

/// Where a day (`2026-03-09`) or moment (`2026-03-09 07:30`) at the start of the text ends.
fn date_end(text: &str) -> Option<usize> {
    let has_form = |text: &str, form: &str| {
        text.len() >= form.len()
            && text.bytes().zip(form.bytes()).all(|(of, form)| match form {
                b'0' => of.is_ascii_digit(),
                _ => of == form,
            })
    };
    let (day, moment) = ("0000-00-00", "0000-00-00 00:00");
    if has_form(text, moment) {
        Some(moment.len())
    } else {
        has_form(text, day).then_some(day.len())
    }
}
