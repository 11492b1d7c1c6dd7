//! A change of one part in a workspace of many, against reading and writing its largest table.

use std::fmt::Write as _;
use std::fs::{self, File};
use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use polars::prelude::{ParquetReader, ParquetWriter, SerReader};
use sparewright::import::{read_folder, read_paths};
use sparewright::store::Workspace;

use crate::measure::{Made, Work, rows};

const PARTS: usize = 1_000_000;
const HEADER: &str = "Our no.,Type,Bore,Outside diameter,Width,Unit of count,Min stock\n";

/// One part of 1,000,000 changed.
pub fn one_part() -> Work {
    Work {
        name: "one-part-change",
        what: "import a change of one part into a workspace of 1,000,000 parts",
        baseline_is: "polars reading the stored table of parts and writing it again",
        aim: None,
        rows: rows(PARTS),
        make,
        ours,
        baseline,
    }
}

fn line(text: &mut String, at: usize, min_stock: usize) {
    let bore = 10 + at % 90;
    let (outside, width) = (bore + 12 + at / 90 % 40, 7 + at / 3_600 % 9);
    let _ = writeln!(
        text,
        "P-{at:07},rotary shaft seal,{bore},{outside},{width},pc,{min_stock}"
    );
}

fn make(folder: &Path) -> PathBuf {
    let (input, shop) = (folder.join("in"), folder.join("shop"));
    let mut text = HEADER.to_owned();
    for at in 0..rows(PARTS) {
        line(&mut text, at, at % 7);
    }
    fs::create_dir(&input).expect("the folder can be written");
    fs::write(input.join("parts.csv"), text).expect("the folder can be written");
    let imported = read_folder(&input).expect("the folder holds a table");
    Workspace::create(&shop)
        .and_then(|workspace| workspace.import(&imported, moment()))
        .expect("the folder can be written");
    folder.to_owned()
}

fn moment() -> chrono::NaiveDateTime {
    NaiveDate::from_ymd_opt(2026, 11, 25)
        .and_then(|day| day.and_hms_opt(12, 0, 0))
        .expect("a day of the calendar")
}

fn ours(folder: &Path) -> Made {
    let workspace = Workspace::open(&folder.join("shop")).expect("the workspace was just made");
    let number = workspace.number().expect("the workspace was just made");
    let mut text = HEADER.to_owned();
    // Another minimum in each run, so that each changes something.
    line(&mut text, rows(PARTS) / 2, 1_000 + number as usize);
    let change = folder.join("change.csv");
    fs::write(&change, text).expect("the folder can be written");
    let known = workspace.known().expect("the workspace was just made");
    let imported = read_paths(&[change], &known).expect("the file is a table");
    let outcome = workspace
        .import(&imported, moment())
        .expect("the disk has room");
    assert!(outcome.is_new, "every run changes something");
    Made {
        rows: outcome.snapshot.counts["parts"].rows,
        held: Box::new(outcome),
    }
}

fn baseline(folder: &Path) -> Made {
    let tables = fs::read_dir(folder.join("shop/tables")).expect("the workspace was just made");
    let parts = tables
        .filter_map(|entry| entry.ok().map(|entry| entry.path()))
        .find(|path| path.to_string_lossy().contains("parts-"))
        .expect("a workspace has a table of parts");
    let file = File::open(parts).expect("the table was just written");
    let mut frame = ParquetReader::new(file)
        .finish()
        .expect("the table was just written");
    let copy = File::create(folder.join("copy.parquet")).expect("the folder can be written");
    ParquetWriter::new(copy)
        .finish(&mut frame)
        .expect("the disk has room");
    Made {
        rows: frame.height(),
        held: Box::new(frame),
    }
}
