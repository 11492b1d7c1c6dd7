//! Reads one header cell: the field it names, and the unit, currency or quantity it states beside it.

use super::field::Field;
use super::fold::{fold, join_umlauts};
use super::owner::Owner;
use super::stated::Stated;
use super::synonyms::Synonyms;
use super::tax_words::split_tax;

/// How a header was understood.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum How {
    /// A known word.
    Known,
    /// A symbol of the standards, with its case (`d`, `D`).
    Symbol,
    /// Spelt nearly like a known word.
    Close {
        /// The known word.
        word: String,
    },
    /// By the values of its rows.
    Values {
        /// Rows that fit.
        fitting: usize,
        /// Rows looked at.
        rows: usize,
    },
    /// By a mapping that people gave.
    Given,
}

impl std::fmt::Display for How {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Known => f.write_str("known word"),
            Self::Symbol => f.write_str("symbol of the standards"),
            Self::Close { word } => write!(f, "spelt nearly like `{word}`"),
            Self::Values { fitting, rows } => write!(f, "by its values: {fitting} of {rows} fit"),
            Self::Given => f.write_str("given mapping"),
        }
    }
}

/// What one header cell says.
#[derive(Debug, Clone, PartialEq)]
pub struct Header {
    /// Field.
    pub field: Field,
    /// How it was understood.
    pub how: How,
    /// What it states besides.
    pub states: Stated,
}

impl Header {
    /// Reads a header; `None` where no field is named. Misspellings are tried only with `may_be_close`.
    pub fn read(text: &str, may_be_close: bool) -> Option<Self> {
        let table = Synonyms::shipped();
        let text = text.trim();
        if text.is_empty() || text.len() > 120 {
            return None;
        }
        let (body, bracketed) = split_brackets(text);
        let mut states = Stated::read(&bracketed);
        // `Preis inkl. 19 % MwSt.` is a price, whatever it says of tax.
        let body = match split_tax(&body) {
            Some((rest, tax)) => {
                states.add(Stated::read(&tax));
                rest
            }
            None => body,
        };
        if let Some(field) = table.symbol(text).or_else(|| table.symbol(body.trim())) {
            return Some(Self {
                field,
                how: How::Symbol,
                states,
            });
        }
        if let Some(break_header) = price_break(&body, states) {
            return Some(break_header);
        }
        let folded = fold(&body);
        if let Some(field) = lookup(table, &folded) {
            states.add(Stated::read(&body.to_lowercase()));
            return Some(Self {
                field,
                how: How::Known,
                states,
            });
        }
        // `d` and `h` behind words of lengths are no days and hours.
        if let Some((field, how)) = with_symbol(table, &body).filter(|(field, _)| field.is_length())
        {
            return Some(Self { field, how, states });
        }
        // `Preis €/100`, `bore mm`, `prix unitaire TTC`: the unit stands behind without brackets.
        let (bare, behind) = split_unit_words(&body);
        if !behind.is_empty() {
            states.add(Stated::read(&behind));
            let field = table.symbol(bare.trim()).map(|field| (field, How::Symbol));
            if let Some((field, how)) =
                field.or_else(|| lookup(table, &fold(&bare)).map(|field| (field, How::Known)))
            {
                return Some(Self { field, how, states });
            }
        }
        if let Some((field, how)) = with_symbol(table, &bare).or_else(|| of_owner(table, &bare)) {
            return Some(Self { field, how, states });
        }
        if !may_be_close {
            return None;
        }
        let (field, word) = table.close(&folded).or_else(|| table.close(&fold(&bare)))?;
        Some(Self {
            field,
            how: How::Close {
                word: word.to_owned(),
            },
            states,
        })
    }
}

fn lookup(table: &Synonyms, folded: &str) -> Option<Field> {
    table
        .word(folded)
        .or_else(|| join_umlauts(folded).and_then(|joined| table.word(&joined)))
        // A diameter sign before a word: `Ø albero`.
        .or_else(|| folded.strip_prefix("o ").and_then(|rest| table.word(rest)))
}

