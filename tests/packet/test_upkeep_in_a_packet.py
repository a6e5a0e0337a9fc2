"""A packet tells what was done to units and well, what is due, and what is not mended."""

from functools import lru_cache

import household
import pytest
from packet_fixtures import TODAY
from pypdf import PdfReader

from wellbook.book.rows import InspectionAnswer, NewDocument
from wellbook.packet.packet import PacketOptions, write

FLOW = {"flow": "5.2", "flow_unit": "gal/min", "hours": "4", "drawdown": "12",
        "drawdown_unit": "ft", "done_by": "a licensed driller"}  # fmt: skip


@pytest.fixture(scope="module")
def told(tmp_path_factory, catalogue, text_of):
    """The words of the packet of a household with a bad cap, a lamp and costs."""
    tmp_path = tmp_path_factory.mktemp("upkeep")

    @lru_cache
    def words(audience="buyer", *, private=False, **how):
        path = tmp_path / "packet.pdf"
        cap = InspectionAnswer(0, 0, "cap", "bad", text="rim cracked")
        mended = InspectionAnswer(0, 0, "vent", "bad", mended="2026-05-02")
        tank = InspectionAnswer(0, 0, "septic-tank", "bad", text="12 m, paced off")
        with household.furnished(tmp_path / "own.wellbook") as book:
            paid = {"cost": "49.90", "currency": "USD"}
            lamp = book.add_unit(1, "Lamp", kind="ultraviolet lamp", installed="2024-01-05")
            book.add_service(lamp, "lamp", "2025-02-03", **paid)
            book.add_inspection(1, "2026-04-10", [cap, mended, tank], private=private)
            book.add_event(1, "flow test", "2024-05-03", **FLOW, private=private)
            write(book.record(), catalogue, path, PacketOptions(audience, **how), today=TODAY)
        (tmp_path / "own.wellbook").unlink()
        return " ".join(text_of(path).split())

    return words


def test_a_lender_reads_what_the_look_at_the_surroundings_said_of_distances(told):
    said = told()
    lender = said[said.index("Distances and flow") : said.index("Whether they fit")]
    assert "bad, by the household’s look on 10 Apr 2026. What was asked: The septic tank" in lender
    assert "12 m, paced off" in lender
    assert "drain field" not in lender, "nobody looked at it"


def test_a_flow_test_is_told_to_the_lender_with_its_age_and_to_the_consultant(told):
    figures = (
        "flow test of 3 May 2024: 5.2 gal/min, pumped for 4 h; the water level fell by 12 ft; "
        "by a licensed driller"
    )
    said = told()
    assert f"Flow test {figures} (age: 2 years and 6 months)" in said
    lacking = said[said.index("Not written down") :].split(".")[0]
    assert "flow" not in lacking
    consulted = told("consultant")
    assert f"Flow, steady and at most {figures}" in consulted
    assert consulted.index("Flow, steady and at most") < consulted.index("The record From here on")
    private = told(private=True)
    assert "5.2 gal/min" not in private
    assert "Flow test none written down: ask for one" in private


@pytest.mark.parametrize("audience", ["buyer", "consultant"])
def test_what_is_due_and_what_is_bad_is_told_to_buyer_and_consultant(told, audience):
    said = told(audience)
    assert "Tamarack Hill: upkeep" in said
    assert "found bad on 10 Apr 2026, not mended yet" in said
    assert "due since 3 Feb 2026" in said  # the lamp, a year after it was changed
    assert "nobody wrote down when this was last done" in said  # a check-up
    assert "rim cracked" in said
    assert "49.90" not in said
    assert "What water cost" not in said


def test_what_water_cost_is_told_where_private_facts_are_ticked(told):
    said = told(with_personal=True)
    assert "What water cost, by year" in said
    assert "2025 49.90 USD 1 services 49.90" in said
    assert "2004 417.35 USD 1 tests 417.35" in said


def test_an_inspection_marked_private_shows_nowhere(told):
    said = told(private=True)
    assert "rim cracked" not in said
    assert "found bad" not in said


@pytest.mark.parametrize(("private", "goes"), [(False, True), (True, False)])
def test_the_photo_of_an_inspection_goes_along_unless_that_is_private(
    tmp_path, catalogue, private, goes
):
    photo = NewDocument("cap.jpg", "image/jpeg", b"\xff\xd8\xff\xe0 a cap", "photo")
    path = tmp_path / "packet.pdf"
    with household.furnished(tmp_path / "own.wellbook") as book:
        book.add_inspection(1, "2026-04-10", [], [photo], private=private)
        choice = PacketOptions("buyer", with_originals=True, all_originals=True)
        write(book.record(), catalogue, path, choice, today=TODAY)
    names = [one.name for one in PdfReader(path).attachment_list]
    assert any("cap.jpg" in name for name in names) is goes
