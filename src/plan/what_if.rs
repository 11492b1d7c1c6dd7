//! What would change: a slower supplier, one that is gone, a smaller budget, one more machine, one less.

use std::collections::{BTreeMap, BTreeSet};

use chrono::Days;

use super::as_if::AsIf;
use super::demand::lives;
use super::lead_time::supplier_key;
use super::shop_plan::Plan;
use super::year::machine_weights;
use crate::catalogue::{NameKey, Shop};
use crate::language::in_backticks;
use crate::record::LevelsBy;

/// Changes to think through, all at once.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct WhatIf {
    /// Suppliers whose lead times are so many times as long, those of what is on order included.
    pub slower: Vec<(String, f64)>,
    /// Suppliers that are gone, with what is on order from them.
    pub gone: Vec<String>,
    /// Share by which the money in stock is cut.
    pub budget_cut_share: Option<f64>,
    /// Machines of which there is one more; named twice, two more.
    pub one_more: Vec<String>,
    /// Machines that leave service now.
    pub retired: Vec<String>,
}

/// A change that cannot be thought through.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum WhatIfError {
    /// No such supplier.
    #[error("no supplier `{name}` in the offers; there are {known}")]
    NoSupplier {
        /// As asked.
        name: String,
        /// Those there are.
        known: String,
    },
    /// No such machine.
    #[error("no machine `{name}` in service; there are {known}")]
    NoMachine {
        /// As asked.
        name: String,
        /// Those there are.
        known: String,
    },
    /// A factor that is none.
    #[error("`{factor}` is no factor of a lead time; expected above 0 and at most 20")]
    Factor {
        /// As asked.
        factor: f64,
    },
    /// A cut that is none.
    #[error("`{percent}` is no cut of the budget; expected above 0 and below 100, in per cent")]
    Cut {
        /// As asked, in per cent.
        percent: f64,
    },
    /// A supplier that is gone and slower at once.
    #[error("supplier `{name}` cannot be slower and gone at once; ask for one of the two")]
    SlowerAndGone {
        /// As asked.
        name: String,
    },
    /// A machine of which there is one more, and that leaves service.
    #[error(
        "of machine `{name}` there cannot be one more and none at once; ask for one of the two"
    )]
    OneMoreAndRetired {
        /// As asked.
        name: String,
    },
    /// A budget without levels to cut.
    #[error("no level has a price, so that there is no stock value to cut")]
    NothingToCut,
}

impl WhatIf {
    /// True where nothing is asked.
    pub fn is_nothing(&self) -> bool {
        *self == Self::default()
    }

    /// The shop after the changes; `plan` is its plan before them.
    ///
    /// One more machine of a name adds its share of the usages of each part, as recorded by machine, else by the places
    /// where kits fit the part. The budget is cut from the value of today's planned levels.
    ///
    /// # Errors
    /// [`WhatIfError`] where a name or number is none.
    pub fn changed(&self, shop: &Shop, plan: &Plan) -> Result<(Shop, AsIf), WhatIfError> {
        let mut after = shop.clone();
        let mut as_if = AsIf::default();
        for (name, factor) in &self.slower {
            if !(*factor > 0.0 && *factor <= 20.0) {
                return Err(WhatIfError::Factor { factor: *factor });
            }
            let of = as_if.lead_factors.entry(supplier_of(shop, name)?);
            *of.or_insert(1.0) *= factor;
        }
        for name in &self.gone {
            let key = supplier_of(shop, name)?;
            if as_if.lead_factors.contains_key(&key) {
                let name = name.clone();
                return Err(WhatIfError::SlowerAndGone { name });
            }
            let is_left = |supplier: &str| supplier_key(supplier) != key;
            after.offers.retain(|offer| is_left(&offer.record.supplier));
            after
                .receipts
                .retain(|of| of.record.received.is_some() || is_left(&of.record.supplier));
        }
        if let Some(share) = self.budget_cut_share {
            cut_budget(&mut after, plan, share)?;
        }
        let weights = machine_weights(shop);
        let mut more = BTreeSet::new();
        for name in &self.one_more {
            let key = machine_of(&after, name)?;
            more.insert(key.clone());
            let Some(machine) = after.machines.get_mut(&key) else {
                continue;
            };
            let before = machine.installed.unwrap_or(1.0).max(1.0);
            machine.installed = Some(before + 1.0);
            for (part, of) in &weights {
                let all: f64 = of.values().sum();
                let own = of.get(&key).copied().unwrap_or(0.0);
                if own > 0.0 && all > 0.0 {
                    // Each further one adds as much as one of those that were there at first.
                    let first = shop.machines[&key].installed.unwrap_or(1.0).max(1.0);
                    let factor = as_if.usage_factors.entry(*part).or_insert(1.0);
                    *factor += own / all / first;
                }
            }
        }
        for name in &self.retired {
            // Named twice it leaves once: asked of the shop as it is.
            let key = machine_of(shop, name)?;
            if more.contains(&key) {
                let name = name.clone();
                return Err(WhatIfError::OneMoreAndRetired { name });
            }
            let yesterday = shop.as_of.date().checked_sub_days(Days::new(1));
            if let Some(machine) = after.machines.get_mut(&key) {
                machine.in_use_until = yesterday;
            }
            for kit in &mut after.kits {
                let of = kit.machine.as_deref().map(NameKey::new);
                if of.is_some_and(|of| of.as_str() == key) {
                    kit.planned.clear();
                }
            }
        }
        if !more.is_empty() {
            // How often each fails is what the records tell of those that were there, by the same method.
            let mut told = after.clone();
            for key in &more {
                if let Some(machine) = told.machines.get_mut(key) {
                    machine.installed = shop.machines[key].installed;
                }
            }
            as_if.lives = Some(lives(&told));
        }
        Ok((after, as_if))
    }
}

