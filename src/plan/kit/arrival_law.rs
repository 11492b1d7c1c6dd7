//! In how many cases something is here by when.
//!
//! The seam to lead times: an [`Arrival`] in, shares by moment out. Everything after it works on steps.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use chrono::NaiveDateTime;

use super::work_clock::WorkClock;
use crate::plan::calendar::Calendars;
use crate::plan::lead_time::Arrival;
use crate::plan::tolerance::SHARE_TOLERANCE;

/// Days ahead within which goods may arrive.
const ARRIVAL_DAYS: i64 = 365;

/// Share of cases below which an early arrival is left out.
const LEAST_SHARE: f64 = 1e-5;

/// Shares by moment, in seconds from the moment of planning.
#[derive(Debug, Clone, PartialEq)]
pub struct ArrivalLaw {
    /// Moments, rising, with the share of cases in which it is here by then; the last share is 1.
    steps: Vec<(i64, f64)>,
}

/// Laws by their moments; arrivals that share them may differ in between.
type ByMoments<T> = BTreeMap<[NaiveDateTime; 3], Vec<T>>;

/// Laws of a shop's arrivals, each laid out once for all its kits: what one supplier quotes stands in many of them.
#[derive(Debug, Default)]
pub struct ShopLaws {
    by_moments: Mutex<ByMoments<(Arrival, Arc<ArrivalLaw>)>>,
}

impl ShopLaws {
    /// The law behind an arrival, by the calendars and the clock of the shop.
    fn of(&self, arrival: &Arrival, calendars: &Calendars, clock: &WorkClock) -> Arc<ArrivalLaw> {
        let moments = [arrival.likely, arrival.fairly, arrival.late];
        let lock = || {
            self.by_moments
                .lock()
                .unwrap_or_else(PoisonError::into_inner)
        };
        let is_it = |(of, _): &&(Arrival, _)| of == arrival;
        let known = |laws: &ByMoments<(Arrival, Arc<ArrivalLaw>)>| {
            let alike = laws.get(&moments)?;
            alike.iter().find(is_it).map(|(_, law)| Arc::clone(law))
        };
        if let Some(law) = known(&lock()) {
            return law;
        }
        // Nobody waits while it is worked out; who works out the same beside this takes what was first.
        let law = Arc::new(ArrivalLaw::of(arrival, calendars, clock));
        let mut laws = lock();
        known(&laws).unwrap_or_else(|| {
            let alike = laws.entry(moments).or_default();
            alike.push((*arrival, Arc::clone(&law)));
            law
        })
    }
}

/// What is known of one arrival.
#[derive(Debug)]
struct Known {
    arrival: Arrival,
    law: Arc<ArrivalLaw>,
    /// Laws of running again, by the seconds of work that are left when it is here.
    running: Vec<(i64, Arc<ArrivalLaw>)>,
}

/// Laws of one kit, each worked out once: every share of cases and every approval asks for the same arrivals again.
#[derive(Debug)]
pub struct KnownLaws<'s> {
    of_shop: &'s ShopLaws,
    by_moments: RefCell<ByMoments<Known>>,
}

impl<'s> KnownLaws<'s> {
    /// None is known yet but to the shop.
    pub fn new(of_shop: &'s ShopLaws) -> Self {
        Self {
            of_shop,
            by_moments: RefCell::default(),
        }
    }

    /// The law behind an arrival.
    pub fn of(
        &self,
        arrival: &Arrival,
        calendars: &Calendars,
        clock: &WorkClock,
    ) -> Arc<ArrivalLaw> {
        self.with(arrival, calendars, clock, |known| Arc::clone(&known.law))
    }

    /// The law of running again after an arrival with so much work left; `None` where `up` knows no moment.
    pub fn running(
        &self,
        arrival: &Arrival,
        tail_s: i64,
        (calendars, clock): (&Calendars, &WorkClock),
        up: impl Fn(i64) -> Option<i64>,
    ) -> Option<Arc<ArrivalLaw>> {
        self.with(arrival, calendars, clock, |known| {
            let before = known.running.iter().find(|(tail, _)| *tail == tail_s);
            if let Some((_, law)) = before {
                return Some(Arc::clone(law));
            }
            let law = Arc::new(known.law.mapped(up)?);
            known.running.push((tail_s, Arc::clone(&law)));
            Some(law)
        })
    }

