//! Slips and habits in writing: the letter o for zero, blanks inside a number, marks before it, how many are wanted.

use super::figure::is_figure;
use crate::part::PartClass;
use crate::part::designation::Designation;
use crate::standard;

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

/// Writes the signs for parts of an inch as fractions: `1½` as `1 1/2`.
pub(super) fn fractions(text: &str) -> String {
    const SIGNS: [(char, &str); 7] = [
        ('½', "1/2"),
        ('¼', "1/4"),
        ('¾', "3/4"),
        ('⅛', "1/8"),
        ('⅜', "3/8"),
        ('⅝', "5/8"),
        ('⅞', "7/8"),
    ];
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match SIGNS.iter().find(|(sign, _)| *sign == c) {
            Some((_, fraction)) => {
                if out.ends_with(|c: char| c.is_ascii_digit()) {
                    out.push(' ');
                }
                out.push_str(fraction);
            }
            None => out.push(c),
        }
    }
    out
}

/// `6206 2Z C 3`, `6308 P 6`, `K20 24 10`: a clearance or class with a blank in it, and a needle cage whose size is written with blanks.
pub(super) fn marks_together(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let is_mm =
        |word: &&str| (1..=3).contains(&word.len()) && word.bytes().all(|b| b.is_ascii_digit());
    if let [cage, outer, width] = words[..]
        && cage
            .strip_prefix(['K', 'k'])
            .is_some_and(|inner| is_mm(&inner))
        && is_mm(&outer)
        && is_mm(&width)
    {
        return format!("{cage}x{outer}x{width}");
    }
    if let [cup] = words[..]
        && let Some(number) = cup_number(cup)
    {
        return number;
    }
    const CLOSURES: [&str; 5] = ["RS", "RS1", "RSR", "RSH", "Z"];
    const COUNTED: [&str; 8] = ["off", "pcs", "pieces", "rows", "bar", "stk", "stück", "ea"];
    let mut out: Vec<String> = Vec::with_capacity(words.len());
    let mut at = 0;
    while let Some(word) = words.get(at) {
        let next = words.get(at + 1).copied().unwrap_or_default();
        let behind = words
            .get(at + 2)
            .map_or(String::new(), |word| word.to_lowercase());
        let is_clearance = matches!(*word, "C" | "c")
            && matches!(next, "2" | "3" | "4" | "5")
            && !matches!(behind.as_str(), "x" | "×" | "mm")
            && !COUNTED.contains(&behind.as_str());
        let is_class = is_class_parted(&words, at);
        // `6308 2 RS`: a closure with a blank.
        let is_closure =
            at > 0 && *word == "2" && CLOSURES.iter().any(|mark| mark.eq_ignore_ascii_case(next));
        let is_parted = is_clearance || is_class || is_closure;
        // `6206 P 5 3`: the class with the digit of its clearance (DIN 620).
        let with_group = (is_class && is_group(&words, at + 2)).then(|| words[at + 2]);
        if let Some(group) = with_group {
            out.push(format!("{}{next}{group}", word.to_uppercase()));
            at += 3;
            continue;
        }
        if is_parted {
            out.push(format!("{}{next}", word.to_uppercase()));
        } else {
            out.push((*word).to_owned());
        }
        at += 1 + usize::from(is_parted);
    }
    out.join(" ")
}

/// True for a digit of a group of clearance that ends the text or stands before a word: a figure of a size goes on.
fn is_group(words: &[&str], at: usize) -> bool {
    let behind = words.get(at + 1).copied().unwrap_or_default();
    let is_digit = words
        .get(at)
        .is_some_and(|word| matches!(*word, "2" | "3" | "4" | "5"));
    let is_size = is_figure(behind) || matches!(behind, "x" | "X" | "×" | "mm");
    let is_count = matches!(
        behind.to_lowercase().as_str(),
        "pcs" | "off" | "pieces" | "stk" | "stück" | "ea" | "bar" | "each"
    );
    is_digit && !is_size && !is_count
}

