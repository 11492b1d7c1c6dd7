//! What to ask for at the counter: the standard part with the marks that were asked for.

use crate::interchange::is_made_to_order;
use crate::lookup::question::Question;
use crate::part::designation::Designation;
use crate::part::{Clearance, Closure, Family, NameKey, ToleranceClass, Traits};
use crate::standard::StandardPart;

/// The traits of a row of a table, ordered with what is asked for where the row leaves it open.
pub(super) fn ordered_with(asked: &Traits, of_row: &mut Traits) {
    // A closed bearing of a table has its width; how it is closed may be chosen.
    let is_closed =
        |closure: Option<Closure>| closure.is_some_and(|closure| closure != Closure::Open);
    if of_row.closure.is_none() || is_closed(of_row.closure) && is_closed(asked.closure) {
        of_row.closure = asked.closure.or(of_row.closure);
    }
    of_row.clearance = of_row.clearance.or(asked.clearance);
    of_row.tolerance_class = of_row.tolerance_class.or(asked.tolerance_class);
    of_row.rib_form = of_row.rib_form.or(asked.rib_form);
    of_row.contact_angle = of_row.contact_angle.or(asked.contact_angle);
    of_row.seal_form = of_row.seal_form.or(asked.seal_form);
    of_row.bore_form = of_row.bore_form.or(asked.bore_form);
    of_row.has_snap_ring_groove = of_row.has_snap_ring_groove.or(asked.has_snap_ring_groove);
    for (of_row, asked) in [
        (&mut of_row.material, &asked.material),
        (&mut of_row.hardness, &asked.hardness),
        (&mut of_row.cage, &asked.cage),
        (&mut of_row.arrangement, &asked.arrangement),
        (&mut of_row.preload_class, &asked.preload_class),
    ] {
        if of_row.is_none() {
            of_row.clone_from(asked);
        }
    }
    let pieces = asked.variant.iter().flat_map(|variant| variant.split(", "));
    for piece in pieces.filter(|piece| is_made_to_order(piece)) {
        match &mut of_row.variant {
            Some(known) if known.split(", ").any(|known| known == piece) => {}
            Some(known) => *known = format!("{known}, {piece}"),
            none => *none = Some(piece.to_owned()),
        }
    }
}

/// What to ask for: the designation as asked where it names the row, else the row's own; with the marks that words asked
/// for and neither holds.
pub(super) fn order_as(question: &Question, row: &StandardPart) -> String {
    let asked = question
        .designation
        .as_ref()
        .filter(|_| question.partial.is_empty());
    let named = asked.and_then(|designation| {
        let printed = as_printed(designation, row)?;
        Some((printed, &designation.traits))
    });
    let (mut name, said) = match named {
        Some((printed, said)) => (printed, Some(said)),
        None => (row.designation.clone(), None),
    };
    add_marks(&question.traits, said, row, &mut name);
    if let (None, Some(material)) = (said, &question.traits.material) {
        name = format!("{name} {material}");
    }
    name
}

/// The designation as printed, where it begins with the name of the row; a synonym gives way to the row's own name.
fn as_printed(designation: &Designation, row: &StandardPart) -> Option<String> {
    let printed = NameKey::new(&designation.printed);
    // The closed row of a bearing whose width hangs on it stands for every closure.
    let own = match row.traits.closure {
        Some(closure) if closure != Closure::Open => row.designation.strip_suffix("-2Z"),
        _ => None,
    };
    let own = own.unwrap_or(&row.designation);
    if printed.as_str().starts_with(NameKey::new(own).as_str()) {
        return Some(designation.printed.clone());
    }
    let is_it =
        |name: &&String| NameKey::new(name).as_str() == NameKey::new(&designation.basic).as_str();
    row.synonyms.iter().find(is_it)?;
    let behind = behind(&designation.printed, &designation.basic)?;
    Some(format!("{own}{behind}"))
}

/// What is printed behind a basic designation: ` 2rs` of `6805 2rs`.
fn behind<'a>(printed: &'a str, basic: &str) -> Option<&'a str> {
    let mut wanted = basic.chars().filter(|c| c.is_alphanumeric()).peekable();
    for (at, c) in printed.char_indices().filter(|(_, c)| c.is_alphanumeric()) {
        if !wanted.next()?.eq_ignore_ascii_case(&c) {
            return None;
        }
        if wanted.peek().is_none() {
            return printed.get(at + c.len_utf8()..);
        }
    }
    None
}

