//! An invented shop of any size as tables: items, offers, stock, usages, receipts, kits with tasks, machines.
//!
//! For each item one and a half offers, ten usages and a receipt; for every fifty items a kit of eight lines.

use std::fmt::Write as _;
use std::io;
use std::path::Path;

use chrono::{Days, NaiveDate};

use crate::catalogue::Dice;

const SUPPLIERS: usize = 60;
const ITEMS_PER_KIT: usize = 50;
const LINES: usize = 8;
const USAGES_PER_ITEM: usize = 10;
/// Usages of one file: below the size that the import refuses.
const USAGES_OF_A_FILE: usize = 2_000_000;
/// Days of records before the moment of planning.
const RECORDED_DAYS: u64 = 1826;

const SETTINGS: &str = r#"shop = "Shop of the benchmark"
as_of = "2026-03-09T07:30"
currency = "EUR"
records_from = "2021-03-09"
date_order = "dmy"

[planning]
holding_cost_share = 0.22
order_cost = 28.0
service_target_share = 0.97

[planning.criticality_weights]
A = 2.0
B = 1.0
C = 0.5
"#;

/// Writes the tables of a shop of `items` items into a folder.
pub fn write(folder: &Path, items: usize) -> io::Result<()> {
    let mut dice = Dice::new(20_261_126);
    let machines = (items / 200).max(4);
    let text = |name: &str, text: String| std::fs::write(folder.join(name), text);
    text("shop.toml", SETTINGS.to_owned())?;
    text("suppliers.csv", suppliers(&mut dice))?;
    text("machines.csv", machine_table(&mut dice, machines))?;
    text("parts.csv", parts(&mut dice, items))?;
    text("offers.csv", offers(&mut dice, items))?;
    text("stock.csv", stock(&mut dice, items))?;
    let mut left = USAGES_PER_ITEM * items;
    let mut file = 1;
    while left > 0 {
        let count = left.min(USAGES_OF_A_FILE);
        let name = format!("usages_{file}.csv");
        text(&name, usages(&mut dice, (items, machines), count))?;
        (left, file) = (left - count, file + 1);
    }
    text("receipts.csv", receipts(&mut dice, items))?;
    let kits = (items / ITEMS_PER_KIT).max(1);
    let (lines, tasks, planned) = kit_tables(&mut dice, items, kits, machines);
    text("kits.csv", lines)?;
    text("tasks.csv", tasks)?;
    text("planned.csv", planned)
}

fn day(days_before: u64) -> NaiveDate {
    let today = NaiveDate::from_ymd_opt(2026, 3, 9).expect("a day of the calendar");
    today
        .checked_sub_days(Days::new(days_before))
        .expect("a few years back")
}

fn after(date: NaiveDate, days: u64) -> NaiveDate {
    date.checked_add_days(Days::new(days))
        .expect("a few days on")
}

fn suppliers(dice: &mut Dice) -> String {
    let mut text = "Supplier,Approved,Order cut-off,Freight EUR,Freight free from EUR\n".to_owned();
    for at in 0..SUPPLIERS {
        let _ = writeln!(
            text,
            "Supplier {at:02},yes,{}:00,{},{}",
            11 + dice.below(6),
            6 + dice.below(30),
            100 + 50 * dice.below(12)
        );
    }
    text
}

fn machine_table(dice: &mut Dice, machines: usize) -> String {
    let mut text =
        "Machine,Downtime cost EUR/h,Installed,In use from,In use until,Criticality\n".to_owned();
    for at in 0..machines {
        let _ = writeln!(
            text,
            "M-{at:04},{},{},{},,{}",
            20 + 10 * dice.below(40),
            1 + dice.below(6),
            day(3000 + dice.below(4000)),
            dice.of(&["A", "B", "C"])
        );
    }
    text
}

/// Two thirds seals of a size, mostly one to four of a size; the others have no size.
fn parts(dice: &mut Dice, items: usize) -> String {
    let mut text =
        "Our no.,Type,Bore,Outside diameter,Width,Material,Unit of count,Description\n".to_owned();
    for at in 0..items {
        if dice.below(3) == 0 {
            let _ = writeln!(text, "P-{at:06},,,,,,pc,special part {at} to drawing");
            continue;
        }
        let spread = (items as u64 / 400).max(20);
        let bore = 8 + dice.below(spread);
        let _ = writeln!(
            text,
            "P-{at:06},rotary shaft seal,{bore},{},{},{},pc,",
            bore + 12 + dice.below(30),
            6 + dice.below(6),
            dice.of(&["NBR", "FKM"])
        );
    }
    text
}

