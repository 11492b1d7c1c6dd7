"""Price lists, offers and quotes of the demo shop's suppliers, each in the words and units of its writer."""

import datetime

from demo_files import Table, comma, short
from demo_kits import part_of
from demo_parts import price_eur

D = datetime.date
NBSP = "\u00a0"

# What the story of the kits needs is offered only where written by hand (`quotes`, `builder_list` and `STORY`).
BY_HAND = [
    "NUP2216 C3 builder's execution", "NUP2216 C3", "NUP2216", "NU2216 C3", "NJ2216 C3", "22213", "22213 C3", "7212B DB",
    "7212B", "22311K C3", "32206", "32206B", "R8 2RS", "RLS7", "35x52x8 AS FKM", "AS568-214 FKM", "AS568-347 NBR",
    "80x100x10 AS FKM", "60x85x8 AS FKM", "30210", "62204 2RS", "LM67048/LM67010", "NKX20", "22312", "22216 C3",
]
BEARINGS = ("deep_groove", "deep_groove_double", "angular", "angular_double", "self_aligning", "cylindrical",
            "spherical", "tapered", "thrust", "needle", "drawn_cup", "needle_cage")
WORDS_DE = {
    "deep_groove": "Rillenkugellager", "deep_groove_double": "Rillenkugellager zweireihig",
    "angular": "Schrägkugellager", "angular_double": "Schrägkugellager zweireihig",
    "self_aligning": "Pendelkugellager", "cylindrical": "Zylinderrollenlager", "spherical": "Pendelrollenlager",
    "tapered": "Kegelrollenlager", "thrust": "Axial-Rillenkugellager", "needle": "Nadellager mit Innenring",
    "drawn_cup": "Nadelhülse", "needle_cage": "Nadelkranz",
}
WORDS_FR = {
    "deep_groove": "Roulement rigide à billes", "angular": "Roulement à billes à contact oblique",
    "angular_double": "Roulement à billes à contact oblique, deux rangées", "self_aligning": "Roulement à rotule sur billes",
    "cylindrical": "Roulement à rouleaux cylindriques", "spherical": "Roulement à rotule sur rouleaux",
    "tapered": "Roulement à rouleaux coniques", "thrust": "Butée à billes", "needle": "Roulement à aiguilles",
}


def generic(shelf, rng, families, share):
    hand = {id(shelf[key]) for key in BY_HAND}
    return [p for p in shelf.parts if p.family in families and id(p) not in hand and rng.random() < share]


def number(rng, form):
    """A neutral supplier's number: no scheme, only digits in a fixed form."""
    return form.format(rng.randrange(10_000, 99_999))


def vossenkamper(shelf, rng):
    """German list: semicolons, decimal comma, prices per hundred, list price less discount."""
    head = ["Artikel-Nr.", "Bezeichnung", "Bauart", "Bohrung d [mm]", "Außendurchmesser D [mm]", "Breite B [mm]",
            "Gesamtbreite T [mm]", "Höhe H [mm]", "Dichtung", "Lagerluft", "Käfig", "Listenpreis €/100", "Rabatt %",
            "Mindestmenge", "VPE", "Bestand", "Lieferzeit", "gültig bis"]
    rows = [["Vossenkamper Lagerkontor"], ["Preisliste Wälzlager 2026, gültig ab 01.01.2026; Preise netto zzgl. MwSt."], [], head]
    leads = ["ab Lager"] * 9 + ["2 AT"] * 4 + ["5 AT"] * 4 + ["10 AT"] * 4 + ["15 AT"] * 2 + ["3 Wochen"] * 2 + ["auf Anfrage", ""]

    def row(part, lead, price=None, discount=None, stock="", cage="", clearance=None):
        price = price_eur(part) if price is None else price
        discount = rng.choice([30, 35, 35, 40]) if discount is None else discount
        listed = price / (1 - discount / 100) * 100
        small = (part.mm("outside_mm") or 0) < 40
        sizes = [comma(part.mm(f), 2 if part.family == "tapered" else 0) if part.mm(f) else ""
                 for f in ("bore_mm", "outside_mm", "width_mm", "assembled_width_mm", "height_mm")]
        if part.family in ("drawn_cup", "needle_cage", "needle"):
            sizes = [""] * 5
        words = f"{part.designation.replace(' 2', '-2')}"
        return [number(rng, "VK {}"), words, WORDS_DE[part.family], *sizes, part.closure if part.closure != "open" else "offen",
                part.clearance if clearance is None else clearance, cage, comma(listed, 2, True), discount, 1, 10 if small else 1,
                stock, lead, "31.12.2026"]

    for part in generic(shelf, rng, BEARINGS, 0.72):
        lead = rng.choice(leads)
        rows.append(row(part, lead, stock=rng.randrange(2, 60) if lead == "ab Lager" else ""))
    story = [("NUP2216 C3", "2 AT", 148, 6, "Stahlblech"), ("NU2216 C3", "ab Lager", 96, 14, "Stahlblech"),
             ("NUP2216", "ab Lager", 121, 3, "Stahlblech"), ("7212B", "ab Lager", 41, 8, ""), ("32206", "10 AT", 17.8, "", ""),
             ("32206B", "ab Lager", 16.9, 11, ""), ("22311K C3", "15 AT", 231, "", ""), ("62204 2RS", "ab Lager", 6.1, 25, ""),
             ("30210", "5 AT", 24.5, "", ""), ("22312", "5 AT", 165, "", "")]
    for key, lead, price, stock, cage in story:
        rows.append(row(shelf[key], lead, price, 35, stock, cage))
    rows[30][1] = NBSP + rows[30][1] + NBSP
    middle = len(rows) // 2
    rows[middle:middle] = [[], list(head)]  # the page break of the printed list
    rows += [[], ["Summe Positionen", "", "", "", "", "", "", "", "", "", "", comma(184_211.5, 2, True)],
             ["Irrtum und Zwischenverkauf vorbehalten. AT = Arbeitstage."]]
    return rows


