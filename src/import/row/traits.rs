//! Traits of a part from its columns, compared with what its designation says.

use std::fmt::Display;

use crate::import::family_words::family_in;
use crate::import::field::Field;
use crate::import::fold::fold;
use crate::import::issue::{Problem, Severity};
use crate::import::value::is_unknown_word;
use crate::part::designation::{Designation, elastomer, seal_elastomer};
use crate::part::{
    BoreForm, Clearance, Closure, ContactAngle, Family, RibForm, SealForm, ToleranceClass, Traits,
};

use super::hedges::{is_hedged, is_negated};
use super::piece_beside::pieces;
use super::reader::RowReader;

/// Reads trait columns over what the designation says; where both speak and differ, neither is taken.
pub fn read_traits(row: &mut RowReader<'_, '_>, designation: Option<(&Traits, &str)>) -> Traits {
    let mut traits = designation
        .map(|(traits, _)| traits.clone())
        .unwrap_or_default();
    let printed = designation.map_or("", |(_, printed)| printed);
    yield_defaults(row, printed, &mut traits);
    read_codes(row, printed, &mut traits);
    if let Some(groove) = row.flag(Field::SnapRingGroove) {
        let slot = &mut traits.has_snap_ring_groove;
        settle(row, printed, Field::SnapRingGroove, slot, groove);
    }
    for (field, slot) in [
        (Field::PreloadClass, &mut traits.preload_class),
        (Field::Arrangement, &mut traits.arrangement),
        (Field::Cage, &mut traits.cage),
        (Field::Hardness, &mut traits.hardness),
    ] {
        if let Some(text) = row.text(field).filter(|text| !is_unknown_word(text)) {
            settle(row, printed, field, slot, text);
        }
    }
    if let Some(text) = row
        .text(Field::Variant)
        .filter(|text| !is_unknown_word(text))
    {
        add_variants(&mut traits, &text);
    }
    settle_material(row, printed, &mut traits.material);
    traits
}

/// Reads the elastomer or other material from the row's words and its column; where they differ none is known.
fn settle_material(row: &mut RowReader<'_, '_>, printed: &str, slot: &mut Option<String>) {
    let mut said_by = printed.to_owned();
    for field in SAID_IN {
        tell_doubt(row, printed, field, slot);
    }
    if let Some((text, field, elastomer)) = elastomer_words(row) {
        match slot.as_ref() {
            None => said_by = text,
            Some(known) if *known == elastomer => {}
            Some(_) => {
                settle(row, printed, field, slot, elastomer);
                return;
            }
        }
        *slot = Some(elastomer);
    }
    let column = row.text(Field::Material);
    if let Some(text) = column.filter(|text| !is_unknown_word(text)) {
        let material = read_material(&text);
        settle(row, &said_by, Field::Material, slot, material);
    }
}

/// Several things may set a part apart: `E` of the designation and `inner ring only` of the column.
fn add_variants(traits: &mut Traits, column: &str) {
    let of_column = Traits {
        variant: Some(column.to_owned()),
        ..Traits::default()
    };
    for piece in of_column.variants() {
        traits.add_variant(piece);
    }
}

/// Reads the columns whose words are codes of the standards.
fn read_codes(row: &mut RowReader<'_, '_>, printed: &str, traits: &mut Traits) {
    use Field as F;
    let closures = "open, Z, 2Z, RS, 2RS, RZ or 2RZ";
    let closure = &mut traits.closure;
    coded(row, printed, F::Closure, closures, closure, read_closure);
    let clearances = "C2, CN, C3, C4 or C5";
    let clearance = &mut traits.clearance;
    coded(
        row,
        printed,
        F::Clearance,
        clearances,
        clearance,
        read_clearance,
    );
    let classes = "P0, P6, P5, P4 or P2";
    let class = &mut traits.tolerance_class;
    coded(row, printed, F::ToleranceClass, classes, class, read_class);
    let angles = "an angle in degrees such as `40`";
    let angle = &mut traits.contact_angle;
    coded(row, printed, F::ContactAngle, angles, angle, read_angle);
    let ribs = "N, NU, NJ or NUP";
    let rib = &mut traits.rib_form;
    coded(row, printed, F::RibForm, ribs, rib, RibForm::from_code);
    let bores = "cylindrical, K or K30";
    let bore = &mut traits.bore_form;
    coded(row, printed, F::BoreForm, bores, bore, read_bore_form);
    let seals = "A, AS, B, BS, C or CS";
    let seal = &mut traits.seal_form;
    coded(row, printed, F::SealForm, seals, seal, SealForm::from_code);
    coded(row, printed, F::Rows, "1 or 2", &mut traits.rows, read_rows);
}

