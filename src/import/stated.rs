//! Units, currencies and conditions that a header, a unit row or a title states.

use crate::units::{Currency, LengthUnit};

use super::tax_words::{TaxWords, is_tax};
use super::value::{LeadTimeUnit, currency_of_sign};

/// Units and conditions stated in a header, a unit row or a title.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Stated {
    /// Unit of length.
    pub length: Option<LengthUnit>,
    /// Unit of a lead time or of hours.
    pub time: Option<LeadTimeUnit>,
    /// Currency.
    pub currency: Option<Currency>,
    /// Price for so many.
    pub per: Option<u32>,
    /// Least quantity of a price break.
    pub from_quantity: Option<f64>,
    /// Includes value added tax.
    pub is_with_tax: bool,
    /// Says to be without value added tax.
    pub is_without_tax: bool,
    /// Rate of the tax that is included, as a share of the net price.
    pub tax_share: Option<f64>,
    /// Gross, in a sense that no word of tax settles.
    pub is_gross: bool,
    /// A share in percent.
    pub is_percent: bool,
}

impl Stated {
    /// Reads every unit, currency and condition in a piece of header text.
    pub fn read(text: &str) -> Self {
        let mut states = Self::default();
        let lower = text.to_lowercase();
        if lower.trim().is_empty() {
            return states;
        }
        let words: Vec<&str> = lower
            .split(|c: char| {
                !(c.is_alphanumeric() || matches!(c, '€' | '$' | '£' | '%' | '"' | '″'))
            })
            .filter(|word| !word.is_empty())
            .collect();
        for (at, word) in words.iter().enumerate() {
            // `Bore in mm`: before another word it is no inch.
            let is_preposition = *word == "in" && at + 1 < words.len();
            let unit = || length_unit(word).filter(|_| !is_preposition);
            states.length = states.length.or_else(unit);
            states.time = states.time.or_else(|| LeadTimeUnit::of_word(word));
            states.currency = states.currency.or_else(|| currency_of_sign(word));
            let before = at.checked_sub(1).and_then(|at| words.get(at)).copied();
            // `19 %` is a figure, where `%` alone is the unit of those below.
            let is_figure = before.is_some_and(|word| word.bytes().all(|b| b.is_ascii_digit()));
            states.is_percent |= !is_figure && matches!(*word, "%" | "percent" | "prozent" | "pct");
            // A rate is a share, where an amount of tax is none.
            states.is_percent |= is_tax_rate(word, &words);
            if matches!(*word, "100" | "1000" | "1k") && states.per.is_none() {
                states.per = Some(if *word == "100" { 100 } else { 1000 });
            }
        }
        let tax = TaxWords::read(text);
        states.is_with_tax = tax.is_in;
        states.is_without_tax = tax.is_out;
        states.tax_share = tax.share;
        states.is_gross = tax.is_gross;
        states
    }

    /// Takes over what `other` states and this does not.
    pub fn add(&mut self, other: Self) {
        self.length = self.length.or(other.length);
        self.time = self.time.or(other.time);
        self.currency = self.currency.or(other.currency);
        self.per = self.per.or(other.per);
        self.from_quantity = self.from_quantity.or(other.from_quantity);
        self.add_tax(other);
        self.is_percent |= other.is_percent;
    }

    /// Takes over what `other` says of tax; words of tax settle the sense of gross.
    pub fn add_tax(&mut self, other: Self) {
        let has_words = |of: &Self| (of.is_with_tax || of.is_without_tax) && !of.is_gross;
        let is_open = !has_words(self) && !has_words(&other);
        self.is_gross = is_open && (self.is_gross || other.is_gross);
        self.is_with_tax |= other.is_with_tax;
        self.is_without_tax |= other.is_without_tax;
        self.tax_share = self.tax_share.or(other.tax_share);
    }

