//! A bearing that is asked for without one of its rings: `NU208 without inner ring`, `30206 without cup`.

use super::{Question, half};
use crate::import::family_in;
use crate::language::with_article;
use crate::part::designation::trade_words::{self, Half, Said};
use crate::part::{Family, PartClass, PartKind, RingAway};
use crate::standard;

/// Words that take a ring away.
const WITHOUT: [&str; 12] = [
    "without", "no", "w/o", "less", "ohne", "kein", "keinen", "sans", "sin", "sem", "senza",
    "minus",
];

/// Reads such a question; `None` where no ring of a bearing is taken away.
pub(super) fn read(text: &str) -> Option<Question> {
    let (lack, phrase, rest) = split(text)?;
    // Needle bearings that are made without have a name and a table.
    if family_in(text).is_some_and(is_without) {
        return None;
    }
    let mut question = Question::read_whole(&rest).ok()?;
    if question
        .family
        .is_some_and(|of| of.class() != PartClass::Bearings)
    {
        return None;
    }
    let other = match lack {
        Half::Inner => Half::Outer,
        Half::Outer => Half::Inner,
    };
    let without = family_without(&question).filter(|_| lack == Half::Inner);
    match (without, question.family) {
        (Some(family), _) => match made_without(&question, family) {
            Some(bare) => question = bare,
            None => question.not_understood.push(phrase),
        },
        (None, Some(family)) if is_left(family, RingAway::OtherHalf) => {
            if let Some(variant) = other.of(family) {
                half::add(&mut question, variant);
            }
        }
        (None, family) => {
            question.not_understood.push(phrase);
            let said = match family {
                Some(family) if is_left(family, RingAway::OnRollers) => {
                    Some(AROUND_ROLLERS.to_owned())
                }
                Some(family) if lack.of(family).is_none() => Some(format!(
                    "the rings of {} are not parted: the whole bearing is exchanged",
                    with_article(family)
                )),
                _ => None,
            };
            question.notes.extend(said);
        }
    }
    text.trim().clone_into(&mut question.text);
    Some(question)
}

/// What is left of a cylindrical roller bearing (DIN 5412-1: raceway diameters F and E).
const AROUND_ROLLERS: &str = "what is left is one ring with the rollers, which run on the shaft or in the housing itself: its diameter under or over the rollers is in no table here, measure it, and see that the seat is as hard as a raceway";

/// The ring that is taken away, the words for that, and the text without them.
fn split(text: &str) -> Option<(Half, String, String)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let bare = |word: &&str| {
        word.trim_matches([',', ';', '.', ':', '(', ')'])
            .to_lowercase()
    };
    let lower: Vec<String> = words.iter().map(bare).collect();
    (0..lower.len()).find_map(|at| {
        if !WITHOUT.contains(&lower[at].as_str()) {
            return None;
        }
        let article = usize::from(lower.get(at + 1).is_some_and(|word| word == "the"));
        let start = at + 1 + article;
        let (count, Said::Half(lack)) = trade_words::at(lower.get(start..)?, 0)? else {
            return None;
        };
        let end = start + count;
        let rest: Vec<&str> = words[..at].iter().chain(&words[end..]).copied().collect();
        Some((lack, lower[at..end].join(" "), rest.join(" ")))
    })
}

/// True where this is left of a bearing without one of its rings.
fn is_left(family: Family, left: RingAway) -> bool {
    family.facts().asked.ring_away == left
}

/// True for the bearings that others are without their inner ring.
fn is_without(family: Family) -> bool {
    let left = RingAway::OtherFamily(family);
    Family::ALL.into_iter().any(|whole| is_left(whole, left))
}

/// True for the bearings that are made with and without their inner ring, under another number each.
pub(super) fn is_with_or_without(family: Family) -> bool {
    let is_whole = matches!(family.facts().asked.ring_away, RingAway::OtherFamily(_));
    is_whole || is_without(family)
}

