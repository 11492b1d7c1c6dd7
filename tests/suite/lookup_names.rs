//! Parts of the shop named in words of the trade, asked for in the same words and in others; parts of which nothing but the name
//! is known; what an offer tells a buyer.
//!
//! Sizes are those of ISO 15, DIN 5412-1, ISO 355, ISO 104 and DIN 3760; the shops are invented. Which half, class or design a
//! word means is by ISO 5593, ABMA 20 and common practice, no source.

use chrono::NaiveDate;
use sparewright::catalogue::card_index::CardIndex;
use sparewright::interchange::Verdict;
use sparewright::lookup::{Answer, Question, answer};
use sparewright::record::{PriceBreak, Records};
use sparewright::units::{Currency, Price};

use super::sample::{offer, part, shop, stock};

fn index_of(records: Records) -> CardIndex {
    CardIndex::of_shop(&shop(records))
}

/// The shop's only part, as the answer to a question shows it.
fn shown(name: &str, asked: &str) -> Answer {
    let index = index_of(Records {
        parts: vec![part("SP-0001", name)],
        stock: vec![stock("SP-0001", "A-1", 4.0)],
        ..Records::default()
    });
    let question =
        Question::read_in(asked, Some(&index)).unwrap_or_else(|error| panic!("{asked}: {error}"));
    let answers = answer(&question, Some(&index));
    let mut all = answers.answers.into_iter().chain(answers.refused);
    all.find(|one| one.number.as_deref() == Some("SP-0001"))
        .unwrap_or_else(|| panic!("{asked} does not list {name}"))
}

#[test]
fn the_words_that_ask_for_a_part_also_name_it() {
    for (name, asked) in [
        (
            "40x62x8 A NBR right-hand helix",
            "40x62x8 A NBR right-hand helix",
        ),
        (
            "40x62x8 A NBR ribs for both rotations",
            "40x62x8 A NBR bidirectional ribs",
        ),
        ("NU205 inner ring", "NU205 Innenring"),
        ("cone 30205", "30205 cone"),
        ("51205 shaft washer", "51205 shaft washer only"),
        ("6316 current insulated", "6316 insulated"),
        ("6205 ceramic", "6205 hybrid"),
        ("6205 hybrid", "6205 ceramic balls"),
        ("6205 ABEC 5", "6205 P5"),
        ("6205 P4", "6205 ABEC-7"),
        ("6205 brass cage", "6205 M"),
        ("22208 tapered bore", "22208 K"),
        ("6205-2RS FKM", "6205-2RS FKM"),
        (
            "40x62x8 A NBR pressure profile",
            "40x62x8 A NBR pressure profile",
        ),
        ("KM10 stainless", "KM10 stainless"),
    ] {
        let judgement = shown(name, asked).judgement;
        // Sizes from memory are measured first.
        assert!(
            judgement.verdict <= Verdict::AfterChecks,
            "{name} for {asked}: {judgement:?}"
        );
        assert!(
            judgement.differs.is_empty(),
            "{name} for {asked}: {judgement:?}"
        );
        assert!(
            !judgement.unknown.iter().any(|line| line.contains("suffix")),
            "{name} for {asked}: {judgement:?}"
        );
    }
}

#[test]
fn what_a_name_says_in_words_is_judged() {
    for (name, asked, verdict, what) in [
        ("NU205 inner ring", "NU205", Verdict::MustNot, "variant"),
        ("cone 30205", "30205", Verdict::MustNot, "variant"),
        ("51205 shaft washer", "51205", Verdict::MustNot, "variant"),
        ("6205", "6205 ABEC 5", Verdict::MustNot, "tolerance class"),
        (
            "40x62x8 A NBR right-hand helix",
            "40x62x8 A NBR",
            Verdict::AfterChecks,
            "variant",
        ),
        (
            "40x62x8 A NBR right-hand helix",
            "40x62x8 A NBR left-hand helix",
            Verdict::MustNot,
            "variant",
        ),
        ("6205", "6205 ceramic", Verdict::MustNot, "variant"),
    ] {
        let judgement = shown(name, asked).judgement;
        assert_eq!(
            judgement.verdict, verdict,
            "{name} for {asked}: {judgement:?}"
        );
        assert!(
            judgement.differs.iter().any(|one| one.what == what),
            "{name} for {asked}: {judgement:?}"
        );
    }
}

