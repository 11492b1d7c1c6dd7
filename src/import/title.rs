//! Reads the lines above a header: whose list it is, of which day, in which units.

use chrono::NaiveDate;

use crate::record::DateOrder;
use crate::units::Currency;

use super::cell::Cell;
use super::family_words::names_parts;
use super::field::Field;
use super::fold::fold;
use super::grid::Grid;
use super::header::Header;
use super::stated::Stated;
use super::value::{is_placeholder, leaves_year_open, read_date};

/// What the lines above a table say about all of its rows.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Title {
    /// Supplier of the whole list.
    pub supplier: Option<String>,
    /// Date of the whole list.
    pub dated: Option<NaiveDate>,
    /// A date whose year may stand at either end; none is read from it.
    pub open_date: Option<String>,
    /// Kit of the whole list.
    pub kit: Option<String>,
    /// Machine of the whole list.
    pub machine: Option<String>,
    /// Units and conditions for the whole list.
    pub states: Stated,
    /// Texts of the lines, in order, each once.
    pub lines: Vec<String>,
}

/// Longest text beside a table that is read, bytes.
pub(super) const LONGEST_LINE: usize = 300;
/// Most texts above a table that are kept.
const MOST_LINES: usize = 16;

/// Words for the prices of a list, folded.
const PRICES: [&str; 23] = [
    "bruttopreise",
    "prices",
    "price",
    "preise",
    "preis",
    "preisen",
    "einzelpreise",
    "stuckpreise",
    "preisliste",
    "preisangaben",
    "prix",
    "tarif",
    "tarifs",
    "precios",
    "precio",
    "prezzi",
    "prezzo",
    "ceny",
    "cena",
    "cen",
    "precos",
    "preco",
    "pricing",
];
/// Words for the amounts of a list, folded.
const AMOUNTS: [&str; 9] = [
    "amounts", "betrage", "angaben", "montants", "importes", "importi", "kwoty", "valores",
    "quotes",
];
/// Words for what is one amount beside the prices, folded.
const SUMS: [&str; 16] = [
    "total",
    "totals",
    "sum",
    "summe",
    "gesamt",
    "gesamtbetrag",
    "gesamtsumme",
    "rechnungsbetrag",
    "endbetrag",
    "freight",
    "shipping",
    "fracht",
    "versand",
    "versandkosten",
    "totale",
    "razem",
];
/// Words of a line that says nothing but that tax is in, at most.
const MOST_WORDS_OF_TAX: usize = 6;

/// Reads the rows from `from` up to, but without, `until`.
pub fn read_title(grid: &Grid, from: u32, until: u32, order: DateOrder) -> Title {
    let mut title = Title::default();
    for row in from..until {
        let width = grid.width(row).min(32);
        for column in 0..width {
            let Cell::Text(text) = grid.cell(row, column) else {
                continue;
            };
            // A merged title fills every cell it covers.
            let is_again = column > 0 && grid.cell(row, column - 1) == Cell::Text(text);
            if text.len() > LONGEST_LINE || is_again {
                continue;
            }
            if title.lines.len() < MOST_LINES {
                title.lines.push(text.to_owned());
            }
            title.take(text, next_filled(grid, row, column + 1, width), order);
        }
    }
    title
}

fn next_filled(grid: &Grid, row: u32, from: u32, width: u32) -> Cell<'_> {
    (from..width)
        .map(|column| grid.cell(row, column))
        .find(|cell| *cell != Cell::Empty)
        .unwrap_or(Cell::Empty)
}

impl Title {
    fn take(&mut self, text: &str, beside: Cell<'_>, order: DateOrder) {
        let (key, value) = match text.split_once(':') {
            Some((key, value)) if !value.trim().is_empty() => (key, Cell::Text(value.trim())),
            Some((key, _)) => (key, beside),
            None => (text, beside),
        };
        match Header::read(key, false).map(|header| header.field) {
            Some(Field::Supplier) => set(&mut self.supplier, value),
            Some(Field::Kit) => set(&mut self.kit, value),
            Some(Field::Machine) => set(&mut self.machine, value),
            Some(Field::Date | Field::CountedOn | Field::QuoteDate) => self.date(value, order),
            _ => self.take_sentence(text, order),
        }
    }

