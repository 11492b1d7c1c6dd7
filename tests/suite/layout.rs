//! The layout of the crate: homes of outside crates, direction of imports, forgotten test modules.

mod family_names;
mod sizes;

use std::fs;
use std::path::{Path, PathBuf};

/// Crates with one home, and where that is, relative to `src`.
const HOMES: [(&str, &[&str]); 29] = [
    ("aho_corasick", &["language/messages.rs"]),
    ("calamine", &["import/workbook"]),
    ("rust_xlsxwriter", &["report/xlsx"]),
    ("clap", &["cli/args/"]),
    ("clap_complete", &["cli/args/"]),
    ("clap_mangen", &["cli/args/"]),
    ("polars", &["catalogue/frame", "store/parquet.rs"]),
    ("sha2", &["digest.rs"]),
    ("comfy_table", &["cli/output.rs"]),
    ("terminal_size", &["cli/output.rs"]),
    ("encoding_rs", &["import/text_table.rs"]),
    ("toml", &["record/settings"]),
    ("chrono_tz", &["record/time_zone.rs"]),
    ("indicatif", &["cli/progress.rs"]),
    ("signal_hook", &["cli/interrupt.rs"]),
    ("mimalloc", &["main.rs"]),
    ("foldhash", &["import/row/memo.rs", "quick_map.rs"]),
    ("rayon", &["parallel.rs"]),
    ("rand_distr", &["plan/year/dice.rs"]),
    ("rand_pcg", &["plan/year/dice.rs"]),
    ("zip", &["import/zip_parts.rs"]),
    ("axum", &["web/"]),
    ("tokio", &["web/"]),
    ("tower_http", &["web/"]),
    ("getrandom", &["web/key.rs"]),
    ("maud", &["report/html/", "report/drawing/", "web/page/"]),
    ("hyper_util", &["web/wire.rs"]),
    ("qrcode", &["web/address.rs"]),
    ("svg", &["report/drawing/"]),
];

/// Folders and files of `src` in their order: each may use only those before it.
const ORDER: [&str; 22] = [
    "caution",
    "language",
    "digest",
    "parallel",
    "quick_map",
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
    "cli",
];

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

/// Modules of the crate that a code names: `crate::part::Family` one, `crate::{part, units::Length}` two.
fn used_modules(code: &str) -> Vec<String> {
    let name = |text: &str| -> String {
        let is_of_name = |sign: &char| sign.is_alphanumeric() || *sign == '_';
        text.trim_start().chars().take_while(is_of_name).collect()
    };
    let mut used = Vec::new();
    for (at, path) in code.match_indices("crate::") {
        let rest = &code[at + path.len()..];
        let Some(group) = rest.strip_prefix('{') else {
            used.push(name(rest));
            continue;
        };
        let mut depth = 1;
        used.push(name(group));
        for (at, sign) in group.char_indices() {
            match sign {
                '{' => depth += 1,
                '}' => depth -= 1,
                ',' if depth == 1 => used.push(name(&group[at + 1..])),
                _ => {}
            }
            if depth == 0 {
                break;
            }
        }
    }
    used
}

#[test]
fn every_way_to_name_a_module_is_seen() {
    assert_eq!(used_modules("crate::cli::run()"), ["cli"]);
    assert_eq!(
        used_modules("use crate::{part::{Family, Size}, units};\nuse crate::web;"),
        ["part", "units", "web"]
    );
}

