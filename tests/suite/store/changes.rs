//! What a comparison says of two states, kind by kind and in both directions; the rules are the project's own.

use proptest::prelude::*;
use sparewright::record::{LeadUnit, OfferRecord, QuotedLeadTime, Records, StockRecord};
use sparewright::store::{Change, ChangeKind, changes};
use sparewright::units::{Currency, Price, UnitOfCount};

use crate::sample;

fn price(amount: f64, per: u32, code: &str) -> Option<Price> {
    Price::from_units(amount, per, Currency::new(code).unwrap()).ok()
}

fn weeks(least: f64, most: f64) -> Option<QuotedLeadTime> {
    Some(QuotedLeadTime::Span {
        least: least * 7.0,
        most: most * 7.0,
        unit: LeadUnit::Days,
    })
}

fn by(day: &str) -> Option<QuotedLeadTime> {
    Some(QuotedLeadTime::By(day.parse().unwrap()))
}

fn offers(of: Vec<OfferRecord>) -> Records {
    Records {
        offers: of.into(),
        ..Records::default()
    }
}

fn kinds(changes: &[Change]) -> Vec<ChangeKind> {
    changes.iter().map(|change| change.kind).collect()
}

/// What a change is seen from the other side.
fn mirror(kind: ChangeKind) -> ChangeKind {
    use ChangeKind as K;
    match kind {
        K::NewPart => K::PartGone,
        K::PartGone => K::NewPart,
        K::NewOffer => K::OfferGone,
        K::OfferGone => K::NewOffer,
        K::PriceUp => K::PriceDown,
        K::PriceDown => K::PriceUp,
        K::LeadTimeLonger => K::LeadTimeShorter,
        K::LeadTimeShorter => K::LeadTimeLonger,
        other => other,
    }
}

/// Compares in both directions.
fn both_ways(before: &Records, after: &Records) -> Vec<ChangeKind> {
    let there = kinds(&changes(before, after));
    let mut back: Vec<ChangeKind> = kinds(&changes(after, before))
        .into_iter()
        .map(mirror)
        .collect();
    let mut sorted = there.clone();
    sorted.sort();
    back.sort();
    assert_eq!(sorted, back);
    there
}

#[test]
fn prices_are_compared_by_the_unit_and_only_in_one_currency() {
    use ChangeKind::{PriceChanged, PriceDown, PriceUp};
    for (before, after, expected) in [
        (price(10.0, 1, "EUR"), price(10.0, 1, "EUR"), None),
        (price(10.0, 1, "EUR"), price(10.01, 1, "EUR"), Some(PriceUp)),
        (
            price(10.0, 1, "EUR"),
            price(9.99, 1, "EUR"),
            Some(PriceDown),
        ),
        (price(10.0, 1, "EUR"), price(1_000.0, 100, "EUR"), None),
        (
            price(10.0, 1, "EUR"),
            price(1_000.01, 100, "EUR"),
            Some(PriceUp),
        ),
        (
            price(10.0, 1, "EUR"),
            price(999.0, 100, "EUR"),
            Some(PriceDown),
        ),
        (
            price(10.0, 1, "EUR"),
            price(10.0, 1, "USD"),
            Some(PriceChanged),
        ),
        (price(10.0, 1, "EUR"), None, Some(PriceChanged)),
        (None, price(10.0, 1, "EUR"), Some(PriceChanged)),
        (None, None, None),
    ] {
        let with = |price| {
            let mut offer = sample::offer("Nordlager", "6305", 1.0, None);
            offer.price = price;
            offers(vec![offer])
        };
        let found = both_ways(&with(before), &with(after));
        assert_eq!(found, Vec::from_iter(expected), "{before:?} to {after:?}");
    }
}

#[test]
fn a_price_in_another_unit_of_count_does_not_compare() {
    let with = |unit| {
        let mut offer = sample::offer("Nordlager", "6305", 10.0, None);
        offer.unit_of_count = unit;
        offers(vec![offer])
    };
    let piece = Some(UnitOfCount::Piece);
    assert_eq!(
        both_ways(&with(piece), &with(None)),
        [ChangeKind::PriceChanged]
    );
    assert_eq!(both_ways(&with(piece), &with(piece)), []);
}

