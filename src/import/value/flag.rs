//! Yes and no in several languages.

use crate::import::fold::fold;

/// Reads yes or no; `None` for any other word, which is an issue and not a "no".
pub fn read_flag(text: &str) -> Option<bool> {
    match text.trim() {
        "✓" | "✔" | "☑" => return Some(true),
        "✗" | "✘" | "☐" => return Some(false),
        _ => {}
    }
    match fold(text).as_str() {
        "yes" | "y" | "true" | "1" | "x" | "ok" | "approved" | "ja" | "j" | "wahr"
        | "freigegeben" | "oui" | "o" | "vrai" | "si" | "s" | "verdadero" | "vero" | "tak"
        | "t" | "prawda" | "sim" | "agree" | "aprobado" | "approvato" => Some(true),
        "no" | "n" | "false" | "0" | "not approved" | "nein" | "falsch" | "gesperrt" | "non"
        | "faux" | "falso" | "nie" | "falsz" | "nao" | "blocked" | "not" => Some(false),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn knows_yes_and_no_and_nothing_else() {
        for text in ["Yes", "ja", "Oui", "Sí", "sì", "TAK", "x", "✓", "sim", "1"] {
            assert_eq!(read_flag(text), Some(true), "{text}");
        }
        for text in ["No", "nein", "non", "nie", "não", "0", "FALSE"] {
            assert_eq!(read_flag(text), Some(false), "{text}");
        }
        for text in ["maybe", "pending", "?", ""] {
            assert_eq!(read_flag(text), None, "{text}");
        }
    }
}
