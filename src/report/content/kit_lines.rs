//! Every line of every kit: needed, on the shelf, short, where from and when.

use super::Inputs;
use super::kits::NO_END;
use super::open_lines::{OpenCause, cause};
use super::words::{
    against_the_rules, asked_for, checks_of, cross_checked, designation, is_stock_unknown, number,
    supply,
};
use crate::catalogue::{KitLineOf, Shop};
use crate::interchange::{Accepted, AcceptedBecause};
use crate::plan::{KitPlan, LinePlan, Source, Supply};
use crate::report::model::{Chart, Column, ColumnKind, Emphasis, Picture, Row, Sheet, Value};
use crate::units::Currency;

/// Kits that are drawn; nobody leafs through more, and a chart looks through all rows of the sheet.
const MOST_CHARTS: usize = 50;

/// The sheet, one row per line of a kit.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        "kit_lines",
        "Kit lines",
        "What does each rebuild need, and when is it here?",
    );
    sheet.has_marks = true;
    sheet.columns = columns(inputs.shop.settings.currency);
    for plan in &inputs.plan.kits {
        sheet.rows.extend(
            plan.accepted
                .lines
                .iter()
                .map(|line| row(inputs, plan, line)),
        );
        let lines = inputs.shop.kits[plan.kit].lines.iter();
        let unread = lines.filter(|of| of.record.quantity.is_none());
        let width = sheet.columns.len();
        (sheet.rows).extend(unread.map(|line| unread_row(inputs, line, width)));
    }
    let waiting = inputs
        .plan
        .kits
        .iter()
        .filter(|plan| plan.accepted.lines.iter().any(|line| line.short > 0.0));
    let charts: Vec<Chart> = waiting
        .map(|plan| arrivals(&inputs.shop.kits[plan.kit].name))
        .collect();
    if charts.len() <= MOST_CHARTS {
        sheet.charts = charts;
    } else {
        sheet.notes.push(format!(
            "{} kits wait for parts: too many to draw them here. The command `kit` and the local page draw one kit.",
            charts.len()
        ));
    }
    sheet.empty_text = "No kit lines in any table.".to_owned();
    sheet
}

fn columns(currency: Currency) -> Vec<Column> {
    let code = currency.code().to_ascii_lowercase();
    vec![
        Column::text("kit", "Kit").wrapped(30),
        Column::text("line", "Line"),
        Column::text("asks_for", "Asks for").wrapped(34),
        Column::text("designation", "Designation").wrapped(24),
        Column::text("size_checked", "Size cross-checked")
            .with_help("A three or more open sources, B two, C one, D from memory."),
        Column::new(ColumnKind::Quantity, "needed", "Needed"),
        Column::new(ColumnKind::Quantity, "on_shelf", "On the shelf"),
        Column::new(ColumnKind::Quantity, "short", "Short"),
        Column::text("unit_of_count", "Unit"),
        Column::text("from", "Where from").wrapped(40),
        Column::new(ColumnKind::Moment, "here_likely", "Here, likely"),
        Column::new(ColumnKind::Moment, "here_fairly", "Here, four of five"),
        Column::new(ColumnKind::Moment, "here_late", "Here, late (1 in 10)"),
        Column::text("rests_on", "Dates rest on").wrapped(26),
        Column::new(
            ColumnKind::Hours,
            "holds_down_h",
            "Machine down for this line alone",
        ),
        Column::new(ColumnKind::Share, "last_share", "Is the last in")
            .with_help("Share of cases in which this line is the last to let the machine run."),
        Column::new(
            ColumnKind::Share,
            "last_together_share",
            "Is the last in, all lines late together",
        ),
        Column::new(
            ColumnKind::Hours,
            "shelf_saves_h",
            "On the shelf it would save",
        )
        .with_help("Production hours on the average: what hurrying the line is worth at most."),
        Column::new(
            ColumnKind::Money(currency),
            format!("shelf_saves_{code}"),
            "Cost of these hours",
        ),
        Column::new(
            ColumnKind::Hours,
            "shelf_saves_together_h",
            "On the shelf it would save, all lines late together",
        ),
        Column::text("next_best", "Next best").wrapped(36),
        Column::new(
            ColumnKind::Money(currency),
            format!("next_best_dearer_{code}"),
            "Next best costs more",
        )
        .with_help("Expected cost of purchases and downtime above that of the plan."),
        Column::text("accepted", "May be fitted").wrapped(40),
        Column::new(ColumnKind::Flag, "no_substitutes", "No substitutes"),
        Column::text("task", "Needed for"),
        Column::text("note", "Note").wrapped(34),
    ]
}

