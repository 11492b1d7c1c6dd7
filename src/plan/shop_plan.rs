//! The whole plan of a shop.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::as_if::AsIf;
use super::demand::{Demand, DemandPool, PartLife, PoolSaving, demands, pool_savings, pools};
use super::issue::PlanIssue;
use super::kit::{KitPlan, KitsToPlan, list_ways_of_parts, told_kits};
use super::level::{Levels, OneWaySaving, one_way_savings, target_shares};
use super::offer::{Delivery, UnusableOffer};
use super::open_order::OpenOrder;
use super::rebuild_need::{RebuildNeed, rebuild_needs};
use super::reorder::Reorder;
use super::sourcing::Sourcing;
use super::stock::FreeStock;
use crate::catalogue::{PartId, Shop};
use crate::interchange::LineAcceptance;
use crate::parallel;
use crate::place::Place;
use crate::record::LevelsBy;

/// When the goods of one usable offer would come.
#[derive(Debug, Clone, PartialEq)]
pub struct OfferArrivals {
    /// Position in [`Shop::offers`].
    pub offer: usize,
    /// The part.
    pub part: PartId,
    /// The row.
    pub place: Place,
    /// Ways the goods can come, the quoted one first; an arrival of `None` is unknown.
    pub deliveries: Vec<Delivery>,
    /// Days since the quote; `None` where it has no date.
    pub quote_age_days: Option<i64>,
    /// True where the quote is older than the settings allow.
    pub is_old: bool,
}

/// One in so many kits is planned beside the order list, the others beside demand and levels: so much longer these take.
const KITS_BESIDE_ORDERS: usize = 5;

/// Everything the plan found: numbers, and their reasons in words.
#[derive(Debug, Clone, Default)]
pub struct Plan {
    /// Free stock and expired lots.
    pub stock: FreeStock,
    /// Open orders by part.
    pub open_orders: Vec<OpenOrder>,
    /// Usable offers, in the order of [`Shop::offers`].
    pub offers: Vec<OfferArrivals>,
    /// Offers that are not bought from, and why.
    pub unusable_offers: Vec<UnusableOffer>,
    /// Demand of own parts and of others with usages.
    pub demands: BTreeMap<PartId, Arc<Demand>>,
    /// Own parts whose demand one stock may serve; every own part is in one.
    pub pools: Vec<DemandPool>,
    /// What one stock a pool would save.
    pub pool_savings: Vec<PoolSaving>,
    /// Lives in running hours, where they can be told.
    pub lives: BTreeMap<PartId, PartLife>,
    /// What serving a number from the stock of one that goes in for it, but not the reverse, would save.
    pub one_way_savings: Vec<OneWaySaving>,
    /// Stock levels of own parts.
    pub levels: Levels,
    /// Kits, in the order of [`Shop::kits`], each as if it alone were rebuilt now.
    pub kits: Vec<KitPlan>,
    /// Needs of planned rebuilds of the next twelve months, earliest first.
    pub needs: Vec<RebuildNeed>,
    /// What to order.
    pub reorder: Reorder,
    /// Rows that could not be taken as they stand.
    pub issues: Vec<PlanIssue>,
}

/// Plans a shop at its moment of planning.
///
/// `acceptances` says what may be fitted on each kit line; a line without an entry takes only the part it asks for.
pub fn plan(shop: &Shop, acceptances: &[LineAcceptance]) -> Plan {
    plan_as_if(shop, acceptances, &AsIf::default())
}

