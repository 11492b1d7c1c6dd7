//! Whether a rebuild waits for an order on its way that may come late, or a second one is placed for it.

use super::choice::{OrderedBefore, Wanted, choices};
use super::late_hours::mean_late_h;
use super::rebuild_need::RebuildNeed;
use super::sourcing::Sourcing;
use super::supply::{Source, Supply};
use super::tolerance::TOLERANCE;
use crate::place::Place;

/// Lines of one rebuild that want the same parts and wait together: it stands until the last of them is there, so that a
/// second order helps only if it is for all of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Together {
    /// What no open order covers yet, and what those cover that are not surely in time.
    wanted: f64,
    /// What each of these is to bring.
    waited_for: Vec<(Place, f64)>,
}

impl Together {
    /// Of one of the needs of a rebuild.
    pub fn of(needs: &[RebuildNeed], at: usize) -> Self {
        let of_need = &needs[at];
        let alike = needs
            .iter()
            .filter(|other| other.accepted == of_need.accepted && other.unit == of_need.unit);
        let mut all = Self {
            wanted: 0.0,
            waited_for: Vec::new(),
        };
        for need in alike {
            all.wanted += need.short;
            for supply in &need.supplies {
                let is_late = supply.arrival.late.date() > need.needed_by;
                if let (Source::OpenOrder { place, .. }, true) = (&supply.source, is_late) {
                    all.wanted += supply.quantity;
                    all.waited_for.push((place.clone(), supply.quantity));
                }
            }
        }
        all
    }

    /// How many an order is to bring for them, of which so many are still to be had.
    fn of_order(&self, open: &Supply) -> f64 {
        let Source::OpenOrder { place, .. } = &open.source else {
            return open.quantity;
        };
        let before = self.waited_for.iter().filter(|(of, _)| of == place);
        let before: f64 = before.map(|(_, quantity)| quantity).sum();
        self.wanted.min(before + open.quantity)
    }
}

/// True where a second order costs less, with its freight, than the waiting that it saves on the average: the machine then
/// runs again with whichever comes first.
///
/// `open` has all that is left of the order on its way. Never where even its late case is in time, or nobody knows what an
/// hour of the machine costs.
pub fn second_order_pays(
    sourcing: &Sourcing<'_>,
    need: &RebuildNeed,
    open: &Supply,
    together: &Together,
) -> bool {
    let is_late = open.arrival.late.date() > need.needed_by;
    let Some(waits) = need.waits_from().filter(|_| is_late) else {
        return false;
    };
    let quantity = together.of_order(open);
    let wanted = Wanted {
        parts: &need.accepted,
        quantity,
        unit: need.unit,
        needed_by: Some(need.needed_by),
        waiting: None,
        until: None,
        waits: &[waits],
    };
    let Ok(found) = choices(sourcing, wanted, &OrderedBefore::default()) else {
        return false;
    };
    let calendars = &sourcing.calendars;
    let on_its_way = open.arrival.distribution(calendars);
    let alone_h = mean_late_h(calendars, &[&on_its_way], need.needed_by);
    let hour_cents = waits.hour.cents as f64;
    found.iter().any(|choice| {
        let Some(cost) = choice.cost.filter(|_| choice.gives >= quantity - TOLERANCE) else {
            return false;
        };
        let paid = cost.cents.saturating_add(choice.freight.cents) as f64;
        if paid >= alone_h * hour_cents {
            return false;
        }
        let new = choice.arrival.distribution(calendars);
        let both_h = mean_late_h(calendars, &[&on_its_way, &new], need.needed_by);
        (alone_h - both_h) * hour_cents > paid
    })
}

#[cfg(test)]
mod tests {
    use crate::plan::Plan;
    use crate::plan::sample::{Sample, day, price, workdays};

    /// A rebuild on 25 March with one on order since 23 February that is promised for 16 March, and Birch that sells another
    /// for so much in two working days.
    fn plan(hour: Option<f64>, needed: &str, each: f64) -> Plan {
        let mut sample = Sample::new("");
        sample.supplier("Alder", |_| {});
        sample.supplier("Birch", |_| {});
        sample.machine("M1", hour, None);
        let part = sample.part("A");
        sample.offer(part, "Birch", workdays(2.0), |offer| {
            offer.price = price(each);
        });
        sample.receipt(part, "Alder", "2026-02-23", Some(21), None);
        sample.kit("K");
        sample.line(Some(part), 1.0, &[], |_| {});
        sample.planned(needed);
        sample.plan()
    }

    #[test]
    fn lines_of_one_rebuild_decide_together() {
        // Twelve are on order and wanted; the mean wait at 100.00 an hour costs some of the prices
        // tried and not others. A machine waits once, whether one line asks for twelve or twelve lines for one each.
        let covered = |lines: usize, each: f64| {
            let open = plan(None, "2026-03-25", 20.0).open_orders[0]
                .arrival
                .unwrap();
            let mut sample = Sample::new("");
            sample.supplier("Alder", |_| {});
            sample.supplier("Birch", |_| {});
            sample.machine("M1", Some(100.0), None);
            let part = sample.part("A");
            sample.offer(part, "Birch", workdays(2.0), |offer| {
                offer.price = price(each);
            });
            sample.receipt(part, "Alder", "2026-02-23", Some(21), None);
            sample.shop.receipts[0].record.quantity = Some(12.0);
            sample.kit("K");
            for _ in 0..lines {
                sample.line(Some(part), 12.0 / lines as f64, &[], |_| {});
            }
            sample.planned(&open.likely.date().to_string());
            let needs = sample.plan().needs;
            let supplies = needs.iter().flat_map(|need| &need.supplies);
            supplies.map(|supply| supply.quantity).sum::<f64>()
        };
        let mut seen = Vec::new();
        for each in [1.0, 20.0, 50.0, 100.0, 150.0, 300.0, 600.0, 1e6] {
            let once = covered(1, each);
            for lines in [2, 3, 12] {
                let found = covered(lines, each);
                assert!(
                    (found - once).abs() < 1e-9,
                    "{each} {lines}: {found} {once}"
                );
            }
            seen.push(once > 6.0);
        }
        assert!(seen.contains(&true) && seen.contains(&false), "{seen:?}");
    }

    #[test]
    fn a_second_order_is_placed_where_waiting_for_the_first_costs_more() {
        let open = plan(None, "2026-03-25", 20.0).open_orders[0]
            .arrival
            .unwrap();
        let (likely, late) = (open.likely.date(), open.late.date());
        assert!(likely < late, "{open:?}");
        let needed = likely.to_string();
        // In time in half of the cases only: days of waiting in the others, at 100.00 an hour far more than 20.00.
        let bought = plan(Some(100.0), &needed, 20.0);
        assert!(bought.needs[0].supplies.is_empty());
        assert_eq!(bought.reorder.lines[0].buy.supplier, "Birch");
        // Dearer than any waiting, or nobody knows what it costs: it is waited for.
        for (hour, each) in [(Some(100.0), 1e6), (None, 20.0)] {
            let waited = plan(hour, &needed, each);
            assert_eq!(waited.needs[0].supplies.len(), 1, "{hour:?} {each}");
            assert!(waited.reorder.lines.is_empty());
        }
        // In time in nine of ten cases nobody orders twice.
        let sure = plan(Some(100.0), &late.to_string(), 20.0);
        assert_eq!(sure.needs[0].supplies.len(), 1);
        assert!(late > day("2026-03-04"));
    }
}
