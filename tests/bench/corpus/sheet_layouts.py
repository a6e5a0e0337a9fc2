"""Grids of cells: how invented labs and households lay their figures out."""

from facts import ABSENT, GERMS, Dice, Reading, Truth

Grid = tuple[list[list[str]], list[Truth]]
# Columns in each language: parameter, result, unit, limit, sampled, sampling point, method.
HEADS = (
    ("Parameter", "Result", "Units", "MCL", "Sampled", "Location", "Method"),
    ("Parámetro", "Resultado", "Unidad", "Valor límite", "Fecha de muestreo", "Punto de muestreo",
     "Método"),
    ("Paramètre", "Résultat", "Unité", "Limite de qualité", "Date de prélèvement",
     "Point de prélèvement", "Méthode"),
    ("Parameter", "Messwert", "Einheit", "Grenzwert", "Probenahmedatum", "Entnahmestelle",
     "Verfahren"),
)  # fmt: skip


MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def printed_day(day: str, language: int) -> str:
    y, m, d = day.split("-")
    return (day, f"{d}/{m}/{y}", f"{d}/{m}/{y}", f"{d}.{m}.{y}")[language]


def clear_day(dice: Dice) -> str:
    """A day whose order of day and month shows itself."""
    return dice.day()[:-2] + str(dice.throw.randint(13, 28))


def long(dice: Dice) -> Grid:
    head, day, point, panel = HEADS[dice.language], clear_day(dice), dice.point, dice.panel()
    rows = [[head[4], head[5], head[0], head[1], head[2], head[6]]]
    rows += [[printed_day(day, dice.language), point, r.name, r.text, r.unit, "M-1"] for r in panel]
    return rows, [r.on(day, point) for r in panel]


def certificate(dice: Dice) -> Grid:
    """Words above, a limit beside the result, words below."""
    head, day, point, panel = HEADS[dice.language], clear_day(dice), dice.point, dice.panel()
    rows = [
        [dice.lab],
        [],
        [f"{head[4]}:", printed_day(day, dice.language)],
        [f"{head[5]}:", point],
        [],
        [head[0], head[3], head[1], head[2]],
        *([r.name, str(dice.throw.randint(1, 90)), r.text, r.unit] for r in panel),
        [],
        ["---"],
    ]
    return rows, [r.on(day, point) for r in panel]


def wide(dice: Dice) -> Grid:
    panel = dice.panel(6)
    days = sorted({clear_day(dice) for _ in range(5)})
    rows = [
        [HEADS[dice.language][4], *(f"{r.name} ({r.unit})" if r.unit else r.name for r in panel)]
    ]
    truths = []
    for day in days:
        seen = [_again(dice, r) for r in panel]
        rows.append([printed_day(day, dice.language), *(r.text for r in seen)])
        truths += [r.on(day) for r in seen]
    return rows, truths


def wide_odd(dice: Dice) -> Grid:
    """Columns with names that no list has, among them bacteria."""
    rows, truths = wide(dice)
    rows[0] += ["Coliform bugs", "Leed (ug/L)"]
    for row, text in zip(
        rows[1:], ("PRESENT", "absent", "absent", "PRESENT", "absent"), strict=False
    ):
        row += [text, "44"]
        day = row[0]
        truths += [Truth("?", text, "", day), Truth("?", "44", "", day)]
    return rows, truths


def _again(dice: Dice, reading: Reading) -> Reading:
    if reading.key in {key for key, _ in GERMS}:
        return Reading(reading.key, reading.name, ABSENT[dice.language], "")
    text = f"{dice.throw.uniform(1, 9):.1f}"
    text = text.replace(".", ",") if dice.language else text
    return Reading(reading.key, reading.name, text, reading.unit)


