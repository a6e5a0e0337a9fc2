"""Correcting a test, one reading or its facts, with a reason; the first entry stays."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import QFormLayout, QLineEdit, QPlainTextEdit, QWidget

from wellbook.book.rows import NewResult, Sample
from wellbook.support.errors import Fault
from wellbook.support.money import CURRENCIES, read_cost
from wellbook.support.translation import _
from wellbook.water.values.results import Result
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.common.typed_days import (
    drawn_hint,
    moment_hint,
    partial_hint,
    read_drawn,
    read_moment,
    read_partial,
    written,
)
from wellbook.window.common.words import moment_words, reading_words, reason_hint
from wellbook.window.dialogs.draft.hand_rows import HandRow, heads
from wellbook.window.dialogs.draft.questions import questions_of_change, require_past
from wellbook.window.dialogs.fields_dialog import Field, FieldsDialog, Values
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import named, words
from wellbook.wording import vocabulary


class _ReadingDialog(EntryDialog):
    """The fields of one reading, and the reason for the entry."""

    def __init__(
        self, titles: tuple[str, str], said: str, household: Household, parent: QWidget
    ) -> None:
        super().__init__(*titles, parent)
        self._household = household
        self.line = HandRow(1, household.catalogue, self)
        self.method = QLineEdit()
        self.reason = QPlainTextEdit()
        self.reason.setPlaceholderText(reason_hint())
        self.reason.setTabChangesFocus(True)
        self.reason.setFixedHeight(em(self) * 4)
        self.rows.addWidget(words(said))
        form = QFormLayout()
        for label, widget in zip(heads(), self.line.fields, strict=True):
            form.addRow(named(label, widget), widget)
            widget.setAccessibleName(label)
        form.addRow(_("Understood as"), self.line.said)
        form.addRow(_("&Method"), self.method)
        form.addRow(_("&Reason"), self.reason)
        self.rows.addLayout(form)
        self.finish()

    def _require(self, new: NewResult) -> None:
        if not new.name or not new.reading.text:
            raise Fault(_("Enter a parameter and a result as printed."))


class AddResultDialog(_ReadingDialog):
    """A reading that was left out when its test was entered."""

    def __init__(self, household: Household, sample: Sample, parent: QWidget) -> None:
        titles = _("Add a reading"), _("Keep the reading")
        said = _("It is added to the test of {day}.").format(day=moment_words(sample.collected))
        super().__init__(titles, said, household, parent)
        self._sample = sample
        self.line.parameter.setFocus()

    def _odd_by(self, new: NewResult) -> tuple[str, ...]:
        """What the reading makes odd in its test."""
        sample = self._sample
        before = self._household.book.results(sample=sample.id)
        added = Result(
            0, sample.id, new.parameter, new.name, new.reading, sample.collected, sample.point,
            reporting_limit=new.reporting_limit, received=sample.received,
        )  # fmt: skip
        return questions_of_change(before, [*before, added], self._household)

    def keep(self) -> str:
        """Write the reading.

        Raises:
            Fault: It can't be kept, or it is odd in a way that was not yet asked.
        """
        new = replace(self.line.new_result(), method=self.method.text().strip())
        self._require(new)
        self.ask_once(self._odd_by(new))
        book, reason = self._household.book, self.reason.toPlainText()
        self._household.apart(lambda: book.add_result(self._sample.id, new, reason))
        return _("The reading is kept: {name} {reading}.").format(
            name=new.name, reading=reading_words(new.reading)
        )


class CorrectResultDialog(_ReadingDialog):
    """The fields of one reading as they were entered, and the reason for changing them."""

    def __init__(
        self, household: Household, sample: Sample, result: Result, parent: QWidget
    ) -> None:
        titles = _("Correct a reading"), _("Keep the correction")
        first = _("First entered: {reading}. It stays in the journal beside the correction.")
        said = first.format(reading=reading_words(result.reading))
        super().__init__(titles, said, household, parent)
        self._sample, self._result = sample, result
        known = household.catalogue.parameters.get(result.parameter)
        self._called = known.name if known else result.name
        self.line.parameter.setCurrentText(self._called)
        self.line.result.setText(result.reading.text)
        self.line.unit.setCurrentText(result.reading.unit)
        self.line.say_basis(result.reading.basis)
        self.line.limit.setText(result.reporting_limit)
        self.line.settle(result.reading.number)
        self.method.setText(result.method)
        self.line.result.setFocus()

    def _corrected(self) -> NewResult:
        """What is entered now; what a person can't see here stays as it was."""
        old, new = self._result, self.line.new_result()
        typed = (new.reading.text, new.reading.unit, new.reading.basis, new.reporting_limit)
        before = (old.reading.text, old.reading.unit, old.reading.basis, old.reporting_limit)
        reading = (
            old.reading
            if typed == before
            else replace(
                new.reading,
                fraction=old.reading.fraction,
                flags=new.reading.flags | old.reading.flags,
            )
        )
        is_same = new.name == self._called
        return replace(
            new,
            parameter=old.parameter if is_same else new.parameter,
            name=old.name if is_same else new.name,
            reading=reading,
            method=self.method.text().strip(),
            detection_limit=old.detection_limit,
            qualifier=old.qualifier,
            lab="" if old.lab == self._sample.lab else old.lab,
            analysed=old.analysed,
            draw="" if old.draw == self._sample.draw else old.draw,
        )

    def _odd_by(self, new: NewResult) -> tuple[str, ...]:
        """What the correction makes odd."""
        old = self._result
        before = self._household.book.results(sample=self._sample.id)
        changed = replace(
            old,
            parameter=new.parameter,
            name=new.name,
            reading=new.reading,
            reporting_limit=new.reporting_limit,
        )
        after = [changed if one.id == old.id else one for one in before]
        return questions_of_change(before, after, self._household)

    def keep(self) -> str:
        """Write the correction.

        Raises:
            Fault: It can't be kept, or it is odd in a way that was not yet asked.
        """
        new = self._corrected()
        self._require(new)
        self.ask_once(self._odd_by(new))
        book, reason = self._household.book, self.reason.toPlainText()
        self._household.apart(lambda: book.correct_result(self._result.id, new, reason))
        return _("The reading is corrected: {name} {reading}.").format(
            name=self._called, reading=reading_words(new.reading)
        )


