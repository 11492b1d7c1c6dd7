//! A stored value as people read it: money with its currency, lengths in millimetres, delivery times and price steps in words.
//!
//! What a column holds says `store/columns.rs`; figures of two columns are told together where one is the unit of the other.

use crate::language::{Language, Translator};
use crate::part::Family;
use crate::report::model::grouped;
use crate::store::Provenance;

/// Endings of columns: what the figure counts in, and by what it is divided.
const UNITS: [(&str, &str, f64); 7] = [
    ("_nm", "mm", 1e6),
    ("_kn", "kN", 1.0),
    ("_deg", "°", 1.0),
    ("_rpm", "rev/min", 1.0),
    ("_h", "h", 1.0),
    ("_months", "months", 1.0),
    ("_share", "%", 0.01),
];

/// The other values of one row, by column.
struct RowOf<'a>(Vec<&'a Provenance>);

impl RowOf<'_> {
    fn value(&self, column: &str) -> Option<&str> {
        let found = self.0.iter().find(|value| value.column == column)?;
        found.value.as_deref()
    }
}

/// Name of the column and words for a value of it, in the language of the translator.
pub fn for_people(
    all: &[Provenance],
    of: &Provenance,
    value: Option<&str>,
    (language, words): (Language, &mut Translator),
) -> (String, String) {
    let is_of_row = |other: &&Provenance| {
        let (a, b) = (&other.place, &of.place);
        other.table == of.table && (a.row, &a.file, &a.sheet) == (b.row, &b.file, &b.sheet)
    };
    let row = RowOf(all.iter().filter(is_of_row).collect());
    let (name, said) = in_english(&row, &of.column, value.unwrap_or("-"));
    (words.say(&name), said.in_words(language, words))
}

/// What is told of a value.
enum Said {
    /// Words of the program.
    Ours(String),
    /// Words of the shop.
    Theirs(String),
    /// A figure, its unit or currency, and for how many a price is.
    Figure(String, String, Option<String>),
}

impl Said {
    fn in_words(self, language: Language, words: &mut Translator) -> String {
        match self {
            Self::Ours(text) => words.say(&text),
            Self::Theirs(text) => text,
            Self::Figure(figure, unit, per) => {
                let unit = if matches!(unit.as_str(), "months" | "rev/min") {
                    words.say(&unit)
                } else {
                    unit
                };
                let per = per.map(|per| format!(" {} {per}", words.say("per")));
                let told = format!("{} {unit}", language.number(&figure));
                told.trim_end().to_owned() + &per.unwrap_or_default()
            }
        }
    }
}

fn in_english(row: &RowOf<'_>, column: &str, value: &str) -> (String, Said) {
    let plain = |column: &str| column.trim_start_matches("has_").replace('_', " ");
    if matches!(column, "family" | "size_family") {
        let name = Family::from_code(value).map(Family::name);
        let name = name.map_or_else(|| value.to_owned(), str::to_owned);
        return (plain(column), Said::Ours(name));
    }
    let dimension = column
        .strip_prefix("key_")
        .and_then(|rest| rest.strip_suffix("_nm"));
    if let Some(number) = dimension {
        let name = dimension_name(row, number);
        return (name, with_unit(value, "mm", 1e6));
    }
    if let Some(money) = money(row, column, value) {
        return money;
    }
    let told = match column {
        "lead_time" => span(value),
        "breaks" => list(value).map(|all| each(&all, price_step)),
        "expedite" => list(value).map(|all| each(&all, faster)),
        _ => None,
    };
    if let Some(told) = told {
        return (plain(column), Said::Ours(told));
    }
    for (ending, unit, divisor) in UNITS {
        if let Some(stem) = column.strip_suffix(ending) {
            return (plain(stem), with_unit(value, unit, divisor));
        }
    }
    // Codes of ours that are no words yet.
    let value = match (column, value) {
        ("condition", "used") => "second-hand".to_owned(),
        ("kind", _) => value.replace('_', " "),
        _ => value.to_owned(),
    };
    // A list holds words of the shop, as does what is left but for the words that a column chooses among.
    if let Some(all) = list(&value) {
        return (plain(column), Said::Theirs(all.join(", ")));
    }
    let is_chosen = matches!(
        column,
        "condition" | "reason" | "bore_form" | "severity" | "kind"
    ) || column == "unit_of_count"
        || matches!(value.as_str(), "yes" | "no" | "in stock" | "on request");
    let said = if is_chosen {
        Said::Ours(value)
    } else {
        Said::Theirs(value)
    };
    (plain(column), said)
}

