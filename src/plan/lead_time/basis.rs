//! What an arrival rests on, in the words of reports.

use std::fmt;

use super::{QUOTE_LATE_FACTOR, WORK_LATE_FACTOR};

/// What an arrival rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LeadBasis {
    /// It is on the own shelf.
    OnShelf,
    /// Receipts of this part from this supplier, five or more.
    PartReceipts(Receipts),
    /// Fewer receipts of this part from this supplier, leaning on those of others.
    FewPartReceipts {
        /// How many.
        receipts: usize,
        /// Receipts of other parts and suppliers behind it.
        others: usize,
        /// Orders of it still open, which count as "not before now".
        open: usize,
    },
    /// Receipts of any part from this supplier.
    SupplierReceipts(Receipts),
    /// Fewer receipts of any part from this supplier, leaning on those of others.
    FewSupplierReceipts {
        /// How many.
        receipts: usize,
        /// Receipts of other suppliers behind it.
        others: usize,
        /// Orders of any part still open with it.
        open: usize,
    },
    /// The quote times what promises turned out to be.
    QuoteCorrected {
        /// Receipts of this supplier with a promised day.
        receipts: usize,
        /// Receipts of other suppliers it leans on.
        others: usize,
        /// Typical ratio of actual to promised days.
        ratio: f64,
    },
    /// The quote and one or two orders, where no others tell how orders scatter.
    QuoteAndFew {
        /// How many.
        receipts: usize,
        /// True for receipts of this part without a promised day, false for the supplier's promises.
        is_of_part: bool,
        /// Times as long as promised, or as the part is quoted now, that they took (geometric mean).
        took: f64,
        /// Times the quote that is reckoned with.
        ratio: f64,
    },
    /// The quote, late case [`QUOTE_LATE_FACTOR`] times as long.
    QuoteOnly,
    /// An open order, from the receipts and its age.
    OpenOrderByAge {
        /// Receipts behind it.
        receipts: usize,
        /// Days since it was ordered.
        age_days: i64,
    },
    /// An open order, from its promised day, the record of promises and its age.
    OpenOrderByPromise {
        /// Receipts of this supplier with a promised day.
        receipts: usize,
        /// Receipts of other suppliers it leans on.
        others: usize,
        /// Days since it was ordered, where the row says.
        age_days: Option<i64>,
    },
    /// An open order, from its due date, late case [`QUOTE_LATE_FACTOR`] times as long.
    OpenOrderByDueDate,
    /// An open order without a promise, from what the supplier quotes for the part now and its age.
    OpenOrderByQuote {
        /// Days since it was ordered.
        age_days: i64,
    },
    /// Fetched from the supplier's counter, which has it in stock by its quote.
    FromCounter,
    /// Delivered on the day of the order, in stock by its quote.
    SameDay,
    /// An estimate of own or outside work, late case [`WORK_LATE_FACTOR`] times as long.
    WorkEstimate,
}

/// Finished and open orders that a distribution was fitted to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Receipts {
    /// Orders received.
    pub receipts: usize,
    /// Orders still open, which count as "not before now".
    pub open: usize,
    /// True for a gamma distribution, false for the lognormal.
    pub is_gamma: bool,
}

impl LeadBasis {
    /// Receipts of this supplier behind it; 0 for what rests on no receipt.
    pub const fn receipts(&self) -> usize {
        match self {
            Self::PartReceipts(of) | Self::SupplierReceipts(of) => of.receipts,
            Self::FewPartReceipts { receipts, .. }
            | Self::FewSupplierReceipts { receipts, .. }
            | Self::QuoteCorrected { receipts, .. }
            | Self::QuoteAndFew { receipts, .. }
            | Self::OpenOrderByAge { receipts, .. }
            | Self::OpenOrderByPromise { receipts, .. } => *receipts,
            Self::OnShelf
            | Self::QuoteOnly
            | Self::OpenOrderByDueDate
            | Self::OpenOrderByQuote { .. }
            | Self::FromCounter
            | Self::SameDay
            | Self::WorkEstimate => 0,
        }
    }
}

