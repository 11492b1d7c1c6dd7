//! Every page of the demo in German: what reads the same on the English page is a word of the shop, a standard's, or the same
//! in both languages; and no sentence is half English.
//!
//! What fails is printed with the page it stands on; its line belongs into `data/language/de.tsv`.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use sparewright::job::Job;

use super::client::{Server, encoded};
use crate::german_words::{Words, faults_of, none};
use crate::imported::demo_workspace;

const GERMAN: (&str, &str) = ("Accept-Language", "de");
const ENGLISH: (&str, &str) = ("Accept-Language", "en");
/// Questions that bring out warnings, checks and refusals.
const QUESTIONS: [&str; 22] = [
    "6206-2RS C3",
    "40x90x23",
    "44.96 84.9 19 worn",
    "bore 40 od 68 room for 15",
    "lip free id 33.6 on 35 shaft",
    "63?6",
    "6308",
    "6205 C3 shaft 25.008 k6 micrometer",
    "6205 shaft 24.960 k6 micrometer",
    "6205 shaft 24.98 calliper",
    "AS568-222 groove floor 38.1 depth 2.87 width 4.57",
    "o-ring 40 x 3 groove depth 2.87",
    "oil seal 40 x 62 x 8 NBR 3000 rpm",
    "internal circlip 40",
    "3/8 dowel",
    "NU 2210",
    "33208 P5",
    "7206 B DB",
    "6308 food washed 130 C",
    "zzz",
    "13/16",
    "KM8",
];

struct Pages {
    server: Server,
    shop: Words,
}

fn pages() -> &'static Pages {
    static PAGES: OnceLock<Pages> = OnceLock::new();
    PAGES.get_or_init(|| {
        let job = Job::open(demo_workspace(), None).unwrap();
        let said = format!("{:?} {:?} {}", job.shop, job.imported, QUESTIONS.join(" "));
        let mut shop = Words::new(&said);
        let kits = job.shop.kits.iter().map(|kit| kit.name.clone());
        let offers = job.shop.offers.iter();
        let suppliers = offers.map(|offer| offer.record.supplier.to_string());
        shop.names = kits.chain(suppliers).collect();
        shop.names.sort();
        shop.names.dedup();
        shop.names.sort_by_key(|name| std::cmp::Reverse(name.len()));
        Pages {
            server: Server::empty(demo_workspace()),
            shop,
        }
    })
}

/// Both forms of each address.
fn both<'p>(
    pages: &'p Pages,
    addresses: &'p [String],
) -> impl Iterator<Item = (String, String, String)> + 'p {
    addresses.iter().map(|address| {
        let ask = |language| pages.server.send("GET", address, &[language], b"").text();
        (address.clone(), ask(ENGLISH), ask(GERMAN))
    })
}

#[test]
fn look_up_answers_are_german() {
    let pages = pages();
    let mut addresses: Vec<String> = QUESTIONS
        .iter()
        .map(|question| format!("/?q={}", encoded(question)))
        .collect();
    addresses.push("/".to_owned());
    addresses.push("/?bore=40&od=80&width=18&unit=in".to_owned());
    none(&faults_of(both(pages, &addresses), &pages.shop));
}

#[test]
fn every_own_part_is_looked_up_in_german() {
    let pages = pages();
    let answer = pages.server.get("/download/levels.csv").text();
    let numbers = answer
        .lines()
        .skip(1)
        .filter_map(|line| line.split(',').next());
    let addresses: Vec<String> = numbers
        .take(60)
        .map(|number| format!("/answer?q={}", encoded(number.trim_matches('"'))))
        .collect();
    assert!(addresses.len() > 10, "{answer}");
    none(&faults_of(both(pages, &addresses), &pages.shop));
}

#[test]
fn kits_are_german() {
    let pages = pages();
    let listed = pages.server.get("/kits").text();
    let count = listed.matches("class=\"whole\"").count();
    assert!(count > 1);
    let mut addresses = vec!["/kits".to_owned()];
    for kit in 0..count {
        addresses.push(format!("/kits/{kit}"));
        addresses.push(format!("/kits/{kit}/sheet"));
    }
    addresses.push("/kits/0?budget=3000&by=2026-04-20T14%3A00&without=nowhere".to_owned());
    addresses.push("/kits/0?budget=much&by=soon".to_owned());
    let cards = both(pages, &addresses[..1]).next().unwrap().2;
    let missing = cards.matches("Positionen fehl").count();
    assert!(missing > 1 && !cards.contains("lines missing"), "{cards}");
    none(&faults_of(both(pages, &addresses), &pages.shop));
}

#[test]
fn levels_and_the_shop_are_german() {
    let pages = pages();
    let addresses = [
        "/levels",
        "/levels?budget=0",
        "/levels?budget=90000",
        "/overview",
        "/download",
    ];
    let mut addresses: Vec<String> = addresses.map(str::to_owned).to_vec();
    let overview = pages.server.get("/overview").text();
    let tables = overview.split("href=\"/table/").skip(1);
    let tables: BTreeSet<&str> = tables.map(|rest| rest.split('"').next().unwrap()).collect();
    assert!(tables.len() > 15);
    addresses.extend(tables.iter().map(|key| format!("/table/{key}")));
    none(&faults_of(both(pages, &addresses), &pages.shop));
}

#[test]
fn import_and_refusals_are_german() {
    let pages = pages();
    let addresses = ["/import", "/nowhere", "/kits/999"].map(str::to_owned);
    let mut faults = faults_of(both(pages, &addresses), &pages.shop);
    let files: [(&str, &[u8]); 3] = [
        (
            "offers.csv",
            b"Supplier;Part no;Designation;Price;Currency;Lead time;Unit\nStrattwieser;BRG-0106;6308;12;EUR;3 weeks;pcs\nStrattwieser;BRG-0106;6308;much;EUR;3 weeks;pcs\n",
        ),
        ("stock.csv", b"Part no;Bin;On hand;Unit\nB-2;R-04;3;pcs\n"),
        ("nothing.csv", b"x"),
    ];
    let (kind, body) = super::client::multipart(&files);
    let sent = |language: (&str, &str)| {
        let headers = [("Content-Type", kind.as_str()), language];
        pages.server.send("POST", "/import", &headers, &body).text()
    };
    let mut shop = Words::new(&pages.shop.all);
    shop.all += &String::from_utf8_lossy(&body).to_lowercase();
    shop.names.clone_from(&pages.shop.names);
    let proposal = ("a proposal".to_owned(), sent(ENGLISH), sent(GERMAN));
    assert!(proposal.2.contains("Ja, einlesen"), "{}", proposal.2);
    faults.extend(faults_of([proposal].into_iter(), &shop));
    for (what, path, form) in [
        ("gone", "/import/confirm", "key=00"),
        ("undone by somebody else", "/import/undo", "snapshot=77"),
    ] {
        let form_kind = ("Content-Type", "application/x-www-form-urlencoded");
        let ask = |language| {
            let reply = pages
                .server
                .send("POST", path, &[form_kind, language], form.as_bytes());
            reply.text()
        };
        faults.extend(faults_of(
            [(what.to_owned(), ask(ENGLISH), ask(GERMAN))].into_iter(),
            &shop,
        ));
    }
    none(&faults);
}
