//! What words say of the place that hangs on more than a need: an upright shaft, a hard one, heat without a figure, and
//! what the outside of a seal is of.

use super::Question;
use crate::interchange::AxialNeed;
use crate::part::designation::trade_words::{self, Said};
use crate::part::{Family, SealForm};

/// The weight of a shaft that stands upright hangs on its bearings (arithmetic).
pub(super) fn hangs(question: &mut Question) {
    let axial = &mut question.needs.axial;
    *axial = axial.or(Some(AxialNeed::OneWay));
    question.notes.push(
        "the weight of a vertical shaft hangs on its bearings: read as a load along the shaft one way".to_owned(),
    );
}

pub(super) fn on_straight_shaft(question: &mut Question) {
    if question.traits.has_tapered_bore() {
        question.notes.push(
            "a tapered bore on a straight shaft sits on an adapter sleeve: look at the sleeve and its nut too".to_owned(),
        );
    }
}

/// As hard as a raceway for rollers is (DIN 617, from memory).
const RACEWAY_HRC: f64 = 58.0;

/// How a hardened shaft without a figure is read.
pub(super) const HARD: &str = "a hardened shaft read as 58 HRC: have it measured";

pub(super) fn on_hard_shaft(question: &mut Question) {
    if question.needs.shaft_hrc.is_none() {
        question.needs.shaft_hrc = Some(RACEWAY_HRC);
        question.notes.push(HARD.to_owned());
    }
}

/// Ways that a shaft turns, with the ribs that pump for each (DIN 3760, from memory).
const WAYS: [(&str, &str); 9] = [
    ("left", "ribs for left-hand rotation"),
    ("links", "ribs for left-hand rotation"),
    ("linksherum", "ribs for left-hand rotation"),
    ("anticlockwise", "ribs for left-hand rotation"),
    ("counterclockwise", "ribs for left-hand rotation"),
    ("right", "ribs for right-hand rotation"),
    ("rechts", "ribs for right-hand rotation"),
    ("rechtsherum", "ribs for right-hand rotation"),
    ("clockwise", "ribs for right-hand rotation"),
];

/// `shaft turns left` beside a lip seal: which ribs it may have. A plain lip seals either way, and which side the shaft was
/// looked at from is not told: the word stays one that nothing decided.
pub(super) fn note_way(question: &mut Question) {
    if !may_be_lip_seal(question) {
        return;
    }
    let lower = question.text.to_lowercase();
    let turns = lower.split_whitespace().any(super::load_words::is_turning);
    let way = question.not_understood.iter().find_map(|word| {
        let word = word.to_lowercase();
        WAYS.iter().find(|(way, _)| *way == word)
    });
    if let Some((way, ribs)) = way.filter(|_| turns) {
        question.notes.push(format!(
            "a shaft that turns {way} seen from the air side needs a seal without ribs or with {ribs}: look at the arrow on the old seal"
        ));
    }
}

/// True for a seal with lips that run on the shaft.
pub(super) const fn has_lips(family: Family) -> bool {
    family.facts().exchange.has_lip()
}

/// True where the question is for a shaft lip seal, or may be.
pub(super) fn may_be_lip_seal(question: &Question) -> bool {
    match question.family {
        Some(family) => has_lips(family),
        None => question.families.iter().copied().any(has_lips),
    }
}

/// Form A is covered with rubber, form B has a metal case (DIN 3760).
pub(super) fn outside(question: &mut Question, form: SealForm) {
    question.family = Some(Family::LipSeal);
    let has_lip = question
        .traits
        .seal_form
        .is_some_and(SealForm::has_dust_lip);
    question.traits.seal_form = Some(if has_lip {
        trade_words::with_dust_lip(form)
    } else {
        form
    });
}

/// Two lips may be a sealing lip and a dust lip (DIN 3760: S) or two sealing lips: which of them is not told.
pub(super) fn two_lips(question: &mut Question, words: &str) {
    question.family = question.family.or(Some(Family::LipSeal));
    question.not_understood.push(words.to_owned());
    question.notes.push(format!(
        "`{words}` does not tell whether the second lip is a dust lip (S, DIN 3760) or a sealing lip: look at the old seal"
    ));
}

/// How a hot place without a figure is read.
pub(super) const HOT: &str = "hot read as 120 °C: say how hot";

