"""Sheets that households keep, put together by lot."""

from dataclasses import replace

import lot_forms
from facts import Truth
from lot_words import MONTHS, Line, Lot
from writers import Rows

Made = tuple[bytes, list[Truth]]
Sheet = tuple[Rows, list[Truth]]

# Key | English | Spanish | French | German | unit with the greatest figure and its places.
_OWN = """
nitrate|Nitrate;Nitrates;nitrate|Nitratos|Nitrates|Nitrat|mg/L 12 1;ppm 12 1
iron|Iron;iron|Hierro|Fer|Eisen|mg/L 3 2;ppm 3 1
manganese|Manganese|Manganeso|Manganèse|Mangan|mg/L 1 2
hardness|Hardness;hardness|Dureza|Dureté|Gesamthärte|gpg 24 0;mg/L 400 0
ph|pH;PH|pH|pH|pH-Wert|* 8 1
tds|TDS|Sólidos disueltos totales|Résidu sec|Abdampfrückstand|ppm 700 0;mg/L 700 0
lead|Lead;lead|Plomo|Plomb|Blei|ppb 15 1;ug/L 15 1
arsenic|Arsenic;arsenic|Arsénico|Arsenic|Arsen|ppb 15 0;ug/L 12 1
chloride|Chloride|Cloruros|Chlorures|Chlorid|mg/L 200 0
sodium|Sodium|Sodio|Sodium|Natrium|mg/L 120 0
sulfate|Sulfate|Sulfatos|Sulfates|Sulfat|mg/L 200 0
fluoride|Fluoride|Fluoruro|Fluorures|Fluorid|mg/L 3 1
"""
_METRIC = {"hardness": ("mg/L", "mg/L", "°f", "°dH"), "tds": ("mg/L",) * 4}
_GERMS = (("Coliform", "E. coli"), ("Coliformes totales", "E. coli"),
          ("Coliformes", "E. coli"), ("Coliforme Keime", "E. coli"))  # fmt: skip
_TOTAL = ("Coliform", "Total coliform", "coliform bacteria", "Coliforms")
_CLEAN = (("neg", "none", "absent", "0", "Negative", "ND"), ("neg", "ausente", "0"),
          ("absence", "0", "nég"), ("neg", "0", "n.n."))  # fmt: skip
_DIRTY = (("pos", "POS", "present", "4", "Positive", "present"), ("pos", "presente", "3"),
          ("présence", "2", "pos"), ("pos", "5", "nachweisbar"))  # fmt: skip
_DATE = (("Date", "Date tested", "When", "Sample date"), ("Fecha",), ("Date",), ("Datum",))
_NOTE = (("Notes", "Comments", "What we did"), ("Notas",), ("Remarques",), ("Notizen",))
_TEST = (("Test", "What", "Item"), ("Parámetro",), ("Paramètre",), ("Parameter",))
_UNIT = (("Units", "unit"), ("Unidad",), ("Unité",), ("Einheit",))
_RESULT = ("Result", "Resultado", "Résultat", "Ergebnis")
_NOTED = (
    ("", "", "new filter", "after heavy rain", "shock chlorinated in spring", "pump replaced"),
    ("", "", "filtro nuevo", "después de lluvia"), ("", "", "filtre neuf", "après la pluie"),
    ("", "", "neuer Filter", "nach Regen"),
)  # fmt: skip
_TITLE = (("Our well", "Well water tests", "Water log"), ("Agua del pozo",), ("Eau du puits",),
          ("Brunnenwasser",))  # fmt: skip
_WELLS = (("House well", "Barn well"), ("Pozo casa", "Pozo huerta"),
          ("Puits maison", "Puits jardin"), ("Hausbrunnen", "Gartenbrunnen"))  # fmt: skip
_WATERS = (("Raw", "Treated"), ("Cruda", "Tratada"), ("Brute", "Traitée"), ("Roh", "Aufbereitet"))


