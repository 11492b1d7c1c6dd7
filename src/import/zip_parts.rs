//! Looks into the parts of a zipped workbook for a word, which is far cheaper than parsing them; the only home of zip.

use std::io::{Cursor, Read};

use zip::ZipArchive;

use super::limits::MAX_UNPACKED_BYTES;

/// Bytes of an unpacked part looked through at once.
const WINDOW_BYTES: usize = 64 * 1024;
/// Parts that hold no cells: texts, formats, colours.
const OTHER_PARTS: [&str; 3] = ["sharedStrings.xml", "styles.xml", "theme1.xml"];

/// True where any XML part that may be a sheet holds `word`, or where that cannot be told.
pub fn may_hold(archive: &[u8], word: &str) -> bool {
    let Ok(mut archive) = ZipArchive::new(Cursor::new(archive)) else {
        return true;
    };
    (0..archive.len()).any(|at| {
        let Ok(part) = archive.by_index(at) else {
            return true;
        };
        let is_sheet = part.name().is_ok_and(|name| {
            name.ends_with(".xml") && !OTHER_PARTS.iter().any(|other| name.ends_with(other))
        });
        is_sheet && part_may_hold(part.take(MAX_UNPACKED_BYTES), word.as_bytes())
    })
}

/// True where a part holds `word`, cannot be read to its end, or is in an encoding where the word would look otherwise.
fn part_may_hold(mut part: impl Read, word: &[u8]) -> bool {
    let mut window = vec![0; WINDOW_BYTES];
    // The end of the window before, in which the word may have begun.
    let mut kept = 0;
    let mut is_start = true;
    loop {
        let Ok(read) = part.read(&mut window[kept..]) else {
            return true;
        };
        if read == 0 {
            return false;
        }
        let filled = kept + read;
        if is_start && (window.starts_with(&[0xfe, 0xff]) || window.starts_with(&[0xff, 0xfe])) {
            return true;
        }
        is_start = false;
        if holds(&window[..filled], word) {
            return true;
        }
        kept = filled.min(word.len().saturating_sub(1));
        window.copy_within(filled - kept..filled, 0);
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

    #[test]
    fn a_word_is_found_wherever_a_window_ends() {
        let text = b"<sheetData/><mergeCells count=\"1\"/>";
        for step in 1..=text.len() {
            assert!(part_may_hold(InSteps(text, step), b"mergeCell"), "{step}");
            assert!(!part_may_hold(InSteps(text, step), b"mergeCeld"), "{step}");
        }
        let mut long = vec![b'm'; 3 * WINDOW_BYTES - 4];
        assert!(!part_may_hold(&long[..], b"mergeCell"));
        long.extend(text);
        assert!(part_may_hold(&long[..], b"mergeCell"));
    }

    #[test]
    fn what_cannot_be_told_may_hold_it() {
        assert!(may_hold(b"no archive", "mergeCell"));
        assert!(part_may_hold(&b"\xff\xfe<\0"[..], b"mergeCell"));
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
            assert_eq!(may_hold(&workbook, "mergeCell"), is_merged, "{name}");
        }
    }
}
