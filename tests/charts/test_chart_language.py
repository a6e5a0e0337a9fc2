"""Charts in another language than English: a made-up one that has no Latin letters."""

import re
from datetime import date
from gettext import NullTranslations

import pytest
from chart_examples import TODAY, examples

from wellbook.charts.draw.drawing import draw
from wellbook.charts.draw.ions import draw_piper
from wellbook.charts.draw.year_wheel import draw_wheel
from wellbook.charts.layout import backend
from wellbook.charts.layout.theme import PRINT
from wellbook.charts.model.piper import Water, piper
from wellbook.charts.model.year_wheel import wheel
from wellbook.support.translation import Language, using
from wellbook.water.chemistry.major_ions import Majors
from wellbook.water.values.seasons import NORTHERN, wet_and_dry
from wellbook.wording import facts

PLACE_OR_LETTER = re.compile(r"\{[^}]*\}|[A-Za-z]")


class NoLatin(NullTranslations):
    """Every letter that is not part of a place to fill becomes another one."""

    def gettext(self, message):
        return PLACE_OR_LETTER.sub(lambda m: m[0] if m[0].startswith("{") else "ж", message)

    def ngettext(self, one, many, n):
        return self.gettext(one if n == 1 else many)

    def pgettext(self, _context, message):
        return self.gettext(message)


ELSEWHERE = Language("xx", NoLatin())


def written(paint, *what, size=(11, 8), **more):
    """Every line of text on a figure."""
    figure = backend.new_figure(*size, PRINT)
    paint(*what, figure, PRINT, **more)
    return [text.get_text() for text in figure.texts]


def latin(lines, *signs):
    """What is left of lines in Latin letters beside names, units and signs that stay."""
    known = re.compile("|".join(re.escape(sign) for sign in sorted(signs, key=len, reverse=True)))
    return re.findall(r"[A-Za-z]+", known.sub("", " ".join(lines)))


@pytest.mark.parametrize("name", examples())
def test_nothing_on_a_chart_stays_english_but_names_and_units(name):
    with using(ELSEWHERE):
        described = examples()[name]
        lines = written(draw, described, size=(16, 11), with_words=True)
    units = ("mg/L", "µg/L", "N", "MPN/100 mL", "p < ", "p = ")
    names = [described.title, *(event.label for event in described.events)]
    # A set's name comes said from the catalogue of the packet; here it is the English one.
    names += [line.name.split(",")[0] for line in described.limits]
    names += [series.name for series in described.series if series.name]
    assert latin(lines, *units, *names) == []


@pytest.mark.parametrize("scheme", [NORTHERN, wet_and_dry([11, 12, 1])])
@pytest.mark.parametrize("size", [(2, 2), (4, 5), (8, 4)])
def test_nothing_on_a_wheel_stays_english(scheme, size):
    days = [date(2019, 4, 3), date(2022, 9, 8), date(2024, 4, 1)]
    with using(ELSEWHERE):
        found = wheel(days, scheme, TODAY, window=(date(2026, 12, 7), date(2026, 12, 20)))
        assert latin([found.sentence, *written(draw_wheel, found, size=size)], "—") == []


def test_nothing_on_a_diagram_of_ions_stays_english_but_the_ions():
    majors = Majors(2.0, 1.0, 1.0, 1.0, 1.0, 2.0, beside=10.0)
    with using(ELSEWHERE):
        raw = Water("7", treated=False, latest=True, majors=majors)
        found = piper([raw, Water("8", treated=True, latest=False, majors=majors)])
        lines = [found.sentence, *written(draw_piper, found)]
    assert latin(lines, "Ca", "Mg", "Na", "K", "Cl", "SO₄", "HCO₃", "CO₃") == []


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("2024-05-03", "3 May 2024"),
        ("2024-05", "May 2024"),
        ("2024", "2024"),
        ("2024-13", "2024-13"),
        ("2024-02-30", "2024-02-30"),
        ("", ""),
    ],
)
def test_a_day_is_worded_as_far_as_it_is_known_and_stands_as_written_if_there_is_none(
    written, words
):
    assert facts.loose_day(written) == words
