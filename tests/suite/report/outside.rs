//! Programs of others that read what is written here; a test that finds none says so aloud and checks nothing.

use std::collections::BTreeMap;
use std::io::{Cursor, Read, Write};
use std::path::Path;
use std::process::Command;

use sparewright::language::Language;
use sparewright::report::{rejects_workbook, workbook_of, workbook_to_send_of};

use super::sample::report;
use crate::skipped::no_reader;

/// True where the program is there and answers.
pub fn is_there(program: &str, argument: &str) -> bool {
    Command::new(program)
        .arg(argument)
        .output()
        .is_ok_and(|output| output.status.success())
}

/// A python with openpyxl: `SPAREWRIGHT_PYTHON`, else the one on the path, else the distribution's.
pub fn python() -> Option<String> {
    let named = std::env::var("SPAREWRIGHT_PYTHON").ok();
    let found = named
        .into_iter()
        .chain(["python3", "/usr/bin/python3"].map(str::to_owned))
        .find(|python| {
            let asked = Command::new(python)
                .args(["-c", "import openpyxl"])
                .output();
            asked.is_ok_and(|output| output.status.success())
        });
    if found.is_none() {
        no_reader("python3 with openpyxl (python3-openpyxl)");
    }
    found
}

/// Chromium under the name it has here.
pub fn browser() -> Option<&'static str> {
    let names = ["chromium", "chromium-browser", "google-chrome"];
    let found = names.into_iter().find(|name| is_there(name, "--version"));
    if found.is_none() {
        no_reader("Chromium");
    }
    found
}

/// Every workbook that the program writes: the sample, the demo's report and requests, and rows to mend.
pub fn every_workbook() -> Vec<(String, Vec<u8>)> {
    let demo = crate::demo::demo();
    let inputs = demo.0.inputs(&demo.1);
    let mut books = vec![
        ("sample".to_owned(), workbook_of(&report()).unwrap()),
        (
            "demo".to_owned(),
            workbook_of(&demo.0.report(&demo.1)).unwrap(),
        ),
        (
            "rejects".to_owned(),
            rejects_workbook(&demo.0.imported.rejects, Language::ENGLISH).unwrap(),
        ),
        (
            "no rejects".to_owned(),
            rejects_workbook(&[], Language::ENGLISH).unwrap(),
        ),
    ];
    for request in sparewright::report::content::purchase_requests(&inputs) {
        let bytes = workbook_to_send_of(&request.report).unwrap();
        books.push((request.file_stem, bytes));
    }
    books
}

/// The parts of a workbook by name.
pub fn parts(book: &[u8]) -> BTreeMap<String, Vec<u8>> {
    let mut archive = zip::ZipArchive::new(Cursor::new(book)).unwrap();
    (0..archive.len())
        .map(|at| {
            let mut part = archive.by_index(at).unwrap();
            let mut bytes = Vec::new();
            part.read_to_end(&mut bytes).unwrap();
            (part.name().unwrap().into_owned(), bytes)
        })
        .collect()
}

/// The workbook with these parts.
pub fn book_of(parts: &BTreeMap<String, Vec<u8>>) -> Vec<u8> {
    let mut archive = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        let options = zip::write::SimpleFileOptions::default();
        archive.start_file(name.as_str(), options).unwrap();
        archive.write_all(bytes).unwrap();
    }
    archive.finish().unwrap().into_inner()
}

/// The workbook as LibreOffice reckons it anew, whatever results it carries; `None` where LibreOffice is not there.
pub fn recalculated(book: &[u8]) -> Option<Vec<u8>> {
    if !is_there("soffice", "--version") {
        no_reader("LibreOffice (soffice)");
        return None;
    }
    let folder = tempfile::tempdir().unwrap();
    // A profile of its own, told to reckon every formula of a loaded workbook anew (0 = always).
    let profile = folder.path().join("profile/user");
    std::fs::create_dir_all(&profile).unwrap();
    std::fs::write(profile.join("registrymodifications.xcu"), ALWAYS_RECKON).unwrap();
    let given = folder.path().join("book.xlsx");
    std::fs::write(&given, book).unwrap();
    let out = folder.path().join("out");
    let status = Command::new("soffice")
        .arg(format!(
            "-env:UserInstallation=file://{}",
            folder.path().join("profile").display()
        ))
        .args([
            "--headless",
            "--convert-to",
            "xlsx:Calc MS Excel 2007 XML",
            "--outdir",
        ])
        .args([&out, &given])
        .output()
        .unwrap();
    let made: &Path = &out.join("book.xlsx");
    assert!(
        made.is_file(),
        "{}",
        String::from_utf8_lossy(&status.stderr)
    );
    Some(std::fs::read(made).unwrap())
}

const ALWAYS_RECKON: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"#;
