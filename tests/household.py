"""An invented household with everything that a packet has to tell, and some things it must not."""

from datetime import UTC, datetime, timedelta

from wellbook.book import Book
from wellbook.book.rows import NewDocument, NewResult, NewSample
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime

ADDRESS = "17 Quillwort Lane, Fernbank"
COORDINATES = "44.1234, -72.5678"
SAMPLER = "Ottoline Vexley"
PRIVATE_EVENT = "Baby expected in the spring"
COST = "417.35"
PRIVATE_WORDS = ("Quillwort", "44.1234", "Vexley", "Baby expected", COST)
FORMULA = '=HYPERLINK("x","y")'
REPORT = b"%PDF-1.4 report of Ottoline Vexley, 17 Quillwort Lane"


def clock():
    """A clock that stands still and walks a minute per look."""
    moment = datetime(2026, 11, 1, 12, tzinfo=UTC)
    while True:
        yield moment
        moment += timedelta(minutes=1)


def new_book(path):
    ticks = clock()
    return Book.create(path, now=lambda: next(ticks))


def result(parameter, name, text, unit="", *, basis="", fraction="", **more):
    reading = read_reading(text, unit=unit, basis=basis, fraction=fraction)
    return NewResult(parameter, name, reading, **more)


def sample(point, day, *results, **more):
    return NewSample(point=point, collected=LocalTime.parse(day), results=results, **more)


def furnished(path):
    """A book with one well, two points, a softener, a flood, bacteria, nitrate and a correction."""
    book = new_book(path)
    well = book.add_well(
        "Tamarack Hill",
        address=ADDRESS,
        coordinates=COORDINATES,
        note=f"The gate is at {ADDRESS}.",
        construction={"depth": "185 ft", "casing": "steel, 6 in, 42 ft"},
    )
    raw = book.add_point(well, "Pressure tank")
    tap = book.add_point(well, "Kitchen tap", treated=True, place=2)
    unit = book.add_unit(
        well, "Softener", kind="ion exchange", installed="2015-04", target="hardness iron"
    )
    book.add_service(unit, "media", "2021-03", text="Resin changed")
    book.add_lab(
        "Larkspur Laboratory",
        accreditation="State programme 4471",
        valid_from="2012",
        valid_to="2020-06-30",
    )
    book.add_event(well, "flood", "2019-04-20", text="The creek stood over the cap.")
    book.add_event(well, "pregnancy", "2020-02", text=PRIVATE_EVENT, private=True)
    _tests(book, raw, tap)
    return book


def _tests(book, raw, tap):
    lab = {"lab": "Larkspur Laboratory", "sampler": SAMPLER, "standing": "owner"}
    first = book.add_sample(
        sample(
            raw, "2004-05-03",
            result("nitrate", "Nitrate (as NO3)", "31.9", "mg/L", basis="as NO3", method="300.0"),
            result("arsenic", "Arsenic", "0.030", "mg/L", method="EPA 200.8"),
            result("total_coliform", "Coliform, total", "absent", "per 100 mL"),
            result("iron", "Iron", "0.42", "mg/L", fraction="total"),
            **lab,
            note=f"Drawn by {SAMPLER} after a week of rain.",
            cost=COST, currency="USD",
        )
    )  # fmt: skip
    book.add_sample(
        sample(
            raw, "2012-09-12T07:15-04:00",
            result("nitrate", "Nitrate-N", "8.6", "mg/L", basis="as N", qualifier="J"),
            result("arsenic", "Arsenic", "<0.05", "mg/L", reporting_limit="0.05"),
            result("hardness", "Hardness", "14.2", "gpg"),
            result("", "Unobtainium", "3.3", "mg/L"),
            **lab,
        )
    )  # fmt: skip
    flooded = book.add_sample(
        sample(
            raw, "2019-05-02T06:40",
            result("nitrate", "Nitrate-N", "11.4", "mg/L", basis="as N"),
            result("e_coli", "E. coli", "present", "per 100 mL"),
            result("total_coliform", "Coliform, total", ">2419.6", "MPN/100 mL"),
            result("manganese", "Manganese", "62", "µg/L"),
            result("ph", "pH", "6.1", "pH units"),
            **lab, purpose="after an event",
            documents=(NewDocument("Vexley report.pdf", "application/pdf", REPORT),),
        )
    )  # fmt: skip
    book.add_sample(
        sample(
            tap, "2019-05-02T06:50",
            result("hardness", "Hardness", "<1", "gpg"),
            result("ph", "pH", "7.0", "pH units"),
            **lab, note=FORMULA,
        )
    )  # fmt: skip
    struck = book.add_sample(
        sample(raw, "2020-01-07", result("nitrate", "Nitrate-N", "77.7", "mg/L", basis="as N"))
    )
    book.strike_sample(struck, "The bottle was mixed up with a neighbour’s.")
    wrong = book.results(sample=first, parameter="iron")[0]
    book.correct_result(
        wrong.id, result("iron", "Iron", "0.24", "mg/L", fraction="total"), "Digits were swapped."
    )
    assert flooded


def with_one_test(path):
    book = new_book(path)
    well = book.add_well("W")
    point = book.add_point(well, "P")
    book.add_sample(sample(point, "2024-05-03", result("nitrate", "Nitrate", "1", "mg/L")))
    return book