class Panel:
    """The few things that a household follows, with figures of any number of days."""

    def __init__(self, lot: Lot, n: int = 5, *, germs: bool = True) -> None:
        self.lot = lot
        at = lot.language
        self.clean_word = lot.shape.randrange(len(_CLEAN[at]))
        specs = [row.split("|") for row in _OWN.strip().splitlines()]
        chosen = sorted(lot.throw.sample(range(len(specs)), n))
        self.lines, self.ranges = [], {}
        for key, *names, units in (specs[i] for i in chosen):
            usual = units.split(";")[: 1 if at else None]
            unit, most, places = lot.throw.choice(usual).split()
            shown = _METRIC[key][at] if key in _METRIC and at else unit.replace("*", "")
            high = 40.0 if shown.startswith("°") else float(most)
            self.lines.append(Line(key, lot.throw.choice(names[at].split(";")), "", shown))
            self.ranges[key] = high, int(places)
        if germs:
            total, coli = (lot.throw.choice(_TOTAL), _GERMS[0][1]) if not at else _GERMS[at]
            self.lines += [Line("total_coliform", total, "", ""), Line("e_coli", coli, "", "")]

    def drawn(self) -> list[Line]:
        """The same things measured once more."""
        lot, at = self.lot, self.lot.language
        is_dirty = lot.throw.random() < 0.15
        found = []
        for line in self.lines:
            if line.key in self.ranges:
                found.append(replace(line, text=self._figure(line.key)))
            else:
                dirty = is_dirty and line.key == "total_coliform"
                found.append(replace(line, text=(_DIRTY if dirty else _CLEAN)[at][self.clean_word]))
        return found

    def _figure(self, key: str) -> str:
        most, places = self.ranges[key]
        throw = self.lot.throw
        if key not in {"ph", "hardness", "tds"} and throw.random() < 0.12:
            return self.lot.comma(f"<{10.0**-places:.{places}f}" if places else "<1")
        low = 6.2 if key == "ph" else most * 0.1
        return self.lot.comma(f"{throw.uniform(low, most):.{places}f}")

    def head(self, line: Line, brackets: str = " ({})") -> str:
        return line.name + (brackets.format(line.unit) if line.unit else "")


def told(lines: list[Line], day: str = "", point: str = "") -> list[Truth]:
    return [Truth(r.key, r.text, r.unit, day, point) for r in lines if r.text]


def _month(lot: Lot, day: str, style: int) -> str:
    year, month = day.split("-")[:2]
    name = MONTHS[lot.language].split()[int(month) - 1]
    return (f"{name} {year}", f"{month}/{year}", f"{year}-{month}")[style]


def years_across(lot: Lot) -> Sheet:
    """A column for each year, known no closer than that."""
    panel, number = Panel(lot, 3), lot.shape.choice((3, 3, 4))
    start = lot.throw.randint(2010, 2019)
    years = [str(start + i) for i in range(number)]
    has_units, has_gaps = lot.odds(0.5), lot.odds(0.5)
    drawn = [panel.drawn() for _ in years]
    if has_gaps:
        drawn[1][0] = replace(drawn[1][0], text="")
    heads = [lot.one(_TEST), *([lot.one(_UNIT)] if has_units else []), *years]
    rows = [[lot.one(_TITLE)]] if lot.odds(0.5) else []
    rows.append(heads)
    for at, line in enumerate(panel.lines):
        first = [line.name, line.unit] if has_units else [panel.head(line)]
        rows.append([*first, *[one[at].text for one in drawn]])
    return rows, [t for year, one in zip(years, drawn, strict=True) for t in told(one, year)]


def months_across(lot: Lot) -> Sheet:
    """A column for each test, known to its month."""
    panel, style = Panel(lot, 3), lot.shape.randrange(3)
    days = [day[:7] for day in lot.days(3)]
    drawn = [panel.drawn() for _ in days]
    rows = [["", *[_month(lot, day, style) for day in days]]]
    rows += [[panel.head(line, ", {}"), *[one[at].text for one in drawn]]
             for at, line in enumerate(panel.lines)]  # fmt: skip
    return rows, [t for day, one in zip(days, drawn, strict=True) for t in told(one, day)]


