import os
import re
import subprocess
import sys
from datetime import date
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from chart_examples import EVENTS, arsenic, coliform, describe, examples, nitrate, result
from fontTools.ttLib import TTFont

from wellbook.charts.draw.drawing import draw, save
from wellbook.charts.layout import backend
from wellbook.charts.layout.theme import DARK, LIGHT, PRINT
from wellbook.support import fonts
from wellbook.support.errors import Fault
from wellbook.support.paths import resources

EXAMPLES = examples()
every_example = pytest.mark.parametrize("name", EXAMPLES)


def drawn(chart, size=(9, 5), theme=LIGHT, **more):
    figure = backend.new_figure(*size, theme)
    draw(chart, figure, theme, **more)
    figure.draw_without_rendering()
    return figure


def boxes(figure):
    return [(t.get_text(), t.get_window_extent()) for t in figure.texts if t.get_text()]


@every_example
@pytest.mark.parametrize("size", [(3, 2), (4.7, 2.7), (6.5, 3), (9, 5), (14, 8)])
@pytest.mark.parametrize("theme", [LIGHT, PRINT], ids=lambda theme: theme.name)
def test_no_words_leave_the_figure_or_lie_on_other_words(name, size, theme):
    figure = drawn(EXAMPLES[name], size, theme)
    placed = boxes(figure)
    for n, (text, box) in enumerate(placed):
        assert box.x0 >= 0, text
        assert box.y0 >= 0, text
        assert box.x1 <= figure.bbox.x1, text
        assert box.y1 <= figure.bbox.y1, text
        for other, other_box in placed[n + 1 :]:
            assert not box.padded(-1.5).overlaps(other_box.padded(-1.5)), (text, other)


@every_example
def test_the_words_of_a_saved_chart_fit_too(name):
    figure = drawn(EXAMPLES[name], (9, 5.5), with_words=True)
    placed = boxes(figure)
    for n, (text, box) in enumerate(placed):
        assert box.x1 <= figure.bbox.x1, text
        for other, other_box in placed[n + 1 :]:
            assert not box.padded(-1.5).overlaps(other_box.padded(-1.5)), (text, other)


@every_example
def test_the_plot_keeps_the_larger_part_of_the_figure(name):
    for size in ((3, 2), (9, 5)):
        (axes,) = drawn(EXAMPLES[name], size).axes
        assert axes.get_position().height > 0.4
        assert axes.get_position().width > 0.7


def test_an_open_mark_has_the_colour_of_the_paper_inside_and_a_line_to_zero():
    (axes,) = drawn(arsenic()).axes
    open_marks = [
        line
        for line in axes.lines
        if line.get_marker() == "o" and line.get_markerfacecolor() == LIGHT.paper
    ]
    assert sorted(open_marks[0].get_ydata()) == [5, 5, 10, 10, 10]
    feet = [
        segment
        for collection in axes.collections
        for segment in getattr(collection, "get_segments", list)()
        if segment[0][1] == 0 and segment[1][1] in {5, 10}
    ]
    assert len(feet) == 5


def test_the_limit_is_one_line_with_a_step():
    (axes,) = drawn(arsenic()).axes
    (limit,) = (line for line in axes.lines if line.get_color() == LIGHT.limit)
    day = date(2006, 1, 23).toordinal()
    assert list(limit.get_ydata()) == [50, 50, 10, 10]
    assert list(limit.get_xdata())[1:3] == [day, day]


def test_raw_and_treated_differ_by_shape():
    figure = drawn(EXAMPLES["raw and treated"])
    markers = {line.get_marker() for line in figure.axes[0].lines}
    assert {"o", "s"} <= markers


def test_the_key_names_what_is_drawn_and_nothing_else():
    words = [text for text, _ in boxes(drawn(nitrate()))]
    assert "measured" in words
    assert not any("not detected" in text for text in words)
    words = [text for text, _ in boxes(drawn(arsenic()))]
    assert any(text.startswith("not detected") for text in words)
    assert any("US EPA" in text for text in words)


