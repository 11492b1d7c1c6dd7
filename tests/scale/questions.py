"""The same questions to two engines: our own group-bys on polars' streaming engine, and SQL by DataFusion.

Ours are `src/catalogue/frame/streamed.rs`, called through the program of this package. DataFusion's context runs in one process
here; the same SQL and tables go to its distributed scheduler unchanged, which is the way on where one machine ends. Each answer
has a unique key, so that two answers of equal length are equal if no row of one is missing in the other.
"""

import os
import subprocess
from datetime import date
from pathlib import Path

import datafusion
import polars as pl
import polars.selectors as cs

from tables import tables_of

FOREVER_AGO = date(1970, 1, 1)

SQL = {
    "usages_by_year": """
        SELECT part, CAST(date_part('year', date) AS BIGINT) AS year, sum(quantity) AS quantity, count(*) AS usages
        FROM usages GROUP BY 1, 2""",
    "latest_prices": """
        WITH priced AS (
            SELECT supplier, coalesce(own_number, supplier_number, designation) AS part, price_currency,
                coalesce(quote_date, list_dated, DATE '1970-01-01') AS dated,
                CAST(price_cents_e2 AS DOUBLE) / price_per / 10000 AS unit_price
            FROM offers),
        latest AS (
            SELECT supplier, part, price_currency, max(dated) AS dated FROM priced
            WHERE unit_price IS NOT NULL AND part IS NOT NULL GROUP BY supplier, part, price_currency)
        SELECT supplier, part, price_currency, dated, min(unit_price) AS unit_price
        FROM priced JOIN latest USING (supplier, part, price_currency, dated) GROUP BY 1, 2, 3, 4""",
    "stock_of_parts": """
        SELECT own_number, bins, on_hand FROM (SELECT DISTINCT own_number FROM parts) AS own
        LEFT JOIN (SELECT part, count(*) AS bins, sum(on_hand) AS on_hand FROM stock GROUP BY part) AS held
        ON own.own_number = held.part""",
    "open_orders": """
        SELECT supplier, part, count(*) AS orders, sum(quantity) AS quantity, min(ordered) AS oldest
        FROM receipts WHERE received IS NULL GROUP BY supplier, part""",
}


def program():
    """The program of this package; `cargo build --release --manifest-path tests/scale/Cargo.toml` makes it."""
    built = Path(__file__).parent / "target/release/sparewright-scale"
    return os.environ.get("SPAREWRIGHT_SCALE", built)


def answer_by_ours(question, workspace, into):
    """Writes the answer as Parquet without ever holding it whole; returns the program's peak memory in MiB."""
    done = subprocess.run([program(), question, workspace, into], capture_output=True, text=True)
    if done.returncode != 0:
        raise RuntimeError(done.stderr)
    return float(done.stdout)


def answer_by_datafusion(question, workspace, into, memory_bytes=None, spill=None):
    """The same by SQL; `memory_bytes` limits what it holds, the rest is spilled into the folder `spill`."""
    runtime = datafusion.RuntimeEnvBuilder()
    if memory_bytes:
        runtime = runtime.with_fair_spill_pool(memory_bytes).with_disk_manager_specified(spill)
    context = datafusion.SessionContext(datafusion.SessionConfig(), runtime)
    for name, path in tables_of(workspace).items():
        context.register_parquet(name, path)
    context.sql(SQL[question]).write_parquet(into)


ENGINES = {"ours": answer_by_ours, "datafusion": answer_by_datafusion}


def differing_rows(one, other):
    """Rows of one answer that the other lacks, both ways; both are folders or files of Parquet."""

    def scan(path):
        frame = pl.scan_parquet(path)
        # DataFusion writes texts and dates in other physical types.
        return frame.select(
            pl.col(name).cast(pl.String) if dtype == pl.Binary else pl.col(name)
            for name, dtype in frame.collect_schema().items()
        ).with_columns(cs.float().round(8))  # engines add in different orders; the ninth digit is theirs

    def lacking(a, b):
        columns = a.collect_schema().names()
        rest = a.join(b, on=columns, how="anti", nulls_equal=True)
        return rest.select(pl.len()).collect(engine="streaming").item()

    a, b = scan(one), scan(other)
    count = [frame.select(pl.len()).collect(engine="streaming").item() for frame in (a, b)]
    return lacking(a, b) + lacking(b, a), count