    /// `Stand 03.03.2026`, `Angebot Muster GmbH`, `all dimensions in inch`, `Alle Preise in EUR je 100`.
    fn take_sentence(&mut self, text: &str, order: DateOrder) {
        let folded = fold(text);
        let first = folded.split(' ').next().unwrap_or_default();
        self.dated = self.dated.or_else(|| date_within(text, order));
        let open = text
            .split_whitespace()
            .find(|word| leaves_year_open(word, Some(order)));
        if self.dated.is_none() && self.open_date.is_none() {
            self.open_date = open.map(str::to_owned);
        }
        let rest = text
            .split_once(char::is_whitespace)
            .map(|(_, rest)| rest.trim());
        if matches!(
            first,
            "angebot" | "offer" | "quotation" | "offerta" | "oferta" | "devis" | "offre"
        ) && let Some(rest) = rest.filter(|rest| !rest.contains(|c: char| c.is_ascii_digit()))
        {
            let name = ["von ", "from ", "by ", "de ", "di ", "od "]
                .iter()
                .find_map(|word| rest.strip_prefix(word))
                .unwrap_or(rest);
            if may_be_a_firm(name) {
                set(&mut self.supplier, Cell::Text(name));
            }
        }
        let has = |words: &[&str]| {
            words
                .iter()
                .any(|word| folded.split(' ').any(|w| w == *word))
        };
        let states = Stated::read(text);
        if has(&[
            "dimensions",
            "dimension",
            "masse",
            "abmessungen",
            "cotes",
            "medidas",
            "dimensioni",
            "misure",
            "wymiary",
            "sizes",
            "lengths",
        ]) {
            self.states.length = self.states.length.or(states.length);
        }
        if has(&PRICES) {
            self.states.currency = self.states.currency.or(states.currency);
            self.states.per = self.states.per.or(states.per);
        }
        self.take_tax(text);
        self.states.currency = self.states.currency.or_else(|| named_currency(&folded));
    }

    /// What a line above or below a table says of tax in its prices.
    ///
    /// `inkl. 19 % MwSt.` by itself is about the prices too; beside a sum it is about that.
    pub(super) fn take_tax(&mut self, text: &str) {
        let folded = fold(text);
        let has = |words: &[&str]| folded.split(' ').any(|word| words.contains(&word));
        let is_short = folded.split(' ').count() <= MOST_WORDS_OF_TAX;
        if !has(&PRICES) && !((is_short || has(&AMOUNTS)) && !has(&SUMS)) {
            return;
        }
        let mut states = Stated::read(text);
        // `Bruttogewicht` and firms of such a name are no prices.
        states.is_gross &= has(&PRICES);
        self.states.add_tax(states);
    }

    fn date(&mut self, value: Cell<'_>, order: DateOrder) {
        let found = match value {
            Cell::Date(moment) => Some(moment.date()),
            Cell::Text(text) if leaves_year_open(text, Some(order)) => {
                self.open_date.get_or_insert_with(|| text.to_owned());
                None
            }
            Cell::Text(text) => read_date(text, Some(order)).ok(),
            _ => None,
        };
        self.dated = self.dated.or(found);
    }
}

fn set(slot: &mut Option<String>, value: Cell<'_>) {
    let text = value.to_text();
    if slot.is_none() && !text.is_empty() && text.len() < 120 && !is_placeholder(&text) {
        *slot = Some(text);
    }
}

/// True for what may be the name of a firm behind `Angebot`: no `Offre de prix`, `Angebot freibleibend`, `Offer bearings`.
fn may_be_a_firm(name: &str) -> bool {
    let says_terms = fold(name).split(' ').any(|word| {
        matches!(
            word,
            "price"
                | "prices"
                | "preis"
                | "preise"
                | "prix"
                | "precio"
                | "precios"
                | "prezzo"
                | "prezzi"
                | "cena"
                | "ceny"
                | "cenowa"
                | "preco"
                | "precos"
                | "valid"
                | "gultig"
                | "valable"
                | "valida"
                | "freibleibend"
                | "confirmation"
                | "request"
                | "anfrage"
                | "demande"
                | "terms"
                | "no"
        )
    });
    name.starts_with(|c: char| c.is_uppercase()) && !says_terms && !names_parts(name)
}