/// Words with the symbol of the standards behind them: `Bore d`, `Altezza b`, `Raceway Fw`.
///
/// Words say more than a symbol, except where they are a bare width or diameter: `Width T` is what `T` says.
fn with_symbol(table: &Synonyms, text: &str) -> Option<(Field, How)> {
    let (words, symbol) = text.trim().rsplit_once(char::is_whitespace)?;
    let of_symbol = table.symbol(symbol)?;
    let folded = fold(words);
    let is_bare = matches!(
        folded.as_str(),
        "diameter" | "dia" | "durchmesser" | "diametre" | "diametro" | "srednica" | "o"
    );
    match lookup(table, &folded) {
        Some(Field::Width) => Some((of_symbol, How::Symbol)),
        Some(_) if is_bare => Some((of_symbol, How::Symbol)),
        Some(field) => Some((field, How::Known)),
        // One letter or a letter with a digit behind unknown words may be anything.
        None if symbol.len() > 1 && symbol.chars().all(char::is_alphabetic) => {
            Some((of_symbol, How::Symbol))
        }
        None => None,
    }
}

/// `Your item no.`, `Unsere Teilenr.`: a number with its owner in front.
fn of_owner(table: &Synonyms, text: &str) -> Option<(Field, How)> {
    let folded = fold(text);
    let (owner, rest) = folded.split_once(' ')?;
    Owner::of_word(owner)?;
    matches!(
        lookup(table, rest)?,
        Field::PartNumber | Field::OwnNumber | Field::SupplierNumber
    )
    .then_some((Field::OwnNumber, How::Known))
}

/// Takes bracketed text out: `Bore (mm)` gives `Bore ` and `mm `.
fn split_brackets(text: &str) -> (String, String) {
    let (mut body, mut inside) = (String::new(), String::new());
    let mut depth = 0_u32;
    for c in text.chars() {
        match c {
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' => {
                depth = depth.saturating_sub(1);
                inside.push(' ');
            }
            c if depth > 0 => inside.push(c),
            c => body.push(c),
        }
    }
    (body, inside)
}

/// Units of length that people write and that are not read here.
const OTHER_UNITS: [&str; 14] = [
    "thou", "mil", "mils", "µm", "μm", "um", "micron", "microns", "ft", "foot", "feet", "yd", "dm",
    "furlong",
];

/// True where brackets in a header state a unit of length that is not read: its figures are no millimetres.
pub fn is_in_other_unit(printed: &str) -> bool {
    let (_, inside) = split_brackets(printed);
    let inside = inside.to_lowercase();
    let mut words = inside.split(|c: char| c.is_whitespace() || matches!(c, ',' | '.' | ';'));
    words.any(|word| OTHER_UNITS.contains(&word))
}

/// Takes unit words off the end: `Preis €/100` gives `Preis` and `€/100`.
fn split_unit_words(body: &str) -> (String, String) {
    let is_separator =
        |c: char| c.is_whitespace() || matches!(c, '/' | '_' | ',' | ':' | '-' | '.');
    let mut rest = body.trim();
    loop {
        let trimmed = rest.trim_end_matches(is_separator);
        let word = trimmed.rsplit(is_separator).next().unwrap_or_default();
        let lower = word.to_lowercase();
        let joins = matches!(
            lower.as_str(),
            "per"
                | "pro"
                | "je"
                | "in"
                | "par"
                | "por"
                | "za"
                | "pcs"
                | "stk"
                | "st"
                | "stück"
                | "stueck"
                | "pz"
                | "pezzi"
                | "ud"
                | "uds"
                | "szt"
                | "piece"
                | "pieces"
                | "pièces"
                | "pce"
                | "incl"
                | "inkl"
                | "excl"
                | "exkl"
                | "ex"
                | "ht"
                | "net"
                | "netto"
                | "kn"
                | "h"
                | "hour"
                | "hr"
                | "year"
                | "a"
                | "pc"
                | "ea"
                | "rpm"
        );
        let is_unit = !word.is_empty()
            && (joins
                || !Stated::read(&lower).is_empty()
                || matches!(lower.as_str(), "vat" | "mwst" | "ust" | "iva" | "tva"));
        if !is_unit || trimmed.len() == word.len() {
            break;
        }
        rest = &trimmed[..trimmed.len() - word.len()];
    }
    (
        rest.trim_end_matches(is_separator).to_owned(),
        body.trim()[rest.len()..].to_lowercase(),
    )
}

