//! What rebuilds with a date need, netted against stock and open orders in order of date.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use chrono::{Days, NaiveDate, NaiveTime};

use super::demand::dates_contradict;
use super::issue::PlanIssue;
use super::kit::{accepted_parts, line_unit};
use super::late_hours::WaitsFrom;
use super::open_or_new::{Together, second_order_pays};
use super::sourcing::Sourcing;
use super::supply::{Drawn, Supply};
use crate::catalogue::{Kit, NameKey, PartId, Shop};
use crate::interchange::LineAcceptance;
use crate::place::Place;
use crate::record::PlannedRebuild;
use crate::units::{Money, UnitOfCount};

/// Days ahead that planned rebuilds are listed and netted: twelve months.
pub const HORIZON_DAYS: i64 = 365;

/// What one line of one planned rebuild needs.
#[derive(Debug, Clone, PartialEq)]
pub struct RebuildNeed {
    /// Position in [`Shop::kits`](crate::catalogue::Shop::kits).
    pub kit: usize,
    /// Position of the line in its kit.
    pub line: usize,
    /// Planned day.
    pub date: NaiveDate,
    /// Day by which goods must be there: the planned day less the safety working days.
    pub needed_by: NaiveDate,
    /// Number of the stop of its machine: rebuilds of one machine on one day are one, where the name stands for one machine.
    pub stop: usize,
    /// The row of the rebuild.
    pub place: Place,
    /// Cost of an hour of its machine down, in the shop's currency; `None` where no table says it.
    pub hour: Option<Money>,
    /// The part asked for.
    pub part: Option<PartId>,
    /// Parts that may be bought for it, the one asked for first.
    pub accepted: Vec<PartId>,
    /// Unit of count of the line.
    pub unit: UnitOfCount,
    /// Quantity needed.
    pub needed: f64,
    /// What covers it from the shelf and from open orders that are likely here in time.
    pub supplies: Vec<Supply>,
    /// What has to be ordered.
    pub short: f64,
}

impl RebuildNeed {
    /// From when on it waits and what that costs; `None` where nobody knows.
    pub fn waits_from(&self) -> Option<WaitsFrom> {
        Some(WaitsFrom {
            needed_by: self.needed_by,
            hour: self.hour.filter(|hour| hour.cents > 0)?,
            stop: self.stop,
        })
    }

    /// Quantity of a part that this need takes from its shelf and open orders, in `unit`.
    pub fn drawn_from(&self, part: PartId, unit: UnitOfCount) -> f64 {
        let factor = self.unit.in_units_of(unit).unwrap_or(0.0);
        self.supplies
            .iter()
            .filter(|supply| supply.own_part() == Some(part))
            .map(|supply| supply.quantity * factor)
            .fold(0.0, |sum, quantity| sum + quantity)
    }
}

/// Needs of all rebuilds of the next twelve months, earliest first.
///
/// The earlier rebuild takes from the shelf first; unlike the plans of single kits, planned rebuilds share stock.
pub fn rebuild_needs(
    sourcing: &Sourcing<'_>,
    acceptances: &[LineAcceptance],
    issues: &mut Vec<PlanIssue>,
) -> Vec<RebuildNeed> {
    let by_line: BTreeMap<(usize, usize), &LineAcceptance> = acceptances
        .iter()
        .map(|acceptance| ((acceptance.kit, acceptance.line), acceptance))
        .collect();
    let mut drawn = Drawn::default();
    let mut needs = Vec::new();
    let mut stops = BTreeMap::new();
    for (at, (position, kit, planned)) in dated(sourcing, issues).into_iter().enumerate() {
        let first = needs.len();
        let stop = match one_machine(sourcing.shop, kit, planned) {
            Some(machine) => *stops.entry((planned.date, machine)).or_insert(at),
            None => at,
        };
        for (line, of) in kit.lines.iter().enumerate() {
            // How many an unread line needs is not guessed; it stands among the data problems.
            if let Some(needed) = of.record.quantity.filter(|needed| *needed > 0.0) {
                let acceptance = by_line.get(&(position, line)).copied();
                needs.push(RebuildNeed {
                    kit: position,
                    line,
                    date: planned.date,
                    needed_by: needed_by(sourcing, planned.date),
                    stop,
                    place: planned.place.clone(),
                    hour: hour_of(sourcing, kit, planned),
                    part: of.part,
                    accepted: accepted_parts(of, acceptance),
                    unit: line_unit(sourcing, of),
                    needed,
                    supplies: Vec::new(),
                    short: needed,
                });
            }
        }
        net(sourcing, &mut drawn, &mut needs[first..]);
    }
    needs
}

