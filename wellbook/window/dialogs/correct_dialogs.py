"""Correcting a reading or the facts of a test, with a reason; the first entry stays."""

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
from wellbook.window.dialogs.fields_dialog import Field, FieldsDialog, Values
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import named, words
from wellbook.wording import vocabulary


class CorrectResultDialog(EntryDialog):
    """The fields of one reading as they were entered, and the reason for changing them."""

    def __init__(
        self, household: Household, sample: Sample, result: Result, parent: QWidget
    ) -> None:
        super().__init__(
            _("Correct a reading"),
            _("Keep the correction"),
            parent,
        )
        self._household, self._sample, self._result = household, sample, result
        known = household.catalogue.parameters.get(result.parameter)
        self._called = known.name if known else result.name
        self.line = HandRow(1, household.catalogue, self)
        self.line.parameter.setCurrentText(self._called)
        self.line.result.setText(result.reading.text)
        self.line.unit.setCurrentText(result.reading.unit)
        self.line.say_basis(result.reading.basis)
        self.line.limit.setText(result.reporting_limit)
        self.line.settle(result.reading.number)
        self.method = QLineEdit(result.method)
        self.reason = QPlainTextEdit()
        self.reason.setPlaceholderText(reason_hint())
        self.reason.setTabChangesFocus(True)
        self.reason.setFixedHeight(em(self) * 4)
        self._lay_out()

    def _lay_out(self) -> None:
        first = _("First entered: {reading}. It stays in the journal beside the correction.")
        self.rows.addWidget(words(first.format(reading=reading_words(self._result.reading))))
        form = QFormLayout()
        for label, widget in zip(heads(), self.line.fields, strict=True):
            form.addRow(named(label, widget), widget)
            widget.setAccessibleName(label)
        form.addRow(_("Understood as"), self.line.said)
        form.addRow(_("&Method"), self.method)
        form.addRow(_("&Reason"), self.reason)
        self.rows.addLayout(form)
        self.finish()
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

    def keep(self) -> str:
        """Write the correction."""
        new = self._corrected()
        if not new.name or not new.reading.text:
            raise Fault(_("Enter a parameter and a result as printed."))
        book, reason = self._household.book, self.reason.toPlainText()
        self._household.apart(lambda: book.correct_result(self._result.id, new, reason))
        return _("The reading is corrected: {name} {reading}.").format(
            name=self._called, reading=reading_words(new.reading)
        )


def correct_sample(household: Household, sample: Sample, parent: QWidget) -> FieldsDialog:
    """The dialog that corrects the facts of a test."""

    def write(values: Values) -> str:
        reason = values.pop("reason")
        changes: Any = _changes(values, sample)
        household.apart(lambda: household.book.correct_sample(sample.id, reason, **changes))
        day = moment_words(household.book.sample(sample.id).collected)
        return _("The test of {day} is corrected.").format(day=day)

    day = moment_words(sample.collected)
    return FieldsDialog(
        (
            _("Correct the test of {day}").format(day=day),
            _("Keep the correction"),
        ),
        _sample_fields(household, sample),
        write,
        parent,
        intro=_("The first entry stays in the journal beside the correction."),
    )


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


def _or_none(words: dict[str, str]) -> dict[str, str]:
    return {"": "", **words}
