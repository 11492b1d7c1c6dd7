//! The shop's own parts in an answer: what is listed, in which order, what is only counted, and what the part's state says.
//!
//! Sizes are those of ISO 15 and DIN 3760; the shops are invented.

use chrono::Months;
use sparewright::catalogue::card_index::CardIndex;
use sparewright::interchange::Verdict;
use sparewright::lookup::{Answer, Answers, Question, QuestionError, answer};
use sparewright::part::{Family, FitClass, SizeKey, Traits};
use sparewright::record::{PartRecord, Records};
use sparewright::units::Length;

use super::sample::{monday, offer, part, shop, stock};

fn index_of(records: Records) -> CardIndex {
    CardIndex::of_shop(&shop(records))
}

fn ask(index: &CardIndex, text: &str) -> Answers {
    let question =
        Question::read_in(text, Some(index)).unwrap_or_else(|error| panic!("{text}: {error}"));
    answer(&question, Some(index))
}

/// A part of a size that no table has.
fn special(number: &str, family: Family, mm: &[f64]) -> PartRecord {
    let lengths: Vec<Length> = mm.iter().map(|mm| Length::from_mm(*mm).unwrap()).collect();
    let mut special = part(number, "");
    special.facts.designation = None;
    special.facts.description = Some(family.name().to_owned());
    special.facts.family = Some(family);
    special.facts.size = Some(SizeKey::new(family, &lengths).unwrap());
    special.facts.traits = Traits::default();
    special
}

fn numbers(list: &[Answer]) -> Vec<&str> {
    list.iter()
        .filter_map(|one| one.number.as_deref())
        .collect()
}

#[test]
fn what_is_on_the_shelf_comes_before_what_is_on_offer_and_the_rest() {
    let mut records = Records {
        parts: (0..6)
            .map(|at| part(&format!("P-{at}"), "6206-2RS C3"))
            .collect(),
        ..Records::default()
    };
    records.stock = vec![stock("P-4", "A-1", 3.0), stock("P-5", "A-2", 0.0)];
    let mut offered = offer("East", "6206-2RS C3", 4.0, None);
    offered.own_number = Some("P-2".to_owned());
    records.offers = vec![offered].into();
    let index = index_of(records);
    let answers = ask(&index, "6206-2RS C3");
    let found = numbers(&answers.answers);
    assert_eq!(found.len(), 6, "{found:?}");
    assert_eq!(&found[..2], ["P-4", "P-2"], "{found:?}");
    // An empty bin is no stock.
    let empty = answers
        .answers
        .iter()
        .find(|one| one.number.as_deref() == Some("P-5"))
        .unwrap();
    assert_eq!(empty.stock[0].free, Some(0.0));
    assert!(
        answers
            .answers
            .iter()
            .filter(|one| one.number.is_some())
            .all(|one| one.judgement.verdict == Verdict::AsItIs)
    );
}

#[test]
fn of_many_alike_a_few_are_listed_and_all_are_counted() {
    for count in [1usize, 5, 8, 9, 40, 300] {
        let records = Records {
            parts: (0..count)
                .map(|at| part(&format!("P-{at:03}"), "6206-2RS C3"))
                .collect(),
            ..Records::default()
        };
        let answers = ask(&index_of(records), "6206-2RS C3");
        let listed = numbers(&answers.answers).len() + numbers(&answers.refused).len();
        assert_eq!(listed, count.min(8), "{count}");
        assert_eq!(listed + answers.not_listed as usize, count, "{count}");
    }
}

#[test]
fn every_part_of_the_size_and_near_it_is_listed_or_counted() {
    let kinds = [
        "6206",
        "6206-2RS",
        "6206-2Z",
        "6206 C3",
        "6206-2RS C3",
        "6206 P6",
        "6206 C4",
        "6206-RS",
        "6206 K",
    ];
    let mut parts: Vec<PartRecord> = kinds
        .iter()
        .enumerate()
        .flat_map(|(at, kind)| (0..6).map(move |copy| part(&format!("P-{at}{copy}"), kind)))
        .collect();
    // Half a millimetre beside it, and far away.
    parts.push(special("NEAR", Family::DeepGrooveBall, &[30.5, 62.0, 16.0]));
    parts.push(special("FAR", Family::DeepGrooveBall, &[50.0, 62.0, 16.0]));
    let total = parts.len() - 1;
    let index = index_of(Records {
        parts,
        ..Records::default()
    });
    for text in [
        "6206",
        "6206-2RS C3",
        "30 x 62 x 16 deep groove",
        "30 x 62 x 16",
    ] {
        let answers = ask(&index, text);
        let listed = numbers(&answers.answers).len() + numbers(&answers.refused).len();
        assert_eq!(listed + answers.not_listed as usize, total, "{text}");
        assert!(!numbers(&answers.answers).contains(&"NEAR"), "{text}");
        let all = [numbers(&answers.answers), numbers(&answers.refused)].concat();
        assert!(!all.contains(&"FAR"), "{text}");
        let mut once = all.clone();
        once.sort_unstable();
        once.dedup();
        assert_eq!(once.len(), all.len(), "{text}: {all:?}");
    }
}

