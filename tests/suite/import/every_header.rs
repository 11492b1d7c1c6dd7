//! Every header word in every kind of table: its column is used, or told as not read.
//!
//! Words and kinds are those of `data/import`. Used means that another value gives another record or another problem: what
//! a reader of rows looks at and drops is found by that, whatever the import says of itself.

use std::collections::{BTreeMap, HashSet};
use std::sync::Arc;

use sparewright::import::{Cell, Field, GridBuilder, ImportOptions, Imported, Severity};
use sparewright::record::{Records, TableKind};

const HEADERS: &str = include_str!("../../../data/import/headers.csv");
const KINDS: &str = include_str!("../../../data/import/table_kinds.csv");
const FAMILIES: &str = include_str!("../../../data/import/family_words.csv");
/// Most fields that a row needs besides those that tell its kind.
const MOST_NEEDED: usize = 6;
/// Words of a failing field that are named.
const WORDS_NAMED: usize = 3;

/// Lines of a table of three columns.
fn lines(text: &'static str) -> impl Iterator<Item = [&'static str; 3]> {
    text.lines()
        .filter(|line| !line.starts_with('#') && !line.is_empty())
        .skip(1)
        .map(|line| {
            let mut cells = line.splitn(3, ',');
            std::array::from_fn(|_| cells.next().unwrap())
        })
}

/// Header words with their field.
fn words() -> impl Iterator<Item = (&'static str, &'static str)> {
    lines(HEADERS).flat_map(|[field, _, words]| words.split('|').map(move |word| (field, word)))
}

fn word_of(field: Field) -> &'static str {
    let mut words = words();
    words.find(|(code, _)| *code == field.code()).unwrap().1
}

/// A value that a row with this field is taken with; names differ from column to column, as a row of one text is a title.
fn sample(field: Field, column: usize) -> String {
    match field {
        Field::WayKind => "repair".to_owned(),
        Field::Outcome | Field::Approved => "approved".to_owned(),
        Field::LeadTime => "3 days".to_owned(),
        _ if field.is_date() => "2026-03-02".to_owned(),
        _ if field.is_number() => "4".to_owned(),
        _ => format!("X{column}"),
    }
}

/// Two values each of figures, words, days, yes and no, and kinds of parts.
fn pairs() -> Vec<[&'static str; 2]> {
    let mut families = lines(FAMILIES)
        .filter(|[family, ..]| *family != "-")
        .map(|[family, _, words]| (family, words.split('|').next().unwrap()));
    let (first, word) = families.next().unwrap();
    let (_, other) = families.find(|(family, _)| *family != first).unwrap();
    vec![
        ["2", "3"],
        ["2026-03-02", "2026-03-09"],
        ["alpha", "beta"],
        ["yes", "no"],
        [word, other],
    ]
}

fn import(cells: &[(&str, String)]) -> Imported {
    let mut builder = GridBuilder::new(&Arc::from("list.csv"), "");
    for (column, (header, value)) in cells.iter().enumerate() {
        builder.push(0, column as u32, Cell::Text(header)).unwrap();
        builder.push(1, column as u32, Cell::Text(value)).unwrap();
    }
    let mut imported = Imported::with_options(ImportOptions::default());
    imported.read_grid(&builder.finish().unwrap());
    imported.settle();
    imported
}

fn with_samples(fields: &[Field]) -> Vec<(&'static str, String)> {
    fields
        .iter()
        .enumerate()
        .map(|(column, field)| (word_of(*field), sample(*field, column)))
        .collect()
}

/// The fewest fields with which a row of a kind is taken: one of each group that tells the kind, and what its rows miss.
fn base_of(kind: &str) -> Vec<Field> {
    let mut fields: Vec<Field> = Vec::new();
    for [_, _, values] in lines(KINDS).filter(|[of, part, _]| *of == kind && *part == "one_of") {
        let mut group = values
            .split('|')
            .map(|code| Field::from_code(code).unwrap());
        let first = group.clone().next().unwrap();
        if !group.any(|field| fields.contains(&field)) {
            fields.push(first);
        }
    }
    for _ in 0..MOST_NEEDED {
        let imported = import(&with_samples(&fields));
        let mut rejected = imported
            .issues
            .iter()
            .filter(|issue| issue.severity == Severity::Rejected);
        match rejected.find_map(|issue| issue.field.filter(|field| !fields.contains(field))) {
            Some(missing) => fields.push(missing),
            None => break,
        }
    }
    fields
}

fn count(records: &Records) -> usize {
    records.parts.len()
        + records.suppliers.len()
        + records.offers.len()
        + records.other_ways.len()
        + records.stock.len()
        + records.usages.len()
        + records.receipts.len()
        + records.kit_lines.len()
        + records.tasks.len()
        + records.planned_rebuilds.len()
        + records.approvals.len()
        + records.machines.len()
}

