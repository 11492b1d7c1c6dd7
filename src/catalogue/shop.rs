//! Everything a shop keeps, with every row resolved to a part of the catalogue or listed as unresolved.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{NaiveDate, NaiveDateTime};

use super::index::Catalogue;
use super::part::PartId;
use crate::place::Place;
use crate::record::{
    ApprovalRecord, KitLine, MachineRecord, OfferRecord, OtherWay, PlannedRebuild, ReceiptRecord,
    ShopSettings, StockRecord, SupplierRecord, Task, UsageRecord,
};
use crate::units::Currency;

/// An offer and the part it is for.
#[derive(Debug, Clone)]
pub struct OfferOf {
    /// The part.
    pub part: PartId,
    /// The row.
    pub record: OfferRecord,
}

/// A stock row and its part.
#[derive(Debug, Clone)]
pub struct StockOf {
    /// The part.
    pub part: PartId,
    /// The row.
    pub record: StockRecord,
}

/// A usage and its part.
#[derive(Debug, Clone)]
pub struct UsageOf {
    /// The part.
    pub part: PartId,
    /// The row.
    pub record: UsageRecord,
}

/// A receipt and its part; `None` where the part is in no table, because it still tells the supplier's lateness.
#[derive(Debug, Clone)]
pub struct ReceiptOf {
    /// The part.
    pub part: Option<PartId>,
    /// The row.
    pub record: ReceiptRecord,
}

/// A kit line and its part; `None` for lines that no table knows (yet a line like any other).
#[derive(Debug, Clone)]
pub struct KitLineOf {
    /// The part asked for.
    pub part: Option<PartId>,
    /// The row.
    pub record: KitLine,
    /// Approvals and refusals for this line, with the substitute where it is known.
    pub approvals: Vec<(Option<PartId>, ApprovalRecord)>,
    /// Ways other than buying that hold for this line.
    pub other_ways: Vec<OtherWay>,
}

/// A rebuild kit: lines, tasks and dates.
#[derive(Debug, Clone)]
pub struct Kit {
    /// Name.
    pub name: String,
    /// Machine it is for.
    pub machine: Option<String>,
    /// Lines, in the order of the table.
    pub lines: Vec<KitLineOf>,
    /// Tasks, in the order of the table.
    pub tasks: Vec<Task>,
    /// Planned rebuilds, earliest first.
    pub planned: Vec<PlannedRebuild>,
}

/// A row whose part, kit or line no other table knows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unresolved {
    /// The row.
    pub place: Place,
    /// What is not known, and where it was looked for.
    pub reason: String,
}

/// Something that was presumed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Presumption {
    /// Usages were recorded at least since the first one in the tables.
    RecordsFrom {
        /// Day of the first usage.
        on: NaiveDate,
        /// How many usages there are.
        usages: usize,
    },
    /// The shop's money is that of all its tables.
    Currency {
        /// The currency.
        currency: Currency,
    },
    /// Kits whose lines name no machine are for the one whose name begins theirs.
    MachinesOfKits {
        /// Kits that were given a machine.
        kits: usize,
    },
    /// No table says anything of approval, so that the shop keeps no list of approved suppliers.
    SuppliersUsable {
        /// Suppliers with offers that are planned with for that reason.
        suppliers: usize,
    },
}

/// The shop as of one moment.
#[derive(Debug, Clone)]
pub struct Shop {
    /// Settings.
    pub settings: ShopSettings,
    /// Moment of planning, local time.
    pub as_of: NaiveDateTime,
    /// Parts.
    pub catalogue: Catalogue,
    /// Suppliers by [`NameKey`](super::NameKey) text of their name.
    pub suppliers: BTreeMap<String, SupplierRecord>,
    /// Offers.
    pub offers: Vec<OfferOf>,
    /// Stock.
    pub stock: Vec<StockOf>,
    /// Usages, oldest first.
    pub usages: Vec<UsageOf>,
    /// Receipts, oldest order first.
    pub receipts: Vec<ReceiptOf>,
    /// Kits, in the order of their first line.
    pub kits: Vec<Kit>,
    /// Machines by [`NameKey`](super::NameKey) text of their name.
    pub machines: BTreeMap<String, MachineRecord>,
    /// Ways other than buying that hold for a part wherever it is used.
    pub other_ways: Vec<(PartId, OtherWay)>,
    /// Rows that could not be resolved.
    pub unresolved: Vec<Unresolved>,
    /// Lists that were resolved in a way the reader should know.
    pub notes: Vec<Unresolved>,
    /// What was presumed where neither settings nor tables say it.
    pub presumed: Vec<Presumption>,
    /// Suppliers, by key as in `suppliers`, that no table approves and that are bought from all the same.
    pub not_approved: BTreeSet<String>,
}
