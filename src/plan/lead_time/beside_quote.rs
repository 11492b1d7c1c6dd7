//! One or two orders beside a quote: too few to stand alone where no others tell how orders scatter, too many to say nothing.
//!
//! The logarithm of actual to quoted days is normal around the supplier's own mean, and that around nothing: a quote is as
//! likely kept from below as from above. The two variances together are the spread of a quote alone, so that no order gives the
//! quote alone, and each one moves the middle towards what it took (posterior mean of a normal, Gelman et al., Bayesian Data
//! Analysis, section 2.5, from memory).

use super::QUOTE_LATE_FACTOR;
use super::basis::LeadBasis;
use super::log_sample::LogSample;
use super::receipt_history::Evidence;
use super::shrinkage::Estimate;
use super::spread::LeadTime;

/// Share of the variance of a quote alone that is the supplier's own, the same from order to order.
///
/// Common practice, no source: half of it.
const OWN_SHARE: f64 = 0.5;

/// Times the quote that the next order takes, where `ratios` are what a few took; `None` of none.
pub fn beside_quote(ratios: &[f64], is_of_part: bool) -> Option<Evidence> {
    let sample = LogSample::of_few(ratios, &[])?;
    let LeadTime::Lognormal { log_sd, .. } = LeadTime::by_late_factor(1.0, QUOTE_LATE_FACTOR)
    else {
        return None;
    };
    let variance = log_sd.powi(2);
    let (own, of_one) = (OWN_SHARE * variance, (1.0 - OWN_SHARE) * variance);
    let quote = Estimate {
        mean: 0.0,
        variance: own,
    };
    let took = Estimate {
        mean: sample.log_mean,
        variance: of_one / sample.count as f64,
    };
    let mean = quote.and(took);
    let scale = (mean.variance + of_one).sqrt();
    Some(Evidence {
        lead: LeadTime::log_student(mean.mean, scale, f64::INFINITY),
        basis: LeadBasis::QuoteAndFew {
            receipts: sample.count,
            is_of_part,
            took: sample.log_mean.exp(),
            ratio: mean.mean.exp(),
        },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_order_moves_the_quote_towards_what_it_took() {
        // By hand: with equal variances the mean of the quote and n orders, root 3 and the cube root of 9; the spread of a quote
        // alone has the variance (ln 2 / 1.28155)^2 = 0.29254, one order leaves 0.75 of it and two 2/3.
        for (ratios, ratio, left) in [
            (&[3.0][..], 1.732_051, 0.75),
            (&[3.0, 3.0], 2.080_084, 2.0 / 3.0),
        ] {
            let found = beside_quote(ratios, false).unwrap();
            let middle = found.lead.quantile(0.5);
            assert!((middle - ratio).abs() < 1e-5, "{middle}");
            let late = ratio * (1.281_552 * (left * 0.292_536_f64).sqrt()).exp();
            let found = found.lead.quantile(0.9);
            assert!((found - late).abs() < 1e-3, "{found} {late}");
        }
        assert_eq!(beside_quote(&[], false), None);
    }

    #[test]
    fn an_order_that_took_as_long_as_quoted_leaves_the_middle_and_makes_it_surer() {
        let found = beside_quote(&[1.0], true).unwrap().lead;
        assert!((found.quantile(0.5) - 1.0).abs() < 1e-9);
        assert!(found.quantile(0.9) < QUOTE_LATE_FACTOR && found.quantile(0.9) > 1.5);
    }
}
