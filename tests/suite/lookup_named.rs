//! A part of the shop asked for by its own name, offers that a person has to clear first, and what a cut list keeps.
//!
//! Sizes are those of ISO 15, DIN 3760 and ISO 3601-1; the shops are invented. What may replace what is common practice, no
//! source, but for clearance and class, which ISO 5753-1 and ISO 492 order.

use chrono::NaiveDate;
use sparewright::catalogue::card_index::CardIndex;
use sparewright::interchange::Verdict;
use sparewright::lookup::{Answers, Question, answer};
use sparewright::record::{Condition, PartRecord, Records};

use super::sample::{offer, part, shop, stock};

fn index_of(records: Records) -> CardIndex {
    CardIndex::of_shop(&shop(records))
}

fn ask(index: &CardIndex, text: &str) -> Answers {
    let question =
        Question::read_in(text, Some(index)).unwrap_or_else(|error| panic!("{text}: {error}"));
    answer(&question, Some(index))
}

fn numbers(answers: &Answers) -> Vec<&str> {
    let all = answers.answers.iter();
    all.filter_map(|one| one.number.as_deref()).collect()
}

/// A part of which no table of a standard has the size.
fn unsized_part(number: &str, description: &str) -> PartRecord {
    let mut part = part(number, "");
    part.facts.designation = None;
    part.facts.description = Some(description.to_owned());
    part.facts.family = None;
    part.facts.size = None;
    part
}

#[test]
fn the_part_asked_for_by_its_number_stands_first_and_goes_in_for_itself() {
    for (mine, other) in [
        ("6206-2RS C3", "6206-2Z"),
        ("QJ205", "7205 B"),
        ("NU 205", "NJ 205"),
        ("35x52x8 AS", "35x52x8 A"),
        ("22213 K C3", "22213"),
    ] {
        let records = Records {
            parts: vec![part("SP-0001", other), part("SP-0002", mine)],
            stock: vec![stock("SP-0001", "A-1", 4.0), stock("SP-0002", "A-2", 2.0)],
            ..Records::default()
        };
        let index = index_of(records);
        for asked in ["SP-0002", "sp0002", "sp-0002", "SP 0002", "sp 0002"] {
            let answers = ask(&index, asked);
            let first = &answers.answers[0];
            assert_eq!(first.number.as_deref(), Some("SP-0002"), "{asked}: {mine}");
            // A size from memory is never an unconditional yes, not even for itself.
            let is_checked = first.confidence.is_none_or(|of| of.is_cross_checked());
            let expected = match is_checked {
                true => Verdict::AsItIs,
                false => Verdict::AfterChecks,
            };
            assert_eq!(first.judgement.verdict, expected, "{mine}");
            assert_eq!(first.stock[0].bin.as_deref(), Some("A-2"), "{mine}");
            let all = answers.answers.iter().chain(&answers.refused);
            let same = all.filter(|one| one.number.as_deref() == Some("SP-0002"));
            assert_eq!(same.count(), 1, "{mine} is listed once");
        }
    }
}

#[test]
fn a_name_with_a_figure_is_a_name_where_a_part_goes_by_it() {
    let index = index_of(Records {
        parts: vec![part("OLD-77", "6206"), part("40", "6308")],
        ..Records::default()
    });
    let named = ask(&index, "OLD 77");
    assert_eq!(named.answers[0].number.as_deref(), Some("OLD-77"));
    // A figure alone is measured, whatever the shop calls its parts; figures beside words of size are as well.
    for text in ["40", "bore 40", "40 x 90 x 23"] {
        let question = Question::read_in(text, Some(&index)).unwrap();
        assert!(question.named.is_none(), "{text}");
        assert!(!question.readings.is_empty(), "{text}");
    }
}

