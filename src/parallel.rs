//! Work on several cores with the results in order, the same as on one core; the only home of rayon.

use rayon::prelude::*;

/// Does the same with every piece and returns the results in the order of the pieces.
pub fn each<T: Sync, R: Send>(pieces: &[T], work: impl Fn(&T) -> R + Send + Sync) -> Vec<R> {
    pieces.par_iter().map(work).collect()
}

/// Does the same with every piece of a slice, which it is told the start of; the first error stops it.
pub fn each_piece<T: Send, E: Send>(
    items: &mut [T],
    size: usize,
    work: impl Fn(usize, &mut [T]) -> Result<(), E> + Send + Sync,
) -> Result<(), E> {
    (items.par_chunks_mut(size).enumerate()).try_for_each(|(at, piece)| work(at * size, piece))
}

/// Changes every piece.
pub fn each_mut<T: Send>(pieces: &mut [T], work: impl Fn(&mut T) + Send + Sync) {
    pieces.par_iter_mut().for_each(work);
}

/// As [`each`], with pieces that are used up.
pub fn each_of<T: Send, R: Send>(pieces: Vec<T>, work: impl Fn(T) -> R + Send + Sync) -> Vec<R> {
    pieces.into_par_iter().map(work).collect()
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

/// Does something on so many threads, for tests that results do not depend on their number.
#[cfg(test)]
pub fn on<R: Send>(threads: usize, work: impl FnOnce() -> R + Send) -> R {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
    pool.expect("a few threads can be had").install(work)
}
