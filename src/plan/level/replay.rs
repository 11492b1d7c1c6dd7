//! What a level would have done over the recorded past.

use std::collections::VecDeque;
use std::fmt;

/// The recorded past run again with one level, the mean lead time each time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Replay {
    /// Days run.
    pub days: i64,
    /// Usages in them.
    pub usages: usize,
    /// Usages whose whole quantity was on the shelf.
    pub met: usize,
    /// Days that usages waited, each until it had all it takes, over all usages.
    pub waited_days: f64,
    /// Orders placed.
    pub orders: usize,
    /// Units that ended on the shelf.
    pub expired: f64,
    /// Mean number of units on the shelf.
    pub mean_on_hand: f64,
}

/// Dated usages with what came back taken off the last ones before it, as the rate counts them.
pub fn netted(usages: impl IntoIterator<Item = (i64, f64)>) -> Vec<(i64, f64)> {
    let mut kept: Vec<(i64, f64)> = Vec::new();
    for (day, quantity) in usages {
        if quantity > 0.0 {
            kept.push((day, quantity));
            continue;
        }
        let mut returned = -quantity;
        while returned > 1e-9
            && let Some((_, last)) = kept.last_mut()
        {
            let taken = returned.min(*last);
            *last -= taken;
            returned -= taken;
            if *last <= 1e-9 {
                kept.pop();
            }
        }
    }
    kept
}

/// A level that the past is run again with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReplayedLevel {
    /// At so many or fewer, there and on order, it is ordered.
    pub reorder_point: f64,
    /// Units of an order.
    pub quantity: f64,
    /// Days until they come.
    pub lead_days: f64,
    /// Days that they may lie on the shelf; `None` without an end.
    pub life_days: Option<f64>,
}

/// [`ReplayedLevel::over`] with stock that lasts.
pub fn replay(
    usages: &[(i64, f64)],
    days: i64,
    reorder_point: f64,
    quantity: f64,
    lead_days: f64,
) -> Replay {
    let level = ReplayedLevel {
        reorder_point,
        quantity,
        lead_days,
        life_days: None,
    };
    level.over(usages, days)
}

impl ReplayedLevel {
    /// Runs dated usages (day from the start, quantity; returns negative) with the least shelf that orders nothing at the
    /// start, fresh: r + 1. A full one would meet the few usages of a slow mover out of an order that the past never placed.
    ///
    /// Units come `lead_days` after the order that is placed when the stock position falls to the reorder point. The oldest
    /// are used first, and what ends on the shelf is ordered anew when it has ended.
    pub fn over(self, usages: &[(i64, f64)], days: i64) -> Replay {
        let mut result = Replay {
            days,
            usages: 0,
            met: 0,
            waited_days: 0.0,
            orders: 0,
            expired: 0.0,
            mean_on_hand: 0.0,
        };
        let first = (self.reorder_point + 1.0).max(0.0);
        let mut shelf = Shelf {
            level: self,
            net: 0.0,
            position: first,
            now: 0.0,
            coming: VecDeque::new(),
            waiting: VecDeque::new(),
            lots: VecDeque::new(),
        };
        shelf.add(first);
        for (day, used) in usages {
            shelf.pass(*day as f64, &mut result);
            if *used > 0.0 {
                result.usages += 1;
                result.met += usize::from(shelf.net >= *used);
            }
            shelf.take(*used);
            shelf.position -= used;
            shelf.review(&mut result);
        }
        shelf.pass(days as f64, &mut result);
        if days > 0 {
            result.mean_on_hand /= days as f64;
        }
        result
    }
}

/// What is there, and who waits.
struct Shelf {
    level: ReplayedLevel,
    /// On the shelf; below 0 what is waited for.
    net: f64,
    /// On the shelf and on order, less what is waited for.
    position: f64,
    now: f64,
    /// Days and quantities of orders on their way.
    coming: VecDeque<(f64, f64)>,
    /// What each usage that waits still lacks, first come first served.
    waiting: VecDeque<f64>,
    /// Last days and quantities of what is on the shelf, where it ends; the oldest first.
    lots: VecDeque<(f64, f64)>,
}

