//! What to ask for at the counter: the standard part with the marks that were asked for.

use std::borrow::Cow;

use crate::interchange::{is_half, is_made_to_order, is_of_lip_seals};
use crate::lookup::question::Question;
use crate::part::designation::Designation;
use crate::part::{
    BoreForm, Clearance, Closure, NameKey, PartClass, SealForm, ToleranceClass, Traits,
};
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
    let pieces = asked.variants();
    for piece in pieces.filter(|piece| is_made_to_order(piece) || is_snap_ring(piece)) {
        of_row.add_variant(piece);
    }
}

/// The forms of DIN 3760 with or without a dust lip, where the outside of the seal is not known.
fn forms_of_lip(question: &Question) -> Option<[SealForm; 3]> {
    let has_lip = question.needs.has_dust_lip?;
    let is_open = question.traits.seal_form.is_none();
    let forms = if has_lip {
        [SealForm::As, SealForm::Bs, SealForm::Cs]
    } else {
        [SealForm::A, SealForm::B, SealForm::C]
    };
    is_open.then_some(forms)
}

/// The question as it can be ordered: once, closed on both sides and on one where nobody said on how many, or in each form
/// that a dust lip leaves open.
pub(super) fn as_closed(question: &Question) -> Vec<Cow<'_, Question>> {
    if let Some(forms) = forms_of_lip(question) {
        let of = |form| {
            let mut question = question.clone();
            question.traits.seal_form = Some(form);
            Cow::Owned(question)
        };
        return forms.map(of).into();
    }
    let half_known = question.needs.closed_by;
    let Some(by) = half_known.filter(|_| question.traits.closure.is_none()) else {
        return vec![Cow::Borrowed(question)];
    };
    let closed = |is_both| {
        let mut question = question.clone();
        question.traits.closure = Some(by.on(is_both));
        Cow::Owned(question)
    };
    vec![closed(true), closed(false)]
}

/// What to ask for: the designation as asked where it names the row, else the row's own; with the marks that words asked
/// for and neither holds.
pub(super) fn order_as(question: &Question, row: &StandardPart) -> String {
    let asked = question
        .designation
        .as_ref()
        .filter(|_| question.partial.is_empty())
        .filter(|asked| asked.traits.material.is_none() || question.traits.material.is_some());
    let named = asked.and_then(|designation| {
        let printed = as_printed(designation, row)?;
        Some((printed, &designation.traits))
    });
    let (mut name, said) = match named {
        Some((printed, said)) => (printed, Some(said)),
        None => (row.designation.clone(), None),
    };
    let mut marks = Marks {
        asked: &question.traits,
        said,
        row,
        name: &mut name,
    };
    marks.of_design();
    marks.of_closure();
    marks.of_class();
    marks.of_set();
    marks.in_words();
    name
}

/// The snap ring of NR, which the letters of its groove say too.
fn is_snap_ring(variant: &str) -> bool {
    variant.starts_with("snap ring")
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

/// Marks that were asked for and that neither the printed number nor the row holds, in the order of DIN 623-1.
struct Marks<'a> {
    asked: &'a Traits,
    /// What the printed number says, where the name is printed after it.
    said: Option<&'a Traits>,
    row: &'a StandardPart,
    name: &'a mut String,
}

