//! The demo's report in German: no text of the program is left in English, numbers and dates have their German form,
//! and words of the shop stay as they are.
//!
//! Texts without a message are printed as lines for `data/language/de.tsv`:
//! `cargo test --release --test suite language -- --nocapture`.

mod forms;
mod strangers;

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;
use std::io::Cursor;
use std::path::Path;
use std::sync::OnceLock;

use calamine::{Data, Reader, Xlsx};
use sparewright::job::{Job, Planned};
use sparewright::language::{Language, Translator};
use sparewright::plan::{StudyAsk, WhatIf};
use sparewright::report::content::{
    Inputs, ORDER_HEADERS, kit_report, level_report, order_report, purchase_requests,
    rebuild_sheets, summary, what_if_report,
};
use sparewright::report::model::{
    Column, ColumnKind, Cover, Emphasis, MadeBy, Row, Value, check_report,
};
use sparewright::report::{
    Report, Sheet, csv_of, html_of, json_of, rebuild_sheets_html, translated, translated_sheets,
    untranslated, untranslated_sheets, workbook_of,
};
use sparewright::units::{Currency, Money};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn german() -> Language {
    Language::of_code("de").unwrap()
}

fn demo() -> &'static (Job, Planned) {
    static DEMO: OnceLock<(Job, Planned)> = OnceLock::new();
    DEMO.get_or_init(|| {
        let job = Job::read(&root().join("data/demo"), None).unwrap();
        let planned = job.plan().unwrap();
        (job, planned)
    })
}

fn german_demo() -> &'static Report {
    static REPORT: OnceLock<Report> = OnceLock::new();
    REPORT.get_or_init(|| {
        let (job, planned) = demo();
        translated(job.report(planned), german())
    })
}

#[test]
fn every_text_of_the_demo_has_its_message() {
    let (job, planned) = demo();
    none_missing("the demo", &missing_of(job, planned));
}

/// Texts of all that is said of a shop that have no message.
fn missing_of(job: &Job, planned: &Planned) -> BTreeSet<String> {
    let inputs = job.inputs(planned);
    let mut missing: BTreeSet<String> = BTreeSet::new();
    missing.extend(untranslated(&job.report(planned), german()));
    missing.extend(untranslated_sheets(&rebuild_sheets(&inputs), german()));
    for request in purchase_requests(&inputs) {
        missing.extend(untranslated(&request.report, german()));
    }
    missing.extend(untranslated(&level_report(&inputs, &[]), german()));
    missing.extend(untranslated(&order_report(&inputs), german()));
    missing.extend(of_kits(job));
    missing.extend(of_what_if(job, planned));
    missing.extend(of_terminal_and_rejects(job, &inputs));
    missing
}

fn none_missing(whose: &str, missing: &BTreeSet<String>) {
    let mut lines = String::new();
    for text in missing {
        let _ = writeln!(lines, "{text}\t");
    }
    assert!(
        missing.is_empty(),
        "{whose}: {} texts without a message; put them into data/language/de.tsv with holes for figures and names, or their \
         column into report/translate.rs:\n{lines}",
        missing.len()
    );
}

/// Texts of each kit's own report, plainly and with a budget and a time.
fn of_kits(job: &Job) -> Vec<String> {
    let acceptances = job.acceptances();
    let budget = Money::from_units(3_000.0, job.shop.settings.currency).ok();
    let by = chrono::NaiveDate::from_ymd_opt(2026, 4, 20).and_then(|day| day.and_hms_opt(14, 0, 0));
    let asks = [
        StudyAsk::default(),
        StudyAsk {
            budget,
            by,
            without: vec![0, 1, 2],
        },
    ];
    let mut missing = Vec::new();
    for kit in 0..job.shop.kits.len() {
        for ask in &asks {
            let study = job.study_kit(&acceptances, kit, ask).unwrap();
            let report = kit_report(&job.inputs_of_kit(&acceptances, &study), &study.study, ask);
            missing.extend(untranslated(&report, german()));
        }
    }
    missing
}

