//! Formulas of a row: what a spreadsheet computes live, and the same reckoning here to check the figure.

use super::column::ColumnKind;
use super::sheet::{Row, Sheet};
use super::value::Value;

/// How a column follows from others of the same row, named by key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RowFormula {
    /// Both columns multiplied.
    Product(String, String),
    /// The first two columns multiplied, and the third added.
    ProductPlus(String, String, String),
    /// The first less the second.
    Difference(String, String),
    /// All columns added up.
    Sum(Vec<String>),
    /// Amounts of another sheet added up over the rows that bear a name of this row.
    SumWhere(SumWhere),
}

/// Which rows of another sheet are added up: those whose name is that of this row, or begins with it and a comma
/// (`Supplier, by courier`).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SumWhere {
    /// Key of the other sheet.
    pub sheet: String,
    /// Its column of amounts.
    pub amounts: String,
    /// Its column of names.
    pub names: String,
    /// Column of this sheet that holds the name looked for.
    pub name: String,
}

impl RowFormula {
    /// Quantity times price and the like.
    pub fn product(left: impl Into<String>, right: impl Into<String>) -> Self {
        Self::Product(left.into(), right.into())
    }

    /// Quantity times price, and what is added whatever the quantity.
    pub fn product_plus(
        left: impl Into<String>,
        right: impl Into<String>,
        plus: impl Into<String>,
    ) -> Self {
        Self::ProductPlus(left.into(), right.into(), plus.into())
    }

    /// One column less another.
    pub fn difference(from: impl Into<String>, less: impl Into<String>) -> Self {
        Self::Difference(from.into(), less.into())
    }

    /// Keys of the columns of the row that the formula reads, in order.
    pub fn operands(&self) -> Vec<&str> {
        match self {
            Self::Product(left, right) | Self::Difference(left, right) => vec![left, right],
            Self::ProductPlus(left, right, plus) => vec![left, right, plus],
            Self::Sum(keys) => keys.iter().map(String::as_str).collect(),
            Self::SumWhere(of) => vec![&of.name],
        }
    }

    /// Says whether a column of this kind can be read by the formula.
    pub const fn reads(&self, kind: ColumnKind) -> bool {
        match self {
            Self::Product(..) | Self::ProductPlus(..) | Self::Difference(..) | Self::Sum(_) => {
                kind.is_number()
            }
            Self::SumWhere(_) => matches!(kind, ColumnKind::Text),
        }
    }

    /// What the formula gives for a row of `sheet`; `None` where an operand is not known. `sheets` are all of the report.
    ///
    /// Money is rounded to whole cents, half away from zero, as the spreadsheet's own ROUND does.
    pub fn result(
        &self,
        kind: ColumnKind,
        (sheet, row): (&Sheet, &Row),
        sheets: &[Sheet],
    ) -> Option<f64> {
        let exact = match self {
            Self::Product(..) => self.numbers(sheet, row)?.iter().product(),
            Self::ProductPlus(..) => {
                let numbers = self.numbers(sheet, row)?;
                numbers.iter().take(2).product::<f64>() + numbers.get(2)?
            }
            Self::Difference(..) => {
                let numbers = self.numbers(sheet, row)?;
                numbers.first()? - numbers.get(1)?
            }
            Self::Sum(_) => self.numbers(sheet, row)?.iter().sum(),
            Self::SumWhere(of) => {
                let name = row.cells.get(sheet.column_at(&of.name)?)?;
                of.sum(name, sheets.iter().find(|other| other.key == of.sheet)?)?
            }
        };
        Some(match kind {
            ColumnKind::Money(_) => round_cents(exact),
            _ => exact,
        })
    }

    fn numbers(&self, sheet: &Sheet, row: &Row) -> Option<Vec<f64>> {
        let numbers = self.operands().into_iter().map(|key| {
            let place = sheet.column_at(key)?;
            row.cells.get(place)?.as_number()
        });
        numbers.collect()
    }

