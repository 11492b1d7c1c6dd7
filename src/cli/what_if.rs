//! `sparewright what-if`: a change of suppliers, budget or machines, before and after.
//!
//! The JSON form is that of a report (schema 1, `src/report/json.rs`) with the sheets `before_after`, `what_if_machines`,
//! `what_if_levels` and `what_if_kits`. CSV is one of them (`--table`).

use super::args::WhatIfArgs;
use super::exit::ExitCode;
use super::meant;
use super::planning;
use super::planning::usage;
use super::refusal::Refusal;
use crate::catalogue::Shop;
use crate::plan::{WhatIf, WhatIfError};
use crate::report::content::what_if_report;
use crate::report::translated;

/// Runs the command.
pub fn run(args: &WhatIfArgs) -> ExitCode {
    let asked = match asked(args) {
        Ok(asked) => asked,
        Err(why) => return usage(why),
    };
    let (job, planned) = match planning::open_and_plan(&args.shop) {
        Ok(both) => both,
        Err(code) => return code,
    };
    let changed = match job.what_if(&planned, &asked) {
        Ok(changed) => changed,
        Err(error) => return usage(Refusal::of(&error).hinting(hint(&job.shop, &error))),
    };
    let inputs = job.inputs(&planned);
    let report = what_if_report(&inputs, &changed.plan, changed.year.as_ref(), &asked);
    let report = planning::with_not_read(report, &job);
    let report = translated(report, planning::language(&args.shop, &job));
    planning::print_chosen(&report, &args.tables, "before_after")
}

/// The supplier or machine that may be meant.
fn hint(shop: &Shop, error: &WhatIfError) -> Option<String> {
    match error {
        WhatIfError::NoSupplier { name, .. } => {
            meant::hint(name, shop.offers.iter().map(|offer| &offer.record.supplier))
        }
        WhatIfError::NoMachine { name, .. } => {
            meant::hint(name, shop.machines.values().map(|of| &of.machine))
        }
        _ => None,
    }
}

/// Names without those that were given before: what is gone is gone once.
fn each_once(names: &[String]) -> Vec<String> {
    let mut kept: Vec<String> = Vec::new();
    for name in names {
        if !kept.iter().any(|known| known.trim() == name.trim()) {
            kept.push(name.clone());
        }
    }
    kept
}

fn asked(args: &WhatIfArgs) -> Result<WhatIf, String> {
    let slower = args.slower.iter().map(|text| {
        let factor = text
            .rsplit_once('=')
            .and_then(|(name, factor)| Some((name.trim().to_owned(), factor.trim().parse().ok()?)));
        factor.ok_or_else(|| {
            format!("`{text}` is no supplier with a factor; expected such as Courroux=2")
        })
    });
    let asked = WhatIf {
        slower: slower.collect::<Result<_, _>>()?,
        gone: each_once(&args.gone),
        budget_cut_share: args.budget_cut.map(|percent| percent / 100.0),
        one_more: args.one_more.clone(),
        retired: each_once(&args.retired),
    };
    if asked.is_nothing() {
        return Err(
            "nothing changes; give --slower, --gone, --budget-cut, --one-more or --retired"
                .to_owned(),
        );
    }
    Ok(asked)
}
