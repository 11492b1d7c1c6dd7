//! How long orders really took, by supplier and part and by supplier, in working days of the supplier.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::basis::{LeadBasis, Receipts};
use super::beside_quote::beside_quote;
use super::gamma::{gamma_fit, is_gamma_better};
use super::leaning::{PartLeaning, SupplierLeaning};
use super::log_sample::{LogSample, SAME_DAY_DAYS, days_or_half};
use super::spread::LeadTime;
use super::{QUOTE_LATE_FACTOR, STILL_BELIEVED};
use crate::catalogue::{NameKey, PartId, ReceiptOf, Shop};
use crate::place::Place;
use crate::plan::calendar::{Calendars, WorkCalendar};
use crate::plan::issue::{FORGOTTEN_FACTOR, PlanIssue};
use crate::record::LeadTimeModel;

/// Fewest receipts that stand alone; fewer lean on those of others.
///
/// Common practice, no source.
pub const ENOUGH_RECEIPTS: usize = 5;

/// Fewest receipts that are believed where there is nothing to lean on: with two, the prediction interval is
/// wider than any quote.
///
/// Common practice, no source.
pub const ENOUGH_ALONE: usize = 3;

/// Longest an order is taken to have been under way: ten years, as for quoted lead times.
pub const LONGEST_DAYS: i64 = 3_650;

/// Days of an open order up to which fewer receipts than [`ENOUGH_ALONE`] do not tell that nobody closed it: one rod that came
/// the next day says nothing of a rail. As far ahead as kits look.
///
/// Common practice, no source.
const LONGEST_UNTOLD_DAYS: i64 = 365;

/// Least spread of the ratio of actual to promised days, as a standard deviation of its logarithm: three orders each
/// exactly 1.5 times late do not make the fourth certain.
///
/// Common practice, no source.
const LEAST_RATIO_LOG_SD: f64 = 0.1;

/// A distribution and what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Evidence {
    /// Working days of the supplier, or the ratio of actual to promised days.
    pub lead: LeadTime,
    /// What it rests on.
    pub basis: LeadBasis,
}

/// Orders that are over and orders still open, working days.
#[derive(Debug, Clone, Default)]
pub struct Durations {
    /// What orders took.
    pub over: Vec<f64>,
    /// The same in calendar days.
    pub over_days: Vec<f64>,
    /// Ages of open ones.
    pub open: Vec<f64>,
}

/// What the receipts of one supplier tell.
#[derive(Debug, Clone, Default)]
struct SupplierHistory {
    all: Durations,
    by_part: BTreeMap<PartId, Durations>,
    ratios: Vec<f64>,
    /// Fit over all its receipts, where there are enough.
    fit: Option<(LeadTime, Receipts)>,
    /// Sample of the ratios.
    lateness: Option<LogSample>,
}

/// What the receipts of a shop tell about its suppliers, by [`NameKey`] text of the supplier's name.
#[derive(Debug, Clone)]
pub struct ReceiptHistory {
    by_supplier: BTreeMap<String, SupplierHistory>,
    group_of: BTreeMap<String, String>,
    model: LeadTimeModel,
    by_part: Option<PartLeaning>,
    of_suppliers: Option<SupplierLeaning>,
    of_ratios: Option<SupplierLeaning>,
    /// Rows of orders that nobody closed.
    forgotten: BTreeSet<Place>,
}

