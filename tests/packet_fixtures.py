import os
from datetime import date
from hashlib import sha256

import household
import pytest
import reading

from wellbook.book import Book
from wellbook.packet import packet
from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue

TODAY = date(2026, 11, 25)


@pytest.fixture(scope="session")
def catalogue():
    return read_catalogue(paths.resources())


@pytest.fixture(scope="session")
def book(tmp_path_factory):
    with household.furnished(tmp_path_factory.mktemp("book") / "tamarack.wellbook") as made:
        yield made


@pytest.fixture(scope="session")
def made_once(catalogue, tmp_path_factory):
    """Writes the packet of a book once for each choice, for all processes of this run.

    The same book, choices and day give the same bytes: whoever needs them first makes them.
    """
    own = tmp_path_factory.getbasetemp()
    folder = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "packets"
    folder.mkdir(exist_ok=True)

    def write(name, record, audience, choices):
        told = repr((audience, *sorted(choices.items())))
        path = folder / f"{name}-{sha256(told.encode()).hexdigest()[:16]}.pdf"
        if not path.exists():
            half = path.with_suffix(f".{os.getpid()}.pdf")
            options = packet.PacketOptions(audience, **choices)
            packet.write(record(), catalogue, half, options, today=TODAY)
            half.replace(path)
        return path

    return write


@pytest.fixture(scope="session")
def packets(book, made_once):
    """The packet of the furnished book for a choice of arguments."""

    def packet_of(audience="buyer", **choices):
        return made_once("furnished", book.record, audience, choices)

    return packet_of


@pytest.fixture(scope="session")
def household_packets(made_once):
    """The packet of one of the invented households for a choice of arguments."""

    def packet_of(name, audience="buyer", **choices):
        with Book.open(paths.sample_wells() / f"{name}.wellbook", readonly=True) as opened:
            return made_once(name, opened.record, audience, choices)

    return packet_of


@pytest.fixture(scope="session")
def small(made_once, tmp_path_factory):
    """The packet of a book with one test."""
    with household.with_one_test(tmp_path_factory.mktemp("small") / "o.wellbook") as book:
        return made_once("small", book.record, "buyer", {})


@pytest.fixture(scope="session")
def text_of():
    """The text of a PDF by a reader of its own; see `reading.text_of`."""
    return reading.text_of
