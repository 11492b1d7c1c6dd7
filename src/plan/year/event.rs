//! What happens, in order of time.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// What happens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum What {
    /// From here on things are counted.
    Measuring,
    /// A lot ends: what is left of the first so many pieces is thrown away.
    Expiry { part: usize, first_pieces: f64 },
    /// Goods come.
    Receipt { part: usize, quantity: f64 },
    /// An open order that came too late for the level is so near that it counts again.
    Nears { part: usize, quantity: f64 },
    /// A machine needs a part.
    Usage { part: usize },
    /// An order for a rebuild is placed.
    Order { part: usize, quantity: f64 },
    /// A line of a rebuild with a date is needed.
    Need { need: usize },
    /// Machines of a name leave service: they stand for nothing any more, and take nothing.
    Retirement { machine: usize },
}

/// Something at an hour.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Event {
    at_h: f64,
    number: u64,
    what: What,
}

/// What is still to happen, earliest first; what was told first of what happens at once.
#[derive(Debug, Default)]
pub struct Events {
    heap: BinaryHeap<Event>,
    number: u64,
}

impl Eq for Event {}

impl Ord for Event {
    /// The greatest, which a heap gives first, is the earliest.
    fn cmp(&self, other: &Self) -> Ordering {
        let by_hour = other.at_h.total_cmp(&self.at_h);
        by_hour.then(other.number.cmp(&self.number))
    }
}

impl PartialOrd for Event {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Events {
    /// Something will happen.
    pub fn tell(&mut self, at_h: f64, what: What) {
        self.number += 1;
        self.heap.push(Event {
            at_h,
            number: self.number,
            what,
        });
    }

    /// The next thing that happens.
    pub fn next(&mut self) -> Option<(f64, What)> {
        self.heap.pop().map(|event| (event.at_h, event.what))
    }
}
