//! The layout of the crate: homes of outside crates, direction of imports, forgotten test modules.

use std::fs;
use std::path::{Path, PathBuf};

/// Crates with one home, and where that is, relative to `src`.
const HOMES: [(&str, &[&str]); 23] = [
    ("aho_corasick", &["language/messages.rs"]),
    ("calamine", &["import/workbook"]),
    ("rust_xlsxwriter", &["report/xlsx"]),
    ("clap", &["cli/args/"]),
    ("clap_complete", &["cli/args/"]),
    ("clap_mangen", &["cli/args/"]),
    ("polars", &["catalogue/frame.rs", "store/parquet.rs"]),
    ("sha2", &["digest.rs"]),
    ("comfy_table", &["cli/output.rs"]),
    ("chrono_tz", &["record/time_zone.rs"]),
    ("indicatif", &["cli/progress.rs"]),
    ("signal_hook", &["cli/interrupt.rs"]),
    ("mimalloc", &["main.rs"]),
    ("foldhash", &["import/row/memo.rs"]),
    ("rayon", &["parallel.rs"]),
    ("rand_distr", &["plan/year/dice.rs"]),
    ("rand_pcg", &["plan/year/dice.rs"]),
    ("zip", &["import/zip_parts.rs"]),
    ("axum", &["web/"]),
    ("tokio", &["web/"]),
    ("hyper_util", &["web/wire.rs"]),
    ("qrcode", &["web/address.rs"]),
    ("svg", &["report/drawing/"]),
];

/// Folders and files of `src` in their order: each may use only those before it.
const ORDER: [&str; 20] = [
    "caution",
    "language",
    "digest",
    "parallel",
    "place",
    "units",
    "part",
    "standard",
    "limit",
    "engineering",
    "record",
    "import",
    "store",
    "catalogue",
    "interchange",
    "lookup",
    "plan",
    "report",
    "job",
    "web",
];

/// What a module may use although it comes later, with the reason.
const EXCEPTIONS: [(&str, &str); 0] = [];

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files.extend(sources(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            files.push(path);
        }
    }
    files.sort();
    files
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Path below `src`, with forward strokes.
fn below_src(path: &Path) -> String {
    path.strip_prefix(root().join("src"))
        .unwrap()
        .to_string_lossy()
        .replace('\\', "/")
}

/// Lines of code, without comments.
fn code(path: &Path) -> String {
    let text = fs::read_to_string(path).unwrap();
    text.lines()
        .filter(|line| !line.trim_start().starts_with("//"))
        .collect::<Vec<_>>()
        .join("\n")
}

#[test]
fn every_outside_crate_with_a_home_stays_there() {
    let mut strays = Vec::new();
    for path in sources(&root().join("src")) {
        let name = below_src(&path);
        let text = code(&path);
        for (outside, homes) in HOMES {
            let is_home = homes.iter().any(|home| name.starts_with(home));
            if !is_home
                && (text.contains(&format!("{outside}::"))
                    || text.contains(&format!("use {outside};")))
            {
                strays.push(format!("{name} uses {outside}, whose home is {homes:?}"));
            }
        }
    }
    assert_eq!(strays, Vec::<String>::new());
}

#[test]
fn imports_point_one_way() {
    let rank = |module: &str| ORDER.iter().position(|name| *name == module);
    let mut wrong = Vec::new();
    for path in sources(&root().join("src")) {
        let name = below_src(&path);
        let module = name.split(['/', '.']).next().unwrap_or_default().to_owned();
        let Some(own) = rank(&module) else { continue };
        for (at, _) in code(&path).match_indices("crate::") {
            let text = code(&path);
            let used: String = text[at + 7..]
                .chars()
                .take_while(|c| c.is_alphanumeric() || *c == '_')
                .collect();
            let is_excused = EXCEPTIONS.contains(&(module.as_str(), used.as_str()));
            if rank(&used).is_some_and(|other| other > own) && !is_excused {
                wrong.push(format!("{name} uses {used}, which comes after {module}"));
            }
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

#[test]
fn every_module_of_the_suite_is_named_in_its_main() {
    let folder = root().join("tests/suite");
    let main = fs::read_to_string(folder.join("main.rs")).unwrap();
    for entry in fs::read_dir(folder).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        let module = name.trim_end_matches(".rs");
        assert!(
            module == "main" || main.contains(&format!("mod {module};")),
            "tests/suite/{name} is not in main.rs"
        );
    }
}

#[test]
fn no_source_file_is_longer_than_the_limit() {
    const LIMIT: usize = 800;
    let files = sources(&root().join("src"))
        .into_iter()
        .chain(sources(&root().join("tests/suite")));
    let long: Vec<String> = files
        .filter_map(|path| {
            let lines = fs::read_to_string(&path).unwrap().lines().count();
            (lines > LIMIT).then(|| format!("{}: {lines} lines", path.display()))
        })
        .collect();
    assert_eq!(long, Vec::<String>::new());
}
