//! What the three figures of the look-up are called, by the kind of part that was chosen, and the words that they become.

use crate::part::{Family, FormFigures};

/// The kinds that can be chosen, each in the words of a question.
pub(super) fn kinds() -> impl Iterator<Item = &'static str> {
    offered().map(|(kind, _)| kind)
}

/// The kinds with the names of their figures (terms of ISO 3601-1, ISO 2338, DIN 471 and DIN 472): a retaining ring in the hand
/// is measured free, the other figure is that of its seat.
fn offered() -> impl Iterator<Item = (&'static str, FormFigures)> {
    let in_form = |family: Family| family.facts().asked.in_form;
    let offered = Family::ALL.into_iter().filter_map(in_form);
    offered.map(|form| (form.name, form.figures))
}

/// What the figures of a kind are called.
pub(super) fn of(kind: &str) -> FormFigures {
    let own = offered().find(|(known, _)| *known == kind.trim());
    own.map_or(FormFigures::USUAL, |(_, figures)| figures)
}

/// The names of one figure for the script of the page: of each kind that has its own, and of all others under no name.
pub(super) fn names(at: usize, say: impl Fn(&str) -> String) -> String {
    let own = offered().filter(|(_, figures)| *figures != FormFigures::USUAL);
    let names = std::iter::once(("", FormFigures::USUAL)).chain(own);
    let names: serde_json::Map<String, serde_json::Value> = names
        .map(|(kind, figures)| (kind.to_owned(), say(figures.labels[at]).into()))
        .collect();
    serde_json::Value::from(names).to_string()
}

/// The figures with the words for them; one that is written twice under one word is said once.
pub(super) fn said<'a>(kind: &str, figures: [&'a str; 3]) -> Vec<(&'static str, &'a str)> {
    let mut said: Vec<(&'static str, &'a str)> = Vec::new();
    for (word, figure) in of(kind).words.into_iter().zip(figures) {
        let figure = figure.trim();
        if !figure.is_empty() && !said.contains(&(word, figure)) {
            said.push((word, figure));
        }
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::{Question, answer};

    #[test]
    fn figures_are_said_by_the_kind_that_was_chosen() {
        assert_eq!(
            said("deep groove", ["40", "", " 18 "]),
            [("bore", "40"), ("width", "18")]
        );
        assert_eq!(
            said("dowel pin", ["6", "6", "24"]),
            [("diameter", "6"), ("length", "24")]
        );
        assert_eq!(
            said("dowel pin", ["6", "6.1", ""]),
            [("diameter", "6"), ("diameter", "6.1")]
        );
        assert_eq!(of("nonsense"), FormFigures::USUAL);
        let names = names(2, str::to_owned);
        let read: serde_json::Value = serde_json::from_str(&names).unwrap();
        assert_eq!(read[""], "Width");
        assert_eq!(read["o-ring"], "Section");
    }

    /// SAE AS568-218: 31.34 x 3.53 mm; ISO 2338 and ISO 8734: 6 x 24 mm; DIN 471-25, free inside 23.2 mm; DIN 472-52.
    #[test]
    fn each_kind_is_found_by_its_own_figures() {
        for (kind, figures, name) in [
            ("o-ring", ["31.34", "", "3.53"], "AS568-218"),
            ("dowel pin", ["", "6", "24"], "6x24"),
            ("dowel pin", ["6", "", "24"], "6x24"),
            ("external circlip", ["", "25", ""], "DIN 471-25"),
            ("external circlip", ["23.2", "", ""], "DIN 471-25"),
            ("external circlip", ["", "25", "1.2"], "DIN 471-25"),
            ("internal circlip", ["52", "", ""], "DIN 472-52"),
        ] {
            let words: Vec<String> = said(kind, figures)
                .into_iter()
                .map(|(word, figure)| format!("{word} {figure}"))
                .collect();
            let text = format!("{} {kind}", words.join(" "));
            let question = Question::read(&text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let left = &question.not_understood;
            assert!(left.is_empty(), "{text}: {left:?}");
            let answers = answer(&question, None).answers;
            let names: Vec<&String> = (answers.iter())
                .flat_map(|one| std::iter::once(&one.designation).chain(&one.twins))
                .collect();
            assert!(
                names.iter().any(|of| of.contains(name)),
                "{text}: {names:?}"
            );
            let told = question.notes.join("; ");
            assert!(!told.contains("contradict"), "{text}: {told}");
        }
    }
}
