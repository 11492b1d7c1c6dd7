"""Machines, suppliers, rebuild kits with their tasks, approvals and other ways: the hand-written part of the shop."""

import datetime

D = datetime.date

# machine, description, downtime cost per hour (EUR), installed, in use from, in use until, hours a year, criticality
MACHINES = [
    ("FR-2", "Flaking roll, twin roll 600 x 1250", 380, 2, D(2014, 5, 12), None, 6100, "A"),
    ("RS-4", "Roller stand, four rolls", 310, 6, D(2009, 9, 1), None, 6000, "A"),
    ("PP-3", "Pellet press, two-roll ring die", 340, 1, D(2017, 3, 20), None, 4200, "A"),
    ("PS-8", "Plansifter, eight sections", 290, 3, D(2009, 9, 1), None, 6000, "A"),
    ("HM-2", "Hammer mill, 90 kW", 260, 2, D(2018, 1, 15), None, 3900, "A"),
    ("BE-12", "Bucket elevator, 12 m lift", 240, 5, D(2009, 9, 1), None, 6200, "A"),
    ("BL-1", "Bagging line with sewing head", 210, 1, D(2020, 6, 8), None, 4000, "A"),
    ("RV-3", "Rotary airlock valve, 300", 180, 9, D(2011, 2, 7), None, 6200, "A"),
    ("VP-1", "Vacuum packer, inch-built, second hand", 150, 2, D(2016, 10, 3), D(2026, 11, 30), 2600, "B"),
    ("FN-6", "Fan, 22 kW, belt driven", 120, 7, D(2009, 9, 1), None, 6200, "B"),
    ("SC-20", "Screw conveyor, 200", 95, 14, D(2009, 9, 1), None, 6000, "B"),
    ("DF-5", "Dust filter, 60 bags", 90, 3, D(2012, 4, 16), None, 6200, "B"),
    ("GM-4", "Gear motor, 4 kW, helical", 60, 26, D(2009, 9, 1), None, 5500, "C"),
    ("ST-1", "Stone separator, gravity", None, 1, D(2021, 8, 2), None, 5900, "C"),
    ("HM-1", "Hammer mill, 55 kW, sold", 200, 1, D(2009, 9, 1), D(2024, 6, 28), 0, "B"),
]

# name, approved, approved for, order cut-off, counter opens, counter closes, calendar, freight, free from,
# collection hours, courier cost, courier hours, remark
SUPPLIERS = [
    ("Vossenkamper Lagerkontor", "yes", "", "16:00", "", "", "supplier_de", 12.5, 350, None, None, None, "account 30 days"),
    ("Ostrelby Bearing Counter", "yes", "bearings, fasteners", "14:00", "07:00", "17:00", "supplier_local", 9, 150, 1.5, 48, 3,
     "counter in town"),
    ("Courroux Lamballais", "yes", "", "11:00", "", "", "supplier_fr", 29, 800, None, None, None, "promises early, comes late"),
    ("Guarniedda Tenute", "yes", "seals", "15:00", "", "", "supplier_it", 14, 250, None, None, None, "food-contact papers on file"),
    ("Tarnwick Fallow Supply", "yes", "bearings, fasteners", "12:00", "", "", "supplier_us", 65, 1500, None, None, None, "inch sizes"),
    ("Pfennigring Direkt", "no", "", "12:00", "", "", "supplier_de", 5.9, 50, None, None, None, "audit refused in 2024: no lot papers"),
    ("Mühlenbau Strattwieser", "yes", "", "12:00", "", "", "supplier_builder", 18, 500, None, 190, 26, "builder of the rolls and the press"),
    ("Retornell Aufarbeitung", "", "", "", "", "", "supplier_de", 25, None, None, None, None, "reconditions; not yet judged"),
]

# kit: machine, assembly, [(line, part key or own text, quantity, unit, task, note, no substitutes)]
MSC = "*"  # a key that starts with this is found by its description


