"""Writes the files that LibreOffice makes: python make_with_libreoffice.py (needs soffice and openpyxl).

One source workbook with hidden sheet, merged header, error, formula, date, number as text and hard blanks goes through
each filter. LibreOffice writes no xlsb. The files with a password (`workshop`) are stored by a macro, since
`--convert-to` has no option for one.
"""

import datetime
import pathlib
import shutil
import subprocess
import tempfile

import openpyxl

HERE = pathlib.Path(__file__).parent

MACRO = """<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE script:module PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "module.dtd">
<script:module xmlns:script="http://openoffice.org/2000/script" script:name="Module1" script:language="StarBasic">
Sub SaveWithPassword
  Dim load(0) As New com.sun.star.beans.PropertyValue
  load(0).Name = "Hidden"
  load(0).Value = True
  doc = StarDesktop.loadComponentFromURL("{folder}/source.xlsx", "_blank", 0, load())
  Dim nv(1) As New com.sun.star.beans.NamedValue
  nv(0).Name = "OOXPassword"
  nv(0).Value = "workshop"
  nv(1).Name = "CryptoType"
  nv(1).Value = "Standard"
  Dim y(1) As New com.sun.star.beans.PropertyValue
  y(0).Name = "FilterName"
  y(0).Value = "Calc MS Excel 2007 XML"
  y(1).Name = "EncryptionData"
  y(1).Value = nv()
  doc.storeToURL("{folder}/libreoffice_password.xlsx", y())
  Dim x(1) As New com.sun.star.beans.PropertyValue
  x(0).Name = "FilterName"
  x(1).Name = "Password"
  x(1).Value = "workshop"
  x(0).Value = "MS Excel 97"
  doc.storeToURL("{folder}/libreoffice_password.xls", x())
  x(0).Value = "calc8"
  doc.storeToURL("{folder}/libreoffice_password.ods", x())
  doc.close(True)
End Sub
</script:module>
"""


def source(path, is_1904=False):
    book = openpyxl.Workbook()
    if is_1904:
        book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
    sheet = book.active
    sheet.title = "Stock"
    rows = [
        ["Part no", "Bin", "Amounts", None, "Counted on"],
        [None, None, "On hand", "Reserved", None],
        ["A-1", "R\u00a01", 4, "=1+1", datetime.datetime(2026, 3, 9)],
        ["\u00a0A-2 ", "R2", "3,5", "=NA()", datetime.datetime(2026, 3, 10, 6, 30)],
        ["-218", "=\"R\"&\"3\"", 1250, None, None],
    ]
    for row in rows:
        sheet.append(row)
    sheet.merge_cells("C1:D1")
    for cell in ("E3", "E4"):
        sheet[cell].number_format = "dd.mm.yyyy"
    old = book.create_sheet("Old")
    for row in (["Part no", "Bin", "On hand"], ["A-9", "R9", 1]):
        old.append(row)
    old.sheet_state = "hidden"
    book.save(path)


def office(profile, *arguments):
    subprocess.run(["soffice", f"-env:UserInstallation={profile.as_uri()}", "--headless", *arguments], check=True)


with tempfile.TemporaryDirectory() as name:
    folder = pathlib.Path(name)
    profile = folder / "profile"
    source(folder / "source.xlsx")
    source(folder / "source_1904.xlsx", is_1904=True)
    out = folder / "out"
    for kind, ending in (("xlsx:Calc MS Excel 2007 XML", "xlsx"), ("xls:MS Excel 97", "xls"), ("ods:calc8", "ods")):
        office(profile, "--convert-to", kind, "--outdir", str(out), str(folder / "source.xlsx"))
        shutil.copy(out / f"source.{ending}", HERE / f"libreoffice.{ending}")
        office(profile, "--convert-to", kind, "--outdir", str(out), str(folder / "source_1904.xlsx"))
        shutil.copy(out / f"source_1904.{ending}", HERE / f"libreoffice_1904.{ending}")
    office(profile, "--convert-to", "csv:Text - txt - csv (StarCalc):59,34,76,1", "--outdir", str(out), str(folder / "source.xlsx"))
    shutil.copy(out / "source.csv", HERE / "libreoffice.csv")
    (profile / "user/basic/Standard/Module1.xba").write_text(MACRO.replace("{folder}", folder.as_uri()))
    (profile / "user/basic/Standard/script.xlb").write_text(
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<!DOCTYPE library:library PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "library.dtd">\n'
        '<library:library xmlns:library="http://openoffice.org/2000/library" library:name="Standard" '
        'library:readonly="false" library:passwordprotected="false"><library:element library:name="Module1"/></library:library>\n'
    )
    office(profile, "macro:///Standard.Module1.SaveWithPassword")
    for ending in ("xlsx", "xls", "ods"):
        shutil.copy(folder / f"libreoffice_password.{ending}", HERE / f"libreoffice_password.{ending}")
