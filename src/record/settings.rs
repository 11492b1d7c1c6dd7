//! Shop settings, read from one TOML file in the folder.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{NaiveDate, NaiveDateTime, NaiveTime};
use serde::Deserialize;

use super::lead_time::LeadUnit;
use super::time_zone::TimeZone;
use crate::language::Language;
use crate::units::Currency;

/// Why the settings cannot be used.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SettingsError {
    /// The text is no TOML of the expected form.
    #[error("settings cannot be read: {0}")]
    Toml(#[from] Box<toml::de::Error>),
    /// A value outside its range.
    #[error("settings: `{key}` is {found}, but must be {expected}")]
    OutOfRange {
        /// The key.
        key: &'static str,
        /// What was found.
        found: String,
        /// What would be right.
        expected: &'static str,
    },
    /// Two keys that cannot both hold.
    #[error("settings: `{key}` contradicts `{other}`: {because}")]
    Contradiction {
        /// One key.
        key: &'static str,
        /// The other.
        other: &'static str,
        /// Why both cannot hold.
        because: &'static str,
    },
    /// A calendar that is named but not defined.
    #[error(
        "settings: calendar `{name}` is used for {used_for}, but there is no [calendars.{name}]"
    )]
    NoSuchCalendar {
        /// The calendar's name.
        name: String,
        /// What it is used for.
        used_for: &'static str,
    },
}

/// Day of the week, as written in the settings (`mon` to `sun`).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
#[expect(missing_docs, reason = "the names say it")]
pub enum Weekday {
    Mon,
    Tue,
    Wed,
    Thu,
    Fri,
    Sat,
    Sun,
}

/// Opening hours on some days of the week.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shift {
    /// Days it holds for.
    pub days: Vec<Weekday>,
    /// Start, `07:00`.
    #[serde(deserialize_with = "time_of_day")]
    pub from: NaiveTime,
    /// End, `15:30`; `24:00` is written `00:00` and means the end of the day.
    #[serde(deserialize_with = "time_of_day")]
    pub until: NaiveTime,
}

/// Working days, hours and holidays of one calendar.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CalendarSettings {
    /// Shifts; the days named in them are the working days.
    pub shifts: Vec<Shift>,
    /// Days off; `2026-08-03 to 2026-08-21` names every day from the first to the last.
    #[serde(default, deserialize_with = "dates")]
    pub holidays: Vec<NaiveDate>,
}

/// What sets the stock levels.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LevelsBy {
    /// One price of a stock-out for the whole shop, weighted by criticality and downtime cost, set so that the shop
    /// reaches its service target, or its budget where it has one.
    StockOutPrice,
    /// The downtime cost of each part's machines, in full.
    DowntimeCost,
    /// The service target of each part.
    ServiceTarget,
}

/// Figures the planner sets.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct PlanningSettings {
    /// Yearly holding cost as a share of the price.
    pub holding_cost_share: f64,
    /// Cost of placing one order, in units of `currency`.
    pub order_cost: f64,
    /// Freight of an order to a supplier of whom no table says it, in units of `currency`; without it, the median of those
    /// that are known.
    pub freight_assumed: Option<f64>,
    /// Share of demands to be met from the shelf.
    pub service_target_share: f64,
    /// Service targets by criticality as printed in the machines table.
    pub service_targets_by_criticality: BTreeMap<String, f64>,
    /// What sets the stock levels: `stock_out_price`, `downtime_cost` or `service_target`.
    pub levels_by: LevelsBy,
    /// Money that the stock may tie up, in units of `currency`; sets the price of a stock-out in place of the target.
    pub stock_budget: Option<f64>,
    /// Share of rebuilds that should find every line of the kit on the shelf; without it kits raise no level.
    pub kit_target_share: Option<f64>,
    /// How much more an hour of waiting counts, by criticality as printed in the machines table; 1 for the others.
    pub criticality_weights: BTreeMap<String, f64>,
    /// Cost of an hour down where no machine with a cost is known for a part, in units of `currency`.
    pub downtime_cost_per_hour: Option<f64>,
    /// Shelf life of greased bearings, months; without it they keep for ever.
    pub greased_bearing_shelf_months: Option<f64>,
    /// Safety working days before a needed date.
    pub safety_workdays: u32,
    /// What "days" in a quoted lead time count: `workdays` or `days`.
    pub lead_time_days_are: LeadUnitSetting,
    /// Distribution fitted to five receipts or more: `lognormal`, `gamma`, or `best_fit` of the two.
    pub lead_time_model: LeadTimeModel,
    /// Accept offers of reconditioned goods.
    pub allow_reconditioned: bool,
    /// Quotes older than this many days are shown as old.
    pub quote_is_old_after_days: i64,
    /// How usage rates are estimated: `shrinkage`, `plain`, `sba` or `tsb`.
    pub demand_method: DemandMethod,
    /// Weight of a month of history against the month after it, above 0.5 up to 1; without it, chosen from the history.
    pub discount_per_month: Option<f64>,
}

