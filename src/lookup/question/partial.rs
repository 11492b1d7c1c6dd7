//! Numbers of which a piece cannot be read: `63?6`, `6308-`, `?205`.

use super::{kind, retaining_ring};
use crate::part::designation::Designation;
use crate::part::{Family, RingAway, Traits};
use crate::standard::{self, StandardPart};

/// Rows that fit what is readable.
pub(super) struct Partial {
    pub(super) rows: Vec<&'static StandardPart>,
    /// Numbers that fit and are in no table.
    pub(super) unlisted: usize,
    /// What half of the rows' bearings the number is of.
    pub(super) half: Option<&'static str>,
    pub(super) read_as: String,
}

/// Signs that stand for one character that cannot be read.
pub(super) const GAPS: [char; 3] = ['?', '_', '#'];

/// Rows of the standard tables that a half-read number may be; `None` where the text is none.
pub(super) fn read(text: &str) -> Option<Partial> {
    let text = text.trim();
    // `KM?`: the letters of a number, and one gap behind them.
    let is_letters_and_gap = text.strip_suffix(GAPS).is_some_and(|letters| {
        !letters.is_empty() && letters.bytes().all(|b| b.is_ascii_alphabetic())
    });
    let has_digit = text.contains(|c: char| c.is_ascii_digit());
    let has_blank = text.contains(char::is_whitespace) && !text.starts_with(RING);
    if has_blank || !has_digit && !is_letters_and_gap {
        return None;
    }
    if text.contains(GAPS) || text.contains('*') {
        return by_pattern(text);
    }
    let Some(stem) = text.strip_suffix(['-', '/', '…']) else {
        return by_half(text);
    };
    let designation = Designation::parse(stem)?;
    let mut rows: Vec<&StandardPart> = standard::named(&designation.basic)
        .filter(|row| {
            row.designation == designation.basic || row.synonyms.contains(&designation.basic)
        })
        .collect();
    // By size, as the tables are; a row may be found by two spellings of its name.
    rows.sort_by(|a, b| (a.size, &a.designation).cmp(&(b.size, &b.designation)));
    rows.dedup_by(|a, b| std::ptr::eq(*a, *b));
    (!rows.is_empty()).then(|| Partial {
        rows,
        unlisted: 0,
        half: None,
        read_as: format!(
            "`{text}` ends with a sign: `{stem}` is read, its suffixes (closure, clearance, class) are not known"
        ),
    })
}

/// Most letters of a number that a blank may part from its digits: `NU ?06`.
const MOST_LETTERS: usize = 3;

/// Fewest signs of a number of ISO 355 that has a letter behind it: `3201? X`.
const LEAST_WITH_LETTER: usize = 5;

/// Numbers of retaining rings begin with the name of their standard.
const RING: &str = "DIN 47";

/// `DIN 471 3?`, `circlip DIN 472-6? worn`: a ring's half-read size with its standard, as the tables write it, and the words
/// behind it.
fn split_ring(text: &str) -> Option<(String, &str)> {
    let at = text
        .as_bytes()
        .windows(3)
        .position(|window| window.eq_ignore_ascii_case(b"din"))?;
    let is_kind = kind::families_in(&text[..at])
        .into_iter()
        .any(retaining_ring::is_ring);
    if at > 0 && !is_kind {
        return None;
    }
    let name = text[at + 3..].trim_start();
    let standard = ["471", "472"].into_iter().find(|of| name.starts_with(of))?;
    let size = name[standard.len()..].trim_start_matches(['-', ' ', ':']);
    let (size, behind) = size.split_once(char::is_whitespace).unwrap_or((size, ""));
    let is_size = size
        .chars()
        .all(|c| c.is_ascii_digit() || GAPS.contains(&c) || matches!(c, 'x' | 'X' | '.'));
    let is_gapped = size.contains(GAPS) && size.contains(|c: char| c.is_ascii_digit());
    (is_size && is_gapped).then(|| (format!("DIN {standard}-{size}"), behind))
}

