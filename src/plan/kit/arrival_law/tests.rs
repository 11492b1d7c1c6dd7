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
    let first = a.first_of(&b);
    assert!((first.share_by(1) - 1.0 / 3.0).abs() < 1e-12);
    assert!((first.share_by(2) - (1.0 - 1.0 / 3.0 * 0.5)).abs() < 1e-12);
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