    fn with<T>(
        &self,
        arrival: &Arrival,
        calendars: &Calendars,
        clock: &WorkClock,
        take: impl FnOnce(&mut Known) -> T,
    ) -> T {
        let mut known = self.by_moments.borrow_mut();
        let alike = known
            .entry([arrival.likely, arrival.fairly, arrival.late])
            .or_default();
        let at = alike.iter().position(|of| of.arrival == *arrival);
        let at = at.unwrap_or_else(|| {
            alike.push(Known {
                arrival: *arrival,
                law: self.of_shop.of(arrival, calendars, clock),
                running: Vec::new(),
            });
            alike.len() - 1
        });
        take(&mut alike[at])
    }
}

impl ArrivalLaw {
    /// Here at a moment for sure.
    pub fn certain(moment_s: i64) -> Self {
        Self {
            steps: vec![(moment_s, 1.0)],
        }
    }

    /// Takes rising moments with rising shares; the last becomes 1.
    pub fn new(steps: impl IntoIterator<Item = (i64, f64)>) -> Self {
        let mut kept: Vec<(i64, f64)> = Vec::new();
        for (moment, share) in steps {
            match kept.last_mut() {
                Some(last) if last.0 == moment => last.1 = last.1.max(share),
                Some(last) if share <= last.1 => {}
                _ => kept.push((moment, share)),
            }
        }
        match kept.last_mut() {
            Some(last) => last.1 = 1.0,
            None => kept.push((0, 1.0)),
        }
        Self { steps: kept }
    }

    /// The law behind an arrival, through its calendars; what comes later than a year ahead counts as coming then.
    pub fn of(arrival: &Arrival, calendars: &Calendars, clock: &WorkClock) -> Self {
        let last = ARRIVAL_DAYS * 86_400;
        let exact = arrival.distribution(calendars);
        let moments = exact.moments().iter();
        Self::new(
            moments
                .filter(|(_, share)| *share >= LEAST_SHARE)
                .map(|(moment, share)| (clock.seconds(*moment).clamp(0, last), *share)),
        )
    }

    /// Share of cases in which it is here by a moment.
    pub fn share_by(&self, moment_s: i64) -> f64 {
        let after = self
            .steps
            .partition_point(|(moment, _)| *moment <= moment_s);
        after.checked_sub(1).map_or(0.0, |at| self.steps[at].1)
    }

    /// First moment by which it is here in this share of cases.
    pub fn quantile(&self, share: f64) -> i64 {
        let at = self
            .steps
            .partition_point(|(_, by_then)| *by_then < share - SHARE_TOLERANCE);
        self.steps[at.min(self.steps.len() - 1)].0
    }

    /// Mean moment.
    pub fn mean_s(&self) -> f64 {
        let mut before = 0.0;
        let mut mean = 0.0;
        for (moment, share) in &self.steps {
            mean += *moment as f64 * (share - before);
            before = *share;
        }
        mean
    }

    /// The same with every moment moved by a rule that never falls.
    pub fn mapped(&self, rule: impl Fn(i64) -> Option<i64>) -> Option<Self> {
        let steps: Option<Vec<(i64, f64)>> = self
            .steps
            .iter()
            .map(|(moment, share)| Some((rule(*moment)?, *share)))
            .collect();
        Some(Self::new(steps?))
    }

    /// The later of several that know nothing of each other: the product of the shares.
    pub fn last_of(laws: &[&Self]) -> Self {
        Self::joined(laws, |shares| shares.product())
    }

    /// The later of several that are all late together: the least of the shares.
    pub fn last_together(laws: &[&Self]) -> Self {
        Self::joined(laws, |shares| shares.fold(1.0, f64::min))
    }

    fn joined(laws: &[&Self], join: impl Fn(&mut dyn Iterator<Item = f64>) -> f64) -> Self {
        let mut moments: Vec<i64> = laws.iter().flat_map(|law| law.moments()).collect();
        moments.sort_unstable();
        moments.dedup();
        Self::new(
            moments
                .into_iter()
                .map(|moment| {
                    let share = join(&mut laws.iter().map(|law| law.share_by(moment)));
                    (moment, share)
                })
                .filter(|(_, share)| *share > 0.0),
        )
    }

    /// Moments at which the share rises.
    pub fn moments(&self) -> impl Iterator<Item = i64> {
        self.steps.iter().map(|(moment, _)| *moment)
    }

    /// Shares at given moments, rising.
    pub fn on(&self, moments: &[i64]) -> Vec<f64> {
        let mut at = 0;
        let mut share = 0.0;
        moments
            .iter()
            .map(|moment| {
                while let Some((step, by_then)) = self.steps.get(at)
                    && step <= moment
                {
                    share = *by_then;
                    at += 1;
                }
                share
            })
            .collect()
    }
}

#[cfg(test)]
mod tests;
