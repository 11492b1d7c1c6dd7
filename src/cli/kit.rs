//! `sparewright kit`: one kit's plan, with a budget, a time, or offers struck out.
//!
//! The JSON form is that of a report (schema 1, `src/report/json.rs`) with the sheets `approvals_that_would_pay`, `kits`,
//! `kit_lines`, `kit_plans`, `asked_for` (with a budget or a time), `curve`, `ring_first`, `hurried`, `hurry_together` and
//! `issues`. CSV is one of them (`--table`).

use super::args::KitArgs;
use super::exit::ExitCode;
use super::planning::{self, usage};
use super::refusal::Refusal;
use super::{meant, printed};
use crate::catalogue::{NameKey, Shop};
use crate::plan::StudyAsk;
use crate::report::content::kit_report;
use crate::report::translated;
use crate::units::Money;

/// Runs the command.
pub fn run(args: &KitArgs) -> ExitCode {
    let by = match args.by.as_deref().map(planning::moment).transpose() {
        Ok(by) => by,
        Err(code) => return code,
    };
    let job = match planning::open(&args.shop) {
        Ok(job) => job,
        Err(code) => return code,
    };
    let asked = find_kit(&job.shop, &args.name).and_then(|kit| {
        let ask = StudyAsk {
            budget: args
                .budget
                .map(|amount| budget(&job.shop, amount))
                .transpose()?,
            by,
            without: struck_out(&job.shop, &args.without)?,
        };
        Ok((kit, ask))
    });
    let (kit, ask) = match asked {
        Ok(asked) => asked,
        Err(why) => return usage(why),
    };
    if let Some(by) = ask.by
        && by <= job.shop.as_of
    {
        return usage(format!(
            "`--by` {} is not after the moment of planning, {}",
            by.format("%Y-%m-%d %H:%M"),
            job.shop.as_of.format("%Y-%m-%d %H:%M")
        ));
    }
    let acceptances = job.acceptances();
    let Some(study) = job.study_kit(&acceptances, kit, &ask) else {
        return usage("the kit has no lines");
    };
    let report = kit_report(&job.inputs_of_kit(&acceptances, &study), &study.study, &ask);
    let report = planning::with_not_read(report, &job);
    let report = translated(report, planning::language(&args.shop, &job));
    printed::print(&report, args.table.as_deref(), args.format, "kit_lines")
}

fn budget(shop: &Shop, amount: f64) -> Result<Money, Refusal> {
    Money::from_units(amount, shop.settings.currency)
        .ok()
        .filter(|money| money.cents >= 0)
        .ok_or_else(|| {
            Refusal::new(format!(
                "`{amount}` is no budget; expected 0 or more, in {}",
                shop.settings.currency.code()
            ))
        })
}

/// The kit of this name, or the only one that begins with it.
fn find_kit(shop: &Shop, name: &str) -> Result<usize, Refusal> {
    let key = NameKey::new(name);
    let keys: Vec<NameKey> = shop
        .kits
        .iter()
        .map(|kit| NameKey::new(&kit.name))
        .collect();
    if let Some(at) = keys.iter().position(|known| *known == key) {
        return Ok(at);
    }
    let begins: Vec<usize> = (0..keys.len())
        .filter(|at| keys[*at].as_str().starts_with(key.as_str()))
        .collect();
    match begins[..] {
        [only] => Ok(only),
        _ => Err(no_kit(shop, name, &begins)),
    }
}

/// Why no kit, or no single one, is meant by a name.
fn no_kit(shop: &Shop, name: &str, begins: &[usize]) -> Refusal {
    let names = || shop.kits.iter().map(|kit| &kit.name);
    if shop.kits.is_empty() {
        return Refusal::new(format!("no kit `{name}`, since the shop has none")).hinting(Some(
            "a table with a kit, its lines and their parts gives some",
        ));
    }
    if begins.len() > 1 {
        let begins = begins.iter().map(|at| &shop.kits[*at].name);
        return Refusal::new(format!(
            "`{name}` is how several kits begin: {}",
            meant::listed(begins)
        ));
    }
    Refusal::new(format!(
        "no kit `{name}`; there are {}",
        meant::listed(names())
    ))
    .hinting(meant::hint(name, names()))
}

/// Offers named by supplier, by `supplier/part`, or by their row.
fn struck_out(shop: &Shop, named: &[String]) -> Result<Vec<usize>, Refusal> {
    let mut found = Vec::new();
    for name in named {
        let (supplier, part) = name
            .split_once('/')
            .map_or((&**name, None), |(supplier, part)| (supplier, Some(part)));
        let (supplier, part) = (NameKey::new(supplier), part.map(NameKey::new));
        let before = found.len();
        for (at, offer) in shop.offers.iter().enumerate() {
            let record = &offer.record;
            let numbers = [
                Some(shop.catalogue.part(offer.part).number.as_str()),
                record.supplier_number.as_deref(),
                record.designation.as_deref(),
            ];
            let is_part = part.as_ref().is_none_or(|part| {
                numbers
                    .iter()
                    .flatten()
                    .any(|number| NameKey::new(number) == *part)
            });
            let is_named = NameKey::new(&record.supplier) == supplier && is_part;
            if is_named || record.place.to_string() == *name {
                found.push(at);
            }
        }
        if found.len() == before {
            let why = format!(
                "no offer `{name}`; name a supplier, `supplier/part`, or the row as in `prices.csv, row 7`"
            );
            return Err(Refusal::new(why).hinting(offer_hint(shop, name)));
        }
    }
    Ok(found)
}

/// The supplier, or the part that the supplier offers, whose name is nearest to what was typed.
fn offer_hint(shop: &Shop, name: &str) -> Option<String> {
    let suppliers = || shop.offers.iter().map(|offer| &offer.record.supplier);
    let Some((supplier, part)) = name.split_once('/') else {
        return meant::hint(name, suppliers());
    };
    let supplier = meant::meant(supplier, suppliers())?;
    let offered = shop
        .offers
        .iter()
        .filter(|offer| *offer.record.supplier == *supplier)
        .map(|offer| &shop.catalogue.part(offer.part).number);
    let part = meant::meant(part, offered)?;
    Some(meant::did_you_mean(&format!("{supplier}/{part}")))
}
