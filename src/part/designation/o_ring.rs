//! Reads O-rings: dash numbers of SAE AS568, and inside diameter by section.

use super::elastomer::{elastomer, is_alone, seal_elastomer};
use super::parsed::Designation;
use super::size_text::{joined, size_of, split_size};
use super::text::{split_digits, strip_word, tokens};
use crate::part::{Family, Traits};
use crate::units::Length;

const WORDS: [&str; 7] = [
    "O-RINGS",
    "O-RING",
    "O RING",
    "ORING",
    "O'RING",
    "OR",
    "RUNDDICHTRING",
];
const AS568: [&str; 4] = ["AS568A", "AS568", "AS 568A", "AS 568"];
const SIZE_CODES: [&str; 4] = ["ISO 3601-1", "ISO 3601", "ISO3601-1", "ISO3601"];
const JIS: [&str; 2] = ["JIS B 2401-1", "JIS B 2401"];
/// Sections in micrometres that only O-rings have (SAE AS568 rounded, ISO 3601-1:1988): a bare `31.34x3.53` is an O-ring.
const OWN_SECTIONS_UM: [i64; 8] = [1780, 2620, 3530, 5330, 6990, 1800, 2650, 3550];

/// What texts begin with that are read here, where it is a letter.
pub(super) fn openings() -> Vec<&'static str> {
    [&WORDS[..], &AS568, &SIZE_CODES, &JIS].concat()
}

/// Reads an O-ring designation from cleaned text.
pub(super) fn read(text: &str) -> Option<Designation> {
    let after_word = strip_word(text, &WORDS);
    let body = after_word.unwrap_or(text);
    let (mut designation, rest) = if let Some(rest) = strip_word(body, &AS568) {
        dash_number(rest)?
    } else if let Some(read) = size_code(body) {
        read
    } else if let Some(dash) = after_word.and_then(|_| dash_after_word(text)) {
        dash_number(dash)?
    } else if let Some(read) = jis_number(body, after_word.is_some()) {
        read
    } else {
        by_size(body, after_word.is_some())?
    };
    let unknown = read_material(&mut designation.traits, rest);
    designation.traits.unknown_suffixes = unknown;
    Some(designation)
}

/// The dash number of `O-ring -318`: three digits after a hyphen, and no size.
fn dash_after_word(text: &str) -> Option<&str> {
    let body = WORDS.iter().find_map(|word| text.strip_prefix(word))?;
    let (digits, rest) = body.trim_start().strip_prefix('-').map(split_digits)?;
    let ends = !rest.starts_with(['.', 'X']) && !rest.trim_start().starts_with('X');
    (digits.len() == 3 && ends).then(|| body.trim_start().trim_start_matches('-'))
}

fn dash_number(text: &str) -> Option<(Designation, &str)> {
    let (digits, rest) = split_digits(text);
    let number: u16 = digits.parse().ok().filter(|_| digits.len() <= 3)?;
    // SAE AS568: the groups of dash numbers by section, and the tube fitting group 9xx.
    let is_listed = matches!(
        number,
        1..=50 | 102..=178 | 201..=284 | 309..=395 | 425..=475 | 901..=932
    );
    is_listed.then(|| {
        let basic = format!("AS568-{number:03}");
        (Designation::of(basic, Some(Family::ORing)), rest)
    })
}

/// A size code of ISO 3601-1 with its tolerance class: `ISO 3601-1-214A`. Its numbers are those of SAE AS568.
///
/// Source: ISO 3601-1, annex of size codes; from memory.
fn size_code(text: &str) -> Option<(Designation, &str)> {
    let body = strip_word(text, &SIZE_CODES)?;
    let (digits, rest) = split_digits(body);
    let is_code = digits.len() == 3 && !rest.starts_with(['.', ',', '/']);
    let is_size = rest.trim_start().starts_with(['X', '\u{d7}']);
    let (read, rest) = (is_code && !is_size).then(|| dash_number(body))??;
    // Class A is the closer one, of inch rings; either is the same ring to its groove.
    let ends = |rest: &str| !rest.starts_with(|c: char| c.is_alphanumeric());
    let spaced = rest.trim_start();
    let after_class = spaced.strip_prefix(['A', 'B']).filter(|rest| ends(rest));
    let rest = after_class.unwrap_or(rest);
    ends(rest).then_some((read, rest))
}

