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

# Damage by spreadsheet programs.
BALL = "Deep groove ball bearing"
PART_HEAD = ["Part no", "Type", "d", "D", "B"]


def dated(*cells):
    def change(book):
        for cell, (month, day) in cells:
            book.active[cell].value = datetime.datetime(2026, month, day)
            book.active[cell].number_format = "d-mmm"
    return change


def formatted(cell, code):
    def change(book):
        book.active[cell].number_format = code
    return change


xlsx("fraction_as_date.xlsx", {"Parts": [PART_HEAD, ["A-1", BALL, "5/16", "29/32", "5/16"], ["A-2", BALL, None, "29/32", "5/16"], ["A-3", BALL, "3/8", "7/8", "7/32"]]}, dated(("C3", (7, 16))))
xlsx("fraction_as_date_among_mm.xlsx", {"Parts": [PART_HEAD, ["A-1", BALL, 30, 62, 16], ["A-2", BALL, None, 62, 17], ["A-3", BALL, 35, 72, 17]]}, dated(("C3", (7, 16))))
xlsx("lead_time_as_date.xlsx", {"Nordlager": [["Part no", "Description", "Price", "Lead time (weeks)"], ["N1", "x", 4.5, "6-8"], ["N2", "y", 4.5, None], ["N3", "z", 4.5, "2-3"], ["N4", "z", 4.5, "10-12"], ["N5", "z", 4.5, "4-6"]]}, dated(("D3", (8, 6))))
xlsx("lead_time_as_date_alone.xlsx", {"Nordlager": [["Part no", "Description", "Price", "Lead time"], ["N1", "x", 4.5, "5 days"], ["N2", "y", 4.5, None], ["N3", "z", 4.5, "2 weeks"], ["N4", "z", 4.5, "ex stock"], ["N5", "z", 4.5, "3 days"]]}, dated(("D3", (8, 6))))
xlsx("designation_in_powers.xlsx", {"Parts": [["Part no", "Designation", "Description"], ["A-1", "6305-2RS", "pump"], ["A-2", 620300, "pump"], ["A-3", "NU205", "mill"]]}, formatted("B3", "0.00E+00"))
xlsx("designation_as_number.xlsx", {"Parts": [["Part no", "Designation", "Description"], ["A-1", "6305-2RS", "pump"], ["A-2", 620300, "pump"], ["A-3", "NU205", "mill"], ["A-4", 61800, "mill"]]})
xlsx("dash_numbers.xlsx", {"Seals": [["Part no", "AS568 dash no.", "Material"], ["S-1", 6, "NBR"], ["S-2", 218, "NBR"], ["S-3", "-012", "FKM"], ["S-4", 100, "NBR"]]})
xlsx("long_numbers.xlsx", {"Stock": [["Part no", "Bin", "On hand"], [4006381333931230000, "R1", 3], ["4006381333931234567", "R2", 3]]})
xlsx("part_number_as_date.xlsx", {"Stock": [["Part no", "Bin", "On hand"], [None, "R1", 3], ["4-11", "R2", 3]]}, dated(("A2", (3, 12))))
text("shown_in_powers.csv", "Part no;Bin;On hand\n4,00638E+18;R1;3\nA-2;R2;3\n")
xlsx("formula_without_result.xlsx", {"Stock": [["Part no", "Bin", "On hand"], ["A-1", "R1", "=2+2"], ["A-2", "R2", 3]]})
xlsx("zeros_lost.xlsx", {"Stock": [["Part no", "Bin", "On hand"], [412, "R1", 3], ["00413", "R2", 3]]})

