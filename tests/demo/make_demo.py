"""Makes the spreadsheets of the demo shop, "Hollerbrook Oat Mill", in data/demo.

    python tests/demo/make_demo.py [FOLDER]        needs openpyxl, xlwt and odfpy

The shop, its people, suppliers and numbers are invented. Sizes of standard parts are real and come from
`standard_sizes.csv`. The seed and every time stamp are fixed: the same script gives the same bytes, with the
same versions of the three packages. `shop.toml`, `README.md` and `readme-from-supplier.md` are kept by hand.

    demo_parts.py    which standard parts the shop keeps
    demo_kits.py     machines, suppliers, kits, approvals
    demo_offers.py   price lists and quotes
    demo_history.py  stock, usages, receipts
    demo_files.py    writing the files
    check_demo.py    compares the sizes in the files with the size table
"""

import datetime
import pathlib
import random
import sys

import demo_files as files
import demo_history as history
import demo_kits as kits
import demo_offers as offers
import demo_parts as parts
from demo_files import Error, Table

SEED = 20260309

# Minimums that a planner signed for, with reason and date: one above what is computed, one below.
SIGNED = {
    "BRG-0204": (3, "three fans of one age run rough", datetime.date(2026, 1, 12)),
    "BRG-0346": (4, "one set of press rolls takes four", datetime.date(2025, 11, 3)),
}


def bearings_sheet(shelf):
    top = ["Part no.", "Old no.", "Also known as", "Description", "Designation", "Dimensions (mm)", None, None, None, None, None, None, None,
           "Execution", None, None, None, None, None, None, None, None, None, None, "Load ratings", None, None, "Limiting speed rpm",
           "Shelf life (months)", "Unit", "Min. stock", "Why min. stock", "Min. set on", "Remark"]
    below = [None] * 5 + ["Bore d", "Outside dia. D", "Width B", "Assembled width T", "Height H", "Housing washer bore d1",
                          "Raceway Fw", "Raceway Ew", "Closure", "Clearance", "Tolerance class", "Contact angle", "Rib form", "Bore form",
                          "Snap ring groove", "Rows", "Preload", "Arrangement", "Cage", "C kN", "C0 kN", "Ratings from"] + [None] * 7
    rows = [["Hollerbrook Oat Mill — parts master, rolling bearings"], ["Printed from stores file, March 2026. Dimensions in mm."], top, below]
    for part in shelf.parts:
        if part.number.startswith("BRG"):
            size = [part.mm(f"{name}_mm") for name in ("bore", "outside", "width", "assembled_width", "height", "washer_bore", "fw", "ew")]
            if part.family == "needle":
                size[6] = None
            rated = part.size["rating_source"] == "MOTT"
            ratings = [part.mm("dynamic_kn"), part.mm("static_kn"), "textbook table, one edition"] if rated else [None] * 3
            rows.append([part.number, part.old, part.alias, part.words, part.designation, *size, part.closure, part.clearance, part.tolerance,
                         part.angle, part.rib, part.bore_form, part.snap, part.rows, part.preload, part.arrangement, part.cage, *ratings,
                         part.speed, part.shelf_life, part.unit, *SIGNED.get(part.number, (part.min_stock, None, None)), part.note])
    plant_in_bearings(rows)
    merges = ["A1:H1", "F3:M3", "N3:X3", "Y3:AA3"] + [f"{c}3:{c}4" for c in ["A", "B", "C", "D", "E", "AB", "AC", "AD", "AE", "AF", "AG", "AH"]]
    return Table("Bearings", rows, header=2, title=2, merges=merges,
                 widths=[11, 10, 14, 38, 22, 8, 9, 8, 10, 8, 10, 9, 9, 9, 9, 10, 9, 8, 8, 9, 6, 8, 12, 14, 7, 7, 20, 10, 9, 9, 8, 30, 12, 24])


