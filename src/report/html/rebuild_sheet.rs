//! Rebuild sheets as a page to print: one kit a sheet of paper, boxes to write in.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::table::words;
use crate::language::Language;
use crate::report::content::{RebuildLine, RebuildSheet};

/// Looks of the sheets: black on white, lines to write on, nothing that eats toner.
const STYLE: &str = "
:root{color-scheme:light}body{margin:0;color:#111;background:#fff;font:11pt/1.35 system-ui,\"Liberation Sans\",Arial,sans-serif}
article{padding:8mm;max-width:285mm;margin:0 auto;break-after:page}article:last-child{break-after:auto}
h1{font-size:16pt;margin:0}.meta{margin:0 0 2mm;color:#444}
.first{border:2px solid #111;padding:2mm 4mm;margin:0 0 3mm}.first h2,.last h2{font-size:11pt;margin:0}
ul{margin:1mm 0;padding-left:5mm}li{margin:.3mm 0}
table{border-collapse:collapse;width:100%;font-size:9pt}th,td{border:1px solid #555;padding:1mm 1.5mm;text-align:left;vertical-align:top}
thead th{border-bottom:2px solid #111}tbody tr{break-inside:avoid}
.box{display:inline-block;border-bottom:1px solid #555;min-width:27mm;margin:0 2mm 1mm 0;font-size:8pt;color:#444}
.box span{display:block;height:6mm}.never{font-weight:700}.tick{display:inline-block;width:3.5mm;height:3.5mm;border:1px solid #111;margin-right:1.5mm;vertical-align:-.5mm}
.last{font-size:9pt}.scroll{overflow-x:auto}
@page{size:landscape;margin:8mm}@media print{article{padding:0}}
";

/// All sheets of a shop as one self-contained page.
pub fn rebuild_sheets_html(sheets: &[RebuildSheet]) -> String {
    let language = sheets
        .first()
        .map(|sheet| sheet.language)
        .unwrap_or_default();
    let markup = html! {
        (DOCTYPE)
        html lang=(language.code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'";
                title { (language.text("Rebuild sheets")) }
                style { (PreEscaped(STYLE)) }
            }
            body { @for sheet in sheets { (article(sheet)) } }
        }
    };
    markup.into_string()
}

fn article(sheet: &RebuildSheet) -> Markup {
    let say = |text: &str| sheet.language.text(text);
    html! {
        article {
            h1 { (say("Rebuild")) ": " (words(&sheet.name)) }
            p.meta {
                @if let Some(machine) = &sheet.machine { (words(machine)) ". " }
                (words(&sheet.shop)) ", " (say("as of")) " " (sheet.language.moment(sheet.as_of))
                ". " (say("Done by")) ": ______________________ " (say("Date")) ": ______________"
            }
            section.first { h2 { (say("Isolate first")) }
                ul { @for line in sheet.isolation { li { span.tick {} (say(line)) } } } }
            div.scroll { table {
                thead { tr { @for header in ["Line", "Part and size", "Needed", "Bin", "Here", "Also may be fitted", "Torque, consumables, notes, checks", "Write down at teardown"] {
                    th scope="col" { (say(header)) } } } }
                tbody { @for line in &sheet.lines { (row(line, sheet.language)) } }
            } }
            @if !sheet.tasks.is_empty() {
                p.last { strong { (say("Tasks")) ": " }
                    @for (at, (task, hours)) in sheet.tasks.iter().enumerate() { @if at > 0 { "; " } span.tick {} (words(task)) " (" (sheet.language.number(&hours.to_string())) " h)" } }
            }
            section.last { h2 { (say("Before fitting")) } ul { @for caution in sheet.cautions { li { (say(caution)) } } } }
        }
    }
}

fn row(line: &RebuildLine, language: Language) -> Markup {
    html! {
        tr {
            th scope="row" { span.tick {} (words(&line.line)) }
            td { (words(&line.part)) @if !line.size.is_empty() { br; (words(&line.size)) }
                @if line.is_never_again { br; span.never { (language.text("■ never fit the old one again")) } } }
            td { (words(&line.needed)) }
            td { (words(&line.bins)) }
            td { (words(&line.here)) }
            td { (words(&line.accepted)) }
            td { (words(&line.note)) @for check in &line.checks { br; span.tick {} (words(check)) } }
            td { @for label in &line.boxes { span.box { span {} (language.text(label)) } } }
        }
    }
}
