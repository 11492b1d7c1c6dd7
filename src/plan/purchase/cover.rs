//! The ways in which a line, or several lines that draw on the same sources, can be covered.

use std::collections::BTreeSet;

use super::line_need::{LineNeed, line_groups};
use super::proved::LeftOut;
use super::split::{FreeFreight, SplitLine, Splits, in_reach};
use super::worth_keeping::{open_for, without_bettered};
use crate::catalogue::PartId;
use crate::place::Place;
use crate::plan::freight::{Carriage, Freight};
use crate::plan::lead_time::Arrival;
use crate::plan::lead_time::supplier_key;
use crate::plan::sourcing::Sourcing;
use crate::plan::supply::{Drawn, Need, Source, Supply};

/// Splits of one group that are looked at.
const MOST_SPLITS: usize = 3_000;

/// Covers kept for one line on the way.
const MOST_OF_LINE: usize = 24;

/// Sources that one line may be put together from, besides the shelf.
pub const MOST_SOURCES: usize = 3;

/// Cents that stand for a price nobody stated: more than any plan costs, so that it is bought only where nothing else is
/// offered. Never shown.
pub const NO_PRICE_CENTS: i64 = 1_000_000_000_000;

/// Cents that stand for a quantity without a source. Never shown.
pub const NO_SOURCE_CENTS: i64 = 100_000_000_000_000;

/// How one line is covered.
#[derive(Debug, Clone, PartialEq)]
pub struct LineCover {
    /// Position of the need.
    pub at: usize,
    /// Sources, the shelf first.
    pub supplies: Vec<Supply>,
    /// Quantity without a source.
    pub uncovered: f64,
}

/// How the lines of a group are covered.
#[derive(Debug, Clone, PartialEq)]
pub struct Cover {
    /// By line.
    pub lines: Vec<LineCover>,
    /// Goods, surcharges, work and what donors stand for; prices and sources that are missing count with the stand-ins.
    pub cents: i64,
    /// What donors stand for, which is in `cents` and paid by nobody.
    pub donor_cents: i64,
    /// Value of goods by supplier as far as they bear freight, by position in [`Covers::freight`].
    pub goods: Vec<(usize, i64)>,
}

/// Everything the lines of a kit can be covered by.
#[derive(Debug, Clone)]
pub struct Covers {
    /// By group of lines that share a source.
    pub groups: Vec<Vec<Cover>>,
    /// By group: of one line that is not all on the shelf, the open orders that come for it whatever is chosen, each with all
    /// that it can give of what is missing. Lines that share a source share these too, and have none here.
    pub open: Vec<Vec<Supply>>,
    /// What is paid once for what comes together: freight of each supplier that is ordered from, and each courier's run.
    pub freight: Vec<Freight>,
    /// Names of those whose freight is not known but assumed, by position as in `freight`.
    pub freight_assumed: Vec<Option<String>>,
    /// False where a group had more ways than are looked at.
    pub is_whole: bool,
    /// What splits of a line between two offers that were not looked at could save at most.
    pub left_out: LeftOut,
}

impl Cover {
    /// Arrivals that hold lines, each once, with the lines it holds.
    ///
    /// One order that serves two lines comes once.
    pub fn arrivals(&self) -> Vec<(Arrival, Vec<usize>)> {
        let mut found: Vec<(Key, Arrival, Vec<usize>)> = Vec::new();
        for line in &self.lines {
            for supply in &line.supplies {
                let key = key_of(supply);
                match found.iter_mut().find(|(known, ..)| *known == key) {
                    Some((.., lines)) => lines.push(line.at),
                    None => found.push((key, supply.arrival, vec![line.at])),
                }
            }
        }
        found
            .into_iter()
            .map(|(_, arrival, lines)| (arrival, lines))
            .collect()
    }

    /// The one order of a group of one line, new or open, with nothing but the shelf beside it.
    pub fn single_order(&self) -> Option<&Supply> {
        let [line] = &self.lines[..] else {
            return None;
        };
        let mut others = line
            .supplies
            .iter()
            .filter(|supply| !matches!(supply.source, Source::Stock { .. }));
        let order = others.next()?;
        let is_order = matches!(
            order.source,
            Source::Offer { .. } | Source::OpenOrder { .. }
        );
        (is_order && others.next().is_none()).then_some(order)
    }