def days_down(lot: Lot) -> Sheet:
    """A row for each test with notes behind it; days, months or years."""
    panel = Panel(lot, lot.throw.randint(1, 3))
    known, style = lot.shape.choice((10, 10, 7, 4)), lot.shape.randrange(3)
    has_units_below, with_cost = lot.odds(0.3), lot.odds(0.3)
    heads = [r.name if has_units_below else panel.head(r) for r in panel.lines]
    cost = [("Cost", "Coste", "Prix", "Kosten")[lot.language]] if with_cost else []
    pump = [("Pump", "Bomba", "Pompe", "Pumpe")[lot.language]] if lot.odds(0.3) else []
    rows: Rows = [[lot.one(_TITLE)], []] if lot.odds(0.4) else []
    rows.append([lot.one(_DATE), *cost, *heads, *pump, lot.one(_NOTE)])
    if has_units_below:
        rows.append(["", *[""] * len(cost), *[r.unit for r in panel.lines], *[""] * len(pump), ""])
    truths = []
    for day in lot.days(lot.shape.choice((3, 3, 4))):
        lines, short = panel.drawn(), day[:known]
        shown = {10: lot.printed(day), 7: _month(lot, day, style), 4: short}[known]
        paid = lot.throw.randint(35, 190)
        price = [f"{paid} €" if lot.language else f"${paid}"] if with_cost else []
        rows.append([shown, *price, *[r.text for r in lines], *["ok" for _ in pump],
                     lot.one(_NOTED)])  # fmt: skip
        truths += told(lines, short)
    return rows, truths


def units_behind(lot: Lot) -> Sheet:
    """A row for each test, each figure with its unit in the cell."""
    panel, truths = Panel(lot, 3), []
    rows = [[lot.one(_DATE), *[r.name for r in panel.lines]]]
    for day in lot.days(3):
        lines = panel.drawn()
        rows.append([lot.printed(day), *[f"{r.text} {r.unit}".strip() for r in lines]])
        truths += told(lines, day)
    return rows, truths


def two_wells(lot: Lot) -> Sheet:
    """Two wells in turn, named in a column or in a line above each table."""
    panel, wells, truths = Panel(lot, 2), _WELLS[lot.language], []
    heads, in_column = [panel.head(r) for r in panel.lines], lot.odds(0.5)
    well, date = ("Well", "Pozo", "Puits", "Brunnen")[lot.language], lot.one(_DATE)
    rows: Rows = [[date, well, *heads]] if in_column else []
    days = lot.days(2)
    for name in wells:
        rows += [] if in_column else [[name], [date, *heads]]
        for day in days:
            lines = panel.drawn()
            well_cell = [name] if in_column else []
            rows.append([lot.printed(day), *well_cell, *[r.text for r in lines]])
            truths += told(lines, day, name)
        rows += [] if in_column else [[]]
    return rows, truths


def raw_and_treated(lot: Lot) -> Sheet:
    """Before and after the treatment, beside each other."""
    panel, waters, day = Panel(lot, 4), _WATERS[lot.language], lot.day()
    raw, treated = panel.drawn(), panel.drawn()
    rows = [[lot.one(_DATE), lot.printed(day)], [], [lot.one(_TEST), *waters, lot.one(_UNIT)]]
    rows += [[a.name, a.text, b.text, a.unit] for a, b in zip(raw, treated, strict=True)]
    return rows, told(raw, day, waters[0]) + told(treated, day, waters[1])


def raw_treated_rows(lot: Lot) -> Sheet:
    """A row for each water of each day."""
    panel, waters, truths = Panel(lot, 2), _WATERS[lot.language], []
    place = ("Where", "Dónde", "Lieu", "Wo")[lot.language]
    rows = [[lot.one(_DATE), place, *[panel.head(r, " {}") for r in panel.lines]]]
    for day in lot.days(2):
        for water in waters:
            lines = panel.drawn()
            rows.append([lot.printed(day), water, *[r.text for r in lines]])
            truths += told(lines, day, water)
    return rows, truths


def raw_treated_columns(lot: Lot) -> Sheet:
    """Two columns for each thing, raw and treated."""
    panel, (raw, treated), truths = Panel(lot, 2), _WATERS[lot.language], []
    heads = [f"{r.name} {water.lower()}" + (f" ({r.unit})" if r.unit else "")
             for r in panel.lines for water in (raw, treated)]  # fmt: skip
    rows = [[lot.one(_DATE), *heads]]
    for day in lot.days(2):
        pairs = list(zip(panel.drawn(), panel.drawn(), strict=True))
        rows.append([lot.printed(day), *[r.text for pair in pairs for r in pair]])
        truths += told([a for a, _ in pairs], day, raw)
        truths += told([b for _, b in pairs], day, treated)
    return rows, truths


