//! Backtest on open spare-part series: levels from the first 60 % of the periods, scored on the rest.
//!
//! The folder with `airforce_monthly_84.csv`, `carparts_monthly.csv` and `backtest_reference.json` is named on the command
//! line or in `SPAREWRIGHT_SERIES`. Printed in the form of that reference file, beside its best method at each fill.
//!
//! An occasion is a period with demand; it is met if the demand of the lead time before it and its own are no more than
//! the level. The stock value is the mean of what is on the shelf at the ends of the scored periods, at prices, between two
//! sweep points in a straight line: the reference's own convention, which its Poisson and negative binomial rows confirm.

use std::path::{Path, PathBuf};

use serde_json::{Map, Value, json};
use sparewright::plan::{
    Counted, DemandRate, GroupPrior, GroupSizes, LogSizes, RateBasis, best_discount, price_bands,
};

use crate::priced_demand::{PricedDemand, PricedLevel, level_at};

/// Name on the command line.
pub const NAME: &str = "backtest";

const FILLS: [f64; 6] = [0.6, 0.7, 0.8, 0.9, 0.95, 0.98];
const NOMINAL: [f64; 3] = [0.9, 0.95, 0.99];

/// Fill that the price of a stock-out is set for in sample.
const FILL_AIM: f64 = 0.9;

struct Series {
    name: &'static str,
    lead: usize,
    in_sample: usize,
    prices: Option<Vec<f64>>,
    demand: Vec<Vec<f64>>,
}

/// Runs all three cases, or says why not.
pub fn run(folder: Option<PathBuf>) {
    let folder = folder.or_else(|| std::env::var_os("SPAREWRIGHT_SERIES").map(PathBuf::from));
    let Some(folder) = folder.filter(|folder| folder.join("airforce_monthly_84.csv").exists())
    else {
        println!(
            "{NAME}: skipped: no folder with airforce_monthly_84.csv and carparts_monthly.csv (name it, or set SPAREWRIGHT_SERIES)"
        );
        return;
    };
    let reference = std::fs::read_to_string(folder.join("backtest_reference.json"))
        .ok()
        .and_then(|text| serde_json::from_str::<Value>(&text).ok());
    let mut all = Map::new();
    let (prices, air_force) = read(&folder.join("airforce_monthly_84.csv"), true);
    let (_, cars) = read(&folder.join("carparts_monthly.csv"), false);
    for series in [
        Series {
            name: "air force 84 months, L=3 months",
            lead: 3,
            in_sample: 50,
            prices: Some(prices.clone()),
            demand: air_force.clone(),
        },
        Series {
            name: "air force 84 months, L=9 months",
            lead: 9,
            in_sample: 50,
            prices: Some(prices),
            demand: air_force,
        },
        Series {
            name: "car parts 51 months, complete series, L=2 (units, no price)",
            lead: 2,
            in_sample: 30,
            prices: None,
            demand: cars,
        },
    ] {
        let best = best_listed(reference.as_ref(), series.name);
        all.insert(series.name.to_owned(), score(&series, &best));
    }
    println!(
        "{}",
        serde_json::to_string_pretty(&all).expect("numbers and texts")
    );
}

/// Prices and complete series of a file.
fn read(path: &Path, is_priced: bool) -> (Vec<f64>, Vec<Vec<f64>>) {
    let mut reader = csv::Reader::from_path(path).expect("the file can be read");
    let first = 1 + usize::from(is_priced);
    reader
        .records()
        .filter_map(|record| {
            let record = record.expect("a row of the series");
            let row: Option<Vec<f64>> = record
                .iter()
                .skip(first)
                .map(|cell| cell.parse().ok())
                .collect();
            let price = if is_priced {
                record.get(1)?.parse().ok()?
            } else {
                1.0
            };
            Some((price, row?))
        })
        .unzip()
}

/// Lowest stock value at each fill of the methods listed in the reference.
fn best_listed(reference: Option<&Value>, name: &str) -> Vec<Option<f64>> {
    let methods = reference.and_then(|reference| reference[name]["methods"].as_object());
    FILLS
        .iter()
        .map(|fill| {
            let key = value_key(*fill);
            let values = methods?.values().filter_map(|method| method[&key].as_f64());
            values.min_by(f64::total_cmp)
        })
        .collect()
}

