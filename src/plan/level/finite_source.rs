//! Few machines: one that waits for a part does not ask for another.

use super::demand_table::DemandTable;

/// Machines up to which the number of machines matters more than the effort.
pub const FEW_MACHINES: f64 = 10.0;

/// Machines of one kind that share spares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FewMachines {
    /// Places where the part sits.
    pub places: u32,
    /// Uses expected in the mean lead time if no place ever waited.
    pub mean: f64,
}

impl FewMachines {
    /// Expected places that wait while `owned` spares go round.
    ///
    /// # Source
    /// Machine-repairman with spares and ample repair, a birth-death chain in the number on order (Taylor & Jackson,
    /// Operational Research Quarterly 5:95-108, 1954, from memory); the law of the lead time does not matter.
    pub fn waiting(&self, owned: u32) -> f64 {
        let shares = self.on_order(owned);
        shares
            .iter()
            .enumerate()
            .skip(owned as usize + 1)
            .map(|(units, share)| (units - owned as usize) as f64 * share)
            .sum()
    }

    /// Share of the time that a place works.
    pub fn availability(&self, owned: u32) -> f64 {
        1.0 - self.waiting(owned) / f64::from(self.places.max(1))
    }

    /// Probabilities of 0, 1, ... units on order.
    fn on_order(&self, owned: u32) -> Vec<f64> {
        let each = self.mean / f64::from(self.places.max(1));
        let mut weights = vec![1.0];
        for units in 0..self.places + owned {
            let working = self.places.min(self.places + owned - units);
            let last = weights[weights.len() - 1];
            weights.push(last * f64::from(working) * each / f64::from(units + 1));
        }
        let sum: f64 = weights.iter().sum();
        weights.iter().map(|weight| weight / sum).collect()
    }

    /// What each number of spares leaves waiting, in the form of a demand in the lead time.
    pub fn spares_table(&self) -> DemandTable {
        const MOST_SPARES: u32 = 200;
        let mut shortfalls = Vec::new();
        for owned in 0..MOST_SPARES {
            let waiting = self.waiting(owned);
            shortfalls.push(waiting);
            if waiting < 1e-13 {
                break;
            }
        }
        DemandTable::of_shortfalls(shortfalls)
    }
}
