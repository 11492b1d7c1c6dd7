//! What lines above or below a list say of all of its offers besides units and tax: lead time, discount, charges.
//!
//! What is certain is taken. Every other line with something in it is kept, so that it is told as not read.

use crate::record::{LeadUnit, TableKind};

use super::field::Field;
use super::fold::fold;
use super::header::Header;
use super::holds_for::{Span, span_within};
use super::table::Table;
use super::value::{read_lead_time, read_number};

/// A line beside a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BesideLine {
    /// Row, from 0.
    pub row: u32,
    /// Column of its first text, from 0.
    pub column: u32,
    /// Its texts.
    pub text: String,
}

/// Terms of all offers of a list.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Terms {
    /// Lead time as printed, of offers without one of their own.
    pub lead_time: Option<String>,
    /// Discount on its list prices.
    pub discount_share: Option<f64>,
    /// The line that says for how long the offers hold, without the day from which on.
    holds_for: Option<(BesideLine, Span)>,
    /// The line that says the discount.
    discount_line: Option<BesideLine>,
    /// Lines with a price or a time that is not planned with.
    pub charges: Vec<BesideLine>,
    /// Other lines that were not read.
    pub unread: Vec<BesideLine>,
}

/// Most lines of one table that are told one by one.
pub const MOST_TOLD: usize = 8;
/// Most words before a lead time that name it: `temps de livraison`.
const MOST_WORDS_OF_NAME: usize = 4;
/// Words of a line that says something even without a figure. Common practice, no source.
const WORDS_OF_A_SENTENCE: usize = 5;
/// Words of a line that says something with a figure; fewer are a heading such as `Preisliste 2026`. Common practice, no source.
const WORDS_WITH_FIGURE: usize = 3;

/// Beginnings of words for what changes what an order costs or when it comes besides [`WITHOUT_PLACE`] and [`WITH_PLACE`], folded.
const OTHER_CHARGES: [&str; 12] = [
    "mindest",
    "verpackung",
    "packaging",
    "packing",
    "rebate",
    "remise",
    "descuento",
    "sconto",
    "desconto",
    "delivery",
    "bearbeitungs",
    "handling",
];
/// Ends of such words.
const ENDS_OF_CHARGES: [&str; 6] = [
    "zuschlag",
    "zuschlage",
    "aufschlag",
    "bestellwert",
    "auftragswert",
    "pauschale",
];
/// Beginnings of words for a least value of orders or a surcharge, for which no table has a column, folded.
const WITHOUT_PLACE: [&str; 9] = [
    "mindestbestell",
    "mindestauftrag",
    "mindestmenge",
    "mindermenge",
    "minimum",
    "surcharge",
    "legierung",
    "energiekosten",
    "maut",
];
/// Beginnings of words for what a column of freight, discounts or lead times takes, folded.
const WITH_PLACE: [&str; 11] = [
    "fracht",
    "freight",
    "shipping",
    "carriage",
    "postage",
    "versand",
    "porto",
    "rabatt",
    "discount",
    "lieferzeit",
    "lead",
];
/// Words beside a discount that leave it one on all prices of the list, folded.
const BESIDE_A_DISCOUNT: [&str; 16] = [
    "rabatt",
    "grundrabatt",
    "discount",
    "remise",
    "auf",
    "alle",
    "die",
    "der",
    "preise",
    "listenpreise",
    "on",
    "all",
    "list",
    "prices",
    "of",
    "%",
];

impl BesideLine {
    /// True for a least value of orders or a surcharge, and nothing that a column takes.
    pub fn is_without_place(&self) -> bool {
        let folded = fold(&self.text);
        // A lump sum, too, is added to an order.
        (has_word_of(&folded, &WITHOUT_PLACE) || has_end_of_charges(&folded))
            && !has_word_of(&folded, &WITH_PLACE)
    }
}

impl Terms {
    /// Terms that hold already.
    pub fn of_list(lead_time: Option<String>, discount_share: Option<f64>) -> Self {
        Self {
            lead_time,
            discount_share,
            ..Self::default()
        }
    }

