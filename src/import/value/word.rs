//! Words that stand for a choice: conditions, reasons, outcomes, kinds of way; and words that stand for nothing.

use crate::import::fold::fold;
use crate::record::{ApprovalOutcome, Condition, OtherWayKind, UsageReason};

/// True for texts that say "nothing here": `-`, `n/a`, `k. A.`, `?`.
pub fn is_placeholder(text: &str) -> bool {
    if text.len() > 12 {
        return false;
    }
    if !text.contains(char::is_alphanumeric) {
        // Ticks, crosses and signs of money mean something; dashes and question marks don't.
        return !text.contains(['✓', '✔', '☑', '✗', '✘', '☐', '€', '$', '£', '₹', '¥', '"']);
    }
    if text.starts_with(|c: char| c.is_ascii_digit()) {
        return false;
    }
    // Folding costs more than all of this; no word below begins with another letter or holds a figure.
    let is_other = |byte: u8| !matches!(byte | 0x20, b'n' | b'k' | b'u' | b'i' | b's' | b'b');
    let bytes = text.as_bytes();
    if bytes[0].is_ascii_alphabetic()
        && (is_other(bytes[0]) || bytes.iter().any(u8::is_ascii_digit))
    {
        return false;
    }
    matches!(
        fold(text).as_str(),
        "n a"
            | "na"
            | "k a"
            | "ka"
            | "none"
            | "null"
            | "nil"
            | "unknown"
            | "unbekannt"
            | "keine"
            | "inconnu"
            | "s o"
            | "nd"
            | "n d"
            | "n v"
            | "brak"
            | "b d"
    )
}

/// True for texts that say "we do not know", and for those that say nothing: `tbd`, `?`, `k. A.`.
pub fn is_unknown_word(text: &str) -> bool {
    is_placeholder(text)
        || text.len() <= 24
            && matches!(
                fold(text).as_str(),
                "tbd"
                    | "tba"
                    | "tbc"
                    | "to be determined"
                    | "to be confirmed"
                    | "not known"
                    | "unclear"
                    | "not stated"
                    | "unsure"
                    | "nicht bekannt"
                    | "unklar"
                    | "ungeklart"
                    | "a determiner"
                    | "desconocido"
                    | "sconosciuto"
                    | "nieznany"
                    | "nieznane"
                    | "desconhecido"
            )
}

/// True for the first words of total rows: `Total`, `Summe`, `Zwischensumme`.
pub fn is_total_word(text: &str) -> bool {
    if text.len() > 60 || !text.starts_with(|c: char| c.is_alphabetic() || c == 'Σ' || c == '∑')
    {
        return false;
    }
    if text.starts_with(['Σ', '∑']) {
        return true;
    }
    // No word below begins with another letter, and folding costs more than looking.
    let first = text.as_bytes()[0];
    if first.is_ascii_alphabetic()
        && !matches!(first | 0x20, b't' | b's' | b'g' | b'z' | b'r' | b'p')
    {
        return false;
    }
    // `SUM-12` is the number of a part, `Total 12` is none.
    let is_number =
        |word: &str| word.contains(|c: char| c.is_ascii_digit()) && !word.contains([':', '=']);
    if text.split_whitespace().next().is_some_and(is_number) {
        return false;
    }
    let folded = fold(text);
    let first = folded.split(' ').next().unwrap_or_default();
    matches!(
        first,
        "total"
            | "totals"
            | "subtotal"
            | "sum"
            | "summe"
            | "gesamt"
            | "gesamtsumme"
            | "zwischensumme"
            | "gesamtwert"
            | "totale"
            | "totaux"
            | "suma"
            | "razem"
            | "subtotale"
            | "somma"
            | "soma"
            | "podsuma"
            | "sous"
    ) && (first != "sous" || folded.starts_with("sous total"))
        || folded.starts_with("grand total")
        || folded.starts_with("sub total")
}

/// True for the first words of rows that count others: `Number of items`, `Nombre d'articles`.
pub fn is_count_word(text: &str) -> bool {
    let folded = fold(text);
    text.len() <= 60
        && [
            "no of",
            "count",
            "items",
            "nombre d",
            "nombre de",
            "nb d",
            "anzahl",
            "positionen",
            "no di",
            "no articoli",
            "no de",
            "liczba",
            "quantidade de",
        ]
        .iter()
        .any(|word| {
            folded
                .strip_prefix(word)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with(' '))
        })
}