/// `from 10`, `Preis ab 10 Stk`, `10+`, `à partir de 10`, `10-49`: a price that holds from a quantity on.
fn price_break(body: &str, states: Stated) -> Option<Header> {
    let folded = fold(&body.replace('+', " plus ").replace(['≥', '>'], " from "));
    let mut words: Vec<&str> = folded.split(' ').collect();
    let is_noise = |w: &str| {
        matches!(
            w,
            "price"
                | "preis"
                | "prix"
                | "precio"
                | "prezzo"
                | "cena"
                | "unit"
                | "net"
                | "pcs"
                | "pc"
                | "stk"
                | "stuck"
                | "pieces"
                | "qty"
                | "ea"
                | "szt"
                | "pz"
                | "ud"
                | "each"
                | "eur"
                | "usd"
                | "gbp"
                | "pln"
                | "chf"
                | "st"
                | "uds"
        )
    };
    words.retain(|w| !is_noise(w));
    let quantity = |text: &str| {
        text.parse::<u32>()
            .ok()
            .filter(|n| (1..=1_000_000).contains(n))
    };
    let from = match words.as_slice() {
        ["from" | "ab" | "desde" | "da" | "od" | "des" | "dal", n] => quantity(n),
        ["a", "partir", "de", n] | ["a", "partire", "da", n] => quantity(n),
        [n, "plus"] => quantity(n),
        // A range must rise, or `12-10` of some other table would be a price break.
        [low, high] => quantity(low).filter(|low| {
            quantity(high).is_some_and(|high| *low < high) && body.contains(['-', '–'])
        }),
        _ => None,
    }?;
    let mut states = states;
    states.add(Stated {
        from_quantity: Some(f64::from(from)),
        currency: Stated::read(body).currency,
        ..Stated::default()
    });
    Some(Header {
        field: Field::PriceFrom,
        how: How::Known,
        states,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::value::LeadTimeUnit;
    use crate::units::{Currency, LengthUnit};

    fn field(text: &str) -> Option<Field> {
        Header::read(text, false).map(|header| header.field)
    }

    #[test]
    fn the_case_of_a_symbol_decides_between_bore_and_outside() {
        // ISO 15 symbols: d bore, D outside diameter, B width.
        assert_eq!(field("d"), Some(Field::Bore));
        assert_eq!(field("D"), Some(Field::OutsideDiameter));
        assert_eq!(field("d [mm]"), Some(Field::Bore));
        assert_eq!(field("D (mm)"), Some(Field::OutsideDiameter));
        assert_eq!(field("D mm"), Some(Field::OutsideDiameter));
    }

    #[test]
    fn reads_headers_of_several_languages() {
        for (text, expected) in [
            ("Bore (mm)", Field::Bore),
            ("Lieferzeit (AT)", Field::LeadTime),
            ("Délai de livraison", Field::LeadTime),
            ("Plazo de entrega", Field::LeadTime),
            ("Termin dostawy", Field::LeadTime),
            ("Art.-Nr.", Field::PartNumber),
            ("Breite", Field::Width),
            ("Hoehe", Field::Height),
            ("outside_diameter_mm", Field::OutsideDiameter),
            ("MOQ", Field::MinimumQuantity),
            ("Prix unitaire HT", Field::Price),
            ("Średnica zewnętrzna", Field::OutsideDiameter),
        ] {
            assert_eq!(field(text), Some(expected), "{text}");
        }
        assert_eq!(field("colour"), None);
    }

    #[test]
    fn symbols_behind_words_settle_what_the_words_leave_open() {
        // ISO 15 and ISO 1206 symbols, from memory.
        assert_eq!(
            Header::read("Lead time d", false).unwrap().states.time,
            Some(LeadTimeUnit::Days)
        );
        for (text, expected) in [
            ("Bore d", Field::Bore),
            ("Outside dia. D", Field::OutsideDiameter),
            ("Assembled width T", Field::AssembledWidth),
            ("Largeur B (mm)", Field::Width),
            ("Breite T [mm]", Field::AssembledWidth),
            ("Diameter D", Field::OutsideDiameter),
            ("Raceway Fw", Field::InnerRacewayDiameter),
            ("Ø albero d1", Field::ShaftDiameter),
            ("Ø sede d2", Field::HousingBore),
            ("Altezza b", Field::Height),
            ("Housing washer bore d1", Field::HousingWasherBore),
            ("Ø interno", Field::Bore),
        ] {
            assert_eq!(field(text), Some(expected), "{text}");
        }
        assert_eq!(field("colour d"), None);
    }

    #[test]
    fn a_possessive_makes_a_number_own() {
        for text in [
            "Unsere Teilenr.",
            "Ihre Teilenr.",
            "Our P/N",
            "Your item no.",
        ] {
            assert_eq!(field(text), Some(Field::OwnNumber), "{text}");
        }
    }

    #[test]
    fn units_and_conditions_are_split_off() {
        let states = |text: &str| Header::read(text, false).unwrap().states;
        assert_eq!(states("Bore (mm)").length, Some(LengthUnit::Mm));
        assert_eq!(states("Bohrung [Zoll]").length, Some(LengthUnit::Inch));
        assert_eq!(states("Preis €/100").per, Some(100));
        assert_eq!(states("Preis €/100").currency, Some(Currency::EUR));
        assert_eq!(states("Lead time (days)").time, Some(LeadTimeUnit::Days));
        assert_eq!(states("Lieferzeit (AT)").time, Some(LeadTimeUnit::Workdays));
        assert_eq!(states("Lead time wks").time, Some(LeadTimeUnit::Weeks));
        assert!(states("Price incl. VAT").is_with_tax);
        assert!(states("Preis (inkl. 19% MwSt)").is_with_tax);
        assert!(states("Prix TTC").is_with_tax);
        for text in [
            "Preis inkl. 19 % MwSt.",
            "Preis mit MwSt.",
            "price including 19 % VAT",
            "Preis/Stk inkl. 19 % MwSt.",
            "Precio IVA incluido",
        ] {
            assert_eq!(field(text), Some(Field::Price), "{text}");
            assert!(states(text).is_with_tax, "{text}");
            let has_rate = states(text).tax_share.is_some();
            assert_eq!(has_rate, text.contains("19"), "{text}");
        }
        for text in [
            "Preis zzgl. 19 % MwSt.",
            "Price excl. VAT",
            "Prezzo IVA esclusa",
        ] {
            assert_eq!(field(text), Some(Field::Price), "{text}");
            assert!(
                !states(text).is_with_tax && states(text).is_without_tax,
                "{text}"
            );
        }
        assert_eq!(field("VAT %"), Some(Field::VatRate));
        assert_eq!(field("from 10 incl. VAT"), Some(Field::PriceFrom));
        assert!(states("from 10 incl. VAT").is_with_tax);
        assert!(states("Discount %").is_percent);
    }

    #[test]
    fn other_units_of_length_are_told_from_remarks() {
        for other in ["Bore (thou)", "d [µm]", "OD (in mils)", "Length (ft.)"] {
            assert!(is_in_other_unit(other), "{other}");
        }
        for known in [
            "Bore (mm)",
            "d [in]",
            "Bore (d)",
            "Width (max)",
            "Bore",
            "Thou",
        ] {
            assert!(!is_in_other_unit(known), "{known}");
        }
    }

    #[test]
    fn price_breaks_carry_their_quantity() {
        for (text, quantity) in [
            ("from 10", 10.0),
            ("ab 10 Stk", 10.0),
            ("Preis ab 50", 50.0),
            ("10+", 10.0),
            ("à partir de 10", 10.0),
            ("10-49", 10.0),
            ("≥ 100", 100.0),
        ] {
            let header = Header::read(text, false).unwrap();
            assert_eq!(header.field, Field::PriceFrom, "{text}");
            assert_eq!(header.states.from_quantity, Some(quantity), "{text}");
        }
        assert_eq!(field("from"), Some(Field::From));
        assert_eq!(field("49-10"), None);
    }

    #[test]
    fn a_close_spelling_says_which_word_it_was_read_as() {
        let header = Header::read("Lead tiem", true).unwrap();
        assert_eq!(
            header.how,
            How::Close {
                word: "lead time".to_owned()
            }
        );
        assert_eq!(Header::read("Lead tiem", false), None);
    }
}
