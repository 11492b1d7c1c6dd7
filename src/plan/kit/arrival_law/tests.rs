use proptest::prelude::*;

use super::*;
use crate::plan::calendar::Calendars;
use crate::plan::lead_time::LeadBasis;
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

fn arrival(likely: &str, late: &str) -> Arrival {
    Arrival {
        likely: at(likely),
        late: at(late),
        mean_days: 0.0,
        basis: LeadBasis::QuoteOnly,
    }
}

proptest! {
    #[test]
    fn the_law_of_goods_keeps_both_moments_that_are_shown(likely in 1_i64..60, more in 1_i64..60) {
        let calendars = Calendars::new(&ShopSettings::default());
        let now = at("2026-03-04T10:30");
        let clock = WorkClock::new(&calendars, now);
        let here = |days: i64| calendars.received(now.date() + chrono::Duration::days(days), now).unwrap();
        let of = Arrival { likely: here(likely), late: here(likely + more), ..arrival("2026-03-05", "2026-03-05") };
        let law = ArrivalLaw::of(&of, &clock);
        prop_assert_eq!(law.quantile(0.5), clock.seconds(of.likely));
        prop_assert_eq!(law.quantile(0.9), clock.seconds(of.late));
        for moment in law.moments() {
            let moment = clock.moment(moment);
            prop_assert_eq!(calendars.received(moment.date(), now), Some(moment));
        }
    }
}

#[test]
fn own_work_is_told_apart_by_the_hour() {
    let calendars = Calendars::new(&ShopSettings::default());
    let clock = WorkClock::new(&calendars, at("2026-03-04T10:30"));
    let law = ArrivalLaw::of(&arrival("2026-03-05T08:30", "2026-03-05T11:30"), &clock);
    assert_eq!(law.quantile(0.5), 22 * 3600);
    assert_eq!(law.quantile(0.9), 25 * 3600);
    let sure = ArrivalLaw::of(&arrival("2026-03-05T08:30", "2026-03-05T08:30"), &clock);
    assert_eq!(sure, ArrivalLaw::certain(22 * 3600));
}
