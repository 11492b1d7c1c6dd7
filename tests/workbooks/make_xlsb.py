"""Writes the binary workbook of this folder again: python make_xlsb.py (standard library only).

Records and their layouts are those of [MS-XLSB], "Excel (.xlsb) Binary File Format", Microsoft Open Specifications; the
section of each record is named beside it. Only what the files need is written: strings in the cells and in the shared
table, numbers, RK numbers, a date by its number format, an error, a formula with its stored result, a merged region and a
hidden sheet. Check: `soffice --headless --convert-to csv` and pyxlsb open them.
"""

import pathlib
import struct
import zipfile

HERE = pathlib.Path(__file__).parent
TYPES = "application/vnd.ms-excel."
RELS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"


def record(number, data=b""):
    """2.1.4: record type and size, seven bits a byte, the lower ones first."""
    head = bytes([number]) if number < 128 else bytes([number & 0x7F | 0x80, number >> 7])
    size, left = b"", len(data)
    while True:
        size += bytes([left & 0x7F | (0x80 if left > 127 else 0)])
        left >>= 7
        if not left:
            return head + size + data


def wide(text):
    """2.5.168 XLWideString."""
    return struct.pack("<I", len(text.encode("utf-16-le")) // 2) + text.encode("utf-16-le")


def cell(column, style=0):
    """2.5.9 Cell: column, then style and flags."""
    return struct.pack("<II", column, style)


ERRORS = {"#N/A": 0x2A, "#REF!": 0x17, "#DIV/0!": 0x07}
DATE_STYLE = 1


class Formula:
    """A formula of numbers added, `=a+b`, with its stored result."""

    def __init__(self, a, b, result):
        self.a, self.b, self.result = a, b, result


class Day(int):
    """A day by its number in the 1900 system."""


class Shared(str):
    """A text in the shared table."""


def cells(rows, shared):
    out = b""
    for at, row in enumerate(rows):
        if not any(value is not None for value in row):
            continue
        # 2.4.670 BrtRowHdr: row, style, height in twips, flags, no column spans.
        out += record(0, struct.pack("<IIHBBBI", at, 0, 300, 0, 0, 0, 0))
        for column, value in enumerate(row):
            if value is None:
                continue
            if isinstance(value, Formula):
                # 2.4.674 BrtFmlaNum; parsed formula PtgInt a, PtgInt b, PtgAdd (2.5.98.104).
                ptg = b"\x1e" + struct.pack("<H", value.a) + b"\x1e" + struct.pack("<H", value.b) + b"\x03"
                parsed = struct.pack("<I", len(ptg)) + ptg + struct.pack("<I", 0)
                out += record(9, cell(column) + struct.pack("<d", value.result) + struct.pack("<H", 0) + parsed)
            elif isinstance(value, Day):
                out += record(5, cell(column, DATE_STYLE) + struct.pack("<d", float(value)))  # 2.4.312 BrtCellReal
            elif isinstance(value, bool):
                out += record(4, cell(column) + bytes([value]))  # 2.4.306 BrtCellBool
            elif isinstance(value, int):
                out += record(2, cell(column) + struct.pack("<i", value << 2 | 2))  # 2.4.313 BrtCellRk
            elif isinstance(value, float):
                out += record(5, cell(column) + struct.pack("<d", value))  # 2.4.312 BrtCellReal
            elif value in ERRORS:
                out += record(3, cell(column) + bytes([ERRORS[value]]))  # 2.4.307 BrtCellError
            elif isinstance(value, Shared):
                if value not in shared:
                    shared.append(value)
                out += record(7, cell(column) + struct.pack("<I", shared.index(value)))  # 2.4.308 BrtCellIsst
            else:
                out += record(6, cell(column) + wide(value))  # 2.4.314 BrtCellSt
    return out


def sheet(rows, merged, shared):
    width = max(len(row) for row in rows)
    out = record(129)  # 2.4.94 BrtBeginSheet
    out += record(148, struct.pack("<IIII", 0, len(rows) - 1, 0, width - 1))  # 2.4.821 BrtWsDim
    out += record(145) + cells(rows, shared) + record(146)  # BrtBeginSheetData, BrtEndSheetData
    if merged:
        out += record(177, struct.pack("<I", len(merged)))  # BrtBeginMergeCells
        for region in merged:
            out += record(176, struct.pack("<IIII", *region))  # BrtMergeCell: first and last row, first and last column
        out += record(178)
    return out + record(130)


def styles():
    out = record(278)  # BrtBeginStyleSheet
    out += record(615, struct.pack("<I", 1)) + record(44, struct.pack("<H", 164) + wide("yyyy\\-mm\\-dd")) + record(616)
    # One font, two fills, one border, one style, two formats: 2.4.658 BrtFont, BrtFill, BrtBorder, BrtXF.
    font = struct.pack("<HHHHBBBB", 220, 0, 400, 0, 0, 2, 0, 0) + b"\x01\xff\x00\x00\x00\x00\x00\xff" + b"\x00" + wide("Calibri")
    out += record(611, struct.pack("<I", 1)) + record(43, font) + record(612)
    color = b"\x01\x40\x00\x00\x00\x00\x00\xff", b"\x01\x41\x00\x00\xff\xff\xff\xff"
    fill = lambda kind: struct.pack("<I", kind) + color[0] + color[1] + struct.pack("<I", 0) + struct.pack("<ddddd", 0, 0, 0, 0, 0) + struct.pack("<I", 0)
    out += record(603, struct.pack("<I", 2)) + record(45, fill(0)) + record(45, fill(17)) + record(604)
    side = struct.pack("<BB", 0, 0) + b"\x01\x00\x00\x00\x00\x00\x00\x00"
    out += record(613, struct.pack("<I", 1)) + record(46, b"\x00" + side * 5) + record(614)
    xf = lambda parent, number: struct.pack("<HHHHHBBHBB", parent, number, 0, 0, 0, 0, 0, 0x1010, 0, 1 if number else 0)
    out += record(626, struct.pack("<I", 1)) + record(47, xf(0xFFFF, 0)) + record(627)
    out += record(617, struct.pack("<I", 2)) + record(47, xf(0, 0)) + record(47, xf(0, 164)) + record(618)
    out += record(619, struct.pack("<I", 1)) + record(48, struct.pack("<IHBB", 0, 1, 0, 0xFF) + wide("Normal")) + record(620)
    return out + record(279)


def workbook(name, sheets, is_1904=False):
    """`sheets` holds (name, is hidden, rows, merged regions)."""
    shared = []
    bodies = [sheet(rows, merged, shared) for _, _, rows, merged in sheets]
    book = record(131)  # BrtBeginBook
    book += record(153, struct.pack("<II", 1 if is_1904 else 0, 0) + wide(""))  # 2.4.822 BrtWbProp
    book += record(143)  # BrtBeginBundleShs
    for at, (title, is_hidden, _, _) in enumerate(sheets, 1):
        # 2.4.301 BrtBundleSh: state, identifier, relationship, name.
        book += record(156, struct.pack("<II", int(is_hidden), at) + wide(f"rId{at}") + wide(title))
    book += record(144) + record(132)
    strings = record(159, struct.pack("<II", len(shared), len(shared)))  # BrtBeginSst
    for text in shared:
        strings += record(19, b"\x00" + wide(text))  # BrtSSTItem: a rich string without runs
    strings += record(160)
    count = len(sheets)
    relation = lambda at, kind, target: f'<Relationship Id="rId{at}" Type="{RELS}/{kind}" Target="{target}"/>'
    relations = "".join(relation(at, "worksheet", f"worksheets/sheet{at}.bin") for at in range(1, count + 1))
    relations += relation(count + 1, "styles", "styles.bin") + relation(count + 2, "sharedStrings", "sharedStrings.bin")
    override = lambda part, kind: f'<Override PartName="/xl/{part}" ContentType="{TYPES}{kind}"/>'
    types = override("workbook.bin", "sheet.binary.macroEnabled.main")
    types += "".join(override(f"worksheets/sheet{at}.bin", "worksheet") for at in range(1, count + 1))
    types += override("styles.bin", "styles") + override("sharedStrings.bin", "sharedStrings")
    head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>'
    files = {
        "[Content_Types].xml": f'{head}<Types xmlns="{PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="bin" ContentType="{TYPES}sheet.binary.macroEnabled.main"/>{types}</Types>',
        "_rels/.rels": f'{head}<Relationships xmlns="{PACKAGE}/relationships">{relation(1, "officeDocument", "xl/workbook.bin")}</Relationships>',
        "xl/workbook.bin": book,
        "xl/_rels/workbook.bin.rels": f'{head}<Relationships xmlns="{PACKAGE}/relationships">{relations}</Relationships>',
        "xl/styles.bin": styles(),
        "xl/sharedStrings.bin": strings,
    }
    for at, body in enumerate(bodies, 1):
        files[f"xl/worksheets/sheet{at}.bin"] = body
    with zipfile.ZipFile(HERE / name, "w", zipfile.ZIP_DEFLATED) as out:
        for part, content in files.items():
            out.writestr(zipfile.ZipInfo(part, (2026, 1, 1, 0, 0, 0)), content, zipfile.ZIP_DEFLATED)


def stock(day):
    return [
        ["Stock list", None, None, None, None],
        [Shared("Part no"), Shared("Bin"), Shared("Amounts"), None, Shared("Counted on")],
        [None, None, Shared("On hand"), Shared("Reserved"), None],
        ["A-1", "R\u00a01", 4, Formula(1, 1, 2.0), Day(day)],
        ["A-2", "R2", 2.5, 0, Day(day)],
        [Shared("A-3"), "R3", "#N/A", None, None],
        ["6203-2Z", Shared("R4"), Formula(3, 4, 7.0), 1, Day(day)],
    ]


PARTS = [["Part no", "Type", "d", "D", "B"], ["A-1", "Deep groove ball bearing", 30, 62.0, 16]]

if __name__ == "__main__":
    # Day 46090 of the 1900 system is 9 March 2026 (30 December 1899 plus 46090 days); 44628 in that of 1904.
    merged = [(1, 1, 2, 3)]
    workbook("binary.xlsb", [("Stock", False, stock(46090), merged), ("Parts", True, PARTS, [])])
    workbook("binary_1904.xlsb", [("Stock", False, stock(44628), merged)], is_1904=True)
