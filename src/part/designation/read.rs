//! Reads a printed designation by the readers of every family.

use std::sync::LazyLock;

use super::parsed::Designation;
use super::{
    bearing, cone_cup, in_words, iso_355, lip_seal, lock_nut, o_ring, pin, retaining_ring, text,
};
use crate::part::WordMap;

/// Longest text that is looked at; no designation is longer.
const LONGEST: usize = 80;

impl Designation {
    /// False where no reader knows the letters that a text begins with: by itself it is no designation, but words of the trade
    /// may stand in front of one.
    pub fn may_begin(printed: &str) -> bool {
        let letters = first_letters(printed);
        // What cleaning takes out or changes may stand among letters.
        let is_odd = |c: char| !c.is_ascii() || matches!(c, '"' | '*');
        let is_alone = !printed[letters.len()..].starts_with(is_odd);
        letters.is_empty() || !is_alone || BY_LETTERS.has(&letters.to_ascii_uppercase())
    }

    /// Takes a designation apart; `None` where the text is not one.
    ///
    /// # Source
    /// DIN 623-1 for bearings; DIN 3760, ISO 3601-1, SAE AS568, DIN 471, DIN 472, DIN 981, ISO 8734, ISO 2338 and
    /// ASME B18.8.2 for the others.
    ///
    /// # Example
    /// ```
    /// use sparewright::part::designation::Designation;
    /// use sparewright::part::{Clearance, Closure};
    /// let read = Designation::parse("6305-2RS C3").ok_or("not a designation")?;
    /// assert_eq!(read.basic, "6305");
    /// assert_eq!(read.bore.map(|bore| bore.to_string()).as_deref(), Some("25 mm"));
    /// assert_eq!(read.traits.closure, Some(Closure::SealBothSides));
    /// assert_eq!(read.traits.clearance, Some(Clearance::C3));
    /// assert!(Designation::parse("BRG-0412").is_none());
    /// # Ok::<(), &str>(())
    /// ```
    pub fn parse(printed: &str) -> Option<Self> {
        if printed.len() > LONGEST && printed.chars().count() > LONGEST {
            return None;
        }
        let cleaned = text::clean(printed);
        let mut read = by_readers(&cleaned).or_else(|| in_words::in_front(&cleaned, by_readers))?;
        if !read.traits.unknown_suffixes.is_empty() {
            in_words::understand(&mut read);
        }
        Some(Self {
            printed: printed.to_owned(),
            ..read
        })
    }
}

/// Reads the text of one family.
type Read = fn(&str) -> Option<Designation>;

/// Whether a reader also knows texts that begin with a digit: a size, a series.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Digits {
    Read,
    Unread,
}

/// Readers in the order in which they are asked.
const READERS: [(Read, Digits); 8] = [
    (o_ring::read, Digits::Read),
    (retaining_ring::read, Digits::Read),
    (lock_nut::read, Digits::Unread),
    (pin::read, Digits::Unread),
    (lip_seal::read, Digits::Read),
    (cone_cup::read, Digits::Unread),
    (iso_355::read, Digits::Read),
    (bearing::read, Digits::Read),
];

/// What the texts of each reader begin with where that is a letter.
fn openings() -> [Vec<&'static str>; 8] {
    [
        o_ring::openings(),
        retaining_ring::openings(),
        lock_nut::openings(),
        pin::openings(),
        lip_seal::openings(),
        cone_cup::openings(),
        iso_355::openings(),
        bearing::openings(),
    ]
}

/// Readers, a bit each, by the letters that stand first in their texts.
static BY_LETTERS: LazyLock<WordMap<u32>> = LazyLock::new(|| {
    let of_each = openings().into_iter().enumerate();
    let letters = of_each.flat_map(|(at, openings)| {
        let first = openings.into_iter().map(first_letters);
        first.map(move |letters| (1 << at, letters))
    });
    WordMap::of_lists(letters)
});

/// The letters of ASCII that a text begins with.
fn first_letters(text: &str) -> &str {
    let end = text.find(|c: char| !c.is_ascii_alphabetic());
    end.map_or(text, |end| &text[..end])
}

/// True where the reader at a place may know a text that begins so; the others would be asked for nothing.
fn may_know(cleaned: &str) -> impl Fn(usize) -> bool {
    let (by_letters, begins_with_digit) = match cleaned.bytes().next() {
        Some(b'A'..=b'Z') => {
            let of_letters = BY_LETTERS.get(first_letters(cleaned)).copied();
            (of_letters.unwrap_or_default(), false)
        }
        Some(b'0'..=b'9' | b'.') => (0, true),
        _ => (u32::MAX, false),
    };
    move |at| match begins_with_digit {
        true => READERS[at].1 == Digits::Read,
        false => by_letters & 1 << at != 0,
    }
}

/// By the reader of the first family that knows the text.
fn by_readers(cleaned: &str) -> Option<Designation> {
    let may_know = may_know(cleaned);
    let readers = READERS.iter().enumerate().filter(|(at, _)| may_know(*at));
    readers
        .map(|(_, (read, _))| read)
        .find_map(|read| read(cleaned))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_read_by_letters_as_by_asking_every_reader() {
        let by_all = |cleaned: &str| READERS.iter().find_map(|(read, _)| read(cleaned));
        // Every cell of the table of questions, whatever it says.
        let cells = include_str!("../../../tests/tables/bench_cases.csv").split([',', '\n']);
        let mut texts: Vec<String> = cells.map(str::to_owned).collect();
        assert!(texts.len() > 3_000, "{}", texts.len());
        for body in [
            "40X62X8",
            "31.34X3.53",
            "208",
            "8",
            "30 205",
            "318",
            "P10A",
            "6X24",
            ".5X.1",
        ] {
            texts.push(body.to_owned());
            for opening in openings().into_iter().flatten() {
                for between in ["", " ", "-", ":", ".", "/", "X", "\u{dc}"] {
                    texts.push(format!("{opening}{between}{body}"));
                }
                texts.push(format!("{body} {opening}"));
            }
        }
        for text in &texts {
            let cleaned = text::clean(text);
            assert_eq!(by_readers(&cleaned), by_all(&cleaned), "{text}");
        }
    }
}
