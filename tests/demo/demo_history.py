"""Stock, usages and receipts of the demo shop: drawn with a fixed seed around what the kits need."""

import datetime

from demo_kits import KITS, TASKS, part_of
from demo_files import Table

D = datetime.date
AS_OF = D(2026, 3, 9)
FIRST = D(2021, 1, 4)

# On hand where the story needs a certain number; everything else is drawn.
ON_HAND = {
    "NUP2216 C3 builder's execution": 0, "NUP2216 C3": 0, "NUP2216": 0, "NU2216 C3": 2, "NJ2216 C3": 1,
    "80x100x10 AS FKM": 2, "80x100x10 AS NBR": 4, "6214": 2, "KM16": 1, "DIN 472 140x4": 2, "DIN 471 80x2.5": 3,
    "*Ground spacer 80/95": 1, "AS568-347 NBR": 3, "*Flaking roll scraper": 1, "*Roll gap shim": 2, "*Coupling spider": 3,
    "ISO 8734 12x50 m6": 6, "*Felt strip 30": 7.5, "*Gasket, steam hood": 2,
    "22213": 0, "22213 C3": 0, "65x90x10 A NBR": 4, "KM13": 2, "AS568-341 NBR": 2, "*Felt strip 20": 12.0,
    "ISO 8734 10x40 m6": 8, "*Ground spacer 60/72": 0,
    "22211": 5, "55x72x8 A NBR": 6, "KM11": 4, "AS568-234 NBR": 8, "DIN 472 100x3": 5, "6208 2RS": 3, "ISO 8734 8x32 m6": 20,
    "*Backstop, elevator head": 0, "1210K": 3, "45x62x8 AS NBR": 4, "*Bucket bolt set": 1, "*Bucket, pressed steel": 22,
    "*Rubbing sensor": 2, "DIN 471 45x1.75": 4, "7212B DB": 0, "7212B": 2, "NU312 C3": 1, "60x80x8 AS NBR": 3, "KM12": 3,
    "*Hammer, reversible": 0, "*Hammer carrier": 4, "*Screen 3 mm": 2, "*Wear plate": 3, "DIN 472 110x4": 2,
    "6207 2RS C3": 4, "35x52x8 AS FKM": 0, "35x52x8 A NBR": 5, "AS568-214 FKM": 1, "25x3.55 NBR": 12, "*Airlock vane": 16,
    "*Gasket, airlock": 3, "DIN 472 72x2.5": 4, "DIN 471 35x1.5": 5, "6205 2Z": 2, "32206": 0, "32206B": 4, "6204 2RS": 6,
    "62204 2RS": 3, "6205 2RS C3": 4, "30x47x7 AS NBR": 5, "30x47x7 A NBR": 4, "R8 2RS": 0, "6001 2RS": 9, "RLS7": 0,
    "62/22 2RS": 2, "LM67048/LM67010": 1, 'ASME B18.8.2 1/4" x 1"': 4, "AS568-218 NBR": 1, "31.5x3.55 NBR": 6, "22311K C3": 0,
    "*Adapter sleeve": 1, "*Fan shaft sleeve": 0, "30210": 1, "*Pellet die": 0, "*Press roll shell": 1, "*Press roll eccentric": 0,
    "NKX20": 0, "AS568-224 NBR": 14, "*Filter bag": 36, "22312": 0, "22216 C3": 0, "*Heat seal bar": 1, "*Vacuum pump vane": 1,
    "*Clamp ring": 64, "*Sieve cloth 0.85": 9.0, "HK2016": 4, "K20X24X10": 2, "ISO 8734 6x24 m6": 8,
}


def numbers_on_hand(shelf):
    return {id(part_of(shelf, key)): amount for key, amount in ON_HAND.items()}


