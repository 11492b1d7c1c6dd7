//! The bytes of a card index, in memory or in a file of which only the pages needed are read, each checked by its sum.
//!
//! ```text
//! head     magic, schema, page size, key of what it was made from, length, sum of the page sums, sum of the head
//! sums     one short sum a page
//! pages    the body
//! ```

use std::borrow::Cow;
use std::collections::HashMap;
use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom};
use std::path::Path;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use crate::digest::short_sum;

/// First bytes of the file.
const MAGIC: [u8; 8] = *b"SPWCARDS";
/// Number of the form; a change of meaning raises it.
pub(super) const SCHEMA: u32 = 6;
/// Bytes of a page.
const PAGE: usize = 8192;
/// Letters of a key: a SHA-256 in hexadecimal.
const KEY: usize = 64;
/// Bytes of the head.
const HEAD: usize = 8 + 4 + 4 + KEY + 8 + 8 + 8;

/// Why an index file is not used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum IndexFault {
    /// There is none.
    #[error("there is none yet")]
    Missing,
    /// It was made from something else.
    #[error("it was made from an earlier state")]
    Stale,
    /// It is not what was written.
    #[error("it is damaged: {what}")]
    Damaged {
        /// What does not agree.
        what: &'static str,
    },
    /// It cannot be read.
    #[error("it cannot be read: {reason}")]
    Unreadable {
        /// The words of the system.
        reason: String,
    },
}

/// Bytes to read at any place.
#[derive(Debug)]
pub(super) struct Pages {
    source: Source,
    length: u64,
    fault: OnceLock<IndexFault>,
}

#[derive(Debug)]
enum Source {
    Memory(Vec<u8>),
    File(Box<Mutex<Paged>>),
}

#[derive(Debug)]
struct Paged {
    file: File,
    /// Where the first page begins.
    start: u64,
    sums: Vec<u64>,
    read: HashMap<usize, Arc<[u8]>>,
}

impl Pages {
    /// Bytes in memory, which are what they are.
    pub(super) fn in_memory(bytes: Vec<u8>) -> Self {
        Self {
            length: bytes.len() as u64,
            source: Source::Memory(bytes),
            fault: OnceLock::new(),
        }
    }

    /// Opens a file made from `key`; its pages are read and checked when they are needed.
    ///
    /// # Errors
    /// [`IndexFault`] where the file is not there, was made from something else, or its head does not agree.
    pub(super) fn open(path: &Path, key: &str) -> Result<Self, IndexFault> {
        let mut file = File::open(path).map_err(|error| match error.kind() {
            io::ErrorKind::NotFound => IndexFault::Missing,
            _ => unreadable(&error),
        })?;
        let found = file.metadata().map_err(|error| unreadable(&error))?.len();
        let mut head = [0; HEAD];
        let damaged = |what| IndexFault::Damaged { what };
        file.read_exact(&mut head)
            .map_err(|_| damaged("it is too short"))?;
        let number = |at: usize| u64::from_le_bytes(array(&head[at..]));
        if head[..8] != MAGIC || number(HEAD - 8) != short_sum(&head[..HEAD - 8]) {
            return Err(damaged("its head does not agree with its sum"));
        }
        let schema = u32::from_le_bytes(array(&head[8..]));
        let page = u32::from_le_bytes(array(&head[12..]));
        if schema != SCHEMA || page as usize != PAGE || head[16..16 + KEY] != *key.as_bytes() {
            return Err(IndexFault::Stale);
        }
        let (length, sum) = (number(16 + KEY), number(24 + KEY));
        let count = length.div_ceil(PAGE as u64);
        let start = HEAD as u64 + 8 * count;
        if found != start + length {
            return Err(damaged("its length is not what was written"));
        }
        let mut bytes = vec![0; 8 * count as usize];
        file.read_exact(&mut bytes)
            .map_err(|error| unreadable(&error))?;
        if short_sum(&bytes) != sum {
            return Err(damaged("the sums of its pages do not agree with theirs"));
        }
        let sums = bytes
            .chunks_exact(8)
            .map(|chunk| u64::from_le_bytes(array(chunk)));
        let paged = Paged {
            file,
            start,
            sums: sums.collect(),
            read: HashMap::new(),
        };
        Ok(Self {
            source: Source::File(Box::new(Mutex::new(paged))),
            length,
            fault: OnceLock::new(),
        })
    }

