//! Rows of offers, price lists and quotes.

use chrono::NaiveDate;

use crate::import::cell::{Cell, number_text};
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::{ReadPrice, read_condition, read_lead_time, read_number};
use crate::record::{Condition, CountedIn, Expedite, OfferRecord, PriceBreak, QuotedLeadTime};
use crate::units::{Price, UnitOfCount};

use super::context::ReadColumn;
use super::named_part::read_identity;
use super::net_price;
use super::price_step;
use super::price_tax::{HeldTax, held_tax};
use super::price_unit;
use super::reader::{Rejected, RowReader};

/// What the record is called in messages.
const RECORD: &str = "offer";

/// Reads one offer.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<OfferRecord, Rejected> {
    let Some(supplier) = row.supplier() else {
        return Err(row.missing(Field::Supplier, RECORD));
    };
    let (own_number, supplier_number) = numbers(row);
    let identity = read_identity(row);
    if own_number.is_none()
        && supplier_number.is_none()
        && identity.designation.is_none()
        && identity.description.is_none()
    {
        return Err(row.missing(Field::PartNumber, RECORD));
    }
    let condition = condition(row)?;
    let (mut price, mut breaks) = prices(row)?;
    let sold = sold_in(row);
    if sold.is_unread {
        // The price of nobody knows how many.
        (price, breaks) = (None, Vec::new());
    }
    let expedite = expedite(row);
    let cancellation_charge_share = share(
        row,
        Field::CancellationCharge,
        0.0..=1.0,
        "a charge of 0 to 100 %",
    );
    Ok(OfferRecord {
        supplier,
        own_number,
        supplier_number,
        designation: identity.designation,
        description: identity.description,
        family: identity.family,
        size: identity.size,
        size_notes: identity.size_notes,
        traits: identity.traits,
        ratings: identity.ratings,
        maker: row.text(Field::Maker),
        condition,
        price,
        unit_of_count: sold.unit,
        breaks,
        minimum_quantity: row.number_above_zero(Field::MinimumQuantity),
        pack_quantity: sold.pack_quantity,
        // A supplier's list calls its own stock just that.
        quantity_available: row
            .number_from_zero(Field::Available)
            .or_else(|| row.number_from_zero(Field::OnHand)),
        lead_time: lead_time(row),
        expedite,
        cancellation_charge_share,
        quote_date: row
            .date(Field::QuoteDate)
            .or_else(|| row.date(Field::Date))
            .or(row.table.dated),
        valid_until: valid_until(row),
        place: row.place.clone(),
    })
}

/// The lead time of an offer: of its row, else of the whole list. A cell that cannot be read is not the list's time.
fn lead_time(row: &mut RowReader<'_, '_>) -> Option<QuotedLeadTime> {
    if let Some(of_row) = row.lead_time(Field::LeadTime) {
        return Some(of_row);
    }
    let table = row.table;
    let of_list = table.title.terms.lead_time.as_deref()?;
    let day = table.settings.day_unit();
    let read = read_lead_time(of_list, None, day, Some(table.settings.date_order)).ok();
    read.filter(|_| !row.has_words(Field::LeadTime))
}

/// The last day of an offer: of its row, else of the whole list. A cell that cannot be read is not the list's day.
fn valid_until(row: &mut RowReader<'_, '_>) -> Option<NaiveDate> {
    let of_row = row.date(Field::ValidUntil);
    let of_list = row.table.title.valid_until;
    of_row.or_else(|| of_list.filter(|_| !row.has_words(Field::ValidUntil)))
}

/// What an offer is sold in.
struct SoldIn {
    unit: Option<UnitOfCount>,
    pack_quantity: Option<f64>,
    /// True where the row says a unit that nobody reads, or two that contradict each other.
    is_unread: bool,
}

