//! What is written of one part, and of the parts of one size that no rule of exchange tells apart.

use std::fmt;

use chrono::NaiveDate;

use super::super::part::label;
use super::code::{In, Out, TraitsInPlace};
use crate::part::{Family, LoadRatings, SizeKey, Traits};
use crate::record::Condition;
use crate::standard::{self, StandardPart};
use crate::units::grouped;

/// Stock of a part in one bin.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct StockLine {
    /// Bin; `None` where the list names none.
    pub bin: Option<String>,
    /// On hand less reserved; `None` where the list does not say.
    pub free: Option<f64>,
    /// Unit of count; `None` where the list does not say.
    pub unit_of_count: Option<String>,
    /// Last day it may be fitted, by the lot or by its cure date; `None` where nobody knows of one.
    pub usable_until: Option<NaiveDate>,
}

impl StockLine {
    /// True where some of it is free.
    pub fn is_free(&self) -> bool {
        self.free.is_some_and(|free| free > 0.0)
    }
}

impl StockLine {
    /// True where its last day lies before this one; `None` where nobody knows of a last day.
    pub fn has_expired(&self, on: NaiveDate) -> Option<bool> {
        self.usable_until.map(|last| last < on)
    }

    /// What to know of its last day, in words; none where there is no such day.
    pub fn last_day_in_words(&self, on: NaiveDate) -> Option<String> {
        let last = self.usable_until?;
        Some(match last < on {
            true => format!("its last day to be fitted was {last}: no stock to take from"),
            false => format!("to be fitted until {last}"),
        })
    }
}

/// A price from a quantity on.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct BreakLine {
    /// Least quantity, in the unit of the price.
    pub from_quantity: f64,
    /// Price of one from that quantity on, in the currency of the offer.
    pub unit_price: f64,
}

/// An offer of a part.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct OfferLine {
    /// Supplier.
    pub supplier: String,
    /// The supplier's own number for the part; `None` where the list names none.
    pub supplier_number: Option<String>,
    /// Price of one, in `currency`; `None` where none is quoted.
    pub unit_price: Option<f64>,
    /// Currency of the price.
    pub currency: Option<String>,
    /// Prices from a quantity on, by rising quantity.
    pub breaks: Vec<BreakLine>,
    /// Least quantity sold, in the unit of the price.
    pub minimum_quantity: Option<f64>,
    /// Sold in multiples of this.
    pub pack_quantity: Option<f64>,
    /// Lead time as quoted; "unknown" where none is quoted.
    pub lead_time: String,
    /// Day of the quote.
    pub quote_date: Option<NaiveDate>,
    /// Last day that the quote holds.
    pub valid_until: Option<NaiveDate>,
    /// New unless the supplier says otherwise.
    pub condition: Condition,
    /// Whether the supplier is approved for parts of this class; `None` where no table says.
    pub is_approved: Option<bool>,
}

/// Conditions in the order of their codes.
const CONDITIONS: [Condition; 3] = [Condition::New, Condition::Reconditioned, Condition::Used];

impl OfferLine {
    /// True where the offer held until a day before this one; `None` where it names no end.
    pub fn has_ended(&self, on: NaiveDate) -> Option<bool> {
        self.valid_until.map(|last| last < on)
    }

    /// Days since the quote; `None` where its day is not known or lies ahead.
    pub fn age_days(&self, on: NaiveDate) -> Option<i64> {
        let days = (on - self.quote_date?).num_days();
        (days >= 0).then_some(days)
    }

    /// What to know before asking for it, each in words: its number, quantities and their prices, its age, its end, the
    /// goods' condition, the supplier's approval.
    pub fn remarks(&self) -> Vec<String> {
        let goods = match self.condition {
            Condition::New => None,
            Condition::Reconditioned => Some("reconditioned goods"),
            Condition::Used => Some("used goods"),
        };
        let approval = match self.is_approved {
            Some(true) => None,
            Some(false) => Some("supplier not approved for this"),
            None => Some("no table says that the supplier is approved"),
        };
        let quoted = self.quote_date.map(|date| format!("quoted on {date}"));
        let ends = self.valid_until.map(|date| format!("valid until {date}"));
        let number = self.supplier_number.as_deref();
        let number = number.map(|number| format!("their number {number}"));
        let least = self.minimum_quantity.filter(|least| *least > 1.0);
        let least = least.map(|least| format!("at least {least}"));
        let pack = self.pack_quantity.filter(|pack| *pack > 1.0);
        let pack = pack.map(|pack| format!("in packs of {pack}"));
        let words = [goods, approval].map(|words| words.map(str::to_owned));
        let breaks = self.breaks.iter().map(|of| {
            let (from, price) = (of.from_quantity, of.unit_price);
            Some(format!("{} each from {from}", grouped(price, 2, 2)))
        });
        [number, least, pack]
            .into_iter()
            .chain(breaks)
            .chain([quoted, ends])
            .chain(words)
            .flatten()
            .collect()
    }

