//! The demo, end to end: the story it must tell, and its workbook read back and compared to golden files.
//!
//! `SPAREWRIGHT_UPDATE_GOLDEN=1` writes the golden files anew; read the difference before committing it.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;
use std::io::Cursor;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use calamine::{Data, Reader, Xlsx};
use sparewright::interchange::AcceptedBecause;
use sparewright::job::{Job, Planned};
use sparewright::plan::Completion;
use sparewright::report::workbook_of;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The demo, read and planned once; its moment of planning is fixed in its settings.
pub fn demo() -> &'static (Job, Planned) {
    static DEMO: OnceLock<(Job, Planned)> = OnceLock::new();
    DEMO.get_or_init(|| {
        let job = Job::read(&root().join("data/demo"), None).unwrap();
        let planned = job.plan().unwrap();
        (job, planned)
    })
}

fn kit(name: &str) -> usize {
    demo()
        .0
        .shop
        .kits
        .iter()
        .position(|kit| kit.name == name)
        .unwrap_or_else(|| panic!("no kit `{name}`"))
}

/// Own numbers accepted and refused on a line.
fn of_line(kit_name: &str, line: &str) -> (BTreeSet<String>, BTreeSet<String>) {
    let (job, planned) = demo();
    let kit = kit(kit_name);
    let at = job.shop.kits[kit]
        .lines
        .iter()
        .position(|of| of.record.line == line)
        .unwrap();
    let of = planned
        .acceptances
        .iter()
        .find(|of| of.kit == kit && of.line == at)
        .unwrap();
    let number = |part| job.shop.catalogue.part(part).number.clone();
    (
        of.accepted
            .iter()
            .map(|accepted| number(accepted.part))
            .collect(),
        of.refused
            .iter()
            .map(|refused| number(refused.part))
            .collect(),
    )
}

#[test]
fn an_approved_equivalent_replaces_six_weeks_and_the_tempting_one_is_refused() {
    let (job, planned) = demo();
    let (accepted, refused) = of_line("Flaking roll FR-2 drive end", "10");
    assert!(accepted.contains("BRG-0315"), "{accepted:?}");
    // NU for NUP: no axial location, DIN 5412-1. NJ: tried, did not fit.
    assert!(
        refused.contains("BRG-0317") && refused.contains("BRG-0318"),
        "{refused:?}"
    );
    let plan = &planned.plan.kits[kit("Flaking roll FR-2 drive end")];
    let Completion::Known { together, .. } = plan.accepted.completion else {
        panic!("the kit must have an end: {:?}", plan.accepted.completion);
    };
    let likely = together.p50;
    assert!((likely - job.shop.as_of).num_days() <= 4, "{likely}");
}

#[test]
fn an_approval_without_a_name_changes_nothing() {
    let (accepted, _) = of_line("Fan FN-6 shaft", "40");
    assert!(!accepted.contains("BRG-0148"), "{accepted:?}");
}

#[test]
fn only_named_approvals_and_equal_parts_are_accepted_anywhere() {
    let (job, planned) = demo();
    for of in &planned.acceptances {
        let line = &job.shop.kits[of.kit].lines[of.line].record;
        for accepted in &of.accepted {
            match &accepted.because {
                AcceptedBecause::ApprovedBy { by, .. } => {
                    assert!(!by.is_empty() && !line.no_substitutes)
                }
                AcceptedBecause::GoesInAsItIs => assert!(!line.no_substitutes),
                AcceptedBecause::AskedFor => {}
            }
        }
    }
}

#[test]
fn a_kit_can_be_built_from_stock_and_one_has_no_end() {
    let plans = &demo().1.plan.kits;
    let from_stock = |name: &str| {
        plans[kit(name)]
            .accepted
            .lines
            .iter()
            .all(|line| line.short <= 0.0)
    };
    assert!(from_stock("Roller stand RS-4 roll bearings"));
    let elevator = &plans[kit("Elevator BE-12 head pulley")].accepted.completion;
    assert!(
        matches!(elevator, Completion::Unknown { .. }),
        "{elevator:?}"
    );
}