/// Unit and pack of an offer: a `VE` or `box` is a pack of the row's own pack quantity.
fn sold_in(row: &mut RowReader<'_, '_>) -> SoldIn {
    let pack_quantity = row.number_above_zero(Field::PackQuantity);
    let is_pack = row
        .text_of(Field::UnitOfCount)
        .filter(|text| row.memo.units.get(&**text).is_none())
        .is_some_and(|text| CountedIn::read(&text) == Ok(CountedIn::Pack));
    let pieces =
        pack_quantity.filter(|pack| pack.fract().abs() < 1e-9 && (1.0..1e6).contains(pack));
    if let Some(pieces) = pieces.filter(|_| is_pack) {
        let unit = UnitOfCount::Pack {
            pieces: pieces as u32,
        };
        let read = unit.to_string();
        row.issue(
            Severity::Note,
            Some(Field::UnitOfCount),
            Problem::PackOfRow { read },
        );
        return SoldIn {
            unit: Some(unit),
            pack_quantity: None,
            is_unread: false,
        };
    }
    let unit = row.unit_of_count();
    let is_unread = unit.is_none() && row.text_of(Field::UnitOfCount).is_some();
    let (unit, is_contrary) = price_unit::with_metres(row, unit, is_unread);
    SoldIn {
        unit,
        pack_quantity,
        is_unread: is_unread || is_contrary,
    }
}

/// Condition of the goods; new where no cell says it.
fn condition(row: &mut RowReader<'_, '_>) -> Result<Condition, Rejected> {
    let condition = row
        .text(Field::Condition)
        .map_or(Some(Condition::New), |text| {
            row.word(
                Field::Condition,
                &text,
                "new, reconditioned or used",
                read_condition,
            )
        });
    // An offer of unknown condition must not pass for new.
    let Some(condition) = condition else {
        let problem = Problem::Missing {
            field: Field::Condition,
            record: RECORD,
        };
        row.issue(Severity::Rejected, Some(Field::Condition), problem);
        return Err(Rejected);
    };
    Ok(condition)
}

/// The plain price of a row and its breaks.
fn prices(row: &mut RowReader<'_, '_>) -> Result<(Option<Price>, Vec<PriceBreak>), Rejected> {
    let discount_share = discount_share(row);
    let step = price_step::least_quantity(row)?;
    let mut breaks = breaks(row, discount_share);
    // A list that prices every quantity by a break has its plain price in the break from 1 on.
    let from_one = breaks
        .first()
        .filter(|first| first.from_quantity <= 1.0)
        .map(|first| first.price);
    let mut price = price(row, discount_share).or(from_one);
    if is_a_break_dearer(row, price, step, &breaks) {
        breaks.clear();
    }
    if let Some(from_quantity) = step {
        // Not the price of one: the catalogue puts such rows of one part together.
        breaks = price_step::behind(from_quantity, price.take(), breaks);
    }
    Ok((price, breaks))
}

/// Own and supplier's number. A plain "part no" is the shop's own in a table with a supplier column, and the
/// supplier's in a list of one supplier. Common practice, no source.
fn numbers(row: &mut RowReader<'_, '_>) -> (Option<String>, Option<String>) {
    let own = row.text(Field::OwnNumber);
    let suppliers = row.text(Field::SupplierNumber);
    let is_own = row.table.has(Field::Supplier) && !row.table.has(Field::OwnNumber);
    // A number that the other column has already is not asked for, and told as not read.
    let plain = Field::PartNumber;
    if is_own {
        (own.or_else(|| row.text(plain)), suppliers)
    } else {
        let suppliers = suppliers.or_else(|| row.text(plain));
        (own, suppliers)
    }
}

/// Discount as a share; `35` and `35 %` are 0.35, `0.35` in a cell of numbers too, and `40+10` is 0.46.
///
/// A `0.35` among discounts in percent is one of 0.35 %, in doubt.
fn discount_share(row: &mut RowReader<'_, '_>) -> Option<f64> {
    if let Cell::Text(text) = row.cell(Field::Discount)
        && let Some(share) = chained_discount(text)
    {
        return Some(share);
    }
    let is_whole = matches!(row.cell(Field::Discount), Cell::Number(value) if (value - 1.0).abs() < 1e-9)
        && is_shown_in_percent(row, Field::Discount);
    let expected = if is_whole {
        "a discount of 0 to 99 %: the cell shows 100 %, which may be meant as 1 %"
    } else {
        "a discount of 0 to 99 %"
    };
    let share = share(row, Field::Discount, 0.0..=0.99, expected)?;
    let has_sign = matches!(row.cell(Field::Discount), Cell::Text(text) if text.contains('%'))
        || is_shown_in_percent(row, Field::Discount);
    let column = row.table.column(Field::Discount);
    let is_in_percent = column.is_some_and(|column| column.is_in_percent);
    // Of 1 and more it was read as percent already.
    let figure = row.number(Field::Discount).filter(|figure| {
        let is_share = *figure > 0.0 && *figure < 1.0;
        is_share && is_in_percent && !has_sign
    });
    let Some(figure) = figure else {
        return Some(share);
    };
    let found = number_text(figure);
    let problem = Problem::ShareAmongPercents { found };
    row.issue(Severity::Doubtful, Some(Field::Discount), problem);
    Some(figure / 100.0)
}

