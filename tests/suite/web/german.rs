//! Every page of the demo in German: what reads the same on the English page is a word of the shop, a standard's, or the same
//! in both languages; and no sentence is half English.
//!
//! What fails is printed with the page it stands on; its line belongs into `data/language/de.tsv`.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;
use std::sync::OnceLock;

use sparewright::job::Job;
use sparewright::language::{Language, Translator};

use super::client::Server;

const GERMAN: (&str, &str) = ("Accept-Language", "de");
const ENGLISH: (&str, &str) = ("Accept-Language", "en");
/// Words that stand in most English sentences and are no German ones.
const ENGLISH_WORDS: [&str; 34] = [
    "the", "of", "and", "is", "are", "not", "with", "for", "from", "to", "by", "than", "that",
    "which", "or", "its", "it", "this", "no", "has", "have", "be", "only", "two", "one", "where",
    "out", "its", "been", "on", "as", "if", "every", "needs",
];
/// Names of things that both languages write alike.
const ALIKE: [&str; 6] = ["sparewright", "English", "Deutsch", "Name", "CSV", "JSON"];
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
    /// Everything that the shop's tables say, to look words up in.
    shop: String,
    _workspace: tempfile::TempDir,
}

fn pages() -> &'static Pages {
    static PAGES: OnceLock<Pages> = OnceLock::new();
    PAGES.get_or_init(|| {
        let folder = tempfile::tempdir().unwrap();
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo");
        let done = Command::new(env!("CARGO_BIN_EXE_sparewright"))
            .arg("import")
            .arg(&demo)
            .arg("--workspace")
            .arg(folder.path())
            .output()
            .unwrap();
        assert!(done.status.success(), "{done:?}");
        let job = Job::open(folder.path(), None).unwrap();
        let shop = format!("{:?} {:?}", job.shop, job.imported).to_lowercase();
        Pages {
            server: Server::empty(folder.path()),
            shop,
            _workspace: folder,
        }
    })
}

fn unescaped(text: &str) -> String {
    let pairs = [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&#39;", "'"),
        ("&amp;", "&"),
    ];
    pairs
        .iter()
        .fold(text.to_owned(), |text, (from, to)| text.replace(from, to))
}

/// Texts that a person reads or hears on a page: between tags, and in labels, titles and placeholders.
fn texts(page: &str) -> BTreeSet<String> {
    let mut texts = BTreeSet::new();
    let mut skipped = None;
    for piece in page.split('<').skip(1) {
        let (tag, text) = piece.split_once('>').unwrap_or((piece, ""));
        let name = tag.split_whitespace().next().unwrap_or_default();
        if matches!(name, "style" | "script") {
            skipped = Some(format!("/{name}"));
        } else if skipped.as_deref() == Some(name) {
            skipped = None;
        }
        for attribute in [
            "aria-label=\"",
            "title=\"",
            "data-no-answer=\"",
            "data-no-network=\"",
        ] {
            if let Some((_, rest)) = tag.split_once(attribute) {
                texts.insert(unescaped(rest.split('"').next().unwrap()));
            }
        }
        if skipped.is_none() && !text.trim().is_empty() {
            texts.insert(unescaped(text.trim()));
        }
    }
    texts
}

/// Pieces of a text, the shop's words of which stand in its tables.
fn pieces(text: &str) -> impl Iterator<Item = &str> {
    text.split([':', ';', ',', '(', ')', '|', '·', '`', '"', '“', '„'])
        .flat_map(|piece| piece.split(". "))
        .map(|piece| piece.trim().trim_end_matches('.'))
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_alphabetic() && c != '\'')
        .filter(|word| word.chars().count() > 1)
}

/// Pieces of the text that no table of the shop has.
fn ours<'t>(text: &'t str, shop: &'t str) -> impl Iterator<Item = &'t str> {
    pieces(text).filter(|piece| {
        piece.chars().any(|c| c.is_ascii_lowercase()) && !shop.contains(&piece.to_lowercase())
    })
}

/// Why a text of the German page is not German, if it is not.
fn fault(text: &str, english: &BTreeSet<String>, shop: &str) -> Option<&'static str> {
    let half = ours(text, shop).any(|piece| {
        words(piece).any(|word| ENGLISH_WORDS.contains(&word.to_lowercase().as_str()))
    });
    if half {
        return Some("half English");
    }
    let mut translator = Translator::new(Language::of_code("de").unwrap());
    let is_alike = english.contains(text)
        && ours(text, shop)
            .filter(|piece| words(piece).any(|word| word.chars().count() > 2))
            .any(|piece| {
                translator.say(piece);
                !ALIKE.contains(&piece) && !translator.missing().is_empty()
            });
    is_alike.then_some("the same as in English")
}

pub fn faults_of(
    answers: impl Iterator<Item = (String, String, String)>,
    shop: &str,
) -> BTreeMap<String, String> {
    let mut faults = BTreeMap::new();
    for (page, english, german) in answers {
        let english = texts(&english);
        for text in texts(&german) {
            if let Some(why) = fault(&text, &english, shop) {
                faults
                    .entry(text)
                    .or_insert_with(|| format!("{page}: {why}"));
            }
        }
    }
    faults
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

fn encoded(text: &str) -> String {
    let bytes = text.bytes().map(|byte| match byte {
        b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' => char::from(byte).to_string(),
        _ => format!("%{byte:02X}"),
    });
    bytes.collect()
}

pub fn none(faults: &BTreeMap<String, String>) {
    let mut lines = String::new();
    for (text, page) in faults {
        lines.push_str(&format!("{text}\t    [{page}]\n"));
    }
    assert!(faults.is_empty(), "{} texts:\n{lines}", faults.len());
}

#[test]
fn the_check_finds_what_is_english() {
    let shop = "press, north hall; on the shelf of mine";
    let english = BTreeSet::from(["Held by".to_owned(), "Press, north hall".to_owned()]);
    assert_eq!(
        fault("Held by", &english, shop),
        Some("the same as in English")
    );
    assert_eq!(fault("Press, north hall", &english, shop), None);
    assert_eq!(
        fault("Stand 09.03.: measure the bore", &english, shop),
        Some("half English")
    );
    assert_eq!(fault("Aufgehalten durch", &english, shop), None);
    let page = "<p title=\"A &amp; b\">one<b>two</b></p><style>x{}</style><script>y()</script>";
    let found: Vec<String> = texts(page).into_iter().collect();
    assert_eq!(found, ["A & b", "one", "two"]);
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
    let shop = format!(
        "{} {}",
        pages.shop,
        String::from_utf8_lossy(&body).to_lowercase()
    );
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
