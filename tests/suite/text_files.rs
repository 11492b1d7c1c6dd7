//! Text tables as files hold them: quotes and line ends (RFC 4180), encodings (WHATWG), delimiters, and where a cell stands.

mod delimiters;
mod encodings;
mod quoting;

use sparewright::import::{ImportError, Imported, read_folder};

/// Imports one file; a folder of nothing usable is an import of nothing.
fn import(name: &str, bytes: &[u8]) -> Result<Imported, ImportError> {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join(name), bytes).unwrap();
    read_folder(folder.path())
}

/// The stock rows of one file, as `part|bin|on hand` with the cell of the row.
fn stock(bytes: &[u8]) -> Vec<String> {
    let imported = import("stock.csv", bytes).unwrap_or_else(|error| panic!("{error}"));
    let rows = imported.records.stock.iter().map(|row| {
        let bin = row.bin.as_deref().unwrap_or("-");
        let on_hand = row
            .on_hand
            .map_or_else(|| "?".to_owned(), |on_hand| on_hand.to_string());
        format!("{}: {}|{bin}|{on_hand}", row.place.cell(), row.part)
    });
    rows.collect()
}

/// How a file was told, in the words of its table's notes.
fn told(bytes: &[u8]) -> Vec<String> {
    let imported = import("stock.csv", bytes).unwrap_or_else(|error| panic!("{error}"));
    let notes = imported.tables.iter().flat_map(|table| table.why.clone());
    notes.filter(|note| note.starts_with("read as ")).collect()
}

#[test]
fn a_text_file_is_a_text_file_under_each_of_its_endings() {
    for name in [
        "stock.csv",
        "stock.CSV",
        "stock.txt",
        "stock.tsv",
        "stock.Txt",
    ] {
        let imported = import(name, b"Part no;Bin;On hand\nA-1;R1;5\n").unwrap();
        assert_eq!(imported.records.stock.len(), 1, "{name}");
        assert_eq!(&*imported.records.stock[0].place.file, name);
        assert_eq!(
            &*imported.records.stock[0].place.sheet, "",
            "a text file has no sheet"
        );
    }
    for name in ["stock.md", "stock", "stock.csv.bak", "stock.doc"] {
        let nothing = import(name, b"Part no;Bin;On hand\nA-1;R1;5\n");
        assert!(
            matches!(nothing, Err(ImportError::NothingUsable { .. })),
            "{name}"
        );
    }
}
