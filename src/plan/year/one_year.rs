//! One replication: the shop from the moment of planning to the end of the year.

use std::collections::VecDeque;

use super::dice::{Dice, Purpose};
use super::event::{Events, What};
use super::policy::OrderPolicy;
use super::receipts::Receipts;
use super::shop_year::{Rush, ShopYear, YearPart};
use super::usage::Turn;

/// What became of one part.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct PartYear {
    /// Usages.
    pub usages: f64,
    /// Usages whose whole quantity was on the shelf.
    pub met_whole: f64,
    /// Units used.
    pub units: f64,
    /// Units that were on the shelf at once.
    pub units_met: f64,
    /// Hours with at least one piece on the shelf.
    pub stocked_h: f64,
    /// Unit hours on the shelf.
    pub on_hand_h: f64,
    /// Unit hours of waiting.
    pub waiting_h: f64,
    /// Hours of waiting of usages, each until it has all it takes.
    pub jobs_waiting_h: f64,
    /// Receipts.
    pub receipts: f64,
    /// Receipts before which nobody waited.
    pub calm_receipts: f64,
    /// Orders placed.
    pub orders: f64,
    /// Units past their shelf life.
    pub expired: f64,
    /// Surcharges of orders that came by the quickest way, in the shop's currency.
    pub surcharges: f64,
}

/// What became of the shop in one replication.
#[derive(Debug, Clone, PartialEq)]
pub struct OneYear {
    /// Production hours down by machine, over all machines of that name.
    pub down_h: Vec<f64>,
    /// Production hours that usages without a machine waited.
    pub unplaced_h: f64,
    /// By part.
    pub parts: Vec<PartYear>,
}

/// Somebody who waits.
#[derive(Debug)]
struct Waiting {
    left: f64,
    /// Single machine; `None` where no table names one.
    place: Option<usize>,
    since_h: f64,
}

#[derive(Debug)]
struct PartState {
    on_hand: f64,
    /// On hand and on order, less what is waited for.
    position: f64,
    /// On order by orders that a new one would be here before, where these are bridged.
    not_counted: f64,
    /// Pieces that are gone of all that ever lay on the shelf.
    gone: f64,
    waiting: VecDeque<Waiting>,
    waiting_units: f64,
    since_h: f64,
    /// `None` where only rebuilds with a date use it.
    turn: Option<Turn>,
    usages: Dice,
    receipts: Dice,
    seen: PartYear,
}

/// A single machine.
#[derive(Debug, Clone, Copy, Default)]
struct Place {
    waits: u32,
    down_since_h: f64,
}

#[derive(Debug)]
struct Run<'a> {
    shop: &'a ShopYear,
    policies: &'a [OrderPolicy],
    events: Events,
    parts: Vec<PartState>,
    places: Vec<Place>,
    down_h: Vec<f64>,
    unplaced_h: f64,
    now_h: f64,
}

/// Runs one replication.
pub fn one_year(
    shop: &ShopYear,
    policies: &[OrderPolicy],
    seed: u64,
    replication: usize,
) -> OneYear {
    let states = shop.parts.iter().map(|part| {
        let dice = |purpose| Dice::new(seed, replication, part.luck, purpose);
        PartState::new(part, dice(Purpose::Usages), dice(Purpose::Receipts))
    });
    let mut run = Run {
        shop,
        policies,
        events: Events::default(),
        parts: states.collect(),
        places: vec![Place::default(); shop.places()],
        down_h: vec![0.0; shop.machines.len()],
        unplaced_h: 0.0,
        now_h: 0.0,
    };
    run.begin();
    while let Some((at_h, what)) = run.events.next() {
        if at_h >= shop.until_h {
            break;
        }
        run.now_h = at_h;
        run.happens(what);
    }
    run.end()
}

impl PartState {
    fn new(part: &YearPart, mut usages: Dice, receipts: Dice) -> Self {
        let turn = part.usages.as_ref().map(|of| of.begin(&mut usages));
        let on_order: f64 = part.placed.iter().map(|(_, quantity)| quantity).sum();
        Self {
            on_hand: part.opening,
            position: part.opening + on_order,
            not_counted: 0.0,
            gone: 0.0,
            waiting: VecDeque::new(),
            waiting_units: 0.0,
            since_h: 0.0,
            turn,
            usages,
            receipts,
            seen: PartYear::default(),
        }
    }

