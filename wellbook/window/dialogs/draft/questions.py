"""What is odd about a test that is about to be kept, in sentences."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Protocol

from PySide6.QtWidgets import QInputDialog, QLineEdit, QWidget

from wellbook.book.rows import NewSample
from wellbook.intake import Told
from wellbook.intake.reviewing import results_of
from wellbook.support.translation import _
from wellbook.water.values.findings import Severity
from wellbook.window.common.household import Household
from wellbook.window.dialogs.draft.lab_source import LabSource
from wellbook.window.widgets.message_bar import MessageBar
from wellbook.wording import findings


def questions(sample: NewSample, household: Household) -> tuple[str, ...]:
    """What should be looked at before this sample is kept."""
    from wellbook.water.plausibility.checks import check

    history = household.book.results(point=sample.point)
    found = check(
        results_of(sample),
        household.catalogue,
        history,
        today=household.today,
        received=sample.received,
    )
    return tuple(findings.said(oddity) for oddity in found if oddity.severity is Severity.ASK)


class Keeps(Protocol):
    """A dialog that keeps a report, and is told what becomes of a finding that it denies."""

    bar: MessageBar
    told: Told

    def accept(self) -> None:
        """Keep it."""


def ask_denied(dialog: Keeps) -> None:
    """Ask what becomes of a finding that a lab told before, and that its report denies."""

    def go_on(told: Told) -> None:
        dialog.told = told
        dialog.accept()

    withdrawn = (_("The lab has withdrawn it"), partial(go_on, Told.WITHDRAWN))
    dialog.bar.say(dialog.bar.text, _("Keep both"), partial(go_on, Told.KEEP), withdrawn)


def password_dialog(
    source: LabSource, parent: QWidget, then: Callable[[LabSource], object]
) -> QInputDialog:
    """The question for the password of a locked PDF; `then` takes the file with what is typed."""
    dialog = QInputDialog(parent)
    dialog.setWindowTitle(_("Password of {name}").format(name=source.name))
    wrong = _("This password does not open it.") + " " if source.password else ""
    said = _("{name} is locked. Type the password that the lab sent.")
    dialog.setLabelText(wrong + said.format(name=source.name))
    dialog.setTextEchoMode(QLineEdit.EchoMode.Password)
    dialog.textValueSelected.connect(lambda text: then(replace(source, password=text)))
    return dialog
