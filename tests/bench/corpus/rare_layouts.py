"""Grids and texts in layouts that are rare, and are met."""

from facts import ABSENT, GERMS, PRESENT, Dice, Reading, Truth
from sheet_layouts import MONTHS, Grid, clear_day


def _figures(dice: Dice, panel: list[Reading]) -> list[Reading]:
    return [Reading(r.key, r.name, f"{dice.throw.uniform(1, 9):.1f}", r.unit) for r in panel]


def spoken(day: str) -> str:
    y, m, d = day.split("-")
    return f"{MONTHS[int(m) - 1]} {int(d)}, {y}"


def days_over_places(dice: Dice) -> Grid:
    """Each column of results tells its place and its day, the last one is a limit."""
    panel, truths = dice.panel(7, germs=False, words=False), []
    days = [clear_day(dice) for _ in range(3)]
    heads = [f"{place} ({day})" for place, day in zip(("Kitchen", "Barn", "Well"), days)]  # noqa: B905
    rows = [["Analyte", "Unit", *heads, "Limit"]]
    seen = [_figures(dice, panel) for _ in days]
    for i, r in enumerate(panel):
        rows.append([r.name, r.unit, *(one[i].text for one in seen), "50"])
        truths += [one[i].on(day) for one, day in zip(seen, days, strict=True)]
    return rows, truths


def days_across(dice: Dice) -> Grid:
    """The first line tells the days, further ones more of each sample."""
    panel = dice.panel(6, germs=False, words=False)
    days = sorted({clear_day(dice) for _ in range(3)})
    rows = [["Sampled", *days], ["Sampled by", *("owner" for _ in days)]]
    rows += [["Lab No.", *(str(dice.throw.randint(1000, 9999)) for _ in days)]]
    truths = []
    for r in panel:
        cells = [_figures(dice, [r])[0] for _ in days]
        rows.append([f"{r.name}, {r.unit}".rstrip(", "), *(c.text for c in cells)])
        truths += [c.on(day) for c, day in zip(cells, days, strict=True)]
    return rows, truths


def places_below(dice: Dice) -> Grid:
    """One word for the results stands over several places."""
    panel, day, truths = dice.panel(6, germs=False, words=False), clear_day(dice), []
    rows = [[f"Sampled {day}"], ["Parameter", "Unit", "Result", "", "Limit"]]
    rows += [["", "", "Kitchen", "Barn", ""]]
    for r in panel:
        one, other = _figures(dice, [r, r])
        rows.append([r.name, r.unit, one.text, other.text, "50"])
        truths += [one.on(day), other.on(day)]
    return rows, truths


def checks_below(dice: Dice) -> Grid:
    """The lab's own checks stand in a table of their own below the results."""
    panel, day = dice.panel(6, words=False), clear_day(dice)
    title = dice.throw.choice(["Quality Control - Method Blank", "QC Summary", "Surrogates"])
    head = ["Analyte", "Result", "Qual", "Unit"]
    rows = [["Client sample: KITCHEN"], [f"Collected: {day}"], head]
    rows += [[r.name, r.text, "", r.unit] for r in panel]
    rows += [[title], head, *([r.name, "<0.05", "", r.unit] for r in panel[:4])]
    return rows, [r.on(day) for r in panel]


def two_results(dice: Dice) -> Grid:
    """Figures stand in one column of results, words in another."""
    panel, day = dice.panel(7), clear_day(dice)
    rows = [["Sample Date", "Analyte", "Numeric Result", "Text Result", "Units"]]
    for r in panel:
        is_figure = r.text[0].isdigit()
        rows.append([day, r.name, r.text * is_figure, r.text * (not is_figure), r.unit])
    return rows, [r.on(day) for r in panel]


def facts_below(dice: Dice) -> Grid:
    """What is told of the sample stands below its words, not beside them."""
    panel, day = dice.panel(7), clear_day(dice)
    rows = [["Client", "Sample Location", "Date Sampled", "Time"]]
    rows += [["A. Example", "Tap", day, "8:15"]]
    rows += [[], ["TEST", "METHOD", "RESULT", "UNITS", "MDL"]]
    rows += [[r.name, "M-1", r.text, r.unit, "0.01"] for r in panel]
    return rows, [r.on(day) for r in panel]


def day_in_a_sentence(dice: Dice) -> Grid:
    panel, day = dice.panel(7), clear_day(dice)
    said = dice.throw.choice(
        [
            "Thank you for the sample, which was collected on {} from the tap",
            "Results for the water of {}",
            "Analytical report Sample date {} Sample ID T-1",
            "Received: 2025-12-30 Collected: {}",
        ]
    )
    rows = [[said.format(day)], [], ["Test", "Result", "Unit"]]
    rows += [[r.name, r.text, r.unit] for r in panel]
    return rows, [r.on(day) for r in panel]


