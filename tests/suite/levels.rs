//! Stock levels against published tables, textbooks and general-purpose libraries; see `tests/tables/planning/README.md`.

use serde_json::Value;
use sparewright::plan::{DemandTable, LeadTimeDemand};

use super::outside;
use super::plan::{number, table};

mod exact_arrivals;
mod laws;
pub mod many_parts;
mod money;
pub mod one_part;
mod properties;
mod searches;
mod whole_shop;

fn whole(value: &Value) -> i64 {
    number(value).round() as i64
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

fn rows(value: &Value, count: usize) -> &Vec<Value> {
    let rows = value.as_array().unwrap();
    assert_eq!(rows.len(), count);
    outside::compared(count);
    rows
}

/// Equal to a relative tolerance, or an absolute one near 0.
fn same(found: f64, expected: &Value, tolerance: f64, what: impl std::fmt::Display) {
    let expected = number(expected);
    let most = tolerance * expected.abs().max(1.0);
    assert!(
        (found - expected).abs() <= most,
        "{what}: {found} against {expected}"
    );
}

fn poisson(mean: f64) -> DemandTable {
    DemandTable::new(&LeadTimeDemand::Poisson { mean })
}

/// A worked example of `textbook_examples.json` by the start of its id: inputs, expected, tolerance.
fn example(book: &Value, id: &str) -> (Value, Value, f64) {
    outside::compared(1);
    let found = book["examples"]
        .as_array()
        .unwrap()
        .iter()
        .find(|row| row["id"].as_str().unwrap().starts_with(id))
        .unwrap_or_else(|| panic!("no example {id}"));
    (
        found["inputs"].clone(),
        found["expected"].clone(),
        number(&found["tolerance"]),
    )
}

fn sizes(value: &Value) -> Vec<(u32, f64)> {
    value
        .as_object()
        .unwrap()
        .iter()
        .map(|(size, share)| (size.parse().unwrap(), number(share)))
        .collect()
}

/// The demand of one row of `oracle_ltd.json`; `None` for the normal approximation.
fn demand_of(row: &Value) -> Option<LeadTimeDemand> {
    let inputs = &row["inputs"];
    let of = |key: &str| number(&inputs[key]);
    let geometric = |p: f64| -> Vec<(u32, f64)> {
        (1..=300)
            .map(|size| (size, p * (1.0 - p).powi(size as i32 - 1)))
            .collect()
    };
    let case = row["case"].as_str().unwrap();
    Some(if case == "poisson" {
        LeadTimeDemand::Poisson { mean: of("mean") }
    } else if case.starts_with("compound Poisson, geometric") {
        LeadTimeDemand::compound(of("events_mean"), &geometric(of("geometric_p")))
    } else if case.starts_with("compound Poisson, empirical") {
        LeadTimeDemand::compound(of("events_mean"), &sizes(&inputs["size_pmf"]))
    } else if case.starts_with("negative binomial =") {
        let (size, success) = (of("nbinom_n"), of("nbinom_p"));
        let mean = size * (1.0 - success) / success;
        LeadTimeDemand::new(mean, mean / success)
    } else if case.starts_with("negative binomial by") {
        LeadTimeDemand::new(of("mean"), of("mean") * of("vmr"))
    } else if case.starts_with("Poisson demand, gamma") {
        LeadTimeDemand::over_gamma_lead_time(of("rate_per_day"), of("lead_mean"), of("lead_cv"))
    } else if case.starts_with("Poisson demand, lognormal") {
        LeadTimeDemand::over_lognormal_lead_time(of("rate_per_day"), of("lead_mean"), of("lead_cv"))
    } else if case.starts_with("Poisson demand, discrete") {
        let days: Vec<(f64, f64)> = inputs["lead_mix"]
            .as_object()
            .unwrap()
            .iter()
            .map(|(days, share)| (days.parse().unwrap(), number(share)))
            .collect();
        LeadTimeDemand::over_lead_times(of("rate_per_day"), &days)
    } else {
        return None;
    })
}
