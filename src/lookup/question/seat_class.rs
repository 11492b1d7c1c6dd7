//! The class of a seat beside the word for it, where no figure of the seat is written: `6205 on k6 shaft`, `housing H7`.

use super::figure::{is_figure, is_joined};
use super::vocabulary::ROLES;
use super::{Question, centimetre, lip_class, need_words};
use crate::limit;
use crate::lookup::reading::Role;
use crate::part::{ClassBeside, Dimension, Family};

/// What a class of ISO 286 is of: small letters are of shafts, capitals of bores.
pub(super) fn seat_of(class: &str) -> Role {
    if class.starts_with(char::is_lowercase) {
        Role::Shaft
    } else {
        Role::Housing
    }
}

/// True where the word for the class's seat stands right beside it; that of a housing stands before it.
pub(super) fn is_beside_seat(words: &[&str], at: usize) -> bool {
    let seat = seat_of(words[at]);
    let before = at.checked_sub(1);
    before.is_some_and(|before| names(words, before, seat))
        || seat == Role::Shaft && names(words, at + 1, seat)
}

/// True where the class of a seat stands right behind the word for it, and no figure of the seat: `shaft k6`.
pub(super) fn is_named_alone(question: &Question, words: &[&str], at: usize, seat: Role) -> bool {
    let class = words
        .get(at + 1)
        .map(|word| word.trim_end_matches([',', ';']));
    let is_of_seat = |class: &str| seat_of(class) == seat && limit::fit(class, 25.0).is_some();
    class.is_some_and(is_of_seat) && !has_figure(question, words, at + 1)
}

/// True where a figure of the seat follows: `shaft k6 25.01`, `k6 shaft 25.01`. What the place asks of its part
/// (`k6 80 C`, `k6 1500 rpm`) is none, and may stand between.
pub(super) fn has_figure(question: &Question, words: &[&str], at: usize) -> bool {
    let mut behind = at + 1 + usize::from(names(words, at + 1, seat_of(words[at])));
    while let Some(word) = words.get(behind) {
        let word = word.trim_end_matches([',', ';']);
        let next = words.get(behind + 1).copied().unwrap_or_default();
        if is_figure(word) {
            if is_joined(word) || !is_of_place(question, word, next) {
                return !is_joined(word);
            }
            behind += 2;
        } else if need_words::is_quantity(word) {
            behind += 1;
        } else {
            return false;
        }
    }
    false
}

/// True for a figure whose unit makes it no diameter: `80 C`, `1500 rpm`, `5 µm`.
fn is_of_place(question: &Question, figure: &str, unit: &str) -> bool {
    let bare = unit.trim_end_matches([',', ';']).to_lowercase();
    centimetre::is_of_no_part(&bare)
        || need_words::take_quantity(&mut question.clone(), figure, unit)
}

/// True for the roles of seats.
pub(super) const fn is_seat(role: Role) -> bool {
    matches!(role, Role::Shaft | Role::Housing)
}

/// A measured seat lies this near to its nominal diameter, mm: no class and no wear of a seat that is still one takes it
/// further (common practice, no source).
const NEAR_NOMINAL_MM: f64 = 1.0;

/// True where the word `measured` at a place is of a figure behind it that measures a nominal seat:
/// `25 k6 measured 25.01`, `25 k6 measured with micrometer 25.01`.
pub(super) fn is_measured_behind(nominal: &str, words: &[&str], at: usize) -> bool {
    const WORDS_BETWEEN: usize = 2;
    let mm = |text: &str| {
        let bare = text.trim_end_matches([',', ';']).trim_end_matches("mm");
        bare.replace(',', ".").parse::<f64>().ok()
    };
    let mut behind = words.iter().skip(at + 1).take(WORDS_BETWEEN + 1);
    let figure = behind.find(|word| is_figure(word));
    let is_apart = words[at].ends_with([',', ';']);
    let pair = mm(nominal).zip(figure.and_then(|figure| mm(figure)));
    !is_apart && pair.is_some_and(|(nominal, read)| (read - nominal).abs() <= NEAR_NOMINAL_MM)
}

