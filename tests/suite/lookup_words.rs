//! What the words of a question do, in English, German and French: roles, instruments, wear, needs, kinds of parts.
//!
//! Meanings are those of the dictionaries of the trade (ISO 5593 for rolling bearings, ISO 6194-1 for lip seals) and common
//! practice; the sizes behind the answers come from ISO 15, DIN 3760, DIN 471, DIN 472 and the tables named in each row.

use sparewright::interchange::{AxialNeed, Fluid, Verdict};
use sparewright::lookup::{Answers, Instrument, Question, Role, answer};
use sparewright::part::{Clearance, Closure, Family, PartClass, RibForm, SealForm, ToleranceClass};

fn read(text: &str) -> Question {
    Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn ask(text: &str) -> Answers {
    answer(&read(text), None)
}

fn first(text: &str) -> String {
    let answers = ask(text).answers;
    answers
        .first()
        .map_or_else(String::new, |first| first.designation.clone())
}

#[test]
fn a_word_names_the_dimension_of_its_figure() {
    use Role as R;
    for (text, roles) in [
        (
            "bore 40 od 80 w 18",
            &[Some(R::Inner), Some(R::Outer), Some(R::Width)][..],
        ),
        (
            "40 bore 80 od 18 wide",
            &[Some(R::Inner), Some(R::Outer), Some(R::Width)],
        ),
        (
            "id 40, o.d. 80, thickness 18",
            &[Some(R::Inner), Some(R::Outer), Some(R::Width)],
        ),
        (
            "d=40 D=80 B=18",
            &[Some(R::Inner), Some(R::Outer), Some(R::Width)],
        ),
        (
            "d40 D80 b18",
            &[Some(R::Inner), Some(R::Outer), Some(R::Width)],
        ),
        (
            "innen 40 außen 80 breite 18",
            &[Some(R::Inner), Some(R::Outer), Some(R::Width)],
        ),
        (
            "Bohrung 40 Außendurchmesser 80 Höhe 18",
            &[Some(R::Inner), Some(R::Outer), Some(R::Width)],
        ),
        (
            "alésage 40 extérieur 80 largeur 18",
            &[Some(R::Inner), Some(R::Outer), Some(R::Width)],
        ),
        ("shaft 40 housing 62", &[Some(R::Shaft), Some(R::Housing)]),
        ("Welle 40 Gehäuse 62", &[Some(R::Shaft), Some(R::Housing)]),
        ("arbre 40 logement 62", &[Some(R::Shaft), Some(R::Housing)]),
        ("journal 40 od 62", &[Some(R::Shaft), Some(R::Outer)]),
        (
            "bore 40 od 68 room for 15",
            &[Some(R::Inner), Some(R::Outer), Some(R::Room)],
        ),
        (
            "lip free id 33.6 on 35 shaft",
            &[Some(R::FreeLip), Some(R::Shaft)],
        ),
        ("o-ring id 40 cs 3", &[Some(R::Inner), Some(R::Section)]),
        (
            "o-ring 40 id 3 section",
            &[Some(R::Inner), Some(R::Section)],
        ),
        ("40 80 18", &[None, None, None]),
    ] {
        let question = read(text);
        let found: Vec<Option<Role>> = question
            .readings
            .iter()
            .map(|reading| reading.role)
            .collect();
        assert_eq!(found, roles, "{text}");
        assert_eq!(question.not_understood, Vec::<String>::new(), "{text}");
    }
}

#[test]
fn an_instrument_is_of_the_figures_before_it() {
    use Instrument as I;
    for (text, instruments) in [
        ("40 80 18 calliper", &[Some(I::Calliper); 3][..]),
        ("40 80 18 vernier", &[Some(I::Calliper); 3]),
        (
            "39.99 micrometer 80 18 rule",
            &[Some(I::Micrometer), Some(I::Rule), Some(I::Rule)],
        ),
        ("40 80 18 Messschieber", &[Some(I::Calliper); 3]),
        ("40 80 18 Lineal", &[Some(I::Rule); 3]),
        ("40 80 18 palmer", &[Some(I::Micrometer); 3]),
        ("40 80 18", &[None; 3]),
    ] {
        let question = read(text);
        let found: Vec<Option<Instrument>> = question
            .readings
            .iter()
            .map(|reading| reading.instrument)
            .collect();
        assert_eq!(found, instruments, "{text}");
        // A figure by an instrument was measured.
        assert!(
            question
                .readings
                .iter()
                .all(|reading| reading.is_measured == reading.instrument.is_some()),
            "{text}"
        );
    }
}

#[test]
fn wear_is_of_every_figure_or_of_the_one_it_stands_behind() {
    for (text, worn) in [
        ("40 80 18 worn", &[true, true, true][..]),
        ("worn 40 80 18", &[true, true, true]),
        ("40 80 18 verschlissen", &[true, true, true]),
        ("40 80 18 usé", &[true, true, true]),
        ("bore 40 worn od 79.9 w 18", &[true, false, false]),
        ("bore 40 od 79.9 worn w 18", &[false, true, false]),
        ("bore 40 od 80 w 18", &[false, false, false]),
    ] {
        let question = read(text);
        let found: Vec<bool> = question
            .readings
            .iter()
            .map(|reading| reading.is_worn)
            .collect();
        assert_eq!(found, worn, "{text}");
        assert_eq!(question.is_worn, worn.contains(&true), "{text}");
    }
    for text in [
        "40 80 18 new",
        "40 80 18 drawing",
        "40 80 18 neu",
        "nominal 40 80 18",
    ] {
        assert!(read(text).is_nominal, "{text}");
    }
}

#[test]
fn units_are_meant_for_all_figures() {
    for (text, mm) in [
        ("1.5 in x 2.5 in x 0.5 in", [38.1, 63.5, 12.7]),
        ("1.5 x 2.5 x 0.5 inch", [38.1, 63.5, 12.7]),
        ("1.5 x 2.5 x 0.5 Zoll", [38.1, 63.5, 12.7]),
        ("1 1/2 x 2 1/2 x 1/2", [38.1, 63.5, 12.7]),
        ("1-1/2\" x 2-1/2\" x 1/2\"", [38.1, 63.5, 12.7]),
        ("40 mm x 80 mm x 18 mm", [40.0, 80.0, 18.0]),
        ("40x80x18mm", [40.0, 80.0, 18.0]),
        ("40,5 x 80,2 x 18,1", [40.5, 80.2, 18.1]),
    ] {
        let found: Vec<f64> = read(text)
            .readings
            .iter()
            .map(|reading| reading.length.length.to_mm())
            .collect();
        assert_eq!(found.len(), 3, "{text}");
        for (found, mm) in found.iter().zip(mm) {
            assert!((found - mm).abs() < 1e-9, "{text}: {found}");
        }
    }
}

#[test]
fn closure_clearance_class_and_form_are_read_behind_a_size() {
    let of = |text: &str| read(text).traits;
    for (text, closure) in [
        ("30 62 16 deep groove 2RS", Closure::SealBothSides),
        ("30 62 16 deep groove sealed", Closure::SealBothSides),
        ("30 62 16 deep groove zz", Closure::ShieldBothSides),
        ("30 62 16 deep groove shielded", Closure::ShieldBothSides),
        ("30 62 16 deep groove Z", Closure::ShieldOneSide),
        (
            "30 62 16 deep groove sealed both sides",
            Closure::SealBothSides,
        ),
    ] {
        assert_eq!(of(text).closure, Some(closure), "{text}");
    }
    assert_eq!(of("30 62 16 deep groove C3").clearance, Some(Clearance::C3));
    assert_eq!(
        of("30 62 16 deep groove P5").tolerance_class,
        Some(ToleranceClass::P5)
    );
    assert_eq!(of("30 62 16 NUP").rib_form, Some(RibForm::Nup));
    // P6 is a class of bearings (ISO 492), and of a housing's bore (ISO 286) where that stands before it.
    assert_eq!(
        of("30 x 62 x 16 deep groove P6").tolerance_class,
        Some(ToleranceClass::P6)
    );
    assert_eq!(
        of("30 x 62 x 16 deep groove P4").tolerance_class,
        Some(ToleranceClass::P4)
    );
    assert_eq!(read("6206 housing 62 P6").fit_classes, ["P6"]);
    assert_eq!(read("6206 housing 62 H7").fit_classes, ["H7"]);
    assert_eq!(of("oil seal 40 62 8 AS NBR").seal_form, Some(SealForm::As));
    assert_eq!(of("oil seal 40 62 8 NBR").material.as_deref(), Some("NBR"));
    // FPM is the older symbol of FKM (ISO 1629).
    assert_eq!(of("oil seal 40 62 8 FPM").material.as_deref(), Some("FKM"));
    assert_eq!(
        of("o-ring 40 x 3 FKM 80 shore").hardness.as_deref(),
        Some("80 Shore A")
    );
    // DIN 3760: A, B and C come with a dust lip and without: the lip tells nothing of the outside.
    for (text, form, lip) in [
        ("oil seal 41 x 63 x 9 dust lip", None, Some(true)),
        // Two sealing lips, or a sealing lip and a dust lip.
        ("oil seal 41 x 63 x 9 double lip", None, None),
        ("oil seal 41 x 63 x 9 single lip", None, Some(false)),
        ("oil seal 40x62x7 without dust lip", None, Some(false)),
        ("oil seal 41 x 63 x 9 dust lip B", Some(SealForm::Bs), None),
    ] {
        let question = read(text);
        assert_eq!(question.traits.seal_form, form, "{text}");
        assert_eq!(question.needs.has_dust_lip, lip, "{text}");
    }
    assert_eq!(of("6312 brass cage").cage.as_deref(), Some("M"));
    assert_eq!(of("6312 with cage brass").cage.as_deref(), Some("M"));
    assert_eq!(of("6312 polyamide cage").cage.as_deref(), Some("TN"));
    // DIN 623-1: the letter that is printed goes before the word.
    assert_eq!(of("6312 J brass cage").cage.as_deref(), Some("J"));
}

#[test]
fn designs_by_name_are_kept_as_the_rules_know_them() {
    for (text, variant) in [
        ("6205 insulated", "current insulated"),
        ("hybrid 7014 C P4", "hybrid"),
        ("7014 C P4 ceramic balls", "hybrid"),
        ("6205 stromisoliert", "current insulated"),
        ("6205 isoliert", "current insulated"),
        ("6205 V2A", "stainless"),
        ("6205 Lebensmittelfett", "food-grade grease"),
        ("NU2206 E", "increased capacity design (E)"),
        (
            "NU2206 E insulated",
            "increased capacity design (E), current insulated",
        ),
    ] {
        assert_eq!(
            read(text).traits.variant.as_deref(),
            Some(variant),
            "{text}"
        );
        // The number is ordered with it: no difference from itself.
        let answers = ask(text);
        assert!(answers.refused.is_empty(), "{text}");
        assert_eq!(answers.answers.len(), 1, "{text}");
        assert_eq!(answers.answers[0].judgement.differs, Vec::new(), "{text}");
    }
}

#[test]
fn needs_are_read_from_words() {
    let of = |text: &str| read(&format!("40 62 8 {text}")).needs;
    for (words, fluid) in [
        ("oil", Fluid::MineralOil),
        ("Öl", Fluid::MineralOil),
        ("huile", Fluid::MineralOil),
        ("hydraulic oil", Fluid::MineralOil),
        ("diesel", Fluid::Fuel),
        ("water", Fluid::Water),
        ("Wasser", Fluid::Water),
        ("water glycol", Fluid::Water),
        ("steam", Fluid::Steam),
        ("Dampf", Fluid::Steam),
        ("vapeur", Fluid::Steam),
        ("brake fluid", Fluid::BrakeFluid),
        ("Bremsflüssigkeit", Fluid::BrakeFluid),
        ("phosphate ester", Fluid::PhosphateEster),
    ] {
        assert_eq!(of(words).fluid, Some(fluid), "{words}");
    }
    for (words, axial) in [
        ("must not locate axially", AxialNeed::Floats),
        ("must float", AxialNeed::Floats),
        ("must locate axially", AxialNeed::BothWays),
        ("must locate both ways", AxialNeed::BothWays),
        ("must locate one way", AxialNeed::OneWay),
    ] {
        assert_eq!(of(words).axial, Some(axial), "{words}");
    }
    for (words, highest) in [
        ("120 C", 120.0),
        ("150C", 150.0),
        ("200 °C", 200.0),
        ("hot", 120.0),
    ] {
        assert_eq!(of(words).highest_c, Some(highest), "{words}");
    }
    assert_eq!(of("-40 C").lowest_c, Some(-40.0));
    assert_eq!(of("3000 rpm").speed_rpm, Some(3000.0));
    assert_eq!(of("5 bar").pressure_bar, Some(5.0));
    assert_eq!(of("60 HRC").shaft_hrc, Some(60.0));
    assert!(of("dusty").is_dirty && of("washdown").is_corrosive && of("food").is_food);
    assert!(of("inverter").has_inverter && of("frequency converter").has_inverter);
    assert!(of("misaligned").is_misaligned);
}

#[test]
fn a_phrase_is_read_in_capitals_too_and_only_once() {
    for text in [
        "40 80 18 MUST FLOAT",
        "40 80 18 Must Float",
        "MUST FLOAT 40 80 18",
    ] {
        let question = read(text);
        assert_eq!(question.needs.axial, Some(AxialNeed::Floats), "{text}");
        assert_eq!(question.not_understood, Vec::<String>::new(), "{text}");
        assert_eq!(question.readings.len(), 3, "{text}");
    }
    // A letter of two bytes before the phrase moves nothing.
    let question = read("Öl 40 62 8 dust lip");
    assert_eq!(
        (question.needs.has_dust_lip, question.readings.len()),
        (Some(true), 3)
    );
}

#[test]
fn a_kind_of_part_leaves_its_families_open_and_no_others() {
    // DIN 471-40 sits on a shaft of 40 mm, DIN 472-40 in a bore of 40 mm.
    for text in [
        "circlip 40",
        "retaining ring 40",
        "Sicherungsring 40",
        "snap ring 40",
    ] {
        let answers = ask(text);
        let families: Vec<Option<Family>> = answers
            .answers
            .iter()
            .map(|one| one.size.map(|size| size.family()))
            .collect();
        assert!(
            families.contains(&Some(Family::ShaftRetainingRing))
                && families.contains(&Some(Family::BoreRetainingRing)),
            "{text}: {families:?}"
        );
        let is_ring = |family: &Option<Family>| {
            matches!(
                family,
                Some(Family::ShaftRetainingRing | Family::BoreRetainingRing)
            )
        };
        assert!(families.iter().all(is_ring), "{text}: {families:?}");
        assert!(
            answers
                .answers
                .iter()
                .all(|one| one.judgement.verdict > Verdict::AsItIs),
            "{text}"
        );
    }
    // 20 x 47 x 7 is a lip seal of DIN 3760 too, but no bearing.
    for text in [
        "bearing 20 id 47 od",
        "Lager innen 20 außen 47",
        "20 x 47 bearing",
    ] {
        let answers = ask(text);
        assert!(!answers.answers.is_empty(), "{text}");
        let classes = answers
            .answers
            .iter()
            .filter_map(|one| one.size)
            .map(|size| size.family().class());
        assert!(
            classes
                .into_iter()
                .all(|class| class == PartClass::Bearings),
            "{text}"
        );
    }
    for (text, family) in [
        ("seal 40 62 8", Family::LipSeal),
        ("seal 40 x 3", Family::ORing),
    ] {
        let answers = ask(text);
        let all = answers.answers.iter().filter_map(|one| one.size);
        assert!(
            all.into_iter().all(|size| size.family() == family),
            "{text}"
        );
        assert!(!answers.answers.is_empty(), "{text}");
    }
    let balls = ask("ball bearing 20 x 47 x 14").answers;
    assert!(balls.iter().any(|one| one.designation == "6204"));
    assert!(
        balls
            .iter()
            .all(|one| one.size.map(|size| size.family()) != Some(Family::CylindricalRoller))
    );
}

#[test]
fn shares_of_an_open_kind_are_what_they_are_of_all_families() {
    // Definition: naming the kind leaves the odds between its families as they were.
    let odds = |text: &str| {
        let answers = ask(text).answers;
        let of = |name: &str| {
            let names = |one: &&sparewright::lookup::Answer| one.designation == name;
            answers
                .iter()
                .find(names)
                .map_or(0.0, |one| one.probability)
        };
        of("6204") / of("7204")
    };
    let (any, bearing, ball) = (
        odds("20 x 47 x 14"),
        odds("bearing 20 x 47 x 14"),
        odds("ball bearing 20 x 47 x 14"),
    );
    assert!(
        (any / bearing - 1.0).abs() < 1e-9 && (any / ball - 1.0).abs() < 1e-9,
        "{any} {bearing} {ball}"
    );
}

#[test]
fn half_a_bearing_is_asked_for_by_its_name() {
    // ISO 355: 30206; DIN 5412-1: NU205; ISO 104: 51205. A half is never fitted without a look at the other half.
    for (text, name, variant) in [
        ("30206 cone", "30206", "cone only"),
        ("30206 cup", "30206", "cup only"),
        ("cone of a 30206", "30206", "cone only"),
        ("30206 inner ring", "30206", "cone only"),
        ("NU205 inner ring", "NU205", "inner ring only"),
        ("inner ring only NU208", "NU208", "inner ring only"),
        ("NU205 Innenring", "NU205", "inner ring only"),
        ("51205 shaft washer", "51205", "shaft washer only"),
        ("51205 housing washer", "51205", "housing washer only"),
    ] {
        let answers = ask(text);
        let one = answers.answers.first().unwrap_or_else(|| panic!("{text}"));
        assert_eq!(one.designation, name, "{text}");
        assert_eq!(one.judgement.verdict, Verdict::AfterChecks, "{text}");
        assert!(
            one.judgement
                .checks
                .iter()
                .any(|check| check.starts_with("half a bearing")),
            "{text}"
        );
        assert!(
            one.judgement.agrees.iter().any(|agrees| agrees == variant),
            "{text}: {:?}",
            one.judgement
        );
        assert!(
            answers
                .warnings
                .iter()
                .all(|line| !line.contains("not understood")),
            "{text}"
        );
    }
    // ABMA 19.2: the cone LM11749 runs in the cup LM11710.
    for (text, variant) in [
        ("LM11749", "cone only"),
        ("LM11710", "cup only"),
        ("LM11710 cup", "cup only"),
    ] {
        let answers = ask(text);
        assert!(
            answers
                .answers
                .iter()
                .any(|one| one.designation.contains("LM11749/LM11710")),
            "{text}"
        );
        assert_eq!(
            read(text).traits.variant.as_deref(),
            Some(variant),
            "{text}"
        );
    }
    // A whole bearing is no half.
    assert_eq!(read("NA4904 with inner ring").traits.variant, None);
    assert_eq!(first("6206 inner ring worn"), "6206");
}

#[test]
fn what_to_ask_for_holds_every_mark() {
    for (text, name) in [
        ("P52 6206", "6206 P52"),
        ("C3 6206", "6206 C3"),
        ("2RS C3 6206", "6206 2RS C3"),
        ("P6 7208B", "7208B P6"),
        ("6206 sealed C3", "6206-2RS C3"),
        ("30 x 62 x 16 deep groove shielded", "6206-2Z"),
        ("6805 2rs", "61805 2rs"),
        ("6805ZZ", "61805ZZ"),
        ("R8 2RS", "R8 2RS"),
        ("NU 2206 E", "NU 2206 E"),
        ("7014 C TA P4 UL", "7014 C TA P4 UL"),
        ("2 x 6308 C3", "6308 C3"),
        ("6308 x 2", "6308"),
    ] {
        let answers = ask(text);
        assert_eq!(
            answers.answers.first().map(|one| one.designation.as_str()),
            Some(name),
            "{text}"
        );
        assert!(answers.refused.is_empty(), "{text}");
        assert_eq!(answers.answers[0].judgement.differs, Vec::new(), "{text}");
    }
}

#[test]
fn a_second_part_is_asked_for_by_itself() {
    // ISO 2982-1: H206 is the sleeve of 1206K; ISO 2982-2: MB8 goes with KM8.
    for (text, name, other) in [
        ("1206K + H206", "1206K", "H206"),
        ("KM8 + MB8", "KM8", "MB8"),
        ("AXK3047 + 2 AS", "AXK3047", "2 AS"),
    ] {
        let answers = ask(text);
        assert_eq!(
            answers.answers.first().map(|one| one.designation.as_str()),
            Some(name),
            "{text}"
        );
        let says = format!("`{other}` is another part");
        assert!(
            answers.warnings.iter().any(|line| line.contains(&says)),
            "{text}: {:?}",
            answers.warnings
        );
    }
    for (text, part) in [
        ("MB8", "tab washer"),
        ("H206", "adapter or withdrawal sleeve"),
        ("key 8x7x40", "feather key"),
    ] {
        let answers = ask(text);
        assert!(
            answers.answers.is_empty() && answers.none_of_these.why.starts_with(part),
            "{text}"
        );
    }
}

#[test]
fn names_of_standards_are_no_figures() {
    for (text, family, figures) in [
        ("DIN 3760 A 35x53x7 NBR", Family::LipSeal, 3),
        ("35x53x7 DIN3760", Family::LipSeal, 3),
        ("ISO 3601-1 41 x 3", Family::ORing, 2),
    ] {
        let question = read(text);
        assert_eq!(question.family, Some(family), "{text}");
        assert_eq!(question.readings.len(), figures, "{text}");
        assert_eq!(question.not_understood, Vec::<String>::new(), "{text}");
    }
    // ISO 8734:1997 replaces DIN 6325, ISO 2338:1997 replaces DIN 7; from memory.
    for (text, row) in [
        ("DIN 6325 8x40", "8 x 40 mm m6"),
        ("DIN 7 6x20", "6 x 20 mm m6"),
    ] {
        let answers = ask(text);
        let size = answers
            .answers
            .first()
            .and_then(|one| one.size)
            .map(|size| size.to_string());
        assert_eq!(size.as_deref(), Some(row), "{text}");
    }
}

#[test]
fn two_numbers_are_taken_for_either() {
    for text in ["6308 or 6309", "6308,6309", "6308 6309"] {
        let answers = ask(text);
        let names: Vec<&str> = answers
            .answers
            .iter()
            .map(|one| one.designation.as_str())
            .collect();
        assert_eq!(names, ["6308", "6309"], "{text}");
        assert!(
            answers
                .warnings
                .iter()
                .any(|line| line.contains("either of them")),
            "{text}"
        );
        assert!(
            answers
                .answers
                .iter()
                .all(|one| one.judgement.verdict > Verdict::AsItIs),
            "{text}"
        );
    }
}

#[test]
fn a_plain_ring_by_its_number_is_the_one_of_its_table() {
    // DIN 471 and DIN 472 list one thickness for the plain type of a diameter.
    for (text, thickness) in [
        ("DIN 472-62", 2.0),
        ("DIN 471-40", 1.75),
        ("DIN 471 40", 1.75),
    ] {
        let answers = ask(text);
        let one = answers.answers.first().unwrap_or_else(|| panic!("{text}"));
        assert!(
            one.designation.ends_with(&format!("x{thickness}")),
            "{text}: {}",
            one.designation
        );
        assert_eq!(one.judgement.unknown, Vec::<String>::new(), "{text}");
    }
    // Another thickness is another ring.
    assert!(
        ask("DIN 471-40x2.5")
            .answers
            .iter()
            .all(|one| one.judgement.verdict > Verdict::AsItIs)
    );
}

#[test]
fn what_is_not_understood_is_told() {
    for (text, words) in [
        ("40x80x18 deep groove gearbox", &["gearbox"][..]),
        ("oil seal 40 62 8 wibble wobble", &["wibble", "wobble"]),
        ("40 80 18 deep groove, please", &[]),
        ("a 40 by 80 by 18 ball bearing", &[]),
    ] {
        assert_eq!(read(text).not_understood, words, "{text}");
    }
    for text in ["", "   ", "?", "the big one", "cone", "C3", "worn"] {
        assert!(Question::read(text).is_err(), "{text}");
    }
}

/// Beside the name of a family a word for the way of a load is a load only where it says that there is no other.
#[test]
fn a_load_that_comes_alone_is_a_need() {
    for (text, axial, is_radial, is_axial_alone) in [
        ("51105 radial only", None, true, false),
        ("51105 only radial", None, true, false),
        ("51105 nur radial", None, true, false),
        ("6206 radial only", None, true, false),
        ("6206 axial load only", Some(AxialNeed::OneWay), false, true),
        ("6206 purely axial", Some(AxialNeed::OneWay), false, true),
        ("6206 rein axial", Some(AxialNeed::OneWay), false, true),
        (
            "7206 axial load in one direction only",
            Some(AxialNeed::OneWay),
            false,
            false,
        ),
        (
            "6206 radial and axial load",
            Some(AxialNeed::OneWay),
            true,
            false,
        ),
    ] {
        let question = read(text);
        let needs = &question.needs;
        assert_eq!(
            (needs.axial, needs.has_radial_load, needs.is_axial_alone),
            (axial, is_radial, is_axial_alone),
            "{text}"
        );
        assert_eq!(question.not_understood, Vec::<String>::new(), "{text}");
    }
    // ISO 104: a thrust ball bearing carries no load across the shaft.
    let answers = ask("51105 radial only");
    let is_it = |one: &sparewright::lookup::Answer| one.designation == "51105";
    assert!(!answers.answers.iter().any(is_it) && answers.refused.iter().any(is_it));
    for text in [
        "only radial ball bearing 30 x 62 x 16",
        "6206 radial clearance",
    ] {
        assert!(!read(text).needs.has_radial_load, "{text}");
    }
}

/// DIN 623-1: shields on one side are Z, on both 2Z; which of them it was is open, and both are shown.
#[test]
fn a_shield_on_unknown_sides_is_shown_on_one_and_on_both() {
    for (text, names) in [
        ("6206 metal shield", ["6206-2Z", "6206-Z"]),
        ("6206 rubber seal C3", ["6206-2RS C3", "6206-RS C3"]),
        (
            "30 x 62 x 16 deep groove Blechscheibe",
            ["6206-2Z", "6206-Z"],
        ),
    ] {
        let answers = ask(text);
        let one = &answers.answers[0];
        let mut found = vec![one.designation.as_str()];
        found.extend(one.twins.iter().map(String::as_str));
        assert_eq!(found, names, "{text}");
        assert_eq!(one.judgement.verdict, Verdict::AfterChecks, "{text}");
    }
}

/// DIN 471 and DIN 472 have whole and half millimetres; 25.4 mm to the inch.
#[test]
fn no_metric_ring_goes_in_as_it_is_on_a_seat_in_inches() {
    for text in [
        "circlip 1 inch shaft",
        "circlip 1 in bore",
        "external circlip 7/8",
        "external circlip 1/4",
        "internal circlip 2 3/4",
    ] {
        assert!(read(text).is_inch_seat, "{text}");
        let answers = ask(text);
        for one in &answers.answers {
            assert!(one.judgement.verdict > Verdict::AsItIs, "{text}: {one:?}");
            let is_told = |check: &String| check.contains("the seat is in inches");
            assert!(one.judgement.checks.iter().any(is_told), "{text}: {one:?}");
        }
    }
    for text in ["external circlip 25", "circlip 25 shaft 1.2 thick"] {
        assert!(!read(text).is_inch_seat, "{text}");
    }
}

/// DIN 5412-1: the letters in front of a number say which ring has ribs.
#[test]
fn letters_that_can_be_read_say_the_ribs_of_a_half_read_number() {
    for (text, rib) in [
        ("NU2?6", Some(RibForm::Nu)),
        ("NJ2?6", Some(RibForm::Nj)),
        ("N?206", None),
        ("63?6", None),
    ] {
        let question = read(text);
        assert!(question.partial.len() > 1, "{text}");
        assert_eq!(question.traits.rib_form, rib, "{text}");
    }
    // ISO 15: of three numbers alike one is wider, which tells 0.92 bit; the ribs of the two others tell 0.67.
    let asks = ask("N?206").ask_next.map(|ask| ask.question);
    assert!(asks.is_some_and(|asks| asks.contains("width")));
}
