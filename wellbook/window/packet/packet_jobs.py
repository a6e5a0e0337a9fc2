"""What is done for a packet on another thread: counting what goes in, and writing it."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal

from wellbook.book.record import Record
from wellbook.packet.options import PacketOptions
from wellbook.packet.packet import write
from wellbook.sharing.covered import Hit, hits
from wellbook.sharing.excerpt import LeftOut, Scope, excerpt, left_out
from wellbook.sharing.redaction import privacy
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Loader, Tell
from wellbook.window.common.words import language

_PAUSE_MS = 300  # so that a word being typed is not counted letter by letter


@dataclass(frozen=True, slots=True)
class Seen:
    """A part of a book, counted.

    Attributes:
        scope: The part.
        left: What it leaves out.
        documents: Lab reports, photos and other files that may go along with it.
        of_documents: Those of the whole book.
        days: First and last day of the tests in the whole book, if it has any.
        hits: Places of private words, covered unless personal facts are put in.
    """

    scope: Scope
    left: LeftOut
    documents: int
    of_documents: int
    days: tuple[date, date] | None
    hits: tuple[Hit, ...] = ()

    @property
    def is_empty(self) -> bool:
        """Whether a book that holds tests is left without any."""
        return bool(self.left.of_tests) and self.left.tests == self.left.of_tests


class Counting(QObject):
    """Counts what a choice leaves out; only the latest question is answered.

    Signals:
        counted: Carries a `Seen`.
        failed: It can't be counted; carries the sentence that says why.
    """

    counted = Signal(object)
    failed = Signal(str)

    def __init__(self, household: Household, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._household = household
        self._wanted = Scope()
        self.seen: Seen | None = None
        self._loader = Loader(self)
        self._loader.failed.connect(self.failed)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE_MS)
        self._pause.timeout.connect(self._start)

    def ask(self, scope: Scope) -> None:
        """Count a part soon."""
        self._wanted, self.seen = scope, None
        self._loader.drop()
        self._pause.start()

    def stop(self) -> None:
        """Answer nothing any more."""
        self.seen = None
        self._pause.stop()
        self._loader.drop()

    def _start(self) -> None:
        household = self._household
        work = partial(_count_in_place, household, household.record, self._wanted)
        self._loader.ask(work, self._on_counted)

    def _on_counted(self, seen: Seen) -> None:
        self.seen = seen
        self.counted.emit(seen)


def _count_in_place(household: Household, record: Record, scope: Scope, tell: Tell) -> Seen:
    household.book.require_in_place()
    return count(record, household.untranslated, scope, tell)


def count(record: Record, catalogue: Catalogue, scope: Scope, tell: Tell) -> Seen:
    """Count what a part of a record leaves out."""
    tell(0, 0, "")
    part = excerpt(record, scope, catalogue)
    left = left_out(record, part, scope, catalogue)
    tell(0, 0, "")
    days = [sample.collected.day for sample in record.samples()]
    return Seen(
        scope=scope,
        left=left,
        documents=len({document.id for document in part.documents}),
        of_documents=len({document.id for document in record.documents}),
        days=(min(days), max(days)) if days else None,
        hits=tuple(hits(part, privacy(record, with_personal=False))),
    )


@dataclass(frozen=True, slots=True)
class Written:
    """A packet that is made, and how many originals don't go along whole."""

    path: Path
    behind: int


Writing = Callable[[Household, Path, PacketOptions, Tell], Written]


def write_packet(household: Household, path: Path, options: PacketOptions, tell: Tell) -> Written:
    """Write a packet; stopping leaves what was there.

    Raises:
        Fault: It can't be written there, or the part that was chosen holds no test.
    """
    with household.book.again() as book:
        record = book.record().loaded()
        if not options.is_whole:
            refuse_nothing(count(record, household.untranslated, options.scope, tell))
        behind = write(
            record,
            household.untranslated,
            path,
            options,
            today=household.today,
            check_cancelled=partial(tell, 1, 1, path.name),
        )
    return Written(path, behind)


def write_tables(household: Household, folder: Path, tell: Tell) -> list[Path]:
    """Write everything as tables; stopping before they lie there leaves what was there.

    Raises:
        Fault: The folder can't be written.
    """
    from wellbook.export.open_tables import export

    with household.book.again() as book:
        record, stop = book.record(), partial(tell, 0, 0, "")
        return export(record, household.untranslated, folder, check_cancelled=stop)


def written_words(written: Written) -> str:
    """Where the packet lies, and what it lacks."""
    said = _("Written: {path}").format(path=written.path)
    if not written.behind:
        return said
    lacks = _(
        "Lab reports and photos that don’t go along whole: {count}; under “Documents” it says "
        "which and why."
    )
    return f"{said}. {lacks.format(count=written.behind)}"


def refuse_nothing(seen: Seen) -> None:
    """Let no packet be made of no test.

    Raises:
        Fault: Nothing is left of the tests.
    """
    if seen.is_empty:
        raise Fault(nothing_words(seen))


def nothing_words(seen: Seen) -> str:
    """That a choice leaves no test."""
    said = _("None of the {count} tests is in what you chose: tick more, or widen the period.")
    return said.format(count=seen.left.of_tests)


def seen_words(seen: Seen, *, with_documents: bool) -> str:
    """How much goes in, and that the packet says so."""
    if seen.is_empty:
        return nothing_words(seen)
    left, figure = seen.left, language().toString
    if left.nothing:
        said = _("The whole history goes in: tests {tests}, readings {readings}.")
        parts = [said.format(tests=figure(left.of_tests), readings=figure(left.of_readings))]
    else:
        said = _(
            "A part: it leaves out {tests} of {of_tests} tests and {readings} of {of_readings} "
            "readings. The first page says so."
        )
        parts = [
            said.format(
                tests=figure(left.tests),
                of_tests=figure(left.of_tests),
                readings=figure(left.readings),
                of_readings=figure(left.of_readings),
            )
        ]
    if with_documents and seen.documents < seen.of_documents:
        said = _(
            "Lab reports and photos that go along: {some} of {all}, those of tests of which every "
            "reading goes in."
        )
        parts.append(said.format(all=seen.of_documents, some=seen.documents))
    return " ".join(parts)