/// Condition of goods.
pub fn read_condition(text: &str) -> Option<Condition> {
    let folded = fold(text);
    Some(match folded.as_str() {
        "new" | "neu" | "neuf" | "neuve" | "nuevo" | "nueva" | "nuovo" | "nuova" | "nowy"
        | "nowa" | "nowe" | "novo" | "nos" => Condition::New,
        "reconditioned" | "refurbished" | "remanufactured" | "overhauled" | "rebuilt" | "recon"
        | "aufgearbeitet" | "generaluberholt" | "uberholt" | "reconditionne" | "reconditionnee"
        | "reacondicionado" | "reacondicionada" | "rigenerato" | "rigenerata"
        | "ricondizionato" | "revisionato" | "regenerowany" | "regenerowane" | "regenerowana"
        | "recondicionado" => Condition::Reconditioned,
        "used" | "second hand" | "gebraucht" | "occasion" | "d occasion" | "usage" | "usado"
        | "usada" | "usato" | "usata" | "uzywany" | "uzywane" | "uzywana" => Condition::Used,
        _ => return None,
    })
}

/// Reason of a usage.
pub fn read_reason(text: &str) -> Option<UsageReason> {
    let folded = fold(text);
    let has = |words: &[&str]| words.iter().any(|word| folded.contains(word));
    // Short words stand in longer ones: `kitchen`, `plant`, `equipment`.
    let is_word = |words: &[&str]| folded.split(' ').any(|word| words.contains(&word));
    let is_plan = |word: &str| {
        let bare = word.strip_prefix("za").unwrap_or(word);
        bare.starts_with("plan") && !bare.starts_with("plant")
    };
    if has(&[
        "rebuild",
        "overhaul",
        "uberhol",
        "revision",
        "reconstru",
        "remont",
        "revisione",
        "revisao",
    ]) || is_word(&["kit", "kits"])
    {
        Some(UsageReason::Rebuild)
    } else if has(&[
        "unplanned",
        "ungeplant",
        "not planned",
        "non plan",
        "no plan",
        "nao plan",
        "non program",
        "no program",
        "nao program",
        "non pian",
        "nieplan",
        "nie plan",
        "imprevu",
        "fail",
        "breakdown",
        "broke",
        "ausfall",
        "defekt",
        "storung",
        "schaden",
        "panne",
        "defaillance",
        "casse",
        "averia",
        "fallo",
        "rotura",
        "guasto",
        "rottura",
        "awaria",
        "uszkodz",
        "avaria",
        "falha",
        "quebra",
    ]) {
        Some(UsageReason::Failure)
    } else if has(&[
        "planned",
        "preventive",
        "prevent",
        "scheduled",
        "wartung",
        "vorbeug",
        "geplant",
        "entretien",
        "program",
        "manutenzione",
        "manutencao",
        "manteni",
        "przegl",
        "service",
    ]) || is_word(&["pm"])
        || folded.split(' ').any(is_plan)
    {
        Some(UsageReason::Planned)
    } else {
        None
    }
}

/// Outcome of judging a substitute.
pub fn read_outcome(text: &str) -> Option<ApprovalOutcome> {
    const REJECTED: [&str; 4] = ["not approved", "rejected", "nicht freigegeben", "abgelehnt"];
    const FAILED: [&str; 18] = [
        "did not fit",
        "does not fit",
        "didn t fit",
        "doesn t fit",
        "not fit",
        "no fit",
        "passt nicht",
        "nicht gepasst",
        "passte nicht",
        "ne va pas",
        "ne convient pas",
        "no encaja",
        "no sirve",
        "non va bene",
        "non idoneo",
        "nie pasuje",
        "nao serve",
        "nao encaixa",
    ];
    let folded = fold(text);
    // A failure stays one with words around it: `tried, did not fit`. Consent must be the whole word.
    if FAILED.iter().any(|words| folded.contains(words)) {
        return Some(ApprovalOutcome::DidNotFit);
    }
    if REJECTED.iter().any(|words| folded.contains(words)) {
        return Some(ApprovalOutcome::Rejected);
    }
    match folded.as_str() {
        "approved" | "ok" | "yes" | "fits" | "fitted" | "accepted" | "released" | "freigegeben"
        | "passt" | "ja" | "zugelassen" | "approuve" | "convient" | "oui" | "aprobado" | "apto"
        | "si" | "approvato" | "idoneo" | "zatwierdzony" | "zatwierdzone" | "pasuje" | "tak"
        | "aprovado" | "serve" | "sim" => Some(ApprovalOutcome::Approved),
        "no" | "failed" | "nein" | "refuse" | "non" | "rechazado" | "no apto" | "respinto"
        | "non approvato" | "odrzucony" | "nie" | "rejeitado" | "reprovado" | "nao" => {
            Some(ApprovalOutcome::DidNotFit)
        }
        _ => None,
    }
}