/// True where a column is told as not read, its cell as not understood, or its row as not taken.
fn is_told(imported: &Imported, column: u32) -> bool {
    let mut issues = imported.issues.iter();
    is_unread(imported, column)
        || finds_fault(imported, column)
        || issues.any(|issue| issue.severity == Severity::Rejected)
}

/// True where a problem of a cell of the column is told.
fn finds_fault(imported: &Imported, column: u32) -> bool {
    let mut issues = imported.issues.iter();
    issues.any(|issue| issue.place.column == Some(column) && issue.severity != Severity::Note)
}

fn is_unread(imported: &Imported, column: u32) -> bool {
    let tables = imported.tables.iter();
    let mut unread = tables.flat_map(|table| &table.unread_columns);
    let has_none = imported.tables.is_empty() && !imported.skipped.is_empty();
    has_none || unread.any(|(at, _)| *at == column)
}

/// What a column was taken for, in tables of which kinds.
type Taken = (Vec<TableKind>, Vec<Field>);

fn taken(imported: &Imported, column: u32) -> Taken {
    let columns = imported.tables.iter().flat_map(|table| &table.columns);
    let fields = columns
        .filter(|read| read.column == column)
        .map(|read| read.field);
    let kinds = imported.tables.iter().map(|table| table.kind);
    (kinds.collect(), fields.collect())
}

/// First values of the pairs that make no difference although nothing is told; empty where the column is used or told, or was
/// taken for the same as that of an earlier word.
fn dropped(
    base: &[Field],
    field: &str,
    word: &str,
    tried: &mut HashSet<Taken>,
) -> Vec<&'static str> {
    let mut cells = with_samples(base);
    let at = match base.iter().position(|of| of.code() == field) {
        Some(at) => at,
        None => {
            cells.push((word, String::new()));
            cells.len() - 1
        }
    };
    let column = at as u32;
    cells[at].0 = word;
    let mut of_value = |value: &str| {
        cells[at].1 = value.to_owned();
        import(&cells)
    };
    let mut silent = Vec::new();
    let (mut is_used, mut is_checked) = (false, false);
    for [one, other] in pairs() {
        let first = of_value(one);
        if one == "2" && (is_unread(&first, column) || !tried.insert(taken(&first, column))) {
            return Vec::new();
        }
        let second = of_value(other);
        // A column that finds fault with words reads figures and days, and drops none of them.
        is_checked |= one == "alpha" && finds_fault(&first, column);
        if is_told(&first, column) || is_told(&second, column) {
            is_used = true;
            continue;
        }
        if first.records == second.records && first.issues == second.issues {
            silent.push(one);
        } else {
            is_used = true;
        }
    }
    let are_figures = silent.iter().any(|one| one.starts_with('2'));
    if is_used && !(is_checked && are_figures) {
        silent.clear();
    }
    silent
}

#[test]
fn the_smallest_table_of_each_kind_is_read_as_that_kind() {
    for kind in TableKind::ALL {
        let code = serde_json::to_value(kind).unwrap();
        let base = base_of(code.as_str().unwrap());
        let imported = import(&with_samples(&base));
        let kinds: Vec<TableKind> = imported.tables.iter().map(|table| table.kind).collect();
        assert_eq!(kinds, [kind], "{base:?}");
        assert_eq!(
            count(&imported.records),
            1,
            "{base:?}: {:?}",
            imported.issues
        );
        assert!(imported.tables[0].unread_columns.is_empty(), "{base:?}");
    }
}

#[test]
fn every_header_word_is_used_or_told_in_every_kind_of_table() {
    let of_kind = |kind: TableKind| {
        let code = serde_json::to_value(kind).unwrap();
        let base = base_of(code.as_str().unwrap());
        let mut found: BTreeMap<String, Vec<String>> = BTreeMap::new();
        let (mut words_tried, mut tried) = (0, HashSet::new());
        for (field, word) in words() {
            words_tried += 1;
            let silent = dropped(&base, field, word, &mut tried);
            if !silent.is_empty() {
                let named = found.entry(format!("{kind:?}: {field}")).or_default();
                named.push(format!("`{word}` {silent:?}"));
            }
        }
        assert!(words_tried > 1_000, "{words_tried} header words");
        found
    };
    let found: Vec<String> = std::thread::scope(|scope| {
        let runs: Vec<_> = (TableKind::ALL.into_iter())
            .map(|kind| scope.spawn(move || of_kind(kind)))
            .collect();
        runs.into_iter()
            .flat_map(|run| run.join().unwrap())
            .map(|(what, mut words)| {
                words.truncate(WORDS_NAMED);
                format!("{what}: {}", words.join(", "))
            })
            .collect()
    });
    assert!(
        found.is_empty(),
        "dropped in silence:\n{}",
        found.join("\n")
    );
}
