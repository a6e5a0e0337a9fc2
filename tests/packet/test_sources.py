"""What a packet said of itself is said by every packet after it, in any number of generations."""

import json

import household
from hypothesis import given, settings
from hypothesis import strategies as st
from packet_fixtures import TODAY
from pypdf import PdfReader
from reading import pages_of

from wellbook.book import Book
from wellbook.packet import packet
from wellbook.packet.receive.receive import receive
from wellbook.packet.receive.verify import Outcome, verify
from wellbook.pdf.sealing import marks
from wellbook.sharing.excerpt import Scope
from wellbook.sharing.sources import sources
from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(paths.resources())
YEARS = range(2012, 2018)


def words_of(path):
    return " ".join(pages_of(path))


def record_of(path):
    files = {one.name: one.content for one in PdfReader(path).attachment_list}
    return json.loads(files["record.json"])


def filled(path):
    """A book with a nitrate of each year and a report with each."""
    book = household.new_book(path)
    well = book.add_well("Alder")
    tap = book.add_point(well, "Kitchen tap")
    for year in YEARS:
        scan = household.NewDocument(f"{year}.pdf", "application/pdf", b"%%PDF-1.4 %d" % year)
        book.add_sample(
            household.sample(
                tap, f"{year}-05-03",
                household.result("nitrate", "Nitrate", f"{year % 10}.{year % 7}", "mg/L",
                                 basis="as N"),
                household.result("lead", "Lead", f"{year % 5}", "µg/L"),
                lab="Larkspur", lab_number=f"L-{year}", documents=(scan,),
            )
        )  # fmt: skip
    return book


def hand_over(book, path, scope):
    with Book.open(book, readonly=True) as opened:
        packet.write(
            opened.record(),
            CATALOGUE,
            path,
            packet.PacketOptions("buyer", scope=scope),
            today=TODAY,
        )
    return path


def test_what_a_packet_left_out_is_never_said_to_be_nothing(tmp_path):
    filled(tmp_path / "a.wellbook").close()
    part = hand_over(
        tmp_path / "a.wellbook", tmp_path / "1.pdf", Scope(until=TODAY.replace(year=2013))
    )
    first = words_of(part)
    assert "leaves out 4 of 6 tests" in first
    receive(part, tmp_path / "b.wellbook")
    again = hand_over(tmp_path / "b.wellbook", tmp_path / "2.pdf", Scope())
    said = words_of(again)
    assert "left out 4 of 6 tests" in pages_of(again)[0]
    assert f"check code {marks(part.read_bytes()).code}" in said
    assert "household’s own record" not in said
    assert "none chosen or left out" not in said
    assert "Tests that were never entered can’t be seen from here." in said
    assert {one.outcome for one in verify(again)} == {Outcome.AGREES, Outcome.OPEN}


def test_a_packet_at_first_hand_says_that_tests_never_entered_can_t_be_seen(tmp_path):
    filled(tmp_path / "a.wellbook").close()
    said = words_of(hand_over(tmp_path / "a.wellbook", tmp_path / "1.pdf", Scope()))
    assert "Tests that were never entered can’t be seen" in said
    assert "Every test in this packet was entered in the book that it was made from." in said


def test_whether_its_code_was_compared_is_remembered(tmp_path):
    filled(tmp_path / "a.wellbook").close()
    path = hand_over(tmp_path / "a.wellbook", tmp_path / "1.pdf", Scope())
    code = marks(path.read_bytes()).code
    for number, told in enumerate((code, "")):
        made = tmp_path / f"{number}.wellbook"
        receive(path, made, told)
        with Book.open(made, readonly=True) as book:
            (one,) = sources(book.record().settings)
        assert (one.code, one.is_compared, one.day) == (code, bool(told), str(TODAY))
        assert len(one.samples) == len(one.missing) == len(YEARS)


scopes = st.sampled_from(
    [Scope(), Scope(), Scope(until=TODAY.replace(year=2015)), Scope(since=TODAY.replace(year=2013)),
     Scope(parameters=("nitrate",))]
)  # fmt: skip
changes = st.lists(
    st.tuples(st.sampled_from(["correct", "strike"]), st.integers(0, 11), st.integers(10, 99)),
    max_size=3,
)


@settings(max_examples=2, deadline=None)
@given(st.lists(st.tuples(changes, scopes), min_size=3, max_size=3))
def test_nothing_is_lost_in_three_generations(tmp_path_factory, generations):
    folder = tmp_path_factory.mktemp("generations")
    book_path = folder / "0.wellbook"
    filled(book_path).close()
    expected = []  # lab number of the test, words that every later packet holding it says
    left_out = []
    for number, (drawn, scope) in enumerate(generations):
        with Book.open(book_path) as book:
            expected += changed(book, drawn)
        path = hand_over(book_path, folder / f"{number}.pdf", scope)
        facts, said = record_of(path), words_of(path)
        shown = {one["lab_number"] for one in facts["samples"]}
        keys = {one["parameter"] for sample in facts["samples"] for one in sample["results"]}
        for lab_number, key, words in expected:
            if lab_number in shown and key in keys | {""}:
                assert words in said, (number, words)
        for words in left_out:
            assert words in said, (number, words)
        behind = facts["packet"]["left_out"]
        if behind:
            left_out.append(f"itself left out {behind['tests']} of {behind['of_tests']} test")
        codes = {one["code"] for one in facts["sources"]}
        assert codes == {marks((folder / f"{n}.pdf").read_bytes()).code for n in range(number)}
        fingerprints = {one["sha256"] for one in facts["documents"]}
        fingerprints |= {m["sha256"] for one in facts["sources"] for m in one["missing"]}
        if not scope.parameters and not any(one.parameters for _, one in generations[:number]):
            assert len(fingerprints) >= len(shown)
        book_path = folder / f"{number + 1}.wellbook"
        receive(path, book_path)


def changed(book, drawn):
    """Correct readings and strike tests of a book; what must be told of it from now on."""
    told = []
    for what, place, figure in drawn:
        rows = book.results(with_struck=True)
        samples = {one.id: one for one in book.samples(with_struck=True)}
        if not rows:
            continue
        old = rows[place % len(rows)]
        sample = samples[old.sample]
        if what == "strike":
            if not sample.struck:
                book.strike_sample(sample.id, f"Bottle {figure} was warm.")
                told.append((sample.lab_number, "", f"Bottle {figure} was warm."))
            continue
        new = household.result(old.parameter, old.name, f"0.0{figure}", old.reading.unit,
                               basis=old.reading.basis)  # fmt: skip
        if new.reading.text != old.reading.text:
            book.correct_result(old.id, new, f"Slip {figure}.")
            told.append((sample.lab_number, old.parameter, f"Slip {figure}."))
    return told
