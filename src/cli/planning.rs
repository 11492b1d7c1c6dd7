//! What planning commands share: the shop they read, and the tables they print.

use std::path::Path;

use chrono::NaiveDateTime;

use super::args::{ShopArgs, TableArgs};
use super::exit::ExitCode;
use super::refusal::{self, Refusal};
use super::{counted, output, printed, run};
use crate::import::FileProblem;
use crate::job::{Job, JobError, Planned};
use crate::language::{Language, Translator};
use crate::record::read_moment;
use crate::report::model::Report;

/// Reads the shop of a planning command.
///
/// # Errors
/// The exit code, after the message was printed.
pub fn open(args: &ShopArgs) -> Result<Job, ExitCode> {
    let as_of = args.as_of.as_deref().map(moment).transpose()?;
    let read = |of: &Path, reads: fn(&Path, Option<NaiveDateTime>) -> Result<Job, JobError>| {
        reads(of, as_of).map_err(|error| run::fail(&error))
    };
    let job = match (&args.workspace, &args.shop) {
        (Some(workspace), _) => read(workspace, Job::open),
        (None, Some(folder)) => read(folder, Job::read),
        (None, None) => Err(usage("`--shop` or `--workspace` says where the shop is")),
    }?;
    refusal::settled(job.shop.settings.language);
    let mut problems = job.imported.problems.iter();
    if as_of.is_none()
        && let Some(problem) = problems.find(|problem| problem.may_hold_as_of())
    {
        return Err(moment_lost(problem));
    }
    let mut words = Translator::new(language(args, &job));
    output::note(&counted::not_read(&job.imported, &mut words));
    Ok(job)
}

/// Nobody plans as of the clock because the settings that say another moment cannot be read.
fn moment_lost(problem: &FileProblem) -> ExitCode {
    let why = format!(
        "the moment of planning stands in settings that cannot be read: {}: {}",
        problem.file, problem.reason
    );
    let hint = "mend the settings, or say it with `--as-of 2026-03-09T07:30`";
    Refusal::new(why).hinting(Some(hint)).tell();
    ExitCode::Input
}

/// A report with the files that could not be read in whole among what is not known.
pub fn with_not_read(mut report: Report, job: &Job) -> Report {
    let problems = job.imported.problems.iter();
    let told = problems.map(|of| format!("{}: {}: {}", of.label(), of.file, of.reason));
    report.cover.unknowns.extend(told);
    report
}

/// Plans the shop of a planning command.
///
/// # Errors
/// As [`open`].
pub fn planned(job: &Job) -> Result<Planned, ExitCode> {
    job.plan().map_err(|error| run::fail(&error))
}

/// [`open`] and [`planned`].
///
/// # Errors
/// As [`open`].
pub fn open_and_plan(args: &ShopArgs) -> Result<(Job, Planned), ExitCode> {
    let job = open(args)?;
    let planned = planned(&job)?;
    Ok((job, planned))
}

/// A moment on the command line.
///
/// # Errors
/// The exit code, after the message was printed.
pub fn moment(text: &str) -> Result<NaiveDateTime, ExitCode> {
    read_moment(text).ok_or_else(|| {
        usage(format!(
            "`{text}` is not a moment; expected 2026-03-09T07:30 or 2026-03-09"
        ))
    })
}

/// Language of what is printed: the command line's, else the settings'.
pub fn language(args: &ShopArgs, job: &Job) -> Language {
    let settings = job.shop.settings.language;
    args.language.or(settings).unwrap_or_default()
}

/// Prints a report as the tables asked for.
pub fn print_chosen(report: &Report, args: &TableArgs, csv_key: &str) -> ExitCode {
    printed::print(report, args.table.as_deref(), args.format, csv_key)
}

/// A wrong command line.
pub fn usage(why: impl Into<Refusal>) -> ExitCode {
    why.into().tell();
    ExitCode::Usage
}