/// The first date among the words of a text, unless a word before it makes it an end: `valid until 30.06.2026`.
fn date_within(text: &str, order: DateOrder) -> Option<NaiveDate> {
    let words: Vec<&str> = text
        .split_whitespace()
        .map(|word| word.trim_matches(['(', ')', ',', ';', ':', '[', ']', '—', '–']))
        .filter(|word| !word.is_empty())
        .collect();
    (0..words.len()).find_map(|at| {
        let is_end = at > 0
            && matches!(
                fold(words[at - 1]).as_str(),
                "until"
                    | "to"
                    | "till"
                    | "through"
                    | "bis"
                    | "zum"
                    | "jusqu au"
                    | "au"
                    | "hasta"
                    | "al"
                    | "a"
                    | "do"
                    | "ate"
                    | "expires"
                    | "due"
            );
        if is_end || !words[at].contains(|c: char| c.is_ascii_digit()) {
            // `March 9, 2026` begins with its month.
            let is_word = words[at].chars().all(|c| c.is_alphabetic() || c == '.');
            if is_end || !is_word {
                return None;
            }
        }
        (1..=5.min(words.len() - at)).rev().find_map(|count| {
            let part = words[at..at + count].join(" ");
            let is_whole =
                part.contains(['.', '-', '/', ' ']) && part.contains(|c: char| c.is_ascii_digit());
            is_whole
                .then(|| read_date(&part, Some(order)).ok())
                .flatten()
                .filter(|_| !leaves_year_open(&part, Some(order)))
        })
    })
}

/// A currency named in words.
fn named_currency(folded: &str) -> Option<Currency> {
    let code = [
        ("us dollar", "USD"),
        ("us dollars", "USD"),
        ("pounds sterling", "GBP"),
        ("swiss francs", "CHF"),
        ("schweizer franken", "CHF"),
        ("in euro", "EUR"),
        ("in euros", "EUR"),
        ("en euros", "EUR"),
    ]
    .iter()
    .find(|(words, _)| {
        let padded = format!(" {folded} ");
        padded.contains(&format!(" {words} "))
    })?;
    Currency::new(code.1).ok()
}

