//! The size of a row's part, by its designation or by its dimensions.

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::part::designation::Designation;
use crate::part::{Family, FitClass, SizeKey};
use crate::record::{SIZE_PRINTED, TableKind};
use crate::standard::{self, Joined};
use crate::units::{LengthUnit, ReadLength};

use super::context::ReadColumn;
use super::printed_size::{Printed, contradicts, dimensions, is_rounded, length, show, size_in};
use super::reader::RowReader;
use super::said_beside::unread;
use super::set_words::says_set;
use super::size_beside::{SizeBeside, cone_and_cup, other_size, two_sizes};
use super::traits::closed_as;

/// A size with how it differs from what was printed.
pub type SizeWithNotes = (Option<SizeKey>, Vec<String>);

/// Reads the size of a row's part; none where nothing says it or two things that say it contradict each other. Words that may
/// name another size than the designation leave the part open.
pub fn size(
    row: &mut RowReader<'_, '_>,
    family: Option<Family>,
    description: Option<&str>,
    mut parsed: Option<&mut Designation>,
) -> SizeWithNotes {
    let Some(family) = family else {
        no_family(row);
        return (None, Vec::new());
    };
    let Ok(mut printed) = dimensions(row, family) else {
        return (None, Vec::new());
    };
    let mut notes = Vec::new();
    let of_designation = parsed.as_deref().and_then(|parsed| {
        parsed
            .size
            .or_else(|| standard::resolve(&closed_as(row, parsed)).map(|part| part.size))
            .filter(|size| size.family() == family)
    });
    if let Some(standard) = &of_designation
        && is_cone_width_only(row, family, &printed)
    {
        match cone_width(row, standard) {
            ConeWidth::Fits(note) => notes.extend(note),
            ConeWidth::Contradicts(at, width) => printed[at] = Some(width),
        }
    }
    if printed.iter().all(Option::is_none)
        && of_designation.is_none()
        && let Some(found) = description.and_then(|text| size_in(text, family, row.table.unit))
    {
        notes.push("size read from the description".to_owned());
        printed = found;
    }
    if printed.iter().all(Option::is_none) {
        match (&of_designation, description) {
            (Some(standard), Some(text)) => {
                let arrangement = |of: &Designation| of.traits.arrangement.is_some();
                let is_set = parsed.as_deref().is_some_and(arrangement) || says_set(text);
                match other_size(text, standard, row.table.unit, is_set) {
                    Some(SizeBeside::Other(found)) => printed = found,
                    Some(SizeBeside::Doubtful(words)) => {
                        if let Some(parsed) = parsed.as_deref_mut() {
                            unread(row, Field::Description, parsed, words);
                        }
                    }
                    None => {}
                }
            }
            (None, Some(text)) => tell_two_sizes(row, family, text),
            (_, None) => {}
        }
    }
    let parsed = parsed.as_deref();
    let (size, mut notes) = match parsed.zip(of_designation) {
        Some((parsed, standard)) => by_designation(row, &printed, parsed, standard, notes),
        None => by_dimensions(row, family, &printed, parsed, notes),
    };
    if row.table.kind == TableKind::Offers
        && size.is_some_and(|size| is_from_memory(&size) && is_printed(&printed, &size))
    {
        notes.push(SIZE_PRINTED.to_owned());
    }
    (size, notes)
}

/// Says that a text names two sizes of a family.
fn tell_two_sizes(row: &mut RowReader<'_, '_>, family: Family, text: &str) {
    let count = family.key_dimensions().len();
    if let Some((one, other)) = two_sizes(text, count, row.table.unit).filter(|_| count > 1) {
        let problem = Problem::TwoNumbers { one, other };
        row.issue(Severity::Doubtful, Some(Field::Description), problem);
    }
}

/// True for a size of the tables that nothing confirms but what suppliers print.
fn is_from_memory(size: &SizeKey) -> bool {
    let rows = standard::of_size(size);
    rows.iter().any(|row| !row.confidence.is_cross_checked())
}

