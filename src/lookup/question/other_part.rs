//! Words beside a legible number that name another part: the number is answered, and the words are told.

use super::{Question, family_words, figure, kind, load_words, short_words};
use crate::import::family_in;
use crate::part::designation::Designation;
use crate::part::{Dimension, Element, Family, PartClass};

/// Words of the rolling elements.
const BALLS: [&str; 5] = ["balls", "ball", "billes", "kugeln", "kugellager"];
const ROLLERS: [&str; 5] = ["rollers", "roller", "rouleaux", "rollen", "rollenlager"];
const NEEDLES: [&str; 6] = [
    "needles",
    "needle",
    "nadeln",
    "nadel",
    "nadellager",
    "aiguilles",
];
/// A shaft that is so is none of the bearing's types.
const SHAFTS: [&str; 4] = [
    "tapered shaft",
    "taper shaft",
    "tapered seat",
    "tapered journal",
];

/// The text without shafts that taper, which name no tapered roller bearing.
fn without_shafts(text: &str) -> std::borrow::Cow<'_, str> {
    let lower = text.to_lowercase();
    match SHAFTS.iter().any(|name| lower.contains(name)) {
        true => SHAFTS
            .iter()
            .fold(lower, |left, name| left.replace(name, " "))
            .into(),
        false => text.into(),
    }
}

/// The family that the words of a text name; the thrust of a load names none, nor does the shape of a shaft.
pub(super) fn family_named(text: &str) -> Option<Family> {
    let text = &*without_shafts(text);
    let named = |text: &str| family_in(text).or_else(|| short_words::family_in_short(text));
    let may_be_load = |family: &Family| {
        let short = family.facts().asked.short.as_ref();
        short.is_some_and(|short| short.may_be_load)
    };
    let found = named(text);
    if !found.as_ref().is_some_and(may_be_load) {
        return found;
    }
    match load_words::take(&mut Question::of(text), text) {
        Some(left) => named(&left),
        None => found,
    }
}

/// True where the words up to a place are a number and no lengths, whatever is named behind them.
pub(super) fn is_legible(words: &[&str], end: usize, designation: &Designation) -> bool {
    const LEAST_DIGITS: usize = 4;
    let digits = words[0].bytes().filter(u8::is_ascii_digit).count();
    let is_letters_first = words[0].starts_with(|c: char| c.is_ascii_alphabetic());
    let next = words.get(end).copied().unwrap_or_default();
    let is_length = matches!(next, "x" | "X" | "×" | "*" | "mm") || figure::is_figure(next);
    designation.size.is_none() && (is_letters_first || digits >= LEAST_DIGITS && !is_length)
}

/// True where words behind a size name a kind of part that its family is none of: `30x62x7 ball bearing` is no lip seal. Behind
/// `for` or before `seal` and `housing` they name its place.
pub(super) fn is_of_other_kind(words: &[&str], end: usize, family: Option<Family>) -> bool {
    const PLACES: [&str; 11] = [
        "for", "on", "auf", "sur", "für", "fuer", "pour", "behind", "hinter", "beside", "next",
    ];
    const THINGS: [&str; 12] = [
        "seal", "seals", "housing", "cap", "cover", "block", "seat", "carrier", "shaft", "journal",
        "deckel", "gehäuse",
    ];
    let is = |word: &str, list: &[&str]| {
        let word = word.trim_matches([',', ';', '.', '(']).to_lowercase();
        list.contains(&word.as_str())
    };
    let count = words[end..]
        .iter()
        .take_while(|word| !is(word, &PLACES) && !is(word, &THINGS))
        .count();
    let is_before_thing = (words.get(end + count)).is_some_and(|word| is(word, &THINGS));
    if count == 0 || is_before_thing {
        return false;
    }
    let families = kind::families_in(&words[..end + count].join(" "));
    !families.is_empty() && family.is_some_and(|family| !families.contains(&family))
}

