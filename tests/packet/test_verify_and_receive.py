"""A packet that comes back: checked, and made into a book that goes on."""

import dataclasses
import hashlib
import json

import household
import pytest
from forging import with_files
from packet_fixtures import TODAY
from pypdf import PdfReader, PdfWriter

from wellbook.book import Book
from wellbook.book.check import check
from wellbook.packet import packet
from wellbook.packet.receive.receive import receive
from wellbook.packet.receive.verify import Outcome, verify
from wellbook.support.errors import Fault


def outcomes(path):
    return {one.outcome for one in verify(path)}


def failures(path):
    return " ".join(one.text for one in verify(path) if one.outcome is Outcome.FAILS)


@pytest.mark.parametrize("audience", ["buyer", "consultant"])
@pytest.mark.parametrize("personal", [True, False])
def test_a_packet_as_it_was_made_fails_no_check(packets, audience, personal):
    assert Outcome.FAILS not in outcomes(packets(audience, with_personal=personal))


def test_the_journal_is_checked_where_it_travels_along(packets):
    said = [one.text for one in verify(packets(with_personal=True))]
    assert any(text.startswith("The journal is whole") for text in said)
    said = {one.outcome: one.text for one in verify(packets()) if "journal" in one.text}
    assert list(said) == [Outcome.OPEN]


def test_a_changed_table_is_found(packets, tmp_path):
    files = {one.name: one.content for one in PdfReader(packets()).attachment_list}
    changed = files["results.csv"].replace(b"11.4", b"1.14")
    path = with_files(packets(), tmp_path / "p.pdf", {"results.csv": changed})
    assert "results.csv was changed after the packet was made" in failures(path)
    assert "different readings" in failures(path)


def test_a_list_of_fingerprints_made_to_fit_does_not_fit_the_pages(packets, tmp_path):
    files = {one.name: one.content for one in PdfReader(packets()).attachment_list}
    old = hashlib.sha256(files["results.csv"]).hexdigest().encode()
    changed = files["results.csv"].replace(b"11.4", b"1.14")
    new = hashlib.sha256(changed).hexdigest().encode()
    fitted = files["sha256.txt"].replace(old, new)
    path = with_files(packets(), tmp_path / "p.pdf", {"results.csv": changed, "sha256.txt": fitted})
    assert "The pages name another list" in failures(path)


def test_a_file_taken_out_and_one_put_in_are_found(packets, tmp_path):
    path = with_files(packets(), tmp_path / "p.pdf", {"wells.csv": None, "extra.csv": b"x"})
    assert "wells.csv is listed among the attached files and is missing" in failures(path)
    assert "extra.csv was put in after the packet was made" in failures(path)


def test_an_altered_journal_is_found(packets, tmp_path):
    files = {
        one.name: one.content for one in PdfReader(packets(with_personal=True)).attachment_list
    }
    changed = files["record.json"].replace(b"Digits were swapped", b"No reason was given")
    path = with_files(packets(with_personal=True), tmp_path / "p.pdf", {"record.json": changed})
    assert "was altered" in failures(path)


@pytest.mark.parametrize(
    ("content", "said"),
    [(b"hello", "is not a PDF"), (None, "not exist")],
)
def test_what_is_no_packet_is_one_clear_sentence(tmp_path, content, said):
    path = tmp_path / "x.pdf"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(Fault, match=said):
        verify(path)


def assert_it_can_t_be_told(path):
    (found,) = verify(path)
    assert found.outcome is Outcome.OPEN
    assert "ask for the original file" in found.text
    with pytest.raises(Fault, match="ask for the original file"):
        receive(path, path.with_name("new.wellbook"))


def test_another_pdf_is_told_from_a_packet(tmp_path):
    writer = PdfWriter()
    writer.add_blank_page(100, 100)
    writer.write(tmp_path / "x.pdf")
    (tmp_path / "y.pdf").write_bytes(b"%PDF-1.7 and nothing more")
    assert_it_can_t_be_told(tmp_path / "x.pdf")
    assert_it_can_t_be_told(tmp_path / "y.pdf")


def test_a_packet_cut_off_anywhere_can_t_be_told_and_is_no_crash(packets, tmp_path):
    content = packets().read_bytes()
    for share in (0.1, 0.5, 0.9, 0.999):
        (tmp_path / "cut.pdf").write_bytes(content[: int(len(content) * share)])
        assert_it_can_t_be_told(tmp_path / "cut.pdf")


def test_a_packet_of_the_first_form_can_t_be_told_either(tmp_path):
    """Its code did not cover every byte, so a forger would only have to go back to it."""
    path = tmp_path / "old.pdf"
    path.write_bytes(
        b"%PDF-1.7\n1 0 obj\n<</Type /Catalog>>\nendobj\n% Wellbook seal, SHA-256 "
        + b"0" * 64
        + b"\nstartxref\n9\n%%EOF\n"
    )
    (found,) = verify(path)
    assert found.outcome is Outcome.OPEN
    assert "made by an older Wellbook" in found.text
    assert "make the packet again" in found.text
    with pytest.raises(Fault, match="older Wellbook"):
        receive(path, tmp_path / "new.wellbook")


