"""The lab layouts of the invented labs, each a report's bytes."""

import csv
import io
import re
import zipfile
from collections.abc import Callable, Iterable, Sequence
from datetime import date, datetime

from openpyxl import Workbook
from openpyxl.styles import Font
from openpyxl.worksheet.worksheet import Worksheet
from reportlab.lib.pagesizes import letter
from reportlab.pdfgen.canvas import Canvas
from tables import ReportRow, ResultRow, SampleRow

Content = Sequence[tuple[SampleRow, Sequence[ResultRow]]]
Layout = Callable[[str, ReportRow, Content], bytes]

_FIXED = datetime(2026, 1, 1)  # written into workbooks so that they never differ
_CSV_HEADINGS = [
    "Lab ID",
    "Sample Location",
    "Date Sampled",
    "Draw",
    "Parameter",
    "Result",
    "Units",
    "Reporting Limit",
    "Method",
    "Date Analyzed",
    "Laboratory",
]
_SHEET_HEADINGS = [
    "Lab Sample ID",
    "Client Sample ID",
    "Collected",
    "Draw",
    "Analyte",
    "Result",
    "Qualifier",
    "Units",
    "RL",
    "MDL",
    "Method",
    "Analyzed",
    "Laboratory",
]
_WIDTHS = (16, 27, 16, 12, 34, 9, 9, 12, 8, 8, 15, 16, 33)
_FORM_HEADINGS = ("Test", "Result", "Units", "Reporting Limit", "Method", "Flag")
_LEGEND = (
    "Flags: H = held longer than the method allows; J = estimated; B = found in the blank.",
    "MPN = most probable number. A result of <1.0 means none was found.",
)
_LIMIT_COLUMN = {
    "Total Coliform Bacteria": "Absent",
    "E. coli": "Absent",
    "Nitrate (as NO3)": "45",
    "pH": "6.5 - 8.5",
    "Total Dissolved Solids": "500",
    "Chloride": "250",
    "Sulfate": "250",
    "Fluoride": "4.0",
    "Iron": "0.30",
    "Manganese": "0.05",
    "Arsenic": "10",
    "Lead (first draw)": "15",
    "Lead (flushed)": "15",
    "Copper (first draw)": "1.30",
    "Copper (flushed)": "1.30",
}


def letter_pdf(client: str, report: ReportRow, content: Content) -> bytes:
    """An old typed letter: one block per sample, and a column with the limits of its day."""
    page, canvas = io.BytesIO(), None
    canvas = Canvas(page, pagesize=letter, invariant=1)
    canvas.setTitle(f"Report {report.number}")
    canvas.setFont("Times-Bold", 17)
    canvas.drawString(72, 730, report.lab)
    canvas.setFont("Times-Roman", 10.5)
    canvas.drawString(72, 714, "Drinking water analysis")
    canvas.drawRightString(540, 714, f"Report date: {_american(report.reported)}")
    canvas.drawString(72, 690, f"Client: {client}")
    y = 690.0
    for sample, results in content:
        y = _letter_block(canvas, y - 26, sample, results)
    canvas.setFont("Times-Italic", 9)
    canvas.drawString(72, y - 30, "Results relate only to the sample as received.")
    canvas.save()
    return page.getvalue()


def _letter_block(
    canvas: Canvas, y: float, sample: SampleRow, results: Sequence[ResultRow]
) -> float:
    canvas.setFont("Times-Bold", 10.5)
    canvas.drawString(72, y, f"Sample No.: {sample.sample}")
    canvas.drawString(250, y, f"Sample Location: {sample.point}")
    canvas.setFont("Times-Roman", 10.5)
    canvas.drawString(72, y - 15, f"Date Collected: {_american(sample.collected)}")
    canvas.drawString(250, y - 15, f"Date Received: {_american(sample.received)}")
    columns = (72, 250, 320, 400, 460)
    y -= 38
    canvas.setFont("Times-Bold", 10.5)
    _line(canvas, y, columns, ("Parameter", "Result", "Units", "Limit", "Method"))
    canvas.line(72, y - 4, 540, y - 4)
    canvas.setFont("Times-Roman", 10.5)
    for row in results:
        y -= 16
        limit = _LIMIT_COLUMN.get(row.name, "-")
        _line(canvas, y, columns, (row.name, row.result, row.unit or "-", limit, row.method))
    return y


