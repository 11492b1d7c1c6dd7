//! Words that say whether a price holds value added tax, and at which rate: `inkl. 19 % MwSt.`, `VAT included`, `sin IVA`.

use std::ops::Range;

/// Most that a rate of tax is taken to be, as a share.
pub const MOST_TAX_SHARE: f64 = 0.5;

/// Words for value added tax.
const TAX: &str = "vat mwst ust iva tva gst tax taxes taxe mehrwertsteuer umsatzsteuer steuer steuern \
    impuesto impuestos imposte impostos podatek podatkiem podatku";
/// Words of inclusion before the tax.
const INCLUDING: &str = "incl inkl inc including include includes inclusive inklusive inklusiv einschl \
    einschließlich einschliesslich enthält enthaelt beinhalten beinhaltet contain \
    contains containing comprenant incluant incluye incluyen incluyendo includono \
    comprensivo comprensivi comprensiva comprensive inclui incluem incluindo zawiera \
    zawierają zawieraja tym";
/// Words of inclusion that may stand behind the tax too.
const INCLUDED: &str = "included inclusive inklusive enthalten inbegriffen eingerechnet comprise comprises \
    compris inclus incluse incluses incluido incluidos incluida incluidas incluído \
    incluídos incluída inclusa incluso inclusi compresa compreso compresi wliczony \
    wliczone zawarty";
/// Words of exclusion before the tax.
const EXCLUDING: &str = "excl exkl exc ex excluding exclude excludes exclusive exklusive zzgl zuzügl \
    zuzüglich zuzueglich plus ohne without before vor hors sans avant sin sem senza bez \
    s mas más più piu mais net netto nett";
/// Words behind the tax that say that it is not in.
const BEHIND_WITHOUT: &str = "extra excluded separat exclue exclu exclus excluido excluidos excluído esclusa \
    escluso esclusi wyłączony";
/// Words that turn the one behind them round.
const NEGATIONS: &str = "not no non nicht kein keine keiner pas não nao nie";
/// Articles and adjectives between the tax and the word that decides.
const BETWEEN: &str = "of the der die das des den gesetzl gesetzlich gesetzlicher gesetzliche gesetzlichen \
    ges gültiger gültigen geltender geltenden jeweils jeweiliger deutscher de di la le \
    el il del dell dello l d all any applicable statutory local current bzw oder or ou \
    lub at von à al toutes uk eu";

/// What a text says about tax in prices.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct TaxWords {
    /// The prices hold the tax.
    pub is_in: bool,
    /// The prices are without the tax.
    pub is_out: bool,
    /// The rate of tax that they hold, as a share of the net price.
    pub share: Option<f64>,
    /// The prices are gross, and no word of tax says in which sense: before discount, or with tax.
    pub is_gross: bool,
}

/// What the cell of a row's tax says about its price.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TaxCell {
    /// Nothing but perhaps a rate or an amount.
    Silent,
    /// The price holds the tax, at this rate as a share of the net price where one is said.
    In(Option<f64>),
    /// The price is without it.
    Out,
    /// Words that may mean either.
    Unclear,
}

/// A word of a text, in lower case, with its place in it.
struct Word {
    text: String,
    at: Range<usize>,
}

/// Words of a text that say of tax that it is in or not.
struct Phrase {
    is_in: bool,
    /// Indices of the words.
    words: Range<usize>,
}

impl TaxWords {
    /// Reads what a header, a unit row or a title says.
    pub fn read(text: &str) -> Self {
        let words = words_of(text);
        let phrases = phrases(&words);
        let has_word = words.iter().any(|word| is_gross_word(&word.text));
        let is_in = has_word || phrases.iter().any(|phrase| phrase.is_in);
        let mut shares = phrases.iter().filter(|phrase| phrase.is_in);
        let share = shares.find_map(|phrase| share_in(&words[phrase.words.clone()]));
        Self {
            is_in,
            is_out: !is_in && !phrases.is_empty(),
            share,
            is_gross: phrases.is_empty() && are_gross(&words),
        }
    }
}

