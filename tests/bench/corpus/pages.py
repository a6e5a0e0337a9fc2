"""PDFs with text, drawn by reportlab: ruled and unruled, turned, in two columns, over pages."""

import io

from facts import Dice, Truth
from rare_layouts import days_over_places, sentences
from reportlab.lib.pagesizes import A4, landscape
from reportlab.pdfgen.canvas import Canvas
from sheet_layouts import HEADS, clear_day, printed_day

Paper = tuple[bytes, list[Truth]]


def _canvas(**how: object) -> tuple[io.BytesIO, Canvas]:
    file = io.BytesIO()
    return file, Canvas(file, pagesize=A4, invariant=1, **how)


def _table(
    canvas: Canvas, rows: list[list[str]], edges: list[float], top: float, *, ruled: bool = False,
    right: tuple[int, ...] = (), step: float = 18,
) -> float:  # fmt: skip
    y = top
    for row in rows:
        for i, cell in enumerate(row):
            if i in right:
                canvas.drawRightString(edges[i + 1] - 8, y, cell)
            else:
                canvas.drawString(edges[i] + 3, y, cell)
        if ruled:
            canvas.line(edges[0], y - 5, edges[-1], y - 5)
        y -= step
    if ruled:
        for edge in edges:
            canvas.line(edge, top + step - 5, edge, y + step - 5)
    return y


def _report(dice: Dice, *, ruled: bool = False, password: str = "", turned: bool = False,
            limits: bool = True, right: tuple[int, ...] = (), size: float = 10) -> Paper:  # fmt: skip  # noqa: E501
    head, day, point, panel = HEADS[dice.language], clear_day(dice), dice.point, dice.panel(9)
    how: dict[str, object] = {}
    if password:
        from reportlab.lib.pdfencrypt import StandardEncryption

        how["encrypt"] = StandardEncryption(password, canPrint=1)
    file, canvas = _canvas(**how)
    if turned:
        canvas.setPageSize(landscape(A4))
        canvas.setPageRotation(90)
    canvas.setFont("Helvetica-Bold", 14)
    canvas.drawString(60, 540 if turned else 780, dice.lab)
    canvas.setFont("Helvetica", size)
    top = 500 if turned else 740
    canvas.drawString(60, top, f"{head[4]}: {printed_day(day, dice.language)}")
    canvas.drawString(330, top, f"{head[5]}: {point}")
    columns = [head[0], head[1], head[2], *([head[3]] if limits else []), head[6]]
    rows = [columns] + [
        [r.name, r.text, r.unit, *([str(dice.throw.randint(2, 90))] if limits else []), "M 12.1"]
        for r in panel
    ]
    edges = [60, 200, 290, 370, 450, 540][: len(columns) + 1]
    y = _table(canvas, rows, edges, top - 40, ruled=ruled, right=right)
    canvas.setFont("Helvetica", 7)
    canvas.drawString(
        60, y - 20, "ND = not detected. Results relate to the sample as received. Page 1 of 1"
    )
    canvas.save()
    return file.getvalue(), [r.on(day, point) for r in panel]


def ruled(dice: Dice) -> Paper:
    return _report(dice, ruled=True)


def unruled(dice: Dice) -> Paper:
    return _report(dice)


def right_aligned(dice: Dice) -> Paper:
    return _report(dice, right=(1, 3))


def small_print(dice: Dice) -> Paper:
    return _report(dice, size=7, limits=False)


def rotated(dice: Dice) -> Paper:
    return _report(dice, turned=True)


def locked(dice: Dice) -> Paper:
    return _report(dice, password="open sesame")  # noqa: S106


def two_columns(dice: Dice) -> Paper:
    panel, day = dice.panel(10), clear_day(dice)
    file, canvas = _canvas()
    canvas.setFont("Helvetica", 9)
    canvas.drawString(50, 780, f"Date collected: {day}")
    half = len(panel) // 2
    for left, part in ((50, panel[:half]), (310, panel[half:])):
        rows = [["Parameter", "Result", "Units"]] + [[r.name, r.text, r.unit] for r in part]
        _table(canvas, rows, [left, left + 110, left + 180, left + 250], 740)
    canvas.save()
    return file.getvalue(), [r.on(day) for r in panel]


def continued(dice: Dice) -> Paper:
    """A table over two pages, the heading only on the first."""
    panel, day = dice.panel(14), clear_day(dice)
    file, canvas = _canvas()
    edges = [60, 220, 320, 400, 520]
    rows = [["Parameter", "Result", "Units", "Method"]]
    rows += [[r.name, r.text, r.unit, "EPA 200.8"] for r in panel]
    canvas.drawString(60, 790, f"Sampled {day}")
    _table(canvas, rows[:9], edges, 750)
    canvas.drawString(60, 40, "Page 1 of 2")
    canvas.showPage()
    canvas.drawString(60, 800, "Report 77-12, continued")
    _table(canvas, rows[9:], edges, 760)
    canvas.drawString(60, 40, "Page 2 of 2")
    canvas.save()
    return file.getvalue(), [r.on(day) for r in panel]


