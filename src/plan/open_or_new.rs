//! Whether a rebuild waits for an order on its way that may come late, or a second one is placed for it.

use super::choice::{OrderedBefore, Wanted, choices};
use super::late_hours::mean_late_h;
use super::rebuild_need::RebuildNeed;
use super::sourcing::Sourcing;
use super::supply::Supply;

/// Quantities that differ by less are equal.
const TOLERANCE: f64 = 1e-9;

/// True where a second order costs less, with its freight, than the waiting that it saves on the average: the machine then
/// runs again with whichever comes first.
///
/// Never where even the late case of the order on its way is in time, or nobody knows what an hour of the machine costs.
pub fn second_order_pays(sourcing: &Sourcing<'_>, need: &RebuildNeed, open: &Supply) -> bool {
    let is_late = open.arrival.late.date() > need.needed_by;
    let Some(waits) = need.waits_from().filter(|_| is_late) else {
        return false;
    };
    let wanted = Wanted {
        parts: &need.accepted,
        quantity: open.quantity,
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
        let Some(cost) = choice
            .cost
            .filter(|_| choice.gives >= open.quantity - TOLERANCE)
        else {
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
