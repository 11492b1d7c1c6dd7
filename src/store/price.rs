//! Tables about buying: suppliers and offers.

use std::sync::{Arc, LazyLock};

use chrono::NaiveTime;

use super::identity::{
    put_list, put_place, put_ratings, put_size, put_traits, put_unit, take_list, take_place,
    take_ratings, take_size, take_traits, take_unit,
};
use super::table::{RowIn, RowOut, Stored, TableError};
use crate::part::{PartClass, Traits};
use crate::record::{
    Condition, Expedite, LeadUnit, OfferRecord, PriceBreak, QuotedLeadTime, SameDay, SupplierRecord,
};
use crate::units::{Currency, Money, Price};

/// Form of a time of day in a cell.
const TIME: &str = "%H:%M:%S";

/// Two columns: cents and currency.
pub(super) fn put_money(
    row: &mut RowOut<'_>,
    cents: &'static str,
    currency: &'static str,
    money: Option<Money>,
) {
    row.integer(cents, money.map(|money| money.cents));
    row.text(currency, money.as_ref().map(|money| money.currency.code()));
}

pub(super) fn take_money(
    row: &mut RowIn<'_>,
    cents: &'static str,
    currency: &'static str,
) -> Result<Option<Money>, TableError> {
    let amount = row.integer(cents)?;
    let currency = row.coded(currency, |text| Currency::new(text).ok())?;
    Ok(amount
        .zip(currency)
        .map(|(cents, currency)| Money { cents, currency }))
}

fn put_time(row: &mut RowOut<'_>, name: &'static str, time: Option<NaiveTime>) {
    row.text(
        name,
        time.map(|time| time.format(TIME).to_string()).as_deref(),
    );
}

fn take_time(row: &mut RowIn<'_>, name: &'static str) -> Result<Option<NaiveTime>, TableError> {
    row.coded(name, |text| NaiveTime::parse_from_str(text, TIME).ok())
}

const fn class_code(class: PartClass) -> &'static str {
    match class {
        PartClass::Bearings => "bearings",
        PartClass::Seals => "seals",
        PartClass::Fasteners => "fasteners",
        PartClass::Other => "other",
    }
}

fn read_class(code: &str) -> Option<PartClass> {
    let all = [
        PartClass::Bearings,
        PartClass::Seals,
        PartClass::Fasteners,
        PartClass::Other,
    ];
    all.into_iter().find(|class| class_code(*class) == code)
}

fn take_same_day(row: &mut RowIn<'_>) -> Result<Option<SameDay>, TableError> {
    let order_by = take_time(row, "same_day_order_by")?;
    let there_by = take_time(row, "same_day_there_by")?;
    let cost = take_money(row, "same_day_cents", "same_day_currency")?;
    Ok(order_by.zip(there_by).map(|(order_by, there_by)| SameDay {
        order_by,
        there_by,
        cost,
    }))
}

impl Stored for SupplierRecord {
    const TABLE: &'static str = "suppliers";

    fn put(&self, row: &mut RowOut<'_>) {
        let classes: Vec<String> = self
            .approved_classes
            .iter()
            .map(|class| class_code(*class).to_owned())
            .collect();
        row.text("name", Some(&self.name));
        row.flag("is_approved", self.is_approved);
        put_list(row, "approved_classes", &classes);
        put_time(row, "order_cutoff", self.order_cutoff);
        put_time(row, "counter_from", self.counter_hours.map(|hours| hours.0));
        put_time(
            row,
            "counter_until",
            self.counter_hours.map(|hours| hours.1),
        );
        row.text("calendar", self.calendar.as_deref());
        put_money(row, "freight_cents", "freight_currency", self.freight);
        put_money(
            row,
            "freight_free_from_cents",
            "freight_free_from_currency",
            self.freight_free_from,
        );
        row.number("collection_h", self.collection_h);
        put_money(row, "courier_cents", "courier_currency", self.courier_cost);
        row.number("courier_h", self.courier_h);
        put_time(
            row,
            "same_day_order_by",
            self.same_day.map(|day| day.order_by),
        );
        put_time(
            row,
            "same_day_there_by",
            self.same_day.map(|day| day.there_by),
        );
        put_money(
            row,
            "same_day_cents",
            "same_day_currency",
            self.same_day.and_then(|day| day.cost),
        );
        row.text("supplier_group", self.group.as_deref());
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let name = row.required_text("name")?;
        let is_approved = row.flag("is_approved")?;
        let approved_classes = take_items(row, "approved_classes", read_class)?;
        let order_cutoff = take_time(row, "order_cutoff")?;
        let counter = (
            take_time(row, "counter_from")?,
            take_time(row, "counter_until")?,
        );
        Ok(Self {
            name,
            is_approved,
            approved_classes,
            order_cutoff,
            counter_hours: counter.0.zip(counter.1),
            calendar: row.text("calendar")?,
            freight: take_money(row, "freight_cents", "freight_currency")?,
            freight_free_from: take_money(
                row,
                "freight_free_from_cents",
                "freight_free_from_currency",
            )?,
            collection_h: row.number("collection_h")?,
            courier_cost: take_money(row, "courier_cents", "courier_currency")?,
            courier_h: row.number("courier_h")?,
            same_day: take_same_day(row)?,
            group: row.text("supplier_group")?,
            place: take_place(row)?,
        })
    }
}