impl ReceiptHistory {
    /// Reads received and open orders; those dated wrongly are left out and listed.
    pub fn new(shop: &Shop, calendars: &Calendars, issues: &mut Vec<PlanIssue>) -> Self {
        let mut by_supplier: BTreeMap<String, SupplierHistory> = BTreeMap::new();
        let mut open = Vec::new();
        let mut forgotten = BTreeSet::new();
        for receipt in &shop.receipts {
            let record = &receipt.record;
            if let Some(promised) = record
                .promised
                .filter(|promised| *promised < record.ordered)
            {
                issues.push(PlanIssue::PromisedBeforeOrdered {
                    place: record.place.clone(),
                    ordered: record.ordered,
                    promised,
                });
            }
            let supplier = supplier_key(&receipt.record.supplier);
            let calendar = calendars.of_supplier(shop.suppliers.get(&supplier));
            if receipt.record.received.is_none() {
                open.push((supplier, receipt, calendar));
            } else if is_plausible(receipt, shop.as_of.date(), issues) {
                by_supplier
                    .entry(supplier)
                    .or_default()
                    .add(receipt, calendar);
            }
        }
        for (supplier, receipt, calendar) in open {
            let history = by_supplier.entry(supplier).or_default();
            if !history.add_open(receipt, calendar, shop.as_of.date(), issues) {
                forgotten.insert(receipt.record.place.clone());
            }
        }
        let model = shop.settings.planning.lead_time_model;
        for history in by_supplier.values_mut() {
            let is_enough = history.all.over.len() >= ENOUGH_RECEIPTS;
            history.fit = is_enough.then(|| history.all.fit(model)).flatten();
            history.lateness = history.ratio_sample();
        }
        let group_of: BTreeMap<String, String> = shop
            .suppliers
            .iter()
            .filter_map(|(key, supplier)| {
                Some((key.clone(), supplier_key(supplier.group.as_ref()?)))
            })
            .collect();
        let samples = |pick: fn(&SupplierHistory) -> Option<LogSample>| {
            by_supplier
                .iter()
                .filter_map(|(key, history)| Some((key.clone(), pick(history)?)))
                .collect::<BTreeMap<String, LogSample>>()
        };
        let parts = by_supplier
            .iter()
            .map(|(key, history)| {
                let parts = history.by_part.iter();
                let samples = parts.filter_map(|(part, days)| Some((*part, days.sample()?)));
                (key.clone(), samples.collect())
            })
            .collect();
        Self {
            by_part: PartLeaning::new(&parts, &group_of),
            of_suppliers: SupplierLeaning::new(samples(|history| history.all.sample()), &group_of),
            of_ratios: SupplierLeaning::new(samples(|history| history.lateness), &group_of),
            model,
            by_supplier,
            group_of,
            forgotten,
        }
    }

    /// Working days of one part from one supplier, where there are `fewest` receipts of it or more.
    ///
    /// Five stand alone. Fewer lean on other parts of the supplier and on other suppliers, or, where too few parts
    /// have two receipts to tell how they scatter, count as the supplier's receipts of any part.
    pub fn of_part(&self, supplier: &str, part: PartId, fewest: usize) -> Option<Evidence> {
        let key = supplier_key(supplier);
        let days = self.by_supplier.get(&key)?.by_part.get(&part)?;
        let receipts = days.over.len();
        if receipts < fewest.max(1) {
            return None;
        }
        if receipts >= ENOUGH_RECEIPTS {
            let (lead, of) = days.fit(self.model)?;
            let basis = LeadBasis::PartReceipts(of);
            return Some(Evidence { lead, basis });
        }
        let leaning = self
            .by_part
            .as_ref()
            .and_then(|parts| parts.next(&key, part, self.group(&key)));
        if let Some((lead, others)) = leaning {
            let basis = LeadBasis::FewPartReceipts {
                receipts,
                others,
                open: days.open.len(),
            };
            return Some(Evidence { lead, basis });
        }
        self.of_supplier(supplier).or_else(|| {
            let basis = LeadBasis::FewPartReceipts {
                receipts,
                others: 0,
                open: days.open.len(),
            };
            let lead = days.sample().filter(|_| receipts >= ENOUGH_ALONE)?.next();
            Some(Evidence { lead, basis })
        })
    }

    /// Working days of any part from one supplier, where it has receipts.
    pub fn of_supplier(&self, supplier: &str) -> Option<Evidence> {
        let key = supplier_key(supplier);
        let history = self.by_supplier.get(&key)?;
        let receipts = history.all.over.len();
        if let Some((lead, of)) = history.fit {
            let basis = LeadBasis::SupplierReceipts(of);
            return Some(Evidence { lead, basis });
        }
        let (lead, others) = self.of_suppliers.as_ref()?.next(&key, self.group(&key))?;
        let basis = LeadBasis::FewSupplierReceipts {
            receipts,
            others,
            open: history.all.open.len(),
        };
        (receipts > 0).then_some(Evidence { lead, basis })
    }

