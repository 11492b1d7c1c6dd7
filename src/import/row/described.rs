//! The part that a description names by its number, with all that is said beside the number, in brackets too.
//!
//! A part is the plain one of its number only where every word beside it is understood or surely says nothing of the part.

use crate::import::family_words::family_in;
use crate::import::other_thing::{is_the_part, names_another_thing};
use crate::part::designation::Designation;
use crate::part::designation::trade_words::Half;
use crate::part::{Family, InSets, NameKey, UNSAID_SET};
use crate::standard;

use super::remark::parted;
use super::set_words::{says_pair, without_set_words};

/// Most letters of a series before the figures of a designation: `NUP`, `RNAO`.
const LONGEST_SERIES: usize = 4;
/// Words at which a number is looked for.
const MOST_STARTS: usize = 8;
/// Words before the number of a standard.
const STANDARDS: [&str; 5] = ["DIN", "ISO", "EN", "ABMA", "JIS"];
/// Digits of the number of a standard for bearings that is a bearing's number as well: `DIN 625`.
const STANDARD_DIGITS: usize = 3;
/// Fewest digits of a cone or a cup of ABMA 19.2.
const LEAST_PAIR_DIGITS: usize = 5;
/// Words that put two numbers together; others leave a choice.
const AND: [&str; 5] = ["+", "&", "and", "und", "et"];

/// What a description names.
#[derive(Debug, Clone, PartialEq)]
pub enum Described {
    /// A part, with all that is said of it.
    Whole(Designation),
    /// A part of which some words could not be read; it has nothing for certain that a mark might say otherwise.
    Partly(Designation, String),
    /// Two parts.
    Two(String, String),
}

/// A designation that a standard lists, as its family reads it.
pub fn listed(text: &str) -> Option<Designation> {
    let is_listed = |read: &Designation| {
        // A bare size is a pin's, a seal's or a ring's by its words only.
        let has_letters = read.basic.starts_with(|c: char| c.is_alphabetic());
        standard::find(&read.basic).is_some() || has_letters && standard::resolve(read).is_some()
    };
    Designation::parse(text).filter(is_listed)
}

/// The family that a designation names, or that the standard lists it in.
pub fn family_of(parsed: &Designation) -> Option<Family> {
    let listed = || standard::find(&parsed.basic).map(|part| part.size.family());
    parsed.family.or_else(listed)
}

/// Reads the number of a description; `None` where no standard lists one of its words, since any number could be taken for one.
pub fn described(description: &str) -> Option<Described> {
    let (outside, inside) = parted(description);
    let starts = outside
        .char_indices()
        .filter(|(at, _)| *at == 0 || outside[..*at].ends_with([' ', ',']));
    starts
        .take(MOST_STARTS)
        .find_map(|(at, _)| at_word(&outside, at, &inside))
        .or_else(|| pin_in_words(&outside, &inside))
}

/// `Zylinderstift 8 m6 x 40`: a pin by its word, with the class of its diameter.
fn pin_in_words(outside: &str, inside: &str) -> Option<Described> {
    let at = outside.find(|c: char| c.is_ascii_digit())?;
    if family_in(&outside[..at]) != Some(Family::DowelPin) || names_another_thing(outside) {
        return None;
    }
    let text = format!("Dowel pin {} {inside}", &outside[at..]);
    let read = Designation::parse(text.trim())?;
    let has_class = read.size.is_some_and(|size| size.fit().is_some());
    has_class.then_some(Described::Whole(read))
}