fn of_what_if(job: &Job, planned: &Planned) -> Vec<String> {
    let offers = job.shop.offers.first();
    let supplier = offers.map(|offer| offer.record.supplier.to_string());
    let machine = job.shop.machines.values().next();
    let machine = machine.map(|of| of.machine.clone());
    let mut asks = Vec::new();
    if let Some(supplier) = supplier {
        let has_levels = planned.plan.levels.chosen.is_some();
        asks.push(WhatIf {
            slower: vec![(supplier.clone(), 2.0)],
            budget_cut_share: has_levels.then_some(0.2),
            ..WhatIf::default()
        });
        asks.push(WhatIf {
            gone: vec![supplier],
            one_more: Vec::from_iter(machine),
            ..WhatIf::default()
        });
    }
    let inputs = job.inputs(planned);
    let mut missing = Vec::new();
    for ask in &asks {
        let changed = job.what_if(planned, ask).unwrap();
        let report = what_if_report(&inputs, &changed.plan, changed.year.as_ref(), ask);
        missing.extend(untranslated(&report, german()));
    }
    missing
}

/// The summary at the end of a run, and what the workbook of rows to mend says is wrong.
fn of_terminal_and_rejects(job: &Job, inputs: &Inputs<'_>) -> Vec<String> {
    let mut said = Translator::new(german());
    let summary = summary(inputs);
    said.say(&summary.head);
    for (label, words) in &summary.lines {
        said.say(label);
        said.say(words);
    }
    for header in ORDER_HEADERS {
        said.say(header);
    }
    for row in &summary.orders {
        for at in [0, 4, 5, 6] {
            said.say(&row[at]);
        }
    }
    let rows = job.imported.rejects.iter().flat_map(|table| &table.rows);
    for mark in rows.flat_map(|row| &row.marks) {
        said.say(&mark.reason);
    }
    said.missing().iter().cloned().collect()
}

#[test]
fn a_new_text_of_the_program_is_found_missing() {
    let mut report = small_report();
    report.sheets[0]
        .notes
        .push("No message says this yet.".to_owned());
    assert_eq!(
        untranslated(&report, german()),
        ["No message says this yet."]
    );
}

#[test]
fn titles_and_headings_are_those_of_the_golden_file() {
    let report = german_demo();
    check_report(report).unwrap();
    let mut text = format!("{}\n", report.title);
    for action in &report.cover.actions {
        let _ = writeln!(text, "- {}", action.text);
    }
    for caution in &report.cover.cautions {
        let _ = writeln!(text, "! {caution}");
    }
    for sheet in &report.sheets {
        let headers: Vec<String> = sheet.columns.iter().map(Column::label).collect();
        let _ = writeln!(
            text,
            "\n{}: {}\n  {}",
            sheet.title,
            sheet.question,
            headers.join(" | ")
        );
    }
    let path = root().join("tests/golden/german_headings.txt");
    if std::env::var_os("SPAREWRIGHT_UPDATE_GOLDEN").is_some() {
        fs::write(&path, &text).unwrap();
    }
    let golden = fs::read_to_string(&path).unwrap_or_default();
    for (at, (have, want)) in text.lines().zip(golden.lines()).enumerate() {
        assert_eq!(have, want, "line {}", at + 1);
    }
    assert_eq!(text.lines().count(), golden.lines().count());
}

