//! Axes: round steps for figures, steps of the clock for hours and of the calendar for days.

use chrono::{Days, NaiveDate};

/// Steps of an axis at most.
const MOST_STEPS: f64 = 5.0;
/// Dates below a picture at most, beside the first: a phone has room for no more.
const MOST_DATES: f64 = 3.0;
/// Steps of the clock and the calendar, in hours.
const CLOCK_STEPS_H: [f64; 14] = [
    1.0, 2.0, 4.0, 8.0, 12.0, 24.0, 48.0, 96.0, 168.0, 336.0, 672.0, 1344.0, 2688.0, 5376.0,
];

/// Width of a picture on a narrow phone (360 pixels less its margins), of a figure of 12 pixels in it, and between two words.
const NARROWEST: f64 = 320.0;
const LETTER: f64 = 7.0;
const GAP: f64 = 6.0;

/// An axis with its steps.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Axis {
    /// What it counts, with its unit.
    pub(crate) name: String,
    /// Where it begins.
    pub(crate) from: f64,
    /// Where it ends.
    pub(crate) until: f64,
    /// Steps with their words.
    pub(crate) steps: Vec<(f64, String)>,
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

    /// Steps that have room for their words on a narrow phone: the first, the last, and of those between every one that touches
    /// no other.
    pub(super) fn named_steps(&self) -> Vec<usize> {
        let span = |number: usize| {
            let (value, words) = &self.steps[number];
            let at = self.share(*value) * NARROWEST;
            let width = words.chars().count() as f64 * LETTER;
            match self.anchor_of_step(number) {
                "start" => (at, at + width),
                "end" => (at - width, at),
                _ => (at - width / 2.0, at + width / 2.0),
            }
        };
        let Some(last) = self.steps.len().checked_sub(1) else {
            return Vec::new();
        };
        let mut named = vec![0];
        let mut free_from = span(0).1 + GAP;
        for number in 1..last {
            let (from, until) = span(number);
            if from >= free_from && until + GAP <= span(last).0 {
                named.push(number);
                free_from = until + GAP;
            }
        }
        if last > 0 {
            named.push(last);
        }
        named
    }

    /// An axis from 0 in round steps.
    pub(crate) fn from_zero(name: &str, highest: f64, words: impl Fn(f64) -> String) -> Self {
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

    /// An axis in round steps around what lies between two figures, not below `least_possible` nor above `most_possible`.
    pub(crate) fn between(
        name: &str,
        (least, most): (f64, f64),
        (least_possible, most_possible): (f64, f64),
        words: impl Fn(f64) -> String,
    ) -> Self {
        let step = nice_step(((most - least).max(most.abs() * 1e-3)).max(1e-6));
        let from = ((least / step).floor() * step).max(least_possible);
        let until = ((most / step).ceil() * step).min(most_possible);
        let until = if until > from { until } else { from + step };
        let count = ((until - from) / step).round().max(1.0) as usize;
        let each = (until - from) / count as f64;
        Self {
            name: name.to_owned(),
            from,
            until,
            steps: (0..=count)
                .map(|at| from + at as f64 * each)
                .map(|value| (value, words(value)))
                .collect(),
        }
    }

    /// Share of the axis at which a value lies.
    pub(super) fn share(&self, value: f64) -> f64 {
        (value - self.from) / (self.until - self.from)
    }
}

/// A round step, 1, 2 or 5 and noughts, by which an axis up to `highest` has five steps at most.
pub(crate) fn nice_step(highest: f64) -> f64 {
    let least = (highest / MOST_STEPS).max(1e-9);
    let power = 10.0_f64.powf(least.log10().floor());
    let factor = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .find(|factor| factor * power >= least * (1.0 - 1e-9));
    factor.unwrap_or(10.0) * power
}

/// An axis of days from one on, in steps of the calendar with their dates.
pub(in crate::report) fn days_from(
    first: NaiveDate,
    longest_days: f64,
    date: impl Fn(NaiveDate) -> String,
) -> Axis {
    let longest_days = longest_days.ceil().max(1.0);
    let steps = [1.0, 2.0, 7.0, 14.0, 28.0, 56.0, 91.0, 182.0, 364.0];
    let enough = |step: &f64| longest_days / step <= MOST_DATES;
    let step = steps
        .into_iter()
        .find(enough)
        .unwrap_or_else(|| (longest_days / MOST_DATES).ceil());
    let count = (longest_days / step).ceil().max(1.0) as u64;
    Axis {
        name: String::new(),
        from: 0.0,
        until: count as f64 * step,
        steps: (0..=count)
            .map(|at| at as f64 * step)
            .map(|day| (day, date(first + Days::new(day as u64))))
            .collect(),
    }
}

