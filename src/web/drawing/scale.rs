//! Axes: round steps for figures, and steps of the clock for hours.

/// Steps of an axis at most.
const MOST_STEPS: f64 = 5.0;
/// Steps of the clock and the calendar, in hours.
const CLOCK_STEPS_H: [f64; 14] = [
    1.0, 2.0, 4.0, 8.0, 12.0, 24.0, 48.0, 96.0, 168.0, 336.0, 672.0, 1344.0, 2688.0, 5376.0,
];

/// An axis with its steps.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::web) struct Axis {
    /// What it counts, with its unit.
    pub(in crate::web) name: String,
    /// Where it begins.
    pub(in crate::web) from: f64,
    /// Where it ends.
    pub(in crate::web) until: f64,
    /// Steps with their words.
    pub(in crate::web) steps: Vec<(f64, String)>,
}

impl Axis {
    /// Where the name of a step is held, so that the first and the last stay within the picture.
    pub(super) fn anchor_of_step(&self, number: usize) -> &'static str {
        match number {
            0 => "start",
            _ if number + 1 == self.steps.len() => "end",
            _ => "middle",
        }
    }

    /// An axis from 0 in round steps.
    pub(in crate::web) fn from_zero(
        name: &str,
        highest: f64,
        words: impl Fn(f64) -> String,
    ) -> Self {
        let step = nice_step(highest);
        let count = (highest / step).ceil().max(1.0);
        Self {
            name: name.to_owned(),
            from: 0.0,
            until: count * step,
            steps: (0..=count as usize)
                .map(|at| (at as f64 * step, words(at as f64 * step)))
                .collect(),
        }
    }

    /// Share of the axis at which a value lies.
    pub(super) fn share(&self, value: f64) -> f64 {
        (value - self.from) / (self.until - self.from)
    }
}

/// A round step, 1, 2 or 5 and noughts, by which an axis up to `highest` has five steps at most.
pub(in crate::web) fn nice_step(highest: f64) -> f64 {
    let least = (highest / MOST_STEPS).max(1e-9);
    let power = 10.0_f64.powf(least.log10().floor());
    let factor = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .find(|factor| factor * power >= least * (1.0 - 1e-9));
    factor.unwrap_or(10.0) * power
}

/// An axis of hours from now, in steps of the clock.
pub(in crate::web) fn hours_from_now(longest_h: f64) -> Axis {
    let longest_h = longest_h.max(1.0);
    let step = CLOCK_STEPS_H
        .into_iter()
        .find(|step| longest_h / step <= MOST_STEPS)
        .unwrap_or_else(|| nice_step(longest_h));
    let count = (longest_h / step).ceil().max(1.0) as usize;
    let words = |hours: f64| {
        if hours == 0.0 {
            "now".to_owned()
        } else if step < 24.0 {
            format!("{hours:.0} h")
        } else {
            format!("{:.0} d", hours / 24.0)
        }
    };
    Axis {
        name: "from now".to_owned(),
        from: 0.0,
        until: count as f64 * step,
        steps: (0..=count)
            .map(|at| (at as f64 * step, words(at as f64 * step)))
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_round_and_few_and_reach_the_end() {
        for (highest, step) in [
            (4.9, 1.0),
            (5.0, 1.0),
            (7.0, 2.0),
            (12_345.0, 5_000.0),
            (0.3, 0.1),
        ] {
            assert!((nice_step(highest) - step).abs() < 1e-12, "{highest}");
            let axis = Axis::from_zero("", highest, |value| value.to_string());
            assert!(axis.until >= highest && axis.steps.len() <= 6, "{highest}");
        }
    }

    #[test]
    fn hours_are_counted_by_the_clock() {
        let words = |longest| {
            let axis = hours_from_now(longest);
            let words: Vec<String> = axis.steps.into_iter().map(|(_, words)| words).collect();
            words.join(" ")
        };
        assert_eq!(words(5.5), "now 2 h 4 h 6 h");
        assert_eq!(words(100.0), "now 1 d 2 d 3 d 4 d 5 d");
        assert_eq!(words(1000.0), "now 14 d 28 d 42 d");
    }
}
