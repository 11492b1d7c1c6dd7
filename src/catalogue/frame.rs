//! The shop's tables as data frames: written as Parquet for other tools, and grouped. The only home of polars.
//!
//! Columns carry their unit in their name. Dates are Parquet dates; what a table does not say is null.

#[cfg(feature = "streaming")]
pub mod streamed;

use std::fs::File;
use std::path::{Path, PathBuf};

use chrono::{Datelike, NaiveDate};
use polars::prelude::{
    Column, DataFrame, DataType, IntoColumn, NamedFrom, ParquetCompression, ParquetWriter,
    PolarsError, Series,
};

use super::part::PartId;
use super::shop::{Shop, UsageOf};
use super::usage::UsageOfYear;
use crate::part::Dimension;
use crate::units::Length;

/// Why a table could not be built or written.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum FrameError {
    /// The columns of a table do not go together.
    #[error("table `{table}` could not be built")]
    Build {
        /// The table.
        table: &'static str,
        /// The cause.
        #[source]
        cause: PolarsError,
    },
    /// The file could not be made.
    #[error("{} could not be written", path.display())]
    Create {
        /// The file.
        path: PathBuf,
        /// The cause.
        #[source]
        cause: std::io::Error,
    },
}

/// Sums usages by part and calendar year, by rising part and year; one of a day that is still to come is no usage.
///
/// # Errors
/// [`FrameError::Build`] if the grouping fails.
pub fn usage_by_year(shop: &Shop) -> Result<Vec<UsageOfYear>, FrameError> {
    let fail = |cause| FrameError::Build {
        table: "usages",
        cause,
    };
    let today = shop.as_of.date();
    let past = shop
        .usages
        .iter()
        .filter(|usage| usage.record.date <= today);
    let grouped = sum_by_part_and_year(&usages(past).map_err(fail)?).map_err(fail)?;
    let column = |name: &str| grouped.column(name).map_err(fail);
    let (parts, years) = (column("part_id")?, column("year")?);
    let sums = column("quantity_sum")?;
    let (parts, years) = (parts.u32().map_err(fail)?, years.i32().map_err(fail)?);
    let mut all: Vec<UsageOfYear> = parts
        .iter()
        .zip(years.iter())
        .zip(sums.f64().map_err(fail)?.iter())
        .filter_map(|((part, year), sum)| {
            Some(UsageOfYear {
                part: PartId(part?),
                year: year?,
                quantity: sum?,
            })
        })
        .collect();
    all.sort_by_key(|usage| (usage.part, usage.year));
    Ok(all)
}

#[expect(
    deprecated,
    reason = "the lazy engine would add minutes to every first build for this one sum"
)]
fn sum_by_part_and_year(usages: &DataFrame) -> Result<DataFrame, PolarsError> {
    usages
        .group_by_stable(["part_id", "year"])?
        .select(["quantity"])
        .sum()
}

/// Writes parts, offers, stock, usages and receipts as Parquet files into an existing folder; returns their paths.
///
/// # Errors
/// [`FrameError`] naming the table or the file.
pub fn write_tables(shop: &Shop, folder: &Path) -> Result<Vec<PathBuf>, FrameError> {
    type Build = fn(&Shop) -> Result<DataFrame, PolarsError>;
    const TABLES: [(&str, Build); 5] = [
        ("parts", parts),
        ("offers", offers),
        ("stock", stock),
        ("usages", |shop| usages(shop.usages.iter())),
        ("receipts", receipts),
    ];
    let mut paths = Vec::new();
    for (table, build) in TABLES {
        let fail = |cause| FrameError::Build { table, cause };
        let path = folder.join(format!("{table}.parquet"));
        let file = File::create(&path).map_err(|cause| FrameError::Create {
            path: path.clone(),
            cause,
        })?;
        let mut frame = build(shop).map_err(fail)?;
        ParquetWriter::new(file)
            .with_compression(ParquetCompression::Zstd(None))
            .finish(&mut frame)
            .map_err(fail)?;
        paths.push(path);
    }
    Ok(paths)
}