#[test]
fn the_kind_asked_for_is_judged_first() {
    // Twenty kinds of one size; the one asked for must be among those that are judged.
    let closures = ["", "-2RS", "-2Z", "-RS", "-Z"];
    let clearances = ["", " C2", " C3", " C4", " C5"];
    let kinds = closures.iter().flat_map(|closure| {
        clearances
            .iter()
            .map(move |clearance| format!("6206{closure}{clearance}"))
    });
    let parts: Vec<PartRecord> = kinds
        .enumerate()
        .map(|(at, kind)| part(&format!("P-{at}"), &kind))
        .collect();
    let wanted: Vec<(String, String)> = parts
        .iter()
        .map(|part| {
            (
                part.own_number.clone(),
                part.facts.designation.clone().unwrap(),
            )
        })
        .collect();
    let index = index_of(Records {
        parts,
        ..Records::default()
    });
    for (number, designation) in &wanted {
        let answers = ask(&index, designation);
        assert!(
            numbers(&answers.answers).contains(&number.as_str()),
            "{designation}"
        );
        let one = answers
            .answers
            .iter()
            .find(|one| one.number.as_deref() == Some(number))
            .unwrap();
        assert_eq!(one.judgement.verdict, Verdict::AsItIs, "{designation}");
        assert_eq!(one.judgement.differs, Vec::new(), "{designation}");
    }
}

#[test]
fn a_neighbour_is_refused_with_its_difference() {
    let parts = vec![
        part("P-1", "6206"),
        special("WIDER", Family::DeepGrooveBall, &[30.0, 62.0, 17.0]),
        special("NARROWER", Family::DeepGrooveBall, &[30.0, 62.0, 14.0]),
        special("BORE", Family::DeepGrooveBall, &[30.2, 62.0, 16.0]),
        special("INCH", Family::DeepGrooveBall, &[30.1625, 62.0, 16.0]),
    ];
    let index = index_of(Records {
        parts,
        ..Records::default()
    });
    let answers = ask(&index, "6206");
    let verdict = |number: &str| {
        let all = answers.answers.iter().chain(&answers.refused);
        let found = all
            .into_iter()
            .find(|one| one.number.as_deref() == Some(number));
        found.map(|one| {
            (
                one.judgement.verdict,
                one.judgement.differs.first().map(|differs| differs.what),
            )
        })
    };
    assert_eq!(verdict("P-1"), Some((Verdict::AsItIs, None)));
    assert_eq!(verdict("WIDER"), Some((Verdict::Near, Some("width"))));
    // A narrower one goes in with a spacer.
    assert_eq!(
        verdict("NARROWER"),
        Some((Verdict::WithRework, Some("width")))
    );
    assert_eq!(verdict("BORE"), Some((Verdict::Near, Some("size"))));
    assert_eq!(verdict("INCH"), Some((Verdict::Near, Some("size"))));
}

#[test]
fn half_a_bearing_of_the_shop_is_told_from_a_whole_one() {
    let mut cone = part("CONE", "30206");
    cone.facts.traits.variant = Some("cone only".to_owned());
    let index = index_of(Records {
        parts: vec![part("WHOLE", "30206"), cone],
        ..Records::default()
    });
    let verdict = |text: &str, number: &str| {
        let answers = ask(&index, text);
        let all = answers.answers.iter().chain(&answers.refused);
        let found = all
            .into_iter()
            .find(|one| one.number.as_deref() == Some(number));
        found.map(|one| one.judgement.verdict)
    };
    // The whole has the half in it; the half is no whole.
    assert_eq!(verdict("30206", "WHOLE"), Some(Verdict::AsItIs));
    assert_eq!(verdict("30206", "CONE"), Some(Verdict::MustNot));
    assert_eq!(verdict("30206 cone", "WHOLE"), Some(Verdict::AfterChecks));
    assert!(verdict("30206 cone", "CONE").is_some_and(|verdict| verdict <= Verdict::AfterChecks));
    assert_eq!(verdict("30206 cup", "CONE"), Some(Verdict::MustNot));
}

