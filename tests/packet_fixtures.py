from datetime import date

import household
import pytest
import reading

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
def packets(book, catalogue, tmp_path_factory):
    """Makes a packet of the furnished book once for each choice of arguments."""
    folder = tmp_path_factory.mktemp("packets")
    made = {}

    def make(audience="buyer", **choices):
        key = (audience, *sorted(choices.items()))
        if key not in made:
            path = folder / f"{len(made)}.pdf"
            packet.write(
                book.record(),
                catalogue,
                path,
                packet.PacketOptions(audience, **choices),
                today=TODAY,
            )
            made[key] = path
        return made[key]

    return make


@pytest.fixture(scope="session")
def small(catalogue, tmp_path_factory):
    """The packet of a book with one test."""
    folder = tmp_path_factory.mktemp("small")
    with household.with_one_test(folder / "o.wellbook") as book:
        packet.write(
            book.record(), catalogue, folder / "p.pdf", packet.PacketOptions("buyer"), today=TODAY
        )
    return folder / "p.pdf"


@pytest.fixture(scope="session")
def text_of():
    """The text of a PDF by a reader of its own; see `reading.text_of`."""
    return reading.text_of