/// The family that the bearings of a question are of without their inner ring, where they have one or may have one.
fn family_without(question: &Question) -> Option<Family> {
    let mut families = question.families.iter().copied();
    match question.family {
        Some(family) => match family.facts().asked.ring_away {
            RingAway::OtherFamily(without) => Some(without),
            _ => None,
        },
        // `bearing` and `ball bearing` name others.
        None if families.clone().any(|family| family.is_of(PartKind::Balls)) => None,
        None => families.find(|family| is_without(*family)),
    }
}

/// The needle bearing that is made without inner ring: RNA4905 for NA4905 (ISO 1206), or of the figures.
fn made_without(question: &Question, family: Family) -> Option<Question> {
    let Some(designation) = &question.designation else {
        let mut bare = question.clone();
        bare.family = Some(family);
        bare.families.clear();
        return question.partial.is_empty().then_some(bare);
    };
    if !question.readings.is_empty() {
        return None;
    }
    let row = standard::find(&format!("R{}", designation.basic))?;
    let mut bare = Question::read_whole(&row.designation).ok()?;
    bare.traits.take_gaps(&question.traits);
    bare.needs = question.needs.clone();
    bare.is_worn = question.is_worn;
    bare.not_understood.clone_from(&question.not_understood);
    bare.notes.push(format!(
        "`{}` without its inner ring is `{}` (ISO 1206)",
        designation.basic, row.designation
    ));
    bare.notes.extend(question.notes.iter().cloned());
    Some(bare)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    /// DIN 5412-1: NU208 without inner ring is a ring with rollers, and no NU208.
    #[test]
    fn a_bearing_without_a_ring_is_not_the_whole_one() {
        for (text, left) in [
            ("NU208 without inner ring", "without inner ring"),
            ("NU208 no inner ring", "no inner ring"),
            ("NU208 ohne Innenring", "ohne innenring"),
            ("bearing 30x62x16 no inner ring", "no inner ring"),
            ("6206 without the inner ring", "without the inner ring"),
            ("NU208 without outer ring", "without outer ring"),
        ] {
            let question = read(text);
            assert_eq!(question.not_understood, [left], "{text}");
            assert_eq!(question.text, text);
        }
        let told = |text| read(text).notes.join("; ");
        assert!(told("NU208 without inner ring").contains("one ring with the rollers"));
        assert!(told("6206 without inner ring").contains("are not parted"));
    }

    /// ISO 5593: cone and cup; ISO 1206: RNA4905 is 30 x 42 x 17 mm, from memory.
    #[test]
    fn what_is_left_has_a_name_of_its_own() {
        assert!(read("30206 without cup").traits.has_variant("cone only"));
        assert!(read("30206 without cone").traits.has_variant("cup only"));
        for text in ["NA4905 without inner ring", "NA 4905 ohne Innenring"] {
            let question = read(text);
            let basic = question.designation.as_ref().map(|read| &*read.basic);
            assert_eq!(basic, Some("RNA4905"), "{text}");
            let told = question.notes.join("; ");
            assert!(told.contains("`NA4905` without its inner ring"), "{told}");
        }
        for text in [
            "needle roller bearing without inner ring 30x42x17",
            "Nadellager ohne Innenring 30x42x17",
            "needle roller bearing 30x42x17 without inner ring",
        ] {
            let family = read(text).family;
            assert_eq!(family, Some(Family::NeedleRollerNoInnerRing), "{text}");
        }
    }

    /// ISO 1206: NA and RNA; ISO 3245 has drawn cups without inner ring alone.
    #[test]
    fn needle_bearings_with_machined_rings_are_with_or_without() {
        let all = Family::ALL.into_iter();
        let found: Vec<Family> = all.filter(|of| is_with_or_without(*of)).collect();
        let expected = [Family::NeedleRoller, Family::NeedleRollerNoInnerRing];
        assert_eq!(found, expected);
    }

    #[test]
    fn what_takes_no_ring_away_is_left() {
        for text in [
            "NU208 inner ring only",
            "NU208 with inner ring",
            "6206 without seals",
            "NU208 inner ring missing",
        ] {
            assert_eq!(split(text), None, "{text}");
        }
    }
}
