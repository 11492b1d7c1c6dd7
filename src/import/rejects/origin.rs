//! How a table was read, in a form that a workbook of rejects carries along.

use chrono::NaiveDate;

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::grid::Grid;
use crate::import::row::{InchDoubt, ReadColumn, TableContext};
use crate::import::stated::Stated;
use crate::import::value::{DecimalSign, LeadTimeUnit};
use crate::record::{DateOrder, TableKind};
use crate::units::{Currency, LengthUnit};

use super::{ORIGINS_SHEET, REJECTS_MARK};

/// A table as it was read.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct TableOrigin {
    /// File it was read from.
    pub file: String,
    /// Its sheet; empty for text files.
    pub sheet: String,
    /// SHA-256 of the file, by which an edition is told from the next one of the same name.
    #[serde(default)]
    pub sha256: Option<String>,
    /// Kind.
    pub kind: TableKind,
    /// Unit of lengths where neither cell nor header names one.
    pub unit: LengthUnit,
    /// Supplier of the whole list.
    pub supplier: Option<String>,
    /// Date of the whole list.
    pub dated: Option<NaiveDate>,
    /// Last day of the offers of the whole list.
    #[serde(default)]
    pub valid_until: Option<NaiveDate>,
    /// Lead time of the whole list, as printed.
    #[serde(default)]
    pub list_lead_time: Option<String>,
    /// Discount on the list prices of the whole list.
    #[serde(default)]
    pub list_discount_share: Option<f64>,
    /// Kit of the whole list.
    pub kit: Option<String>,
    /// Machine of the whole list.
    pub machine: Option<String>,
    /// What the lines above the table state.
    pub states: StatedOrigin,
    /// Rows that were standard sizes only in inches, and rows looked at.
    pub inch_doubt: Option<(usize, usize)>,
    /// Columns that were read.
    pub columns: Vec<ColumnOrigin>,
}

/// A column as it was read.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct ColumnOrigin {
    /// Position from 0.
    pub index: u32,
    /// Header as printed.
    pub header: String,
    /// What it holds.
    pub field: Field,
    /// What the header states besides.
    pub states: StatedOrigin,
    /// Decimal sign that the column proved; `true` for a comma.
    pub is_comma: Option<bool>,
    /// Order of day and month that the column proved; `true` for the month first.
    pub is_month_first: Option<bool>,
    /// True where the column proved the year first.
    #[serde(default)]
    pub is_year_first: bool,
    /// True where a date among the lead times of the column is a stray one.
    pub is_date_stray: bool,
}

/// Units and conditions stated in a header or above a table.
#[derive(Debug, Clone, Default, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(default)]
pub struct StatedOrigin {
    /// Unit of length.
    pub length: Option<LengthUnit>,
    /// Unit of a lead time or of hours.
    pub time: Option<LeadTimeUnit>,
    /// Currency by its code.
    pub currency: Option<String>,
    /// Price for so many.
    pub per: Option<u32>,
    /// Least quantity of a price break.
    pub from_quantity: Option<f64>,
    /// Includes value added tax.
    pub is_with_tax: bool,
    /// Says to be without value added tax.
    pub is_without_tax: bool,
    /// Rate of the tax that is included, as a share of the net price.
    pub tax_share: Option<f64>,
    /// Gross, in a sense that no word of tax settles.
    pub is_gross: bool,
    /// A share in percent.
    pub is_percent: bool,
}

impl TableOrigin {
    /// Notes how a table was read.
    pub(super) fn of(context: &TableContext<'_>, headers: impl Fn(u32) -> String) -> Self {
        Self {
            file: context.grid.file.to_string(),
            sheet: context.grid.sheet.to_string(),
            sha256: None,
            kind: context.kind,
            unit: context.unit,
            supplier: context.supplier.clone(),
            dated: context.dated,
            valid_until: context.title.valid_until,
            list_lead_time: context.title.terms.lead_time.clone(),
            list_discount_share: context.title.terms.discount_share,
            kit: context.title.kit.clone(),
            machine: context.title.machine.clone(),
            states: StatedOrigin::of(context.title.states),
            inch_doubt: context
                .inch_doubt
                .map(|doubt| (doubt.in_inches, doubt.rows)),
            columns: context
                .columns
                .iter()
                .map(|column| ColumnOrigin::of(column, headers(column.index)))
                .collect(),
        }
    }

    /// Gives a table that is read again what its rows alone do not prove.
    pub fn restore(&self, context: &mut TableContext<'_>) {
        context.unit = self.unit;
        context.supplier.clone_from(&self.supplier);
        context.dated = self.dated;
        context.inch_doubt = self
            .inch_doubt
            .map(|(in_inches, rows)| InchDoubt { in_inches, rows });
        for column in &mut context.columns {
            let Some(origin) = self
                .columns
                .iter()
                .find(|origin| origin.field == column.field && origin.index == column.index)
            else {
                continue;
            };
            let decimal = origin.is_comma.map(|is_comma| {
                if is_comma {
                    DecimalSign::Comma
                } else {
                    DecimalSign::Point
                }
            });
            column.decimal = decimal.or(column.decimal);
            column.order = origin.is_month_first.map(|is_first| {
                if origin.is_year_first {
                    DateOrder::Ymd
                } else if is_first {
                    DateOrder::Mdy
                } else {
                    DateOrder::Dmy
                }
            });
            column.is_date_stray = origin.is_date_stray;
        }
    }
}

impl ColumnOrigin {
    fn of(column: &ReadColumn, header: String) -> Self {
        Self {
            index: column.index,
            header,
            field: column.field,
            states: StatedOrigin::of(column.states),
            is_comma: column.decimal.map(|sign| sign == DecimalSign::Comma),
            is_month_first: column.order.map(|order| order == DateOrder::Mdy),
            is_year_first: column.order == Some(DateOrder::Ymd),
            is_date_stray: column.is_date_stray,
        }
    }
}

impl StatedOrigin {
    fn of(states: Stated) -> Self {
        Self {
            length: states.length,
            time: states.time,
            currency: states.currency.map(|currency| currency.code().to_owned()),
            per: states.per,
            from_quantity: states.from_quantity,
            is_with_tax: states.is_with_tax,
            is_without_tax: states.is_without_tax,
            tax_share: states.tax_share,
            is_gross: states.is_gross,
            is_percent: states.is_percent,
        }
    }

    /// What was stated; a currency code that someone spoilt is left out.
    pub fn to_stated(&self) -> Stated {
        Stated {
            length: self.length,
            time: self.time,
            currency: self
                .currency
                .as_deref()
                .and_then(|code| Currency::new(code).ok()),
            per: self.per,
            from_quantity: self.from_quantity,
            is_with_tax: self.is_with_tax,
            is_without_tax: self.is_without_tax,
            tax_share: self.tax_share,
            is_gross: self.is_gross,
            is_percent: self.is_percent,
        }
    }
}

/// True for the sheets of a workbook of rejects.
pub fn is_rejects(grids: &[Grid]) -> bool {
    origins_sheet(grids).is_some()
}

/// The hidden sheet that says how the others are read.
pub fn origins_sheet(grids: &[Grid]) -> Option<&Grid> {
    grids.iter().find(|grid| {
        &*grid.sheet == ORIGINS_SHEET
            && matches!(grid.cell(0, 0), Cell::Text(text) if text == REJECTS_MARK)
    })
}
