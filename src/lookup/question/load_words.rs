//! Words that say how the load comes: which ring turns, across or along the shaft, one way or both, with shocks.

use std::sync::LazyLock;

use super::Question;
use super::any_of::AnyOf;
use crate::interchange::{AxialNeed, Turning};

/// Beginnings of words without which no text says anything here: most questions are done with at a glance.
const BEGINNINGS: [&str; 22] = [
    "turn", "rotat", "spin", "dreh", "umlauf", "tourn", "hub", "wheel", "nabe", "radnabe", "load",
    "last", "axial", "radial", "charge", "thrust", "shock", "vibrat", "sto", "stö", "schwing",
    "chocs",
];
const TURNS: [&str; 15] = [
    "turns",
    "turning",
    "rotates",
    "rotating",
    "spins",
    "spinning",
    "dreht",
    "drehend",
    "drehender",
    "drehendem",
    "umlaufend",
    "umlaufender",
    "umlaufendem",
    "tourne",
    "tournante",
];
const OUTER: [&str; 8] = [
    "outer",
    "housing",
    "außenring",
    "aussenring",
    "gehäuse",
    "gehaeuse",
    "extérieure",
    "moyeu",
];
const INNER: [&str; 6] = [
    "inner",
    "shaft",
    "innenring",
    "welle",
    "intérieure",
    "arbre",
];
/// Hubs turn about an axle that stands (common practice, no source).
const HUBS: [&str; 5] = ["hub", "hubs", "radnabe", "nabe", "wheel-hub"];
const BESIDE_TURNS: [&str; 7] = ["ring", "race", "bague", "is", "sich", "the", "la"];
const SHOCKS: [&str; 17] = [
    "shock",
    "shocks",
    "vibration",
    "vibrations",
    "vibrating",
    "vibrates",
    "vibrationen",
    "stöße",
    "stoß",
    "stoss",
    "stösse",
    "stoßbelastung",
    "stossbelastung",
    "schwingung",
    "schwingungen",
    "chocs",
    "shock-loaded",
];
const LOADS: [&str; 4] = ["load", "loads", "loading", "last"];
const ALONG: [&str; 6] = [
    "axial",
    "thrust",
    "axiale",
    "axiallast",
    "axialkraft",
    "axialbelastung",
];
const ACROSS: [&str; 5] = [
    "radial",
    "radiale",
    "radiallast",
    "radialkraft",
    "radialbelastung",
];
const COMBINED: [&str; 5] = ["combined", "kombinierte", "combinée", "mixed", "kombiniert"];
const BEFORE_WAYS: [&str; 14] = [
    "in", "from", "on", "each", "aus", "von", "dans", "les", "un", "der", "either", "acting",
    "only", "and",
];
const BOTH: [&str; 7] = [
    "both",
    "two",
    "either",
    "beide",
    "beiden",
    "deux",
    "beidseitig",
];
const ONE: [&str; 7] = ["one", "single", "einer", "eine", "einseitig", "un", "1"];
const WAYS: [&str; 11] = [
    "ways",
    "way",
    "directions",
    "direction",
    "sides",
    "side",
    "richtungen",
    "richtung",
    "seiten",
    "seite",
    "sens",
];

/// Words that say that a load comes no other way: `radial only`, `rein axial`.
const ALONE: [&str; 8] = [
    "only",
    "alone",
    "nur",
    "allein",
    "seulement",
    "uniquement",
    "solo",
    "solamente",
];
const PURELY: [&str; 9] = [
    "only",
    "purely",
    "pure",
    "just",
    "nur",
    "rein",
    "reine",
    "purement",
    "uniquement",
];
/// Behind these words `radial` and `axial` are the name of a part or of a play.
const NAMED: [&str; 14] = [
    "ball",
    "balls",
    "roller",
    "rollers",
    "needle",
    "bearing",
    "bearings",
    "shaft",
    "seal",
    "contact",
    "lager",
    "clearance",
    "play",
    "insert",
];