    /// How many receipts with a promised day a supplier has.
    pub fn promises_of(&self, supplier: &str) -> usize {
        self.by_supplier
            .get(&supplier_key(supplier))
            .map_or(0, |history| history.ratios.len())
    }

    /// Ratio of actual to promised days of a supplier, leaning on that of others where it has few.
    pub fn lateness(&self, supplier: &str) -> Option<Evidence> {
        let key = supplier_key(supplier);
        let own = self.by_supplier.get(&key);
        let receipts = own.map_or(0, |history| history.ratios.len());
        let alone = || {
            let sample = own?.lateness?;
            Some((sample.next(), 0))
        };
        let leaning = || self.of_ratios.as_ref()?.next(&key, self.group(&key));
        let known = if receipts >= ENOUGH_RECEIPTS {
            alone()
        } else {
            leaning().or_else(|| alone().filter(|_| receipts >= ENOUGH_ALONE))
        };
        let Some((lead, others)) = known else {
            return beside_quote(&own?.ratios, false).filter(|_| receipts < ENOUGH_ALONE);
        };
        let basis = LeadBasis::QuoteCorrected {
            receipts,
            others,
            ratio: lead.quantile(0.5),
        };
        Some(Evidence { lead, basis })
    }

    /// Times the quoted days that one or two receipts of a part from one supplier took; `None` for none, and for more, which
    /// stand before the quote.
    pub fn few_beside(
        &self,
        (supplier, part): (&str, PartId),
        quoted: f64,
        is_in_workdays: bool,
    ) -> Option<Evidence> {
        let history = self.by_supplier.get(&supplier_key(supplier))?;
        let days = history.by_part.get(&part)?;
        let took = match is_in_workdays {
            true => &days.over,
            false => &days.over_days,
        };
        let is_few = took.len() < ENOUGH_ALONE && quoted > 0.0;
        let ratios: Vec<f64> = took.iter().map(|days| days / quoted).collect();
        beside_quote(&ratios, true).filter(|_| is_few)
    }

    /// True for the row of an order that is open for so long that nobody closed it.
    pub fn is_forgotten(&self, row: &Place) -> bool {
        self.forgotten.contains(row)
    }

    fn group(&self, supplier_key: &str) -> &str {
        self.group_of.get(supplier_key).map_or("", String::as_str)
    }
}

impl SupplierHistory {
    fn add(&mut self, receipt: &ReceiptOf, calendar: &WorkCalendar) {
        let record = &receipt.record;
        let Some((received, days)) = record
            .received
            .and_then(|received| Some((received, workdays(calendar, record.ordered, received)?)))
        else {
            return;
        };
        let took = days_or_half((received - record.ordered).num_days());
        self.all.over.push(days);
        if let Some(part) = receipt.part {
            let of_part = self.by_part.entry(part).or_default();
            of_part.over.push(days);
            of_part.over_days.push(took);
        }
        if let Some(promised) = record
            .promised
            .filter(|promised| *promised >= record.ordered)
        {
            self.ratios
                .push(took / days_or_half((promised - record.ordered).num_days()));
        }
    }

    /// Adds the age of an open order; false, with an issue, for one that nobody closed.
    fn add_open(
        &mut self,
        receipt: &ReceiptOf,
        calendar: &WorkCalendar,
        today: NaiveDate,
        issues: &mut Vec<PlanIssue>,
    ) -> bool {
        let record = &receipt.record;
        let Some(age) =
            workdays(calendar, record.ordered, today).filter(|_| record.ordered <= today)
        else {
            return true; // an order in the future is listed with the open orders
        };
        let longest = self.all.over.iter().copied().fold(f64::NAN, f64::max);
        let is_old = age > longest * FORGOTTEN_FACTOR;
        let open_days = (today - record.ordered).num_days();
        let is_older_than_any = open_days > LONGEST_DAYS;
        if is_old && !is_older_than_any && self.keeps_waiting(receipt, today) {
            // Its own promise says how long it takes; that tells nothing about orders that come as usual.
            return true;
        }
        let is_told = self.all.over.len() >= ENOUGH_ALONE || open_days > LONGEST_UNTOLD_DAYS;
        if (is_old && is_told) || is_older_than_any {
            issues.push(PlanIssue::OpenForTooLong {
                place: record.place.clone(),
                ordered: record.ordered,
                age_days: open_days,
            });
            return false;
        }
        self.all.open.push(age);
        if let Some(part) = receipt.part {
            self.by_part.entry(part).or_default().open.push(age);
        }
        true
    }

