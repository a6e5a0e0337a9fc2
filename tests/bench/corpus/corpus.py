"""Lab files of many kinds with the truth beside them, made anew each time, always the same."""

from collections.abc import Iterator

import household_layouts as households
import pages
import rare_layouts as rare
import sheet_layouts as layouts
import writers
from facts import LANGUAGES, Dice, LabFile, Truth

Grid = layouts.Grid


def files() -> Iterator[LabFile]:
    """Every file of the corpus."""
    yield from _separated()
    yield from _workbooks()
    yield from _own_sheets()
    yield from _papers()
    yield from _webs()
    yield from _mails()
    yield from _rare()
    yield from _households()


def _households() -> Iterator[LabFile]:
    """What people write themselves."""
    for again in range(2):
        for layout in ("two_wells", "titled", "answered", "several_in_a_cell", "treated",
                       "blank_heads"):  # fmt: skip
            rows, truths = getattr(households, layout)(Dice(f"household-{layout}-{again}"))
            how = ("csv", "xlsx")[again]
            content = writers.separated(rows) if how == "csv" else writers.xlsx(rows)
            yield LabFile(f"household-{layout}-{again}.{how}", "own sheets", content, tuple(truths))
        for layout in ("notebook", "letter_abroad", "mixed_diary", "short_message"):
            text, truths = getattr(households, layout)(Dice(f"household-{layout}-{again}"))
            name = f"household-{layout}-{again}.txt"
            yield LabFile(name, "mail text", text.encode(), tuple(truths))


def _rare() -> Iterator[LabFile]:
    """Layouts that are rare, and are met."""
    grids = (
        *("days_over_places", "days_across", "places_below", "checks_below", "two_results"),
        *("facts_below", "day_in_a_sentence", "before_and_after"),
    )
    own = ("year_and_month", "rough_days", "noted")
    for layout in (*grids, *own):
        for again in range(2):
            rows, truths = getattr(rare, layout)(Dice(f"rare-{layout}-{again}"))
            group = "own sheets" if layout in own else "rare tables"
            how = ("csv", "xlsx")[again]
            content = writers.separated(rows) if how == "csv" else writers.xlsx(rows)
            yield LabFile(f"rare-{layout}-{again}.{how}", group, content, tuple(truths))
    for layout in ("diary", "visits", "with_limits_behind", "sentences"):
        for again in range(2):
            text, truths = getattr(rare, layout)(Dice(f"rare-{layout}-{again}"))
            yield LabFile(f"rare-{layout}-{again}.txt", "mail text", text.encode(), tuple(truths))
    for layout in ("sentences_on_paper", "heads_in_two_lines", "places_and_days", "labelled"):
        for again in range(2):
            content, truths = getattr(pages, layout)(Dice(f"rare-{layout}-{again}"))
            yield LabFile(f"rare-{layout}-{again}.pdf", "PDF", content, tuple(truths))


def _grid(layout: str, number: int, language: int = 0) -> Grid:
    dice = Dice(f"{layout}-{number}-{LANGUAGES[language]}", language)
    return getattr(layouts, layout)(dice)


def _separated() -> Iterator[LabFile]:
    for number, layout in enumerate(
        ("long", "certificate", "wide", "by_day", "with_checks", "draws", "two_line_heads",
         "unit_above", "blocks", "bottled", "misspelt", "threshold")):  # fmt: skip
        for again in range(2):
            rows, truths = _grid(layout, again)
            separator = ",;\t|"[(number + again) % 4]
            content = writers.separated(rows, separator)
            yield LabFile(f"{layout}-{again}.csv", "CSV", content, tuple(truths))
    for layout in ("by_sample", "with_limits", "side_by_side", "wide_odd"):
        for again in range(3):
            rows, truths = _grid(layout, again)
            yield LabFile(
                f"{layout}-{again}.csv", "CSV crosstab", writers.separated(rows), tuple(truths)
            )
    for language in (1, 2, 3):
        for layout in ("long", "certificate", "wide", "by_day"):
            rows, truths = _grid(layout, 5, language)
            content = writers.separated(rows, ";", "cp1252" if layout == "long" else "utf-8")
            yield LabFile(f"{layout}-{LANGUAGES[language]}.csv", "es/fr/de", content, tuple(truths))