/// True for a word that says something here, in a text that would else be read as a suffix.
pub(super) fn is_word(lower: &str) -> bool {
    let lists: [&[&str]; 8] = [
        &TURNS, &HUBS, &SHOCKS, &LOADS, &ALONG, &ACROSS, &COMBINED, &WAYS,
    ];
    lists.iter().any(|words| words.contains(&lower))
}

/// True for a word in lower case that says that something turns.
pub(super) fn is_turning(lower: &str) -> bool {
    TURNS.contains(&lower)
}

/// Takes what is said of the load out of the text; `None` where nothing is.
pub(super) fn take(question: &mut Question, text: &str) -> Option<String> {
    // Most questions say nothing of a load: they are not taken apart.
    static ANY: LazyLock<AnyOf> = LazyLock::new(|| BEGINNINGS.into_iter().chain(OUTER).collect());
    if !ANY.may_stand_in(text) {
        return None;
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    let lower: Vec<String> = words
        .iter()
        .map(|word| word.trim_matches([',', ';', '.', '(', ')']).to_lowercase())
        .collect();
    let is_begun = |word: &String| {
        BEGINNINGS
            .iter()
            .any(|beginning| word.starts_with(beginning))
    };
    if !lower
        .iter()
        .any(|word| is_begun(word) || OUTER.contains(&word.as_str()))
    {
        return None;
    }
    let mut said = Said {
        words: &lower,
        taken: vec![false; words.len()],
    };
    said.turning(question);
    said.loads(question);
    said.shocks(question);
    if !said.taken.contains(&true) {
        return None;
    }
    let left = words.iter().zip(&said.taken);
    let left: Vec<&str> = left
        .filter(|(_, taken)| !**taken)
        .map(|(word, _)| *word)
        .collect();
    Some(left.join(" "))
}

/// Words of a question, and which of them were understood here.
struct Said<'a> {
    words: &'a [String],
    taken: Vec<bool>,
}