/// How usage rates are estimated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum DemandMethod {
    /// Own usages drawn to those of the part's group, older ones counting less.
    Shrinkage,
    /// Usages over the days of records.
    Plain,
    /// Size and interval smoothed by month.
    Sba,
    /// Size and probability smoothed by month, for parts that die out.
    Tsb,
}

/// What a quoted "day" counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum LeadUnitSetting {
    /// The supplier's working days.
    Workdays,
    /// Calendar days.
    Days,
}

/// Distribution that is fitted to receipts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LeadTimeModel {
    /// Lognormal, with the prediction interval of few receipts.
    Lognormal,
    /// Gamma.
    Gamma,
    /// Whichever of the two has the lower Akaike criterion.
    BestFit,
}

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
    #[serde(deserialize_with = "currency")]
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
    /// Keys of the top level that the file names; what it leaves out may be presumed from the tables.
    #[serde(skip)]
    pub named: BTreeSet<String>,
    /// Planner's figures.
    pub planning: PlanningSettings,
}

/// Order of day, month and year in dates written with numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum DateOrder {
    /// Day, month, year.
    Dmy,
    /// Month, day, year.
    Mdy,
}

/// Longest range of days off.
const LONGEST_CLOSURE_DAYS: i64 = 366;

/// Name of the calendar that holds where the settings define none.
pub const DEFAULT_CALENDAR: &str = "day";

impl Default for PlanningSettings {
    fn default() -> Self {
        Self {
            holding_cost_share: 0.20,
            order_cost: 25.0,
            freight_assumed: None,
            service_target_share: 0.95,
            service_targets_by_criticality: BTreeMap::new(),
            levels_by: LevelsBy::StockOutPrice,
            stock_budget: None,
            kit_target_share: None,
            criticality_weights: BTreeMap::new(),
            downtime_cost_per_hour: None,
            greased_bearing_shelf_months: None,
            safety_workdays: 0,
            lead_time_days_are: LeadUnitSetting::Workdays,
            lead_time_model: LeadTimeModel::Lognormal,
            allow_reconditioned: false,
            quote_is_old_after_days: 90,
            demand_method: DemandMethod::Shrinkage,
            discount_per_month: None,
        }
    }
}

impl Default for ShopSettings {
    fn default() -> Self {
        let name = || DEFAULT_CALENDAR.to_owned();
        Self {
            shop: "the shop".to_owned(),
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
            named: BTreeSet::new(),
            planning: PlanningSettings::default(),
        }
    }
}

impl CalendarSettings {
    /// Monday to Friday, 07:00 to 15:00, no holidays: what holds where the settings say nothing.
    pub fn day_shift() -> Self {
        use Weekday::{Fri, Mon, Thu, Tue, Wed};
        let days = vec![Mon, Tue, Wed, Thu, Fri];
        Self {
            shifts: vec![Shift {
                days,
                from: hour(7),
                until: hour(15),
            }],
            holidays: Vec::new(),
        }
    }
}

