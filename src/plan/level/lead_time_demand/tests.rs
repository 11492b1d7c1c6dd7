use super::super::demand_table::DemandTable;
use super::super::reorder_quantity::reorder_point_by_cost;
use super::*;

#[test]
fn agrees_with_a_printed_poisson_table() {
    // Cumulative Poisson probabilities as printed to four decimals in the tables of statistics textbooks (for
    // instance Montgomery & Runger, Applied Statistics and Probability for Engineers, appendix; values from
    // memory): mean 1, 2 and 5.
    for (mean, units, printed) in [
        (1.0, 0, 0.3679),
        (1.0, 2, 0.9197),
        (2.0, 3, 0.8571),
        (2.0, 4, 0.9473),
        (5.0, 5, 0.6160),
        (5.0, 9, 0.9682),
    ] {
        let found = LeadTimeDemand::Poisson { mean }.at_most(units);
        assert!(
            (found - printed).abs() <= 0.00005,
            "{mean} {units}: {found}"
        );
    }
}

#[test]
fn a_negative_binomial_of_geometric_moments_is_geometric() {
    // Mean 1, variance 2: size 1, P(X <= n) = 1 - 0.5^(n+1).
    let demand = LeadTimeDemand::new(1.0, 2.0);
    for units in 0..10 {
        let exact = 1.0 - 0.5_f64.powi(units + 1);
        assert!((demand.at_most(units as u64) - exact).abs() < 1e-9);
    }
    assert_eq!(demand.reorder_point(0.95), Some(4));
}

#[test]
fn no_demand_needs_no_reorder_point() {
    let none = LeadTimeDemand::new(0.0, 0.0);
    assert_eq!(none.reorder_point(0.99), Some(0));
}

/// Probabilities of a compound of negative binomial usages, by adding up every number of them.
fn by_convolution(mean: f64, variance: f64, sizes: &[(u32, f64)], units: usize) -> Vec<f64> {
    let number = LeadTimeDemand::new(mean, variance);
    let mut total = vec![0.0; units];
    let mut sum = vec![0.0; units];
    sum[0] = 1.0;
    let mut before = 0.0;
    for usages in 0..units as u64 {
        let at_most = number.at_most(usages);
        for (total, share) in total.iter_mut().zip(&sum) {
            *total += (at_most - before) * share;
        }
        before = at_most;
        let mut next = vec![0.0; units];
        for (size, share) in sizes {
            for at in *size as usize..units {
                next[at] += share * sum[at - *size as usize];
            }
        }
        sum = next;
    }
    total
}

#[test]
fn a_compound_demand_is_the_sum_over_every_number_of_usages() {
    for (mean, variance) in [(0.4, 0.4), (1.5, 2.1), (3.0, 12.0), (0.2, 1.4)] {
        for sizes in [
            vec![(1, 0.7), (2, 0.2), (4, 0.1)],
            vec![(2, 0.6), (4, 0.4)],
            vec![(8, 0.7), (16, 0.3)],
            vec![(5, 1.0)],
        ] {
            let demand = LeadTimeDemand::compound_of(mean, variance, &sizes);
            let brute = by_convolution(mean, variance, &sizes, 60);
            let mut sum = 0.0;
            for (units, share) in brute.iter().enumerate() {
                sum += share;
                let found = demand.at_most(units as u64);
                assert!(
                    (found - sum).abs() < 1e-9,
                    "{mean} {sizes:?} {units}: {found} {sum}"
                );
            }
        }
    }
}

#[test]
fn usages_of_eight_are_their_number_times_eight() {
    let demand = LeadTimeDemand::compound_of(1.2, 2.0, &[(8, 1.0)]);
    let number = LeadTimeDemand::new(1.2, 2.0);
    for units in 0..50_u64 {
        let found = demand.at_most(units);
        assert!(
            (found - number.at_most(units / 8)).abs() < 1e-9,
            "{units}: {found}"
        );
    }
    // A ninth piece never helps: with eight or fifteen the same share of lead times is met.
    for target in [0.5, 0.8, 0.9, 0.99] {
        assert_eq!(demand.reorder_point(target).unwrap() % 8, 0);
    }
}

#[test]
fn moments_of_a_compound_are_those_of_its_probabilities() {
    for (mean, variance) in [(0.7, 0.7), (2.0, 5.0), (9.0, 10.0)] {
        let demand = LeadTimeDemand::compound_of(mean, variance, &[(1, 0.5), (3, 0.25), (6, 0.25)]);
        let (mut first, mut second, mut sum, mut units) = (0.0, 0.0, 0.0, 0.0);
        demand.walk(|share| {
            first += units * share;
            second += units * units * share;
            sum += share;
            units += 1.0;
            units > 600.0
        });
        let (mean, variance) = demand.moments();
        assert!((sum - 1.0).abs() < 1e-9 && (first - mean).abs() < 1e-7);
        assert!((second - first * first - variance).abs() < 1e-5);
    }
}

#[test]
fn single_pieces_and_very_many_usages_need_no_compound() {
    let single = LeadTimeDemand::compound_of(2.0, 3.0, &[(1, 1.0)]);
    assert_eq!(single, LeadTimeDemand::new(2.0, 3.0));
    assert_eq!(
        LeadTimeDemand::compound(2.0, &[(1, 1.0)]),
        LeadTimeDemand::Poisson { mean: 2.0 }
    );
    let many = LeadTimeDemand::compound_of(900.0, 1000.0, &[(2, 0.5), (4, 0.5)]);
    let LeadTimeDemand::NegativeBinomial { mean, variance } = many else {
        panic!("{many:?}");
    };
    // 900 usages of 3 in the mean, variance 900 * 1 + 1000 * 9 by hand.
    assert!((mean - 2700.0).abs() < 1e-9 && (variance - 9900.0).abs() < 1e-9);
}

