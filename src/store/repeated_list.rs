//! Stock lists that say what another list says: a copy of the file counts once.

use std::collections::BTreeMap;

use super::list_name::list_name;
use super::near_copy::{left_out, near_copies};
use super::origin::Kept;
use super::told_once::nowhere;
use crate::import::{Problem, RowIssue, Severity};
use crate::record::StockRecord;

/// So many equal rows are no chance, even where they name no bin. Common practice, no source.
const FEWEST_ROWS: usize = 4;

/// Fewest equal rows of two lists that are told: one row is often alike by chance. Common practice, no source.
const FEWEST_TOLD: usize = 2;
/// Words that file managers put into the name of a copy, and those behind them. From memory.
const COPY: [&str; 4] = ["kopie", "copy", "copie", "copia"];
const OF: [&str; 4] = ["von", "of", "de", "di"];

/// File, sheet and import of a list.
pub(super) type List<'a> = (&'a str, &'a str, u32);

/// For each row the position of the row that counts in its place: that says the same in the list that counts, or something
/// else of the same shelf in a list that is the same but for a few rows; `None` for rows that count themselves.
///
/// Only rows marked in `holds` are looked at: what does not hold makes nothing else a repeat.
pub(super) fn repeats(rows: &[Kept<StockRecord>], holds: &[bool]) -> Vec<Option<usize>> {
    let mut found = vec![None; rows.len()];
    for (original, copy) in equal_lists(rows, holds) {
        if is_surely_a_copy(rows, &original, &copy) {
            for (at, counted) in copy.iter().zip(&original) {
                found[*at] = Some(*counted);
            }
        }
    }
    let counting: Vec<bool> = (holds.iter().zip(&found))
        .map(|(holds, counted)| *holds && counted.is_none())
        .collect();
    let near = near_copies(rows, &counting);
    for (copied, counted) in left_out(rows, &near) {
        found[copied] = Some(counted);
    }
    found
}

/// Lists of one import that say just the same and count both, because nothing shows that one is a copy, and those that say
/// nearly the same; told at the second.
pub(super) fn perhaps_copies(rows: &[Kept<StockRecord>], holds: &[bool]) -> Vec<RowIssue> {
    let equal = equal_lists(rows, holds);
    let doubtful = equal.into_iter().filter(|(original, copy)| {
        copy.len() >= FEWEST_TOLD && !is_surely_a_copy(rows, original, copy)
    });
    let told = doubtful.filter_map(|(original, copy)| {
        let first = &rows[*original.iter().min()?].record.place;
        let words = format!(
            "this list says just what another one says from {first} on, and both count; where one of them is a copy, take its file or sheet away and run again, or in a workspace restore the snapshot before it and import the other alone"
        );
        Some(RowIssue {
            place: rows[*copy.iter().min()?].record.place.clone(),
            severity: Severity::Doubtful,
            field: None,
            problem: Problem::Recorded { words },
            original_cells: Vec::new(),
        })
    });
    let told: Vec<RowIssue> = told.collect();
    let copies = equal_lists(rows, holds).into_iter().map(|(_, copy)| copy);
    let mut counting = holds.to_vec();
    for at in copies.flatten() {
        counting[at] = false;
    }
    let near = near_copies(rows, &counting);
    let nearly = near.iter().filter_map(|near| near.as_issue(rows));
    told.into_iter().chain(nearly).collect()
}

/// The lists and the positions of their rows that hold.
pub(super) fn lists_of<'a>(
    rows: &'a [Kept<StockRecord>],
    holds: &[bool],
) -> BTreeMap<List<'a>, Vec<usize>> {
    let mut lists: BTreeMap<List<'_>, Vec<usize>> = BTreeMap::new();
    for (at, row) in rows.iter().enumerate().filter(|(at, _)| holds[*at]) {
        let home = row.home();
        let list = (&*home.file, &*home.sheet, row.home_import());
        lists.entry(list).or_default().push(at);
    }
    lists
}

