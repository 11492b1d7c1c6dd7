//! Formulas within a row: what a spreadsheet computes live, and the same reckoning here to check the figure.

use super::column::{Column, ColumnKind};
use super::sheet::Row;

/// How a column follows from others of the same row, named by key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RowFormula {
    /// Both columns multiplied.
    Product(String, String),
    /// The first less the second.
    Difference(String, String),
    /// All columns added up.
    Sum(Vec<String>),
}

impl RowFormula {
    /// Quantity times price and the like.
    pub fn product(left: impl Into<String>, right: impl Into<String>) -> Self {
        Self::Product(left.into(), right.into())
    }

    /// One column less another.
    pub fn difference(from: impl Into<String>, less: impl Into<String>) -> Self {
        Self::Difference(from.into(), less.into())
    }

    /// Keys of the columns that the formula reads, in order.
    pub fn operands(&self) -> Vec<&str> {
        match self {
            Self::Product(left, right) | Self::Difference(left, right) => vec![left, right],
            Self::Sum(keys) => keys.iter().map(String::as_str).collect(),
        }
    }

    /// What the formula gives for a row; `None` where an operand is not known.
    ///
    /// Money is rounded to whole cents, half away from zero, as the spreadsheet's own ROUND does.
    pub fn result(&self, kind: ColumnKind, columns: &[Column], row: &Row) -> Option<f64> {
        let numbers: Option<Vec<f64>> = self
            .operands()
            .iter()
            .map(|key| {
                let place = columns.iter().position(|column| column.key == *key)?;
                row.cells.get(place)?.as_number()
            })
            .collect();
        let numbers = numbers?;
        let exact = match self {
            Self::Product(..) => numbers.iter().product(),
            Self::Difference(..) => numbers.first()? - numbers.get(1)?,
            Self::Sum(_) => numbers.iter().sum(),
        };
        Some(match kind {
            ColumnKind::Money(_) => round_cents(exact),
            _ => exact,
        })
    }

    /// The formula as spreadsheet text, given the cells of the operands in order (`D7`, `E7`).
    pub fn in_cells(&self, kind: ColumnKind, cells: &[String]) -> String {
        let body = match self {
            Self::Product(..) => cells.join("*"),
            Self::Difference(..) => cells.join("-"),
            Self::Sum(_) => format!("SUM({})", cells.join(",")),
        };
        match kind {
            ColumnKind::Money(_) => format!("=ROUND({body},2)"),
            _ => format!("={body}"),
        }
    }
}

fn round_cents(units: f64) -> f64 {
    (units * 100.0).round() / 100.0
}

#[cfg(test)]
mod tests {
    use super::super::value::Value;
    use super::*;
    use crate::units::{Currency, Price};

    #[test]
    fn a_product_with_an_unknown_side_has_no_result() {
        let money = ColumnKind::Money(Currency::EUR);
        let columns = [
            Column::new(ColumnKind::Quantity, "order", "Order"),
            Column::new(ColumnKind::UnitPrice(Currency::EUR), "price_eur", "Price"),
        ];
        let formula = RowFormula::product("order", "price_eur");
        let price = Price::from_units(8.5, 1000, Currency::EUR).unwrap();
        let known = Row::new(vec![Value::Number(250.0), Value::Price(price)]);
        // 250 × 0.0085 = 2.125, half a cent goes up.
        assert_eq!(formula.result(money, &columns, &known), Some(2.13));
        let unknown = Row::new(vec![Value::unknown("no count"), Value::Price(price)]);
        assert_eq!(formula.result(money, &columns, &unknown), None);
        let cells = ["D7".to_owned(), "E7".to_owned()];
        assert_eq!(formula.in_cells(money, &cells), "=ROUND(D7*E7,2)");
    }
}
