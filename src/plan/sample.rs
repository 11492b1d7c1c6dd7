//! Small shops for tests, built row by row.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::{NaiveDate, NaiveDateTime};

use super::lead_time::{Arrival, Course, supplier_key};
use crate::catalogue::{
    Catalogue, CataloguePart, Kit, KitLineOf, OfferOf, PartId, ReceiptOf, Shop, StockOf, UsageOf,
};
use crate::interchange::{
    Accepted, AcceptedBecause, Judgement, LineAcceptance, OpenSubstitute, Verdict,
};
use crate::part::Traits;
use crate::place::Place;
use crate::record::{
    Condition, KitLine, LeadUnit, MachineRecord, OfferRecord, OtherWay, OtherWayKind,
    PlannedRebuild, QuotedLeadTime, ReceiptRecord, ShopSettings, StockRecord, SupplierRecord, Task,
    UsageRecord, read_moment,
};
use crate::units::{Currency, Money, Price, UnitOfCount};

/// Wednesday 4 March 2026, 10:30: the first case of the calendar reference values.
pub const AS_OF: &str = "2026-03-04T10:30";

/// A shop in the making; every row gets a place of its own.
pub struct Sample {
    parts: Vec<CataloguePart>,
    rows: u32,
    pub shop: Shop,
    pub acceptances: Vec<LineAcceptance>,
}

/// What is surely here at a moment.
pub fn certain(moment: &str) -> Arrival {
    let moment = at(moment);
    Arrival {
        course: Course::Certain { moment },
        ..Arrival::on_shelf(moment)
    }
}

pub fn at(text: &str) -> NaiveDateTime {
    read_moment(text).unwrap()
}

pub fn day(text: &str) -> NaiveDate {
    at(text).date()
}

pub fn euros(amount: f64) -> Money {
    Money::from_units(amount, Currency::EUR).unwrap()
}

pub fn price(amount: f64) -> Option<Price> {
    Some(Price::from_units(amount, 1, Currency::EUR).unwrap())
}

pub fn workdays(amount: f64) -> Option<QuotedLeadTime> {
    Some(QuotedLeadTime::exactly(amount, LeadUnit::Workdays))
}

impl Sample {
    /// A machine with two parts of 1,000.00, one used four times and one never, of which a planner asks for a minimum.
    pub fn with_never_used(
        own_minimum: Option<f64>,
        reason: Option<&str>,
        criticality: &str,
    ) -> (Self, PartId) {
        let mut sample = Self::new(
            "records_from = \"2024-03-04\"\n[planning]\nlevels_by = \"downtime_cost\"\n\
             [planning.criticality_weights]\nA = 2.0\nB = 1.0",
        );
        sample.supplier("North", |_| {});
        sample.machine("M1", Some(300.0), Some(criticality));
        sample.kit("K");
        let used = sample.part("USED");
        let never = sample.part_with("NEVER", |part| {
            part.own_min_stock = own_minimum;
            part.own_min_reason = reason.map(str::to_owned);
        });
        for part in [used, never] {
            sample.line(Some(part), 1.0, &[], |_| {});
            sample.offer(part, "North", workdays(40.0), |offer| {
                offer.price = price(1000.0);
            });
        }
        for date in ["2024-05-02", "2024-09-02", "2025-02-02", "2025-07-02"] {
            sample.usage(used, date, 1.0);
        }
        sample.stock(used, 50.0, |_| {});
        (sample, never)
    }

    /// A shop without rows, planned at [`AS_OF`] with the settings of `toml`.
    pub fn new(toml: &str) -> Self {
        let settings = ShopSettings::from_toml(toml).unwrap();
        Self {
            parts: Vec::new(),
            rows: 0,
            acceptances: Vec::new(),
            shop: Shop {
                as_of: settings.as_of.unwrap_or(at(AS_OF)),
                settings,
                catalogue: Catalogue::default(),
                suppliers: BTreeMap::new(),
                offers: Vec::new(),
                stock: Vec::new(),
                usages: Vec::new(),
                receipts: Vec::new(),
                kits: Vec::new(),
                machines: BTreeMap::new(),
                other_ways: Vec::new(),
                unresolved: Vec::new(),
                notes: Vec::new(),
                presumed: Vec::new(),
                not_approved: BTreeSet::new(),
            },
        }
    }

    pub fn place(&mut self) -> Place {
        self.rows += 1;
        Place::row(&Arc::from("sample.csv"), &Arc::from(""), self.rows)
    }

    /// Adds an own part counted in pieces.
    pub fn part(&mut self, number: &str) -> PartId {
        self.part_with(number, |_| {})
    }

