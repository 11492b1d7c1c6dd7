"""Compares every designation and size in data/demo/parts_master.xlsx with `standard_sizes.csv`.

    python tests/demo/check_demo.py

Prints what disagrees; the planted mistakes must be exactly those named in PLANTED. Also looks up every number
that usages, receipts, approvals, kits, other ways and quotes speak of.
"""

import csv
import pathlib
import re
import sys

import openpyxl

HERE = pathlib.Path(__file__).resolve().parent
DEMO = HERE.parents[1] / "data" / "demo"
PLANTED = {
    ("6305 2RS", "bore_mm"), ("6305 2RS", "outside_mm"), ("6207 2RS", "width_mm"), ("R10 2Z", "bore_mm"),
    ("6306 2RS", "second"),
}
FIELDS = ["bore_mm", "outside_mm", "width_mm", "assembled_width_mm", "height_mm", "washer_bore_mm", "fw_mm", "ew_mm"]


def sizes():
    with open(HERE / "standard_sizes.csv", encoding="utf-8") as table:
        return list(csv.DictReader(line for line in table if not line.startswith("#")))


def basic(designation, known):
    """The longest standard designation that the printed one starts with, inch capped forms first."""
    text = designation.replace("\u00a0", " ").strip()
    match = re.match(r"(R\d+) (2RS|2Z)$", text)
    if match:
        return match.group(1) + "ZZ"
    match = re.match(r"(NUP|NU|NJ|N)(\d+)", text)
    if match:
        return match.group(2)
    word = text.split()[0]
    candidates = [word, re.sub(r"(NR|N|K|B|C)$", "", word)]
    return next((c for c in candidates if c in known), None)


def number(value):
    return float(value.replace(",", ".")) if isinstance(value, str) else value


def check_bearings(sheet, known):
    found, seen = set(), set()
    for row in sheet.iter_rows(min_row=5, values_only=True):
        if not row[0] or not str(row[0]).startswith("BRG"):
            continue
        if not row[4]:
            print(f"no designation, size not compared: {row[0]}")
            continue
        designation = row[4].replace("\u00a0", " ").strip()
        size = known.get(basic(designation, known))
        if size is None:
            print(f"not in the size table: {designation}")
            found.add((designation, "unknown"))
            continue
        if designation in seen:
            found.add((designation, "second"))
            continue
        seen.add(designation)
        for field, value in zip(FIELDS, row[5:13]):
            if value is None or (field == "bore_mm" and not size[field]):
                continue
            if abs(number(value) - float(size[field])) > 1e-9:
                found.add((designation, field))
    return found, len(seen)


UNKNOWN = {"BRG-9999", "old number 4471"}


def unknown_numbers(book):
    """Numbers in the other files that the master does not hold, apart from those booked by designation."""
    own = {row[0] for sheet in book for row in sheet.iter_rows(values_only=True) if row[0]}
    own |= {row[2] for row in book["Bearings"].iter_rows(values_only=True) if row[2]}
    used = set()
    with open(DEMO / "usages_2021-2026.csv", encoding="utf-8") as table:
        used |= {row[1].replace("\u00a0", "-") for row in list(csv.reader(table))[1:]}
    with open(DEMO / "approvals.csv", encoding="utf-8") as table:
        used |= {row[2] for row in list(csv.reader(table))[1:]}
    for name, sheet, column, first in [("receipts", "Order lines", 2, 4), ("rebuild_kits", "Kit lines", 4, 5),
                                       ("shop_tables", "Other ways", 0, 2), ("quotes_received", "Quotes", 3, 2)]:
        rows = openpyxl.load_workbook(DEMO / f"{name}.xlsx")[sheet].iter_rows(min_row=first, values_only=True)
        used |= {row[column] for row in rows if row[column]}
    return {number for number in used if number not in own and number != "6208-2RS"}


def main():
    families = ("deep_groove", "deep_groove_inch", "deep_groove_double", "angular", "angular_double", "self_aligning",
                "spherical", "tapered", "needle", "needle_no_inner", "drawn_cup", "needle_cage", "thrust", "combined")
    rows = sizes()
    known = {r["designation"]: r for r in rows if r["family"] in families}
    known |= {r["designation"]: r for r in rows if r["family"] == "cylindrical"}
    book = openpyxl.load_workbook(DEMO / "parts_master.xlsx")
    found, count = check_bearings(book["Bearings"], known)
    lips = {r["designation"]: r for r in rows if r["family"] == "lip_seal"}
    for row in book["Lip seals"].iter_rows(min_row=3, values_only=True):
        if row[0]:
            size = lips[row[3].split()[0]]
            if [float(size[f]) for f in ("shaft_mm", "housing_mm", "width_mm")] != [float(v) for v in row[4:7]]:
                found.add((row[3], "lip seal"))
            count += 1
    rings = {r["designation"]: r for r in rows if r["family"] == "oring"}
    for row in book["O-rings"].iter_rows(min_row=3, values_only=True):
        size = rings[row[3]]
        if [float(size["inside_mm"]), float(size["section_mm"])] != [float(v) for v in row[4:6]]:
            found.add((row[3], "O-ring"))
        count += 1
    strangers = unknown_numbers(book)
    for number in sorted(strangers ^ (UNKNOWN)):
        print("unexpected unknown number", number)
    for what in sorted(found ^ PLANTED):
        print("unexpected" if what in found else "planted but not found", what)
    print(f"{count} sizes compared, {len(found)} planted disagreements")
    return 1 if found ^ PLANTED or strangers ^ UNKNOWN else 0


if __name__ == "__main__":
    sys.exit(main())