def long_log(lot: Lot) -> Sheet:
    """One reading in each row, with who tested it."""
    panel, truths = Panel(lot, 3), []
    by = ("Tested by", "Laboratorio", "Labo", "Labor")[lot.language]
    rows = [[lot.one(_DATE), lot.one(_TEST), _RESULT[lot.language], lot.one(_UNIT), by]]
    for day in lot.days(2):
        lines, lab = panel.drawn(), lot.throw.choice(("county lab", "home kit", "Pellworth"))
        rows += [[lot.printed(day), r.name, r.text, r.unit, lab] for r in lines]
        truths += told(lines, day)
    return rows, truths


def card(lot: Lot) -> Sheet:
    """One test as labels and values below each other."""
    panel, day = Panel(lot, 7), lot.day()
    lines, with_unit = panel.drawn(), lot.odds(0.5)
    lab = ("Lab", "Laboratorio", "Laboratoire", "Labor")[lot.language]
    rows = [[lot.one(_TITLE)], [lot.one(_DATE), lot.printed(day)], [lab, "Pellworth"]]
    rows += [[r.name, f"{r.text} {r.unit}".strip()] if with_unit else [panel.head(r), r.text]
             for r in lines]  # fmt: skip
    return rows, told(lines, day)


def with_limits(lot: Lot) -> Sheet:
    """Tests down, and a row of limits above or below them."""
    panel, truths = Panel(lot, 5, germs=False), []
    limits = [("EPA limit", "Límite", "Norme", "Grenzwert")[lot.language],
              *[lot.comma(f"{panel.ranges[r.key][0] * 0.8:g}") for r in panel.lines]]  # fmt: skip
    rows = [[lot.one(_DATE), *[panel.head(r) for r in panel.lines]]]
    is_above = lot.odds(0.5)
    rows += [limits] if is_above else []
    for day in lot.days(3):
        lines = panel.drawn()
        rows.append([lot.printed(day), *[r.text for r in lines]])
        truths += told(lines, day)
    return rows + ([] if is_above else [limits]), truths


def untested(lot: Lot) -> Sheet:
    """Years across with marks where nothing was measured, and a last column for the goal."""
    rows, truths = years_across(lot)
    word = lot.shape.choice(("-", "n/a", "not tested"))
    table = [row for row in rows if len(row) > 1]
    for row in table[1:]:
        row[2:] = [cell or word for cell in row[2:]]
        row.append(str(lot.throw.randint(1, 9)))
    table[0].append(("Goal", "Objetivo", "Objectif", "Ziel")[lot.language])
    return rows, truths


def by_year_sheets(lot: Lot) -> Made:
    """A workbook with a sheet for each year."""
    panel, years = Panel(lot, 5), sorted(lot.throw.sample(range(2012, 2026), 3))
    sheets, truths = [], []
    heads = [_TEST[lot.language][0], _RESULT[lot.language], _UNIT[lot.language][0]]
    for year in years:
        lines, day = panel.drawn(), lot.day(year, year)
        sheets.append([[lot.one(_DATE), lot.printed(day)], [], heads,
                       *[[r.name, r.text, r.unit] for r in lines]])  # fmt: skip
        truths += told(lines, day)
    return lot_forms.workbook(lot, sheets[0], names=tuple(map(str, years)),
                              more=tuple(sheets[1:])), truths  # fmt: skip


def notes(lot: Lot) -> Made:
    """A text file with a line for each test."""
    panel, truths = Panel(lot, 3), []
    parts = [lot.one(_TITLE)]
    between, after = lot.shape.choice((", ", "; ")), lot.shape.choice((": ", " - ", "  "))
    for day in lot.days(3):
        lines = panel.drawn()
        listed = between.join(f"{r.name} {r.text} {r.unit}".strip() for r in lines)
        parts.append(f"{lot.printed(day)}{after}{listed}")
        truths += told(lines, day)
    return ("\n".join(parts) + "\n").encode(), truths


def marked_table(lot: Lot) -> Made:
    """A table in a text of plain marks."""
    rows, truths = years_across(lot) if lot.odds(0.5) else days_down(lot)
    table = [row for row in rows if len(row) > 1]
    lines = ["| " + " | ".join(row) + " |" for row in table]
    lines.insert(1, "|" + " --- |" * len(table[0]))
    return ("# Water\n\n" + "\n".join(lines) + "\n").encode(), truths