# Slips.
xlsx("inches_in_mm_column.xlsx", {"Parts": [["Part no", "Type", "d (mm)", "D (mm)", "B (mm)"], ["A-1", BALL, 0.25, 0.625, 0.196], ["A-2", BALL, 0.5, 1.125, 0.25], ["A-3", BALL, 0.55, 1.3, 0.3]]})
xlsx("swapped_bore.xlsx", {"Parts": [PART_HEAD, ["A-1", BALL, 62, 30, 16], ["A-2", BALL, 25, 62, 17]]})
xlsx("lost_decimal_point.xlsx", {"Parts": [PART_HEAD, ["A-1", BALL, 30, 620, 16], ["A-2", BALL, 25, 62, 17]]})
xlsx("size_against_designation.xlsx", {"Parts": [["Part no", "Designation", "d", "D", "B"], ["A-1", "6207", 35, 72, 18], ["A-2", "6207", 35, 72, 17]]})
xlsx("o_ring_lost_point.xlsx", {"Parts": [["Part no", "Type", "ID", "CS"], ["S-1", "O-ring", 3134, 3.53], ["S-2", "O-ring", 100, 3]]})

# Headers.
xlsx("unnamed_dimensions.xlsx", {"Parts": [["Part no", "Type", "A", "B", "C"], ["A-1", BALL, 30, 62, 16], ["A-2", BALL, 25, 62, 17], ["A-3", BALL, 35, 72, 17]]})
xlsx("dimensions_in_capitals.xlsx", {"Parts": [["PART NO", "TYPE", "B", "D", "D"], ["A-1", BALL, 16, 30, 62], ["A-2", BALL, 17, 25, 62]]})
xlsx("unnamed_prices.xlsx", {"Nordlager": [["Part no", "Description", "A", "B"], ["N1", "x", 12.5, 10.0], ["N2", "y", 15.0, 12.0]]})
xlsx("header_far_down.xlsx", {"Sheet1": [["Nordlager"]] + [[]] * 28 + [["Valid from 9 March 2026"], ["Part no", "Bin", "On hand"], ["A-1", "R1", 4]]})
xlsx("offset_table.xlsx", {"Sheet1": [[], [], [None, None, None, "Part no", "Bin", "On hand"], [None, None, None, "A-1", "R1", 4]]})
text("two_row_header.csv", "Part no;Dimensions;;;Price\n;d;D;B;EUR/100\nN1;30;62;16;850\n")
text("same_header_twice.csv", "Part no;Bin;On hand;On hand\nA-1;R1;4;5\n")
text("portuguese.csv", "Referência;Descrição;Preço unitário;Prazo de entrega;Fornecedor\nP1;Rolamento rígido de esferas;12,50 €;2 semanas;Rolamentos do Norte\n")

# Values.
text("unit_in_each_row.csv", "Part no;Type;d;D;B;Dimension unit\nA-1;Deep groove ball bearing;0.5;1.125;0.25;in\nA-2;Deep groove ball bearing;3,0;6,2;1,6;cm\nA-3;Deep groove ball bearing;30;62;16;mm\nA-4;Deep groove ball bearing;30;62;16;ell\n")
text("size_in_one_cell.csv", "Part no;Type;Size\nA-1;Deep groove ball bearing;30x62x16\nA-2;Deep groove ball bearing;30/62/16\nA-3;Oil seal;40 x 62 x 8 mm\nA-4;Lock nut;M25x1.5\nA-5;Deep groove ball bearing;30x62\n")
text("inch_fractions.csv", 'Part no;Type;d;D;B\nA-1;Deep groove ball bearing;"1/2""";"1 1/8""";"1/4"""\nA-2;Deep groove ball bearing;3/8;7/8;7/32\n')
text("diameter_signs.csv", "Part no;Type;d;D;B\nA-1;Rillenkugellager;Ø25;⌀ 62;17\n")
text("lead_times_in_words.csv", "Part no;Supplier;Price;Lead time\nN1;Nord;4;6 wks\nN2;Nord;4;6-8 weeks\nN3;Nord;4;ex stock\nN4;Nord;4;2 days\nN5;Nord;4;on request\nN6;Nord;4;2026-05-04\nN7;Nord;4;soon\n")
text("price_per_hundred.csv", "Part no;Supplier;Price;Price per\nN1;Nord;8.50;100\nN2;Nord;8.50/100;\nN3;Nord;8.50;7.5\n")
text("list_less_discount.csv", "Part no;Supplier;List price;Discount\nN1;Nord;10.00;35\nN2;Nord;10.00;35 %\nN3;Nord;10.00;0.35\nN4;Nord;10.00;135\n")
text("price_on_request.csv", "Part no;Supplier;Price\nN1;Nord;on request\nN2;Nord;free\n")
text("currencies_by_row.csv", "Part no;Supplier;Price;Currency\nN1;Nord;4,50;EUR\nN2;Nord;4,50;zł\nN3;Nord;4,50;gold\n")
text("breaks_out_of_order.csv", "Part no;Supplier;ab 1;ab 10;ab 100\nN1;Nord;5;4;3\nN2;Nord;3;4;5\n")
text("stroke_in_designation.csv", "Part no;Designation;Description\nA-1;62/22;gearbox\nA-2;6222;mill\n")
text("matched_set_words.csv", "Kit;Line;Description;Qty\nSpindle;10;Rillenkugellager 6206;2\nSpindle;20;;1\nSpindle;30;Distanzring;two\n")
text("unit_of_count_unknown.csv", "Part no;Bin;On hand;Unit\nA-1;R1;4;pcs\nA-2;R2;4;hogshead\n")
text("contradicting_words.csv", "Part no;Type;Designation\nA-1;Tapered roller bearing;6206\n")

