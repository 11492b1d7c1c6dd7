//! Words as a page can hold them.

use std::borrow::Cow;

/// Words as a page can hold them: signs that HTML forbids become the replacement character.
pub(super) fn words(text: &str) -> Cow<'_, str> {
    let is_forbidden = |c: char| c.is_control() && !matches!(c, '\n' | '\t' | '\r');
    if text.contains(is_forbidden) {
        Cow::Owned(text.replace(is_forbidden, "\u{fffd}"))
    } else {
        Cow::Borrowed(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_that_html_forbids_are_replaced_and_others_stay() {
        // HTML, 13.2.3.5: control characters other than ASCII whitespace are parse errors.
        for (text, shown) in [
            ("6206-2RS", "6206-2RS"),
            ("two\nlines\tand\ra return", "two\nlines\tand\ra return"),
            ("a\0b", "a\u{fffd}b"),
            ("\u{1b}[31m", "\u{fffd}[31m"),
            ("\u{7f}\u{85}\u{9f}", "\u{fffd}\u{fffd}\u{fffd}"),
            ("Mühle µm ● 3/4″", "Mühle µm ● 3/4″"),
            ("", ""),
        ] {
            assert_eq!(words(text), shown, "{text:?}");
        }
    }

    #[test]
    fn what_needs_no_change_is_not_copied() {
        assert!(matches!(words("6206-2RS"), Cow::Borrowed(_)));
    }
}
