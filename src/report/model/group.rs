//! Sheets that are handed over together, because one reads another.

use std::convert::Infallible;
use std::ops::Deref;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};

use super::sheet::Sheet;

/// Sheets of which formulas read each other and no other; several writers may hold them at a time.
#[derive(Debug, Clone)]
pub struct Group(Arc<Held>);

/// The sheets, as long as somebody holds them.
#[derive(Debug)]
struct Held {
    sheets: Vec<Sheet>,
    /// Goes with them, which whoever waits for that hears.
    _held: Sender<Infallible>,
}

/// Waits until nobody holds a group any more.
#[derive(Debug)]
pub struct Release(Receiver<Infallible>);

/// Sheets of a group that are not made yet.
#[derive(Debug)]
pub struct ToMake<F> {
    /// They may take much of the memory that the report may have: what is held of others goes first.
    pub is_long: bool,
    /// Makes them.
    pub make: F,
}

impl Release {
    /// Waits.
    pub fn wait(&self) {
        // Nothing is ever sent: it ends where the sender does.
        let _ = self.0.recv();
    }

    /// True where nobody holds it.
    pub fn is_over(&self) -> bool {
        matches!(
            self.0.try_recv(),
            Err(std::sync::mpsc::TryRecvError::Disconnected)
        )
    }
}

impl Group {
    /// Takes the sheets.
    pub fn new(sheets: Vec<Sheet>) -> (Self, Release) {
        let (held, release) = channel();
        let held = Held {
            sheets,
            _held: held,
        };
        (Self(Arc::new(held)), Release(release))
    }

    /// Cells of its rows.
    pub fn cells(&self) -> usize {
        let of_sheet = |sheet: &Sheet| sheet.rows.len() * sheet.columns.len();
        self.iter().map(of_sheet).sum()
    }
}

impl Deref for Group {
    type Target = [Sheet];

    fn deref(&self) -> &[Sheet] {
        &self.0.sheets
    }
}

#[cfg(test)]
mod tests {
    use super::super::sheet::Row;
    use super::*;

    #[test]
    fn a_group_is_released_by_the_last_that_holds_it() {
        let mut sheet = Sheet::new("a", "A", "?");
        sheet.rows = vec![Row::default(); 3];
        let (group, release) = Group::new(vec![sheet]);
        assert_eq!((group.len(), group.cells()), (1, 0));
        let other = group.clone();
        drop(group);
        assert!(!release.is_over());
        let reader = std::thread::spawn(move || other[0].rows.len());
        release.wait();
        assert!(release.is_over());
        assert_eq!(reader.join().unwrap(), 3);
    }
}
