//! Lists of offers kept as rows and by columns: the same offers in the same order, whatever is done to them.

use std::sync::Arc;

use proptest::prelude::*;
use sparewright::record::{
    LeadUnit, OfferColumns, OfferList, OfferRecord, OwnOfOffer, QuotedLeadTime,
};
use sparewright::units::{Currency, Price};

use crate::sample;

/// An offer whose own figures are drawn.
#[derive(Debug, Clone)]
struct Drawn {
    designation: usize,
    number: Option<String>,
    cents: Option<u32>,
    per: u32,
    currency: usize,
    minimum: Option<u8>,
    weeks: Option<u8>,
    row: u32,
}

fn drawn() -> impl Strategy<Value = Drawn> {
    (
        0_usize..3,
        prop::option::of("[A-Z][0-9]{1,4}"),
        prop::option::of(1_u32..100_000),
        prop::sample::select(vec![1_u32, 100]),
        0_usize..2,
        prop::option::of(1_u8..20),
        prop::option::of(1_u8..20),
        1_u32..100_000,
    )
        .prop_map(
            |(designation, number, cents, per, currency, minimum, weeks, row)| Drawn {
                designation,
                number,
                cents,
                per,
                currency,
                minimum,
                weeks,
                row,
            },
        )
}

fn record(drawn: &Drawn) -> OfferRecord {
    let mut offer = sample::offer(
        "East",
        ["6205", "6206-2RS", "30205"][drawn.designation],
        1.0,
        None,
    );
    let currency = Currency::new(["EUR", "CHF"][drawn.currency]).unwrap();
    offer.supplier_number.clone_from(&drawn.number);
    offer.price = drawn
        .cents
        .and_then(|cents| Price::from_units(f64::from(cents) / 100.0, drawn.per, currency).ok());
    offer.minimum_quantity = drawn.minimum.map(f64::from);
    offer.lead_time = drawn
        .weeks
        .map(|weeks| QuotedLeadTime::exactly(f64::from(weeks) * 7.0, LeadUnit::Days));
    offer.place.row = drawn.row;
    offer
}

/// The offers by columns, those of one designation sharing what they share.
fn columns(offers: &[OfferRecord]) -> OfferColumns {
    let mut columns = OfferColumns::with_room(offers.len());
    let mut kinds: Vec<(Arc<OfferRecord>, u32)> = Vec::new();
    for offer in offers {
        let known = kinds
            .iter()
            .find(|(kind, _)| kind.designation == offer.designation);
        match known {
            Some((_, at)) => columns.push_alike(*at, offer),
            None => kinds.push(columns.push_record(offer.clone())),
        }
    }
    columns
}

#[test]
fn a_column_without_values_at_its_start_and_its_end_gives_none_there() {
    let price = |cents: i64| {
        Some(Price {
            amount_cents_e2: cents,
            per: 1,
            currency: Currency::EUR,
        })
    };
    let mut columns = OfferColumns::with_room(4);
    let kind = columns.add_kind(Arc::new(sample::offer("East", "6205", 1.0, None)));
    for (row, own) in [
        (1, OwnOfOffer::default()),
        (
            2,
            OwnOfOffer {
                supplier_number: Some("N2"),
                price: price(20_000),
                minimum_quantity: Some(5.0),
                ..OwnOfOffer::default()
            },
        ),
        (3, OwnOfOffer::default()),
        (
            4,
            OwnOfOffer {
                own_number: Some("B-4"),
                price: price(0),
                quantity_available: Some(0.0),
                ..OwnOfOffer::default()
            },
        ),
        (5, OwnOfOffer::default()),
    ] {
        columns.push(kind, row, &own);
        let at = columns.len() - 1;
        assert_eq!(columns.own(at), own, "row {row}");
        let record = columns.record(at).unwrap();
        assert_eq!((record.place.row, record.price), (row, own.price));
        // No price and no quantity is not a price and a quantity of nothing.
        assert_eq!(record.quantity_available, own.quantity_available);
    }
    assert_eq!(columns.record(5), None);
    assert_eq!(columns.len(), 5);
}

