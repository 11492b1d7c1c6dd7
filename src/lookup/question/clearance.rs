//! A clearance that was measured: `6205 measured clearance 15 µm`, `clearance 0.015`. It is no dimension of the part, and
//! may be of two groups, which overlap (ISO 5753-1).

use super::Question;
use crate::limit;
use crate::part::{BoreForm, Clearance, Dimension};

const NAMES: [&str; 7] = [
    "clearance",
    "lagerluft",
    "radialluft",
    "luft",
    "spiel",
    "jeu",
    "play",
];
/// Words that may stand around the name.
const AROUND: [&str; 12] = [
    "interne",
    "innere",
    "measured",
    "radial",
    "internal",
    "bearing",
    "gemessene",
    "gemessen",
    "of",
    "is",
    "=",
    "mesuré",
];
const MICROMETRES: [&str; 6] = ["µm", "μm", "um", "micron", "microns", "mikrometer"];
/// The clearance is inside the bearing by its full name (ISO 5753-1: radial internal clearance).
const INSIDE: [&str; 3] = ["internal", "interne", "innere"];
/// No clearance of the tables is as large, mm: a larger figure is a length.
const LARGEST_MM: f64 = 0.5;
/// The same, µm.
const LARGEST_UM: f64 = 1_000.0 * LARGEST_MM;

/// Takes a measured clearance out of the text; gives what is left.
pub(super) fn take(question: &mut Question, text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let bare = |at: usize| {
        let word = words.get(at).copied().unwrap_or_default();
        word.trim_matches([',', ';', ':']).to_lowercase()
    };
    let is_around = |at: usize| AROUND.contains(&bare(at).as_str());
    let Some(name) = (0..words.len()).find(|at| NAMES.contains(&bare(*at).as_str())) else {
        return text.to_owned();
    };
    let mut behind = name + 1;
    while behind < words.len() && is_around(behind) {
        behind += 1;
    }
    let mut start = name;
    while start > 0 && is_around(start - 1) {
        start -= 1;
    }
    // `15 µm clearance` has its unit; a bare figure before the name is one of the size.
    let before = start.checked_sub(1).and_then(|at| {
        let first = if MICROMETRES.contains(&bare(at).as_str()) {
            at.checked_sub(1)?
        } else {
            at
        };
        let (clearance, end) = figure(&bare(first), &bare(first + 1), false)?;
        (first + end == start).then_some((clearance, first))
    });
    let found = match figure(&bare(behind), &bare(behind + 1), true) {
        Some((clearance, count)) => Some((clearance, start, behind + count)),
        None => before.map(|(clearance, first)| (clearance, first, name + 1)),
    };
    let Some((clearance_um, start, end)) = found else {
        // `radial internal clearance C3`: the name of what the mark beside it says.
        let is_group = |at: usize| Clearance::from_code(&bare(at)).is_some();
        if !is_group(behind) && !start.checked_sub(1).is_some_and(is_group) {
            return text.to_owned();
        }
        let is_name = |at: usize| {
            let word = bare(at);
            NAMES.contains(&word.as_str()) || INSIDE.contains(&word.as_str())
        };
        let left = (0..words.len()).filter(|at| !(start..behind).contains(at) || !is_name(*at));
        return left.map(|at| words[at]).collect::<Vec<_>>().join(" ");
    };
    question.clearance_um = Some(clearance_um);
    let rest = words[..start].iter().chain(&words[end..]).copied();
    rest.collect::<Vec<_>>().join(" ")
}

/// A clearance in µm, and how many words it takes.
fn figure(word: &str, next: &str, may_be_bare: bool) -> Option<(f64, usize)> {
    let end = word
        .find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ','))
        .unwrap_or(word.len());
    let (digits, unit) = word.split_at(end);
    let value: f64 = digits.replace(',', ".").parse().ok()?;
    let (unit, count) = match unit {
        "" if MICROMETRES.contains(&next) || next == "mm" => (next, 2),
        unit => (unit, 1),
    };
    let clearance_um = match unit {
        "" if may_be_bare => 1_000.0 * value,
        "mm" => 1_000.0 * value,
        unit if MICROMETRES.contains(&unit) => value,
        _ => return None,
    };
    // Thousandths of a millimetre lose nothing by a tenth of one.
    let rounded_um = (clearance_um * 10.0).round() / 10.0;
    (rounded_um < LARGEST_UM).then_some((rounded_um, count))
}

