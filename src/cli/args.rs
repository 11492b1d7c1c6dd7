//! What can be typed. The only home of clap.

use std::ffi::OsString;
use std::net::SocketAddr;
use std::path::PathBuf;

use clap::{Args, CommandFactory, Parser, Subcommand, ValueEnum};
use clap_complete::Shell;

use super::exit::ExitCode;
use crate::language::Language;

/// Name of the program.
pub const NAME: &str = "sparewright";

/// Finds the standard part, the cheapest way back to running and the stock to keep, from a shop's spreadsheets.
#[derive(Debug, Parser)]
#[command(
    name = NAME,
    version,
    max_term_width = 100,
    arg_required_else_help = true,
    after_help = "Exit codes:\n    0  done\n    1  done, with findings (run --check)\n    2  wrong usage\n    3  nothing usable in the input\n    4  output could not be written\n   70  a defect of ours\n  130  ended by Ctrl-C\n\nNothing is coloured, so NO_COLOR changes nothing; COLUMNS is the width where there is no terminal.\n\nExamples:\n  sparewright run data/demo\n  sparewright match \"6206-2RS C3\""
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
        after_help = "Examples:\n  sparewright run data/demo\n  sparewright run shop --as-of 2026-03-09T07:30 --out reports/monday\n  sparewright run shop --map \"prices*.xlsx!Netto EK=price\"\n  sparewright run --workspace shop-data\n  sparewright run data/demo --table order_now --format csv"
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
    #[command(
        after_help = "Examples:\n  sparewright history --workspace shop-data\n  sparewright history --workspace shop-data --format json"
    )]
    History(HistoryArgs),
    /// Say what changed from one snapshot to another, by part and supplier
    #[command(
        after_help = "Examples:\n  sparewright compare 3 4 --workspace shop-data\n  sparewright compare 1 4 --workspace shop-data --format json"
    )]
    Compare(CompareArgs),
    /// Make a snapshot that holds what an earlier one held
    #[command(
        after_help = "Examples:\n  sparewright restore 3 --workspace shop-data\n  sparewright restore 3 --workspace shop-data --format json"
    )]
    Restore(RestoreArgs),
    /// Forget old snapshots; the current one always stays
    #[command(
        after_help = "Examples:\n  sparewright prune --workspace shop-data --keep-last 10\n  sparewright prune --workspace shop-data --keep-last 10 --keep-monthly"
    )]
    Prune(PruneArgs),
    /// Say where every value about a part came from, and what it replaced
    #[command(
        after_help = "Examples:\n  sparewright explain B-0001 --workspace shop-data\n  sparewright explain B-0001 --workspace shop-data --format json"
    )]
    Explain(ExplainArgs),
    /// Plan one kit: what holds the machine, what to buy, what being sooner costs, whom to ring first
    #[command(
        after_help = "Examples:\n  sparewright kit \"Fan FN-6 shaft\" --shop data/demo\n  sparewright kit \"Fan FN-6 shaft\" --shop data/demo --budget 400 --by 2026-03-16T14:00\n  sparewright kit \"Fan FN-6 shaft\" --shop data/demo --table curve --format csv"
    )]
    Kit(KitArgs),
    /// Show each stock level with why not one less, old against new, and what service costs
    #[command(
        after_help = "Examples:\n  sparewright levels --shop data/demo --part BRG-0106\n  sparewright levels --shop data/demo --budget 12000 --table levels_old_new\n  sparewright levels --shop data/demo --target 0.97 --table service_curve --format csv"
    )]
    Levels(LevelsArgs),
    /// Think a change through: a slower supplier, one gone, a smaller budget, a machine more or less
    #[command(
        name = "what-if",
        after_help = "Examples:\n  sparewright what-if --shop data/demo --slower Courroux=2 --budget-cut 20\n  sparewright what-if --shop data/demo --gone Vossenkamper --table what_if_kits\n  sparewright what-if --shop data/demo --one-more PP-3 --retired VP-1 --format json"
    )]
    WhatIf(WhatIfArgs),
    /// List what to order, what can wait, whom to chase, what is on the shelf for nothing, what to set first
    #[command(
        after_help = "Examples:\n  sparewright reorder --shop data/demo\n  sparewright reorder --shop data/demo --table surplus --format csv\n  sparewright reorder --workspace shop-data --format json"
    )]
    Reorder(ReorderArgs),
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
    /// Print what a shell needs to complete commands and options
    #[command(
        after_help = "Examples:\n  sparewright completions bash > ~/.local/share/bash-completion/completions/sparewright\n  sparewright completions zsh > ~/.zfunc/_sparewright"
    )]
    Completions(CompletionsArgs),
    /// Print a manual page, or write all of them
    #[command(
        after_help = "Examples:\n  sparewright man kit | man -l -\n  sparewright man --out ~/.local/share/man/man1"
    )]
    Man(ManArgs),
}

