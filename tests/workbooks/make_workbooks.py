"""Writes the workbooks of this folder again: python make_workbooks.py (needs openpyxl, xlwt, odfpy)."""

import datetime
import pathlib
import struct
import zipfile

import openpyxl
import xlwt
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import Table, TableCell, TableRow
from odf.text import P

HERE = pathlib.Path(__file__).parent
DAY = datetime.datetime(2026, 3, 9)


def xlsx(name, sheets, change=None):
    book = openpyxl.Workbook()
    book.remove(book.active)
    for title, rows in sheets.items():
        sheet = book.create_sheet(title)
        for row in rows:
            sheet.append(row)
    if change:
        change(book)
    book.save(HERE / name)


def text(name, content, encoding="utf-8"):
    (HERE / name).write_bytes(content.encode(encoding))


PARTS = [["Part no", "Type", "d", "D", "B"], ["A-1", "Deep groove ball bearing", 30, 62, 16], ["A-2", "O-ring", 31.34, None, 3.53]]
STOCK = [["Part no", "Bin", "On hand"], ["A-1", "R1", 4], ["A-2", "R2", 0]]

xlsx("plain_parts.xlsx", {"Parts": PARTS})
xlsx("title_rows.xlsx", {"Sheet1": [["Price list"], ["Supplier: Nordlager"], ["Date:", DAY], [], ["Part no", "Description", "Price", "Lead time (days)"], ["N1", "Deep groove ball bearing", 4.5, 3]]})


def merge(book):
    sheet = book.active
    sheet.merge_cells("C1:E1")


xlsx("merged_header.xlsx", {"Parts": [["Part no", "Type", "Dimensions (mm)", None, None], [None, None, "d", "D", "B"], ["A-1", "Rillenkugellager", 30, 62, 16]]}, merge)
xlsx("unit_row.xlsx", {"Parts": [["Part no", "Type", "d", "D", "B"], [None, None, "in", "in", "in"], ["A-1", "deep groove ball bearing", 0.5, 1.125, 0.25]]})
xlsx("total_rows.xlsx", {"Stock": STOCK[:2] + [["Subtotal", None, 4]] + STOCK[2:] + [[], ["Total", None, 4], ["Counted by the night shift, see the paper list in the office"]]})


def hide(book):
    book["Old"].sheet_state = "hidden"


xlsx("hidden_sheet.xlsx", {"Stock": STOCK, "Old": STOCK}, hide)


def errors(book):
    sheet = book.active
    for cell, value in (("C2", "#N/A"), ("C3", "#REF!")):
        sheet[cell].value = value
        sheet[cell].data_type = "e"


xlsx("error_cells.xlsx", {"Stock": STOCK}, errors)


def epoch(book):
    book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904


book = openpyxl.Workbook()
book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
sheet = book.active
for row in (["Date", "Part no", "Quantity", "Reason"], [DAY, "A-1", 2, "Failure"]):
    sheet.append(row)
book.save(HERE / "dates_1904.xlsx")

xlsx("dates_without_format.xlsx", {"Usage": [["Date", "Part no", "Quantity"], [46090, "A-1", 2]]})
xlsx("two_tables.xlsx", {"All": STOCK + [[], ["Machines"], ["Machine", "Downtime cost per hour", "Installed"], ["M1", 120, 2]]})
xlsx("repeated_header.xlsx", {"Stock": STOCK + STOCK})
xlsx("numbers_as_text.xlsx", {"Stock": [["Part no", "Bin", "On hand"], ["A-1", "R1", "1.250"], ["A-2", "R1", "3,5"], ["A-3", "R1", "4 pcs"]]})
xlsx("ambiguous_thousands.xlsx", {"Stock": [["Part no", "Bin", "On hand"], ["A-1", "R1", "1.250"]]})
xlsx("tax_included.xlsx", {"Nordlager": [["Part no", "Description", "Price incl. VAT"], ["N1", "Deep groove ball bearing", 11.9]]})
xlsx("price_breaks.xlsx", {"Nordlager": [["Art.-Nr.", "Bezeichnung", "Preis €/100", "ab 500", "ab 1000", "MOQ"], ["N1", "Rillenkugellager", 850, 8, 7.5, 10]]})
xlsx("lead_time_without_unit.xlsx", {"Nordlager": [["Part no", "Description", "Price", "Lead time"], ["N1", "x", 4.5, 6], ["N2", "y", 4.5, "6 wks"], ["N3", "z", 4.5, None]]})
xlsx("missing_identity.xlsx", {"Stock": STOCK + [[None, "R3", 7]]})
xlsx("close_spelling.xlsx", {"Nordlager": [["Part no", "Description", "Price", "Lead tiem (days)"], ["N1", "x", 4.5, 6]]})
xlsx("no_table.xlsx", {"Notes": [["Call the workshop"], ["about the lathe"]]})
xlsx("own_report.xlsx", {"Cover": [["sparewright report"]], "Stock": STOCK})
xlsx("lip_seal_columns.xlsx", {"Parts": [["Part no", "Type", "ID", "OD", "Width", "Material"], ["S-1", "oil seal", 40, 62, 8, "FPM"]]})
xlsx("kit_and_tasks.xlsx", {
    "Kit": [["Kit", "Line", "Part no", "Description", "Qty", "Task", "No substitutes"], ["Spindle", 10, "A-1", "ball bearing", 2, "fit", "yes"], ["Spindle", 20, None, "ground spacer", 0, "fit", None]],
    "Tasks": [["Kit", "Task", "Hours", "Predecessors"], ["Spindle", "strip", 2, None], ["Spindle", "fit", 3, "strip"]],
    "Plan": [["Kit", "Machine", "Planned date"], ["Spindle", "M1", DAY]],
})
xlsx("far_corner_cell.xlsx", {"Stock": STOCK}, lambda book: book.active.cell(row=900, column=16384, value="x"))

