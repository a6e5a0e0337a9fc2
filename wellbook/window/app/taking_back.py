"""Undo and redo by name, and never further than was meant."""

from collections.abc import Callable, Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from wellbook.book.journal import Entry, Step
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.household import Household
from wellbook.window.common.words import day_words
from wellbook.window.widgets.message_bar import MessageBar

if TYPE_CHECKING:
    from wellbook.window.common.journal_words import Names


class TakingBack:
    """Undo and redo of one window.

    What was entered since the book was opened here is taken back at once. What was entered before
    is named, with the day on which it was entered, and taken back when that is answered.

    Attributes:
        opened_at: Number of the last entry when the book was opened here.
    """

    def __init__(
        self, household: Household, bar: MessageBar, say_kept: Callable[[str], None]
    ) -> None:
        self._household, self._bar, self._say_kept = household, bar, say_kept
        self.opened_at = household.book.last_entry()
        self._told: tuple[int, ...] = ()
        household.book.before_new = self._ask_before_new

    def undo(self) -> None:
        """Take back the last entry; ask first if it was there when the book was opened."""
        step = self._household.apart(self._household.book.to_undo)
        if step is None:
            self._bar.say(_("There is nothing to undo."))
        elif step.seq > self.opened_at:
            self._undo_now(step)
        else:
            self._bar.say(
                _(
                    "Nothing is left to undo of what was entered since this book was opened. "
                    "Before that comes: {deed}, entered on {day}."
                ).format(deed=self._deed(step.cause), day=_day_of(step.cause)),
                _("Undo that"),
                lambda: self._undo_now(step),
            )

    def _undo_now(self, step: Step) -> None:
        book, deed = self._household.book, self._deed(step.cause)

        def undo() -> bool:
            is_meant = book.to_undo() == step
            if is_meant:
                book.undo()
            return is_meant

        if not self._household.apart(undo):  # something else was written since it was asked
            self.undo()
            return
        self._say_kept(_("Undone: {deed}.").format(deed=deed))
        self._bar.say(self._bar.text, _("Redo"), self.redo)

    def redo(self) -> None:
        """Enter again what was taken back last."""
        book = self._household.book
        steps = self._household.apart(book.to_redo)
        if not steps:
            self._bar.say(_("There is nothing to redo."))
            return
        deed = self._deed(steps[0].cause)
        self._household.apart(book.redo)
        self._say_kept(_("Redone: {deed}.").format(deed=deed))

    def menu_texts(self) -> dict[str, str]:
        """The lines of the menu by key of their action: what each of them would do now."""
        from wellbook.window.common.journal_words import Names

        book = self._household.book
        step, steps = self._household.apart(lambda: (book.to_undo(), book.to_redo()))
        names = self._names() if step or steps else Names()
        texts = {}
        if step:
            said = _("&Undo: {deed}")
            texts["undo"] = said.format(deed=_in_menu(step.cause, names))
        if steps:
            said = _("&Redo: {deed}")
            texts["redo"] = said.format(deed=_in_menu(steps[0].cause, names))
        return texts

    def forget_asking(self) -> None:
        """Ask anew: what was about to be entered was left, or it was kept."""
        self._told = ()

    def _ask_before_new(self, undone: Sequence[Step]) -> None:
        """Say once that a new entry makes more than one taking back final.

        Raises:
            Fault: It was not said yet; doing the same once more does it.
        """
        seqs = tuple(step.seq for step in undone)
        if len(undone) == 1 or seqs == self._told:
            return
        self._told = seqs
        raise Fault(
            _(
                "You have undone {count} entries, at last this one: {deed}. Once something new is "
                "kept they can’t be redone. Do the same once more if that is meant; otherwise "
                "leave it, and choose “Redo” in the menu Edit."
            ).format(count=len(undone), deed=self._deed(undone[0].cause))
        )

    def _deed(self, entry: Entry) -> str:
        from wellbook.window.common.journal_words import deed_words

        return deed_words(entry, self._names())

    def _names(self) -> "Names":
        from wellbook.window.common.journal_words import Names

        return Names.of(self._household.record, self._household.catalogue)


def _in_menu(entry: Entry, names: "Names") -> str:
    from wellbook.window.common.journal_words import short_words

    return short_words(entry, names).replace("&", "&&")


def _day_of(entry: Entry) -> str:
    return day_words(datetime.fromisoformat(entry.at).astimezone().date())
