//! SHA-256 of bytes, which tells two editions of a file apart and names stored tables by what is in them.
//!
//! # Source
//! FIPS PUB 180-4, Secure Hash Standard, sections 4.1.2, 4.2.2, 5.1.1, 5.3.3 and 6.2. Other tools (`sha256sum`)
//! give the same sum, so that a stored file can be checked without this program.

/// First 32 bits of the fractional parts of the cube roots of the first 64 primes (FIPS 180-4, 4.2.2).
const K: [u32; 64] = [
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
];

/// First 32 bits of the fractional parts of the square roots of the first 8 primes (FIPS 180-4, 5.3.3).
const START: [u32; 8] = [
    0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19,
];

/// Bytes in a block.
const BLOCK: usize = 64;

/// The sum of `bytes`, as 64 lower case hexadecimal digits.
pub fn sha256(bytes: &[u8]) -> String {
    let mut state = START;
    let (blocks, rest) = bytes.as_chunks::<BLOCK>();
    for block in blocks {
        mix(&mut state, block);
    }
    // The message ends with a one bit, zeros, and its length in bits as 64 bits (5.1.1).
    let mut tail = [0u8; 2 * BLOCK];
    tail[..rest.len()].copy_from_slice(rest);
    tail[rest.len()] = 0x80;
    let used = if rest.len() + 9 <= BLOCK {
        BLOCK
    } else {
        2 * BLOCK
    };
    tail[used - 8..used].copy_from_slice(&(bytes.len() as u64 * 8).to_be_bytes());
    for block in tail[..used].as_chunks::<BLOCK>().0 {
        mix(&mut state, block);
    }
    state.iter().map(|word| format!("{word:08x}")).collect()
}

/// Mixes one block into the state (FIPS 180-4, 6.2.2).
fn mix(state: &mut [u32; 8], block: &[u8; BLOCK]) {
    let mut w = [0u32; 64];
    for (word, bytes) in w.iter_mut().zip(block.as_chunks::<4>().0) {
        *word = u32::from_be_bytes(*bytes);
    }
    for t in 16..64 {
        let s0 = w[t - 15].rotate_right(7) ^ w[t - 15].rotate_right(18) ^ (w[t - 15] >> 3);
        let s1 = w[t - 2].rotate_right(17) ^ w[t - 2].rotate_right(19) ^ (w[t - 2] >> 10);
        w[t] = w[t - 16]
            .wrapping_add(s0)
            .wrapping_add(w[t - 7])
            .wrapping_add(s1);
    }
    let [mut a, mut b, mut c, mut d, mut e, mut f, mut g, mut h] = *state;
    for (k, w) in K.iter().zip(w) {
        let sum1 = e.rotate_right(6) ^ e.rotate_right(11) ^ e.rotate_right(25);
        let choice = (e & f) ^ (!e & g);
        let one = h
            .wrapping_add(sum1)
            .wrapping_add(choice)
            .wrapping_add(*k)
            .wrapping_add(w);
        let sum0 = a.rotate_right(2) ^ a.rotate_right(13) ^ a.rotate_right(22);
        let majority = (a & b) ^ (a & c) ^ (b & c);
        let two = sum0.wrapping_add(majority);
        (h, g, f, e) = (g, f, e, d.wrapping_add(one));
        (d, c, b, a) = (c, b, a, one.wrapping_add(two));
    }
    for (word, add) in state.iter_mut().zip([a, b, c, d, e, f, g, h]) {
        *word = word.wrapping_add(add);
    }
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
    fn every_length_around_a_block_has_a_sum_of_its_own() {
        let mut sums: Vec<String> = (0..200).map(|n| sha256(&vec![0; n])).collect();
        sums.sort();
        sums.dedup();
        assert_eq!(sums.len(), 200);
    }
}