#[test]
fn the_elastomer_behind_a_seal_is_the_seals() {
    // Published closure description: nitrile to about 110 °C, which an unmarked seal is of; fluoroelastomer stands more.
    for (name, asked, verdict) in [
        ("6205-2RS", "6205-2RS FKM", Verdict::MustNot),
        ("6205-2RS FKM", "6205-2RS", Verdict::AfterChecks),
        ("6205-2RS FKM", "6205-2RS FKM", Verdict::AsItIs),
        ("6205-2RZ FKM", "6205-2RZ", Verdict::AfterChecks),
        ("6205-2RZ", "6205-2RZ FKM", Verdict::AfterChecks),
    ] {
        let judgement = shown(name, asked).judgement;
        assert_eq!(
            judgement.verdict, verdict,
            "{name} for {asked}: {judgement:?}"
        );
    }
}

#[test]
fn a_word_that_is_not_understood_never_gives_the_first_verdict() {
    for (name, asked) in [
        ("6205 wobbly", "6205"),
        ("6205 hardened", "6205"),
        ("30205 cone and cup", "30205"),
        ("6205", "6205 wobbly"),
        ("6308", "6308 left-hand helix"),
        ("7205 B", "7205 B pair"),
        ("51205", "51205 radial load"),
    ] {
        let judgement = shown(name, asked).judgement;
        assert!(
            judgement.verdict > Verdict::AsItIs,
            "{name} for {asked}: {judgement:?}"
        );
    }
}

#[test]
fn a_part_without_a_known_size_is_found_by_its_name_only() {
    let index = index_of(Records {
        parts: vec![part("Q-1", "QJ208")],
        ..Records::default()
    });
    let question = Question::read_in("QJ208", Some(&index)).unwrap();
    let answers = answer(&question, Some(&index));
    let first = &answers.answers[0];
    assert_eq!(first.number.as_deref(), Some("Q-1"));
    // No table here has the size of QJ208.
    assert!(first.is_by_name_only());
    assert!(answers.none_of_these.probability < 0.01);
    assert_eq!(answers.none_of_these.why, "the text is a name of this part");
}

#[test]
fn an_offer_tells_number_quantities_age_and_end() {
    let day = |year, month, day| NaiveDate::from_ymd_opt(year, month, day).unwrap();
    let mut quoted = offer("East", "6205-2RS", 9.0, None);
    quoted.own_number = Some("SP-0001".to_owned());
    quoted.supplier_number = Some("G78".to_owned());
    quoted.minimum_quantity = Some(10.0);
    quoted.pack_quantity = Some(5.0);
    quoted.breaks = [(10.0, 8.5), (50.0, 7.25)]
        .map(|(from_quantity, price)| PriceBreak {
            from_quantity,
            price: Price::from_units(price, 1, Currency::EUR).unwrap(),
        })
        .into();
    quoted.quote_date = Some(day(2023, 6, 1));
    quoted.valid_until = Some(day(2023, 12, 31));
    let index = index_of(Records {
        parts: vec![part("SP-0001", "6205-2RS")],
        offers: vec![quoted].into(),
        ..Records::default()
    });
    let question = Question::read_in("SP-0001", Some(&index)).unwrap();
    let answers = answer(&question, Some(&index));
    let line = &answers.answers[0].offers[0];
    assert_eq!(line.supplier_number.as_deref(), Some("G78"));
    assert_eq!(line.minimum_quantity, Some(10.0));
    assert_eq!(line.pack_quantity, Some(5.0));
    let remarks = line.remarks();
    assert_eq!(
        remarks[..5],
        [
            "their number G78",
            "at least 10",
            "in packs of 5",
            "8.50 each from 10",
            "7.25 each from 50"
        ]
    );
    // The calendar: 2023-12-31 is the last day that it holds; 2024-01-01 is 214 days after 2023-06-01.
    assert_eq!(line.has_ended(day(2023, 12, 31)), Some(false));
    assert_eq!(line.has_ended(day(2024, 1, 1)), Some(true));
    assert_eq!(line.age_days(day(2024, 1, 1)), Some(214));
    assert_eq!(line.age_days(day(2023, 5, 31)), None);
    let mut open = line.clone();
    (open.valid_until, open.quote_date) = (None, None);
    assert_eq!(open.has_ended(day(2024, 1, 1)), None);
    assert_eq!(open.age_days(day(2024, 1, 1)), None);
}