/// True for `bearing seal`, which is a seal; the word was taken as that of a closed bearing.
pub(super) fn names_seal_of_bearing(text: &str) -> bool {
    let words: Vec<String> = text
        .split_whitespace()
        .map(|word| word.trim_matches([',', ';', '.']).to_lowercase())
        .collect();
    words.windows(2).any(|two| {
        matches!(two[0].as_str(), "bearing" | "bearings")
            && matches!(two[1].as_str(), "seal" | "seals")
    })
}

/// Says where the words beside a number name another part; another type of bearing contradicts the number.
pub(super) fn note(question: &mut Question, rest: &str) {
    let has_size = |designation: &Designation| designation.size.is_some();
    if rest.is_empty() || question.designation.as_ref().is_some_and(has_size) {
        return;
    }
    let lower = rest.to_lowercase();
    let shaft = SHAFTS.iter().find(|name| lower.contains(**name));
    if let Some(shaft) = shaft.filter(|_| !question.traits.has_tapered_bore()) {
        let is_of_it = |word: &String| {
            shaft
                .split(' ')
                .any(|piece| word.eq_ignore_ascii_case(piece))
        };
        question.not_understood.retain(|word| !is_of_it(word));
        question.not_understood.push((*shaft).to_owned());
        return;
    }
    let (Some(designation), Some(family)) = (&question.designation, question.family) else {
        return;
    };
    let number = designation.basic.clone();
    let named = family_named(rest);
    let (other, is_bearing) = match named {
        Some(other) if is_alike(question, family, other) => return,
        Some(other) => (other.name(), other.class() == PartClass::Bearings),
        None => match other_kind(family, &lower) {
            Some(kind) => (kind, true),
            None => return,
        },
    };
    // What names the other part is told with it.
    question.not_understood.retain(|word| {
        let lower = word.to_lowercase();
        match named {
            Some(other) => !family_words::names(&lower, other),
            None => ![&BALLS[..], &ROLLERS, &NEEDLES]
                .concat()
                .contains(&lower.as_str()),
        }
    });
    question.notes.push(format!(
        "`{number}` ({family}) is answered, and the words beside it name another part ({other}): ask for one part at a time"
    ));
    if is_bearing && family.class() == PartClass::Bearings {
        question.not_understood.push(other.to_owned());
    }
}

/// True where the words may be of the number's own family, since they name it loosely.
fn is_alike(question: &Question, family: Family, named: Family) -> bool {
    let is_bore = || question.traits.has_tapered_bore();
    let has_needles = |family: Family| family.rolls_on(Element::Needles);
    named == family
        || family.facts().asked.also_called.contains(&named)
        // The bearings of cone and cup (ISO 355) are named `tapered`, as a bore may be.
        || named.has_dimension(Dimension::AssembledWidth) && is_bore()
        || has_needles(named) && has_needles(family)
}

