//! Quantities that a rarely used part may be asked for: its own, the rest of the weight on those of its group.
//!
//! # Why not mean and spread
//!
//! A negative binomial of single pieces with the mean and variance of the demand has a tail that falls by a constant factor a
//! piece, however rare the usages: with 0.003 usages in the lead time that take 1 (three of four) or 5, it gives 2 cases in
//! 10^6 to more than 15 pieces, for which four usages would have to meet, 2 cases in 10^13. Where usages are rare the
//! quantities make the tail, so they are kept as quantities.
//!
//! # Which
//!
//! Let a part's quantities be drawn from a distribution of its own, and the distributions of the parts of a group from a
//! Dirichlet process about the group's quantities `G` (variance `v`) with weight `w`. The means of the parts then vary by
//! `v / (w + 1)`, and quantities within a part by `v w / (w + 1)`: `w` is the variance within over that between parts, which is
//! [`GroupSizes::mean_weight`](super::size::GroupSizes). After `k` usages the next quantity is one of the part's own with
//! probability `k / (k + w)`, else one of `G` (Ferguson, Annals of Statistics 1:209-230, 1973; Blackwell & MacQueen, ibid.
//! 353-355, both from memory). Nothing is expected that the group has never shown.
//!
//! With many kinds of quantity, `G` is told in few bands of one ratio, each by its mean rounded up: that bounds the work of
//! the recursion and keeps the largest.

use std::collections::BTreeMap;

use super::history::History;

/// Largest quantity of one usage that is compounded exactly.
pub(super) const MOST_SIZE: f64 = 1000.0;

/// Kinds of quantity that a group is told by.
const MOST_BANDS: usize = 8;

/// Quantities with their shares, smallest first; empty without usages or where one is not whole.
pub(super) fn whole_sizes(history: &History) -> Vec<(u32, f64)> {
    let is_whole = |quantity: f64| quantity.fract().abs() <= 1e-9;
    if history.used.iter().all(|used| is_whole(used.quantity)) {
        counted_sizes(history)
    } else {
        Vec::new()
    }
}

/// Quantities, each rounded up, with their shares; empty without usages or where one is very large.
pub(super) fn counted_sizes(history: &History) -> Vec<(u32, f64)> {
    let mut counts: BTreeMap<u32, usize> = BTreeMap::new();
    for used in &history.used {
        if used.quantity > MOST_SIZE {
            return Vec::new();
        }
        *counts
            .entry((used.quantity - 1e-9).ceil() as u32)
            .or_default() += 1;
    }
    let share = |count: usize| count as f64 / history.used.len() as f64;
    counts
        .into_iter()
        .map(|(size, count)| (size, share(count)))
        .collect()
}

/// Quantities of a group by those of its used parts, each part counting the same; empty where those of one are not known.
pub(super) fn group_sizes(parts: &[Vec<(u32, f64)>]) -> Vec<(u32, f64)> {
    if parts.iter().any(Vec::is_empty) {
        return Vec::new();
    }
    let of_each = 1.0 / parts.len() as f64;
    let all = parts.iter().flatten();
    in_bands(&merged(all.map(|(size, share)| (*size, share * of_each))))
}

/// Quantities expected of a part with `events` usages of quantities `own` in a group with `group` worth `weight` usages;
/// empty where nothing but single pieces is, or the group's are not known.
pub(super) fn likely_sizes(
    own: &[(u32, f64)],
    events: usize,
    group: &[(u32, f64)],
    weight: f64,
) -> Vec<(u32, f64)> {
    let is_known = !group.is_empty() && (events == 0 || !own.is_empty());
    if !is_known {
        return Vec::new();
    }
    let k = events as f64;
    let of_own = if events == 0 { 0.0 } else { k / (k + weight) };
    let both = (own.iter().map(|(size, share)| (*size, share * of_own)))
        .chain((group.iter()).map(|(size, share)| (*size, share * (1.0 - of_own))));
    let found = merged(both.filter(|(_, share)| *share > 0.0));
    if found.iter().all(|(size, _)| *size == 1) {
        return Vec::new();
    }
    found
}

/// Shares of the same quantity added, smallest first.
pub(super) fn merged(sizes: impl Iterator<Item = (u32, f64)>) -> Vec<(u32, f64)> {
    let mut shares: BTreeMap<u32, f64> = BTreeMap::new();
    for (size, share) in sizes {
        *shares.entry(size).or_default() += share;
    }
    shares.into_iter().collect()
}