/// True for a class or a taper with a blank in it, behind a number or a size: `6308 P 6`, `22212 K 30`.
fn is_class_parted(words: &[&str], at: usize) -> bool {
    /// Fewest digits in front of a class, and in a number in front of a taper.
    const OF_SIZE: usize = 3;
    const OF_NUMBER: usize = 4;
    let digits = |word: &&str| word.bytes().filter(u8::is_ascii_digit).count();
    let next = words.get(at + 1).copied().unwrap_or_default();
    let behind = words.get(at + 2).copied().unwrap_or_default();
    let before = &words[..at];
    let is_size = is_figure(behind) || matches!(behind, "x" | "X" | "×" | "mm");
    match words[at] {
        "P" | "p" => {
            let is_class = matches!(next, "2" | "4" | "5" | "6");
            let is_in_size = matches!(behind, "x" | "X" | "×" | "mm");
            is_class && !is_in_size && before.iter().map(digits).sum::<usize>() >= OF_SIZE
        }
        "K" | "k" => next == "30" && !is_size && before.iter().any(|of| digits(of) >= OF_NUMBER),
        _ => false,
    }
}

/// `HK20x26x16` is the drawn cup HK2016, whose number leaves the outside out (ISO 3245).
fn cup_number(word: &str) -> Option<String> {
    let size = word.to_ascii_lowercase();
    let pieces: Vec<&str> = size.strip_prefix("hk")?.split('x').collect();
    let [inner, outer, width] = pieces[..] else {
        return None;
    };
    let number = format!("HK{inner:0>2}{width:0>2}");
    let row = standard::resolve(&Designation::parse(&number)?)?;
    let lengths: Vec<String> = row
        .size
        .dimensions()
        .map(|(_, length)| format!("{length:#}"))
        .collect();
    (lengths == [inner, outer, width]).then_some(number)
}

/// True for a text that begins with a length of one or two digits, as no bearing's number does.
fn begins_with_length(text: &str) -> bool {
    let behind = text.trim_start_matches(|c: char| c.is_ascii_digit());
    let digits = text.len() - behind.len();
    (1..=2).contains(&digits) && (behind.is_empty() || behind.starts_with([' ', 'x', 'X']))
}

/// True for a number of the tables with suffixes that the standards explain.
pub(super) fn is_whole_number(text: &str) -> bool {
    !begins_with_length(text)
        && Designation::may_begin(text)
        && Designation::parse(text).is_some_and(|read| {
            read.family
                .is_some_and(|family| family.class() == PartClass::Bearings)
                && read.traits.unknown_suffixes.is_empty()
                && !read.is_in_words
                && standard::resolve(&read).is_some()
        })
}

/// `P52 6206`, `2RS C3 6206`: marks in front of a bearing's number, put behind it; `None` where there are none.
pub(super) fn marks_behind(text: &str) -> Option<String> {
    const MOST_MARKS: usize = 3;
    let words: Vec<&str> = text.split_whitespace().collect();
    let is_mark = |word: &&&str| {
        word.len() >= 2 && word.contains(|c: char| c.is_ascii_alphabetic()) && !is_figure(word)
    };
    let count = words.iter().take_while(is_mark).take(MOST_MARKS).count();
    for at in (1..=count.min(words.len().saturating_sub(1))).rev() {
        // Whatever stands behind it: what begins so is no number.
        if begins_with_length(words[at]) || !Designation::may_begin(words[at]) {
            continue;
        }
        let marks = words[..at].join(" ");
        // The longest run of words that is the number with what was written behind it.
        let end = (at + 1..=words.len()).rev().find(|end| {
            let number = words[at..*end].join(" ");
            is_whole_number(&number) && is_whole_number(&format!("{number} {marks}"))
        });
        if let Some(end) = end {
            let rest = words[end..].iter().copied();
            let turned = words[at..end]
                .iter()
                .copied()
                .chain([marks.as_str()])
                .chain(rest);
            return Some(turned.collect::<Vec<_>>().join(" "));
        }
    }
    None
}