def courroux(shelf, rng):
    """French list: numbers partly typed as text with a decimal comma, prices per hundred."""
    head = ["Réf. fournisseur", "Désignation", "Type", "Alésage d (mm)", "Diamètre extérieur D (mm)", "Largeur B (mm)",
            "Largeur totale T (mm)", "Étanchéité", "Jeu", "Prix HT € / 100", "Remise %", "Qté mini", "Conditionnement",
            "Délai", "Date du tarif", "Valable jusqu'au"]
    rows = [["Courroux Lamballais — Tarif roulements 2026"], ["Prix hors taxes, franco selon conditions"], head]
    delays = ["en stock"] * 3 + ["8 jours ouvrés"] * 4 + ["2 semaines"] * 4 + ["3-4 semaines"] * 2 + ["sur demande", ""]
    closures = {"open": "ouvert", "2RS": "2RS", "2Z": "2Z"}

    def row(part, delay, price=None):
        price = (price_eur(part) * 0.93 if price is None else price) / 0.7 * 100
        as_text = rng.random() < 0.25
        sizes = [part.mm("bore_mm"), part.mm("outside_mm"), None if part.family in ("tapered", "thrust") else part.mm("width_mm"),
                 part.mm("assembled_width_mm")]
        if part.family == "thrust":
            sizes = [None] * 4
        sizes = [short(s).replace(".", ",") if as_text and s else s for s in sizes]
        price = comma(price) if as_text else round(price, 2)
        return [number(rng, "CL.{}"), part.designation, WORDS_FR[part.family], *sizes, closures.get(part.closure, ""),
                part.clearance, price, 30, 1, 1, delay, D(2026, 1, 5), D(2026, 12, 31)]

    for part in generic(shelf, rng, tuple(WORDS_FR), 0.42):
        rows.append(row(part, rng.choice(delays)))
    for key, delay, price in [("NUP2216 C3", "8 jours ouvrés", 139), ("22213", "4 semaines", 118), ("22216 C3", "8 jours ouvrés", 214),
                              ("30210", "2 semaines", 21.9)]:
        rows.append(row(shelf[key], delay, price))
    rows[17][9] = -1240.0  # a negative price
    rows[40][9] = "sur demande"
    rows.insert(60, [])
    rows += [[], ["Total des articles", len(rows) - 4]]
    return Table("Tarif", rows, title=2, widths=[14, 20, 34, 12, 14, 12, 14, 12, 8, 14, 10, 9, 14, 16, 13, 15])


