"""A book of forty years, a test a month of thirty parameters: 14,400 results.

python tests/bench/long_book.py long.wellbook [lab.csv]

With a second name the table of one further test is written there, to be taken in.
"""

import csv
import sys
import tempfile
from datetime import date
from pathlib import Path

import budgets

FORTY_YEARS = 40
THIRTY = budgets.PARAMETERS[:26] + budgets.PARAMETERS[-4:]  # those with a drawn limit, pH, solids
RESULTS = FORTY_YEARS * 12 * len(THIRTY)


def write_table(path, readings, last):
    """A lab's long table, of a test a month up to the last day."""
    with path.open("w", newline="") as file:
        out = csv.writer(file)
        out.writerow(("Sample ID", "Sample Date", "Analyte", "Result", "Units"))
        out.writerows(budgets.rows(readings, FORTY_YEARS, THIRTY, last))
    return path


def make(path):
    """Make the book, as commands make it."""
    with tempfile.TemporaryDirectory() as folder:
        table = write_table(Path(folder) / "forty-years.csv", RESULTS, date(2025, 11, 20))
        budgets.wellbook("new", path)()
        budgets.wellbook("add", path, table, "--accept")()
    return path


def main():
    book, *further = sys.argv[1:]
    make(Path(book))
    for name in further:
        write_table(Path(name), len(THIRTY), date(2025, 12, 18))


if __name__ == "__main__":
    main()