impl TaxCell {
    /// Reads a cell of a column of tax.
    pub fn read(text: &str) -> Self {
        let words = words_of(text);
        let has = |is_it: fn(&str) -> bool| words.iter().any(|word| is_it(&word.text));
        if has(is_excluding) || has(is_negation) || has(is_behind_without) {
            Self::Out
        } else if has(is_including) || has(is_included) || has(is_gross_word) {
            Self::In(share_in(&words))
        } else if has(is_with) {
            Self::Unclear
        } else {
            Self::Silent
        }
    }
}

/// Takes what a header says about tax out: `Preis/Stk inkl. 19 % MwSt.` gives `Preis/Stk` and `inkl. 19 % MwSt`; `None`
/// where it says nothing about it, or nothing else.
pub fn split_tax(text: &str) -> Option<(String, String)> {
    let words = words_of(text);
    let phrases = phrases(&words);
    let first = phrases
        .iter()
        .find(|phrase| phrase.is_in)
        .or(phrases.first())?;
    let start = words.get(first.words.start)?.at.start;
    let end = words.get(first.words.end.checked_sub(1)?)?.at.end;
    let is_sign = |c: char| c.is_whitespace() || matches!(c, '.' | ',' | ';' | ':' | '-' | '/');
    let before = text[..start].trim_end_matches(is_sign);
    let behind = text[end..].trim_matches(is_sign);
    let rest = format!("{before} {behind}").trim().to_owned();
    (!rest.is_empty()).then(|| (rest, text[start..end].to_owned()))
}

/// The words of a text: letters and digits, a number with its decimals, and each sign of percent for itself.
fn words_of(text: &str) -> Vec<Word> {
    let chars: Vec<(usize, char)> = text.char_indices().collect();
    let is_digit = |at: Option<usize>| {
        at.and_then(|at| chars.get(at))
            .is_some_and(|(_, c)| c.is_ascii_digit())
    };
    let mut words: Vec<Word> = Vec::new();
    let mut start: Option<usize> = None;
    let mut take = |at: Range<usize>| {
        words.push(Word {
            text: text[at.clone()].to_lowercase(),
            at,
        });
    };
    for (index, (at, c)) in chars.iter().enumerate() {
        let is_decimal = matches!(c, '.' | ',')
            && is_digit(index.checked_sub(1))
            && is_digit(Some(index + 1))
            && start.is_some();
        if c.is_alphanumeric() || is_decimal {
            start.get_or_insert(*at);
            continue;
        }
        if let Some(start) = start.take() {
            take(start..*at);
        }
        if *c == '%' {
            take(*at..*at + 1);
        }
    }
    if let Some(start) = start {
        take(start..text.len());
    }
    join_initials(text, words)
}

/// `T.T.C.` and `I.V.A.` are one word each.
fn join_initials(text: &str, words: Vec<Word>) -> Vec<Word> {
    let mut joined: Vec<Word> = Vec::with_capacity(words.len());
    let is_letter = |text: &str| text.chars().count() == 1 && text.chars().all(char::is_alphabetic);
    let mut is_open = false;
    for word in words {
        let is_initial = is_letter(&word.text);
        match joined.last_mut() {
            Some(last) if is_open && is_initial && &text[last.at.end..word.at.start] == "." => {
                last.text.push_str(&word.text);
                last.at.end = word.at.end;
            }
            _ => joined.push(word),
        }
        is_open = is_initial;
    }
    joined
}

/// Every place where a word for tax stands beside one that says whether it is in.
fn phrases(words: &[Word]) -> Vec<Phrase> {
    (0..words.len())
        .filter(|at| is_tax(&words[*at].text))
        .filter_map(|tax| {
            before(words, tax)
                .or_else(|| behind(words, tax))
                .or_else(|| in_a_row(words, tax))
        })
        .collect()
}

