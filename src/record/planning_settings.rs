//! Figures the planner sets, in `[planning]`.

use std::collections::BTreeMap;
use std::ops::RangeInclusive;

use serde::Deserialize;

use super::settings_error::SettingsError;

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
    /// Safety working days before a needed date; with none, goods are ordered so that they are there when work begins on it.
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

impl PlanningSettings {
    /// Checks what sets the stock levels.
    pub(super) fn check_levels(
        &self,
        within: &impl Fn(
            &'static str,
            f64,
            &'static str,
            RangeInclusive<f64>,
        ) -> Result<(), SettingsError>,
    ) -> Result<(), SettingsError> {
        const ABOVE_0: (&str, RangeInclusive<f64>) = ("above 0", f64::MIN_POSITIVE..=1e12);
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