    /// True while an open order need not be here: until its promised day, and past it for as long as promises are late, by the
    /// ratios of this supplier or, where they are few, by what is assumed of a quote.
    fn keeps_waiting(&self, receipt: &ReceiptOf, today: NaiveDate) -> bool {
        let record = &receipt.record;
        let days_until = |day: NaiveDate| days_or_half((day - record.ordered).num_days());
        let promised = record.promised;
        let Some(promised) = promised.filter(|promised| *promised >= record.ordered) else {
            return false;
        };
        let ratios = self
            .ratio_sample()
            .filter(|_| self.ratios.len() >= ENOUGH_ALONE);
        let ratio = ratios.map_or_else(
            || LeadTime::by_late_factor(1.0, QUOTE_LATE_FACTOR),
            |ratios| ratios.next(),
        );
        let (took, said) = (days_until(today), days_until(promised));
        took <= said || ratio.times(said).exceeds(took) > STILL_BELIEVED
    }

    fn ratio_sample(&self) -> Option<LogSample> {
        LogSample::of_few(&self.ratios, &[]).map(|sample| LogSample {
            log_sd: sample.log_sd.max(LEAST_RATIO_LOG_SD),
            ..sample
        })
    }
}

impl Durations {
    fn sample(&self) -> Option<LogSample> {
        LogSample::of_few(&self.over, &self.open).map(LogSample::rounded_to_days)
    }

    fn fit(&self, model: LeadTimeModel) -> Option<(LeadTime, Receipts)> {
        let sample = self.sample()?;
        let gamma = match model {
            LeadTimeModel::Lognormal => None,
            LeadTimeModel::Gamma => gamma_fit(&self.over, &self.open),
            LeadTimeModel::BestFit => gamma_fit(&self.over, &self.open)
                .filter(|gamma| is_gamma_better(&sample, gamma, &self.over, &self.open)),
        };
        let receipts = Receipts {
            receipts: self.over.len(),
            open: self.open.len(),
            is_gamma: gamma.is_some(),
        };
        Some((gamma.unwrap_or_else(|| sample.next()), receipts))
    }
}

/// False, with an issue, for a receipt in the future, before its order or ten years after it.
fn is_plausible(receipt: &ReceiptOf, today: NaiveDate, issues: &mut Vec<PlanIssue>) -> bool {
    let record = &receipt.record;
    let Some(received) = record.received else {
        return false;
    };
    let place = record.place.clone();
    let days = (received - record.ordered).num_days();
    let issue = if received > today {
        PlanIssue::InTheFuture {
            place,
            date: received,
        }
    } else if days < 0 {
        PlanIssue::ReceivedBeforeOrdered {
            place,
            ordered: record.ordered,
            received,
        }
    } else if days > LONGEST_DAYS {
        PlanIssue::TookTooLong { place, days }
    } else {
        return true;
    };
    issues.push(issue);
    false
}

/// Working days of a supplier between two days; half a day for the same one.
fn workdays(calendar: &WorkCalendar, ordered: NaiveDate, until: NaiveDate) -> Option<f64> {
    let days = calendar.workdays_between(ordered, until)?;
    Some(f64::from(days).max(SAME_DAY_DAYS))
}

/// Key of a supplier's name, as in [`Shop::suppliers`].
pub fn supplier_key(name: &str) -> String {
    NameKey::new(name).into_text()
}