fn read_rows(text: &str) -> Option<u8> {
    let rows = text.parse::<u8>().ok()?;
    (1..=4).contains(&rows).then_some(rows)
}

/// The designation with the closure of the row's own column, where the designation itself names none.
pub fn closed_as(row: &mut RowReader<'_, '_>, parsed: &Designation) -> Designation {
    let mut closed = parsed.clone();
    if matches!(closed.traits.closure, None | Some(Closure::Open)) {
        let of_column = row
            .text_of(Field::Closure)
            .and_then(|text| read_closure(&text));
        // A column that does not know leaves open which of two widths it is.
        if of_column.is_some() || row.has_words(Field::Closure) {
            closed.traits.closure = of_column;
        }
    }
    closed
}

/// Forgets what a designation says only by leaving a suffix out, where a column speaks: `6205` is open by
/// itself, and `6205` beside a column that says `2RS` or `unknown` is not.
fn yield_defaults(row: &mut RowReader<'_, '_>, printed: &str, traits: &mut Traits) {
    let says = |codes: &[&str]| {
        let upper = printed.to_uppercase();
        upper
            .split(|c: char| !c.is_alphanumeric())
            .any(|word| codes.contains(&word))
    };
    if traits.closure == Some(Closure::Open) && row.has_words(Field::Closure) {
        traits.closure = None;
    }
    let is_normal = traits.clearance == Some(Clearance::Normal) && !says(&["CN", "C0"]);
    if is_normal && row.has_words(Field::Clearance) {
        traits.clearance = None;
    }
    let is_normal = traits.tolerance_class == Some(ToleranceClass::Normal) && !says(&["P0", "PN"]);
    if is_normal && row.has_words(Field::ToleranceClass) {
        traits.tolerance_class = None;
    }
    if traits.bore_form == Some(BoreForm::Cylindrical) && row.has_words(Field::BoreForm) {
        traits.bore_form = None;
    }
    if traits.has_snap_ring_groove == Some(false) && row.has_words(Field::SnapRingGroove) {
        traits.has_snap_ring_groove = None;
    }
}

fn coded<T: PartialEq + Display>(
    row: &mut RowReader<'_, '_>,
    printed: &str,
    field: Field,
    expected: &'static str,
    slot: &mut Option<T>,
    read: impl Fn(&str) -> Option<T>,
) {
    let Some(text) = row.text_of(field).filter(|text| !is_unknown_word(text)) else {
        return;
    };
    match row.word(field, &text, expected, read) {
        Some(value) => settle(row, printed, field, slot, value),
        // The column speaks and cannot be understood: what the designation says may be contradicted by it.
        None => *slot = None,
    }
}

fn settle<T: PartialEq + Display>(
    row: &mut RowReader<'_, '_>,
    printed: &str,
    field: Field,
    slot: &mut Option<T>,
    value: T,
) {
    match slot.take() {
        Some(says) if says != value => {
            let problem = Problem::TraitContradicts {
                column: value.to_string(),
                designation: printed.to_owned(),
                says: says.to_string(),
            };
            row.issue(Severity::Doubtful, Some(field), problem);
        }
        _ => *slot = Some(value),
    }
}

/// A closure by its code or in words.
fn read_closure(text: &str) -> Option<Closure> {
    let code = text.trim().to_uppercase().replace([' ', '-', '.'], "");
    Some(match code.as_str() {
        "Z" | "1Z" => Closure::ShieldOneSide,
        "2Z" | "ZZ" => Closure::ShieldBothSides,
        "RZ" | "1RZ" => Closure::LowFrictionSealOneSide,
        "2RZ" => Closure::LowFrictionSealBothSides,
        "RS" | "1RS" => Closure::SealOneSide,
        "2RS" => Closure::SealBothSides,
        _ => match fold(text).as_str() {
            "open" | "offen" | "ouvert" | "abierto" | "aperto" | "otwarte" | "aberto" => {
                Closure::Open
            }
            "shielded both sides"
            | "two shields"
            | "2 shields"
            | "beidseitig deckscheibe"
            | "2 deckscheiben" => Closure::ShieldBothSides,
            "sealed both sides"
            | "two seals"
            | "2 seals"
            | "beidseitig dichtscheibe"
            | "2 dichtscheiben" => Closure::SealBothSides,
            "shielded one side" | "one shield" | "1 shield" => Closure::ShieldOneSide,
            "sealed one side" | "one seal" | "1 seal" => Closure::SealOneSide,
            _ => return None,
        },
    })
}

