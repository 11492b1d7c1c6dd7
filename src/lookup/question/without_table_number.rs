//! Numbers of parts that are in no table here, with what the number itself tells of them: `MB8`, `KML 24`, `HM3044`, `UC206`,
//! `5206`.

use super::figure::is_figure;
use super::without_table::{HM_NUT, INCH_ANGULAR, INSERT, LARGE_NUT, LIGHT_NUT, TAB_WASHER};
use crate::part::Dimension;
use crate::part::designation::{Designation, bore_mm};
use crate::standard;

/// What a number is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Of {
    /// `KM24`: beyond the table.
    LargeNut,
    /// `KML24`.
    LightNut,
    /// `HM3044`.
    HmNut,
    /// `MB8`, `MBL24`.
    Washer,
    /// `UC206`.
    Insert,
    /// `5206`.
    InchAngular,
}

/// A number and the words beside it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Number<'a> {
    of: Of,
    /// As written, with letters and digits together and in capitals.
    name: String,
    /// Bore or thread that the number says, mm.
    mm: f64,
    /// Words behind the number.
    rest: Vec<&'a str>,
}

/// Last code of ISO 2982 nuts in the tables.
const LAST_NUT: u32 = 20;
/// Last code of nuts at all: KM40 is M200 (from memory).
const LAST_CODE: u32 = 40;
/// Thread diameter is five times the code from here on, mm (ISO 2982-2).
const FIRST_OF_FIVE: u32 = 4;
/// A figure this near the thread is of it, mm, or this share of it: the core of a thread and what a calliper is unsure of.
const NEAR_MM: f64 = 2.6;
const NEAR_SHARE: f64 = 0.025;
/// A thread, bore or shaft; smaller figures are widths, mm.
const LEAST_MM: f64 = 8.0;
/// Largest bore of double row angular contact ball bearings of these numbers, mm (from memory).
const LARGEST_MM: f64 = 110.0;
/// Words that a figure of the seat stands behind.
const SEATS: [&str; 12] = [
    "thread", "gewinde", "filetage", "bore", "bohrung", "id", "shaft", "welle", "arbre", "for",
    "für", "pour",
];
/// Words that a figure of the outside or width stands behind.
const OTHERS: [&str; 10] = [
    "od", "outside", "outer", "außen", "width", "wide", "thick", "breite", "dicke", "height",
];

/// The first number of a part without a table; `None` where a part with a table stands before it.
pub(super) fn read(lower: &str) -> Option<Number<'_>> {
    let words: Vec<&str> = lower.split_whitespace().collect();
    let bare = |word: &'_ str| word.trim_matches([',', ';', '(', ')']).to_owned();
    let has_digit = |word: &str| word.contains(|c: char| c.is_ascii_digit());
    let first = words.iter().position(|word| has_digit(word))?;
    let is_letters = |word: &str| !word.is_empty() && word.bytes().all(|b| b.is_ascii_alphabetic());
    let before = first.checked_sub(1).map(|at| bare(words[at]));
    let word = bare(words[first]);
    // `KML 24`: letters and digits with a blank.
    let is_apart = word.starts_with(|c: char| c.is_ascii_digit())
        && before
            .as_deref()
            .is_some_and(|before| is_letters(before) && is_prefix(before));
    let name = match before {
        Some(before) if is_apart => format!("{before}{word}"),
        _ => word,
    };
    // Digits alone are such a number in front only: `belt 5206` is none.
    if first > 0 && name.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let rest = words[first + 1..].to_vec();
    let (of, mm) = meaning(&name, &rest)?;
    Some(Number {
        of,
        name: name.to_uppercase(),
        mm,
        rest,
    })
}

fn is_prefix(letters: &str) -> bool {
    matches!(letters, "mb" | "mbl" | "km" | "kml" | "hm") || is_insert(letters)
}

/// Letters of insert bearings, alone and with their housings (JIS B 1558 and B 1559, from memory).
fn is_insert(letters: &str) -> bool {
    const HOUSINGS: [&str; 12] = [
        "", "p", "pa", "ph", "f", "fa", "fb", "fc", "fl", "t", "c", "ha",
    ];
    letters
        .strip_prefix("uc")
        .is_some_and(|housing| HOUSINGS.contains(&housing))
}

