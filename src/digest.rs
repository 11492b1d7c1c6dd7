//! SHA-256 of bytes, which tells two editions of a file apart and names stored tables by what is in them.
//!
//! Other tools (`sha256sum`) give the same sum, so that a stored file can be checked without this program. The only home
//! of sha2.

use sha2::{Digest, Sha256};

/// The sum of `bytes`, as 64 lower case hexadecimal digits.
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes)
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect()
}

/// The first eight bytes of the sum, which show damage; not enough against someone who means to deceive.
pub fn short_sum(bytes: &[u8]) -> u64 {
    let sum = Sha256::digest(bytes);
    let mut first = [0; 8];
    first.copy_from_slice(&sum[..8]);
    u64::from_be_bytes(first)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_agree_with_the_published_examples() {
        // NIST, Secure Hash Standard, example values for SHA-256 (one block, two blocks), and the empty and
        // million-letter messages of the NIST validation set.
        let million = vec![b'a'; 1_000_000];
        for (message, sum) in [
            (
                &b""[..],
                "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
            ),
            (
                b"abc",
                "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
            ),
            (
                b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
                "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
            ),
            (
                &million,
                "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0",
            ),
        ] {
            assert_eq!(sha256(message), sum);
        }
    }

    #[test]
    fn the_short_sum_is_the_beginning_of_the_sum() {
        assert_eq!(format!("{:016x}", short_sum(b"abc")), sha256(b"abc")[..16]);
    }

    #[test]
    fn every_length_around_a_block_has_a_sum_of_its_own() {
        let mut sums: Vec<String> = (0..200).map(|n| sha256(&vec![0; n])).collect();
        sums.sort();
        sums.dedup();
        assert_eq!(sums.len(), 200);
    }
}
