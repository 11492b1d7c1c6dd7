//! What can be typed. The only home of clap.

use std::ffi::OsString;
use std::net::SocketAddr;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use super::exit::ExitCode;
use crate::language::Language;

/// Finds the standard part, the cheapest way back to running and the stock to keep, from a shop's spreadsheets.
#[derive(Debug, Parser)]
#[command(
    name = "sparewright",
    version,
    max_term_width = 100,
    arg_required_else_help = true
)]
struct Line {
    #[command(subcommand)]
    command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Read a folder of spreadsheets and write the reorder workbook, page, CSV and JSON
    #[command(
        after_help = "Examples:\n  sparewright run data/demo\n  sparewright run shop --as-of 2026-03-09T07:30 --out reports/monday\n  sparewright run shop --map \"prices*.xlsx!Netto EK=price\"\n  sparewright run --workspace shop-data"
    )]
    Run(RunArgs),
    /// Find the standard part and its equivalents for a size, a designation or measured values
    #[command(
        after_help = "Examples:\n  sparewright match \"30 x 62 x 16 deep groove\"\n  sparewright match \"6308 2RS C3\" --shop data/demo --format json\n  sparewright match \"44.96 84.9 19 worn\" --workspace shop-data"
    )]
    Match(MatchArgs),
    /// Take spreadsheets into a workspace, which keeps what was there before
    #[command(
        after_help = "Examples:\n  sparewright import data/demo --workspace shop-data\n  sparewright import stock_2026-03-13.xlsx --workspace shop-data --dry-run"
    )]
    Import(ImportArgs),
    /// List the snapshots of a workspace
    #[command(after_help = "Example:\n  sparewright history --workspace shop-data")]
    History(HistoryArgs),
    /// Say what changed from one snapshot to another, by part and supplier
    #[command(after_help = "Example:\n  sparewright compare 3 4 --workspace shop-data")]
    Compare(CompareArgs),
    /// Make a snapshot that holds what an earlier one held
    #[command(after_help = "Example:\n  sparewright restore 3 --workspace shop-data")]
    Restore(RestoreArgs),
    /// Forget old snapshots; the current one always stays
    #[command(
        after_help = "Example:\n  sparewright prune --workspace shop-data --keep-last 10 --keep-monthly"
    )]
    Prune(PruneArgs),
    /// Say where every value about a part came from, and what it replaced
    #[command(after_help = "Example:\n  sparewright explain B-0001 --workspace shop-data")]
    Explain(ExplainArgs),
    /// Plan one kit: what holds the machine, what to buy, what being sooner costs, whom to ring first
    #[command(
        after_help = "Examples:\n  sparewright kit \"Fan FN-6 shaft\" --shop data/demo\n  sparewright kit \"Fan FN-6 shaft\" --shop data/demo --budget 400 --by 2026-03-16T14:00\n  sparewright kit \"Fan FN-6 shaft\" --shop data/demo --table curve --format csv"
    )]
    Kit(KitArgs),
    /// Serve a page over a workspace: look-up, shop, import, downloads
    #[command(
        after_help = "Examples:\n  sparewright serve --workspace shop-data\n  sparewright serve --workspace shop-data --listen 192.168.1.20:8090"
    )]
    Serve(ServeArgs),
    /// Work out a check behind a verdict: life, static safety, seat fit, O-ring groove, lip speed, preload spacer
    #[command(
        after_help = "Examples:\n  sparewright check life --family deep_groove_ball --rating 19.5 --load 3 --rpm 1450\n  sparewright check seat --diameter 25 --seat k6 --clearance CN\n  sparewright check oring --inside 37.69 --section 3.53 --floor 38.1 --depth 2.87 --width 4.6"
    )]
    Check(CheckArgs),
}

/// Arguments of `check`.
#[derive(Debug, Args)]
pub struct CheckArgs {
    /// What to work out
    #[command(subcommand)]
    pub kind: CheckKind,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table, global = true)]
    pub format: Format,
}