fn read_clearance(text: &str) -> Option<Clearance> {
    Clearance::from_code(text).or_else(|| {
        matches!(
            fold(text).as_str(),
            "c0" | "normal" | "norm" | "std" | "standard" | "normale" | "normalny" | "normalna"
        )
        .then_some(Clearance::Normal)
    })
}

fn read_class(text: &str) -> Option<ToleranceClass> {
    ToleranceClass::from_code(text).or_else(|| match fold(text).as_str() {
        "pn" | "0" | "normal" | "class normal" | "class 0" => Some(ToleranceClass::Normal),
        "6" | "class 6" => Some(ToleranceClass::P6),
        "5" | "class 5" => Some(ToleranceClass::P5),
        "4" | "class 4" => Some(ToleranceClass::P4),
        "2" | "class 2" => Some(ToleranceClass::P2),
        _ => None,
    })
}

fn read_angle(text: &str) -> Option<ContactAngle> {
    let digits = text
        .trim()
        .trim_end_matches('°')
        .trim_end_matches("deg")
        .trim();
    digits
        .parse::<u8>()
        .ok()
        .filter(|angle| (1..=90).contains(angle))
        .map(ContactAngle)
}

fn read_bore_form(text: &str) -> Option<BoreForm> {
    BoreForm::from_code(text).or_else(|| match fold(text).as_str() {
        "no" | "straight" | "zylindrisch" | "cyl" | "cylindrique" | "cilindrico"
        | "cylindryczny" => Some(BoreForm::Cylindrical),
        "1 12" | "taper 1 12" | "kegelig 1 12" => Some(BoreForm::Taper12),
        "1 30" | "taper 1 30" | "kegelig 1 30" => Some(BoreForm::Taper30),
        _ => None,
    })
}

/// The first of description and designation that says O-ring or lip seal and names one elastomer, with it.
fn elastomer_words(row: &mut RowReader<'_, '_>) -> Option<(String, Field, String)> {
    SAID_IN.into_iter().find_map(|field| {
        let text = row.text(field)?;
        let elastomer = elastomer_in(&text)?;
        Some((text, field, elastomer))
    })
}

/// Columns of which the words may name an elastomer.
const SAID_IN: [Field; 2] = [Field::Description, Field::Designation];

/// Says that an elastomer is only denied, wished for or one of a choice: `O-ring not NBR`. One that the designation says and
/// the words deny is not known.
fn tell_doubt(row: &mut RowReader<'_, '_>, printed: &str, field: Field, slot: &mut Option<String>) {
    let Some(text) = row.text_of(field).filter(|text| may_name_elastomer(text)) else {
        return;
    };
    let named = named_in(&text);
    let has_fact = named.iter().any(|of| !of.is_doubted);
    let Some(first) = named.first().filter(|_| !has_fact) else {
        return;
    };
    let is_known = slot.as_deref() == Some(first.symbol);
    let is_told = slot.is_some() && is_known != first.is_denied;
    if is_told || !family_in(&text).is_some_and(is_of_elastomer) {
        return;
    }
    if is_known {
        *slot = None;
    }
    let number = Some(printed).filter(|printed| !printed.is_empty());
    let problem = Problem::UnreadBeside {
        number: number.unwrap_or(&text).to_owned(),
        unread: first.words.clone(),
    };
    row.issue(Severity::Doubtful, Some(field), problem);
}

/// An elastomer that words name.
struct NamedElastomer {
    symbol: &'static str,
    /// As written.
    words: String,
    /// Denied, wished for, a choice or a place.
    is_doubted: bool,
    is_denied: bool,
}

/// True for a text with the symbol of an elastomer: most texts have none.
fn may_name_elastomer(text: &str) -> bool {
    symbols_in(text).next().is_some()
}

fn symbols_in(text: &str) -> impl Iterator<Item = &'static str> {
    text.split(|c: char| !c.is_alphanumeric())
        .map(|word| word.trim_end_matches(|c: char| c.is_ascii_digit()))
        .filter(|word| word.len() > 2)
        .filter_map(elastomer)
}