impl Shelf {
    /// Time goes on, with what comes and ends until then.
    fn pass(&mut self, until: f64, result: &mut Replay) {
        loop {
            let day_of = |of: Option<&(f64, f64)>| of.map_or(f64::INFINITY, |(day, _)| *day);
            let (comes, ends) = (day_of(self.coming.front()), day_of(self.lots.front()));
            let next = comes.min(ends).min(until);
            result.mean_on_hand += self.net.max(0.0) * (next - self.now);
            result.waited_days += self.waiting.len() as f64 * (next - self.now);
            self.now = next;
            if comes <= until && comes <= ends {
                let (_, quantity) = self.coming.pop_front().unwrap_or_default();
                self.add(quantity);
            } else if ends <= until {
                let (_, left) = self.lots.pop_front().unwrap_or_default();
                self.net -= left;
                self.position -= left;
                result.expired += left;
                self.review(result);
            } else {
                break;
            }
        }
    }

    /// All that is due at the same moment is one order.
    fn review(&mut self, result: &mut Replay) {
        let level = self.level;
        let mut ordered = 0.0;
        while self.position + ordered <= level.reorder_point && level.quantity > 0.0 {
            ordered += level.quantity;
        }
        if ordered > 0.0 {
            self.position += ordered;
            result.orders += 1;
            let comes = self.now + level.lead_days;
            self.coming.push_back((comes, ordered));
        }
    }

    fn take(&mut self, used: f64) {
        if used < 0.0 {
            self.add(-used);
            return;
        }
        let there = self.net.clamp(0.0, used);
        let lacks = used - there;
        if lacks > 1e-9 {
            self.waiting.push_back(lacks);
        }
        self.net -= used;
        let mut taken = there;
        while let Some((_, left)) = self.lots.front_mut().filter(|_| taken > 1e-9) {
            let of_lot = left.min(taken);
            *left -= of_lot;
            taken -= of_lot;
            if *left <= 1e-9 {
                self.lots.pop_front();
            }
        }
    }

    fn add(&mut self, quantity: f64) {
        self.net += quantity;
        let mut left = quantity;
        while let Some(lacks) = self.waiting.front_mut() {
            let given = lacks.min(left);
            *lacks -= given;
            left -= given;
            if *lacks > 1e-9 {
                break;
            }
            self.waiting.pop_front();
        }
        if let Some(life_days) = self.level.life_days.filter(|_| left > 1e-9) {
            self.lots.push_back((self.now + life_days, left));
        }
    }
}

