"""The dialogs of an open book: what is entered, struck out and handed over goes through here.

Each dialog is imported when it is first asked for, so that the first paint does not wait for it.
"""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QThreadPool, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QDialog, QWidget

from wellbook.book.rows import Event, Sample
from wellbook.support.translation import _, ngettext
from wellbook.window.app.taking_back import TakingBack
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Loader
from wellbook.window.common.preferences import Preferences
from wellbook.window.common.words import moment_words
from wellbook.window.widgets.attaching import is_report
from wellbook.window.widgets.message_bar import MessageBar

if TYPE_CHECKING:
    from wellbook.intake import Draft
    from wellbook.planning.upkeep.due import UpkeepItem
    from wellbook.water.values.results import Result
    from wellbook.window.dialogs.draft.lab_source import LabSource
    from wellbook.window.dialogs.draft.many_files import ManyFilesDialog
    from wellbook.window.widgets.entry_dialog import EntryDialog

_MANY = 3  # files from which on they are shown in one list


class BookActions(QObject):
    """Opens dialogs and tells when the book has changed.

    Signals:
        changed: Something was written.
    """

    changed = Signal()

    def __init__(
        self,
        household: Household,
        bar: MessageBar,
        chooser: Chooser,
        preferences: Preferences,
        window: QWidget,
    ) -> None:
        super().__init__(window)
        self._household, self._bar = household, bar
        self._chooser, self._window, self._preferences = chooser, window, preferences
        self._waiting: list[LabSource] = []
        self._reading: LabSource | None = None
        self._reports: list[Path] = []
        self._faults: list[str] = []
        self._told: list[str] = []
        self.taking_back = TakingBack(household, bar, self.say_kept)
        self.dialog: QDialog | None = None
        self.job = Loader(self)
        self.job.failed.connect(self._on_failed)
        self.job.told.connect(self._say_reading)

    def add_file(self) -> None:
        """Choose a lab's files and read them."""
        self.read_files(self._chooser.lab_files(self._window))

    def read_files(self, paths: Sequence[Path]) -> None:
        """Read files for review: a few one after another, many and whole folders in one list.

        What has no table is typed in by hand; a price list is taken to its lab.
        """
        from wellbook.intake.price_list import is_price_list
        from wellbook.window.dialogs.draft.lab_source import files_of

        lists = [path for path in paths if is_price_list(path)]
        paths = [path for path in paths if path not in lists]
        if lists and self.dialog is None:
            self._take_prices(lists, alone=not paths)
        is_many = len(paths) >= _MANY or any(path.is_dir() for path in paths)
        if not is_many:
            self._read([self._source(path) for path in paths])
        elif self.dialog is None:
            self._bar.attempt(lambda: self._list([self._source(one) for one in files_of(paths)]))

    def _take_prices(self, lists: Sequence[Path], *, alone: bool) -> None:
        """Show the first of price lists alone; else it is said that they are read one by one."""
        from wellbook.window.dialogs.round.price_list_dialog import of_file, one_by_one

        self._told += one_by_one(lists[1:] if alone else lists)
        if not alone:
            return
        dialog = of_file(lists[0], self._household, self._chooser, self._window)
        dialog.kept.connect(self.say_kept)
        self._open(dialog)

    def _list(self, sources: "Sequence[LabSource]") -> None:
        """Show many files in one list."""
        from wellbook.window.dialogs.draft.many_files import ManyFilesDialog

        many = ManyFilesDialog(self._household, sources, self._window)
        many.kept.connect(self.say_kept)
        many.left.connect(self.also_tell)
        many.to_look.connect(partial(self._look_over, many))
        many.to_type.connect(partial(self._type_from, many))
        self._open(many)

    def _look_over(
        self, many: "ManyFilesDialog", source: "LabSource", draft: "Draft | None"
    ) -> None:
        """Look one file of a list over, or ask for its password."""
        from wellbook.window.dialogs.draft.draft_dialog import DraftDialog
        from wellbook.window.dialogs.draft.questions import password_dialog

        if draft is None:
            QDialog.open(password_dialog(source, many, partial(many.read_again, source.path)))
            return
        self._within(many, DraftDialog(self._household, source, draft, many), source.path)

    def _type_from(self, many: "ManyFilesDialog", path: Path) -> None:
        from wellbook.window.dialogs.draft.by_hand_dialog import ByHandDialog

        typing = ByHandDialog(self._household, self._chooser, many, documents=[path])
        self._within(many, typing, path)

    def _within(self, many: "ManyFilesDialog", dialog: "EntryDialog", path: Path | None) -> None:
        """Show a dialog over a list, which learns what was kept."""
        dialog.kept.connect(partial(many.mark_kept, path))
        dialog.kept.connect(self.say_kept)
        dialog.finished.connect(dialog.deleteLater)
        QDialog.open(dialog)

    def also_tell(self, sentence: str) -> None:
        """Say something beside what is said of the files that are read now."""
        self._told.append(sentence)

    def paste(self) -> None:
        """Read a table that was copied from a web page or a spreadsheet."""
        self._read([self._source(None, QGuiApplication.clipboard().text())])

    def _source(self, path: Path | None, text: str = "") -> "LabSource":
        from wellbook.window.dialogs.draft.lab_source import LabSource

        household = self._household
        return LabSource(household.catalogue, household.book, household.today, path, text)

    def _read(self, sources: "Sequence[LabSource]") -> None:
        self._waiting.extend(sources)
        if not self.job.running and self.dialog is None:
            self._read_next()

    def _read_next(self) -> None:
        if not self._waiting:
            self._say_rest()
            return
        source = self._waiting.pop(0)
        self._reading = source
        self._say_reading()
        self.job.ask(source.unlocked, partial(self._on_draft, source))

    def _say_reading(self, _done: int = 0, _total: int = 0, where: str = "") -> None:
        """Say what is read, and how far the reading of a scan is."""
        if self._reading is not None:
            said = _("Reading {name}, {where} …") if where else _("Reading {name} …")
            sentence = said.format(name=self._reading.name, where=where)
            if self._bar.text != sentence:
                self._bar.say(sentence, _("Stop reading"), self._stop_reading)

    def _stop_reading(self) -> None:
        """Read nothing more of what was asked for, and say what was not read."""
        if self._reading is None:
            return  # it was read just now
        names = ", ".join(source.name for source in (self._reading, *self._waiting))
        self.job.drop()
        self._reading = None
        self._waiting.clear()
        self._bar.say(_("Stopped; not read: {names}.").format(names=names))

    def _on_draft(self, source: "LabSource", draft: "Draft | None") -> None:
        from wellbook.window.dialogs.draft.draft_dialog import DraftDialog

        self._reading = None
        shown = QApplication.activeModalWidget()
        if isinstance(shown, QDialog):  # one at a time
            shown.finished.connect(lambda _unused: self._on_draft(source, draft))
            return
        self._bar.clear()
        if draft is None:
            self._ask_password(source)
            return
        self.enter(DraftDialog(self._household, source, draft, self._window))

    def _ask_password(self, source: "LabSource") -> None:
        """Ask for the password of a locked PDF, and read it again with that."""
        from wellbook.window.dialogs.draft.questions import password_dialog

        dialog = password_dialog(source, self._window, lambda again: self._read([again]))
        if source.path is not None:
            dialog.rejected.connect(partial(self._reports.append, source.path))
        self._open(dialog)

    def _say_rest(self) -> None:
        """Say what became of the files that needed no review, and offer to type in reports."""
        from wellbook.intake.said import untaken_words

        told, reports, faults = self._told, self._reports, self._faults
        self._told, self._reports, self._faults = [], [], []
        if not told and not reports:
            return
        if self._bar.text:
            told.append(self._bar.text)
        if not reports:
            self._bar.say(" ".join(told))
            return
        told.append(untaken_words([path.name for path in reports], faults))
        first = _("Type in {name}…").format(name=reports[0].name)
        self._bar.say(" ".join(told), first.replace("&", "&&"), partial(self._type_in, reports))

    def _type_in(self, reports: Sequence[Path]) -> None:
        """Type a test from the first of several reports; the others are offered after it."""
        self._bar.clear()
        self._reports += reports[1:]
        self.add_by_hand(reports[:1])

    def add_by_hand(self, documents: Sequence[Path] = ()) -> None:
        """Type a test from a paper report, perhaps from files that are kept beside it."""
        from wellbook.window.dialogs.draft.by_hand_dialog import ByHandDialog

        self.enter(ByHandDialog(self._household, self._chooser, self._window, documents=documents))

    def lab_called(self) -> None:
        """Note bacteria that a lab tells of before its report."""
        from wellbook.window.dialogs.round.on_the_way import telephone_dialog

        self.enter(telephone_dialog(self._household, self._window))

    def add_event(self) -> None:
        """Note an event."""
        self.change_event(None)

    def change_event(self, event: Event | None) -> None:
        """Change what is said of an event; None to note one."""
        from wellbook.window.dialogs.event_dialog import EventDialog

        self.enter(EventDialog(self._household, self._window, event=event))

    def note_done(self, item: "UpkeepItem") -> None:
        """Note that something was done to a unit or a well."""
        from wellbook.window.dialogs.upkeep_dialogs import done_dialog

        self.enter(done_dialog(self._household, item, self._window, self._chooser))

    def inspect_well(self, well: int) -> None:
        """Note a look at a wellhead; 0 in a book that has no well yet."""
        from wellbook.window.dialogs.wellhead_dialog import WellheadDialog

        if not well:
            self._bar.say(_("This book has no well yet: add a sampling point first."))
            return
        self.enter(WellheadDialog(self._household, self._window, well=well, chooser=self._chooser))

    def add_point(self) -> None:
        """Name a place where samples are drawn."""
        from wellbook.window.dialogs.point_dialog import PointDialog

        self.enter(PointDialog(self._household, self._window))

    def show_household(self) -> None:
        """Show where the well lies, who drinks, and what follows."""
        from wellbook.window.dialogs.household.household_dialog import HouseholdDialog

        self.enter(HouseholdDialog(self._household, self._window))

    def meet_household(self, then: Callable[[], None]) -> None:
        """Ask a new household about itself; what comes next comes whether it answers or not."""
        from wellbook.window.dialogs.household.household_dialog import HouseholdDialog

        dialog = HouseholdDialog(self._household, self._window, is_first=True)
        self.enter(dialog)
        dialog.rejected.connect(then)

    def strike(self, sample: Sample) -> None:
        """Strike out a test, with a reason."""
        from wellbook.window.dialogs.strike_dialog import StrikeDialog

        self.enter(StrikeDialog(self._household.book, sample, self._window))

    def correct(self, sample: Sample) -> None:
        """Correct the facts of a test, with a reason."""
        from wellbook.window.dialogs.correct_dialogs import CorrectSampleDialog

        self.enter(CorrectSampleDialog(self._household, sample, self._window))

    def correct_reading(self, sample: Sample, result: "Result") -> None:
        """Correct a reading, with a reason."""
        from wellbook.window.dialogs.correct_dialogs import CorrectResultDialog

        self.enter(CorrectResultDialog(self._household, sample, result, self._window))

    def restore(self, sample: Sample) -> None:
        """Count a struck test again."""
        self._household.apart(partial(self._household.book.restore_sample, sample.id))
        said = _("The test of {day} counts again.")
        self.say_kept(said.format(day=moment_words(sample.collected)))

    def next_round(self) -> None:
        """Show what is to be drawn next, when and how."""
        from wellbook.window.dialogs.round.round_dialog import RoundDialog

        dialog = RoundDialog(self._household, self._chooser, self._window)
        dialog.kept.connect(self.say_kept)
        self._open(dialog)

    def export_packet(self) -> None:
        """Write the history for a buyer or a consultant."""
        from wellbook.window.packet.packet_dialog import PacketDialog

        self._open(PacketDialog(self._household, self._chooser, self._preferences, self._window))

    def export_page(self) -> None:
        """Write the history as one web page, once its private places were seen."""
        from wellbook.window.packet.shorter_dialogs import PageDialog

        self._open(PageDialog(self._household, self._chooser, self._preferences, self._window))

    def export_letter(self) -> None:
        """Write a letter of one page to a doctor, a dealer or the health department."""
        from wellbook.window.packet.shorter_dialogs import LetterDialog

        self._open(LetterDialog(self._household, self._chooser, self._preferences, self._window))

    def export_tables(self) -> None:
        """Write everything as tables into a folder."""
        folder = self._chooser.folder_to_write(self._window)
        if folder is None or self.job.running:
            return
        self._bar.say(_("Writing tables …"), _("Stop"), partial(self._on_export_stopped, folder))
        work = partial(self._household.export, folder)
        self.job.ask(work, partial(self._on_exported, folder))

    def wait(self) -> None:
        """Ask work under way to stop, wait until it did, and heed no late answer."""
        self.job.stop()
        QThreadPool.globalInstance().waitForDone()

    def _on_failed(self, sentence: str) -> None:
        source, self._reading = self._reading, None
        self._bar.clear()
        path = source.path if source else None
        if path is not None and is_report(path):
            self._reports.append(path)  # no table in it: typed in beside the page
            self._faults.append(sentence)
        else:
            self._told.append(sentence)
        self._read_next()

    def _on_export_stopped(self, folder: Path) -> None:
        self.job.drop()
        self._bar.say(_("Stopped; {folder} may hold some of the tables.").format(folder=folder))

    def _on_exported(self, folder: Path, written: Sequence[Path]) -> None:
        n, show = len(written), partial(self._chooser.show, folder)
        said = ngettext("{n} file is in {folder}.", "{n} files are in {folder}.", n)
        self._bar.say(said.format(n=n, folder=folder), _("Open the folder"), show)
        self._read_next()

    def enter(self, dialog: "EntryDialog") -> None:
        """Show a dialog that writes; say what it kept."""
        dialog.kept.connect(self.say_kept)
        self._open(dialog)

    def _open(self, dialog: QDialog) -> None:
        self.dialog = dialog
        dialog.finished.connect(partial(self._on_closed, dialog))
        QDialog.open(dialog)  # a QInputDialog has another `open` of its own

    def say_kept(self, sentence: str) -> None:
        """Say that something was kept, and show the book anew.

        After the first test of a household that said nothing of itself it is asked to: limits and
        cautions follow from it.
        """
        self.changed.emit()
        record = self._household.record
        if len(record.samples()) == 1 and not record.settings.get("country"):
            self._bar.say(sentence, _("Say who drinks it, and where…"), self.show_household)
        else:
            self._bar.say(sentence)

    def _on_closed(self, dialog: QDialog, _unused: int) -> None:
        dialog.deleteLater()
        self.dialog = None if self.dialog is dialog else self.dialog  # its answer may open one
        self.taking_back.forget_asking()
        if self._waiting and self._bar.text:
            self._told.append(self._bar.text)  # said once the others were read, too
        self._read_next()
