//! Slips in writing: the letter o for zero, blanks inside a number.

/// Writes 0 for the letter o where it stands among digits: `6o08`, `4O x 8O`, `62O5-2RS`.
pub(super) fn zeros(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let is_digit =
        |c: Option<&char>| c.is_some_and(|c| c.is_ascii_digit() || matches!(c, '.' | ','));
    let mut out = String::with_capacity(text.len());
    let mut last_was_figure = false;
    for (at, &c) in chars.iter().enumerate() {
        let next = chars.get(at + 1);
        let follows_figure = last_was_figure;
        let ends = next.is_none_or(|n| !n.is_alphabetic() || matches!(n, 'x' | 'X' | 'o' | 'O'));
        let is_zero = matches!(c, 'o' | 'O') && follows_figure && (is_digit(next) || ends);
        out.push(if is_zero { '0' } else { c });
        last_was_figure =
            c.is_ascii_digit() || is_zero || (last_was_figure && matches!(c, '.' | ','));
    }
    out
}

/// `35-72-17`: three lengths with strokes between them, where nothing else can be read.
pub(super) fn dashed_size(text: &str) -> Option<String> {
    let is_length =
        |piece: &&str| (1..=4).contains(&piece.len()) && piece.bytes().all(|b| b.is_ascii_digit());
    let mut has_size = false;
    let words: Vec<String> = text
        .split_whitespace()
        .map(|word| {
            let pieces: Vec<&str> = word.split('-').collect();
            let is_size = pieces.len() == 3 && pieces.iter().all(is_length);
            has_size |= is_size;
            if is_size {
                pieces.join(" x ")
            } else {
                word.to_owned()
            }
        })
        .collect();
    has_size.then(|| words.join(" "))
}

/// The text with blanks between groups of digits, and between letters and digits of one number, left out.
///
/// `62 06 2RS` becomes `6206 2RS`, `N U 205` becomes `NU205`; `None` where there is nothing to close up.
pub(super) fn closed_up(text: &str) -> Option<String> {
    let mut pieces: Vec<String> = Vec::new();
    let mut is_open = true;
    let mut joined = 0;
    for word in text.split_whitespace() {
        let digits_only = word.bytes().all(|b| b.is_ascii_digit());
        let starts_with_digit = word.starts_with(|c: char| c.is_ascii_digit());
        let joins = is_open && starts_with_digit && !pieces.is_empty() && {
            let so_far = pieces.last().map_or("", String::as_str);
            let count = so_far.chars().filter(char::is_ascii_digit).count();
            let is_closure = word.to_ascii_uppercase().starts_with("2R")
                || word.to_ascii_uppercase().starts_with("2Z");
            so_far.chars().all(|c| c.is_ascii_alphanumeric()) && count < 5 && !is_closure
        };
        let letters = word.len() <= 2 && word.chars().all(|c| c.is_ascii_alphabetic());
        let joins_letters = is_open
            && letters
            && pieces.last().is_some_and(|last| {
                last.len() <= 2 && last.chars().all(|c| c.is_ascii_alphabetic())
            });
        match pieces.last_mut().filter(|_| joins || joins_letters) {
            Some(last) => {
                last.push_str(word);
                joined += 1;
            }
            None => pieces.push(word.to_owned()),
        }
        is_open = digits_only || letters;
    }
    (joined > 0).then(|| pieces.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_letter_o_among_digits_is_a_zero() {
        for (text, expected) in [
            ("6o08 2RS", "6008 2RS"),
            ("4O x 8O x 18", "40 x 80 x 18"),
            ("62O5-2RS", "6205-2RS"),
            ("40x8ox18", "40x80x18"),
            ("O-ring 31.34 x 3.53", "O-ring 31.34 x 3.53"),
            ("62 x 40 od", "62 x 40 od"),
        ] {
            assert_eq!(zeros(text), expected, "{text}");
        }
    }

    #[test]
    fn blanks_inside_a_number_close_up() {
        for (text, expected) in [
            ("62 06 2RS", Some("6206 2RS")),
            ("6 2 0 6", Some("6206")),
            ("N U 205", Some("NU205")),
            ("NU 2 05", Some("NU205")),
            ("6206 2RS", None),
        ] {
            assert_eq!(closed_up(text).as_deref(), expected, "{text}");
        }
    }
}