pub(super) fn hot(question: &mut Question) {
    if question.needs.highest_c.is_none() {
        question.needs.highest_c = Some(120.0);
        question.notes.push(HOT.to_owned());
    }
}

/// `pair DB`: the arrangement of a set behind other words; gives what is left.
pub(super) fn arrangement(question: &mut Question, text: &str) -> Option<String> {
    const MARKS: [&str; 3] = ["DB", "DF", "DT"];
    let mut pairs = text.as_bytes().windows(2);
    if !pairs.any(|pair| MARKS.iter().any(|mark| mark.as_bytes() == pair)) {
        return None;
    }
    let bare = |word: &str| word.trim_matches([',', ';', '(', ')']).to_owned();
    let words: Vec<&str> = text.split_whitespace().collect();
    let (at, mark) = words.iter().enumerate().find_map(|(at, word)| {
        let mark = MARKS.into_iter().find(|mark| bare(word) == *mark)?;
        Some((at, mark))
    })?;
    let is_set = question.family?.facts().marks.may_be_paired();
    let said = Said::Arrangement(mark);
    (is_set && said.set(&mut question.traits, question.family)).then(|| {
        let rest = words[..at].iter().chain(&words[at + 1..]).copied();
        rest.collect::<Vec<_>>().join(" ")
    })
}

