//! Words as a page can hold them.

use std::borrow::Cow;

use maud::{Markup, html};

/// Letters of the longest word that is kept in one line.
const LONGEST_CODE: usize = 18;

/// Words as a page can hold them: signs that HTML forbids become the replacement character.
pub(super) fn words(text: &str) -> Cow<'_, str> {
    let is_forbidden = |c: char| c.is_control() && !matches!(c, '\n' | '\t' | '\r');
    if text.contains(is_forbidden) {
        Cow::Owned(text.replace(is_forbidden, "\u{fffd}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// Words in which dates, numbers of parts and places such as `A-04-07` stay in one line (class `unbroken`); a browser breaks
/// them at their hyphens.
pub fn unbroken(text: &str) -> Markup {
    let is_code = |word: &str| {
        let letters = word.chars().count();
        letters <= LONGEST_CODE
            && word.contains('-')
            && word.contains(|of: char| of.is_ascii_digit())
    };
    html! {
        @for (at, word) in text.split(' ').enumerate() {
            @if at > 0 { " " }
            @if is_code(word) { span.unbroken { (words(word)) } } @else { (words(word)) }
        }
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

    #[test]
    fn codes_and_dates_stay_in_one_line_and_words_do_not() {
        for (words, shown) in [
            ("bin A-04-07", "bin <span class=\"unbroken\">A-04-07</span>"),
            (
                "Wed 2026-03-25 09:00",
                "Wed <span class=\"unbroken\">2026-03-25</span> 09:00",
            ),
            ("food-safe urethane", "food-safe urethane"),
            ("6308 2RS", "6308 2RS"),
            // A path is longer than a phone is wide: it may break.
            (
                "quotes_2026-02-23_very_long.xlsx",
                "quotes_2026-02-23_very_long.xlsx",
            ),
            ("<b>-1", "<span class=\"unbroken\">&lt;b&gt;-1</span>"),
            ("a  b", "a  b"),
            ("", ""),
        ] {
            assert_eq!(unbroken(words).into_string(), shown);
        }
    }
}
