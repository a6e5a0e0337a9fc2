"""A verdict, a kind of limit and a trend are said in the same words by every face.

Every verdict is asked with every kind of limit and every rule: the window's tables, a cell of the
packet, the sentence of a chart, and the line of `status`.
"""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from gettext import NullTranslations
from itertools import product

import pytest

from wellbook.book.rows import Event, Sample
from wellbook.cli.status_text import judgement_line
from wellbook.packet.context import marked
from wellbook.support.paths import resources
from wellbook.support.translation import Language, using
from wellbook.water.statistics.trend import trend
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Fraction, Kind, Reading
from wellbook.water.values.results import Draw, Purpose, Result
from wellbook.water.values.triggers import EventKind
from wellbook.water.verdicts.status import Standing
from wellbook.window.common.words import reading_words
from wellbook.window.pages import sample_rows
from wellbook.window.pages.overview import overview_rows
from wellbook.window.pages.parameter import chart_events, result_rows
from wellbook.wording import facts, paper, verdicts, vocabulary

CATALOGUE = read_catalogue(resources())
IRON = CATALOGUE.parameters["iron"]
SET = next(iter(CATALOGUE.sets))
NOTHING = Judgement(Verdict.NO_LIMIT)
ENDS = {Rule.MAX: (None, 10), Rule.RANGE: (6, 8), Rule.ABSENT: (None, None)}
RESULT = Result(
    1,
    1,
    "iron",
    "Iron",
    Reading("9", Kind.NUMBER, Decimal(9), "mg/L"),
    LocalTime(date(2026, 5, 4)),
    1,
)


def judgements(*wanted):
    """Verdicts on every kind of limit by every rule, with figures on both sides of a range."""
    for verdict, kind, rule in product(wanted or Verdict, LimitKind, Rule):
        low, high = (None if end is None else Decimal(end) for end in ENDS[rule])
        rest = ("", "", "1992-07-30", "", "made up", "", True, "")
        limit = Limit(SET, "iron", kind, rule, low, high, "mg/L", "", *rest)
        for value in (Decimal(5), Decimal(9), None):
            yield Judgement(verdict, limit, value)


def on_the_screen(judgement):
    """The cells of a verdict on the overview, the parameter's page and the page of tests."""
    history = trend([RESULT], IRON)
    standing = Standing(IRON, 1, RESULT, judgement, judgement, history)
    line = overview_rows.Line(standing=standing)
    yield overview_rows.columns(CATALOGUE)[3].text(line)
    row = result_rows.Line(RESULT, None, judgement, judgement)
    (column,) = [c for c in result_rows.columns(IRON, [row]) if c.title == "Then and now"]
    yield column.text(row).split(" · ")[0]
    reading = sample_rows.ReadingLine(RESULT, IRON, judgement)
    yield sample_rows.reading_columns()[2].text(reading).split(" · ")[0]


@pytest.mark.parametrize("verdict", Verdict)
def test_every_face_says_a_verdict_in_the_same_word(verdict):
    for judgement in judgements(verdict):
        word = verdicts.word(judgement)
        assert set(on_the_screen(judgement)) == {word}
        assert marked(judgement)._word == word
        assert judgement_line(judgement, CATALOGUE.sets).startswith(f"{word}, ")


def in_a_chart(judgement):
    limit = judgement.limit
    return verdicts.standing(judgement, facts.bound(limit), CATALOGUE.sets[limit.set].name)


# What a chart's sentence has to hold beside the limit; it says a plain "within" of a non-detect.
IN_A_SENTENCE = {
    "over": "over",
    "present": "present",
    "too low": "below the range",
    "too high": "above the range",
    "off the range": "off the range",
    "over a limit to come": "does not bind yet",
    "close": "close",
    "within": "within",
    "not detected": "within",
    "can’t be told": "can’t be told",
}


