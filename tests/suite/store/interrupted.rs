//! Whatever ends an import (a kill, a full disk, another writer), the workspace holds the state before or after.

use std::fs::{self, File};
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use sparewright::import::read_folder;
use sparewright::store::{StoreError, Workspace};

use super::shops::{Bench, moment, said, write};

/// Kills in the ordinary run; `SPAREWRIGHT_KILLS` asks for more.
const KILLS: u32 = 50;
/// Interrupts spread over half as long again as an import takes, and further ones, each after twice the time, where none
/// of these comes after its end.
#[cfg(unix)]
const STEPS: u32 = 24;
#[cfg(unix)]
const LONGER_STEPS: u32 = 7;
/// Rows of the table that is imported again and again.
const ROWS: usize = 400;

fn program() -> Command {
    Command::new(env!("CARGO_BIN_EXE_sparewright"))
}

/// A parts and a stock table whose figures all depend on the edition.
fn edition(folder: &Path, edition: u32) {
    let rows =
        |row: fn(usize, u32) -> String| (0..ROWS).map(|at| row(at, edition)).collect::<String>();
    let parts = rows(|at, edition| format!("B-{at},6305-2RS,{}\n", edition as usize + at));
    let stock = rows(|at, edition| format!("B-{at},A{at},{}\n", edition as usize + at));
    let (parts, stock) = (
        format!("Own number,Designation,Min. stock\n{parts}"),
        format!("Part no,Bin,On hand\n{stock}"),
    );
    write(folder, &[("parts.csv", &parts), ("stock.csv", &stock)]);
}

fn import_command(folder: &Path, workspace: &Path) -> Command {
    let mut command = program();
    command
        .arg("import")
        .arg(folder)
        .arg("--workspace")
        .arg(workspace);
    command.stdout(Stdio::null()).stderr(Stdio::null());
    command
}

/// No file of the workspace is a left-over.
fn assert_tidy(workspace: &Path) {
    for folder in ["", "tables", "snapshots"] {
        for entry in fs::read_dir(workspace.join(folder)).unwrap() {
            let name = entry.unwrap().file_name().to_string_lossy().into_owned();
            assert!(!name.ends_with(".tmp"), "{name}");
        }
    }
}

#[test]
fn a_killed_import_leaves_the_state_before_or_after() {
    let kills = std::env::var("SPAREWRIGHT_KILLS")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(KILLS);
    let place = tempfile::tempdir().unwrap();
    let (folder, path) = (place.path().join("in"), place.path().join("shop"));
    fs::create_dir(&folder).unwrap();
    edition(&folder, 0);
    let started = Instant::now();
    assert!(import_command(&folder, &path).status().unwrap().success());
    // Other work on the machine makes an import longer or shorter than the first one was: what is seen corrects it.
    let mut whole_us = started.elapsed().as_micros() as u64;
    let workspace = Workspace::open(&path).unwrap();
    let mut draw = 7_u64;
    let (mut before_seen, mut after_seen) = (0, 0);
    for kill in 1..=kills {
        let before = said(&workspace);
        let number = workspace.number().unwrap();
        edition(&folder, kill);
        let mut child = import_command(&folder, &path).spawn().unwrap();
        // Knuth's constants for a linear congruential generator: the same shares of the time in every run.
        draw = draw
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let wait_us = (draw >> 33) % (whole_us + whole_us / 4);
        thread::sleep(Duration::from_micros(wait_us));
        // One that has ended already needs no kill.
        let _ = child.kill();
        child.wait().unwrap();
        let expected = Bench::new();
        expected
            .workspace
            .import(&read_folder(&folder).unwrap(), moment(3, 9))
            .unwrap();
        let (now, after) = (said(&workspace), said(&expected.workspace));
        assert!(
            now == before || now == after,
            "kill {kill} after {wait_us} µs left another state"
        );
        let is_after = workspace.number().unwrap() > number;
        assert_eq!(now == after, is_after);
        if is_after {
            after_seen += 1;
            whole_us -= whole_us / 10;
        } else {
            before_seen += 1;
            whole_us += whole_us / 10;
        }
        assert!(workspace.snapshots().is_ok());
    }
    assert!(
        before_seen > 0 && after_seen > 0,
        "kills must fall on both sides: {before_seen} before, {after_seen} after"
    );
    edition(&folder, kills + 1);
    assert!(import_command(&folder, &path).status().unwrap().success());
    assert_tidy(&path);
}

/// Sends what Ctrl-C sends.
#[cfg(unix)]
fn interrupt(child: &std::process::Child) {
    let id = child.id().to_string();
    // One that has ended already needs no signal.
    let _ = Command::new("kill")
        .args(["-INT", &id])
        .stderr(Stdio::null())
        .status();
}

