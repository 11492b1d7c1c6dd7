//! What is due at the same moment is one order.

use super::*;

#[test]
fn all_that_a_usage_asks_for_comes_together() {
    // Four at a time of a part that is bought singly, with none kept: each usage waits one lead time, however these vary, and
    // usages waiting are those of a queue with a server for each, on the average rate times lead time, 0.03 * 20 = 0.6 (Palm
    // 1938, from memory). Four orders that come apart would wait for the last of four, half as long again.
    let (log_variance, mean_days) = (0.25_f64.ln_1p(), 20.0_f64);
    let lead = LeadTime::Lognormal {
        log_mean: (mean_days * 24.0).ln() - log_variance / 2.0,
        log_sd: log_variance.sqrt(),
    };
    let four = Sizes::Recorded(vec![(1.0, 4.0)]);
    let shop = shop(certain(0.03), four, lead, 60.0);
    let single = policy(-1.0, 1.0);
    let hours = 60.0 * 8760.0;
    let waiting = seen(&shop, single, 120, |of| of.jobs_waiting_h / hours);
    confirms("usages waiting", 0.6, waiting, 0.05);
    // One order for each of them.
    let part = one_year(&shop, &[single], 7, 0).parts[0];
    assert!(part.usages > 100.0, "{part:?}");
    assert!((part.orders - part.usages).abs() < 1e-9, "{part:?}");
}
