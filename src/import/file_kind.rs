//! What a file of the folder is, told by its name.

use super::file_problem::SkipReason;

/// Names under which reports are written.
const OWN_REPORT_NAMES: [&str; 3] = ["reorder.xlsx", "reorder.html", "rejected.csv"];
/// Kinds of workbook that are read.
const WORKBOOK_EXTENSIONS: [&str; 5] = ["xlsx", "xlsm", "xlsb", "xls", "ods"];
/// Kinds of text table that are read.
const TEXT_EXTENSIONS: [&str; 3] = ["csv", "tsv", "txt"];

/// What a file is by its name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileKind {
    /// A workbook.
    Workbook,
    /// A text table.
    Text,
    /// The shop's settings.
    Settings,
}

/// The kind of a file, or why it is left out.
pub fn kind_of_file(name: &str, is_folder: bool) -> Result<FileKind, SkipReason> {
    let lower = name.to_lowercase();
    let extension = lower
        .rsplit_once('.')
        .map_or("", |(_, extension)| extension);
    if is_folder {
        Err(SkipReason::Folder)
    } else if lower.starts_with("~$") || lower.starts_with(".~lock") {
        Err(SkipReason::Lock)
    } else if lower.starts_with('.') {
        Err(SkipReason::Hidden)
    } else if OWN_REPORT_NAMES.contains(&lower.as_str()) {
        Err(SkipReason::OwnReport)
    } else if WORKBOOK_EXTENSIONS.contains(&extension) {
        Ok(FileKind::Workbook)
    } else if TEXT_EXTENSIONS.contains(&extension) {
        Ok(FileKind::Text)
    } else if extension == "toml" {
        Ok(FileKind::Settings)
    } else {
        Err(SkipReason::OtherType)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_told_apart_by_their_names() {
        for (name, kind) in [
            ("Stock.XLSX", Ok(FileKind::Workbook)),
            ("a.ods", Ok(FileKind::Workbook)),
            ("a.txt", Ok(FileKind::Text)),
            ("shop.toml", Ok(FileKind::Settings)),
            ("~$stock.xlsx", Err(SkipReason::Lock)),
            (".~lock.stock.ods#", Err(SkipReason::Lock)),
            (".hidden.csv", Err(SkipReason::Hidden)),
            ("reorder.xlsx", Err(SkipReason::OwnReport)),
            ("Rejected.csv", Err(SkipReason::OwnReport)),
            ("photo.png", Err(SkipReason::OtherType)),
            ("README", Err(SkipReason::OtherType)),
        ] {
            assert_eq!(kind_of_file(name, false), kind, "{name}");
        }
        assert_eq!(kind_of_file("a.xlsx", true), Err(SkipReason::Folder));
    }
}
