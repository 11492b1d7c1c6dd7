//! Text that a spreadsheet program would run as a formula when it opens a CSV file, and the sign that keeps it text.
//!
//! Our own CSV files put an apostrophe in front of such text; the import takes exactly that apostrophe off again, and
//! from our own files only: in anyone else's file it may belong to the text.

use std::borrow::Cow;

/// What is put in front of words that look like a formula.
const PREFIX: char = '\'';

/// Says whether a spreadsheet program may take the words for a formula when it opens a CSV file.
///
/// # Source
/// Open Worldwide Application Security Project, "CSV Injection": fields that begin with equals, plus, minus, at,
/// tab, carriage return or line feed, or with the full-width forms of the first four.
pub fn looks_like_formula(words: &str) -> bool {
    words.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'])
}

/// Puts an apostrophe in front of words that look like a formula, or that begin with an apostrophe already,
/// so that [`read_back`] is exact.
///
/// # Example
/// ```
/// use sparewright::import::formula_text::{read_back, safe_text};
/// assert_eq!(safe_text("+/-0.1"), "'+/-0.1");
/// assert_eq!(safe_text("30x62x16"), "30x62x16");
/// assert_eq!(read_back("'+/-0.1"), "+/-0.1");
/// ```
pub fn safe_text(words: &str) -> Cow<'_, str> {
    if looks_like_formula(words) || words.starts_with(PREFIX) {
        Cow::Owned(format!("{PREFIX}{words}"))
    } else {
        Cow::Borrowed(words)
    }
}

/// Takes the apostrophe of [`safe_text`] off again; other words stay as they are.
pub fn read_back(field: &str) -> &str {
    match field.strip_prefix(PREFIX) {
        Some(words) if looks_like_formula(words) || words.starts_with(PREFIX) => words,
        _ => field,
    }
}

/// True for a CSV file of the form that our reports have: a byte order mark, lines ending in CR LF, and a first line of
/// keys, words in small letters joined by low lines.
pub fn is_own_form(text_without_mark: &str, has_mark: bool) -> bool {
    let Some((first, _)) = text_without_mark.split_once("\r\n") else {
        return false;
    };
    let is_key = |key: &str| {
        key.starts_with(|c: char| c.is_ascii_lowercase())
            && key
                .bytes()
                .all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_')
    };
    has_mark && !first.contains('\n') && first.split(',').all(is_key)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn an_apostrophe_of_the_shop_survives() {
        for words in ["'", "''", "'tis", "'=1", "5' hose", "'-'", ""] {
            assert_eq!(read_back(&safe_text(words)), words);
        }
    }

    #[test]
    fn only_the_form_of_our_own_files_is_ours() {
        assert!(is_own_form("part_number,on_hand\r\nA,1\r\n", true));
        for (text, has_mark) in [
            ("part_number,on_hand\r\nA,1\r\n", false),
            ("part_number,on_hand\nA,1\n", true),
            ("Part no,On hand\r\nA,1\r\n", true),
            ("part_number;on_hand\r\nA;1\r\n", true),
        ] {
            assert!(!is_own_form(text, has_mark), "{text:?}");
        }
    }

    proptest! {
        #[test]
        fn every_text_reads_back_exactly(words in "[-+=@'\t\r\n,\"＝a-zäß0-9 ]{0,12}") {
            let safe = safe_text(&words).into_owned();
            prop_assert!(!looks_like_formula(&safe));
            prop_assert_eq!(read_back(&safe), words);
        }
    }
}
