//! The first page: what to do now, the main figures, how old the data are, what is not known, cautions.

use super::shop_figures::{counted, due_count, kits_from_shelf, order_total};
use super::words::sentence;
use super::{Inputs, cover_actions, cover_unknowns};
use crate::caution;
use crate::record::TableKind;
use crate::report::model::{ColumnKind, Cover, DataAge, Fact, Value};

/// Makes the cover.
pub fn cover(inputs: &Inputs<'_>) -> Cover {
    let cautions = caution::REPORT.iter().chain(caution::FITTING);
    Cover {
        facts: facts(inputs),
        actions: cover_actions::actions(inputs),
        data_ages: data_ages(inputs),
        cautions: cautions.map(|text| sentence(text)).collect(),
        unknowns: cover_unknowns::unknowns(inputs),
    }
}

fn facts(inputs: &Inputs<'_>) -> Vec<Fact> {
    let integer = |label: &str, number: usize, note: Option<String>| Fact {
        label: label.to_owned(),
        value: Value::Integer(number as i64),
        kind: ColumnKind::Integer,
        note,
    };
    let own = inputs
        .shop
        .catalogue
        .parts()
        .iter()
        .filter(|part| part.is_own)
        .count();
    let shared = inputs.groups.iter().filter(|group| group.len() > 1).count();
    let rejected = inputs.imported.rows_rejected;
    let (total, is_whole) = order_total(inputs);
    vec![
        integer(
            "Rows read",
            inputs.imported.rows_read,
            Some(format!("{rejected} rejected")),
        ),
        integer(
            "Own parts",
            own,
            Some(format!(
                "{} parts in all with those only offered",
                inputs.shop.catalogue.parts().len()
            )),
        ),
        integer(
            "Groups of parts that go in for each other",
            shared,
            Some("in both directions, as they are".to_owned()),
        ),
        integer(
            "Kits that can be built from stock",
            kits_from_shelf(inputs),
            Some(format!("of {}", inputs.plan.kits.len())),
        ),
        integer(
            "Lines to order now",
            due_count(inputs),
            Some(format!(
                "from {}",
                counted(inputs.plan.reorder.orders.len(), "supplier")
            )),
        ),
        Fact {
            label: "Cost of these orders".to_owned(),
            value: Value::Money(total),
            kind: ColumnKind::Money(total.currency),
            note: Some(
                if is_whole {
                    "as planned, freight included"
                } else {
                    "as far as it is known: a price or freight is missing and not included"
                }
                .to_owned(),
            ),
        },
    ]
}

fn data_ages(inputs: &Inputs<'_>) -> Vec<DataAge> {
    let today = inputs.shop.as_of.date();
    let limit = inputs.shop.settings.planning.quote_is_old_after_days;
    let mut ages = Vec::new();
    for table in &inputs.imported.tables {
        if !matches!(table.kind, TableKind::Stock | TableKind::Offers) {
            continue;
        }
        let rows: Vec<chrono::NaiveDate> = match table.kind {
            TableKind::Stock => {
                let of = inputs
                    .shop
                    .stock
                    .iter()
                    .filter(|stock| is_of(&stock.record.place, table));
                of.filter_map(|stock| stock.record.counted_on).collect()
            }
            _ => {
                let of = inputs
                    .shop
                    .offers
                    .iter()
                    .filter(|offer| is_of(&offer.record.place, table));
                of.filter_map(|offer| offer.record.quote_date).collect()
            }
        };
        let oldest = rows.iter().min().copied().or(table.dated);
        // Of a day to come nobody knows the age.
        let age_days = oldest
            .map(|date| (today - date).num_days())
            .filter(|days| *days >= 0);
        let note = match (oldest, rows.iter().max()) {
            (None, _) => Some("no date in the file: ask how old it is".to_owned()),
            (Some(oldest), _) if oldest > today => {
                Some("dated after the moment of planning: ask how old it is".to_owned())
            }
            (Some(oldest), Some(newest)) if *newest > oldest => {
                Some(format!("oldest row; newest {newest}"))
            }
            _ => None,
        };
        let sheet = if table.sheet.is_empty() {
            String::new()
        } else {
            format!(", {}", table.sheet)
        };
        ages.push(DataAge {
            what: table.kind.name().to_owned(),
            file: format!("{}{sheet}", table.file),
            dated: oldest,
            age_days,
            is_old: age_days.is_some_and(|days| days > limit),
            note,
        });
    }
    ages
}

fn is_of(place: &crate::place::Place, table: &crate::import::TableRead) -> bool {
    place.file == table.file && place.sheet == table.sheet
}
