//! Questions put together at random from the words of the bench: whatever is asked, an answer keeps its promises.

use proptest::prelude::*;
use sparewright::catalogue::card_index::CardIndex;
use sparewright::interchange::Verdict;
use sparewright::lookup::{Answer, Answers, Question, answer};
use sparewright::part::{Family, SizeKey};
use sparewright::record::Records;

use super::sample::{offer, part, shop, stock};

const FIGURES: [&str; 26] = [
    "40", "80", "18", "30", "62", "16", "25x52x15", "40x80x18", "44.96", "84.9", "8", "7", "3/4",
    "1 5/8", "7/16", "1.181", "31.34", "3.53", "40 x 3", "6", "24", "35", "52", "0.5\"", "100",
    "17,25",
];
const NUMBERS: [&str; 20] = [
    "6206",
    "6308-2RS C3",
    "NU205",
    "NU 2206 E",
    "30206",
    "LM11749",
    "22212 K",
    "7208 B",
    "51205",
    "KM8",
    "AS568-318",
    "DIN 471-40",
    "DIN 6325 8x40",
    "HK2020",
    "K20x24x10",
    "R8 2RS",
    "63?6",
    "6308-",
    "1206K + H206",
    "52208",
];
const WORDS: [&str; 52] = [
    "bore",
    "od",
    "w",
    "id",
    "shaft",
    "housing",
    "room for",
    "lip free id",
    "free",
    "cs",
    "worn",
    "used",
    "new",
    "calliper",
    "rule",
    "micrometer",
    "mm",
    "inch",
    "deep groove",
    "tapered",
    "oil seal",
    "o-ring",
    "circlip",
    "internal circlip",
    "external circlip",
    "dowel",
    "bearing",
    "ball bearing",
    "seal",
    "lock nut",
    "needle cage",
    "cone",
    "cup",
    "inner ring",
    "shaft washer",
    "only",
    "2RS",
    "C3",
    "P5",
    "P52",
    "sealed",
    "NBR",
    "FKM",
    "AS",
    "oil",
    "120 C",
    "must float",
    "double row",
    "insulated",
    "brass cage",
    "DIN 3760",
    "k6",
];

fn question() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        5 => prop::sample::select(&FIGURES[..]),
        1 => prop::sample::select(&NUMBERS[..]),
        4 => prop::sample::select(&WORDS[..]),
    ];
    let sign = prop::sample::select(&[" ", " ", " x ", ", "][..]);
    prop::collection::vec((piece, sign), 1..8).prop_map(|pieces| {
        pieces
            .into_iter()
            .map(|(piece, sign)| format!("{piece}{sign}"))
            .collect::<String>()
    })
}

/// Sizes of an answer with their probabilities, each once; pins of one size are one.
fn shares(answers: &Answers) -> Vec<(SizeKey, f64)> {
    let all = answers.answers.iter().chain(&answers.refused);
    let mut sizes: Vec<(SizeKey, f64)> = all
        .filter_map(|one| Some((one.size?.without_fit(), one.probability)))
        .collect();
    sizes.sort_by_key(|size| size.0);
    sizes.dedup_by(|a, b| a.0 == b.0);
    sizes
}

fn holds(one: &Answer, text: &str, is_refused: bool) -> Result<(), TestCaseError> {
    let judgement = &one.judgement;
    prop_assert!(
        (0.0..=1.0).contains(&one.probability),
        "{text}: {}",
        one.probability
    );
    prop_assert!(!one.designation.trim().is_empty(), "{text}");
    prop_assert_eq!(
        judgement.verdict > Verdict::WithRework,
        is_refused,
        "{}: {}",
        text,
        one.designation
    );
    if judgement.verdict == Verdict::AsItIs {
        prop_assert!(
            judgement.unknown.is_empty() && judgement.checks.is_empty(),
            "{text}: {judgement:?}"
        );
        prop_assert!(
            one.probability >= 0.9,
            "{text}: {} with {}",
            one.designation,
            one.probability
        );
    }
    for difference in &judgement.differs {
        prop_assert!(
            !difference.effect.is_empty() && !difference.source.is_empty(),
            "{text}"
        );
    }
    Ok(())
}