class CorrectSampleDialog(FieldsDialog):
    """The facts of a test as they were entered, and the reason for changing them."""

    def __init__(self, household: Household, sample: Sample, parent: QWidget) -> None:
        said = _("Correct the test of {day}").format(day=moment_words(sample.collected))
        super().__init__(
            (said, _("Keep the correction")),
            _sample_fields(household, sample),
            self._write_changes,
            parent,
            intro=_("The first entry stays in the journal beside the correction."),
        )
        self._household, self._sample = household, sample

    def _write_changes(self, values: Values) -> str:
        reason = values.pop("reason")
        household, sample = self._household, self._sample
        changes: Any = _changes(values, sample)
        if changes["collected"] != sample.collected:
            require_past(changes["collected"], household)
        before = household.book.results(sample=sample.id)
        facts = {key: changes[key] for key in ("collected", "received", "point")}
        after = [replace(one, **facts) for one in before]
        self.ask_once(questions_of_change(before, after, household))
        household.apart(lambda: household.book.correct_sample(sample.id, reason, **changes))
        day = moment_words(household.book.sample(sample.id).collected)
        return _("The test of {day} is corrected.").format(day=day)


def _sample_fields(household: Household, sample: Sample) -> list[Field]:
    points = {str(point.id): point.name for point in household.book.points()}
    labs = {lab.name: lab.name for lab in household.book.labs()}
    offered = {code: code for code in CURRENCIES}
    return [
        Field("point", _("&Point"), str(sample.point), "choice", points),
        Field(
            "collected",
            _("&Drawn on"),
            written(sample.collected),
            hint=drawn_hint(),
        ),
        Field("lab", _("&Lab"), sample.lab, "open", labs),
        Field("lab_number", _("Lab’s &number"), sample.lab_number),
        Field(
            "dispatched",
            _("&Handed over"),
            written(sample.dispatched),
            hint=moment_hint(),
        ),
        Field(
            "received",
            _("Re&ceived by the lab"),
            written(sample.received),
            hint=moment_hint(),
        ),
        Field("reported", _("Rep&orted"), sample.reported, hint=partial_hint()),
        Field(
            "purpose", _("P&urpose"), sample.purpose, "choice", {"": "", **vocabulary.purposes()}
        ),
        Field("sampler", _("Drawn &by (private)"), sample.sampler),
        Field(
            "standing",
            _("&Who that is"),
            sample.standing,
            "choice",
            {"": "", **vocabulary.standings()},
        ),
        Field("temperature", _("&Temperature on receipt"), sample.temperature),
        Field("rain", _("R&ain of the ten days before"), sample.rain),
        Field("cost", _("Co&st (private)"), sample.cost),
        Field("currency", _("Currenc&y"), sample.currency, "open", offered),
        Field("note", _("Remar&k"), sample.note),
        Field("reason", _("&Reason"), "", "text", hint=reason_hint()),
    ]


def _changes(values: Mapping[str, str], sample: Sample) -> dict[str, object]:
    collected = read_drawn(values["collected"], sample.collected)
    if collected is None:
        raise Fault(_("Say on which day it was drawn."))
    cost, currency = read_cost(values["cost"], values["currency"])
    return {
        **values,
        "cost": cost,
        "currency": currency,
        "point": int(values["point"]),
        "collected": collected,
        "dispatched": read_moment(values["dispatched"], sample.dispatched),
        "received": read_moment(values["received"], sample.received),
        "reported": read_partial(values["reported"]),
    }
