//! From an opened workspace to a written report: shops of 1,000, 10,000 and 100,000 items, so that growth is seen.
//!
//! Each shop is planned in a process of its own; each stage has its seconds, seconds of all cores, peak
//! memory so far and memory held at its end.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;
use std::time::Instant;

use chrono::NaiveDate;
use sparewright::import::read_folder;
use sparewright::job::Job;
use sparewright::report::write_report;
use sparewright::store::Workspace;

use crate::measure::{core_seconds, peak_mib, resident_mib};
use crate::plan_shop;

/// Name on the command line.
pub const NAME: &str = "plan";
/// First argument of a process that plans one shop.
pub const CHILD: &str = "--plan-shop";

/// Items, seconds and MiB of the aim.
const AIM: (usize, f64, f64) = (100_000, 10.0, 1024.0);

/// Items of the shops planned without a number on the command line.
const SIZES: [usize; 3] = [1_000, 10_000, 100_000];

/// Plans shops of these sizes, or of the usual ones.
pub fn run(sizes: &[usize]) {
    let sizes = if sizes.is_empty() { &SIZES } else { sizes };
    println!(
        "plan: from an opened workspace to a written report (aim at 100,000 items: 10 s and 1,024 MiB)"
    );
    for items in sizes {
        let folder = tempfile::tempdir().expect("a temporary folder can be made");
        make(folder.path(), *items);
        let program = std::env::current_exe().expect("this program has a path");
        let status = Command::new(program)
            .arg(CHILD)
            .arg(folder.path())
            .status()
            .expect("this program can run itself");
        assert!(status.success(), "{items} items were not planned");
    }
}

/// A workspace below the folder.
fn make(folder: &Path, items: usize) {
    let input = folder.join("in");
    fs::create_dir(&input).expect("the folder can be written");
    plan_shop::write(&input, items).expect("the folder can be written");
    let imported = read_folder(&input).expect("the folder holds tables");
    assert_eq!(imported.rows_rejected, 0, "every row is sound");
    assert!(imported.problems.is_empty(), "{:?}", imported.problems);
    assert_eq!(imported.skipped.len(), 0, "every file is read");
    let moment = NaiveDate::from_ymd_opt(2026, 11, 26)
        .and_then(|day| day.and_hms_opt(3, 0, 0))
        .expect("a day of the calendar");
    Workspace::create(&folder.join("shop"))
        .and_then(|workspace| workspace.import(&imported, moment))
        .expect("the folder can be written");
}

/// Seconds of one stage, and the peak so far.
struct Clock {
    start: Instant,
    cores: f64,
}

impl Clock {
    fn new() -> Self {
        Self {
            start: Instant::now(),
            cores: core_seconds(),
        }
    }

    fn print(&self, what: &str) {
        println!(
            "  {what:<10}{:8.2} s {:8.2} s of a core  peak {:6.0} MiB, held {:6.0} MiB",
            self.start.elapsed().as_secs_f64(),
            core_seconds() - self.cores,
            peak_mib(),
            resident_mib()
        );
    }
}

/// Plans the shop of a folder and prints each stage.
pub fn child(folder: &Path) {
    let (whole, clock) = (Clock::new(), Clock::new());
    let job = Job::open(&folder.join("shop"), None).expect("the workspace was just made");
    let items = job.shop.catalogue.parts().iter();
    let items = items.filter(|part| part.is_own).count();
    println!(
        "{} items, {} kits, {} usages, {} offers, {} receipts",
        items,
        job.shop.kits.len(),
        job.shop.usages.len(),
        job.shop.offers.len(),
        job.shop.receipts.len()
    );
    clock.print("open");
    let after_open = Clock::new();
    let clock = Clock::new();
    let planned = job.plan().expect("usages can be grouped");
    clock.print("plan");
    let clock = Clock::new();
    let report = job.report(&planned);
    clock.print("report");
    let clock = Clock::new();
    write_report(&report, &folder.join("out")).expect("the folder can be written");
    clock.print("write");
    after_open.print("all after");
    let seconds = after_open.start.elapsed().as_secs_f64();
    if items == AIM.0 {
        let met = |is_met: bool| if is_met { "met" } else { "MISSED" };
        println!(
            "  aim  {seconds:.1} of {:.0} s {}, {:.0} of {:.0} MiB {}",
            AIM.1,
            met(seconds <= AIM.1),
            peak_mib(),
            AIM.2,
            met(peak_mib() <= AIM.2)
        );
    }
    whole.print("with open");
    println!(
        "  {} levels, {} order lines, {} kits planned",
        planned.plan.levels.by_part.len(),
        planned.plan.reorder.lines.len(),
        planned.plan.kits.len()
    );
    let mut why: BTreeMap<String, usize> = BTreeMap::new();
    for (_, reason) in &planned.plan.levels.without {
        *why.entry(reason.to_string()).or_default() += 1;
    }
    for (reason, parts) in why {
        println!("  without a level: {parts}, {reason}");
    }
    // Ended here: giving memory back is not part of the work.
    std::process::exit(0);
}
