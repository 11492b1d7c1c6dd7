"""Large tables in the form of a workspace, written in pieces so that making them needs little memory. Everything is invented.

    python tests/scale/generate.py FOLDER PARTS USAGES

Columns and types are those of `tests/golden/workspace_columns.md`; columns that no question reads are left out. Some parts are
used often and most seldom (the cube of an even draw); two offers a part from forty suppliers, stock rows for six parts of ten,
one order for two parts, a tenth of them still open.
"""

import hashlib
import json
import sys
from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq

PIECE = 500_000
FIRST_DAY = 18_628  # 2021-01-01
DAYS = 5 * 365
SUPPLIERS = 40


def numbers(ids):
    """`P-00000042`."""
    return pa.array(np.char.add("P-", np.char.zfill(ids.astype(str), 8)))


def makers(random, parts):
    """For each table a function from first row and count to a piece."""

    def days(count, mask=None):
        return pa.array(
            (FIRST_DAY + random.integers(0, DAYS, count)).astype(np.int32), pa.date32(), mask=mask
        )

    def any_part(count):
        return numbers(random.integers(0, parts, count))

    def supplier(count):
        return pa.array(np.char.add("S-", random.integers(0, SUPPLIERS, count).astype(str)))

    def whole(low, high, count):
        return pa.array(random.integers(low, high, count).astype(float))

    def usages(_, count):
        often = np.minimum((parts * random.random(count) ** 3).astype(np.int64), parts - 1)
        return {
            "date": days(count),
            "part": numbers(often),
            "quantity": whole(1, 5, count),
        }

    def offers(_, count):
        nothing = pa.nulls(count, pa.string())
        return {
            "supplier": supplier(count),
            "own_number": any_part(count),
            "supplier_number": nothing,
            "designation": nothing,
            "price_cents_e2": pa.array(random.integers(10_000, 10_000_000, count)),
            "price_per": pa.array(random.choice([1, 1, 1, 10, 100], count)),
            "price_currency": pa.array(np.full(count, "EUR")),
            "quote_date": days(count, mask=random.random(count) < 0.2),
            "list_dated": days(count),
        }

    def receipts(_, count):
        return {
            "supplier": supplier(count),
            "part": any_part(count),
            "ordered": days(count),
            "received": days(count, mask=random.random(count) < 0.1),
            "quantity": whole(1, 20, count),
        }

    return {
        "parts": lambda first, count: {"own_number": numbers(np.arange(first, first + count))},
        "usages": usages,
        "stock": lambda _, count: {"part": any_part(count), "on_hand": whole(0, 50, count)},
        "offers": offers,
        "receipts": receipts,
    }


def generate(folder, parts, usages, seed=20261126):
    """Writes a workspace; returns the rows of each table."""
    folder = Path(folder)
    (folder / "tables").mkdir(parents=True)
    (folder / "snapshots").mkdir()
    rows = {
        "parts": parts,
        "usages": usages,
        "stock": parts * 6 // 10,
        "offers": parts * 2,
        "receipts": parts // 2,
    }
    make = makers(np.random.default_rng(seed), parts)
    manifest = []
    for table, count in rows.items():
        file = f"{table}-generated.parquet"
        writer = None
        for first in range(0, count, PIECE):
            piece = pa.table(make[table](first, min(PIECE, count - first)))
            writer = writer or pq.ParquetWriter(
                folder / "tables" / file, piece.schema, compression="zstd"
            )
            writer.write_table(piece)
        writer.close()
        digest = hashlib.sha256((folder / "tables" / file).read_bytes()).hexdigest()
        manifest.append({"table": table, "file": file, "sha256": digest, "rows": count})
    snapshot = {
        "schema": 1,
        "number": 1,
        "made_at": "2026-11-26T03:00:00",
        "made_by": "import",
        "files": [],
        "tables": manifest,
        "readings": [],
        "left_out": [],
        "not_read": [],
        "settings": None,
        "counts": {},
        "kept_out": [],
    }
    (folder / "snapshots" / "000001.json").write_text(json.dumps(snapshot))
    (folder / "current").write_text(json.dumps({"schema": 1, "snapshot": 1}))
    return rows


if __name__ == "__main__":
    print(generate(sys.argv[1], int(sys.argv[2]), int(sys.argv[3])))
