//! Shop settings, read from one TOML file in the folder.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{NaiveDate, NaiveDateTime, NaiveTime};
use serde::Deserialize;

use super::calendar_settings::CalendarSettings;
use super::lead_time::LeadUnit;
use super::movement::MovementCodes;
use super::planning_settings::{LeadUnitSetting, PlanningSettings};
use super::settings_error::SettingsError;
use super::settings_text::{hour, optional_date, optional_moment, time_of_day};
use super::time_zone::TimeZone;
use crate::language::Language;
use crate::units::Currency;

/// Everything the shop says about itself.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct ShopSettings {
    /// Name of the shop, for covers.
    pub shop: String,
    /// Moment of planning; the command line comes first.
    #[serde(deserialize_with = "optional_moment")]
    pub as_of: Option<NaiveDateTime>,
    /// Language of reports, such as `de`; the command line comes first.
    pub language: Option<Language>,
    /// Currency of reports.
    pub currency: Currency,
    /// Units of `currency` for one unit of another.
    pub exchange_rates: BTreeMap<String, f64>,
    /// Day since when usages were recorded; without it rates are unknown.
    #[serde(deserialize_with = "optional_date")]
    pub records_from: Option<NaiveDate>,
    /// Time zone of the shop's clock, such as `Europe/Berlin`; without it a day always has 24 hours.
    pub time_zone: Option<TimeZone>,
    /// Hour at which goods are received.
    #[serde(deserialize_with = "time_of_day")]
    pub receiving_hour: NaiveTime,
    /// Calendars by name.
    pub calendars: BTreeMap<String, CalendarSettings>,
    /// Calendar of the maintenance shift.
    pub maintenance_calendar: String,
    /// Calendar of production: downtime counts in its hours.
    pub production_calendar: String,
    /// Calendar of goods receiving.
    pub receiving_calendar: String,
    /// Calendar of suppliers that name none.
    pub supplier_calendar: String,
    /// Order of day and month in dates such as 03/04/2026: `dmy` or `mdy`.
    pub date_order: DateOrder,
    /// True: nothing is bought from a supplier whom no table approves. False: from every supplier but those a table
    /// refuses. Without it: true where any table says something of approval.
    pub suppliers_need_approval: Option<bool>,
    /// What codes mean in lists of movements, such as `issue` or `receipt`.
    pub movement_codes: MovementCodes,
    /// Keys of the top level that the file names; what it leaves out may be presumed from the tables.
    #[serde(skip)]
    pub named: BTreeSet<String>,
    /// What purchase requests say of the shop.
    pub requests: RequestSettings,
    /// Planner's figures.
    pub planning: PlanningSettings,
}

/// What a purchase request says of the shop that asks; only what is known is printed.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct RequestSettings {
    /// Where the goods are delivered to.
    pub address: Option<String>,
    /// Whom to write to or to ring.
    pub contact: Option<String>,
    /// Calendar days after the moment of planning until which an answer is asked for.
    pub reply_within_days: Option<u16>,
}

/// Order of day, month and year in dates written with numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum DateOrder {
    /// Day, month, year.
    Dmy,
    /// Month, day, year.
    Mdy,
    /// Year, month, day.
    Ymd,
}

/// What a shop is called whose settings give it no name.
pub const UNNAMED_SHOP: &str = "the shop";

/// Name of the calendar that holds where the settings define none.
pub const DEFAULT_CALENDAR: &str = "day";

impl Default for ShopSettings {
    fn default() -> Self {
        let name = || DEFAULT_CALENDAR.to_owned();
        Self {
            shop: UNNAMED_SHOP.to_owned(),
            as_of: None,
            language: None,
            currency: Currency::EUR,
            exchange_rates: BTreeMap::new(),
            records_from: None,
            time_zone: None,
            receiving_hour: hour(9),
            calendars: BTreeMap::from([(name(), CalendarSettings::day_shift())]),
            maintenance_calendar: name(),
            production_calendar: name(),
            receiving_calendar: name(),
            supplier_calendar: name(),
            date_order: DateOrder::Dmy,
            suppliers_need_approval: None,
            movement_codes: MovementCodes::default(),
            named: BTreeSet::new(),
            requests: RequestSettings::default(),
            planning: PlanningSettings::default(),
        }
    }
}

impl ShopSettings {
    /// Reads and checks the TOML text.
    ///
    /// # Errors
    /// [`SettingsError`] with the key and what would be right.
    pub fn from_toml(text: &str) -> Result<Self, SettingsError> {
        let mut settings: Self = toml::from_str(text).map_err(Box::new)?;
        // Read again for the names alone: a table made into settings would lose the line of a wrong value.
        let keys: toml::Table = toml::from_str(text).map_err(Box::new)?;
        let planning = keys.get("planning").and_then(toml::Value::as_table);
        let is_given = |key: &str| planning.is_some_and(|planning| planning.contains_key(key));
        let has_two_goals = is_given("service_target_share") && is_given("stock_budget");
        settings.named = keys.into_iter().map(|(key, _)| key).collect();
        settings.check()?;
        if has_two_goals {
            return Err(SettingsError::Contradiction {
                key: "service_target_share",
                other: "stock_budget",
                because: "a budget sets the price of a stock-out in place of the target",
            });
        }
        Ok(settings)
    }

