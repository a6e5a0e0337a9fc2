"""Whether bacteria ask for boiling, by what else is in the water: by `status` and by a packet.

Rows of agencies' advice: New York State on boil notices where a chemical is present, EPA and CDC on
cysts, Minnesota and Ontario on nitrate, Ohio State University on methane (read 2026-11-28); that
slow harms leave boiling as the lesser one is common practice, no source. All of them are points of
one well, so that one answer and one packet tell of every row.
"""

import json

import pytest
from command_line import CommandLine
from reading import text_of

from wellbook.book import Book

DAY = "2026-06-03"
BOIL = "full rolling boil"
NO = "do not boil this water to drink it: boiling makes matters worse"
LAST = "it is a last resort for grown-up people only"
LESSER = "a few days of boiled water may be the lesser harm for grown-up people"
VENTED = "with the hood on and a window open"
LOW = ("Nitrate as N", "1", "mg/L")
# What else was found, what is said of it, and whether the advice is to boil.
ROWS = {
    "with nothing else": ((LOW,), "", True),
    "with nitrate over": ((("Nitrate as N", "30", "mg/L"),), NO, False),
    "with nitrate close": ((("Nitrate as N", "9.9", "mg/L"),), NO, False),
    "with nitrate at half": ((("Nitrate as N", "6", "mg/L"),), LAST, False),
    "with nitrate without a basis": ((("Nitrate", "30", "mg/L"),), NO, False),
    "with nitrate not tested": ((), "Nitrate was not tested here of late", True),
    "with nitrite over": ((LOW, ("Nitrite as N", "1.2", "mg/L")), NO, False),
    "with fuel": ((LOW, ("Benzene", "0.4", "ug/L")), NO, False),
    "with solvent": ((LOW, ("Trichloroethylene", "9", "ug/L")), NO, False),
    "with methane": ((LOW, ("Methane", "15", "mg/L")), NO, False),
    "with pesticide": ((LOW, ("Atrazine", "9", "ug/L")), NO, False),
    "with lead": ((LOW, ("Lead", "20", "ug/L")), LESSER, False),
    "with arsenic": ((LOW, ("Arsenic", "11", "ug/L")), LESSER, False),
    "with fluoride": ((LOW, ("Fluoride", "5", "mg/L")), LESSER, False),
    "with uranium": ((LOW, ("Uranium", "60", "ug/L")), LESSER, False),
    "with manganese": ((LOW, ("Manganese", "0.5", "mg/L")), LESSER, False),
    "with PFAS": ((LOW, ("PFOA", "24", "ng/L")), LESSER, False),
    "with radon": ((LOW, ("Radon", "20000", "pCi/L")), VENTED, True),
    "with copper": ((LOW, ("Copper", "2", "mg/L")), "", True),
    "with sulfate": ((LOW, ("Sulfate", "600", "mg/L")), "", True),
    "with sodium": ((LOW, ("Sodium", "300", "mg/L")), "", True),
    "with cloudy water": ((LOW, ("Turbidity", "8", "NTU")), "Let cloudy water settle", True),
    "with chlorine": ((LOW, ("Chlorine residual", "0.4", "mg/L")), "", True),
}


@pytest.fixture(scope="module")
def said(tmp_path_factory):
    """What the command and the packet say at each point, by its name."""
    shell = CommandLine(tmp_path_factory.mktemp("boiling"))
    with Book.create(shell.folder / "home.wellbook") as book:
        well = book.add_well("W")
        for name in ROWS:
            book.add_point(well, name)
    lines = [
        ",".join((DAY, name, *row))
        for name, (others, *_unused) in ROWS.items()
        for row in (("E. coli", "Present", "per 100 mL"), *others)
    ]
    head = "Sample date,Sample Location,Analyte,Result,Units"
    (shell.folder / "a.csv").write_text("\n".join((head, *lines)))
    shell.done("add", "home.wellbook", "a.csv", "--accept")
    told = json.loads(shell.done("status", "home.wellbook", "--on", DAY, "--json").out)
    by_command = {
        point["name"]: " ".join(one["text"] for one in point["cautions"])
        for point in told["wells"][0]["points"]
    }
    shell.done("packet", "home.wellbook", "--for", "buyer", "-o", "p.pdf", "--on", DAY)
    return by_command, by_headings(text_of(shell.folder / "p.pdf"))


def by_headings(text):
    """The usual cautions of a packet by the point they stand under."""
    _before, _heading, cautions = text.rpartition("\nUsual cautions\n")
    told, name = {}, ""
    for line in cautions.partition("\nAfter bacteria were found\n")[0].splitlines():
        if line in ROWS:
            name = line
        told[name] = f"{told.get(name, '')} {line}"
    return told


@pytest.mark.parametrize("name", ROWS)
def test_command_and_packet_say_the_same_of_boiling(said, name):
    _others, says, boils = ROWS[name]
    for where, told in zip(("command", "packet"), said, strict=True):
        assert says in told[name], where
        assert (BOIL in told[name]) is boils, where