    pub fn part_with(&mut self, number: &str, change: impl FnOnce(&mut CataloguePart)) -> PartId {
        let id = PartId(self.parts.len() as u32);
        let mut part = CataloguePart {
            id,
            is_own: true,
            ..CataloguePart::bare(number.to_owned(), self.place())
        };
        part.unit_of_count = Some(UnitOfCount::Piece);
        change(&mut part);
        self.parts.push(part);
        id
    }

    pub fn part_change(&mut self, part: PartId, change: impl FnOnce(&mut CataloguePart)) {
        change(&mut self.parts[part.0 as usize]);
    }

    /// Adds an approved supplier that delivers free.
    pub fn supplier(&mut self, name: &str, change: impl FnOnce(&mut SupplierRecord)) {
        let mut supplier = SupplierRecord::named(name, self.place());
        supplier.is_approved = Some(true);
        supplier.freight = Some(euros(0.0));
        change(&mut supplier);
        self.shop.suppliers.insert(supplier_key(name), supplier);
    }

    /// Adds an offer of 10.00 a piece.
    pub fn offer(
        &mut self,
        part: PartId,
        supplier: &str,
        lead_time: Option<QuotedLeadTime>,
        change: impl FnOnce(&mut OfferRecord),
    ) {
        let mut record = OfferRecord {
            supplier: supplier.into(),
            own_number: None,
            supplier_number: None,
            designation: None,
            description: None,
            family: None,
            size: None,
            size_notes: Vec::new(),
            traits: Traits::default().into(),
            ratings: None,
            maker: None,
            condition: Condition::New,
            price: price(10.0),
            unit_of_count: Some(UnitOfCount::Piece),
            breaks: Vec::new(),
            minimum_quantity: None,
            pack_quantity: None,
            quantity_available: None,
            lead_time,
            expedite: Vec::new(),
            cancellation_charge_share: None,
            quote_date: None,
            valid_until: None,
            place: self.place(),
        };
        change(&mut record);
        self.shop.offers.push(OfferOf { part, record });
    }

    /// Nine of a part that keeps five years, cured on a day: four used in two years, 60 working days of lead time.
    pub fn with_shelf_cured(cured: &str) -> (Self, PartId) {
        let mut sample = Self::new(
            "records_from = \"2024-03-04\"\n[planning]\nlevels_by = \"service_target\"\ndemand_method = \"plain\"",
        );
        sample.supplier("North", |_| {});
        let part = sample.part_with("A", |part| part.shelf_life_months = Some(60.0));
        for date in ["2024-05-02", "2024-11-02", "2025-05-02", "2025-11-02"] {
            sample.usage(part, date, 1.0);
        }
        sample.offer(part, "North", workdays(60.0), |_| {});
        sample.stock(part, 9.0, |row| row.cure_date = Some(day(cured)));
        (sample, part)
    }

    pub fn stock(&mut self, part: PartId, on_hand: f64, change: impl FnOnce(&mut StockRecord)) {
        let mut record = StockRecord {
            facts: None,
            part: String::new(),
            bin: None,
            lot: None,
            cure_date: None,
            usable_until: None,
            is_blocked: false,
            on_hand: Some(on_hand),
            reserved: None,
            on_order: None,
            due_date: None,
            unit_of_count: Some(UnitOfCount::Piece),
            is_in_packs: false,
            counted_on: None,
            place: self.place(),
        };
        change(&mut record);
        self.shop.stock.push(StockOf { part, record });
    }

    pub fn usage(&mut self, part: PartId, date: &str, quantity: f64) {
        let record = UsageRecord {
            date: day(date),
            part: "".into(),
            quantity,
            counted_in: None,
            machine: None,
            reason: None,
            place: self.place(),
        };
        self.shop.usages.push(UsageOf { part, record });
    }

    /// Adds an order that took so many days, or is open for so many.
    pub fn receipt(
        &mut self,
        part: PartId,
        supplier: &str,
        ordered: &str,
        promised_days: Option<i64>,
        days: Option<i64>,
    ) {
        let ordered = day(ordered);
        let after = |days: i64| ordered + chrono::Duration::days(days);
        let record = ReceiptRecord {
            supplier: supplier.into(),
            part: "".into(),
            ordered,
            promised: promised_days.map(after),
            received: days.map(after),
            quantity: Some(1.0),
            still_open: None,
            is_closed: false,
            counted_in: None,
            place: self.place(),
        };
        self.shop.receipts.push(ReceiptOf {
            part: Some(part),
            record,
        });
    }

    /// Adds an order that took so many working days of a day shift from Monday to Friday.
    pub fn receipt_in_workdays(&mut self, part: PartId, supplier: &str, workdays: u32) {
        let shift = super::WorkCalendar::new(&crate::record::CalendarSettings::day_shift());
        let ordered = day("2025-06-02");
        let received = shift.add_workdays(ordered, workdays).unwrap();
        let days = (received - ordered).num_days();
        self.receipt(part, supplier, "2025-06-02", None, Some(days));
    }