fn value_key(fill: f64) -> String {
    format!("stock_value_at_{:.0}%", fill * 100.0)
}

/// Demand of every part as estimated from the periods in sample, and the discount chosen there.
fn estimate(series: &Series) -> (Vec<DemandRate>, f64) {
    let count = series.demand.len();
    let seen = |discount: f64, until: usize, part: usize| {
        let row = &series.demand[part][..until];
        let weight = |at: usize| discount.powi((until - 1 - at) as i32);
        let used: f64 = (0..until).filter(|at| row[*at] > 0.0).map(weight).sum();
        (
            used,
            Counted::of_periods(used, (0..until).map(weight).sum()),
        )
    };
    // Origins through the second half of the sample, one lead time and a period apart.
    let window = series.lead + 1;
    let origins: Vec<usize> = (series.in_sample / 2..=series.in_sample - window)
        .step_by(window)
        .collect();
    let discount = best_discount(
        origins.len(),
        count,
        |discount, origin, part| seen(discount, origins[origin], part).1,
        |origin, part| {
            let next = &series.demand[part][origins[origin]..origins[origin] + window];
            Counted {
                events: next.iter().filter(|quantity| **quantity > 0.0).count() as f64,
                exposure_days: window as f64,
            }
        },
    )
    .unwrap_or(sparewright::plan::USUAL_DISCOUNT);
    let counted: Vec<(f64, Counted)> = (0..count)
        .map(|part| seen(discount, series.in_sample, part))
        .collect();
    let in_full: Vec<Counted> = (0..count)
        .map(|part| seen(1.0, series.in_sample, part).1)
        .collect();
    let sizes: Vec<LogSizes> = series
        .demand
        .iter()
        .map(|row| {
            let mut sizes = LogSizes::default();
            row[..series.in_sample]
                .iter()
                .for_each(|quantity| sizes.add(*quantity));
            sizes
        })
        .collect();
    let bands = series
        .prices
        .as_deref()
        .map_or_else(|| vec![0; count], price_bands);
    let learnt: Vec<(GroupPrior, GroupSizes)> = (0..=bands.iter().copied().max().unwrap_or(0))
        .map(|band| {
            let inside: Vec<usize> = (0..count).filter(|part| bands[*part] == band).collect();
            let of_band: Vec<Counted> = inside.iter().map(|part| counted[*part].1).collect();
            let spread: Vec<Counted> = inside.iter().map(|part| in_full[*part]).collect();
            (
                GroupPrior::fit(&spread)
                    .and_then(|spread| spread.at_rate_of(&of_band))
                    .expect("every band has usages"),
                GroupSizes::fit(inside.iter().map(|part| &sizes[*part]))
                    .expect("every band has usages"),
            )
        })
        .collect();
    let rates = (0..count)
        .map(|part| {
            let (prior, group) = &learnt[bands[part]];
            let (used, own) = counted[part];
            let mut size = group.shrink(&sizes[part]);
            if own.events > 0.0 {
                // Several usages of one period are seen as one: each is so much smaller.
                size.mean_pieces = (size.mean_pieces * used / own.events).max(1.0);
            }
            DemandRate {
                events: prior.posterior(own),
                size,
                basis: RateBasis::Plain,
            }
        })
        .collect();
    (rates, discount)
}

/// Share of occasions met and mean stock value of levels over the scored periods.
fn achieved(series: &Series, levels: impl Fn(usize) -> f64) -> (f64, f64) {
    let (mut occasions, mut met, mut value) = (0.0, 0.0, 0.0);
    for (part, row) in series.demand.iter().enumerate() {
        let level = levels(part);
        let price = series.prices.as_ref().map_or(1.0, |prices| prices[part]);
        let mut held = 0.0;
        for at in series.in_sample..row.len() {
            let window: f64 = row[at - series.lead..=at].iter().sum();
            held += (level - window).max(0.0);
            if row[at] > 0.0 {
                occasions += 1.0;
                met += f64::from(u8::from(window <= level));
            }
        }
        value += price * held / (row.len() - series.in_sample) as f64;
    }
    (met / occasions, value)
}

