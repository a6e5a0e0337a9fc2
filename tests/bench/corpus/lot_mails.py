"""Mails that households get and pass on, put together by lot."""

import html
from collections.abc import Callable

import lot_forms
import writers
from facts import Truth
from lot_households import Panel, told
from lot_words import PEOPLE, Line, Lot, Sample

Made = tuple[bytes, list[Truth]]
_HELLO = ("Hi {who},\n\nhere are the results for your water from the {point}, taken {day}.\n",
          "Hola {who}:\n\nlos resultados de la muestra de {point}, tomada el {day}:\n",
          "Bonjour {who},\n\nvoici les résultats de l'échantillon ({point}), prélevé le {day}.\n",
          "Hallo {who},\n\nhier die Ergebnisse der Probe ({point}) vom {day}.\n")  # fmt: skip
_BYE = ("\nThe federal limit for nitrate is 10 mg/L.\n\nRegards,\n{who}\n555-0133\n",
        "\nUn saludo,\n{who}\n", "\nCordialement,\n{who}\n", "\nViele Grüße\n{who}\n")  # fmt: skip


_ENGLISH = (
    _HELLO[0],
    "Hello,\n\nThe lab called today about the well.\nSample point: {point}\nCollected: {day}\n",
    "Dear {who},\n\nPlease see your drinking water results below. Sampled on {day}, {point}.\n",
    "{who},\n\nLocation: {point}\nDate sampled: {day}\n",
)


def _line(line: Line, mark: str) -> str:
    """Name, figure and unit; a word stands without one."""
    has_unit = any(c.isdigit() for c in line.text)
    return f"{line.name}{mark}{line.text} {line.unit if has_unit else ''}".rstrip()


def _mail(lot: Lot, make: Callable, *, quoted: bool = False, n: int = 6) -> Made:
    sample = lot.sample(n)
    who = lot.throw.choice(PEOPLE)
    hello = _HELLO[lot.language] if lot.language else lot.shape.choice(_ENGLISH)
    hello = hello.format(who=who, point=sample.point,
                         day=lot.printed(sample.day, style=lot.style % 3))  # fmt: skip
    text = hello + "\n" + make(lot, sample) + "\n" + _BYE[lot.language].format(
        who=lot.throw.choice(PEOPLE))  # fmt: skip
    if quoted:
        text = "See below, please file this.\n\n" + "".join(f"> {x}\n" for x in text.splitlines())
    return lot_forms.message(lot, text, day=sample.day), sample.truths()


def pairs(lot: Lot) -> Made:
    mark = lot.shape.choice((": ", " = ", " - "))
    bullet = lot.shape.choice(("", "- ", "* ", "  "))
    return _mail(lot, lambda _, sample: "\n".join(
        bullet + _line(r, mark) for r in sample.lines))  # fmt: skip


def table(lot: Lot) -> Made:
    heads = [lot.head("name"), lot.head("result"), lot.head("unit"), lot.head("limit")]
    width = lot.shape.choice((3, 3, 4))

    def lines(_: Lot, sample: Sample) -> str:
        rows = [[r.name, r.text, r.unit, r.limit][:width] for r in sample.lines]
        return writers.lines_of([heads[:width], *rows])

    return _mail(lot, lines)


def forwarded(lot: Lot) -> Made:
    return _mail(lot, lambda _, sample: "\n".join(
        _line(r, ": ") for r in sample.lines), quoted=True)  # fmt: skip


def run(lot: Lot) -> Made:
    """All figures in one line, parted by semicolons."""
    mark = lot.shape.choice((" ", ": "))
    return _mail(lot, lambda _, sample: "; ".join(
        _line(r, mark) for r in sample.lines) + ".")  # fmt: skip


_SAYS = (
    (
        "{name} came back at {text} {unit}.",
        "We found {name} at {text} {unit}.",
        "The result for {name} is {text} {unit}.",
        "{name} was {text} {unit}.",
    ),
    ("El resultado de {name} es {text} {unit}.", "{name}: {text} {unit}."),
    ("Le résultat pour {name} est de {text} {unit}.", "{name} : {text} {unit}."),
    ("{name} liegt bei {text} {unit}.", "Für {name} wurden {text} {unit} gemessen."),
)


def sentences(lot: Lot) -> Made:
    def say(_: Lot, sample: Sample) -> str:
        parts = [lot.one(_SAYS).format(name=r.name, text=r.text, unit=r.unit).replace(" .", ".")
                 for r in sample.lines]  # fmt: skip
        return " ".join(parts) if lot.odds(0.5) else "\n".join(parts)

    lot.not_found, lot.germs = "<", lot.germs if lot.germs[2] else ("<1", "7", "MPN/100 mL")
    return _mail(lot, say)


def page(lot: Lot) -> Made:
    """A mail that is a web page."""
    sample = lot.sample(8)
    heads = [lot.head("name"), lot.head("result"), lot.head("unit")]
    rows = [heads, *[[r.name, r.text, r.unit] for r in sample.lines]]
    lines = ["".join(f"<td>{html.escape(cell)}</td>" for cell in row) for row in rows]
    table = "".join(f"<tr>{line}</tr>" for line in lines)
    hello = _HELLO[lot.language].format(who=lot.throw.choice(PEOPLE), point=sample.point,
                                        day=lot.printed(sample.day))  # fmt: skip
    page = f"<html><body><p>{html.escape(hello)}</p><table>{table}</table></body></html>"
    return lot_forms.message(lot, page, day=sample.day, is_page=True), sample.truths()


def two_days(lot: Lot) -> Made:
    """A neighbour's list of two tests, each under its day."""
    panel, parts, truths = Panel(lot, 5), [], []
    days = lot.days(2)
    for day in days:
        lines = panel.drawn()
        parts += [f"{lot.printed(day, style=lot.style % 3)}:"]
        parts += [f"  {r.name} {r.text} {r.unit}".rstrip() for r in lines] + [""]
        truths += told(lines, day)
    return lot_forms.message(lot, "\n".join(parts), day=days[-1]), truths
