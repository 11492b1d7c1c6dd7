//! Prices as written: currency signs and codes, per 100 or 1,000, on request.

use crate::import::fold::fold;
use crate::units::Currency;

use super::number::{DecimalSign, NumberError, is_group_sign, read_number};

/// A price cell taken apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReadPrice {
    /// Amount for `per` units.
    pub amount: f64,
    /// Currency, where the cell names one.
    pub currency: Option<Currency>,
    /// Units the amount is for, where the cell says; a word such as `each` says one.
    pub per: Option<u32>,
    /// True where the amount is for metres.
    pub is_by_metre: bool,
    /// True where `per` is one only since a unit stands behind the amount: `550 EUR St`, and neither `/St` nor `each`.
    pub is_bare_unit: bool,
}

impl ReadPrice {
    /// Units the amount is for where its list says a number of them: a bare unit says only what is counted.
    pub fn per_beside(&self, of_list: Option<u32>) -> Option<u32> {
        if self.is_bare_unit {
            of_list.or(self.per)
        } else {
            self.per.or(of_list)
        }
    }
}

/// Why a text is not a price.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum PriceError {
    /// Not readable.
    #[error("`{found}` is not a price; expected one such as `12.50 EUR` or `850 EUR/1000`")]
    NotAPrice {
        /// As found.
        found: String,
    },
    /// On request.
    #[error("the price is on request")]
    OnRequest,
    /// The number has two readings.
    #[error(transparent)]
    Number(#[from] NumberError),
    /// The unit the price is for is not a number of units.
    #[error("`{found}` is not a number of units that a price is for; expected 1, 10, 100 or 1000")]
    NotAPer {
        /// As found.
        found: String,
    },
}

/// The currency of a sign or a code of three letters in common use.
pub fn currency_of_sign(word: &str) -> Option<Currency> {
    let code = match word.trim().trim_end_matches('.') {
        "€" | "eur" | "EUR" | "Eur" | "euro" | "Euro" | "euros" => "EUR",
        "$" | "US$" | "us$" | "usd" | "USD" => "USD",
        "£" | "gbp" | "GBP" => "GBP",
        "zł" | "ZŁ" | "zl" | "pln" | "PLN" => "PLN",
        "chf" | "CHF" | "sfr" | "SFr" => "CHF",
        "sek" | "SEK" => "SEK",
        "nok" | "NOK" => "NOK",
        "dkk" | "DKK" => "DKK",
        "czk" | "CZK" | "Kč" | "kč" | "Kc" | "kc" => "CZK",
        "huf" | "HUF" => "HUF",
        "cad" | "CAD" => "CAD",
        "aud" | "AUD" => "AUD",
        "r$" | "R$" | "brl" | "BRL" => "BRL",
        "mxn" | "MXN" => "MXN",
        "jpy" | "JPY" => "JPY",
        "cny" | "CNY" => "CNY",
        "inr" | "INR" | "₹" => "INR",
        _ => return None,
    };
    Currency::new(code).ok()
}

/// Reads a price; `column` is the decimal sign that the column proves.
///
/// # Errors
/// [`PriceError`] with what was found; a negative amount is read and left to the caller to judge.
pub fn read_price(text: &str, column: Option<DecimalSign>) -> Result<ReadPrice, PriceError> {
    let text = text.trim();
    // Most cells hold the number and nothing else.
    if text
        .bytes()
        .all(|byte| byte.is_ascii_digit() || byte == b'.')
        && text.starts_with(|c: char| c.is_ascii_digit())
        && text.ends_with(|c: char| c.is_ascii_digit())
    {
        return Ok(ReadPrice {
            amount: read_number(text, column)?,
            currency: None,
            per: None,
            is_by_metre: false,
            is_bare_unit: false,
        });
    }
    let not_a_price = || PriceError::NotAPrice {
        found: text.to_owned(),
    };
    let starts_number = |c: char| c.is_ascii_digit();
    let Some(start) = text.find(starts_number) else {
        return Err(if is_on_request(text) {
            PriceError::OnRequest
        } else {
            not_a_price()
        });
    };
    // The number reaches to the last digit before a word or a stroke; blanks may separate thousands.
    let start = text[..start]
        .rfind(['-', '−', ',', '.'])
        .filter(|at| text[*at..start].chars().count() == 1)
        .unwrap_or(start);
    let rest = &text[start..];
    let end = rest
        .char_indices()
        .find(|(at, c)| {
            !(c.is_ascii_digit()
                || matches!(c, '.' | ',')
                || is_group_sign(*c)
                || (*at == 0 && matches!(c, '-' | '−')))
        })
        .map_or(rest.len(), |(at, _)| at);
    let (number, behind) = rest.split_at(end);
    // `12,-` and `12.--` are whole amounts.
    let written = number.trim_end();
    let number = written.trim().trim_end_matches([',', '.']);
    let dashless = behind.trim_start_matches(['-', '–', '—']);
    // `12-14 EUR` is a span of prices, and none of them.
    if dashless.len() < behind.len() && dashless.trim_start().starts_with(starts_number) {
        return Err(not_a_price());
    }
    // `12.50-` is a credit, as accounts print it.
    let is_credit = dashless.len() < behind.len() && written.len() == end && written == number;
    let amount = read_number(number, column)?;
    if is_credit && amount < 0.0 {
        return Err(not_a_price());
    }
    let amount = if is_credit { -amount } else { amount };
    let behind = dashless;
    let before = text[..start].trim();
    let mut found = ReadPrice {
        amount,
        currency: None,
        per: None,
        is_by_metre: false,
        is_bare_unit: false,
    };
    if !before.is_empty() {
        found.currency = Some(currency_of_sign(before).ok_or_else(not_a_price)?);
    }
    read_behind(behind, &mut found).ok_or_else(not_a_price)?;
    Ok(found)
}

