//! The calendars that a plan needs: maintenance, production, receiving, and each supplier's own.
//!
//! Lead times count the supplier's working days (or calendar days) from the day the order counts, and end at the next
//! receiving hour; work counts hours of the maintenance shift, downtime hours of production. All moments are readings
//! of the shop's clock; with a time zone in the settings, hours are those that really pass when the clock changes.

mod work_calendar;

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::{NaiveDate, NaiveDateTime, NaiveTime};

pub use work_calendar::WorkCalendar;

use super::issue::PlanIssue;
use crate::place::Place;
use crate::record::{CalendarSettings, ShopSettings, SupplierRecord};

/// One of the [`Calendars`] of a shop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct CalendarId(usize);

/// The calendars of one shop, by use.
#[derive(Debug, Clone)]
pub struct Calendars {
    by_id: Vec<WorkCalendar>,
    by_name: BTreeMap<String, CalendarId>,
    maintenance: WorkCalendar,
    production: WorkCalendar,
    receiving: WorkCalendar,
    supplier: CalendarId,
    receiving_hour: NaiveTime,
}

impl Calendars {
    /// Takes the calendars of the settings; a name that is not defined falls back to the day shift, which checked
    /// settings never need.
    pub fn new(settings: &ShopSettings) -> Self {
        let in_zone =
            |calendar: &CalendarSettings| WorkCalendar::in_zone(calendar, settings.time_zone);
        let mut by_id = vec![in_zone(&CalendarSettings::day_shift())];
        let mut by_name = BTreeMap::new();
        for (name, calendar) in &settings.calendars {
            by_name.insert(name.clone(), CalendarId(by_id.len()));
            by_id.push(in_zone(calendar));
        }
        let id = |name: &str| by_name.get(name).copied().unwrap_or(CalendarId(0));
        let named = |name: &str| by_id[id(name).0].clone();
        Self {
            maintenance: named(&settings.maintenance_calendar),
            production: named(&settings.production_calendar),
            receiving: named(&settings.receiving_calendar),
            supplier: id(&settings.supplier_calendar),
            receiving_hour: settings.receiving_hour,
            by_id,
            by_name,
        }
    }

    /// Calendar of the maintenance shift.
    pub const fn maintenance(&self) -> &WorkCalendar {
        &self.maintenance
    }

    /// Calendar in whose hours downtime counts.
    pub const fn production(&self) -> &WorkCalendar {
        &self.production
    }

    /// Calendar of goods receiving.
    pub const fn receiving(&self) -> &WorkCalendar {
        &self.receiving
    }

    /// A supplier's own calendar, else the one for suppliers that name none.
    pub fn of_supplier(&self, supplier: Option<&SupplierRecord>) -> &WorkCalendar {
        self.get(self.id_of_supplier(supplier))
    }

    /// Which calendar [`of_supplier`](Self::of_supplier) is.
    pub fn id_of_supplier(&self, supplier: Option<&SupplierRecord>) -> CalendarId {
        supplier
            .and_then(|supplier| supplier.calendar.as_ref())
            .and_then(|name| self.by_name.get(name))
            .copied()
            .unwrap_or(self.supplier)
    }

    /// The calendar of an id of these calendars.
    pub fn get(&self, id: CalendarId) -> &WorkCalendar {
        &self.by_id[id.0]
    }

    /// True where the settings define a calendar of this name.
    pub fn is_defined(&self, name: &str) -> bool {
        self.by_name.contains_key(name)
    }

    /// The moment at which goods that reach the gate on `date` are received, never before `earliest`.
    pub fn received(&self, date: NaiveDate, earliest: NaiveDateTime) -> Option<NaiveDateTime> {
        let day = self.receiving.roll_forward(date)?;
        let moment = self.receiving_moment(day);
        if moment >= earliest {
            return Some(moment);
        }
        let day = self.receiving.next_working_day(day.max(earliest.date()))?;
        Some(self.receiving_moment(day))
    }

    /// The issue of receiving days on which receiving is closed at the receiving hour.
    pub fn receiving_closed(&self, settings: &ShopSettings) -> Option<PlanIssue> {
        let closed: Vec<String> = self
            .receiving
            .working_weekdays()
            .filter(|day| !self.receiving.is_open_on(*day, self.receiving_hour))
            .map(|day| day.to_string())
            .collect();
        (!closed.is_empty()).then(|| PlanIssue::ReceivingClosed {
            place: Place::row(&Arc::from("settings"), &Arc::from(""), 0),
            hour: self.receiving_hour,
            calendar: settings.receiving_calendar.clone(),
            closed: closed.join(", "),
        })
    }

    /// The receiving hour of a receiving day, or the first open moment after it where receiving is closed then.
    fn receiving_moment(&self, day: NaiveDate) -> NaiveDateTime {
        let stated = day.and_time(self.receiving_hour);
        self.receiving.after(stated, 0.0).unwrap_or(stated)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::read_moment;

    fn at(text: &str) -> NaiveDateTime {
        read_moment(text).unwrap()
    }

    #[test]
    fn goods_are_never_received_before_they_are_ordered() {
        let calendars = Calendars::new(&ShopSettings::default());
        let friday_noon = at("2026-03-06T12:00");
        assert_eq!(
            calendars.received(friday_noon.date(), friday_noon),
            Some(at("2026-03-09T09:00"))
        );
    }

    #[test]
    fn settings_that_contradict_each_other_are_listed() {
        let settings = ShopSettings::from_toml(
            "receiving_hour = \"14:00\"\n[calendars.day]\nshifts = [\
             { days = [\"mon\", \"tue\"], from = \"07:00\", until = \"15:00\" },\
             { days = [\"fri\"], from = \"07:00\", until = \"13:00\" }]",
        )
        .unwrap();
        let issue = Calendars::new(&settings)
            .receiving_closed(&settings)
            .unwrap();
        assert_eq!(
            issue.to_string(),
            "settings: `receiving_hour` is 14:00:00, but calendar `day` of goods receiving is closed then on Fri; \
             goods wait until it opens"
        );
        let open = ShopSettings::default();
        assert_eq!(Calendars::new(&open).receiving_closed(&open), None);
    }

    #[test]
    fn a_receiving_hour_outside_receiving_hours_waits_until_somebody_is_there() {
        let calendars = Calendars::new(&ShopSettings {
            receiving_hour: NaiveTime::from_hms_opt(6, 0, 0).unwrap(),
            ..ShopSettings::default()
        });
        let sunday = at("2026-03-08");
        assert_eq!(
            calendars.received(sunday.date(), sunday),
            Some(at("2026-03-09T07:00"))
        );
    }
}
