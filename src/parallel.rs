//! Work on several cores with the results in order, the same as on one core; the only home of rayon.

use rayon::prelude::*;

/// Does the same with every piece and returns the results in the order of the pieces.
pub fn each<T: Sync, R: Send>(pieces: &[T], work: impl Fn(&T) -> R + Send + Sync) -> Vec<R> {
    pieces.par_iter().map(work).collect()
}

/// As [`each`], with pieces that are used up.
pub fn each_of<T: Send, R: Send>(pieces: Vec<T>, work: impl Fn(T) -> R + Send + Sync) -> Vec<R> {
    pieces.into_par_iter().map(work).collect()
}

/// Items of a slice that are changed by one worker at a time.
const ITEMS_OF_A_PART: usize = 65_536;

/// Does something to the parts of a slice in place.
pub fn each_part<T: Send>(items: &mut [T], work: impl Fn(&mut [T]) + Send + Sync) {
    items.par_chunks_mut(ITEMS_OF_A_PART).for_each(work);
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
