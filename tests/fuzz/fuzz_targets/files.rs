//! Any bytes as a file of each kind: records, issues or a typed error, never a panic or unbounded memory.
#![no_main]

use std::fs;

use libfuzzer_sys::fuzz_target;
use sparewright::import::read_folder;

fuzz_target!(|bytes: &[u8]| {
    // The first byte chooses the ending, so that one corpus serves every kind of file.
    let Some((kind, body)) = bytes.split_first() else { return };
    let endings = ["csv", "tsv", "xlsx", "xls", "ods", "xlsb", "toml"];
    let ending = endings[usize::from(*kind) % endings.len()];
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    fs::write(folder.path().join(format!("input.{ending}")), body).expect("the folder can be written");
    let _ = read_folder(folder.path());
});
