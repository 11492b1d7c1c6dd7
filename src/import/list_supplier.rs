//! Whose list an offer list without a supplier column is.
//!
//! The shop's own table of suppliers knows their names best, and may stand in any file of the folder; so lists are
//! read first and named when the whole folder is read.

use std::ops::Range;

use super::fold::fold;
use super::grid::Grid;
use super::header::Header;
use super::table::Table;
use super::table_kind::is_kind_word;

/// Longest title line that is taken for a name, characters.
const LONGEST_NAME: usize = 40;
/// Shortest first word of a supplier's name that names it by itself, letters.
const SHORTEST_WORD: usize = 5;

/// An offer list whose supplier is to be found when the folder is read.
#[derive(Debug, Clone)]
pub struct UnnamedList {
    /// The list among the tables read.
    pub table: usize,
    /// Its offers among the records.
    pub offers: Range<usize>,
    /// Name that a line such as `Supplier: …` states.
    stated: Option<String>,
    /// Lines above the list and above the first table of its sheet.
    lines: Vec<String>,
    file: String,
    sheet: String,
}

impl UnnamedList {
    /// Remembers what may name the supplier.
    pub fn new(grid: &Grid, table: &Table, first: &Table, at: usize, offers: Range<usize>) -> Self {
        let mut lines = first.title.lines.clone();
        lines.extend(table.title.lines.iter().cloned());
        let stem = grid
            .file
            .rsplit_once('.')
            .map_or(&*grid.file, |(stem, _)| stem);
        Self {
            table: at,
            offers,
            stated: table
                .title
                .supplier
                .clone()
                .or_else(|| first.title.supplier.clone()),
            lines,
            file: stem.to_owned(),
            sheet: grid.whole_sheet.as_ref().unwrap_or(&grid.sheet).to_string(),
        }
    }

    /// The supplier and how it was found; `known` are the names of the suppliers tables, `shop` the shop's own.
    pub fn supplier(&self, known: &[&str], shop: &str) -> (String, String) {
        if let Some(stated) = &self.stated {
            let name = only(known, |name| fold(name) == fold(stated)).unwrap_or(stated);
            return (name.to_owned(), "stated above the table".to_owned());
        }
        if let Some(name) = only(known, |name| {
            self.lines.iter().any(|line| holds(line, name))
        }) {
            return (
                name.to_owned(),
                "its name stands above the table".to_owned(),
            );
        }
        let places: Vec<(&str, &str)> = self
            .lines
            .iter()
            .map(|line| (line.as_str(), "a line above the table"))
            .chain([
                (self.file.as_str(), "the name of the file"),
                (self.sheet.as_str(), "the name of the sheet"),
            ])
            .collect();
        let by_word = only(known, |name| {
            distinctive_word(name, known)
                .is_some_and(|word| places.iter().any(|(text, _)| holds(text, &word)))
        });
        if let Some((name, word)) =
            by_word.and_then(|name| distinctive_word(name, known).map(|word| (name, word)))
        {
            let place = places
                .iter()
                .find(|(text, _)| holds(text, &word))
                .map_or("", |(_, place)| place);
            return (name.to_owned(), format!("`{word}` stands in {place}"));
        }
        if let Some(name) = self.lines.iter().find_map(|line| name_in(line, shop)) {
            return (name, "the first line above the table".to_owned());
        }
        if is_generic(&self.file) && !is_generic(&self.sheet) {
            return (self.sheet.clone(), "the name of the sheet".to_owned());
        }
        (self.file.clone(), "the name of the file".to_owned())
    }
}

/// The one name that fits; `None` where none or several do.
fn only<'n>(known: &[&'n str], fits: impl Fn(&str) -> bool) -> Option<&'n str> {
    let mut found = known.iter().copied().filter(|name| fits(name));
    let first = found.next()?;
    found
        .all(|other| fold(other) == fold(first))
        .then_some(first)
}

/// True where the words of `name` stand in `text` one after the other.
fn holds(text: &str, name: &str) -> bool {
    let name = fold(name);
    !name.is_empty() && format!(" {} ", fold(text)).contains(&format!(" {name} "))
}

/// The first word of a supplier's name, where it is long enough and no other supplier's name begins with it.
fn distinctive_word(name: &str, known: &[&str]) -> Option<String> {
    let first = |name: &str| fold(name).split(' ').next().map(str::to_owned);
    let word = first(name)?;
    let is_distinct = known
        .iter()
        .filter(|other| fold(other) != fold(name))
        .all(|other| first(other).as_ref() != Some(&word));
    let is_name = word.chars().count() >= SHORTEST_WORD && !is_generic(&word);
    (is_name && is_distinct).then_some(word)
}

/// A name at the start of a title line: `Muster GmbH — price list`.
fn name_in(line: &str, shop: &str) -> Option<String> {
    let name = line
        .split(['—', '–', '|', ',', ';'])
        .next()
        .unwrap_or_default()
        .split(" - ")
        .next()
        .unwrap_or_default()
        .trim();
    let words = name.split_whitespace();
    let generic = words.clone().filter(|word| is_generic(word)).count();
    let is_name = (3..=LONGEST_NAME).contains(&name.chars().count())
        && !name.contains(|c: char| c.is_ascii_digit() || c == ':')
        && !words
            .clone()
            .any(|word| is_kind_word(word) && !names_a_firm(word))
        && generic * 2 < words.count()
        && !is_generic(name)
        && !holds(line, shop);
    is_name.then(|| name.to_owned())
}

