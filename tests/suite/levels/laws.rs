//! Laws of demand in a lead time: closed forms, sums and other ways round to the same figure.

use proptest::prelude::*;
use sparewright::plan::{
    DemandTable, FewMachines, LeadTimeDemand, Service, TwoEchelon, erlang_loss, replay, unit_fill,
};

fn poisson(mean: f64, most: usize) -> Vec<f64> {
    let mut shares = vec![(-mean).exp()];
    for units in 1..=most {
        shares.push(shares[units - 1] * mean / units as f64);
    }
    shares
}

fn convolved(a: &[f64], b: &[f64], most: usize) -> Vec<f64> {
    let mut sum = vec![0.0; most + 1];
    for (i, a) in a.iter().enumerate() {
        for (j, b) in b.iter().enumerate().take_while(|(j, _)| i + j <= most) {
            sum[i + j] += a * b;
        }
    }
    sum
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    #[test]
    fn a_table_has_the_moments_of_its_law(mean in 0.01_f64..20.0, spread in 1.0_f64..5.0) {
        let demand = LeadTimeDemand::new(mean, mean * spread);
        let table = DemandTable::new(&demand);
        let moment = |power: i32| -> f64 {
            (0..=table.end()).map(|x| table.share(x) * (x as f64).powi(power)).sum()
        };
        let (of_mean, of_variance) = demand.moments();
        prop_assert!((moment(1) - of_mean).abs() < 1e-7 * (1.0 + of_mean));
        prop_assert!((moment(2) - moment(1).powi(2) - of_variance).abs() < 1e-5 * (1.0 + of_variance));
        prop_assert!((of_mean - mean).abs() < 1e-12);
    }

    #[test]
    fn usages_of_several_pieces_are_sums_of_poisson_numbers(usages in 0.02_f64..4.0, share in 0.05_f64..0.95, size in 2_u32..7) {
        // Poisson usages of which a share takes `size` pieces: two independent Poisson numbers, one of them times the size.
        let most = 40;
        let single = poisson(usages * (1.0 - share), most);
        let several = poisson(usages * share, most);
        let mut spread = vec![0.0; most + 1];
        for (count, chance) in several.iter().enumerate() {
            if count * size as usize <= most {
                spread[count * size as usize] = *chance;
            }
        }
        let exact = convolved(&single, &spread, most);
        let demand = LeadTimeDemand::compound(usages, &[(1, 1.0 - share), (size, share)]);
        let mut sum = 0.0;
        for (units, chance) in exact.iter().enumerate() {
            sum += chance;
            prop_assert!((demand.at_most(units as u64) - sum).abs() < 1e-9, "{units}");
        }
    }

    #[test]
    fn single_pieces_over_lead_times_are_the_mean_of_their_laws(rate in 0.001_f64..0.3, a in 1.0_f64..40.0, b in 1.0_f64..90.0, share in 0.0_f64..1.0) {
        let mixed = LeadTimeDemand::over_lead_times(rate, &[(a, share), (b, 1.0 - share)]);
        let of = |days: f64| LeadTimeDemand::Poisson { mean: rate * days };
        for units in 0..25 {
            let exact = share * of(a).at_most(units) + (1.0 - share) * of(b).at_most(units);
            prop_assert!((mixed.at_most(units) - exact).abs() < 1e-12);
        }
        // Law of total variance.
        let mean = rate * (share * a + (1.0 - share) * b);
        let between = share * (rate * a - mean).powi(2) + (1.0 - share) * (rate * b - mean).powi(2);
        let (of_mean, of_variance) = mixed.moments();
        prop_assert!((of_mean - mean).abs() < 1e-9 && (of_variance - mean - between).abs() < 1e-9);
    }

    #[test]
    fn a_gamma_lead_time_of_coefficient_one_is_geometric(rate in 0.001_f64..0.3, days in 1.0_f64..60.0) {
        // An exponential lead time: each unit of demand comes before its end with probability m / (1 + m).
        let demand = LeadTimeDemand::over_gamma_lead_time(rate, days, 1.0);
        let next = rate * days / (1.0 + rate * days);
        for units in 0..20_u64 {
            let exact = 1.0 - next.powi(units as i32 + 1);
            prop_assert!((demand.at_most(units) - exact).abs() < 1e-9, "{units}");
        }
    }

    #[test]
    fn a_lognormal_lead_time_keeps_mean_and_variance(rate in 0.005_f64..0.2, days in 2.0_f64..60.0, cv in 0.05_f64..0.8) {
        let (mean, variance) = LeadTimeDemand::over_lognormal_lead_time(rate, days, cv).moments();
        let exact = rate * days;
        prop_assert!((mean - exact).abs() < 1e-6 * exact, "{mean} {exact}");
        prop_assert!((variance - exact - (exact * cv).powi(2)).abs() < 1e-5 * (1.0 + variance));
    }

    #[test]
    fn the_reorder_point_is_the_first_number_that_is_enough(usages in 0.01_f64..6.0, spread in 1.0_f64..4.0, share in 0.1_f64..0.9, target in 0.5_f64..0.999) {
        for demand in [
            LeadTimeDemand::new(usages, usages * spread),
            LeadTimeDemand::compound_of(usages, usages * spread, &[(1, share), (3, 1.0 - share)]),
        ] {
            let point = demand.reorder_point(target).unwrap();
            prop_assert!(demand.at_most(point) >= target);
            prop_assert!(point == 0 || demand.at_most(point - 1) < target);
        }
    }

    #[test]
    fn shortfalls_fall_by_the_share_that_is_beyond(mean in 0.01_f64..20.0, spread in 1.0_f64..4.0) {
        let table = DemandTable::new(&LeadTimeDemand::new(mean, mean * spread));
        prop_assert!((table.shortfall(-3) - mean - 3.0).abs() < 1e-9);
        for units in -2..table.end() {
            let beyond = 1.0 - table.at_most(units);
            prop_assert!((table.shortfall(units) - table.shortfall(units + 1) - beyond).abs() < 1e-8);
        }
        let again = DemandTable::of_shortfalls((0..table.end()).map(|x| table.shortfall(x)).collect());
        for units in 0..table.end() - 1 {
            prop_assert!((again.at_most(units) - table.at_most(units)).abs() < 1e-8);
        }
    }

    #[test]
    fn the_shelf_and_what_waits_add_up(mean in 0.05_f64..12.0, spread in 1.0_f64..4.0, point in -1_i64..25, quantity in 1_i64..12) {
        let table = DemandTable::new(&LeadTimeDemand::new(mean, mean * spread));
        let service = Service::new(&table, point, quantity, &[]);
        // Position = shelf - waiting + on order; the mean position is r + (Q + 1) / 2, on order the mean demand.
        let position = point as f64 + (quantity as f64 + 1.0) / 2.0;
        prop_assert!((service.on_hand - service.waiting - position + mean).abs() < 1e-7);
        prop_assert!((service.unit_fill_share - unit_fill(&table, point, quantity)).abs() < 1e-12);
        prop_assert!((service.cycle_share - table.at_most(point)).abs() < 1e-12);
        // Little: what waits is the rate times the mean wait.
        let rate = mean / 20.0;
        prop_assert!((service.mean_wait_days(rate).unwrap() * rate - service.waiting).abs() < 1e-9);
        prop_assert_eq!(service.mean_wait_days(0.0), None);
        let pairs = Service::new(&table, point, quantity, &[(2, 1.0)]);
        prop_assert!(pairs.whole_job_share <= pairs.unit_fill_share + 1e-12);
        prop_assert!(pairs.unit_fill_share <= service.unit_fill_share + 1e-9);
    }

    #[test]
    fn many_machines_with_a_part_each_wait_as_palm_says(mean in 0.1_f64..6.0, owned in 0_u32..10) {
        // With very many places the demand goes on while some of them wait: Poisson.
        let many = FewMachines { places: 100_000, mean };
        let table = DemandTable::new(&LeadTimeDemand::Poisson { mean });
        let palm = table.shortfall(i64::from(owned));
        prop_assert!((many.waiting(owned) - palm).abs() < 1e-3 * (0.01 + palm), "{} {palm}", many.waiting(owned));
        // With few of them less is used, because those that wait use nothing.
        let few = FewMachines { places: 2, mean };
        prop_assert!(few.waiting(owned) <= palm + 1e-9);
    }

    #[test]
    fn one_machine_without_a_spare_waits_its_share_of_the_time(mean in 0.001_f64..20.0) {
        // Alternating: works 1 / rate, waits the lead time; share that waits = m / (1 + m).
        let one = FewMachines { places: 1, mean };
        prop_assert!((one.waiting(0) - mean / (1.0 + mean)).abs() < 1e-12);
        prop_assert!((one.availability(0) - 1.0 / (1.0 + mean)).abs() < 1e-12);
        // With one spare: states 0, 1, 2 on order with weights 1, m, m^2 / 2 (one place that works in the first two).
        let exact = (mean * mean / 2.0) / (1.0 + mean + mean * mean / 2.0);
        prop_assert!((one.waiting(1) - exact).abs() < 1e-12);
        let table = one.spares_table();
        prop_assert!((table.shortfall(1) - exact).abs() < 1e-9);
    }

    #[test]
    fn a_loss_is_the_share_of_the_full_state(mean in 0.01_f64..15.0, owned in 0_i64..15) {
        // Erlang: (m^s / s!) / sum of m^k / k!.
        let terms = poisson(mean, owned as usize);
        let exact = terms[owned as usize] / terms.iter().sum::<f64>();
        prop_assert!((erlang_loss(mean, owned) - exact).abs() < 1e-9);
    }

    #[test]
    fn a_central_store_with_plenty_adds_no_delay(per_day in 0.001_f64..0.2, central_days in 1.0_f64..40.0, shop_days in 0.5_f64..10.0, shops in 1_u32..8) {
        let with = |central_stock: i64| TwoEchelon { per_day, central_days, shop_days, central_stock, shops }.echelons();
        let plenty = with(1_000);
        prop_assert!(plenty.central_waiting.abs() < 1e-6 && plenty.delay_days.abs() < 1e-5);
        prop_assert!((plenty.shop_mean - per_day * shop_days).abs() < 1e-6);
        // With none every unit waits for the whole resupply.
        let none = with(0);
        prop_assert!((none.delay_days - central_days).abs() < 1e-6 * central_days);
        prop_assert!((none.shop_mean - per_day * (central_days + shop_days)).abs() < 1e-6);
        // Poisson owed splits into Poisson numbers: mean and variance alike.
        prop_assert!((none.shop_variance - none.shop_mean).abs() < 1e-5, "{none:?}");
        let mut before = f64::INFINITY;
        for stock in 0..12 {
            let waiting = with(stock).central_waiting;
            prop_assert!(waiting <= before + 1e-12);
            before = waiting;
        }
    }
}