/// Arguments of `completions`.
#[derive(Debug, Args)]
pub struct CompletionsArgs {
    /// The shell
    #[arg(value_enum)]
    pub shell: Shell,
}

/// Arguments of `man`.
#[derive(Debug, Args)]
pub struct ManArgs {
    /// Command to tell about [default: the program as a whole]
    #[arg(value_name = "COMMAND", conflicts_with = "out")]
    pub command: Option<String>,
    /// Folder to write every page into
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
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
    #[command(
        after_help = "Example:\n  sparewright check life --family deep_groove_ball --rating 19.5 --load 3 --rpm 1450"
    )]
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
    #[command(
        after_help = "Example:\n  sparewright check static --family deep_groove_ball --rating 11.2 --radial 4 --axial 1"
    )]
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
    #[command(
        after_help = "Example:\n  sparewright check seat --diameter 25 --seat k6 --clearance CN"
    )]
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
    #[command(
        after_help = "Example:\n  sparewright check oring --inside 37.69 --section 3.53 --floor 38.1 --depth 2.87 --width 4.6"
    )]
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
    #[command(
        after_help = "Example:\n  sparewright check lip --shaft 35 --rpm 1450 --elastomer NBR"
    )]
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
    #[command(
        after_help = "Example:\n  sparewright check spacer --first 4 --second 6 --load 200 --documented 12 --documented-load 200"
    )]
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
    /// Print this table of the report instead of the summary, such as order_now or kits [default as CSV: order_now]
    #[arg(long, value_name = "KEY")]
    pub table: Option<String>,
    /// Form of what is printed: the summary, one table as CSV, the whole report or one table as JSON
    #[arg(long, value_enum, default_value_t = Printed::Table)]
    pub format: Printed,
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
    /// Language of the answer for people, such as de [default: en]
    #[arg(long, value_name = "CODE", value_parser = language)]
    pub language: Option<Language>,
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
    /// Where the shop is
    #[command(flatten)]
    pub shop: ShopArgs,
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

/// Where the shop of a planning command is.
#[derive(Debug, Args)]
pub struct ShopArgs {
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
    /// Language of what is printed for people, such as de [default: the settings' language, else en]
    #[arg(long, value_name = "CODE", value_parser = language)]
    pub language: Option<Language>,
}

/// Which tables are printed, and how.
#[derive(Debug, Args)]
pub struct TableArgs {
    /// One table only, by its key in the JSON form [default: all; the first as CSV]
    #[arg(long, value_name = "KEY")]
    pub table: Option<String>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Printed::Table)]
    pub format: Printed,
}

/// Arguments of `levels`.
#[derive(Debug, Args)]
pub struct LevelsArgs {
    /// Where the shop is
    #[command(flatten)]
    pub shop: ShopArgs,
    /// Only this part, by our number or another name; may be repeated
    #[arg(long, value_name = "PART")]
    pub part: Vec<String>,
    /// Rule, in place of the settings' `levels_by`
    #[arg(long, value_enum, value_name = "RULE")]
    pub by: Option<Rule>,
    /// Share of usages met from the shelf, in place of the settings' service target
    #[arg(long, value_name = "SHARE", conflicts_with = "budget")]
    pub target: Option<f64>,
    /// Value of the stock, in the shop's currency, in place of a service target
    #[arg(long, value_name = "AMOUNT", conflicts_with = "by")]
    pub budget: Option<f64>,
    /// Tables
    #[command(flatten)]
    pub tables: TableArgs,
}

/// The rule of the levels.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Rule {
    /// One price of a stock-out for the whole shop
    StockOutPrice,
    /// The machines' downtime in full
    DowntimeCost,
    /// A target for each part, by criticality
    ServiceTarget,
}

/// Arguments of `what-if`.
#[derive(Debug, Args)]
pub struct WhatIfArgs {
    /// Where the shop is
    #[command(flatten)]
    pub shop: ShopArgs,
    /// Lead times of a supplier so many times as long, such as Courroux=2; may be repeated
    #[arg(long, value_name = "SUPPLIER=FACTOR")]
    pub slower: Vec<String>,
    /// A supplier is gone, with what is on order there; may be repeated
    #[arg(long, value_name = "SUPPLIER")]
    pub gone: Vec<String>,
    /// The money in stock is cut by so many per cent
    #[arg(long, value_name = "PERCENT", allow_negative_numbers = true)]
    pub budget_cut: Option<f64>,
    /// One more machine of this name; may be repeated
    #[arg(long, value_name = "MACHINE")]
    pub one_more: Vec<String>,
    /// Machines of this name leave service now; may be repeated
    #[arg(long, value_name = "MACHINE")]
    pub retired: Vec<String>,
    /// Tables
    #[command(flatten)]
    pub tables: TableArgs,
}

