//! The checks against something outside the project, run and listed in `tests/golden/outside_checks.md`.
//!
//! A check is an ordinary test that also stands in [`list::CHECKS`] with its source. The test here runs every one of them
//! again, counts the rows they compared while they run, and compares the list with the golden file: a check that fails, that
//! compares nothing, or that is left out while its table lies in `tests/tables` stops it. `SPAREWRIGHT_UPDATE_GOLDEN=1`
//! writes the list anew.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::panic::catch_unwind;
use std::path::{Path, PathBuf};

use sparewright::part::Family;
use sparewright::standard::{Confidence, parts};

mod list;
mod methods;

use list::{CHECKS, Check};
use methods::{METHODS, Method};

/// What one row of a table rests on, read from its source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// Values of an open table, a package or a printed example.
    Table,
    /// The rule of a named standard.
    Standard,
    /// Remembered, by nobody compared.
    Memory,
    /// What the trade does, without a source.
    Practice,
}

impl Basis {
    /// Keys of `data/standard/sources.csv`, without that of memory, and words for public pages.
    fn of(source: &str) -> Self {
        let is_open = source
            .split([';', ',', ' '])
            .any(|word| open_keys().contains(word))
            || ["public ", "published ", "open table"]
                .iter()
                .any(|word| source.contains(word));
        if is_open {
            Self::Table
        } else if source.contains("common practice")
            || source.contains("no source")
            || source.contains("handbook practice")
        {
            Self::Practice
        } else if source.contains("memory") {
            Self::Memory
        } else {
            Self::Standard
        }
    }

    const fn name(self) -> &'static str {
        match self {
            Self::Table => "published tables or open data",
            Self::Standard => "the rule of a named standard",
            Self::Memory => "from memory",
            Self::Practice => "common practice, no source",
        }
    }
}

fn open_keys() -> &'static BTreeSet<String> {
    static KEYS: std::sync::LazyLock<BTreeSet<String>> = std::sync::LazyLock::new(|| {
        let text = include_str!("../../data/standard/sources.csv");
        let mut reader = csv::ReaderBuilder::new()
            .comment(Some(b'#'))
            .from_reader(text.as_bytes());
        reader
            .records()
            .map(|record| record.unwrap()[0].to_owned())
            .filter(|key| key != "MEM")
            .collect()
    });
    &KEYS
}

/// What a check compared while it ran.
#[derive(Debug, Default)]
struct Tally {
    cases: usize,
    by_basis: BTreeMap<Basis, usize>,
    by_family: BTreeMap<(Family, Basis), usize>,
    differences: Vec<String>,
    tables: BTreeSet<String>,
}

thread_local! {
    static TALLY: RefCell<Tally> = RefCell::default();
}

/// Counts rows or examples that were compared.
pub fn compared(cases: usize) {
    TALLY.with_borrow_mut(|tally| tally.cases += cases);
}

/// Counts a row that says itself what it rests on.
pub fn compared_by(source: &str) {
    compared(1);
    let basis = Basis::of(source);
    TALLY.with_borrow_mut(|tally| *tally.by_basis.entry(basis).or_default() += 1);
}

/// Counts a row of a family.
pub fn compared_of(family: Family, basis: Basis) {
    compared(1);
    TALLY.with_borrow_mut(|tally| *tally.by_family.entry((family, basis)).or_default() += 1);
}

/// Counts a row of a family that says itself what it rests on.
pub fn compared_of_by(family: Family, source: &str) {
    compared_by(source);
    let basis = Basis::of(source);
    TALLY.with_borrow_mut(|tally| *tally.by_family.entry((family, basis)).or_default() += 1);
}

/// Notes a difference that the check expects, with who is right.
pub fn differs(text: &str) {
    TALLY.with_borrow_mut(|tally| tally.differences.push(text.to_owned()));
}

/// Notes that a table below `tests/tables` was read.
pub fn reads(file: &str) {
    TALLY.with_borrow_mut(|tally| tally.tables.insert(file.to_owned()));
}