#[test]
fn an_own_number_is_read_with_what_stands_behind_it() {
    // ISO 15: 6216 is 80 x 140 x 26 mm, 22216 80 x 140 x 33 mm.
    let index = index_of(Records {
        parts: vec![
            part("BRG-0314", "22216"),
            part("SEA-0120", "40x62x8 A"),
            unsized_part("GW-002", "gearwheel"),
        ],
        ..Records::default()
    });
    let conflict = ask(&index, "BRG-0314 measured 80 140 26");
    assert_eq!(numbers(&conflict)[0], "BRG-0314");
    let warnings = conflict.warnings.join(" | ");
    assert!(warnings.contains("contradict each other"), "{warnings}");
    let agrees = ask(&index, "BRG-0314, measured 80 140 33");
    assert_eq!(numbers(&agrees)[0], "BRG-0314");
    let warnings = agrees.warnings.join(" | ");
    assert!(!warnings.contains("contradict"), "{warnings}");
    for (text, is_asked) in [
        ("brg 0314 -40 °C", true),
        ("BRG-0314 120 °C", true),
        ("BRG-0314", false),
    ] {
        let question = Question::read_in(text, Some(&index)).unwrap();
        assert!(question.named.is_some(), "{text}");
        let needs = &question.needs;
        let is_hot_or_cold = needs.highest_c.is_some() || needs.lowest_c.is_some();
        assert_eq!(is_hot_or_cold, is_asked, "{text}");
        assert_eq!(question.text, text);
    }
    // DIN 3760: form A has no dust lip.
    let dusty = Question::read_in("SEA-0120 dusty", Some(&index)).unwrap();
    assert!(dusty.needs.is_dirty && dusty.named.is_some());
    let alone = ask(&index, "GW-002 inverter motor");
    assert_eq!(numbers(&alone), ["GW-002"]);
}

#[test]
fn a_standard_number_that_is_an_own_number_shows_both() {
    // ABMA 20: R8 is 1/2 x 1 1/8 x 1/4 in.
    let index = index_of(Records {
        parts: vec![part("R-8", "6308"), part("6206", "6206")],
        ..Records::default()
    });
    let both = ask(&index, "R-8");
    assert_eq!(both.answers[0].number.as_deref(), Some("R-8"));
    let sizes: Vec<String> = both
        .answers
        .iter()
        .filter_map(|one| one.size.map(|size| size.to_string()))
        .collect();
    assert!(
        sizes.iter().any(|size| size == "12.7 x 28.575 x 6.35 mm"),
        "{sizes:?}"
    );
    assert!(
        both.warnings
            .iter()
            .any(|line| line.contains("both are shown"))
    );
    let same = Question::read_in("6206", Some(&index)).unwrap();
    assert!(same.named.is_none());
}

#[test]
fn a_number_with_noughts_in_front_is_no_length() {
    for text in ["SP 0002", "brg 0412", "0412", "bearing 007"] {
        assert!(Question::read(text).is_err(), "{text}");
    }
    for text in ["bore 0.5 od 6", "bearing 05 x 16 x 5", "5 x 16 x 5"] {
        assert!(!Question::read(text).unwrap().readings.is_empty(), "{text}");
    }
}

#[test]
fn what_the_shop_knows_of_the_part_is_what_is_wanted() {
    // The elastomer stands in the shop's list, not in the designation: another one is a difference, not the first answer.
    let mut nbr = part("E-6", "35x52x8 AS");
    nbr.facts.traits.material = Some("NBR".to_owned());
    let mut fkm = part("E-7", "35x52x8 AS");
    fkm.facts.traits.material = Some("FKM".to_owned());
    let index = index_of(Records {
        parts: vec![fkm, nbr],
        ..Records::default()
    });
    let answers = ask(&index, "E-6");
    assert_eq!(answers.answers[0].number.as_deref(), Some("E-6"));
    let mut all = answers.answers.iter().chain(&answers.refused);
    let other = all
        .find(|one| one.number.as_deref() == Some("E-7"))
        .unwrap();
    let what: Vec<&str> = other.judgement.differs.iter().map(|one| one.what).collect();
    assert!(what.contains(&"elastomer"), "{what:?}");
}

