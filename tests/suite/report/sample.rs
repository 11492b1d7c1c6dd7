//! A report with the content that breaks renderers: long and hostile words, words that look like formulas,
//! unknown figures, an empty sheet, 300 rows, every kind of column and every emphasis.
//!
//! The shop, its figures and its parts are made up; designations are of DIN 625, DIN 720, DIN 3760 and SAE AS568.

use chrono::{NaiveDate, NaiveDateTime};
use sparewright::language::Language;
use sparewright::report::model::{
    Action, Chart, Column, ColumnKind, Cover, DataAge, Emphasis, Fact, MadeBy, Row, RowFormula,
    Value,
};
use sparewright::report::{Report, Sheet};
use sparewright::units::{Currency, Money, Price};

const EUR: Currency = Currency::EUR;

/// Words that would end a page or run in it.
pub const HOSTILE: &str = "</td><script>alert('x')</script> & \"quoted\" <b>";
/// Words that spreadsheet programs take for formulas.
pub const FORMULA_LIKE: [&str; 5] = ["-218", "+/-0.1", "=1+1", "@x", "'quoted"];

pub fn date(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap()
}

pub fn as_of() -> NaiveDateTime {
    date(2026, 3, 9).and_hms_opt(7, 30, 0).unwrap()
}

pub fn euros(cents: i64) -> Value {
    Value::Money(Money {
        cents,
        currency: EUR,
    })
}

fn price(amount: f64, per: u32) -> Price {
    Price::from_units(amount, per, EUR).unwrap()
}

pub fn report() -> Report {
    Report {
        title: "Reorder report".to_owned(),
        shop: "Schlosserei Jäger & Söhne, Halle 3".to_owned(),
        as_of: as_of(),
        language: Language::ENGLISH,
        made_by: MadeBy {
            name: "sparewright".to_owned(),
            version: "0.1.0".to_owned(),
        },
        cover: cover(),
        sheets: vec![
            orders(),
            kits(),
            alternatives(),
            stock_levels(),
            issues(),
            expiring(),
        ],
    }
}

fn cover() -> Cover {
    let fact = |label: &str, value, kind, note: &str| Fact {
        label: label.to_owned(),
        value,
        kind,
        note: (!note.is_empty()).then(|| note.to_owned()),
    };
    let action = |text: &str, detail: &str, sheet: Option<&str>| Action {
        text: text.to_owned(),
        detail: detail.to_owned(),
        sheet: sheet.map(str::to_owned),
    };
    let age = |what: &str, file: &str, dated, age_days, is_old, note: &str| DataAge {
        what: what.to_owned(),
        file: file.to_owned(),
        dated,
        age_days,
        is_old,
        note: (!note.is_empty()).then(|| note.to_owned()),
    };
    Cover {
        facts: vec![
            fact("Lines to order", Value::Integer(5), ColumnKind::Integer, "2 of them before noon"),
            fact("Known cost of all orders", euros(48_688), ColumnKind::Money(EUR), "one line has no price"),
            fact("Longest expected downtime", Value::Number(212.5), ColumnKind::Hours, "gearbox of press 2, if it fails today"),
            fact("Lines covered from stock", Value::Number(0.873), ColumnKind::Share, ""),
            fact("Downtime of pump 7", Value::unknown("no supplier names a lead time for its shaft seal"), ColumnKind::Hours, ""),
        ],
        actions: vec![
            action("Order 4 × DIN 625 6204-2RS before 11:00", "The supplier ships the same day until 11:00; stock covers 3 working days and the planned rebuild of press 2 starts on 2026-03-16.", Some("orders")),
            action("Ask for a lead time: DIN 3760 AS 30×52×7", "No offer names one, so the downtime of pump 7 cannot be computed.", Some("kits")),
            action("Approve or refuse the alternative for the tapered bearing", "Same boundary dimensions, lower load rating: a licensed person must decide.", Some("alternatives")),
        ],
        data_ages: vec![
            age("Stock", "bestand_maerz.xlsx", Some(date(2026, 3, 6)), Some(3), false, ""),
            age("Offers", "quotes/2025-11 Angebote.xlsx", Some(date(2025, 11, 20)), Some(109), true, "older than 90 days: prices and lead times may have changed"),
            age("Usages", "usages.csv", None, None, false, "the file carries no date"),
        ],
        cautions: vec![
            "Boundary dimensions alone do not make a part fit for use: load, speed, clearance, seal material and the machine's own documentation decide. Work on machines only when locked out, by persons licensed for it.".to_owned(),
            "Matched sets are listed as sets; never split one.".to_owned(),
        ],
        unknowns: vec![
            "Downtime of pump 7: no lead time for the shaft seal.".to_owned(),
            "Usage rate of 41 parts: no usages were recorded long enough.".to_owned(),
        ],
    }
}

