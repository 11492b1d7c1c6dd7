//! The page as a whole: heading, cover, contents, one section for each sheet.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::script::{SCRIPT, SCRIPT_SOURCE};
use super::style::STYLE;
use super::table::section;
use super::words::words;
use crate::language::Language;
use crate::report::model::{Action, Cover, DataAge, Fact, Report, Sheet, grouped};

/// Rows shown of a sheet, so that a phone can open the page; the rest stands in its CSV file.
pub const ROWS_SHOWN: usize = 2_000;

/// Sheets that a print holds: what is to be ordered, chased, approved, and which kit holds its machine. The long tables of
/// all parts follow on paper only where somebody ticks that they should.
const PRINTED: [&str; 8] = [
    "order_now",
    "orders",
    "can_wait",
    "made_instead",
    "last_buys",
    "approvals_that_would_pay",
    "kits",
    "chase",
];

/// Browsers load and run nothing from this page but its own styles and script, whatever a cell may hold.
fn policy() -> String {
    format!(
        "default-src 'none'; style-src 'unsafe-inline'; script-src {SCRIPT_SOURCE}; img-src data:"
    )
}

/// Returns the report as one self-contained HTML page.
pub fn html_of(report: &Report) -> String {
    let say = |text: &str| report.language.text(text);
    let markup = html! {
        (DOCTYPE)
        html lang=(report.language.code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="Content-Security-Policy" content=(policy());
                meta name="generator" content={ (report.made_by.name) " " (report.made_by.version) };
                title { (words(&report.title)) ", " (words(&report.shop)) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                a.skip href="#report-main" { (say("Skip to the report")) }
                header { (heading(report)) (print_choice(report)) }
                main id="report-main" {
                    (cover_section(report, |key| format!("#{key}")))
                    @for sheet in &report.sheets {
                        @if PRINTED.contains(&&*sheet.key) { (section(&sheet.first_rows(ROWS_SHOWN))) }
                        @else { div.on-screen { (section(&sheet.first_rows(ROWS_SHOWN))) } }
                    }
                }
                footer {
                    p { (say("Made by")) " " (report.made_by.name) " " (report.made_by.version) ". "
                        (say("The same figures are in the workbook, the CSV files and the JSON file beside this page.")) }
                }
                script { (PreEscaped(SCRIPT)) }
            }
        }
    };
    markup.into_string()
}

fn heading(report: &Report) -> Markup {
    html! {
        h1 { (words(&report.title)) }
        p.meta {
            (words(&report.shop)) ", " (report.language.text("as of")) " "
            time datetime=(report.as_of.format("%Y-%m-%dT%H:%M")) { (report.as_of_words()) }
        }
        nav aria-label=(report.language.text("Sheets")) {
            ul {
                @for sheet in &report.sheets {
                    li { a href={ "#" (sheet.key) } { (words(&sheet.title)) } }
                }
            }
        }
    }
}

/// What a print holds, with the choice of all of it; nothing where it holds all anyway.
fn print_choice(report: &Report) -> Markup {
    let is_on_screen = |sheet: &&Sheet| !PRINTED.contains(&&*sheet.key);
    let left_out: Vec<&Sheet> = report.sheets.iter().filter(is_on_screen).collect();
    let rows: usize = left_out.iter().map(|sheet| sheet.row_count()).sum();
    let words = format!(
        "Print the long tables too ({} rows); otherwise what is to be done is printed",
        grouped(rows as f64, 0, 0)
    );
    let titles: Vec<&str> = left_out.iter().map(|sheet| &*sheet.title).collect();
    html! {
        @if !left_out.is_empty() {
            label.print-choice { input #print-all type="checkbox"; span { (report.language.text(&words)) } }
            p.not-printed { (report.language.text("Not printed")) ": " (words_of(&titles)) "." }
        }
    }
}

fn words_of(titles: &[&str]) -> String {
    words(&titles.join(", ")).into_owned()
}

/// The first part; `address` says where a sheet is found by its key. Its names hold hyphens, which keys of sheets never do, so none is taken twice.
pub fn cover_section(report: &Report, address: impl Fn(&str) -> String) -> Markup {
    let cover = &report.cover;
    let language = report.language;
    html! {
        section aria-labelledby="cover-do-now" {
            h2 id="cover-do-now" { (language.text("Do now")) }
            @if cover.actions.is_empty() {
                p.none { (language.text("Nothing needs to be done now.")) }
            } @else {
                ol.actions { @for action in &cover.actions { (action_item(report, action, &address)) } }
            }
        }
        @if !cover.facts.is_empty() {
            section aria-labelledby="cover-at-a-glance" {
                h2 id="cover-at-a-glance" { (language.text("At a glance")) }
                dl.facts { @for fact in &cover.facts { (fact_card(fact, language)) } }
            }
        }
        (lists(cover, language))
        @if !cover.data_ages.is_empty() { (data_ages(&cover.data_ages, language)) }
    }
}

fn action_item(report: &Report, action: &Action, address: &impl Fn(&str) -> String) -> Markup {
    let linked = action.sheet.as_deref().and_then(|key| report.sheet(key));
    html! {
        li {
            strong { (words(&action.text)) }
            (words(&action.detail))
            @if let Some(sheet) = linked {
                " " a href=(address(&sheet.key)) { (report.language.text("See")) " " (words(&sheet.title)) }
            }
        }
    }
}

fn fact_card(fact: &Fact, language: Language) -> Markup {
    let remark = fact.remark();
    html! {
        div {
            dt { (words(&fact.label)) }
            dd.figure { (words(&fact.value.with_unit(fact.kind, language))) }
            @if !remark.is_empty() { dd.note { (words(&remark)) } }
        }
    }
}

fn lists(cover: &Cover, language: Language) -> Markup {
    html! {
        @for (id, heading, items) in [
            ("cover-cautions", "Cautions", &cover.cautions),
            ("cover-not-known", "Not known", &cover.unknowns),
        ] {
            @if !items.is_empty() {
                section aria-labelledby=(id) {
                    h2 id=(id) { (language.text(heading)) }
                    ul.plain { @for item in items { li { (words(item)) } } }
                }
            }
        }
    }
}

fn data_ages(ages: &[DataAge], language: Language) -> Markup {
    html! {
        section aria-labelledby="cover-data-ages" {
            h2 id="cover-data-ages" { (language.text("How old the data are")) }
            div.scroll role="group" aria-labelledby="cover-data-ages" tabindex="0" {
                table {
                    caption { (language.text("How old the data are")) }
                    thead { tr {
                        @for header in ["Data", "File", "Dated", "Age", "Note"] { th scope="col" { (language.text(header)) } }
                    } }
                    tbody {
                        @for age in ages {
                            tr.check[age.is_old] {
                                th scope="row" { (words(&age.what)) }
                                td.words { (words(&age.file)) }
                                td.d {
                                    @match age.dated {
                                        Some(date) => (language.date(date)),
                                        None => span.unknown { (language.text("no date in the data")) },
                                    }
                                }
                                td.d.old[age.is_old] { (language.text(&age.in_words())) }
                                td.wide { (words(age.note.as_deref().unwrap_or_default())) }
                            }
                        }
                    }
                }
            }
        }
    }
}
