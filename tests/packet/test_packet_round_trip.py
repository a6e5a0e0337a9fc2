"""Book, packet, book, packet: the same facts each time, for random books; and no personal word."""

import json
import string

import household
from hypothesis import given, settings
from hypothesis import strategies as st
from packet_fixtures import TODAY
from pypdf import PdfReader
from reading import everything

from wellbook.book import Book
from wellbook.packet import packet
from wellbook.packet.receive import merge
from wellbook.packet.receive.receive import receive
from wellbook.packet.receive.verify import Outcome, verify
from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(paths.resources())
signs = st.text(string.ascii_letters + string.digits + " .,=+-@'\"<>&%µ³éñ井/\\", max_size=24)
names = st.text(string.ascii_letters, min_size=3, max_size=12)
days = st.dates(min_value=TODAY.replace(year=1980), max_value=TODAY).map(str)
when = st.one_of(days, days.map(lambda day: f"{day}T07:15"), days.map(lambda d: f"{d}T23:50-04:00"))
printed = st.sampled_from(["11.4", "0.020", "<0.05", ">2419.6", "absent", "present", "ND", "n/a"])
subjects = st.sampled_from(
    [
        ("nitrate", "mg/L", "as N"), ("nitrate", "mg/L", "as NO3"), ("arsenic", "µg/L", ""),
        ("e_coli", "MPN/100 mL", ""), ("", "mg/L", ""), ("ph", "pH units", ""),
    ]
)  # fmt: skip
results = st.builds(
    lambda subject, name, text, more, letters: household.result(
        subject[0], name, text, subject[1], basis=subject[2], fraction=more[0], method=more[1],
        reporting_limit=more[2], lab=more[3], qualifier=letters,
    ),
    subjects,
    names,
    printed,
    st.tuples(st.sampled_from(["", "total", "dissolved"]), signs, st.sampled_from(["", "0.05"]),
              st.sampled_from(["", "Larkspur", "Other Lab"])),
    st.sampled_from(["", "J", "U", "H"]),
)  # fmt: skip
samples = st.tuples(
    st.integers(0, 2),
    when,
    st.lists(results, max_size=4),
    signs,
    st.sampled_from(["", "Mixed up."]),
)
wells = st.lists(st.tuples(names, signs, signs), min_size=1, max_size=2)
events = st.lists(st.tuples(st.sampled_from(["flood", "repair", "other"]), days, signs), max_size=3)


def filled(path, drawn_wells, drawn_samples, drawn_events):
    book = household.new_book(path)
    points = []
    for number, (name, note, text) in enumerate(drawn_wells):
        well = book.add_well(f"{name} {number}", note=note, construction={"depth": text or "?"})
        for place, treated in enumerate((False, True), start=1):
            points.append(book.add_point(well, f"Tap {place}", treated=treated, place=place))
        unit = book.add_unit(well, "Softener", installed="2015-04", note=text)
        book.add_service(unit, "media", "2021-03", text=note)
        for kind, day, said in drawn_events:
            book.add_event(well, kind, day, text=said)
    for place, day, rows, note, struck in drawn_samples:
        number = book.add_sample(
            household.sample(points[place % len(points)], day, *rows, note=note, lab="Larkspur")
        )
        if struck:
            book.strike_sample(number, struck)
    book.set_plan(points[0], "nitrate", 12, reason="As advised.")
    return book


def told(path):
    """The facts of a packet, free of the numbers that each book gives anew."""
    (content,) = [
        one.content for one in PdfReader(path).attachment_list if one.name == "record.json"
    ]
    facts = json.loads(content)
    well = {one["id"]: one["name"] for one in facts["wells"]}
    point = {one["id"]: (well[one["well"]], one["name"]) for one in facts["points"]}
    unit = {one["id"]: (well[one["well"]], one["name"]) for one in facts["units"]}
    named = {"well": well, "point": point, "unit": unit}
    kept = {}
    for table in ("wells", "points", "units", "services", "labs", "plans", "events", "samples"):
        rows = [
            {
                key: named[key][value] if key in named else value
                for key, value in row.items()
                if key != "id"
            }
            for row in facts[table]
        ]
        kept[table] = sorted(json.dumps(row, sort_keys=True, default=str) for row in rows)
    return kept


@settings(max_examples=3, deadline=None)
@given(wells, st.lists(samples, max_size=5), events)
def test_a_random_book_goes_from_packet_to_book_to_packet_without_loss(
    tmp_path_factory, drawn_wells, drawn_samples, drawn_events
):
    folder = tmp_path_factory.mktemp("round")
    first, second = folder / "first.pdf", folder / "second.pdf"
    with filled(folder / "a.wellbook", drawn_wells, drawn_samples, drawn_events) as book:
        packet.write(book.record(), CATALOGUE, first, packet.PacketOptions("buyer"), today=TODAY)
    receive(first, folder / "b.wellbook")
    with Book.open(folder / "b.wellbook", readonly=True) as new:
        packet.write(new.record(), CATALOGUE, second, packet.PacketOptions("buyer"), today=TODAY)
    assert told(second) == told(first)
    assert Outcome.FAILS not in {one.outcome for one in verify(second)}
    assert merge.preview(second, folder / "b.wellbook").nothing


PLANTED = (
    "Quillwort Lane 17", "Fernbank", "44.12345", "-72.56789", "Ottoline Vexley", "Bram Thistlewood",
    "Perpetua Oxlade", "Baby Ignatius due", "Dialysis started", "Silas Wimborne-Ash",
    "Hollyhock Rise 9", "Nether Applewick", "45.99887", "-71.22113", "Cordelia Fenwright",
    "Gout attack in June", "Mumps in the house", "Tobias Larkmoor", "Winifred Yarrowby",
    "Chemotherapy until May",
)  # fmt: skip


def test_of_twenty_planted_personal_strings_none_is_anywhere_when_unticked(tmp_path):
    (lane, town, north, west, one, two, three, baby, dialysis, four,
     rise, village, north_2, west_2, five, gout, mumps, six, seven, chemo) = PLANTED  # fmt: skip
    with household.new_book(tmp_path / "p.wellbook") as book:
        points = []
        for number, (street, place, at) in enumerate(
            ((lane, town, f"{north}, {west}"), (rise, village, f"{north_2}, {west_2}"))
        ):
            well = book.add_well(
                f"Well {number}", address=f"{street}, {place}", coordinates=at,
                note=f"Gate code at {street}. Left of {at}.", construction={"log": f"at {street}"},
            )  # fmt: skip
            points.append(book.add_point(well, f"Tap near {street}", note=f"{street}, {place}"))
            for text in (baby, dialysis) if number else (gout, mumps, chemo):
                book.add_event(well, "illness", "2020-02", text=text, private=True)
        for number, name in enumerate((one, two, three, four, five, six, seven)):
            book.add_sample(
                household.sample(
                    points[number % 2], f"20{10 + number}-05-03",
                    household.result("nitrate", "Nitrate", "5.1", "mg/L", basis="as N"),
                    sampler=name, note=f"{name} drew it.",
                    documents=(household.NewDocument(f"{name}.pdf", "application/pdf",
                                                     f"%PDF-1.4 {name}".encode()),),
                )
            )  # fmt: skip
        for audience in ("buyer", "consultant"):
            path = tmp_path / f"{audience}.pdf"
            packet.write(
                book.record(),
                CATALOGUE,
                path,
                packet.PacketOptions(audience, append_originals=True),
                today=TODAY,
            )
            held = everything(path)
            for word in PLANTED:
                for coded in (word.encode(), word.encode("utf-16-be"), word.lower().encode()):
                    assert coded not in held, word