/// The checks. Lengths in mm, forces in kN, unless the name says otherwise.
#[derive(Debug, Subcommand)]
pub enum CheckKind {
    /// Basic rating life, ISO 281
    Life {
        /// Family, such as deep_groove_ball
        #[arg(long)]
        family: String,
        /// Dynamic load rating C, kN
        #[arg(long)]
        rating: f64,
        /// Equivalent dynamic load P, kN
        #[arg(long)]
        load: f64,
        /// Speed, rev/min, for hours
        #[arg(long)]
        rpm: Option<f64>,
    },
    /// Static safety, ISO 76
    Static {
        /// Family, such as deep_groove_ball
        #[arg(long)]
        family: String,
        /// Static load rating C0, kN
        #[arg(long)]
        rating: f64,
        /// Radial force, kN
        #[arg(long)]
        radial: f64,
        /// Axial force, kN
        #[arg(long, default_value_t = 0.0)]
        axial: f64,
    },
    /// Interference of a bearing ring on its seat, ISO 286 with ISO 492
    Seat {
        /// Nominal diameter, mm
        #[arg(long)]
        diameter: f64,
        /// Class of the seat: k6 for a shaft, J7 for a housing
        #[arg(long)]
        seat: String,
        /// Tolerance class of the bearing
        #[arg(long, default_value = "P0")]
        class: String,
        /// Measured diameter of the seat, mm
        #[arg(long)]
        measured: Option<f64>,
        /// Expanded uncertainty of that measurement, µm
        #[arg(long, default_value_t = 4.0)]
        uncertainty: f64,
        /// Clearance group of a deep groove ball bearing, for the clearance left
        #[arg(long)]
        clearance: Option<String>,
    },
    /// Stretch, squeeze and fill of an O-ring in a measured groove
    Oring {
        /// Inside diameter, mm
        #[arg(long)]
        inside: f64,
        /// Section, mm
        #[arg(long)]
        section: f64,
        /// Diameter of the groove floor, mm
        #[arg(long)]
        floor: Option<f64>,
        /// Depth from floor to counterface, mm
        #[arg(long)]
        depth: f64,
        /// Width of the groove, mm
        #[arg(long)]
        width: Option<f64>,
        /// static_radial, static_face or reciprocating
        #[arg(long, default_value = "static_radial")]
        duty: String,
    },
    /// Speed of a shaft under the lip of a seal
    Lip {
        /// Shaft, mm
        #[arg(long)]
        shaft: f64,
        /// Speed, rev/min
        #[arg(long)]
        rpm: f64,
        /// Elastomer by its ISO 1629 symbol
        #[arg(long)]
        elastomer: Option<String>,
    },
    /// Difference of the spacers of a preloaded pair, from face offsets measured under load
    Spacer {
        /// Face offset of the first bearing, µm
        #[arg(long)]
        first: Option<f64>,
        /// Face offset of the second bearing, µm
        #[arg(long)]
        second: Option<f64>,
        /// Load they were measured under, N
        #[arg(long)]
        load: Option<f64>,
        /// Expanded uncertainty of each offset, µm
        #[arg(long, default_value_t = 0.5)]
        uncertainty: f64,
        /// Sum of both offsets that the machine's documentation asks for, µm
        #[arg(long)]
        documented: Option<f64>,
        /// Load the documentation states it under, N
        #[arg(long)]
        documented_load: Option<f64>,
        /// DB or DF
        #[arg(long, default_value = "DB")]
        arrangement: String,
        /// The offsets come from nominal or calliper widths
        #[arg(long)]
        from_widths: bool,
    },
}

/// Arguments of `run`.
#[derive(Debug, Args)]
pub struct RunArgs {
    /// Folder with the spreadsheets
    #[arg(required_unless_present = "workspace", conflicts_with = "workspace")]
    pub folder: Option<PathBuf>,
    /// Plan from the current snapshot of a workspace instead of a folder
    #[arg(long, value_name = "DIR")]
    pub workspace: Option<PathBuf>,
    /// What people say about columns; a workspace has its own, which `import` was given
    #[command(flatten)]
    pub maps: MapArgs,
    /// Folder for the reports [default: reports/<folder name>]
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Moment of planning, such as 2026-03-09T07:30 [default: the settings' as_of, else now]
    #[arg(long, value_name = "DATE-TIME")]
    pub as_of: Option<String>,
    /// Language of the reports, such as de [default: the settings' language, else en]
    #[arg(long, value_name = "CODE", value_parser = language)]
    pub language: Option<Language>,
    /// Exit with 1 if rows were rejected or something must be ordered now
    #[arg(long)]
    pub check: bool,
    /// Print errors only
    #[arg(long, short)]
    pub quiet: bool,
}

/// A language by its code.
fn language(code: &str) -> Result<Language, String> {
    Language::of_code(code).ok_or_else(|| {
        let known: Vec<&str> = Language::all().map(Language::code).collect();
        format!("expected one of {}", known.join(", "))
    })
}

/// What people say about columns.
#[derive(Debug, Args)]
pub struct MapArgs {
    /// Meaning of a column, such as "prices*.xlsx!Netto EK=price", "prices.xlsx!Sheet2!$C=price", "$C#2=price" for column C of
    /// a sheet's second table, or "Basis=-" for one that is not to be read; `import` remembers it for tables of the same shape
    #[arg(long = "map", value_name = "FILE!SHEET!COLUMN=FIELD")]
    pub maps: Vec<String>,
}

/// Arguments of `match`.
#[derive(Debug, Args)]
pub struct MatchArgs {
    /// Size, designation or measured values, as you would write them
    #[arg(required = true, num_args = 1.., value_name = "QUESTION", allow_negative_numbers = true)]
    pub question: Vec<String>,
    /// Folder with the shop's spreadsheets, to show own numbers, stock and offers
    #[arg(long, value_name = "DIR", conflicts_with = "workspace")]
    pub shop: Option<PathBuf>,
    /// Workspace to show own numbers, stock and offers from
    #[arg(long, value_name = "DIR")]
    pub workspace: Option<PathBuf>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Arguments of `kit`.
#[derive(Debug, Args)]
pub struct KitArgs {
    /// Name of the kit, or how it begins
    #[arg(value_name = "KIT")]
    pub name: String,
    /// Folder with the shop's spreadsheets
    #[arg(
        long,
        value_name = "DIR",
        required_unless_present = "workspace",
        conflicts_with = "workspace"
    )]
    pub shop: Option<PathBuf>,
    /// Plan from the current snapshot of a workspace instead of a folder
    #[arg(long, value_name = "DIR")]
    pub workspace: Option<PathBuf>,
    /// Moment of planning, such as 2026-03-09T07:30 [default: the settings' as_of, else now]
    #[arg(long, value_name = "DATE-TIME")]
    pub as_of: Option<String>,
    /// Soonest plan that spends no more than this, in the shop's currency
    #[arg(long, value_name = "AMOUNT", allow_negative_numbers = true)]
    pub budget: Option<f64>,
    /// Cheapest plan that runs by this moment
    #[arg(long, value_name = "DATE-TIME")]
    pub by: Option<String>,
    /// Plan without an offer: a supplier, `supplier/part`, or the offer's row; may be repeated
    #[arg(long, value_name = "OFFER")]
    pub without: Vec<String>,
    /// One table only, such as curve or ring_first [default: all; kit_lines as CSV]
    #[arg(long, value_name = "KEY")]
    pub table: Option<String>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Printed::Table)]
    pub format: Printed,
}

