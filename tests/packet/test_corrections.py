"""What the journal lets a packet say of changes, and of tests that were taken back."""

import household
import pytest

from wellbook.packet.corrections import Named, past_corrections
from wellbook.packet.gather import gather
from wellbook.sharing.redaction import privacy
from wellbook.sharing.sources import PastCorrection, Source


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
    assert (gone.reason, gone.plain) == ("undo: add a sample", gone.what)


def test_a_test_that_was_taken_back_and_entered_again_is_not_a_correction(own, catalogue):
    before = told(own, catalogue)
    point = own.points()[0].id
    own.add_sample(
        household.sample(point, "2024-05-03", household.result("lead", "Lead", "31", "µg/L"))
    )
    own.undo()
    own.redo()
    assert told(own, catalogue) == before


def test_a_test_taken_back_a_second_time_is_told_once_with_the_readings_it_had(own, catalogue):
    point = own.points()[0].id
    two = [household.result(key, key, "31", "µg/L") for key in ("lead", "copper")]
    own.add_sample(household.sample(point, "2024-05-03", *two))
    own.undo()
    own.redo()
    own.undo()
    (gone,) = [one for one in told(own, catalogue) if "drawn" in one.what]
    assert gone.before == "entered with 2 readings"


def test_a_corrected_test_says_where_it_was_drawn_by_name_and_who_drew_it_only_if_that_may_be_told(
    own, catalogue
):
    tap = own.points()[1].id
    own.correct_sample(1, "The label was misread.", point=tap, rain="3 in")
    (moved,) = [one for one in told(own, catalogue) if one.reason == "The label was misread."]
    assert (moved.what, moved.plain, moved.sample) == ("Test 1", "the test itself", 1)
    assert "Pressure tank" in moved.before
    assert "Kitchen tap" in moved.after
    assert "empty" in moved.before
    assert "3 in" in moved.after
    own.correct_sample(1, "Somebody else drew it.", sampler="Ansel Brock")
    why = "Somebody else drew it."
    assert not [one for one in told(own, catalogue) if one.reason == why]
    (shown,) = [one for one in told(own, catalogue, with_personal=True) if one.reason == why]
    assert "Ansel Brock" in shown.after


def test_corrections_stand_in_the_order_in_which_they_were_made(own, catalogue):
    days = [one.at for one in told(own, catalogue)]
    assert len(days) > 1
    assert days == sorted(days)


def past(sample, what="Lead"):
    return PastCorrection("2020-01-02", sample, what, "reading: 1", "reading: 2", "Vexley erred.")


def test_what_packets_told_was_changed_is_told_once_and_only_of_tests_that_are_here(own):
    cover = privacy(own.record(), with_personal=False)
    names = {("sample", 7): Named(7, "Test 2", "the test itself")}
    sources = [
        Source("AB", True, "", "", "", None, "", (7,), told_there, ())  # noqa: FBT003
        for told_there in ((past(7), past(8)), (past(7), past(0, "A test drawn 3 May 2019")))
    ]
    found = past_corrections(sources, names, cover)
    assert [(one.what, one.plain, one.sample) for one in found] == [
        ("Test 2: Lead", "Lead", 7),
        ("A test drawn 3 May 2019", "A test drawn 3 May 2019", 0),
    ]
    assert (found[0].at, found[0].before, found[0].after) == (
        "2020-01-02", "reading: 1", "reading: 2",
    )  # fmt: skip
    assert "Vexley" not in found[0].reason


def test_private_words_are_covered_as_whole_words_only(own):
    cover = privacy(own.record(), with_personal=False)
    assert cover.cover("drawn by ottoline vexley") == "drawn by [covered: personal]"
    assert cover.cover("Vexleyville") == "Vexleyville"
    assert privacy(own.record(), with_personal=True).cover(household.SAMPLER) == household.SAMPLER
