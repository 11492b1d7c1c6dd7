//! Ordering one line twice: the earlier of two arrivals counts, and what is no longer needed is cancelled where it may be.

use super::expected::Chance;

/// An order that might be doubled.
#[derive(Debug, Clone, Copy)]
pub struct Single<'a> {
    /// The order.
    pub chance: &'a Chance,
    /// Goods, for the cancellation.
    pub goods_cents: i64,
    /// Share of the goods' price that is charged when the order is cancelled; `None` where it cannot be, or nobody says.
    pub cancel_share: Option<f64>,
}

/// Share of cases in which the first is here at a moment at which the other has not come yet.
fn first_share(first: &[f64], other: &[f64]) -> f64 {
    let mut before = 0.0;
    let mut chance = 0.0;
    for (first, other) in first.iter().zip(other) {
        chance += (first - before) * (1.0 - other);
        before = *first;
    }
    chance
}

/// Shares of the earlier of two that know nothing of each other.
fn earlier(a: &[f64], b: &[f64]) -> Vec<f64> {
    let pairs = a.iter().zip(b);
    pairs.map(|(a, b)| 1.0 - (1.0 - a) * (1.0 - b)).collect()
}

impl Single<'_> {
    /// What comes back on the average where this order is cancelled once something else is here; two that arrive at one
    /// moment are both paid for.
    pub fn refund(&self, else_here: &[f64]) -> f64 {
        self.cancel_share.map_or(0.0, |share| {
            let chance = first_share(else_here, &self.chance.shares);
            chance * self.goods_cents as f64 * (1.0 - share)
        })
    }
}

/// Both orders placed, besides what comes anyway by `open`; `None` where one of them can never come first.
///
/// The one that comes second is cancelled when the first arrives: the chance that it is the second, times what is not
/// charged, comes back.
pub fn both(a: Single<'_>, b: Single<'_>, open: Option<&[f64]>) -> Option<Chance> {
    let (sa, sb) = (&a.chance.shares, &b.chance.shares);
    let with_open = |shares: &[f64]| match open {
        Some(open) => earlier(shares, open),
        None => shares.to_vec(),
    };
    let (but_a, but_b) = (with_open(sb), with_open(sa));
    if first_share(sa, &but_a) <= 1e-3 || first_share(sb, &but_b) <= 1e-3 {
        return None;
    }
    let refund = a.refund(&but_a) + b.refund(&but_b);
    let mut goods = a.chance.goods.clone();
    for (supplier, value) in &b.chance.goods {
        match goods.iter_mut().find(|(of, _)| of == supplier) {
            Some((_, sum)) => *sum += value,
            None => goods.push((*supplier, *value)),
        }
    }
    Some(Chance {
        cents: a.chance.cents + b.chance.cents - refund.round() as i64,
        goods,
        shares: earlier(sa, &but_a),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn single(chance: &Chance, cancel_share: Option<f64>) -> Single<'_> {
        Single {
            chance,
            goods_cents: chance.cents,
            cancel_share,
        }
    }

    #[test]
    fn the_earlier_counts_and_the_other_is_cancelled() {
        // By hand: A by step 0 in half the cases, else by step 2; B at step 1 for sure. Together by step 0 in half the
        // cases, by step 1 in all; B is second in half the cases.
        let a = Chance {
            cents: 1_000,
            goods: vec![(0, 1_000)],
            shares: vec![0.5, 0.5, 1.0],
        };
        let b = Chance {
            cents: 2_000,
            goods: vec![(1, 2_000)],
            shares: vec![0.0, 1.0, 1.0],
        };
        let twice = both(single(&a, None), single(&b, Some(0.2)), None).unwrap();
        assert_eq!(twice.shares, [0.5, 1.0, 1.0]);
        assert_eq!(twice.cents, 3_000 - 800);
        assert_eq!(twice.goods, [(0, 1_000), (1, 2_000)]);
        let never = both(single(&b, None), single(&b, None), None);
        assert_eq!(never, None);
        // An open order that is here by step 1 in a quarter of the cases, else by step 2, is never before B.
        let open = [0.0, 0.25, 1.0];
        let besides = both(single(&a, None), single(&b, Some(0.2)), Some(&open)).unwrap();
        assert_eq!(
            (besides.shares, besides.cents),
            (vec![0.5, 1.0, 1.0], 2_200)
        );
        // One that is here by step 0 in four of five cases leaves one case of ten to B: 0.2 x 0.5.
        let open = [0.8, 0.8, 1.0];
        let besides = both(single(&a, None), single(&b, Some(0.2)), Some(&open)).unwrap();
        assert!((besides.shares[0] - 0.9).abs() < 1e-12);
        // B is cancelled in nine of ten cases: 0.9 x 2,000 x 0.8.
        assert_eq!(besides.cents, 3_000 - 1_440);
        // What is open at once for sure leaves nothing to either.
        let open = [1.0, 1.0, 1.0];
        assert_eq!(both(single(&a, None), single(&b, None), Some(&open)), None);
    }
}