/// `in stock`, `on request`, `2026-03-09`, or `least/most/unit`.
fn lead_time_code(lead_time: QuotedLeadTime) -> String {
    match lead_time {
        QuotedLeadTime::InStock => "in stock".to_owned(),
        QuotedLeadTime::OnRequest => "on request".to_owned(),
        QuotedLeadTime::By(date) => date.to_string(),
        QuotedLeadTime::Span { least, most, unit } => {
            let unit = match unit {
                LeadUnit::Hours => "hours",
                LeadUnit::Workdays => "workdays",
                LeadUnit::Days => "days",
            };
            format!("{least}/{most}/{unit}")
        }
    }
}

fn read_lead_time(code: &str) -> Option<QuotedLeadTime> {
    match code {
        "in stock" => return Some(QuotedLeadTime::InStock),
        "on request" => return Some(QuotedLeadTime::OnRequest),
        _ => {}
    }
    if let Ok(date) = code.parse() {
        return Some(QuotedLeadTime::By(date));
    }
    let mut pieces = code.split('/');
    let (least, most, unit) = (pieces.next()?, pieces.next()?, pieces.next()?);
    let unit = match unit {
        "hours" => LeadUnit::Hours,
        "workdays" => LeadUnit::Workdays,
        "days" => LeadUnit::Days,
        _ => return None,
    };
    Some(QuotedLeadTime::Span {
        least: least.parse().ok()?,
        most: most.parse().ok()?,
        unit,
    })
}

/// `amount in hundredths of a cent/per/currency`.
fn price_code(price: Price) -> String {
    format!("{}/{}/{}", price.amount_cents_e2, price.per, price.currency)
}

fn read_price(code: &str) -> Option<Price> {
    let mut pieces = code.split('/');
    let (amount, per, currency) = (pieces.next()?, pieces.next()?, pieces.next()?);
    Some(Price {
        amount_cents_e2: amount.parse().ok()?,
        per: per.parse().ok()?,
        currency: Currency::new(currency).ok()?,
    })
}

fn read_break(code: &str) -> Option<PriceBreak> {
    let (from, price) = code.split_once('@')?;
    Some(PriceBreak {
        from_quantity: from.parse().ok()?,
        price: read_price(price)?,
    })
}

fn read_expedite(code: &str) -> Option<Expedite> {
    let (lead_time, surcharge) = code.split_once('@')?;
    let surcharge = if surcharge.is_empty() {
        None
    } else {
        let (cents, currency) = surcharge.split_once(' ')?;
        Some(Money {
            cents: cents.parse().ok()?,
            currency: Currency::new(currency).ok()?,
        })
    };
    Some(Expedite {
        lead_time: read_lead_time(lead_time)?,
        surcharge,
    })
}

fn read_condition(code: &str) -> Option<Condition> {
    let all = [Condition::New, Condition::Reconditioned, Condition::Used];
    all.into_iter().find(|condition| condition.name() == code)
}

/// Reads every item of a list by the same function, or says which cannot be read.
fn take_items<T>(
    row: &mut RowIn<'_>,
    name: &'static str,
    read: impl Fn(&str) -> Option<T>,
) -> Result<Vec<T>, TableError> {
    let codes = take_list(row, name)?;
    codes
        .iter()
        .map(|code| read(code).ok_or_else(|| row.bad(name, code)))
        .collect()
}