def test_a_strip_has_words_and_no_figures_up_its_side():
    words = [text for text, _ in boxes(drawn(coliform()))]
    assert {"present", "absent"} <= set(words)
    assert not any(re.fullmatch(r"[\d.]+", text) and float(text) < 1900 for text in words)


def test_dollar_signs_of_an_event_are_no_formula():
    figure = drawn(EXAMPLES["money and math"])
    (text,) = (text for text in figure.texts if text.get_text() == "filter for $40 or $50")
    assert not text.get_parse_math()


def test_a_chart_without_results_says_so_in_its_middle():
    assert "No result can be drawn." in [text for text, _ in boxes(drawn(EXAMPLES["no result"]))]


def test_a_figure_is_cleared_before_it_is_drawn_on():
    figure = drawn(nitrate())
    before = len(figure.texts)
    draw(nitrate(), figure, DARK)
    assert (len(figure.texts), len(figure.axes)) == (before, 1)
    assert figure.get_facecolor()[:3] == pytest.approx([0x1E / 255] * 3)


def test_drawing_changes_no_setting_of_matplotlib():
    fonts.prepare()
    import matplotlib as mpl

    before = dict(mpl.rcParams)
    drawn(arsenic())
    assert dict(mpl.rcParams) == before


@pytest.mark.parametrize("ending", ["png", "svg", "pdf"])
def test_the_same_chart_gives_the_same_bytes(ending, tmp_path):
    one, two = tmp_path / f"one.{ending}", tmp_path / f"two.{ending}"
    save(arsenic(events=EVENTS), one)
    save(arsenic(events=EVENTS), two)
    assert one.read_bytes() == two.read_bytes()


SAVE = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[1])
from chart_examples import EVENTS, arsenic
from wellbook.charts.draw.drawing import save
save(arsenic(events=EVENTS), Path(sys.argv[2]))
"""


def test_another_process_zone_and_language_give_the_same_bytes(tmp_path):
    here, there = tmp_path / "here.pdf", tmp_path / "there.pdf"
    save(arsenic(events=EVENTS), here)
    env = os.environ | {"TZ": "Pacific/Auckland", "LC_ALL": "de_DE.UTF-8", "PYTHONHASHSEED": "7"}
    subprocess.run(
        [sys.executable, "-c", SAVE, str(Path(__file__).parent), str(there)],
        check=True,
        env=env,
        cwd=Path(__file__).parents[2],
    )
    assert here.read_bytes() == there.read_bytes()


def test_a_saved_pdf_can_be_searched(tmp_path):
    path = tmp_path / "chart.pdf"
    save(arsenic(), path)
    with pypdfium2.PdfDocument(path) as document:
        text = " ".join(document[0].get_textpage().get_text_range().split())
    assert "µg/L" in text
    assert "since 23 Jan 2006" in text
    assert b"DejaVuSans" in path.read_bytes()
    assert b"/CIDFontType2" in path.read_bytes()  # TrueType, whole: ISO 32000-1, 9.7.4


def test_a_font_in_a_saved_pdf_is_its_letters_and_not_how_to_lay_them_out(tmp_path):
    save(arsenic(), tmp_path / "chart.pdf")
    with pikepdf.open(tmp_path / "chart.pdf") as document:
        found = [
            TTFont(BytesIO(one.FontFile2.read_bytes()))
            for one in document.objects
            if isinstance(one, pikepdf.Dictionary) and "/FontFile2" in one
        ]
    assert found
    for font in found:
        assert "glyf" in font
        assert not {"GSUB", "GPOS", "GDEF"} & set(font.keys())


def test_a_saved_svg_keeps_its_text(tmp_path):
    path = tmp_path / "chart.svg"
    save(arsenic(), path)
    svg = path.read_text(encoding="utf-8")
    assert ">Arsenic</text>" in svg
    assert "<dc:date>" not in svg


def test_a_saved_picture_names_no_program_date_or_folder(tmp_path):
    path = tmp_path / "chart.png"
    save(nitrate(), path)
    content = path.read_bytes()
    assert content.startswith(b"\x89PNG")
    assert b"Software" not in content
    assert str(tmp_path).encode() not in content


def test_an_unknown_ending_is_one_clear_sentence(tmp_path):
    with pytest.raises(Fault, match=r"chart\.jpg: a chart is written as \.png, \.svg or \.pdf"):
        save(nitrate(), tmp_path / "chart.jpg")


def test_a_folder_that_is_not_there_is_one_clear_sentence(tmp_path):
    with pytest.raises(Fault, match="can’t be written"):
        save(nitrate(), tmp_path / "missing" / "chart.png")
    (tmp_path / "file").touch()
    with pytest.raises(Fault, match="can’t be written"):
        save(nitrate(), tmp_path / "file" / "chart.png")


START = """
import sys
import wellbook.charts.model.describe, wellbook.charts.model.year_wheel
import wellbook.charts.draw.drawing
import wellbook.charts.draw.year_wheel, wellbook.charts.layout.theme
assert "matplotlib" not in sys.modules and "numpy" not in sys.modules, "loaded too early"
"""


def test_importing_the_charts_does_not_load_matplotlib():
    subprocess.run([sys.executable, "-c", START], check=True, cwd=Path(__file__).parents[2])


READ_ONLY = """
import os, sys
from pathlib import Path
from wellbook.support import paths
def unwritable():
    raise PermissionError("read-only")