def plant_in_bearings(rows):
    """Mistakes of the kind that real masters hold; README.md lists them."""
    at = {(row[4] or ""): row for row in rows[4:]}
    at["6305 2RS"][5], at["6305 2RS"][6] = at["6305 2RS"][6], at["6305 2RS"][5]  # bore and outside diameter swapped
    at["6207 2RS"][7] = 18.0  # contradicts the designation
    at["R10 2Z"][5] = 0.625  # inches in a millimetre column
    at["6010"][5], at["6010"][6] = "50,0", "80"  # numbers stored as text
    at["6206 2RS"][4] = "6206\u00a02RS\u00a0"
    at["6211 C3"][24] = Error("#N/A")
    again = list(at["6306 2RS"])
    again[3] = "Deep groove ball bearing (entered again in 2023)"
    again[7] = 27.0  # the width of the wide form
    middle = 4 + len(rows) // 2
    rows[middle:middle] = [[], [None, None, None, "Number of items, sheet 1", None, middle - 4], [], list(rows[2]), list(rows[3]), again]
    rows += [[], ["Notes: closure 2RS = contact seals both sides, 2Z = shields both sides. Blank clearance = as the designation says."],
             ["Brass cages only where the builder asks for them."]]


def other_sheets(shelf):
    seals = [["Hollerbrook Oat Mill — parts master, rotary shaft lip seals"],
             ["Part no.", "Old no.", "Description", "Designation", "Shaft dia. d1", "Housing bore d2", "Width b", "Form", "Material", "Shelf life months",
              "Unit", "Min stock"]]
    rings = [["Hollerbrook Oat Mill — parts master, O-rings"],
             ["Part no.", "Old no.", "Description", "Designation", "Inside dia. ID (mm)", "Section (mm)", "Material", "Hardness", "Shelf life months", "Unit",
              "Min stock"]]
    small = [["Hollerbrook Oat Mill — parts master, rings, nuts, pins"],
             ["Part no.", "Old no.", "Description", "Designation", "Shaft dia.", "Housing bore", "Thread", "Pin dia.", "Length", "Hardness", "Unit", "Min stock"]]
    rest = [["Hollerbrook Oat Mill — parts master, no standard"],
            ["Part no.", "Old no.", "Description", "Unit", "Min stock", "Drawing"]]
    for p in shelf.parts:
        if p.family == "lip_seal":
            seals.append([p.number, p.old, p.words, f"{p.base} {p.form}", p.mm("shaft_mm"), p.mm("housing_mm"), p.mm("width_mm"), p.form, p.material,
                          p.shelf_life, p.unit, p.min_stock])
        elif p.family == "oring":
            rings.append([p.number, p.old, p.words, p.designation, p.mm("inside_mm"), p.mm("section_mm"), p.material, p.hardness, p.shelf_life, p.unit,
                          p.min_stock])
        elif p.family in ("shaft_ring", "bore_ring", "lock_nut", "pin"):
            small.append([p.number, p.old, p.words, p.designation, p.mm("shaft_mm"), p.mm("housing_mm"), p.size["thread"],
                          p.mm("pin_mm"), p.length, p.hardness, p.unit, p.min_stock])
        elif p.family == "none":
            rest.append([p.number, p.old, p.words, p.unit, p.min_stock, p.note])
    seals.insert(25, [])
    old = [["Part no.", "Designation", "Remark"], ["BRG-0001", "6205", "number given up in 2019"], ["BRG-0002", "NU205", "number given up in 2019"]]
    return [Table("Lip seals", seals, title=1, widths=[11, 10, 26, 18, 10, 10, 9, 8, 10, 10, 7, 9]),
            Table("O-rings", rings, title=1, widths=[11, 10, 12, 16, 12, 10, 10, 14, 10, 7, 9]),
            Table("Rings nuts pins", small, title=1, widths=[11, 10, 28, 26, 9, 9, 12, 9, 9, 12, 7, 9]),
            Table("No standard", rest, title=1, widths=[11, 10, 48, 14, 9, 20]),
            Table("old 2019", old, hidden=True)]