def line(number, key, quantity, task, note="", unit="", no_substitutes=""):
    return (number, key, quantity, unit, task, note, no_substitutes)


KITS = {
    "Flaking roll FR-2 drive end": ("FR-2", "lower roll, drive side", [
        line(10, "NUP2216 C3 builder's execution", 1, "Fit drive end", "heat to 80 °C, never by flame"),
        line(20, "80x100x10 AS FKM", 2, "Fit drive end", "lip to the bearing; grease between lips"),
        line(30, "6214", 1, "Fit drive end", "cap nut as in the machine documentation, 45 Nm"),
        line(40, "KM16", 1, "Fit drive end", "new lock washer"),
        line(50, "DIN 472 140x4", 1, "Fit drive end"),
        line(60, "DIN 471 80x2.5", 1, "Fit drive end"),
        line(70, "*Ground spacer 80/95", 1, "Fit drive end", "both faces parallel, measure at four points"),
        line(80, "AS568-347 NBR", 2, "Close"),
        line(90, "*Flaking roll scraper", 1, "Close", "gap as in the machine documentation"),
        line(100, "*Roll gap shim", 1, "Set gap", "1 pack", "pack of 10"),
        line(110, "*Coupling spider", 1, "Close"),
        line(120, "ISO 8734 12x50 m6", 2, "Close"),
        line(130, "*Felt strip 30", 0.6, "Close", "cut to length", "m"),
        line(140, "*Gasket, steam hood", 1, "Close"),
    ]),
    "Flaking roll FR-2 free end": ("FR-2", "lower roll, free side", [
        line(10, "22213", 1, "Fit free end", "clearance after mounting as in the machine documentation"),
        line(20, "65x90x10 A NBR", 2, "Fit free end"),
        line(30, "KM13", 1, "Fit free end", "new lock washer"),
        line(40, "AS568-341 NBR", 1, "Close"),
        line(50, "*Felt strip 20", 0.5, "Close", "", "m"),
        line(60, "ISO 8734 10x40 m6", 2, "Close"),
        line(70, "*Ground spacer 60/72", 1, "Fit free end", "can be ground in house"),
    ]),
    "Roller stand RS-4 roll bearings": ("RS-4", "one roll", [
        line(10, "22211", 2, "Fit bearings"),
        line(20, "55x72x8 A NBR", 2, "Fit bearings", "lip oiled"),
        line(30, "KM11", 2, "Fit bearings"),
        line(40, "AS568-234 NBR", 2, "Close"),
        line(50, "DIN 472 100x3", 2, "Fit bearings"),
        line(60, "6208 2RS", 1, "Close", "belt tensioner"),
        line(70, "ISO 8734 8x32 m6", 4, "Close"),
        line(80, "*Felt strip 20", 0.4, "Close", "", "m"),
    ]),
    "Elevator BE-12 head pulley": ("BE-12", "head", [
        line(10, "1210K", 2, "Fit head shaft", "adapter sleeve stays"),
        line(20, "45x62x8 AS NBR", 2, "Fit head shaft"),
        line(30, "*Backstop, elevator head", 1, "Fit backstop", "direction of arrow; test by hand before power"),
        line(40, "*Bucket bolt set", 1, "Close", "1 pack", "pack of 100"),
        line(50, "*Bucket, pressed steel", 8, "Close"),
        line(60, "*Rubbing sensor pad", 2, "Close"),
        line(70, "DIN 471 45x1.75", 2, "Fit head shaft"),
    ]),
    "Pellet press PP-3 press rolls": ("PP-3", "both press rolls", [
        line(10, "30210", 4, "Build rolls", "set end play as in the machine documentation", "", "yes"),
        line(20, "*Press roll shell", 2, "Build rolls", "", "", "yes"),
        line(30, "*Press roll eccentric", 2, "Build rolls", "", "", "yes"),
        line(40, "60x85x8 AS FKM", 4, "Build rolls", "", "", "yes"),
        line(50, "KM10", 2, "Build rolls", "", "", "yes"),
        line(60, "AS568-338 FKM", 2, "Build rolls", "", "", "yes"),
        line(70, "*Shear pin", 1, "Close", "only the turned pin; it is the overload guard", "pack of 25", "yes"),
        line(80, "*Pellet die", 1, "Close", "lift with the die hoist", "", "yes"),
    ]),
    "Hammer mill HM-2 rotor": ("HM-2", "rotor", [
        line(10, "7212B DB", 1, "Fit rotor bearings", "matched pair, back to back; never two singles", "set of 2", "yes"),
        line(20, "NU312 C3", 1, "Fit rotor bearings", "free side"),
        line(30, "60x80x8 AS NBR", 2, "Fit rotor bearings"),
        line(40, "KM12", 1, "Fit rotor bearings", "as in the machine documentation, 160 Nm"),
        line(50, "*Hammer, reversible", 1, "Fit hammers", "weighed set, opposite rows equal"),
        line(60, "*Hammer carrier rod", 4, "Fit hammers"),
        line(70, "*Screen 3 mm", 2, "Close"),
        line(80, "*Wear plate", 2, "Close"),
        line(90, "DIN 472 110x4", 1, "Fit rotor bearings"),
    ]),
    "Airlock RV-3 end bearings": ("RV-3", "both ends", [
        line(10, "6207 2RS C3", 2, "Fit ends"),
        line(20, "35x52x8 AS FKM", 2, "Fit ends", "dust side outwards; product up to 140 °C"),
        line(30, "AS568-214 FKM", 2, "Fit ends", "groove is cut for 3.53"),
        line(40, "*Airlock vane tip", 8, "Fit tips", "gap 0.15 to 0.20"),
        line(50, "*Gasket, airlock", 2, "Fit ends"),
        line(60, "DIN 472 72x2.5", 2, "Fit ends"),
        line(70, "DIN 471 35x1.5", 2, "Fit ends"),
        line(80, "6205 2Z", 1, "Fit tips", "chain tensioner"),
    ]),
    "Plansifter PS-8 eccentric": ("PS-8", "drive", [
        line(10, "22312", 2, "Fit eccentric"),
        line(20, "22216 C3", 1, "Fit eccentric"),
        line(30, "75x95x10 AS NBR", 2, "Fit eccentric"),
        line(40, "*Sifter sleeve", 16, "Hang frames"),
        line(50, "*Clamp ring", 32, "Hang frames"),
        line(60, "*Sieve cleaner ball", 2, "Hang frames", "two packs", "pack of 50"),
        line(70, "*Brush strip", 6.5, "Hang frames", "", "m"),
        line(80, "*Sieve cloth 0.85", 4, "Hang frames", "", "m"),
        line(90, "63x3.55 NBR", 2, "Fit eccentric"),
    ]),
    "Screw conveyor SC-20 hangers": ("SC-20", "hangers and end", [
        line(10, "1208", 1, "Fit end"),
        line(20, "40x62x8 AS NBR", 2, "Fit end"),
        line(30, "*Screw hanger bush", 3, "Fit hangers", "soak in oil overnight"),
        line(40, "*Screw coupling bolt", 1, "Fit hangers", "", "pack of 10"),
        line(50, "51208", 1, "Fit end"),
        line(60, "Trough end liner, cut from sheet", 1, "Fit end", "no number kept; cut on site"),
    ]),
    "Fan FN-6 shaft": ("FN-6", "shaft", [
        line(10, "22311K C3", 2, "Fit shaft", "drive-up as in the machine documentation"),
        line(20, "*Adapter sleeve", 2, "Fit shaft"),
        line(30, "*Fan shaft sleeve", 1, "Fit shaft"),
        line(40, "6204 2RS", 2, "Close", "damper bearings"),
        line(50, "20x35x7 AS NBR", 2, "Close"),
        line(60, "*Vibration mount", 4, "Close"),
    ]),
    "Gear motor GM-4": ("GM-4", "gear and motor", [
        line(10, "32206", 2, "Build gear", "end play 0.05 to 0.10"),
        line(20, "6204 2RS", 1, "Build motor"),
        line(30, "6205 2RS C3", 1, "Build motor"),
        line(40, "30x47x7 AS NBR", 1, "Build gear"),
        line(50, "25x40x7 A NBR", 1, "Build motor"),
        line(60, "40x3.55 NBR", 1, "Build gear"),
        line(70, "DIN 472 62x2", 2, "Build gear"),
    ]),
    "Vacuum packer VP-1 pump and chain": ("VP-1", "pump and chain", [
        line(10, "R8 2RS", 2, "Build pump"),
        line(20, "RLS7", 1, "Build pump", "22.225 bore, inch"),
        line(30, "LM67048/LM67010", 2, "Build chain drive", "cone and cup together"),
        line(40, 'ASME B18.8.2 1/4" x 1"', 2, "Build pump"),
        line(50, "AS568-218 NBR", 2, "Build pump"),
        line(60, "*Vacuum pump vane", 1, "Build pump"),
        line(70, "*Heat seal bar", 1, "Build chain drive"),
        line(80, "R12 2Z", 2, "Build chain drive"),
    ]),
    "Bagging line BL-1 sewing head": ("BL-1", "sewing head", [
        line(10, "HK2016", 2, "Build head"),
        line(20, "K20X24X10", 1, "Build head", "runs on the hardened crank"),
        line(30, "NKX20", 1, "Build head"),
        line(40, "61905 2Z", 2, "Build head"),
        line(50, "51105", 1, "Build head"),
        line(60, "ISO 8734 6x24 m6", 2, "Build head"),
        line(70, "*Sewing head needle", 1, "Build head"),
        line(80, "NA4905", 1, "Build head"),
        line(90, "25x47x7 A NBR", 1, "Build head"),
    ]),
    "Dust filter DF-5 yearly": ("DF-5", "bags and valves", [
        line(10, "*Filter bag", 60, "Change bags"),
        line(20, "*Pulse valve", 10, "Change valves"),
        line(30, "AS568-224 NBR", 10, "Change valves"),
        line(40, "6206 2RS", 2, "Change screw bearing"),
        line(50, "30x62x7 A NBR", 1, "Change screw bearing"),
        line(60, "*Felt strip 30", 2.5, "Change bags", "", "m"),
    ]),
}