def ostrelby(shelf, rng):
    """English list with price breaks, stock at the counter and a rush column."""
    top = ["Item no.", "Designation", "Description", "Dimensions, mm", None, None, None, "Closure", "Clearance", "Unit",
           "Net price EUR each", None, None, "Min. order qty", "Pack qty", "Qty available", "Lead time", "Rush lead time",
           "Rush surcharge EUR", "Valid until"]
    below = [None, None, None, "Bore", "OD", "Width", "T", None, None, None, "1+", "10+", "50+"] + [None] * 7
    rows = [["Ostrelby Bearing Counter — customer price list"], ["Prepared for Hollerbrook Oat Mill, 16 February 2026. Prices net, per piece."], top, below]
    leads = ["ex stock"] * 10 + ["2-3 days"] * 4 + ["1 wk"] * 3 + ["6 wks"] + ["on request", ""]

    def row(part, lead, price=None, available=None):
        price = price_eur(part) * 1.22 if price is None else price
        if available is None:
            available = rng.randrange(1, 30) if lead == "ex stock" else None
        rush = ("1 day", 35.0) if lead in ("1 wk", "2-3 days") and rng.random() < 0.5 else ("", None)
        width = None if part.family == "thrust" else part.mm("width_mm") if part.family != "tapered" else None
        return [number(rng, "{}-C"), part.designation, part.words, part.mm("bore_mm"), part.mm("outside_mm"), width,
                part.mm("assembled_width_mm"), part.closure, part.clearance, "ea", round(price, 2), round(price * 0.94, 2),
                round(price * 0.88, 2), 1, 1, available, lead, *rush, D(2026, 6, 30)]

    families = ("deep_groove", "deep_groove_double", "angular", "self_aligning", "cylindrical", "spherical", "tapered")
    for part in generic(shelf, rng, families, 0.62):
        rows.append(row(part, rng.choice(leads)))
    for key, lead, price, available in [("22213 C3", "ex stock", 139, 4), ("NU2216 C3", "ex stock", 104, 5), ("NUP2216", "ex stock", 129, 2),
                                        ("NJ2216 C3", "ex stock", 118, 1), ("32206B", "ex stock", 18.4, 6), ("7212B", "ex stock", 46, 3),
                                        ("62204 2RS", "ex stock", 7.3, 20), ("32206", "2-3 days", 24.9, None)]:
        rows.append(row(shelf[key], lead, price, available))
    rows[24][16] = D(2026, 3, 2)  # "2-3" typed into the lead time column turned into a date
    rows[37][10] = str(rows[37][10])  # a price stored as text
    rows[52][10], rows[52][11], rows[52][12] = "on request", None, None
    small = [p for p in shelf.parts if p.family in ("shaft_ring", "bore_ring", "lock_nut", "pin")]
    fast = [["Ostrelby Bearing Counter — rings, nuts, pins"], [],
            ["Item no.", "Designation", "Description", "Unit", "Price EUR / 100", "Discount %", "Pack qty", "Lead time", "Valid until"]]
    for part in small:
        unit = "pack of 10" if rng.random() < 0.2 else "ea"
        fast.append([number(rng, "{}-C"), part.designation, part.words, unit,
                     round(price_eur(part) * (1000 if unit != "ea" else 100) / 0.8, 2), 20, 1,
                     rng.choice(["ex stock", "ex stock", "ex stock", "3 days", "2 wks"]), D(2026, 6, 30)])
    merges = ["D3:G3", "K3:M3", "A1:H1"] + [f"{c}3:{c}4" for c in "ABCHIJNOPQRST"]
    return [Table("Bearings", rows, header=2, title=2, merges=merges, formats={11: "#,##0.00", 12: "#,##0.00", 13: "#,##0.00"},
                  widths=[11, 20, 34, 8, 8, 8, 8, 9, 10, 6, 10, 10, 10, 9, 8, 10, 12, 12, 12, 12]),
            Table("Rings nuts pins", fast, title=2, widths=[11, 28, 30, 12, 14, 11, 9, 11, 12])]


