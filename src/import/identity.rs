//! What a row says its part is: family, size and traits from words, designation and dimension columns.
//!
//! Where two of these contradict each other, an issue says both sides and neither is taken.

use std::sync::Arc;

use crate::part::designation::Designation;
use crate::part::{Closure, Family, FitClass, LoadRatings, SizeKey, Traits};
use crate::standard::{self, Joined};
use crate::units::{LengthUnit, ReadLength};

use super::family_words::family_in;
use super::field::Field;
use super::grid::Cell;
use super::issue::{Problem, Severity};
use super::printed_size::{Printed, contradicts, dimensions, is_rounded, length, show, size_in};
use super::row::{ReadColumn, RowReader};
use super::row_traits::{read_closure, read_traits};

/// Most letters of a series before the figures of a designation: `NUP`, `RNAO`.
const LONGEST_SERIES: usize = 4;

/// What a row says its part is.
#[derive(Debug, Clone, Default)]
pub struct Identity {
    /// Designation as printed.
    pub designation: Option<Arc<str>>,
    /// Description as printed.
    pub description: Option<String>,
    /// Family, where one is named and none contradicts it.
    pub family: Option<Family>,
    /// Size, where it is whole and nothing contradicts it.
    pub size: Option<SizeKey>,
    /// How the size differs from what was printed.
    pub size_notes: Vec<String>,
    /// What is known besides size.
    pub traits: Arc<Traits>,
    /// Load ratings with source.
    pub ratings: Option<Box<LoadRatings>>,
}

/// Reads the identity of a row's part.
pub fn read_identity(row: &mut RowReader<'_, '_>) -> Identity {
    row.identity(read_anew)
}

fn read_anew(row: &mut RowReader<'_, '_>) -> Identity {
    let designation = row.text(Field::Designation);
    let mut description = row.text(Field::Description);
    let parsed = parse(row, designation.as_deref(), description.as_deref());
    if parsed.is_none() && description.is_none() {
        // Words in a column of designations describe the part.
        description.clone_from(&designation);
    }
    let family = family(row, description.as_deref(), parsed.as_ref());
    let (size, size_notes) = size(row, family, description.as_deref(), parsed.as_ref());
    let known = parsed.as_ref().map(|parsed| {
        let mut traits = parsed.traits.clone();
        if let Some(part) = standard::resolve(&closed_as(row, parsed)) {
            fill(&mut traits, &part.traits);
        }
        (traits, parsed.printed.as_str())
    });
    let traits = read_traits(
        row,
        known.as_ref().map(|(traits, printed)| (traits, *printed)),
    );
    let ratings = ratings(row);
    // A designation found among the words of a description names the part as one in a column of its own does.
    let found = parsed
        .as_ref()
        .filter(|parsed| parsed.traits.unknown_suffixes.is_empty());
    let designation = designation.or_else(|| found.map(|parsed| parsed.printed.clone()));
    Identity {
        designation: designation.map(Into::into),
        description,
        family,
        size,
        size_notes,
        traits: Arc::new(traits),
        ratings: ratings.map(Box::new),
    }
}

/// The designation of the row; from the description only where a standard lists it, since any number
/// could be taken for one.
fn parse(
    row: &mut RowReader<'_, '_>,
    designation: Option<&str>,
    description: Option<&str>,
) -> Option<Designation> {
    if let Some(designation) = designation {
        return Designation::parse(designation);
    }
    let listed = |text: &str| {
        Designation::parse(text).filter(|parsed| standard::find(&parsed.basic).is_some())
    };
    let number = row
        .text_of(Field::Type)
        .filter(|text| text.contains(|c: char| c.is_ascii_digit()));
    if let Some(found) = number.and_then(|number| listed(&number)) {
        return Some(found);
    }
    // What stands in brackets behind a name is a remark.
    let description = description?.split(" (").next()?;
    let starts = description
        .char_indices()
        .filter(|(at, _)| *at == 0 || description[..*at].ends_with([' ', ',']));
    let has_digit = |word: &str| word.contains(|c: char| c.is_ascii_digit());
    starts.take(8).find_map(|(at, _)| {
        let rest = description[at..].trim();
        let mut words = rest.split([' ', ',']).filter(|word| !word.is_empty());
        let (word, next) = (words.next()?, words.next().unwrap_or_default());
        if has_digit(word) {
            return listed(rest).or_else(|| listed(word));
        }
        // `NU 205`: the letters of the series stand apart.
        let is_series = word.len() <= LONGEST_SERIES
            && word.bytes().all(|byte| byte.is_ascii_uppercase())
            && next.starts_with(|c: char| c.is_ascii_digit());
        if is_series {
            listed(rest).or_else(|| listed(&format!("{word} {next}")))
        } else {
            None
        }
    })
}