/// A date in a file or sheet name: `stock_2026-03-02.xlsx`, `Preise 20260302`.
pub fn date_in_name(name: &str) -> Option<NaiveDate> {
    let bytes = name.as_bytes();
    let is_digits = |at: usize, count: usize| {
        bytes
            .get(at..at + count)
            .is_some_and(|part| part.iter().all(u8::is_ascii_digit))
    };
    (0..bytes.len()).find_map(|at| {
        let is_start = at == 0 || !bytes[at - 1].is_ascii_digit();
        if !is_start || !is_digits(at, 4) {
            return None;
        }
        let sign = *bytes.get(at + 4)?;
        let (text, end) = if is_digits(at, 8) {
            (name.get(at..at + 8)?.to_owned(), at + 8)
        } else if matches!(sign, b'-' | b'_' | b'.')
            && is_digits(at + 5, 2)
            && bytes.get(at + 7) == Some(&sign)
            && is_digits(at + 8, 2)
        {
            (name.get(at..at + 10)?.replace(['_', '.'], "-"), at + 10)
        } else {
            return None;
        };
        let ends = bytes.get(end).is_none_or(|byte| !byte.is_ascii_digit());
        ends.then(|| read_date(&text, None).ok()).flatten()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::grid::GridBuilder;
    use crate::units::LengthUnit;

    fn title(rows: &[&[&str]]) -> Title {
        let mut builder = GridBuilder::new(&"a".into(), "");
        for (row, cells) in rows.iter().enumerate() {
            for (column, text) in cells.iter().enumerate() {
                builder
                    .push(row as u32, column as u32, Cell::Text(text))
                    .unwrap();
            }
        }
        read_title(
            &builder.finish().unwrap(),
            0,
            rows.len() as u32,
            DateOrder::Dmy,
        )
    }

    #[test]
    fn reads_supplier_date_and_units_from_lines_above_the_table() {
        let found = title(&[
            &["Lieferant: Nordlager Handel", "", "Datum:", "03.03.2026"],
            &["all dimensions in inch"],
            &["Alle Preise in EUR je 100 Stk, inkl. MwSt"],
        ]);
        assert_eq!(found.supplier.as_deref(), Some("Nordlager Handel"));
        assert_eq!(
            found.dated.map(|d| d.to_string()).as_deref(),
            Some("2026-03-03")
        );
        assert_eq!(found.states.length, Some(LengthUnit::Inch));
        assert_eq!(found.states.per, Some(100));
        assert!(found.states.is_with_tax);
        assert_eq!(
            title(&[&["Stand 03.03.2026"]])
                .dated
                .map(|d| d.to_string())
                .as_deref(),
            Some("2026-03-03")
        );
        assert_eq!(title(&[&["Angebot 4711"]]).supplier, None);
        assert_eq!(
            title(&[&["Angebot von Nordlager Handel"]])
                .supplier
                .as_deref(),
            Some("Nordlager Handel")
        );
    }

    #[test]
    fn a_line_says_that_prices_hold_tax_unless_it_is_about_a_sum() {
        for (text, is_in) in [
            ("Alle Preise inkl. 19 % MwSt.", true),
            ("Preise inklusive MwSt.", true),
            ("All prices include VAT", true),
            ("Tous nos prix TTC", true),
            ("Precios IVA incluido", true),
            ("Prezzi IVA inclusa", true),
            ("Ceny z VAT", true),
            ("Preços com IVA", true),
            ("inkl. 19 % MwSt.", true),
            ("All amounts are quoted in EUR and include VAT", true),
            ("Gesamtsumme inkl. MwSt.", false),
            ("Versandkosten 10 EUR inkl. MwSt.", false),
            ("Alle Preise netto zzgl. 19 % MwSt.", false),
        ] {
            let states = title(&[&[text]]).states;
            assert_eq!(states.is_with_tax, is_in, "{text}");
            assert_eq!(
                states.tax_share.is_some(),
                is_in && text.contains("19 %"),
                "{text}"
            );
        }
    }

    #[test]
    fn dates_are_found_anywhere_in_a_title_but_ends_are_not_taken() {
        for (text, date) in [
            (
                "Prepared for the mill, 16 February 2026. Prices net.",
                "2026-02-16",
            ),
            ("Quotation — 20 Feb 2026 — US dollars, net 30", "2026-02-20"),
            ("Preisliste 2026, gültig ab 01.01.2026; netto", "2026-01-01"),
            ("Angebot Nr. 26-0188 vom 12.01.2026 für uns", "2026-01-12"),
            ("Tarif du 12 janvier 2026", "2026-01-12"),
            ("Listino del 5 marzo 2026", "2026-03-05"),
            ("Printed March 9, 2026", "2026-03-09"),
        ] {
            let found = title(&[&[text]]).dated.map(|date| date.to_string());
            assert_eq!(found.as_deref(), Some(date), "{text}");
        }
        for text in [
            "valid until 30.06.2026",
            "Printed from stores file, March 2026",
            "Price list 2026",
            "Angebot 26-0188",
        ] {
            assert_eq!(title(&[&[text]]).dated, None, "{text}");
        }
        let found = title(&[&["Quotation — US dollars, net 30"]]);
        assert_eq!(
            found
                .states
                .currency
                .map(|c| c.code().to_owned())
                .as_deref(),
            Some("USD")
        );
    }

    #[test]
    fn reads_dates_in_file_names() {
        for (name, date) in [
            ("stock_2026-03-02.xlsx", Some("2026-03-02")),
            ("Preise 20260302", Some("2026-03-02")),
            ("2026_03_02 bins", Some("2026-03-02")),
            ("part 123456789", None),
            ("v20269902", None),
            ("é20260302é", Some("2026-03-02")),
        ] {
            assert_eq!(
                date_in_name(name).map(|d| d.to_string()).as_deref(),
                date,
                "{name}"
            );
        }
    }
}