/// Rebuilds from today on within the horizon, by day; of one day, the one whose machine costs more down first, those of which
/// nobody knows it last and by kit.
fn dated<'a>(
    sourcing: &Sourcing<'a>,
    issues: &mut Vec<PlanIssue>,
) -> Vec<(usize, &'a Kit, &'a PlannedRebuild)> {
    let today = sourcing.shop.as_of.date();
    let mut found = Vec::new();
    for (position, kit) in sourcing.shop.kits.iter().enumerate() {
        for planned in &kit.planned {
            let days = (planned.date - today).num_days();
            let name = planned.machine.as_deref().or(kit.machine.as_deref());
            let last_day = service_ends(sourcing.shop, name);
            let is_same = |other: &PlannedRebuild| {
                let machine = other.machine.as_deref().or(kit.machine.as_deref());
                other.date == planned.date && machine.map(NameKey::new) == name.map(NameKey::new)
            };
            let first = kit.planned.iter().find(|other| is_same(other));
            let first = first.filter(|first| first.place != planned.place);
            if let Some(until) = last_day.filter(|until| planned.date > *until) {
                issues.push(PlanIssue::PlannedAfterService {
                    place: planned.place.clone(),
                    date: planned.date,
                    machine: name.unwrap_or_default().to_owned(),
                    until,
                });
            } else if let Some(first) = first.filter(|_| !is_several(sourcing.shop, name)) {
                issues.push(PlanIssue::PlannedTwice {
                    place: planned.place.clone(),
                    date: planned.date,
                    other: first.place.clone(),
                });
            } else if days < 0 {
                issues.push(PlanIssue::PlannedInThePast {
                    place: planned.place.clone(),
                    date: planned.date,
                });
            } else if days <= HORIZON_DAYS {
                found.push((position, kit, planned));
            }
        }
    }
    found.sort_by_cached_key(|(position, kit, planned)| {
        let hour = hour_of(sourcing, kit, planned).map(|hour| hour.cents);
        (planned.date, Reverse(hour), *position)
    });
    found
}

/// Cost of an hour of the machine of a rebuild down, in the shop's currency; `None` where no table says it.
fn hour_of(sourcing: &Sourcing<'_>, kit: &Kit, planned: &PlannedRebuild) -> Option<Money> {
    let name = planned.machine.as_deref().or(kit.machine.as_deref())?;
    let machine = sourcing.shop.machines.get(NameKey::new(name).as_str())?;
    let hour = machine.downtime_cost_per_hour?;
    sourcing.exchange().in_own_currency(hour)
}

/// Last day in service of a machine; `None` where no table says it, or its dates contradict each other.
pub fn service_ends(shop: &Shop, machine: Option<&str>) -> Option<NaiveDate> {
    let machine = shop.machines.get(NameKey::new(machine?).as_str())?;
    machine.in_use_until.filter(|_| !dates_contradict(machine))
}

/// True where more than one machine goes by the name, so that two rebuilds on one day may be two.
fn is_several(shop: &Shop, machine: Option<&str>) -> bool {
    let found = machine.and_then(|name| shop.machines.get(NameKey::new(name).as_str()));
    found.is_some_and(|machine| machine.installed.is_some_and(|count| count > 1.0))
}

/// The machine of a rebuild, where its name stands for one machine only; `None` too where nothing names it.
fn one_machine(shop: &Shop, kit: &Kit, planned: &PlannedRebuild) -> Option<NameKey> {
    let name = planned.machine.as_deref().or(kit.machine.as_deref());
    name.filter(|_| !is_several(shop, name)).map(NameKey::new)
}

