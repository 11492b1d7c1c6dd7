//! Numbers of which a piece cannot be read: `63?6`, `6308-`, `?205`.

use crate::part::designation::Designation;
use crate::standard::{self, StandardPart};

/// Rows that fit what is readable.
pub(super) struct Partial {
    pub(super) rows: Vec<&'static StandardPart>,
    /// Numbers that fit and are in no table.
    pub(super) unlisted: usize,
    pub(super) read_as: String,
}

/// Signs that stand for one character that cannot be read.
const GAPS: [char; 3] = ['?', '_', '#'];

/// Rows of the standard tables that a half-read number may be; `None` where the text is none.
pub(super) fn read(text: &str) -> Option<Partial> {
    let text = text.trim();
    if text.contains(char::is_whitespace) || !text.contains(|c: char| c.is_ascii_digit()) {
        return None;
    }
    if text.contains(GAPS) || text.contains('*') {
        return by_pattern(text);
    }
    let stem = text.strip_suffix(['-', '/', '…'])?;
    let designation = Designation::parse(stem)?;
    let mut rows: Vec<&StandardPart> = standard::named(&designation.basic)
        .filter(|row| {
            row.designation == designation.basic || row.synonyms.contains(&designation.basic)
        })
        .collect();
    // By size, as the tables are; a row may be found by two spellings of its name.
    rows.sort_by(|a, b| (a.size, &a.designation).cmp(&(b.size, &b.designation)));
    rows.dedup_by(|a, b| std::ptr::eq(*a, *b));
    (!rows.is_empty()).then(|| Partial {
        rows,
        unlisted: 0,
        read_as: format!(
            "`{text}` ends with a sign: `{stem}` is read, its suffixes (closure, clearance, class) are not known"
        ),
    })
}

fn by_pattern(text: &str) -> Option<Partial> {
    // Designations are plain ASCII; a letter that is not fits nothing.
    let pattern: Vec<u8> = text
        .chars()
        .map(|c| match c {
            c if GAPS.contains(&c) => b'?',
            c => u8::try_from(c.to_ascii_uppercase()).unwrap_or(0),
        })
        .collect();
    let readable = pattern.iter().filter(|c| c.is_ascii_alphanumeric()).count();
    if readable < 2 {
        return None;
    }
    let fits = |name: &str| matches(&pattern, name.as_bytes());
    let rows: Vec<&StandardPart> = standard::parts()
        .iter()
        .filter(|row| fits(&row.designation) || row.synonyms.iter().any(|name| fits(name)))
        .collect();
    (!rows.is_empty()).then(|| Partial {
        read_as: format!(
            "`{text}` has places that cannot be read: {} numbers of the tables fit",
            rows.len()
        ),
        unlisted: unlisted(&pattern, &rows),
        rows,
    })
}

/// Digits in the gaps that make a number with a bore, but one of no table: as many as that are thinkable, not made.
fn unlisted(pattern: &[u8], rows: &[&StandardPart]) -> usize {
    let gaps: Vec<usize> = (0..pattern.len())
        .filter(|at| pattern[*at] == b'?')
        .collect();
    if gaps.len() > 2 || pattern.contains(&b'*') {
        return rows.len();
    }
    let count = 10usize.pow(gaps.len() as u32);
    let is_unlisted = |filling: &usize| {
        let mut number = pattern.to_vec();
        let mut rest = *filling;
        for at in &gaps {
            number[*at] = b'0' + (rest % 10) as u8;
            rest /= 10;
        }
        let designation = std::str::from_utf8(&number)
            .ok()
            .and_then(Designation::parse);
        // A number that carries its size can be made up from any; only series and bore codes count.
        designation.is_some_and(|read| {
            read.bore.is_some() && read.size.is_none() && standard::resolve(&read).is_none()
        })
    };
    (0..count).filter(is_unlisted).count()
}

/// `?` stands for one character, `*` for any number of them.
fn matches(pattern: &[u8], name: &[u8]) -> bool {
    match (pattern.first(), name.first()) {
        (None, None) => true,
        (Some(b'*'), _) => {
            matches(&pattern[1..], name) || !name.is_empty() && matches(pattern, &name[1..])
        }
        (Some(b'?'), Some(_)) => matches(&pattern[1..], &name[1..]),
        (Some(a), Some(b)) if *a == b.to_ascii_uppercase() => matches(&pattern[1..], &name[1..]),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(text: &str) -> Vec<&'static str> {
        read(text).map_or_else(Vec::new, |found| {
            found
                .rows
                .iter()
                .map(|row| row.designation.as_str())
                .collect()
        })
    }

    #[test]
    fn a_gap_fits_one_sign() {
        // DIN 625-1 numbers of series 63 with a 6 at the end: 6306, 6316, 6326 where the table has them.
        let found = names("63?6");
        assert!(
            found.contains(&"6306") && found.contains(&"6316"),
            "{found:?}"
        );
        assert!(
            found
                .iter()
                .all(|name| name.len() == 4 && name.starts_with("63") && name.ends_with('6'))
        );
        assert!(names("NU2*").contains(&"NU205"));
    }

    #[test]
    fn an_end_that_is_missing_leaves_the_number() {
        assert_eq!(names("6308-"), ["6308"]);
        assert!(names("6308-2RS").is_empty());
        assert!(names("40-").is_empty());
        assert!(read("??").is_none());
    }
}
