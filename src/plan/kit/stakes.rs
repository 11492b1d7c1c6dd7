//! One kit in figures: covers, moments, laws and costs, ready for choosing.

use std::sync::Arc;

use super::arrival_law::{ArrivalLaw, KnownLaws};
use super::line_value::Lateness;
use super::task_net::TaskNet;
use super::work_clock::WorkClock;
use crate::plan::lead_time::Arrival;
use crate::plan::purchase::{Chance, Chances, Choice, Cover, Covers, LineNeed, Problem};
use crate::plan::sourcing::Sourcing;
use crate::plan::supply::Supply;
use crate::units::Money;

/// Cents for an hour on the clock where the machine has no cost of an hour down: the fastest plan comes first.
const FASTEST_CENTS_PER_H: f64 = 1_000_000.0;

/// Cents for an hour on the clock that let the earlier of two equal plans win; never shown, and less than a cent in a year
/// ahead.
const EARLIER_CENTS_PER_H: f64 = 0.000_1;

/// What a choice counts besides the hours the machine stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weighed {
    /// What is paid, as a budget sees it.
    Paid,
    /// What is paid and what robbed machines stand for.
    PaidAndDonors,
}

/// What all choices of one kit are measured by.
#[derive(Debug, Clone, Copy)]
pub struct Stakes<'s, 'a> {
    /// Sources.
    pub sourcing: &'s Sourcing<'a>,
    /// Shifts, added up.
    pub clock: &'s WorkClock,
    /// Tasks; `None` where one waits for itself or for one that has no row.
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
        let mut covers = Covers::new(self.sourcing, needs);
        if self.hourly.is_none() {
            self.keep_first_orders(&mut covers);
        }
        let longest = self.tasks.map_or(0, TaskNet::longest_s);
        let base_s = self.up(0, longest)?;
        let mut laws: Vec<Vec<Arc<ArrivalLaw>>> = Vec::new();
        for (group, open) in covers.groups.iter().zip(&covers.open) {
            let of_group: Option<Vec<Arc<ArrivalLaw>>> = group
                .iter()
                .map(|cover| self.running_law(cover, open, tails, base_s))
                .collect();
            laws.push(of_group?);
        }
        let open = self.open_running(&covers, tails)?;
        let mut grid: Vec<i64> = laws
            .iter()
            .flatten()
            .map(Arc::as_ref)
            .chain(open.iter().flatten())
            .flat_map(ArrivalLaw::moments)
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
        self.add_second_orders(&mut figures, tails, &open);
        Some(figures)
    }

    /// Law of running again if nothing but the lines of a cover had to be waited for, with the open orders that come anyway.
    pub fn running_law(
        &self,
        cover: &Cover,
        open: &[Supply],
        tails: &[i64],
        base_s: i64,
    ) -> Option<Arc<ArrivalLaw>> {
        if let Some(law) = self.law_beside(cover, open, Lateness::Apart) {
            let tail = tails[cover.lines[0].at];
            return Some(Arc::new(law.mapped(|moment| self.up(moment, tail))?));
        }
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

    /// The problem with every lead time at one share of its cases, and its moments.
    pub fn fixed(
        &self,
        figures: &Figures,
        tails: &[i64],
        share: f64,
        weighed: Weighed,
    ) -> Option<(Problem, Vec<i64>)> {
        let mut ups: Vec<Vec<i64>> = Vec::new();
        let covers = &figures.covers;
        for (group, open) in covers.groups.iter().zip(&covers.open) {
            let mut of_group = Vec::new();
            for cover in group {
                let mut up = figures.base_s;
                if let Some(law) = self.law_beside(cover, open, Lateness::Together) {
                    let tail = tails[cover.lines[0].at];
                    of_group.push(up.max(self.up(law.quantile(share), tail)?));
                    continue;
                }
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