impl Stored for OfferRecord {
    const TABLE: &'static str = "offers";

    fn put(&self, row: &mut RowOut<'_>) {
        let breaks: Vec<String> = self
            .breaks
            .iter()
            .map(|b| format!("{}@{}", b.from_quantity, price_code(b.price)))
            .collect();
        let expedite = self.expedite.iter().map(|option| {
            let surcharge = option.surcharge.map_or_else(String::new, |surcharge| {
                format!("{} {}", surcharge.cents, surcharge.currency)
            });
            format!("{}@{surcharge}", lead_time_code(option.lead_time))
        });
        let expedite: Vec<String> = expedite.collect();
        row.text("supplier", Some(&self.supplier));
        row.text("own_number", self.own_number.as_deref());
        row.text("supplier_number", self.supplier_number.as_deref());
        row.text("designation", self.designation.as_deref());
        row.text("description", self.description.as_deref());
        put_size(row, self.family, self.size);
        put_list(row, "size_notes", &self.size_notes);
        put_traits(row, &self.traits);
        put_ratings(row, self.ratings.as_deref());
        row.text("maker", self.maker.as_deref());
        row.text("condition", Some(self.condition.name()));
        row.integer(
            "price_cents_e2",
            self.price.map(|price| price.amount_cents_e2),
        );
        row.integer("price_per", self.price.map(|price| i64::from(price.per)));
        row.text(
            "price_currency",
            self.price.as_ref().map(|price| price.currency.code()),
        );
        put_unit(row, self.unit_of_count);
        put_list(row, "breaks", &breaks);
        row.number("minimum_quantity", self.minimum_quantity);
        row.number("pack_quantity", self.pack_quantity);
        row.number("quantity_available", self.quantity_available);
        row.text("lead_time", self.lead_time.map(lead_time_code).as_deref());
        put_list(row, "expedite", &expedite);
        row.number("cancellation_charge_share", self.cancellation_charge_share);
        row.date("quote_date", self.quote_date);
        row.date("valid_until", self.valid_until);
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let supplier = row.required_shared_text("supplier")?;
        let (own_number, supplier_number) = (row.text("own_number")?, row.text("supplier_number")?);
        let designation = row.shared_text("designation")?;
        let description = row.text("description")?;
        let (family, size) = take_size(row)?;
        let (size_notes, traits, ratings) = (
            take_list(row, "size_notes")?,
            take_traits(row)?,
            take_ratings(row)?,
        );
        let maker = row.text("maker")?;
        let condition = row
            .coded("condition", read_condition)?
            .unwrap_or(Condition::New);
        let (amount, per) = (row.integer("price_cents_e2")?, row.integer("price_per")?);
        let currency = row.coded("price_currency", |text| Currency::new(text).ok())?;
        let price = match (
            amount,
            per.and_then(|per| u32::try_from(per).ok()),
            currency,
        ) {
            (Some(amount_cents_e2), Some(per), Some(currency)) => Some(Price {
                amount_cents_e2,
                per,
                currency,
            }),
            _ => None,
        };
        Ok(Self {
            supplier,
            own_number,
            supplier_number,
            designation,
            description,
            family,
            size,
            size_notes,
            traits: shared(traits),
            ratings: ratings.map(Box::new),
            maker,
            condition,
            price,
            unit_of_count: take_unit(row)?,
            breaks: take_items(row, "breaks", read_break)?,
            minimum_quantity: row.number("minimum_quantity")?,
            pack_quantity: row.number("pack_quantity")?,
            quantity_available: row.number("quantity_available")?,
            lead_time: row.coded("lead_time", read_lead_time)?,
            expedite: take_items(row, "expedite", read_expedite)?,
            cancellation_charge_share: row.number("cancellation_charge_share")?,
            quote_date: row.date("quote_date")?,
            valid_until: row.date("valid_until")?,
            place: take_place(row)?,
        })
    }
}

/// Traits of an offer; those of which nothing is said are held once, because lists have a hundred thousand such rows.
fn shared(traits: Traits) -> Arc<Traits> {
    static UNTOLD: LazyLock<Arc<Traits>> = LazyLock::new(Arc::default);
    if traits == **UNTOLD {
        Arc::clone(&UNTOLD)
    } else {
        traits.into()
    }
}