#[test]
fn a_part_without_a_standard_size_is_found_with_its_stock_and_nothing_in_its_place() {
    let mut die = offer("East", "", 900.0, None);
    die.own_number = Some("M-136".to_owned());
    die.designation = None;
    let records = Records {
        parts: vec![
            unsized_part("M-136", "Pellet die 420 mm, 6 mm holes"),
            unsized_part("MB8", "Tab washer"),
            part("SP-0001", "6206"),
        ],
        stock: vec![stock("M-136", "C-3", 1.0), stock("MB8", "C-4", 9.0)],
        offers: vec![die].into(),
        ..Records::default()
    };
    let index = index_of(records);
    for (asked, bin, offers) in [("M-136", "C-3", 1), ("MB8", "C-4", 0)] {
        let answers = ask(&index, asked);
        assert_eq!(numbers(&answers), [asked]);
        assert_eq!(answers.answers[0].stock[0].bin.as_deref(), Some(bin));
        assert_eq!(answers.answers[0].offers.len(), offers, "{asked}");
        assert!(answers.refused.is_empty(), "{asked}");
        let says = answers.warnings.join("; ");
        assert!(says.contains("nothing is proposed in its place"), "{says}");
        assert!(answers.ask_next.is_none(), "{asked}");
    }
}

#[test]
fn offers_tell_their_age_and_what_has_to_be_cleared_first() {
    let day = |year, month, day| NaiveDate::from_ymd_opt(year, month, day);
    let mut plain = offer("East", "6206", 9.0, None);
    plain.quote_date = day(2026, 2, 20);
    plain.valid_until = day(2026, 3, 31);
    let mut used = offer("West", "6206", 2.0, None);
    used.quote_date = None;
    used.condition = Condition::Used;
    let mut mended = offer("North", "6206", 3.0, None);
    mended.quote_date = None;
    mended.condition = Condition::Reconditioned;
    let mut offers = vec![used, mended, plain];
    for of in &mut offers {
        of.own_number = Some("SP-0001".to_owned());
    }
    let index = index_of(Records {
        parts: vec![part("SP-0001", "6206")],
        offers: offers.into(),
        ..Records::default()
    });
    let answers = ask(&index, "SP-0001");
    let lines = &answers.answers[0].offers;
    assert_eq!(
        lines[0].supplier, "East",
        "what is sound comes first: {lines:?}"
    );
    assert_eq!(lines[0].quote_date, day(2026, 2, 20));
    assert_eq!(lines[0].valid_until, day(2026, 3, 31));
    let remarks = |supplier: &str| {
        let line = lines.iter().find(|line| line.supplier == supplier);
        line.unwrap().remarks().join(", ")
    };
    assert_eq!(
        remarks("East"),
        "quoted on 2026-02-20, valid until 2026-03-31"
    );
    assert_eq!(remarks("West"), "used goods");
    assert_eq!(remarks("North"), "reconditioned goods");
    // Arithmetic: a price is told to the hundredth of a cent.
    assert_eq!(lines[0].unit_price, Some(9.0));
}

#[test]
fn of_many_kinds_those_that_may_go_in_are_listed_before_those_that_never_do() {
    // ISO 5753-1: C2 is smaller than normal. ISO 492: class 5 is finer than normal.
    let kinds = [
        "6205 C2",
        "6205-2RS C2",
        "6205-2Z C2",
        "6205-RS C2",
        "6205-Z C2",
        "6205 N C2",
        "6205 NR C2",
        "6205 C4",
        "6205-2RS C4",
        "6205-2Z C4",
        "6205",
        "6205-2RS",
        "6205-2Z",
        "6205 C3",
        "6205-2RS C3",
        "6205-2Z C3",
        "6205 P5",
        "6205 P6",
    ];
    let numbered = kinds.iter().enumerate();
    let parts = numbered.map(|(at, kind)| part(&format!("K-{at:02}"), kind));
    let parts: Vec<PartRecord> = parts.collect();
    let bins = (0..kinds.len()).map(|at| stock(&format!("K-{at:02}"), "B-1", 1.0));
    let index = index_of(Records {
        stock: bins.collect(),
        parts,
        ..Records::default()
    });
    let answers = ask(&index, "6205");
    let listed: Vec<&str> = (answers.answers.iter())
        .filter(|one| one.number.is_some())
        .map(|one| one.designation.as_str())
        .collect();
    for kind in [
        "6205",
        "6205-2RS",
        "6205-2Z",
        "6205 C3",
        "6205-2RS C3",
        "6205-2Z C3",
        "6205 P5",
        "6205 P6",
    ] {
        assert!(listed.contains(&kind), "{kind} is hidden: {listed:?}");
    }
}