impl Said<'_> {
    fn word(&self, at: usize) -> &str {
        self.words.get(at).map_or("", String::as_str)
    }

    fn is(&self, at: usize, of: &[&str]) -> bool {
        self.taken.get(at) == Some(&false) && of.contains(&self.word(at))
    }

    fn take(&mut self, range: std::ops::RangeInclusive<usize>) {
        for at in range {
            if let Some(taken) = self.taken.get_mut(at) {
                *taken = true;
            }
        }
    }

    /// True where a word names the next figure, not what turns: `shaft 40`, `rotating shaft seal`.
    fn names_another(&self, at: usize) -> bool {
        let next = self.word(at + 1);
        let is_figure = next.starts_with(|c: char| c.is_ascii_digit());
        matches!(
            self.word(at),
            "shaft" | "housing" | "welle" | "gehäuse" | "arbre"
        ) && (is_figure || matches!(next, "seal" | "lip" | "nut" | "ring"))
    }

    /// `outer ring turns`, `rotating outer ring`, `wheel hub`.
    fn turning(&mut self, question: &mut Question) {
        for at in 0..self.words.len() {
            if self.is(at, &HUBS) {
                question.needs.turning = Some(Turning::OuterRing);
                question
                    .notes
                    .push("a hub read as: the outer ring turns".to_owned());
                let first = at - usize::from(at > 0 && self.is(at - 1, &["wheel"]));
                self.take(first..=at);
            }
            if !self.is(at, &TURNS) {
                continue;
            }
            let mut first = at;
            while first > 0 && self.is(first - 1, &BESIDE_TURNS) {
                first -= 1;
            }
            let before = first.checked_sub(1).filter(|at| self.ring(*at).is_some());
            let mut last = at;
            while self.is(last + 1, &["the", "la", "bague"]) {
                last += 1;
            }
            let behind =
                Some(last + 1).filter(|at| self.ring(*at).is_some() && !self.names_another(*at));
            let Some(of) = before.or(behind) else {
                continue;
            };
            question.needs.turning = self.ring(of);
            let first = of.min(at);
            let first =
                first - usize::from(first > 0 && self.is(first - 1, &["bague", "the", "la"]));
            let mut last = of.max(at);
            while self.is(last + 1, &["ring", "race", "sich"]) {
                last += 1;
            }
            self.take(first..=last);
        }
    }

    fn ring(&self, at: usize) -> Option<Turning> {
        if self.is(at, &OUTER) {
            Some(Turning::OuterRing)
        } else {
            self.is(at, &INNER).then_some(Turning::InnerRing)
        }
    }

    /// `radial load only`, `axial load in both directions`, `thrust one way`, `combined load`.
    fn loads(&mut self, question: &mut Question) {
        let kinds: Vec<&str> = [&ALONG[..], &ACROSS, &COMBINED].concat();
        let mut at = 0;
        while at < self.words.len() {
            if !self.is(at, &kinds) && !self.is(at, &["charge"]) {
                at += 1;
                continue;
            }
            let mut last = at;
            while self.is(last + 1, &kinds)
                || (self.is(last + 1, &["and", "und", "et"]) && self.is(last + 2, &kinds))
            {
                last += 1;
            }
            let is_whole = |word: &str| {
                word.ends_with("last") || word.ends_with("kraft") || word.ends_with("belastung")
            };
            let names_load =
                (at..=last).any(|at| is_whole(self.word(at)) || self.word(at) == "charge");
            let is_load = self.is(last + 1, &LOADS);
            let end = if is_load { last + 1 } else { last };
            let (way, end) = self.way(end);
            // `in one direction only` tells of the way.
            let is_only = way.is_none() && ALONE.contains(&self.word(end));
            let (first, end, is_alone) = self.alone(at, end, is_only);
            // `thrust bearing` and `radial ball bearing` are kinds of bearings.
            let is_name = NAMED.contains(&self.word(last + 1));
            let is_along = way.is_some() && self.is(at, &ALONG);
            if names_load || is_load || is_along || is_alone && !is_name {
                self.note(question, at..=last, way);
                question.needs.is_axial_alone |=
                    is_alone && question.needs.axial.is_some() && !question.needs.has_radial_load;
                self.take(first..=end);
            }
            at = end + 1;
        }
    }

    /// The words of a load with those that say that it comes no other way; true where there are such.
    fn alone(&self, first: usize, last: usize, is_within: bool) -> (usize, usize, bool) {
        let before = first.checked_sub(1).filter(|at| self.is(*at, &PURELY));
        let behind = Some(last + 1).filter(|at| self.is(*at, &ALONE));
        let is_alone = before.is_some() || behind.is_some() || is_within;
        (before.unwrap_or(first), behind.unwrap_or(last), is_alone)
    }

    fn note(
        &self,
        question: &mut Question,
        kinds: std::ops::RangeInclusive<usize>,
        way: Option<AxialNeed>,
    ) {
        for at in kinds {
            let is_combined = self.is(at, &COMBINED);
            if is_combined || self.is(at, &ACROSS) {
                question.needs.has_radial_load = true;
            }
            if is_combined || self.is(at, &ALONG) {
                // A load along the shaft: the part must hold it one way at least.
                let axial = &mut question.needs.axial;
                *axial = way.or(*axial).or(Some(AxialNeed::OneWay));
            }
        }
    }

    /// `in both directions`, `one way`, `only` behind a load; gives the last word of it.
    fn way(&self, load: usize) -> (Option<AxialNeed>, usize) {
        let mut at = load + 1;
        let mut way = None;
        let mut end = load;
        while at < self.words.len() {
            if self.is(at, &BOTH) {
                way = Some(AxialNeed::BothWays);
            } else if self.is(at, &ONE) && way.is_none() {
                way = Some(AxialNeed::OneWay);
            } else if !self.is(at, &BEFORE_WAYS) && !self.is(at, &WAYS) {
                break;
            }
            let closes =
                self.is(at, &WAYS) || matches!(self.word(at), "only" | "beidseitig" | "einseitig");
            if closes {
                end = at;
            }
            at += 1;
        }
        (way.filter(|_| end > load), end)
    }

    fn shocks(&mut self, question: &mut Question) {
        for at in 0..self.words.len() {
            if self.is(at, &SHOCKS) {
                question.needs.has_shocks = true;
                self.take(at..=at);
                if self.is(at + 1, &LOADS) {
                    self.take(at + 1..=at + 1);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interchange::Needs;
    use crate::lookup::Question;

    fn needs(text: &str) -> Needs {
        let question = Question::read(text).unwrap();
        assert!(
            question.not_understood.is_empty(),
            "{text}: {:?}",
            question.not_understood
        );
        question.needs
    }

    #[test]
    fn the_ring_that_turns_is_read_before_and_behind_its_verb() {
        for (text, turning) in [
            ("6206 outer ring turns", Turning::OuterRing),
            ("6206 rotating outer ring", Turning::OuterRing),
            ("6206, outer race rotates, grease", Turning::OuterRing),
            ("6206 housing rotates", Turning::OuterRing),
            ("6206 wheel hub", Turning::OuterRing),
            ("6206 hub", Turning::OuterRing),
            ("6206 Außenring dreht sich", Turning::OuterRing),
            ("6206 umlaufender Aussenring", Turning::OuterRing),
            ("6206 bague extérieure tournante", Turning::OuterRing),
            ("6206 inner ring turns", Turning::InnerRing),
            ("6206 shaft turns", Turning::InnerRing),
            ("6206 Innenring dreht", Turning::InnerRing),
            ("30 x 62 x 16 outer ring turns", Turning::OuterRing),
        ] {
            assert_eq!(needs(text).turning, Some(turning), "{text}");
        }
        for text in [
            "6206",
            "rotating shaft seal 40 x 62 x 8",
            "oil seal shaft 40 housing 62 width 8",
        ] {
            assert_eq!(Question::read(text).unwrap().needs.turning, None, "{text}");
        }
    }

    #[test]
    fn loads_are_read_with_the_way_they_come() {
        use AxialNeed::{BothWays, OneWay};
        for (text, axial, is_radial) in [
            ("7206 axial load", Some(OneWay), false),
            ("7206 axial load one way", Some(OneWay), false),
            ("7206 axial load in one direction only", Some(OneWay), false),
            ("7206 axial load both directions", Some(BothWays), false),
            ("7206 axial loads from both sides", Some(BothWays), false),
            ("7206 thrust both ways", Some(BothWays), false),
            ("7206 Axiallast in beide Richtungen", Some(BothWays), false),
            ("7206 Axiallast beidseitig", Some(BothWays), false),
            ("7206 Axialkraft einseitig", Some(OneWay), false),
            (
                "7206 charge axiale dans les deux sens",
                Some(BothWays),
                false,
            ),
            ("6206 radial load only", None, true),
            ("6206 Radiallast", None, true),
            ("6206 charge radiale", None, true),
            ("6206 radial and axial load", Some(OneWay), true),
            ("6206 combined load", Some(OneWay), true),
            ("6206 combined radial and axial loads", Some(OneWay), true),
        ] {
            let needs = needs(text);
            assert_eq!(
                (needs.axial, needs.has_radial_load),
                (axial, is_radial),
                "{text}"
            );
        }
        // A stated need of the place stands, and kinds of bearings are no loads.
        assert_eq!(
            needs("NUP206 must locate both ways axial load").axial,
            Some(BothWays)
        );
        for text in [
            "thrust ball bearing 30 x 52 x 16",
            "radial ball bearing 30 x 62 x 16",
        ] {
            let needs = Question::read(text).unwrap().needs;
            assert_eq!(
                (needs.axial, needs.has_radial_load),
                (None, false),
                "{text}"
            );
        }
    }

    #[test]
    fn shocks_and_vibration_are_one_need() {
        for text in [
            "6206 shock load",
            "6206 vibration",
            "6206 Stöße",
            "6206 shocks, vibrations",
            "6206 Schwingungen",
        ] {
            assert!(needs(text).has_shocks, "{text}");
        }
        assert!(!needs("6206 radial load").has_shocks);
    }
}
