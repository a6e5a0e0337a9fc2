"""Words about people, planted in every column of text, whole, single, cut and rounded."""

from dataclasses import replace

import household
import pytest
from packet_fixtures import TODAY
from reading import everything, text_of

from wellbook.packet import packet
from wellbook.packet.options import PacketOptions
from wellbook.packet.packet import private_places
from wellbook.packet.receive.receive import receive

ADDRESS, COORDINATES = "17 Quillwort Lane, Fernbank 05677", "44.12345, -72.56789"
SAMPLER, EVENT = "Ottoline Vexley", "Ignatius began dialysis"
# What stands in the columns, and what of it must be nowhere.
PLANTED = {
    f"By {SAMPLER}": "Vexley",
    "Mrs Vexley says": "Vexley",
    "ottoline was here": "ottoline",
    "O. Vexley": "Vexley",
    "Ottol. took it": "Ottol.",
    "VEXLEY": "VEXLEY",
    f"At {ADDRESS}": "Quillwort",
    "Quillwort Ln": "Quillwort",
    "quillwort": "quillwort",
    "Quillw. Lane": "Quillw.",
    "In Fernbank": "Fernbank",
    "05677": "05677",
    "zip 05677": "05677",
    f"at {COORDINATES}": "44.12345",
    "near 44.1234": "44.1234",
    "near 44.1235": "44.1235",
    "near 44.123": "44.123",
    "near 44.12": "44.12",
    "west -72.568": "72.568",
    "at 44.1, -72.6": "44.1,",
    "Ignatius is better": "Ignatius",
    "for ignatius": "ignatius",
    "Vexley's own words": "Vexley",
    "Vexley, Ottoline": "Ottoline",
    "OTTOLINE VEXLEY": "OTTOLINE",
    "ottoline.vexley": "vexley",
    "Vexl. drew it": "Vexl.",
    "(Vexley)": "Vexley",
    "QUILLWORT LANE": "QUILLWORT",
    "17 Quillwort": "Quillwort",
    "quillwort lane, gate": "quillwort",
    "fernbank": "fernbank",
    "FERNBANK": "FERNBANK",
    "Fernb. office": "Fernb.",
    "05677-1234": "05677",
    "N 44.12345": "44.12345",
    "-72.56789": "72.56789",
    "west -72.57": "72.57",
    "IGNATIUS": "IGNATIUS",
    "Ignatius, again": "Ignatius",
}


def planted(path):
    """A book with each planted text in a column of its own, all of them in turn in all columns."""
    texts = list(PLANTED)
    book = household.new_book(path)
    well = book.add_well(
        "Home", address=ADDRESS, coordinates=COORDINATES,
        note=" / ".join(texts), construction={f"log {one}": one for one in texts},
    )  # fmt: skip
    tap = book.add_point(well, "Kitchen tap", note=" / ".join(texts))
    book.add_event(well, "illness", "2020-02", text=EVENT, private=True)
    for number, text in enumerate(texts):
        book.add_point(well, f"Tap {number} {text}", place=3)
        unit = book.add_unit(well, f"Filter {text}", kind=f"kind {text}", note=text)
        book.add_service(unit, f"salt {text}", "2021-03", text=text)
        book.add_lab(f"Lab {number} {text}", accreditation=f"No. {text}", note=text)
        book.add_event(well, f"flood {text}", "2021-07", text=text)
        result = household.result(
            "nitrate", f"Nitrate {text}", "5.1", "mg/L", basis="as N", method=f"EPA {text}",
            reporting_limit=f"0.1 {text}", qualifier=f"J {text}", lab=f"Lab {number} {text}",
        )  # fmt: skip
        said = household.result("", f"Colour {text}", f"clear, {text}")
        book.add_sample(
            replace(
                household.sample(
                    tap, f"20{10 + number % 10}-05-0{1 + number // 10}", result, said,
                    lab=f"Lab {number} {text}", lab_number=f"N-{number} {text}", sampler=SAMPLER,
                    rain=f"1 in {text}", temperature=f"4 °C {text}", note=text,
                )
            )
        )  # fmt: skip
    return book


@pytest.mark.parametrize("audience", ["buyer", "consultant"])
def test_of_planted_words_none_is_anywhere_when_unticked(tmp_path, catalogue, audience):
    path = tmp_path / "p.pdf"
    with planted(tmp_path / "p.wellbook") as book:
        packet.write(book.record(), catalogue, path, packet.PacketOptions(audience), today=TODAY)
    held = everything(path)
    text = text_of(path).encode()
    for word in filter(None, PLANTED.values()):
        for coded in (word.encode(), word.encode("utf-16-be")):
            assert coded not in held, word
            assert coded not in text, word
    assert b"5.1" in held, "a figure is not covered"
    receive(path, tmp_path / "new.wellbook")


def test_each_place_is_shown_before_it_is_covered(tmp_path, catalogue):
    with planted(tmp_path / "p.wellbook") as book:
        found = private_places(book.record(), catalogue, PacketOptions("buyer"))
        let = private_places(book.record(), catalogue, PacketOptions("buyer", shown=("Fernbank",)))
        assert not private_places(
            book.record(), catalogue, PacketOptions("buyer", with_personal=True)
        )
    places = {(one.table.key, one.column) for one in found}
    assert places >= {
        ("well", "note"), ("well", "construction"), ("point", "name"), ("point", "note"),
        ("treatment_unit", "name"), ("treatment_unit", "kind"), ("service", "kind"),
        ("service", "text"), ("lab", "name"), ("lab", "accreditation"), ("lab", "note"),
        ("event", "kind"), ("event", "text"), ("sample", "lab"), ("sample", "lab_number"),
        ("sample", "rain"), ("sample", "temperature"), ("sample", "note"), ("result", "name"),
        ("result", "text"), ("result", "method"), ("result", "reporting_limit"),
        ("result", "qualifier"), ("result", "lab"),
    }  # fmt: skip
    covered = {word for one in found for word in one.words}
    wanted = {word.strip(",") for word in PLANTED.values()}
    assert {word for word in wanted if not any(word in one for one in covered)} == set()
    assert "Fernbank" not in {word for one in let for word in one.words}


def test_a_figure_that_is_near_a_coordinate_stays_a_figure(tmp_path, catalogue):
    with household.new_book(tmp_path / "o.wellbook") as book:
        well = book.add_well("Home", coordinates=COORDINATES)
        tap = book.add_point(well, "Tap")
        rows = [household.result("sulfate", "Sulfate", one, "mg/L") for one in ("44.12", "72.6")]
        book.add_sample(household.sample(tap, "2020-05-03", *rows))
        assert private_places(book.record(), catalogue, PacketOptions("buyer")) == []
