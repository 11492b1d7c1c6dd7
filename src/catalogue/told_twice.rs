//! Suppliers and machines that several rows speak of: the first row holds, later ones fill its gaps, and what they say
//! differently is told.

use std::collections::BTreeMap;

use super::shop::Unresolved;
use crate::part::NameKey;
use crate::record::{MachineRecord, SupplierRecord};

/// A record that goes by a name of its own.
pub(super) trait Named {
    /// The name.
    fn name(&self) -> &str;
    /// Fills gaps from a later row; what that row says differently, in words.
    fn take_gaps_from(&mut self, later: Self) -> Vec<String>;
    /// The row.
    fn place(&self) -> &crate::place::Place;
}

/// Records by the key of their name.
pub(super) fn by_name<R: Named>(
    records: Vec<R>,
    unresolved: &mut Vec<Unresolved>,
) -> BTreeMap<String, R> {
    let mut found: BTreeMap<String, R> = BTreeMap::new();
    for record in records {
        let key = NameKey::new(record.name()).as_str().to_owned();
        let Some(first) = found.get_mut(&key) else {
            found.insert(key, record);
            continue;
        };
        let place = record.place().clone();
        let said = first.take_gaps_from(record);
        if !said.is_empty() {
            unresolved.push(Unresolved {
                place,
                reason: format!(
                    "`{}` is told differently at {}: {}; what stands there is used",
                    first.name(),
                    first.place(),
                    said.join(", ")
                ),
            });
        }
    }
    found
}

/// Takes over a value where there is none; notes one that differs.
fn fill<T: PartialEq>(
    what: &str,
    first: &mut Option<T>,
    later: Option<T>,
    words: impl Fn(&T) -> String,
    said: &mut Vec<String>,
) {
    match (&first, &later) {
        (Some(a), Some(b)) if a != b => {
            said.push(format!("{what} {} there, {} here", words(a), words(b)));
        }
        (None, _) => *first = later,
        _ => {}
    }
}

impl Named for SupplierRecord {
    fn name(&self) -> &str {
        &self.name
    }

    fn place(&self) -> &crate::place::Place {
        &self.place
    }

    fn take_gaps_from(&mut self, later: Self) -> Vec<String> {
        let mut said = Vec::new();
        let was = self.is_approved;
        if was.zip(later.is_approved).is_some_and(|(a, b)| a != b) {
            // Of a yes and a no the no is the safe one.
            self.is_approved = Some(false);
            said.push(
                "approved in one of the two only, so that nothing is bought there".to_owned(),
            );
        }
        self.is_approved = self.is_approved.or(later.is_approved);
        // Classes belong to the approval that names them.
        if was.is_none() && self.approved_classes.is_empty() {
            self.approved_classes = later.approved_classes;
        }
        let time = |time: &chrono::NaiveTime| time.format("%H:%M").to_string();
        fill(
            "order cut-off",
            &mut self.order_cutoff,
            later.order_cutoff,
            time,
            &mut said,
        );
        fill(
            "freight",
            &mut self.freight,
            later.freight,
            ToString::to_string,
            &mut said,
        );
        fill(
            "calendar",
            &mut self.calendar,
            later.calendar,
            Clone::clone,
            &mut said,
        );
        self.counter_hours = self.counter_hours.or(later.counter_hours);
        self.freight_free_from = self.freight_free_from.or(later.freight_free_from);
        self.collection_h = self.collection_h.or(later.collection_h);
        self.courier_cost = self.courier_cost.or(later.courier_cost);
        self.courier_h = self.courier_h.or(later.courier_h);
        self.same_day = self.same_day.or(later.same_day);
        self.group = self.group.take().or(later.group);
        said
    }
}

impl Named for MachineRecord {
    fn name(&self) -> &str {
        &self.machine
    }

    fn place(&self) -> &crate::place::Place {
        &self.place
    }

    fn take_gaps_from(&mut self, later: Self) -> Vec<String> {
        let mut said = Vec::new();
        let figure = ToString::to_string;
        let cost = &mut self.downtime_cost_per_hour;
        fill(
            "cost of an hour down",
            cost,
            later.downtime_cost_per_hour,
            ToString::to_string,
            &mut said,
        );
        fill(
            "installed",
            &mut self.installed,
            later.installed,
            figure,
            &mut said,
        );
        fill(
            "criticality",
            &mut self.criticality,
            later.criticality,
            Clone::clone,
            &mut said,
        );
        self.description = self.description.take().or(later.description);
        self.in_use_from = self.in_use_from.or(later.in_use_from);
        self.in_use_until = self.in_use_until.or(later.in_use_until);
        self.running_hours = self.running_hours.or(later.running_hours);
        said
    }
}