old = xlwt.Workbook()
sheet = old.add_sheet("Bestand")
for r, row in enumerate([["Teilenummer", "Lagerplatz", "Bestand", "Gezählt am"], ["A-1", "R1", 4, DAY]]):
    for c, value in enumerate(row):
        style = xlwt.easyxf(num_format_str="DD.MM.YYYY") if isinstance(value, datetime.datetime) else xlwt.Style.default_style
        sheet.write(r, c, value, style)
old.save(str(HERE / "old_binary.xls"))

ods = OpenDocumentSpreadsheet()
table = Table(name="Stock")
for row in STOCK:
    line = TableRow()
    for value in row:
        if isinstance(value, str):
            cell = TableCell(valuetype="string")
            cell.addElement(P(text=value))
        else:
            cell = TableCell(valuetype="float", value=value)
        line.addElement(cell)
    table.addElement(line)
ods.spreadsheet.addElement(table)
ods.save(str(HERE / "open_document.ods"))

text("semicolon_windows1252.csv", "Art.-Nr.;Bezeichnung;Preis (€);Lieferzeit (AT);Stück\r\nN1;Rillenkugellager;1.234,50;10;Stk\r\nN2;O-Ring;2,50;auf Anfrage;Stk\r\n", "cp1252")
text("utf16.tsv", "Part no\tBin\tOn hand\nA-1\tRöhre\t4\n", "utf-16")
text("month_first_dates.csv", "Date,Part no,Quantity\n03/04/2026,A-1,1\n03/25/2026,A-1,-1\n")
text("both_date_orders.csv", "Date,Part no,Quantity\n03/04/2026,A-1,1\n03/25/2026,A-1,1\n25/03/2026,A-1,1\n")
text("blank_lines.csv", "\n\nPart no;Bin;On hand\n\nA-1;R1;4\n\n")
text("own_report.csv", "sparewright report;rejected rows\nPart no;Bin;On hand\nA-1;R1;4\n")
text("negative_values.csv", "Part no;Bin;On hand;Reserved\nA-1;R1;-4;1\n")
text("french.csv", "Référence;Désignation article;Prix unitaire HT;Délai de livraison;Fournisseur\nF1;Roulement rigide à billes;12,50 €;2 semaines;Paliers du Nord\n")
text("polish.csv", "Nr części;Nazwa;Cena netto;Termin dostawy;Dostawca\nP1;Łożysko stożkowe;45,00 zł;3 tygodnie;Łożyska Wschód\n")
text("spanish_stock_2026-03-02.csv", "Referencia;Ubicación;Existencias\nE1;R1;1.250,5\n")
text("italian.csv", "Codice;Descrizione;Prezzo netto;Consegna;Fornitore\nI1;Paraolio;3,20;pronta consegna;Cuscinetti Est\n")

(HERE / "not_a_workbook.xlsx").write_bytes(b"<html><body>export failed</body></html>")
(HERE / "empty.xlsx").write_bytes(b"")
whole = (HERE / "plain_parts.xlsx").read_bytes()
(HERE / "truncated.xlsx").write_bytes(whole[: len(whole) // 2])
# Head of an OLE file with a directory entry as [MS-OFFCRYPTO] 2.3.4.4 names it: enough to be told apart.
ole = bytes.fromhex("d0cf11e0a1b11ae1") + b"\0" * 504 + "EncryptedPackage".encode("utf-16-le") + struct.pack("<I", 0)
(HERE / "password.xlsx").write_bytes(ole)
with zipfile.ZipFile(HERE / "other_zip.xlsx", "w") as archive:
    archive.writestr("hello.txt", "not a workbook")
