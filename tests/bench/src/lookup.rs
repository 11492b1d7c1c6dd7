//! Answers at the bench on a catalogue of 1,000,000 parts: warm, cold, groups, and an envelope query beside SQLite.

use std::hint::black_box;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

use rusqlite::{Connection, params};
use sparewright::catalogue::Shop;
use sparewright::catalogue::card_index::{self, CARDS, CardIndex, IndexFault, Windows};
use sparewright::import::Imported;
use sparewright::interchange::groups;
use sparewright::lookup::{Question, answer};
use sparewright::part::{Family, SizeKey};
use sparewright::record::ShopSettings;
use sparewright::store::Workspace;

use crate::catalogue::{Dice, records};
use crate::shape::{SHAPES, Shape, questions};

/// Name on the command line.
pub const NAME: &str = "lookup";
/// Asks the next arguments as the `sparewright` command would.
pub const COMMAND: &str = "--sparewright";
/// Asks every shape of a workspace whose index is in memory.
pub const WARM: &str = "--warm";
/// Questions of each shape.
const QUESTIONS: usize = 1_000;
/// How often each is asked; the fastest counts, because other programs only ever add time.
const ASKED: usize = 5;
/// Cold starts of each shape.
const STARTS: usize = 15;
/// Envelope queries of each side.
const ENVELOPES: usize = 2_000;
/// How far an envelope reaches to either side, nanometres: what a calliper and wear explain.
const REACH_NM: i64 = 300_000;

/// Prints everything; `count` parts.
pub fn report(count: usize) {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    println!("lookup: {count} parts");
    let workspace = filled(folder.path(), count);
    let start = Instant::now();
    let opened =
        card_index::make(&workspace, IndexFault::Missing).expect("the workspace was just written");
    println!(
        "  index made from the workspace in {:.1} s",
        start.elapsed().as_secs_f64()
    );
    assert_eq!(opened.not_written, None);
    drop(opened);
    let size = std::fs::metadata(folder.path().join(CARDS))
        .expect("the index was written")
        .len();
    println!(
        "  index {:.1} MB, {:.0} bytes a part",
        size as f64 / 1e6,
        size as f64 / count as f64
    );
    cold(folder.path());
    // A program that asks often has the index in memory, and not the spreadsheets that it was made from.
    let program = std::env::current_exe().expect("this program has a path");
    let asked = Command::new(program).arg(WARM).arg(folder.path()).status();
    assert!(asked.is_ok_and(|status| status.success()));
    let shop = shop(&workspace);
    grouped(&shop);
    let start = Instant::now();
    let index = CardIndex::of_shop(&shop);
    println!(
        "  index made from a shop in memory in {:.1} s",
        start.elapsed().as_secs_f64()
    );
    beside_sqlite(&index, &shop);
}

/// Prints the times of answers from the index of a workspace, read into memory.
pub fn report_warm(folder: &Path) {
    let workspace = Workspace::open(folder).expect("the parent made it");
    let start = Instant::now();
    let opened = card_index::load(&workspace).expect("the parent made it");
    assert_eq!(opened.made_because, None);
    println!(
        "  index read into memory in {:.2} s",
        start.elapsed().as_secs_f64()
    );
    SHAPES.iter().for_each(|shape| warm(&opened.index, shape));
}

/// A workspace with a catalogue of so many parts.
pub fn filled(folder: &Path, count: usize) -> Workspace {
    let start = Instant::now();
    let mut imported = Imported::default();
    imported.records = records(count);
    let workspace = Workspace::create_fleeting(folder).expect("the folder is empty");
    workspace
        .import(&imported, moment())
        .expect("the disk has room");
    println!(
        "  workspace filled in {:.1} s",
        start.elapsed().as_secs_f64()
    );
    workspace
}

fn shop(workspace: &Workspace) -> Shop {
    let imported = workspace
        .load(None)
        .expect("the workspace was just written");
    Shop::new(imported.records, ShopSettings::default(), moment())
}