    /// What is paid: goods, surcharges and work, freight and runs left out.
    pub const fn paid_cents(&self) -> i64 {
        self.cents - self.donor_cents
    }

    /// True where every line has its whole quantity.
    pub fn is_covered(&self) -> bool {
        self.lines.iter().all(|line| line.uncovered <= 1e-9)
    }
}

/// What tells two sources apart.
type Key = (u8, Option<Place>, usize);

fn key_of(supply: &Supply) -> Key {
    match &supply.source {
        Source::Stock { .. } => (0, None, 0),
        Source::OpenOrder { place, .. } => (1, Some(place.clone()), 0),
        Source::Offer { place, way, .. } => (2, Some(place.clone()), *way),
        Source::OtherWay { place, .. } => (3, Some(place.clone()), 0),
    }
}

impl Covers {
    /// Suppliers among those of some goods whose freight is assumed, by name.
    pub fn freight_assumed_of<'g>(
        &self,
        goods: impl IntoIterator<Item = &'g (usize, i64)>,
    ) -> Vec<String> {
        let names: BTreeSet<&String> = goods
            .into_iter()
            .filter_map(|(supplier, _)| self.freight_assumed.get(*supplier)?.as_ref())
            .collect();
        names.into_iter().cloned().collect()
    }

    /// Works out the covers of all lines.
    pub fn new(sourcing: &Sourcing<'_>, needs: &[LineNeed<'_>]) -> Self {
        let mut covers = Self {
            groups: Vec::new(),
            open: Vec::new(),
            freight: Vec::new(),
            freight_assumed: Vec::new(),
            is_whole: true,
            left_out: LeftOut::Nothing,
        };
        let mut carriages = Vec::new();
        let (mut lines_of, mut found_of) = (Vec::new(), Vec::new());
        for lines in line_groups(sourcing, needs) {
            let mut search = Search {
                sourcing,
                needs,
                lines: &lines,
                found: Vec::new(),
                splits: 0,
                most: MOST_SPLITS / 2,
                by_arrival: false,
            };
            let mut is_whole = search.run();
            if !is_whole {
                search.by_arrival = true;
                is_whole = search.run();
            }
            covers.is_whole &= is_whole;
            let found = search.found.into_iter();
            let priced = found.map(|lines| covers.priced(sourcing, lines, &mut carriages));
            let priced: Vec<Cover> = priced.collect();
            found_of.push(priced);
            lines_of.push(lines);
        }
        let is_in_reach = in_reach(&covers.freight, &found_of);
        let mut for_freight = Vec::new();
        for (lines, found) in lines_of.iter().zip(found_of) {
            let splits =
                covers.splits(sourcing, needs, lines, &found, &is_in_reach, &mut carriages);
            let open = match &lines[..] {
                [only] => open_for(sourcing, &needs[*only]),
                _ => Vec::new(),
            };
            let (mut kept, is_cut) = without_bettered(sourcing, &covers.freight, found, &open);
            covers.is_whole &= !is_cut;
            kept.extend(splits.paying);
            covers.groups.push(kept);
            covers.open.push(open);
            for_freight.push(splits.for_freight);
        }
        covers.add_for_freight(for_freight, &is_in_reach);
        covers
    }

    /// Splits between two offers of the lines of one group, and what they leave out.
    fn splits(
        &mut self,
        sourcing: &Sourcing<'_>,
        needs: &[LineNeed<'_>],
        lines: &[usize],
        found: &[Cover],
        is_in_reach: &[bool],
        carriages: &mut Vec<Carriage>,
    ) -> Splits {
        let is_any = is_in_reach.contains(&true);
        let line = match lines {
            [only] => {
                let price = |supplies: Vec<Supply>| {
                    let (at, uncovered) = (*only, 0.0);
                    let line = LineCover {
                        at,
                        supplies,
                        uncovered,
                    };
                    self.priced(sourcing, vec![line], carriages)
                };
                Some(SplitLine::new(
                    sourcing,
                    &needs[*only],
                    found,
                    is_any,
                    price,
                ))
            }
            _ => None,
        };
        let of = FreeFreight {
            freight: &self.freight_at_most(),
            is_in_reach,
        };
        let splits = line.map_or_else(
            || {
                let needs: Vec<&LineNeed<'_>> = lines.iter().map(|at| &needs[*at]).collect();
                Splits::of_shared(sourcing, &needs, &of)
            },
            |line| line.splits(&of, found),
        );
        self.left_out = self.left_out.max(splits.left_out(&of));
        splits
    }

    fn priced(
        &mut self,
        sourcing: &Sourcing<'_>,
        lines: Vec<LineCover>,
        carriages: &mut Vec<Carriage>,
    ) -> Cover {
        let (mut cents, mut donor_cents) = (0_i64, 0_i64);
        let mut goods: Vec<(usize, i64)> = Vec::new();
        for line in &lines {
            if line.uncovered > 1e-9 {
                cents = cents.saturating_add(NO_SOURCE_CENTS);
            }
            for supply in &line.supplies {
                cents = cents.saturating_add(weighed_cents(supply));
                donor_cents += supply.donor_downtime.map_or(0, |downtime| downtime.cents);
                let Source::Offer {
                    supplier,
                    surcharge,
                    delivery,
                    ..
                } = &supply.source
                else {
                    continue;
                };
                let today = sourcing.shop.as_of.date();
                let Some(paid) = Carriage::of(supplier_key(supplier), *delivery, today) else {
                    continue;
                };
                let value = supply.cost.map_or(0, |cost| cost.cents - surcharge.cents);
                let at = carriages.iter().position(|known| *known == paid);
                let at = at.unwrap_or_else(|| {
                    let is_known =
                        paid.run.is_some() || sourcing.freights.known(&paid.supplier).is_some();
                    self.freight_assumed
                        .push((!is_known).then(|| supplier.to_string()));
                    self.freight.push(sourcing.freights.of_carriage(&paid));
                    carriages.push(paid);
                    carriages.len() - 1
                });
                match goods.iter_mut().find(|(of, _)| *of == at) {
                    Some((_, sum)) => *sum += value,
                    None => goods.push((at, value)),
                }
            }
        }
        Cover {
            lines,
            cents,
            donor_cents,
            goods,
        }
    }
}

