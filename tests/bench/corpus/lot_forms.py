"""Rows of cells as the kinds of files that labs send, with choices of their own."""

import email.message
import io
import json
from datetime import date, datetime, time
from xml.etree import ElementTree as ET

import writers
from facts import Truth
from lot_words import Lot, Sample
from writers import Rows

Made = tuple[bytes, list[Truth]]


def comma(lot: Lot, rows: Rows) -> bytes:
    mark = lot.shape.choice(("utf-8", "utf-8", "utf-8-sig", "cp1252"))
    return writers.separated(rows, ",", mark if _fits(rows, mark) else "utf-8")


def semicolon(lot: Lot, rows: Rows) -> bytes:
    mark = lot.shape.choice(("utf-8", "utf-8-sig", "cp1252"))
    return writers.separated(rows, ";", mark if _fits(rows, mark) else "utf-8")


def _fits(rows: Rows, encoding: str) -> bool:
    try:
        "".join(cell for row in rows for cell in row).encode(encoding)
    except UnicodeEncodeError:
        return False
    return True


def tab(_lot: Lot, rows: Rows) -> bytes:
    return writers.separated(rows, "\t")


def pipe(_lot: Lot, rows: Rows) -> bytes:
    return writers.separated(rows, "|")


def workbook(lot: Lot, rows: Rows, *, hidden: tuple[int, ...] = (), names: tuple[str, ...] = (),
             more: tuple[Rows, ...] = ()) -> bytes:  # fmt: skip
    """With real days and numbers in some layouts; `more` are further sheets."""
    import openpyxl

    has_days = lot.odds(0.5)
    book = openpyxl.Workbook()
    for at, one in enumerate((rows, *more)):
        sheet = book.active if not at else book.create_sheet()
        sheet.title = names[at] if names else ("Results", "Sheet1", "Data")[lot.shape.randrange(3)]
        for row in one:
            sheet.append([_cell(cell, has_days=has_days) for cell in row])
        for number in () if at else hidden:
            sheet.row_dimensions[number].hidden = True
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def _cell(cell: str, *, has_days: bool) -> str | float | datetime | None:
    if has_days:
        try:
            return datetime.combine(date.fromisoformat(cell), time())
        except ValueError:
            pass
    try:
        return int(cell) if cell.isdecimal() else float(cell)
    except ValueError:
        return cell or None


def old_workbook(_lot: Lot, rows: Rows) -> bytes:
    return writers.xls(rows)


def open_sheet(_lot: Lot, rows: Rows) -> bytes:
    return writers.ods(rows)


def page(_lot: Lot, rows: Rows) -> bytes:
    return writers.web_page(rows)


def paper(_lot: Lot, rows: Rows) -> bytes:
    return writers.docx(rows)


def archive(lot: Lot, rows: Rows) -> bytes:
    name, make = lot.shape.choice((("results.csv", comma), ("results.xlsx", workbook)))
    return writers.zipped({name: make(lot, rows), "readme.txt": b"Your results.\n"})


def letter_with_file(lot: Lot, rows: Rows) -> bytes:
    name, make = lot.shape.choice((("results.csv", comma), ("report.xlsx", workbook),
                                   ("report.html", page)))  # fmt: skip
    return message(lot, "Dear customer,\n\nplease find your results attached.\n",
                   attached=(name, make(lot, rows)))  # fmt: skip


def message(lot: Lot, text: str, *, day: str = "", attached: tuple[str, bytes] | None = None,
            is_page: bool = False) -> bytes:  # fmt: skip
    """A mail sent some days after `day`."""
    sent = datetime.fromisoformat(lot.later(day or "2025-12-04", 11) + "T10:24:00")
    made = email.message.EmailMessage()
    made["From"], made["To"] = "results@example.org", "household@example.org"
    made["Subject"] = lot.shape.choice(("Your water test", "Results", "Water analysis", "Well"))
    made["Date"] = sent.strftime("%a, %d %b %Y %H:%M:%S +0000")
    made.set_content(text, subtype="html" if is_page else "plain")
    if attached:
        made.add_attachment(attached[1], maintype="application", subtype="octet-stream",
                            filename=attached[0])  # fmt: skip
    return made.as_bytes()


def _samples(lot: Lot, number: int) -> list[Sample]:
    days = lot.days(number)
    first = lot.sample(lot.throw.randint(6, 10), day=days[0])
    return [first] + [lot.sample(like=first, day=day) for day in days[1:]]


