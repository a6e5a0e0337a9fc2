"""One reading has one verdict, wherever it is read: window, commands, chart and packet.

Gross alpha is the case that is easily forgotten: its limit leaves out uranium and radon
(40 CFR 141.66(c)), so its verdict asks for the uranium of the same sample.
"""

import json
import re
from types import SimpleNamespace

import commands
import pytest
from packet_fixtures import TODAY
from pypdf import PdfReader
from reading import pages_of

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.packet.gather import gather
from wellbook.planning.overview import overview
from wellbook.support.examples import known
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime
from wellbook.water.verdicts.judge import Verdict
from wellbook.water.verdicts.status import Standing
from wellbook.window.app.book_pages import Page
from wellbook.wording import facts as words
from wellbook.wording import verdicts
from wellbook.wording.reasons import why

ALPHA = ("gross_alpha", "18", "pCi/L")
URANIUM = ("uranium", "10", "pCi/L")


def reading(key, text, unit):
    return NewResult(key, key, read_reading(text, unit=unit))


def radioactive(path, *samples):
    """A book with one sample a list of readings, all of one morning."""
    with Book.create(path) as book:
        point = book.add_point(book.add_well("Granite Ridge"), "Kitchen tap")
        for hour, readings in enumerate(samples, start=7):
            day = LocalTime.parse(f"2026-05-04T{hour:02}:00")
            rows = tuple(reading(*one) for one in readings)
            book.add_sample(NewSample(point=point, collected=day, results=rows))
    return path


def command(*told):
    done = commands.run(*told)
    assert (done.returncode, done.stderr) == (0, "")
    return done.stdout


def on_the_tests_page(view):
    """The verdict of the sampling day of every reading that the page of tests shows."""
    found = {}
    for row in range(view.at("tests").model.rowCount()):
        view.at("tests").table.pick(row)
        for line in view.at("tests").readings_model.rows:
            found[line.result.id] = (line.judgement.verdict, why(line.judgement))
    return found


def on_the_parameter_pages(frame):
    """Each parameter of the chosen point: the lines of its table and the chart's sentence."""
    found = {}
    for _ in frame.view.point.standings:
        frame.do("next_parameter")
        assert frame.view.page == Page.PARAMETER
        page = frame.view.at("parameter")
        found[page._standing.parameter.key] = SimpleNamespace(
            lines=page.model.rows, sentence=page.sentence.text()
        )
    return found


def chart_says(standing, catalogue):
    limit = standing.now.limit
    allowed = words.in_unit_of(standing.latest.reading, limit, standing.parameter) if limit else ""
    return verdicts.standing(standing.now, allowed, catalogue.sets[limit.set].name if limit else "")


def check_agreement(frame, path):
    """Compare every face of every reading of a book with the packet's facts and the overview."""
    frame.open_book(path)
    view, catalogue = frame.view, frame.view.household.catalogue
    status = json.loads(command("status", path, "--on", TODAY, "--json"))
    book = view.household.book
    history = gather(book.record(), catalogue, TODAY, with_personal=True)
    facts = {
        one.result.id: one for test in (*history.tests, *history.struck) for one in test.results
    }
    thens = on_the_tests_page(view)
    judged = {n: one for n, one in facts.items() if one.parameter}
    assert judged
    assert {n: thens[n] for n in judged} == {
        n: (one.then.verdict, why(one.then)) for n, one in judged.items()
    }
    points = [point for well in overview(book.record(), catalogue, TODAY) for point in well.points]
    told = [point for well in status["wells"] for point in well["points"]]
    for place, (point, said) in enumerate(zip(points, told, strict=True)):
        view.head.points.setCurrentIndex(place)
        view.head.points.activated.emit(place)
        assert view.point.point.id == point.point.id
        pages = on_the_parameter_pages(frame)
        assert set(pages) == {one.parameter.key for one in point.standings}
        ranked = [one for one in point.by_urgency if isinstance(one, Standing)]
        assert list(view.overview.order) == [one.parameter.key for one in ranked]
        for one, json_one in zip(ranked, said["parameters"], strict=True):
            assert json_one["key"] == one.parameter.key
            page = pages[one.parameter.key]
            latest = facts[one.latest.id]
            assert (latest.then, latest.now) == (one.then, one.now)
            assert json_one["now"]["verdict"] == one.now.verdict
            assert json_one["then"]["verdict"] == one.then.verdict
            assert chart_says(one, catalogue) in page.sentence
            assert {line.result.id: (line.then, line.now) for line in page.lines} == {
                n: (fact.then, fact.now)
                for n, fact in facts.items()
                if n in {line.result.id for line in page.lines}
            }
    return points


