"""Many files at once: a line for each, what it is, and what can be done with it."""

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QDialogButtonBox, QHBoxLayout, QProgressBar, QPushButton, QWidget

from wellbook.intake import Draft
from wellbook.intake.fate import Fate, Outcome, complete, fate
from wellbook.intake.reviewing import number_outside
from wellbook.intake.said import outside_words
from wellbook.planning import settings
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Loader, Tell
from wellbook.window.dialogs.draft.lab_source import LabSource
from wellbook.window.widgets.attaching import is_report
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import PrimaryButton, words
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table

_NAMED = 4  # files that are named where they are counted; the list has all of them


@dataclass(frozen=True, slots=True)
class FileLine:
    """One file and what is known of it.

    Attributes:
        source: The file.
        draft: What was read; None before, where it can't be read, or where it is locked.
        outcome: What would become of it.
        said: What became of it, or why it can't be read.
        is_done: Whether nothing is left to do with it.
        is_locked: Whether it opens with a password only.
        outside: How many of its results are outside a limit, once it is kept.
        is_stopped: Whether reading was stopped before it.
    """

    source: LabSource
    draft: Draft | None = None
    outcome: Outcome | None = None
    said: str = ""
    is_done: bool = False
    is_locked: bool = False
    outside: int = 0
    is_stopped: bool = False

    @property
    def is_unread(self) -> bool:
        """Whether it was not read yet."""
        return self.draft is None and not self.said

    @property
    def can_look(self) -> bool:
        """Whether there is something to look over, or a password to type."""
        return not self.is_done and (self.draft is not None or self.is_locked)

    @property
    def is_there(self) -> bool:
        """Whether all of it is in the book already."""
        return bool(self.outcome and self.outcome.fate is Fate.THERE and not self.is_done)

    @property
    def can_keep(self) -> bool:
        """Whether it can be kept as it stands."""
        return not self.is_done and bool(
            self.outcome and self.outcome.fate in {Fate.READY, Fate.ADDS}
        )


