"""Letters that our fonts lack: from a font of the computer that has them, or a box; no noise."""

from datetime import date

import pytest
import squares
from chart_examples import EVENTS, nitrate
from matplotlib.font_manager import fontManager
from squares import WELL

from wellbook.charts.draw.drawing import save
from wellbook.charts.layout import backend
from wellbook.charts.model.parts import EventMark
from wellbook.support import fonts

DROP = "\N{DROPLET}"


@pytest.fixture
def other_font(tmp_path):
    with squares.installed(tmp_path):
        yield


@pytest.fixture
def no_other_font(monkeypatch):
    monkeypatch.setattr(fontManager, "ttflist", [])
    squares.forget()
    yield
    squares.forget()


@pytest.mark.parametrize("kind", ["png", "svg", "pdf"])
@pytest.mark.parametrize(
    "label", [WELL, DROP, f"{WELL}{DROP} dug \x07", "\N{FAMILY}\ufe0f"], ids=ascii
)
def test_a_letter_that_no_font_has_is_a_box_and_raises_no_warning(tmp_path, label, kind):
    events = (*EVENTS, EventMark(date(2019, 5, 4), label))
    drawn = nitrate(events=events)
    save(drawn, tmp_path / f"chart.{kind}")
    assert (tmp_path / f"chart.{kind}").stat().st_size > 1000


@pytest.mark.usefixtures("no_other_font")
def test_what_no_font_has_is_a_box():
    assert fonts.drawn(f"{WELL} dug\x07").text == "□ dug "


@pytest.mark.usefixtures("other_font")
def test_what_another_font_has_is_drawn_from_it(tmp_path):
    assert fonts.drawn(f"new {WELL}") == (f"new {WELL}", ("Squares",))
    wide = backend.text_width(WELL, "regular", 72)
    assert wide == pytest.approx(1 * backend._PIXELS, rel=0.05)  # the square is one em wide
    for kind in ("png", "svg", "pdf"):
        save(nitrate(events=(EventMark(date(2019, 5, 4), f"new {WELL}"),)), tmp_path / f"c.{kind}")
    assert WELL in (tmp_path / "c.svg").read_text(encoding="utf-8")
