//! Refuses zip archives that would unpack to more than fits, by what their directory declares.
//!
//! Field positions are those of the ZIP format, APPNOTE.TXT 6.3.9, sections 4.3.12 (central directory header),
//! 4.3.16 (its end) and 4.5.3 (ZIP64).

use super::limits::{MAX_UNPACKED_BYTES, MAX_UNPACKED_RATIO, UNPACKED_BYTES_BEYOND_DOUBT};

/// First bytes of an entry of the central directory.
const ENTRY: [u8; 4] = *b"PK\x01\x02";
/// First bytes of the end of the central directory.
const END: [u8; 4] = *b"PK\x05\x06";
/// Bytes of the end without its comment.
const END_BYTES: usize = 22;
/// Bytes of an entry without name, extra field and comment.
const ENTRY_BYTES: usize = 46;
/// Size that says: look into the ZIP64 extra field.
const IN_ZIP64: u32 = u32::MAX;

/// Bytes that an archive unpacks to, as its directory declares, and why they are too many.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum ZipLimit {
    /// More than fits.
    #[error("it would unpack to {declared} bytes; at most {MAX_UNPACKED_BYTES} are read")]
    TooLarge {
        /// Declared bytes.
        declared: u64,
    },
    /// More than a workbook of its size holds.
    #[error(
        "it would unpack to {declared} bytes, {ratio} times its own size; at most {MAX_UNPACKED_RATIO} times are read"
    )]
    TooDense {
        /// Declared bytes.
        declared: u64,
        /// Declared bytes by bytes of the file.
        ratio: u64,
    },
}

/// Checks what an archive declares; archives without a readable directory are left to their reader.
///
/// # Errors
/// [`ZipLimit`] where the declared sizes break a limit.
pub fn check_zip(bytes: &[u8]) -> Result<(), ZipLimit> {
    let Some(declared) = declared_bytes(bytes) else {
        return Ok(());
    };
    if declared > MAX_UNPACKED_BYTES {
        return Err(ZipLimit::TooLarge { declared });
    }
    let ratio = declared / (bytes.len() as u64).max(1);
    if declared > UNPACKED_BYTES_BEYOND_DOUBT && ratio > MAX_UNPACKED_RATIO {
        return Err(ZipLimit::TooDense { declared, ratio });
    }
    Ok(())
}

/// Sum of the unpacked sizes in the central directory.
fn declared_bytes(bytes: &[u8]) -> Option<u64> {
    let end = (0..=bytes.len().checked_sub(END_BYTES)?)
        .rev()
        // The comment behind the end is 65,535 bytes at most.
        .take(usize::from(u16::MAX) + 1)
        .find(|&at| bytes[at..].starts_with(&END))?;
    let size = u64::from(read_u32(bytes, end + 12)?);
    // The directory lies right before its end, even where something was put in front of the archive. A ZIP64
    // end between them is found by scanning back for the first entry.
    let mut at = if size < u64::from(IN_ZIP64) {
        usize::try_from((end as u64).checked_sub(size)?).ok()?
    } else {
        0
    };
    if !bytes.get(at..)?.starts_with(&ENTRY) {
        at = bytes
            .windows(ENTRY.len())
            .position(|window| window == ENTRY)?;
    }
    let mut sum = 0_u64;
    while bytes.get(at..).is_some_and(|rest| rest.starts_with(&ENTRY)) {
        let [name, extra, comment] =
            [28, 30, 32].map(|offset| read_u16(bytes, at + offset).map(usize::from));
        let (name, extra, comment) = (name?, extra?, comment?);
        let unpacked = read_u32(bytes, at + 24)?;
        let unpacked = if unpacked == IN_ZIP64 {
            let start = at + ENTRY_BYTES + name;
            zip64_size(bytes.get(start..start + extra)?).unwrap_or(u64::from(IN_ZIP64))
        } else {
            u64::from(unpacked)
        };
        sum = sum.saturating_add(unpacked);
        at += ENTRY_BYTES + name + extra + comment;
    }
    Some(sum)
}

/// The unpacked size in a ZIP64 extra field, which comes first in it.
fn zip64_size(mut extra: &[u8]) -> Option<u64> {
    loop {
        let (id, len) = (read_u16(extra, 0)?, usize::from(read_u16(extra, 2)?));
        let data = extra.get(4..4 + len)?;
        if id == 1 {
            return data.get(..8)?.try_into().ok().map(u64::from_le_bytes);
        }
        extra = &extra[4 + len..];
    }
}

fn read_u16(bytes: &[u8], at: usize) -> Option<u16> {
    bytes
        .get(at..at + 2)?
        .try_into()
        .ok()
        .map(u16::from_le_bytes)
}

fn read_u32(bytes: &[u8], at: usize) -> Option<u32> {
    bytes
        .get(at..at + 4)?
        .try_into()
        .ok()
        .map(u32::from_le_bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A central directory and its end as APPNOTE.TXT lays them out, without the data of the entries.
    fn archive(entries: &[(u32, &[u8])], padding: usize) -> Vec<u8> {
        let mut bytes = vec![b'x'; padding];
        let start = bytes.len();
        for (unpacked, extra) in entries {
            let mut entry = vec![0; ENTRY_BYTES];
            entry[..4].copy_from_slice(&ENTRY);
            entry[24..28].copy_from_slice(&unpacked.to_le_bytes());
            entry[28..30].copy_from_slice(&1_u16.to_le_bytes());
            entry[30..32].copy_from_slice(&(extra.len() as u16).to_le_bytes());
            entry.push(b'a');
            entry.extend_from_slice(extra);
            bytes.extend(entry);
        }
        let size = (bytes.len() - start) as u32;
        let mut end = vec![0; END_BYTES];
        end[..4].copy_from_slice(&END);
        end[12..16].copy_from_slice(&size.to_le_bytes());
        bytes.extend(end);
        bytes
    }

    #[test]
    fn honest_archives_pass_and_bombs_do_not() {
        assert_eq!(
            check_zip(&archive(&[(1_000, b""), (2_000, b"")], 500)),
            Ok(())
        );
        assert_eq!(
            declared_bytes(&archive(&[(1_000, b""), (2_000, b"")], 7)),
            Some(3_000)
        );
        let dense = archive(&[(200_000_000, b"")], 1_000);
        assert!(matches!(check_zip(&dense), Err(ZipLimit::TooDense { .. })));
        let large = archive(&[(2_000_000_000, b""), (2_000_000_000, b"")], 0);
        assert_eq!(
            check_zip(&large),
            Err(ZipLimit::TooLarge {
                declared: 4_000_000_000
            })
        );
    }

    #[test]
    fn sizes_beyond_32_bits_are_read_from_their_extra_field() {
        let mut extra = vec![9, 0, 1, 0, 0, 1, 0, 8, 0];
        extra.extend(5_000_000_000_u64.to_le_bytes());
        let archive = archive(&[(IN_ZIP64, &extra)], 3);
        assert_eq!(declared_bytes(&archive), Some(5_000_000_000));
    }

    #[test]
    fn a_torn_directory_is_left_to_the_reader() {
        for len in 0..60 {
            let whole = archive(&[(1_000, b"")], 3);
            assert_eq!(check_zip(&whole[..len.min(whole.len())]), Ok(()), "{len}");
        }
        assert_eq!(check_zip(b"PK"), Ok(()));
    }
}