impl PlanningSettings {
    fn check_levels(
        &self,
        within: &impl Fn(
            &'static str,
            f64,
            &'static str,
            std::ops::RangeInclusive<f64>,
        ) -> Result<(), SettingsError>,
    ) -> Result<(), SettingsError> {
        const ABOVE_0: (&str, std::ops::RangeInclusive<f64>) =
            ("above 0", f64::MIN_POSITIVE..=1e12);
        for weight in self.criticality_weights.values() {
            within("criticality_weights", *weight, ABOVE_0.0, ABOVE_0.1)?;
        }
        for (key, value) in [
            ("downtime_cost_per_hour", self.downtime_cost_per_hour),
            (
                "greased_bearing_shelf_months",
                self.greased_bearing_shelf_months,
            ),
        ] {
            if let Some(value) = value {
                within(key, value, ABOVE_0.0, ABOVE_0.1)?;
            }
        }
        if let Some(share) = self.kit_target_share {
            within(
                "kit_target_share",
                share,
                "between 0.5 and 0.9999",
                0.5..=0.9999,
            )?;
        }
        if let Some(budget) = self.stock_budget {
            within("stock_budget", budget, "0 or more", 0.0..=1e12)?;
            if self.levels_by != LevelsBy::StockOutPrice {
                return Err(SettingsError::Contradiction {
                    key: "stock_budget",
                    other: "levels_by",
                    because: "a budget sets the price of a stock-out, which the other way of setting levels does not use",
                });
            }
        }
        Ok(())
    }
}

impl ShopSettings {
    /// Reads and checks the TOML text.
    ///
    /// # Errors
    /// [`SettingsError`] with the key and what would be right.
    pub fn from_toml(text: &str) -> Result<Self, SettingsError> {
        let mut settings: Self = toml::from_str(text).map_err(Box::new)?;
        let keys: toml::Table = toml::from_str(text).map_err(Box::new)?;
        settings.named = keys.into_iter().map(|(key, _)| key).collect();
        settings.check()?;
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

fn hour(hour: u32) -> NaiveTime {
    NaiveTime::from_hms_opt(hour, 0, 0).unwrap_or_default()
}

fn time_of_day<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<NaiveTime, D::Error> {
    let text = String::deserialize(deserializer)?;
    NaiveTime::parse_from_str(&text, "%H:%M").map_err(|_| {
        serde::de::Error::custom(format!(
            "`{text}` is not a time of day; expected hours and minutes such as \"07:30\""
        ))
    })
}

fn read_date<E: serde::de::Error>(text: &str) -> Result<NaiveDate, E> {
    NaiveDate::parse_from_str(text, "%Y-%m-%d").map_err(|_| {
        E::custom(format!(
            "`{text}` is not a date; expected year, month, day such as \"2026-03-09\""
        ))
    })
}

fn dates<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Vec<NaiveDate>, D::Error> {
    let mut days = Vec::new();
    for text in Vec::<String>::deserialize(deserializer)? {
        let Some((first, last)) = text.split_once(" to ") else {
            days.push(read_date(&text)?);
            continue;
        };
        let (first, last) = (read_date(first.trim())?, read_date(last.trim())?);
        let length = (last - first).num_days();
        if !(0..=LONGEST_CLOSURE_DAYS).contains(&length) {
            return Err(serde::de::Error::custom(format!(
                "`{text}` is not a range of days; expected the first and the last day, a year apart at most"
            )));
        }
        days.extend(first.iter_days().take(length as usize + 1));
    }
    Ok(days)
}

fn optional_date<'de, D: serde::Deserializer<'de>>(
    deserializer: D,
) -> Result<Option<NaiveDate>, D::Error> {
    Option::<String>::deserialize(deserializer)?
        .map(|text| read_date(&text))
        .transpose()
}

fn optional_moment<'de, D: serde::Deserializer<'de>>(
    deserializer: D,
) -> Result<Option<NaiveDateTime>, D::Error> {
    let Some(text) = Option::<String>::deserialize(deserializer)? else {
        return Ok(None);
    };
    read_moment(&text).map(Some).ok_or_else(|| {
        serde::de::Error::custom(format!(
            "`{text}` is not a moment; expected \"2026-03-09T07:30\" or \"2026-03-09\""
        ))
    })
}

/// Reads `2026-03-09T07:30`, `2026-03-09 07:30` or `2026-03-09` (midnight).
pub fn read_moment(text: &str) -> Option<NaiveDateTime> {
    let text = text.trim().replace(' ', "T");
    NaiveDateTime::parse_from_str(&text, "%Y-%m-%dT%H:%M")
        .or_else(|_| NaiveDateTime::parse_from_str(&text, "%Y-%m-%dT%H:%M:%S"))
        .ok()
        .or_else(|| {
            text.parse::<NaiveDate>()
                .ok()
                .map(|date| date.and_time(NaiveTime::MIN))
        })
}

fn currency<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Currency, D::Error> {
    Currency::deserialize(deserializer)
}

#[cfg(test)]
mod tests {
    use super::*;

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