#[test]
fn a_size_beside_the_one_asked_for_comes_with_what_the_shop_has_of_it() {
    // DIN 3760 has 40 x 62 x 8, and no 40 x 62 x 7.
    let index = index_of(Records {
        parts: vec![part("S-1", "40x62x8 A"), part("S-2", "50x72x8 A")],
        stock: vec![stock("S-1", "D-1", 3.0)],
        ..Records::default()
    });
    let answers = ask(&index, "oil seal 40 x 62 x 7");
    let all = answers.answers.iter().chain(&answers.refused);
    let own: Vec<_> = all.filter(|one| one.number.is_some()).collect();
    assert_eq!(own.len(), 1, "{:?}", numbers(&answers));
    assert_eq!(own[0].number.as_deref(), Some("S-1"));
    assert_eq!(own[0].stock[0].bin.as_deref(), Some("D-1"));
    assert!(own[0].judgement.verdict > Verdict::AsItIs);
}

#[test]
fn what_the_columns_say_of_a_part_holds_where_it_is_asked_for_by_its_number() {
    // ISO 5753-1, DIN 623-1 and ISO 492: 6308 without a mark is CN, open and of Normal class.
    use sparewright::part::{Clearance, Closure, ToleranceClass};
    let mut marked = part("U-0004", "6308");
    marked.facts.traits.clearance = Some(Clearance::C3);
    marked.facts.traits.closure = Some(Closure::SealBothSides);
    marked.facts.traits.tolerance_class = Some(ToleranceClass::P5);
    let mut unknown = part("U-0001", "6308");
    unknown.facts.traits.clearance = None;
    let index = index_of(Records {
        parts: vec![marked, unknown, part("U-0002", "6308")],
        ..Records::default()
    });
    let traits = |text: &str| Question::read_in(text, Some(&index)).unwrap().traits;
    let asked = traits("U-0004");
    assert_eq!(asked.clearance, Some(Clearance::C3));
    assert_eq!(asked.closure, Some(Closure::SealBothSides));
    assert_eq!(asked.tolerance_class, Some(ToleranceClass::P5));
    assert_eq!(traits("U-0001").clearance, None);
    assert_eq!(traits("U-0001").closure, Some(Closure::Open));
    assert_eq!(traits("U-0002").clearance, Some(Clearance::Normal));
}

#[test]
fn a_name_of_several_parts_is_told_and_a_suppliers_number_is_no_length() {
    let named = |number: &str, designation: &str| {
        let mut part = part(number, designation);
        part.facts.aliases = vec!["OEM-77".to_owned()];
        part
    };
    let mut offered = offer("Sued", "6308-2RS", 9.0, None);
    offered.supplier_number = Some("4711".to_owned());
    // One number of a supplier for two parts.
    let for_part = |own: &str, designation: &str| {
        let mut offer = offer("Nordlager", designation, 9.0, None);
        offer.supplier_number = Some("N-4712".to_owned());
        offer.own_number = Some(own.to_owned());
        offer
    };
    let two = [for_part("U-0004", "6308 C3"), for_part("U-0011", "6206")];
    let index = index_of(Records {
        parts: vec![named("U-0004", "6308 C3"), named("U-0011", "6206")],
        offers: [vec![offered], two.to_vec()].concat().into(),
        ..Records::default()
    });
    let error = Question::read_in("OEM-77", Some(&index)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "several parts go by `OEM-77`: `U-0004`, `U-0011`; ask by one of these numbers"
    );
    let error = Question::read_in("N-4712", Some(&index)).unwrap_err();
    assert!(error.to_string().contains("`U-0004`, `U-0011`"), "{error}");
    let worn = Question::read_in("OEM-77 worn", Some(&index)).unwrap();
    let said = worn.notes.join(" | ");
    assert!(said.contains("`U-0004`, `U-0011`"), "{said}");
    assert!(!worn.not_understood.is_empty());
    let offered = Question::read_in("4711", Some(&index)).unwrap();
    assert!(offered.named.is_some(), "{:?}", offered.readings);
    assert!(offered.readings.is_empty());
}
