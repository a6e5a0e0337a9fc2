"""Looking the book over: once after it was first shown, and whenever it is asked for."""

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from wellbook.support.translation import _, ngettext
from wellbook.water.values.findings import Finding
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Loader, Tell
from wellbook.window.widgets.message_bar import MessageBar

LARGEST_UNASKED = 100_000_000  # bytes; a larger book is looked over when it is asked for


class IntegrityCheck(QObject):
    """Checks the book on another thread and says in the message bar what was found."""

    def __init__(self, household: Household, bar: MessageBar, window: QWidget) -> None:
        super().__init__(window)
        self._household, self._bar, self._window = household, bar, window
        self._loader = Loader(self)
        self._loader.failed.connect(bar.say)
        self.findings: tuple[Finding, ...] | None = None

    def check_unasked(self) -> None:
        """Look over a book that is small enough; say nothing if all is well."""
        book, path = self._household.book, self._household.path
        if book.is_in_place and path.stat().st_size <= LARGEST_UNASKED:
            self._start(is_asked=False)

    def check(self) -> None:
        """Look the book over and say how it is."""
        if not self._loader.running:
            self._bar.say(_("Checking the book …"), _("Stop"), self._give_up)
            self._start(is_asked=True)

    def _give_up(self) -> None:
        self._loader.drop()
        self._bar.clear()

    def stop(self) -> None:
        """Ignore results that arrive after closing."""
        self._loader.stop()

    def _start(self, *, is_asked: bool) -> None:
        self._loader.ask(
            partial(_check, self._household), partial(self._on_checked, is_asked=is_asked)
        )

    def _on_checked(self, found: tuple[Finding, ...], *, is_asked: bool) -> None:
        self.findings = found
        if found:
            before = "" if is_asked else self._bar.text
            self._bar.say(
                " ".join(filter(None, (before, _summary(found)))),
                _("What was found…"),
                partial(self._show, found),
            )
        elif is_asked:
            self._bar.say(
                _(
                    "The book is whole: every fact is as its journal tells. That says nothing on "
                    "whether a lab’s figure is right."
                )
            )

    def _show(self, found: Sequence[Finding]) -> None:
        from wellbook.window.dialogs.findings_dialog import FindingsDialog

        dialog = FindingsDialog(found, self._window)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()


def _summary(found: Sequence[Finding]) -> str:
    if len(found) == 1:
        return found[0].text
    n = len(found)
    said = ngettext(
        "The book was checked: {n} thing was found.",
        "The book was checked: {n} things were found.",
        n,
    )
    return said.format(n=n)


def _check(household: Household, tell: Tell) -> tuple[Finding, ...]:
    from wellbook.book.check import check

    tell(0, 0, household.path.name)
    household.book.require_in_place()
    found = check(household.path, household.catalogue, household.today)
    household.book.require_in_place()  # what was found is told of this book
    return found