/// Reads ` EUR/100 St`, `€ per 100`, `each` behind an amount; `None` where a word is not known.
fn read_behind(behind: &str, found: &mut ReadPrice) -> Option<()> {
    // A stroke says the same as `per`.
    let behind = behind.replace('/', " per ");
    let words = behind.split(|c: char| c.is_whitespace() || matches!(c, '(' | ')' | ':'));
    let (mut is_of_one, mut is_said, mut is_after_per) = (false, false, false);
    for word in words.filter(|word| !word.is_empty()) {
        let lower = word.trim_end_matches('.').to_lowercase();
        let was_after_per = std::mem::replace(&mut is_after_per, PER.contains(&lower.as_str()));
        if let Some(currency) = currency_of_sign(word) {
            if found
                .currency
                .replace(currency)
                .is_some_and(|other| other != currency)
            {
                return None;
            }
        } else if let Some(number) = leading_units(&lower) {
            if found.per.replace(number).is_some() {
                return None;
            }
            found.is_by_metre |= is_metre(lower.trim_start_matches(|c: char| c.is_ascii_digit()));
        } else if is_metre(&lower) {
            is_of_one = true;
            is_said |= was_after_per;
            found.is_by_metre = true;
        } else if ONE.contains(&lower.as_str()) {
            is_of_one = true;
            is_said |= was_after_per || matches!(lower.as_str(), "each" | "ea");
        } else if !FILLERS.contains(&lower.as_str()) {
            return None;
        }
    }
    found.is_bare_unit = found.per.is_none() && is_of_one && !is_said;
    // `EUR/100 St` is for a hundred, `EUR/St` for one.
    found.per = found.per.or(is_of_one.then_some(1));
    Some(())
}

/// Words behind an amount, in lower case, that say nothing of it.
const FILLERS: [&str; 12] = [
    "per", "pro", "je", "par", "por", "za", "al", "the", "net", "netto", "%", "p",
];

/// Those of them, in lower case, behind which stands what the amount is for.
const PER: [&str; 8] = ["per", "pro", "je", "par", "por", "za", "al", "p"];

/// Words, in lower case, that make the amount that of one piece where no number stands before them.
const ONE: [&str; 25] = [
    "each", "ea", "pc", "pcs", "st", "stk", "stück", "piece", "pieces", "pce", "szt", "pz", "ud",
    "unit", "unité", "unidad", "unità", "unidade", "pièce", "pieza", "pezzo", "peça", "sztuka",
    "u", "un",
];

/// True for a word for the metre, in lower case.
fn is_metre(word: &str) -> bool {
    matches!(word, "m" | "meter" | "metre" | "mètre" | "metro")
}

/// `100`, `1000`, `100st`, `%` of old lists is not one.
fn leading_units(word: &str) -> Option<u32> {
    let digits = word.trim_end_matches(|c: char| c.is_alphabetic());
    read_per(digits).ok()
}

/// A number of units that a price is for.
///
/// # Errors
/// [`PriceError::NotAPer`] for anything but 1 to 10,000.
pub fn read_per(text: &str) -> Result<u32, PriceError> {
    let mut groups = text.trim().split(['.', ',', '\'', ' ']);
    let first = groups.next().unwrap_or_default();
    // What stands behind a sign is a group of three, or it is a decimal.
    let digits = groups.try_fold(first.to_owned(), |digits, group| {
        (group.len() == 3).then(|| digits + group)
    });
    digits
        .filter(|digits| digits.bytes().all(|byte| byte.is_ascii_digit()))
        .and_then(|digits| digits.parse::<u32>().ok())
        .filter(|per| (1..=10_000).contains(per))
        .ok_or_else(|| PriceError::NotAPer {
            found: text.trim().to_owned(),
        })
}

