"""Writes the files of the corpus whose name begins with openpyxl-. Debian's python3-openpyxl 3.0.9."""
import datetime as dt
import io
import struct
import sys
import zlib

from openpyxl import Workbook
from openpyxl.chart import LineChart, Reference
from openpyxl.comments import Comment
from openpyxl.drawing.image import Image
from openpyxl.formatting.rule import CellIsRule, ColorScaleRule, DataBarRule, FormulaRule, IconSetRule
from openpyxl.styles import Alignment, Border, Font, PatternFill, Protection, Side
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.table import Table, TableStyleInfo

out = sys.argv[1]
ROWS = [("2026-10-%02d" % (5 + 7 * (n // 3)), ["M.K.", "A.R.", "J.T."][n % 3], ["Two spin", "Toss illusion"][n % 2], 10, 5 + n % 6) for n in range(9)]


def log(sheet, top=1):
    for column, heading in enumerate(("Date", "Athlete", "Trick", "Tried", "Caught", "Share"), 1):
        sheet.cell(top, column, heading).font = Font(bold=True, color="FFFFFF")
        sheet.cell(top, column).fill = PatternFill("solid", fgColor="22577A")
    for at, (day, athlete, trick, tried, caught) in enumerate(ROWS, top + 1):
        sheet.cell(at, 1, dt.date.fromisoformat(day)).number_format = "dd/mm/yyyy"
        for column, value in enumerate((athlete, trick, tried, caught), 2):
            sheet.cell(at, column, value)
        sheet.cell(at, 6, f"=E{at}/D{at}").number_format = "0%"


def save(book, name):
    book.properties.created = book.properties.modified = dt.datetime(2026, 11, 1)
    book.save(f"{out}/openpyxl-{name}.xlsx")


def png():
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    raw = b"".join(b"\0" + b"\x22\x57\x7a" * 8 for _ in range(8))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 8, 8, 8, 2, 0, 0, 0)) + chunk(b"IDAT", zlib.compress(raw)) + chunk(b"IEND", b"")


book = Workbook(); sheet = book.active; sheet.title = "Log"
sheet["A1"] = "Fernhill Twirlers, autumn"; sheet.merge_cells("A1:F1"); sheet["A1"].alignment = Alignment(horizontal="center", wrap_text=True)
log(sheet, 3); sheet.freeze_panes = "C4"; sheet.column_dimensions["C"].width = 22; sheet.row_dimensions[1].height = 30
sheet.column_dimensions["D"].hidden = True; sheet["H4"].border = Border(left=Side("thin"), bottom=Side("double", color="FF0000"))
sheet["H4"] = True; sheet["H5"] = "0110"; sheet["H6"] = "=1/0"; sheet["H7"] = "  two spaces  "; sheet["H8"] = "a<b&c\n\u00e9"; sheet["H9"] = 1e-300
save(book, "merged-frozen")

book = Workbook(); sheet = book.active; sheet.title = "Log"; log(sheet)
table = Table(displayName="ClubLog", ref="A1:F10"); table.tableStyleInfo = TableStyleInfo("TableStyleMedium2", showRowStripes=True); sheet.add_table(table)
sums = book.create_sheet("Sums"); sums["A1"] = "All caught"; sums["B1"] = "=SUM(ClubLog[Caught])"; sums["B2"] = "=SUMIF(Log!B2:B10,\"M.K.\",Log!E2:E10)"; sums["B3"] = "=B1-B2"
save(book, "table")

book = Workbook(); sheet = book.active; sheet.title = "Log"; log(sheet)
pick = DataValidation("list", formula1='"Two spin,Toss illusion"', allow_blank=True); pick.add("C2:C200"); sheet.add_data_validation(pick)
whole = DataValidation("whole", operator="between", formula1="1", formula2="50", showErrorMessage=True, errorTitle="Tried", error="1 to 50"); whole.add("D2:D200"); sheet.add_data_validation(whole)
own = DataValidation("custom", formula1="=E2<=D2"); own.add("E2:E200"); sheet.add_data_validation(own)
sheet.conditional_formatting.add("F2:F10", CellIsRule(operator="greaterThanOrEqual", formula=["0.8"], fill=PatternFill(bgColor="C7E9C0")))
sheet.conditional_formatting.add("A2:F10", FormulaRule(formula=["$E2<6"], font=Font(italic=True)))
sheet.conditional_formatting.add("E2:E10", DataBarRule("num", 0, "num", 10, color="22577A"))
sheet.conditional_formatting.add("D2:D10", ColorScaleRule("min", None, "FFFFFF", "max", None, "22577A"))
sheet.conditional_formatting.add("G2:G10", IconSetRule("3Arrows", "percent", [0, 33, 67]))
save(book, "rules-validation")

book = Workbook(); sheet = book.active; sheet.title = "Log"; log(sheet)
chart = LineChart(); chart.add_data(Reference(sheet, min_col=5, min_row=1, max_row=10), titles_from_data=True); chart.title = "Caught"; sheet.add_chart(chart, "H2")
sheet.add_image(Image(io.BytesIO(png())), "H20"); sheet["B2"].comment = Comment("Back after a cold", "Coach"); sheet["C2"].hyperlink = "https://example.org/"
save(book, "chart-image-comment")

book = Workbook(); sheet = book.active; sheet.title = "Log"; log(sheet)
book.create_sheet("Old").sheet_state = "hidden"; book["Old"]["A1"] = "=Log!E2*2"; book.create_sheet("It's a name").sheet_properties.tabColor = "22577A"
book["It's a name"]["A1"] = "=SUM(Caught)"; book["It's a name"]["A2"] = "='It''s a name'!A1+Standard"
book.defined_names.append(DefinedName("Caught", attr_text="Log!$E$2:$E$10")); book.defined_names.append(DefinedName("Standard", attr_text="0.8"))
sheet.protection.sheet = True; sheet["E2"].protection = Protection(locked=False); sheet.auto_filter.ref = "A1:F10"; sheet.print_title_rows = "1:1"; sheet.page_setup.orientation = "landscape"
save(book, "names-hidden-protected")

book = Workbook(write_only=True); sheet = book.create_sheet("Log")
for row in ROWS:
    sheet.append(row)
save(book, "write-only")
