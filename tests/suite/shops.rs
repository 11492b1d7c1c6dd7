//! Four small shops as a stranger would hand them over: the main job must give each something to act on.
//!
//! The shops are invented; what they must give follows from their own few rows by hand, sizes from ISO 15, ISO 355
//! and ABMA 20 as in `data/standard`.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use sparewright::catalogue::Presumption;
use sparewright::job::{Job, Planned};
use sparewright::plan::Completion;

/// The folder of one shop.
pub fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/shops")
        .join(name)
}

/// Reads and plans one shop as of the same Thursday morning.
pub fn shop(name: &str) -> (Job, Planned) {
    let as_of = NaiveDate::from_ymd_opt(2026, 11, 26)
        .and_then(|day| day.and_hms_opt(8, 0, 0))
        .unwrap();
    let job = Job::read(&folder(name), Some(as_of)).unwrap();
    let planned = job.plan().unwrap();
    (job, planned)
}

/// Own numbers on the orders that are due, with their suppliers.
fn ordered(job: &Job, planned: &Planned) -> BTreeSet<(String, String)> {
    let reorder = &planned.plan.reorder;
    let of_order = reorder.orders.iter().flat_map(|order| {
        let lines = order.lines.iter().map(|at| &reorder.lines[*at]);
        lines.map(|line| (line.part(), order.supplier.clone()))
    });
    of_order
        .map(|(part, supplier)| (job.shop.catalogue.part(part).number.clone(), supplier))
        .collect()
}

fn of_supplier(numbers: &[&str], supplier: &str) -> BTreeSet<(String, String)> {
    let pair = |number: &&str| ((*number).to_owned(), supplier.to_owned());
    numbers.iter().map(pair).collect()
}

fn size_of(job: &Job, number: &str) -> Option<String> {
    let part = job
        .shop
        .catalogue
        .parts()
        .iter()
        .find(|part| part.number == number)?;
    part.size.as_ref().map(ToString::to_string)
}

#[test]
fn lists_alone_give_sizes_pools_and_a_list_of_what_is_missing() {
    let (job, planned) = shop("gravel_lists_only");
    assert!(planned.plan.reorder.orders.is_empty());
    assert_eq!(
        size_of(&job, "GW-005").as_deref(),
        Some("40 x 80 x 19.75 mm")
    );
    // The list says width 18; ISO 15 gives 6207 a width of 17.
    assert_eq!(size_of(&job, "GW-016"), None);
    let twins: Vec<BTreeSet<&str>> = planned
        .groups
        .iter()
        .filter(|group| group.len() > 1)
        .map(|group| {
            let numbers = group.iter();
            numbers
                .map(|part| job.shop.catalogue.part(*part).number.as_str())
                .collect()
        })
        .collect();
    assert_eq!(twins, [BTreeSet::from(["GW-002", "GW-015"])]);
    assert!(
        job.shop
            .unresolved
            .iter()
            .any(|row| row.reason.contains("GW-099"))
    );
}

#[test]
fn a_german_shop_is_read_by_its_own_words() {
    let (job, planned) = shop("bakery_german");
    let supplier = "Lagertechnik Moosbrugg";
    assert_eq!(job.imported.rows_rejected, 0);
    let tables: BTreeSet<&str> = job
        .imported
        .tables
        .iter()
        .map(|table| table.kind.name())
        .collect();
    assert_eq!(tables.len(), 7, "{tables:?}");
    let orders = ordered(&job, &planned);
    assert!(
        orders.is_superset(&of_supplier(&["BF-1002", "BF-1003"], supplier)),
        "{orders:?}"
    );
    // NU and NJ of one size are not one part: the order that is open for NJ 208 holds the kit, a shelf of NU does not help.
    let plan = &planned.plan.kits[0].accepted;
    assert!(!matches!(plan.completion, Completion::Unknown { .. }));
    let open = job
        .shop
        .receipts
        .iter()
        .find(|order| order.record.received.is_none())
        .unwrap();
    assert_eq!(&*open.record.part, "BF-1006");
    // 4 of lot L-118 were cured in March 2018 and keep 84 months.
    let expired = &planned.plan.stock.expired;
    assert_eq!(expired.len(), 1);
    assert_eq!(
        expired[0].usable_until,
        NaiveDate::from_ymd_opt(2025, 3, 1).unwrap()
    );
    assert!(
        job.shop
            .presumed
            .contains(&Presumption::SuppliersUsable { suppliers: 1 })
    );
}

#[test]
fn an_inch_shop_needs_no_settings_for_unit_currency_and_date_order() {
    let (job, planned) = shop("sawmill_inch");
    assert_eq!(job.shop.settings.currency.code(), "USD");
    // 6206 is 30 x 62 x 16 (ISO 15), written as 1.1811 x 2.4409 x 0.6299.
    assert_eq!(size_of(&job, "S-103").as_deref(), Some("30 x 62 x 16 mm"));
    // 12/04/2026 is the fourth of December where every other date is month first, not a day in April gone by.
    let due: Vec<NaiveDate> = job
        .shop
        .stock
        .iter()
        .filter_map(|stock| stock.record.due_date)
        .collect();
    assert_eq!(due, [NaiveDate::from_ymd_opt(2026, 12, 4).unwrap()]);
    assert!(
        planned
            .plan
            .open_orders
            .iter()
            .all(|order| !order.is_overdue)
    );
    let orders = ordered(&job, &planned);
    // Arithmetic: ten at 8.10 ride along with what is ordered there anyhow; ten at 7.40 would cost a freight of 25 more.
    assert!(orders.contains(&("S-103".to_owned(), "Pine Ridge Bearing Supply".to_owned())));
    // An open R12 is 5/16 wide, a shielded or sealed one 7/16 (ABMA 12.2): the offer of the open one is not used.
    assert!(
        job.shop
            .unresolved
            .iter()
            .any(|row| row.reason.contains("S-101"))
    );
    assert!(!orders.iter().any(|(number, _)| number == "S-101"));
}

#[test]
fn parts_meet_by_designation_across_languages() {
    let (job, planned) = shop("bottling_two_languages");
    let supplier = "Rodavega Suministros S.L.";
    let orders = ordered(&job, &planned);
    assert!(
        orders.is_superset(&of_supplier(&["EM-03", "EM-05", "EM-06"], supplier)),
        "{orders:?}"
    );
    assert_eq!(job.shop.kits.len(), 1);
    assert_eq!(job.shop.kits[0].machine.as_deref(), Some("Soutireuse"));
    assert_eq!(
        job.shop.kits[0].planned[0].date,
        NaiveDate::from_ymd_opt(2027, 1, 18).unwrap()
    );
    let labeller = job
        .shop
        .machines
        .values()
        .find(|machine| machine.machine == "Étiqueteuse");
    assert_eq!(labeller.and_then(|machine| machine.installed), Some(2.0));
    // The seal of FKM on the shelf has the size, and nobody approved it for the line.
    let accepted = &planned.plan.kits[0].accepted;
    assert!(!matches!(accepted.completion, Completion::Unknown { .. }));
    assert_eq!(planned.plan.kits[0].approvals.len(), 1);
}

#[test]
fn a_shop_that_states_no_moment_is_planned_as_of_a_whole_minute() {
    let job = Job::read(&folder("bakery_german"), None).unwrap();
    assert_eq!(chrono::Timelike::second(&job.shop.as_of.time()), 0);
    assert_eq!(chrono::Timelike::nanosecond(&job.shop.as_of.time()), 0);
}