#[test]
fn a_variance_below_the_mean_is_a_poisson_number() {
    let sizes = [(2, 0.5), (3, 0.5)];
    let below = LeadTimeDemand::compound_of(1.5, 0.2, &sizes);
    assert_eq!(
        below.moments(),
        LeadTimeDemand::compound(1.5, &sizes).moments()
    );
}

#[test]
fn counted_probabilities_are_taken_as_they_are() {
    let counted = LeadTimeDemand::Counted {
        shares: vec![0.5, 0.0, 0.3, 0.2],
    };
    let (mean, variance) = counted.moments();
    // 0.6 + 0.6 and 1.2 + 1.8 - 1.44 by hand.
    assert!((mean - 1.2).abs() < 1e-12 && (variance - 1.56).abs() < 1e-12);
    for (units, at_most) in [(0, 0.5), (1, 0.5), (2, 0.8), (3, 1.0), (9, 1.0)] {
        assert!((counted.at_most(units) - at_most).abs() < 1e-12, "{units}");
    }
    assert_eq!(counted.reorder_point(0.7), Some(2));
    let over = counted.mean_share_over(0, 4);
    // P(> 0), ..., P(> 4) are 0.5, 0.5, 0.2, 0 and 0.
    assert!((over - 0.24).abs() < 1e-12, "{over}");
}

#[test]
fn a_quantity_with_a_digit_too_many_is_behind_the_end() {
    // Usages of two and four: every other count has no probability at all. The sum of all of them is 1.
    for (usages, variance) in [(0.2, 0.2), (3.0, 3.0), (3.0, 9.0), (40.0, 55.0)] {
        let law = LeadTimeDemand::compound_of(usages, variance, &[(2, 0.7), (4, 0.3)]);
        assert!(matches!(law, LeadTimeDemand::Compound { .. }));
        for units in [100_000, 1_000_000_000, u64::MAX] {
            let share = law.at_most(units);
            assert!((share - 1.0).abs() < 1e-12, "{usages} {units}: {share}");
        }
        // What is looked at in earnest is the plain sum of the probabilities, to the last bit.
        let mut shares = Vec::new();
        law.walk(|share| {
            shares.push(share);
            shares.len() > 200
        });
        for units in [0_usize, 1, 2, 7, 60, 150] {
            let mut by_hand = shares[0];
            for share in &shares[1..=units] {
                by_hand += share;
            }
            let found = law.at_most(units as u64);
            assert_eq!(found.to_bits(), by_hand.to_bits(), "{usages} {units}");
        }
    }
}

#[test]
fn whole_metres_hold_a_demand_in_half_metres() {
    // By hand: 1.3 usages expected, Poisson, of 3.5 m or seven half metres. None in e^-1.3 of cases; one takes 3.5 m, which 4
    // whole metres hold, two take 7 m.
    let law = LeadTimeDemand::compound(1.3, &[(7, 1.0)]).in_parts_of(2);
    let none = (-1.3_f64).exp();
    let table = DemandTable::new(&law);
    for (units, share) in [
        (0, none),
        (3, none),
        (4, 2.3 * none),
        (6, 2.3 * none),
        (7, (2.3 + 1.3 * 1.3 / 2.0) * none),
    ] {
        assert!((law.at_most(units) - share).abs() < 1e-12, "{units}");
        assert!(
            (table.at_most(units as i64) - share).abs() < 1e-12,
            "{units}"
        );
    }
    let (mean, variance) = law.moments();
    assert!((mean - 4.55).abs() < 1e-12 && (variance - 1.3 * 3.5 * 3.5).abs() < 1e-9);
    assert!(table.mean() > mean && table.mean() < mean + 1.0);
    assert_eq!(law.reorder_point(0.6), Some(4));
    let over = law.mean_share_over(3, 4);
    assert!((over - (2.0 - 3.3 * none) / 2.0).abs() < 1e-12, "{over}");
    // Single half metres are Poisson in half metres.
    let halves = LeadTimeDemand::compound(1.3, &[(1, 1.0)]).in_parts_of(2);
    let most_two = none * (1.0 + 1.3 + 1.3 * 1.3 / 2.0);
    assert!((halves.at_most(1) - most_two).abs() < 1e-9);
}

#[test]
fn what_is_taken_by_the_half_metre_lies_between_the_whole_ones() {
    for (usages, variance) in [(0.2, 0.2), (1.3, 1.3), (1.3, 2.9), (6.0, 14.0)] {
        let table = |size: u32| {
            let law = LeadTimeDemand::compound_of(usages, variance, &[(size, 1.0)]);
            DemandTable::new(&law.in_parts_of(2))
        };
        // 3 m, 3.5 m and 4 m at a time.
        let tables = [6, 7, 8].map(table);
        let whole = LeadTimeDemand::compound_of(usages, variance, &[(3, 1.0)]);
        let whole = DemandTable::new(&whole);
        for units in 0..60 {
            let most = tables.each_ref().map(|table| table.at_most(units));
            assert!(most[0] >= most[1] - 1e-12 && most[1] >= most[2] - 1e-12);
            assert!((most[0] - whole.at_most(units)).abs() < 1e-9, "{units}");
        }
        for (quantity, waiting) in [(1, 4.0), (1, 99.0), (5, 9.0), (5, 4_000.0)] {
            let kept = tables
                .each_ref()
                .map(|table| reorder_point_by_cost(table, quantity, 1.0, waiting));
            assert!(kept.is_sorted(), "{usages} {quantity} {waiting}: {kept:?}");
        }
    }
}