/// What a number in lower case is of, and its thread or bore, mm.
fn meaning(name: &str, rest: &[&str]) -> Option<(Of, f64)> {
    let digits = name.trim_start_matches(|c: char| c.is_ascii_alphabetic());
    let letters = &name[..name.len() - digits.len()];
    let digits = digits.trim_start_matches('-');
    if letters.is_empty() {
        return inch_angular(digits, rest);
    }
    let is_number = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    if is_insert(letters) {
        return Some((Of::Insert, insert_mm(digits)?));
    }
    if letters == "hm"
        && let Some(mm) = hm_mm(digits, rest)
    {
        return Some((Of::HmNut, mm));
    }
    if !is_number(digits) {
        return None;
    }
    let code: u32 = digits.parse().ok()?;
    let of_code = |code: u32| f64::from(code) * 5.0;
    let thread_mm = if code >= FIRST_OF_FIVE {
        of_code(code)
    } else {
        thread_of_table(code)?
    };
    Some(match (letters, digits.len()) {
        ("mb" | "mbl", 1..=2) if code <= LAST_CODE => (Of::Washer, thread_mm),
        ("km", 2) if (LAST_NUT + 1..=LAST_CODE).contains(&code) => (Of::LargeNut, thread_mm),
        ("kml", 1..=2) if code <= LAST_CODE => (Of::LightNut, thread_mm),
        // HM3044: series 30 and 31, then the code of the thread.
        ("hm", 4) if digits.starts_with("30") || digits.starts_with("31") => {
            (Of::HmNut, of_code(code % 100))
        }
        _ => return None,
    })
}

/// Bore of `204` by its code, and of `204-12` in sixteenths of an inch, mm (JIS B 1558, from memory).
fn insert_mm(digits: &str) -> Option<f64> {
    const INCH_MM: f64 = 25.4;
    let is_number = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    let (series, sixteenths) = digits.split_once('-').unwrap_or((digits, ""));
    if series.len() != 3 || !is_number(series) || !is_number(sixteenths) || sixteenths.len() > 2 {
        return None;
    }
    match sixteenths {
        "" => bore_mm(&series[1..]),
        // To the tenth of a micrometre, which a sixteenth has.
        count => Some((count.parse::<f64>().ok()? * INCH_MM / 16.0 * 1e4).round() / 1e4),
    }
}

/// Thread of `HM42T`, five times its code, and of `HM31/500`, which is written out, mm (ISO 2982-2, from memory).
fn hm_mm(digits: &str, rest: &[&str]) -> Option<f64> {
    const CODES: std::ops::RangeInclusive<u32> = 40..=60;
    const THREADS: std::ops::RangeInclusive<u32> = 500..=1_200;
    if let Some(("30" | "31", thread)) = digits.split_once('/') {
        let thread: u32 = thread.parse().ok()?;
        return THREADS.contains(&thread).then_some(f64::from(thread));
    }
    let (code, is_marked) = match digits.strip_suffix('t') {
        Some(code) => (code, true),
        None => (digits, rest.first() == Some(&"t")),
    };
    let code: u32 = code.parse().ok().filter(|_| code.len() == 2 && is_marked)?;
    CODES.contains(&code).then_some(f64::from(code) * 5.0)
}

/// The thread of a nut whose code says it by no rule: KM0 to KM3.
fn thread_of_table(code: u32) -> Option<f64> {
    let nut = Designation::parse(&format!("KM{code}"))?;
    let thread = standard::resolve(&nut)?
        .size
        .get(Dimension::ThreadDiameter)?;
    Some(thread.to_mm())
}

/// A figure this near the bore of the number is the bore, mm: wear and a calliper.
const BORE_WITHIN_MM: f64 = 0.6;
/// Figures of a size.
const LEAST_FIGURES: usize = 3;

