"""Contrast after WCAG 2.2: relative luminance and contrast ratio as its glossary defines them."""

import pytest

from wellbook.charts.layout.theme import BLACK_ON_WHITE, DARK, LIGHT, PRINT, WHITE_ON_BLACK

SHARP = [BLACK_ON_WHITE, WHITE_ON_BLACK]
THEMES = pytest.mark.parametrize(
    "theme", [LIGHT, DARK, PRINT, *SHARP], ids=lambda theme: theme.name
)


def luminance(colour):
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def lightness(colour):
    """CIE 1976 L*, 0 to 100: what is left of a colour in a grey print."""
    y = luminance(colour)
    return 116 * y ** (1 / 3) - 16 if y > 216 / 24389 else y * 24389 / 27


def test_the_contrast_of_black_on_white_is_21():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@THEMES
def test_text_is_legible_on_paper_and_on_every_season(theme):
    for ground in (theme.paper, *theme.tones):
        assert contrast(theme.ink, ground) >= 4.5  # WCAG 2.2, 1.4.3
        assert contrast(theme.soft, ground) >= 4.5


@pytest.mark.parametrize("theme", SHARP, ids=lambda theme: theme.name)
def test_text_on_a_page_of_high_contrast_has_the_enhanced_one(theme):
    for ground in (theme.paper, *theme.tones):
        assert contrast(theme.ink, ground) >= 7  # WCAG 2.2, 1.4.6
        assert contrast(theme.soft, ground) >= 7


@THEMES
def test_marks_and_lines_stand_out_on_paper_and_on_every_season(theme):
    for ground in (theme.paper, *theme.tones):
        for colour in (theme.first, theme.limit, theme.ink, theme.soft):
            assert contrast(colour, ground) >= 3  # WCAG 2.2, 1.4.11
    assert contrast(theme.accent, theme.paper) >= 3


def test_on_paper_a_limit_about_health_is_no_lighter_in_grey_than_other_lines():
    # and it is drawn wider (see `draw/paint`): colour says nothing in a grey print.
    assert lightness(PRINT.limit) <= lightness(PRINT.soft)


@THEMES
def test_seasons_are_pale_and_still_differ_in_grey(theme):
    blank, dark, between = map(lightness, theme.tones)
    assert abs(blank - dark) <= 10
    assert abs(blank - dark) > abs(blank - between)
    # About 2.3 is a just noticeable difference in CIELAB (Mahy and others 1994, from memory).
    assert abs(dark - between) >= 2.3
    assert abs(blank - between) >= 2.3


@THEMES
def test_the_lines_of_the_grid_stay_behind(theme):
    assert contrast(theme.rule, theme.paper) < 2


def test_a_faint_colour_lies_half_way_to_the_paper():
    assert LIGHT.faint("#000000") == "#7f7f7f"