    /// Counts the time since the last change.
    fn pass(&mut self, now_h: f64) {
        let hours = now_h - self.since_h;
        if self.on_hand >= 1.0 - 1e-9 {
            self.seen.stocked_h += hours;
        }
        self.seen.on_hand_h += self.on_hand * hours;
        self.seen.waiting_h += self.waiting_units * hours;
        self.seen.jobs_waiting_h += self.waiting.len() as f64 * hours;
        self.since_h = now_h;
    }
}

impl<'a> Run<'a> {
    fn begin(&mut self) {
        let shop = self.shop;
        if shop.measured_from_h > 0.0 {
            self.events.tell(shop.measured_from_h, What::Measuring);
        }
        for (at, part) in shop.parts.iter().enumerate() {
            for (until_h, first_pieces) in &part.lots {
                let first_pieces = *first_pieces;
                let what = What::Expiry {
                    part: at,
                    first_pieces,
                };
                self.events.tell(*until_h, what);
            }
            for (place, (hours, quantity)) in part.placed.iter().enumerate() {
                let at_h = self.comes(at, (hours, *quantity));
                self.leave_out(at, (place, *quantity), at_h);
            }
            self.next_usage(at);
            if self.policies[at].first_buy > 0.0 {
                self.order(at, self.policies[at].first_buy);
            }
            self.review(at);
        }
        for (at_h, part, quantity) in &shop.orders {
            let (part, quantity) = (*part, *quantity);
            self.events.tell(*at_h, What::Order { part, quantity });
        }
        for (need, of) in shop.needs.iter().enumerate() {
            self.events.tell(of.at_h, What::Need { need });
        }
        for (machine, of) in shop.machines.iter().enumerate() {
            if of.until_h < shop.until_h {
                self.events.tell(of.until_h, What::Retirement { machine });
            }
        }
    }

    fn happens(&mut self, what: What) {
        match what {
            What::Measuring => self.start_measuring(),
            What::Expiry { part, first_pieces } => self.expire(part, first_pieces),
            What::Receipt { part, quantity } => self.receive(part, quantity),
            What::Nears { part, quantity } => {
                let state = &mut self.parts[part];
                state.not_counted = (state.not_counted - quantity).max(0.0);
            }
            What::Usage { part } => {
                self.usage(part);
                self.next_usage(part);
            }
            What::Order { part, quantity } => self.order(part, quantity),
            What::Need { need } => {
                let of = &self.shop.needs[need];
                let is_there = |(part, quantity): &&(usize, f64)| {
                    self.parts[*part].on_hand + 1e-9 >= *quantity
                };
                let there = of.choices.iter().find(is_there);
                let (part, quantity) = *there.unwrap_or(&of.else_wait_for);
                self.make(&of.made, of.else_wait_for.0);
                self.take(part, quantity, of.place);
            }
            What::Retirement { machine } => self.retire(machine),
        }
    }

    /// Draws when goods that are on their way come; `None` where they never do.
    fn comes(&mut self, part: usize, (hours, quantity): (&[f64], f64)) -> Option<f64> {
        let drawn = self.parts[part].receipts.uniform() * hours.len() as f64;
        let at_h = hours.get(drawn as usize)?.max(self.now_h);
        self.events.tell(at_h, What::Receipt { part, quantity });
        Some(at_h)
    }

    /// Leaves an order on its way out of the stock position, where it is one that is bridged, until it nears or is here.
    fn leave_out(&mut self, part: usize, (place, quantity): (usize, f64), comes_h: Option<f64>) {
        let mut late = self.shop.parts[part].not_counted.iter();
        let Some((_, until_h)) = late.find(|(of, _)| *of == place) else {
            return;
        };
        if self.policies[part].bridges {
            self.parts[part].not_counted += quantity;
            let near_h = comes_h.map_or(*until_h, |comes_h| comes_h.min(*until_h));
            self.events.tell(near_h, What::Nears { part, quantity });
        }
    }

    /// What is made for a rebuild comes when it is ready, and nobody orders it besides.
    fn make(&mut self, made: &[(Vec<f64>, f64)], part: usize) {
        for (hours, quantity) in made {
            if self.comes(part, (hours, *quantity)).is_some() {
                self.parts[part].position += quantity;
            }
        }
    }

