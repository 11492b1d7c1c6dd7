//! Lower and upper deviation from nominal, and tables of them by step of diameter.

use crate::quick_map::QuickMap;

/// Deviations from a nominal size.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Deviation {
    /// Lower deviation, µm.
    pub lower_um: f64,
    /// Upper deviation, µm.
    pub upper_um: f64,
}

/// One line: above `over_mm`, up to and including `incl_mm`.
pub(super) struct Step {
    over_mm: f64,
    incl_mm: f64,
    deviation: Deviation,
}

/// Deviations by key and step of diameter.
pub(super) struct Steps {
    by_key: QuickMap<String, Vec<Step>>,
}

impl Deviation {
    /// Width of the band, mm.
    pub fn band_mm(self) -> f64 {
        (self.upper_um - self.lower_um) / 1000.0
    }

    /// Middle of the band relative to nominal, mm.
    pub fn middle_mm(self) -> f64 {
        (self.upper_um + self.lower_um) / 2000.0
    }
}

impl Steps {
    /// Reads a shipped table whose first `keys` columns are the key, then `over_mm`, `incl_mm`, `lower_um`, `upper_um`.
    ///
    /// A line that cannot be read is left out; the suite counts the lines of each table.
    pub(super) fn read(text: &str, keys: usize) -> Self {
        let mut reader = csv::ReaderBuilder::new()
            .comment(Some(b'#'))
            .from_reader(text.as_bytes());
        let mut by_key: QuickMap<String, Vec<Step>> = QuickMap::default();
        for record in reader.records().flatten() {
            let key: Vec<&str> = record.iter().take(keys).collect();
            let numbers: Vec<f64> = record
                .iter()
                .skip(keys)
                .take(4)
                .filter_map(|cell| cell.trim().parse().ok())
                .collect();
            if let [over_mm, incl_mm, lower_um, upper_um] = numbers[..] {
                by_key.entry(key.join(" ")).or_default().push(Step {
                    over_mm,
                    incl_mm,
                    deviation: Deviation { lower_um, upper_um },
                });
            }
        }
        Self { by_key }
    }

    /// The deviation of a key at a diameter; `None` outside the table.
    pub(super) fn at(&self, key: &str, diameter_mm: f64) -> Option<Deviation> {
        step_at(self.of(key), diameter_mm)
    }

    /// The steps of a key, for who asks often; none where there is no such key.
    pub(super) fn of(&self, key: &str) -> &[Step] {
        self.by_key.get(key).map_or(&[], Vec::as_slice)
    }

    /// Keys in order.
    pub(super) fn keys(&self) -> Vec<&str> {
        let mut keys: Vec<&str> = self.by_key.keys().map(String::as_str).collect();
        keys.sort_unstable();
        keys
    }
}

/// The deviation at a diameter; `None` outside the steps.
pub(super) fn step_at(steps: &[Step], diameter_mm: f64) -> Option<Deviation> {
    let step = steps
        .iter()
        .find(|step| step.over_mm < diameter_mm && diameter_mm <= step.incl_mm)?;
    Some(step.deviation)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_holds_its_upper_end_and_not_its_lower() {
        let steps = Steps::read(
            "# x\nkey,over_mm,incl_mm,lower_um,upper_um\na,10,18,-8,0\na,18,30,-10,0\nb,1,two,3,4\n",
            1,
        );
        assert_eq!(steps.at("a", 18.0).map(|d| d.lower_um), Some(-8.0));
        assert_eq!(steps.at("a", 18.01).map(|d| d.lower_um), Some(-10.0));
        assert_eq!(steps.at("a", 10.0), None);
        assert_eq!(steps.at("c", 15.0), None);
        assert_eq!(steps.keys(), ["a"]);
    }

    #[test]
    fn the_middle_and_width_of_a_band() {
        let band = Deviation {
            lower_um: -12.0,
            upper_um: 0.0,
        };
        assert!((band.band_mm() - 0.012).abs() < 1e-12);
        assert!((band.middle_mm() + 0.006).abs() < 1e-12);
    }
}