/// `1 receipt`, `9 receipts`.
fn counted(count: usize) -> String {
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} receipt{plural}")
}

/// `3 receipts of this supplier and 41 of others`, without the part that is 0.
fn own_and_others(receipts: usize, others: usize) -> String {
    match (receipts, others) {
        (0, others) => format!("{} of other suppliers", counted(others)),
        (own, 0) => format!("{} of this supplier", counted(own)),
        (own, others) => format!("{} of this supplier and {others} of others", counted(own)),
    }
}

impl Receipts {
    fn write(self, f: &mut fmt::Formatter<'_>, of: &str) -> fmt::Result {
        write!(f, "{} of {of}", counted(self.receipts))?;
        still_open(f, self.open)?;
        f.write_str(if self.is_gamma { " (gamma)" } else { "" })
    }
}

impl fmt::Display for LeadBasis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OnShelf => f.write_str("on the shelf"),
            Self::PartReceipts(receipts) => receipts.write(f, "this part"),
            Self::SupplierReceipts(receipts) => receipts.write(f, "this supplier, any part"),
            Self::FewPartReceipts {
                receipts,
                others,
                open,
            } => {
                write!(f, "{} of this part", counted(*receipts))?;
                still_open(f, *open)?;
                leaning(f, *others)
            }
            Self::FewSupplierReceipts {
                receipts,
                others,
                open,
            } => {
                write!(f, "{} of this supplier, any part", counted(*receipts))?;
                still_open(f, *open)?;
                leaning(f, *others)
            }
            Self::QuoteCorrected {
                receipts,
                others,
                ratio,
            } => write!(
                f,
                "quote, corrected by {} (took {ratio:.2} times as long as promised)",
                own_and_others(*receipts, *others)
            ),
            Self::QuoteAndFew {
                receipts,
                is_of_part,
                took,
                ratio,
            } => beside_quote(f, (*receipts, *is_of_part), *took, *ratio),
            Self::QuoteOnly => write!(
                f,
                "quote only; late case {QUOTE_LATE_FACTOR} times as long, as lead times usually spread"
            ),
            Self::OpenOrderByAge { receipts, age_days } => {
                write!(f, "order open for {age_days} days, {}", counted(*receipts))
            }
            Self::OpenOrderByPromise {
                receipts,
                others,
                age_days,
            } => {
                match age_days {
                    Some(age_days) => write!(f, "order open for {age_days} days, its promise")?,
                    None => f.write_str("due date of the open order")?,
                }
                write!(f, " corrected by {}", own_and_others(*receipts, *others))
            }
            Self::OpenOrderByDueDate => write!(
                f,
                "due date of the open order; late case {QUOTE_LATE_FACTOR} times as long, as lead times usually spread"
            ),
            Self::OpenOrderByQuote { age_days } => write!(
                f,
                "order open for {age_days} days without a promise, the supplier's present quote"
            ),
            Self::FromCounter => f.write_str("in stock at the counter by the quote, fetched"),
            Self::SameDay => {
                f.write_str("in stock by the quote, delivered on the day of the order")
            }
            Self::WorkEstimate => write!(
                f,
                "estimate of the work; late case {WORK_LATE_FACTOR} times as long by common practice"
            ),
        }
    }
}

fn beside_quote(
    f: &mut fmt::Formatter<'_>,
    (receipts, is_of_part): (usize, bool),
    took: f64,
    ratio: f64,
) -> fmt::Result {
    let (of, said) = if is_of_part {
        ("part", "quoted")
    } else {
        ("supplier", "promised")
    };
    write!(
        f,
        "quote and {} of this {of} (took {took:.2} times as long as {said}, reckoned with {ratio:.2} times)",
        counted(receipts)
    )
}

fn still_open(f: &mut fmt::Formatter<'_>, open: usize) -> fmt::Result {
    match open {
        0 => Ok(()),
        1 => f.write_str(", 1 order still open"),
        open => write!(f, ", {open} orders still open"),
    }
}

fn leaning(f: &mut fmt::Formatter<'_>, others: usize) -> fmt::Result {
    if others == 0 {
        return Ok(());
    }
    write!(f, ", leaning on {others} others")
}