def by_sample(dice: Dice) -> Grid:
    """A column for each sample, told apart by rows below the heading; one odd cell."""
    panel, day = dice.panel(7, germs=False, words=False), clear_day(dice)
    names = ["W-1", "W-2", "W-3"]
    seen = {name: [_again(dice, r) for r in panel] for name in names}
    rows = [["Test", "Units", *names], ["Date collected", "", day, day, day]]
    truths = []
    for i, r in enumerate(panel):
        cells = [seen[name][i].text for name in names]
        if i == 3:
            cells[1] = dice.throw.choice(["-", "NA", "see note", "n/a"])
        rows.append([r.name, r.unit, *cells])
        truths += [Truth(r.key, cell, r.unit, day) for cell in cells if cell[0].isdigit()]
    return rows, truths


def by_day(dice: Dice) -> Grid:
    panel = dice.panel(7, germs=False, words=False)
    days = sorted({clear_day(dice) for _ in range(4)})
    rows = [[HEADS[dice.language][0], HEADS[dice.language][2],
             *(printed_day(d, dice.language) for d in days)]]  # fmt: skip
    truths = []
    for r in panel:
        cells = [_again(dice, r) for _ in days]
        rows.append([r.name, r.unit, *(c.text for c in cells)])
        truths += [c.on(day) for c, day in zip(cells, days, strict=True)]
    return rows, truths


def with_limits(dice: Dice) -> Grid:
    """One point of the household between columns of limits, goals and last year's figures."""
    panel, day = dice.panel(6, germs=False, words=False), clear_day(dice)
    others = dice.throw.sample(["Health", "Taste", "WHO", "Goal", "Last test", "Max", "Ideal"], 2)
    rows = [["Collected", day], ["Parameter", "Units", "Barn tap", *others]]
    rows += [
        [r.name, r.unit, r.text, *(str(dice.throw.randint(1, 99)) for _ in others)] for r in panel
    ]
    return rows, [r.on(day) for r in panel]


def threshold(dice: Dice) -> Grid:
    panel, day = dice.panel(6, germs=False, words=False), clear_day(dice)
    rows = [["Collected:", day], ["Parameter", "Threshold", "Sample", "Units"]]
    rows += [[r.name, str(dice.throw.randint(100, 900)), r.text, r.unit] for r in panel]
    return rows, [r.on(day) for r in panel]


def side_by_side(dice: Dice) -> Grid:
    panel, day = dice.panel(8), clear_day(dice)
    half = (len(panel) + 1) // 2
    rows = [
        ["Collected:", day],
        ["Parameter", "Result", "Units", "", "Parameter", "Result", "Units"],
    ]
    for i in range(half):
        right = panel[half + i] if half + i < len(panel) else None
        rows.append(
            [panel[i].name, panel[i].text, panel[i].unit, "",
             *([right.name, right.text, right.unit] if right else ["", "", ""])]
        )  # fmt: skip
    return rows, [r.on(day) for r in panel]


def with_checks(dice: Dice) -> Grid:
    """The lab's own checks stand between the samples."""
    panel, day = dice.panel(5, germs=False, words=False), clear_day(dice)
    rows = [["Collected", "Sample", "Parameter", "Result", "Unit"]]
    for r in panel:
        rows.append([day, "Barn tap", r.name, r.text, r.unit])
        for check in dice.throw.sample(
            ["LCS-3", "MB-3", "Barn tap MSD", "Method blank", "Lab control sample", "Trip Blank",
             "Barn tap MS", "Matrix spike"], 2):  # fmt: skip
            rows.append([day, check, r.name, "1.9", r.unit])  # noqa: PERF401
    return rows, [r.on(day, "Barn tap") for r in panel]


def draws(dice: Dice) -> Grid:
    day = clear_day(dice)
    rows = [["Collected", "Bottle", "Parameter", "Result", "Unit"]]
    truths = []
    for key, name in (("lead", "Lead"), ("copper", "Copper")):
        for bottle, text in (("1st draw", "14"), ("2nd draw", "1.2")):
            rows.append([day, bottle, name, text, "ug/L"])
            truths.append(Truth(key, text, "ug/L", day))
    return rows, truths


