//! What is made, repaired or fetched for planned rebuilds instead of ordered, and by when it must be begun.

use super::Inputs;
use super::order_basis::in_words;
use super::words::{asked_for, designation, line_name, money, number, way};
use crate::plan::{MadeInstead, Timing};
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, Value};
use crate::units::without_rounding_residue;

/// Key of this sheet.
pub const KEY: &str = "made_instead";

/// Its name, for sheets that send a reader here.
pub const TITLE: &str = "Made instead of ordered";

/// The sheet, one row per line of a planned rebuild and way.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let currency = inputs.shop.settings.currency;
    let code = currency.code().to_ascii_lowercase();
    let question = "What is made, repaired or fetched for a rebuild, not ordered, and by when must it be begun?";
    let mut sheet = Sheet::new(KEY, TITLE, question);
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("number", "Part"),
        Column::text("designation", "Designation").wrapped(24),
        Column::new(ColumnKind::Quantity, "quantity", "Quantity"),
        Column::text("unit_of_count", "Unit"),
        Column::text("how", "How").wrapped(20),
        Column::new(ColumnKind::Money(currency), format!("cost_{code}"), "Cost"),
        Column::new(ColumnKind::Date, "begin_by", "Begin by")
            .with_help("The last day on which even the late case is there in time."),
        Column::new(ColumnKind::Date, "needed_by", "Needed by"),
        Column::new(ColumnKind::Moment, "here_likely", "Here, likely"),
        Column::new(ColumnKind::Moment, "here_fairly", "Here, four of five"),
        Column::new(ColumnKind::Moment, "here_late", "Here, late (1 in 10)"),
        Column::text("rests_on", "Dates rest on").wrapped(40),
        Column::text("instead_of", "Instead of").wrapped(30),
        Column::text("why", "Why").wrapped(44),
    ];
    let made = inputs.plan.reorder.made.iter();
    sheet.rows = made.map(|of| row(inputs, of)).collect();
    if !sheet.rows.is_empty() {
        sheet.notes = vec![
            "Dates hold if it is begun now. A way is weighed as an offer is: in time before late, then by its cost.".to_owned(),
            "The stock level is kept by orders as before; what is made here is for the rebuild alone.".to_owned(),
        ];
    }
    sheet.empty_text = "Nothing is made, repaired or fetched in place of an order.".to_owned();
    sheet
}

/// What must be begun today, or is late already.
pub(super) fn due<'a>(inputs: &Inputs<'a>) -> impl Iterator<Item = &'a MadeInstead> {
    let today = inputs.shop.as_of.date();
    let made = inputs.plan.reorder.made.iter();
    made.filter(move |of| of.begin_by <= today)
}

fn row(inputs: &Inputs<'_>, made: &MadeInstead) -> Row {
    let shop = inputs.shop;
    let need = inputs.plan.needs.get(made.need);
    let line = need.map(|need| &shop.kits[need.kit].lines[need.line]);
    let words = line.map_or(Value::Empty, |line| Value::text(asked_for(shop, line)));
    let why = need.zip(line).map(|(need, line)| {
        format!(
            "Rebuild on {} needs {}, {} missing: {}.",
            need.date,
            without_rounding_residue(need.needed),
            without_rounding_residue(need.short),
            line_name(line)
        )
    });
    let instead_of = made.instead_of.as_ref();
    let cells = vec![
        made.part
            .map_or(Value::Empty, |part| Value::text(number(shop, part))),
        made.part.map_or(words, |part| designation(shop, part)),
        Value::Number(made.quantity),
        Value::text(made.unit.to_string()),
        Value::text(way(made.kind)),
        money(made.cost, "no cost in the table of other ways"),
        Value::Date(made.begin_by),
        Value::Date(made.needed_by),
        Value::Moment(made.arrival.likely),
        Value::Moment(made.arrival.fairly),
        Value::Moment(made.arrival.late),
        Value::text(made.arrival.basis.to_string()),
        Value::text(instead_of.map_or_else(
            || "no usable offer".to_owned(),
            |choice| in_words(inputs, choice, made.part),
        )),
        why.map_or(Value::Empty, Value::text),
    ];
    let is_due = made.begin_by <= shop.as_of.date();
    Row::new(cells).with(match made.timing {
        Timing::TooLate => Emphasis::Stop,
        Timing::LikelyInTime => Emphasis::Attention,
        Timing::InTime if is_due => Emphasis::Attention,
        Timing::InTime => Emphasis::None,
    })
}