fn family(
    row: &mut RowReader<'_, '_>,
    description: Option<&str>,
    parsed: Option<&Designation>,
) -> Option<Family> {
    let type_text = row.text(Field::Type);
    let by_designation = parsed.and_then(|parsed| {
        let family = parsed
            .family
            .or_else(|| standard::find(&parsed.basic).map(|part| part.size.family()));
        family.map(|family| (parsed.printed.as_str(), family))
    });
    let named = |text: Option<&str>| {
        text.and_then(|text| family_in(text).map(|family| (text.to_owned(), family)))
    };
    let mut sources: Vec<(String, Family)> = Vec::with_capacity(3);
    sources.extend(named(type_text.as_deref()));
    sources.extend(named(description));
    sources.extend(by_designation.map(|(text, family)| (text.to_owned(), family)));
    // The designation names the kind where words name the genus: a combined bearing is a thrust bearing too.
    if let Some((_, special)) = by_designation {
        sources.retain(|(_, family)| !is_genus_of(*family, special));
    }
    let (one, one_family) = sources.first()?.clone();
    if let Some((other, other_family)) = sources
        .iter()
        .find(|(_, family)| *family != one_family)
        .cloned()
    {
        let field = row.table.has(Field::Type).then_some(Field::Type);
        row.issue(
            Severity::Doubtful,
            field,
            Problem::FamilyContradicts {
                one,
                one_family,
                other,
                other_family,
            },
        );
        return None;
    }
    Some(one_family)
}

/// True where the words for `genus` are also said of the more special family.
fn is_genus_of(genus: Family, special: Family) -> bool {
    use Family as F;
    match special {
        F::CombinedNeedleThrust => matches!(
            genus,
            F::ThrustBall | F::ThrustNeedle | F::NeedleRoller | F::AngularContactBall
        ),
        F::NeedleRollerNoInnerRing | F::DrawnCupNeedle | F::NeedleCage => genus == F::NeedleRoller,
        _ => false,
    }
}

type SizeWithNotes = (Option<SizeKey>, Vec<String>);

