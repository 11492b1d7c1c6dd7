//! Checks the sector chains of a compound file (old binary workbook) before a reader follows them.
//!
//! A chain that runs in a circle would be followed until memory ends: a file of 6 kB is enough.
//!
//! # Source
//! Microsoft, Compound File Binary File Format [MS-CFB], sections 2.2 (header), 2.3 (FAT), 2.4 (mini FAT), 2.5 (DIFAT),
//! 2.6 (directory).

/// Largest number of a sector that is a sector; above it numbers have meanings of their own.
const MAX_SECTOR: u32 = 0xFFFF_FFFA;
/// Bytes of a directory entry.
const ENTRY: usize = 128;
/// Bytes of a short sector.
const MINI_SECTOR: usize = 64;
/// Type of a directory entry that is a stream.
const STREAM: u8 = 2;
/// Bytes of the header that are read here.
const HEADER: usize = 512;

/// Why a compound file is not handed to the reader.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum OleLimit {
    /// The header ends early or names a sector size there is not.
    #[error("its header is damaged")]
    Header,
    /// A chain of sectors runs in a circle or out of the file.
    #[error("its sectors follow each other in a circle or out of the file")]
    Chain,
}

/// Checks that every chain of sectors comes to an end inside the file.
///
/// # Errors
/// [`OleLimit`] where following a chain would not end.
pub fn check_ole(bytes: &[u8]) -> Result<(), OleLimit> {
    let header = bytes.get(..HEADER).ok_or(OleLimit::Header)?;
    let size = match u16::from_le_bytes([header[30], header[31]]) {
        9 => 512,
        12 => 4096,
        _ => return Err(OleLimit::Header),
    };
    let file = Sectors { bytes, size };
    let fat = file.fat(header)?;
    check_chains(&fat)?;
    let mini_fat = file.chain(word(header, 60), &fat)?;
    let mini_fat: Vec<u32> = mini_fat.iter().flat_map(|sector| words(sector)).collect();
    check_chains(&mini_fat)?;
    let directory = file.chain(word(header, 48), &fat)?.concat();
    let mut mini_bytes = 0;
    for (at, entry) in directory.chunks_exact(ENTRY).enumerate() {
        let (start, bytes) = (word(entry, 116), word(entry, 120) as usize);
        // The first entry holds the short streams; a stream is short below a size that the header names.
        if at == 0 {
            mini_bytes = file.chain(start, &fat)?.concat().len();
        } else if entry[66] == STREAM && bytes >= word(header, 56) as usize {
            file.chain(start, &fat)?;
        } else if entry[66] == STREAM && bytes > 0 {
            check_mini(start, &mini_fat, mini_bytes)?;
        }
    }
    Ok(())
}

/// Follows a chain of short sectors, each of which must lie in the stream that holds them.
fn check_mini(start: u32, mini_fat: &[u32], mini_bytes: usize) -> Result<(), OleLimit> {
    let mut id = start;
    while id <= MAX_SECTOR {
        if id as usize * MINI_SECTOR >= mini_bytes {
            return Err(OleLimit::Chain);
        }
        id = *mini_fat.get(id as usize).ok_or(OleLimit::Chain)?;
    }
    Ok(())
}

/// A file cut into sectors; the header takes the place of the one before the first.
struct Sectors<'a> {
    bytes: &'a [u8],
    size: usize,
}