def crosstab(dice: Dice) -> Paper:
    panel = dice.panel(8, germs=False, words=False)
    days = sorted({clear_day(dice) for _ in range(3)})
    file, canvas = _canvas()
    canvas.setFont("Helvetica", 9)
    rows, truths = [["Parameter", "Unit", *days]], []
    for r in panel:
        cells = [f"{dice.throw.uniform(1, 9):.1f}" for _ in days]
        rows.append([r.name, r.unit, *cells])
        truths += [Truth(r.key, c, r.unit, d) for c, d in zip(cells, days, strict=True)]
    _table(canvas, rows, [60, 170, 240, 320, 400, 480][: len(days) + 3], 760)
    canvas.save()
    return file.getvalue(), truths


def letter(dice: Dice) -> Paper:
    """A letter that tells a few figures in lines of its own."""
    panel, day = dice.panel(4, germs=True, words=False), clear_day(dice)
    file, canvas = _canvas()
    y = 780
    for line in [dice.lab, "", "Dear well owner,", "",
                 f"Sample collected: {day}", "We found the following in your water:", "",
                 *(f"{r.name}: {r.text} {r.unit}".strip() for r in panel), "",
                 "Please call us with any question.", "Yours sincerely"]:  # fmt: skip
        canvas.drawString(70, y, line)
        y -= 16
    canvas.save()
    return file.getvalue(), [r.on(day) for r in panel]


def two_line_heads(dice: Dice) -> Paper:
    panel, day = dice.panel(8), clear_day(dice)
    file, canvas = _canvas()
    canvas.drawString(60, 790, f"Date sampled: {day}")
    rows = [["", "Sample", "", "Reporting"], ["Analyte", "result", "Units", "limit"]]
    rows += [[r.name, r.text, r.unit, "0.01"] for r in panel]
    _table(canvas, rows, [60, 220, 310, 400, 500], 750, step=14)
    canvas.save()
    return file.getvalue(), [r.on(day) for r in panel]


def flags(dice: Dice) -> Paper:
    """Footnoted qualifiers beside the figure, units in the heading."""
    panel = [r for r in dice.panel(10, germs=False, words=False) if r.unit == "mg/L"]
    day = clear_day(dice)
    file, canvas = _canvas()
    canvas.drawString(60, 790, f"Sampled on {day}")
    rows = [["Compound", "Result (mg/L)", "Qual", "RL"]]
    rows += [[r.name, r.text, dice.throw.choice(["", "J", "B"]), "0.05"] for r in panel]
    _table(canvas, rows, [60, 220, 330, 400, 470], 750)
    canvas.drawString(60, 500, "J: estimated. B: found in the blank.")
    canvas.save()
    return file.getvalue(), [r.on(day) for r in panel]


def sentences_on_paper(dice: Dice) -> Paper:
    text, truths = sentences(dice)
    file, canvas = _canvas()
    y = 780
    for line in text.split("\n"):
        words = line.split()
        for start in range(0, max(len(words), 1), 12):
            canvas.drawString(60, y, " ".join(words[start : start + 12]))
            y -= 15
    canvas.save()
    return file.getvalue(), truths


def heads_in_two_lines(dice: Dice) -> Paper:
    """A row for each sample; names stand over their units, the other heads half way down."""
    panel = [r for r in dice.panel(6, germs=False, words=False) if r.unit][:4]
    file, canvas = _canvas()
    edges = [60, 160, 250, 330, 410, 490, 570]
    rows, truths = [], []
    for point in ("Kitchen", "Barn", "Well"):
        day = clear_day(dice)
        cells = [f"{dice.throw.uniform(1, 9):.1f}" for _ in panel]
        rows.append([point, day, *cells])
        truths += [Truth(r.key, c, r.unit, day) for r, c in zip(panel, cells, strict=True)]
    canvas.setFont("Helvetica", 9)
    _table(canvas, [["", "", *(r.name for r in panel)]], edges, 752)
    _table(canvas, [["Location", "Collected", *(r.unit for r in panel)]], edges, 740)
    _table(canvas, rows, edges, 720)
    canvas.save()
    return file.getvalue(), truths


def places_and_days(dice: Dice) -> Paper:
    rows, truths = days_over_places(dice)
    file, canvas = _canvas()
    canvas.setFont("Helvetica", 8)
    _table(canvas, rows, [50, 140, 190, 290, 390, 490, 560], 760, ruled=True)
    canvas.save()
    return file.getvalue(), truths


def labelled(dice: Dice) -> Paper:
    """Each line repeats the words before its values."""
    panel, day = dice.panel(7), clear_day(dice)
    file, canvas = _canvas()
    canvas.drawString(60, 780, f"Date collected: {day}")
    y = 740
    for r in panel:
        canvas.drawString(60, y, f"Parameter: {r.name}")
        canvas.drawString(270, y, f"Result: {r.text}")
        canvas.drawString(380, y, f"Units: {r.unit}")
        y -= 16
    canvas.save()
    return file.getvalue(), [r.on(day) for r in panel]
