//! The next order of a supplier, or of a part, of which only a few receipts are known.

use std::collections::BTreeMap;

use super::log_sample::LogSample;
use super::peers::Peers;
use super::shrinkage::{Estimate, Pool, Within, between};
use super::spread::LeadTime;
use crate::catalogue::PartId;

/// Suppliers that lean on each other.
#[derive(Debug, Clone)]
pub struct SupplierLeaning {
    within: Within,
    samples: BTreeMap<String, LogSample>,
    peers: Peers,
}

/// Parts of suppliers that lean on the supplier's other parts, and through it on other suppliers.
#[derive(Debug, Clone)]
pub struct PartLeaning {
    within: Within,
    between_parts: f64,
    suppliers: BTreeMap<String, SupplierParts>,
    peers: Peers,
}

#[derive(Debug, Clone)]
struct SupplierParts {
    samples: BTreeMap<PartId, LogSample>,
    pool: Pool,
    receipts: usize,
}

impl SupplierLeaning {
    /// Takes a sample of each supplier; `None` where too few suppliers have two receipts.
    pub fn new(
        samples: BTreeMap<String, LogSample>,
        group_of: &BTreeMap<String, String>,
    ) -> Option<Self> {
        let all: Vec<LogSample> = samples.values().copied().collect();
        let within = Within::of(&all)?;
        let estimates = samples
            .iter()
            .map(|(key, sample)| (key.clone(), (own_mean(within, sample), sample.count)))
            .collect();
        Some(Self {
            within,
            peers: Peers::new(&estimates, group_of),
            samples,
        })
    }

    /// The next order of a supplier and how many receipts of others stand behind it.
    pub fn next(&self, supplier: &str, group: &str) -> Option<(LeadTime, usize)> {
        let others = self.peers.say_of(supplier, group);
        let own = self.samples.get(supplier);
        let within = own.map_or(self.within, |sample| self.within.moderated(sample));
        let mean = match (own.map(|sample| own_mean(self.within, sample)), others) {
            (Some(own), Some(others)) => own.and(others.prior),
            (Some(own), None) => own,
            (None, Some(others)) => others.prior,
            (None, None) => return None,
        };
        Some((
            mean.next(within),
            others.map_or(0, |others| others.observations),
        ))
    }
}

impl PartLeaning {
    /// Takes a sample of each part of each supplier; `None` where too few have two receipts, or no supplier has two
    /// parts.
    pub fn new(
        samples: &BTreeMap<String, BTreeMap<PartId, LogSample>>,
        group_of: &BTreeMap<String, String>,
    ) -> Option<Self> {
        let all: Vec<LogSample> = samples
            .values()
            .flat_map(BTreeMap::values)
            .copied()
            .collect();
        let within = Within::of(&all)?;
        let families: Vec<Vec<Estimate>> = samples
            .values()
            .map(|parts| {
                parts
                    .values()
                    .map(|sample| own_mean(within, sample))
                    .collect()
            })
            .collect();
        let between_parts = between(&families)?;
        let mut suppliers = BTreeMap::new();
        let mut estimates = BTreeMap::new();
        for (key, parts) in samples {
            let mut pool = Pool::default();
            for sample in parts.values() {
                pool.add(own_mean(within, sample), between_parts);
            }
            let receipts = parts.values().map(|sample| sample.count).sum();
            if let Some(mean) = pool.estimate() {
                estimates.insert(key.clone(), (mean, receipts));
                let parts = SupplierParts {
                    samples: parts.clone(),
                    pool,
                    receipts,
                };
                suppliers.insert(key.clone(), parts);
            }
        }
        Some(Self {
            within,
            between_parts,
            suppliers,
            peers: Peers::new(&estimates, group_of),
        })
    }

    /// The next order of a part with receipts, and how many receipts of others stand behind it.
    pub fn next(&self, supplier: &str, part: PartId, group: &str) -> Option<(LeadTime, usize)> {
        let parts = self.suppliers.get(supplier)?;
        let sample = parts.samples.get(&part)?;
        let own = own_mean(self.within, sample);
        let siblings = (parts.samples.len() > 1)
            .then(|| parts.pool.without(own, self.between_parts).estimate())
            .flatten();
        let suppliers = self.peers.say_of(supplier, group);
        let supplier_mean = match (siblings, suppliers) {
            (Some(siblings), Some(others)) => siblings.and(others.prior),
            (Some(siblings), None) => siblings,
            (None, Some(others)) => others.prior,
            (None, None) => return None,
        };
        let others =
            parts.receipts - sample.count + suppliers.map_or(0, |others| others.observations);
        let mean = own.and(supplier_mean.for_member(self.between_parts));
        Some((mean.next(self.within.moderated(sample)), others))
    }
}

/// A member's own mean with its moderated variance.
fn own_mean(within: Within, sample: &LogSample) -> Estimate {
    Estimate {
        mean: sample.log_mean,
        variance: within.moderated(sample).variance / sample.count as f64,
    }
}