/// The elastomers of a text, but for those of another part than this one.
fn named_in(text: &str) -> Vec<NamedElastomer> {
    let mut found = Vec::new();
    for piece in pieces(text) {
        let of_part = (0..piece.words.len()).take_while(|at| !piece.is_of_another(*at));
        for at in of_part {
            let range = at..at + 1;
            found.extend(symbols_in(piece.words[at]).map(|symbol| NamedElastomer {
                symbol,
                words: piece.words[at].to_owned(),
                is_doubted: is_hedged(&piece.lower, &range),
                is_denied: is_negated(&piece.lower, &range),
            }));
        }
    }
    found
}

/// The elastomer that the words of an O-ring or a lip seal name by its symbol (ISO 1629), as a word of its own or with the
/// hardness behind it. Two symbols are two parts of a seal or a choice, one that is denied or wished for is none, and a symbol of
/// two letters may be anything.
fn elastomer_in(text: &str) -> Option<String> {
    if !may_name_elastomer(text) {
        return None;
    }
    let named = named_in(text);
    let mut facts = named.iter().filter(|of| !of.is_doubted);
    let first = facts.next()?.symbol;
    let is_one = facts.all(|other| other.symbol == first);
    let is_of_seal = is_one && is_of_elastomer(family_in(text)?);
    is_of_seal.then(|| first.to_owned())
}

/// True for parts that are made of an elastomer.
pub(super) const fn is_of_elastomer(family: Family) -> bool {
    family.facts().exchange.is_of_elastomer
}

/// The ISO 1629 symbol of what is one; everything else as printed.
fn read_material(text: &str) -> String {
    seal_elastomer(text.trim())
        .unwrap_or(text.trim())
        .to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_sets_a_part_apart_adds_up() {
        for (says, column, both) in [
            (
                "increased capacity design (E)",
                "inner ring only",
                "increased capacity design (E), inner ring only",
            ),
            ("inner ring only", "Inner ring only", "inner ring only"),
            ("type A", "type A, hardened", "type A, hardened"),
            ("type A", "", "type A"),
        ] {
            let mut traits = Traits {
                variant: Some(says.to_owned()),
                ..Traits::default()
            };
            add_variants(&mut traits, column);
            assert_eq!(traits.variant.as_deref(), Some(both));
        }
    }

    #[test]
    fn codes_and_words_of_traits_are_read_and_others_are_not_guessed() {
        assert_eq!(read_closure("2-RS"), Some(Closure::SealBothSides));
        assert_eq!(read_closure("ZZ"), Some(Closure::ShieldBothSides));
        assert_eq!(read_closure("offen"), Some(Closure::Open));
        assert_eq!(read_closure("sealed"), None);
        assert_eq!(read_clearance("Normal"), Some(Clearance::Normal));
        assert_eq!(read_clearance("C9"), None);
        assert_eq!(read_class("P5"), Some(ToleranceClass::P5));
        assert_eq!(read_angle("40°"), Some(ContactAngle(40)));
        assert_eq!(read_angle("400"), None);
        // Symbols of ISO 1629; the words for O-ring and lip seal are those of data/import/family_words.csv.
        for (text, elastomer) in [
            ("Joint torique 50x3 EPDM", Some("EPDM")),
            ("Junta torica 50x3 epdm", Some("EPDM")),
            ("O-ring 37.69x3.53 FKM", Some("FKM")),
            ("O-ring 37.69x3.53, fpm 75", Some("FKM")),
            ("O-Ring 40 x 3 NBR70", Some("NBR")),
            ("O-ring 40 x 3 NBR (NBR 70)", Some("NBR")),
            // Two elastomers, a word that only holds one, no elastomer, a symbol of two letters.
            ("O-ring 40x3 NBR or FKM", None),
            ("O-ring 40x3 NBR, EPDM", None),
            // What is denied, wished for, or of another part.
            ("O-ring 40x3 not NBR", None),
            ("O-ring 40x3 FKM if hot", None),
            ("O-ring 40x3 EPDM not NBR", Some("EPDM")),
            ("O-ring 40x3 FKM instead of NBR", Some("FKM")),
            ("O-ring 40x3 NBR or equivalent", Some("NBR")),
            ("O-ring 40x3 NBRX", None),
            ("O-ring 40x3", None),
            ("O-ring 40x3 CR", None),
            // What is no seal says nothing of an elastomer of its own.
            ("Deep groove ball bearing 6205 2RS NBR", None),
            ("Hose EPDM 50x3", None),
        ] {
            assert_eq!(elastomer_in(text).as_deref(), elastomer, "{text}");
        }
        assert_eq!(read_material("fpm"), "FKM");
        assert_eq!(read_material("Bronze"), "Bronze");
    }
}
