"""The yearly look at a wellhead and its surroundings: a checklist, photos, remarks."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from wellbook.book.rows import Event, InspectionAnswer
from wellbook.planning.upkeep.mending import mended_by
from wellbook.planning.upkeep.words import answer
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext
from wellbook.water.sampling.inspection import ANSWERS, BAD, Item, Seen
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.common.typed_days import partial_hint, read_partial
from wellbook.window.widgets.attaching import is_picture, new_document
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import named, rule, words

if TYPE_CHECKING:
    from pathlib import Path

_PHOTO_LINES = 2


@dataclass(frozen=True, slots=True)
class _Line:
    """One line of the checklist as it stands in the dialog."""

    item: Item
    seen: QComboBox
    remark: QLineEdit
    mended: QLineEdit


class WellheadDialog(EntryDialog):
    """Asks for each line whether it was good, bad or not seen; a bad one says what to do.

    An inspection that is in the book is put right line by line in the same way.
    """

    def __init__(
        self,
        household: Household,
        parent: QWidget,
        *,
        well: int,
        chooser: Chooser,
        event: Event | None = None,
    ) -> None:
        """Make the dialog.

        Args:
            household: Whose well it is.
            parent: The window.
            well: Number of the well.
            chooser: Asks which files the photos are.
            event: The inspection that is changed; None for a new one.
        """
        super().__init__(_("Wellhead inspection"), _("Keep the inspection"), parent, width=52)
        self._household, self._well, self._event = household, well, event
        held = household.record.answers if event else ()
        self._held = {one.item: one for one in held if event and one.event == event.id}
        self._chooser = chooser
        self.rows.addWidget(
            words(
                _(
                    "Look and don’t open: electricity at a wellhead can kill, and so can the air "
                    "in a pit or a dug well. Your local code and a licensed well contractor go "
                    "before what stands here; nothing here says that the water is safe."
                ),
                bold=True,
            )
        )
        self.day = QLineEdit(event.day if event else household.today.isoformat())
        self.day.setPlaceholderText(partial_hint())
        head = QFormLayout()
        head.addRow(named(_("&Day"), self.day), self.day)
        self.rows.addLayout(head)
        self.lines = [self._line(item) for item in household.upkeep.checklist]
        self.photos: list[Path] = []
        self.photo_list = QListWidget()
        self.photo_list.setAccessibleName(_("Photos"))
        self.photo_list.setFixedHeight(em(self) * 2 * _PHOTO_LINES)
        self.photo_button = QPushButton(_("Add &photos…"))
        self.photo_button.clicked.connect(lambda: self.bar.attempt(self._add_photos))
        self.text = QPlainTextEdit(event.text if event else "")
        self.text.setTabChangesFocus(True)
        self.text.setFixedHeight(em(self) * 4)
        self._lay_out()

    def _line(self, item: Item) -> _Line:
        self.rows.addWidget(rule())
        seen = QComboBox()
        seen.setAccessibleName(item.name)
        for key, said in {"": _("not answered"), **{key: answer(key) for key in ANSWERS}}.items():
            seen.addItem(said, key)
        known = self._held.get(item.key)
        seen.setCurrentIndex(max(seen.findData(known.answer if known else ""), 0))
        remark = QLineEdit(known.text if known else "")
        remark.setAccessibleName(_("Remark on: {line}").format(line=item.name))
        remark.setPlaceholderText(_("remark"))
        to_do = words(
            " ".join(filter(None, (item.do, _("Who does it: {who}.").format(who=item.who)))),
        )
        to_do.setVisible(seen.currentData() == BAD)
        mended = QLineEdit(known.mended if known else "")
        mended.setAccessibleName(_("Put right on: {line}").format(line=item.name))
        mended.setPlaceholderText(_("put right on"))
        mended.setVisible(self._event is not None and seen.currentData() == BAD)
        caution = words(item.caution, quiet=True)
        caution.setVisible(bool(item.caution))
        set_tip(seen, item.source)
        across = QHBoxLayout()
        across.setSpacing(em(self))
        sentences = QVBoxLayout()
        sentences.setSpacing(0)
        sentences.addWidget(words(item.line))
        sentences.addWidget(caution)
        sentences.addWidget(to_do)
        across.addLayout(sentences, 3)
        fields = QVBoxLayout()
        fields.addWidget(seen)
        fields.addWidget(remark)
        fields.addWidget(mended)
        fields.addStretch(1)
        across.addLayout(fields, 1)
        self.rows.addLayout(across)

        def show() -> None:
            is_bad = seen.currentData() == BAD
            to_do.setVisible(is_bad)
            mended.setVisible(is_bad and self._event is not None)

        seen.currentIndexChanged.connect(show)
        return _Line(item, seen, remark, mended)

    def _lay_out(self) -> None:
        self.rows.addWidget(rule())
        form = QFormLayout()
        form.addRow(named(_("In your w&ords"), self.text), self.text)
        photos = QHBoxLayout()
        photos.addWidget(self.photo_list, 1)
        photos.addWidget(self.photo_button)
        form.addRow(named(_("Photos"), self.photo_list), photos)
        self.rows.addLayout(form)
        self.finish(spare=False)
        self.day.setFocus()

    def _add_photos(self) -> None:
        for path in self._chooser.documents(self):
            if not is_picture(path):
                raise Fault(
                    _("{path} is no picture by its name: a photo ends in .jpg, .png or .heic.")
                    .format(path=path)
                )  # fmt: skip
            new_document(path)  # says at once if it can't be read
            self.photos.append(path)
            self.photo_list.addItem(path.name)

    @property
    def is_touched(self) -> bool:
        """Photos are entered, too."""
        return bool(self.photos) or super().is_touched

    def keep(self) -> str:
        """Write the inspection with what was seen and its photos."""
        day = read_partial(self.day.text())
        if not day:
            raise Fault(_("Say on which day you looked."))
        answers = [answer for line in self.lines if (answer := _answer(line, day))]
        known = {line.item.key for line in self.lines}
        answers += [one for key, one in self._held.items() if key not in known]
        if not answers:
            raise Fault(_("Answer at least one line of the checklist."))
        pictures = [new_document(path) for path in self.photos]
        text, book = self.text.toPlainText().strip(), self._household.book
        if self._event:
            book.change_inspection(self._event.id, day, answers, pictures, text)
        else:
            book.add_inspection(self._well, day, answers, pictures, text=text)
        bad = sum(one.answer == BAD and not one.mended for one in answers)
        if not bad:
            return _("The inspection is kept.")
        return ngettext(
            "The inspection is kept; {n} thing stays on the list until it is put right.",
            "The inspection is kept; {n} things stay on the list until they are put right.",
            bad,
        ).format(n=bad)


def _answer(line: _Line, day: str) -> InspectionAnswer | None:
    """What was seen of a line, if anything was said of it.

    Raises:
        Fault: There is a remark and no answer, or it was put right before it was seen.
    """
    seen, remark = line.seen.currentData(), line.remark.text().strip()
    if remark and not seen:
        said = _("There is a remark on “{line}”, but no answer: choose one.")
        raise Fault(said.format(line=line.item.name))
    mended = read_partial(line.mended.text()) if seen == BAD else ""
    if mended:
        mended_by([Seen(0, line.item.key, BAD, day)], mended)
    return InspectionAnswer(0, 0, line.item.key, seen, remark, mended) if seen else None