/// `2 x 6308 C3`, `4 off 608 zz`: how many are wanted says nothing of which.
pub(super) fn without_count(text: &str) -> String {
    const TIMES: [&str; 14] = [
        "x", "×", "off", "pc", "pc.", "pcs", "pcs.", "pce", "piece", "pieces", "stk", "stk.",
        "stück", "ea",
    ];
    const NAMES: [&str; 7] = [
        "qty",
        "qty.",
        "quantity",
        "anzahl",
        "menge",
        "stückzahl",
        "quantité",
    ];
    let mut words: Vec<&str> = text.split_whitespace().collect();
    let is_count =
        |word: &str| (1..=2).contains(&word.len()) && word.bytes().all(|b| b.is_ascii_digit());
    let bare = |word: &str| word.trim_matches([':', '=']).to_lowercase();
    let named = words.windows(2).position(|pair| {
        NAMES.contains(&bare(pair[0]).as_str()) && is_count(pair[1].trim_matches([':', '=']))
    });
    if let Some(at) = named {
        words.drain(at..at + 2);
        return words.join(" ");
    }
    // `2x 6206`, `6206 x2`
    match words.as_slice() {
        [count, number, ..]
            if count.strip_suffix(['x', 'X', '×']).is_some_and(&is_count)
                && is_whole_number(number) =>
        {
            return words[1..].join(" ");
        }
        [number, .., count]
            if count.strip_prefix(['x', 'X', '×']).is_some_and(&is_count)
                && is_whole_number(number) =>
        {
            return words[..words.len() - 1].join(" ");
        }
        _ => {}
    }
    match words.as_slice() {
        [count, times, number, ..]
            if is_count(count)
                && TIMES.contains(&times.to_lowercase().as_str())
                && is_whole_number(number) =>
        {
            words[2..].join(" ")
        }
        _ => text.to_owned(),
    }
}

