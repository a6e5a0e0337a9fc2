"""What can be noted on the screen and what asks for a test go by the same keys."""

from wellbook.support.paths import resources
from wellbook.water.values.catalogue import read_catalogue
from wellbook.window.dialogs.event_dialog import EventDialog
from wellbook.wording.vocabulary import event_choices


def test_every_happening_that_asks_for_a_test_can_be_noted():
    asking = {one.kind for one in read_catalogue(resources()).triggers}
    of_units = {"unit installed", "unit serviced", "unit failed", "unit in use"}
    of_inspections = {"found bad", "put right"}  # answered line by line in their own dialog
    assert asking - of_units - of_inspections <= event_choices().keys()


def test_a_change_is_asked_for_in_words(opened):
    dialog = EventDialog(opened.view.household, opened)
    dialog.kind.setCurrentIndex(dialog.kind.findData("taste"))
    assert "rotten egg" in dialog.text.placeholderText()
    dialog.kind.setCurrentIndex(dialog.kind.findData("flood"))
    assert dialog.text.placeholderText() == ""
    dialog.deleteLater()
