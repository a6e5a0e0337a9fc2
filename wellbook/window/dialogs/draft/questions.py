"""What is odd about a test that is about to be kept, in sentences."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Protocol

from PySide6.QtWidgets import QInputDialog, QLineEdit, QWidget

from wellbook.book.rows import NewResult, NewSample
from wellbook.intake import Told
from wellbook.intake.reviewing import results_of
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.findings import Severity
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.water.values.signs import normal_name
from wellbook.window.common.household import Household
from wellbook.window.common.words import moment_words, understood_words
from wellbook.window.dialogs.draft.lab_source import LabSource
from wellbook.window.widgets.message_bar import MessageBar
from wellbook.wording import findings

_OLDEST = 100  # years; an older day is asked about, as its year may be a slip. Our own bound


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
    odd = (findings.said(oddity) for oddity in found if oddity.severity is Severity.ASK)
    return (*_as_typed(sample, household), *odd)


def questions_of_change(
    before: Sequence[Result], after: Sequence[Result], household: Household
) -> tuple[str, ...]:
    """What a correction makes odd in a test, and was not before.

    Args:
        before: The results of the test as they are in the book.
        after: The same as they would be.
        household: Whose book it is.
    """
    from wellbook.water.plausibility.checks import check

    def odd(results: Sequence[Result]) -> list[str]:
        others = household.book.results(point=results[0].point) if results else ()
        received = results[0].received if results else None
        found = check(
            results, household.catalogue, others, today=household.today, received=received
        )
        return [findings.said(one) for one in found if one.severity is Severity.ASK]

    known = odd(before)
    return tuple(said for said in odd(after) if said not in known)


def require_past(day: LocalTime, household: Household) -> None:
    """Refuse a day of sampling that lies ahead.

    Raises:
        Fault: It does.
    """
    if day.day > household.today:
        said = _("{day} lies ahead: type the day on which it was drawn.")
        raise Fault(said.format(day=moment_words(day)))


def _as_typed(sample: NewSample, household: Household) -> Iterator[str]:
    """What can be a slip of whoever typed it: what is not understood is judged by no limit."""
    if sample.collected.day.year < household.today.year - _OLDEST:
        said = _("{day} is more than {n} years ago. Is the year right?")
        yield said.format(day=moment_words(sample.collected), n=_OLDEST)
    seen: dict[tuple[str, str], NewResult] = {}
    for new in sample.results:
        name, text = new.name, new.reading.text
        if not new.parameter:
            said = _("“{name}” is no parameter that Wellbook knows: no limit is held against it.")
            yield said.format(name=name)
        if new.reading.kind is Kind.TEXT:
            said = _("{name}: “{text}” is not understood, and no limit is held against it.")
            yield said.format(name=name, text=text)
        first = seen.setdefault((new.parameter, normal_name(name)), new)
        if first is not new:
            both = [understood_words(one.reading) for one in (first, new)]
            said = _("{name} stands here twice: {first} and {second}. Is that right?")
            yield said.format(name=name, first=both[0], second=both[1])


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
