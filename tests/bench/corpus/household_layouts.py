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