    pub fn machine(&mut self, name: &str, cost_per_hour: Option<f64>, criticality: Option<&str>) {
        let machine = MachineRecord {
            machine: name.to_owned(),
            description: None,
            downtime_cost_per_hour: cost_per_hour.map(euros),
            installed: None,
            in_use_from: None,
            in_use_until: None,
            running_hours: None,
            criticality: criticality.map(str::to_owned),
            place: self.place(),
        };
        self.shop.machines.insert(supplier_key(name), machine);
    }

    /// Adds a kit for machine `M1`; lines follow with [`line`](Self::line).
    pub fn kit(&mut self, name: &str) -> usize {
        self.shop.kits.push(Kit {
            name: name.to_owned(),
            machine: Some("M1".to_owned()),
            lines: Vec::new(),
            tasks: Vec::new(),
            planned: Vec::new(),
        });
        self.shop.kits.len() - 1
    }

    /// Adds a line to the last kit, with the substitutes that go in as they are.
    pub fn line(
        &mut self,
        part: Option<PartId>,
        quantity: f64,
        same: &[PartId],
        change: impl FnOnce(&mut KitLine),
    ) -> usize {
        let place = self.place();
        let kit = self.shop.kits.len() - 1;
        let line = self.shop.kits[kit].lines.len();
        let mut record = KitLine {
            kit: self.shop.kits[kit].name.clone(),
            machine: Some("M1".to_owned()),
            assembly: None,
            line: (line + 1).to_string(),
            part: None,
            description: None,
            family: None,
            size: None,
            traits: Traits::default(),
            quantity: Some(quantity),
            unit_of_count: Some(UnitOfCount::Piece),
            task: None,
            note: None,
            no_substitutes: false,
            place,
        };
        change(&mut record);
        self.shop.kits[kit].lines.push(KitLineOf {
            part,
            record,
            approvals: Vec::new(),
            other_ways: Vec::new(),
        });
        let accepted = |part, because| Accepted { part, because };
        self.acceptances.push(LineAcceptance {
            kit,
            line,
            accepted: part
                .map(|part| accepted(part, AcceptedBecause::AskedFor))
                .into_iter()
                .chain(
                    same.iter()
                        .map(|part| accepted(*part, AcceptedBecause::GoesInAsItIs)),
                )
                .collect(),
            open: Vec::new(),
            refused: Vec::new(),
            near_left_out: 0,
        });
        line
    }

    /// Adds a substitute to the last line that nobody has approved yet.
    pub fn open_substitute(&mut self, part: PartId) {
        let judgement = Judgement {
            verdict: Verdict::AfterChecks,
            agrees: Vec::new(),
            differs: Vec::new(),
            unknown: Vec::new(),
            checks: Vec::new(),
            rework: Vec::new(),
        };
        self.acceptances
            .last_mut()
            .unwrap()
            .open
            .push(OpenSubstitute::new(part, judgement));
    }

    pub fn task(&mut self, name: &str, hours: f64, predecessors: &[&str]) {
        let place = self.place();
        let kit = self.shop.kits.last_mut().unwrap();
        kit.tasks.push(Task {
            kit: kit.name.clone(),
            task: name.to_owned(),
            hours,
            predecessors: predecessors.iter().map(|name| (*name).to_owned()).collect(),
            place,
        });
    }

    pub fn planned(&mut self, date: &str) {
        let place = self.place();
        let kit = self.shop.kits.last_mut().unwrap();
        kit.planned.push(PlannedRebuild {
            kit: kit.name.clone(),
            machine: kit.machine.clone(),
            date: day(date),
            place,
        });
    }

    /// One kit of the shop in depth.
    pub fn study(&self, kit: usize, ask: &super::StudyAsk) -> super::KitStudy {
        let mut shop = self.shop.clone();
        shop.catalogue = Catalogue::new(self.parts.clone());
        super::study_kit(&shop, &self.acceptances, kit, ask).unwrap()
    }

    /// Adds a way other than buying to the last line.
    pub fn way(&mut self, kind: OtherWayKind, change: impl FnOnce(&mut OtherWay)) {
        let mut way = OtherWay {
            part: "".into(),
            kit: None,
            line: None,
            kind,
            hours: Some(6.0),
            cost: None,
            quantity: Some(1.0),
            from: None,
            approved_by: None,
            note: None,
            place: self.place(),
        };
        change(&mut way);
        let line = self.shop.kits.last_mut().unwrap().lines.last_mut().unwrap();
        line.other_ways.push(way);
    }

    /// The shop as it stands, with its parts.
    pub fn built(&self) -> Shop {
        let mut shop = self.shop.clone();
        shop.catalogue = Catalogue::new(self.parts.clone());
        shop
    }

    /// The plan of the shop as it stands.
    pub fn plan(&self) -> super::Plan {
        super::plan(&self.built(), &self.acceptances)
    }
}
