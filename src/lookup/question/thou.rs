//! Thousandths of an inch: `bore 984 thou`, `984 x 2047 x 591 mil` are read as inches. Feet are no unit of a part here.

use std::sync::LazyLock;

use super::any_of::AnyOf;
use super::figure::is_figure;
use crate::standard;

/// Names of the unit, in lower case; each has one of the beginnings.
const NAMES: [&str; 4] = ["thou", "thous", "mil", "mils"];
const BEGINNINGS: [&str; 2] = ["thou", "mil"];
const FEET: [&str; 3] = ["ft", "feet", "foot"];
const CROSSES: [&str; 3] = ["x", "X", "×"];
/// A dimension of a part is no less, thousandths of an inch: fewer are wear, a clearance or a shim (common practice, no source).
const LEAST: f64 = 30.0;
/// The largest part that is written in thousandths, of an inch (common practice, no source).
const MOST: f64 = 20_000.0;

/// A text with its thousandths of an inch as inches, and what is told of it; `None` where it has none.
pub(super) fn in_inches(text: &str) -> Option<(String, String)> {
    static ANY: LazyLock<AnyOf> = LazyLock::new(|| BEGINNINGS.into_iter().collect());
    if !ANY.stands_in(text) {
        return None;
    }
    let words: Vec<&str> = text.split(' ').collect();
    let mut read: Vec<String> = words.iter().map(|word| (*word).to_owned()).collect();
    let mut is_any = false;
    for at in 1..words.len() {
        if !NAMES.contains(&bare(words[at]).to_lowercase().as_str()) {
            continue;
        }
        // The figures in front, as far as crosses join them.
        let mut first = at - 1;
        // `984 thou x 2047 thou`: the figure before has its own unit.
        while first >= 2 && CROSSES.contains(&words[first - 1]) && is_figure(words[first - 2]) {
            first -= 2;
        }
        let step = match first + 1 == at {
            // `984 2047 591 thou`
            true => {
                first -= words[..first]
                    .iter()
                    .rev()
                    .take_while(|word| is_plain(word))
                    .count();
                1
            }
            false => 2,
        };
        let figures: Option<Vec<(usize, String)>> = (first..at)
            .step_by(step)
            .map(|at| Some((at, inches(words[at])?)))
            .collect();
        if let Some(figures) = figures {
            for (place, figure) in figures {
                read[place] = figure;
            }
            read[at] = words[at].replace(bare(words[at]), "inch");
            is_any = true;
        }
    }
    let read = read.join(" ");
    let note = format!("thousandths of an inch read as inches: `{read}`");
    is_any.then_some((read, note))
}

/// Each figure of a word as inches; `None` where one is none of a part.
fn inches(word: &str) -> Option<String> {
    if !is_figure(word) || word.contains('/') {
        return None;
    }
    let pieces = word.split(['x', 'X', '×']).map(|piece| {
        let plain = piece.replace(',', ".");
        let decimals = plain.split_once('.').map_or(0, |(_, digits)| digits.len());
        let value: f64 = plain.parse().ok()?;
        let is_of_part = (LEAST..=MOST).contains(&value);
        is_of_part.then(|| format!("{:.*}", decimals + 3, value / 1_000.0))
    });
    let pieces: Option<Vec<String>> = pieces.collect();
    Some(pieces?.join("x"))
}

/// A plain figure that may be thousandths of an inch: of three digits or more, and no number of a bearing.
fn is_plain(word: &str) -> bool {
    word.len() >= 3
        && word.bytes().all(|b| b.is_ascii_digit())
        && inches(word).is_some()
        && !standard::is_designation(word)
}

fn bare(word: &str) -> &str {
    word.trim_end_matches([',', ';', ')', '.'])
}

/// What is told of a figure in feet, as written.
pub(super) fn of_feet(said: &str, unit: &str) -> Option<String> {
    let is_feet = FEET.contains(&unit.to_lowercase().as_str());
    is_feet
        .then(|| format!("`{said}`: a foot is no unit of a part here, write inches or millimetres"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::{Question, answer};

    /// Definition: 1 thou (mil) is 0.001 in, 25.4 µm.
    #[test]
    fn thousandths_are_inches() {
        for (text, read) in [
            ("bearing bore 984 thou", Some("bearing bore 0.984 inch")),
            ("bore 1378 mil, od 72 mm", Some("bore 1.378 inch, od 72 mm")),
            ("984 x 2047 x 591 thou", Some("0.984 x 2.047 x 0.591 inch")),
            (
                "984 thou x 2047 thou x 591 thou",
                Some("0.984 inch x 2.047 inch x 0.591 inch"),
            ),
            ("984 2047 591 thou", Some("0.984 2.047 0.591 inch")),
            ("6206 984 thou", Some("6206 0.984 inch")),
            ("25 52 591 thou", Some("25 52 0.591 inch")),
            ("984x2047x591 mils", Some("0.984x2.047x0.591 inch")),
            ("bore 984.3 thou", Some("bore 0.9843 inch")),
            ("o-ring 1234 x 139 thou", Some("o-ring 1.234 x 0.139 inch")),
            // Wear, clearances and shims.
            ("6206 od worn 3 thou", None),
            ("shim 5 thou", None),
            ("25 x 52 thousand", None),
            ("6206 milling head", None),
            ("thou", None),
        ] {
            let found = in_inches(text).map(|(read, _)| read);
            assert_eq!(found.as_deref(), read, "{text}");
        }
    }

    /// SAE AS568-218 is 1.234 x 0.139 in.
    #[test]
    fn a_part_in_thousandths_is_found() {
        let question = Question::read("o-ring 1234 x 139 thou").unwrap();
        let answers = answer(&question, None).answers;
        assert_eq!(answers[0].designation, "AS568-218");
        let told = question.notes.join("; ");
        assert!(
            told.contains("thousandths of an inch read as inches"),
            "{told}"
        );
    }

    /// A shaft that is larger by a thousandth of an inch is no second part.
    #[test]
    fn what_is_larger_by_thousandths_is_told() {
        let question = Question::read("6206 shaft +1 thou").unwrap();
        assert!(!question.not_understood.is_empty(), "{question:?}");
        let told = question.notes.join("; ");
        assert!(!told.contains("another part"), "{told}");
    }

    #[test]
    fn a_foot_is_told() {
        let question = Question::read("25x52 1 ft").unwrap();
        assert_eq!(question.not_understood, ["1 ft"]);
        let told = question.notes.join("; ");
        assert!(told.contains("a foot is no unit of a part here"), "{told}");
        let micron = Question::read("25x52x15 30 µm").unwrap();
        assert!(micron.notes.iter().all(|note| !note.contains("foot")));
    }
}