/// `inkl. 19 % MwSt.`, `Prices exclusive of VAT`: the word that decides stands before, with only rates and articles between.
fn before(words: &[Word], tax: usize) -> Option<Phrase> {
    let at = (0..tax).rev().find(|at| !is_between(&words[*at].text))?;
    let is_in = decides(&words[at].text, true)?;
    let first = at.saturating_sub(1);
    let (is_not, is_joined) = match &words[first].text {
        _ if first == at => (false, false),
        word => (
            is_negation(word),
            matches!(word.as_str(), "w" | "y" | "wraz"),
        ),
    };
    let start = if is_not || is_joined { first } else { at };
    Some(Phrase {
        is_in: is_in && !is_not,
        words: start..end_of(words, tax),
    })
}

/// The end of a phrase whose last word is the tax, or a rate that ends the text: `incl. VAT at 20 %`.
fn end_of(words: &[Word], tax: usize) -> usize {
    let rest = &words[tax + 1..];
    let is_rate = rest.iter().all(|word| is_between(&word.text))
        && rest.last().is_some_and(|word| is_percent(&word.text));
    if is_rate { words.len() } else { tax + 1 }
}

/// `19 % MwSt. enthalten`, `VAT is not included`, `IVA inclusa`.
fn behind(words: &[Word], tax: usize) -> Option<Phrase> {
    let is_skipped = |word: &str| {
        is_between(word)
            || matches!(
                word,
                "is" | "are" | "ist" | "sind" | "est" | "already" | "bereits" | "schon" | "déjà"
            )
    };
    let at = (tax + 1..words.len()).find(|at| !is_skipped(&words[*at].text))?;
    let word = words[at].text.as_str();
    let is_last = at + 1 == words.len();
    let next = words.get(at + 1).map(|word| word.text.as_str());
    let (is_in, end) = if is_included(word) || is_last && matches!(word, "incl" | "inkl" | "inc") {
        (true, at + 1)
    } else if is_behind_without(word) || is_last && is_excluding(word) {
        (false, at + 1)
    } else if is_negation(word) && next.is_some_and(is_included) {
        (false, at + 2)
    } else {
        return None;
    };
    let is_figure = |at: &usize| is_percent(&words[*at].text) || number(&words[*at].text).is_some();
    let start = (0..tax).rev().take_while(is_figure).last().unwrap_or(tax);
    Some(Phrase {
        is_in,
        words: start..end,
    })
}

/// `inkl. Fracht und MwSt.`, `zzgl. Verpackung und MwSt.`: the tax is the last of several things.
fn in_a_row(words: &[Word], tax: usize) -> Option<Phrase> {
    let and = (0..tax).rev().find(|at| !is_between(&words[*at].text))?;
    if !matches!(
        words[and].text.as_str(),
        "und" | "and" | "et" | "y" | "e" | "i" | "u"
    ) {
        return None;
    }
    let decided = |at: usize| Some((at, decides(&words[at].text, false)?));
    let (start, is_in) = (0..and).rev().find_map(decided)?;
    let is_not = start > 0 && is_negation(&words[start - 1].text);
    Some(Phrase {
        is_in: is_in && !is_not,
        words: start..tax + 1,
    })
}

/// Whether a word before the tax says that it is in; `with` only where it stands right before.
fn decides(word: &str, is_right_before: bool) -> Option<bool> {
    if is_excluding(word) || is_negation(word) {
        Some(false)
    } else if is_including(word) || is_included(word) || is_right_before && is_with(word) {
        Some(true)
    } else {
        None
    }
}

/// The one rate of percent among words, as a share; `None` for several.
fn share_in(words: &[Word]) -> Option<f64> {
    let mut rates = words
        .windows(2)
        .filter_map(|pair| number(&pair[0].text).filter(|_| is_percent(&pair[1].text)));
    let percent = rates.next().filter(|_| rates.next().is_none())?;
    let has_others = words
        .iter()
        .filter(|word| number(&word.text).is_some())
        .count()
        > 1;
    let share = percent / 100.0;
    (!has_others && (0.0..=MOST_TAX_SHARE).contains(&share)).then_some(share)
}

/// A number with a point or a comma before its decimals.
fn number(word: &str) -> Option<f64> {
    let is_number = word.starts_with(|c: char| c.is_ascii_digit())
        && (word.chars()).all(|c| c.is_ascii_digit() || matches!(c, '.' | ','));
    is_number
        .then(|| word.replace(',', ".").parse().ok())
        .flatten()
}