/// What a supply is chosen by: what is paid for it and what a donor stands for.
fn weighed_cents(supply: &Supply) -> i64 {
    let paid = supply.cost.map_or(NO_PRICE_CENTS, |cost| cost.cents);
    let donor = supply.donor_downtime.map_or(0, |downtime| downtime.cents);
    paid.saturating_add(donor)
}

struct Search<'s, 'a> {
    sourcing: &'s Sourcing<'a>,
    needs: &'s [LineNeed<'s>],
    lines: &'s [usize],
    found: Vec<Vec<LineCover>>,
    splits: usize,
    most: usize,
    by_arrival: bool,
}

/// A line covered, and what all lines so far have drawn.
struct Step {
    drawn: Drawn,
    cover: LineCover,
}

impl Search<'_, '_> {
    /// Looks at every split, cheapest or earliest first; false where there are more than allowed.
    fn run(&mut self) -> bool {
        self.splits = 0;
        self.next(0, &Drawn::default(), &mut Vec::new())
    }

    fn next(&mut self, position: usize, drawn: &Drawn, done: &mut Vec<LineCover>) -> bool {
        let Some(at) = self.lines.get(position).copied() else {
            self.splits += 1;
            if !self.found.contains(done) {
                self.found.push(done.clone());
            }
            return self.splits < self.most;
        };
        let (steps, mut is_whole) = self.steps(at, drawn);
        for step in steps {
            done.push(step.cover);
            let goes_on = self.next(position + 1, &step.drawn, done);
            done.pop();
            is_whole &= goes_on;
            if self.splits >= self.most {
                return false;
            }
        }
        is_whole
    }