#[test]
fn an_empty_list_is_empty_in_every_way() {
    let empty = OfferList::default();
    assert_eq!(
        (
            empty.len(),
            empty.is_empty(),
            empty.iter().count(),
            empty.records().count()
        ),
        (0, true, 0, 0)
    );
    let mut list = OfferList::from(Vec::new());
    list.push_columns(OfferColumns::default());
    assert_eq!(list, empty);
    let mut other = OfferList::from(vec![sample::offer("East", "6205", 1.0, None)]);
    list.append(&mut other);
    assert_eq!((list.len(), other.len()), (1, 0));
    other.append(&mut list);
    assert_eq!((list.len(), other.len()), (0, 1));
}

/// What is done to a list.
#[derive(Debug, Clone)]
enum Step {
    Push(Drawn),
    Columns(Vec<Drawn>),
    Append(Vec<Drawn>, bool),
    Name(prop::sample::Index, prop::sample::Index, u8),
}

fn step() -> impl Strategy<Value = Step> {
    let some = || prop::collection::vec(drawn(), 0..6);
    prop_oneof![
        drawn().prop_map(Step::Push),
        some().prop_map(Step::Columns),
        (some(), any::<bool>()).prop_map(|(offers, by_columns)| Step::Append(offers, by_columns)),
        (
            any::<prop::sample::Index>(),
            any::<prop::sample::Index>(),
            0_u8..3
        )
            .prop_map(|(from, until, name)| Step::Name(from, until, name)),
    ]
}

fn records(offers: &[Drawn]) -> Vec<OfferRecord> {
    offers.iter().map(record).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// Columns give back what went into them.
    #[test]
    fn what_goes_in_by_columns_comes_out(offers in prop::collection::vec(drawn(), 0..30)) {
        let offers = records(&offers);
        let by_columns = columns(&offers);
        let back: Vec<OfferRecord> = (0..by_columns.len()).filter_map(|at| by_columns.record(at)).collect();
        prop_assert_eq!(&back, &offers);
        let dates: Vec<_> = (0..by_columns.len()).filter_map(|at| by_columns.quote_date(at)).collect();
        let expected: Vec<_> = offers.iter().map(|offer| (offer.place.clone(), offer.quote_date)).collect();
        prop_assert_eq!(dates, expected);
    }

    /// A list in pieces is the list that a plain vector would be.
    #[test]
    fn a_list_is_what_a_vector_of_rows_would_be(steps in prop::collection::vec(step(), 0..8)) {
        let mut list = OfferList::default();
        let mut rows: Vec<OfferRecord> = Vec::new();
        for step in steps {
            match step {
                Step::Push(offer) => {
                    list.push(record(&offer));
                    rows.push(record(&offer));
                }
                Step::Columns(offers) => {
                    let offers = records(&offers);
                    list.push_columns(columns(&offers));
                    rows.extend(offers);
                }
                Step::Append(offers, by_columns) => {
                    let offers = records(&offers);
                    let mut other = OfferList::default();
                    if by_columns {
                        other.push_columns(columns(&offers));
                    } else {
                        other = offers.clone().into();
                    }
                    list.append(&mut other);
                    prop_assert!(other.is_empty());
                    rows.extend(offers);
                }
                Step::Name(from, until, name) => {
                    let (from, until) = (from.index(rows.len() + 1), until.index(rows.len() + 1));
                    let range = from.min(until)..from.max(until);
                    let name = ["North", "South", "West"][usize::from(name)];
                    list.set_supplier(&range, name);
                    for offer in &mut rows[range] {
                        offer.supplier = name.into();
                    }
                }
            }
            prop_assert_eq!(list.len(), rows.len());
            prop_assert_eq!(&list[..], &rows[..]);
        }
        prop_assert_eq!(list.records().collect::<Vec<_>>(), rows.clone());
        prop_assert_eq!(list.quote_dates().count(), rows.len());
        prop_assert_eq!(&list, &OfferList::from(rows.clone()));
        prop_assert_eq!(list.into_iter().collect::<Vec<_>>(), rows);
    }
}
