//! When the last of several lines is here, for waits of any form: the product of their shares.

/// A wait of which the share of cases by any time is known.
pub trait Wait {
    /// Share of cases in which it is over by `time`; never falls.
    fn share_by(&self, time: f64) -> f64;

    /// Share per time at `time`, where it is easily had: it only makes finding a quantile quicker.
    fn density(&self, _time: f64) -> Option<f64> {
        None
    }
}

/// Share of cases in which all of several independent waits are over by a time.
pub fn share_complete<W: Wait>(lines: &[W], time: f64) -> f64 {
    lines.iter().map(|line| line.share_by(time)).product()
}

/// First time by which all are over in a share of cases; `upper` is any time beyond it.
///
/// # Errors
/// `None` where the share is not reached at 2^40 times `upper`.
/// # Source
/// The root of the product of the shares, kept between two bounds: Newton's step where densities are known and it stays
/// inside, else the middle.
pub fn quantile_of_last<W: Wait>(lines: &[W], share: f64, upper: f64) -> Option<f64> {
    if share_complete(lines, 0.0) >= share {
        return Some(0.0);
    }
    let (mut low, mut high) = (0.0, upper.max(f64::MIN_POSITIVE));
    let mut doublings = 0;
    while share_complete(lines, high) < share {
        doublings += 1;
        if doublings > 40 {
            return None;
        }
        low = high;
        high *= 2.0;
    }
    let mut time = f64::midpoint(low, high);
    for _ in 0..200 {
        let (mut reached, mut slope) = (1.0, Some(0.0));
        for line in lines {
            let by_then = line.share_by(time);
            reached *= by_then;
            slope = slope
                .zip(line.density(time))
                .map(|(sum, density)| sum + density / by_then.max(f64::MIN_POSITIVE));
        }
        if reached >= share {
            high = time;
        } else {
            low = time;
        }
        if high - low <= 1e-13 * high {
            break;
        }
        // On the logarithm the product is a sum and bends less.
        let step = slope
            .filter(|slope| *slope > 0.0 && reached > 0.0)
            .map(|slope| time - (reached / share).ln() / slope);
        match step {
            Some(next) if (next - time).abs() <= 1e-12 * time => {
                high = next.max(low);
                break;
            }
            Some(next) if next > low && next < high => time = next,
            _ => time = f64::midpoint(low, high),
        }
    }
    Some(high)
}

#[cfg(test)]
mod tests;