/// Numbers of JIS B 2401, such as `P10A` or `G25`: only with the word or the standard in front, for they are short.
fn jis_number(text: &str, is_worded: bool) -> Option<(Designation, &str)> {
    let body = match strip_word(text, &JIS) {
        Some(body) => body,
        None if is_worded => text,
        None => return None,
    };
    let end = 1 + body
        .get(1..)?
        .find(|c: char| !c.is_ascii_digit() && c != '.')
        .unwrap_or(body.len() - 1);
    let end = end + usize::from(body[end..].starts_with('A'));
    let (number, rest) = body.split_at(end);
    let digits = number.strip_prefix(['P', 'G'])?;
    let is_number = digits.starts_with(|c: char| c.is_ascii_digit());
    let ends = !rest.starts_with(|c: char| c.is_alphanumeric());
    (is_number && ends).then(|| {
        (
            Designation::of(number.to_owned(), Some(Family::ORing)),
            rest,
        )
    })
}

fn by_size(text: &str, is_worded: bool) -> Option<(Designation, &str)> {
    let (lengths, rest) = split_size(text, 2)?;
    let section = lengths.last().copied()?;
    if !is_worded && !is_own_section(&lengths, section) {
        return None;
    }
    let mut designation = Designation::of(joined(&lengths), Some(Family::ORing));
    designation.size = size_of(Family::ORing, &lengths);
    Some((designation, rest))
}

fn is_own_section(lengths: &[Length], section: Length) -> bool {
    OWN_SECTIONS_UM.contains(&(section.as_nm() / 1_000)) && lengths.first() >= Some(&section)
}

/// Reads elastomer and hardness; gives the tokens that are neither. Of two elastomers neither is known, and both are given; of
/// two hardnesses the second is.
pub(super) fn read_material(traits: &mut Traits, rest: &str) -> Vec<String> {
    let mut unknown: Vec<String> = Vec::new();
    let is_shore = |name: &str| matches!(name, "SHORE" | "SH" | "SHA" | "SHOREA" | "A");
    let is_other_unit = |name: &str| {
        matches!(
            name,
            "BAR"
                | "RPM"
                | "U/MIN"
                | "1/MIN"
                | "C"
                | "\u{b0}C"
                | "\u{b0}"
                | "F"
                | "\u{b0}F"
                | "DEG"
                | "DEGC"
                | "GRAD"
                | "HRC"
                | "M/S"
                | "MM"
        )
    };
    let mut all = tokens(rest).peekable();
    let mut before = "";
    while let Some(token) = all.next() {
        let (digits_first, letters) = split_digits(token);
        let (name, hardness) = if digits_first.is_empty() {
            let end = token
                .find(|c: char| c.is_ascii_digit())
                .unwrap_or(token.len());
            token.split_at(end)
        } else {
            (letters, digits_first)
        };
        let shore = hardness
            .parse::<u8>()
            .ok()
            .filter(|h| (30..=98).contains(h));
        let is_shore_word = is_shore(name);
        // `90 Sh`: a letter alone may be the form of a seal.
        let is_before_shore = all
            .peek()
            .is_some_and(|next| next.len() > 1 && is_shore(next));
        let behind = all.peek().copied().filter(|next| !is_shore(next));
        let of_seal = seal_elastomer(name)
            .filter(|symbol| elastomer(name).is_some() || is_alone(symbol, before, behind));
        before = token;
        let known = match (of_seal, shore) {
            (Some(material), _) if hardness.is_empty() || shore.is_some() => {
                take_elastomer(traits, &mut unknown, material);
                true
            }
            // A number alone is a hardness only beside an elastomer or the word, and without another unit.
            (None, Some(_)) if name.is_empty() => {
                let is_of_other = all.peek().is_some_and(|next| is_other_unit(next));
                traits.material.is_some() && !is_of_other || is_before_shore
            }
            (None, Some(_)) => is_shore_word,
            (None, None) => hardness.is_empty() && is_shore_word && traits.hardness.is_some(),
            _ => false,
        };
        let hardness = shore.map(|shore| format!("{shore} Shore A"));
        let is_other =
            traits.hardness.is_some() && hardness.is_some() && traits.hardness != hardness;
        if !known || is_other {
            unknown.push(token.to_owned());
        } else {
            traits.hardness = hardness.or_else(|| traits.hardness.take());
        }
    }
    unknown
}