# kit: [(task, hours, predecessors)]
TASKS = {
    "Flaking roll FR-2 drive end": [
        ("Lock out and strip", 3, ""), ("Inspect seats", 1.5, "Lock out and strip"), ("Fit drive end", 4, "Inspect seats"),
        ("Close", 2, "Fit drive end"), ("Set gap", 1, "Close"), ("Test run", 1.5, "Set gap")],
    "Flaking roll FR-2 free end": [
        ("Lock out and strip", 2.5, ""), ("Fit free end", 3, "Lock out and strip"), ("Close", 1.5, "Fit free end"), ("Test run", 1, "Close")],
    "Roller stand RS-4 roll bearings": [
        ("Lock out and strip", 2, ""), ("Fit bearings", 3, "Lock out and strip"), ("Close", 1.5, "Fit bearings"), ("Test run", 1, "Close")],
    "Elevator BE-12 head pulley": [
        ("Lock out, secure belt", 2, ""), ("Fit head shaft", 5, "Lock out, secure belt"), ("Fit backstop", 1.5, "Fit head shaft"),
        ("Close", 2, "Fit backstop"), ("Test run", 1, "Close")],
    "Pellet press PP-3 press rolls": [
        ("Lock out and strip", 2, ""), ("Build rolls", 6, ""), ("Close", 2.5, "Lock out and strip; Build rolls"), ("Test run", 1, "Close")],
    "Hammer mill HM-2 rotor": [
        ("Lock out, lift rotor", 3, ""), ("Fit rotor bearings", 4, "Lock out, lift rotor"), ("Fit hammers", 3, "Lock out, lift rotor"),
        ("Close", 2, "Fit rotor bearings; Fit hammers"), ("Balance and test", 2, "Close")],
    "Airlock RV-3 end bearings": [
        ("Lock out and strip", 1.5, ""), ("Fit tips", 2, "Lock out and strip"), ("Fit ends", 2, "Fit tips"), ("Test run", 0.5, "Fit ends")],
    "Plansifter PS-8 eccentric": [
        ("Lock out and strip", 4, ""), ("Fit eccentric", 6, "Lock out and strip"), ("Hang frames", 5, "Fit eccentric"), ("Test run", 2, "Hang frames")],
    "Screw conveyor SC-20 hangers": [
        ("Lock out and open", 1, ""), ("Fit hangers", 3, "Lock out and open"), ("Fit end", 2, "Lock out and open"), ("Test run", 0.5, "Fit hangers; Fit end")],
    "Fan FN-6 shaft": [
        ("Lock out and strip", 2, ""), ("Fit shaft", 4, "Lock out and strip"), ("Close", 1.5, "Fit shaft"), ("Balance and test", 1.5, "Close")],
    "Gear motor GM-4": [
        ("Exchange and strip", 1.5, ""), ("Build gear", 3, "Exchange and strip"), ("Build motor", 1.5, "Exchange and strip"), ("Test run", 0.5, "Build gear; Build motor")],
    "Vacuum packer VP-1 pump and chain": [
        ("Lock out and strip", 2, ""), ("Build pump", 3, "Lock out and strip"), ("Build chain drive", 2, "Lock out and strip"),
        ("Test run", 1, "Build pump; Build chain drive")],
    "Bagging line BL-1 sewing head": [
        ("Take head off", 0.5, ""), ("Build head", 4, "Take head off"), ("Set and test", 1.5, "Build head")],
    "Dust filter DF-5 yearly": [
        ("Lock out and ventilate", 1, ""), ("Change bags", 6, "Lock out and ventilate"), ("Change valves", 2, "Lock out and vent"),
        ("Change screw bearing", 1.5, "Lock out and ventilate"), ("Test run", 0.5, "Change bags; Change valves; Change screw bearing")],
}