def test_a_packet_of_a_newer_form_asks_for_the_newer_program(packets, tmp_path):
    content = packets().read_bytes().replace(b"packet, form 2", b"packet, form 3", 1)
    (tmp_path / "p.pdf").write_bytes(content)
    with pytest.raises(Fault, match="newer Wellbook"):
        verify(tmp_path / "p.pdf")


def test_a_record_from_a_newer_program_says_so(packets, tmp_path):
    files = {one.name: one.content for one in PdfReader(packets()).attachment_list}
    facts = json.loads(files["record.json"])
    newer = json.dumps({**facts, "form": 99}).encode()
    path = with_files(packets(), tmp_path / "p.pdf", {"record.json": newer})
    with pytest.raises(Fault, match="newer Wellbook"):
        verify(path)


@pytest.fixture
def received(packets, tmp_path):
    def make(**choices):
        path = tmp_path / "new.wellbook"
        receive(packets(**choices), path)
        return path

    return make


def readings(book):
    return [
        (one.parameter, one.name, one.reading, one.collected, one.qualifier, one.method, one.lab)
        for one in book.results(with_struck=True)
    ]


def test_a_received_book_holds_the_same_tests(received, book):
    with Book.open(received()) as new:
        assert readings(new) == readings(book)
        keep = {"id": 0, "point": 0, "sampler": "", "note": "", "cost": "", "currency": ""}
        ours = [dataclasses.replace(one, **keep) for one in book.samples(with_struck=True)]
        theirs = [dataclasses.replace(one, **keep) for one in new.samples(with_struck=True)]
        assert ours == theirs
        assert [one.name for one in new.points()] == [one.name for one in book.points()]
        assert [one.text for one in new.services()] == ["Resin changed"]
        assert new.labs()[0].accreditation == "State programme 4471"
        assert new.setting("received_from") == book.digest()


def test_a_received_book_is_sound(received, catalogue):
    assert [one for one in check(received(), catalogue, TODAY) if one.severity == "stop"] == []


def test_the_former_household_s_people_stay_behind_even_from_a_personal_packet(received):
    with Book.open(received(with_personal=True)) as new:
        assert not any(one.private for one in new.events())
        assert not any(one.sampler for one in new.samples(with_struck=True))
        assert new.wells()[0].address == household.ADDRESS


def test_originals_come_along_where_they_travelled(received):
    with Book.open(received(with_originals=True, all_originals=True)) as new:
        contents = [new.content(one.id) for one in new.documents()]
    assert household.REPORT in contents


def test_a_packet_of_a_received_book_tells_the_same_readings(
    received, catalogue, tmp_path, text_of
):
    with Book.open(received()) as new:
        packet.write(
            new.record(),
            catalogue,
            tmp_path / "again.pdf",
            packet.PacketOptions("buyer"),
            today=TODAY,
        )
    assert "31.9 mg/L as NO3" in text_of(tmp_path / "again.pdf", rows=True)


def test_a_packet_that_was_changed_makes_no_book(packets, tmp_path):
    path = with_files(packets(), tmp_path / "p.pdf", {"wells.csv": b"x"})
    with pytest.raises(Fault, match="does not stand a check"):
        receive(path, tmp_path / "new.wellbook")
    assert [one.name for one in tmp_path.iterdir()] == ["p.pdf"]


@pytest.mark.parametrize("field", ["day", "well", "kind"])
def test_a_record_that_breaks_the_rules_of_a_book_leaves_nothing_behind(
    packets, tmp_path, monkeypatch, field
):
    files = {one.name: one.content for one in PdfReader(packets()).attachment_list}
    facts = json.loads(files["record.json"])
    facts["events"][0][field] = ""
    path = with_files(packets(), tmp_path / "p.pdf", {"record.json": json.dumps(facts).encode()})
    monkeypatch.setattr("wellbook.packet.receive.receive.checks", lambda _: ())
    with pytest.raises(Fault, match="damaged"):
        receive(path, tmp_path / "new.wellbook")
    assert [one.name for one in tmp_path.iterdir()] == ["p.pdf"]


def test_a_book_that_is_there_is_never_written_over(packets, tmp_path):
    (tmp_path / "new.wellbook").write_bytes(b"mine")
    with pytest.raises(Fault, match="exists already"):
        receive(packets(), tmp_path / "new.wellbook")
    assert (tmp_path / "new.wellbook").read_bytes() == b"mine"


def test_a_missing_folder_is_one_clear_sentence(packets, tmp_path):
    with pytest.raises(Fault, match="choose another folder"):
        receive(packets(), tmp_path / "nowhere" / "new.wellbook")


def test_attached_names_never_become_paths(packets, tmp_path):
    path = with_files(packets(), tmp_path / "p.pdf", {"../../evil.txt": b"x"})
    with pytest.raises(Fault):
        receive(path, tmp_path / "in" / "new.wellbook")
    assert not (tmp_path.parent / "evil.txt").exists()
