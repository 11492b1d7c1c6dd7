//! Long lists: rows are read in pieces on all cores, and what repeats is read once.

use std::fmt::Write as _;

use sparewright::import::{Imported, read_folder};
use sparewright::record::OfferRecord;

/// Rows that say different things, right and wrong ones.
const KINDS: [&str; 7] = [
    "6205-2RS;;25;52;15;pc;1,50;3 days;Nordlager",
    // Width 18 is none of a 6207 (ISO 15), and `soon` no lead time.
    "6207;;35;72;18;pc;2,00;soon;Nordlager",
    ";rotary shaft seal;30;47;7;box;3,10;6-8 weeks;Südlager",
    "#N/A;deep groove ball bearing 6305;;;;pair;4;ex stock;Südlager",
    ";;;;;pc;5;3 days;",
    "NU206;;1 3/8;62;16;pc;on request;;Nordlager",
    "6205-2RS;;25;52;15;pc;1,50;3 days;Ostlager",
];

fn import(rows: usize) -> Imported {
    let mut text =
        "Our no.;Designation;Description;Bore;Outside diameter;Width;Unit;Price EUR;Lead time;Supplier\n"
            .to_owned();
    for row in 0..rows {
        let _ = writeln!(text, "N-{row};{}", KINDS[row % KINDS.len()]);
    }
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("offers.csv"), text).unwrap();
    read_folder(folder.path()).unwrap()
}

/// An offer without what tells it from its like in another round.
fn said(offer: &OfferRecord) -> OfferRecord {
    let mut offer = offer.clone();
    offer.own_number = None;
    offer.place.row %= KINDS.len() as u32;
    offer
}

#[test]
fn rows_of_a_long_list_give_what_their_like_gave_first() {
    let rounds = 3_000;
    let imported = import(rounds * KINDS.len());
    assert_eq!(imported.rows_read, rounds * KINDS.len());
    let offers = &imported.records.offers;
    let of_a_round = offers.len() / rounds;
    assert_eq!(offers.len(), of_a_round * rounds);
    assert!(of_a_round >= 5, "{of_a_round}");
    for (at, offer) in offers.iter().enumerate() {
        assert_eq!(said(offer), said(&offers[at % of_a_round]), "offer {at}");
        let is_behind = at == 0 || offers[at - 1].place.row < offer.place.row;
        assert!(is_behind, "offer {at} is in the order of its row");
    }
    let issues = &imported.issues;
    let of_a_round = issues.len() / rounds;
    assert!(of_a_round >= 4, "{issues:?}");
    assert_eq!(issues.len(), of_a_round * rounds);
    for (at, issue) in issues.iter().enumerate() {
        let first = &issues[at % of_a_round];
        assert_eq!(
            (issue.place.column, issue.severity, &issue.problem),
            (first.place.column, first.severity, &first.problem),
            "issue {at}"
        );
        let rounds_on = (at / of_a_round * KINDS.len()) as u32;
        assert_eq!(issue.place.row, first.place.row + rounds_on, "issue {at}");
    }
}

#[test]
fn a_short_list_and_the_start_of_a_long_one_are_the_same() {
    let (short, long) = (import(2 * KINDS.len()), import(2_000 * KINDS.len()));
    let offers = &short.records.offers;
    assert_eq!(offers[..], long.records.offers[..offers.len()]);
    assert_eq!(short.issues[..], long.issues[..short.issues.len()]);
}