def form_pdf(client: str, report: ReportRow, content: Content) -> bytes:
    """A county form: labelled boxes, one sample, flags with a legend below."""
    page = io.BytesIO()
    canvas = Canvas(page, pagesize=letter, invariant=1)
    canvas.setTitle(f"Laboratory report {report.number}")
    canvas.setFont("Helvetica-Bold", 14)
    canvas.drawString(54, 738, report.lab)
    canvas.setFont("Helvetica", 9)
    canvas.drawString(54, 724, "Private well testing program")
    ((sample, results),) = content
    _boxes(canvas, 690, _form_boxes(client, report, sample))
    columns = (54, 190, 260, 345, 440, 525)
    y = 560.0
    canvas.setFont("Helvetica-Bold", 9)
    _line(canvas, y, columns, _FORM_HEADINGS)
    canvas.setFont("Helvetica", 9)
    for row in results:
        y -= 18
        canvas.setStrokeGray(0.75)
        canvas.line(54, y + 12, 558, y + 12)
        _line(canvas, y, columns, _form_row(row))
    canvas.setFont("Helvetica", 8)
    for place, text in enumerate(_LEGEND):
        canvas.drawString(54, y - 34 - 12 * place, text)
    canvas.drawString(54, y - 70, "End of report")
    canvas.save()
    return page.getvalue()


def form_csv(client: str, report: ReportRow, content: Content) -> bytes:
    """The same county form as a file: a label and its text in one cell, the legend below."""
    text = io.StringIO()
    write = csv.writer(text, lineterminator="\n").writerow
    ((sample, results),) = content
    write([f"Laboratory: {report.lab}"])
    for label, said in _form_boxes(client, report, sample):
        write([f"{label}: {said}"])
    write([])
    write(_FORM_HEADINGS)
    for row in results:
        write(_form_row(row))
    write([])
    for line in _LEGEND:
        write([line])
    return text.getvalue().encode()


def _form_row(row: ResultRow) -> tuple[str, ...]:
    return row.name, row.result, row.unit, row.reporting_limit, row.method, row.qualifier


def _form_boxes(client: str, report: ReportRow, sample: SampleRow) -> list[tuple[str, str]]:
    return [
        ("Lab number", sample.sample),
        ("Owner", client),
        ("Sampling point", sample.point),
        ("Date reported", _american(report.reported)),
        ("Collected", _american(sample.collected)),
        ("Received", _american(sample.received)),
    ]