#[test]
fn imports_point_one_way() {
    let rank = |module: &str| ORDER.iter().position(|name| *name == module);
    let mut wrong = Vec::new();
    for path in sources(&root().join("src")) {
        let name = below_src(&path);
        let module = name.split(['/', '.']).next().unwrap_or_default().to_owned();
        let Some(own) = rank(&module) else { continue };
        for used in used_modules(&code(&path)) {
            if rank(&used).is_some_and(|other| other > own) {
                wrong.push(format!("{name} uses {used}, which comes after {module}"));
            }
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

#[test]
fn the_order_is_the_list_of_the_crate_and_holds_every_module() {
    let lib = fs::read_to_string(root().join("src/lib.rs")).unwrap();
    let mut listed = Vec::new();
    let head = lib.lines().take_while(|line| line.starts_with("//!"));
    for name in head.flat_map(|line| line.split('`').skip(1).step_by(2)) {
        if ORDER.contains(&name) && !listed.contains(&name) {
            listed.push(name);
        }
    }
    assert_eq!(listed, ORDER, "the list at the head of src/lib.rs");
    let mut modules: Vec<&str> = (lib.lines())
        .filter_map(|line| line.trim_start_matches("pub ").strip_prefix("mod "))
        .filter_map(|line| line.strip_suffix(';'))
        .collect();
    modules.sort_unstable();
    let mut order = ORDER;
    order.sort_unstable();
    assert_eq!(modules, order, "the modules that src/lib.rs declares");
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

/// Every file and folder of the repository that is kept by hand.
fn kept_paths() -> Vec<String> {
    fn walk(folder: &Path, into: &mut Vec<String>) {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.strip_prefix(root()).unwrap().to_string_lossy();
            into.push(name.replace('\\', "/"));
            if path.is_dir() && !name.ends_with("target") && !name.ends_with("node_modules") {
                walk(&path, into);
            }
        }
    }
    let mut all = vec!["Cargo.toml".to_owned()];
    for top in ["src", "data", "tests", ".ci", "reports"] {
        all.push(top.to_owned());
        walk(&root().join(top), &mut all);
    }
    all
}

/// Texts between back-ticks, those of blocks of code left out.
fn named_in(text: &str) -> Vec<&str> {
    let mut named = Vec::new();
    for line in text.lines().filter(|line| !line.starts_with("    ")) {
        named.extend(line.split('`').skip(1).step_by(2));
    }
    named
}

#[test]
fn files_that_the_documents_name_are_there() {
    let paths = kept_paths();
    let made_by_runs = ["reports/benchmarks.md"];
    let mut missing = Vec::new();
    let mut looked_at = 0;
    for document in ["DEVELOPERS.md", "README.md"] {
        let text = fs::read_to_string(root().join(document)).unwrap();
        for name in named_in(&text) {
            let is_path = name.contains(".rs")
                || [".csv", ".tsv", ".py", ".md"]
                    .iter()
                    .any(|end| name.ends_with(end))
                    && name.contains('/');
            let is_plain = !name.contains([' ', '<', '*', '{', ':', '(']);
            if !is_path || !is_plain || made_by_runs.contains(&name) {
                continue;
            }
            looked_at += 1;
            let ending = format!("/{name}");
            if !paths
                .iter()
                .any(|path| path == name || path.ends_with(&ending))
            {
                missing.push(format!("{document}: {name}"));
            }
        }
    }
    assert_eq!(missing, Vec::<String>::new());
    assert!(looked_at > 40, "{looked_at} names looked at");
}

#[test]
fn the_map_lists_every_module_and_only_those() {
    let text = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let map = text.split("\n## ").nth(1).unwrap();
    let listed: Vec<&str> = (map.lines())
        .filter_map(|line| line.strip_prefix("    src/"))
        .filter_map(|line| line.split_whitespace().next())
        .collect();
    let lost: Vec<&&str> = (listed.iter())
        .filter(|name| !root().join("src").join(name).exists())
        .collect();
    assert_eq!(lost, Vec::<&&str>::new(), "in the map and not in src");
    let lib = fs::read_to_string(root().join("src/lib.rs")).unwrap();
    for module in lib.lines().filter_map(|line| {
        line.trim_start_matches("pub ")
            .strip_prefix("mod ")?
            .strip_suffix(';')
    }) {
        let is_listed = listed
            .iter()
            .any(|name| *name == format!("{module}.rs") || name.starts_with(&format!("{module}/")));
        let is_named = map.contains(&format!("{module}.rs"));
        assert!(is_listed || is_named, "src/{module} is not in the map");
    }
}

#[test]
fn the_way_of_one_row_names_functions_that_there_are() {
    let text = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let way = text
        .split("\n## ")
        .find(|part| part.starts_with("The way of one row"))
        .unwrap();
    let code: Vec<(String, String)> = (sources(&root().join("src")).iter())
        .map(|path| (below_src(path), code(path)))
        .collect();
    let words = named_in(way).into_iter().filter(|name| {
        name.chars()
            .all(|sign| sign.is_ascii_alphanumeric() || "_:".contains(sign))
            && !name.contains("VK")
    });
    let mut looked_at = 0;
    for name in words {
        looked_at += 1;
        let last = name.rsplit("::").next().unwrap();
        let is_module = code.iter().any(|(path, _)| {
            path.ends_with(&format!("/{last}.rs")) || path.contains(&format!("{last}/"))
        });
        let is_item = code.iter().any(|(_, text)| {
            ["fn ", "struct ", "const ", "static "]
                .iter()
                .any(|kind| text.contains(&format!("{kind}{last}")))
        });
        assert!(is_module || is_item, "{name} is nowhere in src");
    }
    assert!(looked_at > 15, "{looked_at} names looked at");
}
