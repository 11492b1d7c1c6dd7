//! Centimetres: `shaft 4 cm housing 8 cm`, `30 x 62 x 16 cm` are read as the millimetres they are; and units that no part of a
//! table is measured in.

use super::binding::is_role;
use super::figure::is_figure;
use crate::part::designation::elastomer;

/// Names of the unit, in lower case.
const NAMES: [&str; 8] = [
    "cm",
    "centimetre",
    "centimetres",
    "centimeter",
    "centimeters",
    "zentimeter",
    "centimètre",
    "centimètres",
];
/// Letters of which each of the names has some.
const LETTERS: [&str; 3] = ["cm", "cent", "zent"];
/// Words between the figures of a size.
const CROSSES: [&str; 5] = ["x", "×", "by", "*", "mal"];
/// Words behind the name of a dimension.
const BETWEEN: [&str; 5] = ["dia", "diameter", "of", "is", "="];
/// Other units of length: a figure in front of one is in it.
const OTHERS: [&str; 8] = ["mm", "in", "inch", "inches", "zoll", "\"", "''", "in."];
/// Largest figure that is taken for centimetres, cm (common practice, no source: larger parts are written otherwise).
const MOST_CM: f64 = 100.0;
/// Units of length that no part of a table is measured in.
const OF_NO_PART: [&str; 12] = [
    "µm", "μm", "um", "micron", "microns", "dm", "thou", "mil", "mils", "ft", "feet", "foot",
];

/// True for a unit of length, in lower case, that no part of a table is measured in.
pub(super) fn is_of_no_part(lower: &str) -> bool {
    OF_NO_PART.contains(&lower)
}

/// A text with its centimetres as millimetres; `None` where it has none.
///
/// A unit is of the figure before it, and of those joined to it or named beside it that have none of their own.
pub(super) fn in_mm(text: &str) -> Option<String> {
    // Most questions have none: they are not taken apart into words.
    let has = |letters: &&str| {
        let mut windows = text.as_bytes().windows(letters.len());
        windows.any(|window| window.eq_ignore_ascii_case(letters.as_bytes()))
    };
    if !LETTERS.iter().any(has) {
        return None;
    }
    let words: Vec<&str> = text.split(' ').collect();
    let mut in_cm = vec![false; words.len()];
    let mut units = Vec::new();
    for (at, word) in words.iter().enumerate() {
        let lower = bare(word).to_lowercase();
        let is_glued = lower.strip_suffix("cm").is_some_and(is_in_reach);
        let is_apart = NAMES.contains(&lower.as_str())
            && at > 0
            && is_in_reach(bare(words[at - 1]))
            && !words[at - 1].ends_with([',', ';']);
        if is_glued || is_apart {
            in_cm[at] = is_glued;
            units.push(at);
        }
    }
    for at in &units {
        mark_before(&words, *at, &mut in_cm);
        mark_behind(&words, *at, &mut in_cm);
    }
    let read = |(at, word): (usize, &&str)| match in_cm[at] {
        true => tenfold(word),
        false if units.contains(&at) => Some(word.replace(bare(word), "mm")),
        false => Some((*word).to_owned()),
    };
    let read: Option<Vec<String>> = words.iter().enumerate().map(read).collect();
    read.filter(|_| !units.is_empty())
        .map(|read| read.join(" "))
}

fn bare(word: &str) -> &str {
    word.trim_end_matches([',', ';', ')', '.'])
        .trim_start_matches('(')
}

/// True for figures that may be centimetres.
fn is_in_reach(word: &str) -> bool {
    is_figure(word) && pieces(word).all(|piece| value(piece).is_some_and(|cm| cm <= MOST_CM))
}

fn pieces(word: &str) -> impl Iterator<Item = &str> {
    word.split(['x', 'X', '×', '*'])
}

fn value(piece: &str) -> Option<f64> {
    let digits = piece.trim_start_matches(['Ø', '⌀']).replace(',', ".");
    let is_plain = digits.starts_with(|c: char| c.is_ascii_digit() || c == '.');
    digits.parse().ok().filter(|_| is_plain)
}

/// Words that may stand between figures of one size.
fn is_link(word: &str) -> bool {
    let lower = bare(word).to_lowercase();
    is_role(&lower) || CROSSES.contains(&lower.as_str()) || BETWEEN.contains(&lower.as_str())
}

/// Figures in front of a unit that belong to it: `30 62 16 cm`, `bore 2.5 od 5.2 cm`.
fn mark_before(words: &[&str], unit: usize, in_cm: &mut [bool]) {
    for at in (0..unit).rev() {
        let word = bare(words[at]);
        // `NBR 70`: a hardness.
        let is_hardness = at > 0 && elastomer(bare(words[at - 1])).is_some();
        if is_in_reach(word) && !is_hardness {
            in_cm[at] = true;
        } else if !is_link(word) {
            break;
        }
    }
}

