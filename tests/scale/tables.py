"""Where the current tables of a workspace lie: what any other tool needs to know to read them.

A workspace is a folder with `current` (the number of the snapshot), `snapshots/<number>.json` (which names the file of each
table) and `tables/*.parquet`; a file never changes once written, so a reader needs no lock.
"""

import json
from pathlib import Path


def tables_of(workspace):
    """Path of each table's Parquet file in the current snapshot."""
    workspace = Path(workspace)
    number = json.loads((workspace / "current").read_text())["snapshot"]
    manifest = json.loads((workspace / "snapshots" / f"{number:06}.json").read_text())
    return {
        table["table"]: str(workspace / "tables" / table["file"]) for table in manifest["tables"]
    }
