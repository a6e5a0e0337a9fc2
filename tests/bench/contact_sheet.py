"""Every page and dialog of the window on one sheet, to look over a language or a size of screen.

python tests/bench/contact_sheet.py sheet.png --language es --size 1024x700
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
COLUMNS, GAP = 4, 24  # pictures beside one another, pixels between them


def pictures(folder, language, size):
    """Go to every place in a process of its own; their pictures and names."""
    width, height = size.split("x")
    screen = {"name": "screen", "x": 0, "y": 0, "width": int(width), "height": int(height)}
    screen |= {"logicalDpi": 96, "logicalBaseDpi": 96, "dpr": 1}
    (folder / "screens.json").write_text(json.dumps({"screens": [screen]}))
    book = Path(shutil.copy(ROOT / "sample_wells" / f"{HOUSEHOLD}.wellbook", folder))
    for file in (ROOT / "sample_wells" / HOUSEHOLD / "to-add").iterdir():
        shutil.copy(file, folder / f"{HOUSEHOLD}-{file.name}")
    report = folder / "report.json"
    env = os.environ | {
        "HOME": str(folder),
        "PYTHONPATH": str(ROOT / "tests"),
        "LANGUAGE": language,
        "LANG": f"{language}.UTF-8",
        "QT_QPA_PLATFORM": f"offscreen:configfile={folder / 'screens.json'}",
    }
    for name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"):
        env[name] = str(folder / name)
    told = [sys.executable, JOURNEYS / "runner.py", "album:every_place", report, folder, book]
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
    given = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        sheet(pictures(Path(folder), given.language, given.size)).save(given.out)


if __name__ == "__main__":
    main()