/// Figures behind a unit, each with its name or a cross before it, as far as no other unit follows: `4 cm x 8`.
fn mark_behind(words: &[&str], unit: usize, in_cm: &mut [bool]) {
    let mut found = Vec::new();
    for at in unit + 1..words.len() {
        let word = bare(words[at]);
        if is_in_reach(word) && is_link(words[at - 1]) {
            found.push(at);
        } else if OTHERS.contains(&word.to_lowercase().as_str()) {
            return;
        } else if !is_link(word) {
            break;
        }
    }
    for at in found {
        in_cm[at] = true;
    }
}

/// The figures of a word, each ten times as much and with a decimal less: `2.50` is `25.0`.
fn tenfold(word: &str) -> Option<String> {
    let body = bare(word);
    let unit = if body.to_lowercase().ends_with("cm") {
        "mm"
    } else {
        ""
    };
    let figures = body.trim_end_matches(['c', 'm', 'C', 'M']);
    let mut read = Vec::new();
    for piece in pieces(figures) {
        let decimals = piece
            .split_once(['.', ','])
            .map_or(0, |(_, rest)| rest.len());
        read.push(format!(
            "{:.*}",
            decimals.saturating_sub(1),
            10.0 * value(piece)?
        ));
    }
    Some(word.replace(body, &format!("{}{unit}", read.join("x"))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::{Question, answer};

    /// Arithmetic: 1 cm is 10 mm (ISO 80000-3).
    #[test]
    fn centimetres_are_ten_millimetres() {
        for (text, read) in [
            ("shaft 4 cm housing 8 cm", "shaft 40 mm housing 80 mm"),
            ("30 cm x 62 cm x 16 cm", "300 mm x 620 mm x 160 mm"),
            (
                "2.5 cm bore 5.2 cm od 1.5 cm wide",
                "25 mm bore 52 mm od 15 mm wide",
            ),
            ("30x62x16cm", "300x620x160mm"),
            ("3 x 6,2 x 1,6 cm", "30 x 62 x 16 mm"),
            ("3 6.2 1.6 Zentimeter", "30 62 16 mm"),
            ("bore 2.5 od 5.2 width 1.5 cm", "bore 25 od 52 width 15 mm"),
            ("6205 shaft 2.5 cm", "6205 shaft 25 mm"),
            ("608 shaft 0.80 cm", "608 shaft 8.0 mm"),
            (
                "O-ring NBR 70 2.5 cm x 0.3 cm",
                "O-ring NBR 70 25 mm x 3 mm",
            ),
            ("4 cm x 8 x 1.8", "40 mm x 80 x 18"),
            ("shaft 4cm, housing 8", "shaft 40mm, housing 80"),
            // Another unit behind says what its figures are in.
            ("4 cm x 80 x 18 mm", "40 mm x 80 x 18 mm"),
            ("4 cm 70 NBR", "40 mm 70 NBR"),
        ] {
            assert_eq!(in_mm(text).as_deref(), Some(read), "{text}");
        }
        for text in [
            "40 mm",
            "cm",
            "6205 cm",
            "shaft, cm",
            "centre 40",
            "1/2 cm",
            "",
        ] {
            assert_eq!(in_mm(text), None, "{text}");
        }
    }

    /// ISO 15: 25 x 52 x 15 mm is 6205, 30 x 62 x 16 mm is 6206.
    #[test]
    fn a_size_in_centimetres_is_that_in_millimetres() {
        for (cm, mm) in [
            (
                "2.5 cm bore 5.2 cm od 1.5 cm wide",
                "25 mm bore 52 mm od 15 mm wide",
            ),
            ("3 x 6.2 x 1.6 cm", "30 x 62 x 16 mm"),
        ] {
            let first = |text: &str| {
                let answers = answer(&Question::read(text).unwrap(), None);
                answers.answers[0].designation.clone()
            };
            assert_eq!(first(cm), first(mm), "{cm}");
            let question = Question::read(cm).unwrap();
            assert_eq!(question.text, cm);
            assert!(question.not_understood.is_empty(), "{cm}: {question:?}");
            let told = question.notes.join("; ");
            assert!(told.contains("centimetres read as millimetres"), "{told}");
        }
        let large = answer(&Question::read("30 cm x 62 cm x 16 cm").unwrap(), None);
        let is_6206 = |name: &str| name == "6206";
        assert!(large.answers.iter().all(|of| !is_6206(&of.designation)));
    }

    #[test]
    fn a_figure_in_micrometres_is_no_length_of_a_part() {
        let question = Question::read("30 µm x 62 x 16").unwrap();
        assert_eq!(question.not_understood, ["30 µm"]);
        let lengths = question.readings.iter().map(|of| of.length.length.to_mm());
        assert!(lengths.eq([62.0, 16.0]), "{question:?}");
    }
}
