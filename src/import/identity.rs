//! What a row says its part is: family, size and traits from words, designation and dimension columns.
//!
//! Where two of these contradict each other, an issue says both sides and neither is taken.

use crate::part::designation::Designation;
use crate::part::{Closure, Dimension, Family, FitClass, LoadRatings, SizeKey, Traits};
use crate::standard::{self, Joined};
use crate::units::{Length, LengthUnit, ReadLength, read_length, read_size};

use super::family_words::family_in;
use super::field::Field;
use super::grid::{Cell, number_text};
use super::header::length_unit;
use super::issue::{Problem, Severity};
use super::row::RowReader;
use super::row_traits::{read_closure, read_traits};

/// What a row says its part is.
#[derive(Debug, Clone, Default)]
pub struct Identity {
    /// Designation as printed.
    pub designation: Option<String>,
    /// Description as printed.
    pub description: Option<String>,
    /// Family, where one is named and none contradicts it.
    pub family: Option<Family>,
    /// Size, where it is whole and nothing contradicts it.
    pub size: Option<SizeKey>,
    /// How the size differs from what was printed.
    pub size_notes: Vec<String>,
    /// What is known besides size.
    pub traits: Traits,
    /// Load ratings with source.
    pub ratings: Option<LoadRatings>,
}

/// Reads the identity of a row's part.
pub fn read_identity(row: &mut RowReader<'_, '_>) -> Identity {
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
        designation,
        description,
        family,
        size,
        size_notes,
        traits,
        ratings,
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
    let description = description?;
    let starts = description
        .char_indices()
        .filter(|(at, _)| *at == 0 || description[..*at].ends_with([' ', ',']));
    starts
        .take(8)
        .filter(|(at, _)| {
            description[*at..]
                .split_whitespace()
                .next()
                .is_some_and(|word| word.contains(|c: char| c.is_ascii_digit()))
        })
        .find_map(|(at, _)| {
            let rest = description[at..].trim();
            let word = rest.split([' ', ',']).next().unwrap_or(rest);
            listed(rest).or_else(|| listed(word))
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
    let lengths: Vec<ReadLength> = printed.iter().copied().flatten().collect();
    if let (Some(parsed), Some(bore)) = (parsed, parsed.and_then(|parsed| parsed.bore))
        && let Some(first) = printed[0].filter(|first| !first.may_be(bore))
    {
        let problem = Problem::SizeContradicts {
            printed: first.length.to_string(),
            designation: parsed.printed.clone(),
            standard: format!("{bore} in the bore"),
        };
        row.issue(Severity::Doubtful, Some(Field::Designation), problem);
        return (None, Vec::new());
    }
    match standard::join(family, &lengths) {
        Ok(Joined::Exact(size) | Joined::AsPrinted(size)) => (Some(with_fit(row, size)), notes),
        Ok(Joined::Rounded { standard, .. }) => {
            notes.push(format!(
                "joined to the standard size {standard}, printed {}",
                show(&printed)
            ));
            (Some(with_fit(row, standard)), notes)
        }
        Err(error) => {
            row.issue(Severity::Doubtful, None, error.into());
            (None, Vec::new())
        }
    }
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

/// Printed lengths in the order of the family's key dimensions; `None` where a dimension is not printed.
type Printed = [Option<ReadLength>; 4];

/// A dimension could not be read; the issue is already among the row's.
struct Unreadable;

fn dimensions(row: &mut RowReader<'_, '_>, family: Family) -> Result<Printed, Unreadable> {
    let mut printed: Printed = [None; 4];
    let mut taken: Vec<Field> = Vec::with_capacity(4);
    for (slot, dimension) in printed.iter_mut().zip(family.key_dimensions()) {
        for field in fields_of(*dimension, family) {
            if taken.contains(field) {
                continue;
            }
            if let Some(length) = length(row, *field)? {
                taken.push(*field);
                *slot = Some(length);
                break;
            }
        }
    }
    let is_partial = printed.iter().flatten().count() < family.key_dimensions().len();
    if is_partial && let Some(whole) = whole_size(row, family)? {
        for (slot, whole) in printed.iter_mut().zip(whole) {
            *slot = slot.or(whole);
        }
    }
    Ok(printed)
}

/// Columns that may hold a dimension of a family, the likeliest first: the bore of a lip seal is its shaft.
fn fields_of(dimension: Dimension, family: Family) -> &'static [Field] {
    use Dimension as D;
    use Field as F;
    match dimension {
        D::Bore => &[F::Bore, F::InsideDiameter, F::ShaftDiameter],
        D::OutsideDiameter => &[F::OutsideDiameter, F::HousingBore],
        D::Width => &[F::Width, F::AssembledWidth, F::Height, F::Length],
        // A column of widths holds B of a tapered roller bearing, the width of its cone, and not T.
        D::AssembledWidth if matches!(family, Family::TaperedRoller) => &[F::AssembledWidth],
        D::AssembledWidth => &[F::AssembledWidth, F::Width, F::Height],
        D::Height => &[F::Height, F::AssembledWidth, F::Width],
        D::HousingWasherBore => &[F::HousingWasherBore],
        D::InnerRacewayDiameter => &[F::InnerRacewayDiameter, F::Bore, F::InsideDiameter],
        D::OuterRacewayDiameter => &[F::OuterRacewayDiameter, F::OutsideDiameter],
        D::CageOutsideDiameter => &[F::CageOutsideDiameter, F::OutsideDiameter],
        D::ShaftDiameter => &[F::ShaftDiameter, F::Bore, F::InsideDiameter],
        D::HousingBore if matches!(family, Family::BoreRetainingRing) => {
            &[F::HousingBore, F::Bore, F::OutsideDiameter]
        }
        D::HousingBore => &[F::HousingBore, F::OutsideDiameter],
        D::InsideDiameter => &[F::InsideDiameter, F::Bore],
        D::Section => &[F::Section, F::Width, F::Height],
        D::ThreadDiameter => &[F::ThreadDiameter],
        D::ThreadPitch => &[F::ThreadPitch],
        D::PinDiameter => &[F::PinDiameter, F::OutsideDiameter, F::Bore],
        D::Length => &[F::Length, F::Width],
    }
}

/// The unit of the row's own column, if it names one.
fn row_unit(row: &mut RowReader<'_, '_>) -> Result<Option<LengthUnit>, Unreadable> {
    let Some(text) = row.text_of(Field::LengthUnit) else {
        return Ok(None);
    };
    match row.word(Field::LengthUnit, &text, "mm, cm or inch", length_unit) {
        Some(unit) => Ok(Some(unit)),
        // Lengths of an unknown unit are no lengths.
        None => Err(Unreadable),
    }
}

fn length(row: &mut RowReader<'_, '_>, field: Field) -> Result<Option<ReadLength>, Unreadable> {
    let table = row.table;
    let Some(column) = table.column(field) else {
        return Ok(None);
    };
    let cell = row.cell(field);
    if cell == Cell::Empty {
        return Ok(None);
    }
    let unit = row_unit(row)?
        .or(column.states.length)
        .unwrap_or(table.unit);
    let read = match cell {
        Cell::Text(text) => read_length(text.trim_start_matches('M'), unit),
        Cell::Number(value) => read_length(&number_text(value), unit),
        other => read_length(&other.to_text(), unit),
    };
    match read {
        Ok(length) => Ok(Some(length)),
        Err(error) => {
            // `M25x1.5` in a thread column is both of its dimensions and read as a whole size.
            if field == Field::ThreadDiameter
                && read_size(&cell.to_text().replace('M', ""), unit).is_ok()
            {
                return Ok(None);
            }
            row.issue(Severity::Doubtful, Some(field), error.into());
            Err(Unreadable)
        }
    }
}

/// A size in one cell: `30x62x16`, `M25x1.5`.
fn whole_size(row: &mut RowReader<'_, '_>, family: Family) -> Result<Option<Printed>, Unreadable> {
    let table = row.table;
    let fields = [Field::Size, Field::ThreadDiameter];
    let Some((field, column)) = fields
        .iter()
        .find_map(|field| table.column(*field).map(|column| (*field, column)))
    else {
        return Ok(None);
    };
    let Some(text) = row.text(field) else {
        return Ok(None);
    };
    let unit = row_unit(row)?
        .or(column.states.length)
        .unwrap_or(table.unit);
    match read_size(text.trim_start_matches('M'), unit) {
        Ok(lengths) if lengths.len() == family.key_dimensions().len() => {
            Ok(Some(in_slots(&lengths)))
        }
        Ok(lengths) => {
            let problem = crate::part::SizeError::WrongCount {
                family,
                found: lengths.len(),
            }
            .into();
            row.issue(Severity::Doubtful, Some(field), problem);
            Err(Unreadable)
        }
        Err(error) => {
            row.issue(Severity::Doubtful, Some(field), error.into());
            Err(Unreadable)
        }
    }
}

fn in_slots(lengths: &[ReadLength]) -> Printed {
    let mut printed: Printed = [None; 4];
    for (slot, length) in printed.iter_mut().zip(lengths) {
        *slot = Some(*length);
    }
    printed
}

/// A size among the words of a description, where exactly one word is a size of the family.
fn size_in(text: &str, family: Family, unit: LengthUnit) -> Option<Printed> {
    let wanted = family.key_dimensions().len();
    if wanted < 2 {
        return None;
    }
    let joined = text
        .replace(" x ", "x")
        .replace(" X ", "x")
        .replace(" × ", "x");
    let mut found = joined
        .split([' ', ';', '(', ')'])
        .map(|word| word.trim_matches([',', '.']).trim_start_matches('M'))
        .filter(|word| {
            word.starts_with(|c: char| c.is_ascii_digit()) && word.contains(['x', 'X', '×', '*'])
        })
        .filter_map(|word| read_size(word, unit).ok())
        .filter(|lengths| lengths.len() == wanted);
    let first = found.next()?;
    found.next().is_none().then(|| in_slots(&first))
}

fn contradicts(printed: &Printed, standard: &SizeKey) -> bool {
    printed
        .iter()
        .zip(standard.dimensions())
        .any(|(printed, (_, exact))| {
            printed.is_some_and(|printed| !may_be(printed, exact) && printed.length != exact)
        })
}

/// 1/64 in, nm: the step of the inch sizes of ABMA 20.
const STEP_64TH_NM: i64 = 396_875;
/// Half of the last of four decimals of an inch, nm.
const HALF_DIGIT_INCH_NM: i64 = 1_270;

/// True where `exact` may have been printed so, perhaps by way of an inch rounded to four decimals: 9/32 in is
/// 7.14375 mm, but .2812 in is 7.142 mm.
fn may_be(printed: ReadLength, exact: Length) -> bool {
    let is_fraction = exact.as_nm() % STEP_64TH_NM == 0 && exact.as_nm() % 10_000 != 0;
    let off = (printed.length.as_nm() - exact.as_nm()).abs();
    printed.may_be(exact)
        || is_fraction && off <= printed.half_digit_nm.min(500) + HALF_DIGIT_INCH_NM
}

fn is_rounded(printed: &Printed, standard: &SizeKey) -> bool {
    printed
        .iter()
        .zip(standard.dimensions())
        .any(|(printed, (_, exact))| printed.is_some_and(|printed| printed.length != exact))
}

fn show(printed: &Printed) -> String {
    let lengths: Vec<String> = printed
        .iter()
        .flatten()
        .map(|read| format!("{:#}", read.length))
        .collect();
    format!("{} mm", lengths.join(" x "))
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
