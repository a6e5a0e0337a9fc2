"""Print what a screen reader is told of every page of a book.

python tests/bench/read_aloud.py sample_wells/alder-hollow.wellbook
"""

import shutil
import sys
import tempfile
from datetime import date
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication
from screen_reader import read

from wellbook.support import paths
from wellbook.window.app.main_window import Frame
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.preferences import Preferences
from wellbook.window.common.reference import read_reference

PAGES = ("overview", "tests", "events", "well", "limits", "changes", "parameter")


def main():
    app = QApplication([])
    with tempfile.TemporaryDirectory() as folder:
        book = Path(folder) / Path(sys.argv[1]).name
        shutil.copyfile(sys.argv[1], book)
        store = QSettings(str(Path(folder) / "settings.ini"), QSettings.Format.IniFormat)
        reference = read_reference(paths.resources())
        frame = Frame(reference, Preferences(store), Chooser(), dict, date.today)
        frame.open_book(book)
        frame.show()
        for page in PAGES:
            frame.do("next_parameter" if page == "parameter" else f"go_{page}")
            app.processEvents()
            sys.stdout.write(f"\n== {page}\n")
            sys.stdout.writelines(f"{one}\n" for one in read(frame.view.at(page)))
        frame.close()


if __name__ == "__main__":
    main()
