//! What each workbook of `tests/workbooks` gives, file by file, compared to golden files.
//!
//! `SPAREWRIGHT_UPDATE_GOLDEN=1` writes the golden files anew; read the difference before committing it.

use std::collections::BTreeSet;
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

use sparewright::import::{FileProblem, ImportError, Imported, SkippedFile, read_folder};

/// Least number of awkward files.
const LEAST_FILES: usize = 60;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn files() -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = fs::read_dir(root().join("tests/workbooks"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| {
            path.extension()
                .is_some_and(|ending| ending != "py" && ending != "md")
        })
        .collect();
    files.sort();
    files
}

fn left_out(text: &mut String, problems: &[FileProblem], skipped: &[SkippedFile]) {
    for problem in problems {
        // The words of the reader behind a damaged file may change with its version.
        let reason = problem.reason.to_string();
        let reason = reason.split(": ").next().unwrap_or_default();
        writeln!(text, "problem: {reason}").unwrap();
    }
    for file in skipped {
        let sheet = file.sheet.as_deref().unwrap_or("whole file");
        writeln!(text, "left out: {sheet}: {}", file.reason).unwrap();
    }
}

fn shown<T: ToString>(value: Option<T>) -> String {
    value.map_or_else(|| "unknown".to_owned(), |value| value.to_string())
}

fn tables(text: &mut String, imported: &Imported) {
    for table in imported.dry_run() {
        let hidden = if table.is_hidden { " (hidden)" } else { "" };
        writeln!(
            text,
            "table `{}`{hidden}: {}, header in row {}, {} rows, {} rejected",
            table.sheet,
            table.kind.name(),
            table.header_row,
            table.rows.read,
            table.rows.rejected
        )
        .unwrap();
        if let Some(dated) = &table.dated {
            writeln!(text, "  dated {dated}").unwrap();
        }
        if let Some(supplier) = &table.supplier {
            writeln!(text, "  supplier {supplier}").unwrap();
        }
        for column in &table.columns {
            let field = column.field.map_or("not read", |field| field.name());
            let samples: Vec<String> = column
                .samples
                .iter()
                .map(|sample| sample.chars().take(40).collect())
                .collect();
            // A sheet of a thousand unread columns is told by its first ones.
            if column.letters.len() < 2 {
                writeln!(
                    text,
                    "  {} `{}` = {field} ({}): {}",
                    column.letters,
                    column.header.replace('\n', "⏎"),
                    column.evidence,
                    samples.join(" | ").replace('\n', "⏎")
                )
                .unwrap();
            }
        }
        for kind in &table.kinds {
            let (name, reasons) = (kind.kind.name(), kind.reasons.join(", "));
            writeln!(text, "  {name} {:.1} points: {reasons}", kind.points).unwrap();
        }
        for why in &table.why {
            writeln!(text, "  why: {why}").unwrap();
        }
    }
}

fn records(text: &mut String, imported: &Imported) {
    let records = &imported.records;
    for part in &records.parts {
        writeln!(
            text,
            "part {}: {}, {}, {}",
            part.own_number,
            shown(part.designation.as_deref()),
            shown(part.family),
            shown(part.size)
        )
        .unwrap();
    }
    for offer in &records.offers {
        let number = offer
            .own_number
            .as_deref()
            .or(offer.supplier_number.as_deref());
        writeln!(
            text,
            "offer {} of {}: {}, {}, price of one {}, lead time {}, {} breaks",
            shown(number),
            offer.supplier,
            shown(offer.family),
            shown(offer.size),
            shown(offer.price.map(|price| price.cost_of(1.0))),
            shown(offer.lead_time),
            offer.breaks.len()
        )
        .unwrap();
    }
    for stock in &records.stock {
        writeln!(
            text,
            "stock of {} in {}: {}, reserved {}, counted on {}",
            stock.part,
            shown(stock.bin.as_deref()),
            shown(stock.on_hand),
            shown(stock.reserved),
            shown(stock.counted_on)
        )
        .unwrap();
    }
    for usage in &records.usages {
        writeln!(
            text,
            "usage of {} on {}: {}",
            usage.part, usage.date, usage.quantity
        )
        .unwrap();
    }
    for line in &records.kit_lines {
        writeln!(
            text,
            "line {} of {}: {} x {}",
            line.line,
            line.kit,
            line.quantity
                .map_or_else(|| "unknown".to_owned(), |of| of.to_string()),
            shown(line.part.as_deref().or(line.description.as_deref()))
        )
        .unwrap();
    }
}

/// What a file gives when it is alone in its folder.
fn dump(path: &Path) -> String {
    let folder = tempfile::tempdir().unwrap();
    fs::copy(path, folder.path().join(path.file_name().unwrap())).unwrap();
    let mut text = String::new();
    match read_folder(folder.path()) {
        Ok(imported) => {
            left_out(&mut text, &imported.problems, &imported.skipped);
            tables(&mut text, &imported);
            records(&mut text, &imported);
            for issue in &imported.issues {
                writeln!(
                    text,
                    "{:?} {}: {}",
                    issue.severity,
                    issue.place.cell(),
                    issue.problem
                )
                .unwrap();
            }
        }
        Err(ImportError::NothingUsable {
            problems, skipped, ..
        }) => left_out(&mut text, &problems, &skipped),
        Err(error) => panic!("{}: {error}", path.display()),
    }
    text
}

#[test]
fn each_awkward_file_gives_what_its_golden_file_says() {
    let golden = root().join("tests/golden/workbooks");
    let files = files();
    assert!(files.len() >= LEAST_FILES, "{}", files.len());
    let of = |path: &Path| {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        golden.join(format!("{name}.txt"))
    };
    if std::env::var_os("SPAREWRIGHT_UPDATE_GOLDEN").is_some() {
        let _ = fs::remove_dir_all(&golden);
        fs::create_dir_all(&golden).unwrap();
        for path in &files {
            fs::write(of(path), dump(path)).unwrap();
        }
    }
    let mut unused: BTreeSet<PathBuf> = fs::read_dir(&golden)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    for path in &files {
        unused.remove(&of(path));
        let want = fs::read_to_string(of(path)).unwrap_or_default();
        assert_eq!(dump(path), want, "{}", path.display());
    }
    assert!(unused.is_empty(), "golden files of no workbook: {unused:?}");
}