fn is_percent(word: &str) -> bool {
    matches!(word, "%" | "percent" | "prozent" | "pct" | "vh")
}

/// True for a word of a list with blanks between.
fn is_among(word: &str, list: &str) -> bool {
    list.split(' ').any(|known| known == word)
}

/// True for a word for value added tax.
pub fn is_tax(word: &str) -> bool {
    is_among(word, TAX)
}

/// Words that by themselves say that the tax is in.
fn is_gross_word(word: &str) -> bool {
    matches!(
        word,
        "ttc" | "brutto" | "ivato" | "ivata" | "ivati" | "ivate"
    )
}

/// True for words that say gross of a list price before discount as well as of a price with tax. In Polish lists the word means
/// tax. Common practice, no source.
fn are_gross(words: &[Word]) -> bool {
    let is_either = |word: &str| {
        matches!(word, "brutto" | "lordo" | "bruto") || word.starts_with("bruttopreis")
    };
    let has = |is_it: &dyn Fn(&str) -> bool| words.iter().any(|word| is_it(&word.text));
    has(&is_either) && !has(&|word| matches!(word, "cena" | "ceny" | "cen"))
}

/// Words of inclusion before the tax.
fn is_including(word: &str) -> bool {
    is_among(word, INCLUDING)
}

/// Words of inclusion that may stand behind the tax too.
fn is_included(word: &str) -> bool {
    is_among(word, INCLUDED)
}

/// Words before the tax that say that it is in only where they stand right before it.
fn is_with(word: &str) -> bool {
    matches!(word, "mit" | "with" | "z" | "con" | "com" | "avec" | "c")
}

/// Words of exclusion before the tax.
fn is_excluding(word: &str) -> bool {
    is_among(word, EXCLUDING)
}

/// Words behind the tax that say that it is not in.
fn is_behind_without(word: &str) -> bool {
    is_among(word, BEHIND_WITHOUT)
}

fn is_negation(word: &str) -> bool {
    is_among(word, NEGATIONS)
}

