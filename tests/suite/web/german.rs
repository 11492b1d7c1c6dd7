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
/// Names of things that both languages write alike; a shop without settings is called `the shop`.
const ALIKE: [&str; 6] = [
    "sparewright",
    "English",
    "Deutsch",
    "the shop",
    "nowhere",
    // A question as its form puts it together.
    "bore 40 in od 80 in width 18 in",
];
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
            server: Server::empty(folder.path()),
            shop,
            _workspace: folder,
        }
    })
}

/// Everything that the shop's tables say, to look words up in.
pub struct Words {
    all: String,
    /// Names that may stand in a sentence of ours.
    pub names: Vec<String>,
}

impl Words {
    pub fn new(all: &str) -> Self {
        Self {
            all: all.to_lowercase(),
            names: Vec::new(),
        }
    }

    /// The text without the names in it.
    fn without_names(&self, text: &str) -> String {
        let names = self.names.iter();
        names.fold(text.to_owned(), |text, name| text.replace(name, "…"))
    }

    /// True where a table says it.
    fn have(&self, piece: &str) -> bool {
        self.all.contains(&piece.to_lowercase())
    }
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

/// Pieces of a text that may be somebody's own words. A header with its meaning (`OD = outside diameter`) is ours behind
/// the sign only.
fn pieces(text: &str) -> impl Iterator<Item = &str> {
    text.split([':', ';', ',', '(', ')', '|', '·', '`', '"', '“', '„', '…'])
        .flat_map(|piece| piece.split(". "))
        .flat_map(|piece| piece.split(" - "))
        .map(|piece| piece.rsplit(" = ").next().unwrap_or_default())
        .map(|piece| piece.trim().trim_end_matches('.'))
}

/// Words of a text; short forms in large letters, names of files and keys of settings are none.
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split_whitespace()
        .filter(|token| !token.contains(['_', '/']) && !token.trim_end_matches('.').contains('.'))
        .flat_map(|token| token.split(|c: char| !c.is_alphabetic() && c != '\''))
        .filter(|word| word.chars().count() > 1 && word.chars().any(char::is_lowercase))
}

/// Pieces of the text that no table of the shop has.
fn ours<'t>(text: &'t str, shop: &'t Words) -> impl Iterator<Item = &'t str> {
    pieces(text).filter(|piece| words(piece).next().is_some() && !shop.have(piece))
}

/// Why a text of the German page is not German, if it is not.
fn fault(text: &str, english: &BTreeSet<String>, shop: &Words) -> Option<&'static str> {
    let is_alike = english.contains(text);
    let text = shop.without_names(text);
    let is_named_alike = |piece: &str| ALIKE.contains(&piece);
    let mut translator = Translator::new(Language::of_code("de").unwrap());
    let is_forgotten = is_alike
        && ours(&text, shop).any(|piece| {
            let is_word = words(piece).any(|word| word.chars().count() > 2);
            let said = translator.say(piece);
            let is_german = translator.missing().is_empty() && said == piece;
            is_word && !is_named_alike(piece) && !is_german
        });
    if is_forgotten {
        return Some("the same as in English");
    }
    let is_half = ours(&text, shop).any(|piece| {
        let is_english = |word: &str| ENGLISH_WORDS.contains(&word.to_lowercase().as_str());
        !is_named_alike(piece) && words(piece).any(is_english)
    });
    is_half.then_some("half English")
}

pub fn faults_of(
    answers: impl Iterator<Item = (String, String, String)>,
    shop: &Words,
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
    let shop = Words::new("press, north hall; on the shelf of mine");
    let english = [
        "Held by",
        "Press, north hall",
        "Kit complete",
        "sparewright",
    ];
    let english = BTreeSet::from(english.map(str::to_owned));
    for (text, why) in [
        ("Held by", Some("the same as in English")),
        ("Kit complete", Some("the same as in English")),
        ("Press, north hall", None),
        ("sparewright", None),
        ("Stand 09.03.: measure the bore", Some("half English")),
        ("Aufgehalten durch: on the shelf of mine", None),
        ("Aufgehalten durch", None),
        ("records_from in den Einstellungen, IS 6457", None),
        ("not_planned.csv", None),
        ("the = Menge", None),
    ] {
        assert_eq!(fault(text, &english, &shop), why, "{text}");
    }
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