    /// The formula as spreadsheet text, given the cells of the operands in order (`D7`, `E7`), and how a column of another
    /// sheet is written by sheet and key.
    pub fn in_cells(
        &self,
        kind: ColumnKind,
        cells: &[String],
        column_of: impl Fn(&str, &str) -> Option<String>,
    ) -> Option<String> {
        let body = match self {
            Self::Product(..) => cells.join("*"),
            Self::ProductPlus(..) => {
                let [left, right, plus] = cells else {
                    return None;
                };
                format!("{left}*{right}+{plus}")
            }
            Self::Difference(..) => cells.join("-"),
            Self::Sum(_) => format!("SUM({})", cells.join(",")),
            Self::SumWhere(of) => {
                let (names, amounts) = (
                    column_of(&of.sheet, &of.names)?,
                    column_of(&of.sheet, &of.amounts)?,
                );
                let name = cells.first()?;
                // No SUMIF: it would take signs in a name for wildcards and comparisons.
                format!(
                    "SUMPRODUCT(--({names}={name}),{amounts})+SUMPRODUCT(--(LEFT({names},LEN({name})+2)={name}&\", \"),{amounts})"
                )
            }
        };
        Some(match kind {
            ColumnKind::Money(_) => format!("=ROUND({body},2)"),
            _ => format!("={body}"),
        })
    }
}

impl SumWhere {
    /// The sum over the rows with this name; `None` where one of their amounts is unknown.
    fn sum(&self, name: &Value, other: &Sheet) -> Option<f64> {
        let Value::Text(name) = name else { return None };
        let (names, amounts) = (
            other.column_at(&self.names)?,
            other.column_at(&self.amounts)?,
        );
        let of_name = other.rows.iter().filter(|row| match row.cells.get(names) {
            Some(Value::Text(found)) => is_of_name(found, name),
            _ => false,
        });
        let amounts: Option<Vec<f64>> = of_name
            .map(|row| row.cells.get(amounts)?.as_number())
            .collect();
        Some(amounts?.iter().sum())
    }
}

/// True for the name itself and for what stands behind it and a comma; spreadsheets compare without regard to case.
fn is_of_name(found: &str, name: &str) -> bool {
    if found.is_ascii() && name.is_ascii() {
        // Every supplier looks at every line of a large order: no letter of these becomes two.
        let begins = found.as_bytes().get(..name.len());
        let is_it = begins.is_some_and(|begins| begins.eq_ignore_ascii_case(name.as_bytes()));
        return is_it && (found.len() == name.len() || found[name.len()..].starts_with(", "));
    }
    let mut found = found.chars().flat_map(char::to_lowercase);
    let name = name.chars().flat_map(char::to_lowercase);
    for letter in name {
        if found.next() != Some(letter) {
            return false;
        }
    }
    let mut rest = found.take(2);
    matches!(
        (rest.next(), rest.next()),
        (None, _) | (Some(','), Some(' '))
    )
}

fn round_cents(units: f64) -> f64 {
    (units * 100.0).round() / 100.0
}

#[cfg(test)]
mod tests {
    use super::super::column::Column;
    use super::*;
    use crate::units::{Currency, Money, Price};

    #[test]
    fn a_name_is_itself_in_any_case_or_stands_before_a_comma_and_a_blank() {
        for (found, name, is_it) in [
            ("Ost", "ost", true),
            ("OST, by courier", "ost", true),
            ("Ost,by courier", "ost", false),
            ("Ost,", "ost", false),
            ("Ostrelby", "ost", false),
            ("Os", "ost", false),
            ("", "", true),
            (", by courier", "", true),
            ("Ölmühle, by courier", "ÖLMÜHLE", true),
            ("Ölmühle", "Olmuhle", false),
            ("Olmuhle", "Ölmühle", false),
            ("Ölmühlen", "ölmühle", false),
            // One letter becomes two: a letter and the dot upon it.
            ("\u{130}zmir, by courier", "i\u{307}zmir", true),
            ("\u{130}zmir", "izmir", false),
            // Signs of a language that spreadsheets ask questions in.
            ("*", "O*", false),
            ("O?t", "Ost", false),
        ] {
            assert_eq!(is_of_name(found, name), is_it, "{found} {name}");
        }
    }