/// The part whose number begins at a word.
fn at_word(outside: &str, at: usize, inside: &str) -> Option<Described> {
    let (before, rest) = (&outside[..at], outside[at..].trim());
    let pieces: Vec<&str> = rest
        .split([' ', ','])
        .filter(|word| !word.is_empty())
        .collect();
    let count = number_at(&pieces, 0)?;
    let number = pieces[..count].join(" ");
    let is_of_standard = before
        .split_whitespace()
        .next_back()
        .is_some_and(is_standard)
        && number.len() == STANDARD_DIGITS;
    if is_of_standard {
        return None;
    }
    let text = format!("{rest} {inside}");
    let found = with_all(before, &number, text.trim())?;
    let family = match &found {
        Described::Whole(read) | Described::Partly(read, _) => family_of(read),
        Described::Two(one, _) => listed(one).and_then(|read| family_of(&read)),
    };
    let behind = pieces[..count].iter().fold(rest, |rest, word| {
        let rest = rest.trim_start_matches([' ', ',']);
        rest.strip_prefix(word).unwrap_or(rest)
    });
    is_the_part(before, behind, family).then_some(found)
}

/// How many pieces the number at a place takes: `6205`, or `NU 205` with the letters of the series apart.
fn number_at(pieces: &[&str], at: usize) -> Option<usize> {
    let has_digit = |word: &str| word.contains(|c: char| c.is_ascii_digit());
    let word = pieces.get(at)?;
    let next = pieces.get(at + 1).copied().unwrap_or_default();
    let is_series = word.len() <= LONGEST_SERIES
        && word.bytes().all(|byte| byte.is_ascii_uppercase())
        && next.starts_with(|c: char| c.is_ascii_digit());
    match (has_digit(word), is_series) {
        (true, _) => Some(1),
        (false, true) => Some(2),
        (false, false) => None,
    }
}

/// True for the name of a body of standards, which the number of one follows.
pub fn is_standard(word: &str) -> bool {
    STANDARDS.contains(&word.to_uppercase().as_str())
}

/// Reads a number with the text that begins with it.
fn with_all(before: &str, number: &str, text: &str) -> Option<Described> {
    let direct = listed(text);
    let may_be_one = direct.is_some()
        || number.contains([' ', '/', '+'])
        || number.starts_with(|c: char| c.is_ascii_alphabetic())
        || listed(number).is_some();
    if !may_be_one {
        return None;
    }
    let (plain, set) = set_of(before, text);
    let whole = direct
        .filter(|_| !set.are_there)
        .or_else(|| listed(&plain))
        .or_else(|| listed(&without_standards(&plain)))
        .or_else(|| half_of_pair(number, &plain));
    if let Some(mut read) = whole {
        let is_other = |token: &String| listed(token).is_some_and(|other| !is_same(&other, &read));
        if let Some(other) = read
            .traits
            .unknown_suffixes
            .iter()
            .find(|token| is_other(token))
        {
            return Some(Described::Two(number.to_owned(), other.clone()));
        }
        if !set.are_there {
            return Some(Described::Whole(read));
        }
        if make_set(&mut read, set.are_of_pairs) {
            return Some(Described::Whole(read));
        }
        // A set of what is no bearing is nothing that a standard knows.
        return listed(text)
            .map(Described::Whole)
            .or_else(|| partly(read, text));
    }
    let (mut read, unread) = longest(number, &plain).or_else(|| several(number))?;
    if unread.is_empty() {
        return Some(Described::Whole(read));
    }
    let numbers = numbers_in(&unread);
    if let Some(other) = numbers.iter().find(|other| !is_same(other, &read)) {
        return Some(Described::Two(read.printed, other.printed.clone()));
    }
    if is_once_more(&read, &unread) && make_set(&mut read, true) {
        return Some(Described::Whole(read));
    }
    if set.are_there {
        make_set(&mut read, set.are_of_pairs);
    }
    partly(read, &unread)
}