#[test]
fn a_number_of_the_shops_own_is_read_as_its_part() {
    let mut named = part("BRG-0412", "6206-2RS C3");
    named.facts.aliases = vec!["OLD 77".to_owned()];
    let index = index_of(Records {
        parts: vec![
            named,
            special("SPC-1", Family::DeepGrooveBall, &[31.0, 63.0, 17.0]),
        ],
        ..Records::default()
    });
    for text in ["BRG-0412", "brg-0412", "old-77"] {
        let answers = ask(&index, text);
        assert_eq!(
            answers
                .answers
                .first()
                .and_then(|one| one.size)
                .map(|size| size.to_string())
                .as_deref(),
            Some("30 x 62 x 16 mm"),
            "{text}"
        );
        assert!(
            answers
                .warnings
                .iter()
                .any(|line| line.contains("BRG-0412")),
            "{text}: {:?}",
            answers.warnings
        );
    }
    let own = ask(&index, "SPC-1");
    assert_eq!(numbers(&own.answers), ["SPC-1"]);
    // Nobody's number stays an error.
    assert!(Question::read_in("BRG-9999", Some(&index)).is_err());
}

#[test]
fn a_special_is_found_by_its_figures_and_never_displaces_the_standard_size() {
    let index = index_of(Records {
        parts: vec![
            special("S-1", Family::DeepGrooveBall, &[30.3, 62.0, 16.0]),
            part("P-1", "6206"),
        ],
        ..Records::default()
    });
    // Printed as it stands, each is itself.
    for (text, first) in [
        ("30 x 62 x 16 deep groove", "P-1"),
        ("30.3 x 62 x 16 deep groove", "S-1"),
    ] {
        let answers = ask(&index, text);
        let likeliest = answers
            .answers
            .iter()
            .max_by(|a, b| a.probability.total_cmp(&b.probability))
            .unwrap();
        let size = likeliest.size;
        let of_number = answers
            .answers
            .iter()
            .find(|one| one.number.as_deref() == Some(first))
            .unwrap();
        assert_eq!(of_number.size, size, "{text}");
    }
}

#[test]
fn what_a_figure_says_of_the_parts_state_is_told() {
    // ISO 492 Normal: 6208 has bore 40 0/-12 µm, outside 80 0/-13 µm; a calliper is sure to 0.07 and 0.044 mm (common
    // practice). Wear makes a bore larger and an outside smaller.
    let empty = index_of(Records::default());
    for (text, says) in [
        (
            "deep groove bore 40.15 od 80 w 18 calliper worn",
            "the ring has turned on its shaft",
        ),
        (
            "deep groove bore 40 od 79.8 w 18 calliper worn",
            "the ring has crept in its housing",
        ),
        (
            "deep groove bore 40 od 80 w 17.6 calliper worn",
            "the faces are worn",
        ),
        (
            "deep groove bore 40 od 80 w 18 rule worn",
            "this instrument cannot tell",
        ),
        (
            "deep groove bore 40.00 od 80.00 w 18.00 calliper worn",
            "use a micrometer",
        ),
    ] {
        let answers = ask(&empty, text);
        assert!(
            answers.warnings.iter().any(|line| line.contains(says)),
            "{text}: {:?}",
            answers.warnings
        );
    }
    for text in ["40 x 80 x 18 deep groove", "6208"] {
        let answers = ask(&empty, text);
        assert!(
            answers
                .warnings
                .iter()
                .all(|line| !line.contains("worn") && !line.contains("turned")),
            "{text}: {:?}",
            answers.warnings
        );
    }
}

#[test]
fn a_narrower_part_in_a_given_room_needs_a_spacer_of_the_rest() {
    // Arithmetic: 6008 is 15 wide, 16008 is 9 wide, in a room of 15 (ISO 15).
    let empty = index_of(Records::default());
    let answers = ask(&empty, "bore 40 od 68 room for 15 deep groove");
    let of = |name: &str| answers.answers.iter().find(|one| one.designation == name);
    let full = of("6008").unwrap();
    assert!(full.judgement.rework.is_empty(), "{:?}", full.judgement);
    let narrow = of("16008").unwrap();
    assert_eq!(narrow.judgement.verdict, Verdict::WithRework);
    assert!(
        narrow
            .judgement
            .rework
            .iter()
            .any(|line| line.contains("spacer of 6.00 mm")),
        "{:?}",
        narrow.judgement
    );
    assert!(full.probability > narrow.probability);
    // What is wider than the room is none.
    let tight = ask(&empty, "bore 40 od 68 room for 12 deep groove");
    assert!(tight.answers.iter().all(|one| one.designation != "6008"));
}

