//! Rebuild kits, their tasks and dates, approvals, other ways of getting a line, and machines.

use chrono::NaiveDate;

use crate::part::{Family, SizeKey, Traits};
use crate::place::Place;
use crate::units::{Money, UnitOfCount};

/// One line of a rebuild kit. A line no standard covers (a ground spacer) is a line like any other.
#[derive(Debug, Clone, PartialEq)]
pub struct KitLine {
    /// Kit name.
    pub kit: String,
    /// Machine the kit is for.
    pub machine: Option<String>,
    /// Assembly.
    pub assembly: Option<String>,
    /// Line number or name, unique within the kit.
    pub line: String,
    /// Own number, alias or designation as printed.
    pub part: Option<String>,
    /// Description as printed.
    pub description: Option<String>,
    /// Family, where it can be told.
    pub family: Option<Family>,
    /// Size, where it can be told.
    pub size: Option<SizeKey>,
    /// What is known besides size.
    pub traits: Traits,
    /// Quantity per rebuild, above 0; `None` where it cannot be read, or is counted in a unit that cannot.
    pub quantity: Option<f64>,
    /// Unit of count; `None` where the list does not say.
    pub unit_of_count: Option<UnitOfCount>,
    /// Task that needs the line; `None` gates the first task.
    pub task: Option<String>,
    /// Torque, consumables and the like.
    pub note: Option<String>,
    /// True where nothing but this part may be fitted.
    pub no_substitutes: bool,
    /// The row.
    pub place: Place,
}

/// One task of a rebuild.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// Kit name.
    pub kit: String,
    /// Task name, unique within the kit.
    pub task: String,
    /// Hours of work.
    pub hours: f64,
    /// Tasks that must be done before.
    pub predecessors: Vec<String>,
    /// The row.
    pub place: Place,
}

/// A rebuild with a date.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedRebuild {
    /// Kit name.
    pub kit: String,
    /// Machine.
    pub machine: Option<String>,
    /// Planned day.
    pub date: NaiveDate,
    /// The row.
    pub place: Place,
}

/// What came of trying or judging a substitute.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ApprovalOutcome {
    /// May be fitted on this line.
    Approved,
    /// Tried, did not fit.
    DidNotFit,
    /// Rejected by a person, of whom nobody says that it was tried.
    Rejected,
}

/// A person's judgement on a substitute for one kit line.
#[derive(Debug, Clone, PartialEq)]
pub struct ApprovalRecord {
    /// Kit name.
    pub kit: String,
    /// Line of the kit.
    pub line: String,
    /// Substitute: own number, supplier's number or designation as printed.
    pub substitute: String,
    /// Outcome.
    pub outcome: ApprovalOutcome,
    /// Checks that were done, as printed.
    pub checks: Option<String>,
    /// By whom; an approval without a name is not one.
    pub by: String,
    /// When.
    pub date: Option<NaiveDate>,
    /// The row.
    pub place: Place,
}

/// Kind of way other than buying.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OtherWayKind {
    /// Make in house.
    MakeInHouse,
    /// Rework in house.
    ReworkInHouse,
    /// Repair outside.
    RepairOutside,
    /// Take from another bin or store.
    OtherBin,
    /// Take from another machine.
    OtherMachine,
}

/// A way of getting a part other than buying it.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherWay {
    /// Own number, alias or designation as printed.
    pub part: String,
    /// Kit, where the way holds for one kit only.
    pub kit: Option<String>,
    /// Line, where the way holds for one line only.
    pub line: Option<String>,
    /// Kind of way.
    pub kind: OtherWayKind,
    /// Hours of work or turnaround.
    pub hours: Option<f64>,
    /// Cost.
    pub cost: Option<Money>,
    /// Quantity it can give.
    pub quantity: Option<f64>,
    /// Bin, workshop or donor machine.
    pub from: Option<String>,
    /// Who approved it.
    pub approved_by: Option<String>,
    /// Note.
    pub note: Option<String>,
    /// The row.
    pub place: Place,
}

/// One machine type or single machine.
#[derive(Debug, Clone, PartialEq)]
pub struct MachineRecord {
    /// Name as used in the other tables.
    pub machine: String,
    /// Description.
    pub description: Option<String>,
    /// Cost of one hour down.
    pub downtime_cost_per_hour: Option<Money>,
    /// How many are installed; `None` where the table does not say.
    pub installed: Option<f64>,
    /// In use from.
    pub in_use_from: Option<NaiveDate>,
    /// In use until.
    pub in_use_until: Option<NaiveDate>,
    /// Running hours a year.
    pub running_hours: Option<f64>,
    /// Criticality as printed (A, B, C or 1 to 5).
    pub criticality: Option<String>,
    /// The row.
    pub place: Place,
}
