//! `sparewright run`: the main job, and its short summary on the terminal.

use std::path::{Path, PathBuf};

use super::args::RunArgs;
use super::exit::ExitCode;
use super::output;
use crate::catalogue::frame;
use crate::import::REJECTS_NAME;
use crate::job::{Job, JobError, Planned};
use crate::record::read_moment;
use crate::report::content::{ORDER_HEADERS, Summary, summary};
use crate::report::{Report, WriteError, rejects_workbook, write_report_with};

/// Folder below the present one that reports go to.
const REPORTS: &str = "reports";
/// Folder of the Parquet tables below the reports.
const TABLES: &str = "tables";

/// Runs the command.
pub fn run(args: &RunArgs) -> ExitCode {
    let as_of = match args
        .as_of
        .as_deref()
        .map(|text| read_moment(text).ok_or(text))
        .transpose()
    {
        Ok(as_of) => as_of,
        Err(text) => {
            output::note(&format!(
                "error: `{text}` is not a moment; expected 2026-03-09T07:30 or 2026-03-09\n"
            ));
            return ExitCode::Usage;
        }
    };
    let out = args
        .out
        .clone()
        .unwrap_or_else(|| default_out(source(args)));
    let job = match &args.workspace {
        Some(workspace) => Job::open(workspace, as_of),
        None => Job::read(source(args), as_of),
    };
    let done = job.and_then(|job| job.plan().map(|planned| (job, planned)));
    let (job, planned) = match done {
        Ok(done) => done,
        Err(error) => return fail(&error),
    };
    let report = job.report(&planned);
    if let Err(code) = write(&job, &report, &out) {
        return code;
    }
    finish(args, &job, &planned, &out)
}

/// The folder or the workspace; clap sees to it that one is given.
fn source(args: &RunArgs) -> &Path {
    let given = args.workspace.as_deref().or(args.folder.as_deref());
    given.unwrap_or_else(|| Path::new("."))
}

pub fn fail(error: &JobError) -> ExitCode {
    let hint = "the folder must hold spreadsheets (xlsx, xls, ods, csv) with a header row";
    let hint = matches!(error, JobError::Import(_)).then_some(hint);
    output::error(error, hint);
    match error {
        JobError::Import(_) => ExitCode::Input,
        JobError::Store(error) => error.into(),
        JobError::Temporary(_) => ExitCode::Output,
        JobError::Frame(_) => ExitCode::Defect,
    }
}

/// Report files first, then the tables for other tools.
fn write(job: &Job, report: &Report, out: &Path) -> Result<(), ExitCode> {
    let rejects = rejects_workbook(&job.imported.rejects).map_err(WriteError::from);
    let written = rejects
        .and_then(|bytes| write_report_with(report, vec![(REJECTS_NAME.to_owned(), bytes)], out));
    written.map_err(|error| {
        output::error(&error, Some("`--out` names another folder"));
        ExitCode::Output
    })?;
    write_tables(job, out)
}

/// Parquet tables: made in a folder of their own and moved only when all are complete.
fn write_tables(job: &Job, out: &Path) -> Result<(), ExitCode> {
    let tables = out.join(TABLES);
    let failed = |error: std::io::Error| {
        output::note(&format!(
            "error: `{}` cannot be written: {error}\n",
            tables.display()
        ));
        ExitCode::Output
    };
    std::fs::create_dir_all(&tables).map_err(failed)?;
    let staging = tempfile::Builder::new()
        .prefix(".tables-")
        .tempdir_in(out)
        .map_err(failed)?;
    let made = frame::write_tables(&job.shop, staging.path()).map_err(|error| {
        output::error(&error, None);
        ExitCode::Output
    })?;
    for path in made {
        let name = path.file_name().unwrap_or_default();
        std::fs::rename(&path, tables.join(name)).map_err(failed)?;
    }
    Ok(())
}

fn finish(args: &RunArgs, job: &Job, planned: &Planned, out: &Path) -> ExitCode {
    let inputs = job.inputs(planned);
    if !args.quiet {
        for kept_out in &job.kept_out {
            output::note(&format!("note: {kept_out}\n"));
        }
        match output::result(&format!(
            "{}\nReports in {}\n",
            in_words(summary(&inputs)),
            out.display()
        )) {
            ExitCode::Done => {}
            code => return code,
        }
    }
    let has_findings = job.imported.rows_rejected > 0 || !planned.plan.reorder.orders.is_empty();
    if args.check && has_findings {
        ExitCode::Findings
    } else {
        ExitCode::Done
    }
}

/// The summary with its first order lines as a table.
fn in_words(summary: Summary) -> String {
    let mut text = summary.text;
    if !summary.orders.is_empty() {
        text.push('\n');
        text.push_str(&output::table(&ORDER_HEADERS, summary.orders));
    }
    if summary.more > 0 {
        text.push_str(&format!(
            " and {} more, see the sheet `Order now`\n",
            summary.more
        ));
    }
    text
}

/// `reports/<name of the folder>`.
fn default_out(folder: &Path) -> PathBuf {
    let named = folder.file_name().map(PathBuf::from);
    let name = named.or_else(|| Some(PathBuf::from(folder.canonicalize().ok()?.file_name()?)));
    Path::new(REPORTS).join(name.unwrap_or_else(|| PathBuf::from("shop")))
}
