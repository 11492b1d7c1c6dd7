//! Standards of parts that are in no table here: whoever names one asks for none of the parts that are.

use super::{KINDS, SLOTTED_NUT, THREADED, WASHER, WithoutTable, place};
use crate::import::family_in;
use crate::lookup::question::named_by_kind::has_thread;

/// Standards in lower case and without a blank, and the kind of part each is of.
///
/// # Source
/// Titles of the standards, from memory.
const STANDARDS: [(&str, &str); 28] = [
    ("din125", WASHER),
    ("din126", WASHER),
    ("din127", WASHER),
    ("din128", WASHER),
    ("din137", WASHER),
    ("din433", WASHER),
    ("din440", WASHER),
    ("din6798", WASHER),
    ("din9021", WASHER),
    ("iso7089", WASHER),
    ("iso7090", WASHER),
    ("iso7091", WASHER),
    ("iso7092", WASHER),
    ("iso7093", WASHER),
    ("din439", THREADED),
    ("din912", THREADED),
    ("din931", THREADED),
    ("din933", THREADED),
    ("din934", THREADED),
    ("din936", THREADED),
    ("din985", THREADED),
    ("iso4014", THREADED),
    ("iso4017", THREADED),
    ("iso4032", THREADED),
    ("iso4762", THREADED),
    ("din1804", SLOTTED_NUT),
    ("din1816", SLOTTED_NUT),
    ("din70852", SLOTTED_NUT),
];

/// The kind of part whose standard a text in lower case names; `None` where it names a part that has a table besides.
pub(super) fn named(lower: &str) -> Option<&'static WithoutTable> {
    if !lower.contains("din") && !lower.contains("iso") {
        return None;
    }
    let mut text = lower.to_owned();
    for name in ["din", "iso"] {
        for between in [" ", "-"] {
            text = text.replace(&format!("{name}{between}"), name);
        }
    }
    let mut standards = STANDARDS.iter();
    let (at, name, kind) =
        standards.find_map(|(name, kind)| Some((place(&text, name)?, *name, *kind)))?;
    let rest = format!("{} {}", &text[..at], &text[at + name.len()..]);
    let is_number = |word: &str| !super::is_size(word) && crate::standard::is_designation(word);
    // A slotted nut is called a lock nut too, and the word for one does not make it that of a bearing.
    let is_other = family_in(&rest).is_some_and(|family| !has_thread(family));
    if is_other || rest.split_whitespace().any(is_number) {
        return None;
    }
    KINDS.iter().find(|of| of.name == kind)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lookup::Question;

    /// From memory: DIN 125 and ISO 7089 are plain washers, DIN 934 and DIN 936 hexagon nuts, DIN 1804 slotted round nuts of
    /// another outside than those of DIN 981 (M30x1.5: 50 mm for 45 mm).
    #[test]
    fn the_standard_of_another_part_names_that_part() {
        for (text, name) in [
            ("Scheibe M10 din 125", Some(WASHER)),
            ("M10 Scheibe DIN 125", Some(WASHER)),
            ("DIN 125 M20", Some(WASHER)),
            ("washer M10 DIN125", Some(WASHER)),
            ("ISO 7089 M12", Some(WASHER)),
            ("Nutmutter DIN 1804 M30x1,5", Some(SLOTTED_NUT)),
            ("lock nut DIN 1804 M30x1.5", Some(SLOTTED_NUT)),
            ("DIN 1804 M30x1,5", Some(SLOTTED_NUT)),
            ("M30x1.5 DIN 1804", Some(SLOTTED_NUT)),
            ("DIN 936 M12x1.5", Some(THREADED)),
            ("lock nut DIN 981 M30x1.5", None),
            ("KM6 DIN 981", None),
            ("6206 DIN 625", None),
            ("DIN 471 25", None),
            ("6206 with washer DIN 125", None),
            ("KM6 or DIN 1804", None),
        ] {
            let question = Question::read(text).unwrap_or_else(|error| panic!("{text}: {error}"));
            let read = question.without_table.map(|kind| kind.name);
            assert_eq!(read, name, "{text}");
        }
    }
}