fn orders() -> Sheet {
    let mut sheet = Sheet::new(
        "orders",
        "Orders",
        "What must be ordered, from whom, and by when?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("part", "Part"),
        Column::text("supplier", "Supplier"),
        Column::new(ColumnKind::Quantity, "order_quantity", "Quantity"),
        Column::text("unit", "Unit"),
        Column::new(ColumnKind::UnitPrice(EUR), "unit_price_eur", "Unit price"),
        Column::new(ColumnKind::Money(EUR), "cost_eur", "Cost")
            .with_formula(RowFormula::product("order_quantity", "unit_price_eur"))
            .totalled()
            .with_help("Quantity times unit price, without freight and taxes."),
        Column::new(ColumnKind::Workdays, "wait_workdays", "Lead time"),
        Column::new(ColumnKind::Moment, "order_by", "Order by"),
        Column::new(ColumnKind::Date, "arrives_on", "Arrives"),
        Column::text("reason", "Why").wrapped(44),
    ];
    let line = |part: &str,
                supplier: &str,
                quantity: f64,
                unit: &str,
                price: Option<Price>,
                wait: Option<i64>,
                reason: &str| {
        Row::new(vec![
            Value::text(part),
            Value::text(supplier),
            Value::Number(quantity),
            Value::text(unit),
            price.map_or(Value::unknown("the offer names no price"), Value::Price),
            price.map_or(Value::unknown("the offer names no price"), |price| {
                Value::Money(price.cost_of(quantity))
            }),
            wait.map_or(Value::unknown("no offer names a lead time"), Value::Integer),
            wait.map_or(Value::unknown("no offer names a lead time"), |_| {
                Value::Moment(date(2026, 3, 9).and_hms_opt(11, 0, 0).unwrap())
            }),
            wait.map_or(Value::unknown("no offer names a lead time"), |days| {
                Value::Date(date(2026, 3, 9) + chrono::Days::new(days as u64))
            }),
            Value::text(reason),
        ])
    };
    sheet.rows = vec![
        line("DIN 625 6204-2RS", "Wälzlager Müller", 4.0, "piece", Some(price(12.4, 1)), Some(2), "Stock of 1 is below the reorder point of 3; the planned rebuild of press 2 needs 2 on 2026-03-16.").with(Emphasis::Stop),
        line("DIN 3760 AS 30×52×7", "Dichtungen Groß", 6.0, "piece", Some(price(3.15, 1)), None, "Pump 7 stands if the seal leaks; nobody has said how long a new one takes.").with(Emphasis::Attention),
        line("DIN 720 32006 X, matched set of 2", "Wälzlager Müller", 1.0, "matched set of 2", None, Some(15), "Set is used in the spindle; never made up of singles.").with(Emphasis::Attention),
        line("SAE AS568-218", "Dichtungen Groß", 250.0, "piece", Some(price(8.5, 1000)), Some(5), "Price is for 1,000 pieces.").with(Emphasis::Good),
        line("Felt strip 8 mm", "Schlosserei-Bedarf Öttinger", 12.5, "metre", Some(price(33.3, 1)), Some(1), "Sold by the metre."),
    ];
    sheet.notes = vec!["Order by is the last moment at which the part still arrives in time, in the supplier's own calendar.".to_owned()];
    sheet
}

fn kits() -> Sheet {
    let mut sheet = Sheet::new(
        "kits",
        "Rebuild kits",
        "How long would each machine stand if it failed now, and which line holds it up?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("kit", "Kit"),
        Column::text("machine", "Machine"),
        Column::new(ColumnKind::Hours, "downtime_h", "Expected downtime")
            .totalled()
            .with_help("Hours of production lost, in the production calendar."),
        Column::new(ColumnKind::Days, "longest_wait_days", "Longest wait"),
        Column::text("held_up_by", "Held up by"),
        Column::new(ColumnKind::Integer, "lines_short", "Lines short"),
        Column::new(ColumnKind::Flag, "is_planned", "Planned"),
    ];
    let kit = |kit: &str,
               machine: &str,
               hours: Option<f64>,
               wait: Option<f64>,
               by: &str,
               short: i64,
               planned: bool| {
        Row::new(vec![
            Value::text(kit),
            Value::text(machine),
            Value::number_or(hours, "no lead time for the shaft seal"),
            Value::number_or(wait, "no lead time for the shaft seal"),
            Value::text(by),
            Value::Integer(short),
            Value::Flag(planned),
        ])
    };
    sheet.rows = vec![
        kit(
            "Gearbox, main drive",
            "Press 2",
            Some(212.5),
            Some(15.0),
            "DIN 720 32006 X, matched set of 2",
            2,
            true,
        )
        .with(Emphasis::Stop),
        kit(
            "Shaft and seals",
            "Pump 7",
            None,
            None,
            "DIN 3760 AS 30×52×7",
            1,
            false,
        )
        .with(Emphasis::Attention),
        kit(
            "Conveyor head drum with the long name that nobody shortens",
            "Conveyor 4",
            Some(88.0),
            Some(6.5),
            "DIN 625 6204-2RS",
            1,
            false,
        ),
        kit(
            "Fan bearings",
            "Extractor 1",
            Some(14.25),
            Some(2.0),
            "DIN 625 6204-2RS",
            1,
            true,
        ),
        kit(
            "Hydraulic cylinder reseal",
            "Press 1",
            Some(6.0),
            Some(0.0),
            "nothing: all lines in stock",
            0,
            false,
        )
        .with(Emphasis::Good),
    ];
    sheet.charts = vec![Chart::bars(
        "Expected downtime by kit",
        "Hours of production lost if the machine failed at the moment of this report.",
        "kit",
        "downtime_h",
    )];
    sheet
}