fn keeps_its_promises(text: &str, answers: &Answers) -> Result<(), TestCaseError> {
    for one in &answers.answers {
        holds(one, text, false)?;
    }
    for one in &answers.refused {
        holds(one, text, true)?;
    }
    let none = &answers.none_of_these;
    prop_assert!(
        (0.001..=1.0).contains(&none.probability) && !none.why.is_empty(),
        "{text}"
    );
    if let Some(next) = &answers.ask_next {
        prop_assert!(
            next.bits > 0.0 && !next.question.is_empty() && !next.why.is_empty(),
            "{text}: {next:?}"
        );
    }
    Ok(())
}

static SHOP: std::sync::LazyLock<CardIndex> = std::sync::LazyLock::new(|| {
    let designations = [
        "6206",
        "6206-2RS C3",
        "6308-2Z",
        "NU205 C3",
        "30206",
        "40x62x8 AS NBR",
        "KM8",
        "22212 K C3",
        "7208B P5",
    ];
    let mut records = Records::default();
    let mut offers = Vec::new();
    for (at, designation) in designations.iter().enumerate() {
        records.parts.push(part(&format!("P-{at}"), designation));
        offers.push(offer(
            if at % 2 == 0 { "East" } else { "West" },
            designation,
            5.0,
            None,
        ));
        records
            .stock
            .push(stock(&format!("P-{at}"), "A-1", at as f64));
    }
    records.offers = offers.into();
    CardIndex::of_shop(&shop(records))
});

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_question_of_any_words_is_answered_or_refused_in_words(text in question()) {
        match Question::read(&text) {
            Err(error) => prop_assert!(!error.to_string().is_empty()),
            Ok(read) => {
                let answers = answer(&read, None);
                keeps_its_promises(&text, &answers)?;
                let sum: f64 = shares(&answers).iter().map(|(_, share)| share).sum();
                prop_assert!(sum + answers.none_of_these.probability < 1.011, "{text}: {sum}");
                // What was asked is kept as it was written.
                prop_assert_eq!(read.text.as_str(), text.trim());
                // A family that is named bars every other, except where number and figures contradict each other.
                let contradicts = answers.warnings.iter().any(|line| line.contains("contradict"));
                if let (Some(family), false, true) = (read.family, contradicts, read.partial.is_empty()) {
                    let others = answers.answers.iter().filter_map(|one| one.size).filter(|size| size.family() != family);
                    prop_assert_eq!(others.count(), 0, "{}", text);
                }
                if read.designation.is_none() && read.family.is_none() && read.partial.is_empty() && !read.families.is_empty() {
                    let all = answers.answers.iter().filter_map(|one| one.size.map(|size| size.family()));
                    prop_assert!(all.into_iter().all(|family: Family| read.families.contains(&family)), "{text}");
                }
            }
        }
    }

    #[test]
    fn a_shop_adds_its_parts_and_takes_no_promise_away(text in question()) {
        let index = &*SHOP;
        if let Ok(read) = Question::read_in(&text, Some(index)) {
            let answers = answer(&read, Some(index));
            keeps_its_promises(&text, &answers)?;
            let listed = answers.answers.iter().chain(&answers.refused).filter(|one| one.number.is_some());
            for one in listed {
                let number = one.number.as_deref().unwrap_or_default();
                prop_assert!(number.starts_with("P-"), "{text}: {number}");
                prop_assert!(one.stock.len() <= 1 && one.offers.len() <= 1, "{text}: {number}");
            }
            // The standard parts are those of the answer without a shop.
            let alone = answer(&read, None);
            let standard = |answers: &Answers| -> Vec<String> {
                let all = answers.answers.iter().chain(&answers.refused).filter(|one| one.number.is_none());
                let mut names: Vec<String> = all.map(|one| one.designation.clone()).collect();
                names.sort();
                names
            };
            prop_assert_eq!(standard(&answers), standard(&alone), "{}", text);
        }
    }

    #[test]
    fn the_same_words_are_read_alike_whatever_the_blanks(text in question()) {
        let spaced = format!("  {}  ", text.split(' ').collect::<Vec<_>>().join("  "));
        let read = |text: &str| Question::read(text).map(|read| {
            let figures: Vec<String> = read.readings.iter().map(|reading| format!("{:?} {}", reading.role, reading.length.length)).collect();
            (read.family, read.families.clone(), read.designated_size(), figures, read.traits.clone())
        }).ok();
        prop_assert_eq!(read(&text), read(&spaced), "{}", text);
    }
}