def shop_tables(shelf):
    suppliers = [["Supplier", "Approved", "Approved for", "Order cut-off", "Counter opens", "Counter closes", "Calendar", "Freight EUR",
                  "Freight free from EUR", "Collection hours", "Courier EUR", "Courier hours", "Remark"], *map(list, kits.SUPPLIERS)]
    machines = [["Machine", "Description", "Downtime cost EUR/h", "Installed", "In use from", "In use until", "Running hours per year",
                 "Criticality"], *map(list, kits.MACHINES)]
    planned = [["Kit", "Machine", "Planned date", "Planner"], *[[*row, "E. Kirchwaller"] for row in kits.PLANNED]]
    ways = [["Part no.", "Description", "Kit", "Line", "Way", "Hours", "Cost EUR", "Quantity", "From", "Approved by", "Note"]]
    for key, kit, line, way, *rest in kits.OTHER_WAYS:
        part = kits.part_of(shelf, key)
        ways.append([part.number, part.designation or part.words, kit, line, way, *rest])
    return [Table("Suppliers", suppliers, widths=[28, 10, 20, 10, 10, 10, 16, 9, 12, 10, 9, 9, 36]),
            Table("Machines", machines, widths=[10, 40, 12, 9, 12, 12, 12, 10]),
            Table("Planned rebuilds", planned, widths=[36, 10, 13, 16]),
            Table("Other ways", ways, widths=[11, 40, 34, 6, 16, 8, 9, 9, 28, 18, 40])]


def approvals(shelf):
    rows = [["kit", "line", "substitute", "outcome", "checks", "approved by", "date"]]
    for kit, line, key, outcome, checks, by, day in kits.APPROVALS:
        part = kits.part_of(shelf, key)
        rows.append([kit, line, part.number, outcome, checks, by, day.isoformat()])
    return rows


def main(folder):
    shelf = parts.build()

    def rng(name):
        return random.Random(f"{SEED} {name}")

    files.xlsx(folder / "parts_master.xlsx", [bearings_sheet(shelf), *other_sheets(shelf)])
    files.xls(folder / "Lagerbestand_2026-03-06.xls", history.stock(shelf, rng("stock")))
    files.delimited(folder / "preisliste_vossenkamper_2026.csv", offers.vossenkamper(shelf, rng("vossenkamper")), ";", "cp1252")
    files.ods(folder / "prix_courroux_2026.ods", [offers.courroux(shelf, rng("courroux"))])
    files.xlsx(folder / "ostrelby_price_list.xlsx", offers.ostrelby(shelf, rng("ostrelby")))
    files.xlsx(folder / "listino_guarniedda_2026.xlsx", offers.guarniedda(shelf, rng("guarniedda")))
    files.xlsx(folder / "quote_tarnwick_2026-02-20.xlsx", offers.tarnwick(shelf, rng("tarnwick")))
    files.delimited(folder / "restposten_pfennigring.csv", offers.pfennigring(shelf, rng("pfennigring")), ";", "utf-8-sig")
    files.xlsx(folder / "angebot_strattwieser_26-0188.xlsx", offers.builder_list(shelf))
    files.xlsx(folder / "quotes_received.xlsx", offers.quotes(shelf))
    files.xlsx(folder / "shop_tables.xlsx", shop_tables(shelf))
    files.xlsx(folder / "rebuild_kits.xlsx", history.kit_tables(shelf))
    files.delimited(folder / "approvals.csv", approvals(shelf))
    files.delimited(folder / "usages_2021-2026.csv", history.usages(shelf, rng("usages")))
    files.xlsx(folder / "receipts.xlsx", history.receipts(shelf, rng("receipts")))


if __name__ == "__main__":
    here = pathlib.Path(__file__).resolve().parents[2] / "data" / "demo"
    main(pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else here)