/// Share of windows of a lead time and a period that stayed within the stated count, for all parts and few usages.
fn covered(series: &Series, rates: &[DemandRate], nominal: f64) -> Value {
    let mut sums = [[0.0; 2]; 3];
    for (row, rate) in series.demand.iter().zip(rates) {
        let stated = rate.over((series.lead + 1) as f64).reorder_point(nominal);
        let stated = stated.map_or(f64::INFINITY, |point| point as f64);
        let used = row[..series.in_sample]
            .iter()
            .filter(|quantity| **quantity > 0.0)
            .count();
        let within = (series.in_sample..row.len())
            .filter(|at| row[at - series.lead..=*at].iter().sum::<f64>() <= stated)
            .count() as f64;
        for (sum, counts) in sums
            .iter_mut()
            .zip([true, used == 0, (1..=3).contains(&used)])
        {
            if counts {
                sum[0] += within;
                sum[1] += (row.len() - series.in_sample) as f64;
            }
        }
    }
    let share = |[within, all]: [f64; 2]| {
        if all > 0.0 {
            json!(within / all)
        } else {
            Value::Null
        }
    };
    json!({"all": share(sums[0]), "zero_usages": share(sums[1]), "1-3_usages": share(sums[2])})
}

fn score(series: &Series, best: &[Option<f64>]) -> Value {
    let (rates, discount) = estimate(series);
    let levels: Vec<Vec<PricedLevel>> = rates
        .iter()
        .enumerate()
        .map(|(part, rate)| {
            PricedDemand {
                before: rate.over(series.lead as f64),
                through: rate.over((series.lead + 1) as f64),
                size: rate.size,
                occasions_per_day: -(-rate.events.mean_per_day()).exp_m1(),
                holding_cost_per_day: series.prices.as_ref().map_or(1.0, |prices| prices[part]),
            }
            .levels()
        })
        .collect();
    let at =
        |part: usize, price: f64| level_at(&levels[part], price).expect("a level of 0 at least");
    let modelled = |price: f64| {
        let weights = rates
            .iter()
            .map(|rate| -(-rate.events.mean_per_day()).exp_m1());
        let (met, all) = weights
            .enumerate()
            .fold((0.0, 0.0), |(met, all), (part, weight)| {
                (met + weight * at(part, price).met_share, all + weight)
            });
        met / all
    };
    let swept: Vec<(f64, f64)> = (0..=90)
        .map(|step| 10.0_f64.powf(f64::from(step) / 9.0 - 2.0))
        .map(|price| achieved(series, |part| at(part, price).level_pieces as f64))
        .collect();
    let value_at = |fill: f64| {
        let next = swept.iter().position(|point| point.0 >= fill)?;
        let (low, high) = (swept.get(next.checked_sub(1)?)?, swept[next]);
        Some(low.1 + (high.1 - low.1) * (fill - low.0) / (high.0 - low.0))
    };
    let (mut low, mut high) = (1e-3_f64, 1e9_f64);
    for _ in 0..100 {
        let middle = (low * high).sqrt();
        if modelled(middle) < FILL_AIM {
            low = middle
        } else {
            high = middle
        }
    }
    let (reached, value) = achieved(series, |part| at(part, high).level_pieces as f64);
    let mut method = Map::new();
    for (fill, best) in FILLS.iter().zip(best) {
        let value = value_at(*fill);
        method.insert(value_key(*fill), json!(value));
        let over = value
            .zip(*best)
            .map(|(value, best)| (value / best * 1e4).round() / 1e4);
        method.insert(
            format!("rel_to_best_listed_{:.0}%", fill * 100.0),
            json!(over),
        );
    }
    let most = swept.iter().map(|point| point.0).fold(0.0, f64::max);
    method.insert("max_fill_seen".to_owned(), json!(most));
    let coverage: Map<String, Value> = NOMINAL
        .iter()
        .map(|nominal| (nominal.to_string(), covered(series, &rates, *nominal)))
        .collect();
    method.insert(
        "share_of_out_of_sample_windows_covered_at_nominal".to_owned(),
        Value::Object(coverage),
    );
    method.insert(
        "price_set_in_sample_for_90%".to_owned(),
        json!({"price": high, "fill_reached": reached, "stock_value": value, "stock_value_at_that_fill_swept": value_at(reached)}),
    );
    json!({
        "items": series.demand.len(),
        "periods": series.demand[0].len(),
        "in_sample": series.in_sample,
        "lead_periods": series.lead,
        "discount_chosen_in_sample": discount,
        "methods": {"gamma-Poisson shrinkage, log sizes shrunk by price band, one price of a stock-out": method},
    })
}
