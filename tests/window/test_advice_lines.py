"""What the water of a point and what happened at its well ask of people, in lines."""

from dataclasses import replace
from datetime import date

import pytest
from waters import CATALOGUE, TODAY

from wellbook.planning.overview import overview
from wellbook.water.cautions.advice import Advice
from wellbook.water.cautions.findings import Finding
from wellbook.water.sampling.due import PanelDue
from wellbook.window.common import advice
from wellbook.window.common.tips import tip

ONE = Advice(("Lead",), (), urgent=False, finding=Finding.TASTE, text="Of taste.")


@pytest.fixture
def points(home):
    def now():
        (well,) = overview(home.record, home.catalogue, TODAY, with_due=False)
        return well.points

    return now


def test_what_presses_names_what_it_is_about_and_leaves_out_what_is_of_taste(home, points):
    raw, tap = points()
    every = [
        f"{', '.join(one.names)}: {one.text.removeprefix('Arsenic: ')}"
        for one in advice.advice(raw, points(), home)
    ]
    said = advice.pressing(raw, points(), home)
    assert said == tuple(one for one in every if not one.startswith("Manganese"))
    assert every[-1].startswith("Manganese: A matter of taste")
    assert said[0].startswith("Total coliform, E. coli, Nitrate, Nitrate + nitrite: ")
    why = next(place for place, one in enumerate(said) if "the latest sample was below" in one)
    assert said[why].startswith("Arsenic: the latest sample")
    assert why > 1, "what to do stands before why it still holds"
    (behind,) = advice.pressing(tap, points(), home)
    assert "before this tap (Pressure tank)" in behind


def test_what_happened_of_late_stands_first_with_what_to_do(home, points):
    before = advice.pressing(points()[1], points(), home)
    home.book.add_event(1, "flood", "2026-11-20")
    raw, tap = points()
    said = advice.pressing(tap, (raw, tap), home)
    assert said[0].startswith("People first: do not switch on the pump")
    assert said[-1:] == before


def test_an_open_case_says_what_to_do_next_and_by_when(home, points):
    raw, tap = points()
    panel = CATALOGUE.panels["bacteria"]
    day = date(2026, 12, 4)
    case = PanelDue(panel, None, day, 0, (day, day), day, (), day, case="e_coli")
    plain = replace(case, case="", due=date(2027, 1, 1))
    with_case = replace(tap, due=(plain, case))
    said = advice.pressing(with_case, (raw, with_case), home)
    assert said[1:] == (f"What to do next: {panel.name}, by 4 Dec 2026.",)


@pytest.mark.parametrize(
    ("more", "is_said"),
    [
        ({}, False), ({"urgent": True}, True), ({"people": ("infant",)}, True),
        ({"finding": Finding.ADOPTED}, True), ({"finding": Finding.OVER}, True),
    ],
)  # fmt: skip
def test_urgent_for_people_or_over_a_limit_presses(more, is_said):
    assert advice._presses(replace(ONE, **more)) is is_said


def test_all_cautions_stand_in_lines_with_what_holds_for_every_test_last(home, points):
    raw = points()[0]
    found = advice.advice(raw, points(), home)
    every = advice.lines(found, home)
    assert len(every) == len(found) + 1
    assert every[-1].startswith("One result describes one day. ")
    nitrate = advice.lines(found, home, "Nitrate")
    assert len(nitrate) == 3
    assert all("Nitrate" in line for line in nitrate[:2])
    assert nitrate[2] == every[-1]
    assert advice.lines(found, home, "Zinc") == (), "nothing is said where nothing is asked"
    assert advice.lines((), home) == ()


def test_a_tip_shows_every_letter_as_it_was_written():
    assert tip("a <b> & “c”") == (
        '<qt><span style="white-space:pre-wrap">a &lt;b&gt; &amp; “c”</span></qt>'
    )
    assert tip("") == ""
