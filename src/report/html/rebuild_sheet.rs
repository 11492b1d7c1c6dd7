//! Rebuild sheets as a page to print: one kit a sheet of paper, upright on A4 or Letter, boxes to write in.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::words::{unbroken, words};
use crate::language::Language;
use crate::report::content::{RebuildLine, RebuildSheet};

/// Lines up to which a kit fits its page in letters of each size, largest first; found by printing the demo's kits on
/// Letter. Kits of more lines than about 15 go on to a second page.
const SIZES: [(usize, &str); 4] = [
    (6, "roomy"),
    (9, "tight"),
    (11, "tighter"),
    (15, "tightest"),
];
/// Words of other languages are longer: so many of their lines take the room of so many in English (found by printing the
/// demo's kits in German on Letter).
const WORDIER: (usize, usize) = (3, 4);

/// Letters on what must not be fitted that take the room of a line (found by printing the demo's kits).
const REFUSED_A_LINE: usize = 200;

/// Looks of the sheets: black on white, lines to write on, nothing that eats toner. A box is as high as handwriting.
const STYLE: &str = "
:root{color-scheme:light}body{margin:0;color:#111;background:#fff;font:10pt/1.3 system-ui,\"Liberation Sans\",Arial,sans-serif}
article{padding:6mm;max-width:200mm;margin:0 auto;break-after:page;--text:8.5pt;--box:8mm}article:last-child{break-after:auto}
article.tight{--text:7.5pt;--box:6.5mm}article.tighter{--text:6.6pt;--box:5.6mm}
article.tightest{--text:6.1pt;--box:4.7mm}article.tightest h1{font-size:11pt}article.tightest .box{font-size:5.5pt}

article.tightest ul,article.tightest .last{font-size:6.5pt}article.tightest th,article.tightest td{padding:.2mm .8mm}
article.least{--text:5.6pt;--box:4.2mm}article.least ul{font-size:5.8pt}
h1{font-size:14pt;line-height:1.15;margin:0}.meta{margin:0 0 1.5mm;color:#444;font-size:8.5pt}h2{font-size:9.5pt;margin:0}
.first{border:2px solid #111;padding:1mm 3mm;margin:0 0 2mm}.first ul{columns:2;column-gap:6mm}
ul{margin:.5mm 0;padding:0;list-style:none;font-size:8pt}li{margin:.2mm 0;break-inside:avoid}
table{border-collapse:collapse;width:100%;font-size:var(--text);line-height:1.22}
th,td{border:1px solid #777;padding:.5mm 1mm;text-align:left;vertical-align:top}thead th{border-bottom:2px solid #111}
tbody{break-inside:avoid;border-bottom:1.5px solid #111}tbody p{margin:0}.bin{white-space:nowrap}
.boxes>div{display:flex;gap:1.5mm}.box{flex:1 1 0;min-width:0;border-bottom:1px solid #555;height:var(--box);font-size:6.5pt;line-height:1.1;color:#444}
.unbroken{white-space:nowrap}.never{font-weight:700}.tick{display:inline-block;width:3mm;height:3mm;border:1px solid #111;margin-right:1.2mm;vertical-align:-.4mm}
.last{font-size:8pt;margin:1.5mm 0 0}.scroll{overflow-x:auto}
@page{size:portrait;margin:8mm}@media print{article{padding:0;max-width:none}}
@media (max-width:40rem){article{padding:3mm}.first ul{columns:1}.boxes>div{flex-wrap:wrap}.box{flex-basis:25mm}}
";

/// All sheets of a shop as one self-contained page; one without kits says so in the language of the others.
pub fn rebuild_sheets_html(sheets: &[RebuildSheet], language: Language) -> String {
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
            body { main {
                @if sheets.is_empty() {
                    article { h1 { (language.text("Rebuild sheets")) } p { (language.text("No table gives a rebuild kit.")) } }
                }
                @for sheet in sheets { (article(sheet)) }
            } }
        }
    };
    markup.into_string()
}

fn article(sheet: &RebuildSheet) -> Markup {
    let say = |text: &str| sheet.language.text(text);
    // What may go in once approved takes a line more, of half its height; why parts must not goes on over lines.
    let open = (sheet.lines.iter())
        .filter(|line| !line.open.is_empty())
        .count();
    let refused: usize = (sheet.lines.iter())
        .map(|line| line.refused.chars().count())
        .sum();
    let told = sheet.lines.len() + open.div_ceil(2) + refused / REFUSED_A_LINE;
    let lines = match sheet.language {
        Language::ENGLISH => told,
        _ => (told * WORDIER.1).div_ceil(WORDIER.0),
    };
    let fits = |(most, _): &&(usize, &str)| lines <= *most;
    let size = SIZES
        .iter()
        .find(fits)
        .map_or("tightest least", |(_, size)| *size);
    html! {
        article class=(size) {
            h1 { (say("Rebuild")) ": " (words(&sheet.name)) }
            p.meta {
                @if let Some(machine) = &sheet.machine { (words(machine)) ". " }
                (words(&sheet.shop)) ", " (say("as of")) " " (sheet.language.moment(sheet.as_of))
                ". " (say("Done by")) ": ________________ " (say("Date")) ": ____________"
            }
            section.first { h2 { (say("Isolate first")) }
                ul { @for line in sheet.isolation { li { span.tick {} (say(line)) } } } }
            div.scroll role="region" aria-label={ (words(&sheet.name)) ": " (say("Lines")) } tabindex="0" { table {
                thead { tr { @for header in ["Line", "Part and size", "Needed", "Bin", "Here", "May also be fitted; ■ must not", "Torque, consumables, notes, checks"] {
                    th scope="col" { (say(header)) } } } }
                @for line in &sheet.lines { (row(line, sheet.language)) }
            } }
            @if !sheet.tasks.is_empty() {
                p.last { strong { (say("Tasks")) ": " }
                    @for (at, (task, hours)) in sheet.tasks.iter().enumerate() { @if at > 0 { "; " } span.tick {} (words(task)) " (" (sheet.language.number(&hours.to_string())) " h)" } }
            }
            section.last { h2 { (say("Before fitting")) } ul { @for caution in sheet.cautions { li { span.tick {} (say(caution)) } } } }
        }
    }
}

/// What is fitted in one row, and below it the boxes for what teardown shows.
fn row(line: &RebuildLine, language: Language) -> Markup {
    let say = |text: &str| language.text(text);
    html! {
        tbody {
            tr {
                th scope="rowgroup" rowspan="2" { span.tick {} (words(&line.line)) }
                td { (words(&line.part)) @if !line.size.is_empty() { ", " (words(&line.size)) } }
                td { (words(&line.needed)) }
                td.bin { (unbroken(&line.bins)) }
                td { (unbroken(&line.here)) }
                td { @if !line.accepted.is_empty() { p { (words(&line.accepted)) } }
                    @if !line.open.is_empty() { p { (say("▲ only if approved")) " " (words(&line.open)) } }
                    @if !line.refused.is_empty() { p { (say("■ not")) " " (words(&line.refused)) } } }
                td { @if line.is_never_again { p.never { (say("■ never fit the old one again")) } }
                    @if !line.note.is_empty() { p { (words(&line.note)) } }
                    @for check in &line.checks { p { span.tick {} (words(check)) } } }
            }
            tr { td.boxes colspan="6" { div { @for label in line.boxes { span.box { (say(label)) } } } } }
        }
    }
}
