//! What the styles of a workbook show of cells besides their values: powers of ten, currencies, percents, lines through them.

use std::io::{Read, Seek};

use calamine::{Style, Xlsx, XlsxError};

use super::shown::{Shown, ShownCells};
use super::value::currency_of_sign;
use crate::units::Currency;

/// First number format that a file defines itself; those below are shown in the currency of the reader's own system
/// (ECMA-376, part 1, 18.8.30).
const FIRST_OWN_FORMAT: u32 = 164;

/// How the cells of one sheet are shown.
#[derive(Debug, Default)]
pub struct Looks {
    /// Cells of numbers shown in powers of ten.
    pub powers: Vec<(u32, u32)>,
    /// The others.
    pub shown: ShownCells,
}

/// True for a style that says something of its cells.
pub fn says_something(style: &Style) -> bool {
    is_in_powers(style) || shown_by(style) != Shown::default()
}

/// How the cells of a sheet are shown: a second way through it, for workbooks with such styles only.
pub fn looks_of<RS: Read + Seek>(book: &mut Xlsx<RS>, name: &str) -> Result<Looks, XlsxError> {
    let mut cells = book.worksheet_cells_reader(name)?;
    let styles: Vec<(bool, Shown)> = cells
        .styles()
        .iter()
        .map(|style| (is_in_powers(style), shown_by(style)))
        .collect();
    let mut looks = Looks::default();
    while let Some((row, column, style)) = cells.next_style_id()? {
        let Some((is_in_powers, shown)) = styles.get(style) else {
            continue;
        };
        if *is_in_powers {
            looks.powers.push((row, column));
        }
        if *shown != Shown::default() {
            looks.shown.push(row, column, *shown);
        }
    }
    Ok(looks)
}

/// True for a style that shows numbers as `6.20E+05`.
fn is_in_powers(style: &Style) -> bool {
    style
        .number_format
        .as_ref()
        .is_some_and(|format| format.format_code.contains("E+"))
}

fn shown_by(style: &Style) -> Shown {
    let is_crossed_out = style.font.as_ref().is_some_and(|font| font.strikethrough);
    let Some(format) = &style.number_format else {
        return Shown {
            is_crossed_out,
            ..Shown::default()
        };
    };
    let code = first_section(&format.format_code);
    let is_own = format.format_id.is_some_and(|id| id >= FIRST_OWN_FORMAT);
    let (words, rest) = literals(code);
    Shown {
        currency: bracketed_currency(code).or_else(|| written_currency(&words, is_own)),
        is_percent: rest.contains('%'),
        is_crossed_out,
    }
}

/// The part of a format that holds for numbers above zero.
fn first_section(code: &str) -> &str {
    let mut is_quoted = false;
    let end = code.find(|c| {
        is_quoted ^= c == '"';
        c == ';' && !is_quoted
    });
    end.map_or(code, |end| &code[..end])
}

/// What a format prints as it stands, and the rest of it.
fn literals(code: &str) -> (String, String) {
    let (mut words, mut rest) = (String::new(), String::new());
    let (mut is_quoted, mut is_bracketed) = (false, false);
    let mut signs = code.chars();
    while let Some(c) = signs.next() {
        match c {
            '"' => {
                is_quoted = !is_quoted;
                words.push(' ');
            }
            '\\' if !is_quoted => words.extend(signs.next()),
            // The next sign is only as wide as it would be, or is repeated.
            '_' | '*' if !is_quoted => {
                signs.next();
                words.push(' ');
            }
            '[' if !is_quoted => is_bracketed = true,
            ']' if is_bracketed => is_bracketed = false,
            _ if is_bracketed => {}
            '€' | '£' | '$' => words.push(c),
            _ if is_quoted => words.push(c),
            _ => {
                rest.push(c);
                words.push(' ');
            }
        }
    }
    (words, rest)
}

/// `[$USD]`, `[$€-407]`: a currency with the language in which it is shown ([MS-LCID], hexadecimal).
fn bracketed_currency(code: &str) -> Option<Currency> {
    let (_, from) = code.split_once("[$")?;
    let (inside, _) = from.split_once(']')?;
    let (sign, language) = inside.rsplit_once('-').unwrap_or((inside, ""));
    let language = u32::from_str_radix(language, 16).ok();
    let code = match (sign.trim(), language) {
        ("$", None | Some(0x409 | 0x540A)) => "USD",
        ("$", Some(0x1009 | 0xC0C)) => "CAD",
        ("$", Some(0xC09)) => "AUD",
        ("$", Some(0x80A)) => "MXN",
        // Many countries have a dollar of their own.
        ("$", Some(_)) => return None,
        ("kr" | "kr.", Some(0x41D)) => "SEK",
        ("kr" | "kr.", Some(0x414 | 0x814)) => "NOK",
        ("kr" | "kr.", Some(0x406)) => "DKK",
        ("¥" | "￥", Some(0x411)) => "JPY",
        ("¥" | "￥", Some(0x804)) => "CNY",
        (sign, _) => return named(sign),
    };
    Currency::new(code).ok()
}

/// A currency among the words that a format prints, of which others are units such as `STK`; a `$` only of a format that the file defines itself.
fn written_currency(words: &str, is_own: bool) -> Option<Currency> {
    let mut words = words.split_whitespace();
    words.find_map(|word| currency_of_sign(word).filter(|_| is_own || word != "$"))
}

/// A known sign, or three capital letters.
fn named(word: &str) -> Option<Currency> {
    let is_code = word.len() == 3 && word.bytes().all(|byte| byte.is_ascii_uppercase());
    currency_of_sign(word).or_else(|| Currency::new(word).ok().filter(|_| is_code))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_format_names_the_currency_that_it_shows() {
        // Codes as spreadsheet programs write them; languages by [MS-LCID].
        for (code, currency) in [
            ("#,##0.00 [$USD]", Some("USD")),
            ("[$$-409]#,##0.00", Some("USD")),
            ("[$£-809]#,##0.00", Some("GBP")),
            (
                "#,##0.00\\ [$€-407];[Red]\\-#,##0.00\\ [$€-407]",
                Some("EUR"),
            ),
            ("[$CHF-807] #,##0.00", Some("CHF")),
            ("[$$-1009]#,##0.00", Some("CAD")),
            ("[$$-2C0A]#,##0.00", None),
            ("#,##0.00 \"€\"", Some("EUR")),
            (
                "_-* #,##0.00\\ \"€\"_-;\\-* #,##0.00\\ \"€\"_-",
                Some("EUR"),
            ),
            ("\"$\"#,##0.00_-", Some("USD")),
            ("#,##0.00 \"PLN\"", Some("PLN")),
            ("#,##0.00 \"kg\"", None),
            ("#,##0 \"STK\"", None),
            ("[$-409]d-mmm-yy", None),
            ("[Red]0.00", None),
            ("General", None),
        ] {
            let section = first_section(code);
            let (words, _) = literals(section);
            let found = bracketed_currency(section).or_else(|| written_currency(&words, true));
            let found = found.map(|currency| currency.code().to_owned());
            assert_eq!(found.as_deref(), currency, "{code}");
        }
        // A format of the program's own shows the currency of whoever opens the file.
        assert_eq!(written_currency("$", false), None);
    }

    #[test]
    fn a_percent_in_words_is_none() {
        for (code, is_percent) in [
            ("0.0%", true),
            ("0 %", true),
            ("0\" %\"", false),
            ("0", false),
        ] {
            assert_eq!(
                literals(first_section(code)).1.contains('%'),
                is_percent,
                "{code}"
            );
        }
    }
}
