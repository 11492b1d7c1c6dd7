//! The columns that the import understands.

use std::fmt;

/// Builds the enum, its codes and its names from one table, so that they cannot drift apart.
macro_rules! fields {
    ($($variant:ident => $code:literal, $name:literal;)+) => {
        /// What a column holds.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[expect(missing_docs, reason = "each name is the column's own word; see `Field::name`")]
        pub enum Field { $($variant),+ }

        impl Field {
            /// Every field, in a fixed order.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// Code as in the table of header words and in machine output.
            pub const fn code(self) -> &'static str {
                match self { $(Self::$variant => $code),+ }
            }

            /// Name for people.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name),+ }
            }
        }
    };
}

fields! {
    OwnNumber => "own_number", "own number";
    PartNumber => "part_number", "part number";
    Alias => "alias", "other number";
    SupplierNumber => "supplier_number", "supplier number";
    Designation => "designation", "designation";
    Description => "description", "description";
    Type => "type", "type";
    Maker => "maker", "maker";
    Bore => "bore", "bore";
    OutsideDiameter => "outside_diameter", "outside diameter";
    Width => "width", "width";
    AssembledWidth => "assembled_width", "assembled width";
    Height => "height", "height";
    HousingWasherBore => "housing_washer_bore", "housing washer bore";
    InnerRacewayDiameter => "inner_raceway_diameter", "inner raceway diameter";
    OuterRacewayDiameter => "outer_raceway_diameter", "outer raceway diameter";
    CageOutsideDiameter => "cage_outside_diameter", "cage outside diameter";
    ShaftDiameter => "shaft_diameter", "shaft diameter";
    HousingBore => "housing_bore", "housing bore";
    InsideDiameter => "inside_diameter", "inside diameter";
    Section => "section", "section";
    ThreadDiameter => "thread_diameter", "thread diameter";
    ThreadPitch => "thread_pitch", "thread pitch";
    PinDiameter => "pin_diameter", "pin diameter";
    Length => "length", "length";
    Size => "size", "size";
    LengthUnit => "length_unit", "unit of length";
    Closure => "closure", "closure";
    Clearance => "clearance", "clearance";
    ToleranceClass => "tolerance_class", "tolerance class";
    ContactAngle => "contact_angle", "contact angle";
    RibForm => "rib_form", "rib form";
    BoreForm => "bore_form", "bore form";
    SnapRingGroove => "snap_ring_groove", "snap ring groove";
    Rows => "rows", "rows";
    PreloadClass => "preload_class", "preload class";
    Arrangement => "arrangement", "arrangement";
    Cage => "cage", "cage";
    SealForm => "seal_form", "seal form";
    Material => "material", "material";
    Hardness => "hardness", "hardness";
    Variant => "variant", "variant";
    FitClass => "fit_class", "fit class";
    DynamicRating => "dynamic_rating", "dynamic rating";
    StaticRating => "static_rating", "static rating";
    RatingsSource => "ratings_source", "ratings source";
    SpeedLimit => "speed_limit", "speed limit";
    ShelfLife => "shelf_life", "shelf life";
    UnitOfCount => "unit_of_count", "unit of count";
    MinStock => "min_stock", "minimum stock";
    MinStockReason => "min_stock_reason", "reason of the minimum stock";
    MinStockDate => "min_stock_date", "day the minimum stock was set";
    Supplier => "supplier", "supplier";
    Approved => "approved", "approved";
    ApprovedClasses => "approved_classes", "approved classes";
    OrderCutoff => "order_cutoff", "order cutoff";
    CounterHours => "counter_hours", "counter hours";
    CounterOpens => "counter_opens", "counter opens";
    CounterCloses => "counter_closes", "counter closes";
    Calendar => "calendar", "calendar";
    Freight => "freight", "freight";
    FreightFreeFrom => "freight_free_from", "freight free from";
    CollectionHours => "collection_hours", "collection hours";
    CourierCost => "courier_cost", "courier cost";
    CourierHours => "courier_hours", "courier hours";
    SameDayCutoff => "same_day_cutoff", "same-day cutoff";
    SameDayArrival => "same_day_arrival", "same-day arrival";
    SameDayCost => "same_day_cost", "same-day cost";
    SupplierGroup => "supplier_group", "kind of supplier";
    Price => "price", "price";
    ListPrice => "list_price", "list price";
    Discount => "discount", "discount";
    PricePer => "price_per", "price per";
    VatRate => "vat_rate", "VAT rate";
    PriceFrom => "price_from", "price from a quantity on";
    HoldsFrom => "holds_from", "quantity from which the price holds";
    Currency => "currency", "currency";
    MinimumQuantity => "minimum_quantity", "minimum quantity";
    PackQuantity => "pack_quantity", "pack quantity";
    Available => "available", "available";
    LeadTime => "lead_time", "lead time";
    ExpediteLeadTime => "expedite_lead_time", "expedite lead time";
    ExpediteSurcharge => "expedite_surcharge", "expedite surcharge";
    CancellationCharge => "cancellation_charge", "cancellation charge";
    QuoteDate => "quote_date", "quote date";
    ValidUntil => "valid_until", "valid until";
    Condition => "condition", "condition";
    Bin => "bin", "bin";
    Lot => "lot", "lot";
    CureDate => "cure_date", "cure date";
    UsableUntil => "usable_until", "last day of use";
    OnHand => "on_hand", "on hand";
    Reserved => "reserved", "reserved";
    OnOrder => "on_order", "on order";
    DueDate => "due_date", "due date";
    CountedOn => "counted_on", "counted on";
    Date => "date", "date";
    Quantity => "quantity", "quantity";
    ReceivedQuantity => "received_quantity", "received quantity";
    OpenQuantity => "open_quantity", "open quantity";
    Status => "status", "status";
    Machine => "machine", "machine";
    Reason => "reason", "reason";
    MovementKind => "movement_kind", "kind of movement";
    Ordered => "ordered", "ordered";
    Promised => "promised", "promised";
    Received => "received", "received";
    Kit => "kit", "kit";
    Assembly => "assembly", "assembly";
    Line => "line", "line";
    Task => "task", "task";
    Note => "note", "note";
    NoSubstitutes => "no_substitutes", "no substitutes";
    Hours => "hours", "hours";
    Predecessors => "predecessors", "predecessors";
    Substitute => "substitute", "substitute";
    Outcome => "outcome", "outcome";
    Checks => "checks", "checks";
    By => "by", "approved by";
    WayKind => "way_kind", "kind of way";
    Cost => "cost", "cost";
    From => "from", "taken from";
    DowntimeCost => "downtime_cost", "downtime cost";
    Installed => "installed", "installed";
    InUseFrom => "in_use_from", "in use from";
    InUseUntil => "in_use_until", "in use until";
    RunningHours => "running_hours", "running hours";
    Criticality => "criticality", "criticality";
}