    /// The offer and what to know before asking for it, in another language's words.
    pub fn said(&self, mut say: impl FnMut(&str) -> String) -> String {
        let all = std::iter::once(self.to_string()).chain(self.remarks());
        let said: Vec<String> = all.map(|words| say(&words)).collect();
        said.join(", ")
    }

    /// True where a person has to clear it first, whatever day it is.
    pub(super) fn is_in_question(&self) -> bool {
        self.condition != Condition::New || self.is_approved != Some(true)
    }
}

impl fmt::Display for OfferLine {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: ", self.supplier)?;
        match (self.unit_price, &self.currency) {
            (Some(price), Some(currency)) => write!(f, "{} {currency}", grouped(price, 2, 2))?,
            _ => f.write_str("price unknown")?,
        }
        write!(f, ", lead time {}", self.lead_time)
    }
}

/// One part.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// Number it is called by.
    pub number: String,
    /// Designation as printed.
    pub designation: Option<String>,
    /// Description as printed.
    pub description: Option<String>,
    /// Other numbers.
    pub aliases: Vec<String>,
    /// Stock.
    pub stock: Vec<StockLine>,
    /// Offers.
    pub offers: Vec<OfferLine>,
}

/// Parts of one size that agree in everything a rule of exchange looks at.
#[derive(Debug, Clone, PartialEq)]
pub struct Alike {
    /// Family, where it is known.
    pub family: Option<Family>,
    /// What is known besides size.
    pub traits: Traits,
    /// Load ratings with source.
    pub ratings: Option<LoadRatings>,
    /// Speed limit, rev/min.
    pub speed_limit_rpm: Option<f64>,
    /// Number and designation, where suffixes that no standard explains make the part one of its own.
    pub label: Option<String>,
    /// Position of the standard row behind them among the rows of their size.
    pub(super) row: Option<u8>,
    /// True where some of one of them is free on the shelf.
    pub is_in_stock: bool,
    /// True where one of them is offered.
    pub is_on_offer: bool,
    /// Position of the first of their cards in the drawer; those in stock come first, then those on offer.
    pub first: u32,
    /// How many there are.
    pub count: u32,
}

/// The same at a glance: enough to see which of many agree best with a question, and no text copied.
#[derive(Debug)]
pub struct Glance<'a> {
    /// What is known besides size.
    pub traits: TraitsInPlace<'a>,
    /// True where some of one of them is free on the shelf.
    pub is_in_stock: bool,
    /// True where one of them is offered.
    pub is_on_offer: bool,
    /// How many there are.
    pub count: u32,
    /// Where all of it stands.
    whole: In<'a>,
}

impl<'a> Glance<'a> {
    pub(super) fn read(bytes: &mut In<'a>) -> Self {
        let whole = bytes.clone();
        bytes.byte();
        let traits = bytes.traits_in_place();
        bytes.skip_ratings();
        bytes.maybe_number();
        bytes.skip_maybe_text();
        bytes.byte();
        let flags = Flags(bytes.byte());
        bytes.u32();
        Self {
            traits,
            is_in_stock: flags.is_in_stock(),
            is_on_offer: flags.is_on_offer(),
            count: bytes.u32(),
            whole,
        }
    }

    /// All that is known of them.
    pub fn alike(&self) -> Alike {
        Alike::read(&mut self.whole.clone())
    }
}

/// What the cards of one kind say together, a bit each.
struct Flags(u8);

impl Flags {
    const fn is_in_stock(&self) -> bool {
        self.0 & 1 != 0
    }

    const fn is_on_offer(&self) -> bool {
        self.0 & 2 != 0
    }
}