/// True for the word of a seat.
fn names(words: &[&str], at: usize, seat: Role) -> bool {
    words.get(at).is_some_and(|word| {
        let lower = word.trim_end_matches([',', ';']).to_lowercase();
        let is_it = |(known, role): &(&str, Role)| *known == lower && *role == seat;
        ROLES.iter().any(is_it)
    })
}

/// The seat's diameter as a figure, which is that of a bearing whose number is known.
pub(super) fn nominal(question: &Question, seat: Role) -> Option<String> {
    let of = match seat {
        Role::Shaft => Dimension::Bore,
        _ => Dimension::OutsideDiameter,
    };
    let size = question.designated_size();
    let size = size.filter(|size| Family::is_radial_bearing(size.family()))?;
    Some(format!("{:#}mm", size.get(of)?))
}

/// True where a nominal diameter of the ring is named, and the class behind it is of the seat that the ring sits on: `bore 25 k6`,
/// `od 52 H7`.
pub(super) fn is_of_ring(
    question: &Question,
    (role, text): (Option<Role>, &str),
    seat: Role,
) -> bool {
    let whole = text.trim_end_matches("mm").trim();
    if whole.is_empty() || !whole.bytes().all(|b| b.is_ascii_digit()) {
        return false;
    }
    if question.designation.is_none() {
        let own = (role, seat);
        return own == (Some(Role::Inner), Role::Shaft)
            || own == (Some(Role::Outer), Role::Housing);
    }
    let is_named = matches!(role, Some(Role::Inner | Role::Outer));
    is_named && nominal(question, seat).is_some_and(|of| of == format!("{whole}mm"))
}

/// True for a class behind the other diameter of the ring: `bore 25 H7`, `od 52 k6`.
pub(super) fn is_of_other_ring(role: Option<Role>, seat: Role) -> bool {
    let pair = (role, seat);
    pair == (Some(Role::Inner), Role::Housing) || pair == (Some(Role::Outer), Role::Shaft)
}

/// What is said of a diameter of the ring that is taken as its seat.
pub(super) fn of_ring(class: &str, seat: Role) -> String {
    if seat == Role::Shaft {
        format!(
            "`{class}` is a class of shafts (small letters, ISO 286-1): the bore before it is taken as the shaft that it sits on"
        )
    } else {
        format!(
            "`{class}` is a class of bores (capitals, ISO 286-1): the diameter before it is taken as that of the housing"
        )
    }
}

/// True for parts whose size ends in a class of ISO 286: `6m6x24`.
pub(super) fn is_own(family: Family) -> bool {
    family.facts().asked.class_beside == ClassBeside::Own
}

/// Tells a class that cannot be of the seat it stands beside: `shaft 25 H7`, `housing 52 k6`; one that the lip of a seal does
/// not run on, and one of a part whose seats are not looked at here.
pub(super) fn note(question: &mut Question) {
    let class_of = question
        .family
        .map(|family| family.facts().asked.class_beside);
    match class_of.unwrap_or(ClassBeside::Seats) {
        ClassBeside::Own => {}
        ClassBeside::LipShaft => lip_class::note(question),
        ClassBeside::NotLookedAt => {
            question.not_understood.append(&mut question.fit_classes);
        }
        ClassBeside::Seats => note_contrary(question),
    }
}