/// `bore` of the first dimension of a bearing, `dimension 1` where the family is not known.
fn dimension_name(row: &RowOf<'_>, number: &str) -> String {
    let family = row.value("size_family").and_then(Family::from_code);
    let place = number
        .parse::<usize>()
        .ok()
        .and_then(|at| at.checked_sub(1));
    family
        .zip(place)
        .and_then(|(family, place)| family.key_dimensions().get(place).copied())
        .map_or_else(|| format!("dimension {number}"), |found| found.name())
}

/// A figure with its unit; what is no figure stays as it is.
fn with_unit(value: &str, unit: &str, divisor: f64) -> Said {
    match value.parse::<f64>() {
        Ok(figure) => Said::Figure(grouped(figure / divisor, 0, 6), unit.to_owned(), None),
        Err(_) => Said::Theirs(value.to_owned()),
    }
}

/// Amounts are kept in hundredths, prices in ten-thousandths, of a currency that stands in a column of its own.
fn money(row: &RowOf<'_>, column: &str, value: &str) -> Option<(String, Said)> {
    let (stem, divisor) = match column {
        "price_cents_e2" => ("price", 1e4),
        "downtime_cents_per_hour" => ("downtime", 1e2),
        _ => (column.strip_suffix("_cents")?, 1e2),
    };
    let name = if stem == "downtime" {
        "downtime per hour".to_owned()
    } else {
        stem.replace('_', " ")
    };
    let Ok(figure) = value.parse::<f64>() else {
        return Some((name, Said::Theirs(value.to_owned())));
    };
    let currency = row.value(&format!("{stem}_currency")).unwrap_or_default();
    let per = row.value("price_per").filter(|_| stem == "price");
    let per = per.filter(|per| *per != "1").map(str::to_owned);
    let figure = grouped(figure / divisor, 2, 4);
    Some((name, Said::Figure(figure, currency.to_owned(), per)))
}

/// The texts of a list as the tables keep it.
fn list(value: &str) -> Option<Vec<String>> {
    value
        .starts_with('[')
        .then(|| serde_json::from_str(value).ok())
        .flatten()
}

/// Each text of a list in words; one that cannot be read stays as it is.
fn each(all: &[String], words: fn(&str) -> Option<String>) -> String {
    let all = all
        .iter()
        .map(|one| words(one).unwrap_or_else(|| one.clone()));
    all.collect::<Vec<_>>().join("; ")
}

/// `7 days` of `7/7/days`, `10 to 12 workdays` of `10/12/workdays`; `None` where it is no span.
fn span(value: &str) -> Option<String> {
    let mut pieces = value.split('/');
    let (least, most, unit) = (pieces.next()?, pieces.next()?, pieces.next()?);
    Some(match (least, most) {
        ("1", "1") => format!("1 {}", unit.trim_end_matches('s')),
        _ if least == most => format!("{least} {unit}"),
        _ => format!("{least} to {most} {unit}"),
    })
}

/// `from 10: 8.69 EUR` of `10@86900/1/EUR`.
fn price_step(value: &str) -> Option<String> {
    let (from, price) = value.split_once('@')?;
    let mut pieces = price.split('/');
    let (figure, per, currency) = (pieces.next()?, pieces.next()?, pieces.next()?);
    let figure = grouped(figure.parse::<f64>().ok()? / 1e4, 2, 4);
    Some(match per {
        "1" => format!("from {from}: {figure} {currency}"),
        _ => format!("from {from}: {figure} {currency} per {per}"),
    })
}

