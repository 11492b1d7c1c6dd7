//! What is not German in a German text: what reads the same in English and stands in no table of the shop, and sentences that
//! are half English. Used for pages and for what commands print.

use std::collections::{BTreeMap, BTreeSet};

use sparewright::language::{Language, Translator};

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
/// Everything that the shop's tables say, to look words up in.
pub struct Words {
    pub all: String,
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
pub fn texts(page: &str) -> BTreeSet<String> {
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
            "data-sort=\"",
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
    faults_by(answers, shop, texts)
}

/// As [`faults_of`], of what is printed: lines, and cells of tables, which are at least two blanks apart.
pub fn faults_of_lines(
    printed: impl Iterator<Item = (String, String, String)>,
    shop: &Words,
) -> BTreeMap<String, String> {
    faults_by(printed, shop, |text| {
        let cells = text.lines().flat_map(|line| line.split("  "));
        let cells = cells.map(str::trim).filter(|cell| !cell.is_empty());
        cells.map(str::to_owned).collect()
    })
}

fn faults_by(
    answers: impl Iterator<Item = (String, String, String)>,
    shop: &Words,
    texts: fn(&str) -> BTreeSet<String>,
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