/// A share; `35` and `35 %` are 0.35, `0.35` in a cell of numbers too.
pub(super) fn share(
    row: &mut RowReader<'_, '_>,
    field: Field,
    range: std::ops::RangeInclusive<f64>,
    expected: &'static str,
) -> Option<f64> {
    let cell = row.cell(field);
    let value = row.number(field)?;
    let is_percent = match cell {
        Cell::Text(text) => text.contains('%') || value.abs() >= 1.0,
        // A cell formatted in percent holds the share itself.
        _ => value.abs() >= 1.0 && !is_shown_in_percent(row, field),
    };
    let share = if is_percent { value / 100.0 } else { value };
    if range.contains(&share) {
        return Some(share);
    }
    row.out_of_range(Severity::Doubtful, field, value, expected);
    None
}

/// True where the file shows the number of a field in percent.
fn is_shown_in_percent(row: &RowReader<'_, '_>, field: Field) -> bool {
    let column = row.table.column(field);
    column.is_some_and(|column| row.table.grid.shown(row.row, column.index).is_percent)
}

/// `40+10`, `40 % + 10 %`: discounts of percents, each on what the one before has left; `None` for any other text.
fn chained_discount(text: &str) -> Option<f64> {
    let pieces: Vec<&str> = text.split('+').collect();
    if pieces.len() < 2 {
        return None;
    }
    let mut left = 1.0;
    for piece in pieces {
        let percent = piece.trim().trim_end_matches('%').trim_end();
        let percent = read_number(percent, None).ok()?;
        if !(0.0..100.0).contains(&percent) {
            return None;
        }
        left *= 1.0 - percent / 100.0;
    }
    // Whole hundredths of a percent: 0.6 times 0.9 is 0.54 and not 0.54000000000000004.
    Some((((1.0 - left) * 10_000.0).round()) / 10_000.0)
}

fn price(row: &mut RowReader<'_, '_>, discount_share: Option<f64>) -> Option<Price> {
    let table = row.table;
    if let Some(column) = table.column(Field::Price) {
        // A net price is net: a discount beside it is how it came about, unless there is no list price.
        let is_net = table.has(Field::ListPrice) || !table.has(Field::Discount);
        if let Some(price) = price_in(row, column) {
            if net_price::is_said_twice(table) {
                net_price::tell_other(row, column, discount_share);
            }
            return less(row, price, if is_net { Some(0.0) } else { discount_share });
        }
    }
    let column = table.column(Field::ListPrice)?;
    let price = price_in(row, column)?;
    let share = if table.has(Field::Discount) {
        discount_share
    } else {
        Some(table.title.terms.discount_share.unwrap_or(0.0))
    };
    less(row, price, share)
}

/// A list price without a discount stands as it is; with one that cannot be read there is no price, and its cell holds the
/// issue.
fn less(row: &mut RowReader<'_, '_>, price: Price, share: Option<f64>) -> Option<Price> {
    match share {
        Some(share) => Some(price.less(share)),
        None if row.cell(Field::Discount) == Cell::Empty => Some(price),
        None => None,
    }
}

/// The net price in a column with currency and number of units from cell, row, header or title.
fn price_in(row: &mut RowReader<'_, '_>, column: &ReadColumn) -> Option<Price> {
    let read = row.price_of(column)?;
    let tax = held_tax(row, column, read.amount)?;
    let price = finish_price(row, column, read)?;
    Some(match tax {
        HeldTax::None => price,
        HeldTax::At(rate_share) => price.less(rate_share / (1.0 + rate_share)),
    })
}