/// `part_id`, `number`, `is_own`, `designation`, `description`, `family`, one column per key dimension in mm,
/// `closure`, `clearance`, `tolerance_class`, `material`, `first_file`, `first_sheet`, `first_row`.
fn parts(shop: &Shop) -> Result<DataFrame, PolarsError> {
    const DIMENSIONS: [Dimension; 17] = [
        Dimension::Bore,
        Dimension::OutsideDiameter,
        Dimension::Width,
        Dimension::AssembledWidth,
        Dimension::HousingWasherBore,
        Dimension::Height,
        Dimension::InnerRacewayDiameter,
        Dimension::OuterRacewayDiameter,
        Dimension::CageOutsideDiameter,
        Dimension::ShaftDiameter,
        Dimension::HousingBore,
        Dimension::InsideDiameter,
        Dimension::Section,
        Dimension::ThreadDiameter,
        Dimension::ThreadPitch,
        Dimension::PinDiameter,
        Dimension::Length,
    ];
    let parts = shop.catalogue.parts();
    let text = |name: &str, of: &dyn Fn(&super::part::CataloguePart) -> Option<String>| {
        Series::new(name.into(), parts.iter().map(of).collect::<Vec<_>>()).into_column()
    };
    let place = |of: fn(&crate::place::Place) -> String| {
        move |part: &super::part::CataloguePart| part.places.first().map(of)
    };
    let mut columns = vec![
        Series::new(
            "part_id".into(),
            parts.iter().map(|part| part.id.0).collect::<Vec<_>>(),
        )
        .into_column(),
        text("number", &|part| Some(part.number.clone())),
        Series::new(
            "is_own".into(),
            parts.iter().map(|part| part.is_own).collect::<Vec<_>>(),
        )
        .into_column(),
        text("designation", &|part| part.designation.clone()),
        text("description", &|part| part.description.clone()),
        text("family", &|part| {
            part.family.map(|family| family.code().to_owned())
        }),
    ];
    for dimension in DIMENSIONS {
        let of = |part: &super::part::CataloguePart| part.size?.get(dimension).map(Length::to_mm);
        columns.push(
            Series::new(
                dimension.field().into(),
                parts.iter().map(of).collect::<Vec<_>>(),
            )
            .into_column(),
        );
    }
    columns.extend([
        text("closure", &|part| {
            part.traits.closure.map(|value| value.to_string())
        }),
        text("clearance", &|part| {
            part.traits.clearance.map(|value| value.to_string())
        }),
        text("tolerance_class", &|part| {
            part.traits.tolerance_class.map(|value| value.to_string())
        }),
        text("material", &|part| part.traits.material.clone()),
        text("first_file", &place(|place| place.file.to_string())),
        text("first_sheet", &place(|place| place.sheet.to_string())),
        text("first_row", &place(|place| (place.row + 1).to_string())),
    ]);
    DataFrame::new_infer_height(columns)
}

/// `part_id`, `supplier`, `unit_price`, `currency`, `unit_of_count`, `minimum_quantity`, `pack_quantity`,
/// `quantity_available`, `lead_time` (as quoted), `quote_date`, `valid_until`.
fn offers(shop: &Shop) -> Result<DataFrame, PolarsError> {
    let offers = &shop.offers;
    let records: Vec<_> = offers.iter().map(|offer| &offer.record).collect();
    let each = |name: &str, of: &dyn Fn(&crate::record::OfferRecord) -> Option<String>| {
        Series::new(
            name.into(),
            records.iter().map(|record| of(record)).collect::<Vec<_>>(),
        )
        .into_column()
    };
    let number = |name: &str, of: fn(&crate::record::OfferRecord) -> Option<f64>| {
        Series::new(
            name.into(),
            records.iter().map(|record| of(record)).collect::<Vec<_>>(),
        )
        .into_column()
    };
    DataFrame::new_infer_height(vec![
        part_ids(offers.iter().map(|offer| Some(offer.part))),
        each("supplier", &|record| Some(record.supplier.to_string())),
        number("unit_price", |record| {
            record.price.map(|price| price.unit_price())
        }),
        each("currency", &|record| {
            record.price.map(|price| price.currency.to_string())
        }),
        each("unit_of_count", &|record| {
            record.unit_of_count.map(|unit| unit.to_string())
        }),
        number("minimum_quantity", |record| record.minimum_quantity),
        number("pack_quantity", |record| record.pack_quantity),
        number("quantity_available", |record| record.quantity_available),
        each("lead_time", &|record| {
            record.lead_time.map(|lead_time| lead_time.to_string())
        }),
        dates("quote_date", records.iter().map(|record| record.quote_date))?,
        dates(
            "valid_until",
            records.iter().map(|record| record.valid_until),
        )?,
    ])
}