impl<'a> Sectors<'a> {
    /// A sector, shorter at the end of the file.
    fn sector(&self, id: u32) -> Result<&'a [u8], OleLimit> {
        let start = (id as usize + 1)
            .checked_mul(self.size)
            .ok_or(OleLimit::Chain)?;
        let rest = self.bytes.get(start..).ok_or(OleLimit::Chain)?;
        Ok(&rest[..rest.len().min(self.size)])
    }

    /// The successor of every sector, from the sectors that the header and the DIFAT chain list.
    fn fat(&self, header: &[u8]) -> Result<Vec<u32>, OleLimit> {
        let mut listed: Vec<u32> = words(&header[76..]).collect();
        let mut next = word(header, 68);
        for _ in 0..=self.bytes.len() / self.size {
            if next > MAX_SECTOR {
                break;
            }
            let mut of_sector: Vec<u32> = words(self.sector(next)?).collect();
            next = of_sector.pop().ok_or(OleLimit::Chain)?;
            listed.extend(of_sector);
        }
        if next <= MAX_SECTOR {
            return Err(OleLimit::Chain);
        }
        let mut fat = Vec::new();
        for id in listed.into_iter().filter(|id| *id <= MAX_SECTOR) {
            fat.extend(words(self.sector(id)?));
        }
        Ok(fat)
    }

    /// The sectors of a chain in a FAT that was checked.
    fn chain(&self, start: u32, fat: &[u32]) -> Result<Vec<&'a [u8]>, OleLimit> {
        let mut chain = Vec::new();
        let mut id = start;
        while id <= MAX_SECTOR {
            chain.push(self.sector(id)?);
            id = *fat.get(id as usize).ok_or(OleLimit::Chain)?;
        }
        Ok(chain)
    }
}

/// Follows every chain once: a sector met again on the way of its own chain is a circle.
fn check_chains(fat: &[u32]) -> Result<(), OleLimit> {
    const NEVER: u32 = 0;
    let mut met_from = vec![NEVER; fat.len()];
    for start in 0..fat.len() {
        let way = start as u32 + 1;
        let mut at = start;
        while met_from[at] == NEVER {
            met_from[at] = way;
            let next = fat[at];
            if next > MAX_SECTOR {
                break;
            }
            // Sectors that nothing uses may hold anything; only a way that leads back into itself is refused.
            let Some(known) = met_from.get(next as usize) else {
                break;
            };
            if *known == way {
                return Err(OleLimit::Chain);
            }
            at = next as usize;
        }
    }
    Ok(())
}

/// The 32-bit number at a place of the header.
fn word(header: &[u8], at: usize) -> u32 {
    u32::from_le_bytes([header[at], header[at + 1], header[at + 2], header[at + 3]])
}

/// 32-bit numbers of a sector.
fn words(sector: &[u8]) -> impl Iterator<Item = u32> + '_ {
    sector.chunks_exact(4).map(|bytes| word(bytes, 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A compound file of one FAT sector with the given successors, and a mini FAT that starts at sector 1.
    fn file(successors: &[u32]) -> Vec<u8> {
        let mut bytes = vec![0; HEADER + 512 * 4];
        bytes[30] = 9;
        bytes[60..64].copy_from_slice(&1u32.to_le_bytes());
        bytes[48..52].copy_from_slice(&END.to_le_bytes());
        bytes[68..72].copy_from_slice(&END.to_le_bytes());
        bytes[76..HEADER].fill(0xFF);
        bytes[76..80].copy_from_slice(&0u32.to_le_bytes());
        bytes[HEADER..HEADER + 512].fill(0xFF);
        for (at, next) in successors.iter().enumerate() {
            bytes[HEADER + 4 * at..HEADER + 4 * at + 4].copy_from_slice(&next.to_le_bytes());
        }
        bytes[HEADER + 512..HEADER + 1024].fill(0xFF);
        bytes
    }

    const END: u32 = 0xFFFF_FFFE;

    #[test]
    fn chains_that_end_are_followed() {
        assert_eq!(check_ole(&file(&[0xFFFF_FFFD, END, 3, END])), Ok(()));
    }

    #[test]
    fn a_circle_of_any_length_is_refused() {
        for successors in [
            &[0xFFFF_FFFD, END, 2][..],
            &[0xFFFF_FFFD, END, 3, 2],
            &[0xFFFF_FFFD, 2, 3, 1],
        ] {
            assert_eq!(
                check_ole(&file(successors)),
                Err(OleLimit::Chain),
                "{successors:?}"
            );
        }
    }

    #[test]
    fn a_chain_out_of_the_file_and_a_short_header_are_refused() {
        assert_eq!(
            check_ole(&file(&[0xFFFF_FFFD, 90, END])),
            Err(OleLimit::Chain)
        );
        assert_eq!(check_ole(&[0xD0, 0xCF]), Err(OleLimit::Header));
    }

    #[test]
    fn a_real_old_workbook_passes() {
        let path =
            std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/workbooks/old_binary.xls");
        assert_eq!(check_ole(&std::fs::read(path).unwrap()), Ok(()));
    }
}