/// `620?-2RS`: the number, and where the marks begin that a stroke parts from it.
fn marks_behind_stroke(first: &str) -> Option<(&str, usize)> {
    let at = first.find(['-', '/'])?;
    let (number, marks) = (&first[..at], &first[at + 1..]);
    // `L4464?/L44610` has the number of its cup behind the stroke.
    const LEAST_OF_NUMBER: usize = 4;
    let digits = marks.bytes().filter(u8::is_ascii_digit).count();
    let is_marks = marks.contains(|c: char| c.is_ascii_alphabetic())
        && !marks.contains(GAPS)
        && digits < LEAST_OF_NUMBER;
    let has_digit = number.contains(|c: char| c.is_ascii_digit());
    (number.contains(GAPS) && has_digit && is_marks).then_some((number, at + 1))
}

/// The number that a text begins with, its letters and digits together, and the words behind it.
pub(super) fn split(text: &str) -> (String, &str) {
    if let Some(ring) = split_ring(text) {
        return ring;
    }
    let (first, rest) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    if let Some((number, marks)) = marks_behind_stroke(first) {
        return (number.to_owned(), &text[marks..]);
    }
    // `3201? X`: the letter belongs to the number (ISO 355).
    let (letter, behind) = rest.split_once(char::is_whitespace).unwrap_or((rest, ""));
    let is_size = behind.starts_with(|c: char| c.is_ascii_digit());
    let is_letter = letter.eq_ignore_ascii_case("X") && !is_size;
    if is_letter && first.len() >= LEAST_WITH_LETTER && first.contains(GAPS) {
        return (format!("{first}X"), behind);
    }
    // `620? -2RS`
    let is_mark = |rest: &str| {
        let mark = rest.split_whitespace().next().unwrap_or_default();
        mark.contains(|c: char| c.is_ascii_alphabetic())
    };
    let bare = rest.strip_prefix('-').filter(|bare| is_mark(bare));
    if let Some(bare) = bare.filter(|_| first.contains(GAPS)) {
        return (first.to_owned(), bare);
    }
    let is_letters = first.len() <= MOST_LETTERS && first.bytes().all(|b| b.is_ascii_alphabetic());
    let (second, behind) = rest.split_once(char::is_whitespace).unwrap_or((rest, ""));
    let is_gapped = second.contains(GAPS) && second.contains(|c: char| c.is_ascii_digit());
    if is_letters && is_gapped {
        (format!("{first}{second}"), behind)
    } else {
        (first.to_owned(), rest)
    }
}