/// The same in at most [`MOST_BANDS`] bands of one ratio, each by its mean rounded up.
fn in_bands(sizes: &[(u32, f64)]) -> Vec<(u32, f64)> {
    let (Some((least, _)), Some((most, _)), true) =
        (sizes.first(), sizes.last(), sizes.len() > MOST_BANDS)
    else {
        return sizes.to_vec();
    };
    // The largest quantity is a band of its own.
    let bands = MOST_BANDS - 1;
    let log = |size: u32| f64::from(size).ln();
    let width = (log(*most) - log(*least)) / bands as f64;
    let band_of = |size: u32| {
        if size == *most {
            bands
        } else {
            (((log(size) - log(*least)) / width) as usize).min(bands - 1)
        }
    };
    let mut sums = [(0.0, 0.0); MOST_BANDS];
    for (size, share) in sizes {
        let (of_band, weighted) = &mut sums[band_of(*size)];
        *of_band += share;
        *weighted += share * f64::from(*size);
    }
    let told = sums.into_iter().filter(|(share, _)| *share > 0.0);
    merged(told.map(|(share, weighted)| ((weighted / share - 1e-9).ceil() as u32, share)))
}

#[cfg(test)]
mod tests {
    use super::super::super::LeadTimeDemand;
    use super::*;

    fn same(found: &[(u32, f64)], expected: &[(u32, f64)]) {
        assert_eq!(found.len(), expected.len(), "{found:?}");
        for (a, b) in found.iter().zip(expected) {
            assert!(a.0 == b.0 && (a.1 - b.1).abs() < 1e-12, "{found:?}");
        }
    }

    #[test]
    fn own_quantities_gain_weight_with_usages_and_nothing_new_is_expected() {
        let group = group_sizes(&[vec![(1, 1.0)], vec![(5, 1.0)]]);
        same(&group, &[(1, 0.5), (5, 0.5)]);
        // k / (k + w) by hand.
        same(&likely_sizes(&[], 0, &group, 1.0), &group);
        let once = likely_sizes(&[(1, 1.0)], 1, &group, 1.0);
        same(&once, &[(1, 0.75), (5, 0.25)]);
        let thrice = likely_sizes(&[(2, 1.0)], 3, &group, 1.0);
        same(&thrice, &[(1, 0.125), (2, 0.75), (5, 0.125)]);
        same(&likely_sizes(&[(2, 1.0)], 3, &group, 0.0), &[(2, 1.0)]);
    }

    #[test]
    fn unknown_quantities_and_single_pieces_are_left_to_mean_and_spread() {
        assert!(group_sizes(&[vec![(1, 1.0)], Vec::new()]).is_empty());
        assert!(group_sizes(&[]).is_empty());
        assert!(likely_sizes(&[], 0, &[], 1.0).is_empty());
        assert!(likely_sizes(&[], 2, &[(5, 1.0)], 1.0).is_empty());
        assert!(likely_sizes(&[(1, 1.0)], 2, &[(1, 1.0)], 1.0).is_empty());
    }

    #[test]
    fn many_kinds_are_told_in_few_and_keep_their_largest() {
        let parts: Vec<Vec<(u32, f64)>> = (1..=40).map(|size| vec![(size, 1.0)]).collect();
        let told = group_sizes(&parts);
        assert!(told.len() <= MOST_BANDS, "{told:?}");
        assert_eq!(told.last().map(|(size, _)| *size), Some(40));
        let share: f64 = told.iter().map(|(_, share)| share).sum();
        let mean: f64 = told
            .iter()
            .map(|(size, share)| f64::from(*size) * share)
            .sum();
        // Mean of 1 to 40 is 20.5; rounding up adds less than one.
        assert!((share - 1.0).abs() < 1e-12);
        assert!((20.5 - 1e-9..21.5).contains(&mean), "{mean}");
    }

    #[test]
    fn a_rare_parts_tail_is_that_of_its_quantities() {
        // Poisson usages, mean u = 0.003, of 1 (3/4) or 5 (1/4): more than 5 pieces take two usages, of which not both are of 1, or
        // three and more. By hand from the Poisson terms, P(2) = e^-u u^2 / 2; Panjer's recursion (ASTIN Bulletin
        // 12:22-26, 1981; Klugman, Panjer & Willmot, Loss Models, ch. 9, from memory) has to give the same.
        let u = 0.003_f64;
        let sizes = likely_sizes(&[(1, 1.0)], 1, &[(1, 0.5), (5, 0.5)], 1.0);
        let demand = LeadTimeDemand::compound(u, &sizes);
        let (two, three) = ((-u).exp() * u * u / 2.0, (-u).exp() * u.powi(3) / 6.0);
        let over_five = two * (1.0 - 0.75 * 0.75) + three * (1.0 - 0.75_f64.powi(3));
        let found = 1.0 - demand.at_most(5);
        assert!((found - over_five).abs() < 1e-11, "{found} {over_five}");
        // Two moments alone put seventy times as much there, and far behind all that two usages can take.
        let (mean, variance) = demand.moments();
        let by_moments = LeadTimeDemand::new(mean, variance);
        assert!(1.0 - by_moments.at_most(5) > 70.0 * over_five);
        assert!(1.0 - by_moments.at_most(10) > 10_000.0 * (1.0 - demand.at_most(10)));
    }
}
