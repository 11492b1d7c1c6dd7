//! Smoothed forecasts of intermittent demand, as options beside the shrinkage estimate.
//!
//! Quantities by period, oldest first. The size begins at the first quantity, the interval at its position counted from
//! 1; the probability begins at the first period.

/// Smoothed levels after the last period.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Smoothed {
    /// Quantity of a period with demand.
    pub size: f64,
    /// Periods between those with demand.
    pub interval_periods: f64,
    /// Share of periods with demand.
    pub probability_share: f64,
}

impl Smoothed {
    /// Smooths a series with one constant for sizes and intervals and one for the probability; `None` without demand.
    ///
    /// # Source
    /// Croston, Oper. Res. Q. 23:289-303 (1972); Teunter, Syntetos & Babai, Eur. J. Oper. Res. 214:606-615 (2011).
    pub fn new(series: &[f64], size_share: f64, probability_constant: f64) -> Option<Self> {
        let mut found: Option<Self> = None;
        let mut last = 0;
        let mut probability = f64::from(u8::from(*series.first()? > 0.0));
        for (at, quantity) in series.iter().enumerate() {
            let is_used = *quantity > 0.0;
            if at > 0 {
                let seen = f64::from(u8::from(is_used));
                probability += probability_constant * (seen - probability);
            }
            if is_used {
                let interval = (at + 1 - last) as f64;
                last = at + 1;
                let levels = found.get_or_insert(Self {
                    size: *quantity,
                    interval_periods: interval,
                    probability_share: 0.0,
                });
                levels.size += size_share * (quantity - levels.size);
                levels.interval_periods += size_share * (interval - levels.interval_periods);
            }
        }
        found.map(|levels| Self {
            probability_share: probability,
            ..levels
        })
    }

    /// Croston's forecast, quantity a period.
    pub fn croston(&self) -> f64 {
        self.size / self.interval_periods
    }

    /// Croston's forecast less its bias for the smoothing constant used.
    ///
    /// # Source
    /// Syntetos & Boylan, Int. J. Forecast. 21:303-314 (2005).
    pub fn sba(&self, size_share: f64) -> f64 {
        (1.0 - size_share / 2.0) * self.croston()
    }

    /// Forecast by probability, which falls while a part is not used.
    pub fn tsb(&self) -> f64 {
        self.size * self.probability_share
    }
}
