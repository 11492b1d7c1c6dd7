"""Our streamed group-bys, DataFusion's SQL and plain Python give the same answers on the demo's workspace and generated tables.

    cargo build --release --manifest-path tests/scale/Cargo.toml
    pip install -r tests/scale/requirements.txt && python -m unittest discover -s tests/scale

Outside the ordinary test run. SPAREWRIGHT names the program that imports the demo; without one that test says "skipped".
"""

import os
import shutil
import subprocess
import tempfile
import unittest
from collections import defaultdict
from pathlib import Path

import polars as pl
import polars.selectors as cs
import pyarrow.parquet as pq

from generate import generate
from questions import ENGINES, FOREVER_AGO, SQL, differing_rows, program
from tables import tables_of

ROOT = Path(__file__).parents[2]


def rows(path):
    return pq.read_table(path).to_pylist()


def known_sum(values):
    known = [value for value in values if value is not None]
    return round(sum(known), 8) if known else None


def by_plain_python(question, tables):
    """The answers by loops over rows: slow, and nobody's engine."""
    if question == "usages_by_year":
        used = defaultdict(list)
        for row in rows(tables["usages"]):
            used[row["part"], row["date"].year].append(row["quantity"])
        return {(*key, known_sum(of), len(of)) for key, of in used.items()}
    if question == "latest_prices":
        latest = {}
        for row in rows(tables["offers"]):
            part = row["own_number"] or row["supplier_number"] or row["designation"]
            if part is None or row["price_cents_e2"] is None:
                continue
            key = (row["supplier"], part, row["price_currency"])
            dated = row["quote_date"] or row["list_dated"] or FOREVER_AGO
            price = round(row["price_cents_e2"] / row["price_per"] / 10_000, 8)
            known = latest.get(key)
            if known is None or dated > known[0] or (dated == known[0] and price < known[1]):
                latest[key] = (dated, price)
        return {(*key, *value) for key, value in latest.items()}
    if question == "stock_of_parts":
        held = defaultdict(list)
        for row in rows(tables["stock"]):
            held[row["part"]].append(row["on_hand"])
        own = {row["own_number"] for row in rows(tables["parts"])}
        return {
            (number, len(held[number]), known_sum(held[number]))
            if number in held
            else (number, None, None)
            for number in own
        }
    orders = defaultdict(list)
    for row in rows(tables["receipts"]):
        if row["received"] is None:
            orders[row["supplier"], row["part"]].append(row)
    return {
        (
            *key,
            len(of),
            known_sum(row["quantity"] for row in of),
            min(row["ordered"] for row in of),
        )
        for key, of in orders.items()
    }


class SameAnswers(unittest.TestCase):
    def setUp(self):
        if not Path(program()).exists():
            self.skipTest(f"skipped: no program at {program()}")
        self.folder = Path(tempfile.mkdtemp())
        self.addCleanup(shutil.rmtree, self.folder)

    def all_agree(self, workspace):
        tables = tables_of(workspace)
        for question in SQL:
            answers = []
            for engine, answer in ENGINES.items():
                into = str(self.folder / f"{question}-{engine}")
                answer(question, str(workspace), into)
                answers.append(into)
                found = set(pl.read_parquet(into).with_columns(cs.float().round(8)).rows())
                expected = by_plain_python(question, tables)
                self.assertEqual(sorted(found ^ expected, key=str)[:6], [], f"{question} by {engine}")
                self.assertGreater(len(found), 0, question)
            differing, (one, other) = differing_rows(*answers)
            self.assertEqual((differing, one), (0, other), question)

    def test_generated_tables(self):
        generate(self.folder / "made", 2_000, 9_000)
        self.all_agree(self.folder / "made")

    def test_the_workspace_of_the_demo(self):
        program = os.environ.get("SPAREWRIGHT", ROOT / "target/release/sparewright")
        if not Path(program).exists():
            self.skipTest(f"skipped: no program at {program}")
        workspace = self.folder / "shop"
        demo = str(ROOT / "data/demo")
        done = subprocess.run([program, "import", demo, "--workspace", workspace], capture_output=True)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.all_agree(workspace)

    def test_a_wrong_question_or_workspace_is_told(self):
        generate(self.folder / "made", 20, 90)
        ask = ENGINES["ours"]
        with self.assertRaisesRegex(RuntimeError, "no question .weather.; there are usages_by_year"):
            ask("weather", str(self.folder / "made"), str(self.folder / "answer"))
        with self.assertRaises(RuntimeError):
            ask("open_orders", str(self.folder / "elsewhere"), str(self.folder / "answer"))

    def test_answers_that_differ_are_seen(self):
        one, other = str(self.folder / "one"), str(self.folder / "other")
        pl.DataFrame({"part": ["a", "b"], "n": [1, None]}).write_parquet(one)
        pl.DataFrame({"part": ["a", "b"], "n": [1, 2]}).write_parquet(other)
        self.assertEqual(differing_rows(one, one), (0, [2, 2]))
        self.assertEqual(differing_rows(one, other), (2, [2, 2]))


if __name__ == "__main__":
    unittest.main()
