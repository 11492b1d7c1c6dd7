//! A shop of one press: four parts, three suppliers, one kit. Every row is there for a reason, said beside it.

use std::fs;
use std::path::Path;

use chrono::NaiveDate;
use serde_json::Value;
use sparewright::job::{Job, Planned};
use sparewright::report::content::order_report;
use sparewright::report::{Report, json_of};

/// The tables, as files.
#[derive(Clone)]
pub struct SmallShop {
    files: Vec<(&'static str, String)>,
}

/// The report of a shop, as JSON.
pub struct Sheets(Value);

impl SmallShop {
    /// Its tables besides the parts.
    pub const BESIDE_PARTS: [&str; 8] = [
        "stock.csv",
        "prices.csv",
        "suppliers.csv",
        "usages.csv",
        "machines.csv",
        "orders.csv",
        "kit.csv",
        "tasks.csv",
    ];

    pub fn new() -> Self {
        let files = [
            // A-4 was never used.
            (
                "parts.csv",
                "part no,designation,description,unit,min stock,shelf life months\n\
                 A-1,6205-2RS,drive bearing,piece,2,\n\
                 A-2,35x52x7 NBR,shaft seal,piece,1,60\n\
                 A-3,6206,spare bearing,piece,,\n\
                 A-4,6310,never used,piece,,\n",
            ),
            // The seals are past their shelf life.
            (
                "stock.csv",
                "part no,bin,on hand,cure date\nA-1,B1,0,\nA-2,B2,4,2019-01-15\nA-3,B3,1,\nA-4,B4,6,\n",
            ),
            // Cheap and slow against dear and quick; an expired quote; a supplier nobody approved.
            (
                "prices.csv",
                "supplier,part no,designation,price EUR,lead time,quote date,valid until,minimum quantity,pack quantity\n\
                 North,A-1,6205-2RS,4.20,3 days,2026-11-02,2026-12-31,1,1\n\
                 South,A-1,6205-2RS,3.80,2 weeks,2026-11-02,2026-12-31,10,10\n\
                 North,A-2,35x52x7,2.10,1 week,2026-11-02,2026-12-31,1,1\n\
                 South,A-3,6206,5.00,2 weeks,2026-01-02,2026-02-01,1,1\n\
                 East,A-3,6206,6.00,1 week,2026-11-02,2026-12-31,1,1\n",
            ),
            (
                "suppliers.csv",
                "supplier,approved,freight,order cutoff\nNorth,yes,12,15:00\nSouth,yes,8,12:00\nEast,no,5,12:00\n",
            ),
            (
                "usages.csv",
                "date,part no,quantity,machine,reason\n\
                 2024-02-05,A-1,2,Press,failure\n\
                 2025-03-11,A-1,2,Press,failure\n\
                 2026-05-20,A-1,2,Press,failure\n\
                 2025-06-10,A-2,1,Press,planned\n\
                 2026-06-10,A-3,1,Press,failure\n",
            ),
            (
                "machines.csv",
                "machine,installed,downtime cost EUR/h,criticality\nPress,1,200,A\n",
            ),
            // The last one is overdue by six weeks.
            (
                "orders.csv",
                "order,supplier,part no,quantity,ordered,promised,received\n\
                 B1,North,A-1,4,2025-03-12,2025-03-17,2025-03-19\n\
                 B2,North,A-1,4,2024-02-06,2024-02-09,2024-02-09\n\
                 B3,South,A-3,1,2026-10-01,2026-10-15,\n",
            ),
            (
                "kit.csv",
                "kit,machine,line,part no,quantity,task,no substitutes\n\
                 Press head,Press,10,A-1,2,fit,\n\
                 Press head,Press,20,A-2,1,fit,yes\n\
                 Press head,Press,30,A-3,1,fit,\n",
            ),
            (
                "tasks.csv",
                "kit,task,hours,predecessors\nPress head,strip,3,\nPress head,fit,4,strip\n",
            ),
        ];
        Self {
            files: files.map(|(name, text)| (name, text.to_owned())).to_vec(),
        }
    }

    /// The shop with one text of a file replaced by another; it must be there once.
    pub fn with(mut self, file: &str, from: &str, to: &str) -> Self {
        let (_, text) = (self.files.iter_mut())
            .find(|(name, _)| *name == file)
            .unwrap_or_else(|| panic!("no file {file}"));
        assert_eq!(text.matches(from).count(), 1, "`{from}` in {file}");
        *text = text.replace(from, to);
        self
    }

    /// The shop with one more file.
    pub fn and(mut self, name: &'static str, text: &str) -> Self {
        assert!(self.files.iter().all(|(of, _)| *of != name), "{name} twice");
        self.files.push((name, text.to_owned()));
        self
    }