/// Says which groups of ISO 5753-1 the measured clearance may be; where that of the number is none of them, none is known.
pub(super) fn note(question: &mut Question) {
    let Some(measured_um) = question.clearance_um else {
        return;
    };
    let is_cylindrical = question
        .traits
        .bore_form
        .is_none_or(|form| form == BoreForm::Cylindrical);
    let size = question.designated_size().filter(|_| is_cylindrical);
    let bore = size.and_then(|size| Some((size.family(), size.get(Dimension::Bore)?.to_mm())));
    let Some((family, bore_mm)) = bore.filter(|(family, _)| family.has_radial_clearance()) else {
        question
            .not_understood
            .push(format!("clearance of {measured_um} µm"));
        return;
    };
    let groups = limit::clearance_groups(family, bore_mm, measured_um);
    if groups.is_empty() {
        question.notes.push(format!(
            "a clearance of {measured_um} µm at a bore of {bore_mm} mm is of no group of ISO 5753-1: worn, or measured when fitted"
        ));
    } else {
        let said: Vec<String> = groups
            .iter()
            .filter_map(|group| {
                let band = limit::clearance(family, *group, bore_mm)?;
                Some(format!("{group} {}-{}", band.lower_um, band.upper_um))
            })
            .collect();
        question.notes.push(format!(
            "a clearance of {measured_um} µm at a bore of {bore_mm} mm may be, in µm before fitting: {}",
            said.join(", ")
        ));
    }
    if question
        .traits
        .clearance
        .is_some_and(|known| !groups.contains(&known))
    {
        question.traits.clearance = None;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    /// ISO 5753-1, deep groove, 25 mm bore: CN 5 to 20, C3 13 to 28 µm.
    #[test]
    fn one_clearance_may_be_of_two_groups() {
        for text in [
            "6205 measured clearance 15 um",
            "6205 clearance 0.015",
            "6205 clearance 0.015 mm",
            "6205 radial clearance of 15µm",
            "6205 15 µm clearance",
            "6205 Lagerluft 15 µm",
        ] {
            let question = read(text);
            assert_eq!(question.clearance_um, Some(15.0), "{text}");
            assert!(question.readings.is_empty(), "{text}");
            assert!(question.not_understood.is_empty(), "{text}");
            let notes = question.notes.join("; ");
            assert!(notes.contains("CN 5-20, C3 13-28"), "{text}: {notes}");
            assert_eq!(question.traits.clearance, Some(Clearance::Normal), "{text}");
        }
    }

    #[test]
    fn a_clearance_of_another_group_leaves_that_of_the_number_unknown() {
        let loose = read("6205 clearance 26 µm");
        assert_eq!(loose.traits.clearance, None);
        let marked = read("6205 C3 clearance 26 µm");
        assert_eq!(marked.traits.clearance, Some(Clearance::C3));
        let worn = read("6205 clearance 0.3");
        assert!(worn.notes.join("; ").contains("no group"), "{worn:?}");
    }

    /// ISO 5753-1 calls it radial internal clearance, and its groups C2 to C5.
    #[test]
    fn the_name_of_a_group_says_nothing_more() {
        for text in [
            "6206 radial internal clearance C3",
            "6206 C3 radial internal clearance",
            "6206 internal clearance C3",
            "6206 radial clearance C3",
            "6206 Radialluft C3",
            "6206 jeu interne C3",
            "6206 clearance C3",
        ] {
            let question = read(text);
            assert_eq!(question.traits.clearance, Some(Clearance::C3), "{text}");
            assert_eq!(question.clearance_um, None, "{text}");
            let left = &question.not_understood;
            assert!(left.is_empty(), "{text}: {left:?}");
        }
        // Without a mark the words are of something else.
        assert_eq!(read("6206 internal").not_understood, ["internal"]);
    }

    #[test]
    fn without_a_number_or_a_figure_it_stays_what_it_was() {
        let size = read("30 x 62 x 16 deep groove clearance 15 µm");
        assert_eq!(size.not_understood, ["clearance of 15 µm"]);
        assert_eq!(size.readings.len(), 3);
        let marked = read("30 x 62 x 16 clearance C3");
        assert_eq!(marked.traits.clearance, Some(Clearance::C3));
        assert_eq!(marked.clearance_um, None);
        let large = read("bore 30 od 62 clearance 16");
        assert_eq!(large.clearance_um, None);
    }
}
