//! Puts a report into another language before it is rendered: the program's texts by their messages, the shop's words
//! as they are.
//!
//! The English text is the key, so that what a sheet says is written in one place and a new text only needs its line in
//! the message file; until it has one it stands in English. Which columns hold the shop's words is listed here; a new
//! column of such words is one more line.

use super::content::{RebuildLine, RebuildSheet};
use super::model::{Action, Cover, Report, Row, Sheet, Value};
use crate::language::{Language, Translator};
use crate::record::UNNAMED_SHOP;

/// Keys of columns whose words are the shop's: numbers, names, remarks; with the key of their sheet before where other sheets
/// use the key for words of the program.
const SHOP_COLUMNS: [&str; 21] = [
    "asks_for",
    "bin",
    "buy",
    "designation",
    "file",
    "kit",
    "kit_lines.note",
    "line",
    "machine",
    "not_read",
    "number",
    "numbers",
    "one_way",
    "order_cutoff",
    "our_number",
    "part",
    "parts",
    "row",
    "sheet",
    "task",
    "your_number",
];

/// Keys of columns that hold either: words without a message are taken for the shop's.
const MIXED_COLUMNS: [&str; 11] = [
    "standard",
    "cell",
    "supplier",
    "where",
    "checks",
    "note",
    "accepted",
    "not_accepted",
    "conditions",
    "size_checked",
    "substitute",
];

/// Sheet and column of headers with their meanings.
const HEADERS_COLUMN: &str = "files.columns";

/// The report in `language`.
pub fn translated(report: Report, language: Language) -> Report {
    if language == Language::ENGLISH {
        return report;
    }
    Walk::new(language).report(report)
}

/// One sheet in `language`.
pub fn translated_sheet(mut sheet: Sheet, language: Language) -> Sheet {
    if language != Language::ENGLISH {
        Walk::new(language).sheet(&mut sheet);
    }
    sheet
}

/// Texts of the program in this report that `language` has no message for, in full or in part.
pub fn untranslated(report: &Report, language: Language) -> Vec<String> {
    let mut walk = Walk::new(language);
    walk.report(report.clone());
    walk.program.missing().iter().cloned().collect()
}

/// The rebuild sheets in `language`.
pub fn translated_sheets(sheets: Vec<RebuildSheet>, language: Language) -> Vec<RebuildSheet> {
    if language == Language::ENGLISH {
        return sheets;
    }
    let mut walk = Walk::new(language);
    sheets
        .into_iter()
        .map(|sheet| walk.rebuild_sheet(sheet))
        .collect()
}

/// Texts of rebuild sheets that `language` has no message for; their frame is not among them.
pub fn untranslated_sheets(sheets: &[RebuildSheet], language: Language) -> Vec<String> {
    let mut walk = Walk::new(language);
    for sheet in sheets {
        walk.rebuild_sheet(sheet.clone());
    }
    walk.program.missing().iter().cloned().collect()
}

struct Walk {
    language: Language,
    /// For texts of the program.
    program: Translator,
    /// For texts that may be the shop's; what it misses is no fault.
    mixed: Translator,
}

impl Walk {
    fn new(language: Language) -> Self {
        Self {
            language,
            program: Translator::new(language),
            mixed: Translator::new(language),
        }
    }

    fn say(&mut self, text: &mut String) {
        *text = self.program.say(text);
    }

    /// The name of a shop is its own, but for the one that we give where it has none.
    fn shop(&mut self, name: &mut String) {
        if name == UNNAMED_SHOP {
            self.say(name);
        }
    }

    fn say_all(&mut self, texts: &mut [String]) {
        for text in texts {
            self.say(text);
        }
    }

    fn report(&mut self, mut report: Report) -> Report {
        report.language = self.language;
        self.say(&mut report.title);
        self.shop(&mut report.shop);
        self.cover(&mut report.cover);
        for sheet in &mut report.sheets {
            self.sheet(sheet);
        }
        report
    }