#[test]
fn lead_times_compare_in_one_unit_and_a_missing_one_is_never_shorter() {
    use ChangeKind::{LeadTimeChanged, LeadTimeLonger, LeadTimeShorter};
    let workdays = Some(QuotedLeadTime::exactly(10.0, LeadUnit::Workdays));
    for (before, after, expected) in [
        (weeks(6.0, 6.0), weeks(6.0, 6.0), None),
        (weeks(6.0, 6.0), weeks(8.0, 8.0), Some(LeadTimeLonger)),
        (weeks(6.0, 8.0), weeks(6.0, 9.0), Some(LeadTimeLonger)),
        (weeks(6.0, 8.0), weeks(7.0, 8.0), Some(LeadTimeLonger)),
        (weeks(6.0, 8.0), weeks(2.0, 3.0), Some(LeadTimeShorter)),
        (
            Some(QuotedLeadTime::InStock),
            weeks(1.0, 1.0),
            Some(LeadTimeLonger),
        ),
        (
            weeks(1.0, 1.0),
            Some(QuotedLeadTime::InStock),
            Some(LeadTimeShorter),
        ),
        (by("2026-04-01"), by("2026-04-02"), Some(LeadTimeLonger)),
        (by("2026-04-02"), by("2026-04-01"), Some(LeadTimeShorter)),
        (weeks(2.0, 2.0), workdays, Some(LeadTimeChanged)),
        (weeks(2.0, 2.0), by("2026-04-01"), Some(LeadTimeChanged)),
        (weeks(2.0, 2.0), None, Some(LeadTimeChanged)),
        (None, weeks(2.0, 2.0), Some(LeadTimeChanged)),
        (
            weeks(2.0, 2.0),
            Some(QuotedLeadTime::OnRequest),
            Some(LeadTimeChanged),
        ),
        (Some(QuotedLeadTime::OnRequest), None, Some(LeadTimeChanged)),
        (None, None, None),
    ] {
        let with = |lead_time| offers(vec![sample::offer("Nordlager", "6305", 10.0, lead_time)]);
        let found = both_ways(&with(before), &with(after));
        assert_eq!(found, Vec::from_iter(expected), "{before:?} to {after:?}");
    }
}

#[test]
fn offers_come_and_go_by_supplier_part_and_condition() {
    let one = sample::offer("Nordlager", "6305", 10.0, None);
    let other_supplier = sample::offer("Suedlager", "6305", 10.0, None);
    let other_part = sample::offer("Nordlager", "6306", 10.0, None);
    let mut used = one.clone();
    used.condition = sparewright::record::Condition::Used;
    let mut shouted = one.clone();
    shouted.supplier = "NORDLAGER ".into();
    let before = offers(vec![one.clone()]);
    for (after, expected) in [
        (vec![], vec![ChangeKind::OfferGone]),
        (vec![one.clone()], vec![]),
        (vec![shouted], vec![]),
        (
            vec![one.clone(), other_supplier],
            vec![ChangeKind::NewOffer],
        ),
        (vec![one.clone(), other_part], vec![ChangeKind::NewOffer]),
        (vec![one.clone(), used.clone()], vec![ChangeKind::NewOffer]),
    ] {
        assert_eq!(both_ways(&before, &offers(after)), expected);
    }
    let mut found = both_ways(&before, &offers(vec![used]));
    found.sort();
    assert_eq!(found, [ChangeKind::NewOffer, ChangeKind::OfferGone]);
}