/// Positions of dated needs after a change that nothing can be ordered for, although it could before.
pub fn newly_without_source(before: &Plan, after: &Plan) -> Vec<usize> {
    let of = |plan: &Plan, at: usize| {
        let need = &plan.needs[at];
        (need.kit, need.line, need.date)
    };
    let open = |plan: &Plan| -> Vec<usize> {
        let not_ordered = plan.reorder.not_ordered.iter();
        not_ordered.filter_map(|not| not.need).collect()
    };
    let was: BTreeSet<_> = open(before).into_iter().map(|at| of(before, at)).collect();
    let mut lost = open(after);
    lost.retain(|at| !was.contains(&of(after, *at)));
    lost
}

fn cut_budget(shop: &mut Shop, plan: &Plan, share: f64) -> Result<(), WhatIfError> {
    if !(share > 0.0 && share < 1.0) {
        let percent = 100.0 * share;
        return Err(WhatIfError::Cut { percent });
    }
    let chosen = plan.levels.chosen.ok_or(WhatIfError::NothingToCut)?;
    let planning = &mut shop.settings.planning;
    planning.levels_by = LevelsBy::StockOutPrice;
    planning.stock_budget = Some(chosen.stock_value * (1.0 - share));
    Ok(())
}

fn supplier_of(shop: &Shop, name: &str) -> Result<String, WhatIfError> {
    let key = supplier_key(name);
    let names: BTreeMap<String, &str> = shop
        .offers
        .iter()
        .map(|of| (supplier_key(&of.record.supplier), &*of.record.supplier))
        .collect();
    // A name may be shortened as long as it is the only one that begins so.
    let mut begin = names.keys().filter(|known| known.starts_with(&key));
    match (names.contains_key(&key), begin.next(), begin.next()) {
        (true, ..) => Ok(key),
        (false, Some(only), None) => Ok(only.clone()),
        _ => Err(WhatIfError::NoSupplier {
            name: name.to_owned(),
            known: listed(names.values().copied()),
        }),
    }
}

fn machine_of(shop: &Shop, name: &str) -> Result<String, WhatIfError> {
    let key = NameKey::new(name).into_text();
    let today = shop.as_of.date();
    let is_in_service = |key: &String| {
        let until = shop.machines.get(key).map(|machine| machine.in_use_until);
        until.is_some_and(|until| until.is_none_or(|until| until > today))
    };
    if is_in_service(&key) {
        return Ok(key);
    }
    let in_service = shop.machines.iter().filter(|(key, _)| is_in_service(key));
    Err(WhatIfError::NoMachine {
        name: name.to_owned(),
        known: listed(in_service.map(|(_, machine)| &*machine.machine)),
    })
}

fn listed<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let names = in_backticks(names);
    if names.is_empty() {
        "none".to_owned()
    } else {
        names.join(", ")
    }
}

#[cfg(test)]
mod tests;