/// Tells a class that cannot be of the seat it stands beside.
fn note_contrary(question: &mut Question) {
    if question.fit_classes.is_empty() {
        return;
    }
    let seats: Vec<Role> = question.readings.iter().filter_map(|of| of.role).collect();
    let classes = std::mem::take(&mut question.fit_classes);
    let words: Vec<&str> = question.text.split_whitespace().collect();
    // `housing 80 H7 shaft k6`: its seat stands beside it, and has no figure.
    let is_named = |class: &str| {
        let is_it = |at: &usize| words[*at].trim_end_matches([',', ';']) == class;
        (0..words.len())
            .filter(is_it)
            .any(|at| is_beside_seat(&words, at))
    };
    let has_class = |seat: Role| classes.iter().any(|class| seat_of(class) == seat);
    let mut told: Vec<(&String, Role)> = Vec::new();
    for class in &classes {
        let seat = seat_of(class);
        let other = match seat {
            Role::Shaft => Role::Housing,
            _ => Role::Shaft,
        };
        if !seats.contains(&seat) && seats.contains(&other) && !is_named(class) {
            told.push((class, other));
        } else {
            question.fit_classes.push(class.clone());
        }
    }
    for (class, beside) in told {
        question.not_understood.push(class.clone());
        // `shaft 25 k6 H7`: the shaft has its own, and the housing was not named.
        if !has_class(beside) {
            question.notes.push(contrary(class, beside));
        }
    }
}