PLANNED = [
    ("Roller stand RS-4 roll bearings", "RS-4", D(2026, 3, 16)), ("Flaking roll FR-2 drive end", "FR-2", D(2026, 3, 23)),
    ("Gear motor GM-4", "GM-4", D(2026, 3, 25)), ("Airlock RV-3 end bearings", "RV-3", D(2026, 3, 30)),
    ("Vacuum packer VP-1 pump and chain", "VP-1", D(2026, 4, 8)), ("Flaking roll FR-2 free end", "FR-2", D(2026, 4, 13)),
    ("Hammer mill HM-2 rotor", "HM-2", D(2026, 4, 20)), ("Elevator BE-12 head pulley", "BE-12", D(2026, 4, 27)),
    ("Dust filter DF-5 yearly", "DF-5", D(2026, 5, 4)), ("Plansifter PS-8 eccentric", "PS-8", D(2026, 5, 18)),
    ("Pellet press PP-3 press rolls", "PP-3", D(2026, 6, 8)), ("Roller stand RS-4 roll bearings", "RS-4", D(2026, 6, 15)),
    ("Fan FN-6 shaft", "FN-6", D(2026, 7, 6)), ("Bagging line BL-1 sewing head", "BL-1", D(2026, 7, 20)),
]

# kit, line, substitute (key or text), outcome, checks, by, date
APPROVALS = [
    ("Flaking roll FR-2 drive end", 10, "NUP2216 C3", "approved", "size, ribs, clearance C3; steel cage at 310 rev/min and 65 °C",
     "Edda Kirchwaller", D(2025, 11, 18)),
    ("Flaking roll FR-2 drive end", 10, "NJ2216 C3", "tried, did not fit", "roll walked 4 mm towards the hood",
     "Jonte Averlund", D(2023, 6, 7)),
    ("Flaking roll FR-2 drive end", 20, "80x100x10 AS NBR", "tried, did not fit", "lip hard after five weeks at 120 °C",
     "Jonte Averlund", D(2022, 2, 14)),
    ("Roller stand RS-4 roll bearings", 60, "6208 2RS C3", "approved", "tensioner only; noise accepted", "Edda Kirchwaller", D(2024, 9, 3)),
    ("Gear motor GM-4", 10, "32206B", "tried, did not fit", "end play could not be set; other contact angle", "Milo Terschling", D(2024, 1, 22)),
    ("Vacuum packer VP-1 pump and chain", 10, "6001 2RS", "did not fit", "12 mm bore will not go on the 12.7 shaft", "Milo Terschling", D(2021, 10, 11)),
    ("Vacuum packer VP-1 pump and chain", 50, "31.5x3.55 NBR", "approved", "groove measured 3.6 deep by 4.8 wide: squeeze and fill checked", "Edda Kirchwaller", D(2025, 5, 6)),
    ("Airlock RV-3 end bearings", 30, "25x3.55 NBR", "did not fit", "material: swelled and nipped at 140 °C", "Jonte Averlund", D(2023, 3, 29)),
    ("Fan FN-6 shaft", 40, "6204 2Z", "approved", "clean air side only", "", D(2025, 1, 15)),
]