    fn cover(&mut self, cover: &mut Cover) {
        for fact in &mut cover.facts {
            self.say(&mut fact.label);
            self.value(&mut fact.value, Some(Words::Program));
            if let Some(note) = &mut fact.note {
                self.say(note);
            }
        }
        for Action { text, detail, .. } in &mut cover.actions {
            self.say(text);
            // Names of suppliers, kits and lines stand in it, with the program's words or without.
            *detail = self.mixed.say(detail);
        }
        for age in &mut cover.data_ages {
            self.say(&mut age.what);
            if let Some(note) = &mut age.note {
                self.say(note);
            }
        }
        self.say_all(&mut cover.cautions);
        self.say_all(&mut cover.unknowns);
    }

    fn sheet(&mut self, sheet: &mut Sheet) {
        sheet.language = self.language;
        self.say(&mut sheet.title);
        self.say(&mut sheet.question);
        self.say(&mut sheet.empty_text);
        self.say_all(&mut sheet.notes);
        for column in &mut sheet.columns {
            column.language = self.language;
            self.say(&mut column.header);
            if let Some(help) = &mut column.help {
                self.say(help);
            }
        }
        for chart in &mut sheet.charts {
            self.say(&mut chart.title);
            self.say(&mut chart.description);
        }
        let words: Vec<_> = sheet
            .columns
            .iter()
            .map(|column| words_of(&sheet.key, &column.key))
            .collect();
        for Row { cells, .. } in &mut sheet.rows {
            for (value, words) in cells.iter_mut().zip(&words) {
                self.value(value, *words);
            }
        }
    }

    /// Headers as their file has them, each with what it was taken for: only that is ours.
    fn headers(&mut self, text: &str) -> String {
        let each = text.split("; ").map(|pair| match pair.rsplit_once(" = ") {
            Some((header, meaning)) => format!("{header} = {}", self.program.say(meaning)),
            None => pair.to_owned(),
        });
        each.collect::<Vec<_>>().join("; ")
    }

    /// A cell; `words` says whose its words are, `None` the shop's.
    fn value(&mut self, value: &mut Value, words: Option<Words>) {
        match (value, words) {
            (Value::Unknown(reason), _) => *reason = self.program.say(reason).into(),
            (Value::Text(text), Some(Words::Program)) => *text = self.program.say(text).into(),
            (Value::Text(text), Some(Words::Mixed)) => *text = self.mixed.say(text).into(),
            (Value::Text(text), Some(Words::Headers)) => *text = self.headers(text).into(),
            _ => {}
        }
    }

    fn rebuild_sheet(&mut self, mut sheet: RebuildSheet) -> RebuildSheet {
        sheet.language = self.language;
        self.shop(&mut sheet.shop);
        for line in &mut sheet.lines {
            let RebuildLine {
                size,
                needed,
                here,
                accepted,
                open,
                refused,
                checks,
                ..
            } = line;
            for text in [size, here] {
                self.say(text);
            }
            *needed = self.mixed.say(needed);
            // What to check is in the words of the person who approved.
            *accepted = self.mixed.say_each(accepted);
            *open = self.mixed.say_each(open);
            *refused = self.mixed.say_each(refused);
            for check in checks {
                *check = self.mixed.say(check);
            }
        }
        sheet
    }
}

/// Whose words a cell holds, where they are not the shop's alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Words {
    Program,
    Mixed,
    /// Headers of a file, each with its meaning in words of the program.
    Headers,
}

fn words_of(sheet: &str, key: &str) -> Option<Words> {
    let in_sheet = format!("{sheet}.{key}");
    if SHOP_COLUMNS.contains(&key) || SHOP_COLUMNS.contains(&in_sheet.as_str()) {
        None
    } else if in_sheet == HEADERS_COLUMN {
        Some(Words::Headers)
    } else if MIXED_COLUMNS.contains(&key) {
        Some(Words::Mixed)
    } else {
        Some(Words::Program)
    }
}
