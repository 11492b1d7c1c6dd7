//! Plans against reference values made with numpy, scipy and a textbook; see `tests/tables/planning/README.md`.

use std::path::Path;

use chrono::{NaiveDate, NaiveDateTime, NaiveTime};
use serde_json::Value;
use sparewright::plan::{Calendars, LeadTimeDemand, WorkCalendar, economic_quantity};
use sparewright::record::{CalendarSettings, Shift, ShopSettings, Weekday, read_moment};

use super::outside;

mod purchases;
mod workdays;

const WEEK: [Weekday; 7] = [
    Weekday::Mon,
    Weekday::Tue,
    Weekday::Wed,
    Weekday::Thu,
    Weekday::Fri,
    Weekday::Sat,
    Weekday::Sun,
];

pub fn table(name: &str) -> Value {
    outside::reads(name);
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/tables/planning")
        .join(name);
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

pub fn date(value: &Value) -> NaiveDate {
    value.as_str().unwrap().parse().unwrap()
}

fn moment(value: &Value) -> NaiveDateTime {
    read_moment(value.as_str().unwrap()).unwrap()
}

pub fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

pub fn dates(value: &Value) -> Vec<NaiveDate> {
    value.as_array().unwrap().iter().map(date).collect()
}

pub fn clock(minutes: i64) -> NaiveTime {
    NaiveTime::MIN + chrono::Duration::minutes(minutes)
}

/// Calendar of the table: minutes by weekday, an end past 1,440 runs into the next day.
fn calendar(minutes: &Value, holidays: Vec<NaiveDate>) -> CalendarSettings {
    let mut shifts = Vec::new();
    for (day, spans) in minutes.as_object().unwrap() {
        for span in spans.as_array().unwrap() {
            shifts.push(Shift {
                days: vec![WEEK[day.parse::<usize>().unwrap()]],
                from: clock(span[0].as_i64().unwrap()),
                until: clock(span[1].as_i64().unwrap()),
            });
        }
    }
    CalendarSettings { shifts, holidays }
}

/// Calendar of a numpy week mask, Monday first.
fn masked(mask: &str, holidays: Vec<NaiveDate>) -> WorkCalendar {
    let days = WEEK
        .into_iter()
        .zip(mask.chars())
        .filter(|(_, flag)| *flag == '1')
        .map(|(day, _)| day)
        .collect();
    WorkCalendar::new(&CalendarSettings {
        shifts: vec![Shift {
            days,
            from: clock(420),
            until: clock(900),
        }],
        holidays,
    })
}

#[test]
pub fn working_days_are_counted_as_numpy_counts_them() {
    let table = table("oracle_calendar.json");
    let rows = table["working_day_arrivals"].as_array().unwrap();
    assert_eq!(rows.len(), 8);
    outside::compared(rows.len());
    for row in rows {
        let calendar = masked(row["mask"].as_str().unwrap(), dates(&row["holidays"]));
        let workdays = row["n"].as_u64().unwrap() as u32;
        let arrival = calendar.add_workdays(date(&row["order"]), workdays);
        assert_eq!(arrival, Some(date(&row["arrival"])), "{row}");
    }
}

#[test]
pub fn downtime_is_that_of_the_minute_walk() {
    let table = table("oracle_calendar.json");
    let rows = table["downtime"].as_array().unwrap();
    assert_eq!(rows.len(), 8);
    outside::compared(rows.len());
    for row in rows {
        let own_holidays = dates(&row["own_holidays"]);
        let named = |key: &str| {
            let minutes = &table["calendars_minutes"][row[key].as_str().unwrap()];
            calendar(minutes, own_holidays.clone())
        };
        let calendars = Calendars::new(&ShopSettings {
            receiving_hour: clock(row["receiving_hour"].as_i64().unwrap() * 60),
            calendars: [
                ("maintenance".to_owned(), named("maintenance_calendar")),
                ("production".to_owned(), named("production_calendar")),
                (
                    "receiving".to_owned(),
                    CalendarSettings {
                        holidays: own_holidays.clone(),
                        ..CalendarSettings::day_shift()
                    },
                ),
            ]
            .into(),
            maintenance_calendar: "maintenance".to_owned(),
            production_calendar: "production".to_owned(),
            receiving_calendar: "receiving".to_owned(),
            ..ShopSettings::default()
        });
        let supplier = masked("1111100", dates(&row["supplier_holidays"]));
        let (down, ordered) = (moment(&row["down"]), date(&row["ordered"]));
        let mut complete = down;
        for (days, expected) in row["lead_days"]
            .as_array()
            .unwrap()
            .iter()
            .zip(row["arrivals"].as_array().unwrap())
        {
            let days = days.as_u64().unwrap();
            let at_gate = if row["lead_kind"] == "working" {
                supplier.add_workdays(ordered, days as u32).unwrap()
            } else {
                let day = ordered + chrono::Days::new(days);
                supplier.roll_forward(day).unwrap()
            };
            let received = calendars.received(at_gate, down).unwrap();
            assert_eq!(received.date(), date(expected), "{row}");
            complete = complete.max(received);
        }
        assert_eq!(complete, moment(&row["kit_complete"]), "{row}");
        let maintenance = calendars.maintenance();
        let start = maintenance.after(complete, 0.0).unwrap();
        assert_eq!(start, moment(&row["repair_start"]), "{row}");
        let up = maintenance
            .after(complete, number(&row["repair_hours"]))
            .unwrap();
        assert_eq!(up, moment(&row["up_again"]), "{row}");
        let lost = calendars.production().hours_between(down, up);
        assert!(
            (lost - number(&row["production_hours_lost"])).abs() < 1e-9,
            "{lost} in {row}"
        );
    }
}

#[test]
fn poisson_ready_rates_are_those_of_scipy() {
    let table = table("oracle_service.json");
    let mut checked = 0;
    for row in table["poisson_rq"].as_array().unwrap() {
        let mean = number(&row["rate_per_day"]) * number(&row["lead_days"]);
        let demand = LeadTimeDemand::new(mean, mean);
        let point = row["r"].as_u64().unwrap();
        let cycle = demand.at_most(point);
        assert!(
            (cycle - number(&row["cycle_service"])).abs() < 1e-9,
            "{row}"
        );
        if row["Q"] == 1 {
            let ready = number(&row["ready_rate=unit_fill"]);
            assert!((cycle - ready).abs() < 1e-9, "{row}");
            checked += 1;
        }
    }
    assert_eq!(checked, 6);
}

#[test]
fn reorder_points_are_those_of_scipy() {
    let table = table("oracle_service.json");
    let rows = table["smallest_reorder_point"].as_array().unwrap();
    assert_eq!(rows.len(), 5);
    for row in rows {
        let mean = number(&row["rate_per_day"]) * number(&row["lead_days"]);
        let demand = LeadTimeDemand::new(mean, mean);
        assert_eq!(
            demand.reorder_point(number(&row["target"])),
            row["r_by_cycle_service"].as_u64(),
            "{row}"
        );
    }
}

#[test]
fn compound_demand_is_that_of_the_reference_recursion() {
    // Ready rate of order-up-to S is P(demand <= S - 1); the table's own recursion is checked by a simulation.
    let table = table("oracle_service.json");
    let rows = table["compound_base_stock"].as_array().unwrap();
    assert_eq!(rows.len(), 5);
    for row in rows {
        let sizes: Vec<(u32, f64)> = row["size_pmf"]
            .as_object()
            .unwrap()
            .iter()
            .map(|(size, share)| (size.parse().unwrap(), number(share)))
            .collect();
        let demand = LeadTimeDemand::compound(number(&row["events_in_lead_time"]), &sizes);
        let level = row["S"].as_u64().unwrap();
        let ready = number(&row["ready_rate"]);
        assert!((demand.at_most(level - 1) - ready).abs() < 1e-9, "{row}");
        // The smallest point that reaches the ready rate: with quantities of 2 and 4, that of 7 is reached at 6.
        let point = demand.reorder_point(ready - 1e-12).unwrap();
        assert!(point < level && (demand.at_most(point) - ready).abs() < 1e-9);
        assert!(demand.at_most(point - 1) < ready - 1e-9, "{row}");
    }
}

#[test]
fn the_economic_quantity_is_that_of_the_textbook() {
    // Snyder & Shen, Fundamentals of Supply Chain Theory, 2nd ed., Wiley 2019, Example 3.1: K 8, h 0.225, 1,300 a
    // year give Q = 304.05.
    let quantity = economic_quantity(1300.0, 8.0, 0.225).unwrap();
    assert!((quantity - 304.046_780_026_436_8).abs() < 1e-6);
    assert_eq!(economic_quantity(1300.0, 8.0, 0.0), None);
}