/// An axis of hours from now, in steps of the clock; `say` puts its words into the reader's language.
pub(crate) fn hours_from_now(longest_h: f64, say: impl Fn(&str) -> String) -> Axis {
    let longest_h = longest_h.max(1.0);
    let step = CLOCK_STEPS_H
        .into_iter()
        .find(|step| longest_h / step <= MOST_STEPS)
        .unwrap_or_else(|| nice_step(longest_h));
    let count = (longest_h / step).ceil().max(1.0) as usize;
    let words = |hours: f64| {
        if hours == 0.0 {
            say("now")
        } else if step < 24.0 {
            format!("{hours:.0} h")
        } else {
            format!("{:.0} d", hours / 24.0)
        }
    };
    Axis {
        name: say("from now"),
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
    fn words_of_steps_never_touch_on_a_phone() {
        let axis = |highest: f64, words: fn(f64) -> String| Axis::from_zero("", highest, words);
        let short = axis(4.0, |value| format!("{value:.0}"));
        assert_eq!(short.named_steps(), [0, 1, 2, 3, 4]);
        // 40,000 and 50,000 of a curve of money touched each other.
        let money = axis(50_000.0, |value| format!("{value:.0},000"));
        let named = money.named_steps();
        assert!(named.len() < money.steps.len(), "{named:?}");
        assert_eq!(
            (named[0], named[named.len() - 1]),
            (0, money.steps.len() - 1)
        );
        let long = axis(3.0, |_| "a very long step".to_owned());
        assert_eq!(long.named_steps(), [0, 3]);
        let one = Axis {
            name: String::new(),
            from: 0.0,
            until: 1.0,
            steps: vec![(0.0, "now".to_owned())],
        };
        assert_eq!(one.named_steps(), [0]);
    }

    #[test]
    fn an_axis_between_two_figures_holds_both_and_stays_within_what_can_be() {
        for (least, most, possible) in [
            (0.62, 0.971, (0.0, 1.0)),
            (0.97, 0.99, (0.0, 1.0)),
            (1.0, 1.0, (0.0, 1.0)),
            (0.0, 0.0, (0.0, f64::INFINITY)),
            (3_000.0, 91_000.0, (0.0, f64::INFINITY)),
            (-5.0, 7.0, (f64::NEG_INFINITY, f64::INFINITY)),
        ] {
            let axis = Axis::between("", (least, most), possible, |value| value.to_string());
            assert!(
                axis.from <= least && axis.until >= most.min(possible.1),
                "{axis:?}"
            );
            assert!(
                axis.from >= possible.0 && axis.until > axis.from,
                "{axis:?}"
            );
            assert!((2..=8).contains(&axis.steps.len()), "{axis:?}");
            let ends = (axis.steps[0].0, axis.steps[axis.steps.len() - 1].0);
            assert!((ends.0 - axis.from).abs() < 1e-9 && (ends.1 - axis.until).abs() < 1e-9);
        }
    }

    #[test]
    fn dates_below_the_bands_stay_few_and_begin_at_the_first() {
        let first = NaiveDate::from_ymd_opt(2026, 3, 9).unwrap();
        for days in [0.0, 1.0, 3.0, 9.0, 30.0, 200.0, 1_000.0, 5_000.0] {
            let axis = days_from(first, days, |date| date.to_string());
            assert!(axis.steps.len() <= 5 && axis.until >= days, "{axis:?}");
            assert_eq!(axis.steps[0].1, "2026-03-09");
        }
        let week = days_from(first, 13.5, |date| date.to_string());
        let dates: Vec<&str> = week.steps.iter().map(|(_, date)| date.as_str()).collect();
        assert_eq!(dates, ["2026-03-09", "2026-03-16", "2026-03-23"]);
    }

    #[test]
    fn hours_are_counted_by_the_clock() {
        let words = |longest| {
            let axis = hours_from_now(longest, str::to_owned);
            let words: Vec<String> = axis.steps.into_iter().map(|(_, words)| words).collect();
            words.join(" ")
        };
        assert_eq!(words(5.5), "now 2 h 4 h 6 h");
        assert_eq!(words(100.0), "now 1 d 2 d 3 d 4 d 5 d");
        assert_eq!(words(1000.0), "now 14 d 28 d 42 d");
    }
}