def guarniedda(shelf, rng):
    """Italian list of seals on two sheets."""
    lips = [["Guarniedda Tenute"], ["Listino 2026 paraoli — prezzi netti IVA esclusa"],
            ["Codice", "Descrizione", "Forma", "Ø albero d1", "Ø sede d2", "Altezza b", "Materiale", "Prezzo €", "Sconto %",
             "Lotto minimo", "Confezione", "Tempi di consegna", "Data offerta", "Valido fino al"]]
    rings = [["Guarniedda Tenute"], ["Listino 2026 O-ring — prezzo per 100 pezzi"],
             ["Codice", "Descrizione", "Ø interno", "Corda", "Materiale", "Durezza", "Prezzo € / 100 pz", "Sconto %",
              "Confezione", "Tempi di consegna", "Valido fino al"]]
    leads = ["pronta consegna"] * 6 + ["3 gg lav."] * 4 + ["2 settimane"] * 3 + ["a richiesta"]
    hand = {"35x52x8 AS FKM": "2 settimane", "AS568-214 FKM": "3 gg lav.", "AS568-347 NBR": "pronta consegna",
            "80x100x10 AS FKM": "3 gg lav.", "AS568-224 NBR": "2 settimane", "60x85x8 AS FKM": "pronta consegna"}
    for key, part in shelf.by_designation.items():
        if part.family == "lip_seal":
            lead = hand.get(key, rng.choice(leads))
            lips.append([number(rng, "P{}"), f"Paraolio {part.base} {part.form} DIN 3760", part.form, part.mm("shaft_mm"), part.mm("housing_mm"),
                         part.mm("width_mm"), part.material, round(price_eur(part) * 0.88 / 0.75, 2), 25, 1, 1, lead,
                         D(2026, 1, 12), D(2026, 12, 31)])
        elif part.family == "oring":
            lead = hand.get(key, rng.choice(leads))
            rings.append([number(rng, "G{}"), f"O-ring {part.base}", part.mm("inside_mm"), part.mm("section_mm"), part.material,
                          part.hardness, round(price_eur(part) * 88 / 0.75, 2), 25, 100 if part.mm("inside_mm") < 20 else 10,
                          lead, D(2026, 12, 31)])
    lips[12][3] = f"{lips[12][3]:g},0"  # typed as text with a comma
    rings.insert(30, ["", "Sezione 3,55 — serie ISO"])
    return [Table("Paraoli", lips, title=2, widths=[10, 30, 8, 12, 12, 10, 10, 10, 9, 11, 11, 18, 13, 13], fill="F3E3CF"),
            Table("O-ring", rings, title=2, widths=[10, 22, 10, 8, 10, 14, 16, 9, 11, 18, 13], fill="F3E3CF")]


FRACTIONS = {0.5: "1/2", 1.125: '1 1/8"', 0.625: "5/8", 0.75: "3/4", 1.625: "1 5/8", 1.375: '1 3/8"', 0.375: "3/8",
             0.875: ".875", 2.0: "2", 1.0: "1", 2.25: "2 1/4", 0.3125: "5/16", 0.4375: "7/16"}


def tarnwick(shelf, rng):
    """A quote in dollars with inch sizes as fractions and decimals."""
    def inch(value):
        return FRACTIONS.get(value, f"{value:.4f}".rstrip("0").lstrip("0")) if value else None

    rows = [["TARNWICK FALLOW SUPPLY"], ["Quotation for Hollerbrook Oat Mill — 20 Feb 2026 — US dollars, net 30, ex works"], [],
            ["Our P/N", "Part", "Description", "Bore (in)", "O.D. (in)", "Width (in)", "U/M", "Unit price USD", "MOQ", "Lead time",
             "Quote date", "Good through"]]
    leads = {"R8 2RS": "3 wks", "RLS7": "12 working days", "LM67048/LM67010": "ex stock"}
    for part in shelf.parts:
        if part.family == "deep_groove_inch" or part.designation in ("L44643/L44610", "LM67048/LM67010", "L68149/L68110"):
            sizes = [inch(part.mm(f"{d}_in")) if part.size.get(f"{d}_in") else None for d in ("bore", "outside", "width")]
            lead = leads.get(part.designation, rng.choice(["ex stock", "ex stock", "5 days", "2 wks"]))
            rows.append([number(rng, "TF-{}"), part.designation, part.words, *sizes, "EA", round(price_eur(part) * 1.3 + 1, 2), 2,
                         lead, D(2026, 2, 20), D(2026, 4, 20)])
        elif part.designation.startswith("ASME"):
            rows.append([number(rng, "TF-{}"), part.designation, part.words, None, None, None, "pack of 25", round(price_eur(part) * 12, 2), 1,
                         "ex stock", D(2026, 2, 20), D(2026, 4, 20)])
    rows += [[], ["Freight prepaid and added. Rush service on application."]]
    return [Table("Quote", rows, title=3, widths=[12, 26, 36, 10, 10, 10, 10, 12, 7, 16, 12, 13], fill="D5E1EE", formats={"date": "MM/DD/YYYY"})]


