//! Words for kinds of movements of a store: `issue`, `Zugang`, `Umlagerung`.

use crate::import::fold::{fold, join_umlauts};
use crate::record::{Movement, MovementCodes};

/// Words between what a movement is and what it is for: `goods issue for order`, `Warenausgang auf Kostenstelle`.
const JOINTS: [&str; 5] = [" for ", " fur ", " auf ", " zum ", " zur "];

/// The kind of a movement as the settings say of its code, else by its words.
pub fn movement_of(text: &str, codes: &MovementCodes) -> Option<Movement> {
    codes.meaning(text).or_else(|| read_movement(text))
}

/// Reads the kind of a movement, a number in front or behind aside (`12 Entnahme`) and what it is for (`goods issue for
/// order`); `None` for a code and for a word that is not sure, such as `reversal of issue`.
///
/// Common practice, no source; from memory.
pub fn read_movement(text: &str) -> Option<Movement> {
    let folded = fold(text);
    let is_code = |word: &str| word.chars().all(|c| c.is_ascii_digit());
    let words: Vec<&str> = folded.split(' ').filter(|word| !is_code(word)).collect();
    let words = words.join(" ");
    let of = |words: &str| of_words(words).or_else(|| of_words(&join_umlauts(words)?));
    of(&words).or_else(|| {
        let ends = JOINTS.iter().filter_map(|joint| words.find(joint));
        of(&words[..ends.min()?])
    })
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
        "return to supplier"
        | "return to vendor"
        | "returned to supplier"
        | "supplier return"
        | "rucklieferung"
        | "lieferantenretoure"
        | "rucksendung"
        | "rucksendung an lieferant"
        | "rucksendung an lieferanten" => Movement::Receipt,
        "scrap" | "scrapped" | "scrapping" | "disposal" | "disposed" | "write off"
        | "written off" | "verschrottung" | "verschrottet" | "schrott" | "entsorgung"
        | "entsorgt" | "ausschuss" | "ausbuchung" => Movement::Scrap,
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
            // Neither used nor brought back.
            ("return to supplier", Some(Movement::Receipt)),
            ("Rücklieferung", Some(Movement::Receipt)),
            ("Verschrottung", Some(Movement::Scrap)),
            ("55 scrapped", Some(Movement::Scrap)),
            ("Goods issue for order", Some(Movement::Issue)),
            ("Goods receipt for order", Some(Movement::Receipt)),
            ("Warenausgang auf Kostenstelle", Some(Movement::Issue)),
            ("Rückgabe zum Auftrag", Some(Movement::Return)),
            ("no issue", None),
            ("reversal of issue", None),
            ("waiting for issue", None),
            ("", None),
        ] {
            assert_eq!(read_movement(text), expected, "{text}");
        }
    }
}
