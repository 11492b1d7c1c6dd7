//! Looks into the parts of a zipped workbook for words and for hidden rows, which is far cheaper than parsing them; the only
//! home of zip.

use std::collections::HashMap;
use std::io::{BufRead, BufReader, Cursor, Read};

use zip::ZipArchive;

use super::limits::MAX_UNPACKED_BYTES;

/// Bytes of an unpacked part looked through at once.
const WINDOW_BYTES: usize = 64 * 1024;
/// Parts that hold no cells: texts, formats, colours.
const OTHER_PARTS: [&str; 3] = ["sharedStrings.xml", "styles.xml", "theme1.xml"];

/// Which of `words` any XML part that may be a sheet holds; true too where that cannot be told.
pub fn may_hold<const N: usize>(archive: &[u8], words: [&str; N]) -> [bool; N] {
    let mut found = [false; N];
    let Ok(mut archive) = ZipArchive::new(Cursor::new(archive)) else {
        return [true; N];
    };
    for at in 0..archive.len() {
        let Ok(part) = archive.by_index(at) else {
            return [true; N];
        };
        let is_sheet = part.name().is_ok_and(|name| {
            name.ends_with(".xml") && !OTHER_PARTS.iter().any(|other| name.ends_with(other))
        });
        if is_sheet {
            look_through(part.take(MAX_UNPACKED_BYTES), words, &mut found);
        }
        if found.iter().all(|is_found| *is_found) {
            break;
        }
    }
    found
}

/// Notes which words a part holds; all of them where it cannot be read to its end, or is in an encoding where they would look
/// otherwise.
fn look_through<const N: usize>(mut part: impl Read, words: [&str; N], found: &mut [bool; N]) {
    let longest = words
        .iter()
        .map(|word| word.len())
        .max()
        .unwrap_or_default();
    let mut window = vec![0; WINDOW_BYTES];
    // The end of the window before, in which a word may have begun.
    let mut kept = 0;
    let mut is_start = true;
    while !found.iter().all(|is_found| *is_found) {
        let Ok(read) = part.read(&mut window[kept..]) else {
            *found = [true; N];
            return;
        };
        if read == 0 {
            return;
        }
        let filled = kept + read;
        if is_start && (window.starts_with(&[0xfe, 0xff]) || window.starts_with(&[0xff, 0xfe])) {
            *found = [true; N];
            return;
        }
        is_start = false;
        for (word, is_found) in words.iter().zip(found.iter_mut()) {
            *is_found = *is_found || holds(&window[..filled], word.as_bytes());
        }
        kept = filled.min(longest.saturating_sub(1));
        window.copy_within(filled - kept..filled, 0);
    }
}

/// Rows that a workbook hides, from 0, by the names of their sheets (ECMA-376, part 1, 18.3.1.73); none where its parts cannot
/// be read.
pub fn hidden_rows(archive: &[u8]) -> HashMap<String, Vec<u32>> {
    let mut hidden = HashMap::new();
    let Ok(mut archive) = ZipArchive::new(Cursor::new(archive)) else {
        return hidden;
    };
    let mut paths: HashMap<String, String> = HashMap::new();
    each_tag(
        &mut archive,
        "xl/_rels/workbook.xml.rels",
        "Relationship",
        |tag| {
            if let (Some(id), Some(target)) = (attribute(tag, "Id"), attribute(tag, "Target")) {
                let path = match target.strip_prefix('/') {
                    Some(path) => path.to_owned(),
                    None => format!("xl/{target}"),
                };
                paths.insert(id, path);
            }
        },
    );
    let mut sheets: Vec<(String, String)> = Vec::new();
    each_tag(&mut archive, "xl/workbook.xml", "sheet", |tag| {
        let path = attribute(tag, "r:id").and_then(|id| paths.get(&id));
        sheets.extend(attribute(tag, "name").zip(path.cloned()));
    });
    for (name, path) in sheets {
        let mut rows = Vec::new();
        let mut next = 0;
        each_tag(&mut archive, &path, "row", |tag| {
            let number = attribute(tag, "r").and_then(|number| number.parse::<u32>().ok());
            let row = number.map_or(next, |number| number.saturating_sub(1));
            next = row.saturating_add(1);
            if attribute(tag, "hidden").is_some_and(|value| value == "1" || value == "true") {
                rows.push(row);
            }
        });
        if !rows.is_empty() {
            rows.sort_unstable();
            hidden.insert(name, rows);
        }
    }
    hidden
}