    /// Tells the next usage of a part.
    fn next_usage(&mut self, part: usize) {
        let state = &mut self.parts[part];
        let Some(usages) = &self.shop.parts[part].usages else {
            return;
        };
        let turn = state.turn.as_ref();
        let at_h = turn.and_then(|turn| usages.next_h(turn, self.now_h, &mut state.usages));
        if let Some(at_h) = at_h.filter(|at_h| *at_h < usages.until_h.min(self.shop.until_h)) {
            self.events.tell(at_h, What::Usage { part });
        }
    }

    fn usage(&mut self, part: usize) {
        let Some(usages) = &self.shop.parts[part].usages else {
            return;
        };
        let state = &mut self.parts[part];
        let dice = &mut state.usages;
        let quantity = match &mut state.turn {
            Some(turn) => usages.taken(turn, self.now_h, dice),
            None => usages.sizes.draw(dice),
        };
        let (which, single) = (dice.uniform(), dice.uniform());
        let mut machines = usages.machines.iter();
        let machine = machines.find(|(reached, _)| which < *reached);
        let place = machine.map(|(_, machine)| self.shop.place_of(*machine, single));
        // A machine that has left service uses nothing.
        if !place.is_some_and(|place| self.until_h(place) <= self.now_h) {
            self.take(part, quantity, place);
        }
    }

    /// Takes what is there; the rest waits, first come first served.
    fn take(&mut self, part: usize, quantity: f64, place: Option<usize>) {
        let now_h = self.now_h;
        let state = &mut self.parts[part];
        state.pass(now_h);
        let there = state.on_hand.min(quantity);
        let left = quantity - there;
        state.seen.usages += 1.0;
        state.seen.units += quantity;
        state.seen.units_met += there;
        state.on_hand -= there;
        state.gone += there;
        state.position -= quantity;
        if left > 1e-9 {
            state.waiting_units += left;
            state.waiting.push_back(Waiting {
                left,
                place,
                since_h: now_h,
            });
            if let Some(place) = place {
                let of = &mut self.places[place];
                if of.waits == 0 {
                    of.down_since_h = now_h;
                }
                of.waits += 1;
            }
        } else {
            state.seen.met_whole += 1.0;
        }
        self.review(part);
    }

    /// Orders what the policy asks for: all that is due at the same moment is one order, which comes as one.
    fn review(&mut self, part: usize) {
        let policy = self.policies[part];
        let position = self.parts[part].position;
        if policy.is_due(position) {
            self.order(part, policy.rest(position));
        }
        self.bridge(part);
    }

    /// Orders what bridges the time until open orders come that are too late.
    fn bridge(&mut self, part: usize) {
        let state = &self.parts[part];
        let bridge = self.policies[part].bridge(state.position, state.not_counted);
        if let Some(quantity) = bridge {
            self.order(part, quantity);
        }
    }

    fn order(&mut self, part: usize, quantity: f64) {
        let rush = self.rush_that_pays(part);
        let state = &mut self.parts[part];
        state.position += quantity;
        if matches!(self.shop.parts[part].receipts, Receipts::Never) {
            return; // nobody to order from: who waits has waited until the end
        }
        state.seen.orders += 1.0;
        let share = state.receipts.uniform();
        let receipts = match rush {
            None => &self.shop.parts[part].receipts,
            Some(rush) => {
                state.seen.surcharges += rush.surcharge;
                &rush.receipts
            }
        };
        // Where the calendars end the year has ended long before.
        if let Some(at_h) = self.arrival_h(receipts, share) {
            self.events.tell(at_h, What::Receipt { part, quantity });
        }
    }

    fn arrival_h(&self, receipts: &Receipts, share: f64) -> Option<f64> {
        let shop = self.shop;
        receipts.arrival_h(&shop.calendars, shop.as_of, self.now_h, share)
    }

