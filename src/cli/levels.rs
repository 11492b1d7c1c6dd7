//! `sparewright levels`: each stock level and why it is not one less.
//!
//! The JSON form is that of a report (schema 1, `src/report/json.rs`) with the sheets `levels_old_new`, `levels`,
//! `service_curve` and `year_ahead`. CSV is one of them (`--table`).

use super::args::{LevelsArgs, Rule};
use super::exit::ExitCode;
use super::planning::usage;
use super::refusal::Refusal;
use super::{meant, planning};
use crate::catalogue::{NameKey, PartId, Shop};
use crate::record::{LevelsBy, PlanningSettings};
use crate::report::content::level_report;
use crate::report::translated;

/// Runs the command.
pub fn run(args: &LevelsArgs) -> ExitCode {
    let mut job = match planning::open(&args.shop) {
        Ok(job) => job,
        Err(code) => return code,
    };
    if let Err(why) = set(&mut job.shop.settings.planning, args) {
        return usage(why);
    }
    let parts: Result<Vec<PartId>, Refusal> = args
        .part
        .iter()
        .map(|name| part_of(&job.shop, name))
        .collect();
    let parts = match parts {
        Ok(parts) => parts,
        Err(why) => return usage(why),
    };
    let planned = match planning::planned(&job) {
        Ok(planned) => planned,
        Err(code) => return code,
    };
    let report = level_report(&job.inputs(&planned), &parts);
    let report = planning::with_not_read(report, &job);
    let report = translated(report, planning::language(&args.shop, &job));
    planning::print_chosen(&report, &args.tables, "levels")
}

/// Puts the options in place of the settings.
fn set(planning: &mut PlanningSettings, args: &LevelsArgs) -> Result<(), String> {
    if let Some(rule) = args.by {
        planning.levels_by = match rule {
            Rule::StockOutPrice => LevelsBy::StockOutPrice,
            Rule::DowntimeCost => LevelsBy::DowntimeCost,
            Rule::ServiceTarget => LevelsBy::ServiceTarget,
        };
    }
    if let Some(share) = args.target {
        if !(share > 0.0 && share < 1.0) {
            return Err(format!(
                "`{share}` is no service target; expected above 0 and below 1, such as 0.97"
            ));
        }
        planning.service_target_share = share;
        planning.stock_budget = None;
    }
    if let Some(budget) = args.budget {
        if !(budget >= 0.0 && budget.is_finite()) {
            return Err(format!("`{budget}` is no budget; expected 0 or more"));
        }
        planning.levels_by = LevelsBy::StockOutPrice;
        planning.stock_budget = Some(budget);
    }
    Ok(())
}

/// The own part of a number or another name.
fn part_of(shop: &Shop, name: &str) -> Result<PartId, Refusal> {
    let key = NameKey::new(name);
    let is_it = |number: &String| NameKey::new(number) == key;
    shop.catalogue
        .parts()
        .iter()
        .filter(|part| part.is_own)
        .find(|part| is_it(&part.number) || part.aliases.iter().any(is_it))
        .map(|part| part.id)
        .ok_or_else(|| {
            let own = shop.catalogue.parts().iter().filter(|part| part.is_own);
            let hint = meant::hint(name, own.map(|part| &part.number));
            Refusal::new(format!("no own part `{name}`")).hinting(hint)
        })
}