    #[test]
    fn a_line_costs_quantity_times_price_and_what_is_added_once() {
        let money = ColumnKind::Money(Currency::EUR);
        let mut sheet = Sheet::new("a", "A", "?");
        sheet.columns = vec![
            Column::new(ColumnKind::Quantity, "order", "Order"),
            Column::new(ColumnKind::UnitPrice(Currency::EUR), "price_eur", "Price"),
            Column::new(money, "surcharge_eur", "Surcharge"),
        ];
        let formula = RowFormula::product_plus("order", "price_eur", "surcharge_eur");
        let price = Price::from_units(1.5, 1, Currency::EUR).unwrap();
        let surcharge = Money::from_units(30.0, Currency::EUR).unwrap();
        let row = Row::new(vec![
            Value::Number(0.75),
            Value::Price(price),
            Value::Money(surcharge),
        ]);
        // By hand: 0.75 times 1.50 is 1.125, with 30.00 once 31.125, as money 31.13.
        let found = formula.result(money, (&sheet, &row), &[]).unwrap();
        assert!((found - 31.13).abs() < 1e-9, "{found}");
        let cells = ["D7", "E7", "F7"].map(str::to_owned);
        assert_eq!(
            formula.in_cells(money, &cells, |_, _| None).unwrap(),
            "=ROUND(D7*E7+F7,2)"
        );
    }

    #[test]
    fn a_product_with_an_unknown_side_has_no_result() {
        let money = ColumnKind::Money(Currency::EUR);
        let mut sheet = Sheet::new("a", "A", "?");
        sheet.columns = vec![
            Column::new(ColumnKind::Quantity, "order", "Order"),
            Column::new(ColumnKind::UnitPrice(Currency::EUR), "price_eur", "Price"),
        ];
        let formula = RowFormula::product("order", "price_eur");
        let price = Price::from_units(8.5, 1000, Currency::EUR).unwrap();
        let known = Row::new(vec![Value::Number(250.0), Value::Price(price)]);
        // 250 × 0.0085 = 2.125, half a cent goes up.
        assert_eq!(formula.result(money, (&sheet, &known), &[]), Some(2.13));
        let unknown = Row::new(vec![Value::unknown("no count"), Value::Price(price)]);
        assert_eq!(formula.result(money, (&sheet, &unknown), &[]), None);
        let cells = ["D7".to_owned(), "E7".to_owned()];
        let text = formula.in_cells(money, &cells, |_, _| None);
        assert_eq!(text.as_deref(), Some("=ROUND(D7*E7,2)"));
    }

    #[test]
    fn a_sum_over_another_sheet_takes_the_rows_of_its_name_only() {
        let kind = ColumnKind::Money(Currency::EUR);
        let euros = |cents| {
            Value::Money(Money {
                cents,
                currency: Currency::EUR,
            })
        };
        let mut lines = Sheet::new("lines", "Lines", "?");
        lines.columns = vec![
            Column::text("supplier", "Supplier"),
            Column::new(kind, "cost_eur", "Cost"),
        ];
        let names = ["Ost", "ost, by courier", "Ostrelby", "West", "*"];
        let rows = names.iter().zip([1, 2, 4, 8, 16]);
        lines.rows = rows
            .map(|(name, cents)| Row::new(vec![Value::text(*name), euros(cents)]))
            .collect();
        let formula = RowFormula::SumWhere(SumWhere {
            sheet: "lines".to_owned(),
            amounts: "cost_eur".to_owned(),
            names: "supplier".to_owned(),
            name: "who".to_owned(),
        });
        let mut orders = Sheet::new("orders", "Orders", "?");
        orders.columns = vec![Column::text("who", "Who")];
        let sum = |name: &str, lines: &Sheet| {
            let row = Row::new(vec![Value::text(name)]);
            formula.result(kind, (&orders, &row), std::slice::from_ref(lines))
        };
        assert_eq!(sum("Ost", &lines), Some(0.03));
        assert_eq!(sum("*", &lines), Some(0.16));
        assert_eq!(sum("Nord", &lines), Some(0.0));
        lines.rows[0].cells[1] = Value::unknown("no price");
        assert_eq!(sum("Ost", &lines), None);
    }
}
