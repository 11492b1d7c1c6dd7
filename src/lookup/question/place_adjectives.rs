//! What is said of a shaft, a housing or a room and not of the part there: `6308 stainless shaft`, `6205 in sealed housing`.

use super::figure::is_figure;
use super::plain::plain;

/// Words that say how a part is made, and may say it of its place.
const ADJECTIVES: [&str; 17] = [
    "stainless",
    "sealed",
    "shielded",
    "insulated",
    "hybrid",
    "rostfreie",
    "rostfreien",
    "rostfreier",
    "rostfreiem",
    "abgedichtete",
    "abgedichteten",
    "abgedichtetem",
    "isolierte",
    "isolierten",
    "isoliertem",
    "isolierter",
    "inox",
];
/// Things that a part sits on or in, or stands in.
const THINGS: [&str; 20] = [
    "shaft",
    "shafts",
    "journal",
    "housing",
    "housings",
    "room",
    "chamber",
    "compartment",
    "cabinet",
    "enclosure",
    "environment",
    "axle",
    "welle",
    "wellen",
    "gehäuse",
    "gehaeuse",
    "raum",
    "kammer",
    "arbre",
    "logement",
];
/// The same, where a word in front says that they are a place: a `sealed motor bearing` is sealed.
const MACHINES: [&str; 12] = [
    "motor",
    "drive",
    "gearbox",
    "tank",
    "box",
    "pump",
    "vessel",
    "plant",
    "getriebe",
    "antrieb",
    "pumpe",
    "behälter",
];
const IN: [&str; 17] = [
    "in", "on", "for", "inside", "into", "to", "im", "auf", "für", "fuer", "an", "zu", "dans",
    "sur", "pour", "with", "mit",
];
const ARTICLES: [&str; 10] = [
    "a", "an", "the", "der", "die", "dem", "einem", "einer", "un", "une",
];

/// A text without them, and what they say with their thing; `None` where it has none.
pub(super) fn split(text: &str) -> Option<(String, Vec<String>)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let lower = |at: usize| {
        words
            .get(at)
            .map_or_else(String::new, |word| plain(word).into_owned())
    };
    let is_place = |at: usize| {
        let (word, thing) = (lower(at), lower(at + 1));
        let is_adjective = ADJECTIVES.contains(&word.as_str());
        if !is_adjective || words[at].ends_with([',', ';', '.']) {
            return false;
        }
        let mut before = (0..at).rev().map(lower);
        let before = before.find(|word| !ARTICLES.contains(&word.as_str()));
        let is_behind = before.is_some_and(|word| IN.contains(&word.as_str()));
        // `6205 sealed shaft 25.01`: what the shaft measures is said of a sealed bearing.
        let has_figure = words.get(at + 2).is_some_and(|next| is_figure(next));
        // `sealed housing bearing`, `stainless shaft seal` are parts.
        let names_part = [
            "bearing", "bearings", "seal", "seals", "lager", "ring", "nut", "nuts",
        ];
        let is_part = names_part.contains(&lower(at + 2).as_str());
        let is_thing = THINGS.contains(&thing.as_str());
        let is_machine = MACHINES.contains(&thing.as_str());
        !is_part && (is_behind && (is_thing || is_machine) || is_thing && !has_figure)
    };
    let places: Vec<usize> = (0..words.len()).filter(|at| is_place(*at)).collect();
    if places.is_empty() {
        return None;
    }
    let said = |at: &usize| {
        format!(
            "{} {}",
            words[*at],
            words[at + 1].trim_end_matches([',', ';', '.'])
        )
    };
    let told = places.iter().map(said).collect();
    let left = (0..words.len()).filter(|at| !places.contains(at));
    let left: Vec<&str> = left.map(|at| words[at]).collect();
    Some((left.join(" "), told))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;
    use crate::part::Closure;

    #[test]
    fn what_is_said_of_a_place_is_told_from_what_is_said_of_the_part() {
        for (text, left, told) in [
            ("6308 stainless shaft", "6308 shaft", "stainless shaft"),
            (
                "6308 for stainless shaft",
                "6308 for shaft",
                "stainless shaft",
            ),
            (
                "6205 in sealed housing",
                "6205 in housing",
                "sealed housing",
            ),
            (
                "6205 in a sealed housing, worn",
                "6205 in a housing, worn",
                "sealed housing",
            ),
            ("6205 in insulated room", "6205 in room", "insulated room"),
            ("6205 for hybrid drive", "6205 for drive", "hybrid drive"),
            (
                "6205 in sealed housing 52.01",
                "6205 in housing 52.01",
                "sealed housing",
            ),
        ] {
            let (read, said) = split(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!((read.as_str(), said.join("; ").as_str()), (left, told));
        }
        for text in [
            "6205 stainless",
            "6205 sealed, shaft 25",
            "6205 sealed shaft 25.01",
            "6205 sealed motor bearing",
            "stainless shaft seal 40x62x7",
            "6205 sealed for motor",
        ] {
            assert_eq!(split(text), None, "{text}");
        }
    }

    #[test]
    fn the_part_stays_as_its_number_says() {
        for text in [
            "6308 stainless shaft",
            "6205 in sealed housing",
            "6205 in insulated room",
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(question.traits.variants().count(), 0, "{text}");
            let closure = question.traits.closure.unwrap_or(Closure::Open);
            assert_eq!(closure, Closure::Open, "{text}");
            assert_eq!(question.not_understood.len(), 1, "{text}: {question:?}");
        }
    }
}
