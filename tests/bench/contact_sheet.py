"""Every page and dialog of the window on one sheet, to look over a language or a size of screen.

python tests/bench/contact_sheet.py sheet.png --language es --size 1024x700
python tests/bench/contact_sheet.py sheet.png --page dark --scale 1.5 --only page
python tests/bench/contact_sheet.py sheet.png --language loud --household first-year
python tests/bench/contact_sheet.py sheet.png --household my.wellbook --only page

The language `loud` makes every sentence longer and strange, so that what is cut or never
translated is seen. A household is an invented one, `empty`, `forty-years`
(thirty parameters a month) or any book; of what is not one of
ours only the pages can be gone to.
"""

import argparse
import json
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image, ImageDraw

ROOT = Path(__file__).resolve().parents[2]
JOURNEYS = ROOT / "tests" / "journeys" / "window"
HOUSEHOLD = "alder-hollow"
PAGES = ("light", "dark", "contrast", "dark contrast")
COLUMNS, GAP = 4, 24  # pictures beside one another, pixels between them


def book_of(folder, household):
    """A copy of the household's book, with the file of its lab beside it if there is one."""
    if household == "empty":
        from wellbook.book import Book

        with Book.create(folder / "empty.wellbook") as book:
            return book.path
    if household == "forty-years":
        import long_book

        return long_book.make(folder / "forty-years.wellbook")
    known = ROOT / "sample_wells" / f"{household}.wellbook"
    book = Path(shutil.copy(known if known.is_file() else household, folder))
    to_add = ROOT / "sample_wells" / book.stem / "to-add"
    for file in to_add.iterdir() if to_add.is_dir() else ():
        shutil.copy(file, folder / f"{book.stem}-{file.name}")
    return book


def choose_page(folder, page):
    """Have the program start with its light or its dark page."""
    kept = folder / "XDG_CONFIG_HOME" / "wellbook" / "wellbook.ini"
    kept.parent.mkdir(parents=True)
    kept.write_text(f"[General]\npage={page}\n")


def pictures(folder, given):
    """Go to every place in a process of its own; their pictures and names."""
    width, height = map(int, given.size.split("x"))
    screen = {"name": "screen", "x": 0, "y": 0, "width": width, "height": height}
    screen |= {"logicalDpi": 96, "logicalBaseDpi": 96, "dpr": 1}
    (folder / "screens.json").write_text(json.dumps({"screens": [screen]}))
    book, language = book_of(folder, given.household), given.language
    choose_page(folder, given.page)
    report = folder / "report.json"
    env = os.environ | {
        "HOME": str(folder),
        "PYTHONPATH": str(ROOT / "tests"),
        "LANGUAGE": language,
        "LANG": f"{language}.UTF-8",
        "QT_SCALE_FACTOR": str(given.scale),
        "QT_QPA_PLATFORM": f"offscreen:configfile={folder / 'screens.json'}",
    }
    if language == "loud":
        env |= {"LANGUAGE": "es", "LANG": "es.UTF-8", "WELLBOOK_JOURNEY_IS_LOUD": "1"}
    for name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"):
        env[name] = str(folder / name)
    told = [
        sys.executable,
        JOURNEYS / "runner.py",
        f"album:every_{given.only}",
        report,
        folder,
        book,
    ]
    subprocess.run(told, env=env, check=True)
    found = json.loads(report.read_text())
    sys.stdout.write("".join(f"{line}\n" for line in found["failures"]))
    return [(Image.open(folder / name), place) for name, place in found["facts"].items()]


def sheet(shown):
    wide = max(picture.width for picture, _ in shown) + GAP
    high = max(picture.height for picture, _ in shown) + 2 * GAP
    rows = -(-len(shown) // COLUMNS)
    made = Image.new("RGB", (wide * COLUMNS, high * rows), "white")
    for number, (picture, place) in enumerate(shown):
        at = (number % COLUMNS * wide, number // COLUMNS * high)
        ImageDraw.Draw(made).text(at, place, fill="black")
        made.paste(picture, (at[0], at[1] + GAP))
    return made


def main():
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("out", type=Path)
    asked.add_argument("--language", default="es")
    asked.add_argument("--size", default="1280x720")
    asked.add_argument("--page", default="light", choices=PAGES)
    asked.add_argument("--scale", default=1.0, type=float, help="1, 1.5 or 2 pixels a dot")
    asked.add_argument("--household", default=HOUSEHOLD)
    asked.add_argument("--only", default="place", choices=("place", "page"))
    given = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        sheet(pictures(Path(folder), given)).save(given.out)


if __name__ == "__main__":
    main()
