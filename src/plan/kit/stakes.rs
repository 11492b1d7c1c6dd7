//! One kit in figures: covers, moments, laws and costs, ready for choosing.

use std::sync::Arc;

use super::arrival_law::{ArrivalLaw, KnownLaws};
use super::task_net::TaskNet;
use super::work_clock::WorkClock;
use crate::plan::lead_time::{Arrival, supplier_key};
use crate::plan::purchase::{
    Chance, Chances, Choice, Cover, Covers, LineNeed, Problem, Single, both,
};
use crate::plan::sourcing::Sourcing;
use crate::plan::supply::Source;
use crate::units::Money;

/// Cents for an hour on the clock where the machine has no cost of an hour down: the fastest plan comes first.
const FASTEST_CENTS_PER_H: f64 = 1_000_000.0;

/// Cents for an hour on the clock that let the earlier of two equal plans win; never shown, and less than a cent in a year
/// ahead.
const EARLIER_CENTS_PER_H: f64 = 0.000_1;

/// Orders of one line that are tried in pairs.
const MOST_SINGLES: usize = 5;

/// What a choice counts besides the hours the machine stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weighed {
    /// What is paid, as a budget sees it.
    Paid,
    /// What is paid and what robbed machines stand for.
    PaidAndDonors,
}

/// An order of which a second may be placed.
#[derive(Debug)]
struct Half {
    /// Cost of the plan with this order alone, as far as its line goes.
    alone: f64,
    /// Position among the covers of the group.
    at: usize,
    /// Goods, for the cancellation.
    goods_cents: i64,
    /// Share of the goods' price that is charged when it is cancelled.
    cancel_share: Option<f64>,
    /// Key of the supplier's name.
    supplier: String,
    /// True where it was placed before the plan.
    is_open: bool,
}

/// What all choices of one kit are measured by.
#[derive(Debug, Clone, Copy)]
pub struct Stakes<'s, 'a> {
    /// Sources.
    pub sourcing: &'s Sourcing<'a>,
    /// Shifts, added up.
    pub clock: &'s WorkClock,
    /// Tasks; `None` where one waits for itself.
    pub tasks: Option<&'s TaskNet>,
    /// Cost of an hour down.
    pub hourly: Option<Money>,
    /// Laws of arrivals that were asked for before.
    pub laws: &'s KnownLaws<'s>,
}

/// A kit in figures.
#[derive(Debug)]
pub struct Figures {
    /// What the lines can be covered by.
    pub covers: Covers,
    /// Pairs of covers that are both ordered, by group; they follow the covers in the lists of choices.
    pub pairs: Vec<Vec<(usize, usize)>>,
    /// Moments of running again, in seconds from the moment of planning.
    pub grid: Vec<i64>,
    /// For choosing by expected cost.
    pub chances: Chances,
    /// Moment of running again if nothing had to be waited for.
    pub base_s: i64,
}

impl Figures {
    /// What donors stand for by some choices, which is in their costs and paid by nobody.
    pub fn donor_cents(&self, choices: &[usize]) -> i64 {
        let groups = self.covers.groups.iter().zip(choices);
        // Beyond the covers lie pairs of orders, for which nobody is robbed.
        groups
            .filter_map(|(group, choice)| Some(group.get(*choice)?.donor_cents))
            .sum()
    }
}

impl Stakes<'_, '_> {
    /// Moment of running again if a line with so much work behind it comes at a moment.
    ///
    /// Where the end of the tasks is unknown, the moment itself.
    pub fn up(&self, moment_s: i64, tail_s: i64) -> Option<i64> {
        match self.tasks {
            None => Some(moment_s),
            Some(tasks) => {
                let base = self.clock.done(0, tasks.longest_s())?;
                Some(base.max(self.clock.done(moment_s, tail_s)?))
            }
        }
    }

    /// Work that still has to be done when a line is there.
    pub fn tail_s(&self, task: Option<&str>) -> i64 {
        self.tasks.map_or(0, |tasks| tasks.tail_s(task))
    }

    /// Law of an arrival.
    pub fn law(&self, arrival: &Arrival) -> Arc<ArrivalLaw> {
        self.laws.of(arrival, &self.sourcing.calendars, self.clock)
    }