fn alternatives() -> Sheet {
    let mut sheet = Sheet::new(
        "alternatives",
        "Alternatives",
        "Which standard part may stand in for which, and what must be checked first?",
    );
    sheet.columns = vec![
        Column::text("wanted", "Wanted"),
        Column::text("offered", "Offered"),
        Column::new(ColumnKind::LengthMm, "bore_mm", "Bore"),
        Column::new(
            ColumnKind::LengthMm,
            "outside_diameter_mm",
            "Outside diameter",
        ),
        Column::new(ColumnKind::LengthMm, "width_mm", "Width"),
        Column::new(ColumnKind::Share, "load_rating_share", "Load rating"),
        Column::text("to_check", "To check").wrapped(50),
    ];
    sheet.rows = vec![
        vec![
            Value::text("DIN 625 6204"),
            Value::text("DIN 625 6204-2RS"),
            Value::Number(20.0),
            Value::Number(47.0),
            Value::Number(14.0),
            Value::Number(1.0),
            Value::text("Speed limit is lower with contact seals."),
        ]
        .into(),
        vec![
            Value::text("3/4 in shaft seal"),
            Value::text("none listed"),
            Value::Number(19.05),
            Value::Number(41.275),
            Value::Number(11.1125),
            Value::unknown("the standard lists no rating for seals"),
            Value::text(
                "Very long remark: ".to_owned()
                    + &"housing bore, shaft finish, lip material, pressure, temperature, medium. "
                        .repeat(6),
            ),
        ]
        .into(),
        vec![
            Value::text("DIN 720 32006 X"),
            Value::text("DIN 720 33006"),
            Value::Number(30.0),
            Value::Number(55.0),
            Value::Empty,
            Value::Number(1.284),
            Value::text("Wider by 3 mm: spacer and preload change."),
        ]
        .into(),
    ];
    sheet.notes = vec![
        "A load rating above 100 % means the offered part carries more than the wanted one."
            .to_owned(),
    ];
    sheet
}

fn stock_levels() -> Sheet {
    let mut sheet = Sheet::new(
        "stock_levels",
        "Stock levels",
        "How much of each part should be kept, and how much is there?",
    );
    sheet.columns = vec![
        Column::text("part", "Part"),
        Column::text("bin", "Bin"),
        Column::new(ColumnKind::Quantity, "on_hand", "On hand"),
        Column::new(ColumnKind::Quantity, "reorder_point", "Reorder point"),
        Column::new(ColumnKind::Quantity, "missing", "Missing")
            .with_formula(RowFormula::difference("reorder_point", "on_hand")),
        Column::new(ColumnKind::Money(EUR), "value_eur", "Value").totalled(),
    ];
    sheet.rows = (0..300_i64)
        .map(|n| {
            let counted = n % 40 != 7;
            let (on_hand, point) = ((n * 7) % 23, (n * 5) % 17);
            Row::new(vec![
                Value::text(format!("Part {n:03}")),
                Value::text(format!("Regal {}, Fach {}", n / 20, n % 20)),
                if counted {
                    Value::Integer(on_hand)
                } else {
                    Value::unknown("the bin was never counted")
                },
                Value::Integer(point),
                if counted {
                    Value::Integer(point - on_hand)
                } else {
                    Value::unknown("the bin was never counted")
                },
                euros(n * 12_345),
            ])
        })
        .collect();
    sheet
}

fn issues() -> Sheet {
    let mut sheet = Sheet::new(
        "issues",
        "Issues",
        "Which rows could not be read as they stand?",
    );
    sheet.columns = vec![
        Column::text("place", "Place"),
        Column::text("found", "Found"),
        Column::text("problem", "Problem").wrapped(60),
    ];
    let long = "Ü".repeat(40_000);
    let found = FORMULA_LIKE.into_iter().chain([
        HOSTILE,
        long.as_str(),
        "bell \u{7} and _x0041_",
        "two\nlines, \"quoted\"",
    ]);
    sheet.rows = found
        .zip(1..)
        .map(|(words, row)| {
            vec![
                Value::text(format!("stock.xlsx, sheet `Bins`, D{row}")),
                Value::text(words),
                Value::text("`found` is not a length; expected a number such as `25.4`"),
            ]
            .into()
        })
        .collect();
    sheet
}

fn expiring() -> Sheet {
    let mut sheet = Sheet::new(
        "expiring",
        "Shelf life",
        "Which rubber parts grow too old on the shelf?",
    );
    sheet.columns = vec![
        Column::text("part", "Part"),
        Column::new(ColumnKind::Date, "expires_on", "Expires"),
        Column::new(ColumnKind::Money(EUR), "value_eur", "Value").totalled(),
    ];
    sheet.empty_text =
        "No part in stock carries a date of expiry, so none can be listed.".to_owned();
    sheet
}