/// True for words that firms call themselves by, though they begin like a kind of table: `Lagertechnik`.
fn names_a_firm(word: &str) -> bool {
    let word = fold(word);
    [
        "technik", "handel", "haus", "service", "kontor", "vertrieb", "center",
    ]
    .iter()
    .any(|end| word.ends_with(end))
}

/// True for names of sheets, files and lists that say nothing of whose they are: `Sheet1`, `Prices`, `O-ring`.
fn is_generic(name: &str) -> bool {
    let bare = name
        .trim()
        .trim_end_matches(|c: char| c.is_ascii_digit() || matches!(c, ' ' | '_' | '-' | '.'));
    let folded = fold(bare);
    folded.is_empty()
        || folded.split(' ').all(|word| {
            is_said_of_any_list(word)
                || is_kind_word(word) && !names_a_firm(word)
                || word.bytes().all(|byte| byte.is_ascii_digit())
        })
        || super::family_words::names_parts(bare)
        || Header::read(bare, false).is_some()
}

fn is_said_of_any_list(word: &str) -> bool {
    matches!(
        word,
        "sheet"
            | "tabelle"
            | "feuil"
            | "feuille"
            | "hoja"
            | "foglio"
            | "arkusz"
            | "planilha"
            | "blatt"
            | "data"
            | "daten"
            | "list"
            | "liste"
            | "lista"
            | "export"
            | "table"
            | "tabla"
            | "tabella"
            | "tarif"
            | "tarifs"
            | "tarifa"
            | "page"
            | "seite"
            | "bearings"
            | "bearing"
            | "lager"
            | "walzlager"
            | "roulements"
            | "rodamientos"
            | "cuscinetti"
            | "lozyska"
            | "seals"
            | "seal"
            | "dichtungen"
            | "joints"
            | "retenes"
            | "paraoli"
            | "paraolio"
            | "rings"
            | "ring"
            | "nuts"
            | "pins"
            | "nut"
            | "pin"
            | "and"
            | "und"
            | "et"
            | "y"
            | "e"
            | "i"
            | "spares"
            | "spare"
            | "ersatzteile"
            | "for"
            | "fur"
            | "customer"
            | "kunden"
            | "new"
            | "neu"
            | "current"
            | "aktuell"
            | "all"
            | "alle"
            | "o"
            | "our"
            | "your"
            | "restposten"
            | "rest"
            | "leftovers"
            | "report"
            | "xlsx"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    const KNOWN: [&str; 4] = [
        "Pfennigring Direkt",
        "Courroux Lamballais",
        "Mühlenbau Strattwieser",
        "Tarnwick Fallow Supply",
    ];

    fn found(lines: &[&str], file: &str, sheet: &str, known: &[&str]) -> String {
        let list = UnnamedList {
            table: 0,
            offers: 0..0,
            stated: None,
            lines: lines.iter().map(|line| (*line).to_owned()).collect(),
            file: file.to_owned(),
            sheet: sheet.to_owned(),
        };
        list.supplier(known, "Hollerbrook Oat Mill").0
    }

    #[test]
    fn known_suppliers_are_found_in_titles_file_and_sheet_names() {
        for (lines, file, sheet, expected) in [
            (
                &["TARNWICK FALLOW SUPPLY", "Quotation"][..],
                "q",
                "Quote",
                KNOWN[3],
            ),
            (
                &["Muehlenbau", "Angebot von Mühlenbau Strattwieser"],
                "a",
                "Angebot",
                KNOWN[2],
            ),
            (&[], "restposten_pfennigring", "", KNOWN[0]),
            (
                &["Prix hors taxes"],
                "prix_courroux_2026",
                "Tarif",
                KNOWN[1],
            ),
            (&[], "prices", "Courroux", KNOWN[1]),
        ] {
            assert_eq!(found(lines, file, sheet, &KNOWN), expected, "{file}");
        }
    }

    #[test]
    fn two_suppliers_that_fit_name_none() {
        let known = ["Nordlager Handel", "Nordlager Technik"];
        assert_eq!(found(&[], "nordlager_2026", "", &known), "nordlager_2026");
        assert_eq!(
            found(&["Nordlager Technik"], "x", "", &known),
            "Nordlager Technik"
        );
        assert_eq!(
            found(
                &["Courroux Lamballais to Pfennigring Direkt"],
                "z9 offer",
                "",
                &KNOWN
            ),
            "z9 offer"
        );
    }

    #[test]
    fn an_unknown_supplier_is_named_by_its_title_else_its_file() {
        for (lines, file, sheet, expected) in [
            (
                &["Ostrelby Bearing Counter — customer price list"][..],
                "p",
                "Bearings",
                "Ostrelby Bearing Counter",
            ),
            (&["Price list 2026"], "nordlager", "Prices", "nordlager"),
            (
                &["Prepared for Hollerbrook Oat Mill"],
                "guarn",
                "O-ring",
                "guarn",
            ),
            (&[], "angebot", "Nordlager", "Nordlager"),
            (&[], "angebot_7", "Sheet1", "angebot_7"),
        ] {
            assert_eq!(found(lines, file, sheet, &[]), expected, "{file}");
        }
    }

    #[test]
    fn generic_names_name_no_supplier() {
        for name in [
            "Sheet1",
            "Tabelle 2",
            "Prices",
            "2026",
            "Angebote",
            "Feuil1",
            "",
            "Bearings",
            "Angebot",
            "Tarif",
            "Quote",
            "O-ring",
            "Paraoli",
            "Rings nuts pins",
            "Preisliste 2026",
        ] {
            assert!(is_generic(name), "{name}");
        }
        for name in ["Nordlager", "Muster GmbH"] {
            assert!(!is_generic(name), "{name}");
        }
    }
}
