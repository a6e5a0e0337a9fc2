"""An amended report beside the test that is in the book: take it, keep the test, or keep both."""

from collections.abc import Iterator
from dataclasses import dataclass

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QWidget

from wellbook.intake.fate import Fate, Outcome
from wellbook.support.translation import _, ngettext
from wellbook.water.values.catalogue import Catalogue
from wellbook.window.common.words import day_words, reading_words
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import words
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table


@dataclass(frozen=True, slots=True)
class _Line:
    place: int
    name: str
    there: str
    here: str


class AmendedDialog(Dialog):
    """What differs, side by side. Nothing is chosen beforehand, and Escape leaves all as it is.

    Signals:
        take: The figures of this report are to take the place of those in the book.
        both: Both are to stand in the book, each as a test of its own.
    """

    take = Signal()
    both = Signal()

    def __init__(self, outcome: Outcome, name: str, catalogue: Catalogue, parent: QWidget) -> None:
        days = ", ".join(dict.fromkeys(day_words(met.old.collected.day) for met in outcome.met))
        title = _("{name} differs from the test of {day}").format(name=name, day=days)
        super().__init__(title, parent, width=54, height=26)
        self.table = Table(_("What differs"))
        self.model = RowsModel(_columns(), lambda line: line.place, self)
        self.table.setModel(self.model)
        self.model.show(list(_lines(outcome, catalogue)))
        self.table.fit(stretch=0)
        self.table.remember("what differs")
        self.rows.addWidget(
            words(
                _(
                    "The same sample is in the book with other figures. Taking the new figures "
                    "corrects the test; what it said before stays in the list of corrections."
                )
            )
        )
        self.rows.addWidget(self.table, 1)
        buttons = QDialogButtonBox()
        role = QDialogButtonBox.ButtonRole
        self.take_button = buttons.addButton(_("&Take this report"), role.ActionRole)
        self.keep_button = buttons.addButton(_("&Keep what is in the book"), role.RejectRole)
        self.both_button = buttons.addButton(_("Keep &both"), role.ActionRole)
        for button, chosen in ((self.take_button, self.take), (self.both_button, self.both)):
            button.clicked.connect(self.accept)
            button.clicked.connect(chosen)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)

    def ask(self) -> None:
        """Open it over the review."""
        self.finished.connect(self.deleteLater)
        QDialog.open(self)


def _columns() -> tuple[Column, ...]:
    return (
        Column(_("Parameter"), lambda line: line.name),
        Column(_("In the book"), lambda line: line.there),
        Column(_("In this report"), lambda line: line.here),
    )


def _lines(outcome: Outcome, catalogue: Catalogue) -> Iterator[_Line]:
    """What differs first, then what only the report has."""
    rows = [
        (new.parameter, new.name, reading_words(old.reading), reading_words(new.reading))
        for met in outcome.met
        for old, new in met.other
    ]
    rows += [
        (new.parameter, new.name, "", reading_words(new.reading))
        for met in outcome.met
        for new in met.missing
    ]
    for place, (key, printed, there, here) in enumerate(rows):
        known = catalogue.parameters.get(key)
        yield _Line(place, known.name if known else printed, there or _("not in it"), here)


def met_words(outcome: Outcome) -> str:
    """That a file holds more readings of tests that are in the book, or other ones."""
    days = ", ".join(dict.fromkeys(day_words(met.old.collected.day) for met in outcome.met))
    if outcome.fate is Fate.OTHER:
        n = sum(len(met.other) for met in outcome.met)
        return ngettext(
            "The test of {day} is in the book already; {n} reading of this file differs.",
            "The test of {day} is in the book already; {n} readings of this file differ.",
            n,
        ).format(day=days, n=n)
    n = outcome.adds
    return ngettext(
        "The test of {day} is in the book already; {n} reading of this file is new.",
        "The test of {day} is in the book already; {n} readings of this file are new.",
        n,
    ).format(day=days, n=n)


def adding_words(outcome: Outcome) -> str:
    """What adds new readings to tests of the book, as a button says it."""
    n = outcome.adds
    return ngettext("Add the {n} new reading", "Add the {n} new readings", n).format(n=n)