/// Bands of the lines that a kit waits for, from the likely to the late arrival.
fn arrivals(kit: &str) -> Chart {
    Chart::of(
        format!("When the lines of {kit} are here"),
        "Each band begins at the likely arrival and ends at the late one (1 in 10); the line that ends last holds the kit.",
        Picture::Bands {
            names: "asks_for".to_owned(),
            from: "here_likely".to_owned(),
            to: "here_late".to_owned(),
            only: Some(("kit".to_owned(), kit.to_owned())),
        },
    )
}

/// A line of which nobody can say how many it needs: it stays on the sheet, without figures.
fn unread_row(inputs: &Inputs<'_>, line: &KitLineOf, width: usize) -> Row {
    let why = OpenCause::Quantity.reason();
    let mut cells = vec![
        Value::text(line.record.kit.clone()),
        Value::text(line.record.line.clone()),
        Value::text(asked_for(inputs.shop, line)),
        line.part
            .map_or(Value::Empty, |part| designation(inputs.shop, part)),
        line.part
            .map_or(Value::Empty, |part| cross_checked(inputs.shop, part)),
        Value::unknown(why),
        Value::unknown(why),
        Value::unknown(why),
        Value::unknown(why),
        Value::Empty,
        Value::unknown(why),
        Value::unknown(why),
        Value::unknown(why),
    ];
    cells.resize(width, Value::Empty);
    Row::new(cells).with(Emphasis::Stop)
}

fn row(inputs: &Inputs<'_>, of_kit: &KitPlan, plan: &LinePlan) -> Row {
    let shop = inputs.shop;
    let kit = of_kit.kit;
    let line = &shop.kits[kit].lines[plan.line];
    let unknown = || Value::unknown(cause(inputs, kit, &of_kit.accepted, plan.line).reason());
    let arrival = plan.arrival.as_ref();
    let from = |supplies: &[Supply]| {
        let each: Vec<String> = supplies.iter().map(|of| supply(shop, of)).collect();
        each.join("; ")
    };
    let mut sources = from(&plan.supplies);
    if !plan.also.is_empty() {
        let how = cancelled(
            plan.supplies.iter().any(|of| may_be_cancelled(shop, of)),
            plan.also.iter().any(|of| may_be_cancelled(shop, of)),
        );
        sources.push_str(&format!(
            "; ordered a second time, {how}: {}",
            from(&plan.also)
        ));
    }
    sources.push_str(&anyway(shop, plan));
    if plan.short > 0.0 && is_a_stock_unknown(inputs, kit, plan.line) {
        let joint = if sources.is_empty() { "" } else { "; " };
        let assumed = "the stock list does not say how many there are, 0 was assumed";
        sources.push_str(&format!("{joint}{assumed}"));
    }
    let hours = |hours: Option<f64>| hours.map_or(Value::Empty, Value::Number);
    let saves = plan.on_shelf.filter(|_| plan.short > 0.0);
    let saves_together = plan.on_shelf_together.filter(|_| plan.short > 0.0);
    let next = plan.next_best.as_ref().filter(|_| plan.short > 0.0);
    let emphasis = if plan.short <= 0.0 {
        Emphasis::None
    } else if arrival.is_none() {
        Emphasis::Stop
    } else {
        Emphasis::Attention
    };
    Row::new(vec![
        Value::text(line.record.kit.clone()),
        Value::text(line.record.line.clone()),
        Value::text(asked_for(shop, line)),
        plan.part
            .map_or(Value::Empty, |part| designation(shop, part)),
        plan.part
            .map_or(Value::Empty, |part| cross_checked(shop, part)),
        Value::Number(plan.needed),
        Value::Number(plan.from_stock),
        Value::Number(plan.short),
        Value::text(plan.unit.to_string()),
        Value::text(sources),
        arrival.map_or_else(unknown, |arrival| Value::Moment(arrival.likely)),
        arrival.map_or_else(unknown, |arrival| Value::Moment(arrival.fairly)),
        arrival.map_or_else(unknown, |arrival| Value::Moment(arrival.late)),
        arrival.map_or(Value::Empty, |arrival| {
            Value::text(arrival.basis.to_string())
        }),
        plan.holds_down_h.map_or_else(
            || arrival.map_or_else(unknown, |_| Value::unknown(NO_END)),
            Value::Number,
        ),
        hours(plan.holds_share.filter(|_| plan.short > 0.0)),
        hours(plan.holds_share_together.filter(|_| plan.short > 0.0)),
        hours(saves.map(|saves| saves.hours)),
        saves
            .and_then(|saves| saves.cost)
            .map_or(Value::Empty, Value::Money),
        hours(saves_together.map(|saves| saves.hours)),
        next.map_or(Value::Empty, |next| Value::text(from(&next.supplies))),
        next.and_then(|next| next.dearer)
            .map_or(Value::Empty, Value::Money),
        Value::text(accepted(inputs, kit, plan.line)),
        Value::Flag(line.record.no_substitutes),
        line.record.task.clone().map_or(Value::Empty, Value::text),
        line.record.note.clone().map_or(Value::Empty, Value::text),
    ])
    .with(emphasis)
}