/// A sheet whose shop uses words and sentences of the program as names.
fn small_report() -> Report {
    let mut sheet = Sheet::new(
        "kit_lines",
        "Kit lines",
        "What does each rebuild need, and when is it here?",
    );
    let money = ColumnKind::Money(Currency::EUR);
    sheet.columns = vec![
        Column::text("kit", "Kit"),
        Column::text("designation", "Designation"),
        Column::text("held_by", "Held by"),
        Column::new(ColumnKind::Days, "lead_days", "Mean lead time"),
        Column::new(money, "cost_eur", "Cost").totalled(),
        Column::new(ColumnKind::Date, "needed_by", "Needed by"),
        Column::new(ColumnKind::Flag, "no_substitutes", "No substitutes"),
        Column::new(ColumnKind::LengthMm, "bore_mm", "bore"),
    ];
    sheet.has_marks = true;
    let cents = 123_456_789;
    sheet.rows = vec![
        Row::new(vec![
            Value::text("on the shelf"),
            Value::text("3 free, 1,000 on order; reorder point 2."),
            Value::text("line free: nothing: all on the shelf (12.5 % of cases)"),
            Value::Number(12.5),
            Value::Money(Money {
                cents,
                currency: Currency::EUR,
            }),
            Value::Date(chrono::NaiveDate::from_ymd_opt(2026, 3, 9).unwrap()),
            Value::Flag(true),
            Value::Number(34.925),
        ])
        .with(Emphasis::Stop),
        Row::new(vec![
            Value::text("{n} days"),
            Value::text("=1+1"),
            Value::text("nothing: all on the shelf"),
            Value::unknown("no source with a known lead time"),
            Value::unknown("a price is missing"),
            Value::Empty,
            Value::Flag(false),
            Value::Empty,
        ]),
    ];
    Report {
        title: "Reorder report".to_owned(),
        shop: "Order now & Co.".to_owned(),
        as_of: chrono::NaiveDate::from_ymd_opt(2026, 3, 9)
            .unwrap()
            .and_hms_opt(7, 30, 0)
            .unwrap(),
        made_by: MadeBy {
            name: "sparewright".to_owned(),
            version: "0".to_owned(),
        },
        cover: Cover::default(),
        sheets: vec![sheet],
        language: Language::ENGLISH,
    }
}

#[test]
fn words_of_the_shop_that_look_like_ours_stay_themselves() {
    let report = translated(small_report(), german());
    assert_eq!(report.shop, "Order now & Co.");
    let cell = |row: usize, at: usize| report.sheets[0].rows[row].cells[at].clone();
    assert_eq!(cell(0, 0), Value::text("on the shelf"));
    assert_eq!(
        cell(0, 1),
        Value::text("3 free, 1,000 on order; reorder point 2.")
    );
    // A line called `free` and a part called `nothing: all on the shelf`: only our words around them change.
    assert_eq!(
        cell(0, 2),
        Value::text("Position free: nothing: all on the shelf (12,5 % der Fälle)")
    );
    assert_eq!(cell(1, 0), Value::text("{n} days"));
    assert_eq!(cell(1, 2), Value::text("nichts: alles am Lager"));
    assert_eq!(
        cell(1, 3),
        Value::unknown("keine Quelle mit bekannter Wiederbeschaffungszeit")
    );
}

#[test]
fn the_page_shows_german_numbers_dates_and_frame() {
    let page = html_of(&translated(small_report(), german()));
    for shown in [
        "<html lang=\"de\">",
        "1.234.567,89",
        "09.03.2026",
        "12,5",
        "34,925",
        "Mittlere Wiederbeschaffungszeit (Tage)",
        "■ HALT",
        "unbekannt",
        "Kosten: in 1 Zeile unbekannt: ein Preis fehlt.",
        "Stand <time datetime=\"2026-03-09T07:30\">09.03.2026 07:30",
        "Summe des Bekannten (1 Zeile unbekannt)",
        "Order now &amp; Co.",
    ] {
        assert!(page.contains(shown), "no `{shown}` in {page}");
    }
    for english in [
        "Do now",
        ">Notes<",
        "Skip to",
        "Made by",
        ">unknown<",
        ">yes<",
    ] {
        assert!(!page.contains(english), "`{english}` in {page}");
    }
}

#[test]
fn the_workbook_keeps_figures_and_takes_german_words_and_date_forms() {
    let report = translated(small_report(), german());
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(workbook_of(&report).unwrap())).unwrap();
    assert_eq!(
        book.sheet_names(),
        ["Deckblatt", "Positionen der Bauteilsätze"]
    );
    let cover = book.worksheet_range("Deckblatt").unwrap();
    // The mark by which an import knows our own reports is no word for people.
    assert_eq!(
        cover.get_value((0, 0)),
        Some(&Data::String("sparewright report".to_owned()))
    );
    let sheet = book.worksheet_range("Positionen der Bauteilsätze").unwrap();
    let headers: Vec<String> = sheet
        .rows()
        .nth(3)
        .unwrap()
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(headers[0], "Zeichen");
    assert_eq!(headers[4], "Mittlere Wiederbeschaffungszeit (Tage)");
    assert_eq!(
        sheet.get_value((4, 0)),
        Some(&Data::String("■ HALT".to_owned()))
    );
    assert_eq!(sheet.get_value((4, 5)), Some(&Data::Float(1_234_567.89)));
    assert!(matches!(sheet.get_value((4, 6)), Some(Data::DateTime(_))));
    assert_eq!(
        sheet.get_value((4, 7)),
        Some(&Data::String("ja".to_owned()))
    );
}