def two_line_heads(dice: Dice) -> Grid:
    panel, day = dice.panel(8), clear_day(dice)
    rows = [["Date", day], [], ["", "Your", "Unit of", "Reporting"],
            ["Parameter", "result", "measure", "limit"]]  # fmt: skip
    rows += [[r.name, r.text, r.unit, "0.01"] for r in panel]
    return rows, [r.on(day) for r in panel]


def unit_above(dice: Dice) -> Grid:
    panel, day = (
        [r for r in dice.panel(9, germs=False, words=False) if r.unit == "mg/L"],
        clear_day(dice),
    )
    rows = [["Sampled", day], ["All results in mg/L"], ["Parameter", "Result"]]
    rows += [[r.name, r.text] for r in panel]
    return rows, [r.on(day) for r in panel]


def blocks(dice: Dice) -> Grid:
    rows, truths = [], []
    for _ in range(3):
        panel, day, point = dice.panel(4), clear_day(dice), dice.point
        rows += [
            ["Sample point:", point],
            ["Date collected:", day],
            ["Parameter", "Result", "Unit"],
        ]
        rows += [[r.name, r.text, r.unit] for r in panel]
        rows += [[]]
        truths += [r.on(day, point) for r in panel]
    return rows, truths


def bottled(dice: Dice) -> Grid:
    """A table below a date under a word that nobody knows."""
    panel, day = dice.panel(5, germs=False), clear_day(dice)
    rows = [["Bottled", day], ["", ""], ["Parameter", "Units", "Result"]]
    return rows + [[r.name, r.unit, r.text] for r in panel], [r.on("") for r in panel]


def years(dice: Dice) -> Grid:
    """A household's own sheet: years as columns."""
    panel = dice.panel(8, germs=False, words=False)
    first = dice.throw.randint(2008, 2016)
    rows = [["Our well"], ["", *(str(first + i) for i in range(7))]]
    truths = []
    for r in panel:
        cells = [_again(dice, r) for _ in range(7)]
        gap = dice.throw.randint(0, 6)
        rows.append(
            [
                f"{r.name} {r.unit}".strip(),
                *("" if i == gap else c.text for i, c in enumerate(cells)),
            ]
        )
        truths += [c.on(str(first + i)) for i, c in enumerate(cells) if i != gap]
    row = ["Bacteria (coliform)"]
    for i in range(7):
        word = dice.throw.choice(["ok", "neg", "none", "POS"])
        row.append(word)
        truths.append(Truth("total_coliform", word, "", str(first + i)))
    return [*rows, row], truths


def own_months(dice: Dice) -> Grid:
    """Rows by month, in a household's words."""
    panel = dice.panel(5, germs=False, words=False)
    rows, truths = [["When", *(f"{r.name} {r.unit}".strip() for r in panel), "remarks"]], []
    for year in sorted(dice.throw.sample(range(2009, 2025), 6)):
        month = dice.throw.randint(1, 12)
        name = MONTHS[month - 1]
        cells = [_again(dice, r) for r in panel]
        rows.append([f"{name} {year}", *(c.text for c in cells), "after rain"])
        truths += [c.on(f"{year}-{month:02}") for c in cells]
    return rows, truths


def misspelt(dice: Dice) -> Grid:
    """A lab that types its names."""
    day = clear_day(dice)
    pairs = [("manganese", "Mangenese"), ("conductivity", "Conductivty"), ("sulfate", "Sulfatte"),
             ("fluoride", "Flouride"), ("chloride", "Chloride"), ("iron", "Iron")]  # fmt: skip
    panel = [Reading(key, name, f"{dice.throw.uniform(1, 9):.1f}", "mg/L") for key, name in pairs]
    rows = [["Date collected", day], ["Parameter", "Result", "Units"]]
    return rows + [[r.name, r.text, r.unit] for r in panel], [r.on(day) for r in panel]
