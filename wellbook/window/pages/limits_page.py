"""Every limit of the reference data with its days, its source and how it moved."""

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QVBoxLayout, QWidget

from wellbook.charts.draw.drawing import draw
from wellbook.charts.model.limit_history import limit_history
from wellbook.planning.settings import sets
from wellbook.support.translation import _, ngettext, pgettext
from wellbook.water.values.limits import Limit, LimitSet, Rule
from wellbook.water.values.signs import normal_name
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.common.words import day_words, limit_words
from wellbook.window.widgets.chart_view import FigureView
from wellbook.window.widgets.layouts import named, scrolled, words
from wellbook.window.widgets.lists.find_field import FindField
from wellbook.window.widgets.splitter import Splitter
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table
from wellbook.wording import facts, verdicts
from wellbook.wording.reference import cited

_LEAST = 32  # ems of height of the list with what is below it; on a lower window the page scrolls

_PICTURE = 15  # ems of height at most, so that its years are in sight beside long sources


class LimitsPage(QWidget):
    """A table of limits that can be narrowed down; the chosen one in full, with its history."""

    def __init__(self, household: Household, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._household = household
        self.own = QCheckBox(_("Only the sets that this &book compares with"))
        self.own.setChecked(True)
        self.note = words(quiet=True)
        self.table = Table(_("Limits"))
        self.model = RowsModel(self._columns(), lambda limit: limit, self)
        self.table.setModel(self.model)
        self.table.fit(stretch=3)
        self.table.arrange("limits")
        self.wanted = FindField(_("Find a limit"), self.table, lambda _text: self.refresh())
        self.more = words()
        self.source = words(quiet=True)
        self.chart = FigureView(_("How the limit moved"))
        self.chart.setMinimumHeight(em(self) * 12)
        self.chart.setMaximumHeight(em(self) * _PICTURE)
        self.own.toggled.connect(self.refresh)
        self.table.picked.connect(self._show)
        self._lay_out()

    def _columns(self) -> tuple[Column, ...]:
        catalogue = self._household.catalogue
        return (
            Column(_("Parameter"), lambda limit: catalogue.parameters[limit.parameter].name),
            Column(_("Limit"), limit_words),
            Column(_("Kind"), lambda limit: verdicts.kind(limit.kind)),
            Column(_("Limit set"), lambda limit: catalogue.sets[limit.set].name),
            Column(_("In force"), facts.force, sort=lambda limit: limit.start),
            Column(_("How it is known"), _known),
        )

    def _lay_out(self) -> None:
        unit = em(self)
        row = QHBoxLayout()
        row.addWidget(named(_("&Find"), self.wanted))
        row.addWidget(self.wanted, 1)
        row.addSpacing(unit)
        row.addWidget(self.own)
        below = QWidget()
        beside = QHBoxLayout(below)
        beside.setContentsMargins(0, unit // 2, 0, 0)
        beside.setSpacing(unit)
        told = QVBoxLayout()
        for widget in (self.more, self.source):
            told.addWidget(widget)
        told.addStretch(1)
        picture = QVBoxLayout()
        picture.addWidget(self.chart, 1)
        picture.addStretch()
        beside.addLayout(told, 1)
        beside.addLayout(picture, 1)
        parts = Splitter("limits", Qt.Orientation.Vertical, (self.table, below))
        parts.share(16, 22)
        parts.setMinimumHeight(unit * _LEAST)
        page = QVBoxLayout()
        page.setContentsMargins(unit * 2, unit, unit * 2, unit)
        page.addLayout(row)
        page.addWidget(self.note)
        page.addWidget(parts, 1)
        scrolled(self, page)

    def refresh(self) -> None:
        """Show the limits that are wanted now, in the order of the sets."""
        household = self._household
        chosen = sets(household.record.settings, household.catalogue)
        wanted = normal_name(self.wanted.text())
        shown = [
            limit
            for limit in household.catalogue.limits
            if not self.own.isChecked() or limit.set in chosen
        ]
        found = [one for one in shown if self._is_called(one, wanted)]
        found = found or [one for one in shown if self._is_of_set(one, wanted)]
        self.model.show(tuple(found))
        read = sum(limit.checked for limit in found)
        said = ngettext(
            "{n} limit, {read} of them read in a text, {memory} from memory.",
            "{n} limits, {read} of them read in a text, {memory} from memory.",
            len(found),
        ).format(n=len(found), read=read, memory=len(found) - read)
        self.note.setText(f"{said} {self._partial(found)}".strip())
        if found and not self.table.selectionModel().hasSelection():
            self.table.selectRow(0)
        if not found:
            self._show(None)

    def _is_called(self, limit: Limit, wanted: str) -> bool:
        parameter = self._household.catalogue.parameters[limit.parameter]
        return any(wanted in normal_name(name) for name in (parameter.name, *parameter.aliases))

    def _is_of_set(self, limit: Limit, wanted: str) -> bool:
        known = self._household.catalogue.sets[limit.set]
        return any(wanted in normal_name(name) for name in (known.name, known.key))

    def _partial(self, limits: list[Limit]) -> str:
        """Which of the sets are kept only in part: what they don't name may have a limit."""
        catalogue = self._household.catalogue
        keys = dict.fromkeys(limit.set for limit in limits)
        partial = [catalogue.sets[key].name for key in keys if not catalogue.sets[key].whole]
        if not partial:
            return ""
        said = _("Not the whole published list: {sets}. What is missing there may have a limit.")
        return said.format(sets=", ".join(partial))

    def _show(self, limit: Limit | None) -> None:
        """Say all that is known of a limit, and draw how its figure moved, if it has one."""
        self.chart.setVisible(limit is not None and limit.rule is not Rule.ABSENT)
        if limit is None:
            self.more.setText(_("No limit fits. That does not say that there is none."))
            self.source.setText("")
            return
        catalogue = self._household.catalogue
        known = catalogue.sets[limit.set]
        self.more.setText(" ".join(filter(None, (_holds(limit), _(limit.note), known.note))))
        source = _("Source: {source}. {read}").format(source=cited(limit.source), read=_read(limit))
        self.source.setText("\n".join((source, *_addresses(limit, known))))
        parameter = catalogue.parameters[limit.parameter]
        chart = limit_history(parameter, catalogue, limit.set, self._household.today)
        said = " ".join(chart.sentences)
        self.chart.show_figure(lambda figure, theme: draw(chart, figure, theme), said)
        set_tip(self.chart, said)


def _addresses(limit: Limit, known: LimitSet) -> Iterator[str]:
    """Where the figure was read, and where its authority keeps the text."""
    for address in limit.text.split():
        if limit.read is None:
            said = _("Seen in a text that is not enough to rely on: {address}")
        elif known.issues(address):
            said = _("Read at the authority: {address}")
        else:
            said = _("Read in a copy: {address}")
        yield said.format(address=address)
    for address in limit.where.split():
        if address not in limit.text.split():
            yield _("The authority keeps it at: {address} (not opened for this)").format(
                address=address
            )


def _holds(limit: Limit) -> str:
    return _("Condition: {what}.").format(what=_(limit.condition)) if limit.condition else ""


def _read(limit: Limit) -> str:
    if limit.read is None:
        return _("From memory: look it up before you rely on it.")
    return _("Its figure was read on {day}.").format(day=day_words(limit.read))


def _known(limit: Limit) -> str:
    return (
        pgettext("how a limit is known", "read in a text")
        if limit.checked
        else pgettext("how a limit is known", "from memory")
    )