/// Keeps an elastomer; beside another one neither is known, and both are tokens that the part is asked for again.
fn take_elastomer(traits: &mut Traits, unknown: &mut Vec<String>, symbol: &str) {
    let is_contrary = unknown.iter().any(|token| seal_elastomer(token).is_some());
    let first = traits.material.take_if(|known| known.as_str() != symbol);
    if first.is_none() && !is_contrary {
        traits.material = Some(symbol.to_owned());
        return;
    }
    unknown.extend(first);
    if !unknown.iter().any(|token| token == symbol) {
        unknown.push(symbol.to_owned());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_behind_the_standard_is_no_size_code() {
        // ISO 3601-1 writes sizes as d1 x d2.
        for text in [
            "ISO 3601-1 125 X 3",
            "ISO 3601-1-125X3",
            "ISO 3601-1 125.5 X 3",
            "ISO 3601-1-2140",
            "ISO 3601-1-21",
            "ISO 3601-1-214C",
            "ISO 3601-1-199",
        ] {
            assert!(size_code(text).is_none(), "{text}");
        }
        for text in ["ISO 3601-1-214A", "ISO 3601-1 - 214 B", "ISO3601-1-214"] {
            let (read, _) = size_code(text).unwrap();
            assert_eq!(read.basic, "AS568-214", "{text}");
        }
    }

    #[test]
    fn a_hardness_is_told_by_its_unit_behind_a_blank_as_well() {
        // ISO 48-4 and common practice: Shore A.
        for (rest, hardness, unknown) in [
            (" 90 SH", Some("90 Shore A"), 0),
            (" 90 SHORE A", Some("90 Shore A"), 0),
            (" NBR 70", Some("70 Shore A"), 0),
            // ISO 6508-1: HRC is the hardness of the shaft's steel.
            (" NBR 50 HRC", None, 2),
            (" NBR 80 GRAD", None, 2),
            (" SHORE 70", None, 2),
            (" 90", None, 1),
            (" 90 A", None, 2),
            (" 20 SH", None, 2),
        ] {
            let mut traits = Traits::default();
            let left = read_material(&mut traits, rest);
            assert_eq!(traits.hardness.as_deref(), hardness, "{rest}");
            assert_eq!(left.len(), unknown, "{rest}");
        }
    }

    /// ISO 1629: a ring is of one elastomer, ISO 48-4: and of one hardness.
    #[test]
    fn of_two_elastomers_neither_is_known() {
        for (rest, material, left) in [
            (" NBR FKM", None, &["NBR", "FKM"][..]),
            (" NBR70 FKM", None, &["NBR", "FKM"]),
            (" NBR FPM EPDM", None, &["NBR", "FKM", "EPDM"]),
            (" NBR FKM NBR", None, &["NBR", "FKM"]),
            (" NBR NBR", Some("NBR"), &[]),
            (" FKM FPM", Some("FKM"), &[]),
            (" NBR 70", Some("NBR"), &[]),
            (" NBR 70 90", Some("NBR"), &["90"]),
            (" NBR 70 70", Some("NBR"), &[]),
        ] {
            let mut traits = Traits::default();
            assert_eq!(read_material(&mut traits, rest), left, "{rest}");
            assert_eq!(traits.material.as_deref(), material, "{rest}");
        }
    }
}
