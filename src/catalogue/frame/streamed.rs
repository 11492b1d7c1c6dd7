//! Group-bys and joins over the tables of a workspace of any size: streamed from Parquet to Parquet, nothing held whole.
//!
//! For shops that no longer fit one machine's memory as records: a summary is far smaller than its tables, and a
//! class or a site cut out of them is planned like any other shop. The same questions go to any SQL engine.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use polars::prelude::{
    DataType, Engine, Expr, FileWriteFormat, JoinArgs, JoinType, LazyFrame, LiteralValue, NULL,
    ParquetWriteOptions, PlRefPath, PolarsError, ScanArgsParquet, SinkDestination, SinkTarget,
    UnifiedSinkArgs, col, len, lit, when,
};

use super::FrameError;

/// Hundredths of a cent in a unit of money.
const CENTS_E2: f64 = 10_000.0;

/// Where the tables of a workspace lie, each one Parquet file with the columns documented for it.
#[derive(Debug, Clone)]
pub struct TableFiles {
    /// Parts by own number.
    pub parts: PathBuf,
    /// Offers of suppliers.
    pub offers: PathBuf,
    /// What lies in which bin.
    pub stock: PathBuf,
    /// What was used when.
    pub usages: PathBuf,
    /// Orders, those without a day of receipt open.
    pub receipts: PathBuf,
}

/// What is asked of the tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Summary {
    /// `part`, `year`, `quantity` (net; null where none is known), `usages` (rows).
    UsagesByYear,
    /// `supplier`, `part`, `price_currency`, `dated`, `unit_price`: of each supplier's prices of a part those of the latest
    /// day, the lowest of several. The part is the own number, else the supplier's, else the designation.
    LatestPrices,
    /// `own_number`, `bins`, `on_hand`: null, not zero, for a part without rows of stock.
    StockOfParts,
    /// `supplier`, `part`, `orders`, `quantity`, `oldest`: what is ordered and not received.
    OpenOrders,
}

impl Summary {
    /// All of them.
    pub const ALL: [Self; 4] = [
        Self::UsagesByYear,
        Self::LatestPrices,
        Self::StockOfParts,
        Self::OpenOrders,
    ];

    /// Name on a command line and of its file.
    pub const fn name(self) -> &'static str {
        match self {
            Self::UsagesByYear => "usages_by_year",
            Self::LatestPrices => "latest_prices",
            Self::StockOfParts => "stock_of_parts",
            Self::OpenOrders => "open_orders",
        }
    }
}

/// Answers by polars' streaming engine and writes the rows, in no order, as the Parquet file `into`.
///
/// # Errors
/// [`FrameError::Build`] if a table can not be read, lacks a column or the answer can not be written.
pub fn summarise(summary: Summary, tables: &TableFiles, into: &Path) -> Result<(), FrameError> {
    let rows = match summary {
        Summary::UsagesByYear => usages_by_year(tables),
        Summary::LatestPrices => latest_prices(tables),
        Summary::StockOfParts => stock_of_parts(tables),
        Summary::OpenOrders => open_orders(tables),
    };
    rows.and_then(|rows| write(rows, into))
        .map_err(|cause| FrameError::Build {
            table: summary.name(),
            cause,
        })
}

fn usages_by_year(tables: &TableFiles) -> Result<LazyFrame, PolarsError> {
    Ok(scan(&tables.usages)?
        .group_by([
            col("part"),
            col("date").dt().year().cast(DataType::Int64).alias("year"),
        ])
        .agg([known_sum("quantity"), rows().alias("usages")])
        .select([col("part"), col("year"), col("quantity"), col("usages")]))
}

fn latest_prices(tables: &TableFiles) -> Result<LazyFrame, PolarsError> {
    let key = || [col("supplier"), col("part"), col("price_currency")];
    let priced = scan(&tables.offers)?
        .select([
            col("supplier"),
            first_known(&["own_number", "supplier_number", "designation"]).alias("part"),
            col("price_currency"),
            // A list without any day is older than every dated one.
            first_known(&["quote_date", "list_dated"])
                .fill_null(lit(0).cast(DataType::Date))
                .alias("dated"),
            (col("price_cents_e2").cast(DataType::Float64)
                / col("price_per").cast(DataType::Float64)
                / lit(CENTS_E2))
            .alias("unit_price"),
        ])
        .filter(
            col("unit_price")
                .is_not_null()
                .and(col("part").is_not_null()),
        );
    let latest = priced.clone().group_by(key()).agg([col("dated").max()]);
    let on = || [key().to_vec(), vec![col("dated")]].concat();
    // A price that is known has its currency, so that no key is null but a supplier that nobody named.
    let args = JoinArgs {
        nulls_equal: true,
        ..JoinArgs::new(JoinType::Inner)
    };
    Ok(priced
        .join(latest, on(), on(), args)
        .group_by(on())
        .agg([col("unit_price").min()]))
}

fn stock_of_parts(tables: &TableFiles) -> Result<LazyFrame, PolarsError> {
    let held = scan(&tables.stock)?
        .group_by([col("part")])
        .agg([rows().alias("bins"), known_sum("on_hand")]);
    Ok(scan(&tables.parts)?
        .group_by([col("own_number")])
        .agg([])
        .join(
            held,
            [col("own_number")],
            [col("part")],
            JoinArgs::new(JoinType::Left),
        )
        .select([col("own_number"), col("bins"), col("on_hand")]))
}

fn open_orders(tables: &TableFiles) -> Result<LazyFrame, PolarsError> {
    Ok(scan(&tables.receipts)?
        .filter(col("received").is_null())
        .group_by([col("supplier"), col("part")])
        .agg([
            rows().alias("orders"),
            known_sum("quantity"),
            col("ordered").min().alias("oldest"),
        ]))
}

/// The first of some columns that is known in a row.
fn first_known(columns: &[&str]) -> Expr {
    let mut known = lit(LiteralValue::untyped_null());
    for column in columns.iter().rev() {
        known = when(col(*column).is_not_null())
            .then(col(*column))
            .otherwise(known);
    }
    known
}

/// The sum of what is known; null where nothing is: to the engine itself the sum of nothing is 0.
fn known_sum(column: &str) -> Expr {
    when(col(column).count().gt(lit(0)))
        .then(col(column).sum())
        .otherwise(lit(NULL))
        .alias(column)
}

/// Number of rows of a group.
fn rows() -> Expr {
    len().cast(DataType::Int64)
}

fn scan(file: &Path) -> Result<LazyFrame, PolarsError> {
    LazyFrame::scan_parquet(PlRefPath::try_from_path(file)?, ScanArgsParquet::default())
}

fn write(rows: LazyFrame, into: &Path) -> Result<(), PolarsError> {
    let target = SinkTarget::Path(PlRefPath::try_from_path(into)?);
    let format = FileWriteFormat::Parquet(Arc::new(ParquetWriteOptions::default()));
    let args = UnifiedSinkArgs {
        maintain_order: false,
        ..UnifiedSinkArgs::default()
    };
    rows.sink(SinkDestination::File { target }, format, args)?
        .collect_with_engine(Engine::Streaming)?;
    Ok(())
}
