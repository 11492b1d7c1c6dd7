//! A speed behind its name, without a unit: `speed 3000`, `Drehzahl 3.000`, `rpm 3000` are turns a minute.

use super::figure::is_figure;
use crate::standard::is_designation;

/// Names of a speed.
pub(super) const NAMES: [&str; 4] = ["speed", "drehzahl", "vitesse", "rpm"];
/// Words between the name and its figure.
const BETWEEN: [&str; 4] = ["of", "is", "=", "von"];

/// The speed whose name stands at a place among words in lower case, and where it ends; one with a unit is read elsewhere.
pub(super) fn read(words: &[String], at: usize) -> Option<(f64, usize)> {
    let word = |at: usize| words.get(at).map_or("", String::as_str);
    if !NAMES.contains(&word(at)) {
        return None;
    }
    let mut end = at + 1;
    while BETWEEN.contains(&word(end)) {
        end += 1;
    }
    // `3000 rpm` is read as a figure with its unit.
    let is_behind_figure = word(at) == "rpm" && at > 0 && is_figure(word(at - 1));
    if is_behind_figure && !is_behind_number(word(at - 1), word(end)) {
        return None;
    }
    let figure = word(end).trim_end_matches("/min");
    let next = word(end + 1);
    let has_unit =
        matches!(next, "x" | "×" | "mm" | "m/s" | "min-1" | "rpm") || next.ends_with("/min");
    let is_plain = |piece: &str| !piece.is_empty() && piece.bytes().all(|b| b.is_ascii_digit());
    let rpm = match figure.split_once(['.', ',']) {
        _ if has_unit => None,
        None => is_plain(figure).then(|| figure.to_owned()),
        // No speed is told to a thousandth of a turn: these part thousands.
        Some((thousands, rest)) => (is_plain(thousands) && is_plain(rest) && rest.len() == 3)
            .then(|| format!("{thousands}{rest}")),
    };
    Some((rpm?.parse().ok()?, end + 1))
}

/// `6205 rpm 3000`: the figure before is a part's number, and that behind is the speed; of two numbers a speed is the round one.
fn is_behind_number(before: &str, behind: &str) -> bool {
    let is_round = |word: &str| word.ends_with("00");
    is_figure(behind)
        && is_designation(before)
        && (!is_designation(behind) || is_round(behind) && !is_round(before))
}

#[cfg(test)]
mod tests {
    use crate::lookup::Question;

    #[test]
    fn a_figure_behind_the_name_of_a_speed_is_no_length() {
        for (text, rpm) in [
            ("6205 speed 3000", Some(3_000.0)),
            ("6205 Drehzahl 3000", Some(3_000.0)),
            ("6205 Drehzahl: 3.000", Some(3_000.0)),
            ("6205 Drehzahl 3000/min", Some(3_000.0)),
            ("6205 speed of 12,000", Some(12_000.0)),
            ("6205 rpm 3000", Some(3_000.0)),
            // 1200 is a self-aligning ball bearing (DIN 630) and a speed.
            ("6205 rpm 1200", Some(1_200.0)),
            ("6205 1200 rpm", Some(1_200.0)),
            ("6205 speed 3000 rpm", Some(3_000.0)),
            ("6205 3000 rpm", Some(3_000.0)),
            ("oil seal 35x52x7 speed 1450 NBR", Some(1_450.0)),
            ("6205", None),
        ] {
            let question = Question::read(text).unwrap();
            assert_eq!(question.needs.speed_rpm, rpm, "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
            let mut lengths = question.readings.iter().map(|of| of.length.length.to_mm());
            assert!(lengths.all(|mm| mm < 100.0), "{text}: {question:?}");
        }
        // A speed over the lip is no speed of turning.
        let lip = Question::read("oil seal 35x52x7 speed 8 m/s").unwrap();
        assert_eq!(lip.needs.speed_rpm, None);
    }
}
