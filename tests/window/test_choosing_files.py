"""The dialog for a lab’s files shows every kind that can be read, in letters of either case."""

from pathlib import PurePath

import pytest
from PySide6.QtCore import QDir, QTimer
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget

from wellbook.intake.files.kinds import ENDINGS, Kind
from wellbook.window.common.choosing import Chooser

NAMES = ("report.pdf", "SCAN.PDF", "photo.JPG", "results.xlsx", "old.XLS", "mail.eml", "page.htm",
         "letter.docx", "notes.odt", "all.zip", "data.json", "data.xml", "table.CSV")  # fmt: skip


@pytest.fixture
def shown(qtbot, tmp_path):
    """The patterns that the real dialog starts with."""
    found = []

    def look():
        asked = QApplication.activeModalWidget()
        assert isinstance(asked, QFileDialog)
        found.append(asked.selectedNameFilter())
        asked.reject()

    parent = QWidget()
    qtbot.addWidget(parent)
    QTimer.singleShot(200, look)
    assert Chooser(tmp_path).lab_files(parent) == []
    return found[0].partition("(")[2].rstrip(")").split()


def test_a_report_of_any_kind_is_in_sight(shown):
    assert [name for name in NAMES if not QDir.match(shown, name)] == []
    assert not QDir.match(shown, "home.wellbook")


def test_each_kind_has_endings_of_its_own():
    assert set(ENDINGS) == set(Kind)
    every = [end for ends in ENDINGS.values() for end in ends]
    assert len(every) == len(set(every))
    assert all(PurePath(f"a.{end}").suffix == f".{end}" for end in every)
