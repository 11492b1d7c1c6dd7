//! Answers one question about a workspace's tables by the crate's streamed group-bys: what `questions.py` asks of SQL.
//!
//! `sparewright-scale QUESTION WORKSPACE INTO` writes the rows as Parquet and prints the process's peak memory in MiB.

use std::collections::BTreeMap;
use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};

use sparewright::catalogue::frame::streamed::{Summary, TableFiles, summarise};
use sparewright::store::Workspace;

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [question, workspace, into] = arguments.as_slice() else {
        return Err("usage: sparewright-scale QUESTION WORKSPACE INTO".into());
    };
    let summary = Summary::ALL
        .into_iter()
        .find(|summary| summary.name() == question)
        .ok_or_else(|| {
            let names = Summary::ALL.map(Summary::name);
            format!("no question `{question}`; there are {}", names.join(", "))
        })?;
    summarise(summary, &tables_of(Path::new(workspace))?, Path::new(into))?;
    println!("{:.0}", peak_mib()?);
    Ok(())
}

/// The files of the current snapshot.
fn tables_of(folder: &Path) -> Result<TableFiles, Box<dyn Error>> {
    let workspace = Workspace::open(folder)?;
    let manifest = workspace.manifest(workspace.number()?)?;
    let files: BTreeMap<&str, PathBuf> = (manifest.tables.iter())
        .map(|table| {
            (
                table.table.as_str(),
                folder.join("tables").join(&table.file),
            )
        })
        .collect();
    let file = |table: &str| {
        (files.get(table).cloned()).ok_or_else(|| format!("the workspace has no table `{table}`"))
    };
    Ok(TableFiles {
        parts: file("parts")?,
        offers: file("offers")?,
        stock: file("stock")?,
        usages: file("usages")?,
        receipts: file("receipts")?,
    })
}

/// Peak memory of this process, by the kernel.
fn peak_mib() -> Result<f64, Box<dyn Error>> {
    let status = fs::read_to_string("/proc/self/status")?;
    let line = (status.lines().find(|line| line.starts_with("VmHWM"))).ok_or("no peak is told")?;
    let kib: f64 = (line.split_whitespace().nth(1).ok_or("no figure")?).parse()?;
    Ok(kib / 1024.0)
}
