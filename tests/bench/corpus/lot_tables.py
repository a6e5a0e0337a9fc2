"""Tables of labs put together by lot: rows of cells with the truth beside them.

A row of one cell is a line of text; a row of several belongs to a table.
"""

from collections.abc import Callable
from dataclasses import replace
from statistics import mean

from facts import Truth
from lot_words import LABS, PEOPLE, POINTS, REMARKS, STREETS, TITLES, Line, Lot, Sample
from writers import Rows

Made = tuple[Rows, list[Truth]]
_ORDERS = (
    ("name", "result", "unit", "limit", "standard", "method", "qualifier"),
    ("name", "result", "qualifier", "unit", "limit", "method", "standard"),
    ("name", "unit", "result", "limit", "standard", "method", "qualifier"),
    ("method", "name", "result", "unit", "qualifier", "limit", "standard"),
    ("name", "method", "limit", "result", "unit", "qualifier", "standard"),
    ("name", "standard", "unit", "result", "limit", "qualifier", "method"),
    ("result", "unit", "name", "method", "limit", "standard", "qualifier"),
)
_SHARES = {"limit": 0.5, "standard": 0.4, "method": 0.5, "qualifier": 0.25}
_CHECKS = (("Method Blank", "MB-{n}"), ("LCS", "LCS-{n}"), ("Matrix Spike", "MS-{n}"),
           ("Lab Control Sample", "LCS-{n}"), ("Sample Duplicate", "DUP-{n}"))  # fmt: skip
_STATISTICS = (("Minimum", "Maximum", "Average"), ("Mínimo", "Máximo", "Media"),
               ("Minimum", "Maximum", "Moyenne"), ("Minimum", "Maximum", "Mittelwert"))  # fmt: skip


class Table:
    """Which columns a layout has, in which order and by which words."""

    def __init__(self, lot: Lot, *, about: tuple[str, ...] = (), unit: str = "") -> None:
        self.lot = lot
        self.unit_place = unit or lot.shape.choice(("column",) * 4 + ("behind", "in name"))
        kept = [
            slot
            for slot in lot.shape.choice(_ORDERS)
            if lot.odds(_SHARES.get(slot, 1)) and (slot != "unit" or self.unit_place == "column")
        ]
        kept += ["basis"] if lot.odds(0.12) and not lot.language else []
        tail = [slot for slot in ("analysed", "analyst", "remark") if lot.odds(0.2)]
        is_first = lot.odds(0.75)
        self.slots = [*about, *kept, *tail] if is_first else [*kept, *about, *tail]
        self.words = {slot: lot.head(slot) for slot in self.slots}
        self.style = lot.style
        self.with_hours = lot.odds(0.25)
        self.upper = lot.odds(0.12)
        self.group_rows = lot.odds(0.2) and not about
        self.sign_apart = lot.odds(0.5)

    def heads(self) -> list[str]:
        words = list(self.words.values())
        return [word.upper() for word in words] if self.upper else words

    def row(self, sample: Sample, line: Line) -> list[str]:
        return [self._cell(slot, sample, line) for slot in self.slots]

    def _cell(self, slot: str, sample: Sample, line: Line) -> str:
        if slot == "result":
            text = self._alone(line) if self.parted else line.text
            return f"{text} {line.unit}".strip() if self.unit_place == "behind" else text
        if slot == "name" and self.unit_place == "in name" and line.unit:
            return f"{line.name} ({line.unit})"
        if slot in {"limit", "standard", "method", "unit", "name", "basis"}:
            return getattr(line, slot)
        return self.mark(line) if slot == "qualifier" else self._about(slot, sample)

    def _about(self, slot: str, sample: Sample) -> str:
        """What a row says of the sample or of the work in the lab."""
        lot = self.lot
        if slot == "day":
            return lot.printed(sample.day, hour=sample.hour if self.with_hours else "")
        if slot in {"analysed", "received"}:
            return lot.printed(lot.later(sample.day, 1 if slot == "received" else 3))
        thrown = {
            "analyst": ("RT", "MH", "JP"),
            "remark": ("", "", "", "OK"),
            "matrix": (("Drinking Water", "Agua potable", "Eau", "Trinkwasser")[lot.language],),
        }
        return lot.throw.choice(thrown[slot]) if slot in thrown else getattr(sample, slot)

    @property
    def parted(self) -> bool:
        """Whether the lab's letters stand in a column of their own."""
        return "qualifier" in self.slots

    def _alone(self, line: Line) -> str:
        mark = self.mark(line)
        return line.text.removeprefix(mark).strip() if mark in {"<", ">"} else (
            line.text.removesuffix(f" {mark}"))  # fmt: skip

    def mark(self, line: Line) -> str:
        """What stands in the column for the lab's letters: a letter, or the sign of the figure."""
        if self.sign_apart and line.text[:1] in {"<", ">"}:
            return line.text[0]
        last = line.text.rpartition(" ")[2]
        return last if last in {"J", "U"} and " " in line.text else ""

    def block(self, sample: Sample) -> Rows:
        """The head and a row for each reading, perhaps under lines for the groups."""
        rows, group = [self.heads()], ""
        lines = sorted(sample.lines, key=lambda r: r.group) if self.group_rows else sample.lines
        for line in lines:
            if self.group_rows and line.group != group:
                group = line.group
                rows.append([group])
            rows.append(self.row(sample, line))
        return rows