#[cfg(unix)]
#[test]
fn ctrl_c_during_an_import_leaves_the_state_before_or_after() {
    if is_interrupt_ignored() {
        crate::skipped::skipped(
            "this process was started with interrupts ignored, and its children inherit that",
        );
        return;
    }
    let place = tempfile::tempdir().unwrap();
    let (folder, path, room) = (
        place.path().join("in"),
        place.path().join("shop"),
        place.path().join("tmp"),
    );
    for made in [&folder, &room] {
        fs::create_dir(made).unwrap();
    }
    edition(&folder, 0);
    let started = Instant::now();
    assert!(import_command(&folder, &path).status().unwrap().success());
    let whole = started.elapsed();
    let workspace = Workspace::open(&path).unwrap();
    let (mut before_seen, mut after_seen) = (0, 0);
    for step in 0..STEPS + LONGER_STEPS {
        // Other work on the machine may have made the first import shorter than all others: then one is waited for longer.
        if step >= STEPS && after_seen > 0 {
            break;
        }
        let before = said(&workspace);
        edition(&folder, step + 1);
        let mut child = import_command(&folder, &path)
            .env("TMPDIR", &room)
            .spawn()
            .unwrap();
        thread::sleep(match step.checked_sub(STEPS) {
            None => whole * step / 16,
            Some(longer) => whole * 2_u32.pow(longer + 1),
        });
        interrupt(&child);
        let status = child.wait().unwrap();
        let after = Bench::new();
        after
            .workspace
            .import(&read_folder(&folder).unwrap(), moment(3, 9))
            .unwrap();
        let (now, after) = (said(&workspace), said(&after.workspace));
        assert!(
            now == before || now == after,
            "step {step} left another state"
        );
        // One that ended by itself has done all of it; one that was interrupted did not say so.
        assert!(now == after || !status.success());
        if now == after {
            after_seen += 1;
        } else {
            before_seen += 1;
        }
        assert_eq!(
            fs::read_dir(&room).unwrap().count(),
            0,
            "left in the temporary folder"
        );
    }
    assert!(
        before_seen > 0 && after_seen > 0,
        "{before_seen} before, {after_seen} after"
    );
    edition(&folder, 99);
    assert!(import_command(&folder, &path).status().unwrap().success());
    assert_tidy(&path);
}

#[cfg(unix)]
#[test]
fn ctrl_c_during_a_run_leaves_whole_reports_or_none_and_nothing_temporary() {
    let place = tempfile::tempdir().unwrap();
    let (folder, room) = (place.path().join("in"), place.path().join("tmp"));
    for made in [&folder, &room] {
        fs::create_dir(made).unwrap();
    }
    edition(&folder, 0);
    let run = |out: &Path| {
        let mut command = program();
        command
            .arg("run")
            .arg(&folder)
            .arg("--out")
            .arg(out)
            .env("TMPDIR", &room)
            .stdout(Stdio::null())
            .stderr(Stdio::null());
        command
    };
    let names = |out: &Path| -> Vec<String> {
        let entries = fs::read_dir(out).into_iter().flatten();
        let mut names: Vec<String> = entries
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    };
    let started = Instant::now();
    let whole_set = place.path().join("whole");
    assert!(run(&whole_set).status().unwrap().success());
    let whole = started.elapsed();
    let expected = names(&whole_set);
    let mut interrupted = 0;
    for step in 0..16_u32 {
        let out = place.path().join(format!("out{step}"));
        let mut child = run(&out).spawn().unwrap();
        thread::sleep(whole * step / 12);
        interrupt(&child);
        interrupted += u32::from(!child.wait().unwrap().success());
        let found = names(&out);
        assert!(
            found.is_empty() || found == expected,
            "step {step}: {found:?}"
        );
        assert_eq!(names(&room), Vec::<String>::new(), "step {step}");
    }
    assert!(interrupted > 0);
}

#[test]
fn every_step_of_an_import_may_be_the_last() {
    // What each step leaves, made by hand: half a table, a table without manifest, a manifest without pointer.
    let bench = Bench::of(&[&[("parts.csv", "Own number,Designation\nB-1,6305-2RS\n")]]);
    let (folder, before) = (bench.workspace.folder().to_owned(), said(&bench.workspace));
    fs::write(folder.join("tables/parts-0123.parquet.tmp"), b"half").unwrap();
    fs::write(folder.join("tables/parts-0123.parquet"), b"whole").unwrap();
    fs::write(folder.join("snapshots/000002.json"), b"{").unwrap();
    fs::write(folder.join("snapshots/000002.json.tmp"), b"{").unwrap();
    fs::write(folder.join("current.tmp"), b"{").unwrap();
    assert_eq!(said(&bench.workspace), before);
    assert_eq!(bench.workspace.snapshots().unwrap().len(), 1);
    bench.import(&[("more.csv", "Own number,Designation\nB-2,6001\n")]);
    assert_tidy(&folder);
    assert_eq!(bench.workspace.number().unwrap(), 2);
    assert_eq!(bench.load().records.parts.len(), 2);
}