def pfennigring(shelf, rng):
    """Left-overs at low prices from a supplier who is not approved; one column for the whole size."""
    rows = [["Artikel", "Bezeichnung", "Maße (mm)", "Hersteller", "Preis", "Währung", "Lieferzeit", "Menge verfügbar"]]
    picks = generic(shelf, rng, ("deep_groove", "spherical", "cylindrical", "tapered"), 0.3)[:48]
    for part in picks + [shelf[k] for k in ("NUP2216 C3", "NU2216 C3", "22213", "32206", "6207 2RS C3")]:
        width = part.mm("assembled_width_mm") or part.mm("width_mm")
        size = f"{part.mm('bore_mm'):g}x{part.mm('outside_mm'):g}x{width:g}".replace(".", ",")
        rows.append([number(rng, "R{}"), part.designation, size, rng.choice(["ohne Angabe", "", "diverse"]), f"{comma(price_eur(part) * 0.55)} €",
                     "EUR", "ab Lager", rng.randrange(1, 12)])
    return rows


def builder_list(shelf):
    """Spares offer of the builder of the rolls: their numbers, our numbers, German words."""
    rows = [["Mühlenbau Strattwieser"], ["Ersatzteilangebot Nr. 26-0188 vom 12.01.2026 für Hollerbrook Oat Mill"], [],
            ["Pos.", "Unsere Teilenr.", "Ihre Teilenr.", "Benennung", "ME", "Nettopreis EUR", "Lieferzeit", "Angebotsdatum", "gültig bis"]]
    items = [
        ("NUP2216 C3 builder's execution", "MS 100-4471", "Walzenlager Antriebsseite", "Stk", 842, "6 Wochen"),
        ("*Flaking roll scraper", "MS 100-4490", "Abstreifmesser", "Stk", 139, "2 Wochen"),
        ("*Roll gap shim", "MS 100-4502", "Distanzfolie 0,05", "Packung 10", 22, "ab Lager"),
        ("*Backstop, elevator head", "MS 210-0440", "Rücklaufsperre rechts", "Stk", 735, ""),
        ("*Pellet die", "MS 300-0301", "Ringmatrize 6 mm", "Stk", 2140, "8 Wochen"),
        ("*Press roll shell", "MS 300-0310", "Kollermantel", "Stk", 338, "15 AT"),
        ("*Press roll eccentric", "MS 300-0312", "Exzenterwelle", "Stk", 588, "8-10 Wochen"),
        ("*Shear pin", "MS 300-0333", "Scherstift gedreht", "Packung 25", 48, "ab Lager"),
        ("*Airlock end plate", "MS 400-0905", "Seitenschild gepanzert", "Stk", 436, "5 Wochen"),
        ("*Airlock vane tip", "MS 400-0907", "Leiste, lebensmittelecht", "Stk", 18.9, "5 AT"),
        ("*Gasket, steam hood", "MS 100-4525", "Flanschdichtung Grafit", "Stk", 36.5, "3 AT"),
        ("*Sifter sleeve", "MS 500-0220", "Siebstrumpf 220", "Stk", 15.2, "5 AT"),
        ("*Feed roll lagging", "MS 100-4533", "Belag Speisewalze", "Stk", 225, "auf Anfrage"),
    ]
    for position, (key, theirs, words, unit, price, lead) in enumerate(items, 1):
        rows.append([position * 10, theirs, part_of(shelf, key).number, words, unit, price, lead, D(2026, 1, 12), D(2026, 6, 30)])
    rows += [[], [None, None, None, "Summe", None, round(sum(r[5] for r in rows[4:]), 2)], ["Lieferung ab Werk, zzgl. Fracht und MwSt."]]
    return [Table("Angebot", rows, title=3, merges=["A1:F1", "A2:I2"], widths=[7, 16, 16, 30, 12, 15, 14, 14, 12], fill="E6E6E6")]