    /// Ways of covering one line from what is left.
    fn steps(&self, at: usize, drawn: &Drawn) -> (Vec<Step>, bool) {
        let need = &self.needs[at];
        let today = self.sourcing.shop.as_of.date();
        let mut steps = Vec::new();
        for parts in self.shelves(need, drawn) {
            let mut drawn = drawn.clone();
            let (mut left, mut supplies) = (need.needed, Vec::new());
            for part in parts {
                if left > 1e-9
                    && let Some(supply) =
                        drawn.take_stock(self.sourcing, part, left, (need.unit, today))
                {
                    left -= supply.quantity;
                    supplies.push(supply);
                }
            }
            self.rest(at, &drawn, left, supplies, None, &mut steps);
        }
        steps.retain(|step| need.covered.allows(&step.cover.supplies));
        if steps.iter().any(|step| step.cover.uncovered <= 1e-9) {
            steps.retain(|step| step.cover.uncovered <= 1e-9);
        } else {
            // Nothing covers the line: what covers most of it stays.
            steps.sort_by(|a, b| a.cover.uncovered.total_cmp(&b.cover.uncovered));
            steps.truncate(1);
        }
        if self.lines.len() == 1 {
            return (steps, true);
        }
        steps.sort_by_key(|step| {
            let (cost, arrival) = cost_and_arrival(&step.cover);
            let first = arrival.filter(|_| self.by_arrival);
            (first, cost, arrival)
        });
        let is_whole = steps.len() <= MOST_OF_LINE;
        steps.truncate(MOST_OF_LINE);
        (steps, is_whole)
    }

    /// Shelves to take from: all of them; where lines share, also some or none.
    fn shelves(&self, need: &LineNeed<'_>, drawn: &Drawn) -> Vec<Vec<PartId>> {
        let today = self.sourcing.shop.as_of.date();
        let there: Vec<PartId> = need
            .accepted
            .iter()
            .copied()
            .filter(|part| {
                drawn
                    .clone()
                    .take_stock(self.sourcing, *part, need.needed, (need.unit, today))
                    .is_some()
            })
            .collect();
        if self.lines.len() == 1 || there.is_empty() {
            return vec![there];
        }
        if there.len() > 3 {
            return vec![there, Vec::new()];
        }
        // All first, none last.
        (0..1_usize << there.len())
            .rev()
            .map(|mask| {
                let chosen = there.iter().enumerate();
                chosen
                    .filter(|(bit, _)| mask >> bit & 1 == 1)
                    .map(|(_, part)| *part)
                    .collect()
            })
            .collect()
    }

    /// Covers what is left from one source, or from sources that cannot give all and one more.
    fn rest(
        &self,
        at: usize,
        drawn: &Drawn,
        left: f64,
        supplies: Vec<Supply>,
        last_part: Option<&Key>,
        steps: &mut Vec<Step>,
    ) {
        let need = &self.needs[at];
        let step = |drawn: Drawn, supplies: Vec<Supply>, uncovered: f64| Step {
            drawn,
            cover: LineCover {
                at,
                supplies,
                uncovered,
            },
        };
        if left <= 1e-9 {
            steps.push(step(drawn.clone(), supplies, 0.0));
            return;
        }
        let asks = Need {
            accepted: &need.accepted,
            ways: &need.ways,
            assumed: need.assumed,
            unit: need.unit,
            is_unknown_part: need.is_unknown_part,
        };
        let sources = supplies.iter().filter(|of| key_of(of).0 > 0).count();
        for candidate in drawn.candidates(self.sourcing, &asks, left) {
            let key = key_of(&candidate);
            let is_all = candidate.quantity >= left - 1e-9;
            let is_used = supplies.iter().any(|of| key_of(of) == key);
            if candidate.quantity <= 1e-9
                || is_used
                || (!is_all
                    && (sources + 1 >= MOST_SOURCES || last_part.is_some_and(|last| *last >= key)))
            {
                continue;
            }
            let mut drawn = drawn.clone();
            drawn.book(self.sourcing, &candidate, need.unit);
            let left = left - candidate.quantity;
            let mut supplies = supplies.clone();
            supplies.push(candidate);
            let last = if is_all {
                last_part.cloned()
            } else {
                Some(key)
            };
            self.rest(at, &drawn, left, supplies, last.as_ref(), steps);
        }
        steps.push(step(drawn.clone(), supplies, left));
    }
}

fn cost_and_arrival(cover: &LineCover) -> (i64, Option<chrono::NaiveDateTime>) {
    let cost = cover
        .supplies
        .iter()
        .map(weighed_cents)
        .fold(0, i64::saturating_add);
    (
        cost,
        cover.supplies.iter().map(|of| of.arrival.likely).max(),
    )
}
