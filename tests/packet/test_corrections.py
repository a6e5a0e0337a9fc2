"""What the journal lets a packet say of changes, and of tests that were taken back."""

import household
import pytest

from wellbook.packet.gather import gather
from wellbook.sharing.redaction import privacy


@pytest.fixture
def own(tmp_path):
    with household.furnished(tmp_path / "own.wellbook") as made:
        yield made


def told(book, catalogue, *, with_personal=False):
    from packet_fixtures import TODAY

    return gather(book.record(), catalogue, TODAY, with_personal=with_personal).corrections


def test_a_corrected_reading_is_told_with_its_reason(own, catalogue):
    one = next(one for one in told(own, catalogue) if one.what == "Iron in test 1")
    assert (one.before, one.after) == ("reading: 0.42", "reading: 0.24")
    assert one.reason == "Digits were swapped."


@pytest.mark.parametrize("day", ["2024-05-03", "2024-05-03T07:15"])
def test_a_test_that_was_entered_and_taken_back_is_still_told(own, catalogue, day):
    point = own.points()[0].id
    own.add_sample(household.sample(point, day, household.result("lead", "Lead", "31", "µg/L")))
    own.undo()
    (gone,) = [one for one in told(own, catalogue) if "drawn" in one.what]
    assert gone.what == "A test drawn 3 May 2024"
    assert gone.sample == 0, "it is in the book no more"
    assert (gone.before, gone.after) == ("entered with 1 reading", "taken back")


def test_a_test_that_was_taken_back_and_entered_again_is_not_a_correction(own, catalogue):
    before = told(own, catalogue)
    point = own.points()[0].id
    own.add_sample(
        household.sample(point, "2024-05-03", household.result("lead", "Lead", "31", "µg/L"))
    )
    own.undo()
    own.redo()
    assert told(own, catalogue) == before


def test_private_words_are_covered_as_whole_words_only(own):
    cover = privacy(own.record(), with_personal=False)
    assert cover.cover("drawn by ottoline vexley") == "drawn by [covered: personal]"
    assert cover.cover("Vexleyville") == "Vexleyville"
    assert privacy(own.record(), with_personal=True).cover(household.SAMPLER) == household.SAMPLER