def _words(lot: Lot) -> dict[str, str]:
    """Keys of a file for machines."""
    choose = lot.shape.choice
    return {
        "samples": choose(("samples", "Samples")),
        "day": choose(("collected", "sampleDate", "collection_date", "dateCollected")),
        "point": choose(("location", "samplePoint", "site")),
        "number": choose(("sampleId", "lab_id", "sampleNumber")),
        "results": choose(("results", "analytes", "measurements")),
        "name": choose(("analyte", "parameter", "name", "test")),
        "result": choose(("value", "result")),
        "unit": choose(("unit", "units")),
        "limit": choose(("rl", "reportingLimit", "mrl")),
    }


def records(lot: Lot) -> Made:
    """JSON: samples with their results below them."""
    words, samples = _words(lot), _samples(lot, lot.shape.choice((1, 2, 2)))
    has_numbers, by_name = lot.odds(0.5), lot.odds(0.3)

    def value(text: str) -> str | float:
        return float(text) if has_numbers and text.replace(".", "", 1).isdecimal() else text

    made = []
    for one in samples:
        about = {words[s]: getattr(one, s) for s in ("number", "day", "point")}
        if by_name:
            lines = {r.name: {words["result"]: value(r.text), words["unit"]: r.unit}
                     for r in one.lines}  # fmt: skip
        else:
            lines = [{words["name"]: r.name, words["result"]: value(r.text), words["unit"]: r.unit,
                      words["limit"]: r.limit} for r in one.lines]  # fmt: skip
        made.append({**about, words["results"]: lines})
    whole = {"laboratory": "Sandle Creek Analytics", words["samples"]: made}
    return json.dumps(whole if len(made) > 1 or lot.odds(0.5) else made[0], ensure_ascii=False,
                      indent=lot.shape.choice((None, 2))).encode(), _truths(samples)  # fmt: skip


def flat_records(lot: Lot) -> Made:
    """JSON: a list in which each reading says all."""
    words, samples = _words(lot), _samples(lot, 2)
    made = [
        {words["number"]: one.number, words["day"]: f"{one.day}T09:15:00",
         words["point"]: one.point,
         words["name"]: r.name, words["result"]: r.text, words["unit"]: r.unit}
        for one in samples for r in one.lines
    ]  # fmt: skip
    return json.dumps(made, ensure_ascii=False).encode(), _truths(samples)


def elements(lot: Lot) -> Made:
    """XML: samples with results below them, in elements or in attributes."""
    words, samples = _words(lot), _samples(lot, lot.shape.choice((1, 2)))
    in_attributes, facts_too = lot.odds(0.5), lot.odds(0.5)
    root = ET.Element(lot.shape.choice(("Report", "labReport", "WaterTest")))
    ET.SubElement(root, "laboratory").text = "Pellworth Water Testing"
    for one in samples:
        node = ET.SubElement(root, "sample")
        for slot in ("number", "day", "point"):
            if facts_too:
                node.set(words[slot], getattr(one, slot))
            else:
                ET.SubElement(node, words[slot]).text = getattr(one, slot)
        for line in one.lines:
            result = ET.SubElement(node, "result" if words["result"] != "result" else "reading")
            for slot, text in (("name", line.name), ("result", line.text), ("unit", line.unit)):
                if in_attributes:
                    result.set(words[slot], text)
                else:
                    ET.SubElement(result, words[slot]).text = text
    return ET.tostring(root, encoding="utf-8", xml_declaration=True), _truths(samples)


def _truths(samples: list[Sample]) -> list[Truth]:
    return [truth for one in samples for truth in one.truths()]


def cover_and_results(lot: Lot) -> Made:
    """A workbook whose first sheet tells of the order and whose second holds the results."""
    from lot_tables import bare

    rows, truths = bare(lot)
    cover = [["Pellworth Water Testing"], ["Client", "J. Pennifold"], ["Samples received", "1"],
             ["Invoice", "Paid"]]  # fmt: skip
    return workbook(lot, cover, names=("Cover", "Results"), more=(rows,)), truths


def hidden_checks(lot: Lot) -> Made:
    """A workbook in which the rows of the lab's checks are hidden."""
    from lot_tables import with_checks

    rows, truths = with_checks(lot)
    hidden = tuple(range(len(truths) + 2, len(rows) + 1))
    return workbook(lot, rows, hidden=hidden), truths
