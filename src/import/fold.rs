//! Folds words of several languages to one spelling for looking up: no case, no accents, no punctuation.

/// Lower case without accents; every run of other signs becomes one blank; `#`, `Nr.`, `N°` become `no`.
///
/// # Example
/// `Art.-Nr.` is `art no`, `Außen-Ø` is `aussen o`, `Référence` is `reference`.
pub fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    for c in text.chars() {
        push_folded(&mut folded, c);
    }
    if !folded.contains('n') {
        return collapse(&folded);
    }
    let words = folded.split(' ').filter(|word| !word.is_empty());
    let mut out = String::with_capacity(folded.len());
    for word in words {
        if !out.is_empty() {
            out.push(' ');
        }
        let bare = word.strip_suffix("nr").filter(|bare| bare.len() > 2);
        match (word, bare) {
            (
                "nr" | "num" | "number" | "nummer" | "numero" | "numer" | "nbr" | "no" | "numbr"
                | "nubmer" | "numbre" | "nummber",
                _,
            ) => {
                out.push_str("no");
            }
            // `Teilenr.` is `Teile-Nr.`
            (_, Some(bare)) => {
                out.push_str(bare);
                out.push_str(" no");
            }
            _ => out.push_str(word),
        }
    }
    out
}

fn collapse(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(word);
    }
    out
}

fn push_folded(out: &mut String, c: char) {
    match c {
        'a'..='z' | '0'..='9' => out.push(c),
        'A'..='Z' => out.push(c.to_ascii_lowercase()),
        '⌀' | '∅' => out.push('o'),
        'ß' => out.push_str("ss"),
        'œ' | 'Œ' => out.push_str("oe"),
        // Romanian letters with a comma below, which stand apart from the others.
        'ș' | 'Ș' => out.push('s'),
        'ț' | 'Ț' => out.push('t'),
        '#' => out.push_str(" no "),
        'º' | '°' if out.ends_with('n') => out.push('o'),
        // A combining accent after its letter, as some programs on one system write it.
        '\u{300}'..='\u{36f}' => {}
        '²' | '₂' => out.push('2'),
        '₀' => out.push('0'),
        '₁' | '¹' => out.push('1'),
        c => match bare_letter(c) {
            Some(letter) => out.push(letter),
            None if c.is_alphanumeric() => out.extend(c.to_lowercase()),
            None => out.push(' '),
        },
    }
}

/// Letters of U+00C0 to U+017F without their marks, each at its place; a point where none is left or the sign is a letter of its
/// own (`æ`, `ß`).
///
/// # Source
/// Canonical decompositions of the Unicode Character Database; `ø`, `đ`, `ł` and the dotless `ı`, which have none, as they are
/// written where a keyboard lacks them (common practice, no source).
const BARE: [&[u8; 64]; 3] = [
    b"aaaaaa.ceeeeiiii.nooooo.ouuuuy..aaaaaa.ceeeeiiii.nooooo.ouuuuy.y",
    b"aaaaaaccccccccddddeeeeeeeeeegggggggghh..iiiiiiiiii..jjkk.llllll.",
    b".llnnnnnn...oooooo..rrrrrrsssssssstttt..uuuuuuuuuuuuwwyyyzzzzzz.",
];

/// The plain letter of one with marks.
fn bare_letter(c: char) -> Option<char> {
    let at = (c as usize).checked_sub(0xc0)?;
    let letter = *BARE.get(at / 64)?.get(at % 64)?;
    (letter != b'.').then(|| char::from(letter))
}

/// Folds a text whose umlauts were written apart (`Stueck`) to the spelling without (`stuck`).
pub fn join_umlauts(folded: &str) -> Option<String> {
    let is_apart = |pair: &[u8]| matches!(pair, b"ae" | b"oe" | b"ue");
    if !folded.as_bytes().windows(2).any(is_apart) {
        return None;
    }
    let joined = folded
        .replace("ae", "a")
        .replace("oe", "o")
        .replace("ue", "u");
    (joined != folded).then_some(joined)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_of_one_word_meet() {
        for (text, folded) in [
            ("Art.-Nr.", "art no"),
            ("Part #", "part no"),
            ("Teilenr.", "teile no"),
            ("N° d'article", "no d article"),
            ("Nº", "no"),
            ("Außen-Ø", "aussen o"),
            ("  Lead\n time ", "lead time"),
            ("Średnica wewnętrzna", "srednica wewnetrzna"),
            ("re\u{301}fe\u{301}rence", "reference"),
            ("own_number", "own no"),
            ("C₀", "c0"),
            ("Ložisko kuličkové, průměr", "lozisko kulickove prumer"),
            ("Csapágy belső átmérő", "csapagy belso atmero"),
            ("Dodávateľ; Řada", "dodavatel rada"),
            ("diametrul șaibei, ținută", "diametrul saibei tinuta"),
            ("İç çap, rulman genişliği", "ic cap rulman genisligi"),
            ("Længde Ø", "længde o"),
            ("подшипник й", "подшипник й"),
        ] {
            assert_eq!(fold(text), folded, "{text}");
        }
        assert_eq!(join_umlauts("hoehe").as_deref(), Some("hohe"));
    }
}