    /// True where nothing is stated.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// True for a word that says rate of tax, by itself or with the other words of its header.
fn is_tax_rate(word: &str, words: &[&str]) -> bool {
    match word {
        "steuersatz" | "mehrwertsteuersatz" | "umsatzsteuersatz" => true,
        "rate" | "satz" | "taux" | "tipo" | "aliquota" | "stawka" | "taxa" => {
            words.iter().any(|word| is_tax(word))
        }
        _ => false,
    }
}

/// The unit of length that a word names.
pub fn length_unit(word: &str) -> Option<LengthUnit> {
    match word.trim().trim_end_matches('.').to_lowercase().as_str() {
        "mm" | "millimeter" | "millimetre" | "millimeters" | "millimetres" | "metric"
        | "metrisch" | "milimetros" => Some(LengthUnit::Mm),
        "cm" => Some(LengthUnit::Cm),
        "in" | "inch" | "inches" | "zoll" | "\"" | "″" | "pouce" | "pouces" | "pulgada"
        | "pulgadas" | "pollici" | "cal" | "cale" | "imperial" => Some(LengthUnit::Inch),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_of_length_are_known_by_their_words() {
        use LengthUnit::{Cm, Inch, Mm};
        for (text, expected) in [
            ("mm", Some(Mm)),
            ("MM", Some(Mm)),
            ("Bore in mm", Some(Mm)),
            ("Maße in Zoll", Some(Inch)),
            ("Bore in", Some(Inch)),
            ("Bore in.", Some(Inch)),
            ("Preise in EUR", None),
            ("Lieferzeit in Tagen", None),
            ("[millimetres]", Some(Mm)),
            ("cm", Some(Cm)),
            ("inches", Some(Inch)),
            ("Zoll", Some(Inch)),
            ("pouces", Some(Inch)),
            ("pulgadas", Some(Inch)),
            ("pollici", Some(Inch)),
            ("cale", Some(Inch)),
            ("\"", Some(Inch)),
            ("Bore", None),
            ("m", None),
        ] {
            assert_eq!(Stated::read(text).length, expected, "{text}");
        }
    }

    #[test]
    fn currencies_quantities_and_percents_are_known_beside_each_other() {
        for (text, currency, per, is_percent) in [
            ("EUR", Some("EUR"), None, false),
            ("€/100", Some("EUR"), Some(100), false),
            ("EUR per 1000 pcs", Some("EUR"), Some(1000), false),
            ("zł/100 szt", Some("PLN"), Some(100), false),
            ("£", Some("GBP"), None, false),
            ("US$", Some("USD"), None, false),
            ("%", None, None, true),
            ("Prozent", None, None, true),
            ("12", None, None, false),
        ] {
            let states = Stated::read(text);
            let code = states.currency.map(|currency| currency.code().to_owned());
            assert_eq!(code.as_deref(), currency, "{text}");
            assert_eq!(states.per, per, "{text}");
            assert_eq!(states.is_percent, is_percent, "{text}");
        }
    }

    #[test]
    fn tax_is_in_the_price_only_where_a_word_says_so() {
        for (text, is_in) in [
            ("incl. VAT", true),
            ("including VAT", true),
            ("inkl. MwSt", true),
            ("inkl. 19% MwSt", true),
            ("mit MwSt.", true),
            ("TTC", true),
            ("brutto", true),
            ("con IVA", true),
            ("excl. VAT", false),
            ("HT", false),
            ("netto", false),
            ("VAT", false),
            ("zzgl. MwSt", false),
            ("sin IVA", false),
        ] {
            assert_eq!(Stated::read(text).is_with_tax, is_in, "{text}");
        }
    }

    #[test]
    fn a_rate_of_tax_is_a_percent_and_an_amount_is_none() {
        for (text, is_rate) in [
            ("VAT rate", true),
            ("MwSt-Satz", true),
            ("Steuersatz", true),
            ("taux TVA", true),
            ("tipo IVA", true),
            ("aliquota IVA", true),
            ("stawka VAT", true),
            ("taxa IVA", true),
            ("MwSt %", true),
            ("VAT (19 %)", false),
            ("VAT", false),
            ("rate", false),
            ("MwSt", false),
        ] {
            assert_eq!(Stated::read(text).is_percent, is_rate, "{text}");
        }
    }

    #[test]
    fn what_is_stated_first_holds_and_gaps_are_filled() {
        let mut states = Stated::read("mm");
        states.add(Stated::read("inch EUR/100 weeks %"));
        assert_eq!(states.length, Some(LengthUnit::Mm));
        assert_eq!(states.per, Some(100));
        assert_eq!(states.time, Some(LeadTimeUnit::Weeks));
        assert!(states.is_percent && !states.is_with_tax);
        assert!(Stated::read("  ").is_empty() && !states.is_empty());
        // Words of tax settle what gross means, whichever come first.
        for (one, other) in [("Bruttopreis", "inkl. MwSt."), ("zzgl. MwSt.", "brutto")] {
            let mut states = Stated::read(one);
            states.add(Stated::read(other));
            assert!(!states.is_gross, "{one} {other}");
        }
        let before = states;
        states.add(Stated::default());
        assert_eq!(states, before);
    }
}
