//! The built program on the small shop, in a folder that goes with the test.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::sheets::SmallShop;

/// The moment the small shop is planned for.
pub const AS_OF: &str = "2026-11-26T08:00";

/// A folder with the small shop in `shop` below it.
pub struct Bench {
    folder: tempfile::TempDir,
}

/// How a command ended and what it said.
pub struct Said {
    pub code: i32,
    pub out: String,
    pub errors: String,
}

impl Bench {
    pub fn new() -> Self {
        Self::of(&SmallShop::new())
    }

    pub fn of(shop: &SmallShop) -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::create_dir(folder.path().join("shop")).unwrap();
        shop.write(&folder.path().join("shop"));
        Self { folder }
    }

    pub fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Writes a file below the folder.
    pub fn write(&self, name: &str, text: &str) -> PathBuf {
        let path = self.path().join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, text).unwrap();
        path
    }

    /// Runs the program in the folder.
    pub fn run(&self, arguments: &[&str]) -> Said {
        let output = Command::new(env!("CARGO_BIN_EXE_sparewright"))
            .args(arguments)
            .current_dir(self.path())
            .env("COLUMNS", "400")
            .output()
            .unwrap();
        let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
        let said = Said {
            code: output.status.code().unwrap(),
            out: text(&output.stdout),
            errors: text(&output.stderr),
        };
        assert!(
            !said.errors.contains("panicked"),
            "{arguments:?}: {}",
            said.errors
        );
        said
    }

    /// What a command that must succeed prints.
    pub fn said(&self, arguments: &[&str]) -> String {
        let said = self.run(arguments);
        assert_eq!(said.code, 0, "{arguments:?}: {}", said.errors);
        said.out
    }

    /// The same as JSON.
    pub fn json(&self, arguments: &[&str]) -> serde_json::Value {
        let text = self.said(&[arguments, &["--format", "json"]].concat());
        serde_json::from_str(&text).unwrap_or_else(|error| panic!("{arguments:?}: {error}\n{text}"))
    }

    /// What a wrong command is told; nothing may stand on stdout.
    pub fn refused(&self, arguments: &[&str], code: i32) -> String {
        let said = self.run(arguments);
        assert_eq!(
            said.code, code,
            "{arguments:?}: {}{}",
            said.out, said.errors
        );
        assert_eq!(said.out, "", "{arguments:?}");
        assert!(
            said.errors.starts_with("error: "),
            "{arguments:?}: {}",
            said.errors
        );
        said.errors
    }
}

#[test]
fn the_bench_tells_success_from_refusal() {
    let bench = Bench::new();
    assert!(bench.said(&["--version"]).starts_with("sparewright "));
    assert!(bench.refused(&["levels"], 2).contains("--shop"));
    assert!(bench.path().join("shop/parts.csv").is_file());
}