/// A cone or a cup by its own number: the half of the only pair of the tables that has it (ABMA 19.2).
fn half_of_pair(number: &str, text: &str) -> Option<Designation> {
    let digits = number.bytes().filter(u8::is_ascii_digit).count();
    if digits < LEAST_PAIR_DIGITS || !number.starts_with(|c: char| c.is_ascii_alphabetic()) {
        return None;
    }
    let upper = number.to_uppercase();
    let families = Family::ALL.into_iter();
    let mut pairs = families
        .filter(|family| family.facts().exchange.listed.has_two_numbers)
        .flat_map(standard::of_family)
        .filter_map(|row| Some((row, row.designation.split_once('/')?)))
        .filter(|(_, (cone, cup))| *cone == upper || *cup == upper);
    let (row, (cone, cup)) = pairs.next().filter(|_| pairs.next().is_none())?;
    let (half, other) = if cone == upper {
        (Half::Inner, cup)
    } else {
        (Half::Outer, cone)
    };
    let rest = text.get(number.len()..).unwrap_or_default().trim();
    if rest.to_uppercase().contains(other) {
        return Designation::parse(&row.designation);
    }
    let mut read = Designation::parse(&format!("{} {rest}", row.designation))?;
    read.traits.add_variant(half.of(row.size.family())?);
    text.clone_into(&mut read.printed);
    Some(read)
}

fn partly(mut read: Designation, unread: &str) -> Option<Described> {
    read.traits.forget_unmarked();
    read.traits.unknown_suffixes.push(unread.to_owned());
    Some(Described::Partly(read, unread.to_owned()))
}

/// The text without the words for a set, and what the words around the number say.
fn set_of(before: &str, text: &str) -> (String, SetWords) {
    let (plain, is_set) = without_set_words(text);
    let (_, is_set_before) = without_set_words(before);
    let is_counted = ends_in_count(before);
    let words = SetWords {
        are_there: is_set || is_set_before || is_counted,
        are_of_pairs: is_counted || says_pair(text) || says_pair(before),
    };
    (plain, words)
}

/// Words for a set around a number.
#[derive(Clone, Copy)]
struct SetWords {
    are_there: bool,
    /// They are not said of the rings of one bearing.
    are_of_pairs: bool,
}

/// `2 x ` or `2x ` in front of a number.
fn ends_in_count(before: &str) -> bool {
    let squeezed: String = before.to_lowercase().replace('×', "x");
    let squeezed = squeezed.trim_end();
    let Some(count) = squeezed.strip_suffix('x').map(str::trim_end) else {
        return false;
    };
    let last = count.rsplit(' ').next().unwrap_or_default();
    last.parse::<u8>()
        .is_ok_and(|count| (2..=8).contains(&count))
}

/// Marks bearings that stand together; false where the part is no bearing, or the words may be of the rings of one.
fn make_set(read: &mut Designation, are_of_pairs: bool) -> bool {
    let is_bearing = family_of(read).is_some_and(|family| {
        let in_sets = family.facts().exchange.in_sets == InSets::Sets;
        in_sets || are_of_pairs && family.is_radial_bearing()
    });
    if is_bearing {
        let arrangement = &mut read.traits.arrangement;
        arrangement.get_or_insert_with(|| UNSAID_SET.to_owned());
    }
    is_bearing
}

/// The number with the most words that are understood with it, and the words behind them.
fn longest(number: &str, text: &str) -> Option<(Designation, String)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let least = number.split(' ').count();
    let is_word = |word: &str| word.contains(char::is_alphanumeric);
    let read = |end: usize| Some((listed(&words[..end].join(" "))?, words[end..].join(" ")));
    let is_plain = |(read, _): &(Designation, String)| read.traits.unknown_suffixes.is_empty();
    (least..=words.len())
        .rev()
        .filter(|end| *end > 0 && is_word(words[end - 1]))
        .find_map(|end| read(end).filter(is_plain))
        .or_else(|| read(least.min(words.len())))
}

/// `6308/6309`: several numbers in one word.
fn several(number: &str) -> Option<(Designation, String)> {
    let (first, rest) = number.split_once(['/', '+'])?;
    listed(rest)?;
    let sign = &number[first.len()..=first.len()];
    Some((listed(first)?, format!("{sign} {rest}")))
}