# part key, kit, line, kind, hours, cost, quantity, from, approved by, note
OTHER_WAYS = [
    ("*Ground spacer 60/72", "Flaking roll FR-2 free end", 70, "make in house", 6, 45, 2, "toolroom surface grinder", "", "parallel within 5 µm"),
    ("*Ground spacer 80/95", "", "", "make in house", 7, 60, 1, "toolroom surface grinder", "", "blank on shelf"),
    ("*Coupling half, drive", "", "", "rework in house", 3.5, 20, 1, "toolroom", "", "bore out the plain half and cut the keyway"),
    ("*Press roll eccentric", "Pellet press PP-3 press rolls", 30, "repair outside", 96, 260, 2, "hard-chroming shop", "Edda Kirchwaller", "grind and chrome the seats"),
    ("*Airlock end plate", "", "", "repair outside", 72, 180, 1, "welding shop", "Edda Kirchwaller", "hard-face again"),
    ("22312", "", "", "other bin", 0.5, 0, 1, "site 2, cage store", "", "call before fetching"),
    ("*Vibration mount", "", "", "other bin", 0.5, 0, 4, "site 2, cage store", "", ""),
    ("*Backstop, elevator head", "Elevator BE-12 head pulley", 30, "other machine", 5, 0, 1, "BE-12 no. 5 (standby)", "", "needs the planner's approval; none given yet"),
    ("*Pulse valve", "", "", "other machine", 1.5, 0, 4, "DF-5 no. 2", "Edda Kirchwaller", "its downtime counts"),
    ("NU312 C3", "Hammer mill HM-2 rotor", 20, "other machine", 4, 0, 1, "HM-2 no. 2", "Edda Kirchwaller", "only while no. 2 stands for the screen change"),
]


def part_of(shelf, key):
    """The own part of a kit line key; None where the line is text only."""
    if key.startswith(MSC):
        found = [part for part in shelf.parts if part.words.startswith(key[1:])]
        if len(found) != 1:
            raise ValueError(f"{key}: {len(found)} parts")
        return found[0]
    return shelf.by_designation.get(key)
