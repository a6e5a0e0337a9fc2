"""What households write: two wells in a sheet, a title over days, notebooks and letters."""

from facts import Dice, Truth
from rare_layouts import spoken
from sheet_layouts import Grid, clear_day

MONTHS_ABROAD = {
    2: ("janvier février mars avril mai juin juillet août septembre octobre novembre décembre"),
    3: ("Januar Februar März April Mai Juni Juli August September Oktober November Dezember"),
}


def _figure(dice: Dice) -> str:
    return f"{dice.throw.uniform(1, 9):.1f}"


def two_wells(dice: Dice) -> Grid:
    """Two sheets side by side, each with days of its own."""
    rows = [["HOUSE WELL", "", "", "", "BARN WELL", "", ""]]
    rows += [["Date", "Iron mg/L", "Lead ug/L", "", "Date", "Iron mg/L", "pH"]]
    truths = []
    for _ in range(4):
        one, other = clear_day(dice), clear_day(dice)
        a, b, c, d = (_figure(dice) for _ in range(4))
        rows.append([one, a, b, "", other, c, d])
        truths += [Truth("iron", a, "mg/L", one), Truth("lead", b, "ug/L", one),
                   Truth("iron", c, "mg/L", other), Truth("ph", d, "", other)]  # fmt: skip
    return rows, truths


def titled(dice: Dice) -> Grid:
    """A title over each column of days and figures."""
    rows, truths = [], []
    for key, name in (("nitrate", "Nitrate-N (mg/L)"), ("iron", "Iron (mg/L)")):
        rows += [[name], ["date", "result", "remark"]]
        for _ in range(3):
            day, text = clear_day(dice), _figure(dice)
            rows.append([day, text, dice.throw.choice(["", "own kit", "county lab"])])
            truths.append(Truth(key, text, "mg/L", day))
        rows.append([])
    return rows, truths


def answered(dice: Dice) -> Grid:
    """Bacteria by yes and no, and marks for the day above."""
    rows, truths = [["Tested on", "Where", "Coliform", "Iron (mg/L)"]], []
    for _ in range(4):
        day = clear_day(dice)
        for place in ("tap", "well"):
            word, iron = dice.throw.choice(["yes", "no"]), _figure(dice)
            rows.append([day if place == "tap" else '"', place, word, iron])
            truths += [Truth("total_coliform", word, "", day), Truth("iron", iron, "mg/L", day)]
    return rows, truths


def notebook(dice: Dice) -> tuple[str, list[Truth]]:
    """Paragraphs, each with its own day."""
    parts, truths = ["THE WELL", "Drilled in 1987, 140 ft deep."], []
    for _ in range(4):
        day, nitrate, iron = clear_day(dice), _figure(dice), _figure(dice)
        word = dice.throw.choice(["absent", "present"])
        parts.append(
            f"Had the water tested on {spoken(day)}. Nitrate came back {nitrate} mg/L (limit 10 "
            f"mg/L) and iron {iron} mg/L. Total coliform and E. coli were {word}. Paid $65."
        )
        truths += [Truth("nitrate", nitrate, "mg/L", day), Truth("iron", iron, "mg/L", day)]
        truths += [Truth(key, word, "", day) for key in ("total_coliform", "e_coli")]
    return "\n\n".join(parts), truths


def letter_abroad(dice: Dice) -> tuple[str, list[Truth]]:
    """A letter in French or German."""
    language = dice.throw.choice([2, 3])
    year, month, number = clear_day(dice).split("-")
    iron, sodium = (_figure(dice).replace(".", ",") for _ in range(2))
    name = MONTHS_ABROAD[language].split()[int(month) - 1]
    if language == 2:
        text = (
            f"Madame,\n\nl'échantillon prélevé le {int(number)} {name} {year} contient {iron} mg/l "
            f"de fer et {sodium} mg/l de sodium.\n"
        )
    else:
        text = (
            f"Guten Tag,\n\ndie Probe wurde am {int(number)}. {name} {year} entnommen. Der "
            f"Eisengehalt beträgt {iron} mg/l (Grenzwert 0,2 mg/l), Natrium {sodium} mg/l.\n"
        )
    day = f"{year}-{month}-{number}"
    return text, [Truth("iron", iron, "mg/L", day), Truth("sodium", sodium, "mg/L", day)]


def mixed_diary(dice: Dice) -> tuple[str, list[Truth]]:
    """Lines of a day and its readings, the marks and the days written now so, now so."""
    lines, truths = [], []
    for n in range(5):
        day, iron, ph = clear_day(dice), _figure(dice), _figure(dice)
        part, mark = dice.throw.choice([", ", "; ", " / "]), dice.throw.choice([": ", " - ", "  "])
        word = dice.throw.choice(["absent", "neg", "positive", "not detected"])
        told = part.join((f"iron {iron} ppm", f"pH {ph}", f"E. coli {word}"))
        lines += [f"{spoken(day) if n % 2 else day}{mark}{told}", "Pump serviced, 52 psi."]
        truths += [Truth("iron", iron, "ppm", day), Truth("ph", ph, "", day),
                   Truth("e_coli", word, "", day)]  # fmt: skip
    return "\n".join(lines), truths


def several_in_a_cell(dice: Dice) -> Grid:
    """A day, and in the cell beside it all that was found."""
    rows, truths, part = [["Date", "Lab", "Results"]], [], dice.throw.choice(["; ", " / ", ", "])
    for _ in range(4):
        day, iron, lead = clear_day(dice), _figure(dice), _figure(dice)
        rows.append([day, "county", part.join((f"iron {iron} ppm", f"lead={lead} ppb"))])
        truths += [Truth("iron", iron, "ppm", day), Truth("lead", lead, "ppb", day)]
    return rows, truths


def treated(dice: Dice) -> Grid:
    """Two columns of one parameter, before a treatment and behind it."""
    rows, truths = [["Date", "Iron before (ppm)", "Iron after (ppm)", "Salt added (lb)"]], []
    for _ in range(4):
        day, raw, soft = clear_day(dice), _figure(dice), f"0.{dice.throw.randint(11, 99)}"
        rows.append([day, raw, soft, "80"])
        truths += [Truth("iron", raw, "ppm", day), Truth("iron", soft, "ppm", day)]
    return rows, truths


def blank_heads(dice: Dice) -> Grid:
    """Lines above the heading tell the samples, whose columns have none themselves."""
    panel = [r for r in dice.panel(6, germs=False, words=False) if r.unit]
    days = [clear_day(dice) for _ in range(3)]
    rows = [["Lab Sample No.", "", "8801", "8802", "8803"],
            ["Client Sample", "", "Kitchen", "Bath", "Well head"], ["Date Sampled", "", *days],
            ["Matrix", "", "DW", "DW", "GW"], ["Analyte", "Units", "", "", ""]]  # fmt: skip
    truths = []
    for r in panel:
        cells = [_figure(dice) for _ in days]
        rows.append([r.name, r.unit, *cells])
        truths += [Truth(r.key, c, r.unit, d) for c, d in zip(cells, days, strict=True)]
    return rows, truths


def short_message(dice: Dice) -> tuple[str, list[Truth]]:
    """What is typed on a telephone: hardly a unit, and short words."""
    day, nitrate, lead = clear_day(dice), _figure(dice), _figure(dice)
    text = f"lab called. sample from {day}: nitrate {nitrate}, lead {lead} ppb, coliform neg\n"
    return text, [Truth("nitrate", nitrate, "", day), Truth("lead", lead, "ppb", day),
                  Truth("total_coliform", "neg", "", day)]  # fmt: skip
