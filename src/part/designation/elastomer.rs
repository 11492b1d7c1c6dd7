//! Names of elastomers: the symbols of ISO 1629, older ones, and plain names.

/// Elastomers by their ISO 1629 symbol, and PTFE, which is none and seals as well.
///
/// # Source
/// ISO 1629, from memory: of the symbols those that seals are made of or that stores keep.
const ELASTOMERS: [&str; 30] = [
    "NBR", "HNBR", "XNBR", "FKM", "FFKM", "EPDM", "VMQ", "FVMQ", "ACM", "AEM", "CR", "IIR", "SBR",
    "PTFE", "EPM", "FEPM", "CSM", "ECO", "GECO", "EVM", "ANM", "FMQ", "PMQ", "PVMQ", "BIIR",
    "CIIR", "XSBR", "ENR", "AFMU", "PSBR",
];

/// Symbols of two letters, which are words and other marks as well (`NR` is a snap ring, `IR` an inner ring, `au` French): only
/// of a seal, and only in capitals.
///
/// # Source
/// ISO 1629, from memory.
const OF_SEALS_ONLY: [&str; 7] = ["AU", "EU", "NR", "IR", "BR", "CO", "MQ"];

/// Older symbols of DIN (from memory), and plain names of elastomers (common practice, no source).
const NAMES: [(&str, &str); 14] = [
    ("FPM", "FKM"),
    ("MVQ", "VMQ"),
    ("MFQ", "FVMQ"),
    ("FFPM", "FFKM"),
    ("NITRILE", "NBR"),
    ("NITRIL", "NBR"),
    ("SILICONE", "VMQ"),
    ("SILIKON", "VMQ"),
    ("SILICON", "VMQ"),
    ("FLUOROSILICONE", "FVMQ"),
    ("FLUORSILIKON", "FVMQ"),
    ("CHLOROPRENE", "CR"),
    ("CHLOROPREN", "CR"),
    ("BUTYL", "IIR"),
];

/// The ISO 1629 symbol of an elastomer: by itself, by the older symbols of DIN, or by its plain name.
///
/// # Example
/// ```
/// use sparewright::part::designation::elastomer;
/// assert_eq!(elastomer("fpm"), Some("FKM"));
/// assert_eq!(elastomer("nitrile"), Some("NBR"));
/// assert_eq!(elastomer("rubber"), None);
/// ```
pub fn elastomer(word: &str) -> Option<&'static str> {
    let is = |known: &&str| known.eq_ignore_ascii_case(word);
    let by_name = NAMES.iter().find(|(name, _)| is(name));
    by_name
        .map(|(_, symbol)| *symbol)
        .or_else(|| ELASTOMERS.into_iter().find(is))
}

/// The ISO 1629 symbol of what a seal is made of, which may have two letters.
///
/// # Example
/// ```
/// use sparewright::part::designation::{elastomer, seal_elastomer};
/// assert_eq!(seal_elastomer("AU"), Some("AU"));
/// assert_eq!((seal_elastomer("au"), elastomer("AU")), (None, None));
/// ```
pub fn seal_elastomer(word: &str) -> Option<&'static str> {
    elastomer(word).or_else(|| OF_SEALS_ONLY.into_iter().find(|known| *known == word))
}

/// True where no other word stands beside a symbol of two letters: `ART. NR 4711`, `STOCK EU` and `JOINT AU DETAIL` name none.
pub(super) fn is_alone(symbol: &str, before: &str, behind: Option<&str>) -> bool {
    /// Most digits of a hardness.
    const MOST_DIGITS: usize = 2;
    let is_word = |token: &str| token.len() > 1 && token.bytes().all(|b| b.is_ascii_alphabetic());
    let is_number = |token: &str| token.bytes().filter(u8::is_ascii_digit).count() > MOST_DIGITS;
    symbol.len() > 2
        || !is_word(before) && !behind.is_some_and(|behind| is_word(behind) || is_number(behind))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::part::designation::Designation;

    #[test]
    fn elastomers_go_by_symbol_and_plain_name() {
        // ISO 1629, from memory; plain names common practice, no source.
        for (word, symbol) in [
            ("NBR", Some("NBR")),
            ("nbr", Some("NBR")),
            ("FPM", Some("FKM")),
            ("Nitril", Some("NBR")),
            ("silicone", Some("VMQ")),
            ("CSM", Some("CSM")),
            ("fepm", Some("FEPM")),
            ("EPM", Some("EPM")),
            ("ECO", Some("ECO")),
            ("butyl", Some("IIR")),
            ("leather", None),
            ("", None),
        ] {
            assert_eq!(elastomer(word), symbol, "{word}");
            assert_eq!(seal_elastomer(word), symbol, "{word}");
        }
        for symbol in OF_SEALS_ONLY {
            assert_eq!(elastomer(symbol), None, "{symbol}");
            assert_eq!(seal_elastomer(symbol), Some(symbol));
            assert_eq!(seal_elastomer(&symbol.to_lowercase()), None, "{symbol}");
        }
    }

    #[test]
    fn every_symbol_is_of_one_list() {
        let all = || ELASTOMERS.into_iter().chain(OF_SEALS_ONLY);
        for symbol in all() {
            assert_eq!(all().filter(|of| *of == symbol).count(), 1, "{symbol}");
        }
        for (name, symbol) in NAMES {
            assert!(all().any(|of| of == symbol), "{symbol}");
            assert!(all().all(|of| of != name), "{name}");
        }
    }

    /// ISO 1629, from memory; ISO 48-4: Shore A.
    #[test]
    fn a_seal_says_its_elastomer_and_hardness() {
        for (text, material, hardness, unknown) in [
            ("AS568-325 AU 90", Some("AU"), Some("90 Shore A"), &[][..]),
            ("AS568-325 AU", Some("AU"), None, &[]),
            ("AS568-325 EU 85", Some("EU"), Some("85 Shore A"), &[]),
            ("AS568-325 CSM 70", Some("CSM"), Some("70 Shore A"), &[]),
            ("AS568-325 ECO", Some("ECO"), None, &[]),
            ("AS568-325 FEPM", Some("FEPM"), None, &[]),
            ("O-RING 40X3 NR", Some("NR"), None, &[]),
            ("O-RING 40X3 EPM 70", Some("EPM"), Some("70 Shore A"), &[]),
            // Numbers and words beside two letters show that they are no elastomer.
            ("O-RING 40X3 NR 4711", None, None, &["NR", "4711"]),
            ("O-RING 40X3 STOCK EU", None, None, &["STOCK", "EU"]),
        ] {
            let read = Designation::parse(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(read.traits.material.as_deref(), material, "{text}");
            assert_eq!(read.traits.hardness.as_deref(), hardness, "{text}");
            assert_eq!(read.traits.unknown_suffixes, unknown, "{text}");
        }
        // Behind a bare size two letters make no seal.
        let bare = Designation::parse("40X90X23 NR").map(|read| read.family);
        assert_ne!(bare, Some(Some(crate::part::Family::LipSeal)));
        // Of a bearing the two letters are its snap ring (DIN 623-1).
        let ring = Designation::parse("6308 NR").map(|read| read.traits);
        let ring = ring.map(|traits| (traits.material, traits.has_snap_ring_groove));
        assert_eq!(ring, Some((None, Some(true))));
    }
}
