//! Words for kinds of movements of a store: `issue`, `Zugang`, `Umlagerung`.

use crate::import::fold::{fold, join_umlauts};

/// What a row of a list of movements is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Movement {
    /// Taken from the shelf and used.
    Issue,
    /// Brought back to the shelf unused.
    Return,
    /// Came from outside.
    Receipt,
    /// From one place of the shop to another.
    Transfer,
    /// Counted, or put right after counting.
    Count,
}

impl Movement {
    /// True for what changes how many were used.
    pub const fn is_of_usage(self) -> bool {
        matches!(self, Self::Issue | Self::Return)
    }
}

/// Reads the kind of a movement, a number in front or behind aside (`201 Entnahme`); `None` for a code and for a word that is
/// not sure: what goes back to a supplier and what is scrapped are neither used nor returned.
///
/// Common practice, no source; from memory.
pub fn read_movement(text: &str) -> Option<Movement> {
    let folded = fold(text);
    let is_code = |word: &str| word.chars().all(|c| c.is_ascii_digit());
    let words: Vec<&str> = folded.split(' ').filter(|word| !is_code(word)).collect();
    let words = words.join(" ");
    of_words(&words).or_else(|| of_words(&join_umlauts(&words)?))
}

fn of_words(words: &str) -> Option<Movement> {
    Some(match words {
        "issue" | "issued" | "issues" | "goods issue" | "stock issue" | "withdrawal"
        | "withdrawn" | "consumption" | "consumed" | "usage" | "used" | "out" | "outgoing"
        | "entnahme" | "lagerentnahme" | "materialentnahme" | "entnommen" | "abgang"
        | "lagerabgang" | "warenausgang" | "ausgang" | "ausgabe" | "verbrauch" | "sortie"
        | "sortie stock" | "sortie de stock" | "consommation" | "salida" | "salida de almacen"
        | "consumo" | "uscita" | "scarico" | "prelievo" | "wydanie" | "rozchod" | "zuzycie"
        | "saida" | "uitgifte" | "verbruik" | "afname" => Movement::Issue,
        "return" | "returned" | "returns" | "return to stock" | "return to store" | "ruckgabe"
        | "zuruckgegeben" | "rucknahme" | "ruckbuchung" | "retour" | "retour en stock"
        | "retour stock" | "devolucion" | "reso" | "rientro" | "zwrot" | "devolucao"
        | "teruggave" => Movement::Return,
        "receipt" | "receipts" | "received" | "goods receipt" | "stock receipt" | "in"
        | "incoming" | "zugang" | "lagerzugang" | "wareneingang" | "eingang" | "einlagerung"
        | "entree" | "entree stock" | "entree en stock" | "reception" | "entrada"
        | "entrada de almacen" | "recepcion" | "entrata" | "carico" | "ricevimento"
        | "przyjecie" | "przychod" | "recebimento" | "ontvangst" => Movement::Receipt,
        "transfer" | "transferred" | "stock transfer" | "bin transfer" | "relocation"
        | "umlagerung" | "umgelagert" | "umbuchung" | "transfert" | "traslado"
        | "transferencia" | "trasferimento" | "przesuniecie" | "przeniesienie" | "overboeking"
        | "verplaatsing" => Movement::Transfer,
        "count" | "counted" | "stock count" | "cycle count" | "stocktake" | "stock take"
        | "stocktaking" | "inventory" | "inventory count" | "inventur" | "inventurdifferenz"
        | "zahlung" | "bestandsaufnahme" | "inventaire" | "inventario" | "recuento"
        | "inwentaryzacja" | "spis" | "inventaris" | "telling" => Movement::Count,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Common practice, no source: words as lists have them, with and without a number beside.
    #[test]
    fn plain_words_are_read_and_codes_are_not() {
        for (text, expected) in [
            ("issue", Some(Movement::Issue)),
            ("Entnahme", Some(Movement::Issue)),
            ("ABGANG", Some(Movement::Issue)),
            ("201 Entnahme", Some(Movement::Issue)),
            ("Sortie", Some(Movement::Issue)),
            ("receipt", Some(Movement::Receipt)),
            ("Zugang", Some(Movement::Receipt)),
            ("Wareneingang (101)", Some(Movement::Receipt)),
            ("transfer", Some(Movement::Transfer)),
            ("Umlagerung", Some(Movement::Transfer)),
            ("return", Some(Movement::Return)),
            ("Rückgabe", Some(Movement::Return)),
            ("Rueckgabe", Some(Movement::Return)),
            ("Inventur", Some(Movement::Count)),
            ("Zählung", Some(Movement::Count)),
            ("261", None),
            ("WA", None),
            ("I", None),
            ("return to supplier", None),
            ("Verschrottung", None),
            ("no issue", None),
            ("", None),
        ] {
            assert_eq!(read_movement(text), expected, "{text}");
        }
    }
}