paths.cache = unwritable
from wellbook.charts.layout import backend
backend.prepare()
import matplotlib
print(os.environ["MPLCONFIGDIR"])
"""


def test_an_unwritable_cache_folder_is_no_trouble():
    env = {name: value for name, value in os.environ.items() if name != "MPLCONFIGDIR"}
    done = subprocess.run(
        [sys.executable, "-c", READ_ONLY],
        check=True,
        env=env,
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
    )
    folder = Path(done.stdout.strip())
    assert not folder.exists()  # cleared away at the end
    assert done.stderr == ""


def test_the_typefaces_hold_every_sign_that_a_chart_can_show():
    fonts.prepare()
    from matplotlib.ft2font import FT2Font

    signs = "µμ₀₁₂₃₄⁺⁻⁰¹²³≥≤≈±°×–—…’‰ñéüß%½<>()$"
    for name in ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf", "DejaVuSansCondensed.ttf"):
        glyphs = FT2Font(str(resources() / "fonts" / name)).get_charmap()
        assert [sign for sign in signs if ord(sign) not in glyphs] == []


def test_the_licence_of_the_typefaces_lies_beside_them():
    assert "Bitstream Vera" in (resources() / "fonts" / "LICENSE.txt").read_text(encoding="utf-8")


def test_a_long_name_is_cut_and_not_run_over_the_edge():
    from dataclasses import replace

    row = result("lead", date(2020, 1, 1), "4", "µg/L")
    chart = replace(describe([row], "lead"), title="Perfluoro-2-methyl-3-oxahexanoic acid " * 3)
    (heading, box), *_ = boxes(drawn(chart, (3, 2)))
    assert heading.endswith("…")
    assert box.x1 < 3 * 100


NO_PYPLOT = (
    SAVE
    + """
assert "matplotlib.pyplot" not in sys.modules
"""
)


def test_pyplot_with_its_global_state_is_never_loaded(tmp_path):
    subprocess.run(
        [sys.executable, "-c", NO_PYPLOT, str(Path(__file__).parent), str(tmp_path / "a.pdf")],
        check=True,
        cwd=Path(__file__).parents[2],
    )


def test_a_picture_that_can_not_be_written_leaves_nothing_behind(tmp_path):
    (tmp_path / "chart.png").mkdir()
    with pytest.raises(Fault, match="nothing is written over it"):
        save(nitrate(), tmp_path / "chart.png")
    assert [path.name for path in tmp_path.iterdir()] == ["chart.png"]
