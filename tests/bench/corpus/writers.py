"""A grid of cells as a file of each kind."""

import csv
import email.message
import html
import io
import json
import zipfile
from xml.etree import ElementTree as ET

Rows = list[list[str]]


def separated(rows: Rows, separator: str = ",", encoding: str = "utf-8") -> bytes:
    text = io.StringIO()
    csv.writer(text, delimiter=separator, lineterminator="\r\n").writerows(rows)
    return text.getvalue().encode(encoding)


def _value(cell: str) -> str | float:
    try:
        return float(cell) if len(cell) < 12 else cell
    except ValueError:
        return cell


def xlsx(rows: Rows, *, merged: tuple[str, ...] = (), hidden: tuple[int, ...] = ()) -> bytes:
    import openpyxl

    book = openpyxl.Workbook()
    sheet = book.active
    for row in rows:
        sheet.append([_value(cell) for cell in row])
    for area in merged:
        sheet.merge_cells(area)
    for number in hidden:
        sheet.row_dimensions[number].hidden = True
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def xls(rows: Rows) -> bytes:
    import xlwt

    book = xlwt.Workbook()
    sheet = book.add_sheet("Results")
    for r, row in enumerate(rows):
        for c, cell in enumerate(row):
            sheet.write(r, c, _value(cell))
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def ods(rows: Rows) -> bytes:
    cells = "".join(
        "<table:table-row>"
        + "".join(
            '<table:table-cell office:value-type="string">'
            f"<text:p>{html.escape(cell)}</text:p></table:table-cell>"
            for cell in row
        )
        + "</table:table-row>"
        for row in rows
    )
    content = (
        '<?xml version="1.0" encoding="UTF-8"?><office:document-content '
        'xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
        'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
        'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" office:version="1.3">'
        f'<office:body><office:spreadsheet><table:table table:name="Results">{cells}'
        "</table:table></office:spreadsheet></office:body></office:document-content>"
    )
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    manifest = (
        '<?xml version="1.0" encoding="UTF-8"?><manifest:manifest xmlns:manifest='
        '"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"><manifest:file-entry '
        f'manifest:full-path="/" manifest:media-type="{kind}"/><manifest:file-entry '
        'manifest:full-path="content.xml" manifest:media-type="text/xml"/></manifest:manifest>'
    )
    return zipped({"mimetype": kind.encode(), "content.xml": content.encode(),
                   "META-INF/manifest.xml": manifest.encode()})  # fmt: skip


def zipped(parts: dict[str, bytes]) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            archive.writestr(zipfile.ZipInfo(name, (2025, 1, 1, 0, 0, 0)), content)
    return file.getvalue()


def web_page(rows: Rows) -> bytes:
    """Lines of one cell are paragraphs, the others rows of tables."""
    parts, table = [], []
    for row in [*rows, []]:
        if len([cell for cell in row if cell]) > 1:
            mark = "td"
            table.append("".join(f"<{mark}>{html.escape(cell)}</{mark}>" for cell in row))
            continue
        if table:
            parts.append("<table>" + "".join(f"<tr>{line}</tr>" for line in table) + "</table>")
            table = []
        parts += [f"<p>{html.escape(cell)}</p>" for cell in row if cell]
    body = "".join(parts)
    return (
        "<!DOCTYPE html><html><head><meta charset='utf-8'><title>Report</title><style>td{}</style>"
        f"<script>var a = 5 < 6;</script></head><body><nav>Home &nbsp; About</nav>{body}</body></html>"  # noqa: E501
    ).encode()


def json_rows(rows: Rows) -> bytes:
    """A list of records, the facts above the table beside it."""
    start = next(i for i, row in enumerate(rows) if len([c for c in row if c]) > 2)
    above = {row[0].strip(":"): row[1] for row in rows[:start] if len(row) > 1 and row[1]}
    records = [dict(zip(rows[start], row, strict=False)) for row in rows[start + 1 :] if any(row)]
    records = [record for record in records if len(record) > 1]
    return json.dumps({"report": above, "results": records}, ensure_ascii=False, indent=1).encode()


def xml_rows(rows: Rows) -> bytes:
    root = ET.Element("labReport")
    names = [
        "".join(part.capitalize() for part in cell.split()) or f"c{i}"
        for i, cell in enumerate(rows[0])
    ]
    for row in rows[1:]:
        one = ET.SubElement(root, "result")
        for name, cell in zip(names, row, strict=False):
            ET.SubElement(one, name).text = cell
    return ET.tostring(root, encoding="utf-8", xml_declaration=True)


def docx(rows: Rows) -> bytes:
    space = 'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"'

    def paragraph(text: str) -> str:
        return f"<w:p><w:r><w:t>{html.escape(text)}</w:t></w:r></w:p>"

    parts, table = [], []
    for row in [*rows, []]:
        if len([cell for cell in row if cell]) > 1:
            cells = "".join(f"<w:tc>{paragraph(cell)}</w:tc>" for cell in row)
            table.append(f"<w:tr>{cells}</w:tr>")
            continue
        if table:
            parts.append(f"<w:tbl>{''.join(table)}</w:tbl>")
            table = []
        parts += [paragraph(cell) for cell in row if cell]
    body = f'<?xml version="1.0" encoding="UTF-8"?><w:document {space}><w:body>{"".join(parts)}</w:body></w:document>'  # noqa: E501
    types = '<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>'
    return zipped({"[Content_Types].xml": types.encode(), "word/document.xml": body.encode()})


def mail(
    name: str, content: bytes, *, text: str = "Dear customer,\nthe results are attached.\n"
) -> bytes:
    message = email.message.EmailMessage()
    message["From"], message["To"] = "lab@example.org", "well@example.org"
    message["Subject"], message["Date"] = "Results", "Tue, 03 Jun 2025 10:00:00 +0000"
    message.set_content(text)
    if content:
        message.add_attachment(
            content, maintype="application", subtype="octet-stream", filename=name
        )
    return message.as_bytes()


def lines_of(rows: Rows, gap: str = "    ") -> str:
    """A table as people type it into a mail: columns parted by runs of blanks."""
    widths = [
        max(len(row[i]) if i < len(row) else 0 for row in rows) for i in range(max(map(len, rows)))
    ]
    return "\n".join(
        gap.join(cell.ljust(width) for cell, width in zip(row, widths, strict=False)).rstrip()
        for row in rows
    )


def pairs_of(rows: Rows) -> str:
    """Name: figure unit, a line each."""
    head = rows[0]
    name, result, unit = (next(i for i, cell in enumerate(head) if cell in names) for names in (
        ("Parameter",), ("Result",), ("Units", "Unit")))  # fmt: skip
    return "\n".join(f"{row[name]}: {row[result]} {row[unit]}".strip() for row in rows[1:])
