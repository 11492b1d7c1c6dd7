//! Every part of every workbook against the schemas of ECMA-376, and the limits of the format.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::process::Command;

use super::outside::{every_workbook, is_there, parts};
use crate::skipped::no_reader;

/// Ends of the parts that are XML.
const XML: [&str; 3] = [".xml", ".rels", ".vml"];

/// What `xmllint` says of files that do not keep to the schemas; empty where all do.
fn refused(folder: &Path) -> String {
    let schema =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/schemas/ecma_376/workbook_package.xsd");
    let files = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path());
    let output = Command::new("xmllint")
        .args(["--nonet", "--noout", "--schema"])
        .arg(schema)
        .args(files)
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stderr);
    if output.status.success() {
        return String::new();
    }
    let told = |line: &&str| !line.ends_with(" validates") && !line.contains("Skipping import");
    said.lines().filter(told).collect::<Vec<_>>().join("\n")
}

/// Writes the XML parts into one folder, each under a name of its own.
fn laid_out(books: &[(String, Vec<u8>)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (number, (name, book)) in books.iter().enumerate() {
        for (part, bytes) in parts(book) {
            if XML.iter().any(|end| part.ends_with(end)) {
                let flat = format!("{number}_{name}_{}", part.replace('/', "_"));
                // XML itself reserves the attribute (XML 1.0, section 2.10); the schema of `t` leaves it out, and every
                // program that keeps blanks at the ends of a text writes it.
                let text = String::from_utf8(bytes).unwrap();
                let text = text.replace(" xml:space=\"preserve\"", "");
                fs::write(folder.path().join(flat), text).unwrap();
            }
        }
    }
    folder
}

#[test]
fn every_part_keeps_to_the_schemas_of_the_standard() {
    if !is_there("xmllint", "--version") {
        no_reader("xmllint (libxml2-utils)");
        return;
    }
    let books = every_workbook();
    let folder = laid_out(&books);
    // Sample and demo alone have more parts than this.
    assert!(fs::read_dir(folder.path()).unwrap().count() > 150);
    assert_eq!(refused(folder.path()), "");
}

#[test]
fn the_check_of_the_schemas_can_fail() {
    if !is_there("xmllint", "--version") {
        no_reader("xmllint (libxml2-utils)");
        return;
    }
    let books = every_workbook();
    for (part, from, to) in [
        (
            "xl/worksheets/sheet2.xml",
            "<sheetData>",
            "<sheetData><cell/>",
        ),
        (
            "xl/tables/table1.xml",
            "<tableColumn ",
            "<tableColumn width=\"3\" ",
        ),
        ("xl/charts/chart1.xml", "<c:barDir val=\"bar\"/>", ""),
        (
            "docProps/core.xml",
            "T07:30:00Z</dcterms:created>",
            "</dcterms:created>",
        ),
    ] {
        let bytes = &parts(&books[0].1)[part];
        let text = String::from_utf8(bytes.clone()).unwrap();
        assert!(text.contains(from), "{part}");
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("part.xml"), text.replacen(from, to, 1)).unwrap();
        assert!(
            refused(folder.path()).contains("fails to validate"),
            "{part}"
        );
    }
}

/// Values of an attribute over all elements of this name.
fn attributes(text: &str, element: &str, attribute: &str) -> Vec<String> {
    let start = format!("<{element} ");
    text.split(&start)
        .skip(1)
        .filter_map(|rest| {
            let tag = rest.split('>').next()?;
            let value = format!(" {tag}")
                .split(&format!(" {attribute}=\""))
                .nth(1)?
                .to_owned();
            Some(value.split('"').next()?.to_owned())
        })
        .collect()
}

fn text(parts: &BTreeMap<String, Vec<u8>>, name: &str) -> String {
    String::from_utf8(parts[name].clone()).unwrap()
}