impl Marks<'_> {
    /// A value asked for that is neither said nor the row's own.
    fn new_of<T: PartialEq + Clone>(&self, of: impl Fn(&Traits) -> &Option<T>) -> Option<T> {
        let asked = of(self.asked).as_ref()?;
        let is_said = self
            .said
            .is_some_and(|said| of(said).as_ref() == Some(asked));
        let is_of_row = of(&self.row.traits).as_ref() == Some(asked);
        (!is_said && !is_of_row).then(|| asked.clone())
    }

    fn add(&mut self, mark: &str) {
        self.name.push(' ');
        self.name.push_str(mark);
    }

    /// Puts the mark of a closure right behind the basic number, before what is printed there.
    fn close_by(&mut self, closure: Closure) {
        let own = &self.row.designation;
        let own = own.strip_suffix("-2Z").unwrap_or(own);
        let at = self.name.len() - behind(self.name, own).map_or(0, str::len);
        self.name.insert_str(at, &format!("-{}", closure.code()));
    }

    /// `R8-2Z` stands for every closure of its width: the one that was asked for takes the place of the shields.
    fn close_as_asked(&mut self) {
        let asked = self.asked.closure.filter(|closure| {
            !matches!(closure, Closure::Open | Closure::ShieldBothSides) && self.said.is_none()
        });
        let own = self.row.designation.strip_suffix("-2Z");
        if let (Some(asked), Some(own)) = (asked, own)
            && let Some(rest) = self.name.strip_prefix(self.row.designation.as_str())
        {
            *self.name = format!("{own}-{}{rest}", asked.code());
        }
    }

    /// Contact angle and taper of the bore.
    fn of_design(&mut self) {
        let family = self.row.size.family();
        let angle = self.new_of(|traits| &traits.contact_angle);
        let letters = angle.and_then(|angle| match angle.0 {
            15 => Some("C"),
            25 => Some("AC"),
            30 => Some("A"),
            40 => Some("B"),
            _ => None,
        });
        let is_single =
            family.facts().marks.has_angles() && self.row.traits.contact_angle.is_none();
        if let Some(letters) = letters.filter(|_| is_single) {
            self.add(letters);
        }
        let form = self.new_of(|traits| &traits.bore_form);
        let form = form.filter(|form| family.is_radial_bearing() && *form != BoreForm::Cylindrical);
        if let Some(form) = form {
            self.add(form.code());
        }
    }

    /// Closure, groove and snap ring, cage.
    fn of_closure(&mut self) {
        let family = self.row.size.family();
        let closes = family.facts().marks.has_closures();
        let closure = self.new_of(|traits| &traits.closure).filter(|closure| {
            closes && *closure != Closure::Open && self.row.traits.closure.is_none()
        });
        if let Some(closure) = closure {
            self.close_by(closure);
        }
        // `688` alone is the open one, of another width: the closed row is told by its mark.
        let is_closed_row = self.row.traits.closure == Some(Closure::ShieldBothSides);
        let is_told = self.name.contains(|c: char| c.is_ascii_alphabetic())
            || self
                .said
                .is_some_and(|said| said.closure != Some(Closure::Open));
        if closes && is_closed_row && !is_told {
            let asked = self.asked.closure;
            let closed = asked.filter(|closure| *closure != Closure::Open);
            self.close_by(closed.unwrap_or(Closure::ShieldBothSides));
        }
        self.close_as_asked();
        let is_bearing = family.class() == PartClass::Bearings;
        let has_ring = |traits: &Traits| traits.variant.iter().any(|text| text.contains("(NR)"));
        let is_ring_new = has_ring(self.asked) && !self.said.is_some_and(has_ring);
        let is_groove_new = self.new_of(|traits| &traits.has_snap_ring_groove) == Some(true);
        if is_bearing && is_ring_new {
            self.add("NR");
        } else if is_bearing && is_groove_new {
            self.add("N");
        }
        if let Some(cage) = self.new_of(|traits| &traits.cage).filter(|_| is_bearing) {
            self.add(&cage);
        }
    }

    fn of_class(&mut self) {
        let family = self.row.size.family();
        let clearance = self.new_of(|traits| &traits.clearance);
        let clearance = clearance
            .filter(|clearance| family.has_radial_clearance() && *clearance != Clearance::Normal);
        if let Some(clearance) = clearance {
            self.add(clearance.code());
        }
        let class = self.new_of(|traits| &traits.tolerance_class);
        let class =
            class.filter(|class| family.is_radial_bearing() && *class != ToleranceClass::Normal);
        if let Some(class) = class {
            self.add(class.code());
        }
    }

    /// Arrangement and preload of a set.
    fn of_set(&mut self) {
        let pairs = self.row.size.family().facts().marks.may_be_paired();
        let arrangement = self.new_of(|traits| &traits.arrangement);
        let preload = self.new_of(|traits| &traits.preload_class);
        for mark in [arrangement, preload].into_iter().flatten() {
            // A universal one is told by its preload class.
            if pairs && mark != "universal" {
                self.add(&mark);
            }
        }
    }

    /// Form, elastomer and hardness of a seal, and designs without a mark in a standard, in words.
    fn in_words(&mut self) {
        let family = self.row.size.family();
        let has_form = family.facts().marks.has_seal_forms;
        let form = self.new_of(|traits| &traits.seal_form);
        if let Some(form) = form.filter(|_| has_form) {
            self.add(form.code());
        }
        if let Some(material) = self.new_of(|traits| &traits.material) {
            self.add(&material);
        }
        let hardness = self.new_of(|traits| &traits.hardness);
        if let Some(hardness) = hardness.filter(|_| family.class() == PartClass::Seals) {
            self.add(&hardness);
        }
        let asked = self.asked;
        for piece in asked.variants() {
            let is_new = is_made_to_order(piece)
                && !is_half(piece)
                && (has_form || !is_of_lip_seals(piece))
                && !self.said.is_some_and(|said| said.has_variant(piece))
                && !self.row.traits.has_variant(piece);
            if is_new {
                self.add(mark_of(piece));
            }
        }
    }
}

