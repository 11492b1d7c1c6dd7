//! `sparewright kit`: one kit's plan, with a budget, a time, or offers struck out.
//!
//! The JSON form is that of a report (schema 1, `src/report/json.rs`) with the sheets `approvals_that_would_pay`, `kits`,
//! `kit_lines`, `kit_plans`, `asked_for` (with a budget or a time), `curve`, `ring_first`, `hurry_together` and `issues`.
//! CSV is one of them (`--table`).

use super::args::{KitArgs, Printed};
use super::exit::ExitCode;
use super::output;
use super::run;
use crate::catalogue::{NameKey, Shop};
use crate::job::Job;
use crate::plan::StudyAsk;
use crate::record::read_moment;
use crate::report::content::kit_report;
use crate::report::model::{Emphasis, Report, Sheet, Value};
use crate::report::{csv_of, json_of};
use crate::units::Money;

/// Rows of one table on the terminal.
const SHOWN: usize = 25;

/// Runs the command.
pub fn run(args: &KitArgs) -> ExitCode {
    let moment = |text: &Option<String>| {
        let text = text.as_deref();
        text.map(|text| read_moment(text).ok_or_else(|| text.to_owned()))
            .transpose()
    };
    let (as_of, by) = match (moment(&args.as_of), moment(&args.by)) {
        (Ok(as_of), Ok(by)) => (as_of, by),
        (Err(text), _) | (_, Err(text)) => {
            return usage(&format!(
                "`{text}` is not a moment; expected 2026-03-09T07:30 or 2026-03-09"
            ));
        }
    };
    let job = match (&args.workspace, &args.shop) {
        (Some(workspace), _) => Job::open(workspace, as_of),
        (None, Some(folder)) => Job::read(folder, as_of),
        (None, None) => return usage("`--shop` or `--workspace` says where the kit is"),
    };
    let job = match job {
        Ok(job) => job,
        Err(error) => return run::fail(&error),
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
        Err(why) => return usage(&why),
    };
    let Some(study) = job.study_kit(kit, &ask) else {
        return usage("the kit has no lines");
    };
    let report = kit_report(&job.inputs_of_kit(&study), &study.study, &ask);
    print(args, &report)
}

fn print(args: &KitArgs, report: &Report) -> ExitCode {
    match args.format {
        Printed::Json => output::result(&String::from_utf8_lossy(&json_of(report))),
        Printed::Csv => {
            let key = args.table.as_deref().unwrap_or("kit_lines");
            match report.sheet(key) {
                Some(sheet) => output::result(&String::from_utf8_lossy(&csv_of(sheet))),
                None => {
                    let keys: Vec<&str> = report.sheets.iter().map(|sheet| &*sheet.key).collect();
                    usage(&format!("no table `{key}`; there are {}", keys.join(", ")))
                }
            }
        }
        Printed::Table => {
            let mut text = format!("{}, {}\n", report.title, report.as_of_words());
            let sheets = report.sheets.iter();
            let chosen = sheets.filter(|sheet| {
                args.table.as_ref().is_none_or(|key| *key == sheet.key)
                    && (args.table.is_some() || sheet.key != "issues" || !sheet.rows.is_empty())
            });
            for sheet in chosen {
                text.push_str(&as_text(sheet));
            }
            for caution in &report.cover.cautions {
                text.push_str(&output::wrapped("Caution  ", caution));
            }
            output::result(&text)
        }
    }
}

/// A table of few rows with many columns stands on its side.
fn as_text(sheet: &Sheet) -> String {
    let mut text = format!("\n{}\n", sheet.title);
    if sheet.rows.is_empty() {
        text.push_str(&format!("{}\n", sheet.empty_text));
        return text;
    }
    let cell = |value: &Value, at: usize| value.in_words(sheet.columns[at].kind).into_owned();
    if sheet.columns.len() > 8 {
        // Lines on the shelf are told in one sentence.
        let is_shown = |row: &&crate::report::model::Row| {
            sheet.key != "kit_lines" || row.emphasis != Emphasis::None
        };
        let hidden = sheet.rows.iter().filter(|row| !is_shown(row)).count();
        if hidden > 0 {
            text.push_str(&format!(
                "  {hidden} lines are on the shelf and not shown\n\n"
            ));
        }
        for row in sheet.rows.iter().filter(is_shown) {
            for (at, value) in row.cells.iter().enumerate() {
                let words = cell(value, at);
                if !words.is_empty() {
                    let label = format!("  {:<40} ", sheet.columns[at].label());
                    text.push_str(&output::wrapped(&label, &words));
                }
            }
            text.push('\n');
        }
        return text;
    }
    let header: Vec<String> = sheet
        .columns
        .iter()
        .map(crate::report::model::Column::label)
        .collect();
    let header: Vec<&str> = header.iter().map(String::as_str).collect();
    let rows = sheet.rows.iter().take(SHOWN).map(|row| {
        let cells = row.cells.iter().enumerate();
        cells.map(|(at, value)| cell(value, at)).collect()
    });
    text.push_str(&output::table(&header, rows.collect()));
    if sheet.rows.len() > SHOWN {
        text.push_str(&format!(
            "and {} more rows: `--table {} --format csv`\n",
            sheet.rows.len() - SHOWN,
            sheet.key
        ));
    }
    text
}

fn usage(why: &str) -> ExitCode {
    output::note(&format!("error: {why}\n"));
    ExitCode::Usage
}

fn budget(shop: &Shop, amount: f64) -> Result<Money, String> {
    Money::from_units(amount, shop.settings.currency)
        .ok()
        .filter(|money| money.cents >= 0)
        .ok_or_else(|| {
            format!(
                "`{amount}` is no budget; expected 0 or more, in {}",
                shop.settings.currency.code()
            )
        })
}

/// The kit of this name, or the only one that begins with it.
fn find_kit(shop: &Shop, name: &str) -> Result<usize, String> {
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
        _ => {
            let names: Vec<String> = shop
                .kits
                .iter()
                .map(|kit| format!("`{}`", kit.name))
                .collect();
            Err(format!("no kit `{name}`; there are {}", names.join(", ")))
        }
    }
}

/// Offers named by supplier, by `supplier/part`, or by their row.
fn struck_out(shop: &Shop, named: &[String]) -> Result<Vec<usize>, String> {
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
            return Err(format!(
                "no offer `{name}`; name a supplier, `supplier/part`, or the row as in `prices.csv, row 7`"
            ));
        }
    }
    Ok(found)
}