def facts(lot: Lot, sample: Sample, slots: tuple[str, ...]) -> Rows:
    """What stands above about the sample: a label and its value in one cell or in two."""
    values = {
        "client": lot.throw.choice(PEOPLE),
        "received": lot.printed(lot.later(sample.day, 1)),
        "reported": lot.printed(lot.later(sample.day, 9)),
        "day": lot.printed(sample.day, hour=sample.hour if lot.odds(0.3) else ""),
        "point": sample.point,
        "number": sample.number,
    }
    kind = lot.shape.choice(("one", "two", "two", "four", "line"))
    pairs = [(lot.head(slot), values[slot]) for slot in slots]
    if kind == "one":
        return [[f"{label}: {value}"] for label, value in pairs]
    if kind == "line":
        return [["    ".join(f"{label}: {value}" for label, value in pairs)]] if pairs else []
    mark = lot.shape.choice(("", ":"))
    if kind == "two":
        return [[label + mark, value] for label, value in pairs]
    cells = [cell for label, value in pairs for cell in (label + mark, value)]
    return [cells[i : i + 4] for i in range(0, len(cells), 4)]


def title(lot: Lot) -> Rows:
    """The lab, its street, what the paper is."""
    rows = [[lot.throw.choice(LABS)], [lot.throw.choice(STREETS)], [lot.one(TITLES)]]
    return [row for row, keep in zip(rows, (0.8, 0.5, 0.8), strict=True) if lot.odds(keep)]


def below(lot: Lot) -> Rows:
    """Remarks that end a report."""
    words = REMARKS[lot.language]
    chosen = lot.shape.sample(words, lot.shape.randint(0, min(3, len(words))))
    return [[word.format(person=lot.throw.choice(PEOPLE))] for word in chosen]


def _above(lot: Lot, taken: tuple[str, ...]) -> tuple[str, ...]:
    wanted = [slot for slot in ("client", "number", "point", "day", "received", "reported")
              if slot not in taken and (slot == "day" or lot.odds(0.6))]  # fmt: skip
    if lot.odds(0.3):
        lot.shape.shuffle(wanted)
    return tuple(wanted)


def _tells(slots: tuple[str, ...] | list[str], sample: Sample) -> list[Truth]:
    return sample.truths(point="point" in slots)


def one_sample(lot: Lot) -> Made:
    """A reading in each row, the facts of the sample above or in columns of their own."""
    sample = lot.sample(lot.throw.randint(5, 12))
    about = lot.shape.choice(((), (), (), ("number",), ("point", "day"),
                              ("number", "day", "point")))  # fmt: skip
    table = Table(lot, about=about)
    over = _above(lot, about) if "day" not in about or lot.odds(0.5) else ()
    over = tuple(slot for slot in over if slot != "day" or "day" not in about)
    rows = [*title(lot), *facts(lot, sample, over), [], *table.block(sample), [], *below(lot)]
    return rows, _tells([*about, *over], sample)


def long_list(lot: Lot) -> Made:
    """Several samples below each other, each row with its day, point and number; no lines above."""
    about = lot.shape.choice((("number", "day", "point"), ("day", "point"),
                              ("point", "matrix", "day"), ("day", "number")))  # fmt: skip
    table = Table(lot, about=about)
    table.group_rows = False
    n, number = lot.throw.randint(3, 6), lot.shape.choice((2, 2, 3))
    first = lot.sample(n, day=lot.days(number)[0])
    places = lot.throw.sample([p for p in POINTS[lot.language] if p != first.point], number - 1)
    samples = [first] + [lot.sample(like=first, point=place) for place in places]
    rows = [table.heads()] + [table.row(one, line) for one in samples for line in one.lines]
    return rows, [truth for one in samples for truth in _tells(about, one)]


def bare(lot: Lot) -> Made:
    """Nothing but the table, as exported: the sample in the columns."""
    sample = lot.sample(lot.throw.randint(6, 12))
    table = Table(lot, about=("number", "point", "day", "received"), unit="column")
    return [table.heads(), *[table.row(sample, r) for r in sample.lines]], sample.truths()


