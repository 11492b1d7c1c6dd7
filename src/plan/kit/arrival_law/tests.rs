use proptest::prelude::*;

use super::*;
use crate::plan::calendar::Calendars;
use crate::plan::lead_time::{HourClock, LeadBasis};
use crate::plan::sample::at;
use crate::record::ShopSettings;

fn days(days: &[i64]) -> ArrivalLaw {
    let share = |n: usize| (n + 1) as f64 / days.len() as f64;
    ArrivalLaw::new(days.iter().enumerate().map(|(n, day)| (*day, share(n))))
}

#[test]
fn the_last_of_two_is_the_product_and_together_the_least() {
    // By hand: A on day 1, 2 or 3, B on day 2 or 4, each as likely.
    let (a, b) = (days(&[1, 2, 3]), days(&[2, 4]));
    let last = ArrivalLaw::last_of(&[&a, &b]);
    assert!((last.share_by(2) - 2.0 / 3.0 * 0.5).abs() < 1e-12);
    assert!((last.share_by(3) - 0.5).abs() < 1e-12);
    let together = ArrivalLaw::last_together(&[&a, &b]);
    assert!((together.share_by(2) - 0.5).abs() < 1e-12);
    assert_eq!((last.quantile(0.5), together.quantile(0.5)), (3, 2));
    assert!((last.mean_s() - (2.0 / 3.0 + 0.5 + 2.0)).abs() < 1e-12);
}

/// Own work of so many hours from a Wednesday at half past ten.
fn work(calendars: &Calendars, hours: f64) -> Arrival {
    let (now, basis) = (at("2026-03-04T10:30"), LeadBasis::WorkEstimate);
    Arrival::of_hours(calendars, hours, now, HourClock::Maintenance, basis).unwrap()
}

proptest! {
    #[test]
    fn the_law_keeps_the_moments_that_are_shown(hours in 1_i64..200) {
        let calendars = Calendars::new(&ShopSettings::default());
        let clock = WorkClock::new(&calendars, at("2026-03-04T10:30"));
        let of = work(&calendars, hours as f64 / 2.0);
        let law = ArrivalLaw::of(&of, &calendars, &clock);
        prop_assert_eq!(law.quantile(0.5), clock.seconds(of.likely));
        prop_assert_eq!(law.quantile(0.8), clock.seconds(of.fairly));
        prop_assert_eq!(law.quantile(0.9), clock.seconds(of.late));
    }
}

#[test]
fn what_is_there_is_certain() {
    let calendars = Calendars::new(&ShopSettings::default());
    let clock = WorkClock::new(&calendars, at("2026-03-04T10:30"));
    let sure = ArrivalLaw::of(
        &Arrival::on_shelf(at("2026-03-05T08:30")),
        &calendars,
        &clock,
    );
    assert_eq!(sure, ArrivalLaw::certain(22 * 3600));
}

#[test]
fn a_law_asked_for_twice_is_the_same_and_running_again_is_the_arrival_moved_by_its_work() {
    let settings = ShopSettings::from_toml("").unwrap();
    let calendars = Calendars::new(&settings);
    let clock = WorkClock::new(&calendars, at("2026-03-04T10:30"));
    let of_shop = ShopLaws::default();
    let laws = KnownLaws::new(&of_shop);
    let arrival = |hours: f64| {
        let from = at("2026-03-04T10:30");
        let basis = LeadBasis::FromCounter;
        Arrival::of_hours(&calendars, hours, from, HourClock::Elapsed, basis).unwrap()
    };
    let (near, far) = (arrival(3.0), arrival(40.0));
    let first = laws.of(&near, &calendars, &clock);
    assert!(Arc::ptr_eq(&first, &laws.of(&near, &calendars, &clock)));
    assert_ne!(*first, *laws.of(&far, &calendars, &clock));
    // Another kit of the shop takes the very same, and so do kits that are planned at the same time.
    let of_other = crate::parallel::each(&[near, far, near, far, near], |arrival| {
        of_shop.of(arrival, &calendars, &clock)
    });
    for (law, arrival) in of_other.iter().zip([near, far, near, far, near]) {
        let again = KnownLaws::new(&of_shop).of(&arrival, &calendars, &clock);
        assert!(Arc::ptr_eq(law, &again));
        assert_eq!(**law, ArrivalLaw::of(&arrival, &calendars, &clock));
    }
    assert!(Arc::ptr_eq(&first, &of_other[0]));
    // Two hours of work after each moment, and four; each asked for twice.
    for work_s in [7_200, 14_400] {
        let up = |moment: i64| clock.done(moment, work_s);
        let places = (&calendars, &clock);
        let running = laws.running(&near, work_s, places, up).unwrap();
        assert_eq!(*running, first.mapped(up).unwrap());
        let again = laws.running(&near, work_s, places, |_| None);
        assert!(Arc::ptr_eq(&running, &again.unwrap()), "{work_s}");
        assert!(running.mean_s() >= first.mean_s() + work_s as f64 - 1e-6);
    }
    // A calendar that is closed for good knows no moment.
    assert!(
        laws.running(&far, 1, (&calendars, &clock), |_| None)
            .is_none()
    );
}