#[test]
fn an_open_approval_is_listed_with_what_it_gains() {
    let (job, planned) = demo();
    let plan = &planned.plan.kits[kit("Flaking roll FR-2 free end")];
    let gain = plan.approvals.first().expect("22213 C3 would gain time");
    assert_eq!(
        job.shop.catalogue.part(gain.part).designation.as_deref(),
        Some("22213 C3")
    );
    assert!(gain.gained.saved_h.unwrap() > 100.0, "{gain:?}");
}

#[test]
fn nothing_is_bought_from_unapproved_suppliers_or_expired_quotes() {
    let (job, planned) = demo();
    for line in &planned.plan.reorder.lines {
        let offer = &job.shop.offers[line.buy.offer].record;
        assert!(!offer.supplier.contains("Pfennigring"), "{offer:?}");
        assert!(
            offer
                .valid_until
                .is_none_or(|until| until >= job.shop.as_of.date()),
            "{offer:?}"
        );
    }
}

#[test]
fn matched_sets_are_bought_as_sets() {
    let (job, planned) = demo();
    let line = planned
        .plan
        .reorder
        .lines
        .iter()
        .find(|line| job.shop.catalogue.part(line.part()).number == "BRG-0263");
    assert_eq!(line.unwrap().buy.offer_unit.to_string(), "matched set of 2");
}

/// Every sheet as text: its cells with their types, and its formulas.
fn dump(bytes: Vec<u8>) -> Vec<(String, String)> {
    let mut book = Xlsx::new(Cursor::new(bytes)).unwrap();
    let names = book.sheet_names();
    names
        .into_iter()
        .map(|name| {
            let range = book.worksheet_range(&name).unwrap();
            let formulas = book.worksheet_formula(&name).unwrap();
            let mut text = format!("{name}: {} columns\n", range.width());
            for row in range.rows() {
                let cells: Vec<String> = row.iter().map(cell).collect();
                let _ = writeln!(text, "{}", cells.join(" | ").trim_end_matches([' ', '|']));
            }
            for (row, column, formula) in formulas.used_cells() {
                let _ = writeln!(text, "formula at {row}, {column}: {formula}");
            }
            (name, text)
        })
        .collect()
}

fn cell(data: &Data) -> String {
    match data {
        Data::Empty => String::new(),
        Data::String(text) => text.replace('\n', "\\n"),
        Data::Float(number) => format!("{number:.6}")
            .trim_end_matches('0')
            .trim_end_matches('.')
            .to_owned(),
        Data::DateTime(moment) => {
            let moment = moment.as_datetime().unwrap();
            format!("@{}", moment.format("%Y-%m-%d %H:%M"))
        }
        other => format!("{other:?}"),
    }
}

#[test]
fn the_workbook_is_that_of_the_golden_files() {
    let (job, planned) = demo();
    let sheets = dump(workbook_of(&job.report(planned)).unwrap());
    let folder = root().join("tests/golden/demo");
    let path = |name: &str| {
        folder.join(format!(
            "{}.txt",
            name.to_lowercase().replace([' ', ','], "_")
        ))
    };
    if std::env::var_os("SPAREWRIGHT_UPDATE_GOLDEN").is_some() {
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).unwrap();
        for (name, text) in &sheets {
            // The version changes with every release and is no part of the comparison.
            fs::write(
                path(name),
                text.replace(env!("CARGO_PKG_VERSION"), "VERSION"),
            )
            .unwrap();
        }
    }
    let mut kept: BTreeSet<PathBuf> = fs::read_dir(&folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    for (name, text) in &sheets {
        let golden = fs::read_to_string(path(name)).unwrap_or_default();
        kept.remove(&path(name));
        for (at, (have, want)) in text.lines().zip(golden.lines()).enumerate() {
            assert_eq!(
                have.replace(env!("CARGO_PKG_VERSION"), "VERSION"),
                want,
                "sheet `{name}`, line {}",
                at + 1
            );
        }
        assert_eq!(
            text.lines().count(),
            golden.lines().count(),
            "sheet `{name}`: number of lines"
        );
    }
    assert!(kept.is_empty(), "golden files of no sheet: {kept:?}");
}
