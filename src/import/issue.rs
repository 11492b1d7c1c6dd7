//! What is wrong or doubtful with one row: collected with its place, never thrown.

use chrono::NaiveDate;

use crate::language::with_article;
use crate::place::Place;
use crate::standard::Slip;
use crate::units::{CountError, LengthError};

use super::field::Field;
use super::value::{DateError, LeadTimeError, NumberError, PriceError};

/// What an issue did to its row.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The row was not taken.
    Rejected,
    /// The row was taken without the value.
    Doubtful,
    /// The value was taken; the reader should know how.
    Note,
}

/// One problem of one row.
#[derive(Debug, Clone, PartialEq)]
pub struct RowIssue {
    /// Cell, or the row where no single cell is to blame.
    pub place: Place,
    /// What it did to the row.
    pub severity: Severity,
    /// Field, where one is concerned.
    pub field: Option<Field>,
    /// What was found and what would be right.
    pub problem: Problem,
    /// Cells of a rejected row as they were; empty for rows that were taken.
    pub original_cells: Vec<String>,
}

/// What is wrong with a value or a row.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Problem {
    /// A value without which the row means nothing.
    #[error("{field} is missing; {} needs one", with_article(.record))]
    Missing {
        /// The field.
        field: Field,
        /// What the row would be.
        record: &'static str,
    },
    /// A value without which the row means nothing, in a word that says there is none.
    #[error("{field} is missing; {} needs one, and `{found}` is read as no value", with_article(.record))]
    ReadAsNothing {
        /// The field.
        field: Field,
        /// What the row would be.
        record: &'static str,
        /// As found.
        found: String,
    },
    /// A row of a text file that may have slipped to the right.
    #[error(
        "the row has {cells} cells, its header {header}: a sign that separates columns may stand in a cell, as in `3,50`; expected such a cell in quotes, or a header for each column"
    )]
    WiderThanHeader {
        /// Cells up to the last filled one.
        cells: u32,
        /// Cells of the header.
        header: u32,
    },
    /// An error value of a formula.
    #[error("the cell shows the error {found}; expected a value")]
    ErrorValue {
        /// The error.
        found: String,
    },
    /// A quantity or a price in a cell that is merged with those of rows above.
    #[error(
        "`{found}` stands in cells that are merged over several rows, and counts once, in the first of them; expected a value of its own in each row"
    )]
    RepeatsMerged {
        /// As found.
        found: String,
    },
    /// A row whose cells are all crossed out.
    #[error(
        "the row is crossed out, and not read; expected it without the line through it where it holds"
    )]
    RowCrossedOut,
    /// A value that is crossed out in a row that is not.
    #[error(
        "`{found}` is crossed out, and not read; expected it without the line through it where it holds"
    )]
    CrossedOut {
        /// As found.
        found: String,
    },
    /// Rows that the user does not see.
    #[error(
        "rows are hidden in the workbook and read like the others: {rows}; expected them deleted where they do not hold"
    )]
    HiddenRows {
        /// Their numbers, from 1.
        rows: String,
    },
    /// A formula whose result the file does not hold.
    #[error(
        "the cell holds a formula without a stored result; expected the file saved by a spreadsheet program"
    )]
    FormulaWithoutResult,
    /// A date where none belongs.
    #[error(
        "the cell holds the date {date}, perhaps {likely} that the spreadsheet turned into a date; expected {expected}"
    )]
    TurnedIntoDate {
        /// The date.
        date: NaiveDate,
        /// What may have been typed.
        likely: String,
        /// What would be right.
        expected: &'static str,
    },
    /// A date whose original format and neighbours tell.
    #[error("the cell holds the date {date}; read as `{read}`, in the form of its neighbours")]
    ReadFromDate {
        /// The date.
        date: NaiveDate,
        /// The original.
        read: String,
    },
    /// A number where a name or designation belongs.
    #[error("the cell holds `{found}`, {likely}; expected a cell formatted as text")]
    TurnedIntoNumber {
        /// As found.
        found: String,
        /// What may have been typed.
        likely: String,
    },
    /// A number whose original format and neighbours tell.
    #[error("the cell holds `{found}`; read as `{read}`, since {why}")]
    ReadFromNumber {
        /// As found.
        found: String,
        /// The original.
        read: String,
        /// Why it is certain.
        why: &'static str,
    },
    /// A long number of which only 15 digits are left.
    #[error(
        "`{found}` is longer than the 15 digits a spreadsheet keeps, and its last digits are lost; expected a cell formatted as text"
    )]
    DigitsLost {
        /// As found.
        found: String,
    },
    /// Not a number, or one with two readings.
    #[error(transparent)]
    Number(#[from] NumberError),
    /// Outside its range.
    #[error("{found} is out of range; expected {expected}")]
    OutOfRange {
        /// As found.
        found: String,
        /// What would be right.
        expected: &'static str,
    },
    /// Not a date, or one with two readings.
    #[error(transparent)]
    Date(#[from] DateError),
    /// Not a lead time.
    #[error(transparent)]
    LeadTime(#[from] LeadTimeError),
    /// Not a price.
    #[error(transparent)]
    Price(#[from] PriceError),
    /// Not a length.
    #[error(transparent)]
    Length(#[from] LengthError),
    /// Not a unit of count.
    #[error(transparent)]
    Count(#[from] CountError),
    /// A pack whose pieces the row says in another column.
    #[error("read as {read}, as the pack quantity of the row says")]
    PackOfRow {
        /// As read.
        read: String,
    },
    /// Nothing but the price says metres.
    #[error("read as sold by the metre, as the price says")]
    MetreOfPrice,
    /// What a stock row counts and may not be used.
    #[error("by its status `{found}` what lies there may not be used; it is not planned with")]
    Blocked {
        /// The status as found.
        found: String,
    },
    /// An order that was cancelled or closed.
    #[error("by its status `{found}` nothing of this order is still to come")]
    NothingToCome {
        /// The status as found.
        found: String,
    },
    /// A part delivery of which nobody says whether the rest still comes.
    #[error(
        "{received} of {ordered} have come, and nothing says whether the rest is still to come; it does not count as on order; expected a column of what is open, or a status"
    )]
    RestUnknown {
        /// What came.
        received: f64,
        /// What was ordered.
        ordered: f64,
    },
    /// A part delivery of which nobody says how much is left.
    #[error(
        "by its status `{found}` a part is still to come, and nothing says how many; expected a column of what is open"
    )]
    PartOfUnknown {
        /// The status as found.
        found: String,
    },
    /// Quantities of one order that do not add up.
    #[error(
        "{ordered} are ordered, but {received} received and {open} open; what is open is taken as it stands"
    )]
    QuantitiesDiffer {
        /// Ordered.
        ordered: f64,
        /// Received.
        received: f64,
        /// Still open.
        open: f64,
    },
    /// A unit behind a figure that differs from what the rest of the row counts in.
    #[error(
        "`{found}` behind the figure is another unit than that of the rest of the row; expected one unit a row"
    )]
    AnotherUnit {
        /// As read.
        found: String,
    },
    /// A word that is not among the known ones.
    #[error("`{found}` is not known; expected {expected}")]
    UnknownWord {
        /// As found.
        found: String,
        /// What would be right.
        expected: &'static str,
    },
    /// Printed dimensions and designation differ.
    #[error(
        "dimensions {printed} contradict designation `{designation}`, which is {standard}{}; no size was taken",
        perhaps(*.likely)
    )]
    SizeContradicts {
        /// As printed.
        printed: String,
        /// Designation as printed.
        designation: String,
        /// Size of that designation.
        standard: String,
        /// The slip that explains the difference, where one does.
        likely: Option<Slip>,
    },
    /// Dimensions that are no standard size, but would be with one slip undone.
    #[error(
        "dimensions {printed} are no standard size of this family ({family}); perhaps {likely}; no size was taken"
    )]
    SizeSlip {
        /// As printed.
        printed: String,
        /// The family.
        family: crate::part::Family,
        /// The slip that most likely happened.
        slip: Slip,
        /// Sizes that are likely, each with its slip.
        likely: String,
    },
    /// Dimensions in a table whose other rows are standard sizes in inches only.
    #[error(
        "dimensions {printed} are no standard size, and {in_inches} of {rows} rows of the table are such only in inches; expected a unit in the cell; no size was taken"
    )]
    UnitInDoubt {
        /// As printed.
        printed: String,
        /// Rows that are standard sizes in inches and not in millimetres.
        in_inches: usize,
        /// Rows looked at.
        rows: usize,
    },
    /// The width of a cone without the width of the whole bearing.
    #[error(
        "no size: width {found} of a tapered roller bearing is that of its cone (B); expected the assembled width T"
    )]
    ConeWidthOnly {
        /// As printed.
        found: String,
    },
    /// Two columns name different families.
    #[error("`{one}` names {}, `{other}` {}; no family was taken", with_article(.one_family), with_article(.other_family))]
    FamilyContradicts {
        /// Text of one side.
        one: String,
        /// Its family.
        one_family: crate::part::Family,
        /// Text of the other side.
        other: String,
        /// Its family.
        other_family: crate::part::Family,
    },
    /// Words beside a number that make no whole with it.
    #[error(
        "`{unread}` beside `{number}` cannot be read: what it may say of the part is taken as not known"
    )]
    UnreadBeside {
        /// The number with what was read of it.
        number: String,
        /// The rest.
        unread: String,
    },
    /// Two parts in one text.
    #[error(
        "the text names both `{one}` and `{other}`: expected one part a row; no size was taken"
    )]
    TwoNumbers {
        /// The first number.
        one: String,
        /// The second.
        other: String,
    },
    /// A bearing of a size that several families have.
    #[error(
        "`{found}` names no type of bearing, and this size is that of {likely}: expected a type or a designation; no size was taken"
    )]
    KindOpen {
        /// The text.
        found: String,
        /// Designations of each family that has the size.
        likely: String,
    },
    /// A part in words without a size.
    #[error(
        "`{found}` names a part without a whole size or a designation that is listed here; expected a standard designation or all dimensions"
    )]
    NoWholeSize {
        /// The text.
        found: String,
    },
    /// A column and the designation differ in something besides size.
    #[error(
        "`{column}` contradicts designation `{designation}`, which says {says}; neither was taken"
    )]
    TraitContradicts {
        /// As in the column.
        column: String,
        /// Designation as printed.
        designation: String,
        /// What the designation says.
        says: String,
    },
    /// Dimensions that do not make a size.
    #[error("no size: {0}")]
    Size(#[from] crate::part::SizeError),
    /// Dimensions without a family to give them a meaning.
    #[error(
        "dimensions {found} belong to no known family; expected a type, a description or a standard designation that names one"
    )]
    NoFamily {
        /// The dimensions as printed.
        found: String,
    },
    /// The price includes value added tax.
    #[error("the price includes value added tax at an unknown rate; expected a net price")]
    PriceWithTax,
    /// A gross price in either sense.
    #[error(
        "the price is gross, which may mean before discount or with value added tax; expected a discount, or `incl.` with the rate of VAT in header or title"
    )]
    PriceGross,
    /// A number format that shows another currency than the words beside it.
    #[error(
        "the cell is shown in {shown}, but row, header or title says {said}; taken as {said}, expected one currency"
    )]
    CurrencyShown {
        /// Code of the currency of the format.
        shown: String,
        /// Code of that of the words.
        said: String,
    },
    /// A discount below 1 in a column of percents.
    #[error(
        "`{found}` is read as {found} %, as other discounts of the column are in percent; expected a sign of percent here, or the percents themselves"
    )]
    ShareAmongPercents {
        /// As found.
        found: String,
    },
    /// A figure of tax that may be a rate as well as an amount.
    #[error(
        "`{found}` may be a rate of VAT in percent or an amount of it; expected a sign of percent here or in the header"
    )]
    TaxUnclear {
        /// As found.
        found: String,
    },
    /// Words beside a price that may mean that tax is in it.
    #[error(
        "`{found}` leaves open whether the price includes value added tax; expected a rate, or `incl.` before it where the price includes it"
    )]
    TaxInOrOut {
        /// As found.
        found: String,
    },
    /// Quantities of price breaks that do not rise, or prices that rise with quantity.
    #[error("price breaks are out of order: {found}; expected prices that fall as quantities rise")]
    BreaksOutOfOrder {
        /// The breaks.
        found: String,
    },
    /// A price whose cell says for how many it is, against the rest of its list.
    #[error(
        "the price is for {read}, as its cell says, where the rest of the list says for {other}; expected one of the two"
    )]
    PerInCell {
        /// Units of the cell, which hold.
        read: u32,
        /// Units of row, header or title.
        other: u32,
    },
    /// A net price that its list price and discount do not give.
    #[error(
        "the net price of {net} is not the list price of {list} less {percent} %; the net price is planned with"
    )]
    NetContradicts {
        /// The net price, as read.
        net: String,
        /// The list price.
        list: String,
        /// The discount.
        percent: String,
    },
    /// A column of prices that hold from a quantity on, which no header names.
    #[error(
        "nothing says from which quantity on `{found}` holds, or whether it is one; expected it in the header, as in `from 10`, or a column `From quantity` beside the price"
    )]
    StepUnnamed {
        /// As found.
        found: String,
    },
    /// A quantity from which a price holds that is none.
    #[error(
        "`{found}` is no quantity from which the price holds; expected a number, 1 for a single one"
    )]
    StepUnclear {
        /// As found.
        found: String,
    },
    /// A way other than buying that somebody refused.
    #[error("`{found}` says that this way is not approved, and it is not planned with")]
    WayRefused {
        /// As found.
        found: String,
    },
    /// A line beside a list with a charge, a discount or a time for which its offers have no place.
    #[error(
        "the line `{found}` beside the list is not planned with; freight belongs into the table of suppliers, a discount or a lead time into a column of the list"
    )]
    TermNotRead {
        /// The line.
        found: String,
    },
    /// A line beside a list with a minimum order or a surcharge, for which no table has a column.
    #[error(
        "the line `{found}` beside the list is not planned with; no table has a column for a minimum order value or a surcharge, so reckon with it before you order"
    )]
    TermWithoutPlace {
        /// The line.
        found: String,
    },
    /// A problem of an import that is already in a workspace, in the words it was told in then.
    #[error("{words}")]
    Recorded {
        /// The words.
        words: String,
    },
    /// A price without a number: the supplier has to be asked.
    #[error("the price is on request")]
    PriceOnRequest,
}

/// The slip that explains a contradiction, in words.
fn perhaps(likely: Option<Slip>) -> String {
    likely.map_or_else(String::new, |slip| format!(", which fits {slip}"))
}

impl Problem {
    /// True where the dimensions are a standard size if they are taken for inches.
    pub const fn is_inch_slip(&self) -> bool {
        matches!(
            self,
            Self::SizeSlip {
                slip: Slip::Inches,
                ..
            } | Self::SizeContradicts {
                likely: Some(Slip::Inches),
                ..
            }
        )
    }

    /// True for damage that a spreadsheet program did to a value which is now lost.
    pub const fn is_damage(&self) -> bool {
        matches!(
            self,
            Self::FormulaWithoutResult
                | Self::TurnedIntoDate { .. }
                | Self::TurnedIntoNumber { .. }
                | Self::DigitsLost { .. }
        )
    }
}

impl RowIssue {
    /// True where the row was not taken.
    pub fn is_rejected(&self) -> bool {
        self.severity == Severity::Rejected
    }
}