#[test]
fn a_ring_for_bores_is_shown_beside_one_for_shafts() {
    // DIN 471 and DIN 472: one diameter, two rings that do not stand in for each other.
    for (asked, other) in [("DIN 471-40", "DIN 472-40"), ("DIN 472-40", "DIN 471-40")] {
        let index = index_of(Records {
            parts: vec![part("R-1", other)],
            stock: vec![stock("R-1", "A-1", 3.0)],
            ..Records::default()
        });
        let answers = ask(&index, asked);
        let is_it = |one: &&sparewright::lookup::Answer| one.number.as_deref() == Some("R-1");
        assert!(answers.answers.iter().find(is_it).is_none(), "{asked}");
        let refused = answers.refused.iter().find(is_it);
        let refused = refused.unwrap_or_else(|| panic!("{asked}: {other} is not listed"));
        assert!(refused.judgement.verdict >= Verdict::MustNot, "{asked}");
    }
}

#[test]
fn a_part_wider_than_its_room_is_near_and_says_by_how_much() {
    // ISO 15: 6205 is 15 mm wide; arithmetic.
    let empty = index_of(Records::default());
    let tight = ask(&empty, "6205 room for 14");
    let refused = tight.refused.iter().find(|one| one.designation == "6205");
    let judgement = &refused.unwrap().judgement;
    assert_eq!(judgement.verdict, Verdict::Near);
    assert!(
        judgement.differs[0].effect.starts_with("1.00 mm wider"),
        "{judgement:?}"
    );
    let roomy = ask(&empty, "6206 room for 20");
    assert_eq!(roomy.answers[0].designation, "6206");
    assert_eq!(roomy.answers[0].judgement.verdict, Verdict::WithRework);
    assert_eq!(roomy.answers.len(), 1);
}

/// ISO 8734 (hardened) and ISO 2338 (unhardened) have 6 x 30 m6 alike.
#[test]
fn a_pin_is_of_the_standard_of_its_hardness() {
    let mut unmarked = special("P-3", Family::DowelPin, &[6.0, 30.0]);
    unmarked.facts.size = unmarked
        .facts
        .size
        .map(|size| size.with_fit(FitClass::read("m6").unwrap()));
    let index = index_of(Records {
        parts: vec![
            part("P-1", "ISO 8734 6x30 m6"),
            part("P-2", "ISO 2338 6x30 m6"),
            unmarked,
        ],
        ..Records::default()
    });
    let answers = ask(&index, "dowel 6 x 30 m6");
    let of = |number: &str| {
        let mut all = answers.answers.iter().chain(&answers.refused);
        all.find(|one| one.number.as_deref() == Some(number))
            .unwrap_or_else(|| panic!("{number}: {answers:?}"))
            .standard
            .clone()
    };
    assert_eq!(of("P-1").as_deref(), Some("ISO 8734"));
    assert_eq!(of("P-2").as_deref(), Some("ISO 2338"));
    // Of neither mark nobody knows.
    assert_eq!(of("P-3"), None);
}

/// The slips are those of Damerau (1964): one sign wrong, missing, too many, or two turned round.
#[test]
fn a_number_of_no_part_is_told_with_those_near_it() {
    let records = Records {
        parts: vec![
            part("BRG-0126", "6206-2RS C3"),
            part("BRG-0136", "6205-2RS C3"),
            part("PIN-7", "6204-2RS C3"),
        ],
        ..Records::default()
    };
    let index = index_of(records);
    for (text, near) in [
        ("BRG-0162", &["BRG-0126"][..]),
        ("BRG-O126", &["BRG-0126"]),
        ("BRG-01266", &["BRG-0126"]),
        ("BRG-013", &["BRG-0136"]),
        ("BRG-0139", &["BRG-0136"]),
        ("BRG-9999", &[]),
    ] {
        match Question::read_in(text, Some(&index)) {
            Err(QuestionError::NoPart { found, near: told }) => {
                assert_eq!(found, text);
                assert_eq!(told, near, "{text}");
            }
            other => panic!("{text}: {other:?}"),
        }
    }
    let said = Question::read_in("BRG-0139", Some(&index)).unwrap_err();
    assert!(
        said.to_string().ends_with("; near it are BRG-0136"),
        "{said}"
    );
    // What has not the form of a number is told as before, and so is a text where no shop is looked at.
    for asked in [
        Question::read_in("the big one", Some(&index)),
        Question::read("BRG-9999"),
    ] {
        assert!(matches!(asked, Err(QuestionError::Nothing { .. })));
    }
}

