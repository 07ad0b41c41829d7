"""Writes the files of the corpus whose name begins with xlsxwriter-. Debian's python3-xlsxwriter 3.0.2."""
import datetime as dt
import sys

import xlsxwriter

out = sys.argv[1]
ROWS = [(dt.date(2026, 10, 5 + 7 * (n // 3)), ["M.K.", "A.R.", "J.T."][n % 3], ["Two spin", "Toss illusion"][n % 2], "cdccccbccc"[n:] + "cdccccbccc"[:n]) for n in range(9)]


def start(name, **options):
    book = xlsxwriter.Workbook(f"{out}/xlsxwriter-{name}.xlsx", options)
    book.set_properties({"created": dt.datetime(2026, 11, 1)})
    return book


def log(book, sheet):
    day = book.add_format({"num_format": "d mmm yyyy"})
    sheet.write_row(0, 0, ("Date", "Athlete", "Trick", "Marks", "Caught"), book.add_format({"bold": True, "bottom": 1}))
    for at, (date, athlete, trick, marks) in enumerate(ROWS, 1):
        sheet.write_datetime(at, 0, dt.datetime.combine(date, dt.time()), day)
        sheet.write_row(at, 1, (athlete, trick, marks))
        sheet.write_formula(at, 4, f'=LEN(D{at + 1})-LEN(SUBSTITUTE(D{at + 1},"c",""))', None, marks.count("c"))


book = start("formulas"); sheet = book.add_worksheet("Log"); log(book, sheet)
sheet.write_array_formula("G1:G3", "{=E2:E4*2}", None, ROWS[0][3].count("c") * 2); sheet.write_number("G2", ROWS[1][3].count("c") * 2); sheet.write_number("G3", ROWS[2][3].count("c") * 2)
sheet.write_dynamic_array_formula("I1:I9", "=_xlfn._xlws.SORT(E2:E10)", None, 8)
sheet.write_formula("K1", '=IF(SUM(E2:E10)>50,"many","few")', None, "many"); sheet.write_formula("K2", "=NA()", None, "#N/A"); sheet.write_formula("K3", "=1=1", None, True)
book.close()

book = start("rich-text"); sheet = book.add_worksheet("Log"); log(book, sheet)
bold = book.add_format({"bold": True, "color": "red"}); sheet.write_rich_string("G1", "caught ", bold, "eight", " of ten"); sheet.write_url("G2", "https://example.org/", string="rules"); sheet.write_comment("B2", "Left hand first")
sheet.insert_textbox("G5", "Warm up first"); sheet.write_blank("G3", None, bold); sheet.set_column("G:G", 24); sheet.write_string("G4", "漢字 🪄 é")
book.close()

book = start("charts"); sheet = book.add_worksheet("Log"); log(book, sheet)
chart = book.add_chart({"type": "scatter", "subtype": "straight"}); chart.add_series({"values": "=Log!$E$2:$E$10", "categories": "=Log!$A$2:$A$10", "trendline": {"type": "linear"}}); sheet.insert_chart("G2", chart)
page = book.add_chartsheet("Picture"); column = book.add_chart({"type": "column"}); column.add_series({"values": "=Log!$E$2:$E$10"}); page.set_chart(column)
sheet.add_sparkline("F2", {"range": "Log!E2:E10"})
book.close()

book = start("table-filter"); sheet = book.add_worksheet("Log"); log(book, sheet)
sheet.add_table("G1:I10", {"name": "Sets", "total_row": True, "columns": [{"header": "Tried", "total_function": "sum"}, {"header": "Caught"}, {"header": "Share", "formula": "=[@Caught]/[@Tried]"}], "data": [[10, n, None] for n in range(1, 9)]})
sheet.conditional_format("E2:E10", {"type": "data_bar", "data_bar_2010": True}); sheet.conditional_format("E2:E10", {"type": "top", "value": 3, "format": book.add_format({"bg_color": "#C7E9C0"})})
book.close()

book = start("outline-1904", default_date_format="yyyy-mm-dd", date_1904=True); sheet = book.add_worksheet("Log"); log(book, sheet)
for row in range(2, 5):
    sheet.set_row(row, None, None, {"level": 1, "hidden": row == 4})
sheet.set_column("D:D", 30, None, {"level": 1}); sheet.set_landscape(); sheet.set_header("&CFernhill"); sheet.freeze_panes(1, 2); sheet.right_to_left(); sheet.set_zoom(80)
book.close()

book = start("inline", constant_memory=True); sheet = book.add_worksheet("Log")
for at, (date, athlete, trick, marks) in enumerate(ROWS):
    sheet.write_row(at, 0, (str(date), athlete, trick, marks))
    sheet.write_formula(at, 4, f"=LEN(D{at + 1})", None, 10)
book.close()
