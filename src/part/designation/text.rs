//! Evens out how designations are typed: case, blanks, dashes, multiplication signs, decimal commas.

/// One spelling for signs that look alike: upper case, `X` for every multiplication sign, `-` for every dash, single blanks,
/// a decimal point for a comma between digits and a blank for any other comma.
pub(super) fn clean(printed: &str) -> String {
    let bytes = printed.as_bytes();
    let is_digit = |at: Option<usize>| {
        at.and_then(|at| bytes.get(at))
            .is_some_and(u8::is_ascii_digit)
    };
    let mut text = String::with_capacity(printed.len());
    for (at, c) in printed.char_indices() {
        match c {
            '×' | 'х' | 'Х' | '*' => text.push('X'),
            '–' | '—' | '‐' | '‑' | '−' => text.push('-'),
            'Ø' | 'ø' | '⌀' | '"' => {}
            ',' if is_digit(at.checked_sub(1)) && is_digit(Some(at + 1)) => text.push('.'),
            c if c.is_whitespace() || matches!(c, ',' | ';' | '_') => {
                if !text.is_empty() && !text.ends_with(' ') {
                    text.push(' ');
                }
            }
            c => text.push(c.to_ascii_uppercase()),
        }
    }
    text.truncate(text.trim_end().len());
    text
}

/// Takes the first of several openings off, where no letter or digit runs on from it.
pub(super) fn strip_word<'a>(text: &'a str, words: &[&str]) -> Option<&'a str> {
    // Most texts begin as none of them.
    let first = text.as_bytes().first();
    let mut alike = words.iter().filter(|word| word.as_bytes().first() == first);
    alike.find_map(|word| {
        let rest = text.strip_prefix(word)?;
        let ends_word = !rest.starts_with(|c: char| c.is_alphanumeric())
            || !word.ends_with(|c: char| c.is_ascii_alphabetic())
                && rest.starts_with(|c: char| c.is_ascii_alphabetic())
            || word.ends_with(|c: char| c.is_ascii_alphabetic())
                && rest.starts_with(|c: char| c.is_ascii_digit());
        ends_word.then(|| trim_signs(rest))
    })
}

/// Takes the first of several endings off, where it stands as words of its own.
pub(super) fn strip_ending<'a>(text: &'a str, words: &[&str]) -> Option<&'a str> {
    let text = text.trim_end();
    let last = text.as_bytes().last();
    let mut alike = words.iter().filter(|word| word.as_bytes().last() == last);
    alike.find_map(|word| {
        let rest = text.strip_suffix(word)?;
        rest.ends_with([' ', '-', ','])
            .then(|| rest.trim_end_matches([' ', '-', ',']))
    })
}

/// Takes blanks, hyphens, colons and points off the front.
pub(super) fn trim_signs(text: &str) -> &str {
    text.trim_start_matches([' ', '-', ':', '.'])
}

/// Splits digits off the front.
pub(super) fn split_digits(text: &str) -> (&str, &str) {
    let end = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    text.split_at(end)
}

/// The pieces of a suffix text; a point parts them too, except one between digits: `E.C3`, but `2.5`.
pub(super) fn tokens(text: &str) -> impl Iterator<Item = &str> {
    let bytes = text.as_bytes();
    let is_digit = |at: Option<usize>| {
        at.and_then(|at| bytes.get(at))
            .is_some_and(u8::is_ascii_digit)
    };
    let parts = move |(at, c): (usize, char)| match c {
        '.' => !(is_digit(at.checked_sub(1)) && is_digit(Some(at + 1))),
        c => matches!(c, ' ' | '-' | '/' | '+' | '(' | ')' | ':'),
    };
    let ends = text.char_indices().filter(move |sign| parts(*sign));
    let ends = ends.map(|(at, _)| at).chain([text.len()]);
    let mut start = 0;
    ends.map(move |end| {
        let token = &text[start..end];
        start = end + 1;
        token
    })
    .filter(|token| !token.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_of_one_designation_become_one() {
        assert_eq!(clean(" 6305\u{a0}–2rs,  c3 "), "6305 -2RS C3");
        assert_eq!(clean("or 31,34×3,53"), "OR 31.34X3.53");
    }

    #[test]
    fn suffixes_are_parted_by_blanks_strokes_and_points() {
        for (text, pieces) in [
            ("-2RS C3", &["2RS", "C3"][..]),
            ("/P6.C3", &["P6", "C3"]),
            ("E.C3", &["E", "C3"]),
            (" 2.5 (X)", &["2.5", "X"]),
            ("..C3.", &["C3"]),
            ("", &[]),
            (" - / ", &[]),
        ] {
            assert!(tokens(text).eq(pieces.iter().copied()), "{text}");
        }
    }

    #[test]
    fn a_word_ends_where_letters_do() {
        assert_eq!(strip_word("DIN 471-40", &["DIN 47", "DIN 471"]), Some("40"));
        assert_eq!(strip_word("ORDER 40X3", &["OR"]), None);
        assert_eq!(strip_word("OR40X3", &["OR"]), Some("40X3"));
    }
}