    /// Takes a line for its lead time, its discount or the time for which it holds; true where it says one of them.
    pub fn take(&mut self, line: &BesideLine) -> bool {
        if let Some(found) = lead_time_in(&line.text) {
            self.lead_time.get_or_insert(found);
            return true;
        }
        if let Some(span) = span_within(&line.text) {
            self.holds_for.get_or_insert_with(|| (line.clone(), span));
            return true;
        }
        let Some(share) = discount_in(&line.text) else {
            return false;
        };
        if self.discount_share.is_none() {
            self.discount_share = Some(share);
            self.discount_line = Some(line.clone());
        }
        true
    }

    /// Keeps a line that is not wholly read, where it says anything.
    pub fn keep(&mut self, line: &BesideLine, is_used: bool) {
        let folded = fold(&line.text);
        let words = folded.split(' ').filter(|word| !word.is_empty()).count();
        let has_figure = line.text.contains(|c: char| c.is_ascii_digit());
        if has_figure && is_of_charges(&folded) {
            self.charges.push(line.clone());
        } else if !is_used
            && (words >= WORDS_OF_A_SENTENCE || has_figure && words >= WORDS_WITH_FIGURE)
        {
            self.unread.push(line.clone());
        }
    }
}

/// Settles which terms hold once the columns of a table are known, and says so.
pub fn settle_terms(table: &mut Table) {
    let has = |field: Field| (table.columns.iter()).any(|column| column.header.field == field);
    let is_of_offers = table.kind == TableKind::Offers;
    if !is_of_offers && !table.read_beside.is_empty() {
        // The reading of the offers of the same rows tells them.
        table.title.terms = Terms::default();
        return;
    }
    // A price that is none of a list may be net already.
    let is_less = is_of_offers
        && has(Field::ListPrice)
        && ![Field::Price, Field::PriceFrom, Field::Discount]
            .into_iter()
            .any(has);
    let title = &mut table.title;
    let terms = &mut title.terms;
    if let Some((line, span)) = terms.holds_for.take()
        && title.valid_until.is_none()
    {
        title.valid_until = (title.dated.filter(|_| is_of_offers)).and_then(|day| span.from(day));
        if title.valid_until.is_none() {
            terms.unread.push(line);
            terms.unread.sort_by_key(|line| (line.row, line.column));
        }
    }
    let line = terms.discount_line.take();
    if !is_less {
        terms.discount_share = None;
        terms.charges.extend(line);
        terms.charges.sort_by_key(|line| (line.row, line.column));
    }
    if !is_of_offers {
        terms.lead_time = None;
        let lines = std::mem::take(&mut terms.charges);
        terms.unread.extend(lines);
        terms.unread.sort_by_key(|line| (line.row, line.column));
    }
    if let Some(share) = terms.discount_share {
        table.why.push(format!(
            "list prices are less {} %, as a line beside the table says",
            (share * 10_000.0).round() / 100.0
        ));
    }
    if let Some(lead_time) = &terms.lead_time {
        table.why.push(format!(
            "offers without a lead time have that of a line beside the table: `{lead_time}`"
        ));
    }
    let more = terms.unread.len().saturating_sub(MOST_TOLD);
    for line in terms.unread.iter().take(MOST_TOLD) {
        let cell = format!(
            "{}{}",
            crate::place::column_letters(line.column),
            line.row + 1
        );
        table
            .why
            .push(format!("not read: line `{}` in {cell}", line.text));
    }
    if more > 0 {
        table
            .why
            .push(format!("not read: {more} more lines beside the table"));
    }
}

fn is_of_charges(folded: &str) -> bool {
    has_word_of(folded, &WITHOUT_PLACE)
        || has_word_of(folded, &WITH_PLACE)
        || has_word_of(folded, &OTHER_CHARGES)
        || has_end_of_charges(folded)
}

/// True where a word begins with one of these.
fn has_word_of(folded: &str, begins: &[&str]) -> bool {
    let mut words = folded.split(' ');
    words.any(|word| begins.iter().any(|begin| word.starts_with(begin)))
}

