//! Workspaces that the built program made of lists.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

/// The demo shop's folder.
pub fn demo() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo")
}

/// Writes lists (name and text) into the folder `lists` below `folder`, in place of those of the same name.
pub fn lists(folder: &Path, lists: &[(&str, &str)]) -> PathBuf {
    let below = folder.join("lists");
    std::fs::create_dir_all(&below).unwrap();
    for (name, text) in lists {
        std::fs::write(below.join(name), text).unwrap();
    }
    below
}

/// Takes a folder of lists into a workspace.
pub fn import(lists: &Path, workspace: &Path) -> Output {
    let done = Command::new(env!("CARGO_BIN_EXE_sparewright"))
        .arg("import")
        .arg(lists)
        .arg("--workspace")
        .arg(workspace)
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&done.stderr);
    assert!(!said.contains("panicked"), "{said}");
    done
}

/// The demo shop, imported once; for tests that only read it.
pub fn demo_workspace() -> &'static Path {
    static SHOP: OnceLock<(tempfile::TempDir, PathBuf)> = OnceLock::new();
    let (_, path) = SHOP.get_or_init(|| {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("shop");
        let done = import(&demo(), &path);
        assert!(done.status.success(), "{done:?}");
        (folder, path)
    });
    path
}