def _workbooks() -> Iterator[LabFile]:
    for number, layout in enumerate(
        ("long", "certificate", "wide", "by_sample", "side_by_side", "blocks", "with_limits")):  # fmt: skip  # noqa: E501
        rows, truths = _grid(layout, 20 + number)
        how = ("xlsx", "ods", "xls")[number % 3]
        content = getattr(writers, how)(rows)
        yield LabFile(f"book-{layout}.{how}", "XLSX/ODS/XLS", content, tuple(truths))
        yield LabFile(f"sheet-{layout}.xlsx", "XLSX/ODS/XLS", writers.xlsx(rows), tuple(truths))
    rows, truths = _grid("certificate", 30)
    yield LabFile("hidden-row.xlsx", "XLSX/ODS/XLS",
                  writers.xlsx([*rows[:8], ["Zinc", "5", "3", "mg/L"], *rows[8:]], hidden=(9,)),
                  (*truths, Truth("zinc", "3", "mg/L")))  # fmt: skip


def _own_sheets() -> Iterator[LabFile]:
    for again in range(3):
        for layout in ("years", "own_months"):
            rows, truths = _grid(layout, 40 + again)
            yield LabFile(
                f"{layout}-{again}.csv", "own sheets", writers.separated(rows), tuple(truths)
            )
            if again == 0:
                yield LabFile(f"{layout}.xlsx", "own sheets", writers.xlsx(rows), tuple(truths))


def _papers() -> Iterator[LabFile]:
    for layout in ("ruled", "unruled", "right_aligned", "small_print", "rotated", "two_columns",
                   "continued", "crosstab", "letter", "two_line_heads", "flags"):  # fmt: skip
        for again in range(2):
            content, truths = getattr(pages, layout)(Dice(f"pdf-{layout}-{again}"))
            yield LabFile(f"{layout}-{again}.pdf", "PDF", content, tuple(truths))
    for language in (1, 2, 3):
        content, truths = pages.unruled(Dice(f"pdf-{LANGUAGES[language]}", language))
        yield LabFile(f"report-{LANGUAGES[language]}.pdf", "PDF", content, tuple(truths))
    content, truths = pages.locked(Dice("pdf-locked"))
    yield LabFile("locked.pdf", "PDF", content, tuple(truths), "open sesame")


def _webs() -> Iterator[LabFile]:
    for number, layout in enumerate(("long", "certificate", "blocks", "side_by_side", "by_sample")):
        rows, truths = _grid(layout, 60 + number)
        kind = ("html", "xls")[number % 2]
        yield LabFile(f"page-{layout}.{kind}", "HTML", writers.web_page(rows), tuple(truths))
        rows, truths = _grid(layout, 70 + number)
        yield LabFile(f"word-{layout}.docx", "DOCX", writers.docx(rows), tuple(truths))
    for number, layout in enumerate(("long", "certificate", "threshold", "with_checks")):
        rows, truths = _grid(layout, 80 + number)
        yield LabFile(f"data-{layout}.json", "JSON/XML", writers.json_rows(rows), tuple(truths))
        if layout in {"long", "with_checks"}:
            yield LabFile(f"data-{layout}.xml", "JSON/XML", writers.xml_rows(rows), tuple(truths))


def _mails() -> Iterator[LabFile]:
    for again in range(3):
        rows, truths = _grid("certificate", 90 + again)
        text = (
            "Hello,\n\nhere are your results.\n\n" + writers.lines_of(rows) + "\n\nKind regards\n"
        )
        yield LabFile(f"mail-table-{again}.txt", "mail text", text.encode(), tuple(truths))
        rows, truths = _grid("long", 95 + again)
        day, point = rows[1][0], rows[1][1]
        text = f"Sampled: {day}\nLocation: {point}\n\n{writers.pairs_of(rows)}\n\nRegards\n"
        yield LabFile(f"mail-pairs-{again}.txt", "mail text", text.encode(), tuple(truths))
    rows, truths = _grid("long", 100)
    yield LabFile(
        "message.eml", "EML/ZIP", writers.mail("r.csv", writers.separated(rows)), tuple(truths)
    )
    rows, truths = _grid("certificate", 101)
    text = "Hello,\n\n" + writers.lines_of(rows) + "\n\nRegards\n"
    yield LabFile("words.eml", "EML/ZIP", writers.mail("", b"", text=text), tuple(truths))
    parts, every = {}, []
    for number, layout in enumerate(("long", "certificate")):
        rows, truths = _grid(layout, 110 + number)
        parts[f"lab/{layout}.csv"] = writers.separated(rows)
        every += truths
    yield LabFile("all.zip", "EML/ZIP", writers.zipped(parts), tuple(every))