/// True where every length of a size is printed as it stands.
fn is_printed(printed: &Printed, size: &SizeKey) -> bool {
    let mut lengths = size.dimensions().enumerate();
    lengths.all(|(at, (_, length))| {
        let of_row = printed.get(at).copied().flatten();
        of_row.is_some_and(|read| read.length == length)
    })
}

/// The size that the designation names, unless a printed dimension says otherwise.
fn by_designation(
    row: &mut RowReader<'_, '_>,
    printed: &Printed,
    parsed: &Designation,
    standard: SizeKey,
    mut notes: Vec<String>,
) -> SizeWithNotes {
    if contradicts(printed, &standard) {
        let problem = Problem::SizeContradicts {
            printed: show(printed),
            designation: parsed.printed.clone(),
            standard: standard.to_string(),
            likely: standard::slip_to(&lengths_of(printed), &standard),
        };
        row.issue(Severity::Doubtful, Some(Field::Designation), problem);
        return (None, Vec::new());
    }
    if is_rounded(printed, &standard) {
        notes.push(format!(
            "taken as the standard size {standard}, printed {}",
            show(printed)
        ));
    }
    (Some(with_fit(row, standard)), notes)
}

/// The size of the printed dimensions alone; `parsed` is a designation that names no whole size.
fn by_dimensions(
    row: &mut RowReader<'_, '_>,
    family: Family,
    printed: &Printed,
    parsed: Option<&Designation>,
    mut notes: Vec<String>,
) -> SizeWithNotes {
    if printed.iter().all(Option::is_none) {
        return (None, Vec::new());
    }
    if is_cone_width_only(row, family, printed) {
        let found = row.text(Field::Width).unwrap_or_default();
        row.issue(
            Severity::Note,
            Some(Field::Width),
            Problem::ConeWidthOnly { found },
        );
        return (None, notes);
    }
    if let (Some(parsed), Some(bore)) = (parsed, parsed.and_then(|parsed| parsed.bore))
        && let Some(first) = printed[0].filter(|first| !first.may_be(bore))
    {
        let problem = Problem::SizeContradicts {
            printed: first.length.to_string(),
            designation: parsed.printed.clone(),
            standard: format!("{bore} in the bore"),
            likely: None,
        };
        row.issue(Severity::Doubtful, Some(Field::Designation), problem);
        return (None, Vec::new());
    }
    match standard::join(family, &lengths_of(printed)) {
        Ok(Joined::Exact(size)) => (Some(with_fit(row, size)), notes),
        Ok(Joined::AsPrinted(_)) if is_slip(row, family, printed) => (None, Vec::new()),
        Ok(Joined::AsPrinted(size)) => (Some(with_fit(row, size)), notes),
        Ok(Joined::Rounded { standard, .. }) => {
            notes.push(format!(
                "joined to the standard size {standard}, printed {}",
                show(printed)
            ));
            (Some(with_fit(row, standard)), notes)
        }
        Err(error) => {
            if !is_slip(row, family, printed) {
                row.issue(Severity::Doubtful, None, error.into());
            }
            (None, Vec::new())
        }
    }
}

fn lengths_of(printed: &Printed) -> Vec<ReadLength> {
    printed.iter().copied().flatten().collect()
}