/// The numbers of a text that a standard lists, but for those of the standards themselves.
fn numbers_in(text: &str) -> Vec<Designation> {
    let signs = [' ', ',', ';', '/', '+', '&', '(', ')'];
    let pieces: Vec<&str> = text.split(signs).filter(|word| !word.is_empty()).collect();
    (0..pieces.len())
        .filter(|at| {
            !at.checked_sub(1)
                .is_some_and(|before| is_standard(pieces[before]))
        })
        .filter_map(|at| listed(&pieces[at..at + number_at(&pieces, at)?].join(" ")))
        .collect()
}

/// True for two designations of one basic number.
fn is_same(one: &Designation, other: &Designation) -> bool {
    let (one, other) = (NameKey::new(&one.basic), NameKey::new(&other.basic));
    // `7208` beside `7208 B`: the angle is in the basic number of some tables.
    one == other
}

/// True where the unread words are `+ 7208 B` behind `7208 B`.
fn is_once_more(read: &Designation, unread: &str) -> bool {
    let Some((sign, rest)) = unread.trim().split_once(' ') else {
        return false;
    };
    AND.contains(&sign.to_lowercase().as_str())
        && listed(rest).is_some_and(|other| is_same(&other, read) && other.traits == read.traits)
}

/// A text without the standards named in it: `6308 DIN 625-1`.
fn without_standards(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let is_number = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit());
    let is_of_standard = |at: usize| {
        let before = at.checked_sub(1).map(|before| words[before]);
        is_standard(words[at]) || before.is_some_and(is_standard) && is_number(&words[at])
    };
    let kept = (0..words.len()).filter(|at| *at == 0 || !is_of_standard(*at));
    kept.map(|at| words[at]).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn whole(text: &str) -> Designation {
        match described(text) {
            Some(Described::Whole(read)) => read,
            other => panic!("{text}: {other:?}"),
        }
    }

    /// ABMA 19.2 numbers cone and cup apart: the tables of such a family hold them with a stroke.
    #[test]
    fn families_of_two_numbers_have_them_in_their_tables() {
        for family in Family::ALL {
            let has_two = family.facts().exchange.listed.has_two_numbers;
            let is_pair = |row: &standard::StandardPart| {
                let numbers = row.designation.split_once('/');
                numbers.is_some_and(|(cone, cup)| {
                    cone.starts_with(char::is_alphabetic) && cup.starts_with(char::is_alphabetic)
                })
            };
            let has_pairs = standard::of_family(family).iter().any(is_pair);
            assert_eq!(has_two, has_pairs, "{family}");
            assert!(!has_two || Half::Inner.of(family).is_some(), "{family}");
        }
    }

    #[test]
    fn what_stands_in_brackets_is_said_of_the_part() {
        // DIN 623-1, DIN 720, SAE AS568: the same marks outside of brackets.
        for (text, marked) in [
            ("Bearing 6308 (C3)", "6308 C3"),
            ("6308 (2RS)", "6308 2RS"),
            ("22216 (K)", "22216 K"),
            ("7208 B (pair, DB)", "7208 B DB"),
            ("32208 (cup)", "32208 cup"),
            ("AS568-214 (90 Sh)", "AS568-214 90 Sh"),
            ("6308 (for pump 3)", "6308"),
            ("Rillenkugellager 6308 DIN 625-1", "6308"),
            ("Bearing DIN 625 6308", "6308"),
        ] {
            let read = whole(text);
            assert_eq!(
                read.traits,
                Designation::parse(marked).unwrap().traits,
                "{text}"
            );
            assert!(read.traits.unknown_suffixes.is_empty(), "{text}");
        }
    }

    #[test]
    fn what_is_not_understood_leaves_open_what_it_may_speak_of() {
        for text in [
            "Bearing 6308 (clearance unknown)",
            "NU 208 (without inner ring)",
            "NA 4905 (inner ring missing)",
            "6308 (art. 123456)",
            "6308 or 6308 C3",
        ] {
            let read = match described(text) {
                Some(Described::Whole(read) | Described::Partly(read, _)) => read,
                other => panic!("{text}: {other:?}"),
            };
            let traits = &read.traits;
            assert!(!traits.unknown_suffixes.is_empty(), "{text}");
            assert_eq!((traits.clearance, traits.closure), (None, None), "{text}");
            assert_eq!(traits.tolerance_class, None, "{text}");
            assert!(!traits.has_variant("inner ring only"), "{text}");
        }
    }

    #[test]
    fn sets_and_choices_are_no_single_bearing() {
        for text in [
            "7208 B + 7208 B",
            "7208 B + 7208 B matched",
            "set of 2 x 7208 B",
            "2 x 7208 B",
            "7208 B pair",
            "7208 B (Paar)",
            "7208 B Satz",
        ] {
            let read = whole(text);
            assert_eq!(
                read.traits.arrangement.as_deref(),
                Some(UNSAID_SET),
                "{text}"
            );
            assert_eq!(
                read.traits.contact_angle.map(|angle| angle.0),
                Some(40),
                "{text}"
            );
        }
        // A cone and its cup are sold as a set: the word is not understood.
        for text in ["32208 set", "6308 Satz"] {
            let read = whole(text);
            assert_eq!(read.traits.arrangement, None, "{text}");
            assert_eq!(read.traits.unknown_suffixes.len(), 1, "{text}");
        }
        for (text, one, other) in [
            ("6308 or 6309", "6308", "6309"),
            ("6308/6309", "6308", "6309"),
            ("32208 + 32207", "32208", "32207"),
            ("6308 or NU308", "6308", "NU308"),
        ] {
            let two = Described::Two(one.to_owned(), other.to_owned());
            assert_eq!(described(text), Some(two), "{text}");
        }
        let Some(Described::Partly(read, unread)) = described("NJ 208 E + HJ 208 E") else {
            panic!("an angle ring is not read");
        };
        assert_eq!(
            (read.basic.as_str(), unread.as_str()),
            ("NJ208", "+ HJ 208 E")
        );
        assert_eq!(read.traits.clearance, None);
    }

    #[test]
    fn numbers_behind_words_are_found_by_their_tables() {
        // ISO 8734 (DIN 6325); a number that is only mentioned is not the part.
        assert_eq!(
            whole("Zylinderstift DIN 6325 8m6x40").basic,
            "DIN 6325-8x40"
        );
        // ISO 286-2: the class stands in the size. Without one the figures are read as those of any part.
        for text in [
            "Dowel pin 8 m6 x 40",
            "Passstift 8m6x40",
            "Zylinderstift 8x40 (m6)",
        ] {
            let size = whole(text).size.unwrap();
            let fit = size.fit().map(|fit| fit.to_string());
            assert_eq!(
                (size.to_string().as_str(), fit.as_deref()),
                ("8 x 40 mm m6", Some("m6")),
                "{text}"
            );
        }
        assert_eq!(described("Dowel pin 8x40"), None);
        // ABMA 19.2: LM67048 is the cone of a pair, LM67010 its cup.
        for (text, variant) in [
            ("Cone LM67048", Some("cone only")),
            ("Cup LM67010", Some("cup only")),
            ("Taper bearing LM67048/LM67010", None),
            ("Taper bearing LM67048 + LM67010", None),
        ] {
            let read = whole(text);
            assert_eq!(read.traits.variant.as_deref(), variant, "{text}");
            assert_eq!(read.basic, "LM67048/LM67010", "{text}");
            assert!(read.traits.unknown_suffixes.is_empty(), "{text}");
        }
        assert_eq!(described("Housing for 6308 (C3)"), None);
        assert_eq!(described("Kugellager 25x52x15"), None);
        assert_eq!(described("Pump impeller"), None);
    }
}