/// The mark within a variant's text, where it names one: `E` of `increased capacity design (E)`; else its words.
fn mark_of(piece: &str) -> &str {
    let mark = piece
        .split_once('(')
        .and_then(|(_, rest)| rest.strip_suffix(')'));
    mark.unwrap_or(piece)
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
            // Needle bearings take the same marks (DIN 623-1).
            ("HK2520 sealed", "HK2520", "HK2520-2RS"),
            ("HK2520 sealed one side", "HK2520", "HK2520-RS"),
            ("HK2520 open", "HK2520", "HK2520"),
            ("NA4904 sealed", "NA4904", "NA4904-2RS"),
            ("NA4904-2RS", "NA4904", "NA4904-2RS"),
            ("RNA4904 sealed", "RNA4904", "RNA4904-2RS"),
            ("30 x 62 x 16 NU C3", "NU206", "NU206 C3"),
            ("30 x 62 x 16 sealed", "NU206", "NU206"),
            // JIS B 1521 writes 6805 for the 61805 of ISO 15.
            ("6805 2rs", "61805", "61805 2rs"),
            ("6805", "61805", "61805"),
            // ABMA 20: a closed R8 is wider than an open one, however it is closed.
            ("R8 2RS", "R8-2Z", "R8 2RS"),
            ("1/2 x 1 1/8 x 5/16 2RS", "R8-2Z", "R8-2RS"),
            ("1/2 x 1 1/8 x 5/16 ZZ", "R8-2Z", "R8-2Z"),
            ("1/2 x 1 1/8 x 5/16", "R8-2Z", "R8-2Z"),
            (
                "bore 12.7 od 28.575 w 7.9375 sealed C3",
                "R8-2Z",
                "R8-2RS C3",
            ),
            ("R8 sealed", "R8-2Z", "R8-2RS"),
            ("R8 C3 sealed", "R8-2Z", "R8-2RS C3"),
            ("o-ring 40 x 3 FKM", "40x3", "40x3 FKM"),
            // What words ask for is ordered as the suffixes of DIN 623-1 say it, else in words.
            ("6206 sealed one side", "6206", "6206-RS"),
            ("6206 one shield C3", "6206", "6206-Z C3"),
            ("6206 with rubber seals", "6206", "6206-2RS"),
            ("6206 snap ring groove", "6206", "6206 N"),
            ("6206 with snap ring", "6206", "6206 NR"),
            ("6206 NR", "6206", "6206 NR"),
            ("22208 tapered bore", "22208", "22208 K"),
            ("22208 K C3", "22208", "22208 K C3"),
            ("22208 taper bore 1:12 C3", "22208", "22208 C3 K"),
            ("6206 insulated C3", "6206", "6206 insulated C3"),
            ("6206 hybrid", "6206", "6206 hybrid"),
            ("6206 ceramic balls", "6206", "6206 hybrid"),
            ("6206 brass cage C3", "6206", "6206 M C3"),
            (
                "30 x 62 x 16 deep groove brass cage C3",
                "6206",
                "6206 M C3",
            ),
            ("SS 6206 2RS", "6206", "6206 2RS stainless"),
            ("7206 B back-to-back", "7206", "7206 B DB"),
            ("7206 40°", "7206", "7206 B"),
            ("7206 15 degrees C3", "7206", "7206 C"),
            ("7014 C TA P4 UL", "7014", "7014 C TA P4 UL"),
            ("6206 ABEC 5", "6206", "6206 P5"),
            (
                "oil seal 40x62x8 rubber covered dust lip",
                "40x62x8",
                "40x62x8 AS",
            ),
            ("AS 40x62x8 NBR", "40x62x8", "40x62x8 AS NBR"),
            ("AS568-214 70 NBR", "AS568-214", "AS568-214 NBR 70 Shore A"),
            ("NU 2206 E", "NU2206", "NU 2206 E"),
            ("30206 cone", "30206", "30206"),
            // Lip seals alone have ribs that pump.
            ("6308 left-hand helix", "6308", "6308"),
            // ISO 1629: of two elastomers neither is ordered.
            ("AS568-214 NBR 70 FKM 75", "AS568-214", "AS568-214"),
        ] {
            assert_eq!(asked_for(text, row), name, "{text}");
        }
    }

    #[test]
    fn a_dust_lip_leaves_each_outside_to_be_ordered() {
        // DIN 3760: A, B and C, each without and with the dust lip S.
        for (text, forms) in [
            ("oil seal 40x62x8 dust lip", ["AS", "BS", "CS"]),
            ("oil seal 40x62x8 without dust lip", ["A", "B", "C"]),
        ] {
            let question = Question::read(text).unwrap();
            let row = standard::find("40x62x8").unwrap();
            let all = as_closed(&question);
            let names: Vec<String> = all.iter().map(|one| order_as(one, row)).collect();
            assert_eq!(names, forms.map(|form| format!("40x62x8 {form}")), "{text}");
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