/// Path of a target seen from the folder of a part, without `..`.
fn resolved(folder: &str, target: &str) -> String {
    if let Some(absolute) = target.strip_prefix('/') {
        return absolute.to_owned();
    }
    let mut steps: Vec<&str> = folder.split('/').filter(|step| !step.is_empty()).collect();
    for step in target.split('/') {
        match step {
            ".." => {
                steps.pop();
            }
            _ => steps.push(step),
        }
    }
    steps.join("/")
}

#[test]
fn every_relation_leads_to_a_part_and_every_part_has_a_type() {
    for (book, bytes) in every_workbook() {
        let parts = parts(&bytes);
        let types = text(&parts, "[Content_Types].xml");
        let ends = attributes(&types, "Default", "Extension");
        let named = attributes(&types, "Override", "PartName");
        for name in parts.keys().filter(|name| *name != "[Content_Types].xml") {
            let has_end = ends.iter().any(|end| name.ends_with(&format!(".{end}")));
            assert!(
                has_end || named.contains(&format!("/{name}")),
                "{book}: {name}"
            );
            let Some((folder, _)) = name.split_once("_rels/") else {
                continue;
            };
            let relations = text(&parts, name);
            for relation in relations.split("<Relationship ").skip(1) {
                let tag = format!("<Relationship {relation}");
                let target = attributes(&tag, "Relationship", "Target").remove(0);
                if relation
                    .split('>')
                    .next()
                    .unwrap()
                    .contains("TargetMode=\"External\"")
                {
                    panic!("{book}: {name} leads outside, to {target}");
                }
                let path = resolved(folder, &target);
                assert!(parts.contains_key(&path), "{book}: {name} leads to {path}");
            }
        }
    }
}

/// Columns and rows of `A4:M85`, both ends counted.
fn area(reference: &str) -> [u32; 4] {
    let (from, to) = reference.split_once(':').unwrap();
    let corner = |cell: &str| {
        let letters: String = cell.chars().take_while(char::is_ascii_alphabetic).collect();
        let column = letters
            .bytes()
            .fold(0, |sum, b| sum * 26 + u32::from(b - b'A' + 1));
        (column, cell[letters.len()..].parse::<u32>().unwrap())
    };
    let ((left, top), (right, bottom)) = (corner(from), corner(to));
    [left, top, right, bottom]
}

#[test]
fn names_tables_and_texts_stay_within_the_limits_of_the_format() {
    for (book, bytes) in every_workbook() {
        let parts = parts(&bytes);
        let names = attributes(&text(&parts, "xl/workbook.xml"), "sheet", "name");
        assert!(!names.is_empty(), "{book}");
        let mut taken = BTreeSet::new();
        for name in &names {
            // ECMA-376 part 4 leaves the length open; 31 is what spreadsheet programs take (from memory).
            assert!(
                name.encode_utf16().count() <= 31 + 4 * name.matches('&').count(),
                "{book}: {name}"
            );
            assert!(taken.insert(name.to_lowercase()), "{book}: {name} twice");
        }
        if let Some(bytes) = parts.get("xl/sharedStrings.xml") {
            let strings = String::from_utf8(bytes.clone()).unwrap();
            for string in strings.split("</si>") {
                let words = string.rsplit('>').nth(1).unwrap_or_default();
                let plain = words
                    .replace("&amp;", "&")
                    .replace("&lt;", "<")
                    .replace("&gt;", ">");
                assert!(
                    plain.encode_utf16().count() <= 32_767 + 6,
                    "{book}: {}",
                    plain.len()
                );
            }
        }
        check_tables(&book, &parts);
    }
}

