//! Kits, levels, changes and orders.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::answer_form::language;
use super::check::figure;
use super::{Printed, TableArgs};
use crate::import::value::read_sum;
use crate::language::Language;

/// Arguments of `kit`.
#[derive(Debug, Args)]
pub struct KitArgs {
    /// Name of the kit, or how it begins
    #[arg(value_name = "KIT")]
    pub name: String,
    /// Where the shop is
    #[command(flatten)]
    pub shop: ShopArgs,
    /// Soonest plan that spends no more than this, in the shop's currency
    #[arg(long, value_name = "AMOUNT", allow_negative_numbers = true, value_parser = sum)]
    pub budget: Option<f64>,
    /// Cheapest plan that runs by this moment
    #[arg(long, value_name = "DATE-TIME")]
    pub by: Option<String>,
    /// Plan without an offer: a supplier, `supplier/part`, or the offer's row; may be repeated
    #[arg(long, value_name = "OFFER")]
    pub without: Vec<String>,
    /// One table only, such as curve or ring_first [default: all; kit_lines as CSV]
    #[arg(long, value_name = "KEY")]
    pub table: Option<String>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Printed::Table)]
    pub format: Printed,
}

/// Where the shop of a planning command is.
#[derive(Debug, Args)]
pub struct ShopArgs {
    /// Folder with the shop's spreadsheets
    // That one of both is needed is said by the command: the parser would name this one alone.
    #[arg(long, value_name = "DIR", conflicts_with = "workspace")]
    pub shop: Option<PathBuf>,
    /// Plan from the current snapshot of a workspace instead of a folder
    #[arg(long, value_name = "DIR")]
    pub workspace: Option<PathBuf>,
    /// Moment of planning, such as 2026-03-09T07:30 [default: the settings' as_of, else now]
    #[arg(long, value_name = "DATE-TIME")]
    pub as_of: Option<String>,
    /// Language of what is printed for people, such as de [default: the settings' language, else en]
    #[arg(long, value_name = "CODE", value_parser = language)]
    pub language: Option<Language>,
}

/// Arguments of `levels`.
#[derive(Debug, Args)]
pub struct LevelsArgs {
    /// Where the shop is
    #[command(flatten)]
    pub shop: ShopArgs,
    /// Only this part, by our number or another name; may be repeated
    #[arg(long, value_name = "PART")]
    pub part: Vec<String>,
    /// Rule, in place of the settings' `levels_by`
    #[arg(long, value_enum, value_name = "RULE")]
    pub by: Option<Rule>,
    /// Share of usages met from the shelf, in place of the settings' service target
    #[arg(long, value_name = "SHARE", conflicts_with = "budget", allow_negative_numbers = true, value_parser = figure)]
    pub target: Option<f64>,
    /// Value of the stock, in the shop's currency, in place of a service target
    #[arg(
        long,
        value_name = "AMOUNT",
        conflicts_with = "by",
        allow_negative_numbers = true,
        value_parser = sum
    )]
    pub budget: Option<f64>,
    /// Tables
    #[command(flatten)]
    pub tables: TableArgs,
}

/// The rule of the levels.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Rule {
    /// One price of a stock-out for the whole shop
    StockOutPrice,
    /// The machines' downtime in full
    DowntimeCost,
    /// A target for each part, by criticality
    ServiceTarget,
}

/// Arguments of `what-if`.
#[derive(Debug, Args)]
pub struct WhatIfArgs {
    /// Where the shop is
    #[command(flatten)]
    pub shop: ShopArgs,
    /// Lead times of a supplier so many times as long, such as Courroux=2; may be repeated
    #[arg(long, value_name = "SUPPLIER=FACTOR")]
    pub slower: Vec<String>,
    /// A supplier is gone, with what is on order there; may be repeated
    #[arg(long, value_name = "SUPPLIER")]
    pub gone: Vec<String>,
    /// The money in stock is cut by so many per cent
    #[arg(long, value_name = "PERCENT", allow_negative_numbers = true, value_parser = figure)]
    pub budget_cut: Option<f64>,
    /// One more machine of this name; may be repeated
    #[arg(long, value_name = "MACHINE")]
    pub one_more: Vec<String>,
    /// Machines of this name leave service now; may be repeated
    #[arg(long, value_name = "MACHINE")]
    pub retired: Vec<String>,
    /// Tables
    #[command(flatten)]
    pub tables: TableArgs,
}

/// Arguments of `reorder`.
#[derive(Debug, Args)]
pub struct ReorderArgs {
    /// Where the shop is
    #[command(flatten)]
    pub shop: ShopArgs,
    /// Tables
    #[command(flatten)]
    pub tables: TableArgs,
}

/// A sum as it is written here or there: `3000`, `3.000,50`, `3,000.50`.
fn sum(text: &str) -> Result<f64, String> {
    read_sum(text).ok_or_else(|| "expected a sum such as 3000 or 3000,50".to_owned())
}