/// `2 days, surcharge 15.00 EUR` of `2/2/days@1500 EUR`; without a surcharge where nobody says it.
fn faster(value: &str) -> Option<String> {
    let (lead_time, surcharge) = value.split_once('@')?;
    let span = span(lead_time).unwrap_or_else(|| lead_time.to_owned());
    if surcharge.is_empty() {
        return Some(span);
    }
    let (cents, currency) = surcharge.split_once(' ')?;
    let figure = grouped(cents.parse::<f64>().ok()? / 1e2, 2, 2);
    Some(format!("{span}, surcharge {figure} {currency}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::Language;
    use crate::place::Place;

    fn value(column: &str, value: &str) -> Provenance {
        Provenance {
            table: "offers",
            column: column.to_owned(),
            value: Some(value.to_owned()),
            place: Place::row(&"a.csv".into(), &"".into(), 3),
            import: 1,
            imported_at: None,
            replaced: None,
            not_used_for: None,
        }
    }

    fn told(row: &[Provenance], language: Language) -> Vec<(String, String)> {
        let mut words = Translator::new(language);
        let each = row.iter();
        each.map(|of| for_people(row, of, of.value.as_deref(), (language, &mut words)))
            .collect()
    }

    /// ISO 15: 6005 is 25 x 47 x 12 mm; the rest is arithmetic of the units that `store/columns.rs` states.
    #[test]
    fn stored_values_are_told_with_their_units_and_names() {
        let row = [
            value("size_family", "deep_groove_ball"),
            value("key_1_nm", "25000000"),
            value("key_3_nm", "12000000"),
            value("price_cents_e2", "7580020"),
            value("price_currency", "EUR"),
            value("price_per", "100"),
            value("lead_time", "7/7/days"),
            value("breaks", "[\"1@92500/1/EUR\",\"50@81400/100/EUR\"]"),
            value("expedite", "[\"2/3/workdays@1500 EUR\"]"),
            value("dynamic_kn", "11.2"),
            value("cancellation_charge_share", "0.15"),
            value("own_number", "6/6/days"),
            value("room_nm", "-"),
        ];
        let english = told(&row, Language::ENGLISH);
        let english: Vec<(&str, &str)> = english
            .iter()
            .map(|(name, said)| (name.as_str(), said.as_str()))
            .collect();
        assert_eq!(
            english,
            [
                ("size family", "deep groove ball bearing"),
                ("bore", "25 mm"),
                ("width", "12 mm"),
                ("price", "758.002 EUR per 100"),
                ("price currency", "EUR"),
                ("price per", "100"),
                ("lead time", "7 days"),
                ("breaks", "from 1: 9.25 EUR; from 50: 8.14 EUR per 100"),
                ("expedite", "2 to 3 workdays, surcharge 15.00 EUR"),
                ("dynamic", "11.2 kN"),
                ("cancellation charge", "15 %"),
                ("own number", "6/6/days"),
                ("room", "-"),
            ]
        );
        // DIN 1333: a comma before decimals.
        let german = told(&row, Language::of_code("de").unwrap());
        assert_eq!(
            german[3],
            ("Preis".to_owned(), "758,002 EUR je 100".to_owned())
        );
        assert_eq!(german[7].1, "ab 1: 9,25 EUR; ab 50: 8,14 EUR je 100");
        assert_eq!(german[8].1, "2 bis 3 Arbeitstage, Aufpreis 15,00 EUR");
    }

    #[test]
    fn every_column_has_a_name_in_german() {
        let german = Language::of_code("de").unwrap();
        let mut words = Translator::new(german);
        for (table, columns) in crate::store::State::columns() {
            for (column, _) in columns {
                let row = [value(column, "1")];
                for_people(&row, &row[0], Some("-"), (german, &mut words));
                let missing = words.missing();
                assert!(missing.is_empty(), "{table}.{column}: {missing:?}");
            }
        }
    }
}
