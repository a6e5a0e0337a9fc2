"""What the files of the corpus say: readings of invented labs, by the names labs print.

The names in English, Spanish, French and German are those of drinking-water directives and of the
trade, from memory; the figures are thrown by seeded dice.
"""

import hashlib
import random
from collections.abc import Callable
from dataclasses import dataclass, field

LANGUAGES = ("en", "es", "fr", "de")

# Key, unit, names by language, whether it is present or absent.
POOL = (
    ("nitrate", "mg/L as N", ("Nitrate-N", "Nitrato (como N)", "Nitrate (en N)", "Nitrat-N")),
    ("iron", "mg/L", ("Iron", "Hierro", "Fer", "Eisen")),
    ("manganese", "ug/L", ("Manganese", "Manganeso", "Manganèse", "Mangan")),
    ("lead", "ug/L", ("Lead", "Plomo", "Plomb", "Blei")),
    ("copper", "mg/L", ("Copper", "Cobre", "Cuivre", "Kupfer")),
    ("arsenic", "ug/L", ("Arsenic", "Arsénico", "Arsenic", "Arsen")),
    ("chloride", "mg/L", ("Chloride", "Cloruro", "Chlorures", "Chlorid")),
    ("sulfate", "mg/L", ("Sulfate", "Sulfato", "Sulfates", "Sulfat")),
    ("sodium", "mg/L", ("Sodium", "Sodio", "Sodium", "Natrium")),
    ("calcium", "mg/L", ("Calcium", "Calcio", "Calcium", "Calcium")),
    ("magnesium", "mg/L", ("Magnesium", "Magnesio", "Magnésium", "Magnesium")),
    ("potassium", "mg/L", ("Potassium", "Potasio", "Potassium", "Kalium")),
    ("fluoride", "mg/L", ("Fluoride", "Fluoruro", "Fluorures", "Fluorid")),
    ("ph", "", ("pH", "pH", "pH", "pH-Wert")),
    ("conductivity", "µS/cm", ("Conductivity", "Conductividad", "Conductivité", "Leitfähigkeit")),
    ("turbidity", "NTU", ("Turbidity", "Turbidez", "Turbidité", "Trübung")),
    ("uranium", "ug/L", ("Uranium", "Uranio", "Uranium", "Uran")),
)
GERMS = (
    ("total_coliform", ("Total Coliform", "Coliformes totales", "Coliformes totaux", "Coliforme")),
    ("e_coli", ("E. coli", "Escherichia coli", "E. coli", "Escherichia coli")),
)
ABSENT = ("Absent", "Ausente", "Absence", "nicht nachweisbar")
PRESENT = ("Present", "Presente", "Présence", "nachweisbar")
UNDETECTED = ("ND", "n.d.", "non détecté", "n.n.")
LABS = ("Hollin Ridge Analytical", "Quillback Water Lab", "Ostrander Bench", "Labor Erlenbach")
POINTS = ("Kitchen tap", "Well head", "Pressure tank", "Barn hydrant")


@dataclass(frozen=True)
class Truth:
    """One reading that a file states: parameter, figure as printed, day and point if stated."""

    key: str
    text: str
    unit: str
    day: str = ""
    point: str = ""


@dataclass(frozen=True)
class Reading:
    """One reading before it is laid out."""

    key: str
    name: str
    text: str
    unit: str

    def on(self, day: str, point: str = "") -> Truth:
        return Truth(self.key, self.text, self.unit, day, point)


@dataclass(frozen=True)
class LabFile:
    """A file of the corpus with the truth beside it.

    Attributes:
        name: With the kind's own ending.
        group: Row of the table that the bench prints.
        content: The bytes.
        truths: What a careful person would copy from it.
        password: With which a PDF opens.
        layout: By which the file is held back, with all others of it; else by its name.
    """

    name: str
    group: str
    content: bytes
    truths: tuple[Truth, ...]
    password: str = ""
    layout: str = ""

    @property
    def is_held_back(self) -> bool:
        return hashlib.sha256((self.layout or self.name).encode()).digest()[0] % 2 == 1


Maker = Callable[["Dice"], tuple[str | bytes, list[Truth]]]


@dataclass
class Dice:
    """Seeded by the file's name: the same name gives the same file."""

    name: str
    language: int = 0
    throw: random.Random = field(init=False)

    def __post_init__(self) -> None:
        self.throw = random.Random(self.name)

    def day(self, first: int = 1995, last: int = 2025) -> str:
        throw = self.throw
        return f"{throw.randint(first, last)}-{throw.randint(1, 12):02}-{throw.randint(1, 28):02}"

    def panel(self, n: int = 8, *, germs: bool = True, words: bool = True) -> list[Reading]:
        """Readings in one language, figures with a decimal comma outside of English."""
        throw, at = self.throw, self.language
        found = [
            Reading(key, names[at], self._figure(key, words=words), unit)
            for key, unit, names in throw.sample(POOL, n)
        ]
        if germs:
            found += [
                Reading(key, names[at], (PRESENT if throw.random() < 0.3 else ABSENT)[at], "")
                for key, names in GERMS
            ]
        return found

    def _figure(self, key: str, *, words: bool) -> str:
        throw = self.throw
        if key == "ph":
            text = f"{throw.uniform(6, 8.5):.1f}"
        elif key == "conductivity":
            text = str(throw.randint(150, 990))
        elif words and throw.random() < 0.15:
            return UNDETECTED[self.language]
        else:
            text = throw.choice(
                [f"{throw.uniform(0.01, 0.99):.2f}", f"{throw.uniform(1, 9):.1f}",
                 str(throw.randint(2, 98)), f"<{throw.choice(['0.05', '0.5', '0.01'])}"]
            )  # fmt: skip
        return text.replace(".", ",") if self.language else text

    @property
    def lab(self) -> str:
        return self.throw.choice(LABS)

    @property
    def point(self) -> str:
        return self.throw.choice(POINTS)