fn is_on_request(text: &str) -> bool {
    matches!(
        fold(text).as_str(),
        "on request"
            | "upon request"
            | "poa"
            | "p o a"
            | "price on application"
            | "call"
            | "ask"
            | "tba"
            | "tbc"
            | "auf anfrage"
            | "a a"
            | "anfrage"
            | "sur demande"
            | "a consultar"
            | "consultar"
            | "su richiesta"
            | "a richiesta"
            | "na zapytanie"
            | "sob consulta"
            | "por"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_prices_with_signs_codes_and_units() {
        for (text, amount, currency, per) in [
            ("12.50", 12.5, None, None),
            ("€ 1.234,50", 1234.5, Some("EUR"), None),
            ("12,50 EUR", 12.5, Some("EUR"), None),
            ("8,50 €/100", 8.5, Some("EUR"), Some(100)),
            ("8,50 / 100 St", 8.5, None, Some(100)),
            ("USD 4.10 each", 4.1, Some("USD"), Some(1)),
            ("£3.20", 3.2, Some("GBP"), None),
            ("850 EUR per 1000", 850.0, Some("EUR"), Some(1000)),
            ("12,50 zł", 12.5, Some("PLN"), None),
            ("12,- €", 12.0, Some("EUR"), None),
            ("-3.50", -3.5, None, None),
            ("1 250,00 €", 1250.0, Some("EUR"), None),
        ] {
            let found = read_price(text, None).unwrap();
            assert!((found.amount - amount).abs() < 1e-9, "{text}");
            assert_eq!(
                found.currency.as_ref().map(Currency::code),
                currency,
                "{text}"
            );
            assert_eq!(found.per, per, "{text}");
        }
    }

    #[test]
    fn a_unit_without_a_word_for_per_says_only_what_is_counted() {
        // Wordings are common practice, no source.
        for (text, is_bare, below_a_hundred) in [
            ("550 EUR St", true, 100),
            ("1890 Stk", true, 100),
            ("12 € (Stück)", true, 100),
            ("12 EUR m", true, 100),
            ("5,50 EUR/Stk", false, 1),
            ("5,50 EUR / Stk.", false, 1),
            ("5,50 EUR pro Stück", false, 1),
            ("5,50 je St", false, 1),
            ("5,50 EUR each", false, 1),
            ("5,50 EUR ea.", false, 1),
            ("5,50 EUR/m", false, 1),
            ("550 EUR/10 St", false, 10),
            ("550 EUR", false, 100),
        ] {
            let found = read_price(text, None).unwrap();
            assert_eq!(found.is_bare_unit, is_bare, "{text}");
            assert_eq!(found.per_beside(Some(100)), Some(below_a_hundred), "{text}");
        }
        let found = read_price("5,50 EUR St", None).unwrap();
        assert_eq!(found.per_beside(None), Some(1));
    }

    #[test]
    fn says_why_a_text_is_no_price() {
        assert_eq!(read_price("auf Anfrage", None), Err(PriceError::OnRequest));
        assert!(matches!(
            read_price("1.250 €", None),
            Err(PriceError::Number(_))
        ));
        for text in ["", "free", "12 EUR USD", "12 foo", "foo 12", "12/0"] {
            assert!(read_price(text, None).is_err(), "{text}");
        }
    }

    #[test]
    fn the_units_a_price_is_for_are_a_whole_number_of_them() {
        for (text, per) in [
            ("1", Some(1)),
            ("10", Some(10)),
            ("25", Some(25)),
            ("100", Some(100)),
            (" 100 ", Some(100)),
            ("1000", Some(1_000)),
            ("1.000", Some(1_000)),
            ("1,000", Some(1_000)),
            ("1 000", Some(1_000)),
            ("1'000", Some(1_000)),
            ("10000", Some(10_000)),
            ("10.000", Some(10_000)),
            ("0", None),
            ("10001", None),
            ("1.000.000", None),
            ("0,5", None),
            ("1.5", None),
            ("2,50", None),
            ("14.00", None),
            ("1,0", None),
            ("100.0000", None),
            ("-100", None),
            ("+100", None),
            ("", None),
            ("hundred", None),
            ("1e2", None),
            ("100 St", None),
        ] {
            match (read_per(text), per) {
                (Ok(found), Some(per)) => assert_eq!(found, per, "{text}"),
                (Err(error), None) => assert_eq!(
                    error.to_string(),
                    format!(
                        "`{}` is not a number of units that a price is for; expected 1, 10, 100 or 1000",
                        text.trim()
                    )
                ),
                (found, expected) => panic!("{text}: {found:?} instead of {expected:?}"),
            }
        }
    }
}