/// What is said of a class beside the other seat.
fn contrary(class: &str, beside: Role) -> String {
    if beside == Role::Shaft {
        format!(
            "seat and class contradict each other: the seat is a shaft, and `{class}` is a class of bores (capitals, ISO 286-1); look at the drawing, and ask again with the one that is right"
        )
    } else {
        format!(
            "seat and class contradict each other: the seat is a housing bore, and `{class}` is a class of shafts (small letters, ISO 286-1); look at the drawing, and ask again with the one that is right"
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::Verdict;
    use crate::lookup::answer;
    use crate::lookup::reading::Instrument;
    use crate::part::ToleranceClass;

    /// Arithmetic: what was measured is the last figure, and the nominal diameter beside it is no second seat.
    #[test]
    fn a_measured_seat_goes_before_its_nominal_diameter() {
        for (text, role, mm) in [
            (
                "6205 shaft 25 k6 measured 25.01 micrometer",
                Role::Shaft,
                25.01,
            ),
            (
                "6205 Welle 25 k6 gemessen 25,01 micrometer",
                Role::Shaft,
                25.01,
            ),
            (
                "6205 shaft k6 measured 25.01 micrometer",
                Role::Shaft,
                25.01,
            ),
            (
                "6205 shaft 25 k6 measured with micrometer 25.01",
                Role::Shaft,
                25.01,
            ),
            (
                "6205 housing 52 H7 measured 52.02 micrometer",
                Role::Housing,
                52.02,
            ),
        ] {
            let question = Question::read(text).unwrap();
            let [reading] = &question.readings[..] else {
                panic!("{text}: {question:?}");
            };
            assert_eq!(reading.role, Some(role), "{text}");
            assert!((reading.length.length.to_mm() - mm).abs() < 1e-9, "{text}");
            assert_eq!(reading.instrument, Some(Instrument::Micrometer), "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
        // Without an instrument it was measured all the same, and is no nominal figure.
        let read = Question::read("6205 shaft 25 k6 measured 25.00").unwrap();
        assert!(read.readings[0].is_measured && read.readings[0].instrument.is_none());
        // A figure before the word is what was measured.
        let read = Question::read("6205 shaft 25.01 k6 measured").unwrap();
        assert_eq!(read.readings[0].instrument, Some(Instrument::Calliper));
    }

    /// ISO 286-1: shafts have small letters. ISO 492: P6 is a class of bearings.
    #[test]
    fn a_class_beside_a_seat_is_the_seats() {
        use ToleranceClass::{Normal, P6};
        for (text, fits, class, roles) in [
            ("6205 shaft p6", &["p6"][..], Normal, &[Role::Shaft][..]),
            ("6205 on p6 shaft", &["p6"], Normal, &[Role::Shaft]),
            ("6205 Welle k6", &["k6"], Normal, &[Role::Shaft]),
            ("6205 shaft 25 p6", &["p6"], Normal, &[Role::Shaft]),
            ("6205 shaft 25.02 p6", &["p6"], Normal, &[Role::Shaft]),
            ("6205 housing H7", &["H7"], Normal, &[Role::Housing]),
            (
                "6205 shaft k6 housing 52 H7",
                &["k6", "H7"],
                Normal,
                &[Role::Shaft, Role::Housing],
            ),
            ("6205 shaft k6 25.01", &["k6"], Normal, &[Role::Shaft]),
            ("6205 on k6 shaft 25.01", &["k6"], Normal, &[Role::Shaft]),
            (
                "6205 housing 52 H7 shaft k6",
                &["H7", "k6"],
                Normal,
                &[Role::Housing, Role::Shaft],
            ),
            // Of the bearing: capitals before a shaft, small letters behind a number.
            ("6205 P6 shaft 25 k6", &["k6"], P6, &[Role::Shaft]),
            ("6205 p6", &[], P6, &[]),
            ("6205 shaft 25 P6", &[], P6, &[Role::Shaft]),
        ] {
            let question = Question::read(text).unwrap();
            assert_eq!(question.fit_classes, fits, "{text}");
            let read = question.traits.tolerance_class.unwrap_or(Normal);
            assert_eq!(read, class, "{text}");
            let read: Vec<Role> = question.readings.iter().filter_map(|of| of.role).collect();
            assert_eq!(read, roles, "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
        // Without a number there is no diameter to hold the class against.
        assert!(Question::read("shaft k6").is_err());
    }

    /// ISO 286-1: small letters are of shafts, capitals of holes; the bore of a bearing sits on the shaft.
    #[test]
    fn a_class_behind_a_diameter_of_the_ring_is_its_seats() {
        use Role::{Housing, Inner, Shaft, Width};
        for (text, roles, is_told) in [
            ("6205 bore 25 k6", &[Shaft][..], true),
            ("6205 bore 25 mm k6", &[Shaft], true),
            ("6205 od 52 H7", &[Housing], true),
            ("6205 bore 52 H7", &[Housing], true),
            (
                "bore 25 k6 od 52 H7 width 15",
                &[Shaft, Housing, Width],
                true,
            ),
            ("6205 shaft 25 k6", &[Shaft], false),
            // What was measured is of the ring.
            ("6205 bore 24.98 k6", &[Inner], false),
            ("6205 bore 25 H7", &[Inner], false),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let read: Vec<Role> = question.readings.iter().filter_map(|of| of.role).collect();
            assert_eq!(read, roles, "{text}");
            let told = question
                .notes
                .iter()
                .any(|note| note.contains("before it is taken as"));
            assert_eq!(told, is_told, "{text}: {question:?}");
        }
        // ISO 286-2: k6 at 25 mm +2/+15; ISO 492: bore 0/-10 µm.
        let worked = answer(&Question::read("6205 bore 25 k6").unwrap(), None).worked_out;
        let greatest = ("greatest_interference_um", Some(25.0));
        assert!(worked[0].values.contains(&greatest), "{worked:?}");
    }

    /// ISO 286-1: small letters are of shafts, capitals of holes.
    #[test]
    fn a_class_of_the_other_seat_is_told() {
        for (text, class, seat) in [
            ("6205 shaft 25 H7", "H7", "a shaft"),
            ("6205 Welle 25 J7", "J7", "a shaft"),
            ("30206 shaft 30 H7", "H7", "a shaft"),
            ("6206 sealed Welle 30 P7", "P7", "a shaft"),
            ("6205 housing 52 k6", "k6", "a housing bore"),
            ("6205 Gehäuse 52 m6", "m6", "a housing bore"),
        ] {
            let question = Question::read(text).unwrap();
            assert_eq!(question.not_understood, [class], "{text}");
            assert!(question.fit_classes.is_empty(), "{text}");
            let told = question.notes.join("; ");
            let says = format!("the seat is {seat}, and `{class}`");
            assert!(told.contains(&says), "{text}: {told}");
            for one in &answer(&question, None).answers {
                let verdict = one.judgement.verdict;
                assert!(verdict > Verdict::AsItIs, "{text}: {}", one.designation);
            }
        }
    }

    #[test]
    fn a_class_whose_seat_is_named_or_open_contradicts_nothing() {
        for (text, classes, left) in [
            ("6205 shaft 25 k6 H7", &["k6"][..], &["H7"][..]),
            ("6205 shaft 25 housing 52 k6 H7", &["k6", "H7"], &[]),
            ("6205 shaft 25 k6", &["k6"], &[]),
        ] {
            let question = Question::read(text).unwrap();
            assert_eq!(question.fit_classes, classes, "{text}");
            assert_eq!(question.not_understood, left, "{text}");
            let told = question.notes.join("; ");
            assert!(!told.contains("contradict"), "{text}: {told}");
        }
    }

    /// ISO 286-2: k6 at 40 mm +2/+18 µm; ISO 492: bore 0/-12 µm. Arithmetic: 2 to 30 µm tight.
    #[test]
    fn what_the_place_asks_is_no_diameter_of_the_seat() {
        for text in [
            "6208 C3 shaft k6",
            "6208 C3 shaft k6 80 C",
            "6208 C3 shaft k6 80C",
            "6208 C3 shaft k6, 80 °C",
            "6208 C3 k6 shaft 80 C",
            "6208 C3 shaft k6 1500 rpm",
            "6208 C3 shaft k6 5 bar",
            "6208 C3 shaft k6 5 off",
            "6208 C3 shaft k6 55 HRC",
            "6208 C3 shaft k6 80 C 1500 rpm",
            "40 80 18 deep groove C3 shaft k6 1500 rpm",
            "40 80 18 deep groove C3 shaft k6",
            "40 80 18 deep groove C3 k6",
            "40x80x18 deep groove C3 shaft k6 80 C",
            "bore 40 od 80 width 18 deep groove C3 shaft k6",
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(question.fit_classes, ["k6"], "{text}");
            assert_eq!(question.not_understood, [""; 0], "{text}");
            let answers = answer(&question, None);
            let worked = answers.worked_out.first();
            let worked = worked.unwrap_or_else(|| panic!("{text}: {answers:?}"));
            for value in [
                ("least_interference_um", Some(2.0)),
                ("greatest_interference_um", Some(30.0)),
            ] {
                assert!(worked.values.contains(&value), "{text}: {worked:?}");
            }
            let first = &answers.answers[0];
            assert!(
                first.designation.starts_with("6208"),
                "{text}: {}",
                first.designation
            );
            assert!(first.judgement.verdict >= Verdict::AfterChecks, "{text}");
        }
        // A figure of the seat behind what the place asks is measured.
        let read = Question::read("6208 C3 shaft k6 80 C 40.012 micrometer").unwrap();
        let [seat] = &read.readings[..] else {
            panic!("{read:?}");
        };
        assert_eq!(seat.role, Some(Role::Shaft));
        assert!((seat.length.length.to_mm() - 40.012).abs() < 1e-9);
    }

    /// A class that nothing looks at is told: washers, nuts and O-rings have no seat worked out here.
    #[test]
    fn a_class_of_a_part_without_a_seat_is_told() {
        for (text, class) in [
            ("51108 shaft 40 j6", "j6"),
            ("KM8 shaft 40 k6", "k6"),
            ("o-ring 20x2.5 shaft 20 f7", "f7"),
            ("6205 bore 25 H7", "H7"),
            ("6205 od 52 k6", "k6"),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(question.not_understood, [class], "{text}: {question:?}");
            for one in &answer(&question, None).answers {
                let verdict = one.judgement.verdict;
                assert!(verdict > Verdict::AsItIs, "{text}: {}", one.designation);
            }
        }
        // The seat's word beside the class names it, though only the other seat has a figure.
        let read = Question::read("40x80x18 deep groove housing 80 H7 shaft k6").unwrap();
        assert_eq!(read.fit_classes, ["H7", "k6"], "{read:?}");
    }
}
