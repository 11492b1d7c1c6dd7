//! Work on several cores with the results in order; the only home of rayon.

use rayon::prelude::*;

/// Does the same with every piece and returns the results in the order of the pieces.
pub fn each<T: Sync, R: Send>(pieces: &[T], work: impl Fn(&T) -> R + Send + Sync) -> Vec<R> {
    pieces.par_iter().map(work).collect()
}

/// Does two things at the same time.
pub fn both<A: Send, B: Send>(
    one: impl FnOnce() -> A + Send,
    other: impl FnOnce() -> B + Send,
) -> (A, B) {
    rayon::join(one, other)
}

/// Pieces worked on at the same time.
pub fn workers() -> usize {
    rayon::current_num_threads()
}