    /// Cost of standing still until a moment, for choosing.
    pub fn still_cents(&self, until_s: i64) -> f64 {
        let hours = until_s as f64 / 3600.0;
        match self.hourly {
            Some(hourly) => {
                hourly.cents as f64 * self.clock.production_h(until_s) + EARLIER_CENTS_PER_H * hours
            }
            None => FASTEST_CENTS_PER_H * hours,
        }
    }

    /// Works out covers, laws and costs; `None` where a calendar is closed for good.
    ///
    /// `tails` is the work behind each need.
    pub fn figures(&self, needs: &[LineNeed<'_>], tails: &[i64]) -> Option<Figures> {
        let covers = Covers::new(self.sourcing, needs);
        let longest = self.tasks.map_or(0, TaskNet::longest_s);
        let base_s = self.up(0, longest)?;
        let mut laws: Vec<Vec<Arc<ArrivalLaw>>> = Vec::new();
        for group in &covers.groups {
            let of_group: Option<Vec<Arc<ArrivalLaw>>> = group
                .iter()
                .map(|cover| self.running_law(cover, tails, base_s))
                .collect();
            laws.push(of_group?);
        }
        let mut grid: Vec<i64> = laws
            .iter()
            .flatten()
            .flat_map(|law| law.moments())
            .chain([base_s])
            .collect();
        grid.sort_unstable();
        grid.dedup();
        let lines = covers
            .groups
            .iter()
            .zip(&laws)
            .map(|(group, laws)| {
                let chances = group.iter().zip(laws).map(|(cover, law)| Chance {
                    cents: cover.cents,
                    goods: cover.goods.clone(),
                    shares: law.on(&grid),
                });
                chances.collect()
            })
            .collect();
        let chances = Chances {
            lines,
            freight: covers.freight.clone(),
            still_cents: grid
                .iter()
                .map(|moment| self.still_cents(*moment))
                .collect(),
        };
        let mut figures = Figures {
            pairs: vec![Vec::new(); covers.groups.len()],
            covers,
            grid,
            chances,
            base_s,
        };
        self.add_pairs(&mut figures);
        Some(figures)
    }

    /// Law of running again if nothing but the lines of a cover had to be waited for.
    fn running_law(&self, cover: &Cover, tails: &[i64], base_s: i64) -> Option<Arc<ArrivalLaw>> {
        let places = (&self.sourcing.calendars, self.clock);
        let mut parts = Vec::new();
        for (arrival, lines) in cover.arrivals() {
            let tail = lines.iter().map(|at| tails[*at]).max().unwrap_or(0);
            let up = |moment| self.up(moment, tail);
            parts.push(self.laws.running(&arrival, tail, places, up)?);
        }
        // No moment of running again is before the one without waiting, so that a single arrival is the law itself.
        match &parts[..] {
            [] => Some(Arc::new(ArrivalLaw::certain(base_s))),
            [only] => Some(Arc::clone(only)),
            several => {
                let several: Vec<&ArrivalLaw> = several.iter().map(Arc::as_ref).collect();
                Some(Arc::new(ArrivalLaw::last_of(&several)))
            }
        }
    }

    /// Adds orders placed twice, for lines that share no source with another.
    ///
    /// One of the two may be open already: it costs nothing more and is not cancelled. Where an hour down has no cost, nobody can
    /// say that a second order pays, and none is placed.
    fn add_pairs(&self, figures: &mut Figures) {
        if self.hourly.is_none() {
            return;
        }
        for group in 0..figures.covers.groups.len() {
            let covers = &figures.covers.groups[group];
            let mut halves: Vec<Half> = covers
                .iter()
                .enumerate()
                .filter_map(|(at, cover)| {
                    self.half(
                        at,
                        cover,
                        &figures.chances,
                        &figures.chances.lines[group][at],
                    )
                })
                .collect();
            halves.sort_by(|a, b| a.alone.total_cmp(&b.alone).then(a.at.cmp(&b.at)));
            halves.truncate(MOST_SINGLES);
            // What is open already is named first.
            halves.sort_by_key(|half| !half.is_open);
            let mut added = Vec::new();
            for (first, a) in halves.iter().enumerate() {
                for b in &halves[first + 1..] {
                    let single = |of: &Half| Single {
                        chance: &figures.chances.lines[group][of.at],
                        goods_cents: of.goods_cents,
                        cancel_share: of.cancel_share,
                    };
                    // Two orders that are open come both, whatever is chosen. One supplier's two orders are late
                    // together: the second is no second chance.
                    if !b.is_open
                        && a.supplier != b.supplier
                        && let Some(chance) = both(single(a), single(b))
                    {
                        added.push(((a.at, b.at), chance));
                    }
                }
            }
            for (pair, chance) in added {
                figures.pairs[group].push(pair);
                figures.chances.lines[group].push(chance);
            }
        }
    }

    /// A cover as one of two orders for the same; `None` where it is no single order, has no price, or nobody knows whose
    /// it is.
    fn half(&self, at: usize, cover: &Cover, chances: &Chances, chance: &Chance) -> Option<Half> {
        let supply = cover.single_order().filter(|_| cover.is_covered())?;
        let cost = supply.cost?;
        let alone = cover.cents as f64 + chances.still(&chance.shares);
        match &supply.source {
            Source::Offer {
                offer,
                supplier,
                surcharge,
                ..
            } => {
                let record = self.sourcing.shop.offers.get(*offer).map(|of| &of.record);
                Some(Half {
                    alone,
                    at,
                    goods_cents: cost.cents - surcharge.cents,
                    cancel_share: record.and_then(|of| of.cancellation_charge_share),
                    supplier: supplier_key(supplier),
                    is_open: false,
                })
            }
            Source::OpenOrder { part, place } => {
                let supplier = self.sourcing.open_order(*part, place)?.supplier.as_ref()?;
                Some(Half {
                    alone,
                    at,
                    goods_cents: 0,
                    cancel_share: None,
                    supplier: supplier_key(supplier),
                    is_open: true,
                })
            }
            Source::Stock { .. } | Source::OtherWay { .. } => None,
        }
    }

    /// The problem with every lead time at one share of its cases, and its moments.
    pub fn fixed(
        &self,
        figures: &Figures,
        tails: &[i64],
        share: f64,
        weighed: Weighed,
    ) -> Option<(Problem, Vec<i64>)> {
        let mut ups: Vec<Vec<i64>> = Vec::new();
        for group in &figures.covers.groups {
            let mut of_group = Vec::new();
            for cover in group {
                let mut up = figures.base_s;
                for (arrival, lines) in cover.arrivals() {
                    let moment = self.law(&arrival).quantile(share);
                    let tail = lines.iter().map(|at| tails[*at]).max().unwrap_or(0);
                    up = up.max(self.up(moment, tail)?);
                }
                of_group.push(up);
            }
            ups.push(of_group);
        }
        let mut moments: Vec<i64> = ups
            .iter()
            .flatten()
            .copied()
            .chain([figures.base_s])
            .collect();
        moments.sort_unstable();
        moments.dedup();
        let lines = figures
            .covers
            .groups
            .iter()
            .zip(&ups)
            .map(|(group, ups)| {
                let choices = group.iter().zip(ups).map(|(cover, up)| Choice {
                    cents: match weighed {
                        Weighed::Paid => cover.paid_cents(),
                        Weighed::PaidAndDonors => cover.cents,
                    },
                    goods: cover.goods.clone(),
                    level: moments.partition_point(|moment| moment < up),
                });
                choices.collect()
            })
            .collect();
        let problem = Problem {
            lines,
            freight: figures.covers.freight.clone(),
            level_cents: moments
                .iter()
                .map(|moment| self.still_cents(*moment).round() as i64)
                .collect(),
        };
        Some((problem, moments))
    }

    /// Cost of standing still for so many production hours, in cents; none where an hour has no cost.
    pub fn downtime_cents(&self, production_h: f64) -> i64 {
        self.hourly
            .map_or(0, |hourly| super::cost_of_hours(hourly, production_h).cents)
    }

    /// Money in the shop's currency; `None` where a stand-in for a missing price or source is in it.
    pub fn money(&self, cents: i64) -> Option<Money> {
        (cents < crate::plan::purchase::NO_PRICE_CENTS / 2).then_some(Money {
            cents,
            currency: self.sourcing.shop.settings.currency,
        })
    }
}