    /// Reads the whole file into memory, every page checked: for a program that asks often.
    ///
    /// # Errors
    /// As [`open`](Self::open).
    pub(super) fn load(path: &Path, key: &str) -> Result<Self, IndexFault> {
        let pages = Self::open(path, key)?;
        let Source::File(paged) = pages.source else {
            return Ok(pages);
        };
        let mut paged = paged.into_inner().unwrap_or_else(PoisonError::into_inner);
        let mut bytes = vec![0; pages.length as usize];
        paged
            .file
            .seek(SeekFrom::Start(paged.start))
            .and_then(|_| paged.file.read_exact(&mut bytes))
            .map_err(|error| unreadable(&error))?;
        let is_sound = |(number, page)| paged.sums.get(number) == Some(&short_sum(page));
        if !bytes.chunks(PAGE).enumerate().all(is_sound) {
            return Err(IndexFault::Damaged {
                what: "a page does not agree with its sum",
            });
        }
        Ok(Self::in_memory(bytes))
    }

    /// True where every byte is at hand and none has to be read from a file.
    pub(super) const fn are_in_memory(&self) -> bool {
        matches!(self.source, Source::Memory(_))
    }

    /// Bytes where they lie in memory; `None` where they are in a file, or outside.
    pub(super) fn in_place(&self, at: u64, count: usize) -> Option<&[u8]> {
        match &self.source {
            Source::Memory(bytes) => bytes.get(at as usize..(at as usize).checked_add(count)?),
            Source::File(_) => None,
        }
    }

    /// What was found wrong while reading; what was read since is not to be used.
    pub(super) fn fault(&self) -> Option<&IndexFault> {
        self.fault.get()
    }

    /// Length of the body, bytes.
    pub(super) const fn length(&self) -> u64 {
        self.length
    }

    /// Bytes at a place; zeros where they cannot be had, and then there is a [`fault`](Self::fault).
    pub(super) fn bytes(&self, at: u64, count: usize) -> Cow<'_, [u8]> {
        let end = at.checked_add(count as u64);
        if end.is_none_or(|end| end > self.length) {
            return Cow::Owned(self.zeros(
                count,
                IndexFault::Damaged {
                    what: "a place lies outside it",
                },
            ));
        }
        match &self.source {
            Source::Memory(bytes) => Cow::Borrowed(&bytes[at as usize..at as usize + count]),
            Source::File(paged) => {
                let mut paged = paged.lock().unwrap_or_else(PoisonError::into_inner);
                Cow::Owned(match paged.bytes(at, count, self.length) {
                    Ok(bytes) => bytes,
                    Err(fault) => self.zeros(count, fault),
                })
            }
        }
    }

    /// A few bytes at a place.
    pub(super) fn array<const N: usize>(&self, at: u64) -> [u8; N] {
        match &self.source {
            Source::Memory(bytes) => match bytes.get(at as usize..at as usize + N) {
                Some(found) => array(found),
                None => array(&self.bytes(at, N)),
            },
            Source::File(_) => array(&self.bytes(at, N)),
        }
    }

    /// A number of four bytes at a place.
    pub(super) fn u32(&self, at: u64) -> u32 {
        u32::from_le_bytes(self.array(at))
    }

    /// Notes that what was read makes no sense.
    pub(super) fn note_damage(&self, what: &'static str) {
        let _ = self.fault.set(IndexFault::Damaged { what });
    }

    fn zeros(&self, count: usize, fault: IndexFault) -> Vec<u8> {
        let _ = self.fault.set(fault);
        // A count read from damaged bytes may be anything.
        vec![0; count.min(PAGE)]
    }
}

impl Paged {
    fn bytes(&mut self, at: u64, count: usize, length: u64) -> Result<Vec<u8>, IndexFault> {
        let mut bytes = Vec::with_capacity(count);
        let mut at = at as usize;
        let end = at + count;
        while at < end {
            let page = self.page(at / PAGE, length)?;
            let from = at % PAGE;
            let until = page.len().min(from + (end - at));
            bytes.extend_from_slice(&page[from..until]);
            at += until - from;
        }
        Ok(bytes)
    }