fn has_end_of_charges(folded: &str) -> bool {
    let mut words = folded.split(' ');
    words.any(|word| ENDS_OF_CHARGES.iter().any(|end| word.ends_with(end)))
}

/// `Lieferzeit 6 Wochen`, `Delivery time: 3 days`: the time behind its name, where nothing else is said.
fn lead_time_in(text: &str) -> Option<String> {
    let words: Vec<&str> = text
        .split(|c: char| c.is_whitespace() || c == ':')
        .filter(|word| !word.is_empty())
        .collect();
    (1..=MOST_WORDS_OF_NAME.min(words.len().saturating_sub(1))).find_map(|count| {
        let name = words[..count].join(" ");
        let header = Header::read(&name, false)?;
        let rest = words[count..].join(" ");
        let is_time =
            header.field == Field::LeadTime && rest.contains(|c: char| c.is_ascii_digit());
        // Whether a day is a working day is for the settings to say.
        let reads = || read_lead_time(&rest, None, LeadUnit::Workdays, None).is_ok();
        (is_time && reads()).then_some(rest)
    })
}

/// `Rabatt 20 %`, `20 % discount on all prices`: the share, where no other word makes it depend on something.
fn discount_in(text: &str) -> Option<f64> {
    let lower = text.to_lowercase().replace('%', " % ");
    let words: Vec<&str> = lower
        .split_whitespace()
        .map(|word| word.trim_matches([':', '.', ',', '!']))
        .filter(|word| !word.is_empty())
        .collect();
    let (figures, rest): (Vec<&str>, Vec<&str>) = words
        .iter()
        .partition(|word| word.starts_with(|c: char| c.is_ascii_digit()));
    let [figure] = figures[..] else {
        return None;
    };
    let is_named = rest
        .iter()
        .any(|word| matches!(*word, "rabatt" | "grundrabatt" | "discount" | "remise"));
    let is_plain = rest.contains(&"%") && rest.iter().all(|word| BESIDE_A_DISCOUNT.contains(word));
    let percent = read_number(figure, None).ok()?;
    (is_named && is_plain && percent > 0.0 && percent < 100.0).then_some(percent / 100.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_minimum_order_is_no_freight_and_no_lead_time() {
        // Wordings are common practice, no source.
        for (text, is_one) in [
            ("Mindestbestellwert 150 EUR", true),
            ("Minimum order value 150 EUR", true),
            ("Mindermengenzuschlag 15 EUR unter 100 EUR", true),
            ("Alle Preise zzgl. 3 % Legierungszuschlag", true),
            ("Fracht 9,50 EUR je Sendung", false),
            ("Versandkostenpauschale 9,50 EUR", false),
            ("Rabatt 20 % auf alle Preise", false),
            ("Lieferzeit Sonderteile 12 Wochen", false),
        ] {
            let line = BesideLine {
                row: 0,
                column: 0,
                text: text.to_owned(),
            };
            assert_eq!(line.is_without_place(), is_one, "{text}");
        }
    }

    #[test]
    fn a_lead_time_or_a_discount_is_taken_where_nothing_else_is_said() {
        // Wordings are common practice, no source.
        for (text, lead_time, percent) in [
            ("Lieferzeit 6 Wochen", Some("6 Wochen"), None),
            ("Lieferzeit: 6 Wochen", Some("6 Wochen"), None),
            ("Lead time 3 weeks", Some("3 weeks"), None),
            ("Lieferzeit auf Anfrage", None, None),
            ("Rabatt 20 %", None, Some(20)),
            ("20% Rabatt auf alle Listenpreise", None, Some(20)),
            ("15 % discount on all prices", None, Some(15)),
            ("Rabatt 20 % ab 500 EUR", None, None),
            ("Rabatt auf Anfrage", None, None),
            ("Skonto 2 %", None, None),
        ] {
            assert_eq!(lead_time_in(text).as_deref(), lead_time, "{text}");
            let found = discount_in(text).map(|share| (share * 100.0).round() as i32);
            assert_eq!(found, percent, "{text}");
        }
    }
}
