//! A heat, a life, a load or a pressure behind its name, without a unit: `temperature 120`, `L10h 20000`, `axial load 500`.

use super::duty::{HEAT_UNITS, LIFE_UNITS, LIVES, LOAD_UNITS, LOADS};
use super::figure::{is_figure, is_size};
use super::quantity;
use crate::standard::is_designation;

/// Names of a heat.
pub(super) const HEATS: [&str; 8] = [
    "temperature",
    "temperatur",
    "température",
    "temperatura",
    "temp",
    "temp.",
    "betriebstemperatur",
    "umgebungstemperatur",
];
/// Names of a pressure.
pub(super) const PRESSURES: [&str; 3] = ["pressure", "druck", "pression"];
/// Words between a name and its figure.
const BETWEEN: [&str; 11] = [
    "of", "is", "=", "von", "de", "max", "max.", "at", "up", "to", "bis",
];
/// Words between the two figures of a range.
const TO: [&str; 6] = ["to", "bis", "until", "-", "–", "à"];
/// Behind a figure these say what it is, as units of heats, lives and loads do: it is read with its unit, or is a length.
const UNITS: [&str; 12] = [
    "x", "×", "by", "mm", "cm", "in", "inch", "k", "rpm", "kg", "m/s", "bar",
];
/// Least hours of a life, and newtons of a load, that are told without a unit: fewer may be a length.
const LEAST_LIFE_H: f64 = 100.0;
const LEAST_LOAD_N: f64 = 300.0;

/// What a figure without a unit is by its name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Bare {
    /// Degrees Celsius, lowest and highest.
    Heat(Option<f64>, Option<f64>),
    Life,
    Load,
    /// Of which nobody knows whether it is in bar.
    Pressure,
}

/// What is named at a place among words in lower case, and where its figures end.
pub(super) fn read(words: &[String], at: usize) -> Option<(Bare, usize)> {
    let name = word(words, at);
    let mut end = at + 1;
    while BETWEEN.contains(&word(words, end)) {
        end += 1;
    }
    if HEATS.contains(&name) {
        return heat(words, end);
    }
    let (bare, least) = if LIVES.contains(&name) {
        (Bare::Life, LEAST_LIFE_H)
    } else if LOADS.contains(&name) {
        (Bare::Load, LEAST_LOAD_N)
    } else if PRESSURES.contains(&name) {
        (Bare::Pressure, 0.0)
    } else {
        return None;
    };
    let figure = word(words, end);
    let value = quantity::Figure::read(figure)?.value(true);
    let is_range = TO.contains(&word(words, end + 1));
    let is_it = value >= least && !is_range && !is_designation(figure) && is_last(words, end);
    is_it.then_some((bare, end + 1))
}

fn word(words: &[String], at: usize) -> &str {
    words.get(at).map_or("", String::as_str)
}

fn heat(words: &[String], at: usize) -> Option<(Bare, usize)> {
    let first = degrees(word(words, at))?;
    if TO.contains(&word(words, at + 1))
        && let Some(second) = degrees(word(words, at + 2))
    {
        let range = Bare::Heat(Some(first.min(second)), Some(first.max(second)));
        return is_last(words, at + 2).then_some((range, at + 3));
    }
    let heat = if first < 0.0 {
        Bare::Heat(Some(first), None)
    } else {
        Bare::Heat(None, Some(first))
    };
    is_last(words, at).then_some((heat, at + 1))
}

/// Whole degrees; `None` for the number of a bearing, which seldom is a round one.
fn degrees(word: &str) -> Option<f64> {
    const MOST_DIGITS: usize = 3;
    let digits = word.trim_start_matches(['+', '-']);
    let is_plain =
        (1..=MOST_DIGITS).contains(&digits.len()) && digits.bytes().all(|b| b.is_ascii_digit());
    let is_number = digits.len() >= 3 && !digits.ends_with('0') && is_designation(digits);
    word.parse().ok().filter(|_| is_plain && !is_number)
}

/// True where no unit follows, nor another figure of the same size.
fn is_last(words: &[String], at: usize) -> bool {
    let next = word(words, at + 1);
    let is_of_size =
        is_figure(next) && !is_size(next) && !(next.len() >= 4 && is_designation(next));
    let units = [&UNITS[..], &HEAT_UNITS, &LIFE_UNITS, &LOAD_UNITS];
    let is_unit = units.iter().any(|list| list.contains(&next));
    !is_unit && !is_of_size && !next.ends_with("/min")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    fn question(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    /// Common practice, no source: a heat without a unit is in degrees Celsius.
    #[test]
    fn a_heat_behind_its_name_is_no_length() {
        for (text, lowest, highest) in [
            ("6203 temperature 120", None, Some(120.0)),
            ("6203 Temperatur 120", None, Some(120.0)),
            ("6206 temp 300", None, Some(300.0)),
            ("6206 temp. max 90", None, Some(90.0)),
            ("temperature 120 6203", None, Some(120.0)),
            ("6206 temperature -30", Some(-30.0), None),
            ("6206 temperature -30 to 120", Some(-30.0), Some(120.0)),
            // With its unit it is read elsewhere.
            ("6206 temp 120 °C", None, Some(120.0)),
            ("6206 temperature 120 °C", None, Some(120.0)),
        ] {
            let question = question(text);
            let needs = &question.needs;
            assert_eq!(
                (needs.lowest_c, needs.highest_c),
                (lowest, highest),
                "{text}"
            );
            assert!(question.designation.is_some(), "{text}: {question:?}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
            let told = question.notes.join("; ");
            let is_bare = !text.ends_with('C');
            assert_eq!(told.contains("without a unit"), is_bare, "{text}: {told}");
        }
        // The size of a bearing for a high temperature, and the number of one.
        let words = |text: &str| -> Vec<String> { text.split(' ').map(str::to_owned).collect() };
        for text in [
            "temperature 25 52 15",
            "temperature 25 x 52 x 15",
            "temperature 25x52x15",
            "temperature 6205",
            "temperature 20 mm",
            "temperature",
        ] {
            assert_eq!(read(&words(text), 0), None, "{text}");
        }
    }

    #[test]
    fn a_life_load_or_pressure_behind_its_name_is_no_length() {
        for (text, said) in [
            ("6205 L10h 20000", "L10h 20000"),
            ("6205 Lebensdauer 20.000", "Lebensdauer 20.000"),
            ("life of 30,000 6205", "life of 30,000"),
            ("6205 axial load 500", "load 500"),
        ] {
            let question = question(text);
            assert_eq!(question.not_looked_at, [said], "{text}");
            assert!(question.readings.is_empty(), "{text}: {question:?}");
            assert!(question.designation.is_some(), "{text}: {question:?}");
        }
        // Five bar and five pound on a square inch are not the same.
        let pressed = question("lip seal 40x62x7 NBR pressure 5");
        assert_eq!(pressed.not_understood, ["pressure 5"]);
        assert_eq!(pressed.needs.pressure_bar, None);
        let in_bar = question("lip seal 40x62x7 NBR pressure 5 bar");
        assert_eq!(in_bar.needs.pressure_bar, Some(5.0));
        assert!(question("6205 axial load 500").needs.axial.is_some());
        let sized = question("axial load 340 420 50");
        assert!(
            sized.not_looked_at.is_empty() && sized.readings.len() == 3,
            "{sized:?}"
        );
    }
}
