//! Rows of supplier tables.

use chrono::NaiveTime;

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::fold::fold;
use crate::part::PartClass;
use crate::record::{SameDay, SupplierRecord};

use super::reader::{Rejected, RowReader};

/// What a time of day looks like.
const EXPECTED_TIME: &str = "a time of day such as `14:30`";

/// Reads one supplier.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<SupplierRecord, Rejected> {
    let name = row.required_text(Field::Supplier, "supplier")?;
    let approved_classes = approved_classes(row);
    // Classes that cannot be read must not become an approval for all.
    let is_unclear = approved_classes.is_empty() && row.text_of(Field::ApprovedClasses).is_some();
    let is_approved = row
        .flag(Field::Approved)
        .filter(|is_approved| !is_approved || !is_unclear);
    let (courier_cost, courier_h) = (
        row.money(Field::CourierCost),
        row.hours(Field::CourierHours),
    );
    row.both(
        (courier_cost, Field::CourierCost),
        (courier_h, Field::CourierHours),
        "courier",
    );
    Ok(SupplierRecord {
        name,
        is_approved,
        approved_classes,
        order_cutoff: time(row, Field::OrderCutoff),
        counter_hours: counter_hours(row),
        calendar: row.text(Field::Calendar),
        freight: row.money(Field::Freight),
        freight_free_from: row.money(Field::FreightFreeFrom),
        collection_h: row.hours(Field::CollectionHours),
        courier_cost,
        courier_h,
        same_day: same_day(row),
        group: row.text(Field::SupplierGroup),
        place: row.place.clone(),
    })
}

fn approved_classes(row: &mut RowReader<'_, '_>) -> Vec<PartClass> {
    let Some(text) = row.text(Field::ApprovedClasses) else {
        return Vec::new();
    };
    let mut classes = Vec::new();
    for word in text
        .split([',', ';', '/', '+', '&', '\n'])
        .map(str::trim)
        .filter(|word| !word.is_empty())
    {
        if matches!(
            fold(word).as_str(),
            "all" | "alle" | "tout" | "tous" | "todo" | "todos" | "tutto" | "tutti" | "wszystko"
        ) {
            return vec![
                PartClass::Bearings,
                PartClass::Seals,
                PartClass::Fasteners,
                PartClass::Other,
            ];
        }
        let class = row.word(
            Field::ApprovedClasses,
            word,
            "bearings, seals, fasteners or other",
            class_of,
        );
        classes.extend(class.filter(|class| !classes.contains(class)));
    }
    classes
}

fn class_of(word: &str) -> Option<PartClass> {
    Some(match fold(word).as_str() {
        "bearings" | "bearing" | "lager" | "walzlager" | "roulements" | "rodamientos"
        | "cuscinetti" | "lozyska" => PartClass::Bearings,
        "seals" | "seal" | "dichtungen" | "dichtung" | "joints" | "juntas" | "retenes"
        | "guarnizioni" | "uszczelnienia" | "uszczelki" => PartClass::Seals,
        "fasteners"
        | "fastener"
        | "retaining rings"
        | "verbindungselemente"
        | "normteile"
        | "fixations"
        | "fijaciones"
        | "elementi di fissaggio"
        | "elementy zlaczne" => PartClass::Fasteners,
        "other" | "others" | "sonstiges" | "sonstige" | "autres" | "otros" | "altro" | "inne" => {
            PartClass::Other
        }
        _ => return None,
    })
}

fn time(row: &mut RowReader<'_, '_>, field: Field) -> Option<NaiveTime> {
    match row.cell(field) {
        Cell::Empty | Cell::Error(_) => None,
        Cell::Date(moment) => Some(moment.time()),
        // A cell of a time alone is a fraction of a day.
        Cell::Number(value) if (0.0..1.0).contains(&value) => {
            let seconds = (value * 86_400.0).round() as u32;
            NaiveTime::from_num_seconds_from_midnight_opt(seconds.min(86_399), 0)
        }
        cell => row.word(field, &cell.to_text(), EXPECTED_TIME, read_time),
    }
}

/// `14:30`, `14.30`, `14h30`, `2 pm`, `14`, `14 Uhr`.
fn read_time(text: &str) -> Option<NaiveTime> {
    let lower = text.trim().to_lowercase();
    let is_pm = lower.ends_with("pm") || lower.ends_with("p.m.");
    let is_am = lower.ends_with("am") || lower.ends_with("a.m.");
    let bare = lower
        .trim_end_matches("p.m.")
        .trim_end_matches("a.m.")
        .trim_end_matches("pm")
        .trim_end_matches("am")
        .trim_end_matches("uhr")
        .trim_end_matches('h')
        .trim();
    let mut parts = bare.split([':', '.', 'h']);
    let hour: u32 = parts.next()?.trim().parse().ok()?;
    let minute: u32 = parts
        .next()
        .map_or(Some(0), |minute| minute.trim().parse().ok())?;
    let hour = match (is_pm, is_am, hour) {
        (true, _, 1..=11) => hour + 12,
        (_, true, 12) => 0,
        (true, _, 12) | (false, false, _) | (false, true, 0..=11) => hour,
        _ => return None,
    };
    parts
        .next()
        .is_none_or(|seconds| seconds.parse::<u32>().is_ok())
        .then(|| NaiveTime::from_hms_opt(hour, minute, 0))
        .flatten()
}

/// Both hours or nothing: with one of them missing nobody knows when the goods would come.
fn same_day(row: &mut RowReader<'_, '_>) -> Option<SameDay> {
    // Without one of the columns nothing can be made of the others, and they are told as not read.
    if !(row.table.has(Field::SameDayCutoff) && row.table.has(Field::SameDayArrival)) {
        return None;
    }
    let order_by = time(row, Field::SameDayCutoff);
    let there_by = time(row, Field::SameDayArrival);
    let cost = row.money(Field::SameDayCost);
    let (order_by, there_by) = row.both(
        (order_by, Field::SameDayCutoff),
        (there_by, Field::SameDayArrival),
        "same-day delivery",
    )?;
    Some(SameDay {
        order_by,
        there_by,
        cost,
    })
}

fn counter_hours(row: &mut RowReader<'_, '_>) -> Option<(NaiveTime, NaiveTime)> {
    if row.table.has(Field::CounterOpens) && row.table.has(Field::CounterCloses) {
        let opens = time(row, Field::CounterOpens);
        let closes = time(row, Field::CounterCloses);
        return row.both(
            (opens, Field::CounterOpens),
            (closes, Field::CounterCloses),
            "counter with opening hours",
        );
    }
    let text = row.text(Field::CounterHours)?;
    row.word(
        Field::CounterHours,
        &text,
        "opening hours such as `07:00-16:00`",
        |text| {
            let (from, until) = text
                .split_once(['-', '–'])
                .or_else(|| text.split_once(" to "))
                .or_else(|| text.split_once(" bis "))?;
            let hours = read_time(from).zip(read_time(until))?;
            (hours.0 < hours.1).then_some(hours)
        },
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_times_of_day() {
        for (text, expected) in [
            ("14:30", Some("14:30:00")),
            ("14.30 Uhr", Some("14:30:00")),
            ("14h30", Some("14:30:00")),
            ("14h", Some("14:00:00")),
            ("2 pm", Some("14:00:00")),
            ("12 am", Some("00:00:00")),
            ("25:00", None),
            ("noon", None),
            ("", None),
        ] {
            assert_eq!(
                read_time(text).map(|t| t.to_string()).as_deref(),
                expected,
                "{text}"
            );
        }
    }
}
