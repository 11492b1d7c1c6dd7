//! Reads the lines above a header: whose list it is, of which day, in which units.

use chrono::NaiveDate;

use crate::record::DateOrder;
use crate::units::Currency;

use super::cell::Cell;
use super::dates_in_lines::{date_within, end_within, extends, names_another_end};
use super::family_words::names_parts;
use super::field::Field;
use super::fold::fold;
use super::grid::Grid;
use super::header::Header;
use super::stated::Stated;
use super::terms::{BesideLine, Terms};
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
    /// Last day on which its offers hold.
    pub valid_until: Option<NaiveDate>,
    /// Units and conditions for the whole list.
    pub states: Stated,
    /// What else they say of all offers.
    pub terms: Terms,
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
        // The first line is the list's name.
        let is_name = title.lines.is_empty();
        let mut whole = LineOfRow::default();
        let mut is_end = false;
        for column in 0..width {
            let Cell::Text(text) = grid.cell(row, column) else {
                whole.add_value(grid.cell(row, column));
                continue;
            };
            // The date behind `Valid until` is no date of the list.
            if std::mem::take(&mut is_end) {
                continue;
            }
            // A merged title fills every cell it covers.
            let is_again = column > 0 && grid.cell(row, column - 1) == Cell::Text(text);
            if text.len() > LONGEST_LINE || is_again {
                continue;
            }
            if title.lines.len() < MOST_LINES {
                title.lines.push(text.to_owned());
            }
            let beside = next_filled(grid, row, column + 1, width);
            title.take(text, beside, order);
            is_end = matches!(beside, Cell::Text(_)) && names_an_end(text);
            whole.add(column, text, beside, order);
        }
        if let Some(line) = whole.line(row) {
            let says_more = names_another_end(&line.text, order);
            title.take_line(&line, (whole.is_used || is_name) && !says_more);
        }
    }
    title
}

/// The texts of one row above a table.
#[derive(Default)]
struct LineOfRow {
    column: u32,
    text: String,
    /// True where one of them says something by itself.
    is_used: bool,
}

impl LineOfRow {
    fn add(&mut self, column: u32, text: &str, beside: Cell<'_>, order: DateOrder) {
        if self.text.is_empty() {
            self.column = column;
        } else {
            self.text.push(' ');
        }
        self.text.push_str(text);
        let mut alone = Title::default();
        alone.take(text, beside, order);
        self.is_used |= alone != Title::default();
    }

    /// A figure or a date behind a text: `Mindestbestellwert | 150`.
    fn add_value(&mut self, cell: Cell<'_>) {
        if cell != Cell::Empty && !self.text.is_empty() {
            self.text.push(' ');
            self.text.push_str(&cell.to_text());
        }
    }

    fn line(&self, row: u32) -> Option<BesideLine> {
        (!self.text.is_empty()).then(|| BesideLine {
            row,
            column: self.column,
            text: self.text.clone(),
        })
    }
}

/// True for a cell that says only that the next one is the end of something.
fn names_an_end(text: &str) -> bool {
    let header = Header::read(text.trim_end_matches(':').trim_end(), false);
    header.is_some_and(|header| header.field == Field::ValidUntil)
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
            Some(Field::ValidUntil) => {
                let stated = self.date_of(value, order);
                self.valid_until = self.valid_until.or(stated);
            }
            _ => self.take_sentence(text, order),
        }
    }

    /// `Stand 03.03.2026`, `Angebot Muster GmbH`, `all dimensions in inch`, `Alle Preise in EUR je 100`.
    fn take_sentence(&mut self, text: &str, order: DateOrder) {
        let folded = fold(text);
        let first = folded.split(' ').next().unwrap_or_default();
        self.take_validity(text, order);
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

    /// The terms that a line above or below a table says; it is kept where nothing was made of it.
    pub(super) fn take_line(&mut self, line: &BesideLine, is_used: bool) {
        if !self.terms.take(line) {
            self.terms.keep(line, is_used);
        }
    }

    /// Until when a line above or below a table says that its offers hold.
    pub(super) fn take_validity(&mut self, text: &str, order: DateOrder) {
        let end = end_within(text, order);
        if self.valid_until.is_none() || end > self.valid_until && extends(text, order) {
            self.valid_until = end;
        }
    }

    fn date(&mut self, value: Cell<'_>, order: DateOrder) {
        let found = self.date_of(value, order);
        self.dated = self.dated.or(found);
    }

    /// The date in a cell; one whose year may stand at either end is kept as open.
    fn date_of(&mut self, value: Cell<'_>, order: DateOrder) -> Option<NaiveDate> {
        match value {
            Cell::Date(moment) => Some(moment.date()),
            Cell::Text(text) if leaves_year_open(text, Some(order)) => {
                self.open_date.get_or_insert_with(|| text.to_owned());
                None
            }
            Cell::Text(text) => read_date(text, Some(order)).ok(),
            _ => None,
        }
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
}