#[test]
fn keys_and_figures_for_other_programs_are_the_same_in_every_language() {
    let (english, german) = (small_report(), translated(small_report(), german()));
    let lines = |report: &Report| -> Vec<String> {
        let text = String::from_utf8(csv_of(&report.sheets[0])).unwrap();
        text.lines().map(str::to_owned).collect()
    };
    assert_eq!(lines(&english)[0], lines(&german)[0]);
    assert!(
        lines(&german)[1].ends_with(",12.5,1234567.89,2026-03-09,true,34.925"),
        "{:?}",
        lines(&german)
    );
    let json = |report: &Report| -> serde_json::Value {
        serde_json::from_slice(&json_of(report)).unwrap()
    };
    let (english, german) = (json(&english), json(&german));
    assert_eq!(german["report"]["language"], "de");
    let rows = |json: &serde_json::Value| json["sheets"]["kit_lines"]["rows"].clone();
    for key in ["kit", "lead_days", "cost_eur", "needed_by", "mark"] {
        assert_eq!(rows(&english)[0][key], rows(&german)[0][key], "{key}");
    }
    let columns = german["sheets"]["kit_lines"]["columns"].as_array().unwrap();
    assert_eq!(columns[3]["key"], "lead_days");
    assert_eq!(columns[3]["header"], "Mittlere Wiederbeschaffungszeit");
}

#[test]
fn rebuild_sheets_and_requests_are_german_too() {
    let (job, planned) = demo();
    let inputs = job.inputs(planned);
    let page = rebuild_sheets_html(
        &translated_sheets(rebuild_sheets(&inputs), german()),
        german(),
    );
    for shown in [
        "<html lang=\"de\">",
        "Zuerst freischalten und sichern",
        "altes Teil nie wieder einbauen",
        "Vor dem Einbau",
        "09.03.2026",
    ] {
        assert!(page.contains(shown), "no `{shown}`");
    }
    for english in [
        "Isolate",
        "Before fitting",
        "lock off",
        "guards go back",
        "likely",
        "on the shelf<",
    ] {
        assert!(!page.contains(english), "`{english}`");
    }
    for request in purchase_requests(&inputs) {
        let report = translated(request.report, german());
        assert!(
            report.title.starts_with("Anfrage 2026-03-09 "),
            "{}",
            report.title
        );
        check_report(&report).unwrap();
        workbook_of(&report).unwrap();
    }
}

#[test]
fn headers_stay_as_their_file_has_them_and_only_their_meanings_are_german() {
    let mut sheet = Sheet::new("files", "Files read", "What was read?");
    sheet.columns = vec![Column::text("columns", "Columns")];
    let headers = "supplier = supplier; freight = freight; MwSt-Satz = VAT rate; a = b = price";
    sheet.rows = vec![Row::new(vec![Value::text(headers)])];
    let mut report = small_report();
    report.sheets = vec![sheet];
    let report = translated(report, german());
    assert_eq!(
        report.sheets[0].rows[0].cells[0],
        Value::text(
            "supplier = Lieferant; freight = Fracht; MwSt-Satz = Mehrwertsteuersatz; a = b = Preis"
        )
    );
}

#[test]
fn every_share_of_a_list_is_written_in_german() {
    let mut translator = Translator::new(german());
    assert_eq!(
        translator.say("taken at a time: 1 in 4.00 %, 2 in 96.0 %"),
        "auf einmal entnommen: 1 in 4,00 %, 2 in 96,0 %"
    );
}