fn offers(dice: &mut Dice, items: usize) -> String {
    let mut text = "Supplier,Our no.,Net price EUR,Min. order qty,Pack qty,Lead time (days),Quote date,Valid until\n".to_owned();
    for at in 0..items {
        let price = 1.0 + 0.01 * dice.below(100) as f64 * (1 + dice.below(60)) as f64;
        for _ in 0..1 + dice.below(2) {
            let pack = dice.of(&[1, 1, 1, 1, 5, 10]);
            let _ = writeln!(
                text,
                "Supplier {:02},P-{at:06},{:.2},{pack},{pack},{},{},2026-12-31",
                dice.below(SUPPLIERS as u64),
                price * (0.9 + 0.01 * dice.below(20) as f64),
                1 + dice.below(40),
                day(dice.below(200))
            );
        }
    }
    text
}

fn stock(dice: &mut Dice, items: usize) -> String {
    let mut text = "Our no.,Bin,On hand\n".to_owned();
    for at in 0..items {
        if dice.below(10) < 7 {
            let _ = writeln!(
                text,
                "P-{at:06},B-{:04},{}",
                dice.below(5000),
                dice.below(12)
            );
        }
    }
    text
}

/// Half of all usages fall on a twelfth of the items; one in three items is never used.
fn usages(dice: &mut Dice, (items, machines): (usize, usize), count: usize) -> String {
    let mut text = "date,part no.,quantity,machine,reason\n".to_owned();
    let used = (2 * items / 3).max(1) as u64;
    for _ in 0..count {
        let item = if dice.below(2) == 0 {
            dice.below((used / 8).max(1)) * 8
        } else {
            dice.below(used)
        };
        // An item is used on a few machines only.
        let machine = (item + dice.below(3)) % machines as u64;
        let _ = writeln!(
            text,
            "{},P-{item:06},{},M-{machine:04},{}",
            day(1 + dice.below(RECORDED_DAYS - 1)),
            dice.of(&[1, 1, 1, 2, 2, 4]),
            dice.of(&["failure", "planned", "rebuild"])
        );
    }
    text
}

fn receipts(dice: &mut Dice, items: usize) -> String {
    let mut text = "Order no.,Supplier,Our no.,Qty,Ordered,Promised,Received\n".to_owned();
    for at in 0..items {
        let ordered = day(60 + dice.below(1700));
        let promised = 1 + dice.below(40);
        let _ = writeln!(
            text,
            "PO-{at:06},Supplier {:02},P-{:06},{},{ordered},{},{}",
            dice.below(SUPPLIERS as u64),
            dice.below(items as u64),
            1 + dice.below(6),
            after(ordered, promised),
            after(ordered, promised + dice.below(15))
        );
    }
    text
}

fn kit_tables(
    dice: &mut Dice,
    items: usize,
    kits: usize,
    machines: usize,
) -> (String, String, String) {
    let mut lines = "Kit,Machine,Line,Part no.,Qty per rebuild,Unit,Needed for task\n".to_owned();
    let mut tasks = "Kit,Task,Hours,After\n".to_owned();
    let mut planned = "Kit,Machine,Planned date\n".to_owned();
    for kit in 0..kits {
        let machine = kit % machines;
        for line in 1..=LINES {
            let _ = writeln!(
                lines,
                "Kit {kit:05},M-{machine:04},{},P-{:06},{},pc,{}",
                10 * line,
                dice.below(items as u64),
                1 + dice.below(3),
                dice.of(&["Fit", "Fit", "Close"])
            );
        }
        for (task, hours, before) in [
            ("Strip", 3, ""),
            ("Inspect", 1, "Strip"),
            ("Fit", 5, "Inspect"),
            ("Close", 2, "Fit"),
        ] {
            let _ = writeln!(tasks, "Kit {kit:05},{task},{hours},{before}");
        }
        if dice.below(10) == 0 {
            let _ = writeln!(
                planned,
                "Kit {kit:05},M-{machine:04},{}",
                after(day(0), 7 + dice.below(300))
            );
        }
    }
    (lines, tasks, planned)
}
