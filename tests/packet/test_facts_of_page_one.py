"""Page one of four households against their books: the page read by PDFium, the book by SQL.

Neither reader shares code with what made the page: each fact is looked up in the tables of the file
itself and looked for in the words of the page.
"""

import re
import sqlite3
from datetime import date

import household
import pypdfium2
import pytest
from packet_fixtures import TODAY

from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(paths.resources())
ASKED = {"nitrate": "Nitrate", "lead": "Lead", "arsenic": "Arsenic", "e_coli": "Bacteria"}
COUNTED = "sample.struck = '' AND sample.collected <= :today AND result.kind <> 'none'"
DAY = "substr(sample.collected, 1, 10)"
FOUND = "(result.kind IN ('present', 'above') OR (result.kind = 'number' AND result.number > 0))"


@pytest.fixture(scope="module", params=["alder-hollow", "first-year", "salt-lane", "furnished"])
def told(request, packets, household_packets, tmp_path_factory):
    """The words of page one, and a function that asks the tables of the book."""
    if request.param == "furnished":
        path, pages = tmp_path_factory.mktemp("facts") / "own.wellbook", packets()
        household.furnished(path).close()
    else:
        path = paths.sample_wells() / f"{request.param}.wellbook"
        pages = household_packets(request.param)
    with pypdfium2.PdfDocument(pages) as document:
        said = re.sub(r"\s+", " ", document[0].get_textpage().get_text_range())
    tables = sqlite3.connect(f"{path.as_uri()}?mode=ro&immutable=1", uri=True)

    def ask(what, condition=COUNTED, **values):
        joined = "result JOIN sample ON sample.id = result.sample"
        query = f"SELECT DISTINCT {what} FROM {joined} WHERE {condition}"
        return tables.execute(query, {"today": f"{TODAY}~", **values}).fetchall()

    yield said, ask
    tables.close()


def printed(day):
    return f"{date.fromisoformat(day):%-d %b %Y}"


def test_it_counts_the_tests_and_readings_that_are_in_the_book(told):
    said, ask = told
    tests, readings = ask(
        "count(DISTINCT sample.id), count(*)", COUNTED.split(" AND result", maxsplit=1)[0]
    )[0]
    assert re.search(rf"\b{tests} tests? with {readings} readings?:", said)


@pytest.mark.parametrize("key", ASKED)
def test_the_latest_of_what_everybody_asks_stands_there_as_printed_with_its_day(told, key):
    said, ask = told
    where = f"{COUNTED} AND result.parameter = :key"
    points = ask("sample.point", where, key=key)
    if not points:
        others = ask("sample.point", where, key="total_coliform" if key == "e_coli" else key)
        assert others or re.search(rf"{ASKED[key]} never tested", said)
    for (point,) in points:
        here = f"{where} AND sample.point = :point"
        ((last,),) = ask(f"max({DAY})", here, key=key, point=point)
        rows = ask(
            "result.text, result.unit, result.basis, result.draw || sample.draw",
            f"{here} AND {DAY} = :day", key=key, point=point, day=last,
        )  # fmt: skip
        first = [row for row in rows if "first draw" in row[3]] or rows
        shown = [" ".join(filter(None, row[:3])) for row in first]
        shown += [row[0] for row in first]  # a word stands without a unit
        assert any(f"{one} " in said for one in shown), (key, shown)
        assert printed(last) in said


def test_every_day_on_which_bacteria_were_found_stands_there(told):
    said, ask = told
    keys = "('e_coli', 'total_coliform', 'fecal_coliform', 'enterococci')"
    for (day,) in ask(DAY, f"{COUNTED} AND result.parameter IN {keys} AND {FOUND}"):
        assert f"found on {printed(day)}" in said


def test_the_day_of_the_newest_test_stands_there(told):
    said, ask = told
    ((newest,),) = ask(f"max({DAY})")
    assert f"The newest test was drawn on {printed(newest)}: it is" in said