/// The figures among words, joined ones apart.
fn figures<'a>(words: &'a [&'a str]) -> impl Iterator<Item = f64> + 'a {
    words
        .iter()
        .filter(|word| is_figure(word))
        .flat_map(|word| word.split(['x', '×']))
        .filter_map(|piece| {
            let bare = piece
                .trim_matches([',', ';', '(', ')'])
                .trim_end_matches("mm");
            bare.replace(',', ".").parse().ok()
        })
}

/// `5206`, `5306 2RS`: four digits, and no figures behind them that would make them a length.
fn inch_angular(name: &str, rest: &[&str]) -> Option<(Of, f64)> {
    let end = name
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(name.len());
    let (digits, mark) = name.split_at(end);
    let is_number = digits.len() == 4 && (digits.starts_with("52") || digits.starts_with("53"));
    let is_mark =
        mark.is_empty() || mark.starts_with(['-', '/']) || mark.starts_with(char::is_alphabetic);
    let mm = bore_mm(&digits[digits.len().min(2)..]).filter(|mm| *mm <= LARGEST_MM)?;
    // `5206 30 62 23.8`: the bore of the number among the figures says that it is one.
    let has_bore = figures(rest).any(|read_mm| (read_mm - mm).abs() <= BORE_WITHIN_MM);
    let is_length = mark.starts_with('x')
        || rest
            .first()
            .is_some_and(|next| matches!(*next, "x" | "×" | "mm") || is_figure(next) && !has_bore);
    (is_number && is_mark && !is_length).then_some((Of::InchAngular, mm))
}

impl Number<'_> {
    /// How many words stand behind the number where they hold a whole size, whose figures alone say which part it is.
    pub(super) fn words_of_size(&self) -> Option<usize> {
        let is_size = figures(&self.rest).count() >= LEAST_FIGURES;
        (is_size && self.of == Of::InchAngular).then_some(self.rest.len())
    }

    /// The kind of part, as the list of those without a table names it.
    pub(super) const fn kind(&self) -> &'static str {
        match self.of {
            Of::LargeNut => LARGE_NUT,
            Of::LightNut => LIGHT_NUT,
            Of::HmNut => HM_NUT,
            Of::Washer => TAB_WASHER,
            Of::Insert => INSERT,
            Of::InchAngular => INCH_ANGULAR,
        }
    }

    /// What the number says, and figures beside it that contradict it.
    pub(super) fn notes(&self) -> Vec<String> {
        let (name, mm) = (&self.name, self.mm);
        let code: String = name.chars().filter(char::is_ascii_digit).collect();
        let says = match self.of {
            Of::LargeNut | Of::LightNut => {
                format!(
                    "`{name}` has a thread of {mm} mm (ISO 2982-2, from memory): measure the pitch"
                )
            }
            Of::HmNut => format!(
                "`{name}` has a trapezoidal thread of {mm} mm (ISO 2982-2, from memory): measure the pitch"
            ),
            Of::Washer => {
                let nut = if name.starts_with("MBL") { "KML" } else { "KM" };
                format!(
                    "`{name}` is the lock washer of the nut {nut}{code}, on a thread of {mm} mm (ISO 2982-2)"
                )
            }
            Of::Insert => {
                format!("`{name}` has a bore of {mm} mm by its bore code (JIS B 1558, from memory)")
            }
            Of::InchAngular => format!(
                "`{name}` has a bore of {mm} mm by its bore code, and is taken for no other number unmeasured"
            ),
        };
        let other = self.other_seat().map(|read_mm| {
            format!(
                "number and size contradict each other: `{name}` sits on {mm} mm, and {read_mm} mm was read; read the number and measure again"
            )
        });
        std::iter::once(says).chain(other).collect()
    }

    /// A figure beside the number that is of its seat and of another size, mm.
    fn other_seat(&self) -> Option<f64> {
        self.rest.iter().enumerate().find_map(|(at, word)| {
            let word = word.trim_matches([',', ';', '(', ')']);
            let is_thread =
                word.starts_with('m') && word[1..].starts_with(|c: char| c.is_ascii_digit());
            let figure = word.trim_start_matches('m').trim_end_matches("mm");
            let figure = figure.split('x').next()?.replace(',', ".");
            let read_mm: f64 = figure.parse().ok()?;
            let before = at.checked_sub(1).map_or("", |at| self.rest[at]);
            let is_seat = is_thread || SEATS.contains(&before);
            let is_alone = !OTHERS.contains(&before) && read_mm >= LEAST_MM;
            let is_other = (read_mm - self.mm).abs() > NEAR_MM.max(NEAR_SHARE * self.mm);
            ((is_seat || is_alone) && is_other).then_some(read_mm)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn notes(text: &str) -> Vec<String> {
        let lower = text.to_lowercase();
        read(&lower).map_or_else(Vec::new, |number| number.notes())
    }

    /// ISO 2982-2: KM8 is M40x1.5, KML24 M120x2, HM3044 Tr220x4; JIS B 1558: UC206 has a bore of 30 mm; from memory.
    #[test]
    fn a_number_says_its_thread_or_bore() {
        for (text, says) in [
            ("MB8", "lock washer of the nut KM8, on a thread of 40 mm"),
            ("MB 8", "`MB8` is the lock washer of the nut KM8"),
            ("MB8 washer", "nut KM8"),
            ("lock washer MB 2", "nut KM2, on a thread of 15 mm"),
            ("MBL24", "nut KML24, on a thread of 120 mm"),
            ("KML 24", "`KML24` has a thread of 120 mm"),
            ("KM24", "a thread of 120 mm"),
            ("HM3044", "trapezoidal thread of 220 mm"),
            ("UC206", "a bore of 30 mm"),
            ("UC 206", "a bore of 30 mm"),
            ("UCFL 204", "`UCFL204` has a bore of 20 mm"),
            ("UCPA 204", "a bore of 20 mm"),
            ("bearing UCFL 204", "a bore of 20 mm"),
            ("ucf 205", "a bore of 25 mm"),
            // 12/16 in, arithmetic.
            ("UC204-12", "a bore of 19.05 mm"),
            ("UCP 204-12", "a bore of 19.05 mm"),
            ("HM42T", "a trapezoidal thread of 210 mm"),
            ("HM 50 T", "a trapezoidal thread of 250 mm"),
            ("HM31/500", "a trapezoidal thread of 500 mm"),
            ("5206", "`5206` has a bore of 30 mm"),
            ("5206 2RS", "`5206` has a bore of 30 mm"),
        ] {
            let notes = notes(text);
            assert!(
                notes.len() == 1 && notes[0].contains(says),
                "{text}: {notes:?}"
            );
        }
    }

    #[test]
    fn a_contrary_size_beside_the_number_is_told() {
        for text in [
            "MB8 thread 35",
            "MB8 M35x1.5",
            "MB8 35",
            "KML24 thread 100",
            "UC206 bore 25",
        ] {
            let notes = notes(text);
            assert!(
                notes.iter().any(|note| note.contains("contradict")),
                "{text}: {notes:?}"
            );
        }
        for text in [
            "MB8 thread 40",
            "MB8 M40x1.5",
            "MB8 thread 38.4",
            "MB8 od 62",
            "MB8 1.25 thick",
        ] {
            assert_eq!(notes(text).len(), 1, "{text}");
        }
    }

    /// ISO 15: 30 x 62 x 23.8 mm is dimension series 32, of DIN 628-3 bearing 3206.
    #[test]
    fn a_size_beside_the_number_is_asked_for() {
        use crate::lookup::Question;
        for text in [
            "5206 30 62 23.8",
            "5206 30 x 62 x 23.8",
            "5206 30x62x23.8",
            "5206 2RS 30 62 23.8",
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert!(question.without_table.is_none(), "{text}");
            let read = question.readings.iter().map(|of| of.length.length.to_mm());
            let sum_mm: f64 = read.sum();
            assert!((sum_mm - 115.8).abs() < 1e-9, "{text}: {question:?}");
            assert!(question.designation.is_none(), "{text}");
            let told = question.notes.join("; ");
            assert!(
                told.contains("`5206` has a bore of 30 mm"),
                "{text}: {told}"
            );
            assert_eq!(question.text, text);
        }
        let alone = Question::read("5206 bore 30").unwrap();
        assert!(alone.without_table.is_some());
    }

    #[test]
    fn other_numbers_are_left() {
        for text in [
            "KM8",
            "KM20",
            "6206",
            "52206",
            "HM88649",
            "HM 50",
            "HM 50 x 20",
            "UCX 12",
            "HM3044x2",
            "22208 K with MB8",
            "5206 x 5300 x 12",
            "M12",
            "52 62 16",
            "belt 5206",
            "30 x 52 x 16",
        ] {
            let lower = text.to_lowercase();
            assert_eq!(read(&lower), None, "{text}");
        }
    }
}