    /// The quickest way, where a machine waits and its hours in the middle case cost more than the surcharge.
    fn rush_that_pays(&self, part: usize) -> Option<&'a Rush> {
        let shop = self.shop;
        let rush = shop.parts[part].rush.as_ref()?;
        let middle = |receipts| self.arrival_h(receipts, 0.5);
        let (rushed, normal) = (middle(&rush.receipts)?, middle(&shop.parts[part].receipts)?);
        let places = self.parts[part].waiting.iter().filter_map(|of| of.place);
        let saved = places
            .map(|place| {
                let per_h = shop.machines[shop.machine_of(place)].down_cost_per_h;
                let until_h = normal.min(self.until_h(place)).max(rushed);
                shop.clock.between(rushed, until_h) * per_h.unwrap_or(0.0)
            })
            .reduce(f64::max)?;
        (rushed < normal && saved >= rush.surcharge).then_some(rush)
    }

    fn receive(&mut self, part: usize, quantity: f64) {
        let now_h = self.now_h;
        let state = &mut self.parts[part];
        state.pass(now_h);
        state.seen.receipts += 1.0;
        state.seen.calm_receipts += f64::from(u8::from(state.waiting.is_empty()));
        let mut left = quantity;
        let mut served = Vec::new();
        while let Some(first) = state.waiting.front_mut() {
            let given = first.left.min(left);
            first.left -= given;
            left -= given;
            state.waiting_units -= given;
            if first.left > 1e-9 {
                break;
            }
            served.extend(state.waiting.pop_front());
        }
        if state.waiting.is_empty() {
            state.waiting_units = 0.0;
        }
        state.on_hand += left;
        // Of all that has come until now the oldest is used first: what is left of it when this ends goes.
        if let Some(life_h) = self.shop.parts[part].life_h.filter(|_| left > 1e-9) {
            let (at_h, first_pieces) = (now_h + life_h, state.gone + state.on_hand);
            if at_h < self.shop.until_h {
                let what = What::Expiry { part, first_pieces };
                self.events.tell(at_h, what);
            }
        }
        for of in served {
            self.goes_on(&of);
        }
    }

    /// Somebody has what was waited for.
    fn goes_on(&mut self, waiting: &Waiting) {
        let clock = &self.shop.clock;
        let from_h = self.shop.measured_from_h;
        match waiting.place {
            None => {
                self.unplaced_h += clock.between(waiting.since_h.max(from_h), self.now_h);
            }
            Some(place) => {
                let of = &mut self.places[place];
                of.waits -= 1;
                if of.waits == 0 && self.now_h >= from_h {
                    self.down_h[self.shop.machine_of(place)] +=
                        clock.between(of.down_since_h.max(from_h), self.now_h);
                }
            }
        }
    }

    /// Hour at which a single machine leaves service.
    fn until_h(&self, place: usize) -> f64 {
        self.shop.machines[self.shop.machine_of(place)].until_h
    }

    /// What waits for machines of a name waits no longer: its goods go on the shelf when they come.
    fn retire(&mut self, machine: usize) {
        let now_h = self.now_h;
        let of_machine = |of: &Waiting| {
            let place = of.place.map(|place| self.shop.machine_of(place));
            place == Some(machine)
        };
        let mut over = Vec::new();
        for state in &mut self.parts {
            if !state.waiting.iter().any(of_machine) {
                continue;
            }
            state.pass(now_h);
            let (gone, stay): (VecDeque<_>, VecDeque<_>) =
                state.waiting.drain(..).partition(of_machine);
            let left: f64 = gone.iter().map(|of| of.left).sum();
            state.position += left;
            state.waiting_units = stay.iter().map(|of| of.left).sum::<f64>() + 0.0;
            state.waiting = stay;
            over.extend(gone);
        }
        for of in over {
            self.goes_on(&of);
        }
    }

    fn expire(&mut self, part: usize, first_pieces: f64) {
        let now_h = self.now_h;
        let state = &mut self.parts[part];
        let lost = (first_pieces - state.gone).max(0.0).min(state.on_hand);
        if lost > 0.0 {
            state.pass(now_h);
            state.on_hand -= lost;
            state.position -= lost;
            state.gone += lost;
            state.seen.expired += lost;
            self.review(part);
        }
    }

    fn start_measuring(&mut self) {
        for state in &mut self.parts {
            state.pass(self.now_h);
            state.seen = PartYear::default();
        }
        self.unplaced_h = 0.0;
        self.down_h.fill(0.0);
    }

    /// Who still waits at the end has waited until then.
    fn end(mut self) -> OneYear {
        self.now_h = self.shop.until_h;
        let mut left = Vec::new();
        for state in &mut self.parts {
            state.pass(self.now_h);
            left.extend(state.waiting.drain(..));
        }
        for of in left {
            self.goes_on(&of);
        }
        OneYear {
            down_h: self.down_h,
            unplaced_h: self.unplaced_h,
            parts: self.parts.iter().map(|state| state.seen).collect(),
        }
    }
}