def before_and_after(dice: Dice) -> Grid:
    panel, day, truths = dice.panel(6, germs=False, words=False), clear_day(dice), []
    rows = [["Collected", day], ["Test", "Before filter", "After filter", "Units"]]
    for r in panel:
        one, other = _figures(dice, [r, r])
        rows.append([r.name, one.text, other.text, r.unit])
        truths += [one.on(day), other.on(day)]
    return rows, truths


def year_and_month(dice: Dice) -> Grid:
    rows, truths = [["Year", "Month", "Nitrate-N (mg/L)", "Coliform", "Notes"]], []
    for year in range(2012, 2019):
        month = dice.throw.randint(1, 12)
        text, word = f"{dice.throw.uniform(1, 9):.1f}", dice.throw.choice(["neg", "pos"])
        named = dice.throw.choice([str(month), MONTHS[month - 1]])
        rows.append([str(year), named, text, word, "dry summer"])
        day = f"{year}-{month:02}"
        truths += [Truth("nitrate", text, "mg/L", day), Truth("total_coliform", word, "", day)]
    return rows, truths


def rough_days(dice: Dice) -> Grid:
    rows, truths = [["When", "Nitrate-N (mg/L)", "Hardness (gpg)"]], []
    for when, day in (("spring 2015", "2015"), ("~2016", "2016"), ("about May 2017", "2017-05"),
                      ("early 2018", "2018"), ("2019", "2019"), ("6/2020", "2020-06")):  # fmt: skip
        text, hard = f"{dice.throw.uniform(1, 9):.1f}", str(dice.throw.randint(5, 20))
        rows.append([when, text, hard])
        truths += [Truth("nitrate", text, "mg/L", day), Truth("hardness", hard, "gpg", day)]
    return rows, truths


def noted(dice: Dice) -> Grid:
    """A household's notes behind its figures, and a row of them."""
    throw = dice.throw
    rows, truths = [["", "2018", "2019", "2020", "2021"]], []
    for key, name in (("nitrate", "Nitrate-N (limit 10 mg/L)"), ("lead", "Lead (max 15 ug/L)")):
        row = [name]
        for year in rows[0][1:]:
            text = f"{throw.uniform(1, 9):.1f}" + throw.choice(["", " (high)", " ok", "*"])
            row.append(text)
            truths.append(Truth(key, text.strip("*"), "", year))
        rows.append(row)
    return [*rows, ["Notes", "ok", "new pump", "ok", "dry"]], truths


def diary(dice: Dice) -> tuple[str, list[Truth]]:
    """A day over each visit."""
    lines, truths = ["Well diary", ""], []
    for year in range(2015, 2019):
        day = f"{year}{clear_day(dice)[4:]}"
        lines.append(spoken(day))
        for r in dice.panel(3, germs=False, words=False):
            if r.unit:
                lines.append(f"  {r.name} {r.text} {r.unit}")
                truths.append(r.on(day))
        lines += ["  Total coliform absent", ""]
        truths.append(Truth("total_coliform", "absent", "", day))
    return "\n".join(lines), truths


def visits(dice: Dice) -> tuple[str, list[Truth]]:
    """A line for each visit."""
    lines, truths = ["WELL TESTS"], []
    for year in range(2014, 2019):
        nitrate, iron = (f"{dice.throw.uniform(1, 9):.1f}" for _ in range(2))
        lines.append(f"{year}: nitrate-N {nitrate} mg/L, iron {iron} mg/L, coliform negative")
        truths += [Truth("nitrate", nitrate, "mg/L", str(year)),
                   Truth("iron", iron, "mg/L", str(year)),
                   Truth("total_coliform", "negative", "", str(year))]  # fmt: skip
    return "\n".join(lines), truths


def with_limits_behind(dice: Dice) -> tuple[str, list[Truth]]:
    panel, day = dice.panel(6, germs=False, words=False), clear_day(dice)
    panel = [r for r in panel if r.unit]
    lines = [f"- {r.name} = {r.text} {r.unit} (limit 50 {r.unit})" for r in panel]
    return f"Hi,\nsample taken on {spoken(day)}.\n" + "\n".join(lines), [r.on(day) for r in panel]


def sentences(dice: Dice) -> tuple[str, list[Truth]]:
    """A letter in prose, of which every figure is asked about."""
    panel, day = dice.panel(4, germs=False, words=False), clear_day(dice)
    panel = [
        Reading(r.key, r.name, r.text.replace("<", "") or "1", r.unit) for r in panel if r.unit
    ]
    said = " ".join(f"{r.name} was {r.text} {r.unit}." for r in panel)
    (key, names), word = GERMS[0], dice.throw.choice([ABSENT[0], PRESENT[0]]).lower()
    text = (
        f"Dear customer,\n\nthe sample that was collected on {spoken(day)} is done. {said}\n"
        f"{names[0]} was {word}.\n\nRegards\n"
    )
    return text, [*(r.on(day) for r in panel), Truth(key, word, "", day)]