# Signs, encodings and delimiters.
text("hard_blanks.csv", "Part\u00a0no;Bin;On\u00a0hand\n\u00a0A-1\u00a0;R1;1\u202f250\nA-2;\u2009R2;\u00a04\u00a0\n")
text("line_breaks_in_cells.csv", 'Part no;Bin;"On\nhand"\nA-1;"R1\nupper";4\n')
text("commas_and_quotes.csv", 'Part no,Description,Price,Supplier\nN1,"Ring, ""small"" one","1,234.50",Nord\n')
text("strokes.txt", "Part no|Bin|On hand\nA-1|R1|4\n")
text("utf8_with_mark.csv", "Teilenr.;Lagerplatz;Bestand\nA-1;Röhre;4\n", "utf-8-sig")
text("utf16_without_mark.csv", "Part no;Bin;On hand\nA-1;Röhre;4\n", "utf-16-le")
text("utf16_big_end_first.csv", "\ufeffPart no;Bin;On hand\nA-1;Röhre;4\n", "utf-16-be")
text("combining_accents.csv", "Re\u0301fe\u0301rence;De\u0301signation article;Prix unitaire HT;Fournisseur\nF1;Roulement rigide a\u0300 billes;12,50;Paliers\n")
text("ragged_lines.csv", "Part no;Bin;On hand\nA-1;R1;4;left over;more\nA-2\nA-3;R3\n")
text("formula_words.csv", "\ufeffpart_no,bin,on_hand\r\n'-218,R1,4\r\n'+/-0.1,R2,-4\r\n'=1+1,R3,4\r\n'@x,R4,4\r\n")
text("apostrophes_of_others.csv", "Part no;Bin;On hand\n'-218;R1;4\n")
text("totals_in_languages.csv", "Part no;Bin;On hand\nA-1;R1;4\nZwischensumme;;4\nA-2;R2;1\nRazem;;5\nSous-total;;5\n")

# Limits.
xlsx("wide_sheet.xlsx", {"Stock": STOCK}, lambda book: [book.active.cell(row=2, column=column, value=column) for column in range(4, 1100)])
xlsx("longest_text.xlsx", {"Stock": [["Part no", "Bin", "On hand", "Note"], ["A-1", "R1", 4, "x" * 32767]]})


def formats_only(book):
    for row in range(4, 3000):
        book.active.cell(row=row, column=1).number_format = "0.00"


xlsx("empty_formatted_rows.xlsx", {"Stock": STOCK}, formats_only)


def very_hidden(book):
    book["Old"].sheet_state = "veryHidden"