/// `part_id`, `bin`, `lot`, `cure_date`, `on_hand`, `reserved`, `on_order`, `due_date`, `unit_of_count`.
fn stock(shop: &Shop) -> Result<DataFrame, PolarsError> {
    let records: Vec<_> = shop.stock.iter().map(|stock| &stock.record).collect();
    let numbers = |name: &str, of: fn(&crate::record::StockRecord) -> Option<f64>| {
        Series::new(
            name.into(),
            records.iter().map(|record| of(record)).collect::<Vec<_>>(),
        )
        .into_column()
    };
    let texts = |name: &str, of: fn(&crate::record::StockRecord) -> Option<String>| {
        Series::new(
            name.into(),
            records.iter().map(|record| of(record)).collect::<Vec<_>>(),
        )
        .into_column()
    };
    DataFrame::new_infer_height(vec![
        part_ids(shop.stock.iter().map(|stock| Some(stock.part))),
        texts("bin", |record| record.bin.clone()),
        texts("lot", |record| record.lot.clone()),
        dates("cure_date", records.iter().map(|record| record.cure_date))?,
        numbers("on_hand", |record| record.on_hand),
        numbers("reserved", |record| record.reserved),
        numbers("on_order", |record| record.on_order),
        dates("due_date", records.iter().map(|record| record.due_date))?,
        texts("unit_of_count", |record| {
            record.unit_of_count.map(|unit| unit.to_string())
        }),
    ])
}

/// `part_id`, `date`, `year`, `quantity` (returns negative), `machine`.
fn usages<'s>(usages: impl Iterator<Item = &'s UsageOf>) -> Result<DataFrame, PolarsError> {
    let usages: Vec<&UsageOf> = usages.collect();
    let years: Vec<i32> = (usages.iter())
        .map(|usage| usage.record.date.year())
        .collect();
    let quantities: Vec<f64> = (usages.iter()).map(|usage| usage.record.quantity).collect();
    let machines: Vec<Option<&str>> = (usages.iter())
        .map(|usage| usage.record.machine.as_deref())
        .collect();
    DataFrame::new_infer_height(vec![
        part_ids(usages.iter().map(|usage| Some(usage.part))),
        dates("date", usages.iter().map(|usage| Some(usage.record.date)))?,
        Series::new("year".into(), years).into_column(),
        Series::new("quantity".into(), quantities).into_column(),
        Series::new("machine".into(), machines).into_column(),
    ])
}

/// `part_id` (null where the part is in no other table), `supplier`, `ordered`, `promised`, `received`, `quantity`.
fn receipts(shop: &Shop) -> Result<DataFrame, PolarsError> {
    let records: Vec<_> = shop
        .receipts
        .iter()
        .map(|receipt| &receipt.record)
        .collect();
    let suppliers: Vec<&str> = records.iter().map(|record| &*record.supplier).collect();
    DataFrame::new_infer_height(vec![
        part_ids(shop.receipts.iter().map(|receipt| receipt.part)),
        Series::new("supplier".into(), suppliers).into_column(),
        dates("ordered", records.iter().map(|record| Some(record.ordered)))?,
        dates("promised", records.iter().map(|record| record.promised))?,
        dates("received", records.iter().map(|record| record.received))?,
        Series::new(
            "quantity".into(),
            records
                .iter()
                .map(|record| record.quantity)
                .collect::<Vec<_>>(),
        )
        .into_column(),
    ])
}

fn part_ids(parts: impl Iterator<Item = Option<PartId>>) -> Column {
    Series::new(
        "part_id".into(),
        parts.map(|part| part.map(|id| id.0)).collect::<Vec<_>>(),
    )
    .into_column()
}

/// Days since 1970-01-01, the form of a Parquet date.
fn dates(
    name: &str,
    dates: impl Iterator<Item = Option<NaiveDate>>,
) -> Result<Column, PolarsError> {
    let epoch = NaiveDate::default();
    let days =
        dates.map(|date| date.map(|date| date.signed_duration_since(epoch).num_days() as i32));
    Ok(Series::new(name.into(), days.collect::<Vec<_>>())
        .cast(&DataType::Date)?
        .into_column())
}