#[test]
fn a_part_is_changed_by_its_values_and_not_by_its_place() {
    let part = sample::part("B-1", "6305-2RS");
    let records = |parts: Vec<sparewright::record::PartRecord>| Records {
        parts,
        ..Records::default()
    };
    let before = records(vec![part.clone()]);
    let mut moved = part.clone();
    moved.place = sample::place(77);
    assert_eq!(both_ways(&before, &records(vec![moved])), []);
    let mut respelt = part.clone();
    respelt.own_number = "b 1".to_owned();
    assert_eq!(
        both_ways(&before, &records(vec![respelt])),
        [ChangeKind::PartChanged]
    );
    let mut raised = part.clone();
    raised.own_min_stock = Some(4.0);
    let found = changes(&before, &records(vec![raised]));
    assert_eq!(kinds(&found), [ChangeKind::PartChanged]);
    let (before_words, after_words) = (found[0].before.as_deref(), found[0].after.as_deref());
    assert!(
        before_words.is_some_and(|words| words.contains("nothing")),
        "{found:?}"
    );
    assert!(
        after_words.is_some_and(|words| words.ends_with('4') || words.contains(" 4")),
        "{found:?}"
    );
    assert_eq!(
        both_ways(&before, &records(Vec::new())),
        [ChangeKind::PartGone]
    );
    // Two rows of one number: the first by place stands for them.
    let mut second = part.clone();
    second.own_min_stock = Some(9.0);
    assert_eq!(both_ways(&before, &records(vec![part, second])), []);
}

#[test]
fn stock_is_summed_over_bins_and_one_that_does_not_say_leaves_it_unknown() {
    let row = |bin: &str, on_hand: Option<f64>, unit: Option<UnitOfCount>| StockRecord {
        facts: None,
        on_hand,
        unit_of_count: unit,
        ..sample::stock("B-1", bin, 0.0)
    };
    let records = |stock: Vec<StockRecord>| Records {
        stock,
        ..Records::default()
    };
    let piece = Some(UnitOfCount::Piece);
    let before = records(vec![row("A", Some(3.0), piece), row("B", Some(2.0), piece)]);
    for (after, changed) in [
        (vec![row("C", Some(5.0), piece)], false),
        (
            vec![row("A", Some(4.0), piece), row("B", Some(1.0), piece)],
            false,
        ),
        (vec![row("A", Some(3.0), piece)], true),
        (
            vec![row("A", Some(3.0), piece), row("B", None, piece)],
            true,
        ),
        (vec![row("A", Some(5.0), None)], true),
        (vec![], true),
    ] {
        let found = both_ways(&before, &records(after.clone()));
        let expected = if changed {
            vec![ChangeKind::StockChanged]
        } else {
            vec![]
        };
        assert_eq!(found, expected, "{after:?}");
    }
    let unknown = records(vec![row("A", None, piece)]);
    let found = changes(&before, &unknown);
    assert!(
        found[0]
            .after
            .as_deref()
            .is_some_and(|words| words.starts_with("unknown")),
        "{found:?}"
    );
}

#[test]
fn every_kind_has_words_of_its_own() {
    use ChangeKind as K;
    let all = [
        K::NewPart,
        K::PartGone,
        K::PartChanged,
        K::NewOffer,
        K::OfferGone,
        K::PriceUp,
        K::PriceDown,
        K::PriceChanged,
        K::LeadTimeLonger,
        K::LeadTimeShorter,
        K::LeadTimeChanged,
        K::StockChanged,
    ];
    let words: std::collections::BTreeSet<&str> = all.iter().map(|kind| kind.words()).collect();
    assert_eq!(words.len(), all.len());
}

fn any_offers() -> impl Strategy<Value = Records> {
    let offer = (0..3_usize, 0..3_usize, 1..5_u32, prop::option::of(1..4_u32));
    prop::collection::vec(offer, 0..6).prop_map(|rows| {
        let rows = rows.into_iter().map(|(supplier, part, cents, week)| {
            let supplier = ["Nordlager", "Suedlager", "Westlager"][supplier];
            let part = ["6305", "6306", "6204-2Z"][part];
            let week = week.map(f64::from);
            sample::offer(
                supplier,
                part,
                f64::from(cents),
                week.and_then(|week| weeks(week, week)),
            )
        });
        offers(rows.collect())
    })
}

proptest! {
    #[test]
    fn a_state_does_not_differ_from_itself_and_differences_mirror(one in any_offers(), other in any_offers()) {
        prop_assert_eq!(changes(&one, &one), []);
        both_ways(&one, &other);
    }
}
