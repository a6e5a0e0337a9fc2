"""The overview answers first; worse water never gets a milder answer.

40 CFR 141.62(b): nitrate 10 mg/L as N. 40 CFR 141.63: E. coli absent. 40 CFR 143.3: chloride
250 mg/L, not about health.
"""

from datetime import date

import pytest
from PySide6.QtWidgets import QLabel

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.planning.overview import overview
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime
from wellbook.water.verdicts.judge import Verdict
from wellbook.window.common.theme import em
from wellbook.window.pages.overview.answer_card import AnswerCard
from wellbook.window.pages.overview.answer_words import answer

TODAY = date(2026, 11, 25)
MILD_TO_BAD = (
    ("nitrate", "2", "mg/L", "as N"),
    ("nitrate", "9", "mg/L", "as N"),
    ("chloride", "900", "mg/L", ""),
    ("nitrate", "<50", "mg/L", "as N"),
    ("nitrate", "14", "mg/L", "as N"),
)


@pytest.fixture
def told(tmp_path, reference):
    """What is said first of a tap with these results."""

    def say(*tests, **settings):
        path = tmp_path / f"{len(list(tmp_path.iterdir()))}.wellbook"
        with Book.create(path) as book:
            point = book.add_point(book.add_well("Low Field"), "Tap")
            for year, rows in enumerate(tests, start=2024):
                results = tuple(
                    NewResult(key, key, read_reading(text, unit=unit, basis=basis))
                    for key, text, unit, basis in rows
                )
                day = LocalTime.parse(f"{year}-05-04")
                book.add_sample(NewSample(point=point, collected=day, results=results))
            book.set_settings(settings)
            (well,) = overview(book.record(), reference.catalogue, TODAY, with_due=False)
        return answer(well.points[0], reference.catalogue, TODAY)

    return say


def test_the_worst_of_several_results_is_the_answer_whatever_else_is_within(told):
    for n, worse in enumerate(MILD_TO_BAD):
        alone = told([worse])
        for milder in MILD_TO_BAD[:n]:
            if milder[0] != worse[0]:
                assert told([milder, worse]).verdict is alone.verdict
                assert told([milder, worse]).key == worse[0]


def test_the_first_passing_of_a_health_limit_is_said_as_such(told):
    said = told([MILD_TO_BAD[0]], [MILD_TO_BAD[1]], [MILD_TO_BAD[4]])
    assert said.head == "Nitrate is outside its health limit for the first time"
    assert said.verdict is Verdict.OUTSIDE
    assert "14 mg/L as N on 4 May 2026." in said.detail
    assert "US EPA primary drinking water rules, health, since 30 Jul 1992" in said.detail


def test_what_must_be_absent_and_what_cant_be_told_have_words_of_their_own(told):
    assert (
        told([("e_coli", "present", "", "")]).head == "E. coli was found where there must be none"
    )
    unseen = told([MILD_TO_BAD[3]])
    assert unseen.head == "Whether Nitrate is within its limit can’t be told"
    assert unseen.verdict is Verdict.UNDECIDABLE


def test_an_advisory_level_is_never_said_to_be_no_matter_of_health(told):
    """Minnesota's guidance for PFOA is an advisory level; the set names its page."""
    over = [("pfoa", "3", "ng/L", "")]
    said = told(over, limit_sets="us-mn")
    assert said.head == "PFOA is outside an advisory level"
    assert said.verdict is Verdict.OUTSIDE
    both = told([*over, ("lead", "<50", "µg/L", "")], limit_sets="us-mn us-epa-primary")
    assert both.head == said.head, "what is surely over comes before what can’t be told"
    several = told([*over, ("manganese", "400", "µg/L", "")], limit_sets="us-mn")
    assert several.head == "2 results are outside advisory levels"


def test_taste_is_never_said_as_health_and_calm_water_is_never_called_safe(told):
    assert told([MILD_TO_BAD[2]]).head == "Chloride is outside a limit that is not about health"
    calm = told([MILD_TO_BAD[0]])
    assert calm.head == "The latest result of 1 parameter is within its limit"
    assert "safe" not in (calm.head + calm.detail + calm.rest).casefold()
    assert told().head == "No test of this water yet"


def test_cautions_that_change_in_sight_are_shown_to_their_end(qtbot):
    card = AnswerCard()
    qtbot.addWidget(card)
    card.resize(600, 400)
    card.show()
    care = "Do not give this water to a baby under six months. " * 4
    for lines in ((), (care,)):
        card.care.show_cautions(lines)
        card.fit_cautions()
    assert card.care.height_for(600) > 3 * card.fontMetrics().height()
    assert card.care_room.height() >= card.care.height_for(card.width() - 3 * em(card))


def test_cautions_that_come_while_others_are_in_sight_are_whole_at_once(qtbot):
    card = AnswerCard()
    qtbot.addWidget(card)
    card.resize(600, 400)
    card.show()
    care = "Do not give this water to a baby under six months. " * 4
    for many in (1, 5, 9):
        card.care.show_cautions((care,) * many)
        card.fit_cautions()
        shown = [line for line in card.care.findChildren(QLabel) if line.isVisible()]
        assert len(shown) == many
        # Nothing was painted in between: what is painted next is not cut.
        assert all(line.height() >= line.heightForWidth(line.width()) for line in shown)
