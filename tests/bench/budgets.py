"""How long each work takes beside its baseline, how that grows, and how much memory it holds.

    python tests/bench/budgets.py                        # 1,000, 10,000 and 100,000 readings
    python tests/bench/budgets.py --readings 100000,1000000 --rounds 1 --folder books  # minutes
    python tests/bench/budgets.py status window --rounds 5

Processor time is compared, of whole processes, ours and the baseline in turn, at their median. A
growth exponent is told from the two largest sizes: 1 is in proportion, 2 is quadratic. A table too
large for one file is taken in as several. `packet as charts` is beside a spreadsheet program that
prints as many charts of the same figures, where one is installed.
"""

import argparse
import csv
import math
import os
import random
import shutil
import statistics
import sys
import tempfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import islice
from pathlib import Path

HERE = Path(__file__).parent
PYTHON = sys.executable
# Names as a lab prints them, unit, a usual figure and its last printed digit.
PARAMETERS = (
    ("Nitrate as N", "mg/L", 6.0, 2), ("Arsenic", "ug/L", 4.0, 1), ("Lead", "ug/L", 2.0, 1),
    ("Copper", "mg/L", 0.3, 3), ("Iron", "mg/L", 0.2, 3), ("Manganese", "mg/L", 0.04, 3),
    ("Chloride", "mg/L", 40.0, 1), ("Sulfate", "mg/L", 30.0, 1), ("Fluoride", "mg/L", 0.4, 2),
    ("Sodium", "mg/L", 25.0, 1), ("Calcium", "mg/L", 60.0, 1), ("Magnesium", "mg/L", 18.0, 1),
    ("Potassium", "mg/L", 2.0, 2), ("Barium", "mg/L", 0.1, 3), ("Boron", "mg/L", 0.1, 3),
    ("Zinc", "mg/L", 0.1, 3), ("Nickel", "ug/L", 3.0, 1), ("Cadmium", "ug/L", 0.3, 2),
    ("Chromium", "ug/L", 2.0, 1), ("Selenium", "ug/L", 3.0, 1), ("Antimony", "ug/L", 0.6, 2),
    ("Beryllium", "ug/L", 0.3, 2), ("Thallium", "ug/L", 0.2, 2), ("Mercury", "ug/L", 0.2, 2),
    ("Uranium", "ug/L", 5.0, 1), ("Aluminum", "mg/L", 0.05, 3), ("Silver", "mg/L", 0.01, 3),
    ("Strontium", "mg/L", 0.5, 2), ("Lithium", "ug/L", 8.0, 1), ("Vanadium", "ug/L", 3.0, 1),
    ("Molybdenum", "ug/L", 4.0, 1), ("Cobalt", "ug/L", 1.0, 2), ("Bromide", "mg/L", 0.1, 3),
    ("Silica", "mg/L", 15.0, 1), ("Phosphorus", "mg/L", 0.05, 3), ("Turbidity", "NTU", 0.5, 2),
    ("pH", "", 7.2, 1), ("Conductivity", "uS/cm", 600.0, 0), ("Total Alkalinity", "mg/L", 210.0, 0),
    ("Total Dissolved Solids", "mg/L", 380.0, 0),
)  # fmt: skip
YEARS = 30
_FEW, _CHARTS = 2, 40  # drawn to warm up, and measured
_A_FILE = 100_000  # rows, well below what is taken in at once
MB = 1e6


@dataclass(frozen=True, slots=True)
class Spent:
    """What a process took: processor seconds, and the most memory it held, MB.

    Attributes:
        file: Size of the file it wrote, MB; 0 for none.
    """

    seconds: float
    memory: float
    file: float = 0