/// Common practice, no source: a length is above zero.
#[test]
fn a_figure_below_zero_beside_a_number_of_the_shop_is_told() {
    let index = index_of(Records {
        parts: vec![part("BRG-0126", "6206-2RS C3")],
        ..Records::default()
    });
    let read = |text: &str| Question::read_in(text, Some(&index)).unwrap();
    assert_eq!(read("BRG-0126 shaft -30").not_understood, ["shaft -30"]);
    assert_eq!(read("BRG-0126 shaft 30").not_understood, [""; 0]);
}

/// ISO 2230: NBR is of group B, seven years; a day on the lot itself comes before that (common practice, no source).
#[test]
fn a_lot_past_its_last_day_says_so() {
    let today = monday().date();
    let years_ago = |years: u32| today.checked_sub_months(Months::new(12 * years));
    let mut written = stock("P-1", "A-1", 3.0);
    written.usable_until = today.pred_opt();
    let mut old = stock("P-1", "A-2", 4.0);
    old.cure_date = years_ago(8);
    let mut sound = stock("P-1", "A-3", 5.0);
    sound.cure_date = years_ago(6);
    let mut marked = stock("P-1", "A-4", 6.0);
    (marked.cure_date, marked.usable_until) = (years_ago(8), today.succ_opt());
    let undated = stock("P-1", "A-5", 7.0);
    let records = Records {
        parts: vec![part("P-1", "o-ring 25x3 NBR")],
        stock: vec![written, old, sound, marked, undated],
        ..Records::default()
    };
    let answers = ask(&index_of(records), "P-1");
    let own = answers.answers.iter().find(|one| one.number.is_some());
    let lines = &own.unwrap().stock;
    let past: Vec<_> = lines.iter().map(|line| line.has_expired(today)).collect();
    let expected = [Some(true), Some(true), Some(false), Some(false), None];
    assert_eq!(past, expected, "{lines:?}");
    let says = |at: usize| lines[at].last_day_in_words(today).unwrap_or_default();
    assert!(says(0).ends_with("no stock to take from"), "{}", says(0));
    assert!(says(2).starts_with("to be fitted until"), "{}", says(2));
    assert!(says(4).is_empty());
}

/// The question in a shop of four parts, and its answers.
fn ask_for_own(text: &str) -> (Question, Answers) {
    let index = index_of(Records {
        parts: vec![
            part("BRG-1", "6206-2RS"),
            part("OR-1", "AS568-222"),
            part("12-345-6", "6204-2RS"),
            part("35-52-7", "6205-2RS"),
        ],
        ..Records::default()
    });
    let question =
        Question::read_in(text, Some(&index)).unwrap_or_else(|error| panic!("{text}: {error}"));
    let answers = answer(&question, Some(&index));
    (question, answers)
}

#[test]
fn a_load_beside_an_own_number_is_no_other_part() {
    for (text, said) in [
        ("BRG-1 6000 N", "6000 N"),
        ("BRG-1 60 N", "60 N"),
        ("BRG-1 load 6000 N", "6000 N"),
        ("BRG-1 6 kN", "6 kN"),
    ] {
        let (question, answers) = ask_for_own(text);
        assert_eq!(question.not_looked_at, [said], "{text}");
        assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        assert_eq!(numbers(&answers.answers)[0], "BRG-1", "{text}");
    }
}

/// SAE AS568: -222 is a ring of 37.69 x 3.53 mm.
#[test]
fn a_groove_beside_an_own_number_is_read_as_beside_a_standard_one() {
    let groove = "groove floor 38.1 depth 2.87 width 4.6";
    let (own, answers) = ask_for_own(&format!("OR-1 {groove}"));
    let standard = Question::read(&format!("AS568-222 {groove}")).unwrap();
    assert_eq!(own.groove, standard.groove);
    assert!(own.groove.is_measured());
    assert!(own.not_understood.is_empty(), "{own:?}");
    assert_eq!(numbers(&answers.answers)[0], "OR-1");
}

