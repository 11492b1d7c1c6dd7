//! Long files and functions of `src`: all of them are listed, so that a new one is seen in the difference.

use std::fs;

use super::{below_src, root, sources};

/// Lines above which a file is listed, and above which none may be.
const LONG_FILE: usize = 500;
const LONGEST_FILE: usize = 800;

/// Lines above which a function is listed, blank lines and comments not counted, and above which none may be.
const LONG_FUNCTION: usize = 80;
const LONGEST_FUNCTION: usize = 120;

/// Name and length of every function of a code as rustfmt lays it out, up to its unit tests.
fn functions(code: &str) -> Vec<(&str, usize)> {
    let lines: Vec<&str> = code.lines().collect();
    let ends = |line: &&str| line.starts_with("mod tests {");
    let lines = &lines[..lines.iter().position(ends).unwrap_or(lines.len())];
    let mut found = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        let Some(name) = name_of_function(line) else {
            continue;
        };
        let indent = &line[..line.len() - line.trim_start().len()];
        let last = lines[at..].iter().position(|line| {
            let own = line
                .strip_prefix(indent)
                .filter(|rest| !rest.starts_with(' '));
            own.is_some_and(|rest| rest == "}" || rest.ends_with([';', '}']))
        });
        let body = &lines[at..=at + last.unwrap_or(0)];
        let counts = |line: &&&str| !line.trim().is_empty() && !line.trim().starts_with("//");
        found.push((name, body.iter().filter(counts).count()));
    }
    found
}

/// The name where a function begins in this line.
fn name_of_function(line: &str) -> Option<&str> {
    let mut words = line.split_whitespace();
    // `pub(in crate::plan)` is two words.
    let is_before = |word: &&str| {
        let is_kind = ["const", "async", "unsafe"].contains(word);
        is_kind || word.starts_with("pub") || word.ends_with(')')
    };
    if words.find(|word| !is_before(word))? != "fn" {
        return None;
    }
    words.next()?.split(['(', '<']).next()
}

/// Code of `src` that is no test.
pub(super) fn codes() -> Vec<(String, String)> {
    let files = sources(&root().join("src")).into_iter();
    files
        .map(|path| (below_src(&path), fs::read_to_string(&path).unwrap()))
        .filter(|(name, _)| !name.ends_with("tests.rs") && !name.contains("/tests/"))
        .collect()
}

#[test]
fn no_file_is_longer_than_the_limit() {
    let files = sources(&root().join("src"))
        .into_iter()
        .chain(sources(&root().join("tests/suite")));
    let long: Vec<String> = files
        .filter_map(|path| {
            let lines = fs::read_to_string(&path).unwrap().lines().count();
            (lines > LONGEST_FILE).then(|| format!("{}: {lines} lines", path.display()))
        })
        .collect();
    assert_eq!(long, Vec::<String>::new());
}

#[test]
fn long_files_and_functions_are_those_of_the_list() {
    let mut listed = String::new();
    let mut functions_seen = 0;
    for (name, code) in codes() {
        if code.lines().count() > LONG_FILE {
            listed += &format!("{name}\n");
        }
        for (function, lines) in functions(&code) {
            functions_seen += 1;
            assert!(
                lines <= LONGEST_FUNCTION,
                "{name}, {function}: {lines} lines"
            );
            if lines > LONG_FUNCTION {
                listed += &format!("{name}: fn {function}\n");
            }
        }
    }
    assert!(functions_seen > 3000, "{functions_seen} functions seen");
    let path = root().join("tests/golden/long_code.txt");
    if std::env::var_os("SPAREWRIGHT_UPDATE_GOLDEN").is_some() {
        fs::write(&path, &listed).unwrap();
    }
    assert_eq!(
        listed,
        fs::read_to_string(&path).unwrap_or_default(),
        "take apart what is new in the list, or write it anew with SPAREWRIGHT_UPDATE_GOLDEN=1"
    );
}

#[test]
fn lines_of_a_function_are_counted_without_blanks_and_comments() {
    let code = "\
impl Part {
    /// Says it.
    pub(super) const fn said(
        &self,
    ) -> u8 {
        // One.

        match self.size {
            0 => 1,
            _ => 2,
        }
    }

    fn one<T>(&self) -> T {}
}
trait Said {
    fn asked(&self) -> u8;
}
fn last() {
    one();
}

#[cfg(test)]
mod tests {
    fn not_counted() {}
}
";
    assert_eq!(
        functions(code),
        [("said", 8), ("one", 1), ("asked", 1), ("last", 3)]
    );
}
