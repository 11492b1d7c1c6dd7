//! One checked row of each kind of table that a shop keeps, and the shop's settings.
//!
//! Records say what a row says, with its place; they don't look anything up and don't decide anything.
//! `None` is "the table does not say", never zero.

mod calendar_settings;
mod kit;
mod lead_time;
mod movement;
mod offer;
mod offer_columns;
mod offer_list;
mod part;
mod planning_settings;
mod settings;
mod settings_error;
mod settings_in_part;
mod settings_text;
mod stock;
mod supplier;
mod time_zone;
mod usage;

pub use calendar_settings::{CalendarSettings, Shift, Weekday};
pub use kit::{
    ApprovalOutcome, ApprovalRecord, KitLine, MachineRecord, OtherWay, OtherWayKind,
    PlannedRebuild, Task,
};
pub use lead_time::{LeadUnit, QuotedLeadTime};
pub use movement::{Movement, MovementCodes};
pub use offer::{Condition, Expedite, OfferRecord, PriceBreak, SIZE_PRINTED};
pub use offer_columns::{OfferColumns, OwnOfOffer};
pub use offer_list::OfferList;
pub use part::{PartFacts, PartRecord};
pub use planning_settings::{
    DemandMethod, LeadTimeModel, LeadUnitSetting, LevelsBy, PlanningSettings,
};
pub use settings::{DEFAULT_CALENDAR, DateOrder, RequestSettings, ShopSettings, UNNAMED_SHOP};
pub use settings_error::SettingsError;
pub use settings_in_part::SettingsInPart;
pub use settings_text::read_moment;
pub use stock::StockRecord;
pub use supplier::{SameDay, SupplierRecord};
pub use time_zone::{NoSuchTimeZone, TimeZone};
pub use usage::{CountedIn, ReceiptRecord, UsageReason, UsageRecord};

/// Every record read from one folder, in order of reading.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Records {
    /// Rows of parts tables.
    pub parts: Vec<PartRecord>,
    /// Rows of supplier tables.
    pub suppliers: Vec<SupplierRecord>,
    /// Rows of offers, price lists and quotes.
    pub offers: OfferList,
    /// Ways other than buying.
    pub other_ways: Vec<OtherWay>,
    /// Rows of stock lists.
    pub stock: Vec<StockRecord>,
    /// Usages and returns.
    pub usages: Vec<UsageRecord>,
    /// Orders placed, received or still open.
    pub receipts: Vec<ReceiptRecord>,
    /// Lines of rebuild kits.
    pub kit_lines: Vec<KitLine>,
    /// Tasks of rebuild kits.
    pub tasks: Vec<Task>,
    /// Rebuilds with a date.
    pub planned_rebuilds: Vec<PlannedRebuild>,
    /// What people approved or found not to fit.
    pub approvals: Vec<ApprovalRecord>,
    /// Machines.
    pub machines: Vec<MachineRecord>,
}

impl Records {
    /// Takes the records of another behind its own.
    pub fn append(&mut self, other: &mut Self) {
        self.parts.append(&mut other.parts);
        self.suppliers.append(&mut other.suppliers);
        self.offers.append(&mut other.offers);
        self.other_ways.append(&mut other.other_ways);
        self.stock.append(&mut other.stock);
        self.usages.append(&mut other.usages);
        self.receipts.append(&mut other.receipts);
        self.kit_lines.append(&mut other.kit_lines);
        self.tasks.append(&mut other.tasks);
        self.planned_rebuilds.append(&mut other.planned_rebuilds);
        self.approvals.append(&mut other.approvals);
        self.machines.append(&mut other.machines);
    }
}

/// Kind of table, told apart by its headers.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum TableKind {
    /// Own parts.
    Parts,
    /// Suppliers.
    Suppliers,
    /// Offers, price lists, quotes.
    Offers,
    /// Make, rework, repair, another bin.
    OtherWays,
    /// Stock by bin.
    Stock,
    /// Usages.
    Usages,
    /// Receipts.
    Receipts,
    /// Kit lines.
    KitLines,
    /// Tasks of a kit.
    Tasks,
    /// Planned rebuilds.
    PlannedRebuilds,
    /// Approvals for a kit line.
    Approvals,
    /// Machines.
    Machines,
}

impl TableKind {
    /// Every kind, in a fixed order.
    pub const ALL: [Self; 12] = [
        Self::Parts,
        Self::Suppliers,
        Self::Offers,
        Self::OtherWays,
        Self::Stock,
        Self::Usages,
        Self::Receipts,
        Self::KitLines,
        Self::Tasks,
        Self::PlannedRebuilds,
        Self::Approvals,
        Self::Machines,
    ];

    /// Name for people.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Parts => "parts",
            Self::Suppliers => "suppliers",
            Self::Offers => "offers",
            Self::OtherWays => "ways other than buying",
            Self::Stock => "stock",
            Self::Usages => "usages",
            Self::Receipts => "receipts",
            Self::KitLines => "kit lines",
            Self::Tasks => "kit tasks",
            Self::PlannedRebuilds => "planned rebuilds",
            Self::Approvals => "approvals",
            Self::Machines => "machines",
        }
    }
}
