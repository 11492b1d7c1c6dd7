//! The bytes of a file within the limits; a large file is read in pieces on all cores.

use std::fs::{self, File};
use std::io::{self, Read, Seek, SeekFrom};
use std::path::Path;

use super::file_problem::FileError;
use super::limits::MAX_FILE_BYTES;
use crate::parallel;

/// Bytes read in one piece; files up to it are read whole.
const PIECE_BYTES: usize = 4 * 1024 * 1024;

/// The bytes of a file within the limits.
///
/// # Errors
/// [`FileError`] for a file that cannot be read, is too large or blank.
pub fn read_bytes(path: &Path) -> Result<Vec<u8>, FileError> {
    let bytes = fs::metadata(path)?.len();
    if bytes > MAX_FILE_BYTES {
        return Err(FileError::TooLarge { bytes });
    }
    let in_pieces = (bytes > PIECE_BYTES as u64)
        .then(|| read_in_pieces(path, bytes as usize).ok())
        .flatten()
        // Someone may have written to it meanwhile.
        .filter(|_| fs::metadata(path).is_ok_and(|data| data.len() == bytes));
    let read = match in_pieces {
        Some(read) => read,
        None => fs::read(path)?,
    };
    if read.is_empty() {
        Err(FileError::Empty)
    } else {
        Ok(read)
    }
}

fn read_in_pieces(path: &Path, bytes: usize) -> io::Result<Vec<u8>> {
    let mut read = vec![0; bytes];
    parallel::each_piece(&mut read, PIECE_BYTES, |start, piece| {
        let mut file = File::open(path)?;
        file.seek(SeekFrom::Start(start as u64))?;
        file.read_exact(piece)
    })?;
    Ok(read)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_of_several_pieces_is_read_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("long.csv");
        for bytes in [1, PIECE_BYTES, PIECE_BYTES + 1, 3 * PIECE_BYTES - 7] {
            let written: Vec<u8> = (0..bytes).map(|at| (at % 251) as u8).collect();
            fs::write(&path, &written).unwrap();
            assert!(read_bytes(&path).unwrap() == written, "{bytes}");
        }
        fs::write(&path, "").unwrap();
        assert!(matches!(read_bytes(&path), Err(FileError::Empty)));
    }
}