/// Adds closure, clearance and class that words asked for, in the order of DIN 623-1.
fn add_marks(asked: &Traits, said: Option<&Traits>, row: &StandardPart, name: &mut String) {
    let family = row.size.family();
    let closes = matches!(
        family,
        Family::DeepGrooveBall | Family::SelfAligningBall | Family::SphericalRoller
    );
    let is_new = |was: bool| said.is_none() || !was;
    let closure = asked.closure.filter(|closure| {
        closes
            && *closure != Closure::Open
            && row.traits.closure.is_none()
            && is_new(said.is_some_and(|said| said.closure == Some(*closure)))
    });
    if let Some(closure) = closure {
        name.push('-');
        name.push_str(closure.code());
    }
    let clearance = asked.clearance.filter(|clearance| {
        family.has_radial_clearance()
            && *clearance != Clearance::Normal
            && is_new(said.is_some_and(|said| said.clearance == Some(*clearance)))
    });
    if let Some(clearance) = clearance {
        name.push(' ');
        name.push_str(clearance.code());
    }
    let class = asked.tolerance_class.filter(|class| {
        family.is_radial_bearing()
            && *class != ToleranceClass::Normal
            && is_new(said.is_some_and(|said| said.tolerance_class == Some(*class)))
    });
    if let Some(class) = class {
        name.push(' ');
        name.push_str(class.code());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standard;

    fn asked_for(text: &str, row: &str) -> String {
        let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        order_as(
            &question,
            standard::find(row).unwrap_or_else(|| panic!("{row}")),
        )
    }

    #[test]
    fn marks_that_words_asked_for_stand_behind_the_number() {
        // DIN 623-1: closure, then clearance and class behind the basic number.
        for (text, row, name) in [
            ("6206", "6206", "6206"),
            ("6206 2RS C3", "6206", "6206 2RS C3"),
            ("C3 6206", "6206", "6206 C3"),
            ("P52 6206", "6206", "6206 P52"),
            ("6206 sealed", "6206", "6206-2RS"),
            ("30 x 62 x 16 deep groove sealed C3", "6206", "6206-2RS C3"),
            ("30 x 62 x 16 deep groove shielded P6", "6206", "6206-2Z P6"),
            ("30 x 62 x 16 deep groove open", "6206", "6206"),
            ("30 x 62 x 16 NU C3", "NU206", "NU206 C3"),
            ("30 x 62 x 16 sealed", "NU206", "NU206"),
            // JIS B 1521 writes 6805 for the 61805 of ISO 15.
            ("6805 2rs", "61805", "61805 2rs"),
            ("6805", "61805", "61805"),
            // ABMA 20: a closed R8 is wider than an open one, however it is closed.
            ("R8 2RS", "R8-2Z", "R8 2RS"),
            ("o-ring 40 x 3 FKM", "40x3", "40x3 FKM"),
        ] {
            assert_eq!(asked_for(text, row), name, "{text}");
        }
    }

    #[test]
    fn what_a_row_leaves_open_is_ordered_as_asked() {
        let of = |text: &str| Designation::parse(text).unwrap().traits;
        let ordered = |asked: &str, row: &str| {
            let mut traits = standard::find(row).unwrap().traits.clone();
            ordered_with(&of(asked), &mut traits);
            traits
        };
        assert_eq!(
            ordered("6206-2RS C3 P6", "6206").closure,
            Some(Closure::SealBothSides)
        );
        assert_eq!(
            ordered("7014 C P4 UL", "7014").preload_class.as_deref(),
            Some("UL")
        );
        let e = ordered("NU2206 E", "NU2206").variant;
        assert_eq!(e.as_deref(), Some("increased capacity design (E)"));
        // An open row of a width of its own stays open, a closed one is closed as asked.
        assert_eq!(ordered("R8-2RS", "R8").closure, Some(Closure::Open));
        assert_eq!(
            ordered("R8-2RS", "R8-2Z").closure,
            Some(Closure::SealBothSides)
        );
        // A steep angle is another row, not a mark.
        assert_eq!(ordered("32205B", "30205").variant, None);
    }

    #[test]
    fn what_is_printed_behind_a_number_is_found() {
        for (printed, basic, rest) in [
            ("6805 2rs", "6805", Some(" 2rs")),
            ("68-05zz", "6805", Some("zz")),
            ("6805", "6805", Some("")),
            ("6806", "6805", None),
            ("68", "6805", None),
        ] {
            assert_eq!(behind(printed, basic), rest, "{printed}");
        }
    }
}