/// What is done with two new orders for the same, the money of which is reckoned so.
const fn cancelled(first: bool, second: bool) -> &'static str {
    match (first, second) {
        (true, true) => "cancel the later",
        (true, false) => "cancel the first if this one comes before it",
        (false, true) => "cancel it if the first comes before it",
        (false, false) => "both are paid as nobody says that one may be cancelled",
    }
}

/// Open orders that come besides what is chosen for a line, and what becomes of a new order if they come first.
fn anyway(shop: &Shop, plan: &LinePlan) -> String {
    if plan.anyway.is_empty() {
        return String::new();
    }
    let coming = plan.anyway.iter().map(|of| {
        let likely = of.arrival.likely.date();
        format!("{} (likely {likely})", supply(shop, of))
    });
    let coming: Vec<String> = coming.collect();
    let mut words = format!("; comes anyway and counts too: {}", coming.join(", "));
    let is_new = |of: &&Supply| matches!(of.source, Source::Offer { .. });
    let mut new = plan.supplies.iter().filter(is_new);
    if plan.also.is_empty()
        && let Some(new) = new.next()
    {
        words.push_str(if may_be_cancelled(shop, new) {
            "; cancel the new order if that comes first"
        } else {
            "; the new order is paid even if that comes first, as nobody says that it may be cancelled"
        });
    }
    words
}

/// True for a new order whose offer says what cancelling it costs.
fn may_be_cancelled(shop: &Shop, supply: &Supply) -> bool {
    let Source::Offer { offer, .. } = &supply.source else {
        return false;
    };
    let offer = shop.offers.get(*offer);
    offer.is_some_and(|of| of.record.cancellation_charge_share.is_some())
}

/// True where nobody knows how many are there of a part that may be fitted.
fn is_a_stock_unknown(inputs: &Inputs<'_>, kit: usize, line: usize) -> bool {
    let mut of = inputs.acceptances.iter();
    let of = of.find(|of| of.kit == kit && of.line == line);
    let mut accepted = of.into_iter().flat_map(|of| &of.accepted);
    let asked_for = inputs.shop.kits[kit].lines[line].part;
    asked_for.is_some_and(|part| is_stock_unknown(inputs.plan, part))
        || accepted.any(|of| is_stock_unknown(inputs.plan, of.part))
}

/// The parts that may be fitted, each with the reason, and what the rules say against an approved one.
fn accepted(inputs: &Inputs<'_>, kit: usize, line: usize) -> String {
    let of = inputs
        .acceptances
        .iter()
        .find(|of| of.kit == kit && of.line == line);
    let line = &inputs.shop.kits[kit].lines[line];
    let parts = of.into_iter().flat_map(|of| &of.accepted);
    parts
        .map(|accepted| because(inputs, line, accepted))
        .collect::<Vec<_>>()
        .join("; ")
}

fn because(inputs: &Inputs<'_>, line: &KitLineOf, accepted: &Accepted) -> String {
    let name = number(inputs.shop, accepted.part);
    let (by, date) = match &accepted.because {
        AcceptedBecause::AskedFor => return format!("{name}, asked for"),
        AcceptedBecause::GoesInAsItIs => return format!("{name}, goes in as it is"),
        AcceptedBecause::ApprovedBy { by, date } => (by, date),
    };
    let date = date.map_or_else(|| ", no date".to_owned(), |date| format!(" on {date}"));
    let against = line
        .part
        .and_then(|part| against_the_rules(inputs.shop, part, accepted.part));
    let against = against.map_or_else(String::new, |text| format!(", although {text}"));
    let checks = checks_of(line, accepted.part)
        // A semicolon parts the parts that are accepted.
        .map_or_else(String::new, |checks| {
            format!(", to check: {}", checks.replace(';', ","))
        });
    format!("{name}, approved by {by}{date}{against}{checks}")
}