#[cfg(unix)]
#[test]
fn a_full_disk_is_told_and_changes_nothing() {
    let place = tempfile::tempdir().unwrap();
    let (folder, path) = (place.path().join("in"), place.path().join("shop"));
    fs::create_dir(&folder).unwrap();
    edition(&folder, 0);
    assert!(import_command(&folder, &path).status().unwrap().success());
    let workspace = Workspace::open(&path).unwrap();
    let before = said(&workspace);
    edition(&folder, 1);
    // A limit on the size of files makes writes fail as a full disk does; its signal is ignored to get the error.
    for blocks in [0, 1, 8] {
        let line = format!(
            "trap '' XFSZ; ulimit -f {blocks}; exec '{}' import '{}' --workspace '{}'",
            env!("CARGO_BIN_EXE_sparewright"),
            folder.display(),
            path.display()
        );
        let output = Command::new("sh")
            .arg("-c")
            .arg(line)
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .output()
            .unwrap();
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(said(&workspace), before, "{blocks} blocks");
        // Where even stderr is a file of no size, the exit code still tells.
        assert_eq!(output.status.code(), Some(4), "{blocks} blocks: {told}");
        assert!(
            told.contains("cannot be written; the workspace is as it was"),
            "{told}"
        );
    }
    assert!(import_command(&folder, &path).status().unwrap().success());
    assert_tidy(&path);
}

#[test]
fn a_second_writer_is_turned_away_and_readers_are_not() {
    let bench = Bench::of(&[&[("parts.csv", "Own number,Designation\nB-1,6305-2RS\n")]]);
    let lock = File::open(bench.workspace.folder().join("lock")).unwrap();
    lock.try_lock().unwrap();
    let more = [("more.csv", "Own number,Designation\nB-2,6001\n")];
    let error = bench.try_import(&more).unwrap_err();
    assert!(matches!(error, StoreError::Locked { .. }));
    assert!(
        error.to_string().ends_with("try again when it has ended"),
        "{error}"
    );
    assert!(matches!(
        bench.workspace.restore(1, moment(3, 9)),
        Err(StoreError::Locked { .. })
    ));
    assert_eq!(bench.load().records.parts.len(), 1);
    drop(lock);
    bench.import(&more);
    assert_eq!(bench.load().records.parts.len(), 2);
}

#[test]
fn readers_see_whole_states_while_a_writer_writes_and_prunes() {
    let bench = Bench::new();
    let place = tempfile::tempdir().unwrap();
    edition(place.path(), 0);
    let import = |workspace: &Workspace| {
        workspace
            .import(&read_folder(place.path()).unwrap(), moment(3, 9))
            .unwrap()
    };
    import(&bench.workspace);
    thread::scope(|scope| {
        let writer = scope.spawn(|| {
            for number in 1..12 {
                edition(place.path(), number);
                import(&bench.workspace);
                let rules = sparewright::store::PruneRules {
                    keep_last: 1,
                    keep_monthly: false,
                };
                bench.workspace.prune(rules).unwrap();
            }
        });
        let mut reads = 0;
        while !writer.is_finished() || reads == 0 {
            let records = bench.load().records;
            // All figures of one state are of one edition: parts and stock were imported together.
            let edition = records.parts[0].own_min_stock.unwrap();
            assert!((records.stock[0].on_hand.unwrap() - edition).abs() < 0.5);
            assert_eq!((records.parts.len(), records.stock.len()), (ROWS, ROWS));
            reads += 1;
        }
        writer.join().unwrap();
    });
}

#[test]
fn a_dry_run_says_how_tables_are_read_and_writes_nothing() {
    let place = tempfile::tempdir().unwrap();
    let (folder, path) = (place.path().join("in"), place.path().join("shop"));
    fs::create_dir(&folder).unwrap();
    edition(&folder, 0);
    let dry = |folder: &Path| {
        let mut command = program();
        command
            .arg("import")
            .arg(folder)
            .arg("--workspace")
            .arg(&path)
            .args(["--dry-run", "--format", "json"]);
        let output = command.output().unwrap();
        assert!(output.status.success());
        serde_json::from_slice::<serde_json::Value>(&output.stdout).unwrap()
    };
    let json = dry(&folder);
    assert!(!path.exists(), "a dry run makes no workspace");
    let column = &json["tables"][0]["columns"][2];
    assert_eq!(column["field"], "min_stock");
    assert_eq!(column["evidence"], "known word");
    assert_eq!(column["samples"], serde_json::json!(["0", "1", "2"]));
    assert_eq!(json["counts"]["parts"]["added"], ROWS);
    assert!(import_command(&folder, &path).status().unwrap().success());
    let list = |folder: &Path| fs::read_dir(folder).unwrap().count();
    let before = (list(&path.join("tables")), list(&path.join("snapshots")));
    edition(&folder, 1);
    let json = dry(&folder);
    assert_eq!(
        json["changes"].as_array().unwrap().len(),
        2 * ROWS,
        "each part has another minimum and other stock"
    );
    assert_eq!(
        (list(&path.join("tables")), list(&path.join("snapshots"))),
        before
    );
}

/// True where whoever started the tests ignores SIGINT (background jobs of a shell without job control do).
fn is_interrupt_ignored() -> bool {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let ignored = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
    let mask = ignored.and_then(|hex| u64::from_str_radix(hex.trim(), 16).ok());
    // SIGINT is signal 2, the second bit.
    mask.is_some_and(|mask| mask & 0b10 != 0)
}