def crosstab(lot: Lot, missing: str = "") -> Made:
    """Parameters down, samples across; day and point in rows above the figures or in the head."""
    has_days, number = lot.odds(0.5), lot.shape.choice((2, 2, 3, 4))
    days = lot.days(number) if has_days else [lot.day()] * number
    places = lot.throw.sample(POINTS[lot.language], number)
    if has_days:
        places = [places[0]] * number
    first = lot.sample(lot.throw.randint(4, 7), day=days[0], point=places[0])
    samples = [first] + [lot.sample(like=first, day=d, point=p)
                         for d, p in zip(days[1:], places[1:], strict=True)]  # fmt: skip
    if missing:
        last = samples[-1].lines
        for at in lot.throw.sample(range(len(last) - 2), 2):
            last[at] = replace(last[at], text=missing)
    rows = [*title(lot), *_across(lot, samples, has_days=has_days), [], *below(lot)]
    return rows, [t for one in samples for t in one.truths() if not missing or t.text != missing]


def _across(lot: Lot, samples: list[Sample], *, has_days: bool) -> Rows:
    extra = ["unit"] + (["standard"] if lot.odds(0.3) else [])
    heads, blank, at_end = [lot.head(slot) for slot in extra], [""] * len(extra), lot.odds(0.3)
    corner, day_word, point_word = lot.head("name"), lot.head("day"), lot.head("point")

    def row(label: str, cells: list[str], beside: list[str]) -> list[str]:
        return [label, *cells, *beside] if at_end else [label, *beside, *cells]

    dates, points = [lot.printed(one.day) for one in samples], [one.point for one in samples]
    numbers = [one.number for one in samples]
    if has_days and lot.odds(0.5):
        rows = [[f"{point_word}: {points[0]}"], row(corner, dates, heads)]
    elif lot.odds(0.6):
        rows = [row(corner, numbers if has_days else points, heads), row(day_word, dates, blank),
                row(point_word, points, blank)]  # fmt: skip
    else:
        rows = [row(point_word, points, blank), row(day_word, dates, blank),
                row(corner, numbers, heads)]  # fmt: skip
    for i, line in enumerate(samples[0].lines):
        beside = [getattr(line, slot) for slot in extra]
        rows.append(row(line.name, [one.lines[i].text for one in samples], beside))
    return rows


def wide(lot: Lot) -> Made:
    """A sample in each row, parameters across; units in the head or in a row below it."""
    number = lot.shape.choice((2, 3, 4))
    first, *others = lot.days(number)
    start = lot.sample(lot.throw.randint(2, 5), day=first)
    samples = [start] + [lot.sample(like=start, day=day, point=start.point) for day in others]
    about = lot.shape.choice((("day", "point"), ("number", "day", "point"), ("point", "day")))
    under = lot.odds(0.4)
    heads = [lot.head(slot) for slot in about]
    brackets = lot.shape.choice((" ({})", " [{}]", ", {}"))
    names = [r.name if under or not r.unit else r.name + brackets.format(r.unit)
             for r in start.lines]  # fmt: skip
    rows = [*(title(lot) if lot.odds(0.4) else []), [*heads, *names]]
    if under:
        rows.append([""] * len(about) + [r.unit for r in start.lines])
    for one in samples:
        first_cells = [lot.printed(one.day) if s == "day" else getattr(one, s) for s in about]
        rows.append([*first_cells, *[r.text for r in one.lines]])
    return rows, [truth for one in samples for truth in one.truths()]


def blocks(lot: Lot) -> Made:
    """Samples below each other, each with its own lines above and the heads of columns again."""
    number = lot.shape.choice((2, 2, 3))
    table = Table(lot)
    first = lot.sample(lot.throw.randint(3, 6))
    others = [p for p in POINTS[lot.language] if p != first.point]
    samples = [first] + [lot.sample(like=first, day=first.day, point=p)
                         for p in lot.throw.sample(others, number - 1)]  # fmt: skip
    slots = lot.shape.choice((("number", "point", "day"), ("point", "day"),
                              ("point", "day", "received")))  # fmt: skip
    rows = title(lot)
    state = lot.shape.getstate()
    for one in samples:
        lot.shape.setstate(state)
        rows += [*facts(lot, one, slots), [], *table.block(one), []]
    return [*rows, *below(lot)], [truth for one in samples for truth in one.truths()]


