//! `sparewright run`: the main job, and its short summary on the terminal.

use std::path::{Path, PathBuf};

use chrono::NaiveDateTime;

use super::args::{Printed, RunArgs};
use super::exit::ExitCode;
use super::planning::usage;
use super::progress::Bar;
use super::refusal::{self, Refusal};
use super::{interrupt, maps, output, planning, printed, requests};
use crate::catalogue::frame;
use crate::import::{ImportError, ImportOptions, Known, REJECTS_NAME};
use crate::job::{Job, JobError, Planned};
use crate::language::{Language, Translator};
use crate::report::content::{ORDER_HEADERS, Summary, rebuild_sheets, summary};
use crate::report::{
    Report, WriteError, rebuild_sheets_html, rejects_workbook, translated, translated_sheets,
    write_report_with,
};

/// Letters of the words that lines of the summary begin with, blanks included.
const LABEL_WIDTH: usize = 10;
/// Columns of the order lines that hold the shop's words: part and designation.
const SHOP_CELLS: [usize; 2] = [1, 2];
/// Folder below the present one that reports go to.
const REPORTS: &str = "reports";
/// Folder of the Parquet tables below the reports.
const TABLES: &str = "tables";
/// Page with a rebuild sheet for each kit.
const REBUILD_SHEETS: &str = "rebuild_sheets.html";

/// Runs the command.
pub fn run(args: &RunArgs) -> ExitCode {
    if args.folder.is_none() && args.workspace.is_none() {
        let why = Refusal::new("a folder or `--workspace` says where the shop is");
        return usage(why.hinting(Some(
            "`sparewright run FOLDER` reads a folder with spreadsheets",
        )));
    }
    let as_of = match args.as_of.as_deref().map(planning::moment).transpose() {
        Ok(as_of) => as_of,
        Err(code) => return code,
    };
    let out = args
        .out
        .clone()
        .unwrap_or_else(|| default_out(source(args)));
    let options = match maps::given(&args.maps) {
        Ok(maps) => ImportOptions { maps },
        Err(code) => return code,
    };
    if args.workspace.is_some() && !options.maps.is_empty() {
        let why = Refusal::new("a workspace holds tables that are read already");
        return usage(why.hinting(Some("give `--map` to `import`, which remembers it")));
    }
    let bar = Bar::begin("Reading", args.quiet);
    let known = Known {
        options,
        progress: bar.hears(),
        ..Known::default()
    };
    let done = read(args, &known, as_of).and_then(|job| {
        bar.go_on("Planning");
        job.plan().map(|planned| (job, planned))
    });
    let (job, planned) = match done {
        Ok(done) => done,
        Err(error) => {
            drop(bar);
            return fail(&error);
        }
    };
    refusal::settled(job.shop.settings.language);
    bar.go_on("Writing");
    let language = args
        .language
        .or(job.shop.settings.language)
        .unwrap_or_default();
    // A report that is printed too is held whole; else no more of it than is being written.
    let report = (!is_summary(args)).then(|| translated(job.report(&planned), language));
    let written = {
        let _to_its_end = interrupt::writing();
        write(&job, &planned, (report.as_ref(), language), &out)
    };
    drop(bar);
    if let Err(code) = written {
        return code;
    }
    finish(args, &job, &planned, (report, language, &out))
}

/// True where the short summary is printed, and no sheet.
fn is_summary(args: &RunArgs) -> bool {
    args.table.is_none() && args.format == Printed::Table
}

fn read(args: &RunArgs, known: &Known, as_of: Option<NaiveDateTime>) -> Result<Job, JobError> {
    let room = interrupt::room().map_err(JobError::Temporary)?;
    match &args.workspace {
        Some(workspace) => Job::open(workspace, as_of),
        None => Job::read_knowing(source(args), known, room.path(), as_of),
    }
}

/// The folder or the workspace, one of which is given.
fn source(args: &RunArgs) -> &Path {
    let given = args.workspace.as_deref().or(args.folder.as_deref());
    given.unwrap_or_else(|| Path::new("."))
}

/// The next step where nothing usable was found; a file whose own reason says what to do needs no other.
pub fn hint_for(error: &ImportError) -> Option<&'static str> {
    match error {
        ImportError::NothingUsable { problems, .. } if !problems.is_empty() => None,
        ImportError::NoRows { .. } => Some("export the table again, with its rows"),
        _ => Some("the folder must hold spreadsheets (xlsx, xls, ods, csv) with a header row"),
    }
}

pub fn fail(error: &JobError) -> ExitCode {
    let hint = match error {
        JobError::Import(error) => hint_for(error),
        _ => None,
    };
    Refusal::of(error).hinting(hint).tell();
    match error {
        JobError::Import(_) => ExitCode::Input,
        JobError::Store(error) => error.into(),
        JobError::Temporary(_) => ExitCode::Output,
        JobError::Frame(_) => ExitCode::Defect,
    }
}

