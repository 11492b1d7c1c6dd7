//! Shops with few tables: every page is there, in both languages, and says what is missing instead of breaking.

use std::collections::BTreeSet;
use std::path::Path;

use super::client::Server;
use crate::german_words::{Words, faults_of, none};
use crate::imported;

/// The least that each kind of table may say.
const TABLES: [(&str, &str); 9] = [
    (
        "parts.csv",
        "Part no;Designation;Description;Unit\nB-1;6205-2RS;Bearing, fan;pcs\nB-2;6308;Bearing, crusher;pcs\n",
    ),
    (
        "suppliers.csv",
        "Supplier;Approved;Freight;Currency\nMarlow;yes;12;EUR\n",
    ),
    (
        "offers.csv",
        "Supplier;Part no;Price;Currency;Lead time;Unit\nMarlow;B-2;14.20;EUR;3 weeks;pcs\n",
    ),
    ("stock.csv", "Part no;Bin;On hand;Unit\nB-2;R-04;3;pcs\n"),
    (
        "usages.csv",
        "Date;Part no;Quantity;Unit;Machine\n2025-03-01;B-2;1;pcs;Crusher\n2025-06-01;B-2;1;pcs;Crusher\n2025-09-01;B-2;2;pcs;Crusher\n",
    ),
    (
        "receipts.csv",
        "Supplier;Part no;Ordered;Promised;Received;Quantity;Unit\nMarlow;B-2;2025-02-01;2025-02-15;2025-02-20;2;pcs\n",
    ),
    (
        "kits.csv",
        "Kit;Line;Part no;Quantity;Unit;Machine\nCrusher shaft;10;B-2;2;pcs;Crusher\nCrusher shaft;20;B-1;1;pcs;Crusher\n",
    ),
    (
        "machines.csv",
        "Machine;Downtime cost per hour;Currency;Criticality\nCrusher;200;EUR;A\n",
    ),
    (
        "approvals.csv",
        "Kit;Line;Part no;Approved by;Date\nCrusher shaft;10;6308 C3;Ruiz;2025-01-10\n",
    ),
];

/// A server over the tables at these places; `None` where nothing of them can be imported.
fn served(folder: &Path, chosen: &[usize]) -> Option<Server> {
    let chosen: Vec<_> = chosen.iter().map(|at| TABLES[*at]).collect();
    let workspace = folder.join("workspace");
    let done = imported::import(&imported::lists(folder, &chosen), &workspace);
    done.status.success().then(|| Server::empty(&workspace))
}

/// Addresses of every page there may be.
fn addresses(server: &Server) -> Vec<String> {
    let mut all: Vec<String> = [
        "/",
        "/?q=6308",
        "/?q=B-2",
        "/kits",
        "/levels",
        "/levels?budget=100",
        "/overview",
        "/download",
    ]
    .map(str::to_owned)
    .to_vec();
    let overview = server.get("/overview").text();
    let tables = overview.split("href=\"/table/").skip(1);
    let tables: BTreeSet<&str> = tables.map(|rest| rest.split('"').next().unwrap()).collect();
    all.extend(tables.iter().map(|key| format!("/table/{key}")));
    let kits = server.get("/kits").text();
    for kit in 0..kits.matches("class=\"whole\"").count() {
        all.push(format!("/kits/{kit}"));
        all.push(format!("/kits/{kit}/sheet"));
    }
    all
}

fn every_page_is_there(chosen: &[usize]) {
    let names: Vec<&str> = chosen.iter().map(|at| TABLES[*at].0).collect();
    let folder = tempfile::tempdir().unwrap();
    let Some(server) = served(folder.path(), chosen) else {
        return;
    };
    let tables: String = chosen.iter().map(|at| TABLES[*at].1).collect();
    let mut shop = Words::new(&format!("{tables} {} lists", names.join(" ")));
    shop.names = ["Crusher shaft", "the shop"].map(str::to_owned).to_vec();
    let addresses = addresses(&server);
    assert!(addresses.len() > 15, "{names:?}: {addresses:?}");
    let answers = addresses.iter().map(|address| {
        let ask = |code: &str| {
            let reply = server.send("GET", address, &[("Accept-Language", code)], b"");
            assert_eq!(reply.status, 200, "{names:?} {address}: {}", reply.text());
            reply.text()
        };
        (format!("{names:?} {address}"), ask("en"), ask("de"))
    });
    none(&faults_of(answers, &shop));
}

#[test]
fn a_single_table_is_enough_for_every_page() {
    for at in 0..TABLES.len() {
        every_page_is_there(&[at]);
    }
}

#[test]
fn each_table_may_be_the_one_that_is_missing() {
    for missing in 0..TABLES.len() {
        let chosen: Vec<usize> = (0..TABLES.len()).filter(|at| *at != missing).collect();
        every_page_is_there(&chosen);
    }
}

#[test]
fn the_whole_small_shop_is_planned() {
    let folder = tempfile::tempdir().unwrap();
    let all: Vec<usize> = (0..TABLES.len()).collect();
    let server = served(folder.path(), &all).expect("the small shop is imported");
    let kits = server.get("/kits").text();
    assert!(kits.contains("Crusher shaft"), "{kits}");
    let answer = server.get("/answer?q=6308").text();
    assert!(
        answer.contains("R-04") && answer.contains("Marlow"),
        "{answer}"
    );
    let german = server.send("GET", "/answer?q=6308", &[("Accept-Language", "de")], b"");
    let german = german.text();
    for words in ["Am Lager", "14,20 EUR", "Lieferzeit", "Rillenkugellager"] {
        assert!(german.contains(words), "no `{words}` in {german}");
    }
}