/// Arguments of `reorder`.
#[derive(Debug, Args)]
pub struct ReorderArgs {
    /// Where the shop is
    #[command(flatten)]
    pub shop: ShopArgs,
    /// Tables
    #[command(flatten)]
    pub tables: TableArgs,
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
    /// Language of the workbook of rows to mend, such as de [default: en]
    #[arg(long, value_name = "CODE", value_parser = language, requires = "rejects")]
    pub language: Option<Language>,
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
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
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

/// What a shell needs to complete commands and options.
pub fn completions(shell: Shell) -> String {
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut Line::command(), NAME, &mut text);
    String::from_utf8_lossy(&text).into_owned()
}

/// The manual pages by name: that of the program, and one for each command below it.
pub fn manual_pages() -> Vec<(String, String)> {
    let mut pages = Vec::new();
    let mut whole = Line::command().disable_help_subcommand(true);
    whole.build();
    pages_of(&whole, NAME, &mut pages);
    pages
}

fn pages_of(command: &clap::Command, name: &str, pages: &mut Vec<(String, String)>) {
    // Without a date of its own, so that the same version gives the same page.
    let titled = command.clone().display_name(name.to_owned());
    let mut page = Vec::new();
    clap_mangen::Man::new(titled)
        .title(name.to_owned())
        .render(&mut page)
        .expect("a page in memory has no device that could fail");
    pages.push((name.to_owned(), String::from_utf8_lossy(&page).into_owned()));
    for inner in command.get_subcommands() {
        pages_of(inner, &format!("{name}-{}", inner.get_name()), pages);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Words of an example as a shell splits them.
    fn split(line: &str) -> Vec<OsString> {
        let mut words = vec![String::new()];
        let mut is_quoted = false;
        for letter in line.chars() {
            match letter {
                '"' => is_quoted = !is_quoted,
                ' ' if !is_quoted => words.push(String::new()),
                _ => words.last_mut().unwrap().push(letter),
            }
        }
        words.into_iter().map(OsString::from).collect()
    }

    fn check_examples(command: &clap::Command) -> usize {
        let help = command
            .get_after_help()
            .map(ToString::to_string)
            .unwrap_or_default();
        let examples: Vec<&str> = help
            .lines()
            .filter_map(|line| line.strip_prefix("  sparewright "))
            .collect();
        assert!(
            !examples.is_empty(),
            "`{}` has no example",
            command.get_name()
        );
        for example in &examples {
            let typed = example.split(['>', '|']).next().unwrap().trim();
            let words = split(&format!("sparewright {typed}"));
            let parsed = Line::try_parse_from(words);
            assert!(parsed.is_ok(), "{example}: {}", parsed.unwrap_err());
        }
        let inner = command
            .get_subcommands()
            .filter(|of| of.get_name() != "help");
        examples.len() + inner.map(check_examples).sum::<usize>()
    }

    #[test]
    fn every_command_shows_examples_that_parse() {
        assert!(check_examples(&Line::command()) > 30);
    }

    #[test]
    fn exit_codes_stand_in_help_and_readme_as_they_are() {
        let help = Line::command().get_after_help().unwrap().to_string();
        let readme = include_str!("../../README.md");
        for code in [
            ExitCode::Done,
            ExitCode::Findings,
            ExitCode::Usage,
            ExitCode::Input,
            ExitCode::Output,
            ExitCode::Defect,
        ] {
            let number = code.number();
            assert!(
                help.contains(&format!("{number:>5}  ")),
                "{number} in {help}"
            );
            assert!(
                readme.contains(&format!("| {number} | ")),
                "{number} in the README"
            );
        }
    }

    #[test]
    fn completions_and_manual_pages_know_every_command() {
        let pages = manual_pages();
        for command in Line::command().get_subcommands() {
            let name = format!("{NAME}-{}", command.get_name());
            let page = pages.iter().find(|(page, _)| *page == name);
            let (_, page) = page.unwrap_or_else(|| panic!("no page {name}"));
            assert!(
                page.contains(".SH SYNOPSIS") && page.contains("Example"),
                "{page}"
            );
            for shell in Shell::value_variants() {
                let text = completions(*shell);
                assert!(
                    text.contains(command.get_name()),
                    "{shell}: {}",
                    command.get_name()
                );
            }
        }
        assert!(pages[0].1.contains("Exit codes"));
    }

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
