//! Small folders of text tables; every figure is invented.

use std::fs;
use std::path::Path;

use chrono::{NaiveDate, NaiveDateTime};
use sparewright::import::{Imported, read_folder};
use sparewright::store::{Outcome, StoreError, Workspace};
use tempfile::TempDir;

pub type Files<'a> = &'a [(&'a str, &'a str)];

/// A moment on a day of 2026, which a test chooses so that nothing depends on today.
pub fn moment(month: u32, day: u32) -> NaiveDateTime {
    NaiveDate::from_ymd_opt(2026, month, day)
        .unwrap()
        .and_hms_opt(7, 30, 0)
        .unwrap()
}

pub fn write(folder: &Path, files: Files<'_>) {
    for (name, text) in files {
        fs::write(folder.join(name), text).unwrap();
    }
}

pub fn read(files: Files<'_>) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), files);
    read_folder(folder.path()).unwrap()
}

/// A workspace in a folder that goes with it.
pub struct Bench {
    pub workspace: Workspace,
    _folder: TempDir,
}

impl Bench {
    pub fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        Self {
            workspace: Workspace::create(&folder.path().join("shop")).unwrap(),
            _folder: folder,
        }
    }

    /// A workspace into which folders were imported one after the other.
    pub fn of(folders: &[Files<'_>]) -> Self {
        let bench = Self::new();
        for files in folders {
            bench.import(files);
        }
        bench
    }

    pub fn import(&self, files: Files<'_>) -> Outcome {
        self.try_import(files).unwrap()
    }

    pub fn try_import(&self, files: Files<'_>) -> Result<Outcome, StoreError> {
        self.workspace.import(&read(files), moment(3, 9))
    }

    pub fn load(&self) -> Imported {
        self.workspace.load(None).unwrap()
    }

    /// Part, bin and quantity of the stock that holds.
    pub fn stock(&self) -> Vec<String> {
        let rows = self.load().records.stock;
        let row = |row: &sparewright::record::StockRecord| {
            format!(
                "{} {} {}",
                row.part,
                row.bin.as_deref().unwrap_or("-"),
                row.on_hand.unwrap()
            )
        };
        rows.iter().map(row).collect()
    }

    /// Supplier, designation and unit price of the offers that hold.
    pub fn offers(&self) -> Vec<String> {
        let rows = self.load().records.offers;
        let row = |row: &sparewright::record::OfferRecord| {
            let price = row.price.unwrap().unit_price();
            format!(
                "{} {} {price}",
                row.supplier,
                row.designation.as_deref().unwrap()
            )
        };
        rows.iter().map(row).collect()
    }
}

/// What a state says, without the numbers of imports and moments.
pub fn said(workspace: &Workspace) -> String {
    match workspace.load(None) {
        Ok(imported) => format!("{:#?}\n{:?}", imported.records, imported.settings),
        Err(StoreError::Empty) => "nothing".to_owned(),
        Err(error) => panic!("the workspace must be whole: {error}"),
    }
}