/// Pairs of lists with equal rows, the original first, as the positions of their rows in an order that makes them meet.
fn equal_lists(rows: &[Kept<StockRecord>], holds: &[bool]) -> Vec<(Vec<usize>, Vec<usize>)> {
    let mut found = Vec::new();
    let mut by_length: BTreeMap<usize, Vec<(List<'_>, Vec<usize>)>> = BTreeMap::new();
    for (list, positions) in lists_of(rows, holds) {
        by_length
            .entry(positions.len())
            .or_default()
            .push((list, positions));
    }
    // What rows say is put into words only where two lists are of one length.
    for alike in by_length.into_values().filter(|lists| lists.len() > 1) {
        let mut told: BTreeMap<Vec<String>, Vec<(List<'_>, Vec<usize>)>> = BTreeMap::new();
        for (list, positions) in alike {
            let mut said: Vec<(String, usize)> = positions
                .iter()
                .map(|at| (content(&rows[*at].record), *at))
                .collect();
            said.sort();
            let (words, positions) = said.into_iter().unzip();
            told.entry(words).or_default().push((list, positions));
        }
        for mut lists in told.into_values() {
            // The original has the shorter name: `stock.xlsx` before `stock (1).xlsx`.
            lists.sort_by_key(|((file, sheet, import), _)| {
                (file.len(), sheet.len(), *file, *sheet, *import)
            });
            let mut lists = lists.into_iter().map(|(_, positions)| positions);
            let Some(original) = lists.next() else {
                continue;
            };
            found.extend(lists.map(|copy| (original.clone(), copy)));
        }
    }
    found
}

/// Two halls may each have one bearing of a kind on the shelf; two of them have no bins alike, and no long lists.
fn is_surely_a_copy(rows: &[Kept<StockRecord>], original: &[usize], copy: &[usize]) -> bool {
    original.len() >= FEWEST_ROWS
        || is_one_name(rows, original, copy)
        || copy.iter().all(|at| rows[*at].record.bin.is_some())
}

/// True where the names of two lists are one, but for what says that one is a copy.
pub(super) fn is_one_name(rows: &[Kept<StockRecord>], original: &[usize], copy: &[usize]) -> bool {
    let name = |positions: &[usize]| {
        let home = rows[*positions.first()?].home();
        Some([&home.file, &home.sheet].map(|name| without_copy(&list_name(name))))
    };
    name(original) == name(copy)
}

/// A name without what says that it is a copy's: `lager kopie`, `copy of stock`. Another word behind stays.
fn without_copy(name: &str) -> String {
    let words: Vec<&str> = name.split(' ').collect();
    let inner = match words.as_slice() {
        [copy, of, rest @ ..] if COPY.contains(copy) && OF.contains(of) && !rest.is_empty() => rest,
        [rest @ .., copy] if COPY.contains(copy) && !rest.is_empty() => rest,
        whole => whole,
    };
    inner.join(" ")
}

fn content(record: &StockRecord) -> String {
    let mut record = record.clone();
    record.place = nowhere();
    format!("{record:?}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::Place;
    use crate::store::origin::Origin;

    fn list(file: &str, rows: &[(&str, Option<&str>, f64)]) -> Vec<Kept<StockRecord>> {
        let row = |(at, (part, bin, on_hand)): (usize, &(&str, Option<&str>, f64))| Kept {
            record: StockRecord {
                facts: None,
                part: (*part).to_owned(),
                bin: bin.map(str::to_owned),
                lot: None,
                cure_date: None,
                usable_until: None,
                is_blocked: false,
                on_hand: Some(*on_hand),
                reserved: None,
                on_order: None,
                due_date: None,
                unit_of_count: None,
                is_in_packs: false,
                counted_on: None,
                place: Place::row(&file.into(), &"".into(), at as u32 + 1),
            },
            origin: Origin {
                import: 1,
                dated: None,
                is_whole_list: false,
                mends: None,
            },
        };
        rows.iter().enumerate().map(row).collect()
    }

    /// How many rows of two lists count.
    fn counted(first: Vec<Kept<StockRecord>>, second: Vec<Kept<StockRecord>>) -> usize {
        let rows = [first, second].concat();
        let found = repeats(&rows, &vec![true; rows.len()]);
        found.iter().filter(|row| row.is_none()).count()
    }

    #[test]
    fn a_copy_counts_once_and_two_halls_count_twice() {
        let binned = [("A", Some("N1"), 4.0), ("B", Some("N2"), 1.0)];
        let turned = [binned[1], binned[0]];
        let bare = [("A", None, 4.0), ("B", None, 1.0)];
        let long = [
            ("A", None, 4.0),
            ("B", None, 1.0),
            ("C", None, 7.0),
            ("D", None, 2.0),
        ];
        let other = [("A", Some("N1"), 4.0), ("B", Some("N2"), 2.0)];
        for (one, first, two, second, expected) in [
            ("Nord.xlsx", &binned[..], "Nord (1).xlsx", &binned[..], 2),
            ("Nord.xlsx", &binned, "Kopie.xlsx", &turned, 2),
            ("Nord.xlsx", &binned, "Nord (1).xlsx", &other, 4),
            ("Nord.xlsx", &binned, "Nord (1).xlsx", &binned[..1], 3),
            ("Nord.xlsx", &bare, "Nord (1).xlsx", &bare, 2),
            ("Nord.xlsx", &bare, "Nord - Kopie.xlsx", &bare, 2),
            ("Nord.xlsx", &bare, "Copy of Nord.xlsx", &bare, 2),
            ("Nord.xlsx", &bare, "Nord - Kopie (2).xlsx", &bare, 2),
            ("Nord.xlsx", &bare, "Sued - Kopie.xlsx", &bare, 4),
            ("Nord.xlsx", &bare, "Sued.xlsx", &bare, 4),
            ("Nord.xlsx", &long, "Sued.xlsx", &long, 4),
        ] {
            let found = counted(list(one, first), list(two, second));
            assert_eq!(found, expected, "{one} and {two}");
        }
    }

    /// Common practice, no source: a copy in which one shelf was counted anew is still a copy.
    #[test]
    fn a_copy_with_a_changed_row_counts_once_and_is_told() {
        let rows = |bins: bool, last: f64, count: usize| -> Vec<(&str, Option<&str>, f64)> {
            let parts = ["A", "B", "C", "D", "E", "F", "G", "H", "I", "J", "K", "L"];
            let all = parts.into_iter().enumerate().map(move |(at, part)| {
                let on_hand = if at + 1 == count { last } else { at as f64 };
                (part, bins.then_some(part), on_hand)
            });
            all.take(count).collect()
        };
        for (bins, name, count, counted_rows) in [
            (true, "Sued.csv", 6, 6),
            (false, "Nord (2).csv", 6, 6),
            (false, "Nord - Kopie.csv", 6, 6),
            (false, "Sued.csv", 12, 12),
            // Two halls may be alike in a few parts.
            (false, "Sued.csv", 6, 12),
        ] {
            let first = list("Nord.csv", &rows(bins, 90.0, count));
            let second = list(name, &rows(bins, 70.0, count));
            let all = [first, second].concat();
            let found = repeats(&all, &vec![true; all.len()]);
            let counts = found.iter().filter(|row| row.is_none()).count();
            assert_eq!(counts, counted_rows, "{name}, {count} rows");
            // Of the shelf that differs the smaller number counts, which is the copy's.
            let is_copy = counted_rows == count;
            assert_eq!(found[count - 1], is_copy.then_some(2 * count - 1), "{name}");
            let told = perhaps_copies(&all, &vec![true; all.len()]);
            assert_eq!(told.len(), 1, "{name}: {told:?}");
            assert_eq!(&*told[0].place.file, name);
            let words = told[0].problem.to_string();
            let alike = format!("{} of {count} rows of this list", count - 1);
            assert!(words.contains(&alike), "{words}");
            assert_eq!(words.contains("both lists count"), !is_copy, "{words}");
        }
    }

    /// Common practice, no source: of two or three shelves one counted anew proves nothing, and is asked about.
    #[test]
    fn short_lists_of_one_name_and_the_same_shelves_are_told_and_count_both() {
        let three = [
            ("A", Some("x"), 7.0),
            ("B", Some("y"), 3.0),
            ("C", Some("z"), 1.0),
        ];
        let (mut one, mut shelf) = (three, three);
        one[0].2 = 5.0;
        shelf[0].1 = Some("w");
        let mut two = one;
        two[1].2 = 4.0;
        for (name, rows, other, told) in [
            ("Nord - Kopie.csv", &three[..], &one[..], 1),
            ("Nord (1).csv", &three[..2], &one[..2], 1),
            // Another name, another shelf, two that differ: two lists.
            ("Sued.csv", &three, &one, 0),
            ("Nord (1).csv", &three, &shelf, 0),
            ("Nord (1).csv", &three, &two, 0),
        ] {
            let all = [list("Nord.csv", rows), list(name, other)].concat();
            let holds = vec![true; all.len()];
            assert!(repeats(&all, &holds).iter().all(Option::is_none), "{name}");
            let found = perhaps_copies(&all, &holds);
            assert_eq!(found.len(), told, "{name}: {found:?}");
            for issue in found {
                let words = issue.problem.to_string();
                let alike = format!("{} of {} rows of this list", rows.len() - 1, rows.len());
                assert!(words.contains(&alike), "{words}");
                assert!(words.contains("both lists count"), "{words}");
                // Nobody can tell which is the copy: how to leave it out is said.
                assert!(words.contains("take its file or sheet away"), "{words}");
            }
        }
    }

    #[test]
    fn of_several_copies_the_smallest_number_of_a_shelf_counts_once() {
        let rows = |last: f64| {
            let parts = ["A", "B", "C", "D", "E"];
            parts.map(|part| (part, Some(part), if part == "E" { last } else { 3.0 }))
        };
        let all = [
            list("Nord.csv", &rows(5.0)),
            list("Nord (1).csv", &rows(4.0)),
            list("Nord (2).csv", &rows(2.0)),
        ]
        .concat();
        let found = repeats(&all, &vec![true; all.len()]);
        let counted: f64 = (all.iter().zip(&found))
            .filter(|(_, other)| other.is_none())
            .filter_map(|(row, _)| row.record.on_hand)
            .sum();
        // Four shelves of 3 and one of 2.
        assert!((counted - 14.0).abs() < 1e-9, "{counted}: {found:?}");
    }

    #[test]
    fn lists_that_differ_in_more_count_both_and_are_not_told() {
        let nord = [
            ("A", Some("1"), 4.0),
            ("B", Some("2"), 1.0),
            ("C", Some("3"), 7.0),
            ("D", Some("4"), 2.0),
            ("E", Some("5"), 2.0),
            ("F", Some("6"), 2.0),
        ];
        let mut sued = nord;
        (sued[0].2, sued[1].2) = (5.0, 6.0);
        let all = [list("Nord.csv", &nord), list("Nord (1).csv", &sued)].concat();
        let holds = vec![true; all.len()];
        assert!(repeats(&all, &holds).iter().all(Option::is_none));
        assert!(perhaps_copies(&all, &holds).is_empty());
    }

    #[test]
    fn the_original_counts_and_what_does_not_hold_repeats_nothing() {
        let rows = [("A", Some("N1"), 4.0)];
        let rows = [list("Nord (1).xlsx", &rows), list("Nord.xlsx", &rows)].concat();
        assert_eq!(repeats(&rows, &[true, true]), [Some(1), None]);
        assert_eq!(repeats(&rows, &[true, false]), [None, None]);
    }

    #[test]
    fn equal_lists_that_both_count_are_told() {
        let bare = [("A", None, 4.0), ("B", None, 1.0)];
        for (second, rows, told) in [
            ("Sued.csv", &bare[..], 1),
            ("Nord (1).csv", &bare, 0),
            ("Sued.csv", &bare[..1], 0),
        ] {
            let rows = [list("Nord.csv", rows), list(second, rows)].concat();
            let found = perhaps_copies(&rows, &vec![true; rows.len()]);
            assert_eq!(found.len(), told, "{second}: {found:?}");
            for one in found {
                assert_eq!(&*one.place.file, second);
                let words = one.problem.to_string();
                assert!(words.contains("from Nord.csv, row 2 on"), "{words}");
                assert!(words.contains("take its file or sheet away"), "{words}");
            }
        }
    }
}