/// Report files first, then the requests to send and the tables for other tools.
fn write(
    job: &Job,
    planned: &Planned,
    (report, language): (Option<&Report>, Language),
    out: &Path,
) -> Result<(), ExitCode> {
    let inputs = job.inputs(planned);
    let refused = |error: WriteError| {
        Refusal::of(&error)
            .hinting(Some("`--out` names another folder"))
            .tell();
        ExitCode::Output
    };
    let sheets = translated_sheets(rebuild_sheets(&inputs), language);
    let sheets = rebuild_sheets_html(&sheets, language).into_bytes();
    let rejects =
        rejects_workbook(&job.imported.rejects, language).map_err(|error| refused(error.into()))?;
    let others = vec![
        (REJECTS_NAME.to_owned(), rejects),
        (REBUILD_SHEETS.to_owned(), sheets),
    ];
    match report {
        Some(report) => write_report_with(report, &others, out),
        None => job.write_report(planned, language, &others, out),
    }
    .map_err(refused)?;
    requests::write(&inputs, language, out)?;
    write_tables(job, out)
}

/// Parquet tables: made in a folder of their own and moved only when all are complete.
fn write_tables(job: &Job, out: &Path) -> Result<(), ExitCode> {
    let tables = out.join(TABLES);
    let failed = |error: std::io::Error| {
        Refusal::not_written(&tables, &error).tell();
        ExitCode::Output
    };
    std::fs::create_dir_all(&tables).map_err(failed)?;
    let staging = tempfile::Builder::new()
        .prefix(".tables-")
        .tempdir_in(out)
        .map_err(failed)?;
    let made = frame::write_tables(&job.shop, staging.path()).map_err(|error| {
        Refusal::of(&error).tell();
        ExitCode::Output
    })?;
    for path in made {
        let name = path.file_name().unwrap_or_default();
        std::fs::rename(&path, tables.join(name)).map_err(failed)?;
    }
    Ok(())
}

fn finish(
    args: &RunArgs,
    job: &Job,
    planned: &Planned,
    (report, language, out): (Option<Report>, Language, &Path),
) -> ExitCode {
    let inputs = job.inputs(planned);
    if let Some(report) = &report {
        let printed = printed::print(report, args.table.as_deref(), args.format, "order_now");
        if printed != ExitCode::Done {
            return printed;
        }
    } else if !args.quiet {
        output::note(&notes(job, language));
        match output::result(&format!(
            "{}\n{} {}\n",
            in_words(summary(&inputs), language),
            language.text("Reports in"),
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

/// What of the tables was not taken, a line each.
fn notes(job: &Job, language: Language) -> String {
    let mut words = Translator::new(language);
    let mut text = String::new();
    for (label, lines) in [
        ("note: kept out", &job.kept_out),
        ("note: set aside", &job.set_aside),
    ] {
        for line in lines {
            text.push_str(&format!(
                "{}: {}\n",
                words.say(label),
                words.say(&line.to_string())
            ));
        }
    }
    text + &maps::not_used(&job.unused_maps, &mut words)
}

/// The summary with its first order lines as a table.
fn in_words(summary: Summary, language: Language) -> String {
    let mut translator = Translator::new(language);
    let mut say = |english: &str| translator.say(english);
    let mut text = format!("{}\n\n", say(&summary.head));
    let labels: Vec<String> = summary.lines.iter().map(|(label, _)| say(label)).collect();
    let widest = labels.iter().map(|label| label.chars().count() + 1).max();
    let width = widest.unwrap_or_default().max(LABEL_WIDTH);
    for (label, (_, words)) in labels.iter().zip(&summary.lines) {
        text.push_str(&output::wrapped(&format!("{label:<width$}"), &say(words)));
    }
    if !summary.orders.is_empty() {
        let header = ORDER_HEADERS.map(&mut say);
        let header = header.each_ref().map(String::as_str);
        let rows = summary.orders.into_iter().map(|row| {
            let cells = row.into_iter().enumerate();
            let said = cells.map(|(at, cell)| match SHOP_CELLS.contains(&at) {
                true => cell,
                false => say(&cell),
            });
            said.collect()
        });
        text.push('\n');
        text.push_str(&output::table(&header, rows.collect()));
    }
    if summary.more > 0 {
        let words = format!("and {} more, see the sheet `Order now`", summary.more);
        text.push_str(&format!(" {}\n", say(&words)));
    }
    text
}

/// `reports/<name of the folder>`, or of the file without its ending.
fn default_out(folder: &Path) -> PathBuf {
    let named = match folder.is_file() {
        true => folder.file_stem(),
        false => folder.file_name(),
    };
    let named = named.map(PathBuf::from);
    let name = named.or_else(|| Some(PathBuf::from(folder.canonicalize().ok()?.file_name()?)));
    Path::new(REPORTS).join(name.unwrap_or_else(|| PathBuf::from("shop")))
}
