//! Names of families in code: what differs by family is a fact in its file, so that each place that names one is listed.

use std::fs;

use sparewright::part::Family;

use super::root;
use super::sizes::codes;

/// Where families are described and their designations read.
const HOMES: [&str; 2] = ["part/family/", "part/designation/"];

/// How often a code names a family, comments and unit tests left out: `Family::LipSeal`, `F::LipSeal`, or `LipSeal` alone.
fn names(code: &str, families: &[String]) -> usize {
    let lines = code.lines();
    lines
        .take_while(|line| !line.starts_with("mod tests {"))
        .filter(|line| !line.trim_start().starts_with("//"))
        .map(|line| names_in(line, families))
        .sum()
}

fn names_in(line: &str, families: &[String]) -> usize {
    let is_letter = |c: char| c.is_alphanumeric() || c == '_';
    let mut count = 0;
    let mut path: [&str; 2] = ["", ""];
    let mut rest = line;
    while !rest.is_empty() {
        let end = rest.find(|c| !is_letter(c)).unwrap_or(rest.len());
        let (word, behind) = rest.split_at(end);
        // Behind another name and `::` it is a variant of something else.
        let is_of_families = match path {
            [of, "::"] => ["Family", "F"].contains(&of),
            _ => true,
        };
        count += usize::from(is_of_families && families.iter().any(|name| name == word));
        let next = behind.find(is_letter).unwrap_or(behind.len());
        let (between, after) = behind.split_at(next);
        path = [word, between];
        rest = after;
    }
    count
}

fn families() -> Vec<String> {
    let names = Family::ALL.iter().map(|family| format!("{family:?}"));
    names.collect()
}

#[test]
fn names_of_families_are_those_of_the_list() {
    let families = families();
    let mut listed = String::new();
    for (file, code) in codes() {
        let count = names(&code, &families);
        if count > 0 && !HOMES.iter().any(|home| file.starts_with(home)) {
            listed += &format!("{file}: {count}\n");
        }
    }
    let path = root().join("tests/golden/family_names.txt");
    if std::env::var_os("SPAREWRIGHT_UPDATE_GOLDEN").is_some() {
        fs::write(&path, &listed).unwrap();
    }
    assert_eq!(
        listed,
        fs::read_to_string(&path).unwrap_or_default(),
        "make what is new in the list a fact in part/family, or write it anew with SPAREWRIGHT_UPDATE_GOLDEN=1"
    );
}

/// A code is for machine output: who asks it what a family is names one behind the back of the list.
#[test]
fn no_code_of_a_family_is_asked_for_a_piece_of_it() {
    for (file, code) in codes() {
        let asked = [
            ".code().starts_with(\"",
            ".code().contains(\"",
            ".code() == \"",
        ];
        let found = asked.into_iter().find(|one| code.contains(one));
        assert_eq!(found, None, "{file}");
    }
}

#[test]
fn a_family_is_seen_however_it_is_named() {
    let code = "\
/// [`Family::LipSeal`]
use crate::part::Family::{self, ORing};
fn say(family: Family) -> bool {
    // Family::ORing
    matches!(family, Family::LipSeal | F::ORing | ORing) || Seen::LipSeal == of(LipSealed)
}
mod tests {
    const OF: Family = Family::ORing;
}
";
    assert_eq!(names(code, &families()), 4);
    assert_eq!(names("", &families()), 0);
}
