//! What words say of the place that hangs on more than a need: an upright shaft, a hard one, heat without a figure, and
//! what the outside of a seal is of.

use super::Question;
use crate::interchange::AxialNeed;
use crate::part::designation::trade_words::{self, Said};
use crate::part::{BoreForm, Family, SealForm};

/// The weight of a shaft that stands upright hangs on its bearings (arithmetic).
pub(super) fn hangs(question: &mut Question) {
    let axial = &mut question.needs.axial;
    *axial = axial.or(Some(AxialNeed::OneWay));
    question.read_as.push(
        "the weight of a vertical shaft hangs on its bearings: read as a load along the shaft one way".to_owned(),
    );
}

pub(super) fn on_straight_shaft(question: &mut Question) {
    let form = question.traits.bore_form;
    if form.is_some_and(|form| form != BoreForm::Cylindrical) {
        question.read_as.push(
            "a tapered bore on a straight shaft sits on an adapter sleeve: look at the sleeve and its nut too".to_owned(),
        );
    }
}

/// As hard as a raceway for rollers is (DIN 617, from memory).
const RACEWAY_HRC: f64 = 58.0;

pub(super) fn on_hard_shaft(question: &mut Question) {
    if question.needs.shaft_hrc.is_none() {
        question.needs.shaft_hrc = Some(RACEWAY_HRC);
        question
            .read_as
            .push("a hardened shaft read as 58 HRC: have it measured".to_owned());
    }
}

/// True where the question is for a shaft lip seal, or may be.
pub(super) fn may_be_lip_seal(question: &Question) -> bool {
    match question.family {
        Some(family) => family == Family::LipSeal,
        None => question.families.contains(&Family::LipSeal),
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

/// How a hot place without a figure is read.
pub(super) const HOT: &str = "hot read as 120 °C: say how hot";

pub(super) fn hot(question: &mut Question) {
    if question.needs.highest_c.is_none() {
        question.needs.highest_c = Some(120.0);
        question.read_as.push(HOT.to_owned());
    }
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
    fn heat_and_hardness_without_a_figure_are_told() {
        let question = read("6205 hot");
        assert_eq!(question.needs.highest_c, Some(120.0));
        assert!(question.read_as.iter().any(|note| note == HOT));
        // A figure says it better.
        let question = read("6205 hot 150 °C");
        assert_eq!(question.needs.highest_c, Some(150.0));
        assert!(question.read_as.iter().all(|note| note != HOT));
        let question = read("HK2020 shaft hardened and ground");
        assert_eq!(question.needs.shaft_hrc, Some(RACEWAY_HRC));
        assert!(
            question.not_understood.is_empty(),
            "{:?}",
            question.not_understood
        );
        assert!(read("dowel 8x30 soft").traits.has_variant("unhardened"));
        assert_eq!(read("6205 soft").not_understood, ["soft"]);
        let told = read("22208 K on straight shaft").read_as;
        assert!(told.iter().any(|note| note.contains("adapter sleeve")));
        assert!(read("22208 on straight shaft").read_as.is_empty());
    }
}