@pytest.mark.parametrize("name", sorted(known()))
def test_every_face_gives_every_reading_of_a_household_the_same_verdict(frame, household, name):
    check_agreement(frame, household(name))


@pytest.mark.parametrize(
    ("samples", "verdict"),
    [
        ([[ALPHA, URANIUM]], Verdict.WITHIN),
        ([[ALPHA]], Verdict.UNDECIDABLE),
        ([[ALPHA], [("gross_alpha", "5", "pCi/L"), URANIUM]], Verdict.UNDECIDABLE),
        ([[("gross_alpha", "30", "pCi/L"), URANIUM]], Verdict.OUTSIDE),
    ],
    ids=["with its uranium", "alone", "uranium of another sample", "over even so"],
)
def test_every_face_judges_gross_alpha_beside_its_uranium(frame, tmp_path, samples, verdict):
    path = radioactive(tmp_path / "granite.wellbook", *samples)
    (point,) = check_agreement(frame, path)
    alpha = next(one for one in point.standings if one.parameter.key == "gross_alpha")
    assert alpha.now.verdict is verdict

    packet = tmp_path / "history.pdf"
    command("packet", path, "--for", "consultant", "--on", TODAY, "-o", packet)
    pages = pages_of(packet)
    doubt = r"Gross alpha, Kitchen tap: \d+ pCi/L on 4 May 2026\. Can’t be told\."
    assert bool(re.search(doubt, pages[0])) == (verdict is Verdict.UNDECIDABLE)
    asked = "A uranium result of the same sample would tell." in " ".join(pages)
    assert asked == (verdict is Verdict.UNDECIDABLE)


MIXED = [
    ("iron", "0.9", "mg/L"),  # over a limit of taste
    ("nitrate", "9", "mg/L as N"),  # close to a health limit
    ("arsenic", "<50", "ug/L"),  # can't be told from a health limit
    ("lead", "18", "ug/L"),  # over an action level
    ("sodium", "12", "mg/L"),
]


def test_every_face_puts_what_needs_attention_into_the_same_order(frame, tmp_path):
    path = radioactive(tmp_path / "mixed.wellbook", MIXED)
    check_agreement(frame, path)
    expected = ["Lead", "Arsenic", "Iron", "Nitrate"]
    names = [one.name for one in frame.view.household.catalogue.parameters.values()]
    on_screen = [line.standing.parameter.name for line in frame.view.overview.model.rows
                 if line.standing]  # fmt: skip
    assert on_screen[: len(expected)] == expected

    in_words = [line.strip().split(":")[0] for line in command("status", path).splitlines()]
    assert [name for name in in_words if name in names][: len(expected)] == expected

    packet = tmp_path / "history.pdf"
    command("packet", path, "--for", "buyer", "--on", TODAY, "-o", packet)
    found = enumerate(pages_of(packet))
    place = next(n for n, said in found if n and "What needs attention" in said)
    page = PdfReader(packet).pages[place].extract_text()
    said = page[page.index("What needs attention") :]
    heads = [line.split(":")[0] for line in said.splitlines() if ":" in line]
    assert [name for name in heads if name in expected] == expected


def test_every_face_says_the_same_word_of_a_reading(frame, tmp_path):
    path = radioactive(tmp_path / "mixed.wellbook", MIXED)
    frame.open_book(path)
    model = frame.view.overview.model
    shown = {
        line.standing.parameter.name: model.index(row, 3).data()
        for row, line in enumerate(model.rows)
        if line.standing
    }
    assert shown == {
        "Lead": "over",
        "Arsenic": "can’t be told",
        "Iron": "over",
        "Nitrate": "close",
        "Sodium": shown["Sodium"],
    }
    lines = [line.strip() for line in command("status", path, "--on", TODAY).splitlines()]
    packet = tmp_path / "history.pdf"
    command("packet", path, "--for", "buyer", "--on", TODAY, "-o", packet)
    pages = " ".join(pages_of(packet))
    for name, word in shown.items():
        head = next(place for place, line in enumerate(lines) if line.startswith(f"{name}: "))
        said = lines[head + 1].removeprefix("By today’s limits: ")
        assert said.startswith((f"{word}, ", word))
        assert word in pages[pages.index("Every parameter in one line") :]