/// Monday, 9 March 2026, 07:30.
fn moment() -> chrono::NaiveDateTime {
    let day = chrono::NaiveDate::from_ymd_opt(2026, 3, 9);
    day.and_then(|day| day.and_hms_opt(7, 30, 0))
        .expect("a day of the calendar")
}

/// Median and 99th percentile.
pub fn percentiles(mut times: Vec<Duration>) -> (f64, f64) {
    times.sort_unstable();
    let at = |share: f64| times[((times.len() - 1) as f64 * share) as usize].as_secs_f64() * 1e6;
    (at(0.5), at(0.99))
}

/// Reading a question and answering it, in a program that has the index in memory.
fn warm(index: &CardIndex, shape: &Shape) {
    let questions = questions(shape, QUESTIONS);
    let mut answered = 0;
    let times = questions.iter().map(|text| {
        let ask = |_| {
            let start = Instant::now();
            let found =
                Question::read_in(text, Some(index)).map(|question| answer(&question, Some(index)));
            let time = start.elapsed();
            let found = found.unwrap_or_else(|error| panic!("{text}: {error}"));
            (time, !found.answers.is_empty())
        };
        let fastest = (0..ASKED).map(ask).min().expect("it is asked");
        answered += usize::from(fastest.1);
        fastest.0
    });
    let (middle_us, late_us) = percentiles(times.collect());
    let aim_us = if shape.is_exact { 100.0 } else { 2_000.0 };
    println!(
        "  warm {:<30} p50 {middle_us:7.0} µs  p99 {late_us:7.0} µs  aim {aim_us:5.0}  {}  ({answered} of {QUESTIONS} answered)",
        shape.example,
        if late_us <= aim_us { "met" } else { "MISSED" },
    );
}

/// Process start to answer, by this program's own copy of the command.
fn cold(workspace: &Path) {
    let program = std::env::current_exe().expect("this program has a path");
    let mut slowest: f64 = 0.0;
    for shape in SHAPES {
        let times = (0..STARTS).map(|_| {
            let start = Instant::now();
            let output = Command::new(&program)
                .args([COMMAND, "match", shape.example, "--workspace"])
                .arg(workspace)
                .output()
                .expect("this program can run itself");
            let time = start.elapsed();
            assert!(
                output.status.success() && output.stderr.is_empty(),
                "{}: {output:?}",
                shape.example
            );
            time
        });
        let (middle_us, late_us) = percentiles(times.collect());
        slowest = slowest.max(late_us / 1e3);
        println!(
            "  cold {:<30} p50 {:7.1} ms  slowest but one of {STARTS} {:7.1} ms",
            shape.example,
            middle_us / 1e3,
            late_us / 1e3
        );
    }
    println!(
        "  cold, slowest shape {slowest:.1} ms  aim 60  {}",
        if slowest <= 60.0 { "met" } else { "MISSED" }
    );
}

fn grouped(shop: &Shop) {
    let start = Instant::now();
    let found = groups(&shop.catalogue);
    let seconds = start.elapsed().as_secs_f64();
    let parts: usize = found.iter().map(Vec::len).sum();
    assert_eq!(
        parts,
        shop.catalogue
            .sizes()
            .map(|(_, parts)| parts.len())
            .sum::<usize>()
    );
    println!(
        "  groups of the whole catalogue in {seconds:.2} s  aim 5  {}  ({} groups)",
        if seconds <= 5.0 { "met" } else { "MISSED" },
        found.len(),
    );
}

