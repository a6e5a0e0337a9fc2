"""Inks, marks and words: readable by contrast, told apart by shape."""

from datetime import date, time
from decimal import Decimal

import pytest
from PySide6.QtCore import QLocale
from PySide6.QtGui import QColor, QImage, QPainter, QPalette
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QDialog,
    QLineEdit,
    QPlainTextEdit,
    QRadioButton,
)

from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.verdicts.judge import Judgement, Verdict
from wellbook.window.common import theme, words
from wellbook.window.widgets import verdict_icons
from wellbook.wording import verdicts

PAGES = [theme.LIGHT, theme.DARK, theme.BLACK_ON_WHITE, theme.WHITE_ON_BLACK]


def luminance(ink):
    """WCAG 2.2, relative luminance."""
    parts = [value / 255 for value in QColor(ink).getRgb()[:3]]
    r, g, b = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one, other):
    """WCAG 2.2, contrast ratio."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("inks", PAGES)
def test_text_reaches_the_contrast_of_wcag_2_2_level_aa(inks):
    for ground in (inks.paper, inks.sheet, inks.band):
        for ink in (inks.text, inks.muted, inks.accent):
            assert contrast(ink, ground) >= 4.5, (ink, ground)
    assert contrast(inks.on_accent, inks.accent) >= 4.5


@pytest.mark.parametrize("inks", PAGES)
def test_marks_reach_the_contrast_of_wcag_2_2_for_graphics(inks):
    for ground in (inks.paper, inks.sheet, inks.band):
        for verdict in Verdict:
            assert contrast(inks.verdicts[verdict], ground) >= 3, (verdict, ground)


@pytest.mark.parametrize("page", ["light", "dark"])
@pytest.mark.parametrize("kind", [QCheckBox, QRadioButton, QLineEdit, QPlainTextEdit, QComboBox])
def test_what_is_ticked_or_written_in_has_an_edge_to_see(qtbot, qapp, page, kind):
    """WCAG 2.2, 1.4.11: 3:1 between the edge and what lies round it."""
    theme.apply_theme(qapp, page)
    widget = kind()
    qtbot.addWidget(widget)
    widget.resize(120, 40)
    picture = widget.grab().toImage()
    ground = (theme.DARK if page == "dark" else theme.LIGHT).paper
    across = [picture.pixelColor(x, picture.height() // 2) for x in range(14)]
    assert max(contrast(ink, ground) for ink in across) >= 3
    theme.apply_theme(qapp, "light")


def black_shape(verdict):
    image = QImage(48, 48, QImage.Format.Format_Grayscale8)
    image.fill(255)
    painter = QPainter(image)
    painter.scale(3, 3)
    verdict_icons.draw(painter, verdict, QColor("black"))
    painter.end()
    return [QColor(image.pixel(x, y)).value() < 128 for x in range(48) for y in range(48)]


@pytest.mark.usefixtures("qapp")
def test_every_verdict_has_a_shape_of_its_own_without_colour():
    shapes = {verdict: black_shape(verdict) for verdict in Verdict}
    for one in Verdict:
        for other in Verdict:
            if one is not other:
                differing = sum(a != b for a, b in zip(shapes[one], shapes[other], strict=True))
                assert differing > 60, (one, other)


def test_the_person_s_choice_decides_and_the_whole_window_follows(opened, preferences):
    app = QApplication.instance()
    opened.do("settings")
    dialog = next(d for d in opened.findChildren(QDialog) if d.isVisible())
    dialog.page.setCurrentIndex(dialog.page.findData("dark"))
    dialog.accept()
    assert preferences.page == "dark"
    assert theme.is_dark(app.palette())
    app.processEvents()
    base = opened.view.overview.table.palette().color(QPalette.ColorRole.Base)
    assert base == QColor(theme.DARK.sheet)


def limit(rule, low, high, unit="mg/L", basis=""):
    low, high = (None if n is None else Decimal(n) for n in (low, high))
    parts = ("", "", "", "", "made up", "", True, "")
    return Limit("set", "iron", LimitKind.HEALTH, rule, low, high, unit, basis, *parts)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (limit(Rule.MAX, None, "10", basis="as N"), "10 mg/L as N"),
        (limit(Rule.RANGE, "6.5", "8.5", "pH units"), "6.5 to 8.5 pH units"),
        (limit(Rule.RANGE, "6.5", None, "pH units"), "at least 6.5 pH units"),
        (limit(Rule.ABSENT, None, None, "per 100 mL"), "must be absent"),
        (None, ""),
    ],
)
@pytest.mark.usefixtures("qapp")
def test_a_limit_in_words(given, said):
    assert words.limit_words(given) == said


@pytest.mark.parametrize(
    ("rule", "low", "high", "value", "said"),
    [
        (Rule.MAX, None, "10", "11", "over"),
        (Rule.RANGE, "6.5", "8.5", "6.1", "too low"),
        (Rule.RANGE, "6.5", "8.5", "9", "too high"),
        (Rule.ABSENT, None, None, None, "present"),
    ],
)
@pytest.mark.usefixtures("qapp")
def test_what_is_outside_says_in_which_way(rule, low, high, value, said):
    value = None if value is None else Decimal(value)
    judged = Judgement(Verdict.OUTSIDE, limit(rule, low, high), value)
    assert verdicts.word(judged) == said


@pytest.mark.parametrize(
    ("reading", "said"),
    [
        (Reading("<0.5", Kind.BELOW, Decimal("0.5"), "mg/L", "as N"), "<0.5 mg/L as N"),
        (Reading("0.5", Kind.NUMBER, Decimal("0.5"), "mg/L as N", "as N"), "0.5 mg/L as N"),
        (Reading("absent", Kind.ABSENT, None, "per 100 mL"), "absent"),
        (Reading("7.1", Kind.NUMBER, Decimal("7.1"), "1"), "7.1"),
    ],
)
@pytest.mark.usefixtures("qapp")
def test_a_reading_is_shown_as_it_was_reported(reading, said):
    assert words.reading_words(reading) == said


def test_a_converted_figure_has_the_digits_of_the_printed_one():
    exact = Decimal("3.908152699825817689181343138")
    assert words.as_exact_as(exact, Decimal("17.3")) == Decimal("3.91")
    assert words.as_exact_as(Decimal(123), Decimal(5)) == Decimal("1.2E+2")
    assert words.number_words(words.as_exact_as(Decimal(123), Decimal(5))) == "120"


@pytest.fixture
def locale():
    before = QLocale()
    yield QLocale.setDefault
    QLocale.setDefault(before)


@pytest.mark.parametrize("name", ["en_US", "en_GB", "de_DE"])
def test_days_are_written_as_in_every_sentence_whatever_the_country(locale, name):
    locale(QLocale(name))
    assert words.day_words(date(2026, 5, 5)) == "5 May 2026"


def test_figures_have_a_decimal_point_in_every_country(locale):
    locale(QLocale("de_DE"))
    assert words.number_words(Decimal("0.50")) == "0.50"


@pytest.mark.usefixtures("qapp")
def test_a_day_without_a_time_stays_a_day():
    assert words.moment_words(LocalTime(date(2026, 11, 5))) == "5 Nov 2026"
    assert words.moment_words(LocalTime(date(2026, 11, 5), time(7, 5))).startswith("5 Nov 2026, ")


@pytest.mark.usefixtures("qapp")
def test_a_month_or_a_year_stays_as_coarse_as_it_is_known():
    assert words.partial_words("2019") == "2019"
    assert words.partial_words("2019-05") == "May 2019"
    assert words.partial_words("2019-05-03") == "3 May 2019"


@pytest.mark.parametrize("inks", PAGES)
@pytest.mark.parametrize("verdict", Verdict)
@pytest.mark.usefixtures("qapp")
def test_the_mark_of_a_chosen_row_is_seen_on_the_accent(inks, verdict):
    """WCAG 2.2, 1.4.11: 3:1 between a mark and what lies round it, in a chosen row too."""
    icon = verdict_icons.mark(verdict, 16, inks.verdicts[verdict], inks.on_accent)
    image = icon.pixmap(16, 16, verdict_icons.QIcon.Mode.Selected).toImage()
    drawn = [image.pixelColor(x, y) for x in range(16) for y in range(16)]
    full = [ink for ink in drawn if ink.alpha() > 200]  # what is softened at an edge left out
    assert full
    assert min(contrast(ink, inks.accent) for ink in full) >= 3


@pytest.mark.parametrize(
    ("choice", "inks"), [*zip(("light", "dark", "contrast", "dark contrast"), PAGES, strict=True)]
)
def test_each_choice_of_a_page_has_its_inks(qapp, choice, inks):
    theme.apply_theme(qapp, choice)
    assert theme.inks_of(qapp.palette()) is inks
    theme.apply_theme(qapp, "light")