/// What the marks behind a half-read number say, read as behind one of the rows, and the words behind them: `72?6 B`.
pub(super) fn marks(rows: &[&'static StandardPart], rest: &str) -> Option<(Traits, String)> {
    const MOST_MARKS: usize = 3;
    let is_mark = |word: &&str| {
        word.len() <= 4
            && word.starts_with(|c: char| c.is_ascii_alphanumeric())
            && !word.contains(|c: char| c.is_ascii_lowercase())
            && word.contains(|c: char| c.is_ascii_uppercase())
    };
    let count = rest
        .split_whitespace()
        .take_while(is_mark)
        .count()
        .min(MOST_MARKS);
    let read = |words: &str| {
        rows.iter().find_map(|row| {
            let read = Designation::parse(&format!("{} {words}", row.designation))?;
            let is_whole = read.traits.unknown_suffixes.is_empty() && !read.is_in_words;
            (is_whole && standard::resolve(&read).is_some()).then_some(read.traits)
        })
    };
    let words: Vec<&str> = rest.split_whitespace().collect();
    (1..=count).rev().find_map(|count| {
        let traits = read(&words[..count].join(" "))?;
        Some((traits, words[count..].join(" ")))
    })
}

/// Bearings of the tables that a cone or cup of its own number belongs to: `LM11749`, `LM11710` (ABMA 19.2).
fn by_half(text: &str) -> Option<Partial> {
    let number = text.to_ascii_uppercase();
    let halves = |row: &'static StandardPart| row.designation.split_once('/');
    let has_halves = |family: &Family| family.facts().asked.ring_away == RingAway::OtherHalf;
    let families = Family::ALL.into_iter().filter(has_halves);
    let pairs = families.flat_map(standard::of_family);
    let rows_of = |is_it: &dyn Fn((&str, &str)) -> bool| -> Vec<&StandardPart> {
        let rows = pairs.clone().filter(|row| halves(row).is_some_and(is_it));
        rows.collect()
    };
    let is_letters_first = number.starts_with(|c: char| c.is_ascii_uppercase());
    if !is_letters_first {
        return None;
    }
    let of_cone = rows_of(&|(cone, _)| cone == number);
    let of_cup = rows_of(&|(_, cup)| cup == number);
    let (rows, half, name, other) = if of_cone.is_empty() {
        (of_cup, "cup only", "cup", "cone")
    } else {
        (of_cone, "cone only", "cone", "cup")
    };
    (!rows.is_empty()).then(|| Partial {
        rows,
        unlisted: 0,
        half: Some(half),
        read_as: format!(
            "`{text}` is the number of a {name}: half a bearing, which goes with its {other}"
        ),
    })
}

fn by_pattern(text: &str) -> Option<Partial> {
    // Designations are plain ASCII; a letter that is not fits nothing.
    let pattern: Vec<u8> = text
        .chars()
        .map(|c| match c {
            c if GAPS.contains(&c) => b'?',
            c => u8::try_from(c.to_ascii_uppercase()).unwrap_or(0),
        })
        .collect();
    let readable = pattern.iter().filter(|c| c.is_ascii_alphanumeric()).count();
    let is_letter_and_gap = pattern.len() == 2 && pattern[0].is_ascii_alphabetic();
    if readable < 2 && !is_letter_and_gap {
        return None;
    }
    let gap = rib_gap(&pattern);
    let fits = |name: &str| match gap {
        Some(at) => fits_series(&pattern, at, name.as_bytes()),
        // `3201?` leaves the letter of 32010 X out.
        None => [name, name.strip_suffix('X').unwrap_or(name)]
            .into_iter()
            .any(|name| matches(&pattern, name.as_bytes())),
    };
    let rows: Vec<&StandardPart> = standard::parts()
        .iter()
        .filter(|row| fits(&row.designation) || row.synonyms.iter().any(|name| fits(name)))
        .collect();
    (!rows.is_empty()).then(|| Partial {
        read_as: unreadable(text, rows.len()),
        half: None,
        unlisted: unlisted(&pattern, &rows),
        rows,
    })
}

/// What is said of a text with gaps.
pub(super) fn unreadable(text: &str, rows: usize) -> String {
    format!("`{text}` has places that cannot be read: of the tables there fit {rows}")
}

/// `NU?206`: where the gap stands behind the letters of the ribs; they stay as read, and the gap is a digit of the series or
/// none.
fn rib_gap(pattern: &[u8]) -> Option<usize> {
    const RIBS: [&[u8]; 3] = [b"NU", b"NJ", b"NUP"];
    let at = pattern.iter().position(|c| *c == b'?')?;
    let behind = &pattern[at + 1..];
    let is_number = behind.len() >= 3 && behind.iter().all(|c| c.is_ascii_digit() || *c == b'?');
    (RIBS.contains(&&pattern[..at]) && is_number).then_some(at)
}

/// True where a name has a digit in the gap, or nothing.
fn fits_series(pattern: &[u8], at: usize, name: &[u8]) -> bool {
    let is_digit = name.get(at).is_some_and(u8::is_ascii_digit);
    let without = [&pattern[..at], &pattern[at + 1..]].concat();
    is_digit && (matches(pattern, name) || matches(&without, name))
}

/// Digits in the gaps that make a number with a bore, but one of no table: as many as that are thinkable, not made.
fn unlisted(pattern: &[u8], rows: &[&StandardPart]) -> usize {
    let gaps: Vec<usize> = (0..pattern.len())
        .filter(|at| pattern[*at] == b'?')
        .collect();
    if gaps.len() > 2 || pattern.contains(&b'*') {
        return rows.len();
    }
    let count = 10usize.pow(gaps.len() as u32);
    let is_unlisted = |filling: &usize| {
        let mut number = pattern.to_vec();
        let mut rest = *filling;
        for at in &gaps {
            number[*at] = b'0' + (rest % 10) as u8;
            rest /= 10;
        }
        let designation = std::str::from_utf8(&number)
            .ok()
            .and_then(Designation::parse);
        // A number that carries its size can be made up from any; only series and bore codes count.
        designation.is_some_and(|read| {
            read.bore.is_some() && read.size.is_none() && standard::resolve(&read).is_none()
        })
    };
    (0..count).filter(is_unlisted).count()
}

/// `?` stands for one character, `*` for any number of them.
///
/// Only the last `*` is ever tried again: what an earlier one took cannot matter any more. So a text of nothing but
/// asterisks costs no more than its length times that of the name.
fn matches(pattern: &[u8], name: &[u8]) -> bool {
    let (mut at, mut read) = (0, 0);
    // Behind the last asterisk, and the first character that it has not taken yet.
    let mut again: Option<(usize, usize)> = None;
    while read < name.len() {
        match pattern.get(at) {
            Some(b'*') => {
                at += 1;
                again = Some((at, read));
            }
            Some(sign) if *sign == b'?' || *sign == name[read].to_ascii_uppercase() => {
                at += 1;
                read += 1;
            }
            _ => {
                let Some((behind, taken)) = again else {
                    return false;
                };
                (at, read) = (behind, taken + 1);
                again = Some((behind, read));
            }
        }
    }
    pattern[at..].iter().all(|sign| *sign == b'*')
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    fn names(text: &str) -> Vec<&'static str> {
        read(text).map_or_else(Vec::new, |found| {
            found
                .rows
                .iter()
                .map(|row| row.designation.as_str())
                .collect()
        })
    }

    #[test]
    fn a_gap_fits_one_sign() {
        // DIN 625-1 numbers of series 63 with a 6 at the end: 6306, 6316, 6326 where the table has them.
        let found = names("63?6");
        assert!(
            found.contains(&"6306") && found.contains(&"6316"),
            "{found:?}"
        );
        assert!(
            found
                .iter()
                .all(|name| name.len() == 4 && name.starts_with("63") && name.ends_with('6'))
        );
        assert!(names("NU2*").contains(&"NU205"));
    }

    #[test]
    fn signs_for_what_cannot_be_read_fit_as_they_do_in_a_shell() {
        for (pattern, name, fits) in [
            ("6?0*", "6206", true),
            ("6?0*", "6306ZZ", true),
            ("6?06*", "6306-2RS", true),
            ("*06", "6206", true),
            ("*06", "NU206", true),
            ("*06", "6060", false),
            ("*2*6", "6206", true),
            ("*2*6", "6260", false),
            ("6206**", "6206", true),
            ("6206?", "6206", false),
            ("N*2?5", "NU205", true),
            ("N*2?5", "nu2205", true),
            ("", "", true),
            ("*", "", true),
            ("?", "", false),
        ] {
            assert_eq!(
                matches(pattern.as_bytes(), name.as_bytes()),
                fits,
                "{pattern} {name}"
            );
        }
    }

    #[test]
    fn a_text_of_asterisks_is_answered_like_any_other() {
        // Found by fuzzing: each asterisk once doubled the ways to try.
        assert!(names(&format!("{}108-02ASME", "*".repeat(49))).is_empty());
        assert!(names(&format!("{}206", "*".repeat(200))).contains(&"6206"));
    }

    #[test]
    fn marks_behind_a_gap_are_those_of_its_numbers() {
        use crate::part::{BoreForm, Clearance};
        // DIN 623-1: K is a tapered bore 1:12, C3 more clearance than normal; DIN 628-1: B is 40 degrees.
        let read = |text: &str| {
            let (number, rest) = split(text);
            let rows = read(&number).unwrap().rows;
            marks(&rows, rest)
        };
        let (traits, rest) = read("22?08 K worn").unwrap();
        assert_eq!(
            (traits.bore_form, rest.as_str()),
            (Some(BoreForm::Taper12), "worn")
        );
        let (traits, rest) = read("63?6 2RS C3").unwrap();
        assert_eq!((traits.clearance, rest.as_str()), (Some(Clearance::C3), ""));
        let angle = read("72?6 B").and_then(|(traits, _)| traits.contact_angle);
        assert_eq!(angle.map(|angle| angle.0), Some(40));
        assert!(read("63?6 worn").is_none() && read("63?6").is_none());
        assert_eq!(split("NU ?06 worn"), ("NU?06".to_owned(), "worn"));
        assert_eq!(split("63?6 worn"), ("63?6".to_owned(), "worn"));
        assert_eq!(split("seal ?"), ("seal".to_owned(), "?"));
    }

    /// DIN 471 has a ring for every whole shaft from 30 to 39 mm; DIN 472 names its bores alike.
    #[test]
    fn a_half_read_ring_is_none_of_one_digit() {
        for text in [
            "DIN 471 3?",
            "DIN 471-3?",
            "din471 3?",
            "circlip DIN 471 3?",
        ] {
            let (number, rest) = split(text);
            let rows = names(&number);
            assert_eq!((rows.len(), rest), (10, ""), "{text}: {rows:?}");
            let is_of_thirties =
                |name: &&str| name.starts_with("DIN 471-3") && name.as_bytes()[9].is_ascii_digit();
            assert!(rows.iter().all(is_of_thirties), "{text}: {rows:?}");
        }
        assert!(names(&split("DIN 472 6? worn").0).contains(&"DIN 472-62x2"));
        assert_eq!(split("pump DIN 471 3?").0, "pump");
        let designation = Designation::parse("DIN 471 3?").unwrap();
        assert_eq!(designation.size, None);
    }

    /// DIN 623-1: 2RS and 2Z stand behind the number, with or without a stroke.
    #[test]
    fn marks_behind_a_stroke_are_no_part_of_a_half_read_number() {
        for (text, number, rest) in [
            ("620?-2RS", "620?", "2RS"),
            ("6?06-2RS C3", "6?06", "2RS C3"),
            ("60?/2Z", "60?", "2Z"),
            ("620? -2RS", "620?", "2RS"),
            ("62?6", "62?6", ""),
            // Of a dash number the gap is behind the stroke.
            ("AS568-2?4", "AS568-2?4", ""),
        ] {
            assert_eq!(split(text), (number.to_owned(), rest), "{text}");
        }
        use crate::part::Closure;
        for text in ["620?-2RS", "6?06-2RS C3", "620? 2RS", "620?-2rs"] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let closure = question.traits.closure;
            assert_eq!(closure, Some(Closure::SealBothSides), "{text}");
            assert!(question.partial.len() > 1, "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
    }

    /// ISO 15 and DIN 5412-1: NU206 and NU2206 have a bore of 30 mm; NUP206 has other ribs than were read.
    #[test]
    fn a_gap_behind_the_letters_of_the_ribs_is_a_digit_or_none() {
        let found = names("NU?206");
        for name in ["NU206", "NU2206"] {
            assert!(found.contains(&name), "{found:?}");
        }
        for text in ["NU?206", "NJ?206", "NU?2?6"] {
            let letters = &text[..2];
            let is_alike = |name: &&str| {
                name.starts_with(letters)
                    && name.as_bytes()[2].is_ascii_digit()
                    && name.ends_with('6')
            };
            let found = names(text);
            assert!(
                found.len() > 1 && found.iter().all(is_alike),
                "{text}: {found:?}"
            );
        }
    }

    /// DIN 5412-1: the letters that were read say the ribs.
    #[test]
    fn letters_that_were_read_say_the_ribs() {
        use crate::part::RibForm;
        for (text, ribs) in [
            ("NJ?206", Some(RibForm::Nj)),
            ("NU22?6", Some(RibForm::Nu)),
            ("NU?206", Some(RibForm::Nu)),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(question.traits.rib_form, ribs, "{text}");
        }
    }

    #[test]
    fn letters_with_one_gap_are_a_number() {
        // ISO 2982-2 and DIN 981: KM0 to KM9 have one digit. ABMA 20: R8 is 1/2 in.
        assert_eq!(names("KM?").len(), 10);
        assert!(names("R?").contains(&"R8"));
        assert!(names("what?").is_empty() && names("?").is_empty() && names("KM*").len() < 2);
    }

    #[test]
    fn an_end_that_is_missing_leaves_the_number() {
        assert_eq!(names("6308-"), ["6308"]);
        assert!(names("6308-2RS").is_empty());
        assert!(names("40-").is_empty());
        assert!(read("??").is_none());
    }
}