    fn check(&self) -> Result<(), SettingsError> {
        let planning = &self.planning;
        let share = |key, value: f64, expected, range: std::ops::RangeInclusive<f64>| {
            if range.contains(&value) {
                Ok(())
            } else {
                Err(SettingsError::OutOfRange {
                    key,
                    found: value.to_string(),
                    expected,
                })
            }
        };
        share(
            "holding_cost_share",
            planning.holding_cost_share,
            "between 0 and 2",
            0.0..=2.0,
        )?;
        share("order_cost", planning.order_cost, "0 or more", 0.0..=1e6)?;
        if let Some(freight) = planning.freight_assumed {
            share("freight_assumed", freight, "0 or more", 0.0..=1e6)?;
        }
        share(
            "service_target_share",
            planning.service_target_share,
            "between 0.5 and 0.9999",
            0.5..=0.9999,
        )?;
        if let Some(discount) = planning.discount_per_month {
            share(
                "discount_per_month",
                discount,
                "between 0.5 and 1",
                0.5..=1.0,
            )?;
        }
        for target in planning.service_targets_by_criticality.values() {
            share(
                "service_targets_by_criticality",
                *target,
                "between 0.5 and 0.9999",
                0.5..=0.9999,
            )?;
        }
        planning.check_levels(&share)?;
        for (code, rate) in &self.exchange_rates {
            share("exchange_rates", *rate, "above 0", f64::MIN_POSITIVE..=1e6)?;
            Currency::new(code).map_err(|_| SettingsError::OutOfRange {
                key: "exchange_rates",
                found: format!("`{code}`"),
                expected: "given by currencies of three letters",
            })?;
        }
        for calendar in self.calendars.values() {
            if calendar.shifts.iter().all(|shift| shift.days.is_empty()) {
                return Err(SettingsError::OutOfRange {
                    key: "calendars.shifts",
                    found: "empty".to_owned(),
                    expected: "at least one shift with days",
                });
            }
        }
        self.movement_codes.check()?;
        for (used_for, name) in [
            ("maintenance", &self.maintenance_calendar),
            ("production", &self.production_calendar),
            ("receiving", &self.receiving_calendar),
            ("suppliers", &self.supplier_calendar),
        ] {
            if !self.calendars.contains_key(name) {
                return Err(SettingsError::NoSuchCalendar {
                    name: name.clone(),
                    used_for,
                });
            }
        }
        Ok(())
    }

    /// What a quoted "day" counts.
    pub const fn day_unit(&self) -> LeadUnit {
        match self.planning.lead_time_days_are {
            LeadUnitSetting::Workdays => LeadUnit::Workdays,
            LeadUnitSetting::Days => LeadUnit::Days,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::read_moment;

    #[test]
    fn an_empty_file_gives_the_defaults() {
        assert_eq!(
            ShopSettings::from_toml("").unwrap(),
            ShopSettings::default()
        );
    }

    #[test]
    fn reads_calendars_and_figures() {
        let settings = ShopSettings::from_toml(
            r#"
            as_of = "2026-03-09T07:30"
            records_from = "2021-01-04"
            maintenance_calendar = "late"
            [exchange_rates]
            USD = 0.92
            [calendars.day]
            shifts = [{ days = ["mon", "tue"], from = "06:00", until = "22:00" }]
            [calendars.late]
            shifts = [{ days = ["sat"], from = "14:00", until = "22:00" }]
            holidays = ["2026-12-25", "2026-08-03 to 2026-08-21"]
            [planning]
            service_target_share = 0.9
            "#,
        )
        .unwrap();
        assert_eq!(settings.calendars["late"].holidays.len(), 20);
        assert_eq!(settings.as_of, read_moment("2026-03-09 07:30"));
        assert!((settings.planning.service_target_share - 0.9).abs() < 1e-12);
    }

    #[test]
    fn says_which_key_is_wrong_and_what_would_be_right() {
        let error = |text: &str| ShopSettings::from_toml(text).unwrap_err().to_string();
        assert_eq!(
            error("[planning]\nservice_target_share = 95"),
            "settings: `service_target_share` is 95, but must be between 0.5 and 0.9999"
        );
        assert_eq!(
            error("production_calendar = \"night\""),
            "settings: calendar `night` is used for production, but there is no [calendars.night]"
        );
        assert!(
            error("[planning]\nstock_budget = 9000\nlevels_by = \"service_target\"")
                .starts_with("settings: `stock_budget` contradicts `levels_by`")
        );
        assert!(error("servce_target = 1").contains("unknown field `servce_target`"));
        assert!(error("records_from = \"4.1.2021\"").contains("is not a date"));
        assert!(error("time_zone = \"CET/Berlin\"").contains("is not a time zone"));
        let closed = "[calendars.day]\nshifts = []\nholidays = [\"2026-08-21 to 2026-08-03\"]";
        assert!(error(closed).contains("is not a range of days"));
    }
}