/// Says which slip a size beside the standard ones may be, or that its unit is in doubt; true where either is so.
fn is_slip(row: &mut RowReader<'_, '_>, family: Family, printed: &Printed) -> bool {
    let lengths = lengths_of(printed);
    let slips = standard::slips(family, &lengths);
    let field = printed_in(row);
    if let Some((slip, _)) = slips.first() {
        let likely: Vec<String> = slips
            .iter()
            .map(|(slip, size)| format!("`{size}` {slip}"))
            .collect();
        let problem = Problem::SizeSlip {
            printed: show(printed),
            family,
            slip: *slip,
            likely: likely.join(" or "),
        };
        row.issue(Severity::Doubtful, field, problem);
        return true;
    }
    let is_bare = lengths
        .iter()
        .all(|read| !read.is_unit_stated && read.unit == LengthUnit::Mm);
    let Some(doubt) = row.table.inch_doubt.filter(|_| is_bare) else {
        return false;
    };
    let problem = Problem::UnitInDoubt {
        printed: show(printed),
        in_inches: doubt.in_inches,
        rows: doubt.rows,
    };
    row.issue(Severity::Doubtful, field, problem);
    true
}

/// The first column that holds a dimension of the row.
fn printed_in(row: &RowReader<'_, '_>) -> Option<Field> {
    let holds = |column: &&ReadColumn| {
        (column.field.is_length() || column.field == Field::Size)
            && row.table.grid.cell(row.row, column.index) != Cell::Empty
    };
    row.table
        .columns
        .iter()
        .find(holds)
        .map(|column| column.field)
}

/// True where the row prints B of a tapered roller bearing (ISO 355), the width of its cone, and no T.
fn is_cone_width_only(row: &mut RowReader<'_, '_>, family: Family, printed: &Printed) -> bool {
    cone_and_cup(family).is_some_and(|at| printed[at].is_none())
        && row.text_of(Field::Width).is_some()
}

/// A width beside the designation of a tapered roller bearing.
enum ConeWidth {
    /// T itself, or B with a note.
    Fits(Option<String>),
    /// Neither, with the place of T among the key dimensions.
    Contradicts(usize, ReadLength),
}

/// Least share of T that B takes; ISO 355 has none below 0.85 in the series shops use, from memory.
const LEAST_CONE_SHARE: f64 = 0.8;

fn cone_width(row: &mut RowReader<'_, '_>, standard: &SizeKey) -> ConeWidth {
    let width = length(row, Field::Width).ok().flatten();
    let at = cone_and_cup(standard.family());
    let assembled = at.and_then(|at| Some((at, standard.length_at(at)?)));
    let Some((width, (at, assembled))) = width.zip(assembled) else {
        return ConeWidth::Fits(None);
    };
    if width.may_be(assembled) {
        return ConeWidth::Fits(None);
    }
    let share = width.length.as_nm() as f64 / assembled.as_nm() as f64;
    if (LEAST_CONE_SHARE..1.0).contains(&share) {
        ConeWidth::Fits(Some(format!(
            "printed width {:#} mm taken for B, the width of the cone; T {assembled} is from the designation",
            width.length
        )))
    } else {
        ConeWidth::Contradicts(at, width)
    }
}

/// Says which dimensions stay without meaning, where the row holds any.
fn no_family(row: &mut RowReader<'_, '_>) {
    let table = row.table;
    let mut found = Vec::new();
    let mut first = None;
    for column in table
        .columns
        .iter()
        .filter(|column| column.field.is_length() || column.field == Field::Size)
    {
        let text = row.cell_of(column).to_text();
        if !text.is_empty() {
            first = first.or(Some(column.field));
            found.push(format!("{} {text}", column.field));
        }
    }
    if let Some(field) = first {
        row.issue(
            Severity::Doubtful,
            Some(field),
            Problem::NoFamily {
                found: found.join(", "),
            },
        );
    }
}

/// The class of a pin's diameter is part of its key.
fn with_fit(row: &mut RowReader<'_, '_>, size: SizeKey) -> SizeKey {
    if !size.family().facts().marks.has_class() {
        return size;
    }
    let Some(text) = row.text(Field::FitClass) else {
        return size;
    };
    match row.word(
        Field::FitClass,
        &text,
        "a tolerance class such as `m6`",
        FitClass::read,
    ) {
        Some(fit) => size.with_fit(fit),
        None => size,
    }
}
