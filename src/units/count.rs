//! Units of count: a piece is not a pair, a matched set is not two singles, a metre is not a piece.

use std::fmt;

/// What one counted thing is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum UnitOfCount {
    /// One piece.
    Piece,
    /// Two pieces sold together, but not matched to each other.
    Pair,
    /// Pieces matched to each other at manufacture; never split and never made up of singles.
    MatchedSet {
        /// Pieces in the set.
        pieces: u32,
    },
    /// A pack of so many pieces.
    Pack {
        /// Pieces in the pack.
        pieces: u32,
    },
    /// Length sold by the metre.
    Metre,
}

/// Why a unit of count could not be read, or two could not be converted.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum CountError {
    /// The word is not known.
    #[error(
        "`{found}` is not a unit of count; expected piece, pair, set of 2, pack of 10 or metre"
    )]
    NotAUnit {
        /// The text as found.
        found: String,
    },
    /// Counting one in the other would split or make up a set, or mix lengths and pieces.
    #[error("{have} cannot be counted as {want}: {why}")]
    Mismatch {
        /// The unit at hand.
        have: UnitOfCount,
        /// The unit asked for.
        want: UnitOfCount,
        /// The reason in words.
        why: &'static str,
    },
}

/// A number of counted things with its unit.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Quantity {
    /// How many, in `unit`; whole except for metres.
    pub amount: f64,
    /// What is counted.
    pub unit: UnitOfCount,
}

/// A quantity as it is said in a sentence: without the last bits that sums of parts of a metre leave.
pub fn without_rounding_residue(quantity: f64) -> f64 {
    const PARTS: f64 = 1e6;
    // Beyond that a double has no such parts.
    if quantity.abs() < 1e9 {
        (quantity * PARTS).round() / PARTS
    } else {
        quantity
    }
}

/// Words for a pack, in lower case.
const PACKS: [&str; 25] = [
    "pack",
    "packs",
    "pk",
    "pkg",
    "pck",
    "packung",
    "packungen",
    "box",
    "boxes",
    "carton",
    "cartons",
    "karton",
    "kartons",
    "ve",
    "vpe",
    "schachtel",
    "schachteln",
    "beutel",
    "bag",
    "bags",
    "gebinde",
    "paquet",
    "boite",
    "caja",
    "opak",
];

/// True for a word for a pack, in lower case, that does not say of how many.
pub fn is_pack(word: &str) -> bool {
    PACKS.contains(&word)
}