/// Form of an answer that is made of tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Printed {
    /// Tables for people
    Table,
    /// One table as CSV
    Csv,
    /// JSON with a schema number
    Json,
}

/// Arguments of `import`.
#[derive(Debug, Args)]
pub struct ImportArgs {
    /// Spreadsheets, text tables and settings, or folders with them
    #[arg(required = true, num_args = 1.., value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Folder that keeps what is imported; made where it is not there
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// What people say about columns
    #[command(flatten)]
    pub maps: MapArgs,
    /// Workbook to write rows to mend into; mended, it is imported like any file
    #[arg(long, value_name = "FILE", conflicts_with = "dry_run")]
    pub rejects: Option<PathBuf>,
    /// Show how each table is read and what would change, and write nothing
    #[arg(long)]
    pub dry_run: bool,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Arguments of `history`.
#[derive(Debug, Args)]
pub struct HistoryArgs {
    /// The workspace
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Arguments of `compare`.
#[derive(Debug, Args)]
pub struct CompareArgs {
    /// Number of the earlier snapshot
    #[arg(value_name = "A")]
    pub before: u32,
    /// Number of the later snapshot
    #[arg(value_name = "B")]
    pub after: u32,
    /// The workspace
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Arguments of `restore`.
#[derive(Debug, Args)]
pub struct RestoreArgs {
    /// Number of the snapshot
    #[arg(value_name = "N")]
    pub number: u32,
    /// The workspace
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
}

/// Arguments of `prune`.
#[derive(Debug, Args)]
pub struct PruneArgs {
    /// The workspace
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Keep the newest so many snapshots
    #[arg(long, value_name = "N")]
    pub keep_last: usize,
    /// Keep the last snapshot of each month besides
    #[arg(long)]
    pub keep_monthly: bool,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Arguments of `explain`.
#[derive(Debug, Args)]
pub struct ExplainArgs {
    /// Own number of the part
    #[arg(value_name = "PART", allow_hyphen_values = true)]
    pub part: String,
    /// The workspace
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Arguments of `serve`.
#[derive(Debug, Args)]
pub struct ServeArgs {
    /// The workspace; made where it is not there
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Address and port; on another than this machine's own (127.0.0.1) a key is needed, printed with a code to scan
    #[arg(long, value_name = "ADDRESS:PORT", default_value = "127.0.0.1:8090")]
    pub listen: SocketAddr,
}

/// Form of an answer on stdout.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// A table for people
    Table,
    /// JSON with a schema number
    Json,
}

/// Parses a command line; help, version and mistakes are printed here.
pub fn parse(arguments: impl IntoIterator<Item = OsString>) -> Result<Command, ExitCode> {
    match Line::try_parse_from(arguments) {
        Ok(line) => Ok(line.command),
        Err(error) => {
            let code = if error.use_stderr() {
                ExitCode::Usage
            } else {
                ExitCode::Done
            };
            // A closed pipe while printing help is no failure.
            let _ = error.print();
            Err(code)
        }
    }
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_arguments_are_well_defined() {
        Line::command().debug_assert();
    }

    #[test]
    fn a_negative_looking_question_is_a_question() {
        let Ok(Command::Match(args)) = parse(["sparewright", "match", "-318"].map(OsString::from))
        else {
            panic!("`match -318` must parse");
        };
        assert_eq!(args.question, ["-318"]);
    }
}