fn needed_by(sourcing: &Sourcing<'_>, date: NaiveDate) -> NaiveDate {
    let safety = sourcing.shop.settings.planning.safety_workdays;
    sourcing
        .calendars
        .receiving()
        .subtract_workdays(date, safety)
        .unwrap_or(date)
}

/// Covers the lines of one rebuild, the part asked for before others and lines with fewer choices first.
fn net(sourcing: &Sourcing<'_>, drawn: &mut Drawn, needs: &mut [RebuildNeed]) {
    let mut turn: Vec<usize> = (0..needs.len()).collect();
    turn.sort_by_key(|at| (needs[*at].accepted.len(), *at));
    let most = needs.iter().map(|need| need.accepted.len()).max();
    for choice in 0..most.unwrap_or(0) {
        for at in &turn {
            let need = &mut needs[*at];
            let Some(part) = need.accepted.get(choice).copied() else {
                continue;
            };
            let until = need
                .needed_by
                .checked_add_days(Days::new(1))
                .unwrap_or(need.needed_by)
                .and_time(NaiveTime::MIN);
            if need.short > 1e-9 {
                // What ends before the planned day is no stock for it.
                let fitted = (need.unit, need.date);
                need.take(drawn.take_stock(sourcing, part, need.short, fitted));
            }
            if need.short > 1e-9 {
                let together = Together::of(needs, *at);
                let need = &mut needs[*at];
                // Likely here in time, and no second order saves more than it costs.
                let may_wait = |order: &Supply| {
                    let pays = || second_order_pays(sourcing, need, order, &together);
                    order.arrival.likely <= until && !pays()
                };
                let orders = drawn.take_orders(sourcing, part, need.short, need.unit, may_wait);
                need.take(orders);
            }
        }
    }
}

impl RebuildNeed {
    fn take(&mut self, supplies: impl IntoIterator<Item = Supply>) {
        for supply in supplies {
            self.short = (self.short - supply.quantity).max(0.0);
            self.supplies.push(supply);
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::plan::sample::{Sample, euros};

    #[test]
    fn on_one_day_the_shelf_goes_to_the_machine_that_costs_more_down() {
        // Common practice, no source: of two that stand on one day the dearer one is served first, wherever it is listed.
        for (hours, served) in [
            ([Some(10.0), Some(100.0)], 1),
            ([Some(100.0), Some(10.0)], 0),
            ([Some(10.0), Some(10.0)], 0),
            // Of whom nobody knows it, comes last.
            ([None, Some(10.0)], 1),
        ] {
            let mut sample = Sample::new("");
            let part = sample.part("A");
            sample.stock(part, 1.0, |_| {});
            for (name, hour) in ["M1", "M2"].into_iter().zip(hours) {
                sample.machine(name, hour, None);
                let kit = sample.kit(&format!("kit of {name}"));
                sample.shop.kits[kit].machine = Some(name.to_owned());
                sample.line(Some(part), 1.0, &[], |_| {});
                sample.planned("2026-04-15");
            }
            let needs = sample.plan().needs;
            let full = needs.iter().find(|need| need.short <= 0.0).unwrap();
            assert_eq!((full.kit, needs.len()), (served, 2), "{hours:?}");
            assert_eq!(full.hour, hours[served].map(euros));
        }
        // The day comes before the cost.
        let mut sample = Sample::new("");
        let part = sample.part("A");
        sample.stock(part, 1.0, |_| {});
        for (name, hour, date) in [("M1", 10.0, "2026-04-15"), ("M2", 100.0, "2026-04-16")] {
            sample.machine(name, Some(hour), None);
            let kit = sample.kit(name);
            sample.shop.kits[kit].machine = Some(name.to_owned());
            sample.line(Some(part), 1.0, &[], |_| {});
            sample.planned(date);
        }
        assert!(sample.plan().needs[0].short <= 0.0);
    }
}