impl UnitOfCount {
    /// Reads the words used in spreadsheets: `pc`, `Stk`, `pair`, `set of 2`, `pack of 10`, `10/pk`, `m`.
    ///
    /// # Errors
    /// [`CountError::NotAUnit`] for anything else; an unknown unit is never taken for pieces.
    ///
    /// # Example
    /// ```
    /// use sparewright::units::UnitOfCount;
    /// assert_eq!(UnitOfCount::read("Stk")?, UnitOfCount::Piece);
    /// assert_eq!(UnitOfCount::read("set of 2")?, UnitOfCount::MatchedSet { pieces: 2 });
    /// assert!(UnitOfCount::read("box").is_err());
    /// # Ok::<(), sparewright::units::CountError>(())
    /// ```
    pub fn read(text: &str) -> Result<Self, CountError> {
        let not_a_unit = || CountError::NotAUnit {
            found: text.trim().to_owned(),
        };
        let lower = text.trim().trim_end_matches('.').to_lowercase();
        // UN/ECE Recommendation 20: one, and a piece.
        if matches!(lower.as_str(), "c62" | "h87") {
            return Ok(Self::Piece);
        }
        let number = only_number(&lower).ok_or_else(not_a_unit)?;
        let words: String = lower
            .chars()
            .map(|c| if c.is_alphabetic() { c } else { ' ' })
            .collect();
        let mut words = words
            .split_whitespace()
            .filter(|w| !matches!(*w, "of" | "a" | "à" | "de" | "zu" | "je" | "er"));
        let (word, rest) = (words.next().unwrap_or_default(), words.next());
        let pieces = match number.as_str() {
            "" => None,
            digits => Some(digits.parse::<u32>().map_err(|_| not_a_unit())?),
        };
        // A set of one piece is a set of a size that nobody said.
        let in_a_set = pieces.filter(|n| *n > 1);
        let is_matched = matches!(word, "matched" | "satz" | "set" | "jeu" | "juego" | "kpl");
        match word {
            "piece" | "pieces" | "pc" | "pcs" | "ea" | "each" | "stk" | "stück" | "stueck"
            | "st" | "pce" | "pièce" | "pieza" | "pza" | "ud" | "szt" | "pz" | "pezzo" | "un"
            | "pça" | "stck" | "stücke" | "unit" | "units" | "nos" | "uds" | "unidad"
            | "unidades" | "unité" | "unités" | "pièces" | "piezas" | "pezzi" | "sztuk"
            | "peça" | "peças"
                if rest.is_none_or(|w| matches!(w, "piece" | "pcs"))
                    && pieces.is_none_or(|n| n == 1) =>
            {
                Ok(Self::Piece)
            }
            "pair" | "pairs" | "paar" | "paare" | "paire" | "paires" | "par" | "para" | "pary"
            | "pares" | "pr" | "prs"
                if rest.is_none() && pieces.is_none_or(|n| n == 1) =>
            {
                Ok(Self::Pair)
            }
            "matched" if rest == Some("pair") && pieces.is_none_or(|n| n == 2) => {
                Ok(Self::MatchedSet { pieces: 2 })
            }
            _ if is_matched => in_a_set
                .map(|pieces| Self::MatchedSet { pieces })
                .ok_or_else(not_a_unit),
            pack if is_pack(pack) => pieces
                .filter(|n| *n > 0)
                .map(|pieces| Self::Pack { pieces })
                .ok_or_else(not_a_unit),
            "m" | "metre" | "metres" | "meter" | "meters" | "mtr" | "lfm" | "mètre" | "mètres"
            | "metro" | "metros"
                if rest.is_none() && pieces.is_none_or(|n| n == 1) =>
            {
                Ok(Self::Metre)
            }
            _ => Err(not_a_unit()),
        }
    }

    /// How many `want` are in one of `self`; packs and pairs open into pieces, matched sets never do.
    ///
    /// # Errors
    /// [`CountError::Mismatch`] where the two must not be exchanged.
    pub fn in_units_of(self, want: Self) -> Result<f64, CountError> {
        let mismatch = |why| {
            Err(CountError::Mismatch {
                have: self,
                want,
                why,
            })
        };
        match (self, want) {
            (a, b) if a == b => Ok(1.0),
            (Self::MatchedSet { .. }, Self::MatchedSet { .. }) => {
                mismatch("the sets hold different numbers of pieces")
            }
            (Self::MatchedSet { .. }, _) => mismatch("a matched set is never split"),
            (_, Self::MatchedSet { .. }) => mismatch("a matched set is never made up of singles"),
            (Self::Metre, _) | (_, Self::Metre) => mismatch("a length is not a number of pieces"),
            _ => Ok(f64::from(self.loose_pieces()) / f64::from(want.loose_pieces())),
        }
    }

    /// An amount of this unit in words: `1 piece`, `2 pieces`, `2 matched sets of 2`.
    pub fn counted(self, amount: f64) -> String {
        format!("{amount} {}", self.noun(amount))
    }

    /// The unit as it stands behind an amount: `piece` behind 1, `pieces` behind 2.
    pub fn noun(self, amount: f64) -> String {
        let unit = self.to_string();
        let (noun, rest) = unit
            .split_once(" of ")
            .map_or((unit.as_str(), String::new()), |(a, b)| {
                (a, format!(" of {b}"))
            });
        let is_one = (amount - 1.0).abs() < 1e-9;
        format!("{noun}{}{rest}", if is_one { "" } else { "s" })
    }

