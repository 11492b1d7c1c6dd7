//! The purchase requests of a run: one workbook per supplier to send, and none left from an earlier run.
//!
//! A list beside them names what was written, each with its sum. Only what stands in that list and is still as it was
//! written is taken away; a request that somebody changed, or a file of the shop's with such a name, stays.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::Path;

use super::exit::ExitCode;
use super::output;
use super::refusal::Refusal;
use crate::digest::sha256;
use crate::language::Language;
use crate::report::content::{Inputs, purchase_requests};
use crate::report::{translated, workbook_to_send_of};

/// Folder of the requests below the reports.
const FOLDER: &str = "requests";
/// The list of what was written: a sum and a name a line, as `sha256sum --check` reads it.
const LIST: &str = "written.sha256";

/// Writes the requests below `out`, in the language of the report.
pub fn write(inputs: &Inputs<'_>, language: Language, out: &Path) -> Result<(), ExitCode> {
    let folder = out.join(FOLDER);
    let mut files = BTreeMap::new();
    for request in purchase_requests(inputs) {
        let bytes =
            workbook_to_send_of(&translated(request.report, language)).map_err(|error| {
                Refusal::of(&error).tell();
                ExitCode::Output
            })?;
        files.insert(format!("{}.xlsx", request.file_stem), bytes);
    }
    let kept = replace(&folder, out, &files).map_err(|error| {
        Refusal::not_written(&folder, &error).tell();
        ExitCode::Output
    })?;
    for name in kept {
        let note = language.text(&format!(
            "note: `{FOLDER}/{name}` was changed since it was written and stays, though nobody is asked for it now"
        ));
        output::note(&format!("{note}\n"));
    }
    Ok(())
}

/// Writes the files, takes away those of the last run that are not among them, and gives those that somebody changed.
fn replace(
    folder: &Path,
    out: &Path,
    files: &BTreeMap<String, Vec<u8>>,
) -> io::Result<Vec<String>> {
    fs::create_dir_all(folder)?;
    let staging = tempfile::Builder::new()
        .prefix(".requests-")
        .tempdir_in(out)?;
    let mut list = String::new();
    for (name, bytes) in files {
        fs::write(staging.path().join(name), bytes)?;
        list.push_str(&format!("{}  {name}\n", sha256(bytes)));
    }
    fs::write(staging.path().join(LIST), list)?;
    let last = fs::read_to_string(folder.join(LIST)).unwrap_or_default();
    let mut changed = Vec::new();
    for (sum, name) in last.lines().filter_map(|line| line.split_once("  ")) {
        // A list that somebody wrote could lead elsewhere.
        let is_plain = Path::new(name)
            .file_name()
            .is_some_and(|plain| plain == name);
        if files.contains_key(name) || !is_plain {
            continue;
        }
        match fs::read(folder.join(name)) {
            Ok(bytes) if sha256(&bytes) == sum => fs::remove_file(folder.join(name))?,
            Ok(_) => changed.push(name.to_owned()),
            Err(_) => {}
        }
    }
    for name in files.keys().map(String::as_str).chain([LIST]) {
        fs::rename(staging.path().join(name), folder.join(name))?;
    }
    Ok(changed)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files(names: &[&str]) -> BTreeMap<String, Vec<u8>> {
        names
            .iter()
            .map(|name| ((*name).to_owned(), name.as_bytes().to_vec()))
            .collect()
    }

    #[test]
    fn only_what_was_written_and_is_unchanged_is_taken_away() {
        let out = tempfile::tempdir().unwrap();
        let folder = out.path().join(FOLDER);
        let first = files(&["request_a.xlsx", "request_b.xlsx", "request_c.xlsx"]);
        assert!(replace(&folder, out.path(), &first).unwrap().is_empty());
        // One is changed by the buyer, one has the shop's own hands on its name.
        fs::write(folder.join("request_b.xlsx"), "with a remark").unwrap();
        fs::write(folder.join("request_own.xlsx"), "the shop's").unwrap();
        let kept = replace(&folder, out.path(), &files(&["request_a.xlsx"])).unwrap();
        assert_eq!(kept, ["request_b.xlsx"]);
        let is_there = |name: &str| folder.join(name).exists();
        assert!(is_there("request_a.xlsx") && is_there("request_b.xlsx"));
        assert!(is_there("request_own.xlsx") && !is_there("request_c.xlsx"));
        // The list is of this run only: what was given up on is not looked at again.
        assert!(
            replace(&folder, out.path(), &files(&[]))
                .unwrap()
                .is_empty()
        );
        assert!(!is_there("request_a.xlsx") && is_there("request_b.xlsx"));
    }

    #[test]
    fn a_list_that_leads_elsewhere_takes_nothing_away() {
        let out = tempfile::tempdir().unwrap();
        let folder = out.path().join(FOLDER);
        fs::create_dir(&folder).unwrap();
        fs::write(out.path().join("prices.csv"), "prices").unwrap();
        let list = format!("{}  ../prices.csv\n", sha256(b"prices"));
        fs::write(folder.join(LIST), list).unwrap();
        assert!(
            replace(&folder, out.path(), &files(&[]))
                .unwrap()
                .is_empty()
        );
        assert!(out.path().join("prices.csv").exists());
    }
}