/// A pin that is not hardened; what else is soft is not told.
pub(super) fn soft(question: &mut Question) {
    let said = Said::Variant("unhardened");
    if !said.set(&mut question.traits, question.family) {
        question.not_understood.push("soft".to_owned());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Question {
        Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    #[test]
    fn ends_and_ways_say_how_the_shaft_is_held() {
        use AxialNeed::{BothWays, Floats, OneWay};
        for (text, axial) in [
            ("NUP205 free end", Floats),
            ("NUP205 non locating", Floats),
            ("NUP205 fixed end", BothWays),
            ("NJ205 locating one side", OneWay),
            ("NJ205 locates one way", OneWay),
            ("NUP205 locating both sides", BothWays),
            ("NU205 vertical shaft", OneWay),
            ("NU205 senkrechte Welle", OneWay),
            // A need that is stated stands.
            ("NUP205 must locate both ways vertical shaft", BothWays),
        ] {
            let question = read(text);
            assert_eq!(question.needs.axial, Some(axial), "{text}");
            assert!(
                question.not_understood.is_empty(),
                "{text}: {:?}",
                question.not_understood
            );
        }
    }

    #[test]
    fn a_pair_with_its_arrangement_is_a_set() {
        // ISO 15241 and common practice: DB back to back, DF face to face, DT in tandem.
        for (text, arrangement) in [
            ("7208 B pair DB", "DB"),
            ("7208 B matched pair, DF", "DF"),
            ("7208 B worn pair DT", "DT"),
            ("30208 pair DF", "DF"),
        ] {
            let question = read(text);
            let of = question.traits.arrangement.as_deref();
            assert_eq!(of, Some(arrangement), "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
        // A roller bearing of two loose rows is no set, and a number says its own arrangement.
        assert_eq!(read("NU208 old DB").not_understood, ["DB"]);
        assert_eq!(read("7208 B DF old DB").not_understood, ["DB"]);
    }

    #[test]
    fn the_outside_of_a_seal_is_its_form() {
        // DIN 3760: A is covered with rubber, B has a metal case, S behind them a dust lip.
        for (text, form) in [
            ("seal 40x62x8 rubber outside", SealForm::A),
            ("seal 40 62 8 metal outside", SealForm::B),
            ("oil seal 40x62x8 metal case dust lip", SealForm::Bs),
            ("oil seal 40x62x8 rubber covered dust lip", SealForm::As),
            ("seal 40x62x8 B NBR", SealForm::B),
            ("seal 40 62 8 BS", SealForm::Bs),
        ] {
            let question = read(text);
            assert_eq!(question.traits.seal_form, Some(form), "{text}");
            assert_eq!(question.family, Some(Family::LipSeal), "{text}");
        }
        // An O-ring has two figures and no form.
        assert_eq!(read("seal 40 x 3 NBR").traits.seal_form, None);
    }

    #[test]
    fn a_second_lip_is_no_dust_lip_for_certain() {
        // DIN 3760 has a dust lip behind the sealing lip; seals between two fluids have two sealing lips (common practice).
        for (text, words, form) in [
            ("oil seal 40x62x8 double lip", "double lip", None),
            ("Wellendichtring 40x62x8 Doppellippe", "doppellippe", None),
            (
                "oil seal 40x62x8 rubber covered double lip",
                "double lip",
                Some(SealForm::A),
            ),
        ] {
            let question = read(text);
            assert_eq!(question.needs.has_dust_lip, None, "{text}");
            assert_eq!(question.traits.seal_form, form, "{text}");
            assert_eq!(question.not_understood, [words], "{text}");
            let told = question.notes.join("; ");
            assert!(
                told.contains("dust lip (S, DIN 3760) or a sealing lip"),
                "{text}"
            );
        }
    }

    #[test]
    fn heat_and_hardness_without_a_figure_are_told() {
        let question = read("6205 hot");
        assert_eq!(question.needs.highest_c, Some(120.0));
        assert!(question.notes.iter().any(|note| note == HOT));
        // A figure says it better.
        let question = read("6205 hot 150 °C");
        assert_eq!(question.needs.highest_c, Some(150.0));
        assert!(question.notes.iter().all(|note| note != HOT));
        for text in [
            "oil seal 35x52x7 NBR hot oil 130 C",
            "oil seal 35x52x7 NBR 130 C hot oil",
            "6205 hot 150°C",
        ] {
            let question = read(text);
            assert!(
                question.needs.highest_c.is_some_and(|c| c > 120.0),
                "{text}"
            );
            assert!(question.notes.iter().all(|note| note != HOT), "{text}");
        }
        let ground = read("RNA4905 hardened shaft 60 HRC");
        assert_eq!(ground.needs.shaft_hrc, Some(60.0));
        assert!(ground.notes.iter().all(|note| note != HARD), "{ground:?}");
        for text in ["22216 misalignment 1.5 degrees", "22216 1.5° misalignment"] {
            let question = read(text);
            assert!(question.needs.is_misaligned, "{text}");
            assert_eq!(question.needs.highest_c, None, "{text}");
            let told = question.notes.join("; ");
            assert!(
                told.contains("1.5°") && !told.contains("°C"),
                "{text}: {told}"
            );
        }
        assert_eq!(
            read("22216 misaligned 90 degrees").needs.highest_c,
            Some(90.0)
        );
        let question = read("HK2020 shaft hardened and ground");
        assert_eq!(question.needs.shaft_hrc, Some(RACEWAY_HRC));
        assert!(
            question.not_understood.is_empty(),
            "{:?}",
            question.not_understood
        );
        assert!(read("dowel 8x30 soft").traits.has_variant("unhardened"));
        assert_eq!(read("6205 soft").not_understood, ["soft"]);
        let told = read("22208 K on straight shaft").notes;
        assert!(told.iter().any(|note| note.contains("adapter sleeve")));
        assert!(read("22208 on straight shaft").notes.is_empty());
    }

    /// DIN 3760, from memory: ribs pump one way, a plain lip seals either way.
    #[test]
    fn the_way_a_shaft_turns_tells_which_ribs_a_seal_may_have() {
        for (text, ribs) in [
            ("oil seal 45x62x8 NBR shaft turns left", Some("left-hand")),
            (
                "oil seal 45x62x8 NBR shaft turns clockwise",
                Some("right-hand"),
            ),
            (
                "Wellendichtring 45x62x8 NBR Welle dreht rechts",
                Some("right-hand"),
            ),
            ("oil seal 45x62x8 NBR", None),
            ("6205 shaft turns", None),
        ] {
            let question = read(text);
            let told = question.notes.join("; ");
            assert_eq!(
                told.contains("without ribs or with"),
                ribs.is_some(),
                "{text}: {told}"
            );
            assert!(told.contains(ribs.unwrap_or_default()), "{text}: {told}");
            assert_eq!(question.not_understood.is_empty(), ribs.is_none(), "{text}");
        }
        for (text, ribs) in [
            (
                "oil seal 45x62x8 NBR ribs right-hand",
                "ribs for right-hand rotation",
            ),
            (
                "oil seal 45x62x8 NBR ribs left hand rotation",
                "ribs for left-hand rotation",
            ),
        ] {
            let question = read(text);
            assert_eq!(question.traits.variant.as_deref(), Some(ribs), "{text}");
            assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        }
    }
}