    /// Pieces that may be taken singly from one of this unit; 1 for a metre, which is not countable.
    fn loose_pieces(self) -> u32 {
        match self {
            Self::Piece | Self::Metre => 1,
            Self::Pair => 2,
            Self::Pack { pieces } | Self::MatchedSet { pieces } => pieces,
        }
    }
}

/// The digits of the one whole number in a text, `1,000` being one; empty without any, `None` for two or for decimals.
fn only_number(text: &str) -> Option<String> {
    let is_inside = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '\'');
    let mut numbers = text
        .split(|c: char| !is_inside(c))
        .map(|number| number.trim_matches(['.', ',', '\'']))
        .filter(|number| !number.is_empty());
    let number = numbers.next().unwrap_or_default();
    let are_groups = number
        .split(['.', ',', '\''])
        .skip(1)
        .all(|group| group.len() == 3);
    (numbers.next().is_none() && are_groups)
        .then(|| number.chars().filter(char::is_ascii_digit).collect())
}

impl fmt::Display for UnitOfCount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Piece => f.write_str("piece"),
            Self::Pair => f.write_str("pair"),
            Self::MatchedSet { pieces } => write!(f, "matched set of {pieces}"),
            Self::Pack { pieces } => write!(f, "pack of {pieces}"),
            Self::Metre => f.write_str("metre"),
        }
    }
}

impl serde::Serialize for UnitOfCount {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pack_opens_into_pieces_but_a_matched_set_never_does() {
        let pack = UnitOfCount::Pack { pieces: 10 };
        assert_eq!(pack.in_units_of(UnitOfCount::Piece), Ok(10.0));
        assert_eq!(UnitOfCount::Pair.in_units_of(UnitOfCount::Piece), Ok(2.0));
        let set = UnitOfCount::MatchedSet { pieces: 2 };
        assert!(set.in_units_of(UnitOfCount::Piece).is_err());
        assert!(UnitOfCount::Piece.in_units_of(set).is_err());
        assert!(UnitOfCount::Metre.in_units_of(UnitOfCount::Piece).is_err());
    }

    #[test]
    fn a_sum_is_said_without_its_last_bits() {
        // 8.4 less 3.6 is 4.800000000000001 in doubles (IEEE 754).
        let left = 8.4 - 3.6;
        assert_ne!(left.to_string(), "4.8");
        assert_eq!(without_rounding_residue(left).to_string(), "4.8");
        for quantity in [0.0, 0.75, 1.0, 12_345.25, 3e12, -1.0] {
            assert_eq!(
                without_rounding_residue(quantity).to_string(),
                quantity.to_string()
            );
        }
    }

    #[test]
    fn amounts_are_put_in_words() {
        assert_eq!(UnitOfCount::Piece.counted(1.0), "1 piece");
        assert_eq!(UnitOfCount::Metre.counted(4.5), "4.5 metres");
        assert_eq!(
            UnitOfCount::MatchedSet { pieces: 2 }.counted(2.0),
            "2 matched sets of 2"
        );
    }

    #[test]
    fn reads_words_of_several_languages() {
        for (text, unit) in [
            ("Stück", UnitOfCount::Piece),
            ("EA", UnitOfCount::Piece),
            ("Paar", UnitOfCount::Pair),
            ("matched pair", UnitOfCount::MatchedSet { pieces: 2 }),
            ("Satz à 2", UnitOfCount::MatchedSet { pieces: 2 }),
            ("10/pk", UnitOfCount::Pack { pieces: 10 }),
            ("Packung 25", UnitOfCount::Pack { pieces: 25 }),
            ("m", UnitOfCount::Metre),
        ] {
            assert_eq!(UnitOfCount::read(text), Ok(unit), "{text}");
        }
        for text in ["", "set", "pack", "box", "kg"] {
            assert!(UnitOfCount::read(text).is_err(), "{text}");
        }
    }
}