def quotes(shelf):
    """Single quotes typed in by the buyer, all suppliers mixed."""
    head = ["Supplier", "Quote date", "Valid until", "Our no.", "Supplier no.", "Designation", "Description", "Condition", "Maker",
            "Contact angle", "Tolerance class", "Arrangement", "C kN", "C0 kN", "Ratings from", "Unit", "List price", "Discount %",
            "Currency", "Min. qty", "Pack", "Available", "Lead time", "Rush lead time", "Rush surcharge", "Cancellation charge"]
    rows = [head]

    def add(supplier, dated, until, key, theirs, price, lead, **more):
        part = part_of(shelf, key)
        own = more.get("own", part.number)
        rows.append([supplier, dated, until, own, theirs, more.get("designation", part.designation or None), more.get("words", part.words),
                     more.get("condition", "new"), more.get("maker"), part.angle or None, more.get("tolerance"), more.get("arrangement"),
                     more.get("c"), more.get("c0"), more.get("ratings"), more.get("unit", "pc"), price, more.get("discount"), more.get("currency", "EUR"),
                     more.get("minimum", 1), more.get("pack", 1), more.get("available"), lead, more.get("rush"), more.get("surcharge"),
                     more.get("cancel")])

    new, old = D(2026, 2, 23), D(2025, 9, 15)
    add("Courroux Lamballais", new, D(2026, 5, 31), "7212B DB", "CL.71177", 248, "3 weeks", unit="set of 2", arrangement="DB",
        words="Matched pair, back to back, delivered as a set")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "7212B", "VK 40122", 39.5, "in stock", own=None, available=8,
        words="single, basic design, not for mounting side by side")
    add("Courroux Lamballais", old, D(2025, 12, 31), "22311K C3", "CL.55031", 149, "5 days", discount=10)
    add("Vossenkamper Lagerkontor", new, D(2026, 4, 30), "22311K C3", "VK 55811", 262, "15 working days", discount=12)
    add("Retornell Aufarbeitung", new, D(2026, 4, 15), "22311K C3", "A-3307", 96, "2 days", condition="reconditioned", available=2)
    add("Retornell Aufarbeitung", new, D(2026, 4, 15), "NU312 C3", "A-3310", 44, "2 days", condition="used", available=1)
    add("Ostrelby Bearing Counter", new, D(2026, 4, 30), "NKX20", "61877-C", 58, "4 weeks", rush="1 week", surcharge=90)
    add("Ostrelby Bearing Counter", new, D(2026, 4, 30), "22312", "61902-C", 189, "2 days", rush="4 h", surcharge=48, available=2)
    add("Courroux Lamballais", new, D(2026, 5, 31), "*Felt strip 20", "CL.90020", 5.9, "5 days", unit="m", minimum=5, pack=5)
    add("Courroux Lamballais", new, D(2026, 5, 31), "*Felt strip 30", "CL.90030", 8.1, "5 days", unit="m", minimum=5, pack=5)
    add("Courroux Lamballais", new, D(2026, 5, 31), "*Brush strip", "CL.90044", 10.4, "2 weeks", unit="m", minimum=10, pack=10)
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Bucket bolt set", "VK 77010", 38, "in stock", unit="pack of 100")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Sieve cleaner ball", "VK 77031", 34, "1 week", unit="pack of 50")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Backstop, elevator head", "VK 77090", "on request", "on request")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Coupling spider", "VK 77112", 18.5, "3 days")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Filter bag", "VK 77200", 21, "2 weeks", minimum=20, pack=10)
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Pulse valve", "VK 77207", 29, "1 week")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Brush strip", "VK 77044", 11.9, "17 working days", unit="m", minimum=10, pack=10,
        cancel="15 %")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Pellet die", "VK 77510", 2390, "7 weeks")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Vibration mount", "VK 77301", 25, "4 days")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Hammer, reversible", "VK 77400", 231, "12 working days")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Fan shaft sleeve", "VK 77402", 138, "by 2026-04-17")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "*Adapter sleeve", "VK 77405", 54, "3 days")
    add("Vossenkamper Lagerkontor", new, D(2026, 5, 31), "6310 C3", "VK 31022", 31, "in stock", c=shelf["6310 C3"].mm("dynamic_kn"),
        c0=shelf["6310 C3"].mm("static_kn"), tolerance="P6",
        ratings="textbook table, one edition", maker="not named")
    add("Pfennigring Direkt", new, D(2026, 3, 31), "NUP2216 C3", "R20441", 71, "in stock", own=None, available=1)
    add("Zwirnhammer", new, D(2026, 4, 30), "*Heat seal bar", "5531", 149, "10 days", currency="GBP")
    add("Zwirnhammer", new, D(2026, 4, 30), "*Vacuum pump vane", "5532", 88, "10 days", currency="GBP")
    return [Table("Quotes", rows, widths=[26, 12, 12, 11, 12, 20, 34, 13, 11, 9, 10, 12, 8, 8, 22, 12, 10, 10, 9, 8, 7, 9, 16, 13, 12, 12],
                  formats={"date": "YYYY-MM-DD"})]