fn finish_price(
    row: &mut RowReader<'_, '_>,
    column: &ReadColumn,
    read: ReadPrice,
) -> Option<Price> {
    let table = row.table;
    let of_row = row.row_currency();
    // An amount of an unknown currency is no price.
    if read.currency.is_none() && of_row.is_none() && row.has_currency() {
        return None;
    }
    let currency = read
        .currency
        .or(of_row)
        .or(column.states.currency)
        .or(table.title.states.currency)
        .unwrap_or(table.settings.currency);
    let per = price_unit::units_of(row, column, &read)?;
    Price::from_units(read.amount, per, currency)
        .map_err(|_| {
            row.out_of_range(
                Severity::Doubtful,
                column.field,
                read.amount,
                "a price above 0",
            )
        })
        .ok()
}

/// Price breaks by rising quantity; columns without a quantity are not breaks.
fn breaks(row: &mut RowReader<'_, '_>, discount_share: Option<f64>) -> Vec<PriceBreak> {
    let table = row.table;
    let mut breaks: Vec<PriceBreak> = Vec::new();
    let applies = !table.has(Field::Price) && table.has(Field::Discount);
    // List prices without their discount would be prices that nobody pays.
    if applies && discount_share.is_none() && row.cell(Field::Discount) != Cell::Empty {
        return breaks;
    }
    for column in table.columns_of(Field::PriceFrom) {
        let Some(from_quantity) = column.states.from_quantity else {
            continue;
        };
        if let Some(price) = price_in(row, column) {
            let price = if applies {
                price.less(discount_share.unwrap_or(0.0))
            } else {
                price
            };
            breaks.push(PriceBreak {
                from_quantity,
                price,
            });
        }
    }
    breaks.sort_by(|a, b| a.from_quantity.total_cmp(&b.from_quantity));
    if breaks.windows(2).any(rises) {
        tell_order(row, &breaks);
        return Vec::new();
    }
    breaks
}

/// True, with an issue, where the first break above the quantity that the plain price holds from is dearer than it.
fn is_a_break_dearer(
    row: &mut RowReader<'_, '_>,
    price: Option<Price>,
    step: Option<f64>,
    breaks: &[PriceBreak],
) -> bool {
    let from_quantity = step.unwrap_or(1.0);
    let above = |of: &&PriceBreak| of.from_quantity > from_quantity;
    let Some((price, first)) = price.zip(breaks.iter().find(above)) else {
        return false;
    };
    let plain = PriceBreak {
        from_quantity,
        price,
    };
    let pair = [plain, *first];
    let is_dearer = rises(&pair);
    if is_dearer {
        tell_order(row, &pair);
    }
    is_dearer
}

/// True where the second of two breaks is dearer than the first.
fn rises(pair: &[PriceBreak]) -> bool {
    let [fewer, more] = pair else {
        return false;
    };
    fewer.price.currency == more.price.currency
        && more.price.unit_price() > fewer.price.unit_price() + 1e-9
}

fn tell_order(row: &mut RowReader<'_, '_>, breaks: &[PriceBreak]) {
    let found: Vec<String> = breaks
        .iter()
        .map(|b| format!("from {} {}", b.from_quantity, b.price.unit_price()))
        .collect();
    let problem = Problem::BreaksOutOfOrder {
        found: found.join(", "),
    };
    row.issue(Severity::Doubtful, Some(Field::PriceFrom), problem);
}

/// The faster delivery, where its lead time is said; a surcharge that is not said is asked for when it is planned with.
fn expedite(row: &mut RowReader<'_, '_>) -> Vec<Expedite> {
    // A surcharge for no delivery says nothing, and its column is told as not read.
    if !row.table.has(Field::ExpediteLeadTime) {
        return Vec::new();
    }
    let lead_time = row.lead_time(Field::ExpediteLeadTime);
    let surcharge = row.money(Field::ExpediteSurcharge);
    if let Some(lead_time) = lead_time {
        return vec![Expedite {
            lead_time,
            surcharge,
        }];
    }
    let both = row.both(
        (lead_time, Field::ExpediteLeadTime),
        (surcharge, Field::ExpediteSurcharge),
        "faster delivery",
    );
    both.map(|(lead_time, surcharge)| Expedite {
        lead_time,
        surcharge: Some(surcharge),
    })
    .into_iter()
    .collect()
}