fn check_tables(book: &str, parts: &BTreeMap<String, Vec<u8>>) {
    let mut names = BTreeSet::new();
    let mut ids = BTreeSet::new();
    for relations in parts
        .keys()
        .filter(|name| name.starts_with("xl/worksheets/_rels/"))
    {
        let mut areas: Vec<[u32; 4]> = Vec::new();
        for target in attributes(&text(parts, relations), "Relationship", "Target") {
            let path = resolved("xl/worksheets/", &target);
            if !path.starts_with("xl/tables/") {
                continue;
            }
            let table = text(parts, &path);
            let one = |attribute| attributes(&table, "table", attribute).remove(0);
            assert!(
                names.insert(one("displayName").to_lowercase()),
                "{book}: {path}"
            );
            assert!(ids.insert(one("id")), "{book}: {path}");
            let mut headers = BTreeSet::new();
            for header in attributes(&table, "tableColumn", "name") {
                assert!(
                    headers.insert(header.to_lowercase()),
                    "{book}: {header} twice in {path}"
                );
            }
            let [left, top, right, bottom] = area(&one("ref"));
            assert_eq!((right - left + 1) as usize, headers.len(), "{book}: {path}");
            for [l, t, r, b] in &areas {
                let is_apart = right < *l || *r < left || bottom < *t || *b < top;
                assert!(is_apart, "{book}: {path} overlaps");
            }
            areas.push([left, top, right, bottom]);
        }
    }
}

#[test]
fn what_the_cover_says_on_two_lines_is_no_link_and_its_detail_is() {
    // LibreOffice Calc 7.4 prints a linked text on one line and cuts it at the next cell, whatever the cell says of wrapping.
    let long = "Judge BRG-0331: if its machine went down now, it would save 205,691.42 EUR and 541.3 production hours on average";
    for (text, detail, linked) in [
        (
            "Judge BRG-0331",
            "not planned before a person approves it",
            Some("A7"),
        ),
        (long, "not planned before a person approves it", Some("D7")),
        (long, "", None),
        (long, long, None),
    ] {
        let mut report = super::sample::report();
        let sheet = report.sheets[0].key.clone();
        report.cover.actions = vec![sparewright::report::model::Action {
            text: text.to_owned(),
            detail: detail.to_owned(),
            sheet: Some(sheet),
        }];
        let book = sparewright::report::workbook_of(&report).unwrap();
        let cover = self::text(&parts(&book), "xl/worksheets/sheet1.xml");
        let links = attributes(&cover, "hyperlink", "ref");
        let of_action: Vec<&str> = links
            .iter()
            .map(String::as_str)
            .filter(|link| ["A7", "D7"].contains(link))
            .collect();
        assert_eq!(of_action, Vec::from_iter(linked), "{text} / {detail}");
    }
}

#[test]
fn areas_are_read_as_they_are_written() {
    assert_eq!(area("A4:M85"), [1, 4, 13, 85]);
    assert_eq!(area("AA1:AB2"), [27, 1, 28, 2]);
    assert_eq!(
        resolved("xl/worksheets/", "../tables/table1.xml"),
        "xl/tables/table1.xml"
    );
}

#[test]
fn the_line_of_a_chart_ends_before_the_point_that_stands_by_itself() {
    let mut found = 0;
    for (name, book) in every_workbook() {
        for (part, bytes) in parts(&book) {
            let text = String::from_utf8_lossy(&bytes).into_owned();
            if !part.starts_with("xl/charts/") || !text.contains("<c:scatterChart>") {
                continue;
            }
            // `'What service costs'!$B$40:$B$53`: the rows that each series takes its figures from.
            let row = |cell: &str| -> u32 { cell.rsplit('$').next().unwrap().parse().unwrap() };
            let ranges = text.split("<c:f>").skip(1).map(|rest| {
                let range = rest.split('<').next().unwrap();
                let cells = range.rsplit('!').next().unwrap();
                let (first, last) = cells.split_once(':').unwrap_or((cells, cells));
                (row(first), row(last))
            });
            let ranges: Vec<(u32, u32)> = ranges.collect();
            // Across and up of the line, then of the point.
            let [line, up, point, point_up] = ranges[..] else {
                panic!("{name}: {part} has the ranges {ranges:?}");
            };
            assert_eq!((line, point), (up, point_up), "{name}: {part}");
            assert_eq!(point, (line.1 + 1, line.1 + 1), "{name}: {part}");
            found += 1;
        }
    }
    assert!(found > 0);
}
