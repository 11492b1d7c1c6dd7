//! Any bytes as a file of each kind: records, issues or a typed error, never a panic or unbounded memory.
#![no_main]

use std::fs;
use std::panic;
use std::process::abort;
use std::sync::Once;

use libfuzzer_sys::fuzz_target;
use sparewright::import::read_folder;

/// A panic of the workbook reader is held back by the import and is no finding; one of ours is.
fn tell_foreign_panics_apart() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        panic::set_hook(Box::new(|info| {
            let is_foreign = info.location().is_some_and(|place| {
                !place.file().contains("sparewright") && place.file().contains("registry")
            });
            if !is_foreign {
                eprintln!("{info}");
                abort();
            }
        }));
    });
}

fuzz_target!(|bytes: &[u8]| {
    tell_foreign_panics_apart();
    // The first byte chooses the ending, so that one corpus serves every kind of file.
    let Some((kind, body)) = bytes.split_first() else {
        return;
    };
    let endings = ["csv", "tsv", "xlsx", "xls", "ods", "xlsb", "toml"];
    let ending = endings[usize::from(*kind) % endings.len()];
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    fs::write(folder.path().join(format!("input.{ending}")), body)
        .expect("the folder can be written");
    let _ = read_folder(folder.path());
});