/// As [`plan`], with lead times and usages other than the tables say.
pub fn plan_as_if(shop: &Shop, acceptances: &[LineAcceptance], as_if: &AsIf) -> Plan {
    let mut issues = Vec::new();
    let mut sourcing = Sourcing::new(shop, &mut issues);
    as_if.slow(&mut sourcing);
    list_ways_of_parts(&sourcing, &mut issues);
    let lives = as_if.lives(shop);
    // Kits look at no levels. One thing after another in levels and in the order list leaves a core free for them.
    let beside_levels = shop.kits.len() - shop.kits.len() / KITS_BESIDE_ORDERS;
    let (stocked, (kits, planned)) = parallel::both(
        || Stocked::new(&sourcing, acceptances, as_if, &lives),
        || {
            let kits = KitsToPlan::new(&sourcing, acceptances);
            let planned = kits.planned(0..beside_levels);
            (kits, planned)
        },
    );
    let Stocked {
        demands,
        pools,
        pool_savings,
        one_way_savings,
        mut levels,
        issues: of_levels,
    } = stocked;
    let ((needs, reorder, of_needs), others) = parallel::both(
        || {
            let mut issues = Vec::new();
            let needs = rebuild_needs(&sourcing, acceptances, &mut issues);
            let reorder = Reorder::new(&sourcing, acceptances, &needs, &levels);
            (needs, reorder, issues)
        },
        || kits.planned(beside_levels..shop.kits.len()),
    );
    drop(kits);
    levels.tell_last_buys(&reorder.last_buys);
    issues.extend(of_levels);
    let planned = planned.into_iter().chain(others);
    let kits = told_kits(planned, &mut issues);
    issues.extend(of_needs);
    let mut offers: Vec<OfferArrivals> = sourcing
        .offers
        .into_values()
        .flatten()
        .map(|offer| OfferArrivals {
            offer: offer.offer,
            part: offer.part,
            place: offer.record.place.clone(),
            deliveries: offer.deliveries,
            quote_age_days: offer.quote_age_days,
            is_old: offer.is_old,
        })
        .collect();
    offers.sort_by_key(|offer| offer.offer);
    offers.shrink_to_fit();
    Plan {
        stock: sourcing.stock,
        open_orders: sourcing.orders.into_values().flatten().collect(),
        offers,
        unusable_offers: sourcing.unusable,
        demands,
        pools,
        pool_savings,
        one_way_savings,
        lives,
        levels,
        kits,
        needs,
        reorder,
        issues,
    }
}

/// What is used and kept.
struct Stocked {
    demands: BTreeMap<PartId, Arc<Demand>>,
    pools: Vec<DemandPool>,
    pool_savings: Vec<PoolSaving>,
    one_way_savings: Vec<OneWaySaving>,
    levels: Levels,
    issues: Vec<PlanIssue>,
}

impl Stocked {
    fn new(
        sourcing: &Sourcing<'_>,
        acceptances: &[LineAcceptance],
        as_if: &AsIf,
        lives: &BTreeMap<PartId, PartLife>,
    ) -> Self {
        let shop = sourcing.shop;
        let mut issues = Vec::new();
        let mut demands = demands(shop, acceptances, lives, &mut issues);
        as_if.use_more(&mut demands);
        let pools = pools(shop, acceptances);
        let levels = Levels::new(sourcing, &demands, &pools, &mut issues);
        let targets = target_shares(shop);
        let days = |part: &PartId| Some((*part, levels.serving(*part)?.lead_days()?));
        let level_days = levels.by_part.keys().filter_map(days).collect();
        let pool_savings = pool_savings(sourcing, &demands, &pools, &targets, &level_days);
        let one_way_savings = one_way_savings(sourcing, &levels, &demands, &pools, &targets);
        Self {
            demands,
            pools,
            pool_savings,
            one_way_savings,
            levels,
            issues,
        }
    }
}

/// The levels that the shop would have for a sum of money in stock, with everything else as it is.
///
/// `plan` is the shop's [`plan`](fn@plan).
///
/// # Units
/// `budget` in units of the shop's currency.
pub fn levels_for_budget(shop: &Shop, plan: &Plan, budget: f64) -> Levels {
    let mut shop = shop.clone();
    shop.settings.planning.levels_by = LevelsBy::StockOutPrice;
    shop.settings.planning.stock_budget = Some(budget);
    // What is wrong with rows stands in the plan already.
    let mut issues = Vec::new();
    let sourcing = Sourcing::new(&shop, &mut issues);
    Levels::new(&sourcing, &plan.demands, &plan.pools, &mut issues)
}
