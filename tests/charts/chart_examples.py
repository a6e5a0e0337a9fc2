"""Invented histories for the tests of charts."""

from datetime import date
from decimal import Decimal
from functools import cache

from wellbook.charts.model.describe import chart
from wellbook.charts.model.parts import Chart, EventMark
from wellbook.support.paths import resources
from wellbook.water.values.catalogue import Catalogue, read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.values.seasons import NORTHERN, wet_and_dry
from wellbook.water.verdicts.point_record import PointRecord

TODAY = date(2026, 11, 25)
FLOOD = EventMark(date(2012, 8, 28), "flood")
EVENTS = (
    FLOOD,
    EventMark(date(2013, 3, 2), "new pump"),
    EventMark(date(2019, 5, 1), "treatment: reverse osmosis at the kitchen tap"),
    EventMark(date(2025, 9, 1), "drilling nearby"),
)


@cache
def catalogue() -> Catalogue:
    return read_catalogue(resources())


def default_sets() -> tuple[str, ...]:
    return tuple(key for key, limit_set in catalogue().sets.items() if limit_set.default)


def result(parameter, day, text, unit="", *, basis="", flags=(), kind=None, fraction="", id=0):  # noqa: A002
    number = text.strip("<>≥")
    is_number = number.replace(".", "").isdigit()
    kinds = {"<": Kind.BELOW, ">": Kind.ABOVE, "p": Kind.PRESENT, "a": Kind.ABSENT}
    reading = Reading(
        text,
        kind or kinds.get(text[0], Kind.NUMBER),
        Decimal(number) if is_number else None,
        unit,
        basis,
        fraction,
        frozenset(flags),
    )
    return Result(id or day.toordinal(), 1, parameter, parameter, reading, LocalTime(day), 1)


def days(first, n, months=14):
    """Days a number of calendar months apart."""
    for step in range(n):
        month = first.month - 1 + step * months
        yield date(first.year + month // 12, month % 12 + 1, first.day)


def history(parameter, first, texts, unit="", *, months=14, basis=""):
    dates = days(first, len(texts), months)
    return [
        result(parameter, day, text, unit, basis=basis, id=n)
        for n, (day, text) in enumerate(zip(dates, texts, strict=True), 1)
    ]


def describe(results, parameter, *, events=(), sets=None, scheme=NORTHERN, **more) -> Chart:
    return chart(
        PointRecord.of(results),
        catalogue().parameters[parameter],
        catalogue(),
        default_sets() if sets is None else sets,
        events,
        scheme,
        more.pop("today", TODAY),
        other=PointRecord.of(more.pop("other_history")) if "other_history" in more else None,
        **more,
    )


RISING = ["3.1", "3.6", "3.4", "4.4", "4.9", "5.2", "5.1", "6.0", "6.6", "6.4", "7.3", "7.7", "8.1"]
FALLING_BEHIND = [
    "<10",
    "<10",
    "<10",
    "6.1",
    "<5",
    "7.4",
    "8.2",
    "5.9",
    "<5",
    "9.1",
    "11.2",
    "12.4",
]


def nitrate(**more):
    rows = history("nitrate", date(2011, 3, 8), RISING, "mg/L", basis="as N")
    return describe(rows, "nitrate", **more)


def arsenic(**more):
    rows = history("arsenic", date(1998, 4, 8), FALLING_BEHIND, "µg/L", months=24)
    return describe(rows, "arsenic", **more)


def coliform(**more):
    texts = ["absent", "present", "absent", "<1", "23", "<10", "absent", ">2419.6"]
    rows = [
        result("total_coliform", day, text, "" if text.isalpha() else "MPN/100 mL", id=n)
        for n, (day, text) in enumerate(zip(days(date(2014, 2, 8), 8, 17), texts, strict=True), 1)
    ]
    return describe(rows, "total_coliform", scheme=wet_and_dry([11, 12, 1, 2]), **more)


def ph(**more):
    rows = history("ph", date(2012, 5, 8), ["6.9", "6.4", "6.6", "7.2", "6.5", "6.3"], "pH units")
    return describe(rows, "ph", **more)


def dense(n=480, **more):
    rows = history(
        "nitrate",
        date(1986, 1, 15),
        [f"{3 + i % 7}.{i % 10}" for i in range(n)],
        "mg/L",
        months=1,
        basis="as N",
    )
    return describe(rows, "nitrate", **more)


def many_events(n=40):
    return [
        EventMark(date(1986 + i, 1 + i % 12, 3), f"something long happened {i}") for i in range(n)
    ]


def examples() -> dict[str, Chart]:
    """Every sort of chart that there is, by name."""
    treated = history(
        "nitrate", date(2019, 6, 8), ["0.9", "1.1", "<0.5", "1.4"], "mg/L", basis="as N"
    )
    iron = ["0.05", "0.08", "<0.02", "0.11", "7.5", "0.09", "0.06", "<0.05", ">20"]
    return {
        "rising": nitrate(events=EVENTS),
        "raw and treated": nitrate(
            events=EVENTS, other_history=treated, names=("pressure tank", "kitchen tap")
        ),
        "non-detects and a moved limit": arsenic(events=EVENTS),
        "range": ph(),
        "strip": coliform(events=EVENTS),
        "one test": describe(history("lead", date(2026, 3, 4), ["4.2"], "µg/L"), "lead"),
        "only non-detects": describe(
            history("nitrate", date(2015, 5, 8), ["<0.5"] * 6, "mg/L", basis="as N"), "nitrate"
        ),
        "forty years, many events": dense(events=many_events()),
        "logarithmic": describe(history("iron", date(2012, 5, 8), iron, "mg/L"), "iron"),
        "no result": describe([], "nitrate"),
        "two levels": describe(
            history("manganese", date(2012, 5, 8), ["0.04", "0.2", "0.11", "0.31"], "mg/L"),
            "manganese",
            events=[EventMark(date(2019, 5, 1 + 3 * i), f"thing {i}") for i in range(7)],
        ),
        "money and math": nitrate(events=[EventMark(date(2015, 1, 1), "filter for $40 or $50")]),
    }
