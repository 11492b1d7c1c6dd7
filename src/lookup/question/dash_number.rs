//! Where an AS568 dash number stands in a text: `o-ring dash 214 FKM steam`, `214 o-ring EPDM 120 C`.

use super::{binding, need_words};
use crate::part::designation::elastomer;

/// Words behind a figure that make it no dash number and no length of the ring: hardness, heat, pressure, speed.
const UNITS: [&str; 12] = [
    "shore", "c", "°c", "degc", "°", "f", "°f", "degf", "bar", "rpm", "degrees", "grad",
];
/// Words that make the figure before or behind them a length.
const OF_LENGTH: [&str; 6] = ["mm", "inch", "inches", "in", "x", "×"];

/// The word that may be a dash number: the only figure that is neither a length nor hardness, heat or pressure.
pub(super) fn place(words: &[&str]) -> Option<usize> {
    let bare = |at: usize| {
        let word = words.get(at).copied().unwrap_or_default();
        word.trim_end_matches([',', ';']).to_lowercase()
    };
    let is_elastomer = |at: usize| elastomer(&bare(at)).is_some();
    let is_of_another = |at: &usize| {
        let word = bare(*at);
        // `NBR 90`, `90 NBR`
        let is_shore = word.len() == 2
            && (is_elastomer(*at + 1) || at.checked_sub(1).is_some_and(is_elastomer));
        UNITS.contains(&bare(*at + 1).as_str()) || need_words::is_quantity(&word) || is_shore
    };
    let mut figures = (0..words.len())
        .filter(|at| words[*at].contains(|c: char| c.is_ascii_digit()))
        .filter(|at| !is_of_another(at));
    let (Some(at), None) = (figures.next(), figures.next()) else {
        return None;
    };
    let before = at.checked_sub(1);
    let is_length = OF_LENGTH.contains(&bare(at + 1).as_str())
        || before.is_some_and(|before| binding::is_role(words[before]));
    (!is_length).then_some(at)
}

/// The text without its dash number, and without the word `dash` before it.
pub(super) fn without(words: &[&str], at: usize) -> String {
    let before = at.checked_sub(1);
    let is_named = before.is_some_and(|before| {
        let word = words[before].to_lowercase();
        matches!(
            word.as_str(),
            "dash" | "no." | "nr." | "number" | "as568" | "-"
        )
    });
    let start = at - usize::from(is_named);
    let rest = words[..start].iter().chain(&words[at + 1..]).copied();
    rest.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use crate::interchange::Fluid;
    use crate::lookup::Question;

    /// SAE AS568: dash 214 is 0.984 x 0.139 in.
    #[test]
    fn what_is_said_beside_a_dash_number_is_read() {
        for (text, material, fluid) in [
            ("o-ring 214 FKM steam", Some("FKM"), Some(Fluid::Steam)),
            (
                "o-ring dash 214 EPDM mineral oil",
                Some("EPDM"),
                Some(Fluid::MineralOil),
            ),
            (
                "O-Ring 214 EPDM Mineralöl",
                Some("EPDM"),
                Some(Fluid::MineralOil),
            ),
            ("o-ring 214 NBR 90 shore", Some("NBR"), None),
            ("o-ring 214 90 NBR", Some("NBR"), None),
            (
                "214 o-ring EPDM mineral oil 120 C",
                Some("EPDM"),
                Some(Fluid::MineralOil),
            ),
            ("o-ring 214", None, None),
            ("-214", None, None),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let basic = question
                .designation
                .as_ref()
                .map(|read| read.basic.as_str());
            assert_eq!(basic, Some("AS568-214"), "{text}");
            assert_eq!(question.traits.material.as_deref(), material, "{text}");
            assert_eq!(question.needs.fluid, fluid, "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
            let shore = question.traits.hardness.as_deref();
            assert_eq!(shore.is_some(), text.contains("90"), "{text}: {shore:?}");
            let hot = question.needs.highest_c.is_some();
            assert_eq!(hot, text.contains("120"), "{text}");
        }
        assert_eq!(
            Question::read("o-ring 214 wobbly").unwrap().not_understood,
            ["wobbly"]
        );
    }

    /// SAE AS568: dashes 004, 005 and 012 are of the narrowest section, 0.070 in.
    #[test]
    fn a_dash_is_read_with_what_stands_beside_it() {
        for (text, number, material) in [
            ("-12 o-ring", "AS568-012", None),
            ("-5 o-ring", "AS568-005", None),
            ("-04 o-ring", "AS568-004", None),
            ("o-ring -12 NBR", "AS568-012", Some("NBR")),
            ("-214 o-ring 70 shore", "AS568-214", None),
            ("-214 o-ring fkm 75 shore", "AS568-214", Some("FKM")),
            ("-325 o-ring epdm", "AS568-325", Some("EPDM")),
            ("-214 seal", "AS568-214", None),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let basic = question.designation.as_ref().map(|read| &*read.basic);
            assert_eq!(basic, Some(number), "{text}");
            assert_eq!(question.traits.material.as_deref(), material, "{text}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
    }

    #[test]
    fn a_length_is_no_dash_number() {
        for text in [
            "o-ring 214 mm",
            "o-ring id 214",
            "o-ring 214 x 3",
            "o-ring 214 shaft 25",
            "12 o-ring",
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let basic = question
                .designation
                .as_ref()
                .map(|read| read.basic.as_str());
            assert_ne!(basic, Some("AS568-214"), "{text}");
        }
    }
}