class ManyFilesDialog(Dialog):
    """A list of files; each is kept on its own, and nothing is kept unasked.

    Signals:
        kept: Something was kept; carries the sentence that says so.
        to_look: A file is to be looked over; carries its source and its draft.
        to_type: A report is to be typed in; carries its path.
        left: It closes and files are not kept; carries the sentence that says so.
    """

    kept = Signal(str)
    to_look = Signal(object, object)
    to_type = Signal(object)
    left = Signal(str)

    def __init__(self, household: Household, sources: Sequence[LabSource], parent: QWidget) -> None:
        super().__init__(_("Files to take in"), parent, width=70, height=36)
        self._household = household
        self._lines = [FileLine(source) for source in sources]
        self._waiting = deque(range(len(sources)))
        self.state = words("")
        self.progress = QProgressBar()
        self.progress.setMaximum(len(sources))
        self.progress.setAccessibleName(_("Files read"))
        self.table = Table(_("Files"))
        self.model = RowsModel(_columns(), lambda line: line.source.path, self)
        self.table.setModel(self.model)
        self.table.fit(stretch=1)
        self.table.arrange("files")
        self.table.picked.connect(self._say_state)
        self.table.chosen.connect(self._look)
        self.whole = words("", quiet=True)
        self.keep_button = PrimaryButton(_("&Keep all that are ready"))
        self.keep_button.clicked.connect(self._keep_all)
        self.look_button = QPushButton(_("&Look it over…"))
        self.look_button.clicked.connect(lambda: self._look(self.table.row()))
        self.type_button = QPushButton(_("&Type it in…"))
        self.type_button.clicked.connect(self._type_in)
        self.stop_button = QPushButton(_("&Stop reading"))
        self.stop_button.clicked.connect(self._stop_or_go_on)
        self._loader = Loader(self)
        self._loader.failed.connect(self._on_failed)
        self._at = -1
        self._to_keep: deque[int] = deque()
        self._kept_now: list[FileLine] = []
        self._lay_out()
        self._show()
        self._read_next()

    def _lay_out(self) -> None:
        self.rows.addWidget(self.state)
        self.rows.addWidget(self.progress)
        self.rows.addWidget(self.table, 1)
        self.rows.addWidget(self.whole)
        deeds = QHBoxLayout()
        for button in (self.keep_button, self.look_button, self.type_button, self.stop_button):
            deeds.addWidget(button)
        deeds.addStretch(1)
        self.rows.addLayout(deeds)
        buttons = QDialogButtonBox()
        buttons.addButton(_("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)

    @property
    def lines(self) -> tuple[FileLine, ...]:
        """A line for each file."""
        return tuple(self._lines)

    @property
    def is_reading(self) -> bool:
        """Whether files are still being read."""
        return self._at >= 0

    def _read_next(self) -> None:
        if not self._waiting:
            self._at = -1
            self._show()
            return
        self._at = self._waiting.popleft()
        source = self._lines[self._at].source
        self._loader.ask(partial(_read, source), self._on_read)

    def _on_read(self, found: tuple[Draft | None, Outcome | None]) -> None:
        draft, outcome = found
        said = "" if draft else _("It is locked with a password: look it over to type it.")
        line = replace(self._lines[self._at], draft=draft, outcome=outcome, said=said)
        self._set(self._at, replace(line, is_locked=draft is None))
        self._read_next()

    def _on_failed(self, sentence: str) -> None:
        self._set(self._at, replace(self._lines[self._at], said=sentence))
        self._read_next()

    def _stop_or_go_on(self) -> None:
        """Read, or keep, no further file; or read those that were not read."""
        is_keeping, unread = bool(self._to_keep), [line.is_unread for line in self._lines]
        self._to_keep.clear()
        if self.is_reading:
            self._loader.drop()
            self._waiting.clear()
            self._at = -1
            self._show_stopped(is_stopped=True)
        elif not is_keeping and any(unread):
            self._waiting.extend(place for place, is_unread in enumerate(unread) if is_unread)
            self._show_stopped(is_stopped=False)
            self._read_next()

    def _show_stopped(self, *, is_stopped: bool) -> None:
        self._lines = [
            replace(line, is_stopped=is_stopped and line.is_unread) for line in self._lines
        ]
        self._show()

    def _set(self, place: int, line: FileLine) -> None:
        self._lines[place] = line
        self._show()

    def _show(self) -> None:
        self.model.show(self._lines)
        read = sum(not line.is_unread for line in self._lines)
        is_keeping = bool(self._to_keep)
        done = self.progress.maximum() - len(self._to_keep)
        self.progress.setValue(done if is_keeping else read)
        self.progress.setVisible(self.is_reading or is_keeping)
        self.stop_button.setVisible(is_keeping or read < len(self._lines))
        can_stop = _("&Stop reading") if self.is_reading else _("&Read on")
        self.stop_button.setText(_("&Stop keeping") if is_keeping else can_stop)
        self._say_state()

    def _say_state(self) -> None:
        lines = self._lines
        ready = sum(line.can_keep for line in lines)
        kept = sum(line.is_done for line in lines)
        there = sum(line.is_there for line in lines)
        n = sum(line.is_unread for line in lines)
        need = len(lines) - ready - kept - there - n
        said = _("{ready} ready, {there} in the book already, {need} need you, {kept} kept.")
        more = ngettext("{n} is not read yet.", "{n} are not read yet.", n).format(n=n)
        counts = said.format(ready=ready, there=there, need=need, kept=kept)
        self.state.setText(f"{counts} {more}" if n else counts)
        self.keep_button.setEnabled(bool(ready) and not self._to_keep)
        line = self.table.row()
        # A column cuts off a sentence that is longer than it is wide.
        self.whole.setText(said_of(line) if isinstance(line, FileLine) else "")
        free = line if isinstance(line, FileLine) and not line.is_done else None
        free = None if self._to_keep else free
        self.look_button.setEnabled(free is not None and free.can_look)
        path = free.source.path if free is not None else None
        self.type_button.setEnabled(path is not None and is_report(path))

    def _keep_all(self) -> None:
        """Keep each file that is ready, one after another and each on its own."""
        self.bar.clear()
        self._kept_now.clear()
        self._to_keep = deque(place for place, line in enumerate(self._lines) if line.can_keep)
        self.progress.setMaximum(len(self._to_keep))
        self._show()
        QTimer.singleShot(0, self._keep_next)

    def _keep_next(self) -> None:
        """Keep the next file on another thread; between two files it can be stopped."""
        if self._to_keep and self.isVisible():
            place = self._to_keep.popleft()
            line = self._lines[place]
            if line.can_keep and line.draft:
                self._lines[place] = self._kept(line, line.draft)
                if self._lines[place].is_done:
                    self._kept_now.append(self._lines[place])
            self._show()
            QTimer.singleShot(0, self._keep_next)
            return
        self._end_keeping()

    def _end_keeping(self) -> None:
        """Say what was kept, also where it was stopped."""
        self._to_keep.clear()
        self.progress.setMaximum(len(self._lines))
        self._show()
        if self._kept_now:
            self.kept.emit(_kept_sentence(self._kept_now))
            self._kept_now.clear()

    def _kept(self, line: FileLine, draft: Draft) -> FileLine:
        """A line after its file was kept, or why it was not."""
        book, catalogue = self._household.book, self._household.catalogue

        def keep() -> tuple[Outcome, int]:
            # Compared anew: a file before it may have brought the same test.
            outcome = fate(draft, book, catalogue)
            if outcome.fate not in {Fate.READY, Fate.ADDS}:
                return outcome, 0
            complete(draft, outcome, book)
            by = settings.yardsticks(book.record().settings, catalogue)
            return outcome, number_outside(draft.samples, *by, self._household.today)

        try:
            outcome, n = self._household.apart(keep)
        except Fault as why:
            return replace(line, said=str(why), outcome=None)
        if outcome.fate not in {Fate.READY, Fate.ADDS}:
            return replace(line, outcome=outcome)
        said = ", ".join(filter(None, (_kept_words(outcome), outside_words(n))))
        return replace(line, said=said, outside=n, is_done=True)

    def _look(self, line: object) -> None:
        if isinstance(line, FileLine) and line.can_look and not self._to_keep:
            self.to_look.emit(line.source, line.draft)

    def _type_in(self) -> None:
        line = self.table.row()
        if isinstance(line, FileLine) and line.source.path:
            self.to_type.emit(line.source.path)

    def mark_kept(self, path: Path | None, sentence: str) -> None:
        """Say that a file was kept elsewhere."""
        for place, line in enumerate(self._lines):
            if line.source.path == path:
                self._set(place, replace(line, said=sentence, is_done=True))

    def read_again(self, path: Path | None, source: LabSource) -> None:
        """Read a file anew, for example with its password."""
        for place, line in enumerate(self._lines):
            if line.source.path == path:
                self._set(place, FileLine(source))
                self._waiting.append(place)
        if not self.is_reading:
            self._read_next()

    def done(self, code: int) -> None:
        """Read and keep nothing any more, then close."""
        self._end_keeping()
        self._loader.stop()
        left = [line for line in self._lines if not line.is_done and not line.is_there]
        if left and self.isVisible():
            n = len(left)
            said = ngettext("{n} file is not kept: {names}.", "{n} files are not kept: {names}.", n)
            self.left.emit(said.format(n=n, names=_few([line.source.name for line in left])))
        super().done(code)


def _read(source: LabSource, tell: Tell) -> tuple[Draft | None, Outcome | None]:
    draft = source.unlocked(tell)
    if draft is None:
        return None, None
    with source.book.again() as book:
        return draft, fate(draft, book, source.catalogue)


def _columns() -> tuple[Column, ...]:
    return (
        Column(_("File"), lambda line: line.source.name),
        Column(_("What it is"), said_of),
        Column(_("Tests"), lambda line: str(len(line.draft.samples)) if line.draft else ""),
    )


def said_of(line: FileLine) -> str:
    """What is known of a file, in a few words."""
    if line.said:
        return line.said
    if line.draft is None or line.outcome is None:
        return _("Not read.") if line.is_stopped else _("waiting")
    outcome, draft = line.outcome, line.draft
    if outcome.fate is Fate.DECIDE:
        n = sum(not mark.is_certain for s in draft.samples for mark in s.marks) + len(draft.stops)
        asked = ngettext("{n} thing to decide", "{n} things to decide", n).format(n=n)
        return outcome.why or asked
    # What is used of earlier decisions is kept unseen with all that are ready.
    said = [one.text for one in draft.findings if one.key == "remembered"]
    return " – ".join((_fate_words(outcome), *said))


def _kept_sentence(lines: Sequence[FileLine]) -> str:
    """How many files were kept; those with results outside a limit are named first."""

    def named(line: FileLine) -> str:
        outside = outside_words(line.outside)
        return line.source.name + (f" ({outside})" if outside else "")

    n, ranked = len(lines), sorted(lines, key=lambda line: not line.outside)
    text = ngettext("{n} file is kept: {names}.", "{n} files are kept: {names}.", n)
    said = text.format(n=n, names=_few([named(line) for line in ranked]))
    if not any(line.outside for line in ranked[_NAMED:]):
        return said
    every = outside_words(sum(line.outside for line in lines))
    return f"{said} {_('Together: {outside}.').format(outside=every)}"


def _few(names: Sequence[str]) -> str:
    """The first of many names, and how many more there are."""
    shown, n = ", ".join(names[:_NAMED]), len(names) - _NAMED
    more = ngettext("{names} and {n} more", "{names} and {n} more", n)
    return more.format(names=shown, n=n) if n > 0 else shown


def _fate_words(outcome: Outcome) -> str:
    days = ", ".join(dict.fromkeys(str(met.old.collected.day) for met in outcome.met))
    n = outcome.adds
    return {
        Fate.READY: _("ready"),
        Fate.THERE: _("in the book already"),
        Fate.OTHER: _("other values than the test of {day}: look it over").format(day=days),
        Fate.ADDS: ngettext(
            "ready: adds {n} new reading to the test of {day}",
            "ready: adds {n} new readings to the test of {day}",
            n,
        ).format(n=n, day=days),
    }.get(outcome.fate, "")


def _kept_words(outcome: Outcome) -> str:
    if outcome.fate is not Fate.ADDS:
        return _("kept")
    n = outcome.adds
    return ngettext("kept: {n} new reading", "kept: {n} new readings", n).format(n=n)