/// Gives every opening tag of a name in a part, without its brackets and its name.
fn each_tag(
    archive: &mut ZipArchive<Cursor<&[u8]>>,
    path: &str,
    name: &str,
    mut each: impl FnMut(&str),
) {
    let is_it = |archive: &mut ZipArchive<Cursor<&[u8]>>, at: usize| {
        let part = archive.by_index(at);
        part.is_ok_and(|part| part.name().is_ok_and(|name| *name == *path))
    };
    let found = (0..archive.len()).find(|at| is_it(archive, *at));
    let Some(at) = found else {
        return;
    };
    let Ok(part) = archive.by_index(at) else {
        return;
    };
    let mut part = BufReader::new(part.take(MAX_UNPACKED_BYTES));
    let mut piece = Vec::new();
    loop {
        piece.clear();
        if !part.read_until(b'>', &mut piece).is_ok_and(|read| read > 0) {
            return;
        }
        let Some(open) = piece.iter().rposition(|byte| *byte == b'<') else {
            continue;
        };
        let Ok(tag) = std::str::from_utf8(&piece[open + 1..]) else {
            continue;
        };
        let tag = tag.trim_end_matches(['>', '/']);
        let (full, attributes) = tag.split_once(char::is_whitespace).unwrap_or((tag, ""));
        if full.rsplit(':').next() == Some(name) {
            each(attributes);
        }
    }
}

/// The value of an attribute of a tag.
fn attribute(tag: &str, name: &str) -> Option<String> {
    let mut rest = tag;
    loop {
        let (key, after) = rest.split_once('=')?;
        let after = after.trim_start();
        let quote = after.chars().next().filter(|c| matches!(c, '"' | '\''))?;
        let (value, behind) = after[1..].split_once(quote)?;
        if key.trim() == name {
            let plain = value.replace("&lt;", "<").replace("&gt;", ">");
            let plain = plain.replace("&quot;", "\"").replace("&apos;", "'");
            return Some(plain.replace("&amp;", "&"));
        }
        rest = behind;
    }
}

/// True where `bytes` hold `word`.
pub fn holds(bytes: &[u8], word: &[u8]) -> bool {
    let Some(&first) = word.first() else {
        return false;
    };
    let mut rest = bytes;
    while let Some(at) = rest.iter().position(|byte| *byte == first) {
        if rest[at..].starts_with(word) {
            return true;
        }
        rest = &rest[at + 1..];
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Gives its bytes a few at a time.
    struct InSteps<'b>(&'b [u8], usize);

    impl Read for InSteps<'_> {
        fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
            let (now, later) = self.0.split_at(self.1.min(self.0.len()).min(into.len()));
            into[..now.len()].copy_from_slice(now);
            self.0 = later;
            Ok(now.len())
        }
    }

    fn part_may_hold(part: impl Read, word: &str) -> bool {
        let mut found = [false];
        look_through(part, [word], &mut found);
        found[0]
    }

    #[test]
    fn a_word_is_found_wherever_a_window_ends() {
        let text = b"<sheetData/><mergeCells count=\"1\"/>";
        for step in 1..=text.len() {
            assert!(part_may_hold(InSteps(text, step), "mergeCell"), "{step}");
            assert!(!part_may_hold(InSteps(text, step), "mergeCeld"), "{step}");
        }
        let mut long = vec![b'm'; 3 * WINDOW_BYTES - 4];
        assert!(!part_may_hold(&long[..], "mergeCell"));
        long.extend(text);
        assert!(part_may_hold(&long[..], "mergeCell"));
    }

    #[test]
    fn what_cannot_be_told_may_hold_it() {
        assert_eq!(
            may_hold(b"no archive", ["mergeCell", "hidden="]),
            [true, true]
        );
        assert!(part_may_hold(&b"\xff\xfe<\0"[..], "mergeCell"));
    }

    #[test]
    fn only_workbooks_with_merged_cells_say_so() {
        // ECMA-376, part 1, 18.3.1.55 names the element; written by our writer and by LibreOffice.
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/workbooks");
        for (name, is_merged) in [
            ("merged_header.xlsx", true),
            ("libreoffice.xlsx", true),
            ("dates_1904.xlsx", false),
        ] {
            let workbook = std::fs::read(folder.join(name)).unwrap();
            assert_eq!(may_hold(&workbook, ["mergeCell"]), [is_merged], "{name}");
        }
    }

    #[test]
    fn attributes_are_found_by_their_whole_name() {
        let tag = "name=\"A &amp; B\" sheetId='1' r:id=\"rId7\"";
        assert_eq!(attribute(tag, "name").as_deref(), Some("A & B"));
        assert_eq!(attribute(tag, "r:id").as_deref(), Some("rId7"));
        assert_eq!(attribute(tag, "id"), None);
        assert_eq!(attribute("", "id"), None);
    }
}