    fn page(&mut self, number: usize, length: u64) -> Result<Arc<[u8]>, IndexFault> {
        if let Some(page) = self.read.get(&number) {
            return Ok(Arc::clone(page));
        }
        let at = (number * PAGE) as u64;
        let mut bytes = vec![0; PAGE.min((length - at) as usize)];
        self.file
            .seek(SeekFrom::Start(self.start + at))
            .and_then(|_| self.file.read_exact(&mut bytes))
            .map_err(|error| unreadable(&error))?;
        if self.sums.get(number) != Some(&short_sum(&bytes)) {
            return Err(IndexFault::Damaged {
                what: "a page does not agree with its sum",
            });
        }
        let page: Arc<[u8]> = bytes.into();
        self.read.insert(number, Arc::clone(&page));
        Ok(page)
    }
}

/// Writes a body with its head and sums.
///
/// # Errors
/// What the disk says.
#[cfg(any(feature = "tables", test))]
pub(super) fn write(out: &mut impl io::Write, body: &[u8], key: &str) -> io::Result<()> {
    let sums: Vec<u8> = body
        .chunks(PAGE)
        .flat_map(|page| short_sum(page).to_le_bytes())
        .collect();
    let mut head = Vec::with_capacity(HEAD);
    head.extend(MAGIC);
    head.extend(SCHEMA.to_le_bytes());
    head.extend((PAGE as u32).to_le_bytes());
    head.extend(key.bytes().chain(std::iter::repeat(b' ')).take(KEY));
    head.extend((body.len() as u64).to_le_bytes());
    head.extend(short_sum(&sums).to_le_bytes());
    head.extend(short_sum(&head).to_le_bytes());
    out.write_all(&head)?;
    out.write_all(&sums)?;
    out.write_all(body)
}

fn unreadable(error: &io::Error) -> IndexFault {
    IndexFault::Unreadable {
        reason: error.to_string(),
    }
}

/// The first bytes of a slice; zeros where it is too short.
pub(super) fn array<const N: usize>(bytes: &[u8]) -> [u8; N] {
    let mut found = [0; N];
    let count = bytes.len().min(N);
    found[..count].copy_from_slice(&bytes[..count]);
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(body: &[u8], key: &str) -> tempfile::NamedTempFile {
        let mut file = tempfile::NamedTempFile::new().unwrap();
        write(&mut file, body, key).unwrap();
        file
    }

    fn key(letter: char) -> String {
        std::iter::repeat_n(letter, KEY).collect()
    }

    #[test]
    fn any_stretch_reads_as_it_was_written() {
        let body: Vec<u8> = (0..3 * PAGE + 17).map(|at| (at % 251) as u8).collect();
        let file = file(&body, &key('a'));
        let pages = Pages::open(file.path(), &key('a')).unwrap();
        for (at, count) in [
            (0, 1),
            (PAGE - 3, 7),
            (5, 2 * PAGE),
            (3 * PAGE, 17),
            (0, body.len()),
        ] {
            assert_eq!(
                *pages.bytes(at as u64, count),
                body[at..at + count],
                "{at} {count}"
            );
        }
        assert_eq!(pages.fault(), None);
        assert_eq!(
            *Pages::load(file.path(), &key('a')).unwrap().bytes(9, 9),
            body[9..18]
        );
        pages.bytes(body.len() as u64, 1);
        assert!(pages.fault().is_some());
    }

    #[test]
    fn every_flipped_bit_and_every_cut_is_noticed() {
        let body: Vec<u8> = (0..2 * PAGE + 5).map(|at| (at % 13) as u8).collect();
        let whole = std::fs::read(file(&body, &key('a')).path()).unwrap();
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("index");
        let is_sound = || Pages::load(&path, &key('a')).is_ok();
        std::fs::write(&path, &whole).unwrap();
        assert!(is_sound());
        for at in (0..whole.len()).step_by(41).chain(0..HEAD + 24) {
            let mut bytes = whole.clone();
            bytes[at] ^= 4;
            std::fs::write(&path, &bytes).unwrap();
            assert!(!is_sound(), "bit at {at}");
        }
        for end in [0, 5, HEAD, HEAD + 10, whole.len() - 1] {
            std::fs::write(&path, &whole[..end]).unwrap();
            assert!(!is_sound(), "cut at {end}");
        }
    }

    #[test]
    fn another_key_is_stale_and_no_file_is_missing() {
        let file = file(b"body", &key('a'));
        assert_eq!(
            Pages::open(file.path(), &key('b')).unwrap_err(),
            IndexFault::Stale
        );
        let nowhere = Path::new("no/such/file");
        assert_eq!(
            Pages::open(nowhere, &key('a')).unwrap_err(),
            IndexFault::Missing
        );
    }
}
