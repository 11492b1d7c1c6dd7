//! Figures below zero: no length is, and a minus that is left out makes another size of it.

use super::binding::is_role;
use super::figure::{is_figure, is_joined};
use crate::standard;

/// Words that say what the figure behind them is of, besides those of the parts.
const OF_GROOVE: [&str; 4] = ["depth", "floor", "tiefe", "grund"];
/// What may be below zero: heat, and pressure below that of the air.
const MAY_BE_BELOW: [&str; 9] = ["c", "°c", "degc", "°", "f", "°f", "degf", "bar", "degrees"];

/// The text without its figures below zero and the words that name them, and what was left out.
///
/// A dash between figures (`40 -62 -12`), before a number of the tables (`bearing -6206`, O-ring `-214`) or a joined size
/// behind the name of a part (`seal -40x62x8`) is none.
pub(super) fn take(text: &str) -> (String, Vec<String>) {
    if !text.contains(['-', '−']) {
        return (text.to_owned(), Vec::new());
    }
    let spaced = text
        .replace('−', "-")
        .replace("=-", " -")
        .replace(":-", " -");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut kept: Vec<&str> = Vec::with_capacity(words.len());
    let mut out = Vec::new();
    for (at, word) in words.iter().enumerate() {
        if !is_below_zero(&words, at) {
            kept.push(word);
            continue;
        }
        let is_named = kept
            .last()
            .is_some_and(|name| at > 0 && words[at - 1] == *name && names_length(name));
        let name = if is_named { kept.pop() } else { None };
        let word = word.trim_end_matches([',', ';']);
        out.push(name.map_or_else(|| word.to_owned(), |name| format!("{name} {word}")));
    }
    if out.is_empty() {
        return (text.to_owned(), out);
    }
    (kept.join(" "), out)
}

fn names_length(word: &str) -> bool {
    is_role(word) || OF_GROOVE.contains(&word.to_lowercase().as_str())
}

fn is_below_zero(words: &[&str], at: usize) -> bool {
    let word = words[at].trim_end_matches([',', ';']);
    let Some(figure) = word.strip_prefix('-') else {
        return false;
    };
    if !is_figure(figure) || !figure.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
        return false;
    }
    let next = words.get(at + 1).map(|next| next.to_lowercase());
    let next = next.as_deref().unwrap_or_default();
    if MAY_BE_BELOW.contains(&next.trim_end_matches([',', ';'])) {
        return false;
    }
    let before = at.checked_sub(1).map(|before| words[before]);
    if before.is_some_and(|before| matches!(before, "x" | "X" | "×") || names_length(before)) {
        return true;
    }
    if standard::is_designation(figure) || is_dash_number(figure, next, words) {
        return false;
    }
    let Some(before) = before else {
        return true;
    };
    let is_behind_figure = before
        .trim_end_matches([',', ';'])
        .ends_with(|c: char| c.is_ascii_digit());
    let is_size = is_joined(figure) || matches!(next, "x" | "×");
    !is_behind_figure && !is_size
}

/// `-214`, `-12 o-ring`: the dash numbers of SAE AS568 are commonly written so.
fn is_dash_number(figure: &str, next: &str, words: &[&str]) -> bool {
    const NAMES: [&str; 7] = ["o-ring", "o-rings", "oring", "o", "seal", "as568", "dash"];
    let is_length = matches!(next, "x" | "×" | "mm" | "in" | "inch");
    if is_length || figure.len() > 3 || !figure.bytes().all(|b| b.is_ascii_digit()) {
        return false;
    }
    let mut words = words.iter();
    let is_named = words.any(|word| NAMES.contains(&word.to_lowercase().as_str()));
    is_named || figure.len() == 3 && standard::is_designation(&format!("AS568-{figure}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    /// Common practice, no source: a length is above zero.
    #[test]
    fn a_figure_below_zero_is_told_and_not_read_without_its_sign() {
        for (text, told, left) in [
            ("bore -5 od 62", "bore -5", 1),
            ("bore=-5 od 62", "bore -5", 1),
            ("bore −5 od 62", "bore -5", 1),
            ("od 62 bore -5", "bore -5", 1),
            ("40 x 62 x -12", "-12", 2),
            ("6205 shaft -25.008 micrometer", "shaft -25.008", 0),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let has_it = question.not_understood.iter().any(|word| word == told);
            assert!(has_it, "{text}: {question:?}");
            assert_eq!(question.readings.len(), left, "{text}: {question:?}");
        }
        for text in ["-40", "bore -40", "-40 mm", "circlip -5"] {
            assert!(Question::read(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_dash_between_figures_and_before_a_number_is_none() {
        for text in [
            "40-62-12",
            "40 -62 -12",
            "40 - 62 - 12",
            "6308-2RS",
            "6308 -2RS",
            "bearing -6206",
            "o-ring -214",
            "-214",
            "-12 o-ring",
            "-214 seal",
            "AS568 -214",
            "6206 -40 C",
            "6206 from -20 °C to 80 °C",
            "lip seal -40x62x8",
            "lip seal -40 x 62 x 8",
            "1-5/8 x 2",
        ] {
            assert_eq!(take(text), (text.to_owned(), Vec::new()), "{text}");
        }
    }
}