xlsx("very_hidden_sheet.xlsx", {"Stock": STOCK, "Old": STOCK}, very_hidden)

# Found by trying lists as users have them.
text("abbreviated_diameters.csv", "Tarif 2026 ; Roulements du Sud\n\nRéf.;Désignation;Alésage;Ø ext.;Largeur;Prix tarif HT;Remise;Délai;Qté mini\nR-1;Roulement à billes 6204 2RS;20;47;14;8,90;30 %;2 semaines;10\nR-2;Roulement à rouleaux NJ 206;30;62;16;25,00;25;sur demande;1\nR-3;Joint à lèvre 30x52x10;30;52;10;3,20;0;en stock;1\n", "cp1252")
text("portuguese_stock.csv", "Código;Descrição;Localização;Quantidade em estoque;Quantidade reservada;Data do inventário\nA-1;Rolamento 6206;R1;4;2;02/03/2026\nA-2;Anel O-ring;R2;12;0;02/03/2026\n")
text("every_header_misspelt.csv", "Our part numbr;Descripton;Bore diamter;Outsde diameter;Widht;Minimum stok\nB-1;Deep groove ball bearing;30;62;16;2\nB-2;deep groove ball bearing;35;72;17;1\n")
text("unit_column_of_lengths.csv", "Part no;Type;d;D;B;Unit\nA1;deep groove ball bearing;3,0;6,2;1,6;cm\nA2;deep groove ball bearing;30;62;16;mm\nA3;deep groove ball bearing;0,5;1,125;0,25;in\n")
text("chained_discounts.csv", "Listino prezzi del 01/02/2026\nCodice;Descrizione;Foro;Diametro esterno;Larghezza;Prezzo listino;Sconto %;Consegna\nC1;Cuscinetto a sfere 6206;30;62;16;12,00;40+10;pronta\nC2;Cuscinetto a rulli NU 205;25;52;15;30,00;35;15 gg\n")
text("list_and_net_price.csv", "Art.-Nr.;Kurzzeichen;Preis;;LZ\n;;Liste;Netto;AT\nM-1;6206-2RS;12,40;8,06;2-3\nM-2;6207-2Z C3;14,10;9,17;5\nZwischensumme;;26,50;;\nM-3;NU 205;31,00;20,15;6-8 Wochen\n")
xlsx("units_of_counts.xlsx", {"All": [["Stores of hall 3, as of 2026-03-02"], [], ["Part no", "Bin", "Qty on hand", "Reserved"], ["-", "-", "pcs", "pcs"], ["B-1", "A1", 4, 1], ["B-2", "A2", 0, 0]]})
xlsx("date_on_the_cover.xlsx", {"Cover": [["Price list spring"], ["Date:", datetime.datetime(2026, 3, 1)]], "Bearings": [["Designation", "Price EUR", "Lead time"], ["6305-2RS", 9.5, "5 days"]], "Seals": [["Price list of 2 March 2025"], ["Designation", "Price EUR", "Lead time"], ["TC 30x52x10", 2.5, "5 days"]]})
xlsx("date_of_another_sheet.xlsx", {"Bearings": [["Date:", datetime.datetime(2026, 3, 1)], [], ["Designation", "Price EUR", "Lead time"], ["6305-2RS", 9.5, "5 days"]], "Seals": [["Designation", "Price EUR", "Lead time"], ["TC 30x52x10", 2.5, "5 days"]]})


def a_span_as_date(book):
    cell = book.active["D3"]
    cell.value, cell.number_format = datetime.datetime(2026, 8, 6), "d-mmm"


xlsx("lead_time_as_date_under_weeks.xlsx", {"Offers": [["Supplier", "Designation", "Price EUR", "Lead time (weeks)"], ["N", "6206-2RS", 4.5, "4-6"], ["N", "6207-2RS", 5.5, None], ["N", "6305", 6, "2-3"], ["N", "6306", 6, "10"]]}, a_span_as_date)
