"""Reads a workbook with openpyxl and prints what it found as JSON: a reader from another ecosystem than the writer's.

    python3 tests/readers/read_workbook.py BOOK.xlsx
"""

import datetime
import json
import sys

import openpyxl
from openpyxl.utils import range_boundaries


def told(value):
    """Kind and value of a cell."""
    if isinstance(value, bool):
        return ["flag", value]
    if isinstance(value, (int, float)):
        return ["number", value]
    if isinstance(value, datetime.datetime):
        return ["moment", value.strftime("%Y-%m-%dT%H:%M")]
    if isinstance(value, datetime.date):
        return ["moment", value.strftime("%Y-%m-%dT00:00")]
    return ["text", str(value)]


def names_of(book):
    """Defined names of the whole book, whatever the version of the reader calls them."""
    names = book.defined_names
    if hasattr(names, "definedName"):
        return {name.name: name.attr_text for name in names.definedName if name.localSheetId is None}
    return {name: of.attr_text for name, of in names.items()}


def main(path):
    figures = openpyxl.load_workbook(path, data_only=True)
    formulas = openpyxl.load_workbook(path)
    sheets = {}
    for page in figures.worksheets:
        live = formulas[page.title]
        cells = {}
        for row in page.iter_rows():
            for cell in row:
                if cell.value is not None:
                    formula = live[cell.coordinate].value
                    is_formula = isinstance(formula, str) and live[cell.coordinate].data_type == "f"
                    cells[cell.coordinate] = told(cell.value) + [cell.number_format, is_formula]
        sheets[page.title] = {
            "cells": cells,
            "tables": {table.name: list(range_boundaries(table.ref)) for table in live.tables.values()},
            "filters": [table.autoFilter is not None for table in live.tables.values()],
            "frozen": page.freeze_panes,
            "print_area": bool(page.print_area),
            "print_titles": page.print_title_rows,
            "header": page.oddHeader.left.text,
            "charts": len(page._charts),
            "conditions": sum(len(of.rules) for of in live.conditional_formatting),
            "widths": sum(1 for of in page.column_dimensions.values() if of.width),
        }
    properties = figures.properties
    print(json.dumps({
        "sheets": sheets,
        "names": names_of(formulas),
        "title": properties.title,
        "creator": properties.creator,
        "created": properties.created.strftime("%Y-%m-%dT%H:%M"),
    }))


main(sys.argv[1])