/// Parts of one family whose dimensions lie between bounds: the index, and SQLite with an index over all four columns.
fn beside_sqlite(index: &CardIndex, shop: &Shop) {
    let database = filled_database(shop);
    let mut statement = database
        .prepare(
            "SELECT id FROM part WHERE family = ? AND bore BETWEEN ? AND ? AND outside BETWEEN ? AND ? AND width BETWEEN ? AND ?",
        )
        .expect("the statement is SQL");
    let queries = queries(shop);
    let mut times = [Vec::new(), Vec::new()];
    let mut rows = 0;
    for (family, windows) in &queries {
        let start = Instant::now();
        let mut positions = Vec::new();
        index.within(*family, windows, &mut positions);
        let of_family = index.positions_of(*family);
        let ours: Vec<(u32, u32)> = positions
            .iter()
            .filter(|at| of_family.contains(at))
            // The index is to the micrometre.
            .filter(|at| index.size(**at).is_some_and(|size| windows.hold(&size)))
            .flat_map(|at| (0..index.parts_of(*at)).map(|card| (*at, card)))
            .collect();
        times[0].push(start.elapsed());
        let start = Instant::now();
        let bound = |at: usize| windows.0[at].expect("every window is closed");
        let (bore, outside, width) = (bound(0), bound(1), bound(2));
        let given = params![
            rank(*family),
            bore.0,
            bore.1,
            outside.0,
            outside.1,
            width.0,
            width.1
        ];
        let theirs: Vec<i64> = statement
            .query_map(given, |row| row.get(0))
            .and_then(Iterator::collect)
            .expect("the query runs");
        times[1].push(start.elapsed());
        assert_eq!(ours.len(), theirs.len(), "{family} {windows:?}");
        rows += black_box(theirs).len();
    }
    let [ours, theirs] = times.map(percentiles);
    println!(
        "  envelope query, {:.0} parts in the mean",
        rows as f64 / queries.len() as f64
    );
    println!("    ours   p50 {:7.1} µs  p99 {:7.1} µs", ours.0, ours.1);
    println!(
        "    SQLite p50 {:7.1} µs  p99 {:7.1} µs",
        theirs.0, theirs.1
    );
    println!(
        "    ratio  p50 {:7.2}     p99 {:7.2}     aim: not above 1",
        ours.0 / theirs.0,
        ours.1 / theirs.1
    );
}

fn rank(family: Family) -> i64 {
    Family::ALL
        .iter()
        .position(|one| *one == family)
        .unwrap_or(0) as i64
}

/// Bore, outside diameter and width of a bearing or seal of three dimensions.
fn three(size: &SizeKey) -> Option<[i64; 3]> {
    let lengths: Vec<i64> = size
        .dimensions()
        .map(|(_, length)| length.as_nm())
        .collect();
    lengths.try_into().ok()
}

fn filled_database(shop: &Shop) -> Connection {
    let mut database = Connection::open_in_memory().expect("SQLite is built in");
    let filled = (|| {
        database.execute_batch("CREATE TABLE part (id INTEGER PRIMARY KEY, family INTEGER, bore INTEGER, outside INTEGER, width INTEGER)")?;
        let change = database.transaction()?;
        {
            let mut insert = change.prepare("INSERT INTO part VALUES (?, ?, ?, ?, ?)")?;
            for part in shop.catalogue.parts() {
                if let Some((size, [bore, outside, width])) =
                    part.size.and_then(|size| Some((size, three(&size)?)))
                {
                    insert.execute(params![
                        part.id.0,
                        rank(size.family()),
                        bore,
                        outside,
                        width
                    ])?;
                }
            }
        }
        change.commit()?;
        database
            .execute_batch("CREATE INDEX envelope ON part (family, bore, outside, width); ANALYZE")
    })();
    filled.unwrap_or_else(|error: rusqlite::Error| panic!("{error}"));
    database
}

fn queries(shop: &Shop) -> Vec<(Family, Windows)> {
    let mut dice = Dice::new(11);
    let mut queries = Vec::new();
    while queries.len() < ENVELOPES {
        let part = dice.of(shop.catalogue.parts());
        let Some((size, lengths)) = part.size.and_then(|size| Some((size, three(&size)?))) else {
            continue;
        };
        let mut windows = Windows::default();
        for (window, nm) in windows.0.iter_mut().zip(lengths) {
            *window = Some((nm - REACH_NM, nm + REACH_NM));
        }
        queries.push((size.family(), windows));
    }
    queries
}