/// Runs a check; `None` where it failed.
fn run(check: &Check) -> Option<Tally> {
    TALLY.take();
    let is_met = catch_unwind(check.run).is_ok();
    let tally = TALLY.take();
    is_met.then_some(tally)
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Files below a folder, relative to it.
fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path));
        } else {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// `a, b` of counts that are not 0.
fn split(counts: &BTreeMap<Basis, usize>) -> String {
    let pieces: Vec<String> = counts
        .iter()
        .map(|(basis, count)| format!("{count} {}", basis.name()))
        .collect();
    pieces.join(", ")
}

fn result(tally: &Tally) -> String {
    if tally.differences.is_empty() {
        "all agree".to_owned()
    } else {
        let count = tally.differences.len();
        format!("all but {count}: {}", tally.differences.join("; "))
    }
}

fn check_row(check: &Check, tally: &Tally) -> String {
    let split = if tally.by_basis.is_empty() {
        String::new()
    } else {
        format!(" ({})", split(&tally.by_basis))
    };
    format!(
        "| {} | {} | {}{split} | {} |\n",
        check.what,
        check.against,
        tally.cases,
        result(tally)
    )
}

const HEAD: &str = "| What | Against | Compared | Result |\n|---|---|---|---|\n";

fn families(text: &mut String, ran: &[(&Check, Tally)]) {
    text.push_str(
        "## Part families\n\nRows shipped by confidence: A three or more open sources, B two, C one, D memory only. Compared: rows and \
         questions of the checks below whose expected value stands in a published table or open data.\n\n\
         | Family | Rows A, B, C | Rows D | Compared | By the rule of a standard | From memory | Rests on |\n|---|---|---|---|---|---|---|\n",
    );
    for family in Family::ALL {
        let rows = |is_memory: bool| {
            parts()
                .iter()
                .filter(|part| {
                    part.size.family() == family && (part.confidence == Confidence::D) == is_memory
                })
                .count()
        };
        let count = |basis: Basis| -> usize {
            ran.iter()
                .filter_map(|(_, tally)| tally.by_family.get(&(family, basis)))
                .sum()
        };
        let compared = count(Basis::Table);
        let rests = match (compared, rows(false), rows(true)) {
            (0, 0, _) => "**memory alone**",
            (0, ..) => "**no check here compares its rows A to C**; the rows D on memory",
            (_, _, 0) => "open tables",
            (_, 0, _) => "memory, compared in part",
            _ => "open tables; the rows D on memory",
        };
        let _ = writeln!(
            text,
            "| {} | {} | {} | {compared} | {} | {} | {rests} |",
            family.name(),
            rows(false),
            rows(true),
            count(Basis::Standard),
            count(Basis::Memory),
        );
    }
    text.push('\n');
}

fn by_method(text: &mut String, ran: &[(&Check, Tally)]) {
    text.push_str("## Planning methods\n\n");
    for Method {
        name, unchecked, ..
    } in METHODS
    {
        let of: Vec<_> = ran.iter().filter(|(check, _)| check.of == *name).collect();
        let _ = writeln!(text, "### {name}\n");
        match (of.is_empty(), unchecked) {
            (true, Some(why)) => {
                let _ = writeln!(text, "**No check outside the project here.** {why}\n");
            }
            (true, None) => panic!("{name}: no check, and no reason for that"),
            (false, Some(_)) => panic!("{name} has checks: delete its reason for having none"),
            (false, None) => {
                text.push_str(HEAD);
                for (check, tally) in of {
                    text.push_str(&check_row(check, tally));
                }
                text.push('\n');
            }
        }
    }
    let known: BTreeSet<&str> = METHODS
        .iter()
        .flat_map(|method| method.files)
        .copied()
        .collect();
    let folder = root().join("src/plan");
    let unknown: Vec<String> = files(&folder)
        .iter()
        .map(|path| {
            path.strip_prefix(&folder)
                .unwrap()
                .to_string_lossy()
                .replace('\\', "/")
        })
        .filter(|file| !file.ends_with("tests.rs") && !file.ends_with("mod.rs"))
        .filter(|file| {
            !known
                .iter()
                .any(|of| file == of || file.starts_with(&format!("{of}/")))
        })
        .collect();
    if !unknown.is_empty() {
        let _ = writeln!(
            text,
            "Files of `src/plan` that belong to no method of this list: {}.\n",
            unknown.join(", ")
        );
    }
}

fn written(ran: &[(&Check, Tally)]) -> String {
    let total: usize = ran.iter().map(|(_, tally)| tally.cases).sum();
    let mut text = format!(
        "# Checks against something outside the project\n\nWritten by the test `outside::the_list_of_outside_checks_is_what_running_them_gives`, \
         which runs every one of them and counts what it compares: {} checks, {total} rows and examples. Where a reference was computed, \
         `tests/tables/planning/README.md` names library and version. Checks of single values inside a unit test name their source beside \
         the value; they run with the same command and are not counted here.\n\n",
        ran.len()
    );
    families(&mut text, ran);
    for (title, group) in [
        ("Sizes", list::SIZES),
        ("Names, exchange, limits and formulas", list::RULES),
    ] {
        let _ = write!(text, "## {title}\n\n{HEAD}");
        for (check, tally) in ran.iter().filter(|(check, _)| check.of == group) {
            text.push_str(&check_row(check, tally));
        }
        text.push('\n');
    }
    by_method(&mut text, ran);
    text.truncate(text.trim_end().len());
    text.push('\n');
    text
}

#[test]
fn the_list_of_outside_checks_is_what_running_them_gives() {
    let mut ran = Vec::new();
    for check in &CHECKS {
        let tally = run(check).unwrap_or_else(|| panic!("{} does not hold", check.what));
        assert!(tally.cases > 0, "{} compared nothing", check.what);
        let is_known = [list::SIZES, list::RULES].contains(&check.of)
            || METHODS.iter().any(|method| method.name == check.of);
        assert!(is_known, "{}: no such group", check.of);
        ran.push((check, tally));
    }
    let read: BTreeSet<&String> = ran.iter().flat_map(|(_, tally)| &tally.tables).collect();
    for path in files(&root().join("tests/tables")) {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        assert!(
            name == "README.md" || read.contains(&name),
            "{name} is read by no check of the list"
        );
    }
    let text = written(&ran);
    let path = root().join("tests/golden/outside_checks.md");
    if std::env::var_os("SPAREWRIGHT_UPDATE_GOLDEN").is_some() {
        fs::write(&path, &text).unwrap();
    }
    assert_eq!(text, fs::read_to_string(path).unwrap());
}

#[test]
fn a_check_that_fails_or_compares_nothing_is_seen() {
    let check = |run: fn()| Check {
        of: list::SIZES,
        what: "",
        against: "",
        run,
    };
    assert!(run(&check(|| panic!("meant to fail"))).is_none());
    assert_eq!(run(&check(|| {})).map(|tally| tally.cases), Some(0));
    let tally = run(&check(|| {
        compared_of_by(Family::ORing, "SAE AS568; BDW; from memory")
    }))
    .unwrap();
    assert_eq!(tally.by_family[&(Family::ORing, Basis::Table)], 1);
    assert_eq!(tally.cases, 1);
}

#[test]
fn a_source_says_what_a_row_rests_on() {
    for (source, basis) in [
        ("DIN 711, ISO 104; BOLTS", Basis::Table),
        ("ISO 15; from memory; MOTT", Basis::Table),
        (
            "ISO 2982-2, DIN 981; from memory; public thread page (KM0-KM10)",
            Basis::Table,
        ),
        ("DIN 623-1", Basis::Standard),
        ("DIN 3760; from memory", Basis::Memory),
        (
            "common practice from memory: stabilised rings",
            Basis::Practice,
        ),
        (
            "DIN 623-1; point for hyphen: common slip, no source",
            Basis::Practice,
        ),
    ] {
        assert_eq!(Basis::of(source), basis, "{source}");
    }
}