impl fmt::Display for Replay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.usages == 0 {
            return write!(f, "no usage in {} recorded days", self.days);
        }
        write!(
            f,
            "{} of {} usages of the last {} days from the shelf",
            self.met, self.usages, self.days
        )?;
        if self.waited_days > 0.05 {
            write!(f, ", {:.0} days waited in all", self.waited_days)?;
        }
        write!(
            f,
            "; {} orders, {:.1} on the shelf on average",
            self.orders, self.mean_on_hand
        )?;
        if self.expired > 0.05 {
            write!(f, ", {:.1} ended there", self.expired)?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_past_worked_through_by_hand() {
        // One kept, 10 days to get another. Day 5 takes it; its order comes on day 15 and serves day 8, which waited 7
        // days; the order of day 8 comes on day 18.
        let past = replay(&[(5, 1.0), (8, 1.0), (30, 1.0)], 40, 0.0, 1.0, 10.0);
        assert_eq!((past.usages, past.met, past.orders), (3, 2, 3));
        assert!((past.waited_days - 7.0).abs() < 1e-9);
        // On the shelf: days 0-5, 18-30 and 40-40: 17 of 40.
        assert!((past.mean_on_hand - 17.0 / 40.0).abs() < 1e-9);
        // Nothing kept: everything waits 10 days.
        let none = replay(&[(5, 1.0), (20, 1.0)], 40, -1.0, 1.0, 10.0);
        assert_eq!(none.met, 0);
        assert!((none.waited_days - 20.0).abs() < 1e-9);
    }

    #[test]
    fn a_usage_of_four_waits_once_until_the_fourth_is_there() {
        // One kept, orders of two in ten days. Day 5 takes four: one is there, three wait, and an order of two twos comes on day 15:
        // ten days, not thirty. One of them is left, which day 20 takes with two more that come on day 30 (by hand).
        let past = replay(&[(5, 4.0), (20, 3.0)], 40, 0.0, 2.0, 10.0);
        assert_eq!((past.usages, past.met, past.orders), (2, 0, 2));
        assert!((past.waited_days - 20.0).abs() < 1e-9, "{past:?}");
    }

    #[test]
    fn what_ends_on_the_shelf_serves_nobody_and_is_ordered_anew() {
        // None kept, ten at a time in ten days, each for 50 days. Day 5 waits until day 15; nine are left, of which day 40 takes
        // one and eight end on day 65. Day 100 waits again, for an order that comes on day 110 (by hand).
        let level = ReplayedLevel {
            reorder_point: -1.0,
            quantity: 10.0,
            lead_days: 10.0,
            life_days: Some(50.0),
        };
        let usages = [(5, 1.0), (40, 1.0), (100, 1.0)];
        let past = level.over(&usages, 120);
        assert_eq!((past.usages, past.met, past.orders), (3, 1, 2));
        assert!((past.waited_days - 20.0).abs() < 1e-9 && (past.expired - 8.0).abs() < 1e-9);
        let on_hand = 9.0 * 25.0 + 8.0 * 25.0 + 9.0 * 10.0;
        assert!(
            (past.mean_on_hand - on_hand / 120.0).abs() < 1e-9,
            "{past:?}"
        );
        assert!(past.to_string().ends_with(" on average, 8.0 ended there"));
        // One kept, one at a time: it ends on day 50, the next one is there from day 60 on and taken on day 100.
        let one = ReplayedLevel {
            reorder_point: 0.0,
            quantity: 1.0,
            ..level
        };
        let past = one.over(&[(55, 1.0), (100, 1.0)], 120);
        // Day 55 takes the one that comes on day 60; its own order comes on day 65 for day 100, whose order comes on day 110.
        assert_eq!((past.met, past.orders), (1, 3));
        assert!((past.waited_days - 5.0).abs() < 1e-9 && (past.expired - 1.0).abs() < 1e-9);
        // Without an end nothing but the first one waits.
        let lasting = ReplayedLevel {
            life_days: None,
            ..level
        };
        assert_eq!(lasting.over(&usages, 120).met, 2);
    }

    #[test]
    fn what_came_back_is_no_usage() {
        // By hand: of the two that come back on day 9 one is that of day 8 and one of the two of day 5; what comes back before
        // anything was used is left out.
        let usages = [(1, -1.0), (5, 2.0), (8, 1.0), (9, -2.0), (12, 1.0)];
        let kept = netted(usages);
        assert_eq!(kept, [(5, 1.0), (12, 1.0)]);
        let past = replay(&kept, 40, 0.0, 1.0, 3.0);
        assert_eq!((past.usages, past.met), (2, 2));
    }

    #[test]
    fn an_order_of_many_pieces_is_not_there_before_it_is_placed() {
        // Two on the shelf, ten at a time in twenty days. Day 10 takes one: one is left, which is the reorder point, and ten
        // come on day 30. Day 20 takes the last, day 25 waits for five days; eight of ten are left from day 30 on, seven
        // from day 40.
        let usages = [(10, 1.0), (20, 1.0), (25, 1.0), (40, 2.0)];
        let past = replay(&usages, 50, 1.0, 10.0, 20.0);
        assert_eq!((past.usages, past.met, past.orders), (4, 3, 1));
        assert!((past.waited_days - 5.0).abs() < 1e-9);
        let on_hand = 2.0 * 10.0 + 1.0 * 10.0 + 9.0 * 10.0 + 7.0 * 10.0;
        assert!((past.mean_on_hand - on_hand / 50.0).abs() < 1e-9);
        // Nothing is kept of it and nothing was used: nothing was ordered either.
        assert_eq!(replay(&[], 50, -1.0, 10.0, 20.0).orders, 0);
    }
}
