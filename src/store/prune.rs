//! Forgetting old snapshots.

use std::collections::BTreeSet;

use chrono::Datelike;

use super::durable;
use super::error::StoreError;
use super::manifest::Manifest;
use super::workspace::Workspace;

/// Which snapshots stay; the current one always does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PruneRules {
    /// The newest so many.
    pub keep_last: usize,
    /// Besides, the last of each month.
    pub keep_monthly: bool,
}

/// What was forgotten.
#[derive(Debug, Clone, Default, PartialEq, Eq, serde::Serialize)]
pub struct Pruned {
    /// Snapshots, by number.
    pub snapshots: Vec<u32>,
    /// Table files that no snapshot needs any more.
    pub table_files: usize,
}

impl Workspace {
    /// Forgets snapshots, then removes the table files that no other snapshot needs. What a forgotten snapshot knew of
    /// earlier values is gone.
    ///
    /// # Errors
    /// [`StoreError`]; snapshots that are still listed are whole.
    pub fn prune(&self, rules: PruneRules) -> Result<Pruned, StoreError> {
        let _lock = self.write_lock()?;
        let all = self.snapshots()?;
        let stay = staying(&all, rules, self.number()?);
        let mut pruned = Pruned::default();
        for manifest in all
            .iter()
            .filter(|manifest| !stay.contains(&manifest.number))
        {
            durable::remove(&self.manifest_path(manifest.number))?;
            pruned.snapshots.push(manifest.number);
        }
        // Manifests are gone for good before the first table goes.
        durable::sync_folder(&self.snapshots_folder(), self.durability)?;
        let needed: BTreeSet<&str> = (all
            .iter()
            .filter(|manifest| stay.contains(&manifest.number)))
        .flat_map(|manifest| manifest.tables.iter().map(|table| table.file.as_str()))
        .collect();
        for path in durable::files(&self.tables_folder())? {
            let name = path
                .file_name()
                .and_then(|name| name.to_str())
                .unwrap_or_default();
            if name.ends_with(".parquet") && !needed.contains(name) {
                durable::remove(&path)?;
                pruned.table_files += 1;
            }
        }
        Ok(pruned)
    }
}

fn staying(all: &[Manifest], rules: PruneRules, current: u32) -> BTreeSet<u32> {
    let newest = all
        .iter()
        .rev()
        .take(rules.keep_last)
        .map(|manifest| manifest.number);
    let month = |manifest: &Manifest| (manifest.made_at.year(), manifest.made_at.month());
    let is_last_of_month = |manifest: &&Manifest| {
        !all.iter()
            .any(|other| month(other) == month(manifest) && other.number > manifest.number)
    };
    let monthly = all
        .iter()
        .filter(|_| rules.keep_monthly)
        .filter(is_last_of_month)
        .map(|manifest| manifest.number);
    newest.chain(monthly).chain([current]).collect()
}