def last_year(lot: Lot) -> Made:
    """This result, the one before for comparison, and the limit."""
    sample = lot.sample(lot.throw.randint(7, 11))
    before = lot.sample(like=sample)
    unit, standard, name = lot.head("unit"), lot.head("standard"), lot.head("name")
    this, that = lot.shape.choice((
        ("This Result", "Previous Result"), ("Result", "Last Year's Result"),
        ("Current", "Previous"), ("Your Result", "Prior Result"))) if not lot.language else (
        (("Resultado", "Resultado anterior"), ("Résultat", "Résultat précédent"),
         ("Ergebnis", "Vorheriges Ergebnis"))[lot.language - 1])  # fmt: skip
    rows = [*title(lot), *facts(lot, sample, ("point", "day")), [name, this, that, unit, standard]]
    rows += [[r.name, r.text, old.text, r.unit, r.standard]
             for r, old in zip(sample.lines, before.lines, strict=True)]  # fmt: skip
    return [*rows, [], *below(lot)], sample.truths()


def with_checks(lot: Lot) -> Made:
    """The lab's own blanks, spikes and duplicates among the rows, told by a column for the kind."""
    sample = lot.sample(6, germs=False)
    kind = lot.shape.choice(("Sample Type", "QC Type", "Type"))
    table = Table(lot, about=("number", "point", "day"), unit="column")
    rows = [[kind, *table.heads()]]
    rows += [["Sample", *table.row(sample, line)] for line in sample.lines]
    for word, code in lot.shape.sample(_CHECKS, 3):
        check = Sample(sample.day, "", code.format(n=lot.throw.randint(11, 99)))
        check.point = "Lab QC"
        check.lines = [lot.again(line) for line in sample.lines[:3]]
        rows += [[word, *table.row(check, line)] for line in check.lines]
    return rows, sample.truths()


def checks_below(lot: Lot) -> Made:
    """A table of the sample, and below it another one under the words for quality control."""
    rows, truths = one_sample(lot)
    check = lot.sample(4, germs=False)
    rows += [[], [lot.shape.choice(("Quality Control Data", "QC Summary", "Batch QC"))],
             ["Analyte", "Method Blank", "LCS % Recovery", "Duplicate RPD %"]]  # fmt: skip
    rows += [[r.name, "ND", str(lot.throw.randint(88, 110)), f"{lot.throw.uniform(0, 9):.1f}"]
             for r in check.lines]  # fmt: skip
    return rows, truths


def side_by_side(lot: Lot) -> Made:
    """Two tables beside each other under one set of facts."""
    sample = lot.sample(lot.throw.choice((8, 10, 12)))
    heads = [lot.head("name"), lot.head("result"), lot.head("unit")]
    half = (len(sample.lines) + 1) // 2
    gap = [""] * lot.shape.choice((0, 1))
    rows = [*title(lot), *facts(lot, sample, ("point", "day")), [*heads, *gap, *heads]]
    for i, left in enumerate(sample.lines[:half]):
        right = sample.lines[half + i] if half + i < len(sample.lines) else None
        beside = [right.name, right.text, right.unit] if right else ["", "", ""]
        rows.append([left.name, left.text, left.unit, *gap, *beside])
    return [*rows, [], *below(lot)], sample.truths()


def statistics(lot: Lot) -> Made:
    """A sample in each row, and below them what the lab counted from them."""
    rows, truths = wide(lot)
    days = len({t.day for t in truths})
    about = len(rows[-1]) - len(truths) // days
    columns = list(zip(*[row[about:] for row in rows[-days:]], strict=True))
    for label, count in zip(_STATISTICS[lot.language], (min, max, mean), strict=False):
        rows.append([label, *[""] * (about - 1), *[_counted(lot, c, count) for c in columns]])
    return rows, truths


def _counted(lot: Lot, column: tuple[str, ...], count: Callable) -> str:
    try:
        figures = [float(cell.replace(",", "." if lot.language else "")) for cell in column]
    except ValueError:
        return ""
    return lot.comma(f"{count(figures):.2f}")


def not_analysed(lot: Lot) -> Made:
    """Several samples, some parameters of which were not measured in each."""
    word = lot.shape.choice(("-", "NA", "see note", "n/a"))
    rows, truths = crosstab(lot, word)
    return [*rows, *([["Note: bottle broken, not analyzed"]] if word == "see note" else [])], truths


def footnotes(lot: Lot) -> Made:
    """Names and figures with marks that are explained below the table."""
    sample = lot.sample(8)
    table = Table(lot, unit="column")
    table.group_rows = False
    rows = [*title(lot), *facts(lot, sample, ("number", "day")), *table.block(sample)]
    start = len(rows) - len(sample.lines)
    at, name = lot.shape.choice(("*", " (1)", "†")), table.slots.index("name")
    for line in lot.throw.sample(range(len(sample.lines)), 2):
        rows[start + line][name] += at
    return [*rows, [], [f"{at.strip()} Not covered by the scope of accreditation"]], sample.truths(
        point=False)  # fmt: skip
