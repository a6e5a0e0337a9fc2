"""The history as a web page: well-formed, readable by ear, without a link to anything outside."""

import itertools
import re

import commands
import household
import html5lib
import pytest
from packet_fixtures import TODAY

from wellbook.book import Book
from wellbook.packet.options import PacketOptions
from wellbook.packet.web_page import write_page
from wellbook.packet.web_parts import STYLE
from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(paths.resources())
SVG = "{http://www.w3.org/2000/svg}svg"
DAY = TODAY.isoformat()


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    folder = tmp_path_factory.mktemp("page")

    def of(name, language="en"):
        path = folder / f"{name}-{language}.html"
        if not path.exists():
            book = paths.sample_wells() / f"{name}.wellbook"
            done = commands.run("page", book, "-o", path, "--on", DAY, "--language", language)
            assert done.returncode == 0, done.stderr
        return path.read_text("utf-8")

    return of


def tree_of(text):
    # Raises at the first thing that the HTML standard calls a parse error.
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    return parser.parse(text)


@pytest.mark.parametrize("name", ["alder-hollow", "first-year"])
@pytest.mark.parametrize("language", ["en", "es"])
def test_the_page_is_well_formed_and_says_its_language(written, name, language):
    tree = tree_of(written(name, language))
    assert tree.get("lang") == language
    assert tree.findtext("head/title")
    keys = [one.get("id") for one in tree.iter() if one.get("id")]
    assert len(keys) == len(set(keys))


def test_a_history_is_summed_up_under_its_chart(written):
    text = written("alder-hollow")
    assert "Half of 8 tests (4 non-detects among them, counted in by Kaplan-Meier) lay at" in text
    assert "The long-run median is below 5 µg/L with 90 % confidence: at most 5 µg/L" in text


def test_nothing_runs_and_nothing_is_fetched(written):
    text = written("alder-hollow")
    tree = tree_of(text)
    keys = {one.get("id") for one in tree.iter()}
    for one in tree.iter():
        assert one.tag not in {"script", "link", "iframe", "object", "img", "base", "form"}
        for key, value in one.attrib.items():
            assert not str(key).startswith("on")
            if key in {"href", "src"}:
                assert value.startswith("#")
                assert value[1:] in keys, value
        for inner in re.findall(r"url\(([^)]*)\)", " ".join(map(str, one.attrib.values()))):
            assert inner.lstrip("#") in keys
    assert "@import" not in text


def test_headings_go_down_one_step_at_a_time_from_one_title(written):
    levels = [int(one.tag[1]) for one in tree_of(written("alder-hollow")).iter()
              if re.fullmatch(r"h[1-6]", str(one.tag))]  # fmt: skip
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(later - earlier <= 1 for earlier, later in itertools.pairwise(levels))


def test_tables_and_pictures_speak_to_a_screen_reader(written):
    tree = tree_of(written("alder-hollow"))
    for table in tree.iter("table"):
        assert table.findtext("caption")
        assert all(head.get("scope") for head in table.iter("th"))
    pictures = list(tree.iter(SVG)) or list(tree.iter("svg"))
    assert len(pictures) >= 4
    for picture in pictures:
        assert picture.get("role") == "img"
        named = picture.get("aria-labelledby")
        said = next(one for one in picture if one.get("id") == named)
        assert len(said.text) > 40


def luminance(colour):
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_every_colour_of_text_has_contrast_on_the_paper():
    # WCAG 2.2, 1.4.3: 4.5 : 1.
    colours = re.findall(r"(?<![-\w])color: (#[0-9a-f]{6})", STYLE)
    assert len(colours) >= 4
    for colour in colours:
        assert 1.05 / (luminance(colour) + 0.05) >= 4.5, colour


def test_the_page_says_what_page_one_of_the_packet_says_and_gives_its_cautions(written):
    said = re.sub(r"\s+", " ", " ".join(tree_of(written("alder-hollow")).itertext()))
    for words in (
        "E. coli 4.2 MPN/100 mL found on 27 Jul 2021",
        "Since then none were found in 7 tests there, the last on 7 Oct 2025.",
        "For babies and pregnant women",
        "They do not bind a private well",
        "Anybody can change a page like this one",
        "Kitchen tap: Latest, 7 Oct 2025: 137.7 mg/L.",
    ):
        assert words in said
    assert not re.search(r"\bsafe\b", said, re.IGNORECASE)


def test_what_is_private_is_nowhere_in_the_page_unless_it_is_ticked(tmp_path):
    book = household.furnished(tmp_path / "b.wellbook")
    book.close()
    with Book.open(tmp_path / "b.wellbook", readonly=True) as opened:
        for with_personal in (False, True):
            path = tmp_path / f"{with_personal}.html"
            options = PacketOptions("buyer", with_personal=with_personal)
            write_page(opened.record(), CATALOGUE, path, options, today=TODAY)
            text = path.read_text("utf-8")
            tree_of(text)
            assert (household.SAMPLER in text) is with_personal


def test_what_somebody_wrote_never_becomes_markup(tmp_path):
    with household.new_book(tmp_path / "b.wellbook") as book:
        tap = book.add_point(book.add_well("<script>alert(1)</script>"), "tap & <b>sink</b>")
        found = household.result("nitrate", "<i>Nitrate</i>", "4", "mg/L", basis="as N")
        book.add_sample(household.sample(tap, "2024-05-01", found))
        path = tmp_path / "p.html"
        write_page(book.record(), CATALOGUE, path, PacketOptions("buyer"), today=TODAY)
    tree = tree_of(path.read_text("utf-8"))
    assert not list(tree.iter("script"))
    assert tree.findtext("body/header/h1") == "<script>alert(1)</script>"


def test_an_empty_book_gives_a_page_that_is_no_all_clear(tmp_path):
    household.new_book(tmp_path / "b.wellbook").close()
    with Book.open(tmp_path / "b.wellbook", readonly=True) as book:
        write_page(
            book.record(), CATALOGUE, tmp_path / "p.html", PacketOptions("buyer"), today=TODAY
        )
    said = " ".join(tree_of((tmp_path / "p.html").read_text("utf-8")).itertext())
    assert "There is no test that could show anything." in said
    assert "never tested" in said