def _boxes(canvas: Canvas, top: float, boxes: Iterable[tuple[str, str]]) -> None:
    for place, (label, text) in enumerate(boxes):
        x, y = 54 + 252 * (place % 2), top - 36 * (place // 2)
        canvas.setStrokeGray(0.6)
        canvas.rect(x, y - 12, 252, 36)
        canvas.setFont("Helvetica", 7)
        canvas.drawString(x + 5, y + 14, f"{label}:")
        canvas.setFont("Helvetica", 10)
        canvas.drawString(x + 5, y - 3, text)


def preamble_csv(client: str, report: ReportRow, content: Content) -> bytes:
    """A CSV file with lines about the report above the row of headings."""
    text = io.StringIO()
    write = csv.writer(text, lineterminator="\r\n").writerow
    write([report.lab])
    write(["Certificate of Analysis", report.number])
    write(["Client", client])
    write(["Date Reported", _american(report.reported)])
    write(["Date Received", _american(content[0][0].received)])
    write([])
    write(_CSV_HEADINGS)
    for sample, results in content:
        for row in results:
            write(
                [
                    sample.sample,
                    sample.point,
                    _american(sample.collected),
                    sample.draw,
                    row.name,
                    row.result,
                    row.unit,
                    row.reporting_limit,
                    row.method,
                    _american(row.analysed),
                    row.lab or report.lab,
                ]
            )
    return text.getvalue().encode("utf-8-sig")


def workbook_xlsx(client: str, report: ReportRow, content: Content) -> bytes:
    """A workbook with qualifiers and two limits, in which `<` is only a number format."""
    book = Workbook()
    sheet = book.active
    assert isinstance(sheet, Worksheet)  # noqa: S101  a new workbook has one sheet
    sheet.title = "Results"
    sheet.append([report.lab])
    sheet.append(["Report", report.number, "", "Client", client])
    sheet.append(["Reported", date.fromisoformat(report.reported)])
    sheet.append(["Received", _excel(content[0][0].received)])
    sheet.append([])
    sheet.append(_SHEET_HEADINGS)
    for sample, results in content:
        for row in results:
            _workbook_row(sheet, report, sample, row)
    for cell in (*sheet[1], *sheet[6]):
        cell.font = Font(bold=True)
    for column, width in zip("ABCDEFGHIJKLM", _WIDTHS, strict=True):
        sheet.column_dimensions[column].width = width
    _legend(book)
    return _settled(book)


def _workbook_row(sheet: Worksheet, report: ReportRow, sample: SampleRow, row: ResultRow) -> None:
    sheet.append(
        [
            sample.sample,
            sample.point,
            _excel(sample.collected),
            sample.draw,
            row.name,
            _figure(row.result),
            row.qualifier,
            row.unit,
            _figure(row.reporting_limit),
            _figure(row.detection_limit),
            row.method,
            _excel(row.analysed),
            row.lab or report.lab,
        ]
    )
    line = sheet.max_row
    sheet.cell(line, 6).number_format = _format(row.result)
    for column, text in ((9, row.reporting_limit), (10, row.detection_limit)):
        sheet.cell(line, column).number_format = _format(text)
    for column, text in ((3, sample.collected), (12, row.analysed)):
        timed = "T" in text
        sheet.cell(line, column).number_format = "yyyy-mm-dd hh:mm" if timed else "yyyy-mm-dd"


def _legend(book: Workbook) -> None:
    sheet = book.create_sheet("Legend")
    for line in (
        ("Qualifier", "Meaning"),
        ("U", "Not detected at the limit shown"),
        ("J", "Estimated: between MDL and RL"),
        ("H", "Held longer than the method allows"),
    ):
        sheet.append(line)


def _format(text: str) -> str:
    """The number format that shows a figure as printed; `<0.50` is 0.5 shown behind a sign."""
    places = len(text.partition(".")[2])
    digits = f"0.{'0' * places}" if places else "0"
    return f'"<"{digits}' if text.startswith("<") else digits


def _figure(text: str) -> float | str | None:
    number = text.removeprefix("<")
    return float(number) if re.fullmatch(r"\d+(\.\d+)?", number) else text or None


def _excel(text: str) -> datetime | None:
    return datetime.fromisoformat(text) if text else None


def _settled(book: Workbook) -> bytes:
    """The workbook's bytes without the clock: the library stamps the moment of saving."""
    loose, fixed = io.BytesIO(), io.BytesIO()
    book.save(loose)
    with zipfile.ZipFile(loose) as source, zipfile.ZipFile(fixed, "w") as target:
        for name in source.namelist():
            content = source.read(name)
            if name == "docProps/core.xml":
                stamp = f">{_FIXED:%Y-%m-%dT%H:%M:%SZ}</dcterms:".encode()
                content = re.sub(rb">[^<>]*</dcterms:", stamp, content)
            entry = zipfile.ZipInfo(name, _FIXED.timetuple()[:6])
            entry.compress_type = zipfile.ZIP_DEFLATED
            target.writestr(entry, content)
    return fixed.getvalue()


def _line(canvas: Canvas, y: float, columns: Sequence[float], cells: Sequence[str]) -> None:
    for x, text in zip(columns, cells, strict=True):
        canvas.drawString(x, y, text)


def _american(text: str) -> str:
    """`2024-05-03T07:15` as `05/03/2024 07:15`."""
    if not text:
        return ""
    day, _, time = text.partition("T")
    return f"{date.fromisoformat(day):%m/%d/%Y} {time}".strip()


LAYOUTS: dict[tuple[str, str], Layout] = {
    ("Mossback Water Laboratory", ".pdf"): letter_pdf,
    ("Hollin Ridge Analytical", ".csv"): preamble_csv,
    ("Quillfeather Environmental Testing", ".xlsx"): workbook_xlsx,
    ("Ashgrove County Health Bench", ".pdf"): form_pdf,
    ("Ashgrove County Health Bench", ".csv"): form_csv,
}
