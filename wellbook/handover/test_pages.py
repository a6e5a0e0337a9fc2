"""Every test in order, every reading as it was reported."""

from reportlab.platypus import CondPageBreak, KeepTogether

from wellbook.handover import style, words
from wellbook.handover.desk import Desk, Story, marked, text
from wellbook.handover.grid import Cell, Column, grid
from wellbook.handover.history import Judged, SampleFacts

_COLUMNS = (
    Column("Reading as reported", 100),
    Column("Reporting limit", 50),
    Column("Method", 78),
    Column("On that day", 66),
    Column("By today’s limits", 66),
    Column("Limit", 36),
)
_WHOLE = 14  # rows; a longer table may go on on the next page, a shorter one stays whole
_ROOM = 130.0  # points that a longer table needs to begin on a page


def tests(desk: Desk) -> Story:
    """All tests that count, the earliest first."""
    story: Story = [desk.heading("All tests in order", "tests")]
    if not desk.history.tests:
        return [*story, text("None yet.")]
    story.append(
        text(
            "Text, unit and basis stand as the lab printed them. “As N” and “as NO3” are "
            "different figures for the same water: mind the basis when you compare."
        )
    )
    for test in desk.history.tests:
        story += one_test(desk, test)
    return story


def one_test(desk: Desk, test: SampleFacts) -> Story:
    """One test: where, when and by whom, then its readings."""
    sample = test.sample
    title = f"Test {test.number}: {words.moment(sample.collected)}, {where(desk, test)}"
    story: Story = [
        desk.second(title, test_key(test)),
        text(". ".join(_facts(test)) + ".", style.SMALL),
        *_remarks(test),
    ]
    if not test.results:
        return [*story, text("No readings were entered.", style.SMALL)]
    columns = (Column(f"Test {test.number}: as printed", 112), *_COLUMNS)
    story.append(grid(columns, [_row(desk, test, one) for one in test.results], desk.width))
    return [KeepTogether(story)] if len(test.results) <= _WHOLE else [CondPageBreak(_ROOM), *story]


def test_key(test: SampleFacts) -> str:
    """The link's end at a test."""
    return f"test-{test.number}"


def where(desk: Desk, test: SampleFacts) -> str:
    """The point of a test, with its well where there are several."""
    return f"{test.well}, {test.point}" if len(desk.history.wells) > 1 else test.point


def _facts(test: SampleFacts) -> list[str]:
    sample = test.sample
    named = (
        ("", "after treatment" if test.treated else "before treatment"),
        ("drawn by ", ", ".join(filter(None, (sample.sampler, sample.standing)))),
        ("purpose: ", sample.purpose),
        ("", sample.draw),
        ("lab: ", sample.lab),
        ("lab’s number ", sample.lab_number),
        ("sent off ", words.moment(sample.dispatched) if sample.dispatched else ""),
        ("received ", words.moment(sample.received) if sample.received else ""),
        ("at ", sample.temperature),
        ("reported ", words.loose_day(sample.reported)),
        ("originals: ", words.count(len(test.documents), "document") if test.documents else ""),
        ("rain of the ten days before: ", sample.rain),
        ("note: ", sample.note),
    )
    said = [f"{name}{value}" for name, value in named if value]
    return [one[0].upper() + one[1:].rstrip(".") for one in said]


def _row(desk: Desk, test: SampleFacts, one: Judged) -> list[Cell]:
    result = one.result
    lab = f" ({result.lab})" if result.lab and result.lab != test.sample.lab else ""
    return [
        result.name,
        as_reported(one),
        result.reporting_limit,
        f"{result.method}{lab}".strip(),
        marked(one.then),
        marked(one.now),
        desk.references(one.then, one.now),
    ]


def as_reported(one: Judged) -> str:
    """Text, unit, basis and fraction as printed, then the lab's letters and what they mean."""
    said = one.result.reading
    flags = ", ".join(sorted(said.flags))
    letters = ": ".join(filter(None, (one.result.qualifier, flags)))
    return " ".join(filter(None, (words.with_fraction(said), f"({letters})" if letters else "")))


def _remarks(test: SampleFacts) -> Story:
    """What the verdicts of a test rest on, the same remark once for all its parameters."""
    names: dict[str, list[str]] = {}
    for one in test.results:
        if one.parameter is not None:
            for why in dict.fromkeys(filter(None, (one.then.why, one.now.why))):
                names.setdefault(why, []).append(one.result.name)
    return [text(f"{', '.join(known)}: {why}", style.SMALL) for why, known in names.items()]