def stock(shelf, rng):
    """The stock program's list: one row for each bin and lot, German headers."""
    head = ["Artikelnummer", "Bezeichnung", "Lagerplatz", "Charge", "Vulkanisiert am", "Bestand", "ME", "reserviert",
            "bestellt", "Liefertermin", "Zähldatum"]
    rows = [["Lagerbestand Hollerbrook Oat Mill"], ["Stand 06.03.2026, Werk 1 und Werk 2"], [], head]
    fixed = numbers_on_hand(shelf)
    units = {"pc": "Stk", "m": "m", "set of 2": "Satz 2", "pack of 10": "Packung 10", "pack of 25": "Packung 25",
             "pack of 50": "Packung 50", "pack of 100": "Packung 100"}
    bins = {"BRG": "A", "SEA": "C", "ORG": "C", "RNG": "D", "NUT": "D", "PIN": "D", "MSC": "F"}
    for index, part in enumerate(shelf.parts):
        is_fixed = id(part) in fixed
        amount = fixed[id(part)] if is_fixed else rng.choice([0, 0, 1, 1, 2, 2, 3, 4, 6, 8])
        bin_name = f"{bins[part.number[:3]]}-{index // 24 + 1:02d}-{index % 24 + 1:02d}"
        rubber = part.family in ("lip_seal", "oring")
        on_order, due = None, None
        if not is_fixed and amount == 0 and rng.random() < 0.3:
            on_order, due = rng.choice([2, 4, 5, 10]), AS_OF + datetime.timedelta(days=rng.randrange(2, 45))
        reserved = 1 if not is_fixed and amount >= 4 and rng.random() < 0.2 else None
        lots = [amount]
        if rubber and amount >= 4:
            lots = [amount // 2, amount - amount // 2]
        for lot_index, lot in enumerate(lots):
            cured = number = None
            if rubber:
                years = (rng.uniform(0.2, 4.5) if is_fixed else rng.uniform(0.2, 8.6)) if lot_index == 0 else rng.uniform(0.2, 3)
                cured = AS_OF - datetime.timedelta(days=int(years * 365))
                number = f"L{cured:%y%m}-{rng.randrange(10, 99)}"
            place = bin_name if lot_index == 0 else bin_name.replace("C-", "W2-C-")
            rows.append([part.number, part.designation or part.words[:40], place, number, cured, lot,
                         units[part.unit], reserved if lot_index == 0 else None, on_order, due, D(2026, 3, 6)])
    story_rows(shelf, rows)
    rows[120:120] = [["", "", "", "", "", "", ""], ["", "Zwischensumme Regal A", "", "", "", 212.0]]
    mistakes = {"BRG-0142": "ca. 3", "BRG-0151": -2, "BRG-0163": "4"}
    for row in rows[4:]:
        if row[0] in mistakes:
            row[5] = mistakes[row[0]]
    rows.append(["BRG-9921", "Lager unbekannt, Karton ohne Etikett", "A-99-01", None, None, 3, "Stk", None, None, None, D(2026, 3, 6)])
    rows.append([])
    rows.append(["", "Gesamt", "", "", "", round(sum(r[5] for r in rows[4:] if len(r) > 5 and isinstance(r[5], (int, float))), 1)])
    return [Table("Bestand", rows, title=3, widths=[14, 36, 12, 12, 14, 9, 12, 11, 9, 13, 12])]


def story_rows(shelf, rows):
    """Lots too old, bits on order and reservations that the kits run into."""
    def of(key):
        number = part_of(shelf, key).number
        return [row for row in rows[4:] if row and row[0] == number]

    for row in of("AS568-224 NBR"):  # both lots of the filter valve rings are past seven years
        row[4], row[3] = D(2018, 4, 3), "L1804-11"
    of("AS568-224 NBR")[1][3:5] = ["L1811-40", D(2018, 11, 12)]
    of("80x100x10 AS NBR")[0][3:5] = ["L1802-17", D(2018, 2, 5)]
    of("NKX20")[0][8:10] = [1, D(2026, 3, 19)]
    of("7212B DB")[0][8:10] = [None, None]
    of("*Filter bag")[0][8:10] = [40, D(2026, 4, 2)]
    of("22211")[0][7] = 1
    of("LM67048/LM67010")[0][7] = 1
    of("*Hammer, reversible")[0][8:10] = [1, D(2026, 3, 2)]  # overdue and still open


def usages(shelf, rng):
    """Five years of the stores' booking list; returns are negative."""
    wanted = {}
    for kit, (machine, _, lines) in KITS.items():
        for _, key, quantity, *_ in lines:
            part = part_of(shelf, key)
            if part:
                wanted.setdefault(id(part), (part, machine, quantity))
    others = [p for p in shelf.parts if id(p) not in wanted and p.family != "none"]
    for part in rng.sample(others, 60):
        wanted[id(part)] = (part, rng.choice(["RS-4", "BE-12", "SC-20", "GM-4", "FN-6", "PS-8", "RV-3"]), 1)
    days = (AS_OF - FIRST).days
    rows = []
    for part, machine, quantity in wanted.values():
        events = rng.choice([0, 1, 2, 3, 4, 6, 8, 11, 16]) if quantity == 1 else rng.choice([2, 3, 5, 7, 9, 14])
        if part.price and float(part.price) > 250:
            events = rng.choice([1, 2, 3])
        for _ in range(events):
            day = FIRST + datetime.timedelta(days=rng.randrange(days - 3))
            day -= datetime.timedelta(days=max(0, day.weekday() - 4))
            reason = rng.choices(["failure", "planned", "rebuild", ""], [4, 3, 4, 1])[0]
            amount = quantity if reason == "rebuild" else max(1, int(quantity // 2)) if quantity >= 1 else quantity
            who = rng.choice(["kirchwaller", "averlund", "terschling", "stores"])
            rows.append([day, part.number, amount, machine, reason, who])
            if rng.random() < 0.05:
                rows.append([day + datetime.timedelta(days=rng.randrange(1, 6)), part.number, -min(amount, 1), machine, reason, "stores"])
    rows = [row for row in rows if row[0] < AS_OF]
    rows.sort(key=lambda row: (row[0], row[1]))
    rows = [[day.isoformat(), *rest] for day, *rest in rows]
    rows[15:15] = [["2021-02-22", "BRG-9999", 2, "RS-4", "failure", "stores"]]
    rows[201][2] = "two"
    rows[402][1] = rows[402][1].replace("-", "\u00a0")
    rows[603] = ["2052-04-11", *rows[603][1:]]
    rows[704][0] = "31.06.2024"
    rows[805][2] = ""
    rows.append(["2026-03-05", "6208-2RS", 1, "RS-4", "failure", "averlund"])  # booked by designation, not by number
    return [["date", "part no.", "quantity", "machine", "reason", "booked by"], *rows]


def receipts(shelf, rng):
    """Order lines with promised and real dates: one supplier steady, one always late by about six tenths."""
    head = ["Order no.", "Supplier", "Part no.", "Qty", "Ordered", "Promised", "Received", "Remark"]
    rows = [["Purchasing: order lines 2021 to 2026"], [], head]
    lines = []
    suppliers = [("Vossenkamper Lagerkontor", 85, (5, 15), (0.9, 1.1)), ("Courroux Lamballais", 70, (8, 25), (1.45, 1.75)),
                 ("Ostrelby Bearing Counter", 50, (1, 4), (0.8, 1.5)), ("Guarniedda Tenute", 40, (4, 14), (0.8, 1.4)),
                 ("Tarnwick Fallow Supply", 26, (14, 25), (0.9, 1.6)), ("Mühlenbau Strattwieser", 22, (30, 50), (0.95, 1.2))]
    bearings = [p for p in shelf.parts if p.number.startswith("BRG")]
    rubber = [p for p in shelf.parts if p.number[:3] in ("SEA", "ORG")]
    own = [p for p in shelf.parts if p.family == "none"]
    for supplier, count, promise, factor in suppliers:
        pool = {"Guarniedda Tenute": rubber, "Mühlenbau Strattwieser": own}.get(supplier, bearings)
        for index in range(count):
            ordered = FIRST + datetime.timedelta(days=int((index + rng.random()) * 1889 / count))
            ordered -= datetime.timedelta(days=max(0, ordered.weekday() - 4))
            promised_days = rng.randrange(*promise)
            promised = ordered + datetime.timedelta(days=round(promised_days * 1.4))
            real = max(1, round(promised_days * 1.4 * rng.uniform(*factor)))
            received = ordered + datetime.timedelta(days=real)
            received += datetime.timedelta(days=max(0, 7 - received.weekday()) if received.weekday() > 4 else 0)
            lines.append([supplier, rng.choice(pool).number, rng.choice([1, 2, 4, 10]), ordered, promised,
                          received if received < AS_OF else None, None if received < AS_OF else "open"])
    nkx, hammers = shelf["NKX20"], part_of(shelf, "*Hammer, reversible")
    lines.append(["Ostrelby Bearing Counter", nkx.number, 1, D(2026, 2, 19), D(2026, 3, 19), None, "open"])
    lines.append(["Vossenkamper Lagerkontor", hammers.number, 1, D(2026, 2, 13), D(2026, 3, 2), None, "open, chased 4 March"])
    lines.sort(key=lambda row: (row[3], row[0], row[1]))
    for index, row in enumerate(lines):
        rows.append([f"PO-{21000 + index}", *row])
    rows[40][6] = rows[40][4] - datetime.timedelta(days=9)  # received before it was ordered
    rows[77][5] = None
    rows[99][4] = rows[99][4].strftime("%d.%m.%Y")  # a date typed as text
    rows[120][3] = "4 pcs?"
    rows[150][2] = "old number 4471"
    return [Table("Order lines", rows, title=2, widths=[12, 28, 16, 7, 12, 12, 12, 22])]


def kit_tables(shelf):
    """Kit lines and tasks; line parts are written as the planners write them: number, alias or designation."""
    lines = [["Rebuild kits"], ["One line per part and rebuild. Gate: the task that cannot start without it."], [],
             ["Kit", "Machine", "Assembly", "Line", "Part no.", "Description", "Bore d", "OD D", "Width B", "Qty per rebuild", "Unit",
              "Needed for task", "No substitutes", "Note"]]
    for kit, (machine, assembly, entries) in KITS.items():
        if lines[-1][0] != "Kit":
            lines.append([])
        for number, key, quantity, unit, task, note, only in entries:
            part = part_of(shelf, key)
            size = [None] * 3
            named = None
            if part:
                named = part.number
                if number == 10 and kit.startswith("Flaking roll FR-2 drive"):
                    named = part.alias
                if part.family in ("deep_groove", "cylindrical", "spherical"):
                    size = [part.mm(f) for f in ("bore_mm", "outside_mm", "width_mm")]
            words = key if part is None else " ".join(filter(None, (part.designation, part.form, part.material))) or part.words
            lines.append([kit, machine, assembly, number, named, words, *size, quantity, unit or (part.unit if part else "pc"), task,
                          only, note])
    tasks = [["Kit", "Task", "Hours", "After"]]
    for kit, entries in TASKS.items():
        tasks += [[kit, task, float(hours), before] for task, hours, before in entries]
    return [Table("Kit lines", lines, title=3, widths=[34, 9, 24, 6, 14, 40, 8, 8, 8, 9, 12, 22, 10, 44]),
            Table("Tasks", tasks, widths=[34, 26, 8, 44])]