fn size(
    row: &mut RowReader<'_, '_>,
    family: Option<Family>,
    description: Option<&str>,
    parsed: Option<&Designation>,
) -> SizeWithNotes {
    let Some(family) = family else {
        no_family(row);
        return (None, Vec::new());
    };
    let Ok(mut printed) = dimensions(row, family) else {
        return (None, Vec::new());
    };
    let mut notes = Vec::new();
    let of_designation = parsed.and_then(|parsed| {
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
            ConeWidth::Contradicts(width) => printed[2] = Some(width),
        }
    }
    if printed.iter().all(Option::is_none)
        && of_designation.is_none()
        && let Some(found) = description.and_then(|text| size_in(text, family, row.table.unit))
    {
        notes.push("size read from the description".to_owned());
        printed = found;
    }
    if let (Some(parsed), Some(standard)) = (parsed, of_designation) {
        if contradicts(&printed, &standard) {
            let problem = Problem::SizeContradicts {
                printed: show(&printed),
                designation: parsed.printed.clone(),
                standard: standard.to_string(),
                likely: standard::slip_to(&lengths_of(&printed), &standard),
            };
            row.issue(Severity::Doubtful, Some(Field::Designation), problem);
            return (None, Vec::new());
        }
        if is_rounded(&printed, &standard) {
            notes.push(format!(
                "taken as the standard size {standard}, printed {}",
                show(&printed)
            ));
        }
        return (Some(with_fit(row, standard)), notes);
    }
    if printed.iter().all(Option::is_none) {
        return (None, Vec::new());
    }
    if of_designation.is_none() && is_cone_width_only(row, family, &printed) {
        let found = row.text(Field::Width).unwrap_or_default();
        row.issue(
            Severity::Note,
            Some(Field::Width),
            Problem::ConeWidthOnly { found },
        );
        return (None, notes);
    }
    let lengths = lengths_of(&printed);
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
    match standard::join(family, &lengths) {
        Ok(Joined::Exact(size)) => (Some(with_fit(row, size)), notes),
        Ok(Joined::AsPrinted(_)) if is_slip(row, family, &printed) => (None, Vec::new()),
        Ok(Joined::AsPrinted(size)) => (Some(with_fit(row, size)), notes),
        Ok(Joined::Rounded { standard, .. }) => {
            notes.push(format!(
                "joined to the standard size {standard}, printed {}",
                show(&printed)
            ));
            (Some(with_fit(row, standard)), notes)
        }
        Err(error) => {
            if !is_slip(row, family, &printed) {
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

/// The designation with the closure of the row's own column, where the designation itself names none.
fn closed_as(row: &mut RowReader<'_, '_>, parsed: &Designation) -> Designation {
    let mut closed = parsed.clone();
    if matches!(closed.traits.closure, None | Some(Closure::Open)) {
        closed.traits.closure = row
            .text_of(Field::Closure)
            .and_then(|text| read_closure(&text))
            .or(closed.traits.closure);
    }
    closed
}

/// True where the row prints B of a tapered roller bearing (ISO 355), the width of its cone, and no T.
fn is_cone_width_only(row: &mut RowReader<'_, '_>, family: Family, printed: &Printed) -> bool {
    family == Family::TaperedRoller && printed[2].is_none() && row.text_of(Field::Width).is_some()
}

/// A width beside the designation of a tapered roller bearing.
enum ConeWidth {
    /// T itself, or B with a note.
    Fits(Option<String>),
    /// Neither.
    Contradicts(ReadLength),
}

/// Least share of T that B takes; ISO 355 has none below 0.85 in the series shops use, from memory.
const LEAST_CONE_SHARE: f64 = 0.8;

fn cone_width(row: &mut RowReader<'_, '_>, standard: &SizeKey) -> ConeWidth {
    let Some((width, (_, assembled))) = length(row, Field::Width)
        .ok()
        .flatten()
        .zip(standard.dimensions().nth(2))
    else {
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
        ConeWidth::Contradicts(width)
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

/// A pin's tolerance class is part of its key.
fn with_fit(row: &mut RowReader<'_, '_>, size: SizeKey) -> SizeKey {
    if size.family() != Family::DowelPin {
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

fn ratings(row: &mut RowReader<'_, '_>) -> Option<LoadRatings> {
    let (dynamic_kn, static_kn) = (
        row.number_above_zero(Field::DynamicRating),
        row.number_above_zero(Field::StaticRating),
    );
    (dynamic_kn.is_some() || static_kn.is_some()).then(|| LoadRatings {
        dynamic_kn,
        static_kn,
        source: row.text(Field::RatingsSource),
    })
}

/// Takes over from `other` what `traits` does not know.
fn fill(traits: &mut Traits, other: &Traits) {
    macro_rules! fill_each {
        ($($field:ident),+) => { $( if traits.$field.is_none() { traits.$field.clone_from(&other.$field); } )+ };
    }
    fill_each!(
        closure,
        clearance,
        tolerance_class,
        contact_angle,
        rib_form,
        bore_form,
        has_snap_ring_groove,
        rows,
        preload_class,
        arrangement,
        cage,
        seal_form,
        material,
        hardness,
        variant
    );
}
