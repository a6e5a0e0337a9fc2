"""What a packet costs beside its libraries drawing the same charts and tables bare."""

import io
import random
import sys
import time

import household
import pytest
from packet_fixtures import TODAY

from wellbook.charts.layout import backend
from wellbook.charts.layout.theme import PRINT
from wellbook.packet import packet
from wellbook.support import fonts

YEARS, PARAMETERS = 30, 40


@pytest.fixture(scope="module")
def long_book(catalogue, tmp_path_factory):
    """Thirty yearly tests of forty parameters at one point."""
    chance = random.Random(1)
    keys = [
        key
        for key, one in catalogue.parameters.items()
        if one.scale == "number" and one.unit in {"mg/L", "µg/L"}
    ][:PARAMETERS]
    with household.new_book(tmp_path_factory.mktemp("long") / "long.wellbook") as book:
        point = book.add_point(book.add_well("Long Meadow"), "Pressure tank")
        for year in range(1996, 1996 + YEARS):
            results = [
                household.result(
                    key, catalogue.parameters[key].name, f"{chance.uniform(0.1, 9):.3g}",
                    catalogue.parameters[key].unit, basis=catalogue.parameters[key].basis,
                    method="EPA 200.8",
                )
                for key in keys
            ]  # fmt: skip
            book.add_sample(
                household.sample(point, f"{year}-{1 + year % 12:02d}-12", *results, lab="Larkspur")
            )
        yield book


def bare(book):
    """The same numbers of charts and table rows, straight by matplotlib and reportlab."""
    fonts.prepare()
    from matplotlib.backends.backend_pdf import PdfPages
    from reportlab.platypus import LongTable, SimpleDocTemplate

    results = book.results()
    with backend.settings(), PdfPages(io.BytesIO()) as pages:
        for key in dict.fromkeys(one.parameter for one in results):
            own = [one for one in results if one.parameter == key]
            figure = backend.new_figure(7.1, 3.3, PRINT)
            axes = figure.add_subplot()
            axes.plot(
                [one.collected.day for one in own], [float(one.reading.number) for one in own]
            )
            axes.axhline(5)
            axes.set_title(key)
            pages.savefig(figure)
    rows = [
        [
            one.name, one.reading.text, one.reading.unit, one.method, one.lab,
            one.collected.iso(), one.parameter,
        ]
        for one in results
    ]  # fmt: skip
    tables = [
        LongTable(rows[start : start + PARAMETERS]) for start in range(0, len(rows), PARAMETERS)
    ]
    SimpleDocTemplate(io.BytesIO()).build([*tables, LongTable(rows)])


def seconds(job):
    """Processor time of the better of two runs."""
    spent = []
    for _ in range(2):
        start = time.process_time()
        job()
        spent.append(time.process_time() - start)
    return min(spent)


@pytest.mark.bench
@pytest.mark.parametrize("audience", ["buyer", "consultant"])
def test_a_packet_costs_at_most_twice_its_charts_and_tables_bare(
    long_book, catalogue, tmp_path, audience
):
    path = tmp_path / "p.pdf"

    def whole():
        packet.write(
            long_book.record(), catalogue, path, packet.PacketOptions(audience), today=TODAY
        )

    ours, theirs = seconds(whole), seconds(lambda: bare(long_book))
    sys.stdout.write(f"{audience}: {ours:.2f} s, bare {theirs:.2f} s, {ours / theirs:.2f} times\n")
    assert ours <= 2 * theirs


@pytest.mark.bench
def test_a_long_packet_stays_small(long_book, catalogue, tmp_path):
    path = tmp_path / "p.pdf"
    packet.write(
        long_book.record(), catalogue, path, packet.PacketOptions("consultant"), today=TODAY
    )
    assert path.stat().st_size <= 3_000_000