def rows(
    readings: int,
    years: int = YEARS,
    parameters: Sequence[tuple[str, str, float, int]] = PARAMETERS,
    last: date = date(2025, 11, 20),
) -> Iterator[tuple[str, ...]]:
    """A lab's long table: the same every time, so many years or a day a sample."""
    chance = random.Random(7)
    samples = max(1, readings // len(parameters))
    step = max(1.0, years * 365.25 / samples)
    for number in range(samples):
        day = last - timedelta(days=round((samples - 1 - number) * step))
        for name, unit, usual, digits in parameters:
            drift = 1 + 0.3 * number / samples
            figure = usual * drift * math.exp(chance.gauss(0, 0.05 if name == "pH" else 0.25))
            limit = f"{usual * 0.8:.{digits}f}"
            is_low = name not in {"pH", "Conductivity"} and figure < float(limit)
            printed = f"<{limit}" if is_low else f"{figure:.{digits}f}"
            yield (f"S{number + 1}", day.isoformat(), name, printed, unit)


def make_tables(folder: Path, readings: int) -> list[Path]:
    """A lab's CSV files with so many readings, whole samples in each."""
    every, made = rows(readings), []
    while some := list(islice(every, _A_FILE)):
        made.append(folder / f"{readings}-{len(made) + 1}.csv")
        with made[-1].open("w", newline="") as file:
            out = csv.writer(file)
            out.writerow(("Sample ID", "Sample Date", "Analyte", "Result", "Units"))
            out.writerows(some)
    return made


def spend(arguments: Sequence[str | Path], program: str = PYTHON) -> Spent:
    """Run Python, or another program, with arguments and see what it took.

    Raises:
        SystemExit: It failed; its words were printed.
    """
    with tempfile.TemporaryFile() as told:
        silent = [(os.POSIX_SPAWN_DUP2, told.fileno(), 1), (os.POSIX_SPAWN_DUP2, told.fileno(), 2)]
        child = os.posix_spawn(
            program, [program, *map(str, arguments)], os.environ, file_actions=silent
        )
        _child, status, used = os.wait4(child, 0)
        if os.waitstatus_to_exitcode(status) not in {0, 3}:  # something is due
            told.seek(0)
            sys.exit(f"{arguments}: {told.read().decode()[-2000:]}")
    return Spent(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def wellbook(*arguments: str | Path) -> Callable[[], Spent]:
    """A command of Wellbook, to be measured."""
    return lambda: spend(["-m", "wellbook", *arguments])


def script(name: str, *arguments: str | Path) -> Callable[[], Spent]:
    """A script of `budget_works.py`, to be measured."""
    return lambda: spend([HERE / "budget_works.py", name, *arguments])


def _writing(path: Path, work: Callable[[], Spent]) -> Callable[[], Spent]:
    """Work that writes a file, with the size of that."""

    def measured() -> Spent:
        path.unlink(missing_ok=True)
        return replace(work(), file=path.stat().st_size / MB)

    return measured


def _each(name: str, book: Path) -> Callable[[], Spent]:
    """What one more chart takes, once the first ones were drawn."""

    def measured() -> Spent:
        few, many = (script(name, book, str(n))() for n in (_FEW, _FEW + _CHARTS))
        return Spent((many.seconds - few.seconds) / _CHARTS, many.memory)

    return measured


@dataclass(frozen=True, slots=True)
class Work:
    """One thing that people wait for.

    Attributes:
        name: What it is.
        ours: Does it.
        bare: The least that does the same; None where there is nothing to compare with.
        budget: How many times the baseline it may take; 0 for none.
        more: MB of memory it may hold beyond the baseline; 0 where that is not asked.
        most: MB its file may have; 0 where that is not asked.
        before: Makes ready for each round.
    """

    name: str
    ours: Callable[[], Spent]
    bare: Callable[[], Spent] | None = None
    budget: float = 0
    more: float = 0
    most: float = 0
    before: Callable[[], object] = lambda: None


def works(folder: Path, readings: int) -> Iterable[Work]:
    """Everything that is measured on a book with so many readings."""
    tables = make_tables(folder, readings)
    (one,) = make_tables(folder, 1)
    one.write_text(one.read_text().replace("2025-11-20", "2025-11-21"))
    book, empty = folder / f"{readings}.wellbook", folder / "empty.wellbook"
    copy = folder / "copy.wellbook"

    def fresh(source: Path) -> Callable[[], object]:
        return lambda: copy.write_bytes(source.read_bytes())

    if not empty.exists():
        wellbook("new", empty)()
    if not book.exists():
        wellbook("new", book)()
        wellbook("add", book, *tables, "--accept")()
    undone = folder / f"{readings} and one.wellbook"
    undone.write_bytes(book.read_bytes())
    wellbook("add", undone, one, "--accept")()
    csv_and_sql = script("csv-sql", folder / "bare.sqlite", *tables)
    csv_and_tables = script("csv-tables", empty, folder / "bare.sqlite", *tables)
    bare_window = script("bare-window")
    yield Work("take in the table", wellbook("add", copy, *tables, "--accept"), csv_and_sql, 6,
               before=fresh(empty))  # fmt: skip
    yield Work("take in beside tables", wellbook("add", copy, *tables, "--accept"),
               csv_and_tables, before=fresh(empty))  # fmt: skip
    yield Work("add one more", wellbook("add", copy, one, "--accept"), before=fresh(book))
    yield Work("undo", wellbook("undo", copy), before=fresh(undone))
    kept = Path(os.environ["XDG_DATA_HOME"]) / "wellbook" / "cache" / "histories"
    yield Work("first status", wellbook("status", book), script("sql", book),
               before=lambda: shutil.rmtree(kept, ignore_errors=True))  # fmt: skip
    yield Work("status", wellbook("status", book), script("sql", book), 2)
    yield Work("due", wellbook("due", book))
    yield Work("check", wellbook("check", book))
    yield Work("open the window", script("window", book), bare_window, 2)
    yield Work("--help", wellbook("--help"), lambda: spend(["-c", "import click"]), 1.4)
    yield Work("next chart", _each("charts", book), _each("bare-charts", book), 1.3)
    yield Work("window and a chart", script("window-chart", book), script("bare-window-chart"),
               more=60)  # fmt: skip
    packet, sheet = folder / "packet.pdf", folder / "sheet.xlsx"
    written = _writing(packet, wellbook("packet", book, "--for", "buyer", "-o", packet))
    bare = _writing(folder / "bare.pdf", script("bare-packet", book, folder / "bare.pdf"))
    yield Work("packet", written, bare, 2, most=3)
    office = shutil.which("soffice")
    if office:
        words = ["--headless", "--convert-to", "pdf", "--outdir", folder, sheet]
        printed = _writing(sheet.with_suffix(".pdf"), lambda: spend(words, office))
        yield Work("packet as charts", written, printed, before=script("spreadsheet", book, sheet))
    else:
        _say("  packet as charts         the spreadsheet program (soffice) is not installed")


def measure(work: Work, rounds: int) -> tuple[Spent, Spent | None]:
    """Ours and the baseline in turn, each at its median."""
    ours, bare = [], []
    for _ in range(rounds):
        work.before()
        ours.append(work.ours())
        if work.bare:
            bare.append(work.bare())
    return _middle(ours), _middle(bare) if bare else None


def _middle(all_spent: Sequence[Spent]) -> Spent:
    return Spent(
        statistics.median(spent.seconds for spent in all_spent),
        statistics.median(spent.memory for spent in all_spent),
        all_spent[-1].file,
    )


def _say(line: str) -> None:
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def _line(work: Work, ours: Spent, bare: Spent | None) -> str:
    beside = ""
    if bare:
        ratio = ours.seconds / bare.seconds
        verdict = _verdict(ratio <= work.budget) if work.budget else ""
        beside = f"{bare.seconds:8.3f} {ratio:7.2f} {work.budget or '':>6}{verdict}"
    if bare and work.more:
        beyond = ours.memory - bare.memory
        beside += f"   {beyond:+.0f} MB of {work.more:.0f}" + _verdict(beyond <= work.more)
    if ours.file:
        beside += f"   {ours.file:.2f} MB"
        beside += f" of {work.most:.0f}" + _verdict(ours.file <= work.most) if work.most else ""
    return f"  {work.name:24}{ours.seconds:9.3f} s {ours.memory:7.0f} MB {beside}"


def _verdict(is_met: bool) -> str:  # noqa: FBT001  it is what it is made of
    return " met" if is_met else " MISSED"


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("only", nargs="*", help="words of the works to measure")
    parser.add_argument("--readings", default="1000,10000,100000")
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--folder", type=Path, help="keeps the books for another run")
    chosen = parser.parse_args()
    sizes = [int(size) for size in chosen.readings.split(",")]
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    seen: dict[str, list[tuple[int, Spent]]] = {}
    with tempfile.TemporaryDirectory() as made:
        folder = chosen.folder or Path(made)
        folder.mkdir(exist_ok=True)
        os.environ["HOME"] = os.environ["XDG_DATA_HOME"] = os.environ["XDG_CONFIG_HOME"] = made
        for size in sizes:
            _say(f"{size} readings{'':18}ours      memory     bare   ratio budget")
            for work in works(folder, size):
                if chosen.only and not any(word in work.name for word in chosen.only):
                    continue
                ours, bare = measure(work, chosen.rounds)
                seen.setdefault(work.name, []).append((size, ours))
                _say(_line(work, ours, bare))
    if len(sizes) > 1:
        _say("growth exponents between the two largest sizes: time, memory")
        for name, found in seen.items():
            (few, less), (many, more) = found[-2:]
            time, memory = (
                math.log(b / a) / math.log(many / few)
                for a, b in ((less.seconds, more.seconds), (less.memory, more.memory))
            )
            _say(f"  {name:24}{time:9.2f} {memory:9.2f}")


if __name__ == "__main__":
    main()
