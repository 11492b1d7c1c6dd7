use super::*;

/// A giver that comes on one of some days, each as likely.
fn giver(quantity: f64, whose: Option<&str>, days: &[i64]) -> Giver {
    let share = |n: usize| (n + 1) as f64 / days.len() as f64;
    Giver {
        quantity,
        whose: whose.map(str::to_owned),
        law: Arc::new(ArrivalLaw::new(
            days.iter().enumerate().map(|(n, day)| (*day, share(n))),
        )),
    }
}

fn shares(givers: &[Giver], needed: f64, how: Lateness) -> Vec<f64> {
    let law = enough_of(givers, needed, how).unwrap();
    (1..=4).map(|day| law.share_by(day)).collect()
}

fn assert_close(found: &[f64], expected: &[f64]) {
    for (found, expected) in found.iter().zip(expected) {
        assert!((found - expected).abs() < 1e-12, "{found} {expected}");
    }
}

#[test]
fn the_first_of_two_that_are_each_enough_counts() {
    // By hand: A on day 1, 2 or 3, B on day 2 or 4. Neither is here by day 2 in 1/3 x 1/2 of the cases; where both are late
    // together, the one that is likelier to be here decides.
    let apart = [1.0 / 3.0, 5.0 / 6.0, 1.0, 1.0];
    let together = [1.0 / 3.0, 2.0 / 3.0, 1.0, 1.0];
    for (whose, how, expected) in [
        ([Some("a"), Some("b")], Lateness::Apart, apart),
        ([Some("a"), Some("b")], Lateness::Together, together),
        ([Some("a"), Some("a")], Lateness::Apart, together),
        ([Some("a"), None], Lateness::Apart, together),
    ] {
        let givers = [
            giver(1.0, whose[0], &[1, 2, 3]),
            giver(1.0, whose[1], &[2, 4]),
        ];
        assert_close(&shares(&givers, 1.0, how), &expected);
    }
}

#[test]
fn small_ones_make_up_a_quantity_together() {
    // By hand: A and B give one each, C gives two. Two are here where C is, or else both others: by day 2 that is
    // 1/4 + 3/4 x 2/3 x 1/2 = 1/2, by day 3 1/2 + 1/2 x 1 x 1/2 = 3/4.
    let givers = [
        giver(1.0, Some("a"), &[1, 2, 3]),
        giver(1.0, Some("b"), &[2, 4]),
        giver(2.0, Some("c"), &[1, 3, 4, 4]),
    ];
    let found = shares(&givers, 2.0, Lateness::Apart);
    assert_close(&found, &[0.25, 0.5, 0.75, 1.0]);
    assert!(enough_of(&givers, 4.0, Lateness::Apart).is_some());
    assert!(enough_of(&givers, 4.5, Lateness::Apart).is_none());
    assert!(enough_of(&[], 1.0, Lateness::Together).is_none());
}

/// Against trying every case: each supplier comes in one of three cases, and all its orders in the same one.
#[test]
fn every_case_tried_gives_the_same_shares() {
    let mut state = 9_u64;
    let mut roll = |below: u64| {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        (state >> 33) % below
    };
    for _ in 0..200 {
        let mut orders: Vec<(f64, usize, [i64; 3])> = Vec::new();
        for _ in 0..=roll(4) {
            let mut days = [0; 3].map(|_: i64| 1 + roll(6) as i64);
            days.sort_unstable();
            orders.push(((1 + roll(3)) as f64, roll(3) as usize, days));
        }
        let all: f64 = orders.iter().map(|(quantity, ..)| quantity).sum();
        let needed = (1 + roll(all as u64)) as f64;
        let givers: Vec<Giver> = orders
            .iter()
            .map(|(quantity, whose, days)| giver(*quantity, Some(["a", "b", "c"][*whose]), days))
            .collect();
        let law = enough_of(&givers, needed, Lateness::Apart).unwrap();
        for day in 1..=6 {
            let is_enough = |case: usize| {
                let cases = [case % 3, case / 3 % 3, case / 9];
                let here = orders
                    .iter()
                    .filter(|(_, whose, days)| days[cases[*whose]] <= day);
                here.map(|(quantity, ..)| quantity).sum::<f64>() >= needed
            };
            let tried = (0..27).filter(|case| is_enough(*case)).count() as f64 / 27.0;
            assert!((law.share_by(day) - tried).abs() < 1e-9, "{orders:?}");
        }
    }
}