/// The rolling elements that words name and a family has not, as the kind of bearing they are of.
fn other_kind(family: Family, lower: &str) -> Option<&'static str> {
    if family.class() != PartClass::Bearings {
        return None;
    }
    let words: Vec<&str> = lower
        .split_whitespace()
        .map(|word| word.trim_matches([',', ';', '.']))
        .collect();
    let has_needles = family.rolls_on(Element::Needles);
    let has_rollers = has_needles || family.rolls_on(Element::Rollers);
    words.iter().enumerate().find_map(|(at, word)| {
        let next = words.get(at + 1).copied().unwrap_or_default();
        // `conveyor roller` is a place; `ceramic balls` are a design.
        let is_named = at == 0 || next.starts_with("bearing");
        let is_one = matches!(*word, "ball" | "roller");
        let is_design = at > 0 && matches!(words[at - 1], "ceramic" | "steel" | "needle");
        if is_one && !is_named || is_design {
            None
        } else if NEEDLES.contains(word) && !has_needles {
            Some("needle roller bearing")
        } else if ROLLERS.contains(word) && !has_rollers {
            Some("roller bearing")
        } else if BALLS.contains(word) && !family.rolls_on(Element::Balls) {
            Some("ball bearing")
        } else {
            None
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    #[test]
    fn a_legible_number_stands_whatever_is_named_behind_it() {
        for (text, number, other) in [
            ("6205 needs oil seal", "6205", Some("rotary shaft lip seal")),
            ("6206 o-ring", "6206", Some("O-ring")),
            ("22208 K lock nut", "22208", Some("lock nut")),
            ("NU205 balls", "NU205", Some("ball bearing")),
            ("6205 rollers", "6205", Some("roller bearing")),
            ("6205 roller bearing", "6205", Some("roller bearing")),
            ("6205 needle", "6205", Some("needle roller bearing")),
            ("NU205 thrust bearing", "NU205", Some("thrust ball bearing")),
            ("6205 tapered shaft", "6205", None),
            ("NU205 thrust load", "NU205", None),
            ("6205 conveyor roller", "6205", None),
            ("30206 taper roller", "30206", None),
            ("22208 self-aligning roller bearing", "22208", None),
            ("6205 deep groove ball bearing", "6205", None),
            ("6308 deep groove 40x90x23", "6308", None),
        ] {
            let question = read(text);
            let designation = question
                .designation
                .as_ref()
                .map(|read| read.basic.as_str());
            assert_eq!(designation, Some(number), "{text}");
            assert!(question.partial.is_empty(), "{text}");
            let told = question
                .notes
                .iter()
                .find(|note| note.contains("another part"));
            match other {
                Some(other) => {
                    assert!(
                        told.is_some_and(|note| note.contains(other)),
                        "{text}: {told:?}"
                    );
                }
                None => assert_eq!(told, None, "{text}"),
            }
        }
        // Another type contradicts the number; a part of another kind is only another question.
        assert_eq!(read("6205 rollers").not_understood, ["roller bearing"]);
        assert_eq!(read("6205 tapered shaft").not_understood, ["tapered shaft"]);
        assert!(read("6206 o-ring").not_understood.is_empty());
        assert!(read("6206 self-aligning").needs.is_misaligned);
        let sleeve = read("22208 K lock nut").traits.bore_form;
        assert_eq!(sleeve, Some(crate::part::BoreForm::Taper12));
    }

    /// DIN 3760: 30 x 62 x 7 mm is a lip seal, and no ball bearing of ISO 15.
    #[test]
    fn a_size_of_seals_is_no_bearing() {
        for text in [
            "30x62x7 ball bearing",
            "30x62x7 bearing",
            "22 x 47 x 7 bearing",
            "25x40x7 roller bearing",
            "30x62x7 Lager",
            "30x62x7 sealed bearing",
        ] {
            let question = read(text);
            assert_eq!(question.designation, None, "{text}");
            assert_eq!(question.readings.len(), 3, "{text}");
            assert!(!question.families.contains(&Family::LipSeal), "{text}");
            let answers = crate::lookup::answer(&question, None).answers;
            let is_seal = |of: &crate::lookup::Answer| {
                of.size.is_some_and(|size| size.family() == Family::LipSeal)
            };
            assert!(!answers.iter().any(is_seal), "{text}");
        }
        for text in [
            "30x62x7",
            "30x62x7 NBR",
            "30x62x7 seal",
            "30x62x7 bearing seal",
            "30x62x7 for bearing 6206",
            "30x62x7 ball valve",
        ] {
            let family = read(text).designation.and_then(|read| read.family);
            assert_eq!(family, Some(Family::LipSeal), "{text}");
        }
    }

    #[test]
    fn lengths_in_front_of_a_type_stay_lengths() {
        for (text, count) in [("25 52 thrust ball", 2), ("108 mm retaining ring shaft", 1)] {
            let question = read(text);
            assert_eq!(question.designation, None, "{text}");
            assert_eq!(question.readings.len(), count, "{text}");
        }
    }
}
