"""The same questions to two engines: polars' streaming engine, and SQL by DataFusion.

DataFusion's context runs in one process here; the same SQL and tables go to its distributed scheduler unchanged, which is the
way on where one machine ends. Each answer has a unique key, so that two answers of equal length are equal if no row of one is
missing in the other.
"""

from datetime import date

import datafusion
import polars as pl

FOREVER_AGO = date(1900, 1, 1)


def known_sum(column):
    """The sum of what is known; null where nothing is, as in SQL. polars' own sum of nothing is 0."""
    known = pl.col(column)
    return pl.when(known.count() > 0).then(known.sum().round(6))


def polars_frames(tables):
    """One lazy frame a question; nothing is read yet."""
    scan = {name: pl.scan_parquet(path) for name, path in tables.items()}
    offers = (
        scan["offers"]
        .with_columns(
            part=pl.coalesce("own_number", "supplier_number", "designation"),
            dated=pl.coalesce("quote_date", "list_dated", pl.lit(FOREVER_AGO)),
            # Engines divide in different ways; the ninth digit behind the point is theirs.
            unit_price=(pl.col("price_cents_e2") / pl.col("price_per") / 10_000).round(8),
        )
        .filter(pl.col("unit_price").is_not_null() & pl.col("part").is_not_null())
        .select("supplier", "part", "price_currency", "dated", "unit_price")
    )
    offer_key = ["supplier", "part", "price_currency"]
    return {
        "usages_by_year": scan["usages"]
        .group_by("part", pl.col("date").dt.year().alias("year"))
        .agg(quantity=known_sum("quantity"), usages=pl.len())
        .select("part", pl.col("year").cast(pl.Int64), "quantity", pl.col("usages").cast(pl.Int64)),
        # Of several prices of the latest day the lowest.
        "latest_prices": offers.join(
            offers.group_by(offer_key).agg(dated=pl.col("dated").max()), on=[*offer_key, "dated"]
        )
        .group_by(*offer_key, "dated")
        .agg(pl.col("unit_price").min())
        .select(*offer_key, "dated", "unit_price"),
        # A part without stock rows has null, not zero.
        "stock_of_parts": scan["parts"]
        .select("own_number")
        .unique()
        .join(
            scan["stock"]
            .group_by("part")
            .agg(bins=pl.len(), on_hand=known_sum("on_hand")),
            left_on="own_number",
            right_on="part",
            how="left",
        )
        .select("own_number", pl.col("bins").cast(pl.Int64), "on_hand"),
        "open_orders": scan["receipts"]
        .filter(pl.col("received").is_null())
        .group_by("supplier", "part")
        .agg(
            orders=pl.len(),
            quantity=known_sum("quantity"),
            oldest=pl.col("ordered").min(),
        )
        .select("supplier", "part", pl.col("orders").cast(pl.Int64), "quantity", "oldest"),
    }


SQL = {
    "usages_by_year": """
        SELECT part, CAST(date_part('year', date) AS BIGINT) AS year, round(sum(quantity), 6) AS quantity, count(*) AS usages
        FROM usages GROUP BY 1, 2""",
    "latest_prices": """
        WITH priced AS (
            SELECT supplier, coalesce(own_number, supplier_number, designation) AS part, price_currency,
                coalesce(quote_date, list_dated, DATE '1900-01-01') AS dated,
                round(CAST(price_cents_e2 AS DOUBLE) / price_per / 10000, 8) AS unit_price
            FROM offers),
        latest AS (
            SELECT supplier, part, price_currency, max(dated) AS dated FROM priced
            WHERE unit_price IS NOT NULL AND part IS NOT NULL GROUP BY supplier, part, price_currency)
        SELECT supplier, part, price_currency, dated, min(unit_price) AS unit_price
        FROM priced JOIN latest USING (supplier, part, price_currency, dated) GROUP BY 1, 2, 3, 4""",
    "stock_of_parts": """
        SELECT own_number, bins, on_hand FROM (SELECT DISTINCT own_number FROM parts) AS own
        LEFT JOIN (SELECT part, count(*) AS bins, round(sum(on_hand), 6) AS on_hand FROM stock GROUP BY part) AS held
        ON own.own_number = held.part""",
    "open_orders": """
        SELECT supplier, part, count(*) AS orders, round(sum(quantity), 6) AS quantity, min(ordered) AS oldest
        FROM receipts WHERE received IS NULL GROUP BY supplier, part""",
}


def answer_by_polars(question, tables, into):
    """Writes the answer as Parquet without ever holding it whole."""
    polars_frames(tables)[question].sink_parquet(into, engine="streaming")


def answer_by_datafusion(question, tables, into, memory_bytes=None, spill=None):
    """The same by SQL; `memory_bytes` limits what it holds, the rest is spilled into the folder `spill`."""
    runtime = datafusion.RuntimeEnvBuilder()
    if memory_bytes:
        runtime = runtime.with_fair_spill_pool(memory_bytes).with_disk_manager_specified(spill)
    context = datafusion.SessionContext(datafusion.SessionConfig(), runtime)
    for name, path in tables.items():
        context.register_parquet(name, path)
    context.sql(SQL[question]).write_parquet(into)


ENGINES = {"polars": answer_by_polars, "datafusion": answer_by_datafusion}


def differing_rows(one, other):
    """Rows of one answer that the other lacks, both ways; both are folders or files of Parquet."""

    def scan(path):
        frame = pl.scan_parquet(path)
        # DataFusion writes texts and dates in other physical types.
        return frame.select(
            pl.col(name).cast(pl.String) if dtype == pl.Binary else pl.col(name)
            for name, dtype in frame.collect_schema().items()
        )

    def lacking(a, b):
        columns = a.collect_schema().names()
        rest = a.join(b, on=columns, how="anti", nulls_equal=True)
        return rest.select(pl.len()).collect(engine="streaming").item()

    a, b = scan(one), scan(other)
    count = [frame.select(pl.len()).collect(engine="streaming").item() for frame in (a, b)]
    return lacking(a, b) + lacking(b, a), count