@pytest.mark.parametrize("verdict", sorted(set(Verdict) - {Verdict.NO_LIMIT}))
def test_a_chart_says_the_verdict_of_the_tables(verdict):
    good = {Verdict.NEAR, Verdict.WITHIN, Verdict.UNDETECTED}
    for judgement in judgements(verdict):
        if judgement.limit.rule is Rule.ABSENT and verdict in good:
            assert in_a_chart(judgement).startswith("It must be absent (")
        else:
            assert IN_A_SENTENCE[verdicts.word(judgement)] in in_a_chart(judgement)


@pytest.mark.parametrize("kind", LimitKind)
def test_every_face_says_what_a_limit_is_for_in_the_same_words(kind):
    judgement = next(
        one for one in judgements() if one.limit.kind is kind and one.limit.rule is Rule.RANGE
    )
    said = verdicts.kind(kind)
    line = overview_rows.Line(
        standing=Standing(IRON, 1, RESULT, judgement, judgement, trend([RESULT], IRON))
    )
    assert said in overview_rows.columns(CATALOGUE)[4].tip(line)
    assert f"({said})" in judgement_line(judgement, CATALOGUE.sets)
    assert f", {said}, since" in in_a_chart(judgement)


def test_every_verdict_has_a_meaning_and_the_most_urgent_stands_first():
    assert set(verdicts.meanings()) == set(Verdict)
    places = [
        min(one.urgency for one in judgements() if one.verdict is verdict)[0]
        for verdict in verdicts.meanings()
    ]
    assert places == sorted(places)


def test_worse_is_never_said_in_the_word_of_better():
    said = {}
    for judgement in judgements():
        said.setdefault(verdicts.word(judgement), set()).add(judgement.verdict)
    assert all(len(meant) == 1 for meant in said.values())


class _Loud(NullTranslations):
    """A language in which everything that is said stands out."""

    def gettext(self, message):
        return f"~{message}~"

    def pgettext(self, _context, message):
        return f"~{message}~"


def test_no_stored_key_of_a_kind_reaches_the_screen():
    reading = Reading("9", Kind.NUMBER, Decimal(9), "mg/L", fraction=Fraction.DISSOLVED)
    result = replace(RESULT, reading=reading, draw=Draw.FIRST)
    row = result_rows.Line(result, None, NOTHING, NOTHING)
    sample = Sample(1, 1, RESULT.collected, purpose=Purpose.TREATMENT_CHECK)
    flood = Event(1, 1, EventKind.FLOOD, "2026-05-04")
    with using(Language("loud", _Loud())):
        remarks = next(c for c in result_rows.columns(IRON, [row]) if c.title == "~Remarks~")
        assert remarks.text(row) == "~first draw~, ~dissolved~"
        purpose = next(c for c in sample_rows.columns() if c.title == "~Purpose~")
        line = sample_rows.Line(sample, "Tap", 1, 0)
        assert purpose.text(line) == "~check of the treatment~"
        assert [mark.label for mark in chart_events.marks([flood])] == ["~flood~"]
        for words in (vocabulary.purposes(), vocabulary.standings(), vocabulary.event_choices()):
            assert all(said.startswith("~") for said in words.values())


@pytest.mark.parametrize(
    ("text", "unit", "basis", "said"),
    [
        ("16.2 ug/L", "ug/L", "", "16.2 ug/L"),
        ("<0.5mg/L", "mg/L", "", "<0.5 mg/L"),
        ("9.6 mg/L", "mg/L", "as N", "9.6 mg/L as N"),
        ("9.6 mg/L as N", "mg/L", "as N", "9.6 mg/L as N"),
        ("45 mg/L NO3", "mg/L", "as NO3", "45 mg/L as NO3"),
        ("9.6 mg/L as N", "mg/L as N", "as N", "9.6 mg/L as N"),
        ("9.6", "mg/L", "as N", "9.6 mg/L as N"),
        ("7.1", "1", "", "7.1"),
    ],
)
def test_a_unit_that_stands_in_the_cell_of_the_figure_is_said_once(text, unit, basis, said):
    reading = Reading(text, Kind.NUMBER, Decimal(1), unit, basis)
    assert facts.reported(reading) == said
    assert paper.with_fraction(reading) == said
    assert reading_words(reading) == said
