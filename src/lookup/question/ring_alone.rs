//! An inner ring by its own three figures: `inner ring 25x30x17` is that of NA4905, bore by raceway by width (ISO 1206).

use super::figure::{is_figure, lengths};
use super::{Question, binding, half, missing_ring, other_part, without_table, words};
use crate::part::designation::trade_words::{self, Half, Said};
use crate::part::{Dimension, Family, RingAway};
use crate::standard::{self, StandardPart};
use crate::units::LengthUnit;

/// Words beside it that say nothing more.
const BESIDE: [&str; 20] = [
    "for",
    "of",
    "from",
    "a",
    "the",
    "für",
    "von",
    "pour",
    "de",
    "only",
    "nur",
    "x",
    "×",
    "by",
    "mm",
    "needle",
    "roller",
    "bearing",
    "nadellager",
    "lager",
];
/// Figures were rounded, mm.
const SAME_MM: f64 = 0.05;

/// Reads a question for an inner ring by its figures; `None` where a number or another figure is in it.
pub(super) fn read(text: &str) -> Option<Question> {
    let lower = text.trim().to_lowercase();
    let by_letters = behind_letters(&lower);
    let words: Vec<&str> = by_letters
        .unwrap_or(&lower)
        .split_whitespace()
        .map(|word| word.trim_matches([',', ';', ':', '(', ')']))
        .collect();
    let count = match (by_letters, trade_words::at(&words, 0)) {
        (Some(_), _) => 0,
        (None, Some((count, Said::Half(Half::Inner)))) => count,
        _ => return None,
    };
    // `cone` is that of a tapered bearing.
    if words[..count]
        .iter()
        .any(|word| matches!(*word, "cone" | "cône" | "washer" | "wellenscheibe"))
    {
        return None;
    }
    let mut figures = Vec::new();
    let mut others = Vec::new();
    for word in &words[count..] {
        if is_figure(word) {
            figures.extend(lengths(word, LengthUnit::Mm)?);
        } else if word.contains(|c: char| c.is_ascii_digit()) || binding::is_role(word) {
            return None;
        } else if !BESIDE.contains(word) {
            others.push(*word);
        }
    }
    let named = other_part::family_named(&words[count..].join(" "));
    if !named.is_none_or(missing_ring::is_with_or_without) {
        return None;
    }
    let [bore, raceway, width] = figures[..] else {
        return None;
    };
    let mm = [bore, raceway, width].map(|read| read.length.to_mm());
    let Some(row) = bearing_of(mm) else {
        return Some(Question::without_table(text, without_table::loose_ring()));
    };
    let mut question = Question::read_whole(&row.designation).ok()?;
    half::add(&mut question, "inner ring only");
    words::read(&mut question, &others.join(" "));
    text.trim().clone_into(&mut question.text);
    question.notes.push(format!(
        "{} x {} x {} mm are bore, raceway and width of the inner ring of `{}` (ISO 1206)",
        mm[0], mm[1], mm[2], row.designation
    ));
    Some(question)
}

/// What stands behind the usual letters of inner rings: `IR 25x30x17`, `IR25x30x17` (common practice, no source).
fn behind_letters(lower: &str) -> Option<&str> {
    let behind = lower.strip_prefix("ir")?.trim_start_matches([' ', '-']);
    behind
        .starts_with(|c: char| c.is_ascii_digit())
        .then_some(behind)
}

/// The needle bearing whose inner ring has this bore, raceway and width: its raceway is the `Fw` of the same bearing without.
fn bearing_of([bore_mm, raceway_mm, width_mm]: [f64; 3]) -> Option<&'static StandardPart> {
    let is = |row: &StandardPart, of: Dimension, mm: f64| {
        (row.size.get(of)).is_some_and(|length| (length.to_mm() - mm).abs() <= SAME_MM)
    };
    let width = Dimension::Width;
    let without = |whole: &StandardPart, family: Family| {
        let outside = whole.size.get(Dimension::OutsideDiameter);
        standard::of_family(family).iter().any(|row| {
            is(row, Dimension::InnerRacewayDiameter, raceway_mm)
                && is(row, width, width_mm)
                && row.size.get(Dimension::OutsideDiameter) == outside
        })
    };
    Family::ALL.into_iter().find_map(|whole| {
        let RingAway::OtherFamily(family) = whole.facts().asked.ring_away else {
            return None;
        };
        let is_it = |row: &&StandardPart| {
            is(row, Dimension::Bore, bore_mm) && is(row, width, width_mm) && without(row, family)
        };
        standard::of_family(whole).iter().find(is_it)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 1206, dimension series 49, from memory: Fw is 30 mm for 25 mm bore, 25 mm for 20 mm bore.
    #[test]
    fn the_ring_of_a_needle_bearing_is_found_by_its_figures() {
        for (text, number) in [
            ("inner ring 25x30x17", "NA4905"),
            ("inner ring for needle bearing 25x30x17", "NA4905"),
            ("Innenring 25 x 30 x 17", "NA4905"),
            ("inner ring 20 x 25 x 17 mm", "NA4904"),
            ("IR 25x30x17", "NA4905"),
            ("IR25x30x17", "NA4905"),
            ("ir 20 x 25 x 17", "NA4904"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let basic = question
                .designation
                .as_ref()
                .map(|read| read.basic.as_str());
            assert_eq!(basic, Some(number), "{text}");
            assert!(question.traits.has_variant("inner ring only"), "{text}");
            assert!(
                question.notes.iter().any(|note| note.contains(number)),
                "{text}"
            );
            assert_eq!(question.text, text);
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
        let told = Question::read("inner ring 25x30x17 worn wobbly").unwrap();
        assert!(
            told.is_worn && told.not_understood == ["wobbly"],
            "{told:?}"
        );
    }

    #[test]
    fn another_ring_is_no_bearing_of_its_figures() {
        let loose = Question::read("inner ring 25 x 31 x 17").unwrap();
        assert_eq!(loose.without_table, Some(without_table::loose_ring()));
        let loose = Question::read("IR 25 x 29 x 20").unwrap();
        assert_eq!(loose.without_table, Some(without_table::loose_ring()));
        for text in [
            "inner ring 30.02 outer 62",
            "inner ring of NU208",
            "inner ring NA4905",
            "inner ring 25x30",
            "needle roller bearing with inner ring 25 x 42 x 17",
            "inner ring turns 25 x 52 x 15",
            "inner ring 25 x 52 x 15 deep groove",
            "cone 25 x 52 x 15",
        ] {
            assert!(read(text).is_none(), "{text}");
        }
    }
}
