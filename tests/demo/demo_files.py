"""Writes the demo files so that the same rows give the same bytes.

Workbook writers stamp the hour of writing into their files; `settle` sets every such stamp to one fixed moment.
"""

import csv
import datetime
import io
import re
import zipfile

import openpyxl
import xlwt
from odf import number, style, table, text
from odf.opendocument import OpenDocumentSpreadsheet
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.properties import PageSetupProperties

STAMP = datetime.datetime(2026, 3, 6, 16, 0, 0)
THIN = Side(style="thin", color="999999")


class Error(str):
    """A cell that holds an error value such as #N/A."""


class Table:
    """Rows of one sheet with what makes it look like a person's file."""

    def __init__(self, name, rows=(), header=1, title=0, merges=(), widths=(), hidden=False, fill="DDE6D5",
                 formats=None):
        self.name, self.rows, self.header, self.title = name, [list(row) for row in rows], header, title
        self.merges, self.widths, self.hidden, self.fill = list(merges), widths, hidden, fill
        self.formats = formats or {}


def settle(path):
    """Gives a zipped document fixed times inside and outside of its members."""
    stamp = STAMP.strftime("%Y-%m-%dT%H:%M:%SZ").encode()
    members = []
    with zipfile.ZipFile(path) as archive:
        for info in archive.infolist():
            data = archive.read(info)
            if info.filename in ("docProps/core.xml", "meta.xml"):
                data = re.sub(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z?", stamp, data)
            members.append((info.filename, data))
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in members:
            info = zipfile.ZipInfo(name, STAMP.timetuple()[:6])
            stored = name == "mimetype"
            info.compress_type = zipfile.ZIP_STORED if stored else zipfile.ZIP_DEFLATED
            archive.writestr(info, data)


def xlsx(path, tables):
    book = openpyxl.Workbook()
    book.remove(book.active)
    book.properties.creator = "Hollerbrook Oat Mill, stores"
    book.properties.created = STAMP
    for sheet_of in tables:
        sheet = book.create_sheet(sheet_of.name)
        for r, row in enumerate(sheet_of.rows, 1):
            for c, value in enumerate(row, 1):
                if value is None or value == "":
                    continue
                cell = sheet.cell(r, c, value)
                if isinstance(value, Error):
                    cell.data_type = "e"
                elif isinstance(value, datetime.date):
                    cell.number_format = sheet_of.formats.get("date", "DD.MM.YYYY")
                elif isinstance(value, str):
                    cell.data_type = "s"  # a text that looks like a number or a formula stays text
                if isinstance(value, float) and c in sheet_of.formats:
                    cell.number_format = sheet_of.formats[c]
                if r <= sheet_of.title:
                    cell.font = Font(bold=r == 1, size=14 if r == 1 else 9, italic=r > 1)
                elif r <= sheet_of.title + sheet_of.header:
                    cell.font = Font(bold=True)
                    cell.alignment = Alignment(wrap_text=True, vertical="center", horizontal="center")
                    cell.fill = PatternFill("solid", fgColor=sheet_of.fill)
                    cell.border = Border(top=THIN, bottom=THIN, left=THIN, right=THIN)
        for area in sheet_of.merges:
            sheet.merge_cells(area)
        for c, width in enumerate(sheet_of.widths, 1):
            sheet.column_dimensions[get_column_letter(c)].width = width
        for r in range(sheet_of.title + 1, sheet_of.title + sheet_of.header + 1):
            sheet.row_dimensions[r].height = 18 if sheet_of.header == 2 and r == sheet_of.title + 1 else 40
        sheet.freeze_panes = sheet.cell(sheet_of.title + sheet_of.header + 1, 1)
        sheet.page_setup.orientation, sheet.page_setup.fitToHeight = "landscape", 0
        sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
        if sheet_of.hidden:
            sheet.sheet_state = "hidden"
    book.save(path)
    settle(path)


def xls(path, tables):
    """Real BIFF8, as an old stock program would write it."""
    book = xlwt.Workbook(encoding="utf-8")
    bold = xlwt.easyxf("font: bold on; pattern: pattern solid, fore_colour light_green; borders: bottom thin")
    title = xlwt.easyxf("font: bold on, height 280")
    date = xlwt.easyxf(num_format_str="DD.MM.YYYY")
    for sheet_of in tables:
        sheet = book.add_sheet(sheet_of.name)
        for r, row in enumerate(sheet_of.rows):
            for c, value in enumerate(row):
                if value is None or value == "":
                    continue
                if isinstance(value, datetime.date):
                    sheet.write(r, c, value, date)
                elif r < sheet_of.title:
                    sheet.write(r, c, value, title if r == 0 else xlwt.Style.default_style)
                elif r < sheet_of.title + sheet_of.header:
                    sheet.write(r, c, value, bold)
                else:
                    sheet.write(r, c, value)
        for c, width in enumerate(sheet_of.widths):
            sheet.col(c).width = int(width * 256)
    book.save(str(path))


def ods(path, tables):
    document = OpenDocumentSpreadsheet()
    day = number.DateStyle(name="day")
    for part in (number.Day(style="long"), number.Text(text="/"), number.Month(style="long"), number.Text(text="/"),
                 number.Year(style="long")):
        day.addElement(part)
    document.automaticstyles.addElement(day)
    dates = style.Style(name="dates", family="table-cell", datastylename=day)
    document.automaticstyles.addElement(dates)
    bold = style.Style(name="bold", family="table-cell")
    bold.addElement(style.TextProperties(fontweight="bold"))
    document.automaticstyles.addElement(bold)
    for sheet_of in tables:
        sheet = table.Table(name=sheet_of.name)
        for index, width in enumerate(sheet_of.widths):
            column = style.Style(name=f"w{index}", family="table-column")
            column.addElement(style.TableColumnProperties(columnwidth=f"{width * 0.2:.2f}cm"))
            document.automaticstyles.addElement(column)
            sheet.addElement(table.TableColumn(stylename=column))
        for r, row in enumerate(sheet_of.rows):
            line = table.TableRow()
            for value in row:
                line.addElement(ods_cell(value, r < sheet_of.title + sheet_of.header and bold, dates))
            sheet.addElement(line)
        document.spreadsheet.addElement(sheet)
    document.save(str(path))
    settle(path)


def ods_cell(value, bold, dates):
    if value is None or value == "":
        return table.TableCell()
    more = {"stylename": bold} if bold else {}
    if isinstance(value, datetime.date):
        cell = table.TableCell(valuetype="date", datevalue=value.isoformat(), stylename=dates)
        value = value.strftime("%d/%m/%Y")
    elif isinstance(value, (int, float)):
        cell = table.TableCell(valuetype="float", value=value, **more)
        value = f"{value:g}".replace(".", ",")
    else:
        cell = table.TableCell(valuetype="string", **more)
    cell.addElement(text.P(text=str(value)))
    return cell


def delimited(path, rows, delimiter=",", encoding="utf-8", newline="\r\n"):
    out = io.StringIO()
    csv.writer(out, delimiter=delimiter, lineterminator=newline).writerows(rows)
    path.write_bytes(out.getvalue().encode(encoding))


def comma(value, decimals=2, thousands=False):
    """A number as a German or French list prints it."""
    if value is None or value == "":
        return ""
    printed = f"{value:,.{decimals}f}" if thousands else f"{value:.{decimals}f}"
    return printed.translate(str.maketrans(",.", ".,"))


def short(value):
    """A dimension without trailing zeros: 30, 16.25."""
    return "" if value is None or value == "" else f"{value:g}"