/// Kind of a way other than buying.
pub fn read_way_kind(text: &str) -> Option<OtherWayKind> {
    let folded = fold(text);
    let has = |words: &[&str]| words.iter().any(|word| folded.contains(word));
    if has(&[
        "other machine",
        "donor",
        "cannibal",
        "andere maschine",
        "anderer maschine",
        "autre machine",
        "otra maquina",
        "altra macchina",
        "innej maszyny",
        "inna maszyna",
        "outra maquina",
        "spender",
    ]) {
        Some(OtherWayKind::OtherMachine)
    } else if has(&[
        "other bin",
        "other store",
        "transfer",
        "another bin",
        "another store",
        "anderes lager",
        "anderer lagerplatz",
        "anderes fach",
        "umlager",
        "autre magasin",
        "otro almacen",
        "altro magazzino",
        "inny magazyn",
        "inna polka",
        "outro armazem",
    ]) {
        Some(OtherWayKind::OtherBin)
    } else if has(&[
        "repair",
        "reparatur",
        "reparation",
        "reparacion",
        "riparazione",
        "naprawa",
        "reparacao",
        "conserto",
    ]) {
        Some(OtherWayKind::RepairOutside)
    } else if has(&[
        "rework",
        "nacharbeit",
        "aufarbeit",
        "retouche",
        "reprise",
        "retrabajo",
        "rilavorazione",
        "przerobka",
        "retrabalho",
    ]) {
        Some(OtherWayKind::ReworkInHouse)
    } else if has(&[
        "make",
        "in house",
        "manufacture",
        "eigenfertigung",
        "fertigen",
        "selbst",
        "fabriquer",
        "fabrication",
        "fabricar",
        "costruire",
        "produzione interna",
        "wykonanie",
        "fabrico",
        "machined",
    ]) {
        Some(OtherWayKind::MakeInHouse)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn placeholders_are_nothing_and_ticks_are_something() {
        for text in ["-", "–", "n/a", "N.A.", "k. A.", "?", "---", "none"] {
            assert!(is_placeholder(text), "{text}");
        }
        for text in ["0", "✓", "NA-25", "x", "6305"] {
            assert!(!is_placeholder(text), "{text}");
        }
    }

    #[test]
    fn who_does_not_know_says_so_in_many_words() {
        for text in [
            "?",
            "unknown",
            "unbekannt",
            "k.A.",
            "n/a",
            "-",
            "TBD",
            "nicht bekannt",
            "à déterminer",
        ] {
            assert!(is_unknown_word(text), "{text}");
        }
        for text in ["CN", "C3", "open", "offen", "NBR", "0", "DB", "standard"] {
            assert!(!is_unknown_word(text), "{text}");
        }
    }

    #[test]
    fn total_rows_begin_with_a_word_for_total() {
        for text in [
            "Total",
            "Summe:",
            "Zwischensumme",
            "Grand total",
            "Sous-total",
            "Razem",
            "Σ",
        ] {
            assert!(is_total_word(text), "{text}");
        }
        for text in ["6305", "Totalizer spring?no", "Sumitec", "sous chef"] {
            assert!(!is_total_word(text), "{text}");
        }
    }

    #[test]
    fn choices_are_told_by_their_words_and_nothing_is_guessed() {
        assert_eq!(
            read_condition("Aufgearbeitet"),
            Some(Condition::Reconditioned)
        );
        assert_eq!(read_condition("shiny"), None);
        assert_eq!(read_reason("Breakdown"), Some(UsageReason::Failure));
        assert_eq!(read_reason("ungeplant"), Some(UsageReason::Failure));
        assert_eq!(read_reason("Wartung"), Some(UsageReason::Planned));
        assert_eq!(read_reason("Spindle rebuild"), Some(UsageReason::Rebuild));
        assert_eq!(read_reason("lost"), None);
        assert_eq!(
            read_outcome("passt nicht"),
            Some(ApprovalOutcome::DidNotFit)
        );
        for text in [
            "tried, did not fit",
            "Passt nicht, zu breit",
            "ne va pas",
            "rejected, did not fit",
            "nie",
        ] {
            assert_eq!(
                read_outcome(text),
                Some(ApprovalOutcome::DidNotFit),
                "{text}"
            );
        }
        for text in [
            "not approved",
            "Rejected",
            "nicht freigegeben",
            "abgelehnt (QS)",
        ] {
            assert_eq!(
                read_outcome(text),
                Some(ApprovalOutcome::Rejected),
                "{text}"
            );
        }
        assert_eq!(read_outcome("approved"), Some(ApprovalOutcome::Approved));
        for text in ["trial", "approved if it fits", "perhaps"] {
            assert_eq!(read_outcome(text), None, "{text}");
        }
        assert!(is_count_word("Number of items, sheet 1") && is_count_word("Nombre d'articles"));
        assert!(!is_count_word("Counter plate"));
        assert_eq!(
            read_way_kind("rework in house"),
            Some(OtherWayKind::ReworkInHouse)
        );
        assert_eq!(read_way_kind("magic"), None);
    }
}