/// `6308,6309`: two numbers with a comma between them are no decimal fraction.
pub(super) fn numbers_apart(text: &str) -> String {
    let is_number = |piece: &str| {
        piece.len() >= 4 && piece.bytes().all(|b| b.is_ascii_digit()) && is_whole_number(piece)
    };
    let apart = |word: &str| match word.split_once([',', ';']) {
        Some((first, second)) if is_number(first) && is_number(second) => {
            format!("{first} {second}")
        }
        _ => word.to_owned(),
    };
    if text.contains([',', ';']) {
        text.split_whitespace()
            .map(apart)
            .collect::<Vec<_>>()
            .join(" ")
    } else {
        text.to_owned()
    }
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

/// `40-62-7` beside other figures: a bore, an outside and a width with strokes between, where that is the only size of the text.
pub(super) fn dashed_beside(text: &str) -> Option<String> {
    let may_be = |word: &str| {
        let pieces: Option<Vec<u32>> = word.split('-').map(|piece| piece.parse().ok()).collect();
        let has_nought = word.split('-').any(|piece| piece.starts_with('0'));
        let is_size = matches!(pieces.as_deref(), Some([bore, outside, width])
            if bore < outside && (1..=3).contains(&width.to_string().len()));
        is_size && !has_nought && !is_whole_number(word)
    };
    let has_other = text
        .split_whitespace()
        .any(|word| is_figure(word) && word.contains(['x', 'X', '×']) || matches!(word, "x" | "×"));
    let dashed = text.split_whitespace().filter(|word| may_be(bare(word)));
    (dashed.count() == 1 && !has_other).then(|| {
        let words = text.split_whitespace().map(|word| {
            let size = bare(word);
            match may_be(size) {
                true => word.replace(size, &size.replace('-', " x ")),
                false => word.to_owned(),
            }
        });
        words.collect::<Vec<_>>().join(" ")
    })
}

fn bare(word: &str) -> &str {
    word.trim_end_matches([',', ';'])
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
    fn marks_in_front_of_a_number_go_behind_it() {
        // DIN 623-1 writes closure, clearance and class behind the basic number.
        for (text, turned) in [
            ("P52 6206", Some("6206 P52")),
            ("2RS C3 6206", Some("6206 2RS C3")),
            ("c3 6206-2Z worn", Some("6206-2Z c3 worn")),
            ("DB 7208 B P5", Some("7208 B P5 DB")),
            ("P6 NU 208", Some("NU 208 P6")),
            ("6206 P52", None),
            ("bearing 6206", None),
            ("old 6206 C3", None),
            ("C3 40x80x18", None),
            ("40 6206", None),
            ("NU 208", None),
            ("C3", None),
        ] {
            assert_eq!(marks_behind(text).as_deref(), turned, "{text}");
        }
    }

    #[test]
    fn how_many_are_wanted_is_left_out() {
        for (text, left) in [
            ("2 x 6308 C3", "6308 C3"),
            ("4 off 608 zz", "608 zz"),
            ("10 pcs NU205", "NU205"),
            ("2 x 6 x 2.5", "2 x 6 x 2.5"),
            ("17 x 40 x 12", "17 x 40 x 12"),
            ("6308 x 2", "6308 x 2"),
            ("100 x 6308", "100 x 6308"),
        ] {
            assert_eq!(without_count(text), left, "{text}");
        }
    }

    #[test]
    fn counts_by_name_or_with_a_cross_are_left_out() {
        for (text, left) in [
            ("2x 6206", "6206"),
            ("6206 x2", "6206"),
            ("6206 C3 x2", "6206 C3"),
            ("6206 qty 2", "6206"),
            ("qty: 4 NU205", "NU205"),
            ("Anzahl 3 6206", "6206"),
            ("2x 6 x 2.5", "2x 6 x 2.5"),
            ("o-ring 40 x3", "o-ring 40 x3"),
        ] {
            assert_eq!(without_count(text), left, "{text}");
        }
    }

    #[test]
    fn signs_for_fractions_are_fractions() {
        for (text, expected) in [
            ("½ x 1⅛ x ¼", "1/2 x 1 1/8 x 1/4"),
            ("3/8 dowel 1½", "3/8 dowel 1 1/2"),
            ("40x80x18", "40x80x18"),
        ] {
            assert_eq!(fractions(text), expected, "{text}");
        }
    }

    #[test]
    fn a_clearance_with_a_blank_is_one_mark() {
        for (text, expected) in [
            ("6206 2Z C 3", "6206 2Z C3"),
            ("40 80 18 c 4 deep groove", "40 80 18 C4 deep groove"),
            ("63 08 2 RS C 3", "63 08 2RS C3"),
            ("6206 2 z", "6206 2z"),
            ("2 RS 6206", "2 RS 6206"),
            ("o-ring 20 x 2 rubber", "o-ring 20 x 2 rubber"),
            ("120 C 3 off", "120 C 3 off"),
            ("6308 P 6", "6308 P6"),
            ("6308 P 6 C 3", "6308 P6 C3"),
            ("6206 P 5 3", "6206 P53"),
            ("6206 P 5 3 worn", "6206 P53 worn"),
            ("6206 P 5 3 pcs", "6206 P5 3 pcs"),
            ("6206 P 5 7", "6206 P5 7"),
            ("40 80 P 6 3 x 5", "40 80 P6 3 x 5"),
            ("40 80 18 p 5 deep groove", "40 80 18 P5 deep groove"),
            ("22212 K 30", "22212 K30"),
            ("22206 K 30 62 20", "22206 K 30 62 20"),
            ("needle cage K 30 35 17", "needle cage K 30 35 17"),
            ("o-ring P 6", "o-ring P 6"),
            ("P 6 x 20", "P 6 x 20"),
            ("7014 C", "7014 C"),
            ("K20 24 10", "K20x24x10"),
            ("k 20 24", "k 20 24"),
            // ISO 3245: HK2016 is 20 x 26 x 16.
            ("HK20x26x16", "HK2016"),
            ("HK20x25x16", "HK20x25x16"),
        ] {
            assert_eq!(marks_together(text), expected, "{text}");
        }
    }

    #[test]
    fn two_numbers_with_a_comma_are_two() {
        for (text, apart) in [
            ("6308,6309", "6308 6309"),
            ("6308;6309 C3", "6308 6309 C3"),
            ("44,96 84,9 19", "44,96 84,9 19"),
            ("1000,5", "1000,5"),
        ] {
            assert_eq!(numbers_apart(text), apart, "{text}");
        }
    }

    #[test]
    fn a_size_with_strokes_beside_other_figures_is_one() {
        for (text, read) in [
            (
                "lip seal 40-62-7 shaft 40",
                Some("lip seal 40 x 62 x 7 shaft 40"),
            ),
            (
                "lip seal 40-62-7, shaft",
                Some("lip seal 40 x 62 x 7, shaft"),
            ),
            (
                "oil seal 120-150-12 NBR 70",
                Some("oil seal 120 x 150 x 12 NBR 70"),
            ),
            // A day, a number with noughts, a bearing's number, two of them, another size beside it.
            ("bearing od 52 2024-03-15", None),
            ("bearing od 52 15-11-2024", None),
            ("seal 040-062-007 shaft 40", None),
            ("608-22-7", None),
            ("40-62-7 or 40-62-8", None),
            ("40x62x7 order 10-20-30", None),
            ("lip seal 40 62 7", None),
            ("AS568-214", None),
        ] {
            assert_eq!(dashed_beside(text).as_deref(), read, "{text}");
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
