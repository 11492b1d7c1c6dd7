//! Holds back a panic of a foreign reader, so that one damaged file never ends the run.

use std::cell::Cell;
use std::panic::{self, AssertUnwindSafe};
use std::sync::Once;

thread_local! {
    /// True while a foreign reader works on this thread.
    static IS_READING: Cell<bool> = const { Cell::new(false) };
}

/// Runs a foreign reader; `None` where it panicked. Nothing is printed then: the file is reported as damaged instead.
///
/// What the reader was building is dropped with the panic, so that nothing half made is seen.
pub fn guarded<T>(read: impl FnOnce() -> T) -> Option<T> {
    static QUIET: Once = Once::new();
    QUIET.call_once(|| {
        let print = panic::take_hook();
        panic::set_hook(Box::new(move |info| {
            if !IS_READING.get() {
                print(info);
            }
        }));
    });
    let before = IS_READING.replace(true);
    let done = panic::catch_unwind(AssertUnwindSafe(read)).ok();
    IS_READING.set(before);
    done
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_of_a_reader_becomes_nothing_and_later_reads_go_on() {
        let empty: [u8; 0] = [];
        assert_eq!(guarded(|| empty[usize::from(std::process::id() > 0)]), None);
        assert_eq!(guarded(|| 7), Some(7));
    }
}