/// Figures, articles and adjectives between the tax and the word that decides.
fn is_between(word: &str) -> bool {
    is_percent(word) || number(word).is_some() || is_tax(word) || is_among(word, BETWEEN)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tax_is_in_or_out_as_lists_of_seven_languages_say() {
        // The words are common practice, no source.
        for (text, is_in, percent) in [
            ("Alle Preise inkl. 19 % MwSt.", true, Some(19.0)),
            ("inkl. 19% MwSt.", true, Some(19.0)),
            ("Preise inklusive MwSt.", true, None),
            ("Preise enthalten 19 % MwSt.", true, Some(19.0)),
            ("inkl. der gesetzl. MwSt. von 19 %", true, Some(19.0)),
            ("incl. VAT (20%)", true, Some(20.0)),
            ("inkl. MwSt., 10 % Rabatt", true, None),
            ("inkl. 7 % bzw. 19 % MwSt.", true, None),
            ("19 % Mehrwertsteuer enthalten", true, Some(19.0)),
            ("inkl. Fracht und MwSt.", true, None),
            ("inkl. MwSt. zzgl. Versand", true, None),
            ("All prices include VAT", true, None),
            ("All prices incl. 20 % VAT", true, Some(20.0)),
            ("Prices inclusive of VAT", true, None),
            ("VAT is included", true, None),
            ("including 8.1 % VAT", true, Some(8.1)),
            ("Prix T.T.C.", true, None),
            ("TVA 5,5 % comprise", true, Some(5.5)),
            ("y compris TVA", true, None),
            ("toutes taxes comprises", true, None),
            ("Precios IVA incluido", true, None),
            ("Precios con IVA", true, None),
            ("Prezzi IVA inclusa", true, None),
            ("Prezzi comprensivi di IVA", true, None),
            ("Ceny z VAT", true, None),
            ("Ceny brutto", true, None),
            ("w tym 23% VAT", true, Some(23.0)),
            ("Preços com IVA incluído", true, None),
            ("zzgl. 19 % MwSt.", false, None),
            ("Lieferung ab Werk, zzgl. Fracht und MwSt.", false, None),
            ("nicht inkl. MwSt.", false, None),
            ("inkl. Verpackung, MwSt. nicht enthalten", false, None),
            ("Prices do not include VAT", false, None),
            ("Preise enthalten keine MwSt.", false, None),
            ("VAT not included", false, None),
            ("VAT extra", false, None),
            ("plus VAT, freight included", false, None),
            ("hors taxes", false, None),
            ("IVA esclusa", false, None),
            ("IVA no incluido", false, None),
            ("s/ IVA", false, None),
            ("bez VAT", false, None),
        ] {
            let said = TaxWords::read(text);
            assert_eq!((said.is_in, said.is_out), (is_in, !is_in), "{text}");
            match (said.share, percent) {
                (Some(share), Some(percent)) => {
                    assert!((share * 100.0 - percent).abs() < 1e-9, "{text}");
                }
                (share, percent) => assert_eq!(share.is_some(), percent.is_some(), "{text}"),
            }
        }
        for text in [
            "VAT",
            "VAT rate",
            "MwSt 19 %",
            "price with lid",
            "incl. freight",
            "",
        ] {
            assert_eq!(TaxWords::read(text), TaxWords::default(), "{text}");
        }
    }

    #[test]
    fn gross_without_a_word_of_tax_has_two_senses() {
        for (text, is_gross, is_in) in [
            ("Bruttopreis", true, false),
            ("Alle Preise sind Bruttopreise", true, false),
            ("Brutto", true, true),
            ("Prezzo lordo", true, false),
            ("Precio bruto", true, false),
            ("Preis brutto inkl. 19 % MwSt.", false, true),
            ("Cena brutto", false, true),
            ("Bruttolistenpreis", false, false),
            ("Nettopreis", false, false),
        ] {
            let said = TaxWords::read(text);
            assert_eq!((said.is_gross, said.is_in), (is_gross, is_in), "{text}");
        }
    }

    #[test]
    fn what_a_header_says_about_tax_is_taken_out_of_it() {
        for (text, rest, tax) in [
            ("Preis inkl. 19 % MwSt.", "Preis", "inkl. 19 % MwSt"),
            ("Preis/Stk inkl. 19 % MwSt.", "Preis/Stk", "inkl. 19 % MwSt"),
            (
                "price including 19 % VAT EUR",
                "price EUR",
                "including 19 % VAT",
            ),
            ("Preis 19 % MwSt. inkl.", "Preis", "19 % MwSt. inkl"),
            ("from 10, excl. VAT", "from 10", "excl. VAT"),
        ] {
            let found = split_tax(text);
            assert_eq!(found, Some((rest.to_owned(), tax.to_owned())), "{text}");
        }
        for text in ["VAT", "incl. VAT", "Preis", "MwSt-Satz", "Prix TTC"] {
            assert_eq!(split_tax(text), None, "{text}");
        }
    }

    #[test]
    fn a_cell_of_tax_may_say_that_the_price_holds_it() {
        let is_19 = |cell: TaxCell| match cell {
            TaxCell::In(Some(share)) => (share - 0.19).abs() < 1e-12,
            _ => false,
        };
        for text in [
            "inkl. 19 %",
            "incl. 19%",
            "19 % enthalten",
            "19% included",
            "inkl. 19 % MwSt.",
        ] {
            assert!(is_19(TaxCell::read(text)), "{text}");
        }
        for (text, expected) in [
            ("inkl.", TaxCell::In(None)),
            ("inkl. 7 % / 19 %", TaxCell::In(None)),
            ("zzgl. 19 %", TaxCell::Out),
            ("19 % nicht enthalten", TaxCell::Out),
            ("mit 19 %", TaxCell::Unclear),
            ("19 %", TaxCell::Silent),
            ("19", TaxCell::Silent),
        ] {
            assert_eq!(TaxCell::read(text), expected, "{text}");
        }
    }
}