impl Field {
    /// How many fields there are.
    pub const COUNT: usize = Self::ALL.len();

    /// Finds a field by its [`code`](Self::code).
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|field| field.code() == code)
    }

    /// True for lengths of a part.
    pub const fn is_length(self) -> bool {
        matches!(
            self,
            Self::Bore
                | Self::OutsideDiameter
                | Self::Width
                | Self::AssembledWidth
                | Self::Height
                | Self::HousingWasherBore
                | Self::InnerRacewayDiameter
                | Self::OuterRacewayDiameter
                | Self::CageOutsideDiameter
                | Self::ShaftDiameter
                | Self::HousingBore
                | Self::InsideDiameter
                | Self::Section
                | Self::ThreadDiameter
                | Self::ThreadPitch
                | Self::PinDiameter
                | Self::Length
        )
    }

    /// True for what says more of a part than its numbers: what it is, and what a planner set for it.
    pub const fn describes_part(self) -> bool {
        // In the order of the list above.
        let at = self as usize;
        at >= Self::Designation as usize
            && at <= Self::MinStockDate as usize
            && !matches!(self, Self::Maker | Self::LengthUnit | Self::UnitOfCount)
    }

    /// True for what names a part: numbers and designations, which are text even where they are figures only.
    pub const fn is_name(self) -> bool {
        matches!(
            self,
            Self::OwnNumber
                | Self::PartNumber
                | Self::SupplierNumber
                | Self::Alias
                | Self::Designation
        )
    }

    /// True where the column holds plain numbers or money, so that its decimal sign matters.
    pub const fn is_number(self) -> bool {
        matches!(
            self,
            Self::DynamicRating
                | Self::StaticRating
                | Self::SpeedLimit
                | Self::ShelfLife
                | Self::MinStock
                | Self::Freight
                | Self::FreightFreeFrom
                | Self::CollectionHours
                | Self::CourierCost
                | Self::CourierHours
                | Self::SameDayCost
                | Self::Price
                | Self::ListPrice
                | Self::Discount
                | Self::CancellationCharge
                | Self::PricePer
                | Self::VatRate
                | Self::PriceFrom
                | Self::HoldsFrom
                | Self::MinimumQuantity
                | Self::PackQuantity
                | Self::Available
                | Self::ExpediteSurcharge
                | Self::OnHand
                | Self::Reserved
                | Self::OnOrder
                | Self::Quantity
                | Self::ReceivedQuantity
                | Self::OpenQuantity
                | Self::Hours
                | Self::Cost
                | Self::DowntimeCost
                | Self::Installed
                | Self::RunningHours
        )
    }

    /// True for what is added up, or asked for each piece: one cell merged over several rows says it once.
    pub const fn counts_once(self) -> bool {
        matches!(
            self,
            Self::Quantity
                | Self::ReceivedQuantity
                | Self::OpenQuantity
                | Self::OnHand
                | Self::Reserved
                | Self::OnOrder
                | Self::Available
                | Self::Installed
                | Self::Price
                | Self::ListPrice
                | Self::PriceFrom
                | Self::Cost
        )
    }

    /// True where the column holds days of the calendar.
    pub const fn is_date(self) -> bool {
        matches!(
            self,
            Self::QuoteDate
                | Self::MinStockDate
                | Self::ValidUntil
                | Self::CureDate
                | Self::UsableUntil
                | Self::DueDate
                | Self::CountedOn
                | Self::Date
                | Self::Ordered
                | Self::Promised
                | Self::Received
                | Self::InUseFrom
                | Self::InUseUntil
        )
    }
}

impl fmt::Display for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl<'de> serde::Deserialize<'de> for Field {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let code = String::deserialize(deserializer)?;
        Self::from_code(&code)
            .ok_or_else(|| serde::de::Error::custom(format!("`{code}` is not a field")))
    }
}

impl serde::Serialize for Field {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.code())
    }
}