/// DIN 3760: 35 x 52 x 7 mm is a lip seal.
#[test]
fn an_own_number_that_reads_as_a_size_is_shown() {
    for text in ["12-345-6", "35-52-7"] {
        let (question, answers) = ask_for_own(text);
        assert_eq!(numbers(&answers.answers)[0], text);
        let told = question.notes.join("; ");
        assert!(told.contains("both are shown"), "{text}: {told}");
        let none = answers.none_of_these.probability;
        assert!(none < 0.01, "{text}: {none}");
    }
    let (_, both) = ask_for_own("35-52-7");
    let is_seal = |one: &Answer| one.designation == "35x52x7";
    assert!(both.answers.iter().any(is_seal));
    // What was measured is a size.
    let (measured, _) = ask_for_own("35 52 7");
    assert!(measured.named.is_none());
}

#[test]
fn counts_and_places_before_an_own_number_hide_it_not() {
    for text in [
        "2 BRG-1",
        "2x BRG-1",
        "2 pcs BRG-1",
        "2 each BRG-1",
        "4 pcs of BRG-1",
        "need 2 of BRG-1",
        "BRG-1 x2",
        "bearing BRG-1",
        "part no. BRG-1",
        "old BRG-1",
        "order BRG-1",
        "pos 5 BRG-1",
        "drawing 6203 pos 5 BRG-1",
        "2 BRG-1 6 kN",
    ] {
        let (question, answers) = ask_for_own(text);
        assert_eq!(question.text, text);
        assert_eq!(numbers(&answers.answers)[0], "BRG-1", "{text}");
        assert!(question.not_understood.is_empty(), "{text}: {question:?}");
    }
}

#[test]
fn the_first_of_two_own_numbers_is_answered_and_the_other_told() {
    for text in ["BRG-1/OR-1", "BRG-1 and OR-1", "BRG-1 oder OR-1"] {
        let (question, answers) = ask_for_own(text);
        assert_eq!(question.text, text);
        assert_eq!(numbers(&answers.answers)[0], "BRG-1", "{text}");
        assert!(question.not_understood.is_empty(), "{text}: {question:?}");
        let told = question.notes.join("; ");
        let says = "`BRG-1` is answered; `OR-1` is another part";
        assert!(told.contains(says), "{text}: {told}");
    }
}

/// ISO 15: 6206 has 30 mm of bore, 6308 has 40.
#[test]
fn a_standard_number_beside_an_own_one_is_compared_with_it() {
    let (other, answers) = ask_for_own("BRG-1 6308");
    assert_eq!(other.not_understood, ["6308"]);
    let told = other.notes.join("; ");
    assert!(
        told.contains("`6308` beside it is another number"),
        "{told}"
    );
    assert_eq!(numbers(&answers.answers)[0], "BRG-1");
    let is_whole = |of: &Answer| of.judgement.verdict == Verdict::AsItIs;
    assert!(!answers.answers.iter().any(is_whole), "{answers:?}");
    let (place, _) = ask_for_own("OR-1 behind 6308");
    assert!(place.not_understood.is_empty(), "{place:?}");
    let (same, _) = ask_for_own("BRG-1 6206");
    assert!(same.not_understood.is_empty(), "{same:?}");
    assert!(same.designated_size().is_some());
}

/// ISO 15: 6306 has 30 mm of bore, and 6205 has 25.
#[test]
fn an_own_number_of_digits_that_is_a_standard_one_is_shown_beside_it() {
    let index = index_of(Records {
        parts: vec![part("6306", "6205-2RS"), part("6206", "6206")],
        ..Records::default()
    });
    let answers = ask(&index, "6306");
    assert!(numbers(&answers.answers).contains(&"6306"), "{answers:?}");
    let told = answers.warnings.join("; ");
    let says = "a standard number of another size: both are shown";
    assert!(told.contains(says), "{told}");
    for text in ["2 x 6306", "bearing 6306", "6306 worn", "6306 x 2", "6306?"] {
        let answers = ask(&index, text);
        assert!(
            numbers(&answers.answers).contains(&"6306"),
            "{text}: {answers:?}"
        );
        assert!(answers.warnings.join("; ").contains(says), "{text}");
    }
    let marked = ask(&index, "6306 C3").warnings.join("; ");
    assert!(!marked.contains("both are shown"), "{marked}");
    let same = ask(&index, "6206").warnings.join("; ");
    assert!(!same.contains("both are shown"), "{same}");
}
