//! Price lists whose titles or names say a day, month or year after the day of planning: what they offer does not hold yet.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use chrono::NaiveDate;

use super::list_name::days_in;
use super::origin::Kept;
use super::same::same_offer;
use crate::import::{Problem, RowIssue, Severity};
use crate::place::Place;
use crate::record::OfferRecord;

/// Words before the last day of a list instead of its first. Common practice, no source.
const UNTIL: [&str; 6] = ["bis", "until", "till", "through", "thru", "fino"];

/// The first day of a name, where all that it says lies after the day of planning: `prices 2025-2027` hold in 2026.
pub(super) fn coming_day(name: &str, as_of: NaiveDate) -> Option<NaiveDate> {
    let lower = name.to_lowercase();
    let mut words = lower.split(|c: char| !c.is_alphanumeric());
    let is_end = words.any(|word| UNTIL.contains(&word));
    let first = days_in(name).into_iter().min();
    first.filter(|day| *day > as_of && !is_end)
}

/// Leaves out what lists to come offer where another list offers the same; tells of each such list what was done.
///
/// `coming` gives the day of the list of a place, for lists to come.
pub(super) fn leave_out_coming(
    offers: &mut Vec<Kept<OfferRecord>>,
    coming: impl Fn(&Place) -> Option<NaiveDate>,
) -> Vec<RowIssue> {
    let days: Vec<Option<NaiveDate>> = offers.iter().map(|offer| coming(offer.home())).collect();
    if days.iter().all(Option::is_none) {
        return Vec::new();
    }
    let keys: Vec<String> = offers.iter().map(same_offer).collect();
    let mut holding: HashMap<&str, Place> = HashMap::new();
    for ((offer, key), _) in (offers.iter().zip(&keys))
        .zip(&days)
        .filter(|(_, day)| day.is_none())
    {
        (holding.entry(key)).or_insert_with(|| offer.record.place.clone());
    }
    let mut left_out = BTreeSet::new();
    let mut told = BTreeMap::new();
    for (at, (offer, day)) in offers.iter().zip(&days).enumerate() {
        let Some(day) = day else { continue };
        let holds = holding.get(&*keys[at]);
        if holds.is_some() {
            left_out.insert(at);
        }
        let place = &offer.record.place;
        let list = (place.file.clone(), place.sheet.clone(), holds.is_some());
        told.entry(list)
            .or_insert_with(|| issue(place, *day, holds));
    }
    let mut at = 0;
    offers.retain(|_| {
        at += 1;
        !left_out.contains(&(at - 1))
    });
    told.into_values().collect()
}

fn issue(place: &Place, day: NaiveDate, holds: Option<&Place>) -> RowIssue {
    let end = match holds {
        Some(holds) => {
            format!("it is not used where another list offers the same, as at {holds}")
        }
        None => "no other list offers the same, so that it is planned with all the same".to_owned(),
    };
    let words =
        format!("by its title or name this list is of {day}, a day after that of planning: {end}");
    RowIssue {
        place: place.clone(),
        severity: match holds {
            Some(_) => Severity::Note,
            None => Severity::Doubtful,
        },
        field: None,
        problem: Problem::Recorded { words },
        original_cells: Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_comes_where_all_of_its_name_lies_ahead() {
        // Ways of naming files: common practice, no source.
        let as_of = NaiveDate::from_ymd_opt(2026, 3, 9).unwrap();
        for (name, day) in [
            ("Preise 2027", Some("2027-01-01")),
            ("prices 2026-04.csv", Some("2026-04-01")),
            ("Preise 2026", None),
            ("Preise 2025-2027", None),
            ("Preise bis 2027", None),
            ("prices.csv", None),
        ] {
            let found = coming_day(name, as_of).map(|day| day.to_string());
            assert_eq!(found.as_deref(), day, "{name}");
        }
    }
}