impl Alike {
    /// The standard row behind these parts.
    pub fn standard_row(&self, size: &SizeKey) -> Option<&'static StandardPart> {
        standard::of_size(size).get(usize::from(self.row?))
    }

    pub(super) fn read(bytes: &mut In<'_>) -> Self {
        let family = bytes.family();
        let traits = bytes.traits();
        let ratings = bytes.ratings();
        let speed_limit_rpm = bytes.maybe_number();
        let label = bytes.maybe_text();
        let row = bytes.byte().checked_sub(1);
        let flags = Flags(bytes.byte());
        Self {
            family,
            traits,
            ratings,
            speed_limit_rpm,
            label,
            row,
            is_in_stock: flags.is_in_stock(),
            is_on_offer: flags.is_on_offer(),
            first: bytes.u32(),
            count: bytes.u32(),
        }
    }
}

impl Card {
    /// Number and what it is.
    pub fn label(&self) -> String {
        label(&self.number, Some(self.name()))
    }

    /// What it is: designation, else description, else its number.
    pub fn name(&self) -> &str {
        let name = self.designation.as_ref().or(self.description.as_ref());
        name.unwrap_or(&self.number)
    }

    /// True where some of it is free on the shelf.
    pub(super) fn is_in_stock(&self) -> bool {
        self.stock.iter().any(StockLine::is_free)
    }

    /// Writes the card; suppliers by their position in a list of names.
    pub(super) fn write(&self, supplier: impl Fn(&str) -> u32, out: &mut Out) {
        out.text(&self.number);
        out.maybe_text(self.designation.as_deref());
        out.maybe_text(self.description.as_deref());
        out.texts(&self.aliases);
        out.count(self.stock.len());
        for stock in &self.stock {
            out.maybe_text(stock.bin.as_deref());
            out.maybe_number(stock.free);
            out.maybe_text(stock.unit_of_count.as_deref());
            out.maybe_date(stock.usable_until);
        }
        out.count(self.offers.len());
        for offer in &self.offers {
            out.count(supplier(&offer.supplier) as usize);
            out.maybe_text(offer.supplier_number.as_deref());
            out.maybe_number(offer.unit_price);
            out.maybe_text(offer.currency.as_deref());
            out.count(offer.breaks.len());
            for of in &offer.breaks {
                out.maybe_number(Some(of.from_quantity));
                out.maybe_number(Some(of.unit_price));
            }
            out.maybe_number(offer.minimum_quantity);
            out.maybe_number(offer.pack_quantity);
            out.text(&offer.lead_time);
            out.maybe_date(offer.quote_date);
            out.maybe_date(offer.valid_until);
            out.choice(Some(offer.condition), &CONDITIONS);
            out.choice(offer.is_approved, &[false, true]);
        }
    }

    /// Reads a card.
    pub(super) fn read(bytes: &mut In<'_>, supplier: impl Fn(u32) -> String) -> Self {
        let (number, designation, description) =
            (bytes.text(), bytes.maybe_text(), bytes.maybe_text());
        let aliases = bytes.texts();
        let lines = |count: usize| 0..count.min(u16::MAX.into());
        let stock = lines(bytes.count())
            .map(|_| StockLine {
                bin: bytes.maybe_text(),
                free: bytes.maybe_number(),
                unit_of_count: bytes.maybe_text(),
                usable_until: bytes.maybe_date(),
            })
            .collect();
        let offers = lines(bytes.count())
            .map(|_| OfferLine {
                supplier: supplier(bytes.count() as u32),
                supplier_number: bytes.maybe_text(),
                unit_price: bytes.maybe_number(),
                currency: bytes.maybe_text(),
                breaks: lines(bytes.count())
                    .filter_map(|_| {
                        let (from_quantity, unit_price) =
                            (bytes.maybe_number(), bytes.maybe_number());
                        Some(BreakLine {
                            from_quantity: from_quantity?,
                            unit_price: unit_price?,
                        })
                    })
                    .collect(),
                minimum_quantity: bytes.maybe_number(),
                pack_quantity: bytes.maybe_number(),
                lead_time: bytes.text(),
                quote_date: bytes.maybe_date(),
                valid_until: bytes.maybe_date(),
                condition: bytes.choice(&CONDITIONS).unwrap_or(Condition::New),
                is_approved: bytes.choice(&[false, true]),
            })
            .collect();
        Self {
            number,
            designation,
            description,
            aliases,
            stock,
            offers,
        }
    }
}