    /// The shop with every file's text as a function makes it of name and text.
    pub fn each(mut self, made: impl Fn(&str, &str) -> String) -> Self {
        for (name, text) in &mut self.files {
            *text = made(name, text);
        }
        self
    }

    /// The shop with this part offered in francs only; nothing says what a franc is.
    pub fn in_francs(self, number: &str) -> Self {
        self.each(|name, text| {
            if name != "prices.csv" {
                return text.to_owned();
            }
            let currency = |line: &str| match line {
                _ if line.starts_with("supplier,") => "currency",
                _ if line.contains(&format!(",{number},")) => "CHF",
                _ => "EUR",
            };
            text.replace("price EUR", "price")
                .lines()
                .map(|line| format!("{line},{}\n", currency(line)))
                .collect()
        })
    }

    /// The shop without a file.
    pub fn without(mut self, file: &str) -> Self {
        let before = self.files.len();
        self.files.retain(|(name, _)| *name != file);
        assert_eq!(self.files.len() + 1, before, "no file {file}");
        self
    }

    /// Writes its tables into a folder.
    pub fn write(&self, folder: &Path) {
        for (name, text) in &self.files {
            fs::write(folder.join(name), text).unwrap();
        }
    }

    /// Its report as of Thursday, 26 November 2026, 08:00.
    pub fn report(&self) -> Sheets {
        self.report_of((2026, 11, 26))
    }

    /// Its report as of 08:00 of a day.
    pub fn report_of(&self, day: (i32, u32, u32)) -> Sheets {
        self.sheets_of(day, |job, planned| job.report(planned))
    }

    /// Its order list as of the same moment as [`report`](Self::report).
    pub fn order_list(&self) -> Sheets {
        self.sheets_of((2026, 11, 26), |job, planned| {
            order_report(&job.inputs(planned))
        })
    }

    fn sheets_of(
        &self,
        (year, month, day): (i32, u32, u32),
        report: impl Fn(&Job, &Planned) -> Report,
    ) -> Sheets {
        let folder = tempfile::tempdir().unwrap();
        self.write(folder.path());
        let as_of = NaiveDate::from_ymd_opt(year, month, day)
            .and_then(|day| day.and_hms_opt(8, 0, 0))
            .unwrap();
        let job = Job::read(folder.path(), Some(as_of)).unwrap();
        let planned = job.plan().unwrap();
        Sheets(serde_json::from_slice(&json_of(&report(&job, &planned))).unwrap())
    }
}

impl Sheets {
    /// Rows of a sheet.
    pub fn rows(&self, sheet: &str) -> &[Value] {
        let rows = self.0["sheets"][sheet]["rows"].as_array();
        rows.unwrap_or_else(|| panic!("no sheet {sheet}"))
    }

    /// The one row of a sheet in which a column holds a text.
    pub fn row(&self, sheet: &str, column: &str, text: &str) -> &Value {
        let rows = self.rows(sheet);
        let mut found = rows.iter().filter(|row| row[column] == text);
        let row = found.next();
        assert!(found.next().is_none(), "{sheet}: {column} {text} twice");
        row.unwrap_or_else(|| panic!("{sheet}: no {column} {text} in {rows:?}"))
    }

    /// A column of a sheet as texts.
    pub fn texts(&self, sheet: &str, column: &str) -> Vec<String> {
        let rows = self.rows(sheet).iter();
        rows.map(|row| row[column].as_str().unwrap_or("-").to_owned())
            .collect()
    }

    /// The sum of a column, as the sheet itself states it.
    pub fn total(&self, sheet: &str, column: &str) -> f64 {
        let of = &self.0["sheets"][sheet]["totals"][column];
        assert_eq!(of["unknown_rows"], 0, "{sheet}, {column}");
        of["sum"].as_f64().unwrap()
    }

    /// A fact of the cover.
    pub fn fact(&self, label: &str) -> f64 {
        let facts = self.0["cover"]["facts"].as_array().unwrap();
        let fact = facts.iter().find(|fact| fact["label"] == label);
        fact.unwrap_or_else(|| panic!("no fact {label}"))["value"]
            .as_f64()
            .unwrap()
    }

    /// Texts of a list of the cover: `actions` or `unknowns`.
    pub fn cover(&self, list: &str) -> Vec<String> {
        let items = self.0["cover"][list].as_array().unwrap().iter();
        items
            .map(|item| {
                let text = item.as_str().or_else(|| item["text"].as_str());
                text.unwrap().to_owned()
            })
            .collect()
    }

    /// The whole report.
    pub fn json(&self) -> &Value {
        &self.0
    }
}
