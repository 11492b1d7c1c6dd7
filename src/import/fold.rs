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
        'ä' | 'Ä' | 'à' | 'À' | 'á' | 'Á' | 'â' | 'Â' | 'ã' | 'Ã' | 'å' | 'Å' | 'ą' | 'Ą' => {
            out.push('a')
        }
        'ö' | 'Ö' | 'ó' | 'Ó' | 'ò' | 'Ò' | 'ô' | 'Ô' | 'õ' | 'Õ' | 'ø' | 'Ø' | '⌀' | '∅' => {
            out.push('o')
        }
        'ü' | 'Ü' | 'ú' | 'Ú' | 'ù' | 'Ù' | 'û' | 'Û' => out.push('u'),
        'é' | 'É' | 'è' | 'È' | 'ê' | 'Ê' | 'ë' | 'Ë' | 'ę' | 'Ę' => out.push('e'),
        'í' | 'Í' | 'ì' | 'Ì' | 'î' | 'Î' | 'ï' | 'Ï' => out.push('i'),
        'ç' | 'Ç' | 'ć' | 'Ć' => out.push('c'),
        'ñ' | 'Ñ' | 'ń' | 'Ń' => out.push('n'),
        'ł' | 'Ł' => out.push('l'),
        'ś' | 'Ś' => out.push('s'),
        'ź' | 'Ź' | 'ż' | 'Ż' => out.push('z'),
        'ß' => out.push_str("ss"),
        'œ' | 'Œ' => out.push_str("oe"),
        '#' => out.push_str(" no "),
        'º' | '°' if out.ends_with('n') => out.push('o'),
        // A combining accent after its letter, as some programs on one system write it.
        '\u{300}'..='\u{36f}' => {}
        '²' | '₂' => out.push('2'),
        '₀' => out.push('0'),
        '₁' | '¹' => out.push('1'),
        c if c.is_alphanumeric() => out.extend(c.to_lowercase()),
        _ => out.push(' '),
    }
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
        ] {
            assert_eq!(fold(text), folded, "{text}");
        }
        assert_eq!(join_umlauts("hoehe").as_deref(), Some("hohe"));
    }
}