/// Day by day: the shelf, usages that wait, and orders under way. A usage waits while all that came falls short of what was
/// asked for up to it.
fn replay_by_days(
    usages: &[(i64, u32)],
    days: i64,
    point: i64,
    quantity: i64,
    lead: i64,
) -> (usize, usize, i64, i64) {
    let mut net = (point + 1).max(0);
    let mut position = net;
    let (mut came, mut asked) = (net, Vec::<i64>::new());
    let mut under_way: Vec<i64> = Vec::new();
    let (mut met, mut orders, mut waited, mut held) = (0, 0, 0, 0);
    for day in 0..days {
        let arrived = under_way.iter().filter(|at| **at == day).count() as i64;
        net += arrived * quantity;
        came += arrived * quantity;
        for (_, used) in usages.iter().filter(|(of, _)| *of == day) {
            met += usize::from(net >= i64::from(*used));
            net -= i64::from(*used);
            position -= i64::from(*used);
            asked.push(asked.last().copied().unwrap_or(0) + i64::from(*used));
            // What is due at once goes out as one order, in as many lots as it takes.
            orders += usize::from(position <= point);
            while position <= point {
                position += quantity;
                under_way.push(day + lead);
            }
        }
        waited += asked.iter().filter(|asked| **asked > came).count() as i64;
        held += net.max(0);
    }
    (met, orders, waited, held)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn a_past_run_again_is_that_of_walking_its_days(gaps in prop::collection::vec((1_i64..40, 1_u32..4), 0..20), point in 0_i64..6, quantity in 1_i64..6, lead in 1_i64..50) {
        let mut day = 0;
        let usages: Vec<(i64, u32)> = gaps.iter().map(|(gap, used)| { day += gap; (day, *used) }).collect();
        let days = day + 30;
        let exact = replay_by_days(&usages, days, point, quantity, lead);
        let told: Vec<(i64, f64)> = usages.iter().map(|(day, used)| (*day, f64::from(*used))).collect();
        let found = replay(&told, days, point as f64, quantity as f64, lead as f64);
        prop_assert_eq!((found.met, found.orders), (exact.0, exact.1));
        prop_assert!((found.waited_days - exact.2 as f64).abs() < 1e-6, "{found:?} {exact:?}");
        prop_assert!((found.mean_on_hand * days as f64 - exact.3 as f64).abs() < 1e-6, "{found:?} {exact:?}");
        prop_assert_eq!(found.usages, usages.len());
    }
}

#[test]
fn the_past_is_told_in_words_that_fit_it() {
    let none = replay(&[], 90, 1.0, 2.0, 10.0);
    assert_eq!(none.to_string(), "no usage in 90 recorded days");
    assert!((none.mean_on_hand - 2.0).abs() < 1e-12);
    let all = replay(&[(10, 1.0)], 100, 1.0, 2.0, 10.0);
    assert_eq!(
        all.to_string(),
        "1 of 1 usages of the last 100 days from the shelf; 1 orders, 2.7 on the shelf on average"
    );
    // Two at once from a shelf of one: both orders take 30 days, and one unit waits for the first.
    let short = replay(&[(10, 2.0)], 100, 0.0, 1.0, 30.0);
    assert!(short.to_string().contains("0 of 1 usages"), "{short}");
    assert!(
        short.to_string().contains("30 days waited in all"),
        "{short}"
    );
    // What comes back is on the shelf again.
    let back = replay(&[(10, 1.0), (20, -1.0)], 100, 0.0, 2.0, 500.0);
    assert_eq!((back.usages, back.met), (1, 1));
}
