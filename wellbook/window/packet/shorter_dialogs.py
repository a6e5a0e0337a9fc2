"""Handing over less than a packet: a web page, and a letter of one page."""

from functools import partial
from pathlib import Path

from PySide6.QtWidgets import QButtonGroup, QRadioButton, QVBoxLayout, QWidget

from wellbook.packet.letters.sentences import RECIPIENTS, recipient_name
from wellbook.packet.options import PacketOptions
from wellbook.support.translation import N_, _
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Tell
from wellbook.window.common.preferences import Preferences
from wellbook.window.packet.packet_dialog import PacketDialog
from wellbook.window.packet.packet_jobs import Writing, Written, count, refuse_nothing


class PageDialog(PacketDialog):
    """Asks what goes into the web page, and shows what is private in it before it is written."""

    title = N_("The history as a web page")
    about = N_(
        "One page for a browser, without script and network. It has no check code: anybody can "
        "change a web page. Where that matters, hand the packet over."
    )
    has_originals = False

    def __init__(
        self, household: Household, chooser: Chooser, preferences: Preferences, parent: QWidget
    ) -> None:
        super().__init__(household, chooser, preferences, parent)
        self.reader.leave_out_closing()
        self.reader.leave_out_paper()
        for button in (self.pages_button, self.print_button):  # a browser shows and prints it
            button.hide()

    def target(self) -> tuple[str, str]:
        """A web page, named after the book."""
        return f"{self._household.path.stem}.html", _("Web page (*.html)")

    def writing(self) -> Writing:
        """The writer of the page."""
        return _write_page


class LetterDialog(PacketDialog):
    """Asks whom the letter goes to and what it may tell."""

    title = N_("A letter on the results")
    about = N_(
        "One page with the latest results, those about health first, and what is asked. It leaves "
        "room for names; private facts stay out unless they are ticked."
    )
    has_originals = False

    def __init__(
        self, household: Household, chooser: Chooser, preferences: Preferences, parent: QWidget
    ) -> None:
        super().__init__(household, chooser, preferences, parent)
        self.pages_button.hide()
        self.recipients = QButtonGroup(self)
        column = QVBoxLayout()
        for number, recipient in enumerate(RECIPIENTS):
            choice = QRadioButton(recipient_name(recipient))
            self.recipients.addButton(choice, number)
            column.addWidget(choice)
        self.recipients.button(0).setChecked(True)
        self.reader.leave_out_closing()
        self.reader.replace_readers(_("To"), column)

    @property
    def recipient(self) -> str:
        """Whom it goes to."""
        return RECIPIENTS[self.recipients.checkedId()]

    def target(self) -> tuple[str, str]:
        """A PDF, named after the book and whom it goes to."""
        name = f"{self._household.path.stem}-{self.recipient}.pdf"
        return name, _("PDF files (*.pdf)")

    def writing(self) -> Writing:
        """The writer of the letter that is chosen."""
        return partial(_write_letter, self.recipient)


def _write_page(household: Household, path: Path, options: PacketOptions, tell: Tell) -> Written:
    from wellbook.packet.web_page import write_page

    with household.book.again() as book:
        record = book.record().loaded()
        if not options.is_whole:
            refuse_nothing(count(record, household.untranslated, options.scope, tell))
        tell(0, 0, "")
        write_page(
            record,
            household.untranslated,
            path,
            options,
            today=household.today,
            check_cancelled=partial(tell, 0, 0, path.name),
        )
    return Written(path, 0)


def _write_letter(
    recipient: str, household: Household, path: Path, options: PacketOptions, tell: Tell
) -> Written:
    from wellbook.packet.letters.paper import write_letter

    with household.book.again() as book:
        record = book.record().loaded()
        if not options.is_whole:
            refuse_nothing(count(record, household.untranslated, options.scope, tell))
        tell(0, 0, "")
        write_letter(
            record, household.untranslated, path, recipient, options, today=household.today
        )
    return Written(path, 0)
